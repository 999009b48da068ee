"""The air, the hover and forward flight: what sets the blade to work, and what the disc does to the aircraft."""
