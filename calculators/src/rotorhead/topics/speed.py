"""Calculator *speed*: airspeed -> what the two sides meet, how the blades flap, angle of attack over the disc."""

import math
from dataclasses import dataclass
from functools import lru_cache

from ..conventions import TURN, bearing_of, bearing_words, degrees_text
from ..disc_field import DiscField, by_bearing, field_html, field_table_html, key_html
from ..drawing.sections import two_sections
from ..faults import Refused
from ..fields import Answer, Calculator, Case, Chart, Choice, Drawing, Example, Line, Result, Step, Values
from ..flight.balance import balance
from ..flight.disc_map import DiscMap, advancing_tip_mach, disc_map, pressure_ratio, reversed_circle, section_at
from ..flight.flapper import Flap, FlapBlade, Pitch
from ..flight.held import Held, hands_held, unflapped_lift
from ..flight.inflow import Stream, stream
from ..flight.trim import balanced, hands_for, hands_marks, stall_onset
from ..flight.validity import STALL_ANGLE, STALL_SHARE, Mark, checked_advance, flap_mark, stall_mark
from ..rotor import Rotor
from ..units import tidy
from .flight_inputs import (
    AIR,
    BLADE_FIGURES,
    INFLOW,
    INSIDE,
    MASS,
    SPEED,
    air_of,
    aside_words,
    back_words,
    blamed,
    loaded_with,
    model_sentence,
    model_words,
)

QUARTER = TURN / 4.0
STATION = 0.75
LEVELS = (0.0, 3.0, 6.0, 9.0, round(math.degrees(STALL_ANGLE), 1))
_TURN_STEPS = 36


@dataclass(frozen=True, slots=True)
class Flown:
    """The state shown: air, pitch, flapping, map; what the hands would give if they stayed; where the model is left."""

    loaded: Rotor
    blade: FlapBlade
    air: Stream
    pitch: Pitch
    flap: Flap
    map: DiscMap
    held: Held
    outside: tuple[Mark, ...]


@lru_cache(maxsize=32)
def _onset(rotor: Rotor, density: float, model: str) -> float | None:
    try:
        return stall_onset(rotor, density, model=model)
    except Refused:
        # So light that the disc would have to stand on edge before the model's fastest: no speed to name.
        return None


def _flown(values: Values, rotor: Rotor) -> Flown:
    speed, model = float(values["speed"]), str(values["inflow"])
    loaded = loaded_with(rotor, float(values["mass"]))
    density, sound = air_of(values)
    held = hands_held(loaded, speed, density, sound, model)
    if values["hands"] == "held":
        found = disc_map(held.blade, held.air, held.pitch, held.flap)
        marks = (*held.outside, *stall_mark(found.stalled))
        return Flown(loaded, held.blade, held.air, held.pitch, held.flap, found, held, marks)
    b = balanced(loaded, speed, density, None, model, sound)
    found = disc_map(b.blade, b.air, b.pitch, b.flap)
    marks = (
        *b.disc.outside, *stall_mark(found.stalled), *flap_mark((b.flap.coning,)), *hands_marks(*hands_for(loaded, b.pitch)),
    )  # fmt: skip
    return Flown(loaded, b.blade, b.air, b.pitch, b.flap, found, held, marks)


