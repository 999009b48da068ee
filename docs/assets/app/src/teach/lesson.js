/** A lesson being put together: an ordered list of states of the site's pages, each with a line of the instructor's. */

import { button, make } from "../dom.js";
import { whenKeptElsewhere } from "../elsewhere.js";
import { readyForPaper } from "../print.js";
import { qrSvg } from "../qr.js";
import { hasPublicUrl, pageAddress, root } from "../site.js";
import { begin } from "./lesson-bar.js";
import { asData, LONGEST_NOTE, MOST_STEPS, pack, soundPlan, tooLong, unpack } from "./pack.js";

/** @typedef {import("./index.js").Site} Site */
/** @typedef {import("./pack.js").LessonPlan} LessonPlan */
/** @typedef {import("./pack.js").Step} Step */

const KEY = "hand-to-disc-lesson-plan";
export const PAGE = "teaching/lesson.html";
export const NAME = "lesson";
const UNTITLED = "A lesson";

/** @type {LessonPlan | null} */
let inMemory = null;

/** @returns {LessonPlan} the lesson on this device */
function load() {
  if (inMemory) return inMemory;
  try {
    const data = JSON.parse(localStorage.getItem(KEY) ?? "null");
    const plan = Array.isArray(data) && data.length === 1 ? { title: String(data[0]), steps: [] } : soundPlan(data);
    if (plan) return plan;
  } catch {
    // Unreadable: a new lesson, which only a change overwrites.
  }
  return { title: UNTITLED, steps: [] };
}

/** @param {LessonPlan} plan @returns {boolean} whether the device keeps it */
function keep(plan) {
  try {
    localStorage.setItem(KEY, JSON.stringify(asData(plan)));
    inMemory = null;
    return !window.handToDiscStorageRefused;
  } catch {
    inMemory = plan;
    return false;
  }
}

/** From any calculator: its state becomes the next step. @param {string} page @param {string} fragment @param {string} title @returns {Node[]} what to say */
export function addStep(page, fragment, title) {
  const plan = load();
  const say = (/** @type {string} */ text) => make("p", {}, [text]);
  const on = make("p", {}, [make("a", { href: root + PAGE }, ["To the lesson: order, notes, link, print"])]);
  if (plan.steps.length >= MOST_STEPS) return [say(`The lesson has ${MOST_STEPS} steps already, which is all it holds.`), on];
  plan.steps.push({ page, fragment, note: title });
  const kept = keep(plan);
  return [say(`Added as step ${plan.steps.length} of “${plan.title}”: ${title}, as it is set now.`), ...(kept ? [] : [say("This browser does not let the site keep it beyond this page.")]), on];
}

export class Lesson {
  /** What was taken away or replaced last. @type {LessonPlan | null} */
  #before = null;

