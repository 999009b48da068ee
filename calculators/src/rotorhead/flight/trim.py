"""Trim in level flight: the disc from weight and drag, the stick from what hangs under it.

Disc: T = √(W² + D²), D = ½ρV²f, tilted forward by atan(D/W) against the horizon. That needs no fuselage.
Stick: moments about the centre of gravity fix the disc against the mast, and the balance of flapping then the pitch:
  (T h + K) β1c = M_f − T d + …  fore and aft,  (T h + K) β1s = T_tr h_tr + T y  sideways;
K: hub moment per radian, h, d: centre of gravity below the hub along the mast and ahead of the mast's axis, M_f: nose-up
fuselage moment, T_tr: tail rotor. The fuselage hangs at what is left of the tilt.
Left out, with its size: drag of the blades in the plane of the disc (σ c_d0 μ/(4 C_T): 0.3 to 0.6° more tilt at speed), fuselage and
tailplane lift (some per cent of W), fin taking over from the tail rotor at speed (up to its whole thrust: bank and
lateral stick 1 to 3° less), sideslip, tail-rotor flapping, blade stall and compressibility. Low-speed lateral stick rests
on the named inflow model alone and is known to be the least certain figure here.
"""

import math
from dataclasses import dataclass

from ..blade.flap import hub_moment_slope
from ..faults import refuse
from ..mechanism.hands import lever_for, stick_for
from ..rotor import SEA_LEVEL_DENSITY, Rotor
from ..units import tidy
from .balance import balance
from .disc_map import advancing_tip_mach, disc_map
from .edgewise import Inflow, glauert_inflow
from .flapper import Flap, FlapBlade, Pitch, flap_blade
from .inflow import DEFAULT_MODEL, Stream, gradient
from .level import level_power
from .tail import TAIL_ARM, TAIL_HEIGHT, tail_thrust
from .validity import (
    STALL_SHARE,
    Mark,
    checked_advance,
    checked_density,
    flap_mark,
    loading_mark,
    positive,
    tip_mach_mark,
    within,
)

SPEED_OF_SOUND = 340.294


@dataclass(frozen=True, slots=True)
class DiscTrim:
    """The disc in level flight; SI, rad. tilt: nose-down against the horizon. flow: in the disc's own plane."""

    speed: float
    thrust: float
    drag: float
    tilt: float
    ct: float
    blade_loading: float
    flow: Inflow
    tip_mach: float
    outside: tuple[Mark, ...]


def disc_trim(
    rotor: Rotor, speed: float, density: float = SEA_LEVEL_DENSITY, sound: float = SPEED_OF_SOUND
) -> DiscTrim:
    """The disc at `speed` (m/s) in air of `density` (kg/m³) with a speed of `sound` (m/s); weight and drag area from the head.

    Level flight forward. Refused above an advance ratio of 0.40 and with a tip at Mach 1.
    """
    checked_density(density)
    within("speed", "Speed", speed, 0.0, 200.0, "m/s", 0)
    tip_speed = rotor.speed * rotor.radius
    drag = 0.5 * density * speed * speed * rotor.head["drag_area_m2"]
    thrust, tilt = math.hypot(rotor.weight, drag), math.atan2(drag, rotor.weight)
    mu = checked_advance(speed * math.cos(tilt) / tip_speed)
    ct = thrust / (density * math.pi * rotor.radius**2 * tip_speed**2)
    flow = glauert_inflow(ct, mu, tilt)
    mach = advancing_tip_mach(tip_speed, speed, positive("sound", "Speed of sound", sound, "m/s"))
    loading = ct / rotor.solidity
    return DiscTrim(
        speed, thrust, drag, tilt, ct, loading, flow, mach, (*loading_mark(loading), *tip_mach_mark(mach)),
    )  # fmt: skip


@dataclass(frozen=True, slots=True)
class Fuselage:
    """What hangs under the head, stated inputs; zero where nothing is said. Built for a head by `fuselage_of`.

    below: centre of gravity below the hub, m, square to the fuselage's floor; ahead: ahead of the hub; toward_advancing: off
    to the advancing side. mast_tilt: of the mast forward against the floor, rad. moment_volume: nose-up fuselage moment
    over dynamic pressure, m³. drag_below: where the drag acts below the centre of gravity, m. tail_arm, tail_height: tail
    rotor behind the mast and above the centre of gravity, m. tail: whether there is a tail rotor at all.
    """

    below: float
    tail_arm: float
    tail_height: float
    ahead: float = 0.0
    toward_advancing: float = 0.0
    mast_tilt: float = 0.0
    moment_volume: float = 0.0
    drag_below: float = 0.0
    tail: bool = True


def fuselage_of(rotor: Rotor) -> Fuselage:
    """Defaults of a head: centre of gravity straight below the hub, upright mast, no fuselage moment, tail rotor as in `tail`."""
    return Fuselage(rotor.mast_above_cg, TAIL_ARM * rotor.radius, TAIL_HEIGHT * rotor.mast_above_cg)


