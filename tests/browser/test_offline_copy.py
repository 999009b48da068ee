"""The offline copy: pages visited are kept, all of them on a press; with the server gone it goes on; one build at a time, never
switched unasked; what breaks off or is spoiled leaves a working site."""

from __future__ import annotations

import contextlib
import hashlib
import json
import shutil
import socket
import threading
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import offline
import pytest
from house.server import Server, open_server
from playwright.sync_api import Browser, BrowserContext, Page, expect

from . import oracle
from .conftest import PHONE
from .reader import PATIENCE, Reader, eventually
from .watch import Watch

PAGE = "offline.html"
PHASE = oracle.PAGE_OF["phase"]


@dataclass
class Place:
    """A built site of its own at an address of its own, which can go away and come back."""

    folder: Path
    port: int = 0
    server: Server | None = None

    lines: list[socket.socket] = field(default_factory=list)

    def up(self) -> None:
        server = open_server(self.folder, self.port)
        accept = server.get_request

        def remembered() -> tuple[socket.socket, Any]:
            line, other = accept()
            self.lines.append(line)
            return line, other

        server.get_request = remembered  # type: ignore[method-assign]
        self.server, self.port = server, server.server_address[1]
        threading.Thread(target=server.serve_forever, daemon=True).start()

    def down(self) -> None:
        """Gone at once: lines that the browser holds open are cut too."""
        if self.server:
            self.server.shutdown()
            self.server.server_close()
        for line in self.lines:
            with contextlib.suppress(OSError):
                line.shutdown(socket.SHUT_RDWR)
        self.lines.clear()
        self.server = None

    def build(self) -> str:
        """The build the server has."""
        text = (self.folder / "sw.js").read_text(encoding="utf-8")
        files = json.dumps(offline.files_of(self.folder))
        name = hashlib.sha256(files.encode()).hexdigest()[:12]
        assert name in text
        return name

    def rebuild(self, words: str) -> None:
        """Another build: other words on two pages, and a worker that knows them."""
        for name in ("index.html", PHASE):
            page = self.folder / name
            page.write_text(page.read_text(encoding="utf-8").replace("</h1>", f" {words}</h1>", 1), encoding="utf-8")
        offline.write_worker(self.folder)


