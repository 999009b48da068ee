"""Pitch round the disc: a polar strip and an unrolled strip, each blade marked where it is now."""

import math
from collections.abc import Sequence

from ..conventions import TURN, bearing_of, bearing_words
from ..fields import Drawing
from ..rotor import Rotor
from .canvas import Canvas, Compass, fixed


def pitch_strips(rotor: Rotor, pitch: Sequence[float], now: Sequence[float], mast: float, greatest: float) -> Drawing:
    """`pitch`: rad in even steps of azimuth from the tail; `now`: pitch of each blade, blade 1 at `mast`."""
    canvas = Canvas(340, 402, "pitch")
    degrees = [math.degrees(p) for p in pitch]
    low, high = min(*degrees, 0.0), max(*degrees, 1.0)
    top = max(math.ceil(high / 5.0) * 5.0, 5.0)
    bottom = math.floor(low / 5.0) * 5.0
    rose = Compass(canvas, 170, 118)

    def radius(value: float) -> float:
        return 28.0 + 56.0 * (value - bottom) / (top - bottom)

    n = len(degrees)
    for level in (bottom, top):
        canvas.circle(rose.x, rose.y, radius(level), "r-faint")
    for words, bearing in (("nose", 0.0), ("right", 90.0), ("tail", 180.0), ("left", 270.0)):
        rose.radial(math.radians(bearing), radius(bottom), radius(top), "r-faint")
        rose.label(math.radians(bearing), 107, words, "t t-small")
    curve = [rose.at(bearing_of(i * TURN / n, rotor.rotation), radius(v)) for i, v in enumerate(degrees)]
    canvas.path(curve, "r-pitch", close=True)
    for blade, value in enumerate(now):
        bearing = bearing_of(mast + blade * TURN / rotor.blades, rotor.rotation)
        rose.radial(bearing, 8, radius(math.degrees(value)), "r-structure blade")
        x, y = rose.at(bearing, radius(math.degrees(value)))
        canvas.circle(x, y, 8, "r-pitch mark")
        canvas.text(x, y + 4, str(blade + 1), "t t-small")
    _unrolled(canvas, rotor, degrees, now, mast, bottom, top)
    words = ", ".join(f"blade {b + 1} {math.degrees(v):.1f}°" for b, v in enumerate(now))
    return Drawing(
        canvas.svg(),
        f"Blade pitch round one turn, seen from above and unrolled. Pitch runs between {min(degrees):.1f}° and "
        f"{max(degrees):.1f}°, greatest {bearing_words(greatest)}. Now: {words}.".replace("-", "\N{MINUS SIGN}"),
    )


def _unrolled(
    canvas: Canvas, rotor: Rotor, degrees: list[float], now: Sequence[float], mast: float, bottom: float, top: float
) -> None:
    left, right, base, height = 40.0, 326.0, 368.0, 118.0

    def at(azimuth: float, value: float) -> tuple[float, float]:
        return left + (right - left) * azimuth / TURN, base - height * (value - bottom) / (top - bottom)

    step = 5.0 if top - bottom <= 25 else 10.0
    level = bottom
    while level <= top + 1e-9:
        canvas.line(left, at(0, level)[1], right, at(0, level)[1], "r-faint")
        canvas.text(left - 5, at(0, level)[1] + 4, f"{level:.0f}°".replace("-", "\N{MINUS SIGN}"), "t t-small", "end")
        level += step
    names = {
        "anticlockwise": ("tail", "right", "nose", "left", "tail"),
        "clockwise": ("tail", "left", "nose", "right", "tail"),
    }
    for i, name in enumerate(names[rotor.rotation]):
        x = left + (right - left) * i / 4
        canvas.line(x, base, x, base - height, "r-faint")
        canvas.text(x, base + 15, name, "t t-small", "end" if i == 4 else "middle")
    n = len(degrees)
    points = [at(i * TURN / n, degrees[i % n]) for i in range(n + 1)]
    canvas.path(points, "r-pitch")
    for blade, value in enumerate(now):
        azimuth = (mast + blade * TURN / rotor.blades) % TURN
        x, y = at(azimuth, math.degrees(value))
        canvas.add(f'<circle class="r-pitch mark" cx="{fixed(x)}" cy="{fixed(y)}" r="8"/>')
        canvas.text(x, y + 4, str(blade + 1), "t t-small")
    canvas.text((left + right) / 2, base + 30, "as the blade goes round →", "t t-small")
