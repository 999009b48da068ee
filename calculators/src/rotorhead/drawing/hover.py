"""A hover in a picture: the lever, the disc with the air going down through it, the power in its two parts."""

from ..fields import Drawing
from ..units import System, show
from .canvas import Canvas


def hover_picture(
    lever: float, command: str, air: str, power: tuple[float, float], system: System, blades: int
) -> Drawing:
    """`lever`: share of its travel, beyond 0 or 1 when it would have to go further; `power`: induced and profile, W."""
    canvas = Canvas(340, 276, "hover")
    bottom, top, x = 172.0, 44.0, 64.0
    canvas.line(x, bottom, x, top, "r-structure")
    for share, words in ((0.0, "down"), (1.0, "up")):
        y = bottom + (top - bottom) * share
        canvas.line(x - 8, y, x + 8, y, "r-structure")
        canvas.text(x - 16, y + 4, words, "t t-small", "end")
    y = bottom + (top - bottom) * min(max(lever, -0.1), 1.1)
    canvas.line(x - 13, y, x + 13, y, "r-hand")
    canvas.text(x + 19, y + 4, command, "t t-strong t-hand", "start")
    canvas.text(14, 16, "collective lever", "t t-small t-hand", "start")
    # The disc from the side, cone and all, and five streams of air through it.
    cx, cy = 226.0, 70.0
    for way in (-1, 1):
        canvas.line(cx, cy, cx + way * 96, cy - 6, "r-disc")
    canvas.line(cx, cy, cx, cy + 22, "r-structure mast")
    canvas.rect(cx - 28, cy + 22, 62, 20, "r-structure")
    for way in (-1, 1):
        for out, reach in ((42, 78), (62, 86), (82, 84)):
            canvas.arrow(cx + way * (out + 5), cy + 8, cx + way * out, cy + 8 + reach, "r-pitch", 7.0)
    canvas.text(cx, 30, "the disc", "t t-small t-disc")
    canvas.text(cx, 190, f"air at the disc: {air}", "t t-small t-pitch")
    # Power: one bar, what drives the air and what drags the blades.
    left, width, base = 20.0, 300.0, 208.0
    share = power[0] / sum(power)
    canvas.rect(left, base, width * share, 18, "r-pitch thin")
    canvas.rect(left + width * share, base, width * (1.0 - share), 18, "r-structure fill")
    canvas.text(left, base + 36, f"drives the air: {show('power', power[0], system)}", "t t-small t-pitch", "start")
    canvas.text(left + width, base + 56, f"drags the blades: {show('power', power[1], system)}", "t t-small", "end")
    return Drawing(
        canvas.svg(),
        f"The lever at {command} of collective, the disc of {blades} blades seen from the side with the air going down through it at "
        f"{air}, and the power: {show('power', power[0], system)} drive the air, {show('power', power[1], system)} drag the blades.",
    )
