"""Heads a reader has described, through the door: kept under a name, packed, unpacked, refused when damaged."""

import json
from html import escape

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from rotorhead.head import DEMONSTRATION, demonstration
from rotorhead.head_changes import mirrored
from rotorhead.head_figures import FIGURES, OPTIONS
from rotorhead.head_packed import pack, unpack
from rotorhead.topics import ALL

from .own_requests import ask, complaints, head, keep, own, refused

MANY = settings(max_examples=80, deadline=None, database=None, derandomize=True)
NAMES = (
    "Trainer", "50 % ~ half", "%7E~%257E%25", 'The "old" one & \'its\' twin', "<script>alert(1)</script>", "</svg><img src=x>",
    "Größe 𝛿₃ 🚁", "=1+1", "a;b,c:d",
)  # fmt: skip
EVERY = [(base, turned) for base in DEMONSTRATION for turned in (False, True)]
every_head = pytest.mark.parametrize(("base", "turned"), EVERY)


@every_head
def test_packed_and_unpacked_it_is_the_same_head(base: str, turned: bool) -> None:
    """Every figure, choice and rod; turned heads become heads of their own that turn that way."""
    drawn = mirrored(demonstration(base)) if turned else demonstration(base)
    back = unpack(keep(head(base, turned), drawn.name, note="By hand."))
    assert (back.id, back.name, back.note, back.mirrored) == ("own", drawn.name, "By hand.", False)
    assert (back.figures, back.options, back.rods) == (drawn.figures, drawn.options, drawn.rods)
    assert back.unknown == ()
    assert len(pack(back)) < 700, "about 400 characters: it has to fit in a link"


@every_head
def test_changes_and_ranges_are_kept(base: str, turned: bool) -> None:
    """What was typed, in inches or millimetres, is in the head that is kept; a range with its middle."""
    span = "95 to 105"
    changes = {"rpm": "333.25", "lever_travel_mm": "12", "blade_mass_kg": span, "rods.1.stroke_mm": "20 to 30"}
    reply = ask("keep", head={**head(base, turned), "changes": changes}, name="Mine", units="imperial")
    back = unpack(reply["own"])
    assert back["rpm"] == 333.25
    assert back["lever_travel_mm"] == pytest.approx(304.8, abs=1e-6)
    pounds = 0.45359237  # kg, by definition
    assert back["blade_mass_kg"] == pytest.approx(100 * pounds, rel=1e-8)
    assert dict(back.unknown)["blade_mass_kg"] == pytest.approx((95 * pounds, 105 * pounds), rel=1e-8)
    assert dict(back.unknown)["rods.1.stroke_mm"] == pytest.approx((508.0, 762.0), abs=1e-6)
    assert back.rods[0].stroke_mm == pytest.approx(635.0, abs=1e-6)
    assert unpack(pack(back)) == back


@pytest.mark.parametrize("name", NAMES)
def test_a_name_stays_what_it_is(name: str) -> None:
    """Through packing, file and label, whatever signs are in it."""
    text = keep(head(), name, note=name * 3)
    assert (unpack(text).name, unpack(text).note) == (name, name * 3)
    written = ask("write", head=own(text))
    assert json.loads(written["text"])["name"] == name
    assert not set(written["file"]) & set('<>"/\\:;~% ')
    assert written["file"].endswith(".json")
    assert ask("read", text=written["text"])["own"] == text
    assert ask("run", calculator="phase", head=own(text))["head"]["label"] == name


@MANY
@given(st.text(min_size=1, max_size=80))
def test_any_name_comes_back(name: str) -> None:
    """White space is tidied, nothing else is lost."""
    tidy = " ".join(name.split())
    assume(tidy)
    assert unpack(keep(head(), name)).name == tidy


def test_awkward_names_are_refused() -> None:
    """Nothing, too much, no text."""
    for name in ("", "   ", "x" * 81, 5, None):
        assert set(refused(ask("keep", head=head(), name=name))) == {"name"}
    assert set(refused(ask("keep", head=head(), name="x", note="y" * 2001))) == {"note"}


def test_a_script_in_a_name_stays_text_wherever_it_is_shown() -> None:
    """No part of any calculator holds it as markup; those that name the head hold it escaped."""
    evil = '<script>alert("x")</script>'
    text, shown = keep(head(), evil), []
    for name in ALL:
        reply = ask("run", calculator=name, head=own(text))
        whole = "".join(reply["parts"].values())
        assert "<script" not in whole, name
        shown += [name] if escape(evil) in whole or escape(evil, quote=False) in whole else []
    assert {"describe", "beside"} <= set(shown)
    other = ask("run", calculator="beside", head=head(), inputs={"other": "own", "other_head": text})
    assert "<script" not in "".join(other["parts"].values())
    assert escape(evil) in other["parts"]["beside"]


