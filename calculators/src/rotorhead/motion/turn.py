"""One turn of the rotor in even steps: every joint of the head, exactly.

Frames. Still parts: x toward the tail, y toward azimuth 90°, z up, origin on the mast at plate height 0. Turning
parts: the same axes turned with the mast, so x runs out along blade 1; seen so, they hardly move, and what stands
between two steps can be drawn by going straight from one to the other (off by less than 0.05 mm at 90 steps).
Lengths in metres, angles in radians. Rigid parts; the rods' own length is not described by a head, the view takes
`ROD_LENGTH` times the radius they stand at.
"""

import math
from dataclasses import dataclass
from typing import Final

from ..blade.settled import settled_flap
from ..conventions import TURN
from ..faults import Refused, refuse
from ..mechanism.hands import rig_of
from ..mechanism.links import feet_in_blade_frames, harmonics, horn_angle
from ..mechanism.plate import Pose, Vector, pose_from_rods, ring_axes, ring_point
from ..mechanism.scissors import Fold, fold
from ..rotor import Rotor
from .setting import Setting, WhatIf

STEPS: Final = 90
ROD_LENGTH: Final = 0.85


@dataclass(frozen=True, slots=True)
class RodNow:
    """A rod: its upper end on the stationary ring, its lower end over the actuator, and the height asked of it."""

    joint: Vector
    foot: Vector
    height: float


@dataclass(frozen=True, eq=False)
class Motion:
    """A turn of one head. Lists run over the steps; inside, over the blades.

    pose, pitch, flap: true. drawn: the pose as drawn. ring: two unit vectors in the rotating ring, toward its
    scissors point and 90° ahead of it. feet, horns: ends of each link. drive: its scissors in the vertical plane
    at `rotor.drive_scissors`. apart: by how much the rods disagree (m), 0 where a plane fits them.
    """

    rotor: Rotor
    setting: Setting
    pose: Pose
    drawn: Pose
    rods: tuple[RodNow, ...]
    still: tuple[Vector, Vector]
    stationary: Fold
    ring: tuple[tuple[Vector, Vector], ...]
    drive: tuple[Fold, ...]
    feet: tuple[tuple[Vector, ...], ...]
    horns: tuple[tuple[Vector, ...], ...]
    pitch: tuple[tuple[float, ...], ...]
    flap: tuple[tuple[float, ...], ...]
    apart: float


@dataclass(frozen=True, slots=True)
class _Held:
    """What a setting does to the joints: pose, rods' azimuths and heights, how the rings stand off their places."""

    pose: Pose
    heights: tuple[float, ...]
    carried: float
    behind: float
    longer: dict[int, float]
    apart: float


def _number(what: WhatIf, most: int, field: str, word: str) -> int:
    if not 1 <= what.number <= most:
        raise refuse(field, f"{word} {what.number}: this head has {most}; choose 1 to {most}.")
    return what.number - 1


def held(rotor: Rotor, setting: Setting) -> _Held:
    """The plate under the hands, with what is taken apart. Raises `Refused` naming what can't be."""
    rig, what = rig_of(rotor), setting.what_if
    pose = rig.pose(setting.lever, setting.forward, setting.left)
    heights = list(rig.heights(pose))
    carried = behind = apart = 0.0
    longer: dict[int, float] = {}
    if what.kind in ("rod_stopped", "rod_longer"):
        rod = _number(what, len(heights), "rod", "Rod")
        if what.kind == "rod_stopped":
            heights[rod] = rig.heights(rig.pose(0.5, 0.0, 0.0))[rod]
        else:
            heights[rod] += what.amount
        pose, apart = pose_from_rods(rotor.rod_azimuths, rotor.rod_radius, heights, rotor.stationary_scissors)
    elif what.kind == "stationary_off":
        carried = what.amount
        angles = [x + carried for x in rotor.rod_azimuths]
        pose, apart = pose_from_rods(angles, rotor.rod_radius, heights, rotor.stationary_scissors + carried)
    elif what.kind == "drive_off":
        behind = what.amount
    elif what.kind == "play_scissors":
        behind = what.amount / 2.0 / rotor.ring_radius
    elif what.kind == "link_longer":
        longer[_number(what, rotor.blades, "blade", "Blade")] = what.amount
    elif what.kind == "play_link":
        longer[_number(what, rotor.blades, "blade", "Blade")] = what.amount / 2.0
    return _Held(pose, tuple(heights), carried, behind, longer, apart)


def _turned(point: Vector, angle: float) -> Vector:
    c, s = math.cos(angle), math.sin(angle)
    return point[0] * c - point[1] * s, point[0] * s + point[1] * c, point[2]


def horn_point(rotor: Rotor, eta: float, flap: float) -> Vector:
    """Upper end of a link in its blade's frame, z from plate height 0 (m), for a horn turned by `eta`, blade flapped."""
    a, rise = rotor.arm, rotor.link_rise
    if not rotor.horn_rides:
        return rotor.horn_station, a * math.cos(eta), rise + a * math.sin(eta)
    s, cb, sb = rotor.horn_station - rotor.hinge, math.cos(flap), math.sin(flap)
    lift = a * math.sin(eta)
    return rotor.hinge + s * cb - lift * sb, a * math.cos(eta), rise + s * sb + lift * cb


