"""Low g: the same tilt of the disc at three load factors, and the moment that is left of it."""

import math

from ..conventions import HALF_TURN
from ..fields import Drawing
from ..flight.hub import TiltMoment, tilt_moment
from ..rotor import Rotor
from ..units import DEGREE, System, show
from .canvas import Canvas, Compass
from .machine import from_left

_TIMES = 14.0
_X, _BELOW, _REACH, _PULL, _ROW = 86.0, 50.0, 68.0, 44.0, 128.0
_LOADS = ((1.0, "1 g"), (0.5, "half a g"), (0.0, "0 g"))


def _row(canvas: Canvas, top: float, load: float, name: str, moment: TiltMoment, share: float, system: System) -> None:
    """`share`: the hub's part of the moment at 1 g, for the size of its arrow."""
    y, shown = top + 54.0, _TIMES * DEGREE
    gx, gy = from_left(canvas, (_X, y), _BELOW)
    hub = Compass(canvas, _X, y)
    c, s = math.cos(shown), math.sin(shown)
    canvas.line(_X - _REACH * c, y + _REACH * s, _X + _REACH * c, y - _REACH * s, "r-disc")
    if load:
        # Thrust stands square on the disc, tilted nose-down: to the left of the page; its line passes behind the centre of gravity.
        canvas.line(_X, y, *hub.at(HALF_TURN - shown, _BELOW + 22.0), "r-faint")
        canvas.arrow(_X, y, *hub.at(-shown, _PULL * load), "r-disc", 8.0)
        canvas.line(gx, gy, gx + _BELOW * s * c, gy - _BELOW * s * s, "r-disc thin")
    canvas.circle(gx, gy, 3.5, "r-structure fill")
    if share > 0.005:
        hub.arc_arrow(0.9, -(0.7 + 1.1 * share), 30.0, "r-pitch", 7.0)
    canvas.text(182, top + 34, name, "t t-strong", "start")
    _, gap, unit = show("moment_per_angle", moment.total, system).rpartition("\N{NARROW NO-BREAK SPACE}")
    canvas.text(312, top + 34, unit, "t t-small", "end")
    rows = (("thrust", moment.thrust, "t-disc"), ("hub", moment.hub, "t-pitch"), ("both", moment.total, "t-strong"))
    for i, (words, value, role) in enumerate(rows):
        canvas.text(182, top + 56 + 18 * i, words, f"t t-small {role}", "start")
        said = "nothing" if value == 0.0 else show("moment_per_angle", value, system).removesuffix(gap + unit)
        canvas.text(312, top + 56 + 18 * i, said, f"t t-small {role}", "end")


def low_g(rotor: Rotor, system: System) -> Drawing:
    """The head's disc tilted forward by one degree at 1 g, half a g and 0 g."""
    moments = [tilt_moment(rotor, load) for load, _ in _LOADS]
    share = moments[0].hub_share or 0.0
    canvas = Canvas(320, 3 * _ROW + 30, "lowg")
    for i, ((load, name), moment) in enumerate(zip(_LOADS, moments, strict=True)):
        if i:
            canvas.line(8, i * _ROW + 4, 312, i * _ROW + 4, "r-faint")
        _row(canvas, i * _ROW, load, name, moment, share, system)
    canvas.text(10, 3 * _ROW + 22, f"one degree of tilt, drawn {_TIMES:.0f} times as large", "t t-small", "start")
    said = ["nothing" if m.total == 0.0 else show("moment_per_angle", m.total, system) for m in moments]
    kept = show("moment_per_angle", moments[0].hub, system)
    hub = "the hub passes nothing on" if moments[0].hub == 0.0 else f"the hub’s part, {kept}, stays"
    return Drawing(
        canvas.svg(),
        f"The machine from the left, nose to the left, at three load factors, its disc tilted forward by one degree (drawn {_TIMES:.0f} times as large). "
        f"The thrust’s line passes the centre of gravity at the same distance each time, but the thrust dwindles; {hub}: {said[0]} at 1 g, {said[1]} at half "
        f"a g, {said[2]} at 0 g.",
    )
