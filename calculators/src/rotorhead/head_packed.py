"""A whole head as one short text, for links and for the device: '2~name~note~options…~figures…~rods~unknown'.

Parts are parted by '~' in the order of the declarations; the first says which order that is. Numbers are in the keys'
own units. A percent sign or a '~' in a name is written %25 and %7E. Fits in a link: about 400 characters.
"""

from functools import lru_cache
from typing import Any, Final

from .faults import refuse
from .head import FORMAT, OWN_ID, Head, from_dict
from .head_figures import FIGURES, OPTIONS

ORDER: Final = "2"


def _escaped(text: str) -> str:
    return text.replace("%", "%25").replace("~", "%7E")


def _plain(text: str) -> str:
    return text.replace("%7E", "~").replace("%25", "%")


def _number(value: float) -> str:
    return f"{value:.9g}"


def pack(head: Head) -> str:
    """A head -> its text; `unpack` gives the same head (with the id 'own')."""
    figures, options = dict(head.figures), dict(head.options)
    rods = ";".join(f"{_number(r.bearing_deg)},{_number(r.stroke_mm)}" for r in head.rods)
    unknown = ";".join(f"{key}:{_number(low)},{_number(high)}" for key, (low, high) in head.unknown)
    parts = [
        ORDER, _escaped(head.name), _escaped(head.note), *(options[o.key] for o in OPTIONS),
        *(_number(figures[f.key]) for f in FIGURES), rods, unknown,
    ]  # fmt: skip
    return "~".join(parts)


@lru_cache(maxsize=16)
def unpack(text: str) -> Head:
    """The head of a packed text. Raises `Refused`: another order, too few or too many parts, figures out of range."""
    parts = text.split("~")
    expected = 3 + len(OPTIONS) + len(FIGURES) + 2
    if parts[0] != ORDER and parts[0].isdigit() and int(parts[0]) > int(ORDER):
        raise refuse(
            "head",
            f"This packed head is of a newer kind ({parts[0][:6]}) than this site reads (up to {ORDER}).",
            head=True,
        )
    if parts[0] != ORDER or len(parts) != expected:
        raise refuse(
            "head",
            f"This packed head can't be read: it has {len(parts)} parts of {expected}. It may have been cut short.",
            head=True,
        )
    data: dict[str, Any] = {
        "format": FORMAT,
        "version": 2,
        "id": OWN_ID,
        "name": _plain(parts[1]),
        "note": _plain(parts[2]),
    }
    place = 3
    for option in OPTIONS:
        data[option.key] = parts[place]
        place += 1
    for figure in FIGURES:
        data[figure.key] = _read(parts[place])
        place += 1
    data["rods"] = [_rod(entry) for entry in parts[place].split(";")]
    unknown: dict[str, list[object]] = {}
    for entry in filter(None, parts[place + 1].split(";")):
        key, _, span = entry.partition(":")
        unknown[key] = [_read(v) for v in span.split(",")]
    data["unknown"] = unknown
    return from_dict(data)


def _read(text: str) -> object:
    """A number, or the text itself for the reading to refuse with its own sentence."""
    try:
        return float(text)
    except ValueError:
        return text


def _rod(entry: str) -> dict[str, object]:
    bearing, _, stroke = entry.partition(",")
    return {"bearing_deg": _read(bearing), "stroke_mm": _read(stroke)}
