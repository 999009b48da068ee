"""The moving view: frames a second while the rotor turns, and from a control's movement to the head in its new place.

    .build/venv/bin/python scripts/bench/view.py

Needs a built site (python3 scripts/serve.py --build-only). Prints which graphics drew the picture: without a graphics
card the browser paints in software, and the figures are those of this machine's processor. Also weighs the script.
"""

from __future__ import annotations

import gzip
import statistics
import sys
import threading
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT / "scripts"))

from budget import Figure, judged
from house.browser import CHROMIUM, ensure
from house.paths import SITE
from house.say import TroubleError, guarded
from house.server import open_server
from playwright.sync_api import Page, sync_playwright

SCRIPT_KB = 150.0
SIZES = ((1280, 900), (360, 800))
HEADS = ("alder3", "elder6")
# Where a browser has no graphics card it must be told that painting in software is meant.
FLAGS = ["--no-sandbox", "--use-angle=swiftshader", "--enable-unsafe-swiftshader"]

FRAMES = """async (seconds) => {
  document.querySelector(".hd-run").click();
  const times = [];
  let last = performance.now();
  const end = last + 1000 * seconds;
  while (last < end) {
    const now = await new Promise(requestAnimationFrame);
    times.push(now - last);
    last = now;
  }
  document.querySelector(".hd-run").click();
  return times.slice(5);
}"""

CHANGES = """async (moves) => {
  const calculator = document.querySelector("hd-calculator[name=motion]");
  const slider = calculator.querySelector("[data-field=lever] input.hd-slider");
  const height = () => calculator.stage.view.where().rods[0][1][2];
  const times = [];
  for (let i = 0; i < moves; i += 1) {
    const before = height();
    const start = performance.now();
    slider.value = String(30 + 3 * (i % 9));
    slider.dispatchEvent(new Event("input", { bubbles: true }));
    while (height() === before) await new Promise((next) => setTimeout(next, 1));
    times.push(performance.now() - start);
    await new Promise((next) => setTimeout(next, 60));
  }
  return times.slice(3);
}"""

GRAPHICS = """() => {
  const gl = document.createElement("canvas").getContext("webgl2");
  const more = gl?.getExtension("WEBGL_debug_renderer_info");
  return gl ? String(gl.getParameter(more ? more.UNMASKED_RENDERER_WEBGL : gl.RENDERER)) : "none";
}"""


def _open(page: Page, address: str, head: str) -> None:
    page.goto(f"{address}see-it-move.html#motion&head={head}&lever=40")
    page.wait_for_selector(".hd-stage:not([hidden])", timeout=60_000)
    page.wait_for_timeout(1500)


def main() -> int:
    """Print frames and changes at each size, and the weight of the script."""
    script = SITE / "assets" / "hd" / "head-view.js"
    if not script.is_file():
        raise TroubleError("There is no built site: run python3 scripts/serve.py --build-only first.")
    server = open_server(SITE, 0)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=str(ensure(CHROMIUM)[0]), args=FLAGS)
        page = browser.new_page()
        print(f"graphics: {page.evaluate(GRAPHICS)}")
        for width, height in SIZES:
            page.set_viewport_size({"width": width, "height": height})
            for head in HEADS:
                page.goto("about:blank")
                _open(page, f"http://127.0.0.1:{server.server_port}/", head)
                frames = sorted(page.evaluate(FRAMES, 4))
                changes = sorted(page.evaluate(CHANGES, 40))
                slow, late = frames[int(0.95 * len(frames))], changes[int(0.95 * len(changes))]
                print(
                    f"{width}×{height} {head}: {1000 / statistics.fmean(frames):.0f} frames a second (slowest in 20: "
                    f"{slow:.0f} ms); control to new place {statistics.median(changes):.0f} ms, p95 {late:.0f} ms"
                )
        browser.close()
    weight = len(gzip.compress(script.read_bytes(), 9)) / 1000
    return judged([Figure("Script of the moving view", weight, "KB gz", SCRIPT_KB, "fetched when the view is touched")])


if __name__ == "__main__":
    sys.exit(guarded(main))
