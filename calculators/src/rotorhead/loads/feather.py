"""The moment a blade asks of its horn: what the controls must supply to hold the pitch they ask for.

Nose-up positive, about the feathering axis, one blade:
M = (I_c + I_t) θ̈ + (I_c − I_t) Ω² sin θ cos θ + k (θ − θ₀) + friction − M_air − M_offset.
I_c, I_t: second moments of mass along the chord and across the thickness. A thin blade's first-harmonic
inertia and propeller moments nearly cancel (θ̈ = −Ω² θ₁, and cos 2θ is nearly 1): one must never be
counted without the other.
M_air: section pitching moment ½ρ c² C_m ∫U² dr with U = Ωr + V sin ψ, and lift times how far the
aerodynamic centre lies ahead of the feathering axis. M_offset: centre of mass behind the axis times
coning: x β₀ Ω² ∫ r dm, nose-up. Sources: W. Johnson, Helicopter Theory (from memory); re-derived, and
checked with a rigid-body engine. Left out: blade torsion, unsteady air, stall, higher air-load harmonics
(the first two come from U²), flapping's second harmonic.
"""

import math
from dataclasses import dataclass

from ..blade.flap import hover_coning
from ..conventions import TURN
from ..rotor import SEA_LEVEL_DENSITY, Rotor


def steps_for(blades: int) -> int:
    """Steps a turn: at least 72, and a whole number between neighbouring blades so that each falls on a step."""
    return blades * math.ceil(72 / blades)


@dataclass(frozen=True, slots=True)
class Blade:
    """What the feathering moment needs, SI. Built from a head by `blade_of`; fields can be replaced.

    mass_behind, air_ahead: centre of mass behind, aerodynamic centre ahead of the feathering axis, m.
    weight_moment: (I_c − I_t) taken off by balance weights standing square to the chord, kg·m².
    spring: N·m/rad about `spring_at` (rad). friction: N·m, against the movement.
    """

    inertia_chord: float
    inertia_thickness: float
    mass: float
    mass_behind: float
    air_ahead: float
    moment_coefficient: float
    weights: float
    spring: float
    spring_at: float
    friction: float
    coning: float


def blade_of(rotor: Rotor, *, moment_coefficient: float | None = None, mass_behind: float = 0.0,
             air_ahead: float = 0.0, weights: float = 0.0, spring: float = 0.0, friction: float = 0.0) -> Blade:  # fmt: skip
    """The blade of a head, with the figures the description doesn't hold given here.

    The head's radius of gyration along the chord is about the blade's own mass centre: one that lies off the
    feathering axis adds m x² (parallel axes).
    """
    head = rotor.head
    ic = rotor.blade_mass * (head["chordwise_radius_of_gyration_m"] ** 2 + mass_behind**2)
    it = rotor.blade_mass * head["thickness_radius_of_gyration_m"] ** 2
    cm = head["pitching_moment_coefficient"] if moment_coefficient is None else moment_coefficient
    return Blade(ic, it, rotor.blade_mass, mass_behind, air_ahead, cm, weights, spring, rotor.pitch_level, friction,
                 hover_coning(rotor))  # fmt: skip


def propeller(difference: float, speed: float, pitch: float) -> float:
    """(I_c − I_t) Ω² sin θ cos θ, N·m: what it takes to hold a blade against flattening."""
    return difference * speed * speed * math.sin(pitch) * math.cos(pitch)


def section_moment(rotor: Rotor, coefficient: float, azimuth: float, forward_speed: float,
                   density: float = SEA_LEVEL_DENSITY) -> float:  # fmt: skip
    """½ρ c² C_m ∫U² dr (N·m, nose-up) from root cut to tip; U = Ωr + V sin ψ squared, so reversed flow counts as flow.

    Reversed flow touches 5 % of the span's weight at an advance ratio of 0.3: left as it is.
    """
    a, b = rotor.root_cut * rotor.radius, rotor.radius
    v, w = forward_speed * math.sin(azimuth), rotor.speed
    integral = w * w * (b**3 - a**3) / 3.0 + w * v * (b * b - a * a) + v * v * (b - a)
    return 0.5 * density * rotor.chord**2 * coefficient * integral


@dataclass(frozen=True, slots=True)
class Parts:
    """The parts of the moment the controls must supply at one azimuth, N·m, nose-up positive."""

    inertia: float
    propeller: float
    air: float
    offset: float
    spring: float
    friction: float

    @property
    def total(self) -> float:
        """All of it."""
        return self.inertia + self.propeller + self.air + self.offset + self.spring + self.friction


def parts_at(
    rotor: Rotor, blade: Blade, azimuth: float, mean: float, cosine: float, sine: float, forward_speed: float
) -> Parts:
    """Parts at an azimuth for pitch θ = mean + cosine·cos ψ + sine·sin ψ (rad)."""
    c, s = math.cos(azimuth), math.sin(azimuth)
    pitch = mean + cosine * c + sine * s
    rate = rotor.speed * (sine * c - cosine * s)
    acceleration = -(rotor.speed**2) * (cosine * c + sine * s)
    lift = rotor.weight / rotor.blades
    difference = blade.inertia_chord - blade.inertia_thickness - blade.weights
    arm = rotor.blade_mass * (rotor.radius + rotor.hinge) / 2.0
    return Parts(
        inertia=(blade.inertia_chord + blade.inertia_thickness + blade.weights) * acceleration,
        propeller=propeller(difference, rotor.speed, pitch),
        air=-section_moment(rotor, blade.moment_coefficient, azimuth, forward_speed) - lift * blade.air_ahead,
        offset=-blade.mass_behind * blade.coning * rotor.speed**2 * arm,
        spring=blade.spring * (pitch - blade.spring_at),
        friction=blade.friction * (rate > 1e-9) - blade.friction * (rate < -1e-9),
    )  # fmt: skip


def moments_round(
    rotor: Rotor, blade: Blade, mean: float, cosine: float, sine: float, forward_speed: float
) -> list[Parts]:
    """Parts in even steps of azimuth from the tail; see `steps_for`."""
    n = steps_for(rotor.blades)
    return [parts_at(rotor, blade, i * TURN / n, mean, cosine, sine, forward_speed) for i in range(n)]
