"""What a head that is not as it should be does, in words, with its own numbers; and the caution that goes with it."""

import math
from collections.abc import Callable
from typing import Final

from ..conventions import bearing_of, bearing_words, count_word, wrap
from ..faults import Refused
from ..mechanism.links import feet_in_blade_frames, harmonics, horn_angle
from ..rotor import Rotor
from .lean import greatest_lean
from .setting import Setting
from .turn import Motion, held, motion_of

Show = Callable[[str, float, int | None], str]
_TOO_FLAT: Final = math.radians(75.0)

CAUTION: Final = (
    "Geometry only, to learn from. A head with a part loose, bent, worn or wrongly set is not turned and not flown: the "
    "maintenance manual and the licensed engineer decide what is found and what is done."
)


def farthest_behind(rotor: Rotor, setting: Setting) -> float:
    """How far behind the mast the rotating ring can be left (rad, at most 90°) before a horn comes to its dead point: more
    than 75° from level, as when a head is judged, or so that its link no longer closes."""
    pose = held(rotor, setting).pose

    def closes(behind: float) -> bool:
        try:
            feet = (
                f
                for i in range(24)
                for f in feet_in_blade_frames(rotor, pose, math.radians(15 * i), range(rotor.blades), behind)
            )
            return all(abs(horn_angle(rotor, foot)) < _TOO_FLAT for foot in feet)
        except Refused:
            return False

    low, high = 0.0, math.pi / 2.0
    if closes(high):
        return high
    for _ in range(12):
        middle = (low + high) / 2.0
        low, high = (middle, high) if closes(middle) else (low, middle)
    return low


def low_moved(as_should: Motion, now: Motion) -> float:
    """How far the plate's low point has moved in the direction of rotation, rad; 0 when either plate is level."""
    if as_should.pose.tilt < 1e-6 or now.pose.tilt < 1e-6:
        return 0.0
    return wrap(now.pose.low_azimuth - as_should.pose.low_azimuth)


def _pitch_change(before: Motion, now: Motion, blade: int) -> tuple[float, float]:
    """Change of the mean pitch and of the cyclic pitch of one blade, rad."""
    a, b = (harmonics(tuple(row[blade] for row in m.pitch)) for m in (before, now))
    return b.mean - a.mean, b.amplitude - a.amplitude


def _signed(show: Show, quantity: str, value: float, places: int) -> str:
    text = show(quantity, value, places)
    # What is printed as zero has no sign.
    return f"+{text}" if value > 0 and any(c in "123456789" for c in text) else text


def told(now: Motion, show: Show) -> str:
    """What moves and what doesn't, in two or three sentences."""
    rotor, what = now.rotor, now.setting.what_if
    level = Setting(now.setting.lever, now.setting.forward, now.setting.left, flying=False)
    before = motion_of(rotor, level, 24)
    n = what.number
    mean, cyclic = _pitch_change(
        before, motion_of(rotor, now.setting, 24), n - 1 if what.kind in ("link_longer", "play_link") else 0
    )
    up = _signed(show, "angle", mean, 2)
    rod_ring = (
        f"The plate's height changes by {_signed(show, 'small_length', now.pose.height - before.pose.height, 1)}, its tilt from "
        f"{show('angle', before.pose.tilt, 1)} to {show('angle', now.pose.tilt, 1)}{_now_low(now)}."
    )
    if what.kind == "rod_stopped":
        return (
            f"Rod {n} stays where it is at mid lever and centred stick; the other rods follow the hands. {rod_ring} Every blade gets "
            f"{up} of collective, and what the hands ask for comes mixed: one hand now does the work of two.{_disagree(now, show)}"
        )
    if what.kind == "rod_longer":
        return (
            f"Rod {n} is {show('small_length', what.amount, 1)} longer. {rod_ring} Every blade gets {up} of collective, and the plate "
            f"leans by a fixed amount whatever the stick does.{_disagree(now, show)}"
        )
    if what.kind == "stationary_off":
        return (
            f"Nothing but the rods' lean keeps the stationary ring from being dragged round. Carried on by {show('angle', what.amount, 0)} "
            f"it brings the plate's low point {show('angle', low_moved(before, now), 1)} farther on; the blades get the same pitch, but "
            f"that much late{'' if now.pose.tilt > 1e-6 else ' (with the plate level nothing shows)'}. The rods do not turn with it: they lean."
        )
    if what.kind == "drive_off":
        far = farthest_behind(rotor, now.setting)
        end = (
            f"to {show('angle', far, 0)} behind, where a horn is all but at its dead point"
            if far < math.pi / 2 - 1e-6
            else "more than a quarter turn"
        )
        return (
            f"Mast, grips and blades turn; nothing but the links pulls the rotating ring along. Here it lies "
            f"{show('angle', abs(what.amount), 0)} {'behind' if what.amount >= 0 else 'ahead'}: the links lean up to "
            f"{show('angle', greatest_lean(now), 0)}, and every blade gets {up} of collective and {_signed(show, 'angle', cyclic, 2)} of "
            f"cyclic pitch. The geometry alone would let it hang back {end}."
        )
    if what.kind == "play_scissors":
        return (
            f"With {show('small_length', what.amount, 2)} of play from end to end the rotating ring can turn "
            f"{show('angle', what.amount / rotor.ring_radius, 2)} by itself; it is drawn at one end of it. On a tilted plate the pitch comes "
            f"that much earlier or later; links that lean along the ring give every blade {up} of collective besides."
        )
    other = f"the other {count_word(rotor.blades - 1)} stay" if rotor.blades > 2 else "the other stays"
    if what.kind == "play_link":
        return (
            f"With {show('small_length', what.amount, 2)} of play in its link blade {n} can take up {show('angle', 2 * abs(mean), 2)} of pitch by "
            f"itself; it is drawn at one end of it. The plate and {other} as before."
        )
    way = "more" if mean >= 0 else "less"
    return (
        f"Link {n} is {show('small_length', what.amount, 2)} longer: blade {n} has {show('angle', abs(mean), 2)} {way} pitch all the way round, "
        f"and the plate and {other} as before. One blade that differs from the rest is out of track."
    )


def _now_low(now: Motion) -> str:
    if now.pose.tilt < math.radians(0.05):
        return ""
    return f", low {bearing_words(bearing_of(now.pose.low_azimuth, now.rotor.rotation))}"


def _disagree(now: Motion, show: Show) -> str:
    if now.apart < 1e-6:
        return ""
    return f" With more than three rods no plane fits: they disagree by {show('small_length', now.apart, 2)}, and something has to bend."
