"""Side view: the plate between its rods below and the links to the horns above, seen from the left."""

import math

from ..conventions import TURN, bearing_of
from ..fields import Drawing
from ..mechanism.links import foot_in_blade_frame, horn_angle
from ..mechanism.plate import Pose, ring_point
from ..rotor import Rotor
from ..units import System, show
from .canvas import Canvas

_MAST_X, _MIDDLE = 170.0, 196.0


def _bar(canvas: Canvas, ends: list[tuple[float, float]], drop: float, thick: float, *, turning: bool) -> None:
    """One ring seen edge on; what turns is hatched."""
    (x1, y1), (x2, y2) = ends
    y1, y2 = y1 + drop, y2 + drop
    canvas.path([(x1, y1), (x2, y2), (x2, y2 + thick), (x1, y1 + thick)], "r-plate thin", close=True)
    if turning:
        n = max(2, int((x2 - x1) / 7))
        canvas.hatch([
            ((x1 + (x2 - x1) * i / n, y1 + (y2 - y1) * i / n + thick), (x1 + (x2 - x1) * i / n + 4, y1 + (y2 - y1) * i / n))
            for i in range(n)
        ])  # fmt: skip


def side_view(rotor: Rotor, pose: Pose, mast: float, system: System) -> Drawing:
    """Two rods and two links in the plane of the picture's depth, plate tilted as it is.

    Seen from the left side of the aircraft: nose to the left. Points are projected onto the
    fore-and-aft plane; heights and the links' lengths are to one scale.
    """
    canvas = Canvas(340, 350, "side")
    scale = 118.0 / max(rotor.ring_radius, rotor.rod_radius, abs(rotor.arm), rotor.horn_station)
    scale = min(scale, 140.0 / (rotor.link_rise + 0.05))

    def flat(bearing_x: float, height: float) -> tuple[float, float]:
        return _MAST_X + scale * bearing_x, _MIDDLE - scale * height

    def aft(x: float) -> float:
        return x  # azimuth 0 is the tail: x of the azimuth frame runs aft in either rotation

    canvas.line(_MAST_X, 26, _MAST_X, 300, "r-structure mast")
    canvas.line(24, _MIDDLE, 316, _MIDDLE, "r-faint")
    canvas.text(22, 20, "nose ←", "t", "start")
    canvas.text(318, 20, "tail", "t", "end")
    # Rods: the one nearest the nose and the one nearest the tail.
    order = sorted(range(len(rotor.rod_azimuths)), key=lambda i: math.cos(rotor.rod_azimuths[i]))
    for i in (order[0], order[-1]):
        x, _, z = ring_point(pose, rotor.rod_radius, rotor.rod_azimuths[i], rotor.stationary_scissors)
        px, py = flat(aft(x), z)
        canvas.line(px, py, px, 300, "r-hand")
        canvas.circle(px, py, 4, "r-hand fill")
        canvas.text(px, 316, f"R{i + 1}", "t t-small t-hand")
    # The plate in the fore-and-aft plane: the ring that stays plain below, the ring that turns hatched above.
    reach = rotor.ring_radius
    ends = [flat(x, pose.p * x + pose.height) for x in (-reach, reach)]
    _bar(canvas, ends, 0.0, 7.0, turning=False)
    _bar(canvas, ends, -8.0, 7.0, turning=True)
    canvas.circle(*flat(0.0, pose.height), 7, "r-structure mark")
    # Links: the blade nearest the nose and the one nearest the tail.
    azimuths = [mast + b * TURN / rotor.blades for b in range(rotor.blades)]
    near = sorted(range(rotor.blades), key=lambda b: math.cos(azimuths[b]))
    for b in {near[0], near[-1]}:
        foot = foot_in_blade_frame(rotor, pose, mast, b)
        eta = horn_angle(rotor, foot)
        ca, sa = math.cos(azimuths[b]), math.sin(azimuths[b])
        horn = (rotor.horn_station, rotor.arm * math.cos(eta), rotor.arm * math.sin(eta))
        fx = foot[0] * ca - foot[1] * sa
        hx = horn[0] * ca - horn[1] * sa
        root = rotor.horn_station * ca
        p1 = flat(aft(fx), foot[2] + rotor.link_rise)
        p2 = flat(aft(hx), horn[2] + rotor.link_rise)
        p3 = flat(aft(root), rotor.link_rise)
        canvas.line(*p1, *p2, "r-plate")
        canvas.line(*p2, *p3, "r-pitch")
        canvas.circle(*p1, 3.5, "r-plate fill")
        canvas.circle(*p2, 3.5, "r-plate fill")
        canvas.line(_MAST_X, p3[1], _MAST_X + 150 * (1 if ca > 0 else -1), p3[1], "r-structure blade")
        canvas.text(_MAST_X + 138 * (1 if ca > 0 else -1), p3[1] - 8, f"blade {b + 1}", "t t-small t-halo")
    tilt = show("angle", pose.tilt, system)
    height = show("small_length", pose.height, system)
    canvas.text(170, 342, f"plate height {height}, tilt {tilt}", "t t-small")
    low = bearing_of(pose.low_azimuth, rotor.rotation)
    where = f", low at a bearing of {math.degrees(low):.0f}°" if pose.tilt > 1e-6 else ""
    return Drawing(
        canvas.svg(),
        f"Side view from the left, nose to the left. The plate stands at {height}, tilted {tilt}{where}; rods below hold it, "
        "pitch links above join it to the horns.",
    )