@pytest.mark.parametrize("count", [3, 4, 5, 6])
def test_three_to_six_rods_are_kept(count: int) -> None:
    """As many rods as are asked for, the first three where they stood; two and seven are refused."""
    strokes = {f"rods.{n}.stroke_mm": f"{700 + n}" for n in range(1, count + 1)}
    back = unpack(keep({"base": "cedar4", "changes": {"rods.count": str(count), **strokes}}))
    assert [r.stroke_mm for r in back.rods] == [700.0 + n for n in range(1, count + 1)]
    assert [r.bearing_deg for r in back.rods[:3]] == [r.bearing_deg for r in demonstration("cedar4").rods]
    file = ask("write", head=own(pack(back)))["text"]
    assert complaints(json.loads(file)) == []
    assert unpack(ask("read", text=file)["own"]) == back
    for wrong in ("2", "7", "3.5", "3 to 5"):
        assert set(refused(ask("keep", head=head(rods__count=wrong), name="x"))) == {"rods.count"}


@pytest.mark.parametrize("calculator", ALL)
@pytest.mark.parametrize("turned", [False, True], ids=["as-drawn", "turned"])
def test_an_own_head_answers_as_the_head_it_was_kept_from(calculator: str, turned: bool) -> None:
    """Every result and every field equal, to the last bit; only the name is another."""
    for base in DEMONSTRATION:
        text = keep(head(base, turned), "Mine 🚁")
        # Beside another head than itself, whose name would stand there too.
        beside = {"other": "elder6" if base == "alder3" else "alder3"} if calculator == "beside" else {}
        one = ask("run", calculator=calculator, head=head(base, turned), inputs=beside)
        other = ask("run", calculator=calculator, head=own(text), inputs=beside)
        assert other["state"] == "result"
        assert other["results"] == one["results"], base
        assert other["form"] == one["form"], base
        name = demonstration(base).name
        assert other["spoken"] == one["spoken"].replace(name, "Mine 🚁")
        assert (other["head"]["base"], other["head"]["name"], other["head"]["label"]) == ("own", "Mine 🚁", "Mine 🚁")
        assert other["head"]["rotation"] == one["head"]["rotation"]
        assert other["head"]["own"] == text


def test_changes_to_an_own_head_are_changes() -> None:
    """A working copy of it says so; turned it says that too."""
    text = keep(head("elder6"), "Mine")
    reply = ask("run", calculator="lag", head={**own(text), "mirrored": True, "changes": {"rpm": "260"}})
    assert reply["head"]["label"] == "Mine, turned the other way, changed"
    same = ask("run", calculator="lag", head=head("elder6", True, rpm="260"))
    assert reply["results"] == same["results"]


def test_a_packed_text_cut_short_is_refused_with_a_sentence() -> None:
    """Cut anywhere."""
    text = keep(head("dogwood5"), "Mine")
    for end in range(len(text)):
        reply = ask("check", head=own(text[:end]))
        assert set(refused(reply)) == {"head"}, text[:end]
    assert "cut short" in refused(ask("check", head=own(text[:-40])))["head"]
    assert ask("check", head=own(text))["state"] == "result"


def test_a_packed_text_cut_in_its_ranges_never_lies() -> None:
    """A last range that lost digits and no longer holds its figure is refused, not believed."""
    text = keep(head(stick_friction_N="5 to 15", mass_kg="1000 to 1500"))
    assert text.endswith("mass_kg:1000,1500")
    assert "mass_kg" in refused(ask("check", head=own(text[:-1])))  # 1000 to 150: the wrong way round
    text = keep(head(mast_above_cg_m="1 to 1.45", arm_mm="195 to 205"))
    broken = text.replace("arm_mm:195,205", "arm_mm:201,205")
    assert "200" in refused(ask("check", head=own(broken)))["arm_mm"]


def test_a_newer_order_of_parts_is_refused_as_that() -> None:
    """Not taken for a text cut short."""
    text = keep(head())
    for order in ("3", "17"):
        reply = refused(ask("check", head=own(order + text[1:])))
        assert "newer" in reply["head"]
        assert order in reply["head"]
    assert "newer" not in refused(ask("check", head=own("1" + text[1:])))["head"]
    assert ask("read", text="3" + text[1:])["state"] == "invalid"


def test_every_part_of_a_packed_text_is_judged() -> None:
    """Rubbish, NaN and infinity in any one part: refused by the key it stands for, two of them together."""
    parts = keep(head()).split("~")
    first = 3 + len(OPTIONS)
    for n, figure in enumerate(FIGURES, start=first):
        for bad in ("x", "nan", "inf", "-1e99", ""):
            spoiled = [*parts[:n], bad, *parts[n + 1 :]]
            assert set(refused(ask("check", head=own("~".join(spoiled))))) == {figure.key}, (figure.key, bad)
    parts[first], parts[first + 1], parts[-2], parts[-1] = "many", "-3", "10,x;120,50", "wings:1,2;arm_mm:1"
    assert set(refused(ask("read", text="~".join(parts)))) == {
        FIGURES[0].key,
        FIGURES[1].key,
        "rods",
        "wings",
        "arm_mm",
    }


@MANY
@given(st.data())
def test_any_damage_to_a_packed_text_is_refused_or_read(data: st.DataObject) -> None:
    """A sign lost, changed or put in anywhere: a head, or sentences; never a failure."""
    text = keep(head("cedar4", mass_kg="1500 to 1700", rods__2__stroke_mm="400 to 500"))
    at = data.draw(st.integers(0, len(text)))
    spoiled = text[:at] + data.draw(st.text(max_size=3)) + text[at + data.draw(st.integers(0, 3)) :]
    reply = ask("run", calculator="phase", head=own(spoiled))
    assert reply["state"] == "result" or refused(reply)
