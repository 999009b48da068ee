"""What the calculators declare holds: examples reproduce, results have units, defaults lie within limits."""

import re

import pytest
from rotorhead.fields import WORDS, Calculator, Choice, Example, Number, Text
from rotorhead.head import DEMONSTRATION, Head, demonstration
from rotorhead.head_changes import changed, mirrored
from rotorhead.head_figures import BY_KEY, OPTION_BY_KEY
from rotorhead.head_packed import pack
from rotorhead.mechanism.assembly import assembled
from rotorhead.render import results_list
from rotorhead.run import run
from rotorhead.topics import ALL
from rotorhead.units import QUANTITIES, SYSTEMS, System, from_si

HEADS: dict[str, Head] = {i: demonstration(i) for i in DEMONSTRATION}
HEADS |= {f"{i}-mirrored": mirrored(h) for i, h in list(HEADS.items())}
EXAMPLES = [(c, e) for c in ALL.values() for e in c.examples]
every_calculator = pytest.mark.parametrize("calculator", ALL.values(), ids=list(ALL))


@pytest.mark.parametrize(("calculator", "example"), EXAMPLES, ids=[f"{c.id}-{e.title[:30]}" for c, e in EXAMPLES])
def test_example_reproduces(calculator: Calculator, example: Example) -> None:
    """The declared inputs on the declared head give the declared results, within their tolerance."""
    rotor = assembled(changed(demonstration(example.head), example.changes))
    case = run(calculator, example.inputs, rotor)
    assert example.results
    for name, (value, tolerance) in example.results.items():
        declared = next(r for r in calculator.results if r.name == name)
        assert from_si(declared.quantity, case.result(name), "metric") == pytest.approx(value, abs=tolerance), name


@every_calculator
def test_has_an_example_with_a_source(calculator: Calculator) -> None:
    """At least one worked case, and where it comes from."""
    assert calculator.examples
    assert all(len(e.source) > 5 and e.title for e in calculator.examples)


@every_calculator
def test_names_are_declared_once(calculator: Calculator) -> None:
    """Inputs, results and figures by distinct names; figures exist; equations used exist."""
    inputs, results = [i.name for i in calculator.inputs], [r.name for r in calculator.results]
    assert len(set(inputs)) == len(inputs)
    assert len(set(results)) == len(results)
    figures = [*calculator.figures_first, *calculator.figures]
    assert len(set(figures)) == len(figures)
    assert set(figures) <= BY_KEY.keys() | OPTION_BY_KEY.keys() | {"rods"}
    assert calculator.limits
    assert calculator.sources
    assert calculator.question.endswith("?")


@every_calculator
def test_results_and_inputs_have_known_units(calculator: Calculator) -> None:
    """Quantity of every result and number is one the units module has."""
    for result in calculator.results:
        assert result.quantity == WORDS or result.quantity in QUANTITIES, result.name
    for item in calculator.inputs:
        if isinstance(item, Number):
            assert item.quantity in QUANTITIES, item.name
            low, high, step = item.slider
            assert item.low <= low < high <= item.high, item.name
            assert 0.0 < step <= high - low, item.name
        elif isinstance(item, Choice):
            assert item.default in [value for value, _ in item.choices], item.name
        else:
            assert len(item.default) <= item.longest, item.name


@pytest.mark.parametrize("name", HEADS)
@every_calculator
def test_defaults_lie_within_limits(calculator: Calculator, name: str) -> None:
    """On every head and its mirror; numbers finite."""
    rotor = assembled(HEADS[name])
    for item in calculator.inputs:
        if isinstance(item, Number):
            assert item.low <= item.default(rotor) <= item.high, item.name


@pytest.mark.parametrize("system", SYSTEMS)
@pytest.mark.parametrize("name", HEADS)
@every_calculator
def test_every_default_case_is_complete(calculator: Calculator, name: str, system: System) -> None:
    """Every declared result or none but declared ones comes back; numbers are finite; working's equations
    exist; the sentence is a sentence."""
    rotor = assembled(HEADS[name])
    case = run(calculator, {}, rotor, system)
    declared = {r.name: r for r in calculator.results}
    assert set(case.answer.results) <= set(declared)
    for result in results_list(calculator, case):
        value = result["value"]
        if declared[str(result["name"])].quantity == WORDS:
            assert isinstance(value, str)
            assert value
        else:
            assert isinstance(value, float | int)
            assert abs(value) < 1e12
        assert "nan" not in str(result["text"]).lower().split()
    steps = calculator.working(case)
    assert steps
    used = {s.equation for s in steps if s.equation}
    assert used <= set(calculator.equations)
    sentence = calculator.describe(case)
    assert sentence[0].isupper()
    assert sentence.endswith(".")
    for words in (sentence, *(s.say for s in steps), *(s.numbers for s in steps)):
        assert "None" not in words
        # A real minus sign, not a hyphen, stands before a number.
        assert not re.search(r"(?<!\w)-\d", words), words


@every_calculator
def test_every_declared_result_can_come_back(calculator: Calculator) -> None:
    """Over all choices and heads each result is answered at least once, rods and blades beyond a head's
    own count excepted."""
    seen: set[str] = set()
    choices = [i for i in calculator.inputs if isinstance(i, Choice)]
    # A text that starts empty asks for a packed head.
    texts = {i.name: pack(HEADS["cedar4"]) for i in calculator.inputs if isinstance(i, Text) and not i.default}
    for head in HEADS.values():
        for choice in choices:
            for value, _ in choice.choices:
                seen |= set(run(calculator, {**texts, choice.name: value}, assembled(head)).answer.results)
        seen |= set(run(calculator, {}, assembled(head)).answer.results)
    missing = {r.name for r in calculator.results} - seen
    beyond = {"blade_7", "blade_8", *(f"rod_{n}" for n in (4, 5, 6)), *(f"rod_{n}_height" for n in (4, 5, 6))}
    assert {m for m in missing if m not in beyond and not m.endswith(("_4", "_5", "_6", "_7", "_8"))} == set()
