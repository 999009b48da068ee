"""The page of speeds: what the benchmarks last measured, against the budgets, with the date and the machine."""

from __future__ import annotations

import json
from html import escape
from typing import Any

from house.paths import SCRIPTS

MEASURED = SCRIPTS / "bench" / "measured.json"


def _number(value: float) -> str:
    return f"{value:.2f}" if value < 10 else f"{value:.0f}"


def _row(one: dict[str, Any]) -> str:
    share = one["value"] / one["budget"]
    verdict = "within" if share <= 1 else "<strong>over</strong>"
    unit = f" {escape(one['unit'])}" if one["unit"] else ""
    return (
        f"<tr><td>{escape(one['what'])}<br><small>{escape(one['how'])}</small></td><td>{_number(one['value'])}{unit}</td>"
        f"<td>{one['budget']:g}{unit}</td><td>{share:.2f}</td><td>{verdict}</td></tr>"
    )


def speeds_html(_: list[str]) -> str:
    """One row a figure: measured, budget, and the one as a share of the other."""
    kept = json.loads(MEASURED.read_text(encoding="utf-8"))
    machine = {key: escape(value) for key, value in kept["machine"].items()}
    rows = "".join(_row(one) for one in kept["figures"])
    return (
        "<table><thead><tr><th>What</th><th>Measured</th><th>Budget</th><th>Share of it</th><th>Verdict</th></tr></thead>"
        f"<tbody>{rows}</tbody></table>"
        f"<p>Measured on {machine['date']} on {machine['processors']} processors ({machine['architecture']}, "
        f"{machine['system']}) with {machine['memory']} of memory, {machine['browser']} without a graphics card, "
        f"Python {machine['python']}; load of the machine before it began: {machine['load']}.</p>"
    )
