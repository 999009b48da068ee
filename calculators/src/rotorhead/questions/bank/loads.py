"""Control loads: which way a blade turns itself, what its link and the rods carry, what weights do, why a lever creeps."""

import math
from dataclasses import replace

from ...conventions import count_word, degrees_text
from ...loads.feather import blade_of
from ...run import run
from ..model import Amount, Option, Order, Question, Setting, Template, Wrong, around
from .wording import drawn, places, shown, text_of


def _flattening(setting: Setting) -> Question:
    degrees = setting.draw.among((-4, -3, -2, 4, 6, 8, 10, 12))
    solved = setting.run("link-load", pitch=str(degrees), speed="0")
    held = solved.value("propeller")
    up = held > 0.0
    away = "further from flat pitch"
    return Question(
        f"A blade of {setting.label} spins with its pitch at {degrees_text(math.radians(degrees), 0)}. In thought, in a vacuum, its "
        "link is let go. Which way does the blade turn about its own length?",
        drawn(setting, f"Nose {'down' if up else 'up'}, towards flat pitch", (
            Option("Nose up, further from flat pitch", "spin-lifts-the-nose") if up
            else Option(f"Nose down, {away}", "flattening-is-nose-down"),
            Option("Neither way: without air nothing turns it", "air-makes-it-flat"),
            Option("Neither way: the spin pulls straight outward", "outward-pull-cannot-turn"),
        )),
        f"Holding it against that takes {shown(setting, 'moment', abs(held))}, nose {'up' if up else 'down'}, with no air at all.",
        solved,
    )  # fmt: skip


def _faster(setting: Setting) -> Question:
    percent = setting.draw.among((-20, -15, -10, 10, 15, 20))
    pitch = setting.draw.step(6, 12, 1)
    texts = {"pitch": text_of(pitch), "speed": "0"}
    solved = setting.run("link-load", **texts)
    now = solved.value("propeller")
    factor = 1.0 + percent / 100.0
    turned = replace(setting.rotor, speed=setting.rotor.speed * factor)
    then = run(solved.calculator, texts, turned, "metric").result("propeller")
    tolerance = 0.03 * then
    wrong = (Wrong(now * factor, "load-goes-with-speed"), Wrong(now, "pitch-alone-sets-the-load"))
    return Question(
        f"At its rotor speed of {setting.show('turn_rate', setting.rotor.speed)} a blade of {setting.label} at "
        f"{degrees_text(math.radians(pitch), 0)} of pitch has to be held against flattening with {shown(setting, 'moment', now)}. "
        f"Rotor speed {'rises' if percent > 0 else 'falls'} by {abs(percent)}%; the pitch stays. What does it take now?",
        Amount(then, "moment", tolerance, places(setting, "moment", then), around(then, tolerance, wrong)),
        f"The pull outward goes with the square of rotor speed: {factor:.2f} × {factor:.2f} = {factor * factor:.2f} times as much.",
        solved,
    )


def _weights(setting: Setting) -> Question:
    blade = blade_of(setting.rotor)
    share = setting.draw.among((0.3, 0.4, 0.5))
    taken = share * (blade.inertia_chord - blade.inertia_thickness)
    arm = min(0.5, max(0.02, round(math.sqrt(taken / 2.0), 2)))
    mass = min(20.0, max(0.01, round(taken / (2.0 * arm * arm), 2)))
    pitch = text_of(setting.draw.step(6, 12, 1))
    plain = setting.run("link-load", pitch=pitch, speed="0")
    solved = setting.run(
        "link-load", pitch=pitch, speed="0", weight_mass=text_of(mass), weight_arm=text_of(1000.0 * arm)
    )
    before, after = plain.value("propeller"), solved.value("propeller")
    was = shown(setting, "moment", before)
    return Question(
        f"A blade of {setting.label} has to be held against flattening with {was}. In thought, two weights of "
        f"{setting.show('mass', mass, 2)} are put on arms square to the chord, {setting.show('small_length', arm, 0)} above and below its "
        "root. What must it be held with at the same pitch?",
        drawn(setting, f"{shown(setting, 'moment', after)}: the weights turn the blade upright", (
            Option(f"{shown(setting, 'moment', 2.0 * before - after)}: there is more mass to be flung outward", "weights-add-flattening"),
            Option(f"{was}: the weights balance the blade only at rest", "weights-balance-at-rest"),
            Option(f"{was}: what one does, above, the other undoes", "weights-cancel"),
        )),
        "The weights want to lie flat too, each in the plane of rotation, and their arms stand square to the chord.",
        solved,
    )  # fmt: skip


