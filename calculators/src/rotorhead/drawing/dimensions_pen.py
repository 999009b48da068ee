"""The pen of the dimension sketches: one dimension in the hand's role, all else quiet, texts that keep clear of it all.

What is drawn is remembered by the cells of a coarse grid it goes through; when the sheet is done, the value and then the
names are put where they cover no other text and the fewest of those cells. Angles on the page are bearings: clockwise from straight up.
"""

import math
import textwrap
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from .canvas import Canvas, Compass

WIDTH, HEIGHT = 340.0, 300.0
MIDDLE_X, MIDDLE_Y = 170.0, 170.0
EDGE: Final = 4.0  # nothing is written nearer to the sheet's edge, px
Point = tuple[float, float]
Box = tuple[float, float, float, float]

_HEAD: Final = 9.0  # an arrow head, px
_SHORT: Final = 30.0  # what is shorter than this gets its heads from outside
_TAIL: Final = 19.0  # length of an arrow that points in from outside
_ALONG: Final = (0.5, 0.3, 0.7)  # where on a dimension its value may stand
_LINE: Final = 16.0  # from one line of text to the next
_TITLE: Final = 42  # letters on a line of the title
_CELL: Final = 4.0  # the grid's cells, px
_COLUMNS, _ROWS = int(WIDTH / _CELL) + 1, int(HEIGHT / _CELL) + 1
_WIDE_ROW = _COLUMNS + 1
# How much it matters that a text covers a line of a role (anything else counts 1.5).
_WEIGHT: Final = {"r-hand": 8.0, "r-plate": 4.0, "r-faint": 0.4}
_NARROW: Final = frozenset("iljtfr.,:;'’|!() \N{NARROW NO-BREAK SPACE}")
_WIDE: Final = frozenset("mwMW%…")


def text_width(words: str, role: str) -> float:
    """A generous estimate of a text's width, px: a wide sans, so that narrower ones fit too (common practice, no source)."""
    size = 12.5 if "t-small" in role.split() else 13.5
    ems = sum(0.38 if c in _NARROW else 0.95 if c in _WIDE else 0.7 if c.isupper() else 0.62 for c in words)
    return size * max(ems, 0.55 * len(words)) * (1.12 if "t-strong" in role.split() else 1.0)


def overlap(a: Box, b: Box) -> bool:
    """Do two boxes (left, top, right, bottom) cover each other?"""
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]


def _summed(cells: list[float]) -> list[float]:
    """Sums of all cells above and to the left of each corner, so that any rectangle's sum takes four look-ups."""
    sums = [0.0] * (_WIDE_ROW * (_ROWS + 1))
    for row in range(_ROWS):
        run, here = 0.0, (row + 1) * _WIDE_ROW
        for column in range(_COLUMNS):
            run += cells[row * _COLUMNS + column]
            sums[here + column + 1] = sums[here - _WIDE_ROW + column + 1] + run
    return sums


def _ways(lines: tuple[str, ...]) -> list[tuple[str, ...]]:
    """A note as it is, and a range on two lines."""
    if len(lines) > 1 or " to " not in lines[0]:
        return [lines]
    first, second = lines[0].split(" to ", 1)
    return [lines, (f"{first} to", second)]


@dataclass(frozen=True, slots=True)
class _Note:
    places: tuple[Point, ...]  # the best first
    lines: tuple[str, ...]
    role: str
    must: bool


