"""What the calculators of flight share: weight and air, round places for charts, words for where a model is left."""

from collections.abc import Iterable

from ..conventions import TURN
from ..drawing.curves import round_step
from ..fields import Number
from ..flight.validity import Mark
from ..rotor import Rotor
from ..units import STANDARD_GRAVITY, System, from_si, to_si
from .common import ALTITUDE, WARMER

MASS = Number("mass", "Mass carried", "mass", 50, 60_000, (400, 20_000, 10), lambda rotor: rotor.head["mass_kg"], 0)
AIR = (ALTITUDE, WARMER)
BLADE_FIGURES = ("rpm", "radius_m", "chord_m", "blades", "twist_deg", "root_cut", "lift_slope_per_rad")
INSIDE = "yes"


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


def weight_of(mass: float) -> float:
    """Weight (N) of a mass (kg)."""
    return mass * STANDARD_GRAVITY


def rpm(rotor: Rotor) -> float:
    """Rotor speed in turns a minute."""
    return rotor.speed * 60.0 / TURN
