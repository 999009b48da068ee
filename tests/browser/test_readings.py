"""Readings beside the machine: written to a file and read again, a blank sheet for the pocket, gaps and marks of one's own."""

from __future__ import annotations

import io
import json
import re
import unicodedata
from pathlib import Path

from playwright.sync_api import expect
from pypdf import PdfReader

from . import oracle
from .conftest import MakeReader
from .reader import Reader
from .test_own_head import ask

PAGE = oracle.PAGE_OF["worksheet"]
READINGS = {"0": "7,6", "90": "1.0", "135": "-3.4", "225": "13.1", "270": "15"}


def fill(reader: Reader) -> str:
    """Some of eight marks, in any order; the text they make."""
    for place in ("270", "0", "135", "90", "225"):
        reader.page.get_by_label(f"Reading at {place}°").fill(READINGS[place])
    return "\n".join(f"{place} {reading}" for place, reading in READINGS.items())


def test_a_csv_file_out_and_in(make_reader: MakeReader, tmp_path: Path) -> None:
    reader = make_reader(accept_downloads=True)
    reader.open(PAGE)
    text = fill(reader)
    with reader.page.expect_download() as loading:
        reader.page.get_by_role("button", name="Write a CSV file").click()
    file = tmp_path / "readings.csv"
    loading.value.save_as(file)
    answer = ask(
        {"op": "run", "calculator": "worksheet", "inputs": {"readings": text}, "head": oracle.head_of("alder3")}
    )
    found = re.search(r'data-csv="([^"]*)"', json.dumps(answer["parts"]).replace('\\"', '"'))
    assert found
    written = file.read_text(encoding="utf-8")
    assert len(written.strip().splitlines()) == 1 + len(READINGS)
    expect(reader.page.locator(".hd-own-status").first).to_contain_text("5 readings written")

    other = make_reader()
    other.open(PAGE)
    other.page.get_by_label("Read a CSV file").set_input_files(file)
    same = ask(
        {"op": "run", "calculator": "worksheet", "inputs": {"readings": written}, "head": oracle.head_of("alder3")}
    )
    other.shows("worksheet", same)
    assert same["results"] == answer["results"], "what was written is read as what was entered"


def test_a_file_that_is_none_is_refused_with_its_lines(reader: Reader, tmp_path: Path) -> None:
    reader.open(PAGE)
    file = tmp_path / "bad.csv"
    file.write_text("place,reading\n0,seven\n90,<script>alert(1)</script>\n180,3\n")
    reader.page.get_by_label("Read a CSV file").set_input_files(file)
    reader.state("worksheet", "refused")
    fault = reader.box("worksheet", "readings")
    expect(fault).to_contain_text("seven")
    expect(fault.locator("textarea")).to_have_value(re.compile("<script>alert"))
    file.write_text("0,1\n" * 9000)
    reader.page.get_by_label("Read a CSV file").set_input_files(file)
    expect(reader.page.locator(".hd-own-status").first).to_contain_text("too large")


def test_more_readings_than_are_read_is_told_and_none_is_lost(reader: Reader, tmp_path: Path) -> None:
    reader.open(PAGE)
    file = tmp_path / "many.csv"
    file.write_text("".join(f"{(7 * i) % 360},{i % 10}.5\n" for i in range(900)))
    reader.page.get_by_label("Read a CSV file").set_input_files(file)
    reader.state("worksheet", "refused")
    assert len(reader.box("worksheet", "readings").locator("textarea").input_value()) == len(file.read_text())


def test_the_sign_key_and_marks_of_ones_own(phone: Reader) -> None:
    phone.open(PAGE)
    phone.page.get_by_label("Marked places").select_option("own")
    phone.page.get_by_label("Places, degrees").fill("0 30 75 120")
    phone.page.get_by_label("Places, degrees").press("Enter")
    fields = phone.page.locator(".hd-reading-rows input")
    expect(fields).to_have_count(4)
    fields.nth(1).fill("2.5")
    phone.page.get_by_role("button", name="Change the sign at 30°").tap()
    expect(fields.nth(1)).to_have_value("\N{MINUS SIGN}2.5")
    fields.nth(0).press("Enter")
    expect(fields.nth(1)).to_be_focused()


def test_a_blank_sheet_has_the_marks_and_the_cautions(reader: Reader) -> None:
    reader.open(PAGE)
    reader.page.get_by_label("Marked places").select_option("12")
    reader.page.evaluate("() => { window.print = () => window.dispatchEvent(new Event('beforeprint')); }")
    reader.page.get_by_role("button", name="Print a blank sheet").click()
    expect(reader.page.locator("body")).to_have_class(re.compile("hd-sheet"))
    made = PdfReader(io.BytesIO(reader.page.pdf(format="A4")))
    # Ligatures of the font are letters again.
    words = " ".join(unicodedata.normalize("NFKC", " ".join(page.extract_text() for page in made.pages)).split())
    assert len(made.pages) == 1
    for place in range(0, 360, 30):
        assert f"{place}°" in words
    assert "no fingers in linkages" in words.lower()
    assert "Marked places" not in words
