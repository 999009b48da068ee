"""The two scissors: how far they fold and open, and what their play does.

Both are two arms hinged at an apex. The drive scissors fold between a collar on the mast and the
rotating ring, the stationary scissors between the gearbox and the stationary ring. Each holds its
ring point in a vertical plane through the mast, so the fold is a triangle in that plane.
"""

import math
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

from ..conventions import TURN
from ..faults import refuse
from ..rotor import Rotor
from .hands import rig_of
from .links import feet_in_blade_frames, horn_angle
from .plate import Pose, ring_axes

Pair = Literal["drive", "stationary"]
Flat = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Fold:
    """One position of a pair of scissors in its own vertical plane: (out from the mast, up), metres.

    included: angle between the arms at the apex, rad. reserve: what is left before they are straight.
    """

    ring: Flat
    apex: Flat
    anchor: Flat
    included: float

    @property
    def reserve(self) -> float:
        """Angle left before the arms are in line, rad; at zero the pair no longer holds the ring."""
        return math.pi - self.included


def arms(rotor: Rotor, pair: Pair) -> tuple[float, float, Flat]:
    """Arm at the ring, arm at the anchor, and the anchor's place in the plane (m)."""
    head = rotor.head
    k = f"{pair}_scissors_"
    height = head[f"{pair}_scissors_height_mm"] / 1000.0
    anchor = (head[k + "anchor_mm"] / 1000.0, height if pair == "drive" else -height)
    return head[k + "ring_arm_mm"] / 1000.0, head[k + "anchor_arm_mm"] / 1000.0, anchor


def fold(rotor: Rotor, pose: Pose, pair: Pair, mast: float = 0.0) -> Fold:
    """Exact fold of a pair for a pose; `mast` is the azimuth of blade 1 (drive scissors only).

    Law of cosines with the distance d from ring point to anchor:
    cos(included) = (a² + b² − d²)/(2ab). Raises `Refused` when the arms don't reach.
    """
    guide = mast + rotor.drive_scissors if pair == "drive" else rotor.stationary_scissors
    radius = rotor.ring_radius if pair == "drive" else rotor.rod_radius
    d, _ = ring_axes(pose, guide)
    ring = (radius * math.hypot(d[0], d[1]), pose.height + radius * d[2])
    a, b, anchor = arms(rotor, pair)
    across, up = anchor[0] - ring[0], anchor[1] - ring[1]
    distance = math.hypot(across, up)
    cosine = (a * a + b * b - distance * distance) / (2.0 * a * b)
    if not -1.0 <= cosine <= 1.0:
        word = "long" if cosine > 1.0 else "short"
        raise refuse(
            f"{pair}_scissors_ring_arm_mm",
            f"The {pair} scissors' arms ({a * 1000:.0f} and {b * 1000:.0f} mm) are too {word} for a distance of "
            f"{distance * 1000:.0f} mm between the ring and where they are hinged.",
            head=True,
        )
    # The apex stands on the outer side of the line from ring to anchor.
    along = (a * a - b * b + distance * distance) / (2.0 * distance)
    aside = math.sqrt(max(0.0, a * a - along * along))
    ux, uz = across / distance, up / distance
    sign = 1.0 if uz >= 0.0 else -1.0
    apex = (ring[0] + along * ux + sign * aside * uz, ring[1] + along * uz - sign * aside * ux)
    return Fold(ring, apex, anchor, math.acos(cosine))


@dataclass(frozen=True, slots=True)
class FoldRange:
    """Least and greatest included angle of a pair over the whole range of lever and stick, rad."""

    least: float
    greatest: float

    @property
    def reserve(self) -> float:
        """Least angle left before straight, rad."""
        return math.pi - self.greatest


def _steepest(rotor: Rotor, pair: Pair) -> float:
    """Greatest slope of the plate toward a pair's ring point, stick anywhere in its round stop, rotor turned anywhere.

    At a guide azimuth the slope is F·forward + L·left: greatest along (F, L), where it is √(F² + L²).
    """
    rig = rig_of(rotor)
    fore, side = math.tan(rig.fore_aft), math.tan(rig.left_right)
    if pair == "drive":
        return max(fore, side)
    guide = rotor.stationary_scissors
    return math.hypot(fore * math.cos(guide - rig.forward_azimuth), side * math.cos(guide - rig.left_azimuth))


@lru_cache(maxsize=32)
def fold_range(rotor: Rotor, pair: Pair) -> FoldRange:
    """A fold depends on the plate's height and its slope toward the ring point only: lever in 5 steps, slope in 25."""
    rig, most = rig_of(rotor), _steepest(rotor, pair)
    guide = rotor.drive_scissors if pair == "drive" else rotor.stationary_scissors
    c, s = math.cos(guide), math.sin(guide)
    slopes = [most * (i - 12) / 12.0 for i in range(25)]
    heights = [rig.height(i / 4.0) for i in range(5)]
    angles = [fold(rotor, Pose(z, m * c, m * s), pair).included for z in heights for m in slopes]
    return FoldRange(min(angles), max(angles))


def play_azimuth(play: float, radius: float) -> float:
    """Free play at the ring (m, end to end) -> azimuth the ring can turn by itself, rad: play/radius."""
    return play / radius


def play_pitch(play: float, radius: float, cyclic: float) -> float:
    """Pitch error (rad) from turning the ring by its play with a cyclic amplitude (rad): cyclic · sin(turn).

    That is what the wave is late or early by. Left out: a link that leans sideways (along the ring) stands up or leans
    over as its foot is turned, which gives every blade, level plate or not, lean · play/arm of collective besides.
    """
    return cyclic * math.sin(play_azimuth(play, radius))


def play_exact(rotor: Rotor, play: float) -> tuple[float, float]:
    """Play at the rotating ring (m, end to end) -> pitch it takes or gives every blade on a level plate, and the
    greatest change of a blade's pitch anywhere round the turn with full forward stick (rad, both as sizes).

    The links closed exactly with the ring in its place and turned back by play/radius. A level ring looks the same
    however it is turned, but links that lean along it then lean more or less: that is the first figure.
    """
    behind = play_azimuth(play, rotor.ring_radius)

    def pitch(pose: Pose, mast: float, back: float) -> float:
        return horn_angle(rotor, feet_in_blade_frames(rotor, pose, mast, (0,), back)[0])

    level, full = rig_of(rotor).pose(0.5, 0.0, 0.0), rig_of(rotor).pose(0.5, 1.0, 0.0)
    turns = [i * TURN / 24 for i in range(24)]
    most = max(abs(pitch(full, mast, behind) - pitch(full, mast, 0.0)) for mast in turns)
    return abs(pitch(level, 0.0, behind) - pitch(level, 0.0, 0.0)), most
