"""Readings and the wave fitted to them, over one turn; readings that stand out are marked, never left out."""

import math
from collections.abc import Sequence

from ..fields import Drawing
from ..numbers import round_step
from .canvas import Canvas
from .curves import BASE, LEFT, RIGHT, TOP


def fitted_wave(
    places: Sequence[float], readings: Sequence[float], curve: Sequence[float], misfits: Sequence[int], x_label: str, words: str
) -> Drawing:  # fmt: skip
    """`places` of the readings and `curve` over 0 to 360 in even steps (degrees); readings in degrees."""
    canvas = Canvas(340, 250, "fitted")
    low, high = min(*readings, *curve), max(*readings, *curve)
    if high - low < 1.0:
        low, high = low - 0.5, high + 0.5
    step = round_step(high - low)
    low, high = math.floor(low / step) * step, math.ceil(high / step) * step

    def at(x: float, y: float) -> tuple[float, float]:
        return LEFT + (RIGHT - LEFT) * x / 360.0, BASE - (BASE - TOP) * (y - low) / (high - low)

    level = low
    while level <= high + step * 1e-6:
        y = at(0.0, level)[1]
        canvas.line(LEFT, y, RIGHT, y, "r-faint")
        canvas.text(LEFT - 5, y + 4, f"{level:g}".replace("-", "\N{MINUS SIGN}"), "t t-small", "end")
        level += step
    canvas.text(LEFT - 38, 12, "°", "t t-small", "start")
    for quarter in (0, 90, 180, 270, 360):
        canvas.text(at(quarter, low)[0], BASE + 16, f"{quarter}", "t t-small", "end" if quarter == 360 else "middle")
    canvas.text((LEFT + RIGHT) / 2, BASE + 33, x_label, "t t-small")
    n = len(curve)
    canvas.path([at(360.0 * i / n, curve[i % n]) for i in range(n + 1)], "r-pitch")
    for i, (place, reading) in enumerate(zip(places, readings, strict=True)):
        x, y = at(place % 360.0, reading)
        if i in misfits:
            canvas.rect(x - 7, y - 7, 14, 14, "r-error")
            canvas.text(x, y - 11, f"{i + 1}?", "t t-small t-halo")
        canvas.circle(x, y, 4, "r-hand mark")
    canvas.line(LEFT, BASE + 50, LEFT + 26, BASE + 50, "r-pitch")
    canvas.text(LEFT + 34, BASE + 54, "the fitted wave", "t t-small t-pitch", "start")
    canvas.circle(LEFT + 180, BASE + 50, 4, "r-hand mark")
    canvas.text(LEFT + 192, BASE + 54, "readings", "t t-small t-hand", "start")
    return Drawing(canvas.svg(), words)
