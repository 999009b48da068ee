"""Calculator *beside*: two heads side by side, what differs marked, for a conversion lesson."""

import math
from html import escape

from ..blade.phase import budget_of
from ..derived import figures as derived_figures
from ..derived import words
from ..drawing.rose import budget_rose
from ..faults import Refused, refuse
from ..fields import Answer, Calculator, Case, Choice, Drawing, Example, Result, Step, Text, Values
from ..head import DEMONSTRATION, OWN_ID, demonstration
from ..head_changes import mirrored
from ..head_figures import BY_KEY, GROUPS, OPTION_BY_KEY
from ..head_packed import unpack
from ..mechanism.assembly import assembled
from ..rotor import Rotor
from ..units import System, from_si, show, to_si

# Derived figures worth a lesson, in the order of the chain.
_COMPARED = (
    "offset", "fitted", "closure", "lead", "lag", "lag_actual", "delta3", "gain", "nu", "lock", "degrees_per_mm", "ring_radius", "hinge_mm",
    "tip_speed", "link_lean",
)  # fmt: skip
# Differences smaller than this share are not marked.
_ALIKE = 0.02


def other_rotor(values: Values) -> Rotor:
    """The second head."""
    which = str(values["other"])
    if which == OWN_ID:
        text = str(values["other_head"]).strip()
        if not text:
            raise refuse("other_head", "The other head: paste a packed head, or choose one of the list.")
        try:
            head = assembled(unpack(text)).head
        except Refused as refused:
            raise refuse("other_head", f"The other head: {refused.faults[0].text}") from None
    else:
        head = demonstration(which)
    return assembled(mirrored(head) if values["turned"] == "yes" else head)


def compute(values: Values, rotor: Rotor) -> Answer:
    """Both heads' angles, and how far apart they are."""
    other = other_rotor(values)
    here, there = budget_of(rotor), budget_of(other)
    same_way = rotor.rotation == other.rotation
    return Answer(
        {
            "here": words(rotor)["offset"],
            "there": words(other)["offset"],
            "apart": abs(here.needed - there.needed),
            "lag_here": here.lag,
            "lag_there": there.lag,
            "turning": f"both {rotor.rotation}" if same_way else f"{rotor.rotation}, the other {other.rotation}",
        },
        other,
    )


def describe(case: Case) -> str:
    """One sentence."""
    other: Rotor = case.answer.details
    r = case.answer.results
    way = "" if case.rotor.rotation == other.rotation else " They turn opposite ways, so the sides change places."
    return (
        f"{case.rotor.head.name} needs its plate low {r['here']}, {other.head.name} {r['there']}: "
        f"{case.show('angle', case.result('apart'), 0)} apart before the nose.{way}"
    )


def working(case: Case) -> tuple[Step, ...]:
    """Both sums."""
    other: Rotor = case.answer.details
    return (
        Step(f"{case.rotor.head.name}:", words(case.rotor)["sum"], "sum"),
        Step(f"{other.head.name}:", words(other)["sum"]),
    )


def drawing(case: Case) -> Drawing:
    """The other head's rose; the chosen head's stands on its own pages, and both on the sheet beneath."""
    return budget_rose(budget_of(case.answer.details))


def _differs(a: float | str, b: float | str) -> bool:
    if isinstance(a, str) or isinstance(b, str):
        return a != b
    return abs(a - b) > _ALIKE * max(abs(a), abs(b), 1e-9) and not math.isclose(a, b, abs_tol=1e-6)


def _row(label: str, a: float | str, b: float | str, texts: tuple[str, str]) -> str:
    mark = ' class="hd-differs"' if _differs(a, b) else ""
    sign = "≠ " if mark else ""
    return f'<tr{mark}><th scope="row">{escape(label)}</th><td>{escape(texts[0])}</td><td>{sign}{escape(texts[1])}</td></tr>'


