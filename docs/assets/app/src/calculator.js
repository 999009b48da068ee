/**
 * One calculator on a page. The print is in the page already; this wakes it: sends what was entered to Python, shows what
 * comes back, and keeps the states apart: printed, starting, live, stale, refused, unavailable.
 */

import { engine } from "./engine.js";
import { Fields } from "./fields.js";
import { quoted, writeLink } from "./link.js";
import { printedFor } from "./printed.js";
import { OWN, PRINTED, shortened, store } from "./state.js";
import { calculators, follow, headRefused, printName, writeAddress } from "./page.js";
import { Stage } from "./stage.js";
import { button } from "./dom.js";
import { addTools } from "./tools.js";
import { View } from "./view.js";

/** @typedef {import("./types.js").PrintedCalculator} PrintedCalculator */
/** @typedef {import("./types.js").HeadSummary} HeadSummary */
/** @typedef {import("./types.js").Fault} Fault */
/** @typedef {import("./view.js").State} State */

export class Calculator extends HTMLElement {
  /** What the reader or a link entered, as text; only what differs from the head's own. @type {Record<string, string>} */
  inputs = {};
  name = "";
  /** @type {Fields} */
  #fields = new Fields(null, { onTouch() {}, onMove() {}, onSettle() {}, onReset() {} });
  /** Counts runs: only the latest may end the waiting. */
  #run = 0;
  /** Counts heads: an answer for an earlier one is not even drawn. */
  #epoch = 0;
  #woken = false;
  #fromLink = false;
  /** Sentences about a link, said with the next result. @type {string[]} */
  #linkFaults = [];
  #view = new View(this);
  stage = new Stage(this);
  /** The print to go back to. @type {{parts: Record<string, string>, label: string, print: string}} */
  #printed = { parts: {}, label: "", print: printName(PRINTED) };
  /** The print that is shown, when it is one. */
  #print = printName(PRINTED);
  /** @type {HTMLButtonElement | null} */
  #again = null;

  connectedCallback() {
    if (this.#woken) return;
    this.#woken = true;
    this.name = this.getAttribute("name") ?? "";
    this.#view = new View(this);
    this.stage = new Stage(this);
    this.#printed = { parts: this.#view.parts, label: this.#view.label, print: printName(PRINTED) };
    this.#fields = new Fields(this.querySelector("form"), {
      onTouch: () => this.#touch(),
      onMove: (name, text) => this.#move(name, text),
      onSettle: (name, text) => this.#settle(name, text),
      onReset: (name) => this.#resetField(name),
    });
    this.#again = button("Try again", () => engine.tryAgain());
    this.#again.classList.add("hd-again");
    this.#again.hidden = true;
    this.querySelector(".hd-status")?.after(this.#again);
    engine.addEventListener("state", () => this.#showState());
    engine.addEventListener("again", () => {
      if (this.state === "unavailable") void this.run({ settled: true });
    });
    this.addEventListener("hd-pick", (event) => {
      const { field, text, moving } = /** @type {CustomEvent<{field: string, text: string, moving?: boolean}>} */ (event).detail;
      this.#fields.enter(field, text);
      if (moving) this.#move(field, text);
      else void this.#settle(field, text);
    });
    addTools(this);
    calculators.add(this);
  }

  get state() {
    return /** @type {State} */ (this.dataset.state ?? "printed");
  }

  set state(state) {
    this.dataset.state = state;
    this.toggleAttribute("aria-busy", false);
    if (state === "stale" || state === "starting") this.setAttribute("aria-busy", "true");
    this.#showState();
    this.dispatchEvent(new Event("hd-state"));
  }

  get hasInputs() {
    return Object.keys(this.inputs).length > 0;
  }

  /** A link that says everything, for another device. */
  get fragment() {
    return writeLink(this.name, store.choice, this.inputs);
  }

  /** @param {string} print */
  shows(print) {
    return this.#print === print;
  }

  #showState() {
    if (this.state === "starting" && engine.state === "ready") this.dataset.state = "stale";
    if (this.state === "stale" && engine.state === "starting") this.dataset.state = "starting";
    this.#view.tell(this.state);
    if (this.#again) this.#again.hidden = this.state !== "unavailable";
  }

  /** The head whose figures are awaited, in words. */
  get #awaited() {
    return store.changed ? "the changed head" : store.name;
  }

