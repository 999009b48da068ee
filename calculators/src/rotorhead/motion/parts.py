"""The parts of a head, one by one: what each does, what it touches, what would be without it, its page."""

from dataclasses import dataclass
from typing import Final


@dataclass(frozen=True, slots=True)
class Part:
    """A part as the tour tells it. `turns`: goes round with the rotor. `shown`: stands in the moving view."""

    id: str
    label: str
    page: str
    turns: bool
    does: str
    touches: str
    without: str
    shown: bool = True


PARTS: Final = (
    Part("stationary-ring", "stationary ring", "parts/stationary-ring.md", False,
         "Takes the hands' wish as one height and one tilt; slides and tilts, but never turns.",
         "The rods below, the spherical bearing inside, the main bearing above, the stationary scissors at its rim.",
         "The rods would have to push on something that turns."),
    Part("rotating-ring", "rotating ring", "parts/rotating-ring.md", True,
         "Carries height and tilt round with the blades: its rim rises and sinks once each turn.",
         "The main bearing below, one link for each blade, the drive scissors.",
         "Nothing that turns would know where the plate stands."),
    Part("bearing", "spherical bearing", "parts/spherical-bearing.md", False,
         "Lets the plate tilt any way and slide along the mast, and holds it in the middle.",
         "A sleeve that slides along the mast, and the stationary ring round it.",
         "The plate would have no centre to tilt about: rods alone would let it wander sideways."),
    Part("main-bearing", "main bearing", "parts/main-bearing.md", True,
         "Passes height and tilt from the ring that stays to the ring that turns, and nothing of the turning.",
         "Both rings.",
         "The rings would rub, or turn together and tear at the rods."),
    Part("rods", "rods", "parts/rods.md", False,
         "Set the plate: three heights make one plane.",
         "The stationary ring above; below, the hands' linkage or an actuator.",
         "With two rods the plate could still rock about the line between them."),
    Part("actuators", "actuators", "parts/actuators.md", False,
         "Do the work at the foot of each rod; the hands move only their valves.",
         "The rods above, the airframe below, the hands' linkage at the valve.",
         "On a small head the hands move the rods themselves; on a large one the forces would be too much."),
    Part("stationary-scissors", "stationary scissors", "parts/stationary-scissors.md", False,
         "Keep the stationary ring from being dragged round, and let it rise and tilt.",
         "The gearbox below, the stationary ring above.",
         "Bearing friction would pull the ring round until the rods leaned, and the low point would move with it."),
    Part("drive-scissors", "drive scissors", "parts/drive-scissors.md", True,
         "Turn the rotating ring with the mast, and let it rise and tilt.",
         "A collar on the mast above, the rotating ring below.",
         "The links would have to drag the ring round; they would lean, and every pitch would be wrong."),
    Part("links", "pitch links", "parts/links.md", True,
         "Carry the height of their place on the ring to the horn, one for each blade.",
         "The rotating ring below, a horn above, a ball joint at each end.",
         "That blade would turn about its axis as the air pleased."),
    Part("horns", "horns", "parts/horns.md", True,
         "Turn the link's up and down into pitch: the arm sets how many degrees a millimetre gives.",
         "The link's upper end and the grip.",
         "A link could push at the blade, but not turn it."),
    Part("grips", "hinges and grips", "parts/hinges-and-grips.md", True,
         "Hold the blade against its pull, let it feather, and let it flap.",
         "The hub inside, the blade outside, the horn at its side.",
         "A blade fixed to the hub could neither feather nor flap."),
    Part("blades", "blades", "principles/disc-tilt.md", True,
         "Answer pitch with lift, and lift with flapping; together they are the disc. Only their roots are drawn.",
         "The grips.",
         "No lift."),
    Part("mast", "mast", "parts/swashplate.md", True,
         "Turns everything above the main bearing, and is the line the plate slides along.",
         "The gearbox below, the hub above, the collar of the drive scissors.",
         "Nothing would turn."),
    Part("dampers", "dampers", "parts/dampers.md", True,
         "Calm a blade's swing forward and back on heads with a hinge for it.",
         "The grip and the hub, or the next blade.",
         "Swinging blades could set the whole machine rocking on the ground.", shown=False),
    Part("stops", "stops", "parts/stops.md", False,
         "End the travel of lever, stick, plate and blade, each at its own place.",
         "Whatever reaches them first.",
         "The weakest joint would be the stop.", shown=False),
)  # fmt: skip

BY_ID: Final[dict[str, Part]] = {part.id: part for part in PARTS}
