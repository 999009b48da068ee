/** <hd-chart data-chart="…">: a printed plot until the calculator is live, then a chart that follows it. */

import { asset, loadScript } from "./site.js";

/** @typedef {import("./types.js").ChartData} ChartData */

/** @type {Promise<void> | null} */
let loading = null;

/** The library comes with the first chart that needs it; a lost file may be asked for again. */
export function library() {
  loading ??= loadScript(asset("chart.js", true)).catch((error) => {
    loading = null;
    throw error;
  });
  return loading;
}

/** What must be drawn anew, not only filled anew. @param {ChartData} data */
function shape(data) {
  return JSON.stringify([data.title, data.x.label, data.y, data.points, data.lines.map((line) => [line.name, line.role])]);
}

export class Chart extends HTMLElement {
  static observedAttributes = ["data-chart"];
  /** @type {ReturnType<NonNullable<Window["handToDiscChart"]>> | null} */
  #drawn = null;
  #shape = "";

  connectedCallback() {
    // The printed plot needs no library and is what paper and readers without script get.
    if (this.querySelector("svg") === null) void this.#show();
  }

  disconnectedCallback() {
    this.#drawn?.destroy();
    this.#drawn = null;
  }

  /** @param {string} _name @param {string | null} before */
  attributeChangedCallback(_name, before) {
    // The first value is the printed one: what is drawn already says the same.
    if (before !== null && this.isConnected) void this.#show();
  }

  /** Something else moves along x: a rotor that turns. @param {number} x */
  cursor(x) {
    this.#drawn?.cursor(x);
  }

  async #show() {
    try {
      await library();
    } catch {
      // The figures stand in the table beneath; a plot of other figures must not stay beside them.
      this.replaceChildren();
      return;
    }
    if (!this.isConnected || !window.handToDiscChart) return;
    /** @type {ChartData} */
    const data = JSON.parse(this.dataset.chart ?? "null");
    if (this.#drawn && this.#shape === shape(data)) {
      this.#drawn.update(data);
      return;
    }
    this.#drawn?.destroy();
    this.replaceChildren();
    this.#shape = shape(data);
    this.#drawn = window.handToDiscChart(this, data, (x) => {
      if (data.cursorField) {
        this.dispatchEvent(new CustomEvent("hd-pick", { bubbles: true, detail: { field: data.cursorField, text: String(Math.round(x)) } }));
      }
    });
  }
}
