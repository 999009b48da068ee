"""Hover: power, figure of merit, required collective, against printed figures and quadrature.

Sources: J.G. Leishman, Principles of Helicopter Aerodynamics, ch. 3; A. Gessow and G.C. Myers, ch. 4 (from memory);
M. Knight and R.A. Hefner, NACA TN 626 (abstract read) for the similarity; figures re-derived outside this project.
"""

import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from rotorhead.blade.flap import hover_command, hover_coning
from rotorhead.faults import Refused
from rotorhead.flight.atmosphere import density, density_altitude
from rotorhead.flight.hover import hover_pitch, thrust_coefficient
from rotorhead.flight.level import level_power
from rotorhead.flight.power import (
    SECTION,
    carrying,
    estimated_power_coefficient,
    figure_of_merit,
    hover_performance,
    hover_thrust,
    hovering,
    ideal_twist_tip_pitch,
    uniform_collective,
    untwisted,
)
from rotorhead.flight.validity import BLADE_LOADING_MOST
from rotorhead.head import DEMONSTRATION, demonstration
from rotorhead.rotor import of_head
from scipy.integrate import quad

BASE = of_head(demonstration("alder3"))
MANY = 10_000_000  # so many blades, of so little chord, that there is no tip loss
heads = pytest.mark.parametrize("head_id", DEMONSTRATION)


def test_figure_of_merit() -> None:
    """C2 (re-derived): C_T 0.003273429, σ 0.08, κ 1.15, c_d0 0.010 (conventions) at 1.225 kg/m³, R 6 m, 210 m/s."""
    cp = estimated_power_coefficient(0.003273429, 0.08, 1.15, 0.010)
    assert cp == pytest.approx(2.522956e-4, rel=1e-6)
    assert figure_of_merit(0.003273429, cp) == pytest.approx(0.524904, abs=5e-7)
    assert cp * 1.225 * math.pi * 36.0 * 210.0**3 == pytest.approx(323_710.0, abs=0.5)


def test_ideal_power_coefficient() -> None:
    """C1 (re-derived): C_T^1.5/√2 = 1.324309e-4."""
    assert estimated_power_coefficient(0.003273429, 0.08, 1.0, 0.0) == pytest.approx(1.324309e-4, rel=1e-6)


@pytest.mark.parametrize(
    ("degrees", "solidity", "slope", "ct"),
    [(8.0, 0.08, 5.7, 0.0050701), (8.0, 0.1061, 5.73, 0.0060752), (10.0, 0.1, 2.0 * math.pi, 0.0084346)],
)
def test_closed_form(degrees: float, solidity: float, slope: float, ct: float) -> None:
    """C6: C_T printed, and both coefficients by scipy's quadrature of 4λ²x and 4λ³x."""
    theta, sa = math.radians(degrees), solidity * slope
    found = untwisted(theta, solidity, slope)
    assert found.ct == pytest.approx(ct, abs=5e-8)

    def inflow(x: float) -> float:
        return sa / 16.0 * (math.sqrt(1.0 + 32.0 * theta * x / sa) - 1.0)

    assert found.ct == pytest.approx(quad(lambda x: 4.0 * inflow(x) ** 2 * x, 0.0, 1.0)[0], rel=1e-9)
    assert found.cp_induced == pytest.approx(quad(lambda x: 4.0 * inflow(x) ** 3 * x, 0.0, 1.0)[0], rel=1e-9)


def test_induced_factor_of_an_untwisted_blade() -> None:
    """C6: θ 8°, σ 0.08, a 5.7: C_P,i 2.757694e-4, 1.08028 times the ideal."""
    found = untwisted(math.radians(8.0), 0.08, 5.7)
    assert found.cp_induced == pytest.approx(2.757694e-4, abs=5e-11)
    assert found.induced_factor == pytest.approx(1.08028, abs=5e-6)


@pytest.mark.parametrize(
    ("degrees", "solidity", "slope", "ct"),
    [(8.0, 0.08, 5.7, 0.0049438), (8.0, 0.1061, 5.73, 0.0058957), (10.0, 0.1, 2.0 * math.pi, 0.0082118)],
)
def test_uniform_inflow_collective(degrees: float, solidity: float, slope: float, ct: float) -> None:
    """C6: θ75 = 6 C_T/(σa) + 1.5 √(C_T/2) gives back the pitch at the thrust printed for it (7 digits: 4e-5°)."""
    assert math.degrees(uniform_collective(ct, solidity, slope)) == pytest.approx(degrees, abs=1e-4)


def test_required_collective() -> None:
    """C7: C_T 0.007, σ 0.08, a 5.7: θ75 = 10.36174°; ideally twisted blade: tip 6.90783° (re-derived)."""
    assert math.degrees(uniform_collective(0.007, 0.08, 5.7)) == pytest.approx(10.36174, abs=5e-6)
    assert math.degrees(ideal_twist_tip_pitch(0.007, 0.08, 5.7)) == pytest.approx(6.90783, abs=5e-6)


def test_similarity() -> None:
    """C8: C_T/σ² depends on θ/σ alone: 0.95404526 for (0.1, 0.05) and (0.2, 0.1), a = 5.73."""
    for theta, solidity in ((0.1, 0.05), (0.2, 0.1)):
        assert untwisted(theta, solidity, 5.73).ct / solidity**2 == pytest.approx(0.95404526, rel=1e-8)


