"""The disc: from plate to tilt, where it is low, what the lever adds, the chain to the fuselage, a central hinge."""

import math

from ...blade.flap import hub_moment_slope, lag_angle, pitch_moment
from ...blade.phase import needed_offset
from ...conventions import HALF_TURN, azimuth_of, bearing_before_nose, bearing_of, bearing_words, degrees_text
from ...drawing.rose import predict_rose
from ...mechanism.hands import rig_of
from ..model import Amount, Bearing, Option, Order, Question, Setting, Template, Wrong, around, around_turn
from .sticks import degrees, stick
from .wording import drawn, shown, text_of

DEGREE = math.radians(1.0)


def _moment_text(setting: Setting, moment: float) -> str:
    return setting.show("moment", moment, 0 if setting.units == "metric" else -1)


def _tilt(setting: Setting) -> Question:
    rotor = setting.rotor
    hand = stick(setting, (20, 30, 40, 50))
    solved = setting.run("disc", lever="50", **hand.inputs)
    f, _, _ = solved.case.answer.details
    plate, value = rig_of(rotor).pose(0.5, hand.forward, hand.left).tilt, solved.value("tilt")
    tolerance = 0.045 * value
    arm = abs(rotor.arm)
    wrong = (
        Wrong(plate, "disc-copies-the-plate"),
        Wrong(plate * f.gain * arm / rotor.ring_radius, "longer-arm-more-pitch"),
    )
    return Question(
        f"The stick of {setting.label} is {hand.words}, and the plate tilts {setting.show('angle', plate, 2)}. The links stand on the ring "
        f"{shown(setting, 'small_length', rotor.ring_radius)} from the mast, the horns’ arms are {shown(setting, 'small_length', arm)}, and the disc "
        f"tilts {f.gain:.2f}° for each degree of the wave in pitch. How far does the disc tilt?",
        Amount(value, "angle", tolerance, 2, around(value, tolerance, wrong)),
        f"The link’s foot goes up and down by the tilt times {shown(setting, 'small_length', rotor.ring_radius)}; over the arm of "
        f"{shown(setting, 'small_length', arm)} that is the wave in pitch, and {f.gain:.2f} of it is the disc’s tilt.",
        solved,
    )


def _low(setting: Setting) -> Question:
    rotor = setting.rotor
    plate = bearing_before_nose(setting.draw.step(-90, 90, 5) * DEGREE, rotor.rotation)
    solved = setting.run("wheel", plate=degrees(plate))
    budget, _, least, low = solved.case.answer.details
    tolerance = 9.0 * DEGREE
    wrong = (
        Wrong(least, "least-pitch-is-disc-low"),
        Wrong(plate, "plate-low-where-disc-low"),
        Wrong(bearing_of(azimuth_of(least, rotor.rotation) - budget.lag, rotor.rotation), "wrong-way-of-turning"),
        Wrong(bearing_of(azimuth_of(plate, rotor.rotation) + budget.lag, rotor.rotation), "lag-counts-from-the-plate"),
    )
    return Question(
        f"{setting.label} turns {rotor.rotation}, seen from above. Its plate is low {bearing_words(plate)}, and so a blade’s pitch is least "
        f"{bearing_words(least)}. The lag is {degrees_text(budget.lag, 0)}. Mark where the disc is low.",
        Bearing(low, tolerance, around_turn(low, tolerance, wrong)),
        f"Lag is counted from least pitch, in the direction of rotation: {bearing_words(least)} and {degrees_text(budget.lag, 0)} on.",
        solved,
        predict_rose(rotor.rotation).svg,
    )


def _lever(setting: Setting) -> Question:
    start = setting.draw.among((40, 45, 50))
    hand = stick(setting, (20, 30, 40))
    before = setting.run("disc", lever=str(start), **hand.inputs)
    solved = setting.run("disc", lever=str(start + 15), **hand.inputs)
    pulls = [run.value("thrust") for run in (before, solved)]
    tilts = [run.value("tilt") for run in (before, solved)]
    old, new = (setting.show("pull", pull, 1 if setting.units == "metric" else 0) for pull in pulls)
    tilt = setting.show("angle", tilts[0])
    more = setting.show("angle", tilts[0] * pulls[1] / pulls[0])
    return Question(
        f"In still air, in the hover, the lever of {setting.label} is {start}% up and the stick {hand.words}: the disc pulls with {old} and is tilted "
        f"{tilt}. The lever goes to {start + 15}%; the stick stays and, in thought, the machine too. What becomes of pull and tilt, once the blades have settled?",
        drawn(setting, f"The pull grows to {new}, the tilt stays about {tilt}", (
            Option(f"The pull grows to {new}, the tilt to about {more}", "more-pitch-more-tilt"),
            Option(f"The pull grows to {new}, the disc comes level", "lever-levels-the-plate"),
            Option(f"The pull stays {old}, the tilt grows to about {more}", "lever-adds-tilt"),
            Option(f"The pull stays {old}, the blades only cone more", "coning-eats-the-lift"),
        )),
        "The lever adds the same pitch all round: all blades lift more and are drawn up further. The wave the stick asks for, and the tilt that "
        "goes with it, stay as they were, but for a trace from the links.",
        solved,
    )  # fmt: skip


