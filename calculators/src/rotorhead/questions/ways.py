"""Where a question of flight leads to: a calculator that shows the same thing, and the question's own working.

The answers of these questions come from the models of `flight`; the calculators of forward flight carry those models
with them, so a question names the calculator whose part of the package must be in place (scripts/site/parts.py).
"""

from dataclasses import replace
from typing import Final

from ..fields import Step
from .model import Setting, Solved

HANDBOOK: Final = "Helicopter Flying Handbook, FAA-H-8083-21B"
TEXTBOOKS: Final = "Textbooks of helicopter theory (from memory); re-derived."


def worked(setting: Setting, name: str, steps: tuple[Step, ...], *sources: str, **inputs: str) -> Solved:
    """The way to a calculator at these inputs, with the question's own working."""
    return replace(setting.run(name, **inputs), steps=steps, sources=(*sources, TEXTBOOKS))
