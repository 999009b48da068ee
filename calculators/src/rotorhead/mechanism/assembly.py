"""Does the head go together? Every link closes over the whole range, every stroke reaches."""

import math
from functools import lru_cache

from ..conventions import TURN
from ..faults import Fault, Refused
from ..head import Head
from ..rotor import Rotor, of_head
from .hands import rig_of
from .links import foot_in_blade_frame, harmonics, horn_angle, link_lean, pitch_round
from .plate import Pose

_LEVERS = (0.0, 0.5, 1.0)
_STICKS = tuple((math.cos(i * TURN / 8), math.sin(i * TURN / 8)) for i in range(8))
_TOO_FLAT = math.radians(75.0)


@lru_cache(maxsize=64)
def greatest_link_lean(rotor: Rotor) -> float:
    """Greatest angle (rad) between a link and the mast over the whole range, blade not flapped.

    Raises `Refused` when a link cannot close somewhere, or leans so far that it would no longer turn
    the blade the way it should.
    """
    if rotor.link_rise <= 0.0:
        foot = (rotor.link_foot_out, rotor.link_foot_ahead, 0.0)
        horn_angle(rotor, foot)
        raise Refused([_short(rotor)])
    rig = rig_of(rotor)
    most = 0.0
    for lever in _LEVERS:
        for forward, left in ((0.0, 0.0), *_STICKS):
            pose = rig.pose(lever, forward, left)
            for i in range(24):
                foot = foot_in_blade_frame(rotor, pose, i * TURN / 24, 0)
                eta = horn_angle(rotor, foot)
                most = max(most, link_lean(rotor, foot, eta))
                if abs(eta) > _TOO_FLAT:
                    raise Refused([_over_centre(rotor)])
    return most


def _short(rotor: Rotor) -> Fault:
    return Fault(
        "link_mm",
        f"Pitch-link length: {rotor.link * 1000:.0f} mm doesn't reach from the ring to the horn; lengthen the link or bring "
        "its lower end nearer to the horn.",
        True,
    )


def _over_centre(rotor: Rotor) -> Fault:
    return Fault(
        "arm_mm",
        f"Horn arm: {rotor.arm * 1000:.0f} mm is too short for this travel; the horn would turn more than 75° and go over "
        "its dead point. Lengthen the arm or reduce the pitch range.",
        True,
    )


def pitch_per_height(rotor: Rotor) -> float:
    """Blade pitch for plate height near the datum, rad/m, positive when plate up is pitch up."""
    d = 0.001
    up = harmonics(pitch_round(rotor, Pose(d, 0.0, 0.0), 12)).mean
    down = harmonics(pitch_round(rotor, Pose(-d, 0.0, 0.0), 12)).mean
    return (up - down) / (2.0 * d)


def assembled(head: Head) -> Rotor:
    """The head in SI, or `Refused` naming everything that keeps it from going together.

    Checks that every link closes over lever and stick range and that each rod's stroke covers what
    the hands ask of it (collective end to end with the stick anywhere in its round stop).
    """
    rotor = of_head(head)
    greatest_link_lean(rotor)
    faults = [
        Fault(
            f"rods.{n}.stroke_mm",
            f"Rod {n} stroke: {have * 1000:.0f} mm is less than the {need * 1000:.0f} mm that full collective with full "
            "stick asks of it.",
            True,
        )
        for n, (have, need) in enumerate(zip(rotor.rod_strokes, rig_of(rotor).stroke_needed(), strict=True), 1)
        if have < need - 1e-6
    ]
    if faults:
        raise Refused(faults)
    return rotor
