"""Momentum theory in climb, descent and edgewise flight, and the named inflow models, against printed figures.

Rankine and Froude, Glauert (any text); J.G. Leishman, Principles of Helicopter Aerodynamics, 2nd ed., ch. 2 and table
3.1 (from memory); figures re-derived outside this project.
"""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from rotorhead.faults import Refused
from rotorhead.flight.edgewise import edgewise_ratio, glauert_inflow
from rotorhead.flight.inflow import MODELS, gradient, stream
from rotorhead.flight.momentum import (
    RING_DESCENT,
    TRANSLATIONAL_LIFT,
    axial_power_ratio,
    axial_ratio,
    empirical_ratio,
    hover_induced,
    ideal_power,
    vortex_ring_conditions,
)
from rotorhead.units import KNOT_M_PER_S
from scipy.optimize import brentq


def test_hover() -> None:
    """C1: 20 000 N, 1.225 kg/m³, R 6 m: v_i 8.495829 m/s, ideal power 169 916.6 W."""
    induced = hover_induced(20_000.0, 1.225, math.pi * 36.0)
    assert induced == pytest.approx(8.495829, abs=5e-7)
    assert ideal_power(20_000.0, induced) == pytest.approx(169_916.6, abs=0.05)


@pytest.mark.parametrize(
    ("climb", "induced", "power"),
    [(5.0, 7.807764, 1.280776), (-20.0, 10.0, -1.0), (-25.0, 5.0, -2.0), (0.0, 10.0, 1.0)],
)
def test_climb_and_windmill(climb: float, induced: float, power: float) -> None:
    """C3 (re-derived): v_h = 10 m/s."""
    assert 10.0 * axial_ratio(climb / 10.0) == pytest.approx(induced, abs=5e-7)
    assert axial_power_ratio(climb / 10.0) == pytest.approx(power, abs=5e-7)


@settings(deadline=None)
@given(st.floats(-2.0, 0.0, exclude_min=True, exclude_max=True))
def test_no_answer_between_the_branches(x: float) -> None:
    """C3: no momentum solution for −2 < V_c/v_h < 0. With a curve asked for by name, its value."""
    with pytest.raises(Refused, match="vortex ring"):
        axial_ratio(x)
    assert axial_ratio(x, "empirical") == empirical_ratio(x)


@settings(deadline=None)
@given(st.one_of(st.floats(0.0, 10.0), st.floats(-10.0, -2.0)))
def test_the_ratio_solves_the_momentum_equation(x: float) -> None:
    """Climb: (x + v) v = 1; windmill: (x + v) v = −1 (thrust = twice the mass flow times v_i; any text)."""
    v = axial_ratio(x)
    assert (x + v) * v == pytest.approx(1.0 if x >= 0.0 else -1.0, rel=1e-9)


def test_empirical_curve() -> None:
    """C4 (from memory; consistency re-derived): κ = 1: 1.816 at −1, 1.026 at −2, within 2.6 % of the windmill branch."""
    assert empirical_ratio(-1.0) == pytest.approx(1.816, abs=5e-4)
    assert empirical_ratio(-2.0) == pytest.approx(1.026, abs=5e-4)
    assert empirical_ratio(-2.0) / axial_ratio(-2.0) - 1.0 == pytest.approx(0.026, abs=5e-4)
    assert empirical_ratio(-0.0) == axial_ratio(0.0)
    with pytest.raises(Refused, match="Climb"):
        empirical_ratio(0.1)


@pytest.mark.parametrize(("x", "ratio"), [(0.5, 0.939565), (1.0, 0.786151), (2.0, 0.485868), (3.0, 0.331319)])
def test_edgewise(x: float, ratio: float) -> None:
    """C5 (re-derived)."""
    assert edgewise_ratio(x) == pytest.approx(ratio, abs=5e-7)


def test_induced_velocity_across_translational_lift() -> None:
    """A6, C5: 16 to 24 kn (FAA-H-8083-21B, p. 2-22, read) = 8.2311 to 12.3467 m/s; v_h 8.5 m/s -> 0.797 and 0.631."""
    assert pytest.approx((8.2311, 12.3467), abs=1e-4) == TRANSLATIONAL_LIFT
    assert edgewise_ratio(TRANSLATIONAL_LIFT[0] / 8.5) == pytest.approx(0.797, abs=5e-4)
    assert edgewise_ratio(TRANSLATIONAL_LIFT[1] / 8.5) == pytest.approx(0.631, abs=5e-4)


def test_vortex_ring_conditions() -> None:
    """A8: FAA-H-8083-21B, p. 11-9 (read): 300 ft/min = 1.524 m/s, 20 to 100 % power, below translational lift: all three."""
    assert pytest.approx(1.524, rel=1e-12) == RING_DESCENT
    slow = 10.0 * KNOT_M_PER_S
    assert vortex_ring_conditions(2.0, slow, 0.5)
    assert not vortex_ring_conditions(1.0, slow, 0.5)
    assert not vortex_ring_conditions(2.0, 30.0 * KNOT_M_PER_S, 0.5)
    assert not vortex_ring_conditions(2.0, slow, 0.1)


