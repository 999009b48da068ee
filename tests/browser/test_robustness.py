"""What a device, a line or a second tab does to a page: nothing entered is lost, no wrong figure is shown, the sentence is plain."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from playwright.sync_api import Playwright, Route, expect

from . import oracle
from .conftest import MakeReader, reader_context, started
from .learner import LESSON, PRACTICE, check, give, put_question, right_answer, start
from .reader import Reader, eventually
from .watch import Watch
from .workers import ask_worker, tell_worker, watch_workers, worker_facts

PHASE = oracle.PAGE_OF["phase"]
RUNTIME = ["pyodide.js", "pyodide.asm.js", "pyodide.asm.wasm", "started.bin", "rotorhead.zip", "part-phase.zip"]
# What a hotel's network answers to anything before somebody has paid.
PORTAL = "<!doctype html><title>Welcome</title><p>Please log in."
FULL = """() => {
  let size = 1 << 20;
  for (let i = 0; size > 0; i += 1) {
    try { localStorage.setItem(`filler-${i}`, "x".repeat(size)); } catch { size >>= 1; }
  }
}"""


def _damaged(route: Route, kind: str) -> None:
    if kind == "a portal's page":
        route.fulfill(status=200, content_type="text/html", body=PORTAL)
        return
    response = route.fetch()
    body = response.body()
    if kind == "half of it":
        route.fulfill(
            status=200, headers=response.headers | {"content-length": str(len(body) // 2)}, body=body[: len(body) // 2]
        )
    else:
        spoiled = bytearray(body)
        spoiled[len(body) // 3] ^= 0xFF
        route.fulfill(status=200, headers=response.headers, body=bytes(spoiled))


def _given_up(reader: Reader, printed: dict[str, str]) -> None:
    reader.state("phase", "unavailable")
    assert reader.parts("phase") == printed
    expect(reader.status("phase")).to_contain_text(re.compile("printed.*kept", re.IGNORECASE))
    expect(reader.text_box("phase", "turn_rods")).to_have_value("12")


@pytest.mark.parametrize("kind", ["half of it", "a portal's page"])
@pytest.mark.parametrize("name", RUNTIME)
def test_a_damaged_file_of_the_runtime_is_not_run(reader: Reader, name: str, kind: str) -> None:
    # The browser's own words about a file that isn't what it was asked for.
    reader.watch.allow("integrity|Failed to load resource|WebAssembly|wasm|SyntaxError|Uncaught|MIME")
    # Pyodide's, where its library can't be read.
    reader.watch.allow("Python|encodings|Current thread|console error: $")
    reader.page.route(f"**/runtime/{name}*", lambda route: _damaged(route, kind))
    reader.open(PHASE)
    printed = reader.parts("phase")
    reader.enter("phase", "turn_rods", "12")
    if name.startswith("part-"):
        # Python itself is sound: it says so once, and gives up the second time.
        reader.state("phase", "refused")
        expect(reader.status("phase")).to_contain_text("could not be fetched")
        assert reader.parts("phase") == printed
    else:
        _given_up(reader, printed)
    reader.page.unroute_all()
    if name.startswith("part-"):
        reader.enter("phase", "turn_rods", "13")
        reader.shows("phase", oracle.run("phase", inputs={"turn_rods": "13"}))
    else:
        reader.calculator("phase").get_by_role("button", name="Try again").click()
        reader.shows("phase", oracle.run("phase", inputs={"turn_rods": "12"}))


@pytest.mark.parametrize("name", ["started.bin", "rotorhead.zip", "part-phase.zip"])
def test_a_package_of_another_build_answers_nothing(reader: Reader, site: Path, name: str) -> None:
    """The server was renewed while the page was open: its package would give figures of another build."""
    reader.watch.allow("integrity")
    # A sound ZIP, but not this page's: one byte more of comment at its end.
    other = (site / "assets/hd/runtime" / name).read_bytes()
    renewed = other[:-2] + b"\x01\x00" + b"x"
    reader.page.route(f"**/runtime/{name}*", lambda route: route.fulfill(status=200, body=renewed))
    reader.open(PHASE)
    printed = reader.parts("phase")
    reader.enter("phase", "turn_rods", "12")
    eventually(
        lambda: reader.calculator("phase").get_attribute("data-state") in ("refused", "unavailable"), True, reader.page
    )
    assert reader.parts("phase") == printed
    expect(reader.status("phase")).to_contain_text("load the page again")


def test_a_worker_that_says_what_nobody_understands_is_heard_only_where_it_makes_sense(reader: Reader) -> None:
    watch_workers(reader.page, "babbling")
    reader.open(PHASE)
    reader.enter("phase", "turn_rods", "12")
    reader.shows("phase", oracle.run("phase", inputs={"turn_rods": "12"}))
    reader.enter("phase", "turn_rods", "13")
    reader.shows("phase", oracle.run("phase", inputs={"turn_rods": "13"}))
    assert worker_facts(reader.page)["made"] == ["babbling"]


def test_a_worker_does_not_hear_what_is_no_request(reader: Reader) -> None:
    watch_workers(reader.page)
    reader.open(PHASE)
    reader.enter("phase", "turn_rods", "12")
    reader.state("phase", "live")
    for rubbish in (
        "null",
        "7",
        "[]",
        "{}",
        "{ type: 'ask' }",
        "{ type: 'ask', id: 1e400, text: '{}' }",
        "{ type: 'ask', id: 3, text: 5 }",
        "{ type: 'ask', id: 3, text: 'x'.repeat(2e6) }",
        "{ type: 'start' }",
        "{ type: 'start', indexURL: 5, build: '', lock: {}, addresses: {}, sums: {}, sizes: {}, first: [], soon: [], files: null }",
        "{ type: '__proto__' }",
    ):
        tell_worker(reader.page, rubbish)
    (answer,) = ask_worker(reader.page, [oracle.run_request("phase", oracle.head_of("cedar4"))])
    assert answer["state"] == "result"
    reader.enter("phase", "turn_rods", "13")
    reader.shows("phase", oracle.run("phase", inputs={"turn_rods": "13"}))
    assert worker_facts(reader.page)["made"] == ["native"]


def test_a_worker_killed_from_outside_is_replaced(reader: Reader) -> None:
    """A telephone short of memory ends workers without a word."""
    reader.page.clock.install()
    watch_workers(reader.page)
    reader.open(PHASE)
    reader.enter("phase", "turn_rods", "12")
    reader.state("phase", "live")
    (worker,) = [one for one in reader.page.workers if one.url.startswith("blob:")]
    worker.evaluate("self.close()")
    reader.enter("phase", "turn_rods", "13")
    reader.state("phase", "stale")
    reader.page.clock.fast_forward(8_100)
    reader.shows("phase", oracle.run("phase", inputs={"turn_rods": "13"}))
    expect(reader.text_box("phase", "turn_rods")).to_have_value("13")
    assert worker_facts(reader.page)["made"] == ["native", "native"]


def test_a_device_that_is_really_full(reader: Reader) -> None:
    reader.open(PHASE)
    reader.page.evaluate(FULL)
    reader.pick_head("elder6")
    expect(reader.notes).to_contain_text("does not let the site keep")
    reader.enter("phase", "turn_rods", "12")
    reader.shows("phase", oracle.run("phase", "elder6", inputs={"turn_rods": "12"}))
    reader.page.goto(f"{reader.address}own/describe.html")
    reader.page.get_by_label("Name of this head").fill("Mine")
    reader.page.get_by_role("button", name="Keep it").click()
    expect(reader.page.locator(".hd-own-status").first).to_contain_text(re.compile("Mine is chosen.*(not|let)"))
    reader.page.goto(reader.address + PRACTICE)
    start(reader)
    section, template, seed = put_question(reader.page)
    give(section, right_answer(template, seed))
    check(section)
    expect(reader.page.locator(".hd-practice-status")).to_contain_text("does not let")
    expect(reader.page.locator(".hd-practice-count")).to_contain_text("Answered 1")


def test_printed_figures_of_a_head_that_never_come_are_worked_out(reader: Reader) -> None:
    reader.watch.allow("response 404: .*/printed/")
    reader.watch.allow("Failed to load resource")
    reader.page.route("**/printed/cedar4.*", lambda route: route.fulfill(status=404, body="gone"))
    reader.open(PHASE)
    reader.pick_head("cedar4")
    reader.shows("phase", oracle.run("phase", "cedar4"))
    reader.shows_text_of(oracle.values("cedar4"))


def test_printed_figures_that_break_off_are_worked_out(reader: Reader) -> None:
    reader.watch.allow("SyntaxError|Unexpected end of input|Invalid or unexpected token")
    reader.page.route("**/printed/cedar4.*", lambda route: _damaged(route, "half of it"))
    reader.open(PHASE)
    reader.pick_head("cedar4")
    reader.shows("phase", oracle.run("phase", "cedar4"))
    reader.shows_text_of(oracle.values("cedar4"))


def test_two_tabs_practise_without_losing_each_others_answers(reader: Reader) -> None:
    other = Reader(reader.page.context.new_page(), reader.watch, reader.address)
    start(reader)
    start(other)
    for number, one in enumerate((reader, other, reader), start=1):
        if number == 3:
            one.page.get_by_role("button", name=re.compile("^(Another one|Next question)")).last.click()
            expect(one.page.locator(".hd-ask-ways")).to_have_count(0)
        section, template, seed = put_question(one.page)
        give(section, right_answer(template, seed))
        check(section)
        for both in (reader, other):
            expect(both.page.locator(".hd-practice-count")).to_contain_text(f"Answered {number}, right {number}.")


def test_a_step_added_in_one_tab_is_in_the_lesson_of_the_other(reader: Reader) -> None:
    other = Reader(reader.page.context.new_page(), reader.watch, reader.address)
    reader.open(LESSON)
    other.open(PHASE)
    reader.page.get_by_role("button", name="Add it").click()
    other.calculator("phase").get_by_role("button", name="Add to a lesson").click()
    expect(other.page.locator("dialog")).to_contain_text("step 2")
    expect(reader.page.locator(".hd-lesson-steps > li")).to_have_count(2)
    reader.page.get_by_role("button", name="Add it").click()
    expect(reader.page.locator(".hd-lesson-steps > li")).to_have_count(3)


def test_readings_of_another_tab_are_taken_over(make_reader: MakeReader) -> None:
    one = make_reader()
    two = Reader(one.page.context.new_page(), one.watch, one.address)
    for both in (one, two):
        both.open("own/inclinometer.html")
    one.page.get_by_label("Reading at 0°").fill("5,2")
    expect(two.page.get_by_label("Reading at 0°")).to_have_value("5,2")
    two.page.get_by_label("Reading at 45°").fill("6")
    expect(one.page.get_by_label("Reading at 45°")).to_have_value("6")
    one.page.reload()
    expect(one.page.get_by_label("Reading at 0°")).to_have_value("5,2")


def test_back_from_another_page_that_the_browser_kept_alive(playwright: Playwright, address: str) -> None:
    """The back/forward cache gives a page back as it was: with the head that was chosen meanwhile, and a worker that answers."""
    with started(playwright, ignore_default_args=["--disable-back-forward-cache"]) as browser:
        alive = reader_context(browser)
        reader = Reader(alive.new_page(), Watch(alive, address), address)
        reader.page.add_init_script("addEventListener('pageshow', (one) => { window.cameBack = one.persisted; });")
        reader.open(PHASE)
        reader.enter("phase", "turn_rods", "12")
        reader.state("phase", "live")
        reader.page.evaluate("window.mark = 'the same page'")
        reader.page.locator('.md-sidebar--primary a[href$="parts/rods.html"]').first.click()
        expect(reader.page).to_have_url(re.compile("rods"))
        reader.pick_head("elder6")
        reader.shows_text_of(oracle.values("elder6"))
        reader.page.go_back(wait_until="commit")
        assert reader.page.evaluate("[window.cameBack, window.mark]") == [True, "the same page"]
        reader.enter("phase", "turn_rods", "13")
        reader.state("phase", "live")
        reader.watch.judge()
