"""Waves fitted to readings against worked figures: E8, E9, H1 and the thermometer of the GUM (H4)."""

import math

import numpy as np
import pytest
from rotorhead.conventions import TURN
from rotorhead.measure.fit import Fit, harmonic_fit, more_readings
from rotorhead.measure.readings import Reading, pitch_along_chord, reading_along_chord
from rotorhead.measure.squares import least_squares
from rotorhead.measure.student import two_sided


def read(azimuths: list[float], angles: list[float]) -> list[Reading]:
    """Readings from degrees."""
    return [Reading(math.radians(a), math.radians(v)) for a, v in zip(azimuths, angles, strict=True)]


def test_four_azimuths() -> None:
    """E8 (re-derived): 10.2, 6.1, 5.8, 9.9° at 0, 90, 180, 270°, each good to 0.1°: mean 8.0, c 2.2, s −1.9,
    nothing left over; standard errors 0.05 and 0.0707107°."""
    fit = harmonic_fit(read([0, 90, 180, 270], [10.2, 6.1, 5.8, 9.9]), reading_error=math.radians(0.1))
    assert [math.degrees(b) for b in fit.coefficients] == pytest.approx([8.0, 2.2, -1.9], abs=1e-9)
    assert [math.degrees(e) for e in fit.residuals] == pytest.approx([0.0] * 4, abs=1e-9)
    assert not fit.from_residuals
    assert math.degrees(fit.mean.error) == pytest.approx(0.05, abs=1e-9)
    for number in (1, 2):
        assert math.degrees(fit.coefficient(number).error) == pytest.approx(0.0707107, abs=5e-8)
    assert math.degrees(fit.amplitude.error) == pytest.approx(0.0707107, abs=5e-8)
    # 1.959964: the normal curve's point for 95 %, any table.
    assert math.degrees(fit.mean.high - fit.mean.low) == pytest.approx(2 * 1.959964 * 0.05, abs=1e-7)


@pytest.mark.parametrize(("droop", "shown"), [(3.0, 9.986155), (5.0, 9.961558)])
def test_inclinometer_along_a_coned_blade(droop: float, shown: float) -> None:
    """E9 (re-derived): sin(read) = sin θ cos β for θ = 10°; repeated by turning vectors. Up or down is the same."""
    theta, beta = math.radians(10.0), math.radians(droop)
    assert math.degrees(reading_along_chord(theta, beta)) == pytest.approx(shown, abs=5e-7)
    assert math.degrees(pitch_along_chord(math.radians(shown), -beta)) == pytest.approx(10.0, abs=1e-6)
    # Chord turned about the span axis x by θ, then the blade raised about y by β.
    pitched = np.array([0.0, math.cos(theta), math.sin(theta)])
    raised = np.array([[math.cos(beta), 0, -math.sin(beta)], [0, 1, 0], [math.sin(beta), 0, math.cos(beta)]]) @ pitched
    assert math.degrees(math.asin(raised[2])) == pytest.approx(shown, abs=5e-7)


def thirty_six() -> Fit:
    """36 even readings in degrees: 8 + 3 cos(ψ − 40°), and a third wave sized so that the residual standard
    deviation Σe²/33 is exactly 0.5°."""
    third = 0.5 * math.sqrt(33.0 / 18.0)
    azimuths = [10.0 * i for i in range(36)]
    angles = [8.0 + 3.0 * math.cos(math.radians(a - 40.0)) + third * math.cos(math.radians(3.0 * a)) for a in azimuths]
    return harmonic_fit(read(azimuths, angles))


def test_thirty_six_even_readings() -> None:
    """H1 (re-derived; GUM 5.1.2): s = 0.5, n = 36: u(a) = 0.1178511, u(a0) = 0.0833333; A = 3: u(phase) = 2.25079°."""
    fit = thirty_six()
    assert math.degrees(fit.scatter) == pytest.approx(0.5, abs=1e-9)
    assert fit.freedom == 33
    assert math.degrees(fit.mean.error) == pytest.approx(0.0833333, abs=5e-8)
    assert math.degrees(fit.coefficient(1).error) == pytest.approx(0.1178511, abs=5e-8)
    assert math.degrees(fit.coefficient(2).error) == pytest.approx(0.1178511, abs=5e-8)
    assert math.degrees(fit.amplitude.value) == pytest.approx(3.0, abs=1e-9)
    assert fit.greatest is not None
    assert math.degrees(fit.greatest.value) == pytest.approx(40.0, abs=1e-9)
    assert math.degrees(fit.greatest.error) == pytest.approx(2.25079, abs=5e-6)
    assert fit.correlation[1][2] == pytest.approx(0.0, abs=1e-12)


