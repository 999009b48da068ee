/** The row of buttons under a calculator: copy the link, show it as a QR code, print one sheet, go back to the head's figures. */

import { button } from "./dom.js";
import { printSheet } from "./print.js";
import { qrSvg, QR_LONGEST, readyForCodes } from "./qr.js";
import { fromDisk, hasPublicUrl, insidePath, pageAddress, publicUrl } from "./site.js";
import { teaching } from "./teaching.js";

/** @typedef {import("./calculator.js").Calculator} Calculator */

/** @type {HTMLDialogElement | null} */
let dialog = null;

/** @param {string} title @param {(Node | string)[]} content */
function show(title, content) {
  if (!dialog) {
    dialog = document.createElement("dialog");
    dialog.className = "hd-dialog md-typeset";
    dialog.addEventListener("click", (event) => {
      if (event.target === dialog) dialog?.close(); // a tap beside the box
    });
    document.body.append(dialog);
  }
  const heading = document.createElement("h2");
  heading.textContent = title;
  heading.id = "hd-dialog-title";
  dialog.setAttribute("aria-labelledby", heading.id);
  const box = document.createElement("div");
  box.className = "hd-dialog-box";
  box.append(heading, ...content, button("Close", () => dialog?.close()));
  dialog.replaceChildren(box);
  if (!dialog.open) dialog.showModal();
}

/** @param {string} text */
function paragraph(text) {
  const made = document.createElement("p");
  made.textContent = text;
  return made;
}

/** A box with the address, selected, for when the clipboard is not to be had. @param {string} address */
function addressBox(address) {
  const label = document.createElement("label");
  label.className = "hd-address";
  label.append("The address with what is set");
  const box = document.createElement("textarea");
  box.readOnly = true;
  box.rows = 4;
  box.value = address;
  box.addEventListener("focus", () => box.select());
  label.append(box);
  return label;
}

function fromDiskNote() {
  return fromDisk && !hasPublicUrl()
    ? [paragraph("These pages were opened from a folder, so the address leads to that folder on this device only.")]
    : [];
}

/** @param {{fragment: string, page?: string}} calculator @param {HTMLButtonElement} pressed */
export async function copyLink(calculator, pressed) {
  await publicUrl();
  const address = pageAddress(calculator.fragment, calculator.page);
  try {
    await navigator.clipboard.writeText(address);
    const before = pressed.textContent;
    pressed.textContent = "Link copied";
    setTimeout(() => (pressed.textContent = before), 4000);
  } catch {
    show("Copy the link", [paragraph("This browser does not let the page copy. Select the address and copy it yourself."), addressBox(address), ...fromDiskNote()]);
  }
}

/** @param {{fragment: string, page?: string}} calculator */
export async function showCode(calculator) {
  await publicUrl();
  const address = pageAddress(calculator.fragment, calculator.page);
  if (!hasPublicUrl()) {
    show("No QR code yet", [
      paragraph("A QR code needs the address this site is published at, and none is set."),
      paragraph("Whoever publishes the site sets it when building (--public-url), or writes it into the file assets/hd/public-url.js beside the built pages."),
      addressBox(address),
      ...fromDiskNote(),
    ]);
    return;
  }
  await readyForCodes();
  const svg = qrSvg(address);
  if (!svg && address.length <= QR_LONGEST) {
    show("No QR code just now", [paragraph("The part of the site that draws codes could not be fetched. Try again when the network is back, or copy the link."), addressBox(address)]);
    return;
  }
  if (!svg) {
    show("Too long for a QR code", [
      paragraph(`The link is ${address.length} characters long; a code that a phone can read holds about ${QR_LONGEST}. Copy the link instead.`),
      addressBox(address),
    ]);
    return;
  }
  const holder = document.createElement("div");
  holder.innerHTML = svg;
  show("QR code for this page as it is set now", [holder, addressBox(address)]);
}

/** A lesson's list of steps is a script of its own. @param {Calculator} calculator */
async function addToLesson(calculator) {
  const title = calculator.querySelector(".hd-title")?.textContent ?? "";
  const teach = await teaching();
  if (!teach) show("Not added", [paragraph("The part of the site that keeps lessons could not be fetched. Try again when the network is back.")]);
  else show("Lesson", teach.addStep(insidePath, calculator.fragment, title));
}

/** @param {Calculator} calculator */
export function addTools(calculator) {
  const row = calculator.querySelector(".hd-tools");
  if (!row) return;
  const copy = button("Copy link", () => void copyLink(calculator, copy), "clipboard");
  const code = button("QR code", () => void showCode(calculator));
  const sheet = button("Print this sheet", () => void printSheet(calculator), "printer");
  const step = button("Add to a lesson", () => void addToLesson(calculator), "list");
  const back = button("Back to this head’s figures", () => calculator.reset());
  const show = () => (back.disabled = !calculator.hasInputs);
  calculator.addEventListener("hd-state", show);
  show();
  row.replaceChildren(copy, code, sheet, step, back);
}
