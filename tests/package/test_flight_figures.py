"""Figures of the flight pages: the calculators' numbers, the right side, the right end of the disc low, all on the sheet."""

import math
import re
import xml.etree.ElementTree as ET
from functools import cache
from itertools import combinations
from pathlib import Path

import pytest
from rotorhead import derived
from rotorhead.conventions import advancing_side, after_side, before_side
from rotorhead.fields import Case
from rotorhead.head import DEMONSTRATION, Head, demonstration
from rotorhead.head_changes import mirrored
from rotorhead.rotor import Rotor, of_head
from rotorhead.run import run
from rotorhead.site_figures import FIGURES
from rotorhead.topics import ALL
from rotorhead.units import KNOT_M_PER_S, SYSTEMS, System, show

SVG = "{http://www.w3.org/2000/svg}"
HEADS: dict[str, Head] = {i: demonstration(i) for i in DEMONSTRATION}
HEADS |= {f"{i}-mirrored": mirrored(h) for i, h in list(HEADS.items())}
NAMES = ("flap-back", "inflow-roll", "two-sides", "sideways-balance", "tail-rotor-head", "low-g")
# The narrowest column of a page that a reader sees on a phone of 320 px, and the smallest letters there.
COLUMN, SMALLEST = 288.0, 11.0
# Wider than the letters of any usual sans are on the average, over their size.
LETTER = 0.57
Box = tuple[float, float, float, float]
Point = tuple[float, float]

every_head = pytest.mark.parametrize("name", HEADS)
every_system = pytest.mark.parametrize("system", SYSTEMS)


@cache
def rotor_of(name: str) -> Rotor:
    return of_head(HEADS[name])


@cache
def drawn(figure: str, name: str, system: System = "metric") -> tuple[ET.Element, str]:
    """The parsed drawing and its words."""
    drawing = FIGURES[figure](rotor_of(name), system)
    return ET.fromstring(drawing.svg), drawing.text


@cache
def asked(calculator: str, name: str, **inputs: str) -> Case:
    return run(ALL[calculator], inputs, rotor_of(name), "metric")


def written(svg: ET.Element) -> list[str]:
    return [str(e.text) for e in svg.iter(f"{SVG}text")]


def lines(svg: ET.Element, role: str) -> list[tuple[Point, Point]]:
    """Straight lines whose class is exactly this."""
    found = [e for e in svg.iter(f"{SVG}line") if e.get("class") == role]
    return [
        ((float(e.attrib["x1"]), float(e.attrib["y1"])), (float(e.attrib["x2"]), float(e.attrib["y2"]))) for e in found
    ]


def disc_edge_on(svg: ET.Element, inside: Box) -> tuple[Point, Point]:
    """The longest line of the disc in a part of the sheet: left end, right end."""
    left, top, right, bottom = inside
    ends = [
        (min(a, b), max(a, b))
        for a, b in lines(svg, "r-disc")
        if all(left <= x <= right and top <= y <= bottom for x, y in (a, b))
    ]
    return max(ends, key=lambda e: math.dist(*e))


@pytest.fixture(scope="module")
def sizes(root: Path) -> dict[str, float]:
    """Letter sizes by class, from the site's one stylesheet for drawings."""
    css = (root / "docs/assets/app/css/drawing.css").read_text(encoding="utf-8")
    found = re.findall(r"^\.(t(?:-\w+)?) \{[^}]*?font-size: ([0-9.]+)px", css, flags=re.MULTILINE | re.DOTALL)
    return {name: float(size) for name, size in found}


def box_of(text: ET.Element, sizes: dict[str, float]) -> Box:
    """About what a text covers: left, top, right, bottom."""
    size = min(sizes[c] for c in str(text.get("class")).split() if c in sizes)
    wide = LETTER * size * len(str(text.text))
    x, y = float(text.attrib["x"]), float(text.attrib["y"])
    left = x - {"start": 0.0, "middle": 0.5, "end": 1.0}[str(text.get("text-anchor"))] * wide
    return left, y - 0.75 * size, left + wide, y + 0.2 * size


