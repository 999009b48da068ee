/** A guess on a scale: a slider and a number that agree, and later two marks, the reader's and the model's. */

import { make } from "./dom.js";
import { typedNumber } from "./typed.js";

/** @typedef {{min: number, max: number, step: number, unit: string}} Span */

let count = 0;

export class Scale {
  /** @type {number | null} */
  guess = null;

  /** @param {string} label @param {Span} span @param {(fault: string) => void} changed told "" or what is wrong with what was typed */
  constructor(label, span, changed) {
    const id = `hd-scale-${(count += 1)}`;
    this.span = span;
    this.slider = /** @type {HTMLInputElement} */ (make("input", { type: "range", class: "hd-slider", "aria-label": label }));
    this.box = /** @type {HTMLInputElement} */ (make("input", { type: "text", class: "hd-text", inputmode: "decimal", id, autocomplete: "off" }));
    this.unit = make("span", { class: "hd-u" });
    this.marks = make("div", { class: "hd-scale-marks", "aria-hidden": "true" });
    this.element = make("div", { class: "hd-scale" }, [
      this.slider,
      this.marks,
      make("p", { class: "hd-predict-number" }, [make("label", { for: id }, ["Your guess "]), this.box, this.unit]),
    ]);
    this.slider.addEventListener("input", () => {
      this.guess = Number(this.slider.value);
      this.box.value = this.text(this.guess);
      this.box.removeAttribute("aria-invalid");
      this.#told();
      changed("");
    });
    this.box.addEventListener("change", () => {
      const typed = typedNumber(this.box.value);
      if (typed === null) {
        this.guess = null;
        this.box.setAttribute("aria-invalid", "true");
        changed(`“${this.box.value.slice(0, 40)}” is not a number; write it like 12.5 or 12,5.`);
        return;
      }
      this.box.removeAttribute("aria-invalid");
      this.guess = typed;
      this.slider.value = String(typed);
      this.#told();
      changed("");
    });
    this.fit(span);
  }

  /** Another head or other units: an empty scale again. @param {Span} span */
  fit(span) {
    const other = span.unit !== this.span.unit;
    this.span = span;
    this.slider.min = String(span.min);
    this.slider.max = String(span.max);
    this.slider.step = String(span.step);
    this.unit.textContent = span.unit;
    this.marks.replaceChildren();
    if (other || this.guess === null) {
      this.guess = null;
      this.box.value = "";
      this.slider.value = String((span.min + span.max) / 2);
    }
    this.#told();
  }

  /** @param {number} value */
  text(value) {
    const places = Math.max(0, -Math.floor(Math.log10(this.span.step) + 1e-9));
    return value.toFixed(places).replace("-", "\u2212");
  }

  /** @param {number} value */
  withUnit(value) {
    const { unit } = this.span;
    return `${this.text(value)}${unit === "" || unit === "°" || unit === "%" ? unit : `\u202f${unit}`}`;
  }

  #told() {
    this.slider.setAttribute("aria-valuetext", this.guess === null ? "not set yet" : this.withUnit(this.guess));
  }

  /** @param {number} answer @param {string} text */
  reveal(answer, text) {
    const { min, max } = this.span;
    const mark = (/** @type {number} */ value, /** @type {string} */ kind, /** @type {string} */ words) => {
      const share = Math.min(1, Math.max(0, (value - min) / (max - min)));
      const one = make("span", { class: `hd-scale-mark ${kind}${share > 0.6 ? " hd-from-right" : ""}` }, [words]);
      one.style.setProperty("--at", String(share));
      return one;
    };
    this.marks.replaceChildren(mark(this.guess ?? min, "hd-yours", `yours ${this.withUnit(this.guess ?? min)}`), mark(answer, "hd-models", `model ${text}`));
  }
}
