"""A head's description: JSON there and back, every fault at once, and nothing but Refused from rubbish."""

import json
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from rotorhead.blade.flap import flapping_of
from rotorhead.faults import Fault, Refused
from rotorhead.head import DEMONSTRATION, Head, demonstration, from_dict, from_json, to_dict
from rotorhead.head_changes import changed, mirrored
from rotorhead.head_figures import FIGURES, OPTIONS
from rotorhead.mechanism.assembly import assembled
from rotorhead.rotor import of_head

MANY = settings(max_examples=60, deadline=None, database=None, derandomize=True)


def description(head_id: str = "alder3") -> dict[str, Any]:
    """A good description to spoil."""
    return dict(json.loads(json.dumps(to_dict(demonstration(head_id)))))


def fields(data: object) -> list[str]:
    """What from_dict complains about."""
    with pytest.raises(Refused) as caught:
        from_dict(data)
    assert all(f.head and f.text.strip() for f in caught.value.faults)
    return [f.field for f in caught.value.faults]


def read(data: object) -> tuple[Head | None, tuple[Fault, ...]]:
    """A head, or what was refused; any other exception fails the test."""
    try:
        return from_dict(data), ()
    except Refused as refused:
        return None, refused.faults


@pytest.mark.parametrize("head_id", DEMONSTRATION)
def test_written_and_read_it_is_the_same_head(head_id: str) -> None:
    """Through real JSON text."""
    head = demonstration(head_id)
    assert from_json(json.dumps(to_dict(head), allow_nan=False)) == head
    turned = mirrored(head)
    back = from_json(json.dumps(to_dict(turned)))
    assert replace(back, mirrored=True) == turned


@pytest.mark.parametrize("turned", [False, True], ids=["as-drawn", "mirrored"])
@pytest.mark.parametrize("head_id", DEMONSTRATION)
def test_demonstration_heads_go_together(head_id: str, turned: bool) -> None:
    """Links close, strokes reach, either way round; the id in the file is the file's name."""
    head = demonstration(head_id)
    assert head.id == head_id
    assert "nvented" in head.note
    assert assembled(mirrored(head) if turned else head).blades == head["blades"]


@MANY
@given(data=st.data())
def test_any_allowed_figure_comes_back(data: st.DataObject) -> None:
    """A figure anywhere within its limits is written and read to the last bit, or refused by a check
    between figures; nothing is clamped."""
    figure = data.draw(st.sampled_from(FIGURES))
    value: float = data.draw(st.floats(figure.low, figure.high))
    if figure.whole:
        value = float(round(value))
    spoiled = description("dogwood5") | {figure.key: value}
    head, faults = read(spoiled)
    assert all(f.head for f in faults)
    if head is not None:
        assert head[figure.key] == value
        assert from_json(json.dumps(to_dict(head))) == head


def test_all_faults_at_once() -> None:
    """Several bad figures, a bad option, a bad rod, an unknown key: each named, in one refusal."""
    bad = description() | {
        "rpm": 1e9, "chord_m": "wide", "radius_m": float("nan"), "twist_deg": None, "blades": 2.5, "type": "rigid",
        "colour": "red", "version": 99, "format": "other", "name": "", "actuators": True,
    }  # fmt: skip
    bad["rods"][1]["bearing_deg"] = -4
    bad["rods"][2] = "rod"
    del bad["mass_kg"]
    assert set(fields(bad)) == {
        "rpm", "chord_m", "radius_m", "twist_deg", "blades", "type", "colour", "version", "format", "name", "actuators",
        "rods.2.bearing_deg", "rods.3", "mass_kg",
    }  # fmt: skip


def test_contradictions_are_named_together() -> None:
    """Checks between figures: reported together once each figure is good by itself."""
    bad = description() | {"collective_high_deg": 0.6, "arm_mm": 4, "actuator_rod_mm": 30}
    bad["rods"] = [{"bearing_deg": b, "stroke_mm": 110} for b in (10, 11, 190)]
    assert set(fields(bad)) == {"collective_high_deg", "arm_mm", "actuator_rod_mm", "rods.1.bearing_deg"}


def test_sentences_name_figure_value_and_range() -> None:
    """What was written, and what is allowed, in the unit of the key."""
    with pytest.raises(Refused) as caught:
        from_dict(description() | {"rpm": 4})
    assert str(caught.value) == "Rotor speed: 4 is outside what is allowed, between 60 and 1500 rpm."


