"""What is printed and what is drawn never say two different things: heads picked, Python lost, paper."""

from __future__ import annotations

import io
import re

from playwright.sync_api import expect
from pypdf import PdfReader

from . import oracle
from .conftest import MakeReader
from .moving import PAGE, SOFTWARE, calculator, put, stands, wake
from .reader import Reader, eventually
from .workers import watch_workers


def test_a_head_that_was_printed_before_is_drawn_when_it_is_picked_again(reader: Reader) -> None:
    """Its print is at hand and needs no Python; the solid view does."""
    reader.watch.allow(SOFTWARE)
    reader.open(PAGE)
    for base in ("dogwood5", "cedar4"):
        reader.pick_head(base)
        reader.shows("motion", oracle.run("motion", base))
    reader.touch("motion")
    expect(calculator(reader)).to_have_attribute("data-solid", "")
    stands(reader, 30, "cedar4")
    reader.pick_head("dogwood5")
    stands(reader, 30, "dogwood5")
    reader.turn_button.click()
    stands(reader, 30, "dogwood5", True)
    reader.shows("motion", oracle.run("motion", "dogwood5", True))


def test_with_python_lost_the_drawn_view_shows_what_is_printed(make_reader: MakeReader) -> None:
    reader = make_reader()
    watch_workers(reader.page, "native", "broken at start")
    wake(reader)
    put(reader, lever="80")
    one = calculator(reader)
    printed = oracle.run("motion")["spoken"]
    # The worker dies; the next one does not start.
    reader.page.evaluate("handToDiscTest.workers.at(-1).onmessage({ data: { type: 'broken', text: 'out of memory' } })")
    reader.enter("motion", "lever", "90")
    reader.state("motion", "unavailable")
    expect(one.locator("[data-part=sentence]")).to_have_text(printed)
    expect(one.locator("[data-part=drawing] svg")).to_be_visible()
    expect(one.locator(".hd-solid")).to_be_hidden()
    expect(one.locator(".hd-view-note")).to_contain_text("as they are printed")
    one.get_by_role("button", name="Try again").click()
    expect(one).to_have_attribute("data-solid", "")
    stands(reader, 30, lever="90")


def test_paper_gets_the_drawn_view(reader: Reader) -> None:
    wake(reader)
    answer = put(reader, "cedar4", lever="70", rotor_angle="100", view="side", part="links")
    one = calculator(reader)
    reader.page.emulate_media(media="print")
    expect(one.locator("[data-part=drawing] svg")).to_be_visible()
    for away in (".hd-solid canvas", ".hd-hands", ".hd-views", ".hd-turn"):
        expect(one.locator(away)).to_be_hidden()
    wanted = reader.rewritten({"": answer["parts"]["drawing"]})[""]
    eventually(lambda: one.locator("[data-part=drawing]").inner_html(), wanted, reader.page)
    reader.page.emulate_media(media="null")
    paper = PdfReader(io.BytesIO(reader.page.pdf(format="A4")))
    text = re.sub(r"\s+", " ", " ".join(sheet.extract_text() for sheet in paper.pages))
    assert answer["spoken"][:60] in text
    assert "Stop with blade" not in text
    # What the picked part does is printed with it.
    assert "What it does" in text
    expect(one.locator(".hd-solid canvas")).to_be_visible()
