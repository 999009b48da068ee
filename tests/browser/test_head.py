"""The chosen head: every number, drawing and word follows it, before Python has started and without starting it."""

from __future__ import annotations

import re
from itertools import cycle

import pytest
from playwright.sync_api import expect

from . import oracle
from .conftest import MakeReader
from .reader import Reader, eventually

PHASE = oracle.PAGE_OF["phase"]

# Every page once, and with them every way a head can be printed but the one that stands in the pages.
_OTHERS = [c for c in oracle.CHOICES if c != ("alder3", False, "metric")]
# The page of missing things is told where the site's root is only when the site is built for an address.
_WITH_HEAD = [page for page in oracle.PAGES if page != "404.html"]
ALL_PAGES = [
    pytest.param(page, *choice, id=f"{page}-{choice[0]}{'-turned' if choice[1] else ''}-{choice[2]}")
    for page, choice in zip(_WITH_HEAD, cycle(_OTHERS), strict=False)
]


def _label(base: str, mirrored: bool, units: str = "metric") -> str:
    return str(oracle.values(base, mirrored, units)["head"]["label"])


@pytest.mark.parametrize(("page", "base", "mirrored", "units"), ALL_PAGES)
def test_a_picked_head_reaches_the_whole_page_without_python(
    reader: Reader, page: str, base: str, mirrored: bool, units: str
) -> None:
    reader.open(page)
    reader.pick_head(base)
    if mirrored:
        reader.turn_button.click()
    if units != "metric":
        reader.pick_units(units)
    answer = oracle.values(base, mirrored, units)
    # In the header there is little room: "Alder 3, turned".
    short = _label(base, mirrored).replace(" the other way", "")
    expect(reader.header_button).to_have_text(short)
    reader.shows_text_of(answer)
    for rose in reader.page.locator("hd-predict .hd-predict-rose").all():
        eventually(rose.inner_html, reader.rewritten({"": answer["figures"]["predict-rose"]})[""], reader.page)
    for name in reader.calculators():
        reader.shows(name, oracle.run(name, base, mirrored, units))
        expect(reader.calculator(name).locator(".hd-head-label")).to_have_text(_label(base, mirrored))
        expect(reader.calculator(name)).to_have_attribute("data-state", "printed")
    assert not reader.watch.runtime


@pytest.mark.parametrize("base", [head for head in oracle.HEADS if head != "alder3"])
def test_the_form_of_a_picked_head_is_the_one_python_gives(reader: Reader, base: str) -> None:
    reader.open(PHASE)
    reader.pick_head(base)
    reader.shows("phase", oracle.run("phase", base))
    form = oracle.run("phase", base)["form"]
    shown = reader.form("phase")
    assert shown.keys() == form.keys(), "exactly the fields that apply"
    assert {name: field["text"] for name, field in shown.items()} == {
        name: field["text"] for name, field in form.items()
    }
    assert not reader.watch.runtime


def test_the_choice_is_kept_over_pages_and_a_reload(reader: Reader) -> None:
    reader.open(PHASE)
    reader.pick_head("dogwood5")
    reader.turn_button.click()
    reader.shows_text_of(oracle.values("dogwood5", True))
    # By a link of the page, as a reader would go on.
    reader.page.locator('.md-sidebar--primary a[href$="parts/rods.html"]').first.click()
    expect(reader.page).to_have_url(re.compile("rods"))
    reader.shows_text_of(oracle.values("dogwood5", True))
    reader.shows("rods", oracle.run("rods", "dogwood5", True))
    reader.page.reload()
    reader.shows_text_of(oracle.values("dogwood5", True))
    expect(reader.head_select).to_have_value("dogwood5")
    expect(reader.turn_button).to_have_attribute("aria-pressed", "true")
    reader.page.go_back()
    reader.shows_text_of(oracle.values("dogwood5", True))
    assert not reader.watch.runtime


def test_another_page_of_the_same_reader_starts_with_the_choice(make_reader: MakeReader) -> None:
    reader = make_reader()
    reader.open(PHASE)
    reader.pick_head("cedar4")
    reader.shows_text_of(oracle.values("cedar4"))
    second = Reader(reader.page.context.new_page(), reader.watch, reader.address)
    second.open("parts/swashplate.html")
    second.shows_text_of(oracle.values("cedar4"))


