"""A Chromium for the browser tests: the system's, else installed, else the test library's own."""

from __future__ import annotations

import os
import shutil
import subprocess
from pathlib import Path

from house.python import venv_tool
from house.say import TroubleError, run_quietly, say

# Tests and benchmarks read the browser's path from here.
VARIABLE = "HAND_TO_DISC_BROWSER"

NAMES = (
    "chromium",
    "chromium-browser",
    "google-chrome",
    "google-chrome-stable",
    "chrome",
    "msedge",
    "microsoft-edge",
)
PLACES = (
    "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
    "/Applications/Chromium.app/Contents/MacOS/Chromium",
    r"C:\Program Files\Google\Chrome\Application\chrome.exe",
    r"C:\Program Files (x86)\Microsoft\Edge\Application\msedge.exe",
)
ASK_PLAYWRIGHT = (
    "from playwright.sync_api import sync_playwright\nwith sync_playwright() as p: print(p.chromium.executable_path)"
)


def find_browser() -> Path | None:
    """A Chromium-like browser that this machine has, or None."""
    chosen = os.environ.get(VARIABLE)
    if chosen:
        if not Path(chosen).is_file():
            raise TroubleError(f"{VARIABLE} names {chosen}, and there is no such file.")
        return Path(chosen)
    for name in NAMES:
        found = shutil.which(name)
        if found:
            return Path(found)
    for place in PLACES:
        if Path(place).is_file():
            return Path(place)
    return _playwrights_own()


def _playwrights_own() -> Path | None:
    """The browser that Playwright downloaded earlier, if it did."""
    done = subprocess.run([str(venv_tool("python")), "-c", ASK_PLAYWRIGHT], capture_output=True, text=True)
    path = Path(done.stdout.strip() or "missing")
    return path if done.returncode == 0 and path.is_file() else None


def _install_with_apt() -> None:
    """Debian and Ubuntu as root (a container, say): their own package."""
    say("No browser for the tests: installing Debian's Chromium (a minute or two, once) …")
    env = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
    apt = ["apt-get", "--quiet", "--option", "DPkg::Lock::Timeout=300"]
    try:
        run_quietly([*apt, "update"], "apt-get update failed.", env=env)
        run_quietly(
            [*apt, "install", "--yes", "--no-install-recommends", "chromium"],
            "apt-get could not install chromium.",
            env=env,
        )
    except TroubleError as trouble:
        say(f"{trouble} Trying the test library's own download …")


def ensure_browser() -> Path:
    """A browser, installing one if there is none."""
    found = find_browser()
    if found is None and shutil.which("apt-get") and hasattr(os, "geteuid") and os.geteuid() == 0:
        _install_with_apt()
        found = find_browser()
    if found is None:
        say("Fetching a browser for the tests (a minute or two, once) …")
        run_quietly(
            [venv_tool("python"), "-m", "playwright", "install", "chromium"],
            "The browser tests need Chromium, Chrome or Edge, and none was found or could be fetched. "
            f"Install one, or set {VARIABLE} to the path of one, and try again.",
        )
        found = find_browser()
    if found is None:
        raise TroubleError("A browser was fetched but can't be found.")
    return found
