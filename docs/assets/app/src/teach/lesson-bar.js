/** A lesson under way: a bar on every page with the step's note, back and next, and large type for a projector. */

import { make, press } from "../dom.js";
import { insidePath, root } from "../site.js";
import { asData, soundPlan } from "./pack.js";

/** @typedef {import("./index.js").Site} Site */
/** @typedef {import("./pack.js").LessonPlan} LessonPlan */
/** @typedef {{plan: LessonPlan, at: number, large: boolean}} Run */

const KEY = "hand-to-disc-lesson";

/** @returns {Run | null} */
function load() {
  try {
    const data = JSON.parse(sessionStorage.getItem(KEY) ?? "null");
    const plan = soundPlan(data?.plan);
    const at = Number(data?.at);
    if (!plan || !Number.isInteger(at) || at < 0 || at >= plan.steps.length) return null;
    return { plan, at, large: data.large === true };
  } catch {
    return null; // no lesson, or none that can be read
  }
}

/** @param {Run} run @returns {boolean} */
function save({ plan, at, large }) {
  try {
    sessionStorage.setItem(KEY, JSON.stringify({ plan: asData(plan), at, large }));
    return !window.handToDiscStorageRefused;
  } catch {
    return false;
  }
}

/** Open the step's page as it was set. @param {Run} run */
function go({ plan, at }) {
  const step = plan.steps[at];
  if (!step) return;
  const same = step.page === insidePath;
  // The same words in the address would be no change, and the page would stay as the hand left it.
  if (same && location.hash === step.fragment) location.reload();
  else if (same && step.fragment === "") {
    history.replaceState(null, "", location.pathname + location.search);
    location.reload();
  } else location.assign(root + step.page + step.fragment);
}

/** @param {LessonPlan} plan @returns {boolean} whether this browser remembers it from page to page */
export function begin(plan) {
  const run = { plan, at: 0, large: false };
  if (!save(run)) return false;
  go(run);
  return true;
}

export class LessonBar {
  /** @param {Site} site */
  constructor(site) {
    this.site = site;
    this.run = load();
    if (!this.run) return;
    const bar = make("nav", { class: "hd-lesson-bar", "aria-label": "Lesson" });
    this.note = make("p", { class: "hd-lesson-note", role: "status" });
    this.back = press("Back", () => this.#step(-1));
    this.next = press("Next", () => this.#step(1));
    this.large = press("Projector", () => this.#enlarge());
    const list = make("a", { class: "hd-press", href: `${root}teaching/lesson.html` }, ["All steps"]);
    bar.append(this.note, make("div", { class: "hd-lesson-ways" }, [this.back, this.next, this.large, list, press("End", () => this.#end(bar))]));
    document.body.append(bar);
    document.body.classList.add("hd-in-lesson");
    document.addEventListener("keydown", (event) => {
      // As remote controls of projectors send them; not while somebody types or moves a slider.
      const way = /** @type {Record<string, number>} */ ({ PageDown: 1, PageUp: -1 })[event.key];
      if (!way || event.defaultPrevented || !this.run?.large || (event.target instanceof Element && event.target.closest("input, select, textarea, [role=slider]"))) return;
      event.preventDefault();
      this.#step(way);
    });
    window.addEventListener("hashchange", () => this.#show());
    this.#show();
  }

  #show() {
    const { run } = this;
    if (!run || !this.note || !this.back || !this.next || !this.large) return;
    const step = run.plan.steps[run.at];
    this.note.replaceChildren(make("b", {}, [`${run.at + 1} of ${run.plan.steps.length}`]), ` ${step?.note ?? ""}`);
    this.back.disabled = run.at === 0;
    this.next.disabled = run.at === run.plan.steps.length - 1;
    this.large.setAttribute("aria-pressed", String(run.large));
    document.documentElement.classList.toggle("hd-projector", run.large);
  }

  /** @param {number} way */
  #step(way) {
    const { run } = this;
    if (!run || !run.plan.steps[run.at + way]) return;
    run.at += way;
    save(run);
    this.#show();
    go(run);
  }

  #enlarge() {
    if (!this.run) return;
    this.run.large = !this.run.large;
    save(this.run);
    this.#show();
  }

  /** @param {HTMLElement} bar */
  #end(bar) {
    try {
      sessionStorage.removeItem(KEY);
    } catch {
      // It could not be kept either.
    }
    this.run = null;
    document.documentElement.classList.remove("hd-projector");
    document.body.classList.remove("hd-in-lesson");
    bar.remove();
  }
}
