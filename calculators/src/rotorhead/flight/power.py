"""What it takes to hover: power, figure of merit, collective; closed forms for untwisted blades.

C_P = P/(ρ π R² (ΩR)³). Hover: induced and profile power summed ring by ring (`hover.annuli`), with the section's drag
c_d = d0 + d1 α + d2 α². Level flight: `level`. Sources:
J.G. Leishman, Principles of Helicopter Aerodynamics, 2nd ed., ch. 3 and 5; A. Gessow and G.C. Myers, ch. 4 (from
memory). Left out: swirl (about 1 % of induced power), download on the fuselage (3 to 6 % of the weight), tail rotor (5
to 12 %), gearbox (2 to 4 %), compressibility: the machine's engine has to give that besides.
"""

import math
from dataclasses import dataclass, replace
from typing import Final

from ..blade.flap import hover_command
from ..faults import refuse
from ..rotor import SEA_LEVEL_DENSITY, Rotor
from .atmosphere import density as density_at
from .atmosphere import speed_of_sound
from .hover import (
    INDUCED_FACTOR,
    MEAN_DRAG,
    annuli,
    hover_pitch,
    thrust_coefficient,
    thrust_of_pitch,
    uniform_inflow,
)
from .validity import (
    STALL_ANGLE,
    Mark,
    checked_density,
    loading_mark,
    positive,
    stall_mark,
    tip_mach_mark,
)

# c_d of a common section: Bailey, NACA Report 716 (1941), from memory.
Polar = tuple[float, float, float]
SECTION: Final[Polar] = (0.0087, -0.0216, 0.400)


def ideal_coefficient(ct: float) -> float:
    """C_P of an actuator disc in the hover: C_T^1.5/√2."""
    return positive("ct", "Thrust coefficient", ct) * uniform_inflow(ct)


def figure_of_merit(ct: float, cp: float) -> float:
    """Ideal over real hover power: (C_T^1.5/√2)/C_P."""
    return ideal_coefficient(ct) / positive("power", "Power coefficient", cp)


def estimated_power_coefficient(
    ct: float, solidity: float, induced_factor: float = INDUCED_FACTOR, mean_drag: float = MEAN_DRAG
) -> float:
    """Hover C_P = κ C_T^1.5/√2 + σ c_d0/8: the estimate with a mean drag coefficient; κ and c_d0 are conventions."""
    return induced_factor * ideal_coefficient(ct) + solidity * mean_drag / 8.0


@dataclass(frozen=True, slots=True)
class Untwisted:
    """C_T and induced C_P of an untwisted blade without tip loss or root cut."""

    ct: float
    cp_induced: float

    @property
    def induced_factor(self) -> float:
        """κ: induced power over the ideal C_T^1.5/√2."""
        return self.cp_induced / ideal_coefficient(self.ct)


def untwisted(theta: float, solidity: float, lift_slope: float) -> Untwisted:
    """Closed form of blade-element momentum theory: pitch θ (rad), σ, a -> C_T, induced C_P.

    λ(x) = (σa/16)(s − 1), s = √(1 + k x), k = 32 θ/(σa); C_T = ∫ 4λ² x dx, C_P = ∫ 4λ³ x dx in powers of s. For θ from
    0.5° on (below that the powers cancel); no tip loss: 4 to 6 % more thrust than with it.
    """
    if not math.radians(0.5) <= theta <= math.radians(40.0):
        raise refuse("pitch", f"Pitch: {math.degrees(theta):.2f}° is outside 0.50° to 40.00°.")
    slope = positive("solidity", "Solidity", solidity) * positive("lift_slope_per_rad", "Lift-curve slope", lift_slope)
    k = 32.0 * theta / slope

    def thrust(s: float) -> float:
        return s**6 / 6.0 - 2.0 * s**5 / 5.0 + 2.0 * s**3 / 3.0 - s**2 / 2.0

    def power(s: float) -> float:
        return s**7 / 7.0 - s**6 / 2.0 + 2.0 * s**5 / 5.0 + s**4 / 2.0 - s**3 + s**2 / 2.0

    tip, scale = math.sqrt(1.0 + k), 8.0 / (k * k)
    return Untwisted(
        scale * (slope / 16.0) ** 2 * (thrust(tip) - thrust(1.0)),
        scale * (slope / 16.0) ** 3 * (power(tip) - power(1.0)),
    )


def uniform_collective(ct: float, solidity: float, lift_slope: float) -> float:
    """θ at 0.75 R (rad) in uniform inflow: 6 C_T/(σa) + 1.5 √(C_T/2). An untwisted or linearly twisted blade, no tip loss."""
    return 6.0 * positive("ct", "Thrust coefficient", ct) / (solidity * lift_slope) + 1.5 * uniform_inflow(ct)


