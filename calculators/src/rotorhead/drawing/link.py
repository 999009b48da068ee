"""A horn seen along the blade, with its link before and after it was made longer."""

import math

from ..conventions import degrees_text
from ..fields import Drawing
from ..rotor import Rotor
from ..units import System, show
from .canvas import Canvas


def link_turn(rotor: Rotor, pitch: float, longer: float, system: System) -> Drawing:
    """Blade section on its feathering axis, horn and link; the change drawn ten times as large."""
    canvas = Canvas(340, 270, "link")
    x, y = 170.0, 84.0
    way = -1.0 if rotor.arm > 0 else 1.0  # ahead is drawn to the left
    shown = max(-0.6, min(0.6, pitch * 10.0))
    tip = (x + way * 92, y)
    turned = (x + way * 92 * math.cos(shown), y - 92 * math.sin(shown) * (1 if rotor.arm > 0 else -1))
    nose, tail = 108.0, 70.0

    def section(angle: float, role: str) -> None:
        c, s = math.cos(angle), math.sin(angle)
        canvas.line(x - nose * c, y - nose * s, x + tail * c, y + tail * s, role)

    section(0.0, "r-faint")
    section(shown, "r-pitch")
    canvas.circle(x, y, 5, "r-structure mark")
    canvas.line(x, y, *tip, "r-faint")
    canvas.line(x, y, *turned, "r-plate")
    foot = (tip[0], 226.0)
    canvas.line(*foot, *tip, "r-faint")
    canvas.line(*foot, *turned, "r-plate")
    canvas.circle(*foot, 5, "r-plate fill")
    canvas.circle(*turned, 4, "r-plate fill")
    canvas.text(14, 20, "ahead ←", "t t-small", "start")
    canvas.text(326, 20, "drawn ten times as large", "t t-small", "end")
    canvas.text(foot[0], 250, "rotating ring", "t t-small t-plate")
    side = "end" if way > 0 else "start"
    canvas.text(
        foot[0] - way * 14,
        160,
        f"link {show('small_length', longer, system, 2)} longer",
        "t t-small t-halo t-plate",
        side,
    )
    canvas.text(x - way * 60, y - 30, f"pitch {degrees_text(pitch, 2)}", "t t-halo t-pitch")
    return Drawing(
        canvas.svg(),
        f"A {'trailing' if rotor.trailing else 'leading'} horn seen along the blade: the link made longer by "
        f"{show('small_length', longer, system, 2)} turns the blade by {degrees_text(pitch, 2)}.",
    )
