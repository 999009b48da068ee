"""Flap-back: the disc before and after the machine gains speed, and where a blade is pushed up and where it is highest."""

import math

from ..blade.flap import flapping_of
from ..conventions import TURN, advancing_side, bearing_of, before_nose, degrees_text, offset_words, sense
from ..fields import Drawing
from ..flight.atmosphere import density, speed_of_sound
from ..flight.held import hands_held
from ..rotor import Rotor
from ..units import KNOT_M_PER_S
from .canvas import Canvas, Compass
from .machine import from_above, from_left, times_as_large, times_words

KNOTS = 100.0
_HUB, _BELOW, _REACH = (166.0, 92.0), 84.0, 116.0
_ROSE, _RING = (160.0, 344.0), 82.0
_TIMES = 2


def _from_the_left(canvas: Canvas, back: float, times: int) -> None:
    x, y = _HUB
    from_left(canvas, _HUB, _BELOW)
    canvas.text(10, 16, "nose ←", "t t-small", "start")
    canvas.text(310, 16, "→ tail", "t t-small", "end")
    for height in (124.0, 150.0, 176.0):
        canvas.arrow(10, height, 56, height, "r-structure", 8.0)
    canvas.text(10, 200, f"air, {KNOTS:.0f} kt", "t t-small", "start")
    # Where the disc stood, where it stands now, and its pull square on both.
    shown = times * back
    c, s = math.cos(shown), math.sin(shown)
    canvas.line(x - _REACH, y, x + _REACH, y, "r-faint")
    canvas.line(x, y, x, y - 62, "r-faint")
    canvas.text(x + _REACH, y - 7, "in the hover", "t t-small t-halo", "end")
    canvas.line(x - _REACH * c, y - _REACH * s, x + _REACH * c, y + _REACH * s, "r-disc")
    canvas.arrow(x, y, x + 64 * s, y - 64 * c, "r-disc")
    canvas.text(x + 64 * s + 9, y - 64 * c + 14, "its pull", "t t-small t-disc", "start")
    Compass(canvas, x, y).arc_arrow(-TURN / 4.0, shown, 96.0, "r-structure", 7.0)
    leans = "back" if back >= 0.0 else "forward"
    canvas.text(10, 46, f"{degrees_text(abs(back))} {leans}", "t t-strong t-disc", "start")
    canvas.text(310, 226, f"tilt {times_words(times)}", "t t-small", "end")


def _from_above(canvas: Canvas, rotor: Rotor, lag: float) -> None:
    """Pushed up hardest straight out on the advancing side, highest a lag later."""
    x, y = _ROSE
    way = sense(rotor.rotation)
    start, high = (bearing_of(TURN / 4.0 + a, rotor.rotation) for a in (0.0, lag))
    rose = Compass(canvas, x, y)
    from_above(canvas, x, y, _RING)
    canvas.circle(x, y, _RING, "r-disc")
    rose.radial(start, -_RING, _RING, "r-structure blade")
    canvas.circle(x, y, 4, "r-structure fill")
    rose.triangle(high, _RING + 11, 14, "r-disc fill")
    rose.arc_arrow(start, way * lag, 27, "r-structure", 7.0)
    # The advancing side is on the page's right when the rotor turns anticlockwise.
    side, anchor, other = (1.0, "start", "end") if way < 0.0 else (-1.0, "end", "start")
    rose.label(start + way * lag / 2.0, 52, degrees_text(lag), "t t-small")
    for i, words in enumerate(("most air:", "pushed up", "hardest")):
        canvas.text(x + side * (_RING + 9), y - 11 + 15 * i, words, "t t-small", anchor)
    canvas.text(x - side * 14, y - _RING - 7, "highest", "t t-strong t-disc", other)
    rose.arc_arrow(start + way * math.radians(200), way * math.radians(34), _RING + 12, "r-structure")
    rose.label(start + way * math.radians(217), _RING + 31, "turns", "t t-small")
    canvas.text(10, 282, "from above", "t t-small", "start")


def flap_back(rotor: Rotor) -> Drawing:
    """The head's disc at 100 kt with the hover's hands; beneath, from above, the blade's lag."""
    held = hands_held(rotor, KNOTS * KNOT_M_PER_S, density(0.0, 0.0), speed_of_sound(0.0, 0.0))
    lag = flapping_of(rotor).lag
    times = times_as_large(held.back, _TIMES)
    canvas = Canvas(320, 440, "flapback")
    _from_the_left(canvas, held.back, times)
    _from_above(canvas, rotor, lag)
    leans = "back" if held.back >= 0.0 else "forward"
    high = before_nose(bearing_of(TURN / 4.0 + lag, rotor.rotation), rotor.rotation)
    return Drawing(
        canvas.svg(),
        f"The machine from the left, nose to the left, air of {KNOTS:.0f} kt from ahead, hands as in the hover: the disc has leaned {leans} "
        f"by {degrees_text(abs(held.back))} ({times_words(times)}) from where it stood in the hover, drawn faint. Below, from above, turning "
        f"{rotor.rotation}: pushed up hardest straight out on the {advancing_side(rotor.rotation)}, where there is most air, by this alone a blade of "
        f"this head is highest {degrees_text(lag)} later, {offset_words(high, rotor.rotation)}.",
    )
