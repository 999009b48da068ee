"""Equations as MathML, made from the calculators' own LaTeX when the site is built."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import latex2mathml.converter
from rotorhead.render import MATHML
from rotorhead.topics import ALL, module_of


@cache
def equations() -> dict[str, str]:
    """LaTeX -> MathML for every equation a calculator declares."""
    return {
        latex: latex2mathml.converter.convert(latex, display="block")
        for calculator in ALL.values()
        for latex in calculator.equations.values()
    }


def write(package: Path) -> None:
    """Put the equations into a copy of the package, a module for each calculator: it travels in that calculator's part."""
    for calculator in ALL.values():
        made = {latex: equations()[latex] for latex in calculator.equations.values()}
        module = package / "topics" / f"{MATHML}{module_of(calculator.id)}.py"
        module.write_text(f"MADE = {made!r}\n", encoding="utf-8")
