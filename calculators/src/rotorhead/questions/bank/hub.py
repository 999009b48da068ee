"""What the disc does to the fuselage: the tail rotor's push and the lean against it, control power, the disc behind the mast."""

import math
from dataclasses import replace
from typing import TYPE_CHECKING

from ...blade.flap import Flapping, flap_frequency_squared, flapping_of
from ...conventions import after_side, before_side
from ...fields import Step
from ...rotor import SEA_LEVEL_DENSITY, Rotor
from ...units import STANDARD_GRAVITY
from ..model import Amount, Option, Question, Setting, Template, Wrong, around
from ..ways import HANDBOOK, worked
from .wording import drawn, places, shown, text_of

if TYPE_CHECKING:
    from ...flight.trim import Balanced

DEGREE = math.radians(1.0)
STICK, POWER = "stick", "control-power"
TENDENCY = f"{HANDBOOK}, ch. 2: translating tendency (the sense of it)."
LOW_G = f"{HANDBOOK}, p. 11-14 (read): offset hinges give moment without thrust, teetering rotors rely on the thrust’s tilt."


def _loaded(setting: Setting) -> "tuple[Rotor, Balanced, str]":
    """The head with a drawn mass; its hover, tail rotor and all; the mass as it is typed."""
    from ...flight.inflow import DEFAULT_MODEL
    from ...flight.trim import balanced

    rotor = setting.rotor
    share = setting.draw.among((0.8, 0.85, 0.9, 0.95, 1.0))
    loaded = replace(rotor, weight=share * rotor.weight)
    hover = balanced(loaded, 0.0, SEA_LEVEL_DENSITY, None, DEFAULT_MODEL)
    return loaded, hover, text_of(loaded.weight / STANDARD_GRAVITY)


def _drift(setting: Setting) -> Question:
    rotor, hover, mass = _loaded(setting)
    push, lean = before_side(rotor.rotation), after_side(rotor.rotation)
    size = setting.show("angle", math.atan2(hover.push, hover.disc.thrust))
    steps = (
        Step(
            "The tail rotor’s push, against the torque at the mast.",
            f"{shown(setting, 'force', hover.push)} to the {push}",
        ),
        Step("Over the weight: the lean of the disc against the horizon.", f"{size}, low on the {lean}"),
    )
    return Question(
        f"{setting.label} turns {rotor.rotation}, seen from above, and hovers with {setting.show('mass', rotor.weight / STANDARD_GRAVITY, 0)} in still air; a tail rotor answers its torque. In thought the disc "
        "is level for a moment. Which way does the machine drift, and which way must the disc lean to hold it?",
        drawn(setting, f"It drifts to the {push}; the disc leans to the {lean}", (
            Option(f"It drifts to the {push}; the disc leans to the {push}", "lean-with-the-drift"),
            Option(f"It drifts to the {lean}; the disc leans to the {push}", "drift-to-the-retreating-side"),
            Option("It doesn’t drift: the tail rotor only holds the nose straight", "tail-rotor-only-turns"),
        )),
        f"The fuselage would turn against the rotor, its nose to the {before_side(rotor.rotation)}. The tail is pushed to the {push} against that, and the whole machine with it. The lean, "
        f"{size} here, pulls back.",
        worked(setting, "stick", steps, TENDENCY, speed="0", mass=mass),
    )  # fmt: skip


def _tail(setting: Setting) -> Question:
    from ...flight.tail import TAIL_ARM, tail_thrust

    rotor, hover, mass = _loaded(setting)
    arm = max(0.1, round(TAIL_ARM * rotor.radius, 1))
    torque, value = hover.power / rotor.speed, tail_thrust(hover.power, rotor.speed, arm)
    tolerance = 0.04 * value
    wrong = (Wrong(torque / rotor.radius, "torque-is-answered-at-the-tips"), Wrong(0.0, "tail-rotor-only-turns"))
    told = f"{shown(setting, 'moment', torque)} / {setting.show('length', arm)} = {shown(setting, 'force', value)}"
    return Question(
        f"In a hover the rotor of {setting.label}, {setting.show('length', rotor.radius)} in radius, is driven with a torque of {shown(setting, 'moment', torque)}. The tail rotor stands "
        f"{setting.show('length', arm)} behind the mast, and no wind blows. With what force does it push the machine to the {before_side(rotor.rotation)}?",
        Amount(value, "force", tolerance, places(setting, "force", value), around(value, tolerance, wrong)),
        f"Torque over distance from the mast: {told}. Some of a real machine’s fin stands in the way; that is left out.",
        worked(setting, "stick", (Step("Torque over the distance from mast to tail rotor.", told),), TENDENCY, speed="0", mass=mass),
    )  # fmt: skip


