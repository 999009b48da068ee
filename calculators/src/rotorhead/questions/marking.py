"""Putting a question to somebody and judging what they answer."""

import math
from dataclasses import dataclass

from ..conventions import bearing_words, degrees_text, wrap
from ..faults import refuse
from ..numbers import parse_number
from ..rotor import Rotor
from ..units import QUANTITIES, System, decimals, plain, to_si
from .bank import BELIEFS, template
from .draws import Draw
from .model import Amount, Bearing, Belief, Option, Order, Question, Setting, Template, Wrong

LETTERS = "ABCDEFGH"
FIELD = "given"


@dataclass(frozen=True)
class Put:
    """A question as it is put: options or items in the order they are shown."""

    template: Template
    question: Question
    setting: Setting
    options: tuple[Option, ...] = ()
    items: tuple[str, ...] = ()


@dataclass(frozen=True)
class Verdict:
    """Right or not, the sentence about it, and the belief that the answer stands for."""

    right: bool
    said: str
    belief: Belief | None = None


def put(name: str, seed: str, rotor: Rotor, label: str, units: System) -> Put:
    """The question that a template and a seed give for a head. Raises `Refused` for a name that is none."""
    declared = template(name)
    # A comma of the label would read as the sentence's own.
    head, _, how = label.partition(", ")
    setting = Setting(rotor, f"{head} ({how})" if how else head, units, Draw(seed, name))
    question = declared.make(setting)
    mix = Draw(seed, name, "shown")
    if isinstance(question.answer, tuple):
        return Put(declared, question, setting, options=tuple(mix.shuffled(question.answer)))
    if isinstance(question.answer, Order):
        shown = mix.shuffled(question.answer.items)
        if tuple(shown) == question.answer.items:
            shown = shown[1:] + shown[:1]
        return Put(declared, question, setting, items=tuple(shown))
    return Put(declared, question, setting)


def right_answer(asked: Put) -> str:
    """What would be marked right, as it would be given: a number, a bearing, an option's or the items' numbers."""
    answer = asked.question.answer
    if isinstance(answer, Amount):
        return repr(answer.value / QUANTITIES[answer.quantity].unit(asked.setting.units).scale)
    if isinstance(answer, Bearing):
        return repr(math.degrees(answer.value))
    if isinstance(answer, Order):
        return ",".join(str(asked.items.index(item)) for item in answer.items)
    return str(next(i for i, option in enumerate(asked.options) if not option.belief))


def answer_text(asked: Put) -> str:
    """The right answer as a key prints it."""
    answer = asked.question.answer
    if isinstance(answer, Amount):
        shown = asked.setting.show(answer.quantity, answer.value, answer.places)
        return f"{shown} (± {_tolerance_text(asked, answer)} counts)"
    if isinstance(answer, Bearing):
        words = bearing_words(answer.value % math.tau)
        return f"{words} (± {degrees_text(answer.tolerance, 0)} counts)"
    if isinstance(answer, Order):
        return " ".join(LETTERS[asked.items.index(item)] for item in answer.items)
    number = int(right_answer(asked))
    return f"{LETTERS[number]}: {asked.options[number].text}"


def _tolerance_text(asked: Put, answer: Amount) -> str:
    """A tolerance to one decimal more than its answer, without zeros at its end."""
    units = asked.setting.units
    unit = QUANTITIES[answer.quantity].unit(units)
    number = plain(answer.tolerance / unit.scale, decimals(answer.quantity, units, answer.places) + 1)
    return number + unit.symbol if unit.symbol in ("", "°", "%") else f"{number}\N{NARROW NO-BREAK SPACE}{unit.symbol}"


def judge(asked: Put, given: str) -> Verdict:
    """An answer as it was typed or picked -> verdict. Raises `Refused` when it is no answer."""
    answer = asked.question.answer
    if isinstance(answer, Amount):
        return _judge_amount(asked, answer, given)
    if isinstance(answer, Bearing):
        return _judge_bearing(asked, answer, given)
    if isinstance(answer, Order):
        return _judge_order(asked, answer, given)
    picked = _numbers(given, 1, len(asked.options), "Pick one of the answers first.")[0]
    option = asked.options[picked]
    if not option.belief:
        return _yes(asked)
    return _no(asked, f"What is so: {asked.options[int(right_answer(asked))].text}", option.belief, option.why)


def _yes(asked: Put, more: str = "") -> Verdict:
    return Verdict(True, " ".join(part for part in ("Yes.", more, asked.question.why) if part))


def _sentence(text: str) -> str:
    """A text that ends as a sentence does."""
    return text if text.endswith((".", "!", "?")) else f"{text}."


def _no(asked: Put, right: str, belief: str, why: str = "") -> Verdict:
    held = BELIEFS[belief] if belief else None
    parts = ["Not so."]
    if held:
        parts.append(f"It is what follows from the belief “{held.said}” {held.so}")
    parts += [_sentence(why) if why else "", _sentence(right), asked.question.why]
    return Verdict(False, " ".join(part for part in parts if part), held)


def _held(given: float, wrong: tuple[Wrong, ...], tolerance: float, *, turn: bool) -> str:
    """The belief a wrong number stands for, "" for none."""
    for one in wrong:
        apart = wrap(given - one.value) if turn else given - one.value
        if abs(apart) <= tolerance * (1.0 + 1e-9):
            return one.belief
    return ""


def _judge_amount(asked: Put, answer: Amount, given: str) -> Verdict:
    units = asked.setting.units
    typed = to_si(answer.quantity, parse_number(given, FIELD, "Your answer"), units)
    off = typed - answer.value
    shown = asked.setting.show(answer.quantity, answer.value, answer.places)
    if abs(off) <= answer.tolerance * (1.0 + 1e-9):
        return _yes(asked, f"It is {shown}.")
    size = asked.setting.show(answer.quantity, abs(off), answer.places)
    far = f"It is {shown}; yours is {size} too {'high' if off > 0 else 'low'}"
    return _no(asked, far, _held(typed, answer.wrong, answer.tolerance, turn=False))


def _judge_bearing(asked: Put, answer: Bearing, given: str) -> Verdict:
    typed = math.radians(parse_number(given.replace("°", ""), FIELD, "Your answer"))
    off = wrap(typed - answer.value)
    words = bearing_words(answer.value % math.tau)
    if abs(off) <= answer.tolerance * (1.0 + 1e-9):
        return _yes(asked, f"It is {words}.")
    far = f"It is {words}; yours is {degrees_text(abs(off), 0)} from there"
    return _no(asked, far, _held(typed, answer.wrong, answer.tolerance, turn=True))


def _judge_order(asked: Put, answer: Order, given: str) -> Verdict:
    count = len(asked.items)
    picked = _numbers(given, count, count, "Put all of them in order first.")
    if len(set(picked)) != count:
        raise refuse(FIELD, "Your answer names one thing twice: put each in one place.")
    if tuple(asked.items[i] for i in picked) == answer.items:
        return _yes(asked)
    return _no(asked, f"The order is: {'; '.join(answer.items)}", answer.belief)


def _numbers(given: str, count: int, below: int, ask: str) -> list[int]:
    """'2,0,1' -> the numbers, as many as asked, each of them one there is."""
    parts = given.split(",") if given.strip() else []
    if len(parts) != count:
        raise refuse(FIELD, ask)
    if not all(part.strip().isascii() and part.strip().isdigit() and int(part) < below for part in parts):
        raise refuse(FIELD, f"“{given[:40]}” is not an answer to this question.")
    return [int(part) for part in parts]
