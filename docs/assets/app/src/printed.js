/** The figures the build worked out for every demonstration head, loaded when a head is picked: no Python needed. */

import { asset, loadScript } from "./site.js";

/** @typedef {import("./types.js").Printed} Printed */

/** @type {Map<string, Printed>} */
const arrived = new Map();
/** @type {Map<string, Promise<Printed | null>>} */
const asked = new Map();

/** @param {string} base @param {boolean} mirrored @param {string} units */
function nameOf(base, mirrored, units) {
  return `${base}${mirrored ? "-mirrored" : ""}.${units}`;
}

window.handToDiscPrinted = (printed) => {
  arrived.set(nameOf(printed.key, printed.mirrored, printed.units), printed);
};

/** Is it here already, so that no network is needed? @param {string} base @param {boolean} mirrored @param {string} units */
export function printedIsHere(base, mirrored, units) {
  return arrived.has(nameOf(base, mirrored, units));
}

/**
 * @param {string} base @param {boolean} mirrored @param {string} units
 * @returns {Promise<Printed | null>} null when the file can't be had (no network, say): Python can answer instead
 */
export function printedFor(base, mirrored, units) {
  const name = nameOf(base, mirrored, units);
  let answer = asked.get(name);
  if (!answer) {
    answer = loadScript(asset(`printed/${name}.js`, true)).then(
      () => arrived.get(name) ?? null,
      () => {
        asked.delete(name); // the next time may succeed
        return null;
      },
    );
    asked.set(name, answer);
  }
  return answer;
}
