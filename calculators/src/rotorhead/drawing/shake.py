"""Bars: the varying load of the worst rod for two to eight blades."""

from collections.abc import Sequence

from ..fields import Drawing
from ..units import System, show
from .canvas import Canvas


def blade_counts(counts: Sequence[int], loads: Sequence[float], own: int, system: System) -> Drawing:
    """A bar a count; this head's filled, the others open."""
    canvas = Canvas(340, 240, "shake")
    most = max(max(loads), 1e-9)
    base, height, width = 190.0, 150.0, 306.0 / len(counts)
    canvas.line(18, base, 328, base, "r-structure")
    for i, (count, load) in enumerate(zip(counts, loads, strict=True)):
        x, h = 20 + width * (i + 0.5), height * load / most
        canvas.rect(x - 12, base - h, 24, h, "r-hand fill" if count == own else "r-hand thin")
        canvas.text(x, base + 17, str(count), "t t-strong" if count == own else "t")
        canvas.text(x, base - h - 6, show("force", load, system).split("\N{NARROW NO-BREAK SPACE}")[0], "t t-small")
    unit = show("force", 1.0, system).split("\N{NARROW NO-BREAK SPACE}")[1]
    canvas.text(174, 228, f"blades · varying load in {unit}, once for each blade", "t t-small")
    listed = ", ".join(f"{n} blades {show('force', x, system)}" for n, x in zip(counts, loads, strict=True))
    return Drawing(canvas.svg(), f"Varying load of the worst rod for the same blade: {listed}. This head has {own}.")
