"""Units against their definitions and against scipy.constants, which knows nothing of this package.

Definitions: NIST SP 811, appendix B (from memory); arithmetic re-derived.
"""

import math

import pytest
from rotorhead.units import (
    FOOT_M,
    INCH_M,
    KNOT_M_PER_S,
    POUND_FORCE_N,
    POUND_KG,
    PSI_PA,
    QUANTITIES,
    RPM_RAD_PER_S,
    SLUG_KG,
    STANDARD_GRAVITY,
    to_si,
)
from scipy import constants

AGAINST_SCIPY = {
    "foot": (FOOT_M, constants.foot),
    "inch": (INCH_M, constants.inch),
    "pound": (POUND_KG, constants.pound),
    "pound-force": (POUND_FORCE_N, constants.pound_force),
    "slug": (SLUG_KG, constants.slug),
    "knot": (KNOT_M_PER_S, constants.knot),
    "psi": (PSI_PA, constants.psi),
    "gravity": (STANDARD_GRAVITY, constants.g),
    "rpm": (RPM_RAD_PER_S, 2.0 * constants.pi / constants.minute),
}


@pytest.mark.parametrize("name", AGAINST_SCIPY)
def test_factor(name: str) -> None:
    """The package's constant equals scipy's."""
    ours, theirs = AGAINST_SCIPY[name]
    assert ours == pytest.approx(theirs, rel=1e-14)


# I5 as printed: SI value of one unit, and what the last printed digit is worth.
PRINTED = [
    pytest.param("force", 1.0, 4.4482216152605, 5e-14, id="lbf"),
    pytest.param("density", 1.0, 515.378818, 5e-7, id="slug-per-cubic-foot"),
    pytest.param("pressure", 1.0, 6894.757293, 5e-7, id="psi"),
    pytest.param("speed", 300.0 / 60.0, 1.524, 1e-12, id="300-feet-a-minute"),
]


@pytest.mark.parametrize(("quantity", "amount", "si", "tolerance"), PRINTED)
def test_printed_conversions(quantity: str, amount: float, si: float, tolerance: float) -> None:
    """I5 (from memory, arithmetic re-derived)."""
    assert to_si(quantity, amount, "imperial") == pytest.approx(si, abs=tolerance)


def test_knot_as_printed() -> None:
    """I5: 0.5144444 m/s."""
    assert pytest.approx(0.5144444, abs=5e-8) == KNOT_M_PER_S


# What the imperial unit of every quantity is worth in SI, from scipy.constants alone.
LBF, FOOT, DEGREE = constants.pound_force, constants.foot, constants.degree
IMPERIAL = {
    "angle": DEGREE, "ratio": 1.0, "percent": 0.01, "count": 1.0, "turn_rate": 2 * math.pi / 60, "angle_rate": DEGREE,
    "time": 1.0, "turns": 2 * math.pi, "per_radian": 1.0, "length": FOOT, "small_length": constants.inch,
    "mass": constants.pound, "speed": FOOT, "force": LBF, "pull": LBF, "moment": LBF * FOOT,
    "moment_per_angle": LBF * FOOT / DEGREE, "spring": LBF * FOOT, "pressure": constants.psi, "area": FOOT**2,
    "moment_per_rate": LBF * FOOT / DEGREE, "volume": FOOT**3, "climb_rate": FOOT / 60.0,
    "inertia": constants.slug * FOOT**2, "density": constants.slug / FOOT**3, "disc_loading": LBF / FOOT**2,
    "altitude": FOOT, "airspeed": constants.knot, "temperature_difference": 5.0 / 9.0,
    "pitch_per_travel": DEGREE / constants.inch,
    # Conventional mercury: 3386.389 Pa (NIST SP 811, from memory).
    "air_pressure": 13595.1 * constants.g * constants.inch, "power": constants.hp, "temperature": 5.0 / 9.0,
}  # fmt: skip


def test_every_quantity_is_checked() -> None:
    """A quantity added to the package without a line here fails."""
    assert set(IMPERIAL) == set(QUANTITIES)


@pytest.mark.parametrize("quantity", IMPERIAL)
def test_imperial_unit(quantity: str) -> None:
    """Each derived unit is built up here from scipy's base factors."""
    # A temperature's zero apart.
    assert to_si(quantity, 1.0, "imperial") - to_si(quantity, 0.0, "imperial") == pytest.approx(
        IMPERIAL[quantity], rel=1e-12
    )


def test_inch_of_mercury_as_printed() -> None:
    """NIST SP 811 (from memory): 3386.389 Pa; I4: 29.921 inHg is 101 325 Pa, as printed."""
    assert to_si("air_pressure", 1.0, "imperial") == pytest.approx(3386.389, abs=5e-4)
    assert to_si("air_pressure", 29.921, "imperial") == pytest.approx(101325.0, abs=2.0)


@pytest.mark.parametrize(("celsius", "fahrenheit"), [(15.0, 59.0), (-40.0, -40.0), (0.0, 32.0), (100.0, 212.0)])
def test_temperatures(celsius: float, fahrenheit: float) -> None:
    """PHAK FAA-H-8083-25 ch. 4 (read): 15 °C / 59 °F; against scipy's convert_temperature."""
    kelvin = float(constants.convert_temperature(celsius, "C", "K"))
    assert to_si("temperature", celsius, "metric") == pytest.approx(kelvin, rel=1e-14)
    assert to_si("temperature", fahrenheit, "imperial") == pytest.approx(kelvin, rel=1e-14)