def _lean(setting: Setting) -> Question:
    rotor, hover, mass = _loaded(setting)
    value = math.atan2(hover.push, hover.disc.thrust)
    tolerance = 0.05 * value
    wrong = (
        Wrong(hover.push / rotor.weight * math.pi / 2.0, "lean-is-a-share-of-a-right-angle"),
        Wrong(0.0, "hover-is-upright"),
    )
    push, weight = shown(setting, "force", hover.push), shown(setting, "force", rotor.weight)
    steps = (
        Step(
            "Push over weight, as an angle.",
            f"{push} / {weight} = {hover.push / rotor.weight:.4f}; {setting.show('angle', value, 2)}",
        ),
    )
    return Question(
        f"{setting.label} weighs {weight} and hovers in still air. Its tail rotor pushes it to the {before_side(rotor.rotation)} with {push}. By how many degrees must the disc lean to the "
        f"{after_side(rotor.rotation)}, against the horizon?",
        Amount(value, "angle", tolerance, 2, around(value, tolerance, wrong)),
        "The leaning pull carries the weight upward and the push sideways. For a small angle, push over weight is the angle in radians, and each is 57.3°.",
        worked(setting, "stick", steps, TENDENCY, speed="0", mass=mass),
    )  # fmt: skip


def _per_degree(setting: Setting, moment: float) -> str:
    return shown(setting, "moment_per_angle", moment)


def _at_load(setting: Setting) -> Question:
    from ...flight.hub import tilt_moment

    rotor = setting.rotor
    load = setting.draw.among((0.25, 0.5, 0.75, 1.5, 1.75, 2.0))
    one, found = tilt_moment(rotor), tilt_moment(rotor, load)
    value = found.total
    tolerance = 0.03 * value
    wrong = (
        Wrong(one.total * load, "all-goes-with-load"),
        Wrong(one.total, "load-factor-does-not-matter"),
        Wrong(found.thrust, "hub-adds-nothing"),
    )
    hub, pull = _per_degree(setting, found.hub), _per_degree(setting, found.thrust)
    steps = (
        Step("The hub’s part: it doesn’t ask for the load factor.", hub),
        Step(
            "The leaning pull’s part: with the load factor.", f"{load:g} × {_per_degree(setting, one.thrust)} = {pull}"
        ),
    )
    return Question(
        f"In straight flight each degree of disc tilt turns {setting.label} with {_per_degree(setting, one.thrust)} by the leaning pull, and with "
        f"{_per_degree(setting, one.hub)} by the hub. What is it in all at a load factor of {load:g}, at the same rotor speed?",
        Amount(value, "moment_per_angle", tolerance, places(setting, "moment_per_angle", value), around(value, tolerance, wrong)),
        f"The pull goes with the load factor, the hub’s part doesn’t: {pull} and {hub}.",
        worked(setting, "control-power", steps, LOW_G, load_factor=text_of(load)),
    )  # fmt: skip


