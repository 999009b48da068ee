"""The same pages in Firefox: from a server and from the kiosk's ZIP, unpacked in a fresh folder and opened from the disk."""

from __future__ import annotations

import re
import zipfile
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from house import kiosk
from house.browser import FIREFOX, find

from . import oracle
from .disc_canvas import COLOURS, band_names, calm_places, differ, field_data, field_text, places_of
from .fox import Fox, FoxPage
from .learner import PRACTICE, right_answer
from .policy import ATTEMPTS
from .test_offline_copy import Place

PHASE = oracle.PAGE_OF["phase"]
SETTINGS = {"start": PHASE, "head": "cedar4", "after": 60, "search": True, "print": False}
# The theme's search, from a folder, where a page is left before its list of words is in.
LEFT_EARLY = "Invalid script: .*search_index.js"
LIVE = "document.querySelector('hd-calculator').dataset.state"
RIGHT, LEFT, ENTER = "\ue014", "\ue012", "\ue007"
OpenFox = Callable[..., FoxPage]


@pytest.fixture(scope="module")
def fox() -> Iterator[Fox]:
    program = find(FIREFOX)
    if program is None:
        pytest.fail("No Firefox was found; python3 scripts/test.py installs one.")
    one = Fox(program)
    yield one
    one.end()


@pytest.fixture(scope="module")
def folder(site: Path, tmp_path_factory: pytest.TempPathFactory) -> str:
    """The kiosk's ZIP, unpacked under a name with a space and an umlaut; its address."""
    place = tmp_path_factory.mktemp("fox")
    kiosk.write_folder(site, place / "hand-to-disc-kiosk", SETTINGS)
    kiosk.write_zip(place / "hand-to-disc-kiosk", place / "kiosk.zip")
    with zipfile.ZipFile(place / "kiosk.zip") as archive:
        archive.extractall(place / "a stick for Übung")
    return (place / "a stick for Übung" / "hand-to-disc-kiosk").as_uri() + "/"


@pytest.fixture
def open_fox(fox: Fox) -> Iterator[OpenFox]:
    """Tabs with fresh storage; judged at the end."""
    made: list[FoxPage] = []

    def make(width: int = 1280, height: int = 900) -> FoxPage:
        made.append(fox.page(width, height))
        return made[-1]

    yield make
    faults = [fault for page in made for fault in page.faults()]
    for page in made:
        page.close()
    assert not faults, "\n".join(faults)


@pytest.fixture(params=["server", "folder"])
def base(request: pytest.FixtureRequest, address: str, folder: str) -> str:
    return address if request.param == "server" else folder


def test_a_link_is_answered_as_in_cpython_and_a_slider_moves_it(open_fox: OpenFox, base: str) -> None:
    page = open_fox()
    page.open(f"{base}{PHASE}#phase&head=cedar4&turn_rods=9")
    page.shows("phase", oracle.run("phase", "cedar4", inputs={"turn_rods": "9"})["parts"])
    page.press('[data-field="turn_rods"] input.hd-slider', RIGHT, RIGHT, LEFT)
    page.shows("phase", oracle.run("phase", "cedar4", inputs={"turn_rods": "10"})["parts"])
    assert all(url.startswith((base, "blob:", "data:")) for url in page.requests())


@pytest.mark.parametrize("name", ["rod-load", "shake", "boost", "worksheet", "joint"])
def test_other_calculators_from_the_folder_answer_as_in_cpython(open_fox: OpenFox, folder: str, name: str) -> None:
    page = open_fox(360, 800)
    page.open(f"{folder}{oracle.PAGE_OF[name]}#{name}&head=elder6")
    page.shows(name, oracle.run(name, "elder6")["parts"])


def test_the_kiosk_starts_at_its_page_and_its_search_finds(open_fox: OpenFox, folder: str) -> None:
    page = open_fox()
    page.allowed = [LEFT_EARLY]
    page.open(folder + "index.html")
    page.until("location.pathname.endsWith('control-phase.html') && document.readyState", "complete")
    page.until("document.querySelector('.hd-kiosk-band')?.textContent.includes('Offline, build')")
    page.until("document.querySelector('.hd-header-button')?.textContent.includes('Cedar 4')")
    page.press("input.md-search__input", *"tennis")
    page.until("document.querySelectorAll('.md-search-result__item').length > 0")


def test_the_moving_view_turns_or_is_drawn(open_fox: OpenFox, base: str) -> None:
    page = open_fox()
    page.allowed = ["WebGL|webgl"]  # where a machine has none, the drawn view stands there
    page.open(f"{base}see-it-move.html")
    page.press('hd-calculator[name="motion"] input.hd-slider', RIGHT)
    page.until("document.querySelector('hd-calculator').dataset.state", "live")
    solid = page.run("document.createElement('canvas').getContext('webgl2') !== null")
    page.until("document.querySelector('hd-calculator').hasAttribute('data-solid')", solid)


