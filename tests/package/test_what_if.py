"""What if a part is loose, wrong or worn: each against a computation of its own, and never more than geometry.

References: SciPy's root finders on rings and links made of rotations; numpy's least squares; the motion of the same head
as it should be. What no source stands beside is elementary geometry.
"""

import math
from collections.abc import Callable
from functools import cache
from typing import Any

import numpy as np
import pytest
from rotorhead.faults import Refused
from rotorhead.head import DEMONSTRATION, Head, demonstration, from_dict, to_dict
from rotorhead.head_changes import changed, mirrored
from rotorhead.mechanism.joint import pitch_per_turn
from rotorhead.motion.setting import Kind, Setting, WhatIf
from rotorhead.motion.turn import Motion, motion_of
from rotorhead.motion.words import farthest_behind
from rotorhead.rotor import Rotor, of_head
from scipy.optimize import brentq, fsolve
from scipy.spatial.transform import Rotation

TURN, STEPS = 2.0 * math.pi, 36
HEADS: dict[str, Head] = {i: demonstration(i) for i in DEMONSTRATION}
HEADS |= {f"{i}-mirrored": mirrored(h) for i, h in list(HEADS.items())}
every_head = pytest.mark.parametrize("name", HEADS)
HANDS = (0.6, 0.5, -0.4)
LEVEL = (0.8, 0.0, 0.0)


@cache
def rotor_of(name: str) -> Rotor:
    """A head in SI."""
    return of_head(HEADS[name])


@cache
def moved(
    name: str, hands: tuple[float, float, float], kind: Kind = "none", amount: float = 0.0, number: int = 1
) -> Motion:
    """A turn of a head with something not as it should be, the blades held level when nothing is."""
    return motion_of(rotor_of(name), Setting(*hands, kind != "none", 1.0, WhatIf(kind, number, amount)), STEPS)


def turned(lift: float, roll: float, guide: float) -> Rotation:
    """A ring turned about its guided radius, which is then lifted in the vertical plane through the mast at `guide`."""
    out = Rotation.from_euler("z", guide)
    return out * Rotation.from_euler("y", -lift) * Rotation.from_euler("x", roll) * out.inv()


def solved(miss: Callable[[np.ndarray], Any], unknowns: int) -> np.ndarray:
    """fsolve, started off the answer: it complains when its first guess is as good as it can get."""
    found = fsolve(miss, [0.01] * unknowns, xtol=1e-10)
    assert np.abs(miss(found)).max() < 1e-11
    return np.asarray(found)


def lying(m: Motion, guide: float) -> Rotation:
    """The ring in the plane of a motion's plate, its guided radius over azimuth `guide`."""

    def miss(unknown: np.ndarray) -> list[float]:
        normal = turned(unknown[0], unknown[1], guide).apply([0.0, 0.0, 1.0])
        return [normal[0] + m.pose.p * normal[2], normal[1] + m.pose.q * normal[2]]

    lift, roll = solved(miss, 2)
    return turned(float(lift), float(roll), guide)


def circle(radius: float, azimuths: list[float]) -> np.ndarray:
    """Places on a flat ring."""
    return radius * np.column_stack([np.cos(azimuths), np.sin(azimuths), np.zeros(len(azimuths))])


def rise_of(head: Head) -> float:
    """Feathering axis above a link's foot at the datum, by Pythagoras (m)."""
    out, ahead = head["horn_station_mm"] - head["link_foot_out_mm"], head["arm_mm"] - head["link_foot_ahead_mm"]
    return math.sqrt(head["link_mm"] ** 2 - out**2 - ahead**2) / 1000.0


def reach(head: Head, foot: np.ndarray, longer: float) -> Callable[[float], float]:
    """How much too far the horn, turned by an angle, stands from a foot in its blade's frame; blade level."""
    horn = np.array([head["horn_station_mm"], head["arm_mm"], 0.0]) / 1000.0
    up = np.array([0.0, 0.0, rise_of(head)])

    def miss(eta: float) -> float:
        place = Rotation.from_euler("x", eta).apply(horn) + up
        return float(np.linalg.norm(place - foot)) - head["link_mm"] / 1000.0 - longer

    return miss


def pitch_by_brentq(head: Head, foot: np.ndarray, longer: float = 0.0) -> float:
    """The horn's angle at which the link has its length, plus the pitch at which the horn is level."""
    return math.radians(head["pitch_at_plate_zero_deg"]) + float(
        brentq(reach(head, foot, longer), -1.2, 1.2, xtol=1e-13)
    )


def own_frame(m: Motion, step: int, blade: int) -> np.ndarray:
    """A link's foot in its blade's frame."""
    return np.asarray(Rotation.from_euler("z", -blade * TURN / m.rotor.blades).apply(m.feet[step][blade]))


