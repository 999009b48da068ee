"""The built pages: complete without script, ours alone, every number filled in."""

from __future__ import annotations

import json
import re
from functools import cache
from pathlib import Path
from urllib.parse import unquote, urlsplit

import pytest
from bs4 import BeautifulSoup
from rotorhead import door
from rotorhead.head import DEMONSTRATION
from rotorhead.topics import ALL

SITE = Path(__file__).resolve().parents[2] / "site"
PAGES = sorted(p.relative_to(SITE).as_posix() for p in SITE.rglob("*.html")) if SITE.exists() else []
TOPICS = [p for p in PAGES if p.startswith(("parts/", "principles/", "hands/", "flight/"))]


@cache
def soup(page: str) -> BeautifulSoup:
    return BeautifulSoup((SITE / page).read_text(encoding="utf-8"), "html5lib")


def test_there_are_pages(site: Path) -> None:
    assert (site / "index.html").exists()
    assert len(PAGES) >= 25


@pytest.mark.parametrize("page", PAGES)
def test_nothing_comes_from_another_origin(page: str) -> None:
    for tag in soup(page).find_all(["script", "link", "img", "iframe", "source", "form"]):
        for attribute in ("src", "href", "action"):
            value = tag.get(attribute)
            if value and tag.get("rel") not in (["canonical"], ["next"], ["prev"]):
                assert not urlsplit(str(value)).netloc, f"{tag.name} {value}"


@pytest.mark.parametrize("page", PAGES)
def test_every_local_link_and_anchor_exists(page: str) -> None:
    here = SITE / page
    for a in soup(page).find_all("a", href=True):
        href = str(a["href"])
        parts = urlsplit(href)
        if parts.scheme or parts.netloc or href.startswith("#&") or page == "404.html":
            continue
        target = (here.parent / unquote(parts.path)).resolve() if parts.path else here
        if target.is_dir():
            target = target / "index.html"
        assert target.exists(), f"{page}: {href}"
        anchor = unquote(parts.fragment)
        if anchor and "&" not in anchor and target.suffix == ".html":
            other = soup(target.relative_to(SITE.resolve()).as_posix())
            assert other.find(id=anchor) or anchor.startswith("__"), f"{page}: {href}"


@pytest.mark.parametrize("page", PAGES)
def test_every_page_has_a_policy_that_keeps_other_origins_out(page: str) -> None:
    meta = soup(page).find("meta", attrs={"http-equiv": "Content-Security-Policy"})
    assert meta is not None
    policy = str(meta["content"])
    assert "default-src 'none'" in policy
    assert "unsafe-eval" not in policy.replace("wasm-unsafe-eval", "")
    assert "http" not in policy


@pytest.mark.parametrize("page", PAGES)
def test_every_value_is_filled_in(page: str) -> None:
    text = (SITE / page).read_text(encoding="utf-8")
    assert "<code>=" not in text
    for value in soup(page).find_all("hd-value"):
        assert value.get_text(strip=True), value
    for word in ("NaN", ">None<", "Infinity", "lorem"):
        assert word not in text.split("<script")[0]


@pytest.mark.parametrize("page", [p for p in PAGES if p not in {"404.html"}])
def test_the_head_is_named_on_every_page(page: str) -> None:
    bar = soup(page).find("hd-head")
    assert bar is not None
    assert "Alder 3" in bar.get_text()


def test_each_calculator_stands_on_one_page_with_its_printed_answer() -> None:
    found: dict[str, str] = {}
    for page in PAGES:
        for tag in soup(page).find_all("hd-calculator"):
            name = str(tag["name"])
            assert name not in found, f"{name} stands on {found.get(name)} and {page}"
            found[name] = page
            answer = json.loads(door.answer(json.dumps({
                "op": "run", "id": 1, "calculator": name, "inputs": {}, "head": {"base": "alder3"}, "units": "metric",
            })))  # fmt: skip
            sentence = tag.select_one('[data-part="sentence"]')
            assert sentence is not None
            assert sentence.get_text() == answer["spoken"]
            assert tag.find("svg") is not None
            assert tag.find("math") is not None
    assert found.keys() == ALL.keys()
    assert {name: c.page.replace(".md", ".html") for name, c in ALL.items()} == found


def test_every_field_has_a_label_a_slider_and_a_box() -> None:
    for page in PAGES:
        for field in soup(page).select("hd-calculator .hd-field"):
            box = field.find(class_="hd-text") or field.find(class_="hd-choice")
            assert box is not None
            label = field.find("label")
            assert label is not None
            assert label["for"] == box["id"]
            if field.select_one("input.hd-text"):  # a text of readings has no slider
                slider = field.find(class_="hd-slider")
                assert slider is not None
                assert slider["aria-label"]


@pytest.mark.parametrize("page", PAGES)
def test_ids_are_unique(page: str) -> None:
    ids = [str(t["id"]) for t in soup(page).find_all(id=True)]
    assert len(ids) == len(set(ids)), [i for i in ids if ids.count(i) > 1]


@pytest.mark.parametrize("page", TOPICS)
def test_topic_pages_end_with_sources_or_a_next_link(page: str) -> None:
    headings = [h.get_text() for h in soup(page).find_all(["h2", "h3"])]
    joined = " ".join(headings).lower()
    assert "believe" in joined or "true" in joined, headings


def test_application_sources_and_locks_never_reach_the_site(site: Path) -> None:
    names = {p.name for p in site.rglob("*")}
    assert not names & {"package.json", "package-lock.json", "node_modules", "tsconfig.json", "requirements.txt"}
    assert not (site / "assets" / "app").exists()


def test_printed_scripts_cover_every_head_both_ways_in_both_units(site: Path) -> None:
    folder = site / "assets/hd/printed"
    for head in DEMONSTRATION:
        for way in ("", "-mirrored"):
            for units in ("metric", "imperial"):
                text = (folder / f"{head}{way}.{units}.js").read_text(encoding="utf-8")
                match = re.fullmatch(r"handToDiscPrinted\((.*)\);\n", text, re.DOTALL)
                assert match
                data = json.loads(match[1])
                assert data["calculators"].keys() == ALL.keys()
                assert data["mirrored"] is bool(way)


def test_the_glossary_is_on_tap() -> None:
    assert soup("principles/control-phase.html").find("abbr", title=True) is not None


def test_cautions_stand_where_the_matter_comes_up() -> None:
    for page in ("parts/hydraulic-help.html", "reference/limits.html", "principles/control-phase.html"):
        assert "manual" in soup(page).get_text().lower()


def test_the_invention_is_stated() -> None:
    for head in DEMONSTRATION:
        assert "invented" in soup(f"heads/{head}.html").get_text().lower()
