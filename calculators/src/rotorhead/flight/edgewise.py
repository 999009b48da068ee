"""Momentum theory with the air along the disc: Glauert's relation (ARC R&M 1111, abstract read). Left out: see `momentum`."""

import math
from dataclasses import dataclass

from ..faults import refuse
from .validity import checked_advance, positive, within


def edgewise_ratio(x: float) -> float:
    """v_i/v_h with the air edgewise to the disc at x = V/v_h: √(−x²/2 + √(x⁴/4 + 1)) (Glauert)."""
    within("speed", "Speed over hover induced speed", x, 0.0, 50.0)
    # The same root without taking two large numbers from each other: v² = 1/(x²/2 + √(x⁴/4 + 1)).
    return math.sqrt(1.0 / (x * x / 2.0 + math.sqrt(x**4 / 4.0 + 1.0)))


@dataclass(frozen=True, slots=True)
class Inflow:
    """Flow through the disc over tip speed, positive down. total = μ tan α + induced; skew: wake from the disc's axis, rad."""

    mu: float
    total: float
    induced: float

    @property
    def skew(self) -> float:
        """χ = atan(μ/λ), with the total inflow."""
        return math.atan2(self.mu, self.total)


def glauert_inflow(ct: float, mu: float, alpha: float = 0.0) -> Inflow:
    """λ = μ tan α + C_T/(2√(μ² + λ²)); μ along the disc, α (rad) positive nose-down.

    Newton's steps kept inside a bracket. μ up to 0.40. With the air coming up through the disc (α < 0) it has one
    answer only once the wake is swept away, μ ≥ √(C_T/2) (from memory: about the speed at which the vortex ring state
    ends); slower than that it is refused.
    """
    positive("ct", "Thrust coefficient", ct)
    checked_advance(mu)
    within("alpha", "Disc angle", math.degrees(alpha), -45.0, 45.0, "°", 1)
    hover, through = math.sqrt(ct / 2.0), mu * math.tan(alpha)
    if through < 0.0 and mu < hover:
        raise refuse(
            "speed",
            f"Descent at an advance ratio of {mu:.3f}: below {hover:.3f} the wake isn't swept away and momentum theory has no one "
            "answer (vortex ring).",
        )
    low, high = through, through + (hover if through >= 0.0 else ct / (2.0 * mu))
    total = 0.5 * (low + high) if mu else hover
    for _ in range(60):
        square = mu * mu + total * total
        induced = ct / (2.0 * math.sqrt(square))
        error = total - through - induced
        if error > 0.0:
            high = total
        else:
            low = total
        step = error / (1.0 + induced * total / square)
        if abs(step) < 1e-15:
            break
        total -= step
        if not low <= total <= high:
            total = 0.5 * (low + high)
    return Inflow(mu, total, total - through)
