"""From plate to blade pitch: the pitch link closed exactly, and its first-order shadow.

Blade frame of one blade: x out along the span axis from the mast, y ahead (in the direction of
rotation), z up, origin on the mast's axis at the height of the feathering axis. The plate's centre
stands `link_rise` below that at plate height 0.
"""

import math
from collections.abc import Iterable
from dataclasses import dataclass

from ..conventions import TURN
from ..faults import refuse
from ..rotor import Rotor
from .plate import Pose, Vector, ring_axes


def _does_not_close(rotor: Rotor) -> Exception:
    return refuse(
        "link_mm",
        "This linkage can't be assembled over the whole range: a pitch link of "
        f"{rotor.link * 1000:.0f} mm doesn't reach from its lower end "
        f"({rotor.link_foot_out * 1000:.1f} mm out, {rotor.link_foot_ahead * 1000:.1f} mm ahead) to a horn "
        f"{rotor.horn_station * 1000:.1f} mm out with an arm of {rotor.arm * 1000:.0f} mm.",
        head=True,
    )


def horn_angle(rotor: Rotor, foot: Vector, flap: float = 0.0, longer: float = 0.0) -> float:
    """Exact rotation of the horn from level (rad, nose-up positive) for a link foot in the blade frame.

    `longer`: how much longer this one link is than the head's links, m.

    Rigid link: |horn − foot| = link. With the horn at (hinge + s cosβ − a sinη sinβ, a cosη,
    s sinβ + a sinη cosβ), s = horn station − hinge, the condition is A cos η + B sin η = C, solved
    in closed form; the root taken is the one that is 0 at the datum. When the horn does not ride with
    the flap, β = 0 here. Raises `Refused` naming the geometry when the link cannot close.
    """
    x, y, z = foot
    arm = rotor.arm
    if rotor.horn_rides and flap:
        reach = rotor.horn_station - rotor.hinge
        cb, sb = math.cos(flap), math.sin(flap)
        x0, z0 = rotor.hinge + reach * cb - x, reach * sb - z
    else:
        cb, sb = 1.0, 0.0
        x0, z0 = rotor.horn_station - x, -z
    a = -2.0 * arm * y
    b = 2.0 * arm * (z0 * cb - x0 * sb)
    c = (rotor.link + longer) ** 2 - arm * arm - x0 * x0 - y * y - z0 * z0
    size = math.hypot(a, b)
    ratio = c / size if size else 2.0
    if not -1.0 <= ratio <= 1.0:
        raise _does_not_close(rotor)
    # b carries the sign of the arm (z0 > 0): the level root lies a quarter turn from its direction.
    turn = math.asin(ratio) - math.atan2(a, b) if b > 0 else -math.asin(ratio) - math.atan2(-a, -b)
    return math.remainder(turn, TURN)


def feet_in_blade_frames(
    rotor: Rotor, pose: Pose, mast: float, blades: Iterable[int], behind: float = 0.0
) -> list[Vector]:
    """Lower ends of the links of `blades` (0, 1, …), each in its own blade's frame, blade 1 at azimuth `mast`.

    The rotating ring is one rigid ring whose drive-scissors point stays exactly in the meridian that
    turns with the mast; `behind` (rad): how far it lags behind that meridian, through play or without scissors.
    """
    d, e = ring_axes(pose, mast + rotor.drive_scissors - behind)
    feet = []
    for blade in blades:
        ahead, body = blade * TURN / rotor.blades, rotor.lead - rotor.drive_scissors
        c, s = rotor.ring_radius * math.cos(ahead + body), rotor.ring_radius * math.sin(ahead + body)
        x, y = c * d[0] + s * e[0], c * d[1] + s * e[1]
        ca, sa = math.cos(mast + ahead), math.sin(mast + ahead)
        feet.append((x * ca + y * sa, y * ca - x * sa, pose.height + c * d[2] + s * e[2] - rotor.link_rise))
    return feet


def foot_in_blade_frame(rotor: Rotor, pose: Pose, mast: float, blade: int) -> Vector:
    """Lower end of one blade's link; see `feet_in_blade_frames`."""
    return feet_in_blade_frames(rotor, pose, mast, (blade,))[0]


def pitches_now(rotor: Rotor, pose: Pose, mast: float) -> list[float]:
    """Exact pitch (rad, at 0.75 R) of every blade, held level, with blade 1 at azimuth `mast`."""
    feet = feet_in_blade_frames(rotor, pose, mast, range(rotor.blades))
    return [rotor.pitch_level + horn_angle(rotor, foot) for foot in feet]


def pitch_now(rotor: Rotor, pose: Pose, mast: float, blade: int = 0, flap: float = 0.0) -> float:
    """Exact pitch (rad, at 0.75 R) of one blade with blade 1 at azimuth `mast`, blade flapped by `flap`."""
    return rotor.pitch_level + horn_angle(rotor, foot_in_blade_frame(rotor, pose, mast, blade), flap)


def link_lean(rotor: Rotor, foot: Vector, eta: float) -> float:
    """Angle between the link and the mast (rad), blade not flapped."""
    out = rotor.horn_station - foot[0]
    ahead = rotor.arm * math.cos(eta) - foot[1]
    return math.atan2(math.hypot(out, ahead), rotor.arm * math.sin(eta) - foot[2])


def linear_pitch(rotor: Rotor, pose: Pose, azimuth: float) -> float:
    """First-order pitch (rad) of a blade at an azimuth: θ = θ_level + z(ψ + lead)/arm, small angles."""
    return rotor.pitch_level + pose.above(azimuth + rotor.lead, rotor.ring_radius) / rotor.arm


@dataclass(frozen=True, slots=True)
class Harmonics:
    """Mean and harmonics of something read in even steps round the turn (radians in, radians out)."""

    mean: float
    cosine: float
    sine: float
    second: float

    @property
    def amplitude(self) -> float:
        """Amplitude of the first harmonic."""
        return math.hypot(self.cosine, self.sine)

    @property
    def greatest(self) -> float:
        """Azimuth at which the first harmonic is greatest, rad in (−π, π]."""
        return math.atan2(self.sine, self.cosine)


def harmonics(values: tuple[float, ...]) -> Harmonics:
    """Mean, first-harmonic parts and second-harmonic amplitude of even steps from ψ = 0."""
    n = len(values)
    table = _TABLE.get(n)
    if table is None:
        table = _TABLE[n] = [(math.cos(i * TURN / n), math.sin(i * TURN / n)) for i in range(n)]
    c1 = sum(v * t[0] for v, t in zip(values, table, strict=True)) * 2.0 / n
    s1 = sum(v * t[1] for v, t in zip(values, table, strict=True)) * 2.0 / n
    c2 = sum(v * table[2 * i % n][0] for i, v in enumerate(values)) * 2.0 / n
    s2 = sum(v * table[2 * i % n][1] for i, v in enumerate(values)) * 2.0 / n
    return Harmonics(sum(values) / n, c1, s1, math.hypot(c2, s2))


_TABLE: dict[int, list[tuple[float, float]]] = {}


def pitch_round(rotor: Rotor, pose: Pose, steps: int = 72, flap: tuple[float, ...] = ()) -> tuple[float, ...]:
    """Exact pitch (rad) of blade 1 in `steps` even steps of azimuth from the tail.

    `flap`: its flap angle at each of these steps, or empty for a blade held level.
    """
    step = TURN / steps
    return tuple(pitch_now(rotor, pose, i * step, 0, flap[i] if flap else 0.0) for i in range(steps))