def ideal_twist_tip_pitch(ct: float, solidity: float, lift_slope: float) -> float:
    """Tip pitch (rad) of the ideally twisted blade θ = θ_tip/x: 4 C_T/(σa) + √(C_T/2)."""
    return 4.0 * positive("ct", "Thrust coefficient", ct) / (solidity * lift_slope) + uniform_inflow(ct)


@dataclass(frozen=True, slots=True)
class Hovering:
    """A rotor hovering at one pitch: coefficients, greatest angle of attack (rad) and share of the swept area beyond stall."""

    ct: float
    cp_induced: float
    cp_profile: float
    greatest_angle: float
    stalled: float

    @property
    def cp(self) -> float:
        """C_P, induced and profile."""
        return self.cp_induced + self.cp_profile

    @property
    def induced_factor(self) -> float:
        """κ: induced power over the ideal."""
        return self.cp_induced / ideal_coefficient(self.ct)

    @property
    def figure_of_merit(self) -> float:
        """Ideal over real power."""
        return figure_of_merit(self.ct, self.cp)


def hovering(rotor: Rotor, pitch75: float, section: Polar = SECTION) -> Hovering:
    """Hover at a pitch (rad) at 0.75 R: induced ∫ λ dC_T, profile (σ/2)∫ c_d x³ dx with α = θ − λ/x.

    Density doesn't enter the coefficients. Drag counts from the root cut to the tip.
    """
    slope, solidity = rotor.solidity * rotor.lift_slope, rotor.solidity
    ct = induced = profile = area = stalled = 0.0
    greatest = -math.inf
    d0, d1, d2 = section
    for ring in annuli(rotor, pitch75):
        x, share = ring.x, ring.x * ring.width
        part = slope / 2.0 * ring.lift * ring.width
        alpha = ring.theta - ring.inflow / x
        ct += part
        induced += ring.inflow * part
        profile += solidity / 2.0 * (d0 + d1 * alpha + d2 * alpha * alpha) * x * x * share
        greatest = max(greatest, alpha)
        area += share
        stalled += share if abs(alpha) > STALL_ANGLE else 0.0
    return Hovering(ct, induced, profile, greatest, stalled / area)


def carrying(rotor: Rotor, density: float, section: Polar = SECTION) -> tuple[float, Hovering]:
    """Pitch (rad, 0.75 R) that carries the weight, and the hover at it; `Refused` when no pitch does."""
    ct = thrust_coefficient(rotor, checked_density(density))
    pitch, _ = hover_pitch(rotor, density)
    state = hovering(rotor, pitch, section)
    if abs(state.ct - ct) > 1e-3 * ct:
        raise refuse(
            "weight", f"Weight: no blade pitch carries {rotor.weight:.0f} N in air of {density:.3f} kg/m³ on this head."
        )
    return pitch, state


@dataclass(frozen=True, slots=True)
class HoverPerformance:
    """A head in the hover at a weight, height and temperature; SI, rad. `outside`: where the model is left.

    pitch: at 0.75 R; command: what the plate must ask for, δ3 × coning added back. power: at the rotor, W.
    blade_loading: C_T/σ.
    """

    density: float
    pitch: float
    command: float
    ct: float
    blade_loading: float
    power: float
    figure_of_merit: float
    induced_factor: float
    tip_mach: float
    outside: tuple[Mark, ...]


def hover_performance(
    rotor: Rotor, weight: float, altitude: float = 0.0, warmer: float = 0.0, section: Polar = SECTION
) -> HoverPerformance:
    """Collective and power that carry `weight` (N) at a pressure altitude (m), air `warmer` (K) than standard.

    Out of ground effect. Refused when no pitch carries the weight; marked when stall or the tip's Mach number decide.
    """
    air = checked_density(density_at(altitude, warmer))
    loaded = rotor if weight == rotor.weight else replace(rotor, weight=positive("weight", "Weight", weight, "N"))
    ct = thrust_coefficient(loaded, air)
    pitch, state = carrying(loaded, air, section)
    tip = rotor.speed * rotor.radius
    mach = tip / speed_of_sound(altitude, warmer)
    power = state.cp * air * math.pi * rotor.radius**2 * tip**3
    return HoverPerformance(
        air, pitch, hover_command(loaded, air), ct, ct / rotor.solidity, power, state.figure_of_merit, state.induced_factor, mach,
        (*loading_mark(ct / rotor.solidity), *stall_mark(state.stalled), *tip_mach_mark(mach)),
    )  # fmt: skip


def hover_thrust(rotor: Rotor, pitch75: float, density: float = SEA_LEVEL_DENSITY) -> float:
    """Thrust (N) in the hover at a pitch (rad) at 0.75 R."""
    tip = rotor.speed * rotor.radius
    return thrust_of_pitch(rotor, pitch75)[0] * checked_density(density) * math.pi * rotor.radius**2 * tip**2
