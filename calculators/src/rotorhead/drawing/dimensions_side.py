"""Dimensions seen from the side: the link and horn along the blade from its tip, a rod's stroke."""

import math

from ..conventions import sense
from ..faults import Refused
from ..mechanism.hands import height_for_pitch
from ..rotor import Rotor
from .dimensions_pen import Point, Sketch

_X = 170.0
_RIGHT = math.pi / 2.0


def aerofoil(pivot: Point, chord: float, lead: float, nose_up: float, at: float = 0.25) -> list[Point]:
    """A plain symmetric section, an eighth as thick as it is long, about a point on its chord; `lead` +1: nose to the right.

    The outline is a fair curve by eye, not a section of anyone's.
    """
    shares = [0.5 - 0.5 * math.cos(math.pi * i / 24) for i in range(25)]
    half = [0.0625 * 2.6 * math.sqrt(x) * (1.0 - x) ** 0.95 * (1.0 - 0.25 * x) for x in shares]
    outline = list(zip(shares, half, strict=True)) + [(x, -h) for x, h in zip(shares[::-1], half[::-1], strict=True)]
    c, s = math.cos(nose_up), math.sin(nose_up)
    points = []
    for x, h in outline:
        fore, up = chord * (at - x), chord * h
        points.append((pivot[0] + lead * (fore * c - up * s), pivot[1] - (fore * s + up * c)))
    return points


class Tip:
    """The head seen along blade 1 from its tip toward the mast: forward of the blade is to the right on a rotor that
    turns anticlockwise seen from above, to the left on the other."""

    def __init__(self, sketch: Sketch, rotor: Rotor, pitch: float, *, tilted: bool = False, aside: float = 0.0) -> None:
        self.sketch, self.rotor, self.pitch, self.tilted = sketch, rotor, pitch, tilted
        self.lead = -sense(rotor.rotation)
        across = max(rotor.ring_radius, abs(rotor.arm), abs(rotor.link_foot_ahead), rotor.rod_radius)
        self.height = self._height(pitch)
        lowest = rotor.link_rise + (abs(self.height) if tilted else max(0.0, -self.height))
        self.scale = min((112.0 - 0.5 * aside) / across, 164.0 / max(lowest, 0.2 * rotor.link))
        # Stepped aside, the mast leaves room beyond the horn.
        self.x = _X - aside * math.copysign(self.lead, self.lead * rotor.arm)
        self.axis: Point = (self.x, min(268.0 - self.scale * lowest, 160.0))
        self.chord = self._fitting(min(self.scale * rotor.chord, 155.0 if aside else 190.0), pitch)

    def _fitting(self, far: float, angle: float) -> float:
        """As much of a length from the axis as stays on the sheet, raised or dropped by an angle."""
        room = min(self.axis[1] - 40.0, 290.0 - self.axis[1])
        return min(far, room / max(abs(math.sin(angle)), 1e-3))

    def at(self, ahead: float, up: float) -> Point:
        """Metres ahead of the span axis and above it -> the page."""
        return self.axis[0] + self.lead * self.scale * ahead, self.axis[1] - self.scale * up

    def _height(self, pitch: float) -> float:
        """Plate height that gives a pitch; where no link closes, as if it stood upright."""
        try:
            return height_for_pitch(self.rotor, pitch)
        except Refused:
            return self.rotor.arm * math.sin(pitch - self.rotor.pitch_level)

    def head(self) -> tuple[Point, Point]:
        """Mast, plate, link, horn and blade section at the pitch, the plate lifted or tilted to it; foot and horn."""
        s, r, height = self.sketch, self.rotor, self.height
        eta = self.pitch - r.pitch_level
        s.line(self.x, self.axis[1], self.x, 292, "r-structure mast")
        foot = self.at(r.link_foot_ahead, height - r.link_rise)
        horn = self.at(r.arm * math.cos(eta), r.arm * math.sin(eta))
        if self.tilted:
            self._tilted(height)
        else:
            ends = (
                self.at(-self.lead * r.ring_radius, height - r.link_rise),
                self.at(self.lead * r.ring_radius, height - r.link_rise),
            )
            s.hatched_bar(ends, 7.0)
            s.path(
                [(x, y + d) for (x, y), d in zip((*ends, *ends[::-1]), (9, 9, 15, 15), strict=True)],
                "r-plate thin",
                close=True,
            )
        s.path(aerofoil(self.axis, self.chord, self.lead, self.pitch), "r-faint-fill", close=True)
        s.path(aerofoil(self.axis, self.chord, self.lead, self.pitch), "r-structure", close=True)
        s.line(*foot, *horn, "r-structure")
        s.line(*self.axis, *horn, "r-plate")
        for p in (foot, horn):
            s.circle(*p, 4, "r-plate fill")
        s.circle(*self.axis, 4, "r-structure mark")
        return foot, horn

    def _tilted(self, height: float) -> None:
        """The rotating ring, high by `height` at the link's foot: a circle seen nearly edge on."""
        s, r = self.sketch, self.rotor
        points, marks = [], []
        for i in range(49):
            t = i * math.tau / 48
            out, ahead = r.ring_radius * math.cos(t), r.ring_radius * math.sin(t)
            up = height * (out * r.link_foot_out + ahead * r.link_foot_ahead) / r.ring_radius**2
            x, y = self.at(ahead, up - r.link_rise)
            points.append((x, y))
            marks.append(((x - 2.0, y + 3.5), (x + 2.0, y - 3.5)))
        s.path(points[:-1], "r-plate thin", close=True)
        s.hatch(marks[::2])

    def angle(self, start: float, end: float) -> None:
        """From one pitch to another (rad), on the side where the horn does not stand."""
        side = -1.0 if self.rotor.arm > 0.0 else 1.0
        base = self.lead * side * _RIGHT
        far = min(max(0.75 * self.chord, 84.0) + 14.0, 138.0)
        # The heads that point in from outside need some more.
        far = max(self._fitting(far + 24.0, max(abs(start), abs(end))) - 24.0, 40.0)
        self.sketch.ray(self.axis, base - self.lead * start, 8, far + 10)
        self.sketch.ray(self.axis, base - self.lead * end, 8, far + 10)
        self.sketch.sweep(self.axis, base - self.lead * start, -self.lead * (end - start), far)

    def level(self, pitch: float = 0.0) -> Point:
        """A point on the side of the angle that it starts from, for its name."""
        side = 1.0 if self.rotor.arm > 0.0 else -1.0
        x = self.axis[0] - side * self.lead * 66.0
        return x, self.axis[1] - self.lead * (x - self.axis[0]) * math.tan(pitch)


