"""Angle of attack over the disc in forward flight, and what it hints at: indications, not limits of a machine.

α(x, ψ) = θ − tan δ3 β + twist (x − 0.75) − atan(U_P/U_T), U_T and U_P as in `balance`. Where U_T ≤ 0 (the reversed-flow
circle, diameter μR, on the retreating side: 0 < x < −μ sin ψ) there is no angle of attack to speak of: None.
Left out: dynamic stall (a blade that passes quickly through holds on above the steady angle), vortices of the blade
before, torsion; each is worth several degrees where it matters.
"""

import math
from dataclasses import dataclass
from functools import lru_cache

from ..conventions import TURN
from .balance import AZIMUTHS, waves
from .flapper import Flap, FlapBlade, Pitch
from .inflow import Stream
from .validity import STALL_ANGLE, checked_advance, within

STATIONS = 20


def pressure_ratio(x: float, mu: float) -> float:
    """Dynamic pressure straight out on the advancing side over the retreating side at x = r/R: ((x + μ)/(x − μ))².

    Inside the reversed flow (x ≤ μ) the ratio says nothing: `Refused`.
    """
    checked_advance(mu)
    within("station", "Station over radius", x, 0.0, 1.0)
    within("station", "Station over radius, outside the reversed flow", x, math.nextafter(mu, 1.0), 1.0)
    return ((x + mu) / (x - mu)) ** 2


@dataclass(frozen=True, slots=True)
class Circle:
    """A circle on the disc over R: its centre's distance from the mast and azimuth, and its diameter."""

    distance: float
    azimuth: float
    diameter: float


def reversed_circle(mu: float) -> Circle:
    """Where air meets the blade from behind: diameter μ, centre at μ/2 straight out on the retreating side (ψ = 270°)."""
    return Circle(checked_advance(mu) / 2.0, 0.75 * TURN, mu)


def advancing_tip_mach(tip_speed: float, speed: float, sound: float) -> float:
    """(ΩR + V)/a of the tip on the advancing side; m/s."""
    return (tip_speed + speed) / sound


@lru_cache(maxsize=16)
def stations(start: float, count: int = STATIONS) -> tuple[float, ...]:
    """Middles of `count` even steps from `start` to the tip."""
    step = (1.0 - start) / count
    return tuple(start + (i + 0.5) * step for i in range(count))


@dataclass(frozen=True, slots=True)
class DiscMap:
    """Angles of attack (rad), a row for each station (`radii`), a column for each azimuth from the tail; None: reversed flow.

    stalled: share of the blades' swept area above the stall angle. retreating: α at the tip straight out on the retreating
    side; advancing: on the advancing side. greatest and where: outside the reversed flow and off its edge (U_T > 0.1).
    """

    radii: tuple[float, ...]
    azimuths: tuple[float, ...]
    angles: tuple[tuple[float | None, ...], ...]
    stalled: float
    greatest: float
    greatest_at: tuple[float, float]
    retreating: float
    advancing: float


# Beside the edge of the reversed flow the angle goes to ±90° where there is no pressure to make lift of it.
_EDGE = 0.1


def angle_at(blade: FlapBlade, air: Stream, pitch: Pitch, flap: Flap, x: float, psi: float) -> float | None:
    """α (rad) at one place of the disc; None in reversed flow."""
    c, s = math.cos(psi), math.sin(psi)
    at = _azimuth(blade, air, pitch, flap, (1.0, c, s), (0.0, -s, c))
    return _angle(blade, x, air.mu * s, at)


@dataclass(frozen=True, slots=True)
class Section:
    """One section of a blade as it passes: its pitch and angle of attack (rad), air along and down through, over ΩR."""

    pitch: float
    along: float
    through: float

    @property
    def angle(self) -> float:
        """α (rad); only where the air comes from ahead (`along` > 0)."""
        return self.pitch - math.atan2(self.through, self.along)


def section_at(blade: FlapBlade, air: Stream, pitch: Pitch, flap: Flap, x: float, psi: float) -> Section:
    """The section at x = r/R of the blade at azimuth ψ (rad): pitch with twist and δ3, U_T = x + μ sin ψ, U_P."""
    c, s = math.cos(psi), math.sin(psi)
    theta, through, slope = _azimuth(blade, air, pitch, flap, (1.0, c, s), (0.0, -s, c))
    return Section(theta + blade.twist * (x - 0.75), x + air.mu * s, through + slope * x)


def _azimuth(
    blade: FlapBlade, air: Stream, pitch: Pitch, flap: Flap, wave: tuple[float, ...], rate: tuple[float, ...]
) -> tuple[float, float, float]:
    """At one azimuth: pitch at 0.75 R, and U_P as a + b x."""
    beta = flap.coning + flap.cosine * wave[1] + flap.sine * wave[2]
    speed = flap.cosine * rate[1] + flap.sine * rate[2]
    # A held coning is built in: the hinge that δ3 answers to has not moved by it.
    moved = beta - (blade.held or 0.0)
    theta = pitch.mean + pitch.cosine * wave[1] + pitch.sine * wave[2] - blade.tan_delta3 * moved
    through = air.total + air.mu * beta * wave[1] - blade.e * speed
    return theta, through, air.induced * (air.kx * wave[1] + air.ky * wave[2]) + speed


def _angle(blade: FlapBlade, x: float, along: float, at: tuple[float, float, float]) -> float | None:
    theta, through, slope = at
    ut = x + along
    if ut <= 0.0:
        return None
    return theta + blade.twist * (x - 0.75) - math.atan2(through + slope * x, ut)


def disc_map(
    blade: FlapBlade, air: Stream, pitch: Pitch, flap: Flap, count: int = STATIONS, azimuths: int = AZIMUTHS
) -> DiscMap:
    """The whole disc for a commanded pitch and its settled first-harmonic flapping."""
    radii = stations(blade.start, count)
    table = waves(azimuths, 1)
    columns = [_azimuth(blade, air, pitch, flap, wave, rate) for wave, rate in table]
    along = [air.mu * wave[2] for wave, _ in table]
    rows = []
    area = stalled = 0.0
    greatest, where = -math.inf, (0.0, 0.0)
    for x in radii:
        row = [_angle(blade, x, a, at) for a, at in zip(along, columns, strict=True)]
        area += x * azimuths
        for i, alpha in enumerate(row):
            if alpha is not None and x + along[i] > _EDGE:
                if alpha > greatest:
                    greatest, where = alpha, (x, i * TURN / azimuths)
                if alpha > STALL_ANGLE:
                    stalled += x
        rows.append(tuple(row))
    quarter = TURN / 4.0
    retreating, advancing = (angle_at(blade, air, pitch, flap, 1.0, psi) for psi in (3.0 * quarter, quarter))
    # μ is below 1, so that neither tip stands in reversed flow.
    assert retreating is not None
    assert advancing is not None
    return DiscMap(
        radii, tuple(i * TURN / azimuths for i in range(azimuths)), tuple(rows), stalled / area, greatest, where,
        retreating, advancing,
    )  # fmt: skip
