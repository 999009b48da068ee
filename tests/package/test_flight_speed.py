"""The calculators *speed*, *stick* and *control-power*: published cases as a reader would type them, ties to the models,
the hover as the limit, words for both rotations, refusals and marks beyond the model. Sources stand beside each check.
"""

import json
import math
from html import unescape
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from rotorhead import door
from rotorhead.conventions import TURN, azimuth_of
from rotorhead.disc_field import by_bearing
from rotorhead.faults import Refused
from rotorhead.fields import Case, Choice, Text
from rotorhead.flight.disc_map import angle_at, section_at
from rotorhead.flight.held import hands_held, unflapped_lift
from rotorhead.flight.stick_trim import sideways_bulge, stick_trim
from rotorhead.head import DEMONSTRATION, demonstration
from rotorhead.head_changes import mirrored
from rotorhead.render import parts
from rotorhead.rotor import Rotor, of_head
from rotorhead.topics import named
from rotorhead.units import KNOT_M_PER_S
from scipy.integrate import quad

from .flight_cases import case, rotor_of

heads = pytest.mark.parametrize("head_id", DEMONSTRATION)
# ISA sea level as the calculators have it.
SEA_LEVEL = 1.2249992


def _turned(head_id: str) -> Rotor:
    return of_head(mirrored(demonstration(head_id)))


# Speed


@pytest.mark.parametrize(
    ("mu", "ratio"), [(0.1, (0.85 / 0.65) ** 2), (0.2, (0.95 / 0.55) ** 2), (0.3, 5.444444)]
)  # fmt: skip
def test_pressure_on_the_two_sides(mu: float, ratio: float) -> None:
    """D6 (geometry, re-derived): x 0.75, μ 0.3: 5.444444; the reversed flow is μR across."""
    rotor = rotor_of("alder3")
    knots = mu * rotor.speed * rotor.radius / KNOT_M_PER_S
    found = case("speed", rotor, speed=f"{knots:.9f}")
    assert found.result("pressure_ratio") == pytest.approx(ratio, rel=1e-6)
    assert found.result("reversed") == pytest.approx(mu * rotor.radius, rel=1e-9)
    assert found.result("advancing") - found.result("retreating") == pytest.approx(2.0 * mu * 211.115, rel=1e-4)


@heads
@pytest.mark.parametrize("knots", [20.0, 60.0, 100.0])
def test_blades_that_cannot_flap_lift_more_on_the_advancing_side(head_id: str, knots: float) -> None:
    """A4, FAA-H-8083-21B p. 2-20 (read): the advancing half lifts more, the machine would roll to the retreating side."""
    found = case("speed", rotor_of(head_id), speed=f"{knots}")
    assert found.result("unflapped_ratio") > 1.2
    # And more the faster: from even in the hover.
    assert case("speed", rotor_of(head_id), speed="0").result("unflapped_ratio") == pytest.approx(1.0, abs=1e-12)


def test_unflapped_lift_against_quadrature() -> None:
    """∫ (U_T² θ − U_T U_P) dx, lift turned round where U_T < 0, by SciPy's quad."""
    held = hands_held(rotor_of("alder3"), 60.0, SEA_LEVEL)
    blade, air, mean = held.blade, held.air, held.pitch.mean
    for psi in (TURN / 4, 3 * TURN / 4, 1.0, 4.0):
        s, c = math.sin(psi), math.cos(psi)

        def lift(x: float, s: float = s, c: float = c) -> float:
            ut = x + air.mu * s
            up = air.total + air.induced * (air.kx * x * c + air.ky * x * s)
            return math.copysign(1.0, ut) * (ut * ut * (mean + blade.twist * (x - 0.75)) - ut * up)

        edge = [-air.mu * s] if blade.start < -air.mu * s < blade.tip else []
        whole, _ = quad(lift, blade.start, blade.tip, points=edge or None, epsabs=1e-12)
        assert unflapped_lift(blade, air, mean, psi) == pytest.approx(whole, abs=1e-10)


