"""Reading numbers as people type them."""

import math
import re

from .faults import refuse

_MINUS = str.maketrans({"\N{MINUS SIGN}": "-", "\N{EN DASH}": "-", "\N{HYPHEN}": "-",
                        "\N{NON-BREAKING HYPHEN}": "-", "\N{FULLWIDTH HYPHEN-MINUS}": "-"})  # fmt: skip
_SPACE = re.compile("[ \t\u00a0\u2007\u2009\u202f']")
_GROUPED = (
    re.compile(r"([+-]?\d{1,3}(?:,\d{3})+)(\.\d*)\Z", re.ASCII),
    re.compile(r"([+-]?\d{1,3}(?:\.\d{3})+)(,\d*)\Z", re.ASCII),
)
_NUMBER = re.compile(r"[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d{1,3})?\Z", re.ASCII)


def parse_number(text: str, field: str, label: str, *, head: bool = False) -> float:
    """Text -> number.

    Accepts a decimal point or a decimal comma, a typographic minus sign and spaces between groups of
    digits. With both signs the last one is the decimal sign and the others must part groups of three:
    '1,234.5' and '1.234,5' are both 1234.5. Raises `Refused` with a sentence naming the field and the text
    for anything else, infinities and 'nan' included.
    """
    shown = text if len(text) <= 40 else text[:40] + "…"
    cleaned = _SPACE.sub("", text.translate(_MINUS).strip())
    if cleaned == "":
        raise refuse(field, f"{label}: enter a number; the field is empty.", head=head)
    grouped = next((m for m in (pattern.match(cleaned) for pattern in _GROUPED) if m), None)
    if grouped:
        cleaned = re.sub("[.,]", "", grouped[1]) + grouped[2].replace(",", ".")
    elif cleaned.count(",") == 1 and "." not in cleaned:
        cleaned = cleaned.replace(",", ".")
    if not _NUMBER.match(cleaned):
        raise refuse(field, f"{label}: “{shown}” is not a number; write it like 12.5 or 12,5.", head=head)
    value = float(cleaned)
    if not math.isfinite(value):
        raise refuse(field, f"{label}: “{shown}” is too large to be used.", head=head)
    return value


def round_step(span: float, parts: int = 4) -> float:
    """A round step (1, 2 or 5 times a power of ten) that divides a span into about `parts`."""
    raw = max(span / parts, 1e-9)
    power = 10.0 ** math.floor(math.log10(raw))
    return min((1.0, 2.0, 5.0, 10.0), key=lambda m: abs(m * power - raw)) * power
