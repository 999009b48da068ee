"""Every page of the site: clean to axe, no sideways scroll on a phone, complete without script."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect

from . import oracle
from .conftest import PHONE, WIDE, MakeReader
from .reader import Reader

AXE = Path(__file__).resolve().parents[2] / "docs/assets/app/node_modules/axe-core/axe.min.js"
PAGES = [*oracle.PAGES] if "404.html" in oracle.PAGES else [*oracle.PAGES, "404.html"]
CHOSEN = (
    "index.html",
    "principles/control-phase.html",
    "parts/swashplate.html",
    "heads/cedar4.html",
    "hands/control-loads.html",
    "reference/calculators.html",
)


def violations(page: Page) -> list[str]:
    """What axe finds, in a line each."""
    page.add_script_tag(path=AXE)
    found: dict[str, Any] = page.evaluate("() => axe.run(document)")
    return [f"{v['id']}: {v['help']}: {[n['target'] for n in v['nodes']][:3]}" for v in found["violations"]]


@pytest.fixture(scope="module")
def looker(browser: Browser) -> Iterator[Page]:
    """A page whose policy lets axe in."""
    context = browser.new_context(
        viewport=WIDE, locale="en-GB", reduced_motion="reduce", bypass_csp=True, service_workers="block"
    )
    yield context.new_page()
    context.close()


@pytest.mark.parametrize("path", PAGES)
def test_axe_finds_nothing(looker: Page, address: str, path: str) -> None:
    looker.goto(address + path)
    assert violations(looker) == []


@pytest.mark.parametrize("path", CHOSEN)
@pytest.mark.parametrize("scheme", ["dark", "light"])
def test_axe_finds_nothing_on_a_phone(browser: Browser, address: str, path: str, scheme: Any) -> None:
    context = browser.new_context(
        viewport=PHONE, color_scheme=scheme, reduced_motion="reduce", bypass_csp=True, service_workers="block"
    )
    page = context.new_page()
    page.goto(address + path)
    assert violations(page) == []
    context.close()


def test_axe_finds_nothing_live_refused_and_with_a_code(browser: Browser, address: str) -> None:
    context = browser.new_context(viewport=WIDE, reduced_motion="reduce", bypass_csp=True, service_workers="block")
    context.add_init_script("window.handToDiscPublicUrl = 'https://example.org/heads/';")
    page = context.new_page()
    page.goto(address + oracle.PAGE_OF["phase"])
    calculator = page.locator('hd-calculator[name="phase"]')
    box = calculator.locator('[data-field="turn_rods"] input.hd-text')
    box.fill("12")
    box.press("Enter")
    expect(calculator).to_have_attribute("data-state", "live")
    assert violations(page) == []
    box.fill("twelve")
    box.press("Enter")
    expect(calculator).to_have_attribute("data-state", "refused")
    assert violations(page) == []
    calculator.get_by_role("button", name="QR code").click()
    expect(page.locator("dialog[open]")).to_be_visible()
    assert violations(page) == []
    context.close()


@pytest.mark.parametrize("path", PAGES)
def test_nothing_scrolls_sideways_on_a_phone(live: Reader, path: str) -> None:
    live.page.set_viewport_size(PHONE)
    if path == "404.html":
        live.watch.allow("404")
    live.open(path)
    assert live.page.evaluate("document.documentElement.scrollWidth") <= PHONE["width"]


@pytest.mark.parametrize("name", sorted(oracle.PAGE_OF))
def test_complete_without_script(make_reader: MakeReader, name: str) -> None:
    """Sentence, drawing, figures and working of the default head are in the page; a chart has its printed plot."""
    reader = make_reader(java_script_enabled=False)
    reader.open(oracle.PAGE_OF[name])
    calculator = reader.calculator(name)
    answer = oracle.run(name)
    expect(calculator.locator("[data-part=sentence]")).to_have_text(answer["spoken"])
    expect(calculator.locator("[data-part=drawing] svg")).to_be_visible()
    for result in calculator.locator(".hd-result dd").all():
        assert (result.text_content() or "").strip()
    assert calculator.locator("math").count() > 0
    expect(calculator.locator(".hd-head-label")).to_have_text("Alder 3")
    if "chart" in answer["parts"]:
        expect(calculator.locator("hd-chart svg")).to_be_visible()
    assert not re.search(r"loading(…|\.\.\.)", reader.page.locator("main").inner_text().lower())


@pytest.mark.parametrize("name", ["phase", "rod-load"])
def test_looking_fetches_no_python(reader: Reader, name: str) -> None:
    reader.open(oracle.PAGE_OF[name])
    reader.page.wait_for_load_state("networkidle")
    assert not reader.watch.runtime
    assert not [url for url in reader.watch.requests if "chart.js" in url]
    reader.touch(name)
    reader.state(name, "live")
    parts = {url.split("/")[-1].split("?")[0] for url in reader.watch.runtime if "part-" in url}
    # The page's own drawings may come too, and what any page may ask for once the network is gone; no other calculator.
    here = {f"part-{one}.zip" for one in (*reader.calculators(), "figures", "own", "carry")}
    assert f"part-{name}.zip" in parts
    assert parts <= here
