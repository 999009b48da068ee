"""What comes back down the rods: feathering moment, link and rod loads, shake, hands, hydraulic help."""
