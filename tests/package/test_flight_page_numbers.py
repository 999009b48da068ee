"""The fixed numbers of the nine pages of forward flight, worked out again, so that no page goes stale.

A line stands here as on its page, each number in braces. It must stand on the page still, and the package must give every
number to half of its last printed digit. Whether the package is right, the tests in `published` ask.
"""

import math
import re
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest
from rotorhead.blade.flap import Flapping, flap_damping, lag_angle, pitch_moment
from rotorhead.flight.atmosphere import density, speed_of_sound
from rotorhead.flight.balance import closed_balance, strip_balance
from rotorhead.flight.disc_map import advancing_tip_mach, disc_map, pressure_ratio, reversed_circle, section_at
from rotorhead.flight.edgewise import edgewise_ratio
from rotorhead.flight.flapper import Flap, FlapBlade, Pitch
from rotorhead.flight.held import unflapped_lift
from rotorhead.flight.hub import moment_slope, rate_response, tilt_moment
from rotorhead.flight.inflow import Stream, stream
from rotorhead.flight.tail import TAIL_ARM, tail_rotor, tail_thrust
from rotorhead.flight.trim import balanced, disc_trim, fuselage_of, hands_for
from rotorhead.flight.validity import STALL_ANGLE, STALL_SHARE
from rotorhead.head import DEMONSTRATION, demonstration
from rotorhead.rotor import Rotor, of_head
from rotorhead.units import DEGREE, FOOT_M, HORSEPOWER_W, KNOT_M_PER_S, POUND_FORCE_N, SLUG_KG

SEA, SOUND = density(0.0, 0.0), speed_of_sound(0.0, 0.0)
ADVANCING, RETREATING = math.pi / 2.0, 1.5 * math.pi
FT_LBF, RPM = POUND_FORCE_N * FOOT_M, 30.0 / math.pi
RATIOS, LAG = (0.1, 0.2, 0.3), (ADVANCING, ADVANCING, ADVANCING)
EIGHT = Pitch(math.radians(8.0))
MODEL = FlapBlade(gamma=8.0, nu_squared=1.0)
# A machine to check by: 20 000 N, hub 1.5 m and tail rotor 1.1 m above the centre of gravity, 40 rad/s.
CHECK = replace(of_head(demonstration("birch2")), weight=20_000.0, mast_above_cg=1.5, speed=40.0)
HUB = moment_slope(4, 1500.0, 27.0, 1.03**2)
heads = {head: of_head(demonstration(head)) for head in DEMONSTRATION}
Number = float | tuple[float, float]


@cache
def page(name: str) -> str:
    """A page's text, thin spaces made plain."""
    text = (Path(__file__).parents[2] / "docs/flight" / f"{name}.md").read_text(encoding="utf-8")
    return re.sub("[\N{NARROW NO-BREAK SPACE}\N{NO-BREAK SPACE}]", " ", text)


def holds(name: str, line: str, *values: Number) -> None:
    """The line stands on the page, and its braced numbers are the values; (value, 10): printed to tens."""
    assert line.replace("{", "").replace("}", "") in page(name), f"{name}: no longer there: {line}"
    printed = re.findall(r"\{([^}]*)\}", line)
    assert len(printed) == len(values), line
    for text, value in zip(printed, values, strict=True):
        found, digit = value if isinstance(value, tuple) else (value, 10.0 ** -len(text.partition(".")[2]))
        wanted = pytest.approx(float(text.replace(" ", "")), abs=0.5000001 * digit, rel=0.0)
        assert found == wanted, f"{name}: {line}"


def level(rotor: Rotor, knots: float, altitude: float = 0.0) -> tuple[float, float]:
    """Angle of attack at the advancing and the retreating tip in level flight, degrees."""
    b = balanced(rotor, knots * KNOT_M_PER_S, density(altitude, 0.0), None, "drees", speed_of_sound(altitude, 0.0))
    found = disc_map(b.blade, b.air, b.pitch, b.flap)
    return found.advancing / DEGREE, found.retreating / DEGREE


