"""Warm answers: from a slider's movement to the new drawing, on every calculator, once Python runs.

    .build/venv/bin/python scripts/bench/warm.py [MOVES]

Needs a built site (python3 scripts/serve.py --build-only). Ends with 1 when a budget is broken: median within 16 ms,
95 in 100 within 50 ms, over all calculators together.
"""

from __future__ import annotations

import statistics
import sys
import threading
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT / "scripts"))
sys.path.insert(0, str(ROOT / "calculators" / "src"))

from budget import Figure, judged
from house.browser import CHROMIUM, ensure
from house.paths import SITE
from house.say import TroubleError, guarded
from house.server import open_server
from playwright.sync_api import sync_playwright
from rotorhead.topics import ALL

MEDIAN_MS, P95_MS = 16.0, 50.0
MOVES = 60

# A move's time ends when the drawing's slot has new content. The value goes to and fro, so every answer differs.
MEASURE = """async ([name, moves]) => {
  const calculator = document.querySelector(`hd-calculator[name="${name}"]`);
  const slider = calculator.querySelector(".hd-field:not([hidden]) input.hd-slider");
  if (!slider) return [];
  const slot = calculator.querySelector("[data-part=drawing]");
  const step = Number(slider.step) || 1;
  // From where it stands, which is answered: elsewhere a calculator may have to refuse.
  const from = Number(slider.value);
  const way = from + 8 * step <= Number(slider.max) ? step : -step;
  const move = (i) => new Promise((done, lost) => {
    const start = performance.now();
    const watch = new MutationObserver(() => { watch.disconnect(); done(performance.now() - start); });
    watch.observe(slot, { childList: true, subtree: true });
    setTimeout(() => lost(new Error(`${name}: no new drawing within 20 s`)), 20000);
    slider.value = String(from + way * (1 + (i % 7)));
    slider.dispatchEvent(new Event("input", { bubbles: true }));
  });
  const times = [];
  slider.focus();
  for (let i = 0; i < moves + 5; i += 1) {
    const ms = await move(i);
    if (i >= 5) times.push(ms);
    await new Promise((next) => setTimeout(next, 20));
  }
  return times;
}"""


def main() -> int:
    """Print a line a calculator and the verdict."""
    if not (SITE / "index.html").is_file():
        raise TroubleError("There is no built site: run python3 scripts/serve.py --build-only first.")
    moves = int(sys.argv[1]) if len(sys.argv) > 1 else MOVES
    server = open_server(SITE, 0)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    everything: list[float] = []
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=str(ensure(CHROMIUM)[0]), args=["--no-sandbox"])
        for name, calculator in ALL.items():
            if calculator.scene:
                continue  # its drawing waits while a hand moves: bench/view.py times the moving view
            page = browser.new_page()
            page.set_default_timeout(60_000)
            page.goto(f"http://127.0.0.1:{server.server_port}/{calculator.page.replace('.md', '.html')}")
            times = sorted(page.evaluate(MEASURE, [name, moves]))
            page.close()
            if not times:
                print(f"{name:8s} has no slider among its first controls")
                continue
            everything += times
            print(f"{name:8s} median {statistics.median(times):5.1f} ms, p95 {times[int(0.95 * len(times))]:5.1f} ms")
        browser.close()
    everything.sort()
    median, p95 = statistics.median(everything), everything[int(0.95 * len(everything))]
    how = "slider moved to new drawing shown, all calculators"
    return judged([
        Figure("Warm answer, median", median, "ms", MEDIAN_MS, how),
        Figure("Warm answer, one in twenty is slower than", p95, "ms", P95_MS, how),
    ])  # fmt: skip


if __name__ == "__main__":
    sys.exit(guarded(main))
