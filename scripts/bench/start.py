"""The first live answer, cold, against Pyodide with its stock library doing nothing: a ratio from one browser and run.

    .build/venv/bin/python scripts/bench/start.py [RUNS]

Needs a built site (python3 scripts/serve.py --build-only). Both ways start in a browser opened afresh for each run, so
that nothing is kept from the run before, and from the same kind of server. Ends with 1 when the budget is broken.

Measured on the page of the control phase: from the first touch of a slider to the calculator's state `live`.
Compared with: a worker that loads the stock `python_stdlib.zip` and runs `1 + 1`.
"""

from __future__ import annotations

import os
import statistics
import sys
import tempfile
import threading
from pathlib import Path
from typing import TYPE_CHECKING

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT / "scripts"))

from budget import Figure, judged
from house.browser import CHROMIUM, ensure
from house.paths import APP, SITE
from house.say import TroubleError, guarded
from house.server import Server, open_server
from playwright.sync_api import sync_playwright

if TYPE_CHECKING:
    from playwright.sync_api import Browser, BrowserType

BUDGET = 0.6
RUNS = 5
WAIT_MS = 60_000
PAGE = "principles/control-phase.html"

STOCK_FILES = ("pyodide.js", "pyodide.asm.js", "pyodide.asm.wasm", "python_stdlib.zip", "pyodide-lock.json")
STOCK_WORKER = """\
importScripts("pyodide.js");
loadPyodide({ indexURL: new URL(".", self.location.href).href })
  .then((python) => python.runPython("1 + 1"))
  .then((answer) => postMessage(answer));
"""

# Both give milliseconds by the page's own clock.
MEASURE_STOCK = """() => new Promise((done, failed) => {
  const start = performance.now();
  const worker = new Worker("worker.js");
  worker.onmessage = () => done(performance.now() - start);
  worker.onerror = (event) => failed(new Error(event.message));
})"""
MEASURE_APP = """() => new Promise((done) => {
  const calculator = document.querySelector("hd-calculator");
  const slider = calculator.querySelector("input.hd-slider");
  const start = performance.now();
  new MutationObserver(() => {
    if (calculator.dataset.state === "live") done(performance.now() - start);
  }).observe(calculator, { attributes: true, attributeFilter: ["data-state"] });
  slider.focus();
  slider.value = String(Number(slider.value) + Number(slider.step));
  slider.dispatchEvent(new Event("input", { bubbles: true }));
  slider.dispatchEvent(new Event("change", { bubbles: true }));
})"""


def _stock_folder(folder: Path) -> Path:
    """A site with nothing but Pyodide as it is published."""
    for name in STOCK_FILES:
        (folder / name).write_bytes((APP / "node_modules" / "pyodide" / name).read_bytes())
    (folder / "worker.js").write_text(STOCK_WORKER, encoding="utf-8")
    (folder / "index.html").write_text("<!doctype html><title>stock</title>", encoding="utf-8")
    return folder


def _serve(folder: Path) -> Server:
    server = open_server(folder, 0)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    return server


def _once(chromium: BrowserType, program: Path, address: str, measure: str) -> float:
    """One cold start in a browser of its own."""
    browser: Browser = chromium.launch(executable_path=str(program), args=["--no-sandbox"])
    try:
        page = browser.new_page()
        page.set_default_timeout(WAIT_MS)
        page.goto(address)
        page.wait_for_timeout(500)  # the page itself is up and quiet
        return float(page.evaluate(measure))
    finally:
        browser.close()


def main() -> int:
    if not (SITE / PAGE).is_file():
        raise TroubleError("There is no built site: run python3 scripts/serve.py --build-only first.")
    runs = int(sys.argv[1]) if len(sys.argv) > 1 else RUNS
    program = ensure(CHROMIUM)[0]
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        ways = {
            "stock": (f"http://127.0.0.1:{_serve(_stock_folder(Path(folder))).server_port}/index.html", MEASURE_STOCK),
            "ours": (f"http://127.0.0.1:{_serve(SITE).server_port}/{PAGE}", MEASURE_APP),
        }
        times: dict[str, list[float]] = {name: [] for name in ways}
        for run in range(runs + 1):
            for name, (address, measure) in ways.items():
                taken = _once(playwright.chromium, program, address, measure)
                if run:  # the first of each only warms the servers' compressed files and the disk
                    times[name].append(taken)
    for name, taken_ms in times.items():
        print(f"{name}: median {statistics.median(taken_ms):.0f} ms of {[round(ms) for ms in taken_ms]}")
    if hasattr(os, "getloadavg"):
        # Browsers that wait for a processor are not being measured: look at this before believing the ratio.
        print(f"load over the last minute: {os.getloadavg()[0]:.1f} on {os.cpu_count()} processors")
    ratio = statistics.median(times["ours"]) / statistics.median(times["stock"])
    how = "first touch to answer in a fresh browser, as a share of bare Pyodide with its stock library"
    return judged([Figure("Cold start against bare Pyodide", ratio, "", BUDGET, how)])


if __name__ == "__main__":
    sys.exit(guarded(main))
