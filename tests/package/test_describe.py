"""Describing a head through the door: the sketch of every figure in both systems of units, values typed, known or not."""

import math
import re
import xml.etree.ElementTree as ET
from html import unescape
from typing import Any

import pytest
from rotorhead.drawing.dimensions import HOW, how_key, label_of
from rotorhead.head import DEMONSTRATION, demonstration
from rotorhead.head_figures import BY_KEY, OPTION_BY_KEY
from rotorhead.head_typical import typical

from .own_requests import ask, head, keep, own, refused

# Millimetres in an inch, by definition.
IN = 25.4


def described(key: str, choice: dict[str, Any] | None = None, units: str = "metric") -> tuple[ET.Element, str, str]:
    """Sketch, all that is written on it, the words beneath it."""
    reply = ask("run", calculator="describe", inputs={"dimension": key}, head=choice or head(), units=units)
    assert reply["state"] == "result", reply
    svg, _, caption = reply["parts"]["drawing"].partition('<p class="hd-caption">')
    root = ET.fromstring(svg)
    written = " ".join("".join(e.itertext()) for e in root.iter() if e.tag.endswith("text"))
    return root, written, unescape(caption.removesuffix("</p>"))


@pytest.mark.parametrize(("base", "units"), [("alder3", "metric"), ("birch2", "imperial"), ("dogwood5", "imperial")])
def test_every_figure_is_described_in_the_readers_units(base: str, units: str) -> None:
    """Label and value stand on the sheet; words begin with a capital and end with a full stop; every number is finite."""
    for key in demonstration(base).keys():  # noqa: SIM118 - a head is no mapping
        root, written, words = described(key, head(base), units)
        assert label_of(key) in written, key
        assert words.startswith(HOW[how_key(key)]), key
        assert words[0].isupper(), key
        assert words.endswith("."), key
        for item in root.iter():
            for name, value in item.attrib.items():
                if name in ("x", "y", "x1", "y1", "x2", "y2", "cx", "cy", "r", "width", "height"):
                    assert math.isfinite(float(value)), (key, name)
        if key not in OPTION_BY_KEY and BY_KEY[key].quantity == "small_length":
            factor = IN if units == "imperial" else 1.0
            shown = re.search(r"(−?[\d.]+)\u202f(mm|in)\.$", words)
            assert shown, words
            assert (shown[2] == "in") == (units == "imperial"), key
            places = len(shown[1].partition(".")[2])
            found = float(shown[1].replace("−", "-"))
            assert found == pytest.approx(demonstration(base)[key] / factor, abs=0.501 * 10.0**-places), key


@pytest.mark.parametrize(("base", "units"), [("cedar4", "metric"), ("elder6", "imperial")])
def test_every_guess_is_shown_as_a_range(base: str, units: str) -> None:
    """Least and greatest with their unit, on the sheet and in the words, where the head still goes together."""
    for key in demonstration(base).keys():  # noqa: SIM118 - a head is no mapping
        if typical(key, demonstration(base)) is None:
            continue
        text = ask("likely", head=head(base), key=key, units=units)["text"]
        choice = {"base": base, "changes": {key: text}}
        if ask("check", head=choice, units=units)["state"] != "result":
            continue
        _, written, words = described(key, choice, units)
        assert " to " in words.rsplit(": ", 1)[1], key
        ends = [
            float(x.replace("−", "-"))
            for x in re.findall(r"(?<![\w.])−?\d+(?:\.\d+)?", words.rsplit(": ", 1)[1].replace("\u202f", " "))
        ]
        wanted = [float(x) for x in text.split(" to ")]
        assert len(ends) == 2, (key, words)
        places = [len(x) for x in re.findall(r"\d\.(\d+)", words.rsplit(": ", 1)[1])] or [0]
        assert ends == pytest.approx(wanted, abs=0.501 * 10.0 ** -min(places)), (key, words)
        assert " to" in written, key


def test_a_rod_that_is_not_there_shows_the_last_one() -> None:
    """The list names six rods; on a head of three the last stands for the others, with four the fourth is its own."""
    _, _, third = described("rods.3.stroke_mm")
    assert described("rods.6.stroke_mm")[2] == described("rods.4.stroke_mm")[2] == third
    four = head(rods__count="4", rods__4__stroke_mm="777")
    assert described("rods.4.stroke_mm", four)[2].endswith("rod 4: 777\u202fmm.")
    assert described("rods.6.bearing_deg", four)[2] == described("rods.4.bearing_deg", four)[2]


def test_what_there_is_no_sketch_of_is_refused() -> None:
    """A key that is none, named by the field; the sentence doesn't list all of them."""
    for key in ("wings", "", "rods.7.stroke_mm", "<script>"):
        assert set(refused(ask("run", calculator="describe", inputs={"dimension": key}, head=head()))) == {"dimension"}


def test_how_many_figures_are_unknown_is_said() -> None:
    """None, one, two: in the sentence and with the results, of working copies and heads of one's own."""
    one, two = head(arm_mm="198 to 202"), head(arm_mm="198 to 202", mass_kg="2000 to 2100")
    for choice, count, words in (
        (head(), "none", None), (one, "1", "1 of its figures is only known"), (two, "2", "2 of its figures are only known"),
        (own(keep(two)), "2", "2 of its figures are only known"),
    ):  # fmt: skip
        reply = ask("run", calculator="describe", head=choice)
        assert {r["name"]: r["value"] for r in reply["results"]}["unknown"] == count
        assert ("only known" in reply["spoken"]) == (words is not None)
        assert (words or "") in reply["spoken"]


@pytest.mark.parametrize("base", DEMONSTRATION)
def test_the_form_holds_the_whole_head(base: str) -> None:
    """Every key once, with its text; sent back as changes they are none."""
    reply = ask("run", calculator="describe", head=head(base))
    fields = {k.removeprefix("head."): v["text"] for k, v in reply["form"].items() if k.startswith("head.")}
    assert set(fields) == set(demonstration(base).keys())
    again = ask("run", calculator="describe", head={"base": base, "changes": fields})
    assert again["head"]["changed"] == []
    assert again["results"] == reply["results"]
