"""Hydraulic help: mechanism and the size of forces only. What is done when it is lost is in the flight manual."""

import math
from dataclasses import dataclass

from ...loads.hands import EFFICIENCY, actuator_force
from ...mechanism.hands import rig_of
from ..model import Amount, Option, Order, Question, Setting, Solved, Template, Wrong, around
from .wording import drawn, places, shown, text_of

# Of the actuators that a head without help is given in thought: pressure (Pa), rod over bore, push over the worst rod's load.
_PRESSURE, _SLIM, _AMPLE = 7.0e6, 0.5, 2.2


@dataclass(frozen=True)
class _Help:
    """Actuators of a head, or those it is given in thought: lengths m, pressure Pa."""

    solved: Solved
    pressure: float
    bore: float
    rod: float
    own: bool

    def push(self, share: float = 1.0) -> float:
        return actuator_force(self.pressure * share, self.bore, self.rod)


def _helped(setting: Setting, speed: float, **more: str) -> _Help:
    solved = setting.run("boost", speed=text_of(speed), **more)
    head = setting.rotor.head
    own = _Help(
        solved,
        head["pressure_MPa"] * 1e6,
        head["actuator_bore_mm"] / 1000.0,
        head["actuator_rod_mm"] / 1000.0,
        True,
    )
    if head["actuators"] and own.push() > 1.0:
        return own
    push = max(50.0, _AMPLE * solved.value("rod_peak"))
    bore = math.sqrt(push / (EFFICIENCY * _PRESSURE * math.pi / 4.0 * (1.0 - _SLIM**2)))
    bore = round(1000.0 * bore) / 1000.0
    return _Help(solved, _PRESSURE, bore, _SLIM * bore, False)


def _margin(setting: Setting) -> Question:
    helped = _helped(setting, setting.draw.step(60, 110, 10))
    percent = setting.draw.among((50, 60, 70, 80))
    asked = max(helped.solved.value("rod_peak"), 1e-3)
    push = helped.push(percent / 100.0)
    margin = push / asked
    tolerance = 0.05 * margin
    whole = actuator_force(helped.pressure * percent / 100.0, helped.bore, 0.0) / asked
    wrong = (
        Wrong(whole, "rod-takes-no-area"),
        Wrong(helped.push() / asked, "help-is-all-or-nothing"),
    )
    whose = "Its actuators have" if helped.own else "In thought it has actuators with"
    return Question(
        f"On {setting.label} the worst rod asks for {shown(setting, 'force', asked)}. {whose} a bore of "
        f"{setting.show('small_length', helped.bore)} and a rod of {setting.show('small_length', helped.rod)}, push on the rod’s side, "
        f"and lose {1.0 - EFFICIENCY:.0%}. The pressure is {setting.show('pressure', helped.pressure * percent / 100.0, 2)}, {percent}% of the full one. How "
        "many times what the rod asks can an actuator push?",
        Amount(margin, "ratio", tolerance, 2, around(margin, tolerance, wrong)),
        f"The area that counts is the bore’s less the rod’s. With it the push is {shown(setting, 'force', push)} against "
        f"{shown(setting, 'force', asked)}.",
        helped.solved,
    )


def _lever(setting: Setting) -> Question:
    speed = setting.draw.step(60, 110, 10)
    solved = setting.run("boost", speed=text_of(speed))
    loads, off = solved.case.answer.details[:2]
    down, force = abs(loads.steady.down), abs(off.lever)
    rig = rig_of(setting.rotor)
    plate = abs(rig.lever_high - rig.lever_low)
    travel = setting.rotor.head["lever_travel_mm"] / 1000.0
    tolerance = 0.04 * force
    wrong = (
        Wrong(down, "hand-holds-all-of-it"),
        Wrong(down * travel / plate, "gearing-the-wrong-way"),
    )
    return Question(
        f"On {setting.label}, in thought without hydraulic help, the rods together carry {shown(setting, 'force', down)} at "
        f"{setting.show('airspeed', solved.case.number('speed'))}. The lever’s travel at the grip is "
        f"{setting.show('small_length', travel, 0)}, and it moves the plate by {setting.show('small_length', plate, 1)}. What force holds "
        "the lever, friction and springs left out?",
        Amount(force, "force", tolerance, places(setting, "force", force), around(force, tolerance, wrong)),
        f"The hand goes {travel / plate:.1f} times as far as the plate, so it needs that much less force.",
        solved,
    )