def test_changes_are_judged_together_and_in_the_readers_units() -> None:
    """A working copy: all bad figures at once; limits in inches for an imperial reader."""
    head = demonstration("alder3")
    with pytest.raises(Refused) as caught:
        changed(head, {"rpm": "fast", "arm_mm": "99", "blades": "3.5", "wings": "2", "type": "odd"}, "imperial")
    faults = {f.field: f.text for f in caught.value.faults}
    assert set(faults) == {"rpm", "arm_mm", "blades", "wings", "type"}
    assert all(f.head for f in caught.value.faults)
    assert "in" in faults["arm_mm"].split()[-1]
    assert "99" in faults["arm_mm"]
    assert changed(head, {"arm_mm": "8"}, "imperial")["arm_mm"] == pytest.approx(203.2, abs=1e-9)
    assert head["arm_mm"] == 200.0


def test_links_that_cannot_be_assembled_are_named() -> None:
    """Too short a link, too short an arm, too short a stroke."""
    head = demonstration("alder3")
    for changes, key in (
        ({"link_mm": "50"}, "link_mm"),
        ({"link_foot_out_mm": "600"}, "link_mm"),
        ({"rods.1.stroke_mm": "60"}, "rods.1.stroke_mm"),
    ):
        with pytest.raises(Refused) as caught:
            assembled(changed(head, changes))
        assert [f.field for f in caught.value.faults] == [key]
        assert caught.value.faults[0].head


@pytest.mark.parametrize(("arm", "station"), [("-300", "400"), ("-200", "600"), ("60", "20")])
def test_diverging_horn_is_described_as_it_stands(arm: str, station: str) -> None:
    """A riding horn that puts pitch on as the blade rises: the sentence says inboard only of a horn that
    stands inboard of its flap hinge."""
    head = changed(demonstration("dogwood5"), {"arm_mm": arm, "horn_station_mm": station, "blade_mass_kg": "8"})
    rotor = of_head(head)
    with pytest.raises(Refused) as caught:
        flapping_of(rotor)
    text = caught.value.faults[0].text
    wrong = "outboard" if rotor.horn_station < rotor.hinge else "inboard"
    assert wrong not in text
    assert f"{rotor.horn_station * 1000:.0f} mm" in text


JSON = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=30),
    lambda inner: st.lists(inner, max_size=5) | st.dictionaries(st.text(max_size=20), inner, max_size=5),
    max_leaves=12,
)


@MANY
@given(JSON)
def test_any_json_is_refused(data: object) -> None:
    """No other exception, whatever the shape."""
    assert fields(data)


@MANY
@given(data=st.data())
def test_a_good_description_spoiled_anywhere(data: st.DataObject) -> None:
    """Any JSON in place of any one value: a head or a refusal that names a key."""
    good = description(data.draw(st.sampled_from(DEMONSTRATION)))
    key = data.draw(st.sampled_from([*good, "rods", "extra"]))
    good[key] = data.draw(JSON)
    head, faults = read(good)
    assert (head is None) == bool(faults)
    assert all(f.field and f.text for f in faults)


@MANY
@given(data=st.data())
def test_rods_spoiled_anywhere(data: st.DataObject) -> None:
    """The list of rods in any shape."""
    good = description()
    rod = st.fixed_dictionaries({}, optional={"bearing_deg": JSON, "stroke_mm": JSON | st.floats(5, 800), "x": JSON})
    good["rods"] = data.draw(st.lists(rod | JSON, max_size=8))
    head, faults = read(good)
    assert (head is None) == bool(faults)
    assert all(f.field.startswith("rods") for f in faults)


@MANY
@given(st.text(max_size=200))
def test_any_text_as_a_file_is_refused(text: str) -> None:
    """A file that is no description."""
    with pytest.raises(Refused):
        from_json(text)


@pytest.mark.parametrize("text", ["[" * 100_000, "1" * 5000, '{"format": ', "\ufeff{}", "{}", "null"])
def test_awkward_files_are_refused(text: str) -> None:
    """Deep nesting, endless digits, half a file, a byte-order mark."""
    with pytest.raises(Refused) as caught:
        from_json(text)
    assert all(len(f.text) < 400 for f in caught.value.faults)


def test_every_key_can_be_changed_and_is_declared() -> None:
    """The keys a reader can change are the declared ones and the rods."""
    head = demonstration("cedar4")
    keys = set(head.keys())
    assert keys >= {f.key for f in FIGURES} | {o.key for o in OPTIONS}
    rest = keys - {f.key for f in FIGURES} - {o.key for o in OPTIONS}
    assert rest == {"rods.count"} | {f"rods.{n}.{part}" for n in (1, 2, 3) for part in ("bearing_deg", "stroke_mm")}
    for key in keys - {o.key for o in OPTIONS}:
        assert changed(head, {key: repr(head[key])})[key] == pytest.approx(head[key], abs=1e-9)
