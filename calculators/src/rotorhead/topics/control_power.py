"""Calculator *control-power*: moment about the centre of gravity per degree of disc tilt, by head type and load factor; rates."""

import math
from dataclasses import dataclass

from ..blade.flap import Flapping, flap_frequency_squared, flapping_of
from ..conventions import degrees_text
from ..drawing.tilted_machine import tilted_machine
from ..fields import Answer, Calculator, Case, Chart, Drawing, Example, Line, Number, Result, Step, Values, fixed
from ..flight.hub import (
    Damping,
    TiltMoment,
    control_power,
    damping,
    moment_slope,
    rate_response,
    tilt_moment,
    with_moment_inflow,
)
from ..flight.validity import Mark
from ..rotor import Rotor
from ..units import DEGREE, SYSTEMS, show, tidy
from .flight_inputs import AIR, BLADE_FIGURES, INSIDE, MASS, air_of, loaded_with, model_sentence, model_words

LOADS = tuple(0.25 * i for i in range(9))
# What the same machine would have with other heads: hinges at 4 % of the radius, a stiff hub of 1.10 flaps a turn. Common
# practice (articulated 1.02 to 1.04, hingeless 1.08 to 1.15 flaps a turn; W. Johnson, ch. 5, from memory).
HINGED, STIFF = 0.04, 1.10
# Small angles: a disc further from the mast than this while it turns is not computed with.
_LAG_MOST = math.radians(10.0)


@dataclass(frozen=True, slots=True)
class Answered:
    """The head as loaded, its flapping, moments, damping with and without inflow that follows; where the model is left."""

    loaded: Rotor
    flapping: Flapping
    moment: TiltMoment
    plain: Damping | None
    followed: Damping | None
    outside: tuple[Mark, ...]


def _moment_words(per_radian: float) -> str:
    """A moment for a degree in both units: words are made before the reader's units are known."""
    return " (".join(show("moment", per_radian * DEGREE, system, 0) for system in SYSTEMS) + ") for a degree"


def _lag_mark(lag: float) -> tuple[Mark, ...]:
    if lag <= _LAG_MOST:
        return ()
    text = f"The disc would stand {degrees_text(lag, 0)} behind the mast at that rate, beyond small angles ({degrees_text(_LAG_MOST, 0)})."
    return (Mark("turning", lag, _LAG_MOST, text),)


def compute(values: Values, rotor: Rotor) -> Answer:
    """Moments at the load factor and at 1, 0.5 and 0 g; the disc's answer to a steady rate."""
    load, rate = float(values["load_factor"]), float(values["turning"])
    density, _ = air_of(values)
    loaded = loaded_with(rotor, float(values["mass"]))
    flapping = flapping_of(loaded, density)
    moment = tilt_moment(loaded, load)
    one, half, none = (tilt_moment(loaded, n) for n in (1.0, 0.5, 0.0))
    response = rate_response(flapping, flap_frequency_squared(loaded.hinge_offset), loaded.speed, rate)
    lag = math.hypot(response.cosine, response.sine)
    plain = followed = None
    results: dict[str, float | str] = {
        "hub": moment.hub,
        "thrust": moment.thrust,
        "total": moment.total,
        "one": one.total,
        "half": half.total,
        "none": none.total,
        "half_share": half.total / one.total,
        "none_words": "nothing at all" if none.total == 0.0 else _moment_words(none.total),
        "cyclic": control_power(loaded, load, density),
        "lag": response.cosine,
        "across": response.sine,
    }
    if moment.hub_share is not None:
        plain, followed = (damping(loaded, load, density, moment_inflow=m) for m in (False, True))
        results |= {
            "hub_share": moment.hub_share,
            "damping": plain.opposing,
            "damping_inflow": followed.opposing,
            "cross": plain.cross,
            "rate": flapping.gain * moment.total * DEGREE / plain.opposing,
            "rate_inflow": with_moment_inflow(flapping).gain * moment.total * DEGREE / followed.opposing,
        }
    marks = _lag_mark(lag)
    results |= {"says": _says(one, none), "model": model_words(marks)}
    return Answer(results, Answered(loaded, flapping, moment, plain, followed, marks))


def _says(one: TiltMoment, none: TiltMoment) -> str:
    """The page's answer for this head."""
    if none.total == 0.0:
        return "all of it comes from the tilted thrust: at zero load factor a tilted disc turns the machine with nothing at all"
    return f"{none.total / one.total * 100:.0f}% of it comes from the hub and does not ask for thrust: at zero load factor that much is left"


