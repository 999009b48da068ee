"""The calculators *coning*, *delta-three* and *lead-lag*: published cases, ties to the functions shown, words and refusals
beyond the model. Each case is done by the calculator as a reader would type it; sources stand beside it.
"""

import math

import pytest
from rotorhead.blade.flap import flap_frequency_squared, flapping_of
from rotorhead.blade.phase import budget_of
from rotorhead.faults import Refused
from rotorhead.flight.balance import closed_balance
from rotorhead.flight.coning import coning_from_pitch, droop
from rotorhead.flight.flapper import FlapBlade, Pitch, flap_blade
from rotorhead.flight.inflow import Stream
from rotorhead.head import DEMONSTRATION, demonstration
from rotorhead.rotor import Rotor, of_head
from rotorhead.topics import named

from .flight_cases import case, rotor_of

heads = pytest.mark.parametrize("head_id", DEMONSTRATION)


# Coning


@pytest.mark.parametrize(("lever", "degrees"), [("0.75", 1.31546), ("0.666666667", 1.16930)])
def test_coning_of_the_check_values(lever: str, degrees: float) -> None:
    """B18 (re-derived): 20 000 N, 4 blades, R 6 m, I 800 kg·m², 35 rad/s; the blade here weighs 66.67 kg, not 60."""
    rotor = rotor_of("alder3", blades="4", radius_m="6", hinge_offset="0", blade_mass_kg=f"{2400.0 / 36.0:.9f}",
                     rpm=f"{35.0 * 30.0 / math.pi:.9f}")  # fmt: skip
    found = case("coning", rotor, mass=f"{20_000.0 / 9.80665:.8f}", lift_centre=lever)
    assert rotor.flap_inertia == pytest.approx(800.0, rel=1e-8)
    assert math.degrees(found.result("lifted")) == pytest.approx(degrees, abs=5e-6)
    assert math.degrees(found.result("weighed")) == pytest.approx(0.10320 * (2400.0 / 36.0) / 60.0, abs=6e-6)
    assert found.result("free") == pytest.approx(found.result("lifted") - found.result("weighed"), abs=1e-12)


@pytest.mark.parametrize(("nu", "degrees"), [(1.0, 4.18028), (1.03, 3.94032), (1.12, 3.33249)])
def test_coning_from_pitch(nu: float, degrees: float) -> None:
    """B17 (re-derived): γ 8, θ 8°, λ 0.05, hinge at the mast, ν by a root spring without precone."""
    base = rotor_of("alder3", hinge_offset="0", twist_deg="0")
    mass = base.blade_mass * base.lock_number() / 8.0
    lighter = rotor_of("alder3", hinge_offset="0", twist_deg="0", blade_mass_kg=f"{mass:.9f}")
    spring = (nu**2 - 1.0) * lighter.flap_inertia * lighter.speed**2
    rotor = rotor_of(
        "alder3", hinge_offset="0", twist_deg="0", blade_mass_kg=f"{mass:.9f}", root_spring_Nm_per_rad=f"{spring:.6f}"
    )
    found = case("coning", rotor, source="pitch", pitch="8", inflow="0.05")
    assert math.degrees(found.result("lifted")) == pytest.approx(degrees, abs=2e-5)


@heads
def test_coning_from_pitch_is_the_balances(head_id: str) -> None:
    """Hinge, twist, spring, precone and weight: the forward-flight balance at rest, lift from the hinge to the tip."""
    rotor = of_head(demonstration(head_id))
    blade = flap_blade(rotor, 1.225, tip=1.0)
    free = FlapBlade(
        blade.gamma, blade.nu_squared, blade.e, 0.0, blade.twist, blade.solidity_slope, blade.e, 1.0, blade.steady
    )
    for pitch, inflow in ((0.14, 0.05), (0.05, 0.02), (0.2, 0.0)):
        again = closed_balance(free, Stream(0.0, inflow)).flap(Pitch(pitch)).coning
        assert coning_from_pitch(rotor, pitch, inflow) == pytest.approx(again, rel=1e-9)


@heads
@pytest.mark.parametrize("share", [0.8, 0.9, 1.0, 1.1])
def test_droop(head_id: str, share: float) -> None:
    """A3: FAA-H-8083-21B, p. 2-16 (read): 1/Ω², 1.234568 at 90 % without a spring; the calculator agrees with `droop`."""
    rotor = of_head(demonstration(head_id))
    found, own = case("coning", rotor, rotor_speed=f"{100 * share:g}"), droop(rotor, share)
    # The form's lift centre is rounded to a thousandth of the radius.
    assert found.result("coning") == pytest.approx(own.coning, rel=1.5e-3)
    assert found.result("pull") == pytest.approx(own.pull, rel=1e-9)
    assert found.result("needed") == pytest.approx(own.pitch, abs=1e-9)
    if rotor.root_spring == 0.0:
        assert found.result("slow_times") == pytest.approx(1.234568, abs=5e-7)
    else:
        assert 1.0 < found.result("slow_times") < 1.2345
    assert found.result("slow_pull") == pytest.approx(0.81 * droop(rotor, 1.0).pull, rel=1e-9)


