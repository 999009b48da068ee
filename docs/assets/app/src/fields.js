/**
 * The controls of one calculator: a slider and a text box for each number, a list for each choice, a reset, a fault line.
 * Texts go out as they were typed. A number is read here only to put a slider's thumb in its place.
 */

/** @typedef {import("./types.js").FormField} FormField */
/** @typedef {import("./types.js").Form} Form */
/**
 * @typedef {object} Listener
 * @property {() => void} onTouch the reader's hand is on a control
 * @property {(name: string, text: string) => void} onMove   still moving: draw, don't speak
 * @property {(name: string, text: string) => void} onSettle let go, or confirmed
 * @property {(name: string) => void} onReset
 */

/** A pause this long in typing counts as confirmed. */
const TYPING_PAUSE = 800;

/** @param {string} text */
const sliderText = (text) => text.replace(/[\u2212\u2013]/g, "-").replace(",", ".").replace(/\s/g, "");

class Field {
  /** @param {HTMLElement} box @param {Listener} listener */
  constructor(box, listener) {
    this.box = box;
    this.name = box.dataset.field ?? "";
    this.listener = listener;
    this.slider = /** @type {HTMLInputElement | null} */ (box.querySelector("input.hd-slider"));
    this.text = /** @type {HTMLInputElement | HTMLTextAreaElement | null} */ (box.querySelector(".hd-text"));
    this.choice = /** @type {HTMLSelectElement | null} */ (box.querySelector("select.hd-choice"));
    this.unit = /** @type {HTMLElement | null} */ (box.querySelector(".hd-unit"));
    this.fault = /** @type {HTMLElement | null} */ (box.querySelector(".hd-fault"));
    this.reset = /** @type {HTMLButtonElement | null} */ (box.querySelector(".hd-field-reset"));
    /** @type {ReturnType<typeof setTimeout> | undefined} */
    this.pause = undefined;
    this.#listen();
    this.#speakSlider();
  }

  #listen() {
    const { slider, text, choice, listener } = this;
    slider?.addEventListener("input", () => {
      if (text) text.value = slider.value;
      this.#speakSlider();
      listener.onMove(this.name, slider.value);
    });
    slider?.addEventListener("change", () => listener.onSettle(this.name, slider.value));
    text?.addEventListener("input", () => {
      this.#moveSlider(text.value);
      clearTimeout(this.pause);
      this.pause = setTimeout(() => listener.onSettle(this.name, text.value), TYPING_PAUSE);
    });
    text?.addEventListener("change", () => {
      clearTimeout(this.pause);
      listener.onSettle(this.name, text.value);
    });
    choice?.addEventListener("change", () => listener.onSettle(this.name, choice.value));
    this.reset?.addEventListener("click", () => {
      // The button goes away with the change it undoes: leave the focus on a control that opens no keyboard.
      (slider ?? choice ?? text)?.focus({ preventScroll: true });
      listener.onReset(this.name);
    });
  }

  /** @param {string} typed */
  #moveSlider(typed) {
    const { slider } = this;
    if (!slider) return;
    const place = sliderText(typed);
    // The browser holds the thumb within the slider's ends; the text box keeps what was entered.
    if (place !== "" && Number.isFinite(Number(place))) slider.value = String(Number(place)); // "+12" is a number, but not to a slider
    this.#speakSlider();
  }

  #speakSlider() {
    const { slider, text, unit } = this;
    if (!slider) return;
    slider.setAttribute("aria-valuetext", `${text?.value ?? slider.value} ${unit?.textContent?.trim() ?? ""}`.trim());
  }

  /**
   * @param {FormField} entry what Python or the print says of this field
   * @param {boolean} force   also overwrite a box that has the focus (after a reset)
   */
  show(entry, force) {
    const { slider, text, choice, unit } = this;
    this.box.hidden = false;
    if (unit && entry.unit !== undefined) unit.textContent = entry.unit;
    if (slider) {
      // Widen before moving, or the thumb would stop at the old end.
      if (entry.min !== undefined) slider.min = String(entry.min);
      if (entry.max !== undefined) slider.max = String(entry.max);
      if (entry.step !== undefined) slider.step = String(entry.step);
    }
    const focused = document.activeElement;
    if (text && (force || focused !== text)) text.value = entry.text;
    if (slider && (force || focused !== slider || !slider.matches(":active"))) this.#moveSlider(text ? text.value : entry.text);
    if (choice && (force || focused !== choice)) choice.value = entry.text;
    this.mark(entry.changed);
  }

  /** @param {boolean} changed */
  mark(changed) {
    this.box.classList.toggle("hd-changed-field", changed);
    if (this.reset) this.reset.hidden = !changed;
  }

  /** @param {string} text what the reader or a link entered, shown whatever it is @param {boolean} [force] false: not while it is being typed in */
  enter(text, force = true) {
    if (!force && this.box.contains(document.activeElement)) return;
    if (this.text) this.text.value = text;
    if (this.choice) this.choice.value = text;
    this.#moveSlider(text);
    this.mark(true);
  }

  /** @param {string} sentence "" when there is nothing to say */
  say(sentence) {
    const control = this.text ?? this.choice;
    for (const input of [control, this.slider]) {
      if (!input) continue;
      if (sentence) input.setAttribute("aria-invalid", "true");
      else input.removeAttribute("aria-invalid");
      if (sentence && this.fault?.id) input.setAttribute("aria-describedby", this.fault.id);
      else input.removeAttribute("aria-describedby");
    }
    if (sentence && this.reset) this.reset.hidden = false; // the way back stands where the fault is
    if (!this.fault) return;
    this.fault.textContent = sentence;
    this.fault.hidden = sentence === "";
  }
}

