"""Changing a head by what a reader typed, and turning it the other way."""

import math
import re
from collections.abc import Mapping
from dataclasses import replace
from typing import Final

from . import units
from .conventions import mirrored_bearing, other_way
from .faults import Fault, Refused, refuse
from .head import NAME_LONGEST, Head, Rod, _checked_option, checked_figure, in_order
from .head_checks import cross_checked
from .head_figures import BY_KEY, OPTION_BY_KEY, RODS_COUNT, Figure
from .numbers import parse_number

# Between two numbers: 'to', dots, or a dash with spaces round it (without them it could be a minus sign).
_BETWEEN: Final = re.compile(
    r"\s+to\s+|\s*(?:\.\.+|\N{HORIZONTAL ELLIPSIS})\s*|\s+[-\N{EN DASH}\N{MINUS SIGN}]\s+", re.IGNORECASE
)


def range_parts(text: str) -> tuple[str, str] | None:
    """'150 to 250', '150 … 250' or '150..250' -> its two numbers as typed; None for a single number."""
    parts = _BETWEEN.split(text.strip())
    return (parts[0], parts[1]) if len(parts) == 2 and parts[0] and parts[1] else None


def mirrored(head: Head) -> Head:
    """The same head turning the other way: rotation and everything that stands at a bearing mirrored."""
    swap = {
        "stationary_scissors_bearing_deg": math.degrees(
            mirrored_bearing(math.radians(head["stationary_scissors_bearing_deg"]))
        )
    }
    return replace(
        head,
        options=tuple((k, other_way(head.rotation) if k == "rotation" else v) for k, v in head.options),
        figures=tuple((k, round(swap.get(k, v), 9)) for k, v in head.figures),
        rods=tuple(Rod(round((360.0 - r.bearing_deg) % 360.0, 9), r.stroke_mm) for r in head.rods),
        mirrored=not head.mirrored,
        unknown=tuple(
            (k, (round(360.0 - high, 9), round(360.0 - low, 9)) if k.endswith("bearing_deg") else (low, high))
            for k, (low, high) in head.unknown
        ),
    )


def _typed(figure: Figure, text: str, system: units.System) -> float:
    """A typed number in the figure's own unit, within its limits."""
    typed = parse_number(text, figure.key, figure.label, head=True)
    metric = units.from_si(figure.quantity, units.to_si(figure.quantity, typed, system), "metric")
    return checked_figure(figure, round(metric, 9), text.strip()[: NAME_LONGEST // 2], system)


def _with_rods(head: Head, count: int) -> Head:
    """The head with `count` rods: further ones stand in the middle of the widest gap, with the first rod's stroke."""
    rods = list(head.rods[:count])
    while len(rods) < count:
        bearings = sorted(r.bearing_deg % 360.0 for r in rods)
        gaps = [(b - a, a) for a, b in zip(bearings, [*bearings[1:], bearings[0] + 360.0], strict=True)]
        wide, start = max(gaps)
        rods.append(Rod(round((start + wide / 2.0) % 360.0, 3), rods[0].stroke_mm))
    kept = tuple(u for u in head.unknown if not u[0].startswith("rods.") or int(u[0].split(".")[1]) <= count)
    return replace(head, rods=tuple(rods), unknown=kept)


def changed(head: Head, changes: Mapping[str, str], system: units.System = "metric") -> Head:
    """A working copy: `changes` maps keys to the text a reader typed, in their units.

    A text like '150 to 250' says that a figure is only known to lie between two values: the middle is used and the
    range kept in `Head.unknown`. Raises `Refused` with every fault at once; the head given is never altered.
    """
    faults: list[Fault] = []
    if RODS_COUNT.key in changes:
        try:
            head = _with_rods(head, int(_typed(RODS_COUNT, changes[RODS_COUNT.key], system)))
        except Refused as refused:
            faults += refused.faults
    allowed = set(head.keys())
    figures, options, rods, unknown = dict(head.figures), dict(head.options), list(head.rods), dict(head.unknown)
    for key, text in changes.items():
        try:
            if key in OPTION_BY_KEY:
                options[key] = _checked_option(OPTION_BY_KEY[key], text.strip())
                continue
            if key not in allowed:
                faults.append(Fault(key[:40], f"“{key[:40]}” is not a figure of this head.", True))
                continue
            if key == RODS_COUNT.key:
                continue
            figure, span = BY_KEY[key], range_parts(text)
            if span and figure.whole:
                raise refuse(key, f"{figure.label}: “{text[:40]}” must be one whole number.", head=True)
            if span:
                low, high = in_order(figure, *(_typed(figure, part, system) for part in span))
                value = round((low + high) / 2.0, 9)
                unknown[key] = (low, high)
            else:
                value = _typed(figure, text, system)
                unknown.pop(key, None)
            if key.startswith("rods."):
                _, number, part = key.split(".")
                rods[int(number) - 1] = replace(rods[int(number) - 1], **{part: value})
            else:
                figures[key] = value
        except Refused as refused:
            faults += refused.faults
    if faults:
        raise Refused(faults)
    return cross_checked(
        replace(
            head,
            figures=tuple(figures.items()),
            options=tuple(options.items()),
            rods=tuple(rods),
            unknown=tuple(unknown.items()),
        )
    )
