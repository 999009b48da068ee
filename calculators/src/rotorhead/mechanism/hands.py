"""From the hands to the rods: lever and stick -> plate -> rod heights.

Lever: 0 (down) to 1 (up). Stick forward and stick left: −1 to 1. The plate's height runs evenly
with the lever between the heights that give the head's least and greatest collective; its slope runs
evenly with the stick, so that full stick gives the head's cyclic pitch at mid collective.
"""

import math
from functools import lru_cache

from ..conventions import HALF_TURN, azimuth_of
from ..rotor import Rotor
from .links import _does_not_close, harmonics, pitch_round
from .plate import Pose, pose_from_tilt, rod_heights


def height_for_pitch(rotor: Rotor, pitch: float) -> float:
    """Exact height of a level plate (m) that gives a collective pitch (rad), blade not flapped."""
    eta = pitch - rotor.pitch_level
    out = rotor.horn_station - rotor.link_foot_out
    ahead = rotor.arm * math.cos(eta) - rotor.link_foot_ahead
    left = rotor.link**2 - out * out - ahead * ahead
    if left <= 0.0:
        raise _does_not_close(rotor)
    return rotor.arm * math.sin(eta) - math.sqrt(left) + rotor.link_rise


def tilt_for_cyclic(rotor: Rotor, amplitude: float, low_azimuth: float) -> float:
    """Plate tilt (rad) that gives a first-harmonic pitch amplitude (rad) at plate height 0; secant."""

    def reached(slope: float) -> float:
        pose = pose_from_tilt(0.0, math.atan(slope), low_azimuth)
        return harmonics(pitch_round(rotor, pose, 36)).amplitude - amplitude

    a = math.tan(amplitude) * abs(rotor.arm) / rotor.ring_radius
    b = a * 0.98
    fa, fb = reached(a), reached(b)
    for _ in range(12):
        if abs(fb) < 1e-10 or fa == fb:
            break
        a, b, fa = b, b - fb * (b - a) / (fb - fa), fb
        fb = reached(b)
    return math.atan(b)


class Rig:
    """How far the hands move the plate on one head. Built once per head by `rig_of`."""

    __slots__ = ("fore_aft", "left_right", "lever_high", "lever_low", "rotor")

    def __init__(self, rotor: Rotor) -> None:
        head = rotor.head
        self.rotor = rotor
        self.lever_low = height_for_pitch(rotor, math.radians(head["collective_low_deg"]))
        self.lever_high = height_for_pitch(rotor, math.radians(head["collective_high_deg"]))
        self.fore_aft = tilt_for_cyclic(rotor, math.radians(head["cyclic_fore_aft_deg"]), self.forward_azimuth)
        self.left_right = tilt_for_cyclic(rotor, math.radians(head["cyclic_left_right_deg"]), self.left_azimuth)

    @property
    def forward_azimuth(self) -> float:
        """Azimuth of the plate's low point with the stick forward."""
        return azimuth_of(self.rotor.forward_low_bearing, self.rotor.rotation)

    @property
    def left_azimuth(self) -> float:
        """Azimuth of the plate's low point with the stick left: the same, a right angle to the left."""
        return azimuth_of(self.rotor.forward_low_bearing - HALF_TURN / 2.0, self.rotor.rotation)

    def height(self, lever: float) -> float:
        """Plate height (m) for a lever position 0 to 1."""
        return self.lever_low + lever * (self.lever_high - self.lever_low)

    def pose(self, lever: float, forward: float, left: float) -> Pose:
        """Lever (0 to 1) and stick (−1 to 1 each) -> pose of the plate."""
        f = -math.tan(self.fore_aft) * forward
        g = -math.tan(self.left_right) * left
        cf, sf = math.cos(self.forward_azimuth), math.sin(self.forward_azimuth)
        cl, sl = math.cos(self.left_azimuth), math.sin(self.left_azimuth)
        return Pose(self.height(lever), f * cf + g * cl, f * sf + g * sl)

    def heights(self, pose: Pose) -> tuple[float, ...]:
        """Exact rod heights (m) for a pose."""
        r = self.rotor
        return rod_heights(pose, r.rod_azimuths, r.rod_radius, r.stationary_scissors)

    def matrix(self) -> tuple[tuple[float, float, float], ...]:
        """First-order rod moves (m) for lever bottom to top, full stick forward, full stick left."""
        rows = []
        for x in self.rotor.rod_azimuths:
            fore = -math.tan(self.fore_aft) * math.cos(x - self.forward_azimuth)
            side = -math.tan(self.left_right) * math.cos(x - self.left_azimuth)
            rows.append((
                self.lever_high - self.lever_low, self.rotor.rod_radius * fore, self.rotor.rod_radius * side,
            ))  # fmt: skip
        return tuple(rows)

    def stroke_needed(self) -> tuple[float, ...]:
        """Travel (m) each rod needs for the whole collective with the stick anywhere in its round stop."""
        return tuple(abs(c) + 2.0 * math.hypot(f, s) for c, f, s in self.matrix())


def cyclic_of_stick(rotor: Rotor) -> tuple[tuple[float, float], tuple[float, float]]:
    """First-order commanded cyclic pitch (cosine, sine; rad) for full stick forward, and for full stick right.

    θ(ψ) = −slope·(r/a)·cos(ψ + Δ − low): link's foot on the ring at r, lead Δ, horn arm a.
    """
    rig, gain = rig_of(rotor), rotor.ring_radius / rotor.arm

    def column(tilt: float, low: float) -> tuple[float, float]:
        size, phase = -math.tan(tilt) * gain, low - rotor.lead
        return size * math.cos(phase), size * math.sin(phase)

    return column(rig.fore_aft, rig.forward_azimuth), column(rig.left_right, rig.left_azimuth + HALF_TURN)


def stick_for(rotor: Rotor, cosine: float, sine: float) -> tuple[float, float]:
    """Stick (forward, right; 1 = full) whose first-order cyclic pitch is this (rad): the matrix above turned round."""
    (fc, fs), (rc, rs) = cyclic_of_stick(rotor)
    size = fc * rs - rc * fs
    return (cosine * rs - rc * sine) / size, (fc * sine - cosine * fs) / size


def lever_for(rotor: Rotor, pitch: float) -> float:
    """Lever (0 down, 1 up) that asks for a collective pitch (rad); outside 0 to 1 it is beyond its travel."""
    rig = rig_of(rotor)
    return (height_for_pitch(rotor, pitch) - rig.lever_low) / (rig.lever_high - rig.lever_low)


@lru_cache(maxsize=64)
def rig_of(rotor: Rotor) -> Rig:
    """The rig of a head, computed once."""
    return Rig(rotor)
