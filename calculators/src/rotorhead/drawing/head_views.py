"""The whole head drawn from one direction, at one angle of the rotor: what the moving view shows, as lines.

Farther things are drawn first. Still parts are plain, turning parts hatched or dotted at their joints. Lengths are
true; the picture is scaled to the blade roots.
"""

import math
from collections.abc import Callable
from functools import partial
from typing import Any

from ..conventions import TURN, bearing_words
from ..fields import Drawing
from ..mechanism.plate import Vector
from ..motion.parts import BY_ID
from ..motion.scene import blade_bearing, scene
from ..motion.turn import Motion
from ..motion.views import VIEWS
from .canvas import Canvas

SIZE = 340.0
_RING = 40


def _between(rows: list[list[float]], place: float) -> list[float]:
    """A row between two steps, going straight from one to the next."""
    n = len(rows)
    i, t = int(place) % n, place - int(place)
    return [a + t * (b - a) for a, b in zip(rows[i], rows[(i + 1) % n], strict=True)]


def _add(a: Vector, b: Vector, times: float = 1.0) -> Vector:
    return a[0] + times * b[0], a[1] + times * b[1], a[2] + times * b[2]


class _Sheet:
    """Collects strokes with their distance from the eye; draws the farthest first."""

    def __init__(self, view: str, low: tuple[float, float], high: float, out: float, flap: float) -> None:
        """`low`: lowest place and how far out it is; `high`: the hub; `out`: blade roots; `flap`: the most they rise, rad."""
        self.right, self.up, self.eye = VIEWS[view].axes()
        self.canvas = Canvas(SIZE, SIZE, "head")
        flat = math.asin(min(1.0, abs(self.eye[2])))
        # Room for blade roots flapped as far as full stick takes them, so that nothing moves but what the hands move.
        rise = out * math.sin(min(TURN / 4.0, flat + flap))
        top = high * math.cos(flat) + rise
        bottom = min(low[0] * math.cos(flat) - low[1] * math.sin(flat), high * math.cos(flat) - rise)
        self.middle = (top + bottom) / 2.0
        self.scale = min((SIZE / 2.0 - 22.0) / out, (SIZE - 20.0) / (top - bottom))
        self.queue: list[tuple[float, Callable[[], None]]] = []
        self.named: list[tuple[float, float, float]] = []

    def at(self, p: Vector) -> tuple[float, float]:
        x = sum(a * b for a, b in zip(p, self.right, strict=True))
        y = sum(a * b for a, b in zip(p, self.up, strict=True)) - self.middle
        return SIZE / 2.0 + self.scale * x, SIZE / 2.0 - self.scale * y

    def depth(self, p: Vector) -> float:
        return sum(a * b for a, b in zip(p, self.eye, strict=True))

    def add(self, points: list[Vector], role: str, part: str = "", *, close: bool = False) -> None:
        role += f" p-{part}" if part else ""
        place = [self.at(p) for p in points]
        near = sum(self.depth(p) for p in points) / len(points)
        self.queue.append((near, lambda: self.canvas.path(place, role, close=close)))

    def dot(self, p: Vector, role: str, part: str, r: float = 3.0) -> None:
        x, y = self.at(p)
        role += f" p-{part}"
        self.queue.append((self.depth(p) + 1.0, lambda: self.canvas.circle(x, y, r, role)))

    def hatch(self, lines: list[tuple[Vector, Vector]], part: str) -> None:
        strokes = [(self.at(a), self.at(b)) for a, b in lines]
        near = sum(self.depth(a) for a, _ in lines) / len(lines) + 0.5
        self.queue.append((near, lambda: self.canvas.strokes(strokes, f"hatch p-{part}")))

    def label(self, p: Vector, words: str, role: str = "t t-small t-halo", dy: float = 4.0) -> None:
        """A name beside its place, moved up or down until it covers no other; left out where there is no room."""
        x, y = self.at(p)
        half = 3.4 * len(words) + 2.0
        x = min(max(x, half), SIZE - half)
        for step in (0, 1, -1, 2, -2, 3):
            row = min(max(y + dy + 14.0 * step, 12.0), SIZE - 5.0)
            if all(abs(x - a) > half + b or abs(row - c) > 13.0 for a, b, c in self.named):
                self.named.append((x, half, row))
                self.queue.append((math.inf, partial(self.canvas.text, x, row, words, role)))
                return

    def finish(self, part: str) -> str:
        for _, draw in sorted(self.queue, key=lambda entry: entry[0]):
            draw()
        return self.canvas.svg(f' data-picked="{part}"' if part else "")