def compute(values: Values, rotor: Rotor) -> Answer:
    """Level flight, or the hover's hands in the air of that speed."""
    f = blamed(lambda: _flown(values, rotor), values)
    speed, model = float(values["speed"]), str(values["inflow"])
    density, sound = air_of(values)
    tip_speed = rotor.speed * rotor.radius
    mu = checked_advance(speed / tip_speed)
    # Cyclic that holds the disc square to an upright mast at this speed.
    edgewise = stream(f.held.ct / f.held.thrust_ratio, mu, 0.0, model)
    square, _ = balance(f.blade, edgewise).pitch_for(f.held.ct / f.held.thrust_ratio, 0.0, 0.0)
    lifts = [unflapped_lift(f.blade, f.air, f.pitch.mean, psi) for psi in (QUARTER, 3.0 * QUARTER)]
    station, azimuth = f.map.greatest_at
    results: dict[str, float | str] = {
        "mu": mu,
        "advancing": tip_speed + speed,
        "retreating": tip_speed - speed,
        "pressure_ratio": pressure_ratio(STATION, mu),
        "reversed": mu * rotor.radius,
        "coning": f.flap.coning,
        "back": -f.flap.cosine,
        "aside_words": aside_words(rotor, -f.flap.sine),
        "held_back": f.held.back,
        "held_aside_words": aside_words(rotor, f.held.toward_advancing),
        "held_tilt_words": f"{back_words(f.held.back)} and {aside_words(rotor, f.held.toward_advancing)}",
        "held_thrust": f.held.thrust_ratio,
        "needed_forward": -square.sine,
        "needed_aside_words": aside_words(rotor, -square.cosine),
        "alpha_advancing": f.map.advancing,
        "alpha_retreating": f.map.retreating,
        "greatest": f.map.greatest,
        "greatest_where": f"{bearing_words(bearing_of(azimuth, rotor.rotation))}, {station:.2f} of the way out",
        "stalled": f.map.stalled,
        "tip_mach": advancing_tip_mach(tip_speed, speed, sound),
        "model": model_words(f.outside),
        "inflow": f.air.total,
        "gradient": f.air.kx,
    }
    if lifts[1] > 0.05 * lifts[0]:
        results["unflapped_ratio"] = lifts[0] / lifts[1]
    onset = _onset(f.loaded, density, model)
    if onset is not None:
        results["stall_speed"] = onset
    return Answer(results, f)


def describe(case: Case) -> str:
    """One sentence, and where the model is left."""
    a, r, f = case.show, case.result, case.answer.details
    assert isinstance(f, Flown)
    said = case.answer.results
    sides = (
        f"At {a('airspeed', case.number('speed'))} the advancing tip meets the air at {a('speed', r('advancing'))}, the retreating tip at "
        f"{a('speed', r('retreating'))}"
    )
    if case.values["hands"] == "held":
        text = (
            f"{sides}; with the hands kept as in the hover the disc tilts {said['held_tilt_words']}, and the blades lift "
            f"{r('held_thrust'):.2f} times the weight."
        )
    else:
        text = (
            f"{sides}. Level flight takes {degrees_text(abs(f.pitch.sine))} of cyclic pitch {'forward' if f.pitch.sine <= 0.0 else 'back'} "
            f"and {aside_words(case.rotor, -f.pitch.cosine)}; the angle of attack at the tip is then {a('angle', r('alpha_advancing'))} on the "
            f"advancing side and {a('angle', r('alpha_retreating'))} on the retreating one."
        )
    return text + model_sentence(f.outside)


def working(case: Case) -> tuple[Step, ...]:
    """Advance ratio, pressures, reversed flow, inflow, balance of flapping, angles of attack."""
    a, r, f, rotor = case.show, case.result, case.answer.details, case.rotor
    assert isinstance(f, Flown)
    tip_speed = rotor.speed * rotor.radius
    retreating = section_at(f.blade, f.air, f.pitch, f.flap, 1.0, 3.0 * QUARTER)
    return (
        Step("Advance ratio: airspeed over tip speed.",
             f"{a('speed', case.number('speed'), 1)} / {a('speed', tip_speed, 1)} = {r('mu'):.4f}", "mu"),
        Step("Dynamic pressure at three quarters of the radius, advancing over retreating.",
             f"((0.75 + {r('mu'):.3f}) / (0.75 − {r('mu'):.3f}))² = {r('pressure_ratio'):.2f}", "ratio"),
        Step("Inside this circle on the retreating side the air comes from behind: its diameter is the advance ratio times the radius.",
             f"{r('mu'):.3f} × {a('length', rotor.radius)} = {a('length', r('reversed'))}"),
        Step("Inflow through the hub's plane, over tip speed, and how much more of it there is toward the tail.",
             f"λ = {tidy(f.air.total, 4)}, of it induced {f.air.induced:.4f}; kx = {tidy(f.air.kx, 3)}, ky = {tidy(f.air.ky, 3)}", "inflow"),
        Step("Flapping: lift's moment round the turn brought into balance with what pulls the blade straight, harmonic by harmonic, from pitch "
             f"{degrees_text(f.pitch.mean, 2)}, cyclic {degrees_text(f.pitch.cosine, 2)} (cos ψ) and {degrees_text(f.pitch.sine, 2)} (sin ψ).",
             f"β₀ = {degrees_text(f.flap.coning, 2)}, β₁c = {degrees_text(f.flap.cosine, 2)}, β₁s = {degrees_text(f.flap.sine, 2)}", "flap"),
        Step("The hands kept as in the hover, mast upright: the disc from where it stood then.",
             f"{case.answer.results['held_tilt_words']}; lift {f.held.thrust_ratio:.2f} times the weight"),
        Step("Cyclic pitch that would hold the disc square to an upright mast.",
             f"{a('angle', r('needed_forward'), 2)} forward, {case.answer.results['needed_aside_words']}"),
        Step("Angle of attack of the tip straight out on the retreating side: pitch less the slope of the air.",
             f"{degrees_text(retreating.pitch, 2)} − atan({tidy(retreating.through, 4)} / {retreating.along:.4f}) = "
             f"{a('angle', r('alpha_retreating'), 2)}", "alpha"),
        Step("Is this inside what the model can tell?", model_sentence(f.outside).strip() or INSIDE),
    )  # fmt: skip


