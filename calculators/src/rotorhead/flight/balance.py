"""The flapping blade in forward flight: lift round the turn brought into balance, harmonic by harmonic.

β″ + ν² β = (γ/2) ∫ (x − e)(U_T² θ − U_T U_P) dx + steady, θ = command − tan δ3 β + twist (x − 0.75),
U_T = x + μ sin ψ, U_P = λ + λ_i (kx x cos ψ + ky x sin ψ) + (x − e) β′ + μ β cos ψ, all in the hub plane.
Lift is linear in angle, so the balance of the first harmonics is a small linear system: flap from pitch and pitch from
flap are the same system read two ways. Thrust: 2C_T/(σa) = mean of ∫ (U_T² θ − U_T U_P) dx.

Two ways to the same coefficients:
- `closed_balance`: integrals written out; exact (for harmonics 0 and 1) while no part of the blade meets reversed flow,
  that is for μ up to the root cut.
- `strip_balance`: azimuth by azimuth, lift turned round where U_T < 0. At each azimuth the integrand is a polynomial in x
  between root cut, edge of the reversed flow and tip, so the sum over the span is written out too: what strips tend to.
  More harmonics can be asked for.
Parents: H. Glauert, ARC R&M 1111 (abstract read); J.B. Wheatley, NACA TR 487; A. Gessow and G.C. Myers; W. Johnson,
Helicopter Theory, ch. 5 (from memory); re-derived. Left out: stall, compressibility, drag (moves β by under 0.1°), radial
flow, blade bending and torsion, wake beyond the gradient.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from ..conventions import TURN
from ..faults import refuse
from .flapper import Flap, FlapBlade, Pitch
from .inflow import Stream
from .validity import checked_advance

AZIMUTHS = 72
Row = list[float]


def solve(matrix: Sequence[Sequence[float]], right: Sequence[float]) -> Row:
    """A small linear system by elimination with pivots; refuses one without an answer."""
    n = len(right)
    rows = [[*map(float, row), float(value)] for row, value in zip(matrix, right, strict=True)]
    for i in range(n):
        pivot = max(range(i, n), key=lambda k, i=i: abs(rows[k][i]))  # type: ignore[misc]
        rows[i], rows[pivot] = rows[pivot], rows[i]
        if abs(rows[i][i]) < 1e-12:
            raise refuse("lock", "Flapping has no answer here: nothing holds the blade back in one of its harmonics.")
        for row in rows[i + 1 :]:
            share = row[i] / rows[i][i]
            if share:
                for j in range(i, n + 1):
                    row[j] -= share * rows[i][j]
    found = [0.0] * n
    for i in range(n - 1, -1, -1):
        found[i] = (rows[i][n] - sum(rows[i][j] * found[j] for j in range(i + 1, n))) / rows[i][i]
    return found


@dataclass(frozen=True, slots=True)
class Sums:
    """Harmonics of one integral over the span, as straight functions of flap and actual pitch: (flap, pitch, constant)."""

    flap: list[Row]
    pitch: list[Row]
    constant: Row


@dataclass(frozen=True, slots=True)
class Balance:
    """Flap moment (all harmonics) and force (its mean) as functions of flap and commanded pitch."""

    blade: FlapBlade
    moment: Sums
    force: Sums

    def _coupled(self, sums: Sums, k: int, j: int) -> float:
        """Coefficient of flap part j with what δ3 takes off the pitch; a held coning moves no hinge."""
        rides = self.blade.tan_delta3 if j or self.blade.held is None else 0.0
        return sums.flap[k][j] - rides * sums.pitch[k][j]

    def _flap_row(self, k: int) -> tuple[Row, Row, float]:
        """Row k of: flap coefficients · flap = pitch coefficients · pitch + constant."""
        size = len(self.moment.constant)
        harmonic = (k + 1) // 2
        if self.blade.held is not None and harmonic % 2 == 0:
            return [float(j == k) for j in range(size)], [0.0] * 3, self.blade.held if k == 0 else 0.0
        half = self.blade.gamma / 2.0
        flap = [-half * self._coupled(self.moment, k, j) for j in range(size)]
        flap[k] += self.blade.nu_squared - harmonic**2
        constant = half * self.moment.constant[k] + (self.blade.steady if k == 0 else 0.0)
        return flap, [half * x for x in self.moment.pitch[k][:3]], constant

    def _force_row(self) -> tuple[Row, Row, float]:
        size = len(self.moment.constant)
        half = self.blade.solidity_slope / 2.0
        flap = [half * self._coupled(self.force, 0, j) for j in range(size)]
        return flap, [half * x for x in self.force.pitch[0][:3]], half * self.force.constant[0]

    def flap(self, pitch: Pitch) -> Flap:
        """Settled flapping for a commanded pitch."""
        rows = [self._flap_row(k) for k in range(len(self.moment.constant))]
        given = (pitch.mean, pitch.cosine, pitch.sine)
        right = [sum(p * q for p, q in zip(row[1], given, strict=True)) + row[2] for row in rows]
        found = solve([row[0] for row in rows], right)
        return Flap(found[0], found[1], found[2], tuple(found[3:]))

    def thrust(self, pitch: Pitch, flap: Flap) -> float:
        """C_T for a commanded pitch and its flapping."""
        a, b, c = self._force_row()
        given = (pitch.mean, pitch.cosine, pitch.sine)
        return (
            c
            + sum(p * q for p, q in zip(a, flap.parts, strict=True))
            + sum(p * q for p, q in zip(b, given, strict=True))
        )

    def pitch_for(self, ct: float, cosine: float, sine: float) -> tuple[Pitch, Flap]:
        """Commanded pitch that gives C_T with the disc tilted (cosine, sine, rad) to the hub; higher harmonics are solved."""
        size = len(self.moment.constant)
        free = [0, *range(3, size)]
        matrix, right = [], []
        rows = [self._flap_row(k) for k in range(size)]
        a, b, c = self._force_row()
        rows.append(([-x for x in a], b, c - ct))
        for flap, pitch, constant in rows:
            matrix.append([*(flap[j] for j in free), *(-p for p in pitch)])
            right.append(constant - flap[1] * cosine - flap[2] * sine)
        found = solve(matrix, right)
        higher, (mean, c1, s1) = found[1:-3], found[-3:]
        return Pitch(mean, c1, s1), Flap(found[0], cosine, sine, tuple(higher))

    def level_pitch(self, mean: float) -> tuple[Pitch, float]:
        """Cyclic that keeps the disc level with the hub at a collective, and the coning: (pitch, β0)."""
        size = len(self.moment.constant)
        free = [0, *range(3, size)]
        rows = [self._flap_row(k) for k in range(size)]
        matrix = [[*(flap[j] for j in free), -pitch[1], -pitch[2]] for flap, pitch, _ in rows]
        found = solve(matrix, [constant + pitch[0] * mean for _, pitch, constant in rows])
        return Pitch(mean, found[-2], found[-1]), found[0]


def powers(low: float, high: float) -> Row:
    """∫ xⁿ dx for n = 0 … 4."""
    return [(high ** (n + 1) - low ** (n + 1)) / (n + 1) for n in range(5)]


def about_hinge(p: Row, e: float) -> Row:
    """∫ (x − e) xⁿ dx for n = 0 … 3 from ∫ xⁿ dx."""
    return [p[n + 1] - e * p[n] for n in range(4)]


def _closed_sums(blade: FlapBlade, air: Stream, j: Row) -> Sums:
    """Harmonics 0 and 1 without reversed flow; j: ∫ w xⁿ dx with the weight w of this integral."""
    mu, e, tw, bent = air.mu, blade.e, blade.twist, air.induced
    k0, k1 = j[1] - e * j[0], j[2] - e * j[1]
    t0, t1, t2 = (j[n + 1] - 0.75 * j[n] for n in range(3))
    square = mu * mu * j[0]
    return Sums(
        flap=[[0.0, 0.5 * mu * (k0 - j[1]), 0.0],
              [-mu * j[1], 0.0, -k1 - 0.25 * square],
              [0.0, k1 - 0.25 * square, 0.0]],
        pitch=[[j[2] + 0.5 * square, 0.0, mu * j[1]],
               [0.0, j[2] + 0.25 * square, 0.0],
               [2.0 * mu * j[1], 0.0, j[2] + 0.75 * square]],
        constant=[tw * (t2 + 0.5 * mu * mu * t0) - j[1] * air.total - 0.5 * mu * j[1] * bent * air.ky,
                  -j[2] * bent * air.kx,
                  2.0 * mu * tw * t1 - mu * j[0] * air.total - j[2] * bent * air.ky],
    )  # fmt: skip


def closed_balance(blade: FlapBlade, air: Stream) -> Balance:
    """The balance written out: no reversed flow, harmonics 0 and 1."""
    checked_advance(air.mu)
    p = powers(blade.start, blade.tip)
    return Balance(blade, _closed_sums(blade, air, about_hinge(p, blade.e)), _closed_sums(blade, air, p))


@lru_cache(maxsize=16)
def waves(azimuths: int, harmonics: int) -> tuple[tuple[tuple[float, ...], tuple[float, ...]], ...]:
    """For even steps of azimuth: (1, cos ψ, sin ψ, cos 2ψ, …) and its derivative."""
    table = []
    for i in range(azimuths):
        wave, rate = [1.0], [0.0]
        for h in range(1, harmonics + 1):
            c, s = math.cos(h * i * TURN / azimuths), math.sin(h * i * TURN / azimuths)
            wave += [c, s]
            rate += [-h * s, h * c]
        table.append((tuple(wave), tuple(rate)))
    return tuple(table)


def strip_balance(
    blade: FlapBlade, air: Stream, harmonics: int = 1, azimuths: int = AZIMUTHS, reversed_flow: bool = True
) -> Balance:
    """The balance summed over the azimuth, with lift turned round in the reversed flow unless that is left out.

    72 azimuths hold trigonometric polynomials exactly; the edge of the reversed flow leaves under 1e-5 rad.
    """
    checked_advance(air.mu)
    size = 2 * harmonics + 1
    whole = powers(blade.start, blade.tip)
    moment = Sums([[0.0] * size for _ in range(size)], [[0.0] * size for _ in range(size)], [0.0] * size)
    force = Sums([[0.0] * size], [[0.0] * size], [0.0])
    for wave, rate in waves(azimuths, harmonics):
        edge = -air.mu * wave[2]
        p = whole
        if reversed_flow and edge > blade.start:
            p = [a - 2.0 * b for a, b in zip(whole, powers(blade.start, min(edge, blade.tip)), strict=True)]
        for sums, j in ((moment, about_hinge(p, blade.e)), (force, p)):
            _add(sums, lift_at(blade, air, j, wave), wave, rate, azimuths)
    return Balance(blade, moment, force)


def lift_at(blade: FlapBlade, air: Stream, j: Row, wave: tuple[float, ...]) -> tuple[float, float, float, float]:
    """∫ w (U_T² θ − U_T U_P) dx at one azimuth as pitch·θ + constant + rate·β′ + flap·β; j: ∫ w xⁿ dx of the weight w."""
    c, s = wave[1], wave[2]
    ms = air.mu * s
    low, mid = j[1] + ms * j[0], j[2] + ms * j[1]
    pitch = mid + ms * low
    twist = j[3] + 2.0 * ms * j[2] + ms * ms * j[1] - 0.75 * pitch
    constant = blade.twist * twist - air.total * low - air.induced * (air.kx * c + air.ky * s) * mid
    return pitch, constant, -(mid - blade.e * low), -air.mu * c * low


def _add(
    sums: Sums, at: tuple[float, float, float, float], wave: tuple[float, ...], rate: tuple[float, ...], count: int
) -> None:
    """Add one azimuth's share to the harmonics."""
    pitch, constant, damping, spring = at
    flap = [damping * r + spring * w for r, w in zip(rate, wave, strict=True)]
    for k in range(len(sums.constant)):
        share = wave[k] * (2.0 if k else 1.0) / count
        sums.constant[k] += share * constant
        by_flap, by_pitch = sums.flap[k], sums.pitch[k]
        for i, w in enumerate(wave):
            by_flap[i] += share * flap[i]
            by_pitch[i] += share * pitch * w


def balance(blade: FlapBlade, air: Stream) -> Balance:
    """The closed balance where it holds (no reversed flow on the blade: μ ≤ root cut), the summed one elsewhere."""
    return closed_balance(blade, air) if air.mu <= blade.start else strip_balance(blade, air)