def test_as_many_readings_again() -> None:
    """H1 (re-derived): the plan for 36 readings of that scatter is what 36 gave; four times as many halve it."""
    fit = thirty_six()
    same, more = more_readings(fit, 36), more_readings(fit, 144)
    assert math.degrees(same.amplitude) == pytest.approx(0.1178511, abs=5e-8)
    assert same.greatest is not None
    assert math.degrees(same.greatest) == pytest.approx(2.25079, abs=5e-6)
    assert more.greatest == pytest.approx(same.greatest / 2.0, rel=1e-12)
    assert more.mean == pytest.approx(same.mean / 2.0, rel=1e-12)


READ_AT = [21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.010, 26.511]
CORRECTION = [-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.160]


def test_thermometer_of_the_gum() -> None:
    """H4 (GUM JCGM 100:2008, H.3, data and results from memory, confirmed by the recomputed figures beside them):
    straight line of corrections over t − 20 °C through the same least squares that fit the waves."""
    solved = least_squares([[1.0, t - 20.0] for t in READ_AT], CORRECTION)
    scatter = solved.scatter
    assert scatter is not None
    (v11, v12), (_, v22) = [[scatter**2 * v for v in row] for row in solved.unit_covariance]
    y1, y2 = solved.coefficients
    # As printed in the GUM: −0.1712(29), 0.00218(67), r −0.930, s 0.0035.
    assert (round(y1, 4), round(math.sqrt(v11), 4)) == (-0.1712, 0.0029)
    assert (round(y2, 5), round(math.sqrt(v22), 5)) == (0.00218, 0.00067)
    assert round(v12 / math.sqrt(v11 * v22), 3) == -0.930
    assert round(scatter, 4) == 0.0035
    assert solved.freedom == 9
    # Recomputed outside this project, to the digits given there.
    assert y1 == pytest.approx(-0.171204, abs=5e-7)
    assert y2 == pytest.approx(0.0021827, abs=5e-8)
    assert math.sqrt(v11) == pytest.approx(0.002878, abs=5e-7)
    assert math.sqrt(v22) == pytest.approx(0.000668, abs=5e-7)
    assert v12 / math.sqrt(v11 * v22) == pytest.approx(-0.930430, abs=5e-7)
    at_30 = y1 + 10.0 * y2
    assert at_30 == pytest.approx(-0.149377, abs=5e-7)
    error = math.sqrt(v11 + 2 * 10.0 * v12 + 100.0 * v22)
    assert (round(at_30, 4), round(error, 4)) == (-0.1494, 0.0041)
    assert error == pytest.approx(0.004139, abs=5e-7)


# Student's t for 95 %, as in table G.2 of the GUM (from memory).
TABLE = [(1, 12.71), (2, 4.30), (3, 3.18), (4, 2.78), (5, 2.57), (6, 2.45), (8, 2.31), (9, 2.26), (10, 2.23),
         (20, 2.09), (50, 2.01), (100, 1.984), (math.inf, 1.960)]  # fmt: skip


@pytest.mark.parametrize(("freedom", "factor"), TABLE)
def test_table_of_students_t(freedom: float, factor: float) -> None:
    """H (GUM table G.2, from memory)."""
    places = 3 if freedom >= 100 else 2
    assert round(two_sided(freedom), places) == factor


def test_a_second_wave_needs_more_than_four_even_azimuths() -> None:
    """H (re-derived): at 0, 90, 180, 270° sin 2ψ is 0 throughout: the design has rank 4 of 5 (numpy)."""
    angles = [i * TURN / 4 for i in range(4)] * 2
    design = [[1, math.cos(a), math.sin(a), math.cos(2 * a), math.sin(2 * a)] for a in angles]
    assert np.linalg.matrix_rank(design, tol=1e-9) == 4
    with pytest.raises(ValueError, match="four azimuths can't tell a second wave"):
        harmonic_fit([Reading(a, 0.1) for a in angles], second=True)
