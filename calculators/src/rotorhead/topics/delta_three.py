"""Calculator *delta-three*: the tie between flapping and pitch, and what it does to frequency, lag and collective."""

import math
from dataclasses import dataclass, replace

from ..blade.flap import Flapping, flap_gain, flapping_of, hover_coning, lag_angle
from ..blade.phase import needed_offset
from ..conventions import degrees_text, offset_words
from ..drawing.delta_three import tied_horn
from ..faults import refuse
from ..fields import (
    Answer,
    Calculator,
    Case,
    Chart,
    Choice,
    Drawing,
    Example,
    Line,
    Number,
    Result,
    Step,
    Values,
    fixed,
)
from ..rotor import Rotor

_ANGLES = tuple(math.radians(-40.0 + 5.0 * i) for i in range(22))


@dataclass(frozen=True, slots=True)
class Tied:
    """A blade whose flapping takes pitch off: tan δ3, flap frequency, lag and gain from commanded pitch, place of the plate."""

    tangent: float
    nu: float
    lag: float
    gain: float
    needed: float


def tied(rotor: Rotor, f: Flapping, tangent: float) -> Tied:
    """The head's blade with tan δ3 as given; refused where the blade wouldn't come back."""
    squared = f.nu_squared + tangent * f.pitch_moment
    if squared <= 0.0:
        raise refuse(
            "delta3", f"Delta-three: at {degrees_text(math.atan(tangent), 0)} flapping up puts on so much pitch that the blade would "
            "not come back.")  # fmt: skip
    lag = lag_angle(f.gamma, f.e, f.nu_squared, tangent)
    gain = flap_gain(f.gamma, f.e, f.nu_squared, tangent)
    return Tied(tangent, math.sqrt(squared), lag, gain, needed_offset(lag, rotor.lead, rotor.trailing))


def _typed(values: Values, rotor: Rotor) -> bool:
    return values["given"] == "typed"


def compute(values: Values, rotor: Rotor) -> Answer:
    """The same blade with the tie and without."""
    f = flapping_of(rotor)
    tangent = math.tan(float(values["delta3"])) if _typed(values, rotor) else rotor.tan_delta3
    own, free = tied(rotor, f, tangent), tied(rotor, f, 0.0)
    cost = tangent * float(values["coning"])
    return Answer(
        {
            "delta3": math.atan(tangent),
            "per_degree": tangent,
            "cost": cost,
            "taken": tangent * float(values["flap"]),
            "nu": own.nu,
            "nu_free": free.nu,
            "lag": own.lag,
            "lag_free": free.lag,
            "gain": own.gain,
            "gain_free": free.gain,
            "lag_change": own.lag - free.lag,
            "says": _says(rotor, own, free, cost),
            "needed": offset_words(own.needed, rotor.rotation, 1),
            "needed_free": offset_words(free.needed, rotor.rotation, 1),
        },
        (f, own, free),
    )


def _why_none(rotor: Rotor) -> str:
    """Why a head has no tie."""
    return "its link ends level with the flap hinge" if rotor.horn_rides else "its horn doesn’t ride with the flap"


def _says(rotor: Rotor, own: Tied, free: Tied, cost: float) -> str:
    """The page's answer for this head."""
    if abs(own.tangent) < 1e-6:
        return f"there is no such tie, for {_why_none(rotor)}: the disc answers {degrees_text(own.lag)} after the pitch asked for"
    return (
        f"it is {degrees_text(math.atan(own.tangent))}: the disc answers {degrees_text(own.lag)} after the pitch asked for instead of "
        f"{degrees_text(free.lag)}, and in the hover the lever must ask for {degrees_text(abs(cost))} {'more' if cost >= 0.0 else 'less'}"
    )


