"""Power in level flight, the usual estimate: κ T v_i + (σ c_d0/8)(1 + 4.65 μ²) + drag × speed.

J.G. Leishman, Principles of Helicopter Aerodynamics, 2nd ed., ch. 5 (from memory). Left out: what `power` leaves out, and
compressibility and stall at speed.
"""

import math
from dataclasses import dataclass
from typing import Final

from ..rotor import SEA_LEVEL_DENSITY, Rotor
from .edgewise import glauert_inflow
from .hover import INDUCED_FACTOR, MEAN_DRAG, thrust_coefficient
from .validity import checked_advance, checked_density

# Drag of the blades in edgewise flight grows as 1 + 4.65 μ² (from memory).
PROFILE_GROWTH: Final = 4.65


@dataclass(frozen=True, slots=True)
class LevelPower:
    """Power at the rotor in level flight, W, in its three parts."""

    induced: float
    profile: float
    parasite: float

    @property
    def total(self) -> float:
        """All three."""
        return self.induced + self.profile + self.parasite


def level_power(
    rotor: Rotor, speed: float, density: float = SEA_LEVEL_DENSITY,
    induced_factor: float = INDUCED_FACTOR, mean_drag: float = MEAN_DRAG,
) -> LevelPower:  # fmt: skip
    """Power in level flight at `speed` (m/s), thrust taken as the weight and the head's drag area; an estimate (±10 %).

    κ W v_i + (σ c_d0/8)(1 + 4.65 μ²) ρ A (ΩR)³ + ½ρV³f.
    """
    tip, area = rotor.speed * rotor.radius, math.pi * rotor.radius**2
    ct = thrust_coefficient(rotor, checked_density(density))
    mu = checked_advance(speed / tip)
    induced = glauert_inflow(ct, mu).induced * tip
    profile = rotor.solidity * mean_drag / 8.0 * (1.0 + PROFILE_GROWTH * mu * mu) * density * area * tip**3
    return LevelPower(
        induced_factor * rotor.weight * induced, profile, 0.5 * density * speed**3 * rotor.head["drag_area_m2"]
    )
