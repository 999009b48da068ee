"""What stands in running text and between paragraphs: values by name, figures by name."""

from collections.abc import Callable, Iterable
from html import escape
from typing import Final

from . import derived, units
from .blade.phase import budget_of
from .conventions import bearing_of
from .drawing import disc, plan, rose, schemes, side, strips
from .fields import WORDS, Calculator, Drawing
from .head_figures import BY_KEY, OPTION_BY_KEY
from .mechanism.hands import rig_of
from .mechanism.links import harmonics, pitch_round, pitches_now
from .rotor import Rotor
from .run import HeadChoice, run
from .topics import ALL


def shown(quantity: str, si: float, system: units.System, places: int | None = None) -> str:
    """A figure with its unit as HTML, the unit set apart so that the page can set it smaller."""
    text = units.show(quantity, si, system, places)
    number, gap, unit = text.partition("\N{NARROW NO-BREAK SPACE}")
    return f'{number}<span class="hd-u">{gap}{escape(unit)}</span>' if gap else escape(number)


def result_html(calculator: Calculator, name: str, value: float | str, system: units.System) -> str:
    """One result of a calculator as HTML."""
    declared = next(r for r in calculator.results if r.name == name)
    if declared.quantity == WORDS or isinstance(value, str):
        return escape(str(value))
    return shown(declared.quantity, value, system, declared.decimals)


def values(rotor: Rotor, choice: HeadChoice, system: units.System) -> dict[str, str]:
    """Every value a page may name, for this head: 'head.…', 'derived.…', 'words.…', '<calculator>.…'."""
    head = rotor.head
    found = {
        "head.name": escape(head.name),
        "head.label": escape(choice.label),
        "head.rods": escape(str(len(head.rods))),
    }
    for key in head.keys():
        if key in OPTION_BY_KEY:
            found[f"head.{key}"] = escape(head.option(key))
            continue
        figure = BY_KEY[key]
        si = units.to_si(figure.quantity, head[key], "metric")
        found[f"head.{key}"] = shown(figure.quantity, si, system, figure.decimals)
    for name, item in derived.figures(rotor).items():
        found[f"derived.{name}"] = shown(item.quantity, item.value, system, item.decimals)
    found |= {f"words.{name}": escape(text) for name, text in derived.words(rotor).items()}
    if head["hinge_offset"]:
        found["words.hinge"] = units.show("small_length", rotor.hinge, system, 0) + " from the mast"
    for calculator in ALL.values():
        answer = run(calculator, {}, rotor, system).answer
        for name, value in answer.results.items():
            found[f"{calculator.id}.{name}"] = result_html(calculator, name, value, system)
    bearing = units.from_si("angle", budget_of(rotor).plate_needed, "metric")
    found["phase.remainder_bearing_deg"] = f"{bearing:.1f}"
    return found


def _pitch_strip(rotor: Rotor, system: units.System) -> Drawing:
    pose = rig_of(rotor).pose(0.5, 0.5, 0.0)
    curve = pitch_round(rotor, pose)
    now = pitches_now(rotor, pose, 0.0)
    return strips.pitch_strips(rotor, curve, now, 0.0, bearing_of(harmonics(curve).greatest, rotor.rotation))


FIGURES: Final[dict[str, Callable[[Rotor, units.System], Drawing]]] = {
    "rose": lambda r, s: rose.budget_rose(budget_of(r)),
    "predict-rose": lambda r, s: rose.predict_rose(r.rotation),
    "head-plan": lambda r, s: plan.head_plan(r),
    "side": lambda r, s: side.side_view(r, rig_of(r).pose(0.5, 0.5, 0.0), 0.0, s),
    "pitch-strip": _pitch_strip,
    "hydraulic-chain": lambda r, s: schemes.hydraulic_chain(r),
    "stick-pad": lambda r, s: disc.stick_pad(0.5, 0.5, 0.0),
    "scissors": lambda r, s: schemes.scissors(r),
    "precession": lambda r, s: schemes.precession(r),
}


def figure_html(drawing: Drawing) -> str:
    """A drawing and its words."""
    return f'{drawing.svg}<span class="hd-caption">{escape(drawing.text)}</span>'


def figures(rotor: Rotor, system: units.System, names: Iterable[str] | None = None) -> dict[str, str]:
    """Drawings by name for this head, as HTML; all of them when no names are given."""
    wanted = FIGURES.keys() if names is None else [n for n in names if n in FIGURES]
    return {name: figure_html(FIGURES[name](rotor, system)) for name in wanted}
