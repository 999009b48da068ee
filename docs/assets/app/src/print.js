/**
 * Printing. "Print this sheet" prints one calculator alone; the browser's own print prints the page with every
 * calculator in its printed form. Either way the working is opened, and the link and its QR code are put beneath.
 */

import { qrSvg, readyForCodes } from "./qr.js";
import { hasPublicUrl, pageAddress, publicUrl } from "./site.js";

/** @typedef {import("./calculator.js").Calculator} Calculator */

/** Opened for the paper, to be closed again. @type {Set<HTMLDetailsElement>} */
const opened = new Set();

/** @param {Calculator} calculator */
function addFoot(calculator) {
  calculator.querySelector(".hd-print-foot")?.remove();
  const address = pageAddress(calculator.fragment);
  const foot = document.createElement("div");
  foot.className = "hd-print-foot";
  const text = document.createElement("p");
  text.textContent = `${document.title}. For learning only: the manuals, local rules and licensed people decide. ${address}`;
  foot.append(text);
  if (hasPublicUrl()) foot.insertAdjacentHTML("beforeend", qrSvg(address));
  calculator.append(foot);
}

/** @param {Set<Calculator>} calculators */
export function preparePrinting(calculators) {
  window.addEventListener("beforeprint", () => {
    for (const calculator of calculators) {
      addFoot(calculator);
      for (const details of calculator.querySelectorAll("details")) {
        if (!details.open) opened.add(details);
        details.open = true;
      }
    }
  });
  window.addEventListener("afterprint", () => {
    for (const details of opened) details.open = false;
    opened.clear();
    for (const calculator of calculators) calculator.querySelector(".hd-print-foot")?.remove();
    document.body.classList.remove("hd-sheet");
    for (const other of document.querySelectorAll(".hd-printing")) other.classList.remove("hd-printing");
  });
  for (const press of document.querySelectorAll(".hd-print-wheel")) {
    const wheel = press.closest(".hd-wheel");
    if (wheel) press.addEventListener("click", () => printAlone(wheel));
  }
}

/** What paper can't wait for: the public address, and the script for its code where there is one. */
export async function readyForPaper() {
  await publicUrl();
  if (hasPublicUrl()) await readyForCodes();
}

/** Print one element of the page and nothing else. @param {Element} element */
export function printAlone(element) {
  document.body.classList.add("hd-sheet");
  for (const other of document.querySelectorAll(".hd-printing")) other.classList.remove("hd-printing");
  element.classList.add("hd-printing");
  window.print();
}

/** @param {Calculator} calculator */
export async function printSheet(calculator) {
  await readyForPaper();
  printAlone(calculator);
}