@settings(deadline=None)
@given(st.floats(0.02, 0.3), st.floats(0.03, 0.15), st.floats(0.5, 2.0))
def test_similarity_of_power(theta: float, solidity: float, scale: float) -> None:
    """C8: likewise induced C_P/σ³ depends on θ/σ alone (abstract of TN 626)."""
    one, other = untwisted(theta, solidity, 5.73), untwisted(theta * scale, solidity * scale, 5.73)
    assert one.ct * scale**2 == pytest.approx(other.ct, rel=1e-9)
    assert one.cp_induced * scale**3 == pytest.approx(other.cp_induced, rel=1e-9)


def test_rings_give_the_closed_form() -> None:
    """Without tip loss, twist and root cut the rings' sum is the closed form, to the error of 40 midpoints (1e-4)."""
    rotor = replace(BASE, twist=0.0, root_cut=0.0, hinge_offset=0.0, lift_slope=5.7, blades=MANY,
                    chord=0.08 * math.pi * BASE.radius / MANY)  # fmt: skip
    found, exact = hovering(rotor, math.radians(8.0), (0.01, 0.0, 0.0)), untwisted(math.radians(8.0), 0.08, 5.7)
    # Midpoints in t with x = sin t: relative error about (π/80)²/24 times the integrand's slope ratio, below 3e-4.
    assert found.ct == pytest.approx(exact.ct, rel=3e-4)
    assert found.cp_induced == pytest.approx(exact.cp_induced, rel=3e-4)
    # σ c_d0/8, a mean drag coefficient without root cut.
    assert found.cp_profile == pytest.approx(0.08 * 0.01 / 8.0, rel=3e-4)


@heads
def test_performance_of_every_head(head_id: str) -> None:
    """Thrust equals weight, coefficients hang together, figures of merit lie where rotors' do (0.5 to 0.8, any text)."""
    rotor = of_head(demonstration(head_id))
    found = hover_performance(rotor, rotor.weight)
    assert hover_thrust(rotor, found.pitch, found.density) == pytest.approx(rotor.weight, rel=1e-5)
    assert found.pitch == pytest.approx(hover_pitch(rotor)[0], abs=1e-5)
    assert found.command == pytest.approx(hover_command(rotor), abs=1e-5)
    assert found.command - found.pitch == pytest.approx(rotor.tan_delta3 * hover_coning(rotor), abs=1e-5)
    ideal = rotor.weight * math.sqrt(rotor.weight / (2.0 * found.density * math.pi * rotor.radius**2))
    assert found.power * found.figure_of_merit == pytest.approx(ideal, rel=1e-4)
    assert 0.5 < found.figure_of_merit < 0.8
    assert 1.0 < found.induced_factor < 1.25
    assert not found.outside


@heads
def test_more_weight_height_or_heat_asks_for_more(head_id: str) -> None:
    """Common practice, no source: heavier, higher and hotter each take more pitch; heavier and hotter more power.
    Equal density altitude asks for equal pitch."""
    rotor = of_head(demonstration(head_id))
    plain = hover_performance(rotor, rotor.weight)
    heavy = hover_performance(rotor, 1.1 * rotor.weight)
    high = hover_performance(rotor, rotor.weight, 1500.0)
    hot = hover_performance(rotor, rotor.weight, 0.0, 25.0)
    for other in (heavy, high, hot):
        assert other.pitch > plain.pitch
        assert other.blade_loading > plain.blade_loading
    assert heavy.power > plain.power
    same = hover_performance(rotor, rotor.weight, density_altitude(density(0.0, 25.0)))
    assert same.pitch == pytest.approx(hot.pitch, abs=1e-6)
    assert same.power == pytest.approx(hot.power, rel=1e-4)


def test_overload_is_marked_then_refused() -> None:
    """Never a confident number outside the model."""
    found = hover_performance(BASE, 2.3 * BASE.weight)
    assert found.blade_loading > BLADE_LOADING_MOST
    assert {mark.field for mark in found.outside} >= {"blade_loading"}
    with pytest.raises(Refused, match="no blade pitch carries"):
        hover_performance(BASE, 40.0 * BASE.weight)
    with pytest.raises(Refused, match="Weight"):
        hover_performance(BASE, math.nan)
    with pytest.raises(Refused, match="Altitude"):
        hover_performance(BASE, BASE.weight, 12_000.0)
    with pytest.raises(Refused, match="Air density"):
        carrying(BASE, 0.1)


def test_small_pitches_have_no_closed_form() -> None:
    """Below 0.5° the powers cancel."""
    with pytest.raises(Refused, match="Pitch"):
        untwisted(math.radians(0.4), 0.08, 5.7)


@heads
def test_level_power_has_a_bucket(head_id: str) -> None:
    """Common practice, no source: hover estimate at no speed, least power between 20 and 45 m/s, parasite power as V³."""
    rotor = of_head(demonstration(head_id))
    tip = rotor.speed * rotor.radius
    still = level_power(rotor, 0.0)
    cp = estimated_power_coefficient(thrust_coefficient(rotor), rotor.solidity)
    assert still.total == pytest.approx(cp * 1.225 * math.pi * rotor.radius**2 * tip**3, rel=1e-9)
    assert still.parasite == 0.0
    least = min(range(71), key=lambda v, r=rotor: level_power(r, float(v)).total)  # type: ignore[misc]
    assert 20 <= least <= 45
    assert level_power(rotor, 60.0).parasite == pytest.approx(8.0 * level_power(rotor, 30.0).parasite, rel=1e-12)
    with pytest.raises(Refused, match="Advance ratio"):
        level_power(rotor, 0.45 * tip)


def test_section_drag_is_the_published_polar() -> None:
    """Bailey, NACA Report 716 (from memory): c_d = 0.0087 − 0.0216 α + 0.400 α²."""
    assert SECTION == (0.0087, -0.0216, 0.400)
