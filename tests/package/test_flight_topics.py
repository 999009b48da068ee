"""The calculators *air* and *hover*, and the charts of flight: published cases, ties to the functions shown, words and
refusals beyond the model. Each case is done by the calculator as a reader would type it; sources stand beside it.
"""

import json
import math
import time
from itertools import pairwise
from typing import Any

import pytest
from rotorhead import door
from rotorhead.blade.flap import hover_command
from rotorhead.faults import Refused
from rotorhead.flight.atmosphere import density, geopotential, pressure, pressure_altitude
from rotorhead.flight.hover import pitch_of_thrust, pitches_of_thrusts, thrust_of_pitch
from rotorhead.flight.power import hover_performance
from rotorhead.head import DEMONSTRATION, demonstration
from rotorhead.head_changes import mirrored
from rotorhead.rotor import of_head
from rotorhead.topics import named

from .flight_cases import case, rotor_of

FLIGHT = ("hover", "air", "coning", "delta-three", "lead-lag")
CHARTS = [name for name in FLIGHT if named(name).chart]
heads = pytest.mark.parametrize("head_id", DEMONSTRATION)


# Air


@pytest.mark.parametrize(
    ("metres", "kelvin", "bar", "kg_per_m3", "m_per_s"),
    [(0, 288.15, 1.0133, 1.2250, 340.3), (1000, 281.65, 0.8988, 1.1117, 336.4), (2000, 275.15, 0.7950, 1.0066, 332.5),
     (3000, 268.66, 0.7012, 0.9093, 328.6)],
)  # fmt: skip
def test_air_by_the_handbook(metres: float, kelvin: float, bar: float, kg_per_m3: float, m_per_s: float) -> None:
    """I1: Mechanical Engineers' Handbook, vol. 4, table 6 (read), at geometric heights; half of the last printed digit
    (density 5.1e-5: its 1000 m row is 1.11166 by its own formula)."""
    found = case("air", rotor_of("alder3"), altitude=f"{geopotential(metres):.4f}", warmer="0")
    assert found.result("temperature") == pytest.approx(kelvin, abs=5.1e-3)
    assert found.result("pressure") / 1e5 == pytest.approx(bar, abs=5.1e-5)
    assert found.result("density") == pytest.approx(kg_per_m3, abs=5.1e-5)
    assert found.result("sound") == pytest.approx(m_per_s, abs=0.051)
    assert found.result("density_altitude") == pytest.approx(geopotential(metres), abs=1e-3)


def test_an_outside_temperature_is_the_same_air() -> None:
    """I3: 5000 ft, 41.17 °F (read) typed as an outside temperature in imperial units is standard air (0.03 °F)."""
    found = case("air", rotor_of("alder3"), "imperial", altitude="5000", temperature_as="outside", outside="41.17")
    assert found.result("warmer_found") == pytest.approx(0.0, abs=0.03 * 5.0 / 9.0)
    assert found.result("density") == pytest.approx(1.055546, rel=1e-4)


@pytest.mark.parametrize("setting", [960.0, 1013.25, 1040.0])
def test_an_altimeter_with_the_setting_shows_the_height(setting: float) -> None:
    """What QNH is: an altimeter turned to it reads h(p) − h(QNH), the height (common practice, no source)."""
    found = case("air", rotor_of("alder3"), height_as="setting", altitude="800", setting=str(setting))
    shown = pressure_altitude(found.result("pressure")) - pressure_altitude(setting * 100.0)
    assert shown == pytest.approx(800.0, abs=1e-6)
    # One hectopascal near sea level is 27 to 28 ft (common practice, no source): a low setting, a high pressure altitude.
    lift = (found.result("pressure_altitude") - 800.0) / 0.3048
    assert lift == pytest.approx((1013.25 - setting) * 27.5, abs=0.03 * abs(1013.25 - setting) * 27.5 + 1e-6)


@pytest.mark.parametrize("altitude", [-900.0, 0.0, 4321.0, 11000.0])
def test_pressure_altitude_turns_pressure_round(altitude: float) -> None:
    """There and back; nothing outside."""
    assert pressure_altitude(pressure(altitude)) == pytest.approx(altitude, abs=1e-6)
    with pytest.raises(Refused, match="hPa has no altitude"):
        pressure_altitude(20_000.0)


def test_the_rule_of_a_degree() -> None:
    """The page: 36 m (120 ft, common practice) of density altitude for each degree; 20 °C make about 700 m (2300 ft)."""
    one = case("air", rotor_of("alder3"), altitude="0", warmer="1").result("density_altitude")
    assert one == pytest.approx(36.0, abs=0.5)
    assert one / 0.3048 == pytest.approx(120.0, rel=0.02)
    assert case("air", rotor_of("alder3"), altitude="0", warmer="20").result("density_altitude") == pytest.approx(
        700, abs=10
    )


