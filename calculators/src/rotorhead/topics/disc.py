"""Calculator *disc*: stick and lever -> where the disc tilts, how much, and what comes across."""

import math

from ..blade.flap import Flapping, flapping_of, hub_moment_slope
from ..blade.settled import coning_at
from ..conventions import HALF_TURN, bearing_of, bearing_words, sense
from ..drawing.disc import disc_tilt
from ..fields import Answer, Calculator, Case, Drawing, Example, Result, Step, Values
from ..mechanism.hands import cyclic_of_stick
from ..mechanism.links import harmonics, pitch_round
from ..rotor import Rotor
from .common import HAND_FIGURES, HANDS, LINK_FIGURES, hands_pose, hands_words


def _tilt(f: Flapping, rotor: Rotor, cosine: float, sine: float) -> tuple[float, float]:
    """Commanded first harmonic -> tilt of the disc toward the nose and toward the right (rad)."""
    b1c, b1s = f.response(cosine, sine)
    return b1c, b1s * sense(rotor.rotation)


def disc_matrix(rotor: Rotor) -> tuple[tuple[float, float], tuple[float, float]]:
    """First-order disc tilt (rad) for full stick: rows forward, right; columns stick forward, stick right."""
    f = flapping_of(rotor)
    (ff, rf), (fr, rr) = (_tilt(f, rotor, cosine, sine) for cosine, sine in cyclic_of_stick(rotor))
    return (ff, fr), (rf, rr)


def compute(values: Values, rotor: Rotor) -> Answer:
    """Exact pitch through the links, first-harmonic flapping, coning and thrust of that collective."""
    f = flapping_of(rotor)
    h = harmonics(pitch_round(rotor, hands_pose(values, rotor), 72))
    forward, right = _tilt(f, rotor, h.cosine, h.sine)
    b1c, b1s = f.response(h.cosine, h.sine)
    tilt = math.hypot(b1c, b1s)
    low = bearing_of(math.atan2(b1s, b1c) + HALF_TURN, rotor.rotation)
    coning, thrust = coning_at(rotor, f, h.mean)
    (ff, fr), (rf, rr) = disc_matrix(rotor)
    moment = (hub_moment_slope(rotor) + thrust * rotor.mast_above_cg) * tilt
    return Answer(
        {
            "tilt": tilt,
            "low_bearing": bearing_words(low, 1) if tilt > math.radians(0.01) else "level",
            "forward": forward,
            "right": right,
            "coning": coning,
            "thrust": thrust,
            "moment": moment,
            "forward_by_forward": ff,
            "right_by_forward": rf,
            "forward_by_right": fr,
            "right_by_right": rr,
            # Where hardly any of a fore-and-aft input goes fore and aft the ratio says nothing.
            **({"cross": abs(rf / ff)} if abs(ff) > 0.18 * abs(rf) else {}),
        },
        (f, h, low),
    )


def describe(case: Case) -> str:
    """One sentence."""
    r = case.answer.results
    hands = hands_words(case.values)
    if r["low_bearing"] == "level":
        return f"With {hands} the disc is level and cones up {case.show('angle', case.result('coning'))}."
    return (
        f"With {hands} the disc tilts {case.show('angle', case.result('tilt'))}, low {r['low_bearing']}, and cones up "
        f"{case.show('angle', case.result('coning'))}; {_across(case)}."
    )


def _across(case: Case) -> str:
    """How much of a fore-and-aft input goes to a side, in words."""
    if "cross" not in case.answer.results:
        return "almost all of a fore-and-aft input goes to a side"
    return f"{case.show('percent', case.result('cross'), 1)} of a fore-and-aft input comes across"