def reach(element: ET.Element) -> list[Point]:
    """Places that bound a line, circle, rectangle or path of absolute commands."""
    a = element.attrib
    if element.tag == f"{SVG}circle":
        x, y, r = float(a["cx"]), float(a["cy"]), float(a["r"])
        return [(x - r, y - r), (x + r, y + r)]
    if element.tag == f"{SVG}rect":
        x, y = float(a["x"]), float(a["y"])
        return [(x, y), (x + float(a["width"]), y + float(a["height"]))]
    if element.tag == f"{SVG}line":
        return [(float(a["x1"]), float(a["y1"])), (float(a["x2"]), float(a["y2"]))]
    if element.tag == f"{SVG}path":
        places = re.sub(r"A[\d.]+ [\d.]+ 0 [01] [01] ", "L", a["d"])
        numbers = [float(n) for n in re.findall(r"-?[\d.]+", places)]
        return list(zip(numbers[::2], numbers[1::2], strict=True))
    return []


@every_system
@every_head
@pytest.mark.parametrize("figure", NAMES)
def test_all_on_the_sheet(figure: str, name: str, system: System, sizes: dict[str, float]) -> None:
    """Nothing outside the sheet, no words over words, none smaller than 11 px on a phone; and it has its words."""
    svg, text = drawn(figure, name, system)
    _, _, width, height = (float(x) for x in str(svg.get("viewBox")).split())
    for element in svg:
        for x, y in reach(element):
            assert 0.0 <= x <= width, ET.tostring(element)
            assert 0.0 <= y <= height, ET.tostring(element)
    boxes = []
    for element in svg.iter(f"{SVG}text"):
        box = box_of(element, sizes)
        assert box[0] >= 0.0, element.text
        assert box[1] >= 0.0, element.text
        assert box[2] <= width, element.text
        assert box[3] <= height, element.text
        size = min(sizes[c] for c in str(element.get("class")).split() if c in sizes)
        assert size * COLUMN / width >= SMALLEST, element.text
        boxes.append((element.text, box))
    for (one, a), (other, b) in combinations(boxes, 2):
        beside = min(a[2], b[2]) <= max(a[0], b[0]) or min(a[3], b[3]) <= max(a[1], b[1])
        assert beside, f"“{one}” over “{other}”"
    assert rotor_of(name).rotation in text or figure == "low-g"
    assert text.endswith(".")


@every_head
def test_flap_back(name: str) -> None:
    """The page's angle; the disc high over the nose, which is on the left; the lag from the advancing side on."""
    rotor, (svg, text) = rotor_of(name), drawn("flap-back", name)
    back = show("angle", asked("speed", name).result("held_back"), "metric")
    lag = show("angle", derived.figures(rotor)["lag"].value, "metric", 1)
    assert f"leaned back by {back} " in text
    assert f"{back} back" in written(svg)
    assert lag in written(svg)
    assert f"straight out on the {advancing_side(rotor.rotation)}," in text
    assert f"highest {lag} later" in text
    left, right = disc_edge_on(svg, (0.0, 0.0, 320.0, 150.0))
    assert left[1] < right[1]
    # The words of the pushed-up side stand on that side of the sheet.
    place = next(e for e in svg.iter(f"{SVG}text") if e.text == "most air:")
    assert (float(place.attrib["x"]) > 160.0) == (advancing_side(rotor.rotation) == "right")


