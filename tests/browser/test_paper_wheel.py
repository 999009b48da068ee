"""The paper wheel: two sheets true to size, and discs that stand as the phase budget says."""

from __future__ import annotations

import io
import math
import re
from typing import Any

import pytest
from playwright.sync_api import expect
from pypdf import PageObject, PdfReader
from rotorhead.conventions import bearing_words

from . import oracle
from .reader import Reader, eventually

PAGE = oracle.PAGE_OF["wheel"]
PAPERS = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}
SHEET, BAR = 188.0, 100.0  # mm, as the bar itself says of itself
POINT = 25.4 / 72.0
TURNED = [(base, mirrored) for base in oracle.HEADS for mirrored in (False, True)]

# Widths on paper: CSS has 96 dots to the inch.
SIZES = """() => [...document.querySelectorAll(".hd-wheel-sheet svg")].map(svg => {
  const mm = box => box.width * 25.4 / 96;
  const bar = svg.querySelector(".scale-bar");
  return [mm(svg.getBoundingClientRect()), bar && mm(bar.getBoundingClientRect())];
})"""
# Bearings of the middles of paths in the wheel that is pinned together: its middle is that of the drawing.
MIDDLES = """(svg, selector) => [...svg.querySelectorAll(selector)].map(path => {
  const numbers = path.getAttribute("d").match(/-?[\\d.]+/g).map(Number);
  const { width, height } = svg.viewBox.baseVal;
  const xs = numbers.filter((_, i) => i % 2 === 0), ys = numbers.filter((_, i) => i % 2 === 1);
  const mean = all => all.reduce((a, b) => a + b, 0) / all.length;
  return Math.atan2(mean(xs) - width / 2, height / 2 - mean(ys)) * 180 / Math.PI;
})"""


@pytest.fixture
def wheel(live: Reader) -> Reader:
    """The page of the wheel with Python running."""
    if PAGE not in live.page.url:
        live.open(PAGE)
        live.touch("wheel")
        live.state("wheel", "live")
    return live


def _put(reader: Reader, base: str, mirrored: bool = False, **inputs: str) -> dict[str, Any]:
    answer = oracle.run("wheel", base, mirrored, inputs=inputs)
    pairs = [f"head={base}", f"mirrored={int(mirrored)}", *(f"{name}={text}" for name, text in inputs.items())]
    reader.page.evaluate("hash => { location.hash = hash; }", "#wheel&" + "&".join(pairs))
    reader.shows("wheel", answer)
    return answer


def _number(answer: dict[str, Any], name: str) -> float:
    return next(float(result["value"]) for result in answer["results"] if result["name"] == name)


def _apart(a: float, b: float) -> float:
    return abs((a - b + 180.0) % 360.0 - 180.0)


@pytest.mark.parametrize(("base", "mirrored"), TURNED)
def test_discs_stand_as_the_budget_says(wheel: Reader, base: str, mirrored: bool) -> None:
    """Plate low, back by the lead, half a turn on for a trailing horn, on by the lag: the sum of the phase page."""
    phase = oracle.run("phase", base, mirrored)
    lag, lead, horn = (_number(phase, name) for name in ("lag", "lead", "horn_turn"))
    clockwise = phase["head"]["rotation"] == "clockwise"
    svg = wheel.calculator("wheel").locator("[data-part=drawing] svg")
    for plate in (0.0, 75.0, 310.0):
        answer = _put(wheel, base, mirrored, plate=f"{plate:g}")
        on = 1.0 if clockwise else -1.0
        least = plate + on * (horn - lead)
        low = least + on * lag
        said = next(result["value"] for result in answer["results"] if result["name"] == "disc_low")
        assert said == bearing_words(math.radians(low % 360.0), 1)
        expect(wheel.calculator("wheel").locator("[data-part=results]")).to_contain_text(said)
        (drawn_low,) = svg.evaluate(MIDDLES, "path.r-disc.fill:not(.thin)")[:1]
        assert _apart(drawn_low, low) < 0.5, "the wedge, drawn to a tenth of a unit"
    # With the stick forward: as far off the nose as the phase page says is left over.
    answer = _put(wheel, base, mirrored)
    assert _number(answer, "off_nose") == pytest.approx(abs(_number(phase, "error")), abs=0.06), "the plate to a tenth"


