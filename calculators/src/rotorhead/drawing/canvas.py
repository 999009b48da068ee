"""A small pen for SVG text: places things by bearing or by x and y, escapes every text.

Colour, line and mark come from classes that name a role (hand, plate, pitch, disc, structure); the
site's one stylesheet says what each looks like in light, dark and print.
"""

import math
from html import escape


def fixed(value: float) -> str:
    """A coordinate with at most one decimal."""
    text = f"{value:.1f}"
    return text[:-2] if text.endswith(".0") else text


class Canvas:
    """Collects SVG elements on a `width` × `height` sheet; y runs down the page."""

    def __init__(self, width: float, height: float, name: str) -> None:
        self.width, self.height, self.name = width, height, name
        self.parts: list[str] = []

    def add(self, text: str) -> None:
        """Raw SVG, made by this package."""
        self.parts.append(text)

    def _twice(self, element: str, role: str) -> None:
        """An element; the mechanism's is a double line: the same again, thinner, in the paper's colour."""
        self.add(element.format(role=role))
        words = role.split()
        if words[0] == "r-plate" and not {"fill", "thin", "wide"} & set(words):
            named = [w for w in words if w.startswith("p-")]
            self.add(element.format(role=" ".join(["r-plate-core", *named])))

    def strokes(self, lines: list[tuple[tuple[float, float], tuple[float, float]]], role: str) -> None:
        """Many short lines as one element."""
        d = "".join(f"M{fixed(a[0])} {fixed(a[1])}L{fixed(b[0])} {fixed(b[1])}" for a, b in lines)
        self.add(f'<path class="{role}" d="{d}"/>')

    def hatch(self, lines: list[tuple[tuple[float, float], tuple[float, float]]]) -> None:
        """Short strokes that mark what turns."""
        self.strokes(lines, "hatch")

    def arc(self, start: tuple[float, float], end: tuple[float, float], radius: float, turn: float, role: str) -> None:
        """Part of a circle from one point to another, `turn` (rad, clockwise positive) round."""
        large, sweep = int(abs(turn) > math.pi), int(turn > 0)
        place = f"M{fixed(start[0])} {fixed(start[1])}A{fixed(radius)} {fixed(radius)} 0 {large} {sweep} {fixed(end[0])} {fixed(end[1])}"
        self._twice('<path class="{role}" ' + f'd="{place}"/>', role)

    def line(self, x1: float, y1: float, x2: float, y2: float, role: str) -> None:
        """A straight line."""
        place = f'x1="{fixed(x1)}" y1="{fixed(y1)}" x2="{fixed(x2)}" y2="{fixed(y2)}"'
        self._twice('<line class="{role}" ' + place + "/>", role)

    def circle(self, x: float, y: float, r: float, role: str) -> None:
        """A circle."""
        self._twice('<circle class="{role}" ' + f'cx="{fixed(x)}" cy="{fixed(y)}" r="{fixed(r)}"/>', role)

    def rect(self, x: float, y: float, w: float, h: float, role: str) -> None:
        """A rectangle by its top left corner."""
        self.add(f'<rect class="{role}" x="{fixed(x)}" y="{fixed(y)}" width="{fixed(w)}" height="{fixed(h)}"/>')

    def path(self, points: list[tuple[float, float]], role: str, *, close: bool = False) -> None:
        """A line through points."""
        d = "M" + "L".join(f"{fixed(x)} {fixed(y)}" for x, y in points) + ("Z" if close else "")
        self._twice('<path class="{role}" ' + f'd="{d}"/>', role)

    def text(self, x: float, y: float, words: str, role: str = "t", anchor: str = "middle") -> None:
        """A line of text; `role` is a class such as 't', 't t-disc' or 't t-small'."""
        self.add(f'<text class="{role}" x="{fixed(x)}" y="{fixed(y)}" text-anchor="{anchor}">{escape(words)}</text>')

    def arrow(self, x1: float, y1: float, x2: float, y2: float, role: str, head: float = 9.0) -> None:
        """A line with a filled arrow head at its second end."""
        angle = math.atan2(y2 - y1, x2 - x1)
        bx, by = x2 - head * math.cos(angle), y2 - head * math.sin(angle)
        self.line(x1, y1, bx, by, role)
        self.path(
            [
                (x2, y2),
                (bx - 0.5 * head * math.sin(angle), by + 0.5 * head * math.cos(angle)),
                (bx + 0.5 * head * math.sin(angle), by - 0.5 * head * math.cos(angle)),
            ],
            f"{role} fill",
            close=True,
        )

    def svg(self, extra: str = "") -> str:
        """The whole drawing as SVG text; the words beside it are its text equivalent."""
        return (
            f'<svg class="hd-svg hd-svg-{self.name}" viewBox="0 0 {fixed(self.width)} {fixed(self.height)}" '
            f'aria-hidden="true" focusable="false"{extra} xmlns="http://www.w3.org/2000/svg">'
            + "".join(self.parts)
            + "</svg>"
        )


