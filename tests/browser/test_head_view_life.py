"""The moving view over time: it turns only when asked, asks Python nothing meanwhile, gives back its memory, and lives on
as drawn views where the graphics are missing or lost."""

from __future__ import annotations

import re
from typing import Any

from playwright.sync_api import expect
from rotorhead.head import demonstration

from . import oracle
from .conftest import MakeReader
from .moving import PAGE, calculator, differences, drawn, field, package, press, put, stands, wake, where
from .reader import Reader, eventually

# Counts what the page asks of its worker.
COUNTED = """(() => {
  window.asked = 0;
  const post = Worker.prototype.postMessage;
  Worker.prototype.postMessage = function (...message) { window.asked += 1; return post.apply(this, message); };
})();"""
NO_WEBGL = """(() => {
  const open = HTMLCanvasElement.prototype.getContext;
  HTMLCanvasElement.prototype.getContext = function (kind, ...more) {
    return /webgl/.test(kind) ? null : open.call(this, kind, ...more);
  };
})();"""
LOST = "WebGL|context|CONTEXT_LOST"
RUN = ".hd-run"


def angle(reader: Reader) -> float:
    return float(calculator(reader).evaluate("one => one.stage.view.turning.angle"))


def moment(reader: Reader) -> tuple[float, float]:
    """The rotor's angle and the page's clock in seconds, read together."""
    found = calculator(reader).evaluate("one => [one.stage.view.turning.angle, performance.now() / 1000]")
    return float(found[0]), float(found[1])


def memory(reader: Reader) -> dict[str, Any]:
    found: dict[str, Any] = calculator(reader).evaluate("one => one.stage.view.memory()")
    return found


def heap(reader: Reader) -> float:
    """Bytes of JavaScript in use once what is left lying is gone."""
    session = reader.page.context.new_cdp_session(reader.page)
    session.send("HeapProfiler.collectGarbage")
    used = float(session.send("Runtime.getHeapUsage")["usedSize"])
    session.detach()
    return used


def test_nothing_moves_by_itself(view: Reader) -> None:
    before = where(view)
    view.page.wait_for_timeout(1000)
    assert where(view) == before


def test_it_turns_when_asked_and_asks_python_nothing_meanwhile(make_reader: MakeReader) -> None:
    reader = make_reader(reduced_motion="no-preference")
    reader.page.add_init_script(COUNTED)
    wake(reader)
    run = calculator(reader).locator(RUN)
    run.click()
    expect(run).to_have_text("Stop")
    expect(calculator(reader).locator(".hd-trace")).to_contain_text("1/60 of its real 360 rpm")
    (first, since), asked = moment(reader), reader.page.evaluate("window.asked")
    assert asked >= 2, "started and asked once: the counting works"
    reader.page.wait_for_timeout(3000)
    # 36 degrees a second by the page's own clock; a frame that comes late may move it by a tenth of a second at most, so
    # it can only be slower.
    last, until = moment(reader)
    turned = (last - first) % 360.0
    assert 5.0 < turned < 36.0 * (until - since + 0.1), (turned, until - since)
    assert reader.page.evaluate("window.asked") == asked, "nothing is asked of Python in a frame"
    run.click()
    stopped = angle(reader)
    assert stopped == round(stopped)
    expect(field(reader, "rotor_angle")).to_have_value(f"{stopped:g}")
    stands(reader, stopped)


def test_with_reduced_motion_it_goes_in_steps(view: Reader) -> None:
    put(view, rotor_angle="30")
    run = calculator(view).locator(RUN)
    run.click()
    seen: set[float] = set()

    def two_steps() -> bool:
        seen.add(angle(view))
        return len(seen) >= 3

    eventually(two_steps, True, view.page)
    run.click()
    assert {value % 10.0 for value in seen} == {0.0}


def test_it_waits_while_it_is_scrolled_away(make_reader: MakeReader) -> None:
    reader = make_reader(reduced_motion="no-preference")
    wake(reader)
    calculator(reader).locator(RUN).click()
    reader.page.evaluate("window.scrollTo(0, document.body.scrollHeight)")
    reader.page.wait_for_timeout(500)
    before = angle(reader)
    reader.page.wait_for_timeout(1000)
    assert angle(reader) == before
    reader.page.evaluate("window.scrollTo(0, 0)")
    eventually(lambda: angle(reader) != before, True, reader.page)


