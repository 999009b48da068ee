"""Level flight in one call: controls, attitude, the map of angles of attack; and the sideways bulge at low speed."""

from dataclasses import dataclass

from ..conventions import Rotation, sense
from ..rotor import SEA_LEVEL_DENSITY, Rotor
from .disc_map import DiscMap, disc_map
from .flapper import Flap, Pitch
from .inflow import DEFAULT_MODEL, Stream
from .trim import SPEED_OF_SOUND, DiscTrim, Fuselage, balanced, fuselage_of, hands_for, hands_marks
from .validity import Mark, flap_mark, stall_mark


@dataclass(frozen=True, slots=True)
class StickTrim:
    """Controls and attitude in level flight; SI, rad. pitch, flap: commanded, and against the mast, in azimuths.

    lever 0 to 1; forward, right −1 to 1: stick. nose_up, bank: attitude of the fuselage's floor; bank: toward the advancing side
    down is positive. tail_thrust: N. `map`: angles of attack. `outside`: where the model or the stick's travel is left.
    """

    disc: DiscTrim
    air: Stream
    pitch: Pitch
    flap: Flap
    lever: float
    forward: float
    right: float
    nose_up: float
    bank: float
    tail_thrust: float
    power: float
    map: DiscMap
    outside: tuple[Mark, ...]

    def bank_right(self, rotation: Rotation) -> float:
        """Bank with the right side down, rad: the mirror image for a clockwise rotor."""
        return -sense(rotation) * self.bank


def stick_trim(
    rotor: Rotor, speed: float, density: float = SEA_LEVEL_DENSITY, fuselage: Fuselage | None = None,
    model: str = DEFAULT_MODEL, sound: float = SPEED_OF_SOUND,
) -> StickTrim:  # fmt: skip
    """Where lever and stick stand in level flight at `speed` (m/s), and how the fuselage hangs.

    Disc from `disc_trim`; power (for the tail rotor) from `level.level_power`; pitch from the balance of flapping for the
    tilt against the mast, as commanded (δ3 added back); stick through the head's rigging, first order. A teetering head's
    coning is its precone.
    """
    fuselage = fuselage_of(rotor) if fuselage is None else fuselage
    b = balanced(rotor, speed, density, fuselage, model, sound)
    found = disc_map(b.blade, b.air, b.pitch, b.flap)
    lever, forward, right = hands_for(rotor, b.pitch)
    marks = (
        *b.disc.outside,
        *stall_mark(found.stalled),
        *flap_mark((b.flap.coning,)),
        *hands_marks(lever, forward, right),
    )
    return StickTrim(
        b.disc, b.air, b.pitch, b.flap, lever, forward, right, fuselage.mast_tilt - b.alpha, b.bank, b.push, b.power, found,
        marks,
    )  # fmt: skip


def sideways_bulge(
    rotor: Rotor, density: float = SEA_LEVEL_DENSITY, model: str = DEFAULT_MODEL, fastest: float = 30.0, steps: int = 15,
    fuselage: Fuselage | None = None,
) -> tuple[tuple[float, float], ...]:  # fmt: skip
    """Extra cyclic toward the retreating side (rad) at speeds (m/s) from 0: what the inflow gradient asks beside uniform inflow.

    θ1c with the model less θ1c with uniform inflow at the same speed. It swells below translational lift and shrinks
    again: the stick goes over and comes back. Left with an anticlockwise rotor, right with a clockwise one.
    """
    found = []
    for i in range(steps + 1):
        speed = fastest * i / steps
        with_it, without = (balanced(rotor, speed, density, fuselage, m).pitch.cosine for m in (model, "uniform"))
        found.append((speed, with_it - without))
    return tuple(found)
