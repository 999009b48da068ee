"""Units at the edge: there and back, in text as well, and nothing lost when a reader changes system."""

import json
import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from rotorhead import door
from rotorhead.fields import Number
from rotorhead.head import DEMONSTRATION, demonstration
from rotorhead.head_figures import BY_KEY
from rotorhead.numbers import parse_number
from rotorhead.rotor import of_head
from rotorhead.run import default_text, number_text, slider
from rotorhead.topics import ALL
from rotorhead.units import QUANTITIES, SYSTEMS, System, decimals, from_si, plain, show, tidy, to_si

MANY = settings(max_examples=15, deadline=None, database=None, derandomize=True)
NUMBERS = [(c.id, i) for c in ALL.values() for i in c.inputs if isinstance(i, Number)]


@pytest.mark.parametrize("system", SYSTEMS)
@pytest.mark.parametrize("quantity", QUANTITIES)
@MANY
@given(value=st.floats(-1e6, 1e6))
def test_there_and_back(quantity: str, system: System, value: float) -> None:
    """SI -> shown -> SI."""
    # A temperature's zero lies 273 K off: near nought kelvin a digit's worth of that is lost.
    zero = QUANTITIES[quantity].unit(system).zero
    least = max(1e-300, 1e-14 * zero)
    assert to_si(quantity, from_si(quantity, value, system), system) == pytest.approx(value, rel=1e-14, abs=least)


@pytest.mark.parametrize("system", SYSTEMS)
@pytest.mark.parametrize("quantity", QUANTITIES)
@MANY
@given(value=st.floats(-1e4, 1e4))
def test_shown_text_is_the_number_rounded(quantity: str, system: System, value: float) -> None:
    """What is printed, read again, lies within half of its last digit; the unit's sign follows it."""
    text = show(quantity, to_si(quantity, value, system), system)
    symbol = QUANTITIES[quantity].unit(system).symbol
    assert text.endswith(symbol)
    number = text.removesuffix(symbol).rstrip("\N{NARROW NO-BREAK SPACE}")
    assert re.fullmatch("\N{MINUS SIGN}?[0-9]+([.][0-9]+)?", number)
    last = 10.0 ** -decimals(quantity, system)
    assert parse_number(number, "x", "x") == pytest.approx(value, abs=0.5000001 * last + 1e-9)
    assert not re.fullmatch("\N{MINUS SIGN}0+([.]0+)?", number)


@MANY
@given(st.floats(-1e6, 1e6), st.integers(0, 6))
def test_plain_and_tidy_numbers_read_back(value: float, places: int) -> None:
    """Both ways of writing a number are read by the parser; no minus stands before a zero."""
    for text in (plain(value, places), tidy(value, places)):
        assert parse_number(text, "x", "x") == pytest.approx(value, abs=0.5000001 * 10.0**-places)
        assert not re.fullmatch("[-\N{MINUS SIGN}]0*[.]?0*", text)
    assert not plain(value, places).endswith(".")


@pytest.mark.parametrize(("calculator", "item"), NUMBERS, ids=[f"{c}-{i.name}" for c, i in NUMBERS])
def test_sliders_cover_the_metric_range_in_round_steps(calculator: str, item: Number) -> None:
    """An imperial slider reaches at least as far, with a step of 1, 2 or 5 times a power of ten."""
    assert calculator in ALL
    low, high, step = (from_si(item.quantity, to_si(item.quantity, x, "metric"), "imperial") for x in item.slider)
    span = slider(item.quantity, item.slider, "imperial")
    assert span["min"] <= low + 1e-6
    assert span["max"] >= high - 1e-6
    assert 0.0 < span["step"] < 2.6 * step
    if QUANTITIES[item.quantity].metric != QUANTITIES[item.quantity].imperial:
        digits = f"{span['step']:.0e}"[0]
        assert digits in "125"


@pytest.mark.parametrize("head_id", DEMONSTRATION)
def test_every_default_reads_back_in_both_systems(head_id: str) -> None:
    """The text a form starts with, read in its own system, is the default within half its last digit."""
    rotor = of_head(demonstration(head_id))
    for calculator, item in NUMBERS:
        metric = item.default(rotor)
        for system in SYSTEMS:
            typed = parse_number(default_text(item, rotor, system), item.name, item.label)
            meant = from_si(item.quantity, to_si(item.quantity, metric, "metric"), system)
            last = 10.0 ** -decimals(item.quantity, system, item.decimals)
            assert typed == pytest.approx(meant, abs=0.501 * last), (calculator, item.name)


def reunit(head: dict[str, str], inputs: dict[str, dict[str, str]], old: str, new: str) -> dict[str, object]:
    """The door's change of units."""
    request = {"op": "reunit", "id": 1, "from": old, "to": new, "inputs": inputs, "head": {"changes": head}}
    reply = dict(json.loads(door.answer(json.dumps(request))))
    assert reply["state"] == "result"
    return reply


@pytest.mark.parametrize("key", [k for k in BY_KEY if not re.match(r"rods\.[4-6]", k)])
@MANY
@given(share=st.floats(0.0, 1.0))
def test_change_of_units_and_back_keeps_a_head_figure(key: str, share: float) -> None:
    """Typed to the form's own decimals, taken to imperial and back: the same text."""
    figure = BY_KEY[key]
    low, high, _ = figure.slider
    typed = number_text(figure.quantity, low + share * (high - low), figure.decimals, "metric")
    there = reunit({key: typed}, {}, "metric", "imperial")["head"]
    assert isinstance(there, dict)
    back = reunit(there["changes"], {}, "imperial", "metric")["head"]
    assert isinstance(back, dict)
    assert back["changes"][key] == typed


@pytest.mark.parametrize(("calculator", "item"), NUMBERS, ids=[f"{c}-{i.name}" for c, i in NUMBERS])
def test_change_of_units_and_back_keeps_an_input(calculator: str, item: Number) -> None:
    """Every notch of a slider in eleven: the same text after there and back."""
    low, high, step = item.slider
    notches = round((high - low) / step)
    for n in range(0, notches + 1, max(1, notches // 10)):
        typed = number_text(item.quantity, low + n * step, item.decimals, "metric")
        there = reunit({}, {calculator: {item.name: typed}}, "metric", "imperial")["inputs"]
        assert isinstance(there, dict)
        back = reunit({}, there, "imperial", "metric")["inputs"]
        assert isinstance(back, dict)
        assert back[calculator][item.name] == typed


def test_what_is_no_number_stays_as_typed() -> None:
    """Rubbish and choices are carried over unchanged."""
    inputs = {"phase": {"told_side": "left", "turn_rods": "ten"}}
    reply = reunit({"rpm": "fast", "type": "odd"}, inputs, "metric", "imperial")
    assert reply["head"] == {"base": "alder3", "mirrored": False, "changes": {"rpm": "fast", "type": "odd"}}
    assert reply["inputs"] == inputs
