"""What follows from a head's description: the derived figures and the words the pages use."""

import math
from dataclasses import dataclass
from functools import lru_cache

from .blade import flap, phase
from .conventions import (
    HALF_TURN,
    advancing_side,
    after_side,
    bearing_words,
    before_side,
    count_word,
    degrees_text,
    offset_words,
)
from .flight import hover
from .mechanism.assembly import greatest_link_lean, pitch_per_height
from .mechanism.hands import rig_of
from .rotor import Rotor


@dataclass(frozen=True, slots=True)
class Derived:
    """One derived figure: label, quantity and decimals for showing it, and its SI value."""

    name: str
    label: str
    quantity: str
    decimals: int | None
    value: float


@lru_cache(maxsize=16)
def figures(rotor: Rotor) -> dict[str, Derived]:
    """Every derived figure of a head at its design condition (ISA sea level, hover, declared rpm)."""
    f = flap.flapping_of(rotor)
    b = phase.budget_of(rotor)
    rig = rig_of(rotor)
    ct = hover.thrust_coefficient(rotor)
    pitch, _ = hover.hover_pitch(rotor)
    rows = (
        ("tip_speed", "Tip speed", "speed", 1, rotor.speed * rotor.radius),
        ("ring_radius", "Links stand on the rotating ring at", "small_length", 0, rotor.ring_radius),
        ("hinge_mm", "Flap hinge from the mast", "small_length", 0, rotor.hinge),
        ("lead", "Lead of the links' lower ends", "angle", 1, rotor.lead),
        ("delta3", "Delta-three", "angle", 1, math.atan(rotor.tan_delta3)),
        ("flap_inertia", "Blade inertia about the flap hinge", "inertia", 1, rotor.flap_inertia),
        ("lock", "Lock number", "ratio", 2, f.gamma),
        ("nu", "Flap frequency over rotor speed", "ratio", 4, f.nu),
        ("lag", "Lag, from commanded pitch", "angle", 1, f.lag),
        ("lag_actual", "Lag, from actual pitch", "angle", 1, f.lag_actual),
        ("lag_inflow", "Lag with moment inflow", "angle", 1, f.lag_inflow),
        ("gain", "Disc tilt over cyclic pitch", "ratio", 3, f.gain),
        ("offset", "Needed before the nose", "angle", 1, b.needed),
        ("fitted", "Rod set stands before the nose", "angle", 1, b.fitted),
        ("closure", "Left over", "angle", 2, b.error),
        ("degrees_per_mm", "Blade pitch for plate height", "pitch_per_travel", 3, pitch_per_height(rotor)),
        ("link_lean", "Greatest lean of a link", "angle", 1, greatest_link_lean(rotor)),
        ("plate_collective", "Plate travel over the collective", "small_length", 1,
         abs(rig.lever_high - rig.lever_low)),
        ("plate_tilt_fore_aft", "Plate tilt at full fore or aft stick", "angle", 2, rig.fore_aft),
        ("plate_tilt_left_right", "Plate tilt at full left or right stick", "angle", 2, rig.left_right),
        ("solidity", "Solidity", "ratio", 4, rotor.solidity),
        ("sigma", "Solidity", "ratio", 4, rotor.solidity),
        ("disc_loading", "Disc loading", "disc_loading", 0, hover.disc_loading(rotor)),
        ("ct", "Thrust coefficient in the hover", "ratio", 5, ct),
        ("ct_sigma", "Blade loading in the hover", "ratio", 4, ct / rotor.solidity),
        ("hover_pitch", "Pitch at 0.75 R in the hover", "angle", 1, pitch),
        ("hover_command", "Pitch the plate asks for in the hover", "angle", 1, flap.hover_command(rotor)),
        ("coning", "Coning in the hover", "angle", 1, flap.hover_coning(rotor)),
        ("hub_moment", "Hub moment for a degree of disc tilt", "moment_per_angle", 0,
         flap.hub_moment_slope(rotor)),
        ("thrust_moment", "Moment of the tilted thrust for a degree", "moment_per_angle", 0,
         rotor.weight * rotor.mast_above_cg),
        ("blade_pull", "Pull of one blade on its root", "pull", 0, flap.blade_pull(rotor)),
        ("propeller_moment", "Flattening moment of one blade in the hover", "moment", 0,
         flap.propeller_moment(rotor, pitch)),
        ("settle_63_s", "63% of a change made after", "time", 3, f.settle_63 / rotor.speed),
        ("settle_63_turns", "63% of a change made after", "turns", 2, f.settle_63),
        ("settle_95_turns", "95% of a change made after", "turns", 2, f.settle_95),
    )  # fmt: skip
    return {row[0]: Derived(*row) for row in rows}


_TYPE_SENTENCES = {
    "teetering": "two blades joined like a see-saw on a hinge at the mast's axis",
    "articulated": "blades on flap hinges a short way out from the mast",
    "hingeless": "blades held stiffly at the root, bending instead of hinging",
}


@lru_cache(maxsize=16)
def words(rotor: Rotor) -> dict[str, str]:
    """Phrases about a head, true for it in either direction of rotation."""
    b = phase.budget_of(rotor)
    first, second = phase.sum_lines(b)
    turning = rotor.rotation
    hinge = "on the mast's axis" if rotor.hinge == 0.0 else f"{rotor.hinge * 1000:.0f} mm from the mast"
    return {
        "offset": offset_words(b.needed, turning),
        "fitted": offset_words(b.fitted, turning),
        "offset_size": degrees_text(abs(b.needed), 0),
        "turning": f"{turning}, seen from above",
        "before_side": before_side(turning),
        "after_side": after_side(turning),
        "advancing_side": advancing_side(turning),
        "retreating_side": after_side(turning),
        "horn_side": "trailing" if rotor.trailing else "leading",
        "horn_place": "behind" if rotor.trailing else "ahead of",
        "sum": f"{first} {second}",
        "lag": degrees_text(b.lag, 0),
        "lead": degrees_text(b.lead, 0),
        "hinge": hinge,
        "rods": count_word(len(rotor.rod_azimuths)),
        "blades": count_word(rotor.blades),
        "type": rotor.head.option("type"),
        "type_sentence": _TYPE_SENTENCES[rotor.head.option("type")],
        "actuators": count_word(int(rotor.head["actuators"])) if rotor.head["actuators"] else "no",
        "plate_low": bearing_words(b.plate_low, 0),
        "pitch_least": bearing_words(b.pitch_least, 0),
        "disc_low": bearing_words(b.disc_low, 0),
        "pitch_greatest": bearing_words(b.pitch_least + HALF_TURN, 0),
    }
