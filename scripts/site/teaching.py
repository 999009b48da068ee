"""What stands on the teaching pages before any script runs: topics, sample questions with answers, wrong beliefs."""

from __future__ import annotations

import json
from html import escape
from typing import Any

import defaults
from rotorhead.questions import desk
from rotorhead.topics import ALL

# Path under the root and title of every page, in the order of the menu; set once the menu is known.
PAGES: list[tuple[str, str]] = []
SEED = "printed"


def _catalogue() -> dict[str, Any]:
    return desk.catalogue()


def _attribute(data: Any) -> str:
    return escape(json.dumps(data, ensure_ascii=False, separators=(",", ":")))


def _sample(template: str, seed: str) -> str:
    """One question with its answer folded away, for readers without script."""
    asked = defaults.ask(
        {"op": "ask", "id": 0, "template": template, "seed": seed, "key": True, "head": {"base": defaults.HEAD}}
    )
    shown = asked["options"] or asked["items"]
    rows = "".join(f"<li>{escape(text)}</li>" for text in shown)
    listed = f'<ol type="A">{rows}</ol>' if rows else ""
    drawing = f'<div class="hd-ask-drawing">{asked["drawing"]}</div>' if asked["drawing"] else ""
    unit = f" (in {escape(asked['unit'])})" if asked["unit"] else ""
    return (
        f'<section class="hd-ask"><h2>{escape(asked["topic_title"])}</h2><p>{escape(asked["prompt"])}{unit}</p>'
        f"{drawing}{listed}<details><summary>The answer</summary>"
        f"<p>{escape(asked['answer'])} {escape(asked['why'])}</p></details></section>"
    )


def _samples() -> str:
    """One question of each topic."""
    catalogue = _catalogue()
    first = {one["template"]: one["topic"] for one in reversed(catalogue["templates"])}
    by_topic = {topic: template for template, topic in first.items()}
    return "".join(_sample(by_topic[topic["id"]], SEED) for topic in catalogue["topics"] if topic["id"] in by_topic)


def practice_html(_: list[str]) -> str:
    """The practice page's place: questions printed, until the script takes over."""
    return (
        f'<div data-teach="practice" data-catalogue="{_attribute(_catalogue())}">'
        '<p class="hd-noscript">Practising needs script. These are printed questions, one for each topic, for '
        f"{escape(defaults.head_page()['head']['label'])}.</p>{_samples()}</div>"
    )


def builder_html(_: list[str]) -> str:
    """The sheet builder's place."""
    return (
        f'<div data-teach="builder" data-catalogue="{_attribute({**_catalogue(), "templates": []})}">'
        '<p class="hd-noscript">Putting a sheet together needs script. '
        '<a href="practise.html">Printed questions</a>, one for each topic, stand on the practice page.</p></div>'
    )


def sheet_html(_: list[str]) -> str:
    """The learner's sheet, empty until a link fills it."""
    return (
        '<div data-teach="sheet" data-link="sheet"><p>The link that brought you here carries no sheet. '
        'An instructor puts one together with <a href="sheet-builder.html">the sheet builder</a>; to practise alone, '
        'take <a href="practise.html">single questions</a>.</p></div>'
    )


def lesson_html(_: list[str]) -> str:
    """The lesson's list, empty until somebody fills it or a link does."""
    return (
        f'<div data-teach="lesson" data-link="lesson" data-pages="{_attribute(PAGES)}">'
        '<p class="hd-noscript">Putting a lesson together needs script.</p></div>'
    )


def bank_html(_: list[str]) -> str:
    """Every template: topic, level, kind, what it tests."""
    catalogue = _catalogue()
    titles = {topic["id"]: topic["title"] for topic in catalogue["topics"]}
    kinds = {"number": "a number", "choice": "one of several", "order": "an order", "mark": "a mark on the rose"}
    rows = "".join(
        f"<tr><td>{escape(titles[one['topic']])}</td><td>{escape(one['tests'])}</td><td>{kinds[one['kind']]}</td>"
        f"<td>{('easy', 'middling', 'hard')[one['level'] - 1]}</td></tr>"
        for one in catalogue["templates"]
    )
    return (
        '<div class="md-typeset__scrollwrap" tabindex="0" role="region" aria-label="All questions">'
        '<table><thead><tr><th scope="col">Topic</th><th scope="col">What it tests</th>'
        '<th scope="col">Asked for</th><th scope="col">Level</th></tr></thead>'
        f"<tbody>{rows}</tbody></table></div>"
    )


def _beliefs_by_page() -> dict[str, list[dict[str, Any]]]:
    """Beliefs under the page that answers them; pages as they first come up along the chain."""
    groups: dict[str, list[dict[str, Any]]] = {}
    for belief in desk.beliefs():
        groups.setdefault(belief["page"].removesuffix(".md") + ".html", []).append(belief)
    return groups


def beliefs_html(_: list[str]) -> str:
    """Every named wrong belief, by the page that answers it: what is said, what is so, how to show it, where."""
    titles = dict(PAGES)
    ways, items = [], []
    for path, beliefs in _beliefs_by_page().items():
        # A flat list of well over a hundred can't be looked through: a heading for each page, and the way to it.
        mark = "about-" + path.removesuffix(".html").replace("/", "-")
        title = escape(titles[path])
        ways.append(f'<li><a href="#{mark}">{title}</a> ({len(beliefs)})</li>')
        items.append(f'<h3 id="{mark}">{title}</h3>')
        items += [_belief_html(belief, path) for belief in beliefs]
    return f"<ul>{''.join(ways)}</ul>{''.join(items)}"


def _belief_html(belief: dict[str, Any], path: str) -> str:
    calculator = ALL[belief["calculator"]]
    target = "../" + calculator.page.removesuffix(".md") + ".html"
    return (
        f'<section class="hd-belief" id="{escape(belief["id"])}"><h4>“{escape(belief["said"])}”</h4>'
        f"<p><b>What is so.</b> {escape(belief['so'])}</p><p><b>How to show it.</b> {escape(belief['show'])}</p>"
        f'<p><a href="../{path}">Its page</a> · <a href="{target}">Calculator: {escape(calculator.title)}</a></p>'
        "</section>"
    )


def beliefs_first_html(lines: list[str]) -> str:
    """Those an instructor meets first, by id, with the way to each on the same page."""
    said = {belief["id"]: belief["said"] for belief in desk.beliefs()}
    chosen = [line.removeprefix("- ") for line in lines]
    rows = "".join(f'<li><a href="#{escape(name)}">“{escape(said[name])}”</a></li>' for name in chosen)
    return f"<ol>{rows}</ol>"
