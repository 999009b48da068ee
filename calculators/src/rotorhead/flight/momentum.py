"""Momentum theory of an actuator disc: hover, climb, windmill branch. Edgewise flight: `edgewise`.

v_h = √(T/(2ρA)). Axial flight: x = V_c/v_h, positive in a climb. Rankine and Froude (any text); the edgewise form is
Glauert's (ARC R&M 1111, abstract read); J.G. Leishman, Principles of Helicopter Aerodynamics, ch. 2 (from memory).
Left out: swirl, wake contraction's losses and the tip: real induced power is 10 to 20 % more (see `power`).
"""

import math
from typing import Final, Literal

from ..faults import refuse
from ..units import FOOT_M, KNOT_M_PER_S, tidy
from .validity import positive, within

# Between these values of V_c/v_h momentum theory has no answer: the wake has no one direction.
NO_ANSWER: Final = (-2.0, 0.0)
# Handbook conditions of the vortex ring state: FAA-H-8083-21B, p. 11-9 (read).
RING_DESCENT: Final = 300.0 * FOOT_M / 60.0
RING_POWER: Final = (0.2, 1.0)
# Effective translational lift, "about 16 to 24 knots": FAA-H-8083-21B, p. 2-22 (read).
TRANSLATIONAL_LIFT: Final = (16.0 * KNOT_M_PER_S, 24.0 * KNOT_M_PER_S)

Between = Literal["refuse", "empirical"]


def hover_induced(thrust: float, density: float, area: float) -> float:
    """v_h = √(T/(2ρA)), m/s; thrust in N, density in kg/m³, disc area in m²."""
    positive("thrust", "Thrust", thrust, "N")
    return math.sqrt(
        thrust
        / (2.0 * positive("density", "Air density", density, "kg/m³") * positive("area", "Disc area", area, "m²"))
    )


def ideal_power(thrust: float, induced: float, climb: float = 0.0) -> float:
    """P = T (V_c + v_i), W: what the disc itself needs; nothing for the blades' drag."""
    return thrust * (climb + induced)


def axial_ratio(x: float, between: Between = "refuse") -> float:
    """v_i/v_h in vertical flight at x = V_c/v_h.

    Climb (x ≥ 0): −x/2 + √(x²/4 + 1). Windmill branch (x ≤ −2): −x/2 − √(x²/4 − 1). Between them momentum theory has
    no answer and this refuses, unless the `empirical` curve is asked for by name (`empirical_ratio`).
    """
    within("climb", "Climb over hover induced speed", x, -20.0, 20.0)
    if x >= 0.0:
        return -x / 2.0 + math.sqrt(x * x / 4.0 + 1.0)
    if x <= NO_ANSWER[0]:
        return -x / 2.0 - math.sqrt(x * x / 4.0 - 1.0)
    if between == "empirical":
        return empirical_ratio(x)
    raise refuse(
        "climb",
        f"Descent at {tidy(-x, 2)} of the hover's induced speed: between 0 and 2 the wake meets the disc again (vortex ring and "
        "turbulent wake) and momentum theory has no answer.",
    )


def empirical_ratio(x: float, hover: float = 1.0) -> float:
    """v_i/v_h from a curve through measurements, for −2 ≤ x ≤ 0 only: not a theory.

    `hover` − 1.125x − 1.372x² − 1.718x³ − 0.655x⁴ (Leishman, 2nd ed., ch. 2, from memory). Measurements scatter by
    ±20 % and shake about their mean. It joins the windmill branch within 2.6 % at x = −2.
    """
    within("climb", "Climb over hover induced speed", x, *NO_ANSWER)
    return hover - 1.125 * x - 1.372 * x**2 - 1.718 * x**3 - 0.655 * x**4


def axial_power_ratio(x: float, between: Between = "refuse") -> float:
    """P/P_h = x + v_i/v_h in vertical flight; negative: the air drives the rotor (profile drag not counted)."""
    return x + axial_ratio(x, between)


def vortex_ring_conditions(descent: float, airspeed: float, power_share: float) -> bool:
    """Whether all three handbook conditions of the vortex ring state hold: an indication, no more.

    Descent of 300 ft/min or more (m/s), airspeed below effective translational lift (m/s; its upper end is taken),
    20 to 100 % of available power in use. FAA-H-8083-21B, p. 11-9; "actual critical rate varies".
    """
    return (
        descent >= RING_DESCENT and airspeed < TRANSLATIONAL_LIFT[1] and RING_POWER[0] <= power_share <= RING_POWER[1]
    )
