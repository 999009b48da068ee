"""Calculator *coning*: weight or pitch, and rotor speed -> how far the blades stand up, and what pulls them straight."""

import math
from contextlib import suppress
from dataclasses import dataclass, replace

from ..blade.flap import blade_pull, flap_frequency_squared
from ..drawing.coning import coned_rotor
from ..faults import Refused, refuse
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
from ..flight.coning import coning_from_pitch, coning_from_thrust, holds_precone, lift_lever
from ..flight.hover import hover_pitch, thrust_coefficient, uniform_inflow
from ..flight.power import carrying
from ..flight.validity import Mark, flap_mark, loading_mark, stall_mark
from ..rotor import SEA_LEVEL_DENSITY, Rotor
from ..units import STANDARD_GRAVITY
from .flight_inputs import BLADE_FIGURES, INSIDE, MASS, model_sentence, model_words, rpm, weight_of

# A small car, for the comparison: round figure, no source.
CAR_KG = 1000.0
SLOW = 0.9
_SHARES = tuple(0.7 + 0.02 * i for i in range(21))


def _from_weight(values: Values, rotor: Rotor) -> bool:
    return values["source"] == "weight"


def _from_pitch(values: Values, rotor: Rotor) -> bool:
    return values["source"] == "pitch"


@dataclass(frozen=True, slots=True)
class Cone:
    """One rotor speed: coning of a blade free on its hinge, by lift and spring alone, and by the weight (all rad)."""

    free: float
    lifted: float
    weighed: float


def cone(values: Values, rotor: Rotor, share: float) -> Cone:
    """Coning at `share` of the head's rotor speed, thrust (or pitch and inflow) held."""
    at = replace(rotor, speed=rotor.speed * share)
    nu_squared = flap_frequency_squared(at.hinge_offset, at.root_spring, at.flap_inertia, at.speed)
    scale = at.flap_inertia * at.speed**2 * nu_squared
    weighed = at.flap_static_moment * STANDARD_GRAVITY / scale
    if _from_pitch(values, rotor):
        free = coning_from_pitch(at, float(values["pitch"]), float(values["inflow"]))
        return Cone(free, free + weighed, weighed)
    lifted = coning_from_thrust(
        weight_of(float(values["mass"])), at.blades, float(values["lift_centre"]) * at.radius - at.hinge, at.flap_inertia,
        at.speed, 0.0, nu_squared, at.root_spring * at.precone,
    )  # fmt: skip
    return Cone(lifted - weighed, lifted, weighed)


def _carried(values: Values, rotor: Rotor, share: float, coning: float) -> tuple[float, tuple[Mark, ...]]:
    """Pitch (rad) that holds thrust at a rotor speed, and whether it stalls the blades; what none carries is the speed's fault."""
    slow = replace(rotor, speed=rotor.speed * share, weight=weight_of(float(values["mass"])))
    try:
        pitch, state = carrying(slow, SEA_LEVEL_DENSITY)
    except Refused:
        raise refuse(
            "rotor_speed",
            f"Rotor speed: at {share * 100:.0f}% no blade pitch of this head carries {float(values['mass']):.0f} kg.",
        ) from None
    loading = thrust_coefficient(slow) / slow.solidity
    return pitch, (*loading_mark(loading), *stall_mark(state.stalled), *flap_mark((coning,)))


def compute(values: Values, rotor: Rotor) -> Answer:
    """Coning, pull, and both at nine tenths of the normal rotor speed."""
    share = float(values["rotor_speed"])
    here, slow, full = (cone(values, rotor, s) for s in (share, SLOW, 1.0))
    at = replace(rotor, speed=rotor.speed * share)
    pull = blade_pull(at)
    fixed_cone = holds_precone(rotor)
    coning = rotor.precone if fixed_cone else here.free
    results: dict[str, float | str] = {
        "coning": coning,
        "tip_rise": (rotor.radius - rotor.hinge) * math.sin(coning),
        "pull": pull,
        "cars": pull / (CAR_KG * STANDARD_GRAVITY),
        "free": here.free,
        "lifted": here.lifted,
        "weighed": here.weighed,
        "rpm": at.speed,
        "slow_coning": rotor.precone if fixed_cone else slow.free,
        "slow_free": slow.free,
        "slow_times": slow.lifted / full.lifted if full.lifted else 0.0,
        "slow_pull": pull * (SLOW / share) ** 2,
    }
    marks = flap_mark((coning,))
    if _from_weight(values, rotor):
        pitch, marks = _carried(values, rotor, share, coning)
        results["needed"] = pitch
        # At nine tenths it may be that nothing carries it: the line is left out.
        with suppress(Refused):
            results["slow_needed"] = _carried(values, rotor, SLOW, coning)[0]
        lift = weight_of(float(values["mass"])) / rotor.blades
        results |= {"lift": lift, "pull_over_lift": pull / lift}
    results["model"] = model_words(marks)
    return Answer(results, (fixed_cone, marks))