  /** @param {HTMLElement} host @param {Site} site */
  constructor(host, site) {
    this.host = host;
    this.site = site;
    /** @type {[string, string][]} path and title of every page */
    this.pages = JSON.parse(host.dataset.pages ?? "[]");
    this.plan = load();
    this.title = /** @type {HTMLInputElement} */ (make("input", { type: "text", id: "hd-lesson-title", maxlength: String(LONGEST_NOTE), autocomplete: "off" }));
    this.title.addEventListener("change", () => this.#keep({ title: this.title.value.trim() || UNTITLED, steps: this.plan.steps }));
    this.add = /** @type {HTMLSelectElement} */ (make("select", { id: "hd-lesson-add" }));
    for (const [path, title] of this.pages) this.add.add(new Option(title, path));
    this.status = make("p", { class: "hd-lesson-status", role: "status" });
    this.list = make("ol", { class: "hd-lesson-steps" });
    this.paper = make("div", { class: "hd-lesson-paper" });
    this.undo = button("Bring back what was here", () => this.#bringBack());
    const copy = button("Copy the link", () => void this.#pass((link) => site.copyLink(link, /** @type {HTMLButtonElement} */ (copy))), "clipboard");
    host.replaceChildren(
      make("p", { class: "hd-lesson-row" }, [make("label", { for: "hd-lesson-title" }, ["Name of the lesson"]), this.title]),
      this.list,
      make("p", { class: "hd-lesson-row" }, [make("label", { for: "hd-lesson-add" }, ["Add a page as it is printed"]), this.add, button("Add it", () => this.#addPage())]),
      make("p", { class: "hd-lesson-buttons" }, [
        button("Start the lesson", () => this.#start()),
        copy,
        button("QR code", () => void this.#pass((link) => site.showCode(link))),
        button("Print the plan", () => void this.#print(), "printer"),
        button("Empty the list", () => this.#replace({ title: UNTITLED, steps: [] }, "The list is empty.")),
        this.undo,
      ]),
      this.status,
      this.paper,
    );
    host.addEventListener("hd-linked", () => void this.#takeLink());
    whenKeptElsewhere(KEY, () => {
      this.plan = load();
      this.#show();
    });
    this.#show();
    if (host.dataset.linked) void this.#takeLink();
  }

  async #takeLink() {
    const { t = "" } = JSON.parse(this.host.dataset.linked ?? "{}");
    const plan = await unpack(t);
    const lost = plan?.steps.find(({ page }) => !this.pages.some(([path]) => path === page));
    if (!plan || lost) {
      this.status.textContent = lost ? `This link’s lesson names a page that isn’t here (“${lost.page.slice(0, 60)}”). It was not opened; your own list stays.` : "This link carries no lesson that can be read. Your own list stays.";
      return;
    }
    if (JSON.stringify(plan) === JSON.stringify(this.plan)) return;
    this.#replace(plan, `Opened from the link: “${plan.title}”, ${plan.steps.length} ${plan.steps.length === 1 ? "step" : "steps"}.`);
  }

  /** @param {LessonPlan} plan */
  #change(plan) {
    this.#keep(plan);
    this.#show();
  }

  /** What was typed stands in its box already: drawing the list anew would take the next box from under the hand. @param {LessonPlan} plan */
  #keep(plan) {
    this.plan = plan;
    if (!keep(plan)) this.status.textContent = "This browser does not let the site keep the lesson. It holds while this page is open; copy the link.";
  }

  /** @param {LessonPlan} plan @param {string} said */
  #replace(plan, said) {
    this.#before = this.plan.steps.length > 0 ? this.plan : null;
    this.status.textContent = said;
    this.#change(plan);
  }

  #bringBack() {
    const plan = this.#before;
    this.#before = null;
    if (plan) this.#change(plan);
    this.status.textContent = "Brought back.";
  }

  #addPage() {
    const [path, title] = this.pages.find(([path]) => path === this.add.value) ?? [];
    if (!path) return;
    if (this.plan.steps.length >= MOST_STEPS) {
      this.status.textContent = `A lesson holds ${MOST_STEPS} steps.`;
      return;
    }
    this.#change({ ...this.plan, steps: [...this.plan.steps, { page: path, fragment: "", note: title ?? "" }] });
  }

  /** @param {string} path */
  #named(path) {
    return this.pages.find(([known]) => known === path)?.[1] ?? path;
  }

  #show() {
    this.title.value = this.plan.title;
    this.undo.hidden = !this.#before;
    /** @param {number} from @param {number} to */
    const moved = (from, to) => {
      const next = [...this.plan.steps];
      const [one] = next.splice(from, 1);
      if (one) next.splice(to, 0, one);
      this.#change({ ...this.plan, steps: next });
      this.status.textContent = `Step ${from + 1} is step ${to + 1} now.`;
      /** @type {HTMLElement | null} */ (this.list.children[to]?.querySelector(`button[data-move="${to < from ? "up" : "down"}"]`))?.focus();
    };
    const rows = this.plan.steps.map((step, i) => {
      const note = /** @type {HTMLInputElement} */ (make("input", { type: "text", maxlength: String(LONGEST_NOTE), "aria-label": `Note of step ${i + 1}`, autocomplete: "off" }));
      note.value = step.note;
      note.addEventListener("change", () => this.#keep({ ...this.plan, steps: this.plan.steps.map((one, k) => (k === i ? { ...one, note: note.value } : one)) }));
      const named = (/** @type {HTMLElement} */ press, /** @type {string} */ text, /** @type {string} */ move) => {
        press.setAttribute("aria-label", text);
        press.dataset.move = move;
        return press;
      };
      const up = named(button("Up", () => moved(i, i - 1)), `Move step ${i + 1} up`, "up");
      const down = named(button("Down", () => moved(i, i + 1)), `Move step ${i + 1} down`, "down");
      /** @type {HTMLButtonElement} */ (up).disabled = i === 0;
      /** @type {HTMLButtonElement} */ (down).disabled = i === this.plan.steps.length - 1;
      const away = named(button("Take out", () => this.#replace({ ...this.plan, steps: this.plan.steps.filter((_, k) => k !== i) }, `Step ${i + 1} was taken out.`)), `Take out step ${i + 1}`, "out");
      const link = make("a", { href: root + step.page + step.fragment }, [this.#named(step.page)]);
      return make("li", {}, [make("div", { class: "hd-lesson-where" }, [link, ...(step.fragment ? [make("span", { class: "hd-lesson-set" }, [" as set"])] : [])]), note, make("span", { class: "hd-lesson-moves" }, [up, down, away])]);
    });
    this.list.replaceChildren(...(rows.length > 0 ? rows : [make("li", { class: "hd-lesson-none" }, ["No steps yet. Set a calculator as you want to show it and press “Add to a lesson” under it, or add a page here."])]));
  }

  #start() {
    if (this.plan.steps.length === 0) {
      this.status.textContent = "There are no steps yet.";
      return;
    }
    if (!begin(this.plan)) this.status.textContent = "This browser does not let the site remember a lesson from page to page. Open the steps from the list, one after the other.";
  }

  /** Hand the lesson's link on. @param {(link: {page: string, fragment: string}) => Promise<void>} act */
  async #pass(act) {
    const link = await this.#link();
    if (link) await act(link);
  }

  async #link() {
    if (this.plan.steps.length === 0) {
      this.status.textContent = "There are no steps yet.";
      return null;
    }
    const packed = await pack(this.plan);
    if (tooLong(packed)) {
      this.status.textContent = "The lesson is too long for a link: shorten notes or take steps out.";
      return null;
    }
    return { page: PAGE, fragment: `#${NAME}&t=${packed}` };
  }

  async #print() {
    const link = await this.#link();
    if (!link) return;
    await readyForPaper();
    const address = pageAddress(link.fragment, link.page);
    const rows = this.plan.steps.map((step) => make("li", {}, [make("b", {}, [this.#named(step.page)]), make("p", {}, [step.note]), make("p", { class: "hd-lesson-address" }, [pageAddress(step.fragment, step.page)])]));
    const foot = make("div", { class: "hd-paper-foot" }, [make("p", {}, [`The whole lesson: ${address}`])]);
    if (hasPublicUrl()) foot.insertAdjacentHTML("beforeend", qrSvg(address));
    this.paper.replaceChildren(make("h2", {}, [this.plan.title]), make("ol", { class: "hd-lesson-plan" }, rows), foot);
    this.site.printAlone(this.paper);
  }
}
