"""Calculator *motion*: the whole head in one moving view, and what would happen with a part loose or wrong."""

import math
from html import escape
from typing import Any, cast

from ..conventions import HALF_TURN, TURN, azimuth_of, bearing_of, bearing_words
from ..drawing.head_views import head_view
from ..faults import Refused, refuse
from ..fields import (
    Answer,
    Calculator,
    Case,
    Chart,
    Choice,
    Drawing,
    Example,
    Line,
    Number,
    Result,
    Step,
    Values,
    fixed,
)
from ..mechanism.links import harmonics
from ..motion.lean import greatest_lean
from ..motion.parts import BY_ID, PARTS
from ..motion.scene import blade_bearing, scene
from ..motion.setting import KINDS, Kind, Setting, WhatIf
from ..motion.turn import Motion, motion_of
from ..motion.views import VIEWS
from ..rotor import Rotor
from .common import FORWARD, HAND_FIGURES, LEFT, LEVER, LINK_FIGURES, ROD_FIGURES, hands_words

WHAT_IF = "What if"
LOOK = "How it is shown"
_AMOUNT = {
    "drive_off": "behind", "stationary_off": "carried", "rod_longer": "rod_more", "link_longer": "link_more",
    "play_scissors": "play", "play_link": "play",
}  # fmt: skip


def _is(*kinds: str) -> Any:
    return lambda values, rotor: values["what_if"] in kinds


def setting_of(values: Values) -> Setting:
    """The inputs -> what the view is asked to show."""
    kind = cast(Kind, values["what_if"])
    amount = float(values[_AMOUNT[kind]]) if kind in _AMOUNT else 0.0
    number = int(float(values["rod"] if kind.startswith("rod") else values["blade"]))
    return Setting(
        float(values["lever"]), float(values["stick_forward"]), float(values["stick_left"]), values["blades"] == "flapping",
        float(values["stretch"]), WhatIf(kind, number, amount),
    )  # fmt: skip


def _blade_index(case_values: Values, rotor: Rotor) -> int:
    return min(int(float(case_values["blade"])), rotor.blades) - 1


def _turn(rotor: Rotor, setting: Setting) -> Motion:
    """The motion; what a link or the rods can't follow is the fault of the amount that was entered, where there is one."""
    try:
        return motion_of(rotor, setting)
    except Refused as refused:
        if not any(f.field in ("link_mm", "rod_1") for f in refused.faults):
            raise
        if setting.what_if.kind in _AMOUNT:
            raise refuse(
                _AMOUNT[setting.what_if.kind], "So far the pitch links and rods can't follow: choose less."
            ) from None
        raise refuse(
            "lever", "There the pitch links no longer reach: bring the plate nearer to level and to height 0."
        ) from None


def compute(values: Values, rotor: Rotor) -> Answer:
    """One exact turn; pose, pitch and flap of one blade now, lean of the links."""
    setting = setting_of(values)
    motion = _turn(rotor, setting)
    k = _blade_index(values, rotor)
    angle = float(values["rotor_angle"])
    pitch = tuple(row[k] for row in motion.pitch)
    flap = tuple(row[k] for row in motion.flap)
    h = harmonics(pitch)
    low = bearing_of(motion.pose.low_azimuth, rotor.rotation)
    results: dict[str, float | str] = {
        "height": motion.pose.height,
        "tilt": motion.pose.tilt,
        "low_bearing": bearing_words(low, 1) if motion.pose.tilt > 1e-9 else "level, no low point",
        "blade_bearing": bearing_words(blade_bearing(rotor, angle, k)),
        "pitch": _at(pitch, angle),
        "flap": _at(flap, angle),
        "collective": h.mean,
        "cyclic": h.amplitude,
        "link_lean": greatest_lean(motion),
    }
    f = harmonics(flap)
    if setting.flying and setting.what_if.kind == "none":
        lowest = bearing_of(f.greatest + HALF_TURN, rotor.rotation)
        # Blade k passes a place 360/N later for each blade before it: the disc is the same for all of them.
        lowest = bearing_of(azimuth_of(lowest, rotor.rotation) + k * TURN / rotor.blades, rotor.rotation)
        results["disc_tilt"] = f.amplitude
        results["disc_low"] = bearing_words(lowest, 1) if f.amplitude > math.radians(0.01) else "level"
    if setting.what_if.kind != "none":
        # Imported here: a part of its own in the browser (scripts/site/parts.py), for those who ask what if.
        from ..motion.words import CAUTION

        results["caution"] = CAUTION
    return Answer(results, (motion, angle, k, pitch, flap))


