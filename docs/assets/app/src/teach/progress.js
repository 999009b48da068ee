/**
 * What a learner has answered, on this device only. A question that was missed comes back after three others, then, answered
 * rightly, after nine and after twenty-seven; then it is done with until it is missed again.
 */

/** @typedef {{right: number, wrong: number, due: number | null, gap: number}} Entry due: after how many answers it comes back; null: it doesn't */
/** @typedef {{answered: number, records: Record<string, Entry>}} Progress */

export const KEY = "hand-to-disc-practice";
const FIRST_GAP = 3;
const LAST_GAP = 27;

/** @returns {Progress} */
export const nothing = () => ({ answered: 0, records: {} });

/** @param {unknown} value */
const whole = (value) => (Number.isSafeInteger(value) && Number(value) >= 0 ? Number(value) : null);

/**
 * Progress as it was written, as far as it can be trusted: a hand or another version may have written it.
 * @param {unknown} data @param {Set<string>} known templates @returns {Progress | null}
 */
export function sound(data, known) {
  if (typeof data !== "object" || data === null) return null;
  const { answered, records } = /** @type {Record<string, unknown>} */ (/** @type {unknown} */ (data));
  if (whole(answered) === null || typeof records !== "object" || records === null) return null;
  const found = nothing();
  found.answered = whole(answered) ?? 0;
  for (const [template, entry] of Object.entries(records)) {
    const [right, wrong, gap] = [whole(entry?.right), whole(entry?.wrong), whole(entry?.gap)];
    if (!known.has(template) || right === null || wrong === null || gap === null) continue;
    found.records[template] = { right, wrong, gap: Math.min(gap, LAST_GAP), due: whole(entry.due) };
  }
  return found;
}

/** @param {Progress} progress @param {string} template @param {boolean} right @returns {Progress} */
export function after(progress, template, right) {
  const answered = progress.answered + 1;
  const old = progress.records[template] ?? { right: 0, wrong: 0, due: null, gap: 0 };
  const record = { ...old, right: old.right + (right ? 1 : 0), wrong: old.wrong + (right ? 0 : 1) };
  if (!right) record.gap = FIRST_GAP;
  else if (old.gap > 0) record.gap = old.gap < LAST_GAP ? old.gap * 3 : 0;
  record.due = record.gap > 0 ? answered + record.gap : null;
  return { answered, records: { ...progress.records, [template]: record } };
}

/** Templates that were missed and are not done with. @param {Progress} progress */
export const missed = (progress) => Object.entries(progress.records).filter(([, record]) => record.gap > 0).map(([template]) => template);

/**
 * Which comes next: one that is due, else one asked least often; never the one just asked while there is another.
 * @param {Progress} progress @param {string[]} among @param {string} last
 * @param {Map<string, number>} shown how often each was put just now, answered or not @param {() => number} chance 0 to 1
 */
export function next(progress, among, last, shown = new Map(), chance = Math.random) {
  const others = among.length > 1 ? among.filter((template) => template !== last) : among;
  const due = others.filter((template) => (progress.records[template]?.due ?? Infinity) <= progress.answered);
  if (due.length > 0) return due.sort((a, b) => (progress.records[a]?.due ?? 0) - (progress.records[b]?.due ?? 0))[0] ?? "";
  const waiting = others.filter((template) => (progress.records[template]?.gap ?? 0) === 0);
  const pool = waiting.length > 0 ? waiting : others;
  const times = (/** @type {string} */ template) => (progress.records[template]?.right ?? 0) + (progress.records[template]?.wrong ?? 0) + (shown.get(template) ?? 0);
  const least = Math.min(...pool.map(times));
  const rare = pool.filter((template) => times(template) === least);
  return rare[Math.floor(chance() * rare.length)] ?? "";
}

/** @param {Set<string>} known @returns {Progress} */
export function load(known) {
  try {
    return sound(JSON.parse(localStorage.getItem(KEY) ?? "null"), known) ?? nothing();
  } catch {
    return nothing(); // unreadable: a new start, which only an answer overwrites
  }
}

/** @param {Progress} progress @returns {boolean} whether the browser keeps it */
export function save(progress) {
  try {
    localStorage.setItem(KEY, JSON.stringify(progress));
    return !window.handToDiscStorageRefused;
  } catch {
    return false;
  }
}
