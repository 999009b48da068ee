"""The door takes any text and answers with JSON: result, invalid or failed; it never raises, never lets NaN out."""

import json
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from rotorhead import door
from rotorhead.fields import Calculator, Choice, Number
from rotorhead.head import DEMONSTRATION, demonstration
from rotorhead.head_figures import BY_KEY, OPTION_BY_KEY
from rotorhead.run import figure_keys
from rotorhead.topics import ALL

MANY = settings(max_examples=80, deadline=None, database=None, derandomize=True)


def no_constant(name: str) -> None:
    """Python's reader takes NaN and Infinity; a browser's doesn't."""
    raise AssertionError(f"{name} is not JSON")


def answered(text: str) -> dict[str, Any]:
    """The door's answer, held to the contract: strict JSON, a known state, sentences."""
    reply = json.loads(door.answer(text), parse_constant=no_constant)
    assert isinstance(reply, dict)
    assert reply["state"] in ("result", "invalid", "failed")
    if reply["state"] == "invalid":
        assert reply["faults"]
        for fault in reply["faults"]:
            assert set(fault) == {"field", "head", "text"}
            assert isinstance(fault["field"], str)
            assert isinstance(fault["head"], bool)
            assert fault["text"].strip().endswith(".")
            assert "Traceback" not in fault["text"]
    if reply["state"] == "failed":
        assert reply["text"].endswith(".")
        assert "Traceback" not in reply["text"]
    return reply


JSON = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=30),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(max_size=12), inner, max_size=4),
    max_leaves=10,
)
OPS = ["run", "values", "check", "reunit", "turn"]
NAMES = [*BY_KEY, *OPTION_BY_KEY, *(i.name for c in ALL.values() for i in c.inputs)]
TEXTS = st.text(max_size=12) | st.floats().map(repr) | st.sampled_from(["", "1e400", "25", "-3,5", "9" * 500, "left"])


@MANY
@given(st.text(max_size=200))
def test_any_text(text: str) -> None:
    """No JSON at all."""
    answered(text)


@MANY
@given(JSON)
def test_any_json(data: object) -> None:
    """JSON of any shape."""
    assert answered(json.dumps(data))["state"] != "result"


@settings(max_examples=150, deadline=None, database=None, derandomize=True)
@given(
    st.fixed_dictionaries(
        {"op": st.sampled_from(OPS) | JSON, "id": JSON},
        optional={
            "calculator": st.sampled_from(list(ALL)) | JSON,
            "units": st.sampled_from(["metric", "imperial"]) | JSON,
            "from": st.sampled_from(["metric", "imperial"]) | JSON,
            "to": st.sampled_from(["metric", "imperial"]) | JSON,
            "names": JSON,
            "figures": JSON,
            "inputs": st.dictionaries(st.sampled_from(NAMES) | st.text(max_size=8), TEXTS | JSON, max_size=4) | JSON,
            "head": JSON
            | st.fixed_dictionaries(
                {},
                optional={
                    "base": st.sampled_from(DEMONSTRATION) | JSON,
                    "mirrored": st.booleans() | JSON,
                    "changes": st.dictionaries(st.sampled_from(NAMES) | st.text(max_size=8), TEXTS | JSON, max_size=4)
                    | JSON,
                },
            ),
        },
    )
)
def test_any_request(request: dict[str, Any]) -> None:
    """Requests that are nearly right: every part good or anything at all."""
    answered(json.dumps(request))


@pytest.mark.parametrize("request_id", ["NaN", "Infinity", "-Infinity", "[NaN]", '{"a": NaN}', "1e400"])
@pytest.mark.parametrize("op", ["run", "check", "none"])
def test_an_id_that_is_no_json_number(request_id: str, op: str) -> None:
    """Python reads NaN as an id; the answer must not write it back."""
    answered(f'{{"op": "{op}", "id": {request_id}}}')


TURN_RODS = '{"op": "run", "calculator": "phase", "inputs": {"turn_rods": "%s"}}'
AWKWARD = {
    "deep": "[" * 100_000,
    "deep-objects": '{"a":' * 50_000,
    "long-number": "9" * 5000,
    "long-id": '{"op": "run", "id": ' + "9" * 5000 + "}",
    "byte-order-mark": "\ufeff{}",
    "lone-surrogate": '"\\ud800"',
    "surrogate-op": '{"op": "\\ud800", "id": "\\ud800"}',
    "surrogate-input": TURN_RODS % "\\ud800",
    "long-input": TURN_RODS % ("9" * 100_000),
}


@pytest.mark.parametrize("name", AWKWARD)
def test_awkward_requests(name: str) -> None:
    """Deep nesting, endless digits, half a character."""
    assert answered(AWKWARD[name])["state"] != "result"


