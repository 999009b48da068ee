"""Lead and lag of a blade in the plane of the disc: orders of magnitude, for a hinge at eR with or without a spring.

ν_ζ² = 3e/(2(1 − e)) + K_ζ/(I Ω²) (uniform blade); steady lag = drag moment/(I Ω² ν_ζ²); Coriolis: a blade that flaps by β
at the speed β′ is pushed in the plane by 2 I Ω² β β′. Sources: W. Johnson, Helicopter Theory; A.R.S. Bramwell,
Helicopter Dynamics (from memory); re-derived. Left out: dampers (near 1 per turn they hold back little), drag changing
round the turn, which is as large as what is computed: take the swing as right to a factor of two. Ground resonance is
not in it.
"""

import math
from dataclasses import dataclass

from ..blade.flap import flap_frequency_squared
from ..faults import refuse
from ..rotor import Rotor
from .flapper import Flap
from .validity import positive, within


def lag_frequency_squared(e: float, spring: float = 0.0, inertia: float = 1.0, speed: float = 1.0) -> float:
    """ν_ζ² = 3e/(2(1 − e)) + K_ζ/(I Ω²): what flap has, less the 1 that only flap's restoring pull has."""
    within("lag_offset", "Lag hinge over radius", e, 0.0, 0.5)
    return flap_frequency_squared(e, spring, inertia, speed) - 1.0


@dataclass(frozen=True, slots=True)
class LeadLag:
    """In-plane motion of one blade: ν_ζ; steady lag (rad, behind is positive); Coriolis moment and swing at 1 and 2 per turn."""

    frequency: float
    steady_lag: float
    moment_1: float
    moment_2: float
    swing_1: float
    swing_2: float


def coriolis(flap: Flap) -> tuple[float, float]:
    """Amplitudes of 2ββ′ at 1 and 2 per turn for β = β0 + A cos(ψ − ψ0): 2 β0 A and A². Times I Ω²: N·m."""
    tilt = math.hypot(flap.cosine, flap.sine)
    return 2.0 * abs(flap.coning) * tilt, tilt * tilt


def lead_lag(
    rotor: Rotor, power: float, flap: Flap, offset: float | None = None, spring: float = 0.0, lift_lever: float = 0.75
) -> LeadLag:
    """Lead and lag of a head's blade. `offset`: lag hinge over R; None: where the flap hinge is.

    power: at the rotor, W, shared by the blades, drag centred at `lift_lever`·R. Where the horn stands outboard of the lag
    hinge it goes back with the blade while the link's foot stays with the ring: the steady lag adds to the lead Δ, which the
    chain's pages leave out.
    Refused without a hinge offset or a spring: nothing would hold the blade (a teetering or stiff-in-plane hub carries
    the moment in bending).
    """
    e = rotor.hinge_offset if offset is None else offset
    # The head's blade mass hangs outboard of its flap hinge; spread evenly from the lag hinge instead.
    inertia = rotor.blade_mass * (rotor.radius * (1.0 - e)) ** 2 / 3.0
    squared = lag_frequency_squared(e, spring, inertia, rotor.speed)
    if squared < 1e-6:
        raise refuse(
            "lag_offset",
            "Lag hinge over radius: 0 without a spring holds no blade; this head's hub carries it in bending.",
        )
    if abs(squared - 1.0) < 0.05:
        raise refuse(
            "lag_spring",
            f"A lag frequency of {math.sqrt(squared):.2f} per turn is too near 1: the swing has no bound here.",
        )
    scale = inertia * rotor.speed**2
    torque = positive("power", "Power", power, "W") / rotor.speed / rotor.blades
    drag = torque * (lift_lever - e) / lift_lever
    first, second = coriolis(flap)
    return LeadLag(
        math.sqrt(squared), drag / (scale * squared), first * scale, second * scale,
        first / abs(squared - 1.0), second / abs(squared - 4.0),
    )  # fmt: skip
