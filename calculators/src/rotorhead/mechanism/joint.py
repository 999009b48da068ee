"""The tilted rotating ring is not a perfect joint: its azimuth runs ahead and behind twice a turn.

Azimuths here are measured from the tilt axis (the level diameter of the tilted ring); measured from
the low point, × and / cos change places. Tilt τ.
Scissors (a ring point held in a vertical plane through the mast): tan ψ′ = tan ψ / cos τ.
Universal joint with its mast-side pin along the reference arm: tan ψ′ = tan ψ · cos τ; with that pin
90° away it is / cos τ again. Source: the plain universal joint, any text on mechanisms (from memory).
"""

import math
from typing import Literal

Drive = Literal["scissors", "pin_along", "pin_across"]


def ring_azimuth(azimuth: float, tilt: float, drive: Drive) -> float:
    """Azimuth of the ring's reference point, measured in its own plane, for a mast azimuth (rad, both).

    Continuous over the turn. `tilt` in [0, 90°).
    """
    c = math.cos(tilt)
    factor = c if drive == "pin_along" else 1.0 / c
    within = math.atan2(factor * math.sin(azimuth), math.cos(azimuth))
    return within + 2.0 * math.pi * round((azimuth - within) / (2.0 * math.pi))


def azimuth_error(azimuth: float, tilt: float, drive: Drive) -> float:
    """Ring azimuth minus mast azimuth, rad."""
    return ring_azimuth(azimuth, tilt, drive) - azimuth


def greatest_error(tilt: float) -> float:
    """Greatest azimuth error, rad: sin(error) = tan²(τ/2); the same size for every kind of drive."""
    return math.asin(math.tan(tilt / 2.0) ** 2)


def greatest_error_at(tilt: float, drive: Drive) -> float:
    """Mast azimuth from the tilt axis at which the error is greatest, rad: tan ψ = √cos τ, or 1/√cos τ."""
    root = math.sqrt(math.cos(tilt))
    return math.atan(1.0 / root) if drive == "pin_along" else math.atan(root)


def speed_ratio(azimuth: float, tilt: float, drive: Drive) -> float:
    """Ring's rate of turning over the mast's at an azimuth: between cos τ and 1/cos τ."""
    c = math.cos(tilt)
    factor = c if drive == "pin_along" else 1.0 / c
    s, k = math.sin(azimuth), math.cos(azimuth)
    return factor / (k * k + factor * factor * s * s)


def attachment_error(azimuth: float, tilt: float, drive: Drive, away: float) -> float:
    """Azimuth error (rad), seen from above, of a ring point `away` (rad) from the driven one.

    The ring is rigid, so the point stands `away` further on in the ring's own plane; seen from above it
    is foreshortened by the tilt: tan ψ_above = tan ψ_ring · cos τ. The driven point itself is exact with
    scissors; points 90° from it err by about twice the greatest error.
    """
    own = ring_azimuth(azimuth, tilt, drive) + away
    seen = math.atan2(math.cos(tilt) * math.sin(own), math.cos(own))
    seen += 2.0 * math.pi * round((own - seen) / (2.0 * math.pi))
    return seen - (azimuth + away)


def pitch_per_turn(lead_of_thread: float, arm: float, turns: float = 1.0, *, turnbuckle: bool = False) -> float:
    """Pitch (rad) from turning a rod end: length change over horn arm; a turnbuckle counts twice."""
    return turns * lead_of_thread * (2.0 if turnbuckle else 1.0) / abs(arm)
