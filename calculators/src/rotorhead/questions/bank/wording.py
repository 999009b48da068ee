"""Small things several modules of the bank need to word a question."""

import math
from collections.abc import Sequence

from ...units import KNOT_M_PER_S, decimals, from_si, to_si
from ..model import Option, Setting, choice


def places(setting: Setting, quantity: str, si: float) -> int:
    """Decimals (metric ones, as `Setting.show` takes them) that show a figure to about three places that count in the
    reader's units: what a learner works on is not rounded away."""
    size = abs(from_si(quantity, si, setting.units))
    wanted = max(0, min(4, 2 - math.floor(math.log10(size)))) if size > 0.0 else 0
    more = decimals(quantity, setting.units, 9) - 9
    return wanted - more


def shown(setting: Setting, quantity: str, si: float) -> str:
    """A figure to about three places, with its unit."""
    return setting.show(quantity, si, places(setting, quantity, si))


def drawn(setting: Setting, right: str, wrong: Sequence[Option]) -> tuple[Option, ...]:
    """The right answer and three of the wrong ones, others with another seed."""
    return choice(right, *setting.draw.shuffled(wrong))


def text_of(number: float) -> str:
    """A number as it is typed into a calculator."""
    return f"{number:.6f}".rstrip("0").rstrip(".") if number else "0"


def altitude(setting: Setting, pairs: Sequence[tuple[int, int]]) -> float:
    """A drawn altitude, m: a round number of metres, or of about as many feet for who reads feet."""
    metres, feet = setting.draw.among(pairs)
    return float(metres) if setting.units == "metric" else to_si("altitude", feet, "imperial")


def airspeed(setting: Setting, shares: Sequence[float]) -> float:
    """A drawn airspeed, m/s: a share of this head's tip speed, rounded to 5 kt."""
    tip = setting.rotor.speed * setting.rotor.radius
    return max(1, round(setting.draw.among(shares) * tip / KNOT_M_PER_S / 5.0)) * 5.0 * KNOT_M_PER_S


def knots(speed: float) -> str:
    """An airspeed (m/s) as it is typed into a calculator."""
    return text_of(round(speed / KNOT_M_PER_S, 3))
