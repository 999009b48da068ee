"""Air density with altitude: the International Standard Atmosphere below 11 km."""

import math
from typing import Final

from ..faults import refuse

SEA_LEVEL_TEMPERATURE: Final = 288.15
SEA_LEVEL_PRESSURE: Final = 101325.0
LAPSE: Final = 0.0065
GRAVITY: Final = 9.80665
GAS_CONSTANT: Final = 8314.32 / 28.9644
TROPOPAUSE: Final = 11000.0


def density(altitude: float, warmer: float = 0.0) -> float:
    """Density (kg/m³) at a geopotential pressure altitude (m), air warmer than standard by `warmer` (K).

    T = 288.15 − 0.0065 h; p = 101325 (T/288.15)^(g/(R L)); ρ = p/(R (T + warmer)).
    ISO 2533:1975, equal to the US Standard Atmosphere 1976 below 32 km. Valid from −1000 to 11 000 m.
    Geopotential and geometric altitude differ by 0.05 % at 3000 m (1.3e-4 kg/m³). Humidity left out:
    at 30 °C saturated air is about 1.5 % thinner.
    """
    if not -1000.0 <= altitude <= TROPOPAUSE:
        raise refuse("altitude", f"Altitude: {altitude:.0f} m is outside −1000 to 11 000 m.")
    standard = SEA_LEVEL_TEMPERATURE - LAPSE * altitude
    pressure = SEA_LEVEL_PRESSURE * math.pow(standard / SEA_LEVEL_TEMPERATURE, GRAVITY / (GAS_CONSTANT * LAPSE))
    if standard + warmer < 150.0:
        raise refuse("warmer", f"Temperature: {warmer:.0f} °C from standard is too cold to be air here.")
    return pressure / (GAS_CONSTANT * (standard + warmer))
