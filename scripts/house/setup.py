"""All of the set-up, for serve.py and test.py."""

from __future__ import annotations

from pathlib import Path

from house.node import ensure_libraries
from house.python import ensure_venv
from house.stamps import one_at_a_time


def set_up() -> Path:
    """Have the Python environment and the JavaScript libraries in place; give the folder of `node`."""
    with one_at_a_time():
        ensure_venv()
        return ensure_libraries()
