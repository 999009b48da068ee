"""Figures of a head that contradict each other, each pair named in a sentence."""

import math
from typing import TYPE_CHECKING

from .faults import Fault, Refused

if TYPE_CHECKING:
    from .head import Head


def cross_checked(head: "Head") -> "Head":
    """The head itself, or `Refused` naming every pair of figures that contradict each other."""
    faults: list[Fault] = []

    def fault(key: str, text: str) -> None:
        faults.append(Fault(key, text, True))

    low, high = head["collective_low_deg"], head["collective_high_deg"]
    if high - low < 1.0:
        fault("collective_high_deg",
              f"Greatest collective pitch ({high:g}°) must be at least 1° above the least ({low:g}°).")  # fmt: skip
    if abs(head["arm_mm"]) < 10.0:
        fault("arm_mm", f"Horn arm: {head['arm_mm']:g} mm is too short; 10 mm or more, ahead or behind.")
    if math.hypot(head["link_foot_out_mm"], head["link_foot_ahead_mm"]) < 10.0:
        fault("link_foot_ahead_mm", f"Link's lower end, ahead of the blade: with {head['link_foot_out_mm']:g} mm out and "
              f"{head['link_foot_ahead_mm']:g} mm ahead it stands on the mast; 10 mm from its axis at least.")  # fmt: skip
    if head.option("type") == "teetering":
        if head["blades"] != 2:
            fault("blades", f"A teetering head has two blades, not {head['blades']:.0f}.")
        if head["hinge_offset"] != 0.0:
            fault("hinge_offset", "A teetering head's hinge stands on the mast's axis: its distance is 0, "
                  f"not {head['hinge_offset']:g}.")  # fmt: skip
    if head["horn_station_mm"] > 1000 * head["radius_m"] * 0.5:
        fault("horn_station_mm", f"Horn stands out {head['horn_station_mm']:g} mm: more than half the radius.")
    if head["actuators"] and head["actuator_rod_mm"] >= head["actuator_bore_mm"]:
        fault("actuator_rod_mm", f"Actuator rod ({head['actuator_rod_mm']:g} mm) must be thinner than its bore "
              f"({head['actuator_bore_mm']:g} mm).")  # fmt: skip
    if head["thickness_radius_of_gyration_m"] >= head["chordwise_radius_of_gyration_m"]:
        fault("thickness_radius_of_gyration_m",
              "Radius of gyration across the thickness must be less than along the chord.")  # fmt: skip
    bearings = sorted(rod.bearing_deg % 360.0 for rod in head.rods)
    gaps = [b - a for a, b in zip(bearings, [*bearings[1:], bearings[0] + 360.0], strict=True)]
    if len([g for g in gaps if g >= 5.0]) < 3:
        fault("rods.1.bearing_deg", "The rods must stand at three or more different bearings, 5° apart at least: "
              f"{', '.join(f'{r.bearing_deg:g}°' for r in head.rods)} can't hold a plate.")  # fmt: skip
    if faults:
        raise Refused(faults)
    return head
