"""Plan of the stationary ring with what each rod carries now."""

import math
from collections.abc import Sequence

from ..fields import Drawing
from ..loads.rods import PlateLoad
from ..rotor import Rotor
from ..units import System, show
from .canvas import Canvas
from .rose import blank_rose

_RING = 124.0


def rods_under_load(rotor: Rotor, rods: Sequence[float], plate: PlateLoad, angle: float, system: System) -> Drawing:
    """A disc a rod, its area as the load; filled when it pushes, open when it pulls; the figure beside it."""
    canvas = Canvas(360, 372, "rodload")
    rose = blank_rose(canvas, rotor.rotation)
    ring = 78.0
    canvas.circle(rose.x, rose.y, ring, "r-plate")
    most = max(max(abs(x) for x in rods), 1e-9)
    texts = []
    for n, (rod, load) in enumerate(zip(rotor.head.rods, rods, strict=True), 1):
        bearing = math.radians(rod.bearing_deg)
        x, y = rose.at(bearing, ring)
        canvas.circle(x, y, 4.0 + 15.0 * math.sqrt(abs(load) / most), "r-hand fill" if load >= 0 else "r-hand mark")
        rose.label(
            bearing, ring + 32 if abs(math.sin(bearing)) < 0.8 else ring + 36, f"R{n}", "t t-small t-halo t-hand"
        )
        tx, ty = rose.at(bearing, ring - 40)
        canvas.text(tx, ty + 4, show("force", load, system), "t t-small t-halo t-hand")
        texts.append(f"rod {n} {show('force', load, system)}")
    canvas.text(180, 364, f"rotor turned by {angle:.0f}° · filled: pushes, open: pulls", "t t-small")
    return Drawing(
        canvas.svg(),
        f"The stationary ring from above with the rotor turned by {angle:.0f}°: "
        + ", ".join(texts)
        + "; positive pushes the ring up. "
        f"Together the links bear down with {show('force', plate.down, system)}.",
    )
