"""What makes the site installable and keeps it on a device: manifest, icons, and the service worker that knows every file."""

from __future__ import annotations

import base64
import hashlib
import json
import tempfile
from pathlib import Path
from typing import Any

import bundle
import harden
import matplotlib

matplotlib.use("agg")  # no window: the build may run where there is no screen
from matplotlib import pyplot  # noqa: E402
from matplotlib.patches import Circle, Polygon, Rectangle  # noqa: E402

MANIFEST = "manifest.webmanifest"
WORKER = "sw.js"
SIZES = (192, 512)
# Only for pages opened from a folder, or for people who look into scripts: nobody needs them in a copy.
NOT_KEPT = ("assets/hd/payload.js",)
# What every page needs is kept at once; the rest as it is visited, or when the reader asks for all of it.
FIRST = ("index.html", "404.html", "offline.html", "assets/hd/app.js", "assets/hd/app.css", "assets/hd/first.js")
COLOURS = {"paper": "#fbfaf6", "line": "#0b6e69", "rod": "#b4500b", "low": "#1f5fbf"}


def _icon(path: Path, size: int) -> None:
    """The site's mark (docs/assets/images/mark.svg) as a picture, with room around it for round masks."""
    figure = pyplot.figure(figsize=(size / 100, size / 100), dpi=100, facecolor=COLOURS["paper"])
    axes = figure.add_axes((0.1, 0.1, 0.8, 0.8))
    axes.set(xlim=(0, 32), ylim=(32, 0), aspect="equal")
    axes.axis("off")
    width = 2.5 * 0.8 * size / 32 * 72 / 100
    for radius in (12.0, 2.5):
        axes.add_patch(Circle((16, 16), radius, fill=False, edgecolor=COLOURS["line"], linewidth=width))
    axes.add_patch(Polygon([(16, 2), (20, 9), (12, 9)], color=COLOURS["low"]))
    for corner in ((24.7, 7.3), (12, 26), (2.8, 9)):
        axes.add_patch(Rectangle(corner, 4, 4, color=COLOURS["rod"]))
    figure.savefig(path, facecolor=COLOURS["paper"], metadata={"Software": None})
    pyplot.close(figure)


def write_manifest(site: Path) -> None:
    """Manifest and icons, before the pages that name them are gone over."""
    target = site / harden.ASSETS
    for size in SIZES:
        _icon(target / f"icon-{size}.png", size)
    icons = [
        {"src": f"assets/hd/icon-{size}.png", "sizes": f"{size}x{size}", "type": "image/png", "purpose": purpose}
        for size in SIZES
        for purpose in ("any", "maskable")
    ]
    manifest = {
        "name": "Hand to Disc: rotor-head control, worked out",
        "short_name": "Hand to Disc",
        "description": "How two hands become blade pitch and disc tilt, for one head at a time.",
        "lang": "en-GB",
        "start_url": "./index.html",
        "scope": "./",
        "display": "standalone",
        "background_color": COLOURS["paper"],
        "theme_color": COLOURS["paper"],
        "icons": icons,
    }
    (site / MANIFEST).write_text(json.dumps(manifest, indent=1) + "\n", encoding="utf-8", newline="\n")


def files_of(site: Path) -> dict[str, list[Any]]:
    """Every file a copy holds, by path under the root: the first 12 bytes of its SHA-256 in base64, and its length."""
    found: dict[str, list[Any]] = {}
    for path in sorted(p for p in site.rglob("*") if p.is_file()):
        name = path.relative_to(site).as_posix()
        if name in NOT_KEPT or name == WORKER or name.endswith(".map"):
            continue
        content = path.read_bytes()
        found[name] = [base64.b64encode(hashlib.sha256(content).digest()[:12]).decode(), len(content)]
    return found


def write_worker(site: Path) -> None:
    """The service worker, last of all: it carries the hash of every other file, and so is another one in every build."""
    files = files_of(site)
    build = hashlib.sha256(json.dumps(files).encode()).hexdigest()[:12]
    copy = {"build": build, "files": files, "first": [name for name in FIRST if name in files]}
    with tempfile.TemporaryDirectory() as folder:
        described = Path(folder) / "copy.json"
        described.write_text(json.dumps(copy), encoding="utf-8")
        bundle.service_worker(site / WORKER, described)
