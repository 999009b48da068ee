/**
 * What the reader has chosen, once for the whole site: the head, its working copy, the way it turns, the units.
 * One store; every element listens to it. Kept on the device when the browser allows it.
 */

/** @typedef {import("./types.js").Choice} Choice */
/** @typedef {import("./types.js").HeadSummary} HeadSummary */

const KEY = "hand-to-disc";
const NOT_KEPT = "This browser does not let the site keep your choice of head. It holds on this page, and in a copied link.";

/** What the pages are printed for. @type {Readonly<Choice>} */
export const PRINTED = Object.freeze({ base: "alder3", own: "", mirrored: false, units: "metric", changes: {} });
/** The base of a head the reader has described. */
export const OWN = "own";

/** @param {unknown} value @returns {value is Record<string, unknown>} */
const isObject = (value) => typeof value === "object" && value !== null && !Array.isArray(value);

/**
 * A stored choice, as far as it can be trusted: another version of the site, or a hand, may have written it.
 * @param {unknown} stored @param {(base: string) => boolean} known
 * @returns {Choice | null}
 */
function sound(stored, known) {
  if (!isObject(stored) || typeof stored.base !== "string") return null;
  const own = stored.base === OWN && typeof stored.own === "string" ? stored.own : "";
  if (!own && !known(stored.base)) return null;
  const changes = isObject(stored.changes) ? Object.entries(stored.changes) : [];
  /** @type {[string, string][]} */
  const texts = [];
  for (const [key, text] of changes) if (typeof text === "string") texts.push([key, text]);
  return {
    base: stored.base,
    own,
    mirrored: stored.mirrored === true,
    units: stored.units === "imperial" ? "imperial" : "metric",
    changes: Object.fromEntries(texts),
  };
}

/** Many sentences at once can't be taken in: the first few, and how many more. @param {string[]} sentences @param {number} [most] */
export function shortened(sentences, most = 3) {
  const more = sentences.length - most;
  return more > 1 ? `${sentences.slice(0, most).join(" ")} And ${more} more.` : sentences.join(" ");
}

class Store extends EventTarget {
  /** @type {Choice} */
  choice = { ...PRINTED };
  /** A working copy that a link or another head took the place of; one tap brings it back. @type {Choice | null} */
  kept = null;
  /** @type {{id: string, name: string}[]} */
  heads = [];
  /** Whether nothing was kept here from before. */
  fresh = true;
  /** What Python or the print said of the chosen head; null until something did. @type {HeadSummary | null} */
  summary = null;
  /** Head figures Python refused, with its sentences. @type {Record<string, string>} */
  refused = {};
  /** True while the head's changes come from a link and no answer has accepted them. */
  fromLink = false;
  /** Sentences for the head bar, by subject. @type {Map<string, string>} */
  notes = new Map();
  /** What a tap in the head bar would do, by subject. @type {Map<string, {text: string, label: string, act: () => void}>} */
  offers = new Map();

  /** @param {string} base */
  known(base) {
    return this.heads.some((head) => head.id === base);
  }

  get head() {
    const { base, own, mirrored, changes } = this.choice;
    return base === OWN ? { base, own, mirrored, changes } : { base, mirrored, changes };
  }

  get changed() {
    return Object.keys(this.choice.changes).length > 0;
  }

  /** A demonstration head as it stands: the printed figures are enough. */
  get plain() {
    return !this.changed && this.choice.base !== OWN;
  }

  get name() {
    const { base, own } = this.choice;
    // A packed head begins with the kind of its order and its name.
    if (base === OWN) return (own.split("~")[1] ?? "").replace(/%7E/g, "~").replace(/%25/g, "%") || "own head";
    return this.heads.find((head) => head.id === base)?.name ?? base;
  }

  /** The head's label; written here only until the print or Python has said it. */
  get label() {
    return this.summary?.label ?? `${this.name}${this.choice.mirrored ? ", turned the other way" : ""}${this.changed ? ", changed" : ""}`;
  }

  load() {
    try {
      const text = localStorage.getItem(KEY);
      const stored = text === null ? null : /** @type {unknown} */ (JSON.parse(text));
      const choice = sound(stored, (base) => this.known(base));
      this.fresh = choice === null;
      if (choice) this.choice = choice;
      this.kept = isObject(stored) ? sound(stored.kept, (base) => this.known(base)) : null;
    } catch {
      // Unreadable: the page starts with the printed head.
    }
    if (window.handToDiscStorageRefused) this.note("storage", NOT_KEPT);
  }

  save() {
    try {
      localStorage.setItem(KEY, JSON.stringify(this.kept ? { ...this.choice, kept: this.kept } : this.choice));
      if (!window.handToDiscStorageRefused) this.note("storage", "");
    } catch {
      this.note("storage", NOT_KEPT);
    }
  }

  /** @param {string} subject @param {string} sentence "" takes it away */
  note(subject, sentence) {
    if ((this.notes.get(subject) ?? "") === sentence) return;
    if (sentence) this.notes.set(subject, sentence);
    else this.notes.delete(subject);
    this.dispatchEvent(new Event("bar"));
  }

  /** @param {string} subject @param {string} text @param {string} label @param {() => void} act */
  offer(subject, text, label, act) {
    this.offers.set(subject, { text, label, act });
    this.dispatchEvent(new Event("bar"));
  }

  /**
   * Choose anew. Listeners of "choice" show it everywhere.
   * @param {Partial<Choice>} patch
   * @param {{origin?: object | null, link?: boolean}} [how] origin: the element that shows the change already;
   *   link: taken from the address, which then needs no writing, and is not the reader's own work to be kept
   */
  choose(patch, { origin = null, link = false } = {}) {
    const next = { ...this.choice, ...patch };
    if (next.base !== OWN) next.own = "";
    const replaced = next.base !== this.choice.base || next.own !== this.choice.own || Object.keys(next.changes).length === 0;
    if (replaced && this.changed && !this.fromLink) this.kept = this.choice;
    this.choice = next;
    this.summary = null;
    this.refused = {};
    this.fromLink = link && this.changed;
    this.note("head", "");
    this.save();
    this.dispatchEvent(new CustomEvent("choice", { detail: { origin, link } }));
  }

  /** A head figure while it is being moved: nothing is kept or told until it is chosen. @param {string} key @param {string} text */
  draft(key, text) {
    this.choice = { ...this.choice, changes: { ...this.choice.changes, [key]: text } };
  }

  /** Changes that turned out to be the head's own figures. @param {string[]} keys */
  forget(keys) {
    if (!keys.some((key) => Object.hasOwn(this.choice.changes, key))) return;
    this.choice = { ...this.choice, changes: this.without(keys) };
    this.save();
    this.dispatchEvent(new Event("bar"));
  }

  /** @param {string[]} keys @returns {Record<string, string>} the changes without these */
  without(keys) {
    return Object.fromEntries(Object.entries(this.choice.changes).filter(([key]) => !keys.includes(key)));
  }

  bringBack() {
    const kept = this.kept;
    if (!kept) return;
    this.kept = null;
    this.choose(kept);
  }

  /** @param {HeadSummary} summary */
  describe(summary) {
    this.summary = summary;
    this.refused = {};
    this.fromLink = false;
    this.note("head", "");
    this.dispatchEvent(new Event("bar"));
  }

  /** @param {Record<string, string>} refused sentences by figure */
  refuse(refused) {
    this.refused = refused;
    this.note("head", `Not computed for this head: ${shortened(Object.values(refused))}`);
  }
}

export const store = new Store();
