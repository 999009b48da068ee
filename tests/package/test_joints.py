"""Scissors, play and the tilted ring as a joint: lengths by a ruler, brute force, the linkage turned by hand, properties.

What no source stands beside is elementary geometry.
"""

import math
from dataclasses import replace
from functools import cache
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from rotorhead.conventions import TURN
from rotorhead.faults import Refused
from rotorhead.head import DEMONSTRATION, demonstration
from rotorhead.head_changes import mirrored
from rotorhead.mechanism.hands import rig_of
from rotorhead.mechanism.joint import Drive, attachment_error, azimuth_error, greatest_error, ring_azimuth, speed_ratio
from rotorhead.mechanism.links import (
    Harmonics,
    feet_in_blade_frames,
    harmonics,
    horn_angle,
    pitch_round,
)
from rotorhead.mechanism.plate import Pose, pose_from_rods, pose_from_tilt, ring_point
from rotorhead.mechanism.scissors import Pair, arms, fold, fold_range, play_azimuth, play_pitch
from rotorhead.rotor import Rotor, of_head

HEADS = [(head_id, turned) for head_id in DEMONSTRATION for turned in (False, True)]
every_head = pytest.mark.parametrize(("head_id", "turned"), HEADS, ids=[f"{h}{'-mirrored' * t}" for h, t in HEADS])
PAIRS: tuple[Pair, ...] = ("drive", "stationary")
both_pairs = pytest.mark.parametrize("pair", PAIRS)
DRIVES: tuple[Drive, ...] = ("scissors", "pin_along", "pin_across")
MANY = settings(max_examples=100, deadline=None, database=None, derandomize=True)


@cache
def rotor_of(head_id: str, turned: bool = False) -> Rotor:
    """A demonstration head, or the same turning the other way."""
    head = demonstration(head_id)
    return of_head(mirrored(head) if turned else head)


def poses(rotor: Rotor, levers: int, directions: int) -> list[Pose]:
    """Lever in even steps; stick centred, half way and at its round stop in every direction."""
    rig = rig_of(rotor)
    sticks = [(0.0, 0.0)] + [
        (out * math.cos(i * TURN / directions), out * math.sin(i * TURN / directions))
        for out in (0.5, 1.0)
        for i in range(directions)
    ]
    return [rig.pose(i / (levers - 1), f, s) for i in range(levers) for f, s in sticks]


@every_head
@both_pairs
def test_arms_keep_their_lengths(head_id: str, turned: bool, pair: Pair) -> None:
    """Ring to apex and apex to anchor measure what the description says, over lever, stick and turn; the ring's joint
    is the ring's point, at its height and distance from the mast, and stays in the pair's own plane."""
    rotor = rotor_of(head_id, turned)
    head = rotor.head
    ring_arm, anchor_arm = (head[f"{pair}_scissors_{end}_arm_mm"] / 1000.0 for end in ("ring", "anchor"))
    radius = rotor.ring_radius if pair == "drive" else rotor.rod_radius
    height = head[f"{pair}_scissors_height_mm"] / 1000.0
    for pose in poses(rotor, 4, 9):
        for mast in (0.0, 1.0, 2.5, 4.4) if pair == "drive" else (0.0,):
            found = fold(rotor, pose, pair, mast)
            assert math.dist(found.ring, found.apex) == pytest.approx(ring_arm, abs=1e-9)
            assert math.dist(found.apex, found.anchor) == pytest.approx(anchor_arm, abs=1e-9)
            expected = (head[f"{pair}_scissors_anchor_mm"] / 1000.0, height if pair == "drive" else -height)
            assert found.anchor == pytest.approx(expected, abs=1e-15)
            guide = mast + rotor.drive_scissors if pair == "drive" else rotor.stationary_scissors
            x, y, z = ring_point(pose, radius, guide, guide)
            assert found.ring == pytest.approx((x * math.cos(guide) + y * math.sin(guide), z), abs=1e-12)
            assert y * math.cos(guide) - x * math.sin(guide) == pytest.approx(0.0, abs=1e-15)


