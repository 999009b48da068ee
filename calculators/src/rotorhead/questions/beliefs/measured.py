"""Beliefs about hydraulic help and about measuring a head."""

from ..model import Belief

BELIEFS = (
    Belief(
        "rod-takes-no-area",
        "Pressure works on the whole bore.",
        "On the rod’s side the rod takes its area away. Only the ring round it is pushed.",
        "Change the rod’s diameter in the calculator and read what the actuator can push.",
        "boost",
        "hands/hydraulics-off.md",
    ),
    Belief(
        "help-is-all-or-nothing",
        "Hydraulic help is either there or gone.",
        "Push is pressure times area. Half the pressure pushes half as hard, and the margin shrinks with it.",
        "Move the pressure down in the calculator and watch the margin.",
        "boost",
        "hands/hydraulics-off.md",
    ),
    Belief(
        "hand-holds-all-of-it",
        "Without help the hand holds all that the rods carry.",
        "The hand moves much further than the plate, and so it needs less force. That is what gearing is.",
        "Compare the rods’ sum with the lever’s force, and the plate’s travel with the lever’s.",
        "boost",
        "hands/hydraulics-off.md",
    ),
    Belief(
        "gearing-the-wrong-way",
        "Moving the hand far makes the force in it larger.",
        "What goes further needs less force: force times travel is the same at both ends.",
        "Double the lever’s travel in the head’s figures and read its force.",
        "boost",
        "hands/hydraulics-off.md",
    ),
    Belief(
        "links-lift-the-lever",
        "Links that are pulled lift the lever.",
        "With trailing horns the links pull the plate up, and up is less pitch there. The lever is connected so "
        "that less pitch is always down.",
        "Compare a head with trailing horns and one with leading horns: the links’ loads differ in sign, the "
        "lever’s wish doesn’t.",
        "boost",
        "hands/lever-by-itself.md",
    ),
    Belief(
        "lift-raises-the-lever",
        "Lift pulls the blades up and the lever with them.",
        "Lift goes through the hub to the mast. What reaches the lever is what turns the blades about their own "
        "length.",
        "Change the mass of the machine and read the lever’s force.",
        "boost",
        "hands/control-loads.md",
    ),
    Belief(
        "lever-always-sinks",
        "The lever always wants to go down.",
        "It usually does, for two reasons that usually agree. Mass behind the blade’s axis, a section with its "
        "trailing edge bent up, springs or weights can turn it round.",
        "Put the centre of mass some millimetres behind the axis and read which way the lever wants to go.",
        "boost",
        "hands/lever-by-itself.md",
    ),
    Belief(
        "lever-has-no-wish",
        "Only the stick feels the blades, not the lever.",
        "The lever feels what all blades ask alike, and without help that is usually the greater of the two.",
        "Read lever and stick without help, in the hover and at speed.",
        "boost",
        "hands/lever-by-itself.md",
    ),
    Belief(
        "rods-hold-each-other",
        "The rods hold each other, so the lever stays.",
        "They share the load between them, and all of them end at the hands or at an actuator. What they bear "
        "together moves the lever.",
        "Add up the rods’ steady loads and compare with what the links bring.",
        "rod-load",
        "hands/control-loads.md",
    ),
    Belief(
        "pressure-is-force",
        "With the same pressure the push is the same.",
        "Push is pressure times area. With half of the area gone half of the push is gone.",
        "Choose two systems and let one fail: the pressure stays, the push doesn’t.",
        "boost",
        "hands/hydraulics-off.md",
    ),
    Belief(
        "half-help-half-travel",
        "Half of the help moves the controls half as far.",
        "How far the ring goes is set by the hand, the travels and the stops. Help decides against what load it "
        "gets there.",
        "Let one of two systems fail and compare push and travels.",
        "boost",
        "hands/hydraulics-off.md",
    ),
    Belief(
        "one-fails-both-fail",
        "When one system fails, the other goes too.",
        "Each has its own pump, valve and piston, so that one failure leaves one working. That is what two are for.",
        "Show the two pistons on one rod and ask what they share.",
        "boost",
        "hands/hydraulics-off.md",
    ),
    Belief(
        "hand-makes-up-the-rest",
        "What one system no longer does the hand has to do.",
        "As long as the other can push more than the rod asks, the hand feels friction and springs as before.",
        "Let one of two systems fail and read the margin that is left and what the hands feel.",
        "boost",
        "hands/hydraulics-off.md",
    ),
    Belief(
        "help-moves-first",
        "The hydraulics move first, and the valve and the hand follow.",
        "The hand moves the valve, the oil moves the actuator, and the actuator shuts the valve as it arrives. It"
        " follows the hand and stops with it.",
        "Play actuator and valve with two learners and a ruler between them.",
        "boost",
        "parts/hydraulic-help.md",
    ),
    Belief(
        "parked-head-shows-the-lag",
        "The lag can be measured on a parked head.",
        "No blade flaps there. A parked head shows what plate and links ask of the blades; the lag is between "
        "that and the disc.",
        "Read a sheet of a parked head and ask which of its columns says anything of flapping.",
        "worksheet",
        "own/inclinometer.md",
    ),
    Belief(
        "least-pitch-is-disc-low",
        "Where the pitch is least, the disc is low.",
        "A blade goes on down after its least pitch. It is lowest later in the turn, by the lag.",
        "On the rose of the phase budget, show the mark of least pitch and the mark of the disc.",
        "phase",
        "principles/control-phase.md",
    ),
    Belief(
        "parked-blades-stand-as-in-flight",
        "A parked blade stands as it does in flight.",
        "It droops on its stop. In flight lift and the pull outward settle where it stands.",
        "Compare droop on the apron with the coning computed for the hover.",
        "disc",
        "own/inclinometer.md",
    ),
    Belief(
        "parked-links-carry-their-load",
        "The load of the links in flight can be seen on the parked head.",
        "Flattening comes from the spin and the rest from the air. A parked link carries next to nothing of either.",
        "Set rotor speed low and read the link’s load.",
        "link-load",
        "own/inclinometer.md",
    ),
    Belief(
        "parked-head-shows-nothing",
        "Nothing about control can be measured on a parked head.",
        "All that lies between plate and blade can: mean pitch, size and place of the wave, whether the blades "
        "are alike. Only what flaps can’t.",
        "Let the learner fit the invented readings and say what each result belongs to.",
        "worksheet",
        "own/inclinometer.md",
    ),
    Belief(
        "wave-is-half-the-span",
        "Half the difference between greatest and least reading is the wave.",
        "Only if readings were taken just where the wave is greatest and least. Between marks it goes beyond both.",
        "Read four marks of a wave that lies between them, then eight.",
        "worksheet",
        "own/inclinometer.md",
    ),
    Belief(
        "wave-is-the-whole-span",
        "The wave is the difference between the greatest reading and the least.",
        "That is twice it, or nearly: a wave is counted either way from the mean.",
        "Draw mean and wave on the fitted curve and point to both.",
        "worksheet",
        "own/inclinometer.md",
    ),
    Belief(
        "wave-is-the-greatest-reading",
        "The greatest reading is the size of the wave.",
        "It holds the mean as well. The wave is what the stick adds to the mean and takes from it.",
        "Move the lever with the stick held: all readings shift, the wave stays.",
        "worksheet",
        "own/inclinometer.md",
    ),
    Belief(
        "lowest-reading-is-the-place",
        "The pitch is least where the lowest reading was taken.",
        "It was the lowest of the marks. The wave is least wherever it is, mostly between two of them, and the "
        "fit finds that place.",
        "Take away the lowest reading of the sheet and see that the place hardly moves.",
        "worksheet",
        "own/inclinometer.md",
    ),
    Belief(
        "computed-is-exact",
        "Only the measured figure has an error.",
        "The computed one comes from lengths that somebody measured. The errors of both are put together, by "
        "their squares.",
        "Change the error of the computed figure and watch the verdict.",
        "agree",
        "own/compare.md",
    ),
    Belief(
        "difference-alone-judges",
        "Whether two figures agree is seen from the difference alone.",
        "A difference is large or small only against the errors of both. Four degrees agree with three of error, "
        "and disagree with one.",
        "Keep the difference and change the errors.",
        "agree",
        "own/compare.md",
    ),
    Belief(
        "errors-add-straight",
        "The errors of two figures are added up.",
        "They seldom strike the same way together. So they are put together by their squares, which makes less "
        "than the sum.",
        "Set 3° and 4° and read 5°.",
        "agree",
        "own/compare.md",
    ),
    Belief(
        "agreement-proves-both",
        "They agree, so both are right.",
        "Both may share one fault, and a large error agrees with anything. Agreeing only means that nothing "
        "speaks against it.",
        "Make the error large, and everything agrees.",
        "agree",
        "own/compare.md",
    ),
    Belief(
        "disagreement-proves-a-fault",
        "They disagree, so something is set wrong on the machine.",
        "First comes the plain slip: wrong blade, left for right, bearing for azimuth, a leaning mast. Whether a "
        "machine is set right is for the manual and licensed people.",
        "Go through the table of slips, and give each of them its mark on the sheet.",
        "agree",
        "own/compare.md",
    ),
)
