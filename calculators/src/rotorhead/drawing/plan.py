"""Plan view: rods, ring, links, horns and blades seen from above, for one rotor angle."""

import math

from ..conventions import TURN, bearing_of, sense
from ..fields import Drawing
from ..rotor import Rotor
from .canvas import Canvas
from .rose import blank_rose

_RING = 124.0


def head_plan(rotor: Rotor, mast: float = 0.0) -> Drawing:
    """Rods (squares, staying) under ring, links and horns (turning), blade 1 at azimuth `mast` (rad).

    To scale within itself: the largest of rod radius, ring radius, horn station and arm fills the rose.
    """
    canvas = Canvas(360, 368, "plan")
    rose = blank_rose(canvas, rotor.rotation)
    horn_reach = math.hypot(rotor.horn_station, rotor.arm)
    scale = 0.74 * _RING / max(rotor.rod_radius, rotor.ring_radius, horn_reach)
    canvas.circle(rose.x, rose.y, rotor.rod_radius * scale, "r-structure")
    canvas.circle(rose.x, rose.y, rotor.ring_radius * scale, "r-plate")
    ring = rotor.ring_radius * scale
    ticks = [i * TURN / 60 for i in range(60)]
    canvas.hatch([(rose.at(t, ring - 3), rose.at(t + 2.5 / ring, ring + 3)) for t in ticks])
    canvas.circle(rose.x, rose.y, 5, "r-structure fill")
    way = sense(rotor.rotation)
    for blade in range(rotor.blades):
        azimuth = mast + blade * TURN / rotor.blades
        span = bearing_of(azimuth, rotor.rotation)
        rose.radial(span, 8, _RING - 2, "r-structure blade")
        rose.label(span, _RING - 14, str(blade + 1), "t t-small t-halo")
        along = (math.sin(span), -math.cos(span))
        # "Ahead" seen from above: a quarter turn on in the direction of rotation.
        ahead = (math.sin(span + way * math.pi / 2), -math.cos(span + way * math.pi / 2))

        def place(
            out: float, fore: float, along: tuple[float, float] = along, ahead: tuple[float, float] = ahead
        ) -> tuple[float, float]:
            return (
                rose.x + scale * (out * along[0] + fore * ahead[0]),
                rose.y + scale * (out * along[1] + fore * ahead[1]),
            )

        horn, root = place(rotor.horn_station, rotor.arm), place(rotor.horn_station, 0.0)
        foot = place(rotor.link_foot_out, rotor.link_foot_ahead)
        canvas.line(*root, *horn, "r-plate")
        canvas.line(*foot, *horn, "r-structure")
        canvas.circle(*horn, 3.5, "r-plate fill")
        canvas.circle(*foot, 5, "r-plate")
        if rotor.hinge > 0 and rotor.hinge * scale < _RING - 20:
            hx, hy = place(rotor.hinge, 0.0)
            nx, ny = ahead[0] * 7, ahead[1] * 7
            canvas.line(hx - nx, hy - ny, hx + nx, hy + ny, "r-disc thin")
    for n, rod in enumerate(rotor.head.rods, start=1):
        bearing = math.radians(rod.bearing_deg)
        rose.square(bearing, rotor.rod_radius * scale, 11, "r-hand fill")
        rose.label(bearing, rotor.rod_radius * scale + 16, f"R{n}", "t t-small t-halo t-hand")
    canvas.text(180, 360, "squares: rods, stay · hatched: ring, links, horns, turn", "t t-small")
    side = "behind" if rotor.trailing else "ahead of"
    return Drawing(
        canvas.svg(),
        f"The head seen from above, nose at the top, turning {rotor.rotation}: {len(rotor.rod_azimuths)} rods under the "
        f"stationary ring, {rotor.blades} blades, each with a pitch link on the rotating ring and a horn {side} its blade.",
    )
