"""What the calculators of flight share: weight and air, round places for charts, words for where a model is left."""

from collections.abc import Callable, Collection, Iterable
from dataclasses import replace
from functools import lru_cache
from typing import TypeVar

from ..conventions import TURN, advancing_side, after_side, degrees_text
from ..faults import Refused
from ..fields import Choice, Number, Values, fixed
from ..flight.atmosphere import density, speed_of_sound
from ..flight.validity import Mark
from ..numbers import round_step
from ..rotor import Rotor
from ..units import STANDARD_GRAVITY, System, from_si, to_si
from .air_inputs import ALTITUDE, WARMER

MASS = Number("mass", "Mass carried", "mass", 50, 60_000, (400, 20_000, 10), lambda rotor: rotor.head["mass_kg"], 0)
AIR = (ALTITUDE, WARMER)
SPEED = Number("speed", "Airspeed", "airspeed", 0, 300, (0, 180, 1), fixed(100.0), 0, "true airspeed")
INFLOW = Choice(
    "inflow", "Spread of the inflow",
    (("drees", "Drees"), ("coleman", "Coleman, Feingold and Stempin"), ("pitt_peters", "Pitt and Peters"), ("payne", "Payne"),
     ("white_blake", "White and Blake"), ("howlett", "Howlett"), ("uniform", "the same everywhere")),
    "drees", "named models of how unevenly the air goes down", group="The inflow",
)  # fmt: skip
BLADE_FIGURES = ("rpm", "radius_m", "chord_m", "blades", "twist_deg", "root_cut", "lift_slope_per_rad")
INSIDE = "yes"
T = TypeVar("T")


def places(quantity: str, low: float, high: float, parts: int, system: System) -> tuple[float, ...]:
    """About `parts` round places from `low` to `high` (SI) in the reader's units, given in SI."""
    first, last = from_si(quantity, low, system), from_si(quantity, high, system)
    step = round_step(last - first, parts)
    start = round(first / step)
    return tuple(to_si(quantity, step * (start + i), system) for i in range(round((last - first) / step) + 1))


def model_words(marks: Iterable[Mark]) -> str:
    """Whether an answer is inside the model."""
    return "no, see above" if tuple(marks) else INSIDE


def model_sentence(marks: Iterable[Mark]) -> str:
    """What is added to a calculator's sentence when the model is left: what it leaves out that now matters."""
    texts = " ".join(mark.text for mark in marks)
    return f" Outside the model: {texts}" if texts else ""


@lru_cache(maxsize=8)
def loaded_with(rotor: Rotor, mass: float) -> Rotor:
    """The head carrying a mass (kg); itself when that is its own."""
    weight = weight_of(mass)
    return rotor if abs(weight - rotor.weight) < 1e-9 * weight else replace(rotor, weight=weight)


def blamed(work: Callable[[], T], names: Collection[str]) -> T:
    """Run `work`; a refusal about something inside the models becomes one of the speed, which led there."""
    try:
        return work()
    except Refused as refused:
        faults = (f if f.head or f.field in names else replace(f, field=SPEED.name) for f in refused.faults)
        raise Refused(faults) from None


def air_of(values: Values) -> tuple[float, float]:
    """Density (kg/m³) and speed of sound (m/s) at the height and temperature typed."""
    altitude, warmer = float(values["altitude"]), float(values["warmer"])
    return density(altitude, warmer), speed_of_sound(altitude, warmer)


def aside_words(rotor: Rotor, toward_advancing: float) -> str:
    """A tilt to one side (rad) in words: '0.4° to the right'."""
    text = degrees_text(abs(toward_advancing))
    if text == degrees_text(0.0):
        return "not to either side"
    return f"{text} to the {(advancing_side if toward_advancing > 0.0 else after_side)(rotor.rotation)}"


def back_words(back: float) -> str:
    """A tilt fore and aft (rad) in words: '2.3° back'."""
    text = degrees_text(abs(back))
    return "level fore and aft" if text == degrees_text(0.0) else f"{text} {'back' if back > 0.0 else 'forward'}"


def weight_of(mass: float) -> float:
    """Weight (N) of a mass (kg)."""
    return mass * STANDARD_GRAVITY


def rpm(rotor: Rotor) -> float:
    """Rotor speed in turns a minute."""
    return rotor.speed * 60.0 / TURN
