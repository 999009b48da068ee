"""The two sides of the disc at speed, from above: the air each blade meets, and where it comes from behind."""

import math

from ..conventions import TURN, advancing_side, after_side, bearing_of, degrees_text, sense
from ..fields import Drawing
from ..flight.atmosphere import density, speed_of_sound
from ..flight.disc_map import advancing_tip_mach, angle_at, reversed_circle
from ..flight.inflow import DEFAULT_MODEL
from ..flight.trim import balanced
from ..flight.validity import checked_advance
from ..rotor import Rotor
from ..units import KNOT_M_PER_S, System, show
from .canvas import Canvas, Compass
from .machine import from_above

KNOTS = 100.0
_X, _Y, _RING = 160.0, 206.0, 86.0
# Air as fast as a tip turns is drawn this long, px.
_UNIT = 96.0
_INNER = 0.75
_ADVANCING, _RETREATING = 0.25 * TURN, 0.75 * TURN


def _air(canvas: Canvas, mu: float, side: float, centre: tuple[float, float]) -> None:
    """Arrows to one scale; `side`: the advancing one on the page, 1 right."""
    for out, sign in ((1.0, 1.0), (_INNER, 1.0), (_INNER, -1.0), (1.0, -1.0)):
        # Air meets the blade's front edge: from the nose on the advancing side, from the tail on the retreating one.
        x, length = _X + side * sign * _RING * out, _UNIT * (out + sign * mu)
        canvas.arrow(x, _Y - sign * (length + 3), x, _Y - sign * 3, "r-structure", min(9.0, abs(length)))
    # In the middle of the reversed flow the blade's own speed is half of the airspeed, which comes from the nose.
    length = _UNIT * mu / 2.0
    canvas.arrow(centre[0], _Y - 3 - length, centre[0], _Y - 3, "r-structure", min(6.0, length))
    canvas.arrow(_X, 72, _X, 72 + _UNIT * mu, "r-structure", min(8.0, _UNIT * mu))
    canvas.text(_X, 64, f"air, {KNOTS:.0f} kt", "t t-small")


def two_sides(rotor: Rotor, system: System) -> Drawing:
    """Airspeeds straight out on both sides at 100 kt, to one scale; reversed flow to the disc's scale."""
    speed, sound = KNOTS * KNOT_M_PER_S, speed_of_sound(0.0, 0.0)
    tip_speed = rotor.speed * rotor.radius
    mu = checked_advance(speed / tip_speed)
    flown = balanced(rotor, speed, density(0.0, 0.0), None, DEFAULT_MODEL, sound)
    angle = angle_at(flown.blade, flown.air, flown.pitch, flown.flap, 1.0, _RETREATING)
    # The tip stands beyond the reversed flow at any advance ratio that isn't refused.
    assert angle is not None
    tips = [show("speed", tip_speed + sign * speed, system) for sign in (1.0, -1.0)]
    inner = [show("speed", _INNER * tip_speed + sign * speed, system) for sign in (1.0, -1.0)]
    mach, across = f"{advancing_tip_mach(tip_speed, speed, sound):.2f}", show("length", mu * rotor.radius, system)
    canvas = Canvas(320, 360, "twosides")
    disc, way = Compass(canvas, _X, _Y), sense(rotor.rotation)
    from_above(canvas, _X, _Y, _RING)
    canvas.circle(_X, _Y, _RING, "r-disc")
    circle = reversed_circle(mu)
    centre = disc.at(bearing_of(circle.azimuth, rotor.rotation), _RING * circle.distance)
    canvas.circle(*centre, _RING * circle.diameter / 2.0, "r-structure mark")
    for psi in (_ADVANCING, _RETREATING):
        disc.radial(bearing_of(psi, rotor.rotation), 0.0, _RING, "r-structure blade")
    canvas.circle(_X, _Y, 4, "r-structure fill")
    _air(canvas, mu, -way, centre)
    canvas.line(centre[0], centre[1] + _RING * circle.diameter / 2.0, centre[0], _Y + _RING + 22, "r-faint")
    canvas.text(_X, _Y + _RING + 38, f"air from behind: {across} across", "t t-small")
    names = ((1.0, "advancing", advancing_side(rotor.rotation)), (-1.0, "retreating", after_side(rotor.rotation)))
    for sign, name, where in names:
        x, anchor = (316.0, "end") if way * sign < 0.0 else (4.0, "start")
        canvas.text(x, 18, name, "t t-strong", anchor)
        canvas.text(x, 34, f"side, {where}", "t t-small", anchor)
        # Where that side's arrows are not.
        y = _Y + (24.0 if sign > 0.0 else -46.0)
        canvas.text(x, y, tips[0 if sign > 0.0 else 1], "t t-small", anchor)
        words = f"Mach {mach}" if sign > 0.0 else f"angle {degrees_text(angle)}"
        canvas.text(x, y + 16, words, "t t-small", anchor)
    canvas.text(_X, _Y - _RING - 6, "nose", "t t-small t-halo")
    start = bearing_of(math.radians(20), rotor.rotation)
    disc.arc_arrow(start, way * math.radians(34), _RING + 12, "r-structure")
    disc.label(start + way * math.radians(17), _RING + 32, "turns", "t t-small")
    return Drawing(
        canvas.svg(),
        f"The disc from above at {KNOTS:.0f} kt, nose at the top, turning {rotor.rotation}; arrows are the air a blade meets, to one scale. On the "
        f"advancing side, {names[0][2]}, {tips[0]} at the tip, Mach {mach}, and {inner[0]} at three quarters of the radius. On the retreating side, "
        f"{names[1][2]}, {tips[1]} at the tip, at an angle of attack of {degrees_text(angle)}, and {inner[1]} at three quarters. In the circle beside the "
        f"mast, {across} across, the air comes from behind.",
    )
