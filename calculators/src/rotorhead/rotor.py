"""A head in SI units and azimuths: what the mechanism and the blade are computed from.

Everything here is in the frame that turns the right way by definition (azimuth from the tail,
increasing with rotation), so that one set of equations serves both directions of rotation; left and
right come back only through `conventions`.
"""

import math
from dataclasses import dataclass
from functools import cached_property, lru_cache

from .conventions import Rotation, azimuth_of, bearing_before_nose, before_nose
from .head import Head
from .units import STANDARD_GRAVITY

SEA_LEVEL_DENSITY = 1.225


@dataclass(frozen=True, eq=False)
class Rotor:
    """Geometry and blade of a head, SI units, angles in radians. Built by `of_head`.

    link_foot_out, link_foot_ahead: lower end of a pitch link on the rotating ring, along the blade's
    span axis and ahead of it. arm: horn arm, positive ahead. horn_station: mast to horn along the
    span. hinge: flap-hinge (or equivalent-hinge) distance from the mast. rod_azimuths: rods on the
    stationary ring. Compared by identity (one head gives one rotor), so that caches stay cheap.
    """

    head: Head
    rotation: Rotation
    blades: int
    radius: float
    chord: float
    speed: float
    twist: float
    root_cut: float
    blade_mass: float
    hinge_offset: float
    root_spring: float
    precone: float
    lift_slope: float
    rod_radius: float
    rod_azimuths: tuple[float, ...]
    rod_strokes: tuple[float, ...]
    mixing_turn: float
    stationary_scissors: float
    drive_scissors: float
    link_foot_out: float
    link_foot_ahead: float
    arm: float
    horn_station: float
    horn_rides: bool
    link: float
    pitch_level: float
    weight: float
    mast_above_cg: float

    @cached_property
    def hinge(self) -> float:
        """Flap hinge, metres from the mast."""
        return self.hinge_offset * self.radius

    @cached_property
    def ring_radius(self) -> float:
        """Radius of the links' lower ends on the rotating ring, m."""
        return math.hypot(self.link_foot_out, self.link_foot_ahead)

    @cached_property
    def lead(self) -> float:
        """Lead: azimuth of a link's lower end ahead of its blade's span axis, rad, signed."""
        return math.atan2(self.link_foot_ahead, self.link_foot_out)

    @property
    def trailing(self) -> bool:
        """True when the horn stands behind the feathering axis: link up = pitch down."""
        return self.arm < 0.0

    @cached_property
    def link_rise(self) -> float:
        """Height of the feathering axis above the link's lower end at the datum (plate height 0,
        horn level), m: the vertical leg of a link leaning from its foot to its horn."""
        out = self.horn_station - self.link_foot_out
        ahead = self.arm - self.link_foot_ahead
        return math.sqrt(max(0.0, self.link**2 - out**2 - ahead**2))

    @property
    def tan_delta3(self) -> float:
        """tan δ3 = (horn station − hinge)/arm, all signed; 0 when the horn does not ride with the flap.

        Positive takes pitch off as the blade flaps up. For a link that stands square to the plate.
        """
        return (self.horn_station - self.hinge) / self.arm if self.horn_rides else 0.0

    @property
    def solidity(self) -> float:
        """σ = N c / (π R), constant chord."""
        return self.blades * self.chord / (math.pi * self.radius)

    @property
    def flap_inertia(self) -> float:
        """I_β = m (R − eR)²/3, kg·m²: a uniform blade about its flap hinge."""
        return self.blade_mass * (self.radius - self.hinge) ** 2 / 3.0

    @property
    def flap_static_moment(self) -> float:
        """S_β = m (R − eR)/2, kg·m, about the flap hinge."""
        return self.blade_mass * (self.radius - self.hinge) / 2.0

    def lock_number(self, density: float = SEA_LEVEL_DENSITY) -> float:
        """γ = ρ a c R⁴ / I_β, I_β about the flap hinge; `density` in kg/m³."""
        return density * self.lift_slope * self.chord * self.radius**4 / self.flap_inertia

    @property
    def fitted_offset(self) -> float:
        """Where the machine puts the plate's low point with the stick forward: before the nose, rad.

        Rod 1's bearing, plus the turn made by a mixing unit.
        """
        bearing = math.radians(self.head.rods[0].bearing_deg)
        return before_nose(bearing, self.rotation) + self.mixing_turn

    @property
    def forward_low_bearing(self) -> float:
        """Bearing of the plate's low point with the stick forward, rad."""
        return bearing_before_nose(self.fitted_offset, self.rotation)


@lru_cache(maxsize=64)
def of_head(head: Head) -> Rotor:
    """A head description -> SI figures and azimuths."""
    rotation = head.rotation

    def mm(key: str) -> float:
        return head[key] / 1000.0

    def deg(key: str) -> float:
        return math.radians(head[key])

    return Rotor(
        head=head,
        rotation=rotation,
        blades=int(head["blades"]),
        radius=head["radius_m"],
        chord=head["chord_m"],
        speed=head["rpm"] * 2.0 * math.pi / 60.0,
        twist=deg("twist_deg"),
        root_cut=head["root_cut"],
        blade_mass=head["blade_mass_kg"],
        hinge_offset=head["hinge_offset"],
        root_spring=head["root_spring_Nm_per_rad"],
        precone=deg("precone_deg"),
        lift_slope=head["lift_slope_per_rad"],
        rod_radius=mm("rod_radius_mm"),
        rod_azimuths=tuple(azimuth_of(math.radians(r.bearing_deg), rotation) for r in head.rods),
        rod_strokes=tuple(r.stroke_mm / 1000.0 for r in head.rods),
        mixing_turn=deg("mixing_turn_deg"),
        stationary_scissors=azimuth_of(deg("stationary_scissors_bearing_deg"), rotation),
        drive_scissors=deg("drive_scissors_ahead_deg"),
        link_foot_out=mm("link_foot_out_mm"),
        link_foot_ahead=mm("link_foot_ahead_mm"),
        arm=mm("arm_mm"),
        horn_station=mm("horn_station_mm"),
        horn_rides=head.option("horn_rides_with_flap") == "yes",
        link=mm("link_mm"),
        pitch_level=deg("pitch_at_plate_zero_deg"),
        weight=head["mass_kg"] * STANDARD_GRAVITY,
        mast_above_cg=head["mast_above_cg_m"],
    )
