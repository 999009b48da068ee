"""The hover a head is set up for: thrust, inflow, pitch at 0.75 R.

Blade-element momentum theory in annuli with Prandtl's tip-loss factor:
λ(x) = (σa/16F)(√(1 + 32 F θ(x) x/(σa)) − 1), dC_T = 4 F λ² x dx, integrated from the root cut to the
tip. Source: J.G. Leishman, Principles of Helicopter Aerodynamics, 2nd ed., ch. 3 (from memory).
Left out: swirl, contraction beyond the tip factor, compressibility, stall; on measured model rotors
the thrust at a given pitch comes out 3 to 5 % off, and worse below 6° of pitch.
"""

import math
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache

from ..rotor import SEA_LEVEL_DENSITY, Rotor

_STATIONS = 40
# Beyond what any head is given.
PITCH_SPAN = (-0.2, 0.8)
# Conventions of quick estimates of power, not measurements: losses of the inflow, mean drag coefficient.
INDUCED_FACTOR = 1.15
MEAN_DRAG = 0.010


def thrust_coefficient(rotor: Rotor, density: float = SEA_LEVEL_DENSITY) -> float:
    """C_T = W/(ρ π R² (ΩR)²) with thrust equal to the aircraft's weight."""
    tip = rotor.speed * rotor.radius
    return rotor.weight / (density * math.pi * rotor.radius**2 * tip**2)


def disc_loading(rotor: Rotor) -> float:
    """Weight over disc area, N/m²."""
    return rotor.weight / (math.pi * rotor.radius**2)


def uniform_inflow(ct: float) -> float:
    """λ0 = √(C_T/2): the hover inflow ratio of an actuator disc."""
    return math.sqrt(ct / 2.0)


def annulus_inflow(theta: float, x: float, solidity_slope: float, blades: int) -> tuple[float, float]:
    """Inflow ratio and tip-loss factor of one annulus at x = r/R; `solidity_slope` is σa."""
    factor, inflow = 1.0, 0.05
    if theta <= 0.0:
        return 0.0, 1.0
    for _ in range(30):
        new = solidity_slope / (16.0 * factor) * (math.sqrt(1.0 + 32.0 * factor * theta * x / solidity_slope) - 1.0)
        f = blades / 2.0 * (1.0 - x) / max(new, 1e-6)
        factor = max(2.0 / math.pi * math.acos(math.exp(-f)) if f < 40.0 else 1.0, 1e-4)
        if abs(new - inflow) < 1e-7:
            return new, factor
        inflow = new
    return inflow, factor


@dataclass(frozen=True, slots=True)
class Annulus:
    """One ring of the disc: place and width over R, pitch (rad), inflow ratio."""

    x: float
    width: float
    theta: float
    inflow: float

    @property
    def lift(self) -> float:
        """θ x² − λ x: times σa/2 and the width it is the ring's share of C_T."""
        return self.theta * self.x * self.x - self.inflow * self.x


def annuli(rotor: Rotor, pitch75: float) -> list[Annulus]:
    """The blade from root cut to tip in 40 rings at a pitch (rad) at 0.75 R."""
    slope = rotor.solidity * rotor.lift_slope
    span = 1.0 - rotor.root_cut
    rings = []
    for i in range(_STATIONS):
        # Stations crowd toward the tip, where lift and loss change fastest.
        angle = (i + 0.5) / _STATIONS * math.pi / 2.0
        x = rotor.root_cut + span * math.sin(angle)
        theta = pitch75 + rotor.twist * (x - 0.75)
        inflow, _ = annulus_inflow(theta, x, slope, rotor.blades)
        rings.append(Annulus(x, span * math.cos(angle) * math.pi / 2.0 / _STATIONS, theta, inflow))
    return rings


def thrust_of_pitch(rotor: Rotor, pitch75: float) -> tuple[float, float]:
    """C_T and the first moment of lift about the flap hinge, for a pitch (rad) at 0.75 R.

    The moment is (1/2)∫(x − e)(θ x² − λ x) dx from the root cut to the tip: times γ it is the blade's
    lift moment over I_β Ω².
    """
    slope = rotor.solidity * rotor.lift_slope
    ct = moment = 0.0
    for ring in annuli(rotor, pitch75):
        lift = ring.lift * ring.width
        ct += slope / 2.0 * lift
        moment += 0.5 * (ring.x - rotor.hinge_offset) * lift
    return ct, moment


@lru_cache(maxsize=64)
def hover_pitch(rotor: Rotor, density: float = SEA_LEVEL_DENSITY) -> tuple[float, float]:
    """Pitch at 0.75 R (rad) that carries the weight, and the lift moment about the hinge (see above)."""
    pitch = pitch_of_thrust(rotor, thrust_coefficient(rotor, density))
    return pitch, thrust_of_pitch(rotor, pitch)[1]


def pitch_of_thrust(rotor: Rotor, wanted: float, start: float | None = None, rate: float | None = None) -> float:
    """Pitch (rad) at 0.75 R that gives a C_T, between −0.2 and 0.8; the nearer end where none does.

    Secants between bounds that close in, from `start` or the pitch of uniform inflow, with `rate` for dC_T/dθ there: 3 to 5
    sums instead of 24 halvings.
    """
    low, high = PITCH_SPAN
    slope = rotor.solidity * rotor.lift_slope
    pitch = 6.0 * wanted / slope + 1.5 * uniform_inflow(wanted) if start is None else start
    pitch, rate = min(max(pitch, low), high), rate or slope / 8.0
    miss = thrust_of_pitch(rotor, pitch)[0] - wanted
    for _ in range(40):
        low, high = (pitch, high) if miss < 0.0 else (low, pitch)
        following = pitch - miss / rate
        if not low < following < high:
            following = 0.5 * (low + high)
        if abs(following - pitch) < 1e-8:
            return following
        before, miss = miss, thrust_of_pitch(rotor, following)[0] - wanted
        rate = max((miss - before) / (following - pitch), 1e-6)
        pitch = following
    return pitch


def pitches_of_thrusts(rotor: Rotor, wanted: Iterable[float]) -> list[float]:
    """`pitch_of_thrust` along a row of C_T that changes evenly: each begins where the last two point."""
    found: list[float] = []
    done: list[float] = []
    for ct in wanted:
        start, rate = None, None
        if len(found) > 1 and found[-1] != found[-2]:
            rate = (done[-1] - done[-2]) / (found[-1] - found[-2])
            start = found[-1] + (ct - done[-1]) / rate
        found.append(pitch_of_thrust(rotor, ct, start, rate))
        done.append(ct)
    return found
