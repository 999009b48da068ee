"""The paper wheel: three discs to cut out and pin together, so that a class turns the phase budget by hand.

Base: bearing rose and rods. Middle: the plate's low point, and the blade that gets least pitch from it. Top: from least
pitch to the disc's low point. Drawn at a number of units a millimetre, for the screen and, true to size, for paper.
"""

import math

from ..blade.phase import Budget, sum_lines
from ..conventions import degrees_text, sense
from ..fields import Drawing
from .canvas import Canvas, Compass

BASE, MIDDLE, TOP = 88.0, 66.0, 44.0
# Printable on A4 (210 × 297 mm) and Letter (216 × 279 mm) alike.
SHEET_WIDTH, SHEET_HEIGHT = 188.0, 250.0
PAPER = 4.0
SCALE_BAR = 100.0


class _Disc(Compass):
    """A compass in millimetres, turned as a whole by `turn` (rad, clockwise on the page)."""

    def __init__(self, canvas: Canvas, x: float, y: float, unit: float, turn: float = 0.0) -> None:
        super().__init__(canvas, x, y)
        self.unit, self.turn = unit, turn

    def at(self, bearing: float, radius: float) -> tuple[float, float]:
        return super().at(bearing + self.turn, radius * self.unit)

    def rim(self, radius: float) -> None:
        """The disc's edge on paper-coloured ground, and the hole for the pin."""
        self.canvas.circle(self.x, self.y, radius * self.unit, "r-structure mark")
        self.canvas.circle(self.x, self.y, 1.6 * self.unit, "r-structure")

    def sweep(self, start: float, turn: float, radius: float, role: str, words: str) -> None:
        """An arc with its arrow head and its name."""
        points = [self.at(start + turn * i / 40, radius) for i in range(41)]
        self.canvas.path(points, role)
        tip, back = points[-1], points[-4]
        dx, dy = (tip[0] - back[0]) * 0.7, (tip[1] - back[1]) * 0.7
        self.canvas.path([tip, (back[0] - dy, back[1] + dx), (back[0] + dy, back[1] - dx)], f"{role} fill", close=True)
        self.label(start + turn * 0.5, radius - 5.0, words, f"t t-halo {role.replace('r-', 't-')}")

    def pointer(self, bearing: float, radius: float, size: float, role: str) -> None:
        """A triangle that points outward to the edge."""
        half = 0.6 * size / radius
        self.canvas.path([self.at(bearing, radius), self.at(bearing - half, radius - size), self.at(bearing + half, radius - size)],
                         role, close=True)  # fmt: skip


def _base(canvas: Canvas, x: float, y: float, unit: float, budget: Budget) -> None:
    disc = _Disc(canvas, x, y, unit)
    disc.rim(BASE)
    for t in range(0, 360, 5):
        b = math.radians(t)
        canvas.line(*disc.at(b, BASE), *disc.at(b, BASE - (4.0 if t % 10 == 0 else 2.2)), "r-structure")
    for t in range(0, 360, 30):
        words = {0: "nose", 90: "right", 180: "tail", 270: "left"}.get(t, f"{t}°" if unit >= PAPER else "")
        disc.label(math.radians(t), BASE - 9.0, words, "t" if t % 90 == 0 else "t t-small")
    for n, rod in enumerate(budget.rotor.head.rods, 1):
        b = math.radians(rod.bearing_deg)
        px, py = disc.at(b, BASE - 15.0)
        size = 4.0 * unit
        canvas.rect(px - size / 2, py - size / 2, size, size, "r-hand fill")
        side = 7.5 / (BASE - 15.0)
        disc.label(b + side, BASE - 15.0, f"R{n}", "t t-small t-halo t-hand")
    way = sense(budget.rotor.rotation)
    start = math.pi - way * math.radians(64)
    disc.sweep(start, way * math.radians(28), BASE - 14.0, "r-structure", "turns")


def _middle(canvas: Canvas, x: float, y: float, unit: float, budget: Budget, turn: float) -> None:
    disc = _Disc(canvas, x, y, unit, turn)
    way = sense(budget.rotor.rotation)
    disc.rim(MIDDLE)
    disc.pointer(0.0, MIDDLE, 8.0, "r-plate fill")
    small = unit < PAPER
    disc.label(
        0.0, MIDDLE - 12.0, "plate low" if small else "plate low: the link stands here", "t t-small t-halo t-plate"
    )
    blade = -way * budget.lead
    canvas.line(*disc.at(blade, 8.0), *disc.at(blade, MIDDLE), "r-structure")
    if not small:
        disc.label(blade, MIDDLE - 5.0 if abs(budget.lead) > 0.4 else MIDDLE - 18.0, "its blade", "t t-small t-halo")
    if abs(budget.lead) > math.radians(2):
        disc.sweep(blade, way * budget.lead, MIDDLE - 6.0 - 10.0, "r-plate", f"lead {degrees_text(budget.lead)}")
    least = blade + (math.pi if budget.horn_turn else 0.0)
    if budget.horn_turn:
        canvas.line(*disc.at(least, 8.0), *disc.at(least, MIDDLE), "r-pitch thin")
        disc.label(least, MIDDLE - 24.0, "" if small else "pitch least: horn behind", "t t-small t-halo t-pitch")
    disc.pointer(least, TOP + 8.0, 6.0, "r-pitch")


