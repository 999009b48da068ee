"""What the hands can reach: the stick's field at this lever position, and the lever's travel that is left."""

from collections.abc import Sequence

from ..fields import Drawing
from .canvas import Canvas


def reach_field(
    region: Sequence[tuple[float, float]], forward: float, left: float, lever: float, low: float, high: float, *,
    square: bool, reached: bool,
) -> Drawing:  # fmt: skip
    """Stick field seen from above (forward up the page) with its outline; lever scale beside it."""
    canvas = Canvas(340, 250, "reach")
    x, y, size = 116.0, 126.0, 78.0
    canvas.text(x, 22, "stick forward", "t t-small")
    canvas.text(x, 236, "back", "t t-small")
    canvas.text(x - size - 26, y - 40, "left", "t t-small", "start")
    if square:
        canvas.rect(x - size, y - size, 2 * size, 2 * size, "r-structure")
    else:
        canvas.circle(x, y, size, "r-structure")
    if region:
        canvas.path([(x - size * b, y - size * a) for a, b in region], "r-plate field", close=True)
    canvas.line(x - size, y, x + size, y, "r-faint")
    canvas.line(x, y - size, x, y + size, "r-faint")
    sx, sy = x - size * left, y - size * forward
    canvas.line(x, y, sx, sy, "r-hand")
    canvas.circle(sx, sy, 6, "r-hand fill" if reached else "r-hand mark")
    lx, top, bottom = 276.0, 48.0, 204.0

    def at(part: float) -> float:
        return bottom - (bottom - top) * part

    canvas.line(lx, top, lx, bottom, "r-structure")
    canvas.rect(lx - 7, at(high), 14, max(0.0, at(low) - at(high)), "r-plate field")
    canvas.line(lx - 14, at(lever), lx + 14, at(lever), "r-hand")
    canvas.text(lx, 22, "lever", "t t-small")
    canvas.text(lx, 236, "what is left", "t t-small t-plate")
    lever_words = (
        f"the lever can move from {100 * low:.0f}% to {100 * high:.0f}% of its travel"
        if low <= high
        else "no place of the lever is within reach"
    )
    state = "within reach" if reached else "beyond what the rods reach"
    return Drawing(
        canvas.svg(),
        f"The stick's field seen from above with the outline of what the rods reach at this lever position; the stick's place is {state}. "
        f"With the stick held there {lever_words}.",
    )
