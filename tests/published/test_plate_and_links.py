"""Plate, pitch horn and parked-head readings: elementary geometry worked out outside this project.

Angles of the plane checks are counted as azimuths; heights in metres.
"""

import math
from dataclasses import replace

import numpy as np
import pytest
from rotorhead.faults import Refused
from rotorhead.head import demonstration
from rotorhead.head_changes import changed
from rotorhead.mechanism.links import harmonics, horn_angle, linear_pitch, pitch_now, pitch_round
from rotorhead.mechanism.plate import Pose, plane_through, pose_from_rods, pose_from_tilt, rod_heights
from rotorhead.rotor import Rotor, of_head
from scipy.optimize import brentq


def at(*degrees: float) -> list[float]:
    """Angles in radians."""
    return [math.radians(d) for d in degrees]


def test_plane_through_three_rods() -> None:
    """E1 (re-derived; independent check: numpy linear solve)."""
    angles, heights = at(0, 120, 240), [0.010, -0.002, 0.004]
    plane = plane_through(angles, 0.20, heights)
    assert plane.height == pytest.approx(0.004, abs=1e-9)
    assert plane.p == pytest.approx(0.030000, abs=1e-6)
    assert plane.q == pytest.approx(-0.0173205, abs=1e-7)
    assert math.degrees(plane.tilt) == pytest.approx(1.983991, abs=1e-6)
    high = math.degrees(plane.low_azimuth + math.pi) % 360.0
    assert high == pytest.approx(330.0, abs=1e-6)
    rows = [[1.0, 0.2 * math.cos(a), 0.2 * math.sin(a)] for a in angles]
    assert np.linalg.solve(rows, heights) == pytest.approx([plane.height, plane.p, plane.q], abs=1e-12)


def test_even_spacing_makes_the_height_a_mean_and_the_slope_a_sum() -> None:
    """E1 (re-derived): z0 = mean, slope = (2/3) Σ h cos χ / r."""
    angles, heights = at(0, 120, 240), [0.013, 0.001, -0.006]
    plane = plane_through(angles, 0.17, heights)
    assert plane.height == pytest.approx(sum(heights) / 3.0, abs=1e-15)
    by_sum = 2.0 / 3.0 * sum(h * math.cos(a) for h, a in zip(heights, angles, strict=True)) / 0.17
    assert plane.p == pytest.approx(by_sum, abs=1e-14)


def test_plane_through_uneven_rods() -> None:
    """E2 (re-derived): rods at 90°, 180°, 270°."""
    plane = plane_through(at(90, 180, 270), 0.2, [0.006, 0.010, -0.006])
    assert (plane.height, plane.p, plane.q) == pytest.approx((0.0, -0.05, 0.03), abs=1e-9)


def test_which_of_the_two_tilts_is_meant() -> None:
    """E4 (re-derived), h/r = 0.2: joints that keep their distance from the mast give atan = 11.30993°,
    joints fixed in the plate asin = 11.53696°. First order here is the first, exact is the second."""
    angles, radius = at(0, 90, 180, 270), 0.25
    heights = [0.05, 0.0, -0.05, 0.0]
    assert math.degrees(plane_through(angles, radius, heights).tilt) == pytest.approx(11.30993, abs=5e-6)
    exact, residual = pose_from_rods(angles, radius, heights, 0.0)
    assert math.degrees(exact.tilt) == pytest.approx(11.53696, abs=5e-6)
    assert residual == pytest.approx(0.0, abs=1e-12)


def bench(**changes: float) -> Rotor:
    """A horn of 150 mm level over its link at plate height 0, link 400 mm, pitch read from level."""
    central = replace(of_head(demonstration("birch2")), pitch_level=0.0, arm=0.150, link_foot_ahead=0.150, link=0.400)
    return replace(central, **changes)  # type: ignore[arg-type]


RISES = [(10, 3.82250), (20, 7.66139), (30, 11.53249), (-30, -11.54144)]


@pytest.mark.parametrize(("rise", "degrees"), RISES)
def test_planar_four_bar(rise: float, degrees: float) -> None:
    """E5 (re-derived with scipy's root finder), repeated here by scipy.optimize.brentq."""
    rotor = bench()
    found = math.degrees(pitch_now(rotor, Pose(rise / 1000.0, 0.0, 0.0), 0.0))
    assert found == pytest.approx(degrees, abs=1e-4)

    def miss(eta: float) -> float:
        ahead = 0.150 * math.cos(eta) - 0.150
        return math.hypot(ahead, 0.150 * math.sin(eta) + 0.400 - rise / 1000.0) - 0.400

    assert found == pytest.approx(math.degrees(brentq(miss, -0.5, 0.5, xtol=1e-14)), abs=1e-9)


