"""The package in parts: a core that every live page fetches, and one part for each calculator and for the figures.

What belongs to which follows from the imports themselves: the core is all that the door imports when it is imported; a
part is what its module needs besides. A module that two parts need stands in both; whichever comes first is used.
"""

from __future__ import annotations

import ast
from pathlib import Path

from rotorhead.render import MATHML

PACKAGE_NAME = "rotorhead"
CORE = "rotorhead.zip"
FIGURES = "part-figures.zip"
OWN = "part-own.zip"
WHAT_IF = "part-what-if.zip"
SKETCHES = "part-sketches.zip"
CARRY = "part-carry.zip"
TOUR = "part-tour.zip"
QUESTIONS = "part-questions.zip"


def part_name(calculator: str) -> str:
    """File name of the part that carries a calculator."""
    return f"part-{calculator}.zip"


def _module(path: Path, package: Path) -> str:
    name = ".".join((PACKAGE_NAME, *path.relative_to(package).with_suffix("").parts))
    return name.removesuffix(".__init__")


def _top_level(tree: ast.Module) -> list[ast.ImportFrom]:
    """Relative imports made when the module is imported, not those inside functions."""
    return [node for node in tree.body if isinstance(node, ast.ImportFrom) and node.level]


def imports(package: Path) -> dict[str, set[str]]:
    """Module -> modules of this package it imports at its top."""
    files = {_module(p, package): p for p in package.rglob("*.py")}
    graph: dict[str, set[str]] = {}
    for module, path in files.items():
        base = module.split(".") if path.name == "__init__.py" else module.split(".")[:-1]
        found: set[str] = set()
        for node in _top_level(ast.parse(path.read_bytes())):
            start = base[: len(base) - (node.level - 1)]
            target = ".".join([*start, node.module] if node.module else start)
            found.add(target)
            found |= {f"{target}.{alias.name}" for alias in node.names}
        graph[module] = {name for name in found if name in files}
    return graph


def closure(graph: dict[str, set[str]], *roots: str) -> set[str]:
    """Modules needed to import the roots, packages above them included."""
    needed: set[str] = set()
    waiting = list(roots)
    while waiting:
        module = waiting.pop()
        if module in needed:
            continue
        needed.add(module)
        waiting += graph[module]
        if "." in module:
            waiting.append(module.rpartition(".")[0])
    return needed


def divide(package: Path, calculators: dict[str, str]) -> dict[str, set[str]]:
    """Part's file name -> modules; `calculators` maps an id to its module's name in topics/."""
    graph = imports(package)
    core = closure(graph, f"{PACKAGE_NAME}.door")
    parts = {CORE: core, FIGURES: closure(graph, f"{PACKAGE_NAME}.site_figures") - core}
    for name, module in calculators.items():
        # Its equations are a module that the build writes (mathml.py).
        made = f"{PACKAGE_NAME}.topics.{MATHML}{module}"
        parts[part_name(name)] = (closure(graph, f"{PACKAGE_NAME}.topics.{module}") - core) | {made}
    parts[OWN] = closure(graph, *(f"{PACKAGE_NAME}.{name}" for name in ("own_heads", "spread", "head_packed"))) - core
    parts[WHAT_IF] = closure(graph, f"{PACKAGE_NAME}.motion.words") - core - parts[part_name("motion")]
    shown_later = (f"{PACKAGE_NAME}.drawing.dimensions_{name}" for name in ("hub", "more", "rotor", "side"))
    parts[SKETCHES] = closure(graph, *shown_later) - core - parts[part_name("describe")]
    parts[CARRY] = closure(graph, f"{PACKAGE_NAME}.carry_over") - core
    parts[TOUR] = closure(graph, f"{PACKAGE_NAME}.motion.part_words") - core - parts[part_name("motion")]
    parts[QUESTIONS] = closure(graph, f"{PACKAGE_NAME}.questions.desk") - core
    return parts


def archive_names(modules: set[str], archive: list[str]) -> list[str]:
    """Members of the whole package's archive that belong to these modules; data files go with the core."""
    chosen = []
    for member in archive:
        stem = member.rpartition(".")[0].replace("/", ".").removesuffix(".__init__")
        is_code = member.endswith((".pyc", ".py"))
        if (is_code and stem in modules) or (not is_code and f"{PACKAGE_NAME}.door" in modules):
            chosen.append(member)
    return chosen
