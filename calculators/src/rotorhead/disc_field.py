"""A field over the disc as data in the reader's view: what the page draws on its canvas, the build prints, the table lists.

One array, stations from root to tip by bearings clockwise from the nose; nothing else of it is computed in the page.
"""

import json
from collections.abc import Sequence
from dataclasses import dataclass
from html import escape
from itertools import pairwise

from .conventions import TURN, Rotation, azimuth_of
from .units import tidy


@dataclass(frozen=True)
class DiscField:
    """Angles (degrees) over the disc, None where there is none to speak of.

    radii: stations over R, from root to tip; rows: one for each station, columns in even steps of bearing from the nose.
    levels: edges of the bands; beyond the last the picture is hatched. none: the circle without values, as (distance of its
    centre over R, bearing in degrees, diameter over R).
    """

    title: str
    rotation: Rotation
    radii: tuple[float, ...]
    rows: tuple[tuple[float | None, ...], ...]
    levels: tuple[float, ...]
    none: tuple[float, float, float] | None
    none_words: str


def by_bearing(row: Sequence[float | None], rotation: Rotation) -> list[float | None]:
    """Columns by azimuth from the tail -> columns by bearing from the nose, in the same even steps."""
    n = len(row)
    return [row[round(azimuth_of(TURN * i / n, rotation) / TURN * n) % n] for i in range(n)]


# Where figures stand in the picture: stations (share of the way from root to tip) and steps of an eighth of a turn.
_FIGURES_AT, _EIGHTHS = (0.45, 0.93), 8
_NAMES = ("nose", "45°", "right", "135°", "tail", "225°", "left", "315°")


def _nearest(field: DiscField, share: float) -> int:
    wanted = field.radii[0] + share * (field.radii[-1] - field.radii[0])
    return min(range(len(field.radii)), key=lambda i: abs(field.radii[i] - wanted))


def field_html(field: DiscField) -> str:
    """The element that draws the field; the build puts a printed one inside for the default head."""
    step = (field.radii[1] - field.radii[0]) / 2.0
    eighth = len(field.rows[0]) // _EIGHTHS
    figures = [
        [round(field.radii[i], 3), 45 * k, tidy(value, 0)]
        for i in (_nearest(field, s) for s in _FIGURES_AT)
        for k in range(_EIGHTHS)
        if (value := field.rows[i][k * eighth]) is not None
    ]
    data = {
        "title": field.title, "rotation": field.rotation, "inner": round(field.radii[0] - step, 4),
        "outer": round(field.radii[-1] + step, 4), "rows": field.rows, "levels": field.levels, "figures": figures,
        "none": field.none and dict(zip(("distance", "bearing", "diameter"), field.none, strict=True)),
    }  # fmt: skip
    packed = json.dumps(data, ensure_ascii=False, separators=(",", ":"), allow_nan=False)
    return f'<hd-field data-field="{escape(packed)}"></hd-field>'


def key_html(field: DiscField) -> str:
    """What the bands stand for."""
    levels = [tidy(v, 0) for v in field.levels]
    bands = [
        f"below {levels[0]}°",
        *(f"{a} to {b}°" for a, b in pairwise(levels)),
        f"above {levels[-1]}°",
    ]
    items = "".join(f'<li><i class="hd-band-{i}"></i>{escape(text)}</li>' for i, text in enumerate(bands))
    return f'<ul class="hd-field-key">{items}<li><i class="hd-band-none"></i>{escape(field.none_words)}</li></ul>'


def field_table_html(field: DiscField) -> str:
    """The field at a few stations and the eighths of a turn: its text equivalent."""
    eighth = len(field.rows[0]) // _EIGHTHS
    heads = "".join(f'<th scope="col">{name}</th>' for name in _NAMES)
    rows = ""
    for i in sorted({_nearest(field, s) for s in (0.0, 0.33, 0.67, 1.0)}, reverse=True):
        cells = (field.rows[i][k * eighth] for k in range(_EIGHTHS))
        rows += f'<tr><th scope="row">{field.radii[i]:.2f} R</th>' + "".join(
            f"<td>{'–' if value is None else tidy(value, 1)}</td>" for value in cells
        ) + "</tr>"  # fmt: skip
    return (
        f'<div class="hd-scroll" tabindex="0" role="region" aria-label="{escape(field.title)}, values">'
        f'<table class="hd-all"><caption>{escape(field.title)}, in degrees; –: {escape(field.none_words)}</caption>'
        f'<thead><tr><th scope="col">bearing</th>{heads}</tr></thead><tbody>{rows}</tbody></table></div>'
    )
