/**
 * Heads of the reader's own, where they are described: keep, use, rename, copy, delete and bring back, write to a file,
 * read from one, pass on. Loaded only there: own-heads.js. Python judges every head; here is only the list of them.
 */

/**
 * @typedef {object} Site what the page's script hands over
 * @property {typeof import("../engine.js").engine} engine
 * @property {typeof import("../state.js").store} store
 * @property {typeof import("../own-list.js").ownHeads} ownHeads
 * @property {typeof import("../tools.js").copyLink} copyLink
 * @property {typeof import("../tools.js").showCode} showCode
 * @property {typeof import("../link.js").writeLink} writeLink
 * @property {typeof import("../print.js").printAlone} printAlone
 */
/** @typedef {import("../own-list.js").OwnHead} OwnHead */

import { button, download, make } from "../dom.js";
import { addGuesses } from "./guess.js";
import { offerOwn, takeFigures } from "./pick.js";
import { Readings } from "./readings.js";

const NOT_KEPT = "This browser does not let the site keep heads: they hold while this page is open. Write them to a file, or copy a link.";

class Bench {
  /** What was deleted last, for as long as it can be brought back. @type {{head: OwnHead, place: number} | null} */
  #deleted = null;

  /** @param {HTMLElement} host @param {Site} site */
  constructor(host, site) {
    this.host = host;
    this.site = site;
    this.status = make("p", { class: "hd-own-status", role: "status" });
    this.name = /** @type {HTMLInputElement} */ (make("input", { type: "text", class: "hd-own-name", maxlength: "80", autocomplete: "off", id: "hd-own-name" }));
    this.file = /** @type {HTMLInputElement} */ (make("input", { type: "file", accept: ".json,application/json", id: "hd-own-file", class: "hd-own-file" }));
    this.rows = make("ul", { class: "hd-own-list" });
    this.file.addEventListener("change", () => void this.#readFile());
    const keep = make("form", { class: "hd-own-keep" }, [
      make("label", { for: "hd-own-name" }, ["Name of this head"]),
      this.name,
      button("Keep it", () => void this.#keep()),
    ]);
    keep.addEventListener("submit", (event) => {
      event.preventDefault();
      void this.#keep();
    });
    host.replaceChildren(
      keep,
      this.status,
      make("p", { class: "hd-own-more" }, [
        button("Start empty", () => this.#empty()),
        make("label", { class: "hd-own-read", for: "hd-own-file", "data-needs": "file" }, ["Read one from a file ", this.file]),
      ]),
      this.rows,
    );
    site.ownHeads.addEventListener("list", () => this.#show());
    for (const name of ["choice", "bar"]) site.store.addEventListener(name, () => this.#show());
    this.#show();
    addGuesses(site);
  }

  /** @param {string} text */
  #say(text) {
    this.status.textContent = text;
  }

  /** @param {import("../types.js").Request} request */
  async #ask(request) {
    const { engine, store } = this.site;
    const answer = await engine.ask(`own ${request.op}`, { units: store.choice.units, ...request });
    if (answer.state === "result") return answer;
    if (answer.state === "invalid") {
      const told = answer.faults.map((fault) => fault.text);
      this.#say(`Not done. ${told.slice(0, 4).join(" ")}${told.length > 4 ? ` And ${told.length - 4} more.` : ""}`);
    } else if (answer.state === "failed") this.#say(answer.text);
    return null;
  }

  async #keep() {
    const { store, ownHeads } = this.site;
    const name = this.name.value.trim();
    if (!name) {
      this.#say("Give it a name first, so that you find it again.");
      this.name.focus();
      return;
    }
    const answer = await this.#ask({ op: "keep", head: store.head, name });
    if (!answer) return;
    const same = ownHeads.list.find((head) => head.name === answer.name);
    if (same) ownHeads.change(same.id, { own: answer.own });
    else ownHeads.add(answer.name, answer.own);
    store.choose({ base: "own", own: answer.own, mirrored: false, changes: {} });
    this.name.value = "";
    this.#say(ownHeads.kept ? `${answer.name} is ${same ? "kept in place of the one of that name" : "kept"}, and chosen on every page.` : `${answer.name} is chosen. ${NOT_KEPT}`);
  }

  /** Every figure is to be entered: nothing of an invented head is left to be taken for the reader's own. */
  #empty() {
    const { store } = this.site;
    const form = document.querySelector("hd-calculator[name=describe] form");
    const boxes = [...(form?.querySelectorAll('[data-field^="head."]:not([hidden])') ?? [])];
    const keys = boxes.filter((box) => box.querySelector("input.hd-text")).map((box) => (box instanceof HTMLElement ? (box.dataset.field ?? "").slice(5) : ""));
    store.choose({ changes: Object.fromEntries(keys.filter((key) => key !== "rods.count").map((key) => [key, ""])) });
    for (const group of form?.querySelectorAll("details") ?? []) group.open = true;
    this.#say(`${keys.length - 1} figures to enter. What you can’t measure, leave to “I don’t know”.`);
  }

  async #readFile() {
    const file = this.file.files?.[0];
    this.file.value = "";
    if (!file) return;
    if (file.size > 200000) {
      this.#say(`“${file.name}” is too large to be a head (${Math.round(file.size / 1000)} kB).`);
      return;
    }
    const answer = await this.#ask({ op: "read", text: await file.text() });
    if (!answer) return;
    this.site.ownHeads.add(answer.name, answer.own);
    this.site.store.choose({ base: "own", own: answer.own, mirrored: false, changes: {} });
    this.#say(this.site.ownHeads.kept ? `${answer.name} has been read, kept, and chosen on every page.` : `${answer.name} has been read and is chosen. ${NOT_KEPT}`);
  }

