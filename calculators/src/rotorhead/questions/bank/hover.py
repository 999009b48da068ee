"""The air and the hover: density altitude, air driven down, pitch for a load, power high up."""

import math

from ...rotor import SEA_LEVEL_DENSITY
from ...units import to_si
from ..model import Amount, Option, Question, Setting, Template, Wrong, around
from .wording import altitude, drawn, shown, text_of

HIGH = ((1500, 5000), (2000, 6500), (2500, 8000), (3000, 10000))


def _density_altitude(setting: Setting) -> Question:
    height = altitude(setting, ((300, 1000), (600, 2000), (900, 3000), (1200, 4000), (1500, 5000), (1800, 6000)))
    warmer = setting.draw.step(10, 30, 5)
    solved = setting.run("air", altitude=text_of(height), warmer=text_of(warmer))
    value = solved.value("density_altitude")
    tolerance = 120.0 if setting.units == "metric" else to_si("altitude", 400.0, "imperial")
    wrong = (Wrong(height, "altimeter-is-enough"), Wrong(2.0 * height - value, "warm-air-lifts-better"))
    ten = setting.show("temperature_difference", 10.0)
    rule = setting.show("altitude", 360.0 if setting.units == "metric" else to_si("altitude", 1200.0, "imperial"))
    return Question(
        f"An altimeter set to standard pressure shows {setting.show('altitude', height)}. The air is "
        f"{setting.show('temperature_difference', warmer)} warmer than standard; as a rule, each {ten} is worth some {rule}. What is the "
        f"density altitude, the height that the rotor of {setting.label} feels?",
        Amount(value, "altitude", tolerance, 0, around(value, tolerance, wrong)),
        f"Warm air is thin air: here it has {solved.value('share') * 100:.0f}% of the density at sea level, as standard air has higher up.",
        solved,
    )


def _driven_down(setting: Setting) -> Question:
    own = setting.rotor.head["mass_kg"]
    mass = own * setting.draw.among((0.8, 0.9, 1.0, 1.1))
    height = altitude(setting, HIGH)
    solved = setting.run("hover", mass=text_of(mass), altitude=text_of(height))
    value, loading, density = (solved.value(name) for name in ("induced", "disc_loading", "density"))
    tolerance = 0.035 * value
    wrong = (
        Wrong(2.0 * value, "all-its-speed-at-the-disc"),
        Wrong(math.sqrt(loading / (2.0 * SEA_LEVEL_DENSITY)), "air-is-the-same-everywhere"),
    )
    return Question(
        f"In the hover at {setting.show('altitude', height)} {setting.label} carries {shown(setting, 'disc_loading', loading)} over its disc, and the "
        f"air there has a density of {setting.show('density', density)}. Take the flow as even over the disc. How fast does the air go down through it?",
        Amount(value, "speed", tolerance, 1, around(value, tolerance, wrong)),
        "The square of that speed is the disc loading over twice the density. Below the disc the air goes on to twice that speed.",
        solved,
    )


def _heavier(setting: Setting) -> Question:
    own = setting.rotor.head["mass_kg"]
    percent = setting.draw.among((15, 20, 25))
    share = 1.0 + percent / 100.0
    before, solved = (
        setting.run("hover", mass=text_of(0.85 * own)),
        setting.run("hover", mass=text_of(0.85 * own * share)),
    )
    old, new = before.value("command"), solved.value("command")
    at, right, straight, less = (setting.show("angle", x) for x in (old, new, old * share, old / share))
    return Question(
        f"To hover at sea level {setting.label}, lightly loaded, needs {at} of collective pitch at three quarters of the radius. Now it carries "
        f"{percent}% more. What does the hover need?",
        drawn(setting, f"More pitch: {right}, at the same rotor speed", (
            Option(f"More pitch: {straight}, by {percent}% as well", "pitch-goes-with-mass"),
            Option(f"The same {at}, at a higher rotor speed", "rotor-speeds-up-for-load"),
            Option(f"Less pitch: {less}, for the air is driven down faster", "air-driven-down-lifts-more"),
        )),
        f"The lift asks for {percent}% more angle of attack. But part of the pitch only makes up for the air that goes down already, and that "
        f"grows by {100.0 * (math.sqrt(share) - 1.0):.0f}% only.",
        solved,
    )  # fmt: skip


def _power(setting: Setting) -> Question:
    height = altitude(setting, HIGH)
    sea, solved = setting.run("hover", altitude="0"), setting.run("hover", altitude=text_of(height))
    density = solved.value("density") / sea.value("density")
    old, new = sea.value("power"), solved.value("power")
    at, right, whole, less = (shown(setting, "power", x) for x in (old, new, old / density, old * density))
    parts = [
        shown(setting, "power", run.value(name)) for name in ("power_induced", "power_profile") for run in (sea, solved)
    ]
    return Question(
        f"At sea level the rotor of {setting.label} takes {at} in the hover. At {setting.show('altitude', height)} the air has "
        f"{setting.show('percent', density)} of its density; mass and rotor speed are the same. What does the rotor take there?",
        drawn(setting, f"{right}, for the air must be driven down faster", (
            Option(f"{whole}, by as much more as there is less air", "power-goes-with-thin-air"),
            Option(f"{less}, for thin air is easier to turn in", "thin-air-costs-less"),
            Option(f"{at}, for the weight is the same", "weight-alone-sets-power"),
        )),
        f"Driving the air down goes from {parts[0]} to {parts[1]}, dragging the blades from {parts[2]} to {parts[3]}. What the engine can give up there is "
        "another matter, and the flight manual’s.",
        solved,
    )  # fmt: skip


TEMPLATES = (
    Template("density-altitude", "hover", 1, "what warmth does to the height a rotor feels", "number", ("air",), _density_altitude),
    Template("air-driven-down", "hover", 2, "how fast the air goes down through the disc", "number", ("hover",), _driven_down),
    Template("heavier-hover", "hover", 2, "how collective pitch grows with the load", "choice", ("hover",), _heavier),
    Template("hover-power-high-up", "hover", 3, "what thin air does to the power of a hover", "choice", ("hover",), _power),
)  # fmt: skip
