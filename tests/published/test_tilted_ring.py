"""The tilted ring as a joint, and the arithmetic of a rod end's thread: published forms and constructions by rotations.

Azimuths of the joint are counted from the tilt axis, the level diameter of the tilted ring.
"""

import json
import math

import numpy as np
import pytest
from rotorhead import door
from rotorhead.head import demonstration
from rotorhead.mechanism.joint import (
    Drive,
    azimuth_error,
    greatest_error,
    greatest_error_at,
    pitch_per_turn,
    ring_azimuth,
    speed_ratio,
)
from rotorhead.mechanism.links import horn_angle
from rotorhead.mechanism.plate import Pose, pose_from_tilt, ring_axes, ring_point
from rotorhead.rotor import of_head
from scipy.optimize import brentq
from scipy.spatial.transform import Rotation

DRIVES: tuple[Drive, ...] = ("scissors", "pin_along", "pin_across")
TILTS = (5.0, 8.0, 10.0, 12.0, 15.0, 20.0)
# E6 (re-derived): greatest error in degrees, and where it is with scissors.
GREATEST = (0.109222, 0.280164, 0.438561, 0.632954, 0.993122, 1.781682)
AT = (44.9454, 44.8599, 44.7807, 44.6835, 44.5034, 44.1092)
AXIS = math.radians(35.0)  # azimuth of the tilt axis in the checks with a pose; any will do


def tilted(tilt: float) -> Pose:
    """A plate whose level diameter stands at AXIS, rising ahead of it."""
    return pose_from_tilt(0.03, tilt, AXIS - math.pi / 2.0)


def in_its_plane(point: np.ndarray, tilt: float) -> float:
    """Azimuth from the tilt axis of a direction of the ring, in the ring's own plane; the ring laid level by scipy."""
    level = Rotation.from_rotvec([-tilt * math.cos(AXIS), -tilt * math.sin(AXIS), 0.0]).apply(point)
    assert abs(level[2]) < 1e-12 * float(np.linalg.norm(point)) + 1e-15, "not a direction of this ring"
    return math.remainder(math.atan2(level[1], level[0]) - AXIS, 2.0 * math.pi)


def by_plate(azimuth: float, tilt: float) -> float:
    """The plate's own ring: azimuth in the ring's plane of the scissors' point."""
    return in_its_plane(np.array(ring_axes(tilted(tilt), AXIS + azimuth)[0]), tilt)


def by_rotations(azimuth: float, tilt: float) -> float:
    """Case A built afresh: lay the ring level, turn it by ψ′, tilt it; the ψ′ that brings its point into the mast's plane.

    scipy's rotations and root finder; the plane's own left-hand side is where the point must not be.
    """
    square = Rotation.from_euler("z", azimuth).apply([0.0, 1.0, 0.0])

    def off(turn: float) -> float:
        turned = Rotation.from_euler("x", tilt) * Rotation.from_euler("z", turn)
        return float(turned.apply([1.0, 0.0, 0.0]) @ square)

    return float(brentq(off, azimuth - 0.3, azimuth + 0.3, xtol=1e-14))


def by_gimbal(azimuth: float, tilt: float, pin: str) -> float:
    """Case B built afresh: the mast's turn, then one rotation on the mast-side pin, then one on the ring-side pin.

    pin 'x': the mast-side pin lies along the reference arm; 'y': square to it. The two gimbal angles are those that
    give the ring its normal; where the arm then points is read off.
    """
    normal = Rotation.from_euler("x", tilt).apply([0.0, 0.0, 1.0])
    x, y, z = Rotation.from_euler("z", -azimuth).apply(normal)
    if pin == "x":
        gimbal = Rotation.from_euler("x", math.atan2(-y, z)) * Rotation.from_euler("y", math.asin(x))
    else:
        gimbal = Rotation.from_euler("y", math.atan2(x, z)) * Rotation.from_euler("x", -math.asin(y))
    ring = Rotation.from_euler("z", azimuth) * gimbal
    assert ring.apply([0.0, 0.0, 1.0]) == pytest.approx(normal, abs=1e-14)
    arm = Rotation.from_euler("x", -tilt).apply(ring.apply([1.0, 0.0, 0.0]))
    return math.atan2(arm[1], arm[0])


