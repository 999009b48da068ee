"""A calculator on a page: its form made from the declaration, its default answer printed in place."""

from __future__ import annotations

import json
from html import escape, unescape
from typing import Any

import defaults
import plots
from rotorhead import units
from rotorhead.fields import Calculator, Choice, Input, Text
from rotorhead.head_figures import BY_KEY, GROUPS, OPTION_BY_KEY, RODS_MOST
from rotorhead.topics import ALL


def _id(calculator: Calculator, name: str) -> str:
    return f"{calculator.id}-{name.replace('.', '-')}"


def _number(calculator: Calculator, name: str, label: str, help_text: str, shown: dict[str, Any] | None) -> str:
    """Label, slider, text box, unit, reset, place for a fault."""
    i = _id(calculator, name)
    at = shown or {"text": "0", "min": 0, "max": 1, "step": 1, "unit": ""}
    help_html = f' <span class="hd-help">{escape(help_text)}</span>' if help_text else ""
    unit = escape(str(at["unit"]))
    return (
        f'<div class="hd-field" data-field="{escape(name)}"{"" if shown else " hidden"}>'
        f'<label for="{i}">{escape(label)}{help_html}</label>'
        f'<input class="hd-slider" type="range" aria-label="{escape(label)}" min="{at["min"]}" max="{at["max"]}" '
        f'step="{at["step"]}" value="{escape(str(at["text"]))}" aria-valuetext="{escape(str(at["text"]))} {unit}">'
        f'<input class="hd-text" id="{i}" type="text" inputmode="text" autocomplete="off" spellcheck="false" '
        f'value="{escape(str(at["text"]))}" aria-describedby="{i}-fault">'
        f'<span class="hd-unit">{unit}</span>'
        f'<button class="hd-field-reset" type="button" hidden>reset<span class="hd-sr"> {escape(label)}</span></button>'
        f'<p class="hd-fault" id="{i}-fault" hidden></p></div>'
    )


def _choice(
    calculator: Calculator, name: str, label: str, help_text: str, choices: tuple[tuple[str, str], ...],
    shown: dict[str, Any] | None,
) -> str:  # fmt: skip
    i = _id(calculator, name)
    text = (shown or {"text": choices[0][0]})["text"]
    options = "".join(
        f'<option value="{escape(v)}"{" selected" if v == text else ""}>{escape(words)}</option>'
        for v, words in choices
    )
    help_html = f' <span class="hd-help">{escape(help_text)}</span>' if help_text else ""
    return (
        f'<div class="hd-field hd-field-choice" data-field="{escape(name)}"{"" if shown else " hidden"}>'
        f'<label for="{i}">{escape(label)}{help_html}</label>'
        f'<select class="hd-choice" id="{i}" aria-describedby="{i}-fault">{options}</select>'
        f'<button class="hd-field-reset" type="button" hidden>reset<span class="hd-sr"> {escape(label)}</span></button>'
        f'<p class="hd-fault" id="{i}-fault" hidden></p></div>'
    )


def _text(calculator: Calculator, item: Text, shown: dict[str, Any] | None) -> str:
    i = _id(calculator, item.name)
    text = (shown or {"text": item.default})["text"]
    help_html = f' <span class="hd-help">{escape(item.help)}</span>' if item.help else ""
    return (
        f'<div class="hd-field hd-field-text" data-field="{escape(item.name)}"{"" if shown else " hidden"}>'
        f'<label for="{i}">{escape(item.label)}{help_html}</label>'
        f'<textarea class="hd-text" id="{i}" rows="6" maxlength="{item.longest}" autocomplete="off" spellcheck="false" '
        f'aria-describedby="{i}-fault">{escape(text)}</textarea>'
        f'<button class="hd-field-reset" type="button" hidden>reset<span class="hd-sr"> {escape(item.label)}</span></button>'
        f'<p class="hd-fault" id="{i}-fault" hidden></p></div>'
    )


def _input(calculator: Calculator, item: Input, form: dict[str, Any]) -> str:
    shown = form.get(item.name)
    if isinstance(item, Text):
        return _text(calculator, item, shown)
    if isinstance(item, Choice):
        return _choice(calculator, item.name, item.label, item.help, item.choices, shown)
    return _number(calculator, item.name, item.label, item.help, shown)


def _figure(calculator: Calculator, key: str, form: dict[str, Any]) -> str:
    name, shown = f"head.{key}", form.get(f"head.{key}")
    if key in OPTION_BY_KEY:
        option = OPTION_BY_KEY[key]
        return _choice(calculator, name, option.label, option.help, option.choices, shown)
    figure = BY_KEY[key]
    return _number(calculator, name, figure.label, figure.help, shown)


