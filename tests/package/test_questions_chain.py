"""Answers of questions on rods, plate, pitch, lag and disc, worked out another way than the calculators do it: by hand from the
figures the prompt prints, with elementary geometry, and against what the handbook and common practice say."""

from __future__ import annotations

import math
import re

import numpy as np
import pytest
from rotorhead.conventions import wrap
from rotorhead.head import DEMONSTRATION, demonstration
from rotorhead.questions import marking
from rotorhead.questions.model import Amount, Bearing, Order
from rotorhead.run import HeadChoice, rotor_of

CASES = [(base, turned, str(seed)) for base in DEMONSTRATION for turned in (False, True) for seed in range(6)]


def put(name: str, base: str, turned: bool, seed: str) -> marking.Put:
    return marking.put(name, seed, rotor_of(HeadChoice(base, turned), "metric"), base, "metric")


def number(name: str, base: str, turned: bool, seed: str) -> tuple[Amount, str]:
    asked = put(name, base, turned, seed)
    assert isinstance(asked.question.answer, Amount)
    return asked.question.answer, asked.question.prompt


def right_option(asked: marking.Put) -> str:
    return asked.options[int(marking.right_answer(asked))].text


def read(pattern: str, prompt: str) -> float:
    found = re.search(pattern, prompt)
    assert found, (pattern, prompt)
    return float(found[1].replace("−", "-"))


def bearing(words: str) -> float:
    """'33° right of the nose' -> degrees clockwise from the nose; the words' own meaning, read without the package."""
    plain = {"at the nose": 0.0, "at the tail": 180.0, "on the right": 90.0, "on the left": 270.0}
    for text, value in plain.items():
        if words.startswith(text):
            return value
    found = re.match(r"([\d.]+)° (right|left) of the (nose|tail)", words)
    assert found, words
    size, right = float(found[1]), found[2] == "right"
    if found[3] == "nose":
        return size if right else 360.0 - size
    return 180.0 - size if right else 180.0 + size


def after(words: str, prompt: str) -> float:
    """The bearing that follows some words of a prompt."""
    return bearing(prompt.split(words, 1)[1])


def plane(base: str, turned: bool, heights: list[float]) -> tuple[float, float, float]:
    """Height, tilt and bearing of the low point of the plane through the rods' joints: a linear solve, degrees."""
    rods = demonstration(base).rods
    places = [math.radians(-rod.bearing_deg if turned else rod.bearing_deg) for rod in rods]
    radius = demonstration(base)["rod_radius_mm"]
    rows = np.array([[1.0, radius * math.cos(x), radius * math.sin(x)] for x in places])
    z, a, b = np.linalg.solve(rows, np.array(heights))
    return float(z), math.degrees(math.atan(math.hypot(a, b))), math.degrees(math.atan2(-b, -a)) % 360.0


def rod_heights(prompt: str) -> list[float]:
    return [float(x.replace("−", "-")) for x in re.findall(r"rod \d(?: \([^)]*\))? (−?[\d.]+)\Wmm", prompt)]


@pytest.mark.parametrize(("base", "turned", "seed"), CASES)
def test_rods_and_plate_by_elementary_geometry(base: str, turned: bool, seed: str) -> None:
    answer, prompt = number("one-rods-move", base, turned, seed)
    radius, tilt = read(r"([\d.]+)\Wmm from the mast", prompt), math.radians(read(r"tilts ([\d.]+)°", prompt))
    apart = math.radians(after(" stands ", prompt) - after(", low ", prompt))
    assert answer.value * 1000.0 == pytest.approx(-radius * math.tan(tilt) * math.cos(apart), rel=0.03)

    answer, prompt = number("tilt-from-rods", base, turned, seed)
    height, steep, _ = plane(base, turned, rod_heights(prompt))
    # The ring's joints move inward as it tilts: some hundredths of a degree from the simple plane.
    assert math.degrees(answer.value) == pytest.approx(steep, abs=0.05)
    assert read(r"middle of the plate is at (−?[\d.]+)", prompt) == pytest.approx(height, abs=0.15)

    asked = put("low-point-from-rods", base, turned, seed)
    assert isinstance(asked.question.answer, Bearing)
    _, _, low = plane(base, turned, rod_heights(asked.question.prompt))
    assert abs(wrap(asked.question.answer.value - math.radians(low))) < math.radians(0.6)


