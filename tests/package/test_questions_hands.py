"""Answers of the questions on joints, loads, shake and measuring, worked out another way than the calculators do it."""

from __future__ import annotations

import cmath
import math
import re

import pytest
from rotorhead.conventions import wrap
from rotorhead.head import DEMONSTRATION
from rotorhead.mechanism.hands import rig_of
from rotorhead.mechanism.links import feet_in_blade_frames, harmonics, horn_angle
from rotorhead.questions import marking
from rotorhead.questions.bank.shake import felt
from rotorhead.questions.model import Amount
from rotorhead.run import HeadChoice, rotor_of

HEADS = [(base, turned) for base in DEMONSTRATION for turned in (False, True)]


def amount(name: str, seed: str, base: str) -> tuple[Amount, str]:
    asked = marking.put(name, seed, rotor_of(HeadChoice(base), "metric"), base, "metric")
    assert isinstance(asked.question.answer, Amount)
    return asked.question.answer, asked.question.prompt


@pytest.mark.parametrize("blades", range(2, 9))
def test_waves_of_equal_links_add_up_as_phasors_do(blades: int) -> None:
    """Elementary sums: link k carries cos h(ψ + 2πk/N); the plate's force and its two moments as complex waves."""
    rotor = rotor_of(HeadChoice("birch2" if blades == 2 else "alder3", False, {"blades": str(blades)}), "metric")
    for wave in range(1, 2 * blades + 2):
        got: set[int] = set()
        for shift, turns in ((0, {wave}), (1, {wave + 1}), (-1, {abs(wave - 1)})):
            total = sum(cmath.exp(2j * math.pi * k * (wave + shift) / blades) for k in range(blades))
            if abs(total) > 1e-9:
                got |= turns
        assert set(felt(rotor, wave)) == got, (blades, wave)


@pytest.mark.parametrize(("base", "turned"), HEADS)
def test_a_ring_that_hangs_back_brings_the_wave_late(base: str, turned: bool) -> None:
    """The links closed exactly, the rotating ring turned back by two degrees: what `drive-scissors-worn` calls later."""
    rotor = rotor_of(HeadChoice(base, turned), "metric")
    back = math.radians(2.0)
    for forward, left in ((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0)):
        pose = rig_of(rotor).pose(0.5, forward, left)
        places = [
            harmonics(
                tuple(horn_angle(rotor, feet_in_blade_frames(rotor, pose, i * math.tau / 72, (0,), b)[0]) for i in range(72))
            ).greatest
            for b in (0.0, back)
        ]  # fmt: skip
        assert math.degrees(wrap(places[1] - places[0])) == pytest.approx(2.0, abs=0.05)


@pytest.mark.parametrize("base", DEMONSTRATION)
def test_numbers_by_hand(base: str) -> None:
    """Thread over arm, the square of rotor speed, links added up, half differences across: from the prompt's own figures."""
    for seed in range(8):
        answer, prompt = amount("rod-end-turned", str(seed), base)
        turns = {"a quarter turn": 0.25, "half a turn": 0.5, "one turn": 1.0, "one and a half turns": 1.5}
        turn = next(size for words, size in turns.items() if f"by {words}." in prompt)
        arm, thread = (float(re.search(p, prompt)[1]) for p in (r"arm of ([\d.]+)", r"advances ([\d.]+)"))  # type: ignore[index]
        sign = (1 if "longer" in prompt else -1) * (1 if "leading" in prompt else -1)
        by_hand = math.degrees(sign * turn * thread * (2 if "turnbuckle" in prompt else 1) / arm)
        assert math.degrees(answer.value) == pytest.approx(by_hand, rel=0.01)

        answer, prompt = amount("load-and-rotor-speed", str(seed), base)
        held, percent = (float(re.search(p, prompt)[1]) for p in (r"with ([\d.]+)", r"by (\d+)%"))  # type: ignore[index]
        factor = 1 + (percent if "rises" in prompt else -percent) / 100
        assert answer.value == pytest.approx(held * factor**2, rel=0.01)

        answer, prompt = amount("wave-from-readings", str(seed), base)
        nose, right, tail, left = (float(x.replace("−", "-")) for x in re.findall(r"(−?[\d.]+)°", prompt))
        assert math.degrees(answer.value) == pytest.approx(math.hypot(nose - tail, right - left) / 2, abs=1e-6)
