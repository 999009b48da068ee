"""Statements of a public handbook: what its figures say about signs and about "90 degrees".

Source: FAA, Helicopter Flying Handbook, FAA-H-8083-21B (2019); pages and figures are named at each
check (text read; the numbers re-derived).
"""

import math

import pytest
from rotorhead.blade.flap import flap_damping, flap_frequency_squared, flapping_of, lag_angle, pitch_moment
from rotorhead.conventions import azimuth_of, bearing_of
from rotorhead.faults import Refused
from rotorhead.head import DEMONSTRATION, demonstration
from rotorhead.head_changes import changed, mirrored
from rotorhead.rotor import of_head
from rotorhead.topics import gyro

FREE_DISC = {"push": 1000.0, "time": 1.0, "disc_mass": 200.0, "disc_radius": 5.0, "disc_rpm": 40.0}  # SI
NOSE, RIGHT, TAIL, LEFT = (math.radians(b) for b in (0.0, 90.0, 180.0, 270.0))


@pytest.mark.parametrize("gamma", [0.5, 3.0, 8.0, 12.0])
def test_ninety_degrees_later_is_exact_without_offset_spring_or_delta3(gamma: float) -> None:
    """P. 2-17: "90° later in the rotation cycle" (read); exactly 90 for ν = 1, e = 0, δ3 = 0 (re-derived)."""
    assert math.degrees(lag_angle(gamma, 0.0, 1.0)) == pytest.approx(90.0, abs=1e-9)


def test_approximately_ninety_degrees_holds_for_an_offset_hinge() -> None:
    """P. 2-17 says "approximately 90°" (read): γ = 8, e = 0.05 gives 84.825° (re-derived), inside 90 ± 15."""
    lag = math.degrees(lag_angle(8.0, 0.05, flap_frequency_squared(0.05)))
    assert lag == pytest.approx(84.825, abs=5e-4)
    assert 75.0 < lag < 105.0


def test_forward_cyclic_tips_the_disc_forward() -> None:
    """Fig. 2-31 (read), anticlockwise rotor: most incidence on the left, least on the right -> high at
    the rear, low at the front. θ1s = −1°, ν = 1, hover -> β1c = +1°, β1s = 0 (re-derived)."""
    central = flapping_of(of_head(demonstration("birch2")))
    assert central.nu == 1.0
    b1c, b1s = central.response(0.0, math.radians(-1.0))
    assert math.degrees(b1c) == pytest.approx(1.0, abs=1e-9)
    assert math.degrees(b1s) == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize("turned", [False, True], ids=["as-drawn", "mirrored"])
def test_forward_cyclic_by_places_on_the_aircraft(turned: bool) -> None:
    """The same figure by bearings; for a clockwise rotor left and right change places, nose and tail don't."""
    head = demonstration("birch2")
    rotor = of_head(mirrored(head) if turned else head)
    most_pitch = RIGHT if turned else LEFT
    psi = azimuth_of(most_pitch, rotor.rotation)
    b1c, b1s = flapping_of(rotor).response(math.cos(psi), math.sin(psi))
    high = bearing_of(math.atan2(b1s, b1c), rotor.rotation)
    assert math.degrees(high) == pytest.approx(math.degrees(TAIL), abs=1e-9)


def test_a_delta_hinge_restores_and_brings_the_answer_earlier() -> None:
    """Glossary, "delta hinge": flapping brings in feathering that gives a restoring force (read).
    δ3 > 0 raises the effective frequency and lowers the lag (re-derived)."""
    nu2 = flap_frequency_squared(0.03)
    lags, stiffness = [], []
    for delta3 in (-20.0, 0.0, 20.0, 45.0):
        tangent = math.tan(math.radians(delta3))
        stiffness.append(nu2 + tangent * pitch_moment(8.0, 0.03))
        lags.append(lag_angle(8.0, 0.03, nu2, tangent))
    assert stiffness == sorted(stiffness)
    assert lags == sorted(lags, reverse=True)
    assert flap_damping(8.0, 0.03) > 0.0


def test_kinds_of_head() -> None:
    """Pp. 4-2 to 4-4 (read): semirigid = two blades on a teetering hinge; fully articulated = more than
    two blades on flap hinges; rigid = no flap hinge, the blade flexes."""
    kinds = {i: demonstration(i).option("type") for i in DEMONSTRATION}
    assert set(kinds.values()) == {"teetering", "articulated", "hingeless"}
    for head_id, kind in kinds.items():
        rotor = of_head(demonstration(head_id))
        if kind == "teetering":
            assert (rotor.blades, rotor.hinge) == (2, 0.0)
        elif kind == "articulated":
            assert rotor.blades > 2
            assert rotor.hinge > 0.0
            assert rotor.root_spring == 0.0
        else:
            assert rotor.root_spring > 0.0


@pytest.mark.parametrize("change", [{"blades": "3"}, {"hinge_offset": "0.02"}], ids=["three-blades", "offset-hinge"])
def test_a_teetering_head_is_refused_with_what_no_semirigid_head_has(change: dict[str, str]) -> None:
    """Pp. 4-2 to 4-4 (read): two blades that flap as a unit about one hinge."""
    with pytest.raises(Refused, match="teetering"):
        changed(demonstration("birch2"), change)


def test_the_gyroscope_stays_at_ninety_while_the_blade_does_not() -> None:
    """The handbook's rotor "acts like a gyro" (p. 2-17, read); 90° is common to both, but only the
    oscillator gives 84.8° (offset hinge) or 75.7° (stiff root) (re-derived)."""
    base = demonstration("birch2")
    offset = changed(base, {"type": "articulated", "hinge_offset": "0.05", "horn_rides_with_flap": "no"})
    stiff = changed(base, {"type": "hingeless", "root_spring_Nm_per_rad": "50000", "horn_rides_with_flap": "no"})
    answers = [gyro.compute(FREE_DISC, of_head(h)).results for h in (base, offset, stiff)]
    assert {r["direction"] for r in answers} == {math.pi / 2.0}
    assert len({r["rate"] for r in answers}) == 1
    lags = [float(r["flap_lag"]) for r in answers]
    assert lags[0] == pytest.approx(math.pi / 2.0, abs=1e-12)
    assert all(lag < math.radians(89.0) for lag in lags[1:])
