"""Air density against published tables and an independent library.

ISO 2533:1975 = US Standard Atmosphere 1976 below 32 km. The package counts geopotential (pressure)
altitude; tables by geometric altitude z are met at H = r z/(r + z), r = 6 356 766 m.
"""

import pytest
from ambiance import Atmosphere
from rotorhead.faults import Refused
from rotorhead.flight.atmosphere import density
from rotorhead.units import FOOT_M, from_si

EARTH = 6_356_766.0


def geopotential(geometric: float) -> float:
    """Geometric -> geopotential altitude, m."""
    return EARTH * geometric / (EARTH + geometric)


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


@pytest.mark.parametrize(("metres", "expected"), [(1000, 1.111642), (2000, 1.006490), (3000, 0.909121)])
def test_by_geopotential_altitude(metres: float, expected: float) -> None:
    """I2: argument of ISO 2533 (re-derived)."""
    assert density(metres) == pytest.approx(expected, abs=5e-7)


@pytest.mark.parametrize("metres", [-900, 0, 500, 1524, 3000, 5000, 7000, 10000])
def test_against_an_independent_library(metres: float) -> None:
    """ambiance takes geometric altitude; at the matching geopotential altitude both agree to 1e-6."""
    assert density(geopotential(metres)) == pytest.approx(float(Atmosphere(metres).density[0]), rel=1e-6)


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
