"""Calculator *hover*: weight, height, temperature -> collective, air driven down, power."""

import math
from contextlib import suppress
from dataclasses import dataclass, replace

from ..drawing.hover import hover_picture
from ..faults import Refused, refuse
from ..fields import Answer, Calculator, Case, Chart, Choice, Drawing, Example, Line, Result, Step, Values
from ..flight.atmosphere import density as density_at
from ..flight.hover import (
    INDUCED_FACTOR,
    MEAN_DRAG,
    disc_loading,
    pitches_of_thrusts,
    thrust_coefficient,
    uniform_inflow,
)
from ..flight.power import (
    HoverPerformance,
    estimated_power_coefficient,
    figure_of_merit,
    hover_performance,
    hovering,
    ideal_coefficient,
)
from ..flight.validity import BLADE_LOADING_MOST
from ..rotor import Rotor
from ..units import STANDARD_GRAVITY
from .flight_inputs import (
    AIR,
    BLADE_FIGURES,
    INSIDE,
    MASS,
    loaded_with,
    model_sentence,
    model_words,
    places,
    weight_of,
)

# How much higher "higher up" is, m: what a learner asks about.
HIGHER = 1000.0
_CURVES = {
    "collective-mass": ("Collective pitch over mass", "angle", "mass"),
    "collective-height": ("Collective pitch over pressure altitude", "angle", "altitude"),
    "power-mass": ("Power over mass", "power", "mass"),
    "power-height": ("Power over pressure altitude", "power", "altitude"),
}


@dataclass(frozen=True, slots=True)
class Details:
    """The hover, the head loaded so, and its power in parts and by other ways (W)."""

    found: HoverPerformance
    loaded: Rotor
    induced: float
    profile: float
    ideal: float
    estimate: float
    estimate_merit: float


def power_scale(rotor: Rotor, density: float) -> float:
    """Power (W) for a power coefficient of 1: ρ A (ΩR)³, A from the weight over its disc loading."""
    return density * rotor.weight / disc_loading(rotor) * (rotor.speed * rotor.radius) ** 3


def carried(rotor: Rotor, altitude: float, warmer: float) -> HoverPerformance:
    """The hover; what no pitch carries is the fault of the mass entered."""
    try:
        return hover_performance(rotor, rotor.weight, altitude, warmer)
    except Refused as refused:
        if any(f.field in ("weight", "density") for f in refused.faults):
            raise refuse(
                "mass",
                f"Mass carried: no blade pitch of this head carries {rotor.weight / STANDARD_GRAVITY:.0f} kg there.",
            ) from None
        raise


def compute(values: Values, rotor: Rotor) -> Answer:
    """Blade-element momentum theory at the weight in the air there; the quick estimate beside it."""
    altitude, warmer = float(values["altitude"]), float(values["warmer"])
    loaded = loaded_with(rotor, float(values["mass"]))
    found = carried(loaded, altitude, warmer)
    state = hovering(loaded, found.pitch)
    scale = power_scale(loaded, found.density)
    tip = loaded.speed * loaded.radius
    estimate = estimated_power_coefficient(found.ct, loaded.solidity)
    low, high = (loaded.head[k] for k in ("collective_low_deg", "collective_high_deg"))
    details = Details(
        found, loaded, state.cp_induced * scale, state.cp_profile * scale, ideal_coefficient(found.ct) * scale,
        estimate * scale, figure_of_merit(found.ct, estimate),
    )  # fmt: skip
    results: dict[str, float | str] = {
        "command": found.command,
        "pitch": found.pitch,
        "lever": (found.command - math.radians(low)) / math.radians(high - low),
        "power": found.power,
        "induced": uniform_inflow(found.ct) * tip,
        "merit": found.figure_of_merit,
        "blade_loading": found.blade_loading,
        "disc_loading": disc_loading(loaded),
        "model": model_words(found.outside),
        "power_induced": details.induced,
        "power_profile": details.profile,
        "power_ideal": details.ideal,
        "power_estimate": details.estimate,
        "merit_estimate": details.estimate_merit,
        "ct": found.ct,
        "density": found.density,
        "tip_mach": found.tip_mach,
    }
    # Up there it may be that nothing carries it: the two lines are left out.
    with suppress(Refused):
        above = hover_performance(loaded, loaded.weight, altitude + HIGHER, warmer)
        results |= {"higher_command": above.command - found.command, "higher_power": above.power / found.power - 1.0}
    return Answer(results, details)


def _lever_words(share: float) -> str:
    if share > 1.0:
        return "beyond the end of the lever's travel"
    if share < 0.0:
        return "below the bottom of the lever's travel"
    return f"{share * 100:.0f}% up the lever's travel"


