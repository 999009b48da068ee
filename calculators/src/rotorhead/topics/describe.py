"""Calculator *describe*: every figure of a head, what is measured from where, and whether the head goes together."""

from ..derived import figures as derived_figures
from ..derived import words
from ..drawing.dimensions import dimension
from ..fields import Answer, Calculator, Case, Choice, Drawing, Example, Result, Step, Values
from ..head_figures import FIGURES, OPTIONS, ROD_BEARING, ROD_STROKE, RODS_COUNT, RODS_MOST, rod_figure
from ..rotor import Rotor

_SHOWN = ("lead", "delta3", "lock", "nu", "lag", "degrees_per_mm", "link_lean")
_RODS = tuple(rod_figure(n, part) for n in range(1, RODS_MOST + 1) for part in (ROD_BEARING, ROD_STROKE))
DIMENSIONS = (
    *((o.key, o.label) for o in OPTIONS),
    *((f.key, f.label) for f in FIGURES),
    (RODS_COUNT.key, RODS_COUNT.label),
    *((f.key, f.label) for f in _RODS),
)


def compute(values: Values, rotor: Rotor) -> Answer:
    """What follows from the description. That it can be computed at all says that the head goes together."""
    derived, said = derived_figures(rotor), words(rotor)
    unknown = [key for key, _ in rotor.head.unknown]
    results: dict[str, float | str] = {name: derived[name].value for name in _SHOWN}
    results |= {
        "needed": said["offset"],
        "fitted": said["fitted"],
        "left_over": derived["closure"].value,
        "together": "yes: every link closes, every stroke reaches",
        "unknown": str(len(unknown)) if unknown else "none",
    }
    return Answer(results, tuple(unknown))


def describe(case: Case) -> str:
    """One sentence."""
    r = case.answer.results
    count = len(case.answer.details)
    loose = (
        f" {count} of its figures {'is' if count == 1 else 'are'} only known to lie between two values: the ranges beside the answers come of that."
        if count
        else ""
    )
    return (
        f"{case.rotor.head.name} goes together: the links close and the strokes reach. Its plate must be low {r['needed']}; its rods put "
        f"it {r['fitted']}.{loose}"
    )  # fmt: skip


def working(case: Case) -> tuple[Step, ...]:
    """What is derived, and what was checked."""
    derived = derived_figures(case.rotor)

    def of(name: str) -> str:
        item = derived[name]
        return case.show(item.quantity, item.value, item.decimals)

    return (
        Step("Where the links stand gives ring radius and lead; where the horn stands against the hinge gives delta-three.",
             f"ring {of('ring_radius')}, lead {of('lead')}, δ₃ {of('delta3')}"),
        Step("Blade, hinge and speed give Lock number, flap frequency and lag.", f"γ = {of('lock')}, ν = {of('nu')}, lag {of('lag')}"),
        Step("Checked over the whole range of lever and stick, all round the turn:",
             f"every link closes, leaning up to {of('link_lean')}; every rod's stroke covers full collective with full stick"),
        Step("The sum of the angles.", words(case.rotor)["sum"], "sum"),
    )  # fmt: skip


def drawing(case: Case) -> Drawing:
    """The figure that is being described: what is measured from where."""
    key = str(case.values["dimension"])
    if key.startswith("rods.") and key != RODS_COUNT.key:
        _, number, part = key.split(".")
        key = f"rods.{min(int(number), len(case.rotor.head.rods))}.{part}"
    return dimension(case.rotor, key, case.units)


CALCULATOR = Calculator(
    id="describe",
    title="Describe a head",
    question="What is measured from where, and does the head go together?",
    page="own/describe.md",
    inputs=(Choice("dimension", "Show where this is measured", DIMENSIONS, "link_foot_ahead_mm"),),
    figures_first=(),
    figures=(*(o.key for o in OPTIONS), *(f.key for f in FIGURES), RODS_COUNT.key, "rods"),
    results=(
        Result("together", "Goes together", "words"),
        Result("needed", "Plate must be low", "words"),
        Result("fitted", "Rods put it", "words"),
        Result("left_over", "Left over", "angle", 1),
        Result("lead", "Lead", "angle", 1),
        Result("delta3", "Delta-three", "angle", 1),
        Result("lock", "Lock number", "ratio", 2),
        Result("nu", "Flap frequency over rotor speed", "ratio", 3),
        Result("lag", "Lag", "angle", 1),
        Result("degrees_per_mm", "Pitch for plate height", "pitch_per_travel", 3),
        Result("link_lean", "Greatest lean of a link", "angle", 1, main=False),
        Result("unknown", "Figures not known exactly", "words"),
    ),
    compute=compute,
    describe=describe,
    working=working,
    drawing=drawing,
    equations={"sum": r"\delta = \varphi - \Delta + H"},
    limits=(
        "The description holds what this site computes with, not all there is to a head: no lead–lag hinges, no bending, no pylon.",
        "A range for a figure nobody has measured is a guess from the invented heads, not a measurement.",
        "The blade is taken as uniform from its hinge to its tip.",
    ),
    sources=("Derived figures: see the pages they stand on.",),
    examples=(
        Example("Lead from two lengths with a ruler", "elementary trigonometry: atan2(100, 100) is 45°", "alder3", {},
                {"link_foot_out_mm": "100", "link_foot_ahead_mm": "100", "arm_mm": "100", "horn_station_mm": "168",
                 "cyclic_fore_aft_deg": "8", "cyclic_left_right_deg": "8", "collective_low_deg": "2", "collective_high_deg": "12"},
                {"lead": (45.0, 1e-9)}),
    ),
    by_group=True,
)  # fmt: skip
