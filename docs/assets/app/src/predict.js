/**
 * Predict, then see: the reader commits to an answer before the model shows its own. An arrow on a rose (dragged, by
 * keys, or as a number), a number on a scale, or one of several sentences. Nothing is scored, kept or sent.
 */

import { valueNow } from "./page.js";
import { bearingWords, typedDegrees } from "./bearings.js";
import { Dial } from "./dial.js";
import { Scale } from "./scale.js";
import { store } from "./state.js";
import { printedNumber } from "./typed.js";
import { valueChanges } from "./values.js";

/** A difference this small is the width of the arrow, not an error. */
const CLOSE_ENOUGH = 2;

export class Predict extends HTMLElement {
  #woken = false;
  /** @type {HTMLElement} */
  #said = document.createElement("p");

  connectedCallback() {
    if (this.#woken) return;
    this.#woken = true;
    this.#said.className = "hd-predict-said";
    this.#said.setAttribute("role", "status");
    const show = document.createElement("button");
    show.type = "button";
    show.className = "hd-button";
    show.textContent = "Show me";
    if (this.dataset.metric) this.#scale(show);
    else if (this.querySelector("fieldset")) show.addEventListener("click", () => this.#judgeChoice());
    else this.#dial(show);
    this.append(show, this.#said);
  }

  /** @param {string} sentence */
  #say(sentence) {
    this.#said.textContent = sentence;
  }

  #judgeChoice() {
    const chosen = this.querySelector("input:checked");
    if (!chosen) {
      this.#say("Choose an answer first; then the page shows its own.");
      return;
    }
    const right = this.querySelector("input[data-right]");
    for (const input of this.querySelectorAll("input[type=radio]")) {
      input.closest("label")?.classList.toggle("hd-right", input === right);
    }
    const why = chosen.getAttribute("data-why") ?? "";
    const text = right?.closest("label")?.textContent?.trim() ?? "";
    if (chosen === right) this.#say(`Yes. ${why}`);
    else this.#say(`Not so. ${why} What is so: ${text.replace(/\.$/, "")}. ${right?.getAttribute("data-why") ?? ""}`);
  }

  /** @param {HTMLButtonElement} show */
  #scale(show) {
    const span = () => JSON.parse((store.choice.units === "imperial" ? this.dataset.imperial : this.dataset.metric) ?? "{}");
    const scale = new Scale(this.querySelector("p")?.textContent ?? "Your guess", span(), (fault) => this.#say(fault));
    show.addEventListener("click", () => void this.#judgeScale(scale));
    // Another head or other units, another answer: what was shown goes.
    valueChanges.addEventListener("change", () => {
      scale.fit(span());
      this.#say("");
    });
    this.append(scale.element);
  }

  /** @param {Scale} scale */
  async #judgeScale(scale) {
    if (scale.guess === null) {
      this.#say("Set your guess first; then the page shows its own.");
      return;
    }
    const found = await valueNow(this.getAttribute("data-answer-of") ?? "");
    const holder = document.createElement("template");
    holder.innerHTML = found?.text ?? "";
    const text = holder.content.textContent ?? "";
    const answer = printedNumber(text);
    if (!found || answer === null) {
      this.#say("The answer for this head can't be worked out here just now.");
      return;
    }
    scale.reveal(answer, text);
    const off = scale.guess - answer;
    const near = Math.abs(off) <= Math.max(scale.span.step, 0.05 * Math.abs(answer)) * (1 + 1e-9);
    const verdict = near ? "You have it." : `Yours is ${scale.withUnit(Math.abs(off))} too ${off > 0 ? "high" : "low"}.`;
    this.#say(`You said ${scale.withUnit(scale.guess)}. On ${found.label} it is ${text}. ${verdict} ${this.dataset.why ?? ""}`);
  }

  /** @param {HTMLButtonElement} show */
  #dial(show) {
    const rose = this.querySelector(".hd-predict-rose");
    if (!rose) return;
    const label = document.createElement("label");
    label.className = "hd-predict-number";
    const box = document.createElement("input");
    box.className = "hd-text";
    box.type = "text";
    box.inputMode = "decimal";
    label.append("Degrees clockwise from the nose ", box);
    const dial = new Dial(rose, this.querySelector("p")?.textContent ?? "Your answer", bearingWords, (bearing) => {
      box.value = String(bearing);
      this.#say("");
    });
    box.addEventListener("change", () => {
      const typed = typedDegrees(box.value);
      if (typed === null) {
        box.setAttribute("aria-invalid", "true");
        this.#say(`“${box.value.slice(0, 40)}” is not a bearing. Enter degrees clockwise from the nose, 0 to 360.`);
        return;
      }
      box.removeAttribute("aria-invalid");
      dial.place(typed);
      this.#say("");
    });
    show.addEventListener("click", () => void this.#judgeDial(dial));
    // Another head, another answer: the guess stays, what was shown goes.
    valueChanges.addEventListener("change", () => {
      dial.refresh();
      this.#say("");
    });
    this.append(label);
  }

  /** @param {Dial} dial */
  async #judgeDial(dial) {
    if (dial.guess === null) {
      this.#say("Place the arrow first; then the page shows its own.");
      return;
    }
    const found = await valueNow(this.getAttribute("data-answer-of") ?? "");
    const answer = found ? typedDegrees(found.text) : null;
    if (!found || answer === null) {
      this.#say("The answer for this head can't be worked out here just now.");
      return;
    }
    dial.reveal(answer);
    const off = ((((dial.guess - answer) % 360) + 540) % 360) - 180;
    // On an anticlockwise rotor a blade meets the greater bearing first.
    const early = found.rotation === "clockwise" ? off < 0 : off > 0;
    const size = Math.abs(off) < 10 ? Math.abs(off).toFixed(1) : String(Math.round(Math.abs(off)));
    const verdict =
      Math.abs(off) <= CLOSE_ENOUGH ? "You have it." : `Yours is ${size}° ${early ? "too early: before it" : "too late: after it"}, in the direction of rotation.`;
    this.#say(`You put it ${bearingWords(dial.guess)}. On ${found.label} it is ${bearingWords(answer)}. ${verdict}`);
  }
}
