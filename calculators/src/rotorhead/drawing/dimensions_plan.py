"""Dimensions seen from above: the head's ring, link, horn, hinge and rods, all to one scale, nose up the page."""

import math

from ..conventions import HALF_TURN, TURN, azimuth_of, bearing_of, sense, wrap, wrap_turn
from ..rotor import Rotor
from .canvas import Compass
from .dimensions_pen import Point, Sketch

_X, _Y = 170.0, 176.0
_REACH = 104.0  # the farthest of rods, ring and horn, px from the mast
_ASIDE = 38.0  # from the span axis to a dimension along it, px


class Plan:
    """The head from above, blade 1 where it moves forward; `place` gives the page's point of a place on the blade."""

    def __init__(self, sketch: Sketch, rotor: Rotor, *, hinge: bool = False, far: float = _REACH) -> None:
        self.sketch, self.rotor = sketch, rotor
        self.way = sense(rotor.rotation)
        self.span_bearing = bearing_of(HALF_TURN / 2.0, rotor.rotation)
        self.compass = Compass(sketch, _X, _Y)
        self.mast: Point = (_X, _Y)
        # "Ahead" seen from above: a quarter turn on in the direction of rotation.
        self.out = self._unit(self.span_bearing)
        self.ahead = self._unit(self.span_bearing + self.way * HALF_TURN / 2.0)
        reach = max(rotor.rod_radius, rotor.ring_radius, math.hypot(rotor.horn_station, rotor.arm))
        self.far, self.scale = far, far / reach
        if hinge and rotor.hinge > 0.0:
            self.scale = min(self.scale, 132.0 / rotor.hinge)

    @staticmethod
    def _unit(bearing: float) -> Point:
        return math.sin(bearing), -math.cos(bearing)

    def place(self, out: float, fore: float) -> Point:
        """Metres out along blade 1 and ahead of it -> the page."""
        return self.shifted(self.mast, self.scale * out, self.scale * fore)

    def shifted(self, p: Point, out: float, fore: float) -> Point:
        """A point moved on the page by px along and ahead of the blade."""
        return p[0] + out * self.out[0] + fore * self.ahead[0], p[1] + out * self.out[1] + fore * self.ahead[1]

    def frame(self, *, turns: bool = True) -> None:
        """Rods, ring, mast, the blades' axes, the nose and the direction of turning."""
        s, r, c = self.sketch, self.rotor, self.compass
        ring, rods = r.ring_radius * self.scale, r.rod_radius * self.scale
        for blade in range(1, r.blades):
            c.radial(self.bearing(blade * TURN / r.blades), 7, self.far, "r-faint")
        s.circle(_X, _Y, rods, "r-faint")
        s.circle(_X, _Y, ring, "r-plate")
        ticks = max(12, int(ring * 0.7))
        s.hatch(
            [(c.at(i * TURN / ticks, ring - 3), c.at(i * TURN / ticks + 2.5 / ring, ring + 3)) for i in range(ticks)]
        )
        for rod in r.head.rods:
            c.square(math.radians(rod.bearing_deg), rods, 9, "r-structure fill")
        c.radial(self.span_bearing, 6, 158, "r-structure blade")
        s.circle(_X, _Y, 6, "r-structure mark")
        s.arrow(_X, _Y - self.far - 8, _X, _Y - self.far - 26, "r-structure", 8)
        s.label("nose", (_X, _Y - self.far - 22), must=True)
        if turns:
            start = self.span_bearing - HALF_TURN + self.way * math.radians(14)
            c.arc_arrow(start, self.way * math.radians(32), self.far + 15, "r-structure")
            s.label("turns", c.at(start + self.way * math.radians(16), self.far + 15))

    def bearing(self, ahead: float) -> float:
        """The bearing of what is `ahead` (rad, in the direction of rotation) of blade 1."""
        return bearing_of(azimuth_of(self.span_bearing, self.rotor.rotation) + ahead, self.rotor.rotation)

    def blade(self) -> None:
        """Blade 1's hinge, horn and link, under its span axis."""
        s, r = self.sketch, self.rotor
        root, horn, foot = self.place(r.horn_station, 0.0), self.horn(), self.foot()
        self.hinge()
        s.line(*foot, *horn, "r-structure")
        s.line(*root, *horn, "r-plate")
        s.circle(*horn, 3.5, "r-plate fill")
        s.circle(*foot, 5, "r-plate")

    def hinge(self) -> bool:
        """A bar across the axis where the blade flaps, when that is on the sheet."""
        if not 0.0 < self.rotor.hinge * self.scale < 150.0:
            return False
        at = self.place(self.rotor.hinge, 0.0)
        self.sketch.line(*self.shifted(at, 0.0, -9.0), *self.shifted(at, 0.0, 9.0), "r-structure blade")
        return True

    def horn(self) -> Point:
        """The link's upper end."""
        return self.place(self.rotor.horn_station, self.rotor.arm)

    def foot(self) -> Point:
        """The link's lower end."""
        return self.place(self.rotor.link_foot_out, self.rotor.link_foot_ahead)

    def free_side(self, fore: float) -> Point:
        """A point beside the axis, on the side where the named part does not stand."""
        return self.shifted(self.mast, 0.0, -math.copysign(_ASIDE, fore))


