/**
 * A lesson as one short text: [title, [page, fragment, note], …] as JSON, squeezed, in letters that a link carries as they
 * are. What comes out of a link is judged before and after it is unpacked.
 */

/** @typedef {{page: string, fragment: string, note: string}} Step */
/** @typedef {{title: string, steps: Step[]}} LessonPlan */

/** A link carries at most 4000 characters; unpacked, no honest lesson comes near this. */
const LONGEST_PACKED = 3600;
const LONGEST = 60000;
export const MOST_STEPS = 40;
export const LONGEST_NOTE = 200;
const PAGE = /^[a-z0-9-]+(\/[a-z0-9-]+)*\.html$/;

/** @param {ReadableStream<Uint8Array>} stream @param {number} most @returns {Promise<Uint8Array>} */
async function all(stream, most) {
  const reader = stream.getReader();
  /** @type {Uint8Array[]} */
  const pieces = [];
  let length = 0;
  for (;;) {
    const { done, value } = await reader.read();
    if (done) break;
    length += value.length;
    if (length > most) {
      await reader.cancel();
      throw new Error("too long");
    }
    pieces.push(value);
  }
  const whole = new Uint8Array(length);
  let at = 0;
  for (const piece of pieces) {
    whole.set(piece, at);
    at += piece.length;
  }
  return whole;
}

/** @param {BlobPart} part @param {GenericTransformStream} through @param {number} most */
const piped = (part, through, most) => all(/** @type {ReadableStream<Uint8Array>} */ (new Blob([part]).stream().pipeThrough(/** @type {any} */ (through))), most);

/** A lesson as far as it can be trusted. @param {unknown} data @returns {LessonPlan | null} */
export function soundPlan(data) {
  if (!Array.isArray(data) || typeof data[0] !== "string" || data.length < 2 || data.length > MOST_STEPS + 1) return null;
  const steps = [];
  for (const row of data.slice(1)) {
    if (!Array.isArray(row) || row.length !== 3 || !row.every((text) => typeof text === "string")) return null;
    const [page, fragment, note] = /** @type {[string, string, string]} */ (row);
    if (!PAGE.test(page) || (fragment !== "" && !fragment.startsWith("#")) || fragment.length > 4000) return null;
    steps.push({ page, fragment, note: note.slice(0, LONGEST_NOTE) });
  }
  return { title: data[0].slice(0, LONGEST_NOTE), steps };
}

/** A lesson as it is packed and kept; `soundPlan` reads it. @param {LessonPlan} plan */
export const asData = ({ title, steps }) => [title, ...steps.map(({ page, fragment, note }) => [page, fragment, note])];

/** @param {LessonPlan} plan @returns {Promise<string>} */
export async function pack(plan) {
  const bytes = await piped(JSON.stringify(asData(plan)), new CompressionStream("deflate-raw"), LONGEST);
  return btoa(String.fromCharCode(...bytes)).replace(/\+/g, "-").replace(/\//g, "_").replace(/=+$/, "");
}

/** @param {string} packed @returns {Promise<LessonPlan | null>} null when it is no lesson */
export async function unpack(packed) {
  if (packed.length > LONGEST_PACKED || !/^[A-Za-z0-9_-]+$/.test(packed)) return null;
  try {
    const letters = atob(packed.replace(/-/g, "+").replace(/_/g, "/"));
    const bytes = Uint8Array.from(letters, (letter) => letter.charCodeAt(0));
    const text = await piped(bytes, new DecompressionStream("deflate-raw"), LONGEST);
    return soundPlan(JSON.parse(new TextDecoder("utf-8", { fatal: true }).decode(text)));
  } catch {
    return null; // not packed by this site: the caller says so
  }
}

export const tooLong = (/** @type {string} */ packed) => packed.length > LONGEST_PACKED;
