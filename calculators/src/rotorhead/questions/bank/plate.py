"""The plate: its tilt and low point from the rods, what turns and what stays, what each hand does to it."""

import math
from collections.abc import Sequence
from dataclasses import replace

from ...blade.phase import budget_of
from ...conventions import HALF_TURN, TURN, azimuth_of, bearing_before_nose, bearing_of, bearing_words, before_nose
from ...drawing.rose import predict_rose
from ...mechanism.hands import rig_of
from ...mechanism.plate import Pose, pose_from_tilt
from ..model import Amount, Bearing, Option, Question, Setting, Solved, Template, Wrong, around, around_turn
from .sticks import degrees, held, stick
from .wording import drawn, shown, text_of

DEGREE = math.radians(1.0)


def _tilt(setting: Setting, low: float, high: float) -> float:
    """A tilt well within what this head's stick asks for, rad."""
    rig = rig_of(setting.rotor)
    return min(rig.fore_aft, rig.left_right) * setting.draw.step(low, high, 0.05)


def _from_rods(setting: Setting, pose: Pose) -> tuple[Solved, list[float]]:
    """The plate that rods stand under whose heights are rounded as a reader gets them (m)."""
    heights = [round(1000.0 * h, 1) for h in rig_of(setting.rotor).heights(pose)]
    inputs = {f"rod_{n}": text_of(h) for n, h in enumerate(heights, 1)}
    return setting.run("plate", **inputs), [h / 1000.0 for h in heights]


def _listed(setting: Setting, heights: Sequence[float], bearings: bool = False) -> str:
    parts = []
    for n, h in enumerate(heights, 1):
        where = bearing_of(setting.rotor.rod_azimuths[n - 1], setting.rotor.rotation)
        stands = f" ({bearing_words(where)})" if bearings else ""
        parts.append(f"rod {n}{stands} {setting.show('small_length', h)}")
    return ", ".join(parts)


def _tilt_from_rods(setting: Setting) -> Question:
    rotor, rig = setting.rotor, rig_of(setting.rotor)
    low_rod = setting.draw.below(len(rotor.rod_azimuths))
    height = rig.height(setting.draw.step(0.35, 0.65, 0.05))
    pose = pose_from_tilt(height, _tilt(setting, 0.4, 0.7), rotor.rod_azimuths[low_rod])
    solved, heights = _from_rods(setting, pose)
    value, middle, radius = solved.value("tilt_exact"), solved.value("height_exact"), rotor.rod_radius
    span = max(heights) - min(heights)
    tolerance = max(0.05 * value, 0.15 * DEGREE)
    wrong = (
        Wrong(math.atan(span / radius), "both-sides-over-one-radius"),
        Wrong(math.atan(span / (2.0 * radius)), "rods-stand-opposite"),
        Wrong(math.atan(abs(heights[low_rod]) / radius), "any-height-is-tilt"),
    )
    return Question(
        f"On {setting.label} the rods’ upper joints, {shown(setting, 'small_length', radius)} from the mast, stand at these heights: "
        f"{_listed(setting, heights)}. The middle of the plate is at {setting.show('small_length', middle)}, and rod {low_rod + 1} is "
        "right at its low point. By how many degrees is the plate tilted?",
        Amount(value, "angle", tolerance, 2, around(value, tolerance, wrong)),
        f"At the low point the plate is {setting.show('small_length', middle - heights[low_rod])} below its middle, "
        f"{shown(setting, 'small_length', radius)} out: the tangent of the tilt is one over the other.",
        solved,
    )


def _low_from_rods(setting: Setting) -> Question:
    rotor = setting.rotor
    low = bearing_before_nose(setting.draw.step(-175, 180, 5) * DEGREE, rotor.rotation)
    pose = pose_from_tilt(0.0, _tilt(setting, 0.5, 0.8), azimuth_of(low, rotor.rotation))
    solved, heights = _from_rods(setting, pose)
    found = bearing_of(solved.case.answer.details[0].low_azimuth, rotor.rotation)
    places = [bearing_of(a, rotor.rotation) for a in rotor.rod_azimuths]
    lowest = places[heights.index(min(heights))]
    highest = places[heights.index(max(heights))]
    tolerance = 14.0 * DEGREE
    wrong = (
        Wrong(lowest, "low-at-the-lowest-rod"),
        Wrong(highest + HALF_TURN, "low-opposite-the-highest-rod"),
        Wrong(
            bearing_before_nose(before_nose(found, rotor.rotation) - budget_of(rotor).needed, rotor.rotation),
            "plate-low-where-disc-low",
        ),
    )
    return Question(
        f"The rods of {setting.label} have these heights, counted from where they hold the plate level: "
        f"{_listed(setting, heights, bearings=True)}. Mark where the plate is low.",
        Bearing(found, tolerance, around_turn(found, tolerance, wrong)),
        f"Rods are points of one flat plate, and its low point mostly lies between two of them: here {bearing_words(found)}, with "
        f"the plate tilted {setting.show('angle', solved.value('tilt_exact'))}.",
        solved,
        predict_rose(rotor.rotation).svg,
    )  # fmt: skip


