"""Drawings of the head as SVG text, each with a sentence that says what it shows."""
