"""Practice: every kind of question by keyboard, judged as the package judges it; what was missed comes back; progress is kept,
written, read, put back, and stays on the device."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from playwright.sync_api import Browser, expect
from rotorhead.questions.bank import TEMPLATES

from . import oracle
from .conftest import PHONE, MakeReader
from .learner import PRACTICE, another, check, door, give, kind_of, put_question, right_answer, start, until_kind
from .reader import Reader
from .test_every_page import violations

REFUSES = "Object.defineProperty(window, 'localStorage', { get() { throw new DOMException('no', 'SecurityError'); } });"


def test_every_kind_is_put_judged_and_explained_as_the_package_does(phone: Reader) -> None:
    start(phone)
    waiting = {"number", "choice", "order", "mark"}
    for _ in range(len(TEMPLATES)):
        section, template, seed = put_question(phone.page)
        asked = door("ask", template=template, seed=seed)
        expect(section.locator(".hd-ask-prompt")).to_have_text(asked["prompt"])
        kind = kind_of(section)
        assert kind == TEMPLATES[template].kind
        if kind in waiting:
            waiting.remove(kind)
            right = right_answer(template, seed)
            given = right if kind != "mark" else str(round(float(right)) % 360)
            give(section, right)
            expect(check(section)).to_have_text(door("mark", template=template, seed=seed, given=given)["said"])
            expect(section.locator(".hd-ask-working ol.hd-steps")).to_have_count(1)
            expect(section.get_by_role("link", name="Work it out")).to_have_count(1)
            assert section.locator(".hd-ask-said").inner_text().startswith("Yes.")
            if not waiting:
                return
            another(phone)
        else:
            phone.page.get_by_role("button", name="Another one").press("Enter")
            expect(phone.page.locator(".hd-ask")).not_to_have_attribute("data-seed", seed)
    assert not waiting, "with every question asked about as often, all kinds come within one round"


def test_a_wrong_answer_is_answered_by_its_belief_and_the_way_leads_to_its_figures(reader: Reader) -> None:
    start(reader, "phase")
    section, template, seed = until_kind(reader, "choice")
    right = right_answer(template, seed)
    wrong = next(str(i) for i in range(3) if str(i) != right)
    give(section, wrong)
    marked = door("mark", template=template, seed=seed, given=wrong)
    expect(check(section)).to_have_text(marked["said"])
    assert marked["belief"]
    expect(section.locator("label.hd-right .hd-letter")).to_have_text("ABCD"[int(right)])
    section.get_by_role("link", name="Work it out").click()
    reader.shows(marked["calculator"], oracle.run(marked["calculator"], inputs=marked["inputs"]))


def test_what_was_missed_comes_back_after_three_others(reader: Reader) -> None:
    start(reader)
    section, missed, seed = put_question(reader.page)
    kind = kind_of(section)
    right = right_answer(missed, seed)
    if kind == "choice":
        give(section, next(str(i) for i in range(3) if str(i) != right))
    elif kind != "order":  # an order stands there wrong already
        give(section, str(float(right) + (90.0 if kind == "mark" else 1e6)))
    check(section)
    expect(reader.page.locator(".hd-practice-count")).to_have_text("Answered 1, right 0. 1 waits to come back.")
    for _ in range(3):
        another(reader)
        section, template, seed = put_question(reader.page)
        assert template != missed
        give(section, right_answer(template, seed))
        check(section)
    another(reader)
    assert put_question(reader.page)[1] == missed
    # By itself it can be asked for too; nothing else is then.
    reader.page.get_by_label("Questions on").select_option("missed")
    reader.page.get_by_role("button", name="Another one").press("Enter")
    expect(reader.page.locator(".hd-practice-status")).to_have_text("")
    assert put_question(reader.page)[1] == missed


def test_progress_is_kept_written_read_and_put_back(make_reader: MakeReader, tmp_path: Path) -> None:
    reader = make_reader(accept_downloads=True)
    page = reader.page
    start(reader, "shake")
    section, template, seed = put_question(page)
    give(section, right_answer(template, seed))
    check(section)
    count = page.locator(".hd-practice-count")
    expect(count).to_have_text("Answered 1, right 1. None waits to come back.")
    page.reload()
    expect(count).to_have_text("Answered 1, right 1. None waits to come back.")
    page.get_by_text("My progress", exact=True).click()
    with page.expect_download() as loading:
        page.get_by_role("button", name="Write it to a file").click()
    file = tmp_path / "progress.json"
    loading.value.save_as(file)
    assert json.loads(file.read_text())["records"][template]["right"] == 1
    page.get_by_role("button", name="Start again from nothing").click()
    expect(count).to_have_text("Nothing answered yet.")
    page.get_by_role("button", name="Bring my progress back").click()
    expect(count).to_contain_text("Answered 1")

    other = make_reader()
    other.open(PRACTICE)
    other.page.get_by_text("My progress", exact=True).click()
    box = other.page.get_by_label("Read it from a file")
    for bad in (
        "no file of ours",
        "[1, 2]",
        '{"answered": -1, "records": {}}',
        '{"answered": "<b>", "records": {"x": null}}',
    ):
        (tmp_path / "bad.json").write_text(bad)
        box.set_input_files(tmp_path / "bad.json")
        expect(other.page.locator(".hd-practice-status")).to_contain_text("Not read: bad.json")
        expect(other.page.locator(".hd-practice-count")).to_have_text("Nothing answered yet.")
    box.set_input_files(file)
    expect(other.page.locator(".hd-practice-count")).to_contain_text("Answered 1, right 1")


def test_where_nothing_is_kept_it_says_so_and_goes_on(make_reader: MakeReader) -> None:
    reader = make_reader()
    reader.page.add_init_script(REFUSES)
    start(reader, "phase")
    section, template, seed = put_question(reader.page)
    give(section, right_answer(template, seed))
    check(section)
    expect(reader.page.locator(".hd-practice-status")).to_contain_text("does not let the site keep your progress")
    another(reader)
    expect(reader.page.locator(".hd-practice-count")).to_contain_text("Answered 1")


def test_the_chosen_head_and_units_are_asked_about(reader: Reader) -> None:
    reader.open(PRACTICE)
    reader.pick_head("cedar4")
    reader.turn_button.click()
    reader.pick_units("imperial")
    start_before = reader.page.get_by_role("button", name="Ask me")
    start_before.click()
    section, template, seed = put_question(reader.page)
    asked = door("ask", oracle.head_of("cedar4", True), "imperial", template=template, seed=seed)
    expect(section.locator(".hd-ask-prompt")).to_have_text(asked["prompt"])
    give(section, right_answer(template, seed, "cedar4", True, "imperial"))
    expect(check(section)).to_contain_text("Yes.")


def test_no_answer_yet_is_told_and_nothing_is_lost(reader: Reader) -> None:
    start(reader, "phase")
    section, _, _ = until_kind(reader, "number")
    section.locator(".hd-ask-number input").fill("twelve")
    section.get_by_role("button", name="Check my answer").click()
    expect(section.locator(".hd-ask-said")).to_contain_text("“twelve” is not a number")
    expect(section.locator(".hd-ask-number input")).to_have_value("twelve")
    expect(reader.page.locator(".hd-practice-count")).to_have_text("Nothing answered yet.")


def test_by_mouse_and_touch_on_the_rose(phone: Reader) -> None:
    """A tap places the arrow; the number beside it says where."""
    start(phone, "phase")
    section, _, _ = until_kind(phone, "mark")
    rose = section.locator(".hd-dial-over")
    rose.scroll_into_view_if_needed()
    box = rose.bounding_box()
    assert box
    rose.tap(position={"x": box["width"] * 0.8, "y": box["height"] * 0.5})
    value = float(section.locator(".hd-ask-number input").input_value())
    assert 85.0 <= value <= 95.0, "to the right of the middle"


def test_focus_goes_to_the_question_and_everything_has_a_name(browser: Browser, address: str) -> None:
    context = browser.new_context(
        viewport=PHONE, locale="en-GB", reduced_motion="reduce", bypass_csp=True, service_workers="block"
    )
    page = context.new_page()
    page.goto(address + PRACTICE)
    page.get_by_role("button", name="Ask me").press("Enter")
    expect(page.locator(".hd-ask-title")).to_be_focused()
    seen: set[str] = set()
    for _ in range(30):
        section, template, seed = put_question(page)
        kind = kind_of(section)
        if kind not in seen:
            seen.add(kind)
            assert violations(page) == []
            give(section, right_answer(template, seed))
            check(section)
            assert violations(page) == []
            assert page.evaluate("document.documentElement.scrollWidth") <= PHONE["width"]
        if len(seen) == 4:
            break
        page.get_by_role("button", name="Another one").press("Enter")
        expect(page.locator(".hd-ask")).not_to_have_attribute("data-seed", seed)
    assert len(seen) == 4
    context.close()


def test_without_script_there_is_a_question_of_each_topic_with_its_answer(make_reader: MakeReader) -> None:
    reader = make_reader(java_script_enabled=False)
    reader.open(PRACTICE)
    sections = reader.page.locator("[data-teach=practice] .hd-ask")
    expect(sections).to_have_count(len({one.topic for one in TEMPLATES.values()}))
    sections.first.locator("summary").click()
    expect(sections.first.locator("details p")).to_be_visible()


@pytest.mark.parametrize("name", ["due", "missed"])
def test_the_schedule_by_itself(reader: Reader, name: str) -> None:
    """Missed: back after 3, then 9, then 27 others, then done with."""
    reader.open(PRACTICE)
    stored = {"due": json.dumps({"answered": 9, "records": {"rods-turned": {"right": 0, "wrong": 1, "due": 9, "gap": 3}}}),
              "missed": json.dumps({"answered": 99, "records": {"rods-turned": {"right": 2, "wrong": 1, "due": 99, "gap": 27}}})}[name]  # fmt: skip
    reader.page.evaluate("text => localStorage.setItem('hand-to-disc-practice', text)", stored)
    start(reader)
    section, template, seed = put_question(reader.page)
    assert template == "rods-turned", "what is due comes first"
    give(section, right_answer(template, seed))
    check(section)
    record = reader.page.evaluate("JSON.parse(localStorage.getItem('hand-to-disc-practice')).records['rods-turned']")
    wanted = {
        "due": {"right": 1, "wrong": 1, "due": 19, "gap": 9},
        "missed": {"right": 3, "wrong": 1, "due": None, "gap": 0},
    }
    assert record == wanted[name]
