/** <hd-field data-field="…">: a printed picture until the calculator is live, then a canvas that follows it. */

import { library } from "./chart-element.js";

export class Field extends HTMLElement {
  static observedAttributes = ["data-field"];
  /** @type {ResizeObserver | null} */
  #watch = null;
  /** @type {MutationObserver | null} */
  #scheme = null;
  #print = matchMedia("print");
  #draw = () => window.handToDiscField?.(this, JSON.parse(this.dataset.field ?? "null"));

  connectedCallback() {
    // The printed picture needs no library and is what paper and readers without script get.
    if (this.querySelector("svg") === null) void this.#show();
  }

  disconnectedCallback() {
    this.#watch?.disconnect();
    this.#scheme?.disconnect();
    this.#print.removeEventListener("change", this.#draw);
    this.#watch = this.#scheme = null;
  }

  /** @param {string} _name @param {string | null} before */
  attributeChangedCallback(_name, before) {
    if (before !== null && this.isConnected) void this.#show();
  }

  async #show() {
    try {
      await library();
    } catch {
      // The figures stand in the table beneath; a picture of others must not stay beside them.
      this.replaceChildren();
      return;
    }
    if (!this.isConnected || !window.handToDiscField) return;
    this.querySelector("svg")?.remove();
    this.#draw();
    if (this.#watch) return;
    this.#watch = new ResizeObserver(this.#draw);
    this.#watch.observe(this);
    // Colours belong to the theme, and to paper: a canvas has to be drawn anew.
    this.#print.addEventListener("change", this.#draw);
    this.#scheme = new MutationObserver(this.#draw);
    this.#scheme.observe(document.body, { attributes: true, attributeFilter: ["data-md-color-scheme"] });
  }
}
