"""The field over the disc: printed until a control is touched, then a canvas that shows what Python's one array says."""

from __future__ import annotations

import json
from typing import Any

import pytest
from playwright.sync_api import Locator, Route, expect

from . import oracle
from .conftest import MakeReader
from .disc_canvas import COLOURS, band_names, calm_places, differ, field_data, places_of
from .reader import Reader, eventually

PAGE = oracle.PAGE_OF["speed"]


def _field(reader: Reader) -> Locator:
    return reader.calculator("speed").locator("hd-field")


def _shows(reader: Reader, answer: dict[str, Any]) -> dict[str, Any]:
    wanted = field_data(answer)
    eventually(lambda: json.loads(_field(reader).get_attribute("data-field") or "null"), wanted, reader.page)
    expect(_field(reader).locator("canvas")).to_be_visible()
    return wanted


def _same_as_the_array(reader: Reader, data: dict[str, Any]) -> None:
    """The canvas has the colour of its band wherever the array is calm."""
    calm = calm_places(data)
    assert len(calm) > 40
    assert len({band for _, _, band in calm}) > 1
    width = _field(reader).locator("canvas").bounding_box()
    assert width is not None
    places, names = places_of(data, calm, width["width"]), band_names(data)

    def wrong() -> int:
        handle = _field(reader).element_handle()
        seen, bands, _ = reader.page.evaluate(COLOURS, [handle, places, names])
        return differ(seen, bands, calm)

    # A halo of a figure or a line may touch a few of them.
    eventually(lambda: wrong() <= 0.04 * len(calm), True, reader.page)


def test_the_printed_picture_stands_until_a_control_is_touched(reader: Reader) -> None:
    reader.open(PAGE)
    expect(_field(reader).locator("svg")).to_be_visible()
    expect(_field(reader).locator("canvas")).to_have_count(0)
    assert not [url for url in reader.watch.requests if "chart.js" in url]
    for word in ("nose", "right", "tail", "left"):
        expect(_field(reader).locator("svg text", has_text=word).first).to_be_attached()
    reader.enter("speed", "speed", "140")
    _shows(reader, oracle.run("speed", inputs={"speed": "140"}))
    expect(_field(reader).locator("svg")).to_have_count(0)
    expect(_field(reader).locator("canvas")).to_have_attribute(
        "aria-label", "Angle of attack over the disc; the table beneath has its values"
    )


@pytest.mark.parametrize(("base", "mirrored"), [("alder3", False), ("alder3", True), ("elder6", False)])
def test_the_canvas_is_the_array(reader: Reader, base: str, mirrored: bool) -> None:
    reader.open(PAGE, f"#speed&head={base}&mirrored={int(mirrored)}&speed=140")
    answer = oracle.run("speed", base, mirrored, "metric", {"speed": "140"})
    data = _shows(reader, answer)
    assert data["none"]["bearing"] == (270 if data["rotation"] == "anticlockwise" else 90)
    _same_as_the_array(reader, data)
    # The same array in words, for those who don't see the canvas.
    table = reader.calculator("speed").locator('[data-part="field_words"] table')
    expect(table.locator("thead th")).to_have_text(
        ["bearing", "nose", "45°", "right", "135°", "tail", "225°", "left", "315°"]
    )
    first = table.locator("tbody tr").first.locator("td").all_text_contents()
    outer = data["rows"][-1]
    assert first == [
        f"{outer[9 * k]:.1f}".replace("-", "\N{MINUS SIGN}") if outer[9 * k] is not None else "–" for k in range(8)
    ]


def test_the_canvas_takes_the_colours_of_the_theme(reader: Reader) -> None:
    reader.open(PAGE, "#speed&speed=140")
    data = _shows(reader, oracle.run("speed", inputs={"speed": "140"}))
    for scheme in ("slate", "default"):
        reader.page.evaluate("name => document.body.setAttribute('data-md-color-scheme', name)", scheme)
        _same_as_the_array(reader, data)


def test_on_paper_the_canvas_has_the_colours_of_paper(make_reader: MakeReader) -> None:
    reader = make_reader(color_scheme="dark")
    reader.open(PAGE, "#speed&speed=140")
    data = _shows(reader, oracle.run("speed", inputs={"speed": "140"}))
    _same_as_the_array(reader, data)
    reader.page.emulate_media(media="print")
    _same_as_the_array(reader, data)
    box = _field(reader).locator("canvas").bounding_box()
    assert box is not None
    assert box["width"] == pytest.approx(box["height"], abs=0.5)
    reader.page.emulate_media(media="screen")
    _same_as_the_array(reader, data)


def test_a_picked_head_has_its_field_without_python(reader: Reader) -> None:
    reader.open(PAGE)
    reader.pick_head("dogwood5")
    data = _shows(reader, oracle.run("speed", "dogwood5"))
    _same_as_the_array(reader, data)
    assert not reader.watch.runtime


def test_a_lost_library_takes_the_picture_away_and_leaves_the_table(reader: Reader) -> None:
    reader.watch.allow(r"response 404: .*chart\.js")
    reader.watch.allow("Failed to load resource")  # the browser's own line

    def lost(route: Route) -> None:
        route.fulfill(status=404, body="gone")

    reader.page.route("**/chart.js*", lost)
    reader.open(PAGE)
    reader.enter("speed", "speed", "120")
    answer = oracle.run("speed", inputs={"speed": "120"})
    reader.shows("speed", answer)
    expect(_field(reader).locator("svg, canvas")).to_have_count(0)
    reader.page.unroute_all()
    reader.enter("speed", "speed", "130")
    _same_as_the_array(reader, _shows(reader, oracle.run("speed", inputs={"speed": "130"})))


def test_on_a_telephone_without_script_the_field_is_printed_within_the_page(make_reader: MakeReader) -> None:
    reader = make_reader(viewport={"width": 360, "height": 800}, java_script_enabled=False)
    reader.open(PAGE)
    picture = _field(reader).locator("svg")
    expect(picture).to_be_visible()
    box = picture.bounding_box()
    assert box is not None
    assert box["x"] >= 0
    assert box["x"] + box["width"] <= 360
    assert box["height"] > 250
