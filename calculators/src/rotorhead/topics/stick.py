"""Calculator *stick*: airspeed -> where lever and stick stand, how the fuselage hangs, the bulge sideways at low speed."""

import math
from dataclasses import dataclass, replace
from functools import lru_cache

from ..blade.flap import hub_moment_slope
from ..conventions import advancing_side, after_side, before_side, degrees_text, sense
from ..drawing.stick_path import stick_path
from ..faults import Refused
from ..fields import Answer, Calculator, Case, Chart, Drawing, Example, Line, Number, Result, Step, Values, fixed
from ..flight.trim import Balanced, Fuselage, balanced, fuselage_of, hands_for, hands_marks
from ..flight.validity import Mark, flap_mark
from ..rotor import Rotor
from ..units import KNOT_M_PER_S
from .flight_inputs import (
    AIR,
    BLADE_FIGURES,
    INFLOW,
    INSIDE,
    MASS,
    SPEED,
    air_of,
    blamed,
    loaded_with,
    model_sentence,
    model_words,
    weight_of,
)

HUNG = "What hangs under the head"
# Speeds the path goes through, kt: close where the stick bulges sideways.
PATH = (0, 6, 10, 14, 18, 22, 27, 33, 40, 50, 60, 80, 100, 120, 140, 160)
# Up to here the bulge sideways is looked for, kt.
_SLOW = 60


@dataclass(frozen=True, slots=True)
class Place:
    """Lever (0 to 1), stick forward and right (−1 to 1), at a speed (m/s)."""

    speed: float
    lever: float
    forward: float
    right: float


@dataclass(frozen=True, slots=True)
class Stood:
    """The state asked for, the hover's, the path, the greatest bulge and where; where the model is left."""

    here: Balanced
    hover: Balanced
    place: Place
    path: tuple[Place, ...]
    even: tuple[float, ...]
    bulge: float
    bulge_at: float
    outside: tuple[Mark, ...]


def fuselage(values: Values, rotor: Rotor) -> Fuselage:
    """What the reader says hangs there; the tail rotor as common practice has it."""
    return replace(
        fuselage_of(rotor), ahead=float(values["cg_ahead"]),
        toward_advancing=sense(rotor.rotation) * float(values["cg_aside"]),
        mast_tilt=float(values["mast_tilt"]), moment_volume=float(values["moment_volume"]), drag_below=float(values["drag_below"]),
    )  # fmt: skip


def _place(rotor: Rotor, state: Balanced) -> Place:
    return Place(state.disc.speed, *hands_for(rotor, state.pitch))


@lru_cache(maxsize=8)
def _path(
    rotor: Rotor, density: float, hung: Fuselage, model: str, sound: float
) -> tuple[tuple[Place, ...], tuple[float, ...]]:
    """The path as far as the model goes, and the stick sideways if the inflow were even."""
    found, even = [], []
    for knots in PATH:
        speed = knots * KNOT_M_PER_S
        try:
            found.append(_place(rotor, balanced(rotor, speed, density, hung, model, sound)))
        except Refused:
            break
        even.append(_place(rotor, balanced(rotor, speed, density, hung, "uniform", sound)).right)
    return tuple(found), tuple(even)


def _stood(values: Values, rotor: Rotor) -> Stood:
    loaded, model, hung = loaded_with(rotor, float(values["mass"])), str(values["inflow"]), fuselage(values, rotor)
    density, sound = air_of(values)
    here = balanced(loaded, float(values["speed"]), density, hung, model, sound)
    hover = balanced(loaded, 0.0, density, hung, model, sound)
    place = _place(loaded, here)
    path, even = _path(loaded, density, hung, model, sound)
    extra = [p.right - e for p, e in zip(path, even, strict=True) if p.speed <= _SLOW * KNOT_M_PER_S]
    most = max(range(len(extra)), key=lambda i: abs(extra[i]))
    marks = (
        *here.disc.outside, *flap_mark((here.flap.coning,)), *hands_marks(place.lever, place.forward, place.right),
    )  # fmt: skip
    return Stood(here, hover, place, path, even, extra[most], path[most].speed, marks)


