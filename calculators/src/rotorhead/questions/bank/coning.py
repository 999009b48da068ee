"""Coning: what rotor speed, pull and load do to it, and which force on a blade is the greatest."""

import math
from dataclasses import replace

from ...blade.flap import flap_frequency_squared
from ...conventions import count_word, degrees_text
from ...rotor import Rotor
from ...units import STANDARD_GRAVITY
from ..model import Amount, Option, Order, Question, Setting, Template, Wrong, around
from .wording import drawn, shown, text_of

DEGREE = math.radians(1.0)
# Where lift acts on the blade thought of, over R; common practice, between the textbooks' 2/3 and 3/4.
LIFT_AT = 0.7


def free_cone(rotor: Rotor, share: float = 1.0) -> float:
    """Coning (rad) in thought: hinges on the mast's axis and free, blades without weight, lift held at the head's weight."""
    from ...flight.coning import coning_from_thrust

    inertia = rotor.blade_mass * rotor.radius**2 / 3.0
    return coning_from_thrust(rotor.weight, rotor.blades, LIFT_AT * rotor.radius, inertia, rotor.speed * share)


def _slower(setting: Setting) -> Question:
    rotor = setting.rotor
    percent = setting.draw.among((82, 85, 88, 90, 92, 94))
    share = percent / 100.0
    solved = setting.run("coning", rotor_speed=text_of(percent))
    before, value = free_cone(rotor), free_cone(rotor, share)
    tolerance = 0.025 * value
    wrong = (
        Wrong(before, "lift-alone-sets-coning"),
        Wrong(before / share, "coning-goes-straight-with-rpm"),
        Wrong(before * share * share, "slower-is-flatter"),
    )
    return Question(
        f"In thought the blades of {setting.label} hang on free hinges at the mast’s axis, and their own weight is left out. At full rotor speed "
        f"they cone by {setting.show('angle', before, 2)}. Rotor speed falls to {percent}%, the lift is held. By how much do they cone now?",
        Amount(value, "angle", tolerance, 2, around(value, tolerance, wrong)),
        f"The pull that holds them down goes with the square of rotor speed: 1 / {share:.2f}² = {1.0 / share**2:.2f} times the cone. "
        f"{_own_hub(setting, solved.value('slow_times'))}",
        solved,
    )


def _own_hub(setting: Setting, slow: float) -> str:
    if setting.rotor.head.option("type") == "teetering":
        return "Its real hub holds its cone, and the blades bend instead."
    return f"On the real hub it is {slow:.2f} times at 90%, where 1 / 0.9² is 1.23."


def _pull(setting: Setting) -> Question:
    rotor = setting.rotor
    percent = setting.draw.among((90, 95, 100, 105, 110))
    loaded = replace(rotor, weight=rotor.weight * percent / 100.0)
    solved = setting.run("coning", mass=text_of(loaded.weight / STANDARD_GRAVITY))
    pull = rotor.blade_mass * rotor.speed**2 * rotor.radius / 2.0
    lift, value = loaded.weight / loaded.blades, free_cone(loaded)
    tolerance = 0.1 * value
    wrong = (
        Wrong(value * rotor.blades, "each-blade-carries-all"),
        Wrong(value / rotor.blades, "pull-is-shared-too"),
    )
    return Question(
        f"In thought the {count_word(rotor.blades)} blades of {setting.label} hang on free hinges at the mast’s axis. In the hover they carry "
        f"{shown(setting, 'pull', loaded.weight)} together, and turning pulls each of them outward with {shown(setting, 'pull', pull)}. Their own weight "
        "is left out. By how many degrees do they cone, to within a tenth?",
        Amount(value, "angle", tolerance, 1, around(value, tolerance, wrong)),
        f"Lift over pull of one blade, as an angle: {shown(setting, 'pull', lift)} / {shown(setting, 'pull', pull)} = {degrees_text(lift / pull)}. Where along the "
        "blade its lift acts makes the rest.",
        solved,
    )


