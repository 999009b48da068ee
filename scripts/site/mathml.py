"""Equations as MathML, made from the calculators' own LaTeX when the site is built."""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path

import latex2mathml.converter
from rotorhead.topics import ALL


@cache
def equations() -> dict[str, str]:
    """LaTeX -> MathML for every equation a calculator declares."""
    return {
        latex: latex2mathml.converter.convert(latex, display="block")
        for calculator in ALL.values()
        for latex in calculator.equations.values()
    }


def write(package: Path) -> None:
    """Put the equations into a copy of the package, where the browser's Python finds them."""
    (package / "mathml.json").write_text(json.dumps(equations(), ensure_ascii=False, sort_keys=True), encoding="utf-8")
