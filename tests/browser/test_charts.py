"""Charts: the printed plot until a control is touched, then one drawn of the door's data, tied to the control both ways."""

from __future__ import annotations

import json
from html.parser import HTMLParser
from itertools import pairwise
from typing import Any

import pytest
from playwright.sync_api import Locator, Route, expect

from . import oracle
from .reader import Reader, eventually

RODS = oracle.PAGE_OF["rod-load"]
WITH_CHART = [name for name in oracle.CALCULATORS if "chart" in oracle.run(name)["parts"]]
MINUS = "\N{MINUS SIGN}"


class _Charts(HTMLParser):
    """Takes the data out of a chart's element."""

    def __init__(self) -> None:
        super().__init__()
        self.found: list[dict[str, Any]] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag == "hd-chart":
            self.found.append(json.loads(dict(attrs)["data-chart"] or ""))


def _data(answer: dict[str, Any]) -> dict[str, Any]:
    """The data of the chart in an answer of the door."""
    reading = _Charts()
    reading.feed(answer["parts"]["chart"])
    return reading.found[0]


def _chart(reader: Reader, calculator: str) -> Locator:
    return reader.calculator(calculator).locator("hd-chart")


def _shows_data(reader: Reader, calculator: str, answer: dict[str, Any]) -> dict[str, Any]:
    """Wait until a chart's data are those of the answer; then give them."""
    wanted = _data(answer)
    chart = _chart(reader, calculator)
    eventually(lambda: json.loads(chart.get_attribute("data-chart") or "null"), wanted, reader.page)
    return wanted


# Columns of the plot painted in the cursor's colour for more than half of their height (it may be dashed, and lines cross
# it; no other line stands so upright), as places from 0 to 1 of its width. Read from a copy: reading the chart's own
# canvas again and again makes the browser warn.
CURSOR = """chart => {
  const canvas = chart.querySelector("canvas");
  const over = chart.querySelector(".u-over").getBoundingClientRect();
  const on = canvas.getBoundingClientRect();
  const scale = canvas.width / on.width;
  const [left, top, width, height] = [over.left - on.left, over.top - on.top, over.width, over.height].map(x => Math.round(x * scale));
  const copy = Object.assign(document.createElement("canvas"), { width: width + 4, height });
  const context = copy.getContext("2d", { willReadFrequently: true });
  context.fillStyle = getComputedStyle(chart).getPropertyValue("--hd-hand").trim();
  context.fillRect(0, 0, 1, 1);
  const [r, g, b] = context.getImageData(0, 0, 1, 1).data;
  context.clearRect(0, 0, 1, 1);
  context.drawImage(canvas, 2 - left, -top);
  const { data } = context.getImageData(0, 0, width + 4, height);
  const found = [];
  for (let x = 0; x < width + 4; x += 1) {
    let same = 0;
    for (let y = 0; y < height; y += 1) {
      const at = 4 * (y * (width + 4) + x);
      if (data[at + 3] > 100 && Math.abs(data[at] - r) + Math.abs(data[at + 1] - g) + Math.abs(data[at + 2] - b) < 60) same += 1;
    }
    if (same > 0.5 * height) found.push((x - 2) / width);
  }
  return found;
}"""


def _cursor_stands_at(reader: Reader, chart: Locator, place: float) -> None:
    """Wait until the line across the plot stands there: 0 at its left edge, 1 at its right."""

    def near() -> bool:
        columns: list[float] = chart.evaluate(CURSOR)
        return bool(columns) and all(abs(column - place) < 0.012 for column in columns)

    eventually(near, True, reader.page)


def _figures(text: str) -> float:
    return float(text.split()[0].replace(MINUS, "-"))


def _legend_says(chart: Locator, data: dict[str, Any], index: int) -> None:
    """Point at a place on x: the legend gives the values the drawn chart holds there."""
    over = chart.locator(".u-over")
    box = over.bounding_box()
    assert box is not None
    xs = data["x"]["values"]
    # The x axis runs from the first value to the last.
    place = (xs[index] - xs[0]) / (xs[-1] - xs[0])
    over.hover(position={"x": max(1.0, min(box["width"] - 1, place * box["width"])), "y": box["height"] / 2})
    expect(chart.locator(".u-legend .u-series .u-value").first).to_have_text(f"{xs[index]:.4g}".replace("-", MINUS))
    said = chart.locator(".u-legend .u-series .u-value").all_inner_texts()[1:]
    assert len(said) == len(data["lines"])
    for text, line in zip(said, data["lines"], strict=True):
        assert _figures(text) == pytest.approx(line["values"][index], rel=5.1e-4, abs=1e-9), "four figures"
        assert text.endswith(data["y"]["unit"])