@pytest.fixture(scope="module")
def built(site: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The built site, copied once."""
    target = tmp_path_factory.mktemp("copy") / "site"
    shutil.copytree(site, target)
    return target


@pytest.fixture
def place(built: Path, tmp_path: Path) -> Iterator[Place]:
    folder = tmp_path / "site"
    shutil.copytree(built, folder)
    one = Place(folder)
    one.up()
    yield one
    one.down()


@pytest.fixture
def context(browser: Browser) -> Iterator[BrowserContext]:
    made = browser.new_context(viewport=PHONE, locale="en-GB", reduced_motion="reduce")
    made.set_default_timeout(PATIENCE * 1000)
    yield made
    made.close()


def address(place: Place) -> str:
    return f"http://127.0.0.1:{place.port}/"


def open_page(context: BrowserContext, place: Place, path: str) -> Page:
    page = context.new_page()
    page.goto(address(place) + path)
    return page


def controlled(page: Page) -> None:
    eventually(lambda: page.evaluate("navigator.serviceWorker.controller !== null"), True, page)


def state(page: Page, wanted: str) -> None:
    expect(page.locator("[data-offline]")).to_have_attribute("data-copy", wanted, timeout=60_000)


def whole_copy(context: BrowserContext, place: Place) -> Page:
    """Press the button and wait until all of it is there."""
    page = open_page(context, place, PAGE)
    controlled(page)
    page.get_by_role("button", name="Keep everything").click()
    expect(page.locator(".hd-copy-said")).to_contain_text("is complete", timeout=60_000)
    state(page, "complete")
    return page


def kept_paths(page: Page) -> list[str]:
    found: list[str] = page.evaluate(
        """async () => { const names = (await caches.keys()).filter((name) => name.startsWith("hand-to-disc-copy-"));
        const all = []; for (const name of names) for (const one of await (await caches.open(name)).keys()) all.push(new URL(one.url).pathname);
        return all; }"""
    )
    return found


def test_all_of_it_with_size_and_build_and_then_the_server_goes(context: BrowserContext, place: Place) -> None:
    page = whole_copy(context, place)
    files = offline.files_of(place.folder)
    megabytes = f"{sum(size for _, size in files.values()) / 1e6:.1f} MB"
    expect(page.locator(".hd-copy-said")).to_contain_text(f"all {len(files)} files, {megabytes}, build {place.build()}")
    place.down()
    # A fresh tab, a deep link with values, Python from the copy; then another page, search, the moving view's script.
    other = open_page(context, place, f"{PHASE}#phase&head=cedar4&turn_rods=9")
    reader = Reader(other, Watch(context, address(place)), address(place))
    reader.shows("phase", oracle.run("phase", "cedar4", inputs={"turn_rods": "9"}))
    other.goto(address(place) + "teaching/practise.html")
    other.get_by_role("button", name="Ask me").click()
    expect(other.locator(".hd-ask .hd-ask-prompt")).to_be_visible()
    other.goto(address(place) + "see-it-move.html")
    reader.touch("motion")
    reader.state("motion", "live")
    expect(reader.calculator("motion")).to_have_attribute("data-solid", "")
    other.goto(address(place))
    expect(other.get_by_role("heading", level=1)).to_contain_text("How early")


def test_pages_visited_are_kept_and_others_are_told(context: BrowserContext, place: Place) -> None:
    page = open_page(context, place, PHASE)
    controlled(page)
    eventually(lambda: f"/{PHASE}" in kept_paths(page), True, page)
    page.goto(address(place) + "hands/shake.html")
    place.down()
    page.goto(address(place) + "hands/shake.html")
    expect(page.get_by_role("heading", level=1)).to_contain_text("number of blades")
    page.goto(address(place) + PHASE)
    expect(page.get_by_role("heading", level=1)).to_contain_text("How far before the nose")
    page.goto(address(place) + "hands/mixing.html")
    expect(page.get_by_role("heading", level=1)).to_have_text("This page isn’t in your copy")
    page.get_by_role("link", name="To the first page").click()
    expect(page.get_by_role("heading", level=1)).to_contain_text("How early")


def test_a_newer_build_waits_until_it_is_asked_for_and_then_is_there_as_a_whole(
    context: BrowserContext, place: Place
) -> None:
    page = whole_copy(context, place)
    old = place.build()
    place.rebuild("newer")
    page.goto(address(place))
    expect(page.get_by_role("heading", level=1)).not_to_contain_text("newer")
    offer = page.get_by_role("button", name="Switch to it")
    page.evaluate("navigator.serviceWorker.ready.then((one) => one.update())")
    expect(offer).to_be_visible(timeout=60_000)
    # Not asked for: pages stay those of the old build, in a fresh tab too.
    fresh = open_page(context, place, PHASE)
    expect(fresh.get_by_role("heading", level=1)).not_to_contain_text("newer")
    fresh.close()
    offer.click()
    expect(page.get_by_role("heading", level=1)).to_contain_text("newer", timeout=30_000)
    place.down()
    page.goto(address(place) + PAGE)
    state(page, "complete")
    expect(page.locator(".hd-copy-said")).to_contain_text(f"build {place.build()}")
    assert old != place.build()
    page.goto(address(place) + PHASE)
    expect(page.get_by_role("heading", level=1)).to_contain_text("newer")


def test_an_update_that_breaks_off_leaves_the_old_copy_working(context: BrowserContext, place: Place) -> None:
    page = whole_copy(context, place)
    old = place.build()
    place.rebuild("newer")
    (place.folder / "index.html").unlink()  # the server gives the worker that knows it, but not the file
    page.evaluate("navigator.serviceWorker.ready.then((one) => one.update())")
    eventually(
        lambda: page.evaluate(
            "navigator.serviceWorker.ready.then((one) => one.installing === null && one.waiting === null)"
        ),
        True,
        page,
    )
    place.down()
    page.goto(address(place))
    expect(page.get_by_role("heading", level=1)).not_to_contain_text("newer")
    page.goto(address(place) + PAGE)
    state(page, "complete")
    expect(page.locator(".hd-copy-said")).to_contain_text(f"build {old}")


def test_page_and_scripts_of_different_builds_never_meet(context: BrowserContext, place: Place) -> None:
    """A page that isn't in the copy comes from a newer build by now: it is not shown with the old one's scripts."""
    page = open_page(context, place, "index.html")
    controlled(page)
    for name in ("hands/mixing.html", "assets/hd/teach.js"):
        path = place.folder / name
        path.write_text(path.read_text(encoding="utf-8") + "\n", encoding="utf-8")
    page.goto(address(place) + "hands/mixing.html")
    expect(page.get_by_role("heading", level=1)).to_have_text("There is a newer version of this site")
    status = page.evaluate("fetch('assets/hd/teach.js').then((one) => one.status)")
    assert status in (404, 409)
    page.goto(address(place))
    assert page.evaluate("fetch('assets/hd/teach.js').then((one) => one.status)") == 409


def test_spoiled_and_missing_entries_are_had_again(context: BrowserContext, place: Place) -> None:
    page = whole_copy(context, place)
    page.evaluate(
        """async () => { const name = (await caches.keys()).find((one) => one.startsWith("hand-to-disc-copy-")); const cache = await caches.open(name);
        await cache.put(new URL("index.html", location.href).href, new Response("<h1>spoiled</h1>", { headers: { "content-type": "text/html" } }));
        await cache.put(new URL("assets/hd/app.css", location.href).href, new Response("body { display: none }", { headers: { "content-type": "text/css" } }));
        await cache.delete(new URL("hands/mixing.html", location.href).href); }"""
    )
    page.goto(address(place))
    expect(page.get_by_role("heading", level=1)).to_contain_text("How early")
    expect(page.locator("body")).to_be_visible()
    page.goto(address(place) + PAGE)
    page.get_by_role("button", name="Check the copy").click()
    expect(page.locator(".hd-copy-said")).to_contain_text("Checked")
    page.get_by_role("button", name="Keep everything").click()
    state(page, "complete")
    page.evaluate(
        """async () => { const name = (await caches.keys()).find((one) => one.startsWith("hand-to-disc-copy-")); const cache = await caches.open(name);
        await cache.put(new URL("hands/shake.html", location.href).href, new Response("spoiled")); }"""
    )
    page.get_by_role("button", name="Check the copy").click()
    expect(page.locator(".hd-copy-said")).to_contain_text("1 file was spoiled")
    page.get_by_role("button", name="Remove the copy").click()
    state(page, "none")


def test_keeping_all_that_breaks_off_goes_on_where_it_stopped(context: BrowserContext, place: Place) -> None:
    page = open_page(context, place, PAGE)
    controlled(page)
    expect(page.locator(".hd-copy-said")).to_contain_text("Part of the copy")
    hidden = place.folder / "hands" / "shake.html"
    moved = hidden.rename(place.folder / "elsewhere.html")
    page.get_by_role("button", name="Keep everything").click()
    expect(page.locator(".hd-copy-said")).to_contain_text("newer version", timeout=60_000)
    state(page, "part")
    moved.rename(hidden)
    place.down()
    page.get_by_role("button", name="Keep everything").click()
    expect(page.locator(".hd-copy-said")).to_contain_text("broke off", timeout=60_000)
    place.up()
    page.get_by_role("button", name="Keep everything").click()
    state(page, "complete")


def test_it_can_be_installed(site: Path) -> None:
    manifest = json.loads((site / "manifest.webmanifest").read_text(encoding="utf-8"))
    assert manifest["start_url"] == "./index.html"
    for icon in manifest["icons"]:
        picture = (site / icon["src"]).read_bytes()
        assert picture[:8] == b"\x89PNG\r\n\x1a\n"
        assert f"{int.from_bytes(picture[16:20])}x{int.from_bytes(picture[20:24])}" == icon["sizes"]
    assert 'rel="manifest"' in (site / "hands/shake.html").read_text(encoding="utf-8")


def test_two_tabs_switch_together(context: BrowserContext, place: Place) -> None:
    one = open_page(context, place, "index.html")
    controlled(one)
    two = open_page(context, place, PHASE)
    controlled(two)
    place.rebuild("newer")
    one.evaluate("navigator.serviceWorker.ready.then((it) => it.update())")
    expect(two.get_by_role("button", name="Switch to it")).to_be_visible(timeout=60_000)
    two.get_by_role("button", name="Switch to it").click()
    expect(two.get_by_role("heading", level=1)).to_contain_text("newer", timeout=30_000)
    expect(one.get_by_role("heading", level=1)).to_contain_text("newer", timeout=30_000)


def test_a_device_with_no_more_room_says_so_and_keeps_what_it_has(context: BrowserContext, place: Place) -> None:
    page = open_page(context, place, PAGE)
    controlled(page)
    expect(page.locator(".hd-copy-said")).to_contain_text("Part of the copy")
    used = page.evaluate("navigator.storage.estimate().then((one) => one.usage)")
    origin = address(place).rstrip("/")
    context.new_cdp_session(page).send(
        "Storage.overrideQuotaForOrigin", {"origin": origin, "quotaSize": used + 1_500_000}
    )
    page.get_by_role("button", name="Keep everything").click()
    expect(page.locator(".hd-copy-said")).to_contain_text("no more room", timeout=60_000)
    state(page, "part")
    # Pages that are not kept are shown all the same while there is a network, and those that are kept without one.
    page.goto(address(place) + "hands/shake.html")
    expect(page.get_by_role("heading", level=1)).to_contain_text("number of blades")
    place.down()
    page.goto(address(place))
    expect(page.get_by_role("heading", level=1)).to_contain_text("How early")
