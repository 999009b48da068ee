"""The Python that runs in the reader's browser: Pyodide, and the memory it has once the library and our package are in.

Written to `assets/hd/runtime/` for a web server, and once more as `assets/hd/payload.js` for a page opened from a
folder, where a browser reads no files but scripts.
"""

from __future__ import annotations

import base64
import gzip
import hashlib
import importlib
import json
import shutil
import sys
import tempfile
import zipfile
from collections.abc import Callable
from pathlib import Path
from typing import Any

import compiled
import parts
import trimmed
from house.paths import APP, BUILD, CALCULATORS, PACKAGE, SCRIPTS
from house.say import run_quietly
from house.stamps import fingerprint
from undocumented import without_annotations, without_docstrings

PYODIDE = APP / "node_modules" / "pyodide"
CACHE = BUILD / "runtime"
HERE = Path(__file__).resolve().parent
OWN_SCRIPTS = [HERE / name for name in ("runtime.py", "trimmed.py", "compiled.py", "undocumented.py", "parts.py")]
MATHML = HERE / "mathml.py"
REQUIREMENTS = SCRIPTS / "requirements.txt"

# Copied from Pyodide as they are; the rest is made here.
COPIED = ("pyodide.js", "pyodide.asm.js", "pyodide.asm.wasm")
STDLIB, WHOLE, CORE = "python_stdlib.zip", "whole.zip", "rotorhead.zip"
# The memory of Python with the core imported, compressed: a browser begins from there.
STARTED = "started.bin"


def _cached(name: str, key: str, make: Callable[[Path], None]) -> Path:
    """The file that `make` writes, from the cache if its inputs are the same; older ones are dropped."""
    path = CACHE / f"{key[:24]}-{name}"
    if not path.is_file():
        CACHE.mkdir(parents=True, exist_ok=True)
        for older in CACHE.glob(f"*-{name}"):
            older.unlink()
        partial = path.with_suffix(".partial")
        make(partial)
        partial.replace(path)
    return path


def _make_stdlib(path: Path) -> None:
    """The standard library's needed modules, compiled."""
    with (
        zipfile.ZipFile(PYODIDE / STDLIB) as library,
        tempfile.TemporaryDirectory() as folder,
    ):
        needed = trimmed.modules_needed(library, trimmed.imported_by(PACKAGE))
        sources = Path(folder) / STDLIB
        compiled.write_stored(sources, {name: _slim(name, library.read(name)) for name in needed})
        compiled.write_stored(path, compiled.compile_zip(sources))


def _slim(name: str, source: bytes) -> bytes:
    """A library file without docstrings; Pyodide's own modules read theirs while starting."""
    return source if name.startswith(("pyodide/", "_pyodide/")) else without_docstrings(source)


def _make_rotorhead(path: Path) -> None:
    """Our package as its wheel holds it, equations added, compiled, without the wheel's own notes."""
    with tempfile.TemporaryDirectory() as folder:
        tree = Path(folder) / "calculators"
        shutil.copytree(CALCULATORS, tree, ignore=shutil.ignore_patterns("__pycache__", "*.pyc", "dist"))
        if MATHML.is_file():
            importlib.import_module("mathml").write(tree / "src" / "rotorhead")
        for path_in_tree in (tree / "src").rglob("*.py"):
            path_in_tree.write_bytes(without_annotations(without_docstrings(path_in_tree.read_bytes())))
        out = Path(folder) / "wheel"
        run_quietly(
            [sys.executable, "-m", "build", "--wheel", "--no-isolation", "--outdir", out, tree],
            "The package in calculators/ could not be built as a wheel.",
        )
        (wheel,) = out.glob("*.whl")
        files = compiled.compile_zip(wheel)
        compiled.write_stored(path, {name: data for name, data in files.items() if ".dist-info/" not in name})


def _calculators() -> dict[str, str]:
    """Calculator id -> the module in topics/ that declares it."""
    topics = importlib.import_module("rotorhead.topics")
    return {name: topics.module_of(name) for name in topics.IDS}


def _make_part(whole: Path, modules: set[str]) -> Callable[[Path], None]:
    """The members of the whole package that a part needs, stored."""

    def make(path: Path) -> None:
        with zipfile.ZipFile(whole) as archive:
            names = parts.archive_names(modules, archive.namelist())
            compiled.write_stored(path, {name: archive.read(name) for name in names})

    return make


