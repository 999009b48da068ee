/** The chosen head's numbers and pictures in the running text: hd-value and hd-figure. */

/** @typedef {import("./types.js").HeadSummary} HeadSummary */

/** Elements that show a figure: hd-figure, and the rose a reader guesses on. */
const FIGURES = "hd-figure, .hd-predict-rose";

/** What is on the page now, for those who need a number of the head shown (predict). */
export const shown = {
  /** @type {HeadSummary | null} */
  head: null,
  /** @type {Record<string, string>} */
  values: {},
};

/** Told when the values on the page have changed. */
export const valueChanges = new EventTarget();

/** @param {Element} element */
function figureName(element) {
  if (element.matches("hd-figure")) return element.getAttribute("name") ?? "";
  return element.closest("hd-predict")?.getAttribute("data-figure") ?? "predict-rose";
}

/** Every value and figure this page asks for; also the answers that questions are checked against. */
export function wanted() {
  /** @type {Set<string>} */
  const names = new Set();
  for (const element of document.querySelectorAll("hd-value[of]")) names.add(element.getAttribute("of") ?? "");
  for (const element of document.querySelectorAll("hd-predict[data-answer-of]")) names.add(element.getAttribute("data-answer-of") ?? "");
  /** @type {Set<string>} */
  const figures = new Set();
  for (const element of document.querySelectorAll(FIGURES)) figures.add(figureName(element));
  return { names: [...names], figures: [...figures] };
}

/**
 * @param {HeadSummary} head
 * @param {Record<string, string>} values  written by our own package, reader's text escaped there
 * @param {Record<string, string>} figures
 */
export function showValues(head, values, figures) {
  for (const element of document.querySelectorAll("hd-value[of]")) {
    const html = values[element.getAttribute("of") ?? ""];
    if (html !== undefined) element.innerHTML = html;
  }
  for (const element of document.querySelectorAll(FIGURES)) {
    const html = figures[figureName(element)];
    if (html !== undefined) element.innerHTML = html;
  }
  for (const bold of document.querySelectorAll("hd-predict .hd-head-label")) bold.textContent = head.label;
  for (const pair of document.querySelectorAll("[data-turned]")) {
    if (pair instanceof HTMLElement) pair.hidden = (pair.dataset.turned === "mirrored") !== head.mirrored;
  }
  shown.head = head;
  shown.values = values;
  valueChanges.dispatchEvent(new Event("change"));
}

/**
 * Mark every value with the head it belongs to while another head's are awaited; "" takes the mark away.
 * @param {string} label
 */
export function markValues(label) {
  for (const element of document.querySelectorAll(`hd-value[of], ${FIGURES}`)) {
    if (label) {
      element.setAttribute("data-of", label);
      element.setAttribute("title", `Figure for ${label}`);
    } else {
      element.removeAttribute("data-of");
      element.removeAttribute("title");
    }
  }
}

/** Nothing to wake: the elements exist so that the page's markup has a name and a style. */
export class Value extends HTMLElement {}
export class Figure extends HTMLElement {}
