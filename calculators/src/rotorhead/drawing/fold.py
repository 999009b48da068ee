"""A pair of scissors in its own plane: two arms, apex, ring and anchor, with the included angle."""

from ..conventions import degrees_text
from ..fields import Drawing
from ..mechanism.scissors import Fold, Pair
from .canvas import Canvas


def scissors_fold(now: Fold, pair: Pair, tilt_slope: float) -> Drawing:
    """Side view in the plane of the scissors, mast at the left edge."""
    canvas = Canvas(340, 270, "fold")
    points = (now.ring, now.apex, now.anchor)
    widest = max(p[0] for p in points)
    low, high = min(p[1] for p in points), max(p[1] for p in points)
    scale = min(220.0 / max(widest, 1e-6), 180.0 / max(high - low, 1e-6))
    base = 40.0 + scale * high

    def at(p: tuple[float, float]) -> tuple[float, float]:
        return 40.0 + scale * p[0], base - scale * p[1]

    canvas.line(40, 12, 40, 258, "r-structure mast")
    canvas.text(50, 22, "mast", "t t-small", "start")
    ring, apex, anchor = (at(p) for p in points)
    # The plate seen edge on, from the mast to the ring point.
    canvas.line(40, ring[1] + scale * now.ring[0] * tilt_slope, *ring, "r-plate wide")
    canvas.line(40, anchor[1], *anchor, "r-structure")
    role = "r-disc" if pair == "drive" else "r-hand"
    canvas.path([ring, apex, anchor], role)
    for p in (ring, apex, anchor):
        canvas.circle(*p, 5, f"{role} fill")
    text_role = "t-disc" if pair == "drive" else "t-hand"
    canvas.text(min(apex[0] + 12, 330), apex[1] + 4, degrees_text(now.included, 0), f"t t-halo {text_role}",
                "start" if apex[0] < 285 else "end")  # fmt: skip
    rings = "rotating ring" if pair == "drive" else "stationary ring"
    canvas.text(ring[0] - 8, ring[1] + 20, rings, "t t-small t-halo t-plate", "end")
    where = "collar on the mast" if pair == "drive" else "gearbox"
    canvas.text(anchor[0] + 10, anchor[1] + (-10 if pair == "drive" else 20), where, "t t-small t-halo", "start")
    return Drawing(
        canvas.svg(),
        f"The {pair} scissors in their own plane: two arms between the {rings} and the {where}, folded to {degrees_text(now.included)}; "
        f"{degrees_text(now.reserve)} are left before they would be straight.",
    )
