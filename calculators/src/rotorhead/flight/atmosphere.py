"""The International Standard Atmosphere below 11 km, and the air that is warmer or colder than it.

T = 288.15 − 0.0065 h, p = 101325 (T/288.15)^(g/(R L)), ρ = p/(R (T + warmer)), a = √(1.4 R (T + warmer)); h is
geopotential (pressure) altitude. ISO 2533:1975, equal to the US Standard Atmosphere 1976 below 32 km. Left out:
humidity (at 30 °C saturated air is about 1.5 % thinner).
"""

import math
from typing import Final

from ..faults import refuse

SEA_LEVEL_TEMPERATURE: Final = 288.15
SEA_LEVEL_PRESSURE: Final = 101325.0
LAPSE: Final = 0.0065
GRAVITY: Final = 9.80665
GAS_CONSTANT: Final = 8314.32 / 28.9644
HEAT_RATIO: Final = 1.4
LOWEST: Final = -1000.0
TROPOPAUSE: Final = 11000.0
EARTH_RADIUS: Final = 6_356_766.0
COLDEST: Final = 150.0
# p and ρ go as powers of the temperature in the gradient layer.
_PRESSURE_POWER: Final = GRAVITY / (GAS_CONSTANT * LAPSE)
# The gradient layer of ISO 2533 and the ICAO atmosphere reaches down to −5000 m (from memory).
_DENSITY_ALTITUDE: Final = (-5000.0, TROPOPAUSE)


def standard_temperature(altitude: float) -> float:
    """T = 288.15 − 0.0065 h (K) at a geopotential pressure altitude (m), −1000 to 11 000 m."""
    if not LOWEST <= altitude <= TROPOPAUSE:
        raise refuse("altitude", f"Altitude: {altitude:.0f} m is outside −1000 to 11 000 m.")
    return SEA_LEVEL_TEMPERATURE - LAPSE * altitude


def temperature(altitude: float, warmer: float = 0.0) -> float:
    """Temperature (K) of air `warmer` (K) than standard at a geopotential pressure altitude (m)."""
    found = standard_temperature(altitude) + warmer
    if not COLDEST <= found < math.inf:
        raise refuse("warmer", f"Temperature: {warmer:.0f} °C from standard is too cold to be air here.")
    return found


def pressure(altitude: float) -> float:
    """Pressure (Pa) at a geopotential pressure altitude (m): 101325 (T/288.15)^(g/(R L))."""
    return SEA_LEVEL_PRESSURE * math.pow(standard_temperature(altitude) / SEA_LEVEL_TEMPERATURE, _PRESSURE_POWER)


def pressure_altitude(air_pressure: float) -> float:
    """Geopotential pressure altitude (m) at which the standard atmosphere has this pressure (Pa); `pressure` turned round.

    With a sea-level setting (QNH) Q an altimeter on the ground shows h(p) − h(Q), the height above sea level; so the
    pressure altitude of a place is its height + `pressure_altitude(Q)`. −1000 to 11 000 m; otherwise `Refused`.
    """
    if air_pressure > 0.0:
        ratio = math.pow(air_pressure / SEA_LEVEL_PRESSURE, 1.0 / _PRESSURE_POWER)
        found = SEA_LEVEL_TEMPERATURE * (1.0 - ratio) / LAPSE
        # 1 mm of room, so that the pressures of the ends themselves come back.
        if LOWEST - 1e-3 <= found <= TROPOPAUSE + 1e-3:
            return found
    raise refuse(
        "pressure", f"Air pressure: {air_pressure / 100.0:.0f} hPa has no altitude between −1000 and 11 000 m."
    )


def density(altitude: float, warmer: float = 0.0) -> float:
    """Density (kg/m³) at a geopotential pressure altitude (m), air warmer than standard by `warmer` (K).

    ρ = p/(R (T + warmer)). Valid from −1000 to 11 000 m. Geopotential and geometric altitude differ by
    0.05 % at 3000 m (1.3e-4 kg/m³): see `geopotential`.
    """
    return pressure(altitude) / (GAS_CONSTANT * temperature(altitude, warmer))


def speed_of_sound(altitude: float, warmer: float = 0.0) -> float:
    """Speed of sound (m/s) at a geopotential pressure altitude (m): √(1.4 R (T + warmer))."""
    return math.sqrt(HEAT_RATIO * GAS_CONSTANT * temperature(altitude, warmer))


def geopotential(geometric_altitude: float) -> float:
    """Geometric -> geopotential altitude (m): r z/(r + z), r = 6 356 766 m (ISO 2533)."""
    return EARTH_RADIUS * geometric_altitude / (EARTH_RADIUS + geometric_altitude)


def geometric(geopotential_altitude: float) -> float:
    """Geopotential -> geometric altitude (m): r h/(r − h)."""
    return EARTH_RADIUS * geopotential_altitude / (EARTH_RADIUS - geopotential_altitude)


def density_altitude(air_density: float) -> float:
    """Geopotential altitude (m) at which the standard atmosphere has this density (kg/m³).

    ρ/ρ0 = (T/T0)^(g/(R L) − 1) solved for h. −5000 to 11 000 m; otherwise `Refused`.
    """
    low, high = _DENSITY_ALTITUDE
    if air_density > 0.0:
        sea_level = SEA_LEVEL_PRESSURE / (GAS_CONSTANT * SEA_LEVEL_TEMPERATURE)
        ratio = math.pow(air_density / sea_level, 1.0 / (_PRESSURE_POWER - 1.0))
        found = SEA_LEVEL_TEMPERATURE * (1.0 - ratio) / LAPSE
        # 1 mm of room, so that the density of the top itself comes back.
        if low <= found <= high + 1e-3:
            return found
    raise refuse("density", f"Air density: {air_density:.4g} kg/m³ has no altitude between −5000 and 11 000 m.")
