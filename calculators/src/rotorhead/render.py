"""The parts of an answer as HTML: sentence, drawing, results, working. The same text at build and live.

Everything a reader typed is escaped here; nothing else puts it on a page.
"""

from collections.abc import Callable, Container, Iterable
from functools import cache, partial
from html import escape
from importlib import import_module
from typing import TYPE_CHECKING, Final

from .charts import chart_html, table_html
from .fields import WORDS, Calculator, Case, Result, Step
from .site_values import result_html
from .topics import module_of
from .units import QUANTITIES, from_si, show

if TYPE_CHECKING:
    from .spread import Spread


@cache
def _mathml(module: str) -> dict[str, str]:
    """LaTeX -> MathML of one calculator, made by the build (scripts/site/mathml.py) and packed with its part."""
    try:
        made: dict[str, str] = import_module(f"{__package__}.topics.{MATHML}{module}").MADE
    except ModuleNotFoundError:
        return _added
    return made


_added: dict[str, str] = {}
# What the build's modules are called, before the calculator's own name.
MATHML: Final = "mathml_"


def add_mathml(made: dict[str, str]) -> None:
    """The build's own run has no packed file: it hands the same mapping over here."""
    _added.update(made)


def equation_html(calculator: Calculator, latex: str) -> str:
    """MathML for an equation of a calculator, or its LaTeX text where none was made."""
    return _mathml(module_of(calculator.id)).get(latex) or f"<code>{escape(latex)}</code>"


def parts(
    calculator: Calculator, case: Case, skip: Container[str] = (), spread: "Spread | None" = None
) -> dict[str, str]:
    """HTML for the slots of a calculator on a page: sentence, drawing, results, working; chart and table if it has one.

    `skip`: slots the page can't show just now, which are then not made. `spread`: how far the results may be off because
    figures of the head aren't known.
    """
    makers: dict[str, Callable[[], str]] = {
        "sentence": lambda: f"<p>{escape(calculator.describe(case))}</p>",
        "drawing": lambda: _drawing(calculator, case),
        "results": lambda: _results(calculator, case, spread),
        "working": lambda: _working(calculator, case),
    }
    if calculator.chart:
        chart = calculator.chart(case)
        makers |= {"chart": lambda: chart_html(chart, case), "table": lambda: table_html(chart, case)}
    makers |= {name: partial(make, case) for name, make in calculator.extra.items()}
    return {name: make() for name, make in makers.items() if name not in skip}


def _drawing(calculator: Calculator, case: Case) -> str:
    drawing = calculator.drawing(case)
    return f'{drawing.svg}<p class="hd-caption">{escape(drawing.text)}</p>'


def _results(calculator: Calculator, case: Case, spread: "Spread | None") -> str:
    rows = [
        f'<div class="hd-result"><dt>{escape(r.label)}</dt>'
        f"<dd>{result_html(calculator, r.name, case.answer.results[r.name], case.units)}{_range(r, case, spread)}</dd></div>"
        for r in calculator.results
        if r.main and r.name in case.answer.results
    ]
    return f'<dl class="hd-dl">{"".join(rows)}</dl>{_not_known(spread)}' + _told(calculator, case)


def _range(result: Result, case: Case, spread: "Spread | None") -> str:
    """Between what the result may lie."""
    if spread is None or result.name not in spread.results:
        return ""
    low, high = (show(result.quantity, v, case.units, result.decimals) for v in spread.results[result.name])
    return f' <span class="hd-spread">{escape(low)} to {escape(high)}</span>' if low != high else ""


def _not_known(spread: "Spread | None") -> str:
    if spread is None:
        return ""
    failed = f" Not possible: {'; '.join(spread.failed)}." if spread.failed else ""
    return (
        f'<p class="hd-not-known">Ranges: because of this head these are only known to lie between two values: '
        f"{escape('; '.join(spread.unknown))}. Each is tried at both ends, and the swings are added as independent ones.{escape(failed)}</p>"
    )


def _told(calculator: Calculator, case: Case) -> str:
    """The verdict on a told angle stands with the results, not only in the working."""
    verdict = case.answer.results.get("told_verdict")
    return f'<p class="hd-verdict"><b>What I was told:</b> {escape(str(verdict))}</p>' if verdict else ""


def steps_html(calculator: Calculator, steps: Iterable[Step]) -> str:
    """The working: a line for each step, with its equation and numbers."""
    items = []
    for step in steps:
        equation = (
            f'<div class="hd-equation">{equation_html(calculator, calculator.equations[step.equation])}</div>'
            if step.equation
            else ""
        )
        items.append(f'<li>{escape(step.say)}{equation}<div class="hd-numbers">{escape(step.numbers)}</div></li>')
    return f'<ol class="hd-steps">{"".join(items)}</ol>'


def sources_html(sources: Iterable[str]) -> str:
    """Where figures and equations come from."""
    return f'<ul class="hd-sources">{"".join(f"<li>{escape(t)}</li>" for t in sources)}</ul>'


def _working(calculator: Calculator, case: Case) -> str:
    rows = "".join(
        f"<tr><th scope=row>{escape(r.label)}</th>"
        f"<td>{result_html(calculator, r.name, case.answer.results[r.name], case.units)}</td></tr>"
        for r in calculator.results
        if r.name in case.answer.results
    )
    table = f'<table class="hd-all"><caption>All figures</caption><tbody>{rows}</tbody></table>'
    limits = "".join(f"<li>{escape(t)}</li>" for t in calculator.limits)
    return (
        f"{steps_html(calculator, calculator.working(case))}{table}"
        f'<p class="hd-subhead">Where it stops being true</p><ul class="hd-limits">{limits}</ul>'
        f'<p class="hd-subhead">Sources</p>{sources_html(calculator.sources)}'
    )


def results_list(calculator: Calculator, case: Case) -> list[dict[str, object]]:
    """Named results with units, for the command line and other programs."""
    found: list[dict[str, object]] = []
    for r in calculator.results:
        if r.name not in case.answer.results:
            continue
        value = case.answer.results[r.name]
        if r.quantity == WORDS or isinstance(value, str):
            found.append({"name": r.name, "label": r.label, "value": value, "unit": "", "text": str(value)})
            continue
        unit = _unit(r.quantity, case)
        found.append({
            "name": r.name, "label": r.label, "value": round(from_si(r.quantity, value, case.units), 12), "unit": unit,
            "text": show(r.quantity, value, case.units, r.decimals),
        })  # fmt: skip
    return found


def _unit(quantity: str, case: Case) -> str:
    return QUANTITIES[quantity].unit(case.units).symbol
