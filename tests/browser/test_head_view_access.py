"""The moving view and the paper wheel for everyone: by keyboard, to axe, on a phone, in a room, as a file, on paper."""

from __future__ import annotations

import io
import re
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import pytest
from playwright.sync_api import Locator, expect
from pypdf import PdfReader
from rotorhead.head import demonstration
from rotorhead.motion.parts import PARTS

from . import oracle
from .conftest import PHONE, MakeReader
from .moving import PAGE, SOFTWARE, calculator, field, head_and_inputs, press, put, stands, tells, wake
from .reader import Reader, eventually
from .test_every_page import violations
from .test_head_view_life import LOST, NO_WEBGL

WHEEL = oracle.PAGE_OF["wheel"]
SVG = "{http://www.w3.org/2000/svg}"
SHAPES = {f"{SVG}{name}" for name in ("path", "line", "polygon", "polyline", "circle", "ellipse", "rect")}
PAPER = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}  # mm: ISO 216; ANSI Y14.1, size A
# Everything a hand may touch in the view, as selectors in the calculator; names that repeat stand for all of theirs.
REACHED = (
    ".hd-solid",
    ".hd-pad",
    ".hd-lever",
    ".hd-views button",
    ".hd-turn :is(button, select)",
    ".hd-stop :is(button, select)",
)
TARGETS = ":is(.hd-views, .hd-turn, .hd-stop) button, .hd-leave, .hd-tools button"
SIZES = (
    "all => all.filter(one => one.checkVisibility()).map(one => [one.textContent, one.offsetWidth, one.offsetHeight])"
)


@pytest.fixture
def view(live: Reader) -> Reader:
    live.watch.allow(SOFTWARE)
    if PAGE not in live.page.url:
        wake(live)
    put(live)
    return live


def fills_the_window(one: Locator) -> bool:
    found: bool = one.evaluate(
        "one => { const b = one.getBoundingClientRect(); return b.x === 0 && b.y === 0 && b.width === innerWidth && b.height === innerHeight; }"
    )
    return found


def test_it_fills_the_screen_and_leaves_it(view: Reader) -> None:
    one = calculator(view)
    assert not fills_the_window(one)
    press(view, "Fill the screen")
    eventually(lambda: fills_the_window(one), True, view.page)
    eventually(lambda: view.page.evaluate("document.fullscreenElement !== null"), True, view.page)
    expect(field(view, "screen")).to_have_value("show")
    press(view, "Leave the full screen")
    eventually(lambda: fills_the_window(one), False, view.page)
    eventually(lambda: view.page.evaluate("document.fullscreenElement"), None, view.page)
    expect(field(view, "screen")).to_have_value("page")
    expect(one.get_by_role("button", name="Fill the screen")).to_be_focused()


@pytest.mark.parametrize(
    ("controls", "hands", "turning"),
    [("all", True, True), ("hands", True, False), ("turning", False, True), ("none", False, False)],
)
def test_a_link_opens_it_with_the_controls_that_are_chosen(
    view: Reader, controls: str, hands: bool, turning: bool
) -> None:
    one = calculator(view)
    put(view, screen="show", controls=controls)
    eventually(lambda: fills_the_window(one), True, view.page)
    for group, wanted in ((".hd-pad", hands), (".hd-lever", hands), (".hd-turn", turning), (".hd-views", turning)):
        expect(one.locator(group)).to_be_visible(visible=wanted)
    expect(one.locator(".hd-solid canvas")).to_be_visible()
    sizes = one.locator(TARGETS).evaluate_all(SIZES)
    assert [size for size in sizes if min(size[1:]) < 64] == []
    assert len(sizes) == 1 + 4 * hands + 8 * turning, sizes
    view.page.keyboard.press("Escape")
    eventually(lambda: fills_the_window(one), False, view.page)
    expect(field(view, "screen")).to_have_value("page")


def test_targets_in_the_page_are_large_enough_for_a_finger(view: Reader) -> None:
    sizes = calculator(view).locator(TARGETS).evaluate_all(SIZES)
    assert len(sizes) >= 15
    assert [size for size in sizes if min(size[1:]) < 44] == []


def saved(reader: Reader, kind: str) -> bytes:
    with reader.page.expect_download() as coming:
        press(reader, f"Save as {kind.upper()}")
    assert coming.value.suggested_filename.endswith(f".{kind}")
    return Path(coming.value.path()).read_bytes()