def describe(case: Case) -> str:
    """One sentence, and where the model is left."""
    a, r, f = case.show, case.result, case.answer.details
    assert isinstance(f, Answered)
    load = case.number("load_factor")
    if r("total") == 0.0:
        text = (
            f"At a load factor of {load:.2f} a tilted disc turns this machine with nothing at all: without thrust a central hinge passes no "
            "moment on."
        )
    else:
        text = (
            f"At a load factor of {load:.2f} each degree of disc tilt turns the machine with {a('moment_per_angle', r('total'))}: "
            f"{a('moment_per_angle', r('hub'))} at the hub and {a('moment_per_angle', r('thrust'))} by the thrust that passes the centre of "
            f"gravity. While the nose comes up at {a('angle_rate', case.number('turning'), 0)} the disc lags {a('angle', r('lag'))} behind the mast and "
            f"stands {a('angle', abs(r('across')))} across."
        )
    return text + model_sentence(f.outside)


def working(case: Case) -> tuple[Step, ...]:
    """Hub, thrust, cyclic, rate, damping."""
    a, r, f = case.show, case.result, case.answer.details
    assert isinstance(f, Answered)
    rotor, load = f.loaded, case.number("load_factor")
    steps = [
        Step("The hub’s part: what hinges set out from the mast, or stiffness, pass on for each degree (SI units).",
             f"{rotor.blades}/2 × {rotor.flap_inertia:.1f} × {rotor.speed:.2f}² × ({f.flapping.nu_squared:.4f} − 1) × π/180 = "
             f"{a('moment_per_angle', r('hub'))}", "hub"),
        Step("The thrust’s part: thrust times the height of the hub above the centre of gravity, for each degree.",
             f"{load:.2f} × {a('force', rotor.weight)} × {a('length', rotor.mast_above_cg)} × π/180 = {a('moment_per_angle', r('thrust'))}",
             "thrust"),
        Step("Both.", a("moment_per_angle", r("total"))),
        Step("A degree of cyclic pitch tilts the disc by this head’s gain.",
             f"{f.flapping.gain:.3f} × {a('moment_per_angle', r('total'))} = {a('moment_per_angle', r('cyclic'))}"),
        Step("A steady rate: the blades must be pushed round with the mast, and only air can do it. The disc lags behind, and stands across "
             "a little.", f"γ = {f.flapping.gamma:.3f}: {a('angle', r('lag'), 2)} behind, {a('angle', r('across'), 2)} across", "rate"),
    ]  # fmt: skip
    if f.plain and f.followed:
        steps.append(Step(
            "Lag times moment is what holds against the turning (damping), and part of it comes across.",
            f"{a('moment_per_rate', r('damping'))}, {tidy(r('cross') * 100, 0)}% of it across; with inflow that has followed the air’s moment "
            f"{a('moment_per_rate', r('damping_inflow'))}"))  # fmt: skip
        steps.append(Step("Steady rate for a degree of cyclic: where both balance.",
                          f"{a('angle_rate', r('rate'), 1)}; with inflow that has followed {a('angle_rate', r('rate_inflow'), 1)}"))  # fmt: skip
    steps.append(Step("Is this inside what the model can tell?", model_sentence(f.outside).strip() or INSIDE))
    return tuple(steps)


def drawing(case: Case) -> Drawing:
    """The machine from the side, disc tilted by a degree."""
    r, f = case.result, case.answer.details
    assert isinstance(f, Answered)
    one = tilt_moment(f.loaded)
    words = ["nothing" if r(n) == 0.0 else case.show("moment", r(n) * DEGREE) for n in ("thrust", "hub")]
    return tilted_machine(DEGREE, case.number("load_factor"), words[0], words[1], one.hub_share or 0.0)


def chart(case: Case) -> Chart:
    """Moment per degree over load factor: this head, and the same machine with other heads."""
    f = case.answer.details
    assert isinstance(f, Answered)
    rotor = f.loaded
    hinged = moment_slope(rotor.blades, rotor.flap_inertia, rotor.speed, flap_frequency_squared(HINGED))
    stiff = moment_slope(rotor.blades, rotor.flap_inertia, rotor.speed, STIFF**2)
    thrust = tilt_moment(rotor, 1.0).thrust
    own = tilt_moment(rotor, 0.0).hub
    here = case.number("load_factor")
    return Chart(
        "Moment for a degree of disc tilt over load factor", "load factor", LOADS, "moment", "moment",
        tuple(
            Line(name, role, tuple((hub + n * thrust) * DEGREE for n in LOADS))
            for name, role, hub in (("this head", "hand", own), ("hinge at the mast", "disc", 0.0),
                                    ("hinges at 4% of the radius", "structure", hinged), ("stiff hub, 1.10 flaps a turn", "pitch", stiff))
        ),
        cursor=here if here <= LOADS[-1] else None, every=2, x_quantity="ratio", cursor_field="load_factor",
    )  # fmt: skip


