"""Calculator *rod-load*: what the links together put on the plate, and what each rod carries."""

import math

from ..conventions import TURN, bearing_of, bearing_words
from ..drawing.rod_load import rods_under_load
from ..fields import Answer, Calculator, Case, Chart, Drawing, Example, Line, Number, Result, Step, Values, fixed
from ..loads.rods import amplitudes, rod_loads
from ..rotor import Rotor
from .load_inputs import BLADE, FIGURES, STATE, loads_of


def compute(values: Values, rotor: Rotor) -> Answer:
    """Steady load on the plate and rods, peak, and the multiples of N per turn."""
    loads = loads_of(values, rotor)
    steady = loads.steady
    rods = rod_loads(rotor, steady)
    n = rotor.blades
    spectrum = [amplitudes([row[i] for row in loads.rods], 2 * n) for i in range(len(rods))]
    moment = math.hypot(steady.along, steady.across)
    lean = bearing_of(math.atan2(steady.across, steady.along), rotor.rotation)
    results: dict[str, float | str] = {f"rod_{k}": load for k, load in enumerate(rods, 1)}
    results |= {
        "down": steady.down,
        "moment": moment,
        "moment_at": bearing_words(lean) if moment > 1e-6 else "none",
        "steady_peak": max(rods, key=abs),
        "peak": max((x for row in loads.rods for x in row), key=abs),
        "once_n": max(s[n] for s in spectrum),
        "twice_n": max(s[2 * n] for s in spectrum),
    }
    return Answer(results, (loads, rods, spectrum))


def describe(case: Case) -> str:
    """One sentence."""
    a = case.show
    rods = case.answer.details[1]
    listed = ", ".join(
        f"rod {n} {a('force', abs(x))} {'pushing' if x >= 0 else 'pulling'}" for n, x in enumerate(rods, 1)
    )
    n = case.rotor.blades
    return (
        f"The links together bear {'down' if case.result('down') >= 0 else 'up'} on the plate with {a('force', abs(case.result('down')))}; "
        f"{listed}. On top of that the rods feel only whole multiples of {n} a turn: {a('force', case.result('once_n'))} at {n} a turn."
    )


def working(case: Case) -> tuple[Step, ...]:
    """Sum, statics, multiples of N."""
    a = case.show
    n = case.rotor.blades
    return (
        Step(f"The {n} links, each where its blade is, summed at every angle of the rotor and averaged.",
             f"force {a('force', case.result('down'), 1)}, moment {a('moment', case.result('moment'), 1)} toward a place "
             f"{case.answer.results['moment_at']}", "sum"),
        Step("Three rods hold a plate in one way only.",
             "; ".join(f"rod {k}: {a('force', x, 1)}" for k, x in enumerate(case.answer.details[1], 1)), "statics"),
        Step("What varies: with evenly spaced, equal blades everything but the multiples of their number cancels"
             + (" (two blades: the once-a-turn load of a link becomes steady and twice a turn, equally)." if n == 2 else "."),
             f"{n} a turn: {a('force', case.result('once_n'), 1)}; {2 * n} a turn: {a('force', case.result('twice_n'), 2)}"),
    )  # fmt: skip


def drawing(case: Case) -> Drawing:
    """Plan with the loads of the rods at the chosen rotor angle."""
    loads = case.answer.details[0]
    n = len(loads.rods)
    index = round(case.number("rotor_angle") / TURN * n) % n
    return rods_under_load(case.rotor, loads.rods[index], loads.plate[index], index * 360.0 / n, case.units)


def chart(case: Case) -> Chart:
    """Rod loads round the turn."""
    loads, rods, _ = case.answer.details
    n = len(loads.rods)
    roles = ("hand", "plate", "disc", "pitch", "structure", "hand")
    lines = tuple(
        Line(f"rod {k + 1}", roles[k], (*(row[k] for row in loads.rods), loads.rods[0][k])) for k in range(len(rods))
    )
    return Chart(
        "Rod loads as the rotor turns", "rotor turned by, degrees", tuple(360.0 * i / n for i in range(n + 1)),
        "load (positive: pushing up)", "force", lines, cursor=math.degrees(case.number("rotor_angle")), cursor_field="rotor_angle",
    )  # fmt: skip


CALCULATOR = Calculator(
    id="rod-load",
    title="Loads in the rods",
    question="What comes back down the rods?",
    page="hands/control-loads.md",
    inputs=(
        *STATE,
        Number("rotor_angle", "Rotor turned by", "angle", 0, 360, (0, 360, 5), fixed(0.0), 0, "0: blade 1 over the tail"),
        *BLADE,
    ),
    figures_first=(),
    figures=(*FIGURES, "rods"),
    results=(
        *(Result(f"rod_{n}", f"Rod {n}, steady", "force", 0) for n in range(1, 7)),
        Result("down", "On the plate, steady", "force", 0),
        Result("peak", "Any rod, at most", "force", 0),
        Result("once_n", "Varying, once for each blade", "force", 0),
        Result("moment", "Moment on the plate, steady", "moment", 0, main=False),
        Result("moment_at", "… toward", "words", main=False),
        Result("steady_peak", "Greatest steady rod load", "force", 0, main=False),
        Result("twice_n", "Varying, twice for each blade", "force", 1, main=False),
    ),
    compute=compute,
    describe=describe,
    working=working,
    drawing=drawing,
    equations={
        "sum": r"F = \sum_k P_k,\quad \mathbf{M} = \sum_k P_k\,\mathbf{r}_k",
        "statics": r"\sum R_i = F,\quad \sum R_i\,\mathbf{r}_i = \mathbf{M}",
    },
    limits=(
        "Equal blades evenly spaced; a blade out of step lets other multiples through.",
        "Air loads above two waves a turn are left out, so the varying part is too small on three and more blades.",
    ),
    sources=("Statics of a plate on three rods; harmonics of N equal loads: elementary, checked numerically.",),
    examples=(
        Example("A level share: with no speed and no cyclic every rod carries a third of the links' sum", "statics", "birch2",
                {"speed": "0", "cyclic": "0", "pitch": "7.5"}, {"pitching_moment_coefficient": "0"},
                {"moment": (0.0, 1e-6)}),
    ),
    chart=chart,
)  # fmt: skip
