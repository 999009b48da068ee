"""The parts of a head, one by one: names, pages, what turns; the words of the tour stand in `part_words`."""

from dataclasses import dataclass
from typing import Final


@dataclass(frozen=True, slots=True)
class Part:
    """A part as the tour names it. `turns`: goes round with the rotor. `shown`: stands in the moving view."""

    id: str
    label: str
    page: str
    turns: bool
    shown: bool = True


PARTS: Final = (
    Part("stationary-ring", "stationary ring", "parts/stationary-ring.md", False),
    Part("rotating-ring", "rotating ring", "parts/rotating-ring.md", True),
    Part("bearing", "spherical bearing", "parts/spherical-bearing.md", False),
    Part("main-bearing", "main bearing", "parts/main-bearing.md", True),
    Part("rods", "rods", "parts/rods.md", False),
    Part("actuators", "actuators", "parts/actuators.md", False),
    Part("stationary-scissors", "stationary scissors", "parts/stationary-scissors.md", False),
    Part("drive-scissors", "drive scissors", "parts/drive-scissors.md", True),
    Part("links", "pitch links", "parts/links.md", True),
    Part("horns", "horns", "parts/horns.md", True),
    Part("grips", "hinges and grips", "parts/hinges-and-grips.md", True),
    Part("blades", "blades", "principles/disc-tilt.md", True),
    Part("mast", "mast", "parts/swashplate.md", True),
    Part("dampers", "dampers", "parts/dampers.md", True, shown=False),
    Part("stops", "stops", "parts/stops.md", False, shown=False),
)

BY_ID: Final[dict[str, Part]] = {part.id: part for part in PARTS}
