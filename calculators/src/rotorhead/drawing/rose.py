"""The budget rose: every angle from the stick to the disc on one bearing rose, seen from above."""

import math
from functools import lru_cache

from ..blade.phase import Budget, sum_lines
from ..conventions import (
    HALF_TURN,
    Rotation,
    azimuth_of,
    bearing_of,
    bearing_words,
    degrees_text,
    sense,
)
from ..fields import Drawing
from .canvas import Canvas, Compass

CENTRE_X, CENTRE_Y, RING = 180.0, 176.0, 124.0


def blank_rose(
    canvas: Canvas, rotation: Rotation, x: float = CENTRE_X, y: float = CENTRE_Y, ring: float = RING
) -> Compass:
    """Ring with ticks every 10°, the four words, a faint fuselage and the arrow of rotation."""
    canvas.add(_blank(rotation, x, y, ring))
    return Compass(canvas, x, y)


@lru_cache(maxsize=8)
def _blank(rotation: Rotation, x: float, y: float, ring: float) -> str:
    """The rose's fixed lines, drawn once for each direction of rotation."""
    canvas = Canvas(0, 0, "blank")
    rose = Compass(canvas, x, y)
    canvas.path(
        [(x, y - ring * 0.74), (x + ring * 0.15, y - ring * 0.55), (x + ring * 0.18, y - ring * 0.1),
         (x + ring * 0.06, y + ring * 0.3), (x + ring * 0.03, y + ring * 0.86), (x - ring * 0.03, y + ring * 0.86),
         (x - ring * 0.06, y + ring * 0.3), (x - ring * 0.18, y - ring * 0.1), (x - ring * 0.15, y - ring * 0.55)],
        "r-faint-fill", close=True,
    )  # fmt: skip
    canvas.circle(x, y, ring, "r-structure")
    ticks = [
        (rose.at(math.radians(t), ring - (9 if t % 30 == 0 else 5)), rose.at(math.radians(t), ring))
        for t in range(0, 360, 10)
    ]
    canvas.strokes(ticks, "r-structure")
    canvas.text(x, y - ring - 26, "nose", "t")
    canvas.text(x, y + ring + 32, "tail", "t")
    canvas.text(x + ring + 20, y + 4, "right", "t", "start")
    canvas.text(x - ring - 20, y + 4, "left", "t", "end")
    # The arrow of rotation stands outside the ring at the quarter ahead of the nose, out of the marks' way.
    way = sense(rotation)
    start = math.radians(180 - 62) if way > 0 else math.radians(180 + 62)
    rose.arc_arrow(start, way * math.radians(34), ring + 13, "r-structure")
    rose.label(start + way * math.radians(17), ring + 30, "turns", "t t-small")
    return "".join(canvas.parts)


def predict_rose(rotation: Rotation) -> Drawing:
    """The rose with nothing on it but the direction of turning: for a reader to mark first."""
    canvas = Canvas(360, 352, "predict")
    rose = blank_rose(canvas, rotation)
    canvas.circle(rose.x, rose.y, 3, "r-structure fill")
    return Drawing(
        canvas.svg(f' data-cx="{rose.x:g}" data-cy="{rose.y:g}" data-r="{RING:g}"'),
        f"A bearing rose seen from above, nose at the top; the rotor turns {rotation}. Nothing is marked on it yet.",
    )


def _angle_label(
    rose: Compass, start: float, turn: float, radius: float, words: str, role: str, along: float = 0.5
) -> None:
    rose.label(start + turn * along, radius, words, f"t t-halo {role}")


def _rod_label(rose: Compass, bearing: float, words: str) -> None:
    """The rod's name beside its square, moved along the ring where 'nose', 'left' and the like stand."""
    x, y = rose.at(bearing, RING + 7)
    across, up = math.sin(bearing), math.cos(bearing)
    if abs(across) > 0.93:
        y += -14 if up > 0 else 22
    elif abs(up) > 0.93:
        x += 18 if across >= 0 else -18
        y += 4
    else:
        x, y = x + 15 * across, y - 15 * up + 4
    rose.canvas.text(x, y, words, "t t-small t-halo t-hand")