def head_view(motion: Motion, angle: float, view: str, labels: bool = True, part: str = "") -> Drawing:
    """The head seen from `view` (a key of `motion.views.VIEWS`) with the rotor turned by `angle` (rad)."""
    s = scene(motion)
    place = (angle % TURN) / TURN * s["steps"]
    turn = s["sense"] * angle
    ct, st = math.cos(turn), math.sin(turn)

    def round_(p: list[float]) -> Vector:
        return p[0] * ct - p[1] * st, p[0] * st + p[1] * ct, p[2]

    def triples(row: list[float]) -> list[Vector]:
        return [(row[i], row[i + 1], row[i + 2]) for i in range(0, len(row), 3)]

    out = s["out"]
    low = min(r["foot"][2] for r in s["rods"]) - 0.35 * s["rodRadius"]
    most = max(motion.rotor.head["cyclic_fore_aft_deg"], motion.rotor.head["cyclic_left_right_deg"])
    flap = math.radians(s["stretch"] * max(1.1 * most + 5.0, *(max(row) for row in s["flap"])))
    sheet = _Sheet(view, (low, s["rodRadius"]), s["rise"], out * 1.04, flap)
    centre: Vector = tuple(s["centre"])
    _mast(sheet, s, low)
    _rose(sheet, s, out, low)
    # Still: rods, actuators, ring, scissors.
    d, e = triples(s["still"])
    _ring(sheet, centre, d, e, 0.62 * s["rodRadius"], "r-plate", "stationary-ring")
    for n, rod in enumerate(s["rods"], 1):
        joint, foot = tuple(rod["joint"]), tuple(rod["foot"])
        sheet.add([centre_out(centre, joint, 0.62 * s["rodRadius"]), joint], "r-plate", "stationary-ring")
        sheet.add([foot, joint], "r-hand", "rods")
        sheet.dot(joint, "r-hand fill", "rods", 3.6)
        if s["actuators"]:
            sheet.add([foot, (foot[0], foot[1], low)], "r-structure wide", "actuators")
        if labels:
            sheet.label(joint, f"R{n}", "t t-small t-halo t-hand", 16.0)
    ring, apex, anchor = triples(s["stationary"])
    sheet.add([(0.0, 0.0, anchor[2]), anchor], "r-structure")
    sheet.add([anchor, apex, ring], "r-structure", "stationary-scissors")
    for p in (anchor, apex, ring):
        sheet.dot(p, "r-structure mark", "stationary-scissors")
    sheet.dot(centre, "r-structure mark", "bearing", 0.3 * s["rodRadius"] * sheet.scale)
    # Turning: ring, scissors, links, horns, blades.
    axes = _between(s["ring"], place)
    d, e = round_(axes[:3]), round_(axes[3:])
    normal = (d[1] * e[2] - d[2] * e[1], d[2] * e[0] - d[0] * e[2], d[0] * e[1] - d[1] * e[0])
    above = _add(centre, normal, math.copysign(0.1 * s["ringRadius"], normal[2]))
    _ring(sheet, above, d, e, 0.7 * s["ringRadius"], "r-plate thin-line", "rotating-ring", 0.5 * s["ringRadius"])
    between = _add(centre, normal, math.copysign(0.05 * s["ringRadius"], normal[2]))
    for i in range(16):
        a = i * TURN / 16 + angle
        sheet.dot(
            _add(_add(between, d, 0.56 * s["rodRadius"] * math.cos(a)), e, 0.56 * s["rodRadius"] * math.sin(a)),
            "r-structure fill",
            "main-bearing",
            1.4,
        )
    row = [round_(list(p)) for p in triples(_between(s["drive"], place))]
    sheet.add([(0.0, 0.0, row[2][2]), row[2]], "r-structure")
    sheet.add([row[2], row[1], row[0]], "r-structure", "drive-scissors")
    for p in row:
        sheet.dot(p, "r-structure fill", "drive-scissors", 2.6)
    feet = [round_(list(p)) for p in triples(_between(s["feet"], place))]
    horns = [round_(list(p)) for p in triples(_between(s["horns"], place))]
    flaps, pitches = _between(s["flap"], place), _between(s["pitch"], place)
    for k, (foot, horn) in enumerate(zip(feet, horns, strict=True)):
        sheet.add([centre_out(above, foot, 0.7 * s["ringRadius"]), foot], "r-plate thin-line", "rotating-ring")
        sheet.add([foot, horn], "r-plate", "links")
        sheet.dot(foot, "r-plate mark", "links")
        sheet.dot(horn, "r-plate fill", "horns", 2.6)
        _blade(sheet, s, angle + k * TURN / s["blades"], flaps[k], pitches[k], horn, out, str(k + 1) if labels else "")
    _disc(sheet, s, out)
    for p, words in _names(s, centre, above, row, apex, feet, horns, out) if labels else []:
        sheet.label(p, words)
    return Drawing(sheet.finish(part), _words(motion, angle, view, part))


