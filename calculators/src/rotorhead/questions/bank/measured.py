"""Measuring a head: what a parked one can show, the wave and its place from readings, whether two figures agree."""

import math

from ...conventions import TURN, after_side, azimuth_of, bearing_of, degrees_text, wrap
from ...drawing.rose import predict_rose
from ...measure.fit import Fit
from ...mechanism.hands import rig_of
from ...mechanism.links import pitch_now
from ..model import Amount, Bearing, Option, Question, Setting, Solved, Template, Wrong, around, around_turn, choice
from .wording import drawn, text_of

DEGREE = math.radians(1.0)
# Bearings at which a blade is read, degrees, and what a learner calls them.
MARKS = ((0, "nose"), (90, "right"), (180, "tail"), (270, "left"))


def _read(setting: Setting, lever: float, forward: float, left: float) -> tuple[tuple[float, ...], Solved]:
    """What an inclinometer would show of blade 1 at the four marks (degrees, to a tenth), and the worksheet of it."""
    rotor = setting.rotor
    pose = rig_of(rotor).pose(lever, forward, left)
    shown = tuple(
        round(math.degrees(pitch_now(rotor, pose, azimuth_of(math.radians(at), rotor.rotation))), 1) for at, _ in MARKS
    )
    lines = "\n".join(f"{at} {reading:.1f}" for (at, _), reading in zip(MARKS, shown, strict=True))
    return shown, setting.run("worksheet", readings=lines)


def _listed(readings: tuple[float, ...]) -> str:
    return ", ".join(
        f"{name} {degrees_text(math.radians(reading))}" for (_, name), reading in zip(MARKS, readings, strict=True)
    )


def _sticks(setting: Setting) -> list[tuple[float, float, float]]:
    """Situations of lever and stick (forward, left), in a drawn order; a mirrored head gets the mirrored ones."""
    side = 1.0 if after_side(setting.rotor.rotation) == "left" else -1.0
    sticks = ((0.8, 0.0), (-0.8, 0.0), (0.0, 0.9), (0.0, -0.9), (0.6, 0.6), (0.6, -0.6), (-0.6, 0.6), (-0.6, -0.6))
    lever = setting.draw.among((0.3, 0.4, 0.5, 0.6))
    return [(lever, forward, side * after) for forward, after in setting.draw.shuffled(sticks)]


def _off_marks(solved: Solved, rotation_of: Setting) -> float:
    """How far the place of the wave lies from the nearest mark, rad."""
    fit: Fit = solved.case.answer.details
    bearing = bearing_of(fit.least_azimuth, rotation_of.rotor.rotation)
    return min(abs(wrap(bearing - math.radians(at))) for at, _ in MARKS)


def _sheet(setting: Setting, apart: float) -> tuple[tuple[float, ...], Solved]:
    """Readings whose wave lies well between two marks, if a stick can be found for it on this head."""
    found = [_read(setting, *stick) for stick in _sticks(setting)]
    good = [one for one in found if _off_marks(one[1], setting) > apart]
    return good[0] if good else max(found, key=lambda one: _off_marks(one[1], setting))


def _parked(setting: Setting) -> Question:
    solved = setting.run("phase")
    lag = degrees_text(solved.value("lag"), 0)
    stick = setting.draw.among(("forward", "back", "to the left", "to the right"))
    start = (
        f"{setting.label} stands parked, rotor still. With permission its stick is held {stick}, and the pitch of each blade is read "
        "at eight marks round the turn."
    )
    why = f"No blade flaps on a parked head, and no air or spin works on it. The lag of this head, {lag}, has to be computed."
    if setting.draw.below(2):
        true = setting.draw.among((
            "Where in the turn the pitch is least",
            "Whether all blades are given the same pitch",
            "How much the stick changes the pitch",
        ))  # fmt: skip
        options = drawn(setting, true, (
            Option("How far behind the pitch the blades flap", "parked-head-shows-the-lag"),
            Option("Where in the turn the disc will be low", "least-pitch-is-disc-low"),
            Option("How high the blades will cone in the hover", "parked-blades-stand-as-in-flight"),
            Option("How hard the links are pulled or squeezed in flight", "parked-links-carry-their-load"),
        ))  # fmt: skip
        return Question(f"{start} Which of these do the readings show?", options, why, solved)
    hidden = setting.draw.among(("How far behind the pitch the blades flap", "Where in the turn the disc will be low"))
    options = choice(hidden, *(
        Option(text, "parked-head-shows-nothing")
        for text in setting.draw.shuffled((
            "Where in the turn the pitch is least", "Whether all blades are given the same pitch",
            "How much the stick changes the pitch", "What the mean pitch is with this lever",
        ))
    ))  # fmt: skip
    return Question(f"{start} Which of these can the readings **not** show?".replace("**", ""), options, why, solved)


