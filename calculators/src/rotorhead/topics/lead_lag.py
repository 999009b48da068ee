"""Calculator *lead-lag*: how far a blade swings forward and back in its plane, and what its steady lag does to the budget."""

import math

from ..blade.flap import hover_coning
from ..blade.phase import budget_of, needed_offset
from ..conventions import degrees_text, offset_words
from ..drawing.lead_lag import lagging_blade
from ..fields import Answer, Calculator, Case, Drawing, Example, Number, Result, Step, Values, fixed
from ..flight.flapper import Flap
from ..flight.lead_lag import LeadLag, coriolis, lag_frequency_squared, lead_lag
from ..flight.power import hover_performance
from ..rotor import Rotor

# Soft in the plane of the disc, as hingeless heads are made: swings a turn. Common practice, no source.
SOFT = 0.7
DRAG_AT = 0.75


def _spring(rotor: Rotor) -> float:
    """Spring (N·m/rad) to start with: none on a hinge; on a hingeless head what gives it 0.7 swings a turn."""
    if rotor.head.option("type") != "hingeless":
        return 0.0
    short = SOFT**2 - lag_frequency_squared(rotor.hinge_offset)
    return max(0.0, round(short * rotor.flap_inertia * rotor.speed**2, -2))


def compute(values: Values, rotor: Rotor) -> Answer:
    """Coriolis moments, and with a hinge or a spring the swing, the steady lag and the lead with it."""
    flap = Flap(float(values["coning"]), float(values["tilt"]), 0.0)
    offset, spring, power = float(values["lag_offset"]), float(values["lag_spring"]), float(values["power"])
    inertia = rotor.blade_mass * (rotor.radius * (1.0 - offset)) ** 2 / 3.0
    first, second = coriolis(flap)
    scale = inertia * rotor.speed**2
    drag = power / rotor.speed / rotor.blades * (DRAG_AT - offset) / DRAG_AT
    results: dict[str, float | str] = {"moment_1": first * scale, "moment_2": second * scale, "drag": drag}
    if offset == 0.0 and spring == 0.0:
        # Nothing to swing on: bending carries it all.
        return Answer(
            results
            | {
                "held": "the hub carries it in bending",
                "hangs": "does not hang back at all, for there is nothing to swing on",
                "swings": "does not swing",
                "lead_says": "the lead stays as it is",
            }
        )
    found = lead_lag(rotor, power, flap, offset, spring, DRAG_AT)
    rides = rotor.horn_station > offset * rotor.radius + 1e-3
    shift = found.steady_lag if rides else 0.0
    budget = budget_of(rotor)
    needed = needed_offset(budget.lag, rotor.lead + shift, rotor.trailing)
    return Answer(
        results
        | {
            "held": "on a hinge" if spring == 0.0 else "on a spring",
            "hangs": f"hangs back by {degrees_text(found.steady_lag)}",
            "swings": f"swings about that by some {degrees_text(found.swing_1, 2)} each way, once a turn",
            "frequency": found.frequency,
            "steady": found.steady_lag,
            "swing_1": found.swing_1,
            "swing_2": found.swing_2,
            "lead_shift": shift,
            "lead_says": "the horn goes back with the blade: the lead grows by the steady lag"
            if rides
            else "the horn stands no further out than the lag hinge: the lead stays as it is",
            "needed": offset_words(needed, rotor.rotation, 1),
        },
        found,
    )


def describe(case: Case) -> str:
    """One sentence."""
    a, r = case.show, case.result
    if case.answer.details is None:
        return (
            f"This head has no hinge to swing on: flapping pushes a blade forward and back with {a('moment', r('moment_1'))} once a "
            "turn, and the hub carries it in bending."
        )
    return (
        f"A blade hangs back by {a('angle', r('steady'))} under its drag and swings about that by some {a('angle', r('swing_1'), 2)} each "
        f"way once a turn; {case.answer.results['lead_says']}."
    )


def working(case: Case) -> tuple[Step, ...]:
    """Drag, steady lag, Coriolis, swing, lead; what is left out."""
    a, r = case.show, case.result
    steps = [
        Step("Drag’s moment on one blade about the lag hinge: its share of the torque, drag centred at 0.75 of the radius.", a("moment", r("drag"))),
        Step("Flapping’s push in the plane: a blade that rises comes nearer to the mast’s axis and would run ahead.",
             f"{a('moment', r('moment_1'))} once a turn, {a('moment', r('moment_2'))} twice", "coriolis"),
    ]  # fmt: skip
    found = case.answer.details
    if isinstance(found, LeadLag):
        steps += [
            Step("The blade’s own rhythm in the plane: only the hinge’s distance (and a spring) brings it back.",
                 f"{found.frequency:.3f} swings a turn", "nu"),
            Step("Steady lag: drag against what brings it back.", a("angle", r("steady"), 2), "steady"),
            Step("Swing each way, once and twice a turn, without dampers.",
                 f"{a('angle', r('swing_1'), 2)} and {a('angle', r('swing_2'), 3)}", "swing"),
            Step("What it does to the lead: " + str(case.answer.results["lead_says"]) + ".",
                 f"{a('angle', case.rotor.lead)} and {a('angle', r('lead_shift'), 2)} more; the plate must then be low "
                 f"{case.answer.results['needed']}"),
        ]  # fmt: skip
    return (*steps, Step("Left out: drag that changes round the turn in forward flight, which is as large; dampers. So the swing is right to "
                         "a factor of two at best.", ""))  # fmt: skip


