"""How far before the nose the rods stand: common practice of the trade (no source), and what follows.

Nothing here is taken from a real machine. The heads are built in the test from horn geometry alone.
"""

import math
from typing import Any

import pytest
from rotorhead.blade.flap import flapping_of
from rotorhead.blade.phase import budget_of
from rotorhead.conventions import azimuth_of, bearing_of, wrap
from rotorhead.head import DEMONSTRATION, Head, demonstration, from_dict, to_dict
from rotorhead.head_changes import mirrored
from rotorhead.mechanism.assembly import assembled
from rotorhead.mechanism.links import harmonics, pitch_round
from rotorhead.mechanism.plate import pose_from_tilt
from rotorhead.rotor import Rotor

HEADS: dict[str, Head] = {i: demonstration(i) for i in DEMONSTRATION}
HEADS |= {f"{i}-mirrored": mirrored(h) for i, h in list(HEADS.items())}


def built(**figures: Any) -> Rotor:
    """An invented articulated head on vertical links; horn riding with the flap."""
    data = to_dict(demonstration("alder3")) | {"id": "bench", "name": "Bench"} | figures
    data["link_foot_out_mm"], data["link_foot_ahead_mm"] = data["horn_station_mm"], data["arm_mm"]
    # Rod strokes are not under test: long enough for any geometry here.
    data["rods"] = [{"bearing_deg": b, "stroke_mm": 800} for b in (0, 120, 240)]
    return assembled(from_dict(data))


@pytest.mark.parametrize("name", HEADS)
def test_plate_low_where_the_sum_says_brings_the_disc_down_at_the_nose(name: str) -> None:
    """L3 (common practice, no source): nose shifted by (φ − Δ + H). Exact links and the flapping
    response put the disc's low point within 0.02° of the nose for both sides of horn and both ways
    round at 2° of tilt; the sum is to first order, the links are not."""
    rotor = assembled(HEADS[name])
    budget = budget_of(rotor)
    pose = pose_from_tilt(0.0, math.radians(2.0), azimuth_of(budget.plate_needed, rotor.rotation))
    pitch = harmonics(pitch_round(rotor, pose, 72))
    b1c, b1s = flapping_of(rotor).response(pitch.cosine, pitch.sine)
    low = bearing_of(math.atan2(b1s, b1c) + math.pi, rotor.rotation)
    assert math.degrees(wrap(low)) == pytest.approx(0.0, abs=0.02)


@pytest.mark.parametrize("name", HEADS)
def test_sign_of_the_horn_side(name: str) -> None:
    """L3 (common practice, no source): link up is pitch up on a leading horn, pitch down on a trailing
    one; the rods of a leading horn stand before the nose (or at it), of a trailing one after it."""
    rotor = assembled(HEADS[name])
    up, level = (pitch_round(rotor, pose_from_tilt(h, 0.0, 0.0), 4)[0] for h in (0.002, 0.0))
    assert (up < level) == rotor.trailing
    assert rotor.trailing == (name.startswith("cedar4"))
    needed = budget_of(rotor).needed
    assert needed < 0.0 if rotor.trailing else needed >= 0.0


@pytest.mark.parametrize("rotation", ["clockwise", "anticlockwise"])
def test_control_points_twenty_to_thirty_degrees_off_the_nose(rotation: str) -> None:
    """L4 (common practice, no source): on some clockwise three-bladed heads the control points sit
    20–30° to the left of the nose; here lag and lead both follow from the horn, and the
    anticlockwise one has them on the right."""
    rotor = built(rotation=rotation, blades=3, hinge_offset=0.04, horn_station_mm=270, arm_mm=300, link_mm=360)
    budget = budget_of(rotor)
    # Δ = atan2(300, 270) = 48.0°; tan δ3 = (270 − 224)/300, so the lag is well under the 86° without it.
    assert math.degrees(budget.lead) == pytest.approx(math.degrees(math.atan2(300, 270)), abs=1e-9)
    assert math.degrees(budget.lag) < 80.0
    assert 20.0 < math.degrees(budget.needed) < 30.0
    bearing = math.degrees(wrap(budget.plate_needed))
    assert (-30.0 < bearing < -20.0) if rotation == "clockwise" else (20.0 < bearing < 30.0)


def test_a_mirrored_three_bladed_demonstration_head_has_its_rods_on_the_left() -> None:
    """L4 (common practice, no source): the invented three-bladed head turned the other way."""
    left = math.degrees(wrap(budget_of(assembled(mirrored(demonstration("alder3")))).plate_needed))
    right = math.degrees(wrap(budget_of(assembled(demonstration("alder3"))).plate_needed))
    assert -30.0 < left < -20.0
    assert right == pytest.approx(-left, abs=1e-9)


def test_buildable_geometry_spans_ten_to_ninety_degrees() -> None:
    """L5 (common practice, no source): offsets from about 10° up to 90° occur. Horn station, arm and
    hinge distance swept within what assembles; every ten degrees between is met."""
    offsets = []
    for e in (0.01, 0.03, 0.06, 0.10):
        for station in (0.9, 1.0, 1.1):
            for arm in (60, 100, 160, 260):
                rotor = built(
                    hinge_offset=e, horn_station_mm=round(station * e * 5600), arm_mm=arm, link_mm=400,
                    collective_low_deg=4, collective_high_deg=12, cyclic_fore_aft_deg=5, cyclic_left_right_deg=5,
                )  # fmt: skip
                offsets.append(math.degrees(budget_of(rotor).needed))
    met = {round(o / 10.0) for o in offsets}
    assert met >= set(range(1, 10))
    assert min(offsets) > 0.0


@pytest.mark.parametrize("arm", [100, 200, -200])
@pytest.mark.parametrize("station", [0, 80, 160])
def test_a_central_hinge_needs_no_offset_whatever_the_horn(arm: int, station: int) -> None:
    """L5 (common practice, no source): e = 0 and a vertical link give 0."""
    rotor = built(hinge_offset=0, horn_station_mm=station, arm_mm=arm, link_mm=400)
    assert math.degrees(budget_of(rotor).needed) == pytest.approx(0.0, abs=1e-9)
