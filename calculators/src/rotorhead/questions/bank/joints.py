"""Scissors, play and the tilted ring: what each pair holds, what a little play or a turn of a rod end does."""

import math

from ...conventions import bearing_before_nose, bearing_words, degrees_text
from ...mechanism.hands import rig_of
from ..model import Amount, Option, Question, Setting, Template, Wrong, around, choice
from .wording import drawn, places, shown, text_of

MOST_PLAY = 20.0  # mm; what the calculator takes


def _play(radius: float, degrees: float) -> float:
    """Play (mm) that lets a ring of a radius (m) turn by about so much, within what the calculator takes."""
    return max(0.05, min(MOST_PLAY, round(1000.0 * radius * math.radians(degrees), 1)))


def _drive(setting: Setting) -> Question:
    play = _play(setting.rotor.ring_radius, setting.draw.among((1.0, 1.5, 2.0)))
    solved = setting.run("scissors", pair="drive", play=text_of(play), stick_forward="100")
    turn = degrees_text(solved.value("turn"))
    stick = setting.draw.among(("forward", "to the left", "back"))
    return Question(
        f"On {setting.label}, in thought, the drive scissors are so worn that the rotating ring hangs back "
        f"{setting.show('small_length', play / 1000.0)} where its links stand. The stick is held {stick}. What do the blades notice?",
        choice(
            f"The wave of pitch comes {turn} of a turn later, on every blade",
            Option(f"The wave of pitch comes {turn} of a turn earlier, on every blade", "ring-behind-is-early"),
            *setting.draw.shuffled((
            Option("One blade’s pitch is out by what its link has lost", "scissors-play-is-one-blade"),
            Option("Nothing: the rods set the ring’s height, and that stays", "only-height-counts"),
            Option("Less power: part of the drive to the blades is lost", "drive-scissors-drive-blades"),
            )),
        ),
        f"The foot of every link is {turn} behind its place, so each blade has that much further to go before its link is over the "
        "low point. Links that lean change the pitch of all blades a little besides.",
        solved,
    )  # fmt: skip


def _stationary(setting: Setting) -> Question:
    rotor = setting.rotor
    play = _play(rotor.rod_radius, setting.draw.among((2.0, 3.0, 4.0)))
    solved = setting.run("scissors", pair="stationary", play=text_of(play), stick_forward="100")
    turn = solved.value("turn")
    now = rotor.fitted_offset
    here, there, other = (
        bearing_words(bearing_before_nose(x, rotor.rotation), 1) for x in (now, now - turn, now + turn)
    )
    return Question(
        f"{setting.label} turns {rotor.rotation}, seen from above. With the stick forward its plate is low {here}. In thought, the "
        f"stationary scissors have {setting.show('small_length', play / 1000.0)} of play at a ring of "
        f"{setting.show('small_length', rotor.rod_radius, 0)} radius, and the main bearing drags the ring along. What changes?",
        drawn(setting, f"The plate is now low {there}", (
            Option(f"The plate is now low {other}", "wrong-way-of-turning",
                   "The bearing drags the ring the way the rotor turns"),
            Option("Nothing: the rods hold the ring from turning", "rods-hold-the-ring-round"),
            Option("All blades get more pitch, alike all round", "turning-the-ring-adds-pitch"),
        )),
        f"Play over radius is {degrees_text(turn)}; the low point is carried round with the ring, the way the rotor turns.",
        solved,
    )  # fmt: skip


def _play_pitch(setting: Setting) -> Question:
    play = setting.draw.step(0.4, 2.0, 0.2)
    solved = setting.run("scissors", pair="stationary", play=text_of(play), stick_forward="100")
    error, turn = solved.value("pitch_error"), solved.value("turn")
    rotor = setting.rotor
    cyclic = math.radians(rotor.head["cyclic_fore_aft_deg"])
    tolerance = 0.08 * error
    wrong = (
        Wrong(turn, "ring-turn-is-pitch"),
        Wrong(play / 1000.0 / abs(rotor.arm), "scissors-play-is-link-play"),
    )
    return Question(
        f"On {setting.label} the stationary scissors have a play of {setting.show('small_length', play / 1000.0, 2)} at a ring of "
        f"{setting.show('small_length', rotor.rod_radius, 0)} radius; the horns’ arm is "
        f"{setting.show('small_length', abs(rotor.arm), 0)}. Full stick gives a wave of {degrees_text(cyclic)} of pitch either way. "
        "How many degrees can the play put a blade’s pitch out, at most?",
        Amount(error, "angle", tolerance, places(setting, "angle", error), around(error, tolerance, wrong)),
        f"The ring turns by play over radius, {degrees_text(turn, 2)}, and the wave is early or late by that: "
        f"{degrees_text(cyclic)} × sin {degrees_text(turn, 2)}.",
        solved,
    )


