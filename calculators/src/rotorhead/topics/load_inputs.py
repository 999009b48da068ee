"""What the load calculators share: the state the blade is in, and the loads it makes round the turn."""

import math
from dataclasses import dataclass
from functools import lru_cache

from ..fields import Number, Values, fixed
from ..flight.hover import hover_pitch
from ..loads.feather import Blade, Parts, blade_of, moments_round
from ..loads.rods import PlateLoad, link_loads, plate_load, rods_round
from ..rotor import Rotor

STATE = (
    Number("speed", "Airspeed", "airspeed", 0, 220, (0, 180, 1), lambda rotor: rotor.head["cruise_speed_kt"], 0),
    Number("pitch", "Collective pitch", "angle", -5, 30, (0, 20, 0.1),
           lambda rotor: round(math.degrees(hover_pitch(rotor)[0]), 1), 1, "at 0.75 of the radius; default: the hover"),
    Number("cyclic", "Cyclic pitch", "angle", 0, 20, (0, 12, 0.1), fixed(0.0), 1, "least on the advancing side"),
)  # fmt: skip
BLADE = (
    Number("mass_behind", "Centre of mass behind the feathering axis", "small_length", -200, 200, (-30, 30, 0.5), fixed(0.0), 1,
           group="The blade"),
    Number("air_ahead", "Centre of lift ahead of the feathering axis", "small_length", -200, 200, (-30, 30, 0.5), fixed(0.0), 1,
           group="The blade"),
    Number("weight_mass", "Balance weights, each of two", "mass", 0, 20, (0, 5, 0.05), fixed(0.0), 2,
           "square to the chord, above and below", group="The blade"),
    Number("weight_arm", "… at a distance of", "small_length", 0, 500, (0, 250, 1), fixed(120.0), 0, group="The blade"),
    Number("spring", "Feathering spring", "spring", 0, 20_000, (0, 2000, 10), fixed(0.0), 0,
           "relaxed with the horn level", group="The blade"),
    Number("friction", "Friction in the pitch bearing", "moment", 0, 500, (0, 50, 1), fixed(0.0), 0, group="The blade"),
)  # fmt: skip
FIGURES = (
    "pitching_moment_coefficient", "blade_mass_kg", "chordwise_radius_of_gyration_m", "thickness_radius_of_gyration_m",
    "rpm", "radius_m", "chord_m", "arm_mm", "blades", "rod_radius_mm", "link_foot_out_mm", "link_foot_ahead_mm", "mass_kg",
)  # fmt: skip


@dataclass(frozen=True)
class Loads:
    """Loads in even steps round the turn: parts of the moment, link load, plate load, rod loads."""

    blade: Blade
    parts: list[Parts]
    links: list[float]
    plate: list[PlateLoad]
    rods: list[tuple[float, ...]]

    @property
    def steady(self) -> PlateLoad:
        """Mean of the load on the plate over the turn."""
        n = len(self.plate)
        return PlateLoad(
            sum(p.down for p in self.plate) / n,
            sum(p.along for p in self.plate) / n,
            sum(p.across for p in self.plate) / n,
        )


@lru_cache(maxsize=32)
def _loads(rotor: Rotor, blade: Blade, mean: float, sine: float, speed: float) -> Loads:
    parts = moments_round(rotor, blade, mean, 0.0, sine, speed)
    links = link_loads(rotor, [p.total for p in parts], mean, 0.0, sine)
    plate = [plate_load(rotor, links, i) for i in range(len(links))]
    return Loads(blade, parts, links, plate, rods_round(rotor, links))


def blade_from(values: Values, rotor: Rotor) -> Blade:
    """The blade with the reader's changes; two weights square to the chord take 2 m d² off I_c − I_t."""

    def number(name: str) -> float:
        return float(values.get(name, 0.0))

    return blade_of(
        rotor, mass_behind=number("mass_behind"), air_ahead=number("air_ahead"),
        weights=2.0 * number("weight_mass") * number("weight_arm") ** 2, spring=number("spring"), friction=number("friction"),
    )  # fmt: skip


def loads_of(values: Values, rotor: Rotor) -> Loads:
    """Loads for the state and blade a reader set."""
    return _loads(
        rotor, blade_from(values, rotor), float(values["pitch"]), -float(values["cyclic"]), float(values["speed"])
    )


__all__ = ["BLADE", "FIGURES", "STATE", "Loads", "blade_from", "loads_of"]
