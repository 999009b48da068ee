"""The hover from behind: the tail rotor's push, the disc that leans against it, the fuselage that hangs with one side low."""

import math

from ..conventions import after_side, before_side, degrees_text, sense
from ..fields import Drawing
from ..flight.atmosphere import density, speed_of_sound
from ..flight.inflow import DEFAULT_MODEL
from ..flight.tail import TAIL_HEIGHT
from ..flight.trim import balanced
from ..rotor import Rotor
from ..units import System, show
from .canvas import Canvas, Compass
from .machine import at_hub, from_behind, times_as_large, times_words

_HUB, _BELOW, _REACH, _PULL = (160.0, 116.0), 112.0, 122.0, 88.0
_TIMES = 4


def sideways_balance(rotor: Rotor, system: System) -> Drawing:
    """The head in the hover; lean and bank drawn the same number of times as large."""
    state = balanced(rotor, 0.0, density(0.0, 0.0), None, DEFAULT_MODEL, speed_of_sound(0.0, 0.0))
    lean, bank = math.atan2(state.push, state.disc.thrust), state.bank
    times = times_as_large(lean, _TIMES)
    canvas = Canvas(320, 380, "sideways")
    x, y = _HUB
    # The push goes to the page's right when the rotor turns anticlockwise, the lean to its left.
    to = -sense(rotor.rotation)
    for words, at, anchor in (("left", 8, "start"), ("right", 312, "end")):
        canvas.text(at, 18, words, "t t-small", anchor)
    # bank: toward the advancing side is positive, that is the way of the push.
    turn = -to * times * bank
    gx, gy = from_behind(canvas, _HUB, _BELOW, turn, (to, TAIL_HEIGHT))
    shown = times * lean
    c, s = math.cos(shown), math.sin(shown)
    canvas.line(x - _REACH, y, x + _REACH, y, "r-faint")
    canvas.line(x - _REACH * c, y + to * _REACH * s, x + _REACH * c, y - to * _REACH * s, "r-disc")
    # Its pull, split: up and to the side.
    tip = (x - to * _PULL * s, y - _PULL * c)
    canvas.line(x, tip[1], *tip, "r-faint")
    canvas.arrow(x, y, x, tip[1], "r-disc thin", 8.0)
    canvas.arrow(x, y, *tip, "r-disc")
    canvas.arrow(x, tip[1], *tip, "r-disc thin", 8.0)
    anchors = ("end", "start") if to > 0.0 else ("start", "end")
    canvas.text(x + to * 7, y - 54, "up: the weight", "t t-small t-disc", anchors[1])
    canvas.text(tip[0] - to * 6, tip[1] + 4, "aside", "t t-small t-disc", anchors[0])
    # The push at the tail rotor, as long as the side part; the weight.
    px, py = at_hub(_HUB, _BELOW, turn)((to * 0.16, 1.0 - TAIL_HEIGHT))
    end = px + to * max(_PULL * s, 10.0)
    canvas.arrow(px, py, end, py, "r-disc", 8.0)
    for i, words in enumerate(("tail rotor’s", "push")):
        canvas.text(end + to * 7, py + 15 * i, words, "t t-small t-disc", anchors[1])
    canvas.arrow(gx, gy, gx, gy + 74, "r-structure", 8.0)
    canvas.circle(gx, gy, 4, "r-structure fill")
    canvas.text(gx - to * 8, gy + 72, "weight", "t t-small t-halo", anchors[0])
    Compass(canvas, x, y).arc_arrow(-to * math.pi / 2.0, -to * shown, _REACH - 20, "r-structure", 6.0)
    canvas.text(8 if to > 0.0 else 312, y + _REACH * s + 18, degrees_text(lean), "t t-strong t-disc", anchors[1])
    sides = (before_side(rotor.rotation), after_side(rotor.rotation))
    low = sides[0] if bank > 0.0 else sides[1]
    level = degrees_text(abs(bank)) == degrees_text(0.0)
    hangs = "level" if level else f"{degrees_text(abs(bank))} {low} side low"
    push = show("force", state.push, system)
    lines = (
        f"tail rotor pushes {push} to the {sides[0]}",
        f"disc leans {degrees_text(lean)} to the {sides[1]}",
        f"fuselage hangs {hangs}",
    )
    for i, words in enumerate(lines):
        canvas.text(10, 320 + 17 * i, words, "t t-small" if i == 2 else "t t-small t-disc", "start")
    canvas.text(10, 371, f"angles {times_words(times)}", "t t-small", "start")
    return Drawing(
        canvas.svg(),
        f"The machine in the hover from behind, its rotor turning {rotor.rotation} seen from above: the tail rotor pushes with {push} to the {sides[0]}. The disc leans against it by {degrees_text(lean)} to "
        f"the {sides[1]}, so that a part of its pull goes aside as strongly as the push and the rest carries the weight. The fuselage hangs "
        f"{hangs}. Angles are {times_words(times)}.",
    )
