"""Calculator *links*: length and lean of a pitch link, and what a turn of its rod end does."""

import math

from ..blade.flap import flapping_of
from ..conventions import TURN
from ..drawing.link import link_turn
from ..fields import Answer, Calculator, Case, Choice, Drawing, Example, Number, Result, Step, Values, fixed
from ..mechanism.hands import rig_of
from ..mechanism.joint import pitch_per_turn
from ..mechanism.links import foot_in_blade_frame, horn_angle, link_lean
from ..rotor import Rotor
from .common import LINK_FIGURES


def compute(values: Values, rotor: Rotor) -> Answer:
    """Pitch from turns of a rod end; lean at rest and over the range; how far that blade's tip leaves the others."""
    turnbuckle = values["ends"] == "turnbuckle"
    turns = float(values["turns"]) / TURN
    thread = float(values["thread"])
    pitch = pitch_per_turn(thread, rotor.arm, turns, turnbuckle=turnbuckle)
    f = flapping_of(rotor)
    flap = f.pitch_moment * pitch / (f.nu_squared + f.tan_delta3 * f.pitch_moment)
    rig = rig_of(rotor)
    leans = []
    for lever in (0.0, 0.5, 1.0):
        for stick in range(8):
            pose = rig.pose(lever, math.cos(stick * TURN / 8), math.sin(stick * TURN / 8))
            for i in range(24):
                foot = foot_in_blade_frame(rotor, pose, i * TURN / 24, 0)
                leans.append(link_lean(rotor, foot, horn_angle(rotor, foot)))
    rest = link_lean(rotor, (rotor.link_foot_out, rotor.link_foot_ahead, -rotor.link_rise), 0.0)
    change = thread * turns * (2.0 if turnbuckle else 1.0)
    return Answer(
        {
            "pitch": -pitch if rotor.trailing else pitch,
            "length_change": change,
            "length": rotor.link + change,
            "lean_rest": rest,
            "lean_least": min(leans),
            "lean_greatest": max(leans),
            "tip": (-flap if rotor.trailing else flap) * (rotor.radius - rotor.hinge),
            "flap": -flap if rotor.trailing else flap,
        },
        None,
    )


def describe(case: Case) -> str:
    """One sentence."""
    a = case.show
    what = (
        "puts pitch on"
        if case.result("pitch") > 0
        else "takes pitch off"
        if case.result("pitch") < 0
        else "leaves the pitch"
    )
    turns = case.number("turns") / TURN
    return (
        f"A link longer by {a('small_length', case.result('length_change'), 2)} ({turns:g} {'turn' if abs(turns) == 1 else 'turns'}) {what}: "
        f"{a('angle', case.result('pitch'), 2)} on that blade, whose tip then runs about "
        f"{a('small_length', case.result('tip'), 0)} from the others. The link leans {a('angle', case.result('lean_least'), 1)} to "
        f"{a('angle', case.result('lean_greatest'), 1)} over the whole range."
    ).replace("-", "\N{MINUS SIGN}")


def working(case: Case) -> tuple[Step, ...]:
    """Thread, horn, flap."""
    a = case.show
    r = case.rotor
    f = flapping_of(r)
    return (
        Step("Length change: turns times the thread's advance (twice that for a right- and left-handed turnbuckle).",
             a("small_length", case.result("length_change"), 3)),
        Step("Over the horn's arm; a trailing horn turns the sign.",
             f"{a('small_length', case.result('length_change'), 3)} / {a('small_length', r.arm, 0)} = {a('angle', case.result('pitch'), 3)}",
             "turn"),
        Step("One blade with more pitch flies higher until its centrifugal pull balances the lift.",
             f"{f.pitch_moment:.3f}/({f.nu_squared:.3f} + {f.tan_delta3 * f.pitch_moment:.3f}) × {a('angle', case.result('pitch'), 3)} = "
             f"{a('angle', case.result('flap'), 3)}; at the tip {a('small_length', case.result('tip'), 1)}", "track"),
        Step("Lean of the link from the mast's direction, blade held level.",
             f"at rest {a('angle', case.result('lean_rest'), 1)}; {a('angle', case.result('lean_least'), 1)} to "
             f"{a('angle', case.result('lean_greatest'), 1)} over the range"),
    )  # fmt: skip


def drawing(case: Case) -> Drawing:
    """Horn and link, before and after."""
    return link_turn(case.rotor, case.result("pitch"), case.result("length_change"), case.units)


CALCULATOR = Calculator(
    id="links",
    title="One link, one turn",
    question="What does one turn of a pitch link's rod end do?",
    page="hands/scissors-and-play.md",
    inputs=(
        Number("turns", "Rod end turned by", "turns", -10, 10, (-4, 4, 0.25), fixed(1.0), 2, "positive makes the link longer"),
        Number("thread", "Thread: advance in one turn", "small_length", 0.1, 5, (0.5, 2, 0.01), fixed(1.25), 3),
        Choice("ends", "Link", (("single", "one threaded end turned"), ("turnbuckle", "turnbuckle: right- and left-handed ends")),
               "single"),
    ),
    figures_first=("arm_mm",),
    figures=tuple(k for k in LINK_FIGURES if k != "arm_mm"),
    results=(
        Result("pitch", "Pitch of that blade", "angle", 3),
        Result("length_change", "Link longer by", "small_length", 2),
        Result("tip", "Tip from the others, about", "small_length", 0),
        Result("lean_least", "Least lean", "angle", 1),
        Result("lean_greatest", "Greatest lean", "angle", 1),
        Result("lean_rest", "Lean at rest", "angle", 1, main=False),
        Result("length", "Link length then", "small_length", 2, main=False),
        Result("flap", "Blade flies higher by", "angle", 3, main=False),
    ),
    compute=compute,
    describe=describe,
    working=working,
    drawing=drawing,
    equations={
        "turn": r"\Delta\theta = \frac{n\,p}{a}",
        "track": r"\Delta\beta_0 = \frac{M_\theta\,\Delta\theta}{\nu^2 + \tan\delta_3\,M_\theta}",
    },
    limits=(
        "The tip figure is for the hover, a rigid blade and unchanged inflow; real blades bend and the wake changes.",
        "Adjusting links, tracking and balancing belong to the maintenance manual and licensed people: this shows the size only.",
    ),
    sources=("Arithmetic of thread and arm; flapping as on the lag page.",),
    examples=(
        Example("24 threads to the inch (1.05833 mm) on a 150 mm horn", "arithmetic", "birch2",
                {"thread": "1.0583333333"}, {"arm_mm": "150"}, {"pitch": (0.404254, 1e-6)}),
        Example("A metric thread of 1.25 mm on the same horn, turnbuckle", "arithmetic", "birch2",
                {"thread": "1.25", "ends": "turnbuckle"}, {"arm_mm": "150"}, {"pitch": (0.95493, 1e-5)}),
    ),
)  # fmt: skip
