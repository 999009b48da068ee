"""Where a blade has settled in the hover under a given lever: its coning and the thrust that goes with it."""

import math

from ..flight.hover import thrust_of_pitch
from ..mechanism.links import Harmonics
from ..rotor import SEA_LEVEL_DENSITY, Rotor
from ..units import STANDARD_GRAVITY
from .flap import Flapping, flapping_of


def coning_at(rotor: Rotor, f: Flapping, commanded: float) -> tuple[float, float]:
    """Coning (rad) and thrust (N) in the hover for a commanded mean pitch; δ3 takes pitch off (4 rounds)."""
    scale = rotor.flap_inertia * rotor.speed**2
    fixed = rotor.root_spring * rotor.precone / scale - rotor.flap_static_moment * STANDARD_GRAVITY / scale
    coning = 0.0
    ct = 0.0
    for _ in range(4 if f.tan_delta3 else 1):
        ct, moment = thrust_of_pitch(rotor, commanded - f.tan_delta3 * coning)
        coning = (f.gamma * moment + fixed) / f.nu_squared
    tip = rotor.speed * rotor.radius
    return coning, ct * SEA_LEVEL_DENSITY * math.pi * rotor.radius**2 * tip**2


def settled_flap(rotor: Rotor, commanded: Harmonics) -> tuple[float, float, float]:
    """Coning and first harmonic of flap (rad) once the disc has settled in the hover under a commanded pitch.

    The coning is that of this pitch's own thrust, not of the weight. A teetering hub holds its precone.
    """
    f = flapping_of(rotor)
    cosine, sine = f.response(commanded.cosine, commanded.sine)
    teetering = rotor.head.option("type") == "teetering"
    return (rotor.precone if teetering else coning_at(rotor, f, commanded.mean)[0]), cosine, sine
