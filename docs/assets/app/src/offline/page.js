/** The page that shows the copy on this device: how much of it is there, of which build; keep all of it, check it, remove it. */

import { button, make } from "../dom.js";
import { fromDisk } from "../site.js";

/** @typedef {{type: string, build: string, files: number, bytes: number, kept: number, keptBytes: number, spoiled?: number}} State */

const WAIT = 8000;

/** @param {number} bytes */
const megabytes = (bytes) => `${(bytes / 1e6).toFixed(1)} MB`;

/** What a message of the worker says, if it is one of ours. @param {unknown} data @returns {State | null} */
function stateOf(data) {
  if (typeof data !== "object" || data === null) return null;
  const { type, build, files, bytes, kept, keptBytes, spoiled } = /** @type {Record<string, unknown>} */ (data);
  if (typeof type !== "string" || typeof build !== "string" || ![files, bytes, kept, keptBytes].every(Number.isFinite)) return null;
  return { type, build, files: Number(files), bytes: Number(bytes), kept: Number(kept), keptBytes: Number(keptBytes), spoiled: Number(spoiled ?? 0) };
}

class Copy {
  #busy = false;

  /** @param {HTMLElement} host */
  constructor(host) {
    this.host = host;
    this.said = make("p", { class: "hd-copy-said", role: "status" });
    this.bar = /** @type {HTMLProgressElement} */ (make("progress", { max: "1", "aria-label": "How much of the site is on this device" }));
    this.keep = button("Keep everything for use without a network", () => this.#ask("keep-all", true));
    this.check = button("Check the copy", () => this.#ask("check", true));
    this.remove = button("Remove the copy", () => this.#ask("remove", true));
    if (fromDisk) {
      this.said.textContent = "These pages were opened from a folder: all of it is here already, and no copy is needed.";
      host.replaceChildren(this.said);
    } else if (!navigator.serviceWorker || !window.isSecureContext) {
      this.said.textContent = "This browser keeps no copy here: it does so only for sites at an https address (or on this very machine), and not in a private window.";
      host.replaceChildren(this.said);
    } else {
      host.replaceChildren(this.said, this.bar, make("p", { class: "hd-copy-buttons" }, [this.keep, this.check, this.remove]));
      this.said.textContent = "One moment: looking for the copy …";
      navigator.serviceWorker.addEventListener("message", (event) => this.#hear(event.data));
      const late = setTimeout(() => (this.said.textContent = "The part of the site that keeps a copy could not be started in this browser."), WAIT);
      void navigator.serviceWorker.ready.then(() => {
        clearTimeout(late);
        this.#ask("state", false);
      });
    }
  }

  /** @param {string} type @param {boolean} busy */
  #ask(type, busy) {
    this.#busy = busy;
    this.#show();
    void navigator.serviceWorker.ready.then(({ active }) => active?.postMessage({ type }));
  }

  #show() {
    for (const press of [this.keep, this.check, this.remove]) press.disabled = this.#busy;
  }

  /** @param {unknown} data */
  #hear(data) {
    const state = stateOf(data);
    if (!state) return;
    const { type, build, files, bytes, kept, keptBytes, spoiled } = state;
    this.bar.value = keptBytes / bytes;
    this.host.dataset.copy = kept === files ? "complete" : kept === 0 ? "none" : "part";
    if (type === "progress") {
      this.said.textContent = `${megabytes(keptBytes)} of ${megabytes(bytes)}: ${kept} of ${files} files …`;
      return;
    }
    const whole = `of ${files} files, ${megabytes(bytes)}, build ${build}`;
    const now = kept === files ? `The copy on this device is complete: all ${whole.slice(3)}.` : kept === 0 ? `No copy on this device yet. All ${whole.slice(3)}, would be kept.` : `Part of the copy is on this device: ${kept} ${whole.replace(megabytes(bytes), `${megabytes(keptBytes)} of ${megabytes(bytes)}`)}. Pages you visit are added.`;
    /** @type {Record<string, string>} */
    const words = {
      complete: now,
      full: `This device has no more room for the site. What was kept stays. ${now}`,
      "broken-off": `The network broke off. What was kept stays; press again to go on. ${now}`,
      "another-build": `The server has a newer version of the site. Wait for the line at the top of the page that offers it, switch to it, and press again. ${now}`,
      checked: spoiled === 0 ? `Checked: every file that is kept is whole. ${now}` : `Checked: ${spoiled} ${spoiled === 1 ? "file was" : "files were"} spoiled and thrown out; press “Keep everything” to have them again. ${now}`,
    };
    this.said.textContent = words[type] ?? now;
    this.#busy = false;
    this.#show();
  }
}

for (const host of document.querySelectorAll("[data-offline]")) if (host instanceof HTMLElement) new Copy(host);
