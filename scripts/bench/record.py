"""Run every benchmark and keep what was measured for the page of speeds (docs/reference/speeds.md).

    .build/venv/bin/python scripts/bench/record.py

Needs a built site and a quiet machine: five minutes. Writes scripts/bench/measured.json, which is committed; the page
shows it as it is, with its date, figures over their budgets among them.
"""

from __future__ import annotations

import datetime
import json
import os
import platform
import subprocess
import sys
import tempfile
from pathlib import Path

HERE = Path(__file__).resolve().parent
sys.path.insert(0, str(HERE.parent))

import psutil
from budget import RECORD
from house.browser import CHROMIUM, ensure
from house.say import guarded

BENCHES = ("pages", "chain", "start", "warm", "view", "phone")
MEASURED = HERE / "measured.json"


def _machine() -> dict[str, str]:
    """What it was measured on, without anything that names one machine."""
    program = ensure(CHROMIUM)[0]
    version = subprocess.run([str(program), "--version"], capture_output=True, text=True).stdout.split()
    return {
        "date": datetime.datetime.now(datetime.UTC).date().isoformat(),
        "processors": str(os.cpu_count()),
        "memory": f"{psutil.virtual_memory().total / 2**30:.0f} GiB",
        "architecture": platform.machine(),
        "system": platform.system(),
        "python": platform.python_version(),
        "browser": " ".join(word for word in version[:2]),
        "load": f"{os.getloadavg()[0]:.1f}" if hasattr(os, "getloadavg") else "unknown",
    }


def main() -> int:
    """Run them one after the other; 1 when one is over its budget (it is recorded all the same)."""
    machine = _machine()
    with tempfile.TemporaryDirectory() as folder:
        kept = Path(folder) / "rows.json"
        results = []
        for name in BENCHES:
            print(f"--- {name}", flush=True)
            env = {**os.environ, RECORD: str(kept)}
            results.append(subprocess.run([sys.executable, str(HERE / f"{name}.py")], env=env).returncode)
        rows = json.loads(kept.read_text(encoding="utf-8"))
    MEASURED.write_text(
        json.dumps({"machine": machine, "figures": rows}, indent=1, ensure_ascii=False) + "\n", encoding="utf-8"
    )
    return max(results)


if __name__ == "__main__":
    sys.exit(guarded(main))