CALCULATOR = Calculator(
    id="control-power",
    title="Control power",
    question="How strongly does the machine answer a tilted disc?",
    page="flight/control-power.md",
    inputs=(
        Number("load_factor", "Load factor", "ratio", 0, 3, (0, 2, 0.05), fixed(1.0), 2, "1: level flight; 0: weightless"),
        Number("turning", "Nose coming up at", "angle_rate", 0, 60, (0, 40, 1), fixed(20.0), 0, "a steady rate"),
        MASS,
        *AIR,
    ),
    figures_first=(),
    figures=(*BLADE_FIGURES, "blade_mass_kg", "hinge_offset", "root_spring_Nm_per_rad", "mast_above_cg_m"),
    results=(
        Result("total", "Moment for a degree of disc tilt", "moment_per_angle", 0),
        Result("hub", "… of it at the hub", "moment_per_angle", 0),
        Result("thrust", "… of it by the thrust", "moment_per_angle", 0),
        Result("hub_share", "The hub’s share", "percent", 0),
        Result("cyclic", "Moment for a degree of cyclic pitch", "moment_per_angle", 0),
        Result("half", "For a degree of tilt at half the weight", "moment_per_angle", 0),
        Result("none", "… weightless", "moment_per_angle", 0),
        Result("lag", "Disc behind the mast while it turns", "angle", 1),
        Result("across", "… across", "angle", 1),
        Result("model", "Inside the model?", "words"),
        Result("one", "For a degree of tilt at 1 g", "moment_per_angle", 0, main=False),
        Result("half_share", "At half the weight, of that at 1 g", "percent", 0, main=False),
        Result("none_words", "Weightless, in words", "words", main=False),
        Result("damping", "Moment against turning", "moment_per_rate", 0, main=False),
        Result("damping_inflow", "… with inflow that has followed", "moment_per_rate", 0, main=False),
        Result("cross", "… that comes across", "percent", 0, main=False),
        Result("rate", "Steady rate for a degree of cyclic", "angle_rate", 1, main=False),
        Result("rate_inflow", "… with inflow that has followed", "angle_rate", 1, main=False),
        Result("says", "In words", "words", main=False),
    ),
    compute=compute,
    describe=describe,
    working=working,
    drawing=drawing,
    equations={
        "hub": r"M_h = \frac{N}{2} I_\beta\,\Omega^2\left(\nu^2 - 1\right)\beta_1",
        "thrust": r"M_T = n\,W\,h\,\beta_1",
        "rate": r"\beta_{1c} = \frac{16\,q}{\gamma\,\Omega},\quad \beta_{1s} = \frac{q}{\Omega}\ \text{for}\ e = 0",
    },
    limits=(
        "Stiff blades on hinges or springs. The lift that comes and goes once a turn at an offset hinge is left out (under 2% of the hub’s part).",
        "Damping for the hover, the load factor put into the thrust’s part alone. Inflow that follows the air’s moment takes its own time: the "
        "truth lies between the two figures.",
        "How fast the machine then turns hangs on its inertia, which no head has.",
        "A teetering hub with springs is a head of its own: say so in its figures.",
    ),
    sources=(
        "W. Johnson, Helicopter Theory, ch. 5; J.G. Leishman, ch. 4; K.B. Amer, NACA TN 2136 (from memory); re-derived and checked by integration.",
        "FAA-H-8083-21B, p. 11-14 (read): low g, offset hinges and teetering rotors.",
    ),
    examples=(
        Example("Thrust of 20 000 N, 1.5 m above the centre of gravity: 523.6 N·m for a degree", "statics, re-derived", "birch2",
                {"mass": "2039.43242596"}, {"mast_above_cg_m": "1.5"}, {"thrust": (523.599, 1e-3), "hub": (0.0, 1e-9), "none": (0.0, 1e-9)}),
        Example("Four blades of 100 kg outboard of hinges at 5% of 7 m, at 30 rad/s: 3656 N·m for a degree at the hub", "statics, re-derived",
                "alder3", {}, {"blades": "4", "radius_m": "7", "hinge_offset": "0.05", "blade_mass_kg": "100", "rpm": "286.478897565"},
                {"hub": (3656.03, 5e-3)}),
    ),
    chart=chart,
)  # fmt: skip
