"""Calculator *pitch*: the pitch of every blade now and all round the disc, links closed exactly."""

import math

from ..blade.settled import settled_flap
from ..conventions import HALF_TURN, TURN, azimuth_of, bearing_of, bearing_words
from ..drawing.strips import pitch_strips
from ..fields import Answer, Calculator, Case, Choice, Drawing, Example, Number, Result, Step, Values, fixed
from ..mechanism.assembly import pitch_per_height
from ..mechanism.links import (
    foot_in_blade_frame,
    harmonics,
    horn_angle,
    linear_pitch,
    link_lean,
    pitch_now,
    pitch_round,
)
from ..mechanism.plate import pose_from_tilt
from ..rotor import Rotor
from .common import FORWARD, HAND_FIGURES, LEFT, LEVER, LINK_FIGURES, hands_pose, hands_words, within_links

STEPS = 72


def _hands(values: Values, rotor: Rotor) -> bool:
    return values["from"] == "hands"


def _pose(values: Values, rotor: Rotor) -> bool:
    return values["from"] == "pose"


def compute(values: Values, rotor: Rotor) -> Answer:
    """Exact closure for every blade now and for blade 1 in 72 steps; first order beside it."""
    if values["from"] == "hands":
        pose = hands_pose(values, rotor)
    else:
        low = azimuth_of(float(values["low"]), rotor.rotation)
        pose = pose_from_tilt(float(values["height"]), float(values["tilt"]), low)
    mast = float(values["rotor_angle"])
    field = "lever" if values["from"] == "hands" else "height"
    commanded = within_links(lambda: pitch_round(rotor, pose, STEPS), field)
    harmonic = harmonics(commanded)
    curve, flap = commanded, (0.0, 0.0, 0.0)
    if values["blades"] == "flapping":
        flap = settled_flap(rotor, harmonic)
        angles = [i * TURN / STEPS for i in range(STEPS)]
        curve = pitch_round(
            rotor, pose, STEPS, tuple(flap[0] + flap[1] * math.cos(a) + flap[2] * math.sin(a) for a in angles)
        )
        harmonic = harmonics(curve)
    now = []
    for blade in range(rotor.blades):
        a = mast + blade * TURN / rotor.blades
        beta = flap[0] + flap[1] * math.cos(a) + flap[2] * math.sin(a)
        now.append(pitch_now(rotor, pose, mast, blade, beta))
    lean = 0.0
    for i in range(0, STEPS, 3):
        foot = foot_in_blade_frame(rotor, pose, i * TURN / STEPS, 0)
        lean = max(lean, link_lean(rotor, foot, horn_angle(rotor, foot)))
    even = harmonic.amplitude < 1e-9
    great = bearing_of(harmonic.greatest, rotor.rotation)
    results: dict[str, float | str] = {f"blade_{n}": v for n, v in enumerate(now, 1)}
    results |= {
        "mean": harmonic.mean,
        "first_harmonic": harmonic.amplitude,
        "greatest_bearing": "the same all round" if even else bearing_words(great, 1),
        "least_bearing": "the same all round" if even else bearing_words(great + HALF_TURN, 1),
        "second_harmonic": harmonic.second,
        "degrees_per_mm": pitch_per_height(rotor),
        "link_lean": lean,
        "first_order": rotor.ring_radius / abs(rotor.arm) * math.hypot(pose.p, pose.q),
    }
    return Answer(results, (pose, curve, now, great))


def describe(case: Case) -> str:
    """One sentence."""
    r = case.answer.results
    hands = hands_words(case.values) if case.values["from"] == "hands" else "the plate set as given"
    text = f"With {hands}, the blades average {case.show('angle', case.result('mean'))}"
    if case.result("first_harmonic") < math.radians(0.005):
        return text + " and every blade has the same pitch all round the disc."
    return (
        f"{text} and vary by {case.show('angle', case.result('first_harmonic'))} to either side as they go round, greatest "
        f"{r['greatest_bearing']}; blade 1 now has {case.show('angle', case.result('blade_1'))}."
    )


