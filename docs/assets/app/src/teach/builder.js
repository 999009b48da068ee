/** The sheet builder: topics, number, seed, drawings -> a learner's link, its code, a hand-out and a key. */

import { button, make } from "../dom.js";
import { readyForPaper } from "../print.js";
import { pageAddress, root } from "../site.js";
import { typedCount } from "../typed.js";
import { catalogueOf, freshSeed } from "./catalogue.js";
import { handout, key } from "./handout.js";
import { deal, drawingsOf, inputsOf, NAME, seedOf, SHEET, withKey } from "./paper.js";

/** @typedef {import("./index.js").Site} Site */
/** @typedef {import("../types.js").Asked} Asked */

const MOST_LEARNERS = 30;
const FIGURES = [
  ["head-plan", "The head from above"],
  ["side", "Side view: rods, plate, links"],
  ["predict-rose", "A blank rose"],
  ["stick-pad", "Stick pad and lever"],
  ["head-view", "The head with its parts"],
  ["rose", "The rose with the sum on it (gives answers away)"],
];

/** @param {string} type @param {string} id @param {Record<string, string>} [more] */
const input = (type, id, more = {}) => /** @type {HTMLInputElement} */ (make("input", { type, id, ...more }));

export class Builder {
  #turn = 0;

  /** @param {HTMLElement} host @param {Site} site */
  constructor(host, site) {
    this.site = site;
    const { topics } = catalogueOf(host);
    const box = (/** @type {string} */ name, /** @type {string} */ value, /** @type {string} */ text, /** @type {boolean} */ on) => {
      const check = input("checkbox", `hd-b-${name}-${value}`, { name, value });
      check.checked = on;
      return make("label", { class: "hd-check" }, [check, make("span", {}, [text])]);
    };
    this.topics = make("fieldset", { class: "hd-builder-set" }, [make("legend", {}, ["Topics"]), ...topics.map(({ id, title }) => box("topic", id, title, true))]);
    this.figures = make("fieldset", { class: "hd-builder-set" }, [make("legend", {}, ["Drawings on the sheet"]), ...FIGURES.map(([id = "", text = ""]) => box("figure", id, text, false))]);
    this.number = input("text", "hd-b-number", { inputmode: "numeric", class: "hd-text", value: "8", autocomplete: "off" });
    this.seed = input("text", "hd-b-seed", { class: "hd-text", maxlength: "24", autocomplete: "off" });
    this.seed.value = freshSeed();
    this.forClass = input("checkbox", "hd-b-class");
    this.learners = input("text", "hd-b-learners", { inputmode: "numeric", class: "hd-text", value: "6", autocomplete: "off" });
    this.size = /** @type {HTMLSelectElement} */ (make("select", { id: "hd-b-size" }));
    for (const [value, text] of [["a4", "A4"], ["letter", "Letter"]]) this.size.add(new Option(text, value));
    this.status = make("p", { class: "hd-builder-status", role: "status" });
    this.papers = make("div", { class: "hd-handout" });
    this.keys = make("div", { class: "hd-keys" });
    this.keyBox = make("details", { class: "hd-key-box" }, [make("summary", {}, ["Answer key"]), this.keys]);
    const row = (/** @type {string} */ id, /** @type {string} */ text, /** @type {(Node | string)[]} */ fields) => make("p", { class: "hd-builder-row" }, [make("label", { for: id }, [text]), ...fields]);
    this.copy = button("Copy the learners’ link", () => void site.copyLink(this.#link, /** @type {HTMLButtonElement} */ (this.copy)), "clipboard");
    this.open = make("a", { class: "hd-builder-open", href: root + SHEET }, ["Open the learners’ page"]);
    host.replaceChildren(
      this.topics,
      row("hd-b-number", "Questions", [this.number]),
      row("hd-b-seed", "Seed", [this.seed, button("Another seed", () => this.#freshSeed()), make("span", { class: "hd-builder-hint" }, ["The same seed gives the same sheet, always."])]),
      make("label", { class: "hd-check" }, [this.forClass, make("span", {}, ["A different sheet for every learner, from one link"])]),
      row("hd-b-learners", "Learners, for hand-outs and key", [this.learners]),
      this.figures,
      row("hd-b-size", "Paper", [this.size]),
      make("p", { class: "hd-builder-buttons" }, [
        button("Make the sheet", () => void this.#make()),
        this.copy,
        button("QR code", () => void site.showCode(this.#link)),
        button("Print the hand-out", () => void this.#print(this.papers), "printer"),
        button("Print the answer key", () => void this.#print(this.keyBox), "printer"),
      ]),
      this.status,
      make("p", {}, [this.open]),
      this.papers,
      this.keyBox,
    );
    this.keyBox.hidden = true;
    host.addEventListener("change", (event) => {
      if (event.target !== this.size) this.#outdated();
      else this.#size();
    });
    site.store.addEventListener("choice", () => this.#outdated());
    this.#size();
    this.#outdated();
  }

  #freshSeed() {
    this.seed.value = freshSeed();
    this.#outdated();
  }

  get #paper() {
    const picked = (/** @type {Element} */ set) => [...set.querySelectorAll("input")].filter((one) => one.checked).map((one) => one.value);
    const topics = picked(this.topics);
    const all = topics.length === this.topics.querySelectorAll("input").length;
    return { topics: all ? ["all"] : topics, number: this.number.value, seed: this.seed.value.trim(), figures: picked(this.figures), forClass: this.forClass.checked };
  }

  get #link() {
    const { store, writeLink } = this.site;
    return { page: SHEET, fragment: writeLink(NAME, store.choice, inputsOf(this.#paper)) };
  }

  #size() {
    for (const one of [this.papers, this.keyBox]) one.dataset.paper = this.size.value;
  }

  /** What is on the page belongs to other words than those that stand in the form now. */
  #outdated() {
    this.#turn += 1;
    this.papers.replaceChildren();
    this.keys.replaceChildren();
    this.keyBox.hidden = true;
    this.status.textContent = "";
    const learners = this.learners.closest("p");
    if (learners) learners.hidden = !this.forClass.checked;
    const { page, fragment } = this.#link;
    this.open.setAttribute("href", root + page + fragment);
  }

  /** Numbers of the learners; null stands for a sheet that is the same for all. @returns {(number | null)[] | string} */
  get #everybody() {
    if (!this.forClass.checked) return [null];
    const number = typedCount(this.learners.value) ?? 0;
    if (number < 1 || number > MOST_LEARNERS) return `Learners: “${this.learners.value.trim().slice(0, 20)}” is outside what is allowed, between 1 and ${MOST_LEARNERS}.`;
    return Array.from({ length: number }, (_, i) => i + 1);
  }

  /** @returns {Promise<boolean>} whether the sheet stands on the page */
  async #make() {
    this.#outdated();
    const mine = this.#turn;
    const everybody = this.#everybody;
    const said = typeof everybody === "string" ? everybody : await this.#makeFor(everybody, mine);
    if (mine !== this.#turn) return false;
    this.status.textContent = said || (this.forClass.checked ? "The sheets of all learners stand below, each with its key." : "The sheet stands below, its key beneath it.");
    this.keyBox.hidden = said !== "";
    if (said) this.papers.replaceChildren();
    return said === "";
  }

  /** @param {(number | null)[]} everybody @param {number} mine @returns {Promise<string>} "" or what is wrong */
  async #makeFor(everybody, mine) {
    const { store } = this.site;
    const paper = this.#paper;
    const { fragment, page } = this.#link;
    const head = { head: store.head, units: store.choice.units };
    this.status.textContent = "One moment: the questions are being worked out …";
    await readyForPaper();
    const drawn = await drawingsOf(this.site, paper.figures, head);
    if (typeof drawn === "string") return drawn;
    for (const learner of everybody) {
      const seed = seedOf(paper.seed, learner);
      const dealt = await deal(this.site, paper, seed);
      if (typeof dealt === "string") return dealt;
      /** @type {Asked[]} */
      const asked = [];
      for (const one of dealt) {
        if (mine !== this.#turn) return "";
        const question = await withKey(this.site, one, head);
        if (typeof question === "string") return question;
        asked.push(question);
        this.status.textContent = `${learner === null ? "" : `Learner ${learner} of ${everybody.length}: `}question ${asked.length} of ${dealt.length} …`;
      }
      const sheet = { title: "Questions on rotor-head control", head: drawn.label, learner, seed, asked };
      const figures = paper.figures.map((name) => drawn.figures[name] ?? "").filter(Boolean);
      this.papers.append(handout({ ...sheet, figures, address: pageAddress(fragment, page) }));
      this.keys.append(key(sheet));
    }
    return "";
  }

  /** @param {HTMLElement} element */
  async #print(element) {
    if (this.papers.childElementCount === 0 && !(await this.#make())) return;
    if (this.keyBox instanceof HTMLDetailsElement && element === this.keyBox) this.keyBox.open = true;
    this.site.printAlone(element);
  }
}
