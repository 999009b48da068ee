"""Wild texts from a seed: what a slip of the hand, another program, or somebody with bad intent may enter, link or hand over."""

from __future__ import annotations

import copy
import json
import random
from typing import Any
from urllib.parse import quote

SCRIPT = '<img src=x onerror="document.title=1"><script>document.title=2</script>'
_PIECES = [
    "", " ", "0", "-0", "1", "12", "25,5", "1e3", "1e309", "-1e309", "NaN", "nan", "Infinity", "inf", "∞", "−12", "+-3", "1.2.3", "1_000",
    "0x1F", "٣٤", "１２", "½", "1 000", "1\u202f000", "12 mm", "12°", "null", "undefined", "[object Object]", "__proto__", "constructor",
    "150 to 250", "to", "5 to", "9 to 1", "-1 to 1e400", "%", "%00", "%zz", "\x00", "\u202e", "🚁", "a" * 300, "9" * 400, "{", "}",
    '"', "'", "&", "=", "#", "~", "\\", "\n", "\t", ";", "../../etc/passwd", "javascript:alert(1)", "{{7*7}}", "${1}", SCRIPT, "<svg onload=a()>",
    "yes", "no", "left", "right", "alder3", "own",
]  # fmt: skip


def text(chance: random.Random) -> str:
    """Mostly one odd piece, sometimes several, sometimes any characters at all."""
    kind = chance.random()
    if kind < 0.35:
        return chance.choice(_PIECES)
    if kind < 0.6:
        return str(round(chance.uniform(-2000, 2000), chance.randrange(4)))
    if kind < 0.85:
        return "".join(chance.choices(_PIECES, k=chance.randrange(1, 4)))
    return "".join(chr(chance.choice([chance.randrange(32, 127), chance.randrange(160, 0x2FFF)])) for _ in range(12))


def line(chance: random.Random) -> str:
    """A text that a box of one line keeps as it is: browsers take line breaks and NULs out of it."""
    return text(chance).replace("\n", " ").replace("\x00", "")


def fragment(chance: random.Random, calculator: str, fields: list[str]) -> str:
    """What stands behind the # of an address: a sound link with odd values, parts, keys; sometimes none at all."""
    if chance.random() < 0.1:
        return "#" + quote(text(chance), safe=chance.choice(["", "&=%<>\"'"]))
    keys = [
        *fields,
        "head",
        "own",
        "mirrored",
        "units",
        "head.rpm",
        "head.blades",
        "head.rods.count",
        "head.__proto__",
        "__proto__",
    ]
    parts = []
    for _ in range(chance.randrange(1, 7)):
        key = chance.choice(keys) if chance.random() < 0.85 else text(chance)
        value = text(chance)
        if key == "head" and chance.random() < 0.7:
            value = chance.choice(["alder3", "birch2", "cedar4", "dogwood5", "elder6", "own"])
        if key == "own":
            value = "~".join(
                [chance.choice(["1", "2", "3", "9", ""]), *(text(chance) for _ in range(chance.randrange(40)))]
            )
        pair = f"{quote(key)}={quote(value)}" if chance.random() < 0.9 else f"{key}={value}"
        parts.append(pair)
    name = calculator if chance.random() < 0.9 else quote(text(chance))
    return "#" + "&".join([name, *parts])


def _value(chance: random.Random) -> Any:
    plain: list[Any] = [
        None, True, False, 0, -1, 1e308, -1e308, 10**30, 3.5, "", [], {}, [[]], {"a": {"b": []}}, SCRIPT, "NaN", "9" * 500,
        ["x"] * 60, {str(i): i for i in range(60)},
    ]  # fmt: skip
    return chance.choice(plain) if chance.random() < 0.7 else text(chance)


def head_file(chance: random.Random, sound: dict[str, Any]) -> str:
    """A head's file that was spoiled: values, keys, structure, or its very text."""
    data = copy.deepcopy(sound)
    for _ in range(chance.randrange(1, 5)):
        keys = list(data)
        kind = chance.random()
        if kind < 0.6:
            data[chance.choice(keys)] = _value(chance)
        elif kind < 0.75:
            data.pop(chance.choice(keys))
        else:
            data[text(chance)] = _value(chance)
        if not data:
            break
    written = json.dumps(data)
    kind = chance.random()
    if kind < 0.1:
        return written[: chance.randrange(len(written) + 1)]
    if kind < 0.2:
        at = chance.randrange(len(written))
        return written[:at] + text(chance) + written[at + 1 :]
    if kind < 0.25:
        return json.dumps(_value(chance))
    if kind < 0.28:
        return "[" * 5000
    return written


def table(chance: random.Random) -> str:
    """A CSV of readings, or something that isn't one."""
    rows = [",".join(text(chance) for _ in range(chance.randrange(1, 4))) for _ in range(chance.randrange(1, 14))]
    if chance.random() < 0.5:
        rows = [f"{i * 45},{round(chance.gauss(5, 3), 1)}" for i in range(8)] + rows[: chance.randrange(3)]
    return chance.choice(["", "azimuth,reading\n"]) + chance.choice(["\n", "\r\n", "\r"]).join(rows)