def _dot(setting: Setting) -> Question:
    rotor = setting.rotor
    tilt = round(math.degrees(_tilt(setting, 0.4, 0.8)), 1)
    low = bearing_before_nose(setting.draw.step(-60, 60, 10) * DEGREE, rotor.rotation)
    turning = bool(setting.draw.below(2))
    solved = setting.run("plate", **{"from": "pose", "height": "0", "tilt": text_of(tilt), "low": degrees(low)})
    radius = rotor.ring_radius if turning else rotor.rod_radius
    rise = setting.show("small_length", radius * math.sin(solved.value("tilt_exact")))
    if turning:
        right = f"It goes round, up and down by {rise} once a turn"
        options = [
            Option("It goes round at one height, and the low side with it", "low-side-goes-round"),
            Option(f"It goes round, up and down by {rise} once for each blade", "a-wave-for-each-blade"),
            Option("It stays at its bearing; only mast and blades go round", "rings-do-not-turn"),
        ]
    else:
        right = "It stays at its bearing and its height until a hand moves"
        options = [
            Option(f"It stays at its bearing, up and down by {rise} once a turn", "low-side-goes-round"),
            Option("It goes round with the blades, at one height", "both-rings-turn"),
            Option(f"It goes round, up and down by {rise} once a turn", "both-rings-turn"),
            Option("It stays at its bearing and its height whatever the hands do", "still-ring-is-fixed"),
        ]
    ring = "the upper ring, where a link stands on it" if turning else "the lower ring, where a rod holds it"
    return Question(
        f"On {setting.label} the hands hold the plate tilted {setting.show('angle', solved.value('tilt_exact'))}, low "
        f"{bearing_words(low)}. A dot is painted on {ring}, {shown(setting, 'small_length', radius)} from the mast. The rotor turns. What "
        "does the dot do?",
        drawn(setting, right, options),
        "The lower ring tilts but doesn’t turn, the upper one turns in the same plane; so the low side stays where the hands put it, "
        "and what turns is carried through it.",
        solved,
    )  # fmt: skip


def _hands(setting: Setting) -> Question:
    """One hand at a time: lever, stick further, or stick to another side; what becomes of height, tilt and low point."""
    rotor, rig = setting.rotor, rig_of(setting.rotor)
    which = setting.draw.among(("lever", "further", "side"))
    hand = stick(setting, (20, 30), ("forward", "back") if which == "side" else ("forward", "back", "before", "after"))
    start = setting.draw.among((30, 40, 50))
    share = max(abs(hand.forward), abs(hand.left))
    there = hand
    lever = start
    if which == "lever":
        lever = start + 20
        done = f"The lever goes up from {start}% to {lever}%"
    elif which == "further":
        there = replace(hand, forward=2.0 * hand.forward, left=2.0 * hand.left)
        done = f"The stick goes on to {there.words}"
    else:
        there = held(setting, setting.draw.among(("before", "after")), share)
        done = f"The stick swings round to {there.words}"
    old, new = rig.pose(start / 100.0, hand.forward, hand.left), rig.pose(lever / 100.0, there.forward, there.left)
    solved = setting.run("plate", **{
        "from": "pose", "height": text_of(1000.0 * new.height), "tilt": degrees(new.tilt),
        "low": degrees(bearing_of(new.low_azimuth, rotor.rotation)),
    })  # fmt: skip
    tilts = [setting.show("angle", pose.tilt) for pose in (old, new)]
    lows = [bearing_words(bearing_of(pose.low_azimuth, rotor.rotation)) for pose in (old, new)]
    slide = abs(rig.height((start + 20) / 100.0) - rig.height(start / 100.0))
    size = setting.show("small_length", slide)
    way, other = ("down", "up") if rotor.trailing else ("up", "down")
    more = setting.show("angle", old.tilt * 1.4)
    swung = bearing_words(bearing_of(old.low_azimuth + 0.5 * share * TURN, rotor.rotation))
    if which == "lever":
        right = f"It slides {way} {size}, still tilted {tilts[0]}, low {lows[0]}"
        options = [
            Option(f"It slides {way} {size} and tilts more, {more}, low {lows[0]}", "lever-adds-tilt"),
            Option(f"It slides {way} {size} and comes back to level", "lever-levels-the-plate"),
            Option(f"It keeps its height and tilts more, {more}, low {lows[0]}", "lever-adds-tilt"),
        ]
        if rotor.trailing:
            options.append(
                Option(f"It slides {other} {size}, still tilted {tilts[0]}, low {lows[0]}", "lever-raises-the-plate")
            )
    else:
        right = f"It keeps its height and tilts {tilts[1]}, low {lows[1]}"
        options = [
            Option(f"It sinks by {size} and tilts {tilts[1]}, low {lows[1]}", "stick-lowers-the-plate"),
            Option(f"It keeps its height and tilts {tilts[0]}, low {swung}", "more-stick-swings-round")
            if which == "further"
            else Option(f"It keeps its height and tilts {tilts[1]}, low {lows[0]}", "low-side-is-built-in"),
            Option(f"It sinks by {size} and keeps its tilt of {tilts[0]}, low {lows[0]}", "stick-lowers-the-plate")
            if which == "further"
            else Option(
                f"It keeps its height and tilts {tilts[1]}, low {bearing_words(there.bearing)}",
                "plate-low-where-disc-low",
            ),
        ]
    return Question(
        f"On {setting.label}, with {'trailing' if rotor.trailing else 'leading'} horns, the lever is {start}% up and the stick "
        f"{hand.words}: the plate is tilted {tilts[0]}, low {lows[0]}. {done}; the other hand keeps still. What does the plate do?",
        drawn(setting, right, options),
        "The lever slides the plate along the mast, the stick tilts it about its middle, and neither does the other’s work.",
        solved,
    )


TEMPLATES = (
    Template("tilt-from-rods", "plate", 2, "the plate’s tilt from the heights of its rods", "number", ("plate",), _tilt_from_rods),
    Template("low-point-from-rods", "plate", 3, "placing the plate’s low point between its rods", "mark", ("plate",), _low_from_rods),
    Template("dot-on-a-ring", "plate", 1, "which ring turns, and that the low side doesn’t", "choice", ("plate",), _dot),
    Template("one-hand-at-a-time", "plate", 2, "what lever and stick each do to height, tilt and low point", "choice", ("plate",), _hands),
)  # fmt: skip
