"""Coning from thrust, the blade's pull, rpm droop, against printed figures.

Sources: FAA-H-8083-21B (text read); W. Johnson, Helicopter Theory, ch. 5 (from memory); figures re-derived.
"""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from rotorhead.blade.flap import blade_pull, hover_coning
from rotorhead.faults import Refused
from rotorhead.flight.balance import closed_balance
from rotorhead.flight.coning import coning_from_thrust, droop, lift_lever, pull_at
from rotorhead.flight.flapper import FlapBlade, Pitch
from rotorhead.flight.inflow import Stream
from rotorhead.head import DEMONSTRATION, demonstration
from rotorhead.head_changes import mirrored
from rotorhead.rotor import of_head
from scipy.integrate import quad

heads = pytest.mark.parametrize("head_id", DEMONSTRATION)
B18 = {"thrust": 20_000.0, "blades": 4, "inertia": 800.0, "speed": 35.0}


@pytest.mark.parametrize(("lever", "degrees"), [(0.75 * 6.0, 1.31546), (2.0 / 3.0 * 6.0, 1.16930)])
def test_coning_from_thrust(lever: float, degrees: float) -> None:
    """B18 (re-derived): T 20 000 N, N 4, R 6 m, I 800 kg·m², 35 rad/s; which lever is assumed matters."""
    assert math.degrees(coning_from_thrust(lever=lever, **B18)) == pytest.approx(degrees, abs=5e-6)  # type: ignore[arg-type]


def test_weight_takes_off_coning() -> None:
    """B18: a blade of 60 kg with its centre of gravity at 3 m takes off 0.10320°."""
    without = coning_from_thrust(lever=4.5, **B18)  # type: ignore[arg-type]
    with_it = coning_from_thrust(lever=4.5, weight_moment=60.0 * 9.80665 * 3.0, **B18)  # type: ignore[arg-type]
    assert math.degrees(without - with_it) == pytest.approx(0.10320, abs=5e-6)


@pytest.mark.parametrize(("nu", "degrees"), [(1.0, 4.18028), (1.03, 3.94032), (1.12, 3.33249)])
def test_coning_of_the_balance(nu: float, degrees: float) -> None:
    """B17 (re-derived): (γ/8)(θ0 − 4λ/3)/ν² at γ 8, θ0 8°, λ 0.05, hover: from the forward-flight balance at μ = 0."""
    found = closed_balance(FlapBlade(8.0, nu**2), Stream(0.0, 0.05)).flap(Pitch(math.radians(8.0)))
    assert math.degrees(found.coning) == pytest.approx(degrees, abs=5e-6)
    assert (found.cosine, found.sine) == (0.0, 0.0)


def test_low_rpm_cones_much_more() -> None:
    """A3: FAA-H-8083-21B, p. 2-16 (read): at constant thrust β0 goes as 1/Ω²: 1.234568 times at 90 % rpm."""
    full = coning_from_thrust(lever=4.5, **B18)  # type: ignore[arg-type]
    slow = coning_from_thrust(lever=4.5, **(B18 | {"speed": 0.9 * 35.0}))  # type: ignore[arg-type]
    assert slow / full == pytest.approx(1.234568, abs=5e-7)
    assert slow / full == pytest.approx(1.0 / 0.81, rel=1e-12)


@heads
def test_droop(head_id: str) -> None:
    """A3 on the heads: hinge and weight leave 1/Ω², a spring less; pull goes as Ω² exactly, pitch up, C_T/σ as 1/Ω²."""
    rotor = of_head(demonstration(head_id))
    full, slow = droop(rotor, 1.0), droop(rotor, 0.9)
    assert slow.pull / full.pull == pytest.approx(0.81, rel=1e-12)
    assert slow.pitch > full.pitch
    assert slow.blade_loading / full.blade_loading == pytest.approx(1.0 / 0.81, rel=1e-9)
    if head_id == "birch2":
        assert slow.coning == full.coning == rotor.precone
    elif rotor.root_spring == 0.0:
        # Steady lift and weight both stay; only I Ω² ν² falls, and ν doesn't change without a spring.
        assert slow.coning / full.coning == pytest.approx(1.0 / 0.81, rel=1e-9)
    else:
        assert 1.0 < slow.coning / full.coning < 1.0 / 0.81


@heads
def test_coning_from_thrust_is_the_hovers(head_id: str) -> None:
    """The lever from the rings' lift gives the coning the hover already has (two ways, one number)."""
    rotor = of_head(demonstration(head_id))
    assert rotor.hinge < lift_lever(rotor) + rotor.hinge < 0.8 * rotor.radius
    if head_id != "birch2":
        assert droop(rotor, 1.0).coning == pytest.approx(hover_coning(rotor), rel=1e-4)


@heads
def test_pull_is_the_integral(head_id: str) -> None:
    """Ω² ∫ r dm by quadrature; at the hinge the pull the pages print (kN)."""
    rotor = of_head(demonstration(head_id))
    line = rotor.blade_mass / (rotor.radius - rotor.hinge)
    for station in (rotor.hinge, 0.5 * rotor.radius, 0.9 * rotor.radius):
        exact = quad(lambda r, k=line, w=rotor.speed: w**2 * r * k, station, rotor.radius)[0]
        assert pull_at(rotor, station) == pytest.approx(exact, rel=1e-9)
    assert pull_at(rotor, rotor.hinge) == pytest.approx(blade_pull(rotor), rel=1e-12)
    assert pull_at(rotor, rotor.radius) == 0.0


@heads
def test_the_other_rotation_cones_alike(head_id: str) -> None:
    """Mirror."""
    head = demonstration(head_id)
    one, other = droop(of_head(head), 0.85), droop(of_head(mirrored(head)), 0.85)
    assert (one.coning, one.pull, one.pitch) == (other.coning, other.pull, other.pitch)


@settings(max_examples=30, deadline=None)
@given(st.floats(0.75, 1.2), st.floats(0.01, 0.2))
def test_slower_never_cones_less(share: float, less: float) -> None:
    """Property, on a hinged head."""
    rotor = of_head(demonstration("dogwood5"))
    assert droop(rotor, share - less).coning > droop(rotor, share).coning


def test_marks_and_refusals() -> None:
    """Slow enough, the blades stall: marked; slower still, refused."""
    rotor = of_head(demonstration("elder6"))
    assert not droop(rotor, 1.0).outside
    assert "blade_loading" in {m.field for m in droop(rotor, 0.75).outside}
    with pytest.raises(Refused, match="Rotor speed"):
        droop(rotor, 0.4)
    with pytest.raises(Refused, match="Station"):
        pull_at(rotor, 2.0 * rotor.radius)
