"""The bank: topics, beliefs and templates, one file of templates a topic or two."""

from typing import Final

from ...faults import refuse
from ..beliefs import BELIEFS as BELIEFS
from ..model import Template, by_id
from . import (
    coning,
    disc,
    flap_back,
    hover,
    hub,
    hydraulics,
    joints,
    lag,
    loads,
    measured,
    phase,
    pitch,
    plate,
    rods,
    shake,
    sides,
    stops,
    tied,
)

# Topic -> what it is called and the page that explains it, in the order they are best taught.
TOPICS: Final[dict[str, tuple[str, str]]] = {
    "rods": ("Hands and rods", "parts/rods.md"),
    "plate": ("The plate", "parts/swashplate.md"),
    "pitch": ("Links, horns and blade pitch", "parts/pitch-links.md"),
    "phase": ("How early the input is made", "principles/control-phase.md"),
    "lag": ("Lag, and what it isn’t", "principles/precession-or-lag.md"),
    "disc": ("The disc", "principles/disc-tilt.md"),
    "stops": ("Stops and limits", "hands/stops.md"),
    "joints": ("Scissors, play and the tilted ring", "hands/scissors-and-play.md"),
    "loads": ("Control loads", "hands/control-loads.md"),
    "shake": ("Shake and blade count", "hands/shake.md"),
    "hydraulics": ("Hydraulic help", "hands/hydraulics-off.md"),
    "hover": ("Air and hover", "flight/hover-and-height.md"),
    "coning": ("Coning", "flight/coning.md"),
    "delta-three": ("Delta-three", "flight/delta-three.md"),
    "lead-lag": ("Lead and lag", "flight/lead-lag.md"),
    "sides": ("Two sides of the disc", "flight/dissymmetry.md"),
    "flap-back": ("Flap-back and the stick", "flight/flap-back.md"),
    "drift": ("Drift and tail rotor", "flight/drift-and-tail-rotor.md"),
    "control-power": ("Control power", "flight/control-power.md"),
    "measured": ("Measuring a head", "own/inclinometer.md"),
}


TEMPLATES: Final = by_id(
    (
        *rods.TEMPLATES,
        *plate.TEMPLATES,
        *pitch.TEMPLATES,
        *phase.TEMPLATES,
        *lag.TEMPLATES,
        *disc.TEMPLATES,
        *stops.TEMPLATES,
        *joints.TEMPLATES,
        *loads.TEMPLATES,
        *shake.TEMPLATES,
        *hydraulics.TEMPLATES,
        *hover.TEMPLATES,
        *coning.TEMPLATES,
        *tied.TEMPLATES,
        *sides.TEMPLATES,
        *flap_back.TEMPLATES,
        *hub.TEMPLATES,
        *measured.TEMPLATES,
    )
)


def template(name: str) -> Template:
    """A template by id, or `Refused`."""
    if name not in TEMPLATES:
        raise refuse("template", f"There is no question “{name[:40]}”.")
    return TEMPLATES[name]