def test_dissymmetry() -> None:
    """Pressures, and the rotor to check by: held still, and free."""
    rows = ("| 0.1 | {1.49} | {1.71} |", "| 0.2 | {2.25} | {2.98} |", "| 0.3 | {3.45} | {5.44} |")
    for mu, line in zip(RATIOS, rows, strict=True):
        holds("dissymmetry", line, pressure_ratio(1.0, mu), pressure_ratio(0.75, mu))
    air = Stream(0.2, 0.02)
    flap = closed_balance(MODEL, air).flap(EIGHT)
    rate = -flap.cosine
    holds("dissymmetry", "It flaps back by {3.89}°.", rate / DEGREE)
    holds("dissymmetry", "A blade that swings by 3.89° rises fastest at {0.068} of the tip speed", rate)
    holds("dissymmetry", "at 210 m/s ({689} ft/s) of tip speed its tip goes up at {14} m/s ({47} ft/s)",
          210.0 / FOOT_M, 210.0 * rate, 210.0 * rate / FOOT_M)  # fmt: skip
    for line, flapping in (
        ("| angle of attack, blades held still | {7.0}° | {6.6}° |", Flap(0.0, 0.0, 0.0)),
        ("| angle of attack, blades free | {3.8}° | {11.4}° |", flap),
    ):
        tips = (section_at(MODEL, air, EIGHT, flapping, 1.0, psi).angle for psi in (ADVANCING, RETREATING))
        holds("dissymmetry", line, *(angle / DEGREE for angle in tips))
    lift = [unflapped_lift(MODEL, air, EIGHT.mean, psi) for psi in (ADVANCING, RETREATING)]
    holds("dissymmetry", "the lift of the two blades would differ {4.0} times", lift[0] / lift[1])
    twice = strip_balance(MODEL, air, 2, reversed_flow=False).flap(EIGHT).higher
    holds("dissymmetry", "In the rotor above that is {0.2}°.", math.hypot(*twice) / DEGREE)


def test_flap_back() -> None:
    """Back without cyclic, and the cyclic that undoes it."""
    rows = ("| 0.1 | {1.91}° | {1.88}° |", "| 0.2 | {3.89}° | {3.59}° |", "| 0.3 | {5.98}° | {5.03}° |")
    for mu, line in zip(RATIOS, rows, strict=True):
        found = closed_balance(MODEL, Stream(mu, 0.02))
        square, _ = found.level_pitch(EIGHT.mean)
        holds("flap-back", line, -found.flap(EIGHT).cosine / DEGREE, -square.sine / DEGREE)
    holds("flap-back", "the three rows are {41}, {82} and {122} kt", *(210.0 * mu / KNOT_M_PER_S for mu in RATIOS))


def test_inflow_roll() -> None:
    """Sideways tilt by four models of the inflow, and what is left of the downwash."""
    tilts = {}
    for line, name in (
        ("| even | {0} | {0.33}° |", "uniform"), ("| Coleman | {0.45} | {1.48}° |", "coleman"),
        ("| Drees | {0.59} | {1.84}° |", "drees"), ("| Pitt and Peters | {0.66} | {2.02}° |", "pitt_peters"),
    ):  # fmt: skip
        air = stream(0.006, 0.05, 0.0, name)
        pitch = Pitch(6.0 * 0.006 / (0.08 * 5.7) + 1.5 * air.total)
        flap = closed_balance(MODEL, air).flap(pitch)
        tilts[name] = -flap.sine
        holds("inflow-roll", line, air.kx, -flap.sine / DEGREE)
        holds("inflow-roll", "Lock number 8, coning {5.0}°.", flap.coning / DEGREE)
        if name != "uniform":
            assert 1.0 - tilts["uniform"] / tilts[name] == pytest.approx(0.8, abs=0.05)
    holds("inflow-roll", "the sum would miss four-fifths of it. And three good models differ by more than a quarter")
    assert 1.0 - tilts["coleman"] / tilts["pitt_peters"] > 0.25
    holds("inflow-roll", "μ = 0.05 ({20} kt at a tip speed of", 0.05 * 210.0 / KNOT_M_PER_S)
    left = [edgewise_ratio(knots * KNOT_M_PER_S / 8.5) for knots in (16.0, 24.0)]
    holds("inflow-roll", "at 16 kt {0.80} of it is left, and at 24 kt {0.63}.", *left)


def test_stick_and_speed() -> None:
    """Centre of gravity 100 mm forward on three heads, and one disc against the horizon."""
    back, nose, stick = [], [], []
    for rotor in (heads[head] for head in ("birch2", "alder3", "cedar4")):
        hung = fuselage_of(rotor)
        before, after = (balanced(rotor, 0.0, SEA, replace(hung, ahead=d), "drees") for d in (0.0, 0.1))
        back.append((before.flap.cosine - after.flap.cosine) / DEGREE)
        nose.append((after.alpha - before.alpha) / DEGREE)
        stick.append((hands_for(rotor, before.pitch)[1] - hands_for(rotor, after.pitch)[1]) * 100.0)
        assert before.disc.tilt == after.disc.tilt
    holds("stick-and-speed", "| disc back against the mast | {5.0}° | {1.8}° | {0.8}° |", *back)
    holds("stick-and-speed", "| nose lower, in the hover | {5.0}° | {1.8}° | {0.8}° |", *nose)
    holds("stick-and-speed", "| stick further back, of the travel to one side | {55}% | {15}% | {8}% |", *stick)
    disc, weight = disc_trim(heads["alder3"], 100.0 * KNOT_M_PER_S), heads["alder3"].weight
    holds("stick-and-speed", "drag {2190} N ({492} lbf), weight {20 100} N ({4520} lbf), and so {6.2}° forward",
          (disc.drag, 10.0), disc.drag / POUND_FORCE_N, (weight, 100.0), (weight / POUND_FORCE_N, 10.0),
          disc.tilt / DEGREE)  # fmt: skip