def test_ten_minutes_of_turning_leave_the_memory_as_it_was(view: Reader) -> None:
    turn = """(one, turns) => {
      const { turning } = one.stage.view;
      for (let degrees = 0; degrees < 360 * turns; degrees += 90) { turning.angle = degrees % 360; turning.draw(); }
    }"""
    calculator(view).evaluate(turn, 1)
    before, used = memory(view), heap(view)
    assert before["geometries"] > 50, "there is something to count"
    # Ten minutes at 6 turns a minute, drawn four times a turn, in pieces so that the browser breathes.
    for _ in range(30):
        calculator(view).evaluate(turn, 2)
    assert memory(view) == before
    assert heap(view) - used < 1e6


def test_other_heads_leave_nothing_behind(view: Reader) -> None:
    put(view, "elder6")
    put(view, "alder3")
    before = memory(view)
    for base in ("elder6", "birch2", "dogwood5", "cedar4", "elder6"):
        put(view, base)
        put(view, "alder3")
    assert memory(view) == before


def test_lost_graphics_give_the_drawn_view_with_the_same_controls_and_come_back(make_reader: MakeReader) -> None:
    reader = make_reader()
    reader.watch.allow(LOST)
    wake(reader)
    one = calculator(reader)
    one.evaluate(
        "one => { window.losing = one.stage.view.context.getExtension('WEBGL_lose_context'); losing.loseContext(); }"
    )
    expect(one.locator("[data-part=drawing] svg")).to_be_visible()
    expect(one.locator(".hd-solid")).to_be_hidden()
    expect(one.locator(".hd-view-note")).to_contain_text("have been lost")
    one.locator(".hd-lever").press("End")
    reader.shows("motion", oracle.run("motion", inputs={"lever": "100"}))
    for name, degrees in (("On 10°", "40"), ("Back 10°", "30"), ("Back 10°", "20")):
        press(reader, name)
        reader.shows("motion", oracle.run("motion", inputs={"lever": "100", "rotor_angle": degrees}))
    reader.page.evaluate("window.losing.restoreContext()")
    expect(one).to_have_attribute("data-solid", "")
    expect(one.locator(".hd-solid canvas")).to_be_visible()
    stands(reader, 20, lever="100")


def test_without_webgl_the_drawn_view_has_the_same_controls(make_reader: MakeReader) -> None:
    reader = make_reader()
    reader.watch.allow(LOST)
    reader.page.add_init_script(NO_WEBGL)
    reader.open(PAGE)
    reader.touch("motion")
    one = calculator(reader)
    expect(one.locator(".hd-view-note")).to_contain_text("can’t show the solid view")
    expect(one.locator("[data-part=drawing] svg")).to_be_visible()
    press(reader, "View: above")
    reader.shows("motion", oracle.run("motion", inputs={"view": "above"}))
    one.locator(RUN).click()
    eventually(lambda: field(reader, "rotor_angle").input_value() != "30", True, reader.page)
    one.locator(RUN).click()
    expect(one.locator(RUN)).to_have_text("Turn slowly")
    assert float(field(reader, "rotor_angle").input_value()) % 10 == 0


def test_a_lost_script_leaves_the_drawn_view_live(make_reader: MakeReader) -> None:
    reader = make_reader()
    reader.watch.allow("head-view.js|ERR_FAILED|Failed to load resource")
    reader.page.route(re.compile("head-view\\.js"), lambda route: route.abort())
    reader.open(PAGE)
    reader.enter("motion", "lever", "70")
    reader.shows("motion", oracle.run("motion", inputs={"lever": "70"}))
    expect(calculator(reader).locator("[data-part=drawing] svg")).to_be_visible()


def test_another_theme_recolours_it(view: Reader) -> None:
    canvas = calculator(view).locator(".hd-solid canvas")
    before = canvas.screenshot()
    assert canvas.screenshot() == before, "nothing else changes the picture"
    for scheme, same in (("slate", False), ("default", True)):
        view.page.evaluate("scheme => document.body.setAttribute('data-md-color-scheme', scheme)", scheme)
        eventually(lambda: canvas.screenshot() == before, same, view.page)


def test_a_wrong_place_would_be_seen(view: Reader) -> None:
    """The comparison itself: joints of another angle are not taken for those that are drawn."""
    assert differences(where(view), package(40)) != {}
    assert len(drawn(where(view))["feet"]) == int(demonstration("alder3")["blades"])
