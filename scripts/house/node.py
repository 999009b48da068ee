"""Node (20 or newer) and the JavaScript libraries of the lock file."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
from pathlib import Path

from house.paths import APP, SCRIPTS, VENV
from house.python import OFFLINE_HINT, install, venv_tool
from house.say import TroubleError, run_quietly, say
from house.stamps import Stamp, fingerprint

OLDEST = 20
LOCK_FILES = [APP / "package.json", APP / "package-lock.json", APP / ".npmrc"]


def _major(node: str | Path) -> int:
    """The major version of a Node program; 0 if it doesn't start."""
    try:
        done = subprocess.run([str(node), "--version"], capture_output=True, text=True, timeout=30)
    except (OSError, subprocess.TimeoutExpired):
        return 0
    found = re.match(r"v(\d+)\.", done.stdout)
    return int(found[1]) if found else 0


def _with_npm(folder: Path) -> bool:
    """Whether npm stands beside node in this folder."""
    return shutil.which("npm", path=str(folder)) is not None


def node_folder() -> Path:
    """The folder with a good enough `node` and `npm`: the system's, else one installed in the venv."""
    system = shutil.which("node")
    if system and _major(system) >= OLDEST and _with_npm(Path(system).parent):
        return Path(system).parent
    own = venv_tool("node")
    if _major(own) < OLDEST:
        say(f"No Node {OLDEST} or newer on this machine: installing one beside the libraries …")
        install(
            SCRIPTS / "requirements-node.txt",
            f"Node {OLDEST} or newer (with npm) is needed and could not be installed. {OFFLINE_HINT}",
        )
    if _major(own) < OLDEST or not _with_npm(own.parent):
        raise TroubleError(f"Node {OLDEST} or newer (with npm) is needed; the one in {VENV} does not start.")
    return own.parent


def node_environment(folder: Path) -> dict[str, str]:
    """This process's environment with that Node found first."""
    return {**os.environ, "PATH": f"{folder}{os.pathsep}{os.environ.get('PATH', '')}"}


def ensure_libraries() -> Path:
    """Have exactly the lock file's libraries in place; give the folder of `node`."""
    folder = node_folder()
    stamp = Stamp("node")
    state = fingerprint(LOCK_FILES, "1")
    if stamp.says(state) and (APP / "node_modules" / "pyodide").is_dir():
        return folder
    stamp.clear()
    say("Installing the JavaScript libraries (half a minute, once) …")
    npm = shutil.which("npm", path=str(folder))
    if npm is None:
        raise TroubleError("npm is needed beside Node and was not found.")
    run_quietly(
        # No library's own install script is run: none of ours needs one.
        [npm, "ci", "--ignore-scripts", "--no-audit", "--no-fund", "--loglevel=error"],
        "The JavaScript libraries of docs/assets/app/package-lock.json could not be installed. "
        "Is there a network, and does npm reach its registry?",
        cwd=APP,
        env=node_environment(folder),
    )
    stamp.write(state)
    return folder
