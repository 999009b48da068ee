"""What each request to the door gives back: run, values, check, change of units, turning the head."""

import json
import re
from typing import Any

import pytest
from rotorhead import door, site_figures
from rotorhead.head import DEMONSTRATION, demonstration
from rotorhead.topics import ALL


def ask(op: str, **request: Any) -> dict[str, Any]:
    """A request and its answer."""
    return dict(json.loads(door.answer(json.dumps({"op": op, "id": 7, **request}))))


def head(base: str = "alder3", mirrored: bool = False, **changes: str) -> dict[str, Any]:
    """The head of a request; double underscores stand for dots in a rod's key."""
    return {"base": base, "mirrored": mirrored, "changes": {k.replace("__", "."): v for k, v in changes.items()}}


def run(
    calculator: str, inputs: dict[str, str] | None = None, *, units: str = "metric", **choice: Any
) -> dict[str, Any]:
    """A run of a calculator."""
    return ask("run", calculator=calculator, inputs=inputs or {}, head=choice.get("head", head()), units=units)


@pytest.mark.parametrize("name", ALL)
def test_run_answers_everything_a_page_needs(name: str) -> None:
    """Parts, spoken sentence, form, results; the request's id comes back."""
    reply = run(name)
    assert (reply["state"], reply["id"], reply["calculator"]) == ("result", 7, name)
    # A calculator with a chart has its table beside it; some declare further parts of their own.
    expected = {"sentence", "drawing", "results", "working"} | set(ALL[name].extra)
    assert set(reply["parts"]) - {"chart", "table"} == expected
    assert ("chart" in reply["parts"]) == ("table" in reply["parts"])
    assert all(part.startswith("<") for part in reply["parts"].values())
    assert reply["spoken"].endswith(".")
    assert reply["head"] == {
        "base": "alder3", "name": "Alder 3", "label": "Alder 3", "mirrored": False, "changed": [],
        "rotation": "anticlockwise",
    }  # fmt: skip
    for result in reply["results"]:
        assert set(result) == {"name", "label", "value", "unit", "text"}
        if isinstance(result["value"], float | int):
            # The printed text is the same number, rounded.
            shown = result["text"].removesuffix(result["unit"]).strip().replace("\N{MINUS SIGN}", "-")
            places = len(shown.partition(".")[2])
            assert float(shown) == pytest.approx(result["value"], abs=0.501 * 10.0**-places), result["name"]


def test_form_lists_the_fields_that_apply() -> None:
    """Fields for the chosen way of starting, and the head's figures with 'head.' in front."""
    hands, pose = run("pitch")["form"], run("pitch", {"from": "pose"})["form"]
    assert {"lever", "stick_forward", "stick_left"} <= set(hands)
    assert not {"height", "tilt", "low"} & set(hands)
    assert {"height", "tilt", "low"} <= set(pose)
    assert not {"lever", "stick_forward", "stick_left"} & set(pose)
    assert hands["head.arm_mm"] == {"text": "200", "changed": False, "min": -400, "max": 400, "step": 1, "unit": "mm"}
    plate = run("plate")["form"]
    assert {"rod_1", "rod_2", "rod_3"} <= set(plate)
    assert "rod_4" not in plate
    assert "head.rods.3.bearing_deg" in plate
    assert "head.rods.4.bearing_deg" not in plate


def test_what_was_typed_stays_typed() -> None:
    """Text and 'changed' come back as entered, of inputs and of the head."""
    reply = run("phase", {"turn_rods": " 4,50 "}, head=head(rpm="3 50"))
    assert reply["form"]["turn_rods"]["text"] == " 4,50 "
    assert reply["form"]["turn_rods"]["changed"]
    assert reply["form"]["head.rpm"] == reply["form"]["head.rpm"] | {"text": "3 50", "changed": True}
    assert reply["head"]["label"] == "Alder 3, changed"
    assert reply["head"]["changed"] == ["rpm"]


def test_a_typed_default_is_not_a_change() -> None:
    """Typing what stands there anyway."""
    default = run("phase")["form"]["told_offset"]["text"]
    assert not run("phase", {"told_offset": default})["form"]["told_offset"]["changed"]


