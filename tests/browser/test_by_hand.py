"""Keyboard alone, a finger on a small telephone, a guess before the answer."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import expect

from . import oracle
from .conftest import MakeReader
from .reader import Reader, eventually

PHASE = oracle.PAGE_OF["phase"]


def test_tab_and_arrows_reach_and_move_a_slider(reader: Reader) -> None:
    reader.open(PHASE)
    slider = reader.slider("phase", "turn_rods")
    reader.text_box("phase", "turn_rods").focus()
    reader.page.keyboard.press("Shift+Tab")
    expect(slider).to_be_focused()
    for _ in range(5):
        reader.page.keyboard.press("ArrowRight")
    reader.shows("phase", oracle.run("phase", inputs={"turn_rods": "5"}))
    expect(slider).to_have_attribute("aria-valuetext", re.compile(r"^5\b.*°"))
    expect(reader.status("phase")).to_contain_text("before the nose")


def test_folds_open_and_the_code_dialog_gives_the_focus_back(make_reader: MakeReader) -> None:
    reader = make_reader()
    reader.page.add_init_script("window.handToDiscPublicUrl = 'https://example.org/heads/';")
    reader.open(PHASE)
    calculator = reader.calculator("phase")
    for summary in ("Figures of this head", "The working"):
        fold = calculator.locator("summary", has_text=summary)
        fold.focus()
        reader.page.keyboard.press("Enter")
        expect(fold.locator("..")).to_have_attribute("open", "")
    button = calculator.get_by_role("button", name="QR code")
    button.focus()
    reader.page.keyboard.press("Enter")
    expect(reader.page.locator("dialog[open] svg")).to_be_visible()
    reader.page.keyboard.press("Escape")
    expect(reader.page.locator("dialog[open]")).to_have_count(0)
    expect(button).to_be_focused()


@pytest.mark.parametrize("base", ["alder3", "dogwood5"])
def test_predict_then_see_by_keys(reader: Reader, base: str) -> None:
    """Ten steps to the right of the nose; the distance told is that from the package's own answer."""
    reader.open(PHASE)
    if base != "alder3":
        reader.pick_head(base)
    answer = float(oracle.values(base)["values"]["phase.remainder_bearing_deg"])
    predict = reader.page.locator('hd-predict[name="control-phase"]')
    dial = predict.get_by_role("slider")
    before = float(dial.get_attribute("aria-valuenow") or "nan")
    dial.focus()
    reader.page.keyboard.press("ArrowRight")
    assert float(dial.get_attribute("aria-valuenow") or "nan") != before
    guess = float(dial.get_attribute("aria-valuenow") or "nan") % 360.0
    predict.get_by_role("button", name="Show me").press("Enter")
    off = abs((guess - answer + 180.0) % 360.0 - 180.0)
    expect(predict).to_contain_text(re.compile(rf"\b{off:.0f}°"))
    assert not reader.watch.runtime


def test_a_choice_answers_with_its_reason(reader: Reader) -> None:
    reader.open(PHASE)
    choice = reader.page.locator('hd-predict[type="choice"]').first
    wrong = choice.locator("input[type=radio]:not([data-right])").first
    why = wrong.get_attribute("data-why") or ""
    wrong.check()
    show = choice.get_by_role("button", name="Show me")
    if show.count():
        show.click()
    expect(choice).to_contain_text(why[:40])


def test_the_drawing_stays_in_view_under_a_finger(phone: Reader) -> None:
    phone.open(PHASE)
    slider = phone.slider("phase", "head.link_foot_ahead_mm")
    slider.evaluate("one => one.scrollIntoView({block: 'center'})")
    drawing = phone.calculator("phase").locator("[data-part=drawing] svg").bounding_box()
    assert drawing is not None
    assert drawing["y"] >= 0
    assert drawing["y"] + drawing["height"] <= 520


def test_controls_are_as_large_as_a_finger(phone: Reader) -> None:
    phone.open(PHASE)
    for control in phone.calculator("phase").locator("input.hd-text:visible, select:visible, button:visible").all():
        box = control.bounding_box()
        assert box is not None
        assert box["height"] >= 43.5, control.evaluate("one => one.outerHTML")


def test_nothing_jumps_when_it_goes_live(reader: Reader) -> None:
    reader.open(PHASE)
    before = reader.text_box("phase", "turn_rods").bounding_box()
    reader.touch("phase")
    reader.state("phase", "live")
    after = reader.text_box("phase", "turn_rods").bounding_box()
    assert before is not None
    assert after is not None
    assert abs(after["y"] - before["y"]) <= 2
    assert reader.page.evaluate("document.getAnimations().filter(a => a.playState === 'running').length") == 0


def test_a_chart_follows_the_control_and_the_control_the_chart(reader: Reader) -> None:
    reader.open(oracle.PAGE_OF["rod-load"])
    reader.enter("rod-load", "rotor_angle", "90")
    reader.state("rod-load", "live")
    chart = reader.calculator("rod-load").locator("hd-chart")
    expect(chart.locator("canvas")).to_be_visible()
    wanted = oracle.run("rod-load", inputs={"rotor_angle": "90"})["parts"]["chart"]
    html = reader.rewritten({"": wanted})[""]
    data = reader.page.evaluate(
        "html => new DOMParser().parseFromString(html, 'text/html').querySelector('hd-chart').dataset.chart", html
    )
    eventually(lambda: chart.get_attribute("data-chart"), data, reader.page)
    chart.locator(".u-over").click(position={"x": 20, "y": 40})
    box = reader.text_box("rod-load", "rotor_angle")
    eventually(lambda: 0 < float(box.input_value()) < 60, True, reader.page)
