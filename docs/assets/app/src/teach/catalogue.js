/** The list of topics and templates that the build has written into the page. */

/** @typedef {import("../types.js").Listed} Listed */
/** @typedef {{topics: {id: string, title: string, page: string}[], templates: Listed[]}} Catalogue */

/** @param {HTMLElement} host @returns {Catalogue} */
export function catalogueOf(host) {
  return /** @type {Catalogue} */ (JSON.parse(host.dataset.catalogue ?? '{"topics":[],"templates":[]}'));
}

/** A word for a new paper: short, easy to read out. */
export function freshSeed() {
  const letters = "bcdfghjkmnpqrstvwz";
  const vowels = "aeiou";
  const numbers = crypto.getRandomValues(new Uint8Array(6));
  return [...numbers].map((number, i) => (i % 2 === 0 ? letters[number % letters.length] : vowels[number % vowels.length])).join("");
}