def test_practice_asks_and_marks(open_fox: OpenFox, base: str) -> None:
    page = open_fox()
    page.open(base + PRACTICE)
    page.until("document.querySelector('#hd-practice-topic') !== null")
    page.run(
        "(topic) => { const one = document.querySelector('#hd-practice-topic'); one.value = topic; one.dispatchEvent(new Event('change')); }",
        "phase",
    )
    page.click(".hd-practice-top button")
    page.until("document.querySelector('.hd-ask .hd-ask-prompt') !== null")
    for _ in range(20):
        template, seed, number = page.run(
            "(() => { const one = document.querySelector('.hd-ask'); return [one.dataset.template, one.dataset.seed, one.querySelector('.hd-ask-number input') !== null && !one.querySelector('.hd-dial-over')]; })()"
        )
        if number:
            break
        page.click(".hd-practice-top button")
        page.until(f"document.querySelector('.hd-ask').dataset.seed !== {seed!r}")
    head = (
        "cedar4" if base.startswith("file:") and "kiosk" in page.run("document.documentElement.className") else "alder3"
    )
    answer = right_answer(
        template, seed, page.run("JSON.parse(localStorage.getItem('hand-to-disc') ?? '{}').base ?? ''") or head
    )
    page.press(".hd-ask .hd-ask-number input", *answer, ENTER)
    page.click(".hd-ask button.hd-button")
    page.until("document.querySelector('.hd-practice-count').textContent.includes('Answered 1, right 1.')")


def test_back_the_page_is_as_it_was_and_answers(open_fox: OpenFox, base: str) -> None:
    page = open_fox()
    page.open(f"{base}{PHASE}#phase&head=cedar4&turn_rods=9")
    page.until(LIVE, "live")
    page.open(base + "parts/rods.html")
    page.back()
    page.until("location.pathname.endsWith('control-phase.html') && document.readyState", "complete")
    page.press('[data-field="turn_rods"] input.hd-slider', RIGHT)
    page.shows("phase", oracle.run("phase", "cedar4", inputs={"turn_rods": "10"})["parts"])


def test_the_field_over_the_disc_is_the_array(open_fox: OpenFox, base: str) -> None:
    page = open_fox()
    page.open(f"{base}{oracle.PAGE_OF['speed']}#speed&head=alder3&speed=140")
    page.until("document.querySelector('hd-calculator[name=speed]').dataset.state", "live")
    page.until("document.querySelector('hd-field canvas') !== null")
    data = field_data(oracle.run("speed", inputs={"speed": "140"}))
    page.until(
        "document.querySelector('hd-field').dataset.field", field_text(oracle.run("speed", inputs={"speed": "140"}))
    )
    calm = calm_places(data)
    width = page.run("document.querySelector('hd-field canvas').getBoundingClientRect().width")
    looked = f"(places, names) => ({COLOURS})([document.querySelector('hd-field'), places, names])"
    seen, bands, _ = page.run(looked, places_of(data, calm, width), band_names(data))
    assert len(calm) > 40
    assert differ(seen, bands, calm) <= 0.04 * len(calm)


@pytest.mark.parametrize("attempt", ATTEMPTS)
def test_what_the_policy_forbids_is_refused(open_fox: OpenFox, base: str, attempt: str) -> None:
    page = open_fox()
    page.allowed = ["Content.Security.Policy|NS_ERROR|blocked|-src|-uri|form-action|eval"]
    page.open(base + PHASE)
    expression, directive = ATTEMPTS[attempt]
    page.run(expression)
    page.until(f"window.refusals.some((one) => one.startsWith('{directive}'))")
    assert page.run(
        "[window.reached ?? 0, document.baseURI.includes('elsewhere.invalid'), location.href.includes('elsewhere.invalid')]"
    ) == [0, False, False]


def test_script_in_a_link_stays_text(open_fox: OpenFox, base: str) -> None:
    page = open_fox()
    page.open(
        f"{base}{PHASE}#phase&head=alder3&turn_rods=%3Cimg%20src%3Dx%20onerror%3D%22window.hurt%3D1%22%3E&head.rpm=%3Cscript%3E"
    )
    page.until("document.querySelector('hd-head .hd-notes').textContent.includes('<')")
    assert page.run("[document.querySelectorAll('img[src=x]').length, window.hurt ?? 0]") == [0, 0]


def test_pages_open_quietly_from_the_folder_on_a_phone(
    open_fox: OpenFox, folder: str, site: Path, request: pytest.FixtureRequest
) -> None:
    """Every fourth page; all of them with --long."""
    page = open_fox(360, 800)
    page.allowed = [LEFT_EARLY]
    pages = sorted(one.relative_to(site).as_posix() for one in site.rglob("*.html") if one.name != "404.html")
    assert len(pages) > 70
    for path in pages if request.config.getoption("--long") else pages[::4]:
        page.open(folder + path)
        wide, refused = page.run("[document.documentElement.scrollWidth, window.refusals]")
        assert wide <= 360, f"{path} scrolls sideways: {wide}"
        assert refused == [], f"{path}: {refused}"
        assert not [url for url in page.requests() if re.match(r"https?:", url)], path


def test_a_whole_copy_goes_on_without_the_server(open_fox: OpenFox, site: Path) -> None:
    place = Place(site)
    place.up()
    try:
        page = open_fox()
        page.open(f"http://127.0.0.1:{place.port}/offline.html")
        page.until("navigator.serviceWorker.controller !== null")
        page.run(
            "[...document.querySelectorAll('button')].find((one) => one.textContent.startsWith('Keep everything')).click()"
        )
        page.until("document.querySelector('[data-offline]').dataset.copy", "complete", patience=90)
        place.down()
        page.open(f"http://127.0.0.1:{place.port}/{PHASE}#phase&head=cedar4&turn_rods=9")
        page.shows("phase", oracle.run("phase", "cedar4", inputs={"turn_rods": "9"})["parts"])
    finally:
        place.down()