def _at(values: tuple[float, ...], angle: float) -> float:
    """A value between two steps."""
    n = len(values)
    place = (angle % TURN) / TURN * n
    i, t = int(place) % n, place - int(place)
    return values[i] + t * (values[(i + 1) % n] - values[i])


def describe(case: Case) -> str:
    """One sentence, or what comes of the part that is loose or wrong."""
    motion, _, k, _, _ = case.answer.details
    if case.values["what_if"] != "none":
        from ..motion.words import told

        return told(motion, case.show)
    r = case.answer.results
    flaps = f" and {case.show('angle', case.result('flap'))} of flap" if motion.setting.flying else ""
    tilt = (
        "level"
        if motion.pose.tilt < 1e-9
        else f"tilted {case.show('angle', case.result('tilt'))}, low {r['low_bearing']}"
    )
    return (
        f"With {hands_words(case.values)} the plate stands at {case.show('small_length', case.result('height'))}, {tilt}; "
        f"blade {k + 1}, {r['blade_bearing']}, has {case.show('angle', case.result('pitch'))} of pitch{flaps}."
    )


def working(case: Case) -> tuple[Step, ...]:
    """How the turn was found."""
    motion, angle, k, _, _ = case.answer.details
    a, rotor = case.show, case.rotor
    heights = ", ".join(a("small_length", rod.height) for rod in motion.rods)
    return (
        Step("The hands set the rods; the rings follow as one rigid plate on its bearing.",
             f"rods {heights}: height {a('small_length', motion.pose.height)}, tilt {a('angle', motion.pose.tilt, 2)}"),
        Step("The rotating ring's scissors point stays in a plane that turns with the mast; every link keeps its length.",
             f"links {a('small_length', rotor.link)}, leaning up to {a('angle', case.result('link_lean'))}", "closure"),
        Step(f"Blade {k + 1} with the rotor turned by {a('angle', angle, 0)}:",
             f"pitch {a('angle', case.result('pitch'), 2)}, flap {a('angle', case.result('flap'), 2)}"),
        Step("Flap is the blade's own answer once it has settled in the hover; with a part loose or wrong the blades are held level.",
             f"round the turn: mean pitch {a('angle', case.result('collective'), 2)}, first wave {a('angle', case.result('cyclic'), 2)}"),
    )  # fmt: skip


def drawing(case: Case) -> Drawing:
    """The head from the chosen side."""
    motion, angle, _, _, _ = case.answer.details
    part = str(case.values["part"])
    return head_view(
        motion, angle, str(case.values["view"]), case.values["labels"] == "on", "" if part == "none" else part
    )


def chart(case: Case) -> Chart:
    """Pitch and flap of one blade round the turn of the rotor."""
    motion, angle, k, pitch, flap = case.answer.details
    n = len(pitch)
    lines = [Line(f"pitch of blade {k + 1}", "pitch", (*pitch, pitch[0]))]
    if motion.setting.flying and motion.setting.what_if.kind == "none":
        lines.append(Line(f"flap of blade {k + 1}", "disc", (*flap, flap[0])))
    return Chart(
        f"Pitch and flap of blade {k + 1} round the turn", "rotor turned by, degrees", tuple(360.0 * i / n for i in range(n + 1)),
        "angle", "angle", tuple(lines), cursor=math.degrees(angle), cursor_field="rotor_angle", every=5,
    )  # fmt: skip


