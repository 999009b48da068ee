"""The two sides of the disc in forward flight: pressure, reversed flow, the tips, where a blade rises, what would roll over."""

import math
from dataclasses import replace
from typing import TYPE_CHECKING

from ...conventions import advancing_side, after_side, bearing_of, bearing_words
from ...drawing.rose import predict_rose
from ...fields import Step
from ...flight.hover import hover_pitch, thrust_coefficient
from ...rotor import SEA_LEVEL_DENSITY, Rotor
from ..model import Amount, Bearing, Option, Order, Question, Setting, Template, Wrong, around, around_turn
from ..ways import HANDBOOK, worked
from .wording import airspeed, altitude, drawn, knots, shown, text_of

if TYPE_CHECKING:
    from ...flight.flapper import Flap, FlapBlade

DEGREE = math.radians(1.0)
SPEED = "speed"
BRISK = (0.12, 0.15, 0.18, 0.2, 0.22, 0.25)
TWO_SIDES = f"{HANDBOOK}, p. 2-20 (read): unequal lift of the advancing and the retreating half."


def by_hand(setting: Setting, speed: float) -> str:
    """An airspeed as a pilot and as a tip counts it: '60 kt (31 m/s)'."""
    return f"{setting.show('airspeed', speed)} ({setting.show('speed', speed, 1)})"


def unequal_air(rotor: Rotor, blade: "FlapBlade", mu: float) -> "Flap":
    """Flapping that answers the unequal air of the two sides alone: equal pitch, even inflow, a rotor without a cone."""
    from ...flight.balance import balance
    from ...flight.flapper import Pitch
    from ...flight.inflow import stream

    air = stream(thrust_coefficient(rotor), mu, 0.0, "uniform")
    return balance(replace(blade, held=0.0), air).flap(Pitch(hover_pitch(rotor)[0]))


def _pressure(setting: Setting) -> Question:
    from ...flight.disc_map import pressure_ratio

    rotor = setting.rotor
    speed = airspeed(setting, BRISK)
    place, words = setting.draw.among(((1.0, "the tip of a blade"), (0.75, "a blade at three quarters of the radius")))
    own = place * rotor.speed * rotor.radius
    value = pressure_ratio(place, speed / (rotor.speed * rotor.radius))
    tolerance = 0.05 * value
    advancing, retreating = own + speed, own - speed
    wrong = (Wrong(advancing / retreating, "pressure-goes-with-speed"), Wrong(1.0, "both-sides-alike"))
    both = f"{shown(setting, 'speed', advancing)} and {shown(setting, 'speed', retreating)}"
    steps = (
        Step("Air straight out on the advancing side, and on the retreating side.", both),
        Step("One over the other, squared.", f"({advancing / retreating:.3f})² = {value:.2f}"),
    )
    return Question(
        f"{setting.label} flies at {by_hand(setting, speed)}. By turning alone, {words} goes at {setting.show('speed', own, 1)}. Think of it straight out on "
        "the advancing side and straight out on the retreating side. How many times as great is the dynamic pressure of the air on the advancing side?",
        Amount(value, "ratio", tolerance, 2, around(value, tolerance, wrong)),
        f"The blade meets {both}. Pressure goes with the square.",
        worked(setting, "speed", steps, TWO_SIDES, speed=knots(speed)),
    )


def _reversed(setting: Setting) -> Question:
    from ...flight.disc_map import reversed_circle

    rotor = setting.rotor
    speed = airspeed(setting, BRISK)
    tip = rotor.speed * rotor.radius
    value = reversed_circle(speed / tip).diameter * rotor.radius
    tolerance = 0.06 * value
    wrong = (Wrong(2.0 * value, "circle-about-the-mast"), Wrong(0.0, "no-air-from-behind"))
    steps = (
        Step("Speed over tip speed.", f"{shown(setting, 'speed', speed)} / {shown(setting, 'speed', tip)} = {speed / tip:.3f}"),
        Step("Times the radius: so far out the retreating blade’s own speed is the machine’s.", shown(setting, "length", value)),
    )  # fmt: skip
    return Question(
        f"The tips of {setting.label}, {setting.show('length', rotor.radius)} from the mast, go round at {setting.show('speed', tip, 1)}. The machine flies at "
        f"{by_hand(setting, speed)}. On the retreating side there is a circle in which the air meets the blades from behind. How wide is it, from side to side?",
        Amount(value, "length", tolerance, 2, around(value, tolerance, wrong)),
        "It begins at the mast and ends where the blade goes backward as fast as the machine goes forward.",
        worked(setting, "speed", steps, speed=knots(speed)),
    )


