"""Where things are. One place, so that a folder can move."""

from __future__ import annotations

from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
SCRIPTS = ROOT / "scripts"
DOCS = ROOT / "docs"
APP = DOCS / "assets" / "app"
CALCULATORS = ROOT / "calculators"
PACKAGE = CALCULATORS / "src" / "rotorhead"
SITE = ROOT / "site"

# Everything the scripts make and nobody edits.
BUILD = ROOT / ".build"
VENV = BUILD / "venv"
