"""The fit against general-purpose libraries: numpy's least squares, statsmodels' regression, scipy's Student t."""

import math

import numpy as np
import pytest
import scipy.special
import scipy.stats
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray
from rotorhead.conventions import TURN, wrap
from rotorhead.faults import Refused
from rotorhead.measure import student
from rotorhead.measure.agree import agreement, sentence
from rotorhead.measure.fit import Fit, different_azimuths, harmonic_fit, more_readings
from rotorhead.measure.readings import Reading
from rotorhead.measure.squares import UndeterminedError, least_squares
from statsmodels.regression.linear_model import OLS

MANY = settings(max_examples=80, deadline=None, database=None, derandomize=True)
FREEDOMS = [1, 2, 3, 4, 5, 7, 9, 21, 33, 69, 500, 10_000]

WHOLE_DEGREES = st.lists(st.integers(0, 359), min_size=8, max_size=40)
SEEDS = st.integers(0, 2**32 - 1)


def design_of(degrees: list[int], second: bool) -> NDArray[np.float64]:
    """The design matrix, written out afresh."""
    psi = np.radians(np.array(degrees, dtype=float))
    columns = [np.ones_like(psi), np.cos(psi), np.sin(psi)]
    if second:
        columns += [np.cos(2 * psi), np.sin(2 * psi)]
    return np.column_stack(columns)


def noisy(degrees: list[int], seed: int, scatter: float = 0.01) -> list[float]:
    """A wave of 0.1 rad on 0.14 rad with normal scatter."""
    psi = np.radians(np.array(degrees, dtype=float))
    wave = 0.14 + 0.1 * np.cos(psi - 1.0) + np.random.default_rng(seed).normal(0.0, scatter, psi.size)
    return [float(v) for v in wave]


def fitted(degrees: list[int], values: list[float], second: bool = False, error: float | None = None) -> Fit:
    """Fit to readings at whole degrees."""
    return harmonic_fit([Reading(math.radians(d), v) for d, v in zip(degrees, values, strict=True)], second, error)


@pytest.mark.parametrize("freedom", FREEDOMS)
def test_students_t_against_scipy(freedom: int) -> None:
    """Chances to 1e-11, points to 1e-10 of their value, for tails down to 1e-9."""
    for t in (0.0, 1e-4, 0.01, 0.5, 1.0, 2.0, 4.3, 12.7, 60.0, 1e4):
        for signed in (t, -t):
            assert student.cdf(signed, freedom) == pytest.approx(float(scipy.stats.t.cdf(signed, freedom)), abs=1e-11)
        assert student.upper_tail(t, freedom) == pytest.approx(
            float(scipy.stats.t.sf(t, freedom)), rel=1e-9, abs=1e-300
        )
    for tail in (0.5, 0.4, 0.1, 0.025, 0.005, 0.025 / 72, 1e-6, 1e-9):
        exact = float(scipy.stats.t.isf(tail, freedom))
        assert student.upper_point(tail, freedom) == pytest.approx(exact, rel=1e-10, abs=1e-12)
    for chance in (0.001, 0.3, 0.7, 0.975):
        assert student.quantile(chance, freedom) == pytest.approx(float(scipy.stats.t.ppf(chance, freedom)), rel=1e-9)


@pytest.mark.parametrize("t", [1e-12, 1e-9, 1e-6, 0.1, 1.0, 30.0, 1e9])
def test_students_t_in_closed_form(t: float) -> None:
    """ν = 1: ½ + atan(t)/π; ν = 2: ½ + t/(2√(2 + t²)) (from memory; scipy is coarser than this near 0)."""
    assert student.cdf(t, 1.0) == pytest.approx(0.5 + math.atan(t) / math.pi, abs=1e-15)
    assert student.cdf(t, 2.0) == pytest.approx(0.5 + 0.5 * t / math.sqrt(2.0 + t * t), abs=1e-15)


def test_infinite_freedom_is_the_normal_curve() -> None:
    """scipy.stats.norm; 1.959964 at 95 %."""
    for tail in (0.4, 0.025, 1e-4, 1e-9):
        assert student.upper_point(tail, math.inf) == pytest.approx(float(scipy.stats.norm.isf(tail)), rel=1e-12)
    assert student.two_sided(math.inf) == pytest.approx(1.959964, abs=5e-7)
    assert student.two_sided(10_000.0) == pytest.approx(student.two_sided(math.inf), rel=2e-4)


