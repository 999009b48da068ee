"""Coning and the pull on a blade's root, from thrust and from rotor speed.

β0 = (T r/N + spring × precone − S_β g)/(I_β Ω² ν²), r the lever of a blade's lift about its hinge; pull Ω²∫ r dm. With
a central hinge and thrust held, both go with Ω²: at 90 % rpm a blade cones 1.23 times as far and is pulled 0.81 times
as hard (FAA-H-8083-21B, p. 2-16: low rpm, much coning). Left out: blade bending (which straightens the outer blade: real
tips ride a little lower), and a teetering hub's coning, which is precone and bending.
"""

from dataclasses import dataclass, replace

from ..blade.flap import blade_pull, flap_frequency_squared, inflow_moment, pitch_moment
from ..rotor import SEA_LEVEL_DENSITY, Rotor
from ..units import STANDARD_GRAVITY
from .hover import hover_pitch, thrust_coefficient
from .power import carrying
from .validity import Mark, flap_mark, loading_mark, positive, stall_mark, within

# Rotor speed over the head's own: below half, thrust can't be held and the model says nothing.
SPEED_SHARE = (0.5, 1.3)


def coning_from_thrust(
    thrust: float, blades: int, lever: float, inertia: float, speed: float,
    weight_moment: float = 0.0, nu_squared: float = 1.0, spring_moment: float = 0.0,
) -> float:  # fmt: skip
    """β0 (rad) = ((T/N) r + spring moment − weight moment)/(I_β Ω² ν²).

    lever: hinge to the centre of a blade's lift, m: 0.75 R for lift that grows with r², 2R/3 with r (central hinge).
    weight_moment: mass × g × hinge to centre of gravity, N·m. spring_moment: K_β × precone, N·m.
    """
    scale = positive("inertia", "Blade inertia", inertia, "kg·m²") * positive("rpm", "Rotor speed", speed, "rad/s") ** 2
    return (thrust / blades * lever + spring_moment - weight_moment) / (scale * positive("nu", "ν²", nu_squared))


def coning_from_pitch(rotor: Rotor, pitch: float, inflow: float, density: float = SEA_LEVEL_DENSITY) -> float:
    """β0 (rad) in even inflow: (M_θ θ − M_λ λ + twist + spring precone − weight)/ν², θ at 0.75 R and actual.

    With a central hinge, no twist and no weight: (γ/8)(θ − 4λ/3)/ν². Lift from hinge to tip: no root cut and no loss at the
    tip (10 to 15 % more coning than with both). Twist: (γ/2)∫(x − e) x² θ_tw (x − 0.75) dx.
    """
    gamma, e = rotor.lock_number(density), rotor.hinge_offset
    scale = rotor.flap_inertia * rotor.speed**2
    twist = (1.0 - e**5) / 5.0 - (e + 0.75) * (1.0 - e**4) / 4.0 + 0.25 * e * (1.0 - e**3)
    steady = rotor.root_spring * rotor.precone - rotor.flap_static_moment * STANDARD_GRAVITY
    nu_squared = flap_frequency_squared(e, rotor.root_spring, rotor.flap_inertia, rotor.speed)
    lift = pitch_moment(gamma, e) * pitch - inflow_moment(gamma, e) * inflow + gamma / 2.0 * rotor.twist * twist
    return (lift + steady / scale) / nu_squared


def lift_lever(rotor: Rotor, density: float = SEA_LEVEL_DENSITY) -> float:
    """Hinge to the centre of a blade's lift in the hover, m: from the lift of every ring (blade-element momentum theory)."""
    _, moment = hover_pitch(rotor, density)
    # C_T = (σa/2)∫ lift dx, moment = ½∫ (x − e) lift dx.
    return moment * rotor.solidity * rotor.lift_slope / thrust_coefficient(rotor, density) * rotor.radius


def pull_at(rotor: Rotor, station: float) -> float:
    """Pull (N) on a blade at `station` (m from the mast): Ω² ∫ r dm of all that lies outboard, uniform blade."""
    within("station", "Station", station, rotor.hinge, rotor.radius, "m")
    line = rotor.blade_mass / (rotor.radius - rotor.hinge)
    return line * rotor.speed**2 * (rotor.radius**2 - station**2) / 2.0


def holds_precone(rotor: Rotor) -> bool:
    """A teetering hub keeps its precone; its blades bend instead, which isn't solved."""
    return rotor.head.option("type") == "teetering"


def coning_at_speed(rotor: Rotor, speed: float, lever: float) -> float:
    """β0 (rad) of a head at a rotor speed (rad/s) with thrust held at the weight, lift's centre `lever` (m) from the hinge."""
    if holds_precone(rotor):
        return rotor.precone
    return coning_from_thrust(
        rotor.weight, rotor.blades, lever, rotor.flap_inertia, speed, rotor.flap_static_moment * STANDARD_GRAVITY,
        flap_frequency_squared(rotor.hinge_offset, rotor.root_spring, rotor.flap_inertia, speed), rotor.root_spring * rotor.precone,
    )  # fmt: skip


@dataclass(frozen=True, slots=True)
class Droop:
    """One rotor speed, thrust held at the weight: coning (rad), pull at the hinge (N), pitch at 0.75 R (rad), C_T/σ."""

    speed: float
    coning: float
    pull: float
    pitch: float
    blade_loading: float
    outside: tuple[Mark, ...]


def droop(rotor: Rotor, share: float, density: float = SEA_LEVEL_DENSITY) -> Droop:
    """The hover at `share` of the head's rotor speed (0.5 to 1.3), thrust held by more pitch.

    The lift's centre is kept where it is at full speed (it moves by under 1 % of R). A teetering hub keeps its precone:
    its blades bend instead, which isn't solved. Marked when the pitch needed stalls the blade.
    """
    within("rotor_speed", "Rotor speed over the head's own", share, *SPEED_SHARE)
    slow = replace(rotor, speed=rotor.speed * share)
    coning = coning_at_speed(rotor, slow.speed, lift_lever(rotor, density))
    pitch, state = carrying(slow, density)
    loading = thrust_coefficient(slow, density) / slow.solidity
    marks = (*loading_mark(loading), *stall_mark(state.stalled), *flap_mark((coning,)))
    return Droop(slow.speed, coning, blade_pull(slow), pitch, loading, marks)