def tour(case: Case) -> str:
    """HTML of the part that is picked: what it does, what it touches, what would be without it, its page."""
    part = BY_ID.get(str(case.values["part"]))
    if part is None:
        return '<p class="hd-part-none">Pick a part in the picture or from the list to read what it does.</p>'
    # Imported here: fetched when a part is picked (scripts/site/parts.py).
    from ..motion.part_words import WORDS

    does, touches, without = WORDS[part.id]
    turns = "turns with the rotor" if part.turns else "stays with the fuselage"
    unseen = "" if part.shown else " It is not drawn here: its place differs from head to head."
    page = part.page.replace(".md", ".html")
    return (
        f'<p class="hd-part-name"><b>{escape(part.label)}</b> <span class="hd-part-{"turns" if part.turns else "stays"}">{turns}</span></p>'
        f"<dl><dt>What it does</dt><dd>{escape(does)}{unseen}</dd><dt>What it touches</dt><dd>{escape(touches)}</dd>"
        f'<dt>Without it</dt><dd>{escape(without)}</dd></dl><p><a class="hd-part-page" href="../{page}">Its page</a></p>'
    )


def view_data(case: Case) -> dict[str, Any]:
    """What the solid view draws: the turn as numbers, where it is looked at from, names and picked part."""
    motion, angle, k, _, _ = case.answer.details
    return scene(motion) | {
        "angle": round(math.degrees(angle), 4),
        "view": case.values["view"],
        "views": {name: [v.bearing, v.elevation] for name, v in VIEWS.items()},
        "labels": case.values["labels"] == "on",
        "part": case.values["part"],
        "traced": k,
        "names": {p.id: p.label for p in PARTS if p.shown},
        "turns": {p.id: p.turns for p in PARTS if p.shown},
        "screen": case.values["screen"],
        "controls": case.values["controls"],
        "hands": [float(case.values["lever"]), float(case.values["stick_forward"]), float(case.values["stick_left"])],
    }


