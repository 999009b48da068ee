"""The calculators, one file each; `ALL` lists them in the order of the chain."""

from typing import Final

from ..faults import refuse
from ..fields import Calculator
from . import disc, gyro, lag, phase, pitch, plate, rods

ALL: Final[dict[str, Calculator]] = {
    c.id: c
    for c in (
        phase.CALCULATOR,
        rods.CALCULATOR,
        plate.CALCULATOR,
        pitch.CALCULATOR,
        lag.CALCULATOR,
        disc.CALCULATOR,
        gyro.CALCULATOR,
    )
}


def named(name: str) -> Calculator:
    """A calculator by id, or `Refused` naming those there are."""
    if name not in ALL:
        raise refuse("calculator", f"There is no calculator “{name[:40]}”; there are {', '.join(ALL)}.")
    return ALL[name]