@pytest.mark.parametrize(("base", "turned", "seed"), CASES)
def test_pitch_by_hand(base: str, turned: bool, seed: str) -> None:
    answer, prompt = number("degrees-from-height", base, turned, seed)
    slide, arm = read(r"(?:rises|sinks) by ([\d.]+)", prompt), read(r"horns ([\d.]+)\Wmm", prompt)
    sign = (1 if "rises" in prompt else -1) * (1 if "leading" in prompt else -1)
    assert math.degrees(answer.value) == pytest.approx(math.degrees(sign * slide / arm), rel=0.02)

    answer, prompt = number("half-a-turn-later", base, turned, seed)
    mean, now = read(r"average (−?[\d.]+)°", prompt), read(r" has (−?[\d.]+)°", prompt)
    assert math.degrees(answer.value) == pytest.approx(2.0 * mean - now, abs=0.25)

    asked = put("least-pitch-on-rose", base, turned, seed)
    assert isinstance(asked.question.answer, Bearing)
    prompt = asked.question.prompt
    lead = read(r"stands (\d+)°", prompt) * (1 if "ahead of its blade" in prompt else -1)
    # The blade stands the lead behind its link's foot; clockwise from above, bearings grow the way it turns.
    way = 1 if " clockwise" in prompt else -1
    least = after("plate is low ", prompt) - way * lead + (180.0 if "trailing" in prompt else 0.0)
    assert abs(wrap(asked.question.answer.value - math.radians(least))) < math.radians(1.5)


@pytest.mark.parametrize(("base", "turned", "seed"), CASES)
def test_lag_and_disc_by_hand(base: str, turned: bool, seed: str) -> None:
    answer, prompt = number("lag-in-seconds", base, turned, seed)
    lag, rpm = read(r"lowest ([\d.]+)°", prompt), read(r"turns at ([\d.]+)\Wrpm", prompt)
    assert answer.value == pytest.approx(lag / (6.0 * rpm), rel=0.003)

    answer, prompt = number("turns-to-settle", base, turned, seed)
    step, percent = read(r"After ([\d.]+)\Wturns", prompt), read(r"about (\d+)%", prompt)
    # What is left dies away as exp(−t): 1 − 1/e is 63%.
    assert answer.value / math.tau == pytest.approx(-step * math.log(1.0 - percent / 100.0), rel=0.04)

    answer, prompt = number("plate-to-disc", base, turned, seed)
    tilt, gain = read(r"plate tilts ([\d.]+)°", prompt), read(r"tilts ([\d.]+)° for each", prompt)
    ring, arm = read(r"on the ring ([\d.]+)", prompt), read(r"arms are ([\d.]+)", prompt)
    assert math.degrees(answer.value) == pytest.approx(tilt * ring / arm * gain, rel=0.015)

    asked = put("disc-low-on-rose", base, turned, seed)
    assert isinstance(asked.question.answer, Bearing)
    prompt = asked.question.prompt
    low = after("pitch is least ", prompt) + (1 if " clockwise" in prompt else -1) * read(r"lag is (\d+)°", prompt)
    assert abs(wrap(asked.question.answer.value - math.radians(low))) < math.radians(1.5)


@pytest.mark.parametrize(("base", "turned", "seed"), CASES)
def test_one_blades_turn_follows_the_bearings_of_the_prompt(base: str, turned: bool, seed: str) -> None:
    asked = put("one-blades-turn", base, turned, seed)
    prompt = asked.question.prompt
    way = 1 if " clockwise" in prompt else -1
    least, lag, start = after("pitch is least ", prompt), read(r"lag is (\d+)°", prompt), after("beginning ", prompt)
    places = {
        "Its pitch is least": least,
        "It is at its lowest": least + way * lag,
        "Its pitch is greatest": least + 180.0,
        "It is at its highest": least + way * lag + 180.0,
    }
    order = sorted(places, key=lambda name: way * (places[name] - start) % 360.0)
    assert isinstance(asked.question.answer, Order)
    assert list(asked.question.answer.items) == order


@pytest.mark.parametrize(("base", "turned", "seed"), CASES)
def test_a_central_hinge_puts_disc_and_plate_parallel(base: str, turned: bool, seed: str) -> None:
    """Common practice, no source: with the hinge on the axis the rods stand where the disc is to go down."""
    asked = put("hinge-on-the-axis", base, turned, seed)
    words = asked.question.prompt.split("The plate is low ")[1].split(".")[0]
    assert right_option(asked) == f"Low {words}"


@pytest.mark.parametrize("seed", range(8))
def test_a_central_hinge_lags_ninety_degrees_in_any_air(seed: int) -> None:
    """Helicopter Flying Handbook (FAA-H-8083-21B), p. 2-17: approximately 90°; exactly so for a see-saw in the textbooks (from memory)."""
    assert right_option(put("lag-in-thin-air", "birch2", False, str(seed))) == "It stays at 90.0°"


@pytest.mark.parametrize("base", DEMONSTRATION)
@pytest.mark.parametrize("seed", range(6))
def test_with_trailing_horns_the_lever_lowers_the_plate(base: str, seed: int) -> None:
    """Common practice, no source: link up is pitch on with a leading horn and pitch off with a trailing one."""
    asked = put("rods-for-the-lever", base, False, str(seed))
    raised, leading = "is raised" in asked.question.prompt, "leading" in asked.question.prompt
    assert right_option(asked).split()[3].strip(",") == ("up" if raised == leading else "down")
    assert leading == (base != "cedar4")
