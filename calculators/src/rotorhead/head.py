"""The description of a rotor head: reading, checking and writing it (changing and mirroring: `head_changes`).

A description stores geometry and blade only; lead, delta-three, Lock number, flap frequency, lag and
the offset of the rods are derived from it (`rotor.py`, `derived.py`) and never stored beside it.
Checks that need the linkage (does every link close, do the strokes reach) stand in
`mechanism/assembly.py`, above this module.
"""

import json
import math
import re
from collections.abc import Container, Mapping
from dataclasses import dataclass
from functools import cache, cached_property
from importlib import resources
from typing import Any, Final, cast

from . import units
from .conventions import Rotation
from .faults import Fault, Refused, refuse
from .head_checks import cross_checked
from .head_figures import (
    BY_KEY,
    FIGURES,
    OPTION_BY_KEY,
    OPTIONS,
    ROD_BEARING,
    ROD_STROKE,
    RODS_COUNT,
    RODS_FEWEST,
    RODS_MOST,
    Figure,
    Option,
    rod_figure,
)

FORMAT: Final = "hand-to-disc head"
VERSION: Final = 2
DEMONSTRATION: Final = ("alder3", "birch2", "cedar4", "dogwood5", "elder6")
NAME_LONGEST: Final = 80
DEEPEST: Final = 8
_STRING: Final = re.compile(r'"(?:[^"\\]|\\.)*"', re.DOTALL)
_BRACKET: Final = re.compile(r"[\[\]{}]")
# The id of a head that a reader has described.
OWN_ID: Final = "own"


@dataclass(frozen=True, slots=True)
class Rod:
    """A rod under the stationary ring: its bearing and its stroke, end to end."""

    bearing_deg: float
    stroke_mm: float


@dataclass(frozen=True)
class Head:
    """A head as described: plain values in the units their keys name.

    `figures` holds the numbers of `head_figures.FIGURES`, `options` the choices; both are tuples of
    pairs so that a head can be hashed and results cached by head.
    """

    id: str
    name: str
    note: str
    figures: tuple[tuple[str, float], ...]
    options: tuple[tuple[str, str], ...]
    rods: tuple[Rod, ...]
    mirrored: bool = False
    # Figures that are only known to lie between two values, in the unit their key names; the figure itself is the middle.
    unknown: tuple[tuple[str, tuple[float, float]], ...] = ()

    def __getitem__(self, key: str) -> float:
        """A figure by key, in the unit its key names; 'rods.1.bearing_deg' for a rod's."""
        if key == RODS_COUNT.key:
            return float(len(self.rods))
        if key.startswith("rods."):
            _, number, part = key.split(".")
            return float(getattr(self.rods[int(number) - 1], part))
        return self._by_key[key]

    def option(self, key: str) -> str:
        """A choice by key."""
        return self._chosen[key]

    @cached_property
    def _by_key(self) -> dict[str, float]:
        return dict(self.figures)

    @cached_property
    def _chosen(self) -> dict[str, str]:
        return dict(self.options)

    @property
    def rotation(self) -> Rotation:
        """Direction of turning, seen from above."""
        return cast(Rotation, self.option("rotation"))

    def keys(self) -> tuple[str, ...]:
        """Every key a reader can change: options, figures, rods."""
        rods = [rod_figure(n, part).key for n in range(1, len(self.rods) + 1) for part in (ROD_BEARING, ROD_STROKE)]
        return (*(o.key for o in OPTIONS), *(f.key for f in FIGURES), RODS_COUNT.key, *rods)


def range_text(figure: Figure, system: units.System) -> str:
    """'between 30 and 1500 mm' in the reader's units."""
    low, high = (
        units.plain(units.from_si(figure.quantity, units.to_si(figure.quantity, x, "metric"), system), 3)
        for x in (figure.low, figure.high)
    )  # fmt: skip
    symbol = units.QUANTITIES[figure.quantity].unit(system).symbol
    gap = "" if symbol in ("", "°", "%") else " "
    return f"between {low} and {high}{gap}{symbol}".replace("-", "\N{MINUS SIGN}")


