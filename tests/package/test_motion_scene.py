"""The turn as the page gets it: plain numbers, seen from above, mirrored with the head; and published poses of the plate."""

import json
import math
from functools import cache
from typing import Any

import numpy as np
import pytest
from rotorhead.head import DEMONSTRATION, Head, demonstration
from rotorhead.head_changes import changed, mirrored
from rotorhead.motion.scene import blade_bearing, scene
from rotorhead.motion.setting import Kind, Setting, WhatIf
from rotorhead.motion.turn import STEPS, motion_of
from rotorhead.rotor import of_head
from scipy.optimize import fsolve
from scipy.spatial.transform import Rotation

HEADS: dict[str, Head] = {i: demonstration(i) for i in DEMONSTRATION}
HEADS |= {f"{i}-mirrored": mirrored(h) for i, h in list(HEADS.items())}
every_head = pytest.mark.parametrize("name", HEADS)
demonstrations = pytest.mark.parametrize("name", DEMONSTRATION)
HANDS = (0.6, 0.7, -0.4)


@cache
def shown(name: str, setting: Setting | None = None) -> dict[str, Any]:
    """The scene of a head, through JSON and back."""
    made = scene(motion_of(of_head(HEADS[name]), setting or Setting(*HANDS)))
    return dict(json.loads(json.dumps(made, allow_nan=False)))


def triples(row: list[float]) -> np.ndarray:
    """Numbers in threes as points."""
    return np.array(row).reshape(-1, 3)


POINTS = ("centre", "still", "stationary")
ROWS = ("ring", "drive", "feet", "horns")


@demonstrations
def test_mirror_gives_the_mirror_scene(name: str) -> None:
    """The mirror stands along the fuselage: x changes its sign, y and z don't; pitch and flap are the same."""
    here, there = shown(name), shown(f"{name}-mirrored", Setting(HANDS[0], HANDS[1], -HANDS[2]))
    flip = np.array([-1.0, 1.0, 1.0])
    for key in POINTS:
        assert triples(there[key]) == pytest.approx(triples(here[key]) * flip, abs=2e-3), key
    for key in ROWS:
        for mine, theirs in zip(here[key], there[key], strict=True):
            assert triples(theirs) == pytest.approx(triples(mine) * flip, abs=2e-3), key
    for mine, theirs in zip(here["rods"], there["rods"], strict=True):
        assert theirs["bearing"] % 360.0 == pytest.approx(-mine["bearing"] % 360.0, abs=1e-3)
        for end in ("joint", "foot"):
            assert triples(theirs[end]) == pytest.approx(triples(mine[end]) * flip, abs=2e-3)
    assert there["sense"] == -here["sense"]
    assert {here["rotation"], there["rotation"]} == {"clockwise", "anticlockwise"}
    changed_over = {"nose": "nose", "tail": "tail", "left": "right", "right": "left"}
    assert {changed_over[k]: v for k, v in here["places"].items()} == there["places"]
    same = set(here) - {*POINTS, *ROWS, "rods", "sense", "rotation", "places"}
    for key in same:
        assert here[key] == there[key] or np.array(there[key]) == pytest.approx(np.array(here[key]), abs=2e-4), key


@every_head
def test_lengths_are_millimetres_and_angles_degrees(name: str) -> None:
    """What can be read from the description: links, rods' radius, ring, arm; JSON holds no NaN (it would not be made)."""
    s, head = shown(name), HEADS[name]
    feet, horns = (np.array([triples(row) for row in s[key]]) for key in ("feet", "horns"))
    # To what is written: three decimals of a millimetre at each of six coordinates.
    assert np.linalg.norm(horns - feet, axis=2) == pytest.approx(head["link_mm"], abs=2e-3)
    joints = np.array([r["joint"] for r in s["rods"]])
    from_centre = np.linalg.norm(joints - np.array(s["centre"]), axis=1)
    assert from_centre == pytest.approx(np.full(len(joints), head["rod_radius_mm"]), abs=2e-3)
    assert s["ringRadius"] == pytest.approx(math.hypot(head["link_foot_out_mm"], head["link_foot_ahead_mm"]), abs=1e-3)
    assert (s["arm"], s["chord"]) == pytest.approx((head["arm_mm"], 1000.0 * head["chord_m"]), abs=1e-3)
    assert s["hinge"] == pytest.approx(1000.0 * head["hinge_offset"] * head["radius_m"], abs=1e-3)
    assert (
        len(s["ring"]) == len(s["drive"]) == len(s["feet"]) == len(s["pitch"]) == len(s["flap"]) == s["steps"] == STEPS
    )
    assert all(len(row) == int(head["blades"]) for row in (*s["pitch"], *s["flap"]))
    pitches = np.array(s["pitch"])
    assert head["collective_low_deg"] < pitches.mean() < head["collective_high_deg"]
    assert pitches.max() - pitches.min() > 2.0


