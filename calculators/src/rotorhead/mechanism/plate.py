"""From rods to plate and back: the pose of the swashplate, to first order and exact.

A pose is the height of the spherical bearing and the slopes of the plate:
z(ψ) = height + r (p cos ψ + q sin ψ); tan(tilt) = √(p² + q²); the low point stands at azimuth
atan2(−q, −p). Heights in metres, angles in radians; level plate at the datum = height 0.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from ..conventions import wrap_turn
from ..faults import Refused, refuse

Vector = tuple[float, float, float]
_STEEPEST = 3.0


@dataclass(frozen=True, slots=True)
class Pose:
    """Where the plate is: height of its centre (m) and slopes toward ψ = 0 (p) and ψ = 90° (q)."""

    height: float
    p: float
    q: float

    @property
    def tilt(self) -> float:
        """Angle between the plate and the level, rad: atan √(p² + q²)."""
        return math.atan(math.hypot(self.p, self.q))

    @property
    def low_azimuth(self) -> float:
        """Azimuth of the low point, rad in [0, 2π); 0 when the plate is level."""
        return wrap_turn(math.atan2(-self.q, -self.p)) if self.p or self.q else 0.0

    def above(self, azimuth: float, radius: float) -> float:
        """First-order height of the plate at an azimuth and radius, m."""
        return self.height + radius * (self.p * math.cos(azimuth) + self.q * math.sin(azimuth))


def pose_from_tilt(height: float, tilt: float, low_azimuth: float) -> Pose:
    """Height, tilt and azimuth of the low point -> pose. |tilt| < 90°."""
    slope = math.tan(tilt)
    return Pose(height, -slope * math.cos(low_azimuth), -slope * math.sin(low_azimuth))


def solve3(m: Sequence[Sequence[float]], v: Sequence[float]) -> Vector:
    """Three equations in three unknowns by cofactors; refuses a set without one answer."""
    (a, b, c), (d, e, f), (g, h, i) = m
    det = a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g)
    size = max(abs(x) for row in m for x in row)
    if size == 0.0 or abs(det) < 1e-9 * size**3:
        raise refuse("rods", "The rods stand in a line: they can't hold a plate.", head=True)
    x, y, z = v
    return (
        (x * (e * i - f * h) - b * (y * i - f * z) + c * (y * h - e * z)) / det,
        (a * (y * i - f * z) - x * (d * i - f * g) + c * (d * z - y * g)) / det,
        (a * (e * z - y * h) - b * (d * z - y * g) + x * (d * h - e * g)) / det,
    )


def plane_through(angles: Sequence[float], radius: float, heights: Sequence[float]) -> Pose:
    """Least-squares plane through ring points at `angles` (rad) and `radius` (m).

    Exact for three rods; with more, the plane that leaves the least sum of squares. The slopes come
    out in whatever sense the angles are counted. Raises `Refused` for fewer than three different
    points. Left out: the ring points move inward as the plate tilts (see `pose_from_rods`).
    """
    rows = [(1.0, math.cos(x), math.sin(x)) for x in angles]
    normal = [[sum(r[i] * r[j] for r in rows) for j in range(3)] for i in range(3)]
    right = [sum(r[i] * h for r, h in zip(rows, heights, strict=True)) for i in range(3)]
    height, rp, rq = solve3(normal, right)
    return Pose(height, rp / radius, rq / radius)


def ring_axes(pose: Pose, guide: float) -> tuple[Vector, Vector]:
    """Two unit vectors in the plate: toward the guided ring point, and 90° ahead of it.

    The scissors hold that ring point in the vertical plane through the mast at azimuth `guide`; the
    rest of the ring follows as a rigid body.
    """
    c, s = math.cos(guide), math.sin(guide)
    rise = pose.p * c + pose.q * s
    length = math.sqrt(1.0 + rise * rise)
    d = (c / length, s / length, rise / length)
    norm = math.sqrt(1.0 + pose.p * pose.p + pose.q * pose.q)
    n = (-pose.p / norm, -pose.q / norm, 1.0 / norm)
    e = (n[1] * d[2] - n[2] * d[1], n[2] * d[0] - n[0] * d[2], n[0] * d[1] - n[1] * d[0])
    return d, e


def ring_point(pose: Pose, radius: float, azimuth: float, guide: float) -> Vector:
    """Exact position (m) of the ring point that stands at `azimuth` when the plate is level."""
    d, e = ring_axes(pose, guide)
    c, s = radius * math.cos(azimuth - guide), radius * math.sin(azimuth - guide)
    return (c * d[0] + s * e[0], c * d[1] + s * e[1], pose.height + c * d[2] + s * e[2])


def rod_heights(pose: Pose, angles: Sequence[float], radius: float, guide: float) -> tuple[float, ...]:
    """Exact heights (m) of the rods' joints for a pose: the inverse of `pose_from_rods`."""
    d, e = ring_axes(pose, guide)
    return tuple(pose.height + radius * (math.cos(x - guide) * d[2] + math.sin(x - guide) * e[2]) for x in angles)


def pose_from_rods(
    angles: Sequence[float], radius: float, heights: Sequence[float], guide: float
) -> tuple[Pose, float]:
    """Exact pose of a rigid ring whose joints stand at the given heights, and the residual (m).

    Gauss-Newton from the first-order plane, differences for the Jacobian; three rods give residual 0,
    more give the root-mean-square by which the rods disagree. Rods long enough that only the joints'
    heights matter. Raises `Refused` when the heights ask for more than the ring's radius allows.
    """
    pose = plane_through(angles, radius, heights)
    step = 1e-6
    for _ in range(25):
        if math.hypot(pose.p, pose.q) > _STEEPEST:
            break
        found = rod_heights(pose, angles, radius, guide)
        error = [h - f for h, f in zip(heights, found, strict=True)]
        beside = [
            rod_heights(Pose(pose.height, pose.p + dp, pose.q + dq), angles, radius, guide)
            for dp, dq in ((step, 0.0), (-step, 0.0), (0.0, step), (0.0, -step))
        ]
        rows = [(1.0, (a - b) / (2.0 * step), (c - d) / (2.0 * step)) for a, b, c, d in zip(*beside, strict=True)]
        normal = [[sum(r[i] * r[j] for r in rows) for j in range(3)] for i in range(3)]
        right = [sum(r[i] * x for r, x in zip(rows, error, strict=True)) for i in range(3)]
        try:
            dz, p, q = solve3(normal, right)
        except Refused:
            break  # so steep that the joints no longer tell the slopes apart
        pose = Pose(pose.height + dz, pose.p + p, pose.q + q)
        # What is left of the differences' error times a large disagreement stays below these.
        if abs(dz) < 1e-10 and math.hypot(p, q) < 1e-9:
            found = rod_heights(pose, angles, radius, guide)
            return pose, math.sqrt(sum((h - f) ** 2 for h, f in zip(heights, found, strict=True)) / len(heights))
    raise refuse("rod_1", "These rod heights ask for a tilt the ring can't take: bring them closer together.")