@heads
@pytest.mark.parametrize("knots", [10.0, 40.0, 80.0, 120.0])
def test_hands_kept_still_the_disc_tilts_back(head_id: str, knots: float) -> None:
    """A5, FAA-H-8083-21B p. 2-20/21 (read): with speed the disc flaps back, and more of it with more speed."""
    rotor = rotor_of(head_id)
    slow, fast = (case("speed", rotor, hands="held", speed=f"{v}") for v in (knots, knots + 10.0))
    assert 0.0 < slow.result("held_back") < fast.result("held_back")
    # The cyclic that answers it is forward (D5: θ1s < 0).
    assert slow.result("needed_forward") > 0.0


@heads
def test_no_speed_no_flap_back(head_id: str) -> None:
    """The limit: at 0 kt the hover's hands hold the hover, thrust and all."""
    found = case("speed", rotor_of(head_id), hands="held", speed="0")
    assert found.result("held_back") == pytest.approx(0.0, abs=1e-6)
    assert found.result("held_thrust") == pytest.approx(1.0, abs=1e-6)
    assert found.answer.results["held_tilt_words"] == "level fore and aft and not to either side"


@heads
def test_the_disc_falls_to_the_advancing_side_at_low_speed(head_id: str) -> None:
    """A7, FAA-H-8083-21B p. 2-23 (read): right with an anticlockwise rotor at about 20 kt; the mirror for the other."""
    for rotor in (rotor_of(head_id), _turned(head_id)):
        side = "right" if rotor.rotation == "anticlockwise" else "left"
        words = str(case("speed", rotor, speed="20").answer.results["held_aside_words"])
        assert words.endswith(f"to the {side}")


@settings(max_examples=40, deadline=None, database=None, derandomize=True)
@given(st.sampled_from(DEMONSTRATION), st.floats(0.0, 150.0), st.sampled_from(["trimmed", "held"]))
def test_the_map_is_the_sections(head_id: str, knots: float, hands: str) -> None:
    """Every angle of the picture is the angle of a section there; the tips and the greatest are its own."""
    rotor = rotor_of(head_id)
    found = case("speed", rotor, speed=f"{knots}", hands=hands)
    f = found.answer.details
    seen = [a for row in f.map.angles for a in row if a is not None]
    assert max(seen) >= f.map.greatest
    for i in (3, 11, 19):
        for k in (0, 10, 18, 40, 54, 71):
            psi = TURN * k / 72
            alpha = f.map.angles[i][k]
            assert alpha == angle_at(f.blade, f.air, f.pitch, f.flap, f.map.radii[i], psi)
            section = section_at(f.blade, f.air, f.pitch, f.flap, f.map.radii[i], psi)
            assert (alpha is None) == (section.along <= 0.0)
            if alpha is not None:
                assert section.angle == pytest.approx(alpha, abs=1e-12)


@pytest.mark.parametrize("rotation", ["anticlockwise", "clockwise"])
def test_columns_by_bearing(rotation: str) -> None:
    """A column at the nose is the azimuth half a turn from the tail, right and left by the rotation."""
    row = [math.degrees(TURN * i / 72) for i in range(72)]
    turned = by_bearing(row, rotation)  # type: ignore[arg-type]
    for k in (0, 9, 18, 36, 54):
        wanted = math.degrees(azimuth_of(TURN * k / 72, rotation)) % 360.0  # type: ignore[arg-type]
        assert turned[k] == pytest.approx(wanted, abs=1e-9)


def _field(found: Case) -> dict[str, object]:
    html = parts(named("speed"), found)["field"]
    data: dict[str, object] = json.loads(unescape(html.partition('data-field="')[2].partition('"')[0]))
    return data


