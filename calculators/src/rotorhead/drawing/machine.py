"""A plain machine to hang under a disc, from the left, from behind and from above; how many times as large an angle is drawn."""

import math
from collections.abc import Callable

from .canvas import Canvas, fixed

Point = tuple[float, float]

# Outlines over the hub's height above the centre of gravity, from the hub: to the right of the page, and down it.
_LEFT = ((-1.0, 1.08), (-0.93, 0.86), (-0.68, 0.52), (-0.4, 0.44), (-0.12, 0.4), (0.2, 0.4), (0.4, 0.52), (0.66, 0.66), (1.0, 0.68),
         (1.36, 0.72), (1.45, 0.38), (1.47, 0.34), (1.6, 0.34), (1.62, 0.38), (1.58, 0.84), (1.44, 0.88), (0.9, 0.9), (0.6, 1.04), (0.42, 1.24),
         (-0.1, 1.24), (-0.62, 1.24), (-0.94, 1.22))  # fmt: skip
_SCREEN = ((-0.85, 0.9), (-0.62, 0.62), (-0.42, 0.54), (-0.42, 0.88))
_DOOR = ((-0.34, 0.53), (0.0, 0.53), (0.0, 0.88), (-0.34, 0.88))
_BEHIND = ((-0.1, 0.38), (0.1, 0.38), (0.2, 0.52), (0.4, 0.58), (0.46, 0.88), (0.42, 1.2), (0.12, 1.22), (-0.12, 1.22), (-0.42, 1.2),
           (-0.46, 0.88), (-0.4, 0.58), (-0.2, 0.52))  # fmt: skip
# From above, over the ring's radius.
_ABOVE = ((0.0, -0.7), (0.11, -0.6), (0.16, -0.42), (0.17, -0.08), (0.06, 0.28), (0.03, 0.86), (-0.03, 0.86), (-0.06, 0.28),
          (-0.17, -0.08), (-0.16, -0.42), (-0.11, -0.6))  # fmt: skip


def at_hub(hub: Point, below: float, turn: float = 0.0) -> Callable[[Point], Point]:
    """Places of an outline on the page, the machine turned about its hub by `turn` (rad, left end or side going down)."""
    c, s = math.cos(turn), math.sin(turn)
    return lambda p: (hub[0] + below * (p[0] * c + p[1] * s), hub[1] + below * (p[1] * c - p[0] * s))


def _rounded(canvas: Canvas, points: list[Point]) -> None:
    """A closed outline with its corners rounded, filled faintly: curves from middle to middle of its sides."""
    d = ""
    for i, (x, y) in enumerate(points):
        nx, ny = points[(i + 1) % len(points)]
        mx, my = 0.5 * (x + nx), 0.5 * (y + ny)
        d += f"Q{fixed(x)} {fixed(y)} {fixed(mx)} {fixed(my)}" if d else f"M{fixed(mx)} {fixed(my)}"
    (x, y), (nx, ny) = points[0], points[1]
    d += f"Q{fixed(x)} {fixed(y)} {fixed(0.5 * (x + nx))} {fixed(0.5 * (y + ny))}Z"
    for role in ("r-faint-fill", "r-structure"):
        canvas.add(f'<path class="{role}" d="{d}"/>')


def from_left(canvas: Canvas, hub: Point, below: float) -> Point:
    """The machine with its nose to the left; `below`: hub to centre of gravity, px. Gives the centre of gravity."""
    at = at_hub(hub, below)
    _rounded(canvas, [at(p) for p in _LEFT])
    canvas.path([at(p) for p in _SCREEN], "r-faint", close=True)
    canvas.path([at(p) for p in _DOOR], "r-faint", close=True)
    # Skids.
    canvas.path([at(p) for p in ((-0.78, 1.36), (-0.7, 1.42), (0.42, 1.42))], "r-structure")
    for x in (-0.42, 0.2):
        canvas.line(*at((x, 1.23)), *at((x, 1.42)), "r-structure")
    canvas.line(*hub, *at((0.0, 0.42)), "r-structure mast")
    return at((0.0, 1.0))


def from_behind(
    canvas: Canvas, hub: Point, below: float, turn: float, tail: tuple[float, float] | None = None
) -> Point:
    """The machine seen from behind, its left side low by `turn`; gives the centre of gravity.

    `tail`: the side its tail rotor stands on (−1 left, 1 right) and that rotor's height above the centre of gravity over the hub's.
    """
    at = at_hub(hub, below, turn)
    _rounded(canvas, [at(p) for p in _BEHIND])
    for side in (-1.0, 1.0):
        canvas.line(*at((side * 0.26, 1.2)), *at((side * 0.42, 1.42)), "r-structure")
        canvas.line(*at((side * 0.34, 1.42)), *at((side * 0.5, 1.42)), "r-structure")
    canvas.line(*hub, *at((0.0, 0.42)), "r-structure mast")
    if tail:
        side, height = tail
        y = 1.0 - height
        # Boom's end, fin and the tail rotor edge on.
        canvas.circle(*at((0.0, 0.72)), 0.08 * below, "r-structure")
        canvas.line(*at((0.0, 0.64)), *at((0.0, y - 0.06)), "r-structure")
        canvas.line(*at((0.0, y)), *at((side * 0.16, y)), "r-structure")
        canvas.line(*at((side * 0.16, y - 0.2)), *at((side * 0.16, y + 0.2)), "r-structure blade")
    return at((0.0, 1.0))


def from_above(canvas: Canvas, x: float, y: float, ring: float) -> None:
    """A faint fuselage under a disc of radius `ring`, nose up the page."""
    canvas.path([(x + ring * a, y + ring * b) for a, b in _ABOVE], "r-faint-fill", close=True)


def times_as_large(angle: float, wanted: int, most: float = 24.0) -> int:
    """How many times as large an angle (rad) is drawn: `wanted`, or fewer where that would be more than `most` degrees."""
    size = abs(math.degrees(angle))
    return wanted if wanted * size <= most else max(1, int(most / size))


def times_words(times: int) -> str:
    """That in words."""
    return "to scale" if times == 1 else f"drawn {times} times as large"