def _table_says(reader: Reader, calculator: str, data: dict[str, Any]) -> None:
    """Every row of the table repeats a point of the chart, as exactly as it is printed."""
    table = reader.calculator(calculator).locator('[data-part="table"] table')
    heads = table.locator("thead th").all_text_contents()
    assert heads == [data["x"]["label"], *(line["name"] for line in data["lines"])]
    rows: list[list[str]] = table.locator("tbody tr").evaluate_all(
        "rows => rows.map(row => [...row.children].map(cell => cell.textContent))"
    )
    xs = [float(f"{x:g}") for x in data["x"]["values"]]
    places = [xs.index(float(row[0])) for row in rows]
    assert places[0] == 0
    assert places[-1] == len(xs) - 1
    assert all(a < b for a, b in pairwise(places))
    for row, place in zip(rows, places, strict=True):
        for text, line in zip(row[1:], data["lines"], strict=True):
            last = 10.0 ** -len(text.partition(".")[2])
            # Data are rounded to five figures, the table to its decimals.
            value = line["values"][place]
            assert abs(_figures(text) - value) <= 0.5 * last + 6e-5 * abs(value) + 1e-12


@pytest.mark.parametrize("name", WITH_CHART)
def test_the_printed_plot_stands_until_a_control_is_touched(reader: Reader, name: str) -> None:
    # Chromium's own word about drawing in three dimensions without a graphics card.
    reader.watch.allow("GL Driver Message .*GPU stall due to ReadPixels")
    reader.open(oracle.PAGE_OF[name])
    chart = _chart(reader, name)
    expect(chart.locator("svg")).to_be_visible()
    expect(chart.locator("canvas")).to_have_count(0)
    data = _shows_data(reader, name, oracle.run(name))
    _table_says(reader, name, data)
    assert not [url for url in reader.watch.requests if "chart.js" in url]
    reader.touch(name)
    reader.state(name, "live")
    expect(chart.locator("canvas")).to_be_visible()
    expect(chart.locator("svg")).to_have_count(0)
    names = chart.locator(".u-legend .u-series .u-label").all_text_contents()
    assert names == [data["x"]["label"], *(line["name"] for line in data["lines"])]
    for index in (0, len(data["x"]["values"]) // 3, len(data["x"]["values"]) - 1):
        _legend_says(chart, data, index)


@pytest.fixture
def rods(live: Reader) -> Reader:
    """The page on the rods' loads with Python running and nothing set."""
    if RODS not in live.page.url:
        live.open(RODS)
        live.touch("rod-load")
        live.state("rod-load", "live")
    live.page.evaluate("location.hash = '#rod-load&head=alder3'")
    live.shows("rod-load", oracle.run("rod-load"))
    return live


@pytest.mark.parametrize("angle", ["0", "90", "235", "360"])
def test_the_line_across_the_chart_follows_the_rotor_angle(rods: Reader, angle: str) -> None:
    slider = rods.slider("rod-load", "rotor_angle")
    slider.fill(angle)
    rods.shows("rod-load", oracle.run("rod-load", inputs={"rotor_angle": angle}))
    chart = _chart(rods, "rod-load")
    _cursor_stands_at(rods, chart, float(angle) / 360.0)
    slider.press("ArrowLeft")
    slider.press("ArrowLeft")
    at = float(slider.input_value())
    assert at == max(0.0, float(angle) - 10.0)
    rods.shows("rod-load", oracle.run("rod-load", inputs={"rotor_angle": f"{at:g}"}))
    _cursor_stands_at(rods, chart, at / 360.0)


@pytest.mark.parametrize("name", ["link-load", "rod-load"])
@pytest.mark.parametrize("place", [0.125, 0.7])
def test_a_tap_on_the_chart_sets_the_rotor_angle(rods: Reader, name: str, place: float) -> None:
    if rods.calculator(name).get_attribute("data-state") != "live":
        rods.touch(name)
        rods.state(name, "live")
    over = _chart(rods, name).locator(".u-over")
    box = over.bounding_box()
    assert box is not None
    over.click(position={"x": place * box["width"], "y": box["height"] / 3})
    field = rods.text_box(name, "rotor_angle")
    one_pixel = 360.0 / box["width"]
    eventually(lambda: abs(float(field.input_value()) - place * 360.0) <= 0.5 + one_pixel, True, rods.page)
    angle = field.input_value()
    rods.shows(name, oracle.run(name, inputs={"rotor_angle": angle}))
    _cursor_stands_at(rods, _chart(rods, name), float(angle) / 360.0)
    assert f"rotor_angle={angle}" in rods.page.url


@pytest.mark.parametrize(("base", "mirrored", "units"), [("elder6", False, "metric"), ("cedar4", True, "imperial")])
def test_the_chart_follows_the_head_and_the_units(rods: Reader, base: str, mirrored: bool, units: str) -> None:
    turned, system = f"&mirrored={int(mirrored)}", f"&units={units}"
    rods.page.evaluate("hash => { location.hash = hash; }", f"#rod-load&head={base}{turned}{system}&rotor_angle=40")
    answer = oracle.run("rod-load", base, mirrored, units, {"rotor_angle": "40"})
    rods.shows("rod-load", answer)
    data = _shows_data(rods, "rod-load", answer)
    chart = _chart(rods, "rod-load")
    _table_says(rods, "rod-load", data)
    expect(chart.locator(".u-legend .u-series")).to_have_count(len(data["lines"]) + 1)
    _legend_says(chart, data, len(data["x"]["values"]) // 2)
    expect(rods.calculator("rod-load").locator('[data-part="table"] caption')).to_contain_text(data["y"]["unit"])


def test_a_picked_head_has_its_chart_without_python(reader: Reader) -> None:
    reader.open(RODS)
    reader.pick_head("dogwood5")
    for name in ("link-load", "rod-load"):
        answer = oracle.run(name, "dogwood5")
        reader.shows(name, answer)
        data = _shows_data(reader, name, answer)
        expect(_chart(reader, name).locator("canvas")).to_be_visible()
        _legend_says(_chart(reader, name), data, 10)
    assert not reader.watch.runtime


def _without_the_library(reader: Reader) -> None:
    """The page on the rods' loads, from a server that has lost the chart library."""
    reader.watch.allow(r"response 404: .*chart\.js")
    reader.watch.allow("Failed to load resource")  # the browser's own line

    def lost(route: Route) -> None:
        route.fulfill(status=404, body="gone")

    reader.page.route("**/chart.js*", lost)
    reader.open(RODS)


def test_a_lost_chart_library_leaves_table_and_page_at_work(reader: Reader) -> None:
    _without_the_library(reader)
    reader.enter("rod-load", "speed", "20")
    reader.state("rod-load", "live")
    answer = oracle.run("rod-load", inputs={"speed": "20"})
    reader.shows("rod-load", answer)
    _table_says(reader, "rod-load", _data(answer))
    chart = _chart(reader, "rod-load")
    expect(chart.locator("canvas")).to_have_count(0)
    # Found again, it is drawn with the next answer.
    reader.page.unroute_all()
    reader.enter("rod-load", "speed", "30")
    _shows_data(reader, "rod-load", oracle.run("rod-load", inputs={"speed": "30"}))
    expect(chart.locator("canvas")).to_be_visible()


def test_a_lost_chart_library_takes_the_printed_plot_away(reader: Reader) -> None:
    _without_the_library(reader)
    reader.enter("rod-load", "speed", "20")
    reader.shows("rod-load", oracle.run("rod-load", inputs={"speed": "20"}))
    # The printed plot is of other figures than those around it now.
    expect(_chart(reader, "rod-load").locator("svg")).to_be_hidden(timeout=3000)


def test_a_live_chart_fits_a_phone(phone: Reader) -> None:
    phone.open(RODS, "#rod-load&rotor_angle=90")
    phone.state("rod-load", "live")
    chart = _chart(phone, "rod-load")
    expect(chart.locator("canvas")).to_be_visible()
    box = chart.locator("canvas").bounding_box()
    assert box is not None
    assert box["x"] >= 0
    assert box["x"] + box["width"] <= 360
    assert phone.page.evaluate("document.documentElement.scrollWidth") <= 360
    _cursor_stands_at(phone, chart, 0.25)