def a_png(data: bytes) -> None:
    assert data.startswith(b"\x89PNG\r\n\x1a\n")
    assert len(data) > 20_000, "an empty picture of this size packs into less"


def an_svg(data: bytes) -> str:
    """Its words, once it is a drawing that runs nothing."""
    root = ElementTree.fromstring(data)
    assert root.tag == f"{SVG}svg"
    assert sum(one.tag in SHAPES for one in root.iter()) > 100
    assert not [one.tag for one in root.iter() if one.tag.lower().endswith(("script", "foreignobject"))]
    assert not [name for one in root.iter() for name in one.attrib if name.lower().startswith("on")]
    return " ".join("".join(one.itertext()) for one in root.iter() if one.tag in (f"{SVG}text", f"{SVG}title"))


def test_pictures_of_the_solid_view_are_saved(view: Reader) -> None:
    a_png(saved(view, "png"))
    words = an_svg(saved(view, "svg"))
    for part in (part for part in PARTS if part.shown):
        assert part.label in words
    assert "Alder 3" in words
    assert "For learning only" in words


def test_without_webgl_the_drawn_view_is_saved(make_reader: MakeReader) -> None:
    reader = make_reader()
    reader.watch.allow(LOST)
    reader.page.add_init_script(NO_WEBGL)
    reader.open(PAGE)
    reader.touch("motion")
    expect(calculator(reader).locator(".hd-view-note")).to_be_visible()
    a_png(saved(reader, "png"))
    words = an_svg(saved(reader, "svg"))
    names = calculator(reader).locator("[data-part=drawing] svg text").all_text_contents()
    assert "drive scissors" in names
    assert [name for name in names if name not in words] == []
    assert "For learning only" in words


def test_the_tab_key_reaches_every_control_and_shows_where_it_is(view: Reader) -> None:
    one = calculator(view)
    one.evaluate(
        "(one, all) => all.forEach(s => one.querySelectorAll(s).forEach((x, i) => { x.dataset.reach = `${s} ${i}`; }))",
        list(REACHED),
    )
    wanted = set(one.locator("[data-reach]").evaluate_all("all => all.map(x => x.dataset.reach)"))
    assert len(wanted) == 3 + 5 + 4 + 5
    view.page.evaluate("document.activeElement?.blur()")
    here = """() => {
      const one = document.activeElement, style = getComputedStyle(one);
      return [one.dataset.reach ?? "", style.outlineStyle !== "none" || style.boxShadow !== "none"];
    }"""
    reached: dict[str, bool] = {}
    for _ in range(250):
        view.page.keyboard.press("Tab")
        name, marked = view.page.evaluate(here)
        if name:
            reached[name] = marked
        if wanted <= reached.keys():
            break
    assert wanted - reached.keys() == set()
    assert [name for name, marked in reached.items() if not marked] == []


def test_every_part_is_picked_by_keyboard(view: Reader) -> None:
    choice = field(view, "part")
    summary = choice.locator("xpath=ancestor::details[1]/summary")
    if not choice.is_visible():
        summary.focus()
        view.page.keyboard.press("Enter")
    expect(choice).to_be_visible()
    choice.focus()
    for part in PARTS:
        view.page.keyboard.press("ArrowDown")
        expect(choice).to_have_value(part.id)
        tells(view, part.id)


def test_axe_finds_nothing_in_the_live_view_in_show_mode_and_on_the_wheels_page(make_reader: MakeReader) -> None:
    reader = make_reader(bypass_csp=True)
    wake(reader)
    put(reader, part="links")
    assert violations(reader.page) == []
    put(reader, screen="show")
    eventually(lambda: fills_the_window(calculator(reader)), True, reader.page)
    assert violations(reader.page) == []
    reader.open(WHEEL)
    reader.touch("wheel")
    reader.state("wheel", "live")
    reader.calculator("wheel").locator("details").evaluate_all("all => all.forEach(one => { one.open = true; })")
    assert violations(reader.page) == []


