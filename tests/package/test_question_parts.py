"""What a question of flight imports only when it is made must be in place in a browser by then."""

from __future__ import annotations

import ast
import inspect
from functools import cache
from pathlib import Path

import pytest
import rotorhead
from parts import CORE, QUESTIONS, divide, part_name
from rotorhead.questions.bank import TEMPLATES, coning, flap_back, hover, hub, sides, tied
from rotorhead.topics import IDS, module_of

BANKS = (hover, coning, tied, sides, flap_back, hub)
FLIGHT = [template.id for bank in BANKS for template in bank.TEMPLATES]


@cache
def divided() -> dict[str, set[str]]:
    return divide(Path(rotorhead.__file__).parent, {name: module_of(name) for name in IDS})


def imported_within(path: Path, function: str) -> set[str]:
    """Modules that a function of a bank's file, or one it calls there, imports when it runs."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    functions = {node.name: node for node in tree.body if isinstance(node, ast.FunctionDef)}
    found: set[str] = set()
    waiting, seen = [function], set()
    while waiting:
        name = waiting.pop()
        if name in seen or name not in functions:
            continue
        seen.add(name)
        for node in ast.walk(functions[name]):
            if isinstance(node, ast.ImportFrom):
                assert node.level == 3, "counted from the package's own folder"
                found.add(f"rotorhead.{node.module}")
            elif isinstance(node, ast.Name):
                waiting.append(node.id)
    return found


@pytest.mark.parametrize("name", FLIGHT)
def test_what_a_question_imports_later_comes_with_its_calculators(name: str) -> None:
    """In a browser a question finds only the core, its own part and its calculators' parts (scripts/site/parts.py)."""
    template = TEMPLATES[name]
    parts = divided()
    there = parts[CORE] | parts[QUESTIONS] | set().union(*(parts[part_name(one)] for one in template.calculators))
    path = Path(inspect.getfile(template.make))
    wanted = imported_within(path, template.make.__name__)
    # `sides` lends a function to `flap_back`.
    if path.stem == "flap_back" and name == "disc-high-with-speed":
        wanted |= imported_within(path.with_name("sides.py"), "unequal_air")
    assert wanted <= there, wanted - there
