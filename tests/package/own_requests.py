"""Requests about heads of a reader's own, and what comes back; the schema of their files. For the tests."""

import json
from functools import cache
from typing import Any

from jsonschema import Draft202012Validator
from rotorhead import door
from rotorhead.head_schema import schema


def ask(op: str, **request: Any) -> dict[str, Any]:
    """A request and its answer."""
    return dict(json.loads(door.answer(json.dumps({"op": op, "id": 1, **request}))))


def head(base: str = "alder3", turned: bool = False, **changes: str) -> dict[str, Any]:
    """The head of a request; double underscores stand for dots in a rod's key."""
    return {"base": base, "mirrored": turned, "changes": {k.replace("__", "."): v for k, v in changes.items()}}


def own(text: str) -> dict[str, Any]:
    """A packed head as the head of a request."""
    return {"base": "own", "own": text, "mirrored": False, "changes": {}}


def run(
    calculator: str, choice: dict[str, Any] | None = None, *, units: str = "metric", **inputs: str
) -> dict[str, Any]:
    """A run of a calculator."""
    return ask("run", calculator=calculator, inputs=inputs, head=choice or head(), units=units)


def results(calculator: str, choice: dict[str, Any] | None = None, **inputs: str) -> dict[str, Any]:
    """Its results by name."""
    reply = run(calculator, choice, **inputs)
    assert reply["state"] == "result", reply
    return {r["name"]: r["value"] for r in reply["results"]}


def keep(choice: dict[str, Any], name: str = "Mine", **more: Any) -> str:
    """The packed text of a head under a name of its own."""
    reply = ask("keep", head=choice, name=name, **more)
    assert reply["state"] == "result", reply
    return str(reply["own"])


def refused(reply: dict[str, Any]) -> dict[str, str]:
    """The faults of an answer, each a sentence."""
    assert reply["state"] == "invalid", reply
    for fault in reply["faults"]:
        assert fault["text"].strip().endswith((".", "”")), fault
        assert len(fault["text"]) < 500
        assert "Traceback" not in fault["text"]
    return {f["field"]: f["text"] for f in reply["faults"]}


@cache
def file_of(base: str = "alder3") -> str:
    """A head's file as the door writes it."""
    return str(ask("write", head=head(base))["text"])


def data_of(base: str = "alder3") -> dict[str, Any]:
    """A head's file to spoil."""
    return dict(json.loads(file_of(base)))


def complaints(data: object) -> list[str]:
    """What the published schema says against a file."""
    return [e.message for e in Draft202012Validator(schema()).iter_errors(data)]
