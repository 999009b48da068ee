"""The moving view shows what the package says, whatever control is moved: positions, words, chart, link."""

from __future__ import annotations

import math
import re
from functools import partial

import pytest
from playwright.sync_api import expect
from rotorhead.head import demonstration
from rotorhead.motion.parts import BY_ID, PARTS

from . import oracle
from .conftest import MakeReader
from .moving import (
    PAGE,
    SOFTWARE,
    bearing,
    calculator,
    differences,
    drawn,
    field,
    joints,
    press,
    put,
    stands,
    tells,
    trace,
    where,
)  # fmt: skip
from .reader import Reader, eventually

MINUS = "\N{MINUS SIGN}"
HEADS = ("alder3", "cedar4", "dogwood5", "elder6")
HANDS = [
    {"lever": "50", "stick_forward": "50", "stick_left": "0"},
    {"lever": "85", "stick_forward": "-40", "stick_left": "60"},
    {"lever": "20", "stick_forward": "0", "stick_left": "-80"},
]
# For each head: turned the other way or not, hands, angle (a step of the view's 90, between two, past the mirror).
PLACES = [
    (base, mirrored, HANDS[(i + j) % 3], angle)
    for i, base in enumerate(HEADS)
    for j, (mirrored, angle) in enumerate([(False, "0"), (False, "37.5"), (True, "262"), (i % 2 == 0, "146")])
]


def shown(degrees: float) -> str:
    return f"{degrees:.1f}".replace("-", MINUS) + "°"


def test_nothing_of_the_view_is_fetched_before_the_first_touch(make_reader: MakeReader) -> None:
    reader = make_reader()
    reader.watch.allow(SOFTWARE)
    reader.open(PAGE)
    reader.page.wait_for_load_state("networkidle")
    assert not reader.watch.runtime
    assert not [url for url in reader.watch.requests if "head-view" in url]
    expect(calculator(reader).locator("[data-part=drawing] svg")).to_be_visible()
    expect(calculator(reader).locator("canvas")).to_have_count(0)
    reader.touch("motion")
    expect(calculator(reader)).to_have_attribute("data-solid", "")
    expect(calculator(reader).locator(".hd-solid canvas")).to_be_visible()
    expect(calculator(reader).locator("[data-part=drawing] svg")).to_be_hidden()
    assert len([url for url in reader.watch.requests if "head-view" in url]) == 1


@pytest.mark.parametrize(("base", "mirrored", "hands", "angle"), PLACES)
def test_joints_are_drawn_where_the_package_puts_them(
    view: Reader, base: str, mirrored: bool, hands: dict[str, str], angle: str
) -> None:
    answer = put(view, base, mirrored, rotor_angle=angle, **hands)
    seen = stands(view, float(angle), base, mirrored, **hands)
    if float(angle) % (360.0 / answer["scene"]["steps"]) == 0.0:
        assert differences(seen, joints(answer["scene"], float(angle))) == {}, "the door's own scene"
    # By a ruler: every link as long as the head says, every rod's foot at the bearing the head says.
    head = demonstration(base)
    for foot, top in zip(drawn(seen)["feet"], drawn(seen)["link tops"], strict=True):
        assert abs(math.dist(foot, top) - head["link_mm"]) < 0.05
    for rod, (foot, _) in zip(head.rods, seen["rods"], strict=True):
        wanted = (-rod.bearing_deg if mirrored else rod.bearing_deg) % 360.0
        assert abs((bearing(foot) - wanted + 180.0) % 360.0 - 180.0) < 0.01


def _drag_pad(reader: Reader, forward: float, left: float) -> None:
    """Take the grip to a place and hold it there. Parts of the stick's travel."""
    pad = calculator(reader).locator(".hd-pad")
    pad.scroll_into_view_if_needed()
    box = pad.bounding_box()
    assert box is not None
    x, y, reach = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2, box["width"] / 2 - 22
    reader.page.mouse.move(x, y)
    reader.page.mouse.down()
    reader.page.mouse.move(x - left * reach, y - forward * reach, steps=6)


