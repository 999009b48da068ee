"""Calculator *boost*: what hydraulic help carries, where it would stall, and what the hands feel without it."""

import math

from ..drawing.boost import boost_chain
from ..fields import Answer, Calculator, Case, Choice, Drawing, Example, Number, Result, Step, Values, fixed
from ..loads.hands import LEVER_FRICTION, actuator_force, boosted, unboosted
from ..loads.rods import PlateLoad
from ..rotor import Rotor
from ..units import POUND_FORCE_N
from .load_inputs import BLADE, FIGURES, STATE, loads_of

# One hand for long: 14 CFR 25.143(d), the aeroplane rules' table (read): 10 lbf pitch, 5 lbf roll.
SUSTAINED_PULL = 10.0 * POUND_FORCE_N
SUSTAINED_SIDE = 5.0 * POUND_FORCE_N


def _has_help(values: Values, rotor: Rotor) -> bool:
    return bool(rotor.head["actuators"])


def both(newtons: float) -> str:
    """A force in newtons and pounds: '219 N (49 lbf)'."""
    gap = "\N{NARROW NO-BREAK SPACE}"
    return f"{newtons:.0f}{gap}N ({newtons / POUND_FORCE_N:.0f}{gap}lbf)".replace("-", "\N{MINUS SIGN}")


def crossing_scale(own: float, friction: float, limit: float) -> float:
    """How much larger (as a factor of every length) a similar head's hand force just meets a limit.

    With the same tip speed, disc loading and shape, link load grows with the square of size and the plate's
    travel with size, for the same travel of the hand: own·s³ + friction = limit.
    """
    return ((limit - friction) / own) ** (1.0 / 3.0) if own > 1e-9 and limit > friction else math.inf


def compute(values: Values, rotor: Rotor) -> Answer:
    """Rod load against capability; load factor and speed at which they meet; hand forces both ways."""
    loads = loads_of(values, rotor)
    head = rotor.head
    factor = float(values["load_factor"])
    peak = max(abs(x) for row in loads.rods for x in row) * factor
    systems = 2 if values["systems"] == "dual" else 1
    working = systems - (1 if values["systems"] == "dual" and values["failed"] == "one" else 0)
    capability = 0.0
    if head["actuators"]:
        capability = actuator_force(
            head["pressure_MPa"] * 1e6, head["actuator_bore_mm"] / 1000.0, head["actuator_rod_mm"] / 1000.0,
            float(values["efficiency"]),
        ) * float(values["pressure_share"]) * working  # fmt: skip
    steady = loads.steady
    pulled = PlateLoad(steady.down * factor, steady.along * factor, steady.across * factor)
    off, on = unboosted(rotor, pulled), boosted(rotor)
    friction = head["stick_friction_N"]
    scale = min(
        crossing_scale(abs(off.lever), LEVER_FRICTION * friction, SUSTAINED_PULL),
        crossing_scale(off.stick, friction, SUSTAINED_SIDE),
    )
    sustained = "within" if off.lever_felt <= SUSTAINED_PULL and off.stick_felt <= SUSTAINED_SIDE else "beyond"
    results: dict[str, float | str] = {
        "rod_peak": peak,
        "capability": capability,
        "lever_off": both(off.lever_felt),
        "stick_off": both(off.stick_felt),
        "lever_on": both(on.lever_felt) if capability else "no help fitted",
        "stick_on": both(on.stick_felt) if capability else "no help fitted",
        "lever_off_n": off.lever_felt,
        "stick_off_n": off.stick_felt,
        "wants": "down" if off.lever > 1e-9 else "up" if off.lever < -1e-9 else "neither way",
        "sustained": sustained,
    }
    if capability:
        results["margin"] = capability / peak if peak else 0.0
        results["stall_factor"] = factor * capability / peak if peak else 0.0
        results["stall_speed"] = _stall_speed(values, rotor, capability / factor)
    if math.isfinite(scale):
        results |= {"cross_radius": rotor.radius * scale, "cross_mass": head["mass_kg"] * scale**2}
    return Answer(results, (loads, off, on, capability, working))


