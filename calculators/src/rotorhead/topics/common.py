"""Inputs and sentences several calculators share."""

from collections.abc import Callable

from ..faults import Refused, refuse
from ..fields import Number, Values, fixed
from ..mechanism.hands import rig_of
from ..mechanism.plate import Pose
from ..rotor import Rotor

LEVER = Number("lever", "Collective lever up", "percent", 0, 100, (0, 100, 1), fixed(50.0), 0)
FORWARD = Number(
    "stick_forward", "Stick forward", "percent", -100, 100, (-100, 100, 1), fixed(50.0), 0,
    "negative is back",
)  # fmt: skip
LEFT = Number("stick_left", "Stick left", "percent", -100, 100, (-100, 100, 1), fixed(0.0), 0, "negative is right")
HANDS = (LEVER, FORWARD, LEFT)


def hands_pose(values: Values, rotor: Rotor) -> Pose:
    """Lever and stick inputs -> pose of the plate."""
    return rig_of(rotor).pose(float(values["lever"]), float(values["stick_forward"]), float(values["stick_left"]))


def hands_words(values: Values) -> str:
    """'lever half up, stick 50 % forward' as a phrase."""
    parts = [f"lever {float(values['lever']) * 100:.0f}% up"]
    for name, plus, less in (("stick_forward", "forward", "back"), ("stick_left", "left", "right")):
        amount = float(values[name]) * 100
        if abs(amount) >= 0.5:
            parts.append(f"stick {abs(amount):.0f}% {plus if amount > 0 else less}")
    if len(parts) == 1:
        parts.append("stick centred")
    return ", ".join(parts)


ROD_FIGURES = ("rod_radius_mm", "rods", "mixing_turn_deg", "stationary_scissors_bearing_deg")
LINK_FIGURES = (
    "link_foot_out_mm", "link_foot_ahead_mm", "arm_mm", "horn_station_mm", "horn_rides_with_flap", "link_mm",
    "pitch_at_plate_zero_deg", "drive_scissors_ahead_deg",
)  # fmt: skip
HAND_FIGURES = (
    "collective_low_deg", "collective_high_deg", "cyclic_fore_aft_deg", "cyclic_left_right_deg",
)  # fmt: skip


def within_links(work: Callable[[], tuple[float, ...]], field: str) -> tuple[float, ...]:
    """Run `work`; links that don't close there are the fault of what the reader entered, not of the head."""
    try:
        return work()
    except Refused as refused:
        if any(f.field == "link_mm" for f in refused.faults):
            raise refuse(
                field, "There the pitch links no longer reach: bring the plate nearer to level and to height 0."
            ) from None
        raise
