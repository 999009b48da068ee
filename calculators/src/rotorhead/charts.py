"""Charts as data in the reader's units: what the page draws live, what the build prints, the table beneath."""

import json
from html import escape
from typing import Any

from .fields import Case, Chart
from .units import QUANTITIES, decimals, from_si, tidy


def is_turn(chart: Chart) -> bool:
    """Whether x is the degrees of a turn."""
    return not chart.x_quantity and not chart.points


def _x(chart: Chart, x: float, case: Case) -> float:
    """A place on x in the reader's units."""
    return from_si(chart.x_quantity, x, case.units) if chart.x_quantity else x


def x_values(chart: Chart, case: Case) -> list[float]:
    """x in the reader's units."""
    return [round(_x(chart, x, case), 4) for x in chart.x]


def x_label(chart: Chart, case: Case) -> str:
    """What stands along x, with its unit."""
    unit = QUANTITIES[chart.x_quantity].unit(case.units).symbol if chart.x_quantity else ""
    return f"{chart.x_label}, {unit}" if unit else chart.x_label


def data(chart: Chart, case: Case) -> dict[str, Any]:
    """A chart as JSON data, values in the reader's units, rounded to what a line can show."""
    unit = QUANTITIES[chart.quantity].unit(case.units).symbol
    return {
        "title": chart.title,
        "x": {"label": x_label(chart, case), "values": x_values(chart, case), "turn": is_turn(chart)},
        "y": {"label": chart.y_label, "unit": unit},
        "lines": [
            {
                "name": line.name,
                "role": line.role,
                "values": [float(f"{from_si(chart.quantity, v, case.units):.5g}") for v in line.values],
            }
            for line in chart.lines
        ],
        "cursor": chart.cursor if chart.cursor is None else _x(chart, chart.cursor, case),
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
    xs = x_values(chart, case)
    rows = "".join(
        f'<tr><th scope="row">{xs[i]:g}</th>'
        + "".join(
            f"<td>{tidy(from_si(chart.quantity, line.values[i], case.units), places)}</td>" for line in chart.lines
        )
        + "</tr>"
        for i in sorted({*range(0, len(chart.x), chart.every), len(chart.x) - 1})
    )
    return (
        f'<div class="hd-scroll" tabindex="0" role="region" aria-label="{escape(chart.title)}, values">'
        f'<table class="hd-all"><caption>{escape(chart.title)}, {escape(chart.y_label)} in {escape(unit)}</caption>'
        f'<thead><tr><th scope="col">{escape(x_label(chart, case))}</th>{heads}</tr></thead><tbody>{rows}</tbody></table></div>'
    )
