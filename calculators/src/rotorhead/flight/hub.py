"""What a tilted disc does to the fuselage: hub moment, tilted thrust, control power, damping.

Moment about the centre of gravity per radian of disc tilt: (N/2) I_β Ω² (ν² − 1) from the hub and T h from the thrust
tilted at height h. Rate response: K. B. Amer, NACA TN 2136 (from memory; re-derived), with hinge offset and spring.
Left out: the 1-per-turn shear of the air loads at an offset hinge (order e², under 2 % of the hub's part at e = 0.1);
inflow that follows the air's moment (γ* instead of γ): with it the disc lags 30 to 55 % more in a steady rate on this
site's heads (`with_moment_inflow` gives the number), control power is 0 to 6 % less.
"""

from dataclasses import dataclass, replace

from ..blade.flap import (
    Flapping,
    flap_damping,
    flap_frequency_squared,
    flap_gain,
    flapping_of,
    hub_moment_slope,
    lag_angle,
    pitch_moment,
)
from ..rotor import SEA_LEVEL_DENSITY, Rotor
from .validity import positive, within

# Load factors asked about: from weightless to a hard pull-up.
LOAD_FACTORS = (0.0, 3.0)


@dataclass(frozen=True, slots=True)
class TiltMoment:
    """Moment about the centre of gravity per radian of disc tilt, N·m/rad: the hub's part and the tilted thrust's."""

    hub: float
    thrust: float

    @property
    def total(self) -> float:
        """Both parts."""
        return self.hub + self.thrust

    @property
    def hub_share(self) -> float | None:
        """The hub's share; None when there is nothing."""
        return self.hub / self.total if self.total else None


def offset_hub_moment(blades: int, hinge: float, static_moment: float, speed: float) -> float:
    """(N/2) eR S_β Ω², N·m/rad: the hub moment of hinges at eR (m) without springs; S_β in kg·m about the hinge."""
    return blades / 2.0 * hinge * static_moment * speed * speed


def moment_slope(blades: int, inertia: float, speed: float, nu_squared: float) -> float:
    """(N/2) I_β Ω² (ν² − 1), N·m/rad: the hub moment of any blades (Johnson, ch. 5; Leishman, ch. 4, from memory)."""
    return blades / 2.0 * positive("inertia", "Blade inertia", inertia, "kg·m²") * speed * speed * (nu_squared - 1.0)


def tilt_moment(rotor: Rotor, load_factor: float = 1.0) -> TiltMoment:
    """Moment per radian of disc tilt at a load factor: T = n W. A teetering head has nothing at n = 0.

    FAA-H-8083-21B, p. 11-14 (read): hinges set out from the mast give a moment independent of thrust; teetering rotors
    rely on the thrust's tilt. For understanding low g, not for flying it: the flight manual and training decide.
    """
    within("load_factor", "Load factor", load_factor, *LOAD_FACTORS)
    return TiltMoment(hub_moment_slope(rotor), load_factor * rotor.weight * rotor.mast_above_cg)


def control_power(rotor: Rotor, load_factor: float = 1.0, density: float = SEA_LEVEL_DENSITY) -> float:
    """Moment about the centre of gravity per radian of commanded cyclic pitch, N·m/rad: gain × moment per tilt."""
    return flapping_of(rotor, density).gain * tilt_moment(rotor, load_factor).total


@dataclass(frozen=True, slots=True)
class RateResponse:
    """Disc tilt against the mast (rad) while the mast turns steadily: what lags and what comes across."""

    cosine: float
    sine: float


def rate_response(
    flapping: Flapping, offset_frequency_squared: float, speed: float, nose_up: float, toward_advancing: float = 0.0
) -> RateResponse:
    """β1c, β1s (rad) for steady rates of the mast (rad/s): nose going up, advancing side going down.

    β″ + M_β̇ β′ + (ν² + tan δ3 M_θ) β = M_θ q̂ cos ψ − 2 ν0² q̂ sin ψ, q̂ = q/Ω; ν0² = 1 + 3e/(2(1 − e)) without spring.
    Central hinge: β1c = 16 q̂/γ (the disc lags behind the mast) and β1s = q̂ (across): no rigging fault. A roll is the
    same a quarter turn on. Rates up to 0.1 Ω.
    """
    found = [0.0, 0.0]
    for i, rate in enumerate((nose_up, toward_advancing)):
        hat = rate / positive("rpm", "Rotor speed", speed, "rad/s")
        within("rate", "Rate of turning over rotor speed", hat, -0.1, 0.1)
        c, s = flapping.response(hat, -2.0 * offset_frequency_squared * hat / flapping.pitch_moment)
        # The rising edge of a roll toward the advancing side stands a quarter turn after the nose.
        c, s = (c, s) if i == 0 else (-s, c)
        found[0] += c
        found[1] += s
    return RateResponse(found[0], found[1])


def with_moment_inflow(flapping: Flapping) -> Flapping:
    """The same blade with the reduced Lock number γ*: inflow that has had time to follow the air's moment on the disc."""
    gamma = flapping.gamma_inflow
    lift, damp = pitch_moment(gamma, flapping.e), flap_damping(gamma, flapping.e)
    gain = flap_gain(gamma, flapping.e, flapping.nu_squared, flapping.tan_delta3)
    return replace(flapping, gamma=gamma, pitch_moment=lift, damping=damp, lag=flapping.lag_inflow, gain=gain,
                   lag_actual=lag_angle(gamma, flapping.e, flapping.nu_squared))  # fmt: skip


@dataclass(frozen=True, slots=True)
class Damping:
    """Moment that opposes a nose-up rate, N·m per rad/s, the moment across (toward the retreating side), and their ratio."""

    opposing: float
    across: float

    @property
    def cross(self) -> float:
        """Across over opposing."""
        return self.across / self.opposing


def damping(
    rotor: Rotor, load_factor: float = 1.0, density: float = SEA_LEVEL_DENSITY, moment_inflow: bool = False
) -> Damping:
    """Damping of a head in the hover: the disc's lag behind the mast times the moment per tilt. Zero with no moment: refused."""
    f = flapping_of(rotor, density)
    f = with_moment_inflow(f) if moment_inflow else f
    response = rate_response(f, flap_frequency_squared(rotor.hinge_offset), rotor.speed, 1e-3)
    slope = positive("load_factor", "Moment per radian of disc tilt", tilt_moment(rotor, load_factor).total, "N·m")
    return Damping(slope * response.cosine / 1e-3, slope * response.sine / 1e-3)