@heads
def test_the_field_is_one_array(head_id: str) -> None:
    """What the page draws: 20 rows of 72, the retreating side's hole on its own side, figures that are the array's."""
    for rotor in (rotor_of(head_id), _turned(head_id)):
        found = case("speed", rotor, speed="110")
        data = _field(found)
        rows = data["rows"]
        assert isinstance(rows, list)
        assert [len(row) for row in rows] == [72] * 20
        hole = data["none"]
        assert isinstance(hole, dict)
        assert hole["bearing"] == (270 if rotor.rotation == "anticlockwise" else 90)
        # Over the tip speed, along the hub's plane: within 2 % of the advance ratio.
        assert hole["diameter"] == pytest.approx(found.result("mu"), rel=0.02)
        greatest = max(v for row in rows for v in row if v is not None)
        assert greatest >= round(math.degrees(found.result("greatest")), 1)
    hover = _field(case("speed", rotor_of(head_id), speed="0"))
    assert hover["none"] is None


def test_beyond_the_model() -> None:
    """Advance ratio above 0.40, tips at Mach 1: refused by name; stall and fast tips: marked, never silent."""
    rotor = rotor_of("alder3")
    with pytest.raises(Refused, match=r"Advance ratio: 0\.4\d is outside") as refused:
        case("speed", rotor, speed="180")
    assert [f.field for f in refused.value.faults] == ["speed"]
    marked = case("speed", rotor, speed="155")
    assert marked.answer.results["model"] == "no, see above"
    sentence = named("speed").describe(marked)
    assert "Outside the model" in sentence
    assert "above 12°" in sentence
    assert "Mach" in named("speed").describe(case("speed", rotor, speed="158", altitude="4000", warmer="-30"))
    assert case("speed", rotor).answer.results["model"] == "yes"


@heads
def test_stall_spreads_where_it_says(head_id: str) -> None:
    """The speed named is where 5 % of the area passes 12°: below it inside the model, above it marked (to 4 kt: coarser map)."""
    rotor = rotor_of(head_id)
    onset = case("speed", rotor).result("stall_speed") / KNOT_M_PER_S
    assert case("speed", rotor, speed=f"{onset - 4.0}").result("stalled") < 0.05
    assert case("speed", rotor, speed=f"{onset + 4.0}").result("stalled") > 0.05
    # Heavier and higher it comes sooner (common practice, no source).
    heavy = case("speed", rotor, mass=f"{rotor.head['mass_kg'] * 1.1}").result("stall_speed")
    assert heavy < onset * KNOT_M_PER_S


# Stick


@heads
@pytest.mark.parametrize("knots", [0.0, 30.0, 90.0])
def test_stick_is_the_trim(head_id: str, knots: float) -> None:
    """The calculator and the package's one call give the same hands, attitude and power."""
    rotor = rotor_of(head_id)
    found = case("stick", rotor, speed=f"{knots}")
    whole = stick_trim(rotor, knots * KNOT_M_PER_S, SEA_LEVEL)
    assert found.result("lever") == pytest.approx(whole.lever, abs=1e-6)
    assert found.result("forward") == pytest.approx(whole.forward, abs=1e-6)
    assert found.result("right") == pytest.approx(whole.right, abs=1e-6)
    assert found.result("power") == pytest.approx(whole.power, rel=1e-6)
    here = found.answer.details.here
    assert here.bank == pytest.approx(whole.bank, abs=1e-7)


@heads
def test_the_bulge_is_the_models(head_id: str) -> None:
    """The extra stick at its greatest is the extra cyclic of the model over what the stick can ask sideways."""
    rotor = rotor_of(head_id)
    found = case("stick", rotor)
    at = found.result("bulge_speed")
    extra = sideways_bulge(rotor, SEA_LEVEL, fastest=at, steps=1)[-1][1]
    # A whole stick sideways is the head's cyclic left and right (15 % for what goes fore and aft and for the linkage).
    whole = math.radians(rotor.head["cyclic_left_right_deg"])
    assert found.result("bulge") == pytest.approx(extra / whole, rel=0.15)
    assert found.answer.results["bulge_side"] == ("left" if rotor.rotation == "anticlockwise" else "right")
    assert case("stick", rotor, inflow="uniform").answer.results["bulge_words"] == "nothing"


