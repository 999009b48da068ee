"""One dimension of a head at a time: what is measured from where, drawn beside the field that asks for it.

Each sketch is to the head's own proportions where there are any; the one dimension stands in the hand's role with its
label and value, everything else is quiet. The sentences say the same in words; pages print them too.
"""

import textwrap
from collections.abc import Callable
from importlib import import_module
from typing import Final

from .. import units
from ..fields import Drawing
from ..head import Head
from ..head_figures import BY_KEY, OPTION_BY_KEY
from ..rotor import Rotor
from . import dimensions_plan  # noqa: F401 - the sketch that is shown first comes with this module
from .dimensions_pen import Sketch

# What is measured from where, and with what; keyed by the figure, a rod's without its number.
HOW: Final[dict[str, str]] = {
    "rotation": "Direction of turning: the way the blades move, seen from above; the leading edges, or the manual, show it.",
    "type": "Kind of head: how a blade is let flap, by one hinge on the mast's axis, by a hinge of its own or by a root "
            "that bends; from the maintenance manual.",
    "horn_rides_with_flap": "Horn and flap: whether the horn rises with the blade when it flaps, which it does when the flap "
                            "hinge stands inboard of the pitch bearing; by looking, or from the maintenance manual.",
    "blades": "Number of blades: counted.",
    "radius_m": "Rotor radius: from the mast's axis to the blade's tip, along the blade; by tape, or half the rotor diameter "
                "of the manual's data.",
    "chord_m": "Blade chord: from leading edge to trailing edge, square to the span, away from root and tip; by ruler.",
    "rpm": "Rotor speed: turns in a minute when governed in flight; from the flight manual's data.",
    "twist_deg": "Blade twist: from the chord at the root to the chord at the tip, carried on evenly to the mast, negative "
                 "when the tip's nose is the lower; by inclinometer at two stations, or from the manual's data.",
    "root_cut": "Start of the aerofoil: from the mast's axis to where the blade takes its shape, by tape, divided by the radius.",
    "blade_mass_kg": "Blade mass: all that hangs outboard of the flap hinge; by weighing, or from the manual's data.",
    "hinge_offset": "Flap hinge: from the mast's axis to the hinge's axis, along the blade, by ruler, divided by the radius; "
                    "for a blade that bends, the equivalent hinge of the maker's data.",
    "root_spring_Nm_per_rad": "Flap spring: the moment about the flap hinge that raises the blade, for each radian it is "
                              "raised; from the maker's data, 0 for a free hinge.",
    "precone_deg": "Precone: from square to the mast up to the blade's axis as the hub is built, no load on it; from the "
                   "manual's data, or by inclinometer on the hub.",
    "lift_slope_per_rad": "Lift-curve slope: the rise of the section's lift coefficient for each radian of angle of attack, "
                          "below the stall; from section data.",
    "chordwise_radius_of_gyration_m": "Chordwise radius of gyration: from the mass centre, along the chord, to where half the "
                                      "mass on each side would turn as heavily; from the maker's data, or a swing test of a blade.",
    "thickness_radius_of_gyration_m": "Radius of gyration across the thickness: from the mass centre, square to the chord, to "
                                      "where half the mass on each side would turn as heavily; from the maker's data.",
    "pitching_moment_coefficient": "Pitching-moment coefficient: the air's turning effect about the quarter chord, positive "
                                   "nose up; from section data.",
    "rod_radius_mm": "Radius of the rods: from the mast's axis to the middle of a rod's joint on the stationary ring, square to "
                     "the mast; by ruler, or half the distance across two opposite joints.",
    "mixing_turn_deg": "Mixing turn: from rod 1, against the direction of rotation, to the plate's low point with the stick "
                       "forward; by protractor, 0 when stick forward lowers rod 1 most.",
    "stationary_scissors_bearing_deg": "Stationary scissors: from the nose, clockwise seen from above, to the scissors that hold "
                                       "the stationary ring; by protractor about the mast.",
    "drive_scissors_ahead_deg": "Drive scissors: from blade 1's span axis to the scissors that turn the ring, positive in the "
                                "direction of rotation; by protractor about the mast.",
    "drive_scissors_ring_arm_mm": "Drive scissors' lower arm: from the hinge at the rotating ring to the hinge between the arms; by ruler.",
    "drive_scissors_anchor_arm_mm": "Drive scissors' upper arm: from the hinge between the arms to the hinge on the mast's collar; by ruler.",
    "drive_scissors_anchor_mm": "Drive scissors' collar: from the mast's axis to the hinge on its collar, square to the mast; by ruler.",
    "drive_scissors_height_mm": "Drive scissors' height: from the ring's hinge, plate level at height 0, up to the hinge on the "
                                "collar, along the mast; by ruler.",
    "stationary_scissors_ring_arm_mm": "Stationary scissors' upper arm: from the hinge at the stationary ring to the hinge between "
                                       "the arms; by ruler.",
    "stationary_scissors_anchor_arm_mm": "Stationary scissors' lower arm: from the hinge between the arms to the hinge on the "
                                         "gearbox; by ruler.",
    "stationary_scissors_anchor_mm": "Stationary scissors' foot: from the mast's axis to the hinge on the gearbox, square to the "
                                     "mast; by ruler.",
    "stationary_scissors_height_mm": "Stationary scissors' depth: from the ring's hinge, plate level at height 0, down to the hinge "
                                     "on the gearbox, along the mast; by ruler.",
    "link_foot_out_mm": "Link's lower end, out: from the mast's axis to the middle of the link's lower ball, along the blade's "
                        "span axis; by ruler, negative beyond the mast.",
    "link_foot_ahead_mm": "Link's lower end, ahead: from the span axis to the middle of the link's lower ball, square to the "
                          "axis; by ruler, positive in the direction of rotation.",
    "arm_mm": "Horn arm: from the feathering axis to the middle of the link's upper ball, square to the axis; by ruler, "
              "positive ahead of the blade.",
    "horn_station_mm": "Horn's station: from the mast's axis to the middle of the link's upper ball, along the blade; by ruler.",
    "link_mm": "Pitch-link length: from the middle of the lower ball to the middle of the upper one, in a straight line; by ruler.",
    "pitch_at_plate_zero_deg": "Pitch with the horn level: from level to the chord at 0.75 of the radius, plate level and the horn "
                               "square to the mast; by inclinometer, nose up positive.",
    "collective_low_deg": "Least collective pitch: from level to the chord at 0.75 of the radius, lever down and plate level; by "
                          "inclinometer, or from the manual's data.",
    "collective_high_deg": "Greatest collective pitch: from level to the chord at 0.75 of the radius, lever up and plate level; by "
                           "inclinometer, or from the manual's data.",
    "cyclic_fore_aft_deg": "Cyclic pitch, fore and aft: from a turn's mean pitch to its greatest, stick fully forward or back, lever in "
                           "the middle; by inclinometer at 0.75 of the radius, half the difference all round.",
    "cyclic_left_right_deg": "Cyclic pitch, left and right: from a turn's mean pitch to its greatest, stick fully left or right, lever "
                             "in the middle; by inclinometer at 0.75 of the radius, half the difference all round.",
    "lever_travel_mm": "Lever travel: the way of the grip's middle from the lower stop to the upper one, along its arc; by tape.",
    "stick_travel_mm": "Stick travel: the way of the grip's middle from one stop to the other, along its arc; by tape.",
    "stick_friction_N": "Stick friction: the pull at the grip's middle, square to the stick, that just keeps it moving; by spring balance.",
    "actuators": "Hydraulic actuators: those that move the stationary ring, counted; 0 where the hand moves the rods itself.",
    "pressure_MPa": "Hydraulic pressure: at the actuator, above the return line; by the system's gauge, or from the manual's data.",
    "actuator_bore_mm": "Actuator bore: across the cylinder, from inner wall to inner wall; from the maintenance manual's data.",
    "actuator_rod_mm": "Actuator rod: across the rod that leaves the piston on the side the pressure works on; by calliper, or from "
                       "the manual's data.",
    "mass_kg": "Aircraft mass: all that the rotor carries, people and fuel with it; from weighing and the loading sheet.",
    "mast_above_cg_m": "Head above the centre of gravity: from the centre of gravity of the loading sheet up to the hub's middle, "
                       "along the mast; from the manual's data.",
    "cruise_speed_kt": "Speed for the loads: through the air in level flight; from the flight manual's data.",
    "drag_area_m2": "Drag area: the airframe's drag divided by the pressure of the oncoming air, as the side of a flat square of that "
                    "area would show it; from performance data.",
    "rods.count": "Number of rods: those under the stationary ring, counted.",
    "rods.bearing_deg": "Rod's bearing: from the nose, clockwise seen from above, to the rod's joint on the stationary ring; by "
                        "protractor about the mast.",
    "rods.stroke_mm": "Rod's stroke: from the joint's lowest place to its highest, along the mast; by ruler, or from the manual's data.",
}  # fmt: skip

