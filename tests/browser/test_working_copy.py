"""A figure of the head changed by the reader: used on every page, in the link, named, and undone with one tap."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Route, expect

from . import oracle
from .reader import Reader, eventually
from .workers import watch_workers

PHASE = oracle.PAGE_OF["phase"]
RPM = {"rpm": "380"}


def test_a_changed_figure_is_used_everywhere_until_it_is_reset(reader: Reader) -> None:
    reader.open(PHASE)
    reader.enter("phase", "head.rpm", "380")
    reader.shows("phase", oracle.run("phase", changes=RPM))
    reader.shows_text_of(oracle.values(changes=RPM))
    expect(reader.header_button).to_have_text("Alder 3, changed")
    expect(reader.calculator("phase").locator(".hd-head-label")).to_have_text("Alder 3, changed")
    expect(reader.box("phase", "head.rpm").locator(".hd-field-reset")).to_be_visible()
    expect(reader.reset_button).to_have_text("changed · reset")
    expect(reader.page).to_have_url(re.compile(r"#phase&head=alder3&head\.rpm=380$"))
    # Another page.
    reader.open("principles/precession-or-lag.html")
    reader.shows("lag", oracle.run("lag", changes=RPM))
    reader.shows("gyro", oracle.run("gyro", changes=RPM))
    reader.shows_text_of(oracle.values(changes=RPM))
    expect(reader.header_button).to_have_text("Alder 3, changed")
    # One tap.
    reader.reset_button.click()
    reader.shows("lag", oracle.run("lag"))
    reader.shows_text_of(oracle.values())
    expect(reader.header_button).to_have_text("Alder 3")
    # … which can be taken back.
    expect(reader.reset_button).to_have_text("back to Alder 3, changed")
    reader.reset_button.click()
    reader.shows("lag", oracle.run("lag", changes=RPM))
    reader.shows_text_of(oracle.values(changes=RPM))


def test_a_figure_moved_and_set_back_is_no_change(reader: Reader) -> None:
    reader.open(PHASE)
    slider = reader.slider("phase", "head.hinge_offset")
    slider.press("ArrowRight")
    reader.state("phase", "live")
    expect(reader.header_button).to_have_text("Alder 3, changed")
    slider.press("ArrowLeft")
    reader.shows("phase", oracle.run("phase"))
    expect(reader.reset_button).not_to_have_text("changed · reset")
    expect(reader.header_button).to_have_text("Alder 3")
    assert not any(field["changed"] for field in reader.form("phase").values())
    assert "hinge_offset" not in reader.page.url


def test_one_figure_can_be_reset_alone(reader: Reader) -> None:
    reader.open(PHASE)
    reader.enter("phase", "head.rpm", "380")
    reader.enter("phase", "turn_rods", "10")
    reader.shows("phase", oracle.run("phase", changes=RPM, inputs={"turn_rods": "10"}))
    reader.box("phase", "turn_rods").locator(".hd-field-reset").click()
    reader.shows("phase", oracle.run("phase", changes=RPM))
    expect(reader.text_box("phase", "turn_rods")).to_have_value("0")
    reader.box("phase", "head.rpm").locator(".hd-field-reset").click()
    reader.shows("phase", oracle.run("phase"))
    expect(reader.text_box("phase", "head.rpm")).to_have_value("360")
    expect(reader.header_button).to_have_text("Alder 3")


def test_another_head_takes_the_place_of_the_working_copy_which_is_kept(reader: Reader) -> None:
    reader.open(PHASE, "#phase&head=alder3&head.rpm=380")
    reader.shows("phase", oracle.run("phase", changes=RPM))
    reader.enter("phase", "head.blade_mass_kg", "40")
    both = {"rpm": "380", "blade_mass_kg": "40"}
    reader.shows("phase", oracle.run("phase", changes=both))
    reader.pick_head("cedar4")
    reader.shows("phase", oracle.run("phase", "cedar4"))
    expect(reader.reset_button).to_have_text("back to Alder 3, changed")
    reader.reset_button.click()
    reader.shows("phase", oracle.run("phase", changes=both))


def test_units_carry_over_what_was_typed(reader: Reader) -> None:
    reader.open(PHASE)
    # 6.096 m is 20 ft, 168.275 mm is 6.625 in, by definition of the inch.
    reader.enter("phase", "head.radius_m", "6,096")
    reader.enter("phase", "head.horn_station_mm", "168.275")
    reader.state("phase", "live")
    reader.pick_units("imperial")
    expect(reader.text_box("phase", "head.radius_m")).to_have_value("20")
    expect(reader.text_box("phase", "head.horn_station_mm")).to_have_value("6.625")
    expect(reader.box("phase", "head.radius_m").locator(".hd-unit")).to_have_text("ft")
    changes = {"radius_m": "20", "horn_station_mm": "6.625"}
    reader.shows("phase", oracle.run("phase", units="imperial", changes=changes))
    reader.shows_text_of(oracle.values(units="imperial", changes=changes))
    reader.pick_units("metric")
    expect(reader.text_box("phase", "head.radius_m")).to_have_value("6.096")
    reader.state("phase", "live")


def test_bearings_typed_turn_with_the_head(reader: Reader) -> None:
    reader.open(PHASE)
    reader.enter("phase", "head.rods.1.bearing_deg", "30")
    reader.enter("phase", "turn_rods", "12")
    reader.state("phase", "live")
    reader.turn_button.click()
    # 30° right of the nose, seen in the mirror, is 30° left of it: 330° clockwise from the nose.
    expect(reader.text_box("phase", "head.rods.1.bearing_deg")).to_have_value("330")
    expect(reader.text_box("phase", "turn_rods")).to_have_value("12")
    changes = {"rods.1.bearing_deg": "330"}
    reader.shows("phase", oracle.run("phase", mirrored=True, changes=changes, inputs={"turn_rods": "12"}))
    reader.shows_text_of(oracle.values(mirrored=True, changes=changes))


def test_until_a_changed_head_is_computed_numbers_say_whose_they_are(reader: Reader) -> None:
    held: list[Route] = []
    reader.page.route("**/runtime/rotorhead.zip*", lambda route: held.append(route))
    reader.open(PHASE, "#&head=cedar4&head.rpm=380")
    value = reader.page.locator('hd-value[of="words.sum"]').first
    # The demonstration head's own figures stand there meanwhile, and are marked as its.
    expect(value).to_have_attribute("data-of", "Cedar 4")
    reader.shows_text_of(oracle.values("cedar4"))
    expect(reader.calculator("phase").locator(".hd-for")).to_contain_text("Cedar 4 until the changed head is computed")
    eventually(lambda: len(held) > 0, True, reader.page)
    for route in held:
        route.continue_()
    reader.shows_text_of(oracle.values("cedar4", changes=RPM))
    reader.shows("phase", oracle.run("phase", "cedar4", changes=RPM))
    expect(reader.page.locator("[data-of]")).to_have_count(0)
    expect(reader.calculator("phase").locator(".hd-for")).not_to_contain_text("until")


@pytest.mark.parametrize("base", oracle.HEADS)
def test_a_calculator_that_runs_follows_every_head(live: Reader, base: str) -> None:
    if "control-phase" not in live.page.url:
        watch_workers(live.page)
        live.open(PHASE)
        live.enter("phase", "turn_rods", "7")
        live.state("phase", "live")
    live.pick_head(base)
    inputs = {"turn_rods": "7"}
    live.shows("phase", oracle.run("phase", base, inputs=inputs))
    live.shows_text_of(oracle.values(base))
    live.turn_button.click()
    live.shows("phase", oracle.run("phase", base, True, inputs=inputs))
    live.shows_text_of(oracle.values(base, True))
    live.pick_units("imperial")
    live.shows("phase", oracle.run("phase", base, True, "imperial", inputs=inputs))
    live.shows_text_of(oracle.values(base, True, "imperial"))
    live.pick_units("metric")
    live.turn_button.click()
    live.shows("phase", oracle.run("phase", base, inputs=inputs))
