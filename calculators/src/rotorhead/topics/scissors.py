"""Calculator *scissors*: how far a pair folds, how much is left before straight, what play does."""

import math
from typing import cast

from ..drawing.fold import scissors_fold
from ..fields import Answer, Calculator, Case, Choice, Drawing, Example, Number, Result, Step, Values, fixed
from ..mechanism.scissors import Pair, arms, fold, fold_range, play_azimuth, play_exact, play_pitch
from ..rotor import Rotor
from .common import FORWARD, HAND_FIGURES, HANDS, LINK_FIGURES, hands_pose, hands_words


def _drive(values: Values, rotor: Rotor) -> bool:
    return values["pair"] == "drive"


def compute(values: Values, rotor: Rotor) -> Answer:
    """Fold now, over the whole range, and the effect of play."""
    pair = cast(Pair, values["pair"])
    pose = hands_pose(values, rotor)
    mast = float(values["rotor_angle"]) if pair == "drive" else 0.0
    now = fold(rotor, pose, pair, mast)
    span = fold_range(rotor, pair)
    radius = rotor.ring_radius if pair == "drive" else rotor.rod_radius
    play = float(values["play"])
    if pair == "drive":
        level, error = play_exact(rotor, play)
    else:
        # The rods stay where they are: the plate's low point is carried round, and nothing else changes.
        level, error = 0.0, play_pitch(play, radius, math.radians(rotor.head["cyclic_fore_aft_deg"]))
    guide = mast + rotor.drive_scissors if pair == "drive" else rotor.stationary_scissors
    slope = (pose.p * math.cos(guide) + pose.q * math.sin(guide)) if pose.tilt else 0.0
    return Answer(
        {
            "included": now.included,
            "reserve": now.reserve,
            "least": span.least,
            "greatest": span.greatest,
            "least_reserve": span.reserve,
            "turn": play_azimuth(play, radius),
            "pitch_error": error,
            "level": level,
        },
        (now, pair, slope),
    )


def describe(case: Case) -> str:
    """One sentence."""
    pair = case.answer.details[1]
    a = case.show
    ring = "the rotating ring" if pair == "drive" else "the stationary ring, and the low point with it,"
    return (
        f"With {hands_words(case.values)} the {pair} scissors stand at {a('angle', case.result('included'), 0)}; over the whole range "
        f"at least {a('angle', case.result('least_reserve'), 0)} are left before they are straight. A play of "
        f"{a('small_length', case.number('play'), 2)} lets {ring} turn by {a('angle', case.result('turn'), 2)}: up to "
        f"{a('angle', case.result('pitch_error'), 3)} of pitch at full stick, {a('angle', case.result('level'), 3)} on a level plate."
    )


def working(case: Case) -> tuple[Step, ...]:
    """Triangle, range, play."""
    now, pair, _ = case.answer.details
    a, b, _ = arms(case.rotor, pair)
    distance = math.dist(now.ring, now.anchor)

    def mm(x: float) -> str:
        return case.show("small_length", x, 1)

    def deg(x: float) -> str:
        return case.show("angle", x, 2)

    radius = case.rotor.ring_radius if pair == "drive" else case.rotor.rod_radius
    return (
        Step("The arms and the line from ring to hinge make a triangle.",
             f"arms {mm(a)} and {mm(b)}, distance {mm(distance)}: {deg(now.included)}", "cosine"),
        Step("Over lever bottom to top and the stick all round its stop, rotor turned all round:",
             f"{deg(case.result('least'))} to {deg(case.result('greatest'))}; left before straight {deg(case.result('least_reserve'))}"),
        Step("Play at the ring turns it by play over radius.",
             f"{mm(case.number('play'))} / {mm(radius)} = {deg(case.result('turn'))}", "play"),
        Step("Turning the ring shifts the whole wave of pitch. Links that lean along the ring lean more or less besides, which changes "
             "the pitch of all blades alike; the links closed exactly, round the turn at full stick:" if pair == "drive" else
             "Carried round, the stationary ring takes the whole wave of pitch with it; at full stick that is at most",
             f"{case.show('angle', case.result('pitch_error'), 3)}; of the wave alone "
             f"{deg(math.radians(case.rotor.head['cyclic_fore_aft_deg']))} × sin {deg(case.result('turn'))} = "
             f"{case.show('angle', play_pitch(case.number('play'), radius, math.radians(case.rotor.head['cyclic_fore_aft_deg'])), 3)}; "
             f"on a level plate {case.show('angle', case.result('level'), 3)}"),
    )  # fmt: skip


def drawing(case: Case) -> Drawing:
    """The pair in its plane."""
    now, pair, slope = case.answer.details
    return scissors_fold(now, pair, slope)


CALCULATOR = Calculator(
    id="scissors",
    title="Scissors",
    question="How far do the scissors fold, and what does their play do?",
    page="hands/scissors-and-play.md",
    inputs=(
        Choice("pair", "Which pair", (("drive", "drive scissors (turn)"), ("stationary", "stationary scissors (stay)")), "drive"),
        HANDS[0],
        FORWARD,
        Number("play", "Play at the ring, end to end", "small_length", 0, 20, (0, 3, 0.05), fixed(0.3), 2),
        Number("stick_left", HANDS[2].label, "percent", -100, 100, (-100, 100, 1), fixed(0.0), 0, HANDS[2].help, group="More"),
        Number("rotor_angle", "Rotor turned by", "angle", 0, 360, (0, 360, 5), fixed(0.0), 0,
               "0: blade 1 over the tail; in the direction of rotation", group="More", applies=_drive),
    ),
    figures_first=(),
    figures=(
        "drive_scissors_ring_arm_mm", "drive_scissors_anchor_arm_mm", "drive_scissors_anchor_mm", "drive_scissors_height_mm",
        "stationary_scissors_ring_arm_mm", "stationary_scissors_anchor_arm_mm", "stationary_scissors_anchor_mm",
        "stationary_scissors_height_mm", *HAND_FIGURES, *LINK_FIGURES,
    ),
    results=(
        Result("included", "Angle between the arms now", "angle", 0),
        Result("reserve", "Left before straight now", "angle", 0),
        Result("least_reserve", "Least left over the whole range", "angle", 0),
        Result("turn", "Play lets the ring turn by", "angle", 2),
        Result("pitch_error", "Pitch that makes at full stick", "angle", 3),
        Result("level", "… on a level plate", "angle", 3),
        Result("least", "Least angle over the range", "angle", 1, main=False),
        Result("greatest", "Greatest angle over the range", "angle", 1, main=False),
    ),
    compute=compute,
    describe=describe,
    working=working,
    drawing=drawing,
    equations={
        "cosine": r"\cos\alpha = \frac{a^2 + b^2 - d^2}{2ab}",
        "play": r"\delta = \frac{s}{r}",
    },
    limits=(
        "Rigid arms in a plane; the ring point is held in that plane exactly, hinges without tilt of their own.",
        "How much play is allowed, and how it is measured, is in the maintenance manual; this shows only what it does.",
    ),
    sources=("Law of cosines.",),
    examples=(
        Example("A play of 1 mm at a ring of 140 mm", "arc over radius", "birch2", {"play": "1"}, {},
                {"turn": (0.409256, 1e-5)}),
    ),
)  # fmt: skip
