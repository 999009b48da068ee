"""Readings: what they are, how a place and a droop are put right, and how they are written to a file.

A reading is the pitch shown at an azimuth of the blade, radians, nose-up positive, in the head's frame: the airframe
stands as it stands, so what is read against the horizon must first be put right for the lean of the mast.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from ..conventions import Rotation, azimuth_of, bearing_of
from ..faults import Fault, Refused, refuse

# Limits of what can be typed, degrees, and how many readings a sheet may hold.
LEAST_AZIMUTH, MOST_AZIMUTH = -360.0, 720.0
LEAST_ANGLE, MOST_ANGLE = -45.0, 60.0
MOST_READINGS = 72

CSV_HEADER = "azimuth_deg,reading_deg"
CSV_HEADER_BEARINGS = "bearing_deg,reading_deg"


@dataclass(frozen=True, slots=True)
class Reading:
    """One reading: azimuth of the blade's span axis and pitch, rad."""

    azimuth: float
    angle: float


def reading_at_bearing(bearing: float, angle: float, rotation: Rotation) -> Reading:
    """A reading taken with the blade at a bearing (rad clockwise from the nose) -> reading at its azimuth."""
    return Reading(azimuth_of(bearing, rotation), angle)


def reading_along_chord(pitch: float, flap: float) -> float:
    """What an inclinometer laid along the chord shows of a blade coned up or drooped by `flap` (rad).

    sin(read) = sin θ cos β: the chord is turned about an axis that no longer lies level. Exact for a blade turned
    about its own span axis. Source: re-derived (a unit vector along the chord, its height).
    """
    return math.asin(math.sin(pitch) * math.cos(flap))


def pitch_along_chord(read: float, flap: float) -> float:
    """Pitch θ (rad) from what the inclinometer shows: sin θ = sin(read)/cos β, |θ| <= 90°.

    Refuses a droop of 90° or more, and a reading steeper than any chord of a blade so drooped.
    """
    if abs(flap) >= 0.5 * math.pi:
        raise refuse("droop", f"Coning or droop: {math.degrees(flap):.6g}° is not between −90° and 90°.")
    ratio = math.sin(read) / math.cos(flap)
    if abs(ratio) > 1.0:
        raise refuse(
            "droop",
            f"Reading: {math.degrees(read):.6g}° can't be shown along the chord of a blade {math.degrees(flap):.6g}° off "
            f"level; the most is {90.0 - abs(math.degrees(flap)):.6g}° either way.",
        )
    return math.asin(ratio)


def corrected(readings: Sequence[Reading], flap: float) -> tuple[Reading, ...]:
    """All readings put right for a blade coned or drooped by `flap` (rad); refuses with every one that can't be."""
    found: list[Reading] = []
    faults: list[Fault] = []
    for reading in readings:
        try:
            found.append(Reading(reading.azimuth, pitch_along_chord(reading.angle, flap)))
        except Refused as refused:
            faults += [fault for fault in refused.faults if fault not in faults]
    if faults:
        raise Refused(faults)
    return tuple(found)


def _degrees(angle: float) -> str:
    """Degrees to nine places, trailing noughts dropped: what was typed comes back as it was typed."""
    text = f"{math.degrees(angle):.9f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def to_csv(readings: Sequence[Reading], rotation: Rotation | None = None) -> str:
    """Comma-separated text (RFC 4180: header, decimal points, CR LF), degrees; `parse_readings` reads it back.

    With a `rotation` the places are bearings of the blade, otherwise azimuths; the header says which.
    """
    places = [r.azimuth if rotation is None else bearing_of(r.azimuth, rotation) for r in readings]
    rows = [f"{_degrees(place)},{_degrees(r.angle)}" for place, r in zip(places, readings, strict=True)]
    lines = [CSV_HEADER if rotation is None else CSV_HEADER_BEARINGS, *rows]
    return "".join(line + "\r\n" for line in lines)
