"""The plate's pose against numpy and scipy, which know nothing of the package's formulas."""

import math

import numpy as np
import pytest
from rotorhead.faults import Refused
from rotorhead.mechanism.plate import Pose, plane_through, pose_from_rods, rod_heights
from scipy.optimize import least_squares
from scipy.spatial.transform import Rotation


def some_rods(seed: int, count: int) -> tuple[list[float], float, list[float]]:
    """Bearings at least 20° apart, a radius, and heights that don't lie in one plane."""
    random = np.random.default_rng(seed)
    while True:
        angles = np.sort(random.uniform(0.0, 2.0 * math.pi, count))
        gaps = np.diff(np.append(angles, angles[0] + 2.0 * math.pi))
        # No gap beyond 190° either: rods all on one side pin the far side poorly.
        if gaps.min() > math.radians(20.0) and gaps.max() < math.radians(190.0):
            break
    radius = float(random.uniform(0.08, 0.5))
    slope, direction = math.tan(math.radians(float(random.uniform(0.0, 11.0)))), float(random.uniform(0.0, 6.28))
    heights = radius * slope * np.cos(angles - direction) + random.uniform(-0.05, 0.05)
    heights += random.uniform(-0.001, 0.001, count)
    return [float(a) for a in angles], radius, [float(h) for h in heights]


@pytest.mark.parametrize("count", [3, 4, 5, 6])
@pytest.mark.parametrize("seed", range(8))
def test_plane_is_the_least_squares_plane(seed: int, count: int) -> None:
    """numpy.linalg.lstsq on z = z0 + r(p cos χ + q sin χ), and its residual."""
    angles, radius, heights = some_rods(100 * count + seed, count)
    rows = np.array([[1.0, radius * math.cos(a), radius * math.sin(a)] for a in angles])
    solution, squares, _, _ = np.linalg.lstsq(rows, np.array(heights))
    plane = plane_through(angles, radius, heights)
    assert (plane.height, plane.p, plane.q) == pytest.approx(tuple(solution), abs=1e-10)
    misses = [h - plane.above(a, radius) for a, h in zip(angles, heights, strict=True)]
    left = float(squares[0]) if squares.size else 0.0
    assert sum(m * m for m in misses) == pytest.approx(left, abs=1e-15)


def rigid_ring(
    angles: list[float], radius: float, heights: list[float], guide: float
) -> tuple[float, float, float, float]:
    """Height, p, q and root-mean-square miss of a rigid ring, built from rotations alone.

    Turn the ring about its guided radius, then lift that radius in the vertical plane through the
    mast at azimuth `guide`: the scissors point can't leave the plane by construction. The three
    unknowns are found by scipy's least squares.
    """
    flat = radius * np.column_stack([np.cos(angles), np.sin(angles), np.zeros(len(angles))])

    def turned(lift: float, roll: float) -> Rotation:
        return (
            Rotation.from_euler("z", guide)
            * Rotation.from_euler("y", -lift)
            * Rotation.from_euler("x", roll)
            * Rotation.from_euler("z", -guide)
        )

    def miss(unknown: np.ndarray) -> np.ndarray:
        z, lift, roll = unknown
        return np.asarray(z + turned(lift, roll).apply(flat)[:, 2] - np.array(heights))

    found = least_squares(miss, [float(np.mean(heights)), 0.0, 0.0], xtol=1e-15, ftol=1e-15, gtol=1e-15, x_scale=0.1)
    normal = turned(found.x[1], found.x[2]).apply([0.0, 0.0, 1.0])
    rms = math.sqrt(float(np.mean(found.fun**2)))
    return float(found.x[0]), float(-normal[0] / normal[2]), float(-normal[1] / normal[2]), rms


@pytest.mark.parametrize("count", [3, 4, 5, 6])
@pytest.mark.parametrize("seed", range(6))
def test_exact_pose_is_that_of_a_rigid_ring_with_its_scissors(seed: int, count: int) -> None:
    """Three rods exactly; four to six in least squares, with the same residual."""
    angles, radius, heights = some_rods(1000 * count + seed, count)
    guide = 0.7 * seed
    pose, residual = pose_from_rods(angles, radius, heights, guide)
    z, p, q, rms = rigid_ring(angles, radius, heights, guide)
    tight = 1e-9 if count == 3 else 1e-7  # least squares fixes a flat minimum to half the digits
    assert (pose.height, pose.p, pose.q) == pytest.approx((z, p, q), abs=tight)
    assert residual == pytest.approx(rms, abs=1e-9)
    if count == 3:
        assert residual < 1e-12