_Draw = Callable[[Sketch, Rotor, str], None]
# Module and function of each sketch. Looked up when drawn: the browser fetches the sketches beside the first one only when
# another figure is asked for (scripts/site/parts.py).
_SKETCHES: Final[dict[str, tuple[str, str]]] = {
    "rotation": ("plan", "rotation"), "type": ("hub", "kind"), "horn_rides_with_flap": ("hub", "horn_rides"), "blades": ("rotor", "blades"),
    "radius_m": ("rotor", "radius"), "chord_m": ("rotor", "chord"), "rpm": ("rotor", "rpm"), "twist_deg": ("rotor", "twist"), "root_cut": ("rotor", "root_cut"),
    "blade_mass_kg": ("rotor", "blade_mass"), "hinge_offset": ("plan", "hinge_offset"), "root_spring_Nm_per_rad": ("hub", "root_spring"),
    "precone_deg": ("hub", "precone"), "lift_slope_per_rad": ("rotor", "lift_slope"),
    "chordwise_radius_of_gyration_m": ("rotor", "chordwise_gyration"), "thickness_radius_of_gyration_m": ("rotor", "thickness_gyration"),
    "pitching_moment_coefficient": ("rotor", "pitching_moment"), "rod_radius_mm": ("plan", "rod_radius"), "mixing_turn_deg": ("plan", "mixing_turn"),
    "stationary_scissors_bearing_deg": ("plan", "stationary_scissors"), "drive_scissors_ahead_deg": ("plan", "drive_scissors"),
    **{f"{pair}_scissors_{part}_mm": ("more", "scissors")
       for pair in ("drive", "stationary") for part in ("ring_arm", "anchor_arm", "anchor", "height")},
    "link_foot_out_mm": ("plan", "foot_out"), "link_foot_ahead_mm": ("plan", "foot_ahead"), "arm_mm": ("plan", "arm"), "horn_station_mm": ("plan", "station"),
    "link_mm": ("side", "link"), "pitch_at_plate_zero_deg": ("side", "pitch"), "collective_low_deg": ("side", "pitch"), "collective_high_deg": ("side", "pitch"),
    "cyclic_fore_aft_deg": ("side", "cyclic"), "cyclic_left_right_deg": ("side", "cyclic"), "lever_travel_mm": ("more", "lever"),
    "stick_travel_mm": ("more", "stick"), "stick_friction_N": ("more", "stick_friction"), "actuators": ("more", "actuators"),
    "pressure_MPa": ("more", "pressure"), "actuator_bore_mm": ("more", "bore"), "actuator_rod_mm": ("more", "actuator_rod"), "mass_kg": ("more", "mass"),
    "mast_above_cg_m": ("more", "mast_above_cg"), "cruise_speed_kt": ("more", "cruise_speed"), "drag_area_m2": ("more", "drag_area"),
    "rods.count": ("plan", "rods_count"), "rods.bearing_deg": ("plan", "rod_bearing"), "rods.stroke_mm": ("side", "stroke"),
}  # fmt: skip