def _wish(setting: Setting) -> Question:
    chord = setting.rotor.chord
    speed, pitch = text_of(setting.draw.step(60, 110, 10)), text_of(setting.draw.step(6, 11, 1))
    wanted = setting.draw.among(("up", "down"))
    shares = (0.0, 0.02, 0.04, 0.06, 0.09, 0.12) if wanted == "up" else (0.015, 0.0)
    for share in shares:
        texts = {"speed": speed, "pitch": pitch, "mass_behind": text_of(min(190.0, round(1000.0 * chord * share)))}
        link, solved = setting.run("link-load", **texts), setting.run("boost", **texts)
        parts = [link.value(name) for name in ("propeller", "air", "offset")]
        if solved.words("wants") == wanted and abs(sum(parts)) > 0.12 * max(abs(part) for part in parts):
            break
    wants = solved.words("wants")
    trailing = setting.rotor.trailing

    def signed(moment: float) -> str:
        return f"{shown(setting, 'moment', abs(moment))} nose {'up' if moment >= 0.0 else 'down'}"

    listed = f"{signed(parts[0])} against flattening, {signed(parts[1])} against the air"
    if abs(parts[2]) > 1e-9:
        listed += f", {signed(parts[2])} because its mass lies behind its axis"
    right = {
        "down": "Down, towards less pitch",
        "up": "Up, towards more pitch",
    }.get(wants, "Neither way: the parts cancel")
    return Question(
        f"{setting.label} has {'trailing' if trailing else 'leading'} horns. In thought there is no hydraulic help and no spring. To hold "
        f"a blade, the controls must turn it with {listed}, steadily. Which way does the collective lever want to go?",
        drawn(setting, right, (
            Option("Up, towards more pitch", "links-lift-the-lever" if trailing else "lift-raises-the-lever"),
            Option("Down, towards less pitch", "lever-always-sinks"),
            Option("Neither way: only the stick feels the blades", "lever-has-no-wish"),
            Option("Neither way: the rods hold each other", "rods-hold-each-other"),
        )),
        f"In all the controls must hold the nose {'up' if sum(parts) > 0 else 'down'} with {shown(setting, 'moment', abs(sum(parts)))}; what they "
        f"hold against is what the blades, and with them the lever, would do: {'less' if sum(parts) > 0 else 'more'} pitch.",
        solved,
    )  # fmt: skip


def _one_of_two(setting: Setting) -> Question:
    speed = setting.draw.step(60, 110, 10)
    more = {"systems": "dual", "failed": "one"} if setting.rotor.head["actuators"] else {}
    helped = _helped(setting, speed, **more)
    one = helped.solved.value("capability") if helped.own else helped.push()
    asked = helped.solved.value("rod_peak")
    alone, both = shown(setting, "force", one), shown(setting, "force", 2.0 * one)
    return Question(
        f"In thought, two hydraulic systems work on each rod of {setting.label}, each with a piston of its own, and together they can push "
        f"a rod with {both}. The worst rod asks for {shown(setting, 'force', asked)}. One system fails; the pressure in the other stays. With "
        "what can a rod be pushed now?",
        drawn(setting, f"{alone}: half, with half of the area", (
            Option(f"{both}: the pressure is what it was", "pressure-is-force"),
            Option(f"{both}, but over half of the travel", "half-help-half-travel"),
            Option("Nothing: both hang on one another", "one-fails-both-fail"),
            Option(f"{alone} by oil, and {alone} by the hand", "hand-makes-up-the-rest"),
        )),
        f"That is {one / max(asked, 1e-3):.1f} times what the worst rod asks here, and it is the margin that counts. What is done then is in the "
        "flight manual.",
        helped.solved,
    )  # fmt: skip


_FOLLOWS = (
    "The hand moves the input of the servo valve",
    "The valve opens to one side",
    "Oil drives the actuator, and its rod with it",
    "The ring is carried along by the rod",
    "The links turn the blades in their bearings",
)
_STOPS = (
    "The hand moves the input of the servo valve",
    "The valve opens, and oil flows to one end",
    "The actuator moves and takes the valve’s housing along",
    "The housing catches up with the hand’s place",
    "The valve is shut, and the actuator stands",
)


def _order(setting: Setting) -> Question:
    solved = setting.run("boost", speed=text_of(setting.draw.step(60, 110, 10)))
    hand = setting.draw.among(
        ("raises the lever a little", "lowers the lever a little", "moves the stick a little forward")
    )
    fitted = "Hydraulic help" if setting.rotor.head["actuators"] else "In thought, hydraulic help"
    whole = bool(setting.draw.below(2))
    ask = (
        "Put what happens in order, from the hand to the blades."
        if whole
        else "Put what happens at the actuator in order."
    )
    return Question(
        f"{fitted} works on the rods of {setting.label}, the worst of which asks for {shown(setting, 'force', solved.value('rod_peak'))}. "
        f"The hand {hand} and then holds still. {ask}",
        Order(_FOLLOWS if whole else _STOPS, "help-moves-first"),
        "The hand supplies the place and the pump the force: the actuator follows the valve, and shuts it as it arrives.",
        solved,
    )


TEMPLATES = (
    Template("actuator-against-rod", "hydraulics", 3, "pressure and area against what a rod asks", "number", ("boost",), _margin),
    Template("lever-without-help", "hydraulics", 2, "from the rods’ load to the hand, by the gearing", "number", ("boost",), _lever),
    Template("which-way-the-lever-wants", "hydraulics", 3, "from moments at the blade to the lever’s wish", "choice",
             ("boost", "link-load"), _wish),
    Template("one-system-of-two", "hydraulics", 2, "what is left when one of two systems fails", "choice", ("boost",), _one_of_two),
    Template("hand-valve-actuator", "hydraulics", 1, "who follows whom from hand to blade", "order", ("boost",), _order),
)  # fmt: skip
