"""Carrying over what a reader has typed: to other units, or to the head turned the other way."""

from collections.abc import Mapping
from dataclasses import replace
from typing import Any, Final

from . import units
from .faults import Refused
from .head_changes import range_parts
from .head_figures import BY_KEY
from .numbers import parse_number
from .run import HeadChoice, head_choice, input_texts, number_text
from .topics import named

Request = Mapping[str, Any]
Reply = dict[str, Any]
_BEARINGS: Final = ("bearing_deg",)


def _retext(text: str, quantity: str, places: int, old: units.System, new: units.System) -> str:
    """A typed number, or range, in other units; what is no number stays as it was typed."""
    if span := range_parts(text):
        return " to ".join(_retext(part, quantity, places, old, new) for part in span)
    try:
        typed = parse_number(text, "", "")
    except Refused:
        return text
    metric = units.from_si(quantity, units.to_si(quantity, typed, old), "metric")
    return number_text(quantity, metric, places + 2, new)


def reunit(data: Request, old: units.System, new: units.System) -> Reply:
    """Change of units: everything the reader typed is carried over."""
    choice = head_choice(data.get("head", {}))
    changes = {
        k: _retext(v, BY_KEY[k].quantity, BY_KEY[k].decimals, old, new) if k in BY_KEY else v
        for k, v in choice.changes.items()
    }
    inputs: dict[str, dict[str, str]] = {}
    for name, texts in dict(data.get("inputs", {})).items():
        calculator = named(name)
        known = {i.name: i for i in calculator.inputs}
        inputs[name] = {}
        for key, text in input_texts(texts).items():
            item = known.get(key)
            quantity = getattr(item, "quantity", None)
            inputs[name][key] = _retext(text, quantity, getattr(item, "decimals", 1), old, new) if quantity else text
    return {"head": _carried(choice, changes), "inputs": inputs}


def _carried(choice: HeadChoice, changes: dict[str, str]) -> Reply:
    own = {"own": choice.own} if choice.own else {}
    return {"base": choice.base, **own, "mirrored": choice.mirrored, "changes": changes}


def _other_side(text: str, *, end: bool = False) -> str:
    """A typed bearing, or range of them, in the mirror; what is no number stays as it was typed.

    At the end of a range 0 is the other side of 360: reduced to a turn, '0 to 10' would become '350 to 0'.
    """
    if span := range_parts(text):
        return " to ".join(_other_side(part, end=True) for part in reversed(span))
    try:
        mirror = 360.0 - parse_number(text, "", "")
        return units.plain(mirror if end else mirror % 360.0, 3)
    except Refused:
        return text


def turn(data: Request, old: units.System, new: units.System) -> Reply:  # noqa: ARG001 - bearings are the same in all units
    """Turn the head the other way: bearings the reader typed are mirrored with it."""
    choice = head_choice(data.get("head", {}))
    changes = dict(choice.changes)
    for key, text in changes.items():
        if key.endswith(_BEARINGS):
            changes[key] = _other_side(text)
        elif key == "rotation":
            changes[key] = {"anticlockwise": "clockwise", "clockwise": "anticlockwise"}.get(text, text)
    turned = replace(choice, mirrored=not choice.mirrored, changes=changes)
    inputs: dict[str, dict[str, str]] = {}
    for calculator, texts in dict(data.get("inputs", {})).items():
        bearings = {i.name for i in named(calculator).inputs if getattr(i, "bearing", False)}
        inputs[calculator] = {k: _other_side(t) if k in bearings else t for k, t in input_texts(texts).items()}
    return {"head": _carried(turned, changes), "inputs": inputs}
