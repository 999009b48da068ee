"""Air density against published tables and an independent library.

ISO 2533:1975 = US Standard Atmosphere 1976 below 32 km. The package counts geopotential (pressure)
altitude; tables by geometric altitude z are met at H = r z/(r + z), r = 6 356 766 m.
"""

import math

import pytest
from ambiance import Atmosphere
from rotorhead.faults import Refused
from rotorhead.flight.atmosphere import (
    density,
    density_altitude,
    geometric,
    geopotential,
    pressure,
    speed_of_sound,
    temperature,
)
from rotorhead.units import FOOT_M, PSI_PA, from_si
from scipy.optimize import brentq


@pytest.mark.parametrize(
    ("metres", "printed", "computed"),
    [(0, 1.2250, 1.225000), (1000, 1.1117, 1.11166), (2000, 1.0066, 1.00655), (3000, 0.9093, 0.90925)],
)
def test_by_geometric_altitude(metres: float, printed: float, computed: float) -> None:
    """I1: Mechanical Engineers' Handbook, vol. 4, table 6, "U.S. Standard Atmosphere" (read), to the
    last digit printed; the five-figure values re-derived."""
    found = density(geopotential(metres))
    assert found == pytest.approx(printed, abs=5e-5)
    assert found == pytest.approx(computed, abs=5e-6)


@pytest.mark.parametrize(
    ("metres", "kelvin", "bar", "sound"),
    [
        (0, 288.15, 1.0133, 340.3),
        (1000, 281.65, 0.8988, 336.4),
        (2000, 275.15, 0.7950, 332.5),
        (3000, 268.66, 0.7012, 328.6),
    ],
)
def test_temperature_pressure_and_sound_by_geometric_altitude(
    metres: float, kelvin: float, bar: float, sound: float
) -> None:
    """I1: the other columns of the same table (read), to the last digit printed."""
    height = geopotential(metres)
    assert temperature(height) == pytest.approx(kelvin, abs=5e-3 + 1e-9)
    assert pressure(height) / 1e5 == pytest.approx(bar, abs=5e-5 + 1e-9)
    assert speed_of_sound(height) == pytest.approx(sound, abs=0.05)


@pytest.mark.parametrize(
    ("metres", "kelvin", "pascal"), [(1000, 281.650, 89874.57), (2000, 275.150, 79495.22), (3000, 268.650, 70108.54)]
)
def test_temperature_and_pressure_by_geopotential_altitude(metres: float, kelvin: float, pascal: float) -> None:
    """I2: argument of ISO 2533 (re-derived)."""
    assert temperature(metres) == pytest.approx(kelvin, abs=5e-4)
    assert pressure(metres) == pytest.approx(pascal, abs=5e-3)


@pytest.mark.parametrize(("metres", "expected"), [(1000, 1.111642), (2000, 1.006490), (3000, 0.909121)])
def test_by_geopotential_altitude(metres: float, expected: float) -> None:
    """I2: argument of ISO 2533 (re-derived)."""
    assert density(metres) == pytest.approx(expected, abs=5e-7)


@pytest.mark.parametrize("metres", [-900, 0, 500, 1524, 3000, 5000, 7000, 10000])
def test_against_an_independent_library(metres: float) -> None:
    """ambiance takes geometric altitude; at the matching geopotential altitude both agree to 1e-6."""
    air, height = Atmosphere(metres), geopotential(metres)
    assert density(height) == pytest.approx(float(air.density[0]), rel=1e-6)
    assert pressure(height) == pytest.approx(float(air.pressure[0]), rel=1e-6)
    assert temperature(height) == pytest.approx(float(air.temperature[0]), rel=1e-6)
    assert speed_of_sound(height) == pytest.approx(float(air.speed_of_sound[0]), rel=1e-6)


def test_the_two_altitudes_are_not_mixed_up() -> None:
    """I2: the trap is 1.3e-4 kg/m³ at 3000 m (re-derived)."""
    assert density(geopotential(3000.0)) - density(3000.0) == pytest.approx(1.3e-4, abs=5e-6)


@pytest.mark.parametrize(
    ("feet", "metric", "imperial", "ratio"),
    [(5000, 1.055546, 0.00204810, 0.861671), (10000, 0.904637, 0.00175528, 0.738479)],
)
def test_by_feet(feet: float, metric: float, imperial: float, ratio: float) -> None:
    """I3 (re-derived; ambiance gives the same): geopotential feet, in kg/m³, slug/ft³ and as a fraction
    of sea level."""
    found = density(feet * FOOT_M)
    assert found == pytest.approx(metric, abs=5e-7)
    assert from_si("density", found, "imperial") == pytest.approx(imperial, abs=5e-9)
    assert found / density(0.0) == pytest.approx(ratio, abs=5e-7)


@pytest.mark.parametrize(("feet", "printed", "geometric"), [(5000, 20.48e-4, False), (10000, 17.56e-4, True)])
def test_published_feet_table(feet: float, printed: float, geometric: bool) -> None:
    """I3: Engineering ToolBox, U.S. Standard Atmosphere in imperial units (read), slug/ft³ to 0.01e-4.
    Its page says geopotential, but the 10 000 ft row is the geometric-altitude value."""
    height = feet * FOOT_M
    found = density(geopotential(height) if geometric else height)
    assert from_si("density", found, "imperial") == pytest.approx(printed, abs=0.01e-4)


FAHRENHEIT_ZERO = 459.67


