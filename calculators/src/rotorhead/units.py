"""Units at the edge of the package: SI and radians inside, the reader's units outside.

Every quantity has a metric and an imperial unit. The factors are exact by definition unless said
otherwise (NIST SP 811, Guide for the Use of the SI, appendix B; from memory, checked against
`scipy.constants` in the tests): 1 ft = 0.3048 m, 1 in = 25.4 mm, 1 lb = 0.45359237 kg,
standard gravity 9.80665 m/s².
"""

import math
from dataclasses import dataclass
from typing import Final, Literal

System = Literal["metric", "imperial"]
SYSTEMS: Final[tuple[System, ...]] = ("metric", "imperial")

FOOT_M: Final = 0.3048
INCH_M: Final = 0.0254
POUND_KG: Final = 0.45359237
STANDARD_GRAVITY: Final = 9.80665
POUND_FORCE_N: Final = POUND_KG * STANDARD_GRAVITY
SLUG_KG: Final = POUND_FORCE_N / FOOT_M
KNOT_M_PER_S: Final = 1852.0 / 3600.0
PSI_PA: Final = POUND_FORCE_N / INCH_M**2
RPM_RAD_PER_S: Final = 2.0 * math.pi / 60.0
DEGREE: Final = math.pi / 180.0
KELVIN_AT_0_C: Final = 273.15
KELVIN_AT_0_F: Final = KELVIN_AT_0_C - 32.0 * 5.0 / 9.0
# Conventional mercury, 13 595.1 kg/m³ under standard gravity (NIST SP 811, from memory).
MERCURY_INCH_PA: Final = 13595.1 * STANDARD_GRAVITY * INCH_M
# 550 ft·lbf/s.
HORSEPOWER_W: Final = 550.0 * FOOT_M * POUND_FORCE_N


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit a reader sees: `symbol`, `scale`, the SI value of one such unit, and `zero`, that of none (temperatures)."""

    symbol: str
    scale: float
    zero: float = 0.0


@dataclass(frozen=True, slots=True)
class Quantity:
    """What a number measures: its unit in each system and the decimals shown in metric units."""

    name: str
    metric: Unit
    imperial: Unit
    decimals: int

    def unit(self, system: System) -> Unit:
        """The unit of this quantity in a system of units."""
        return self.metric if system == "metric" else self.imperial


def _same(name: str, symbol: str, scale: float, decimals: int) -> Quantity:
    unit = Unit(symbol, scale)
    return Quantity(name, unit, unit, decimals)


QUANTITIES: Final[dict[str, Quantity]] = {
    q.name: q
    for q in (
        _same("angle", "°", DEGREE, 1),
        _same("ratio", "", 1.0, 3),
        _same("percent", "%", 0.01, 0),
        _same("count", "", 1.0, 0),
        _same("turn_rate", "rpm", RPM_RAD_PER_S, 0),
        _same("angle_rate", "°/s", DEGREE, 2),
        _same("time", "s", 1.0, 3),
        _same("turns", "turns", 2.0 * math.pi, 2),
        _same("airspeed", "kt", KNOT_M_PER_S, 0),
        _same("per_radian", "per rad", 1.0, 2),
        Quantity("length", Unit("m", 1.0), Unit("ft", FOOT_M), 2),
        Quantity("small_length", Unit("mm", 0.001), Unit("in", INCH_M), 1),
        Quantity("mass", Unit("kg", 1.0), Unit("lb", POUND_KG), 1),
        Quantity("speed", Unit("m/s", 1.0), Unit("ft/s", FOOT_M), 0),
        Quantity("climb_rate", Unit("m/s", 1.0), Unit("ft/min", FOOT_M / 60.0), 1),
        Quantity("force", Unit("N", 1.0), Unit("lbf", POUND_FORCE_N), 0),
        Quantity("pull", Unit("kN", 1000.0), Unit("lbf", POUND_FORCE_N), 0),
        Quantity("moment", Unit("N·m", 1.0), Unit("lbf·ft", POUND_FORCE_N * FOOT_M), 0),
        Quantity(
            "moment_per_angle",
            Unit("N·m/°", 1.0 / DEGREE),
            Unit("lbf·ft/°", POUND_FORCE_N * FOOT_M / DEGREE),
            0,
        ),
        Quantity(
            "moment_per_rate",
            Unit("N·m per °/s", 1.0 / DEGREE),
            Unit("lbf·ft per °/s", POUND_FORCE_N * FOOT_M / DEGREE),
            0,
        ),
        Quantity("volume", Unit("m³", 1.0), Unit("ft³", FOOT_M**3), 2),
        Quantity("spring", Unit("N·m/rad", 1.0), Unit("lbf·ft/rad", POUND_FORCE_N * FOOT_M), 0),
        Quantity("pressure", Unit("MPa", 1.0e6), Unit("psi", PSI_PA), 1),
        Quantity("air_pressure", Unit("hPa", 100.0), Unit("inHg", MERCURY_INCH_PA), 1),
        Quantity("temperature", Unit("°C", 1.0, KELVIN_AT_0_C), Unit("°F", 5.0 / 9.0, KELVIN_AT_0_F), 1),
        Quantity("power", Unit("kW", 1000.0), Unit("hp", HORSEPOWER_W), 0),
        Quantity("area", Unit("m²", 1.0), Unit("ft²", FOOT_M**2), 2),
        Quantity("inertia", Unit("kg·m²", 1.0), Unit("slug·ft²", SLUG_KG * FOOT_M**2), 0),
        Quantity("density", Unit("kg/m³", 1.0), Unit("slug/ft³", SLUG_KG / FOOT_M**3), 3),
        Quantity("disc_loading", Unit("N/m²", 1.0), Unit("lbf/ft²", POUND_FORCE_N / FOOT_M**2), 0),
        Quantity("altitude", Unit("m", 1.0), Unit("ft", FOOT_M), 0),
        Quantity("temperature_difference", Unit("°C", 1.0), Unit("°F", 5.0 / 9.0), 0),
        Quantity("pitch_per_travel", Unit("°/mm", DEGREE / 0.001), Unit("°/in", DEGREE / INCH_M), 3),
    )
}

# Decimals to add (or take away) when a figure is shown in the imperial unit instead: a larger unit
# needs more of them, a smaller one fewer, for the same number of meaningful figures.
_EXTRA_DECIMALS: Final = {
    "small_length": 2, "density": 2, "mass": 0, "inertia": 0, "altitude": 0, "force": 1,
    "pressure": -1, "moment": 1, "spring": 1, "moment_per_angle": 1, "moment_per_rate": 1, "volume": -1, "climb_rate": -1, "pitch_per_travel": -1, "disc_loading": 1, "length": 0, "pull": 0, "air_pressure": 2,
}  # fmt: skip


def to_si(quantity: str, value: float, system: System) -> float:
    """A number as the reader wrote it -> SI."""
    unit = QUANTITIES[quantity].unit(system)
    return value * unit.scale + unit.zero


def from_si(quantity: str, value: float, system: System) -> float:
    """SI -> the number the reader sees."""
    unit = QUANTITIES[quantity].unit(system)
    return (value - unit.zero) / unit.scale


def decimals(quantity: str, system: System, given: int | None = None) -> int:
    """Decimals to show: `given` (or the quantity's own) for metric, adjusted for imperial units."""
    base = QUANTITIES[quantity].decimals if given is None else given
    if system == "metric":
        return base
    return max(0, base + _EXTRA_DECIMALS.get(quantity, 0))


def tidy(value: float, places: int) -> str:
    """A number as text with a real minus sign, and never a minus before a printed zero."""
    text = f"{value:.{places}f}"
    if float(text) == 0.0:
        text = text.lstrip("-")
    return text.replace("-", "\N{MINUS SIGN}")


def plain(value: float, places: int = 6) -> str:
    """A number as a reader would type it: no trailing zeros, at most `places` decimals."""
    text = f"{value:.{places}f}".rstrip("0").rstrip(".") if places else f"{value:.0f}"
    return "0" if text in ("-0", "") else text


def show(quantity: str, si: float, system: System, places: int | None = None) -> str:
    """SI value -> text with its unit, e.g. '25.0°', '190.0 mm' (a thin space before the unit)."""
    number = tidy(from_si(quantity, si, system), decimals(quantity, system, places))
    symbol = QUANTITIES[quantity].unit(system).symbol
    if not symbol:
        return number
    return number + symbol if symbol in ("°", "%") else f"{number}\N{NARROW NO-BREAK SPACE}{symbol}"