def degrees_round(points: int) -> list[float]:
    """Mast azimuths over a turn."""
    return [2.0 * math.pi * i / points for i in range(points)]


@pytest.mark.parametrize(("tilt_deg", "error_deg", "at_deg"), list(zip(TILTS, GREATEST, AT, strict=True)))
@pytest.mark.parametrize("drive", DRIVES)
def test_greatest_error_and_where(drive: Drive, tilt_deg: float, error_deg: float, at_deg: float) -> None:
    """E6, table (re-derived): the size is the same for every drive; tan ψ = √cos τ with scissors, 1/√cos τ otherwise.

    Brute force: 20 000 points; at their spacing the top is met to 4ε(h/2)²/2 < 1e-8 of itself.
    """
    tilt = math.radians(tilt_deg)
    assert math.degrees(greatest_error(tilt)) == pytest.approx(error_deg, abs=5e-7)
    at = greatest_error_at(tilt, drive)
    assert math.degrees(at) == pytest.approx(90.0 - at_deg if drive == "pin_along" else at_deg, abs=5e-5)
    assert abs(azimuth_error(at, tilt, drive)) == pytest.approx(greatest_error(tilt), rel=1e-12)
    errors = [azimuth_error(a, tilt, drive) for a in degrees_round(20_000)]
    assert math.degrees(max(errors)) == pytest.approx(error_deg, abs=1e-6)
    assert math.degrees(min(errors)) == pytest.approx(-error_deg, abs=1e-6)
    # Ahead in the first quarter with scissors or the pin across, behind with the pin along.
    assert math.copysign(1.0, azimuth_error(at, tilt, drive)) == (-1.0 if drive == "pin_along" else 1.0)


@pytest.mark.parametrize("tilt_deg", TILTS)
def test_closed_forms_of_the_greatest_error(tilt_deg: float) -> None:
    """E6 (re-derived): sin ε = tan²(τ/2) = (1 − cos τ)/(1 + cos τ); tan ε = (1 − cos τ)/(2√cos τ)."""
    c = math.cos(math.radians(tilt_deg))
    found = greatest_error(math.radians(tilt_deg))
    assert math.sin(found) == pytest.approx((1.0 - c) / (1.0 + c), rel=1e-9)
    assert math.tan(found) == pytest.approx((1.0 - c) / (2.0 * math.sqrt(c)), rel=1e-9)


def test_thirty_degrees_from_the_axis_of_a_tilt_of_ten() -> None:
    """E6 (re-derived, two independent vector constructions): A 30.381255°, B 29.621652°; both built again here."""
    at, tilt = math.radians(30.0), math.radians(10.0)
    for found in (ring_azimuth(at, tilt, "scissors"), by_plate(at, tilt), by_rotations(at, tilt)):
        assert math.degrees(found) == pytest.approx(30.381255, abs=5e-7)
    for found in (ring_azimuth(at, tilt, "pin_along"), by_gimbal(at, tilt, "x")):
        assert math.degrees(found) == pytest.approx(29.621652, abs=5e-7)
    for found in (ring_azimuth(at, tilt, "pin_across"), by_gimbal(at, tilt, "y")):
        assert math.degrees(found) == pytest.approx(30.381255, abs=5e-7)