def describe(case: Case) -> str:
    """One sentence."""
    a, r = case.show, case.result
    tangent, rotor = r("per_degree"), case.rotor
    if abs(tangent) < 1e-6:
        why = _why_none(rotor)
        return (
            f"This head has no delta-three, for {why}: a blade that flaps keeps its pitch, and the disc answers "
            f"{a('angle', r('lag'))} after the pitch that the plate asks for."
        )
    does = "takes" if tangent > 0.0 else "puts"
    way = "off" if tangent > 0.0 else "on"
    more = "more" if r("cost") >= 0.0 else "less"
    return (
        f"With {a('angle', r('delta3'))} of delta-three a degree of flapping up {does} {a('angle', math.radians(abs(tangent)), 2)} of pitch {way}: the "
        f"disc answers {a('angle', r('lag'))} after the pitch asked for instead of {a('angle', r('lag_free'))}, and the lever must ask "
        f"for {a('angle', abs(r('cost')))} {more} because the blades cone."
    )


def working(case: Case) -> tuple[Step, ...]:
    """Geometry, frequency, lag, gain, collective, rods."""
    a, r, rotor = case.show, case.result, case.rotor
    f, own, free = case.answer.details
    assert isinstance(f, Flapping)
    restoring = f.nu_squared - 1.0 + own.tangent * f.pitch_moment
    if case.values["given"] == "typed":
        first = Step("Delta-three as typed.", f"tan {a('angle', r('delta3'))} = {own.tangent:.4f}")
    elif rotor.horn_rides:
        first = Step("From the horn: how far its link stands outboard of the flap hinge, over the arm ahead of the blade.",
                     f"({a('small_length', rotor.horn_station, 0)} − {a('small_length', rotor.hinge, 0)}) / "
                     f"{a('small_length', rotor.arm, 0)} = {own.tangent:.4f}, δ₃ = {a('angle', r('delta3'), 2)}".replace("/ -", "/ −"),
                     "geometry")  # fmt: skip
    else:
        first = Step("The horn doesn’t ride with the flap: there is no tie.", "tan δ₃ = 0")
    return (
        first,
        Step("The tie acts as a spring: what flapping takes off in lift brings the blade back sooner.",
             f"√({f.nu_squared:.4f} + {own.tangent:.4f} × {f.pitch_moment:.4f}) = {own.nu:.4f} swings a turn instead of {free.nu:.4f}".replace(
                 "+ -", "− "), "nu"),
        Step("Lag from commanded pitch.",
             f"atan2({f.damping:.4f}, {restoring:.4f}) = {math.degrees(own.lag):.2f}° instead of {math.degrees(free.lag):.2f}°".replace(
                 ", -", ", −"), "lag"),
        Step("Disc tilt for a degree of cyclic asked for.", f"{own.gain:.3f} instead of {free.gain:.3f}", "gain"),
        Step("Collective: coning takes pitch off (or puts it on), and the lever must ask for that besides.",
             f"{own.tangent:.4f} × {a('angle', case.number('coning'))} = {a('angle', r('cost'), 2)}".replace("-", "−"), "cost"),
        Step("The plate must be low for the disc to go down at the nose:",
             f"{case.answer.results['needed']}; without the tie {case.answer.results['needed_free']}"),
    )  # fmt: skip


def drawing(case: Case) -> Drawing:
    """The horn and the hinge from above, with the angle between them."""
    rotor = case.rotor
    own = case.answer.details[1]
    if case.values["given"] == "typed":
        # The horn's end where it would have to stand for the angle typed.
        rotor = replace(rotor, horn_station=rotor.hinge + rotor.arm * own.tangent, horn_rides=True)
    return tied_horn(rotor)


def chart(case: Case) -> Chart:
    """Lag over delta-three."""
    f, own, _ = case.answer.details
    here = math.atan(own.tangent)
    shown = [x for x in _ANGLES if f.nu_squared + math.tan(x) * f.pitch_moment > 0.05]
    lags = tuple(lag_angle(f.gamma, f.e, f.nu_squared, math.tan(x)) for x in shown)
    return Chart(
        "Lag of this head’s blade over delta-three", "delta-three", tuple(shown), "lag from commanded pitch", "angle",
        (Line("lag from commanded pitch", "disc", lags),),
        cursor=here if shown[0] <= here <= shown[-1] else None, every=3, x_quantity="angle",
        cursor_field="delta3" if case.values["given"] == "typed" else "",
    )  # fmt: skip


