"""Weights against their budgets: what a reader downloads to read a page, and to use it.

    .build/venv/bin/python scripts/bench/pages.py

Needs a built site (python3 scripts/serve.py --build-only). Sizes are of the gzip that a web server sends. Ends with
1 when a budget is broken.
"""

from __future__ import annotations

import gzip
import re
import sys
from pathlib import Path
from urllib.parse import unquote, urlsplit

from budget import Figure, judged

SITE = Path(__file__).resolve().parents[2] / "site"
ASSETS = SITE / "assets" / "hd"

KB = 1000
READABLE_BUDGET = 120 * KB  # a page with its default figures, script off or not yet run
FIRST_TOUCH_BUDGET = 120 * KB  # our JavaScript and our package, beside the runtime

# What a browser loads before or while it shows the page: style sheets, scripts, images with an address.
LOADED = re.compile(r"<link\b[^>]*\brel=\"?stylesheet\"?[^>]*>|<script\b[^>]*\bsrc=[^>]*>|<img\b[^>]*>", re.IGNORECASE)
CALCULATOR = re.compile(r'<hd-calculator name="([a-z-]+)"')
ADDRESS = re.compile(r"\b(?:src|href)=\"?([^\" >]+)")


def weight(path: Path) -> int:
    """Bytes sent for a file. Fonts and PNG images are compressed already."""
    content = path.read_bytes()
    return len(content) if path.suffix in (".png", ".woff2") else len(gzip.compress(content, 6))


def files_of(page: Path) -> list[Path]:
    """The page and the files it loads by itself."""
    found = [page]
    for tag in LOADED.findall(page.read_text(encoding="utf-8")):
        address = ADDRESS.search(tag)
        if address is None or address[1].startswith("data:"):
            continue
        path = (page.parent / unquote(urlsplit(address[1]).path)).resolve()
        if path not in found:
            found.append(path)
    return found


def is_app(path: Path) -> bool:
    """The app's script counts to the first touch: without it the page is readable all the same."""
    return path == ASSETS / "app.js"


def parts_of(page: Path) -> int:
    """Bytes of the package's part that the heaviest calculator on a page needs: the one touched is fetched first, the
    others after its answer."""
    names = CALCULATOR.findall(page.read_text(encoding="utf-8"))
    return max((weight(ASSETS / "runtime" / f"part-{name}.zip") for name in names), default=0)


def main() -> int:
    pages = [page for page in sorted(SITE.rglob("*.html")) if page.name != "404.html"]
    if not pages:
        print("There is no built site: run python3 scripts/serve.py --build-only first.", file=sys.stderr)
        return 1
    weights = {page: sum(weight(path) for path in files_of(page) if not is_app(path)) for page in pages}
    for page, bytes_sent in sorted(weights.items(), key=lambda item: -item[1])[:5]:
        print(f"{bytes_sent / KB:8.1f} KB  {page.relative_to(SITE)} (with its style and the theme's scripts)")
    heaviest = max(weights.values())
    app, core = weight(ASSETS / "app.js"), weight(ASSETS / "runtime" / "rotorhead.zip")
    ours = core + sum(weight(path) for path in (ASSETS / "runtime").glob("part-*.zip"))
    runtime = sum(weight(path) for path in (ASSETS / "runtime").iterdir()) - ours
    touch, heaviest_touch = max((parts_of(page), page) for page in pages)
    print(f"{app / KB:8.1f} KB  app.js")
    print(f"{core / KB:8.1f} KB  rotorhead.zip, the package's core")
    print(f"{touch / KB:8.1f} KB  the most a calculator adds: {heaviest_touch.relative_to(SITE)}")
    asked = weight(ASSETS / "teach.js") + weight(ASSETS / "runtime" / "part-questions.zip")
    print(f"{asked / KB:8.1f} KB  the whole bank of questions and its script, besides the calculator of a question")
    print(f"{runtime / KB:8.1f} KB  the rest of the runtime")
    print(f"{(ASSETS / 'payload.js').stat().st_size / KB:8.1f} KB  payload.js (only from a folder)")
    return judged([
        Figure("Heaviest page, readable", heaviest / KB, "KB gz", READABLE_BUDGET / KB, "with styles and scripts"),
        Figure(
            "First touch", (app + core + touch) / KB, "KB gz", FIRST_TOUCH_BUDGET / KB,
            "our script and package, beside the runtime",
        ),
    ])  # fmt: skip


if __name__ == "__main__":
    sys.exit(main())
