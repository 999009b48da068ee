"""Which modules of Python's standard library the browser needs, found from the imports themselves.

The full library is twice the download. What is kept: everything that Pyodide's own start and our package import,
and what those import in turn. Modules that are only imported inside some function of the library are left out unless
named here; a browser test runs every calculator on the result.
"""

from __future__ import annotations

import ast
import zipfile
from collections.abc import Iterable, Iterator
from pathlib import Path

# Folders of the library kept whole: Pyodide's own modules import each other at run time.
WHOLE = ("_pyodide", "pyodide", "importlib")
WHOLE_EXCEPT = ("pyodide/console.py", "importlib/metadata/")

# Imported by name by the interpreter itself, so no import statement shows them.
STARTED_WITH = (
    *("site", "io", "codecs", "zipimport", "encodings", "encodings.aliases", "encodings.utf_8"),
    *("encodings.ascii", "encodings.latin_1", "encodings.utf_8_sig", "encodings.cp437", "traceback", "warnings"),
)
# What a calculator may well import next, so that using one of these never changes the runtime in a surprising way.
COMMON = (
    *("json", "re", "html", "dataclasses", "typing", "enum", "functools", "collections", "itertools", "operator"),
    *("base64", "copy", "string", "textwrap", "bisect", "contextlib", "abc", "numbers"),
)
# Never for this system, though the library names them.
OTHER_SYSTEMS = ("asyncio/windows_events.py", "asyncio/windows_utils.py", "asyncio/proactor_events.py")


def _imports(tree: ast.AST, package: str, inside_functions: bool) -> Iterator[str]:
    """The module names that this source imports; names imported from a package may be modules too."""
    for node in ast.iter_child_nodes(tree):
        if not inside_functions and isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef | ast.Lambda):
            continue
        if isinstance(node, ast.If) and _is_not_for_a_plain_import(node.test):
            continue
        if isinstance(node, ast.Import):
            for alias in node.names:
                yield alias.name
        elif isinstance(node, ast.ImportFrom):
            base = node.module or ""
            if node.level:
                above = package.split(".")
                kept = above[: len(above) - node.level + 1]
                base = ".".join([*kept, node.module] if node.module else kept)
            yield base
            for alias in node.names:
                yield f"{base}.{alias.name}"
        yield from _imports(node, package, inside_functions)


def _is_not_for_a_plain_import(test: ast.expr) -> bool:
    """`if TYPE_CHECKING:` and `if __name__ == "__main__":` never run in the browser."""
    return any(isinstance(node, ast.Name) and node.id in ("TYPE_CHECKING", "__name__") for node in ast.walk(test))


def imported_by(package: Path) -> set[str]:
    """Every module name that a package of ours imports, anywhere in it. Its command line stays on the desk."""
    found: set[str] = set()
    for path in sorted(package.rglob("*.py")):
        if path.name == "__main__.py":
            continue
        inside = path.relative_to(package.parent).with_suffix("").parts
        within = inside[:-1]
        found.update(_imports(ast.parse(path.read_bytes()), ".".join(within), inside_functions=True))
    return found


def modules_needed(library: zipfile.ZipFile, roots: Iterable[str]) -> list[str]:
    """The files of the library that these modules need, themselves included."""
    names = {name for name in library.namelist() if name not in OTHER_SYSTEMS}

    def file_of(module: str) -> str | None:
        path = module.replace(".", "/")
        return next((name for name in (f"{path}/__init__.py", f"{path}.py") if name in names), None)

    whole = [
        name.removesuffix(".py").removesuffix("/__init__").replace("/", ".")
        for name in sorted(names)
        if name.endswith(".py") and name.split("/")[0] in WHOLE and not name.startswith(WHOLE_EXCEPT)
    ]
    kept: set[str] = set()
    todo = [*whole, *STARTED_WITH, *COMMON, *roots]
    while todo:
        module = todo.pop()
        while module:  # a submodule's packages are imported with it
            name = file_of(module)
            if name is not None and name not in kept:
                kept.add(name)
                package = module if name.endswith("/__init__.py") else module.rpartition(".")[0]
                todo.extend(_imports(ast.parse(library.read(name)), package, inside_functions=False))
            module = module.rpartition(".")[0]
    return sorted(kept)
