"""Links, horns and pitch: height into degrees, where pitch is least, the horn's side, half a turn later, a flapping blade."""

import math

from ...conventions import HALF_TURN, azimuth_of, bearing_before_nose, bearing_of, bearing_words, degrees_text
from ...drawing.rose import predict_rose
from ...mechanism.hands import rig_of
from ..model import Amount, Bearing, Option, Question, Setting, Solved, Template, Wrong, around, around_turn
from .sticks import degrees, stick
from .wording import drawn, shown, text_of

DEGREE = math.radians(1.0)


def _horns(setting: Setting) -> str:
    return "trailing" if setting.rotor.trailing else "leading"


def _slide(setting: Setting, lever: tuple[float, float]) -> float:
    """A level plate's slide that this head's lever makes, in whole millimetres at least one (m)."""
    rig = rig_of(setting.rotor)
    return max(1.0, round(1000.0 * abs(rig.height(lever[1]) - rig.height(lever[0])))) / 1000.0


def _level(setting: Setting, height: float) -> Solved:
    """Pitch of all blades with the plate level at a height (m)."""
    return setting.run("pitch", **{"from": "pose", "height": text_of(1000.0 * height), "tilt": "0"})


def _per_height(setting: Setting) -> Question:
    rotor = setting.rotor
    slide = _slide(setting, (0.4, setting.draw.among((0.55, 0.6, 0.65, 0.7))))
    up = bool(setting.draw.below(2))
    moved = slide if up else -slide
    solved = _level(setting, moved)
    value = solved.value("mean") - _level(setting, 0.0).value("mean")
    tolerance = 0.05 * abs(value)
    sign = math.copysign(1.0, value)
    wrong = (
        Wrong(-value, "horn-side-does-not-matter"),
        Wrong(sign * slide / rotor.ring_radius, "over-the-rings-radius"),
        Wrong(sign * slide / rotor.link, "over-the-links-length"),
    )
    return Question(
        f"On {setting.label} the links stand on the ring {shown(setting, 'small_length', rotor.ring_radius)} from the mast; they are "
        f"{shown(setting, 'small_length', rotor.link)} long, and the arms of the {_horns(setting)} horns "
        f"{shown(setting, 'small_length', abs(rotor.arm))}. From where the horns are level the plate {'rises' if up else 'sinks'} by "
        f"{setting.show('small_length', slide)}, level all the time. By how many degrees does every blade’s pitch change? Write less "
        "pitch with a minus sign.",
        Amount(value, "angle", tolerance, 2, around(value, tolerance, wrong)),
        f"The link passes the height on to the horn, and the arm turns it into an angle: {setting.show('small_length', slide)} over "
        f"{shown(setting, 'small_length', abs(rotor.arm))}. With {_horns(setting)} horns link {'down' if rotor.trailing else 'up'} is "
        "pitch on.",
        solved,
    )  # fmt: skip


def _least(setting: Setting) -> Question:
    rotor = setting.rotor
    rotation, rig = rotor.rotation, rig_of(rotor)
    low = bearing_before_nose(setting.draw.step(-60, 60, 5) * DEGREE, rotation)
    tilt = min(rig.fore_aft, rig.left_right) * setting.draw.step(0.3, 0.6, 0.1)
    solved = setting.run("pitch", **{"from": "pose", "height": "0", "tilt": degrees(tilt), "low": degrees(low)})
    _, _, _, great = solved.case.answer.details
    least = great + HALF_TURN
    at = azimuth_of(low, rotation)
    horn = HALF_TURN if rotor.trailing else 0.0
    tolerance = 9.0 * DEGREE
    wrong = (
        Wrong(low, "pitch-from-the-plate-beneath"),
        Wrong(bearing_of(at + rotor.lead + horn, rotation), "lead-the-other-way"),
        Wrong(least + HALF_TURN, "horn-side-does-not-matter"),
    )
    lead = rotor.lead
    return Question(
        f"{setting.label} turns {rotation}, seen from above, and its plate is low {bearing_words(low)}. The lower end of each link stands "
        f"{degrees_text(abs(lead), 0)} {'ahead of' if lead >= 0 else 'behind'} its blade; the horns are {_horns(setting)} ones. Mark where "
        "a blade’s pitch is least as it goes round.",
        Bearing(least, tolerance, around_turn(least, tolerance, wrong)),
        f"A blade has the height of the ring at its link’s foot. Where that foot is over the plate’s low point, the blade has its "
        f"{'greatest pitch, and its least half a turn from there' if rotor.trailing else 'least pitch'}.",
        solved,
        predict_rose(rotation).svg,
    )  # fmt: skip


def _other_horn(setting: Setting) -> Question:
    slide = _slide(setting, (0.4, setting.draw.among((0.5, 0.55, 0.6))))
    up = bool(setting.draw.below(2))
    solved, rest = _level(setting, slide if up else -slide), _level(setting, 0.0)
    old, new = rest.value("mean"), solved.value("mean")
    before, after, turned = (setting.show("angle", angle) for angle in (old, new, 2.0 * old - new))
    more = new > old
    way, other = ("up", "down") if more else ("down", "up")
    return Question(
        f"All horns of {setting.label} are {_horns(setting)} ones. The plate {'rises' if up else 'sinks'} "
        f"{setting.show('small_length', slide)}, and every blade’s pitch goes {way} from {before} to {after}. In thought, one blade gets its "
        f"horn on the other side, with an arm and a link as long. What does that blade’s pitch do, counted from {before}?",
        drawn(setting, f"It goes {other} to about {turned}", (
            Option(f"It goes {way} to {after}, like the others", "horn-side-does-not-matter"),
            Option(f"It stays at {before}", "horns-work-on-one-side"),
            Option(f"It goes {way} to {after}, half a turn later", "horn-side-is-only-late"),
            Option("It keeps its pitch and rises bodily", "horn-lifts-the-blade"),
        )),
        "Behind the blade, link up takes pitch off; ahead of it, link up puts pitch on. One movement of the ring does opposite things to "
        "the two.",
        solved,
    )  # fmt: skip


