"""The sketches that say what is measured from where: every figure of every head, on its sheet, to scale, in words.

Lengths are read back from the arrow heads in the SVG and compared with the head's own figures, not with the drawing's code.
"""

import math
import re
import xml.etree.ElementTree as ET
from dataclasses import replace
from functools import cache
from itertools import combinations

import pytest
from rotorhead.drawing.dimensions import HOW, dimension, how_key, label_of, value_of
from rotorhead.fields import Drawing
from rotorhead.head import DEMONSTRATION, Head, Rod, demonstration
from rotorhead.head_changes import changed, mirrored
from rotorhead.head_figures import BY_KEY, FIGURES, OPTION_BY_KEY, ROD_BEARING, ROD_STROKE, RODS_COUNT
from rotorhead.rotor import of_head
from rotorhead.units import SYSTEMS

HEADS: dict[str, Head] = {i: demonstration(i) for i in DEMONSTRATION}
HEADS |= {f"{i}-mirrored": mirrored(h) for i, h in list(HEADS.items())}
HEADS["eight-blades-six-rods"] = changed(
    demonstration("dogwood5"),
    {
        "blades": "8",
        "rods.count": "6",
        "mixing_turn_deg": "-40",
        "drive_scissors_ahead_deg": "-150",
        "hinge_offset": "0.25",
    },
)
# Beyond what any rotor has: a drawing beside a field must stand whatever is typed there.
HEADS["far-out"] = replace(
    demonstration("cedar4"),
    figures=tuple(
        (k, {"twist_deg": -25.0, "precone_deg": -5.0, "collective_high_deg": 45.0, "collective_low_deg": -15.0,
             "cyclic_fore_aft_deg": 25.0, "lever_travel_mm": 800.0, "stick_travel_mm": 800.0, "chord_m": 1.5,
             "chordwise_radius_of_gyration_m": 0.6, "thickness_radius_of_gyration_m": 0.3, "actuators": 8.0, "drag_area_m2": 30.0,
             "mast_above_cg_m": 6.0, "link_foot_out_mm": -50.0, "horn_station_mm": -60.0, "link_mm": 40.0, "radius_m": 1.0,
             "drive_scissors_ring_arm_mm": 20.0, "stationary_scissors_height_mm": 2000.0, "rod_radius_mm": 1500.0}.get(k, v))
        for k, v in demonstration("cedar4").figures
    ),
    rods=(Rod(0.0, 800.0), Rod(118.0, 5.0), Rod(360.0, 40.0)),
)  # fmt: skip
SVG = "{http://www.w3.org/2000/svg}"
WIDTH, HEIGHT, MARGIN = 340.0, 300.0, 2.0
Point = tuple[float, float]
every_head = pytest.mark.parametrize("name", HEADS)


@cache
def drawn(name: str, key: str) -> Drawing:
    """A sketch in metric units."""
    return dimension(of_head(HEADS[name]), key, "metric")


def numbers(text: str) -> list[float]:
    """All numbers of a path."""
    return [float(x) for x in re.findall(r"-?\d+(?:\.\d+)?", text)]


def corners(item: ET.Element) -> list[Point]:
    """Points an element of these sketches goes through; an arc's by its ends and its middle."""
    a = {k: float(v) for k, v in item.attrib.items() if re.fullmatch(r"-?\d+(\.\d+)?", v)}
    match item.tag.removeprefix(SVG):
        case "line":
            return [(a["x1"], a["y1"]), (a["x2"], a["y2"])]
        case "circle":
            return [(a["cx"] + dx * a["r"], a["cy"] + dy * a["r"]) for dx, dy in ((1, 0), (-1, 0), (0, 1), (0, -1))]
        case "rect":
            return [(a["x"], a["y"]), (a["x"] + a["width"], a["y"] + a["height"])]
        case "text":
            return [(a["x"], a["y"])]
        case "path":
            d = str(item.get("d"))
            if "A" not in d:
                found = numbers(d)
                return list(zip(found[::2], found[1::2], strict=True))
            x1, y1, r, _, _, large, sweep, x2, y2 = numbers(d)
            half = math.hypot(x2 - x1, y2 - y1) / 2.0
            rise = r - math.copysign(math.sqrt(max(r * r - half * half, 0.0)), 1.0 - 2.0 * large)
            # Clockwise on the page, the arc bulges to the left of the way from end to end.
            side = (1.0 if sweep else -1.0) / max(2.0 * half, 1e-9)
            bulge = ((x1 + x2) / 2.0 + rise * side * (y2 - y1), (y1 + y2) / 2.0 - rise * side * (x2 - x1))
            return [(x1, y1), (x2, y2), bulge]
    return []


def items(drawing: Drawing, role: str = "") -> list[ET.Element]:
    """Elements of a sketch, of a class when one is given."""
    return [e for e in ET.fromstring(drawing.svg).iter() if not role or role in str(e.get("class")).split()]


