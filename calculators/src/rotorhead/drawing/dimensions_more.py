"""Dimensions away from the blades: scissors, lever and stick, an actuator, the whole aircraft."""

import math

from ..faults import Refused
from ..mechanism.plate import Pose
from ..mechanism.scissors import Flat, Pair, arms, fold
from ..rotor import Rotor
from .dimensions_pen import Point, Sketch


def _triangle(rotor: Rotor, pair: Pair) -> tuple[Flat, Flat, Flat]:
    """Ring, apex and anchor at plate height 0; arms that don't reach are drawn toward one another."""
    try:
        now = fold(rotor, Pose(0.0, 0.0, 0.0), pair)
    except Refused:
        a, b, anchor = arms(rotor, pair)
        ring = (rotor.ring_radius if pair == "drive" else rotor.rod_radius, 0.0)
        share = a / (a + b)
        return ring, (ring[0] + share * (anchor[0] - ring[0]), ring[1] + share * (anchor[1] - ring[1])), anchor
    return now.ring, now.apex, now.anchor


def scissors(s: Sketch, rotor: Rotor, key: str) -> None:
    """One length of a pair of scissors in its own plane, the mast at the left."""
    pair: Pair = "drive" if key.startswith("drive") else "stationary"
    points = _triangle(rotor, pair)
    low, high = min(p[1] for p in points), max(p[1] for p in points)
    # Room for the height's own line beside the mast.
    left, top = (106.0 if key.endswith("height_mm") else 56.0), 100.0 if key.endswith("anchor_mm") else 84.0
    scale = min((252.0 - left) / max(p[0] for p in points), 166.0 / max(high - low, 1e-6))

    def at(p: Flat) -> Point:
        return left + scale * p[0], top + scale * (high - p[1])

    ring, apex, anchor = (at(p) for p in points)
    s.line(left, 46, left, 288, "r-structure mast")
    if pair == "drive":
        s.hatched_bar(((left, ring[1]), ring), 7.0)
    else:
        s.path([(left, ring[1]), ring, (ring[0], ring[1] - 7), (left, ring[1] - 7)], "r-plate thin", close=True)
    s.line(left, anchor[1], *anchor, "r-structure blade")
    s.path([ring, apex, anchor], "r-structure blade")
    for p in (ring, apex, anchor):
        s.circle(*p, 5, "r-structure mark")
    part = key.split("scissors_")[1]
    if part in ("ring_arm_mm", "anchor_arm_mm"):
        p, q = (ring, apex) if part == "ring_arm_mm" else (apex, anchor)
        long = math.hypot(q[0] - p[0], q[1] - p[1]) or 1.0
        along = ((q[0] - p[0]) / long, (q[1] - p[1]) / long)
        # On the outer side, away from the triangle's third corner.
        third = anchor if part == "ring_arm_mm" else ring
        side = -1.0 if (third[0] - p[0]) * -along[1] + (third[1] - p[1]) * along[0] > 0.0 else 1.0
        s.span(p, q, along, (p[0] - side * 26 * along[1], p[1] + side * 26 * along[0]))
    elif part == "anchor_mm":
        aside = -26.0 if pair == "drive" and anchor[1] < ring[1] else 26.0
        s.span((left, anchor[1]), anchor, (1.0, 0.0), (left, anchor[1] + min(aside, 282 - anchor[1])))
    else:
        s.span((left, ring[1]), anchor, (0.0, 1.0), (88.0, ring[1]))
    s.label("rotating ring" if pair == "drive" else "stationary ring", ring, "t-plate")
    s.label("collar on the mast" if pair == "drive" else "gearbox", anchor)
    s.label("mast", (left, 282 if pair == "drive" else 50))


def lever(s: Sketch, rotor: Rotor, key: str) -> None:
    """The grip's way from the lower stop to the upper one."""
    pivot, long = (262.0, 246.0), 196.0
    # As on a lever of about half a metre: how long it is, no figure of the head says.
    angle = min(rotor.head[key] / 480.0, 1.3)
    low = math.radians(-84)
    for turn, role in ((0.0, "r-structure blade"), (angle, "r-structure blade")):
        b = low + turn
        tip = (pivot[0] + long * math.sin(b), pivot[1] - long * math.cos(b))
        root = (pivot[0] + (long - 46) * math.sin(b), pivot[1] - (long - 46) * math.cos(b))
        s.line(*pivot, *tip, role)
        s.line(*root, *tip, "r-structure mast")
        s.label("lever down" if turn == 0.0 else "lever up", ((pivot[0] + tip[0]) / 2, (pivot[1] + tip[1]) / 2))
    s.circle(*pivot, 6, "r-structure mark")
    s.sweep(pivot, low, angle, long - 23)
    s.label("pivot", (pivot[0], pivot[1] + 6))


def _stick(s: Sketch, pivot: Point, bearing: float, long: float, role: str) -> None:
    tip = (pivot[0] + long * math.sin(bearing), pivot[1] - long * math.cos(bearing))
    root = (pivot[0] + (long - 42) * math.sin(bearing), pivot[1] - (long - 42) * math.cos(bearing))
    s.line(*pivot, *tip, role)
    s.line(*root, *tip, "r-structure mast" if role != "r-faint" else "r-faint")


