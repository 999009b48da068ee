"""A rotor from the side: flat, and coned as it flies; what lifts a blade and what pulls it straight."""

import math

from ..conventions import degrees_text
from ..fields import Drawing
from ..rotor import Rotor
from ..units import System, show
from .canvas import Canvas

_X, _Y, _SPAN = 170.0, 104.0, 140.0
# The cones of three rotor speeds lie close together: drawn this many times as steep.
_TIMES = 3.0


def _blades(canvas: Canvas, rotor: Rotor, coning: float, role: str) -> None:
    """Two blades of a rotor from the side, to scale, from mast to hinge to tip."""
    hinge = _SPAN * rotor.hinge_offset
    for way in (-1, 1):
        x = _X + way * hinge
        reach = _SPAN - hinge
        if hinge > 0.5:
            canvas.line(_X, _Y, x, _Y, "r-structure")
        canvas.line(x, _Y, x + way * reach * math.cos(coning), _Y - reach * math.sin(coning), role)


def coned_rotor(rotor: Rotor, coning: float, pull: str, system: System) -> Drawing:
    """The coned rotor to scale, with lift and pull on a blade; the pull isn't drawn to scale: it is many times the lift."""
    canvas = Canvas(340, 210, "coning")
    canvas.line(30, _Y, 310, _Y, "r-faint")
    canvas.line(_X, _Y - 8, _X, 178, "r-structure mast")
    _blades(canvas, rotor, coning, "r-disc")
    canvas.circle(_X, _Y, 5, "r-structure fill")
    tip_x, tip_y = _X + _SPAN * math.cos(coning), _Y - _SPAN * (1.0 - rotor.hinge_offset) * math.sin(coning)
    at = 0.72
    lift_x, lift_y = _X + at * _SPAN, _Y - at * _SPAN * math.sin(coning)
    canvas.arrow(lift_x, lift_y, lift_x - 34 * math.sin(coning), lift_y - 44, "r-pitch")
    canvas.text(lift_x - 8, lift_y - 52, "lift", "t t-small t-pitch")
    left_x, left_y = _X - 0.42 * _SPAN, _Y - 0.42 * _SPAN * math.sin(coning)
    canvas.arrow(left_x, left_y - 18, left_x - 74, left_y - 18, "r-plate")
    canvas.text(left_x - 40, left_y - 29, f"pull {pull}", "t t-small t-plate t-halo")
    canvas.text(tip_x, tip_y - 12, degrees_text(coning), "t t-strong t-disc", "end")
    rise = (rotor.radius - rotor.hinge) * math.sin(coning)
    if abs(tip_y - _Y) > 3.0:
        canvas.line(tip_x + 12, _Y, tip_x + 12, tip_y, "r-structure thin")
    canvas.text(320, _Y + 18, f"tip {show('length', rise, system)} up", "t t-small", "end")
    canvas.text(30, _Y + 18, "flat", "t t-small", "start")
    canvas.text(_X, 200, "to scale; lift and pull are not", "t t-small")
    return Drawing(
        canvas.svg(),
        f"The rotor from the side, to scale: the blades stand up by {degrees_text(coning)}, their tips {show('length', rise, system)} "
        f"higher than flat. Lift draws each up; a pull of {pull} outward keeps it straight.",
    )


def cones(rotor: Rotor, angles: list[tuple[str, float]]) -> Drawing:
    """The same rotor at several rotor speeds, the cones drawn over one another: (name, coning) from the fastest."""
    canvas = Canvas(340, 190, "cones")
    canvas.line(30, _Y, 310, _Y, "r-faint")
    canvas.line(_X, _Y - 8, _X, 158, "r-structure mast")
    roles = ("r-disc", "r-plate thin-line", "r-hand")
    for (_, angle), role in zip(angles, roles, strict=True):
        _blades(canvas, rotor, min(_TIMES * angle, 0.6), role)
    canvas.circle(_X, _Y, 5, "r-structure fill")
    for i, ((name, angle), role) in enumerate(zip(angles, roles, strict=True)):
        y = 16 + 17 * i
        canvas.line(112, y - 4, 138, y - 4, role)
        canvas.text(146, y, f"{name}: {degrees_text(angle)}", "t t-small", "start")
    canvas.text(_X, 182, f"the same thrust at each rotor speed; angles drawn ×{_TIMES:.0f}", "t t-small")
    listed = ", ".join(f"{degrees_text(angle)} at {name}" for name, angle in angles)
    return Drawing(
        canvas.svg(),
        f"The rotor from the side at three rotor speeds and the same thrust, angles drawn {_TIMES:.0f} times as steep: coning {listed}.",
    )
