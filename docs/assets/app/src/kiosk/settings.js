/**
 * Whether this is a kiosk, and how it is set: by the file kiosk-settings.js in the folder, or by a link that begins with
 * #kiosk& and holds for the tab. Judged here: a link is anybody's.
 */

/** @typedef {{start: string, head: string, after: number, search: boolean, print: boolean}} Kiosk start: a page under the root; after: seconds without touch */

const KEY = "hand-to-disc-kiosk";
/** Set once a tab has come to the kiosk's start. */
export const BEGUN = "hand-to-disc-kiosk-begun";
const PAGE = /^[a-z0-9-]+(\/[a-z0-9-]+)*\.html$/;
const HEAD = /^[a-z0-9]{1,20}$/;
const SHORTEST = 15;
const LONGEST = 3600;

/** @param {unknown} data @returns {Kiosk | null} */
export function sound(data) {
  if (typeof data !== "object" || data === null) return null;
  const { start, head, after, search, print } = /** @type {Record<string, unknown>} */ (data);
  const seconds = Number(after ?? 90);
  return {
    start: typeof start === "string" && PAGE.test(start) ? start : "index.html",
    head: typeof head === "string" && HEAD.test(head) ? head : "",
    after: Number.isFinite(seconds) ? Math.min(LONGEST, Math.max(SHORTEST, seconds)) : 90,
    search: search === true || search === "1",
    print: print === true || print === "1",
  };
}

/** The kiosk's settings, null where this is none. @returns {Kiosk | null} */
export function kiosk() {
  if (window.handToDiscKiosk) return sound(window.handToDiscKiosk);
  try {
    if (location.hash.startsWith("#kiosk&")) {
      const asked = sound(Object.fromEntries(new URLSearchParams(location.hash.slice("#kiosk&".length))));
      sessionStorage.setItem(KEY, JSON.stringify(asked));
      return asked;
    }
    return sound(JSON.parse(sessionStorage.getItem(KEY) ?? "null"));
  } catch {
    return null; // a browser that keeps nothing can't be a kiosk by a link; by the file it can
  }
}

/** Put everything that was entered away; what makes it a kiosk stays. */
export function clearEntered() {
  for (const store of ["localStorage", "sessionStorage"]) {
    try {
      const kept = /** @type {Storage} */ (window[/** @type {"localStorage"} */ (store)]);
      for (const name of Object.keys(kept)) if (name !== KEY && name !== BEGUN) kept.removeItem(name);
    } catch {
      // Nothing is kept here at all.
    }
  }
}

/** Where a kiosk begins. @param {Kiosk} settings */
export const startFragment = ({ head }) => (head ? `#&head=${head}` : "");