def test_the_stick_pad_moves_plate_and_fields(view: Reader) -> None:
    _drag_pad(view, 0.6, -0.4)
    hands = {name: field(view, name).input_value() for name in ("stick_forward", "stick_left")}
    assert abs(float(hands["stick_forward"]) - 60) <= 2  # a pixel is more than one per cent
    assert abs(float(hands["stick_left"]) + 40) <= 2
    stands(view, 30, lever="50", **hands)  # still held
    view.page.mouse.up()
    view.shows("motion", oracle.run("motion", inputs={"lever": "50", **hands}))
    _drag_pad(view, -0.9, -0.9)  # beyond the stop, which is round
    view.page.mouse.up()
    back, right = (float(field(view, name).input_value()) for name in ("stick_forward", "stick_left"))
    assert abs(math.hypot(back, right) - 100) <= 1
    assert back < -60
    assert right < -60
    stands(view, 30, stick_forward=f"{back:g}", stick_left=f"{right:g}")


def test_arrow_keys_and_home_move_the_stick(view: Reader) -> None:
    pad = calculator(view).locator(".hd-pad")
    pad.press("Home")
    stands(view, 30, stick_forward="0", stick_left="0")
    expect(pad).to_have_attribute("aria-valuetext", "centred")
    for key in ("ArrowUp", "ArrowUp", "ArrowLeft", "Shift+ArrowDown"):
        pad.press(key)
    expect(pad).to_have_attribute("aria-valuetext", "15% back, 5% left")
    expect(field(view, "stick_forward")).to_have_value("-15")
    expect(field(view, "stick_left")).to_have_value("5")
    stands(view, 30, stick_forward="-15", stick_left="5")


def test_the_lever_moves_the_plate_up(view: Reader) -> None:
    before = where(view)["rods"][0][1][2]
    lever = calculator(view).locator(".hd-lever")
    for _ in range(8):
        lever.press("ArrowUp")
    expect(field(view, "lever")).to_have_value("58")
    assert stands(view, 30, lever="58")["rods"][0][1][2] > before
    lever.press("End")
    stands(view, 30, lever="100")
    expect(lever).to_have_attribute("aria-valuetext", "100 % up")


def test_number_fields_move_hands_and_rotor(view: Reader) -> None:
    for name, text in (("lever", "35"), ("stick_forward", "-20"), ("stick_left", "45"), ("rotor_angle", "301")):
        view.enter("motion", name, text)
    stands(view, 301, lever="35", stick_forward="-20", stick_left="45")
    pad = calculator(view).locator(".hd-pad")
    expect(pad).to_have_attribute("aria-valuetext", "20% back, 45% left")
    expect(calculator(view).locator(".hd-lever")).to_have_value("35")


def test_ten_degrees_on_and_back(view: Reader) -> None:
    for name, angle in (("On 10°", 40), ("On 10°", 50), ("Back 10°", 40), ("Back 10°", 30), ("Back 10°", 20)):
        press(view, name)
        stands(view, angle)
        expect(field(view, "rotor_angle")).to_have_value(str(angle))
    put(view, rotor_angle="356")
    press(view, "On 10°")
    stands(view, 10)


@pytest.mark.parametrize(("base", "mirrored"), [("alder3", False), ("dogwood5", False), ("cedar4", True)])
def test_stop_with_a_blade_over_a_place(view: Reader, base: str, mirrored: bool) -> None:
    blades = int(demonstration(base)["blades"])
    put(view, base, mirrored)
    choice = calculator(view).locator(".hd-stop select")
    for blade, (place, wanted) in zip(
        (1, 2, blades, 2), {"nose": 0, "left": 270, "tail": 180, "right": 90}.items(), strict=True
    ):
        choice.select_option(label=str(blade))
        calculator(view).locator(".hd-places").get_by_role("button", name=place, exact=True).click()
        eventually(partial(_over, view, blade, wanted), True, view.page)
        angle = float(field(view, "rotor_angle").input_value())
        stands(view, angle, base, mirrored)


def _over(view: Reader, blade: int, wanted: float) -> bool:
    """Whether the end of a blade's root stands at a bearing."""
    return abs((bearing(where(view)["tips"][blade - 1]) - wanted + 180) % 360 - 180) < 0.05


