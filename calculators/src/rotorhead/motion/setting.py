"""What the moving view is asked to show: hands, blades, what is taken apart, and how far tilts are stretched."""

from dataclasses import dataclass, field
from typing import Final, Literal

Kind = Literal[
    "none", "drive_off", "stationary_off", "rod_stopped", "rod_longer", "link_longer", "play_scissors", "play_link"
]

KINDS: Final[tuple[tuple[Kind, str], ...]] = (
    ("none", "nothing: the head as it should be"),
    ("drive_off", "drive scissors disconnected"),
    ("stationary_off", "stationary scissors disconnected"),
    ("rod_stopped", "one rod stopped"),
    ("rod_longer", "one rod longer"),
    ("link_longer", "one link longer"),
    ("play_scissors", "play in the drive scissors"),
    ("play_link", "play in one link"),
)


@dataclass(frozen=True, slots=True)
class WhatIf:
    """One thing that is not as it should be.

    number: the rod or blade it happens to, from 1. amount: an angle (rad) by which a ring stands off its place
    (drive_off: behind, against the rotation; stationary_off: carried on, with it), or a length (m): how much longer,
    or the play from end to end.
    """

    kind: Kind = "none"
    number: int = 1
    amount: float = 0.0


@dataclass(frozen=True, slots=True)
class Setting:
    """Lever 0 to 1, stick forward and left −1 to 1; blades flapping as settled in the hover, or held level.

    stretch: how many times their size tilt, cyclic pitch and flap are drawn; 1 is true. With anything taken apart the
    blades are held level: how such a head would fly is not computed.
    """

    lever: float = 0.5
    forward: float = 0.0
    left: float = 0.0
    flying: bool = True
    stretch: float = 1.0
    what_if: WhatIf = field(default_factory=WhatIf)
