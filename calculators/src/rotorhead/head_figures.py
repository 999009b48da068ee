"""The figures a head description holds, declared once: label, unit, allowed range, slider range.

The form, the JSON reading, the error sentences, the links and the tables on the pages are made from
this list. A key carries the unit of its value in the file; that unit is the quantity's metric one.
"""

from dataclasses import dataclass
from typing import Final


@dataclass(frozen=True, slots=True)
class Figure:
    """A number in a head description.

    `low` and `high` are the hard limits, `slider` the range a slider covers, all in the key's unit.
    """

    key: str
    label: str
    group: str
    quantity: str
    low: float
    high: float
    slider: tuple[float, float, float]
    decimals: int
    help: str = ""
    whole: bool = False


@dataclass(frozen=True, slots=True)
class Option:
    """A choice in a head description: JSON values and the words for them."""

    key: str
    label: str
    group: str
    choices: tuple[tuple[str, str], ...]
    help: str = ""


GROUPS: Final = {
    "rotor": "Rotor",
    "blade": "Blade",
    "plate": "Swashplate and rods",
    "scissors": "Scissors",
    "link": "Pitch links and horns",
    "hands": "Lever and stick",
    "hydraulics": "Hydraulic help",
    "aircraft": "Aircraft",
}

OPTIONS: Final[tuple[Option, ...]] = (
    Option("rotation", "Direction of turning, seen from above", "rotor",
           (("anticlockwise", "anticlockwise"), ("clockwise", "clockwise"))),
    Option("type", "Kind of head", "rotor",
           (("teetering", "teetering"), ("articulated", "articulated"), ("hingeless", "hingeless"))),
    Option("horn_rides_with_flap", "The horn rides with the flapping blade", "link",
           (("yes", "yes: the flap hinge is inboard of the pitch bearing"),
            ("no", "no: the pitch bearing is inboard of the flexing part"))),
)  # fmt: skip

