"""The moving view for a room: it fills the screen with the controls that are chosen; and pictures of it to keep."""

from __future__ import annotations

import re
import shutil
import struct
from collections.abc import Iterator
from pathlib import Path
from typing import Any
from xml.etree import ElementTree as Xml

import pytest
from playwright.sync_api import Locator, expect
from rotorhead.motion.parts import PARTS

from . import oracle
from .conftest import MakeReader
from .moving import PAGE, SOFTWARE, calculator, head_and_inputs, press, put, stands, wake
from .reader import Reader, eventually

SHAPES = {"path", "line", "circle", "polygon", "polyline", "rect"}
LOST_ON_PURPOSE = "WebGL"
NO_WEBGL = """(() => {
  const open = HTMLCanvasElement.prototype.getContext;
  HTMLCanvasElement.prototype.getContext = function (kind, ...more) {
    return /webgl/.test(kind) ? null : open.call(this, kind, ...more);
  };
})();"""
FILLS = """one => {
  const box = one.getBoundingClientRect();
  const corners = [[2, 2], [innerWidth - 3, 2], [2, innerHeight - 3]];
  return box.left === 0 && box.top === 0 && box.width === innerWidth && box.height === innerHeight
    && corners.every(([x, y]) => one.contains(document.elementFromPoint(x, y)));
}"""


@pytest.fixture
def view(view: Reader) -> Iterator[Reader]:
    """The same, off the full screen afterwards."""
    yield view
    view.page.evaluate("document.fullscreenElement ? document.exitFullscreen() : null")


def fills_the_screen(reader: Reader) -> None:
    eventually(lambda: calculator(reader).evaluate(FILLS), True, reader.page)


def is_in_the_page(reader: Reader) -> None:
    expect(calculator(reader)).not_to_have_class(re.compile("hd-show"))
    eventually(lambda: "screen=show" in reader.page.url, False, reader.page)
    assert reader.page.evaluate("document.fullscreenElement") is None
    assert calculator(reader).evaluate(FILLS) is False


def test_filling_the_screen_and_leaving_it_by_the_button(view: Reader) -> None:
    press(view, "Fill the screen")
    fills_the_screen(view)
    eventually(lambda: "screen=show" in view.page.url, True, view.page)
    view.shows("motion", oracle.run("motion", inputs={"screen": "show"}))
    press(view, "Leave the full screen")
    is_in_the_page(view)
    expect(calculator(view).get_by_role("button", name="Fill the screen")).to_be_focused()


def test_the_browsers_own_way_out_of_the_full_screen_leads_back(view: Reader) -> None:
    press(view, "Fill the screen")
    fills_the_screen(view)
    eventually(lambda: view.page.evaluate("document.fullscreenElement !== null"), True, view.page)
    # What the Escape key does to a full screen is the browser's own work, which no key sent by a test sets off.
    view.page.evaluate("document.exitFullscreen()")
    is_in_the_page(view)


def test_a_link_opens_it_filling_the_window_and_escape_leads_back(make_reader: MakeReader) -> None:
    reader = make_reader()
    reader.watch.allow(SOFTWARE)
    reader.open(PAGE, head_and_inputs("cedar4", screen="show", controls="hands"))
    expect(calculator(reader)).to_have_attribute("data-solid", "")
    fills_the_screen(reader)
    stands(reader, 30, "cedar4")
    expect(calculator(reader).locator(".hd-pad")).to_be_visible()
    expect(calculator(reader).locator(".hd-turn")).to_be_hidden()
    reader.page.keyboard.press("Escape")
    is_in_the_page(reader)
    expect(calculator(reader).locator(".hd-turn")).to_be_visible()


@pytest.mark.parametrize(
    ("controls", "hands", "turning"),
    [("all", True, True), ("hands", True, False), ("turning", False, True), ("none", False, False)],
)
def test_only_the_controls_that_are_chosen(view: Reader, controls: str, hands: bool, turning: bool) -> None:
    put(view, screen="show", controls=controls)
    fills_the_screen(view)
    one = calculator(view)
    for places, wanted in (((".hd-pad", ".hd-lever", ".hd-stop"), hands), ((".hd-turn", ".hd-views"), turning)):
        for place in places:
            expect(one.locator(place)).to_be_visible(visible=wanted)
    expect(one.locator(".hd-solid canvas")).to_be_visible()
    expect(one.locator(".hd-leave")).to_be_visible()
    # A page's own tools are not for the room.
    expect(one.locator(".hd-tools")).to_be_hidden()
    expect(view.text_box("motion", "lever")).to_be_hidden()


def _too_small(targets: Locator, side: float) -> list[str]:
    """Visible targets smaller than this either way."""
    small = []
    for target in targets.all():
        box = target.bounding_box()
        if box is not None and min(box["width"], box["height"]) < side - 0.5:
            small.append(f"{target.evaluate('one => one.outerHTML.slice(0, 80)')}: {box}")
    return small