def _lines(sheet: PageObject) -> list[float]:
    """Lengths of the level lines on a sheet of paper, mm."""
    found: list[float] = []
    at: list[tuple[float, float]] = []

    def see(operator: bytes, operands: list[Any], cm: list[float], _: list[float]) -> None:
        if operator not in (b"m", b"l"):
            return
        x, y = (float(value) for value in operands)
        place = (x * cm[0] + y * cm[2] + cm[4], x * cm[1] + y * cm[3] + cm[5])
        if operator == b"l" and at and abs(place[1] - at[-1][1]) < 0.01:
            found.append(math.dist(place, at[-1]) * POINT)
        at.append(place)

    sheet.extract_text(visitor_operand_before=see)
    return found


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("base", ["alder3", "cedar4"])
def test_two_sheets_true_to_size(wheel: Reader, base: str, paper: str) -> None:
    _put(wheel, base, paper=paper)
    wheel.page.emulate_media(media="print")
    wheel.page.evaluate(
        "document.body.classList.add('hd-sheet'); document.querySelector('.hd-wheel').classList.add('hd-printing'); "
        "document.querySelector('.hd-wheel details').open = true"
    )
    (first, bar), (second, _) = wheel.page.evaluate(SIZES)
    assert first == pytest.approx(SHEET, abs=0.2)
    assert second == pytest.approx(SHEET, abs=0.2)
    assert bar == pytest.approx(BAR, abs=0.2)
    pdf = PdfReader(io.BytesIO(wheel.page.pdf(prefer_css_page_size=True)))
    wheel.page.emulate_media(media="null")
    assert len(pdf.pages) == 2
    for sheet in pdf.pages:
        assert float(sheet.mediabox.width) * POINT == pytest.approx(PAPERS[paper][0], abs=0.5)
        assert float(sheet.mediabox.height) * POINT == pytest.approx(PAPERS[paper][1], abs=0.5)
    # On the paper itself, whatever the browser has made of the page.
    assert [length for length in _lines(pdf.pages[0]) if length == pytest.approx(BAR, abs=0.2)]
    words = [re.sub(r"\s+", " ", sheet.extract_text()) for sheet in pdf.pages]
    assert "This bar is 100 mm" in words[0]
    assert "the plate's disc" in words[1]
    assert "the blade's disc" in words[1]


def test_printing_the_wheel_prints_nothing_else(wheel: Reader) -> None:
    _put(wheel, "elder6")
    wheel.page.evaluate(
        """() => { window.print = () => {
          window.dispatchEvent(new Event("beforeprint"));
          window.seen = [document.body.classList.contains("hd-sheet"), document.querySelector(".hd-wheel details").open];
        }; }"""
    )
    wheel.calculator("wheel").get_by_role("button", name="Print the wheel").click()
    assert wheel.page.evaluate("window.seen") == [True, True]
    wheel.page.emulate_media(media="print")
    expect(wheel.page.locator(".hd-wheel-sheet").first).to_be_visible()
    for other in ("h1", "[data-part=drawing]", "form", "hd-predict", ".md-header"):
        expect(wheel.page.locator(other).first).to_be_hidden()
    wheel.page.emulate_media(media="null")
    wheel.page.evaluate("window.dispatchEvent(new Event('afterprint'))")
    eventually(lambda: wheel.page.evaluate("document.body.classList.contains('hd-sheet')"), False, wheel.page)


def test_the_pages_own_print_has_no_sheets_of_the_wheel(wheel: Reader) -> None:
    _put(wheel, "dogwood5")
    pdf = PdfReader(io.BytesIO(wheel.page.pdf(format="A4")))
    text = " ".join(sheet.extract_text() for sheet in pdf.pages)
    assert "This bar is 100 mm" not in text
    assert "Can the phase be shown" in text
