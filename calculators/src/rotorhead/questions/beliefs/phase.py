"""Beliefs about how early the input is made."""

from ..model import Belief

PAGE = "principles/control-phase.md"

BELIEFS = (
    Belief(
        "offset-is-lag",
        "The rods stand off the nose by the lag.",
        "They stand off by what is left of the lag when the lead of the links is taken away and the side of the horn is "
        "counted.",
        "Show a head with a central hinge beside one with offset hinges: the same lag nearly, and quite another place for the "
        "rods.",
        "phase",
        PAGE,
    ),
    Belief(
        "lead-adds",
        "The lead of the links comes on top of the lag.",
        "The foot of the link is ahead of its blade, so it meets the low point of the plate before the blade is there. That "
        "takes the lead off.",
        "On the paper wheel, put the foot of the link over the plate’s low mark and read where the blade is.",
        "wheel",
        PAGE,
    ),
    Belief(
        "horn-side-does-not-matter",
        "Whether the horn stands ahead of the blade or behind it makes no difference.",
        "Behind the blade, link up takes pitch off. The whole wave is turned over, and the plate must be low on the other side.",
        "Raise one link by hand on the moving view of a head with trailing horns, and watch the blade’s nose.",
        "phase",
        PAGE,
    ),
    Belief(
        "plate-low-where-disc-low",
        "The plate must be low where the disc is to go down.",
        "Plate, least pitch and disc each have a place of their own round the turn. Lead, horn and lag lie between them.",
        "On the rose of the phase budget, point to the three marks one after the other.",
        "phase",
        PAGE,
    ),
    Belief(
        "offset-always-right",
        "The rods are off to the right.",
        "Before the nose is the side the blades come from: right on a rotor that turns anticlockwise, left on one that turns "
        "clockwise. And some heads need the input after the nose.",
        "Turn the head the other way with one tap, and let the learner say beforehand what will change.",
        "phase",
        PAGE,
    ),
    Belief(
        "mirror-changes-the-size",
        "Built the other way round, a head needs another angle.",
        "Lag, lead and horn stay what they are. The sum is the same; only right and left are exchanged.",
        "Turn the head the other way and read the sum again.",
        "phase",
        PAGE,
    ),
    Belief(
        "rods-out-is-too-much",
        "Rods that are set some degrees out tilt the disc that much too far.",
        "The error is in the direction of the tilt and not in its size.",
        "Turn the rod set in the calculator and compare the disc’s mark and its tilt.",
        "phase",
        PAGE,
    ),
    Belief(
        "rods-out-is-late",
        "Rods that are set some degrees out make the machine answer later.",
        "How soon the disc answers is the blade’s affair. The rods only say where the wave lies.",
        "Turn the rod set in the calculator: the lag stands as before.",
        "phase",
        PAGE,
    ),
    Belief(
        "wrong-way-of-turning",
        "Before and after the nose are the same for every rotor.",
        "“Before” is the side a blade comes from, and that depends on the way the rotor turns.",
        "Lay the paper wheel down and turn it both ways under the nose mark.",
        "wheel",
        PAGE,
    ),
)
