/** Practice: one question after another, by topic or what was missed; feedback with the working. */

import { button, download, make } from "../dom.js";
import { whenKeptElsewhere } from "../elsewhere.js";
import { Ask } from "./ask.js";
import { catalogueOf, freshSeed } from "./catalogue.js";
import { after, KEY, load, missed, next, nothing, save, sound } from "./progress.js";

/** @typedef {import("./index.js").Site} Site */

const MISSED = "missed";
const LONGEST_FILE = 200000;
const NOT_KEPT = "This browser does not let the site keep your progress. It holds while this page is open; write it to a file to keep it.";

export class Practice {
  #last = "";
  /** Questions put and passed over while this page is open: others come first. @type {Map<string, number>} */
  #skipped = new Map();
  /** Progress as it was before it was put back to nothing. @type {import("./progress.js").Progress | null} */
  #before = null;

  /** @param {HTMLElement} host @param {Site} site */
  constructor(host, site) {
    this.site = site;
    const { topics, templates } = catalogueOf(host);
    this.templates = new Map(templates.map((one) => [one.template, one]));
    this.progress = load(new Set(this.templates.keys()));
    this.select = /** @type {HTMLSelectElement} */ (make("select", { id: "hd-practice-topic" }));
    this.select.add(new Option("All topics", ""));
    for (const { id, title } of topics) this.select.add(new Option(title, id));
    this.select.add(new Option("What I got wrong", MISSED));
    this.status = make("p", { class: "hd-practice-status", role: "status" });
    this.count = make("p", { class: "hd-practice-count" });
    this.place = make("div", { class: "hd-practice-place" });
    this.ask = button("Ask me", () => void this.#next());
    this.undo = button("Bring my progress back", () => this.#bringBack());
    this.file = /** @type {HTMLInputElement} */ (make("input", { type: "file", accept: ".json,application/json", id: "hd-practice-file" }));
    this.file.addEventListener("change", () => void this.#read());
    this.select.addEventListener("change", () => this.#show());
    host.replaceChildren(
      make("p", { class: "hd-practice-top" }, [make("label", { for: "hd-practice-topic" }, ["Questions on"]), this.select, this.ask]),
      this.status,
      this.place,
      this.count,
      make("details", { class: "hd-practice-more" }, [
        make("summary", {}, ["My progress"]),
        make("p", {}, ["Kept on this device only. Nothing is sent anywhere."]),
        make("p", { class: "hd-practice-keep" }, [
          button("Write it to a file", () => this.#write(), "file"),
          make("label", { for: "hd-practice-file", "data-needs": "file" }, ["Read it from a file ", this.file]),
          button("Start again from nothing", () => this.#reset()),
          this.undo,
        ]),
      ]),
    );
    whenKeptElsewhere(KEY, () => {
      this.progress = load(new Set(this.templates.keys()));
      this.#show();
    });
    this.#show();
  }

  #show() {
    const { answered, records } = this.progress;
    const right = Object.values(records).reduce((sum, record) => sum + record.right, 0);
    const back = missed(this.progress).length;
    this.count.textContent =
      answered === 0 ? "Nothing answered yet." : `Answered ${answered}, right ${right}. ${back === 0 ? "None waits to come back." : `${back} ${back === 1 ? "waits" : "wait"} to come back.`}`;
    this.undo.hidden = !this.#before;
  }

  get #among() {
    const topic = this.select.value;
    if (topic === MISSED) return missed(this.progress).filter((template) => this.templates.has(template));
    return [...this.templates.values()].filter((one) => topic === "" || one.topic === topic).map((one) => one.template);
  }

  async #next() {
    const among = this.#among;
    if (among.length === 0) {
      this.status.textContent = "Nothing that you got wrong waits here. Choose a topic.";
      return;
    }
    const template = next(this.progress, among, this.#last, this.#skipped);
    this.status.textContent = "One moment: the question is being worked out …";
    this.ask.disabled = true;
    const question = new Ask(this.site, { template, seed: freshSeed(), calculators: this.templates.get(template)?.calculators ?? [] }, { done: (marked) => this.#done(template, marked.right) });
    const wrong = await question.put();
    this.ask.disabled = false;
    this.status.textContent = wrong;
    if (wrong) return;
    this.#last = template;
    this.#skipped.set(template, (this.#skipped.get(template) ?? 0) + 1);
    this.place.replaceChildren(question.element);
    this.ask.textContent = "Another one";
    question.focus();
  }

  /** @param {string} template @param {boolean} right */
  #done(template, right) {
    this.progress = after(this.progress, template, right);
    this.#skipped.delete(template);
    this.#before = null;
    if (!save(this.progress)) this.status.textContent = NOT_KEPT;
    this.#show();
    const another = button("Next question", () => void this.#next());
    this.place.append(make("p", { class: "hd-practice-next" }, [another]));
  }

  #write() {
    const text = JSON.stringify({ what: "Hand to Disc practice", ...this.progress }, null, 1);
    download(new Blob([text], { type: "application/json" }), "hand-to-disc-practice.json");
  }

  async #read() {
    const [file] = this.file.files ?? [];
    this.file.value = "";
    if (!file) return;
    if (file.size > LONGEST_FILE) {
      this.status.textContent = `Not read: ${file.name.slice(0, 60)} has ${file.size} bytes; a file of progress has at most ${LONGEST_FILE}.`;
      return;
    }
    let data = null;
    try {
      data = JSON.parse(await file.text());
    } catch {
      data = null; // the sentence below says it
    }
    const read = sound(data, new Set(this.templates.keys()));
    if (!read) {
      this.status.textContent = `Not read: ${file.name.slice(0, 60)} is not a file of practice written by this page. What was here stays.`;
      return;
    }
    this.#take(read, `Read: ${read.answered} answers. What was here before can be brought back.`);
  }

  #reset() {
    this.#take(nothing(), "Started again from nothing.");
  }

  #bringBack() {
    if (this.#before) this.#take(this.#before, "Brought back.");
    this.#before = null;
    this.#show();
  }

  /** @param {import("./progress.js").Progress} progress @param {string} said */
  #take(progress, said) {
    this.#before = this.progress;
    this.progress = progress;
    this.status.textContent = save(progress) ? said : NOT_KEPT;
    this.#show();
  }
}
