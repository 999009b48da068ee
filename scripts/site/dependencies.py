"""The page of what this site is made with: out of the lock files and what is installed, so that it is never out of date."""

from __future__ import annotations

import json
import re
from collections.abc import Sequence
from html import escape
from importlib import metadata
from typing import Any

from house.paths import APP, SCRIPTS

# What a reader's browser gets, and where it lies in the site. Everything else only builds or tests it.
CARRIED = {
    "pyodide": ("Python in the browser", "<code>runtime/</code>, <code>payload.js</code>"),
    "d3-array": ("helps d3-contour", "<code>chart.js</code>"),
    "d3-contour": ("bands of the pictures over the disc", "<code>chart.js</code>"),
    "iframe-worker": ("the search, in a folder opened from a disk", "<code>iframe-worker.js</code>"),
    "qrcode-generator": ("QR codes", "<code>qr-code.js</code>"),
    "three": ("the moving view", "<code>head-view.js</code>"),
    "uplot": ("live charts", "<code>chart.js</code>"),
    "workbox-core": ("the offline copy", "<code>sw.js</code>"),
    "workbox-routing": ("the offline copy", "<code>sw.js</code>"),
    "workbox-strategies": ("the offline copy", "<code>sw.js</code>"),
}
THEME = "mkdocs-material"
PINNED = re.compile(r"^(?P<name>[A-Za-z0-9._-]+)==(?P<version>[^ \\]+)")
# Long names of licences in older packages' own words.
SHORT = {
    "Apache Software License": "Apache-2.0",
    "BSD License": "BSD",
    "MIT License": "MIT",
    "ISC License (ISCL)": "ISC",
    "Mozilla Public License 2.0 (MPL 2.0)": "MPL-2.0",
    "Python Software Foundation License": "PSF-2.0",
}


def node_packages() -> dict[str, dict[str, Any]]:
    """Name -> entry of the lock file, for what is installed from it on any machine."""
    lock = json.loads((APP / "package-lock.json").read_text(encoding="utf-8"))
    return {key.removeprefix("node_modules/"): entry for key, entry in lock["packages"].items() if key}


def python_packages() -> dict[str, str]:
    """Name -> version, as locked."""
    lines = (SCRIPTS / "requirements.txt").read_text(encoding="utf-8").splitlines()
    return {found["name"]: found["version"] for line in lines if (found := PINNED.match(line))}


def licence_of(name: str) -> str:
    """What an installed Python package says of its licence; "not installed here" for those of other systems."""
    try:
        said = metadata.metadata(name)
    except metadata.PackageNotFoundError:
        return "not installed here"
    if said["License-Expression"]:
        return str(said["License-Expression"])
    classed = [line.rpartition(" :: ")[2] for line in said.get_all("Classifier") or [] if line.startswith("License ::")]
    if classed:
        return " and ".join(SHORT.get(one, one) for one in classed)
    first = str(said["License"] or "").strip().splitlines()
    return first[0][:60] if first else "see the package"


def _table(head: Sequence[str], rows: Sequence[Sequence[str]]) -> str:
    cells = "".join(f"<th>{escape(one)}</th>" for one in head)
    body = "".join("<tr>" + "".join(f"<td>{cell}</td>" for cell in row) + "</tr>" for row in rows)
    return f"<table><thead><tr>{cells}</tr></thead><tbody>{body}</tbody></table>"


def carried_html(_: list[str]) -> str:
    """What a reader's browser runs besides our own."""
    node = node_packages()
    rows = [
        (escape(name), escape(node[name]["version"]), escape(node[name]["license"]), use, place)
        for name, (use, place) in CARRIED.items()
    ]
    rows[1:1] = [("CPython and its library, inside Pyodide", "3.13", "PSF-2.0", "the calculators", "<code>runtime/</code>")]
    theme = (THEME, python_packages()[THEME], licence_of(THEME), "the frame of the pages", "<code>assets/</code>")
    return _table(("Library", "Version", "Licence", "What for", "Where"), [*rows, theme])


def tools_html(_: list[str]) -> str:
    """What builds and tests the site and never reaches a reader."""
    python = [
        (escape(name), escape(version), escape(licence_of(name)))
        for name, version in python_packages().items()
        if name != THEME
    ]
    # A native tool has a package for every system; they are one thing.
    node = [
        (escape(name), escape(str(entry["version"])), escape(str(entry["license"])))
        for name, entry in node_packages().items()
        if name not in CARRIED and not entry.get("optional")
    ]
    head = ("Package", "Version", "Licence")
    return (
        f"<details><summary>{len(python)} Python packages</summary>{_table(head, python)}</details>"
        f"<details><summary>{len(node)} JavaScript packages</summary>{_table(head, node)}</details>"
    )
