"""Charts and tables of every calculator that has them: drawn values are the package's own, worked out again at their x.

Links and plate are summed here blade by blade and shared among the rods by numpy; units by their definitions.
"""

import json
import math
from collections.abc import Callable
from functools import cache
from html.parser import HTMLParser
from itertools import product
from typing import Any

import numpy as np
import pytest
from rotorhead import door
from rotorhead.conventions import TURN
from rotorhead.head import DEMONSTRATION, demonstration
from rotorhead.head_changes import mirrored
from rotorhead.loads.feather import blade_of, parts_at
from rotorhead.loads.rods import link_load
from rotorhead.mechanism.hands import rig_of
from rotorhead.mechanism.links import pitch_now
from rotorhead.rotor import Rotor, of_head
from rotorhead.topics import ALL, shake

SYSTEMS = ("metric", "imperial")
ALL_CHARTS = [c.id for c in ALL.values() if c.chart]
# Over a turn or blade counts; those over heights, speeds and weights: test_flight_topics.py.
WITH_CHART = [c.id for c in ALL.values() if c.chart and not c.page.startswith("flight/")]
HEADS = [(h, turned) for h in DEMONSTRATION for turned in (False, True)]
every_head = pytest.mark.parametrize(("base", "turned"), HEADS, ids=[f"{h}{'-mirrored' * t}" for h, t in HEADS])
# Size of one unit in SI: NIST SP 811 (from memory).
UNITS = {"N": 1.0, "lbf": 4.4482216152605, "°": math.pi / 180.0, "mm": 0.001, "in": 0.0254}
MINUS = "\N{MINUS SIGN}"
# Airspeed (kt), collective and cyclic (degrees) of the load calculators: nothing at its default.
SPEED, PITCH, CYCLIC = 47.0, 8.3, 2.7
STATE = {"speed": "47", "pitch": "8.3", "cyclic": "2.7"}
HANDS = {"lever": "65", "stick_forward": "40", "stick_left": "-30"}
INPUTS = {"link-load": STATE, "rod-load": STATE, "shake": {**STATE, "share": "35"}, "motion": HANDS}


class Page(HTMLParser):
    """Takes apart what a chart and a table are made of: the chart's data; a table's caption, heads and rows."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.chart: dict[str, Any] = {}
        self.tables: list[list[list[str]]] = []
        self.captions: list[str] = []
        self._into: list[str] | None = None
        self.feed(html)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag == "hd-chart":
            self.chart = json.loads(dict(attrs)["data-chart"] or "")
        elif tag == "table":
            self.tables.append([])
        elif tag == "tr":
            self.tables[-1].append([])
        elif tag in ("td", "th"):
            self._into = self.tables[-1][-1]
            self._into.append("")
        elif tag == "caption":
            self._into = self.captions
            self._into.append("")

    def handle_endtag(self, tag: str) -> None:
        if tag in ("td", "th", "caption"):
            self._into = None

    def handle_data(self, data: str) -> None:
        if self._into is not None:
            self._into[-1] += data


def figure(text: str) -> float:
    """A number as printed, its unit aside."""
    return float(text.split("\N{NARROW NO-BREAK SPACE}")[0].rstrip("%").replace(MINUS, "-"))


def half_a_digit(text: str) -> float:
    """Half of the last digit printed."""
    number = text.split("\N{NARROW NO-BREAK SPACE}")[0].rstrip("%")
    return 0.5 * 10.0 ** -len(number.partition(".")[2])


@cache
def rotor_of(base: str, turned: bool) -> Rotor:
    """A demonstration head, or the same turning the other way."""
    head = demonstration(base)
    return of_head(mirrored(head) if turned else head)


def asked(request: dict[str, Any]) -> dict[str, Any]:
    """The door's answer."""
    reply: dict[str, Any] = json.loads(door.answer(json.dumps(request)))
    assert reply["state"] == "result", reply
    return reply


def drawn(name: str, base: str, turned: bool, units: str, inputs: dict[str, str]) -> tuple[dict[str, Any], Page]:
    """Data of a calculator's chart and its table."""
    head = {"base": base, "mirrored": turned, "changes": {}}
    reply = asked({"op": "run", "calculator": name, "head": head, "units": units, "inputs": inputs})
    return Page(reply["parts"]["chart"]).chart, Page(reply["parts"]["table"])