def test_faults_of_the_working_copy_name_the_key() -> None:
    """head: true and the key, for a bad figure, a contradiction, a linkage that can't be assembled, a
    stroke too short; on any calculator."""
    for change, key in (
        ({"rpm": "fast"}, "rpm"), ({"rpm": "1e9"}, "rpm"), ({"chord_m": ""}, "chord_m"), ({"type": "odd"}, "type"),
        ({"collective_high_deg": "0.6"}, "collective_high_deg"), ({"link_mm": "60"}, "link_mm"),
        ({"rods__2__stroke_mm": "20"}, "rods.2.stroke_mm"), ({"rods__2__bearing_deg": "26"}, "rods.1.bearing_deg"),
        ({"wings": "2"}, "wings"),
    ):  # fmt: skip
        for name in ("phase", "gyro"):
            reply = run(name, head=head("alder3", False, **change))
            assert reply["state"] == "invalid", change
            assert [(f["field"], f["head"]) for f in reply["faults"]] == [(key, True)]


def test_faults_of_inputs_and_head_come_together() -> None:
    """Everything wrong at once, each with its field."""
    reply = run(
        "phase", {"turn_rods": "x", "told_offset": "999", "told_side": "up"}, head=head(rpm="0", chord_m="wide")
    )
    assert reply["state"] == "invalid"
    found = {(f["field"], f["head"]) for f in reply["faults"]}
    assert found == {
        ("turn_rods", False), ("told_offset", False), ("told_side", False), ("rpm", True), ("chord_m", True),
    }  # fmt: skip


def test_inputs_that_do_not_apply_are_not_judged() -> None:
    """Rubbish left in a field that is hidden now."""
    assert run("pitch", {"from": "hands", "tilt": "rubbish"})["state"] == "result"
    assert run("pitch", {"from": "pose", "tilt": "rubbish"})["state"] == "invalid"


def test_limits_are_told_in_the_readers_units() -> None:
    """An imperial reader reads inches."""
    text = run("plate", {"rod_1": "99"}, units="imperial")["faults"][0]["text"]
    assert "99" in text
    assert text.endswith(" in.")
    assert "mm" not in text


@pytest.mark.parametrize("mirrored", [False, True])
@pytest.mark.parametrize("base", DEMONSTRATION)
def test_values_for_running_text(base: str, mirrored: bool) -> None:
    """Every name the pages may use, none empty, no NaN; a list of names gives just those."""
    reply = ask("values", head=head(base, mirrored=mirrored), units="metric")
    values = reply["values"]
    assert reply["state"] == "result"
    assert set(reply["figures"]) == {*site_figures.FIGURES, *site_figures.TABLES}
    for name, html in values.items():
        assert html.strip(), name
        assert not re.search(r"\b(nan|inf|None)\b", html), name
    assert float(values["phase.remainder_bearing_deg"]) == pytest.approx(
        float(values["phase.remainder_bearing_deg"]) % 360
    )
    some = ask("values", head=head(base), units="imperial", names=["words.turning", "no.such"], figures=["rose", "no"])
    assert list(some["values"]) == ["words.turning"]
    assert list(some["figures"]) == ["rose"]


@pytest.mark.parametrize("base", DEMONSTRATION)
def test_check(base: str) -> None:
    """A head alone: good, or all of its faults."""
    assert ask("check", head=head(base), units="metric")["state"] == "result"
    reply = ask("check", head=head(base, rpm="x", radius_m="-1", name="y"), units="metric")
    assert {(f["field"], f["head"]) for f in reply["faults"]} == {("rpm", True), ("radius_m", True), ("name", True)}


@pytest.mark.parametrize(("base", "mirrored"), [("alder3", False), ("dogwood5", True)])
def test_change_of_units_carries_everything(base: str, mirrored: bool) -> None:
    """Head, changes and inputs in the new units give the same answer."""
    changes, inputs = (
        {"radius_m": "5.5", "arm_mm": "195", "rods.1.stroke_mm": "300", "type": "articulated"},
        {"altitude": "1500"},
    )
    choice = {"base": base, "mirrored": mirrored, "changes": changes}
    there = ask("reunit", **{"from": "metric", "to": "imperial"}, head=choice, inputs={"lag": inputs})
    assert there["head"]["base"] == base
    assert there["head"]["mirrored"] is mirrored
    assert there["head"]["changes"]["type"] == "articulated"
    assert float(there["inputs"]["lag"]["altitude"]) == pytest.approx(1500 / 0.3048, abs=0.01)
    one = run("lag", inputs, head=choice)["results"]
    other = run("lag", there["inputs"]["lag"], head=there["head"], units="imperial")["results"]
    for mine, theirs in zip(one, other, strict=True):
        if mine["unit"] == theirs["unit"]:
            assert theirs["value"] == pytest.approx(mine["value"], rel=1e-4), mine["name"]
    back = ask("reunit", **{"from": "imperial", "to": "metric"}, head=there["head"], inputs=there["inputs"])
    assert back["head"]["changes"] == changes
    assert back["inputs"]["lag"] == inputs


