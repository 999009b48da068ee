/** The controls of the view: hands, turning, views. They set the calculator's own fields; they know no mechanics. */

import { make } from "../dom.js";

/** @typedef {(field: string, text: string, moving?: boolean) => void} Enter */

/** A square on which the stick's grip is moved, seen from above with the nose up the page. */
export class StickPad {
  /** Percent forward and left. */
  #forward = 0;
  #left = 0;

  /** @param {Enter} enter */
  constructor(enter) {
    this.enter = enter;
    this.grip = make("span", { class: "hd-pad-grip" });
    this.pad = make("div", { class: "hd-pad", tabindex: "0", role: "slider", "aria-label": "Stick: arrow keys move it, Home centres it", "aria-valuemin": "-100", "aria-valuemax": "100" }, [
      ...["forward", "back", "left", "right"].map((side) => make("span", { class: `hd-pad-word hd-pad-${side}` }, [side])),
      this.grip,
    ]);
    this.pad.addEventListener("pointerdown", (event) => {
      event.preventDefault();
      this.pad.focus({ preventScroll: true });
      this.pad.setPointerCapture(event.pointerId);
      this.#point(event, true);
    });
    this.pad.addEventListener("pointermove", (event) => {
      if (this.pad.hasPointerCapture(event.pointerId)) this.#point(event, true);
    });
    for (const end of ["pointerup", "pointercancel"]) {
      this.pad.addEventListener(end, (event) => {
        if (this.pad.hasPointerCapture(/** @type {PointerEvent} */ (event).pointerId)) this.#point(/** @type {PointerEvent} */ (event), false);
      });
    }
    this.pad.addEventListener("keydown", (event) => this.#key(event));
  }

  /** @param {PointerEvent} event @param {boolean} moving */
  #point(event, moving) {
    const box = this.pad.getBoundingClientRect();
    const reach = box.width / 2 - 22;
    let left = -(event.clientX - box.left - box.width / 2) / reach;
    let forward = -(event.clientY - box.top - box.height / 2) / reach;
    const far = Math.hypot(left, forward);
    if (far > 1) [left, forward] = [left / far, forward / far]; // the stick's stop is round
    // Near the middle and near an axis the hand means just that.
    if (Math.abs(left) < 0.05) left = 0;
    if (Math.abs(forward) < 0.05) forward = 0;
    if (event.type === "pointercancel") return;
    this.#set(Math.round(100 * forward), Math.round(100 * left), moving);
  }

  /** @param {KeyboardEvent} event */
  #key(event) {
    const step = event.shiftKey ? 25 : 5;
    const moves = /** @type {Record<string, [number, number]>} */ ({ ArrowUp: [step, 0], ArrowDown: [-step, 0], ArrowLeft: [0, step], ArrowRight: [0, -step] });
    const move = moves[event.key];
    if (!move && event.key !== "Home") return;
    event.preventDefault();
    const within = (/** @type {number} */ value) => Math.max(-100, Math.min(100, value));
    const next = move ? [within(this.#forward + move[0]), within(this.#left + move[1])] : [0, 0];
    const far = Math.hypot(next[0] ?? 0, next[1] ?? 0);
    if (far > 100.5) return;
    this.#set(next[0] ?? 0, next[1] ?? 0, false);
  }

  /** @param {number} forward @param {number} left @param {boolean} moving */
  #set(forward, left, moving) {
    if (moving && forward === this.#forward && left === this.#left) return;
    const [before, beside] = [this.#forward, this.#left];
    this.show(forward / 100, left / 100);
    if (forward !== before || !moving) this.enter("stick_forward", String(forward), moving);
    if (left !== beside || !moving) this.enter("stick_left", String(left), moving);
  }

  /** @param {number} forward @param {number} left −1 to 1 */
  show(forward, left) {
    this.#forward = Math.round(100 * forward);
    this.#left = Math.round(100 * left);
    this.grip.style.left = `calc(50% - ${left} * (50% - 22px))`;
    this.grip.style.top = `calc(50% - ${forward} * (50% - 22px))`;
    const words = (/** @type {number} */ value, /** @type {string} */ plus, /** @type {string} */ less) =>
      value === 0 ? "" : `${Math.abs(value)}% ${value > 0 ? plus : less}`;
    const said = [words(this.#forward, "forward", "back"), words(this.#left, "left", "right")].filter(Boolean).join(", ") || "centred";
    this.pad.setAttribute("aria-valuenow", String(this.#forward));
    this.pad.setAttribute("aria-valuetext", said);
  }
}

/** The collective lever as an upright slider. */
export class Lever {
  /** @param {Enter} enter */
  constructor(enter) {
    this.slider = /** @type {HTMLInputElement} */ (make("input", { type: "range", min: "0", max: "100", step: "1", class: "hd-lever", orient: "vertical", "aria-label": "Collective lever up" }));
    this.slider.addEventListener("input", () => {
      this.#say();
      enter("lever", this.slider.value, true);
    });
    this.slider.addEventListener("change", () => enter("lever", this.slider.value));
    this.box = make("div", { class: "hd-lever-box" }, [make("span", {}, ["up"]), this.slider, make("span", {}, ["down"])]);
  }

  #say() {
    this.slider.setAttribute("aria-valuetext", `${this.slider.value} % up`);
  }

  /** @param {number} lever 0 to 1 */
  show(lever) {
    if (!this.slider.matches(":active")) this.slider.value = String(Math.round(100 * lever));
    this.#say();
  }
}

/** Choices for how slowly the rotor turns, as a share of its real speed. */
export const SHARES = [30, 60, 120, 240];

/**
 * @param {string} label @param {[string, string][]} options value, words @param {(value: string) => void} chosen
 */
export function list(label, options, chosen) {
  const select = /** @type {HTMLSelectElement} */ (make("select", { class: "hd-choice", "aria-label": label }, options.map(([value, words]) => make("option", { value }, [words]))));
  select.addEventListener("change", () => chosen(select.value));
  return select;
}
