"""Sheets of questions: the learner's link gives exactly the sheet, in a fresh profile too; hand-out and key on paper; a class."""

from __future__ import annotations

import io
import re
from typing import Any

import pytest
from playwright.sync_api import Locator, Page, expect
from pypdf import PdfReader

from . import oracle
from .conftest import PHONE, MakeReader
from .learner import BUILDER, SHEET, check, door, give, right_answer
from .reader import Reader

PAPERS = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}
POINT = 25.4 / 72.0


def build(reader: Reader, topics: tuple[str, ...], number: str, seed: str) -> None:
    """Fill the builder's form in by hand."""
    reader.open(BUILDER)
    for box in reader.page.locator("[data-teach=builder] input[name=topic]").all():
        box.set_checked(box.get_attribute("value") in topics)
    reader.page.get_by_label("Questions", exact=True).fill(number)
    reader.page.get_by_label("Seed", exact=True).fill(seed)
    reader.page.get_by_label("Seed", exact=True).press("Tab")


def link(page: Page) -> str:
    return page.get_by_role("link", name="Open the learners’ page").get_attribute("href") or ""


def prompts(place: Locator | Page) -> list[str]:
    return place.locator(".hd-ask-prompt").all_inner_texts()


def wanted(
    topics: list[str], number: int, seed: str, head: dict[str, Any], units: str = "metric"
) -> list[dict[str, Any]]:
    """The sheet by the door."""
    dealt = door("paper", head, units, topics=topics, number=number, seed=seed)["questions"]
    return [door("ask", head, units, template=one["template"], seed=one["seed"], key=True) for one in dealt]


def all_there(page: Page, number: int) -> None:
    expect(page.locator(".hd-sheet-status")).to_contain_text(f"{number} questions on")
    expect(page.locator(".hd-ask")).to_have_count(number)


def test_a_fresh_profile_opens_the_learners_link_to_the_same_questions(reader: Reader, make_reader: MakeReader) -> None:
    build(reader, ("rods", "phase", "shake"), "6", "rotor-1")
    reader.pick_head("cedar4")
    reader.turn_button.click()
    reader.pick_units("imperial")
    reader.page.get_by_role("button", name="Make the sheet").click()
    expect(reader.page.locator(".hd-paper-questions > li")).to_have_count(6)
    head = oracle.head_of("cedar4", True)
    sheet = wanted(["rods", "phase", "shake"], 6, "rotor-1", head, "imperial")
    assert prompts(reader.page.locator(".hd-paper")) == [one["prompt"] for one in sheet]

    learner = make_reader(viewport=PHONE, has_touch=True)
    learner.page.goto(link(reader.page))
    all_there(learner.page, 6)
    assert prompts(learner.page) == [one["prompt"] for one in sheet]
    assert learner.page.evaluate("document.documentElement.scrollWidth") <= PHONE["width"]
    # The learner answers all of them; the sheet counts, and sends nothing.
    for section, one in zip(learner.page.locator(".hd-ask").all(), sheet, strict=True):
        seed = section.get_attribute("data-seed") or ""
        give(section, right_answer(one["template"], seed, "cedar4", True, "imperial"))
        expect(check(section)).to_contain_text("Yes.")
    expect(learner.page.locator(".hd-sheet-status")).to_contain_text("All 6 answered, 6 of them rightly")
    # Another reader with another head of their own gets the link's.
    other = make_reader()
    other.open("index.html")
    other.pick_head("elder6")
    other.page.goto(link(reader.page))
    all_there(other.page, 6)
    assert prompts(other.page) == [one["prompt"] for one in sheet]


def test_one_link_for_a_class_gives_every_number_its_own_sheet(reader: Reader, make_reader: MakeReader) -> None:
    build(reader, ("phase", "loads"), "4", "klass")
    page = reader.page
    page.get_by_label("A different sheet for every learner").check()
    page.get_by_label("Learners, for hand-outs and key").fill("3")
    page.get_by_label("Learners, for hand-outs and key").press("Tab")
    page.get_by_role("button", name="Make the sheet").click()
    expect(page.locator(".hd-builder-status")).to_contain_text("The sheets of all learners stand below")
    expect(page.locator(".hd-paper")).to_have_count(3)
    head = oracle.head_of("alder3")
    sheets = {n: wanted(["phase", "loads"], 4, f"klass-{n}", head) for n in (1, 2, 3)}
    for number, sheet in sheets.items():
        paper = page.locator(".hd-paper").nth(number - 1)
        assert prompts(paper) == [one["prompt"] for one in sheet]
        expect(paper.locator(".hd-paper-name")).to_contain_text(f"number {number}")
        key = page.locator(".hd-key").nth(number - 1)
        assert key.locator("td:nth-child(2)").all_text_contents() == [one["answer"] for one in sheet]
    assert len({tuple(one["prompt"] for one in sheet) for sheet in sheets.values()}) == 3

    learner = make_reader(viewport=PHONE)
    learner.page.goto(link(page))
    box = learner.page.get_by_label("Your number")
    box.fill("two")
    box.press("Enter")
    expect(learner.page.locator(".hd-sheet-status")).to_contain_text("“two” is not one")
    expect(box).to_have_value("two")
    box.fill("2")
    box.press("Enter")
    all_there(learner.page, 4)
    assert prompts(learner.page) == [one["prompt"] for one in sheets[2]]