def load_at(rotor: Rotor, azimuth: float) -> float:
    """Load of the link of a blade at an azimuth, in the state above: the cyclic is least on the advancing side."""
    mean, sine = math.radians(PITCH), -math.radians(CYCLIC)
    moment = parts_at(rotor, blade_of(rotor), azimuth, mean, 0.0, sine, SPEED * 1852.0 / 3600.0).total
    return link_load(rotor, moment, mean + sine * math.sin(azimuth))


def shared(rotor: Rotor, links: Callable[[float], float], blades: int, mast: float) -> np.ndarray:
    """Rod loads with blade 1 at `mast`: force and two moments of the links, shared with the least sum of squares."""
    sums = np.zeros(3)
    for k in range(blades):
        azimuth = mast + k * TURN / blades
        foot = azimuth + rotor.lead
        sums += (
            links(azimuth)
            * np.array([1.0, math.cos(foot), math.sin(foot)])
            * [1.0, rotor.ring_radius, rotor.ring_radius]
        )
    x = np.array(rotor.rod_azimuths)
    rows = np.stack([np.ones_like(x), rotor.rod_radius * np.cos(x), rotor.rod_radius * np.sin(x)])
    return np.asarray(np.linalg.pinv(rows) @ sums)


def link_lines(rotor: Rotor, x: list[float]) -> list[list[float]]:
    """The link's load where the blade stands, and its mean over the turn."""
    mean = float(np.mean([load_at(rotor, i * TURN / 840) for i in range(840)]))
    return [[load_at(rotor, math.radians(d)) for d in x], [mean] * len(x)]


def rod_lines(rotor: Rotor, x: list[float]) -> list[list[float]]:
    """Every rod's load."""
    found = [shared(rotor, lambda a: load_at(rotor, a), rotor.blades, math.radians(d)) for d in x]
    return [[float(f[i]) for f in found] for i in range(len(rotor.rod_azimuths))]


def shake_lines(rotor: Rotor, x: list[float]) -> list[list[float]]:
    """The worst rod's wave once for each blade, by FFT; the link's waves 0 to 2 its own, the rest 35 % of the last."""
    own = np.abs(np.fft.rfft([load_at(rotor, i * TURN / 840) for i in range(840)]))[:3] / 840 * [1.0, 2.0, 2.0]
    mean = float(np.mean([load_at(rotor, i * TURN / 840) for i in range(840)]))
    waves = [mean, float(own[1]), float(own[2])]
    while len(waves) <= shake.HIGHEST:
        waves.append(0.35 * waves[-1])

    def link(azimuth: float) -> float:
        return sum(a * math.cos(h * azimuth) for h, a in enumerate(waves))

    line = []
    for count in (round(n) for n in x):
        rods = np.array([shared(rotor, link, count, i * TURN / 48) for i in range(48)])
        line.append(float(np.max(np.abs(np.fft.rfft(rods, axis=0))[count]) / 24))
    return [line]


def motion_lines(rotor: Rotor, x: list[float], flap: list[float]) -> list[list[float]]:
    """Pitch of blade 1 by its closed link, for the flap the chart gives it."""
    pose = rig_of(rotor).pose(0.65, 0.4, -0.3)
    return [[pitch_now(rotor, pose, math.radians(d), 0, b) for d, b in zip(x, flap, strict=True)], flap]


@every_head
@pytest.mark.parametrize("units", SYSTEMS)
@pytest.mark.parametrize("name", WITH_CHART)
def test_chart_is_worked_out_again(name: str, units: str, base: str, turned: bool) -> None:
    """At each eleventh x and the last, every line, to the five figures a chart keeps.

    A link's mean is of equal steps round the turn; its load has few waves, so that any number of steps gives the same.
    """
    rotor = rotor_of(base, turned)
    data, _ = drawn(name, base, turned, units, INPUTS[name])
    unit = UNITS[data["y"]["unit"]]
    places = sorted({*range(0, len(data["x"]["values"]), 11 if len(data["x"]["values"]) > 20 else 1),
                     len(data["x"]["values"]) - 1})  # fmt: skip
    x = [data["x"]["values"][i] for i in places]
    lines = [[line["values"][i] * unit for i in places] for line in data["lines"]]
    if name == "motion":
        expected = motion_lines(rotor, x, lines[1])
    else:
        expected = {"link-load": link_lines, "rod-load": rod_lines, "shake": shake_lines}[name](rotor, x)
    assert len(lines) == len(expected)
    for line, again in zip(lines, expected, strict=True):
        size = max(abs(v) for v in again)
        # x itself is rounded to 1e-4 degrees: what a line climbs meanwhile, at most four waves of it.
        assert line == pytest.approx(again, rel=6e-5, abs=size * 4.0 * math.radians(5e-5))