@every_head
@both_pairs
def test_angle_at_the_apex(head_id: str, turned: bool, pair: Pair) -> None:
    """By the directions of the arms, not by their lengths; what is left before straight is the rest of 180°."""
    rotor = rotor_of(head_id, turned)
    for pose in poses(rotor, 3, 5):
        found = fold(rotor, pose, pair, 0.9)
        ends = [(p[0] - found.apex[0], p[1] - found.apex[1]) for p in (found.ring, found.anchor)]
        between = abs(math.remainder(math.atan2(*ends[0]) - math.atan2(*ends[1]), TURN))
        assert found.included == pytest.approx(between, abs=1e-12)
        assert found.reserve == pytest.approx(math.pi - between, abs=1e-12)
        # The apex stands outside the line from ring to anchor: a pair never folds in against the mast.
        share = (found.apex[1] - found.anchor[1]) / (found.ring[1] - found.anchor[1])
        assert found.apex[0] > found.anchor[0] + share * (found.ring[0] - found.anchor[0])


@every_head
@both_pairs
def test_range_by_brute_force(head_id: str, turned: bool, pair: Pair) -> None:
    """No setting of lever, stick and rotor goes beyond the range; a grid that misses the worst place by 5° of stick and
    5° of turn comes within 1 - cos² 5° = 0.8 % of the tilt's part of it, so within 1 % of the range."""
    rotor = rotor_of(head_id, turned)
    claimed = fold_range(rotor, pair)
    masts = [i * TURN / 36 for i in range(36)] if pair == "drive" else [0.0]
    found = [fold(rotor, pose, pair, mast).included for pose, mast in product(poses(rotor, 5, 36), masts)]
    assert min(found) >= claimed.least - 1e-9
    assert max(found) <= claimed.greatest + 1e-9
    grid = 0.01 * (claimed.greatest - claimed.least)
    assert min(found) <= claimed.least + grid
    assert max(found) >= claimed.greatest - grid
    assert claimed.reserve == pytest.approx(math.pi - claimed.greatest, abs=1e-15)
    assert claimed.reserve > math.radians(30.0)  # never near straight on a demonstration head
    assert claimed.least > math.radians(30.0)
    other = fold_range(rotor_of(head_id, not turned), pair)
    assert (other.least, other.greatest) == pytest.approx((claimed.least, claimed.greatest), abs=1e-9)


@both_pairs
@pytest.mark.parametrize(("ring_arm", "word"), [(0.02, "short"), (1.9, "long")])
def test_arms_that_do_not_reach_are_named(pair: Pair, ring_arm: float, word: str) -> None:
    """Too short to meet, or one so long that the other can't fold back to it: a sentence with the lengths."""
    rotor = rotor_of("alder3")
    key = f"{pair}_scissors_ring_arm_mm"
    figures = tuple((k, 1000.0 * ring_arm if k == key else v) for k, v in rotor.head.figures)
    odd = replace(rotor, head=replace(rotor.head, figures=figures))
    with pytest.raises(Refused) as caught:
        fold(odd, Pose(0.0, 0.0, 0.0), pair)
    assert caught.value.faults[0].field == key
    assert f"too {word}" in caught.value.faults[0].text
    assert f"{1000 * ring_arm:.0f}" in caught.value.faults[0].text


@MANY
@given(
    head=st.sampled_from(HEADS), pair=st.sampled_from(PAIRS), lever=st.floats(0.0, 1.0), stick=st.floats(0.0, 1.0),
    toward=st.floats(0.0, TURN), mast=st.floats(-10.0, 10.0),
)  # fmt: skip
def test_any_setting(
    head: tuple[str, bool], pair: Pair, lever: float, stick: float, toward: float, mast: float
) -> None:
    """Arms keep their lengths and the fold its range wherever the hands are."""
    rotor = rotor_of(*head)
    pose = rig_of(rotor).pose(lever, stick * math.cos(toward), stick * math.sin(toward))
    found, claimed = fold(rotor, pose, pair, mast), fold_range(rotor, pair)
    a, b, _ = arms(rotor, pair)
    assert math.dist(found.ring, found.apex) == pytest.approx(a, abs=1e-9)
    assert math.dist(found.apex, found.anchor) == pytest.approx(b, abs=1e-9)
    assert claimed.least - 1e-9 <= found.included <= claimed.greatest + 1e-9


# The tilted ring.