@pytest.mark.parametrize("tilt_deg", [1.0, 10.0, 20.0, 30.0])
def test_the_whole_turn_by_construction(tilt_deg: float) -> None:
    """Every kind of drive against its construction by rotations, and the plate's ring against the joint's formula."""
    tilt = math.radians(tilt_deg)
    for azimuth in degrees_round(36):
        same = math.remainder
        expected = by_rotations(azimuth, tilt)
        assert ring_azimuth(azimuth, tilt, "scissors") == pytest.approx(expected, abs=1e-12)
        assert same(by_plate(azimuth, tilt) - expected, 2.0 * math.pi) == pytest.approx(0.0, abs=1e-12)
        for drive, pin in (("pin_along", "x"), ("pin_across", "y")):
            gap = ring_azimuth(azimuth, tilt, drive) - by_gimbal(azimuth, tilt, pin)  # type: ignore[arg-type]
            assert same(gap, 2.0 * math.pi) == pytest.approx(0.0, abs=1e-12)


@pytest.mark.parametrize("tilt_deg", TILTS)
def test_a_ring_point_stands_where_the_joint_puts_it(tilt_deg: float) -> None:
    """ring_point (metres) carries the joint's error for a point of the ring wherever it stands from the scissors."""
    tilt = math.radians(tilt_deg)
    pose, radius = tilted(tilt), 0.225
    for azimuth in degrees_round(24):
        for away in (0.0, 1.0, math.pi / 2.0, -2.5):
            guide = AXIS + azimuth
            x, y, z = ring_point(pose, radius, guide + away, guide)
            point = np.array([x, y, z - pose.height])
            assert float(np.linalg.norm(point)) == pytest.approx(radius, rel=1e-14)
            gap = in_its_plane(point, tilt) - (by_rotations(azimuth, tilt) + away)
            assert math.remainder(gap, 2.0 * math.pi) == pytest.approx(0.0, abs=1e-12)


@pytest.mark.parametrize("drive", DRIVES)
@pytest.mark.parametrize("tilt_deg", TILTS)
def test_rate_of_turning(drive: Drive, tilt_deg: float) -> None:
    """E6 (read in a text on universal joints): ω₂/ω₁ = cos γ/(1 − sin²γ cos²α); with the pin along, α is counted
    from the place square to it. Also the slope of the azimuth itself, and its limits cos τ and 1/cos τ."""
    tilt, step = math.radians(tilt_deg), 1e-5
    rates = []
    for azimuth in degrees_round(72):
        alpha = azimuth + (math.pi / 2.0 if drive == "pin_along" else 0.0)
        published = math.cos(tilt) / (1.0 - math.sin(tilt) ** 2 * math.cos(alpha) ** 2)
        rates.append(speed_ratio(azimuth, tilt, drive))
        assert rates[-1] == pytest.approx(published, rel=1e-12)
        ahead, behind = (ring_azimuth(azimuth + s, tilt, drive) for s in (step, -step))
        assert (ahead - behind) / (2.0 * step) == pytest.approx(rates[-1], abs=1e-9)
    assert min(rates) == pytest.approx(math.cos(tilt), rel=1e-12)
    assert max(rates) == pytest.approx(1.0 / math.cos(tilt), rel=1e-12)
    if tilt_deg == 10.0:
        assert (min(rates), max(rates)) == pytest.approx((0.984808, 1.015427), abs=5e-7)


def waves(heights: list[float], most: int) -> list[float]:
    """Sine parts of the waves 1 to `most` a turn; a height from the tilt axis has no others."""
    found = 2.0 * np.fft.rfft(heights)[: most + 1] / len(heights)
    assert float(np.max(np.abs(found.real))) < 1e-15
    return [-float(c.imag) for c in found]


