"""Stops and limits: which end comes first, what is left of the stick, full lever with full stick."""

import math
from dataclasses import dataclass

from ...conventions import Rotation, after_side, before_side
from ...mechanism.reach import mixing, stick_limit
from ..model import Amount, Option, Question, Setting, Template, Wrong, around
from .wording import drawn, text_of

# Stick directions: share forward, share to the side a blade goes to after the nose, so that a mirrored head is asked the same.
DIRECTIONS = ((1.0, 0.0), (-1.0, 0.0), (0.0, 1.0), (0.0, -1.0), (0.6, 0.8), (0.6, -0.8), (-0.6, 0.8), (-0.6, -0.8))
LEVERS = ((0, "fully down"), (20, "one fifth up"), (80, "four fifths up"), (100, "fully up"))
SHARES = (90, 85, 80, 75, 70, 60, 50, 40, 30, 20)
Way = tuple[str, float, float]


def _ways(rotation: Rotation) -> list[Way]:
    """Words, share forward, share left of every direction."""
    found = []
    for forward, after in DIRECTIONS:
        side = after_side(rotation) if after > 0 else before_side(rotation)
        words = "forward" if forward > 0 else "back"
        if after:
            words = f"{words} and {side}" if forward else f"to the {side}"
        found.append((words, forward, abs(after) if side == "left" else -abs(after)))
    return found


@dataclass(frozen=True)
class _Rod:
    """A rod on its way to an end: half its stroke, what the lever has used of it, what full stick asks, all m.

    `same`: the stick sends it further the way the lever has sent it. `share`: of full stick, where it ends.
    """

    number: int
    half: float
    used: float
    asked: float
    same: bool

    @property
    def room(self) -> float:
        return self.half - self.used if self.same else self.half + self.used

    @property
    def share(self) -> float:
        return self.room / self.asked if self.asked > 1e-9 else math.inf


@dataclass(frozen=True)
class _Held:
    """A situation: lever (percent, words), stick direction, share of the strokes that is left, its rods."""

    lever: int
    lever_words: str
    way: Way
    percent: int
    rods: tuple[_Rod, ...]

    @property
    def nearest(self) -> _Rod:
        return min(self.rods, key=lambda rod: rod.share)

    @property
    def plain(self) -> bool:
        """Whether the rod that stops first has the least left and the most to do besides."""
        least, most = min(rod.room for rod in self.rods), max(rod.asked for rod in self.rods)
        return self.nearest.room <= least + 1e-6 and self.nearest.asked >= most - 1e-6

    def inputs(self, stick: float) -> dict[str, str]:
        _, forward, left = self.way
        return {
            "lever": str(self.lever),
            "stick_forward": text_of(forward * stick),
            "stick_left": text_of(left * stick),
            "stroke_share": str(self.percent),
        }


def _held(setting: Setting, lever: tuple[int, str], way: Way, percent: int) -> _Held:
    rotor, direction = setting.rotor, math.atan2(way[2], way[1])
    rods = []
    for n, ((c, f, s), stroke) in enumerate(zip(mixing(rotor), rotor.rod_strokes, strict=True), 1):
        base = c * (lever[0] / 100.0 - 0.5)
        asked = f * math.cos(direction) + s * math.sin(direction)
        rods.append(_Rod(n, stroke * percent / 200.0, abs(base), abs(asked), base * asked > 0.0))
    return _Held(lever[0], lever[1], way, percent, tuple(rods))


def _short_of(setting: Setting, low: float, high: float, apart: float) -> _Held:
    """A situation in which one rod alone ends the stick between two shares of its travel: rather a drawn
    rod, rather one that is not also the one with the least left and the most to do, rather with a second rod short of full stick. Strokes so long that there is none give
    a situation in which the stick's own stop comes first."""
    situations = setting.draw.shuffled([(lever, way) for lever in LEVERS for way in _ways(setting.rotor.rotation)])
    wanted = 1 + setting.draw.below(len(setting.rotor.rod_azimuths))
    found: list[_Held] = []
    for percent in SHARES:
        for lever, way in situations:
            held = _held(setting, lever, way, percent)
            first, second = sorted(rod.share for rod in held.rods)[:2]
            if low <= first <= high and second > first * apart and all(rod.room > 0.001 for rod in held.rods):
                found.append(held)
    if not found:
        return _held(setting, *situations[0], 100)

    def wanting(held: _Held) -> int:
        second = sorted(rod.share for rod in held.rods)[1]
        return (held.nearest.number != wanted) + held.plain + (second >= 1.0)

    return min(found, key=wanting)