def working(case: Case) -> tuple[Step, ...]:
    """Pitch, response, matrix."""
    f, h, _ = case.answer.details
    a = case.show
    k = f.nu_squared - 1.0 + f.tan_delta3 * f.pitch_moment
    m = [[a("angle", case.result(n), 2) for n in row] for row in
         (("forward_by_forward", "forward_by_right"), ("right_by_forward", "right_by_right"))]  # fmt: skip
    return (
        Step("First harmonic of the pitch the plate asks for, links closed exactly.",
             f"θ₁c = {a('angle', h.cosine, 2)}, θ₁s = {a('angle', h.sine, 2)}"),
        Step("Flapping that balances it.",
             f"K = {k:.4f}, D = {f.damping:.4f}, M = {f.pitch_moment:.4f}: forward {a('angle', case.result('forward'), 2)}, right "
             f"{a('angle', case.result('right'), 2)}", "response"),
        Step("For full stick, to first order (rows: disc forward, disc right; columns: stick forward, stick right).",
             f"[ {m[0][0]}  {m[0][1]} ; {m[1][0]}  {m[1][1]} ]"),
        Step("Unequal figures on the diagonal are unequal gains, not a phase error; what comes across is off the diagonal.",
             f"{a('angle', abs(case.result('right_by_forward')), 2)} / {a('angle', abs(case.result('forward_by_forward')), 2)}: "
             f"{_across(case)}"),
        Step("Moment on the aircraft: hub stiffness, and thrust tilted about the centre of gravity.",
             f"{a('moment', case.result('moment'))} for this tilt at a thrust of {a('force', case.result('thrust'))}", "moment"),
    )  # fmt: skip


def drawing(case: Case) -> Drawing:
    """The disc from above beside the hands."""
    return disc_tilt(
        case.rotor, case.number("lever"), case.number("stick_forward"), case.number("stick_left"), case.result("tilt"),
        case.answer.details[2], case.result("coning"),
    )  # fmt: skip


CALCULATOR = Calculator(
    id="disc",
    title="Stick to disc",
    question="Where does the disc tilt, how much, and what comes across?",
    page="principles/disc-tilt.md",
    inputs=HANDS,
    figures_first=("hinge_offset",),
    figures=(*LINK_FIGURES, "rods", "mixing_turn_deg", *HAND_FIGURES, "rpm", "blade_mass_kg", "root_spring_Nm_per_rad",
             "precone_deg"),
    results=(
        Result("tilt", "Disc tilt", "angle", 1),
        Result("low_bearing", "Disc low", "words"),
        Result("forward", "Tilt toward the nose", "angle", 1),
        Result("right", "Tilt toward the right", "angle", 1),
        Result("coning", "Coning", "angle", 1),
        Result("cross", "Comes across from fore and aft", "percent", 1),
        Result("thrust", "Thrust in the hover at this lever", "force", 0, main=False),
        Result("moment", "Moment on the aircraft", "moment", 0, main=False),
        Result("forward_by_forward", "Disc forward, full stick forward", "angle", 2, main=False),
        Result("right_by_forward", "Disc right, full stick forward", "angle", 2, main=False),
        Result("forward_by_right", "Disc forward, full stick right", "angle", 2, main=False),
        Result("right_by_right", "Disc right, full stick right", "angle", 2, main=False),
    ),
    compute=compute,
    describe=describe,
    working=working,
    drawing=drawing,
    equations={
        "response": r"K\beta_{1c} + D\beta_{1s} = M\theta_{1c},\quad K\beta_{1s} - D\beta_{1c} = M\theta_{1s}",
        "moment": r"M_{\mathrm{hub}} = \left(\frac{N}{2} I_\beta \Omega^2(\nu^2 - 1) + T h\right)\beta_1",
    },
    limits=(
        "Hover, uniform inflow, steady: no forward speed, no roll or pitch rate, mast upright.",
        "A teetering head has no hub moment: its whole moment is thrust times height, so nothing at zero g.",
        "Full stick in the hover tilts the disc far further than flight uses; it shows the gain, not a manoeuvre.",
    ),
    sources=(
        "First-harmonic flapping and hub moment: W. Johnson, Helicopter Theory, ch. 5 (from memory); re-derived.",
        "Thrust: blade-element momentum theory, J.G. Leishman, ch. 3 (from memory).",
    ),
    examples=(
        Example("Forward stick on a central hinge tilts the disc forward by as much as the cyclic pitch",
                "FAA-H-8083-21B fig. 2-31 (sign); common practice (size)", "birch2",
                {"lever": "50", "stick_forward": "100", "stick_left": "0"}, {},
                {"forward": (9.0, 0.01), "right": (0.0, 0.01)}),
    ),
)  # fmt: skip
