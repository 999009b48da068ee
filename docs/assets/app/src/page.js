/**
 * The page as a whole: what is chosen reaches every calculator, value and figure; the address is read and written.
 * For a demonstration head as it stands the printed figures are enough; Python is asked for everything else.
 */

import { engine } from "./engine.js";
import { quoted, readLink, writeLink } from "./link.js";
import { printedFor, printedIsHere } from "./printed.js";
import { OWN, PRINTED, store } from "./state.js";
import { markValues, showValues, shown, wanted } from "./values.js";

/** @typedef {import("./calculator.js").Calculator} Calculator */
/** @typedef {import("./types.js").Choice} Choice */
/** @typedef {import("./types.js").Fault} Fault */

/** @type {Set<Calculator>} */
export const calculators = new Set();
/** What the address speaks of. @type {{name: string, inputs: Record<string, string>} | null} */
let current = null;
/** Counts choices, so that a late answer to an earlier one is not shown. */
let turn = 0;

/** @param {Choice} choice */
export const printName = (choice) => `${choice.base} ${choice.own} ${choice.mirrored} ${choice.units}`;
/** Which print the values on the page are of, and whether a working copy's have replaced it. */
let showing = { print: printName(PRINTED), changed: false };

/** Bring the whole page to the chosen head. @param {object | null} [origin] a calculator that is there already */
export async function follow(origin = null) {
  const mine = (turn += 1);
  const { base, mirrored, units } = store.choice;
  const print = printName(store.choice);
  const others = [...calculators].filter((calculator) => calculator !== origin);
  const { plain } = store;
  const wrongPrint = showing.print !== print;
  const needed = wrongPrint || (plain && (showing.changed || others.some((one) => !one.hasInputs && !one.shows(print))));
  // With Python running the network isn't asked for anything more: it may be gone.
  const fetching = base !== OWN && needed && (engine.state !== "ready" || printedIsHere(base, mirrored, units));
  const printed = fetching ? await printedFor(base, mirrored, units) : null;
  if (mine !== turn) return;
  if (printed && (plain || wrongPrint)) {
    showValues(printed.head, printed.values, printed.figures);
    showing = { print, changed: false };
  }
  if (printed && plain) store.describe(printed.head);
  const done = plain && (printed !== null || !needed);
  for (const calculator of others) {
    const entry = printed?.calculators[calculator.name];
    if (printed && entry) calculator.keepPrint(entry, printed.head, print);
    if (calculator.hasInputs) void calculator.run({ settled: true, until: wrongPrint || !plain });
    else if (printed && entry && (done || wrongPrint)) calculator.takePrinted(entry, printed.head, print, done);
    if (!calculator.hasInputs && !done) void calculator.run({ settled: true, until: true });
  }
  if (done) markValues("");
  else await askValues(mine, print);
}

/** @param {number} mine @param {string} print */
async function askValues(mine, print) {
  const { names, figures } = wanted();
  if (names.length + figures.length === 0) return;
  markValues(shown.head?.label ?? nameOf(PRINTED.base));
  const answer = await engine.ask("values", { op: "values", names, figures, head: store.head, units: store.choice.units });
  if (mine !== turn || answer.state === "stale") return;
  if (answer.state === "result") {
    showValues(answer.head, answer.values, answer.figures);
    showing = { print, changed: !store.plain };
    markValues("");
    store.describe(answer.head);
  } else if (answer.state === "invalid") headRefused(answer.faults);
  else store.note("engine", answer.text);
}

/**
 * One value of the chosen head, from the print if that is enough.
 * @param {string} name
 * @returns {Promise<{text: string, label: string, rotation: string} | null>}
 */
export async function valueNow(name) {
  const { base, mirrored, units } = store.choice;
  const fromPrint = store.plain && (engine.state !== "ready" || printedIsHere(base, mirrored, units));
  const printed = fromPrint ? await printedFor(base, mirrored, units) : null;
  if (printed) return { text: printed.values[name] ?? "", label: printed.head.label, rotation: printed.head.rotation };
  const answer = await engine.ask(`value ${name}`, { op: "values", names: [name], figures: [], head: store.head, units });
  if (answer.state !== "result") return null;
  return { text: answer.values[name] ?? "", label: answer.head.label, rotation: answer.head.rotation };
}

/** @param {string} base */
function nameOf(base) {
  return store.heads.find((head) => head.id === base)?.name ?? base;
}

/**
 * Python refused figures of the head. What a reader entered is kept and named; what a link said is named and left out.
 * @param {Fault[]} faults
 */
