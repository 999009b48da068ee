"""Calculator *joint*: how far the tilted ring runs ahead and behind, and what it does to the blades."""

import math
from typing import cast

from ..drawing.curves import curve_drawing
from ..fields import Answer, Calculator, Case, Choice, Drawing, Example, Number, Result, Step, Values, fixed
from ..mechanism.hands import rig_of
from ..mechanism.joint import (
    Drive,
    attachment_error,
    azimuth_error,
    greatest_error,
    greatest_error_at,
    ring_azimuth,
    speed_ratio,
)
from ..rotor import Rotor


def compute(values: Values, rotor: Rotor) -> Answer:
    """Errors now and at most, speed variation, error of an attachment off the scissors, pitch it makes."""
    tilt, drive = float(values["tilt"]), cast(Drive, values["drive"])
    azimuth, away = float(values["azimuth"]), float(values["away"])
    worst = max(abs(attachment_error(math.radians(2 * i), tilt, drive, away)) for i in range(180))
    cyclic = math.atan(math.tan(tilt) * rotor.ring_radius / abs(rotor.arm))
    # What a blade feels is the height of its link's foot: the ring's own angle counts, not the one seen from above.
    off = max(
        abs(math.sin(ring_azimuth(a, tilt, drive) + away) - math.sin(a + away))
        for a in (math.radians(2 * i) for i in range(180))
    )
    c = math.cos(tilt)
    return Answer(
        {
            "error": azimuth_error(azimuth, tilt, drive),
            "greatest": greatest_error(tilt),
            "greatest_at": greatest_error_at(tilt, drive),
            "ring_azimuth": ring_azimuth(azimuth, tilt, drive),
            "slowest": c,
            "fastest": 1.0 / c,
            "rate": speed_ratio(azimuth, tilt, drive),
            "attachment": worst,
            "pitch": cyclic * off,
            "third": math.tan(tilt / 2.0) ** 2 / 2.0,
        },
        None,
    )


def describe(case: Case) -> str:
    """One sentence."""
    a = case.show
    if case.number("tilt") < 1e-9:
        return "With the plate level the ring keeps step with the mast exactly."
    return (
        f"With the plate tilted {a('angle', case.number('tilt'))} the ring runs up to {a('angle', case.result('greatest'), 2)} ahead and "
        f"behind the mast, twice each turn, and its speed varies between {a('ratio', case.result('slowest'), 3)} and "
        f"{a('ratio', case.result('fastest'), 3)} of the mast's; a link {a('angle', case.number('away'), 0)} from the scissors stands up to "
        f"{a('angle', case.result('attachment'), 2)} off, and its blade's pitch is out by up to {a('angle', case.result('pitch'), 2)}."
    )


def working(case: Case) -> tuple[Step, ...]:
    """The joint's own equation, its greatest error, what it does."""

    def deg(x: float, places: int = 3) -> str:
        return case.show("angle", x, places)

    tilt = case.number("tilt")
    kind = {"scissors": "scissors", "pin_along": "along", "pin_across": "scissors"}[str(case.values["drive"])]
    return (
        Step("Azimuth of the ring in its own plane, both counted from the tilt axis.",
             f"mast {deg(case.number('azimuth'), 1)} → ring {deg(case.result('ring_azimuth'))}: {deg(case.result('error'))}", kind),
        Step("The greatest error is the same for every kind of drive.",
             f"sin⁻¹(tan²({deg(tilt, 1)}/2)) = {deg(case.result('greatest'))}, at {deg(case.result('greatest_at'), 1)} from the tilt axis",
             "greatest"),
        Step("The rate of turning varies between the cosine of the tilt and one over it.",
             f"{case.result('slowest'):.4f} to {case.result('fastest'):.4f}; now {case.result('rate'):.4f}"),
        Step("A link standing away from the driven point: foreshortening adds to the joint's own error.",
             f"up to {deg(case.result('attachment'))}"),
        Step("What the blade feels is the height of the link's foot, which follows the ring's angle in its own plane, against that of a perfect joint.",
             f"up to {deg(case.result('pitch'))} of pitch"),
        Step("In the pitch of every blade this shows as three waves a turn.",
             f"{100 * case.result('third'):.3f}% of the one wave a turn"),
    )  # fmt: skip


