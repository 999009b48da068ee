"""The flapping equation integrated in time: no closed form for lag or gain is used here.

Independent reference: scipy.integrate.solve_ivp on β″ + M_β̇ β′ + ν² β = M_θ(θ1 cos ψ − tan δ3 β),
its coefficients found by quadrature of the strip integrals (scipy.integrate.quad). Printed figures:
re-derived outside this project.
"""

import math
from dataclasses import replace

import numpy as np
import pytest
from rotorhead.blade.flap import (
    flap_damping,
    flap_frequency_squared,
    flap_gain,
    flapping_of,
    inflow_moment,
    lag_angle,
    pitch_moment,
)
from rotorhead.head import demonstration
from rotorhead.rotor import of_head
from scipy.integrate import quad, solve_ivp

TURN = 2.0 * math.pi


def strips(gamma: float, e: float) -> tuple[float, float]:
    """M_θ and M_β̇ from lift along the blade: (γ/2)∫(x−e)x² dx and (γ/2)∫(x−e)²x dx from e to 1."""
    lift = quad(lambda x: (x - e) * x * x, e, 1.0)[0]
    damping = quad(lambda x: (x - e) ** 2 * x, e, 1.0)[0]
    return gamma / 2.0 * lift, gamma / 2.0 * damping


def settled(gamma: float, e: float, nu2: float, delta3: float) -> tuple[float, float]:
    """Lag (degrees) and gain after 14 turns of integration from rest, cyclic pitch cos ψ."""
    lift, damping = strips(gamma, e)
    tangent = math.tan(math.radians(delta3))

    def rate(psi: float, y: np.ndarray) -> tuple[float, float]:
        pitch = math.cos(psi) - tangent * y[0]
        return float(y[1]), float(lift * pitch - damping * y[1] - nu2 * y[0])

    psi = np.linspace(13 * TURN, 14 * TURN, 64, endpoint=False)
    flap = solve_ivp(rate, (0.0, 14 * TURN), (0.0, 0.0), t_eval=psi, rtol=1e-10, atol=1e-12, method="DOP853").y[0]
    cosine, sine = 2.0 * np.mean(flap * np.cos(psi)), 2.0 * np.mean(flap * np.sin(psi))
    return math.degrees(math.atan2(sine, cosine)), math.hypot(cosine, sine)


def uniform_stiffness(e: float) -> float:
    """ν² of a uniform blade from its mass integrals: ∫(x−e)x dm over ∫(x−e)² dm."""
    return float(quad(lambda x: (x - e) * x, e, 1.0)[0] / quad(lambda x: (x - e) ** 2, e, 1.0)[0])


CASES = [
    pytest.param(8.0, 0.0, 1.0, 30.0, 60.0000, 0.866025, id="B2-delta3-30"),
    pytest.param(8.0, 0.0, 1.0, 45.0, 45.0000, 0.707107, id="B3-delta3-45"),
    pytest.param(8.0, 0.05, uniform_stiffness(0.05), 0.0, 84.8248, 1.06639, id="B4-offset-0.05"),
    pytest.param(8.0, 0.0, 1.12**2, 0.0, 75.7267, 0.96913, id="B8-spring-1.12"),
]


@pytest.mark.parametrize(("gamma", "e", "nu2", "delta3", "lag", "gain"), CASES)
def test_time_integration_gives_the_printed_lag_and_gain(
    gamma: float, e: float, nu2: float, delta3: float, lag: float, gain: float
) -> None:
    """The printed figures (re-derived) and the package's closed forms, both against the integration."""
    found_lag, found_gain = settled(gamma, e, nu2, delta3)
    assert found_lag == pytest.approx(lag, abs=1e-4)
    assert found_gain == pytest.approx(gain, abs=5e-6)
    tangent = math.tan(math.radians(delta3))
    assert math.degrees(lag_angle(gamma, e, nu2, tangent)) == pytest.approx(found_lag, abs=1e-6)
    assert flap_gain(gamma, e, nu2, tangent) == pytest.approx(found_gain, abs=1e-8)


@pytest.mark.parametrize("e", [0.0, 0.03, 0.1, 0.2])
def test_coefficients_against_quadrature(e: float) -> None:
    """The polynomials in e are the strip integrals (scipy.integrate.quad)."""
    lift, damping = strips(7.0, e)
    assert pitch_moment(7.0, e) == pytest.approx(lift, rel=1e-10)
    assert flap_damping(7.0, e) == pytest.approx(damping, rel=1e-10)
    assert inflow_moment(7.0, e) == pytest.approx(3.5 * quad(lambda x: (x - e) * x, e, 1.0)[0], rel=1e-10)
    assert flap_frequency_squared(e) == pytest.approx(uniform_stiffness(e), rel=1e-10)


@pytest.mark.parametrize(("gamma", "turns"), [(8.0, 0.318), (6.0, 0.424)])
def test_time_constant(gamma: float, turns: float) -> None:
    """J4 (re-derived; K.B. Amer, NACA TN 2136, from memory): 63 % of a change after 16/(γΩ);
    0.050 s at γ = 8, Ω = 40 rad/s; 0.318 and 0.424 of a turn at γ = 8 and 6."""
    base = of_head(demonstration("birch2"))
    speed = 40.0
    mass = 3.0 * 1.225 * base.lift_slope * base.chord * base.radius**2 / gamma
    flapping = flapping_of(replace(base, blade_mass=mass, speed=speed))
    assert flapping.gamma == pytest.approx(gamma, rel=1e-12)
    assert flapping.settle_63 / speed == pytest.approx(16.0 / (gamma * speed), rel=1e-12)
    if gamma == 8.0:
        assert flapping.settle_63 / speed == pytest.approx(0.050, rel=1e-12)
    assert flapping.settle_63 / TURN == pytest.approx(turns, abs=5e-4)


def test_the_error_of_a_step_dies_as_the_time_constant_says() -> None:
    """J4 by integration: the swing about the new tilt has shrunk to 1/e after 2/M_β̇, to 5 % after 6/M_β̇."""
    damping = flap_damping(8.0, 0.0)

    def swing(psi: float) -> float:
        run = solve_ivp(
            lambda _, y: (y[1], -damping * y[1] - y[0]), (0.0, psi), (1.0, 0.0), rtol=1e-10, atol=1e-12,
            dense_output=True,
        )  # fmt: skip
        position, velocity = run.y[:, -1]
        damped = math.sqrt(1.0 - damping**2 / 4.0)
        return math.hypot(position, (velocity + damping / 2.0 * position) / damped)

    assert swing(2.0 / damping) / swing(0.0) == pytest.approx(math.exp(-1.0), rel=1e-6)
    assert swing(6.0 / damping) / swing(0.0) == pytest.approx(math.exp(-3.0), rel=1e-6)
