"""At 400 % (320 by 256), with letters spaced out, with the system's own colours: WCAG 2.2, 1.4.10, 1.4.11, 1.4.12, 2.4.11.

1280 by 1024 at 400 % is a window of 320 by 256 CSS pixels (WCAG 2.2, 1.4.10, note 1). Forced colours are those Chromium
brings for a test: light and dark.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import numpy as np
import pytest
from playwright.sync_api import Browser, Locator, Page, expect

from . import looks, moving, oracle
from .conftest import PHONE, WIDE, MakeReader
from .learner import PRACTICE
from .page_kinds import KINDS, open_kind
from .pixels import changed, contrast, legible, luminance, picture
from .reader import Reader

ZOOMED: Any = {"width": 320, "height": 256}
# WCAG 2.2, 1.4.12, each value the one it names. A drawing's words stand at places, and are said again beneath it.
SPACED = """*:not(svg, svg *) { line-height: 1.5 !important; letter-spacing: 0.12em !important;
word-spacing: 0.16em !important; } p { margin-bottom: 2em !important; }"""
STATES = "parts/rods.html"  # a calculator, a place in the chain, predictions
SCHEMES: tuple[Any, ...] = ("light", "dark")
# Pages that between them have every kind of control and drawing, and a chain.
COLOURED = (
    "principles/control-phase.html",
    "heads/cedar4.html",
    "own/inclinometer.html",
    "teaching/sheet-builder.html",
)


@pytest.mark.parametrize("path", KINDS)
def test_at_400_percent_and_with_letters_spaced_out(live: Reader, path: str) -> None:
    """Nothing cut off, nothing sideways but in boxes that Tab reaches, half of the window free, the focus never covered."""
    page = live.page
    page.set_viewport_size(ZOOMED)
    open_kind(live, path)
    if path == PRACTICE:
        page.get_by_role("button", name="Ask me").click()
        expect(page.locator(".hd-ask-prompt")).to_be_visible()
    assert looks.ask(page, looks.WORDS) == []
    taken = looks.ask(page, looks.TAKEN)
    assert taken["part"] <= 0.5, taken
    page.keyboard.press("Tab")  # boxes that scroll are reached from then on
    assert looks.ask(page, looks.UNREACHED) == []
    assert looks.ask(page, looks.COVERED) == []
    page.set_viewport_size(PHONE)
    if page.locator(".hd-drawing").count():
        assert looks.ask(page, looks.COVERED) == [], "on a telephone the drawing stays in view"
    page.add_style_tag(content=SPACED)
    assert looks.ask(page, looks.WORDS) == []


def test_the_moving_view_at_400_percent(live: Reader) -> None:
    live.page.set_viewport_size(ZOOMED)
    moving.wake(live)
    live.page.locator("hd-calculator details").evaluate_all("all => all.forEach(one => { one.open = true; })")
    assert looks.ask(live.page, looks.WORDS) == []
    assert looks.ask(live.page, looks.TAKEN)["part"] <= 0.5
    assert looks.ask(live.page, looks.COVERED) == []
    live.header_button.click()  # the head bar, brought down over the page
    bar = live.page.locator(".hd-bar.hd-down").bounding_box()
    assert bar is not None
    assert bar["y"] + bar["height"] <= ZOOMED["height"]


# --- forced colours


@pytest.fixture(scope="module")
def forced_page(browser: Browser) -> Iterator[Page]:
    context = browser.new_context(
        viewport=WIDE, locale="en-GB", reduced_motion="reduce", forced_colors="active", service_workers="block"
    )
    yield context.new_page()
    context.close()


def _paper(page: Page) -> float:
    """Luminance of the system's Canvas; the page's own background is that."""
    found = page.evaluate("getComputedStyle(document.body).backgroundColor")
    dark = page.evaluate("matchMedia('(prefers-color-scheme: dark)').matches")
    assert found == ("rgb(0, 0, 0)" if dark else "rgb(255, 255, 255)")
    return 0.0 if dark else 1.0


_BOXES = """which => [...document.querySelectorAll(which)].filter((one) => one.checkVisibility({ visibilityProperty: true })).map((one) => {
  const { left, top, width, height } = one.getBoundingClientRect();
  return { who: `${one.className.baseVal ?? one.className} ${one.textContent.trim().slice(0, 30)}`, left, top: top + scrollY, width, height };
}).filter((one) => one.width > 8 && one.height > 8)"""
EDGED = ":is(.md-main) :is(button:not(:disabled, .hd-opens, .hd-guess, .hd-field-reset, .md-top), select, input[type=text], textarea)"
DRAWN = ".md-main svg:is(.hd-svg, .hd-plot)"
# Role by role, what is left when all of them are ink: width, dashes, double line.
LINES = """() => Object.fromEntries(["hand", "plate", "pitch", "disc", "structure"].map((role) => {
  const one = document.createElementNS("http://www.w3.org/2000/svg", "line");
  one.setAttribute("class", `r-${role}`);
  document.querySelector(".hd-svg").append(one);
  const { stroke, strokeWidth, strokeDasharray } = getComputedStyle(one);
  one.remove();
  return [role, { stroke, look: `${strokeWidth} ${strokeDasharray}` }];
}))"""


@pytest.mark.parametrize("path", COLOURED)
def test_edges_and_drawings_in_forced_colours(forced_page: Page, address: str, path: str) -> None:
    """Every control has an edge, every drawing its lines, at 3:1 against the paper."""
    page = forced_page
    page.goto(address + path)
    page.evaluate("document.activeElement.blur()")
    for scheme in SCHEMES:
        page.emulate_media(color_scheme=scheme, forced_colors="active", reduced_motion="reduce")
        paper = _paper(page)
        ink = contrast(luminance(page.screenshot(full_page=True)), paper) >= 3.0
        for box in page.evaluate(_BOXES, EDGED):
            x, y, w, h = (round(box[key]) for key in ("left", "top", "width", "height"))
            sides = (ink[y + h // 2, max(0, x - 1) : x + 4], ink[y - 1 : y + 4, x + w // 2])
            assert all(side.any() for side in sides), f"no edge, {scheme}: {box}"
        for box in page.evaluate(_BOXES, DRAWN):
            x, y, w, h = (round(box[key]) for key in ("left", "top", "width", "height"))
            assert ink[y : y + h, x : x + w].mean() > 0.01, f"nothing drawn, {scheme}: {box}"
        if page.locator(".hd-svg").count():
            lines = page.evaluate(LINES)
            assert len({one["look"] for one in lines.values()}) == 5, lines
            wanted = "rgb(255, 255, 255)" if scheme == "dark" else "rgb(0, 0, 0)"
            assert {one["stroke"] for one in lines.values()} == {wanted}


def _set(at: Locator, name: str, value: str) -> None:
    at.evaluate("(one, [name, value]) => one.setAttribute(name, value)", [name, value])


@pytest.mark.parametrize("scheme", SCHEMES)
def test_states_and_focus_in_forced_colours(forced_page: Page, address: str, scheme: Any) -> None:
    """Pressed, chosen, refused, greyed, where one is, what has the focus: told apart by lines, not by a background."""
    page = forced_page
    page.emulate_media(color_scheme=scheme, forced_colors="active", reduced_motion="reduce")
    page.goto(address + STATES)
    page.keyboard.press("Tab")  # by keys from here on
    main = page.locator("main")
    text = main.locator("hd-calculator .hd-text:visible").first
    slider = main.locator("hd-calculator .hd-slider:visible").first
    here = main.locator(".hd-chain a", has_text="rods")
    turn = main.locator(".hd-turn")
    tool = main.locator(".hd-tools .hd-button").first
    radio = main.locator("hd-predict input[type=radio]").first
    label = main.locator("hd-predict label").first
    assert changed(page, text, lambda: _set(text, "aria-invalid", "true")) > 100
    assert changed(page, here, lambda: here.evaluate("one => one.removeAttribute('aria-current')")) > 40
    assert changed(page, turn, lambda: _set(turn, "aria-pressed", "true")) > 100
    assert changed(page, tool, lambda: tool.evaluate("one => { one.disabled = true; }")) > 20
    assert changed(page, radio, lambda: radio.evaluate("one => { one.checked = true; }")) > 20
    assert changed(page, label, lambda: label.evaluate("one => one.classList.add('hd-right')")) > 100
    # The thumb of a slider, 16 by 32: it is somewhere else then.
    assert changed(page, slider, lambda: slider.evaluate("one => { one.value = one.max; }")) > 600
    tool.evaluate("one => { one.disabled = false; }")
    kinds = {"text": text, "slider": slider, "button": tool, "list": main.locator(".hd-pick select").first, "radio": radio,
             "fold": main.locator("summary:visible").first, "link": here}  # fmt: skip
    for name, one in kinds.items():
        page.evaluate("document.activeElement.blur()")
        box = one.bounding_box()
        assert box is not None
        ring = changed(page, one, one.focus, grown=6)
        # WCAG 2.2, 2.4.13 asks for a line of 2 px round the whole: half of that must be in any case.
        assert ring >= box["width"] + box["height"], f"{name}: {ring} pixels tell the focus, {scheme}"


@pytest.mark.parametrize("scheme", SCHEMES)
def test_a_live_chart_in_forced_colours(forced_page: Page, address: str, scheme: Any) -> None:
    """The canvas takes the system's colours; the legend's boxes are as different as the lines."""
    page = forced_page
    page.emulate_media(color_scheme=scheme, forced_colors="active", reduced_motion="reduce")
    page.goto(address + oracle.PAGE_OF["link-load"])
    chart = page.locator("hd-chart").first
    chart.evaluate("one => one.setAttribute('data-chart', one.dataset.chart)")  # as the first live answer does
    expect(chart.locator("canvas")).to_be_visible()
    chart.scroll_into_view_if_needed()
    page.wait_for_function("document.querySelector('hd-chart .u-legend .u-series + .u-series') !== null")
    assert (contrast(picture(page, chart.locator("canvas")), _paper(page)) >= 3.0).mean() > 0.01
    looks_of = "all => all.slice(1).map(one => { const s = getComputedStyle(one); return s.borderTopStyle + s.borderTopWidth; })"
    boxes = chart.locator(".u-marker").evaluate_all(looks_of.replace("slice(1)", "slice(-2)"))
    assert len(set(boxes)) == 2, boxes


@pytest.mark.parametrize("scheme", SCHEMES)
def test_the_moving_view_in_forced_colours(make_reader: MakeReader, scheme: Any) -> None:
    """Faces stay paper, so that edges show; what turns is hatched; a pressed button keeps its word."""
    reader = make_reader(forced_colors="active", color_scheme=scheme)
    moving.wake(reader)
    page = reader.page
    paper = _paper(page)
    calculator = moving.calculator(reader)
    view = calculator.get_by_role("button", name="View: corner")
    assert legible(page, view), "a pressed button keeps its word"
    assert changed(page, view, lambda: _set(view, "aria-pressed", "false")) > 200
    tag = calculator.locator(".hd-tag").first
    assert changed(page, tag, lambda: _set(tag, "data-picked", "")) > 200
    assert legible(page, tag)
    # Round the point of each part that its name leads to: how far its colour is from the paper's.
    solid = calculator.locator(".hd-solid")
    solid.scroll_into_view_if_needed()
    spots = solid.locator(".hd-tags").evaluate("""tags => {
      const spots = [...tags.querySelectorAll("circle")].map(one => [one.cx.baseVal.value, one.cy.baseVal.value]);
      const said = [...tags.querySelectorAll(".hd-tag")].map(one => one.textContent);
      tags.style.visibility = "hidden";
      return said.map((text, i) => [/turns/.test(text), ...spots[i]]);
    }""")
    shades = np.sqrt(picture(page, solid))
    far: dict[bool, list[float]] = {True: [], False: []}
    for turns, x, y in spots:
        row, column = round(y), round(x)
        far[turns].append(float(np.abs(shades[row - 5 : row + 6, column - 5 : column + 6] - paper).mean()))
    assert np.median(far[False]) < 0.5, f"silhouettes, {scheme}: {far}"
    assert np.mean(far[True]) > np.mean(far[False]) + 0.1, f"what turns looks as what stands, {scheme}: {far}"
