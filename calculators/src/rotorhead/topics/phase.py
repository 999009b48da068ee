"""Calculator *phase*: the budget from stick to disc, every angle in one sum and on one rose."""

import math

from ..blade.phase import Budget, Reconciled, budget_of, buildable_offsets, needed_offset, reconcile, sum_lines
from ..conventions import HALF_TURN, bearing_words, degrees_text, offset_words
from ..drawing.rose import budget_rose
from ..fields import Answer, Calculator, Case, Choice, Drawing, Example, Number, Result, Step, Values, fixed
from ..flight.atmosphere import density
from ..rotor import Rotor
from .air_inputs import ALTITUDE

TOLD = "What I was told"
CLOSE = math.radians(3.0)


def _told(values: Values, rotor: Rotor) -> tuple[str, Reconciled, Reconciled]:
    """What would make the told offset true on a head like this one."""
    before = (values["told_side"] == "right") == (values["told_turning"] == "anticlockwise")
    offset = float(values["told_offset"]) * (1.0 if before else -1.0)
    b = budget_of(rotor)
    leading, trailing = (reconcile(offset, b.lag, b.lead, side) for side in (False, True))
    where = "before" if offset >= 0 else "after"
    told = f"{degrees_text(abs(offset), 0)} {where} the nose"
    own = trailing if rotor.trailing else leading
    fits = abs(needed_offset(b.lag, b.lead, rotor.trailing) - offset) <= CLOSE
    if fits:
        return f"{told} is what this head needs, within 3°.", leading, trailing
    ways = []
    for side, r in (("leading", leading), ("trailing", trailing)):
        if r.lead_ok:
            ways.append(f"a {side} horn with a lead of {degrees_text(r.lead, 0)}")
    if own.lag_ok:
        ways.append(f"this head's lead with a lag of {degrees_text(own.lag, 0)}")
    if ways:
        return f"{told} is not this head, but would suit {' or '.join(ways)}.", leading, trailing
    low, high = buildable_offsets(False)[0], buildable_offsets(False)[1]
    tlow, thigh = buildable_offsets(True)
    if min(low, tlow) <= offset <= max(high, thigh):
        return (
            f"{told} suits no head with this lag; it would take another lag and lead together: ask which way the rotor turns "
            "and where the angle was measured from.",
            leading,
            trailing,
        )
    return (
        f"{told} suits nothing that can be built: check the direction of turning, and whether the angle was measured at the "
        "rods or at the blade.",
        leading,
        trailing,
    )


def compute(values: Values, rotor: Rotor) -> Answer:
    """The budget, the error, and what a told angle would need."""
    air = density(float(values["altitude"]))
    b = budget_of(rotor, air, float(values["turn_rods"]))
    f = b.flapping
    inflow_error = f.lag - f.lag_inflow
    verdict, leading, trailing = _told(values, rotor)
    turning = rotor.rotation
    return Answer(
        {
            "lag": b.lag,
            "lead": b.lead,
            "horn_turn": b.horn_turn,
            "needed": b.needed,
            "needed_words": offset_words(b.needed, turning, 1),
            "fitted": b.fitted,
            "fitted_words": offset_words(b.fitted, turning, 1),
            "error": b.error,
            **({} if b.off_axis is None else {"off_axis": abs(b.off_axis)}),
            "plate_low": bearing_words(b.plate_low, 1),
            "pitch_least": bearing_words(b.pitch_least, 1),
            "disc_low": bearing_words(b.disc_low, 1),
            "lag_actual": f.lag_actual,
            "lag_inflow": f.lag_inflow,
            "inflow_cross": abs(math.tan(inflow_error)),
            "told_verdict": verdict,
            "told_lead_leading": leading.lead,
            "told_lead_trailing": trailing.lead,
        },
        b,
    )


def describe(case: Case) -> str:
    """One sentence."""
    b: Budget = case.answer.details
    r = case.answer.results
    if abs(b.needed) < math.radians(0.05):
        needs = "For the disc to go down at the nose the plate must be low exactly at the nose"
    else:
        needs = f"For the disc to go down at the nose the plate must be low {r['needed_words']}"
    if abs(b.error) <= math.radians(1.0):
        within = degrees_text(max(abs(b.error), math.radians(0.1)))
        return f"{needs}; the rods put it there, to within {within}, so stick and disc agree."
    way = "after" if b.error > 0 else "before"
    if b.off_axis is None:
        across = "hardly any of the answer goes where the stick points"
    elif abs(b.error) > HALF_TURN / 2.0:
        across = "the answer goes the wrong way"
    else:
        across = f"{case.show('percent', abs(b.off_axis), 0)} of the answer comes across"
    return (
        f"{needs}; the rods put it {r['fitted_words']}, so the disc goes down {degrees_text(abs(b.error))} {way} the nose: "
        f"{across}."
    )


