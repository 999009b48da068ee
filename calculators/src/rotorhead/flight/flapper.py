"""The blade as flapping in forward flight sees it, the pitch it is given and the flap it answers with."""

from dataclasses import dataclass
from typing import Final

from ..blade.flap import flap_frequency_squared
from ..rotor import Rotor
from ..units import STANDARD_GRAVITY
from .validity import checked_density

# Lift is lost over the outer 3 % of the blade (common practice, no source).
TIP_LOSS: Final = 0.97


@dataclass(frozen=True, slots=True)
class FlapBlade:
    """What flapping needs of a blade; lengths over R. Built by `flap_blade`.

    start, tip: where lift begins and ends. solidity_slope: σa. steady: precone less weight over I_β Ω².
    held: coning (rad) that a teetering hub holds; its hinge then moves in odd harmonics only. None: free.
    """

    gamma: float
    nu_squared: float
    e: float = 0.0
    tan_delta3: float = 0.0
    twist: float = 0.0
    solidity_slope: float = 0.5
    start: float = 0.0
    tip: float = 1.0
    steady: float = 0.0
    held: float | None = None


def flap_blade(rotor: Rotor, density: float, tip: float = TIP_LOSS) -> FlapBlade:
    """The blade of a head in air of `density` (kg/m³).

    Lift from the root cut (or the hinge) to `tip`·R: 0.97 for the loss at the tip (common practice, no source). A
    teetering hub holds its precone; bending is not solved.
    """
    scale = rotor.flap_inertia * rotor.speed**2
    held = rotor.head.option("type") == "teetering"
    return FlapBlade(
        gamma=rotor.lock_number(checked_density(density)),
        nu_squared=flap_frequency_squared(rotor.hinge_offset, rotor.root_spring, rotor.flap_inertia, rotor.speed),
        e=rotor.hinge_offset,
        tan_delta3=rotor.tan_delta3,
        twist=rotor.twist,
        solidity_slope=rotor.solidity * rotor.lift_slope,
        start=max(rotor.root_cut, rotor.hinge_offset),
        tip=tip,
        steady=(rotor.root_spring * rotor.precone - rotor.flap_static_moment * STANDARD_GRAVITY) / scale,
        held=rotor.precone if held else None,
    )


@dataclass(frozen=True, slots=True)
class Pitch:
    """Commanded pitch at 0.75 R, rad: mean + cosine·cos ψ + sine·sin ψ."""

    mean: float
    cosine: float = 0.0
    sine: float = 0.0


@dataclass(frozen=True, slots=True)
class Flap:
    """Flap from the hub plane, rad. cosine > 0: high over the tail; sine < 0: low on the advancing side.

    `higher`: cosine and sine of the second harmonic, the third, …
    """

    coning: float
    cosine: float
    sine: float
    higher: tuple[float, ...] = ()

    @property
    def parts(self) -> tuple[float, ...]:
        """All of them in order."""
        return (self.coning, self.cosine, self.sine, *self.higher)
