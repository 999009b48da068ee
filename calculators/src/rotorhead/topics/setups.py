"""Calculator *setups*: four sets of readings -> degrees per millimetre, lead and cross-coupling of a real linkage."""

import json
import math
from html import escape

from ..conventions import TURN
from ..derived import figures as derived_figures
from ..drawing.fitted import fitted_wave
from ..faults import Fault, Refused
from ..fields import Answer, Calculator, Case, Drawing, Example, Number, Result, Step, Values, fixed
from ..measure.agree import agreement, sentence
from ..measure.setups import Known, TwoSetups, two_setups
from ..rotor import Rotor
from .readings_input import AT, DROOP, ERROR, fit_of, readings_text, span_text

# Invented readings: Alder 3's exact linkage with a scatter of 0.08°; the plate 20.9 mm higher for the second.
_LOW = "0 5.1\n45 5.0\n90 5.0\n135 5.0\n180 4.9\n225 5.1\n270 5.0\n315 5.0"
_HIGH = "0 10.9\n45 10.9\n90 10.9\n135 11.0\n180 11.0\n225 11.0\n270 11.0\n315 10.9"
_FORWARD = "0 4.6\n45 -0.3\n90 -2.1\n135 0.6\n180 5.5\n225 10.2\n270 11.8\n315 9.6"
_LEFT = "0 -0.2\n45 1.6\n90 5.4\n135 8.8\n180 10.1\n225 8.3\n270 4.7\n315 1.2"
_SETS = (
    ("low", "Lever low, stick centred", _LOW),
    ("high", "Lever high, stick centred", _HIGH),
    ("forward", "Lever low, stick forward", _FORWARD),
    ("left", "Lever low, stick left", _LEFT),
)


def compute(values: Values, rotor: Rotor) -> Answer:
    """Four waves, and what they say together; compared with the head's own figures."""
    faults: list[Fault] = []
    fits = {}
    for name, label, _ in _SETS:
        try:
            fits[name] = fit_of(values, name, label, rotor)
        except Refused as refused:
            faults += refused.faults
    if faults:
        raise Refused(faults)
    found = two_setups(
        fits["forward"], fits["left"], fits["low"], fits["high"],
        rise=float(values["rise"]), rise_error=float(values["rise_error"]),
        plate_low_forward=float(values["plate_forward"]), plate_low_left=float(values["plate_left"]),
        plate_low_error=float(values["plate_error"]), rotation=rotor.rotation, trailing=rotor.trailing,
    )  # fmt: skip
    own = derived_figures(rotor)
    lead = agreement(found.lead.value, found.lead.error, own["lead"].value, 0.0, round_turn=True)
    gain = agreement(found.per_height.value, found.per_height.error, own["degrees_per_mm"].value, 0.0)
    return Answer(
        {
            "per_height": found.per_height.value,
            "per_height_error": found.per_height.error,
            "lead": found.lead.value,
            "lead_error": found.lead.error,
            "beyond_quarter": found.beyond_quarter.value,
            "beyond_error": found.beyond_quarter.error,
            "lead_verdict": lead.verdict,
            "gain_verdict": gain.verdict,
        },
        (found, fits, lead, gain),
    )


def describe(case: Case) -> str:
    """One sentence."""
    r = case.answer.results
    return (
        f"This linkage gives {case.show('pitch_per_travel', case.result('per_height'), 3)} of plate height and its links stand "
        f"{case.show('angle', case.result('lead'), 1)} ± {case.show('angle', 2.0 * case.result('lead_error'), 1)} ahead of their blades; stick "
        f"forward and stick left act {case.show('angle', case.result('beyond_quarter'), 1)} ± "
        f"{case.show('angle', 2.0 * case.result('beyond_error'), 1)} more than a quarter turn apart. With this head's figures the lead "
        f"{_verdict(r['lead_verdict'])}, the degrees per travel {_verdict(r['gain_verdict'])}."
    )  # fmt: skip


def _verdict(word: float | str) -> str:
    return {"agree": "agrees", "doubtful": "is doubtful", "disagree": "disagrees"}[str(word)]


def working(case: Case) -> tuple[Step, ...]:
    """Matrix, lead, comparison."""
    found: TwoSetups
    found, _, lead, gain = case.answer.details

    def deg(known: Known, places: int = 2) -> str:
        return f"{case.show('angle', known.value, places)} ± {case.show('angle', 2.0 * known.error, places)}"

    def per(known: Known) -> str:
        return (
            f"{case.show('pitch_per_travel', known.value, 3)} ± {case.show('pitch_per_travel', 2.0 * known.error, 3)}"
        )

    rows = "; ".join(
        f"{name}: {per(row[0])}, {deg(row[1])}, {deg(row[2])}"
        for name, row in zip(("mean", "cosine", "sine"), found.matrix, strict=True)
    )
    return (
        Step("What each hand does to mean and wave (lever for plate height; stick forward, stick left from centred).", rows),
        Step("Lead from each set-up: from where the plate is low back to where pitch is least.",
             f"stick forward {deg(found.lead_forward)}, stick left {deg(found.lead_left)}, together {deg(found.lead)}", "lead"),
        Step("A quarter turn apart? More or less than 90° is unequal or cross-coupled.", deg(found.beyond_quarter)),
        Step("Raising the plate alone should make no wave.", per(found.wave_per_height)),
        Step("Lead against this head's:", sentence(lead)),
        Step("Degrees per travel against this head's:", sentence(gain, lambda x: case.show("pitch_per_travel", x, 3))),
    )  # fmt: skip


