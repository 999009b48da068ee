"""Without a network: after loading, and from a folder on a disk. And on paper."""

from __future__ import annotations

import io
import re
import shutil
from pathlib import Path

import pytest
from playwright.sync_api import Browser, expect
from pypdf import PdfReader

from . import oracle
from .conftest import MakeReader
from .reader import Reader

PHASE = oracle.PAGE_OF["phase"]


def test_network_off_once_python_runs(reader: Reader) -> None:
    reader.watch.allow("ERR_INTERNET_DISCONNECTED")  # the browser asks for the page's own icon again
    reader.open(PHASE)
    reader.touch("phase")
    reader.state("phase", "live")
    reader.page.context.set_offline(True)
    reader.enter("phase", "turn_rods", "7")
    reader.shows("phase", oracle.run("phase", inputs={"turn_rods": "7"}))
    reader.enter("phase", "head.hinge_offset", "0.05")
    expect(reader.header_button).to_contain_text("changed")
    reader.page.context.set_offline(False)


@pytest.fixture(scope="module")
def folder(site: Path, tmp_path_factory: pytest.TempPathFactory) -> str:
    """The built site on a stick: a folder with a space in its name."""
    target = tmp_path_factory.mktemp("stick") / "hand to disc"
    shutil.copytree(site, target)
    return target.as_uri() + "/"


def test_from_a_folder(make_reader: MakeReader, folder: str) -> None:
    reader = make_reader(own=folder)
    reader.open(PHASE)
    reader.pick_head("cedar4")
    reader.shows_text_of(oracle.values("cedar4"))
    reader.enter("phase", "turn_rods", "9")
    reader.state("phase", "live")
    reader.shows("phase", oracle.run("phase", "cedar4", inputs={"turn_rods": "9"}))
    assert all(url.startswith(("file:", "blob:", "data:", "about:")) for url in reader.watch.requests)


def test_from_a_folder_a_chart_is_live(make_reader: MakeReader, folder: str) -> None:
    reader = make_reader(own=folder)
    reader.open(oracle.PAGE_OF["shake"])
    reader.enter("shake", "share", "30")
    reader.state("shake", "live")
    expect(reader.calculator("shake").locator("hd-chart canvas")).to_be_visible()


def test_from_a_folder_the_search_finds(make_reader: MakeReader, folder: str) -> None:
    reader = make_reader(own=folder)
    reader.open("index.html")
    search = reader.page.locator("input.md-search__input")
    search.click()
    search.type("tennis racket", delay=20)
    first = reader.page.locator(".md-search-result__item a").first
    expect(first).to_have_attribute("href", re.compile("flattening|control-loads"))


def test_the_printed_page_makes_sense(browser: Browser, address: str) -> None:
    context = browser.new_context(service_workers="block")
    page = context.new_page()
    page.goto(address + PHASE + "#phase&head=cedar4&turn_rods=4")
    calculator = page.locator('hd-calculator[name="phase"]')
    expect(calculator).to_have_attribute("data-state", "live")
    paper = PdfReader(io.BytesIO(page.pdf(format="A4")))
    text = re.sub(r"\s+", " ", " ".join(sheet.extract_text() for sheet in paper.pages))
    context.close()
    spoken = oracle.run("phase", "cedar4", inputs={"turn_rods": "4"})["spoken"]
    for wanted in ("Cedar 4", spoken[:60], "Turn the rod set further", "The working"):
        assert wanted in text
    assert "turn_rods=4" in text.replace(" ", "")
    assert "Table of contents" not in text
    assert "Back to top" not in text
