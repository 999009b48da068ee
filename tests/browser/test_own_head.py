"""A head of one's own, on a phone: describe, guess, keep, measure, compare, pass on; files good and bad."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, expect
from rotorhead.head import demonstration, to_dict

from . import oracle
from .conftest import PHONE, MakeReader
from .reader import Reader

DESCRIBE = oracle.PAGE_OF["describe"]
READINGS = ("7.6", "2.8", "1,0", "3.4", "8.4", "13.1", "15", "12.7")
SCRIPT = "<img src=x onerror=alert(1)> & ~ 100%"
# What a browser that refuses storage does: even the name throws.
REFUSES = "Object.defineProperty(window, 'localStorage', { get() { throw new DOMException('no', 'SecurityError'); } });"


def ask(request: dict[str, Any]) -> dict[str, Any]:
    """The door, asked in CPython."""
    return oracle.answer(json.dumps({"id": 0, "units": "metric", **request}))


def bench(page: Page, press: str) -> None:
    page.locator(".hd-own").get_by_role("button", name=press, exact=True).first.click()


def says(page: Page, words: str) -> None:
    expect(page.locator(".hd-own-status").first).to_contain_text(words)


def keep(reader: Reader, name: str) -> str:
    """Keep the head as it is under a name; its packed text."""
    reader.page.locator("#hd-own-name").fill(name)
    bench(reader.page, "Keep it")
    says(reader.page, f"{name} is kept")
    own: str = reader.page.evaluate("JSON.parse(localStorage.getItem('hand-to-disc-heads')).at(-1).own")
    return own


def test_describe_measure_compare_keep_and_pass_on(phone: Reader, make_reader: MakeReader) -> None:
    page = phone.page
    phone.open(DESCRIBE)
    # Somebody who can't measure the horn arm: a likely range is put in, and the answers spread.
    phone.unfold("describe", "head.arm_mm")
    box = phone.text_box("describe", "head.arm_mm")
    page.get_by_role("button", name="I don’t know: Horn arm", exact=True).click()
    likely = ask({"op": "likely", "key": "arm_mm", "head": oracle.head_of("alder3")})["text"]
    expect(box).to_have_value(likely)
    results = phone.calculator("describe").locator("[data-part=results]")
    expect(results.locator(".hd-spread").first).to_be_visible()
    expect(results.locator(".hd-not-known")).to_contain_text("Horn arm")
    own = keep(phone, "Class head")
    assert (
        own
        == ask({"op": "keep", "name": "Class head", "head": oracle.head_of("alder3", False, {"arm_mm": likely})})["own"]
    )
    expect(phone.header_button).to_contain_text("Class head")
    # Beside the machine: large fields, one hand, a decimal comma among them.
    phone.open(oracle.PAGE_OF["worksheet"])
    fields = page.locator(".hd-reading-rows input")
    expect(fields).to_have_count(8)
    for field, text in zip(fields.all(), READINGS, strict=True):
        field.fill(text)
    page.get_by_role("button", name="Fit these readings").click()
    text = "\n".join(f"{45 * i} {r}" for i, r in enumerate(READINGS))
    head = {"base": "own", "own": own, "mirrored": False, "changes": {}}
    phone.shows("worksheet", ask({"op": "run", "calculator": "worksheet", "inputs": {"readings": text}, "head": head}))
    # What was read is still there when the page is opened again.
    phone.open(oracle.PAGE_OF["worksheet"])
    expect(fields.nth(1)).to_have_value("2.8")
    # One measured angle against this head's.
    phone.open(oracle.PAGE_OF["agree"])
    phone.enter("agree", "measured", "75")
    inputs = {"measured": "75"}
    phone.shows("agree", ask({"op": "run", "calculator": "agree", "inputs": inputs, "head": head}))
    expect(phone.calculator("agree").locator("[data-part=results]")).to_contain_text("disagree")
    fragment: str = page.evaluate("location.hash")
    assert page.evaluate("document.documentElement.scrollWidth") <= PHONE["width"]
    # Somebody else, who has never been here, opens the link.
    other = make_reader(viewport=PHONE)
    other.open(oracle.PAGE_OF["agree"], fragment)
    other.shows("agree", ask({"op": "run", "calculator": "agree", "inputs": inputs, "head": head}))
    expect(other.header_button).to_contain_text("Class head")
    expect(other.head_select.locator("option:checked")).to_have_text("Class head (from a link)")


def test_files_out_and_in_and_what_is_deleted_comes_back(make_reader: MakeReader, tmp_path: Path) -> None:
    reader = make_reader()
    page = reader.page
    reader.open(DESCRIBE)
    reader.enter("describe", "head.rpm", "350")
    reader.state("describe", "live")
    own = keep(reader, SCRIPT)
    expect(page.locator(".hd-own-list input")).to_have_value(SCRIPT)
    expect(reader.header_button).to_contain_text(SCRIPT)
    with page.expect_download() as download:
        bench(page, "Write to a file")
    path = tmp_path / download.value.suggested_filename
    download.value.save_as(path)
    written = json.loads(path.read_text(encoding="utf-8"))
    assert written["name"] == SCRIPT
    assert written["rpm"] == 350
    bench(page, "Delete")
    expect(page.locator(".hd-own-list input")).to_have_count(0)
    bench(page, "Undo")
    expect(page.locator(".hd-own-list input")).to_have_value(SCRIPT)
    bench(page, "Copy")
    expect(page.locator(".hd-own-list input")).to_have_count(2)
    name = page.locator(".hd-own-list input").nth(1)
    name.fill("The other one")
    name.press("Enter")
    says(page, "The other one")
    # On another device, from the file.
    other = make_reader()
    other.open(DESCRIBE)
    other.page.locator("#hd-own-file").set_input_files(path)
    says(other.page, f"{SCRIPT} has been read")
    answer = ask(
        {"op": "run", "calculator": "describe", "inputs": {}, "head": {"base": "own", "own": own, "changes": {}}}
    )
    other.shows("describe", answer)
    assert not other.page.locator("img[src='x']").count()


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("this is no head", "JSON"),
        (json.dumps({**to_dict(demonstration("alder3")), "version": 7}), "newer"),
        (json.dumps({**to_dict(demonstration("alder3")), "rpm": -4, "arm_mm": "long"}), "Rotor speed"),
    ],
)
def test_a_file_that_is_no_head_is_refused_with_the_reason(
    reader: Reader, tmp_path: Path, text: str, said: str
) -> None:
    path = tmp_path / "head.json"
    path.write_text(text, encoding="utf-8")
    reader.open(DESCRIBE)
    reader.page.locator("#hd-own-file").set_input_files(path)
    says(reader.page, "Not done.")
    says(reader.page, said)
    expect(reader.page.locator(".hd-own-none")).to_have_text("None kept yet.")


def test_start_empty_asks_for_every_figure_and_keeps_what_is_entered(reader: Reader) -> None:
    reader.open(DESCRIBE)
    bench(reader.page, "Start empty")
    reader.state("describe", "refused")
    expect(reader.text_box("describe", "head.radius_m")).to_have_value("")
    expect(reader.box("describe", "head.radius_m").locator(".hd-fault")).to_contain_text("the field is empty")
    reader.enter("describe", "head.radius_m", "5.6")
    expect(reader.box("describe", "head.radius_m").locator(".hd-fault")).to_be_hidden()
    expect(reader.box("describe", "head.rpm").locator(".hd-fault")).to_be_visible()
    expect(reader.text_box("describe", "head.radius_m")).to_have_value("5.6")


def test_a_browser_that_keeps_nothing_says_so(make_reader: MakeReader) -> None:
    reader = make_reader()
    reader.page.add_init_script(REFUSES)
    reader.open(DESCRIBE)
    reader.page.locator("#hd-own-name").fill("Class head")
    bench(reader.page, "Keep it")
    says(reader.page, "Class head is chosen")
    expect(reader.page.locator(".hd-own-none")).to_contain_text("does not let the site keep heads")
    expect(reader.header_button).to_contain_text("Class head")


def test_two_heads_side_by_side_with_one_of_my_own(reader: Reader) -> None:
    reader.open(DESCRIBE)
    reader.touch("describe")
    own = keep(reader, "Class head")
    reader.pick_head("cedar4")
    reader.open(oracle.PAGE_OF["beside"])
    reader.page.locator("#hd-other-own").select_option(label="Class head")
    reader.shows("beside", oracle.run("beside", "cedar4", inputs={"other": "own", "other_head": own}))
    expect(reader.page.locator(".hd-beside .hd-differs").first).to_be_visible()
    expect(reader.page.locator(".hd-two-roses svg")).to_have_count(2)