def _stall_speed(values: Values, rotor: Rotor, capability: float) -> float | str:
    """Airspeed at which the peak rod load would meet the capability, other things equal (bisection), or words."""

    def peak(speed: float) -> float:
        return max(abs(x) for row in loads_of({**values, "speed": speed}, rotor).rods for x in row)

    low, high = 0.0, 150.0
    if peak(high) < capability:
        return "not below 290 kt"
    if peak(low) >= capability:
        return "at any speed"
    for _ in range(12):
        middle = (low + high) / 2.0
        low, high = (middle, high) if peak(middle) < capability else (low, middle)
    return f"{(low + high) / 2.0 / 0.5144444:.0f} kt"


def describe(case: Case) -> str:
    """One sentence."""
    r = case.answer.results
    capability = case.answer.details[3]
    hands = f"without it the lever would take {r['lever_off']} and the stick {r['stick_off']}, and the lever would want to go {r['wants']}"
    if not capability:
        return f"This head has no hydraulic help: the lever takes {r['lever_off']} and the stick {r['stick_off']}; the lever wants to go {r['wants']}."
    stalls = "; the rods then overcome the help" if case.result("margin") < 1.0 else ""
    return (
        f"Each actuator can push {case.show('force', capability)}; the worst rod asks {case.show('force', case.result('rod_peak'))}: "
        f"{case.result('margin'):.1f} times as much as needed{stalls}. With help the hands feel friction only; {hands}."
    )


def working(case: Case) -> tuple[Step, ...]:
    """Rod, actuator, margin, hands."""
    r, a, head = case.answer.results, case.show, case.rotor.head
    _, off, _, capability, systems = case.answer.details
    steps = [
        Step("Greatest load of any rod over the turn, times the load factor.",
             f"{a('force', case.result('rod_peak'), 1)} at a load factor of {case.number('load_factor'):g}"),
    ]  # fmt: skip
    if capability:
        steps += [
            Step("What an actuator can push on its rod side.",
                 f"{a('pressure', head['pressure_MPa'] * 1e6)} × π/4 × ({a('small_length', head['actuator_bore_mm'] / 1000)}² − "
                 f"{a('small_length', head['actuator_rod_mm'] / 1000)}²) × {case.number('efficiency'):.2f} × {systems} = "
                 f"{a('force', capability)}", "actuator"),
            Step("Margin, and the load factor or speed at which the rods would hold the actuator still (mechanism, not a limit to fly to).",
                 f"{case.result('margin'):.2f}; load factor {case.result('stall_factor'):.1f}; speed {r['stall_speed']}"),
        ]  # fmt: skip
    steps += [
        Step("Lever without help: what the rods' sum does over the plate's travel, the hand must do over the lever's.",
             f"{a('force', abs(off.lever), 1)} + friction = {r['lever_off']}; it wants to go {r['wants']}", "lever"),
        Step("Stick without help: the moment on the plate times its tilt, over half the stick's travel.",
             f"{a('force', off.stick, 1)} + friction = {r['stick_off']}", "stick"),
        Step("For comparison, the long-term figures for one hand in the aeroplane rules (14 CFR 25.143(d); no rotorcraft rule gives a figure): "
             f"{both(SUSTAINED_PULL)} fore and aft, {both(SUSTAINED_SIDE)} to a side.",
             f"this head is {r['sustained']} that" + (
                 f"; a head of its shape would cross it near a radius of {a('length', case.result('cross_radius'), 1)} and "
                 f"{a('mass', case.result('cross_mass'), 0)}" if "cross_radius" in r else "")),
    ]  # fmt: skip
    return tuple(steps)


def drawing(case: Case) -> Drawing:
    """The chain with its figures."""
    r = case.answer.results
    capability = case.answer.details[3]
    return boost_chain(
        case.rotor, str(r["lever_on"] if capability else r["lever_off"]), case.show("force", capability) if capability else "",
        case.show("force", case.result("rod_peak")), str(r["wants"]),
    )  # fmt: skip


