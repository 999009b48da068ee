"""What stands in running text: values of a head and of calculators, by name."""

from collections.abc import Iterable
from html import escape

from . import derived, units
from .blade.phase import budget_of
from .fields import WORDS, Calculator
from .head_figures import BY_KEY, OPTION_BY_KEY
from .rotor import Rotor
from .run import HeadChoice, run
from .topics import IDS, named


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


def values(
    rotor: Rotor, choice: HeadChoice, system: units.System, names: Iterable[str] | None = None
) -> dict[str, str]:
    """Values a page may name, for this head: 'head.…', 'derived.…', 'words.…', '<calculator>.…'.

    With `names` only those, and only the calculators among them are run; names that don't exist are left out.
    """
    wanted = None if names is None else set(names)
    asked = IDS if wanted is None else [i for i in IDS if any(n.startswith(f"{i}.") for n in wanted)]
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
    for calculator in (named(i) for i in asked):
        answer = run(calculator, {}, rotor, system).answer
        for name, value in answer.results.items():
            found[f"{calculator.id}.{name}"] = result_html(calculator, name, value, system)
    bearing = units.from_si("angle", budget_of(rotor).plate_needed, "metric")
    found["phase.remainder_bearing_deg"] = f"{bearing:.1f}"
    return found if wanted is None else {n: html for n, html in found.items() if n in wanted}
