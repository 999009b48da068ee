"""Shake: how fast it is, which waves get through N blades, what one odd blade adds."""

import math
from functools import lru_cache

from ...conventions import TURN, count_word
from ...loads.rods import amplitudes, rods_round
from ...rotor import Rotor
from ..model import Amount, Option, Question, Setting, Template, Wrong, around
from .wording import drawn, shown, text_of

_STRAY = 1e-6


def _rate(setting: Setting) -> Question:
    rotor = setting.rotor
    solved = setting.run("shake", speed=text_of(setting.draw.step(60, 100, 10)))
    percent = setting.draw.among((94, 96, 98, 100, 102))
    share = percent / 100.0
    blades, value = rotor.blades, solved.value("rate") * share
    tolerance = 0.02 * value
    wrong = (
        Wrong(rotor.speed * share, "shake-once-a-turn"),
        Wrong(rotor.speed * share * (blades - 1), "neighbour-waves-keep-their-rate"),
        Wrong(rotor.speed * share * (blades + 1), "neighbour-waves-keep-their-rate"),
    )
    return Question(
        f"{setting.label} has {count_word(blades)} equal blades; 100% of its rotor speed is {setting.show('turn_rate', rotor.speed)}. It "
        f"cruises with the rotor at {percent}%. How many times a minute does the slowest shake come that gets down to the rods?",
        Amount(value, "turn_rate", tolerance, 0, around(value, tolerance, wrong)),
        f"Once for each blade: {blades} × {setting.show('turn_rate', rotor.speed * share, 1)}.",
        solved,
    )


@lru_cache(maxsize=128)
def felt(rotor: Rotor, wave: int) -> tuple[int, ...]:
    """Waves a turn (0: steady) that a head's rods feel of a wave in each of its equal links."""
    steps = rotor.blades * math.ceil((2 * (wave + 1) + 4) / rotor.blades)
    rows = rods_round(rotor, [math.cos(wave * TURN * i / steps) for i in range(steps)], rotor.blades)
    most = [max(column) for column in zip(*(amplitudes(rod, wave + 1) for rod in zip(*rows, strict=True)), strict=True)]
    least = [
        min(column) for column in zip(*(amplitudes(rod, wave + 1) for rod in zip(*rows, strict=True)), strict=True)
    ]
    # The mean has a sign; the other amplitudes haven't.
    return tuple(h for h, (a, b) in enumerate(zip(most, least, strict=True)) if max(a, -b) > _STRAY)


def _times(waves: int) -> str:
    return {1: "once", 2: "twice"}.get(waves, f"{count_word(waves)} times")


def _only(waves: int) -> str:
    return f"A shake, {_times(waves)} a turn, and nothing steady"


def _felt_words(waves: tuple[int, ...]) -> str:
    varying = " and ".join(_times(h) for h in waves if h)
    if not waves:
        return "Nothing: it cancels between the blades"
    if not varying:
        return "A steady push on one side, and no shake"
    return (
        f"A steady push, and a shake {varying} a turn"
        if 0 in waves
        else f"A shake, {varying} a turn, and nothing steady"
    )


def _through(setting: Setting) -> Question:
    rotor = setting.rotor
    blades = rotor.blades
    # Above two a turn, two blades let through two waves at once: more than one question should ask.
    orders = {1, 2} if blades == 2 else {1, blades - 2, blades - 1, blades, blades + 1}
    wave = setting.draw.among(sorted(orders))
    solved = setting.run("shake", speed=text_of(setting.draw.step(60, 100, 10)))
    right = _felt_words(felt(rotor, wave))
    return Question(
        f"The load in each of the {count_word(blades)} equal links of {setting.label} swings {_times(wave)} a turn, besides other things. What do the "
        "rods, which don’t turn, feel of this wave?",
        drawn(setting, right, (
            Option(_only(wave), "every-wave-gets-through",
                   "Between equal blades it cancels as it is, or the turning ring makes another wave of it"),
            Option("Nothing: it cancels between the blades", "equal-blades-cancel-everything"),
            Option(_only(blades), "always-once-a-blade"),
            Option("A steady push on one side, and no shake", "shake-becomes-steady"),
        )),
        f"What comes evenly from {count_word(blades)} blades is a multiple of {count_word(blades)} a turn: as lifting the plate from such "
        f"waves themselves, as rocking it from the waves one below and one above. Here: {right[0].lower()}{right[1:]}.",
        solved,
    )  # fmt: skip


def _odd(setting: Setting) -> Question:
    rotor = setting.rotor
    turns, words = setting.draw.among(((0.25, "a quarter turn"), (0.5, "half a turn")))
    link = setting.run("links", turns=text_of(turns))
    solved = setting.run("shake")
    blades = rotor.blades
    one = setting.show("turn_rate", rotor.speed)

    def times(count: int) -> str:
        return setting.show("turn_rate", rotor.speed * count).replace("rpm", "a minute")

    return Question(
        f"On {setting.label}, smooth until now, one of the {count_word(blades)} pitch links is, in thought, longer by {words} of its rod "
        f"end; that blade’s pitch is {shown(setting, 'angle', abs(link.value('pitch')))} out. The rotor turns at {one}. What is added to "
        "the shake?",
        drawn(setting, f"A shake of {times(1)}", (
            Option(f"A shake of {times(blades)}", "always-once-a-blade"),
            Option(f"A shake of {times(blades + 1)}", "odd-blade-shakes-faster"),
            Option("Nothing, as long as it is one blade only", "one-odd-blade-hides"),
            Option("No shake, but a steady pull to one side", "odd-blade-pulls-to-one-side"),
        )),
        f"The odd blade comes round once a turn and has no partner that cancels it. Equal blades give {times(int(solved.value('per_turn')))}.",
        solved,
    )  # fmt: skip


TEMPLATES = (
    Template("shake-rate", "shake", 1, "how fast the shake of equal blades is", "number", ("shake",), _rate),
    Template("wave-through-blades", "shake", 3, "which waves of a link’s load get down to the rods", "choice", ("shake",), _through),
    Template("one-odd-blade", "shake", 1, "what one odd blade adds to the shake", "choice", ("shake", "links"), _odd),
)  # fmt: skip