@every_head
def test_clockwise_rotor_turns_clockwise_seen_from_above(name: str) -> None:
    """Elementary: bearings grow clockwise. The page turns a point about z by sense × angle; blade 1 starts over the tail,
    its link's foot goes to larger bearings on a clockwise rotor and to smaller ones on an anticlockwise one."""
    s = shown(name)
    clockwise = HEADS[name].rotation == "clockwise"
    assert s["sense"] == (-1.0 if clockwise else 1.0)
    along = np.array([0.0, -1.0, 0.0])
    for angle in (0.0, 10.0, 200.0):
        at = Rotation.from_euler("z", s["sense"] * angle, degrees=True).apply(along)
        bearing = math.degrees(math.atan2(at[0], at[1]))
        assert math.remainder(bearing - (180.0 + (angle if clockwise else -angle)), 360.0) == pytest.approx(
            0.0, abs=1e-9
        )
        told = math.degrees(blade_bearing(of_head(HEADS[name]), math.radians(angle), 0))
        assert math.remainder(bearing - told, 360.0) == pytest.approx(0.0, abs=1e-9)
    n = s["steps"]
    feet = [
        Rotation.from_euler("z", s["sense"] * 360.0 * i / n, degrees=True).apply(s["feet"][i][:3])
        for i in range(n + 1)
        if i < n
    ]
    bearings = np.unwrap([math.atan2(f[0], f[1]) for f in feet])
    assert (np.diff(bearings) > 0).all() == clockwise
    assert (np.diff(bearings) < 0).all() == (not clockwise)


@every_head
def test_places_bring_blade_1_over_them(name: str) -> None:
    """Turned by `places`, the first blade lies over nose, right, tail and left: +y, +x, −y, −x of the view."""
    s = shown(name)
    ways = {"nose": (0.0, 1.0), "right": (1.0, 0.0), "tail": (0.0, -1.0), "left": (-1.0, 0.0)}
    assert s["places"].keys() == ways.keys()
    for place, way in ways.items():
        at = Rotation.from_euler("z", s["sense"] * s["places"][place], degrees=True).apply([0.0, -1.0, 0.0])
        assert tuple(at[:2]) == pytest.approx(way, abs=1e-6)
    assert s["places"]["nose"] == 180.0
    assert s["places"]["tail"] == 0.0


@every_head
def test_rods_stand_at_the_bearings_described(name: str) -> None:
    """Foot of each rod from above: clockwise from the nose (+y), at the rods' radius; the machine's own left and right."""
    for rod, described in zip(shown(name)["rods"], HEADS[name].rods, strict=True):
        x, y, _ = rod["foot"]
        assert math.remainder(math.degrees(math.atan2(x, y)) - described.bearing_deg, 360.0) == pytest.approx(
            0.0, abs=1e-3
        )
        assert math.remainder(rod["bearing"] - described.bearing_deg, 360.0) == pytest.approx(0.0, abs=1e-3)


@every_head
def test_stick_forward_puts_the_plate_low_where_the_rods_say_and_the_disc_low_ahead(name: str) -> None:
    """Stick forward: the disc is low at the nose within 2° (FAA-H-8083-21B: the disc follows the stick; read), seen in
    the scene's own numbers. The plate is low that much before the nose that rod 1 and the mixing unit say."""
    s, head = shown(name, Setting(0.5, 1.0, 0.0)), HEADS[name]
    clockwise = head.rotation == "clockwise"
    psi = np.arange(s["steps"]) * 2.0 * np.pi / s["steps"]
    flap = np.array([row[0] for row in s["flap"]])
    low = math.degrees(np.angle(np.mean(flap * np.exp(1j * psi)))) + 180.0
    bearing = 180.0 + (low if clockwise else -low)
    assert abs(math.remainder(bearing, 360.0)) < 2.0
    x, y, z = np.cross(*triples(s["still"]))
    up = math.copysign(1.0, z)  # in the view's frame the second axis is mirrored on an anticlockwise rotor or not
    plate_low = math.degrees(math.atan2(up * x, up * y))
    fitted = head.rods[0].bearing_deg + (-1.0 if clockwise else 1.0) * head["mixing_turn_deg"]
    assert math.remainder(plate_low - fitted, 360.0) == pytest.approx(0.0, abs=0.01)


