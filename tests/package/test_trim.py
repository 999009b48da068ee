"""Trim in level flight: forces and moments written out again in space, limits, mirror, what pilots know.

Statics is elementary; what leans on anything else says so. "Common practice" means: common practice, no source.
"""

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from rotorhead.blade.flap import hub_moment_slope
from rotorhead.faults import Refused
from rotorhead.flight.balance import strip_balance
from rotorhead.flight.flapper import flap_blade
from rotorhead.flight.hover import hover_pitch
from rotorhead.flight.hub import tilt_moment
from rotorhead.flight.stick_trim import StickTrim, sideways_bulge, stick_trim
from rotorhead.flight.tail import tail_rotor
from rotorhead.flight.trim import Fuselage, disc_trim, fuselage_of, stall_onset
from rotorhead.flight.validity import STALL_SHARE
from rotorhead.head import DEMONSTRATION, demonstration
from rotorhead.head_changes import mirrored
from rotorhead.mechanism.hands import cyclic_of_stick, lever_for, rig_of, stick_for
from rotorhead.mechanism.links import harmonics, pitch_round
from rotorhead.rotor import Rotor, of_head
from rotorhead.units import KNOT_M_PER_S

AIR = 1.225
HEADS = [(head_id, turned) for head_id in DEMONSTRATION for turned in (False, True)]
every_head = pytest.mark.parametrize(("head_id", "turned"), HEADS, ids=[f"{h}{'-mirrored' * t}" for h, t in HEADS])


def rotor_of(head_id: str, turned: bool = False) -> Rotor:
    """A demonstration head, or the same turning the other way."""
    head = demonstration(head_id)
    return of_head(mirrored(head) if turned else head)


def cruise(rotor: Rotor) -> float:
    """The head's own cruise speed, m/s."""
    return rotor.head["cruise_speed_kt"] * KNOT_M_PER_S


def rich(rotor: Rotor) -> Fuselage:
    """Nothing zero, nothing symmetric."""
    return replace(
        fuselage_of(rotor),
        ahead=0.06,
        toward_advancing=0.03,
        mast_tilt=math.radians(3.0),
        moment_volume=-0.3,
        drag_below=0.1,
    )


@every_head
@pytest.mark.parametrize("share", [0.0, 0.3, 1.0])
def test_forces_and_moments_balance_in_space(head_id: str, turned: bool, share: float) -> None:
    """Forces along and across the horizon, and moments about the centre of gravity, with the trim's own angles put back
    into full sines and cosines: left over is what small angles leave (under 1.5 % of weight, and of weight × height).

    Axes of the fuselage's floor: forward, advancing side, up.
    """
    rotor = rotor_of(head_id, turned)
    f = rich(rotor)
    t = stick_trim(rotor, share * cruise(rotor), AIR, f)

    def pitched(v: np.ndarray, nose_up: float) -> np.ndarray:
        c, s = math.cos(nose_up), math.sin(nose_up)
        return np.array([v[0] * c - v[2] * s, v[1], v[0] * s + v[2] * c])

    def banked(v: np.ndarray, down: float) -> np.ndarray:
        c, s = math.cos(down), math.sin(down)
        return np.array([v[0], v[1] * c + v[2] * s, -v[1] * s + v[2] * c])

    # Thrust square to the disc: forward by β1c, toward the retreating side by β1s, then the mast's own tilt forward.
    disc = np.array([math.sin(t.flap.cosine), -math.sin(t.flap.sine), 1.0])
    thrust = t.disc.thrust * pitched(disc / np.linalg.norm(disc), -f.mast_tilt)
    push = np.array([0.0, t.tail_thrust, 0.0])
    level = [banked(pitched(v, t.nose_up), t.bank) for v in (thrust, push)]
    force = level[0] + level[1] + np.array([-t.disc.drag, 0.0, -rotor.weight])
    assert np.abs(force).max() < 0.015 * rotor.weight

    hub = np.array([-f.ahead, -f.toward_advancing, f.below])
    about = np.cross(hub, thrust) + np.cross(np.array([-f.tail_arm, 0.0, f.tail_height]), push)
    # By components: a push forward above the centre of gravity counts nose-down, one to the retreating side rolls that way.
    slope = hub_moment_slope(rotor)
    nose_down = (
        about[1] + slope * t.flap.cosine - 0.5 * AIR * t.disc.speed**2 * f.moment_volume + t.disc.drag * f.drag_below
    )
    to_retreating = about[0] + slope * t.flap.sine
    assert abs(nose_down) < 0.015 * rotor.weight * f.below
    assert abs(to_retreating) < 0.015 * rotor.weight * f.below


