"""Lever -> valve -> actuator -> ring with the figures of one head."""

from ..fields import Drawing
from ..rotor import Rotor
from .canvas import Canvas


def boost_chain(rotor: Rotor, hand: str, capability: str, asked: str, wants: str) -> Drawing:
    """The chain drawn as boxes and arrows; without actuators the rod goes straight through."""
    canvas = Canvas(340, 250, "boost")
    canvas.line(24, 222, 64, 108, "r-hand")
    canvas.circle(35, 190, 5, "r-structure mark")
    canvas.text(24, 242, "lever", "t t-small t-hand", "start")
    canvas.text(16, 92, f"hand: {hand}", "t t-small t-halo t-hand", "start")
    canvas.arrow(64, 108, 116, 108, "r-hand")
    if capability:
        canvas.rect(118, 92, 52, 32, "r-structure")
        for x in (126, 140, 154):
            canvas.rect(x, 101, 7, 14, "r-hand fill")
        canvas.text(144, 140, "valve", "t t-small")
        canvas.line(144, 146, 144, 178, "r-structure thin")
        canvas.rect(118, 178, 52, 54, "r-structure")
        canvas.line(144, 202, 144, 246, "r-structure mast")
        canvas.rect(121, 198, 46, 8, "r-structure fill")
        canvas.text(178, 200, "actuator can push", "t t-small", "start")
        canvas.text(178, 217, capability, "t t-strong", "start")
    else:
        canvas.line(116, 108, 170, 108, "r-hand")
        canvas.text(120, 140, "no help: the hand", "t t-small", "start")
        canvas.text(120, 156, "moves the rod itself", "t t-small", "start")
    canvas.line(170, 108, 236, 108, "r-hand")
    canvas.arrow(236, 108, 236, 62, "r-hand")
    canvas.path([(180, 44), (326, 44), (326, 54), (180, 54)], "r-plate thin", close=True)
    canvas.text(253, 34, "stationary ring", "t t-small t-plate")
    canvas.text(246, 92, "worst rod asks", "t t-small", "start")
    canvas.text(246, 109, asked, "t t-strong t-hand", "start")
    canvas.text(178, 166, f"lever wants to go {wants}", "t t-small t-hand", "start")
    helped = f"each actuator can push {capability}" if capability else "there is no hydraulic help"
    return Drawing(
        canvas.svg(),
        f"From lever to ring: the hand feels {hand}; {helped}; the worst rod asks {asked}. The lever wants to go {wants}.",
    )
