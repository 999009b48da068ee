"""Beliefs about what the disc does to the fuselage: tail rotor and drift, control power, damping."""

from ..model import Belief

DRIFT = "flight/drift-and-tail-rotor.md"
POWER = "flight/control-power.md"
LOW = "flight/low-g.md"
STICK = "stick"
STRENGTH = "control-power"

BELIEFS = (
    Belief(
        "tail-rotor-only-turns",
        "The tail rotor keeps the nose straight and does nothing else.",
        "It pushes at the tail, and what pushes also shoves the whole machine sideways.",
        "Push a chair on wheels at one end, and hold it from turning with a finger.",
        STICK,
        DRIFT,
    ),
    Belief(
        "lean-with-the-drift",
        "The disc leans the way the machine would drift.",
        "That would add to the drift. It leans the other way, and its pull holds against the push.",
        "Draw the push at the tail and the leaning pull, seen from behind.",
        STICK,
        DRIFT,
    ),
    Belief(
        "drift-to-the-retreating-side",
        "The machine drifts to the retreating side, because it lifts less there.",
        "In the hover both sides lift alike. The drift is the tail rotor’s push, towards the advancing side.",
        "Ask which way the fuselage would turn by itself, and which way the tail has to be pushed against that.",
        STICK,
        DRIFT,
    ),
    Belief(
        "torque-is-answered-at-the-tips",
        "The tail rotor’s push is the torque over the rotor’s radius.",
        "It is the torque over the tail rotor’s own distance from the mast, because that is where it pushes.",
        "Push a door open near its hinge and at its handle.",
        STICK,
        DRIFT,
    ),
    Belief(
        "hover-is-upright",
        "In a steady hover the disc is level.",
        "With a tail rotor it leans, so that a part of the pull holds against the push at the tail.",
        "Watch from behind a machine that hovers in still air, from a safe distance.",
        STICK,
        DRIFT,
    ),
    Belief(
        "lean-is-a-share-of-a-right-angle",
        "A push of a tenth of the weight leans the disc by a tenth of a right angle.",
        "A tenth, as an angle, is a tenth of a radian: 5.7° and not 9°.",
        "Draw weight and push to scale and measure the angle.",
        STICK,
        DRIFT,
    ),
    Belief(
        "load-factor-does-not-matter",
        "A tilted disc turns the machine as strongly at any load factor.",
        "The leaning pull is one part of it, and that is as large as the pull. With less pull there is less of it.",
        "Change the load factor in the calculator and read both parts.",
        STRENGTH,
        POWER,
    ),
    Belief(
        "all-goes-with-load",
        "At half the load factor half of the moment is left.",
        "Half of the pull’s part is left. What the hub makes by its hinges or stiff roots stays whole.",
        "Halve the load factor in the calculator, on a hub with hinges away from the mast.",
        STRENGTH,
        POWER,
    ),
    Belief(
        "weightless-is-lively",
        "Weightless, a machine answers more strongly, because nothing holds it.",
        "Its mass is still there to be turned. What turns it has become less, and on some heads nothing.",
        "Set the load factor to nought in the calculator and read the moment.",
        STRENGTH,
        LOW,
    ),
    Belief(
        "every-rotor-is-lost",
        "Without load no rotor can turn the machine.",
        "That is so for a hinge on the mast’s axis. Hinges away from it, or stiff roots, pull the hub over without any load.",
        "Set the load factor to nought on several heads.",
        STRENGTH,
        LOW,
    ),
    Belief(
        "part-over-the-other-part",
        "The hub’s share is its part over the other part.",
        "A share is a part over the whole.",
        "Add the two parts first, on paper.",
        STRENGTH,
        POWER,
    ),
    Belief(
        "answer-is-straight",
        "A disc that lags behind a turning mast lags straight, with nothing to the side.",
        "The blades of a turning mast are pushed to the side as well. It is no fault of rigging.",
        "Read the disc behind the mast and across, at a steady rate.",
        STRENGTH,
        POWER,
    ),
    Belief(
        "lock-number-upside-down",
        "The lighter the blades, the smaller the share that comes across.",
        "The lighter the blades, the less the disc lags, and what comes across stays. So its share is greater.",
        "Halve the blades’ mass in the head’s figures and read the share across.",
        STRENGTH,
        POWER,
    ),
    Belief(
        "across-is-all",
        "As much comes across as goes against the rate.",
        "The one depends on the air’s damping and the other doesn’t. They are alike only for a Lock number of sixteen.",
        "Read both at a steady rate, on several heads.",
        STRENGTH,
        POWER,
    ),
    Belief(
        "disc-runs-ahead",
        "In a steady rate the disc runs ahead of the mast.",
        "It runs behind. A disc ahead would drive the machine on, and it would turn faster and faster.",
        "Set a steady rate in the calculator and read the disc behind the mast.",
        STRENGTH,
        POWER,
    ),
    Belief(
        "mast-carries-the-disc",
        "The mast carries the disc round with it.",
        "Nothing ties the disc of a free hinge to the mast. The air has to carry it round, and it does so only while the disc stands behind.",
        "Tilt the mast of a model with free blades, and leave the blades alone.",
        STRENGTH,
        POWER,
    ),
)
