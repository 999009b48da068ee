"""A blade from above that hangs back behind the line through its hinge and swings about that."""

import math

from ..conventions import degrees_text, sense
from ..fields import Drawing
from ..rotor import Rotor
from .canvas import Canvas, Compass

# Angles are drawn this many times as large, so that a degree is seen.
_TIMES = 4.0
_MOST = math.radians(38.0)


def lagging_blade(rotor: Rotor, offset: float, lag: float | None, swing: float) -> Drawing:
    """One blade pointing to the nose; `lag` None: nothing to swing on. Angles four times their size, to where they fit."""
    canvas = Canvas(340, 262, "leadlag")
    mast = Compass(canvas, 170, 222)
    # The blade at the nose moves to the left of the page when the rotor turns anticlockwise.
    way = sense(rotor.rotation)
    hinge, length = 16.0 + 130.0 * min(offset, 0.3), 176.0
    canvas.circle(170, 222, 9, "r-structure")
    canvas.line(170, 213, 170, 222 - length, "r-faint")
    canvas.text(170, 22, "nose", "t t-small")
    mast.arc_arrow(way * 0.25, way * 0.6, 150, "r-structure")
    canvas.text(170 + way * 118, 150, "turning", "t t-small")
    if lag is None:
        canvas.line(170, 213, 170, 222 - length, "r-structure blade")
        canvas.text(170, 254, "no hinge in the plane: bending carries it", "t t-small")
        return Drawing(
            canvas.svg(),
            "A blade from above: without a hinge in the plane it stands straight out; the hub carries it in bending.",
        )
    canvas.line(170, 213, 170, 222 - hinge, "r-structure")
    at = Compass(canvas, 170, 222 - hinge)
    shown = min(_TIMES * lag, _MOST)
    swung = min(_TIMES * swing, math.radians(12.0))
    reach = length - hinge
    for edge in (-1, 1):
        canvas.line(at.x, at.y, *at.at(-way * (shown + edge * swung), reach), "r-pitch thin")
    canvas.line(at.x, at.y, *at.at(-way * shown, reach), "r-structure blade")
    canvas.circle(at.x, at.y, 5, "r-disc mark")
    at.arc_arrow(0.0, -way * shown, reach * 0.62, "r-disc")
    side = "start" if way < 0 else "end"
    canvas.text(
        170 - way * (22 + 60 * math.sin(shown)),
        at.y - reach * 0.36,
        f"hangs back {degrees_text(lag)}",
        "t t-small t-disc t-halo",
        side,
    )
    canvas.text(16, 242, f"swing ±{degrees_text(swing, 2)}", "t t-small t-pitch", "start")
    canvas.text(170, 258, f"angles drawn {_TIMES:.0f} times as large", "t t-small")
    return Drawing(
        canvas.svg(),
        f"A blade from above, pointing to the nose, turning {rotor.rotation}: it hangs back by {degrees_text(lag)} and swings about that by "
        f"{degrees_text(swing, 2)} each way. Angles are drawn {_TIMES:.0f} times as large.",
    )
