"""Running a calculator on what a reader typed: texts in, a case out, every fault at once."""

import math
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from . import units
from .faults import Fault, Refused, refuse
from .fields import Calculator, Case, Choice, Input, Number, Text, Value
from .head import OWN_ID, Head, demonstration
from .head_changes import changed, mirrored, range_parts
from .head_figures import BY_KEY, OPTION_BY_KEY
from .mechanism.assembly import assembled
from .numbers import parse_number
from .rotor import Rotor

LONGEST_TEXT = 60
MOST_NAMED = 12  # of a long list of choices a fault names the first


@dataclass(frozen=True)
class HeadChoice:
    """Which head a request is about: a demonstration head, turned or not, and the reader's changes."""

    base: str = "alder3"
    mirrored: bool = False
    changes: Mapping[str, str] = field(default_factory=dict)
    # A head the reader has described, packed (`head_packed`); "" for a demonstration head.
    own: str = ""

    @property
    def label(self) -> str:
        """'Alder 3', 'Alder 3, changed', 'Alder 3, turned the other way'."""
        parts = [base_head(self).name]
        if self.mirrored:
            parts.append("turned the other way")
        if self.changes:
            parts.append("changed")
        return ", ".join(parts)


def head_choice(data: object) -> HeadChoice:
    """A request's head -> choice. Raises `Refused` for anything that is not one."""
    if not isinstance(data, Mapping):
        raise refuse("head", "The head of a request must say which head it is.")
    base, turned, changes = data.get("base", "alder3"), data.get("mirrored", False), data.get("changes", {})
    if not isinstance(base, str) or not isinstance(turned, bool) or not isinstance(changes, Mapping):
        raise refuse("head", "The head of a request can't be read.")
    own = data.get("own", "")
    if not isinstance(own, str) or len(own) > 8000:
        raise refuse("head", "The head of a request can't be read.")
    base_head(HeadChoice(base, own=own))
    texts: dict[str, str] = {}
    for key, text in changes.items():
        if not isinstance(key, str) or not isinstance(text, str):
            raise refuse("head", "A changed figure of a head is a text.", head=True)
        texts[key.removeprefix("head.")] = text[: LONGEST_TEXT * 4]
    return HeadChoice(base, turned, texts, own if base == OWN_ID else "")


def input_texts(data: object) -> dict[str, str]:
    """Texts by name out of a request, each as long as a sheet of readings at most."""
    if not isinstance(data, Mapping) or not all(isinstance(k, str) and isinstance(v, str) for k, v in data.items()):
        raise refuse("inputs", "Inputs are texts by name.")
    return {str(k): str(v)[:4000] for k, v in data.items()}


def base_head(choice: HeadChoice) -> Head:
    """The head a choice starts from: one of the demonstration heads, or the reader's own."""
    if choice.base != OWN_ID:
        return demonstration(choice.base)
    # Imported here: most readers never describe a head (scripts/site/parts.py).
    from .head_packed import unpack

    return unpack(choice.own)


def without_idle_changes(choice: HeadChoice, system: units.System) -> HeadChoice:
    """The choice without changes that say what the head says anyway: set back is not changed."""
    head = as_drawn(choice)
    unknown = dict(head.unknown)

    def idle(key: str, text: str) -> bool:
        if key in OPTION_BY_KEY:
            return text.strip() == head.option(key)
        if key not in head.keys():
            return False
        figure = BY_KEY[key]
        if key in unknown or range_parts(text):
            return text.strip() == figure_text(head, key, system)
        return text.strip() == number_text(figure.quantity, head[key], figure.decimals + 2, system)

    return replace(choice, changes={k: t for k, t in choice.changes.items() if not idle(k, t)})


def as_drawn(choice: HeadChoice) -> Head:
    """The demonstration head of a choice, turned the other way if asked, without the reader's changes."""
    head = base_head(choice)
    return mirrored(head) if choice.mirrored else head


def rotor_of(choice: HeadChoice, system: units.System) -> Rotor:
    """The head of a choice, changes applied, checked that it goes together."""
    return assembled(changed(as_drawn(choice), choice.changes, system))


def number_text(quantity: str, metric: float, decimals: int, system: units.System) -> str:
    """A number as it stands in a form: no unit, no trailing zeros."""
    si = units.to_si(quantity, metric, "metric")
    places = units.decimals(quantity, system, decimals)
    return units.plain(units.from_si(quantity, si, system), places)


def figure_text(head: Head, key: str, system: units.System) -> str:
    """A head's figure as it stands in a form: one number, or '150 to 250' where only a range is known."""
    figure = BY_KEY[key]
    span = dict(head.unknown).get(key)
    values = span or (head[key],)
    return " to ".join(number_text(figure.quantity, v, figure.decimals + 2, system) for v in values)


def default_text(item: Input, rotor: Rotor, system: units.System) -> str:
    """What an input starts with on this head."""
    if isinstance(item, Choice | Text):
        return item.default
    return number_text(item.quantity, item.default(rotor), item.decimals, system)


def _limits(item: Number, system: units.System) -> str:
    low, high = (number_text(item.quantity, x, 3, system) for x in (item.low, item.high))
    symbol = units.QUANTITIES[item.quantity].unit(system).symbol
    gap = "" if symbol in ("", "°", "%") else " "
    return f"between {low} and {high}{gap}{symbol}".replace("-", "\N{MINUS SIGN}")


