"""Where a question's stick is held, in words and as inputs; left and right through `conventions` only."""

import math
from dataclasses import dataclass

from ...conventions import HALF_TURN, after_side, bearing_before_nose, before_side
from ..model import Setting
from .wording import text_of


@dataclass(frozen=True)
class Stick:
    """A stick held some way off its middle. `bearing`: where it points, rad. Shares of full stick, −1 to 1."""

    way: str
    bearing: float
    forward: float
    left: float

    @property
    def words(self) -> str:
        """'30% forward'."""
        return f"{100.0 * max(abs(self.forward), abs(self.left)):.0f}% {self.way}"

    @property
    def inputs(self) -> dict[str, str]:
        """As the calculators take it."""
        return {"stick_forward": text_of(100.0 * self.forward), "stick_left": text_of(100.0 * self.left)}


def stick(
    setting: Setting, percents: tuple[int, ...], which: tuple[str, ...] = ("forward", "back", "before", "after")
) -> Stick:
    """A drawn stick. Its sides are drawn as before and after the nose, so that a mirrored head gets the mirrored question."""
    share, way = setting.draw.among(percents) / 100.0, setting.draw.among(which)
    return held(setting, way, share)


def held(setting: Setting, way: str, share: float) -> Stick:
    """The stick held `share` of its travel forward, back, or to the side before or after the nose."""
    rotation = setting.rotor.rotation
    if way == "forward":
        return Stick("forward", 0.0, share, 0.0)
    if way == "back":
        return Stick("back", HALF_TURN, -share, 0.0)
    side = before_side(rotation) if way == "before" else after_side(rotation)
    quarter = HALF_TURN / 2.0 if way == "before" else -HALF_TURN / 2.0
    return Stick(f"to the {side}", bearing_before_nose(quarter, rotation), 0.0, share if side == "left" else -share)


def degrees(angle: float) -> str:
    """Radians as degrees to type, without a long tail."""
    return text_of(round(math.degrees(angle), 3))
