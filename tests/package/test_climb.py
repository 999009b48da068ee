"""The calculator *climb*: both branches and the gap between them, as a reader would type them. Sources stand beside each check."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from rotorhead.faults import Refused
from rotorhead.flight.momentum import empirical_ratio
from rotorhead.head import DEMONSTRATION
from rotorhead.topics import named

from .flight_cases import case, rotor_of

# The mass for which Alder 3 sends the air down at 10 m/s in the hover at sea level: 2 ρ A v² / g.
TEN = "2461.33684"


@pytest.mark.parametrize(
    ("climb", "given_air", "power"), [("5", 7.807764, 1.280776), ("-25", 5.0, -2.0), ("0", 10.0, 1.0)]
)
def test_both_branches(climb: str, given_air: float, power: float) -> None:
    """C3 (momentum theory, re-derived): v_h 10 m/s."""
    found = case("climb", rotor_of("alder3"), climb=climb, mass=TEN)
    assert found.result("induced") == pytest.approx(given_air, abs=1e-5)
    assert found.result("power_ratio") == pytest.approx(power, abs=1e-6)
    assert found.result("power") == pytest.approx(power * found.result("hover_power"), rel=1e-6)
    assert found.answer.results["model"] == "yes"


def test_no_answer_between() -> None:
    """C3: nothing between 0 and −2 v_h: refused, with the vortex ring as the reason, naming the climb."""
    for climb in ("-0.1", "-10", "-19.9"):
        with pytest.raises(Refused, match="vortex ring") as refused:
            case("climb", rotor_of("alder3"), climb=climb, mass=TEN)
        assert [f.field for f in refused.value.faults] == ["climb"]


def test_the_curve_is_asked_for_and_marked() -> None:
    """C4 (Leishman ch. 2, from memory): x = −1: 1.816. It never passes for theory."""
    found = case("climb", rotor_of("alder3"), climb="-10", mass=TEN, between="curve")
    assert found.result("induced") / found.result("hover_induced") == pytest.approx(1.816, abs=1e-5)
    assert found.result("induced") == pytest.approx(10.0 * empirical_ratio(-1.0), rel=1e-6)
    assert found.answer.results["model"] == "no, see above"
    assert "Outside the model" in named("climb").describe(found)
    # Asked for, it changes nothing where theory has an answer.
    for climb in ("5", "-25"):
        one, other = (
            case("climb", rotor_of("alder3"), climb=climb, mass=TEN, between=b).result("induced")
            for b in ("none", "curve")
        )
        assert one == other


def test_the_handbook_s_descent() -> None:
    """A8, FAA-H-8083-21B p. 11-9 (read): 300 ft/min, 1.524 m/s exactly."""
    rotor = rotor_of("birch2")
    slow, quick = (
        case("climb", rotor, "imperial", climb=c, between="curve").answer.results["handbook"] for c in ("-299", "-301")
    )
    assert str(slow).startswith("no")
    assert "20 to 100%" in str(quick)
    assert case("climb", rotor).result("ring_from") == pytest.approx(1.524, abs=1e-12)


@settings(max_examples=60, deadline=None, database=None, derandomize=True)
@given(st.sampled_from(DEMONSTRATION), st.floats(0.0, 30.0))
def test_a_climb_costs_power_and_lever(head_id: str, climb: float) -> None:
    """More air goes through, less of it given by the rotor; at rest it is the hover (limits of momentum theory)."""
    found = case("climb", rotor_of(head_id), climb=f"{climb}")
    hover = found.result("hover_induced")
    assert found.result("induced") <= hover * (1.0 + 1e-12)
    assert found.result("through") >= hover * (1.0 - 1e-12)
    assert found.result("pitch_change") >= -1e-12
    # Glauert's quadratic: v_i (V_c + v_i) = v_h².
    assert found.result("induced") * found.result("through") == pytest.approx(hover**2, rel=1e-9)


def test_the_picture_of_each_state_says_it() -> None:
    """Air from above, from below, and round the edge."""
    rotor = rotor_of("cedar4")
    words = [
        named("climb").drawing(case("climb", rotor, climb=c, between="curve")).text for c in ("5", "0", "-8", "-40")
    ]
    assert "climbs" in words[0]
    assert "stands" in words[1]
    assert "wake meets the disc" in words[2]
    assert " up" in words[3]
    assert "Windmill" in words[3]
