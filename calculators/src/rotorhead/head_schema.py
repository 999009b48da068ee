"""The JSON Schema of a head's file, made from the declarations: published with the site, used by the tests."""

from typing import Any

from .head import FORMAT, NAME_LONGEST, VERSION
from .head_figures import FIGURES, GROUPS, OPTIONS, ROD_BEARING, ROD_STROKE, RODS_FEWEST, RODS_MOST, Figure
from .units import QUANTITIES


def _number(figure: Figure) -> dict[str, Any]:
    unit = QUANTITIES[figure.quantity].metric.symbol
    words = ". ".join(x for x in (figure.label, figure.help, f"Unit: {unit}" if unit else "") if x)
    return {
        "type": "integer" if figure.whole else "number",
        "minimum": figure.low,
        "maximum": figure.high,
        "description": words,
    }


def schema() -> dict[str, Any]:
    """JSON Schema (draft 2020-12) of a head description, version 2.

    What it can't say: pairs of figures that contradict each other, and whether the linkage goes together; reading the
    file says both.
    """
    rod = {
        "type": "object", "additionalProperties": False, "required": [ROD_BEARING.key, ROD_STROKE.key],
        "properties": {f.key: _number(f) for f in (ROD_BEARING, ROD_STROKE)},
    }  # fmt: skip
    properties: dict[str, Any] = {
        "format": {"const": FORMAT},
        "version": {"const": VERSION},
        "id": {"type": "string", "minLength": 1, "maxLength": 40},
        "name": {"type": "string", "minLength": 1, "maxLength": NAME_LONGEST},
        "note": {"type": "string", "maxLength": 2000},
        **{o.key: {"enum": [v for v, _ in o.choices], "description": f"{GROUPS[o.group]}: {o.label}"} for o in OPTIONS},
        **{f.key: _number(f) for f in FIGURES},
        "rods": {"type": "array", "minItems": RODS_FEWEST, "maxItems": RODS_MOST, "items": rod},
        "unknown": {
            "type": "object",
            "description": "Figures only known to lie between two values; the figure itself is the middle.",
            "additionalProperties": {"type": "array", "items": {"type": "number"}, "minItems": 2, "maxItems": 2},
        },
    }
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "A helicopter rotor head, as Hand to Disc reads it",
        "type": "object", "additionalProperties": False,
        "required": [k for k in properties if k not in ("note", "unknown")],
        "properties": properties,
    }  # fmt: skip
