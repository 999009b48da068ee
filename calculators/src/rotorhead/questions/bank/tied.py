"""Delta-three, the tie between flapping and pitch; lead and lag in the plane of the disc."""

import math

from ...blade.flap import hover_coning
from ...conventions import degrees_text
from ..model import Amount, Option, Question, Setting, Template, Wrong, around
from .wording import drawn, places, shown, text_of

DEGREE = math.radians(1.0)
# A lag hinge to think of on a head whose blades have none, over the radius.
LAG_HINGE = 0.03


def _degrees(angle: float) -> str:
    return text_of(round(math.degrees(angle), 6))


def _taken_off(setting: Setting) -> Question:
    rotor = setting.rotor
    share = setting.draw.among((-0.3, -0.2, 0.15, 0.2, 0.25, 0.3, 0.4))
    flap = setting.draw.step(3, 6, 1) * DEGREE
    arm = abs(rotor.arm)
    out = max(0.005, round(abs(share) * arm, 3)) * (1.0 if share > 0.0 else -1.0)
    tangent = out / rotor.arm
    solved = setting.run("delta-three", given="typed", delta3=_degrees(math.atan(tangent)), flap=_degrees(flap))
    value = -tangent * flap
    tolerance = max(0.06 * abs(value), 0.02 * DEGREE)
    wrong = (
        Wrong(-value, "flapping-puts-pitch-on" if value < 0.0 else "flapping-takes-pitch-off"),
        Wrong(0.0, "only-the-plate-sets-pitch"),
        Wrong(-flap / tangent, "tie-turned-upside-down"),
    )
    side, horns = "further out" if out > 0.0 else "further in", "trailing" if rotor.trailing else "leading"
    return Question(
        f"In thought the horns of {setting.label}, {horns} ones with arms of {shown(setting, 'small_length', arm)}, end "
        f"{shown(setting, 'small_length', abs(out))} {side} than the flap hinge and go up and down with the blades; the links stand upright. A blade flaps up by "
        f"{degrees_text(flap, 0)}, the plate is still. By how much does its pitch change? Write pitch taken off with a minus sign.",
        Amount(value, "angle", tolerance, 2, around(value, tolerance, wrong)),
        "The link holds the horn’s end, and the blade turns about it: travel of the flapping, distance times flap, over the horn’s arm. "
        f"For each degree of flap that is {abs(tangent):.2f}° {'off' if tangent > 0.0 else 'on'}.",
        solved,
    )


def _lag(setting: Setting) -> Question:
    angle = setting.draw.among((-15, -10, 10, 15, 20, 25, 30)) * DEGREE
    solved = setting.run("delta-three", given="typed", delta3=_degrees(angle))
    free, tied = solved.value("lag_free"), solved.value("lag")
    size = abs(tied - free)
    at, ninety = (setting.show("angle", x) for x in (free, math.pi / 2.0))
    falls, grows = (
        f"It falls to {setting.show('angle', free - size)}",
        f"It grows to {setting.show('angle', free + size)}",
    )
    right, turned = (falls, grows) if tied < free else (grows, falls)
    way = "takes pitch off" if angle > 0.0 else "puts pitch on"
    return Question(
        f"Without any tie between flapping and pitch, the disc of {setting.label} answers {at} after the pitch that the plate asks for. In thought its horns are "
        f"set so that flapping up {way}: delta-three of {degrees_text(angle, 0)}. What becomes of that lag?",
        drawn(setting, right, (
            Option(turned, "tie-sign-turned"),
            Option(f"It stays at {at}", "tie-leaves-the-lag"),
            *([Option(f"It is {ninety}, here as everywhere", "lag-is-always-ninety")] if abs(free - math.pi / 2.0) > 0.2 * DEGREE
              else [Option(f"It becomes {degrees_text(abs(angle), 0)}", "tie-is-the-lag")]),
        )),
        f"A tie that takes pitch off is one more spring on the blade, and one that puts it on is a spring the less. The blade would swing {solved.value('nu'):.2f} times "
        f"a turn in place of {solved.value('nu_free'):.2f}.",
        solved,
    )  # fmt: skip


def _put_back(setting: Setting) -> Question:
    share = setting.draw.among((-0.3, -0.2, 0.2, 0.25, 0.3, 0.4, 0.5))
    coning = round(math.degrees(hover_coning(setting.rotor)) + setting.draw.among((0.0, 0.3, 0.6, 1.0)), 1) * DEGREE
    solved = setting.run("delta-three", given="typed", delta3=_degrees(math.atan(share)), coning=_degrees(coning))
    value = share * coning
    tolerance = max(0.05 * abs(value), 0.02 * DEGREE)
    wrong = (
        Wrong(math.copysign(coning, value), "coning-comes-off-whole"),
        Wrong(-value, "tie-pays-the-lever"),
        Wrong(0.0, "coning-is-no-flapping"),
    )
    return Question(
        f"In thought the blades of {setting.label} cone by {setting.show('angle', coning)} on free flap hinges, and their horns stand so that each degree of "
        f"flapping up {'takes off' if share > 0.0 else 'puts on'} {abs(share):.2f}° of pitch. How much more collective must the plate ask for than with no such "
        "tie? Write less with a minus sign.",
        Amount(value, "angle", tolerance, 2, around(value, tolerance, wrong)),
        f"{abs(share):.2f} × {setting.show('angle', coning)}: coning is the part of flapping that stays, and the horn’s end can’t tell it from the rest.",
        solved,
    )


