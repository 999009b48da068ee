"""The air as most calculators ask for it."""

from ..fields import Number, fixed

ALTITUDE = Number(
    "altitude", "Pressure altitude", "altitude", -500, 7000, (0, 5000, 50), fixed(0.0), 0,
    "standard atmosphere",
)  # fmt: skip
WARMER = Number("warmer", "Air warmer than standard by", "temperature_difference", -50, 50, (-30, 40, 1), fixed(0.0), 0)
