"""Readings as people type them on a phone, or keep them in a file: text -> readings, or every fault at once.

One reading a line, azimuth first: '0 10.2', '45: 8.3', '90; 6,1', '135,6.5'. Several may share a line, best with
commas or semicolons between them: '0 10.2, 45 8.3'. A comma inside a number is a decimal comma, unless the line also
has a decimal point, or has only that one comma to part azimuth from reading. Two numbers with a comma each are one
reading ('90,0;6,1'); more of them could mean two things, and are refused. Blank lines and what follows a # are left
out; so is a header 'azimuth,reading' or 'bearing,reading'.
"""

import math
import re
from typing import Literal

from ..conventions import Rotation, degrees_text
from ..faults import Fault, Refused, refuse
from ..numbers import parse_number
from .readings import (
    LEAST_ANGLE,
    LEAST_AZIMUTH,
    MOST_ANGLE,
    MOST_AZIMUTH,
    MOST_READINGS,
    Reading,
    reading_at_bearing,
)

Place = Literal["azimuth", "bearing"]
FIELD = "readings"
MOST_CHARACTERS = 20_000

_LINE = re.compile(r"\r\n|\r|\n")
_STRONG = re.compile(r";|,(?=\s|\Z)|(?<=\s),")
_BETWEEN = re.compile(r"[\s:=|]+")
_QUOTED = re.compile(r'\s*"([^"]*)"\s*([,;])\s*"([^"]*)"\s*\Z')
_HEADER = re.compile(r'\ufeff?\s*"?\s*(azimuth|bearing)[^\d]*\Z', re.IGNORECASE)

Pair = tuple[str, str]


def _shown(text: str) -> str:
    text = text.strip()
    return text if len(text) <= 40 else text[:40] + "…"


def _unclear(line: str) -> Exception:
    return refuse(
        FIELD,
        f"“{_shown(line)}” can be read in more than one way; write azimuth, a space and the reading, like 90 6.1, "
        "one pair a line.",
    )


def _fields(chunk: str, points: bool) -> list[str]:
    """Number texts of a piece of a line; with decimal points about, commas part numbers."""
    tokens = _BETWEEN.split(chunk.strip())
    return [part for token in tokens for part in token.split(",")] if points else tokens


def pairs_of(line: str) -> list[Pair]:
    """A line without comment -> texts of azimuth and reading, not yet read as numbers. Raises `Refused`."""
    quoted = _QUOTED.match(line)
    if quoted:
        return [(quoted[1], quoted[3])]
    line = line.replace("°", " ").strip().rstrip(",;")
    points = "." in line
    chunks = [_fields(chunk, points) for chunk in _STRONG.split(line)]
    flat = [text for chunk in chunks for text in chunk]
    commas = [text.count(",") for text in flat]
    if len(flat) == 1 and commas == [1]:
        azimuth, _, angle = flat[0].partition(",")
        return [(azimuth, angle)]
    if max(commas, default=0) > 1 or (len(flat) > 2 and all(commas)):
        raise _unclear(line)
    one_by_one = len(flat) % 2 == 0 and all(len(chunk) == 1 for chunk in chunks)
    if not (one_by_one or all(chunk and len(chunk) % 2 == 0 for chunk in chunks)):
        raise refuse(
            FIELD,
            f"“{_shown(line)}” is not an azimuth and a reading; write them in pairs, like 90 6.1, one pair a line.",
        )
    return list(zip(flat[::2], flat[1::2], strict=True))


def _number(text: str, label: str, low: float, high: float) -> float:
    """One number within its limits, degrees."""
    allowed = f"{degrees_text(math.radians(low), 0)} to {degrees_text(math.radians(high), 0)}"
    if not text.strip():
        raise refuse(FIELD, f"{label}: there is nothing; enter a number from {allowed}.")
    if "'" in text:
        # Elsewhere a mark between thousands; beside angles it would be minutes.
        raise refuse(FIELD, f"{label}: “{_shown(text)}” is not a number; write decimals of a degree, like 6.1 or 6,1.")
    value = parse_number(text, FIELD, label)
    if not low <= value <= high:
        raise refuse(FIELD, f"{label}: “{_shown(text)}” is outside {allowed}.")
    return value


def _reading(pair: Pair, at: Place, rotation: Rotation | None) -> Reading:
    """Two texts -> reading. Raises `Refused` with the faults of both."""
    values: list[float] = []
    faults: list[Fault] = []
    labels = ((at, LEAST_AZIMUTH, MOST_AZIMUTH), ("reading", LEAST_ANGLE, MOST_ANGLE))
    for text, (label, low, high) in zip(pair, labels, strict=True):
        try:
            values.append(math.radians(_number(text, label, low, high)))
        except Refused as refused:
            faults += refused.faults
    if faults:
        raise Refused(faults)
    place, angle = values
    return reading_at_bearing(place, angle, rotation) if at == "bearing" and rotation else Reading(place, angle)


def _header(line: str, at: Place) -> bool:
    """Whether a line is a header; refuses one that says the other kind of place."""
    found = _HEADER.match(line)
    if found and found[1].lower() != at:
        raise refuse(FIELD, f"the header says {found[1].lower()}s, and the readings are taken as {at}s here.")
    return found is not None


def parse_readings(text: str, at: Place = "azimuth", rotation: Rotation | None = None) -> tuple[Reading, ...]:
    """Text -> readings in the order typed; the same place twice is a repeat and stays.

    at: whether places are azimuths or bearings (clockwise from the nose); bearings need the `rotation`. Raises
    `Refused` with every fault, each naming its line, the text and what is allowed.
    """
    if at == "bearing" and rotation is None:
        raise ValueError("bearings can't become azimuths without the direction of rotation")
    if len(text) > MOST_CHARACTERS:
        raise refuse(
            FIELD, f"Readings: {len(text)} characters are more than a sheet holds; at most {MOST_CHARACTERS} are read."
        )
    readings: list[Reading] = []
    faults: list[Fault] = []
    pairs, first = 0, True
    for number, whole in enumerate(_LINE.split(text), 1):
        line = whole.partition("#")[0].lstrip("\ufeff")
        if not line.strip():
            continue
        found: list[Pair] = []
        may_be_header, first = first, False
        try:
            if not (may_be_header and _header(line, at)):
                found = pairs_of(line)
        except Refused as refused:
            faults += [Fault(FIELD, f"Line {number}: {fault.text}") for fault in refused.faults]
        pairs += len(found)
        for pair in found:
            try:
                readings.append(_reading(pair, at, rotation))
            except Refused as refused:
                faults += [Fault(FIELD, f"Line {number}, {fault.text}") for fault in refused.faults]
    if pairs > MOST_READINGS:
        faults.append(Fault(FIELD, f"Readings: {pairs} are more than a sheet holds; at most {MOST_READINGS} are read."))
    if not pairs and not faults:
        faults.append(
            Fault(FIELD, "Readings: there are none; write azimuth and reading, like 90 6.1, one pair a line.")
        )
    if faults:
        raise Refused(faults)
    return tuple(readings)
