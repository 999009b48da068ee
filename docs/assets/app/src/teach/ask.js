/** A question on the page: put, answered by hand, mouse or keys, judged by Python. */

import { bearingWords, typedDegrees } from "../bearings.js";
import { Dial } from "../dial.js";
import { button, make } from "../dom.js";
import { root } from "../site.js";

/** @typedef {import("./index.js").Site} Site */
/** @typedef {import("../types.js").Asked} Asked */
/** @typedef {import("../types.js").Marked} Marked */
/** @typedef {import("../types.js").Head} Head */
/** @typedef {{template: string, seed: string, calculators: string[], head?: Head, units?: import("../types.js").Units}} Wanted */

let count = 0;

/** What went wrong, as a sentence. @param {import("../types.js").Answer} answer */
export function trouble(answer) {
  if (answer.state === "failed") return answer.text;
  if (answer.state === "invalid") return answer.faults.map((fault) => fault.text).join(" ");
  return "";
}

/** Ask Python about one question. @param {Site} site @param {Wanted} wanted @param {import("../types.js").Request} more */
export function request(site, wanted, more) {
  const { store } = site;
  const { template, seed, calculators } = wanted;
  const what = { template, seed, needs: calculators, head: wanted.head ?? store.head, units: wanted.units ?? store.choice.units };
  return site.engine.ask(`${more.op} ${template} ${seed}`, { ...what, ...more });
}

export class Ask {
  /** Set once it has been answered. @type {Marked | null} */
  marked = null;
  /** @type {Asked | null} */
  asked = null;
  #given = () => "";
  /** Shows the right answer beside the one that was given. @type {(marked: Marked) => void} */
  #reveal = () => {};

  /**
   * @param {Site} site @param {Wanted} wanted
   * @param {{number?: number, done?: (marked: Marked) => void}} [how]
   */
  constructor(site, wanted, { number = 0, done = () => {} } = {}) {
    this.site = site;
    this.wanted = wanted;
    this.number = number;
    this.done = done;
    this.id = `hd-ask-${(count += 1)}`;
    this.said = make("div", { class: "hd-ask-said", role: "status" });
    this.after = make("div", { class: "hd-ask-after" });
    this.check = button("Check my answer", () => void this.#judge());
    this.body = make("div", { class: "hd-ask-body" });
    this.element = make("section", { class: "hd-ask", "aria-labelledby": this.id, "data-template": wanted.template, "data-seed": wanted.seed }, [this.body]);
  }

  /** Have Python make it. @returns {Promise<string>} "" or what went wrong */
  async put() {
    const answer = await request(this.site, this.wanted, { op: "ask" });
    if (answer.state !== "result") return trouble(answer) || "This question was overtaken by another.";
    this.asked = /** @type {Asked} */ (/** @type {unknown} */ (answer));
    this.#build(this.asked);
    return "";
  }

  /** @param {Asked} asked */
  #build(asked) {
    const title = make("h2", { class: "hd-ask-title", id: this.id, tabindex: "-1" }, [this.number ? `Question ${this.number}` : asked.topic_title]);
    const about = make("p", { class: "hd-ask-about" }, [`${this.number ? `${asked.topic_title} · ` : ""}${["easy", "middling", "hard"][asked.level - 1] ?? ""} · tests ${asked.tests}`]);
    const prompt = make("p", { class: "hd-ask-prompt", id: `${this.id}-prompt` }, [asked.prompt]);
    const drawing = make("div", { class: "hd-ask-drawing" });
    drawing.innerHTML = asked.drawing; // the package's own SVG
    const field = { choice: () => this.#choice(asked), order: () => this.#order(asked), number: () => this.#number(asked), mark: () => this.#mark(drawing) }[asked.kind]();
    this.body.replaceChildren(title, about, prompt, ...(asked.drawing && asked.kind !== "mark" ? [drawing] : []), ...field, this.check, this.said, this.after);
  }

  /** @param {Asked} asked */
  #choice(asked) {
    const boxes = asked.options.map((_, i) => /** @type {HTMLInputElement} */ (make("input", { type: "radio", name: this.id, value: String(i) })));
    const labels = asked.options.map((text, i) => make("label", {}, [boxes[i] ?? "", make("span", { class: "hd-letter" }, ["ABCDEFGH"[i] ?? ""]), make("span", {}, [text])]));
    this.#given = () => boxes.find((box) => box.checked)?.value ?? "";
    this.#reveal = (marked) => labels[Number(marked.right_given)]?.classList.add("hd-right");
    return [make("fieldset", { class: "hd-ask-choice", "aria-labelledby": `${this.id}-prompt` }, labels)];
  }

