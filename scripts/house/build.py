"""Building the site, only when something it is made from has changed."""

from __future__ import annotations

import os
import shutil
import time
from pathlib import Path
from urllib.parse import urlsplit

from house.node import node_environment
from house.paths import APP, BUILD, CALCULATORS, DOCS, ROOT, SCRIPTS, SITE
from house.python import venv_tool
from house.say import TroubleError, run_quietly, say
from house.stamps import Stamp, fingerprint, one_at_a_time

# The hook reads the public address from here: mkdocs has no option for it.
PUBLIC_URL_VARIABLE = "HAND_TO_DISC_PUBLIC_URL"
LONGEST_PUBLIC_URL = 200

SOURCES = [
    DOCS,
    CALCULATORS / "pyproject.toml",
    CALCULATORS / "src",
    SCRIPTS / "site",
    SCRIPTS / "bench" / "measured.json",
    SCRIPTS / "requirements.txt",
    APP / "package-lock.json",
    ROOT / "mkdocs.yml",
    ROOT / "LICENSE",
]


def checked_public_url(text: str) -> str:
    """The public address with one slash at its end, or a sentence that says what is wrong with it."""
    wrong = TroubleError(
        f"--public-url {text!r} is not the address of a folder on the web. "
        "Give one like https://example.org/rotor/ : http or https, a host, no ?, # or password, "
        f"at most {LONGEST_PUBLIC_URL} characters."
    )
    if not text:
        return ""
    if len(text) > LONGEST_PUBLIC_URL or not text.isascii() or any(sign <= " " or sign in "\"'<>\\" for sign in text):
        raise wrong
    try:
        parts = urlsplit(text)
        host, _port = parts.hostname, parts.port
    except ValueError:
        raise wrong from None
    if parts.scheme not in ("http", "https") or not host or parts.username is not None:
        raise wrong
    if "?" in text or "#" in text:
        raise wrong
    return text.rstrip("/") + "/"


def build(node_folder: Path, public_url: str = "") -> None:
    """Build `site/` unless it stands there already, made from these very sources."""
    with one_at_a_time():
        stamp = Stamp("site")
        state = fingerprint(SOURCES, public_url, "1")
        if stamp.says(state) and (SITE / "index.html").is_file():
            return
        say("Building the site (up to a minute and a half) …")
        started = time.monotonic()
        _build_beside_and_swap(node_folder, public_url, stamp)
        stamp.write(state)
        say(f"Built in {time.monotonic() - started:.0f} s.")


def _build_beside_and_swap(node_folder: Path, public_url: str, stamp: Stamp) -> None:
    """Build into another folder first: a failed build leaves the last good site as it was."""
    new, old = BUILD / "site-new", BUILD / "site-old"
    for folder in (new, old):
        shutil.rmtree(folder, ignore_errors=True)
    run_quietly(
        [venv_tool("python"), "-m", "mkdocs", "build", "--strict", "--site-dir", new],
        "The site could not be built; the lines above say why.",
        cwd=ROOT,
        env={
            **node_environment(node_folder),
            PUBLIC_URL_VARIABLE: public_url,
            "PYTHONDONTWRITEBYTECODE": "1",
        },
    )
    stamp.clear()
    if SITE.exists():
        SITE.rename(old)
    new.rename(SITE)
    shutil.rmtree(old, ignore_errors=True)


def public_url_from_environment() -> str:
    """For the hook: what `build` was given, checked again because mkdocs may be started by hand."""
    return checked_public_url(os.environ.get(PUBLIC_URL_VARIABLE, ""))
