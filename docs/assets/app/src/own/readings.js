/**
 * Entering readings beside a machine: one large field a place, one hand. What is entered goes into the calculator's own
 * list, which Python reads; here it is only kept, and carried to and from files.
 */

import { button, download, make } from "../dom.js";
import { whenKeptElsewhere } from "../elsewhere.js";

const KEY = "hand-to-disc-readings";

export class Readings {
  /** Places and what was read there, as typed; an empty reading is a place not measured yet. @type {{place: string, reading: string}[]} */
  #rows = [];

  /** @param {HTMLElement} host @param {import("./index.js").Site} site */
  constructor(host, site) {
    this.site = site;
    /** @type {HTMLElement | null} */
    this.calculator = document.querySelector("hd-calculator[name=worksheet]");
    this.host = host;
    this.grid = make("ol", { class: "hd-reading-rows" });
    this.status = make("p", { class: "hd-own-status", role: "status" });
    this.count = /** @type {HTMLSelectElement} */ (
      make("select", { class: "hd-choice", id: "hd-places" }, [
        ...[4, 6, 8, 12, 16, 24].map((n) => make("option", { value: String(n) }, [`${n} even places`])),
        make("option", { value: "own" }, ["places of my own"]),
      ])
    );
    this.count.value = "8";
    this.own = /** @type {HTMLInputElement} */ (make("input", { type: "text", id: "hd-own-places", placeholder: "0 30 75 120", autocomplete: "off" }));
    this.ownBox = make("label", { for: "hd-own-places", class: "hd-own-places" }, ["Places, degrees ", this.own]);
    this.file = /** @type {HTMLInputElement} */ (make("input", { type: "file", accept: ".csv,text/csv,text/plain", id: "hd-csv-file" }));
    this.count.addEventListener("change", () => this.#lay());
    this.own.addEventListener("change", () => this.#lay());
    this.file.addEventListener("change", () => void this.#readFile());
    host.replaceChildren(
      make("p", { class: "hd-own-more" }, [make("label", { for: "hd-places" }, ["Marked places "]), this.count, this.ownBox]),
      this.grid,
      this.status,
      make("p", { class: "hd-own-more" }, [
        button("Fit these readings", () => this.#fit()),
        button("Write a CSV file", () => this.#writeFile(), "file"),
        make("label", { class: "hd-own-read", for: "hd-csv-file", "data-needs": "file" }, ["Read a CSV file ", this.file]),
        button("Print a blank sheet", () => this.#print(), "printer"),
        button("Clear", () => this.#clear()),
      ]),
    );
    this.sheet = make("div", { class: "hd-blank-sheet" });
    host.append(this.sheet);
    const show = () => {
      this.#load();
      if (this.#rows.length === 0) this.#lay();
      else this.#draw();
    };
    whenKeptElsewhere(KEY, show);
    show();
  }

  /** The places that are chosen. */
  get #places() {
    if (this.count.value === "own") return this.own.value.split(/[\s;]+/).filter(Boolean);
    const n = Number(this.count.value);
    return Array.from({ length: n }, (_, i) => String(Math.round((36000 * i) / n) / 100));
  }

  /** Lay out fields for the chosen places; what was read at a place stays with it. */
  #lay() {
    const before = new Map(this.#rows.map((row) => [row.place, row.reading]));
    const places = this.#places;
    const measured = this.#rows.filter((row) => row.reading.trim() !== "" && !places.includes(row.place));
    this.#rows = [...places.map((place) => ({ place, reading: before.get(place) ?? "" })), ...measured];
    this.#draw();
  }

  #draw() {
    this.ownBox.hidden = this.count.value !== "own";
    this.grid.replaceChildren(
      ...this.#rows.map((row, i) => {
        const field = /** @type {HTMLInputElement} */ (
          make("input", { type: "text", inputmode: "decimal", enterkeyhint: "next", autocomplete: "off", value: row.reading, "aria-label": `Reading at ${row.place}°` })
        );
        const keep = () => {
          row.reading = field.value;
          this.#save();
        };
        field.addEventListener("input", keep);
        field.addEventListener("keydown", (event) => {
          if (event.key !== "Enter") return;
          event.preventDefault();
          const fields = [...this.grid.querySelectorAll("input")];
          const next = fields[i + 1];
          if (next) next.focus();
          else this.#fit();
        });
        // A telephone's number keys have no minus.
        const sign = button("±", () => {
          field.value = /^\s*[-−]/.test(field.value) ? field.value.replace(/^\s*[-−]\s*/, "") : `−${field.value.trim()}`;
          keep();
          field.focus();
        });
        sign.setAttribute("aria-label", `Change the sign at ${row.place}°`);
        return make("li", {}, [make("span", { class: "hd-reading-place" }, [`${row.place}°`]), field, sign]);
      }),
    );
    this.#blank();
  }

  #text() {
    return this.#rows
      .filter((row) => row.reading.trim() !== "")
      .map((row) => `${row.place} ${row.reading.trim()}`)
      .join("\n");
  }

  #fit() {
    const text = this.#text();
    if (!text) {
      this.status.textContent = "Nothing has been entered yet: three places at least.";
      return;
    }
    this.calculator?.dispatchEvent(new CustomEvent("hd-pick", { detail: { field: "readings", text } }));
    this.status.textContent = `${this.#rows.filter((row) => row.reading.trim() !== "").length} readings handed to the fit below.`;
    this.calculator?.scrollIntoView({ block: "start" });
  }

  #load() {
    try {
      const stored = /** @type {any} */ (JSON.parse(localStorage.getItem(KEY) ?? "null"));
      if (!Array.isArray(stored?.rows)) return;
      this.#rows = stored.rows.filter((/** @type {any} */ row) => typeof row?.place === "string" && typeof row?.reading === "string");
      if (typeof stored.count === "string") this.count.value = stored.count;
      if (this.count.selectedIndex < 0) this.count.value = "own";
      if (typeof stored.own === "string") this.own.value = stored.own;
      if (this.#rows.some((row) => row.reading)) this.status.textContent = "These readings were kept on this device.";
    } catch {
      // Unreadable: an empty sheet.
    }
  }

  #save() {
    try {
      localStorage.setItem(KEY, JSON.stringify({ rows: this.#rows, count: this.count.value, own: this.own.value }));
      if (window.handToDiscStorageRefused) throw new Error("refused");
    } catch {
      this.status.textContent = "This browser does not let the site keep readings: write them to a file before you leave the page.";
    }
  }

  #clear() {
    for (const row of this.#rows) row.reading = "";
    this.#save();
    this.#draw();
    this.status.textContent = "Cleared.";
  }

  /** What the fit below was made of, as Python writes it; what stands in the fields is handed to it first. */
  #writeFile() {
    const { calculator } = this;
    const area = calculator?.querySelector("[data-field=readings] textarea");
    const text = this.#text();
    if (!calculator || !(area instanceof HTMLTextAreaElement)) return;
    const write = () => {
      const made = calculator.querySelector("[data-csv]")?.getAttribute("data-csv") ?? "";
      download(new Blob([made], { type: "text/csv" }), "readings.csv");
      this.status.textContent = `${made.trim().split("\n").length - 1} readings written to readings.csv.`;
    };
    if (text === "" || text === area.value) {
      write();
      return;
    }
    const heard = () => {
      const { state } = calculator.dataset;
      if (state !== "live" && state !== "refused" && state !== "unavailable") return;
      calculator.removeEventListener("hd-state", heard);
      if (state === "live") write();
      else this.status.textContent = "Not written: these readings could not be read; see the marked list below.";
    };
    calculator.addEventListener("hd-state", heard);
    calculator.dispatchEvent(new CustomEvent("hd-pick", { detail: { field: "readings", text } }));
  }

  async #readFile() {
    const file = this.file.files?.[0];
    this.file.value = "";
    if (!file) return;
    if (file.size > 20000) {
      this.status.textContent = `“${file.name}” is too large to be a sheet of readings.`;
      return;
    }
    // Python reads it as it is and names what it can't read.
    const text = await file.text();
    this.calculator?.dispatchEvent(new CustomEvent("hd-pick", { detail: { field: "readings", text } }));
    this.status.textContent = `“${file.name}” has been handed to the fit below.`;
    this.calculator?.scrollIntoView({ block: "start" });
  }

  /** The sheet to take to the machine. */
  #blank() {
    const rows = this.#rows.map((row) => make("tr", {}, [make("th", { scope: "row" }, [`${row.place}°`]), make("td"), make("td"), make("td")]));
    const line = (/** @type {string} */ text) => make("p", {}, [text]);
    this.sheet.replaceChildren(
      make("h2", {}, ["Readings of an inclinometer"]),
      line("Machine ____________   Head turns ____________   Date ____________   Read by ____________"),
      line("Lever ____________   Stick ____________   Where on the blade ____________   Inclinometer ____________"),
      line("Places are: ☐ bearings of the blade, clockwise from the nose   ☐ azimuths from the tail in the direction of rotation"),
      make("table", {}, [
        make("thead", {}, [make("tr", {}, ["Place", "Reading", "Again", "Remark"].map((text) => make("th", { scope: "col" }, [text])))]),
        make("tbody", {}, rows),
      ]),
      line("Permission, power and hydraulics as the manual says. Rotor brake and tip clearance. No fingers in linkages, nobody else at the controls, nothing laid on a blade that its maker doesn’t allow."),
      line("For learning only: not a maintenance record. The maintenance manual and licensed people decide."),
    );
  }

  #print() {
    this.#blank();
    this.site.printAlone(this.sheet);
  }
}
