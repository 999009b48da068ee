"""Reversed flow, pressures and angles of attack over the disc.

D6: kinematics (any text; re-derived). The angles are checked against velocities differentiated numerically in space.
"""

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from rotorhead.faults import Refused
from rotorhead.flight.balance import balance, strip_balance
from rotorhead.flight.disc_map import advancing_tip_mach, angle_at, disc_map, pressure_ratio, reversed_circle
from rotorhead.flight.flapper import Flap, FlapBlade, Pitch
from rotorhead.flight.inflow import Stream
from rotorhead.flight.validity import STALL_ANGLE, flap_mark, loading_mark, stall_mark, tip_mach_mark, within

BLADE = FlapBlade(6.5, 1.1, 0.05, 0.3, math.radians(-9.0), 0.4, 0.15, 0.97, -0.004)
AIR = Stream(0.28, 0.03, 0.015, 0.9, -0.5)
PITCH = Pitch(math.radians(11.0), math.radians(2.0), math.radians(-6.0))


@pytest.mark.parametrize(
    ("x", "mu", "ratio"), [(1.0, 0.1, 1.493827), (1.0, 0.2, 2.25), (1.0, 0.3, 3.448980), (0.75, 0.3, 5.444444)]
)
def test_pressure_ratio(x: float, mu: float, ratio: float) -> None:
    """D6: ((x + μ)/(x − μ))²."""
    assert pressure_ratio(x, mu) == pytest.approx(ratio, abs=5e-7)


def test_no_pressure_ratio_inside_the_reversed_flow() -> None:
    """At x ≤ μ the blade meets the air from behind on the retreating side."""
    with pytest.raises(Refused, match="reversed flow"):
        pressure_ratio(0.3, 0.3)
    with pytest.raises(Refused, match="Advance ratio"):
        pressure_ratio(0.9, 0.5)


@settings(deadline=None)
@given(st.floats(0.05, 0.4), st.floats(0.0, 1.0), st.floats(0.0, 2.0 * math.pi))
def test_reversed_circle(mu: float, x: float, psi: float) -> None:
    """D6: diameter μ, centred at ψ 270°, x = μ/2: U_T = x + μ sin ψ < 0 exactly inside it."""
    circle = reversed_circle(mu)
    assert (circle.distance, circle.diameter) == (mu / 2.0, mu)
    assert math.degrees(circle.azimuth) == pytest.approx(270.0)
    away = abs(x * complex(math.cos(psi), math.sin(psi)) - circle.distance * complex(0.0, -1.0))
    if abs(away - mu / 2.0) > 1e-9:
        assert (away < mu / 2.0) == (x + mu * math.sin(psi) < 0.0 and x > 0.0) or x == 0.0


def in_space(blade: FlapBlade, air: Stream, flap: Flap, theta: float, x: float, psi: float) -> float:
    """Angle of attack from the air's speed past a point of the blade, its own speed by differences. Axes: aft, to ψ = 90°, up."""

    def place(p: float) -> np.ndarray:
        beta = flap.coning + flap.cosine * math.cos(p) + flap.sine * math.sin(p)
        out = blade.e + (x - blade.e) * math.cos(beta)
        return np.array([out * math.cos(p), out * math.sin(p), (x - blade.e) * math.sin(beta)])

    h = 1e-5
    own = (place(psi + h) - place(psi - h)) / (2.0 * h)
    beta = flap.coning + flap.cosine * math.cos(psi) + flap.sine * math.sin(psi)
    induced = air.induced * x * (air.kx * math.cos(psi) + air.ky * math.sin(psi))
    past = np.array([air.mu, 0.0, -(air.total + induced)]) - own
    ahead = np.array([-math.sin(psi), math.cos(psi), 0.0])
    normal = np.array([-math.sin(beta) * math.cos(psi), -math.sin(beta) * math.sin(psi), math.cos(beta)])
    return theta - math.atan2(-float(past @ normal), -float(past @ ahead))