@pytest.mark.parametrize("altitude", ["-500", "7000"])
@pytest.mark.parametrize("warmer", ["-50", "50"])
@pytest.mark.parametrize("setting", ["900", "1080"])
def test_the_ends_of_the_air(altitude: str, warmer: str, setting: str) -> None:
    """At the corners of what may be typed there is an answer, or a refusal that names the height."""
    request = {"op": "run", "calculator": "air", "head": {"base": "alder3"}, "units": "metric",
               "inputs": {"height_as": "setting", "altitude": altitude, "warmer": warmer, "setting": setting}}  # fmt: skip
    reply = json.loads(door.answer(json.dumps(request)))
    low = altitude == "-500" and setting == "1080"
    if low:
        assert [f["field"] for f in reply["faults"]] == ["altitude"]
    else:
        density_here = next(r["value"] for r in reply["results"] if r["name"] == "density")
        assert 0.3 < density_here < 1.7


# Hover


def test_disc_of_the_check_values() -> None:
    """C1, C2 (re-derived): T 20 000 N, R 6 m, 35 rad/s, σ 0.08, κ 1.15, c_d0 0.010, at 1.225 kg/m³ (ISO gives 1.224999)."""
    chord = 0.08 * math.pi * 6.0 / 3.0
    rotor = rotor_of(
        "alder3", radius_m="6", rpm=f"{35.0 * 30.0 / math.pi:.9f}", chord_m=f"{chord:.9f}", hinge_offset="0.028"
    )
    found = case("hover", rotor, mass=f"{20_000.0 / 9.80665:.8f}")
    assert found.result("disc_loading") == pytest.approx(176.8388, rel=1e-6)
    assert found.result("induced") == pytest.approx(8.495829, rel=1e-6)
    assert found.result("power_ideal") == pytest.approx(169_916.6, rel=1e-6)
    assert found.result("power_estimate") == pytest.approx(323_710.0, rel=2e-6)
    assert found.result("merit_estimate") == pytest.approx(0.524904, rel=2e-6)


@heads
@pytest.mark.parametrize("turned", [False, True])
def test_the_hover_is_the_models(head_id: str, turned: bool) -> None:
    """Every number is the function's; parts make the whole; the lever is where the collective lies on its travel."""
    head = demonstration(head_id)
    rotor = of_head(mirrored(head) if turned else head)
    found, own = case("hover", rotor), hover_performance(rotor, rotor.weight)
    # The standard's sea level is 1.224999 kg/m³, not 1.225.
    assert found.result("command") == pytest.approx(hover_command(rotor, own.density), abs=1e-9)
    assert found.result("power") == pytest.approx(own.power, rel=1e-12)
    assert found.result("power_induced") + found.result("power_profile") == pytest.approx(own.power, rel=1e-9)
    assert found.result("power_ideal") / own.power == pytest.approx(found.result("merit"), rel=1e-9)
    low, high = head["collective_low_deg"], head["collective_high_deg"]
    assert math.degrees(found.result("command")) == pytest.approx(low + (high - low) * found.result("lever"), abs=1e-9)
    above = hover_performance(rotor, rotor.weight, 1000.0)
    assert found.result("higher_command") == pytest.approx(above.command - own.command, abs=1e-9)
    assert found.result("higher_power") == pytest.approx(above.power / own.power - 1.0, abs=1e-9)
    assert found.answer.results["model"] == "yes"


@heads
def test_what_the_pages_say_of_all_heads(head_id: str) -> None:
    """A third to a half of the pitch is inflow; the quick formula is good to 0.2°; a fifth more weight asks for less than a
    fifth more pitch; pull over lift gives coning to a tenth."""
    rotor = of_head(demonstration(head_id))
    found = case("hover", rotor)
    ct, tip = found.result("ct"), rotor.speed * rotor.radius
    assert 0.33 < found.result("induced") / tip / 0.75 / found.result("pitch") < 0.5
    quick = 6.0 * ct / (rotor.solidity * rotor.lift_slope) + 1.5 * math.sqrt(ct / 2.0)
    assert math.degrees(abs(quick - found.result("pitch"))) < 0.2
    heavier = case("hover", rotor, mass=str(1.2 * rotor.head["mass_kg"])).result("pitch") / found.result("pitch")
    assert 1.095 < heavier < 1.2
    cone = case("coning", rotor)
    assert cone.result("free") == pytest.approx(1.0 / cone.result("pull_over_lift"), rel=0.1)


def test_beyond_the_hovers_model() -> None:
    """Too heavy for the blades' loading: words; too heavy for any pitch: refused, by the mass that was typed."""
    rotor = of_head(demonstration("elder6"))
    heavy = case("hover", rotor, mass="26000")
    assert heavy.result("blade_loading") > 0.14
    assert heavy.answer.results["model"] == "no, see above"
    assert "Outside the model: The blade loading" in named("hover").describe(heavy)
    assert "beyond the end of the lever's travel" in named("hover").describe(heavy)
    with pytest.raises(Refused, match="no blade pitch of this head carries") as refused:
        case("hover", of_head(demonstration("birch2")), mass="60000")
    assert [f.field for f in refused.value.faults] == ["mass"]