def _folded(rotor: Rotor, pose: Pose, mast: float, setting: Setting) -> Fold:
    try:
        return fold(rotor, pose, "drive", mast)
    except Refused:
        if setting.stretch > 1.0:
            raise _too_far(setting) from None
        raise


def _too_far(setting: Setting) -> Refused:
    return refuse(
        "stretch",
        f"Tilt and flap drawn {setting.stretch:g} times: the scissors can't follow that far here; choose less.",
    )


def motion_of(rotor: Rotor, setting: Setting, steps: int = STEPS) -> Motion:
    """Everything that moves for a head and a setting, over one turn in `steps` even steps from blade 1 over the tail.

    Links close exactly (`mechanism.links`), the plate follows the rods exactly (`mechanism.plate`); flap is the
    settled first harmonic in the hover. Raises `Refused` where a link can't close or the scissors can't reach.
    """
    now = held(rotor, setting)
    flying = setting.flying and setting.what_if.kind == "none"
    masts = [i * TURN / steps for i in range(steps)]
    blades = range(rotor.blades)
    longer = [now.longer.get(k, 0.0) for k in blades]
    feet = [feet_in_blade_frames(rotor, now.pose, mast, blades, now.behind) for mast in masts]
    flaps = [[0.0] * rotor.blades for _ in masts]
    if flying:
        commanded = [rotor.pitch_level + horn_angle(rotor, row[0]) for row in feet]
        coning, cosine, sine = settled_flap(rotor, harmonics(tuple(commanded)))
        ahead = [k * TURN / rotor.blades for k in blades]
        flaps = [[coning + cosine * math.cos(m + a) + sine * math.sin(m + a) for a in ahead] for m in masts]
    etas = [
        [horn_angle(rotor, foot, flap, more) for foot, flap, more in zip(row, beta, longer, strict=True)]
        for row, beta in zip(feet, flaps, strict=True)
    ]
    k = setting.stretch
    drawn, drawn_etas, drawn_flaps = now.pose, etas, flaps
    if k != 1.0:
        drawn = Pose(now.pose.height, now.pose.p * k, now.pose.q * k)
        feet = [feet_in_blade_frames(rotor, drawn, mast, blades, now.behind) for mast in masts]
        means = [sum(row[b] for row in etas) / steps for b in blades]
        drawn_etas = [[means[b] + k * (row[b] - means[b]) for b in blades] for row in etas]
        drawn_flaps = [[k * x for x in row] for row in flaps]
    guide = rotor.stationary_scissors + now.carried
    try:
        # Taken off, a pair hangs where it would have held the ring.
        stationary = fold(rotor, drawn, "stationary")
    except Refused:
        raise (
            _too_far(setting) if k > 1.0 else refuse("lever", "There the stationary scissors can't reach.")
        ) from None
    return Motion(
        rotor=rotor,
        setting=setting,
        pose=now.pose,
        drawn=drawn,
        rods=_rods(rotor, drawn, now, guide),
        still=ring_axes(drawn, guide),
        stationary=stationary,
        ring=tuple(_turned_axes(drawn, m, rotor.drive_scissors - now.behind) for m in masts),
        drive=tuple(_folded(rotor, drawn, m, setting) for m in masts),
        feet=tuple(
            tuple(_turned((x, y, z + rotor.link_rise), b * TURN / rotor.blades) for b, (x, y, z) in enumerate(row))
            for row in feet
        ),
        horns=tuple(
            tuple(_turned(horn_point(rotor, e, f), b * TURN / rotor.blades) for b, (e, f) in enumerate(zip(es, fs, strict=True)))
            for es, fs in zip(drawn_etas, drawn_flaps, strict=True)
        ),
        pitch=tuple(tuple(rotor.pitch_level + e for e in row) for row in etas),
        flap=tuple(tuple(row) for row in flaps),
        apart=now.apart,
    )  # fmt: skip


def _turned_axes(pose: Pose, mast: float, ahead: float) -> tuple[Vector, Vector]:
    d, e = ring_axes(pose, mast + ahead)
    return _turned(d, -mast), _turned(e, -mast)


def _rods(rotor: Rotor, pose: Pose, now: _Held, guide: float) -> tuple[RodNow, ...]:
    """Upper ends on the ring; lower ends straight below where the rods stand, at the rods' length."""
    length, found = ROD_LENGTH * rotor.rod_radius, []
    for azimuth, height in zip(rotor.rod_azimuths, now.heights, strict=True):
        joint = ring_point(pose, rotor.rod_radius, azimuth + now.carried, guide)
        x, y = rotor.rod_radius * math.cos(azimuth), rotor.rod_radius * math.sin(azimuth)
        drop = math.sqrt(max(0.0, length**2 - (joint[0] - x) ** 2 - (joint[1] - y) ** 2))
        found.append(RodNow(joint, (x, y, joint[2] - drop), height))
    return tuple(found)