def _all_keys(keys: tuple[str, ...]) -> list[str]:
    """'rods' spelled out as far as any head may have them; those a head lacks stay hidden."""
    found: list[str] = []
    for key in keys:
        found += (
            [f"rods.{n}.{part}" for n in range(1, RODS_MOST + 1) for part in ("bearing_deg", "stroke_mm")]
            if key == "rods"
            else [key]
        )
    return found


def calculator_html(name: str) -> str:
    """The whole element, complete and readable without script."""
    calculator, run = ALL[name], defaults.calculator(name)
    form, parts = run["form"], run["parts"]
    first = "".join(_input(calculator, i, form) for i in calculator.inputs if not i.group)
    first += "".join(_figure(calculator, k, form) for k in calculator.figures_first)
    groups = ""
    for group in dict.fromkeys(i.group for i in calculator.inputs if i.group):
        inside = "".join(_input(calculator, i, form) for i in calculator.inputs if i.group == group)
        groups += f'<details class="hd-figures"><summary>{escape(group)}</summary>{inside}</details>'
    figures = "".join(_figure(calculator, k, form) for k in _all_keys(calculator.figures))
    if calculator.by_group:
        for group, title in GROUPS.items():
            keys = [k for k in _all_keys(calculator.figures) if (OPTION_BY_KEY.get(k) or BY_KEY[k]).group == group]
            inside = "".join(_figure(calculator, k, form) for k in keys)
            groups += f'<details class="hd-figures" data-group="{group}"><summary>{escape(title)}</summary>{inside}</details>'
    elif figures:
        groups += f'<details class="hd-figures"><summary>Figures of this head</summary>{figures}</details>'
    label = escape(run["head"]["label"])
    chart = ""
    if "chart" in parts:
        empty = "></hd-chart>"
        data = _data(parts["chart"], "data-chart")
        drawn = parts["chart"].replace(empty, f">{plots.printed(data, f'plot-{name}')}</hd-chart>")
        chart = (
            f'<div class="hd-chart-slot" data-part="chart">{drawn}</div>'
            f'<details class="hd-values"><summary>Table of values</summary><div data-part="table">{parts["table"]}</div></details>'
        )
    return (
        f'<hd-calculator name="{calculator.id}" id="calculator-{calculator.id}" data-state="printed" '
        f'aria-label="{escape(calculator.title)}" role="region">'
        f'<p class="hd-title">{escape(calculator.question)}</p>'
        f'<p class="hd-top"><span class="hd-for">Figures for <b class="hd-head-label">{label}</b></span> '
        '<span class="hd-hint">Touch a control to make it live.</span></p>'
        f'<div class="hd-sentence" data-part="sentence">{parts["sentence"]}</div>'
        f'<div class="hd-bench">{_picture(calculator, parts)}'
        f'<div class="hd-side"><form class="hd-controls" autocomplete="off">{first}{groups}</form>'
        '<p class="hd-status" role="status"></p>'
        f'<div class="hd-results" data-part="results">{parts["results"]}</div></div>{_field(calculator, parts)}</div>'
        f'{_tour(parts)}{_sheets(parts)}{_extras(calculator, parts)}{chart}<details class="hd-working"><summary>The working</summary>'
        f'<div data-part="working">{parts["working"]}</div></details>'
        '<div class="hd-tools"></div></hd-calculator>'
    )


def _picture(calculator: Calculator, parts: dict[str, str]) -> str:
    """The drawing; where there is a moving view, in a box with the place for it."""
    drawing = f'<div class="hd-drawing" data-part="drawing">{parts["drawing"]}</div>'
    return (
        f'<div class="hd-picture"><div class="hd-stage" hidden></div>{drawing}</div>' if calculator.scene else drawing
    )


def _tour(parts: dict[str, str]) -> str:
    """What is told of the part that is picked."""
    return f'<div class="hd-tour" data-part="tour">{parts["tour"]}</div>' if "tour" in parts else ""


def _extras(calculator: Calculator, parts: dict[str, str]) -> str:
    """Further slots a calculator declares, beneath its bench."""
    names = [name for name in calculator.extra if name not in ("tour", "sheets", "field", "field_words")]
    return "".join(f'<div class="hd-extra" data-part="{name}">{parts[name]}</div>' for name in names)


