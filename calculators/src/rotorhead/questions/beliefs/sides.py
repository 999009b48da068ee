"""Beliefs about forward flight: the two sides of the disc, flap-back, the gradient of the inflow, the stick."""

from ..model import Belief

TWO = "flight/dissymmetry.md"
BACK = "flight/flap-back.md"
INFLOW = "flight/inflow-roll.md"
STICK = "flight/stick-and-speed.md"
RETREATING = "flight/retreating-side.md"
SPEED = "speed"

BELIEFS = (
    Belief(
        "pressure-goes-with-speed",
        "Twice the air’s speed is twice its pressure on the blade.",
        "It goes with the square: twice the speed is four times the pressure.",
        "Hold a hand out of a car’s window at two speeds.",
        SPEED,
        TWO,
    ),
    Belief(
        "both-sides-alike",
        "The blades turn at one speed, so both sides meet the same air.",
        "The machine’s own speed adds to a blade’s on one side and takes away from it on the other.",
        "Draw two arrows at each tip: the blade’s and the machine’s.",
        SPEED,
        TWO,
    ),
    Belief(
        "sides-taken-for-each-other",
        "On the retreating side the speeds add, and on the advancing side they take away from each other.",
        "Advancing means that the blade goes the way the machine goes: there they add.",
        "Walk forward with an arm turning, and say where the hand meets more wind.",
        SPEED,
        TWO,
    ),
    Belief(
        "circle-about-the-mast",
        "The air meets the blades from behind in a circle about the mast.",
        "The circle touches the mast and lies wholly on the retreating side. On the other side nothing like it happens.",
        "Draw the retreating blade and mark where its own speed equals the machine’s.",
        SPEED,
        RETREATING,
    ),
    Belief(
        "no-air-from-behind",
        "Air always meets a blade from the front.",
        "Near the mast a retreating blade goes backward more slowly than the machine goes forward.",
        "Ask how fast the blade’s root moves, and then how fast the machine.",
        SPEED,
        RETREATING,
    ),
    Belief(
        "sound-is-the-same-everywhere",
        "Sound has the same speed everywhere.",
        "It goes with the temperature: in cold air it is slower, and a tip meets it sooner.",
        "Change the temperature in the air calculator and read the speed of sound.",
        "air",
        RETREATING,
    ),
    Belief(
        "fastest-is-highest",
        "A blade rises fastest where it is highest.",
        "At its highest it doesn’t rise at all. It rises fastest a quarter of a turn before.",
        "Follow a swing, or one blade’s flapping on paper: height and speed are a quarter apart.",
        SPEED,
        TWO,
    ),
    Belief(
        "highest-where-lift-is-most",
        "A blade is highest where its lift is greatest.",
        "There it begins to rise fastest. It is highest later in the turn, by the lag.",
        "Put the mark of the greatest lift and the mark of the highest blade on one rose.",
        "lag",
        TWO,
    ),
    Belief(
        "lift-always-acts-later",
        "Unequal lift always acts a quarter of a turn later, on whatever rotor.",
        "It is the flapping that takes its time. Blades that couldn’t flap would hand it to the hub on the spot.",
        "Ask what would carry the blade on, if it could not move up or down.",
        SPEED,
        TWO,
    ),
    Belief(
        "unequal-lift-cancels",
        "What one side lifts more, the other lifts less, so nothing comes of it.",
        "The sum may stay. But the two sides pull at opposite ends, and that is what turns things over.",
        "Put two weights on the ends of a balance, one heavier.",
        SPEED,
        TWO,
    ),
    Belief(
        "flapping-is-the-trouble",
        "Flapping makes the lift of the two sides unequal.",
        "Unequal air does. Flapping is what evens the lift out again, and the disc pays for it with a tilt.",
        "Play the chain with arrows on paper: air, lift, flapping, angle.",
        SPEED,
        TWO,
    ),
    Belief(
        "speed-tilts-it-forward",
        "With speed the disc goes further forward by itself.",
        "It was tilted forward to get the speed. The speed itself tilts it back.",
        "Set the hands as in the hover in the calculator, and let only the speed grow.",
        SPEED,
        BACK,
    ),
    Belief(
        "low-on-the-weak-side",
        "With speed the disc sinks on the retreating side, where there is less air.",
        "There the blades sink fastest. They are lowest about a quarter of a turn later.",
        "Mark both places on a rose, in the direction of rotation.",
        SPEED,
        BACK,
    ),
    Belief(
        "hands-still-disc-still",
        "As long as the hands are still, the disc stays where it is.",
        "The hands set the pitch. The air that meets it changes with speed, and so does the disc.",
        "Set the hands as in the hover in the calculator, and let only the speed grow.",
        SPEED,
        BACK,
    ),
    Belief(
        "stick-follows-the-disc",
        "When the disc goes back, the stick goes back with it.",
        "Then it would go back further still. The stick goes against it: forward, which takes pitch off the advancing side.",
        "Draw the wave of pitch that would even out the lift, and ask which stick makes it.",
        SPEED,
        BACK,
    ),
    Belief(
        "stick-to-the-strong-side",
        "The side with more lift is pressed down by a stick to that side.",
        "A stick to that side takes pitch off a quarter of a turn earlier, and the disc goes down on that side. What has to come "
        "down is the nose.",
        "Lay the paper wheel down, and count from the place where the pitch is least.",
        SPEED,
        BACK,
    ),
    Belief(
        "inflow-is-even",
        "The air goes down through the disc evenly, at every speed.",
        "As soon as the machine moves, the front of the disc meets fresh air, and the rear meets air that is going down already.",
        "Switch the inflow from even to one of the named models in the calculator, at 15 kt.",
        SPEED,
        INFLOW,
    ),
    Belief(
        "slow-roll-is-weak-side",
        "At low speed a machine rolls to its retreating side, where there is less lift.",
        "Flapping turns the two sides’ difference into a disc that goes back. The roll comes from front and rear, and goes to the "
        "advancing side.",
        "Follow one blade that meets less falling air at the nose, and ask where it is highest.",
        SPEED,
        INFLOW,
    ),
    Belief(
        "stick-forward-to-get-going",
        "Once the machine is going, the stick comes back to where it was.",
        "The speed has to be held against drag and against a disc that would go back. The stick stays forward, the more so the "
        "faster.",
        "Let the speed grow in the calculator and watch the path of the stick.",
        "stick",
        STICK,
    ),
    Belief(
        "stick-and-speed-are-apart",
        "The stick has one place for all speeds; the lever makes the speed.",
        "Each steady speed has a place of the stick. In level flight the lever makes up what power and lift ask for.",
        "Let the speed grow in the calculator and watch both stick and lever.",
        "stick",
        STICK,
    ),
    Belief(
        "faster-is-further-back",
        "The faster it goes, the more the stick has to hold the nose up.",
        "The nose would go up by itself. The stick goes forward with speed.",
        "Let the speed grow in the calculator and watch the path of the stick.",
        "stick",
        STICK,
    ),
)
