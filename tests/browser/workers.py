"""Workers under a test's eye: the browser's own, counted, or ones that go wrong in a chosen way.

Added to a page before any of its scripts. `handToDiscTest.plan` says what each worker started from a Blob will be, in
order; after the last one they are native. The theme's search worker is left alone.
"""

from __future__ import annotations

import json
from typing import Any

from playwright.sync_api import Page

_SCRIPT = """
(() => {
  const Native = window.Worker;
  const seen = { plan: PLAN, made: [], workers: [], asked: [], ended: 0, open: 0, most: 0 };
  window.handToDiscTest = seen;
  const later = window.setTimeout.bind(window);

  class Watched extends Native {
    constructor(address, options) {
      super(address, options);
      this.addEventListener("message", ({ data }) => {
        if (data?.type === "answer" && typeof data.id === "number") seen.open -= 1;
      });
    }
    postMessage(message, ...rest) {
      // The page's own requests are numbered, a test's are not.
      if (message?.type === "ask" && typeof message.id === "number") {
        seen.asked.push(message.text);
        seen.open += 1;
        seen.most = Math.max(seen.most, seen.open);
      }
      super.postMessage(message, ...rest);
    }
    terminate() { seen.ended += 1; super.terminate(); }
  }

  // Works, and says what nobody understands besides, before and after each answer.
  const RUBBISH = [null, 7, "ready", [], {}, { type: "ready" }, { type: "ready", build: 7 }, { type: "answer", id: 1 }, { type: "answer", id: {}, text: "{}" },
    { type: "progress", stage: "fetch", done: NaN, total: 1 }, { type: "progress", stage: "<b>", done: 1, total: 2 }, { type: "broken" }, { type: "constructor" }];
  class Babbling extends Watched {
    postMessage(message, ...rest) {
      const hear = () => RUBBISH.forEach((data) => this.onmessage?.({ data }));
      later(hear, 0);
      this.addEventListener("message", hear, { once: true });
      super.postMessage(message, ...rest);
    }
  }

  // Says what it is told to say, whenever it is spoken to.
  class Wrong {
    onmessage = null;
    onerror = null;
    constructor(kind) { this.kind = kind; }
    say(data) { later(() => this.onmessage?.({ data }), 5); }
    postMessage(message) {
      if (message.type === "start") {
        if (this.kind === "never ready") return;
        if (this.kind === "broken at start") this.say({ type: "broken", text: "no" });
        else if (this.kind === "error at start") later(() => this.onerror?.({ preventDefault() {} }), 5);
        else this.say({ type: "ready", build: message.build });
        return;
      }
      seen.asked.push(message.text);
      const { id } = message;
      if (this.kind === "broken") this.say({ type: "broken", text: "out of memory" });
      else if (this.kind === "no JSON") this.say({ type: "answer", id, text: "{" });
      else if (this.kind === "no answer") this.say({ type: "answer", id, text: '["result"]' });
      else if (this.kind === "unheard-of state") this.say({ type: "answer", id, text: JSON.stringify({ state: "fine", id }) });
      else if (this.kind === "failed") this.say({ type: "answer", id, text: JSON.stringify({ state: "failed", id, text: "Not computed." }) });
      // "never answers": nothing
    }
    terminate() { seen.ended += 1; this.onmessage = null; this.onerror = null; }
  }

  window.Worker = new Proxy(Native, {
    construct(target, [address, options]) {
      if (!String(address).startsWith("blob:")) return new Native(address, options);
      const kind = seen.plan.shift() ?? "native";
      seen.made.push(kind);
      if (kind === "throws") throw new Error("no workers here");
      const worker = kind === "babbling" ? new Babbling(address, options) : kind === "native" ? new Watched(address, options) : new Wrong(kind);
      seen.workers.push(worker);
      return worker;
    },
  });
})();
"""

_ASK = """texts => {
  const worker = handToDiscTest.workers.at(-1);
  return Promise.all(texts.map((text, i) => new Promise((resolve) => {
    const id = `test ${i}`;
    const hear = ({ data }) => {
      if (data.type !== "answer" || data.id !== id) return;
      worker.removeEventListener("message", hear);
      resolve(data.text);
    };
    worker.addEventListener("message", hear);
    worker.postMessage({ type: "ask", id, text });
  })));
}"""


def watch_workers(page: Page, *plan: str) -> None:
    """From the next page on, workers are counted and, as planned, go wrong."""
    page.add_init_script(_SCRIPT.replace("PLAN", json.dumps(plan)))


def worker_facts(page: Page) -> dict[str, Any]:
    """What has happened: kinds made, requests asked, workers ended, most requests open at once."""
    found: dict[str, Any] = page.evaluate(
        "(({ made, asked, ended, open, most }) => ({ made, asked, ended, open, most }))(handToDiscTest)"
    )
    return found


def tell_worker(page: Page, expression: str) -> None:
    """Post any value to the page's running worker."""
    page.evaluate(f"handToDiscTest.workers.at(-1).postMessage({expression})")


def ask_worker(page: Page, requests: list[str]) -> list[dict[str, Any]]:
    """Put requests to the page's running worker, past the page's own engine (which ignores strangers' ids)."""
    return [json.loads(text) for text in page.evaluate(_ASK, requests)]
