"""Answers of the questions on flight against published values, and worked out by hand from the figures a prompt prints.

Letters are those of tests/published/README.md. Handbook: FAA-H-8083-21B (2019), read; it speaks for anticlockwise rotors.
"""

from __future__ import annotations

import math
import re
from dataclasses import replace
from itertools import count

import pytest
from rotorhead.flight.hub import rate_response, tilt_moment
from rotorhead.head import DEMONSTRATION
from rotorhead.questions import marking
from rotorhead.questions.bank.coning import LIFT_AT, free_cone
from rotorhead.questions.bank.hub import central
from rotorhead.questions.model import Amount, Bearing, Order
from rotorhead.rotor import Rotor
from rotorhead.run import HeadChoice, rotor_of

HEADS = [(base, turned) for base in DEMONSTRATION for turned in (False, True)]
CASES = [(base, turned, str(seed)) for base, turned in HEADS for seed in range(6)]


def head(base: str, turned: bool = False, **changes: str) -> Rotor:
    return rotor_of(HeadChoice(base, turned, changes), "metric")


def put(name: str, rotor: Rotor, seed: str) -> marking.Put:
    return marking.put(name, seed, rotor, "Head", "metric")


def amount(name: str, rotor: Rotor, seed: str) -> tuple[Amount, str]:
    asked = put(name, rotor, seed)
    assert isinstance(asked.question.answer, Amount)
    return asked.question.answer, asked.question.prompt


def right(name: str, rotor: Rotor, seed: str) -> str:
    asked = put(name, rotor, seed)
    return asked.options[int(marking.right_answer(asked))].text


def read(pattern: str, text: str) -> float:
    found = re.search(pattern, text)
    assert found, (pattern, text)
    return float(found[1].replace("−", "-"))


def advancing(rotor: Rotor) -> tuple[str, str]:
    """Advancing and retreating side: right and left of an anticlockwise rotor, mirrored for a clockwise one."""
    return ("right", "left") if rotor.rotation == "anticlockwise" else ("left", "right")


def drawn(name: str, rotor: Rotor, words: str) -> tuple[Amount, str]:
    """The first question of a template that says these words."""
    for seed in count():
        answer, prompt = amount(name, rotor, str(seed))
        if words in prompt:
            return answer, prompt
        assert seed < 300, words
    raise AssertionError


# 20 000 N on four blades of 6 m and 800 kg·m² about the mast at 35 rad/s: the rotor of B18 and C1.
PUBLISHED = head("alder3", blades="4", radius_m="6", hinge_offset="0", blade_mass_kg="66.6666666667", rpm="334.225380493", mass_kg="2039.43242596")  # fmt: skip


def test_coning_from_thrust() -> None:
    """B18: 1.31546° with the lift at 0.75 R and 1.16930° at 2R/3 (re-derived); straight between them, as the lever is."""
    share = (LIFT_AT - 2.0 / 3.0) / (0.75 - 2.0 / 3.0)
    assert math.degrees(free_cone(PUBLISHED)) == pytest.approx(1.16930 + share * (1.31546 - 1.16930), abs=1e-5)


@pytest.mark.parametrize(("base", "turned", "seed"), CASES)
def test_coning_over_rotor_speed(base: str, turned: bool, seed: str) -> None:
    """A3: handbook p. 2-16, low rpm, much more coning; at 90% 1.234568 times (re-derived)."""
    rotor = head(base, turned)
    assert free_cone(rotor, 0.9) / free_cone(rotor) == pytest.approx(1.234568, abs=5e-7)
    answer, prompt = amount("coning-over-rpm", rotor, seed)
    full, percent = read(r"cone by ([\d.]+)°", prompt), read(r"falls to (\d+)%", prompt)
    assert math.degrees(answer.value) == pytest.approx(full / (percent / 100.0) ** 2, rel=0.005)


@pytest.mark.parametrize(("base", "turned", "seed"), CASES)
def test_lift_over_pull_is_the_cone(base: str, turned: bool, seed: str) -> None:
    """The rule of the page, to within a tenth, from the prompt's own figures."""
    answer, prompt = amount("cone-from-pull", head(base, turned), seed)
    words = {"two": 2, "three": 3, "four": 4, "five": 5, "six": 6}
    blades = next(number for word, number in words.items() if f"the {word} blades" in prompt)
    lift, pull = read(r"carry ([\d.]+)\WkN", prompt) / blades, read(r"outward with ([\d.]+)\WkN", prompt)
    assert abs(math.degrees(answer.value) - math.degrees(lift / pull)) < math.degrees(answer.tolerance)


