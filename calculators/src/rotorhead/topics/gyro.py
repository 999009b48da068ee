"""Calculator *gyro*: a free spinning disc beside a flapping blade."""

import math

from ..blade.flap import flapping_of
from ..drawing.schemes import precession_compared
from ..fields import Answer, Calculator, Case, Drawing, Example, Number, Result, Step, Values, fixed
from ..rotor import Rotor


def compute(values: Values, rotor: Rotor) -> Answer:
    """Free disc: I = m R²/2, rate = M/(I Ω), nutation 2Ω. Blade: lag, tilt for 1° of cyclic, settling."""
    speed = float(values["disc_rpm"])
    inertia = float(values["disc_mass"]) * float(values["disc_radius"]) ** 2 / 2.0
    rate = float(values["push"]) / (inertia * speed)
    f = flapping_of(rotor)
    return Answer(
        {
            "rate": rate,
            "direction": math.pi / 2.0,
            "after": rate * float(values["time"]),
            "nutation": 2.0 * speed,
            "disc_inertia": inertia,
            "flap_lag": f.lag,
            "flap_tilt": f.gain * math.radians(1.0),
            "settle": f.settle_63 / rotor.speed,
        },
        f,
    )


def describe(case: Case) -> str:
    """One sentence."""
    return (
        f"The free disc tilts 90° on at {case.show('angle_rate', case.result('rate'))} for as long as the push lasts: "
        f"{case.show('angle', case.result('after'), 2)} after {case.show('time', case.number('time'), 1)}. "
        f"A blade of this head answers {case.show('angle', case.result('flap_lag'))} on, settles 63% within "
        f"{case.show('time', case.result('settle'))} and then stays: {case.show('angle', case.result('flap_tilt'), 2)} of tilt for "
        "each degree of cyclic pitch."
    )


def working(case: Case) -> tuple[Step, ...]:
    """Disc, then blade."""
    f = case.answer.details
    inertia, speed = case.result("disc_inertia"), case.number("disc_rpm")
    return (
        Step("Free disc: inertia about the axis it spins on.", f"I = {case.show('inertia', inertia, 1)}", "inertia"),
        Step("It tilts at right angles to the push, evenly, without end.",
             f"{case.show('moment', case.number('push'))} / ({case.show('inertia', inertia, 1)} × {speed:.2f} rad/s) = "
             f"{case.show('angle_rate', case.result('rate'))}", "rate"),
        Step("A jolt makes it wobble at twice its speed of turning, undamped.",
             f"2 × {case.show('turn_rate', speed)} = {case.show('turn_rate', case.result('nutation'))}"),
        Step("Flapping blade: driven at its own frequency or near it, and damped by the air.",
             f"lag {case.show('angle', f.lag)}, gain {f.gain:.3f}, damping {f.damping:.3f} per radian", "lag"),
    )  # fmt: skip


def drawing(case: Case) -> Drawing:
    """Tilt against time, both."""
    return precession_compared(
        case.result("rate"),
        case.number("time"),
        case.result("settle"),
        case.result("flap_tilt"),
        case.result("flap_lag"),
    )


CALCULATOR = Calculator(
    id="gyro",
    title="Spinning disc and flapping blade",
    question="What does “gyroscopic precession” explain, and what doesn't it?",
    page="principles/precession-or-lag.md",
    inputs=(
        Number("push", "Steady push on the free disc", "moment", 1, 1e6, (100, 5000, 50), fixed(1000.0), 0),
        Number("time", "… for", "time", 0.01, 60, (0.1, 5, 0.1), fixed(1.0), 1),
        Number("disc_mass", "Mass of the free disc", "mass", 1, 5000, (20, 600, 5), fixed(200.0), 0, group="The free disc"),
        Number("disc_radius", "Its radius", "length", 0.1, 20, (1, 10, 0.1), fixed(5.0), 1, group="The free disc"),
        Number("disc_rpm", "Its speed", "turn_rate", 10, 5000, (100, 600, 5), fixed(380.0), 0, group="The free disc"),
    ),
    figures_first=("hinge_offset",),
    figures=("rpm", "blade_mass_kg", "chord_m", "radius_m", "root_spring_Nm_per_rad", "horn_station_mm", "arm_mm",
             "horn_rides_with_flap"),
    results=(
        Result("rate", "Free disc tilts at", "angle_rate", 2),
        Result("after", "… and has tilted", "angle", 2),
        Result("direction", "… this far after the push", "angle", 0),
        Result("flap_lag", "Blade answers after", "angle", 1),
        Result("flap_tilt", "Disc tilt for 1° of cyclic", "angle", 2),
        Result("settle", "63% settled after", "time", 3),
        Result("nutation", "Free disc wobbles at", "turn_rate", 0, main=False),
        Result("disc_inertia", "Inertia of the free disc", "inertia", 0, main=False),
    ),
    compute=compute,
    describe=describe,
    working=working,
    drawing=drawing,
    equations={
        "inertia": r"I = \frac{m R^2}{2}",
        "rate": r"\dot\tau = \frac{M}{I\,\Omega}",
        "lag": r"\varphi = \operatorname{atan2}\left(M_{\dot\beta},\ \nu^2 - 1 + \tan\delta_3\,M_\theta\right)",
    },
    limits=(
        "The free disc is rigid, thin and without bearings or air; no helicopter rotor is.",
        "The two are put side by side to compare what they do, not how hard they are pushed.",
    ),
    sources=(
        "Steady precession of a fast top: any mechanics text (from memory); checked with a rigid-body engine.",
        "FAA-H-8083-21B, p. 2-17, for the handbook's word.",
    ),
    examples=(
        Example("200 kg disc of 5 m at 40 rad/s under 1000 N·m", "steady precession, mechanics texts (from memory)", "alder3",
                {"disc_rpm": "381.971863"}, {}, {"rate": (0.572958, 1e-6), "nutation": (763.943727, 1e-5)}),
    ),
)  # fmt: skip