export function headRefused(faults) {
  const named = faults.map(({ field, text }) => ({ field: field.replace(/^head\./, ""), text }));
  if (!store.fromLink) {
    store.refuse(Object.fromEntries(named.map(({ field, text }) => [field, text])));
    return;
  }
  const keys = Object.keys(store.choice.changes);
  const bad = keys.filter((key) => named.some(({ field }) => key === field || key.startsWith(`${field}.`)));
  const said = named.map(({ text }) => text).join(" ");
  store.note("link", `${store.notes.get("link") ?? ""} From the link: ${said} Left out; the head's own figures are used.`.trim());
  // A fault that names no figure of the link would come back for ever: then none of them is used.
  store.choose({ changes: store.without(bad.length > 0 ? bad : keys) }, { link: true });
}

/** A part of the page that a link may speak of besides the calculators: a sheet of questions, a lesson. @param {string} name */
const linked = (name) => (name ? document.querySelector(`[data-link="${CSS.escape(name)}"]`) : null);

/** @param {{name: string, inputs: Record<string, string>} | null} [calculator] the one just touched */
export function writeAddress(calculator = null) {
  current = calculator ?? current;
  const inputs = current?.inputs ?? {};
  const differs = !store.plain || Object.keys(inputs).length > 0 || printName(store.choice) !== printName(PRINTED);
  if (!differs && !location.hash.includes("&")) return;
  const plain = location.href.split("#")[0] ?? "";
  try {
    history.replaceState(history.state, "", differs ? writeLink(current?.name ?? "", store.choice, inputs) : plain);
  } catch {
    // Some browsers allow only so many changes of address a minute; the next release of a control writes it.
  }
}

/**
 * Take what the address says, or said when it changed: an answer that comes in between writes the address anew.
 * @param {string} [hash] @returns {boolean} whether it was one of ours
 */
export function readAddress(hash = location.hash) {
  const link = readLink(hash, new Set([...store.heads.map((head) => head.id), OWN]));
  if (!link.ours) return false;
  const faults = [...link.faults];
  const named = [...calculators].find((calculator) => calculator.name === link.calculator);
  const other = linked(link.calculator);
  if (link.calculator && !named && !other) faults.push(`This page has no calculator called ${quoted(link.calculator)}; the link's values for it were left out.`);
  if (!link.calculator && Object.keys(link.inputs).length > 0) faults.push("The link names no calculator, so its values were left out.");
  store.note("link", faults.join(" "));
  const hasChanges = Object.keys(link.changes).length > 0;
  const hasValues = hasChanges || Object.keys(link.inputs).length > 0;
  // A link that names its head says everything; one that doesn't leaves the reader's choice where it is silent.
  const whole = link.base !== null;
  const { choice } = store;
  const next = {
    base: link.base ?? choice.base,
    own: link.base === OWN ? link.own : link.base ? "" : choice.own,
    mirrored: link.mirrored ?? (whole ? false : choice.mirrored),
    units: link.units ?? (whole || hasValues ? "metric" : choice.units),
    changes: whole || hasChanges ? link.changes : choice.changes,
  };
  current = named ?? (other ? { name: link.calculator, inputs: link.inputs } : null);
  named?.takeLink(link.inputs);
  if (other) {
    // Its script may come later than the address is read.
    other.setAttribute("data-linked", JSON.stringify(link.inputs));
    other.dispatchEvent(new Event("hd-linked"));
  }
  if (JSON.stringify(next) !== JSON.stringify(choice)) store.choose(next, { link: true });
  else void follow();
  if (location.hash !== hash) writeAddress(); // what came in between wrote its own
  return true;
}

/**
 * Ask Python to carry over what the reader entered: to other units, or to the head turned the other way.
 * @param {import("./types.js").Request} request
 * @param {Partial<Choice>} patch
 * @param {(text: string) => void} failed
 */
async function carryOver(request, patch, failed) {
  const entered = [...calculators].filter((calculator) => calculator.hasInputs);
  if (entered.length === 0 && !store.changed) {
    store.choose(patch);
    return;
  }
  const inputs = Object.fromEntries(entered.map((calculator) => [calculator.name, calculator.inputs]));
  const answer = await engine.ask("carry over", { ...request, head: store.head, inputs });
  if (answer.state === "stale") return;
  if (answer.state === "result") {
    for (const calculator of entered) calculator.enter(answer.inputs[calculator.name] ?? {});
    store.choose({ changes: answer.head.changes ?? store.choice.changes, ...patch });
  } else failed(answer.state === "failed" ? answer.text : answer.faults.map((fault) => fault.text).join(" "));
}

/** @param {import("./types.js").Units} units */
export function switchUnits(units) {
  store.note("units", "");
  const from = store.choice.units;
  return carryOver({ op: "reunit", from, to: units }, { units }, (text) => {
    store.note("units", `The units were not changed, because what you entered could not be carried over. ${text}`);
    store.dispatchEvent(new Event("bar"));
  });
}

export function turnTheOtherWay() {
  const mirrored = !store.choice.mirrored;
  const { units } = store.choice;
  // Without an answer the head is still turned, and the texts stay as they were entered.
  return carryOver({ op: "turn", units }, { mirrored }, () => store.choose({ mirrored }));
}