CALCULATOR = Calculator(
    id="boost",
    title="Hydraulic help",
    question="What does hydraulic help carry, and what would the hands feel without it?",
    page="hands/hydraulics-off.md",
    inputs=(
        *STATE,
        Number("load_factor", "Load factor", "ratio", 0.1, 5, (0.1, 4, 0.1), fixed(1.0), 1, "link loads taken to grow with it"),
        Choice("systems", "Hydraulic systems", (("single", "one"), ("dual", "two on each rod")), "single", group="The help",
               applies=_has_help),
        Choice("failed", "Working", (("none", "all"), ("one", "one of two has failed")), "none", group="The help",
               applies=lambda values, rotor: bool(rotor.head["actuators"]) and values["systems"] == "dual"),
        Number("pressure_share", "Pressure, of its full value", "percent", 0, 120, (0, 120, 1), fixed(100.0), 0, group="The help",
               applies=_has_help),
        Number("efficiency", "Efficiency of an actuator", "ratio", 0.1, 1, (0.5, 1, 0.01), fixed(0.9), 2, group="The help",
               applies=_has_help),
        *BLADE,
    ),
    figures_first=(),
    figures=("actuators", "pressure_MPa", "actuator_bore_mm", "actuator_rod_mm", "stick_friction_N", "lever_travel_mm",
             "stick_travel_mm", *FIGURES, "rods"),
    results=(
        Result("lever_off", "Lever, help off", "words"),
        Result("stick_off", "Stick, help off", "words"),
        Result("lever_on", "Lever, help on", "words"),
        Result("stick_on", "Stick, help on", "words"),
        Result("wants", "Lever wants to go", "words"),
        Result("rod_peak", "Worst rod asks", "force", 0),
        Result("capability", "An actuator can push", "force", 0),
        Result("margin", "Margin", "ratio", 2),
        Result("stall_factor", "Rods would hold it still at a load factor of", "ratio", 1, main=False),
        Result("stall_speed", "… or at a speed of", "words", main=False),
        Result("sustained", "Long term, one hand (aeroplane rules' figures)", "words", main=False),
        Result("cross_radius", "A similar head crosses it at a radius of", "length", 1, main=False),
        Result("cross_mass", "… and a mass of", "mass", 0, main=False),
        Result("lever_off_n", "Lever, help off", "force", 1, main=False),
        Result("stick_off_n", "Stick, help off", "force", 1, main=False),
    ),
    compute=compute,
    describe=describe,
    working=working,
    drawing=drawing,
    equations={
        "actuator": r"F = p\,\frac{\pi}{4}\left(D^2 - d^2\right)\eta",
        "lever": r"F_{\mathrm{lever}} = \frac{\Delta z}{s_{\mathrm{lever}}}\sum R_i",
        "stick": r"F_{\mathrm{stick}} = \frac{M\tan\tau}{s_{\mathrm{stick}}/2}",
    },
    limits=(
        "Mechanism and size of the forces, not a procedure: the flight manual and training in type decide what is done.",
        "Steady rod loads and two waves of air load; springs, bob weights and trim are left out. Link loads are taken to grow with load factor.",
        "Structural rules (14 CFR 27.395, 27.397) give the forces parts must withstand, not what a pilot should have to hold.",
    ),
    sources=(
        "Actuator: pressure times area.",
        "14 CFR 27.395, 27.397, 27.695 (read): structural and system rules, quoted on the page. 14 CFR 25.143(d) (read): aeroplane rule.",
    ),
    examples=(
        Example("1000 psi, 1.0 in bore, 0.5 in rod, no losses: 589 lbf", "pressure times area", "alder3", {"efficiency": "1"},
                {"pressure_MPa": "6.894757293", "actuator_bore_mm": "25.4", "actuator_rod_mm": "12.7"}, {"capability": (2620.219, 2e-3)}),
    ),
)  # fmt: skip
