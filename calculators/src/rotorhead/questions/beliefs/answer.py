"""Beliefs about the blades' answer: lag, settling, the disc and what it does to the fuselage."""

from ..model import Belief

BELIEFS = (
    Belief(
        "lag-is-slowness",
        "Lag means that the rotor is slow to answer.",
        "Lag is an angle round the disc, and a blade is through it in a few hundredths of a second. How soon the "
        "disc has a new tilt is another figure.",
        "Read lag and settling side by side in the lag calculator.",
        "lag",
        "principles/precession-or-lag.md",
    ),
    Belief(
        "answer-comes-next-turn",
        "The answer comes a turn later.",
        "A blade is lowest about a quarter of a turn after its least pitch. The disc begins to tilt at once, and "
        "in a turn or two it has settled.",
        "Count the turns on the moving view.",
        "lag",
        "principles/precession-or-lag.md",
    ),
    Belief(
        "disc-answers-at-once",
        "A blade is lowest where its pitch is least, at once.",
        "It goes on down as long as its lift is short, and is lowest later in the turn, by the lag.",
        "On the curves of the lag calculator put a finger on each of the two lowest points.",
        "lag",
        "principles/precession-or-lag.md",
    ),
    Belief(
        "thin-air-takes-lag-off",
        "Thinner air always makes the lag smaller.",
        "Only if something holds the blade besides its spin. With a hinge on the axis, no spring and no "
        "delta-three the lag is 90° in any air.",
        "Change the altitude for a head with a central hinge.",
        "lag",
        "principles/precession-or-lag.md",
    ),
    Belief(
        "thin-air-is-later",
        "In thin air the blades answer later, so the lag grows.",
        "Thin air damps less. The settling takes longer, and where a hinge away from the mast or a stiff root "
        "holds the blade, the angle of lag gets smaller.",
        "Change the altitude and read lag and settling together.",
        "lag",
        "principles/precession-or-lag.md",
    ),
    Belief(
        "lag-is-geometry",
        "The lag is geometry and doesn’t depend on the air.",
        "It is a balance of the air’s damping and the blade’s stiffness. Only without stiffness does the air drop out.",
        "Change the altitude for a hingeless head.",
        "lag",
        "principles/precession-or-lag.md",
    ),
    Belief(
        "lag-goes-with-the-air",
        "Half the air, half the lag.",
        "The lag depends on the ratio of damping and stiffness, and through an angle: it is little off 90° as "
        "long as the stiffness is small.",
        "Read the lag at sea level and high up, and the density beside it.",
        "lag",
        "principles/precession-or-lag.md",
    ),
    Belief(
        "lag-is-always-ninety",
        "Every rotor lags by 90°.",
        "That is so for a hinge on the axis without spring and delta-three. The handbook’s “approximately” covers "
        "the rest, a few degrees to twenty.",
        "Read the lag of all the invented heads one after the other.",
        "lag",
        "principles/precession-or-lag.md",
    ),
    Belief(
        "settles-at-an-even-rate",
        "The disc goes on to its new tilt at an even rate.",
        "It goes fast at first and slower as less is left: each such time makes the same share of what is left.",
        "Draw the tilt after each turn on squared paper.",
        "lag",
        "principles/precession-or-lag.md",
    ),
    Belief(
        "settled-after-the-lag",
        "After the lag has passed the disc stands in its new tilt.",
        "After a quarter turn it has only begun. Lag is where a settled blade is lowest; the settling takes a "
        "turn or two, or longer in thin air.",
        "Read lag and settling in turns.",
        "lag",
        "principles/precession-or-lag.md",
    ),
    Belief(
        "disc-keeps-tilting",
        "The disc goes on tilting as long as the stick is held.",
        "A free spinning disc does. A rotor’s air damps it, so each place of the stick has a tilt, and there it stays.",
        "Run the gyro calculator for one second and for five.",
        "gyro",
        "principles/precession-or-lag.md",
    ),
    Belief(
        "disc-comes-back",
        "The disc tilts and then comes back to level by itself.",
        "The wave of pitch is still there, and so is the tilt. It takes the stick to bring it back.",
        "Hold the stick on the moving view and wait.",
        "motion",
        "principles/cyclic.md",
    ),
    Belief(
        "low-side-wanders",
        "A tilted disc wanders round as a spinning top does.",
        "A top is free, and something pulls at it all the time. The blades’ pitch keeps the low side in its place.",
        "Hold the stick on the moving view and put a finger on the disc’s low side.",
        "gyro",
        "principles/precession-or-lag.md",
    ),
    Belief(
        "nothing-damps-the-disc",
        "Nothing calms the disc but the pilot.",
        "The air does: a blade on its way down meets it from below and lifts more. Flapping is one of the "
        "best-damped motions of the machine.",
        "Read how many turns the settling takes.",
        "lag",
        "principles/precession-or-lag.md",
    ),
    Belief(
        "disc-copies-the-plate",
        "The disc tilts as far as the plate.",
        "With a hinge on the axis it does. Else horn, ring and gain lie between them: the tilt becomes height, "
        "the height pitch, the pitch flapping.",
        "Compare the plate’s tilt with the disc’s on several heads.",
        "disc",
        "principles/disc-tilt.md",
    ),
    Belief(
        "longer-arm-more-pitch",
        "A longer horn gives more pitch.",
        "For the same rise of its link it gives less angle. What a long arm gives is less force in the link.",
        "Change the horn’s arm and read the disc’s tilt.",
        "pitch",
        "parts/horns.md",
    ),
    Belief(
        "lag-counts-from-the-plate",
        "The disc is low a quarter turn after the plate’s low point.",
        "The lag counts from least pitch. Between plate and pitch lie the lead of the link and the side of the horn.",
        "On the rose show plate low, pitch least and disc low, and the angle between each two.",
        "phase",
        "principles/precession-or-lag.md",
    ),
    Belief(
        "more-pitch-more-tilt",
        "More lever means more pitch, and so more tilt.",
        "The lever adds the same pitch all round and so no wave. Tilt comes from the wave, and that is the stick’s.",
        "Change only the lever in the disc calculator.",
        "disc",
        "principles/collective.md",
    ),
    Belief(
        "coning-eats-the-lift",
        "With more lever the blades only cone more, and the pull stays.",
        "They cone because they lift more. Both grow together, and the cone costs only a trace of the pull.",
        "Change only the lever and read thrust and coning.",
        "disc",
        "principles/collective.md",
    ),
    Belief(
        "disc-tilts-first",
        "The disc tilts, and the blades change their pitch because of it.",
        "It is the other way round: pitch changes lift, lift makes the blades flap, and the disc is what their "
        "tips draw.",
        "Play the chain step by step on the moving view.",
        "disc",
        "principles/disc-tilt.md",
    ),
    Belief(
        "hub-adds-nothing",
        "Only the leaning pull turns the fuselage.",
        "Where hinges stand away from the mast, or roots are stiff, the tilted blades pull the hub over as well, "
        "even with no lift at all.",
        "Read hub moment and thrust moment of several heads.",
        "disc",
        "principles/disc-tilt.md",
    ),
    Belief(
        "every-hub-pulls-over",
        "Tilted blades pull every hub over.",
        "Only through hinges away from the mast or through stiff roots. With a free hinge on the axis the leaning "
        "pull is all there is.",
        "Set the hinge’s distance to nought and read the moment.",
        "disc",
        "principles/disc-tilt.md",
    ),
    Belief(
        "pull-has-no-arm",
        "The rotor’s pull goes through the centre of gravity and turns nothing.",
        "Upright it does, or nearly. Tilted, it passes beside it, by the height of the hub times the tilt.",
        "Draw the leaning pull and the centre of gravity from the side.",
        "disc",
        "principles/disc-tilt.md",
    ),
    Belief(
        "rotor-pushes-the-nose",
        "The rotor’s wind pushes the nose down.",
        "The fuselage is drawn over from the top, by the leaning pull and, on many heads, by the hub.",
        "Hang a weight from a tilted ruler and let the learner say what turns it.",
        "disc",
        "principles/disc-tilt.md",
    ),
    Belief(
        "plate-turns-the-fuselage",
        "The tilted plate turns the fuselage.",
        "The plate only asks the blades. What it bears is small beside what the rotor’s pull and the hub do.",
        "Compare a rod’s load with the moment on the aircraft.",
        "disc",
        "principles/disc-tilt.md",
    ),
)