def test_a_teetering_hub_holds_its_cone() -> None:
    """FAA-H-8083-21B, p. 4-2 (read): blades joined in one; precone stays, the free blade's cone stands beside it."""
    rotor = of_head(demonstration("birch2"))
    slow = case("coning", rotor, rotor_speed="80")
    assert slow.result("coning") == rotor.precone
    assert slow.result("free") > rotor.precone
    assert "built into the hub" in named("coning").describe(slow)


def test_beyond_the_cones_model() -> None:
    """Slow enough the blades stall: words; slower still no pitch carries the weight: refused, by the rotor speed."""
    rotor = of_head(demonstration("elder6"))
    slow = case("coning", rotor, rotor_speed="75")
    assert slow.answer.results["model"] == "no, see above"
    assert "Outside the model: The blade loading" in named("coning").describe(slow)
    with pytest.raises(Refused, match="Rotor speed: at 50%") as refused:
        case("coning", rotor, rotor_speed="50", mass="40000")
    assert [f.field for f in refused.value.faults] == ["rotor_speed"]
    with pytest.raises(Refused, match="outside what is allowed"):
        case("coning", rotor, rotor_speed="40")


def test_a_car_weighs_a_tonne() -> None:
    """The comparison: pull over 9806.65 N."""
    found = case("coning", of_head(demonstration("alder3")))
    assert found.result("cars") == pytest.approx(found.result("pull") / 9806.65, rel=1e-12)


# Delta-three


@pytest.mark.parametrize(
    ("station", "arm", "degrees"), [("40", "150", 14.9314), ("-40", "150", -14.9314), ("40", "-150", -14.9314)]
)
def test_delta_three_from_the_horn(station: str, arm: str, degrees: float) -> None:
    """B19 (re-derived): 40 mm outboard of the hinge on a leading horn of 150 mm: +14.9314°; inboard or trailing: the other sign."""
    foot = str(float(arm))
    rotor = rotor_of("birch2", horn_station_mm=station, arm_mm=arm, link_foot_ahead_mm=foot)
    found = case("delta-three", rotor)
    assert math.degrees(found.result("delta3")) == pytest.approx(degrees, abs=1e-4)


@pytest.mark.parametrize(
    ("offset", "delta3", "lag", "gain"),
    [("0", 0.0, 90.0, 1.0), ("0", 30.0, 60.0, 0.866025), ("0", 45.0, 45.0, 0.707107), ("0.04", 0.0, 86.0122, 1.05336),
     ("0.04", 20.0, 65.5802, 0.96146), ("0.05", 0.0, 84.8248, 1.06639)],
)  # fmt: skip
def test_lag_and_gain_of_the_check_values(offset: str, delta3: float, lag: float, gain: float) -> None:
    """B1 to B5c (re-derived, checked by time integration): γ 8."""
    base = rotor_of("alder3", hinge_offset=offset)
    mass = base.blade_mass * base.lock_number() / 8.0
    rotor = rotor_of("alder3", hinge_offset=offset, blade_mass_kg=f"{mass:.9f}")
    found = case("delta-three", rotor, given="typed", delta3=str(delta3))
    assert math.degrees(found.result("lag")) == pytest.approx(lag, abs=1e-4)
    assert found.result("gain") == pytest.approx(gain, abs=1e-5)


def test_a_stiff_head_brought_back_to_a_right_angle() -> None:
    """B11 (re-derived): ν 1.15, γ 8 without hinge offset: −17.8745° gives a lag of 90°."""
    base = rotor_of("alder3", hinge_offset="0")
    mass = base.blade_mass * base.lock_number() / 8.0
    lighter = rotor_of("alder3", hinge_offset="0", blade_mass_kg=f"{mass:.9f}")
    spring = (1.15**2 - 1.0) * lighter.flap_inertia * lighter.speed**2
    rotor = rotor_of("alder3", hinge_offset="0", blade_mass_kg=f"{mass:.9f}", root_spring_Nm_per_rad=f"{spring:.6f}")
    found = case("delta-three", rotor, given="typed", delta3="-17.8745")
    assert math.degrees(found.result("lag")) == pytest.approx(90.0, abs=1e-4)
    assert math.degrees(found.result("lag_free")) == pytest.approx(72.1255, abs=1e-4)


