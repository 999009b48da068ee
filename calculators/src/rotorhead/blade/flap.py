"""The flapping blade as a damped oscillator: flap frequency, lag, gain, coning, settling.

β″ + M_β̇ β′ + (ν² + tan δ3·M_θ) β = M_θ θ(ψ) + steady terms; derivatives in azimuth ψ (rad).
M_θ = (γ/8)(1 − 4e/3 + e⁴/3), M_β̇ = (γ/8)(1 − 8e/3 + 2e² − e⁴/3), M_λ = (γ/6)(1 − 3e/2 + e³/2).
Rigid uniform blade, hover, uniform inflow, first harmonics. Parents: W. Johnson, Helicopter Theory,
ch. 5; J.G. Leishman, Principles of Helicopter Aerodynamics, ch. 4 (both from memory); re-derived.
Left out: blade bending and torsion, root cut-out (under 2 % of M_θ at 20 % cut), stall.
"""

import math
from dataclasses import dataclass

from ..faults import refuse
from ..flight.hover import hover_pitch, thrust_coefficient, uniform_inflow
from ..rotor import SEA_LEVEL_DENSITY, Rotor
from ..units import STANDARD_GRAVITY


def pitch_moment(gamma: float, e: float) -> float:
    """M_θ: flap moment per radian of pitch, over I_β Ω²."""
    return gamma / 8.0 * (1.0 - 4.0 * e / 3.0 + e**4 / 3.0)


def flap_damping(gamma: float, e: float) -> float:
    """M_β̇: flap moment per unit of flap rate dβ/dψ, over I_β Ω²."""
    return gamma / 8.0 * (1.0 - 8.0 * e / 3.0 + 2.0 * e * e - e**4 / 3.0)


def inflow_moment(gamma: float, e: float) -> float:
    """M_λ: flap moment per unit of uniform inflow ratio, over I_β Ω²."""
    return gamma / 6.0 * (1.0 - 1.5 * e + e**3 / 2.0)


def flap_frequency_squared(e: float, spring: float = 0.0, inertia: float = 1.0, speed: float = 1.0) -> float:
    """ν² = 1 + 3e/(2(1 − e)) + K_β/(I_β Ω²): uniform blade, hinge at eR, root spring K_β (N·m/rad)."""
    return 1.0 + 1.5 * e / (1.0 - e) + spring / (inertia * speed * speed)


def lag_angle(gamma: float, e: float, nu_squared: float, tan_delta3: float = 0.0) -> float:
    """φ = atan2(M_β̇, ν² − 1 + tan δ3·M_θ), rad: how far greatest flap follows greatest commanded pitch.

    Exactly 90° when the restoring term is zero. γ → 0 without stiffness has no answer: refused.
    """
    damping = flap_damping(gamma, e)
    stiff = nu_squared - 1.0 + tan_delta3 * pitch_moment(gamma, e)
    if damping < 1e-9:
        raise refuse(
            "lock",
            f"A Lock number of {gamma:.3g} leaves no lift to damp the blade: its lag has no answer. "
            "Give the blade chord, air or less mass.",
        )
    return math.atan2(damping, stiff)


def flap_gain(gamma: float, e: float, nu_squared: float, tan_delta3: float = 0.0) -> float:
    """First-harmonic flap over commanded cyclic pitch: M_θ/√((ν² − 1 + tan δ3·M_θ)² + M_β̇²)."""
    mth = pitch_moment(gamma, e)
    return mth / math.hypot(nu_squared - 1.0 + tan_delta3 * mth, flap_damping(gamma, e))


@dataclass(frozen=True, slots=True)
class Flapping:
    """The flapping behaviour of one head in one density; built by `flapping_of`. Angles in radians.

    lag: from commanded pitch. lag_actual: from the pitch the blade really has (δ3 included).
    lag_inflow, gain_inflow: with inflow that follows the hub moment (reduced Lock number γ*).
    """

    gamma: float
    gamma_inflow: float
    e: float
    nu_squared: float
    tan_delta3: float
    pitch_moment: float
    damping: float
    lag: float
    lag_actual: float
    lag_inflow: float
    gain: float

    @property
    def nu(self) -> float:
        """Rotating flap frequency over rotor speed."""
        return math.sqrt(self.nu_squared)

    @property
    def settle_63(self) -> float:
        """Azimuth (rad) after which 63 % of a change is made: 2/M_β̇."""
        return 2.0 / self.damping

    @property
    def settle_95(self) -> float:
        """Azimuth (rad) after which 95 % of a change is made: 6/M_β̇."""
        return 6.0 / self.damping

    def response(self, cosine: float, sine: float) -> tuple[float, float]:
        """First harmonic of commanded pitch -> first harmonic of flap (β1c, β1s), rad.

        Solves K β1c + M_β̇ β1s = M_θ θ1c, K β1s − M_β̇ β1c = M_θ θ1s with K = ν² − 1 + tan δ3·M_θ.
        """
        k = self.nu_squared - 1.0 + self.tan_delta3 * self.pitch_moment
        d, m = self.damping, self.pitch_moment
        size = k * k + d * d
        return (m * (k * cosine - d * sine) / size, m * (k * sine + d * cosine) / size)


