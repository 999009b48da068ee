"""What a figure of a head is likely to be when nobody has measured it: a range, for 'I don't know this'.

The range is that of the invented heads, each figure taken in proportion to what it goes with (the radius, the horn arm,
the square of the radius and so on), widened a little. They stay within common practice; there is no source.
"""

from typing import Final

from .head import DEMONSTRATION, Head, checked_figure, demonstration
from .head_figures import BY_KEY, Figure

WIDER: Final = 0.15
# What a figure goes with: it is compared as a share of that. Figures not named stand for themselves.
_WITH: Final[dict[str, str]] = {
    "chord_m": "radius_m",
    "rpm": "1/radius_m",
    "blade_mass_kg": "radius_m^2",
    "chordwise_radius_of_gyration_m": "chord_m",
    "thickness_radius_of_gyration_m": "chord_m",
    "rod_radius_mm": "radius_m",
    "link_foot_out_mm": "radius_m",
    "link_foot_ahead_mm": "arm_mm",
    "arm_mm": "radius_m",
    "horn_station_mm": "radius_m",
    "link_mm": "radius_m",
    "drive_scissors_ring_arm_mm": "rod_radius_mm",
    "drive_scissors_anchor_arm_mm": "rod_radius_mm",
    "drive_scissors_anchor_mm": "rod_radius_mm",
    "drive_scissors_height_mm": "rod_radius_mm",
    "stationary_scissors_ring_arm_mm": "rod_radius_mm",
    "stationary_scissors_anchor_arm_mm": "rod_radius_mm",
    "stationary_scissors_anchor_mm": "rod_radius_mm",
    "stationary_scissors_height_mm": "rod_radius_mm",
    "mass_kg": "radius_m^2",
    "drag_area_m2": "radius_m^2",
    "mast_above_cg_m": "radius_m",
    "actuator_bore_mm": "radius_m",
    "actuator_rod_mm": "actuator_bore_mm",
}
# For these the heads of the same kind say more than all of them.
_BY_KIND: Final = ("hinge_offset", "root_spring_Nm_per_rad", "precone_deg", "horn_station_mm", "link_foot_out_mm")


def _scale(key: str, head: Head) -> float:
    with_what = _WITH.get(key)
    if with_what is None:
        return 1.0
    if with_what.startswith("1/"):
        return 1.0 / head[with_what[2:]]
    base, _, power = with_what.partition("^")
    return abs(head[base]) ** (int(power) if power else 1) or 1.0


def typical(key: str, head: Head) -> tuple[float, float] | None:
    """Least and greatest likely value of a figure of this head, in the figure's unit; None where a guess makes no sense
    (whole numbers, bearings of rods, the hinge of a teetering head, rods this head doesn't have).

    Kept within the figure's hard limits.
    """
    figure = BY_KEY.get(key)
    if figure is None or key not in head.keys() or figure.whole or key.endswith("bearing_deg"):  # noqa: SIM118 - a head is no mapping
        return None
    if key == "hinge_offset" and head.option("type") == "teetering":
        return None  # it is on the mast's axis: nothing to guess
    if key.startswith("rods."):
        low = high = head[key]
        return _within(figure, low * (1 - WIDER), high * (1 + WIDER))
    others = [demonstration(name) for name in DEMONSTRATION]
    if key in _BY_KIND:
        others = [h for h in others if h.option("type") == head.option("type")] or others
    shares = [h[key] / _scale(key, h) for h in others]
    if key in ("arm_mm", "link_foot_ahead_mm"):
        # A trailing horn is no wider a guess of a leading one: the side is known by looking, of the link's lower end as well.
        sign = -1.0 if head[key] < 0.0 else 1.0
        shares = [sign * abs(s) for s in shares]
    low, high = (s * _scale(key, head) for s in (min(shares), max(shares)))
    spread = max(high - low, 0.1 * max(abs(low), abs(high)), 10.0**-figure.decimals)
    return _within(figure, low - WIDER * spread, high + WIDER * spread)


def _within(figure: Figure, low: float, high: float) -> tuple[float, float] | None:
    places = figure.decimals + 1
    low, high = round(max(low, figure.low), places), round(min(high, figure.high), places)
    if not low < high:
        return None
    return checked_figure(figure, low, f"{low:g}"), checked_figure(figure, high, f"{high:g}")
