"""What a calculator declares. The form, the printed answer, the tables, the command line, the links
and the tests are all made from these declarations; nothing in them is typed a second time.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any, Final

from .rotor import Rotor
from .units import System, show

Value = float | str
Values = Mapping[str, Value]

WORDS: Final = "words"


def always(values: Values, rotor: Rotor) -> bool:
    """An input that is always shown."""
    return True


def fixed(value: float) -> Callable[[Rotor], float]:
    """A default that is the same for every head."""
    return lambda _: value


@dataclass(frozen=True)
class Number:
    """A number a reader can set. Limits, slider (low, high, step) and default are in the quantity's
    metric unit; the hard limits refuse, the slider range only sizes the slider. An input with a
    `group` is folded away under that heading; a `bearing` is mirrored when the head is turned the other way."""

    name: str
    label: str
    quantity: str
    low: float
    high: float
    slider: tuple[float, float, float]
    default: Callable[[Rotor], float]
    decimals: int = 1
    help: str = ""
    group: str = ""
    applies: Callable[[Values, Rotor], bool] = always
    bearing: bool = False


@dataclass(frozen=True)
class Choice:
    """A choice between named options: (value, words)."""

    name: str
    label: str
    choices: tuple[tuple[str, str], ...]
    default: str
    help: str = ""
    group: str = ""
    applies: Callable[[Values, Rotor], bool] = always


@dataclass(frozen=True)
class Text:
    """A text a reader writes, such as a list of readings: read by the calculator itself."""

    name: str
    label: str
    longest: int
    default: str
    help: str = ""
    group: str = ""
    applies: Callable[[Values, Rotor], bool] = always


Input = Number | Choice | Text


@dataclass(frozen=True)
class Result:
    """A figure a calculator answers with. `quantity` 'words' is a phrase instead of a number."""

    name: str
    label: str
    quantity: str
    decimals: int | None = None
    main: bool = True


@dataclass(frozen=True)
class Step:
    """A line of the working: what is done, the equation (a key of the calculator's), its numbers."""

    say: str
    numbers: str
    equation: str = ""


@dataclass(frozen=True)
class Example:
    """A worked case from outside: inputs and head figures as text (metric), results with tolerance.

    `results` maps a result's name to (value in its metric unit, tolerance in the same unit).
    """

    title: str
    source: str
    head: str
    inputs: Mapping[str, str]
    changes: Mapping[str, str]
    results: Mapping[str, tuple[float, float]]


@dataclass(frozen=True)
class Drawing:
    """An SVG drawing and the sentence that says what it shows."""

    svg: str
    text: str


@dataclass(frozen=True)
class Line:
    """One line of a chart: name, role (hand, plate, pitch, disc, structure) and SI values."""

    name: str
    role: str
    values: tuple[float, ...]


@dataclass(frozen=True)
class Chart:
    """Lines over a common x: what the page draws live, prints at build and lists as a table.

    `x` and `cursor` (a place on x or None) are in SI where `x_quantity` says what they measure, else plain numbers:
    degrees of a turn, or counts shown as `points`. `cursor_field`: the input that the cursor shows and that picking
    a place sets. `every`: each how many points a row of the table stands.
    """

    title: str
    x_label: str
    x: tuple[float, ...]
    y_label: str
    quantity: str
    lines: tuple[Line, ...]
    cursor: float | None = None
    every: int = 6
    points: bool = False
    cursor_field: str = ""
    x_quantity: str = ""


@dataclass(frozen=True)
class Answer:
    """What `compute` found: SI results by name (words for quantity 'words'), and what the sentence,
    the working and the drawing need besides."""

    results: Mapping[str, Value]
    details: Any = None


@dataclass(frozen=True)
class Case:
    """One run: the inputs in SI, the head, the reader's units, the answer."""

    values: Values
    rotor: Rotor
    units: System
    answer: Answer

    def number(self, name: str) -> float:
        """A numeric input, SI."""
        return float(self.values[name])

    def result(self, name: str) -> float:
        """A numeric result, SI."""
        return float(self.answer.results[name])

    def show(self, quantity: str, si: float, places: int | None = None) -> str:
        """SI -> text in the reader's units."""
        return show(quantity, si, self.units, places)


@dataclass(frozen=True)
class Calculator:
    """A calculator as declared; see the module's first lines."""

    id: str
    title: str
    question: str
    page: str
    inputs: tuple[Input, ...]
    figures_first: tuple[str, ...]
    figures: tuple[str, ...]
    results: tuple[Result, ...]
    compute: Callable[[Values, Rotor], Answer]
    describe: Callable[[Case], str]
    working: Callable[[Case], tuple[Step, ...]]
    drawing: Callable[[Case], Drawing]
    equations: Mapping[str, str]
    limits: tuple[str, ...]
    sources: tuple[str, ...]
    examples: tuple[Example, ...] = field(default=())
    chart: Callable[[Case], Chart] | None = None
    # A form of the whole head: its figures in their groups, each open to a guess.
    by_group: bool = False
    # What a moving view on the page draws, as JSON data; and further slots of HTML by name.
    scene: Callable[[Case], Mapping[str, Any]] | None = None
    extra: Mapping[str, Callable[[Case], str]] = field(default_factory=dict)

    def input(self, name: str) -> Input:
        """An input by name."""
        return next(i for i in self.inputs if i.name == name)