def _wave(setting: Setting) -> Question:
    readings, solved = _sheet(setting, 22.0 * DEGREE)
    wave = solved.value("wave_value")
    span = math.radians(max(readings) - min(readings))
    tolerance = max(0.15 * DEGREE, 0.03 * wave)
    wrong = (
        Wrong(span / 2.0, "wave-is-half-the-span"),
        Wrong(span, "wave-is-the-whole-span"),
        Wrong(math.radians(max(readings)), "wave-is-the-greatest-reading"),
    )
    return Question(
        f"On {setting.label}, parked, one blade’s pitch is read with lever and stick held still, the blade over the {_listed(readings)}. "
        "By how many degrees does the stick’s even wave swing either way from the mean?",
        Amount(wave, "angle", tolerance, 1, around(wave, tolerance, wrong)),
        f"Half the difference across each way, {degrees_text(math.radians(readings[2] - readings[0]) / 2.0, 2)} and "
        f"{degrees_text(math.radians(readings[1] - readings[3]) / 2.0, 2)}, put together at right angles. The wave need not be greatest at "
        "one of the marks.",
        solved,
    )


def _place(setting: Setting) -> Question:
    readings, solved = _sheet(setting, 22.0 * DEGREE)
    fit: Fit = solved.case.answer.details
    rotation = setting.rotor.rotation
    lag = setting.run("phase").value("lag")
    least = bearing_of(fit.least_azimuth, rotation)
    lowest = math.radians(MARKS[readings.index(min(readings))][0])
    tolerance = 9.0 * DEGREE
    wrong = (
        Wrong(lowest, "lowest-reading-is-the-place"),
        Wrong(bearing_of(fit.least_azimuth + lag, rotation), "least-pitch-is-disc-low"),
    )
    return Question(
        f"On {setting.label}, parked, one blade’s pitch is read with lever and stick held still, the blade over the {_listed(readings)}. "
        "Mark where in the turn this blade has its least pitch.",
        Bearing(least % TURN, tolerance, around_turn(least, tolerance, wrong)),
        "It lies between the two low readings, nearer to the lower one: the wave through all four says how much nearer.",
        solved,
        predict_rose(rotation).svg,
    )


# Difference over the standard error of both, by the verdict it belongs to: such that errors added straight, or an error left
# out, give another verdict.
_APART = {"agree": (1.7, 1.75, 1.8), "doubtful": (2.6, 2.65, 2.7), "disagree": (3.4, 3.7, 4.0)}
_SAID = {
    "agree": "They agree: scatter alone may well do as much",
    "doubtful": "It is doubtful: scatter alone seldom does as much",
    "disagree": "They disagree: scatter alone hardly ever does as much",
}
_PROVED = Option("They agree, and so both figures are right", "agreement-proves-both")
_AT_FAULT = Option("They disagree, and so the head is set wrong", "disagreement-proves-a-fault")


def _agree(setting: Setting) -> Question:
    figure, name = setting.draw.among((("lead", "lead of the links"), ("fitted", "place of the rods before the nose")))
    meant = setting.draw.among(("agree", "doubtful", "disagree"))
    good, known = setting.draw.among(((1.0, 1.0), (0.8, 0.6), (1.2, 0.9), (1.5, 1.0)))
    computed = setting.run("agree", figure=figure, measured="0").value("computed")
    apart = setting.draw.among(_APART[meant]) * math.hypot(good, known) * setting.draw.among((-1.0, 1.0))
    measured = round(math.degrees(computed) + apart, 1)
    solved = setting.run(
        "agree", figure=figure, measured=text_of(measured), measured_error=text_of(good), computed_error=text_of(known)
    )
    verdict = solved.words("verdict")
    wrong = {
        "agree": (Option(_SAID["doubtful"], "computed-is-exact"), Option(_SAID["disagree"], "difference-alone-judges"), _PROVED),
        "doubtful": (Option(_SAID["agree"], "errors-add-straight"), Option(_SAID["disagree"], "computed-is-exact"), _AT_FAULT),
        "disagree": (Option(_SAID["agree"], "difference-alone-judges"), Option(_SAID["doubtful"], "errors-add-straight"), _AT_FAULT),
    }[verdict]  # fmt: skip
    return Question(
        f"On {setting.label} the {name} is computed as {setting.show('angle', computed)}, good to {known:g}° (standard error). It is measured "
        f"as {degrees_text(math.radians(measured))}, good to {good:g}°. What do you say, by the usual rule of two and three standard errors?",
        choice(_SAID[verdict], *wrong),
        f"The two errors together are {setting.show('angle', solved.value('combined'), 2)}, and the difference of "
        f"{setting.show('angle', abs(solved.value('difference')), 1)} is {solved.value('ratio'):.1f} times that.",
        solved,
    )  # fmt: skip


TEMPLATES = (
    Template("parked-head", "measured", 1, "what readings on a parked head can show", "choice", ("phase",), _parked),
    Template("wave-from-readings", "measured", 3, "the size of a wave from four readings", "number", ("worksheet",), _wave),
    Template("least-pitch-from-readings", "measured", 2, "the place of least pitch from four readings", "mark",
             ("worksheet", "phase"), _place),
    Template("do-they-agree", "measured", 2, "judging a difference by the errors of both figures", "choice", ("agree",), _agree),
)  # fmt: skip
