"""The drawn views of the head: every side, head and mirror; what is drawn stands where the motion has it, and in words.

The projection is rebuilt here from scipy rotations of the camera; sizes are read from the SVG itself.
"""

import math
import re
import xml.etree.ElementTree as ET
from functools import cache
from itertools import combinations

import numpy as np
import pytest
from rotorhead.drawing.head_views import SIZE, head_view
from rotorhead.fields import Drawing
from rotorhead.head import DEMONSTRATION, Head, demonstration
from rotorhead.head_changes import changed, mirrored
from rotorhead.motion.parts import PARTS
from rotorhead.motion.setting import Kind, Setting, WhatIf
from rotorhead.motion.turn import Motion, motion_of
from rotorhead.motion.views import VIEWS
from rotorhead.rotor import of_head
from scipy.optimize import linear_sum_assignment
from scipy.spatial.distance import cdist
from scipy.spatial.transform import Rotation

HEADS: dict[str, Head] = {i: demonstration(i) for i in DEMONSTRATION}
HEADS |= {f"{i}-mirrored": mirrored(h) for i, h in list(HEADS.items())}
HEADS["alder3-8-blades"] = changed(demonstration("alder3"), {"blades": "8"})
SVG = "{http://www.w3.org/2000/svg}"
# A place that is a step of the turn, so that nothing is interpolated.
ANGLE = math.radians(32.0)
every_head = pytest.mark.parametrize("name", HEADS)
every_view = pytest.mark.parametrize("view", VIEWS)


@cache
def motion(name: str, hands: tuple[float, float, float] = (0.6, 0.7, -0.4)) -> Motion:
    """A turn of a head."""
    return motion_of(of_head(HEADS[name]), Setting(*hands))


@cache
def drawn(name: str, view: str, angle: float = ANGLE, labels: bool = True, part: str = "") -> Drawing:
    """A view of it."""
    return head_view(motion(name), angle, view, labels, part)


def element(drawing: Drawing) -> ET.Element:
    """Its SVG, parsed."""
    return ET.fromstring(drawing.svg)


def at(item: ET.Element) -> tuple[float, float]:
    """Where a circle or a text stands; the sheet's middle for what has no place of its own."""
    x, y = item.get("cx", item.get("x")), item.get("cy", item.get("y"))
    return (float(x), float(y)) if x is not None and y is not None else (SIZE / 2.0, SIZE / 2.0)


def parts_of(drawing: Drawing, tag: str, part: str = "") -> list[ET.Element]:
    """Elements by tag, of a named part when one is given; the second, thinner stroke of a double line left out."""
    found = [e for e in element(drawing).iter(f"{SVG}{tag}") if "r-plate-core" not in str(e.get("class"))]
    return [e for e in found if not part or f"p-{part}" in str(e.get("class")).split()]


def centres(drawing: Drawing, part: str) -> np.ndarray:
    """Middles of the circles of a part."""
    return np.array([at(e) for e in parts_of(drawing, "circle", part)])


def ends(path: ET.Element) -> np.ndarray:
    """Corners of a path of straight lines."""
    return np.array([[float(x) for x in p.split()] for p in re.split("[ML]", str(path.get("d")).rstrip("Z"))[1:]])


@every_head
@every_view
@pytest.mark.parametrize("stretch", [1.0, 3.0])
def test_every_view_of_every_head_stays_on_its_sheet(name: str, view: str, stretch: float) -> None:
    """Coordinates are numbers on the sheet of 340 by 340, stick fully over and blades stretched three times too; under
    16 KB (18 for eight blades, which no head of the site has)."""
    full = (1.0, 0.0, 1.0) if stretch == 1.0 else (0.5, -0.5, 0.0)
    for hands, angle in (((0.6, 0.7, -0.4), 5.9), (full, 0.0)):
        m = motion_of(of_head(HEADS[name]), Setting(*hands, stretch=stretch))
        drawing = head_view(m, angle, view)
        assert len(drawing.svg.encode()) < (16 if HEADS[name]["blades"] < 8 else 18) * 1024
        svg = ET.fromstring(drawing.svg)
        assert svg.get("viewBox") == "0 0 340 340"
        for item in svg.iter():
            assert not any(re.search(r"nan|inf|None", text) for text in item.attrib.values()), item.attrib
            places = ends(item) if item.tag == f"{SVG}path" else np.array([at(item)])
            assert places.min() > -1.0, (item.get("class"), item.text)
            assert places.max() < SIZE + 1.0, (item.get("class"), item.text)


