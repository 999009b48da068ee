"""Dimensions of the rotor and its blades: one blade or all of them from above, the section along the blade."""

import math

from ..conventions import HALF_TURN, TURN, bearing_of, sense
from ..rotor import Rotor
from .canvas import Compass
from .dimensions_pen import MIDDLE_X, MIDDLE_Y, Point, Sketch
from .dimensions_side import aerofoil

_UP = (0.0, -1.0)


class OneBlade:
    """One blade from above where it moves forward, the whole radius on the sheet, to scale; its leading edge up the page."""

    def __init__(self, sketch: Sketch, rotor: Rotor) -> None:
        self.sketch, self.rotor = sketch, rotor
        # Out along the blade: right on a rotor that turns anticlockwise, left on the other.
        self.out = math.sin(bearing_of(HALF_TURN / 2.0, rotor.rotation))
        self.mast: Point = (MIDDLE_X - self.out * 144.0, 150.0)
        self.scale = 288.0 / rotor.radius
        # To scale too, unless it would be broader than any blade is.
        self.across = min(self.scale, 100.0 / rotor.chord)

    def at(self, out: float, fore: float = 0.0) -> Point:
        """Metres out along the blade and toward its leading edge -> the page."""
        return self.mast[0] + self.out * self.scale * out, self.mast[1] - self.across * fore

    def draw(self) -> None:
        """Mast, root and aerofoil, and the way it moves."""
        s, r = self.sketch, self.rotor
        start = self.at(r.root_cut * r.radius)
        front, back = self.at(0, 0.25 * r.chord)[1], self.at(0, -0.75 * r.chord)[1]
        tip = self.at(r.radius)[0]
        corners = [(start[0], front), (tip, front), (tip, back), (start[0], back)]
        s.line(*self.mast, *start, "r-structure blade")
        s.path(corners, "r-faint-fill", close=True)
        s.path(corners, "r-structure", close=True)
        s.circle(*self.mast, 6, "r-structure mark")
        moves = self.at(0.93 * r.radius)[0]
        s.arrow(moves, front - 12, moves, front - 46, "r-structure", 8)
        s.label("moves", (moves, front - 34))

    def below(self) -> Point:
        """A point beside the blade for a dimension along it."""
        return self.mast[0], self.at(0, -0.75 * self.rotor.chord)[1] + 44.0


def radius(s: Sketch, rotor: Rotor, key: str) -> None:
    """Mast to tip."""
    blade = OneBlade(s, rotor)
    blade.draw()
    s.span(blade.mast, blade.at(rotor.radius), (blade.out, 0.0), blade.below())
    s.label("mast", blade.mast)
    s.label("tip", blade.at(rotor.radius))


def root_cut(s: Sketch, rotor: Rotor, key: str) -> None:
    """Mast to where the aerofoil starts."""
    blade = OneBlade(s, rotor)
    blade.draw()
    start = blade.at(rotor.root_cut * rotor.radius)
    s.span(blade.mast, start, (blade.out, 0.0), blade.below())
    s.label("mast", blade.mast)
    s.label("aerofoil from here out", (start[0] + blade.out * 70, blade.at(0, 0.25 * rotor.chord)[1]))


def chord(s: Sketch, rotor: Rotor, key: str) -> None:
    """Leading to trailing edge."""
    blade = OneBlade(s, rotor)
    blade.draw()
    front, back = blade.at(0.6 * rotor.radius, 0.25 * rotor.chord), blade.at(0.6 * rotor.radius, -0.75 * rotor.chord)
    s.span(back, front, _UP, front)
    s.label("leading edge", blade.at(0.3 * rotor.radius, 0.25 * rotor.chord))
    s.label("trailing edge", blade.at(0.3 * rotor.radius, -0.75 * rotor.chord))


