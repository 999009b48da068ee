/**
 * The fragment: #calculator&head=alder3&mirrored=1&units=imperial&head.rpm=380&field=value.
 * Reads and writes it; judges only its form. Whether a value makes sense is for Python to say.
 */

/** @typedef {import("./types.js").Units} Units */
/**
 * @typedef {object} Link
 * @property {boolean} ours      false: an ordinary in-page anchor, or nothing
 * @property {string} calculator "" when the link only chooses a head
 * @property {string | null} base
 * @property {string} own        a packed head, when base is "own"
 * @property {boolean | null} mirrored
 * @property {Units | null} units
 * @property {Record<string, string>} changes
 * @property {Record<string, string>} inputs
 * @property {string[]} faults   sentences, one for each part that was left out
 */

const LONGEST = 4000;

/** Text from a link, short enough to quote. @param {string} text */
export function quoted(text) {
  return `“${text.length > 40 ? `${text.slice(0, 40)}…` : text}”`;
}

/** @param {string} text */
function decoded(text) {
  try {
    return decodeURIComponent(text);
  } catch {
    return null; // a broken %-sequence: the caller names the part
  }
}

/**
 * @param {string} hash     location.hash
 * @param {Set<string>} heads ids that exist
 * @returns {Link}
 */
export function readLink(hash, heads) {
  /** @type {Link} */
  const link = { ours: false, calculator: "", base: null, own: "", mirrored: null, units: null, changes: {}, inputs: {}, faults: [] };
  const fragment = hash.replace(/^#/, "");
  if (!fragment.includes("&")) return link;
  link.ours = true;
  if (fragment.length > LONGEST) {
    link.faults.push(`This link carries ${fragment.length} characters; at most ${LONGEST} are read. Nothing was taken from it.`);
    return link;
  }
  const [first = "", ...parts] = fragment.split("&");
  const name = decoded(first);
  if (name === null) link.faults.push(`The link's first part ${quoted(first)} could not be read and was left out.`);
  else link.calculator = name;
  /** @type {Map<string, string>} */
  const changes = new Map();
  /** @type {Map<string, string>} */
  const inputs = new Map();
  for (const part of parts) {
    if (part === "") continue;
    const cut = part.indexOf("=");
    const key = decoded(cut < 0 ? part : part.slice(0, cut));
    const value = cut < 0 ? null : decoded(part.slice(cut + 1));
    if (key === null || value === null || key === "") {
      link.faults.push(`The link's part ${quoted(part)} could not be read and was left out.`);
    } else if (key === "head") {
      if (heads.has(value)) link.base = value;
      else link.faults.push(`There is no head called ${quoted(value)}. The link's head was left out.`);
    } else if (key === "own") {
      link.own = value;
    } else if (key === "mirrored") {
      if (value === "0" || value === "1") link.mirrored = value === "1";
      else link.faults.push(`The link says mirrored=${quoted(value)}; it can be 0 or 1. It was left out.`);
    } else if (key === "units") {
      if (value === "metric" || value === "imperial") link.units = value;
      else link.faults.push(`The link says units=${quoted(value)}; it can be metric or imperial. It was left out.`);
    } else if (key.startsWith("head.")) changes.set(key.slice(5), value);
    else inputs.set(key, value);
  }
  if (link.base === "own" && link.own === "") {
    link.base = null;
    link.faults.push("The link speaks of a head of its own and does not carry it. The link's head was left out.");
  }
  // fromEntries makes own properties whatever the key is called, "__proto__" too.
  link.changes = Object.fromEntries(changes);
  link.inputs = Object.fromEntries(inputs);
  return link;
}

/**
 * @param {string} calculator
 * @param {import("./types.js").Choice} choice
 * @param {Record<string, string>} inputs
 */
export function writeLink(calculator, choice, inputs) {
  const pairs = [["head", choice.base]];
  if (choice.own) pairs.push(["own", choice.own]);
  if (choice.mirrored) pairs.push(["mirrored", "1"]);
  if (choice.units !== "metric") pairs.push(["units", choice.units]);
  for (const [key, text] of Object.entries(choice.changes)) pairs.push([`head.${key}`, text]);
  for (const [key, text] of Object.entries(inputs)) pairs.push([key, text]);
  const tail = pairs.map(([key = "", text = ""]) => `${encodeURIComponent(key)}=${encodeURIComponent(text)}`);
  return `#${[encodeURIComponent(calculator), ...tail].join("&")}`;
}