def budget_rose(budget: Budget) -> Drawing:
    """The rose of one head with the stick forward."""
    rotation = budget.rotor.rotation
    way = sense(rotation)
    canvas = Canvas(360, 416, "rose")
    rose = blank_rose(canvas, rotation)
    x, y = rose.x, rose.y
    plate_low, pitch_least, disc_low = budget.plate_low, budget.pitch_least, budget.disc_low
    blade_least = bearing_of(azimuth_of(plate_low, rotation) - budget.lead, rotation)

    # Arcs, each on a circle of its own so that none hides another.
    rose.radial(blade_least, 20, 92, "r-structure thin")
    rose.radial(plate_low, 20, RING, "r-plate thin")
    if abs(budget.lead) > 1e-9:
        rose.arc_arrow(blade_least, way * budget.lead, 90, "r-plate")
        _angle_label(rose, blade_least, way * budget.lead, 106, f"lead {degrees_text(budget.lead, 0)}", "t-plate")
    if budget.horn_turn:
        rose.radial(pitch_least, 20, 92, "r-pitch thin")
        rose.arc_arrow(blade_least, way * HALF_TURN, 40, "r-plate")
        _angle_label(rose, blade_least, way * HALF_TURN, 40, "horn side 180°", "t-plate")
    rose.arc_arrow(pitch_least, way * budget.lag, 62, "r-disc")
    _angle_label(rose, pitch_least, way * budget.lag, 45, f"lag {degrees_text(budget.lag, 0)}", "t-disc")
    if abs(budget.needed) > math.radians(2):
        start = bearing_of(HALF_TURN - budget.needed, rotation)
        rose.arc_arrow(start, way * budget.needed, 110, "r-hand")
        if abs(budget.needed) > math.radians(14):
            _angle_label(rose, start, way * budget.needed, 106, degrees_text(abs(budget.needed), 0), "t-hand")
    if abs(budget.error) > math.radians(0.5):
        sliver = rose.arc_points(0.0, way * budget.error, RING)
        canvas.path([(x, y), *sliver], "r-error", close=True)
        if abs(budget.error) > math.radians(3):
            rose.label(
                way * budget.error * 0.5, 24 + 118, f"off {degrees_text(abs(budget.error), 0)}", "t t-halo t-small"
            )

    # Marks by role.
    canvas.arrow(x, y, x, y - 46, "r-hand")
    # The word stands on the far side of the arrow from the arcs, which lie before the nose.
    canvas.text(x + 8 * way, y - 24, "stick", "t t-small t-halo t-hand", "start" if way > 0 else "end")
    for n, rod in enumerate(budget.rotor.head.rods, start=1):
        # The squares stand where the whole rod set stands, a what-if turn of it included.
        turned = budget.fitted - budget.rotor.fitted_offset
        bearing = bearing_of(azimuth_of(math.radians(rod.bearing_deg), rotation) - turned, rotation)
        rose.square(bearing, RING + 7, 10, "r-hand fill")
        _rod_label(rose, bearing, f"R{n}")
    rose.triangle(plate_low, RING - 10, 13, "r-plate fill")
    rose.triangle(pitch_least, 74, 13, "r-pitch")
    rose.wedge(disc_low, 66, 100, 0.09, "r-disc fill")
    canvas.circle(x, y, 3, "r-structure fill")

    first, second = sum_lines(budget)
    _legend(canvas, y + RING + 54)
    canvas.text(180, 394, first, "t t-strong")
    canvas.text(180, 411, second, "t t-strong")
    words = (
        f"Seen from above, nose at the top, turning {rotation}. With the stick forward the plate is low "
        f"{bearing_words(plate_low, 1)}; commanded pitch is least {bearing_words(pitch_least, 1)}; the disc is low "
        f"{bearing_words(disc_low, 1)}. Sum: {first} {second}."
    )
    return Drawing(canvas.svg(), words)


def _legend(canvas: Canvas, y: float) -> None:
    mark = Compass(canvas, 28, y - 4)
    mark.triangle(0, 1, 12, "r-plate fill")
    canvas.text(40, y, "plate low", "t t-small t-plate", "start")
    mark = Compass(canvas, 136, y - 4)
    mark.triangle(0, 1, 12, "r-pitch")
    canvas.text(148, y, "pitch least", "t t-small t-pitch", "start")
    mark = Compass(canvas, 252, y + 4)
    mark.wedge(0, 0, 12, 0.5, "r-disc fill")
    canvas.text(264, y, "disc low", "t t-small t-disc", "start")
