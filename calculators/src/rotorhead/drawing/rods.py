"""What each rod does: bars up and down from where the rods stand with stick and lever at rest."""

from collections.abc import Sequence

from ..conventions import degrees_text
from ..fields import Drawing
from ..rotor import Rotor
from ..units import System, show
from .canvas import Canvas
from .disc import stick_and_lever


def rod_moves(
    rotor: Rotor, moves: Sequence[float], lever: float, forward: float, left: float, system: System
) -> Drawing:
    """A column a rod: how far up or down (m) from lever half up, stick centred; the hands beside."""
    canvas = Canvas(340, 352, "rods")
    n = len(moves)
    reach = max(max(rotor.rod_strokes) / 2.0, max(abs(m) for m in moves), 1e-6)
    base, half = 116.0, 84.0
    width = 320.0 / n
    canvas.line(10, base, 330, base, "r-structure")
    canvas.text(12, base - 5, "at rest", "t t-small", "start")
    texts = []
    for i, move in enumerate(moves):
        x = 10 + width * (i + 0.5) + (10 if n > 3 else 16)
        canvas.rect(x - 14, base - half, 28, 2 * half, "r-faint")
        tip = base - half * move / reach
        if abs(tip - base) > 2:
            canvas.arrow(x, base, x, tip, "r-hand", head=min(10.0, abs(tip - base) * 0.6))
        canvas.rect(x - 5, tip - 5, 10, 10, "r-hand fill")
        bearing = rotor.head.rods[i].bearing_deg
        canvas.text(x, base + half + 16, f"R{i + 1} at {bearing:.0f}°", "t t-small")
        way = "up" if move > 5e-5 else "down" if move < -5e-5 else "stays"
        size = show("small_length", abs(move), system)
        label = way if way == "stays" else f"{way} {size}"
        canvas.text(x, base + half + 33, label, "t t-small t-hand t-strong")
        texts.append(
            f"rod {i + 1} at {degrees_text(rotor.head.rods[i].bearing_deg * 0.017453292519943295, 0)}: {label}"
        )
    stick_and_lever(canvas, 130, 306, lever, forward, left)
    return Drawing(canvas.svg(), "Rod moves from rest: " + "; ".join(texts) + ".")