def drawing(case: Case) -> Drawing:
    """The stick-forward readings and their wave: the other three are in the working."""
    _, fits, _, _ = case.answer.details
    fit = fits["forward"]
    return fitted_wave(
        [math.degrees(r.azimuth) for r in fit.readings], [math.degrees(r.angle) for r in fit.readings],
        [math.degrees(fit.at(i * TURN / 72)) for i in range(72)], fit.misfits, "azimuth, degrees from the tail",
        "Stick forward: the readings and the wave through them.",
    )  # fmt: skip


def use(case: Case) -> str:
    """What can be taken into the head: arm from degrees per millimetre, the link's lower end from the lead."""
    found: TwoSetups = case.answer.details[0]
    rotor = case.rotor
    radius = 1000.0 * rotor.ring_radius
    gain = found.per_height
    spread = 2.0 * gain.error
    changes: dict[str, str] = {}
    # Near level one millimetre of height turns the horn by 1/arm.
    if abs(gain.value) > spread:
        ends = sorted(1000.0 / x for x in (gain.value - spread, gain.value + spread))
        changes["arm_mm"] = span_text(ends[0], ends[1], 1)
    lead, half = found.lead.value, 2.0 * found.lead.error
    for key, part in (("link_foot_out_mm", math.cos), ("link_foot_ahead_mm", math.sin)):
        ends = sorted(radius * part(x) for x in (lead - half, lead, lead + half))
        changes[key] = f"{ends[0]:.1f} to {ends[-1]:.1f}" if ends[-1] - ends[0] > 0.2 else f"{radius * part(lead):.1f}"
    return (
        f'<p class="hd-use-row"><button type="button" class="hd-button" data-use="{escape(json.dumps(changes))}">Use this in my head</button> '
        f"as horn arm and place of the links' lower ends, the ring's radius staying {case.show('small_length', rotor.ring_radius, 0)}. "
        "Whether such a head goes together is said at once.</p>"
    )


CALCULATOR = Calculator(
    id="setups",
    title="Two set-ups of the stick",
    question="What does the real linkage do: degrees per millimetre, lead, cross-coupling?",
    page="own/two-setups.md",
    inputs=(
        *(readings_text(name, label, default) for name, label, default in _SETS),
        Number("rise", "Plate higher for “lever high” by", "small_length", -300, 300, (-60, 60, 0.5), fixed(20.9), 1),
        Number("plate_forward", "Plate lowest, stick forward, at a bearing of", "angle", 0, 360, (0, 359, 1), fixed(25.0), 1,
               "clockwise from the nose, measured on the stationary ring", bearing=True),
        Number("plate_left", "Plate lowest, stick left, at a bearing of", "angle", 0, 360, (0, 359, 1), fixed(295.0), 1, bearing=True),
        AT,
        Number("rise_error", "The rise is good to", "small_length", 0, 20, (0, 2, 0.05), fixed(0.2), 2, "standard error", group="More"),
        Number("plate_error", "These bearings are good to", "angle", 0, 20, (0, 5, 0.1), fixed(0.5), 1, "standard error", group="More"),
        ERROR,
        DROOP,
    ),
    figures_first=(),
    figures=(),
    results=(
        Result("per_height", "Pitch for plate height", "pitch_per_travel", 3),
        Result("per_height_error", "… standard error", "pitch_per_travel", 3),
        Result("lead", "Lead", "angle", 1),
        Result("lead_error", "… standard error", "angle", 2),
        Result("beyond_quarter", "Stick left beyond a quarter turn", "angle", 1),
        Result("beyond_error", "… standard error", "angle", 2),
        Result("lead_verdict", "Lead with this head's figure", "words"),
        Result("gain_verdict", "Degrees per travel with this head's", "words"),
    ),
    compute=compute,
    describe=describe,
    working=working,
    drawing=drawing,
    equations={"lead": r"\Delta = \psi_{\mathrm{low}} - \psi_{\mathrm{least}} + H"},
    limits=(
        "A parked head: plate to pitch only. The lag can't be measured so.",
        "One height to one arm holds near the horn's level place; elsewhere the exact linkage differs by a few per cent.",
        "The lead is taken from the stick-forward and stick-left readings as they are: a mast that leans by a degree while they are taken "
        "shifts it by several. Read with the mast upright, or judge by both set-ups together.",
        "The four sets are taken as independent; a datum that is off in all of them shows in the mean alone.",
    ),
    sources=("Re-derived; checked against readings made from the exact linkage.", "GUM, 5.1.2 (combining standard errors)."),
    examples=(
        Example("The set-ups of the invented head itself", "made from the exact linkage of Alder 3 with a scatter of 0.08°", "alder3", {}, {},
                {"lead": (61.5, 1.0), "beyond_quarter": (0.0, 1.5)}),
    ),
    extra={"use": use},
)  # fmt: skip