def centre_out(centre: Vector, p: Vector, radius: float) -> Vector:
    """The point of a ring's rim from which a lug runs out, or in, to a joint."""
    away = math.dist(centre, p)
    return _add(centre, (p[0] - centre[0], p[1] - centre[1], p[2] - centre[2]), radius / away if away else 0.0)


def _mast(sheet: _Sheet, s: dict[str, Any], low: float) -> None:
    sheet.add([(0.0, 0.0, low), (0.0, 0.0, s["rise"])], "r-structure mast", "mast")


def _rose(sheet: _Sheet, s: dict[str, Any], out: float, low: float) -> None:
    """Where nose, right, tail and left are, and which way it turns."""
    if sheet.eye[2] > 0.9:
        for words, x, y in (("nose", 0, 1), ("right", 1, 0), ("tail", 0, -1), ("left", -1, 0)):
            sheet.label((x * out * 0.97, y * out * 1.0, 0.0), words)
        a = [0.35 + 0.02 * i for i in range(24)]
        arc = [(s["sense"] * 0.93 * out * math.cos(x), 0.93 * out * math.sin(x), 0.0) for x in a]
        sheet.add(arc, "r-structure")
        tip, back = arc[-1], arc[-4]
        side = (-(tip[1] - back[1]) * 0.4, (tip[0] - back[0]) * 0.4, 0.0)
        sheet.add([tip, _add(back, side), _add(back, side, -1.0)], "r-structure fill", close=True)
        return
    ends = (("nose", 0, 1), ("tail", 0, -1)) if abs(sheet.eye[0]) > 0.7 else (("right", 1, 0), ("left", -1, 0))
    for words, x, y in ends:
        sheet.label((x * out * 0.93, y * out * 0.93, low), words)


def _ring(
    sheet: _Sheet, centre: Vector, d: Vector, e: Vector, radius: float, role: str, part: str, hatched: float = 0.0
) -> None:
    def at(i: float, r: float) -> Vector:
        a = i * TURN / _RING
        return _add(_add(centre, d, r * math.cos(a)), e, r * math.sin(a))

    # In halves, so that the near half stands in front of the mast and the far half behind it.
    half = _RING // 4
    for i in range(0, _RING, half):
        sheet.add([at(i + j, radius) for j in range(half + 1)], role, part)
    if hatched:
        for i in range(0, _RING, half):
            sheet.add([at(i + j, hatched) for j in range(half + 1)], role, part)
            sheet.hatch([(at(i + j, hatched), at(i + j + 0.6, radius)) for j in range(half)], part)