class Compass:
    """Places by bearing (radians clockwise from the nose, nose up the page) around a centre."""

    def __init__(self, canvas: Canvas, x: float, y: float) -> None:
        self.canvas, self.x, self.y = canvas, x, y

    def at(self, bearing: float, radius: float) -> tuple[float, float]:
        """The point at a bearing and radius."""
        return self.x + radius * math.sin(bearing), self.y - radius * math.cos(bearing)

    def arc_points(self, start: float, turn: float, radius: float) -> list[tuple[float, float]]:
        """Points along an arc that runs `turn` (signed, rad) clockwise from a bearing."""
        steps = max(2, int(abs(math.degrees(turn)) / 4) + 1)
        return [self.at(start + turn * i / steps, radius) for i in range(steps + 1)]

    def arc_arrow(self, start: float, turn: float, radius: float, role: str, head: float = 8.0) -> None:
        """An arc with an arrow head at its end, when it is long enough to carry one."""
        if abs(turn) * radius < 1.5:
            return
        first, tip = self.at(start, radius), self.at(start + turn, radius)
        if abs(turn) * radius < head * 1.2:
            self.canvas.arc(first, tip, radius, turn, role)
            return
        back = turn - math.copysign(head / radius, turn)
        self.canvas.arc(first, self.at(start + back, radius), radius, back, role)
        a, b = self.at(start + back, radius - head * 0.5), self.at(start + back, radius + head * 0.5)
        self.canvas.path([tip, a, b], f"{role} fill", close=True)

    def radial(self, bearing: float, r1: float, r2: float, role: str) -> None:
        """A line along a bearing."""
        self.canvas.line(*self.at(bearing, r1), *self.at(bearing, r2), role)

    def triangle(self, bearing: float, radius: float, size: float, role: str) -> None:
        """A triangle on a circle, pointing outward."""
        half = size * 0.62 / radius
        self.canvas.path(
            [self.at(bearing, radius + size * 0.6), self.at(bearing - half, radius - size * 0.5),
             self.at(bearing + half, radius - size * 0.5)],
            role, close=True,
        )  # fmt: skip

    def wedge(self, bearing: float, r1: float, r2: float, half: float, role: str) -> None:
        """A solid wedge that opens outward."""
        self.canvas.path(
            [self.at(bearing, r1), self.at(bearing - half, r2), self.at(bearing + half, r2)], role, close=True
        )

    def square(self, bearing: float, radius: float, size: float, role: str) -> None:
        """A small square centred at a bearing."""
        x, y = self.at(bearing, radius)
        self.canvas.rect(x - size / 2, y - size / 2, size, size, role)

    def label(self, bearing: float, radius: float, words: str, role: str = "t") -> None:
        """Text centred at a bearing (dropped by a third of a line so that it sits on the point); nothing for no words."""
        if not words:
            return
        x, y = self.at(bearing, radius)
        self.canvas.text(x, y + 4.2, words, role)
