"""The directions a head is looked at from: one table for the drawn and for the solid view."""

import math
from dataclasses import dataclass
from typing import Final

from ..mechanism.plate import Vector


@dataclass(frozen=True, slots=True)
class View:
    """`bearing`: where the eye stands, degrees clockwise from the nose; `elevation`: degrees above the level."""

    words: str
    bearing: float
    elevation: float

    def axes(self) -> tuple[Vector, Vector, Vector]:
        """Unit vectors in the view's frame (x right of the machine, y nose, z up): to the right and up on the page, and
        toward the eye."""
        b, e = math.radians(self.bearing), math.radians(self.elevation)
        eye = (math.sin(b) * math.cos(e), math.cos(b) * math.cos(e), math.sin(e))
        right = (-math.cos(b), math.sin(b), 0.0)
        up = (
            eye[1] * right[2] - eye[2] * right[1],
            eye[2] * right[0] - eye[0] * right[2],
            eye[0] * right[1] - eye[1] * right[0],
        )
        return right, up, eye


VIEWS: Final[dict[str, View]] = {
    "corner": View("from behind, on the right, a little above", 150.0, 24.0),
    "above": View("from above, nose up the page", 180.0, 90.0),
    "side": View("from the right side", 90.0, 4.0),
    "behind": View("from behind", 180.0, 4.0),
    "pilot": View("as the pilot faces: from behind and below", 180.0, -24.0),
}