def _bank_words(rotor: Rotor, bank: float) -> str:
    if degrees_text(abs(bank)) == degrees_text(0.0):
        return "wings level"
    return f"{degrees_text(abs(bank))} {(advancing_side if bank > 0.0 else after_side)(rotor.rotation)} side low"


def _nose_words(up: float) -> str:
    text = degrees_text(abs(up))
    return "level" if text == degrees_text(0.0) else f"{text} nose {'up' if up > 0.0 else 'down'}"


def _stick_words(forward: float, right: float) -> str:
    parts = [
        f"{abs(value) * 100:.0f}% {plus if value > 0.0 else less}"
        for value, plus, less in ((forward, "forward", "back"), (right, "right", "left"))
        if abs(value) >= 0.005
    ]
    return " and ".join(parts) or "centred"


def compute(values: Values, rotor: Rotor) -> Answer:
    """Trim at the speed, in the hover, and along the path."""
    s = blamed(lambda: _stood(values, rotor), values)
    lean = math.atan2(s.hover.push, s.hover.disc.thrust)
    bulges = abs(s.bulge) >= 0.005
    side = "neither side" if not bulges else "right" if s.bulge > 0.0 else "left"
    knots = s.bulge_at / KNOT_M_PER_S
    hover = s.path[0]
    return Answer(
        {
            "lever": s.place.lever,
            "forward": s.place.forward,
            "right": s.place.right,
            "stick_words": _stick_words(s.place.forward, s.place.right),
            "tilt": s.here.disc.tilt,
            "nose_words": _nose_words(float(values["mast_tilt"]) - s.here.alpha),
            "bank_words": _bank_words(rotor, s.here.bank),
            "hover_forward": hover.forward,
            "hover_right": hover.right,
            "hover_lean": lean,
            "hover_lean_side": after_side(rotor.rotation),
            "hover_bank_words": _bank_words(rotor, s.hover.bank),
            "hover_tail": s.hover.push,
            "hover_tail_share": s.hover.push / s.hover.disc.thrust,
            "drift_side": before_side(rotor.rotation),
            "bulge": abs(s.bulge),
            "bulge_side": side,
            "bulge_speed": s.bulge_at,
            "bulge_words": f"{abs(s.bulge) * 100:.0f}% to the {side}, most at about {knots:.0f} kt"
            if bulges
            else "nothing",
            "tail": s.here.push,
            "power": s.here.power,
            "model": model_words(s.outside),
        },
        s,
    )


def describe(case: Case) -> str:
    """One sentence, and where the model is left."""
    a, r, said = case.show, case.result, case.answer.results
    return (
        f"At {a('airspeed', case.number('speed'))} the stick stands {said['stick_words']} and the lever {r('lever') * 100:.0f}% up; the fuselage "
        f"flies {said['nose_words']}, {said['bank_words']}. In the hover the stick stood "
        f"{_stick_words(r('hover_forward'), r('hover_right'))}.{model_sentence(case.answer.details.outside)}"
    )


