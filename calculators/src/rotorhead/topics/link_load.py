"""Calculator *link-load*: the moment a blade asks of its horn, and the load in its link round the turn."""

import math

from ..conventions import TURN
from ..drawing.curves import curve_drawing
from ..fields import Answer, Calculator, Case, Chart, Drawing, Example, Line, Number, Result, Step, Values, fixed
from ..loads.rods import amplitudes
from ..rotor import Rotor
from ..units import tidy
from .load_inputs import BLADE, FIGURES, STATE, loads_of


def compute(values: Values, rotor: Rotor) -> Answer:
    """Steady and varying link load, and the parts of the moment."""
    loads = loads_of(values, rotor)
    n = len(loads.parts)
    link = amplitudes(loads.links, 3)
    inertia = amplitudes([p.inertia for p in loads.parts], 1)[1]
    propeller = amplitudes([p.propeller for p in loads.parts], 1)
    both = amplitudes([p.inertia + p.propeller for p in loads.parts], 1)[1]
    return Answer(
        {
            "steady": link[0],
            "peak": max(loads.links, key=abs),
            "now": loads.links[_index(values, len(loads.links))],
            "once": link[1],
            "twice": link[2],
            "propeller": propeller[0],
            "air": sum(p.air for p in loads.parts) / n,
            "offset": sum(p.offset for p in loads.parts) / n,
            "spring": sum(p.spring for p in loads.parts) / n,
            "inertia_once": inertia,
            "propeller_once": propeller[1],
            "left_once": both,
        },
        loads,
    )


def _index(values: Values, steps: int) -> int:
    """Step nearest to the blade's azimuth."""
    return round(float(values["rotor_angle"]) / TURN * steps) % steps


def _sense(load: float) -> str:
    return "squeezed" if load > 0 else "pulled" if load < 0 else "unloaded"


def describe(case: Case) -> str:
    """One sentence."""
    a, steady = case.show, case.result("steady")
    return (
        f"Each link is {_sense(steady)} with {a('force', abs(steady))} on average, {a('force', abs(case.result('peak')))} at most: holding "
        f"the blade against flattening takes {a('moment', case.result('propeller'), 1)}, against the air "
        f"{a('moment', case.result('air'), 1)}."
    ).replace("-", "\N{MINUS SIGN}")


def working(case: Case) -> tuple[Step, ...]:
    """Part by part."""
    r, b = case.rotor, case.answer.details.blade

    def nm(x: float, places: int = 1) -> str:
        return case.show("moment", x, places)

    return (
        Step("The blade's own inertia across and along the chord, turning: it tends to flatten.",
             f"({b.inertia_chord:.4f} − {b.inertia_thickness + b.weights:.4f}) kg·m² × {r.speed:.2f}² × sin θ cos θ, θ = "
             f"{case.show('angle', case.number('pitch'))}: {nm(case.result('propeller'))}", "propeller"),
        Step("The section's own pitching moment, summed over the span.",
             f"C_m = {tidy(b.moment_coefficient, 4)} at {case.show('airspeed', case.number('speed'))}: {nm(case.result('air'))} to be held", "air"),
        Step("Centre of mass behind the axis, coned up: its pull turns the nose up.",
             f"{case.show('small_length', b.mass_behind)} at {case.show('angle', b.coning)}: {nm(case.result('offset'))}", "offset"),
        Step("Feathering once a turn: inertia and flattening pull against each other and nearly cancel on a thin blade.",
             f"{nm(case.result('inertia_once'), 2)} against {nm(case.result('propeller_once'), 2)}: {nm(case.result('left_once'), 2)} left",
             "cancel"),
        Step("Over the horn's arm.",
             f"steady {case.show('force', case.result('steady'), 1)}; once a turn {case.show('force', case.result('once'), 1)}, twice "
             f"{case.show('force', case.result('twice'), 1)}", "link"),
    )  # fmt: skip


