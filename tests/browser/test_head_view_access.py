"""The moving view for everyone: by keyboard alone, to axe, on a small telephone."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect
from rotorhead.motion.part_words import WORDS
from rotorhead.motion.parts import PARTS
from rotorhead.motion.setting import KINDS
from rotorhead.motion.words import CAUTION

from . import oracle
from .conftest import PHONE, WIDE, MakeReader
from .moving import PAGE, calculator, field, head_and_inputs, put, stands
from .reader import Reader, eventually
from .test_every_page import violations

# What has the focus, said as a reader would find it.
FOCUSED = """() => {
  const one = document.activeElement;
  const words = one.getAttribute("aria-label") ?? one.labels?.[0]?.textContent ?? one.textContent;
  const inside = one.closest("hd-calculator") !== null;
  return { inside, words: words.trim(), field: one.closest("[data-field]")?.dataset.field ?? "", kind: one.localName };
}"""


def _walk(reader: Reader) -> list[dict[str, Any]]:
    """Everything the Tab key reaches in the calculator, in its order, from its first view button on."""
    reader.page.evaluate("document.activeElement.blur()")
    calculator(reader).get_by_role("button", name="View: corner").focus()
    found: list[dict[str, Any]] = []
    while (focused := reader.page.evaluate(FOCUSED))["inside"] and len(found) < 150:
        found.append(focused)
        reader.page.keyboard.press("Tab")
    return found


def test_the_tab_key_reaches_everything(view: Reader) -> None:
    for name in ("part", "what_if", "view"):
        view.unfold("motion", name)
    found = _walk(view)
    words = [one["words"] for one in found]
    views = [f"View: {name}" for name in ("corner", "above", "side", "behind", "pilot’s")]
    turning = ["Turn slowly", "Back 10°", "On 10°", "How slowly"]
    hands = ["Stick: arrow keys move it, Home centres it", "Collective lever up"]
    stops = ["Blade", "nose", "left", "tail", "right"]
    picture = ["Solid view of the head. Arrow keys look at it from another side."]
    # In the order in which they stand on the page.
    wanted = [*views, *picture, *turning, *hands, *stops]
    assert words[: len(wanted)] == wanted
    fields = {one["field"] for one in found if one["kind"] in ("select", "input")}
    assert {"lever", "stick_forward", "stick_left", "rotor_angle", "part", "what_if", "view", "labels", "blades", "blade",
            "stretch", "screen"} <= fields  # fmt: skip
    assert {"Fill the screen", "Save as PNG", "Save as SVG", "Copy link"} <= set(words)
    assert len(found) < 150, "the way out of the calculator"


def test_the_pad_and_the_lever_obey_the_keys_they_are_reached_with(view: Reader) -> None:
    calculator(view).get_by_role("combobox", name="How slowly").focus()
    keys = view.page.keyboard
    keys.press("Tab")
    for key in ("Home", "ArrowUp", "ArrowUp", "ArrowRight"):
        keys.press(key)
    stands(view, 30, stick_forward="10", stick_left="-5")
    keys.press("Tab")
    for key in ("ArrowUp", "ArrowUp", "ArrowDown"):
        keys.press(key)
    stands(view, 30, stick_forward="10", stick_left="-5", lever="51")
    keys.press("Tab")  # which blade
    keys.press("ArrowDown")
    keys.press("Tab")
    keys.press("Enter")  # over the nose: blade 2 of three comes there 120° before blade 1 would
    stands(view, 60, stick_forward="10", stick_left="-5", lever="51")


def test_every_part_and_every_what_if_by_keys(view: Reader) -> None:
    """The lists answer to arrow keys; what is told follows."""
    tour = calculator(view).locator("[data-part=tour]")
    view.unfold("motion", "part")
    field(view, "part").focus()
    for part in PARTS:
        view.page.keyboard.press("ArrowDown")
        for text in (part.label, *WORDS[part.id]):
            expect(tour).to_contain_text(text)
    put(view)
    view.unfold("motion", "what_if")
    field(view, "what_if").focus()
    sentence = calculator(view).locator("[data-part=sentence]")
    for kind, _ in KINDS[1:]:
        view.page.keyboard.press("ArrowDown")
        expect(sentence).to_have_text(oracle.run("motion", inputs={"what_if": kind})["spoken"])
        # Beside it, and to the ear.
        expect(calculator(view).locator("[data-part=results]")).to_contain_text(CAUTION)
        expect(view.status("motion")).to_have_text(oracle.run("motion", inputs={"what_if": kind})["spoken"])


@pytest.fixture(scope="module")
def looker(browser: Browser, address: str) -> Iterator[Page]:
    """A live page whose policy lets axe in."""
    context = browser.new_context(
        viewport=WIDE, locale="en-GB", reduced_motion="reduce", bypass_csp=True, service_workers="block"
    )
    page = context.new_page()
    page.goto(address + PAGE + head_and_inputs(lever="60"))
    expect(page.locator("hd-calculator")).to_have_attribute("data-solid", "")
    yield page
    context.close()


@pytest.mark.parametrize("scheme", ["default", "slate"])
@pytest.mark.parametrize(
    "inputs",
    [
        {"lever": "60"},
        {"part": "horns", "what_if": "drive_off"},
        {"screen": "show", "part": "rods"},
    ],
    ids=["live", "told", "show"],
)
def test_axe_finds_nothing(looker: Page, scheme: str, inputs: dict[str, str]) -> None:
    looker.evaluate("hash => { location.hash = hash; }", head_and_inputs(**inputs))
    looker.evaluate("scheme => document.body.setAttribute('data-md-color-scheme', scheme)", scheme)
    spoken = oracle.run("motion", inputs=inputs)["spoken"]
    expect(looker.locator("[data-part=sentence]")).to_have_text(spoken)
    expect(looker.locator("hd-calculator")).to_have_attribute("data-state", "live")
    shown = looker.locator("hd-calculator.hd-show")
    expect(shown).to_have_count(1 if "screen" in inputs else 0)
    looker.locator("hd-calculator details").evaluate_all("all => all.forEach(one => { one.open = true; })")
    assert violations(looker) == []


@pytest.fixture(scope="module")
def small(browser: Browser, address: str) -> Iterator[Page]:
    """The live page on a small telephone."""
    context = browser.new_context(viewport=PHONE, has_touch=True, reduced_motion="reduce", service_workers="block")
    page = context.new_page()
    page.goto(address + PAGE + head_and_inputs(lever="60"))
    expect(page.locator("hd-calculator")).to_have_attribute("data-solid", "")
    yield page
    context.close()


@pytest.mark.parametrize("inputs", [{"lever": "60"}, {"part": "links", "what_if": "rod_longer"}, {"screen": "show"}])
def test_nothing_scrolls_sideways_on_a_phone(small: Page, inputs: dict[str, str]) -> None:
    small.evaluate("hash => { location.hash = hash; }", head_and_inputs(**inputs))
    expect(small.locator("[data-part=sentence]")).to_have_text(oracle.run("motion", inputs=inputs)["spoken"])
    expect(small.locator("hd-calculator.hd-show")).to_have_count(1 if "screen" in inputs else 0)
    small.locator("hd-calculator details").evaluate_all("all => all.forEach(one => { one.open = true; })")
    assert small.evaluate("document.documentElement.scrollWidth") <= PHONE["width"]
    assert small.evaluate("document.querySelector('hd-calculator').scrollWidth") <= PHONE["width"]


def test_the_picture_stays_in_view_while_a_slider_is_dragged(small: Page) -> None:
    small.evaluate("hash => { location.hash = hash; }", head_and_inputs(lever="40"))
    expect(small.locator("[data-part=sentence]")).to_have_text(oracle.run("motion", inputs={"lever": "40"})["spoken"])
    slider = small.locator('[data-field="stick_left"] input.hd-slider')
    slider.evaluate("one => one.scrollIntoView({ block: 'end' })")
    picture, bar = small.locator(".hd-solid canvas"), small.locator(".md-header")
    box = slider.bounding_box()
    assert box is not None
    small.mouse.move(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)
    small.mouse.down()
    small.mouse.move(box["x"] + box["width"] * 0.8, box["y"] + box["height"] / 2, steps=8)
    moved = slider.input_value()
    assert float(moved) > 30
    seen, top = picture.bounding_box(), bar.bounding_box()
    assert seen is not None
    assert top is not None
    # All of it under the bar at the top, and the slider beneath it: nothing covers either.
    assert seen["y"] >= top["y"] + top["height"] - 1
    assert seen["y"] + seen["height"] <= box["y"] <= PHONE["height"]
    assert seen["height"] >= 250
    assert slider.evaluate(
        "(one, at) => document.elementFromPoint(...at) === one",
        [box["x"] + box["width"] * 0.8, box["y"] + box["height"] / 2],
    )
    wanted = oracle.run("motion", inputs={"lever": "40", "stick_left": moved})["scene"]["rods"]
    joint = (
        "() => document.querySelector('hd-calculator').stage.view.where().rods.map(([, top]) => top.map(Math.round))"
    )
    eventually(lambda: small.evaluate(joint), [[round(x) for x in rod["joint"]] for rod in wanted], small)  # still held
    small.mouse.up()


def test_the_wheel_is_for_everyone_too(browser: Browser, address: str, make_reader: MakeReader) -> None:
    context = browser.new_context(viewport=WIDE, reduced_motion="reduce", bypass_csp=True, service_workers="block")
    page = context.new_page()
    page.goto(address + oracle.PAGE_OF["wheel"] + "#wheel&head=cedar4&plate=40")
    expect(page.locator("hd-calculator")).to_have_attribute("data-state", "live")
    page.locator("hd-calculator details").evaluate_all("all => all.forEach(one => { one.open = true; })")
    assert violations(page) == []
    context.close()
    reader = make_reader(viewport=PHONE, has_touch=True)
    reader.open(oracle.PAGE_OF["wheel"])
    calculator_here = reader.calculator("wheel")
    calculator_here.locator("details").evaluate_all("all => all.forEach(one => { one.open = true; })")
    assert reader.page.evaluate("document.documentElement.scrollWidth") <= PHONE["width"]