def _half_turn(setting: Setting) -> Question:
    hand = stick(setting, (30, 40, 50, 60))
    lever = str(setting.draw.among((40, 50, 60)))
    first = setting.run("pitch", lever=lever, rotor_angle="0", **hand.inputs)
    great = azimuth_of(first.case.answer.details[3], setting.rotor.rotation)
    # Near the middle of the wave a blade hardly changes in half a turn: the drawn place is kept near its top or bottom.
    place = great + setting.draw.step(-50, 50, 10) * DEGREE + HALF_TURN * setting.draw.below(2)
    here, solved = (
        setting.run("pitch", lever=lever, rotor_angle=text_of(round(math.degrees(turned)) % 360), **hand.inputs)
        for turned in (place, place + HALF_TURN)
    )
    now, value, mean = here.value("blade_1"), solved.value("blade_1"), solved.value("mean")
    stands = bearing_words(bearing_of(round(math.degrees(place)) * DEGREE, setting.rotor.rotation))
    tolerance = max(0.06 * abs(now - mean), 0.25 * DEGREE)
    wrong = (Wrong(now, "each-blade-keeps-its-pitch"), Wrong(-now, "half-a-turn-turns-the-sign"))
    return Question(
        f"On {setting.label} lever and stick are held still, the stick {hand.words}. The blades average {setting.show('angle', mean)} "
        f"of pitch. Blade 1, {stands}, has {setting.show('angle', now)}. What pitch has it half a turn later?",
        Amount(value, "angle", tolerance, 1, around(value, tolerance, wrong)),
        f"Here it is {setting.show('angle', abs(now - mean))} {'above' if now > mean else 'below'} the mean; half a turn on it is that much "
        f"{'below' if now > mean else 'above'} it.",
        solved,
    )


def _flapping(setting: Setting) -> Question:
    hands = {
        "lever": str(setting.draw.among((45, 50, 55, 60))),
        "stick_forward": "0",
        "stick_left": "0",
        "rotor_angle": "0",
    }
    level = setting.run("pitch", blades="level", **hands).value("mean")
    solved = setting.run("pitch", blades="flapping", **hands)
    change = solved.value("mean") - level
    # Under a tenth of a degree the tie is a trace of the links' own geometry; the others are far from it.
    tied = abs(change) > 0.1 * DEGREE
    size = abs(change) if tied else 0.6 * DEGREE
    held, less, more, much = (setting.show("angle", level + x) for x in (0.0, -size, size, -3.0 * size))
    falls, rises, stays = f"It falls to {less}", f"It rises to {more}", f"It stays at {held}"
    right = stays if not tied else falls if change < 0.0 else rises
    wrong = [
        Option(falls, "flapping-takes-pitch-off"),
        Option(rises, "flapping-puts-pitch-on"),
        Option(stays, "only-the-plate-sets-pitch"),
        Option(f"It falls to {much}", "air-sets-the-pitch"),
    ]
    rotor = setting.rotor
    horn = (
        "goes up and down with the flapping blade" if rotor.horn_rides else "stays at its height when the blade flaps"
    )
    return Question(
        f"On {setting.label} the {_horns(setting)} horns’ ends stand {shown(setting, 'small_length', rotor.horn_station)} out along the blade, the flap "
        f"hinges {shown(setting, 'small_length', rotor.hinge)}, and the horn {horn}. With the blades held level the pitch is {held}. They are let go "
        "and settle up at their coning; the plate stays. What does the pitch do?",
        drawn(setting, right, wrong),
        f"As the blade goes up, its link holds the horn’s end. With the horn {'behind' if rotor.trailing else 'ahead'} and its end outboard of "
        f"the hinge that {'puts pitch on' if rotor.trailing else 'takes pitch off'}, inboard it does the opposite; beside the hinge, or where "
        "the horn doesn’t flap, nothing happens. The name is delta-three.",
        solved,
    )  # fmt: skip


TEMPLATES = (
    Template("degrees-from-height", "pitch", 1, "turning the plate’s height into degrees of pitch", "number", ("pitch",), _per_height),
    Template("least-pitch-on-rose", "pitch", 2, "placing least pitch by the lead of the link and the horn’s side", "mark", ("pitch",), _least),
    Template("horn-on-the-other-side", "pitch", 1, "what a horn’s side does", "choice", ("pitch",), _other_horn),
    Template("half-a-turn-later", "pitch", 2, "that a blade’s pitch is the mean and a wave", "number", ("pitch",), _half_turn),
    Template("pitch-of-a-flapping-blade", "pitch", 3, "when flapping changes the pitch", "choice", ("pitch",), _flapping),
)  # fmt: skip
