"""Scripts with everything printed for each demonstration head, so that picking one needs no Python."""

from __future__ import annotations

import json
from pathlib import Path

import defaults


def name(base: str, mirrored: bool, units: str) -> str:
    """File name of one head's script."""
    return f"{base}{'-mirrored' if mirrored else ''}.{units}.js"


def write(site: Path) -> None:
    """Write printed/<head>[-mirrored].<units>.js for every head, both ways, both systems of units."""
    folder = site / "assets" / "hd" / "printed"
    folder.mkdir(parents=True, exist_ok=True)
    for base in defaults.HEADS:
        for mirrored in (False, True):
            for units in ("metric", "imperial"):
                data = json.dumps(
                    defaults.everything(base, mirrored, units),
                    ensure_ascii=False,
                    separators=(",", ":"),
                    allow_nan=False,
                )
                # "</" can't stand in a script that some page might one day carry inline.
                text = f"handToDiscPrinted({data.replace('</', '<\\/')});\n"
                (folder / name(base, mirrored, units)).write_text(text, encoding="utf-8")