def _weightless(setting: Setting) -> Question:
    from ...flight.hub import tilt_moment

    rotor = setting.rotor
    tilt = setting.draw.step(1, 4, 1)
    one, none = tilt_moment(rotor), tilt_moment(rotor, 0.0)
    whole, left = (shown(setting, "moment", x * tilt * DEGREE) for x in (one.total, none.total))
    nothing = "Nothing at all"
    gone = none.total < 1e-9 * one.total
    kept = f"{left}: what the hub makes by itself"
    half = shown(setting, "moment", 0.5 * one.total * tilt * DEGREE)
    steps = (
        Step("Each degree by the hub, and by the leaning pull at a load factor of 1.", f"{_per_degree(setting, one.hub)}; {_per_degree(setting, one.thrust)}"),
        Step("At nought only the hub’s part is left.", left if not gone else "0"),
    )  # fmt: skip
    return Question(
        f"In straight flight {tilt:.0f}° of disc tilt turn {setting.label}, a head of the {rotor.head.option('type')} kind, with {whole}. For a moment the machine is weightless: the load factor is "
        "nought, and the rotor pulls with nothing. With how much does the same tilt turn it then?",
        drawn(setting, nothing if gone else kept, (
            Option(f"{half}: half of it is the hub’s", "every-hub-pulls-over") if gone else Option(nothing, "every-rotor-is-lost"),
            Option(f"{whole}, as ever", "load-factor-does-not-matter"),
            Option(f"More than {whole}: nothing holds it", "weightless-is-lively"),
        )),
        "Only a pull that leans has an arm. "
        + ("A hinge on the mast’s axis passes nothing else on. " if gone else "Hinges away from the mast, or stiff roots, pull the hub over besides. ")
        + "This is how it comes about, and not how it is flown: that is in the flight manual and in training.",
        worked(setting, "control-power", steps, LOW_G, load_factor="0"),
    )  # fmt: skip


def _share(setting: Setting) -> Question:
    from ...flight.hub import tilt_moment

    rotor = setting.rotor
    load = setting.draw.among((0.8, 0.9, 1.0, 1.1, 1.2))
    found = tilt_moment(rotor, load)
    value = found.hub_share or 0.0
    tolerance = 0.02
    wrong = (
        Wrong(0.0, "hub-adds-nothing"),
        *(
            (Wrong(found.hub / found.thrust, "part-over-the-other-part"),)
            if found.hub
            else (Wrong(0.5, "every-hub-pulls-over"),)
        ),
    )
    pull, height = shown(setting, "force", load * rotor.weight), setting.show("length", rotor.mast_above_cg)
    steps = (
        Step("The leaning pull: pull times height of the hub above the centre of gravity, for each degree.", _per_degree(setting, found.thrust)),
        Step("The hub, for each degree; and its share of both.", f"{_per_degree(setting, found.hub)}; {setting.show('percent', value)}"),
    )  # fmt: skip
    return Question(
        f"At a load factor of {load:g} the rotor of {setting.label} pulls with {pull}, and its hub stands {height} above the centre of gravity: for each degree of tilt that makes "
        f"{_per_degree(setting, found.thrust)}. By its hinges and roots the hub makes {_per_degree(setting, found.hub)} more. What share of the whole comes from the hub?",
        Amount(value, "percent", tolerance, 0, around(value, tolerance, wrong)),
        "The hub’s part over both. It stays when the load factor changes, and so its share grows as the load falls.",
        worked(setting, "control-power", steps, LOW_G, load_factor=text_of(load)),
    )  # fmt: skip


def central(rotor: Rotor) -> Flapping:
    """The head's blades in thought on free hinges on the mast's axis, with the Lock number they have."""
    own = flapping_of(rotor)
    eighth = own.gamma / 8.0
    return replace(own, e=0.0, nu_squared=1.0, tan_delta3=0.0, pitch_moment=eighth, damping=eighth)


def _own_hub(setting: Setting, rate: float) -> Step:
    """The same rate on the hub as it is."""
    from ...flight.hub import rate_response

    rotor = setting.rotor
    found = rate_response(flapping_of(rotor), flap_frequency_squared(rotor.hinge_offset), rotor.speed, rate)
    told = "; ".join(setting.show("angle", x, 2) for x in (found.cosine, found.sine))
    return Step(
        "On this head’s own hub, where hinges, springs and delta-three have their say: behind, and across.", told
    )


