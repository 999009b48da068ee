/**
 * Questions to practise, sheets of them, and lessons made of the site's own pages. Loaded where they stand (teach.js).
 * Python makes every question and judges every answer; here they are put on the page and kept in order.
 */

/**
 * @typedef {object} Site what the page's script hands over
 * @property {typeof import("../engine.js").engine} engine
 * @property {typeof import("../state.js").store} store
 * @property {typeof import("../tools.js").copyLink} copyLink
 * @property {typeof import("../tools.js").showCode} showCode
 * @property {typeof import("../link.js").writeLink} writeLink
 * @property {typeof import("../page.js").writeAddress} writeAddress
 * @property {typeof import("../print.js").printAlone} printAlone
 */
/** @typedef {{addStep: (page: string, fragment: string, title: string) => Node[]}} Teach */

import { Builder } from "./builder.js";
import { addStep, Lesson } from "./lesson.js";
import { LessonBar } from "./lesson-bar.js";
import { Practice } from "./practice.js";
import { Sheet } from "./sheet.js";

window.handToDiscTeach = (site) => {
  /** @type {[string, new (host: HTMLElement, site: Site) => unknown][]} */
  const kinds = [
    ["practice", Practice],
    ["builder", Builder],
    ["sheet", Sheet],
    ["lesson", Lesson],
  ];
  for (const [name, Kind] of kinds) {
    for (const host of document.querySelectorAll(`[data-teach="${name}"]`)) if (host instanceof HTMLElement) new Kind(host, site);
  }
  new LessonBar(site);
  return { addStep: (page, fragment, title) => addStep(page, fragment, title) };
};