class Sketch(Canvas):
    """A sheet with a title; lines, dimension and notes are put on it, `svg` places the notes."""

    def __init__(self, title: str, value: tuple[str, ...]) -> None:
        super().__init__(WIDTH, HEIGHT, "dimension")
        self.value = value
        self.boxes: list[Box] = []
        self.inked = [0.0] * (_COLUMNS * _ROWS)
        self.sums: list[float] = []
        self.notes: list[_Note] = []
        for n, line in enumerate(textwrap.wrap(title, _TITLE)):
            self._write(WIDTH / 2.0, 16.0 + _LINE * n, line, "t t-strong", "middle")

    # What is drawn, remembered.

    def _ink(self, points: list[Point], role: str) -> None:
        weight = _WEIGHT.get(role.split()[0], 1.5)
        for (x1, y1), (x2, y2) in pairwise(points):
            steps = max(1, int(math.hypot(x2 - x1, y2 - y1) / _CELL))
            for i in range(steps + 1):
                column, row = int((x1 + (x2 - x1) * i / steps) / _CELL), int((y1 + (y2 - y1) * i / steps) / _CELL)
                if 0 <= column < _COLUMNS and 0 <= row < _ROWS:
                    self.inked[row * _COLUMNS + column] += weight

    def line(self, x1: float, y1: float, x2: float, y2: float, role: str) -> None:
        """A straight line."""
        super().line(x1, y1, x2, y2, role)
        self._ink([(x1, y1), (x2, y2)], role)

    def circle(self, x: float, y: float, r: float, role: str) -> None:
        """A circle."""
        super().circle(x, y, r, role)
        n = max(6, int(r / 2.0))
        self._ink([Compass(self, x, y).at(2.0 * math.pi * i / n, r) for i in range(n + 1)], role)

    def rect(self, x: float, y: float, w: float, h: float, role: str) -> None:
        """A rectangle by its top left corner."""
        super().rect(x, y, w, h, role)
        self._ink([(x, y), (x + w, y), (x + w, y + h), (x, y + h), (x, y)], role)

    def path(self, points: list[Point], role: str, *, close: bool = False) -> None:
        """A line through points."""
        super().path(points, role, close=close)
        self._ink([*points, points[0]] if close else points, role)

    def arc(self, start: Point, end: Point, radius: float, turn: float, role: str) -> None:
        """Part of a circle, remembered by its chord; `swept` remembers the arc itself."""
        super().arc(start, end, radius, turn, role)
        self._ink([start, end], "r-faint")

    def swept(self, centre: Point, start: float, turn: float, radius: float, role: str) -> None:
        """An arc about a centre from a bearing of the page, `turn` (rad) clockwise."""
        c = Compass(self, *centre)
        # Two halves: an arc of nearly a whole turn would be taken for none.
        for i in (0, 1):
            self.arc(
                c.at(start + turn * i / 2, radius), c.at(start + turn * (i + 1) / 2, radius), radius, turn / 2, role
            )
        self._ink(c.arc_points(start, turn, radius), role)

    def hatched_bar(self, ends: tuple[Point, Point], thick: float) -> None:
        """A ring seen edge on that turns: its top edge from end to end, hatched."""
        (x1, y1), (x2, y2) = ends
        self.path([(x1, y1), (x2, y2), (x2, y2 + thick), (x1, y1 + thick)], "r-plate thin", close=True)
        n = max(2, int(abs(x2 - x1) / 7.0))
        dx, dy = (x2 - x1) / n, (y2 - y1) / n
        self.hatch([((x1 + dx * i, y1 + dy * i + thick), (x1 + dx * (i + 0.6), y1 + dy * (i + 0.6))) for i in range(n)])

    # The dimension, in the hand's role.

    def extension(self, a: Point, b: Point) -> None:
        """A thin line from what is measured to the dimension, a little beyond it."""
        length = math.hypot(b[0] - a[0], b[1] - a[1])
        if length < 4.0:
            return
        ux, uy = (b[0] - a[0]) / length, (b[1] - a[1]) / length
        self.line(a[0] + 2.0 * ux, a[1] + 2.0 * uy, b[0] + 6.0 * ux, b[1] + 6.0 * uy, "r-hand thin")

    def span(self, p: Point, q: Point, along: Point, through: Point, *, worth: Point | None = None) -> None:
        """The distance from `p` to `q` in the direction `along` (a unit vector), on a line through a third point; the value
        beside it, or where it is told to."""
        ux, uy = along
        base = (through[0] - p[0]) * -uy + (through[1] - p[1]) * ux
        a = (p[0] - uy * base, p[1] + ux * base)
        long = (q[0] - p[0]) * ux + (q[1] - p[1]) * uy
        b = (a[0] + ux * long, a[1] + uy * long)
        self.extension(p, a)
        self.extension(q, b)
        way = 1.0 if long >= 0.0 else -1.0
        if abs(long) >= _SHORT:
            middle = ((a[0] + b[0]) / 2.0, (a[1] + b[1]) / 2.0)
            self.arrow(*middle, *a, "r-hand", _HEAD)
            self.arrow(*middle, *b, "r-hand", _HEAD)
        else:
            # Too short for two heads: they point at it from outside.
            self.arrow(a[0] - way * ux * _TAIL, a[1] - way * uy * _TAIL, *a, "r-hand", _HEAD)
            self.arrow(b[0] + way * ux * _TAIL, b[1] + way * uy * _TAIL, *b, "r-hand", _HEAD)
            self.line(*a, *b, "r-hand thin")
        beside = [(a[0] + (b[0] - a[0]) * f, a[1] + (b[1] - a[1]) * f) for f in _ALONG]
        self.worth(*([worth] if worth else beside))

    def sweep(
        self, centre: Point, start: float, turn: float, radius: float, *, both: bool = True, worth: Point | None = None
    ) -> None:
        """An angle from a bearing of the page, `turn` (rad) clockwise: an arc with an arrow head at its end, or at both;
        the value beside its middle, or where it is told to."""
        c = Compass(self, *centre)
        way = 1.0 if turn >= 0.0 else -1.0
        if abs(turn) * radius >= _SHORT:
            self._arc_to(centre, start + turn / 2, turn / 2, radius, head=True)
            self._arc_to(centre, start + turn / 2, -turn / 2, radius, head=both)
        else:
            tail = _TAIL / radius
            self._arc_to(centre, start - way * tail, way * tail, radius, head=True)
            self._arc_to(centre, start + turn + way * tail, -way * tail, radius, head=True)
            self.path([c.at(start, radius), c.at(start + turn / 2, radius), c.at(start + turn, radius)], "r-hand thin")
        self.worth(*((worth,) if worth else (c.at(start + turn * f, radius) for f in _ALONG)))

    def _arc_to(self, centre: Point, start: float, turn: float, radius: float, *, head: bool) -> None:
        c = Compass(self, *centre)
        back = turn - math.copysign(_HEAD / radius, turn) if head else turn
        self.swept(centre, start, back, radius, "r-hand")
        if head:
            tip, end = c.at(start + turn, radius), start + back
            self.path([tip, c.at(end, radius - _HEAD / 2), c.at(end, radius + _HEAD / 2)], "r-hand fill", close=True)

    def ray(self, centre: Point, bearing: float, near: float, far: float) -> None:
        """A side of the angle: a thin line along a bearing of the page."""
        c = Compass(self, *centre)
        self.line(*c.at(bearing, near), *c.at(bearing, far), "r-hand thin")

    # Notes.

    def worth(self, *places: Point) -> None:
        """The value, beside a point of the dimension: the first, or another where it covers less."""
        self.notes.insert(0, _Note(places, self.value, "t t-strong t-halo t-hand", True))

    def label(self, words: str, at: Point, role: str = "", *, must: bool = False) -> None:
        """A quiet name beside a point; left out when there is no room, unless it must stand."""
        self.notes.append(_Note((at,), (words,), f"t t-small t-halo {role}".strip(), must))

    def _write(self, x: float, y: float, words: str, role: str, anchor: str) -> None:
        width = text_width(words, role)
        left = x - {"start": 0.0, "middle": width / 2.0, "end": width}[anchor]
        self.boxes.append((left, y - 12.0, left + width, y + 4.0))
        self.text(x, y, words, role, anchor)

    def _cost(self, box: Box) -> float:
        x1, y1, x2, y2 = box
        left, right = max(int((x1 - 3.0) / _CELL), 0), min(int((x2 + 3.0) / _CELL) + 1, _COLUMNS)
        top, bottom = max(int((y1 - 2.0) / _CELL), 0) * _WIDE_ROW, min(int((y2 + 2.0) / _CELL) + 1, _ROWS) * _WIDE_ROW
        s = self.sums
        on = s[bottom + right] - s[top + right] - s[bottom + left] + s[top + left]
        near = (x1 - 3.0, y1 - 1.0, x2 + 3.0, y2 + 1.0)
        return on + 1000.0 * sum(overlap(near, other) for other in self.boxes)

    def _placed(self, note: _Note) -> None:
        away = 0.6 if note.must else 0.9  # what a px of distance is worth
        tried = [
            (self._best(place, lines, note.role, away), lines)
            for place in note.places
            for lines in (_ways(note.lines) if note.lines == self.value else [note.lines])
        ]
        # Later places and a broken line are a little worse, so that the first is kept unless it covers something.
        costs = [cost + 1.5 * n for n, ((cost, _), _) in enumerate(tried)]
        least = costs.index(min(costs))
        (cost, box), lines = tried[least]
        if cost >= 1000.0 and not note.must:
            return
        for n, line in enumerate(lines):
            self._write((box[0] + box[2]) / 2.0, box[1] + 12.0 + _LINE * n, line, note.role, "middle")

    def _best(self, at: Point, lines: tuple[str, ...], role: str, away: float) -> tuple[float, Box]:
        """The box beside a point that covers least, and what it covers."""
        width, tall = max(text_width(line, role) for line in lines), _LINE * len(lines)
        best: tuple[float, Box] = (math.inf, (0.0, 0.0, 0.0, 0.0))
        for far in (8.0, 12.0, 17.0, 23.0, 30.0, 38.0, 47.0):
            if best[0] <= away * far + 1e-6:
                break  # nothing farther off can be better
            for i in range(16):
                dx, dy = math.sin(i * math.pi / 8), -math.cos(i * math.pi / 8)
                # The box's nearest side, or corner, stands `far` away in that direction.
                x = min(max(at[0] + dx * (far + width / 2.0), EDGE + width / 2.0), WIDTH - EDGE - width / 2.0)
                y = min(max(at[1] + dy * (far + tall / 2.0), EDGE + tall / 2.0), HEIGHT - EDGE - tall / 2.0)
                box = (x - width / 2.0, y - tall / 2.0, x + width / 2.0, y + tall / 2.0)
                cost = self._cost(box) + away * far
                if cost < best[0] - 1e-9:
                    best = (cost, box)
        return best

    def svg(self, extra: str = "") -> str:
        """The sheet, its notes put in place: the value first, then the names in their order."""
        self.sums = _summed(self.inked)
        for note in self.notes:
            self._placed(note)
        self.notes = []
        return super().svg(extra)