def how_key(key: str) -> str:
    """The key of `HOW` for a key of a head: 'rods.2.stroke_mm' -> 'rods.stroke_mm'."""
    parts = key.split(".")
    return f"{parts[0]}.{parts[2]}" if len(parts) == 3 else key


def label_of(key: str) -> str:
    """A figure's or choice's label, the first words added where it goes on from the line above it on a form."""
    label = OPTION_BY_KEY[key].label if key in OPTION_BY_KEY else BY_KEY[key].label
    if not label.startswith("…"):
        return label
    return f"{'Drive' if key.startswith('drive') else 'Stationary'} scissors' hinge {label}"


def value_of(head: Head, key: str, system: units.System) -> str:
    """This head's value with its unit; 'least to greatest' for a figure that is only known between two."""
    if key in OPTION_BY_KEY:
        return dict(OPTION_BY_KEY[key].choices)[head.option(key)]
    figure = BY_KEY[key]
    values = dict(head.unknown).get(key) or (head[key],)
    return " to ".join(
        units.show(figure.quantity, units.to_si(figure.quantity, v, "metric"), system, figure.decimals) for v in values
    )


def _lines(rotor: Rotor, key: str, value: str, system: units.System) -> tuple[str, ...]:
    """The value as it stands on the sketch; a share of the radius with the distance it makes."""
    if key in ("hinge_offset", "root_cut"):
        if key in dict(rotor.head.unknown):
            return value, "of the radius"
        long = rotor.head[key] * rotor.radius
        return (
            value,
            "of the radius",
            f"= {units.show('small_length' if key == 'hinge_offset' else 'length', long, system)}",
        )
    return tuple(textwrap.wrap(value, 28))


def dimension(rotor: Rotor, key: str, system: units.System) -> Drawing:
    """The sketch of one figure or choice of a head, and the sentence that says how it is measured."""
    value = value_of(rotor.head, key, system)
    sketch = Sketch(label_of(key), _lines(rotor, key, value, system))
    module, name = _SKETCHES[how_key(key)]
    draw: _Draw = getattr(import_module(f"{__package__}.dimensions_{module}"), name)
    draw(sketch, rotor, key)
    rod = f", rod {key.split('.')[1]}" if how_key(key) != key else ""
    return Drawing(sketch.svg(), f"{HOW[how_key(key)]} On this head{rod}: {value}.")
