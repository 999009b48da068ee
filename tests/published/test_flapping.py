"""Lag, gain, coning and Lock number of a rigid flapping blade in the hover.

Equation: β″ + M_β̇ β′ + (ν² + tan δ3 M_θ) β = M_θ θ. Parents: W. Johnson, Helicopter Theory, ch. 5;
J.G. Leishman, Principles of Helicopter Aerodynamics, ch. 4 (both from memory). The figures were
re-derived outside this project; each is checked to the last digit printed.
"""

import math
from dataclasses import replace

import pytest
from rotorhead.blade.flap import (
    flap_damping,
    flap_frequency_squared,
    flap_gain,
    inflow_moment,
    lag_angle,
    pitch_moment,
)
from rotorhead.blade.phase import budget_of
from rotorhead.head import demonstration
from rotorhead.mechanism.links import horn_angle
from rotorhead.rotor import Rotor, of_head


def tangent(degrees: float) -> float:
    """tan of an angle in degrees."""
    return math.tan(math.radians(degrees))


# id, γ, e, ν² (None: uniform blade, no spring), δ3 in degrees -> lag in degrees, gain, tolerance.
LAGS = [
    pytest.param(8, 0.0, 1.0, 0, 90.0, 1.0, 1e-9, id="B1-central-hinge"),
    pytest.param(3, 0.0, 1.0, 0, 90.0, 1.0, 1e-9, id="B1-any-lock-number"),
    pytest.param(8, 0.0, 1.0, 30, 60.0, math.cos(math.radians(30)), 1e-9, id="B2-delta3-30"),
    pytest.param(8, 0.0, 1.0, 45, 45.0, math.cos(math.radians(45)), 1e-9, id="B3-delta3-45"),
    pytest.param(8, 0.05, None, 0, 84.8248, 1.06639, 1e-4, id="B4-offset-0.05"),
    pytest.param(8, 0.04, None, 0, 86.0122, 1.05336, 1e-4, id="B5-offset-0.04"),
    pytest.param(8, 0.04, None, 20, 65.5802, 0.96146, 1e-4, id="B5c-offset-0.04-delta3-20"),
    pytest.param(8, 0.0, 1.10**2, 0, 78.1402, 0.97865, 1e-4, id="B7-spring-1.10"),
    pytest.param(8, 0.0, 1.12**2, 0, 75.7267, 0.96913, 1e-4, id="B8-spring-1.12"),
    pytest.param(8, 0.0, 1.15**2, 0, 72.1255, 0.95173, 1e-4, id="B10-spring-1.15"),
]


@pytest.mark.parametrize(("gamma", "e", "nu2", "delta3", "lag", "gain", "tolerance"), LAGS)
def test_lag_and_gain(
    gamma: float, e: float, nu2: float | None, delta3: float, lag: float, gain: float, tolerance: float
) -> None:
    """Re-derived; B1 also in every textbook (from memory). B2, B3: φ = 90° − δ3, gain = cos δ3."""
    stiffness = flap_frequency_squared(e) if nu2 is None else nu2
    assert math.degrees(lag_angle(gamma, e, stiffness, tangent(delta3))) == pytest.approx(lag, abs=tolerance)
    assert flap_gain(gamma, e, stiffness, tangent(delta3)) == pytest.approx(gain, abs=min(tolerance, 5e-6))


def test_printed_gains_of_the_delta3_cases() -> None:
    """B2 0.866025 and B3 0.707107 as printed (re-derived)."""
    assert flap_gain(8, 0, 1, tangent(30)) == pytest.approx(0.866025, abs=5e-7)
    assert flap_gain(8, 0, 1, tangent(45)) == pytest.approx(0.707107, abs=5e-7)


def test_moments_of_the_offset_blade() -> None:
    """B4 (re-derived): ν 1.03872, M_θ 0.93334, M_β̇ 0.87166 at γ = 8, e = 0.05."""
    assert math.sqrt(flap_frequency_squared(0.05)) == pytest.approx(1.03872, abs=5e-6)
    assert pitch_moment(8, 0.05) == pytest.approx(0.93334, abs=5e-6)
    assert flap_damping(8, 0.05) == pytest.approx(0.87166, abs=5e-6)


def test_stiffness_number() -> None:
    """B8 (re-derived): S = 8(ν² − 1)/γ = 0.2544, φ = 90° − atan S."""
    stiffness = 8.0 * (1.12**2 - 1.0) / 8.0
    assert stiffness == pytest.approx(0.2544, abs=5e-5)
    assert lag_angle(8, 0, 1.12**2) == pytest.approx(math.pi / 2.0 - math.atan(stiffness), rel=1e-12)


def test_a_spring_raises_the_frequency_it_is_declared_to() -> None:
    """B7 (re-derived): ν² = 1 + K/(I Ω²), so K = 0.21 I Ω² makes ν = 1.10."""
    inertia, speed = 1400.0, 30.0
    nu2 = flap_frequency_squared(0.0, 0.21 * inertia * speed**2, inertia, speed)
    assert math.sqrt(nu2) == pytest.approx(1.10, rel=1e-12)


