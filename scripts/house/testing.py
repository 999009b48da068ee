"""What test.py does: set up, find a browser, build, run pytest."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Sequence

from house.browser import CHROMIUM, FIREFOX, ensure
from house.build import build
from house.paths import ROOT
from house.python import venv_tool
from house.setup import set_up

# A worker for each core, a file of tests always whole in one of them (its page stays open from test to test). More than
# four would want more memory than they save time. Words after the command may say otherwise: `-n 0`.
SIDE_BY_SIDE = ("-n", "auto", "--maxprocesses", "4", "--dist", "loadfile", "--no-loadscope-reorder")


def main(words: Sequence[str] | None = None) -> int:
    pytest_words = list(sys.argv[1:] if words is None else words)
    node_folder = set_up()
    chromium, firefox = ensure(CHROMIUM, FIREFOX)
    build(node_folder)
    # pytest writes straight to this terminal, so that its own summary is the last line.
    done = subprocess.run(
        [str(venv_tool("python")), "-m", "pytest", *SIDE_BY_SIDE, *pytest_words],
        cwd=ROOT,
        env={**os.environ, CHROMIUM.variable: str(chromium), FIREFOX.variable: str(firefox)},
    )
    return done.returncode
