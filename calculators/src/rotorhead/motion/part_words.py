"""The parts tour: what each part does, what it touches, what would be without it."""

from typing import Final

# By part: what it does, what it touches, without it.
WORDS: Final[dict[str, tuple[str, str, str]]] = {
    "stationary-ring": (
        "Takes the hands' wish as one height and one tilt; slides and tilts, but never turns.",
        "The rods below, the spherical bearing inside, the main bearing above, the stationary scissors at its rim.",
        "The rods would have to push on something that turns.",
    ),
    "rotating-ring": (
        "Carries height and tilt round with the blades: its rim rises and sinks once each turn.",
        "The main bearing below, one link for each blade, the drive scissors.",
        "Nothing that turns would know where the plate stands.",
    ),
    "bearing": (
        "Lets the plate tilt any way and slide along the mast, and holds it in the middle.",
        "A sleeve that slides along the mast, and the stationary ring round it.",
        "The plate would have no centre to tilt about: rods alone would let it wander sideways.",
    ),
    "main-bearing": (
        "Passes height and tilt from the ring that stays to the ring that turns, and nothing of the turning.",
        "Both rings.",
        "The rings would rub, or turn together and tear at the rods.",
    ),
    "rods": (
        "Set the plate: three heights make one plane.",
        "The stationary ring above; below, the hands' linkage or an actuator.",
        "With two rods the plate could still rock about the line between them.",
    ),
    "actuators": (
        "Do the work at the foot of each rod; the hands move only their valves.",
        "The rods above, the airframe below, the hands' linkage at the valve.",
        "On a small head the hands move the rods themselves; on a large one the forces would be too much.",
    ),
    "stationary-scissors": (
        "Keep the stationary ring from being dragged round, and let it rise and tilt.",
        "The gearbox below, the stationary ring above.",
        "Bearing friction would pull the ring round until the rods leaned, and the low point would move with it.",
    ),
    "drive-scissors": (
        "Turn the rotating ring with the mast, and let it rise and tilt.",
        "A collar on the mast above, the rotating ring below.",
        "The links would have to drag the ring round; they would lean, and every pitch would be wrong.",
    ),
    "links": (
        "Carry the height of their place on the ring to the horn, one for each blade.",
        "The rotating ring below, a horn above, a ball joint at each end.",
        "That blade would turn about its axis as the air pleased.",
    ),
    "horns": (
        "Turn the link's up and down into pitch: the arm sets how many degrees a millimetre gives.",
        "The link's upper end and the grip.",
        "A link could push at the blade, but not turn it.",
    ),
    "grips": (
        "Hold the blade against its pull, let it feather, and let it flap.",
        "The hub inside, the blade outside, the horn at its side.",
        "A blade fixed to the hub could neither feather nor flap.",
    ),
    "blades": (
        "Answer pitch with lift, and lift with flapping; together they are the disc. Only their roots are drawn.",
        "The grips.",
        "No lift.",
    ),
    "mast": (
        "Turns everything above the main bearing, and is the line the plate slides along.",
        "The gearbox below, the hub above, the collar of the drive scissors.",
        "Nothing would turn.",
    ),
    "dampers": (
        "Calm a blade's swing forward and back on heads with a hinge for it.",
        "The grip and the hub, or the next blade.",
        "Swinging blades could set the whole machine rocking on the ground.",
    ),
    "stops": (
        "End the travel of lever, stick, plate and blade, each at its own place.",
        "Whatever reaches them first.",
        "The weakest joint would be the stop.",
    ),
}