def checked_figure(figure: Figure, value: float, shown: str, system: units.System = "metric") -> float:
    """A figure within its hard limits, or `Refused` naming it, the value and what is allowed.

    `value` is in the key's own (metric) unit, `shown` is what the reader typed. Nothing is clamped.
    """
    if not math.isfinite(value) or not figure.low <= value <= figure.high:
        raise refuse(
            figure.key,
            f"{figure.label}: {shown} is outside what is allowed, {range_text(figure, system)}.",
            head=True,
        )
    if figure.whole and value != math.floor(value):
        raise refuse(figure.key, f"{figure.label}: {shown} must be a whole number.", head=True)
    return value


def _checked_option(option: Option, value: object) -> str:
    allowed = [v for v, _ in option.choices]
    if not isinstance(value, str) or value not in allowed:
        shown = str(value)[:40]
        raise refuse(option.key, f"{option.label}: “{shown}” must be one of {', '.join(allowed)}.", head=True)
    return value


def _number(figure: Figure, data: Mapping[str, Any], where: str) -> float:
    if where not in data:
        raise refuse(figure.key, f"{figure.label} ({figure.key}) is missing.", head=True)
    value = data[where]
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise refuse(
            figure.key,
            f"{figure.label} ({figure.key}): “{str(value)[:40]}” is not a number.",
            head=True,
        )
    try:
        number = float(value)
    except OverflowError:
        number = math.inf
    return checked_figure(figure, number, f"{value!s:.40}")


def _upgraded(data: Mapping[str, Any]) -> tuple[Mapping[str, Any], object]:
    """A description of an older version as today's: version 1 had no figures that are only known between two values."""
    if data.get("version") == 1 and not isinstance(data.get("version"), bool) and "unknown" not in data:
        data = {**data, "version": VERSION, "unknown": {}}
    return data, data.get("version")


def _unknown(data: object, keys: Container[str], faults: list[Fault]) -> tuple[tuple[str, tuple[float, float]], ...]:
    if not isinstance(data, Mapping):
        faults.append(Fault("unknown", "unknown: figures by key, each with its least and greatest value.", True))
        return ()
    found: list[tuple[str, tuple[float, float]]] = []
    for key, span in data.items():
        figure = BY_KEY.get(str(key))
        if figure is None or key not in keys or figure.whole:
            faults.append(
                Fault(
                    str(key)[:40],
                    f"unknown: “{str(key)[:40]}” is not a figure that can be left between two values.",
                    True,
                )
            )
            continue
        if not isinstance(span, list) or len(span) != 2:
            faults.append(Fault(figure.key, f"unknown: {figure.label} needs its least and its greatest value.", True))
            continue
        try:
            low, high = (_number(figure, {figure.key: v}, figure.key) for v in span)
            found.append((figure.key, in_order(figure, low, high)))
        except Refused as refused:
            faults += refused.faults
    return tuple(found)


def in_order(figure: Figure, low: float, high: float) -> tuple[float, float]:
    """Least and greatest value, or `Refused` when they stand the wrong way round."""
    if not low < high:
        raise refuse(figure.key, f"{figure.label}: the first value of a range must be the smaller one.", head=True)
    return low, high


