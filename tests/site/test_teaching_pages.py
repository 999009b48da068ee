"""The instructor's pages: links that set something open what they say; enough wrong beliefs, each with its answer."""

from __future__ import annotations

import base64
import json
import re
import zlib
from collections.abc import Iterator
from html import unescape
from pathlib import Path
from typing import Any
from urllib.parse import unquote

import pytest
from bs4 import BeautifulSoup
from rotorhead import door
from rotorhead.questions.bank import BELIEFS
from rotorhead.topics import ALL

ROOT = Path(__file__).resolve().parents[2]
SITE = ROOT / "site"
LESSON = re.compile(r"lesson\.html#lesson&t=([A-Za-z0-9_-]+)")
SET = re.compile(r'href="\.\./([a-z0-9/-]+\.html)(#[^"]+&[^"]*)"')


def lessons() -> Iterator[tuple[str, list[Any]]]:
    """Page and lesson of every lesson link in the pages' sources, unpacked as RFC 1951 and 4648 say."""
    for path in sorted((ROOT / "docs" / "teaching").glob("*.md")):
        for packed in LESSON.findall(unescape(path.read_text(encoding="utf-8"))):
            raw = zlib.decompress(base64.urlsafe_b64decode(packed + "=" * (-len(packed) % 4)), wbits=-15)
            yield path.name, json.loads(raw)


def states() -> Iterator[tuple[str, str, str]]:
    """Source, page and fragment of every link that sets something."""
    for name, (_, *steps) in lessons():
        for page, fragment, _ in steps:
            yield name, page, fragment
    for path in sorted((ROOT / "docs" / "teaching").glob("*.md")):
        for page, fragment in SET.findall(unescape(path.read_text(encoding="utf-8"))):
            yield path.name, page, fragment


def test_there_is_a_lesson_ready_and_it_is_short_enough_for_a_code() -> None:
    found = [*lessons()]
    assert found
    for _, (title, *steps) in found:
        assert title
        assert 3 <= len(steps) <= 40
        assert all(note for _, _, note in steps)
    assert all(len(packed) < 900 for packed in LESSON.findall(unescape((ROOT / "docs/teaching/ground-lesson.md").read_text(encoding="utf-8"))))


@pytest.mark.parametrize(("source", "page", "fragment"), [*states()])
def test_every_state_is_one_the_page_can_show(source: str, page: str, fragment: str) -> None:
    html = SITE / page
    assert html.is_file(), (source, page)
    if not fragment:
        return
    name, *pairs = [unquote(part) for part in fragment.removeprefix("#").split("&")]
    assert ALL[name].page.replace(".md", ".html") == page
    inputs = dict(pair.split("=", 1) for pair in pairs)
    head = {"base": inputs.pop("head", "alder3"), "mirrored": inputs.pop("mirrored", "0") == "1"}
    answer = json.loads(door.answer(json.dumps({"op": "run", "calculator": name, "inputs": inputs, "head": head})))
    assert answer["state"] == "result", (source, answer)


def test_every_belief_has_its_place_and_its_answer() -> None:
    soup = BeautifulSoup((SITE / "teaching/wrong-beliefs.html").read_text(encoding="utf-8"), "html.parser")
    sections = {str(one["id"]): one.get_text(" ") for one in soup.select("section.hd-belief")}
    assert sections.keys() == BELIEFS.keys()
    assert len(sections) >= 15
    for name, text in sections.items():
        assert BELIEFS[name].so in text
        assert BELIEFS[name].show in text
    first = [str(a["href"]) for a in soup.select("article ol a[href^='#']")]
    assert len([one for one in first if one.removeprefix("#") in sections]) >= 15


@pytest.mark.parametrize("page", ["parked-machine", "ground-lesson", "index"])
def test_the_cautions_stand_where_it_could_hurt(page: str) -> None:
    text = (ROOT / f"docs/teaching/{page}.md").read_text(encoding="utf-8")
    assert "!!! caution" in text
    if page == "parked-machine":
        for word in ("Permission", "hydraulics", "Rotor brake", "tips clear", "static stops", "fingers", "one person at the controls", "Nothing laid on a blade"):
            assert word in text, word
