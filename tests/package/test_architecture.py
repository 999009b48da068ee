"""How the package is built: imports run one way, standard library only, small files, no side doors."""

import ast
import re
import sys
from pathlib import Path

import pytest
import rotorhead
from parts import imports as module_graph

ROOT = Path(rotorhead.__file__).parent
FILES = sorted(ROOT.rglob("*.py"))
IDS = [str(f.relative_to(ROOT)) for f in FILES]

# Small helpers the docstring's line of layers leaves out: below everything, or between two layers.
BELOW = ("faults", "numbers", "head_figures")
BEFORE_DOOR = ("run", "spread", "own_heads", "carry_over", "site_values", "site_figures", "charts", "tables", "render")
ABOVE = ("__main__",)


def layers() -> dict[str, int]:
    """Module or folder -> its height, read from the package's own docstring."""
    text = re.sub(r"\s+", " ", rotorhead.__doc__ or "")
    found = re.search(r"runs upward: (.*?)\.", text)
    assert found, "the package's docstring no longer states its layers"
    heights: dict[str, int] = dict.fromkeys(BELOW, -1)
    line = [part.strip() for part in found[1].split("->")]
    for height, part in enumerate(line):
        for name in part.split(","):
            heights[name.strip()] = height
    heights |= dict.fromkeys(BEFORE_DOOR, heights["door"])
    heights |= dict.fromkeys(ABOVE, heights["door"] + 1)
    return heights


def imports(path: Path) -> list[tuple[str, str]]:
    """('package', module) for imports of our own, ('outside', module) for the rest."""
    here = list(path.relative_to(ROOT).parts[:-1])
    found: list[tuple[str, str]] = []
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            found += [("outside", alias.name.partition(".")[0]) for alias in node.names]
        elif isinstance(node, ast.ImportFrom) and not node.level:
            found.append(("outside", str(node.module).partition(".")[0]))
        elif isinstance(node, ast.ImportFrom):
            base = here[: len(here) - (node.level - 1)]
            names = [node.module] if node.module else [alias.name for alias in node.names]
            found += [("package", [*base, *name.split(".")][0]) for name in names]
    return found


def place(path: Path) -> str:
    """Top-level module or folder a file belongs to."""
    return path.relative_to(ROOT).parts[0].removesuffix(".py")


def test_every_module_has_a_layer() -> None:
    """Nothing stands outside the order; the order names nothing that isn't there."""
    places = {place(f) for f in FILES} - {"__init__"}
    assert places == set(layers())


@pytest.mark.parametrize("path", FILES, ids=IDS)
def test_no_import_runs_upward(path: Path) -> None:
    """A module imports from its own layer or below (ast, so imports inside functions count too)."""
    heights, here = layers(), place(path)
    for kind, name in imports(path):
        if kind == "package" and here != "__init__":
            assert heights[name] <= heights[here], f"{here} imports {name} from a higher layer"


def test_no_modules_import_each_other() -> None:
    """Folders that share a layer (blade and flight) may use each other, their modules never in a circle."""
    graph = module_graph(ROOT)
    waiting = {name: set(needs) - {name} for name, needs in graph.items()}
    while free := {name for name, needs in waiting.items() if not needs}:
        waiting = {name: needs - free for name, needs in waiting.items() if name not in free}
    assert not waiting, f"a circle among {sorted(waiting)}"


@pytest.mark.parametrize("path", FILES, ids=IDS)
def test_standard_library_only(path: Path) -> None:
    """Nothing to install: the same code runs in a browser."""
    outside = {name for kind, name in imports(path) if kind == "outside"}
    assert outside <= set(sys.stdlib_module_names)


@pytest.mark.parametrize("path", FILES, ids=IDS)
def test_small_file(path: Path) -> None:
    """No file over 400 lines."""
    assert len(path.read_text(encoding="utf-8").splitlines()) <= 400


@pytest.mark.parametrize("path", FILES, ids=IDS)
def test_no_side_doors(path: Path) -> None:
    """No printing, no files, no code from text outside the command line and the head's reading."""
    if place(path) in ("__main__", "head"):
        return
    forbidden = {"print", "open", "input", "exec", "eval", "compile", "__import__", "breakpoint"}
    written = {"write_text", "write_bytes", "unlink", "mkdir", "open"}
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Call):
            if isinstance(node.func, ast.Name):
                assert node.func.id not in forbidden
            if isinstance(node.func, ast.Attribute):
                assert node.func.attr not in written


@pytest.mark.parametrize("path", FILES, ids=IDS)
def test_every_module_says_what_it_is_for(path: Path) -> None:
    """A docstring to each module."""
    assert ast.get_docstring(ast.parse(path.read_text(encoding="utf-8")))