def _behind(setting: Setting) -> Question:
    from ...flight.hub import rate_response

    rotor = setting.rotor
    rate = setting.draw.step(10, 30, 5) * DEGREE
    found = rate_response(central(rotor), 1.0, rotor.speed, rate)
    lag, across = (setting.show("angle", abs(x), 1) for x in (found.cosine, found.sine))
    strong, weak = before_side(rotor.rotation), after_side(rotor.rotation)
    side, other = (weak, strong) if found.sine > 0.0 else (strong, weak)
    steps = (
        Step("Behind the mast: sixteen over the Lock number, times the rate over rotor speed.",
             f"16 / {central(rotor).gamma:.2f} × {rate / rotor.speed:.5f} = {setting.show('angle', found.cosine, 2)}"),
        Step("Across: the rate over rotor speed.", setting.show("angle", found.sine, 2)),
        _own_hub(setting, rate),
    )  # fmt: skip
    return Question(
        f"{setting.label} turns {rotor.rotation}, seen from above. In thought its flap hinges stand on the mast’s axis, and the inflow stays even. The nose goes up at a steady {setting.show('angle_rate', rate, 0)}. "
        "How does the disc then stand against the mast?",
        drawn(setting, f"Low at the nose by {lag}, and low on the {side} by {across}", (
            Option(f"Low at the nose by {lag}, and level from side to side", "answer-is-straight"),
            Option(f"Low at the tail by {lag}, and level from side to side", "disc-runs-ahead"),
            Option(f"Low at the nose by {lag}, and low on the {other} by {across}", "wrong-way-of-turning"),
            Option("Square to the mast, which carries it round", "mast-carries-the-disc"),
        )),
        "The air has to carry the blades round after the mast, and for that the disc must stand behind it. And blades whose plane is turned are pushed once a turn by their own spin, which "
        "comes out across. Such a disc turns the machine against the rate: that is damping.",
        worked(setting, "control-power", steps, "K. B. Amer, NACA TN 2136 (from memory).", turning=text_of(math.degrees(rate))),
    )  # fmt: skip


def _across(setting: Setting) -> Question:
    from ...flight.hub import rate_response

    rotor = setting.rotor
    rate = setting.draw.step(10, 30, 5) * DEGREE
    found = rate_response(central(rotor), 1.0, rotor.speed, rate)
    gamma, value = central(rotor).gamma, abs(found.sine / found.cosine)
    tolerance = 0.02
    wrong = (
        Wrong(0.0, "answer-is-straight"),
        Wrong(4.0 / gamma, "lock-number-upside-down"),
        Wrong(1.0, "across-is-all"),
    )
    steps = (
        Step(
            "Across over behind: the Lock number over sixteen.", f"{gamma:.2f} / 16 = {setting.show('percent', value)}"
        ),
        _own_hub(setting, rate),
    )
    return Question(
        f"In thought the flap hinges of {setting.label} stand on the mast’s axis, and the inflow stays even; the Lock number is {gamma:.2f}. While the nose goes up at a steady {setting.show('angle_rate', rate, 0)}, the disc "
        "stands behind the mast, and a little across. With a Lock number of 8 there would be half as much across as behind. How much is it here, in per cent?",
        Amount(value, "percent", tolerance, 0, around(value, tolerance, wrong)),
        "Behind goes with one over the Lock number, for the air does that; across doesn’t ask for the air. So the share goes with the Lock number, here over sixteen.",
        worked(setting, "control-power", steps, "K. B. Amer, NACA TN 2136 (from memory).", turning=text_of(math.degrees(rate))),
    )  # fmt: skip


TEMPLATES = (
    Template("drift-and-lean", "drift", 1, "which way the tail rotor pushes and the disc leans", "choice", (STICK,), _drift),
    Template("tail-rotor-push", "drift", 2, "how hard the tail rotor pushes", "number", (STICK,), _tail),
    Template("lean-of-the-disc", "drift", 2, "that the lean is push over weight", "number", (STICK,), _lean),
    Template("moment-at-load", "control-power", 2, "which part of the moment goes with the load factor", "number", (POWER,), _at_load),
    Template("weightless-moment", "control-power", 1, "what is left of the moment without load", "choice", (POWER,), _weightless),
    Template("hub-share", "control-power", 2, "the hub’s share of the moment", "number", (POWER,), _share),
    Template("disc-behind-the-mast", "control-power", 3, "how the disc stands in a steady rate", "choice", (POWER,), _behind),
    Template("across-the-rate", "control-power", 3, "how much of the answer to a rate comes across", "number", (POWER,), _across),
)  # fmt: skip
