"""The only door to the package for the browser, the command line and the build: JSON text in and out.

`answer` never raises and never lets NaN or infinity out; what can't be answered comes back as a plain
sentence. The requests and answers are described in DEVELOPERS.md.
"""

import json
import sys
from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Any, Final, cast

from . import blade, drawing, flight, loads, measure, mechanism, motion, render, site_values, units  # noqa: F401 - packages that parts add to
from .faults import Fault, Refused, refuse
from .run import HeadChoice, as_drawn, form, head_choice, input_texts, rotor_of, run, without_idle_changes
from .topics import named

Request = Mapping[str, Any]
Reply = dict[str, Any]


def summary(choice: HeadChoice) -> Reply:
    """What a page shows about the head a request was for."""
    head = as_drawn(choice)
    return {
        "base": choice.base,
        **({"own": choice.own} if choice.own else {}),
        "name": head.name,
        "label": choice.label,
        "mirrored": choice.mirrored,
        "changed": sorted(choice.changes),
        "rotation": choice.changes.get("rotation", head.rotation),
    }


def _system(data: Request, key: str = "units") -> units.System:
    system = data.get(key, "metric")
    if system not in units.SYSTEMS:
        raise refuse("units", f"Units are metric or imperial, not “{str(system)[:20]}”.")
    return cast(units.System, system)


def _run(data: Request) -> Reply:
    calculator = named(str(data.get("calculator")))
    system, texts = _system(data), input_texts(data.get("inputs", {}))
    choice = without_idle_changes(head_choice(data.get("head", {})), system)
    faults: list[Fault] = []
    try:
        rotor = rotor_of(choice, system)
    except Refused as refused:
        # The inputs are judged too, on the head before the changes, so that all faults show at once.
        faults += refused.faults
        rotor = rotor_of(replace(choice, changes={}), system)
    try:
        case = run(calculator, texts, rotor, system)
    except Refused as refused:
        raise Refused([*faults, *refused.faults]) from None
    if faults:
        raise Refused(faults)
    skip = data.get("skip")
    skipped = skip if isinstance(skip, list) else []
    # The moving view is a picture of one head: its middle.
    spread = None
    if rotor.head.unknown and not calculator.scene:
        # Imported here, with the rest of what only described heads need.
        from .spread import spread_of

        spread = spread_of(calculator, texts, rotor.head, system)
    return {
        "calculator": calculator.id,
        "head": summary(choice),
        "units": system,
        "parts": render.parts(calculator, case, skipped, spread),
        "spoken": calculator.describe(case),
        "form": form(calculator, texts, rotor, choice, system, case.values),
        "results": render.results_list(calculator, case),
        **({"scene": calculator.scene(case)} if calculator.scene else {}),
    }


def _values(data: Request) -> Reply:
    system = _system(data)
    choice = without_idle_changes(head_choice(data.get("head", {})), system)
    rotor = rotor_of(choice, system)
    names, wanted = data.get("names"), data.get("figures")
    found = site_values.values(rotor, choice, system, names if isinstance(names, list) else None)
    drawings: dict[str, str] = {}
    if wanted != []:
        # Imported here: a page without figures of its own need not fetch their drawings (scripts/site/parts.py).
        from . import site_figures

        drawings = site_figures.figures(rotor, system, wanted if isinstance(wanted, list) else None)
    return {"head": summary(choice), "units": system, "values": found, "figures": drawings}


def _check(data: Request) -> Reply:
    system = _system(data)
    choice = without_idle_changes(head_choice(data.get("head", {})), system)
    rotor_of(choice, system)
    return {"head": summary(choice)}


def _carry(data: Request) -> Reply:
    """What the reader typed in other units, or for the head turned the other way: fetched when somebody changes them."""
    from . import carry_over

    act: Callable[[Request, units.System, units.System], Reply] = getattr(carry_over, str(data["op"]))
    return act(data, _system(data, "from"), _system(data, "to"))


def _own(data: Request) -> Reply:
    """Heads a reader has described: fetched only when somebody describes one (scripts/site/parts.py)."""
    from . import own_heads

    act: Callable[[Request, units.System], Reply] = getattr(own_heads, str(data["op"]))
    return act(data, _system(data))


def _questions(data: Request) -> Reply:
    """Questions and answers to them: fetched only where somebody is asked (scripts/site/parts.py)."""
    from .questions import desk

    act: Callable[[Request, units.System], Reply] = getattr(desk, str(data["op"]))
    return act(data, _system(data))


_OPS: Final[dict[str, Callable[[Request], Reply]]] = {
    "run": _run,
    "values": _values,
    "check": _check,
    **dict.fromkeys(("reunit", "turn"), _carry),
    **dict.fromkeys(("keep", "write", "read", "likely"), _own),
    **dict.fromkeys(("ask", "mark", "paper"), _questions),
}


def add_part(archive: str) -> None:
    """Make a further zip of this package importable: the browser fetches calculators one by one."""
    for name, module in list(sys.modules.items()):
        paths = getattr(module, "__path__", None)
        if paths is not None and name.partition(".")[0] == __package__:
            paths.append(f"{archive}/{name.replace('.', '/')}")


def answer(text: str) -> str:
    """One request as JSON text -> one answer as JSON text: result, invalid or failed. Never raises."""
    request_id: int | str | None = None
    try:
        data = json.loads(text)
        if not isinstance(data, dict):
            raise refuse("request", "A request is a JSON object.")
        given = data.get("id")
        request_id = given if isinstance(given, int | str) else None
        op = _OPS.get(str(data.get("op")))
        if op is None:
            raise refuse("op", f"There is no request “{str(data.get('op'))[:40]}”.")
        reply: Reply = {"state": "result", "id": request_id, **op(data)}
        return json.dumps(reply, allow_nan=False)
    except Refused as refused:
        return json.dumps({
            "state": "invalid", "id": request_id,
            "faults": [{"field": f.field, "head": f.head, "text": f.text} for f in refused.faults],
        })  # fmt: skip
    except Exception as error:  # the door is the last place that can turn a fault into a sentence
        return json.dumps({
            "state": "failed", "id": request_id,
            "text": "This could not be computed; please go back to the head's own figures.",
            "kind": type(error).__name__,
        })  # fmt: skip