  /** @param {Asked} asked */
  #number(asked) {
    const box = /** @type {HTMLInputElement} */ (make("input", { class: "hd-text", type: "text", inputmode: "decimal", autocomplete: "off", id: `${this.id}-box`, "aria-describedby": `${this.id}-prompt` }));
    box.addEventListener("keydown", (event) => {
      if (event.key === "Enter") void this.#judge();
    });
    this.#given = () => box.value;
    const mark = make("span", { class: "hd-ask-beside", "aria-hidden": "true" });
    this.#reveal = (marked) => (mark.textContent = `model: ${marked.answer.split(" (")[0]}`);
    return [make("p", { class: "hd-ask-number" }, [make("label", { for: `${this.id}-box` }, ["Your answer"]), box, make("span", { class: "hd-u" }, [asked.unit]), mark])];
  }

  /** @param {Element} drawing */
  #mark(drawing) {
    const box = /** @type {HTMLInputElement} */ (make("input", { class: "hd-text", type: "text", inputmode: "decimal", autocomplete: "off", id: `${this.id}-box` }));
    const holder = make("div", { class: "hd-ask-rose" }, [drawing]);
    const dial = new Dial(drawing, "Your mark on the rose", bearingWords, (bearing) => (box.value = String(bearing)));
    box.addEventListener("change", () => {
      const typed = typedDegrees(box.value);
      if (typed !== null) dial.place(typed);
    });
    this.#given = () => box.value;
    this.#reveal = (marked) => {
      if (marked.degrees !== null) dial.reveal(marked.degrees);
    };
    return [holder, make("p", { class: "hd-ask-number" }, [make("label", { for: `${this.id}-box` }, ["Degrees clockwise from the nose"]), box])];
  }

  /** @param {Asked} asked */
  #order(asked) {
    const list = make("ol", { class: "hd-ask-order", "aria-labelledby": `${this.id}-prompt` });
    const rows = asked.items.map((text, i) => {
      const row = make("li", { "data-item": String(i) }, [make("span", {}, [text])]);
      /** @param {number} way */
      const move = (way) => {
        const other = way < 0 ? row.previousElementSibling : row.nextElementSibling;
        if (!other || this.marked) return;
        if (way < 0) other.before(row);
        else other.after(row);
        const place = [...list.children].indexOf(row) + 1;
        this.said.textContent = `${text}: place ${place} of ${asked.items.length}.`;
        (way < 0 ? up : down).focus();
      };
      const up = button("Up", () => move(-1));
      const down = button("Down", () => move(1));
      up.setAttribute("aria-label", `Move up: ${text}`);
      down.setAttribute("aria-label", `Move down: ${text}`);
      row.append(make("span", { class: "hd-ask-moves" }, [up, down]));
      return row;
    });
    list.append(...rows);
    this.#given = () => [...list.children].map((row) => row.getAttribute("data-item") ?? "").join(",");
    this.#reveal = (marked) => {
      const right = marked.right_given.split(",");
      rows.forEach((row, i) => {
        const place = right.indexOf(String(i)) + 1;
        row.append(make("span", { class: "hd-ask-place" }, [`belongs in place ${place}`]));
      });
    };
    return [list];
  }

  async #judge() {
    if (this.marked || !this.asked) return;
    this.check.setAttribute("aria-busy", "true");
    const answer = await request(this.site, this.wanted, { op: "mark", given: this.#given() });
    this.check.removeAttribute("aria-busy");
    if (answer.state !== "result") {
      this.said.textContent = trouble(answer);
      return;
    }
    const marked = /** @type {Marked} */ (/** @type {unknown} */ (answer));
    this.marked = marked;
    this.element.classList.add(marked.right ? "hd-is-right" : "hd-is-wrong");
    for (const field of this.body.querySelectorAll("input, .hd-ask-moves button")) field.setAttribute("disabled", "");
    this.check.hidden = true;
    this.said.textContent = marked.said;
    this.#reveal(marked);
    this.after.replaceChildren(...this.#behind(marked));
    this.done(marked);
  }

  /** The working, its sources, and the ways on. @param {Marked} marked */
  #behind(marked) {
    const { store, writeLink } = this.site;
    const working = make("details", { class: "hd-ask-working" }, [make("summary", {}, ["The working"])]);
    const steps = make("div", { class: "hd-working" });
    steps.innerHTML = marked.working + marked.sources; // written by the package, which escapes what a reader typed
    working.append(steps);
    const page = (/** @type {string} */ path) => root + path.replace(/\.md$/, ".html");
    const choice = { ...store.choice, ...(this.wanted.head ? { own: "", ...this.wanted.head } : {}), ...(this.wanted.units ? { units: this.wanted.units } : {}) };
    return [
      working,
      make("p", { class: "hd-ask-ways" }, [
        make("a", { href: page(marked.page) + writeLink(marked.calculator, choice, marked.inputs) }, [`Work it out: ${marked.title}`]),
        " · ",
        make("a", { href: page(marked.topic_page) }, [`Read: ${marked.topic_title}`]),
      ]),
    ];
  }

  focus() {
    /** @type {HTMLElement | null} */ (this.body.querySelector(".hd-ask-title"))?.focus();
  }
}
