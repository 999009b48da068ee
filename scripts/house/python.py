"""Python 3.13, the browser runtime's own version, and the libraries of the lock file in `.build/venv`."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

from house.paths import BUILD, SCRIPTS, VENV
from house.say import TroubleError, run_quietly, say
from house.stamps import Stamp, fingerprint

WANTED = (3, 13)
REQUIREMENTS = SCRIPTS / "requirements.txt"
OFFLINE_HINT = "Is there a network, and does pip reach its package index?"


def venv_tool(name: str, venv: Path = VENV) -> Path:
    """The path of a program inside a virtual environment."""
    if os.name == "nt":
        return venv / "Scripts" / f"{name}.exe"
    return venv / "bin" / name


def _is_wanted(python: Path | str) -> bool:
    """Whether this program starts and is Python 3.13 (a version manager's stand-in may do neither)."""
    try:
        done = subprocess.run(
            [str(python), "-c", "import sys; print(*sys.version_info[:2])"],
            capture_output=True,
            text=True,
            timeout=30,
        )
    except (OSError, subprocess.TimeoutExpired):
        return False
    return done.returncode == 0 and done.stdout.split() == [str(part) for part in WANTED]


def _candidates() -> Iterator[Path]:
    """Where a Python 3.13 may be, cheapest first."""
    if sys.version_info[:2] == WANTED:
        yield Path(sys.executable)
    on_path = shutil.which("python3.13")
    if on_path:
        yield Path(on_path)
    home = Path.home()
    managers = [
        (Path(os.environ.get("PYENV_ROOT") or home / ".pyenv") / "versions", "3.13*"),
        (home / ".local" / "share" / "uv" / "python", "cpython-3.13*"),
        (BUILD / "python", "cpython-3.13*"),
    ]
    for folder, pattern in managers:
        for version in sorted(folder.glob(pattern), reverse=True):
            yield version / ("python.exe" if os.name == "nt" else "bin/python3")


def find_python() -> Path:
    """A Python 3.13 of this machine, or one fetched into the build folder."""
    for candidate in _candidates():
        if _is_wanted(candidate):
            return candidate
    return _fetch_python()


def _fetch_python() -> Path:
    """Let `uv`, installed from the Python package index, fetch Python 3.13."""
    say("No Python 3.13 on this machine: fetching one (about a minute) …")
    advice = (
        "Python 3.13 is needed and could not be found or fetched. Install Python 3.13 "
        "(so that `python3.13` starts it) and try again."
    )
    tools = BUILD / "uv"
    if not venv_tool("uv", tools).exists():
        make_venv(Path(sys.executable), tools)
        run_quietly([venv_tool("python", tools), "-m", "pip", "install", "--quiet", "uv"], advice)
    place = BUILD / "python"
    run_quietly([venv_tool("uv", tools), "python", "install", "--no-bin", "--install-dir", place, "3.13"], advice)
    for candidate in _candidates():
        if _is_wanted(candidate):
            return candidate
    raise TroubleError(advice)


def make_venv(python: Path, place: Path) -> None:
    """Make a virtual environment afresh."""
    run_quietly(
        [python, "-m", "venv", "--clear", place],
        f"A virtual environment could not be made with {python}. On Debian and Ubuntu the package "
        "`python3-venv` brings what is missing.",
    )


def install(requirements: Path, failure: str) -> None:
    """Install a lock file into the environment, checking every hash."""
    run_quietly(
        [
            venv_tool("python"),
            *("-m", "pip", "install", "--quiet", "--disable-pip-version-check", "--no-input"),
            *("--require-hashes", "--only-binary", ":all:", "--requirement", requirements),
        ],
        failure,
    )


def ensure_venv() -> None:
    """Have `.build/venv` with Python 3.13 and exactly the lock file's libraries."""
    stamp = Stamp("venv")
    state = fingerprint([REQUIREMENTS], "1")
    python = venv_tool("python")
    if stamp.says(state) and _is_wanted(python):
        return
    stamp.clear()
    say("Setting up Python 3.13 and the libraries of the build and the tests (two or three minutes, once) …")
    make_venv(find_python(), VENV)
    install(REQUIREMENTS, f"The libraries of scripts/requirements.txt could not be installed. {OFFLINE_HINT}")
    stamp.write(state)