def describe(case: Case) -> str:
    """One sentence, and where the model is left."""
    a, r = case.show, case.result
    fixed_cone, marks = case.answer.details
    speed = f"At {a('turn_rate', r('rpm'))}"
    pulled = (
        f"each is pulled outward with {a('pull', r('pull'))}, the weight of {r('cars'):.0f} small cars of one tonne"
    )
    if fixed_cone:
        stand = (
            f"{speed} the blades stand up by the {a('angle', r('coning'))} built into the hub (free on a hinge they would stand at "
            f"{a('angle', r('free'))}; bending makes up the difference), and {pulled}; at 90% of the normal rotor speed the free "
            f"blade would stand at {a('angle', r('slow_free'))}."
        )
    else:
        stand = (
            f"{speed} the blades stand up by {a('angle', r('coning'))}, and {pulled}; at 90% of the normal rotor speed they would "
            f"stand at {a('angle', r('slow_coning'))}."
        )
    return stand + model_sentence(marks)


def working(case: Case) -> tuple[Step, ...]:
    """Pull, lift, balance, weight, droop."""
    a, r, rotor = case.show, case.result, case.rotor
    speed = rotor.speed * case.number("rotor_speed")
    nu_squared = flap_frequency_squared(rotor.hinge_offset, rotor.root_spring, rotor.flap_inertia, speed)
    steps = [
        Step("Pull at the hinge: every bit of the blade times its distance from the mast times the square of rotor speed (SI units).",
             f"{rotor.blade_mass:.1f} × {speed:.2f}² × ({rotor.radius:.2f} + {rotor.hinge:.3f})/2 = {a('pull', r('pull'), 1)}", "pull"),
    ]  # fmt: skip
    if case.values["source"] == "weight":
        lever = case.number("lift_centre") * rotor.radius - rotor.hinge
        steps.append(Step(
            "Coning: lift's moment about the hinge over what pulls the blade straight (SI units).",
            f"({r('lift'):.0f} × {lever:.3f} + {rotor.root_spring * rotor.precone:.0f}) / ({rotor.flap_inertia:.1f} × {speed:.2f}² × "
            f"{nu_squared:.4f}) = {a('angle', r('lifted'), 2)}", "thrust"))  # fmt: skip
    else:
        steps.append(Step(
            "Coning from pitch and even inflow, without the blade’s weight; twist and the hinge’s distance counted in.",
            f"γ = {rotor.lock_number():.3f}, ν² = {nu_squared:.4f}: {a('angle', r('lifted'), 2)}", "pitch"))  # fmt: skip
    steps += [
        Step("The blade’s own weight takes a little off.",
             f"{a('angle', r('lifted'), 2)} − {a('angle', r('weighed'), 2)} = {a('angle', r('free'), 2)}"),
        Step("At 90% of the normal rotor speed, lift and all else held, against 100%.",
             f"1/0.9² = 1.235 without a spring; this head {r('slow_times'):.3f}", "droop"),
        Step("Is this inside what the model can tell?", model_sentence(case.answer.details[1]).strip() or INSIDE),
    ]  # fmt: skip
    if case.answer.details[0]:
        steps.insert(
            3, Step("A teetering hub holds its precone, whatever the free blade would do.", a("angle", r("coning"), 2))
        )
    return tuple(steps)


def drawing(case: Case) -> Drawing:
    """The rotor from the side, coned."""
    return coned_rotor(case.rotor, case.result("coning"), case.show("pull", case.result("pull")), case.units)


def chart(case: Case) -> Chart:
    """Coning over rotor speed, thrust (or pitch) held; a hub that holds its cone beside the free blade."""
    rotor = case.rotor
    cones = [cone(case.values, rotor, s).free for s in _SHARES]
    free = "a blade free on its hinge" if case.answer.details[0] else "coning"
    lines = [Line(free, "disc", tuple(cones))]
    if case.answer.details[0]:
        lines.append(Line("held by the hub", "structure", (rotor.precone,) * len(cones)))
    here = case.number("rotor_speed")
    return Chart(
        f"Coning over rotor speed, normal {rpm(rotor):.0f} rpm", "rotor speed", _SHARES, "coning", "angle", tuple(lines),
        cursor=here if _SHARES[0] <= here <= _SHARES[-1] else None, every=5, x_quantity="percent", cursor_field="rotor_speed",
    )  # fmt: skip