CALCULATOR = Calculator(
    id="delta-three",
    title="Delta-three",
    question="What does the tie between flapping and pitch do?",
    page="flight/delta-three.md",
    inputs=(
        Choice("given", "Delta-three", (("head", "as this head’s horn makes it"), ("typed", "typed")), "head"),
        Number("delta3", "Angle", "angle", -45, 70, (-40, 65, 1), lambda rotor: round(math.degrees(math.atan(rotor.tan_delta3)), 1), 1,
               "positive takes pitch off as the blade flaps up", applies=_typed),
        Number("coning", "Coning", "angle", -2, 20, (0, 10, 0.1), lambda rotor: round(math.degrees(hover_coning(rotor)), 1), 1,
               "default: the hover"),
        Number("flap", "Flapping each way", "angle", 0, 15, (0, 10, 0.1), fixed(3.0), 1),
    ),
    figures_first=(),
    figures=("horn_rides_with_flap", "horn_station_mm", "arm_mm", "hinge_offset", "link_foot_out_mm", "link_foot_ahead_mm",
             "root_spring_Nm_per_rad", "blade_mass_kg", "chord_m", "radius_m", "rpm"),
    results=(
        Result("delta3", "Delta-three", "angle", 1),
        Result("per_degree", "Pitch taken off for each degree of flap", "ratio", 2),
        Result("cost", "Collective it asks for besides", "angle", 1),
        Result("lag", "Lag from commanded pitch", "angle", 1),
        Result("lag_free", "… without the tie", "angle", 1),
        Result("nu", "Flap frequency over rotor speed", "ratio", 3),
        Result("nu_free", "… without the tie", "ratio", 3),
        Result("needed", "The plate must be low", "words"),
        Result("needed_free", "… without the tie", "words"),
        Result("gain", "Disc tilt over cyclic asked for", "ratio", 3, main=False),
        Result("gain_free", "… without the tie", "ratio", 3, main=False),
        Result("lag_change", "Lag, changed by", "angle", 1, main=False),
        Result("says", "In words", "words", main=False),
        Result("taken", "Pitch taken off at the top of the flapping", "angle", 1, main=False),
    ),
    compute=compute,
    describe=describe,
    working=working,
    drawing=drawing,
    equations={
        "geometry": r"\tan\delta_3 = \frac{r_h - eR}{a}",
        "nu": r"\nu_\delta^2 = \nu^2 + \tan\delta_3\,M_\theta",
        "lag": r"\varphi = \operatorname{atan2}\left(M_{\dot\beta},\ \nu^2 - 1 + \tan\delta_3\,M_\theta\right)",
        "gain": r"\frac{\beta_1}{\theta_1} = \frac{M_\theta}{\sqrt{(\nu^2 - 1 + \tan\delta_3\,M_\theta)^2 + M_{\dot\beta}^2}}",
        "cost": r"\Delta\theta = \tan\delta_3\,\beta_0",
    },
    limits=(
        "A link that stands square to the plate, a rigid blade, the hover, even inflow.",
        "The lag from the pitch the blade really has stays what it is without the tie: the tie changes the pitch, not the blade.",
        "On a teetering head the tie acts on the see-saw; its steady coning moves no hinge.",
    ),
    sources=(
        "W. Johnson, Helicopter Theory, ch. 5 (from memory); re-derived and checked by time integration.",
        "FAA-H-8083-21B, glossary (read): delta hinge.",
    ),
    examples=(
        Example("Hinge at the mast, 30°: the lag is 60°, the gain cos 30°", "re-derived, checked by time integration", "birch2",
                {"given": "typed", "delta3": "30"}, {}, {"lag": (60.0, 1e-9), "gain": (0.8660254, 1e-7), "lag_free": (90.0, 1e-9)}),
        Example("Hinge at the mast, 45°: the lag is 45°", "re-derived", "birch2", {"given": "typed", "delta3": "45"}, {},
                {"lag": (45.0, 1e-9), "gain": (0.7071068, 1e-7), "per_degree": (1.0, 1e-9)}),
    ),
    chart=chart,
)  # fmt: skip
