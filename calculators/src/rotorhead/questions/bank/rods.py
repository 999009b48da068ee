"""Hands and rods: how far one rod moves, what the lever does to all, why three, the way from the hand to the ring."""

import math

from ...conventions import bearing_of, bearing_words, count_word, wrap
from ...mechanism.hands import rig_of
from ..model import Amount, Option, Order, Question, Setting, Template, Wrong, around
from .sticks import stick
from .wording import drawn, shown, text_of


def _way(move: float) -> str:
    return "up" if move > 0 else "down"


def _one(setting: Setting) -> Question:
    rotor = setting.rotor
    hand = stick(setting, (20, 30, 40, 50))
    solved = setting.run("rods", lever="50", **hand.inputs)
    moves = solved.case.answer.details
    pose = rig_of(rotor).pose(0.5, hand.forward, hand.left)
    # A rod near the level line moves so little that rounded angles decide; it is not asked about.
    most = max(abs(move) for move in moves)
    index = setting.draw.among([i for i, move in enumerate(moves) if abs(move) > 0.4 * most])
    value, tilt = moves[index], pose.tilt
    stands = bearing_of(rotor.rod_azimuths[index], rotor.rotation)
    low = bearing_of(pose.low_azimuth, rotor.rotation)
    full = rotor.rod_radius * math.tan(tilt)
    tolerance = 0.06 * abs(value)
    wrong = (
        Wrong(-value, "a-push-goes-up"),
        Wrong(-full * math.cos(stands - hand.bearing), "plate-low-where-disc-low"),
        Wrong(-full, "stick-lowers-the-plate"),
        Wrong(full, "a-push-goes-up"),
    )
    return Question(
        f"On {setting.label} the lever is half up, and the stick goes from the middle to {hand.words}. The plate tilts "
        f"{setting.show('angle', tilt, 2)}, low {bearing_words(low, 1)}. Rod {index + 1} stands {bearing_words(stands)}, "
        f"{shown(setting, 'small_length', rotor.rod_radius)} from the mast. How far does this rod move? Write a move down with a minus sign.",
        Amount(value, "small_length", tolerance, 1, around(value, tolerance, wrong)),
        f"The rod stands {abs(math.degrees(wrap(stands - low))):.0f}° round from the low point: "
        f"{shown(setting, 'small_length', rotor.rod_radius)} × tan {setting.show('angle', tilt, 2)} × the cosine of that angle is "
        f"{setting.show('small_length', abs(value))}, {'below' if value < 0 else 'above'} the middle.",
        solved,
    )  # fmt: skip


def _lever(setting: Setting) -> Question:
    rotor = setting.rotor
    start, end = setting.draw.among(((30, 60), (40, 70), (60, 30), (70, 40), (20, 40), (50, 80)))
    hand = stick(setting, (20, 30, 40))
    before, solved = (setting.run("rods", lever=str(lever), **hand.inputs) for lever in (start, end))
    moves = [b - a for a, b in zip(before.case.answer.details, solved.case.answer.details, strict=True)]
    count, move = count_word(len(moves)), sum(moves) / len(moves)
    way, other, size = _way(move), _way(-move), setting.show("small_length", abs(move))
    share = setting.show("small_length", abs(move) / len(moves))
    raised = end > start
    options = [
        Option(f"Rod 1 alone goes {way} {size}; the others stay", "one-rod-is-the-levers"),
        Option(f"All {count} go {way}, by {share} each", "rods-share-the-travel"),
        Option(f"All {count} go {way}, most on the low side", "lever-levels-the-plate"),
    ]
    if rotor.trailing:
        options.append(Option(f"All {count} go {other}, by {size} each", "lever-raises-the-plate"))
    return Question(
        f"On {setting.label}, which has {'trailing' if rotor.trailing else 'leading'} horns, the stick is held {hand.words}. The "
        f"lever is {'raised' if raised else 'lowered'} from {start}% to {end}%, and that slides the plate {size} along the mast. "
        f"What do its {count} rods do?",
        drawn(setting, f"All {count} go {way}, by {size} each", options),
        f"The lever moves the whole plate along the mast and leaves its tilt alone, so every rod goes with it. "
        f"{'Link down is pitch on with horns behind the blades' if rotor.trailing else 'Link up is pitch on with horns ahead of the blades'}.",
        solved,
    )  # fmt: skip