def _field(calculator: Calculator, parts: dict[str, str]) -> str:
    """A picture over the disc with its words: printed here, drawn on a canvas once the calculator is live."""
    if "field" not in parts:
        return ""
    drawn = plots.printed_field(_data(parts["field"], "data-field"), f"field-{calculator.id}")
    return (
        f'<div class="hd-field-box"><div data-part="field">{parts["field"].replace("></hd-field>", f">{drawn}</hd-field>")}</div>'
        f'<div data-part="field_words">{parts["field_words"]}</div></div>'
    )


def _data(html: str, attribute: str) -> dict[str, Any]:
    """What an element carries in an attribute."""
    data: dict[str, Any] = json.loads(unescape(html.partition(f'{attribute}="')[2].partition('"')[0]))
    return data


def _sheets(parts: dict[str, str]) -> str:
    """Sheets to print at their true size, beside the calculator's own."""
    if "sheets" not in parts:
        return ""
    return (
        '<div class="hd-wheel"><button class="hd-button hd-print-wheel" data-needs="printer" type="button">Print the wheel</button>'
        f'<details><summary>The two sheets</summary><div data-part="sheets">{parts["sheets"]}</div></details></div>'
    )


def example_rows(calculator: Calculator) -> str:
    """The worked examples of a calculator as table rows."""
    rows = ""
    for e in calculator.examples:
        set_text = ", ".join(f"{k} = {v}" for k, v in {**e.inputs, **e.changes}.items()) or "defaults"
        results = ", ".join(f"{k} = {v[0]:g} ± {v[1]:g}" for k, v in e.results.items())
        rows += (
            f"<tr><td>{escape(e.title)}</td><td>{escape(e.head)}: {escape(set_text)}</td><td>{escape(results)}</td>"
            f"<td>{escape(e.source)}</td></tr>"
        )
    return rows


def declaration_html(calculator: Calculator) -> str:
    """Tables of inputs, results and examples, for the reference page."""
    rows = ""
    for item in calculator.inputs:
        if isinstance(item, Choice):
            allowed = "; ".join(f"{v}: {w}" for v, w in item.choices)
            rows += f"<tr><td><code>{item.name}</code></td><td>{escape(item.label)}</td><td></td><td>{escape(allowed)}</td></tr>"
        elif isinstance(item, Text):
            allowed = f"a text of at most {item.longest} characters"
            rows += f"<tr><td><code>{item.name}</code></td><td>{escape(item.label)}</td><td></td><td>{allowed}</td></tr>"
        else:
            unit = units.QUANTITIES[item.quantity].metric.symbol
            rows += (
                f"<tr><td><code>{item.name}</code></td><td>{escape(item.label)}</td><td>{escape(unit)}</td>"
                f"<td>{item.low:g} to {item.high:g}</td></tr>"
            )
    results = "".join(
        f"<tr><td><code>{r.name}</code></td><td>{escape(r.label)}</td>"
        f"<td>{escape('words' if r.quantity == 'words' else units.QUANTITIES[r.quantity].metric.symbol)}</td></tr>"
        for r in calculator.results
    )
    return (
        f'<h2 id="{calculator.id}">{escape(calculator.title)}</h2><p>{escape(calculator.question)} '
        f'<a href="../{calculator.page.replace(".md", ".html")}#calculator-{calculator.id}">Open it on its page</a>.</p>'
        f"<pre><code>python -m rotorhead {calculator.id} --head alder3 --json</code></pre>"
        f'<div class="hd-scroll" tabindex="0" role="region" aria-label="Inputs of {calculator.id}"><table class="hd-declared"><caption>Inputs</caption><thead><tr><th scope="col">Name</th><th scope="col">Meaning</th>'
        f'<th scope="col">Unit</th><th scope="col">Allowed</th></tr></thead><tbody>{rows}</tbody></table></div>'
        f'<div class="hd-scroll" tabindex="0" role="region" aria-label="Results of {calculator.id}"><table class="hd-declared"><caption>Results</caption><thead><tr><th scope="col">Name</th><th scope="col">Meaning</th>'
        f'<th scope="col">Unit</th></tr></thead><tbody>{results}</tbody></table></div>'
        f'<div class="hd-scroll" tabindex="0" role="region" aria-label="Worked example of {calculator.id}"><table class="hd-declared"><caption>Worked example</caption><thead><tr><th scope="col">Case</th><th scope="col">Set</th>'
        f'<th scope="col">Answer</th><th scope="col">Source</th></tr></thead><tbody>{example_rows(calculator)}</tbody></table></div>'
    )
