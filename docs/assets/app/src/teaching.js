/** Questions, sheets and lessons are a script of their own, fetched where they stand or when a lesson is under way. */

import { asset, loadScript } from "./site.js";

/** @typedef {import("./teach/index.js").Teach} Teach */

/** What the script is handed; set by main.js, which has all of it. @type {{site: import("./teach/index.js").Site | null}} */
export const handed = { site: null };
/** @type {Promise<Teach | null> | null} */
let made = null;

/** The script, fetched once; null when it can't be. @returns {Promise<Teach | null>} */
export function teaching() {
  made ??= loadScript(asset("teach.js", true)).then(
    () => (handed.site && window.handToDiscTeach ? window.handToDiscTeach(handed.site) : null),
    () => {
      made = null; // the network may come back
      return null;
    },
  );
  return made;
}

/** Whether a lesson is under way in this tab. */
export function lessonRuns() {
  try {
    return sessionStorage.getItem("hand-to-disc-lesson") !== null;
  } catch {
    return false;
  }
}
