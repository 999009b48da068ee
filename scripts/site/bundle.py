"""Bundling the app's JavaScript and CSS with esbuild.

The worker is bundled first, to text, and the page's script carries that text: one worker source serves a web server
and a folder alike. `hd:worker` and `hd:build` are the two modules that only exist here.
"""

from __future__ import annotations

import json
import os
import shutil
import tempfile
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from house.paths import APP
from house.say import TroubleError, run_quietly

# What every browser of the last years understands; the same as tsconfig.json checks.
TARGET = "es2022"
WORKER = APP / "src" / "worker.js"
CHART = APP / "src" / "chart.js"
OWN_HEADS = APP / "src" / "own" / "index.js"
SERVICE_WORKER = APP / "src" / "offline" / "sw.js"
KIOSK = APP / "src" / "kiosk" / "index.js"
OFFLINE_COPY = APP / "src" / "offline" / "page.js"
QR_CODE = APP / "src" / "qr-code.js"
TEACH = APP / "src" / "teach" / "index.js"
HEAD_VIEW = APP / "src" / "head-view" / "index.js"
MAIN = APP / "src" / "main.js"
STYLE = APP / "css" / "main.css"


def _esbuild(*words: str | Path) -> None:
    """Run esbuild through Node (its own install script isn't run, so its program may not be linked)."""
    node = shutil.which("node")
    if node is None:
        raise TroubleError("Node is needed to bundle the app: start the build with scripts/serve.py.")
    program = APP / "node_modules" / "esbuild" / "bin" / "esbuild"
    run_quietly(
        [node, program, *words, "--bundle", "--minify", f"--target={TARGET}", "--log-level=warning"],
        "The app in docs/assets/app could not be bundled.",
        cwd=APP,
        env=dict(os.environ),
    )


def _script(source: Path, out: Path, more: Sequence[str] = ()) -> None:
    """One classic script, everything inside it."""
    _esbuild(source, f"--outfile={out}", "--format=iife", "--charset=utf8", "--legal-comments=inline", *more)


def write(target: Path, build: dict[str, Any]) -> None:
    """Write app.js and app.css into `assets/hd` of the built site; `build` is what build.json says."""
    target.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as folder:
        worker = Path(folder) / "worker.txt"
        _script(WORKER, worker)
        description = Path(folder) / "build.json"
        description.write_text(json.dumps(build), encoding="utf-8")
        _script(
            MAIN,
            target / "app.js",
            [
                f"--alias:hd:worker={worker}",
                f"--alias:hd:build={description}",
                "--loader:.txt=text",
            ],
        )
        _script(TEACH, target / "teach.js", [f"--alias:hd:build={description}"])
        _script(KIOSK, target / "kiosk.js", [f"--alias:hd:build={description}"])
        _script(OFFLINE_COPY, target / "offline-copy.js", [f"--alias:hd:build={description}"])
    # Charts and their library are a script of their own: a page without charts never asks for it.
    _script(CHART, target / "chart.js")
    _script(QR_CODE, target / "qr-code.js")
    _script(HEAD_VIEW, target / "head-view.js")
    _script(OWN_HEADS, target / "own-heads.js")
    _esbuild(STYLE, f"--outfile={target / 'app.css'}", "--loader:.svg=dataurl")


def service_worker(out: Path, copy: Path) -> None:
    """The worker of the offline copy; `copy` is what it knows of the build, as JSON."""
    _script(SERVICE_WORKER, out, [f"--alias:hd:copy={copy}", '--define:process.env.NODE_ENV="production"'])