def _retreating(setting: Setting) -> Question:
    rotor = setting.rotor
    speed = airspeed(setting, BRISK)
    tip = rotor.speed * rotor.radius
    value = tip - speed
    tolerance = 0.02 * value
    side = after_side(rotor.rotation)
    wrong = (Wrong(tip + speed, "sides-taken-for-each-other"), Wrong(tip, "both-sides-alike"))
    steps = (
        Step(
            "Tip speed less airspeed.",
            f"{shown(setting, 'speed', tip)} − {shown(setting, 'speed', speed)} = {shown(setting, 'speed', value)}",
        ),
    )
    return Question(
        f"{setting.label} turns {rotor.rotation}, seen from above; its tips go round at {setting.show('speed', tip, 1)}. It flies at {by_hand(setting, speed)}. With what speed does "
        f"the air meet the tip of a blade that stands straight out to the {side}?",
        Amount(value, "speed", tolerance, 1, around(value, tolerance, wrong)),
        f"On the {side} the blades go towards the tail: it is the retreating side, and the machine’s speed is taken away.",
        worked(setting, "speed", steps, speed=knots(speed)),
    )  # fmt: skip


def _mach(setting: Setting) -> Question:
    from ...flight.atmosphere import speed_of_sound
    from ...flight.disc_map import advancing_tip_mach

    rotor = setting.rotor
    speed = airspeed(setting, (0.15, 0.18, 0.2, 0.22, 0.25))
    height = altitude(setting, ((1500, 5000), (2000, 6500), (3000, 10000)))
    colder = setting.draw.among((10.0, 15.0, 20.0, 25.0))
    tip, sound, sea = rotor.speed * rotor.radius, speed_of_sound(height, -colder), speed_of_sound(0.0)
    value = advancing_tip_mach(tip, speed, sound)
    tolerance = 0.008
    wrong = (
        Wrong(tip / sound, "both-sides-alike"),
        Wrong((tip - speed) / sound, "sides-taken-for-each-other"),
        Wrong((tip + speed) / sea, "sound-is-the-same-everywhere"),
    )
    steps = (
        Step(
            "Tip speed and airspeed, over the speed of sound there.",
            f"({shown(setting, 'speed', tip)} + {shown(setting, 'speed', speed)}) / {shown(setting, 'speed', sound)} = {value:.3f}",
        ),
    )
    return Question(
        f"{setting.label} flies at {by_hand(setting, speed)} of true airspeed on a cold day, {setting.show('altitude', height)} up. Its tips go round at {setting.show('speed', tip, 1)}. At sea "
        f"level, on a standard day, sound goes at {setting.show('speed', sea)}; here it goes at {setting.show('speed', sound)}. What is the Mach number of the tip on the advancing side?",
        Amount(value, "ratio", tolerance, 2, around(value, tolerance, wrong)),
        "The two speeds add on that side, and cold air has a lower speed of sound.",
        worked(setting, "speed", steps, speed=knots(speed), altitude=text_of(height), warmer=text_of(-colder)),
    )  # fmt: skip


def _rises(setting: Setting) -> Question:
    from ...flight.flapper import flap_blade

    rotor = setting.rotor
    speed, up = airspeed(setting, BRISK), setting.draw.among((True, False))
    central = replace(flap_blade(rotor, SEA_LEVEL_DENSITY), nu_squared=1.0, e=0.0, tan_delta3=0.0, steady=0.0)
    flap = unequal_air(rotor, central, speed / (rotor.speed * rotor.radius))
    highest = math.atan2(flap.sine, flap.cosine)
    # A wave rises fastest a quarter of a turn before its top.
    rises = highest - math.pi / 2.0
    value, opposite, top, bottom = (
        bearing_of(azimuth, rotor.rotation)
        for azimuth in (rises if up else rises + math.pi, rises + math.pi if up else rises, highest, highest + math.pi)
    )
    tolerance = 12.0 * DEGREE
    wrong = (
        Wrong(opposite, "sides-taken-for-each-other"),
        Wrong(top if up else bottom, "fastest-is-highest"),
    )
    way_words = "up" if up else "down"
    steps = (
        Step("The air is fastest on the advancing side and slowest on the retreating side.", bearing_words(bearing_of(math.pi / 2.0, rotor.rotation))),
        Step(f"The flap model of this head with its hinges on the mast’s axis, at {setting.show('airspeed', speed)}: flapping each way, and where a blade is highest.",
             f"{setting.show('angle', math.hypot(flap.cosine, flap.sine))}, {bearing_words(top)}"),
        Step(f"It goes {way_words} fastest a quarter of a turn before its {'highest' if up else 'lowest'} place.", bearing_words(value)),
    )  # fmt: skip
    return Question(
        f"{setting.label} turns {rotor.rotation}, seen from above, and flies straight ahead at {setting.show('airspeed', speed)}. In thought its flap hinges stand on the mast’s axis and its "
        f"blades don’t cone; their pitch is the same all round. Mark where a blade goes {way_words} fastest, for the unequal air of the two sides.",
        Bearing(value, tolerance, around_turn(value, tolerance, wrong)),
        f"There its lift is {'greatest' if up else 'least'}, and it goes {way_words} until the difference is gone. It is {'highest' if up else 'lowest'} a quarter of a turn later.",
        worked(setting, "speed", steps, f"{HANDBOOK}, pp. 2-19, 2-20 (read): greatest upflap velocity on the advancing side.", speed=knots(speed)),
        predict_rose(rotor.rotation).svg,
    )  # fmt: skip


