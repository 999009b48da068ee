"""Every question of the bank, for every invented head both ways round and many seeds: one right answer, wrong answers that are
wrong and have a belief's name, units, no NaN. What is right is judged here against the calculators' own results and, in
`tests/published`, against outside values; a few questions are worked out by hand below."""

from __future__ import annotations

import json
import math
import re
from collections import Counter
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rotorhead.door import answer as door_answer
from rotorhead.faults import Refused
from rotorhead.head import DEMONSTRATION
from rotorhead.questions import marking, papers
from rotorhead.questions.bank import BELIEFS, TEMPLATES, TOPICS
from rotorhead.questions.draws import Draw
from rotorhead.questions.model import KINDS, Amount, Bearing, Order
from rotorhead.run import HeadChoice, rotor_of
from rotorhead.topics import ALL
from rotorhead.units import QUANTITIES, SYSTEMS, System

HEADS = [(base, turned) for base in DEMONSTRATION for turned in (False, True)]
BAD = re.compile(r"\bnan\b|\binf\b|None|[<>]|&\w+;|  |\{|\}", re.IGNORECASE)


def put(name: str, seed: str, base: str = "alder3", turned: bool = False, units: System = "metric") -> marking.Put:
    choice = HeadChoice(base, turned)
    return marking.put(name, seed, rotor_of(choice, units), choice.label, units)


def texts(asked: marking.Put) -> list[str]:
    """Everything of a question that a reader reads."""
    return [asked.question.prompt, asked.question.why, *(o.text for o in asked.options), *(o.why for o in asked.options),
            *asked.items, marking.answer_text(asked)]  # fmt: skip


def judged_right(asked: marking.Put) -> None:
    verdict = marking.judge(asked, marking.right_answer(asked))
    assert verdict.right, (asked.question.prompt, verdict)
    assert verdict.belief is None


def judged_wrong(asked: marking.Put, given: str, belief: str) -> None:
    verdict = marking.judge(asked, given)
    assert not verdict.right, (asked.question.prompt, given, verdict)
    assert verdict.belief is not None, (asked.question.prompt, given)
    assert verdict.belief.id == belief, (asked.question.prompt, given, verdict)
    assert verdict.belief.so in verdict.said


def check(asked: marking.Put) -> None:
    """All that must hold of a question, whatever its kind."""
    for text in texts(asked):
        assert not BAD.search(text), text
    assert len(asked.question.prompt.split()) <= 110, asked.question.prompt
    assert asked.question.solved.calculator.id in asked.template.calculators
    assert not BAD.search(re.sub(r"<[^>]*>", "", asked.question.drawing)), "a drawing's words"
    judged_right(asked)
    answer = asked.question.answer
    units = asked.setting.units
    if isinstance(answer, tuple):
        assert len(asked.options) >= 3, asked.question.prompt
        assert len({o.text for o in asked.options}) == len(asked.options)
        assert sum(not o.belief for o in asked.options) == 1
        for number, option in enumerate(asked.options):
            if option.belief:
                judged_wrong(asked, str(number), option.belief)
    elif isinstance(answer, Amount):
        assert math.isfinite(answer.value)
        assert 0.0 < answer.tolerance < max(abs(answer.value), 10.0 * answer.tolerance)
        scale = QUANTITIES[answer.quantity].unit(units).scale
        for sign in (-1.0, 1.0):
            assert marking.judge(asked, repr((answer.value + 0.99 * sign * answer.tolerance) / scale)).right
            assert not marking.judge(asked, repr((answer.value + 1.01 * sign * answer.tolerance) / scale)).right
        for wrong in answer.wrong:
            judged_wrong(asked, repr(wrong.value / scale), wrong.belief)
        # What the key prints is itself marked right: the digits shown are fine enough for the tolerance.
        shown = re.match(r"[−-]?[0-9.]+", marking.answer_text(asked))
        assert shown, marking.answer_text(asked)
        assert marking.judge(asked, shown[0]).right, marking.answer_text(asked)
    elif isinstance(answer, Bearing):
        assert 0.0 < answer.tolerance <= math.radians(15.0)
        for wrong in answer.wrong:
            judged_wrong(asked, repr(math.degrees(wrong.value)), wrong.belief)
    else:
        assert isinstance(answer, Order)
        assert len(set(answer.items)) == len(answer.items) >= 3
        assert sorted(asked.items) == sorted(answer.items)
        assert asked.items != answer.items, "shown in the right order already"
        judged_wrong(asked, ",".join(str(i) for i in range(len(asked.items))), answer.belief)