def _blade_sketch(s: Sketch, rotor: Rotor) -> Plan:
    plan = Plan(s, rotor)
    plan.frame()
    plan.blade()
    return plan


def _axis_name(plan: Plan) -> None:
    plan.sketch.label("span axis", plan.shifted(plan.mast, 132.0, 0.0))


def foot_out(s: Sketch, rotor: Rotor, key: str) -> None:
    """Mast to the link's lower end, along the blade."""
    plan = _blade_sketch(s, rotor)
    s.span(plan.mast, plan.foot(), plan.out, plan.free_side(rotor.link_foot_ahead))
    s.label("link's lower end", plan.foot())
    s.label("mast", plan.mast)
    _axis_name(plan)


def foot_ahead(s: Sketch, rotor: Rotor, key: str) -> None:
    """Span axis to the link's lower end, square to it."""
    plan = _blade_sketch(s, rotor)
    inboard = min(0.0, plan.scale * rotor.link_foot_out) - 36.0
    s.span(plan.place(rotor.link_foot_out, 0.0), plan.foot(), plan.ahead, plan.shifted(plan.mast, inboard, 0.0))
    s.label("link's lower end", plan.foot())
    _axis_name(plan)


def arm(s: Sketch, rotor: Rotor, key: str) -> None:
    """Span axis to the link's upper end, square to it."""
    plan = _blade_sketch(s, rotor)
    outboard = plan.scale * max(rotor.horn_station, rotor.link_foot_out, 0.0) + 34.0
    s.span(plan.place(rotor.horn_station, 0.0), plan.horn(), plan.ahead, plan.shifted(plan.mast, outboard, 0.0))
    s.label("link's upper end", plan.horn())
    _axis_name(plan)


def station(s: Sketch, rotor: Rotor, key: str) -> None:
    """Mast to the link's upper end, along the blade."""
    plan = _blade_sketch(s, rotor)
    s.span(plan.mast, plan.place(rotor.horn_station, 0.0), plan.out, plan.free_side(rotor.arm))
    s.label("link's upper end", plan.horn())
    s.label("mast", plan.mast)
    _axis_name(plan)


def hinge_offset(s: Sketch, rotor: Rotor, key: str) -> None:
    """Mast to the flap hinge, along the blade; drawn as a distance, said as a share of the radius."""
    plan = Plan(s, rotor, hinge=True)
    plan.frame()
    plan.hinge()
    hinge = plan.place(rotor.hinge, 0.0)
    s.span(plan.mast, hinge, plan.out, plan.free_side(rotor.arm))
    s.label("equivalent hinge" if rotor.head.option("type") == "hingeless" else "flap hinge", hinge)
    s.label("mast", plan.mast)


def _rod_names(plan: Plan, only: int | None = None) -> None:
    radius = plan.rotor.rod_radius * plan.scale
    for n, rod in enumerate(plan.rotor.head.rods, start=1):
        bearing = math.radians(rod.bearing_deg)
        plan.sketch.label(f"R{n}", plan.compass.at(bearing, radius + 2), must=n == only)


def rod_radius(s: Sketch, rotor: Rotor, key: str) -> None:
    """Mast to a rod's joint."""
    plan = Plan(s, rotor)
    plan.frame()
    bearing = math.radians(rotor.head.rods[0].bearing_deg)
    along = (math.sin(bearing), -math.cos(bearing))
    # Beside the radius, on the side away from the blade's axis.
    side = -1.0 if along[0] * plan.out[1] - along[1] * plan.out[0] > 0.0 else 1.0
    through = (_X - side * 26.0 * along[1], _Y + side * 26.0 * along[0])
    s.span(plan.mast, plan.compass.at(bearing, rotor.rod_radius * plan.scale), along, through)
    _rod_names(plan, 1)
    s.label("mast", plan.mast)