F = Figure
FIGURES: Final[tuple[Figure, ...]] = (
    F("blades", "Number of blades", "rotor", "count", 2, 8, (2, 8, 1), 0, whole=True),
    F("radius_m", "Rotor radius", "rotor", "length", 1, 20, (3, 12, 0.1), 2, "mast to blade tip"),
    F("chord_m", "Blade chord", "rotor", "length", 0.05, 1.5, (0.1, 0.8, 0.01), 3),
    F("rpm", "Rotor speed", "rotor", "turn_rate", 60, 1500, (150, 600, 1), 0),
    F("twist_deg", "Blade twist, root to tip", "rotor", "angle", -25, 10, (-16, 0, 0.5), 1,
      "linear; negative is washout"),
    F("root_cut", "Aerofoil starts at", "rotor", "ratio", 0.02, 0.5, (0.05, 0.4, 0.01), 2,
      "fraction of the radius"),
    F("blade_mass_kg", "Blade mass", "blade", "mass", 0.5, 600, (5, 200, 0.5), 1,
      "outboard of the flap hinge, spread evenly to the tip"),
    F("hinge_offset", "Flap hinge distance from the mast", "blade", "ratio", 0, 0.25, (0, 0.15, 0.005), 3,
      "fraction of the radius; for a hingeless blade the equivalent hinge"),
    F("root_spring_Nm_per_rad", "Flap spring at the hinge", "blade", "spring", 0, 1_000_000, (0, 60_000, 500), 0),
    F("precone_deg", "Precone", "blade", "angle", -5, 10, (0, 5, 0.1), 1, "coning built into the hub"),
    F("lift_slope_per_rad", "Lift-curve slope", "blade", "per_radian", 3, 7, (5, 6.5, 0.01), 2),
    F("chordwise_radius_of_gyration_m", "Chordwise radius of gyration", "blade", "length", 0.002, 0.6,
      (0.02, 0.2, 0.001), 4, "about the blade's own mass centre"),
    F("thickness_radius_of_gyration_m", "Radius of gyration across the thickness", "blade", "length", 0,
      0.3, (0, 0.05, 0.0005), 4, "about the blade's own mass centre"),
    F("pitching_moment_coefficient", "Section pitching-moment coefficient", "blade", "ratio", -0.2, 0.2,
      (-0.05, 0.05, 0.001), 3),
    F("rod_radius_mm", "Rods stand at a radius of", "plate", "small_length", 30, 1500, (80, 600, 1), 0,
      "mast to the rods' joints on the stationary ring"),
    F("mixing_turn_deg", "Turn made by the mixing unit", "plate", "angle", -180, 180, (-90, 90, 1), 0,
      "how far before rod 1's bearing (in the direction of rotation) stick-forward puts the low point"),
    F("stationary_scissors_bearing_deg", "Stationary scissors at a bearing of", "plate", "angle", 0, 360,
      (0, 359, 1), 0, "clockwise from the nose, seen from above"),
    F("drive_scissors_ahead_deg", "Drive scissors ahead of blade 1 by", "plate", "angle", -180, 180,
      (-180, 180, 1), 0, "in the direction of rotation"),
    F("drive_scissors_ring_arm_mm", "Drive scissors, arm at the ring", "scissors", "small_length", 20, 2000, (50, 800, 1), 0),
    F("drive_scissors_anchor_arm_mm", "Drive scissors, arm at the mast", "scissors", "small_length", 20, 2000, (50, 800, 1), 0),
    F("drive_scissors_anchor_mm", "Drive scissors' hinge on the mast's collar, out from the axis", "scissors", "small_length", 0, 1500,
      (0, 400, 1), 0),
    F("drive_scissors_height_mm", "… and above the plate at height 0", "scissors", "small_length", 10, 2000, (50, 800, 1), 0),
    F("stationary_scissors_ring_arm_mm", "Stationary scissors, arm at the ring", "scissors", "small_length", 20, 2000, (50, 800, 1), 0),
    F("stationary_scissors_anchor_arm_mm", "Stationary scissors, arm at the gearbox", "scissors", "small_length", 20, 2000,
      (50, 800, 1), 0),
    F("stationary_scissors_anchor_mm", "Stationary scissors' hinge on the gearbox, out from the axis", "scissors", "small_length", 0, 1500,
      (0, 500, 1), 0),
    F("stationary_scissors_height_mm", "… and below the plate at height 0", "scissors", "small_length", 10, 2000, (50, 800, 1), 0),
    F("link_foot_out_mm", "Link's lower end, out along the blade", "link", "small_length", -1500, 1500,
      (-200, 700, 1), 1, "from the mast along the blade's span axis, on the rotating ring"),
    F("link_foot_ahead_mm", "Link's lower end, ahead of the blade", "link", "small_length", -1500, 1500,
      (-400, 400, 1), 1, "square to the span axis, positive in the direction of rotation"),
    F("arm_mm", "Horn arm", "link", "small_length", -1000, 1000, (-400, 400, 1), 0,
      "span axis to the link's upper end: positive ahead (leading horn), negative behind (trailing)"),
    F("horn_station_mm", "Horn stands out from the mast by", "link", "small_length", -500, 2500,
      (0, 700, 1), 1, "mast to the link's upper end, along the blade"),
    F("link_mm", "Pitch-link length", "link", "small_length", 30, 3000, (150, 900, 1), 0),
    F("pitch_at_plate_zero_deg", "Blade pitch with the horn level", "link", "angle", -10, 30, (0, 15, 0.25), 2,
      "at 0.75 of the radius, plate height 0, mid collective"),
    F("collective_low_deg", "Least collective pitch", "hands", "angle", -15, 30, (-5, 5, 0.25), 2, "lever down"),
    F("collective_high_deg", "Greatest collective pitch", "hands", "angle", -10, 45, (8, 20, 0.25), 2, "lever up"),
    F("cyclic_fore_aft_deg", "Cyclic pitch, stick fully forward or back", "hands", "angle", 1, 25,
      (4, 16, 0.25), 2),
    F("cyclic_left_right_deg", "Cyclic pitch, stick fully left or right", "hands", "angle", 1, 25,
      (4, 16, 0.25), 2),
    F("lever_travel_mm", "Lever travel at the grip", "hands", "small_length", 50, 800, (150, 450, 5), 0),
    F("stick_travel_mm", "Stick travel at the grip, end to end", "hands", "small_length", 50, 800,
      (150, 450, 5), 0),
    F("stick_friction_N", "Friction felt at the stick", "hands", "force", 0, 200, (0, 30, 1), 0),
    F("actuators", "Hydraulic actuators", "hydraulics", "count", 0, 8, (0, 4, 1), 0, "0 = no help", whole=True),
    F("pressure_MPa", "Hydraulic pressure", "hydraulics", "pressure", 0, 40, (0, 25, 0.1), 1),
    F("actuator_bore_mm", "Actuator bore", "hydraulics", "small_length", 0, 200, (0, 60, 1), 0),
    F("actuator_rod_mm", "Actuator rod", "hydraulics", "small_length", 0, 150, (0, 40, 1), 0),
    F("mass_kg", "Aircraft mass", "aircraft", "mass", 50, 60_000, (300, 16_000, 10), 0),
    F("mast_above_cg_m", "Head above the centre of gravity", "aircraft", "length", 0.1, 6, (0.8, 3, 0.05), 2),
    F("cruise_speed_kt", "Speed the loads are worked out for", "aircraft", "airspeed", 0, 200, (0, 160, 1), 0, "level flight"),
    F("drag_area_m2", "Drag area", "aircraft", "area", 0.05, 30, (0.3, 6, 0.05), 2),
)  # fmt: skip

ROD_BEARING: Final = F("bearing_deg", "bearing", "plate", "angle", 0, 360, (0, 359, 1), 0,
                       "clockwise from the nose, seen from above")  # fmt: skip
ROD_STROKE: Final = F("stroke_mm", "stroke", "plate", "small_length", 5, 800, (40, 300, 1), 0,
                      "end to end, its middle at mid collective")  # fmt: skip
RODS_FEWEST: Final = 3
RODS_MOST: Final = 6
RODS_COUNT: Final = F("rods.count", "Number of rods", "plate", "count", RODS_FEWEST, RODS_MOST, (RODS_FEWEST, RODS_MOST, 1), 0,
                      "three hold a plate; more only hold the same one", whole=True)  # fmt: skip


def rod_figure(number: int, part: Figure) -> Figure:
    """The declaration of rod `number` (1, 2, …): key 'rods.1.bearing_deg', label 'Rod 1 bearing'."""
    return Figure(
        f"rods.{number}.{part.key}", f"Rod {number} {part.label}", part.group, part.quantity, part.low,
        part.high, part.slider, part.decimals, part.help,
    )  # fmt: skip


BY_KEY: Final[dict[str, Figure]] = (
    {f.key: f for f in FIGURES}
    | {RODS_COUNT.key: RODS_COUNT}
    | {
        rod_figure(n, part).key: rod_figure(n, part)
        for n in range(1, RODS_MOST + 1)
        for part in (ROD_BEARING, ROD_STROKE)
    }
)
OPTION_BY_KEY: Final[dict[str, Option]] = {o.key: o for o in OPTIONS}
