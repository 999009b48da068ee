"""The pitch link's closed form against scipy's root finder and rotations, for random geometry.

The reference builds the horn from rotations (feathering, then flapping about the hinge) and finds
the angle at which the link has its length, following the root step by step from the datum.
"""

import math
from dataclasses import replace

import numpy as np
import pytest
from rotorhead.faults import Refused
from rotorhead.head import DEMONSTRATION, demonstration
from rotorhead.head_changes import mirrored
from rotorhead.mechanism.hands import rig_of
from rotorhead.mechanism.links import foot_in_blade_frame, horn_angle, link_lean, pitch_now
from rotorhead.mechanism.plate import Pose, pose_from_tilt, ring_point
from rotorhead.rotor import Rotor, of_head
from scipy.optimize import root
from scipy.spatial.transform import Rotation

BASE = of_head(demonstration("dogwood5"))


def some_head(seed: int) -> Rotor:
    """Random geometry on either side, link leaning up to some 35°, horn riding or not."""
    random = np.random.default_rng(seed)
    side = 1.0 if seed % 2 else -1.0
    arm = side * float(random.uniform(0.08, 0.3))
    station = float(random.uniform(0.0, 0.45))
    out = station + float(random.uniform(-0.08, 0.08))
    ahead = arm + float(random.uniform(-0.08, 0.08))
    rise = float(random.uniform(0.25, 0.5))
    link = math.sqrt(rise**2 + (station - out) ** 2 + (arm - ahead) ** 2)
    return replace(
        BASE, radius=5.0, hinge_offset=float(random.uniform(0.0, 0.08)), arm=arm, horn_station=station,
        link_foot_out=out, link_foot_ahead=ahead, link=link, horn_rides=bool(seed % 3), pitch_level=0.0,
        drive_scissors=float(random.uniform(-3.0, 3.0)), blades=int(random.integers(2, 9)),
    )  # fmt: skip


def horn_point(rotor: Rotor, eta: float, flap: float) -> np.ndarray:
    """Upper end of the link in the blade frame, from rotations: feather about the span, then flap."""
    hinge = np.array([rotor.hinge, 0.0, 0.0])
    level = np.array([rotor.horn_station, rotor.arm, 0.0])
    feathered = Rotation.from_euler("x", eta).apply(level)
    if not rotor.horn_rides:
        return np.asarray(feathered)
    return np.asarray(hinge + Rotation.from_euler("y", -flap).apply(feathered - hinge))


def followed(rotor: Rotor, foot: np.ndarray, flap: float) -> float:
    """The horn's angle by scipy.optimize.root, followed in 12 steps from the level horn at the datum."""
    start = np.array([rotor.link_foot_out, rotor.link_foot_ahead, -rotor.link_rise])
    eta = 0.0
    for part in np.linspace(0.0, 1.0, 12):
        here, bend = start + part * (foot - start), part * flap

        def miss(x: np.ndarray, here: np.ndarray = here, bend: float = bend) -> float:
            return float(np.linalg.norm(horn_point(rotor, float(x[0]) - 1.0, bend) - here) - rotor.link)

        # The unknown is the angle plus 1: the solver's own steps are relative to it and must not vanish.
        found = root(miss, [eta + 1.0], tol=1e-12).x
        assert abs(miss(found)) < 1e-12
        eta = float(found[0]) - 1.0
    return eta


@pytest.mark.parametrize("seed", range(40))
def test_closed_form_follows_the_root(seed: int) -> None:
    """Random foot within ±50 mm of the datum and flap within ±12°."""
    rotor, random = some_head(seed), np.random.default_rng(seed + 500)
    reach = 0.35 * abs(rotor.arm)
    foot = np.array([rotor.link_foot_out, rotor.link_foot_ahead, -rotor.link_rise]) + random.uniform(
        [-0.01, -0.01, -reach], [0.01, 0.01, reach]
    )
    flap = float(random.uniform(-0.2, 0.2))
    found = horn_angle(rotor, (float(foot[0]), float(foot[1]), float(foot[2])), flap)
    assert found == pytest.approx(followed(rotor, foot, flap), abs=1e-9)


