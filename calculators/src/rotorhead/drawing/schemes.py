"""Schematic drawings that are the same for every head: hydraulic help, scissors, disc and blade."""

import math

from ..blade.flap import flapping_of
from ..conventions import degrees_text
from ..fields import Drawing
from ..rotor import Rotor
from .canvas import Canvas


def hydraulic_chain(rotor: Rotor) -> Drawing:
    """Lever -> valve -> actuator -> stationary ring, and the feedback that closes the valve again."""
    canvas = Canvas(340, 300, "hydraulics")
    # The lever about its pivot.
    canvas.line(30, 270, 96, 120, "r-hand")
    canvas.circle(48, 229, 5, "r-structure")
    canvas.text(30, 290, "lever or stick", "t t-small t-hand", "start")
    canvas.text(60, 233, "pivot", "t t-small", "start")
    # The input rod to the valve spool.
    canvas.arrow(96, 120, 150, 120, "r-hand")
    canvas.text(98, 104, "input", "t t-small t-hand", "start")
    canvas.rect(152, 100, 74, 40, "r-structure")
    canvas.line(158, 120, 220, 120, "r-hand")
    for x in (166, 186, 206):
        canvas.rect(x, 112, 8, 16, "r-hand fill")
    canvas.text(189, 90, "valve", "t")
    # The actuator: body moves with the ring, the piston rod is fixed to the airframe.
    canvas.rect(166, 170, 46, 84, "r-structure")
    canvas.line(189, 206, 189, 286, "r-structure mast")
    canvas.rect(169, 200, 40, 10, "r-structure fill")
    canvas.text(222, 216, "actuator", "t", "start")
    canvas.text(222, 232, "piston fixed below,", "t t-small", "start")
    canvas.text(222, 247, "body moves", "t t-small", "start")
    canvas.line(176, 140, 176, 170, "r-plate")
    canvas.line(202, 140, 202, 170, "r-plate")
    # The rod up to the ring.
    canvas.line(226, 120, 262, 120, "r-hand")
    canvas.arrow(262, 120, 262, 58, "r-hand")
    canvas.line(206, 50, 318, 50, "r-plate wide")
    canvas.text(262, 36, "stationary ring", "t t-small t-plate")
    canvas.text(270, 96, "rod", "t t-small t-hand", "start")
    # Supply and return.
    canvas.line(166, 100, 166, 66, "r-structure thin")
    canvas.line(212, 100, 212, 76, "r-structure thin")
    canvas.text(150, 60, "pressure", "t t-small", "middle")
    canvas.text(218, 84, "return", "t t-small", "start")
    number = int(rotor.head["actuators"])
    has = (
        f"{number} actuators of this kind stand under the ring."
        if number
        else "This head has none: the hand moves the rod itself."
    )
    return Drawing(
        canvas.svg(),
        "From lever to ring with hydraulic help: the hand moves only the valve; pressure moves the actuator's body, with it the "
        "rod and the ring, until the valve is closed again. " + has,
    )


def scissors(rotor: Rotor) -> Drawing:
    """Both scissors from the side: one pair holds the stationary ring, one turns the rotating ring."""
    canvas = Canvas(340, 270, "scissors")
    canvas.line(170, 14, 170, 256, "r-structure mast")
    canvas.text(178, 26, "mast (turns)", "t t-small", "start")
    canvas.path([(70, 146), (270, 122), (270, 130), (70, 154)], "r-plate thin", close=True)
    canvas.hatch([((70 + 8 * i, 154 - 0.96 * i), (74 + 8 * i, 146 - 0.96 * i)) for i in range(25)])
    canvas.path([(74, 160), (274, 136), (274, 144), (74, 168)], "r-plate thin", close=True)
    canvas.circle(170, 146, 8, "r-structure")
    canvas.text(20, 140, "rotating", "t t-small t-plate", "start")
    canvas.text(20, 176, "stationary", "t t-small t-plate", "start")
    # Drive scissors above, from a collar on the mast to the rotating ring.
    canvas.path([(178, 60), (252, 78), (262, 127)], "r-disc")
    for x, y in ((178, 60), (252, 78), (262, 127)):
        canvas.circle(x, y, 4, "r-disc fill")
    canvas.rect(160, 50, 20, 20, "r-disc")
    canvas.text(334, 66, "drive scissors", "t t-small t-disc", "end")
    canvas.text(334, 100, "(turn)", "t t-small t-disc", "end")
    # Stationary scissors below, from the gearbox to the stationary ring.
    canvas.path([(160, 236), (96, 216), (84, 165)], "r-hand")
    for x, y in ((160, 236), (96, 216), (84, 165)):
        canvas.circle(x, y, 4, "r-hand fill")
    canvas.rect(146, 228, 48, 20, "r-structure")
    canvas.text(200, 243, "gearbox (stays)", "t t-small", "start")
    canvas.text(20, 216, "stationary", "t t-small t-hand", "start")
    canvas.text(20, 231, "scissors (stay)", "t t-small t-hand", "start")
    return Drawing(
        canvas.svg(),
        "The two scissors seen from the side: the drive scissors, above, fold between a collar on the mast and the rotating ring "
        "and turn it; the stationary scissors, below, fold between the gearbox and the stationary ring and keep it from turning.",
    )


