"""How far the links lean over a turn."""

import math

from ..mechanism.links import feet_in_blade_frames, horn_angle, link_lean
from .turn import Motion, held


def greatest_lean(motion: Motion) -> float:
    """Greatest angle between a link and the mast over the turn (rad), blades held level."""
    rotor, what, most = motion.rotor, motion.setting.what_if, 0.0
    state = held(rotor, motion.setting)
    for i in range(0, 72, 3):
        for k, foot in enumerate(
            feet_in_blade_frames(rotor, state.pose, math.radians(5 * i), range(rotor.blades), state.behind)
        ):
            most = max(most, link_lean(rotor, foot, horn_angle(rotor, foot, 0.0, state.longer.get(k, 0.0))))
        if what.kind == "none" and motion.pose.tilt < 1e-9:
            break
    return most
