"""Figures between paragraphs: drawings and tables of the chosen head, by name."""

import math
from collections.abc import Callable, Iterable
from html import escape
from typing import Final

from . import units
from .blade.phase import budget_of
from .conventions import bearing_of
from .drawing import coning, disc, head_views, plan, rose, schemes, side, strips
from .drawing.flap_back import flap_back
from .drawing.inflow_roll import inflow_roll
from .drawing.low_g import low_g
from .drawing.sideways_balance import sideways_balance
from .drawing.tail_head import tail_rotor_head
from .drawing.two_sides import two_sides
from .fields import Drawing
from .flight.coning import coning_at_speed, lift_lever
from .mechanism.hands import rig_of
from .mechanism.links import harmonics, pitch_round, pitches_now
from .motion.setting import Setting
from .motion.turn import motion_of
from .rotor import Rotor
from .tables import mixing_matrix


def _pitch_strip(rotor: Rotor, system: units.System) -> Drawing:
    pose = rig_of(rotor).pose(0.5, 0.5, 0.0)
    curve = pitch_round(rotor, pose)
    now = pitches_now(rotor, pose, 0.0)
    return strips.pitch_strips(rotor, curve, now, 0.0, bearing_of(harmonics(curve).greatest, rotor.rotation))


def _head_view(rotor: Rotor, system: units.System) -> Drawing:
    return head_views.head_view(motion_of(rotor, Setting(0.5, 0.5, 0.0)), math.radians(30.0), "corner")


def _cones(rotor: Rotor, system: units.System) -> Drawing:
    lever = lift_lever(rotor)
    shares = (1.0, 0.9, 0.8)
    return coning.cones(
        rotor, [(f"{100 * s:.0f}% rpm", coning_at_speed(rotor, s * rotor.speed, lever)) for s in shares]
    )


FIGURES: Final[dict[str, Callable[[Rotor, units.System], Drawing]]] = {
    "rose": lambda r, s: rose.budget_rose(budget_of(r)),
    "predict-rose": lambda r, s: rose.predict_rose(r.rotation),
    "head-plan": lambda r, s: plan.head_plan(r),
    "side": lambda r, s: side.side_view(r, rig_of(r).pose(0.5, 0.5, 0.0), 0.0, s),
    "pitch-strip": _pitch_strip,
    "head-view": _head_view,
    "hydraulic-chain": lambda r, s: schemes.hydraulic_chain(r),
    "stick-pad": lambda r, s: disc.stick_pad(0.5, 0.5, 0.0),
    "scissors": lambda r, s: schemes.scissors(r),
    "flattening": lambda r, s: schemes.flattening(r),
    "precession": lambda r, s: schemes.precession(r),
    "cones": _cones,
    "flap-back": lambda r, s: flap_back(r),
    "inflow-roll": inflow_roll,
    "two-sides": two_sides,
    "sideways-balance": sideways_balance,
    "tail-rotor-head": lambda r, s: tail_rotor_head(r),
    "low-g": low_g,
}


TABLES: Final[dict[str, Callable[[Rotor, units.System], str]]] = {"mixing-matrix": mixing_matrix}


def figure_html(drawing: Drawing) -> str:
    """A drawing and its words."""
    return f'{drawing.svg}<span class="hd-caption">{escape(drawing.text)}</span>'


def figures(rotor: Rotor, system: units.System, names: Iterable[str] | None = None) -> dict[str, str]:
    """Drawings and tables by name for this head, as HTML; all of them when no names are given."""
    wanted = {*FIGURES, *TABLES} if names is None else set(names)
    drawn = {name: figure_html(draw(rotor, system)) for name, draw in FIGURES.items() if name in wanted}
    return drawn | {name: make(rotor, system) for name, make in TABLES.items() if name in wanted}