@every_system
@every_head
def test_inflow_roll(name: str, system: System) -> None:
    """Downwash at the two edges by Glauert's relation and the calculator's gradient; down on the advancing side."""
    rotor, (svg, text) = rotor_of(name), drawn("inflow-roll", name, system)
    assert f"low on the {advancing_side(rotor.rotation)}" in text
    assert f" to the {advancing_side(rotor.rotation)} (" in text
    left, right = disc_edge_on(svg, (170.0, 230.0, 320.0, 330.0))
    low = right if left[1] < right[1] else left
    assert (low[0] > 236.0) == (advancing_side(rotor.rotation) == "right")
    said = re.search(
        r"is ([\d.]+)\S+ at the front edge and ([\d.]+)\S+ at the rear", text.replace("\N{NARROW NO-BREAK SPACE}", "|")
    )
    assert said
    front, rear = float(said[1]), float(said[2])
    kx = asked("speed", name, speed="20").result("gradient")
    assert (rear - front) / (rear + front) == pytest.approx(kx, abs=0.12 / (rear + front))
    # H. Glauert, ARC R&M 1111, in the form of the page: v/v_h = √(√(x⁴/4 + 1) − x²/2); the disc's own lean is left out of it.
    hover = math.sqrt(rotor.weight / (2.0 * 1.225 * math.pi * rotor.radius**2))
    x = 20.0 * KNOT_M_PER_S / hover
    mean = hover * math.sqrt(math.sqrt(x**4 / 4.0 + 1.0) - x * x / 2.0) / (1.0 if system == "metric" else 0.3048)
    assert (front + rear) / 2.0 == pytest.approx(mean, rel=0.01, abs=0.06)
    arrows = [(a[0], b[1] - a[1]) for a, b in lines(svg, "r-structure blade") if a[0] == b[0] and a[1] < 70.0]
    assert len(arrows) == 8
    assert sorted(arrows) == sorted(arrows, key=lambda arrow: arrow[1])


def test_inflow_lean_of_a_central_hinge() -> None:
    """The page's formula, textbooks: k λi / (1 + μ²/2) down on the advancing side, hinge at the mast, here 1.01°."""
    rotor, flown = rotor_of("birch2"), asked("speed", "birch2", speed="20")
    mu, kx = flown.result("mu"), flown.result("gradient")
    induced = flown.answer.details.air.induced
    said = re.search(r"leans the disc by ([\d.]+)°", drawn("inflow-roll", "birch2")[1])
    assert said
    assert rotor.hinge == 0.0
    assert float(said[1]) == pytest.approx(math.degrees(kx * induced / (1.0 + mu * mu / 2.0)), abs=0.06)


@every_system
@every_head
def test_two_sides(name: str, system: System) -> None:
    """The page's airspeeds, Mach number, angle and circle; arrows as long as the air is fast, each on its side."""
    rotor, (svg, text), at = rotor_of(name), drawn("two-sides", name, system), asked("speed", name).result
    words = written(svg)
    for one in (
        show("speed", at("advancing"), system), show("speed", at("retreating"), system), f"Mach {at('tip_mach'):.2f}",
        f"angle {show('angle', at('alpha_retreating'), system)}", f"air from behind: {show('length', at('reversed'), system)} across",
        f"side, {advancing_side(rotor.rotation)}", f"side, {after_side(rotor.rotation)}",
    ):  # fmt: skip
        assert one in words
        assert one.split(": ")[-1].removeprefix("side, ").removeprefix("angle ") in text
    # A line and its arrow head, 9 px, reach the blade: 3 px short of it.
    long, short = (
        max(abs(b[1] - a[1]) + 9.0 for a, b in lines(svg, "r-structure") if a[0] == pytest.approx(160.0 + side * 86.0))
        for side in ((1.0, -1.0) if advancing_side(rotor.rotation) == "right" else (-1.0, 1.0))
    )
    assert long / short == pytest.approx(at("advancing") / at("retreating"), rel=0.005)
    circle = next(e for e in svg.iter(f"{SVG}circle") if e.get("class") == "r-structure mark")
    assert float(circle.attrib["r"]) / 86.0 == pytest.approx(at("mu") / 2.0, abs=0.001)
    assert (float(circle.attrib["cx"]) > 160.0) == (after_side(rotor.rotation) == "right")


