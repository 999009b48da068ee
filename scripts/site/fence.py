"""The one fence of this site: ```rotorhead with a line that says what stands there."""

from __future__ import annotations

from collections.abc import Callable
from html import escape
from itertools import count
from typing import Any

import defaults
import dependencies
import forms
import heads
import predictions
import speeds
import teaching
from predictions import FenceError
from rotorhead.motion.parts import BY_ID, PARTS
from rotorhead.topics import ALL

_numbers = count(1)


def _figure(name: str, _: list[str]) -> str:
    figures = defaults.head_page()["figures"]
    if name not in figures:
        raise FenceError(f"there is no figure “{name}”; there are {', '.join(figures)}")
    return f'<figure class="hd-figure-box"><hd-figure name="{escape(name)}">{figures[name]}</hd-figure></figure>'


def _part(name: str, _: list[str]) -> str:
    """The head with one part picked out, and the way to the moving view of it."""
    if name not in BY_ID or not BY_ID[name].shown:
        raise FenceError(
            f"there is no part “{name}” in the view; there are {', '.join(p.id for p in PARTS if p.shown)}"
        )
    drawn = defaults.head_page()["figures"]["head-view"]
    return (
        f'<figure class="hd-figure-box" data-picked="{escape(name)}"><hd-figure name="head-view">{drawn}</hd-figure></figure>'
        f'<p class="hd-part-link"><a href="../see-it-move.html#motion&amp;part={escape(name)}">See it move: {escape(BY_ID[name].label)}</a></p>'
    )


def _calculator(name: str, _: list[str]) -> str:
    if name not in ALL:
        raise FenceError(f"there is no calculator “{name}”; there are {', '.join(ALL)}")
    return forms.calculator_html(name)


def _predict(name: str, lines: list[str]) -> str:
    """The rose to mark, or with options a number to guess on a scale."""
    if name != "control-phase":
        return predictions.scale_html(name, lines)
    page = defaults.head_page()
    label = escape(page["head"]["label"])
    return (
        f'<hd-predict name="{escape(name)}" data-answer-of="phase.remainder_bearing_deg">'
        f'<p class="hd-predict-question">The stick goes forward on <b class="hd-head-label">{label}</b>. Where must the plate '
        "be low for the disc to go down at the nose? Drag the arrow, or use the arrow keys, then let the model show it.</p>"
        f'<div class="hd-predict-rose">{page["figures"]["predict-rose"]}</div>'
        '<noscript><p class="hd-noscript">Marking the rose needs script; decide on an angle, then read the sum: '
        f"{page['values']['words.sum']}.</p></noscript></hd-predict>"
    )


def _choice(question: str, lines: list[str]) -> str:
    number = next(_numbers)
    options = []
    for line in lines:
        kind, _, rest = line.removeprefix("- ").partition(":")
        text, _, why = rest.partition("|")
        if kind not in ("right", "wrong") or not text.strip() or not why.strip():
            raise FenceError(f"a choice needs “- right: text | why” or “- wrong: text | why”, not “{line}”")
        right = " data-right" if kind == "right" else ""
        options.append((text.strip(), why.strip(), right))
    if sum(bool(o[2]) for o in options) != 1:
        raise FenceError(f"exactly one right answer is needed for “{question}”")
    # The right one must not always stand first: turn the list by the question's length.
    shift = len(question) % len(options)
    options = options[shift:] + options[:shift]
    radios = "".join(
        f'<label><input type="radio" name="choice-{number}"{right} data-why="{escape(why)}"> <span>{escape(text)}</span></label>'
        for text, why, right in options
    )
    right_text, right_why, _ = next(o for o in options if o[2])
    return (
        f'<hd-predict type="choice"><fieldset><legend>{escape(question)}</legend>{radios}</fieldset>'
        f"<noscript><details><summary>What is so</summary><p>{escape(right_text)} {escape(right_why)}</p></details></noscript>"
        "</hd-predict>"
    )


def _head(base: str, _: list[str]) -> str:
    if base not in defaults.HEADS:
        raise FenceError(f"there is no head “{base}”")
    return heads.head_html(base)


def _declarations(which: str, _: list[str]) -> str:
    if which != "all":
        raise FenceError("declarations: all")
    return "".join(forms.declaration_html(c) for c in ALL.values())


_TEACHING: dict[str, Callable[[list[str]], str]] = {
    "practice": teaching.practice_html,
    "builder": teaching.builder_html,
    "sheet": teaching.sheet_html,
    "lesson": teaching.lesson_html,
    "bank": teaching.bank_html,
    "beliefs": teaching.beliefs_html,
    "beliefs-first": teaching.beliefs_first_html,
}


def _teaching(which: str, lines: list[str]) -> str:
    if which not in _TEACHING:
        raise FenceError(f"teach: one of {', '.join(_TEACHING)}")
    try:
        return _TEACHING[which](lines)
    except KeyError as unknown:
        raise FenceError(f"teach: {which} knows no {unknown}") from None


_HOUSE: dict[str, Callable[[list[str]], str]] = {
    "carried": dependencies.carried_html,
    "tools": dependencies.tools_html,
    "speeds": speeds.speeds_html,
}


def _house(which: str, lines: list[str]) -> str:
    if which not in _HOUSE:
        raise FenceError(f"house: one of {', '.join(_HOUSE)}")
    return _HOUSE[which](lines)


_KINDS: dict[str, Callable[[str, list[str]], str]] = {
    "figure": _figure,
    "part": _part,
    "calculator": _calculator,
    "predict": _predict,
    "choice": _choice,
    "head": _head,
    "declarations": _declarations,
    "teach": _teaching,
    "house": _house,
}


def format_fence(
    source: str,
    language: str,
    css_class: str,
    options: dict[str, Any],
    md: Any,
    **more: Any,
) -> str:
    """Markdown's call for every fence of ours: its first line says what, further lines give options."""
    lines = [line.strip() for line in source.strip().splitlines() if line.strip()]
    kind, _, name = lines[0].partition(":") if lines else ("", "", "")
    if kind not in _KINDS:
        raise FenceError(f"a fence must start with one of {', '.join(_KINDS)}; this one says “{kind}”")
    # Markdown would put an element it doesn't know into a paragraph; a division it leaves alone.
    return f'<div class="hd-block">{_KINDS[kind](name.strip(), lines[1:])}</div>'