def test_view_buttons_choose_the_side(view: Reader) -> None:
    buttons = {name: calculator(view).get_by_role("button", name=f"View: {words}") for name, words in
               {"corner": "corner", "above": "above", "side": "side", "behind": "behind", "pilot": "pilot’s"}.items()}  # fmt: skip
    pictures = set()
    for name in ("above", "side", "behind", "pilot", "corner"):
        buttons[name].click()
        view.shows("motion", oracle.run("motion", inputs={"view": name}))
        expect(field(view, "view")).to_have_value(name)
        for other, button in buttons.items():
            expect(button).to_have_attribute("aria-pressed", str(other == name).lower())
        pictures.add(calculator(view).locator(".hd-solid").screenshot())
    assert len(pictures) == 5, "every side is another picture"
    # By hand: then none of them is it.
    calculator(view).locator(".hd-solid").press("ArrowRight")
    for button in buttons.values():
        expect(button).to_have_attribute("aria-pressed", "false")
    assert calculator(view).locator(".hd-solid").screenshot() not in pictures


def test_labels_are_shown_and_hidden(view: Reader) -> None:
    tags = calculator(view).locator(".hd-tag")
    shown_parts = [part for part in PARTS if part.shown]
    expect(tags).to_have_count(len(shown_parts))
    for part in shown_parts:
        tag = tags.filter(has_text=re.compile(rf"^{re.escape(part.label)} (turns|stays)$"))
        expect(tag).to_be_visible()
        expect(tag.locator("small")).to_have_text("turns" if part.turns else "stays")
    view.unfold("motion", "labels")
    field(view, "labels").select_option("off")
    expect(tags.first).to_be_hidden()
    expect(calculator(view).locator(".hd-mark").first).to_be_hidden()
    field(view, "labels").select_option("on")
    expect(tags.first).to_be_visible()


def test_every_part_of_the_list_is_told(view: Reader) -> None:
    view.unfold("motion", "part")
    for part in PARTS:
        field(view, "part").select_option(part.id)
        tells(view, part.id)
        picked = calculator(view).locator(".hd-tag[data-picked]")
        expect(picked).to_have_count(1 if part.shown else 0)


def test_a_part_is_picked_by_its_label(view: Reader) -> None:
    plain = calculator(view).locator(".hd-solid canvas").screenshot()
    for part in ("rods", "horns", "drive-scissors"):
        calculator(view).locator(".hd-tag", has_text=re.compile(f"^{BY_ID[part].label} ")).click()
        expect(field(view, "part")).to_have_value(part)
        tells(view, part)
    assert calculator(view).locator(".hd-solid canvas").screenshot() != plain, "the others step back"


def test_a_part_is_picked_in_the_picture(view: Reader) -> None:
    """From above nothing stands over the mast or over a blade; the tags' own lines say where they are drawn."""
    put(view, view="above", rotor_angle="0")
    screen = calculator(view).locator(".hd-solid")
    names = calculator(view).locator(".hd-tag").evaluate_all("all => all.map(one => one.firstChild.textContent)")
    dots = (
        calculator(view)
        .locator(".hd-tags circle")
        .evaluate_all("all => all.map(one => [+one.getAttribute('cx'), +one.getAttribute('cy')])")
    )
    at = dict(zip(names, dots, strict=True))
    (mx, my), (bx, by) = at["mast"], at["blades"]

    def click(x: float, y: float) -> None:
        screen.click(position={"x": x, "y": y})

    click(mx + 0.9 * (bx - mx), my + 0.9 * (by - my))
    tells(view, "blades")
    click(mx, my)
    tells(view, "mast")
    expect(field(view, "part")).to_have_value("mast")
    click(mx, my)  # again: put back
    expect(field(view, "part")).to_have_value("none")
    expect(calculator(view).locator("[data-part=tour]")).to_contain_text("Pick a part")
    click(mx, my)
    tells(view, "mast")
    click(mx, 3)  # beside everything
    expect(field(view, "part")).to_have_value("none")


def test_the_blade_followed_has_trace_and_chart(view: Reader) -> None:
    view.enter("motion", "blade", "3")
    answer = oracle.run("motion", inputs={"blade": "3"})
    view.shows("motion", answer)
    put(view, blade="3", rotor_angle="60")
    scene = oracle.run("motion", inputs={"blade": "3", "rotor_angle": "60"})["scene"]
    step = 60 * scene["steps"] // 360
    expect(trace(view)).to_contain_text(
        f"Rotor turned by 60°. Blade 3: pitch {shown(scene['pitch'][step][2])}, flap {shown(scene['flap'][step][2])}."
    )
    expect(calculator(view).locator("hd-chart .u-legend")).to_contain_text("pitch of blade 3")