def flapping_of(rotor: Rotor, density: float = SEA_LEVEL_DENSITY) -> Flapping:
    """Flapping behaviour of a head in air of `density` (kg/m³), hover."""
    gamma = rotor.lock_number(density)
    e = rotor.hinge_offset
    nu2 = flap_frequency_squared(e, rotor.root_spring, rotor.flap_inertia, rotor.speed)
    td3 = rotor.tan_delta3
    ct = thrust_coefficient(rotor, density)
    star = gamma / (1.0 + rotor.lift_slope * rotor.solidity / (16.0 * uniform_inflow(ct)))
    if nu2 + td3 * pitch_moment(gamma, e) <= 0.0:
        raise refuse(
            "horn_station_mm",
            f"Horn stands out {rotor.horn_station * 1000:.0f} mm: with the horn {'behind' if rotor.trailing else 'ahead of'} the "
            f"blade and a flap hinge at {rotor.hinge * 1000:.0f} mm, flapping up puts on so much pitch that the blade would not "
            "return. Bring the horn nearer the hinge's distance.",
            head=True,
        )
    return Flapping(
        gamma, star, e, nu2, td3, pitch_moment(gamma, e), flap_damping(gamma, e),
        lag_angle(gamma, e, nu2, td3), lag_angle(gamma, e, nu2), lag_angle(star, e, nu2, td3),
        flap_gain(gamma, e, nu2, td3),
    )  # fmt: skip


def hover_coning(rotor: Rotor, density: float = SEA_LEVEL_DENSITY) -> float:
    """Coning (rad) in the hover: (γ·lift moment + spring·precone − weight)/ν².

    Lift moment from blade-element momentum theory (`flight.hover`); precone term K_β β_p/(I_β Ω²);
    weight term S_β g/(I_β Ω²). A teetering head builds most of this in as precone; its bending is not
    solved.
    """
    _, moment = hover_pitch(rotor, density)
    scale = rotor.flap_inertia * rotor.speed**2
    nu2 = flap_frequency_squared(rotor.hinge_offset, rotor.root_spring, rotor.flap_inertia, rotor.speed)
    return (
        rotor.lock_number(density) * moment
        + rotor.root_spring * rotor.precone / scale
        - rotor.flap_static_moment * STANDARD_GRAVITY / scale
    ) / nu2


def hover_command(rotor: Rotor, density: float = SEA_LEVEL_DENSITY) -> float:
    """Collective the plate must ask for in the hover (rad, 0.75 R): actual pitch + tan δ3·coning."""
    return hover_pitch(rotor, density)[0] + rotor.tan_delta3 * hover_coning(rotor, density)


def hub_moment_slope(rotor: Rotor) -> float:
    """Hub moment per radian of disc tilt, N·m/rad: (N/2) I_β Ω² (ν² − 1); zero for teetering."""
    nu2 = flap_frequency_squared(rotor.hinge_offset, rotor.root_spring, rotor.flap_inertia, rotor.speed)
    return rotor.blades / 2.0 * rotor.flap_inertia * rotor.speed**2 * (nu2 - 1.0)


def blade_pull(rotor: Rotor) -> float:
    """Centrifugal pull of one blade at the hinge, N: Ω² ∫ r dm, uniform blade."""
    return rotor.blade_mass * rotor.speed**2 * (rotor.radius + rotor.hinge) / 2.0


def propeller_moment(rotor: Rotor, pitch: float) -> float:
    """Moment that flattens a blade, N·m: (I_c − I_t) Ω² sin θ cos θ (Johnson; Bramwell; from memory)."""
    head = rotor.head
    spread = head["chordwise_radius_of_gyration_m"] ** 2 - head["thickness_radius_of_gyration_m"] ** 2
    return rotor.blade_mass * spread * rotor.speed**2 * math.sin(pitch) * math.cos(pitch)