def _ahead(setting: Setting) -> Question:
    rises = setting.draw.among((True, False))
    coning = max(round(math.degrees(hover_coning(setting.rotor)), 1), 0.5) * DEGREE
    tilt = setting.draw.step(1, 4, 1) * DEGREE
    solved = setting.run("lead-lag", coning=_degrees(coning), tilt=_degrees(tilt))
    going, nearer = ("rises", "nearer to") if rises else ("sinks", "further from")
    ahead = "Forward: it would run ahead"
    back = "Back: it would fall behind"
    right, other = (ahead, back) if rises else (back, ahead)
    return Question(
        f"The blades of {setting.label} are coned by {setting.show('angle', coning)}, and the disc is tilted {setting.show('angle', tilt)} against the mast. Think of a "
        f"blade just as it {going}. Leave the air aside. Which way does the flapping push it, in the plane of the disc?",
        drawn(setting, right, (
            Option(other, "rising-blade-is-held-back"),
            Option("Neither way: flapping goes up and down", "flapping-stays-in-its-plane"),
            Option(f"Only {'inward' if rises else 'outward'}, along its length", "distance-only-pulls"),
        )),
        f"A coned blade that {going} comes {nearer} the mast’s axis, and would turn {'faster' if rises else 'more slowly'}. Here that pushes it with "
        f"{shown(setting, 'moment', solved.value('moment_1'))} at the most.",
        solved,
    )  # fmt: skip


def _push(setting: Setting) -> Question:
    from ...flight.flapper import Flap
    from ...flight.lead_lag import coriolis

    first, then = setting.draw.among(((2.0, 2.5), (2.0, 3.0), (3.0, 4.0), (4.0, 5.0), (4.0, 3.0)))
    low, high = setting.draw.among(((1.0, 2.0), (1.0, 3.0), (2.0, 3.0), (3.0, 1.5)))
    # Both hang on one hinge: the scale between angles and moment stays.
    before = setting.run("lead-lag", coning=text_of(first), tilt=text_of(low)).value("moment_1")
    solved = setting.run("lead-lag", coning=text_of(then), tilt=text_of(high))
    pushes = [coriolis(Flap(a * DEGREE, b * DEGREE, 0.0))[0] for a, b in ((first, low), (then, high))]
    value = before * pushes[1] / pushes[0]
    tolerance = 0.03 * value
    wrong = (
        Wrong(before * high / low, "push-from-flapping-alone"),
        Wrong(before * then / first, "push-from-coning-alone"),
    )
    cones, tilts = ([degrees_text(x * DEGREE) for x in pair] for pair in ((first, then), (low, high)))
    return Question(
        f"With {cones[0]} of coning and the disc tilted {tilts[0]} against the mast, flapping pushes each blade of {setting.label} forward and back in its plane with "
        f"{shown(setting, 'moment', before)}, once a turn. Then the coning is {cones[1]} and the tilt {tilts[1]}. With how much does it push now?",
        Amount(value, "moment", tolerance, places(setting, "moment", value), around(value, tolerance, wrong)),
        f"The push goes with coning times flapping: {then / first:.2f} × {high / low:.2f} = {then / first * high / low:.2f} times as much.",
        solved,
    )


def _rhythm(setting: Setting) -> Question:
    from ...flight.lead_lag import lag_frequency_squared

    rotor = setting.rotor
    hinge = rotor.hinge_offset if 0.005 < rotor.hinge_offset < 0.07 else LAG_HINGE
    times, words = setting.draw.among(
        (
            (0.5, "half as far out"),
            (2.0, "twice as far out"),
            (2.5, "two and a half times as far out"),
            (3.0, "three times as far out"),
        )
    )
    before, value = (math.sqrt(lag_frequency_squared(e)) for e in (hinge, hinge * times))
    solved = setting.run("lead-lag", lag_offset=text_of(hinge * times), lag_spring="0")
    tolerance = 0.04 * value
    wrong = (
        Wrong(before * times, "rhythm-goes-with-distance"),
        Wrong(before, "rhythm-is-the-blades"),
        Wrong(1.0, "in-plane-like-flap"),
    )
    return Question(
        f"In thought the blades of {setting.label} hang on free lag hinges at {setting.show('percent', hinge, 1)} of the radius, without springs. Left to itself a blade swings "
        f"{before:.3f} times in a turn, forward and back. The hinges are moved {words}. How many swings in a turn are there now?",
        Amount(value, "ratio", tolerance, 3, around(value, tolerance, wrong)),
        f"What brings it back grows with the hinge’s distance, and the rhythm with its square root: about √{times:g} = {math.sqrt(times):.2f} times.",
        solved,
    )


TEMPLATES = (
    Template("pitch-taken-off", "delta-three", 2, "how much pitch a tied blade loses or gains as it flaps", "number", ("delta-three",), _taken_off),
    Template("lag-with-a-tie", "delta-three", 2, "what delta-three does to the lag", "choice", ("delta-three",), _lag),
    Template("collective-put-back", "delta-three", 3, "what coning costs in collective with delta-three", "number", ("delta-three",), _put_back),
    Template("rising-blade-in-plane", "lead-lag", 1, "which way flapping pushes a blade in the plane", "choice", ("lead-lag",), _ahead),
    Template("push-in-the-plane", "lead-lag", 3, "that the push in the plane is coning times flapping", "number", ("lead-lag",), _push),
    Template("rhythm-in-the-plane", "lead-lag", 3, "what sets the rhythm of lead and lag", "number", ("lead-lag",), _rhythm),
)  # fmt: skip