def stick(s: Sketch, rotor: Rotor, key: str) -> None:
    """The grip's way from one stop to the other."""
    pivot, long = (170.0, 274.0), 186.0
    angle = min(rotor.head[key] / 560.0, 1.4)
    for b, role in ((0.0, "r-faint"), (-angle / 2, "r-structure blade"), (angle / 2, "r-structure blade")):
        _stick(s, pivot, b, long, role)
    s.circle(*pivot, 6, "r-structure mark")
    s.sweep(pivot, -angle / 2, angle, long - 21)
    s.label("pivot", pivot)
    s.label("stop", (pivot[0] - 90 * math.sin(angle / 2) - 12, pivot[1] - 90))
    s.label("other stop", (pivot[0] + 90 * math.sin(angle / 2) + 12, pivot[1] - 90))


def stick_friction(s: Sketch, rotor: Rotor, key: str) -> None:
    """The pull at the grip that just moves it."""
    pivot, long = (120.0, 274.0), 186.0
    _stick(s, pivot, 0.0, long, "r-structure blade")
    s.circle(*pivot, 6, "r-structure mark")
    y = pivot[1] - long + 21
    s.line(pivot[0] + 4, y, 166, y, "r-structure")
    s.rect(166, y - 9, 62, 18, "r-structure")
    s.hatch([((172 + 7 * i, y - 9), (172 + 7 * i, y - 2)) for i in range(8)])
    s.arrow(228, y, 308, y, "r-hand")
    s.worth((272, y))
    s.label("spring balance", (197, y + 10), must=True)
    s.label("grip's middle", (pivot[0] - 54, y + 4))
    s.label("pivot", pivot)


def _actuator(s: Sketch, rotor: Rotor) -> tuple[float, float, float]:
    """Cylinder, piston and rod in section: half the bore, half the rod, the piston's place (px)."""
    bore, rod = rotor.head["actuator_bore_mm"], rotor.head["actuator_rod_mm"]
    half = 46.0
    thin = half * (min(max(rod / bore, 0.08), 0.95) if bore else 0.45)
    x, piston = 170.0, 168.0
    for side in (-1.0, 1.0):
        wall: list[Point] = [
            (x + side * half, 96),
            (x + side * (half + 9), 96),
            (x + side * (half + 9), 236),
            (x + side * half, 236),
        ]
        s.path(wall, "r-structure", close=True)
        end: list[Point] = [
            (x + side * thin, 236),
            (x + side * (half + 9), 236),
            (x + side * (half + 9), 246),
            (x + side * thin, 246),
        ]
        s.path(end, "r-structure", close=True)
        s.line(x + side * thin, piston + 8, x + side * thin, 290, "r-structure")
    s.rect(x - half - 9, 84, 2 * half + 18, 12, "r-structure")
    s.rect(x - half, piston - 8, 2 * half, 16, "r-structure fill")
    return half, thin, piston


def _none(s: Sketch, rotor: Rotor) -> None:
    if not rotor.head["actuators"]:
        s.label("this head has none", (170.0, 66.0))


def bore(s: Sketch, rotor: Rotor, key: str) -> None:
    """Inner wall to inner wall."""
    half, _, piston = _actuator(s, rotor)
    s.span((170 - half, 130), (170 + half, 130), (1.0, 0.0), (170 - half, 130))
    s.label("piston", (170 + half + 9, piston))
    s.label("rod", (178, 276))
    _none(s, rotor)


def actuator_rod(s: Sketch, rotor: Rotor, key: str) -> None:
    """Across the piston's rod."""
    half, thin, piston = _actuator(s, rotor)
    s.span((170 - thin, 262), (170 + thin, 262), (1.0, 0.0), (170, 270))
    s.label("piston", (170 + half + 9, piston))
    _none(s, rotor)


def pressure(s: Sketch, rotor: Rotor, key: str) -> None:
    """What pushes on the piston, round its rod."""
    half, thin, piston = _actuator(s, rotor)
    for share in (0.25, 0.75):
        x = thin + share * (half - thin)
        for side in (-1.0, 1.0):
            s.arrow(170 + side * x, 222, 170 + side * x, piston + 10, "r-hand", 8)
    s.line(170 + half, 204, 268, 204, "r-structure")
    s.circle(280, 192, 16, "r-structure")
    s.line(280, 192, 290, 182, "r-structure")
    s.worth((280, 212))
    s.label("gauge", (280, 176), must=True)
    s.label("piston", (170 - half - 9, piston))
    _none(s, rotor)