def test_delta3_that_takes_the_spring_out() -> None:
    """B11 (re-derived): at ν = 1.15, γ = 8 a δ3 of −17.8745° brings the lag back to 90°."""
    assert math.degrees(lag_angle(8, 0, 1.15**2, tangent(-17.8745))) == pytest.approx(90.0, abs=1e-4)


# A blade of 1400 kg·m² about a central hinge, 7 m long, 0.4 m wide: B16.
LONG_BLADE = replace(
    of_head(demonstration("birch2")), radius=7.0, chord=0.4, lift_slope=5.7, hinge_offset=0.0, blade_mass=3 * 1400 / 49
)


@pytest.mark.parametrize(
    ("density", "expected", "tolerance"),
    [(1.225, 4.789995, 1e-6), (1.0556, 4.12761, 5e-6)],
    ids=["sea-level", "5000ft"],
)
def test_lock_number(density: float, expected: float, tolerance: float) -> None:
    """B16 (re-derived)."""
    assert LONG_BLADE.flap_inertia == pytest.approx(1400.0, rel=1e-12)
    assert LONG_BLADE.lock_number(density) == pytest.approx(expected, abs=tolerance)


def test_lock_number_of_a_uniform_blade_both_ways() -> None:
    """B16 (re-derived): 8 kg/m, I = m R³/3 = 914.6667 kg·m², γ = 3 ρ a c R/m = 7.331625."""
    blade = replace(LONG_BLADE, blade_mass=8.0 * 7.0)
    assert blade.flap_inertia == pytest.approx(914.6667, abs=5e-5)
    assert blade.lock_number(1.225) == pytest.approx(3.0 * 1.225 * 5.7 * 0.4 * 7.0 / 8.0, rel=1e-9)
    assert blade.lock_number(1.225) == pytest.approx(7.331625, abs=5e-7)


@pytest.mark.parametrize(("nu", "degrees"), [(1.0, 4.18028), (1.03, 3.94032), (1.12, 3.33249)])
def test_coning_of_an_untwisted_blade_in_uniform_inflow(nu: float, degrees: float) -> None:
    """B17 (re-derived): β0 = (γ/8)(θ0 − 4λ/3)/ν² at γ = 8, θ0 = 8°, λ = 0.05."""
    lift = pitch_moment(8, 0) * math.radians(8.0) - inflow_moment(8, 0) * 0.05
    assert math.degrees(lift / nu**2) == pytest.approx(degrees, abs=1e-5)


def horn(arm: float, outboard: float) -> Rotor:
    """A riding horn on a vertical link, `outboard` of a flap hinge 0.2 m from the mast (m)."""
    station = 0.2 + outboard
    return replace(
        of_head(demonstration("dogwood5")), radius=5.0, hinge_offset=0.04, arm=arm, horn_station=station,
        link_foot_out=station, link_foot_ahead=arm, link=0.4, horn_rides=True,
    )  # fmt: skip


HORNS = [
    pytest.param(0.150, 0.040, 14.9314, id="leading-outboard"),
    pytest.param(0.150, -0.040, -14.9314, id="leading-inboard"),
    pytest.param(-0.150, 0.040, -14.9314, id="trailing-outboard"),
    pytest.param(-0.150, -0.040, 14.9314, id="trailing-inboard"),
]


@pytest.mark.parametrize(("arm", "outboard", "degrees"), HORNS)
def test_delta3_from_the_horn(arm: float, outboard: float, degrees: float) -> None:
    """B19 (re-derived): tan δ3 = (horn station − hinge)/arm, all signed."""
    assert math.degrees(math.atan(horn(arm, outboard).tan_delta3)) == pytest.approx(degrees, abs=5e-5)


@pytest.mark.parametrize(("arm", "outboard", "degrees"), HORNS)
def test_the_exact_link_takes_off_the_pitch_that_delta3_says(arm: float, outboard: float, degrees: float) -> None:
    """B19 against the closed link itself: Δθ = −tan δ3 β for a small flap, and the sign of each case."""
    rotor = horn(arm, outboard)
    foot = (rotor.link_foot_out, rotor.link_foot_ahead, -rotor.link_rise)
    beta = 1e-5
    slope = (horn_angle(rotor, foot, beta) - horn_angle(rotor, foot, -beta)) / (2.0 * beta)
    assert math.degrees(math.atan(-slope)) == pytest.approx(degrees, abs=1e-4)


def test_cross_coupling_of_a_misphased_linkage() -> None:
    """B20 (re-derived): phased for 90°, actual lag 78° -> off-axis over on-axis = tan 12° = 0.212557."""
    budget = replace(budget_of(LONG_BLADE), needed=math.radians(78.0), fitted=math.radians(90.0))
    assert budget.off_axis is not None
    assert abs(budget.off_axis) == pytest.approx(0.212557, abs=5e-7)
