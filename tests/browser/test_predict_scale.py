"""Predict, then see, with a number on a scale: on every page that has one the model's answer is the head's own figure; by slider,
keys and typing; for the chosen head and units."""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest
from bs4 import BeautifulSoup
from playwright.sync_api import Locator, expect

from . import oracle
from .conftest import PHONE, MakeReader
from .reader import Reader

TOPICS = [
    page
    for page in oracle.PAGES
    if re.match(r"(principles|hands|parts|own|flight)/", page) and page != "own/what-not.html"
]
SETTLED = "principles/precession-or-lag.html"


def _scales() -> Iterator[tuple[str, str]]:
    for page in oracle.PAGES:
        soup = BeautifulSoup((oracle.SITE / page).read_text(encoding="utf-8"), "html.parser")
        for one in soup.select("hd-predict[data-metric]"):
            yield page, str(one["data-answer-of"])


SCALES = [*_scales()]


def scale(reader: Reader, name: str) -> Locator:
    return reader.page.locator(f'hd-predict[data-answer-of="{name}"][data-metric]').first


def plain(html: str) -> str:
    return re.sub(r"<[^>]*>", "", html)


@pytest.mark.parametrize("page", TOPICS)
def test_every_topic_page_asks_before_it_shows(page: str) -> None:
    """At least one prediction that is computed for the chosen head, and the way to more of them."""
    soup = BeautifulSoup((oracle.SITE / page).read_text(encoding="utf-8"), "html.parser")
    assert soup.select("hd-predict[data-answer-of]"), page
    assert [a for a in soup.select("article a[href]") if str(a["href"]).endswith("teaching/practise.html")], page


@pytest.mark.parametrize(("page", "name"), SCALES)
def test_the_model_shows_the_heads_own_figure(live: Reader, page: str, name: str) -> None:
    """For another head, the other way round, in the other units, with no Python: guess with the slider, then see."""
    reader = live
    reader.page.set_viewport_size(PHONE)
    reader.page.goto("about:blank")
    reader.open(page, "#&head=dogwood5&mirrored=1&units=imperial")
    one = scale(reader, name)
    value = plain(oracle.values("dogwood5", True, "imperial")["values"][name])
    # A question about readings names no head.
    for label in one.locator(".hd-head-label").all():
        expect(label).to_contain_text("Dogwood 5")
    one.locator("input.hd-slider").press("ArrowRight")
    guess = one.locator("input.hd-text").input_value()
    assert one.locator("input.hd-slider").get_attribute("aria-valuetext", timeout=1000)
    one.get_by_role("button", name="Show me").press("Enter")
    said = one.locator(".hd-predict-said")
    expect(said).to_contain_text(f"You said {guess}")
    expect(said).to_contain_text(f"it is {value}.")
    expect(said).to_contain_text(one.get_attribute("data-why") or "-")
    expect(one.locator(".hd-models")).to_contain_text(value)
    assert reader.page.evaluate("document.documentElement.scrollWidth") <= PHONE["width"]
    assert not reader.watch.runtime, "the printed figures are enough"


def test_a_typed_guess_and_how_far_it_is_off(reader: Reader) -> None:
    reader.open(SETTLED)
    name = next(name for page, name in SCALES if page == SETTLED)
    one = scale(reader, name)
    show = one.get_by_role("button", name="Show me")
    show.click()
    expect(one.locator(".hd-predict-said")).to_have_text("Set your guess first; then the page shows its own.")
    box = one.locator("input.hd-text")
    box.fill("soon")
    box.press("Tab")
    expect(one.locator(".hd-predict-said")).to_contain_text("“soon” is not a number")
    expect(box).to_have_value("soon")
    value = plain(oracle.values()["values"][name])
    found = re.match(r"[−-]?[0-9.]+", value)
    assert found
    number = float(found[0].replace("\N{MINUS SIGN}", "-"))
    box.fill(found[0].replace(".", ","))
    box.press("Tab")
    show.click()
    expect(one.locator(".hd-predict-said")).to_contain_text("You have it.")
    box.fill(str(number * 3 + 5))
    box.press("Tab")
    show.click()
    expect(one.locator(".hd-predict-said")).to_contain_text("too high.")


def test_another_head_takes_away_what_was_shown_and_python_answers_for_a_changed_one(reader: Reader) -> None:
    page, name = next((page, name) for page, name in SCALES if page == SETTLED)
    reader.open(page)
    one = scale(reader, name)
    one.locator("input.hd-slider").press("ArrowRight")
    one.get_by_role("button", name="Show me").click()
    expect(one.locator(".hd-models")).to_be_visible()
    reader.pick_head("elder6")
    expect(one.locator(".hd-models")).to_have_count(0)
    expect(one.locator(".hd-predict-said")).to_have_text("")
    reader.enter("lag", "head.blade_mass_kg", "50")
    reader.state("lag", "live")
    one.get_by_role("button", name="Show me").click()
    value = plain(oracle.values("elder6", changes={"blade_mass_kg": "50"})["values"][name])
    expect(one.locator(".hd-predict-said")).to_contain_text(f"it is {value}.")
    expect(one.locator(".hd-predict-said")).to_contain_text("On Elder 6, changed")


def test_without_script_the_answer_is_folded_away(make_reader: MakeReader) -> None:
    reader = make_reader(java_script_enabled=False)
    reader.open(SETTLED)
    one = reader.page.locator("hd-predict[data-metric] details").first
    one.locator("summary").click()
    expect(one.locator("p")).to_be_visible()