def actuators(s: Sketch, rotor: Rotor, key: str) -> None:
    """The actuators under the stationary ring, counted."""
    count = int(rotor.head[key])
    s.path([(30, 96), (310, 96), (310, 106), (30, 106)], "r-plate thin", close=True)
    s.label("stationary ring", (170, 92), "t-plate", must=True)
    for i in range(max(count, 1)):
        x = 170 + (i - (max(count, 1) - 1) / 2) * min(76.0, 264.0 / max(count, 1))
        if not count:
            s.line(x, 106, x, 232, "r-structure blade")
            s.label("rod, by hand alone", (x + 4, 170))
            continue
        s.line(x, 106, x, 140, "r-structure blade")
        s.rect(x - 11, 140, 22, 60, "r-hand")
        s.line(x, 200, x, 232, "r-structure mast")
        s.line(x - 11, 170, x + 11, 170, "r-structure")
    s.worth((170, 250))


class Aircraft:
    """A plain machine of our own from its left side, nose to the left; rotor and height of the head to scale."""

    def __init__(self, sketch: Sketch, rotor: Rotor) -> None:
        self.sketch = sketch
        self.scale = min(136.0 / rotor.radius, 110.0 / rotor.mast_above_cg)
        self.head: Point = (160.0, 104.0)
        self.mass: Point = (160.0, 104.0 + self.scale * rotor.mast_above_cg)
        u = min(max(self.scale * rotor.mast_above_cg, 34.0), 110.0)
        blade, y, x = self.scale * rotor.radius, self.mass[1], self.mass[0]
        sketch.line(x - blade, 104, x + blade, 104, "r-structure blade")
        sketch.line(x, 104, x, y - 0.5 * u, "r-structure mast")
        length = min(1.06 * blade, 144.0)
        k = min(u, 62.0)
        outline = [
            (x - 0.62 * length, y + 0.10 * k), (x - 0.56 * length, y - 0.16 * k), (x - 0.36 * length, y - 0.44 * k),
            (x - 0.14 * length, y - 0.56 * k), (x + 0.2 * length, y - 0.56 * k), (x + 0.34 * length, y - 0.36 * k),
            (x + 1.02 * length, y - 0.3 * k), (x + 1.12 * length, y - 0.74 * k), (x + 1.16 * length, y - 0.74 * k),
            (x + 1.12 * length, y - 0.12 * k), (x + 0.36 * length, y + 0.1 * k), (x + 0.2 * length, y + 0.44 * k),
            (x - 0.4 * length, y + 0.44 * k), (x - 0.56 * length, y + 0.34 * k),
        ]  # fmt: skip
        sketch.path(outline, "r-faint-fill", close=True)
        sketch.path(outline, "r-structure", close=True)
        sketch.circle(x + 1.1 * length, y - 0.5 * k, 0.12 * length, "r-faint")
        for leg in (-0.28, 0.14):
            sketch.line(x + leg * length, y + 0.44 * k, x + leg * length, y + 0.66 * k, "r-structure")
        sketch.line(x - 0.5 * length, y + 0.66 * k, x + 0.28 * length, y + 0.66 * k, "r-structure blade")
        self.nose: Point = (x - 0.62 * length, y + 0.1 * k)
        self.ground = y + 0.66 * k
        sketch.circle(x, y, 5, "r-structure mark")
        sketch.line(x - 5, y, x + 5, y, "r-structure")
        sketch.line(x, y - 5, x, y + 5, "r-structure")


def mass(s: Sketch, rotor: Rotor, key: str) -> None:
    """All that the rotor carries, at the centre of gravity."""
    craft = Aircraft(s, rotor)
    end = max(craft.mass[1] + 66.0, craft.ground + 34.0)
    s.arrow(craft.mass[0], craft.mass[1] + 5, craft.mass[0], end, "r-hand")
    s.worth((craft.mass[0], end - 8))
    s.label("centre of gravity", (craft.mass[0] - 76, craft.ground + 2))


def mast_above_cg(s: Sketch, rotor: Rotor, key: str) -> None:
    """Centre of gravity to the head."""
    craft = Aircraft(s, rotor)
    s.span(craft.mass, craft.head, (0.0, -1.0), (craft.mass[0] + 104, craft.mass[1]))
    s.label("centre of gravity", (craft.mass[0] - 76, craft.ground + 2))
    s.label("head", (craft.head[0], craft.head[1] - 4))


def cruise_speed(s: Sketch, rotor: Rotor, key: str) -> None:
    """Through the air, level, nose first."""
    craft = Aircraft(s, rotor)
    x, y = craft.nose
    s.arrow(x - 4, y, 12, y, "r-hand")
    s.worth((0.5 * (x + 12), y))


def drag_area(s: Sketch, rotor: Rotor, key: str) -> None:
    """The area of a flat plate that holds back as much, to the rotor's scale."""
    craft = Aircraft(s, rotor)
    side = min(max(craft.scale * math.sqrt(rotor.head[key]), 8.0), 96.0)
    x, y = 276.0, craft.mass[1] + 76.0
    y = min(max(y, craft.ground + 10 + side / 2), 288.0 - side / 2)
    s.rect(x - side / 2, y - side / 2, side, side, "r-hand")
    s.worth((x - side / 2, y))
    for i in range(3):
        s.arrow(12, craft.nose[1] + 13 * (i - 1), 36, craft.nose[1] + 13 * (i - 1), "r-structure", 7)
    s.label("air", (24, craft.nose[1] - 13))
    s.label("square of this area, to scale", (x - 60, y + side / 2))
