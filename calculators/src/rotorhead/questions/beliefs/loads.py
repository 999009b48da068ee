"""Beliefs about control loads and shake."""

from ..model import Belief

BELIEFS = (
    Belief(
        "spin-lifts-the-nose",
        "Spinning lifts a blade’s nose.",
        "Spinning pulls every part of the blade into the plane of rotation. At a positive pitch that means nose down.",
        "Spin round with a racket in the hand, its face tilted: it lies flat.",
        "link-load",
        "hands/flattening.md",
    ),
    Belief(
        "flattening-is-nose-down",
        "Flattening always turns the nose down.",
        "It turns the blade towards flat pitch. From a negative pitch that is nose up.",
        "Move the collective pitch through nought and watch the sign of what it takes.",
        "link-load",
        "hands/flattening.md",
    ),
    Belief(
        "air-makes-it-flat",
        "It is the air that pushes a blade flat.",
        "The air adds a moment of its own. Flattening comes from the spin and the blade’s mass, and would be "
        "there in a vacuum.",
        "Set the section’s moment to nought and read what is left.",
        "link-load",
        "hands/flattening.md",
    ),
    Belief(
        "outward-pull-cannot-turn",
        "A pull straight outward can’t turn a blade about its own length.",
        "It pulls away from the mast, and that isn’t the same direction at the front edge as at the rear. One is "
        "pulled a little forward, the other back, and one stands higher.",
        "Draw a broad blade from above and an arrow from the mast through each corner.",
        "link-load",
        "hands/flattening.md",
    ),
    Belief(
        "load-goes-with-speed",
        "Ten per cent more rotor speed makes ten per cent more load.",
        "What is flung outward goes with the square of the rate of turning, and so does the air. Ten per cent "
        "more makes about a fifth more.",
        "Change the rotor speed of the head and compare the moment against flattening.",
        "link-load",
        "hands/flattening.md",
    ),
    Belief(
        "pitch-alone-sets-the-load",
        "At the same pitch the load is the same.",
        "Pitch gives the lever arm of the pull. The pull itself grows with rotor speed.",
        "Keep the pitch and change the head’s rotor speed.",
        "link-load",
        "hands/flattening.md",
    ),
    Belief(
        "weights-add-flattening",
        "Weights at the blade’s root are flung outward too, so they add to the flattening.",
        "They do want to lie in the plane of rotation. But their arms stand square to the chord, so what lays "
        "them flat turns the blade upright.",
        "Enter two small weights in the calculator and read the moment against flattening.",
        "link-load",
        "hands/flattening.md",
    ),
    Belief(
        "weights-balance-at-rest",
        "Balance weights only balance the blade’s weight about its axis.",
        "Two weights opposite each other balance nothing at rest. They work by the spin alone.",
        "Enter two small weights and change the rotor speed.",
        "link-load",
        "hands/flattening.md",
    ),
    Belief(
        "weights-cancel",
        "One weight above and one below undo each other.",
        "Seen from the axis both stand off the plane of rotation on opposite sides, and the pull turns them the "
        "same way round. Their effects add.",
        "Draw the blade’s end with its two weights and turn it: both arms lean the same way.",
        "link-load",
        "hands/flattening.md",
    ),
    Belief(
        "a-rod-for-each-link",
        "Each rod carries what a link carries.",
        "All links press on one ring, and the rods hold that ring. Three rods carry what all links bring, however"
        " many they are.",
        "Compare the link’s steady load with the rods’ on a head with five or six blades.",
        "rod-load",
        "hands/control-loads.md",
    ),
    Belief(
        "even-blades-cancel-steady-load",
        "Between evenly spaced blades the loads cancel, so the rods carry nothing.",
        "What varies round the turn can cancel. What is the same for all blades all the time adds up.",
        "Take away speed and cyclic pitch: what is left in the rods is the steady part.",
        "rod-load",
        "hands/control-loads.md",
    ),
    Belief(
        "advancing-blade-moves-lever",
        "The advancing blade pushes the lever.",
        "What differs from side to side presses on one side of the plate. The lever moves the middle of the plate"
        " and feels what all blades ask alike.",
        "Read the rods’ sum in the hover and at speed: it is there in both.",
        "rod-load",
        "hands/lever-by-itself.md",
    ),
    Belief(
        "lever-is-heavy",
        "The lever sinks because it is heavy.",
        "Its weight is small beside what the blades ask. Beside a parked machine the weight is felt, in flight "
        "without help the blades are.",
        "Compare the lever’s force without help with the weight of a lever in the hand.",
        "boost",
        "hands/lever-by-itself.md",
    ),
    Belief(
        "creeping-lever-is-rigging",
        "A lever that creeps is a sign of bad rigging.",
        "Blades bear on the lever of every head without help, well set or not. It stays where it is only as long "
        "as friction, a spring or a weight holds it.",
        "Read what the lever would want to do on each demonstration head, all of them set as designed.",
        "boost",
        "hands/lever-by-itself.md",
    ),
    Belief(
        "load-is-resistance-to-change",
        "The load is there because the air resists a change of pitch.",
        "Most of it is there with the pitch held still: flattening, and the section’s own moment.",
        "Take away cyclic pitch, so that nothing changes round the turn, and read the link’s load.",
        "link-load",
        "hands/control-loads.md",
    ),
    Belief(
        "load-goes-straight-to-the-hand",
        "The blades work on the hand directly.",
        "Every load comes down the way the hand’s wish went up, part by part. Leave one out, and nothing holds "
        "the next.",
        "Follow it backwards on the side view: horn, link, ring, bearing, ring, rods.",
        "motion",
        "hands/control-loads.md",
    ),
    Belief(
        "shake-once-a-turn",
        "A rotor shakes once in each turn.",
        "One odd blade does. Equal blades shake once for each blade, because after a part of a turn everything "
        "stands as before.",
        "Let the learner count the blades that pass a fixed place in one turn.",
        "shake",
        "hands/shake.md",
    ),
    Belief(
        "neighbour-waves-keep-their-rate",
        "The waves one below and one above the number of blades come down at their own rate.",
        "They rock the turning ring. Seen from the rods, which don’t turn, they come as once for each blade.",
        "Read the rate for heads of different blade counts: it is always rotor speed times blades.",
        "shake",
        "hands/shake.md",
    ),
    Belief(
        "every-wave-gets-through",
        "What shakes a link shakes the rods.",
        "The rods feel all links together. Most waves cancel between equal blades, or come down as another wave.",
        "Draw three waves a third of a turn apart and add them.",
        "shake",
        "hands/shake.md",
    ),
    Belief(
        "equal-blades-cancel-everything",
        "Between equal blades all waves cancel.",
        "Waves that are a multiple of the number of blades add up. Those one below and one above rock the plate "
        "and come through as well.",
        "Draw three waves of three a turn, a third of a turn apart: they lie on each other.",
        "shake",
        "hands/shake.md",
    ),
    Belief(
        "always-once-a-blade",
        "Whatever goes on in the links or blades, the rods feel it once for each blade.",
        "That is how often equal blades shake. It takes a wave that gets through, and a blade unlike the others "
        "makes another rate.",
        "Compare a wave that cancels with one that adds up.",
        "shake",
        "hands/shake.md",
    ),
    Belief(
        "shake-becomes-steady",
        "Between equal blades every wave becomes a steady push.",
        "Only the wave of once a turn does, because the place it presses on stands still. Others vary as seen "
        "from there.",
        "Mark where a link presses hardest in the turn: for once a turn that place stands still.",
        "rod-load",
        "hands/shake.md",
    ),
    Belief(
        "odd-blade-shakes-faster",
        "An odd blade makes the shake quicker.",
        "It comes round once a turn. That is slower than once for each blade.",
        "Paint one blade in thought and count how often it passes.",
        "shake",
        "hands/shake.md",
    ),
    Belief(
        "one-odd-blade-hides",
        "One blade that is out is hidden by the others.",
        "The others can’t cancel it: it has no partner. One is enough to be felt.",
        "Turn one rod end in the calculator and read how far that tip runs from the others.",
        "links",
        "hands/shake.md",
    ),
    Belief(
        "odd-blade-pulls-to-one-side",
        "A blade that is out of track pulls the machine to one side.",
        "It carries its error all the way round and favours no side. What it makes is a shake once a turn.",
        "Follow the odd blade round the turn on the moving view.",
        "motion",
        "hands/shake.md",
    ),
)