def drawing(case: Case) -> Drawing:
    """The blade from above, hanging back."""
    found = case.answer.details
    lag, swing = (found.steady_lag, found.swing_1) if isinstance(found, LeadLag) else (None, 0.0)
    return lagging_blade(case.rotor, case.number("lag_offset"), lag, swing)


CALCULATOR = Calculator(
    id="lead-lag",
    title="Lead and lag",
    question="How far does a blade swing forward and back, and what does that do to the lead?",
    page="flight/lead-lag.md",
    inputs=(
        Number("coning", "Coning", "angle", 0, 20, (0, 10, 0.1), lambda rotor: round(math.degrees(hover_coning(rotor)), 1), 1,
               "default: the hover"),
        Number("tilt", "Disc tilted against the mast by", "angle", 0, 15, (0, 8, 0.1), fixed(2.0), 1),
        Number("power", "Power at the rotor", "power", 1, 20_000, (20, 4000, 10),
               lambda rotor: round(hover_performance(rotor, rotor.weight).power / 1000.0), 0, "default: the hover"),
        Number("lag_offset", "Lag hinge from the mast, of the radius", "ratio", 0, 0.3, (0, 0.15, 0.005),
               lambda rotor: rotor.hinge_offset, 3, "default: where the flap hinge is"),
        Number("lag_spring", "Spring in the plane", "spring", 0, 5_000_000, (0, 200_000, 500), _spring, 0,
               "on a hingeless head set for 0.7 swings a turn (common practice)"),
    ),
    figures_first=(),
    figures=("blade_mass_kg", "radius_m", "rpm", "blades", "horn_station_mm", "hinge_offset"),
    results=(
        Result("steady", "Steady lag", "angle", 1),
        Result("swing_1", "Swing each way, once a turn", "angle", 2),
        Result("frequency", "Swings a turn by itself", "ratio", 2),
        Result("moment_1", "Flapping’s push in the plane, once a turn", "moment", 0),
        Result("drag", "Drag’s moment on one blade", "moment", 0),
        Result("lead_says", "The lead", "words"),
        Result("needed", "The plate must be low", "words"),
        Result("held", "The blade", "words", main=False),
        Result("hangs", "It", "words", main=False),
        Result("swings", "… and", "words", main=False),
        Result("lead_shift", "Lead grows by", "angle", 2, main=False),
        Result("swing_2", "Swing each way, twice a turn", "angle", 3, main=False),
        Result("moment_2", "Flapping’s push, twice a turn", "moment", 0, main=False),
    ),
    compute=compute,
    describe=describe,
    working=working,
    drawing=drawing,
    equations={
        "coriolis": r"M = 2\,I\,\Omega^2\,\beta\,\beta'",
        "nu": r"\nu_\zeta^2 = \frac{3e}{2(1-e)} + \frac{K_\zeta}{I\,\Omega^2}",
        "steady": r"\zeta_0 = \frac{M_{\mathrm{drag}}}{I\,\Omega^2\,\nu_\zeta^2}",
        "swing": r"\zeta_1 = \frac{2\beta_0\beta_1}{|1 - \nu_\zeta^2|},\quad \zeta_2 = \frac{\beta_1^2}{|4 - \nu_\zeta^2|}",
    },
    limits=(
        "Orders of magnitude. Drag that changes round the turn swings a blade as much again, and isn’t in it: right to a factor of two.",
        "No dampers (they hold back little at once a turn, and take the energy out of growing motions), no blade bending in the plane.",
        "Ground resonance is not in it.",
    ),
    sources=(
        "W. Johnson, Helicopter Theory; A.R.S. Bramwell, Helicopter Dynamics (from memory); re-derived.",
    ),
    examples=(
        Example("Hinge at 5% of the radius: 0.281 swings a turn", "quadrature of the pull’s moment, re-derived", "alder3",
                {"lag_offset": "0.05"}, {}, {"frequency": (0.280976, 1e-6)}),
    ),
)  # fmt: skip