@heads
def test_the_heads_own_tie(head_id: str) -> None:
    """As the rest of the site has it: lag, gain, and where the plate must be low; collective is the hover's difference."""
    rotor = of_head(demonstration(head_id))
    found, f = case("delta-three", rotor), flapping_of(rotor)
    assert found.result("lag") == pytest.approx(f.lag, abs=1e-12)
    assert found.result("gain") == pytest.approx(f.gain, rel=1e-12)
    assert found.result("lag_free") == pytest.approx(f.lag_actual, abs=1e-12)
    assert found.answer.results["needed"] == phrase(rotor)
    if head_id != "birch2":
        hover = case("hover", rotor)
        # Coning stands rounded to a tenth of a degree in the form.
        cost = hover.result("command") - hover.result("pitch")
        assert found.result("cost") == pytest.approx(cost, abs=math.radians(0.05) * abs(rotor.tan_delta3) + 1e-9)


def phrase(rotor: Rotor) -> str:
    """Where the plate must be low, as the phase calculator's budget has it."""
    needed = math.degrees(budget_of(rotor).needed)
    anticlockwise = rotor.rotation == "anticlockwise"
    if abs(needed) < 0.05:
        return "exactly at the nose"
    before = "right" if anticlockwise else "left"
    after = "left" if anticlockwise else "right"
    return f"{abs(needed):.1f}° " + (
        f"before the nose, on its {before}" if needed > 0 else f"after the nose, on its {after}"
    )


def test_a_blade_that_would_not_come_back() -> None:
    """ν² + tan δ3 M_θ ≤ 0: refused, by the angle typed."""
    rotor = rotor_of("alder3", blade_mass_kg="15")
    with pytest.raises(Refused, match="would not come back") as refused:
        case("delta-three", rotor, given="typed", delta3="-45")
    assert [f.field for f in refused.value.faults] == ["delta3"]


# Lead and lag


@heads
def test_lead_grows_where_the_horn_goes_back(head_id: str) -> None:
    """A link's foot stays with the ring: by hand, the plate must be low that much further on, where the horn lies outboard."""
    rotor = of_head(demonstration(head_id))
    found = case("lead-lag", rotor)
    if rotor.hinge == 0.0:
        assert "needed" not in found.answer.results
        assert found.answer.results["hangs"] == "does not hang back at all, for there is nothing to swing on"
        return
    outboard = rotor.horn_station > rotor.hinge + 1e-3
    assert found.result("lead_shift") == (found.result("steady") if outboard else 0.0)
    asked = float(str(found.answer.results["needed"]).partition("°")[0])
    needed = math.degrees(budget_of(rotor).needed - found.result("lead_shift"))
    assert asked == pytest.approx(abs(needed), abs=0.051)


def test_drag_and_push_by_hand() -> None:
    """Drag P/(Ω N) (0.75 − e)/0.75 and the push 2 I Ω² β0 β1, written out for Alder 3 (I = m R²(1 − e)²/3)."""
    rotor = of_head(demonstration("alder3"))
    found = case("lead-lag", rotor, power="250", coning="3", tilt="2")
    speed, inertia = 360.0 * math.pi / 30.0, 34.0 * (5.6 * 0.97) ** 2 / 3.0
    drag = 250e3 / speed / 3.0 * 0.72 / 0.75
    assert found.result("drag") == pytest.approx(drag, rel=1e-9)
    assert found.result("steady") == pytest.approx(drag / (inertia * speed**2 * 1.5 * 0.03 / 0.97), rel=1e-9)
    push = 2.0 * inertia * speed**2 * math.radians(3.0) * math.radians(2.0)
    assert found.result("moment_1") == pytest.approx(push, rel=1e-9)


def test_a_hingeless_head_starts_soft_in_its_plane() -> None:
    """0.7 swings a turn (common practice, no source); near one a turn refused by the spring."""
    rotor = of_head(demonstration("cedar4"))
    assert case("lead-lag", rotor).result("frequency") == pytest.approx(0.7, abs=1e-3)
    stiff = (1.0 - (flap_frequency_squared(0.1) - 1.0)) * rotor.flap_inertia * rotor.speed**2
    with pytest.raises(Refused, match="too near 1") as refused:
        case("lead-lag", rotor, lag_spring=f"{stiff:.0f}")
    assert [f.field for f in refused.value.faults] == ["lag_spring"]