def test_drag_tilts_the_disc() -> None:
    """Statics: atan(½ ρ V² f / W) = 6.2443° for 20 000 N, 1.35 m², 100 kt in air of 1.225 kg/m³."""
    found = case("stick", rotor_of("alder3", drag_area_m2="1.35"), mass=f"{20_000.0 / 9.80665:.8f}")
    assert math.degrees(found.result("tilt")) == pytest.approx(6.2443, abs=1e-4)


@heads
def test_the_stick_goes_forward_with_speed(head_id: str) -> None:
    """A5, FAA-H-8083-21B p. 2-21 (read): the pilot moves the cyclic forward as the speed grows."""
    path = case("stick", rotor_of(head_id)).answer.details.path
    forward = [p.forward for p in path]
    assert all(b > a for a, b in pairwise(forward))


def test_a_load_further_forward_takes_the_stick_back() -> None:
    """Statics, common practice, no source; and more of it on a central hinge than on a stiff hub."""
    moved = {}
    for head_id in ("birch2", "cedar4"):
        plain, ahead = (
            case("stick", rotor_of(head_id), speed="60", cg_ahead=x).result("forward") for x in ("0", "100")
        )
        moved[head_id] = plain - ahead
        assert moved[head_id] > 0.0
    assert moved["birch2"] > 3.0 * moved["cedar4"]


@heads
def test_the_tail_rotor_in_the_hover(head_id: str) -> None:
    """FAA-H-8083-21B ch. 2 (translating tendency, from memory): drift to the right with an anticlockwise rotor, disc leaned left."""
    rotor = rotor_of(head_id)
    said = case("stick", rotor).answer.results
    sides = ("right", "left") if rotor.rotation == "anticlockwise" else ("left", "right")
    assert (said["drift_side"], said["hover_lean_side"]) == sides
    # Statics: thrust over weight is the tangent of the lean.
    assert math.tan(float(said["hover_lean"])) == pytest.approx(float(said["hover_tail_share"]), rel=1e-9)


def test_too_far_for_the_model() -> None:
    """A centre of gravity that no tilt balances is refused by its own name; a stick beyond its stop is marked."""
    with pytest.raises(Refused) as refused:
        case("stick", rotor_of("birch2"), cg_ahead="600", drag_below="3", moment_volume="-20")
    assert [f.field for f in refused.value.faults] == ["cg_ahead"]
    far = case("stick", rotor_of("birch2"), speed="140")
    assert far.answer.results["model"] == "no, see above"
    assert "% of its travel" in named("stick").describe(far)


# Control power


def test_tilted_thrust() -> None:
    """A11 (FAA-H-8083-21B p. 11-14, read; number re-derived): 20 000 N at 1.5 m: 523.599 N·m for a degree; teetering: nothing at 0 g."""
    found = case("control-power", rotor_of("birch2", mast_above_cg_m="1.5"), mass=f"{20_000.0 / 9.80665:.8f}")
    assert found.result("thrust") * math.pi / 180.0 == pytest.approx(523.599, abs=1e-3)
    assert found.result("hub") == 0.0
    weightless = case("control-power", rotor_of("birch2"), load_factor="0")
    assert weightless.answer.results["none_words"] == "nothing at all"
    assert weightless.result("total") == 0.0
    assert "damping" not in weightless.answer.results


@pytest.mark.parametrize("head_id", ["alder3", "cedar4", "dogwood5", "elder6"])
def test_offset_hinges_keep_their_moment(head_id: str) -> None:
    """A11 (read): hubs with offset attachment make a moment independent of thrust."""
    found = [case("control-power", rotor_of(head_id), load_factor=n) for n in ("0", "1", "2")]
    assert found[0].result("hub") == found[1].result("hub") == found[2].result("hub") > 0.0
    assert found[0].result("total") == found[1].result("none") == found[0].result("hub")


def test_hub_moment_by_the_number() -> None:
    """B15 (re-derived): four blades of 100 kg, 7 m, e 0.05, 30 rad/s: 209 475.0 N·m/rad."""
    rotor = rotor_of("alder3", blades="4", radius_m="7", hinge_offset="0.05", blade_mass_kg="100",
                     rpm=f"{30.0 * 30.0 / math.pi:.10f}")  # fmt: skip
    assert case("control-power", rotor).result("hub") == pytest.approx(209_475.0, rel=1e-8)


