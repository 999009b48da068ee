"""Two sections of a blade as they pass on the two sides of the disc, with the air that meets them."""

import math

from ..conventions import advancing_side, after_side, degrees_text
from ..fields import Drawing
from ..flight.disc_map import Section
from ..rotor import Rotor
from ..units import System, show
from .canvas import Canvas

# A symmetrical section of 12 % over its chord, upper side: (along, up) from the leading edge (NACA four-digit, from memory).
_OUTLINE = ((0.0, 0.0), (0.0125, 0.0189), (0.05, 0.0355), (0.1, 0.0468), (0.2, 0.0574), (0.3, 0.06), (0.45, 0.0556),
            (0.6, 0.0456), (0.75, 0.0316), (0.9, 0.0145), (1.0, 0.0))  # fmt: skip
_CHORD, _PIVOT = 168.0, 0.25


def _blade(canvas: Canvas, x: float, y: float, pitch: float) -> None:
    """The section with its nose to the left, turned nose-up by its pitch about the quarter chord."""
    c, s = math.cos(pitch), math.sin(pitch)

    def at(along: float, up: float) -> tuple[float, float]:
        dx, dy = (along - _PIVOT) * _CHORD, up * _CHORD
        return x + dx * c - dy * s, y + dx * s - dy * c

    canvas.path([*(at(*p) for p in _OUTLINE), *(at(a, -u) for a, u in reversed(_OUTLINE))], "r-structure", close=True)
    canvas.line(*at(-0.12, 0.0), *at(1.12, 0.0), "r-pitch")


def _row(canvas: Canvas, y: float, title: str, section: Section, tip_speed: float, system: System) -> None:
    canvas.text(12, y - 66, title, "t t-strong", "start")
    x = 186.0
    canvas.line(20, y, 330, y, "r-faint")
    _blade(canvas, x, y, section.pitch)
    # The air comes from ahead and above; its length is to one scale on both sides.
    length, slope = 104.0 * section.along, math.atan2(section.through, section.along)
    ex = x - _CHORD * (_PIVOT + 0.04)
    canvas.arrow(ex - length * math.cos(slope), y - length * math.sin(slope), ex, y, "r-disc")
    speed = show("speed", tip_speed * math.hypot(section.along, section.through), system)
    canvas.text(12, y + 44, f"air {speed}", "t t-small t-disc", "start")
    canvas.text(328, y - 48, f"pitch {degrees_text(section.pitch)}", "t t-small t-pitch", "end")
    canvas.text(328, y - 28, f"angle of attack {degrees_text(section.angle)}", "t t-strong", "end")


def two_sections(rotor: Rotor, advancing: Section, retreating: Section, system: System) -> Drawing:
    """Sections at three quarters of the radius, straight out on either side; angles are drawn as they are."""
    canvas = Canvas(340, 314, "sections")
    tip_speed = rotor.speed * rotor.radius
    sides = (advancing_side(rotor.rotation), after_side(rotor.rotation))
    for y, name, side, section in (
        (86.0, "advancing", sides[0], advancing),
        (230.0, "retreating", sides[1], retreating),
    ):
        _row(canvas, y, f"{name} side ({side})", section, tip_speed, system)
    canvas.text(12, 306, "solid grey: level with the hub; dashes: the chord", "t t-small", "start")
    words = "; ".join(
        f"on the {name} side, {side}, pitch {degrees_text(s.pitch)}, air {show('speed', tip_speed * math.hypot(s.along, s.through), system)}, "
        f"angle of attack {degrees_text(s.angle)}"
        for name, side, s in (("advancing", sides[0], advancing), ("retreating", sides[1], retreating))
    )
    return Drawing(canvas.svg(), f"Two sections of a blade at three quarters of the radius: {words}.")
