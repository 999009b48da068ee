"""What the pages must show: the same door, asked here in CPython."""

from __future__ import annotations

import json
from collections.abc import Mapping
from functools import cache
from itertools import product
from pathlib import Path
from typing import Any

import mathml
from rotorhead import door, render
from rotorhead.head import DEMONSTRATION
from rotorhead.topics import ALL

CALCULATORS = tuple(ALL)
HEADS = tuple(DEMONSTRATION)
UNITS = ("metric", "imperial")
# Every way a demonstration head can be printed: head, turned the other way or not, units.
CHOICES = tuple(product(HEADS, (False, True), UNITS))

SITE = Path(__file__).resolve().parents[2] / "site"
PAGES = tuple(sorted(p.relative_to(SITE).as_posix() for p in SITE.rglob("*.html"))) if SITE.exists() else ()
PAGE_OF = {name: calculator.page.replace(".md", ".html") for name, calculator in ALL.items()}


def head_of(base: str, mirrored: bool = False, changes: Mapping[str, str] | None = None) -> dict[str, Any]:
    """A head as requests carry it."""
    return {"base": base, "mirrored": mirrored, "changes": dict(changes or {})}


def run_request(
    calculator: str, head: Mapping[str, Any], units: str = "metric", inputs: Mapping[str, str] | None = None
) -> str:
    """The text of a run, without an id so that answers can be compared."""
    request = {
        "op": "run",
        "id": 0,
        "calculator": calculator,
        "inputs": dict(inputs or {}),
        "head": head,
        "units": units,
    }
    return json.dumps(request)


def values_request(head: Mapping[str, Any], units: str = "metric") -> str:
    """The text of a request for every value and figure of the running text."""
    return json.dumps({"op": "values", "id": 0, "names": None, "head": head, "units": units})


@cache
def answer(request: str) -> dict[str, Any]:
    """The door's answer. Read only: it is kept for the next test that asks the same."""
    # In the browser the equations are packed with the package; here the build's own mapping stands in for that file.
    render.add_mathml(mathml.equations())
    reply: dict[str, Any] = json.loads(door.answer(request))
    return reply


def run(
    calculator: str,
    base: str = "alder3",
    mirrored: bool = False,
    units: str = "metric",
    inputs: Mapping[str, str] | None = None,
    changes: Mapping[str, str] | None = None,
) -> dict[str, Any]:
    """One calculator's answer in CPython."""
    return answer(run_request(calculator, head_of(base, mirrored, changes), units, inputs))


def values(
    base: str = "alder3", mirrored: bool = False, units: str = "metric", changes: Mapping[str, str] | None = None
) -> dict[str, Any]:
    """Values and figures of the running text in CPython."""
    return answer(values_request(head_of(base, mirrored, changes), units))