@MANY
@given(a=st.floats(0.5, 60.0), b=st.floats(0.5, 60.0), x=st.floats(0.0, 1.0))
def test_incomplete_beta_against_scipy(a: float, b: float, x: float) -> None:
    """scipy.special.betainc."""
    assert student.incomplete_beta(a, b, x) == pytest.approx(float(scipy.special.betainc(a, b, x)), abs=1e-12)


def test_students_t_outside_its_range() -> None:
    """Refused, not guessed; the far ends of the line are 0 and 1."""
    for freedom in (0.0, -1.0, 0.4, 1e5, math.nan):
        with pytest.raises(ValueError, match="degrees of freedom"):
            student.upper_tail(1.0, freedom)
    for tail in (0.0, 1.0, -0.1, math.nan):
        with pytest.raises(ValueError, match="chance"):
            student.upper_point(tail, 3.0)
    assert student.cdf(math.inf, 3.0) == 1.0
    assert student.cdf(-math.inf, 3.0) == 0.0
    assert student.upper_tail(1e200, 1.0) == pytest.approx(1.0 / (math.pi * 1e200), rel=1e-9)


@MANY
@given(degrees=WHOLE_DEGREES, seed=SEEDS, second=st.booleans())
def test_coefficients_against_numpy(degrees: list[int], seed: int, second: bool) -> None:
    """numpy.linalg.lstsq, pinv and cond on any azimuths; leverages add up to the number of coefficients."""
    design = design_of(degrees, second)
    assume(len(set(degrees)) >= design.shape[1])
    condition = float(np.linalg.cond(design))
    assume(condition < 1e4)
    values = noisy(degrees, seed)
    fit = fitted(degrees, values, second)
    known, *_ = np.linalg.lstsq(design, np.array(values), rcond=None)
    assert fit.coefficients == pytest.approx(known.tolist(), abs=1e-14 * condition)
    assert fit.residuals == pytest.approx((np.array(values) - design @ known).tolist(), abs=1e-14 * condition)
    assert math.fsum(fit.leverage) == pytest.approx(design.shape[1], abs=1e-9)
    hat = np.diag(design @ np.linalg.pinv(design))
    assert fit.leverage == pytest.approx(hat.tolist(), abs=1e-12 * condition)
    for degree, value, left in zip(degrees, values, fit.residuals, strict=True):
        assert fit.at(math.radians(degree)) == pytest.approx(value - left, abs=1e-9)


@MANY
@given(degrees=WHOLE_DEGREES, seed=SEEDS, second=st.booleans())
def test_errors_and_intervals_against_statsmodels(degrees: list[int], seed: int, second: bool) -> None:
    """OLS: covariance, bse, 95 % intervals by t, and externally studentised residuals."""
    design = design_of(degrees, second)
    assume(len(set(degrees)) >= design.shape[1])
    assume(float(np.linalg.cond(design)) < 300.0)
    # A reading alone in telling a coefficient leaves statsmodels without an answer; see the next test.
    assume(float(np.max(np.diag(design @ np.linalg.pinv(design)))) < 0.999)
    values = noisy(degrees, seed)
    fit = fitted(degrees, values, second)
    reference = OLS(np.array(values), design).fit()
    assert fit.from_residuals
    assert fit.freedom == reference.df_resid
    assert fit.scatter == pytest.approx(math.sqrt(reference.scale), rel=1e-9)
    covariance = np.asarray(reference.cov_params())
    assert np.asarray(fit.covariance) == pytest.approx(covariance, rel=1e-7, abs=1e-9 * float(np.max(covariance)))
    intervals = np.asarray(reference.conf_int(0.05))
    for number in range(design.shape[1]):
        mine = fit.coefficient(number)
        assert mine.error == pytest.approx(float(reference.bse[number]), rel=1e-8)
        assert (mine.low, mine.high) == pytest.approx(intervals[number].tolist(), abs=1e-8 * mine.error + 1e-12)
    studentised = reference.get_influence().resid_studentized_external
    for mine_t, known_t in zip(fit.studentised, studentised, strict=True):
        assert mine_t == pytest.approx(float(known_t), rel=1e-6, abs=1e-8)
    scale = np.sqrt(np.diag(covariance))
    assert np.asarray(fit.correlation) == pytest.approx(covariance / np.outer(scale, scale), abs=1e-8)
    together = float(reference.f_test(np.eye(design.shape[1])[1:3]).pvalue)
    assert fit.wave_by_chance == pytest.approx(together, rel=1e-6, abs=1e-15)