@every_head
@pytest.mark.parametrize("slip", [0.1, 0.5, -0.3])
def test_drive_scissors_off_leaves_the_ring_behind(name: str, slip: float) -> None:
    """Level plate: feet turned back about the mast by exactly the slip, pitch by brentq. Tilted: the ring made of rotations
    with its scissors point that far behind; a turn about the plate's normal of the slip within what a tilted ring's
    scissors point runs fast and slow, sin⁻¹ tan²(τ/2) at either end. Scissors and plate stay where they were."""
    rotor, head = rotor_of(name), HEADS[name]
    slip = slip if name.removesuffix("-mirrored") != "dogwood5" or slip > 0 else -0.1  # its links reach no farther
    level, still = moved(name, LEVEL, "drive_off", slip), moved(name, LEVEL)
    back = Rotation.from_euler("z", -slip)
    for i in (0, 7):
        assert np.array(level.feet[i]) == pytest.approx(back.apply(still.feet[i]), abs=1e-12)
        for k in range(rotor.blades):
            assert level.pitch[i][k] == pytest.approx(pitch_by_brentq(head, own_frame(level, i, k)), abs=1e-9)
    now, before = moved(name, HANDS, "drive_off", slip), moved(name, HANDS)
    assert (now.drive, now.rods, now.pose, now.stationary) == (
        before.drive,
        before.rods,
        before.pose,
        before.stationary,
    )
    flat = circle(rotor.ring_radius, [k * TURN / rotor.blades + rotor.lead for k in range(rotor.blades)])
    centre = np.array([0.0, 0.0, now.pose.height])
    uneven = math.asin(math.tan(now.pose.tilt / 2.0) ** 2)
    for i in range(0, STEPS, 5):
        mast = i * TURN / STEPS
        ring = lying(now, mast + rotor.drive_scissors - slip)
        turn = Rotation.from_euler("z", -mast)
        # The body's own mark stays its mark: flat places are named from where the scissors point is on it.
        body = Rotation.from_euler("z", mast - slip)
        assert np.array(now.feet[i]) == pytest.approx((turn * ring * body).apply(flat) + centre, abs=1e-9)
        axes = circle(1.0, [rotor.drive_scissors, rotor.drive_scissors + TURN / 4.0])
        assert np.array(now.ring[i]) == pytest.approx((turn * ring * body).apply(axes), abs=1e-9)
        d, e = np.array(before.ring[i])
        turns = []
        for foot, was in zip(np.array(now.feet[i]) - centre, np.array(before.feet[i]) - centre, strict=True):
            turns.append(math.atan2(foot @ e, foot @ d) - math.atan2(was @ e, was @ d))
        back_by = [math.remainder(-t, TURN) for t in turns]
        assert back_by == pytest.approx([back_by[0]] * rotor.blades, abs=1e-9)
        assert abs(back_by[0] - slip) < 2.0 * uneven + 1e-9


@every_head
def test_stationary_scissors_off_carries_the_low_point_on(name: str) -> None:
    """Joints carried with the rotation, heights as the hands ask: fsolve on a ring of rotations; to first order, and here
    exactly, the low point goes as far as the ring. Rods' feet stay where they were on plan; pitch comes that much late."""
    rotor, carried = rotor_of(name), TURN / 36.0
    now, before = moved(name, HANDS, "stationary_off", carried), moved(name, HANDS)
    heights = np.array([r.height for r in before.rods])
    flat = circle(rotor.rod_radius, [a + carried for a in rotor.rod_azimuths])
    guide = rotor.stationary_scissors + carried

    def miss(unknown: np.ndarray) -> np.ndarray:
        return np.asarray(unknown[0] + turned(unknown[1], unknown[2], guide).apply(flat)[:, 2] - heights)

    z, lift, roll = solved(miss, 3)
    ring = turned(lift, roll, guide)
    assert np.array([r.joint for r in now.rods]) == pytest.approx(ring.apply(flat) + np.array([0.0, 0.0, z]), abs=1e-9)
    normal = ring.apply([0.0, 0.0, 1.0])
    low = math.atan2(normal[1], normal[0])
    assert math.remainder(now.pose.low_azimuth - low, TURN) == pytest.approx(0.0, abs=1e-9)
    assert math.remainder(now.pose.low_azimuth - before.pose.low_azimuth - carried, TURN) == pytest.approx(
        0.0, abs=1e-9
    )
    for mine, was in zip(now.rods, before.rods, strict=True):
        assert mine.foot[:2] == was.foot[:2]
        assert math.dist(mine.joint, was.joint) > 0.9 * carried * rotor.rod_radius
        assert math.dist(mine.joint, mine.foot) == pytest.approx(math.dist(was.joint, was.foot), abs=1e-12)
    for i in range(STEPS):
        assert now.pitch[i] == pytest.approx(before.pitch[i - 1], abs=1e-9)


