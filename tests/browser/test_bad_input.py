"""What can't be computed: the sentence stands under the field, the entry is kept, the last figures are marked as old."""

from __future__ import annotations

from typing import Any

import pytest
from playwright.sync_api import expect

from . import oracle
from .reader import Reader

PHASE = oracle.PAGE_OF["phase"]
MINUS = "\N{MINUS SIGN}"

# What a calculator shows before a wrong entry: its parts, and how they look.
Last = tuple[dict[str, str], list[str]]

# Entry -> what the sentence must say of it.
REFUSED = {
    "letters": ("abc", "“abc” is not a number"),
    "empty": ("", "empty"),
    "spaces": ("   ", "empty"),
    "infinity sign": ("∞", "“∞” is not a number"),
    "minus infinity": ("-∞", "“-∞” is not a number"),
    "inf": ("inf", "“inf” is not a number"),
    "nan": ("nan", "“nan” is not a number"),
    "a thousand million": ("1e9", "1e9"),
    "more than a float holds": ("1e999", "1e999"),
    "two points": ("1.2.3", "“1.2.3” is not a number"),
    "unit typed too": ("20 mm", "“20 mm” is not a number"),
    "sum": ("10+5", "“10+5” is not a number"),
    "full-width digits": ("１２", "“１２” is not a number"),
    "very long": ("9" * 300, "99999"),
    "markup": ("<b>5</b>", "“<b>5</b>” is not a number"),
}
# Entry -> the number it means.
ACCEPTED = {
    "decimal comma": ("12,5", "12.5"),
    "minus sign of print": (f"{MINUS}12", "-12"),
    "en dash": ("–12", "-12"),
    "spaces around": ("  12 ", "12"),
    "thin space": ("1\u20092", "12"),
    "exponent": ("1.2e1", "12"),
    "plus": ("+12", "12"),
    "point at the end": ("12.", "12"),
    "beyond the slider, within reason": ("75", "75"),
}


@pytest.fixture
def phase(live: Reader) -> Reader:
    """The control-phase page with Python running and nothing set."""
    if PHASE not in live.page.url:
        live.open(PHASE)
        live.touch("phase")
        live.state("phase", "live")
    live.page.evaluate("location.hash = '#phase&head=alder3'")
    live.shows("phase", oracle.run("phase"))
    expect(live.notes).to_have_text("")
    return live


def _fault_of(answer: dict[str, Any], field: str) -> str:
    assert answer["state"] == "invalid", answer["state"]
    name = field.removeprefix("head.")
    found = [fault["text"] for fault in answer["faults"] if fault["field"].removeprefix("head.") == name]
    assert found, answer["faults"]
    return str(found[0])


LOOKS = """one => ['[data-part="sentence"] p', '[data-part="drawing"] svg', '[data-part="results"] dd'].map((what) => {
  const { color, opacity } = getComputedStyle(one.querySelector(what));
  return `${color} ${opacity}`;
})"""


def _looks(reader: Reader, calculator: str) -> list[str]:
    found: list[str] = reader.calculator(calculator).evaluate(LOOKS)
    return found


def _now(reader: Reader) -> Last:
    return reader.parts("phase"), _looks(reader, "phase")


def _expect_refused(reader: Reader, calculator: str, field: str, text: str, sentence: str, last: Last) -> None:
    reader.state(calculator, "refused")
    fault = reader.box(calculator, field).locator(".hd-fault")
    expect(fault).to_be_visible()
    expect(fault).to_have_text(sentence)
    box = reader.text_box(calculator, field)
    expect(box).to_have_value(text)
    expect(box).to_have_attribute("aria-invalid", "true")
    expect(box).to_have_attribute("aria-describedby", str(fault.get_attribute("id")))
    expect(reader.slider(calculator, field)).to_have_attribute("aria-invalid", "true")
    expect(reader.status(calculator)).to_contain_text("Not computed")
    expect(reader.calculator(calculator).locator(".hd-hint")).to_contain_text("Not computed")
    # The last figures stay, and each of them can be told from a current one.
    parts, looks = last
    assert reader.parts(calculator) == parts
    assert all(now != then for now, then in zip(_looks(reader, calculator), looks, strict=True))


def _expect_sound(reader: Reader, calculator: str, field: str) -> None:
    reader.state(calculator, "live")
    expect(reader.box(calculator, field).locator(".hd-fault")).to_be_hidden()
    expect(reader.text_box(calculator, field)).not_to_have_attribute("aria-invalid", "true")
    expect(reader.slider(calculator, field)).not_to_have_attribute("aria-invalid", "true")


@pytest.mark.parametrize("field", ["turn_rods", "head.rpm"])
@pytest.mark.parametrize("kind", REFUSED)
def test_a_refused_entry_is_named_kept_and_can_be_mended(phase: Reader, field: str, kind: str) -> None:
    text, said = REFUSED[kind]
    last = _now(phase)
    phase.enter("phase", field, text)
    inputs, changes = ({}, {field[5:]: text}) if field.startswith("head.") else ({field: text}, {})
    sentence = _fault_of(oracle.run("phase", inputs=inputs, changes=changes), field)
    assert said in sentence
    label = phase.box("phase", field).locator("label").inner_text().split("\n")[0].strip()
    assert label in sentence, "the sentence names the field"
    _expect_refused(phase, "phase", field, text, sentence, last)
    if changes:
        expect(phase.notes).to_contain_text(sentence)
    good = "370" if changes else "12"
    phase.enter("phase", field, good)
    _expect_sound(phase, "phase", field)
    answer = oracle.run("phase", changes={field[5:]: good}) if changes else oracle.run("phase", inputs={field: good})
    phase.shows("phase", answer)
    expect(phase.notes).to_have_text("")


