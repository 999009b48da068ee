"""One page of each kind, for tests of what any page must bear: large zoom, forced colours, the Tab key."""

from __future__ import annotations

from playwright.sync_api import expect

from .learner import LESSON, PRACTICE
from .reader import Reader

# A page with charts, the moving view, the head editor, a sheet of tables, every page of teaching and so on: see the names.
KINDS = (
    "index.html",
    "understand.html",
    "work-it-out.html",
    "principles/control-phase.html",
    "hands/control-loads.html",
    "see-it-move.html",
    "parts/index.html",
    "parts/rods.html",
    "heads/index.html",
    "heads/cedar4.html",
    "own/describe.html",
    "own/inclinometer.html",
    "own/side-by-side.html",
    PRACTICE,
    "teaching/sheet-builder.html",
    LESSON,
    "reference/glossary.html",
    "reference/calculators.html",
    "paper-wheel.html",
    "offline.html",
    "kiosk.html",
    "404.html",
)
# What a script puts on a page once it has come; the theme wraps tables and marks headings of its own.
BROUGHT = {
    PRACTICE: ".hd-practice-top",
    "teaching/sheet-builder.html": ".hd-builder-set",
    LESSON: ".hd-lesson-row",
    "own/describe.html": ".hd-own-keep",
    "own/inclinometer.html": ".hd-reading-rows",
}


def open_kind(reader: Reader, path: str, unfold: bool = True) -> None:
    """Open a page and wait for everything its scripts bring; `unfold` opens what is folded away."""
    if path == "404.html":
        reader.watch.allow("404")
    reader.open(path)
    page = reader.page
    if path in BROUGHT:
        expect(page.locator(BROUGHT[path]).first).to_be_visible()
    if unfold:
        page.locator("details").evaluate_all("all => all.forEach(one => { one.open = true; })")
    # A link that leads to a question's seed is the same page: from the top, as a reader comes.
    page.evaluate("window.scrollTo(0, 0)")