def camera(view: str) -> tuple[np.ndarray, np.ndarray]:
    """To the right and up on the page: of an eye at a bearing from the nose (+y) and a height, that looks at the mast."""
    look = -np.array(
        Rotation.from_euler("ZX", [-VIEWS[view].bearing, VIEWS[view].elevation], degrees=True).apply([0.0, 1.0, 0.0])
    )
    # Straight down, the page's right is still that of an eye that came from behind.
    level = -np.array(Rotation.from_euler("z", -VIEWS[view].bearing, degrees=True).apply([0.0, 1.0, 0.0]))
    right = np.cross(level, [0.0, 0.0, 1.0])
    return right, np.cross(right, look)


def standing(name: str) -> dict[str, np.ndarray]:
    """Joints from the motion itself, metres in the machine's own frame (right, nose, up): azimuths grow from the tail,
    to larger bearings on a clockwise rotor and to smaller ones on the other."""
    m, rotor = motion(name), of_head(HEADS[name])
    sense = 1.0 if HEADS[name].rotation == "clockwise" else -1.0
    step = round(ANGLE / (2.0 * math.pi) * len(m.feet))

    def machine(p: np.ndarray) -> np.ndarray:
        bearing = math.pi + sense * math.atan2(p[1], p[0])
        out = math.hypot(p[0], p[1])
        return np.array([out * math.sin(bearing), out * math.cos(bearing), p[2]])

    turning = Rotation.from_euler("z", ANGLE)
    a, fold = rotor.drive_scissors, m.drive[step]
    drive = [
        turning.apply([out * math.cos(a), out * math.sin(a), up]) for out, up in (fold.anchor, fold.apex, fold.ring)
    ]
    found = {
        "rods": [r.joint for r in m.rods],
        "links": turning.apply(m.feet[step]),
        "horns": turning.apply(m.horns[step]),
        "drive-scissors": drive,
    }
    return {part: np.array([machine(np.array(p)) for p in points]) for part, points in found.items()}


@every_head
@every_view
def test_joints_are_drawn_where_the_motion_has_them(name: str, view: str) -> None:
    """Rods' joints, links' feet, horns and the drive scissors through the camera: one scale and one shift for all of them,
    the mast in the middle across the page; off by no more than what is written (a tenth of a pixel)."""
    right, up = camera(view)
    drawing, where = drawn(name, view), standing(name)
    through = {part: np.column_stack([points @ right, -(points @ up)]) for part, points in where.items()}
    found = {part: centres(drawing, part) for part in where}
    asked, seen = np.vstack(list(through.values())), np.vstack(list(found.values()))
    assert asked.shape == seen.shape
    # Strokes are sorted by distance, so that joints are not in order: spread and middle need none.
    scale = float(np.linalg.norm(seen - seen.mean(axis=0)) / np.linalg.norm(asked - asked.mean(axis=0)))
    shift = seen.mean(axis=0) - scale * asked.mean(axis=0)
    assert shift[0] == pytest.approx(SIZE / 2.0, abs=0.1)
    if view == "above":
        assert shift[1] == pytest.approx(SIZE / 2.0, abs=0.1)
    for part in where:
        apart = cdist(scale * through[part] + shift, found[part])
        assert apart[linear_sum_assignment(apart)].max() < 0.12, part


@every_head
@every_view
def test_labels_do_not_cover_one_another(name: str, view: str) -> None:
    """Centres 13 px apart in height, or as far apart across as half of both (6.8 px a letter is more than any takes; common
    practice, no source). From above every rod, blade and side of the machine keeps its name."""
    texts = [(e.text or "", *at(e)) for e in parts_of(drawn(name, view), "text")]
    for (one, x, y), (other, a, b) in combinations(texts, 2):
        assert abs(y - b) > 12.9 or abs(x - a) > 3.4 * (len(one) + len(other)) + 3.9, (one, other)
    shown = {words for words, _, _ in texts}
    assert len(shown) == len(texts)
    if view == "above":
        rods = {f"R{n + 1}" for n in range(len(HEADS[name].rods))}
        blades = {str(k + 1) for k in range(int(HEADS[name]["blades"]))}
        assert {"nose", "right", "tail", "left"} | rods | blades <= shown
    unlabelled = drawn(name, view, ANGLE, False)
    assert {e.text for e in parts_of(unlabelled, "text")} <= {"nose", "right", "tail", "left"}


