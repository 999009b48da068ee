"""The house's own rules: checkers are clean, nothing built or vendored is tracked, no host is named."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

import pytest


def _run(root: Path, *command: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(command, cwd=root, capture_output=True, text=True, check=False)


def _tracked(root: Path) -> list[Path]:
    listed = _run(root, "git", "ls-files", "-z").stdout.split("\0")
    return [root / name for name in listed if name and (root / name).is_file()]


@pytest.mark.parametrize(
    "command",
    [("ruff", "check", "."), ("mypy",)],
    ids=["ruff", "mypy"],
)
def test_python_checkers_are_clean(root: Path, command: tuple[str, ...]) -> None:
    done = _run(root, sys.executable, "-m", *command)
    assert done.returncode == 0, done.stdout + done.stderr


def test_typescript_checks_the_javascript(root: Path) -> None:
    app = root / "docs/assets/app"
    compiler = app / "node_modules/typescript/bin/tsc"
    assert compiler.exists(), "npm ci has not been run in docs/assets/app"
    done = _run(app, "node", str(compiler), "--noEmit", "-p", "tsconfig.json")
    assert done.returncode == 0, done.stdout + done.stderr


def test_nothing_built_or_vendored_is_tracked(root: Path) -> None:
    bad = [
        p
        for p in _tracked(root)
        if p.suffix in {".pyc", ".wasm", ".whl", ".zip", ".map"}
        or "node_modules" in p.parts
        or p.stat().st_size > 600_000
    ]
    assert not bad


def test_no_registry_host_and_no_path_of_one_machine(root: Path) -> None:
    # Put together here, so that this file names none of them either.
    names = (("pypi", "org"), ("pythonhosted", "org"), ("npmjs", "org"), ("npmjs", "com"), ("debian", "org"))
    homes = ("/".join(("", "home", "[a-z]+", "")), "/".join(("", "root", "")))
    hosts = re.compile("|".join((*(r"\.".join(name) for name in names), *homes)), re.IGNORECASE)
    found = []
    for path in _tracked(root):
        try:
            text = path.read_text(encoding="utf-8")
        except UnicodeDecodeError:
            continue
        found += [f"{path.relative_to(root)}: {m[0]}" for m in hosts.finditer(text)]
    # Pyodide's own file system inside the browser, and Debian's, have a home too; only a real person's path is meant.
    assert not [f for f in found if "/home/pyodide" not in f]


def test_top_level_is_what_was_agreed(root: Path) -> None:
    allowed = {"README.md", "DEVELOPERS.md", "LICENSE", "mkdocs.yml", "docs", "calculators", "tests", "scripts"}
    top = {p.relative_to(root).parts[0] for p in _tracked(root)}
    assert {name for name in top if not name.startswith(".")} <= allowed


def test_locks_carry_hashes_and_no_addresses(root: Path) -> None:
    requirements = (root / "scripts/requirements.txt").read_text(encoding="utf-8")
    assert "--hash=sha256:" in requirements
    assert "http" not in requirements
    lock = (root / "docs/assets/app/package-lock.json").read_text(encoding="utf-8")
    assert '"integrity"' in lock
    assert '"resolved"' not in lock


def test_files_stay_short(root: Path) -> None:
    long = {
        str(p.relative_to(root)): n
        for p in _tracked(root)
        if p.suffix in {".py", ".js"} and (n := len(p.read_text(encoding="utf-8").splitlines())) > 400
    }
    assert not long
