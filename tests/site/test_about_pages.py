"""The pages about the site itself: every library that is carried stands there with its licence, every measured figure is shown."""

from __future__ import annotations

import json
from pathlib import Path

import dependencies
from bs4 import BeautifulSoup


def _page(site: Path, path: str) -> BeautifulSoup:
    return BeautifulSoup((site / path).read_text(encoding="utf-8"), "html.parser")


def test_every_library_that_reaches_a_reader_is_listed(site: Path, root: Path) -> None:
    wanted = json.loads((root / "docs/assets/app/package.json").read_text(encoding="utf-8"))["dependencies"]
    rows = {
        cells[0].get_text(): [cell.get_text() for cell in cells[1:3]]
        for row in _page(site, "reference/dependencies.html").select("table:first-of-type tbody tr")
        if (cells := row.find_all("td"))
    }
    for name, version in wanted.items():
        assert rows[name][0] == version
        assert rows[name][1], f"{name} has no licence"
    # Besides, what those themselves bring along into a bundle.
    node = dependencies.node_packages()
    brought = {needed for name in wanted for needed in node[name].get("dependencies", {})}
    assert set(wanted) <= set(dependencies.CARRIED) <= set(wanted) | brought


def test_every_licence_is_carried_in_its_own_words(site: Path) -> None:
    text = (site / "assets/hd/licences.txt").read_text(encoding="utf-8")
    for name in ("Pyodide", "CPython", "iframe-worker", "qrcode-generator", "three.js", "uPlot", "d3-contour", "d3-array", "Workbox", "theme"):
        assert name in text
    for holder in ("Python Software Foundation", "three.js authors", "Leon Sorokin", "Google", "Martin Donath", "Mike Bostock"):
        assert holder in text, f"no notice of {holder}"


def test_no_package_is_listed_without_a_licence(site: Path) -> None:
    cells = [row.find_all("td") for row in _page(site, "reference/dependencies.html").select("details tbody tr")]
    assert len(cells) > 60
    unclear = [row[0].get_text() for row in cells if row[2].get_text() in ("", "see the package")]
    assert not unclear


def test_the_page_of_speeds_shows_what_was_measured(site: Path, root: Path) -> None:
    kept = json.loads((root / "scripts/bench/measured.json").read_text(encoding="utf-8"))
    rows = _page(site, "reference/speeds.html").select("table tbody tr")
    assert len(rows) == len(kept["figures"]) > 0
    for row, one in zip(rows, kept["figures"], strict=True):
        text = row.get_text(" ")
        assert one["what"] in text
        assert ("over" in text.split()) == (one["value"] > one["budget"])
    assert kept["machine"]["date"] in _page(site, "reference/speeds.html").get_text()