def test_a_reading_that_fits_itself_can_not_be_judged() -> None:
    """Alone at its azimuth among repeats at two others: leverage 1, residual 0, no studentised residual."""
    degrees = [0, 0, 0, 120, 120, 120, 240]
    fit = fitted(degrees, noisy(degrees, 3))
    assert fit.leverage[-1] == pytest.approx(1.0, abs=1e-12)
    assert fit.residuals[-1] == pytest.approx(0.0, abs=1e-12)
    assert [t is None for t in fit.studentised] == [False] * 6 + [True]


@MANY
@given(degrees=WHOLE_DEGREES, seed=SEEDS)
def test_amplitude_and_phase_errors_are_first_order(degrees: list[int], seed: int) -> None:
    """The delta method done by numpy with numerical derivatives of hypot and atan2."""
    assume(float(np.linalg.cond(design_of(degrees, False))) < 30.0)
    fit = fitted(degrees, noisy(degrees, seed))
    assert fit.greatest is not None
    c, s = fit.coefficients[1:3]
    block = np.asarray(fit.covariance)[1:3, 1:3]
    h = 1e-6
    for function, error in ((math.hypot, fit.amplitude.error), (lambda x, y: math.atan2(y, x), fit.greatest.error)):
        slope = np.array(
            [(function(c + h, s) - function(c - h, s)) / 2 / h, (function(c, s + h) - function(c, s - h)) / 2 / h]
        )
        assert error == pytest.approx(math.sqrt(slope @ block @ slope), rel=1e-6)


@MANY
@given(
    degrees=st.lists(st.integers(0, 71), min_size=5, max_size=30, unique=True),
    wave=st.lists(st.floats(-0.2, 0.2), min_size=5, max_size=5),
    second=st.booleans(),
)
def test_noiseless_readings_come_back(degrees: list[int], wave: list[float], second: bool) -> None:
    """Any wave at any azimuths (5° apart or more): the same coefficients, whatever the conditioning, and no misfit."""
    degrees = [5 * d for d in degrees]
    if not second:
        wave = wave[:3]
    design = design_of(degrees, second)
    assume(float(np.linalg.cond(design)) < 1e4)
    values = (design @ np.array(wave)).tolist()
    fit = fitted(degrees, values, second, error=0.001)
    assert fit.coefficients == pytest.approx(wave, abs=1e-11)
    assert fit.misfits == ()
    if fit.from_residuals:
        assert fit.scatter < 1e-13


@pytest.mark.parametrize("count", [5, 6, 8, 12, 24, 36, 72])
def test_even_azimuths_have_closed_forms(count: int) -> None:
    """Mean, 2/n sums, errors s/√n and s√(2/n), no correlation, leverage 3/n (written out here)."""
    psi = [i * TURN / count for i in range(count)]
    values = [0.1 + 0.05 * math.cos(a - 2.0) + 0.002 * math.sin(7.3 * a * a) for a in psi]
    fit = harmonic_fit([Reading(a, v) for a, v in zip(psi, values, strict=True)])
    known = [
        sum(values) / count,
        2.0 / count * sum(v * math.cos(a) for a, v in zip(psi, values, strict=True)),
        2.0 / count * sum(v * math.sin(a) for a, v in zip(psi, values, strict=True)),
    ]
    assert fit.coefficients == pytest.approx(known, abs=1e-15)
    s = math.sqrt(sum(e * e for e in fit.residuals) / (count - 3))
    assert fit.mean.error == pytest.approx(s / math.sqrt(count), rel=1e-12)
    wave = s * math.sqrt(2.0 / count)
    assert [fit.coefficient(n).error for n in (1, 2)] == pytest.approx([wave, wave], rel=1e-12)
    assert fit.amplitude.error == pytest.approx(wave, rel=1e-12)
    assert fit.greatest is not None
    assert fit.greatest.error == pytest.approx(wave / fit.amplitude.value, rel=1e-12)
    assert np.asarray(fit.correlation) == pytest.approx(np.eye(3), abs=1e-12)
    assert fit.leverage == pytest.approx([3.0 / count] * count, abs=1e-12)
    assert more_readings(fit, count).greatest == pytest.approx(fit.greatest.error, rel=1e-12)