def _order(setting: Setting) -> Question:
    hand = stick(setting, (20, 30, 40, 50))
    solved = setting.run("disc", lever="50", **hand.inputs)
    chain = [
        "The ring that turns stands tilted",
        "Each link’s foot goes up and down once a turn",
        "The horns turn the blades about their length",
        "Each blade’s lift changes round the turn",
        "The blades flap, down on one side, up on the other",
        "The disc, which their tips draw, is tilted",
        "The pull of the rotor leans with the disc",
        "The fuselage is drawn over, below the leaning pull",
    ]
    left_out = set(setting.draw.shuffled(range(1, len(chain) - 1))[:3])
    return Question(
        f"The stick of {setting.label} has gone to {hand.words}, and the plate has tilted. Put what follows in order, from the plate to the "
        "fuselage, each thing before what comes of it.",
        Order(tuple(step for i, step in enumerate(chain) if i not in left_out), "disc-tilts-first"),
        f"Height becomes pitch, pitch becomes lift, lift becomes flapping. Settled, the disc tilts {setting.show('angle', solved.value('tilt'))} "
        f"here, and that is {_moment_text(setting, solved.value('moment'))} on the fuselage.",
        solved,
    )


def _central(setting: Setting) -> Question:
    """The head as it would be with its hinge on the mast's axis and upright links: lag and lead of one and the same horn."""
    rotor = setting.rotor
    gamma, arm, station = rotor.lock_number(), abs(rotor.arm), abs(rotor.horn_station)
    sign = -1.0 if rotor.trailing else 1.0
    # Far out behind the blade a horn that rides puts on so much pitch that no blade would settle: then beside the hinge.
    beside = rotor.trailing and pitch_moment(gamma, 0.0) * station / arm > 0.8
    station = 0.0 if beside else station
    lead = sign * math.atan2(arm, station)
    lag = lag_angle(gamma, 0.0, 1.0, sign * station / arm)
    plate = bearing_before_nose(setting.draw.step(-80, 80, 10) * DEGREE, rotor.rotation)
    solved = setting.run("wheel", plate=degrees(plate))
    at = azimuth_of(plate, rotor.rotation)
    horn = HALF_TURN if rotor.trailing else 0.0

    def low(turn: float) -> str:
        return f"Low {bearing_words(bearing_of(at + turn, rotor.rotation))}"

    right = low(needed_offset(lag, lead, rotor.trailing))
    return Question(
        f"Built as it is, {setting.label} needs its plate low {solved.words('needed')}, for the disc to go down at the nose. In thought, its flap "
        f"hinges are moved to the mast’s axis, free and without springs; horns{' beside them' if beside else ''} ride with the blades, and links stand upright. The plate is low "
        f"{bearing_words(plate)}. Where is the disc low then?",
        drawn(setting, right, (
            Option(low(HALF_TURN / 2.0), "lag-counts-from-the-plate"),
            Option(low(-HALF_TURN / 2.0), "wrong-way-of-turning"),
            Option(low(horn - lead), "least-pitch-is-disc-low"),
            Option(low(lag + lead + horn), "lead-adds"),
        )),
        f"With such a hinge the lag, {degrees_text(lag)}, is just what lead and horn take off again: disc and plate stand parallel, whatever the "
        "blades weigh.",
        solved,
    )  # fmt: skip


def _moment(setting: Setting) -> Question:
    rotor = setting.rotor
    hand = stick(setting, (10, 15, 20, 25), ("forward", "back"))
    solved = setting.run("disc", lever=text_of(setting.draw.step(45, 60, 5)), **hand.inputs)
    tilt = solved.value("tilt")
    leaning, hub = solved.value("thrust") * rotor.mast_above_cg * tilt, hub_moment_slope(rotor) * tilt
    share = hub / (leaning + hub)
    pull, over = (setting.show("percent", x) for x in (1.0 - share, share))
    part = "0%" if share < 0.005 else over
    both = f"The leaning pull, {pull}, and the hub, {over}"
    alone = "The leaning pull alone: the hub passes nothing on"
    hub_alone = "The hub alone: the pull goes through the centre of gravity"
    none = part == "0%"
    half = "The leaning pull, 50%, and the hub, 50%"
    return Question(
        f"On {setting.label} the flap hinge, or what stands for it, is {shown(setting, 'small_length', rotor.hinge)} from the mast. In the hover the stick "
        f"goes {hand.words}, and the disc tilts {setting.show('angle', tilt)}. What begins to turn the fuselage?",
        drawn(setting, alone if none else both, (
            Option(half, "every-hub-pulls-over") if none else Option(alone, "hub-adds-nothing"),
            Option(hub_alone, "pull-has-no-arm"),
            Option("The air driven down, which presses on one end of the fuselage", "rotor-pushes-the-nose"),
            Option("The plate, which the rods tilt against the fuselage", "plate-turns-the-fuselage"),
        )),
        f"The pull passes {setting.show('length', rotor.mast_above_cg)} above the centre of gravity, at the hub, and leans: "
        f"{_moment_text(setting, leaning)}. The hub itself adds {_moment_text(setting, hub)}"
        f"{', its hinge being on the axis and free' if none else ''}.",
        solved,
    )  # fmt: skip


TEMPLATES = (
    Template("plate-to-disc", "disc", 3, "from the plate’s tilt over horn and gain to the disc’s", "number", ("disc",), _tilt),
    Template("disc-low-on-rose", "disc", 1, "counting the lag from least pitch, the way the rotor turns", "mark", ("wheel",), _low),
    Template("lever-and-tilt", "disc", 2, "that the lever changes pull and leaves the tilt", "choice", ("disc",), _lever),
    Template("plate-to-fuselage", "disc", 1, "the chain from plate to fuselage", "order", ("disc",), _order),
    Template("hinge-on-the-axis", "disc", 3, "why a central hinge needs no offset", "choice", ("wheel",), _central),
    Template("what-turns-the-fuselage", "disc", 2, "leaning pull and hub", "choice", ("disc",), _moment),
)  # fmt: skip
