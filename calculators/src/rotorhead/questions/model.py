"""What a question is made of. A template is declared once; a question is made of it for a head from a seed.

Angles, lengths, forces are SI and radians here as everywhere inside; `Setting.show` puts them into the reader's units.
"""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field, replace
from functools import lru_cache
from typing import Literal, TypeVar

from ..conventions import TURN, wrap
from ..fields import Calculator, Case, Number, Step
from ..rotor import Rotor
from ..run import number_text, run
from ..topics import named
from ..units import System, show
from .draws import Draw

Kind = Literal["number", "choice", "order", "mark"]
KINDS: tuple[Kind, ...] = ("number", "choice", "order", "mark")


@dataclass(frozen=True)
class Belief:
    """A wrong belief with a name: what people hold, what is so, how to show it, and where it is worked out.

    `said`: the belief as its holder would say it. `so`: the answer to it, two or three sentences. `show`: how an instructor
    shows it, with which calculator (`calculator`, an id) and page.
    """

    id: str
    said: str
    so: str
    show: str
    calculator: str
    page: str


@dataclass(frozen=True)
class Solved:
    """A calculator's run that a question is taken from: its case, and the inputs to find it again on the page.

    `steps`, `sources`: the question's own working, where its answer comes from a model and isn't read off the calculator.
    """

    calculator: Calculator
    inputs: Mapping[str, str]
    case: Case
    steps: tuple[Step, ...] = ()
    sources: tuple[str, ...] = ()

    def value(self, name: str) -> float:
        """A result as a number, SI."""
        return self.case.result(name)

    def words(self, name: str) -> str:
        """A result that is a phrase."""
        return str(self.case.answer.results[name])


@lru_cache(maxsize=256)
def _solved(name: str, rotor: Rotor, texts: tuple[tuple[str, str], ...]) -> Case:
    return run(named(name), dict(texts), rotor, "metric")


@dataclass(frozen=True)
class Setting:
    """For whom a question is made: the head, the reader's units, the draws."""

    rotor: Rotor
    label: str
    units: System
    draw: Draw

    def run(self, name: str, **inputs: str) -> Solved:
        """A calculator on this head; inputs as metric texts."""
        case = replace(_solved(name, self.rotor, tuple(sorted(inputs.items()))), units=self.units)
        calculator = named(name)
        return Solved(calculator, {key: self._shown(calculator, key, text) for key, text in inputs.items()}, case)

    def _shown(self, calculator: Calculator, key: str, text: str) -> str:
        """An input's metric text as it stands in a form of the reader's units."""
        item = calculator.input(key)
        if not isinstance(item, Number):
            return text
        return number_text(item.quantity, float(text), item.decimals + 2, self.units)

    def show(self, quantity: str, si: float, places: int | None = None) -> str:
        """SI -> text in the reader's units."""
        return show(quantity, si, self.units, places)


@dataclass(frozen=True)
class Wrong:
    """A number or bearing that somebody who holds a belief would give, SI."""

    value: float
    belief: str


@dataclass(frozen=True)
class Amount:
    """A number to be typed: right within `tolerance` of `value`, both SI. `places`: decimals of the answer shown (metric)."""

    value: float
    quantity: str
    tolerance: float
    places: int | None = None
    wrong: tuple[Wrong, ...] = ()


@dataclass(frozen=True)
class Bearing:
    """A bearing to be marked on the rose, rad clockwise from the nose; right within `tolerance`."""

    value: float
    tolerance: float
    wrong: tuple[Wrong, ...] = ()


@dataclass(frozen=True)
class Option:
    """One answer to choose; `belief` names the wrong belief it stands for, "" for the right answer. `why` adds this head's
    numbers to what the belief says."""

    text: str
    belief: str = ""
    why: str = ""


@dataclass(frozen=True)
class Order:
    """Things to be put in order: `items` stand in the right one. `belief`: what another order shows."""

    items: tuple[str, ...]
    belief: str


Answer = Amount | Bearing | tuple[Option, ...] | Order


@dataclass(frozen=True)
class Question:
    """What is asked, the answer, why, and the calculator's run that the working and the sources come from."""

    prompt: str
    answer: Answer
    why: str
    solved: Solved
    # SVG of the package's own that goes with the prompt, "" for none; it must not show the answer.
    drawing: str = ""


@dataclass(frozen=True)
class Template:
    """A question as declared: topic (a key of `bank.TOPICS`), level 1 to 3, what it tests, kind, calculators it needs."""

    id: str
    topic: str
    level: int
    tests: str
    kind: Kind
    calculators: tuple[str, ...]
    make: Callable[[Setting], Question] = field(repr=False)


Named = TypeVar("Named", Belief, Template)


def by_id(things: Iterable[Named]) -> dict[str, Named]:
    """Beliefs or templates by id; two of one id would hide each other, so that is refused at once."""
    found: dict[str, Named] = {}
    for one in things:
        if one.id in found:
            raise ValueError(f"two are called {one.id}")
        found[one.id] = one
    return found


def around(value: float, tolerance: float, wrong: Iterable[Wrong]) -> tuple[Wrong, ...]:
    """The wrong numbers that can be told from the right one and from each other on this head."""
    kept: list[Wrong] = []
    for one in wrong:
        if all(abs(one.value - other) > 2.0 * tolerance for other in (value, *(k.value for k in kept))):
            kept.append(one)
    return tuple(kept)


def around_turn(value: float, tolerance: float, wrong: Iterable[Wrong]) -> tuple[Wrong, ...]:
    """The same for bearings, where 359° and 1° are neighbours."""
    kept: list[Wrong] = []
    for one in wrong:
        if all(abs(wrap(one.value - other)) > 2.0 * tolerance for other in (value, *(k.value for k in kept))):
            kept.append(replace(one, value=one.value % TURN))
    return tuple(kept)


def choice(right: str, *wrong: Option) -> tuple[Option, ...]:
    """The right answer and those that differ from it and from each other on this head, at most four in all."""
    kept = [Option(right)]
    for one in wrong:
        if one.text not in {k.text for k in kept} and len(kept) < 4:
            kept.append(one)
    return tuple(kept)