@pytest.mark.parametrize(("words", "density"), [("2000", 1.006490), ("3000", 0.909121)])
def test_air_driven_down(words: str, density: float) -> None:
    """C1: 8.495829 m/s at 1.225 kg/m³ for 20 000 N on 6 m (momentum theory, re-derived); densities of ISO 2533 (re-derived)."""
    answer, prompt = drawn("air-driven-down", PUBLISHED, f"at {words}")
    share = read(r"carries ([\d.]+)\WN/m²", prompt) / 176.8388
    assert answer.value == pytest.approx(8.495829 * math.sqrt(share * 1.225 / density), rel=0.003)


def test_density_altitude() -> None:
    """Common practice, no source: some 120 ft for each degree Celsius above standard, near sea level."""
    for seed in range(12):
        answer, prompt = amount("density-altitude", head("alder3"), str(seed))
        height, warmer = read(r"shows ([\d.]+)", prompt), read(r"air is ([\d.]+)", prompt)
        assert answer.value == pytest.approx(height + 120.0 * 0.3048 * warmer, abs=120.0)


@pytest.mark.parametrize(("base", "turned", "seed"), CASES)
def test_tied_blades_by_hand(base: str, turned: bool, seed: str) -> None:
    """B19's geometry, tan δ3 = (horn − hinge)/arm with its signs, and A10's: a positive tie brings the answer sooner."""
    rotor = head(base, turned)
    answer, prompt = amount("pitch-taken-off", rotor, seed)
    arm, out, flap = (
        read(pattern, prompt) for pattern in (r"arms of ([\d.]+)", r"end ([\d.]+)", r"flaps up by ([\d.]+)°")
    )
    sign = (1 if "further out" in prompt else -1) * (1 if "leading" in prompt else -1)
    assert math.degrees(answer.value) == pytest.approx(-sign * out / arm * flap, rel=0.01)

    answer, prompt = amount("collective-put-back", rotor, seed)
    tie = read(r"flapping up (?:takes off|puts on) ([\d.]+)°", prompt) * (1 if "takes off" in prompt else -1)
    assert math.degrees(answer.value) == pytest.approx(tie * read(r"cone by ([\d.]+)°", prompt), rel=1e-6)

    asked = put("lag-with-a-tie", rotor, seed)
    text = right("lag-with-a-tie", rotor, seed)
    assert text.startswith("It falls" if "takes pitch off" in asked.question.prompt else "It grows")
    if base == "birch2":
        # B2, B3: with the hinge at the mast 90° less the angle (textbooks, re-derived).
        delta = read(r"delta-three of (−?\d+)°", asked.question.prompt)
        assert read(r"to ([\d.]+)°", text) == pytest.approx(90.0 - delta, abs=0.05)


@pytest.mark.parametrize(("base", "turned", "seed"), CASES)
def test_lead_and_lag_by_hand(base: str, turned: bool, seed: str) -> None:
    """A16's skater, and coning times flapping; B12's flap frequencies less the one that only flapping has (re-derived)."""
    rotor = head(base, turned)
    asked = put("rising-blade-in-plane", rotor, seed)
    ahead = "just as it rises" in asked.question.prompt
    assert right("rising-blade-in-plane", rotor, seed).startswith("Forward" if ahead else "Back")

    answer, prompt = amount("push-in-the-plane", rotor, seed)
    before = read(r"with ([\d.]+)\WN·m", prompt)
    cones = read(r"With ([\d.]+)° of coning", prompt), read(r"the coning is ([\d.]+)°", prompt)
    tilts = read(r"disc tilted ([\d.]+)°", prompt), read(r"the tilt ([\d.]+)°", prompt)
    assert answer.value == pytest.approx(before * cones[1] / cones[0] * tilts[1] / tilts[0], rel=0.01)


def test_rhythm_in_the_plane() -> None:
    """B12: ν 1.02293 at e 0.03 and 1.04678 at 0.06; in the plane √(ν² − 1) (re-derived)."""
    answer, prompt = drawn("rhythm-in-the-plane", head("alder3"), "moved twice as far")
    assert read(r"swings ([\d.]+) times", prompt) == pytest.approx(math.sqrt(1.02293**2 - 1.0), abs=6e-4)
    assert answer.value == pytest.approx(math.sqrt(1.04678**2 - 1.0), abs=1e-4)