def precession_compared(rate: float, time: float, settle: float, tilt: float, lag: float) -> Drawing:
    """Tilt against time: a free disc under a steady push (rad/s), and a blade that settles (s, rad)."""
    canvas = Canvas(340, 250, "precession")
    for left, title in ((24, "free spinning disc"), (194, "flapping blade")):
        canvas.line(left, 190, left + 130, 190, "r-structure")
        canvas.line(left, 190, left, 46, "r-structure")
        canvas.text(left + 65, 24, title, "t")
        canvas.text(left + 6, 58, "tilt", "t t-small", "start")
    canvas.path([(24, 190), (146, 72)], "r-hand")
    canvas.text(150, 62, degrees_text(rate * time, 2), "t t-small t-halo t-hand", "end")
    canvas.text(154, 206, f"{time:.1f} s", "t t-small", "end")
    canvas.text(89, 228, "goes on while pushed,", "t t-small t-hand")
    canvas.text(89, 244, "90° on", "t t-small t-hand")
    span = 6.0 * settle
    canvas.path([(194 + 1.26 * i, 190 - 92 * (1 - math.exp(-i / 100 * span / settle))) for i in range(101)], "r-disc")
    canvas.text(320, 88, f"{degrees_text(tilt, 2)} a degree", "t t-small t-halo t-disc", "end")
    canvas.text(324, 206, f"{span:.2f} s", "t t-small", "end")
    canvas.text(259, 228, "settles and stays,", "t t-small t-disc")
    canvas.text(259, 244, f"{degrees_text(lag)} on", "t t-small t-disc")
    return Drawing(
        canvas.svg(),
        f"Tilt against time. A free spinning disc under a steady push goes on tilting, {degrees_text(rate * time, 2)} in {time:.1f} s; "
        f"a flapping blade settles at a steady tilt, most of it within {settle:.2f} s.",
    )


def precession(rotor: Rotor) -> Drawing:
    """The same comparison with round figures for the disc and this head's blade."""
    f = flapping_of(rotor)
    return precession_compared(0.01, 1.0, f.settle_63 / rotor.speed, f.gain * math.radians(1.0), f.lag)


def flattening(rotor: Rotor) -> Drawing:
    """Why a turning blade wants to lie flat: its front and rear strips pulled outward, seen from the tip."""
    canvas = Canvas(340, 230, "flattening")
    way = -1.0  # the leading edge is drawn to the left
    cx, cy, chord, tilt = 170.0, 112.0, 108.0, math.radians(20.0)
    front = (cx + way * chord * math.cos(tilt), cy - chord * math.sin(tilt))
    rear = (cx - way * chord * math.cos(tilt), cy + chord * math.sin(tilt))
    canvas.line(22, cy, 318, cy, "r-faint")
    canvas.text(318, cy - 6, "plane of turning", "t t-small", "end")
    canvas.line(*front, *rear, "r-pitch")
    canvas.circle(cx, cy, 5, "r-structure mark")
    canvas.text(cx - 8, cy + 22, "feathering axis", "t t-small t-halo", "end")
    for (x, y), name, side in ((front, "front strip", "start"), (rear, "rear strip", "end")):
        canvas.circle(x, y, 7, "r-hand fill")
        out = -1.0 if x < cx else 1.0
        canvas.arrow(x, y, x + out * 34, y, "r-hand")
        canvas.text(x + (-30 if side == "start" else 30), y + (-14 if y < cy else 24), name, "t t-small t-hand", side)
    canvas.arrow(front[0] + 16, front[1] + 4, front[0] + 16, cy - 4, "r-disc")
    canvas.arrow(rear[0] - 16, rear[1] - 4, rear[0] - 16, cy + 4, "r-disc")
    canvas.text(cx, 212, "pulled apart along the chord: the pair turns it flat", "t t-small")
    return Drawing(
        canvas.svg(),
        "A blade seen from its tip at a pitch, leading edge to the left: the pull on the front strip has a part along the chord forward, on the "
        "rear strip one backward. The front strip is high, the rear one low, so together they turn the blade toward flat.",
    )
