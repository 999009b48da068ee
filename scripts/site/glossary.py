"""Definitions on tap: the glossary page feeds the theme's abbreviations on every other page."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from mkdocs.config.defaults import MkDocsConfig

_ENTRY = re.compile(r"^(?P<term>[^\n:#|>\-\s][^\n]*)\n:   (?P<definition>[^\n]+)", re.MULTILINE)
_MARKUP = re.compile(r"`=[^`]*`|[*_`]|\[([^\]]*)\]\([^)]*\)")


@cache
def terms(path: Path) -> dict[str, str]:
    """Terms and one-sentence definitions of the glossary page, markup taken off."""
    found = {}
    for entry in _ENTRY.finditer(path.read_text(encoding="utf-8")):
        definition = _MARKUP.sub(lambda m: m[1] or "", entry["definition"]).strip()
        found[_MARKUP.sub("", entry["term"]).strip()] = definition
    return found


def append(markdown: str, config: MkDocsConfig) -> str:
    """A page's source with an abbreviation for every term (small and capital first letter)."""
    path = Path(config.docs_dir) / "reference" / "glossary.md"
    if "<!-- no definitions on tap -->" in markdown or not path.exists():
        return markdown
    lines = []
    for term, definition in terms(path).items():
        first = term[0]
        forms = {term, first.upper() + term[1:], first.lower() + term[1:]} if first.isascii() else {term}
        lines += [f"*[{form}]: {definition}" for form in sorted(forms)]
    return f"{markdown}\n\n" + "\n".join(lines) + "\n"
