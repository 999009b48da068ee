/** Minus and plus beside a number, for hands in gloves: they move its slider by a step and let go. */

import { make } from "../dom.js";

/** @param {ParentNode} place */
export function addSteppers(place) {
  for (const slider of place.querySelectorAll("input.hd-slider")) {
    if (!(slider instanceof HTMLInputElement) || slider.dataset.steppers) continue;
    slider.dataset.steppers = "1";
    const label = slider.getAttribute("aria-label") ?? "";
    const step = (/** @type {string} */ sign, /** @type {number} */ way) => {
      const press = make("button", { type: "button", class: "hd-button hd-stepper hd-kiosk-own", "aria-label": `${way < 0 ? "Less" : "More"}: ${label}` }, [sign]);
      press.addEventListener("click", () => {
        if (way < 0) slider.stepDown();
        else slider.stepUp();
        for (const name of ["input", "change"]) slider.dispatchEvent(new Event(name, { bubbles: true }));
      });
      // As a hand on the control itself would: what is shown comes alive.
      press.addEventListener("pointerdown", () => slider.dispatchEvent(new PointerEvent("pointerdown", { bubbles: true })));
      return press;
    };
    slider.before(step("\u2212", -1));
    slider.after(step("+", 1));
  }
}