def describe(case: Case) -> str:
    """One sentence, and where the model is left."""
    a, r = case.show, case.result
    return (
        f"To carry {a('mass', case.number('mass'), 0)} at {a('altitude', case.number('altitude'))} the plate must ask for "
        f"{a('angle', r('command'))} of pitch, {_lever_words(r('lever'))}; the air goes down through the disc at "
        f"{a('speed', r('induced'), 1)}, and the rotor takes {a('power', r('power'))}."
        f"{model_sentence(case.answer.details.found.outside)}"
    )


def working(case: Case) -> tuple[Step, ...]:
    """Thrust coefficient, induced speed, pitch, power, figure of merit, the quick estimate."""
    d, a, r = case.answer.details, case.show, case.result
    assert isinstance(d, Details)
    rotor = d.loaded
    steps = [
        Step("Thrust coefficient: the weight over what density, disc and tip speed have to offer (SI units).",
             f"{rotor.weight:.0f} / ({r('density'):.4f} × π × {rotor.radius:.2f}² × {rotor.speed * rotor.radius:.1f}²) = "
             f"{r('ct'):.5f}; over the solidity {rotor.solidity:.4f}: {r('blade_loading'):.4f}", "ct"),
        Step("Air driven down through the disc, if it were the same everywhere.",
             f"√({a('disc_loading', r('disc_loading'))} / (2 × {r('density'):.4f})) = {a('speed', r('induced'), 2)}", "induced"),
        Step("Pitch at 0.75 of the radius: forty rings of the blade, each with its own inflow and the loss at the tip, summed until "
             "they carry the weight.", a("angle", r("pitch"), 2), "ring"),
    ]  # fmt: skip
    if abs(rotor.tan_delta3) > 1e-6:
        steps.append(Step("Delta-three takes pitch off as the blades cone; the plate must ask for that besides.",
                          f"{a('angle', r('pitch'), 2)} + {a('angle', r('command') - r('pitch'), 2)} = {a('angle', r('command'), 2)}"))  # fmt: skip
    return (
        *steps,
        Step("Power of the same rings: to drive the air down, and to drag the blades through it.",
             f"{a('power', r('power_induced'), 1)} + {a('power', r('power_profile'), 1)} = {a('power', r('power'), 1)}", "power"),
        Step("Figure of merit: the least power any rotor of this size could do with, over that.",
             f"{a('power', r('power_ideal'), 1)} / {a('power', r('power'), 1)} = {r('merit'):.3f}", "merit"),
        Step(f"Quick estimate beside it, with the customary {INDUCED_FACTOR} for the losses of the inflow and a drag coefficient of "
             f"{MEAN_DRAG:.3f} (conventions, not measurements).",
             f"{a('power', r('power_estimate'), 1)}, figure of merit {r('merit_estimate'):.3f}", "estimate"),
        Step("Is this inside what the model can tell?", model_sentence(d.found.outside).strip() or INSIDE),
    )  # fmt: skip


def drawing(case: Case) -> Drawing:
    """The lever, the disc with the air going down, and the power in its two parts."""
    r = case.result
    return hover_picture(
        r("lever"), case.show("angle", r("command")), case.show("speed", r("induced"), 1),
        (r("power_induced"), r("power_profile")), case.units, case.rotor.blades,
    )  # fmt: skip


def chart(case: Case) -> Chart:
    """The curve asked for, as far as the model goes."""
    title, quantity, over = _CURVES[str(case.values["curve"])]
    d = case.answer.details
    assert isinstance(d, Details)
    mass, altitude, warmer = (case.number(n) for n in ("mass", "altitude", "warmer"))
    if over == "mass":
        xs = places("mass", 0.5 * mass, 1.4 * mass, 9, case.units)
    else:
        xs = places("altitude", 0.0, 6000.0, 8, case.units)
    states = [
        (replace(d.loaded, weight=weight_of(x)), d.found.density)
        if over == "mass"
        else (d.loaded, density_at(x, warmer))
        for x in xs
    ]
    thrusts = [thrust_coefficient(*state) for state in states]
    inside = sum(ct <= BLADE_LOADING_MOST * d.loaded.solidity for ct in thrusts)
    kept = xs[: max(inside, 2)]
    values = pitches_of_thrusts(d.loaded, thrusts[: len(kept)])
    if quantity == "power":
        values = [
            hovering(d.loaded, pitch).cp * power_scale(*state) for pitch, state in zip(values, states, strict=False)
        ]
    here = mass if over == "mass" else altitude
    reach = "" if len(kept) == len(xs) else ", as far as the model goes" if inside > 1 else ", outside the model"
    label = "mass" if over == "mass" else "pressure altitude"
    name = "power at the rotor" if quantity == "power" else "pitch of the blades at 0.75 of the radius"
    return Chart(
        title + reach, label, kept, "power" if quantity == "power" else "pitch", quantity,
        (Line(name, "hand" if quantity == "power" else "pitch", tuple(values)),),
        cursor=here if kept[0] <= here <= kept[-1] else None, every=1, x_quantity=over, cursor_field=over,
    )  # fmt: skip