@every_system
@every_head
def test_sideways_balance(name: str, system: System) -> None:
    """The page's push, lean and bank with their sides; the disc's low end on the side of the lean."""
    (svg, text), stick = drawn("sideways-balance", name, system), asked("stick", name)
    said, words = stick.answer.results, written(svg)
    push = show("force", stick.result("hover_tail"), system)
    lean = show("angle", stick.result("hover_lean"), system)
    assert f"tail rotor pushes {push} to the {said['drift_side']}" in words
    assert f"disc leans {lean} to the {said['hover_lean_side']}" in words
    assert f"fuselage hangs {said['hover_bank_words']}" in words
    assert f"pushes with {push} to the {said['drift_side']}" in text
    assert f"by {lean} to the {said['hover_lean_side']}" in text
    assert f"hangs {said['hover_bank_words']}" in text
    left, right = disc_edge_on(svg, (0.0, 60.0, 320.0, 180.0))
    low = right if left[1] < right[1] else left
    assert (low[0] > 160.0) == (said["hover_lean_side"] == "right")
    # Drawn as many times as large as it says.
    slope = math.degrees(math.atan2(abs(right[1] - left[1]), right[0] - left[0]))
    times = int(re.findall(r"drawn (\d) times", text)[0])
    assert slope == pytest.approx(times * math.degrees(stick.result("hover_lean")), abs=0.1)


@every_head
def test_tail_rotor_head(name: str) -> None:
    """The pedal on the retreating side asks for more push, which goes to the advancing side; no number of a machine."""
    rotor, (svg, text) = rotor_of(name), drawn("tail-rotor-head", name)
    assert f"the {after_side(rotor.rotation)} pedal forward" in text
    assert f"more push to the {before_side(rotor.rotation)}" in text
    assert "invented" in text
    assert not re.search(r"\d", text + "".join(written(svg)))
    pedals = [reach(e)[0] for e in svg.iter(f"{SVG}rect") if e.get("class") == "r-hand fill"]
    forward = min(pedals, key=lambda p: p[1])
    back = max(pedals, key=lambda p: p[1])
    assert (forward[0] > back[0]) == (after_side(rotor.rotation) == "right")


@every_system
@every_head
def test_low_g(name: str, system: System) -> None:
    """The page's moments at 1 g, half a g and 0 g, and their parts."""
    svg, text = drawn("low-g", name, system)
    words = written(svg)
    for load, result, title in (("1", "one", "1 g"), ("0.5", "half", "half a g"), ("0", "none", "0 g")):
        case = asked("control-power", name, load_factor=load)
        whole = case.result(result)
        assert case.result("total") == whole
        said = "nothing" if whole == 0.0 else show("moment_per_angle", whole, system)
        assert f"{said} at {title}" in text
        row = words[words.index(title) :]
        for part, key in (("thrust", "thrust"), ("hub", "hub"), ("both", "total")):
            value = case.result(key)
            shown = (
                "nothing"
                if value == 0.0
                else show("moment_per_angle", value, system).split("\N{NARROW NO-BREAK SPACE}")[0]
            )
            assert row[row.index(part) + 1] == shown
    hubs = [e for e in svg.iter(f"{SVG}path") if e.get("class") == "r-pitch fill"]
    assert len(hubs) == (0 if asked("control-power", name).result("hub") == 0.0 else 3)


@pytest.mark.parametrize("name", DEMONSTRATION)
@pytest.mark.parametrize("figure", ["two-sides", "sideways-balance", "tail-rotor-head"])
def test_mirror_images(figure: str, name: str) -> None:
    """The head turned the other way: every straight line in the mirror, the same words but for left and right."""
    mine, other = (drawn(figure, n)[0] for n in (name, f"{name}-mirrored"))

    def places(svg: ET.Element, *, turned: bool) -> list[tuple[str, Point, Point]]:
        found = []
        for e in svg.iter(f"{SVG}line"):
            ends = sorted((round(320.0 - x if turned else x, 1), y) for x, y in reach(e))
            found.append((str(e.get("class")), ends[0], ends[1]))
        return sorted(found)

    assert places(mine, turned=False) == places(other, turned=True)
    swapped = [re.sub("left|right", lambda m: {"left": "right", "right": "left"}[m[0]], w) for w in written(other)]
    assert sorted(written(mine)) == sorted(swapped)
