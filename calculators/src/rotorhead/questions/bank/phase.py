"""How early the input is made: the sum, the place on the rose, the mirrored head, rods that are out."""

import math

from ...blade.phase import Budget, sum_lines
from ...conventions import (
    HALF_TURN,
    bearing_before_nose,
    bearing_words,
    degrees_text,
    mirrored_bearing,
    offset_words,
    wrap,
)
from ...drawing.rose import predict_rose
from ..model import Amount, Bearing, Option, Question, Setting, Template, Wrong, around, around_turn, choice

DEGREE = math.radians(1.0)


def _sum(setting: Setting) -> Question:
    solved = setting.run("phase")
    lag, lead, needed = (solved.value(name) for name in ("lag", "lead", "needed"))
    trailing = setting.rotor.trailing
    horn = HALF_TURN if trailing else 0.0
    wrong = (
        Wrong(wrap(lag + lead + horn), "lead-adds"),
        Wrong(lag, "offset-is-lag"),
        Wrong(wrap(lag - lead + HALF_TURN - horn), "horn-side-does-not-matter"),
    )
    tolerance = 2.0 * DEGREE
    first, second = sum_lines(solved.case.answer.details)
    return Question(
        f"On {setting.label} the disc is lowest {degrees_text(lag)} after a blade’s least pitch was asked for. The lower end "
        f"of each link stands {degrees_text(abs(lead))} {'ahead of' if lead >= 0 else 'behind'} its blade, and the horns are "
        f"{'trailing' if trailing else 'leading'} ones. How many degrees before the nose must the plate be low for the disc to "
        "go down at the nose? Write after the nose with a minus sign.",
        Amount(needed, "angle", tolerance, 1, around(needed, tolerance, wrong)),
        f"The sum: {first} {second}.",
        solved,
    )


def _mark(setting: Setting) -> Question:
    solved = setting.run("phase")
    budget: Budget = solved.case.answer.details
    rotation = setting.rotor.rotation
    tolerance = 8.0 * DEGREE
    wrong = (
        Wrong(0.0, "plate-low-where-disc-low"),
        Wrong(bearing_before_nose(budget.lag, rotation), "offset-is-lag"),
        Wrong(mirrored_bearing(budget.plate_needed), "wrong-way-of-turning"),
        Wrong(budget.plate_needed + HALF_TURN, "horn-side-does-not-matter"),
    )
    return Question(
        f"{setting.label} turns {rotation}, seen from above. Lag {degrees_text(budget.lag, 0)}, lead "
        f"{degrees_text(budget.lead, 0)}, {'trailing' if setting.rotor.trailing else 'leading'} horns. Mark where the plate must "
        "be low for the disc to go down at the nose.",
        Bearing(budget.plate_needed, tolerance, around_turn(budget.plate_needed, tolerance, wrong)),
        f"That is {offset_words(budget.needed, rotation)}.",
        solved,
        predict_rose(rotation).svg,
    )


def _mirrored(setting: Setting) -> Question:
    solved = setting.run("phase")
    budget: Budget = solved.case.answer.details
    here, there = budget.plate_needed, mirrored_bearing(budget.plate_needed)
    other_size = wrap(HALF_TURN - budget.needed)
    rotation = setting.rotor.rotation
    return Question(
        f"On {setting.label}, which turns {rotation}, the plate must be low {bearing_words(here)}. A factory builds the very same "
        "head turning the other way. Where must its plate be low, for the disc to go down at the nose?",
        choice(
            bearing_words(there).capitalize(),
            Option(bearing_words(here).capitalize(), "wrong-way-of-turning"),
            Option(bearing_words(bearing_before_nose(other_size, rotation)).capitalize(), "mirror-changes-the-size"),
            Option(bearing_words(bearing_before_nose(HALF_TURN + budget.needed, rotation)).capitalize(), "mirror-changes-the-size"),
            Option("On the right, as on every helicopter", "offset-always-right"),
        ),
        "The sum counts in the direction of rotation, so the mirrored head has the same angle on the other side.",
        solved,
    )  # fmt: skip


def _rods_out(setting: Setting) -> Question:
    turned = setting.draw.among((-20, -15, -12, -10, 10, 12, 15, 20))
    solved = setting.run("phase", turn_rods=str(turned))
    plain = setting.run("phase")
    budget: Budget = solved.case.answer.details
    size = abs(turned)
    way = "against the direction of rotation" if turned > 0 else "in the direction of rotation"
    # The disc goes down where the error leaves it: `error` after the nose, a minus sign before it.
    lands = offset_words(-budget.error, setting.rotor.rotation)
    share = abs(math.tan(budget.error))
    return Question(
        f"On {setting.label} the disc now goes down {offset_words(-plain.value('error'), setting.rotor.rotation)}. The rod set "
        f"is turned {size}° about the mast, {way}. The stick goes forward. What does the disc do?",
        choice(
            f"It goes down {lands}: to each degree forward belongs {share:.2f}° to one side",
            Option(f"It goes down at the nose, {size}° too far", "rods-out-is-too-much"),
            Option(f"It goes down at the nose, {size}° of a turn later than before", "rods-out-is-late"),
            Option(
                f"It goes down {offset_words(budget.error, setting.rotor.rotation)}: to each degree forward belongs {share:.2f}° "
                "to one side", "wrong-way-of-turning",
                "The rods were turned one way round, and the disc’s low point goes with them"),
        ),
        "Turned rods swing the whole answer round; the sideways part is the tangent of what is left over.",
        solved,
    )  # fmt: skip


TEMPLATES = (
    Template(
        "offset-by-sum", "phase", 2, "adding lag, lead and horn side with their signs", "number", ("phase",), _sum
    ),
    Template(
        "plate-low-on-rose", "phase", 2, "placing the plate’s low point round the turn", "mark", ("phase",), _mark
    ),
    Template(
        "same-head-mirrored", "phase", 1, "what the direction of rotation changes", "choice", ("phase",), _mirrored
    ),
    Template("rods-turned", "phase", 3, "what rods that are set wrong do to the disc", "choice", ("phase",), _rods_out),
)
