"""Zip files of compiled Python, slimmed for the download.

A compiled file says for every instruction which columns of which line it came from: a third of its compressed
size, for tracebacks that no reader sees. Here each function keeps the one line where it begins.
"""

from __future__ import annotations

import marshal
import sys
import zipfile
from collections.abc import Mapping
from pathlib import Path
from types import CodeType

from house.say import run_quietly

FIXED_DATE = (1980, 1, 1, 0, 0, 0)
HEADER = 16  # magic number, then twelve bytes on how the source was dated; the source isn't shipped
UNITS_IN_ENTRY = 8  # an entry of the position table covers at most this many code units of two bytes
NO_COLUMNS = 0x80 | 13 << 3  # the kind of entry that gives a line and no columns; its second byte is the line's change


def write_stored(path: Path, files: Mapping[str, bytes]) -> None:
    """Write a zip without compression: the web server's own compression does better on the whole."""
    with zipfile.ZipFile(path, "w", zipfile.ZIP_STORED) as archive:
        for name in sorted(files):
            archive.writestr(zipfile.ZipInfo(name, FIXED_DATE), files[name])


def read_all(path: Path) -> dict[str, bytes]:
    """Every file of a zip."""
    with zipfile.ZipFile(path) as archive:
        return {name: archive.read(name) for name in archive.namelist() if not name.endswith("/")}


def _on_one_line(code: CodeType) -> CodeType:
    """The same code with a position table that puts all of it on its first line."""
    full, rest = divmod(len(code.co_code) // 2, UNITS_IN_ENTRY)
    lengths = [UNITS_IN_ENTRY] * full + ([rest] if rest else [])
    table = b"".join(bytes([NO_COLUMNS | (length - 1), 0]) for length in lengths)
    constants = tuple(_on_one_line(item) if isinstance(item, CodeType) else item for item in code.co_consts)
    return code.replace(co_linetable=table, co_consts=constants)


def slim(compiled: bytes) -> bytes:
    """A .pyc file without positions and without the date of its source."""
    code = marshal.loads(compiled[HEADER:])
    return compiled[:4] + bytes(HEADER - 4) + marshal.dumps(_on_one_line(code))


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
    return {name: slim(content) if name.endswith(".pyc") else content for name, content in files.items()}
