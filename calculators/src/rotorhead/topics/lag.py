"""Calculator *lag*: how far the blade's answer follows what the plate asks for, and how soon it settles."""

import math

from ..blade.flap import Flapping, flapping_of
from ..drawing.lag import lag_curves
from ..fields import Answer, Calculator, Case, Drawing, Example, Result, Step, Values
from ..flight.atmosphere import density
from ..rotor import Rotor
from .air_inputs import ALTITUDE, WARMER


def compute(values: Values, rotor: Rotor) -> Answer:
    """Flap frequency, lag (commanded, actual, with moment inflow), gain, settling."""
    air = density(float(values["altitude"]), float(values["warmer"]))
    f = flapping_of(rotor, air)
    return Answer(
        {
            "lag": f.lag,
            "lag_inflow": f.lag_inflow,
            "lag_actual": f.lag_actual,
            "nu": f.nu,
            "gain": f.gain,
            "lock": f.gamma,
            "lock_inflow": f.gamma_inflow,
            "density": air,
            "settle_63": f.settle_63 / rotor.speed,
            "settle_95": f.settle_95 / rotor.speed,
            "settle_turns": f.settle_95,
            "inflow_cross": math.tan(f.lag - f.lag_inflow),
        },
        f,
    )


def describe(case: Case) -> str:
    """One sentence."""
    return (
        f"The disc answers {case.show('angle', case.result('lag'))} after the pitch the plate asks for, "
        f"{case.result('gain'):.2f} of a degree for each degree, and is 95% there in "
        f"{case.show('time', case.result('settle_95'), 2)}, {case.show('turns', case.result('settle_turns'), 1)} of the rotor; "
        f"with inflow that follows the hub moment the lag is {case.show('angle', case.result('lag_inflow'))}."
    )


def working(case: Case) -> tuple[Step, ...]:
    """Lock number, stiffness, damping, lag, gain, settling."""
    r, f = case.rotor, case.answer.details
    assert isinstance(f, Flapping)
    air = case.result("density")
    restoring = f.nu_squared - 1.0 + f.tan_delta3 * f.pitch_moment
    return (
        Step("Lock number: lift against inertia, about the flap hinge.",
             f"γ = {air:.4f} × {r.lift_slope:.2f} × {r.chord:.3f} × {r.radius:.2f}⁴ / {r.flap_inertia:.1f} = {f.gamma:.3f} "
             "(SI units)", "lock"),
        Step("Flap frequency: what hinge distance and spring add to 1 per turn.",
             f"ν² = 1 + 3 × {f.e:.3f}/(2 × {1 - f.e:.3f}) + {r.root_spring:.0f}/({r.flap_inertia:.1f} × {r.speed:.2f}²) = "
             f"{f.nu_squared:.5f}, ν = {f.nu:.4f}", "nu"),
        Step("Damping and pitch moment of the flapping blade.",
             f"damping {f.damping:.4f}, pitch moment {f.pitch_moment:.4f}, tan δ₃ = {f.tan_delta3:.4f}", "damping"),
        Step("Lag from commanded pitch.", f"φ = atan2({f.damping:.4f}, {restoring:.4f}) = {math.degrees(f.lag):.2f}°", "lag"),
        Step("Lag from the pitch the blade really has (without the δ₃ term).",
             f"atan2({f.damping:.4f}, {f.nu_squared - 1:.4f}) = {math.degrees(f.lag_actual):.2f}°"),
        Step("With inflow that follows the hub moment the air resists less: a smaller Lock number.",
             f"γ* = {f.gamma_inflow:.3f}, φ = {math.degrees(f.lag_inflow):.2f}°: expect "
             f"{100 * case.result('inflow_cross'):.1f}% cross-coupling from this alone", "inflow"),
        Step("A change is 63% made after 2/damping, 95% after 6/damping, radians of turning.",
             f"{f.settle_63:.2f} rad = {case.show('time', case.result('settle_63'))}; "
             f"{f.settle_95:.2f} rad = {case.show('time', case.result('settle_95'))}"),
    )  # fmt: skip


def drawing(case: Case) -> Drawing:
    """Commanded pitch and flap over a turn."""
    return lag_curves(case.rotor, case.result("lag"), case.result("gain"))


CALCULATOR = Calculator(
    id="lag",
    title="Lag of the flapping blade",
    question="How far after the pitch does the blade flap, and how soon does it settle?",
    page="principles/precession-or-lag.md",
    inputs=(ALTITUDE, WARMER),
    figures_first=("hinge_offset", "blade_mass_kg"),
    figures=(
        "rpm", "radius_m", "chord_m", "root_spring_Nm_per_rad", "horn_station_mm", "arm_mm", "horn_rides_with_flap",
        "lift_slope_per_rad", "blades", "mass_kg",
    ),
    results=(
        Result("lag", "Lag from commanded pitch", "angle", 1),
        Result("lag_inflow", "Lag with moment inflow", "angle", 1),
        Result("gain", "Disc tilt over cyclic pitch", "ratio", 3),
        Result("settle_95", "95% settled after", "time", 2),
        Result("settle_turns", "95% settled after", "turns", 2),
        Result("nu", "Flap frequency over rotor speed", "ratio", 4),
        Result("lag_actual", "Lag from actual pitch", "angle", 1, main=False),
        Result("lock", "Lock number", "ratio", 2, main=False),
        Result("lock_inflow", "Lock number with moment inflow", "ratio", 2, main=False),
        Result("density", "Air density", "density", 3, main=False),
        Result("settle_63", "63% settled after", "time", 3, main=False),
        Result("inflow_cross", "Cross-coupling to expect from moment inflow", "percent", 1, main=False),
    ),
    compute=compute,
    describe=describe,
    working=working,
    drawing=drawing,
    equations={
        "lock": r"\gamma = \frac{\rho\,a\,c\,R^4}{I_\beta}",
        "nu": r"\nu^2 = 1 + \frac{3e}{2(1-e)} + \frac{K_\beta}{I_\beta\,\Omega^2}",
        "damping": r"M_{\dot\beta} = \frac{\gamma}{8}\left(1 - \frac{8e}{3} + 2e^2 - \frac{e^4}{3}\right),\quad "
        r"M_\theta = \frac{\gamma}{8}\left(1 - \frac{4e}{3} + \frac{e^4}{3}\right)",
        "lag": r"\varphi = \operatorname{atan2}\left(M_{\dot\beta},\ \nu^2 - 1 + \tan\delta_3\,M_\theta\right)",
        "inflow": r"\gamma^* = \frac{\gamma}{1 + \frac{a\,\sigma}{16\,\lambda_0}},\quad \lambda_0 = \sqrt{C_T/2}",
    },
    limits=(
        "A rigid, uniform blade in the hover; a soft hingeless blade bends, and its lag is known to a few degrees at best.",
        "Uniform inflow gives the first figure; moment inflow lowers it by 1–2° on articulated and 7–8° on hingeless heads.",
        "In forward flight the two halves of the disc differ: cross-coupling comes on top.",
    ),
    sources=(
        "Flapping equation: W. Johnson, Helicopter Theory, ch. 5; J.G. Leishman, Principles of Helicopter Aerodynamics, "
        "ch. 4 (from memory); re-derived and checked by time integration.",
        "Air: ISO 2533 standard atmosphere.",
    ),
    examples=(
        Example("Central hinge, no spring, no delta-three: exactly 90°", "textbooks (from memory); FAA-H-8083-21B p. 2-17 "
                "says “approximately 90 degrees”", "birch2", {}, {}, {"lag": (90.0, 1e-9), "gain": (1.0, 1e-9)}),
    ),
)  # fmt: skip
