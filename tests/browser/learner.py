"""A learner at a question, and the door's own view of it."""

from __future__ import annotations

import json
from typing import Any

from playwright.sync_api import Locator, Page, expect
from rotorhead.questions import marking
from rotorhead.run import HeadChoice, rotor_of
from rotorhead.units import System

from . import oracle
from .reader import Reader

PRACTICE = "teaching/practise.html"
BUILDER = "teaching/sheet-builder.html"
SHEET = "teaching/sheet.html"
LESSON = "teaching/lesson.html"


def door(op: str, head: dict[str, Any] | None = None, units: str = "metric", **more: Any) -> dict[str, Any]:
    """The door, asked in CPython."""
    return oracle.answer(
        json.dumps({"op": op, "id": 0, "head": head or oracle.head_of("alder3"), "units": units, **more})
    )


def right_answer(
    template: str, seed: str, base: str = "alder3", mirrored: bool = False, units: System = "metric"
) -> str:
    """What the package would mark right, as it is given to the door."""
    choice = HeadChoice(base, mirrored)
    return marking.right_answer(marking.put(template, seed, rotor_of(choice, units), choice.label, units))


def put_question(place: Page | Locator) -> tuple[Locator, str, str]:
    """The question that stands there: its element, template and seed."""
    section = place.locator(".hd-ask").last
    expect(section.locator(".hd-ask-prompt")).to_be_visible()
    return section, section.get_attribute("data-template") or "", section.get_attribute("data-seed") or ""


def kind_of(section: Locator) -> str:
    for kind, selector in (("choice", ".hd-ask-choice"), ("order", ".hd-ask-order"), ("mark", ".hd-dial-over")):
        if section.locator(selector).count():
            return kind
    return "number"


def give(section: Locator, answer: str) -> None:
    """Answer by keyboard alone, as it would be given to the door."""
    kind = kind_of(section)
    if kind == "choice":
        section.locator(f'.hd-ask-choice input[value="{answer}"]').press("Space")
    elif kind == "order":
        for place, item in enumerate(answer.split(",")):
            row = section.locator(f'.hd-ask-order li[data-item="{item}"]')
            while row.evaluate("row => [...row.parentElement.children].indexOf(row)") > place:
                row.get_by_role("button", name="Move up").press("Enter")
    else:
        # A bearing stands on whole degrees, which is fine enough for its tolerance.
        text = str(round(float(answer)) % 360) if kind == "mark" else answer
        box = section.locator(".hd-ask-number input")
        box.fill(text)
        box.press("Tab")


def check(section: Locator) -> Locator:
    """Press the button by keyboard; where the verdict stands."""
    section.get_by_role("button", name="Check my answer").press("Enter")
    expect(section.locator(".hd-ask-ways")).to_be_visible()
    return section.locator(".hd-ask-said")


def start(reader: Reader, topic: str = "") -> None:
    """The practice page with its first question."""
    reader.open(PRACTICE)
    if topic:
        reader.page.get_by_label("Questions on").select_option(topic)
    reader.page.get_by_role("button", name="Ask me").press("Enter")
    # Python starts with it, and the whole bank of questions comes: more than other first answers wait for.
    expect(reader.page.locator(".hd-ask .hd-ask-prompt")).to_be_visible(timeout=60_000)


def another(reader: Reader) -> None:
    """The next question; waits until it stands there."""
    old = reader.page.locator(".hd-ask").get_attribute("data-seed")
    reader.page.locator(".hd-practice-next").get_by_role("button", name="Next question").press("Enter")
    expect(reader.page.locator(".hd-ask")).not_to_have_attribute("data-seed", old or "")
    expect(reader.page.locator(".hd-ask .hd-ask-prompt")).to_be_visible()


def until_kind(reader: Reader, kind: str) -> tuple[Locator, str, str]:
    """Pass questions over until one of this kind stands there: a topic's are each put once before one comes again."""
    for _ in range(8):
        section, template, seed = put_question(reader.page)
        if kind_of(section) == kind:
            return section, template, seed
        reader.page.get_by_role("button", name="Another one").press("Enter")
        expect(reader.page.locator(".hd-ask")).not_to_have_attribute("data-seed", seed)
    raise AssertionError(f"no question of kind {kind} among eight")
