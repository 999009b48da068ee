"""A day of visits at the kiosk, replayed fast: each comes to a clean start, and the browser's memory stays flat.

A visit every three minutes through eight hours is 160 (--long); in the usual run there are three, without a verdict on memory.
"""

from __future__ import annotations

import random
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import psutil
import pytest
from house import kiosk
from playwright.sync_api import Playwright, expect

from . import oracle
from .conftest import reader_context, started
from .learner import PRACTICE, check, give, put_question, right_answer
from .reader import Reader
from .watch import Watch

START = "hands/shake.html"
SETTINGS: dict[str, Any] = {"start": START, "head": "cedar4", "after": 60, "search": False, "print": False}
PAGES = ["hands/stops.html", "parts/rods.html", "principles/disc-tilt.html", "heads/elder6.html", "see-it-move.html"]


@pytest.fixture
def stand(playwright: Playwright, site: Path, tmp_path: Path) -> Iterator[Reader]:
    """The kiosk's one screen, in a browser of its own that runs all day."""
    kiosk.write_folder(site, tmp_path / "kiosk", SETTINGS)
    own = (tmp_path / "kiosk").as_uri() + "/"
    with started(playwright) as browser:
        context = reader_context(browser, viewport={"width": 1080, "height": 1600}, has_touch=True)
        reader = Reader(context.new_page(), Watch(context, own), own)
        reader.watch.allow("GL Driver Message")
        reader.page.clock.install()
        yield reader
        reader.watch.judge()


def _memory(reader: Reader) -> float:
    """Megabytes that the browsers started by this process hold for themselves once they have cleared away.

    A browser clears away when it likes, which on a roomy machine is seldom: what it holds meanwhile says nothing.
    """
    asked = reader.page.context.new_cdp_session(reader.page)
    asked.send("HeapProfiler.collectGarbage")
    asked.detach()
    mine = [one for one in psutil.Process().children(recursive=True) if "chrom" in one.name()]
    return float(sum(one.memory_full_info().uss for one in mine)) / 1e6


def _visit(reader: Reader, chance: random.Random) -> None:
    page = reader.page
    expect(reader.header_button).to_contain_text("Cedar 4")
    assert page.evaluate("Object.keys(localStorage).filter((key) => !key.includes('kiosk'))") == [], (
        "somebody's entries"
    )
    reader.pick_head(chance.choice(["alder3", "birch2", "elder6"]))
    share = str(chance.randrange(10, 90))
    reader.enter("shake", "share", share)
    reader.state("shake", "live")
    page.goto(reader.address + chance.choice(PAGES))
    expect(page.locator(".hd-kiosk-band")).to_be_visible()
    for name in reader.calculators()[:1]:
        reader.touch(name)
        reader.state(name, "live")
    if chance.random() < 0.4:
        page.goto(reader.address + PRACTICE)
        page.get_by_role("button", name="Ask me").click()
        section, template, seed = put_question(page)
        base = page.evaluate("JSON.parse(localStorage.getItem('hand-to-disc')).base")
        give(section, right_answer(template, seed, base))
        check(section)
    # The visitor walks away.
    page.clock.run_for(61_000)
    expect(page.locator("dialog.hd-kiosk-own")).to_be_visible()
    page.clock.run_for(21_000)
    page.wait_for_url(f"**/{START}*")
    expect(page.locator(".hd-kiosk-band")).to_be_visible()


def test_a_day_of_visits(stand: Reader, long: bool) -> None:
    chance = random.Random(20261127)
    visits = 160 if long else 3
    stand.page.goto(stand.address + "index.html")
    stand.page.wait_for_url(f"**/{START}*")
    held = []
    for number in range(visits):
        _visit(stand, chance)
        if number % 5 == 4:
            held.append(_memory(stand))
    stand.shows_text_of(oracle.values("cedar4"))
    if long:
        # The first half hour fills caches. After it the later half of the day may hold no more than the earlier.
        early, late = held[2 : len(held) // 2], held[len(held) // 2 :]
        assert min(late) < 1.1 * min(early) + 20, held
        assert max(late) < 1.1 * max(early) + 50, held