@pytest.mark.parametrize(
    ("field", "text", "said"),
    [("Questions", "0", "between 1 and 40"), ("Questions", "forty", "“forty” is not a whole number"), ("Questions", "99", "between 1 and 40"),
     ("Seed", "a b", "Seed: “a b”"), ("Seed", "<b>", "Seed: “<b>”")],
)  # fmt: skip
def test_what_can_t_be_is_told_and_kept(reader: Reader, field: str, text: str, said: str) -> None:
    build(reader, ("phase",), "3", "x")
    box = reader.page.get_by_label(field, exact=True)
    box.fill(text)
    box.press("Tab")
    reader.page.get_by_role("button", name="Make the sheet").click()
    expect(reader.page.locator(".hd-builder-status")).to_contain_text(said)
    expect(box).to_have_value(text)
    expect(reader.page.locator(".hd-paper")).to_have_count(0)


def test_no_topic_at_all_is_told(reader: Reader) -> None:
    build(reader, (), "3", "x")
    reader.page.get_by_role("button", name="Make the sheet").click()
    expect(reader.page.locator(".hd-builder-status")).to_contain_text("choose at least one")


@pytest.mark.parametrize(
    "fragment",
    ["#sheet&head=alder3&topics=%3Cscript%3Ealert(1)%3C/script%3E&n=3&seed=a", "#sheet&topics=phase&n=999&seed=a", "#sheet&topics=phase&n=3&seed=%3Cimg%3E",
     "#sheet&topics=phase", "#sheet&n=%00&seed=%E0%A4%A", "#sheet&topics=phase&n=3&seed=a&figures=nothing.rose"],
)  # fmt: skip
def test_a_link_that_is_no_sheet_does_no_harm(reader: Reader, fragment: str) -> None:
    reader.open(SHEET, fragment)
    if "figures=nothing" in fragment:
        all_there(reader.page, 3)
        expect(reader.page.locator(".hd-paper-figure")).to_have_count(1)
        return
    expect(reader.page.locator(".hd-sheet-status")).to_contain_text("can’t be shown")
    assert reader.page.locator("script:not([src])", has_text="alert").count() == 0


def test_without_a_link_the_page_says_where_sheets_come_from(reader: Reader) -> None:
    reader.open(SHEET)
    expect(reader.page.get_by_role("link", name="the sheet builder")).to_be_visible()


def _pdf(reader: Reader, button: str) -> PdfReader:
    """What the button would print."""
    # The browser's own window of printing would wait for ever.
    reader.page.evaluate("() => { window.print = () => window.dispatchEvent(new Event('beforeprint')); }")
    reader.page.get_by_role("button", name=button).click()
    expect(reader.page.locator("body")).to_have_class(re.compile("hd-sheet"))
    made = PdfReader(io.BytesIO(reader.page.pdf(prefer_css_page_size=True)))
    reader.page.evaluate("window.dispatchEvent(new Event('afterprint'))")
    return made


@pytest.mark.parametrize("paper", PAPERS)
def test_hand_out_and_key_on_paper(reader: Reader, paper: str) -> None:
    build(reader, ("phase", "rods", "disc"), "5", "paper")
    reader.page.get_by_label("A blank rose").check()
    reader.page.get_by_label("Paper", exact=True).select_option(paper)
    reader.page.get_by_role("button", name="Make the sheet").click()
    expect(reader.page.locator(".hd-paper-questions > li")).to_have_count(5)
    sheet = wanted(["phase", "rods", "disc"], 5, "paper", oracle.head_of("alder3"))
    handout, key = _pdf(reader, "Print the hand-out"), _pdf(reader, "Print the answer key")
    for made in (handout, key):
        for page in made.pages:
            assert float(page.mediabox.width) * POINT == pytest.approx(PAPERS[paper][0], abs=0.5)
            assert float(page.mediabox.height) * POINT == pytest.approx(PAPERS[paper][1], abs=0.5)
    words = re.sub(r"\s+", " ", " ".join(page.extract_text() for page in handout.pages))
    answers = re.sub(r"\s+", " ", " ".join(page.extract_text() for page in key.pages))
    assert "Name:" in words
    assert "For learning only" in words
    assert "How it goes" not in words, "nothing of the page around it"
    assert 1 <= len(handout.pages) <= 4
    assert len(key.pages) <= 2
    for one in sheet:
        assert one["prompt"][:40] in words
        assert one["why"][:40] not in words, "no answer on the hand-out"
        assert one["why"][:40] in answers
        assert one["prompt"][:40] not in answers


def test_a_code_for_the_learners_page_with_a_public_address(make_reader: MakeReader) -> None:
    reader = make_reader()
    reader.page.add_init_script("window.handToDiscPublicUrl = 'https://example.org/heads/';")
    build(reader, ("phase",), "2", "code")
    reader.page.get_by_role("button", name="QR code").click()
    dialog = reader.page.locator("dialog.hd-dialog")
    expect(dialog.locator("svg.hd-qr")).to_be_visible()
    address = dialog.get_by_role("textbox").input_value()
    assert address.startswith("https://example.org/heads/teaching/sheet.html#sheet&")
    assert "seed=code" in address
    reader.page.keyboard.press("Escape")
    reader.page.get_by_role("button", name="Make the sheet").click()
    expect(reader.page.locator(".hd-paper-foot svg.hd-qr")).to_have_count(1)


def test_an_answered_sheet_stays_with_its_head(reader: Reader) -> None:
    reader.open(SHEET, "#sheet&head=alder3&topics=phase&n=2&seed=stay")
    all_there(reader.page, 2)
    section = reader.page.locator(".hd-ask").first
    before = prompts(reader.page)
    give(section, right_answer(section.get_attribute("data-template") or "", section.get_attribute("data-seed") or ""))
    check(section)
    reader.pick_head("birch2")
    expect(reader.page.locator(".hd-sheet-status")).to_contain_text("You chose another head")
    assert prompts(reader.page) == before