@every_head
def test_from_above_nose_is_up_and_it_turns_the_way_it_does(name: str) -> None:
    """Words at their sides; blade 1's number goes clockwise round the sheet on a clockwise rotor (elementary)."""
    places = {e.text: at(e) for e in parts_of(drawn(name, "above"), "text")}
    middle = SIZE / 2.0
    assert places["nose"][1] < middle < places["tail"][1]
    assert places["left"][0] < middle < places["right"][0]
    bearings = []
    for angle in (0.0, 0.4, 0.8):
        x, y = next(at(e) for e in parts_of(drawn(name, "above", angle), "text") if e.text == "1")
        bearings.append(math.atan2(x - middle, middle - (y - 4.0)))
    turned = np.degrees(np.diff(np.unwrap(bearings)))
    assert turned * (1.0 if HEADS[name].rotation == "clockwise" else -1.0) == pytest.approx([22.9, 22.9], abs=6.0)


@pytest.mark.parametrize("part", [p.id for p in PARTS])
def test_a_picked_part_is_marked_and_said(part: str) -> None:
    """The drawing says which part is picked, and every part that is shown has strokes of its own to mark."""
    of = next(p for p in PARTS if p.id == part)
    for view in VIEWS:
        drawing = drawn("elder6", view, ANGLE, True, part)
        assert element(drawing).get("data-picked") == part
        strokes = [e for tag in ("path", "circle") for e in parts_of(drawing, tag, part)]
        assert bool(strokes) == of.shown
        assert (f"Picked out: {of.label}." in drawing.text) == of.shown
    assert element(drawn("elder6", "side")).get("data-picked") is None
    assert "Picked" not in drawn("elder6", "side").text


@every_head
@every_view
def test_words_say_rotation_and_where_blade_1_is(name: str, view: str) -> None:
    """Turned by 32° from over the tail: 32° right of the tail on an anticlockwise rotor, left of it on a clockwise one."""
    clockwise = HEADS[name].rotation == "clockwise"
    words = drawn(name, view).text
    assert f"turn {HEADS[name].rotation}." in words
    assert f"Blade 1 stands 32° {'left' if clockwise else 'right'} of the tail." in words
    assert VIEWS[view].words in words
    assert f"{len(HEADS[name].rods)} rods" in words
    assert f"{int(HEADS[name]['blades'])} links" in words
    assert "times their size" not in words
    if view == "side":
        stretched = head_view(motion_of(of_head(HEADS[name]), Setting(0.5, 0.3, 0.0, stretch=2.0)), ANGLE, view)
        assert "drawn 2 times their size" in stretched.text


@pytest.mark.parametrize(
    "kind", ["drive_off", "stationary_off", "rod_stopped", "rod_longer", "link_longer", "play_link"]
)
@pytest.mark.parametrize("name", [*DEMONSTRATION, "cedar4-mirrored"])
def test_every_what_if_can_be_drawn(name: str, kind: Kind) -> None:
    """From every side; a ring left behind shows in the picture: the links' feet are elsewhere, the rods' joints not."""
    amount = 0.1 if kind.endswith("off") else 0.003
    m = motion_of(of_head(HEADS[name]), Setting(0.6, 0.7, -0.4, False, 1.0, WhatIf(kind, 1, amount)))
    sound = motion_of(of_head(HEADS[name]), Setting(0.6, 0.7, -0.4, False))
    for view in VIEWS:
        assert element(head_view(m, ANGLE, view)).tag == f"{SVG}svg"
    if kind == "drive_off":
        here, there = (head_view(x, ANGLE, "above") for x in (m, sound))
        assert np.abs(centres(here, "links") - centres(there, "links")).max() > 2.0
        assert centres(here, "rods") == pytest.approx(centres(there, "rods"), abs=1e-9)