def _loaded(setting: Setting) -> Question:
    from ...flight.coning import coning_from_thrust, holds_precone, lift_lever

    rotor = setting.rotor
    load = setting.draw.among((1.3, 1.4, 1.5, 1.8, 2.0))
    solved = setting.run("coning")
    holds = holds_precone(rotor)
    nu_squared = flap_frequency_squared(rotor.hinge_offset, rotor.root_spring, rotor.flap_inertia, rotor.speed)
    weight = rotor.flap_static_moment * STANDARD_GRAVITY
    one, more, square = (
        coning_from_thrust(rotor.weight * n, rotor.blades, lift_lever(rotor), rotor.flap_inertia, rotor.speed, weight, nu_squared,
                           rotor.root_spring * rotor.precone)
        for n in (1.0, load, load * load)
    )  # fmt: skip
    now = rotor.precone if holds else one
    at = setting.show("angle", now)
    new, much = (setting.show("angle", x if not holds else now * n) for x, n in ((more, load), (square, load * load)))
    grows, stays = f"To {new}, about in proportion to the lift", f"Not at all: the hub holds {at}"
    return Question(
        f"In straight flight the blades of {setting.label}, a head of the {rotor.head.option('type')} kind, cone by {at}. In a steep turn the load "
        f"factor is {load:.1f}, at the same rotor speed. How far does the cone grow?",
        drawn(setting, stays if holds else grows, (
            Option(grows, "every-hub-cones") if holds else Option(stays, "hub-holds-the-cone"),
            Option(f"To {much}, with the square of the lift", "coning-goes-with-lift-squared"),
            Option(f"It stays {at}: the pull outward grows with the lift", "pull-grows-with-lift"),
        )),
        "Lift has grown and the pull outward hasn’t. "
        + ("A see-saw hub has no hinge for coning; its blades bend up from the cone it is built with." if holds
           else "The blades rise until the pull, through a greater angle, holds the greater lift."),
        solved,
    )  # fmt: skip


def _forces(setting: Setting) -> Question:
    rotor = setting.rotor
    percent = setting.draw.among((90, 95, 100, 105, 110))
    mass = rotor.weight / STANDARD_GRAVITY * percent / 100.0
    hover = setting.run("hover", mass=text_of(mass))
    solved = setting.run("coning", mass=text_of(mass))
    reach = 0.75 * rotor.radius
    sizes = {
        "The pull outward at its root": solved.value("pull"),
        "The weight of the whole machine": rotor.weight * percent / 100.0,
        "Its lift": solved.value("lift"),
        "Its drag": hover.value("power") / rotor.speed / rotor.blades / reach,
        "Its own weight": rotor.blade_mass * STANDARD_GRAVITY,
    }
    order = sorted(sizes, key=lambda name: -sizes[name])
    told = ", ".join(shown(setting, "force", sizes[name]) for name in order)
    return Question(
        f"{setting.label} hovers with {setting.show('mass', mass, 0)}. Think of one of its {count_word(rotor.blades)} blades. Put these forces in order, the "
        "greatest first.",
        Order(tuple(order), "lift-is-the-greatest-force"),
        f"In that order: {told}. The pull keeps the blade straight and lets it cone by {setting.show('angle', solved.value('coning'))} only.",
        solved,
    )


TEMPLATES = (
    Template("coning-over-rpm", "coning", 2, "that coning goes with one over rotor speed squared", "number", ("coning",), _slower),
    Template("cone-from-pull", "coning", 2, "that coning is lift over pull", "number", ("coning",), _pull),
    Template("cone-under-load", "coning", 1, "what a load factor does to the cone", "choice", ("coning",), _loaded),
    Template("forces-on-a-blade", "coning", 1, "how great the pull on a blade is beside its lift", "order", ("coning", "hover"), _forces),
)  # fmt: skip