def working(case: Case) -> tuple[Step, ...]:
    """Disc, moments, pitch, hands, attitude, bulge."""
    a, r, rotor, s = case.show, case.result, case.rotor, case.answer.details
    assert isinstance(s, Stood)
    d, b = s.here.disc, s.here
    return (
        Step("The disc carries the weight and pulls against the drag: its thrust and its tilt forward against the horizon.",
             f"√({a('force', weight_of(case.number('mass')))}² + {a('force', d.drag)}²) = {a('force', d.thrust)}; "
             f"{degrees_text(d.tilt, 2)}", "disc"),
        Step("Tail rotor: it holds against the torque of the power needed.",
             f"{a('power', b.power)} / ({rotor.speed:.1f} rad/s × {a('length', fuselage_of(rotor).tail_arm)}) = {a('force', b.push)}", "tail"),
        Step("Moments about the centre of gravity fix the disc against the mast: forward tilt, and tilt toward the advancing side.",
             f"{degrees_text(b.flap.cosine, 2)}, {degrees_text(-b.flap.sine, 2)}; each degree makes "
             f"{a('moment_per_angle', d.thrust * rotor.mast_above_cg)} by the thrust and {a('moment_per_angle', hub_moment_slope(rotor))} at the "
             "hub", "moments"),
        Step("The pitch that holds the blades there: mean, and cyclic from the balance of flapping.",
             f"{degrees_text(b.pitch.mean, 2)}; {degrees_text(b.pitch.cosine, 2)} cos ψ, {degrees_text(b.pitch.sine, 2)} sin ψ"),
        Step("Through this head's rigging, to first order: lever, and stick.",
             f"{r('lever') * 100:.1f}% up; {case.answer.results['stick_words']}"),
        Step("The fuselage hangs at what is left of the tilt.",
             f"{case.answer.results['nose_words']}, {case.answer.results['bank_words']}"),
        Step("Low speed: the same with inflow that is the same everywhere; the difference is what the uneven inflow asks of the hand.",
             str(case.answer.results["bulge_words"])),
        Step("Is this inside what the model can tell?", model_sentence(s.outside).strip() or INSIDE),
    )  # fmt: skip


def drawing(case: Case) -> Drawing:
    """The gate with the path."""
    s, r = case.answer.details, case.answer.results
    assert isinstance(s, Stood)
    path = [(p.speed / KNOT_M_PER_S, p.forward, p.right) for p in s.path]
    last = path[-1][0]
    return stick_path(
        path, (case.number("speed") / KNOT_M_PER_S, s.place.forward, s.place.right), s.place.lever,
        f"The stick's gate from above, forward up the page. From the hover to {last:.0f} kt the stick goes from "
        f"{_stick_words(path[0][1], path[0][2])} to {_stick_words(path[-1][1], path[-1][2])}; at this speed it stands {r['stick_words']}, the "
        f"lever {s.place.lever * 100:.0f}% up.",
    )  # fmt: skip


def chart(case: Case) -> Chart:
    """Stick and lever over airspeed, as far as the model goes."""
    s = case.answer.details
    assert isinstance(s, Stood)
    xs = tuple(p.speed for p in s.path)
    here = case.number("speed")
    return Chart(
        "Stick and lever over airspeed", "airspeed", xs, "travel", "percent",
        (
            Line("stick forward", "hand", tuple(p.forward for p in s.path)),
            Line("stick right", "disc", tuple(p.right for p in s.path)),
            Line("stick right, inflow the same everywhere", "structure", s.even),
            Line("lever up", "pitch", tuple(p.lever for p in s.path)),
        ),
        cursor=here if here <= xs[-1] else None, every=1, x_quantity="airspeed", cursor_field="speed",
    )  # fmt: skip