@every_head
def test_pitch_found_gives_the_flap_and_the_thrust(head_id: str, turned: bool) -> None:
    """Round trip through 720 azimuths with reversed flow: tilt against the mast within 0.01°, thrust within 0.1 %."""
    rotor = rotor_of(head_id, turned)
    t = stick_trim(rotor, cruise(rotor), AIR, rich(rotor))
    fine = strip_balance(flap_blade(rotor, AIR), t.air, 1, 720)
    flap = fine.flap(t.pitch)
    assert np.degrees(flap.parts) == pytest.approx(np.degrees(t.flap.parts), abs=0.01)
    assert fine.thrust(t.pitch, flap) == pytest.approx(t.disc.ct, rel=1e-3)


@every_head
def test_standing_still_is_the_hover(head_id: str, turned: bool) -> None:
    """No speed: no tilt, no fore-and-aft stick, thrust is weight, sideways as `tail` has it; collective within 5 % of the
    blade-element momentum one (uniform inflow 2.5 to 3 % low, C6; tip loss by 0.97 R instead of Prandtl's)."""
    rotor = rotor_of(head_id, turned)
    t = stick_trim(rotor, 0.0)
    assert t.disc.thrust == rotor.weight
    assert t.disc.tilt == t.flap.cosine == t.nose_up == 0.0
    tail = tail_rotor(rotor, t.power, tilt_moment(rotor).total)
    assert t.flap.sine == pytest.approx(tail.disc_tilt, rel=1e-12)
    # atan of push over thrust against the ratio itself.
    assert -t.bank == pytest.approx(tail.bank, rel=5e-3, abs=2e-4)
    actual = t.pitch.mean - (0.0 if head_id == "birch2" else rotor.tan_delta3 * t.flap.coning)
    assert actual == pytest.approx(hover_pitch(rotor)[0], rel=0.05)


def in_pilots_words(t: StickTrim, rotor: Rotor) -> tuple[float, ...]:
    """What doesn't know azimuths: lever, stick forward and right, attitude, bank to the right."""
    return t.lever, t.forward, t.right, t.nose_up, t.bank_right(rotor.rotation)


@pytest.mark.parametrize("head_id", DEMONSTRATION)
def test_the_other_rotation(head_id: str) -> None:
    """The mirrored head: same lever, same fore and aft; stick and bank to the other side; same azimuths throughout."""
    one, other = rotor_of(head_id), rotor_of(head_id, True)
    a, b = stick_trim(one, 30.0, AIR, rich(one)), stick_trim(other, 30.0, AIR, rich(other))
    assert (a.pitch, a.flap, a.map) == (b.pitch, b.flap, b.map)
    lever, forward, right, nose_up, bank = in_pilots_words(a, one)
    assert in_pilots_words(b, other) == pytest.approx((lever, forward, -right, nose_up, -bank), rel=1e-9)


@every_head
def test_what_pilots_know(head_id: str, turned: bool) -> None:
    """Stick further forward with speed, nose lower (FAA-H-8083-21B, pp. 2-20 to 2-22, read); an anticlockwise rotor hovers
    with stick left and left side low, the mirror image the other way; lever has a bucket (common practice)."""
    rotor = rotor_of(head_id, turned)
    sweep = [stick_trim(rotor, v) for v in (0.0, 10.0, 20.0, 40.0, 60.0)]
    forward, noses = [t.forward for t in sweep], [t.nose_up for t in sweep]
    assert forward == sorted(forward)
    assert noses == sorted(noses, reverse=True)
    side = 1.0 if rotor.rotation == "anticlockwise" else -1.0
    assert side * sweep[0].right < 0.0
    assert side * sweep[0].bank_right(rotor.rotation) < 0.0
    levers = [t.lever for t in sweep]
    assert min(levers) < levers[0]
    assert levers[-1] > min(levers)
    assert all(t.map.retreating > t.map.advancing for t in sweep[1:])
    assert not any(t.outside for t in sweep[:4])


@every_head
def test_centre_of_gravity_and_mast(head_id: str, turned: bool) -> None:
    """Load forward: stick back, nose down (common practice); the mast's tilt only turns the fuselage under a disc that stays
    in the hover: then nose up by nearly the mast's tilt for a head with no hub moment."""
    rotor = rotor_of(head_id, turned)
    base = fuselage_of(rotor)
    middle, ahead = (stick_trim(rotor, 20.0, AIR, replace(base, ahead=x)) for x in (0.0, 0.1))
    assert ahead.forward < middle.forward
    assert ahead.nose_up < middle.nose_up
    up = stick_trim(rotor, 0.0, AIR, replace(base, moment_volume=-1.0))
    assert up.forward == stick_trim(rotor, 0.0).forward
    tilted = stick_trim(rotor, 0.0, AIR, replace(base, mast_tilt=0.05))
    if rotor.head.option("type") == "teetering":
        # Hanging under one point with its weight straight below it: the floor stays level, the disc too.
        assert tilted.nose_up == pytest.approx(0.0, abs=2e-4)
        assert tilted.flap.cosine == pytest.approx(-0.05, rel=5e-3)
    else:
        assert 0.0 < tilted.nose_up < 0.05


