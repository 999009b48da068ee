"""Drawings: well-formed, readable at 320 px, with words beside them, for every calculator, figure and head."""

import re
import xml.etree.ElementTree as ET
from dataclasses import replace
from pathlib import Path

import pytest
from rotorhead import site_figures
from rotorhead.drawing.canvas import Canvas
from rotorhead.fields import Drawing
from rotorhead.head import DEMONSTRATION, Head, demonstration
from rotorhead.head_changes import changed, mirrored
from rotorhead.mechanism.assembly import assembled
from rotorhead.run import run
from rotorhead.topics import ALL
from rotorhead.units import SYSTEMS, System

HEADS: dict[str, Head] = {i: demonstration(i) for i in DEMONSTRATION}
HEADS |= {f"{i}-mirrored": mirrored(h) for i, h in list(HEADS.items())}
SVG = "{http://www.w3.org/2000/svg}"
NARROWEST, SMALLEST = 320.0, 11.0  # px: the narrowest column a drawing is shown in, the smallest letters


@pytest.fixture(scope="module")
def sizes(root: Path) -> dict[str, float]:
    """Letter sizes by class, from the site's one stylesheet for drawings."""
    css = (root / "docs/assets/app/css/drawing.css").read_text(encoding="utf-8")
    found = re.findall(r"^\.(t(?:-\w+)?) \{[^}]*?font-size: ([0-9.]+)px", css, flags=re.MULTILINE | re.DOTALL)
    assert {"t", "t-small"} <= {name for name, _ in found}
    return {name: float(size) for name, size in found}


def judged(drawing: Drawing, sizes: dict[str, float]) -> ET.Element:
    """Every check a drawing must pass; returns the parsed SVG."""
    svg = ET.fromstring(drawing.svg)
    assert svg.tag == f"{SVG}svg"
    assert svg.get("aria-hidden") == "true"
    left, top, width, height = (float(x) for x in str(svg.get("viewBox")).split())
    assert (left, top) == (0.0, 0.0)
    shrunk = min(1.0, NARROWEST / width)
    for element in svg.iter():
        for key, value in element.attrib.items():
            assert not re.search(r"\b(nan|inf|None)\b", value), (key, value)
            assert key not in ("style", "font-size", "onclick", "href")
        if element.tag == f"{SVG}text":
            classes = str(element.get("class")).split()
            assert classes[0] == "t"
            size = min(sizes[c] for c in classes if c in sizes)
            assert size * shrunk >= SMALLEST, (element.text, size)
            assert (element.text or "").strip()
            assert not re.search(r"\b(nan|inf|None)\b", str(element.text))
            assert -0.5 <= float(str(element.get("x"))) <= width + 0.5, element.text
            assert 0.0 <= float(str(element.get("y"))) <= height + 0.5, element.text
    words = drawing.text
    assert len(words) > 20
    assert words[0].isupper()
    assert words.rstrip().endswith(".")
    assert not re.search(r"\b(nan|inf|None)\b|-\d", words)
    return svg


@pytest.mark.parametrize("system", SYSTEMS)
@pytest.mark.parametrize("name", HEADS)
@pytest.mark.parametrize("calculator", ALL)
def test_drawing_of_a_calculator(calculator: str, name: str, system: System, sizes: dict[str, float]) -> None:
    """As first shown on every head, either way round, in both systems of units."""
    case = run(ALL[calculator], {}, assembled(HEADS[name]), system)
    judged(ALL[calculator].drawing(case), sizes)


@pytest.mark.parametrize("name", HEADS)
@pytest.mark.parametrize("figure", site_figures.FIGURES)
def test_figure_of_the_pages(figure: str, name: str, sizes: dict[str, float]) -> None:
    """Figures placed between paragraphs."""
    for system in SYSTEMS:
        judged(site_figures.FIGURES[figure](assembled(HEADS[name]), system), sizes)


EXTREMES = [
    ("disc", {"lever": "100", "stick_forward": "-100", "stick_left": "-100"}),
    ("disc", {"lever": "0", "stick_forward": "0", "stick_left": "0"}),
    ("rods", {"lever": "0", "stick_forward": "100", "stick_left": "100"}),
    ("pitch", {"lever": "0", "stick_forward": "-100", "stick_left": "100", "rotor_angle": "359", "blades": "flapping"}),
    ("pitch", {"from": "pose", "height": "0", "tilt": "0"}),
    ("plate", {"from": "pose", "height": "-60", "tilt": "15", "low": "200"}),
    ("phase", {"turn_rods": "60"}),
    ("phase", {"turn_rods": "-60"}),
    ("lag", {"altitude": "5000", "warmer": "40"}),
    ("gyro", {"push": "100", "time": "5"}),
]


@pytest.mark.parametrize("name", HEADS)
@pytest.mark.parametrize(("calculator", "inputs"), EXTREMES, ids=[f"{c}-{n}" for n, (c, _) in enumerate(EXTREMES)])
def test_drawing_at_the_ends_of_the_sliders(
    calculator: str, inputs: dict[str, str], name: str, sizes: dict[str, float]
) -> None:
    """Full stick, level plate, rods turned far round."""
    case = run(ALL[calculator], inputs, assembled(HEADS[name]))
    judged(ALL[calculator].drawing(case), sizes)


@pytest.mark.parametrize("blades", [2, 8])
def test_few_and_many_blades(blades: int, sizes: dict[str, float]) -> None:
    """Two and eight blades on the same geometry."""
    rotor = assembled(changed(demonstration("alder3"), {"blades": str(blades)}))
    for calculator in ALL.values():
        judged(calculator.drawing(run(calculator, {}, rotor)), sizes)
    for figure in site_figures.FIGURES.values():
        judged(figure(rotor, "metric"), sizes)


AWKWARD = "</svg><script>alert(\"1\")</script> & <b>'x'</b>"


def test_text_is_escaped() -> None:
    """Whatever is written comes out as text, not as markup."""
    canvas = Canvas(100, 100, "bench")
    canvas.text(10, 10, AWKWARD)
    svg = ET.fromstring(canvas.svg())
    assert [e.tag for e in svg] == [f"{SVG}text"]
    assert svg[0].text == AWKWARD


def test_a_head_with_an_awkward_name(sizes: dict[str, float]) -> None:
    """A description may carry any name: no drawing lets it through as markup."""
    rotor = assembled(replace(demonstration("alder3"), name=AWKWARD, note=AWKWARD))
    for calculator in ALL.values():
        svg = judged(calculator.drawing(run(calculator, {}, rotor)), sizes)
        assert not [e for e in svg.iter() if e.tag.endswith("script")]
    for figure in site_figures.FIGURES.values():
        judged(figure(rotor, "metric"), sizes)


@pytest.mark.parametrize("name", HEADS)
def test_mirrored_roses_are_mirror_images(name: str, sizes: dict[str, float]) -> None:
    """The predict rose has its words in the same places either way: text is never mirrored."""
    mine, other = (
        judged(site_figures.FIGURES["predict-rose"](assembled(h), "metric"), sizes)
        for h in (HEADS[name], mirrored(HEADS[name]))
    )
    places = [
        {
            (e.text, e.get("x"), e.get("y"))
            for e in svg.iter(f"{SVG}text")
            if e.text in ("nose", "tail", "left", "right")
        }
        for svg in (mine, other)
    ]
    assert places[0] == places[1]
    assert len(places[0]) == 4