@every_head
@pytest.mark.parametrize("kind", ["drive_off", "stationary_off", "rod_longer", "link_longer", "play_scissors"])
def test_what_ifs_and_stretched_scenes_are_plain_numbers_too(name: str, kind: Kind) -> None:
    """JSON refuses NaN and infinity: it is made for each; what is asked for comes back."""
    amount = 0.2 if kind.endswith("off") else 0.002
    s = shown(name, Setting(0.5, 0.3, 0.0, True, 1.5, WhatIf(kind, 2, amount)))
    assert (s["stretch"], s["kind"], s["number"]) == (1.5, kind, 2)


def posed(head: Head, height: float, p: float, q: float) -> Any:
    """The motion whose plate has this height and these slopes: the hands that give it, by fsolve."""
    rotor = of_head(head)

    def miss(hands: np.ndarray) -> list[float]:
        pose = motion_of(rotor, Setting(hands[0], hands[1], hands[2], flying=False), 4).pose
        return [100.0 * (pose.height - height), pose.p - p, pose.q - q]

    lever, forward, left = fsolve(miss, [0.5, 0.1, 0.1], xtol=1e-12)
    return motion_of(rotor, Setting(lever, forward, left, flying=False), 4)


@every_head
@pytest.mark.parametrize(
    ("azimuths", "heights", "centre", "slopes"),
    [
        ((0, 120, 240), (0.010, -0.002, 0.004), 0.004, (0.03, -0.0173205081)),
        ((90, 180, 270), (0.006, 0.010, -0.006), 0.0, (-0.05, 0.03)),
    ],
    ids=["even", "three-quarters"],
)
def test_plane_through_the_joints_is_the_plane_of_the_published_heights(
    name: str, azimuths: tuple[int, ...], heights: tuple[float, ...], centre: float, slopes: tuple[float, float]
) -> None:
    """Two worked planes (derived: z0 = mean, slope = ⅔ Σ h cos/R for even spacing; solved by hand for the other): heights
    of the plane through the motion's own three joints (numpy.linalg.solve), 200 mm out at these azimuths from the tail."""
    m = posed(HEADS[name], centre, *slopes)
    joints = np.array([r.joint for r in m.rods])
    z, p, q = np.linalg.solve(np.column_stack([np.ones(3), joints[:, 0], joints[:, 1]]), joints[:, 2])
    for azimuth, height in zip(np.radians(azimuths), heights, strict=True):
        assert z + 0.2 * (p * math.cos(azimuth) + q * math.sin(azimuth)) == pytest.approx(height, abs=1e-9)
    if slopes[0] == 0.03:
        assert math.degrees(m.pose.tilt) == pytest.approx(1.983991, abs=1e-6)
        assert math.degrees(m.pose.low_azimuth) == pytest.approx(150.0, abs=1e-6)


def test_a_joint_fixed_in_the_plate_sinks_by_the_sine_of_the_tilt() -> None:
    """h/R = 0.2: a tilt of asin 0.2 = 11.53696° (derived); atan 0.2 = 11.30993° is that of a joint kept at its radius.
    Birch 2 with the stick forward: rod 1 stands at the nose, in line with the scissors, so it is the lowest point."""
    head = changed(HEADS["birch2"], {"cyclic_fore_aft_deg": "13"})
    m = posed(head, 0.0, math.tan(math.radians(11.53696)), 0.0)
    assert m.rods[0].joint[2] / 0.120 == pytest.approx(-0.2, abs=1e-6)
    assert math.hypot(*m.rods[0].joint[:2]) / 0.120 == pytest.approx(math.sqrt(1.0 - 0.04), abs=1e-6)