CALCULATOR = Calculator(
    id="stick",
    title="Stick and speed",
    question="Where do stick and lever stand as the speed grows?",
    page="flight/stick-and-speed.md",
    inputs=(
        SPEED,
        MASS,
        *AIR,
        Number("cg_ahead", "Centre of gravity ahead of the mast", "small_length", -600, 600, (-200, 200, 5), fixed(0.0), 0,
               "negative is behind", group=HUNG),
        Number("cg_aside", "… to the right", "small_length", -300, 300, (-100, 100, 5), fixed(0.0), 0, "negative is left", group=HUNG),
        Number("mast_tilt", "Mast leans forward", "angle", -5, 10, (0, 6, 0.5), fixed(0.0), 1, group=HUNG),
        Number("moment_volume", "Nose-up moment of the fuselage over pressure", "volume", -20, 20, (-5, 5, 0.1), fixed(0.0), 1,
               "with its tailplane; 0: none", group=HUNG),
        Number("drag_below", "Drag acts below the centre of gravity", "length", -2, 3, (0, 1, 0.05), fixed(0.0), 2, group=HUNG),
        INFLOW,
    ),
    figures_first=(),
    figures=(*BLADE_FIGURES, "blade_mass_kg", "hinge_offset", "root_spring_Nm_per_rad", "drag_area_m2", "mast_above_cg_m",
             "collective_low_deg", "collective_high_deg", "cyclic_fore_aft_deg", "cyclic_left_right_deg"),
    results=(
        Result("stick_words", "Stick", "words"),
        Result("lever", "Lever up", "percent", 0),
        Result("nose_words", "Fuselage", "words"),
        Result("bank_words", "… banked", "words"),
        Result("power", "Power at the rotor, about", "power", 0),
        Result("tail", "Tail rotor pushes", "force", 0),
        Result("bulge_words", "Uneven inflow asks at most", "words"),
        Result("model", "Inside the model?", "words"),
        Result("tilt", "Disc forward against the horizon", "angle", 1, main=False),
        Result("forward", "Stick forward", "percent", 0, main=False),
        Result("right", "Stick right", "percent", 0, main=False),
        Result("hover_forward", "Stick forward in the hover", "percent", 0, main=False),
        Result("hover_right", "Stick right in the hover", "percent", 0, main=False),
        Result("hover_lean", "Disc leans against the tail rotor in the hover", "angle", 1, main=False),
        Result("hover_lean_side", "… to the", "words", main=False),
        Result("hover_bank_words", "Fuselage in the hover", "words", main=False),
        Result("hover_tail", "Tail rotor pushes in the hover", "force", 0, main=False),
        Result("hover_tail_share", "… of the weight", "percent", 0, main=False),
        Result("drift_side", "It would drift to the", "words", main=False),
        Result("bulge", "Uneven inflow, of the way from centre to stop", "percent", 0, main=False),
        Result("bulge_side", "… to the", "words", main=False),
        Result("bulge_speed", "… at about", "airspeed", 0, main=False),
    ),
    compute=compute,
    describe=describe,
    working=working,
    drawing=drawing,
    equations={
        "disc": r"T = \sqrt{W^2 + D^2},\quad \tan\tau = \frac{D}{W},\quad D = \tfrac12\rho V^2 f",
        "tail": r"T_t = \frac{P}{\Omega\,l}",
        "moments": r"\left(T h + \tfrac{N}{2} I_\beta\Omega^2(\nu^2 - 1)\right)\beta_{1c} = M_f - T d - D h_d",
    },
    limits=(
        "What hangs under the head is what you say: by default the centre of gravity straight below the hub, an upright mast, no moment of "
        "fuselage or tailplane. Real machines differ by many per cent of stick, and each in its own way.",
        "A fin that takes over from the tail rotor at speed is left out: bank and sideways stick come out 1 to 3° too large there. So is the "
        "lift of fuselage and tailplane, and sideslip.",
        "Sideways stick at low speed hangs on the model of the inflow alone and is the least certain figure.",
        "Level flight forward in steady air. Not for judging a loading: the flight manual has the limits of the centre of gravity.",
    ),
    sources=(
        "Statics of level flight; the balance of flapping (Glauert; Gessow and Myers; from memory), re-derived; the inflow's named gradients "
        "(J.G. Leishman, table 3.1; NASA TM-102219; from memory).",
        "FAA-H-8083-21B, p. 2-20 to 2-23 (read): blowback, transverse flow.",
    ),
    examples=(
        Example("20 000 N and a drag area of 1.35 m² at 100 kt, sea level: 2188 N of drag tilt the disc by 6.24° against the horizon",
                "statics, re-derived", "alder3", {"speed": "100", "mass": "2039.43242596"}, {"drag_area_m2": "1.35"},
                {"tilt": (6.2443, 1e-4)}),
    ),
    chart=chart,
)  # fmt: skip
