"""The other rotation: every calculator answers the same with left and right changed over.

The mirror stands along the fuselage: bearings b become 360° − b, the stick goes to the other side,
left and right change places in every word, forward and back don't.
"""

import json
import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from rotorhead import derived, door
from rotorhead.conventions import bearing_words, mirrored_bearing, offset_words, other_way
from rotorhead.fields import Calculator, Choice, Number, Text
from rotorhead.head import DEMONSTRATION, demonstration
from rotorhead.head_changes import mirrored
from rotorhead.rotor import of_head
from rotorhead.topics import ALL

# Results counted toward the right: they change sign in the mirror, everything else is unchanged.
TOWARD_RIGHT = {"right", "hover_right", "right_by_forward", "forward_by_right"}
TO_ONE_SIDE = {"stick_left", "cg_aside"}
BEARINGS = {"low", "extra_bearing", "plate", "plate_forward", "plate_left"}
SIDED_CHOICES = {"told_side": {"right": "left", "left": "right"},
                 "told_turning": {"anticlockwise": "clockwise", "clockwise": "anticlockwise"},
                 "turned": {"no": "yes", "yes": "no"}}  # fmt: skip
_SWAP = {"left": "right", "right": "left", "clockwise": "anticlockwise", "anticlockwise": "clockwise"}


def changed_over(words: str) -> str:
    """Left for right and the rotations for each other, as whole words; what *is* left stays."""
    sided = r"(?<!is )(?<!are )\b(left(?! over)|right|anticlockwise|clockwise)\b(?!-)"
    return re.sub(sided, lambda m: _SWAP[m.group()], words)


def in_the_mirror(inputs: dict[str, str]) -> dict[str, str]:
    """The same inputs for the head turned the other way."""
    turned = dict(inputs)
    for name, text in inputs.items():
        if "\n" in text:
            # Readings, a place and what was read there on each line.
            pairs = [line.split() for line in text.split("\n")]
            if inputs["at"] == "bearing":
                turned[name] = "\n".join(f"{(360.0 - float(place)) % 360.0:g} {read}" for place, read in pairs)
        elif name in TO_ONE_SIDE:
            turned[name] = str(-float(text))
        elif name in BEARINGS:
            turned[name] = str((360.0 - float(text)) % 360.0)
        elif name in SIDED_CHOICES:
            turned[name] = SIDED_CHOICES[name][text]
    return turned


def sampled(calculator: Calculator, data: st.DataObject) -> dict[str, str]:
    """A text for every input, anywhere on its slider."""
    inputs: dict[str, str] = {}
    for item in calculator.inputs:
        if isinstance(item, Choice):
            inputs[item.name] = data.draw(st.sampled_from([v for v, _ in item.choices]), label=item.name)
        elif isinstance(item, Text):
            inputs[item.name] = item.default
        else:
            low, high, step = item.slider
            notches = data.draw(st.integers(0, round((high - low) / step)), label=item.name)
            inputs[item.name] = str(round(low + notches * step, 9))
    if calculator.id == "plate":
        # Anywhere on six sliders is a tilt no ring takes; rods near one another.
        for n in range(1, 7):
            inputs[f"rod_{n}"] = str(round(float(inputs[f"rod_{n}"]) / 12.0, 1))
    if "told_side" in inputs and "told_turning" not in inputs:
        inputs["told_turning"] = "anticlockwise"
    return inputs


def answered(name: str, head: str, turned: bool, inputs: dict[str, str]) -> dict[str, object]:
    """The door's answer."""
    request = {"op": "run", "id": 1, "calculator": name, "inputs": inputs, "units": "metric",
               "head": {"base": head, "mirrored": turned, "changes": {}}}  # fmt: skip
    return dict(json.loads(door.answer(json.dumps(request))))


# A mirrored machine's "stick left" is this one's "stick right", for which the set-ups have no readings; both ways round
# are tested with readings made from the linkage in test_measure_coverage.py.
MIRRORED = [name for name in ALL if name != "setups"]


@pytest.mark.parametrize("head_id", DEMONSTRATION)
@pytest.mark.parametrize("name", MIRRORED)
@settings(max_examples=4, deadline=None, database=None, derandomize=True)
@given(data=st.data())
def test_every_calculator_in_the_mirror(name: str, head_id: str, data: st.DataObject) -> None:
    """Same state, same numbers (sideways ones negated), words with left and right changed over."""
    inputs = sampled(ALL[name], data)
    one, other = answered(name, head_id, False, inputs), answered(name, head_id, True, in_the_mirror(inputs))
    assert one["state"] == other["state"]
    if one["state"] != "result":
        assert one["state"] == "invalid"
        return
    results, mirrored_results = one["results"], other["results"]
    assert isinstance(results, list)
    assert isinstance(mirrored_results, list)
    for mine, theirs in zip(results, mirrored_results, strict=True):
        assert mine["name"] == theirs["name"]
        if isinstance(mine["value"], str):
            assert changed_over(mine["value"]) == theirs["value"], mine["name"]
        else:
            sign = -1.0 if mine["name"] in TOWARD_RIGHT else 1.0
            assert theirs["value"] == pytest.approx(sign * mine["value"], rel=1e-7, abs=1e-7), mine["name"]
    assert changed_over(str(one["spoken"])) == other["spoken"]


@pytest.mark.parametrize("head_id", DEMONSTRATION)
def test_derived_figures_and_words_in_the_mirror(head_id: str) -> None:
    """No derived figure depends on the direction of turning; every phrase is the same changed over."""
    here, there = of_head(demonstration(head_id)), of_head(mirrored(demonstration(head_id)))
    for name, item in derived.figures(here).items():
        assert derived.figures(there)[name].value == pytest.approx(item.value, rel=1e-9, abs=1e-12), name
    for name, phrase in derived.words(here).items():
        assert derived.words(there)[name] == changed_over(phrase), name


@pytest.mark.parametrize("head_id", DEMONSTRATION)
def test_twice_mirrored_is_the_head_itself(head_id: str) -> None:
    """Turning it the other way twice gives the same description."""
    head = demonstration(head_id)
    assert mirrored(mirrored(head)) == head
    assert mirrored(head).rotation == other_way(head.rotation)
    assert mirrored(head) != head


@settings(max_examples=100, deadline=None, database=None, derandomize=True)
@given(st.floats(-10.0, 10.0))
def test_words_for_bearings_in_the_mirror(bearing: float) -> None:
    """'33° right of the nose' is '33° left of the nose' in the mirror; before the nose stays before."""
    assert bearing_words(mirrored_bearing(bearing), 1) == changed_over(bearing_words(bearing, 1))
    assert offset_words(bearing, "clockwise", 1) == changed_over(offset_words(bearing, "anticlockwise", 1))


def test_every_sided_input_is_known_here() -> None:
    """An input counted from a side of the aircraft must be mirrored above, or this test asks for it."""
    sided = set()
    for calculator in ALL.values():
        for item in calculator.inputs:
            text = f"{item.label} {item.help}".lower()
            if isinstance(item, Number) and (item.bearing or re.search(r"\b(left|right|clockwise from)\b", text)):
                sided.add(item.name)
            if isinstance(item, Choice) and any(re.search(r"\b(left|right|clockwise)\b", v) for v, _ in item.choices):
                sided.add(item.name)
    assert sided <= BEARINGS | SIDED_CHOICES.keys() | TO_ONE_SIDE
