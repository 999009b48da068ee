"""Where the flight models stop: refusals, and marks for what can be computed but no longer believed.

A refusal (`Refused`) names the input, its value and what is allowed. A `Mark` goes with a result: the number is what
the model gives, the model leaves out what now matters. Nothing is clamped. The limits are common practice, no source,
unless said: they say where the text books stop using these models, not where a machine stops flying.
"""

import math
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

from ..faults import refuse
from ..units import tidy

# Above this the reversed flow, stall and compressibility left out here decide the answer.
ADVANCE_RATIO_MOST: Final = 0.40
# Sea level to the top of the gradient layer (0.365 kg/m³), and the coldest sea level.
DENSITY: Final = (0.30, 1.60)
# Sections of 12 % thickness near zero lift feel the drag rise from here on.
TIP_MACH_MOST: Final = 0.85
# Steady section stall; moving blades hold on a little longer.
STALL_ANGLE: Final = math.radians(12.0)
STALL_SHARE: Final = 0.05
# Mean lift coefficient 6 C_T/σ of 0.84 in the hover; blades carry little more for long.
BLADE_LOADING_MOST: Final = 0.14
# sin β = β and cos β = 1 within 1.2 % and 3.4 %.
FLAP_MOST: Final = math.radians(15.0)


@dataclass(frozen=True, slots=True)
class Mark:
    """A result outside its model: what is (`field`), its value and limit in SI, and a sentence that says so."""

    field: str
    value: float
    limit: float
    text: str


def within(field: str, label: str, value: float, low: float, high: float, unit: str = "", places: int = 2) -> float:
    """The value itself, or `Refused` naming it, the value and what is allowed; nan and infinities are refused."""
    if not low <= value <= high or not math.isfinite(value):
        shown = f"{tidy(value, places)}{unit and ' ' + unit}"
        raise refuse(
            field, f"{label}: {shown} is outside {tidy(low, places)} to {tidy(high, places)}{unit and ' ' + unit}."
        )
    return value


def positive(field: str, label: str, value: float, unit: str = "") -> float:
    """The value itself, or `Refused` when it is not a finite number above zero."""
    if not (math.isfinite(value) and value > 0.0):
        raise refuse(field, f"{label}: {tidy(value, 3)}{unit and ' ' + unit} must be more than zero.")
    return value


def checked_density(density: float) -> float:
    """Air density, kg/m³, or `Refused` outside `DENSITY`."""
    return within("density", "Air density", density, *DENSITY, "kg/m³")


def checked_advance(mu: float) -> float:
    """Advance ratio, or `Refused` outside 0 to `ADVANCE_RATIO_MOST`."""
    return within("speed", "Advance ratio", mu, 0.0, ADVANCE_RATIO_MOST)


def tip_mach_mark(mach: float) -> tuple[Mark, ...]:
    """A mark above `TIP_MACH_MOST`; at Mach 1 and beyond nothing here holds: `Refused`.

    Left out below the mark: the lift slope grows with Mach as 1/√(1 − M²) (25 % at 0.6), which is in the slope a
    head declares.
    """
    if not mach < 1.0:
        raise refuse("speed", f"Tip Mach number: {mach:.2f} must stay below 1; these models have no shocks.")
    if mach <= TIP_MACH_MOST:
        return ()
    text = f"The advancing tip reaches Mach {mach:.2f}; above {TIP_MACH_MOST:.2f} its drag rises, which is not in the model."
    return (Mark("tip_mach", mach, TIP_MACH_MOST, text),)


def stall_mark(share: float) -> tuple[Mark, ...]:
    """A mark when more than `STALL_SHARE` of the area swept lies above `STALL_ANGLE`: lift stays linear here."""
    if share <= STALL_SHARE:
        return ()
    text = (
        f"{100.0 * share:.0f}% of the area swept has an angle of attack above {math.degrees(STALL_ANGLE):.0f}°; lift would no "
        "longer grow there, which is not in the model."
    )
    return (Mark("stall", share, STALL_SHARE, text),)


def loading_mark(blade_loading: float) -> tuple[Mark, ...]:
    """A mark when C_T/σ is above `BLADE_LOADING_MOST`."""
    if blade_loading <= BLADE_LOADING_MOST:
        return ()
    text = (
        f"The blade loading C_T/σ of {blade_loading:.3f} is above {BLADE_LOADING_MOST:.2f}: stall, which is not in the model, would "
        "decide."
    )
    return (Mark("blade_loading", blade_loading, BLADE_LOADING_MOST, text),)


def flap_mark(angles: Iterable[float]) -> tuple[Mark, ...]:
    """A mark when flapping is too large for small angles."""
    most = max(abs(a) for a in angles)
    if most <= FLAP_MOST:
        return ()
    text = f"A flap angle of {math.degrees(most):.0f}° is beyond small angles ({math.degrees(FLAP_MOST):.0f}°)."
    return (Mark("flap", most, FLAP_MOST, text),)