def drawing(case: Case) -> Drawing:
    """Sections at three quarters of the radius on the two sides."""
    f = case.answer.details
    assert isinstance(f, Flown)
    both = [section_at(f.blade, f.air, f.pitch, f.flap, STATION, psi) for psi in (QUARTER, 3.0 * QUARTER)]
    return two_sections(case.rotor, both[0], both[1], case.units)


def field(case: Case) -> DiscField:
    """Angle of attack over the disc, degrees."""
    f = case.answer.details
    assert isinstance(f, Flown)
    rows = tuple(
        tuple(None if v is None else round(math.degrees(v), 1) for v in by_bearing(row, case.rotor.rotation))
        for row in f.map.angles
    )
    circle = reversed_circle(f.air.mu)
    none = (
        (
            round(circle.distance, 4),
            round(math.degrees(bearing_of(circle.azimuth, case.rotor.rotation))) % 360,
            round(circle.diameter, 4),
        )
        if circle.diameter
        else None
    )
    return DiscField(
        "Angle of attack over the disc", case.rotor.rotation, f.map.radii, rows, LEVELS, none, "air from behind: no angle to speak of",
    )  # fmt: skip


def field_words(case: Case) -> str:
    """What the picture shows, its key, and its values."""
    r, said = case.result, case.answer.results
    shown = field(case)
    return (
        f'{key_html(shown)}<p class="hd-caption">Angle of attack over the disc, seen from above, nose at the top, turning '
        f"{case.rotor.rotation}: greatest {case.show('angle', r('greatest'))}, {said['greatest_where']}; {r('stalled') * 100:.0f}% of the "
        f"area above {math.degrees(STALL_ANGLE):.0f}°.</p>"
        f'<details class="hd-values"><summary>Table of angles</summary>{field_table_html(shown)}</details>'
    )


def chart(case: Case) -> Chart:
    """Flap angle, or angle of attack, round a turn."""
    f = case.answer.details
    assert isinstance(f, Flown)
    xs = [TURN * i / _TURN_STEPS for i in range(_TURN_STEPS + 1)]
    x = tuple(math.degrees(psi) for psi in xs)
    label = "degrees of the turn, from the tail"
    if case.values["curve"] == "flap":

        def flap(of: Flap) -> tuple[float, ...]:
            return tuple(of.coning + of.cosine * math.cos(psi) + of.sine * math.sin(psi) for psi in xs)

        lines = (Line("at this speed", "disc", flap(f.flap)), Line("in the hover", "structure", flap(f.held.hover)))
        return Chart("Flap angle against the mast round a turn", label, x, "flap angle", "angle", lines)
    angles = tuple(
        Line(name, role, tuple(section_at(f.blade, f.air, f.pitch, f.flap, at, psi).angle for psi in xs))
        for name, role, at in (("at three quarters of the radius", "pitch", STATION), ("at the tip", "disc", 1.0))
    )  # fmt: skip
    return Chart("Angle of attack round a turn", label, x, "angle of attack", "angle", angles)