def drawing(case: Case) -> Drawing:
    """Error against azimuth."""
    tilt, drive, away = case.number("tilt"), cast(Drive, case.values["drive"]), case.number("away")
    turn = [math.radians(3 * i) for i in range(121)]
    return curve_drawing(
        "joint",
        [math.degrees(t) for t in turn],
        {
            "ring, in its own plane": ("r-plate", [math.degrees(azimuth_error(t, tilt, drive)) for t in turn]),
            "link off the scissors, seen from above": (
                "r-pitch", [math.degrees(attachment_error(t, tilt, drive, away)) for t in turn]
            ),
        },
        math.degrees(case.number("azimuth")),
        "mast, degrees from the tilt axis", "°",
        "Azimuth error over a turn of the mast: two waves a turn, none where the tilt axis lies and none square to it.",
    )  # fmt: skip


CALCULATOR = Calculator(
    id="joint",
    title="The tilted ring",
    question="Does the tilted ring keep step with the mast?",
    page="hands/tilted-ring.md",
    inputs=(
        Number("tilt", "Plate tilt", "angle", 0, 30, (0, 20, 0.1),
               lambda rotor: round(math.degrees(rig_of(rotor).fore_aft), 1), 1),
        Number("azimuth", "Mast turned from the tilt axis by", "angle", 0, 360, (0, 360, 5), fixed(45.0), 0),
        Number("away", "Link stands from the driven point by", "angle", -180, 180, (-180, 180, 5), fixed(90.0), 0),
        Choice("drive", "What turns the ring", (
            ("scissors", "scissors: a ring point held in a plane through the mast"),
            ("pin_along", "universal joint, mast-side pin along the driven point"),
            ("pin_across", "universal joint, mast-side pin 90° away"),
        ), "scissors"),
    ),
    figures_first=(),
    figures=("cyclic_fore_aft_deg", "link_foot_out_mm", "link_foot_ahead_mm", "arm_mm"),
    results=(
        Result("greatest", "Greatest error", "angle", 2),
        Result("greatest_at", "… this far from the tilt axis", "angle", 1),
        Result("error", "Error now", "angle", 3),
        Result("attachment", "Link off the scissors, at most", "angle", 2),
        Result("pitch", "Pitch that makes", "angle", 2),
        Result("slowest", "Ring's slowest rate over the mast's", "ratio", 4),
        Result("fastest", "… and fastest", "ratio", 4),
        Result("rate", "Rate now", "ratio", 4, main=False),
        Result("ring_azimuth", "Ring azimuth now", "angle", 3, main=False),
        Result("third", "Three waves a turn, of the one", "percent", 3, main=False),
    ),
    compute=compute,
    describe=describe,
    working=working,
    drawing=drawing,
    equations={
        "scissors": r"\tan\psi' = \frac{\tan\psi}{\cos\tau}",
        "along": r"\tan\psi' = \tan\psi\,\cos\tau",
        "greatest": r"\sin\varepsilon = \tan^2\frac{\tau}{2}",
    },
    limits=(
        "Rigid parts without play. Double-hinged scissors whose apex stays in the bisecting plane would be free of the error.",
        "Azimuths are counted from the tilt axis; counted from the low point, times and over the cosine change places.",
    ),
    sources=("The plain universal joint: any text on mechanisms (from memory); checked by two vector constructions.",),
    examples=(
        Example("10° of tilt, scissors, 30° from the tilt axis", "universal joint, two independent vector constructions", "alder3",
                {"tilt": "10", "azimuth": "30"}, {}, {"ring_azimuth": (30.381255, 1e-6), "greatest": (0.438561, 1e-6)}),
    ),
)  # fmt: skip
