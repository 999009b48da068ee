"""What kiosk.py does: build, then write the site as a folder that opens from a disk, set as a kiosk, and as a ZIP."""

from __future__ import annotations

import argparse
import json
import re
import shutil
import zipfile
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from house.build import build, checked_public_url
from house.paths import BUILD, SITE
from house.say import TroubleError, say
from house.setup import set_up

SETTINGS = "kiosk-settings.js"
# Only a web server needs these: from a folder the runtime comes out of payload.js, and no copy is kept.
LEFT_OUT = ("assets/hd/runtime", "sw.js", "manifest.webmanifest", "sitemap.xml", "sitemap.xml.gz")
FIRST_SCRIPT = re.compile(r"<script[^>]*\bsrc=[\"']?(?P<prefix>[^\"' >]*?)assets/hd/first\.js")
BUILD_NAME = re.compile(r'build:"(?P<name>[0-9a-f]{12})",files:')
SHORTEST, LONGEST = 15, 3600


def _seconds(text: str) -> int:
    if text.isascii() and text.isdigit() and SHORTEST <= int(text) <= LONGEST:
        return int(text)
    raise argparse.ArgumentTypeError(f"{text!r} is not a time: give whole seconds from {SHORTEST} to {LONGEST}")


def _arguments(words: Sequence[str] | None) -> argparse.Namespace:
    parser = argparse.ArgumentParser(
        prog="kiosk.py", description="Write the site as a folder and a ZIP for a kiosk without a network."
    )
    parser.add_argument("--start", default="index.html", metavar="PAGE", help="where it begins, like hands/shake.html")
    parser.add_argument("--head", default="", metavar="ID", help="the head it begins with, like cedar4")
    parser.add_argument(
        "--after",
        type=_seconds,
        default=90,
        metavar="SECONDS",
        help="without touch it asks, then starts again; default 90",
    )
    parser.add_argument("--search", action="store_true", help="leave the search in (it needs a keyboard)")
    parser.add_argument("--print", action="store_true", help="leave printing in")
    parser.add_argument("--public-url", default="", metavar="ADDRESS", help="where the site is published, for QR codes")
    parser.add_argument(
        "--out", type=Path, default=BUILD / "kiosk", metavar="FOLDER", help="where folder and ZIP are written"
    )
    return parser.parse_args(words)


def settings_script(settings: dict[str, Any]) -> str:
    """The small file that makes a folder a kiosk; whoever sets it up may edit it."""
    return (
        "// This kiosk. start: a page of this folder; head: its id, or empty; after: seconds without touch.\n"
        f"window.handToDiscKiosk = {json.dumps(settings, indent=2)};\n"
    )


def build_of(site: Path) -> str:
    """The name of the site's build, as its service worker carries it: it changes with any file of the site."""
    found = BUILD_NAME.search((site / "sw.js").read_text(encoding="utf-8"))
    if found is None:
        raise TroubleError("sw.js names no build: the build has changed and kiosk.py does not know it.")
    return found["name"]


def write_folder(site: Path, target: Path, settings: dict[str, Any]) -> None:
    """The site's files that a folder needs, each page with the kiosk's settings in front of its first script."""
    build = build_of(site)
    if target.exists():
        shutil.rmtree(target)

    def unwanted(folder: str, names: list[str]) -> list[str]:
        inside = Path(folder).relative_to(site)
        return [n for n in names if (inside / n).as_posix() in LEFT_OUT or n.endswith(".map")]

    shutil.copytree(site, target, ignore=unwanted)
    (target / SETTINGS).write_text(settings_script(settings), encoding="utf-8", newline="\n")
    for page in target.rglob("*.html"):
        text = page.read_text(encoding="utf-8")
        found = FIRST_SCRIPT.search(text)
        if found is None:
            raise TroubleError(f"{page.name} has no first script: the build has changed and kiosk.py does not know it.")
        ours = f'<script src="{found["prefix"]}{SETTINGS}" data-build="{build}"></script>'
        page.write_text(text[: found.start()] + ours + text[found.start() :], encoding="utf-8", newline="\n")


def write_zip(folder: Path, target: Path) -> None:
    """The folder as a ZIP, with fixed times, so that the same site gives the same file."""
    with zipfile.ZipFile(target, "w", zipfile.ZIP_DEFLATED) as archive:
        for path in sorted(p for p in folder.rglob("*") if p.is_file()):
            info = zipfile.ZipInfo(f"{folder.name}/{path.relative_to(folder).as_posix()}", (2020, 1, 1, 0, 0, 0))
            info.compress_type = zipfile.ZIP_DEFLATED
            archive.writestr(info, path.read_bytes())


def main(words: Sequence[str] | None = None) -> int:
    arguments = _arguments(words)
    public_url = checked_public_url(arguments.public_url)
    build(set_up(), public_url)
    if not (SITE / arguments.start).is_file() or not arguments.start.endswith(".html"):
        raise TroubleError(f"--start {arguments.start!r} is not a page of the site. Give one like hands/shake.html.")
    known = sorted(p.stem for p in (SITE / "heads").glob("*.html") if p.stem != "index")
    if arguments.head and arguments.head not in known:
        raise TroubleError(f"--head {arguments.head!r} is not a head of the site. There are {', '.join(known)}.")
    settings = {
        "start": arguments.start,
        "head": arguments.head,
        "after": arguments.after,
        "search": arguments.search,
        "print": arguments.print,
    }
    folder = arguments.out / "hand-to-disc-kiosk"
    packed = arguments.out / f"hand-to-disc-kiosk-{build_of(SITE)}.zip"
    say("Writing the kiosk's folder and ZIP …")
    arguments.out.mkdir(parents=True, exist_ok=True)
    write_folder(SITE, folder, settings)
    write_zip(folder, packed)
    say(f"Folder: {folder} (open its index.html in the browser)\nZIP: {packed} ({packed.stat().st_size / 1e6:.1f} MB)")
    return 0
