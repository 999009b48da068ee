"""How far answers spread when figures of the head are only known to lie between two values.

Each such figure is taken at both its ends by itself, the others in their middles; the swings are added as independent
ones are, by their squares. Swings that are far from straight, or figures that only matter together, are not caught.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace

from . import units
from .conventions import wrap
from .faults import Refused
from .fields import Calculator
from .head import Head, Rod
from .head_figures import BY_KEY
from .mechanism.assembly import assembled
from .run import run


@dataclass(frozen=True, slots=True)
class Spread:
    """Least and greatest of each numeric result (SI), the labels of what isn't known, and what couldn't be tried."""

    results: Mapping[str, tuple[float, float]]
    unknown: tuple[str, ...]
    failed: tuple[str, ...]


def with_figure(head: Head, key: str, value: float) -> Head:
    """The head with one figure set and nothing left unknown."""
    if key.startswith("rods."):
        _, number, part = key.split(".")
        rods: list[Rod] = list(head.rods)
        rods[int(number) - 1] = replace(rods[int(number) - 1], **{part: value})
        return replace(head, rods=tuple(rods), unknown=())
    return replace(head, figures=tuple((k, value if k == key else v) for k, v in head.figures), unknown=())


def spread_of(calculator: Calculator, texts: Mapping[str, str], head: Head, system: units.System) -> Spread | None:
    """The spread of a calculator's numeric results for what isn't known of a head; None when all is known."""
    if not head.unknown:
        return None
    quantities = {r.name: r.quantity for r in calculator.results}

    def numbers(of: Head) -> dict[str, float]:
        found = run(calculator, texts, assembled(of), system).answer.results
        return {k: v for k, v in found.items() if isinstance(v, float)}

    middle = numbers(replace(head, unknown=()))
    up, down = dict.fromkeys(middle, 0.0), dict.fromkeys(middle, 0.0)
    failed = []
    for key, ends in head.unknown:
        swings: dict[str, list[float]] = {}
        for end in ends:
            try:
                there = numbers(with_figure(head, key, end))
            except Refused:
                figure = BY_KEY[key]
                at = units.show(figure.quantity, units.to_si(figure.quantity, end, "metric"), system, figure.decimals)
                failed.append(f"{figure.label} at {at}")
                continue
            for name in middle.keys() & there.keys():
                swing = there[name] - middle[name]
                if quantities.get(name) == "angle":
                    swing = wrap(swing)
                swings.setdefault(name, [0.0]).append(swing)
        for name, found in swings.items():
            # Both ends of one figure may swing the same way: the greater of the two counts.
            up[name] = math.hypot(up[name], max(found))
            down[name] = math.hypot(down[name], min(found))
    return Spread(
        {k: (v - down[k], v + up[k]) for k, v in middle.items() if up[k] or down[k]},
        tuple(BY_KEY[key].label for key, _ in head.unknown),
        tuple(failed),
    )
