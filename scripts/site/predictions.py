"""Predict, then see: a number of the chosen head to be guessed on a scale before the model shows its own."""

from __future__ import annotations

import json
import re
from html import escape

import defaults
import values
from rotorhead import derived, units
from rotorhead.head import demonstration
from rotorhead.head_figures import BY_KEY
from rotorhead.mechanism.assembly import assembled
from rotorhead.run import slider
from rotorhead.topics import ALL

_RANGE = re.compile(r"(-?[0-9.]+) to (-?[0-9.]+) step ([0-9.]+)")


class FenceError(ValueError):
    """A fence says something this site doesn't have."""


def _quantity(name: str) -> str:
    """What a value that running text may name measures."""
    kind, _, key = name.partition(".")
    if kind == "derived":
        return derived.figures(assembled(demonstration(defaults.HEAD)))[key].quantity
    if kind == "head":
        return BY_KEY[key].quantity
    return next(result.quantity for result in ALL[kind].results if result.name == key)


def scale_html(name: str, lines: list[str]) -> str:
    """A question whose answer is one of the head's values; `ask`, `range` (in the metric unit) and `why` say the rest."""
    options = {key.strip(): text.strip() for key, _, text in (line.partition(":") for line in lines)}
    if set(options) != {"ask", "range", "why"}:
        raise FenceError(f"the prediction “{name}” needs ask, range and why")
    span = _RANGE.fullmatch(options["range"])
    if not span:
        raise FenceError(f"a range is written “0 to 40 step 0.5”, not “{options['range']}”")
    if name not in defaults.head_page()["values"]:
        raise FenceError(f"there is no value “{name}”")
    quantity = _quantity(name)
    low, high, step = (float(text) for text in span.groups())
    spans = {}
    for system in units.SYSTEMS:
        fitted = slider(quantity, (low, high, step), system)
        spans[system] = {**fitted, "unit": units.QUANTITIES[quantity].unit(system).symbol}
    for base in defaults.HEADS:
        # A scale on which the answer of a head can't be set would be no fair question.
        text = re.sub("<[^>]*>", "", defaults.head_page(base)["values"][name]).replace("\N{MINUS SIGN}", "-")
        number = re.match(r"-?[0-9.]+", text)
        if not number or not low <= float(number[0]) <= high:
            raise FenceError(f"“{name}” is {text} on {base}, which is not within {options['range']}")
    label = escape(defaults.head_page()["head"]["label"])
    asked = escape(options["ask"]).replace("{head}", f'<b class="hd-head-label">{label}</b>')
    data = " ".join(f'data-{system}="{escape(json.dumps(spans[system]))}"' for system in units.SYSTEMS)
    return (
        f'<hd-predict data-answer-of="{escape(name)}" data-why="{escape(options["why"])}" {data}>'
        f'<p class="hd-predict-question">{asked}</p><noscript><details><summary>What the model says</summary>'
        f"<p>{values.value_element(name)}. {escape(options['why'])}</p></details></noscript></hd-predict>"
    )
