"""Beliefs about stops, scissors, play and the tilted ring."""

from ..model import Belief

BELIEFS = (
    Belief(
        "full-stick-is-full-stick",
        "Full stick is full stick, wherever the lever stands.",
        "At the hand, yes. At the ring lever and stick share the rods, and a rod that the lever has moved far has"
        " less left for the stick.",
        "Shorten the strokes to 80%, put the lever at the top and move the stick all round; then put the lever "
        "half up.",
        "reach",
        "hands/stops.md",
    ),
    Belief(
        "least-room-stops-first",
        "The rod that has least left stops the stick first.",
        "What counts is what a rod has left against what the stick asks of it. A rod with little left that is "
        "hardly moved may never get to its end.",
        "Turn the stick round at full lever and read which rod stops it; compare with the list of what each rod "
        "has left.",
        "reach",
        "hands/stops.md",
    ),
    Belief(
        "most-asked-stops-first",
        "The rod that has to go furthest stops the stick first.",
        "It may also have the most left. What counts is what is left against what is asked.",
        "Read the working: what each rod has left, and how far full stick moves it.",
        "reach",
        "hands/stops.md",
    ),
    Belief(
        "rods-stop-together",
        "All rods come to their ends together.",
        "The stick moves each rod by another amount, some up and some down. They can come to an end together only"
        " by chance.",
        "Push the stick one way in the calculator: some rods gain room while others lose it.",
        "reach",
        "hands/stops.md",
    ),
    Belief(
        "limit-is-what-is-left",
        "How far the stick can go is what is left of it.",
        "What is left over is counted from where the stick stands now. What it has used is gone.",
        "Hold the stick half way and compare “goes as far as” with “left over”.",
        "reach",
        "hands/stops.md",
    ),
    Belief(
        "lever-always-takes",
        "A lever away from its middle always takes from the stick.",
        "It takes from the rods that the stick sends further the same way. To those it sends back it gives.",
        "Put the lever at the top and push the stick to one side and to the other: the limits differ.",
        "reach",
        "hands/stops.md",
    ),
    Belief(
        "full-with-full-never-fits",
        "Full lever and full stick can never be had together.",
        "They can when the strokes are long enough for the sum. Heads are usually laid out that way, so that the "
        "blocks in the cabin stop the hand first.",
        "Read what is left of the stick at full collective with the strokes as they are, and with shorter ones.",
        "reach",
        "hands/stops.md",
    ),
    Belief(
        "stops-early-all-round",
        "If the stick is stopped early, it is stopped early all round.",
        "Only where a rod must go further the way it has already gone. In other directions there is more room.",
        "Look at the stick’s field in the picture with shortened strokes: it is cut off on some sides only.",
        "reach",
        "hands/stops.md",
    ),
    Belief(
        "lever-gives-way",
        "When both ask for too much, the lever gives way to the stick.",
        "Neither gives way. A rod comes to a hard end, and whichever hand moves next is stopped by it.",
        "Hold the stick and read how far the lever can go; then hold the lever and read how far the stick can.",
        "reach",
        "hands/stops.md",
    ),
    Belief(
        "ring-behind-is-early",
        "A ring that hangs back brings the wave early.",
        "The foot of each link then stands behind its place. The blade has to go further before its link is over "
        "the low point, so the wave comes late.",
        "On the paper wheel, shift the foot of the link back and turn until it is over the low mark: the blade "
        "has gone too far.",
        "wheel",
        "parts/drive-scissors.md",
    ),
    Belief(
        "scissors-play-is-one-blade",
        "Play in the scissors puts one blade out of track.",
        "All links stand on one rigid ring. Play shifts all of them together; track is a matter of one link "
        "against another.",
        "Give the drive scissors some play in the calculator, then turn one rod end, and compare what the blades do.",
        "scissors",
        "hands/scissors-and-play.md",
    ),
    Belief(
        "only-height-counts",
        "As long as the rods don’t move, nothing the scissors do reaches the blades.",
        "The rods set height and tilt. On a tilted ring it also matters which place of it stands under which "
        "blade, and that is what the scissors hold.",
        "Put the stick in the middle and read the effect of play; then put it fully forward.",
        "scissors",
        "parts/drive-scissors.md",
    ),
    Belief(
        "drive-scissors-drive-blades",
        "The drive scissors carry the engine’s power to the blades.",
        "They carry little more than the drag of the ring’s bearing. The power goes up the mast to the hub.",
        "On the moving view, follow mast and hub to the blade, then mast and scissors to the ring: two ways, two jobs.",
        "motion",
        "parts/drive-scissors.md",
    ),
    Belief(
        "rods-hold-the-ring-round",
        "The rods hold the stationary ring from turning.",
        "They have ball joints at their ends and lean whichever way they are pulled. It takes the stationary "
        "scissors to hold the ring.",
        "On the moving view, disconnect the stationary scissors in thought and watch the rods lean.",
        "motion",
        "parts/stationary-scissors.md",
    ),
    Belief(
        "turning-the-ring-adds-pitch",
        "If the stationary ring is carried round, the blades get more pitch.",
        "Pitch comes from the ring’s height under each link. Carried round, the ring takes its low point with it,"
        " and the same wave comes at another place.",
        "Choose the stationary pair, give it play, and read what a level plate makes of it.",
        "scissors",
        "parts/stationary-scissors.md",
    ),
    Belief(
        "ring-turn-is-pitch",
        "The blade’s pitch is out by as much as the ring turns.",
        "The ring’s turn shifts the wave in time. What a blade feels is the wave’s size times the sine of that "
        "small angle.",
        "Read turn and pitch error side by side, with much stick and with little.",
        "scissors",
        "hands/scissors-and-play.md",
    ),
    Belief(
        "scissors-play-is-link-play",
        "A millimetre of play in the scissors does what a millimetre of play in a link does.",
        "A link acts on the horn directly, a millimetre over the arm. Scissors let the whole ring turn, and only "
        "the change of height that this brings reaches the horn.",
        "Set a play of a millimetre in one calculator and a millimetre of length in the other.",
        "scissors",
        "hands/scissors-and-play.md",
    ),
    Belief(
        "error-grows-with-tilt",
        "Twice the tilt makes twice the error of the ring.",
        "The error goes nearly with the square of the tilt. Twice the tilt makes four times the error; small "
        "tilts are far more harmless than that.",
        "Double the tilt in the calculator and read the greatest error.",
        "joint",
        "hands/tilted-ring.md",
    ),
    Belief(
        "ring-keeps-step",
        "The drive link makes the ring turn exactly with the mast.",
        "On average it does, to the last degree. On a tilted ring only the driven point is in step; the rest runs"
        " ahead and behind twice a turn.",
        "Tilt the plate and move the mast through a quarter turn from the tilt axis.",
        "joint",
        "hands/tilted-ring.md",
    ),
    Belief(
        "longer-link-takes-off",
        "A longer link takes pitch off.",
        "That depends on the horn. A longer link lifts the horn; ahead of the blade’s axis that puts pitch on, "
        "behind it that takes pitch off.",
        "Turn a rod end on a head with leading horns and on one with trailing horns.",
        "links",
        "hands/scissors-and-play.md",
    ),
    Belief(
        "turnbuckle-counts-once",
        "A turnbuckle does in one turn what a single thread does.",
        "Its threads are right- and left-handed, so both ends screw out together. One turn counts twice.",
        "Switch between the two kinds of link and read the change of length.",
        "links",
        "hands/scissors-and-play.md",
    ),
    Belief(
        "over-the-links-length",
        "What a turn does depends on how long the link is.",
        "The length of the link drops out. The change of length turns the horn, so it is divided by the horn’s arm.",
        "Change the link’s length and then the horn’s arm in the calculator.",
        "links",
        "hands/scissors-and-play.md",
    ),
)
