"""Lessons: steps taken from the pages, put in order, one link, a bar that leads through, large type, a printed plan."""

from __future__ import annotations

import base64
import io
import json
import re
import zlib

import pytest
from playwright.sync_api import Page, expect
from pypdf import PdfReader

from . import oracle
from .conftest import MakeReader
from .learner import LESSON
from .reader import Reader

PHASE, LAG = oracle.PAGE_OF["phase"], oracle.PAGE_OF["lag"]
SCRIPT = "<img src=x onerror=alert(1)>"


def packed(data: object) -> str:
    """A lesson as a link carries it: deflated, in the letters of RFC 4648's base64url."""
    squeeze = zlib.compressobj(wbits=-15)
    raw = squeeze.compress(json.dumps(data).encode()) + squeeze.flush()
    return base64.urlsafe_b64encode(raw).decode().rstrip("=")


def steps(page: Page) -> list[str]:
    """The notes of the list."""
    boxes = page.locator(".hd-lesson-steps input").all()
    return [box.input_value() for box in boxes]


def prepared(reader: Reader) -> None:
    """A lesson of three steps: a changed head with an input, another calculator, a page as it is."""
    reader.open(PHASE)
    reader.pick_head("dogwood5")
    reader.enter("phase", "turn_rods", "8")
    reader.shows("phase", oracle.run("phase", "dogwood5", inputs={"turn_rods": "8"}))
    reader.calculator("phase").get_by_role("button", name="Add to a lesson").click()
    expect(reader.page.locator("dialog.hd-dialog")).to_contain_text("Added as step 1")
    reader.page.keyboard.press("Escape")
    reader.open(LAG)
    reader.calculator("lag").get_by_role("button", name="Add to a lesson").click()
    dialog = reader.page.locator("dialog.hd-dialog")
    expect(dialog).to_contain_text("Added as step 2")
    dialog.get_by_role("link", name="To the lesson").click()
    reader.page.get_by_label("Add a page as it is printed").select_option(label="Swashplate")
    reader.page.get_by_role("button", name="Add it").click()
    expect(reader.page.locator(".hd-lesson-steps li")).to_have_count(3)


def test_a_lesson_from_first_step_to_a_link_in_a_fresh_profile(make_reader: MakeReader) -> None:
    reader = make_reader(permissions=["clipboard-read", "clipboard-write"])
    prepared(reader)
    page = reader.page
    page.get_by_label("Name of the lesson").fill(f"First lesson {SCRIPT}")
    page.get_by_label("Note of step 1").fill("Ask them where the rods stand.")
    page.get_by_label("Note of step 1").press("Tab")
    page.get_by_role("button", name="Move step 3 up").press("Enter")
    expect(page.get_by_role("button", name="Move step 2 up")).to_be_focused()
    assert steps(page)[:2] == ["Ask them where the rods stand.", "Swashplate"]
    page.get_by_role("button", name="Copy the link").click()
    expect(page.get_by_role("button", name="Link copied")).to_be_visible()
    link = str(page.evaluate("navigator.clipboard.readText()"))
    assert len(link) < 1000, "short enough for a code"

    other = make_reader()
    other.page.goto(link)
    expect(other.page.locator(".hd-lesson-status")).to_contain_text("3 steps")
    assert steps(other.page) == steps(page)
    expect(other.page.get_by_label("Name of the lesson")).to_have_value(f"First lesson {SCRIPT}")
    assert other.page.locator("img[src=x]").count() == 0

    # Through the lesson: each step as it was set, whatever was done on the page in between.
    other.page.get_by_role("button", name="Start the lesson").click()
    bar = other.page.get_by_role("navigation", name="Lesson")
    expect(bar).to_contain_text("1 of 3 Ask them where the rods stand.")
    other.shows("phase", oracle.run("phase", "dogwood5", inputs={"turn_rods": "8"}))
    other.enter("phase", "turn_rods", "-20")
    bar.get_by_role("button", name="Next").click()
    expect(bar).to_contain_text("2 of 3 Swashplate")
    expect(other.page.get_by_role("heading", level=1)).to_contain_text("rings of the swashplate")
    bar.get_by_role("button", name="Back").click()
    other.shows("phase", oracle.run("phase", "dogwood5", inputs={"turn_rods": "8"}))
    bar.get_by_role("button", name="Projector").click()
    expect(other.page.locator(".md-header")).to_be_hidden()
    assert other.page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    other.page.get_by_role("heading", level=1).click()
    other.page.keyboard.press("PageDown")
    expect(bar).to_contain_text("2 of 3")
    expect(other.page.locator(".md-header")).to_be_hidden()
    bar.get_by_role("button", name="Next").click()
    expect(bar).to_contain_text("3 of 3")
    expect(bar.get_by_role("button", name="Next")).to_be_disabled()
    bar.get_by_role("button", name="End").click()
    expect(bar).to_have_count(0)
    expect(other.page.locator(".md-header")).to_be_visible()
    other.page.reload()
    expect(bar).to_have_count(0)


