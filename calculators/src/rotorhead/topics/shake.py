"""Calculator *shake*: which vibration reaches the rods, for two to eight blades."""

import math

from ..conventions import TURN
from ..drawing.shake import blade_counts
from ..fields import Answer, Calculator, Case, Chart, Drawing, Example, Line, Number, Result, Step, Values, fixed
from ..loads.rods import amplitudes, rods_round
from ..rotor import Rotor
from .load_inputs import BLADE, FIGURES, STATE, loads_of

COUNTS = tuple(range(2, 9))
HIGHEST = 12


def spectrum(values: Values, rotor: Rotor) -> list[float]:
    """One link's load in amplitudes of 0 to 12 waves a turn: the model's first two, then each `share` of the one before."""
    own = amplitudes(loads_of(values, rotor).links, 2)
    share = float(values["share"])
    while len(own) <= HIGHEST:
        own.append(own[-1] * share)
    return own


def compute(values: Values, rotor: Rotor) -> Answer:
    """For 2 to 8 blades with the same link load: what varies in a rod, and how fast."""
    loads = spectrum(values, rotor)
    lowest = [rod_amplitude(rotor, loads, count) for count in COUNTS]
    own = rotor.blades
    return Answer(
        {
            "amplitude": lowest[COUNTS.index(own)],
            "per_turn": float(own if own > 2 else 2),
            "rate": rotor.speed * own,
            "hertz": rotor.speed * own / TURN,
            "steady": rotor.blades * loads[0],
            "once": loads[1],
            "twice": loads[2],
        },
        (loads, lowest),
    )


def rod_amplitude(rotor: Rotor, loads: list[float], count: int) -> float:
    """Greatest amplitude of `count` waves a turn in any rod, with `count` blades whose links carry these amplitudes.

    Steps enough that no wave up to the highest is mistaken for another.
    """
    n = count * math.ceil((2 * HIGHEST + 4) / count)
    link = [sum(a * math.cos(h * TURN * i / n) for h, a in enumerate(loads)) for i in range(n)]
    rows = rods_round(rotor, link, count)
    return max(amplitudes([row[k] for row in rows], count)[count] for k in range(len(rotor.rod_azimuths)))


def describe(case: Case) -> str:
    """One sentence."""
    n = case.rotor.blades
    a = case.show
    return (
        f"With {n} blades a rod feels {a('force', case.result('amplitude'))} at {n} a turn, {a('turn_rate', case.result('rate'))} "
        f"({case.result('hertz'):.1f} a second); everything between cancels before it reaches the rods."
    )


def working(case: Case) -> tuple[Step, ...]:
    """The link's own spectrum, the sum, the counts."""
    loads, lowest = case.answer.details
    a = case.show
    return (
        Step("Waves in one link's load: 0 to 2 a turn from the model, the higher ones as the share says.",
             ", ".join(f"{h}: {a('force', x)}" for h, x in enumerate(loads[:7]))),
        Step("Summed over N equal blades, only N, 2N … a turn are left for the plate's force; for its moments the waves one below and one "
             "above N feed N a turn.", "", "sum"),
        Step("So for the same blade, the varying load of the worst rod:",
             "; ".join(f"{n} blades {a('force', x)} at {n} a turn" for n, x in zip(COUNTS, lowest, strict=True))),
    )  # fmt: skip


def drawing(case: Case) -> Drawing:
    """Bars for 2 to 8 blades."""
    return blade_counts(COUNTS, case.answer.details[1], case.rotor.blades, case.units)


def chart(case: Case) -> Chart:
    """Varying rod load over blade count."""
    return Chart(
        "Varying load of the worst rod for 2 to 8 blades of this kind", "blades", tuple(float(n) for n in COUNTS), "varying load", "force",
        (Line("once for each blade", "hand", tuple(case.answer.details[1])),), cursor=float(case.rotor.blades), every=1, points=True,
    )  # fmt: skip


CALCULATOR = Calculator(
    id="shake",
    title="Shake and blade count",
    question="Which shake reaches the rods, and what does the number of blades do to it?",
    page="hands/shake.md",
    inputs=(
        *STATE,
        Number("share", "Each higher wave is, of the one before", "percent", 0, 100, (0, 100, 1), fixed(40.0), 0,
               "above two a turn; assumed, common practice has no one figure"),
        *BLADE,
    ),
    figures_first=(),
    figures=FIGURES,
    results=(
        Result("amplitude", "Varying load of the worst rod", "force", 0),
        Result("rate", "Shake", "turn_rate", 0),
        Result("hertz", "… times a second", "ratio", 1),
        Result("per_turn", "… times a turn", "count", 0),
        Result("steady", "Steady load of all links", "force", 0, main=False),
        Result("once", "One link, once a turn", "force", 1, main=False),
        Result("twice", "One link, twice a turn", "force", 1, main=False),
    ),
    compute=compute,
    describe=describe,
    working=working,
    drawing=drawing,
    equations={"sum": r"\sum_{k=0}^{N-1} \cos h\left(\psi + \frac{2\pi k}{N}\right) = N\cos h\psi \ \text{ if } N \mid h,\ \text{else } 0"},
    limits=(
        "How strong the higher waves of a real blade are depends on its wake and its bending: the share is an assumption to play with.",
        "Equal blades evenly spaced. What reaches the cabin also comes down the mast: left out.",
    ),
    sources=("Harmonics of N equal loads: elementary, checked numerically.",),
    examples=(
        Example("Five blades at 325 rpm shake at 1625 a minute", "arithmetic", "dogwood5", {}, {}, {"rate": (1625.0, 1e-6)}),
    ),
    chart=chart,
)  # fmt: skip