def _against_mast(rotor: Rotor, fuselage: Fuselage, trim: DiscTrim, density: float, push: float) -> tuple[float, float]:
    """β1c, β1s (rad) that bring the moments about the centre of gravity into balance."""
    c, s = math.cos(fuselage.mast_tilt), math.sin(fuselage.mast_tilt)
    below, ahead = fuselage.below * c - fuselage.ahead * s, fuselage.ahead * c + fuselage.below * s
    stiffness = positive(
        "mast_above_cg_m", "Moment per radian of disc tilt", trim.thrust * below + hub_moment_slope(rotor), "N·m"
    )
    pressure = 0.5 * density * trim.speed**2
    nose_up = pressure * fuselage.moment_volume - trim.thrust * ahead - trim.drag * fuselage.drag_below
    return nose_up / stiffness, (push * fuselage.tail_height + trim.thrust * fuselage.toward_advancing) / stiffness


@dataclass(frozen=True, slots=True)
class Balanced:
    """Level flight as `balanced` finds it: moments, flapping and pitch in balance; alpha: nose-down of the hub plane against the air."""

    disc: DiscTrim
    push: float
    power: float
    alpha: float
    blade: FlapBlade
    air: Stream
    pitch: Pitch
    flap: Flap

    @property
    def bank(self) -> float:
        """Bank of the fuselage, rad, toward the advancing side down: the whole tilt toward the retreating side answers the tail
        rotor, and what of it isn't disc against mast is the fuselage's."""
        return self.flap.sine - math.atan2(self.push, self.disc.thrust)


def balanced(
    rotor: Rotor, speed: float, density: float, fuselage: Fuselage | None, model: str, sound: float = SPEED_OF_SOUND
) -> Balanced:
    """Level flight without the map: disc, moments about the centre of gravity, then the pitch that gives both."""
    fuselage = fuselage_of(rotor) if fuselage is None else fuselage
    trim = disc_trim(rotor, speed, density, sound)
    power = level_power(rotor, speed, density).total
    push = tail_thrust(power, rotor.speed, fuselage.tail_arm) if fuselage.tail else 0.0
    b1c, b1s = _against_mast(rotor, fuselage, trim, density, push)
    for mark in flap_mark((b1c, b1s)):
        raise refuse("cg_ahead", f"The disc can't balance this fuselage. {mark.text}")
    # Induced flow and its gradient belong to the disc; the air is then counted in the hub plane, tilted from it by β1c.
    alpha = trim.tilt - b1c
    mu, induced = checked_advance(speed * math.cos(alpha) / (rotor.speed * rotor.radius)), trim.flow.induced
    air = Stream(mu, mu * math.tan(alpha) + induced, induced, *gradient(trim.flow, model))
    blade = flap_blade(rotor, density)
    pitch, flap = balance(blade, air).pitch_for(trim.ct, b1c, b1s)
    return Balanced(trim, push, power, alpha, blade, air, pitch, flap)


def hands_for(rotor: Rotor, pitch: Pitch) -> tuple[float, float, float]:
    """Lever (0 to 1), stick forward and right (−1 to 1) for a commanded pitch, through the head's rigging, first order."""
    return lever_for(rotor, pitch.mean), *stick_for(rotor, pitch.cosine, pitch.sine)


def hands_marks(lever: float, forward: float, right: float) -> tuple[Mark, ...]:
    """Marks where the hands would have to go beyond their stops."""
    marks = []
    for field, value in (("lever", lever), ("stick", math.hypot(forward, right))):
        if not 0.0 <= value <= 1.0:
            text = f"The {field} would have to stand at {tidy(100.0 * value, 0)}% of its travel."
            marks.append(Mark(field, value, 1.0, text))
    return tuple(marks)


def stall_onset(
    rotor: Rotor, density: float = SEA_LEVEL_DENSITY, fuselage: Fuselage | None = None, model: str = DEFAULT_MODEL
) -> float | None:
    """Speed (m/s) at which the stalled share passes its limit (`validity.STALL_SHARE`), to 0.5 m/s; None below μ 0.40.

    An indication: real onset hangs on the section, on dynamic stall and on what the rotor's hub and controls feel.
    """
    tip_speed = rotor.speed * rotor.radius
    # As far as the models go: advance ratio, and tips below the speed of sound.
    low, high = 0.0, min(0.39 * tip_speed, 0.99 * SPEED_OF_SOUND - tip_speed)
    if high <= low:
        return None

    def stalled(speed: float) -> bool:
        b = balanced(rotor, speed, density, fuselage, model)
        # A coarser map than the picture's: its share is off by under 0.01.
        return disc_map(b.blade, b.air, b.pitch, b.flap, 12, 36).stalled > STALL_SHARE

    if stalled(low):
        return 0.0
    if not stalled(high):
        return None
    while high - low > 0.5:
        middle = 0.5 * (low + high)
        low, high = (low, middle) if stalled(middle) else (middle, high)
    return high
