"""Bearings, azimuths and the words for them. The only module that knows left from right.

Bearing: radians clockwise from the nose, seen from above (0 nose, 90° right, 180° tail, 270° left).
Azimuth: radians from the tail, increasing in the direction the rotor turns.
Anticlockwise rotor (seen from above): bearing = 180° - azimuth. Clockwise: bearing = 180° + azimuth.
"Before the nose" means in the direction of rotation: right of the nose on an anticlockwise rotor,
left of it on a clockwise one.
"""

import math
from typing import Final, Literal

Rotation = Literal["anticlockwise", "clockwise"]
ROTATIONS: Final[tuple[Rotation, ...]] = ("anticlockwise", "clockwise")

TURN: Final = 2.0 * math.pi
HALF_TURN: Final = math.pi


def wrap(angle: float) -> float:
    """Reduce an angle to (-180°, 180°], in radians."""
    turned = math.remainder(angle, TURN)
    return HALF_TURN if turned == -HALF_TURN else turned


def wrap_turn(angle: float) -> float:
    """Reduce an angle to [0, 360°), in radians."""
    reduced = math.fmod(angle, TURN)
    if reduced < 0.0:
        reduced += TURN
    return 0.0 if reduced >= TURN else reduced


def sense(rotation: Rotation) -> float:
    """+1 when bearing grows with azimuth (clockwise rotor), -1 when it falls."""
    return 1.0 if rotation == "clockwise" else -1.0


def bearing_of(azimuth: float, rotation: Rotation) -> float:
    """Azimuth -> bearing in [0, 360°), both in radians."""
    return wrap_turn(HALF_TURN + sense(rotation) * azimuth)


def azimuth_of(bearing: float, rotation: Rotation) -> float:
    """Bearing -> azimuth in [0, 360°), both in radians."""
    return wrap_turn(sense(rotation) * (bearing - HALF_TURN))


def before_nose(bearing: float, rotation: Rotation) -> float:
    """How far a bearing lies before the nose in the direction of rotation, in (-180°, 180°].

    A point before the nose reaches the nose next: its azimuth is that much less than 180°.
    """
    return wrap(HALF_TURN - azimuth_of(bearing, rotation))


def bearing_before_nose(offset: float, rotation: Rotation) -> float:
    """The bearing that lies `offset` before the nose (negative: after), in radians."""
    return bearing_of(HALF_TURN - offset, rotation)


def mirrored_bearing(bearing: float) -> float:
    """The same place seen in a mirror standing along the fuselage."""
    return wrap_turn(-bearing)


def other_way(rotation: Rotation) -> Rotation:
    """The other direction of rotation."""
    return "clockwise" if rotation == "anticlockwise" else "anticlockwise"


def before_side(rotation: Rotation) -> str:
    """The side a blade comes from when it comes up to the nose: 'right' or 'left'."""
    return "right" if rotation == "anticlockwise" else "left"


def after_side(rotation: Rotation) -> str:
    """The side a blade goes to after the nose."""
    return "left" if rotation == "anticlockwise" else "right"


def advancing_side(rotation: Rotation) -> str:
    """The side on which a blade moves forward: right of an anticlockwise rotor."""
    return before_side(rotation)


def degrees_text(angle: float, places: int = 1) -> str:
    """Radians -> '25.0°' with a real minus sign."""
    text = f"{math.degrees(angle):.{places}f}"
    if float(text) == 0.0:
        text = text.lstrip("-")
    return text.replace("-", "\N{MINUS SIGN}") + "°"


def bearing_words(bearing: float, places: int = 0) -> str:
    """A bearing as a pilot says it: '33° right of the nose', 'at the nose', 'at the tail'."""
    signed = wrap(bearing)
    size = round(abs(math.degrees(signed)), places)
    side = "right" if signed > 0 else "left"
    if size == 0:
        return "at the nose"
    if size == 180:
        return "at the tail"
    if size == 90:
        return f"on the {side}"
    if size < 90:
        return f"{size:.{places}f}° {side} of the nose"
    return f"{180 - size:.{places}f}° {side} of the tail"


def offset_words(offset: float, rotation: Rotation, places: int = 0) -> str:
    """An angle before (+) or after (-) the nose: '25° before the nose, on its right'."""
    size = round(abs(math.degrees(wrap(offset))), places)
    if size == 0:
        return "exactly at the nose"
    if size == 180:
        return "180° from the nose, at the tail"
    if offset > 0:
        return f"{size:.{places}f}° before the nose, on its {before_side(rotation)}"
    return f"{size:.{places}f}° after the nose, on its {after_side(rotation)}"


_COUNTS: Final = ("none", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine")


def count_word(number: int) -> str:
    """Small whole numbers as words."""
    return _COUNTS[number] if 0 <= number < len(_COUNTS) else str(number)