@pytest.mark.parametrize(
    ("rise", "asin", "linear"), [(10, 3.82255, 3.81972), (20, 7.66226, 7.63944), (30, 11.53696, 11.45916)]
)
def test_limits_of_the_four_bar(rise: float, asin: float, linear: float) -> None:
    """E5 (re-derived): a very long link gives asin(h/a), first order gives h/a."""
    pose = Pose(rise / 1000.0, 0.0, 0.0)
    assert math.degrees(pitch_now(bench(link=1e4), pose, 0.0)) == pytest.approx(asin, abs=5e-6)
    assert math.degrees(linear_pitch(bench(), pose, 0.0)) == pytest.approx(linear, abs=5e-6)


def test_cyclic_amplitude_of_a_tilted_plate() -> None:
    """E5 (re-derived), tilt 8°, ring 0.2 m, horn 0.15 m: first order 10.73653° (tangent of the tilt);
    asin of the same height 10.80038°; the smallest-angle figure 10.66667° is not used."""
    rotor = bench(link_foot_ahead=0.2)
    pose = pose_from_tilt(0.0, math.radians(8.0), 0.0)
    azimuths = [math.radians(5.0 * i) for i in range(72)]
    linear = harmonics(tuple(linear_pitch(rotor, pose, a) for a in azimuths))
    assert math.degrees(linear.amplitude) == pytest.approx(10.73653, abs=5e-6)
    assert math.degrees(linear.amplitude) - 10.66667 > 0.06
    upright = bench(link=1e4)
    top = horn_angle(upright, (0.0, 0.150, pose.above(math.pi, 0.2) - upright.link_rise))
    assert math.degrees(top) == pytest.approx(10.80038, abs=5e-6)


def test_four_readings_round_the_turn() -> None:
    """E8 (re-derived): readings 10.2, 6.1, 5.8, 9.9° at 0, 90, 180, 270° of azimuth."""
    found = harmonics((10.2, 6.1, 5.8, 9.9))
    assert found.mean == pytest.approx(8.0, abs=1e-9)
    assert found.cosine == pytest.approx(2.2, abs=1e-9)
    assert found.sine == pytest.approx(-1.9, abs=1e-9)
    assert found.second == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize("blades", range(2, 9))
def test_three_rods_fix_the_plate_whatever_the_number_of_blades(blades: int) -> None:
    """L1 (common practice, no source): three rods carry the ring on nearly every head of two to eight
    blades; they fix height and both tilts exactly, one link a blade; a fourth over-determines it."""
    head = changed(demonstration("alder3"), {"blades": str(blades)})
    rotor = of_head(head)
    assert len(rotor.rod_azimuths) == 3
    pose = Pose(0.012, 0.07, -0.05)
    heights = rod_heights(pose, rotor.rod_azimuths, rotor.rod_radius, rotor.stationary_scissors)
    back, residual = pose_from_rods(rotor.rod_azimuths, rotor.rod_radius, heights, rotor.stationary_scissors)
    assert (back.height, back.p, back.q) == pytest.approx((pose.height, pose.p, pose.q), abs=1e-12)
    assert residual < 1e-15
    assert len({round(pitch_now(rotor, pose, 0.0, b), 12) for b in range(blades)}) > 1
    rows = np.array([[1.0, math.cos(a), math.sin(a)] for a in rotor.rod_azimuths])
    assert np.linalg.matrix_rank(rows) == 3
    four = (*rotor.rod_azimuths, rotor.rod_azimuths[0] + 1.0)
    agreed = rod_heights(pose, four, rotor.rod_radius, rotor.stationary_scissors)
    pulled = [*agreed[:3], agreed[3] + 0.001]
    assert pose_from_rods(four, rotor.rod_radius, agreed, rotor.stationary_scissors)[1] < 1e-12
    assert pose_from_rods(four, rotor.rod_radius, pulled, rotor.stationary_scissors)[1] > 1e-5


def test_two_places_do_not_hold_a_plate() -> None:
    """L1: fewer than three places leave it free."""
    with pytest.raises(Refused):
        plane_through(at(10, 10, 190), 0.2, [0.0, 0.0, 0.0])


@pytest.mark.parametrize("head_id", ["alder3", "birch2", "cedar4", "dogwood5", "elder6"])
@pytest.mark.parametrize("height", [-0.015, 0.0, 0.02])
def test_collective_only_gives_every_blade_the_same(head_id: str, height: float) -> None:
    """L2 (common practice, no source): level plate -> equal pitch on all blades, no first harmonic."""
    rotor = of_head(demonstration(head_id))
    pose = Pose(height, 0.0, 0.0)
    curve = pitch_round(rotor, pose, 72)
    assert harmonics(curve).amplitude < 1e-12
    assert harmonics(curve).second < 1e-12
    now = [pitch_now(rotor, pose, 0.7, b) for b in range(rotor.blades)]
    assert max(now) - min(now) < 1e-12
