"""Helicopter rotor-head control, worked out: from two hands to the tilt of the disc.

Layers, lowest first; no import ever runs upward:
units, conventions -> head, head_checks, head_changes, head_packed, head_typical, head_schema -> rotor ->
mechanism, measure -> blade, flight -> loads -> motion -> fields -> derived -> drawing, disc_field -> topics -> questions, door.
Standard library only, so that the same code runs in a browser, on a command line and in the site's build.
"""

__version__ = "1.0.0"
