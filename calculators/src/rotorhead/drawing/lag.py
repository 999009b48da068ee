"""Commanded pitch and the flap that follows it, over one turn."""

import math

from ..conventions import degrees_text
from ..fields import Drawing
from ..rotor import Rotor
from .canvas import Canvas


def lag_curves(rotor: Rotor, lag: float, gain: float) -> Drawing:
    """A degree of commanded pitch with stick forward, and the flap it makes, against bearing."""
    canvas = Canvas(340, 250, "lag")
    left, right, middle, unit = 34.0, 326.0, 122.0, 66.0 / max(1.0, gain)
    canvas.line(left, middle, right, middle, "r-structure")
    names = ("tail", "right", "nose", "left", "tail")
    if rotor.rotation == "clockwise":
        names = ("tail", "left", "nose", "right", "tail")
    for i, name in enumerate(names):
        x = left + (right - left) * i / 4
        canvas.line(x, middle - 84, x, middle + 84, "r-faint")
        canvas.text(x, middle + 104, name, "t t-small", "end" if i == 4 else "middle")
    # Disc low at the nose (azimuth 180°): flap = gain·cos ψ; pitch least a lag before the nose.
    least = math.pi - lag

    def xs(psi: float) -> float:
        return left + (right - left) * psi / (2 * math.pi)

    turn = [i * math.pi / 60 for i in range(121)]
    canvas.path([(xs(p), middle + unit * math.cos(p - least)) for p in turn], "r-pitch")
    canvas.path([(xs(p), middle - unit * gain * math.cos(p)) for p in turn], "r-disc")
    x1, x2, y = xs(least), xs(math.pi), middle + 84
    canvas.line(x1, middle + unit, x1, y, "r-pitch thin")
    canvas.arrow(x1, y, x2, y, "r-disc")
    canvas.text((x1 + x2) / 2, y - 6, f"lag {degrees_text(lag)}", "t t-halo t-disc")
    canvas.line(40, 16, 66, 16, "r-pitch")
    canvas.text(72, 20, "commanded pitch", "t t-small t-pitch", "start")
    canvas.line(206, 16, 232, 16, "r-disc")
    canvas.text(238, 20, "flap", "t t-small t-disc", "start")
    canvas.text((left + right) / 2, 246, "as the blade goes round →", "t t-small")
    return Drawing(
        canvas.svg(),
        f"Commanded pitch and flap over one turn with the disc tilted toward the nose: pitch is least {degrees_text(lag)} before "
        "the nose, flap is least at the nose.",
    )
