"""The air and the hover that set the blade to work."""