def _number(item: Number, text: str, system: units.System) -> float:
    typed = parse_number(text, item.name, item.label)
    si = units.to_si(item.quantity, typed, system)
    low, high = (units.to_si(item.quantity, x, "metric") for x in (item.low, item.high))
    slack = 1e-9 * max(1.0, abs(low), abs(high))
    if not low - slack <= si <= high + slack:
        shown = text.strip()[:LONGEST_TEXT]
        raise refuse(item.name, f"{item.label}: {shown} is outside what is allowed, {_limits(item, system)}.")
    return si


def parse_inputs(
    calculator: Calculator, texts: Mapping[str, str], rotor: Rotor, system: units.System
) -> dict[str, Value]:
    """Every input in SI: the reader's text where there is one, the head's default elsewhere.

    Inputs that do not apply keep their default and are not judged. Raises `Refused` with all faults.
    """
    faults: list[Fault] = []
    values: dict[str, Value] = {}
    names = {item.name for item in calculator.inputs}
    for name in texts:
        if name not in names:
            faults.append(Fault(name[:40], f"{calculator.title} has no input “{name[:40]}”."))
    for item in calculator.inputs:
        if isinstance(item, Choice):
            text = texts.get(item.name, item.default).strip()
            allowed = [value for value, _ in item.choices]
            if text not in allowed:
                more = len(allowed) - MOST_NAMED
                listed = ", ".join(allowed if more <= 0 else [*allowed[:MOST_NAMED], f"or one of {more} more"])
                faults.append(Fault(item.name, f"{item.label}: “{text[:40]}” must be one of {listed}."))
            values[item.name] = text
        elif isinstance(item, Text):
            text = texts.get(item.name, item.default)
            if len(text) > item.longest:
                faults.append(
                    Fault(item.name, f"{item.label}: {len(text)} characters; at most {item.longest} are read.")
                )
            values[item.name] = text[: item.longest]
    for item in calculator.inputs:
        if not isinstance(item, Number):
            continue
        default = default_text(item, rotor, system)
        wanted = item.applies(values, rotor)
        try:
            values[item.name] = _number(item, texts.get(item.name, default) if wanted else default, system)
        except Refused as refused:
            faults += refused.faults
    if faults:
        raise Refused(faults)
    return values


def run(calculator: Calculator, texts: Mapping[str, str], rotor: Rotor, system: units.System = "metric") -> Case:
    """A calculator on a head with a reader's texts -> case. Raises `Refused`."""
    values = parse_inputs(calculator, texts, rotor, system)
    return Case(values, rotor, system, calculator.compute(values, rotor))


def figure_keys(keys: tuple[str, ...], head: Head) -> list[str]:
    """Head figures a calculator uses, 'rods' spelled out as the rods this head has."""
    found: list[str] = []
    for key in keys:
        if key == "rods":
            found += [f"rods.{n}.{part}" for n in range(1, len(head.rods) + 1) for part in ("bearing_deg", "stroke_mm")]
        else:
            found.append(key)
    return found


def slider(quantity: str, span: tuple[float, float, float], system: units.System) -> dict[str, float]:
    """Slider range and step in the reader's units; an imperial step is a round one near the metric's."""
    low, high = (units.from_si(quantity, units.to_si(quantity, x, "metric"), system) for x in span[:2])
    kind = units.QUANTITIES[quantity]
    step = span[2] * kind.metric.scale / kind.unit(system).scale
    if system == "imperial" and kind.metric != kind.imperial:
        power = 10.0 ** math.floor(math.log10(step))
        step = min((1.0, 2.0, 5.0, 10.0), key=lambda m: abs(m * power - step)) * power
        low, high = math.floor(low / step) * step, math.ceil(high / step) * step
    return {"min": round(low, 6), "max": round(high, 6), "step": round(step, 6)}


def form(
    calculator: Calculator, texts: Mapping[str, str], rotor: Rotor, choice: HeadChoice, system: units.System,
    values: Mapping[str, Value],
) -> dict[str, dict[str, Any]]:  # fmt: skip
    """What every field that applies shows: text, slider, unit, whether the reader changed it."""
    fields: dict[str, dict[str, Any]] = {}
    for item in calculator.inputs:
        if not item.applies(values, rotor):
            continue
        default = default_text(item, rotor, system)
        text = texts.get(item.name, default)
        entry: dict[str, Any] = {"text": text, "changed": item.name in texts and text.strip() != default}
        if isinstance(item, Number):
            entry |= slider(item.quantity, item.slider, system)
            entry["unit"] = units.QUANTITIES[item.quantity].unit(system).symbol
        fields[item.name] = entry
    head = rotor.head
    for key in figure_keys((*calculator.figures_first, *calculator.figures), head):
        entry = {"text": choice.changes.get(key, ""), "changed": key in choice.changes}
        if key in OPTION_BY_KEY:
            entry["text"] = entry["text"] or head.option(key)
        else:
            figure = BY_KEY[key]
            entry["text"] = entry["text"] or figure_text(head, key, system)
            entry |= slider(figure.quantity, figure.slider, system)
            entry["unit"] = units.QUANTITIES[figure.quantity].unit(system).symbol
        fields[f"head.{key}"] = entry
    return fields