def working(case: Case) -> tuple[Step, ...]:
    """First order, then the exact closure of blade 1's link."""
    rotor, (pose, _, _, _) = case.rotor, case.answer.details
    mast = case.number("rotor_angle")
    foot = foot_in_blade_frame(rotor, pose, mast, 0)
    eta = horn_angle(rotor, foot)
    linear = linear_pitch(rotor, pose, mast)
    size = case.show
    return (
        Step(f"Blade 1 stands {bearing_words(bearing_of(mast, rotor.rotation))}; its link's lower end is "
             f"{size('angle', rotor.lead)} ahead on the ring.",
             f"height of the ring there {size('small_length', foot[2] + rotor.link_rise, 2)}"),
        Step("First order: that height over the horn arm.",
             f"{size('angle', rotor.pitch_level, 2)} + {size('small_length', pose.above(mast + rotor.lead, rotor.ring_radius), 2)}"
             f" / {size('small_length', rotor.arm)} = {size('angle', linear, 2)}", "linear"),
        Step(f"Exact: the link keeps its {size('small_length', rotor.link)}; the horn turns until it fits.",
             f"horn {size('angle', eta, 2)} from level, pitch {size('angle', rotor.pitch_level + eta, 2)} (blade held level)",
             "closure"),
        Step("Round the turn, in 72 steps:",
             f"mean {size('angle', case.result('mean'), 2)}, first harmonic {size('angle', case.result('first_harmonic'), 2)} "
             f"(first order {size('angle', case.result('first_order'), 2)}), second harmonic "
             f"{size('angle', case.result('second_harmonic'), 2)}"),
    )  # fmt: skip


def drawing(case: Case) -> Drawing:
    """Polar and unrolled strips."""
    _, curve, now, great = case.answer.details
    return pitch_strips(case.rotor, curve, now, case.number("rotor_angle"), great)


CALCULATOR = Calculator(
    id="pitch",
    title="Pitch of every blade",
    question="What pitch does every blade have, now and all round the disc?",
    page="parts/pitch-links.md",
    inputs=(
        Number("lever", LEVER.label, "percent", 0, 100, (0, 100, 1), LEVER.default, 0, applies=_hands),
        Number("stick_forward", FORWARD.label, "percent", -100, 100, (-100, 100, 1), FORWARD.default, 0, FORWARD.help,
               applies=_hands),
        Number("stick_left", LEFT.label, "percent", -100, 100, (-100, 100, 1), LEFT.default, 0, LEFT.help, applies=_hands),
        Number("height", "Plate height", "small_length", -300, 300, (-60, 60, 0.5), fixed(0.0), 1, applies=_pose),
        Number("tilt", "Plate tilt", "angle", 0, 30, (0, 12, 0.1), fixed(5.0), 1, applies=_pose),
        Number("low", "Plate low at a bearing of", "angle", 0, 360, (0, 359, 1), fixed(0.0), 0, "clockwise from the nose",
               applies=_pose, bearing=True),
        Number("rotor_angle", "Rotor turned by", "angle", 0, 360, (0, 360, 5), fixed(30.0), 0,
               "0: blade 1 over the tail; in the direction of rotation"),
        Choice("from", "Start from", (("hands", "lever and stick"), ("pose", "the plate")), "hands", group="More"),
        Choice("blades", "Blades", (("level", "held level"), ("flapping", "flapping freely, settled in the hover")), "level",
               group="More"),
    ),
    figures_first=(),
    figures=(*LINK_FIGURES, *HAND_FIGURES),
    results=(
        *(Result(f"blade_{n}", f"Blade {n} now", "angle", 1) for n in range(1, 9)),
        Result("mean", "Mean", "angle", 1),
        Result("first_harmonic", "First harmonic", "angle", 1),
        Result("greatest_bearing", "Pitch is greatest", "words"),
        Result("least_bearing", "Pitch is least", "words", main=False),
        Result("second_harmonic", "Second harmonic", "angle", 2, main=False),
        Result("first_order", "First harmonic, to first order", "angle", 1, main=False),
        Result("degrees_per_mm", "Pitch for plate height", "pitch_per_travel", 3, main=False),
        Result("link_lean", "Greatest lean of the link", "angle", 1, main=False),
    ),
    compute=compute,
    describe=describe,
    working=working,
    drawing=drawing,
    equations={
        "linear": r"\theta = \theta_{\mathrm{level}} + \frac{z(\psi + \Delta)}{a}",
        "closure": r"A\cos\eta + B\sin\eta = C",
    },
    limits=(
        "Rigid parts, no play, no twisting of the blade under load.",
        "The rotating ring is one rigid ring; its drive-scissors point is exact, so blades away from it are off by the tilted "
        "ring's own error (0.44° of azimuth at 10° of tilt).",
    ),
    sources=("Planar four-bar closed form; values checked against an independent root-finder.",),
    examples=(
        Example(
            "A level plate raised 10 mm on a 150 mm horn with a 400 mm link",
            "independent root-finder on the planar four-bar (horn level at zero)",
            "birch2",
            {"from": "pose", "height": "10", "tilt": "0"},
            {"arm_mm": "150", "link_foot_ahead_mm": "150", "link_mm": "400", "pitch_at_plate_zero_deg": "0"},
            {"mean": (3.82250, 1e-4)},
        ),
    ),
)  # fmt: skip
