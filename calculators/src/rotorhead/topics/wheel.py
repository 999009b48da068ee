"""Calculator *wheel*: the phase budget as three discs to turn by hand, on the screen and on paper."""

import math
from html import escape

from ..blade.phase import Budget, budget_of, sum_lines
from ..conventions import azimuth_of, bearing_of, bearing_words, degrees_text, offset_words, wrap
from ..drawing.wheel import assembled, sheets
from ..fields import Answer, Calculator, Case, Choice, Drawing, Example, Number, Result, Step, Values
from ..rotor import Rotor
from .common import LINK_FIGURES, ROD_FIGURES


def compute(values: Values, rotor: Rotor) -> Answer:
    """Plate low -> least pitch -> disc low, as bearings."""
    budget = budget_of(rotor)
    plate = float(values["plate"])

    def on(bearing: float, turn: float) -> float:
        return bearing_of(azimuth_of(bearing, rotor.rotation) + turn, rotor.rotation)

    least = on(plate, -budget.lead + budget.horn_turn)
    low = on(least, budget.lag)
    return Answer(
        {
            "pitch_least": bearing_words(least, 1),
            "disc_low": bearing_words(low, 1),
            "off_nose": abs(wrap(low)),
            "needed": offset_words(budget.needed, rotor.rotation, 1),
        },
        (budget, plate, least, low),
    )


def describe(case: Case) -> str:
    """One sentence."""
    r = case.answer.results
    _, plate, _, _ = case.answer.details
    ends = " So the disc follows the stick." if case.result("off_nose") < math.radians(1.0) else ""
    return f"With the plate low {bearing_words(plate, 1)}, pitch is least {r['pitch_least']} and the disc is low {r['disc_low']}.{ends}"


def working(case: Case) -> tuple[Step, ...]:
    """The three discs as a sum."""
    budget: Budget
    budget, plate, least, low = case.answer.details
    horn = ", and the horn behind the blade turns it by 180°" if budget.horn_turn else ""
    back = "back" if budget.lead >= 0 else "on"
    first, second = sum_lines(budget)
    return (
        Step(f"Plate's disc: from the plate's low point {back} to the blade whose link stands there{horn}.",
             f"{bearing_words(plate, 1)} → lead {degrees_text(budget.lead)} → least pitch {bearing_words(least, 1)}"),
        Step("Blade's disc: from least pitch on to the low point of the disc.",
             f"lag {degrees_text(budget.lag)} → disc low {bearing_words(low, 1)}"),
        Step("Turned backward from the nose the same discs say where the plate must be low.", f"{first} {second}", "sum"),
    )  # fmt: skip


def drawing(case: Case) -> Drawing:
    """The wheel pinned together."""
    budget, plate, least, low = case.answer.details
    return assembled(budget, plate, least, (
        f"The paper wheel seen from above: plate low {bearing_words(plate, 1)}, pitch least {bearing_words(least, 1)}, disc low "
        f"{bearing_words(low, 1)}."
    ))  # fmt: skip


def paper(case: Case) -> str:
    """The two sheets to print, true to size."""
    budget: Budget = case.answer.details[0]
    size = str(case.values["paper"])
    made = "".join(f'<div class="hd-wheel-sheet">{svg}</div>' for svg in sheets(budget, case.rotor.head.name))
    return f'<div class="hd-wheel-sheets" data-paper="{escape(size)}">{made}</div>'


CALCULATOR = Calculator(
    id="wheel",
    title="Paper wheel",
    question="Turn the plate's disc: where does the rotor disc go down?",
    page="paper-wheel.md",
    inputs=(
        Number("plate", "Plate low at a bearing of", "angle", 0, 360, (0, 360, 1),
               lambda rotor: round(math.degrees(budget_of(rotor).plate_low), 1), 1, "clockwise from the nose; it starts where the stick "
               "forward puts it", bearing=True),
        Choice("paper", "Paper", (("a4", "A4"), ("letter", "Letter")), "a4"),
    ),
    figures_first=(),
    figures=(*ROD_FIGURES, *LINK_FIGURES, "hinge_offset", "root_spring_Nm_per_rad", "blade_mass_kg", "chord_m", "rpm"),
    results=(
        Result("pitch_least", "Pitch least", "words"),
        Result("disc_low", "Disc low", "words"),
        Result("off_nose", "That is off the nose by", "angle", 1),
        Result("needed", "For the nose the plate must be low", "words"),
    ),
    compute=compute,
    describe=describe,
    working=working,
    drawing=drawing,
    equations={"sum": r"\delta = \varphi - \Delta + H"},
    limits=(
        "Angles only, to first order: no sizes, no second waves, uniform inflow in the hover.",
        "A printed wheel is as exact as scissors and paper: half a degree at best.",
    ),
    sources=("The sum of the phase budget; lag from the flapping equation (see Control phase).",),
    examples=(
        Example("A central hinge: whatever the lead, the disc goes down where the plate is low", "common practice, no source", "birch2",
                {"plate": "40"}, {}, {"off_nose": (40.0, 1e-6)}),
    ),
    extra={"sheets": paper},
)  # fmt: skip
