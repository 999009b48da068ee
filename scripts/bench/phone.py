"""As on a modest telephone: half a processor for the whole browser, 10 Mbit/s, 60 ms.

First touch to answer, cold and from the offline copy.

    .build/venv/bin/python scripts/bench/phone.py [RUNS]

Needs a built site, Linux, and the right to set a processor quota (root, or a delegated control group). The quota holds
for all of the browser's processes together, since a browser's own throttling slows neither workers nor compilers. Ends
with 1 over the budget.
"""

from __future__ import annotations

import os
import statistics
import sys
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT / "scripts"))

import psutil
from budget import Figure, judged
from house.browser import CHROMIUM, ensure
from house.paths import SITE
from house.say import TroubleError, guarded
from house.server import open_server
from narrow import NarrowLine
from playwright.sync_api import BrowserContext, sync_playwright
from start import MEASURE_APP, PAGE

SHARE = 0.5
RUNS = 3
# Somebody reads a little before they touch; by then the page has come whole and keeps itself for the next time.
READING_MS = 8000
COLD_S, COPY_S = 6.0, 3.0
HOW = "half a processor for the whole browser, 10 Mbit/s, 60 ms"
GROUPS = (Path("/sys/fs/cgroup/cpu"), Path("/sys/fs/cgroup"))


def _emptied(group: Path) -> None:
    """Take the group away once the browser's last process has ended."""
    for _ in range(100):
        try:
            group.rmdir()
        except OSError:
            time.sleep(0.1)
        else:
            return


@contextmanager
def quota(share: float) -> Iterator[Path]:
    """A control group whose processes together get this share of one processor."""
    for base in GROUPS:
        group = base / f"hand-to-disc-{os.getpid()}"
        try:
            group.mkdir()
        except OSError:
            continue
        try:
            if (group / "cpu.cfs_quota_us").exists():
                (group / "cpu.cfs_period_us").write_text("20000")
                (group / "cpu.cfs_quota_us").write_text(str(int(20000 * share)))
            elif (group / "cpu.max").exists():
                (group / "cpu.max").write_text(f"{int(20000 * share)} 20000")
            else:
                continue
            yield group
            return
        finally:
            _emptied(group)
    raise TroubleError("No processor quota can be set here: this needs Linux, and root or a delegated control group.")


def _slow(group: Path) -> None:
    """Put the browser's processes into the group; what they start later is in it by itself."""
    for one in psutil.Process().children(recursive=True):
        # A process may have ended since it was listed.
        with suppress(psutil.NoSuchProcess, ProcessLookupError):
            if "chrom" in one.name():
                (group / "cgroup.procs").write_text(str(one.pid))


def _touch(context: BrowserContext, address: str) -> float:
    """Seconds from the first touch of a slider to the live answer, on a page that is up."""
    page = context.new_page()
    page.set_default_timeout(120_000)
    page.goto(address + PAGE)
    page.wait_for_timeout(READING_MS)
    seconds = float(page.evaluate(MEASURE_APP)) / 1000
    page.close()
    return seconds


def main() -> int:
    """Print each run, then the verdicts."""
    if not (SITE / PAGE).is_file():
        raise TroubleError("There is no built site: run python3 scripts/serve.py --build-only first.")
    runs = int(sys.argv[1]) if len(sys.argv) > 1 else RUNS
    server = open_server(SITE, 0)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    line = NarrowLine(server.server_port)
    address = f"http://127.0.0.1:{line.port}/"
    program = str(ensure(CHROMIUM)[0])
    cold: list[float] = []
    copy: list[float] = []
    with sync_playwright() as playwright:
        for _ in range(runs):
            for kept, times in ((False, cold), (True, copy)):
                browser = playwright.chromium.launch(executable_path=program, args=["--no-sandbox"])
                context = browser.new_context()
                if kept:
                    line.open_wide = True
                    page = context.new_page()
                    page.goto(address + "offline.html")
                    # The page's policy forbids the library's own way to wait for an expression.
                    while not page.evaluate("navigator.serviceWorker.controller !== null"):
                        page.wait_for_timeout(50)
                    page.get_by_role("button", name="Keep everything").click()
                    page.wait_for_selector('[data-copy="complete"]', timeout=120_000)
                    page.close()
                line.open_wide = False
                with quota(SHARE) as group:
                    _slow(group)
                    times.append(_touch(context, address))
                    browser.close()
            print(f"cold {cold[-1]:.2f} s, from the copy {copy[-1]:.2f} s")
    return judged([
        Figure("Modest telephone, first touch to answer, cold", statistics.median(cold), "s", COLD_S, HOW),
        Figure("Modest telephone, the same from the offline copy", statistics.median(copy), "s", COPY_S, HOW),
    ])  # fmt: skip


if __name__ == "__main__":
    sys.exit(guarded(main))