@MANY
@given(tilt=st.floats(0.0, 0.6), axis=st.floats(-3.0, 3.0), azimuth=st.floats(-7.0, 7.0), away=st.floats(-3.1, 3.1))
def test_a_ring_point_has_the_joints_error(tilt: float, axis: float, azimuth: float, away: float) -> None:
    """plate.ring_point and joint.attachment_error: the same azimuth seen from above, for any point of the ring."""
    pose = pose_from_tilt(0.01, tilt, axis - math.pi / 2.0)
    guide = axis + azimuth
    x, y, _ = ring_point(pose, 0.2, guide + away, guide)
    expected = attachment_error(azimuth, tilt, "scissors", away)
    assert math.remainder(math.atan2(y, x) - (guide + away) - expected, TURN) == pytest.approx(0.0, abs=1e-12)


@MANY
@given(tilt=st.floats(0.001, 1.2), azimuth=st.floats(-7.0, 7.0), drive=st.sampled_from(DRIVES))
def test_properties_of_the_joint(tilt: float, azimuth: float, drive: Drive) -> None:
    """Two waves a turn, odd about the tilt axis, never beyond the greatest; the two pins undo each other; a quarter
    turn further on one kind is the other kind; the scissors' own point has no error seen from above."""
    error = azimuth_error(azimuth, tilt, drive)
    assert azimuth_error(azimuth + math.pi, tilt, drive) == pytest.approx(error, abs=1e-12)
    assert azimuth_error(-azimuth, tilt, drive) == pytest.approx(-error, abs=1e-12)
    assert abs(error) <= greatest_error(tilt) + 1e-12
    there = ring_azimuth(azimuth, tilt, "scissors")
    assert ring_azimuth(there, tilt, "pin_along") == pytest.approx(azimuth, abs=1e-12)
    product_of_rates = speed_ratio(azimuth, tilt, "scissors") * speed_ratio(there, tilt, "pin_along")
    assert product_of_rates == pytest.approx(1.0, rel=1e-12)
    quarter = azimuth_error(azimuth + math.pi / 2.0, tilt, "pin_along")
    assert quarter == pytest.approx(azimuth_error(azimuth, tilt, "scissors"), abs=1e-12)
    assert attachment_error(azimuth, tilt, "scissors", 0.0) == pytest.approx(0.0, abs=1e-12)
    assert azimuth_error(azimuth, 0.0, drive) == pytest.approx(0.0, abs=1e-12)


@pytest.mark.parametrize("tilt_deg", [2.0, 5.0, 10.0, 15.0, 20.0])
def test_points_a_quarter_turn_from_the_scissors_err_twice(tilt_deg: float) -> None:
    """tan of their azimuth goes with cos² τ, so sin(greatest) = (1 - cos²)/(1 + cos²) where the driven point's own has
    (1 - cos)/(1 + cos): about twice, short of it by (1 - cos)²/(2(1 + cos²)) of itself."""
    tilt = math.radians(tilt_deg)
    c = math.cos(tilt)
    found = max(abs(attachment_error(i * TURN / 3600, tilt, "scissors", math.pi / 2.0)) for i in range(3600))
    assert math.sin(found) == pytest.approx((1.0 - c * c) / (1.0 + c * c), rel=1e-5)
    twice = 2.0 * math.sin(greatest_error(tilt))
    assert math.sin(found) / twice == pytest.approx(1.0 - (1.0 - c) ** 2 / (2.0 * (1.0 + c * c)), rel=1e-5)


# Play.


def blade_round(rotor: Rotor, pose: Pose, behind: float) -> tuple[float, ...]:
    """Pitch of blade 1 round the turn with the ring turned back by `behind` between mast and links."""
    feet = [feet_in_blade_frames(rotor, pose, i * TURN / 72, (0,), behind)[0] for i in range(72)]
    return tuple(rotor.pitch_level + horn_angle(rotor, foot) for foot in feet)


def shifted(one: Harmonics, other: Harmonics) -> float:
    """How far apart two first harmonics are."""
    return math.hypot(one.cosine - other.cosine, one.sine - other.sine)


def full_forward(rotor: Rotor) -> Pose:
    """Stick fully forward with the plate's centre at height 0, where the head's cyclic is given."""
    rig = rig_of(rotor)
    return rig.pose(-rig.lever_low / (rig.lever_high - rig.lever_low), 1.0, 0.0)


PLAYS = pytest.mark.parametrize("play", [0.0003, 0.001, 0.003])