# Tips at 400 kt, so that eighty knots are an advance ratio of 0.2.
FOUR_HUNDRED = head("alder3", radius_m="6", rpm=repr(400.0 * 1852.0 / 3600.0 / 6.0 * 60.0 / math.tau))


def test_pressure_ratio_and_reversed_flow() -> None:
    """D6: at the tip 2.25 at an advance ratio of 0.2; reversed flow on a circle of diameter μR (re-derived)."""
    ratios = {}
    for seed in range(80):
        answer, prompt = amount("pressure-on-two-sides", FOUR_HUNDRED, str(seed))
        if "at 80\N{NARROW NO-BREAK SPACE}kt" in prompt:
            ratios["the tip of" in prompt] = answer.value
    # (0.95/0.55)² at three quarters of the radius, by hand from D6's formula.
    assert ratios == {True: pytest.approx(2.25, abs=1e-6), False: pytest.approx((0.95 / 0.55) ** 2, abs=1e-6)}
    answer, _ = drawn("reversed-flow", FOUR_HUNDRED, "at 80\N{NARROW NO-BREAK SPACE}kt")
    assert answer.value == pytest.approx(0.2 * 6.0, abs=1e-6)


@pytest.mark.parametrize(("base", "turned", "seed"), CASES)
def test_speeds_at_the_tips(base: str, turned: bool, seed: str) -> None:
    rotor = head(base, turned)
    answer, prompt = amount("retreating-tip", rotor, seed)
    assert f"straight out to the {advancing(rotor)[1]}" in prompt
    tip, speed = read(r"go round at ([\d.]+)", prompt), read(r"\(([\d.]+)\Wm/s\)", prompt)
    assert answer.value == pytest.approx(tip - speed, abs=0.2)

    answer, prompt = amount("advancing-tip-mach", rotor, seed)
    tip, speed, sound = (
        read(p, prompt) for p in (r"round at ([\d.]+)", r"\(([\d.]+)\Wm/s\)", r"here it goes at ([\d.]+)")
    )
    assert answer.value == pytest.approx((tip + speed) / sound, abs=0.003)


@pytest.mark.parametrize(("base", "turned", "seed"), CASES)
def test_the_two_sides(base: str, turned: bool, seed: str) -> None:
    """A4: p. 2-20, an anticlockwise rotor would roll left; pp. 2-19, 2-20, upflap velocity greatest at 3 o'clock, downflap at 9."""
    rotor = head(base, turned)
    strong, weak = advancing(rotor)
    assert right("roll-without-flapping", rotor, seed) == f"It would roll to the {weak}"

    asked = put("rises-fastest", rotor, seed)
    assert isinstance(asked.question.answer, Bearing)
    side = strong if "goes up fastest" in asked.question.prompt else weak
    assert math.degrees(asked.question.answer.value) == pytest.approx(90.0 if side == "right" else 270.0, abs=1e-6)

    asked = put("lift-evened-out", rotor, seed)
    assert isinstance(asked.question.answer, Order)
    assert f"on its {strong} side" in asked.question.prompt

    # The lag on from straight out on the advancing side; an advance ratio of 0.25 moves it by some degrees (1 ± μ²/2).
    asked = put("disc-high-with-speed", rotor, seed)
    assert isinstance(asked.question.answer, Bearing)
    lag = read(r"lag is (\d+)°", asked.question.prompt)
    high = 90.0 - lag if strong == "right" else 270.0 + lag
    assert abs(math.remainder(math.degrees(asked.question.answer.value) - high, 360.0)) < 3.0


@pytest.mark.parametrize(("base", "turned", "seed"), CASES)
def test_flap_back_and_the_stick(base: str, turned: bool, seed: str) -> None:
    """A5: pp. 2-20, 2-21, with speed the nose rises and the cyclic goes forward; A2: forward is less pitch at 3 o'clock."""
    rotor = head(base, turned)
    strong, weak = advancing(rotor)
    assert right("hands-held-still", rotor, seed).startswith("Back")
    assert right("cyclic-against-flap-back", rotor, seed) == f"Less on the {strong}, more on the {weak}: stick forward"
    text, prompt = right("stick-with-speed", rotor, seed), put("stick-with-speed", rotor, seed).question.prompt
    assert text.startswith("Further forward")
    assert read(r"at (\d+)%", text) > read(r"stands (\d+)%", prompt) + 1.0


@pytest.mark.parametrize(("base", "turned", "seed"), CASES)
def test_transverse_flow(base: str, turned: bool, seed: str) -> None:
    """A7: p. 2-23, anticlockwise: slightly to the right; left cyclic counters."""
    rotor = head(base, turned)
    strong, weak = advancing(rotor)
    assert right("roll-at-low-speed", rotor, seed) == f"A roll to the {strong}; stick to the {weak}"