@pytest.mark.parametrize("count", [4, 5, 6])
def test_rods_that_disagree_say_by_how_much(count: int) -> None:
    """One rod of a perfect set pulled by 1 mm: the residual is what numpy's projection leaves."""
    angles = [2.0 * math.pi * i / count + 0.1 * i for i in range(count)]
    pose = Pose(0.01, 0.002, -0.001)
    heights = list(rod_heights(pose, angles, 0.2, 0.0))
    heights[1] += 0.001
    _, residual = pose_from_rods(angles, 0.2, heights, 0.0)
    rows = np.array([[1.0, math.cos(a), math.sin(a)] for a in angles])
    pull = np.zeros(count)
    pull[1] = 0.001
    left = pull - rows @ np.linalg.lstsq(rows, pull)[0]
    # The small tilt bends the projection by less than one part in a thousand.
    assert residual == pytest.approx(math.sqrt(float(np.mean(left**2))), rel=1e-3)


@pytest.mark.parametrize("count", [4, 5])
@pytest.mark.parametrize("guide", [0.0, 1.0, 2.0, 3.0])
@pytest.mark.parametrize("pull", [0.03, 0.07, 0.11])
def test_a_rod_far_out_of_line_is_still_answered(pull: float, guide: float, count: int) -> None:
    """One joint 30 to 110 mm out of line on a ring of 420 mm: the tilt stays under 10°, so there is a
    least-squares pose and scipy finds it; it must not be refused."""
    angles = [math.radians(a) for a in (48, 168, 288, 180, 100)][:count]
    heights = [-0.0097, -0.010, -0.010, -0.010, -0.010][:count]
    heights[3] -= pull
    z, p, q, rms = rigid_ring(angles, 0.42, heights, guide)
    assert math.degrees(math.atan(math.hypot(p, q))) < 10.0
    pose, residual = pose_from_rods(angles, 0.42, heights, guide)
    assert (pose.height, pose.p, pose.q) == pytest.approx((z, p, q), abs=1e-6)
    assert residual == pytest.approx(rms, abs=1e-9)


def test_exact_and_first_order_differ_as_stated() -> None:
    """The stated size: up to 0.3° of tilt and 0.6° of bearing at 12° of tilt with uneven rods; the
    ring built from rotations finds the same difference."""
    worst_tilt = worst_bearing = 0.0
    for guide in range(0, 360, 30):
        for low in range(0, 360, 30):
            angles = [math.radians(a) for a in (90.0, 180.0, 270.0)]
            slope = math.tan(math.radians(12.0))
            pose = Pose(0.0, -slope * math.cos(math.radians(low)), -slope * math.sin(math.radians(low)))
            plane = plane_through(angles, 0.2, rod_heights(pose, angles, 0.2, math.radians(guide)))
            worst_tilt = max(worst_tilt, abs(math.degrees(plane.tilt - pose.tilt)))
            turn = math.remainder(plane.low_azimuth - pose.low_azimuth, 2.0 * math.pi)
            worst_bearing = max(worst_bearing, abs(math.degrees(turn)))
    assert 0.2 < worst_tilt < 0.35
    assert 0.5 < worst_bearing < 0.65


@pytest.mark.parametrize("heights", [[0.5, -0.5, 0.0], [1.0, 0.0, 0.0], [-0.3, 0.3, 0.3]])
def test_more_than_the_ring_can_reach_is_refused(heights: list[float]) -> None:
    """Rods that ask for a height difference no ring of that radius has."""
    with pytest.raises(Refused, match="tilt"):
        pose_from_rods([0.0, 2.1, 4.2], 0.15, heights, 0.0)


@pytest.mark.parametrize("angles", [[0.0, 0.0, math.pi], [1.0, 1.0, 1.0], [0.0, math.pi, 0.0, math.pi]])
def test_rods_in_a_line_are_refused(angles: list[float]) -> None:
    """numpy calls the same set rank deficient."""
    rows = np.array([[1.0, math.cos(a), math.sin(a)] for a in angles])
    assert np.linalg.matrix_rank(rows, tol=1e-9) < 3
    with pytest.raises(Refused, match="line"):
        plane_through(angles, 0.2, [0.0] * len(angles))
