"""What stands at the top of every page: which head the figures are for, and the chain."""

from __future__ import annotations

import json
import posixpath
import re
from html import escape
from typing import TYPE_CHECKING

import defaults
from rotorhead.conventions import count_word
from rotorhead.head import demonstration

if TYPE_CHECKING:
    from mkdocs.structure.pages import Page

CHAIN = (
    ("stick", "principles/cyclic.html"),
    ("rods", "parts/rods.html"),
    ("plate", "parts/swashplate.html"),
    ("links", "parts/pitch-links.html"),
    ("pitch", "principles/collective.html"),
    ("flap", "principles/precession-or-lag.html"),
    ("disc", "principles/disc-tilt.html"),
    ("lift", "flight/lift-and-collective.html"),
)


def _heads() -> str:
    entries = [
        {"id": base, "name": demonstration(base).name,
         "words": f"{count_word(int(demonstration(base)['blades']))} blades, {demonstration(base).option('type')}"}
        for base in defaults.HEADS
    ]  # fmt: skip
    return escape(json.dumps(entries, ensure_ascii=False))


def head_bar() -> str:
    """Printed: the head the numbers are for. The app turns it into the picker."""
    label = escape(defaults.head_page()["head"]["label"])
    return (
        f'<hd-head data-heads="{_heads()}"><p class="hd-head-printed">Head: <b class="hd-head-label">{label}</b> '
        "<span>(invented; figures on this page are for it)</span></p></hd-head>"
    )


def chain(page: Page) -> str:
    """The strip stick · rods · … · lift with this page's place marked; only on pages that have one."""
    here = page.meta.get("chain")
    if not here:
        return ""
    items = []
    for name, target in CHAIN:
        address, _, anchor = target.partition("#")
        href = posixpath.relpath(address, posixpath.dirname(page.url) or ".") + (f"#{anchor}" if anchor else "")
        current = ' aria-current="page"' if name == here else ""
        items.append(f'<li><a href="{href}"{current}>{name}</a></li>')
    return f'<nav class="hd-chain" aria-label="The chain from stick to lift"><ol>{"".join(items)}</ol></nav>'


_TAP = re.compile(r'(?P<open><h[1-6][ >])|(?P<close></h[1-6]>)|<abbr title="[^"]*">(?P<term>[^<]*)</abbr>')


def calm(html: str) -> str:
    """Definitions on tap once a section, and none in headings: a page full of dotted lines is hard to read."""
    seen: set[str] = set()
    heading = False

    def once(match: re.Match[str]) -> str:
        nonlocal heading
        if match["term"] is None:
            heading = match["open"] is not None
            if heading:
                seen.clear()
            return match[0]
        term = match["term"].lower()
        if heading or term in seen:
            return match["term"]
        seen.add(term)
        return match[0]

    return _TAP.sub(once, html)


def add(html: str, page: Page) -> str:
    """Chain and head bar after the page's first heading."""
    html = calm(html)
    top = chain(page) + head_bar()
    before, mark, after = html.partition("</h1>")
    return f"{before}{mark}{top}{after}" if mark else top + html