def _modules(archive: Path, wanted: Callable[[str], bool]) -> list[str]:
    """The modules of a zip by their dotted names."""
    with zipfile.ZipFile(archive) as opened:
        names = [name[:-4].removesuffix("/__init__") for name in opened.namelist() if name.endswith(".pyc")]
    return sorted(name.replace("/", ".") for name in names if wanted(name))


def _make_started(library: Path, core: Path) -> Callable[[Path], None]:
    """Python started in Node with everything imported that is ever needed, its memory written down."""

    def make(path: Path) -> None:
        with tempfile.TemporaryDirectory() as folder:
            lock, modules = Path(folder) / "lock.json", Path(folder) / "modules.json"
            lock.write_text(json.dumps(_lock()), encoding="utf-8")
            # Pyodide imports what it needs of its own, and of what speaks to a page, a network or other programs.
            away = ("pyodide", "_pyodide", "asyncio", "concurrent", "socket", "subprocess", "logging", "selectors")
            names = [
                *_modules(library, lambda name: not name.startswith(away)),
                *_modules(core, lambda name: not name.endswith("__main__")),
            ]
            modules.write_text(json.dumps(names), encoding="utf-8")
            run_quietly(
                ["node", HERE / "started.mjs", PYODIDE, library, core, lock, modules, path],
                "Python could not be started in Node to write its memory down.",
            )

    return make


def _lock() -> dict[str, Any]:
    """Pyodide's list of installable packages, emptied: nothing is ever installed from elsewhere."""
    lock = json.loads((PYODIDE / "pyodide-lock.json").read_text(encoding="utf-8"))
    return {"info": lock["info"], "packages": {}}


def _base64_of_gzip(source: Path) -> str:
    """A file as payload.js carries it; compressing 9 MB takes a second, so it is kept."""
    digest = hashlib.sha256(source.read_bytes()).hexdigest()
    name = source.name.partition("-")[2] + ".b64" if source.parent == CACHE else source.name + ".b64"

    def make(path: Path) -> None:
        path.write_bytes(base64.b64encode(gzip.compress(source.read_bytes(), 9, mtime=0)))

    return _cached(name, digest, make).read_text(encoding="ascii")


def _sources() -> dict[str, Path]:
    """Each runtime file's place, made if need be."""
    tools = fingerprint([*OWN_SCRIPTS, REQUIREMENTS])
    imports = " ".join(sorted(trimmed.imported_by(PACKAGE)))
    library = fingerprint([PYODIDE / STDLIB], tools, imports)
    package = fingerprint([CALCULATORS / "src", CALCULATORS / "pyproject.toml", MATHML], tools)
    whole = _cached(WHOLE, package, _make_rotorhead)
    divided = parts.divide(PACKAGE, _calculators())
    made = {name: _cached(name, package, _make_part(whole, modules)) for name, modules in divided.items()}
    stdlib = _cached(STDLIB, library, _make_stdlib)
    key = fingerprint([stdlib, made[CORE], HERE / "started.mjs", *(PYODIDE / name for name in COPIED)], tools)
    return {
        **{name: PYODIDE / name for name in COPIED},
        STARTED: _cached(STARTED, key, _make_started(stdlib, made[CORE])),
        **made,
    }


def describe(sources: dict[str, Path], packed: dict[str, str]) -> dict[str, Any]:
    """build.json: what this build is made of. The app carries the same."""
    files = {}
    for name, path in sources.items():
        content = path.read_bytes()
        files[name] = {
            "bytes": len(content),
            "gzip": len(packed[name]) * 3 // 4,
            "sha256": hashlib.sha256(content).hexdigest(),
        }
    everything = "".join(str(entry["sha256"]) for entry in files.values())
    package = json.loads((PYODIDE / "package.json").read_text(encoding="utf-8"))
    return {
        "build": hashlib.sha256(everything.encode()).hexdigest()[:12],
        "pyodide": package["version"],
        "lock": _lock(),
        "files": files,
    }


def write(target: Path) -> dict[str, Any]:
    """Write the runtime into `assets/hd` of the built site; give what build.json says."""
    sources = _sources()
    packed = {name: _base64_of_gzip(path) for name, path in sources.items()}
    build = describe(sources, packed)
    folder = target / "runtime"
    folder.mkdir(parents=True, exist_ok=True)
    for name, path in sources.items():
        shutil.copyfile(path, folder / name)
    (folder / "build.json").write_text(json.dumps(build, indent=1) + "\n", encoding="utf-8")
    payload = f"window.handToDiscPayload = {json.dumps(packed, separators=(',', ':'))};\n"
    (target / "payload.js").write_text(payload, encoding="ascii")
    return build
