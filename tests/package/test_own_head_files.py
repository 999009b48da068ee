"""Files of a reader's own heads, through the door: written, read back, refused with every fault named.

They are judged by a second reader as well: jsonschema with the schema the site publishes.
"""

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator
from rotorhead.head import DEMONSTRATION, demonstration, to_dict
from rotorhead.head_changes import changed, mirrored
from rotorhead.head_figures import FIGURES, OPTIONS
from rotorhead.head_packed import unpack
from rotorhead.head_schema import schema

from .own_requests import ask, complaints, data_of, file_of, head, own, refused

MANY = settings(max_examples=80, deadline=None, database=None, derandomize=True)
every_head = pytest.mark.parametrize(("base", "turned"), [(b, t) for b in DEMONSTRATION for t in (False, True)])


@every_head
def test_written_and_read_it_is_the_same_head(base: str, turned: bool) -> None:
    """Through the text of a file; the schema has nothing against it; a range is in it."""
    written = ask("write", head=head(base, turned, mass_kg="1500 to 1700"))
    data = json.loads(written["text"])
    assert complaints(data) == []
    assert data["unknown"] == {"mass_kg": [1500.0, 1700.0]}
    read = ask("read", text=written["text"])
    assert read["name"] == demonstration(base).name
    back = unpack(read["own"])
    want = changed(
        mirrored(demonstration(base)) if turned else demonstration(base), {"mass_kg": "1500 to 1700"}
    )  # fmt: skip
    assert (back.figures, back.options, back.rods, back.unknown) == (
        want.figures,
        want.options,
        want.rods,
        want.unknown,
    )
    assert ask("read", text=read["own"])["own"] == read["own"], "a packed text may be read as a file too"


@pytest.mark.parametrize("base", DEMONSTRATION)
def test_demonstration_files_are_valid_as_they_lie_there(base: str, root: Path) -> None:
    """The files the package carries, by the published schema."""
    text = (root / "calculators/src/rotorhead/heads" / f"{base}.json").read_text(encoding="utf-8")
    assert complaints(json.loads(text)) == []
    assert ask("read", text=text)["name"] == demonstration(base).name


def test_the_schema_is_a_schema() -> None:
    """Draft 2020-12, every figure described."""
    Draft202012Validator.check_schema(schema())
    described = schema()["properties"]
    assert all(described[f.key]["description"] for f in FIGURES)


def spoiled_files() -> Iterator[tuple[str, dict[str, Any]]]:
    """One fault in each: the key that must be named, and the file."""
    good = data_of()
    yield "colour", good | {"colour": "red"}
    for key in good.keys() - {"note", "unknown"}:
        yield key, {k: v for k, v in good.items() if k != key}
    for figure in FIGURES:
        for value in (figure.low - 1.0, figure.high + 1.0, "5", None, True, [1], 10**400):
            yield figure.key, good | {figure.key: value}
        if figure.whole:
            yield figure.key, good | {figure.key: 2.5}
    for option in OPTIONS:
        yield option.key, good | {option.key: "odd"}
    yield "name", good | {"name": ""}
    yield "name", good | {"name": "x" * 81}
    yield "note", good | {"note": "x" * 2001}
    yield "version", good | {"version": 3}
    yield "format", good | {"format": "another"}
    yield "rods", good | {"rods": good["rods"][:2]}
    yield "rods", good | {"rods": good["rods"] * 3}
    yield "rods.2.stroke_mm", good | {"rods": [good["rods"][0], {"bearing_deg": 120}, good["rods"][2]]}
    yield "rods.1.bearing_deg", good | {"rods": [{"bearing_deg": 361, "stroke_mm": 99}, *good["rods"][1:]]}
    yield "arm_mm", good | {"unknown": {"arm_mm": [190]}}
    yield "arm_mm", good | {"unknown": {"arm_mm": ["190", 210]}}


def test_schema_and_reading_refuse_the_same_files() -> None:
    """Unknown keys, missing ones, values out of range or of another kind: both say no, and reading names the key alone."""
    for key, data in spoiled_files():
        assert complaints(data), key
        assert set(refused(ask("read", text=json.dumps(data)))) == {key}


def test_two_faults_are_named_together() -> None:
    """Any two of them that don't stand in each other's way."""
    faults = {key: data for key, data in spoiled_files() if not data.get("unknown")}
    keys = [k for k in faults if k in data_of() and k not in ("rods", "format", "version")]
    for one, other in zip(keys, keys[7:], strict=False):
        both = data_of()
        for key in (one, other):
            if key in faults[key]:
                both[key] = faults[key][key]
            else:
                del both[key]
        assert set(refused(ask("read", text=json.dumps(both)))) == {one, other}


def test_ranges_in_a_file_are_judged() -> None:
    """What the schema can't say: order, limits, figures that have none, a figure outside its own range."""
    for key, span in (
        ("arm_mm", [210, 190]), ("arm_mm", [200, 200]), ("arm_mm", [-5000, 250]), ("blades", [3, 4]), ("rotation", [1, 2]),
        ("rods.9.stroke_mm", [1, 2]), ("arm_mm", [201, 250]), ("rods.1.stroke_mm", [700, 800]),
    ):  # fmt: skip
        assert set(refused(ask("read", text=json.dumps(data_of() | {"unknown": {key: span}})))) == {key}, (key, span)
    assert set(refused(ask("read", text=json.dumps(data_of() | {"unknown": [1]})))) == {"unknown"}


