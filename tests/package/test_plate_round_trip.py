"""There and back: pose -> rod heights -> pose, heights -> pose -> heights, hands -> rods -> plate."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from rotorhead.head import DEMONSTRATION, demonstration
from rotorhead.head_changes import mirrored
from rotorhead.mechanism.hands import height_for_pitch, rig_of, tilt_for_cyclic
from rotorhead.mechanism.links import harmonics, pitch_now, pitch_round
from rotorhead.mechanism.plate import Pose, pose_from_rods, pose_from_tilt, rod_heights
from rotorhead.rotor import Rotor, of_head

MANY = settings(max_examples=60, deadline=None, database=None, derandomize=True)
ROTORS: dict[str, Rotor] = {i: of_head(demonstration(i)) for i in DEMONSTRATION}
ROTORS |= {f"{i}-mirrored": of_head(mirrored(demonstration(i))) for i in DEMONSTRATION}


@st.composite
def rod_angles(draw: st.DrawFn) -> list[float]:
    """Three to six rods, every gap between 25° and 170°: a set that holds a plate well."""
    count = draw(st.integers(3, 6))
    shares = [draw(st.floats(0.5, 1.0)) for _ in range(count)]
    start, whole, angles = draw(st.floats(0.0, 6.28)), sum(shares), []
    for share in shares:
        angles.append(start)
        start += 2.0 * math.pi * share / whole
    return angles


@MANY
@given(
    rod_angles(), st.floats(0.05, 0.6), st.floats(-0.1, 0.1), st.floats(0.0, 18.0), st.floats(0.0, 6.28),
    st.floats(0.0, 6.28),
)  # fmt: skip
def test_pose_to_rods_to_pose(
    angles: list[float], radius: float, height: float, tilt: float, low: float, guide: float
) -> None:
    """Any pose up to 18° of tilt comes back, by any set of rods and any scissors."""
    pose = pose_from_tilt(height, math.radians(tilt), low)
    back, residual = pose_from_rods(angles, radius, rod_heights(pose, angles, radius, guide), guide)
    assert (back.height, back.p, back.q) == pytest.approx((pose.height, pose.p, pose.q), abs=1e-9)
    assert residual < 1e-10


@MANY
@given(st.lists(st.floats(-0.25, 0.25), min_size=3, max_size=3), rod_angles(), st.floats(0.05, 0.6), st.floats(0, 6.28))
def test_three_rods_to_pose_to_rods(parts: list[float], angles: list[float], radius: float, guide: float) -> None:
    """Three heights give one pose, and that pose the same heights."""
    heights = [radius * p for p in parts]
    pose, residual = pose_from_rods(angles[:3], radius, heights, guide)
    assert rod_heights(pose, angles[:3], radius, guide) == pytest.approx(tuple(heights), abs=1e-10)
    assert residual < 1e-10


@MANY
@given(st.floats(-0.2, 0.2), st.floats(1e-3, 25.0), st.floats(0.0, 6.28))
def test_tilt_and_low_point_come_back(height: float, tilt: float, low: float) -> None:
    """Pose from height, tilt and low point states the same three."""
    pose = pose_from_tilt(height, math.radians(tilt), low)
    assert math.degrees(pose.tilt) == pytest.approx(tilt, rel=1e-9)
    assert math.remainder(pose.low_azimuth - low, 2.0 * math.pi) == pytest.approx(0.0, abs=1e-9)
    # It is the lowest place all round.
    lowest = pose.above(low, 0.3)
    assert all(pose.above(math.radians(a), 0.3) >= lowest - 1e-12 for a in range(0, 360, 15))


@pytest.mark.parametrize("name", ROTORS)
@MANY
@given(lever=st.floats(0.0, 1.0), forward=st.floats(-1.0, 1.0), left=st.floats(-1.0, 1.0))
def test_hands_to_rods_to_plate(name: str, lever: float, forward: float, left: float) -> None:
    """Rod heights for any lever and stick bring back the pose the hands asked for."""
    rotor = ROTORS[name]
    rig = rig_of(rotor)
    pose = rig.pose(lever, forward, left)
    back, _ = pose_from_rods(rotor.rod_azimuths, rotor.rod_radius, rig.heights(pose), rotor.stationary_scissors)
    assert (back.height, back.p, back.q) == pytest.approx((pose.height, pose.p, pose.q), abs=1e-9)


@pytest.mark.parametrize("name", ROTORS)
def test_ends_of_the_hands_give_the_pitch_the_head_states(name: str) -> None:
    """Lever down and up: least and greatest collective, exactly. Full stick at plate height 0: the
    cyclic pitch of the head."""
    rotor = ROTORS[name]
    head, rig = rotor.head, rig_of(rotor)
    for lever, key in ((0.0, "collective_low_deg"), (1.0, "collective_high_deg")):
        pitch = pitch_now(rotor, rig.pose(lever, 0.0, 0.0), 0.4)
        assert math.degrees(pitch) == pytest.approx(head[key], abs=1e-9)
    for tilt, low, key in (
        (rig.fore_aft, rig.forward_azimuth, "cyclic_fore_aft_deg"),
        (rig.left_right, rig.left_azimuth, "cyclic_left_right_deg"),
    ):
        found = harmonics(pitch_round(rotor, pose_from_tilt(0.0, tilt, low), 36))
        assert math.degrees(found.amplitude) == pytest.approx(head[key], abs=1e-7)


@pytest.mark.parametrize("name", ROTORS)
@MANY
@given(data=st.data())
def test_height_and_tilt_for_a_pitch_are_inverses(name: str, data: st.DataObject) -> None:
    """Any pitch within the head's range: plate height, and back; any cyclic: tilt, and back."""
    rotor = ROTORS[name]
    low, high = rotor.head["collective_low_deg"], rotor.head["collective_high_deg"]
    pitch = math.radians(data.draw(st.floats(low, high)))
    assert pitch_now(rotor, Pose(height_for_pitch(rotor, pitch), 0.0, 0.0), 0.0) == pytest.approx(pitch, abs=1e-11)
    cyclic = math.radians(data.draw(st.floats(0.5, 12.0)))
    azimuth = data.draw(st.floats(0.0, 6.28))
    pose = pose_from_tilt(0.0, tilt_for_cyclic(rotor, cyclic, azimuth), azimuth)
    assert harmonics(pitch_round(rotor, pose, 36)).amplitude == pytest.approx(cyclic, abs=1e-9)
