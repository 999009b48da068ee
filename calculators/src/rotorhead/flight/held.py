"""Speed that comes while the hands stay where they were in the hover: flap-back, and the disc's fall to one side.

Lever and stick hold the hover's pitch; the mast stays upright in air that comes edgewise to the hub plane. Thrust is then what
the blades give: C_T and the inflow it makes are found together. The same equations as `balance`. Left out: what the
fuselage does next, which in the air is at once (FAA-H-8083-21B, p. 2-20/21: the nose comes up). Besides: lift on the two sides
of a rotor that could not flap.
"""

import math
from dataclasses import dataclass

from ..rotor import Rotor
from .balance import balance, lift_at, powers
from .disc_map import advancing_tip_mach
from .flapper import Flap, FlapBlade, Pitch, flap_blade
from .inflow import DEFAULT_MODEL, Stream, stream
from .trim import SPEED_OF_SOUND, balanced
from .validity import Mark, checked_advance, flap_mark, loading_mark, tip_mach_mark, within

# C_T and the inflow it makes agree to about 1e-6 of themselves; the secant needs three or four steps.
_STEPS, _CLOSE = 20, 1e-8


@dataclass(frozen=True, slots=True)
class Held:
    """The disc at a speed with the hover's hands; SI, rad. `hover`: its flapping before. `ct`: what the blades then give."""

    blade: FlapBlade
    air: Stream
    pitch: Pitch
    hover: Flap
    flap: Flap
    ct: float
    thrust_ratio: float
    outside: tuple[Mark, ...]

    @property
    def back(self) -> float:
        """How far the disc has tilted back from where it stood in the hover, rad."""
        return self.hover.cosine - self.flap.cosine

    @property
    def toward_advancing(self) -> float:
        """How far it has tilted toward the advancing side, rad."""
        return self.hover.sine - self.flap.sine


def hands_held(
    rotor: Rotor, speed: float, density: float, sound: float = SPEED_OF_SOUND, model: str = DEFAULT_MODEL
) -> Held:
    """The disc at `speed` (m/s) with lever and stick as they trim the hover (head's weight, air of `density` kg/m³).

    Level air, mast upright. Refused above an advance ratio of 0.40; marked where flapping, loading or tip Mach leave the model.
    """
    before = balanced(rotor, 0.0, density, None, model, sound)
    tip_speed = rotor.speed * rotor.radius
    mu = checked_advance(within("speed", "Speed", speed, 0.0, 200.0, "m/s", 0) / tip_speed)
    mach = advancing_tip_mach(tip_speed, speed, sound)
    blade, pitch, ct = flap_blade(rotor, density), before.pitch, before.disc.ct
    last = (0.0, 0.0)
    for step in range(_STEPS):
        air = stream(ct, mu, 0.0, model)
        found = balance(blade, air)
        flap = found.flap(pitch)
        thrust = found.thrust(pitch, flap)
        error = thrust - ct
        if abs(error) < _CLOSE:
            break
        change = 0.8 * error if step == 0 else -error * (ct - last[0]) / (error - last[1])
        last, ct = (ct, error), ct + change
    marks = (
        *loading_mark(thrust / rotor.solidity), *tip_mach_mark(mach), *flap_mark((flap.coning, flap.cosine, flap.sine)),
    )  # fmt: skip
    return Held(blade, air, pitch, before.flap, flap, thrust, thrust / before.disc.ct, marks)


def unflapped_lift(blade: FlapBlade, air: Stream, mean: float, psi: float) -> float:
    """Lift of one blade at azimuth ψ (rad) with the pitch `mean` (rad at 0.75 R) and held from flapping, over ½ρ a c Ω² R³.

    ∫ (U_T² θ − U_T U_P) dx with β = β′ = 0, lift turned round in the reversed flow. What dissymmetry of lift would be.
    """
    c, s = math.cos(psi), math.sin(psi)
    p = powers(blade.start, blade.tip)
    edge = -air.mu * s
    if edge > blade.start:
        p = [a - 2.0 * b for a, b in zip(p, powers(blade.start, min(edge, blade.tip)), strict=True)]
    pitch, constant, _, _ = lift_at(blade, air, p, (1.0, c, s))
    return pitch * mean + constant