# The names in the picture are not among them: the list of parts, which is, has them all.
TARGETS = ".hd-press:visible, .hd-hands select:visible, .hd-turn select:visible, .hd-pad:visible, .hd-lever:visible"


def test_targets_are_as_large_as_a_finger(view: Reader) -> None:
    targets = calculator(view).locator(TARGETS)
    assert targets.count() >= 16, "views 5, turning 4, places 4, blade, pad, lever"
    assert _too_small(targets, 44) == []


def test_targets_for_a_room_are_larger(view: Reader) -> None:
    put(view, screen="show")
    fills_the_screen(view)
    targets = calculator(view).locator(TARGETS)
    assert targets.count() >= 17, "and the way out"
    assert _too_small(targets, 64) == []


def _saved(reader: Reader, name: str) -> tuple[str, bytes]:
    """A file's name and its bytes."""
    with reader.page.expect_download() as coming:
        press(reader, name)
    return coming.value.suggested_filename, Path(coming.value.path()).read_bytes()


def _expect_png(data: bytes) -> tuple[int, int]:
    assert data.startswith(b"\x89PNG\r\n\x1a\n")
    assert len(data) > 20_000
    width, height = struct.unpack(">II", data[16:24])
    return width, height


def _words(data: bytes) -> list[str]:
    """The words of an SVG that is made of shapes and words alone."""
    root = Xml.fromstring(data)
    names = [element.tag.rpartition("}")[2] for element in root.iter()]
    assert names[0] == "svg"
    assert sum(name in SHAPES for name in names) > 100
    assert not {"script", "foreignObject", "image", "use", "a"} & set(names)
    for element in root.iter():
        for key, value in element.attrib.items():
            assert not key.lower().startswith("on"), key
            assert "http" not in value or key == "xmlns", value
    return ["".join(element.itertext()) for element in root.iter() if element.tag.endswith("}text")]


def test_a_picture_of_the_solid_view_is_saved(view: Reader) -> None:
    name, data = _saved(view, "Save as PNG")
    assert name == "alder-3-corner.png"
    width, height = _expect_png(data)
    box = calculator(view).locator(".hd-solid").bounding_box()
    assert box is not None
    assert abs(width - 2 * box["width"]) <= 2, "two dots for each of the page's"
    assert height > 2 * box["height"], "with the sentence beneath"
    name, data = _saved(view, "Save as SVG")
    assert name == "alder-3-corner.svg"
    words = _words(data)
    for part in PARTS:
        if part.shown:
            assert any(word.startswith(part.label) for word in words), part.label
    told = " ".join(words)
    assert oracle.run("motion")["spoken"][:50] in told
    assert "Invented figures" in told
    assert {"R1", "R2", "R3", "1", "2", "3"} <= set(words)


def test_hidden_labels_are_not_saved(view: Reader) -> None:
    put(view, "dogwood5", labels="off", view="side")
    name, data = _saved(view, "Save as SVG")
    assert name == "dogwood-5-side.svg"
    words = _words(data)
    assert words, "the sentence"
    assert "rotating ring" not in " ".join(words[:1])
    assert not {"R1", "pitch links", "pitch links turns"} & set(words)


def test_the_drawn_view_is_saved_too(make_reader: MakeReader) -> None:
    reader = make_reader()
    reader.watch.allow(LOST_ON_PURPOSE)
    reader.page.add_init_script(NO_WEBGL)
    reader.open(PAGE)
    reader.touch("motion")
    expect(calculator(reader).locator(".hd-view-note")).to_be_visible()
    _, data = _saved(reader, "Save as SVG")
    drawn: list[Any] = calculator(reader).locator("[data-part=drawing] svg text").all_text_contents()
    assert len(drawn) > 5
    assert _words(data) == drawn
    title = Xml.fromstring(data).find("{http://www.w3.org/2000/svg}title")
    assert title is not None
    assert "Invented figures" in (title.text or "")
    _, data = _saved(reader, "Save as PNG")
    _expect_png(data)


@pytest.fixture(scope="module")
def folder(site: Path, tmp_path_factory: pytest.TempPathFactory) -> str:
    """The built site on a stick: a folder with a space in its name."""
    target = tmp_path_factory.mktemp("stick") / "hand to disc"
    shutil.copytree(site, target)
    return target.as_uri() + "/"


def test_it_works_from_a_folder(make_reader: MakeReader, folder: str) -> None:
    reader = make_reader(own=folder)
    wake(reader)
    reader.enter("motion", "lever", "70")
    stands(reader, 30, lever="70")
    press(reader, "On 10°")
    stands(reader, 40, lever="70")
    _expect_png(_saved(reader, "Save as PNG")[1])
    assert all(url.startswith(("file:", "blob:", "data:", "about:")) for url in reader.watch.requests)
