"""The linkage: rods, plate, scissors and pitch links, exact and to first order."""