@pytest.mark.parametrize(("base", "turned", "units"), list(product(DEMONSTRATION, (False, True), SYSTEMS)))
@pytest.mark.parametrize("name", ALL_CHARTS)
def test_table_repeats_the_chart(name: str, base: str, turned: bool, units: str) -> None:
    """Same heads and unit, from the first x to the last, each cell the chart's value to its last digit."""
    data, page = drawn(name, base, turned, units, {})
    heads, *rows = page.tables[0]
    assert heads == [data["x"]["label"], *(line["name"] for line in data["lines"])]
    assert page.captions[0].endswith(f"in {data['y']['unit']}")
    assert page.captions[0].startswith(data["title"])
    xs = [f"{v:g}" for v in data["x"]["values"]]
    places = [xs.index(row[0]) for row in rows]
    assert places == sorted(set(places))
    assert (places[0], places[-1]) == (0, len(xs) - 1)
    for row, place in zip(rows, places, strict=True):
        for text, line in zip(row[1:], data["lines"], strict=True):
            value = line["values"][place]
            assert figure(text) == pytest.approx(value, abs=half_a_digit(text) + 5.1e-5 * abs(value))


@every_head
@pytest.mark.parametrize("name", WITH_CHART)
def test_both_systems_of_units_draw_the_same(name: str, base: str, turned: bool) -> None:
    """One chart, two scales: same x, names and cursor, values by the size of their units."""
    (one, _), (other, _) = (drawn(name, base, turned, units, {}) for units in SYSTEMS)
    assert (one["x"], one["cursor"], one["title"]) == (other["x"], other["cursor"], other["title"])
    scale = UNITS[one["y"]["unit"]] / UNITS[other["y"]["unit"]]
    for a, b in zip(one["lines"], other["lines"], strict=True):
        assert (a["name"], a["role"]) == (b["name"], b["role"])
        assert [v * scale for v in a["values"]] == pytest.approx(b["values"], rel=1.1e-4, abs=1e-9)


@every_head
@pytest.mark.parametrize("name", [n for n in WITH_CHART if n != "shake"])
def test_the_turn_closes_and_the_cursor_stands_at_its_input(name: str, base: str, turned: bool) -> None:
    """0 to 360 degrees, last value the first; the cursor and the answer now belong together."""
    data, _ = drawn(name, base, turned, "metric", {"rotor_angle": "115"})
    assert (data["x"]["values"][0], data["x"]["values"][-1]) == (0.0, 360.0)
    assert all(line["values"][0] == line["values"][-1] for line in data["lines"])
    assert (data["cursor"], data["cursorField"]) == (pytest.approx(115.0), "rotor_angle")


@pytest.mark.parametrize("units", SYSTEMS)
@every_head
def test_mixing_matrix_on_the_page(base: str, turned: bool, units: str) -> None:
    """The table between the paragraphs: first-order rod moves by Rig.matrix(), and numpy's inverse of that."""
    rotor = rotor_of(base, turned)
    matrix = np.array(rig_of(rotor).matrix())
    head = {"base": base, "mirrored": turned, "changes": {}}
    reply = asked({"op": "values", "head": head, "units": units, "names": [], "figures": ["mixing-matrix"]})
    page = Page(reply["figures"]["mixing-matrix"])
    unit = "mm" if units == "metric" else "in"
    _, *rows = page.tables[0]
    assert [row[0] for row in rows] == [f"Rod {n}" for n in range(1, len(matrix) + 1)]
    for row, moves in zip(rows, matrix, strict=True):
        for text, move in zip(row[1:], moves, strict=True):
            assert text.endswith(unit)
            assert figure(text) == pytest.approx(move / UNITS[unit], abs=half_a_digit(text) * 1.0001)
    # Per 1 mm, or per tenth of an inch, of each rod alone; in percent.
    step = 0.001 if units == "metric" else 0.00254
    assert f"{'1 mm' if units == 'metric' else '0.1 in'} of each rod alone" in page.captions[1]
    _, *rows = page.tables[1]
    assert [row[0] for row in rows] == ["lever", "stick forward", "stick left"]
    for row, hands in zip(rows, np.linalg.inv(matrix), strict=True):
        for text, hand in zip(row[1:], hands, strict=True):
            assert figure(text) == pytest.approx(100.0 * step * hand, abs=half_a_digit(text) * 1.0001)