def _roll(setting: Setting) -> Question:
    from ...flight.balance import balance
    from ...flight.flapper import flap_blade
    from ...flight.inflow import stream

    rotor = setting.rotor
    speed = airspeed(setting, BRISK)
    blade, air = (
        flap_blade(rotor, SEA_LEVEL_DENSITY),
        stream(thrust_coefficient(rotor), speed / (rotor.speed * rotor.radius), 0.0, "uniform"),
    )
    sums = balance(blade, air).moment
    # The sine wave of the moment about the root of a blade that stays where it is: more of it on the advancing side.
    mean, wave = (sums.pitch[k][0] * hover_pitch(rotor)[0] + sums.constant[k] for k in (0, 2))
    strong, weak = advancing_side(rotor.rotation), after_side(rotor.rotation)
    right, other = (weak, strong) if wave > 0.0 else (strong, weak)
    steps = (
        Step("Lift’s moment at the root of a blade straight out on each side, over that of the average, at equal pitch.",
             f"{1.0 + wave / mean:.2f} on the {strong}, {1.0 - wave / mean:.2f} on the {weak}"),
    )  # fmt: skip
    return Question(
        f"{setting.label} turns {rotor.rotation}, seen from above. In thought its blades can neither flap nor bend. It flies straight ahead at "
        f"{setting.show('airspeed', speed)}, all blades at the same pitch. What would the unequal lift do to the machine?",
        drawn(setting, f"It would roll to the {right}", (
            Option(f"It would roll to the {other}", "sides-taken-for-each-other"),
            Option("Its nose would go up: the answer comes a quarter of a turn later", "lift-always-acts-later"),
            Option("Nothing: what one side lifts more, the other lifts less", "unequal-lift-cancels"),
        )),
        f"The blades advance on the {strong}, and lift more there. Stiff blades hand that to the hub where it arises; that is why blades are let flap.",
        worked(setting, "speed", steps, TWO_SIDES, speed=knots(speed)),
    )  # fmt: skip


def _evening(setting: Setting) -> Question:
    rotor = setting.rotor
    speed = airspeed(setting, BRISK)
    side = advancing_side(rotor.rotation)
    chain = (
        "The machine moves forward",
        f"The blade on the {side} meets faster air",
        "It has more lift than its share",
        "It goes up",
        "Going up, it meets the air more from above",
        "Its angle of attack gets less",
        "Its lift is no greater than on the other side",
    )
    left_out = setting.draw.among((1, 2, 4, 5))
    tip = rotor.speed * rotor.radius
    steps = (
        Step(
            "Air at the tips, straight out on the advancing and on the retreating side.",
            f"{shown(setting, 'speed', tip + speed)}; {shown(setting, 'speed', tip - speed)}",
        ),
    )
    return Question(
        f"{setting.label} turns {rotor.rotation}, seen from above, and gets going, up to {setting.show('airspeed', speed)}. Follow what happens on its {side} side and put it in "
        "order, each thing before what comes of it.",
        Order(tuple(step for i, step in enumerate(chain) if i != left_out), "flapping-is-the-trouble"),
        "The blade that meets more air gets out of its way, and the one on the other side goes down into it. So both sides lift alike, and the disc tilts.",
        worked(setting, "speed", steps, TWO_SIDES, speed=knots(speed)),
    )


TEMPLATES = (
    Template("pressure-on-two-sides", "sides", 2, "how unequal the air’s pressure is on the two sides", "number", (SPEED,), _pressure),
    Template("reversed-flow", "sides", 2, "how wide the circle of reversed flow is", "number", (SPEED,), _reversed),
    Template("retreating-tip", "sides", 1, "what air the retreating tip meets", "number", (SPEED,), _retreating),
    Template("advancing-tip-mach", "sides", 3, "what the Mach number of the advancing tip is made of", "number", (SPEED,), _mach),
    Template("rises-fastest", "sides", 2, "where a blade flaps up or down fastest", "mark", (SPEED,), _rises),
    Template("roll-without-flapping", "sides", 1, "what unequal lift would do to blades that couldn’t flap", "choice", (SPEED,), _roll),
    Template("lift-evened-out", "sides", 1, "how flapping evens out the lift", "order", (SPEED,), _evening),
)  # fmt: skip