CHANGES = {"rpm": "350", "rods.1.bearing_deg": "30", "rods.2.bearing_deg": "150.5", "rods.3.bearing_deg": "0",
           "stationary_scissors_bearing_deg": "190", "rotation": "clockwise", "chord_m": "wide"}  # fmt: skip


def test_turned_twice_is_as_before() -> None:
    """Rotation and typed bearings go over and come back; what is no number stays."""
    inputs = {"phase": {"turn_rods": "5"}, "plate": {"from": "pose", "low": "30", "height": "4"}}
    once = ask("turn", head={"base": "alder3", "mirrored": False, "changes": CHANGES}, inputs=inputs)
    assert once["head"]["mirrored"] is True
    turned = once["head"]["changes"]
    assert (turned["rods.1.bearing_deg"], turned["rods.2.bearing_deg"], turned["rods.3.bearing_deg"]) == (
        "330",
        "209.5",
        "0",
    )
    assert (turned["rotation"], turned["chord_m"], turned["rpm"]) == ("anticlockwise", "wide", "350")
    assert once["inputs"]["phase"] == inputs["phase"]
    assert once["inputs"]["plate"] == {"from": "pose", "low": "330", "height": "4"}
    twice = ask("turn", head=once["head"], inputs=once["inputs"])
    assert twice["head"] == {"base": "alder3", "mirrored": False, "changes": CHANGES}
    assert twice["inputs"] == inputs


@pytest.mark.parametrize("base", DEMONSTRATION)
def test_a_changed_head_turned_answers_in_the_mirror(base: str) -> None:
    """The working copy turned the other way has the same budget, on the other side."""
    bearing = demonstration(base).rods[0].bearing_deg
    choice = head(base, rods__1__bearing_deg=f"{(bearing + 4) % 360:g}", rods__1__stroke_mm="400", rpm="300")
    turned = ask("turn", head=choice, inputs={})["head"]
    one, other = run("phase", head=choice), run("phase", head=turned)
    assert one["state"] == other["state"] == "result"
    pick = {r["name"]: r["value"] for r in one["results"]}, {r["name"]: r["value"] for r in other["results"]}
    assert pick[1]["needed"] == pytest.approx(pick[0]["needed"], abs=1e-9)
    assert pick[1]["error"] == pytest.approx(pick[0]["error"], abs=1e-9)
    assert one["head"]["rotation"] != other["head"]["rotation"]


@pytest.mark.parametrize(
    ("request_data", "field"),
    [
        ({"op": "dance"}, "op"), ({"op": "run", "calculator": "weather"}, "calculator"),
        ({"op": "run", "calculator": "phase", "units": "old"}, "units"),
        ({"op": "check", "head": {"base": "oak9"}}, "head"), ({"op": "check", "head": []}, "head"),
        ({"op": "check", "head": {"changes": {"rpm": 5}}}, "head"),
        ({"op": "run", "calculator": "phase", "inputs": 5}, "inputs"),
    ],
)  # fmt: skip
def test_requests_that_make_no_sense_are_refused(request_data: dict[str, Any], field: str) -> None:
    """A sentence naming what is wrong."""
    reply = dict(json.loads(door.answer(json.dumps({"id": 3, **request_data}))))
    assert (reply["state"], reply["id"]) == ("invalid", 3)
    assert [f["field"] for f in reply["faults"]] == [field]


def test_what_a_reader_typed_cannot_become_markup() -> None:
    """Typed text comes back as text only; no part of an answer holds it as markup."""
    evil = "<img src=x onerror=alert(1)>"
    reply = run("phase", {"turn_rods": evil})
    assert evil in reply["faults"][0]["text"]
    for name in ALL:
        parts = run(name)["parts"]
        assert all("<script" not in part and "onerror" not in part for part in parts.values())


@pytest.mark.parametrize("turn", ["90", "-90", "180"])
@pytest.mark.parametrize("name", ["phase", "disc"])
@pytest.mark.parametrize("base", DEMONSTRATION)
def test_rods_turned_a_right_angle_give_sensible_figures(base: str, name: str, turn: str) -> None:
    """Nothing of the answer, or all of it, comes across: a sentence or a figure a reader can use, never
    a number with sixteen digits."""
    reply = run(name, head=head(base, False, mixing_turn_deg=turn, rods__1__stroke_mm="800", rods__2__stroke_mm="800",
                                rods__3__stroke_mm="800"))  # fmt: skip
    assert reply["state"] == "result"
    for result in reply["results"]:
        if result["unit"] == "%" and isinstance(result["value"], float | int):
            assert abs(result["value"]) < 1e6, result["name"]
    assert not re.search(r"\d{8,}", reply["spoken"])
