"""The licences of what the built site carries besides our own work, in one file beside it."""

from __future__ import annotations

import json
import sysconfig
from pathlib import Path

from house.paths import APP, ROOT
from house.say import TroubleError

NODE = APP / "node_modules"

HEAD = """\
What this folder carries, and under which licences
==================================================

Hand to Disc: its pages, its package `rotorhead` and its scripts
----------------------------------------------------------------
{own}
"""
# The npm package of Pyodide has no licence file; its package.json names the licence.
PYODIDE = """
Pyodide {version} (assets/hd/runtime: pyodide.js, pyodide.asm.js, pyodide.asm.wasm; its library inside started.bin), unchanged
except that modules of the library are left out and the rest is compiled
--------------------------------------------------------------------------------------------------------------
Mozilla Public License 2.0. The source is published by the Pyodide project under the tag {version}.
It holds CPython {python} and its standard library, under the licence of the Python Software Foundation, version 2:
Copyright (c) 2001 Python Software Foundation; All Rights Reserved.
"""
# Bundled into scripts of ours; each brings a licence file.
BUNDLED = {
    "three": "three.js {version} (inside assets/hd/head-view.js)",
    "uplot": "uPlot {version} (inside assets/hd/chart.js)",
    "d3-contour": "d3-contour {version} (inside assets/hd/chart.js)",
    "d3-array": "d3-array {version} (inside assets/hd/chart.js)",
    "workbox-core": "Workbox core, routing and strategies {version} (inside sw.js)",
}
# Its notice is a plain comment, which the bundler drops.
QR_CODES = """
qrcode-generator {version} (inside assets/hd/qr-code.js)
----------------------------------------------------
MIT License, the same words as above. Copyright (c) 2009 {author}
"""


def _whole_file(title: str, path: Path) -> str:
    return f"\n{title}\n{'-' * len(title)}\n{path.read_text(encoding='utf-8').strip()}\n"


def _theme_licence() -> Path:
    """The licence that the theme's installed distribution brings."""
    site_packages = Path(sysconfig.get_path("purelib"))
    found = sorted(site_packages.glob("mkdocs_material-*.dist-info/**/LICENSE*"))
    if not found:
        raise TroubleError("The theme's installed distribution brings no licence file.")
    return found[0]


def _bundled(name: str, title: str) -> str:
    version = json.loads((NODE / name / "package.json").read_text(encoding="utf-8"))["version"]
    return _whole_file(title.format(version=version), NODE / name / "LICENSE")


def write(target: Path, build: dict[str, str]) -> None:
    """Write `licences.txt` into `assets/hd`."""
    package = json.loads((NODE / "qrcode-generator" / "package.json").read_text(encoding="utf-8"))
    lock = json.loads((NODE / "pyodide" / "pyodide-lock.json").read_text(encoding="utf-8"))
    parts = [
        HEAD.format(own=(ROOT / "LICENSE").read_text(encoding="utf-8").strip()),
        PYODIDE.format(version=build["pyodide"], python=lock["info"]["python"]),
        _whole_file(
            "iframe-worker (assets/hd: iframe-worker.js, search-frame.js), changed: no inline script",
            NODE / "iframe-worker" / "LICENSE",
        ),
        QR_CODES.format(version=package["version"], author=package["author"]),
        *(_bundled(name, title) for name, title in BUNDLED.items()),
        _whole_file("The theme of the pages (assets/javascripts, assets/stylesheets)", _theme_licence()),
    ]
    (target / "licences.txt").write_text("".join(parts), encoding="utf-8", newline="\n")