def working(case: Case) -> tuple[Step, ...]:
    """Every angle of the chain, in order."""
    b: Budget = case.answer.details
    rotor, f = case.rotor, b.flapping
    horn = "behind the blade: +180°" if rotor.trailing else "ahead of the blade: 0°"
    first, second = sum_lines(b)
    return (
        Step("Lag: from least commanded pitch to the low point of the disc.",
             f"φ = atan2({f.damping:.4f}, {f.nu_squared - 1 + f.tan_delta3 * f.pitch_moment:.4f}) = {degrees_text(b.lag, 2)}", "lag"),
        Step("Lead: the link's lower end stands that far ahead of its blade on the ring.",
             f"Δ = atan2({case.show('small_length', rotor.link_foot_ahead)}, {case.show('small_length', rotor.link_foot_out)}) = "
             f"{degrees_text(b.lead, 2)}", "lead"),
        Step("Horn side: a horn behind the blade turns link-up into pitch-down.", f"H: {horn}"),
        Step("The sum: how far before the nose the plate must be low.", f"{first} {second}", "sum"),
        Step("What the machine does: rod 1 and the mixing unit.",
             f"{degrees_text(b.fitted, 2)} before the nose; left over {degrees_text(b.error, 2)}"),
        Step("What comes across when something is left over.",
             f"tan {degrees_text(abs(b.error), 2)} = {100 * abs(b.off_axis):.1f}%" if b.off_axis is not None
             else f"{degrees_text(abs(b.error), 1)}: all of it", "cross"),
        Step("Counted from the pitch the blade really has, the lag is another figure; the disc lands in the same place.",
             f"{degrees_text(f.lag_actual, 2)} from actual pitch"),
        Step("With inflow that follows the hub moment the lag is shorter; expect this much cross-coupling besides.",
             f"{degrees_text(f.lag_inflow, 2)}; tan {degrees_text(abs(f.lag - f.lag_inflow), 1)} = "
             f"{100 * case.result('inflow_cross'):.1f}%"),
    )  # fmt: skip


def drawing(case: Case) -> Drawing:
    """The budget rose."""
    return budget_rose(case.answer.details)


CALCULATOR = Calculator(
    id="phase",
    title="The phase budget",
    question="How far before the nose must the input be made on this head?",
    page="principles/control-phase.md",
    inputs=(
        Number("turn_rods", "Turn the rod set further before the nose by", "angle", -180, 180, (-60, 60, 1), fixed(0.0), 0),
        Number("altitude", ALTITUDE.label, "altitude", -500, 7000, (0, 5000, 50), fixed(0.0), 0, "standard atmosphere",
               group="Air"),
        Number("told_offset", "“The rods are off the nose by”", "angle", 0, 180, (0, 120, 1), fixed(25.0), 0, group=TOLD),
        Choice("told_side", "“… to the”", (("right", "right"), ("left", "left")), "right", group=TOLD),
        Choice("told_turning", "“… on a rotor that turns”",
               (("anticlockwise", "anticlockwise, seen from above"), ("clockwise", "clockwise, seen from above")),
               "anticlockwise", group=TOLD),
    ),
    figures_first=("hinge_offset", "horn_station_mm", "link_foot_ahead_mm"),
    figures=(
        "link_foot_out_mm", "arm_mm", "horn_rides_with_flap", "link_mm", "rods", "mixing_turn_deg", "rpm", "radius_m",
        "chord_m", "blade_mass_kg", "root_spring_Nm_per_rad",
    ),
    results=(
        Result("needed_words", "Plate must be low", "words"),
        Result("fitted_words", "Rods put it", "words"),
        Result("error", "Left over", "angle", 1),
        Result("off_axis", "Off-axis answer", "percent", 0),
        Result("lag", "Lag", "angle", 1),
        Result("lead", "Lead", "angle", 1),
        Result("horn_turn", "Horn side", "angle", 0),
        Result("plate_low", "Plate low", "words", main=False),
        Result("pitch_least", "Commanded pitch least", "words", main=False),
        Result("disc_low", "Disc low", "words", main=False),
        Result("needed", "Needed before the nose", "angle", 1, main=False),
        Result("fitted", "Fitted before the nose", "angle", 1, main=False),
        Result("lag_actual", "Lag from actual pitch", "angle", 1, main=False),
        Result("lag_inflow", "Lag with moment inflow", "angle", 1, main=False),
        Result("inflow_cross", "Cross-coupling from moment inflow", "percent", 1, main=False),
        Result("told_verdict", "What I was told", "words", main=False),
        Result("told_lead_leading", "… lead it would take, leading horn", "angle", 0, main=False),
        Result("told_lead_trailing", "… lead it would take, trailing horn", "angle", 0, main=False),
    ),
    compute=compute,
    describe=describe,
    working=working,
    drawing=drawing,
    equations={
        "lag": r"\varphi = \operatorname{atan2}\left(M_{\dot\beta},\ \nu^2 - 1 + \tan\delta_3\,M_\theta\right)",
        "lead": r"\Delta = \operatorname{atan2}\left(y_{\mathrm{foot}},\ x_{\mathrm{foot}}\right)",
        "sum": r"\varphi - \Delta + H",
        "cross": r"\frac{\text{off axis}}{\text{on axis}} = \tan(\text{left over})",
    },
    limits=(
        "First harmonics in the hover. In forward flight, or with the machine rolling or pitching, cross-coupling appears that "
        "no rod set can take out.",
        "On a hingeless head the lag is uncertain by several degrees, and with it the sum.",
        "Lead–lag hinges inboard of the horn add the blade's own lag angle to the lead; left out here.",
        "For understanding, not for rigging: the maintenance manual says where the rods belong.",
    ),
    sources=(
        "Flapping equation: W. Johnson, Helicopter Theory, ch. 5 (from memory); re-derived. The sum follows from geometry and is "
        "checked by integrating the equation of motion with exact links, without any lag or lead formula.",
    ),
    examples=(
        Example("A clockwise rotor, as common practice has it: rods left of the nose", "common practice, no source", "dogwood5",
                {}, {}, {"needed": (35.0, 5.0)}),
    ),
)  # fmt: skip