@heads
def test_secants_find_the_pitch(head_id: str) -> None:
    """The pitch found gives the thrust asked for, at any loading, one by one and in a row; beyond the span its nearer end."""
    rotor = of_head(demonstration(head_id))
    wanted = [rotor.solidity * loading for loading in (0.002, 0.01, 0.03, 0.06, 0.09, 0.12, 0.16, 0.2)]
    for found in ([pitch_of_thrust(rotor, ct) for ct in wanted], pitches_of_thrusts(rotor, wanted)):
        assert [thrust_of_pitch(rotor, pitch)[0] for pitch in found] == pytest.approx(wanted, rel=1e-6)
    assert pitch_of_thrust(rotor, 1.0) == pytest.approx(0.8, abs=1e-6)
    assert pitch_of_thrust(rotor, -1.0, 0.0) == pytest.approx(-0.2, abs=1e-6)


# Charts


def chart_of(name: str, head_id: str, units: str, **inputs: str) -> dict[str, Any]:
    """A chart's data as the door gives them."""
    request = {"op": "run", "calculator": name, "head": {"base": head_id}, "units": units, "inputs": inputs}
    html = json.loads(door.answer(json.dumps(request)))["parts"]["chart"]
    packed = html.partition('data-chart="')[2].partition('"')[0].replace("&quot;", '"').replace("&#x27;", "'")
    data: dict[str, Any] = json.loads(packed)
    return data


@heads
@pytest.mark.parametrize("curve", ["collective-mass", "collective-height", "power-mass", "power-height"])
def test_hover_chart_is_the_answers(head_id: str, curve: str) -> None:
    """Each point is the calculator's own answer with that mass or height typed; none beyond the model."""
    quantity, over = curve.split("-")
    field = "mass" if over == "mass" else "altitude"
    data = chart_of("hover", head_id, "metric", curve=curve)
    rotor = of_head(demonstration(head_id))
    xs, ys = data["x"]["values"], data["lines"][0]["values"]
    assert data["cursorField"] == field
    for x, y in list(zip(xs, ys, strict=True))[::3]:
        found = case("hover", rotor, "metric", **{field: f"{x:g}"})
        expected = found.result("power") / 1000.0 if quantity == "power" else math.degrees(found.result("pitch"))
        assert y == pytest.approx(expected, rel=6e-5)
        assert found.result("blade_loading") <= 0.14


@heads
def test_coning_chart_is_the_answers(head_id: str) -> None:
    """Each point is the answer at that rotor speed; the held cone of a teetering hub beside the free blade's."""
    data = chart_of("coning", head_id, "metric")
    rotor = of_head(demonstration(head_id))
    for x, y in list(zip(data["x"]["values"], data["lines"][0]["values"], strict=True))[::5]:
        assert y == pytest.approx(math.degrees(case("coning", rotor, rotor_speed=f"{x:g}").result("free")), rel=6e-5)
    assert len(data["lines"]) == (2 if head_id == "birch2" else 1)


def test_air_and_delta_three_charts_are_the_answers() -> None:
    """Likewise over height, in feet, and over the angle."""
    data = chart_of("air", "alder3", "imperial", altitude="3000", warmer="18")
    assert (data["cursor"], data["x"]["label"]) == (pytest.approx(3000.0), "pressure altitude, ft")
    for x, warm, standard in zip(data["x"]["values"], *(line["values"] for line in data["lines"]), strict=True):
        for y, warmer in ((warm, 10.0), (standard, 0.0)):
            assert y * 515.378818 == pytest.approx(density(x * 0.3048, warmer), rel=6e-5)
    data = chart_of("delta-three", "dogwood5", "metric")
    rotor = of_head(demonstration("dogwood5"))
    for x, y in list(zip(data["x"]["values"], data["lines"][0]["values"], strict=True))[1::4]:
        found = case("delta-three", rotor, given="typed", delta3=f"{x:g}")
        assert y == pytest.approx(math.degrees(found.result("lag")), rel=6e-5)


@pytest.mark.parametrize("name", CHARTS)
@heads
def test_places_on_x_are_round_in_both_systems(name: str, head_id: str) -> None:
    """Heights, masses, speeds and angles that a reader can name: steps of 1, 2 or 5 times a power of ten."""
    for units in ("metric", "imperial"):
        xs = chart_of(name, head_id, units)["x"]["values"]
        step = xs[1] - xs[0]
        assert f"{step:.6e}"[0] in "125"
        assert all(b - a == pytest.approx(step, abs=1e-3) for a, b in pairwise(xs))
        assert all(x / step == pytest.approx(round(x / step), abs=1e-3) for x in xs)


@pytest.mark.parametrize("name", FLIGHT)
def test_an_answer_comes_while_a_hand_moves(name: str) -> None:
    """Generously: 60 ms of processor for answer and chart on a machine shared with others (5 ms meant, see the bench)."""
    rotor = of_head(demonstration("dogwood5"))
    found = case(name, rotor)
    best = math.inf
    for mass in ("4400", "4500", "4700"):
        start = time.process_time()
        found = case(name, rotor, "metric", **({"mass": mass} if name in ("hover", "coning") else {}))
        chart = named(name).chart
        if chart:
            chart(found)
        best = min(best, time.process_time() - start)
    assert best < 0.06