def _together(setting: Setting) -> Question:
    rotor = setting.rotor
    speed = setting.draw.step(60, 110, 10)
    solved = setting.run("rod-load", speed=text_of(speed), cyclic=text_of(setting.draw.step(2, 5, 1)))
    down = solved.value("down")
    link, size = down / rotor.blades, abs(down)
    rods = len(rotor.rod_azimuths)
    tolerance = 0.03 * size
    wrong = (
        Wrong(rods * abs(link), "a-rod-for-each-link"),
        Wrong(0.0, "even-blades-cancel-steady-load"),
    )
    return Question(
        f"At {setting.show('airspeed', solved.case.number('speed'))} each of the {count_word(rotor.blades)} pitch links of {setting.label} is "
        f"{'squeezed' if down > 0 else 'pulled'} with {shown(setting, 'force', abs(link))}, averaged over a turn. What do its "
        f"{count_word(rods)} rods carry together, averaged over a turn?",
        Amount(size, "force", tolerance, places(setting, "force", size), around(size, tolerance, wrong)),
        "The plate has to stand still, so the rods together carry what all the links bring; how they share it "
        "depends on where it presses.",
        solved,
    )


def _lever(setting: Setting) -> Question:
    speed = text_of(setting.draw.step(60, 110, 10))
    solved = setting.run("rod-load", speed=speed)
    down = solved.value("down")
    blades = count_word(setting.rotor.blades)
    return Question(
        f"In thought, {setting.label} has neither hydraulic help nor friction at its lever, and at "
        f"{setting.show('airspeed', solved.case.number('speed'))} the lever begins to move by itself. What moves it?",
        drawn(setting, "What all blades ask of their links alike, all round the turn", (
            Option("What the advancing blade asks more than the others, once a turn", "advancing-blade-moves-lever"),
            Option("Its own weight and that of the rods below the plate", "lever-is-heavy"),
            Option("Rods of unequal length, which let the plate lean and slide", "creeping-lever-is-rigging"),
            Option("What the air does against each change of a blade’s pitch", "load-is-resistance-to-change"),
        )),
        f"The steady part of {blades} links, {shown(setting, 'force', abs(down))} in all, bears "
        f"{'down' if down > 0 else 'up'} on the middle of the plate, and the lever moves the middle of the plate.",
        solved,
    )  # fmt: skip


_WAY_DOWN = (
    "The spin turns the blade towards flat pitch",
    "The horn bears on its end of the link",
    "The link bears on the rotating ring",
    "The main bearing hands it to the stationary ring",
    "The rods share it between them",
    "The lever moves in the hand",
)
# Which of the six are asked for: five each time, the first and the last always.
_LEFT_OUT = (1, 2, 3, 4)


def _way_down(setting: Setting) -> Question:
    solved = setting.run("link-load", speed=text_of(setting.draw.step(0, 100, 20)))
    out = setting.draw.among(_LEFT_OUT)
    held = solved.value("propeller")
    return Question(
        f"Each blade of {setting.label} has to be held against flattening with {shown(setting, 'moment', abs(held))}. In thought there is "
        "no hydraulic help. Put the way of this load in order, from the blade to the hand.",
        Order(tuple(item for i, item in enumerate(_WAY_DOWN) if i != out), "load-goes-straight-to-the-hand"),
        "It comes down the way the hand’s wish went up: horn, link, rotating ring, main bearing, stationary ring, rods, lever.",
        solved,
    )


TEMPLATES = (
    Template("blade-let-go", "loads", 1, "which way flattening turns a blade", "choice", ("link-load",), _flattening),
    Template("load-and-rotor-speed", "loads", 2, "that flattening goes with the square of rotor speed", "number", ("link-load",), _faster),
    Template("weights-at-the-root", "loads", 3, "what balance weights square to the chord do", "choice", ("link-load",), _weights),
    Template("rods-together", "loads", 1, "that the rods together carry what all links bring", "number", ("rod-load",), _together),
    Template("lever-by-itself", "loads", 2, "which part of the load reaches the lever", "choice", ("rod-load",), _lever),
    Template("load-way-down", "loads", 1, "the way of a load from blade to hand", "order", ("link-load",), _way_down),
)  # fmt: skip
