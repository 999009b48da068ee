"""Zip files of compiled Python, the same bytes every time they are made from the same sources."""

from __future__ import annotations

import sys
import zipfile
from collections.abc import Mapping
from pathlib import Path

from house.say import run_quietly

FIXED_DATE = (1980, 1, 1, 0, 0, 0)
PYC_STATE = slice(4, 16)  # how the source was dated; the source isn't shipped


def write_stored(path: Path, files: Mapping[str, bytes]) -> None:
    """Write a zip without compression: the web server's own compression does better on the whole."""
    with zipfile.ZipFile(path, "w", zipfile.ZIP_STORED) as archive:
        for name in sorted(files):
            archive.writestr(zipfile.ZipInfo(name, FIXED_DATE), files[name])


def read_all(path: Path) -> dict[str, bytes]:
    """Every file of a zip."""
    with zipfile.ZipFile(path) as archive:
        return {name: archive.read(name) for name in archive.namelist() if not name.endswith("/")}


def compile_zip(path: Path) -> dict[str, bytes]:
    """Compile the .py files of a zip or wheel to .pyc for the browser's Python; give what the zip then holds.

    The compiled files replace the sources. Python 3.13 here and in the browser share one bytecode.
    """
    before = set(path.parent.iterdir())
    pyodide = Path(sys.executable).with_name("pyodide")
    run_quietly(
        [pyodide, "py-compile", "--silent", "--compression-level", "0", path],
        f"{path.name} could not be compiled for the browser.",
    )
    # A wheel gets another name with the Python version in it.
    new = [entry for entry in path.parent.iterdir() if entry not in before]
    files = read_all(new[0] if new else path)
    return {
        name: content[: PYC_STATE.start] + bytes(12) + content[PYC_STATE.stop :] if name.endswith(".pyc") else content
        for name, content in files.items()
    }
