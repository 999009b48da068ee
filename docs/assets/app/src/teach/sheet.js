/** A learner's sheet: exactly the questions of the link, answered on the page; nothing is sent. */

import { button, make } from "../dom.js";
import { typedCount } from "../typed.js";
import { Ask } from "./ask.js";
import { deal, drawingsOf, paperOf, seedOf } from "./paper.js";

/** @typedef {import("./index.js").Site} Site */
/** @typedef {import("./paper.js").For} For */

export class Sheet {
  #turn = 0;
  #answered = 0;
  #right = 0;
  /** @type {For | null} */
  #for = null;

  /** @param {HTMLElement} host @param {Site} site */
  constructor(host, site) {
    this.host = host;
    this.site = site;
    this.nothing = [...host.childNodes];
    this.status = make("p", { class: "hd-sheet-status", role: "status" });
    this.place = make("div", { class: "hd-sheet-questions" });
    host.addEventListener("hd-linked", () => void this.#open());
    site.store.addEventListener("choice", (event) => {
      if (/** @type {CustomEvent} */ (event).detail.link || !this.#for) return;
      if (this.#answered === 0) void this.#open();
      else this.status.textContent = "You chose another head. This sheet stays with the one it was opened for; open it anew for the other.";
    });
    if (host.dataset.linked) void this.#open();
  }

  async #open() {
    const mine = (this.#turn += 1);
    const { store } = this.site;
    const paper = paperOf(JSON.parse(this.host.dataset.linked ?? "{}"));
    this.#for = { head: store.head, units: store.choice.units };
    this.#answered = this.#right = 0;
    this.host.replaceChildren(this.status, this.place);
    this.place.replaceChildren();
    if (paper.forClass) this.#askNumber(paper, mine);
    else await this.#fill(paper, paper.seed, mine, "");
  }

  /** One link for a class: which number has this learner? @param {import("./paper.js").Paper} paper @param {number} mine */
  #askNumber(paper, mine) {
    const box = /** @type {HTMLInputElement} */ (make("input", { type: "text", inputmode: "numeric", class: "hd-text", id: "hd-sheet-number", autocomplete: "off" }));
    const form = make("form", { class: "hd-sheet-number" }, [make("label", { for: "hd-sheet-number" }, ["Your number, as the instructor gave it"]), box, button("Open my sheet", () => start())]);
    const start = () => {
      const number = typedCount(box.value);
      if (!number) {
        this.status.textContent = `Your number: “${box.value.trim().slice(0, 20)}” is not one; write a whole number from 1.`;
        return;
      }
      form.remove();
      void this.#fill(paper, seedOf(paper.seed, number), mine, ` of number ${number}`);
    };
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      start();
    });
    this.status.textContent = "";
    this.place.before(form);
  }

  /** @param {import("./paper.js").Paper} paper @param {string} seed @param {number} mine @param {string} whose */
  async #fill(paper, seed, mine, whose) {
    const pinned = this.#for;
    if (!pinned) return;
    this.status.textContent = "One moment: the questions are being worked out …";
    const drawn = await drawingsOf(this.site, paper.figures, pinned);
    const dealt = typeof drawn === "string" ? drawn : await deal(this.site, paper, seed);
    if (mine !== this.#turn) return;
    if (typeof dealt === "string" || typeof drawn === "string") {
      this.status.textContent = `This link’s sheet can’t be shown. ${String(typeof drawn === "string" ? drawn : dealt)}`;
      this.place.replaceChildren(...this.nothing);
      return;
    }
    const figures = paper.figures.map((name) => drawn.figures[name] ?? "").filter(Boolean);
    for (const html of figures) {
      const figure = make("figure", { class: "hd-paper-figure" });
      figure.innerHTML = html; // made by the package
      this.place.append(figure);
    }
    for (const [i, one] of dealt.entries()) {
      const ask = new Ask(this.site, { ...one, ...pinned }, { number: i + 1, done: (marked) => this.#done(marked.right, dealt.length) });
      const wrong = await ask.put();
      if (mine !== this.#turn) return;
      this.place.append(wrong ? make("p", { class: "hd-ask-lost" }, [`Question ${i + 1} can’t be shown. ${wrong}`]) : ask.element);
      this.status.textContent = `Question ${i + 1} of ${dealt.length} …`;
    }
    this.status.textContent = `Sheet ${seed}${whose}: ${dealt.length} ${dealt.length === 1 ? "question" : "questions"} on ${drawn.label}. Your answers stay on this page and are sent nowhere.`;
  }

  /** @param {boolean} right @param {number} all */
  #done(right, all) {
    this.#answered += 1;
    if (right) this.#right += 1;
    if (this.#answered === all) this.status.textContent = `All ${all} answered, ${this.#right} of them rightly. Show it to your instructor, or go on practising.`;
  }
}