CALCULATOR = Calculator(
    id="motion",
    title="The head, moving",
    question="What does every part do while the rotor turns?",
    page="see-it-move.md",
    inputs=(
        LEVER,
        FORWARD,
        LEFT,
        Number("rotor_angle", "Rotor turned by", "angle", 0, 360, (0, 360, 5), fixed(30.0), 0,
               "0: blade 1 over the tail; in the direction of rotation"),
        Choice("part", "Part", (("none", "none picked out"), *((p.id, p.label) for p in PARTS)), "none", group="Parts tour"),
        Choice("what_if", "What if", KINDS, "none", group=WHAT_IF),
        Number("behind", "Rotating ring lies behind by", "angle", -40, 60, (-20, 40, 1), fixed(10.0), 0,
               "against the rotation", group=WHAT_IF, applies=_is("drive_off")),
        Number("carried", "Stationary ring carried round by", "angle", -30, 30, (-20, 20, 1), fixed(10.0), 0,
               "with the rotation", group=WHAT_IF, applies=_is("stationary_off")),
        Number("rod", "Which rod", "count", 1, 6, (1, 6, 1), fixed(1.0), 0, group=WHAT_IF, applies=_is("rod_stopped", "rod_longer")),
        Number("rod_more", "Rod longer by", "small_length", -20, 20, (-10, 10, 0.5), fixed(3.0), 1, "negative is shorter",
               group=WHAT_IF, applies=_is("rod_longer")),
        Number("link_more", "Link longer by", "small_length", -15, 15, (-8, 8, 0.25), fixed(1.25), 2,
               "1.25 mm: one turn of a common thread", group=WHAT_IF, applies=_is("link_longer")),
        Number("play", "Play, end to end", "small_length", 0, 10, (0, 5, 0.1), fixed(1.0), 2, group=WHAT_IF,
               applies=_is("play_scissors", "play_link")),
        Choice("view", "Seen", tuple((k, v.words) for k, v in VIEWS.items()), "corner", group=LOOK),
        Choice("labels", "Labels", (("on", "shown"), ("off", "hidden")), "on", group=LOOK),
        Choice("blades", "Blades", (("flapping", "flapping, settled in the hover"), ("level", "held level, as when parked")), "flapping",
               group=LOOK),
        Number("blade", "Blade followed", "count", 1, 8, (1, 8, 1), fixed(1.0), 0, "its pitch and flap stand in the chart", group=LOOK),
        Number("stretch", "Tilt, cyclic pitch and flap drawn this many times", "count", 1, 3, (1, 3, 0.5), fixed(1.0), 1, "1 is true",
               group=LOOK),
        Choice("screen", "On a projector or a kiosk", (("page", "in the page"), ("show", "fill the screen, large labels")), "page",
               group=LOOK),
        Choice("controls", "Controls on the full screen", (
            ("all", "all of them"), ("hands", "stick and lever"), ("turning", "turning the rotor"), ("none", "none"),
        ), "all", group=LOOK, applies=lambda values, rotor: values["screen"] == "show"),
    ),
    figures_first=(),
    figures=(*ROD_FIGURES, *LINK_FIGURES, *HAND_FIGURES),
    results=(
        Result("height", "Plate height", "small_length", 1),
        Result("tilt", "Plate tilt", "angle", 1),
        Result("low_bearing", "Plate low", "words"),
        Result("blade_bearing", "The blade stands", "words"),
        Result("pitch", "Its pitch now", "angle", 1),
        Result("flap", "Its flap now", "angle", 1),
        Result("disc_tilt", "Disc tilt", "angle", 1),
        Result("disc_low", "Disc low", "words"),
        Result("collective", "Its mean pitch", "angle", 1, main=False),
        Result("cyclic", "Its cyclic pitch", "angle", 1, main=False),
        Result("link_lean", "Greatest lean of a link", "angle", 1, main=False),
        Result("caution", "Caution", "words"),
    ),
    compute=compute,
    describe=describe,
    working=working,
    drawing=drawing,
    equations={"closure": r"|\mathbf{h}(\eta,\beta) - \mathbf{f}(\psi)| = \ell"},
    limits=(
        "Rigid parts without play, except where play is asked for; no bending, no twist of the blade under load.",
        "Flap is the settled first harmonic in the hover; the links close exactly for it. Integrating the flap equation with "
        "the exact links lands within 0.25° of it at full stick and mid lever, within 0.75° with the lever at its ends.",
        "The rods' own length, the thickness of rings and the size of bearings and grips are drawn, not described: only joints, "
        "axes and angles are the head's.",
        "With a part loose or wrong only the geometry is worked out. How such a head would fly is not.",
    ),
    sources=("Rigid-body geometry: checked against an independent root-finder and a linear solve.",),
    examples=(
        Example("Full forward stick, blades held level: the cyclic pitch is what this head says of its stick", "the head's own figure", "birch2",
                {"lever": "50", "stick_forward": "100", "stick_left": "0", "blades": "level"}, {}, {"cyclic": (9.0, 0.001)}),
        # Flapping, the exact links give 9.04: a blade that flaps takes its horn along. Its response is that to the 9.00 commanded.
        Example("Full forward stick on a head with a central hinge and no spring: the disc tilts as far as the pitch asked for",
                "gain 1: W. Johnson, Helicopter Theory, ch. 5; from memory", "birch2",
                {"lever": "50", "stick_forward": "100", "stick_left": "0"}, {}, {"disc_tilt": (9.0, 0.001), "cyclic": (9.0, 0.05)}),
    ),
    chart=chart,
    scene=view_data,
    extra={"tour": tour},
)  # fmt: skip