def test_no_tail_rotor_hangs_straight() -> None:
    """Without one nothing pushes sideways: no bank, no sideways tilt of the disc."""
    rotor = rotor_of("cedar4")
    t = stick_trim(rotor, 0.0, AIR, replace(fuselage_of(rotor), tail=False))
    assert (t.tail_thrust, t.bank, t.flap.sine) == (0.0, 0.0, 0.0)


@every_head
def test_sideways_bulge(head_id: str, turned: bool) -> None:
    """A7: FAA-H-8083-21B, p. 2-23 (read): transverse flow near 20 knots, rolling an anticlockwise rotor right, countered by
    left cyclic: extra pitch toward the retreating side at 20 kn; none at rest; it swells and then falls again."""
    rotor = rotor_of(head_id, turned)
    found = sideways_bulge(rotor, fastest=45.0)
    speeds, extra = zip(*found, strict=True)
    assert (speeds[0], extra[0]) == (0.0, 0.0)
    peak = max(range(len(extra)), key=extra.__getitem__)
    assert 0 < peak < len(extra) - 1
    assert math.degrees(np.interp(20.0 * KNOT_M_PER_S, speeds, extra)) > 0.5
    plain = sideways_bulge(rotor, model="uniform", steps=3)
    assert [x for _, x in plain] == [0.0] * 4


@settings(max_examples=25, deadline=None)
@given(st.sampled_from(DEMONSTRATION), st.floats(0.0, 60.0), st.floats(0.9, 1.3), st.floats(-0.1, 0.1))
def test_finite_whatever_is_asked(head_id: str, speed: float, air: float, ahead: float) -> None:
    """Every figure finite, or refused in a sentence; the disc's own trim doesn't know the fuselage."""
    rotor = rotor_of(head_id)
    t = stick_trim(rotor, speed, air, replace(fuselage_of(rotor), ahead=ahead))
    assert all(
        math.isfinite(x) for x in (*in_pilots_words(t, rotor), *t.flap.parts, t.power, t.map.greatest, t.map.stalled)
    )
    assert t.disc == disc_trim(rotor, speed, air)
    assert math.tan(t.disc.tilt) * rotor.weight == pytest.approx(t.disc.drag, rel=1e-9, abs=1e-9)
    assert math.hypot(t.disc.drag, rotor.weight) == t.disc.thrust


@pytest.mark.parametrize("head_id", DEMONSTRATION)
def test_stall_comes_earlier_in_thin_air(head_id: str) -> None:
    """Common practice: retreating-blade stall comes at a lower speed heavier and higher; at the onset the share is its limit's."""
    rotor = rotor_of(head_id)
    low, high = stall_onset(rotor), stall_onset(rotor, 0.95)
    assert low is not None
    assert high is not None
    assert high < low
    assert stick_trim(rotor, low).map.stalled > STALL_SHARE
    assert "stall" in {m.field for m in stick_trim(rotor, low).outside}
    assert stick_trim(rotor, low - 1.0).map.stalled <= STALL_SHARE


def test_marks_and_refusals() -> None:
    """Beyond the stick's stop, beyond the tip's Mach number, beyond the advance ratio: said, never hidden."""
    birch = rotor_of("birch2")
    assert {m.field for m in stick_trim(birch, 70.0).outside} >= {"stall", "lever", "stick"}
    assert "tip_mach" in {m.field for m in disc_trim(birch, 70.0, sound=310.0).outside}
    with pytest.raises(Refused, match="Advance ratio"):
        disc_trim(birch, 95.0)
    with pytest.raises(Refused, match="Speed"):
        disc_trim(birch, -1.0)
    with pytest.raises(Refused, match="Air density"):
        disc_trim(birch, 20.0, math.nan)
    with pytest.raises(Refused, match="can't balance"):
        stick_trim(birch, 20.0, AIR, replace(fuselage_of(birch), ahead=0.6))
    with pytest.raises(Refused, match="Moment per radian"):
        stick_trim(birch, 20.0, AIR, replace(fuselage_of(birch), below=-1.0))


@every_head
def test_stick_and_cyclic_there_and_back(head_id: str, turned: bool) -> None:
    """The matrix turned round, and against the links closed exactly: to first order (a twentieth of full stick, within 3 %)."""
    rotor = rotor_of(head_id, turned)
    full_forward, full_right = cyclic_of_stick(rotor)
    asked = [0.6 * a - 0.3 * b for a, b in zip(full_forward, full_right, strict=True)]
    assert stick_for(rotor, *asked) == pytest.approx((0.6, -0.3), rel=1e-9)
    rig = rig_of(rotor)
    middle = lever_for(rotor, rotor.pitch_level)
    assert rig.height(middle) == pytest.approx(0.0, abs=1e-12)
    for forward, left, column in ((0.05, 0.0, full_forward), (0.0, -0.05, full_right)):
        exact = harmonics(pitch_round(rotor, rig.pose(middle, forward, left), 72))
        off = math.hypot(exact.cosine / 0.05 - column[0], exact.sine / 0.05 - column[1])
        assert off < 0.03 * math.hypot(*column)