def test_steps_are_taken_out_and_brought_back(reader: Reader) -> None:
    prepared(reader)
    page = reader.page
    before = steps(page)
    page.get_by_role("button", name="Take out step 2").click()
    assert steps(page) == [before[0], before[2]]
    page.reload()
    expect(page.locator(".hd-lesson-steps li")).to_have_count(2)
    page.get_by_role("button", name="Empty the list").click()
    expect(page.locator(".hd-lesson-none")).to_be_visible()
    page.get_by_role("button", name="Bring back what was here").click()
    assert steps(page) == [before[0], before[2]]


@pytest.mark.parametrize(
    "text",
    ["", "%00", "AAAA", "not!letters", "x" * 3900, packed("a text"), packed(["only a title"]), packed(["t", ["index.html", "javascript:alert(1)", "n"]]),
     packed(["t", ["https://example.org/x.html", "", "n"]]), packed(["t", ["../../secret.html", "", "n"]]), packed(["t", ["nowhere.html", "", "n"]]),
     packed(["t", *([["index.html", "", "n"]] * 41)]), packed(["t", ["index.html", "", "n" * 900000]]), packed({"steps": []}), packed(["t", [1, 2, 3]])],
)  # fmt: skip
def test_a_link_that_is_no_lesson_is_told_and_the_own_list_stays(reader: Reader, text: str) -> None:
    reader.open(LESSON)
    reader.page.get_by_role("button", name="Add it").click()
    mine = steps(reader.page)
    reader.page.goto("about:blank")
    reader.open(LESSON, f"#lesson&t={text}")
    said = reader.page.locator(".hd-lesson-status, hd-head .hd-notes")
    expect(said.filter(has_text=re.compile("own list stays|could not be read"))).not_to_have_count(0)
    assert steps(reader.page) == mine


def test_a_long_note_and_forty_steps_are_as_much_as_it_holds(reader: Reader) -> None:
    plan = ["t", *([["index.html", "", "n" * 500]] * 40)]
    reader.open(LESSON, f"#lesson&t={packed(plan)}")
    expect(reader.page.locator(".hd-lesson-status")).to_contain_text("40 steps")
    assert {len(note) for note in steps(reader.page)} == {200}
    reader.page.get_by_role("button", name="Add it").click()
    expect(reader.page.locator(".hd-lesson-status")).to_contain_text("holds 40 steps")
    reader.open(PHASE)
    reader.calculator("phase").get_by_role("button", name="Add to a lesson").click()
    expect(reader.page.locator("dialog.hd-dialog")).to_contain_text("has 40 steps already")


def test_the_plan_on_paper(make_reader: MakeReader) -> None:
    reader = make_reader()
    reader.page.add_init_script("window.handToDiscPublicUrl = 'https://example.org/heads/';")
    prepared(reader)
    reader.page.evaluate("() => { window.print = () => window.dispatchEvent(new Event('beforeprint')); }")
    reader.page.get_by_role("button", name="Print the plan").click()
    expect(reader.page.locator("body")).to_have_class(re.compile("hd-sheet"))
    made = PdfReader(io.BytesIO(reader.page.pdf(prefer_css_page_size=True)))
    words = re.sub(r"\s+", "", " ".join(page.extract_text() for page in made.pages))
    assert len(made.pages) == 1
    assert "turn_rods=8" in words
    assert "https://example.org/heads/teaching/lesson.html#lesson" in words
    assert "Howitgoes" not in words


def test_where_nothing_is_remembered_it_says_so(make_reader: MakeReader) -> None:
    reader = make_reader()
    refuse = "Object.defineProperty(window, '{}', {{ get() {{ throw new DOMException('no', 'SecurityError'); }} }});"
    reader.page.add_init_script(refuse.format("localStorage") + refuse.format("sessionStorage"))
    reader.open(LESSON)
    reader.page.get_by_role("button", name="Add it").click()
    expect(reader.page.locator(".hd-lesson-status")).to_contain_text("does not let the site keep the lesson")
    reader.page.get_by_role("button", name="Start the lesson").click()
    expect(reader.page.locator(".hd-lesson-status")).to_contain_text("from page to page")
    assert LESSON in reader.page.url
