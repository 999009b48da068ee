"""Charts as data in the reader's units: what the page draws live, what the build prints, the table beneath."""

import json
from html import escape
from typing import Any

from .fields import Case, Chart
from .units import QUANTITIES, decimals, from_si, tidy


def data(chart: Chart, case: Case) -> dict[str, Any]:
    """A chart as JSON data, values in the reader's units, rounded to what a line can show."""
    unit = QUANTITIES[chart.quantity].unit(case.units).symbol
    return {
        "title": chart.title,
        "x": {"label": chart.x_label, "values": [round(x, 4) for x in chart.x]},
        "y": {"label": chart.y_label, "unit": unit},
        "lines": [
            {
                "name": line.name,
                "role": line.role,
                "values": [float(f"{from_si(chart.quantity, v, case.units):.5g}") for v in line.values],
            }
            for line in chart.lines
        ],
        "cursor": chart.cursor,
        "cursorField": chart.cursor_field,
        "points": chart.points,
    }


def chart_html(chart: Chart, case: Case) -> str:
    """The element that draws the chart; the build puts a printed one inside for the default head."""
    packed = json.dumps(data(chart, case), ensure_ascii=False, separators=(",", ":"), allow_nan=False)
    return f'<hd-chart data-chart="{escape(packed)}"></hd-chart>'


def table_html(chart: Chart, case: Case) -> str:
    """Values of the chart as a table: every so many points, which is what a reader can take in, and the last."""
    unit = QUANTITIES[chart.quantity].unit(case.units).symbol
    places = decimals(chart.quantity, case.units)
    most = max((abs(from_si(chart.quantity, v, case.units)) for line in chart.lines for v in line.values), default=0.0)
    if most < 10.0:
        places += 1
    heads = "".join(f'<th scope="col">{escape(line.name)}</th>' for line in chart.lines)
    rows = "".join(
        f'<tr><th scope="row">{chart.x[i]:g}</th>'
        + "".join(
            f"<td>{tidy(from_si(chart.quantity, line.values[i], case.units), places)}</td>" for line in chart.lines
        )
        + "</tr>"
        for i in sorted({*range(0, len(chart.x), chart.every), len(chart.x) - 1})
    )
    return (
        f'<div class="hd-scroll" tabindex="0" role="region" aria-label="{escape(chart.title)}, values">'
        f'<table class="hd-all"><caption>{escape(chart.title)}, {escape(chart.y_label)} in {escape(unit)}</caption>'
        f'<thead><tr><th scope="col">{escape(chart.x_label)}</th>{heads}</tr></thead><tbody>{rows}</tbody></table></div>'
    )
