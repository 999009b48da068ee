"""Plate travel, tilts, strokes and link lean against the independent calculation, and why they differ.

Found by repeating that calculation here until it gave its printed digits:
- It took the blades coned by the hover's coning wherever the horn rides with the flap (not on the
  see-saw), and gave each link's foot a meridian of its own. The package holds the blade level, as on
  a parked machine, and turns one rigid ring by its drive scissors.
- Its lean is the greatest with the blade flapped 8° up and down from its coning besides, sampled at
  24 azimuths; the package's is that of a blade held level, as its text says.
"""

import json
import math
from dataclasses import replace
from functools import lru_cache
from pathlib import Path
from typing import Any

import pytest
from rotorhead.head import DEMONSTRATION, demonstration
from rotorhead.mechanism.assembly import greatest_link_lean
from rotorhead.mechanism.hands import rig_of
from rotorhead.mechanism.plate import ring_point
from rotorhead.rotor import Rotor, of_head
from scipy.optimize import brentq

EXPECTED: dict[str, dict[str, Any]] = json.loads(
    Path(__file__).with_name("expected_heads.json").read_text(encoding="utf-8")
)["heads"]
TURN = 2.0 * math.pi


def before_rounding(head_id: str) -> Rotor:
    """The head with the geometry it was calculated with, before the file's rounding to 0.1 mm."""
    rotor, expected = of_head(demonstration(head_id)), EXPECTED[head_id]
    ring, lead = expected["plate_ring_mm"] / 1000.0, math.radians(expected["lead_deg"])
    station = rotor.horn_station
    if rotor.horn_rides:
        station = rotor.hinge + math.tan(math.radians(expected["delta3_deg"])) * rotor.arm
    return replace(
        rotor, link_foot_out=ring * math.cos(lead), link_foot_ahead=ring * math.sin(lead), horn_station=station
    )


def coned(head_id: str) -> float:
    """Flap of the blades in that calculation, rad."""
    rotor = of_head(demonstration(head_id))
    rides = rotor.horn_rides and rotor.head.option("type") != "teetering"
    return math.radians(EXPECTED[head_id]["coning"]) if rides else 0.0


def to_horn(rotor: Rotor, eta: float, flap: float, foot: tuple[float, float, float]) -> tuple[float, float, float]:
    """Vector from a link's foot to its horn, blade frame."""
    bend = flap if rotor.horn_rides else 0.0
    reach, rise = rotor.horn_station - rotor.hinge, rotor.arm * math.sin(eta)
    return (
        rotor.hinge + reach * math.cos(bend) - rise * math.sin(bend) - foot[0],
        rotor.arm * math.cos(eta) - foot[1],
        reach * math.sin(bend) + rise * math.cos(bend) - foot[2],
    )


def closed(rotor: Rotor, flap: float, foot: tuple[float, float, float]) -> float:
    """The horn's angle at which the link has its length, by brentq."""
    return float(brentq(lambda eta: math.hypot(*to_horn(rotor, eta, flap, foot)) - rotor.link, -0.6, 0.6, xtol=1e-14))


def own_meridian(rotor: Rotor, height: float, tilt: float, low: float, azimuth: float) -> tuple[float, float, float]:
    """Foot of a link that keeps its azimuth and its distance along the plate; blade frame."""
    slope = -math.tan(tilt) * math.cos(azimuth + rotor.lead - low)
    out = rotor.ring_radius / math.hypot(1.0, slope)
    z = height + out * slope - rotor.link_rise
    return out * math.cos(rotor.lead), out * math.sin(rotor.lead), z


def height_for(rotor: Rotor, pitch: float, flap: float) -> float:
    """Height of the level plate for a pitch, by brentq on the link's length."""
    eta = pitch - rotor.pitch_level

    def miss(z: float) -> float:
        foot = (rotor.link_foot_out, rotor.link_foot_ahead, z - rotor.link_rise)
        return math.hypot(*to_horn(rotor, eta, flap, foot)) - rotor.link

    return float(brentq(miss, -0.1, 0.1, xtol=1e-15))


def ends(rotor: Rotor, flap: float) -> tuple[float, float]:
    """Heights of the level plate at least and greatest collective."""
    low, high = (math.radians(rotor.head[k]) for k in ("collective_low_deg", "collective_high_deg"))
    return height_for(rotor, low, flap), height_for(rotor, high, flap)


@lru_cache
def tilts_there(head_id: str) -> tuple[float, float]:
    """Tilts (degrees) for the head's cyclic at mid collective, as that calculation took them."""
    rotor, flap, rig = before_rounding(head_id), coned(head_id), rig_of(of_head(demonstration(head_id)))
    middle = height_for(rotor, rotor.pitch_level, flap)

    def amplitude(tilt: float, low: float) -> float:
        azimuths = [TURN * i / 36 for i in range(36)]
        pitch = [closed(rotor, flap, own_meridian(rotor, middle, tilt, low, a)) for a in azimuths]
        cosine = sum(p * math.cos(a) for p, a in zip(pitch, azimuths, strict=True)) / 18.0
        return math.hypot(cosine, sum(p * math.sin(a) for p, a in zip(pitch, azimuths, strict=True)) / 18.0)

    def tilt(key: str, low: float) -> float:
        wanted = math.radians(rotor.head[key])
        return math.degrees(brentq(lambda t: amplitude(t, low) - wanted, 0.03, 0.3, xtol=1e-9))

    return tilt("cyclic_fore_aft_deg", rig.forward_azimuth), tilt("cyclic_left_right_deg", rig.left_azimuth)