def said(drawing: Drawing) -> str:
    """All that is written on a sketch."""
    return " ".join(str(e.text) for e in items(drawing, "t"))


def tips(drawing: Drawing) -> list[Point]:
    """Points of the dimension's arrow heads: the first corner of each filled triangle."""
    heads = [e for e in items(drawing, "fill") if e.tag == f"{SVG}path" and "r-hand" in str(e.get("class"))]
    return [corners(e)[0] for e in heads]


def extent(name: str, key: str) -> float:
    """How far apart the two arrow heads of a dimension stand, px."""
    a, b = tips(drawn(name, key))
    return math.hypot(b[0] - a[0], b[1] - a[1])


def test_a_sentence_for_every_key_and_no_other() -> None:
    """HOW covers the declarations, rods without their number; sentences are whole and say nothing twice."""
    rods = {f"rods.{part.key}" for part in (ROD_BEARING, ROD_STROKE)}
    assert set(HOW) == OPTION_BY_KEY.keys() | {f.key for f in FIGURES} | {RODS_COUNT.key} | rods
    assert len(set(HOW.values())) == len(HOW)
    for sentence in HOW.values():
        assert re.fullmatch(r"[A-Z][^.]*(?:\.\d[^.]*)*\.", sentence), sentence
        assert ": " in sentence
        # Words of a page about what to do to a machine: they belong beside the cautions, not here.
        assert not re.search(r"\b(climb|open|remove|loosen|switch|start the|turn on|disconnect)\b", sentence.lower())


@every_head
def test_every_key_draws_on_its_sheet(name: str) -> None:
    """340 by 300, every coordinate a number at least 2 from the edge, in either system of units."""
    rotor = of_head(HEADS[name])
    for key in HEADS[name].keys():  # noqa: SIM118 - a head is no mapping
        for system in SYSTEMS:
            drawing = dimension(rotor, key, system)
            assert not re.search(r"\b(nan|inf|None)\b", drawing.svg + drawing.text), key
            assert items(drawing)[0].get("viewBox") == "0 0 340 300"
            for item in items(drawing):
                for x, y in corners(item):
                    assert MARGIN <= x <= WIDTH - MARGIN, (key, item.attrib, item.text)
                    assert MARGIN <= y <= HEIGHT - MARGIN, (key, item.attrib, item.text)


@every_head
def test_label_and_value_stand_on_it_once_and_no_others(name: str) -> None:
    """The figure's label and value are written, once; no other figure's label is; words beside it say both."""
    head = HEADS[name]
    labels = {k: label_of(k) for k in head.keys()}  # noqa: SIM118 - a head is no mapping
    for key, label in labels.items():
        drawing = drawn(name, key)
        written, value = said(drawing), value_of(head, key, "metric")
        assert written.count(label) == 1, key
        declared = OPTION_BY_KEY[key].label if key in OPTION_BY_KEY else BY_KEY[key].label
        assert declared in written, key
        strong = " ".join(str(e.text) for e in items(drawing, "t-strong") if "t-hand" in str(e.get("class")))
        assert strong.startswith(value), (key, strong)
        assert strong == value or key in ("hinge_offset", "root_cut"), (key, strong)
        others = [other for k, other in labels.items() if k != key and other not in label and len(other) > 12]
        assert not [other for other in others if other in written], key
        assert drawing.text.startswith(HOW[how_key(key)])
        assert drawing.text.endswith(f"{value}.")


@every_head
def test_texts_keep_clear_of_one_another(name: str) -> None:
    """Baselines 13 px apart, or texts side by side (6.8 px a letter is more than a plain sans takes; common practice, no
    source); nothing smaller than the small class."""
    for key in HEADS[name].keys():  # noqa: SIM118 - a head is no mapping
        texts = [(str(e.text), *corners(e)[0]) for e in items(drawn(name, key), "t")]
        for (one, x, y), (other, a, b) in combinations(texts, 2):
            assert abs(y - b) > 12.9 or abs(x - a) > 3.4 * (len(one) + len(other)), (key, one, other)
        for words, x, _ in texts:
            assert 3.4 * len(words) <= min(x, WIDTH - x), (key, words)


@every_head
def test_one_dimension_only_in_the_hands_role(name: str) -> None:
    """Something is in the hand's role on every sketch, and on those of a single length it has one pair of arrow heads."""
    single = [k for k in HEADS[name].keys() if k.endswith("_mm") and not k.startswith("rods")]  # noqa: SIM118
    for key in HEADS[name].keys():  # noqa: SIM118 - a head is no mapping
        none_to_count = key == "actuators" and HEADS[name]["actuators"] == 0.0
        assert bool(items(drawn(name, key), "r-hand")) != none_to_count, key
    for key in single:
        assert len(tips(drawn(name, key))) == 2, key


def shared(*keys: str) -> list[tuple[str, str, str]]:
    """Heads with pairs of lengths that are drawn by one scale."""
    return [(n, a, b) for n in HEADS for a, b in combinations(keys, 2)]