def _from_nose(plan: Plan, bearing: float, far: float) -> None:
    """An angle clockwise from the nose, its sides drawn to a radius."""
    turn = wrap_turn(bearing)
    plan.sketch.ray(plan.mast, 0.0, 8, max(far, plan.far) + 6)
    plan.sketch.ray(plan.mast, turn, 8, far)
    plan.sketch.sweep(plan.mast, 0.0, turn, max(34.0, 0.62 * far), both=False)


def rod_bearing(s: Sketch, rotor: Rotor, key: str) -> None:
    """Nose to a rod, clockwise."""
    plan = Plan(s, rotor)
    plan.frame()
    number = int(key.split(".")[1])
    bearing = math.radians(rotor.head.rods[number - 1].bearing_deg)
    _from_nose(plan, bearing, rotor.rod_radius * plan.scale - 6)
    _rod_names(plan, number)


def rods_count(s: Sketch, rotor: Rotor, key: str) -> None:
    """The rods, counted."""
    plan = Plan(s, rotor)
    plan.frame()
    radius = rotor.rod_radius * plan.scale
    for n, rod in enumerate(rotor.head.rods, start=1):
        at = plan.compass.at(math.radians(rod.bearing_deg), radius)
        s.rect(at[0] - 7, at[1] - 7, 14, 14, "r-hand fill")
        s.label(f"R{n}", at, "t-hand", must=True)
    s.worth((_X, _Y + 20))


def stationary_scissors(s: Sketch, rotor: Rotor, key: str) -> None:
    """Nose to the scissors that hold the stationary ring, clockwise."""
    plan = Plan(s, rotor)
    plan.frame()
    bearing = math.radians(rotor.head["stationary_scissors_bearing_deg"])
    ring = rotor.rod_radius * plan.scale
    _scissors(plan, bearing, ring)
    _from_nose(plan, bearing, ring - 8)
    s.label("stationary scissors", plan.compass.at(bearing, ring + 20), must=True)


def _scissors(plan: Plan, bearing: float, ring: float) -> None:
    c = plan.compass
    half = 6.0 / ring
    for side in (-half, half):
        plan.sketch.line(*c.at(bearing + side, ring - 7), *c.at(bearing + side, ring + 14), "r-structure blade")
    plan.sketch.line(*c.at(bearing - half, ring + 14), *c.at(bearing + half, ring + 14), "r-structure blade")


def drive_scissors(s: Sketch, rotor: Rotor, key: str) -> None:
    """Blade 1 to the scissors that turn the ring, in the direction of rotation."""
    plan = Plan(s, rotor)
    plan.frame()
    ring = rotor.ring_radius * plan.scale
    bearing = plan.bearing(rotor.drive_scissors)
    _scissors(plan, bearing, ring)
    s.ray(plan.mast, plan.span_bearing, 8, ring + 24)
    s.ray(plan.mast, bearing, 8, ring - 8)
    s.sweep(plan.mast, plan.span_bearing, plan.way * rotor.drive_scissors, 0.6 * ring, both=False)
    s.label("drive scissors", plan.compass.at(bearing, ring + 20), must=True)
    s.label("blade 1", plan.shifted(plan.mast, 142.0, 0.0))


def mixing_turn(s: Sketch, rotor: Rotor, key: str) -> None:
    """Rod 1 to the plate's low point with the stick forward, against the direction of rotation."""
    plan = Plan(s, rotor)
    plan.frame()
    first, low = math.radians(rotor.head.rods[0].bearing_deg), rotor.forward_low_bearing
    radius = rotor.rod_radius * plan.scale
    plan.compass.triangle(low, rotor.ring_radius * plan.scale, 15, "r-plate fill")
    s.ray(plan.mast, first, 8, radius - 6)
    s.ray(plan.mast, low, 8, rotor.ring_radius * plan.scale - 8)
    # Before rod 1 in the direction of rotation: the rotor comes to it first.
    s.sweep(plan.mast, first, -plan.way * wrap(rotor.mixing_turn), max(34.0, 0.62 * radius), both=False)
    _rod_names(plan, 1)
    s.label("plate low", plan.compass.at(low, rotor.ring_radius * plan.scale + 6), "t-plate", must=True)


def rotation(s: Sketch, rotor: Rotor, key: str) -> None:
    """The way the rotor turns."""
    plan = Plan(s, rotor, far=84.0)
    plan.frame(turns=False)
    start = HALF_TURN - plan.way * math.radians(75)
    s.sweep(plan.mast, start, plan.way * math.radians(150), 100, both=False, worth=(_X, _Y + 98))
    s.label("blade 1", plan.shifted(plan.mast, 142.0, 0.0))