def drawing(case: Case) -> Drawing:
    """Parts of the moment round the turn."""
    loads = case.answer.details
    n = len(loads.parts)
    xs = [360.0 * i / n for i in range(n + 1)]

    def closed(values: list[float]) -> list[float]:
        return [*values, values[0]]

    return curve_drawing(
        "moments", xs,
        {
            "all of it": ("r-hand", closed([p.total for p in loads.parts])),
            "inertia and flattening": ("r-disc", closed([p.inertia + p.propeller for p in loads.parts])),
            "air": ("r-pitch", closed([p.air for p in loads.parts])),
        },
        math.degrees(case.number("rotor_angle")), "blade azimuth, degrees from the tail", "N·m",
        f"Moment the horn must give over a turn, nose-up positive: between {min(p.total for p in loads.parts):.0f} and "
        f"{max(p.total for p in loads.parts):.0f} N·m.".replace("-", "\N{MINUS SIGN}"),
    )  # fmt: skip


def chart(case: Case) -> Chart:
    """Link load round the turn."""
    loads = case.answer.details
    n = len(loads.links)
    return Chart(
        "Load in one link round the turn", "blade azimuth, degrees from the tail",
        tuple(360.0 * i / n for i in range(n + 1)), "load (positive: squeezed)", "force",
        (Line("link load", "plate", (*loads.links, loads.links[0])),
         Line("its mean", "structure", (case.result("steady"),) * (n + 1))),
        cursor=math.degrees(case.number("rotor_angle")), cursor_field="rotor_angle",
    )  # fmt: skip


CALCULATOR = Calculator(
    id="link-load",
    title="Load in a pitch link",
    question="What does a blade ask of its pitch link?",
    page="hands/control-loads.md",
    inputs=(
        *STATE,
        Number("rotor_angle", "Blade stands at an azimuth of", "angle", 0, 360, (0, 360, 5), fixed(0.0), 0, "0: over the tail"),
        *BLADE,
    ),
    figures_first=("pitching_moment_coefficient",),
    figures=tuple(k for k in FIGURES if k != "pitching_moment_coefficient"),
    results=(
        Result("steady", "Link load, steady", "force", 0),
        Result("peak", "Link load, at most", "force", 0),
        Result("now", "Link load now", "force", 0),
        Result("once", "… varying once a turn", "force", 0),
        Result("twice", "… twice a turn", "force", 0),
        Result("propeller", "Against flattening", "moment", 1),
        Result("air", "Against the air", "moment", 1),
        Result("offset", "Centre of mass off the axis", "moment", 1, main=False),
        Result("spring", "Spring", "moment", 1, main=False),
        Result("inertia_once", "Inertia, once a turn", "moment", 2, main=False),
        Result("propeller_once", "Flattening, once a turn", "moment", 2, main=False),
        Result("left_once", "What those two leave", "moment", 2, main=False),
    ),
    compute=compute,
    describe=describe,
    working=working,
    drawing=drawing,
    equations={
        "propeller": r"(I_c - I_t)\,\Omega^2 \sin\theta\cos\theta",
        "air": r"-\tfrac12\rho\,c^2 C_m \int (\Omega r + V\sin\psi)^2\,dr",
        "offset": r"-x\,\beta_0\,\Omega^2 \int r\,dm",
        "cancel": r"(I_c + I_t)\,\ddot\theta + (I_c - I_t)\,\Omega^2\theta_1 \approx 0",
        "link": r"P = \frac{M}{a\cos\eta}",
    },
    limits=(
        "Rigid blade, steady air: no torsion, no stall, no shocks, no wake; air loads above two waves a turn are left out.",
        "Loads to understand by, not to design or to judge a part by.",
    ),
    sources=(
        "Feathering moment: W. Johnson, Helicopter Theory (from memory); re-derived, checked with a rigid-body engine.",
    ),
    examples=(
        Example("A 50 kg plank of 0.5 m chord and 0.06 m thickness at 10°, 40 rad/s, 150 mm horn, no air",
                "closed form, and a rigid-body engine's inverse dynamics", "birch2",
                {"speed": "0", "pitch": "10"},
                {"blade_mass_kg": "50", "chordwise_radius_of_gyration_m": "0.144337567", "thickness_radius_of_gyration_m": "0.017320508",
                 "rpm": "381.971863", "pitching_moment_coefficient": "0", "arm_mm": "150", "link_foot_ahead_mm": "150",
                 "pitch_at_plate_zero_deg": "10", "collective_low_deg": "5", "collective_high_deg": "15"},
                {"propeller": (280.91254, 2e-5), "steady": (1872.750, 2e-3)}),
    ),
    chart=chart,
)  # fmt: skip
