"""The stick's gate from above with the way the stick goes as the speed grows."""

import math
from collections.abc import Sequence

from ..fields import Drawing
from .canvas import Canvas

_X, _Y, _REACH = 170.0, 158.0, 118.0


def stick_path(
    path: Sequence[tuple[float, float, float]], here: tuple[float, float, float], lever: float, words: str
) -> Drawing:
    """`path`: (speed in knots, forward, right) from the hover on; `here`: the same where the reader stands; lever 0 to 1.

    Forward is up the page. Travel is −1 to 1 each way; what goes beyond the gate is drawn there.
    """
    canvas = Canvas(340, 322, "stickpath")
    canvas.circle(_X, _Y, _REACH, "r-structure")
    canvas.circle(_X, _Y, _REACH / 2.0, "r-faint")
    canvas.line(_X - _REACH, _Y, _X + _REACH, _Y, "r-faint")
    canvas.line(_X, _Y - _REACH, _X, _Y + _REACH, "r-faint")

    def at(forward: float, right: float) -> tuple[float, float]:
        size = max(1.0, math.hypot(forward, right) / 1.12)
        return _X + _REACH * right / size, _Y - _REACH * forward / size

    canvas.path([at(f, r) for _, f, r in path], "r-hand thin")
    hx, hy = at(here[1], here[2])
    side = -1.0 if path[-1][2] < 0.0 else 1.0
    for knots, forward, right in path:
        if round(knots) % 40 == 0 and abs(knots - round(knots)) < 0.5:
            x, y = at(forward, right)
            canvas.circle(x, y, 2.6, "r-hand fill")
            if knots == 0:
                canvas.text(x, y + 18, "hover", "t t-small t-hand t-halo")
            elif math.hypot(x - hx, y - hy) > 15.0:
                canvas.text(
                    x + side * 8, y + 4, f"{knots:.0f} kt", "t t-small t-hand t-halo", "start" if side > 0 else "end"
                )
    canvas.line(_X, _Y, hx, hy, "r-hand")
    canvas.circle(hx, hy, 7, "r-hand fill")
    canvas.text(_X, _Y - _REACH - 8, "stick forward", "t t-small")
    canvas.text(_X - _REACH - 6, _Y + 4, "left", "t t-small", "end")
    canvas.text(_X + _REACH + 6, _Y + 4, "right", "t t-small", "start")
    canvas.text(20, 312, "lever", "t t-small t-hand", "start")
    canvas.line(62, 308, 322, 308, "r-structure")
    knob = 62 + 260 * min(max(lever, -0.02), 1.02)
    canvas.line(knob, 300, knob, 316, "r-hand")
    canvas.text(62, 294, "down", "t t-small", "start")
    canvas.text(322, 294, "up", "t t-small", "end")
    return Drawing(canvas.svg(), words)