CALCULATOR = Calculator(
    id="hover",
    title="Hover",
    question="How much collective and how much power does it take to hover?",
    page="flight/lift-and-collective.md",
    inputs=(
        MASS,
        *AIR,
        Choice("curve", "The chart shows",
               (("collective-mass", "collective over mass"), ("collective-height", "collective over height"),
                ("power-mass", "power over mass"), ("power-height", "power over height")), "collective-mass"),
    ),
    figures_first=(),
    figures=(*BLADE_FIGURES, "collective_low_deg", "collective_high_deg"),
    results=(
        Result("command", "Collective the plate asks for", "angle", 1),
        Result("lever", "… up the lever's travel", "percent", 0),
        Result("power", "Power at the rotor", "power", 0),
        Result("induced", "Air driven down at", "speed", 1),
        Result("merit", "Figure of merit", "ratio", 2),
        Result("disc_loading", "Disc loading", "disc_loading", 0),
        Result("blade_loading", "Blade loading", "ratio", 3),
        Result("model", "Inside the model?", "words"),
        Result("pitch", "Pitch the blades really have", "angle", 1, main=False),
        Result("power_induced", "Power to drive the air down", "power", 0, main=False),
        Result("power_profile", "Power to drag the blades", "power", 0, main=False),
        Result("power_ideal", "Least power for this disc", "power", 0, main=False),
        Result("power_estimate", "Power by the quick estimate", "power", 0, main=False),
        Result("merit_estimate", "Figure of merit by the quick estimate", "ratio", 3, main=False),
        Result("ct", "Thrust coefficient", "ratio", 5, main=False),
        Result("density", "Air density", "density", 3, main=False),
        Result("tip_mach", "Mach number of the tip", "ratio", 2, main=False),
        Result("higher_command", "Collective for 1000 m (3281 ft) more", "angle", 1, main=False),
        Result("higher_power", "Power for 1000 m (3281 ft) more", "percent", 0, main=False),
    ),
    compute=compute,
    describe=describe,
    working=working,
    drawing=drawing,
    equations={
        "ct": r"C_T = \frac{W}{\rho\,\pi R^2 (\Omega R)^2}",
        "induced": r"v_i = \sqrt{\frac{W}{2\rho A}}",
        "ring": r"\lambda(x) = \frac{\sigma a}{16F}\left(\sqrt{1 + \frac{32 F\,\theta x}{\sigma a}} - 1\right)",
        "power": r"P = \rho A (\Omega R)^3 \left(\int \lambda\,dC_T + \frac{\sigma}{2}\int c_d\,x^3\,dx\right)",
        "merit": r"\mathrm{FM} = \frac{C_T^{3/2}/\sqrt{2}}{C_P}",
        "estimate": r"C_P = \kappa\,\frac{C_T^{3/2}}{\sqrt{2}} + \frac{\sigma\,c_{d0}}{8}",
    },
    limits=(
        "Out of ground effect, no wind. Near the ground it takes less power.",
        "Power at the rotor only: tail rotor (5 to 12%), gearbox (2 to 4%) and what the downwash presses on the fuselage (3 to 6% of the "
        "weight) come on top. Not for planning a flight: the flight manual has the machine's own charts.",
        "On measured model rotors the thrust for a pitch comes out 3 to 5% off, on one of them 20%; below 6° of pitch worse.",
        "Stall and the drag rise of fast tips are not in it. The answer says when they would decide.",
    ),
    sources=(
        "Momentum and blade-element theory of the hover: J.G. Leishman, Principles of Helicopter Aerodynamics, ch. 3; A. Gessow and "
        "G.C. Myers, ch. 4 (from memory); re-derived. Drag of the section: NACA Report 716 (from memory).",
    ),
    examples=(
        Example("A disc of 6 m radius, 20 000 N at sea level: 176.8 N/m², 8.496 m/s, 169.9 kW at the least; 323.7 kW by the quick "
                "estimate, figure of merit 0.525", "momentum theory (Rankine, Froude), re-derived; 1.15 and 0.010 are conventions",
                "alder3", {"mass": "2039.43242596"},
                {"radius_m": "6", "rpm": "334.225380493", "chord_m": "0.5026548246", "hinge_offset": "0.028"},
                {"disc_loading": (176.8388, 1e-4), "induced": (8.495829, 5e-6), "power_ideal": (169.9166, 1e-4),
                 "ct": (0.003273429, 3e-9), "power_estimate": (323.710, 1e-3), "merit_estimate": (0.524904, 1e-6)}),
    ),
    chart=chart,
)  # fmt: skip
