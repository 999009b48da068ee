/** The place of a moving view in a calculator: the view itself is a script of its own, fetched with its first picture. */

import { asset, loadScript } from "./site.js";

/** @typedef {ReturnType<NonNullable<Window["handToDiscHeadView"]>>} HeadView */

export class Stage {
  /** @type {HeadView | null} */
  #view = null;
  /** @type {Promise<void> | null} */
  #loading = null;
  /** @type {unknown} */
  #latest = null;

  /** @param {HTMLElement} calculator */
  constructor(calculator) {
    this.calculator = calculator;
    /** @type {HTMLElement | null} */
    this.box = calculator.querySelector(".hd-stage");
  }

  /** Slots that can't be seen while a hand moves, so that Python need not fill them. */
  get unseen() {
    return this.#view?.solid ? ["drawing", "working", "table", "tour"] : [];
  }

  /**
   * @param {unknown} scene as Python gives it; undefined for a calculator without a moving view
   * @param {boolean} [latest] false: the hand has moved on since it was asked for
   */
  show(scene, latest = true) {
    if (!this.box || !scene) return;
    this.#latest = scene;
    if (this.#view) this.#view.show(scene, latest);
    else void this.#open();
  }

  /** Figures are shown that no scene goes with, a print's: their drawing stands in until the next scene. */
  rest() {
    this.#view?.rest();
  }

  async #open() {
    this.#loading ??= loadScript(asset("head-view.js", true));
    try {
      await this.#loading;
    } catch {
      this.#loading = null; // the drawn view stays; the next answer tries again
      return;
    }
    if (this.#view || !this.box || !window.handToDiscHeadView) return;
    this.#view = window.handToDiscHeadView(this.calculator, this.box, (field, text, moving = false) => {
      this.calculator.dispatchEvent(new CustomEvent("hd-pick", { detail: { field, text, moving } }));
    });
    this.#view.show(this.#latest);
  }

  /** For tests. */
  get view() {
    return this.#view;
  }
}