def from_dict(data: object) -> Head:
    """A description read from JSON -> Head. Raises `Refused` with every fault at once."""
    if not isinstance(data, Mapping):
        raise refuse("format", "A head description is a JSON object.", head=True)
    faults: list[Fault] = []
    if data.get("format") != FORMAT:
        faults.append(Fault("format", f"format: “{str(data.get('format'))[:40]}” must be “{FORMAT}”.", True))
    data, version = _upgraded(data)
    if isinstance(version, int) and not isinstance(version, bool) and version > VERSION:
        faults.append(
            Fault("version", f"version: {version} is newer than this site reads (up to {VERSION}).", True)
        )  # fmt: skip
    elif version != VERSION or isinstance(version, bool):
        faults.append(Fault("version", f"version: “{str(version)[:40]}” must be {VERSION}.", True))
    texts: dict[str, str] = {}
    for key, longest in (("id", 40), ("name", NAME_LONGEST), ("note", 2000)):
        text = data.get(key, "" if key == "note" else None)
        if not isinstance(text, str) or (key != "note" and not text.strip()) or len(text) > longest:
            faults.append(Fault(key, f"{key}: a text of 1 to {longest} characters is needed.", True))
        else:
            texts[key] = text
    known = (
        {"format", "version", "id", "name", "note", "rods", "unknown"} | OPTION_BY_KEY.keys() | {f.key for f in FIGURES}
    )
    faults += [Fault(str(k)[:40], f"“{str(k)[:40]}” is not a figure of a head.", True) for k in data if k not in known]
    figures: list[tuple[str, float]] = []
    options: list[tuple[str, str]] = []
    for option in OPTIONS:
        try:
            options.append((option.key, _checked_option(option, data.get(option.key))))
        except Refused as refused:
            faults += refused.faults
    for figure in FIGURES:
        try:
            figures.append((figure.key, _number(figure, data, figure.key)))
        except Refused as refused:
            faults += refused.faults
    rods = _rods(data.get("rods"), faults)
    named = {
        *(f.key for f in FIGURES),
        *(rod_figure(n, p).key for n in range(1, len(rods) + 1) for p in (ROD_BEARING, ROD_STROKE)),
    }
    unknown = _unknown(data.get("unknown", {}), named, faults)
    if faults:
        raise Refused(faults)
    head = Head(
        texts["id"], texts["name"], texts.get("note", ""), tuple(figures), tuple(options), rods, unknown=unknown
    )
    for key, (low, high) in unknown:
        if not low <= head[key] <= high:
            text = f"{BY_KEY[key].label}: {head[key]:g} does not lie in the range given for it, {low:g} to {high:g}."
            faults.append(Fault(key, text, True))
    if faults:
        raise Refused(faults)
    return cross_checked(head)


def _rods(data: object, faults: list[Fault]) -> tuple[Rod, ...]:
    if not isinstance(data, list) or not RODS_FEWEST <= len(data) <= RODS_MOST:
        faults.append(Fault("rods", f"rods: a list of {RODS_FEWEST} to {RODS_MOST} rods is needed.", True))
        return ()
    rods: list[Rod] = []
    for n, entry in enumerate(data, start=1):
        if not isinstance(entry, Mapping):
            faults.append(Fault(f"rods.{n}", f"Rod {n}: bearing_deg and stroke_mm are needed.", True))
            continue
        found: list[float] = []
        for part in (ROD_BEARING, ROD_STROKE):
            try:
                found.append(_number(rod_figure(n, part), entry, part.key))
            except Refused as refused:
                faults += refused.faults
        if len(found) == 2:
            rods.append(Rod(found[0], found[1]))
    return tuple(rods)


def to_dict(head: Head) -> dict[str, object]:
    """A head -> what is written to a JSON file; reading it back gives the same head."""
    return {
        "format": FORMAT, "version": VERSION, "id": head.id, "name": head.name, "note": head.note,
        **dict(head.options), **dict(head.figures),
        "rods": [{"bearing_deg": r.bearing_deg, "stroke_mm": r.stroke_mm} for r in head.rods],
        "unknown": {key: list(span) for key, span in head.unknown},
    }  # fmt: skip


def _nested(text: str) -> int:
    """How deep a JSON text is nested, without reading it: brackets outside its strings."""
    level = deepest = 0
    for sign in _BRACKET.findall(_STRING.sub("", text)):
        level += 1 if sign in "[{" else -1
        deepest = max(deepest, level)
    return deepest


def from_json(text: str) -> Head:
    """JSON text -> Head. Raises `Refused`; a file that is no JSON is refused with a sentence.

    So is one nested deeper than any head's file: a browser's stack is small, and its Python would end without a word.
    """
    if _nested(text) > DEEPEST:
        raise refuse("format", "This is not a head's file: it is nested too deep.", head=True)
    try:
        data = json.loads(text)
    except (ValueError, RecursionError) as error:
        raise refuse("format", f"This is not a JSON file that can be read: {error}.", head=True) from None
    return from_dict(data)


@cache
def demonstration(head_id: str) -> Head:
    """One of the invented heads of this site by id."""
    if head_id not in DEMONSTRATION:
        raise refuse("head", f"There is no head “{head_id[:40]}”; there are {', '.join(DEMONSTRATION)}.")
    path = resources.files(__package__).joinpath("heads", f"{head_id}.json")
    return from_json(path.read_text(encoding="utf-8"))