def _figure_text(key: str, rotor: Rotor, system: System) -> tuple[float | str, str]:
    head = rotor.head
    if key in OPTION_BY_KEY:
        return head.option(key), dict(OPTION_BY_KEY[key].choices)[head.option(key)].partition(":")[0]
    if key not in head.keys():  # noqa: SIM118 - a head is no mapping
        return "none", "none"
    figure = BY_KEY[key]
    si = to_si(figure.quantity, head[key], "metric")
    return from_si(figure.quantity, si, system), show(figure.quantity, si, system, figure.decimals)


def sheet(case: Case) -> str:
    """Both heads in one table, differences marked; both roses above it."""
    other: Rotor = case.answer.details
    names = (case.rotor.head.name, other.head.name)
    roses = "".join(
        f"<figure>{budget_rose(budget_of(r)).svg}<figcaption>{escape(n)}, turning {r.rotation}</figcaption></figure>"
        for r, n in zip((case.rotor, other), names, strict=True)
    )
    mine, theirs = derived_figures(case.rotor), derived_figures(other)
    rows = '<tr class="hd-group"><th colspan="3" scope="rowgroup">What follows</th></tr>'
    for name in _COMPARED:
        a, b = mine[name], theirs[name]
        at, bt = (show(x.quantity, x.value, case.units, x.decimals) for x in (a, b))
        rows += _row(a.label, a.value, b.value, (at, bt))
    for group, title in GROUPS.items():
        rows += f'<tr class="hd-group"><th colspan="3" scope="rowgroup">{escape(title)}</th></tr>'
        for key in dict.fromkeys((*case.rotor.head.keys(), *other.head.keys())):
            declared = OPTION_BY_KEY.get(key) or BY_KEY[key]
            if declared.group == group:
                (x, xt), (y, yt) = (_figure_text(key, r, case.units) for r in (case.rotor, other))
                rows += _row(declared.label, x, y, (xt, yt))
    return (
        f'<div class="hd-two-roses">{roses}</div><div class="hd-scroll" tabindex="0" role="region" aria-label="Two heads compared">'
        f'<table class="hd-all hd-beside"><caption>{escape(names[0])} beside {escape(names[1])}; ≠ marks a difference of more than '
        f'{100 * _ALIKE:.0f}%</caption><thead><tr><td></td><th scope="col">{escape(names[0])}</th><th scope="col">{escape(names[1])}</th></tr>'
        f"</thead><tbody>{rows}</tbody></table></div>"
    )


CALCULATOR = Calculator(
    id="beside",
    title="Two heads side by side",
    question="How does another head differ from this one?",
    page="own/side-by-side.md",
    inputs=(
        Choice("other", "The other head", (*((h, demonstration(h).name) for h in DEMONSTRATION), (OWN_ID, "one of your own")), "birch2"),
        Choice("turned", "The other head turned the other way", (("no", "no"), ("yes", "yes")), "no"),
        Text("other_head", "The other head, packed", 3000, "", "chosen from your own, or pasted",
             applies=lambda values, rotor: values["other"] == OWN_ID),
    ),
    figures_first=(),
    figures=(),
    results=(
        Result("here", "This head: plate must be low", "words"),
        Result("there", "The other: plate must be low", "words"),
        Result("apart", "Apart before the nose", "angle", 1),
        Result("lag_here", "This head: lag", "angle", 1),
        Result("lag_there", "The other: lag", "angle", 1),
        Result("turning", "Turning", "words"),
    ),
    compute=compute,
    describe=describe,
    working=working,
    drawing=drawing,
    equations={"sum": r"\delta = \varphi - \Delta + H"},
    limits=("Two heads side by side show what to expect, not how a machine flies: the flight manual and training on the type do that.",),
    sources=("Both heads by the same calculators.",),
    examples=(
        Example("Alder 3 beside a head with a central hinge: its whole offset apart", "the sum of the budget; common practice for the central hinge",
                "alder3", {"other": "birch2"}, {}, {"apart": (25.0, 0.3), "lag_there": (90.0, 1e-9)}),
    ),
    extra={"beside": sheet},
)  # fmt: skip
