"""The tail rotor in the hover: its thrust, and the tilt of the main disc that answers its push.

T_tr = P/(Ω l): the fuselage's answer to the main rotor's torque, l from mast to tail rotor. It pushes the whole machine
toward the advancing side (right with an anticlockwise rotor: "translating tendency", FAA-H-8083-21B, ch. 2), so the disc
tilts toward the retreating side. Statics; common practice for the default distances, no source. Left out: fin blockage
(5 to 15 % more thrust), tail rotor's own torque, sideways download, canted tail rotors.
"""

from dataclasses import dataclass

from ..conventions import after_side, before_side
from ..rotor import Rotor
from .validity import positive, within

# Mast to tail rotor over R: the tail rotor just clears the main disc.
TAIL_ARM = 1.18
# Tail rotor's height above the centre of gravity over the hub's.
TAIL_HEIGHT = 0.75


@dataclass(frozen=True, slots=True)
class TailRotor:
    """Tail-rotor thrust and what it asks of the main disc in the hover; N, rad.

    total_tilt: of the disc against the horizon, toward the retreating side. disc_tilt: its part against the mast (β1s);
    bank: the rest, by which the fuselage hangs over (its retreating side low). push_side, tilt_side: left or right.
    """

    thrust: float
    total_tilt: float
    disc_tilt: float
    bank: float
    push_side: str
    tilt_side: str


def tail_thrust(power: float, speed: float, arm: float) -> float:
    """T_tr = P/(Ω l), N: power at the main rotor (W), its speed (rad/s), mast to tail rotor (m)."""
    positive("power", "Power", power, "W")
    return power / positive("rpm", "Rotor speed", speed, "rad/s") / positive("tail_arm", "Mast to tail rotor", arm, "m")


def tail_rotor(
    rotor: Rotor, power: float, tilt_moment: float, arm: float | None = None, height: float | None = None
) -> TailRotor:
    """Sideways balance in the hover. `tilt_moment`: moment per radian of disc tilt (`hub.tilt_moment(...).total`).

    Side force: W × total tilt = T_tr. Roll about the centre of gravity: tilt_moment × disc tilt = T_tr × height. `arm` and
    `height` (m, above the centre of gravity); None: 1.18 R and 0.75 of the hub's height, common practice. Tilts are small:
    refused when T_tr is more than a quarter of the weight.
    """
    arm = TAIL_ARM * rotor.radius if arm is None else arm
    height = (
        TAIL_HEIGHT * rotor.mast_above_cg
        if height is None
        else within("tail_height", "Tail rotor's height", height, -5.0, 10.0, "m")
    )
    thrust = tail_thrust(power, rotor.speed, arm)
    total = within("tail_arm", "Tail-rotor thrust over weight", thrust / rotor.weight, 0.0, 0.25)
    disc = thrust * height / positive("mast_above_cg_m", "Moment per radian of disc tilt", tilt_moment, "N·m")
    return TailRotor(thrust, total, disc, total - disc, before_side(rotor.rotation), after_side(rotor.rotation))