@pytest.mark.parametrize(("name", "one", "other"), shared("link_foot_out_mm", "link_foot_ahead_mm", "arm_mm", "horn_station_mm", "rod_radius_mm"))  # fmt: skip
def test_lengths_of_the_plan_are_to_one_scale(name: str, one: str, other: str) -> None:
    """Drawn lengths stand to one another as the head's figures do, within the tenth of a pixel that is written."""
    a, b = extent(name, one), extent(name, other)
    x, y = abs(HEADS[name][one]), abs(HEADS[name][other])
    assert a * y == pytest.approx(b * x, abs=0.2 * (x + y))
    assert max(a, b) > 3.0 or x == y == 0.0


@pytest.mark.parametrize("name", [n for n in HEADS if n != "far-out"])
@pytest.mark.parametrize("pair", ["drive", "stationary"])
def test_arms_of_the_scissors_are_to_one_scale(name: str, pair: str) -> None:
    """The two arms where they reach one another (those of the head far out don't)."""
    one, other = f"{pair}_scissors_ring_arm_mm", f"{pair}_scissors_anchor_arm_mm"
    assert extent(name, one) / extent(name, other) == pytest.approx(HEADS[name][one] / HEADS[name][other], rel=0.005)


@every_head
def test_radius_and_start_of_the_aerofoil_are_to_scale(name: str) -> None:
    """The aerofoil's start is that share of the radius."""
    assert extent(name, "root_cut") / extent(name, "radius_m") == pytest.approx(HEADS[name]["root_cut"], abs=0.002)


@every_head
def test_bearings_are_drawn_as_angles_of_their_size(name: str) -> None:
    """The arc's arrow head stands at the rod's bearing from the mast, clockwise from straight up (elementary)."""
    for n, rod in enumerate(HEADS[name].rods, start=1):
        if rod.bearing_deg % 360.0 < 60.0:
            continue  # too short for a head at its end: two point at it from outside
        drawing = drawn(name, f"rods.{n}.bearing_deg")
        mast = next(corners(e) for e in items(drawing, "mark"))
        x0, y0 = (mast[0][0] + mast[1][0]) / 2.0, (mast[2][1] + mast[3][1]) / 2.0
        (x, y), = tips(drawing)  # fmt: skip
        assert math.degrees(math.atan2(x - x0, y0 - y)) % 360.0 == pytest.approx(rod.bearing_deg % 360.0, abs=0.3)


@pytest.mark.parametrize("name", DEMONSTRATION)
def test_mirrored_heads_are_drawn_the_other_way_round(name: str) -> None:
    """Link and horn stand on the other side of the mast, as far ahead: x mirrored about the middle, y kept."""
    for key in ("link_foot_out_mm", "link_foot_ahead_mm", "arm_mm", "horn_station_mm", "hinge_offset"):
        mine, other = (sorted(tips(drawn(n, key))) for n in (name, f"{name}-mirrored"))
        turned = sorted((WIDTH - x, y) for x, y in other)
        assert [c for p in mine for c in p] == pytest.approx([c for p in turned for c in p], abs=0.15), key


@pytest.mark.parametrize("name", ["alder3", "cedar4", "alder3-mirrored", "cedar4-mirrored"])
def test_ahead_is_up_the_page(name: str) -> None:
    """Blade 1 moves toward the nose, so a leading horn is above its axis and a trailing one below; blade 1 is to the right
    on a rotor that turns anticlockwise seen from above (elementary)."""
    mast = next(corners(e) for e in items(drawn(name, "arm_mm"), "mark"))
    x0, y0 = (mast[0][0] + mast[1][0]) / 2.0, (mast[2][1] + mast[3][1]) / 2.0
    ends = tips(drawn(name, "arm_mm"))
    away = max(ends, key=lambda p: abs(p[1] - y0))
    assert (away[1] < y0) == (HEADS[name]["arm_mm"] > 0.0)
    assert (away[0] > x0) == (HEADS[name].rotation == "anticlockwise")


UNKNOWN = {
    "arm_mm": "150 to 250", "rods.2.bearing_deg": "140 to 150", "hinge_offset": "0.02 to 0.05", "mass_kg": "2000 to 2100",
    "twist_deg": "-9 to -7", "pressure_MPa": "4 to 10", "root_spring_Nm_per_rad": "0 to 20000",
}  # fmt: skip


@pytest.mark.parametrize("key", UNKNOWN)
def test_what_is_only_known_between_two_values_shows_both(key: str) -> None:
    """Least and greatest as they were entered, and in the words beside it."""
    rotor = of_head(changed(demonstration("alder3"), UNKNOWN))
    drawing = dimension(rotor, key, "metric")
    low, high = (x.replace("-", "\N{MINUS SIGN}") for x in UNKNOWN[key].split(" to "))
    for text in (said(drawing), drawing.text):
        assert re.search(rf"{low}(\.?0*)\D{{0,9}} to {high}(\.?0*)\D", text), text
    assert "170" not in said(drawing)
