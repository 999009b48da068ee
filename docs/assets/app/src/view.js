/**
 * What a reader sees of a calculator beside its controls: the parts, the head's label, the visible hint and the one
 * spoken line. Draws what it is given; decides nothing.
 */

import { engine } from "./engine.js";

/** @typedef {"printed" | "starting" | "live" | "stale" | "refused" | "unavailable"} State */

const HINTS = { live: "Live: the figures follow the controls.", refused: "Not computed: see the marked control.", unavailable: "Not live." };

/** Elements that follow an attribute, by name. */
const FOLLOWS = { "hd-chart": "data-chart", "hd-field": "data-field" };

/**
 * A picture that is there already takes the new data instead of being made anew, which would flicker.
 * @param {HTMLElement} slot @param {string} html
 */
function refill(slot, html) {
  for (const [name, attribute] of Object.entries(FOLLOWS)) {
    const here = slot.querySelector(name);
    const next = here && new DOMParser().parseFromString(html, "text/html").querySelector(name);
    if (!here || !next || next.childElementCount > 0) continue;
    here.setAttribute(attribute, next.getAttribute(attribute) ?? "");
    return true;
  }
  return false;
}

export class View {
  /** @param {HTMLElement} host the calculator */
  constructor(host) {
    this.host = host;
    /** @type {NodeListOf<HTMLElement>} */
    this.slots = host.querySelectorAll("[data-part]");
    this.bold = host.querySelector(".hd-head-label");
    this.hint = host.querySelector(".hd-hint");
    this.status = host.querySelector(".hd-status");
    this.printedHint = this.hint?.textContent ?? "";
    this.until = document.createElement("span");
    this.until.className = "hd-until";
    this.bold?.after(this.until);
  }

  get label() {
    return this.bold?.textContent ?? "";
  }

  /** The parts as they stand in the page. @returns {Record<string, string>} */
  get parts() {
    return Object.fromEntries([...this.slots].map((slot) => [slot.dataset.part ?? "", slot.innerHTML]));
  }

  /**
   * @param {Record<string, string>} parts made by our own package, reader's text escaped there
   * @param {boolean} [moving] a control is being moved: leave what is folded away for when it rests
   */
  draw(parts, moving = false) {
    for (const slot of this.slots) {
      const html = parts[slot.dataset.part ?? ""];
      const folded = moving && slot.closest("details:not([open])") !== null;
      if (html !== undefined && !folded && !refill(slot, html)) slot.innerHTML = html;
    }
  }

  /** @param {string} label the head the figures are of @param {string} [awaited] the head whose figures are on their way */
  name(label, awaited = "") {
    if (this.bold) this.bold.textContent = label;
    this.until.textContent = awaited && ` until ${awaited} is computed`;
  }

  /** The one spoken line. @param {string} sentence */
  say(sentence) {
    if (this.status && this.status.textContent !== sentence) this.status.textContent = sentence;
  }

  /** The visible counter: not spoken, it changes too often. @param {State} state */
  tell(state) {
    if (!this.hint) return;
    if (state === "starting") this.hint.textContent = engine.progress;
    else this.hint.textContent = state === "printed" ? this.printedHint : HINTS[state === "stale" ? "live" : state];
  }
}
