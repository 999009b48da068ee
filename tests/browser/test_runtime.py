"""Python in the page: the trimmed, compiled library answers as CPython does, the latest request wins, faults end well."""

from __future__ import annotations

import math
from typing import Any

import pytest
from playwright.sync_api import expect

from . import oracle
from .reader import Reader, eventually
from .workers import ask_worker, watch_workers, worker_facts

PHASE = oracle.PAGE_OF["phase"]


@pytest.mark.parametrize("name", oracle.CALCULATORS)
def test_first_live_answer_is_the_printed_one(reader: Reader, name: str) -> None:
    reader.open(oracle.PAGE_OF[name])
    parts, form = reader.parts(name), reader.form(name)
    assert {"sentence", "drawing", "results", "working"} <= set(parts)
    assert not reader.watch.runtime
    reader.touch(name)
    reader.state(name, "live")
    assert reader.watch.runtime, "the watch does not hear a worker's requests"
    assert reader.parts(name) == parts
    assert reader.form(name) == form
    reader.shows(name, oracle.run(name))


def test_a_link_with_the_default_figures_shows_the_printed_answer(reader: Reader) -> None:
    reader.open(PHASE, "#phase&head=alder3&turn_rods=0&altitude=0&told_side=right")
    reader.state("phase", "live")
    reader.shows("phase", oracle.run("phase"))
    assert not any(field["changed"] for field in reader.form("phase").values())
    expect(reader.reset_button).to_be_hidden()


@pytest.fixture(scope="module")
def started(kept_reader: Reader) -> Reader:
    """A page on which Python runs."""
    watch_workers(kept_reader.page)
    kept_reader.open(PHASE)
    kept_reader.touch("phase")
    kept_reader.state("phase", "live")
    return kept_reader


def _without_numbers(answer: dict[str, Any]) -> dict[str, Any]:
    results = [{k: v for k, v in row.items() if k != "value"} for row in answer.get("results", [])]
    return {**answer, "results": results}


@pytest.mark.parametrize("name", oracle.CALCULATORS)
def test_every_head_both_ways_in_both_units_is_answered_as_in_cpython(live: Reader, started: Reader, name: str) -> None:
    assert live is started
    requests = [oracle.run_request(name, oracle.head_of(b, m), u) for b, m, u in oracle.CHOICES]
    for request, got in zip(requests, ask_worker(live.page, requests), strict=True):
        wanted = oracle.answer(request)
        assert wanted["state"] == "result", request
        assert _without_numbers(got) == _without_numbers(wanted)
        # The last bit of a sine may differ between two C libraries; what is shown may not.
        for mine, theirs in zip(got["results"], wanted["results"], strict=True):
            if isinstance(theirs["value"], float):
                assert math.isclose(mine["value"], theirs["value"], rel_tol=1e-9, abs_tol=1e-12), request
            else:
                assert mine["value"] == theirs["value"]


def test_every_value_and_figure_of_the_text_is_answered_as_in_cpython(live: Reader, started: Reader) -> None:
    assert live is started
    requests = [oracle.values_request(oracle.head_of(b, m), u) for b, m, u in oracle.CHOICES]
    for request, got in zip(requests, ask_worker(live.page, requests), strict=True):
        assert got == oracle.answer(request)


FLOOD = """async ([slider, spread]) => {
  slider.focus();
  const last = 25;
  for (let i = 0; i < 200; i += 1) {
    slider.value = String(i === 199 ? last : (i * 7) % 60);
    slider.dispatchEvent(new Event("input", { bubbles: true }));
    if (spread && i % 10 === 9) await new Promise((resolve) => setTimeout(resolve, 2));
  }
  slider.dispatchEvent(new Event("change", { bubbles: true }));
}"""


@pytest.mark.parametrize("spread", [False, True], ids=["in one burst", "in twenty bursts"])
def test_a_flood_of_slider_events_ends_with_the_last_one(live: Reader, started: Reader, spread: bool) -> None:
    assert live is started
    before = len(worker_facts(live.page)["asked"])
    slider = live.slider("phase", "turn_rods").element_handle()
    live.page.evaluate(FLOOD, [slider, spread])
    live.state("phase", "live")
    wanted = live.rewritten(oracle.run("phase", inputs={"turn_rods": "25"})["parts"])
    assert live.parts("phase") == wanted
    facts = worker_facts(live.page)
    assert facts["most"] == 1, "more than one request was in flight"
    assert facts["open"] == 0
    # Of one burst: the one that is sent, the latest that waited; at the end the one of letting go.
    assert len(facts["asked"]) - before <= (20 if spread else 1) * 2 + 1
    live.page.wait_for_timeout(400)
    assert live.parts("phase") == wanted, "an older answer came later"
    assert live.text_box("phase", "turn_rods").input_value() == "25"
    live.calculator("phase").get_by_role("button", name="Back to this head’s figures").click()
    live.shows("phase", oracle.run("phase"))


def test_an_answer_to_nothing_asked_is_not_shown(live: Reader, started: Reader) -> None:
    assert live is started
    wanted = live.parts("phase")
    ask_worker(live.page, [oracle.run_request("phase", oracle.head_of("cedar4"))])
    eventually(lambda: live.parts("phase"), wanted, live.page)
    live.page.wait_for_timeout(100)
    assert live.parts("phase") == wanted