def _rotor(s: Sketch, rotor: Rotor, role: str = "r-structure") -> tuple[Compass, float]:
    """All blades from above, to scale, nose up the page, blade 1 over the nose's own side."""
    c, far = Compass(s, MIDDLE_X, MIDDLE_Y + 8), 88.0
    scale = far / rotor.radius
    way = sense(rotor.rotation)
    s.circle(c.x, c.y, far, "r-faint")
    for blade in range(rotor.blades):
        b = bearing_of(HALF_TURN / 2.0 + blade * TURN / rotor.blades, rotor.rotation)
        near, lead = rotor.root_cut * far, b + way * HALF_TURN / 2.0
        corners = []
        for r, fore in ((near, 0.25), (far, 0.25), (far, -0.75), (near, -0.75)):
            x, y = c.at(b, r)
            across = fore * min(rotor.chord * scale, 30.0)
            corners.append((x + across * math.sin(lead), y - across * math.cos(lead)))
        s.line(*c.at(b, 4), *c.at(b, near), "r-structure")
        s.path(corners, "r-faint-fill", close=True)
        s.path(corners, role, close=True)
    s.circle(c.x, c.y, 5, "r-structure mark")
    s.arrow(c.x, c.y - far - 24, c.x, 46, "r-structure", 8)
    s.label("nose", (c.x, 50), must=True)
    return c, far


def blades(s: Sketch, rotor: Rotor, key: str) -> None:
    """The blades, counted."""
    c, far = _rotor(s, rotor, "r-hand thin")
    for blade in range(rotor.blades):
        b = bearing_of(HALF_TURN / 2.0 + blade * TURN / rotor.blades, rotor.rotation)
        x, y = c.at(b, far + 13)
        s.text(x, y + 4.2, str(blade + 1), "t t-small t-hand")
        s.boxes.append((x - 6, y - 8, x + 6, y + 8))
    s.worth((c.x, c.y + 30))


def rpm(s: Sketch, rotor: Rotor, key: str) -> None:
    """Turns in a minute."""
    c, far = _rotor(s, rotor)
    way = sense(rotor.rotation)
    s.sweep((c.x, c.y), HALF_TURN - way * math.radians(80), way * math.radians(160), far + 14, both=False)


def blade_mass(s: Sketch, rotor: Rotor, key: str) -> None:
    """What hangs outboard of the flap hinge."""
    x0, y, far = 40.0, 130.0, 320.0
    scale = (far - x0) / rotor.radius
    hinge = x0 + max(scale * rotor.hinge, 6.0 if rotor.hinge else 0.0)
    s.line(x0, y - 30, x0, 268, "r-structure mast")
    s.line(x0, y, hinge, y, "r-structure mast")
    blade = [(hinge, y - 4), (far, y - 4), (far, y + 4), (hinge, y + 4)]
    s.path(blade, "r-faint-fill", close=True)
    s.path(blade, "r-hand thin", close=True)
    s.circle(hinge, y, 4, "r-structure mark")
    middle = (hinge + far) / 2.0
    s.arrow(middle, y + 4, middle, y + 76, "r-hand")
    s.worth((middle, y + 54))
    s.label("equivalent hinge" if rotor.head.option("type") == "hingeless" else "flap hinge", (hinge + 62, y + 4))
    s.label("tip", (far, y - 4))
    s.label("its middle", (middle, y - 4))


def _lead(rotor: Rotor) -> float:
    """+1 when the leading edge is to the right, seen along the blade from its tip toward the mast."""
    return -sense(rotor.rotation)


def twist(s: Sketch, rotor: Rotor, key: str) -> None:
    """The chord at the root to the chord at the tip."""
    lead, pivot, long = _lead(rotor), (MIDDLE_X - 30.0 * _lead(rotor), 168.0), 150.0
    root = max(0.0, -rotor.twist) * 0.5 + math.radians(3)
    tip = root + rotor.twist
    s.path(aerofoil(pivot, long, lead, root), "r-faint-fill", close=True)
    s.path(aerofoil(pivot, long, lead, root), "r-structure", close=True)
    s.path(aerofoil(pivot, long, lead, tip), "r-structure", close=True)
    s.circle(*pivot, 4, "r-structure mark")
    base = lead * HALF_TURN / 2.0
    s.ray(pivot, base - lead * root, 8, 170)
    s.ray(pivot, base - lead * tip, 8, 170)
    s.sweep(pivot, base - lead * root, -lead * rotor.twist, 148)
    c = Compass(s, *pivot)
    s.label("root section", c.at(base - lead * root - lead * 0.05, 86), must=True)
    s.label("tip section", c.at(base - lead * tip + lead * 0.05, 86), must=True)
    s.label("seen from the tip", (MIDDLE_X, 288))


