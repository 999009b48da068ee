"""A rotor that climbs or sinks straight up or down, and the air that goes through it."""

import math

from ..fields import Drawing
from .canvas import Canvas

_X, _Y, _HALF = 170.0, 132.0, 118.0
_LONGEST = 84.0


def climbing(climb: float, through: float, scale: float, ring: bool, labels: tuple[str, str], state: str) -> Drawing:
    """climb, through: speed of the machine, up positive, and of the air through the disc, down positive; scale: the speed drawn
    longest. ring: the air goes round the disc's edge and through it again. labels: both speeds in words. Seen from the side."""
    canvas = Canvas(340, 322, "climb")
    for way in (-1.0, 1.0):
        canvas.line(_X, _Y, _X + way * _HALF, _Y - 9.0, "r-disc")
    canvas.line(_X, _Y, _X, _Y + 26.0, "r-structure mast")
    canvas.path([(_X - 58, _Y + 50), (_X - 44, _Y + 30), (_X + 24, _Y + 26), (_X + 46, _Y + 38), (_X + 116, _Y + 30), (_X + 116, _Y + 38),
                 (_X + 40, _Y + 58), (_X - 40, _Y + 62)], "r-structure", close=True)  # fmt: skip
    length = max(-_LONGEST, min(_LONGEST, _LONGEST * through / scale))
    if ring:
        for way in (-1.0, 1.0):
            x = _X + way * (_HALF - 4.0)
            for radius in (13.0, 24.0):
                points = [(x + radius * math.cos(t), _Y - 6.0 + radius * math.sin(t))
                          for t in (math.radians(20.0 * i) for i in range(18))]  # fmt: skip
                canvas.path(points, "r-pitch thin", close=True)
            canvas.arrow(x + way * 24.0, _Y + 2.0, x + way * 24.0, _Y - 16.0, "r-pitch", 7.0)
    for way in (-1.0, 1.0):
        for out in (34.0, 64.0):
            x = _X + way * out
            if abs(length) < 7.0:
                canvas.line(x - 5, _Y - 16.0, x + 5, _Y - 16.0, "r-pitch")
            elif length > 0.0:
                canvas.arrow(x, _Y - 10.0 - length, x, _Y - 10.0, "r-pitch", 8.0)
            else:
                canvas.arrow(x, _Y + 72.0 - length, x, _Y + 72.0, "r-pitch", 8.0)
    rise = max(-40.0, min(40.0, 40.0 * climb / scale))
    if abs(rise) > 3.0:
        canvas.arrow(312, 150 + rise / 2.0, 312, 150 - rise / 2.0, "r-hand")
    canvas.text(328, 214, labels[0], "t t-small t-hand t-halo", "end")
    canvas.text(12, 20, labels[1], "t t-small t-pitch", "start")
    canvas.text(12, 312, state, "t t-strong", "start")
    return Drawing(canvas.svg(), f"A rotor from the side: {labels[0]}; {labels[1]}. {state}.")