  /** @param {OwnHead} head */
  #choice(head) {
    return { ...this.site.store.choice, base: "own", own: head.own, mirrored: false, changes: {} };
  }

  /** @param {OwnHead} head */
  async #write(head) {
    const answer = await this.#ask({ op: "write", head: { base: "own", own: head.own, mirrored: false, changes: {} }, units: "metric" });
    if (!answer) return;
    download(new Blob([answer.text], { type: "application/json" }), answer.file);
    this.#say(`${head.name} has been written to ${answer.file}.`);
  }

  /** @param {OwnHead} head @param {string} name */
  async #rename(head, name) {
    const { ownHeads, store } = this.site;
    const answer = await this.#ask({ op: "keep", head: { base: "own", own: head.own, mirrored: false, changes: {} }, name, units: "metric" });
    if (!answer) return;
    const chosen = store.choice.own === head.own;
    ownHeads.change(head.id, { name: answer.name, own: answer.own });
    if (chosen) store.choose({ own: answer.own });
    this.#say(`It is called ${answer.name} now.`);
  }

  /** @param {OwnHead} head */
  async #copy(head) {
    const name = `${head.name.slice(0, 73)} (copy)`;
    const answer = await this.#ask({ op: "keep", head: { base: "own", own: head.own, mirrored: false, changes: {} }, name, units: "metric" });
    if (answer) this.site.ownHeads.add(answer.name, answer.own);
  }

  /** @param {OwnHead} head */
  #delete(head) {
    const { ownHeads } = this.site;
    this.#deleted = { head, place: ownHeads.list.indexOf(head) };
    ownHeads.save(ownHeads.list.filter((one) => one.id !== head.id));
    this.#say(`${head.name} is deleted. `);
    this.status.append(
      button("Undo", () => {
        if (!this.#deleted) return;
        const list = [...ownHeads.list];
        list.splice(this.#deleted.place, 0, this.#deleted.head);
        ownHeads.save(list);
        this.#say(`${head.name} is back.`);
        this.#deleted = null;
      }),
    );
  }

  #show() {
    const { ownHeads, store, copyLink, showCode, writeLink } = this.site;
    this.rows.replaceChildren(
      ...ownHeads.list.map((head) => {
        const fragment = writeLink("", this.#choice(head), {});
        const used = store.choice.base === "own" && store.choice.own === head.own;
        const name = /** @type {HTMLInputElement} */ (make("input", { type: "text", value: head.name, maxlength: "80", "aria-label": `Name of ${head.name}` }));
        name.addEventListener("change", () => void this.#rename(head, name.value));
        const link = button("Copy link", () => void copyLink({ fragment }, link), "clipboard");
        return make("li", used ? { class: "hd-own-used" } : {}, [
          name,
          make("span", { class: "hd-own-buttons" }, [
            button(used ? "In use" : "Use", () => store.choose({ base: "own", own: head.own, mirrored: false, changes: {} })),
            button("Copy", () => void this.#copy(head)),
            link,
            button("QR code", () => void showCode({ fragment })),
            button("Write to a file", () => void this.#write(head), "file"),
            button("Delete", () => this.#delete(head)),
          ]),
        ]);
      }),
    );
    if (ownHeads.list.length === 0) this.rows.append(make("li", { class: "hd-own-none" }, ["None kept yet."]));
    if (!ownHeads.kept) this.rows.append(make("li", { class: "hd-own-none" }, [NOT_KEPT]));
  }
}

window.handToDiscOwnHeads = (site) => {
  /** @param {string} name @returns {HTMLElement | null} */
  const place = (name) => document.querySelector(`.${name}`);
  const [bench, readings, other] = [place("hd-own"), place("hd-readings"), place("hd-pick-other")];
  if (bench) new Bench(bench, site);
  if (readings) new Readings(readings, site);
  if (other) offerOwn(other, site);
  takeFigures(site);
};
