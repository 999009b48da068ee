"""Exact and first order agree for small motion; what must be zero is zero; signs of the trailing horn."""

import math
from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from rotorhead.blade.flap import flapping_of
from rotorhead.blade.phase import budget_of
from rotorhead.conventions import wrap
from rotorhead.head import DEMONSTRATION, demonstration
from rotorhead.head_changes import mirrored
from rotorhead.mechanism.links import harmonics, linear_pitch, pitch_now, pitch_round
from rotorhead.mechanism.plate import Pose, plane_through, pose_from_rods, pose_from_tilt, rod_heights
from rotorhead.rotor import Rotor, of_head

MANY = settings(max_examples=60, deadline=None, database=None, derandomize=True)
ROTORS: dict[str, Rotor] = {i: of_head(demonstration(i)) for i in DEMONSTRATION}
ROTORS |= {f"{i}-mirrored": of_head(mirrored(demonstration(i))) for i in DEMONSTRATION}
BASE = ROTORS["dogwood5"]


def pitch_error(rotor: Rotor, tilt: float, height: float, low: float) -> float:
    """Greatest difference (rad) between exact and first-order pitch round the turn."""
    pose = pose_from_tilt(height, tilt, low)
    exact = pitch_round(rotor, pose, 36)
    return max(abs(p - linear_pitch(rotor, pose, i * math.pi / 18.0)) for i, p in enumerate(exact))


@pytest.mark.parametrize("low", [0.0, 1.3, 4.0])
@pytest.mark.parametrize("name", ROTORS)
def test_pitch_becomes_linear_with_the_square(name: str, low: float) -> None:
    """Halving the motion cuts the difference to a quarter or less."""
    rotor = ROTORS[name]
    errors = [pitch_error(rotor, math.radians(4.0 / f), 0.008 / f, low) for f in (1, 2, 4, 8)]
    assert errors[0] > 1e-6
    for wide, narrow in pairwise(errors):
        assert narrow < 0.28 * wide


@pytest.mark.parametrize("low", [0.3, 2.0, 5.0])
def test_plane_becomes_exact_with_the_square(low: float) -> None:
    """The plane through the joints and the rigid ring: their difference falls at least as the square."""
    angles = [0.2, 1.9, 3.6]
    errors = []
    for factor in (1, 2, 4, 8):
        pose = pose_from_tilt(0.003, math.radians(8.0 / factor), low)
        plane = plane_through(angles, 0.2, rod_heights(pose, angles, 0.2, 0.5))
        errors.append(math.hypot(plane.p - pose.p, plane.q - pose.q))
    assert errors[0] > 1e-5
    for wide, narrow in pairwise(errors):
        assert narrow < 0.26 * wide


@MANY
@given(
    arm=st.floats(0.06, 0.4), behind=st.booleans(), station=st.floats(0.0, 0.5), gamma_mass=st.floats(5.0, 200.0),
    link=st.floats(0.1, 1.0), speed=st.floats(15.0, 80.0),
)  # fmt: skip
def test_a_central_hinge_needs_no_offset_for_any_horn(
    arm: float, behind: bool, station: float, gamma_mass: float, link: float, speed: float
) -> None:
    """e = 0, no spring, vertical link: offset 0 for any lead, either side, any Lock number; and the disc
    tilts as much as the plate: ring radius over arm times the flapping gain is 1."""
    signed = -arm if behind else arm
    rotor = replace(
        BASE, hinge_offset=0.0, root_spring=0.0, horn_rides=True, arm=signed, horn_station=station,
        link_foot_out=station, link_foot_ahead=signed, link=link, blade_mass=gamma_mass, speed=speed,
    )  # fmt: skip
    # A horn that puts pitch on faster than the blade is stiff diverges, and is refused; not meant here.
    assume(1.0 + rotor.tan_delta3 * rotor.lock_number() / 8.0 > 0.01)
    flapping = flapping_of(rotor)
    budget = budget_of(rotor)
    assert math.degrees(budget.needed) == pytest.approx(0.0, abs=1e-9)
    assert flapping.gain * rotor.ring_radius / abs(rotor.arm) == pytest.approx(1.0, rel=1e-12)


@MANY
@given(
    height=st.floats(-0.03, 0.03),
    blades=st.integers(2, 8),
    mast=st.floats(0.0, 6.28),
    name=st.sampled_from(list(ROTORS)),
)
def test_collective_only_has_no_first_harmonic(height: float, blades: int, mast: float, name: str) -> None:
    """A level plate: every blade the same to 1e-12 rad, no harmonic."""
    rotor = replace(ROTORS[name], blades=blades)
    pose = Pose(height, 0.0, 0.0)
    found = harmonics(pitch_round(rotor, pose, 24))
    assert found.amplitude < 1e-12
    assert found.second < 1e-12
    now = [pitch_now(rotor, pose, mast, b) for b in range(blades)]
    assert max(now) - min(now) < 1e-12


def test_equal_rods_are_a_level_plate() -> None:
    """Three rods raised alike, through the exact ring: level to rounding."""
    pose, _ = pose_from_rods(BASE.rod_azimuths, BASE.rod_radius, [0.017] * 3, BASE.stationary_scissors)
    assert pose.tilt < 1e-12
    assert harmonics(pitch_round(BASE, pose, 24)).amplitude < 1e-12


@pytest.mark.parametrize("name", ROTORS)
def test_sign_of_the_horn(name: str) -> None:
    """Plate up: pitch up on a leading horn, down on a trailing one. Greatest pitch where the link's
    lower end is highest (leading) or lowest (trailing), to first order in the tilt."""
    rotor = ROTORS[name]
    slope = pitch_now(rotor, Pose(1e-5, 0.0, 0.0), 0.0) - pitch_now(rotor, Pose(-1e-5, 0.0, 0.0), 0.0)
    assert (slope > 0.0) == (rotor.arm > 0.0)
    low = 0.9
    found = harmonics(pitch_round(rotor, pose_from_tilt(0.0, math.radians(0.2), low), 72))
    foot_high = low + math.pi - rotor.lead
    expected = foot_high + (math.pi if rotor.trailing else 0.0)
    assert math.degrees(wrap(found.greatest - expected)) == pytest.approx(0.0, abs=0.01)


@pytest.mark.parametrize("name", ROTORS)
def test_trailing_horn_turns_the_sum_by_half_a_turn(name: str) -> None:
    """The same head with its horn on the other side: arm, foot and lead change sign, and the need moves
    by H less twice the lead; δ3 changes sign with the arm."""
    rotor = replace(ROTORS[name], horn_rides=False)
    other = replace(rotor, arm=-rotor.arm, link_foot_ahead=-rotor.link_foot_ahead)
    assert other.trailing != rotor.trailing
    assert other.lead == pytest.approx(-rotor.lead, abs=1e-12)
    moved = budget_of(other).needed - budget_of(rotor).needed
    assert wrap(moved - 2.0 * rotor.lead - math.pi) == pytest.approx(0.0, abs=1e-12)
    riding = replace(ROTORS[name], horn_rides=True)
    assert replace(riding, arm=-riding.arm).tan_delta3 == pytest.approx(-riding.tan_delta3, abs=1e-12)
