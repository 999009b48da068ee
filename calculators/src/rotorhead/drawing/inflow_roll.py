"""Inflow roll: the downwash along the disc at low speed, and the side that goes down for it."""

import math

from ..conventions import TURN, advancing_side, after_side, bearing_of, degrees_text, sense
from ..fields import Drawing
from ..flight.atmosphere import density, speed_of_sound
from ..flight.balance import balance
from ..flight.inflow import DEFAULT_MODEL
from ..flight.trim import balanced
from ..rotor import Rotor
from ..units import KNOT_M_PER_S, System, show
from .canvas import Canvas, Compass
from .machine import from_above, from_behind, from_left, times_as_large, times_words

KNOTS = 20.0
_HUB, _REACH, _BELOW = (160.0, 58.0), 130.0, 84.0
# The mean downwash is drawn this long, px.
_MEAN = 56.0
_TIMES = 5
_STATIONS = (-0.95, -0.75, -0.55, -0.35, 0.35, 0.55, 0.75, 0.95)


def inflow_lean(rotor: Rotor) -> tuple[float, float, float]:
    """At 20 kt: mean downwash (m/s), its gradient kx, and how far that leans the disc toward the advancing side (rad).

    The lean: pitch as level flight wants it with even inflow, then the uneven inflow with the same pitch.
    """
    speed, air, sound = KNOTS * KNOT_M_PER_S, density(0.0, 0.0), speed_of_sound(0.0, 0.0)
    even = balanced(rotor, speed, air, None, "uniform", sound)
    stream = balanced(rotor, speed, air, None, DEFAULT_MODEL, sound).air
    flap = balance(even.blade, stream).flap(even.pitch)
    return stream.induced * rotor.speed * rotor.radius, stream.kx, even.flap.sine - flap.sine


def _downwash(canvas: Canvas, mean: float, kx: float, system: System) -> None:
    """The disc from the left; each arrow as long as the air there is fast."""
    x, y = _HUB
    canvas.text(10, 16, "nose ←", "t t-small", "start")
    canvas.text(310, 16, "→ tail", "t t-small", "end")
    canvas.text(10, 36, f"air, {KNOTS:.0f} kt", "t t-small", "start")
    canvas.arrow(76, 32, 122, 32, "r-structure", 8.0)
    from_left(canvas, _HUB, _BELOW)
    canvas.line(x - _REACH, y, x + _REACH, y, "r-disc")
    ends = [(x + _REACH * at, y + 5 + _MEAN * (1.0 + kx * at)) for at in (-1.0, 1.0)]
    canvas.line(*ends[0], *ends[1], "r-faint")
    for at in _STATIONS:
        length = _MEAN * (1.0 + kx * at)
        px = x + _REACH * at
        canvas.arrow(px, y + 5, px, y + 5 + length, "r-structure blade", min(9.0, abs(length)))
    for at, anchor, px, py in ((-1.0, "start", 10.0, 200.0), (1.0, "end", 310.0, 200.0)):
        canvas.text(px, py, show("speed", mean * (1.0 + kx * at), system, 1), "t t-strong", anchor)
    canvas.text(160, 194, "downwash,", "t t-small")
    canvas.text(160, 209, f"mean {show('speed', mean, system, 1)}", "t t-small")


def _from_above(canvas: Canvas, rotor: Rotor) -> None:
    x, y, ring = 84.0, 312.0, 46.0
    way = sense(rotor.rotation)
    rose = Compass(canvas, x, y)
    from_above(canvas, x, y, ring)
    canvas.circle(x, y, ring, "r-disc")
    canvas.circle(x, y, 3, "r-structure fill")
    rose.triangle(0.0, ring - 10, 12, "r-structure mark")
    nose = bearing_of(TURN / 2.0, rotor.rotation)
    rose.arc_arrow(nose + way * 0.3, way * (TURN / 4.0 - 0.45), ring - 18, "r-structure")
    rose.wedge(way * -TURN / 4.0, ring - 14, ring + 10, 0.16, "r-disc fill")
    canvas.text(x, y - ring - 8, "most lift", "t t-small")
    canvas.text(x, 240, "from above", "t t-small")
    side = -way
    canvas.text(x + side * (ring + 15), y + 25, "low", "t t-small t-disc")
    canvas.text(x - side * (ring + 19), y + 4, "high", "t t-small t-disc")
    rose.arc_arrow(nose + way * math.radians(150), way * math.radians(50), ring + 12, "r-structure")
    canvas.text(x, y + ring + 30, "turns", "t t-small")


def inflow_roll(rotor: Rotor, system: System) -> Drawing:
    """The head at 20 kt: downwash from front to rear; from above and from behind, what the quarter turn makes of it."""
    mean, kx, lean = inflow_lean(rotor)
    canvas = Canvas(320, 400, "inflowroll")
    _downwash(canvas, mean, kx, system)
    _from_above(canvas, rotor)
    # From behind: the advancing side goes down.
    times = times_as_large(lean, _TIMES)
    way = -sense(rotor.rotation)
    side = (advancing_side if lean >= 0.0 else after_side)(rotor.rotation)
    hub, reach = (236.0, 278.0), 66.0
    from_behind(canvas, hub, 44.0, 0.0)
    canvas.line(hub[0] - reach, hub[1], hub[0] + reach, hub[1], "r-faint")
    c, s = math.cos(times * lean), way * math.sin(times * lean)
    canvas.line(hub[0] - reach * c, hub[1] - reach * s, hub[0] + reach * c, hub[1] + reach * s, "r-disc")
    canvas.text(236, 240, "from behind", "t t-small")
    canvas.text(236, 362, f"{degrees_text(abs(lean))} to the {side}", "t t-strong t-disc")
    canvas.text(236, 380, times_words(times), "t t-small")
    return Drawing(
        canvas.svg(),
        f"The disc from the left at {KNOTS:.0f} kt, nose to the left: the downwash is {show('speed', mean * (1.0 - kx), system, 1)} at the front "
        f"edge and {show('speed', mean * (1.0 + kx), system, 1)} at the rear edge. From above, turning {rotor.rotation}: most lift over the nose, "
        f"and so low on the {advancing_side(rotor.rotation)}. From behind: with still hands the uneven inflow alone leans the disc by "
        f"{degrees_text(abs(lean))} to the {side} ({times_words(times)}).",
    )
