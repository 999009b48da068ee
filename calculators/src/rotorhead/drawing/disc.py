"""The hands and the disc: stick and lever beside the tilt they make, seen from above."""

import math

from ..conventions import bearing_words, degrees_text
from ..fields import Drawing
from ..rotor import Rotor
from .canvas import Canvas, Compass
from .rose import blank_rose


def stick_and_lever(canvas: Canvas, x: float, y: float, lever: float, forward: float, left: float) -> None:
    """A round stick gate with the stick in it, and a lever scale beside it."""
    canvas.circle(x, y, 38, "r-structure")
    canvas.line(x - 38, y, x + 38, y, "r-faint")
    canvas.line(x, y - 38, x, y + 38, "r-faint")
    sx, sy = x - 36 * left, y - 36 * forward
    canvas.line(x, y, sx, sy, "r-hand")
    canvas.circle(sx, sy, 6, "r-hand fill")
    canvas.text(x, y - 44, "stick", "t t-small t-hand")
    lx = x + 66
    canvas.line(lx, y + 38, lx, y - 38, "r-structure")
    ly = y + 38 - 76 * lever
    canvas.line(lx - 10, ly, lx + 10, ly, "r-hand")
    canvas.text(lx, y - 44, "lever", "t t-small t-hand")


def stick_pad(lever: float, forward: float, left: float) -> Drawing:
    """The two hands alone."""
    canvas = Canvas(220, 110, "stick")
    stick_and_lever(canvas, 70, 62, lever, forward, left)
    return Drawing(
        canvas.svg(),
        f"Stick {forward * 100:.0f}% forward and {left * 100:.0f}% left, collective lever {lever * 100:.0f}% up.".replace(
            "-", "\N{MINUS SIGN}"
        ),
    )


def disc_tilt(
    rotor: Rotor, lever: float, forward: float, left: float, tilt: float, low: float, coning: float
) -> Drawing:
    """The disc from above with its low point, and the hands that put it there."""
    canvas = Canvas(360, 462, "disc")
    rose = blank_rose(canvas, rotor.rotation)
    canvas.circle(rose.x, rose.y, 100, "r-disc")
    if tilt > math.radians(0.02):
        size = min(84.0, 20.0 + 7.0 * math.degrees(tilt))
        canvas.arrow(rose.x, rose.y, *rose.at(low, size), "r-disc")
        rose.wedge(low, 88, 118, 0.1, "r-disc fill")
        rose.label(low, 64 if size > 60 else size + 14, degrees_text(tilt), "t t-halo t-disc")
    else:
        canvas.text(rose.x, rose.y - 12, "level", "t t-halo t-disc")
    reach = math.hypot(forward, left)
    if reach > 0.005:
        bearing = math.atan2(-left, forward)
        canvas.arrow(rose.x, rose.y, *rose.at(bearing, 30 * min(reach, 1.4) + 10), "r-hand")
    stick_and_lever(canvas, 130, 414, lever, forward, left)
    side = Compass(canvas, 292, 426)
    for way in (-1, 1):
        canvas.line(side.x, side.y, side.x + way * 40, side.y - 40 * math.tan(min(coning * 3, 0.6)), "r-disc")
    canvas.text(292, 370, "coning ×3", "t t-small t-disc")
    where = f"low {bearing_words(low)}" if tilt > math.radians(0.02) else "level"
    return Drawing(
        canvas.svg(),
        f"The disc seen from above, nose at the top, turning {rotor.rotation}: tilted {degrees_text(tilt)}, {where}. Stick "
        f"{forward * 100:.0f}% forward, {left * 100:.0f}% left; coning {degrees_text(coning)}.".replace(
            "-", "\N{MINUS SIGN}"
        ),
    )