class Section:
    """One section from the tip's side, level, large."""

    def __init__(self, sketch: Sketch, rotor: Rotor, most: float = math.inf) -> None:
        self.sketch, self.lead = sketch, _lead(rotor)
        self.scale = min(264.0 / rotor.chord, most)
        self.long = self.scale * rotor.chord
        self.quarter: Point = (MIDDLE_X + self.lead * 0.25 * self.long, 160.0)
        outline = aerofoil(self.quarter, self.long, self.lead, 0.0)
        sketch.path(outline, "r-faint-fill", close=True)
        sketch.path(outline, "r-structure", close=True)
        nose, tail = self.along(0.25 * self.long), self.along(-0.75 * self.long)
        sketch.line(*nose, *tail, "r-faint")
        sketch.label("leading edge", (nose[0], nose[1] - 6))

    def along(self, fore: float, up: float = 0.0) -> Point:
        """A point of the page from the quarter chord, px toward the nose and up."""
        return self.quarter[0] + self.lead * fore, self.quarter[1] - up

    def cross(self, at: Point) -> None:
        """The mark of the mass centre."""
        self.sketch.circle(*at, 6, "r-structure mark")
        self.sketch.line(at[0] - 6, at[1], at[0] + 6, at[1], "r-structure")
        self.sketch.line(at[0], at[1] - 6, at[0], at[1] + 6, "r-structure")


def chordwise_gyration(s: Sketch, rotor: Rotor, key: str) -> None:
    """Mass centre to where the mass would stand, along the chord."""
    value = rotor.head[key]
    # The farther mark stands ahead of the leading edge when the mass is far out.
    section = Section(s, rotor, 156.0 / (value + 0.25 * rotor.chord))
    far = section.scale * value
    for side in (-1.0, 1.0):
        s.circle(*section.along(side * far), 5, "r-structure fill")
    section.cross(section.along(0.0))
    s.span(section.along(0.0), section.along(-far), (-section.lead, 0.0), section.along(0.0, -62.0))
    s.label("mass centre", section.along(0.0, 8))
    s.label("half the mass", section.along(-far, 8))


def thickness_gyration(s: Sketch, rotor: Rotor, key: str) -> None:
    """Mass centre to where the mass would stand, across the thickness."""
    value = rotor.head[key]
    section = Section(s, rotor, 84.0 / value if value else math.inf)
    far = section.scale * value
    for side in (-1.0, 1.0):
        s.circle(*section.along(0.0, side * far), 3, "r-structure fill")
    section.cross(section.along(0.0))
    s.span(section.along(0.0), section.along(0.0, far), _UP, section.along(-96.0))
    s.label("mass centre", section.along(0.0, -8))


def pitching_moment(s: Sketch, rotor: Rotor, key: str) -> None:
    """The turning effect of the air about the quarter chord: nose up is positive."""
    value = rotor.head[key]
    section = Section(s, rotor)
    s.circle(*section.quarter, 5, "r-structure mark")
    # Nose up: over the top, from the leading edge backward.
    turn = -section.lead * math.radians(110) * (1.0 if value > 0.0 else -1.0)
    s.sweep(section.quarter, -turn / 2.0, turn, 62, both=value == 0.0)
    s.label("quarter chord", (section.quarter[0], section.quarter[1] + 22), must=True)
    s.label("nose down" if value < 0.0 else "nose up" if value > 0.0 else "none", section.along(-64.0, 44.0))


def lift_slope(s: Sketch, rotor: Rotor, key: str) -> None:
    """How much lift coefficient for how much angle of attack."""
    x0, y0, across, up = 62.0, 256.0, 940.0, 140.0  # px a radian, px a unit of the coefficient
    s.arrow(x0, y0, 318, y0, "r-structure", 8)
    s.arrow(x0, y0, x0, 58, "r-structure", 8)
    slope, end = rotor.lift_slope, 0.22
    end = min(end, 190.0 / (up * slope))
    s.line(x0, y0, x0 + across * end, y0 - up * slope * end, "r-structure blade")
    a, b = 0.06, 0.16
    p, q = (x0 + across * a, y0 - up * slope * a), (x0 + across * b, y0 - up * slope * b)
    s.line(*p, q[0], p[1], "r-hand thin")
    s.arrow(q[0], p[1], *q, "r-hand")
    s.worth((q[0], (p[1] + q[1]) / 2.0))
    s.label("0.1 rad", ((p[0] + q[0]) / 2.0, p[1] + 4), must=True)
    s.label("lift coefficient", (x0 + 44, 62), must=True)
    s.label("angle of attack", (270, y0 + 6), must=True)