@pytest.mark.parametrize(
    ("feet", "kelvin", "fahrenheit", "pascal", "psi"),
    [(5000, 278.244, 41.17, 84307.3, 12.2277), (10000, 268.338, 23.34, 69681.7, 10.1065)],
)
def test_temperature_and_pressure_by_feet(
    feet: float, kelvin: float, fahrenheit: float, pascal: float, psi: float
) -> None:
    """I3 (re-derived): geopotential feet."""
    height = feet * FOOT_M
    assert temperature(height) == pytest.approx(kelvin, abs=5e-4)
    assert temperature(height) * 1.8 - FAHRENHEIT_ZERO == pytest.approx(fahrenheit, abs=5e-3)
    assert pressure(height) == pytest.approx(pascal, abs=0.05)
    assert pressure(height) / PSI_PA == pytest.approx(psi, abs=5e-5)


@pytest.mark.parametrize(
    ("feet", "fahrenheit", "psi", "is_geometric"), [(5000, 41.17, 12.228, False), (10000, 23.36, 10.108, True)]
)
def test_published_feet_table_temperature_and_pressure(
    feet: float, fahrenheit: float, psi: float, is_geometric: bool
) -> None:
    """I3: the same table (read), 0.03 °F and 0.002 psi; again the 10 000 ft row is the geometric one."""
    height = geopotential(feet * FOOT_M) if is_geometric else feet * FOOT_M
    assert temperature(height) * 1.8 - FAHRENHEIT_ZERO == pytest.approx(fahrenheit, abs=0.03)
    assert pressure(height) / PSI_PA == pytest.approx(psi, abs=0.002)


@pytest.mark.parametrize(("feet", "fahrenheit", "psi"), [(5000, 41.2, 12.230), (10000, 23.4, 10.108)])
def test_another_reading_of_the_feet_table(feet: float, fahrenheit: float, psi: float) -> None:
    """I4: an engineering site's table (read); it rounds to 0.1 °F and agrees to 0.003 psi whichever altitude it means."""
    both = [feet * FOOT_M, geopotential(feet * FOOT_M)]
    assert min(abs(temperature(h) * 1.8 - FAHRENHEIT_ZERO - fahrenheit) for h in both) <= 0.05
    assert min(abs(pressure(h) / PSI_PA - psi) for h in both) <= 0.003


def test_sea_level_in_other_units() -> None:
    """I4: 2116.2 lb/ft², 29.921 inHg, 14.696 psi (a university's balloon page, read); 1 inHg = 3386.389 Pa (from memory)."""
    assert pressure(0.0) / PSI_PA * 144.0 == pytest.approx(2116.2, abs=0.05)
    assert pressure(0.0) / PSI_PA == pytest.approx(14.696, abs=5e-4)
    assert pressure(0.0) / 3386.389 == pytest.approx(29.921, abs=5e-4)


def test_rule_of_thumb_lapse() -> None:
    """I4: about 2 °C (3.5 °F) per 1000 ft (FAA-H-8083-25, ch. 4, read); exactly 1.9812 °C, 3.56616 °F: within 2 %."""
    lapse = temperature(0.0) - temperature(1000.0 * FOOT_M)
    assert lapse == pytest.approx(1.9812, abs=5e-5)
    assert lapse * 1.8 == pytest.approx(3.56616, abs=5e-6)
    assert lapse == pytest.approx(2.0, rel=0.02)
    assert lapse * 1.8 == pytest.approx(3.5, rel=0.02)


@pytest.mark.parametrize("metres", [-900.0, 0.0, 1524.0, 5000.0, 11000.0])
def test_altitudes_round_trip(metres: float) -> None:
    """Geometric and geopotential undo each other; standard air has its own density altitude (no source)."""
    assert geometric(geopotential(metres)) == pytest.approx(metres, abs=1e-6)
    assert density_altitude(density(metres)) == pytest.approx(metres, abs=1e-6)


def test_density_altitude_of_warm_air() -> None:
    """About 120 ft for each °C off standard (common practice, no source): 20 °C warmer at 5000 ft is about 2400 ft more;
    the rule is a straight line through a curve, so to 10 %. Exactly: the height at which ISO air is as thin (brentq)."""
    thin = density(5000.0 * FOOT_M, 20.0)
    found = density_altitude(thin)
    assert (found / FOOT_M - 5000.0) == pytest.approx(2400.0, rel=0.10)
    assert found == pytest.approx(brentq(lambda h: density(h) - thin, 0.0, 11000.0, xtol=1e-9), abs=1e-6)


@pytest.mark.parametrize("wrong", [0.0, -1.0, 0.3, 3.0, math.nan])
def test_no_density_altitude_outside_the_layer(wrong: float) -> None:
    """The gradient layer of ISO 2533 ends at 11 km."""
    with pytest.raises(Refused, match="Air density"):
        density_altitude(wrong)


def test_sea_level_in_slugs() -> None:
    """I4: 0.0023769 slug/ft³ (a university's balloon page, read)."""
    assert from_si("density", density(0.0), "imperial") == pytest.approx(0.0023769, abs=5e-8)


@pytest.mark.parametrize("warmer", [-30.0, 20.0])
def test_warm_air_is_thinner_in_proportion(warmer: float) -> None:
    """Gas law at the same pressure (any text)."""
    standard = 288.15 - 0.0065 * 1500.0
    assert density(1500.0, warmer) == pytest.approx(density(1500.0) * standard / (standard + warmer), rel=1e-12)


@pytest.mark.parametrize("metres", [-1001.0, 11001.0, float("inf"), float("nan")])
def test_out_of_its_range_it_refuses(metres: float) -> None:
    """The gradient layer ends at 11 km (ISO 2533)."""
    with pytest.raises(Refused, match="Altitude"):
        density(metres)
