"""Calculator *agree*: one measured angle against the head's computed one: agree, doubtful or disagree."""

import math

from ..derived import figures as derived_figures
from ..drawing.agreed import two_bars
from ..fields import Answer, Calculator, Case, Choice, Drawing, Example, Number, Result, Step, Values, fixed
from ..measure.agree import DISAGREE_BEYOND, DOUBTFUL_BEYOND, Agreement, agreement, sentence
from ..rotor import Rotor

_FIGURES = (
    ("lead", "lead of the links"), ("offset", "needed before the nose"), ("fitted", "where the rods stand before the nose"),
    ("lag", "lag from commanded pitch"), ("delta3", "delta-three"), ("link_lean", "greatest lean of a link"),
)  # fmt: skip


def compute(values: Values, rotor: Rotor) -> Answer:
    """Difference over the combined standard error."""
    computed = derived_figures(rotor)[str(values["figure"])].value
    found = agreement(
        float(values["measured"]),
        float(values["measured_error"]),
        computed,
        float(values["computed_error"]),
        round_turn=True,
    )
    return Answer(
        {
            "verdict": found.verdict,
            "computed": computed,
            "difference": found.difference,
            "combined": found.combined,
            "ratio": found.ratio,
        },
        found,
    )


def describe(case: Case) -> str:
    """The verdict with its reason."""
    found: Agreement = case.answer.details
    return sentence(found)


def working(case: Case) -> tuple[Step, ...]:
    """The sum."""

    def deg(x: float) -> str:
        return case.show("angle", x, 2)

    return (
        Step("Measured less computed.", f"{deg(case.number('measured'))} − {deg(case.result('computed'))} = {deg(case.result('difference'))}"),
        Step("Both standard errors together.",
             f"√({deg(case.number('measured_error'))}² + {deg(case.number('computed_error'))}²) = {deg(case.result('combined'))}", "combined"),
        Step(f"Up to {DOUBTFUL_BEYOND:g} standard errors: agree; up to {DISAGREE_BEYOND:g}: doubtful; more: disagree.",
             f"{case.result('ratio'):.2f}: {case.answer.results['verdict']}"),
    )  # fmt: skip


def drawing(case: Case) -> Drawing:
    """Both figures with their errors on one scale."""
    computed = case.result("computed")
    measured = computed + case.result("difference")
    return two_bars(
        math.degrees(measured), math.degrees(case.number("measured_error")), math.degrees(computed),
        math.degrees(case.number("computed_error")), describe(case),
    )  # fmt: skip


CALCULATOR = Calculator(
    id="agree",
    title="Quick compare",
    question="Does one measured angle agree with this head's?",
    page="own/compare.md",
    inputs=(
        Choice("figure", "Which angle", _FIGURES, "lead"),
        Number("measured", "Measured", "angle", -360, 360, (-180, 180, 0.5), lambda rotor: round(math.degrees(rotor.lead)) + 1.0, 2),
        Number("measured_error", "… good to", "angle", 0.01, 45, (0.1, 10, 0.1), fixed(1.0), 2, "standard error"),
        Number("computed_error", "The computed figure is good to", "angle", 0, 45, (0, 10, 0.1), fixed(0.5), 2, "standard error"),
    ),
    figures_first=(),
    figures=("link_foot_out_mm", "link_foot_ahead_mm", "arm_mm", "horn_station_mm", "hinge_offset"),
    results=(
        Result("verdict", "Verdict", "words"),
        Result("computed", "Computed for this head", "angle", 2),
        Result("difference", "Measured less computed", "angle", 2),
        Result("combined", "Standard error of both", "angle", 2),
        Result("ratio", "Difference over it", "ratio", 2),
    ),
    compute=compute,
    describe=describe,
    working=working,
    drawing=drawing,
    equations={"combined": r"u = \sqrt{u_m^2 + u_c^2}"},
    limits=(
        "Two figures that share a fault agree all the same: a wrong datum, the wrong blade, left for right.",
        "The lag can't be measured on a parked head; a figure for it comes from somewhere else and is judged here like any other.",
    ),
    sources=("Limits of 2 and 3 standard errors: common practice, no source.",),
    examples=(
        Example("Two apart with errors of 0.6 and 0.8", "arithmetic: √(0.36 + 0.64) = 1", "birch2",
                {"figure": "lead", "measured": "92", "measured_error": "0.6", "computed_error": "0.8"}, {},
                {"combined": (1.0, 1e-9), "difference": (2.0, 1e-9), "ratio": (2.0, 1e-9)}),
    ),
)  # fmt: skip