@every_head
@pytest.mark.parametrize("rod", [1, 2, 3])
def test_a_stopped_rod_stays_and_the_others_follow(name: str, rod: int) -> None:
    """Its joint keeps the height it has at mid lever and centred stick, whatever the hands do."""
    neutral = moved(name, (0.5, 0.0, 0.0)).rods[rod - 1].joint[2]
    for hands in (HANDS, LEVEL, (0.5, -0.5, 0.2)):
        now, before = moved(name, hands, "rod_stopped", 0.0, rod), moved(name, hands)
        for n, (mine, was) in enumerate(zip(now.rods, before.rods, strict=True), 1):
            assert mine.joint[2] == pytest.approx(neutral if n == rod else was.joint[2], abs=1e-9)
        assert now.apart == pytest.approx(0.0, abs=1e-9)


@every_head
@pytest.mark.parametrize("longer", [0.003, -0.004])
def test_a_longer_rod_lifts_its_own_joint(name: str, longer: float) -> None:
    """By just that much, the others' heights as before; the plane by numpy to first order (2 % of the change)."""
    now, before = moved(name, LEVEL, "rod_longer", longer, 2), moved(name, LEVEL)
    lifted = [mine.joint[2] - was.joint[2] for mine, was in zip(now.rods, before.rods, strict=True)]
    assert lifted == pytest.approx([0.0, longer, 0.0], abs=1e-9)
    azimuths = np.array(rotor_of(name).rod_azimuths)
    rows = np.column_stack([np.ones(3), np.cos(azimuths), np.sin(azimuths)])
    z, p, q = np.linalg.solve(rows, [0.0, longer, 0.0]) / [1.0, rotor_of(name).rod_radius, rotor_of(name).rod_radius]
    assert now.pose.height - before.pose.height == pytest.approx(z, rel=0.02)
    assert (now.pose.p, now.pose.q) == pytest.approx((p, q), abs=0.02 * math.hypot(p, q))


@every_head
@pytest.mark.parametrize(("kind", "share"), [("link_longer", 1.0), ("play_link", 0.5)])
def test_a_longer_link_changes_its_own_blade_only(name: str, kind: Kind, share: float) -> None:
    """By brentq, and to first order by change/(arm · cos lean); play counts half each way. All else equal to the bit."""
    rotor, head, amount, k = rotor_of(name), HEADS[name], 0.00125, rotor_of(name).blades - 1
    now, before = moved(name, HANDS, kind, amount, k + 1), moved(name, HANDS)
    assert (now.feet, now.rods, now.drive, now.ring) == (before.feet, before.rods, before.drive, before.ring)
    for i, (mine, was) in enumerate(zip(now.pitch, before.pitch, strict=True)):
        assert mine[:k] == was[:k]
        assert now.horns[i][:k] == before.horns[i][:k]
        assert mine[k] == pytest.approx(pitch_by_brentq(head, own_frame(now, i, k), share * amount), abs=1e-9)
        assert math.dist(now.horns[i][k], now.feet[i][k]) == pytest.approx(rotor.link + share * amount, abs=1e-9)
    flat = moved(name, (0.5, 0.0, 0.0)), moved(name, (0.5, 0.0, 0.0), kind, amount, k + 1)
    change = flat[1].pitch[0][k] - flat[0].pitch[0][k]
    # At mid lever the horn is near enough level; its link leans by what Pythagoras leaves.
    upright = rise_of(head) / rotor.link
    per_turn = math.copysign(pitch_per_turn(share * amount, rotor.arm, 1), rotor.arm)
    assert change == pytest.approx(per_turn / upright, rel=0.03)


def test_one_turn_of_a_common_thread_on_a_horn_of_150_mm() -> None:
    """1.25 mm on 150 mm: 0.477465° (arithmetic: 1.25/150 rad), link upright and horn level."""
    head = changed(HEADS["birch2"], {"arm_mm": "150", "link_foot_ahead_mm": "150", "pitch_at_plate_zero_deg": "7.5"})
    rotor = of_head(head)

    def height(lever: float) -> float:
        return motion_of(rotor, Setting(lever, flying=False), 4).pose.height

    lever = float(brentq(height, 0.0, 1.0, xtol=1e-12))
    m = motion_of(rotor, Setting(lever, what_if=WhatIf("link_longer", 2, 0.00125)), 4)
    assert math.degrees(m.pitch[0][1] - m.pitch[0][0]) == pytest.approx(0.477465, abs=1e-4)


