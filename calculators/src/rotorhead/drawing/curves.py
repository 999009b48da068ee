"""Curves over a turn as the package's own SVG: a line a role, a cursor, levels with figures."""

import math
from collections.abc import Mapping, Sequence

from ..fields import Drawing
from ..numbers import round_step
from .canvas import Canvas

LEFT, RIGHT, TOP, BASE = 46.0, 328.0, 20.0, 176.0


def curve_drawing(
    name: str, xs: Sequence[float], curves: Mapping[str, tuple[str, Sequence[float]]], cursor: float | None, x_label: str,
    unit: str, words: str,
) -> Drawing:  # fmt: skip
    """Lines over x with a vertical cursor at `cursor`; `curves`: name -> (role, values)."""
    canvas = Canvas(340, 214 + 17 * len(curves), name)
    low = min(min(v) for _, v in curves.values())
    high = max(max(v) for _, v in curves.values())
    if high - low < 1e-9:
        low, high = low - 1.0, high + 1.0
    step = round_step(high - low)
    low, high = math.floor(low / step) * step, math.ceil(high / step) * step
    places = max(0, -math.floor(math.log10(step)))

    def at(x: float, y: float) -> tuple[float, float]:
        return (
            LEFT + (RIGHT - LEFT) * (x - xs[0]) / (xs[-1] - xs[0]),
            BASE - (BASE - TOP) * (y - low) / (high - low),
        )

    level = low
    while level <= high + step * 1e-6:
        y = at(xs[0], level)[1]
        canvas.line(LEFT, y, RIGHT, y, "r-structure" if abs(level) < step * 1e-6 else "r-faint")
        text = f"{level:.{places}f}".replace("-", "\N{MINUS SIGN}") if abs(level) > step * 1e-6 else "0"
        canvas.text(LEFT - 5, y + 4, text, "t t-small", "end")
        level += step
    canvas.text(LEFT - 38, 12, unit, "t t-small", "start")
    for i in range(5):
        x = xs[0] + (xs[-1] - xs[0]) * i / 4
        canvas.text(at(x, low)[0], BASE + 16, f"{x:g}", "t t-small", "end" if i == 4 else "middle")
    canvas.text((LEFT + RIGHT) / 2, BASE + 33, x_label, "t t-small")
    for label, (role, values) in curves.items():
        canvas.path(
            [at(x, y) for x, y in zip(xs, values, strict=True)], f"{role} thin-line" if role == "r-plate" else role
        )
        row = BASE + 50 + 17 * list(curves).index(label)
        canvas.line(LEFT, row - 4, LEFT + 26, row - 4, role)
        canvas.text(LEFT + 34, row, label, f"t t-small {role.replace('r-', 't-')}", "start")
    if cursor is not None:
        canvas.line(at(cursor, low)[0], TOP, at(cursor, low)[0], BASE, "r-hand thin")
    return Drawing(canvas.svg(), words)