@pytest.mark.parametrize(
    ("knots", "line"),
    [(60.0, "| 60 kt | {0.15} | {0.82} m ({2.7} ft) | {1.2}° | {5.1}° | {0.71} |"),
     (100.0, "| 100 kt | {0.24} | {1.36} m ({4.5} ft) | {0.5}° | {7.5}° | {0.77} |"),
     (140.0, "| 140 kt | {0.34} | {1.91} m ({6.3} ft) | {0.1}° | {11.7}° | {0.83} |")],
)  # fmt: skip
def test_retreating_side(knots: float, line: str) -> None:
    """Alder 3 in level flight."""
    rotor, speed = heads["alder3"], knots * KNOT_M_PER_S
    tip = rotor.speed * rotor.radius
    across = reversed_circle(speed / tip).diameter * rotor.radius
    holds("retreating-side", line, speed / tip, across, across / FOOT_M, *level(rotor, knots),
          advancing_tip_mach(tip, speed, SOUND))  # fmt: skip


def test_what_brings_the_stall_nearer() -> None:
    """Weight, height, the circle, and the marks."""
    rotor = heads["alder3"]
    holds("retreating-side", "At 120 kt the same head has {9.3}° at its retreating tip. With a fifth more weight it is {11.0}°, and "
          "with its own weight at 3000 m ({9843} ft) {12.2}°.", level(rotor, 120.0)[1],
          level(replace(rotor, weight=1.2 * rotor.weight), 120.0)[1], 3000.0 / FOOT_M, level(rotor, 120.0, 3000.0)[1])  # fmt: skip
    across = 6.0 * reversed_circle(0.3).diameter
    holds("retreating-side", "6 m ({19.7} ft) of radius and μ = 0.3. The circle is {1.8} m ({5.9} ft) across, and at three-quarters "
          "of the radius the pressures are as {5.44} to 1", 6.0 / FOOT_M, across, across / FOOT_M, pressure_ratio(0.75, 0.3))  # fmt: skip
    holds("retreating-side", "Stall at {12}° and {5} per cent of the disc", STALL_ANGLE / DEGREE, 100.0 * STALL_SHARE)


def test_drift() -> None:
    """The machine to check by, on a central hinge and on a hub that pulls."""
    push = tail_thrust(300e3, 40.0, 7.5)
    holds("drift-and-tail-rotor", "300 kW ({402} hp) at 40 rad/s ({382} rpm), 7.5 m ({24.6} ft) to the tail rotor: {1000} N ({225} "
          "lbf)", 300e3 / HORSEPOWER_W, 40.0 * RPM, 7.5 / FOOT_M, push, push / POUND_FORCE_N)  # fmt: skip
    holds("drift-and-tail-rotor", "With a weight of 20 000 N ({4496} lbf) the disc leans {2.9}°.", 20_000.0 / POUND_FORCE_N,
          math.atan2(push, 20_000.0) / DEGREE)  # fmt: skip
    slope = tilt_moment(CHECK).total
    plain, stiff = (tail_rotor(CHECK, 300e3, slope + hub, 7.5, 1.1) for hub in (0.0, HUB))
    holds("drift-and-tail-rotor", "| Hub with {2325} N·m ({1715} lbf·ft) a", HUB * DEGREE, HUB * DEGREE / FT_LBF)
    lean, bank = ((p / DEGREE, s / DEGREE) for p, s in ((plain.disc_tilt, stiff.disc_tilt), (plain.bank, stiff.bank)))
    holds("drift-and-tail-rotor", "| lean against the mast | {2.1}° | {0.4}° |", *lean)
    holds("drift-and-tail-rotor", "| bank | {0.8}° | {2.5}° |", *bank)
    # The prediction's reason on the next page: torque over weight times radius; the hover's own push, by the head's arm.
    torques = [balanced(r, 0.0, SEA, None, "drees").push * TAIL_ARM / r.weight for r in heads.values()]
    holds("tail-rotor-head", "the weight times a twentieth to a tenth of the radius")
    assert 1.0 / 20.0 < min(torques) < max(torques) < 1.0 / 10.0