def _three(setting: Setting) -> Question:
    rotor = setting.rotor
    other = setting.draw.among([n for n in (2, 4, 5, 6, 7, 8) if n != rotor.blades])
    # The rod too many stands in the widest gap and is so much longer than the plate's height there.
    longer = setting.draw.among((1, 2, 3))
    bearings = sorted(math.degrees(bearing_of(a, rotor.rotation)) for a in rotor.rod_azimuths)
    gaps = [(round(b - a, 6), a) for a, b in zip(bearings, [*bearings[1:], bearings[0] + 360.0], strict=True)]
    wide, start = max(gaps)
    gap = (start + wide / 2.0) % 360.0
    pose = rig_of(rotor).pose(0.5, 0.0, 0.0)
    heights = {f"rod_{n}": text_of(1000.0 * h) for n, h in enumerate(rig_of(rotor).heights(pose), 1)}
    solved = setting.run(
        "plate",
        extra="yes",
        extra_bearing=text_of(gap),
        extra_height=text_of(1000.0 * pose.height + longer),
        **heights,
    )
    links = count_word(other)
    return Question(
        f"The maker of {setting.label}, which has {count_word(rotor.blades)} blades on {count_word(len(rotor.rod_azimuths))} rods, builds "
        f"a head with {links} blades. How many rods must stand under its plate at the least, and how many links upon it?",
        drawn(setting, f"Three rods and {links} links", (
            Option(f"{links.capitalize()} rods and {links} links", "a-rod-for-each-blade"),
            Option(f"Two rods and {links} links", "two-rods-for-the-stick"),
            Option(f"Four rods and {links} links", "one-rod-is-the-levers"),
            Option("Three rods and three links", "a-link-for-each-rod"),
        )),
        f"Three points fix a flat plate, and each blade needs a link of its own. On this head one rod more, "
        f"{setting.show('small_length', longer / 1000.0, 0)} too long, would make the rods disagree by "
        f"{setting.show('small_length', solved.value('residual'), 2)}.",
        solved,
    )  # fmt: skip


def _order(setting: Setting) -> Question:
    hand = stick(setting, (20, 30, 40, 50))
    solved = setting.run("rods", lever="50", **hand.inputs)
    helped = bool(setting.rotor.head["actuators"])
    chain = [
        f"The stick is moved {hand.way}",
        "Push-pull rods carry that under the floor",
        "Bell cranks turn it round the corner, upward",
        "The mixing shares it out among the rods to the ring",
        *(["The actuators add force, each to its rod"] if helped else []),
        "The rods go up or down, each by its own share",
        "The ring that doesn’t turn takes up its tilt",
        "The ring that turns takes up the same tilt",
    ]
    # Two of the middle are left out, others with another seed; the ends stay.
    left_out = set(setting.draw.shuffled(range(1, len(chain) - 1))[: len(chain) - 5])
    most = max(solved.case.answer.details, key=abs)
    return Question(
        f"On {setting.label} the stick goes to {hand.words}. Put what passes the movement on in order, from the hand to the blades’ "
        "side of the plate.",
        Order(tuple(step for i, step in enumerate(chain) if i not in left_out), "blades-are-moved-first"),
        f"Each part moves the next. At the end of it the busiest rod has gone {_way(most)} by "
        f"{setting.show('small_length', abs(most))}, and the two rings stand at one tilt.",
        solved,
    )  # fmt: skip


TEMPLATES = (
    Template("one-rods-move", "rods", 3, "a rod’s move from the plate’s tilt and the place of its low point", "number", ("rods",), _one),
    Template("rods-for-the-lever", "rods", 1, "what the lever does to every rod", "choice", ("rods",), _lever),
    Template("rods-for-more-blades", "rods", 1, "why three rods serve any number of blades", "choice", ("plate",), _three),
    Template("hand-to-ring", "rods", 2, "the way of a movement from the hand to the turning ring", "order", ("rods",), _order),
)  # fmt: skip
