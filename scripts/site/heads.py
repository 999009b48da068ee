"""A head's own page: drawing, figures, derived figures, in both systems of units and both ways round."""

from __future__ import annotations

from html import escape

import defaults
from rotorhead.derived import figures as derived_figures
from rotorhead.head import demonstration
from rotorhead.head_figures import BY_KEY, GROUPS, OPTION_BY_KEY
from rotorhead.run import HeadChoice, rotor_of


def _drawings(base: str) -> str:
    """Plan and rose, both ways round; the app shows the way the reader has chosen."""
    parts = []
    for mirrored in (False, True):
        page = defaults.head_page(base, mirrored)
        turned = "mirrored" if mirrored else "as-drawn"
        hidden = " hidden" if mirrored else ""
        rose, plan = page["figures"]["rose"], page["figures"]["head-plan"]
        parts.append(
            f'<div class="hd-pair" data-turned="{turned}"{hidden}><figure>{plan}</figure><figure>{rose}</figure></div>'
        )
    return "".join(parts)


def _row(label: str, metric: str, imperial: str) -> str:
    cell = f"<td>{metric}</td>" if metric == imperial else f"<td>{metric} <span class=hd-alt>({imperial})</span></td>"
    return f'<tr><th scope="row">{escape(label)}</th>{cell}</tr>'


def _figures(base: str) -> str:
    head = demonstration(base)
    metric, imperial = (defaults.head_page(base, False, u)["values"] for u in ("metric", "imperial"))
    tables = ""
    for group, title in GROUPS.items():
        rows = ""
        for key in head.keys():
            declared = OPTION_BY_KEY.get(key) or BY_KEY[key]
            if declared.group == group:
                rows += _row(declared.label, metric[f"head.{key}"], imperial[f"head.{key}"])
        tables += f'<tr class="hd-group"><th colspan="2" scope="rowgroup">{escape(title)}</th></tr>{rows}'
    return f'<table class="hd-table"><caption>What the description holds</caption><tbody>{tables}</tbody></table>'


def _derived(base: str) -> str:
    metric, imperial = (defaults.head_page(base, False, u)["values"] for u in ("metric", "imperial"))
    rotor = rotor_of(HeadChoice(base), "metric")
    rows = "".join(
        _row(item.label, metric[f"derived.{name}"], imperial[f"derived.{name}"])
        for name, item in derived_figures(rotor).items()
        if name != "sigma"
    )
    return f'<table class="hd-table"><caption>What follows from it</caption><tbody>{rows}</tbody></table>'


def head_html(base: str) -> str:
    """Everything the page of one head shows besides its prose."""
    head = demonstration(base)
    words = defaults.head_page(base)["values"]
    return (
        f'<div class="hd-head-page" data-head-page="{escape(base)}">'
        f'<p class="hd-note">{escape(head.note)}</p><p class="hd-sum">{words["words.sum"]}</p>{_drawings(base)}'
        f'<p><a class="hd-use" href="#&amp;head={escape(base)}">Use {escape(head.name)} on every page</a></p>'
        f'<div class="hd-two">{_figures(base)}{_derived(base)}</div></div>'
    )
