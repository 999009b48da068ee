"""Python that is stuck, broken or never comes: printed figures, a plain sentence, a way to try again, a quiet console.

The limits (8 s for an answer, 30 s for a start) pass on the page's own clock, which these tests turn.
"""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Route, expect

from . import oracle
from .reader import Reader, eventually
from .workers import watch_workers, worker_facts

PHASE = oracle.PAGE_OF["phase"]
ANSWER_LIMIT = 8_100
START_LIMIT = 30_100
# In whatever words: not live, what stands there is the print, nothing entered is lost.
SENTENCE = re.compile("live.*printed.*kept", re.IGNORECASE)


def _begin(reader: Reader, *plan: str) -> dict[str, str]:
    reader.page.clock.install()
    watch_workers(reader.page, *plan)
    reader.open(PHASE)
    return reader.parts("phase")


def _expect_printed_again(reader: Reader, printed: dict[str, str]) -> None:
    reader.state("phase", "unavailable")
    assert reader.parts("phase") == printed
    expect(reader.status("phase")).to_contain_text(SENTENCE)
    expect(reader.calculator("phase").locator(".hd-head-label")).to_have_text("Alder 3")
    expect(reader.calculator("phase")).not_to_have_attribute("aria-busy", "true")
    # What was entered is kept.
    expect(reader.text_box("phase", "turn_rods")).to_have_value("12")
    assert len(worker_facts(reader.page)["made"]) == 2


def _expect_trying_again_to_answer(reader: Reader) -> None:
    reader.calculator("phase").get_by_role("button", name="Try again").click()
    reader.state("phase", "live")
    reader.shows("phase", oracle.run("phase", inputs={"turn_rods": "12"}))
    expect(reader.calculator("phase").get_by_role("button", name="Try again")).to_be_hidden()


def _wait_for_request(reader: Reader, count: int) -> None:
    eventually(lambda: len(worker_facts(reader.page)["asked"]) >= count, True, reader.page)


def test_a_runaway_is_stopped_twice_and_the_printed_figures_come_back(reader: Reader) -> None:
    printed = _begin(reader, "never answers", "never answers")
    reader.enter("phase", "turn_rods", "12")
    for turn in (1, 2):
        _wait_for_request(reader, turn)
        reader.state("phase", "stale")
        expect(reader.calculator("phase")).to_have_attribute("aria-busy", "true")
        reader.page.clock.fast_forward(ANSWER_LIMIT)
    _expect_printed_again(reader, printed)
    assert worker_facts(reader.page)["ended"] == 2
    _expect_trying_again_to_answer(reader)


def test_after_one_runaway_a_new_worker_answers(reader: Reader) -> None:
    _begin(reader, "never answers")
    reader.enter("phase", "turn_rods", "12")
    _wait_for_request(reader, 1)
    reader.page.clock.fast_forward(ANSWER_LIMIT)
    reader.state("phase", "live")
    reader.shows("phase", oracle.run("phase", inputs={"turn_rods": "12"}))
    assert worker_facts(reader.page)["made"] == ["never answers", "native"]


@pytest.mark.parametrize(
    "kind",
    ["broken", "no JSON", "no answer", "unheard-of state", "failed", "broken at start", "error at start", "throws"],
)
def test_two_faults_in_a_row_bring_the_printed_figures_back(reader: Reader, kind: str) -> None:
    printed = _begin(reader, kind, kind)
    reader.enter("phase", "turn_rods", "12")
    if kind == "failed":
        # Said by Python itself: the worker is sound, and only the second time gives up.
        reader.state("phase", "refused")
        expect(reader.status("phase")).to_have_text("Not computed.")
        reader.text_box("phase", "turn_rods").press("Tab")
        reader.enter("phase", "turn_rods", "13")
        reader.state("phase", "unavailable")
        expect(reader.status("phase")).to_contain_text(SENTENCE)
        assert reader.parts("phase") == printed
        return
    _expect_printed_again(reader, printed)
    _expect_trying_again_to_answer(reader)


def test_a_start_that_never_ends_is_given_up(reader: Reader) -> None:
    printed = _begin(reader, "never ready", "never ready")
    reader.enter("phase", "turn_rods", "12")
    for made in (1, 2):
        eventually(lambda: len(worker_facts(reader.page)["made"]), made, reader.page)
        reader.state("phase", "starting")
        # Words while it starts, never a bare spinner.
        expect(reader.calculator("phase").locator(".hd-hint")).to_contain_text("Python")
        reader.page.clock.fast_forward(START_LIMIT)
    _expect_printed_again(reader, printed)


@pytest.mark.parametrize("lost", ["pyodide.js", "pyodide.asm.js", "pyodide.asm.wasm", "started.bin", "rotorhead.zip"])
def test_a_lost_file_of_the_runtime_leaves_the_printed_figures(reader: Reader, lost: str) -> None:
    reader.watch.allow(f"response 404: .*{lost}")
    # The browser, not the page, writes this line for any missing file.
    reader.watch.allow("Failed to load resource")
    reader.page.route(f"**/runtime/{lost}*", lambda route: route.fulfill(status=404, body="gone"))
    watch_workers(reader.page)
    reader.open(PHASE)
    printed = reader.parts("phase")
    reader.enter("phase", "turn_rods", "12")
    _expect_printed_again(reader, printed)
    reader.page.unroute_all()
    _expect_trying_again_to_answer(reader)


def test_a_changed_head_that_cannot_be_computed_is_said_in_the_head_bar(reader: Reader) -> None:
    watch_workers(reader.page, "throws", "throws")
    reader.open("parts/scissors.html", "#&head=cedar4&head.rpm=380")
    expect(reader.notes).to_contain_text(SENTENCE)
    again = reader.page.locator("hd-head").get_by_role("button", name="Try again")
    again.click()
    reader.shows_text_of(oracle.values("cedar4", changes={"rpm": "380"}))
    expect(again).to_have_count(0)
    expect(reader.notes).to_have_text("")


def test_a_slow_start_tells_how_far_it_is(reader: Reader) -> None:
    def slowly(route: Route) -> None:
        reader.page.wait_for_timeout(300)
        route.continue_()

    reader.page.route("**/runtime/rotorhead.zip*", slowly)
    reader.open(PHASE)
    printed = reader.parts("phase")
    reader.enter("phase", "turn_rods", "12")
    reader.state("phase", "starting")
    expect(reader.calculator("phase").locator(".hd-hint")).to_contain_text("Python")
    assert reader.parts("phase") == printed, "the printed figures stay until the answer is in"
    reader.state("phase", "live")
