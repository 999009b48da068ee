"""What if a part were loose or wrong, what is drawn larger than life, and all of it in a link."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import expect
from rotorhead.motion.setting import KINDS
from rotorhead.motion.words import CAUTION

from . import oracle
from .conftest import MakeReader
from .moving import (
    PAGE,
    SOFTWARE,
    calculator,
    differences,
    drawn,
    field,
    head_and_inputs,
    package,
    press,
    put,
    stands,
    tells,
    trace,
    where,
)
from .reader import Reader, eventually

# What each kind must speak of, and how its amount or number is entered.
KINDS_SAID = {
    "drive_off": ({"behind": "12"}, r"12° behind"),
    "stationary_off": ({"carried": "8"}, r"Carried on by 8°"),
    "rod_stopped": ({"rod": "2"}, r"Rod 2 stays where it is"),
    "rod_longer": ({"rod": "3", "rod_more": "4"}, r"Rod 3 is 4.0\smm longer"),
    "link_longer": ({"blade": "2", "link_more": "2.5"}, r"Link 2 is 2.50\smm longer"),
    "play_scissors": ({"play": "1.5"}, r"1.50\smm of play"),
    "play_link": ({"blade": "3", "play": "0.8"}, r"0.80\smm of play in its link blade 3"),
}


def test_what_is_drawn_larger_says_so(view: Reader) -> None:
    expect(trace(view)).not_to_contain_text("times their size")
    view.enter("motion", "stretch", "2")
    stands(view, 30, stretch="2")
    expect(trace(view)).to_contain_text("drawn 2 times their size")
    # The figures stay true.
    assert oracle.run("motion", inputs={"stretch": "2"})["results"] == oracle.run("motion")["results"]
    view.shows("motion", oracle.run("motion", inputs={"stretch": "2"}))


@pytest.mark.parametrize("kind", [kind for kind, _ in KINDS if kind != "none"])
def test_what_if(view: Reader, kind: str) -> None:
    entered, said = KINDS_SAID[kind]
    base = "elder6" if kind in ("stationary_off", "rod_longer") else "alder3"
    put(view, base)
    view.unfold("motion", "what_if")
    field(view, "what_if").select_option(kind)
    for name, text in entered.items():
        expect(view.box("motion", name)).to_be_visible()
        view.enter("motion", name, text)
    inputs = {"what_if": kind, **entered}
    view.shows("motion", oracle.run("motion", base, inputs=inputs))
    expect(calculator(view).locator("[data-part=sentence]")).to_contain_text(re.compile(said))
    expect(calculator(view).locator("[data-part=results]")).to_contain_text(CAUTION)
    stands(view, 30, base, **inputs)
    assert package(30, base, **inputs) != package(30, base), "something has moved"
    field(view, "what_if").select_option("none")
    expect(calculator(view).locator("[data-part=results]")).not_to_contain_text(CAUTION)


def test_the_state_is_in_the_link(view: Reader, make_reader: MakeReader) -> None:
    hands = {"lever": "73", "stick_forward": "-35", "stick_left": "20", "stretch": "1.5", "blade": "2"}
    put(view, "dogwood5", True, view="behind", labels="off", part="links", **hands)
    calculator(view).locator(".hd-stop select").select_option(label="3")
    press(view, "nose")
    expect(field(view, "rotor_angle")).not_to_have_value("30")
    seen = where(view)
    eventually(lambda: f"rotor_angle={field(view, 'rotor_angle').input_value()}" in view.page.url, True, view.page)
    other = make_reader()
    other.watch.allow(SOFTWARE)
    other.open(PAGE, "#" + view.page.url.split("#")[1])
    expect(calculator(other)).to_have_attribute("data-solid", "")
    expect(calculator(other).get_by_role("button", name="View: behind")).to_have_attribute("aria-pressed", "true")
    expect(calculator(other).locator(".hd-tags")).to_be_hidden()
    tells(other, "links")
    again = where(other)
    assert abs(again["angle"] - seen["angle"]) < 0.01
    assert differences(again, {name: places for name, places in drawn(seen).items() if name != "link tops"}) == {}
    assert trace(other).inner_text() == trace(view).inner_text()


@pytest.mark.parametrize(
    ("base", "mirrored", "inputs"),
    [
        ("alder3", False, {"what_if": "drive_off", "behind": "25"}),
        ("dogwood5", True, {"what_if": "stationary_off", "carried": "15"}),
        ("elder6", False, {"what_if": "rod_longer", "rod": "2", "rod_more": "-6"}),
    ],
)
def test_a_head_opened_with_a_part_off_can_be_put_right(
    make_reader: MakeReader, base: str, mirrored: bool, inputs: dict[str, str]
) -> None:
    """The solid is built of the first scene that comes: nothing of what is off may be built into it."""
    reader = make_reader()
    reader.watch.allow(SOFTWARE)
    reader.open(PAGE, head_and_inputs(base, mirrored, **inputs))
    expect(calculator(reader)).to_have_attribute("data-solid", "")
    stands(reader, 30, base, mirrored, **inputs)
    reader.unfold("motion", "what_if")
    field(reader, "what_if").select_option("none")
    stands(reader, 30, base, mirrored)
