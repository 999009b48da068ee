"""Everything that moves, over a whole turn: one call, exact geometry, for the moving view and the drawings of it."""
