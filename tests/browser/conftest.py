"""One browser for all tests, one server of the built site, and a page whose faults fail the test."""

from __future__ import annotations

import contextlib
import os
import sys
import threading
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from house.browser import CHROMIUM, find
from house.server import open_server
from playwright.sync_api import Browser, BrowserContext, Playwright, expect, sync_playwright

from . import moving
from .reader import PATIENCE, Reader
from .watch import Watch

WIDE: Any = {"width": 1280, "height": 800}
PHONE: Any = {"width": 360, "height": 800}

# A Chromium with a window draws its own address list and buttons as pages now, in a process of their own for every reader: a
# second of work each that nobody sees. The flag takes the place of the test library's own, so its names stand here too.
FEATURES_OFF = (
    "AimEnabled,AvoidCorsURLLoaderRestartOnRedirect,AvoidUnnecessaryBeforeUnloadCheckSync,"
    "DestroyProfileOnBrowserClose,HttpsFirstBalancedModeAutoEnable,HttpsUpgrades,LensOverlay,MediaRouter,"
    "NetworkTimeServiceQuerying,OptimizationHints,PaintHolding,PreconnectToSearch,TcpPortRandomizationWin,"
    "ThirdPartyStoragePartitioning,Translate,InitialWebUI,InitialWebUISyncNavStartToCommit,PreloadTopChromeWebUI,"
    "SkipIPCChannelPausingForNonGuests,WebUIInProcessResourceLoading,WebUILocationBar,WebUIOmniboxAimPopup,"
    "WebUIOmniboxFullPopup,WebUIOmniboxPopup,WebUIReloadButton,WebUITabStrip,WebUIToolbar"
)

MakeReader = Callable[..., Reader]


@pytest.fixture(scope="session")
def address(site: Path) -> Iterator[str]:
    """Where the project's own server serves the built site; ends in a slash."""
    server = open_server(site, 0)
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    yield f"http://127.0.0.1:{server.server_address[1]}/"
    server.shutdown()
    server.server_close()
    thread.join()


@contextlib.contextmanager
def started(playwright: Playwright, **options: Any) -> Iterator[Browser]:
    """Chromium: the one `scripts/test.py` names, else the one it would find."""
    path = find(CHROMIUM)
    if path is None:
        pytest.fail("No Chromium was found; python3 scripts/test.py installs one.")
    flags = [
        "--disable-gpu",
        "--disable-background-networking",
        "--disable-component-update",
        "--disable-sync",
        f"--disable-features={FEATURES_OFF}",
        # The moving view is painted in software, on every machine alike; newer browsers must be told that this is meant.
        "--use-angle=swiftshader",
        "--enable-unsafe-swiftshader",
    ]
    if sys.platform.startswith("linux") and os.geteuid() == 0:
        flags.append("--no-sandbox")
    one = playwright.chromium.launch(executable_path=path, args=flags, **options)
    yield one
    one.close()


@pytest.fixture(scope="session")
def playwright() -> Iterator[Playwright]:
    expect.set_options(timeout=PATIENCE * 1000)
    with sync_playwright() as one:
        yield one


@pytest.fixture(scope="session")
def browser(playwright: Playwright) -> Iterator[Browser]:
    """One for all tests of a process."""
    with started(playwright) as one:
        yield one


def reader_context(browser: Browser, **options: Any) -> BrowserContext:
    # Local time, language and motion must not depend on the machine.
    chosen: dict[str, Any] = {
        "viewport": WIDE,
        "locale": "en-GB",
        "reduced_motion": "reduce",
        "service_workers": "block",
        **options,
    }
    context = browser.new_context(**chosen)
    context.set_default_timeout(PATIENCE * 1000)
    return context


@pytest.fixture
def make_reader(browser: Browser, address: str) -> Iterator[MakeReader]:
    """Readers with a device of their own each (nothing kept from another test)."""
    made: list[Reader] = []

    def make(own: str = "", **options: Any) -> Reader:
        context = reader_context(browser, **options)
        watch = Watch(context, own or address)
        one = Reader(context.new_page(), watch, own or address)
        made.append(one)
        return one

    yield make
    faults = [fault for one in made for fault in one.watch.faults()]
    for one in made:
        one.page.context.close()
    assert not faults, "\n".join(faults)


@pytest.fixture
def reader(make_reader: MakeReader) -> Reader:
    """A reader at a wide screen."""
    return make_reader()


@pytest.fixture
def phone(make_reader: MakeReader) -> Reader:
    """A reader with a small telephone."""
    return make_reader(viewport=PHONE, has_touch=True)


@pytest.fixture(scope="module")
def kept_reader(browser: Browser, address: str) -> Iterator[Reader]:
    """A reader who stays on one page for a whole module, so that Python is started once. Use through `live`."""
    context = reader_context(browser)
    yield Reader(context.new_page(), Watch(context, address), address)
    context.close()


@pytest.fixture
def live(kept_reader: Reader) -> Iterator[Reader]:
    """The reader kept for the module; faults fail the test that brought them about."""
    yield kept_reader
    kept_reader.watch.judge()


@pytest.fixture
def view(live: Reader) -> Reader:
    """The page of the moving view with its solid picture awake, everything as the head has it."""
    live.watch.allow(moving.SOFTWARE)
    if moving.PAGE not in live.page.url:
        moving.wake(live)
    moving.put(live)
    return live