@st.composite
def slid(draw: st.DrawFn, calculator: Calculator) -> dict[str, Any]:
    """A request with every input, and some figures of the head, anywhere on their sliders."""
    inputs: dict[str, str] = {}
    for item in calculator.inputs:
        if isinstance(item, Choice):
            inputs[item.name] = draw(st.sampled_from([v for v, _ in item.choices]))
        elif isinstance(item, Number):
            low, high, step = item.slider
            inputs[item.name] = repr(round(low + draw(st.integers(0, round((high - low) / step))) * step, 9))
    base = draw(st.sampled_from(DEMONSTRATION))
    keys = figure_keys((*calculator.figures_first, *calculator.figures), demonstration(base))
    changes: dict[str, str] = {}
    if keys:
        for key in draw(st.lists(st.sampled_from(keys), max_size=3, unique=True)):
            if key in OPTION_BY_KEY:
                changes[key] = draw(st.sampled_from([v for v, _ in OPTION_BY_KEY[key].choices]))
            else:
                low, high, step = BY_KEY[key].slider
                changes[key] = repr(round(low + draw(st.integers(0, round((high - low) / step))) * step, 9))
    head = {"base": base, "mirrored": draw(st.booleans()), "changes": changes}
    return {"op": "run", "id": 1, "calculator": calculator.id, "inputs": inputs, "head": head, "units": "metric"}


@pytest.mark.parametrize("name", ALL)
@settings(max_examples=15, deadline=None, database=None, derandomize=True)
@given(data=st.data())
def test_sliders_never_fail(name: str, data: st.DataObject) -> None:
    """Over the whole of every slider, of inputs and of the head's figures, on all heads: an answer or a
    sentence; never 'failed'."""
    request = data.draw(slid(ALL[name]))
    assert answered(json.dumps(request))["state"] in ("result", "invalid")


@pytest.mark.parametrize("name", ALL)
@settings(max_examples=15, deadline=None, database=None, derandomize=True)
@given(data=st.data())
def test_sliders_of_the_head_alone_answer(name: str, data: st.DataObject) -> None:
    """A head as it is: every refusal then names an input that the reader moved, not the head."""
    request = data.draw(slid(ALL[name]))
    request["head"]["changes"] = {}
    reply = answered(json.dumps(request))
    if reply["state"] == "invalid":
        inputs = {i.name for i in ALL[name].inputs}
        assert {f["field"] for f in reply["faults"]} <= inputs
        assert not any(f["head"] for f in reply["faults"])


@pytest.mark.parametrize("name", ALL)
@settings(max_examples=15, deadline=None, database=None, derandomize=True)
@given(data=st.data())
def test_hard_limits_never_fail(name: str, data: st.DataObject) -> None:
    """Beyond the sliders, at and between the hard limits."""
    calculator = ALL[name]
    inputs = {}
    for item in calculator.inputs:
        if isinstance(item, Choice):
            inputs[item.name] = data.draw(st.sampled_from([v for v, _ in item.choices]))
        elif isinstance(item, Number):
            inputs[item.name] = repr(data.draw(st.sampled_from([item.low, item.high]) | st.floats(item.low, item.high)))
    changes = {}
    for figure in data.draw(st.lists(st.sampled_from([*BY_KEY.values()][:-6]), max_size=2)):
        changes[figure.key] = repr(
            data.draw(st.sampled_from([figure.low, figure.high]) | st.floats(figure.low, figure.high))
        )
    head = {"base": data.draw(st.sampled_from(DEMONSTRATION)), "changes": changes}
    request = {"op": "run", "id": 1, "calculator": name, "inputs": inputs, "head": head, "units": "metric"}
    assert answered(json.dumps(request))["state"] in ("result", "invalid")


@pytest.mark.parametrize("base", DEMONSTRATION)
def test_every_figure_at_the_ends_of_its_slider(base: str) -> None:
    """Each figure of the head by itself at both ends of its slider and at 0: an answer or a sentence."""
    head = demonstration(base)
    for key in head.keys():  # noqa: SIM118 (a head is no mapping)
        if key in OPTION_BY_KEY:
            values = [v for v, _ in OPTION_BY_KEY[key].choices]
        else:
            low, high, _ = BY_KEY[key].slider
            values = [repr(v) for v in {low, high, min(max(0, low), high)}]
        for value in values:
            request = {"op": "run", "id": 1, "calculator": "disc", "head": {"base": base, "changes": {key: value}}}
            assert answered(json.dumps(request))["state"] in ("result", "invalid"), (key, value)