@pytest.mark.parametrize(
    ("delta3", "line"),
    [(0, "| 0° | {3.9}° | {180}° |"), (30, "| 30° | {3.3}° | {150}° |"), (45, "| 45° | {2.6}° | {135}° |"),
     (60, "| 60° | {1.8}° | {120}° |")],
)  # fmt: skip
def test_tail_rotor_head(delta3: int, line: str) -> None:
    """A teetering rotor without cyclic flaps less with delta-three, and earlier."""
    blade = replace(MODEL, tan_delta3=math.tan(delta3 * DEGREE), held=0.0)
    flap = closed_balance(blade, Stream(0.2, 0.02)).flap(EIGHT)
    size, where = math.hypot(flap.cosine, flap.sine), math.atan2(flap.sine, flap.cosine)
    holds("tail-rotor-head", line, size / DEGREE, where / DEGREE)
    assert lag_angle(8.0, 0.0, 1.0, blade.tan_delta3) / DEGREE == pytest.approx(90.0 - delta3, abs=1e-9)


def test_control_power() -> None:
    """Moments to check by, and of the five heads."""
    thrust = tilt_moment(CHECK).thrust * DEGREE
    holds("control-power", "is {524} N·m ({386} lbf·ft) a degree", thrust, thrust / FT_LBF)
    holds("control-power", "({1106} slug·ft²) at 27 rad/s ({258} rpm)", 1500.0 / (SLUG_KG * FOOT_M**2), 27.0 * RPM)
    for nu, line in ((1.03, "| 1.03 | {2325} N·m ({1715} lbf·ft) |"), (1.1, "| 1.10 | {8016} N·m ({5912} lbf·ft) |")):
        hub = moment_slope(4, 1500.0, 27.0, nu * nu) * DEGREE
        holds("control-power", line, hub, hub / FT_LBF)
    for head, line in (
        ("alder3", "| Alder 3, articulated | {544} N·m ({401} lbf·ft) | {577} N·m ({426} lbf·ft) | {51}% |"),
        ("cedar4", "| Cedar 4, hingeless | {527} N·m ({389} lbf·ft) | {2086} N·m ({1539} lbf·ft) | {80}% |"),
        ("dogwood5", "| Dogwood 5, articulated | {1417} N·m ({1045} lbf·ft) | {1926} N·m ({1420} lbf·ft) | {58}% |"),
        ("elder6", "| Elder 6, articulated | {6898} N·m ({5087} lbf·ft) | {7666} N·m ({5654} lbf·ft) | {53}% |"),
    ):
        found = tilt_moment(heads[head])
        pull, hub = found.thrust * DEGREE, found.hub * DEGREE
        holds("control-power", line, pull, pull / FT_LBF, hub, hub / FT_LBF, 100.0 * (found.hub_share or 0.0))
    birch = tilt_moment(heads["birch2"]).total * DEGREE
    holds("control-power", "| Birch 2, teetering | {126} N·m ({93} lbf·ft) | none | none |", birch, birch / FT_LBF)


def test_steady_rates() -> None:
    """A rotor to check by."""
    central = Flapping(8.0, 8.0, 0.0, 1.0, 0.0, pitch_moment(8.0, 0.0), flap_damping(8.0, 0.0), *LAG, 1.0)
    turning = rate_response(central, 1.0, 40.0, 0.2)
    holds("control-power", "0.2 rad/s ({11.5}° a second): it lags by {0.57}°, and {0.29}° comes across", 0.2 / DEGREE,
          turning.cosine / DEGREE, turning.sine / DEGREE)  # fmt: skip
    holds("control-power", "One degree of cyclic holds {20}° a second there.", 0.2 * DEGREE / turning.cosine / DEGREE)


@pytest.mark.parametrize(
    ("load", "line"),
    [(1.0, "| 1 | {2.1}° | {0.4}° |"), (0.5, "| 0.5 | {4.2}° | {0.4}° |"), (0.2, "| 0.2 | {10.5}° | {0.5}° |"),
     (0.0, "| 0 | no tilt holds it | {0.5}° |")],
)  # fmt: skip
def test_low_g(load: float, line: str) -> None:
    """The tilt that would hold the tail rotor's roll."""
    roll, slope = 1000.0 * 1.1, tilt_moment(CHECK, load).total
    tilts = [roll / moment / DEGREE for moment in (slope, slope + HUB) if moment]
    holds("low-g", line, *tilts)
    holds("low-g", "a roll of {1100} N·m ({811} lbf·ft)", roll, roll / FT_LBF)
