"""A tail-rotor head in general terms: pedals, rod through the shaft, spider, links, and a hinge set askew."""

import math

from ..conventions import after_side, before_side, sense
from ..fields import Drawing
from ..rotor import Rotor
from .canvas import Canvas, Compass

_SHAFT, _HUB, _SPIDER, _SPAN = 152.0, 206.0, 250.0, 92.0
# Seen along the shaft: hub and half of the hinge's line; askew by so much in the picture, no machine's figure.
_FACE, _HINGE, _ASKEW = (108.0, 354.0), 46.0, math.radians(40.0)


class _Mirrored(Canvas):
    """A sheet drawn for an anticlockwise main rotor; mirrored for the other, words not."""

    def __init__(self, width: float, height: float, name: str, way: float) -> None:
        super().__init__(width, height, name)
        self.way = way

    def x(self, x: float) -> float:
        """Where an x of the sheet goes."""
        return x if self.way > 0.0 else self.width - x

    def stroke(self, x1: float, y1: float, x2: float, y2: float, role: str) -> None:
        """A straight line."""
        self.line(self.x(x1), y1, self.x(x2), y2, role)

    def dart(self, x1: float, y1: float, x2: float, y2: float, role: str) -> None:
        """An arrow."""
        self.arrow(self.x(x1), y1, self.x(x2), y2, role, 8.0)

    def box(self, x: float, y: float, w: float, h: float, role: str) -> None:
        """A rectangle."""
        self.rect(min(self.x(x), self.x(x + w)), y, w, h, role)

    def words(self, x: float, y: float, text: str, role: str = "t t-small", anchor: str = "start") -> None:
        """A line of text that starts, or ends, on the same side of its place."""
        other = {"start": "end", "end": "start", "middle": "middle"}
        self.text(self.x(x), y, text, role, anchor if self.way > 0.0 else other[anchor])


def _hands_to_hub(pen: _Mirrored) -> None:
    """From above: pedals, rod, gearbox, shaft and spider; the blades edge on."""
    y = _SHAFT
    pen.words(8, 16, "from above, nose up")
    # Two pedals on a bar: the one for more push stands forward.
    for x, at in ((22.0, 36.0), (66.0, 52.0)):
        pen.box(x - 11, at - 4, 22, 9, "r-hand fill")
    pen.path([(pen.x(22), 40), (pen.x(22), 62), (pen.x(66), 74), (pen.x(66), 56)], "r-hand")
    pen.words(38, 42, "more push", "t t-small t-hand")
    pen.path([(pen.x(44), 68), (pen.x(44), y), (pen.x(_SPIDER), y)], "r-hand")
    pen.words(54, 97, "rod: only slides", "t t-small t-hand")
    # The gearbox stays; its hollow shaft turns.
    pen.box(70, y - 24, 54, 48, "r-structure")
    pen.words(97, y + 42, "gearbox", anchor="middle")
    pen.words(97, y + 57, "(stays)", anchor="middle")
    pen.box(124, y - 10, _HUB - 130, 20, "r-structure")
    for edge in (y - 10, y + 5):
        pen.hatch([((pen.x(126 + 7 * i), edge + 5), (pen.x(130 + 7 * i), edge)) for i in range(10)])
    pen.words(194, y - 33, "hollow shaft", anchor="end")
    pen.words(194, y + 28, "(turns)", anchor="end")
    for up in (-1.0, 1.0):
        for flap in (-0.15, 0.15):
            pen.stroke(_HUB, y, _HUB + _SPAN * math.sin(flap), y + up * _SPAN * math.cos(flap), "r-disc thin")
        pen.stroke(_HUB, y, _HUB, y + up * _SPAN, "r-structure blade")
        pen.path([(pen.x(_SPIDER), y), (pen.x(_SPIDER), y + up * 34), (pen.x(_HUB + 3), y + up * 34)], "r-plate")
        pen.circle(pen.x(_SPIDER), y + up * 34, 4, "r-plate fill")
        pen.circle(pen.x(_HUB), y + up * 34, 4, "r-plate fill")
    pen.circle(pen.x(_HUB), y, 6, "r-structure mark")
    pen.circle(pen.x(_SPIDER), y, 6, "r-plate fill")
    pen.words(262, y + 4, "spider", "t t-small t-plate")
    pen.words(262, y + 40, "links", "t t-small t-plate")
    pen.words(_HUB + 22, y + 84, "flaps", "t t-small t-disc")
    pen.dart(_HUB + 4, y - 62, _HUB + 64, y - 62, "r-disc")
    pen.words(_HUB + 28, y - 72, "its push", "t t-small t-disc")


def _along_the_shaft(pen: _Mirrored) -> None:
    """The hub's face: two blades, and the teeter hinge askew, outward on the side of the front edge."""
    x, y = _FACE
    for way in (-1.0, 1.0):
        pen.box(x + (24 if way > 0.0 else -96), y - 10, 72, 20, "r-structure")
        pen.stroke(x, y, x + way * 24, y, "r-structure mast")
        # Horns stand ahead of the blade; each link comes up out of the page to its end.
        pen.stroke(x + way * 52, y - way * 10, x + way * 52, y - way * 24, "r-plate")
        pen.circle(pen.x(x + way * 52), y - way * 26, 4, "r-plate fill")
    pen.stroke(x, y - _HINGE - 6, x, y + _HINGE + 6, "r-faint")
    dx, dy = _HINGE * math.sin(_ASKEW), _HINGE * math.cos(_ASKEW)
    pen.stroke(x - dx, y + dy, x + dx, y - dy, "r-disc")
    pen.circle(pen.x(x), y, 7, "r-structure mark")
    face = Compass(pen, pen.x(x), y)
    face.arc_arrow(0.0, pen.way * _ASKEW, _HINGE, "r-structure", 6.0)
    face.arc_arrow(pen.way * math.radians(118), -pen.way * math.radians(24), 108, "r-structure")
    pen.words(8, 276, "along the shaft")
    pen.words(x + 14, y - _HINGE - 8, "delta-three", "t t-strong")
    pen.words(224, y + 40, "turns")
    for i, text in enumerate(("hinge askew: a blade that flaps", "the way it lifts loses pitch")):
        pen.words(8, y + 74 + 15 * i, text, "t t-small t-disc")


def tail_rotor_head(rotor: Rotor) -> Drawing:
    """The same drawing for every head, mirrored with the way the main rotor turns."""
    pen = _Mirrored(320, 452, "tailhead", -sense(rotor.rotation))
    _hands_to_hub(pen)
    _along_the_shaft(pen)
    push, pedal = before_side(rotor.rotation), after_side(rotor.rotation)
    return Drawing(
        pen.svg(),
        f"A tail-rotor head in general terms, invented, behind a main rotor that turns {rotor.rotation}. From above: the {pedal} pedal forward "
        "moves a rod that slides through the gearbox and the hollow shaft; the spider at its end takes the links of both blades along, and both change pitch "
        f"alike, for more push to the {push}. Nothing tilts. Along the shaft: the two blades flap on one hinge, set askew, so that a blade that flaps the "
        "way it lifts loses pitch.",
    )