@pytest.mark.parametrize("name", TEMPLATES)
def test_every_template_on_every_head_both_ways(name: str, long: bool) -> None:
    seeds = 200 if long else 20
    for base, turned in HEADS:
        for seed in range(seeds):
            check(put(name, f"s{seed}", base, turned, SYSTEMS[seed % 2]))


@pytest.mark.parametrize("name", TEMPLATES)
def test_the_mirrored_head_has_the_mirrored_question(name: str) -> None:
    """The other way round nothing changes but left and right: numbers stay, bearings are mirrored."""
    for base in DEMONSTRATION:
        for seed in range(4):
            one, other = (put(name, f"m{seed}", base, turned).question.answer for turned in (False, True))
            if isinstance(one, Amount) and isinstance(other, Amount):
                assert other.value == pytest.approx(one.value, rel=1e-9, abs=1e-9)
            if isinstance(one, Order) and isinstance(other, Order):
                assert len(one.items) == len(other.items)


def test_there_are_forty_over_all_topics() -> None:
    assert len(TEMPLATES) >= 40
    by_topic = Counter(t.topic for t in TEMPLATES.values())
    assert by_topic.keys() == TOPICS.keys()
    assert min(by_topic.values()) >= 3
    kinds = Counter(t.kind for t in TEMPLATES.values())
    assert kinds.keys() == set(KINDS)
    assert min(kinds.values()) >= 3
    assert {t.level for t in TEMPLATES.values()} == {1, 2, 3}


def test_no_two_templates_differ_only_in_numbers() -> None:
    """Prompts with their numbers taken out: as many as there are templates, and no two alike in most of their words."""
    bare = {name: set(re.sub(r"[\d.,°%−]+", " ", put(name, "a").question.prompt.lower()).split()) for name in TEMPLATES}
    names = list(bare)
    for i, one in enumerate(names):
        for other in names[i + 1 :]:
            shared = len(bare[one] & bare[other]) / len(bare[one] | bare[other])
            assert shared < 0.7, (one, other, shared)


def test_what_is_declared_is_so() -> None:
    for one in TEMPLATES.values():
        assert one.tests
        assert set(one.calculators) <= set(ALL)
        asked = put(one.id, "a")
        kind = {Amount: "number", Bearing: "mark", Order: "order", tuple: "choice"}[type(asked.question.answer)]
        assert kind == one.kind


@pytest.mark.parametrize("name", TEMPLATES)
def test_seeds_make_different_questions(name: str) -> None:
    """Over thirty seeds and five heads a template says at least five different things."""
    seen = {
        (p.question.prompt, p.options, p.items)
        for base in DEMONSTRATION
        for p in (put(name, f"d{i}", base) for i in range(6))
    }
    assert len(seen) >= 5


def test_every_belief_is_held_by_some_wrong_answer() -> None:
    held: set[str] = set()
    for name in TEMPLATES:
        for base, turned in HEADS:
            for seed in range(8):
                answer = put(name, f"b{seed}", base, turned).question.answer
                if isinstance(answer, tuple):
                    held |= {o.belief for o in answer if o.belief}
                elif isinstance(answer, Order):
                    held.add(answer.belief)
                else:
                    held |= {w.belief for w in answer.wrong}
    assert held == BELIEFS.keys()


def test_beliefs_are_answered_and_lead_somewhere(root: Any) -> None:
    assert len(BELIEFS) >= 15
    for belief in BELIEFS.values():
        assert belief.calculator in ALL
        assert (root / "docs" / belief.page).is_file(), belief.page
        assert min(len(belief.said), len(belief.so), len(belief.show)) > 20
        assert belief.said != belief.so


def test_draws_are_splitmix64() -> None:
    """The first outputs for seed 1234567 of the public reference implementation (as quoted with it; from memory)."""
    draw = Draw()
    draw._state = 1234567
    outputs = [draw._next() for _ in range(3)]
    assert outputs == [6457827717110365317, 3203168211198807973, 9817491932198370423]


@given(st.text(max_size=20), st.integers(1, 1000), st.lists(st.integers(), max_size=9))
def test_draws_stay_within_what_they_draw_from(seed: str, count: int, things: list[int]) -> None:
    draw = Draw(seed)
    assert 0 <= draw.below(count) < count
    assert sorted(draw.shuffled(things)) == sorted(things)
    assert -3.0 <= draw.step(-3.0, 5.0, 0.5) <= 5.0