@every_head
@PLAYS
def test_play_of_the_drive_scissors_shifts_the_wave(head_id: str, turned: bool, play: float) -> None:
    """cyclic · sin(play/r) against the ring turned by hand, either way. A wave moved by δ differs from itself by the
    chord 2 sin(δ/2), δ²/8 more than sin δ (less than 6e-5 here); the rest, under 1e-3, is the links' lean."""
    rotor = rotor_of(head_id, turned)
    pose, cyclic = full_forward(rotor), math.radians(rotor.head["cyclic_fore_aft_deg"])
    still = harmonics(blade_round(rotor, pose, 0.0))
    assert still.amplitude == pytest.approx(cyclic, abs=1e-9)
    for way in (1.0, -1.0):
        found = shifted(harmonics(blade_round(rotor, pose, way * play_azimuth(play, rotor.ring_radius))), still)
        assert play_pitch(play, rotor.ring_radius, cyclic) == pytest.approx(found, rel=1e-3)


@PLAYS
def test_upright_links_leave_the_chord_alone(play: float) -> None:
    """A kilometre of link straight under its horn: exactly the wave, moved; nothing but δ²/8 is left."""
    alder = rotor_of("alder3")
    rotor = replace(alder, link=1000.0, link_foot_out=alder.horn_station, link_foot_ahead=alder.arm)
    pose, turn = pose_from_tilt(0.0, 0.15, 1.0), play_azimuth(play, rotor.ring_radius)
    still, late = (harmonics(blade_round(rotor, pose, behind)) for behind in (0.0, turn))
    assert shifted(still, late) == pytest.approx(2.0 * still.amplitude * math.sin(turn / 2.0), rel=1e-6)
    expected = 2.0 * math.sin(turn / 2.0) / math.sin(turn)
    assert shifted(still, late) / play_pitch(play, rotor.ring_radius, still.amplitude) == pytest.approx(
        expected, rel=1e-6
    )
    assert late.mean == pytest.approx(still.mean, abs=1e-7)


@every_head
@PLAYS
def test_play_of_the_stationary_scissors_turns_the_low_point(head_id: str, turned: bool, play: float) -> None:
    """The rods keep their heights, the ring turns under them: the plate's low point goes with it, and so does the wave
    (a plate tilted elsewhere is the same to the linkage): the chord 2 sin(δ/2) of the cyclic, and no collective."""
    rotor = rotor_of(head_id, turned)
    pose, cyclic = full_forward(rotor), math.radians(rotor.head["cyclic_fore_aft_deg"])
    turn = play_azimuth(play, rotor.rod_radius)
    there, _ = pose_from_rods(
        [x - turn for x in rotor.rod_azimuths], rotor.rod_radius, rig_of(rotor).heights(pose),
        rotor.stationary_scissors - turn,
    )  # fmt: skip
    assert math.remainder(pose.low_azimuth - turn - there.low_azimuth, TURN) == pytest.approx(0.0, abs=1e-9)
    still, late = harmonics(pitch_round(rotor, pose)), harmonics(pitch_round(rotor, there))
    assert shifted(still, late) == pytest.approx(2.0 * cyclic * math.sin(turn / 2.0), rel=1e-6)
    assert play_pitch(play, rotor.rod_radius, cyclic) == pytest.approx(shifted(still, late), rel=turn**2)
    assert late.mean == pytest.approx(still.mean, abs=1e-12)


@every_head
@PLAYS
def test_play_gives_collective_where_links_lean_along_the_ring(head_id: str, turned: bool, play: float) -> None:
    """Level plate: every blade gets (sideways lean) · play/arm, to first order: on Alder 3 nearly as much as full stick
    makes of it, on upright links nothing. Second order: the foot swings under its horn, play²/2 over link and arm."""
    rotor = rotor_of(head_id, turned)
    out, ahead = rotor.horn_station - rotor.link_foot_out, rotor.arm - rotor.link_foot_ahead
    sideways = (out * rotor.link_foot_ahead - ahead * rotor.link_foot_out) / rotor.ring_radius / rotor.link_rise
    turn = play_azimuth(play, rotor.ring_radius)
    found = blade_round(rotor, Pose(0.0, 0.0, 0.0), turn)
    assert max(found) - min(found) < 1e-12
    second = play**2 / (rotor.link_rise * abs(rotor.arm))
    assert found[0] - rotor.pitch_level == pytest.approx(sideways * play / rotor.arm, abs=second)
    if head_id == "alder3":
        cyclic = math.radians(rotor.head["cyclic_fore_aft_deg"])
        assert abs(found[0] - rotor.pitch_level) > 0.8 * play_pitch(play, rotor.ring_radius, cyclic)