@pytest.mark.parametrize(("x", "psi"), [(0.3, 0.4), (0.6, 1.6), (0.75, 3.1), (0.9, 4.6), (1.0, 5.5)])
def test_angles_against_velocities_in_space(x: float, psi: float) -> None:
    """Vectors against U_T and U_P; they differ by small-angle terms of order β², 0.15°."""
    flap = strip_balance(BLADE, AIR).flap(PITCH)
    beta = flap.coning + flap.cosine * math.cos(psi) + flap.sine * math.sin(psi)
    theta = PITCH.mean + PITCH.cosine * math.cos(psi) + PITCH.sine * math.sin(psi)
    theta += BLADE.twist * (x - 0.75) - BLADE.tan_delta3 * beta
    found = angle_at(BLADE, AIR, PITCH, flap, x, psi)
    assert found is not None
    there = in_space(BLADE, AIR, flap, theta, x, psi)
    assert math.degrees(found) == pytest.approx(math.degrees(there), abs=0.15)


def test_the_map_carries_the_thrust() -> None:
    """Lift of the angles in the map, summed over the disc, is the balance's C_T (within 1.5 %: tan against angle, midpoints,
    and no lift taken from the reversed flow)."""
    equations = balance(BLADE, AIR)
    flap = equations.flap(PITCH)
    found = disc_map(replace(BLADE, tip=1.0), AIR, PITCH, flap, 60, 72)
    step = found.radii[1] - found.radii[0]
    total = 0.0
    for x, row in zip(found.radii, found.angles, strict=True):
        for psi, alpha in zip(found.azimuths, row, strict=True):
            if alpha is not None and x < BLADE.tip:
                total += alpha * (x + AIR.mu * math.sin(psi)) ** 2 * step / len(row)
    assert BLADE.solidity_slope / 2.0 * total == pytest.approx(equations.thrust(PITCH, flap), rel=0.015)


def test_map_and_its_figures() -> None:
    """Reversed flow is exactly where the circle is; greatest and shares are those of the map; retreating side works harder."""
    flap = balance(BLADE, AIR).flap(PITCH)
    found = disc_map(BLADE, AIR, PITCH, flap)
    for x, row in zip(found.radii, found.angles, strict=True):
        for psi, alpha in zip(found.azimuths, row, strict=True):
            assert (alpha is None) == (x + AIR.mu * math.sin(psi) <= 0.0)
            if alpha is not None:
                assert alpha == angle_at(BLADE, AIR, PITCH, flap, x, psi)
    assert found.greatest == angle_at(BLADE, AIR, PITCH, flap, *found.greatest_at)
    assert found.retreating > found.advancing
    steep = disc_map(BLADE, AIR, replace(PITCH, mean=math.radians(30.0)), flap)
    assert steep.stalled > 0.5
    assert steep.greatest > STALL_ANGLE


def test_still_air_has_the_same_angle_all_round() -> None:
    """μ -> 0: no cyclic, no gradient: every azimuth alike and no reversed flow."""
    air = Stream(0.0, 0.05, 0.05)
    flap = balance(BLADE, air).flap(Pitch(0.15))
    for row in disc_map(BLADE, air, Pitch(0.15), flap).angles:
        assert row == pytest.approx([row[0]] * len(row), abs=1e-12)


def test_tip_mach() -> None:
    """(ΩR + V)/a."""
    assert advancing_tip_mach(210.0, 60.0, 340.0) == pytest.approx(270.0 / 340.0)


def test_marks_say_value_and_limit() -> None:
    """Each mark names what, how much and the limit; below it there is none; beyond the model altogether: refused."""
    assert not stall_mark(0.04)
    assert "7%" in stall_mark(0.07)[0].text
    assert not loading_mark(0.14)
    assert "0.150" in loading_mark(0.15)[0].text
    assert not tip_mach_mark(0.85)
    assert "0.90" in tip_mach_mark(0.90)[0].text
    assert not flap_mark((0.1, -0.2))
    assert "20°" in flap_mark((0.1, -0.35))[0].text
    for wrong in (1.0, math.nan):
        with pytest.raises(Refused, match="Mach"):
            tip_mach_mark(wrong)
    with pytest.raises(Refused, match=r"Depth: 3\.00 m is outside 0\.00 to 2\.00 m"):
        within("depth", "Depth", 3.0, 0.0, 2.0, "m")