LABELS_ON_THE_ROSE = """svg => {
  const middle = svg.getScreenCTM().a * (svg.viewBox.baseVal.x + svg.viewBox.baseVal.width / 2) + svg.getScreenCTM().e;
  return Object.fromEntries([...svg.querySelectorAll("text")].map((text) => {
    const box = text.getBoundingClientRect();
    return [text.textContent, (box.left + box.right) / 2 - middle];
  }));
}"""


def test_turning_the_head_swaps_the_words_and_mirrors_the_drawing(reader: Reader) -> None:
    reader.open(PHASE)
    sentence = reader.calculator("phase").locator('[data-part="sentence"]')
    drawing = reader.calculator("phase").locator('[data-part="drawing"] svg')
    expect(sentence).to_contain_text("before the nose, on its right")
    # The rods' marks, whose places are nobody's choice of layout: rod 1 stands before the nose.
    before = drawing.evaluate(LABELS_ON_THE_ROSE)
    assert before["R1"] > 0
    reader.turn_button.click()
    expect(reader.calculator("phase").locator(".hd-head-label")).to_have_text("Alder 3, turned the other way")
    expect(sentence).to_contain_text("before the nose, on its left")
    after = drawing.evaluate(LABELS_ON_THE_ROSE)
    for rod in ("R1", "R2", "R3"):
        assert after[rod] == pytest.approx(-before[rod], abs=1.5), "places are mirrored"
    # The words are not: right stays at the right.
    assert after["right"] == pytest.approx(before["right"], abs=1.5)
    reader.turn_button.click()
    expect(sentence).to_contain_text("before the nose, on its right")
    assert drawing.evaluate(LABELS_ON_THE_ROSE) == before


@pytest.mark.parametrize("how", ["named", "kept"])
def test_storage_refused_is_said_and_the_page_works(reader: Reader, how: str) -> None:
    reader.page.add_init_script(
        "Object.defineProperty(window, 'localStorage', { configurable: true, get() { throw new DOMException('no', 'SecurityError'); } });"
        if how == "named"
        else "Storage.prototype.setItem = () => { throw new DOMException('full', 'QuotaExceededError'); };"
    )
    reader.open(PHASE)
    reader.pick_head("birch2")
    reader.shows_text_of(oracle.values("birch2"))
    reader.shows("phase", oracle.run("phase", "birch2"))
    expect(reader.notes).to_contain_text("does not let the site keep your choice")
    # The address carries it instead.
    expect(reader.page).to_have_url(re.compile("head=birch2"))
    reader.open("parts/rods.html")
    reader.shows("rods", oracle.run("rods"))


@pytest.mark.parametrize(
    "stored",
    [
        "not JSON",
        "[]",
        "null",
        '{"base": "zebra9"}',
        '{"base": "cedar4", "changes": {"rpm": 5}, "units": "cubits"}',
        '{"base": 3}',
    ],
)
def test_a_stored_choice_that_cannot_be_read_does_no_harm(reader: Reader, stored: str) -> None:
    reader.open("about.html")
    reader.page.evaluate("text => localStorage.setItem('hand-to-disc', text)", stored)
    reader.open(PHASE)
    base = "cedar4" if "cedar4" in stored else "alder3"
    reader.shows_text_of(oracle.values(base))
    reader.shows("phase", oracle.run("phase", base))
    assert not reader.watch.runtime


def test_the_header_button_brings_the_bar_down_and_escape_puts_it_back(phone: Reader) -> None:
    phone.open(PHASE)
    phone.page.mouse.wheel(0, 3000)
    phone.header_button.click()
    expect(phone.header_button).to_have_attribute("aria-expanded", "true")
    expect(phone.head_select).to_be_focused()
    expect(phone.head_select).to_be_in_viewport()
    phone.pick_head("elder6")
    expect(phone.header_button).to_have_text("Elder 6")
    phone.head_select.press("Escape")
    expect(phone.header_button).to_have_attribute("aria-expanded", "false")
    expect(phone.header_button).to_be_focused()
    phone.shows("phase", oracle.run("phase", "elder6"))
