"""The air at a height: both altitudes on one scale, and a box of it beside a box at sea level."""

from ..fields import Drawing
from ..numbers import round_step
from ..units import System, from_si, show
from .canvas import Canvas

_TOP, _BASE, _SCALE_X = 34.0, 222.0, 96.0
_DOTS = 64


def _box(canvas: Canvas, x: float, share: float, name: str, words: str) -> None:
    """A box with as many dots as there is air in it; the dots lie where a low-discrepancy sequence puts them."""
    side = 84.0
    canvas.rect(x, 84, side, side, "r-structure")
    for i in range(round(_DOTS * min(share, 1.6))):
        across, down = (0.5 + 0.754878 * i) % 1.0, (0.5 + 0.569840 * i) % 1.0
        canvas.circle(x + 6 + across * (side - 12), 90 + down * (side - 12), 1.7, "r-structure fill")
    canvas.text(x + side / 2, 74, name, "t t-small")
    canvas.text(x + side / 2, 186, words, "t t-small")


def air_here(pressure_altitude: float, density_altitude: float, share: float, system: System) -> Drawing:
    """A scale of heights with the pressure altitude on one side and the density altitude on the other; two boxes of air."""
    canvas = Canvas(340, 244, "air")
    low, high = (from_si("altitude", x, system) for x in (min(pressure_altitude, density_altitude, 0.0),
                                                           max(pressure_altitude, density_altitude, 3000.0)))  # fmt: skip
    step = round_step(high - low, 5)
    levels = [step * i for i in range(int(low // step), int(-(-high // step)) + 1)]

    def y(height: float) -> float:
        return _BASE - (_BASE - _TOP) * (height - levels[0]) / (levels[-1] - levels[0])

    canvas.line(_SCALE_X, _BASE, _SCALE_X, _TOP, "r-structure")
    for level in levels:
        canvas.line(_SCALE_X - 6, y(level), _SCALE_X + 6, y(level), "r-structure thin")
        words = f"{level:.0f}".replace("-", "\N{MINUS SIGN}")
        canvas.text(_SCALE_X - 50, y(level) + 4, words, "t t-small", "end")
    unit = show("altitude", 0.0, system).partition("\N{NARROW NO-BREAK SPACE}")[2]
    canvas.text(_SCALE_X - 50, 18, f"height, {unit}", "t t-small")
    for altitude, way, role in ((pressure_altitude, -1, "plate"), (density_altitude, 1, "disc")):
        at = y(from_si("altitude", altitude, system))
        tip = _SCALE_X + way * 8
        canvas.arrow(tip + way * 30, at, tip, at, f"r-{role}")
    canvas.text(_SCALE_X - 4, 18, "p", "t t-strong t-plate", "end")
    canvas.text(_SCALE_X + 6, 18, "ρ", "t t-strong t-disc", "start")
    _box(canvas, 150, 1.0, "sea level", "standard air")
    _box(canvas, 248, share, "here", f"{share * 100:.0f}% of it")
    canvas.text(150, 212, "p: pressure altitude", "t t-small t-plate", "start")
    canvas.text(150, 230, "ρ: density altitude", "t t-small t-disc", "start")
    return Drawing(
        canvas.svg(),
        f"A scale of heights: the pressure altitude is {show('altitude', pressure_altitude, system)}, the density altitude "
        f"{show('altitude', density_altitude, system)}. Two boxes of equal size: here there is {share * 100:.0f}% as much air in it as "
        "at sea level.",
    )