def test_on_a_phone_the_picture_stays_in_sight_of_the_sliders(phone: Reader) -> None:
    wake(phone, head_and_inputs())
    assert phone.page.evaluate("document.documentElement.scrollWidth") <= PHONE["width"]
    screen = calculator(phone).locator(".hd-solid")
    for name in ("lever", "stick_forward", "stick_left", "rotor_angle"):
        slider = phone.slider("motion", name)
        slider.evaluate("one => one.scrollIntoView({ block: 'end', behavior: 'instant' })")
        box, at = screen.bounding_box(), slider.bounding_box()
        assert box is not None
        assert at is not None
        assert box["y"] >= 0
        assert box["y"] + box["height"] <= at["y"], f"{name}: the picture stands over its slider"
        middle = [at["x"] + at["width"] / 2, at["y"] + at["height"] / 2]
        assert slider.evaluate("(one, [x, y]) => document.elementFromPoint(x, y) === one", middle), f"{name} is covered"
    phone.slider("motion", "lever").fill("70")
    stands(phone, 30, lever="70")


@pytest.mark.parametrize("paper", PAPER)
def test_the_wheel_is_printed_true_to_size_on_two_sheets(live: Reader, paper: str) -> None:
    live.watch.allow(SOFTWARE)
    live.open(WHEEL, f"#wheel&paper={paper}")
    live.shows("wheel", oracle.run("wheel", inputs={"paper": paper}))
    # As the button does it; the browser's own dialogue is left out.
    live.page.evaluate("window.print = () => { window.printedAs = document.body.className; }")
    button = live.calculator("wheel").get_by_role("button", name="Print the wheel")
    button.click()
    assert "hd-wheel-alone" in live.page.evaluate("window.printedAs").split()
    live.calculator("wheel").locator(".hd-wheel details").evaluate_all(
        "all => all.forEach(one => { one.open = true; })"
    )
    live.page.emulate_media(media="print")
    measure = """all => all.map(svg => {
      const bar = svg.querySelector(".scale-bar"), mm = 25.4 / 96;
      return [svg.getBoundingClientRect().width * mm,
        bar && (bar.x2.baseVal.value - bar.x1.baseVal.value) * bar.getScreenCTM().a * mm];
    })"""
    (first, bar), (second, none) = live.page.locator(".hd-wheel-sheet svg").evaluate_all(measure)
    assert first == pytest.approx(188.0, abs=0.2)
    assert second == pytest.approx(188.0, abs=0.2)
    assert bar == pytest.approx(100.0, abs=0.2), "what the bar says of itself"
    assert none is None
    live.page.emulate_media(media="null")
    pages = PdfReader(io.BytesIO(live.page.pdf(prefer_css_page_size=True))).pages
    sizes = [(float(one.mediabox.width) * 25.4 / 72, float(one.mediabox.height) * 25.4 / 72) for one in pages]
    assert sizes == [pytest.approx(PAPER[paper], abs=0.5)] * 2
    texts = [re.sub(r"\s+", " ", one.extract_text()) for one in pages]
    assert "This bar is 100 mm" in texts[0]
    assert "the blade's disc" in texts[1].replace("\N{RIGHT SINGLE QUOTATION MARK}", "'")
    # Printed once, the page is itself again.
    expect(live.page.locator("body")).not_to_have_class(re.compile("hd-wheel-alone"))


def results(calculator: str, base: str, mirrored: bool, **inputs: str) -> dict[str, Any]:
    return {one["name"]: one["value"] for one in oracle.run(calculator, base, mirrored, inputs=inputs)["results"]}


@pytest.mark.parametrize("base", oracle.HEADS)
@pytest.mark.parametrize("mirrored", [False, True])
def test_the_wheels_disc_is_low_where_the_phase_budget_says(base: str, mirrored: bool) -> None:
    """The budget's own figures added up here: from the plate's low back by the lead, on by the horn's side and the lag."""
    phase = results("phase", base, mirrored)
    on = phase["lag"] - phase["lead"] + phase["horn_turn"]
    # Bearings run clockwise: with a rotor that turns the other way "on" is less of them.
    sense = 1.0 if (demonstration(base).rotation == "clockwise") is not mirrored else -1.0
    for plate in (-sense * phase["fitted"] % 360.0, 100.0):
        wheel = results("wheel", base, mirrored, plate=f"{plate:.6f}")
        low = (plate + sense * on + 180.0) % 360.0 - 180.0
        assert wheel["off_nose"] == pytest.approx(abs(low), abs=1e-4)
        side = "right" if low > 0.0 else "left"
        assert wheel["disc_low"] == "at the nose" or side in wheel["disc_low"]
        assert abs(low) < 0.05 or wheel["disc_low"] != "at the nose"
    assert results("wheel", base, mirrored)["disc_low"] == phase["disc_low"]
    assert results("wheel", base, mirrored)["needed"] == phase["needed_words"]
