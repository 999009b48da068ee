"""The browsers of the tests: the system's, else installed, else (Chromium) the test library's own."""

from __future__ import annotations

import os
import shutil
import subprocess
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from house.python import venv_tool
from house.say import TroubleError, run_quietly, say


@dataclass(frozen=True)
class Kind:
    """A browser: what it is called where. Tests and benchmarks read its path from the variable."""

    name: str
    variable: str
    commands: tuple[str, ...]
    places: tuple[str, ...]
    package: str


CHROMIUM = Kind(
    name="Chromium, Chrome or Edge",
    variable="HAND_TO_DISC_BROWSER",
    commands=(
        "chromium",
        "chromium-browser",
        "google-chrome",
        "google-chrome-stable",
        "chrome",
        "msedge",
        "microsoft-edge",
    ),
    places=(
        "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
        "/Applications/Chromium.app/Contents/MacOS/Chromium",
        r"C:\Program Files\Google\Chrome\Application\chrome.exe",
        r"C:\Program Files (x86)\Microsoft\Edge\Application\msedge.exe",
    ),
    package="chromium",
)
FIREFOX = Kind(
    name="Firefox",
    variable="HAND_TO_DISC_FIREFOX",
    commands=("firefox-esr", "firefox"),
    places=(
        "/Applications/Firefox.app/Contents/MacOS/firefox",
        r"C:\Program Files\Mozilla Firefox\firefox.exe",
        r"C:\Program Files (x86)\Mozilla Firefox\firefox.exe",
    ),
    package="firefox-esr",
)
ASK_PLAYWRIGHT = (
    "from playwright.sync_api import sync_playwright\nwith sync_playwright() as p: print(p.chromium.executable_path)"
)


def find(kind: Kind) -> Path | None:
    """A browser of this kind that the machine has, or None."""
    chosen = os.environ.get(kind.variable)
    if chosen:
        if not Path(chosen).is_file():
            raise TroubleError(f"{kind.variable} names {chosen}, and there is no such file.")
        return Path(chosen)
    for command in kind.commands:
        found = shutil.which(command)
        if found:
            return Path(found)
    for place in kind.places:
        if Path(place).is_file():
            return Path(place)
    return _playwrights_own() if kind is CHROMIUM else None


def _playwrights_own() -> Path | None:
    """The browser that Playwright downloaded earlier, if it did."""
    done = subprocess.run([str(venv_tool("python")), "-c", ASK_PLAYWRIGHT], capture_output=True, text=True)
    path = Path(done.stdout.strip() or "missing")
    return path if done.returncode == 0 and path.is_file() else None


def _install_with_apt(kinds: Sequence[Kind]) -> None:
    """Debian and Ubuntu as root (a container, say): their own packages."""
    packages = [kind.package for kind in kinds]
    say(f"Browsers for the tests: installing Debian's {' and '.join(packages)} (a minute or two, once) …")
    env = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
    apt = ["apt-get", "--quiet", "--option", "DPkg::Lock::Timeout=300"]
    try:
        run_quietly([*apt, "update"], "apt-get update failed.", env=env)
        for package in packages:
            run_quietly(
                [*apt, "install", "--yes", "--no-install-recommends", package],
                f"apt-get could not install {package}.",
                env=env,
            )
    except TroubleError as trouble:
        say(f"{trouble} Going on without …")


def ensure(*kinds: Kind) -> list[Path]:
    """These browsers, installing what is missing."""
    missing = [kind for kind in kinds if find(kind) is None]
    if missing and shutil.which("apt-get") and hasattr(os, "geteuid") and os.geteuid() == 0:
        _install_with_apt(missing)
    if CHROMIUM in kinds and find(CHROMIUM) is None:
        say("Fetching a browser for the tests (a minute or two, once) …")
        run_quietly([venv_tool("python"), "-m", "playwright", "install", "chromium"], _advice(CHROMIUM))
    found = []
    for kind in kinds:
        path = find(kind)
        if path is None:
            raise TroubleError(_advice(kind))
        found.append(path)
    return found


def _advice(kind: Kind) -> str:
    return (
        f"The browser tests need {kind.name}, and none was found or could be fetched. "
        f"Install one, or set {kind.variable} to the path of one, and try again."
    )
