"""The kiosk: a folder out of its ZIP, opened from a disk; large targets, keys on the screen, back to the start when left alone."""

from __future__ import annotations

import json
import re
import zipfile
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from house import kiosk
from house.say import TroubleError
from playwright.sync_api import Page, expect

from . import looks, oracle
from .conftest import MakeReader
from .learner import PRACTICE, check, give, put_question, right_answer
from .reader import Reader

PHASE = oracle.PAGE_OF["phase"]
SETTINGS: dict[str, Any] = {"start": PHASE, "head": "cedar4", "after": 60, "search": False, "print": False}
SMALL = """() => [...document.querySelectorAll("button, select, summary, input:not([type=file], .md-option, .md-toggle), .hd-press")].filter((one) => {
  const box = one.getBoundingClientRect();
  const wide = one.closest("label")?.getBoundingClientRect() ?? box;
  return one.checkVisibility({ visibilityProperty: true }) && box.width > 0 && Math.max(box.height, wide.height) < 63.5;
}).map((one) => `${one.tagName} ${one.className} ${one.textContent.trim().slice(0, 30)} ${one.getBoundingClientRect().height}`)"""

MakeKiosk = Callable[..., Reader]


@pytest.fixture(scope="module")
def folder(site: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The kiosk's ZIP, written and unpacked into a fresh folder with a space in its name."""
    place = tmp_path_factory.mktemp("kiosk")
    written = place / "hand-to-disc-kiosk"
    kiosk.write_folder(site, written, SETTINGS)
    kiosk.write_zip(written, place / "kiosk.zip")
    with zipfile.ZipFile(place / "kiosk.zip") as archive:
        archive.extractall(place / "a stick")
    return place / "a stick" / "hand-to-disc-kiosk"


@pytest.fixture
def make_kiosk(make_reader: MakeReader, folder: Path) -> MakeKiosk:
    """Somebody in front of the kiosk: an upright touch screen, time that the test moves on."""

    def make(path: str = "index.html", **settings: Any) -> Reader:
        own = folder.as_uri() + "/"
        reader = make_reader(own=own, viewport={"width": 1080, "height": 1600}, has_touch=True)
        reader.page.clock.install()
        if settings:
            reader.page.add_init_script(
                f"Object.defineProperty(window, 'handToDiscKiosk', {{ value: {json.dumps({**SETTINGS, **settings})}, writable: false }});"
            )
            reader.watch.allow("handToDiscKiosk")
        reader.page.goto(own + path)
        expect(reader.page.locator(".hd-kiosk-band")).to_be_visible()
        return reader

    return make


def leave(page: Page, seconds: int) -> None:
    page.clock.run_for(seconds * 1000)


def test_it_opens_at_its_start_with_its_head_and_asks_no_network(make_kiosk: MakeKiosk, site: Path) -> None:
    reader = make_kiosk()
    reader.page.wait_for_url(re.compile(re.escape(PHASE)))
    expect(reader.header_button).to_contain_text("Cedar 4")
    reader.shows_text_of(oracle.values("cedar4"))
    expect(reader.page.locator(".hd-kiosk-band")).to_contain_text(f"Offline, build {kiosk.build_of(site)}")
    assert all(url.startswith(("file:", "blob:", "data:", "about:")) for url in reader.watch.requests)
    # Its first page can be reached all the same.
    reader.page.goto(reader.address + "index.html")
    expect(reader.page.get_by_role("heading", level=1)).to_contain_text("How early")


def test_steppers_and_keys_on_the_screen(make_kiosk: MakeKiosk) -> None:
    reader = make_kiosk(PHASE)
    calculator = reader.calculator("phase")
    calculator.get_by_role("button", name="More: Turn the rod set further").first.tap()
    reader.state("phase", "live")
    reader.shows("phase", oracle.run("phase", "cedar4", inputs={"turn_rods": "1"}))
    reader.text_box("phase", "turn_rods").tap()
    keys = reader.page.get_by_role("group", name="Number keys")
    expect(keys).to_be_visible()
    for key in ("1", "2", "Point", "5", "Minus", "Done"):
        keys.get_by_role("button", name=key, exact=True).tap()
    expect(keys).to_be_hidden()
    reader.shows("phase", oracle.run("phase", "cedar4", inputs={"turn_rods": "\N{MINUS SIGN}12.5"}))


def test_left_alone_it_asks_and_goes_back_with_everything_put_away(make_kiosk: MakeKiosk) -> None:
    reader = make_kiosk(PHASE)
    page = reader.page
    reader.pick_head("elder6")
    page.evaluate("localStorage.setItem('hand-to-disc-practice', JSON.stringify({ answered: 3, records: {} }))")
    page.goto(reader.address + "hands/shake.html")
    expect(page.locator(".hd-kiosk-band")).to_be_visible()
    dialog = page.locator("dialog.hd-kiosk-own")
    leave(page, 59)
    expect(dialog).to_be_hidden()
    leave(page, 2)
    expect(dialog).to_be_visible()
    dialog.get_by_role("button", name="Stay").tap()
    expect(dialog).to_be_hidden()
    leave(page, 61)
    expect(dialog).to_be_visible()
    expect(dialog).to_contain_text(re.compile(r"\b(20|19)\b"))
    leave(page, 21)
    page.wait_for_url(re.compile(re.escape(PHASE)))
    expect(reader.header_button).to_contain_text("Cedar 4")
    assert page.evaluate("localStorage.getItem('hand-to-disc-practice')") is None


def test_a_start_that_nobody_touches_asks_nobody(make_kiosk: MakeKiosk) -> None:
    reader = make_kiosk(PHASE)
    leave(reader.page, 3600)
    expect(reader.page.locator("dialog.hd-kiosk-own")).to_be_hidden()
    reader.page.get_by_role("heading", level=1).tap()
    leave(reader.page, 61)
    expect(reader.page.locator("dialog.hd-kiosk-own")).to_be_visible()


@pytest.mark.parametrize(
    "path",
    [
        PHASE,
        "index.html",
        PRACTICE,
        "hands/control-loads.html",
        "see-it-move.html",
        "heads/cedar4.html",
        "own/describe.html",
        "own/inclinometer.html",
        "paper-wheel.html",
        "teaching/sheet-builder.html",
    ],
)
def test_nothing_is_smaller_than_a_gloved_finger_or_needs_a_printer(make_kiosk: MakeKiosk, path: str) -> None:
    reader = make_kiosk(PHASE)
    reader.page.goto(reader.address + path)
    expect(reader.page.locator(".hd-kiosk-band")).to_be_visible()
    assert reader.page.evaluate(SMALL) == []
    for name in ("Print", "Copy", "Write", "Save as", "Add to a lesson"):
        expect(reader.page.get_by_role("button", name=re.compile(f"^{name}")).locator("visible=true")).to_have_count(0)
    expect(reader.page.locator(".md-search")).to_be_hidden()
    links = reader.page.evaluate("[...document.links].map((one) => one.href)")
    assert all(link.startswith(reader.address) for link in links), "no way off the site"
    assert reader.page.evaluate("document.documentElement.scrollWidth <= innerWidth")


def test_at_400_percent(make_kiosk: MakeKiosk) -> None:
    """320 by 256 (WCAG 2.2, 1.4.10): no words cut off, half of the window free, every key of the pad within reach."""
    reader = make_kiosk("hands/shake.html")
    page = reader.page
    page.set_viewport_size({"width": 320, "height": 256})
    assert looks.ask(page, looks.WORDS) == []
    taken = looks.ask(page, looks.TAKEN)
    assert taken["part"] <= 0.5, taken
    reader.text_box("shake", "speed").tap()
    pad = page.locator(".hd-number-keys")
    box = pad.bounding_box()
    assert box is not None
    assert (box["x"] >= 0, box["y"] >= 0) == (True, True)
    assert (box["x"] + box["width"] <= 320, box["y"] + box["height"] <= 256) == (True, True)
    for key in ("Clear", "4", "2", "Done"):
        pad.get_by_role("button", name=key, exact=True).tap()
    expect(reader.text_box("shake", "speed")).to_have_value("42")
    expect(pad).to_be_hidden()


def test_practice_works_there(make_kiosk: MakeKiosk) -> None:
    reader = make_kiosk(PHASE)
    reader.page.goto(reader.address + PRACTICE)
    reader.page.get_by_role("button", name="Ask me").tap()
    section, template, seed = put_question(reader.page)
    give(section, right_answer(template, seed, "cedar4"))
    expect(check(section)).to_contain_text("Yes.")


def test_a_link_makes_a_kiosk_of_a_tab(make_reader: MakeReader) -> None:
    reader = make_reader(has_touch=True)
    reader.open("index.html", "#kiosk&start=hands/shake.html&head=birch2&after=30&search=1")
    reader.page.wait_for_url(re.compile("hands/shake"))
    expect(reader.page.locator(".hd-kiosk-band")).to_be_visible()
    expect(reader.header_button).to_contain_text("Birch 2")
    expect(reader.page.locator("html")).to_have_class(re.compile("hd-kiosk-search"))
    reader.open(PHASE)
    expect(reader.page.locator(".hd-kiosk-band")).to_be_visible()
    other = make_reader()
    other.open(PHASE)
    expect(other.page.locator(".hd-kiosk-band")).to_have_count(0)


@pytest.mark.parametrize(
    "fragment",
    [
        "#kiosk&start=https://example.org/&after=1",
        "#kiosk&start=../../x.html&head=%3Cb%3E",
        "#kiosk&after=never",
        "#kiosk&",
    ],
)
def test_a_link_that_makes_no_sense_makes_a_plain_kiosk(make_reader: MakeReader, fragment: str) -> None:
    reader = make_reader(has_touch=True)
    reader.open("index.html", fragment)
    expect(reader.page.locator(".hd-kiosk-band")).to_be_visible()
    assert reader.page.url.startswith(reader.address + "index.html")
    expect(reader.header_button).to_contain_text("Alder 3")


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["--start", "nowhere.html"], "not a page"),
        (["--start", "assets/hd/app.js"], "not a page"),
        (["--head", "zebra9"], "not a head"),
    ],
)
def test_settings_that_can_t_be_are_told(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path, words: list[str], said: str
) -> None:
    monkeypatch.setattr(kiosk, "set_up", lambda: tmp_path)
    monkeypatch.setattr(kiosk, "build", lambda *_: None)
    with pytest.raises(TroubleError, match=said):
        kiosk.main([*words, "--out", str(tmp_path)])


def test_a_time_that_is_none_is_told(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit):
        kiosk.main(["--after", "soon"])
    assert "whole seconds from 15 to 3600" in capsys.readouterr().err


def test_the_folder_has_what_it_needs_and_no_more(folder: Path) -> None:
    assert not (folder / "sw.js").exists()
    assert not (folder / "assets/hd/runtime").exists()
    assert (folder / "assets/hd/payload.js").is_file()
    for page in folder.rglob("*.html"):
        assert page.read_text(encoding="utf-8").count('kiosk-settings.js" data-build=') == 1, page
