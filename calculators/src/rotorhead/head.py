"""The description of a rotor head: reading, checking, changing, mirroring and writing it.

A description stores geometry and blade only; lead, delta-three, Lock number, flap frequency, lag and
the offset of the rods are derived from it (`rotor.py`, `derived.py`) and never stored beside it.
Checks that need the linkage (does every link close, do the strokes reach) stand in
`mechanism/assembly.py`, above this module.
"""

import json
import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cache, cached_property
from importlib import resources
from typing import Any, Final, cast

from . import units
from .conventions import Rotation, mirrored_bearing, other_way
from .faults import Fault, Refused, refuse
from .head_figures import (
    BY_KEY,
    FIGURES,
    OPTION_BY_KEY,
    OPTIONS,
    ROD_BEARING,
    ROD_STROKE,
    RODS_FEWEST,
    RODS_MOST,
    Figure,
    Option,
    rod_figure,
)
from .numbers import parse_number

FORMAT: Final = "hand-to-disc head"
VERSION: Final = 1
DEMONSTRATION: Final = ("alder3", "birch2", "cedar4", "dogwood5", "elder6")
NAME_LONGEST: Final = 80


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

    def __getitem__(self, key: str) -> float:
        """A figure by key, in the unit its key names; 'rods.1.bearing_deg' for a rod's."""
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
        return (*(o.key for o in OPTIONS), *(f.key for f in FIGURES), *rods)


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


def from_dict(data: object) -> Head:
    """A description read from JSON -> Head. Raises `Refused` with every fault at once."""
    if not isinstance(data, Mapping):
        raise refuse("format", "A head description is a JSON object.", head=True)
    faults: list[Fault] = []
    if data.get("format") != FORMAT:
        faults.append(Fault("format", f"format: “{str(data.get('format'))[:40]}” must be “{FORMAT}”.", True))
    version = data.get("version")
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
    known = {"format", "version", "id", "name", "note", "rods"} | OPTION_BY_KEY.keys() | {f.key for f in FIGURES}
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
    if faults:
        raise Refused(faults)
    head = Head(texts["id"], texts["name"], texts.get("note", ""), tuple(figures), tuple(options), rods)
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


def cross_checked(head: Head) -> Head:
    """The head itself, or `Refused` naming every pair of figures that contradict each other."""
    faults: list[Fault] = []

    def fault(key: str, text: str) -> None:
        faults.append(Fault(key, text, True))

    low, high = head["collective_low_deg"], head["collective_high_deg"]
    if high - low < 1.0:
        fault("collective_high_deg",
              f"Greatest collective pitch ({high:g}°) must be at least 1° above the least ({low:g}°).")  # fmt: skip
    if abs(head["arm_mm"]) < 10.0:
        fault("arm_mm", f"Horn arm: {head['arm_mm']:g} mm is too short; 10 mm or more, ahead or behind.")
    if math.hypot(head["link_foot_out_mm"], head["link_foot_ahead_mm"]) < 10.0:
        fault("link_foot_ahead_mm", f"Link's lower end, ahead of the blade: with {head['link_foot_out_mm']:g} mm out and "
              f"{head['link_foot_ahead_mm']:g} mm ahead it stands on the mast; 10 mm from its axis at least.")  # fmt: skip
    if head.option("type") == "teetering":
        if head["blades"] != 2:
            fault("blades", f"A teetering head has two blades, not {head['blades']:.0f}.")
        if head["hinge_offset"] != 0.0:
            fault("hinge_offset", "A teetering head's hinge stands on the mast's axis: its distance is 0, "
                  f"not {head['hinge_offset']:g}.")  # fmt: skip
    if head["horn_station_mm"] > 1000 * head["radius_m"] * 0.5:
        fault("horn_station_mm", f"Horn stands out {head['horn_station_mm']:g} mm: more than half the radius.")
    if head["actuators"] and head["actuator_rod_mm"] >= head["actuator_bore_mm"]:
        fault("actuator_rod_mm", f"Actuator rod ({head['actuator_rod_mm']:g} mm) must be thinner than its bore "
              f"({head['actuator_bore_mm']:g} mm).")  # fmt: skip
    if head["thickness_radius_of_gyration_m"] >= head["chordwise_radius_of_gyration_m"]:
        fault("thickness_radius_of_gyration_m",
              "Radius of gyration across the thickness must be less than along the chord.")  # fmt: skip
    bearings = sorted(rod.bearing_deg % 360.0 for rod in head.rods)
    gaps = [b - a for a, b in zip(bearings, [*bearings[1:], bearings[0] + 360.0], strict=True)]
    if len([g for g in gaps if g >= 5.0]) < 3:
        fault("rods.1.bearing_deg", "The rods must stand at three or more different bearings, 5° apart at least: "
              f"{', '.join(f'{r.bearing_deg:g}°' for r in head.rods)} can't hold a plate.")  # fmt: skip
    if faults:
        raise Refused(faults)
    return head


def to_dict(head: Head) -> dict[str, object]:
    """A head -> what is written to a JSON file; reading it back gives the same head."""
    return {
        "format": FORMAT, "version": VERSION, "id": head.id, "name": head.name, "note": head.note,
        **dict(head.options), **dict(head.figures),
        "rods": [{"bearing_deg": r.bearing_deg, "stroke_mm": r.stroke_mm} for r in head.rods],
    }  # fmt: skip


def from_json(text: str) -> Head:
    """JSON text -> Head. Raises `Refused`; a file that is no JSON is refused with a sentence."""
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
    )


def changed(head: Head, changes: Mapping[str, str], system: units.System = "metric") -> Head:
    """A working copy: `changes` maps keys to the text a reader typed, in their units.

    Raises `Refused` with every fault at once; the head given is never altered.
    """
    faults: list[Fault] = []
    figures, options, rods = dict(head.figures), dict(head.options), list(head.rods)
    for key, text in changes.items():
        try:
            if key in OPTION_BY_KEY:
                options[key] = _checked_option(OPTION_BY_KEY[key], text.strip())
                continue
            if key not in head.keys():
                faults.append(Fault(key[:40], f"“{key[:40]}” is not a figure of this head.", True))
                continue
            figure = BY_KEY[key]
            typed = parse_number(text, key, figure.label, head=True)
            metric = units.from_si(figure.quantity, units.to_si(figure.quantity, typed, system), "metric")
            value = checked_figure(figure, round(metric, 9), text.strip()[: NAME_LONGEST // 2], system)
            if key.startswith("rods."):
                _, number, part = key.split(".")
                old = rods[int(number) - 1]
                rods[int(number) - 1] = replace(old, **{part: value})
            else:
                figures[key] = value
        except Refused as refused:
            faults += refused.faults
    if faults:
        raise Refused(faults)
    return cross_checked(
        replace(head, figures=tuple(figures.items()), options=tuple(options.items()), rods=tuple(rods))
    )
