"""A wave through readings: mean, amplitude and azimuth of greatest pitch, each with how sure it is.

θ(ψ) = mean + c cos ψ + s sin ψ, optionally + c₂ cos 2ψ + s₂ sin 2ψ; least squares over readings at any azimuths, even
or not. Angles in radians, pitch nose-up positive, azimuth as in `conventions`. The blade's readings are taken as
independent and equally good.

Scatter of one reading: √(Σe²/(n − p)) from the residuals when n − p >= 2, with Student's t on n − p; otherwise the
reading error stated, taken as known (ν = ∞). A wave the model lacks (a second one, say) counts as scatter: intervals
then come out too wide rather than too narrow.
Even azimuths: standard error of c, s and amplitude scatter·√(2/n), of the mean scatter/√n, of the phase √(2/n)·scatter/A.

Amplitude A = √(c² + s²) and phase ψ_g = atan2(s, c) carry errors to first order (Var A = (c²Vcc + 2csVcs + s²Vss)/A²,
Var ψ_g = (s²Vcc − 2csVcs + c²Vss)/A⁴): good while A is several times its error. Whether there is a wave at all is
judged by the two coefficients together, F = ½ (c, s) V⁻¹ (c, s)ᵀ, P(F > x) = (1 + 2x/ν)^(−ν/2), at 5 %.

Sources: ISO/IEC Guide 98-3 (GUM, JCGM 100:2008), 5.1.2 and H.3 (from memory).
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from ..conventions import HALF_TURN, TURN, wrap_turn
from ..faults import Fault, Refused, refuse
from . import misfits
from .readings import Reading
from .squares import Row, UndeterminedError, least_squares
from .student import two_sided

CONFIDENCE = 0.95
_SAME_PLACE = math.radians(0.01)
# Residuals below this share of the greatest reading are rounding, not scatter.
_ROUNDING = 1e-12
_LARGEST_ERROR = math.radians(10.0)


@dataclass(frozen=True, slots=True)
class Estimate:
    """A value, its standard error and its 95 % interval, rad."""

    value: float
    error: float
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class Fit:
    """A wave fitted to readings; radians throughout.

    coefficients: mean, c, s (then c₂, s₂); covariance: theirs. scatter: standard deviation of one reading; whether it
    comes from the residuals says `from_residuals`, otherwise it is the reading error stated. freedom: n − p.
    studentised: each residual over its own standard error, judged by the other readings; None where nothing can be
    said. misfits: readings (counted from 0) that stand out; they are pointed out and stay in the fit.
    """

    readings: tuple[Reading, ...]
    coefficients: Row
    covariance: tuple[Row, ...]
    residuals: Row
    leverage: Row
    studentised: tuple[float | None, ...]
    misfits: tuple[int, ...]
    scatter: float
    from_residuals: bool
    freedom: int

    @property
    def second(self) -> bool:
        """Whether a second wave was fitted too."""
        return len(self.coefficients) == 5

    @property
    def factor(self) -> float:
        """Half-width of a 95 % interval in standard errors."""
        return _factor(self)

    def _estimate(self, value: float, variance: float) -> Estimate:
        error = math.sqrt(max(variance, 0.0))
        return Estimate(value, error, value - self.factor * error, value + self.factor * error)

    def coefficient(self, number: int) -> Estimate:
        """Coefficient 0 mean, 1 cosine, 2 sine, 3 and 4 cosine and sine of the second wave."""
        return self._estimate(self.coefficients[number], self.covariance[number][number])

    @property
    def mean(self) -> Estimate:
        """Mean pitch."""
        return self.coefficient(0)

    @property
    def amplitude(self) -> Estimate:
        """Amplitude of the first wave. At amplitude 0 the error is the mean of those of c and s."""
        return self._amplitude(1)

    @property
    def second_amplitude(self) -> Estimate | None:
        """Amplitude of the second wave, when it was fitted."""
        return self._amplitude(3) if self.second else None

    def _amplitude(self, first: int) -> Estimate:
        c, s = self.coefficients[first], self.coefficients[first + 1]
        vcc, vcs, vss = self._block(first)
        size = math.hypot(c, s)
        if size == 0.0:
            return self._estimate(0.0, 0.5 * (vcc + vss))
        c, s = c / size, s / size
        return self._estimate(size, c * c * vcc + 2.0 * c * s * vcs + s * s * vss)

    def _block(self, first: int) -> tuple[float, float, float]:
        v = self.covariance
        return v[first][first], v[first][first + 1], v[first + 1][first + 1]

    @property
    def greatest_azimuth(self) -> float:
        """Best azimuth of greatest pitch, [0, 2π); means nothing while `phase_known` is false."""
        return wrap_turn(math.atan2(self.coefficients[2], self.coefficients[1]))

    @property
    def least_azimuth(self) -> float:
        """Azimuth of least pitch: half a turn from the greatest."""
        return wrap_turn(self.greatest_azimuth + HALF_TURN)

    @property
    def wave_by_chance(self) -> float:
        """Chance that scatter alone makes a wave this large (F test on c and s together)."""
        c, s = self.coefficients[1], self.coefficients[2]
        vcc, vcs, vss = self._block(1)
        if max(math.hypot(c, s), self.scatter) <= _rounding(self.readings):
            return 1.0
        pivot = vss - vcs * vcs / vcc if vcc > 0.0 else 0.0
        if pivot <= 0.0:
            return 0.0
        # ½ (c, s) V⁻¹ (c, s)ᵀ by completing the square.
        f = 0.5 * (c * c / vcc + (s - vcs * c / vcc) ** 2 / pivot)
        if not self.from_residuals:
            return math.exp(-f)
        return math.exp(-0.5 * self.freedom * math.log1p(2.0 * f / self.freedom))

    @property
    def phase_known(self) -> bool:
        """Whether the wave is clearly there (5 %), so that it has a place."""
        return self.wave_by_chance < 1.0 - CONFIDENCE

    @property
    def greatest(self) -> Estimate | None:
        """Azimuth of greatest pitch, [0, 2π), its interval around it unreduced; None while `phase_known` is false."""
        if not self.phase_known:
            return None
        c, s = self.coefficients[1], self.coefficients[2]
        vcc, vcs, vss = self._block(1)
        size = math.hypot(c, s)
        across = (s * s * vcc - 2.0 * c * s * vcs + c * c * vss) / size**2
        return self._estimate(self.greatest_azimuth, across / size**2)

    @property
    def correlation(self) -> tuple[Row, ...]:
        """Correlations between the coefficients; all 0 off the diagonal for even azimuths."""
        spread = [math.sqrt(row[i]) for i, row in enumerate(self.covariance)]
        if min(spread) == 0.0:
            return tuple(tuple(float(i == j) for j in range(len(spread))) for i in range(len(spread)))
        return tuple(
            tuple(v / (spread[i] * spread[j]) for j, v in enumerate(row)) for i, row in enumerate(self.covariance)
        )

    def at(self, azimuth: float) -> float:
        """The fitted pitch at an azimuth."""
        return sum(b * x for b, x in zip(self.coefficients, _row(azimuth, self.second), strict=True))


def _factor(fit: Fit) -> float:
    return two_sided(float(fit.freedom) if fit.from_residuals else math.inf, CONFIDENCE)


def _row(azimuth: float, second: bool) -> Row:
    first = (1.0, math.cos(azimuth), math.sin(azimuth))
    return (*first, math.cos(2.0 * azimuth), math.sin(2.0 * azimuth)) if second else first


def _rounding(readings: Sequence[Reading]) -> float:
    return _ROUNDING * max(abs(r.angle) for r in readings)


def different_azimuths(readings: Sequence[Reading]) -> int:
    """How many places round the turn were read; readings within 0.01° of each other are one place."""
    places = sorted(wrap_turn(r.azimuth) for r in readings)
    if not places:
        return 0
    gaps = sum(b - a > _SAME_PLACE for a, b in pairwise(places))
    closes = places[0] + TURN - places[-1] > _SAME_PLACE
    return max(1, gaps + closes)


def _too_few(places: int, second: bool) -> Fault | None:
    if second and places == 4:
        return Fault(
            "readings",
            "Readings: four azimuths can't tell a second wave: spaced evenly, one half of it reads nothing at all four. "
            "Read at five different azimuths or more, or fit one wave only.",
        )
    wanted, what = (5, "a mean and two waves") if second else (3, "a mean and a wave")
    if places >= wanted:
        return None
    stand = "no azimuth" if places == 0 else "1 azimuth" if places == 1 else f"{places} different azimuths"
    return Fault("readings", f"Readings: {stand} can't show {what}; read at {wanted} different azimuths or more.")


def _check(readings: Sequence[Reading], second: bool, reading_error: float | None) -> None:
    faults = []
    few = _too_few(different_azimuths(readings), second)
    if few:
        faults.append(few)
    left = len(readings) - (5 if second else 3)
    if reading_error is None and left < 2 and not few:
        faults.append(
            Fault(
                "reading_error",
                f"Reading error: {len(readings)} readings leave too little to judge the scatter by; say how well one "
                f"reading is known, or take {2 - left} more.",
            )
        )
    if reading_error is not None and not 0.0 < reading_error <= _LARGEST_ERROR:
        faults.append(
            Fault(
                "reading_error", f"Reading error: {math.degrees(reading_error):.6g}° is not above 0° and at most 10°."
            )
        )
    if faults:
        raise Refused(faults)


def harmonic_fit(readings: Sequence[Reading], second: bool = False, reading_error: float | None = None) -> Fit:
    """Fit a mean and a wave (two waves with `second`) to readings.

    reading_error: standard deviation of one reading, rad; used when fewer than two readings are to spare, and a
    residual no larger than it is never called a misfit. Refuses fewer than 3 (5) different azimuths, azimuths too
    close together to tell the coefficients apart, and no way to know the scatter.
    """
    _check(readings, second, reading_error)
    design = [_row(r.azimuth, second) for r in readings]
    try:
        solved = least_squares(design, [r.angle for r in readings])
    except UndeterminedError:
        raise refuse(
            "readings", "Readings: the azimuths stand too close together to show a wave; spread them round the turn."
        ) from None
    from_residuals = solved.freedom >= 2
    scatter = solved.scatter if from_residuals else reading_error
    assert scatter is not None  # refused above
    studentised = misfits.studentised(solved.residuals, solved.leverage, solved.freedom, _rounding(readings))
    return Fit(
        readings=tuple(readings),
        coefficients=solved.coefficients,
        covariance=tuple(tuple(scatter**2 * v for v in row) for row in solved.unit_covariance),
        residuals=solved.residuals,
        leverage=solved.leverage,
        studentised=studentised,
        misfits=misfits.misfits(studentised, solved.residuals, solved.freedom, reading_error or 0.0),
        scatter=scatter,
        from_residuals=from_residuals,
        freedom=solved.freedom,
    )


@dataclass(frozen=True, slots=True)
class Planned:
    """Standard errors (rad) that `readings` even readings would give; `greatest` None without a clear wave."""

    readings: int
    mean: float
    amplitude: float
    greatest: float | None


def more_readings(fit: Fit, readings: int) -> Planned:
    """What `readings` even readings of the same scatter would give: s/√n, s√(2/n), s√(2/n)/A."""
    least = len(fit.coefficients)
    if not least <= readings <= 1000:
        raise refuse("planned", f"Number of readings: {readings} is outside {least} to 1000.")
    wave = fit.scatter * math.sqrt(2.0 / readings)
    size = math.hypot(fit.coefficients[1], fit.coefficients[2])
    return Planned(readings, fit.scatter / math.sqrt(readings), wave, wave / size if fit.phase_known else None)