@pytest.mark.parametrize("rate", ["5", "20", "40"])
def test_the_disc_lags_behind_a_turning_mast(rate: str) -> None:
    """D7 (K.B. Amer, NACA TN 2136, from memory; re-derived): central hinge, 16 q/(γΩ) behind and q/Ω across."""
    rotor = rotor_of("birch2")
    found = case("control-power", rotor, turning=rate)
    q = math.radians(float(rate)) / rotor.speed
    assert found.result("lag") == pytest.approx(16.0 * q / rotor.lock_number(SEA_LEVEL), rel=1e-6)
    assert found.result("across") == pytest.approx(q, rel=1e-9)
    assert found.result("cross") == pytest.approx(rotor.lock_number(SEA_LEVEL) / 16.0, rel=1e-6)


@heads
def test_inflow_that_follows_slows_the_steady_rate(head_id: str) -> None:
    """With the reduced Lock number γ* the disc lags more: less rate for a degree. Without it, at a central hinge, the rate is
    γΩ/16 for each radian of cyclic (damping against control, re-derived)."""
    rotor = rotor_of(head_id)
    found = case("control-power", rotor)
    assert 0.6 < found.result("rate_inflow") / found.result("rate") < 0.8
    if head_id == "birch2":
        assert found.result("rate") == pytest.approx(
            rotor.lock_number(SEA_LEVEL) * rotor.speed / 16.0 * math.radians(1.0), rel=1e-6
        )


def test_too_fast_a_turn_is_marked() -> None:
    """Small angles: a disc more than 10° behind the mast is beyond them. Thin air and a slow, heavy blade get there."""
    rotor = rotor_of("alder3", blade_mass_kg="200", rpm="150", chord_m="0.15")
    found = case("control-power", rotor, turning="60", altitude="6000")
    assert found.answer.results["model"] == "no, see above"
    assert "behind the mast" in named("control-power").describe(found)


def test_the_same_machine_with_other_heads() -> None:
    """The chart's four lines: no hub moment at the mast, more with hinges set out, most with a stiff hub; all rise alike."""
    chart = named("control-power").chart
    assert chart
    lines = {line.name: line.values for line in chart(case("control-power", rotor_of("birch2"))).lines}
    at_nothing = [
        lines[n][0] for n in ("hinge at the mast", "hinges at 4% of the radius", "stiff hub, 1.10 flaps a turn")
    ]
    assert at_nothing[0] == 0.0 < at_nothing[1] < at_nothing[2]
    assert lines["this head"] == lines["hinge at the mast"]
    slopes = {round(v[-1] - v[0], 6) for v in lines.values()}
    assert len(slopes) == 1


@pytest.mark.parametrize("name", ["speed", "stick", "control-power"])
def test_every_slider_end_is_answered(name: str) -> None:
    """Each input at the ends of its slider, the rest at rest: a result, or a refusal that names an input."""
    for item in named(name).inputs:
        if isinstance(item, Text):
            continue
        ends = [v for v, _ in item.choices] if isinstance(item, Choice) else [f"{v:g}" for v in item.slider[:2]]
        for end in ends:
            request = {
                "op": "run",
                "calculator": name,
                "head": {"base": "cedar4"},
                "units": "metric",
                "inputs": {item.name: end},
            }
            reply = json.loads(door.answer(json.dumps(request)))
            assert reply["state"] in ("result", "invalid")
            if reply["state"] == "invalid":
                assert {f["field"] for f in reply["faults"]} <= {i.name for i in named(name).inputs}


def test_tips_near_sound_leave_no_speed_to_name() -> None:
    """A rotor whose tips are at Mach 0.85 in the hover is answered at what speed is left; beyond Mach 1 it is refused."""
    rotor = rotor_of("alder3", rpm="495")
    assert case("speed", rotor, speed="60").result("tip_mach") < 1.0
    with pytest.raises(Refused, match="Tip Mach"):
        case("speed", rotor, speed="110")