def _first(setting: Setting) -> Question:
    held = _short_of(setting, 0.3, 0.94, 1.08)
    solved = setting.run("reach", **held.inputs(100))
    nearest = held.nearest
    right = f"Rod {nearest.number}" if solved.words("stops_first").startswith("rod") else "The stick’s own stop"
    least = min(held.rods, key=lambda rod: rod.room)
    most = max(held.rods, key=lambda rod: rod.asked)
    named = {rod.number: rod for rod in (nearest, least, most, *held.rods)}
    three = sorted(list(named.values())[:3], key=lambda rod: rod.number)
    listed = "; ".join(
        f"rod {rod.number}: {setting.show('small_length', rod.room)} of {setting.show('small_length', rod.asked)}"
        for rod in three
    )
    strokes = "" if held.percent == 100 else f" and all strokes are cut, in thought, to {held.percent}%"
    return Question(
        f"On {setting.label} the lever is {held.lever_words}{strokes}. The stick goes {held.way[0]}. So much a rod has left that way, of "
        f"so much that full stick asks of it: {listed}. What stops the stick first?",
        drawn(setting, right, (
            Option("The stick’s own stop", "full-stick-is-full-stick"),
            Option(f"Rod {least.number}", "least-room-stops-first",
                   f"Rod {least.number} has the least left, {setting.show('small_length', least.room)}"),
            Option(f"Rod {most.number}", "most-asked-stops-first",
                   f"Of rod {most.number} most is asked, {setting.show('small_length', most.asked)}"),
            Option("All rods at the same moment", "rods-stop-together"),
        )),
        f"What counts is what is left over what is asked: rod {nearest.number} comes to its end at "
        f"{setting.show('percent', nearest.share)} of full stick.",
        solved,
    )  # fmt: skip


def _left_over(setting: Setting) -> Question:
    held = _short_of(setting, 0.38, 0.92, 1.0)
    rod = held.nearest
    stick = 10 * setting.draw.step(1, max(1, math.floor(min(1.0, rod.share) * 10 - 2)), 1)
    solved = setting.run("reach", **held.inputs(stick))
    rest = solved.value("stick_left_over")
    goes, at = solved.value("stick_goes"), stick / 100.0
    tolerance = 0.025
    wrong = (
        Wrong(1.0 - at, "full-stick-is-full-stick"),
        Wrong(rod.half / rod.asked - at, "full-stick-is-full-stick"),
        Wrong(goes, "limit-is-what-is-left"),
        Wrong((2.0 * rod.half - rod.room) / rod.asked - at, "lever-always-takes"),
    )
    way = held.way[0]
    return Question(
        f"On {setting.label} the rod nearest to its end is rod {rod.number}. In thought it may go "
        f"{setting.show('small_length', rod.half)} either way from its middle. The lever, {held.lever_words}, has moved it "
        f"{setting.show('small_length', rod.used)}; full stick {way} moves it {setting.show('small_length', rod.asked)} "
        f"{'further the same way' if rod.same else 'the other way'}. The stick is {stick:.0f}% {way}. How much further can it go, "
        "in per cent of full stick?",
        Amount(rest, "percent", tolerance, 0, around(rest, tolerance, (w for w in wrong if w.value > 0.0))),
        f"{setting.show('small_length', rod.room)} of room over {setting.show('small_length', rod.asked)} for full stick: the "
        f"stick ends at {setting.show('percent', goes)}, and {stick:.0f}% of it is used.",
        solved,
    )


def _worst(setting: Setting, percent: int) -> float:
    """Least of the stick that is left at either end of the lever, as `reach` finds it: only to choose a situation by."""
    strokes = [stroke * percent / 100.0 for stroke in setting.rotor.rod_strokes]
    ways = [math.radians(10.0 * i) for i in range(36)]
    return min(stick_limit(setting.rotor, strokes, lever, way).stick for lever in (0.0, 1.0) for way in ways)


def _full_full(setting: Setting) -> Question:
    percent = 100
    if setting.draw.below(3):
        start = setting.draw.below(3)
        short = [p for p in SHARES if _worst(setting, p) < 0.96 - 0.08 * start]
        percent = short[0] if short else 100
    lever, stick = setting.draw.among((("100", "fully up"), ("0", "fully down"))), setting.draw.among(("60", "100"))
    solved = setting.run("reach", lever=lever[0], stick_forward=stick, stroke_share=str(percent))
    left = solved.value("full_full")
    share = setting.show("percent", left)
    strokes = "with the strokes it has" if percent == 100 else f"with all strokes cut, in thought, to {percent}%"
    whole = left > 1.0 - 1e-6
    right = (
        "Full, every way: the strokes are long enough for both"
        if whole
        else f"Short of full in some directions, {share} in the worst"
    )
    full = "Full, every way: lever and stick have travels of their own"
    return Question(
        f"On {setting.label}, {strokes}, the lever is {lever[1]}, and the stick is moved all round. How far does the stick get?",
        drawn(setting, right, (
            Option("Short of full in some directions: both can’t be had", "full-with-full-never-fits")
            if whole else Option(full, "full-stick-is-full-stick"),
            Option("Short of full all round, by the same amount" if whole else f"Short of full all round, {share} in every direction",
                   "stops-early-all-round"),
            Option("Full, every way: the lever gives way to the stick", "lever-gives-way"),
        )),
        "The strokes hold the lever’s travel and, on top of it, the most that any direction of the stick asks of a rod."
        if whole else "Only a rod that must go further the way the lever has sent it runs out; other directions have more room.",
        solved,
    )  # fmt: skip


TEMPLATES = (
    Template("which-stop-first", "stops", 2, "weighing what a rod has left against what is asked of it", "choice", ("reach",), _first),
    Template("stick-left-over", "stops", 3, "what the lever leaves of a rod for the stick", "number", ("reach",), _left_over),
    Template("full-lever-full-stick", "stops", 2, "why strokes are sized for both hands together", "choice", ("reach",), _full_full),
)  # fmt: skip