export class Fields {
  /** @param {HTMLFormElement | null} form @param {Listener} listener */
  constructor(form, listener) {
    /** @type {Map<string, Field>} */
    this.all = new Map();
    for (const box of form?.querySelectorAll("[data-field]") ?? []) {
      if (!(box instanceof HTMLElement)) continue;
      const field = new Field(box, listener);
      this.all.set(field.name, field);
    }
    form?.addEventListener("submit", (event) => event.preventDefault());
    const touched = (/** @type {Event} */ event) => {
      if (event.target instanceof Element && event.target.closest("[data-field]")) listener.onTouch();
    };
    form?.addEventListener("pointerdown", touched);
    form?.addEventListener("keydown", (event) => {
      // Tab only passes through.
      if (!["Tab", "Shift", "Control", "Alt", "Meta", "Escape"].includes(event.key)) touched(event);
    });
    form?.addEventListener("focusin", (event) => keepInSight(event.target));
  }

  /** @param {string} name */
  has(name) {
    return this.all.has(name);
  }

  /** @param {Form} form @param {boolean} [force] */
  show(form, force = false) {
    for (const [name, field] of this.all) {
      const entry = Object.hasOwn(form, name) ? form[name] : undefined;
      if (entry) field.show(entry, force);
      else field.box.hidden = true;
    }
  }

  /** @param {string} name @param {string} text @param {boolean} [force] */
  enter(name, text, force = true) {
    this.all.get(name)?.enter(text, force);
  }

  /** @param {Map<string, string>} faults sentences by field; the others are cleared */
  say(faults) {
    for (const [name, field] of this.all) field.say(faults.get(name) ?? "");
  }
}

/**
 * A control reached by the Tab key must not hide under the drawing that stays in view on a phone.
 * @param {EventTarget | null} target
 */
function keepInSight(target) {
  if (!(target instanceof HTMLElement) || !target.matches(":focus-visible")) return;
  const drawing = target.closest(".hd-bench")?.querySelector(".hd-drawing");
  if (!drawing) return;
  const over = drawing.getBoundingClientRect();
  const box = target.getBoundingClientRect();
  const sideBySide = over.right <= box.left || over.left >= box.right;
  if (!sideBySide && over.bottom > box.top && over.top < box.bottom) window.scrollBy(0, box.top - over.bottom - 48);
}