def test_a_planted_misfit_is_pointed_out_and_kept() -> None:
    """A slip of 1° among readings good to 0.1°: that reading and no other, for 50 seeds; it stays in the fit."""
    degrees = list(range(0, 360, 30))
    for seed in range(50):
        values = noisy(degrees, seed, math.radians(0.1))
        values[seed % 12] += math.radians(1.0) * (1 if seed % 2 else -1)
        fit = fitted(degrees, values)
        assert fit.misfits == (seed % 12,)
        assert len(fit.readings) == len(fit.residuals) == 12
        # Still a fit to all twelve: numpy's, slip included.
        known, *_ = np.linalg.lstsq(design_of(degrees, False), np.array(values), rcond=None)
        assert fit.coefficients == pytest.approx(known.tolist(), abs=1e-13)


@pytest.mark.parametrize("degrees", [list(range(0, 360, 30)), [0, 5, 10, 20, 90, 95, 180, 300]], ids=["even", "uneven"])
def test_clean_readings_are_seldom_called_misfits(degrees: list[int]) -> None:
    """Bonferroni holds the chance of any false alarm to 5 %: of 2,000 seeds 3.4 to 6.5 % (3 standard errors, and
    what the bound gives away)."""
    alarms = sum(bool(fitted(degrees, noisy(degrees, seed)).misfits) for seed in range(2000))
    assert 0.034 <= alarms / 2000 <= 0.065


def test_a_residual_within_the_reading_error_is_no_misfit() -> None:
    """Readings rounded to 0.1° that otherwise repeat exactly: one step of the display isn't a slip."""
    degrees = [0, 45, 90, 135, 180, 225, 270, 315]
    values = [0.1] * 8
    values[3] += math.radians(0.1)
    assert fitted(degrees, values).misfits == (3,)
    assert fitted(degrees, values).studentised[3] == math.inf
    assert fitted(degrees, values, error=math.radians(0.1)).misfits == ()


def test_the_phase_of_no_wave_is_not_stated() -> None:
    """Pure scatter is taken for a wave in about 5 % of 2,000 seeds (F test): 3.5 to 6.5 %, three standard errors."""
    degrees = list(range(0, 360, 45))
    found = 0
    for seed in range(2000):
        values = [float(v) for v in np.random.default_rng(seed).normal(0.1, 0.01, 8)]
        fit = fitted(degrees, values)
        assert (fit.greatest is None) == (not fit.phase_known)
        assert (more_readings(fit, 20).greatest is None) == (not fit.phase_known)
        found += fit.phase_known
    assert 0.035 <= found / 2000 <= 0.065


def test_the_phase_of_a_level_plate() -> None:
    """All readings alike, to the last bit: no wave, amplitude 0, no phase, no misfits, finite errors."""
    fit = fitted(list(range(0, 360, 45)), [0.1] * 8)
    assert fit.amplitude.value == pytest.approx(0.0, abs=1e-15)
    assert fit.greatest is None
    assert fit.misfits == ()
    assert set(fit.studentised) == {None}
    zero = fitted([0, 90, 180, 270], [0.0] * 4, error=0.01)
    assert zero.amplitude.value == 0.0
    assert zero.amplitude.error == pytest.approx(0.01 * math.sqrt(0.5), rel=1e-12)
    assert not zero.phase_known


@MANY
@given(degrees=WHOLE_DEGREES, seed=SEEDS, turn=st.integers(-360, 360))
def test_turning_the_azimuths_turns_the_phase_only(degrees: list[int], seed: int, turn: int) -> None:
    """Counting azimuth from elsewhere moves the place and leaves amplitude and all errors."""
    assume(float(np.linalg.cond(design_of(degrees, False))) < 30.0)
    values = noisy(degrees, seed)
    here, there = fitted(degrees, values), fitted([d + turn for d in degrees], values)
    assert here.greatest is not None
    assert there.greatest is not None
    assert wrap(there.greatest.value - here.greatest.value - math.radians(turn)) == pytest.approx(0.0, abs=1e-9)
    assert there.greatest.error == pytest.approx(here.greatest.error, rel=1e-8)
    assert there.amplitude.value == pytest.approx(here.amplitude.value, rel=1e-9)
    assert there.amplitude.error == pytest.approx(here.amplitude.error, rel=1e-8)
    assert there.mean.value == pytest.approx(here.mean.value, abs=1e-10)


def test_repeats_and_whole_turns_are_one_place() -> None:
    """0°, 360° and −360° are one azimuth; 359.995° is too."""
    readings = [Reading(math.radians(d), 0.1) for d in (0.0, 360.0, -360.0, 359.995, 90.0)]
    assert different_azimuths(readings) == 2
    assert different_azimuths([]) == 0
    assert different_azimuths([Reading(math.radians(d), 0.1) for d in range(0, 360, 5)]) == 72