  #touch() {
    // The first touch asks for the very figures that are printed: what comes back shows that the page is live.
    if (this.state === "printed") void this.run({ settled: false });
  }

  /** @param {string} name @param {string} text */
  #set(name, text) {
    this.#fromLink = false;
    this.#linkFaults = [];
    if (name.startsWith("head.")) store.draft(name.slice(5), text);
    else this.inputs[name] = text;
  }

  /** @param {string} name @param {string} text */
  #move(name, text) {
    this.#set(name, text);
    void this.run({ settled: false });
  }

  /** @param {string} name @param {string} text */
  #settle(name, text) {
    this.#set(name, text);
    store.note("link", "");
    const running = this.run({ settled: true });
    if (name.startsWith("head.")) store.choose({}, { origin: this });
    writeAddress(this);
    return running;
  }

  /** @param {string} name */
  #resetField(name) {
    delete this.inputs[name];
    if (name.startsWith("head.")) store.choose({ changes: store.without([name.slice(5)]) }, { origin: this });
    writeAddress(this);
    void this.run({ settled: true });
  }

  /** Back to the head's own figures. */
  reset() {
    this.inputs = {};
    this.#fromLink = false;
    this.#linkFaults = [];
    writeAddress(this);
    if (engine.state === "ready") void this.run({ settled: true, force: true });
    else void follow();
  }

  /** Texts that Python has carried over to other units or the other rotation. @param {Record<string, string>} inputs */
  enter(inputs) {
    this.inputs = { ...inputs };
    for (const [name, text] of Object.entries(inputs)) this.#fields.enter(name, text);
  }

  /** @param {Record<string, string>} inputs */
  takeLink(inputs) {
    const known = Object.entries(inputs).filter(([name]) => this.#fields.has(name));
    const unknown = Object.keys(inputs).filter((name) => !this.#fields.has(name));
    this.#linkFaults = unknown.map((name) => `The link names ${quoted(name)}, which this calculator does not have; it was left out.`);
    this.#fromLink = known.length > 0;
    this.#print = ""; // whatever was shown before, the page brings this one up again
    this.enter(Object.fromEntries(known));
    if (this.#linkFaults.length > 0) this.#view.say(this.#linkFaults.join(" "));
  }

  /** What to fall back on for this head. @param {PrintedCalculator} entry @param {HeadSummary} head @param {string} print */
  keepPrint(entry, head, print) {
    this.#printed = { parts: entry.parts, label: head.label, print };
  }

  /**
   * @param {PrintedCalculator} entry
   * @param {HeadSummary} head
   * @param {string} print
   * @param {boolean} done false: shown only until a changed head is computed
   */
  takePrinted(entry, head, print, done) {
    this.#run += 1;
    this.#epoch += 1;
    this.#print = print;
    this.#view.draw(entry.parts);
    this.#fields.show(entry.form, true);
    this.#fields.say(new Map());
    this.#view.name(head.label, done ? "" : this.#awaited);
    // Several calculators on one page must not all speak at once.
    if (done) this.#view.say([...this.#linkFaults, ...(calculators.size === 1 ? [entry.spoken] : [])].join(" "));
    this.state = engine.state === "unavailable" ? "unavailable" : engine.state === "ready" ? "live" : "printed";
    // A moving view shows what Python sends; of a print it knows nothing.
    if (done && this.stage.view && engine.state === "ready") void this.run({ settled: true });
    else if (done) this.stage.rest();
  }

  /**
   * Ask for what is entered now.
   * @param {{settled: boolean, until?: boolean, force?: boolean}} how settled: speak the answer; until: the head has
   *   changed under it; force: overwrite even the box that has the focus
   */
  async run({ settled, until = false, force = false }) {
    const run = (this.#run += 1);
    if (until) this.#epoch += 1;
    const epoch = this.#epoch;
    const printShown = this.#print !== "";
    if (until || (!store.plain && printShown)) this.#view.name(this.#view.label, this.#awaited);
    this.state = engine.state === "ready" ? "stale" : engine.state === "unavailable" ? "unavailable" : "starting";
    const { units } = store.choice;
    const skip = settled ? [] : this.stage.unseen;
    const answer = await engine.ask(`run ${this.#key}`, { op: "run", calculator: this.name, inputs: this.inputs, head: store.head, units, skip });
    if (answer.state === "stale" || epoch !== this.#epoch) return;
    if (run !== this.#run) {
      // The hand has moved on: draw what came, so that the picture follows, and stay greyed until the last answer is in.
      if (answer.state === "result") {
        this.#view.draw(answer.parts, true);
        this.stage.show(answer.scene, false);
      }
    } else if (answer.state === "result") this.#result(answer, settled, force);
    else if (answer.state === "invalid") this.#invalid(answer.faults, settled);
    else if (answer.unavailable) void this.#unavailable(answer.text);
    else {
      this.state = "refused";
      this.#view.say(answer.text);
    }
  }

  get #key() {
    return `${this.name} ${[...calculators].indexOf(this)}`;
  }

  /** @param {import("./types.js").Result} answer @param {boolean} settled @param {boolean} force */
  #result(answer, settled, force) {
    this.#print = "";
    this.#view.draw(answer.parts, !settled);
    this.#fields.show(answer.form, force);
    this.#fields.say(new Map());
    this.#view.name(answer.head.label);
    this.stage.show(answer.scene);
    if (settled) {
      // What turns out to be the head's own figure is no change, and has no place in a link.
      const same = Object.keys(answer.form).filter((name) => answer.form[name]?.changed === false);
      const idle = same.some((name) => Object.hasOwn(this.inputs, name) || (name.startsWith("head.") && Object.hasOwn(store.choice.changes, name.slice(5))));
      for (const name of same) delete this.inputs[name];
      store.forget(same.filter((name) => name.startsWith("head.")).map((name) => name.slice(5)));
      if (idle) writeAddress(this);
      store.describe(answer.head);
      this.#view.say([...this.#linkFaults, answer.spoken].join(" "));
    }
    this.#fromLink = false;
    this.state = "live";
  }

  /** @param {Fault[]} faults @param {boolean} settled */
  #invalid(faults, settled) {
    const ofHead = faults.filter((fault) => fault.head);
    const own = faults.filter((fault) => !fault.head);
    if (ofHead.length > 0 && store.fromLink) {
      headRefused(ofHead); // leaves them out and brings the page up again, this calculator too
      return;
    }
    if (own.length > 0 && this.#fromLink) {
      const bad = own.map((fault) => fault.field).filter((name) => Object.hasOwn(this.inputs, name));
      this.#linkFaults.push(`From the link: ${own.map((fault) => fault.text).join(" ")} Left out; the head's own figure is used.`);
      for (const name of bad.length > 0 ? bad : Object.keys(this.inputs)) delete this.inputs[name];
      this.#fromLink = this.hasInputs; // with nothing left of the link, a fault is not its doing
      void this.run({ settled: true, force: true });
      return;
    }
    if (ofHead.length > 0 && settled) headRefused(ofHead);
    const names = (/** @type {Fault} */ fault) => (fault.head && !fault.field.startsWith("head.") ? `head.${fault.field}` : fault.field);
    // What was entered stays, also on a page that was opened after it was entered.
    for (const [key, text] of Object.entries(store.choice.changes)) this.#fields.enter(`head.${key}`, text, false);
    // A list of readings may be wrong in several lines: each is named where the list stands.
    const fields = [...new Set(faults.map(names))];
    this.#fields.say(new Map(fields.map((field) => [field, shortened(faults.filter((fault) => names(fault) === field).map((fault) => fault.text), 12)])));
    this.state = "refused";
    if (settled) this.#view.say(`Not computed. ${shortened(faults.map((fault) => fault.text))}`);
  }

  /** @param {string} text */
  async #unavailable(text) {
    const { base, mirrored, units } = store.choice;
    const print = printName(store.choice);
    this.#fields.say(new Map());
    this.state = "unavailable";
    this.#view.say(text);
    // While Python ran, no print was fetched for the heads picked: fetch the right one now, if it can be had.
    const printed = this.#printed.print === print || base === OWN ? null : await printedFor(base, mirrored, units);
    const entry = printed?.calculators[this.name];
    if (printed && entry) this.keepPrint(entry, printed.head, print);
    if (this.state !== "unavailable") return;
    this.#view.draw(this.#printed.parts);
    this.#view.name(this.#printed.label);
    this.stage.rest();
  }
}