@pytest.fixture(params=DEMONSTRATION)
def head_id(request: pytest.FixtureRequest) -> str:
    """Each of the five heads."""
    return str(request.param)


def test_plate_travel(head_id: str) -> None:
    """Blade coned: their digits. Blade level: the package's figure. Coning lifts the horn's path by
    cos β and leans it by sin β: up to 1.2 % of travel on the head whose links lean most."""
    expected = EXPECTED[head_id]["plate_collective_mm"]
    low, high = ends(before_rounding(head_id), coned(head_id))
    assert 1000.0 * abs(high - low) == pytest.approx(expected, abs=6e-4)
    rotor = of_head(demonstration(head_id))
    rig = rig_of(rotor)
    assert (rig.lever_low, rig.lever_high) == pytest.approx(ends(rotor, 0.0), abs=1e-12)
    assert 1000.0 * abs(rig.lever_high - rig.lever_low) == pytest.approx(expected, rel=0.012)


def test_plate_tilts(head_id: str) -> None:
    """Blade coned, a meridian to each link: their digits. Level blade on one rigid ring: up to 2 % more."""
    expected = EXPECTED[head_id]["plate_tilt_deg"]
    assert tilts_there(head_id) == pytest.approx(tuple(expected), abs=6e-4)
    rig = rig_of(of_head(demonstration(head_id)))
    here = (math.degrees(rig.fore_aft), math.degrees(rig.left_right))
    assert here == pytest.approx(tuple(expected), rel=0.02)
    assert all(a >= b for a, b in zip(here, expected, strict=True))


def test_strokes(head_id: str) -> None:
    """Travel and both tilts in one sum for each rod: to 1 mm from their figures, and the package's
    from its own; the strokes in the head's file cover either."""
    expected, rotor = EXPECTED[head_id], of_head(demonstration(head_id))
    rig = rig_of(rotor)

    def needed(travel: float, fore: float, side: float) -> list[float]:
        found = []
        for azimuth in rotor.rod_azimuths:
            swing = math.hypot(
                math.tan(fore) * math.cos(azimuth - rig.forward_azimuth),
                math.tan(side) * math.cos(azimuth - rig.left_azimuth),
            )
            found.append(travel + 2000.0 * rotor.rod_radius * swing)
        return found

    tilts = [math.radians(t) for t in expected["plate_tilt_deg"]]
    assert needed(expected["plate_collective_mm"], *tilts) == pytest.approx(expected["rod_stroke_mm"], abs=0.501)
    own = needed(1000.0 * abs(rig.lever_high - rig.lever_low), rig.fore_aft, rig.left_right)
    assert [1000.0 * s for s in rig.stroke_needed()] == pytest.approx(own, rel=1e-9)
    for have, one, other in zip(rotor.rod_strokes, own, expected["rod_stroke_mm"], strict=True):
        assert 1000.0 * have >= max(one, other)


def lean(rotor: Rotor, flap: float, foot: tuple[float, float, float]) -> float:
    """Angle between the closed link and the mast, degrees."""
    x, y, z = to_horn(rotor, closed(rotor, flap, foot), flap, foot)
    return math.degrees(math.atan2(math.hypot(x, y), z))


def test_link_lean(head_id: str) -> None:
    """Flapped 8° either way from the coning: their figure within 0.1 % (24 azimuths are a coarse
    sample). Blade level on the rigid ring, as the package says of its own: the package's figure."""
    expected, rotor, rough = EXPECTED[head_id], before_rounding(head_id), of_head(demonstration(head_id))
    rig, cone = rig_of(rough), coned(head_id)
    tilts = [math.radians(t) for t in expected["plate_tilt_deg"]]
    sides = (cone - math.radians(8.0), cone, cone + math.radians(8.0)) if rotor.horn_rides else (0.0,)
    flapped = max(
        lean(rotor, flap, own_meridian(rotor, height, way * tilt, low, TURN * i / 24))
        for height in ends(rotor, cone)
        for tilt, low in zip(tilts, (rig.forward_azimuth, rig.left_azimuth), strict=True)
        for way in (1.0, -1.0)
        for i in range(24)
        for flap in sides
    )
    assert flapped == pytest.approx(expected["link_lean_max_deg"], rel=1e-3)

    level = 0.0
    for lever in (0.0, 1.0):
        for stick in range(8):
            pose = rig.pose(lever, math.cos(stick * TURN / 8), math.sin(stick * TURN / 8))
            for i in range(24):
                azimuth = TURN * i / 24
                guide = azimuth + rough.drive_scissors
                x, y, z = ring_point(pose, rough.ring_radius, azimuth + rough.lead, guide)
                c, s = math.cos(azimuth), math.sin(azimuth)
                level = max(level, lean(rough, 0.0, (x * c + y * s, y * c - x * s, z - rough.link_rise)))
    assert math.degrees(greatest_link_lean(rough)) == pytest.approx(level, abs=1e-9)
    if rough.horn_rides:
        # Flapping only adds to it.
        assert level < expected["link_lean_max_deg"]
    else:
        # No flapping at the horn: one ring for four links against a meridian for each, 7 %.
        assert level == pytest.approx(expected["link_lean_max_deg"], rel=0.07)
