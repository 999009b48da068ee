"""What the hands can reach before a rod stops: mixing matrix, its inverse, reserves, limits.

To first order: move of rod i = C_i (lever − ½) + F_i forward + L_i left, with lever 0 to 1 and stick
−1 to 1, inside the rod's stroke ±s_i/2 about mid collective; the stick inside its round stop.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from ..conventions import TURN
from ..rotor import Rotor
from .hands import rig_of
from .plate import Vector, solve3

Matrix = tuple[Vector, ...]
Strokes = Sequence[float]


@lru_cache(maxsize=64)
def mixing(rotor: Rotor) -> Matrix:
    """Rows: rods; columns: lever bottom to top, full stick forward, full stick left; metres."""
    return rig_of(rotor).matrix()


def hands_for_moves(rotor: Rotor, moves: tuple[float, ...]) -> Vector:
    """Rod moves (m) -> (lever change, stick forward, stick left): the inverse; more than three rods, least squares."""
    m = mixing(rotor)
    normal = [[sum(row[i] * row[j] for row in m) for j in range(3)] for i in range(3)]
    right = [sum(row[i] * h for row, h in zip(m, moves, strict=True)) for i in range(3)]
    return solve3(normal, right)


def inverse(rotor: Rotor) -> Matrix:
    """Rows: lever, forward, left; columns: one metre of each rod alone."""
    n = len(rotor.rod_azimuths)
    columns = [hands_for_moves(rotor, tuple(1.0 if i == k else 0.0 for i in range(n))) for k in range(n)]
    return tuple(tuple(c[i] for c in columns) for i in range(3))  # type: ignore[misc]


def rod_moves(rotor: Rotor, lever: float, forward: float, left: float) -> tuple[float, ...]:
    """First-order move of every rod from lever half up and stick centred, m."""
    return tuple(c * (lever - 0.5) + f * forward + s * left for c, f, s in mixing(rotor))


@dataclass(frozen=True, slots=True)
class Stop:
    """What stops first: `rod` (1, 2, …) or 0 for the stick's own stop, and how far the stick gets (1 = full)."""

    rod: int
    stick: float


def gate_edge(direction: float, *, square: bool) -> float:
    """How far the stick's own stop lies in a direction: 1 for a round stop, up to √2 into a square one's corners."""
    if not square:
        return 1.0
    return 1.0 / max(abs(math.cos(direction)), abs(math.sin(direction)))


def stick_limit(rotor: Rotor, strokes: Strokes, lever: float, direction: float, *, square: bool = False) -> Stop:
    """How far the stick goes toward `direction` (rad, 0 forward, 90° left) at a lever position, strokes in m.

    0 when no place in that direction is within every rod's stroke.
    """
    best, nearest = Stop(0, gate_edge(direction, square=square)), Stop(0, 0.0)
    for n, ((c, f, s), stroke) in enumerate(zip(mixing(rotor), strokes, strict=True), 1):
        base = c * (lever - 0.5)
        slope = f * math.cos(direction) + s * math.sin(direction)
        if abs(slope) < 1e-12:
            if abs(base) > stroke / 2.0 + 1e-12:
                return Stop(n, 0.0)
            continue
        room = (math.copysign(stroke / 2.0, slope) - base) / slope
        if room < best.stick:
            best = Stop(n, max(0.0, room))
        # A rod beyond its stroke with the stick centred lets go only from here on.
        enters = room - stroke / abs(slope)
        if enters > nearest.stick:
            nearest = Stop(n, enters)
    return best if nearest.stick <= best.stick else Stop(nearest.rod, 0.0)


def stick_region(
    rotor: Rotor, strokes: Strokes, lever: float, *, square: bool = False, steps: int = 72
) -> list[tuple[float, float]]:
    """Outline of what the stick reaches at a lever position: (forward, left) pairs, fractions of full stick.

    The stick's own stop cut along a line for each end of each rod's stroke; empty when nothing is reached.
    """
    edges = [(i * TURN / steps, gate_edge(i * TURN / steps, square=square)) for i in range(steps)]
    outline = [(r * math.cos(a), r * math.sin(a)) for a, r in edges]
    for (c, f, s), stroke in zip(mixing(rotor), strokes, strict=True):
        for end in (1.0, -1.0):
            outline = _cut(outline, (end * f, end * s), stroke / 2.0 - end * c * (lever - 0.5))
    return outline


def _cut(outline: list[tuple[float, float]], across: tuple[float, float], most: float) -> list[tuple[float, float]]:
    """The part of a convex outline in which across · place is at most `most`."""
    over = [across[0] * x + across[1] * y - most for x, y in outline]
    kept = []
    for i, (x, y) in enumerate(outline):
        (u, v), before = outline[i - 1], over[i - 1]
        if (before > 0.0) != (over[i] > 0.0):
            share = before / (before - over[i])
            kept.append((u + share * (x - u), v + share * (y - v)))
        if over[i] <= 0.0:
            kept.append((x, y))
    return kept


@dataclass(frozen=True, slots=True)
class LeverRange:
    """Lowest and highest lever (0 to 1) with the stick held, and the rods that stop it (0: the lever's own stop)."""

    low: float
    high: float
    low_rod: int
    high_rod: int


def lever_range(rotor: Rotor, strokes: Strokes, forward: float, left: float) -> LeverRange:
    """Which part of the lever's travel is left with the stick held at a place."""
    low, high, low_rod, high_rod = 0.0, 1.0, 0, 0
    for n, ((c, f, s), stroke) in enumerate(zip(mixing(rotor), strokes, strict=True), 1):
        if abs(c) < 1e-12:
            continue
        base = f * forward + s * left
        a, b = sorted(((-stroke / 2.0 - base) / c + 0.5, (stroke / 2.0 - base) / c + 0.5))
        if a > low:
            low, low_rod = a, n
        if b < high:
            high, high_rod = b, n
    return LeverRange(low, high, low_rod, high_rod)