@pytest.mark.parametrize("seed", range(12))
def test_level_at_the_datum(seed: int) -> None:
    """At plate height 0 the horn is level, on either side, whatever the lean."""
    rotor = some_head(seed)
    for blade in range(rotor.blades):
        assert pitch_now(rotor, Pose(0.0, 0.0, 0.0), 1.1, blade) == pytest.approx(0.0, abs=1e-12)


@pytest.mark.parametrize("name", [*DEMONSTRATION, *(f"{i}-mirrored" for i in DEMONSTRATION)])
def test_link_keeps_its_length_over_a_turn(name: str) -> None:
    """Every link of every head, full stick, blades flapping: constant to 1e-9 m (rotations only)."""
    head = demonstration(name.removesuffix("-mirrored"))
    rotor = of_head(mirrored(head) if name.endswith("-mirrored") else head)
    pose = rig_of(rotor).pose(0.8, 0.6, -0.8)
    for step in range(24):
        mast = step * math.pi / 12.0
        for blade in range(rotor.blades):
            azimuth = mast + blade * 2.0 * math.pi / rotor.blades
            flap = 0.05 + 0.12 * math.cos(azimuth + 0.4)
            foot = foot_in_blade_frame(rotor, pose, mast, blade)
            horn = horn_point(rotor, pitch_now(rotor, pose, mast, blade, flap) - rotor.pitch_level, flap)
            assert float(np.linalg.norm(horn - np.array(foot))) == pytest.approx(rotor.link, abs=1e-9)


@pytest.mark.parametrize("seed", range(8))
def test_ring_is_rigid_and_its_scissors_point_stays_in_its_plane(seed: int) -> None:
    """Feet of all links keep the distances they have on a flat ring, and the drive-scissors point
    stays in the vertical plane that turns with the mast."""
    rotor = some_head(seed)
    pose, mast = pose_from_tilt(0.01, math.radians(9.0), 0.8 * seed), 0.5 * seed
    guide = mast + rotor.drive_scissors
    x, y, _ = ring_point(pose, rotor.ring_radius, guide, guide)
    assert x * math.sin(guide) - y * math.cos(guide) == pytest.approx(0.0, abs=1e-15)
    points = []
    for blade in range(rotor.blades):
        fx, fy, fz = foot_in_blade_frame(rotor, pose, mast, blade)
        azimuth = mast + blade * 2.0 * math.pi / rotor.blades
        points.append(Rotation.from_euler("z", azimuth).apply([fx, fy, fz]))
    for i, one in enumerate(points):
        for j, other in enumerate(points):
            chord = 2.0 * rotor.ring_radius * abs(math.sin(math.pi * (i - j) / rotor.blades))
            assert float(np.linalg.norm(one - other)) == pytest.approx(chord, abs=1e-12)


@pytest.mark.parametrize("seed", range(8))
def test_lean_is_the_angle_to_the_mast(seed: int) -> None:
    """Against the dot product of the link with the vertical."""
    rotor = some_head(seed)
    foot = foot_in_blade_frame(rotor, pose_from_tilt(0.004, 0.08, 1.0), 0.3, 0)
    eta = horn_angle(rotor, foot)
    link = horn_point(replace(rotor, horn_rides=False), eta, 0.0) - np.array(foot)
    assert link_lean(rotor, foot, eta) == pytest.approx(math.acos(float(link[2]) / rotor.link), abs=1e-9)


@pytest.mark.parametrize("foot_height", [0.0, -2.0, 1.5])
def test_what_cannot_be_assembled_names_the_geometry(foot_height: float) -> None:
    """A foot out of the link's reach: a sentence with the lengths, no bare arithmetic error."""
    rotor = some_head(3)
    with pytest.raises(Refused) as caught:
        horn_angle(rotor, (rotor.link_foot_out + 3.0, rotor.link_foot_ahead, foot_height))
    fault = caught.value.faults[0]
    assert fault.head
    assert fault.field == "link_mm"
    assert f"{rotor.link * 1000:.0f} mm" in fault.text
