"""The machine from the side with its disc tilted: the thrust that passes the centre of gravity, the moment at the hub."""

import math

from ..conventions import degrees_text
from ..fields import Drawing
from .canvas import Canvas, Compass

_X, _HUB, _BELOW = 188.0, 84.0, 104.0
# The tilt is drawn this many times as large, so that one degree is seen.
_TIMES = 8.0


def tilted_machine(tilt: float, load_factor: float, thrust_words: str, hub_words: str, hub_share: float) -> Drawing:
    """`tilt` rad forward; hub_share: the hub's part of the moment at 1 g, for the size of its arrow. Seen from the left."""
    canvas = Canvas(340, 322, "tilted")
    shown = min(_TIMES * tilt, math.radians(24.0))
    gx, gy = _X, _HUB + _BELOW
    # A plain fuselage, nose to the left.
    canvas.path([(gx - 84, gy + 4), (gx - 66, gy - 30), (gx - 20, gy - 50), (gx + 30, gy - 46), (gx + 62, gy - 22), (gx + 140, gy - 32),
                 (gx + 140, gy - 20), (gx + 58, gy + 20), (gx - 50, gy + 26)], "r-structure", close=True)  # fmt: skip
    canvas.line(_X, _HUB, _X, gy - 46, "r-structure mast")
    hub = Compass(canvas, _X, _HUB)
    for way in (-1.0, 1.0):
        canvas.line(_X, _HUB, _X + way * 128 * math.cos(shown), _HUB - way * 128 * math.sin(shown), "r-disc")
    if load_factor > 0.02:
        length = 56.0 * min(load_factor, 1.6) ** 0.7
        # Thrust stands square on the disc, which is tilted nose-down: to the left of the page.
        tip = hub.at(-shown, length)
        canvas.arrow(_X, _HUB, *tip, "r-disc")
        back = hub.at(math.pi - shown, _BELOW / math.cos(shown) + 16.0)
        canvas.line(_X, _HUB, *back, "r-faint")
    canvas.circle(gx, gy, 6, "r-structure fill")
    canvas.text(gx + 12, gy + 5, "centre of gravity", "t t-small t-halo", "start")
    if hub_share > 0.005:
        turn = 0.5 + 1.5 * hub_share
        hub.arc_arrow(0.6, -turn, 30.0, "r-pitch")
    canvas.text(12, 246, f"thrust past the centre of gravity: {thrust_words}", "t t-small t-disc", "start")
    canvas.text(12, 266, f"moment at the hub: {hub_words}", "t t-small t-pitch", "start")
    canvas.text(12, 292, f"load factor {load_factor:.2f}", "t t-strong", "start")
    canvas.text(12, 312, f"tilt {degrees_text(tilt)}, drawn {_TIMES:.0f} times as large", "t t-small", "start")
    return Drawing(
        canvas.svg(),
        f"The machine from the left with its disc tilted forward by {degrees_text(tilt)} (drawn {_TIMES:.0f} times as large) at a load factor of "
        f"{load_factor:.2f}: the thrust passes the centre of gravity and makes {thrust_words}; the hub makes {hub_words}.",
    )
