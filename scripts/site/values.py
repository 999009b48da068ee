"""The chosen head's numbers in running text: `=name` in backticks becomes a value element."""

from __future__ import annotations

import re
from html import escape

import defaults

_VALUE = re.compile(r"<code>=([a-z0-9_.-]+)</code>", re.IGNORECASE)


class UnknownValueError(ValueError):
    """A page names a value the package doesn't have."""


def value_element(name: str) -> str:
    """The element for one value, printed for the default head."""
    found = defaults.head_page()["values"]
    if name not in found:
        raise UnknownValueError(f"there is no value “{name}”")
    return f'<hd-value of="{escape(name)}">{found[name]}</hd-value>'


def fill(html: str) -> str:
    """Every value named on a page, filled in."""
    return _VALUE.sub(lambda match: value_element(match[1]), html)
