/** Elements made in one line. */

/** @param {string} name @param {Record<string, string>} [attributes] @param {(Node | string)[]} [inside] */
export function make(name, attributes = {}, inside = []) {
  const element = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, value);
  element.append(...inside);
  return element;
}

/** @param {string} text @param {() => void} act @param {string} [label] */
export function press(text, act, label = "") {
  const made = /** @type {HTMLButtonElement} */ (make("button", { type: "button", class: "hd-press", ...(label ? { "aria-label": label } : {}) }, [text]));
  made.addEventListener("click", act);
  return made;
}

/**
 * A button that looks like those under a calculator.
 * @param {string} text @param {() => void} act @param {"" | "printer" | "clipboard" | "file" | "list"} [needs] what a kiosk may not have
 */
export function button(text, act, needs = "") {
  const made = press(text, act);
  made.className = "hd-button";
  if (needs) made.dataset.needs = needs;
  return made;
}

/** Hand a text to the reader as a file. @param {Blob} blob @param {string} name */
export function download(blob, name) {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(blob);
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10000);
}
