/**
 * What may pass between a page and its worker. Each side judges what it hears, and does not hear what isn't one of these: a
 * message is data from elsewhere, even from our own worker.
 */

/** `addresses`: the package and its parts; `sums`: their hashes, as `integrity` wants them; `first`: parts this page needs at once;
 * `soon`: those it may need after its first answer, when the network may be gone.
 * @typedef {{type: "start", indexURL: string, addresses: Record<string, string>, sums: Record<string, string>, first: string[], soon: string[],
 *   files: Record<string, ArrayBuffer> | null, sizes: Record<string, number>, lock: object, build: string}} Start */
/** @typedef {{type: "ask", id: number | string, text: string}} Ask */
/** @typedef {{type: "progress", stage: "fetch" | "start", done: number, total: number}} Progress */
/** @typedef {Progress | {type: "ready", build: string} | {type: "answer", id: number | string, text: string} | {type: "broken", text: string}} FromWorker */

/** No request of a page is longer: a packed head and a hundred readings are 20 kB. */
const LONGEST_REQUEST = 1_000_000;

/** @param {unknown} data @returns {Record<string, unknown> | null} */
const record = (data) => (typeof data === "object" && data !== null && !Array.isArray(data) ? /** @type {Record<string, unknown>} */ (data) : null);
/** @param {unknown} id @returns {id is number | string} */
const soundId = (id) => Number.isSafeInteger(id) || (typeof id === "string" && id.length <= 40);
/** @param {unknown} data @param {(value: unknown) => boolean} sound */
const allOf = (data, sound) => Object.values(record(data) ?? { none: undefined }).every(sound);
/** @param {unknown} value */
const isText = (value) => typeof value === "string";
/** @param {unknown} value */
const isAmount = (value) => Number.isFinite(value) && Number(value) >= 0;

/** Heard by a page. @param {unknown} data @returns {FromWorker | null} */
export function fromWorker(data) {
  const said = record(data);
  if (!said) return null;
  const { type } = said;
  const sound =
    type === "progress" ? (said.stage === "fetch" || said.stage === "start") && isAmount(said.done) && isAmount(said.total)
    : type === "ready" ? isText(said.build)
    : type === "answer" ? soundId(said.id) && isText(said.text)
    : type === "broken" && isText(said.text);
  return sound ? /** @type {FromWorker} */ (/** @type {unknown} */ (said)) : null;
}

/** Heard by a worker. @param {unknown} data @returns {Start | Ask | null} */
export function fromPage(data) {
  const said = record(data);
  if (!said) return null;
  const ask = said.type === "ask" && soundId(said.id) && typeof said.text === "string" && said.text.length <= LONGEST_REQUEST;
  const start =
    said.type === "start" && isText(said.indexURL) && isText(said.build) && record(said.lock) !== null
    && allOf(said.addresses, isText) && allOf(said.sums, isText) && allOf(said.sizes, isAmount)
    && [said.first, said.soon].every((names) => Array.isArray(names) && names.every(isText))
    && (said.files === null || allOf(said.files, (bytes) => bytes instanceof ArrayBuffer));
  return ask || start ? /** @type {Start | Ask} */ (/** @type {unknown} */ (said)) : null;
}

const STATES = ["result", "invalid", "failed"];

/** An answer of the door, null where the text is none. @param {string} text @returns {import("./types.js").Answer | null} */
export function answerOf(text) {
  try {
    const answer = record(JSON.parse(text));
    if (!answer || !STATES.includes(String(answer.state))) return null;
    if (answer.state === "invalid" && !Array.isArray(answer.faults)) return null;
    return /** @type {import("./types.js").Answer} */ (/** @type {unknown} */ (answer));
  } catch {
    return null;
  }
}
