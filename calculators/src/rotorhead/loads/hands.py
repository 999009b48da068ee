"""From rod loads to the hands, with hydraulic help and without.

Lever: virtual work, F · lever travel = total rod load · plate travel; stick: moment on the plate times
how far full stick tilts it over half the stick's travel. Friction is added. Lever friction is taken as
twice the stick's (common practice, no source).
"""

import math
from dataclasses import dataclass

from ..mechanism.hands import rig_of
from ..rotor import Rotor
from .rods import PlateLoad

EFFICIENCY = 0.9
LEVER_FRICTION = 2.0


@dataclass(frozen=True, slots=True)
class HandForces:
    """Forces in the hands, N. Lever: positive when the lever must be held up against sinking.

    lever, stick: from the blades alone; lever_felt, stick_felt: with friction against the movement.
    """

    lever: float
    stick: float
    lever_felt: float
    stick_felt: float


def unboosted(rotor: Rotor, steady: PlateLoad) -> HandForces:
    """Forces without help for the steady load on the plate."""
    head, rig = rotor.head, rig_of(rotor)
    travel = rig.lever_high - rig.lever_low
    lever = steady.down * travel / (head["lever_travel_mm"] / 1000.0)
    stick = math.hypot(steady.along, steady.across) * math.tan(rig.fore_aft) / (head["stick_travel_mm"] / 2000.0)
    friction = head["stick_friction_N"]
    return HandForces(lever, stick, abs(lever) + LEVER_FRICTION * friction, stick + friction)


def boosted(rotor: Rotor) -> HandForces:
    """Forces with help: friction and feel only; the actuators carry the rods."""
    friction = rotor.head["stick_friction_N"]
    return HandForces(0.0, 0.0, LEVER_FRICTION * friction, friction)


def actuator_force(pressure: float, bore: float, rod: float, efficiency: float = EFFICIENCY) -> float:
    """Rod-side force (N): pressure (Pa) × annulus π/4 (bore² − rod²) (m) × efficiency."""
    return pressure * math.pi / 4.0 * (bore * bore - rod * rod) * efficiency


def actuator_of(rotor: Rotor, efficiency: float = EFFICIENCY) -> float:
    """Capability of one of a head's actuators, N; 0 when it has none."""
    head = rotor.head
    if not head["actuators"]:
        return 0.0
    return actuator_force(
        head["pressure_MPa"] * 1e6, head["actuator_bore_mm"] / 1000.0, head["actuator_rod_mm"] / 1000.0, efficiency
    )
