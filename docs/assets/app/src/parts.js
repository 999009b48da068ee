/**
 * Which parts of the package travel apart (scripts/site/parts.py makes them), said once for the page, which fetches ahead,
 * and for the worker, which must have them in place.
 */

/** @param {string} name */
const file = (name) => `part-${name}.zip`;
/** Further parts of a calculator: the input that asks for each. @type {Record<string, Record<string, string>>} */
const MORE = { motion: { part: "tour", what_if: "what-if" }, describe: { dimension: "sketches" } };

/** The parts a request needs. @param {any} request @returns {string[]} */
export function partsFor(request) {
  const { op, calculator, head, inputs = {} } = request;
  const names = op === "run" ? [calculator] : Object.keys(inputs);
  for (const [input, part] of Object.entries(MORE[calculator] ?? {})) if (Object.hasOwn(inputs, input)) names.push(part);
  for (const value of request.names ?? []) names.push(String(value).split(".")[0]);
  if (op === "values" && request.figures?.length !== 0) names.push("figures");
  // A described head is unpacked by it; a changed figure may be a range.
  if (head?.own || Object.keys(head?.changes ?? {}).length > 0 || ["keep", "write", "read", "likely"].includes(op)) names.push("own");
  if (op === "reunit" || op === "turn") names.push("carry");
  // A question says which calculators it is taken from.
  if (["ask", "mark", "paper"].includes(op)) names.push("questions", ...(request.needs ?? []));
  return [...new Set(names)].map(file);
}

/**
 * The parts a page may need after its first answer, when the network may be gone.
 * @param {string[]} calculators on the page @param {string[]} names of values in its text @param {boolean} figures whether it has drawings between its paragraphs
 */
export function partsLater(calculators, names, figures) {
  const all = [...calculators, ...calculators.flatMap((name) => Object.values(MORE[name] ?? {})), ...names.map((name) => name.split(".")[0] ?? "")];
  return [...new Set([...all, "own", "carry", ...(figures ? ["figures"] : [])])].map(file);
}

/** @param {string[]} calculators */
export const partsOf = (calculators) => calculators.map(file);