def _tilted(setting: Setting) -> Question:
    full = min(24.0, max(6.0, round(math.degrees(rig_of(setting.rotor).fore_aft), 1)))
    parts, word = setting.draw.among(((2.0, "twice as far"), (3.0, "three times as far"), (1.5, "half as far again")))
    less = round(full / parts, 1)
    solved = setting.run("joint", tilt=text_of(full))
    small = setting.run("joint", tilt=text_of(less)).value("greatest")
    large = solved.value("greatest")
    tolerance = 0.06 * large
    wrong = (
        Wrong(small * parts, "error-grows-with-tilt"),
        Wrong(0.0, "ring-keeps-step"),
    )
    return Question(
        f"On {setting.label} the plate is tilted by {degrees_text(math.radians(less))}. The rotating ring then runs ahead of the "
        f"mast, twice in each turn, by {shown(setting, 'angle', small)} at most. Now the plate is tilted by "
        f"{degrees_text(math.radians(full))}, {word}. By how many degrees does the ring run ahead, at most?",
        Amount(large, "angle", tolerance, places(setting, "angle", large), around(large, tolerance, wrong)),
        f"It goes nearly with the square of the tilt: sin ε = tan²(tilt/2), so {parts:g} times the tilt makes about "
        f"{parts * parts:g} times the error.",
        solved,
    )


def _rod_end(setting: Setting) -> Question:
    rotor = setting.rotor
    turns, words = setting.draw.among(
        ((0.25, "a quarter turn"), (0.5, "half a turn"), (1.0, "one turn"), (1.5, "one and a half turns"))
    )
    thread = setting.draw.among((1.0, 1.25, 1.5))
    longer = bool(setting.draw.below(2))
    buckle = bool(setting.draw.below(2))
    sign = 1.0 if longer else -1.0
    solved = setting.run(
        "links", turns=text_of(sign * turns), thread=text_of(thread), ends="turnbuckle" if buckle else "single"
    )
    pitch, change = solved.value("pitch"), solved.value("length_change")
    tolerance = 0.05 * abs(pitch)
    wrong = (
        Wrong(-pitch, "horn-side-does-not-matter" if rotor.trailing else "longer-link-takes-off"),
        *((Wrong(pitch / 2.0, "turnbuckle-counts-once"),) if buckle else ()),
        Wrong(math.copysign(change / rotor.link, pitch), "over-the-links-length"),
    )  # fmt: skip
    kind = "a turnbuckle with a right- and a left-handed thread" if buckle else "threaded at one end only"
    return Question(
        f"On {setting.label}, which has {'trailing' if rotor.trailing else 'leading'} horns with an arm of "
        f"{setting.show('small_length', abs(rotor.arm), 0)}, in thought, one pitch link of {setting.show('small_length', rotor.link, 0)} is made "
        f"{'longer' if longer else 'shorter'} by {words}. It is {kind}; a thread advances {setting.show('small_length', thread / 1000.0, 2)} "
        "a turn. By how many degrees does the pitch of its blade change? Write less pitch with a minus sign.",
        Amount(pitch, "angle", tolerance, places(setting, "angle", pitch), around(pitch, tolerance, wrong)),
        f"The length changes by {setting.show('small_length', abs(change), 2)}; over the horn’s arm that is "
        f"{shown(setting, 'angle', abs(pitch))}, and with {'trailing' if rotor.trailing else 'leading'} horns a longer link "
        f"{'takes pitch off' if rotor.trailing else 'puts pitch on'}. How far a link may be turned is in the maintenance manual.",
        solved,
    )  # fmt: skip


TEMPLATES = (
    Template("drive-scissors-worn", "joints", 2, "what the drive scissors hold in step", "choice", ("scissors",), _drive),
    Template("stationary-scissors-worn", "joints", 2, "what the stationary scissors hold in place", "choice", ("scissors",), _stationary),
    Template("play-to-pitch", "joints", 3, "from play at a ring to a blade’s pitch", "number", ("scissors",), _play_pitch),
    Template("tilted-ring-ahead", "joints", 2, "how the tilted ring’s error grows with the tilt", "number", ("joint",), _tilted),
    Template("rod-end-turned", "joints", 2, "from a turn of a rod end to degrees of pitch, with its sign", "number", ("links",), _rod_end),
)  # fmt: skip