def _blade(
    sheet: _Sheet, s: dict[str, Any], azimuth: float, flap: float, pitch: float, horn: Vector, out: float, number: str
) -> None:  # fmt: skip
    turn = s["sense"] * azimuth
    # Blade 1 over the tail at zero: out is −y, ahead is +x on an anticlockwise rotor.
    along = (math.sin(turn), -math.cos(turn), 0.0)
    ahead = (s["sense"] * math.cos(turn), s["sense"] * math.sin(turn), 0.0)
    b, t = math.radians(flap * s["stretch"]), math.radians(pitch)
    span = (along[0] * math.cos(b), along[1] * math.cos(b), math.sin(b))
    up = (-along[0] * math.sin(b), -along[1] * math.sin(b), math.cos(b))
    chord = (
        ahead[0] * math.cos(t) + up[0] * math.sin(t),
        ahead[1] * math.cos(t) + up[1] * math.sin(t),
        up[2] * math.sin(t),
    )
    hinge = _add((0.0, 0.0, s["rise"]), along, s["hinge"])
    station = s["station"] - s["hinge"]
    root = _add(hinge, span, station) if s["rides"] else _add((0.0, 0.0, s["rise"]), along, s["station"])
    sheet.add([(0.0, 0.0, s["rise"]), hinge], "r-structure", "grips")
    sheet.add([hinge, _add(hinge, span, out - s["hinge"])], "r-structure blade", "grips")
    sheet.add([root, horn], "r-plate", "horns")
    inner, outer, half = 0.72 * out - s["hinge"], out - s["hinge"], min(0.5 * s["chord"], 0.3 * out)
    # The feathering axis runs through the quarter chord.
    corners = [(inner, 0.5), (outer, 0.5), (outer, -1.5), (inner, -1.5)]
    sheet.add([_add(_add(hinge, span, r), chord, half * c) for r, c in corners], "r-pitch", "blades", close=True)
    if number:
        sheet.label(_add(hinge, span, outer * 0.9), number, dy=4.0)


def _disc(sheet: _Sheet, s: dict[str, Any], out: float) -> None:
    path = []
    for i in range(0, s["steps"], 2):
        a, b = s["sense"] * i * TURN / s["steps"], math.radians(s["flap"][i][0] * s["stretch"])
        r = s["hinge"] + (out - s["hinge"]) * math.cos(b)
        path.append((r * math.sin(a), -r * math.cos(a), s["rise"] + (out - s["hinge"]) * math.sin(b)))
    sheet.add(path, "r-disc thin", close=True)


def _names(
    s: dict[str, Any], centre: Vector, above: Vector, drive: list[Vector], apex: Vector, feet: list[Vector], horns: list[Vector], out: float
) -> list[tuple[Vector, str]]:  # fmt: skip
    link = [(a + b) / 2.0 for a, b in zip(feet[0], horns[0], strict=True)]
    return [
        (drive[1], "drive scissors"),
        (apex, "stationary scissors"),
        ((link[0], link[1], link[2]), "link"),
        (horns[-1], "horn"),
    ]


def _words(motion: Motion, angle: float, view: str, part: str) -> str:
    rotor = motion.rotor
    shown = f" Picked out: {BY_ID[part].label}." if part in BY_ID and BY_ID[part].shown else ""
    times = motion.setting.stretch
    scale = (
        f" Tilt, cyclic pitch and flap are drawn {times:g} times their size, so links and scissors are not to scale."
        if times != 1
        else ""
    )
    return (
        f"The head {VIEWS[view].words}: {len(motion.rods)} rods and the stationary ring stay, the rotating ring (hatched), "
        f"{rotor.blades} links, horns and blades turn {rotor.rotation}. Blade 1 stands "
        f"{bearing_words(blade_bearing(rotor, angle, 0))}.{shown}{scale}"
    )