def test_the_same_words_give_the_same_paper_and_others_another() -> None:
    topics = list(TOPICS)
    one = [(t.id, seed) for t, seed in papers.choose(topics, 12, "rotor")]
    assert one == [(t.id, seed) for t, seed in papers.choose(["all"], 12, "rotor")]
    assert one != [(t.id, seed) for t, seed in papers.choose(topics, 12, "rotors")]
    assert len({TEMPLATES[name].topic for name, _ in one}) == 12, "topics take turns"
    levels = [TEMPLATES[name].level for name, _ in one]
    assert levels == sorted(levels), "easier ones first"


@pytest.mark.parametrize("number", [1, 5, 40])
@pytest.mark.parametrize("topics", [["phase"], ["rods", "loads"], list(TOPICS)])
def test_no_template_comes_twice_before_all_have_been(topics: list[str], number: int) -> None:
    chosen = papers.choose(topics, number, "x")
    assert len(chosen) == number
    assert len({seed for _, seed in chosen}) == number
    times = Counter(t.id for t, _ in chosen)
    there = [t.id for t in TEMPLATES.values() if t.topic in topics]
    assert set(times) <= set(there)
    assert max(times.values()) - min(times.get(name, 0) for name in there) <= 1


@pytest.mark.parametrize(
    ("topics", "number", "seed", "word"),
    [(["phase"], 0, "a", "between 1 and 40"), (["phase"], 41, "a", "between 1 and 40"), ([], 3, "a", "at least one"),
     (["wings"], 3, "a", "wings"), (["phase"], 3, "", "Seed"), (["phase"], 3, "a b", "Seed"), (["phase"], 3, "<i>", "Seed")],
)  # fmt: skip
def test_a_paper_that_can_t_be_is_refused(topics: list[str], number: int, seed: str, word: str) -> None:
    with pytest.raises(Refused, match=word):
        papers.choose(topics, number, seed)


def ask(**request: Any) -> dict[str, Any]:
    answer: dict[str, Any] = json.loads(door_answer(json.dumps({"id": 1, **request})))
    return answer


def test_the_door_gives_no_answer_away_with_a_question() -> None:
    for name in TEMPLATES:
        asked = ask(op="ask", template=name, seed="q")
        assert asked["state"] == "result", asked
        assert not {"answer", "why", "right_given"} & asked.keys()
        keyed = ask(op="ask", template=name, seed="q", key=True)
        assert keyed["answer"]
        marked = ask(op="mark", template=name, seed="q", given=marking.right_answer(put(name, "q")))
        assert marked["right"] is True
        assert "hd-steps" in marked["working"]
        assert "<li>" in marked["sources"]


def test_the_way_to_the_calculator_gives_the_same_figures() -> None:
    """The inputs that come with an answer, put into the calculator, refuse nothing, in either units."""
    for name in TEMPLATES:
        for units in SYSTEMS:
            marked = ask(
                op="mark", template=name, seed="w", units=units, given=marking.right_answer(put(name, "w", units=units))
            )
            run = ask(op="run", calculator=marked["calculator"], inputs=marked["inputs"], units=units)
            assert run["state"] == "result", (name, run)


@given(st.sampled_from(sorted(TEMPLATES)), st.text(max_size=60))
def test_whatever_is_given_is_judged_or_refused_with_a_sentence(name: str, given_text: str) -> None:
    marked = ask(op="mark", template=name, seed="h", given=given_text)
    assert marked["state"] in ("result", "invalid"), marked
    if marked["state"] == "invalid":
        assert all(fault["text"] for fault in marked["faults"])


@pytest.mark.parametrize(
    "bad",
    [
        {"template": "none"},
        {"template": "rods-turned", "seed": "a b"},
        {"template": "rods-turned", "seed": "a", "given": 3},
    ],
)
def test_requests_that_make_no_sense_are_refused(bad: dict[str, Any]) -> None:
    assert ask(op="mark", **bad)["state"] == "invalid"


def test_the_sum_of_alder_by_hand() -> None:
    """86.5° lag less 61.5° lead: 25° before the nose (demo-heads.json's own arithmetic, worked out by hand)."""
    asked = put("offset-by-sum", "hand")
    assert marking.judge(asked, "25").right
    assert marking.judge(asked, "148").belief == BELIEFS["lead-adds"]
    assert marking.judge(asked, "86,5").belief == BELIEFS["offset-is-lag"]
