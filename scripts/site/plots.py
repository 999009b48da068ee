"""Charts as matplotlib prints them: the default on paper and without script."""

from __future__ import annotations

import io
import re
from typing import Any, Final

import matplotlib as mpl
import numpy as np

mpl.use("svg")
from matplotlib import patheffects
from matplotlib import pyplot as plt

# A colour that stands for a role while matplotlib draws; the page's own colours take its place afterwards.
_ROLES: Final = {
    "hand": ("#010101", "solid", 2.4),
    "plate": ("#020202", (0, (1, 0)), 1.6),
    "pitch": ("#030303", (0, (3, 2)), 1.8),
    "disc": ("#040404", (0, (7, 3)), 2.0),
    "structure": ("#050505", "solid", 0.9),
}
_INK, _FAINT = "#060606", "#070707"


# Bands of a field over the disc: stand-ins for the page's own mixtures.
_BANDS: Final = tuple(f"#0a0a{i:02x}" for i in range(8))
_PAPER: Final = "#0b0b0b"


def _coloured(svg: str) -> str:
    """Roles' stand-ins -> the page's custom properties, so that light, dark and print each have their own."""
    for role, (colour, _, _) in _ROLES.items():
        svg = svg.replace(colour, f"var(--hd-{role})")
    for i, colour in enumerate(_BANDS):
        svg = svg.replace(colour, f"var(--hd-band-{i})")
    svg = svg.replace(_PAPER, "var(--hd-paper)")
    return svg.replace(_INK, "var(--hd-ink)").replace(_FAINT, "var(--hd-faint-line, #9aa3ab)")


_STYLE: Final[dict[str, Any]] = {
    "svg.fonttype": "none", "font.size": 12, "text.color": _INK, "axes.labelcolor": _INK, "xtick.color": _INK,
    "ytick.color": _INK, "axes.edgecolor": _FAINT, "grid.color": _FAINT, "axes.spines.top": False, "axes.spines.right": False,
    "axes.unicode_minus": True, "hatch.color": _INK, "hatch.linewidth": 0.6,
}  # fmt: skip


def _inline(figure: Any, name: str) -> str:
    """A figure as inline SVG in the page's colours; `name` keeps its ids apart from those of other plots on a page."""
    out = io.StringIO()
    figure.savefig(
        out, format="svg", transparent=True, metadata={"Date": None, "Creator": None, "Format": None, "Type": None}
    )
    plt.close(figure)
    svg = out.getvalue()
    svg = svg[svg.index("<svg") :]
    svg = re.sub(r"<metadata>.*?</metadata>", "", svg, flags=re.DOTALL)
    svg = re.sub(r'(<svg[^>]*?) width="[^"]*"', r"\1", svg, count=1)
    svg = re.sub(r'(<svg[^>]*?) height="[^"]*"', r'\1 class="hd-plot" aria-hidden="true"', svg, count=1)
    # Several plots can stand on one page: every id and every use of one carries the plot's name.
    svg = re.sub(r'\bid="([^"]+)"', rf'id="{name}-\1"', svg)
    svg = re.sub(r'(href="#|url\(#)', rf"\g<1>{name}-", svg)
    return _coloured(svg)


def printed(chart: dict[str, Any], name: str) -> str:
    """One chart as inline SVG."""
    style: Any = {**_STYLE, "svg.hashsalt": name}
    with mpl.rc_context(style):
        figure, axes = plt.subplots(figsize=(4.6, 3.5), layout="constrained")
        xs = chart["x"]["values"]
        for line in chart["lines"]:
            colour, dashes, width = _ROLES[line["role"]]
            axes.plot(
                xs, line["values"], color=colour, linestyle=dashes, linewidth=width, label=line["name"],
                marker="o" if chart["points"] else None,
            )  # fmt: skip
        if chart["cursor"] is not None:
            axes.axvline(chart["cursor"], color=_ROLES["hand"][0], linewidth=0.8)
        axes.set_xlabel(chart["x"]["label"])
        axes.set_ylabel(f"{chart['y']['label']}, {chart['y']['unit']}")
        axes.grid(visible=True, linewidth=0.4)
        if chart["x"]["turn"]:
            axes.set_xticks(range(0, 361, 90))
        if len(chart["lines"]) > 1:
            axes.legend(frameon=False, fontsize=12, loc="best")
        return _inline(figure, name)


def printed_field(field: dict[str, Any], name: str) -> str:
    """A field over the disc as inline SVG: bands and figures, nose up, the same as the page's canvas draws."""
    rows, columns = field["rows"], len(field["rows"][0])
    bearings = np.radians(np.arange(columns + 1) * 360.0 / columns)
    step = (field["outer"] - field["inner"]) / len(rows)
    radii = field["inner"] + step * np.array([0.0, *(np.arange(len(rows)) + 0.5), len(rows)])
    values = np.array([[-99.0 if v is None else v for v in (*row, row[0])] for row in (rows[0], *rows, rows[-1])])
    levels = field["levels"]
    style: Any = {**_STYLE, "svg.hashsalt": name}
    with mpl.rc_context(style):
        figure = plt.figure(figsize=(4.2, 4.2), layout="constrained")
        axes: Any = figure.add_subplot(projection="polar")
        axes.set_theta_zero_location("N")
        axes.set_theta_direction(-1)
        bands = [-1e3, *levels, 1e3]
        axes.contourf(
            bearings, radii, values, levels=bands, colors=_BANDS[: len(bands) - 1], hatches=[""] * len(levels) + ["//"]
        )
        axes.contour(bearings, radii, values, levels=levels, colors=[_INK], linewidths=0.7)
        if field["none"]:
            hole = field["none"]
            turn = np.linspace(0.0, 2.0 * np.pi, 73)
            x = hole["distance"] * np.sin(np.radians(hole["bearing"])) + hole["diameter"] / 2.0 * np.sin(turn)
            y = hole["distance"] * np.cos(np.radians(hole["bearing"])) + hole["diameter"] / 2.0 * np.cos(turn)
            out = np.hypot(x, y)
            axes.fill(np.arctan2(x, y), out, facecolor=_PAPER, edgecolor=_INK, hatch="////", linewidth=0.8)
        axes.fill_between(bearings, 0.0, field["inner"], facecolor=_PAPER, linewidth=0, zorder=3)
        axes.plot(bearings, np.full_like(bearings, field["inner"]), color=_FAINT, linewidth=0.8, zorder=3)
        for station, bearing, text in field["figures"]:
            axes.text(
                np.radians(bearing), station, f"{text}°", ha="center", va="center", zorder=4,
                path_effects=[patheffects.withStroke(linewidth=3, foreground=_PAPER)],
            )  # fmt: skip
        axes.set_ylim(0.0, field["outer"])
        axes.set_yticks([])
        axes.grid(visible=False)
        axes.set_xticks(np.radians([0, 90, 180, 270]), ["nose", "right", "tail", "left"])
        return _inline(figure, name)