def link(s: Sketch, rotor: Rotor, key: str) -> None:
    """Between the link's two joints, in a straight line."""
    tip = Tip(s, rotor, rotor.pitch_level, aside=44.0)
    foot, horn = tip.head()
    long = math.hypot(horn[0] - foot[0], horn[1] - foot[1]) or 1.0
    along = ((horn[0] - foot[0]) / long, (horn[1] - foot[1]) / long)
    out = 30.0 if foot[0] + horn[0] > 2 * tip.x else -30.0
    s.span(foot, horn, along, (foot[0] - out * along[1], foot[1] + out * along[0]))
    s.label("upper ball", horn)
    s.label("lower ball", foot)
    s.label("blade, from its tip", (tip.axis[0], tip.axis[1] - 18))


def pitch(s: Sketch, rotor: Rotor, key: str) -> None:
    """Level to the chord, the horn level or the lever at one of its ends."""
    words = {"collective_low_deg": "lever down", "collective_high_deg": "lever up"}.get(key, "horn level")
    value = math.radians(rotor.head[key])
    tip = Tip(s, rotor, value)
    _, horn = tip.head()
    tip.angle(0.0, value)
    s.label(words, horn)
    s.label("level", tip.level())


def cyclic(s: Sketch, rotor: Rotor, key: str) -> None:
    """The mean of a turn to the greatest pitch, the stick fully over."""
    value = math.radians(rotor.head[key])
    tip = Tip(s, rotor, rotor.pitch_level + value, tilted=True)
    tip.head()
    tip.angle(rotor.pitch_level, rotor.pitch_level + value)
    s.label(
        "plate tilted", tip.at(-rotor.ring_radius if rotor.arm > 0 else rotor.ring_radius, -rotor.link_rise), "t-plate"
    )
    s.label("mean", tip.level(rotor.pitch_level))
    s.label("greatest", tip.level(rotor.pitch_level + value))


def stroke(s: Sketch, rotor: Rotor, key: str) -> None:
    """A rod's joint from its lowest to its highest place."""
    number = int(key.split(".")[1])
    long = rotor.rod_strokes[number - 1]
    mast, middle = 128.0, 146.0
    scale = min(92.0 / max(rotor.rod_radius, rotor.ring_radius), 168.0 / long)
    x, half = mast + scale * rotor.rod_radius, 0.5 * scale * long
    reach = max(scale * rotor.ring_radius, x - mast + 8.0)
    s.line(mast, 46, mast, 290, "r-structure mast")
    for y in (middle - half, middle + half):
        s.line(mast - reach, y, mast + reach, y, "r-faint")
        s.circle(x, y, 4, "r-structure")
    s.hatched_bar(((mast - reach, middle - 15), (mast + reach, middle - 15)), 7.0)
    s.path(
        [(mast - reach, middle - 6), (mast + reach, middle - 6), (mast + reach, middle), (mast - reach, middle)],
        "r-plate thin",
        close=True,
    )
    s.line(x, middle, x, 282, "r-structure blade")
    s.rect(x - 5, 254, 10, 36, "r-structure")
    s.circle(x, middle, 4, "r-structure fill")
    s.span((x, middle + half), (x, middle - half), (0.0, -1.0), (x + 36, middle))
    s.label(f"R{number}", (x, 240), must=True)
    s.label("plate", (mast - reach + 20, middle - 15), "t-plate")