REFUSED = [
    ([], False, 0.01, "no azimuth can't show a mean and a wave; read at 3 different"),
    ([10, 10, 370], False, 0.01, "1 azimuth can't show"),
    ([0, 90, 360, 450], False, 0.01, "2 different azimuths can't show"),
    ([0, 120, 240], True, 0.01, "3 different azimuths can't show a mean and two waves; read at 5"),
    ([0, 90, 180, 270, 0, 90], True, 0.01, "four azimuths can't tell a second wave"),
    ([0, 90, 180], False, None, "3 readings leave too little to judge the scatter by; .* take 2 more"),
    ([0, 90, 180, 270], False, None, "take 1 more"),
    ([0, 90, 180, 270], False, 0.0, "0° is not above 0° and at most 10°"),
    ([0, 90, 180, 270], False, math.nan, "is not above 0°"),
    ([0, 90, 180, 270], False, -0.01, "is not above 0°"),
]


@pytest.mark.parametrize(("degrees", "second", "error", "words"), REFUSED)
def test_refused(degrees: list[int], second: bool, error: float | None, words: str) -> None:
    """Sentences that say what is missing and what would do."""
    with pytest.raises(Refused, match=words):
        fitted(degrees, [0.1 + 0.01 * i for i in range(len(degrees))], second, error)


def test_azimuths_too_close_together() -> None:
    """Three azimuths within 0.03°: different, yet they show no wave."""
    readings = [Reading(math.radians(0.011 * i), 0.1) for i in range(3)]
    with pytest.raises(Refused, match="too close together"):
        harmonic_fit(readings, reading_error=0.001)


def test_the_core_names_the_column_it_can_not_tell() -> None:
    """A column that repeats another; fewer readings than coefficients."""
    with pytest.raises(UndeterminedError) as caught:
        least_squares([[1.0, 2.0, 2.0], [1.0, 3.0, 3.0], [1.0, 5.0, 5.0]], [1.0, 2.0, 3.0])
    assert caught.value.column == 2
    with pytest.raises(UndeterminedError) as caught:
        least_squares([[1.0, 2.0]], [1.0])
    assert caught.value.column == 1
    assert least_squares([[1.0, 0.0], [1.0, 1.0]], [1.0, 3.0]).scatter is None


@pytest.mark.parametrize("count", [2, 0, -5, 1001])
def test_plans_have_limits(count: int) -> None:
    """Fewer readings than coefficients make no fit."""
    with pytest.raises(Refused, match=r"outside 3 to 1000\."):
        more_readings(fitted([0, 120, 240, 60, 180], [0.1, 0.2, 0.3, 0.1, 0.2]), count)


VERDICTS = [
    (0.0, "agree"),
    (1.99, "agree"),
    (2.01, "doubtful"),
    (2.99, "doubtful"),
    (3.01, "disagree"),
    (50.0, "disagree"),
]


@pytest.mark.parametrize(("size", "verdict"), VERDICTS)
@pytest.mark.parametrize("sign", [1.0, -1.0])
def test_verdicts(size: float, verdict: str, sign: float) -> None:
    """Two and three combined standard errors (common practice, no source); 3-4-5 for the combination."""
    found = agreement(0.2 + sign * size * 0.05, 0.03, 0.2, 0.04)
    assert found.verdict == verdict
    assert found.combined == pytest.approx(0.05, rel=1e-12)
    assert found.ratio == pytest.approx(size, abs=1e-9)
    assert found.difference == pytest.approx(sign * size * 0.05, abs=1e-12)
    words = sentence(found)
    assert {"agree": "They agree", "doubtful": "Doubtful", "disagree": "They disagree"}[verdict] in words
    assert words.endswith(".")


def test_verdicts_round_the_turn() -> None:
    """359° and 1° are 2° apart."""
    found = agreement(math.radians(359.0), math.radians(1.0), math.radians(1.0), 0.0, round_turn=True)
    assert math.degrees(found.difference) == pytest.approx(-2.0, abs=1e-9)
    assert "Measured is 2.0° less than computed, 2.0 times the standard error of 1.0°" in sentence(found)


def test_no_verdict_without_an_error() -> None:
    """Nothing to judge by, or nonsense: all faults at once."""
    with pytest.raises(Refused, match="with no error at all"):
        agreement(1.0, 0.0, 1.0, 0.0)
    with pytest.raises(Refused) as caught:
        agreement(1.0, -1.0, 1.0, math.nan)
    assert [fault.field for fault in caught.value.faults] == ["measured_error", "computed_error"]
