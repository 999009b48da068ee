"""The blade: flapping, lag and the phase budget."""