@pytest.mark.parametrize(("base", "turned", "seed"), CASES)
def test_tail_rotor_by_hand(base: str, turned: bool, seed: str) -> None:
    """Ch. 2, translating tendency (from memory): an anticlockwise machine drifts right, and the disc is tilted left."""
    rotor = head(base, turned)
    strong, weak = advancing(rotor)
    assert right("drift-and-lean", rotor, seed) == f"It drifts to the {strong}; the disc leans to the {weak}"

    answer, prompt = amount("tail-rotor-push", rotor, seed)
    assert answer.value == pytest.approx(
        read(r"torque of ([\d.]+)", prompt) / read(r"stands ([\d.]+)", prompt), rel=0.01
    )

    answer, prompt = amount("lean-of-the-disc", rotor, seed)
    ratio = read(rf"to the {strong} with ([\d.]+)", prompt) / read(r"weighs ([\d.]+)", prompt)
    assert math.degrees(answer.value) == pytest.approx(math.degrees(math.atan(ratio)), rel=0.01)


@pytest.mark.parametrize(("base", "turned", "seed"), CASES)
def test_load_and_moment(base: str, turned: bool, seed: str) -> None:
    """A11: p. 11-14, teetering rotors rely on the thrust's tilt, offset hinges give moment without thrust."""
    rotor = head(base, turned)
    nothing = right("weightless-moment", rotor, seed) == "Nothing at all"
    assert nothing == (rotor.head.option("type") == "teetering")

    answer, prompt = amount("moment-at-load", rotor, seed)
    pull, hub_part = (
        read(r"with ([\d.]+)\WN·m/° by the leaning", prompt),
        read(r"with ([\d.]+)\WN·m/° by the hub", prompt),
    )
    load = read(r"load factor of ([\d.]+),", prompt)
    assert math.radians(answer.value) == pytest.approx(load * pull + hub_part, rel=0.01)

    answer, prompt = amount("hub-share", rotor, seed)
    pull, hub_part = read(r"that makes ([\d.]+)", prompt), read(r"hub makes ([\d.]+)", prompt)
    assert answer.value == pytest.approx(hub_part / (pull + hub_part), abs=0.005)


def test_leaning_pull_per_degree() -> None:
    """A11: 20 000 N at 1.5 m is 523.599 N·m for each degree (re-derived)."""
    rotor = replace(PUBLISHED, mast_above_cg=1.5)
    assert math.radians(tilt_moment(rotor).thrust) == pytest.approx(523.599, abs=1e-3)
    _, prompt = drawn("moment-at-load", rotor, "load factor of 2,")
    assert read(r"with ([\d.]+)\WN·m/° by the leaning", prompt) == pytest.approx(523.599, abs=0.5)


def test_disc_in_a_steady_rate() -> None:
    """D7: 0.2 rad/s, Lock number 8, 40 rad/s: 0.572958° behind the mast and 0.286479° across (NACA TN 2136, from memory)."""
    plain = head("alder3", rpm=repr(40.0 * 60.0 / math.tau), hinge_offset="0")
    rotor = head("alder3", rpm=repr(40.0 * 60.0 / math.tau), hinge_offset="0", blade_mass_kg=repr(plain.blade_mass * plain.lock_number() / 8.0))  # fmt: skip
    assert rotor.lock_number() == pytest.approx(8.0, rel=1e-9)
    found = rate_response(central(rotor), 1.0, rotor.speed, 0.2)
    assert [math.degrees(x) for x in (found.cosine, found.sine)] == pytest.approx([0.572958, 0.286479], abs=1e-6)
    answer, _ = amount("across-the-rate", rotor, "a")
    assert answer.value == pytest.approx(0.286479 / 0.572958, abs=1e-5)
    # Behind a mast that goes nose up: low at the nose. Across: high on the advancing side, so low on the other.
    assert right("disc-behind-the-mast", rotor, "a").startswith("Low at the nose")


@pytest.mark.parametrize(("base", "turned", "seed"), CASES)
def test_the_disc_in_a_steady_rate_by_sides(base: str, turned: bool, seed: str) -> None:
    """D7's signs, mirrored for the other rotation: b1s > 0 is high on the advancing side."""
    rotor = head(base, turned)
    assert f"low on the {advancing(rotor)[1]}" in right("disc-behind-the-mast", rotor, seed)