@pytest.mark.parametrize("kind", ACCEPTED)
def test_numbers_as_people_type_them(phase: Reader, kind: str) -> None:
    typed, meant = ACCEPTED[kind]
    phase.enter("phase", "turn_rods", typed)
    phase.shows("phase", oracle.run("phase", inputs={"turn_rods": meant}))
    _expect_sound(phase, "phase", "turn_rods")
    expect(phase.text_box("phase", "turn_rods")).to_have_value(typed)
    assert float(phase.slider("phase", "turn_rods").input_value()) == max(-60, min(60, round(float(meant) + 1e-9)))


@pytest.mark.parametrize(
    ("field", "text"),
    [
        pytest.param("head.link_mm", "30", id="a link too short"),
        pytest.param("head.arm_mm", "5", id="a horn too short"),
        pytest.param("head.arm_mm", "0", id="no horn"),
        pytest.param("head.blade_mass_kg", "0", id="a blade without mass"),
        pytest.param("head.chord_m", "0", id="Lock number to nought by the chord"),
    ],
)
def test_a_head_that_cannot_be(phase: Reader, field: str, text: str) -> None:
    last = _now(phase)
    phase.enter("phase", field, text)
    sentence = _fault_of(oracle.run("phase", changes={field[5:]: text}), field)
    _expect_refused(phase, "phase", field, text, sentence, last)
    # On another page of the site the same sentence stands in the head bar; what was entered is still kept.
    expect(phase.notes).to_contain_text(sentence)
    phase.enter("phase", field, oracle.run("phase")["form"][field]["text"])
    _expect_sound(phase, "phase", field)
    phase.shows("phase", oracle.run("phase"))


@pytest.mark.parametrize("field", ["turn_rods", "head.link_mm"])
def test_a_refused_field_offers_its_reset(phase: Reader, field: str) -> None:
    phase.enter("phase", field, "30 mm")
    phase.state("phase", "refused")
    phase.box("phase", field).locator(".hd-field-reset").click()
    _expect_sound(phase, "phase", field)
    phase.shows("phase", oracle.run("phase"))


def test_the_least_damping_a_head_may_have_is_answered(phase: Reader) -> None:
    # γ towards nought as far as the limits allow: a heavy, narrow blade high up. An answer or a sentence, never NaN.
    for field, text in {"blade_mass_kg": "600", "chord_m": "0.05"}.items():
        phase.enter("phase", f"head.{field}", text)
    phase.enter("phase", "altitude", "7000")
    answer = oracle.run("phase", inputs={"altitude": "7000"}, changes={"blade_mass_kg": "600", "chord_m": "0.05"})
    phase.shows("phase", answer)
    assert "NaN" not in phase.calculator("phase").inner_html()
    phase.state("phase", "live")


def test_every_fault_is_shown_at_once(phase: Reader) -> None:
    last = _now(phase)
    phase.enter("phase", "turn_rods", "abc")
    phase.enter("phase", "head.rpm", "fast")
    answer = oracle.run("phase", inputs={"turn_rods": "abc"}, changes={"rpm": "fast"})
    for field, text in {"turn_rods": "abc", "head.rpm": "fast"}.items():
        _expect_refused(phase, "phase", field, text, _fault_of(answer, field), last)
    phase.enter("phase", "turn_rods", "5")
    expect(phase.box("phase", "turn_rods").locator(".hd-fault")).to_be_hidden()
    _expect_refused(phase, "phase", "head.rpm", "fast", _fault_of(answer, "head.rpm"), last)
    phase.enter("phase", "head.rpm", "365")
    phase.shows("phase", oracle.run("phase", inputs={"turn_rods": "5"}, changes={"rpm": "365"}))


def test_typing_without_confirming_is_taken_after_a_pause(phase: Reader) -> None:
    phase.text_box("phase", "turn_rods").press_sequentially("1")
    phase.shows("phase", oracle.run("phase", inputs={"turn_rods": phase.text_box("phase", "turn_rods").input_value()}))
    assert phase.text_box("phase", "turn_rods").input_value() in ("10", "01")


def test_a_refused_head_is_told_on_the_next_page(reader: Reader) -> None:
    reader.open(PHASE)
    reader.enter("phase", "head.link_mm", "30")
    reader.state("phase", "refused")
    reader.open("parts/scissors.html")
    sentence = _fault_of(oracle.run("phase", changes={"link_mm": "30"}), "head.link_mm")
    expect(reader.notes).to_contain_text(sentence)
    reader.reset_button.click()
    reader.shows_text_of(oracle.values())
    expect(reader.notes).to_have_text("")
