"""Readings that don't fit: each residual against what the other readings say of the scatter.

Source: externally studentised (deleted) residuals and Bonferroni's bound, any text on regression (from memory).
"""

import math

from .squares import Row
from .student import upper_point

# Chance that any reading of a clean set is pointed out.
BY_CHANCE = 0.05


def studentised(residuals: Row, leverage: Row, freedom: int, rounding: float) -> tuple[float | None, ...]:
    """eᵢ/(s₍ᵢ₎√(1 − hᵢ)), s₍ᵢ₎² = (Σe² − eᵢ²/(1 − hᵢ))/(n − p − 1): the scatter without reading i.

    None with n − p < 2, with leverage 1 (the reading fits itself) and without scatter; infinite when all other
    readings lie exactly on a wave.
    """
    total = math.fsum(e * e for e in residuals)
    nothing = freedom < 2 or max(abs(e) for e in residuals) <= rounding
    found: list[float | None] = []
    for e, h in zip(residuals, leverage, strict=True):
        if nothing or 1.0 - h < 1e-9:
            found.append(None)
            continue
        own = e * e / (1.0 - h)
        others = total - own
        if others <= 1e-12 * total:
            found.append(math.copysign(math.inf, e))
        else:
            found.append(e / math.sqrt(others / (freedom - 1) * (1.0 - h)))
    return tuple(found)


def misfits(judged: tuple[float | None, ...], residuals: Row, freedom: int, reading_error: float) -> tuple[int, ...]:
    """Readings that stand out at 5 %, shared over all n of them (Bonferroni), by Student's t on n − p − 1."""
    if freedom < 2:
        return ()
    limit = upper_point(0.5 * BY_CHANCE / len(residuals), freedom - 1.0)
    return tuple(
        i for i, t in enumerate(judged)
        if t is not None and abs(t) > limit and abs(residuals[i]) > reading_error
    )  # fmt: skip
