"""Calculator *reach*: the mixing matrix, what reaches its stop first, and what is left."""

import math

from ..conventions import TURN
from ..drawing.reach import reach_field
from ..fields import Answer, Calculator, Case, Choice, Drawing, Example, Number, Result, Step, Values, fixed
from ..mechanism.reach import (
    Strokes,
    gate_edge,
    inverse,
    lever_range,
    mixing,
    rod_moves,
    stick_limit,
    stick_region,
)
from ..rotor import Rotor
from .common import HAND_FIGURES, HANDS, LINK_FIGURES, ROD_FIGURES, hands_words

_ENOUGH = 1e-9


def _strokes(values: Values, rotor: Rotor) -> Strokes:
    return [s * float(values["stroke_share"]) for s in rotor.rod_strokes]


def _stop_words(*rods: int) -> str:
    named = [str(rod) for rod in rods if rod]
    if not named:
        return "the stick's own stop"
    return f"rod {named[0]}" if len(named) == 1 else f"rods {' and '.join(named)}"


def _worst(rotor: Rotor, strokes: Strokes, lever: float, *, square: bool) -> tuple[float, tuple[int, ...]]:
    """Least share of the stick's own travel reached in any direction at a lever position, and the rods that stop it."""
    stops = [
        (stop.stick / gate_edge(a, square=square), stop.rod)
        for a in (i * TURN / 72 for i in range(72))
        for stop in (stick_limit(rotor, strokes, lever, a, square=square),)
    ]
    worst = min(share for share, _ in stops)
    return worst, tuple(sorted({rod for share, rod in stops if share < worst + 1e-6 and rod}))


def compute(values: Values, rotor: Rotor) -> Answer:
    """Reserves of every rod, stick limit in the direction held, lever range left, full lever with full stick."""
    strokes, square = _strokes(values, rotor), values["gate"] == "square"
    lever, forward, left = (float(values[n]) for n in ("lever", "stick_forward", "stick_left"))
    direction = math.atan2(left, forward) if forward or left else 0.0
    stop = stick_limit(rotor, strokes, lever, direction, square=square)
    moves = rod_moves(rotor, lever, forward, left)
    span = lever_range(rotor, strokes, forward, left)
    full, rods = min(_worst(rotor, strokes, lever_at, square=square) for lever_at in (0.0, 1.0))
    reached = (
        all(abs(m) <= s / 2.0 + _ENOUGH for m, s in zip(moves, strokes, strict=True))
        and math.hypot(forward, left) <= gate_edge(direction, square=square) + 1e-6
    )
    results: dict[str, float | str] = {
        f"room_{n}": s / 2.0 - abs(m) for n, (m, s) in enumerate(zip(moves, strokes, strict=True), 1)
    }
    results |= {
        "stick_goes": stop.stick,
        "stops_first": _stop_words(stop.rod),
        "stick_left_over": stop.stick - math.hypot(forward, left),
        "lever_low": span.low if span.low <= span.high else "no position",
        "lever_high": span.high if span.low <= span.high else "no position",
        "full_full": full,
        "full_full_stop": _stop_words(*rods),
    }
    return Answer(results, (strokes, square, span, reached))


def describe(case: Case) -> str:
    """One sentence."""
    r, reached = case.answer.results, case.answer.details[3]
    held = f"With {hands_words(case.values)} "
    goes = case.show("percent", case.result("stick_goes"))
    first = f"the stick can go to {goes} in this direction, where {r['stops_first']} stops it" if reached else (
        f"the rods don't reach: in this direction {r['stops_first']} stops the stick at {goes}"
    )  # fmt: skip
    share = case.result("full_full")
    full = (
        "full collective with full cyclic is reached" if share > 1.0 - 1e-6
        else f"full collective leaves {case.show('percent', share)} of the stick, stopped by {r['full_full_stop']}"
    )  # fmt: skip
    return f"{held}{first}; {full}."


