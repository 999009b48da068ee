"""Charts as matplotlib prints them: the default on paper and without script."""

from __future__ import annotations

import io
import re
from typing import Any, Final

import matplotlib as mpl

mpl.use("svg")
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


def _coloured(svg: str) -> str:
    """Roles' stand-ins -> the page's custom properties, so that light, dark and print each have their own."""
    for role, (colour, _, _) in _ROLES.items():
        svg = svg.replace(colour, f"var(--hd-{role})")
    return svg.replace(_INK, "var(--hd-ink)").replace(_FAINT, "var(--hd-faint-line, #9aa3ab)")


def printed(chart: dict[str, Any], name: str) -> str:
    """One chart as inline SVG; `name` keeps its ids apart from those of other charts on a page."""
    style: Any = {
        "svg.fonttype": "none", "svg.hashsalt": name, "font.size": 12, "text.color": _INK, "axes.labelcolor": _INK,
        "xtick.color": _INK, "ytick.color": _INK, "axes.edgecolor": _FAINT, "grid.color": _FAINT, "axes.spines.top": False,
        "axes.spines.right": False, "axes.unicode_minus": True,
    }  # fmt: skip
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