CALCULATOR = Calculator(
    id="speed",
    title="Forward speed",
    question="What does forward speed do to the blades?",
    page="flight/dissymmetry.md",
    inputs=(
        SPEED,
        Choice("hands", "The hands", (("trimmed", "where level flight wants them"), ("held", "kept as in the hover")), "trimmed"),
        Choice("curve", "The chart shows", (("flap", "flap angle"), ("attack", "angle of attack")), "flap"),
        MASS,
        *AIR,
        INFLOW,
    ),
    figures_first=(),
    figures=(*BLADE_FIGURES, "blade_mass_kg", "hinge_offset", "root_spring_Nm_per_rad", "drag_area_m2", "mast_above_cg_m"),
    results=(
        Result("mu", "Advance ratio", "ratio", 3),
        Result("advancing", "Air at the advancing tip", "speed", 0),
        Result("retreating", "Air at the retreating tip", "speed", 0),
        Result("pressure_ratio", "Pressure, advancing over retreating, at 0.75 of the radius", "ratio", 1),
        Result("back", "Disc against the mast, back", "angle", 1),
        Result("aside_words", "… sideways", "words"),
        Result("held_tilt_words", "With the hover’s hands", "words"),
        Result("alpha_retreating", "Angle of attack, retreating tip", "angle", 1),
        Result("alpha_advancing", "… advancing tip", "angle", 1),
        Result("stall_speed", "Stall would spread from about (indication)", "airspeed", 0),
        Result("tip_mach", "Mach number of the advancing tip", "ratio", 2),
        Result("model", "Inside the model?", "words"),
        Result("reversed", "Across the circle of reversed flow", "length", 2, main=False),
        Result("unflapped_ratio", "Lift of an advancing over a retreating blade that can’t flap", "ratio", 1, main=False),
        Result("coning", "Coning", "angle", 1, main=False),
        Result("held_back", "With the hover’s hands, back by", "angle", 1, main=False),
        Result("held_aside_words", "… sideways", "words", main=False),
        Result("held_thrust", "… lift over weight", "ratio", 2, main=False),
        Result("needed_forward", "Cyclic that holds the disc square to the mast, forward", "angle", 1, main=False),
        Result("needed_aside_words", "… sideways", "words", main=False),
        Result("greatest", "Greatest angle of attack", "angle", 1, main=False),
        Result("greatest_where", "… stands", "words", main=False),
        Result("stalled", f"Share of the area above {math.degrees(STALL_ANGLE):.0f}°", "percent", 0, main=False),
        Result("inflow", "Inflow over tip speed", "ratio", 4, main=False),
        Result("gradient", "… more of it toward the tail (kx)", "ratio", 2, main=False),
    ),
    compute=compute,
    describe=describe,
    working=working,
    drawing=drawing,
    equations={
        "mu": r"\mu = \frac{V}{\Omega R}",
        "ratio": r"\frac{q_a}{q_r} = \left(\frac{x + \mu}{x - \mu}\right)^2",
        "inflow": r"\lambda = \mu\tan\alpha_h + \frac{C_T}{2\sqrt{\mu^2 + \lambda^2}}",
        "flap": r"\beta'' + \nu^2\beta = \frac{\gamma}{2}\int (x-e)\left(U_T^2\theta - U_T U_P\right)dx",
        "alpha": r"\alpha = \theta - \arctan\frac{U_P}{U_T}",
    },
    limits=(
        "First harmonics of flapping, stiff blades, steady air. Lift keeps growing with angle here: stall and the drag rise are not in it; "
        "the answer says when they would decide.",
        f"“Stall would spread” is the speed at which more than {STALL_SHARE * 100:.0f}% of the area passes {math.degrees(STALL_ANGLE):.0f}°: "
        "an indication for comparing, never a limit of a machine.",
        "Sideways flapping at low speed hangs on the model of the inflow and is the least certain figure: compare the named ones.",
        "Blades’ drag in the plane of the disc is left out (0.3 to 0.6° more tilt at speed). Advance ratios above 0.40 are refused.",
    ),
    sources=(
        "H. Glauert, R&M 1111 (abstract read); A. Gessow and G.C. Myers; W. Johnson, Helicopter Theory, ch. 5; J.G. Leishman, ch. 3 (from "
        "memory); re-derived and checked by integration.",
        "FAA-H-8083-21B, p. 2-19 to 2-23 (read): dissymmetry of lift, blowback, transverse flow.",
    ),
    examples=(
        Example("Advance ratio 0.3: the pressure at three quarters of the radius is 5.444 times as great on the advancing side; the circle of "
                "reversed flow is 0.3 of the radius across", "geometry, re-derived", "alder3", {"speed": "122.46220302"},
                {"radius_m": "6", "rpm": "334.225380493", "hinge_offset": "0.028"},
                {"pressure_ratio": (5.444444, 1e-5), "reversed": (1.8, 1e-6), "mu": (0.3, 1e-8)}),
    ),
    chart=chart,
    extra={"field": lambda case: field_html(field(case)), "field_words": field_words},
)  # fmt: skip