CALCULATOR = Calculator(
    id="coning",
    title="Coning",
    question="How far do the blades stand up, and what pulls them straight?",
    page="flight/coning.md",
    inputs=(
        Number("rotor_speed", "Rotor speed, of the normal", "percent", 50, 130, (70, 110, 1), fixed(100.0), 0),
        Choice("source", "Worked out from", (("weight", "the weight carried"), ("pitch", "pitch and inflow")), "weight"),
        replace(MASS, applies=_from_weight),
        Number("lift_centre", "Lift acts at, of the radius", "ratio", 0.5, 0.9, (0.6, 0.85, 0.005),
               lambda rotor: round((lift_lever(rotor) + rotor.hinge) / rotor.radius, 3), 3,
               "default: from the hover; 2/3 and 3/4 are the textbooks’", applies=_from_weight),
        Number("pitch", "Pitch at 0.75 of the radius", "angle", 0, 25, (0, 16, 0.1),
               lambda rotor: round(math.degrees(hover_pitch(rotor)[0]), 1), 1, applies=_from_pitch),
        Number("inflow", "Inflow over tip speed, even", "ratio", -0.1, 0.2, (0, 0.1, 0.001),
               lambda rotor: round(uniform_inflow(thrust_coefficient(rotor)), 4), 4, applies=_from_pitch),
    ),
    figures_first=(),
    figures=(*BLADE_FIGURES, "blade_mass_kg", "hinge_offset", "root_spring_Nm_per_rad", "precone_deg"),
    results=(
        Result("coning", "Coning", "angle", 1),
        Result("tip_rise", "Tips stand higher than the hinge by", "length", 2),
        Result("pull", "Pull of one blade on its root", "pull", 0),
        Result("cars", "… as the weight of so many cars of one tonne", "ratio", 0),
        Result("lift", "Lift of one blade", "force", 0),
        Result("pull_over_lift", "Pull over lift", "ratio", 0),
        Result("slow_coning", "Coning at 90% rotor speed", "angle", 1),
        Result("needed", "Pitch that carries the weight", "angle", 1),
        Result("slow_needed", "… at 90% rotor speed", "angle", 1),
        Result("model", "Inside the model?", "words"),
        Result("free", "Coning of a blade free on its hinge", "angle", 1, main=False),
        Result("lifted", "… without the blade’s weight", "angle", 2, main=False),
        Result("weighed", "The blade’s weight takes off", "angle", 2, main=False),
        Result("slow_free", "Free blade at 90% rotor speed", "angle", 1, main=False),
        Result("slow_times", "Lift’s coning at 90%, times that at 100%", "ratio", 2, main=False),
        Result("slow_pull", "Pull at 90% rotor speed", "pull", 0, main=False),
        Result("rpm", "Rotor speed", "turn_rate", 0, main=False),
    ),
    compute=compute,
    describe=describe,
    working=working,
    drawing=drawing,
    equations={
        "pull": r"F = \Omega^2\int r\,dm = m\,\Omega^2\,\frac{R + eR}{2}",
        "thrust": r"\beta_0 = \frac{\frac{T}{N}\,r_L + K_\beta\beta_p}{I_\beta\,\Omega^2\,\nu^2}",
        "pitch": r"\beta_0 = \frac{\gamma}{8\,\nu^2}\left(\theta_0 - \frac{4}{3}\lambda\right)\ \text{for}\ e = 0",
        "droop": r"\beta_0 \propto \frac{T}{\Omega^2}",
    },
    limits=(
        "A straight, rigid blade. A real one bends, and the pull straightens its outer part: real tips ride a little lower.",
        "A teetering hub holds its precone; what its blades bend besides isn’t worked out.",
        "Thrust is held as the rotor slows. A real rotor that slows sinks, or needs more pitch than there is.",
    ),
    sources=(
        "FAA-H-8083-21B, p. 2-16 (read): coning, and much more of it at low rotor speed.",
        "W. Johnson, Helicopter Theory, ch. 5 (from memory); re-derived.",
    ),
    examples=(
        Example("20 000 N on four blades of 6 m and 800 kg·m² at 35 rad/s, lift at 0.75 R: 1.315°", "statics, re-derived", "alder3",
                {"mass": "2039.43242596", "lift_centre": "0.75"},
                {"blades": "4", "radius_m": "6", "hinge_offset": "0", "blade_mass_kg": "66.6666667", "rpm": "334.225380493"},
                {"lifted": (1.31546, 5e-6), "weighed": (0.10320 * 66.6666667 / 60.0, 5e-6), "slow_times": (1.234568, 5e-7)}),
        Example("Pitch 8°, inflow 0.05, Lock number 8, hinge at the mast: 4.180° without weight", "textbooks (from memory), re-derived",
                "alder3", {"source": "pitch", "pitch": "8", "inflow": "0.05"},
                {"hinge_offset": "0", "twist_deg": "0", "blade_mass_kg": "26.414842"}, {"lifted": (4.18028, 1e-5)}),
    ),
    chart=chart,
)  # fmt: skip