def working(case: Case) -> tuple[Step, ...]:
    """The matrix, its inverse, the reserves."""
    mm = case.show
    strokes = case.answer.details[0]
    steps = [Step("What each rod does for lever bottom to top, full stick forward, full stick left: the mixing matrix.",
                  "; ".join(f"rod {n}: " + ", ".join(mm("small_length", x) for x in row)
                            for n, row in enumerate(mixing(case.rotor), 1)), "mixing")]  # fmt: skip
    names = ("lever", "stick forward", "stick left")
    back = inverse(case.rotor)
    steps.append(Step("The other way: what 1 mm of each rod alone asks of the hands (its inverse).",
                      "; ".join(f"{name}: " + ", ".join(f"{0.1 * x:+.2f}%".replace("-", "\N{MINUS SIGN}") for x in row)
                                for name, row in zip(names, back, strict=True))))  # fmt: skip
    for n, (stroke, move) in enumerate(
        zip(
            strokes,
            rod_moves(case.rotor, *(case.number(k) for k in ("lever", "stick_forward", "stick_left"))),
            strict=True,
        ),
        1,
    ):
        steps.append(Step(f"Rod {n} may move half its stroke from mid collective.",
                          f"{mm('small_length', stroke / 2)} − {mm('small_length', abs(move))} = {mm('small_length', stroke / 2 - abs(move))} left"))  # fmt: skip
    return tuple(steps)


def drawing(case: Case) -> Drawing:
    """The stick's field."""
    strokes, square, span, reached = case.answer.details
    return reach_field(
        stick_region(case.rotor, strokes, case.number("lever"), square=square), case.number("stick_forward"),
        case.number("stick_left"), case.number("lever"), span.low, span.high, square=square,
        reached=reached,
    )  # fmt: skip


CALCULATOR = Calculator(
    id="reach",
    title="Reach",
    question="What reaches its stop first, and how much is left?",
    page="hands/stops.md",
    inputs=(
        *HANDS,
        Number("stroke_share", "Strokes, as a share of this head's", "percent", 20, 150, (40, 120, 1), fixed(100.0), 0,
               "to see what a shorter stroke would take away"),
        Choice("gate", "The stick's own stop", (("round", "round"), ("square", "square: both ways full at once")), "round",
               group="More"),
    ),
    figures_first=(),
    figures=(*ROD_FIGURES, *HAND_FIGURES, *LINK_FIGURES),
    results=(
        Result("stick_goes", "Stick goes as far as", "percent", 0),
        Result("stops_first", "Stopped by", "words"),
        Result("lever_low", "Lever can go down to", "percent", 0),
        Result("lever_high", "Lever can go up to", "percent", 0),
        Result("full_full", "Stick left at full collective", "percent", 0),
        Result("full_full_stop", "… stopped by", "words"),
        Result("stick_left_over", "Stick left over in this direction", "percent", 0, main=False),
        *(Result(f"room_{n}", f"Rod {n} has left", "small_length", 1, main=False) for n in range(1, 7)),
    ),
    compute=compute,
    describe=describe,
    working=working,
    drawing=drawing,
    equations={"mixing": r"\Delta h_i = C_i\,(\ell - \tfrac12) + F_i\,f + L_i\,s"},
    limits=(
        "To first order in the movements; the exact ring differs by about 1 mm at full stick.",
        "Stops on the lever, the stick and the rods are hard here; springs and overlap of stops are left out.",
        "Stop settings are the maintenance manual's business.",
    ),
    sources=("Linear mixing and its limits: elementary geometry; checked by brute force over the whole field.",),
    examples=(
        Example("Strokes sized for full collective with full cyclic leave all of both", "common practice, no source", "alder3",
                {"lever": "100", "stick_forward": "100"}, {}, {"full_full": (100.0, 1e-9), "stick_goes": (100.0, 1e-9)}),
    ),
)  # fmt: skip