@pytest.mark.parametrize("tilt_deg", TILTS)
def test_third_wave_of_the_ring_height(tilt_deg: float) -> None:
    """E6 (re-derived): tan²(τ/2)/2 of the first; at 10°, 0.383 %: 0.3820 % with scissors, −0.3834 % with the pin along.

    The form is the first term of a series in k = tan²(τ/2)/2; scissors and pin leave it by less than k².
    """
    tilt = math.radians(tilt_deg)
    k, turn = math.tan(tilt / 2.0) ** 2 / 2.0, degrees_round(144)
    pose, radius = tilted(tilt), 0.2
    driven = [ring_point(pose, radius, AXIS + a, AXIS + a)[2] - pose.height for a in turn]
    pinned = [radius * math.sin(tilt) * math.sin(by_gimbal(a, tilt, "x")) for a in turn]
    (_, first, second, third), (_, first_b, _, third_b) = waves(driven, 3), waves(pinned, 3)
    assert second == pytest.approx(0.0, abs=1e-15)
    assert abs(third / first - k) < k * k
    assert abs(third_b / first_b + k) < k * k
    by_joint = [radius * math.sin(tilt) * math.sin(ring_azimuth(a, tilt, "scissors")) for a in turn]
    assert driven == pytest.approx(by_joint, abs=1e-15)
    if tilt_deg == 10.0:
        assert 100.0 * k == pytest.approx(0.383, abs=5e-4)
        assert 100.0 * third / first == pytest.approx(0.3820, abs=5e-5)
        assert 100.0 * third_b / first_b == pytest.approx(-0.3834, abs=5e-5)


def links(inputs: dict[str, str], arm: str = "150") -> dict[str, float]:
    """Results of the links calculator, as its page has them: degrees and millimetres."""
    head = {"base": "birch2", "mirrored": False, "changes": {"arm_mm": arm, "link_foot_ahead_mm": arm}}
    reply = json.loads(door.answer(json.dumps({"op": "run", "calculator": "links", "head": head, "inputs": inputs})))
    assert reply["state"] == "result", reply
    return {r["name"]: r["value"] for r in reply["results"]}


THREADS = [(25.4 / 24.0, 0.404254), (1.25, 0.477465)]


@pytest.mark.parametrize(("thread", "degrees"), THREADS, ids=["24 to the inch", "1.25 mm"])
def test_one_turn_of_a_rod_end(thread: float, degrees: float) -> None:
    """E7 (re-derived): one turn on a 150 mm horn; a right- and left-handed turnbuckle counts twice. Functions and page."""
    for turns in (1.0, -0.5, 3.0):
        plain = math.degrees(pitch_per_turn(thread / 1000.0, 0.150, turns))
        assert plain == pytest.approx(turns * degrees, abs=5e-7 * max(1.0, abs(turns)))
        assert math.degrees(pitch_per_turn(thread / 1000.0, 0.150, turns, turnbuckle=True)) == pytest.approx(2 * plain)
    one = links({"thread": f"{thread:.10f}", "turns": "1"})
    both = links({"thread": f"{thread:.10f}", "turns": "1", "ends": "turnbuckle"})
    assert (one["pitch"], one["length_change"]) == pytest.approx((degrees, thread), abs=5e-7)
    assert (both["pitch"], both["length_change"]) == pytest.approx((2 * degrees, 2 * thread), abs=1e-6)
    assert links({"thread": f"{thread:.10f}"}, arm="-150")["pitch"] == pytest.approx(-degrees, abs=5e-7)


@pytest.mark.parametrize(("thread", "degrees"), THREADS, ids=["24 to the inch", "1.25 mm"])
def test_one_turn_on_the_exact_linkage(thread: float, degrees: float) -> None:
    """E7 against the closed link: upright over its horn it leaves the arithmetic only by the link's own lean, η³ small.

    The horn's end moves inward by a η²/2, which leans the link by that over its length: lengths differ by (a η²/2)²/2l.
    """
    rotor = of_head(demonstration("birch2"))
    foot = (rotor.link_foot_out, rotor.link_foot_ahead, -rotor.link_rise)
    change = thread / 1000.0
    eta = horn_angle(rotor, foot, longer=change)
    arithmetic = pitch_per_turn(change, rotor.arm)
    lean_costs = (rotor.arm * eta**2 / 2.0) ** 2 / (2.0 * rotor.link * rotor.arm)
    assert abs(eta - arithmetic) < arithmetic**3 / 6.0 + 2.0 * lean_costs
    assert math.degrees(arithmetic) * rotor.arm / 0.150 == pytest.approx(degrees, abs=5e-7)
