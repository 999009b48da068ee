"""From blade to rods: link load round the turn, plate in equilibrium, three rods, multiples of N per turn.

Positive link load: the link pushes the horn up (it is squeezed); positive rod load: the rod pushes the
ring up. The plate has no mass here: rods and links balance at every azimuth.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from ..conventions import TURN
from ..mechanism.plate import solve3
from ..rotor import Rotor

Series = list[float]


def link_load(rotor: Rotor, moment: float, pitch: float) -> float:
    """Link load (N) for a moment (N·m) the horn must give at a pitch (rad): M/(a cos η)."""
    return moment / (rotor.arm * math.cos(pitch - rotor.pitch_level))


def link_loads(rotor: Rotor, moments: Sequence[float], mean: float, cosine: float, sine: float) -> Series:
    """Link load in the same even steps as the moments."""
    n = len(moments)
    return [
        link_load(rotor, m, mean + cosine * math.cos(i * TURN / n) + sine * math.sin(i * TURN / n))
        for i, m in enumerate(moments)
    ]


@dataclass(frozen=True, slots=True)
class PlateLoad:
    """What the links put on the plate at one mast azimuth: force down (N) and moments (N·m) about two level axes.

    along: Σ P r cos, across: Σ P r sin of the azimuths at which the links stand.
    """

    down: float
    along: float
    across: float


def plate_load(rotor: Rotor, loads: Sequence[float], index: int, blades: int | None = None) -> PlateLoad:
    """Sum over `blades` identical blades, each a step of the turn ahead, blade 1 at step `index`.

    The number of steps must be a multiple of the number of blades.
    """
    count = rotor.blades if blades is None else blades
    n = len(loads)
    if n % count:
        raise ValueError(f"{n} steps are no multiple of {count} blades")
    down = along = across = 0.0
    for k in range(count):
        azimuth = index * TURN / n + k * TURN / count
        load = loads[(index + k * n // count) % n]
        down += load
        along += load * rotor.ring_radius * math.cos(azimuth + rotor.lead)
        across += load * rotor.ring_radius * math.sin(azimuth + rotor.lead)
    return PlateLoad(down, along, across)


def rod_loads(rotor: Rotor, load: PlateLoad) -> tuple[float, ...]:
    """Rod loads (N) that balance the plate: Σ R = force, Σ R r cos and Σ R r sin = the moments.

    Three rods: statics. More: the share with the least sum of squares (rods equally stiff).
    """
    rows = [(1.0, rotor.rod_radius * math.cos(x), rotor.rod_radius * math.sin(x)) for x in rotor.rod_azimuths]
    normal = [[sum(r[i] * r[j] for r in rows) for j in range(3)] for i in range(3)]
    a, b, c = solve3(normal, [load.down, load.along, load.across])
    return tuple(a + b * r[1] + c * r[2] for r in rows)


def rods_round(rotor: Rotor, loads: Sequence[float], blades: int | None = None) -> list[tuple[float, ...]]:
    """Rod loads in the same even steps of mast azimuth as the link loads."""
    return [rod_loads(rotor, plate_load(rotor, loads, i, blades)) for i in range(len(loads))]


def amplitudes(series: Sequence[float], most: int = 12) -> list[float]:
    """Amplitudes of the harmonics 0 (the mean) to `most` of an even series."""
    n = len(series)
    found = [sum(series) / n]
    for h in range(1, most + 1):
        c = sum(v * math.cos(h * i * TURN / n) for i, v in enumerate(series)) * 2.0 / n
        s = sum(v * math.sin(h * i * TURN / n) for i, v in enumerate(series)) * 2.0 / n
        found.append(math.hypot(c, s))
    return found
