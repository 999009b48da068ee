/** Keys for numbers on the screen: come up with a field that takes a number, and leave with it. */

import { make } from "../dom.js";

/** Fields that take a number; a field of a calculator may take a range too, which nobody enters with gloves. */
const NUMBERS = 'input.hd-text:not(#hd-b-seed), input[inputmode="decimal"], input[inputmode="numeric"], input[inputmode="none"]';
const KEYS = ["7", "8", "9", "4", "5", "6", "1", "2", "3", "\u2212", "0", "."];

export class NumberPad {
  /** @type {HTMLInputElement | null} */
  #field = null;

  constructor() {
    const key = (/** @type {string} */ text, /** @type {string} */ label, /** @type {() => void} */ act) => {
      const press = make("button", { type: "button", class: "hd-button", ...(label ? { "aria-label": label } : {}) }, [text]);
      // The field keeps the focus, and with it the pad stays.
      press.addEventListener("pointerdown", (event) => event.preventDefault());
      press.addEventListener("click", act);
      return press;
    };
    this.shown = make("output", { class: "hd-number-shown", "aria-live": "off" });
    this.pad = make("div", { class: "hd-number-keys hd-kiosk-own", role: "group", "aria-label": "Number keys", hidden: "" }, [
      this.shown,
      ...KEYS.map((text) => key(text, text === "\u2212" ? "Minus" : text === "." ? "Point" : "", () => this.#type(text))),
      key("\u232b", "Take the last sign away", () => this.#change((before) => before.slice(0, -1))),
      key("Clear", "", () => this.#change(() => "")),
      key("Done", "", () => this.#done()),
    ]);
    document.body.append(this.pad);
    document.addEventListener("focusin", (event) => this.#open(event.target));
    document.addEventListener("focusout", (event) => {
      if (!(event.relatedTarget instanceof Node && this.pad.contains(event.relatedTarget))) this.#close();
    });
  }

  /** @param {EventTarget | null} target */
  #open(target) {
    if (!(target instanceof HTMLInputElement) || !target.matches(NUMBERS) || target.readOnly || target.disabled) return;
    // The machine's own keyboard, if it has one for the screen, would cover both.
    target.inputMode = "none";
    this.#field = target;
    this.shown.textContent = target.value;
    this.pad.hidden = false;
    target.select();
  }

  #close() {
    this.#field = null;
    this.pad.hidden = true;
  }

  /** @param {(before: string) => string} made */
  #change(made) {
    const field = this.#field;
    if (!field) return;
    // What is marked as a whole is replaced by the first key.
    const whole = field.selectionStart === 0 && field.selectionEnd === field.value.length && field.value !== "";
    field.value = made(whole ? "" : field.value);
    field.setSelectionRange(field.value.length, field.value.length);
    this.shown.textContent = field.value;
    field.dispatchEvent(new Event("input", { bubbles: true }));
  }

  /** @param {string} text */
  #type(text) {
    if (text === "\u2212") this.#change((before) => (/^[-\u2212]/.test(before) ? before.slice(1) : `\u2212${before}`));
    else this.#change((before) => before + text);
  }

  #done() {
    const field = this.#field;
    field?.dispatchEvent(new Event("change", { bubbles: true }));
    field?.blur();
  }
}