def _top(canvas: Canvas, x: float, y: float, unit: float, budget: Budget, turn: float) -> None:
    disc = _Disc(canvas, x, y, unit, turn)
    way = sense(budget.rotor.rotation)
    disc.rim(TOP)
    disc.pointer(0.0, TOP, 7.0, "r-pitch")
    disc.label(0.0, TOP - 11.0, "pitch least", "t t-small t-halo t-pitch")
    low = way * budget.lag
    half = 0.07
    canvas.path([disc.at(low, 6.0), disc.at(low - half, TOP), disc.at(low + half, TOP)], "r-disc fill", close=True)
    disc.sweep(0.0, low, TOP - 17.0, "r-disc", f"lag {degrees_text(budget.lag)}")
    disc.label(low + math.copysign(0.42, low), TOP - 6.0, "disc low", "t t-small t-halo t-disc")


def assembled(budget: Budget, plate: float, least: float, words: str) -> Drawing:
    """The wheel pinned together: plate low at the bearing `plate`, least pitch at `least` (rad)."""
    canvas = Canvas(340, 340, "wheel")
    for draw, turn in ((_middle, plate), (_top, least)):
        if draw is _middle:
            _base(canvas, 170, 170, 1.88, budget)
        draw(canvas, 170, 170, 1.88, budget, turn)
    return Drawing(canvas.svg(), words)


def _text(canvas: Canvas, x: float, y: float, lines: list[tuple[str, str]]) -> None:
    for i, (words, role) in enumerate(lines):
        canvas.text(x * PAPER, (y + 5.2 * i) * PAPER, words, role, "start")


def sheets(budget: Budget, name: str) -> tuple[str, str]:
    """The two sheets at true size, 4 units a millimetre: base with instructions and scale bar; plate and blade discs."""
    first = Canvas(SHEET_WIDTH * PAPER, SHEET_HEIGHT * PAPER, "wheel")
    middle = SHEET_WIDTH / 2.0 * PAPER
    _base(first, middle, (BASE + 2.0) * PAPER, PAPER, budget)
    sum_words, answer = sum_lines(budget)
    _text(first, 4.0, 2.0 * BASE + 12.0, [
        (f"Paper wheel for {name} (invented), turning {budget.rotor.rotation}, seen from above.", "t t-strong"),
        ("Cut out the three discs. Pin them in this order through the middle: this one, the plate's, the blade's.", "t"),
        ("1  Turn the plate's disc until “plate low” stands where the machine puts it with the stick forward.", "t"),
        ("2  Turn the blade's disc until its “pitch least” meets the open triangle on the plate's disc.", "t"),
        ("3  Read where the disc is low. On a head that is set right it is the nose.", "t"),
        ("Or the other way: set the disc low at the nose, go back, and read where the plate must be low.", "t"),
        (f"The sum: {sum_words} {answer}.", "t t-strong"),
        ("For learning only. The manuals, local rules and licensed people decide.", "t t-small"),
    ])  # fmt: skip
    _scale_bar(first, (SHEET_WIDTH - SCALE_BAR) / 2.0, SHEET_HEIGHT - 12.0)
    second = Canvas(SHEET_WIDTH * PAPER, SHEET_HEIGHT * PAPER, "wheel")
    _middle(second, middle, (MIDDLE + 3.0) * PAPER, PAPER, budget, 0.0)
    _top(second, middle, (2.0 * MIDDLE + TOP + 10.0) * PAPER, PAPER, budget, 0.0)
    _text(second, 4.0, 2.0 * MIDDLE + 12.0, [(f"{name}: the plate's disc, above", "t t-small")])
    _text(second, 4.0, 2.0 * (MIDDLE + TOP) + 12.0, [(f"{name}: the blade's disc", "t t-small")])
    size = f' width="{SHEET_WIDTH:g}mm" height="{SHEET_HEIGHT:g}mm"'
    return first.svg(size), second.svg(size)


def _scale_bar(canvas: Canvas, x: float, y: float) -> None:
    """A bar of 100 mm to lay a ruler on."""
    canvas.line(x * PAPER, y * PAPER, (x + SCALE_BAR) * PAPER, y * PAPER, "r-structure scale-bar")
    for i in range(11):
        tall = 3.0 if i % 5 == 0 else 1.8
        canvas.line((x + 10 * i) * PAPER, y * PAPER, (x + 10 * i) * PAPER, (y - tall) * PAPER, "r-structure")
    canvas.text(
        (x + SCALE_BAR / 2.0) * PAPER, (y + 5.0) * PAPER,
        "This bar is 100 mm (3.94 in) long. If your ruler says otherwise, print at 100 %, not “fit to page”.", "t t-small",
    )  # fmt: skip