@every_head
def test_play_in_the_scissors_is_half_of_it_each_way(name: str) -> None:
    """From end to end the feet go along the ring by just the play (arc), and half of it from where they should be."""
    rotor, play = rotor_of(name), 0.004
    middle, one, other = (
        moved(name, LEVEL),
        moved(name, LEVEL, "play_scissors", play),
        moved(name, LEVEL, "play_scissors", -play),
    )
    for k in range(rotor.blades):
        places = [np.unwrap([math.atan2(m.feet[3][k][1], m.feet[3][k][0]) for m in (other, middle, one)])]
        assert np.diff(places[0]) * rotor.ring_radius == pytest.approx([-play / 2.0, -play / 2.0], abs=1e-12)
    assert one.drive == middle.drive


KINDS: tuple[tuple[Kind, float], ...] = (
    ("drive_off", 0.1), ("stationary_off", 0.15), ("rod_stopped", 0.0), ("rod_longer", 0.003), ("link_longer", 0.001),
    ("play_scissors", 0.002), ("play_link", 0.001),
)  # fmt: skip


@every_head
@pytest.mark.parametrize(("kind", "amount"), KINDS)
def test_blades_are_held_level_whatever_is_wrong(name: str, kind: Kind, amount: float) -> None:
    """No flight is made up: asked to flap, they don't; links keep the length they have."""
    m = moved(name, HANDS, kind, amount)
    assert m.setting.flying
    assert not any(x for row in m.flap for x in row)
    lengths = np.linalg.norm(np.array(m.horns) - np.array(m.feet), axis=2)[:, 1:]
    assert np.abs(lengths - HEADS[name]["link_mm"] / 1000.0).max() < 1e-9


@every_head
def test_four_rods_and_one_longer_disagree_by_what_least_squares_leave(name: str) -> None:
    """numpy.linalg.lstsq on the level ring: root-mean-square of what no plane takes up; to first order."""
    data: dict[str, Any] = to_dict(HEADS[name])
    first = data["rods"][0]["bearing_deg"]
    rotor = of_head(
        from_dict(data | {"rods": [*data["rods"], {"bearing_deg": (first + 150.0) % 360.0, "stroke_mm": 400}]})
    )
    m = motion_of(rotor, Setting(0.5, what_if=WhatIf("rod_longer", 4, 0.002)), STEPS)
    azimuths = np.array(rotor.rod_azimuths)
    rows = np.column_stack([np.ones(4), np.cos(azimuths), np.sin(azimuths)])
    pull = np.array([0.0, 0.0, 0.0, 0.002])
    left = pull - rows @ np.linalg.lstsq(rows, pull)[0]
    assert m.apart == pytest.approx(math.sqrt(float(np.mean(left**2))), rel=1e-3)
    missed = np.array([r.joint[2] - r.height for r in m.rods])
    assert m.apart == pytest.approx(math.sqrt(float(np.mean(missed**2))), abs=1e-12)


@pytest.mark.parametrize("name", ["dogwood5", "dogwood5-mirrored", "elder6", "alder3"])
@pytest.mark.parametrize("lever", [0.0, 0.5, 1.0])
def test_the_ring_hangs_back_as_far_as_the_links_let_it(name: str, lever: float) -> None:
    """Brute force, plate level: going back in steps of 0.05°, the first place where no angle of the horn within 75° of level
    has the link's length. Where a quarter turn is told, none such is met before it."""
    rotor, head = rotor_of(name), HEADS[name]
    far = math.degrees(farthest_behind(rotor, Setting(lever, flying=False)))
    start = own_frame(moved(name, (lever, 0.0, 0.0)), 0, 0)
    horn = np.array([head["horn_station_mm"], head["arm_mm"], 0.0]) / 1000.0
    etas = np.radians(np.linspace(-75.0, 75.0, 6001))
    ends = np.array([horn[0] + 0.0 * etas, horn[1] * np.cos(etas), rise_of(head) + horn[1] * np.sin(etas)]).T
    stopped = 90.0
    for behind in np.arange(0.0, 90.0, 0.05):
        foot = Rotation.from_euler("z", -behind, degrees=True).apply(start)
        miss = np.linalg.norm(ends - foot, axis=1) - head["link_mm"] / 1000.0
        if (miss > 0).all() or (miss < 0).all():
            stopped = float(behind)
            break
    assert far == pytest.approx(stopped, abs=0.1)
    beyond = Setting(lever, what_if=WhatIf("drive_off", 1, math.radians(far + 0.1)))
    try:
        horn_turned = abs(motion_of(rotor, beyond, 4).pitch[0][0] - rotor.pitch_level)
    except Refused:
        horn_turned = math.inf
    assert (horn_turned > math.radians(75.0)) == (far < 90.0)