def test_an_older_file_is_taken_up_and_a_newer_one_refused() -> None:
    """Version 1 had no ranges; version 3 may hold what this site can't know."""
    old = {k: v for k, v in data_of().items() if k != "unknown"} | {"version": 1}
    assert ask("read", text=json.dumps(old))["own"] == ask("read", text=file_of())["own"]
    assert set(refused(ask("read", text=json.dumps(old | {"unknown": {}})))) == {"version"}
    newer = refused(ask("read", text=json.dumps(data_of() | {"version": 3})))
    assert newer == {"version": "version: 3 is newer than this site reads (up to 2)."}
    for odd in (0, -1, "2", None, 2.5, True, 1e300):
        assert set(refused(ask("read", text=json.dumps(data_of() | {"version": odd})))) == {"version"}, odd


def test_a_head_that_does_not_go_together_is_refused_as_a_file() -> None:
    """The linkage is judged as well."""
    assert set(refused(ask("read", text=json.dumps(data_of() | {"link_mm": 60})))) == {"link_mm"}
    assert set(refused(ask("write", head=head(link_mm="60")))) == {"link_mm"}
    assert set(refused(ask("keep", head=head(link_mm="60"), name="x"))) == {"link_mm"}


@pytest.mark.parametrize(
    "text", ["", "~", "[" * 19_000, '{"a":' * 3_000, "1" * 10_000, "{}", "null", "\ufeff{}", "NaN", "x" * 20_001]
)
def test_files_that_are_none_are_refused(text: str) -> None:
    """Each with a sentence."""
    assert refused(ask("read", text=text))


ANY = st.recursive(
    st.none() | st.booleans() | st.text(max_size=12) | st.integers() | st.floats() | st.sampled_from([1e308, -1e308, 10**500]),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(max_size=8), inner, max_size=4),
    max_leaves=8,
)  # fmt: skip


@MANY
@given(st.text(max_size=300))
def test_any_text_as_a_file(text: str) -> None:
    """Nobody's head by chance."""
    assert refused(ask("read", text=text))


@MANY
@given(ANY)
def test_any_json_as_a_file(data: object) -> None:
    """JSON, but no head."""
    assert refused(ask("read", text=json.dumps(data)))


@MANY
@given(data=st.data())
def test_a_good_file_spoiled_anywhere(data: st.DataObject) -> None:
    """Up to three keys gone, new, or with any value: a head that can be used, or every spoiled key's fault and no crash."""
    spoiled = data_of(data.draw(st.sampled_from(DEMONSTRATION)))
    for _ in range(data.draw(st.integers(1, 3))):
        key = data.draw(st.sampled_from(sorted(spoiled)) | st.text(max_size=8))
        if data.draw(st.booleans()) and key in spoiled:
            del spoiled[key]
        else:
            spoiled[key] = data.draw(ANY)
    reply = ask("read", text=json.dumps(spoiled))
    if reply["state"] == "result":
        assert complaints(spoiled) == [] or spoiled.get("version") == 1
        assert ask("check", head=own(reply["own"]))["state"] == "result"
    else:
        assert refused(reply)


@MANY
@given(data=st.data())
def test_a_file_with_signs_lost_or_changed(data: st.DataObject) -> None:
    """Damage to the text itself."""
    text = file_of()
    at = data.draw(st.integers(0, len(text)))
    spoiled = text[:at] + data.draw(st.text(max_size=3)) + text[at + data.draw(st.integers(0, 40)) :]
    reply = ask("read", text=spoiled)
    assert reply["state"] == "result" or refused(reply)


def test_a_file_nested_without_end() -> None:
    """Python in a browser has a small stack, and would end without a word; brackets in a text are no nesting."""
    for text in ("[" * 5000, '{"a":' * 3000, '{"x": ' + "[" * 9 + "]" * 9 + "}"):
        assert "nested too deep" in ask("read", text=text)["faults"][0]["text"]
    assert ask("read", text=json.dumps({**data_of("alder3"), "note": "[[[[[[[[[[ \\" + '"'}))["state"] == "result"


@MANY
@given(ANY)
def test_requests_of_any_shape_are_answered(data: object) -> None:
    """Anything as head, name, text and key."""
    for op, field in (
        ("keep", "head"),
        ("keep", "name"),
        ("write", "head"),
        ("read", "text"),
        ("likely", "key"),
        ("likely", "head"),
    ):
        reply = ask(op, **{"head": head(), "name": "x", "key": "arm_mm", "text": "", field: data})
        assert reply["state"] in ("result", "invalid"), (op, field, reply)


def test_to_dict_and_the_schema_know_the_same_keys() -> None:
    """Nothing is written that the schema doesn't name, nothing named that isn't written."""
    assert set(to_dict(demonstration("alder3"))) == set(schema()["properties"])
