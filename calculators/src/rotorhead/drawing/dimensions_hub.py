"""Dimensions of the hub seen square to a blade: precone, flap spring, where the horn stands, the kind of head."""

import math

from ..rotor import Rotor
from .dimensions_pen import Point, Sketch

_X = 170.0


class Hub:
    """Mast at the left, blade to the right: square to the blade, level."""

    x, y = 52.0, 196.0

    def __init__(self, sketch: Sketch, rotor: Rotor) -> None:
        self.sketch, self.rotor = sketch, rotor
        sketch.line(self.x, self.y, self.x, 288, "r-structure mast")

    def arm(self, to: float) -> None:
        """The hub's own level piece."""
        self.sketch.line(self.x, self.y, to, self.y, "r-structure mast")

    def raised(self, start: float, angle: float, far: float, offset: float = 0.0) -> Point:
        """A point on a blade raised by an angle from x = start, `far` px along it and `offset` px above its axis."""
        c, s = math.cos(angle), math.sin(angle)
        return start + far * c - offset * s, self.y - far * s - offset * c

    def blade(self, start: float, angle: float, near: float) -> None:
        """A slender blade from `near` px beyond x = start to the sheet's edge, raised by an angle."""
        end = (330.0 - start) / max(math.cos(angle), 0.5)
        corners = [self.raised(start, angle, f, o) for f, o in ((near, 4), (end, 4), (end, -4), (near, -4))]
        self.sketch.path(corners, "r-faint-fill", close=True)
        self.sketch.path(corners, "r-structure", close=True)


def precone(s: Sketch, rotor: Rotor, key: str) -> None:
    """Level to the blade's axis as the hub is built."""
    hub = Hub(s, rotor)
    hub.arm(96)
    hub.blade(hub.x, rotor.precone, 44)
    s.ray((hub.x, hub.y), math.pi / 2, 8, 276)
    s.ray((hub.x, hub.y), math.pi / 2 - rotor.precone, 8, 276)
    s.sweep((hub.x, hub.y), math.pi / 2, -rotor.precone, 224)
    s.circle(hub.x, hub.y, 5, "r-structure mark")
    s.label("mast", (hub.x, 266))
    s.label("square to the mast", (124, hub.y + 6))


def root_spring(s: Sketch, rotor: Rotor, key: str) -> None:
    """The moment about the hinge for a raised blade."""
    hub, hinge, angle = Hub(s, rotor), 112.0, math.radians(20)
    hub.arm(hinge)
    hub.blade(hinge, angle, 8)
    s.line(hinge + 8, hub.y, 326, hub.y, "r-faint")
    spring = [
        (hinge + (5 + 0.19 * i) * math.cos(i * 0.42), hub.y + (5 + 0.19 * i) * math.sin(i * 0.42)) for i in range(72)
    ]
    if rotor.root_spring > 0.0:
        s.path(spring, "r-structure")
    s.circle(hinge, hub.y, 4, "r-structure mark")
    s.ray((hinge, hub.y), math.pi / 2, 24, 160)
    s.ray((hinge, hub.y), math.pi / 2 - angle, 24, 160)
    s.sweep((hinge, hub.y), math.pi / 2, -angle, 142)
    s.label(
        "flap hinge" if rotor.head.option("type") != "hingeless" else "equivalent hinge", (hinge, hub.y + 16), must=True
    )
    s.label("moment for each radian" if rotor.root_spring > 0.0 else "no spring", (hinge + 96, hub.y + 6))


def horn_rides(s: Sketch, rotor: Rotor, key: str) -> None:
    """Does the horn rise with the flapping blade?"""
    hub, angle = Hub(s, rotor), math.radians(21)
    rides = rotor.horn_rides
    hinge, bearing, horn = (104.0, 46.0, 92.0) if rides else (196.0, -66.0, -30.0)
    hub.arm(hinge)
    slope = angle if rides else 0.0
    hub.blade(hinge, angle, 8)
    s.line(hinge, hub.y, 326, hub.y, "r-faint")
    for o in (9.0, -9.0):
        s.path([hub.raised(hinge, slope, f, o) for f in (bearing - 11, bearing + 11)], "r-structure blade")
    ball = hub.raised(hinge, slope, horn)
    s.line(*ball, ball[0] + 8, hub.y + 84, "r-structure")
    s.circle(*ball, 6, "r-plate")
    s.circle(hinge, hub.y, 5, "r-structure mark")
    s.span((ball[0], hub.y), ball, (0.0, -1.0), ball, worth=(ball[0] - 40, ball[1] - 34))
    s.label("flap hinge" if rides else "flexing part", (hinge, hub.y + 4), must=True)
    s.label("pitch bearing", hub.raised(hinge, slope, bearing, 10), must=True)
    s.label("horn", (ball[0], ball[1] + 6))
    s.label("link", (ball[0] + 8, hub.y + 76))


def kind(s: Sketch, rotor: Rotor, key: str) -> None:
    """How the blades are let flap: one hinge for both, a hinge each, or roots that bend."""
    which = rotor.head.option("type")
    y, angle = 172.0, math.radians(9)
    s.line(_X, y, _X, 252, "r-structure mast")
    for side in (-1.0, 1.0):
        up = angle * (side if which == "teetering" else 1.0)
        start = {"teetering": 0.0, "articulated": 40.0, "hingeless": 18.0}[which]

        def at(far: float, offset: float, side: float = side, up: float = up, start: float = start) -> Point:
            bend = up * min(1.0, far / 80.0) * 0.5 if which == "hingeless" else up
            return (
                _X + side * (start + far * math.cos(up) - offset * math.sin(bend)),
                y - far * math.sin(bend) - offset,
            )

        steps = [i * (154.0 - start) / 12 for i in range(13)]
        outline = [at(f, 4) for f in steps] + [at(f, -4) for f in steps[::-1]]
        s.path(outline, "r-faint-fill", close=True)
        s.path(outline, "r-structure", close=True)
        if start:
            s.line(_X, y, _X + side * start, y, "r-structure mast")
        if which == "articulated":
            s.circle(_X + side * start, y, 8, "r-hand")
        elif which == "hingeless":
            s.path([at(f, 0) for f in steps[:7]], "r-hand")
    if which == "teetering":
        s.circle(_X, y, 9, "r-hand")
    s.worth((_X, y - 22.0))
    words = {
        "teetering": "one hinge on the mast's axis",
        "articulated": "a flap hinge for each blade",
        "hingeless": "roots that bend, no hinge",
    }
    s.label(words[which], (_X, 256), must=True)