# D4: C_T, μ, α (deg) -> λ, χ (deg), Coleman, Drees kx, ky, Pitt–Peters, White–Blake, Howlett.
TABLE = [
    (0.006, 0.0, 0.0, 0.0547723, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0),
    (0.006, 0.05, 0.0, 0.0447214, 48.1897, 0.44721, 0.58823, -0.10, 0.65858, 1.05409, 0.55556),
    (0.006, 0.1, 0.0, 0.0288262, 73.9197, 0.75246, 0.97830, -0.20, 1.10808, 1.35888, 0.92328),
    (0.006, 0.2, 3.0, 0.0253624, 82.7728, 0.88120, 1.07816, -0.40, 1.29767, 1.40298, 0.98417),
    (0.008, 0.3, 6.0, 0.0447189, 81.5217, 0.86199, 0.93093, -0.60, 1.26938, 1.39876, 0.97826),
]


@pytest.mark.parametrize("row", TABLE, ids=[f"mu-{r[1]}" for r in TABLE])
def test_inflow_table(row: tuple[float, ...]) -> None:
    """D4 (formulas from memory, ratio and numbers re-derived)."""
    ct, mu, alpha, total, chi, coleman, kx, ky, pitt, white, howlett = row
    flow = glauert_inflow(ct, mu, math.radians(alpha))
    assert flow.total == pytest.approx(total, abs=5e-8)
    assert math.degrees(flow.skew) == pytest.approx(chi, abs=5e-5)
    assert gradient(flow, "coleman") == pytest.approx((coleman, 0.0), abs=5.5e-6)
    assert gradient(flow, "drees") == pytest.approx((kx, ky), abs=5.5e-6)
    assert gradient(flow, "pitt_peters") == pytest.approx((pitt, 0.0), abs=5.5e-6)
    assert gradient(flow, "white_blake") == pytest.approx((white, 0.0), abs=5.5e-6)
    assert gradient(flow, "howlett") == pytest.approx((howlett, 0.0), abs=5.5e-6)
    assert gradient(flow, "uniform") == (0.0, 0.0)


def test_payne() -> None:
    """D4: 0.99065 at μ = 0.1, C_T = 0.006 (re-derived)."""
    assert gradient(glauert_inflow(0.006, 0.1), "payne")[0] == pytest.approx(0.99065, abs=5e-6)


def test_pitt_and_peters_is_fifteen_pi_over_thirty_two() -> None:
    """D4: their matrix gives 1.4726 tan(χ/2), 15π/32 (re-derived from Vertica 5, 1981, from memory); a textbook prints 15π/23."""
    flow = glauert_inflow(0.006, 0.2)
    assert gradient(flow, "pitt_peters")[0] / math.tan(flow.skew / 2.0) == pytest.approx(1.4726, abs=5e-5)


@settings(deadline=None)
@given(st.floats(1e-4, 0.02), st.floats(0.0, 0.4), st.floats(-10.0, 15.0))
def test_mean_inflow_solves_its_equation(ct: float, mu: float, degrees: float) -> None:
    """λ = μ tan α + C_T/(2√(μ² + λ²)), found again by scipy's brentq; or refused with the wake not swept away."""
    alpha = math.radians(degrees)
    if mu * math.tan(alpha) < 0.0 and mu < math.sqrt(ct / 2.0):
        with pytest.raises(Refused, match="swept away"):
            glauert_inflow(ct, mu, alpha)
        return
    flow = glauert_inflow(ct, mu, alpha)
    assert flow.induced == pytest.approx(ct / (2.0 * math.hypot(mu, flow.total)), rel=1e-9)
    again = brentq(
        lambda x: x - mu * math.tan(alpha) - ct / (2.0 * max(math.hypot(mu, x), 1e-12)),
        flow.total - 0.05,
        flow.total + 0.05,
    )
    assert flow.total == pytest.approx(again, abs=1e-10)


def test_level_disc_is_the_edgewise_form() -> None:
    """α = 0: λ/λ_h is Glauert's closed form at x = μ/λ_h (two ways to one number)."""
    ct = 0.006
    hover = math.sqrt(ct / 2.0)
    for mu in (0.0, 0.03, 0.1, 0.3):
        assert glauert_inflow(ct, mu).total / hover == pytest.approx(edgewise_ratio(mu / hover), rel=1e-12)


@pytest.mark.parametrize("model", list(MODELS))
def test_no_gradient_in_the_hover(model: str) -> None:
    """μ -> 0: every model's gradient goes to zero, and evenly so (no source)."""
    assert (stream(0.006, 0.0, 0.0, model).kx, stream(0.006, 0.0, 0.0, model).ky) == (0.0, 0.0)
    near = stream(0.006, 1e-6, 0.0, model)
    assert (near.kx, near.ky) == pytest.approx((0.0, 0.0), abs=1e-4)


def test_refusals() -> None:
    """Outside the model nothing comes back (no source)."""
    with pytest.raises(Refused, match=r"0\.45 is outside 0\.00 to 0\.40"):
        glauert_inflow(0.006, 0.45)
    with pytest.raises(Refused, match="Thrust coefficient"):
        glauert_inflow(0.0, 0.1)
    with pytest.raises(Refused, match="must be one of"):
        stream(0.006, 0.1, 0.0, "guessed")
    with pytest.raises(Refused, match="Air density"):
        hover_induced(1000.0, math.nan, 10.0)
