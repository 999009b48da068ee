"""A turn as plain numbers for the moving view: millimetres and degrees, seen from above as on the page.

The view's frame: x to the right of the machine, y toward its nose, z up; origin on the mast at plate height 0. Points
of turning parts stand in the same frame turned back by the rotor's angle, so that blade 1 lies over the tail: turn
them about z by `sense` times that angle. `ring`, `drive`, `feet`, `horns`, `pitch`, `flap` run over the steps.
"""

import math
from functools import lru_cache
from typing import Any

from ..conventions import TURN, azimuth_of, bearing_of, sense
from ..mechanism.plate import Vector
from ..mechanism.scissors import Fold
from ..rotor import Rotor
from .turn import Motion

# Which parts stay with the fuselage and which turn: said by pattern, tone and label alike.
STILL = ("actuators", "rods", "stationary-ring", "stationary-scissors", "bearing")
TURNING = ("mast", "rotating-ring", "main-bearing", "drive-scissors", "links", "horns", "grips", "blades")


class _Frame:
    """Tail-and-azimuth metres -> the view's millimetres."""

    def __init__(self, rotor: Rotor) -> None:
        self.sense = -sense(rotor.rotation)

    def point(self, p: Vector) -> list[float]:
        return [round(1000.0 * self.sense * p[1], 3), round(-1000.0 * p[0], 3), round(1000.0 * p[2], 3)]

    def way(self, p: Vector) -> list[float]:
        return [round(self.sense * p[1], 6), round(-p[0], 6), round(p[2], 6)]

    def fold(self, f: Fold, azimuth: float) -> list[float]:
        c, s = math.cos(azimuth), math.sin(azimuth)
        return [x for out, up in (f.ring, f.apex, f.anchor) for x in self.point((out * c, out * s, up))]


def degrees(values: tuple[float, ...]) -> list[float]:
    """Radians -> degrees, to what a picture can show."""
    return [round(math.degrees(v), 4) for v in values]


PLACES = {"nose": 0.0, "right": 90.0, "tail": 180.0, "left": 270.0}


@lru_cache(maxsize=4)
def scene(motion: Motion) -> dict[str, Any]:
    """The whole turn as JSON data. Kept, because the drawn view and the solid one ask for the same: read only."""
    rotor, frame = motion.rotor, _Frame(motion.rotor)
    drive_at = rotor.drive_scissors
    kind = motion.setting.what_if.kind
    count = int(rotor.head["actuators"])
    return {
        "sense": frame.sense,
        "steps": len(motion.pitch),
        "blades": rotor.blades,
        "type": rotor.head.option("type"),
        "rotation": rotor.rotation,
        "rise": round(1000.0 * rotor.link_rise, 3),
        "hinge": round(1000.0 * rotor.hinge, 3),
        "station": round(1000.0 * rotor.horn_station, 3),
        "arm": round(1000.0 * rotor.arm, 3),
        "rides": rotor.horn_rides,
        "chord": round(1000.0 * rotor.chord, 3),
        # How far out the blades' roots are drawn: drawn, not described.
        "out": round(1000.0 * max(2.0 * rotor.ring_radius, rotor.hinge + 1.45 * rotor.ring_radius), 3),
        "ringRadius": round(1000.0 * rotor.ring_radius, 3),
        "rodRadius": round(1000.0 * rotor.rod_radius, 3),
        "levelPitch": round(math.degrees(rotor.pitch_level), 4),
        "actuators": count,
        "rpm": rotor.head["rpm"],
        # How far the rotor is turned when blade 1 stands over each of these places.
        "places": {name: round(math.degrees(azimuth_of(math.radians(b), rotor.rotation)), 4) for name, b in PLACES.items()},
        "stretch": motion.setting.stretch,
        "kind": kind,
        "number": motion.setting.what_if.number,
        "centre": frame.point((0.0, 0.0, motion.drawn.height)),
        "still": [*frame.way(motion.still[0]), *frame.way(motion.still[1])],
        "rods": [
            {"bearing": round(math.degrees(bearing_of(a, rotor.rotation)), 3), "joint": frame.point(r.joint), "foot": frame.point(r.foot)}
            for a, r in zip(rotor.rod_azimuths, motion.rods, strict=True)
        ],
        "stationary": frame.fold(motion.stationary, rotor.stationary_scissors),
        "ring": [[*frame.way(d), *frame.way(e)] for d, e in motion.ring],
        "drive": [frame.fold(f, drive_at) for f in motion.drive],
        "feet": [[x for p in row for x in frame.point(p)] for row in motion.feet],
        "horns": [[x for p in row for x in frame.point(p)] for row in motion.horns],
        "pitch": [degrees(row) for row in motion.pitch],
        "flap": [degrees(row) for row in motion.flap],
    }  # fmt: skip


def blade_bearing(rotor: Rotor, angle: float, blade: int) -> float:
    """Bearing (rad) at which blade `blade` (from 0) stands when the rotor is turned by `angle`."""
    return bearing_of(angle + blade * TURN / rotor.blades, rotor.rotation)
