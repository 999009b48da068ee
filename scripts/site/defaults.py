"""The head every page is printed for, and the package's answers about it and the others."""

from __future__ import annotations

import json
from functools import cache
from typing import Any, Final

import mathml
from rotorhead import door, render
from rotorhead.head import DEMONSTRATION
from rotorhead.site_figures import FIGURES
from rotorhead.topics import ALL

HEAD: Final = "alder3"
UNITS: Final = "metric"


def ask(request: dict[str, Any]) -> dict[str, Any]:
    """One request through the package's only door; anything but a result stops the build."""
    render.add_mathml(mathml.equations())
    reply: dict[str, Any] = json.loads(door.answer(json.dumps(request)))
    if reply["state"] != "result":
        raise RuntimeError(f"the package refused what the build asked: {reply}")
    return reply


@cache
def head_page(base: str = HEAD, mirrored: bool = False, units: str = UNITS) -> dict[str, Any]:
    """Values and figures of one head, as a page shows them."""
    return ask({"op": "values", "id": 0, "head": {"base": base, "mirrored": mirrored}, "units": units})


@cache
def calculator(name: str, base: str = HEAD, mirrored: bool = False, units: str = UNITS) -> dict[str, Any]:
    """A calculator's answer with everything at its default."""
    return ask({
        "op": "run", "id": 0, "calculator": name, "inputs": {}, "head": {"base": base, "mirrored": mirrored},
        "units": units,
    })  # fmt: skip


def everything(base: str, mirrored: bool, units: str) -> dict[str, Any]:
    """All that is printed for one head: what its script hands to the pages."""
    page = head_page(base, mirrored, units)
    runs = {name: calculator(name, base, mirrored, units) for name in ALL}
    return {
        "key": base,
        "mirrored": mirrored,
        "units": units,
        "head": page["head"],
        "values": page["values"],
        "figures": page["figures"],
        "calculators": {n: {"parts": r["parts"], "form": r["form"], "spoken": r["spoken"]} for n, r in runs.items()},
    }


HEADS: Final = DEMONSTRATION
FIGURE_NAMES: Final = tuple(FIGURES)
