/** Entry: read what is kept and what the address says, wake the page's elements, bring the page to the chosen head. */

import { Calculator } from "./calculator.js";
import { Chart } from "./chart-element.js";
import { Field } from "./field-element.js";
import { engine } from "./engine.js";
import { HeadBar, readHeads } from "./headbar.js";
import { writeLink } from "./link.js";
import { ownHeads } from "./own-list.js";
import { kiosk, startFragment } from "./kiosk/settings.js";
import { menuByKeys } from "./menu.js";
import { registerCopy } from "./offline/register.js";
import { calculators, follow, readAddress, writeAddress } from "./page.js";
import { Predict } from "./predict.js";
import { preparePrinting, printAlone, readyForPaper } from "./print.js";
import { asset, loadScript, root } from "./site.js";
import { PRINTED, store } from "./state.js";
import { handed, lessonRuns, teaching } from "./teaching.js";
import { copyLink, showCode } from "./tools.js";
import { Figure, Value } from "./values.js";
import { reachWideBoxes } from "./wide-boxes.js";

const asKiosk = kiosk();
// The link that makes a kiosk leads on to its start.
if (asKiosk && location.hash.startsWith("#kiosk&")) location.replace(root + asKiosk.start + startFragment(asKiosk));
if (asKiosk) void loadScript(asset("kiosk.js", true)).catch(() => undefined); // without it the pages are pages

menuByKeys();
reachWideBoxes();
readHeads(document.querySelector("hd-head"));
store.load();
// A kiosk's pages begin with its head, until somebody picks another.
if (asKiosk && store.fresh && store.known(asKiosk.head)) store.choice = { ...store.choice, base: asKiosk.head };

customElements.define("hd-value", Value);
customElements.define("hd-figure", Figure);
customElements.define("hd-chart", Chart);
customElements.define("hd-field", Field);
customElements.define("hd-calculator", Calculator);
customElements.define("hd-predict", Predict);
customElements.define("hd-head", HeadBar);

store.addEventListener("choice", (event) => {
  const { origin, link } = /** @type {CustomEvent} */ (event).detail;
  if (!link) writeAddress();
  void follow(origin);
});
engine.addEventListener("again", () => {
  if (!store.plain) void follow();
});

window.addEventListener("hashchange", (event) => readAddress(new URL(event.newURL).hash));
window.addEventListener("pageshow", (event) => {
  // Back from another page, kept alive by the browser: the head may have been changed there.
  if (!event.persisted || location.hash.includes("&")) return;
  store.load();
  store.dispatchEvent(new CustomEvent("choice", { detail: { origin: null, link: true } }));
});

if (readAddress()) {
  const name = decodeURIComponent(/^#([a-z0-9_-]*)&/.exec(location.hash)?.[1] ?? "");
  const named = [...calculators].find((calculator) => calculator.name === name);
  named?.scrollIntoView({ block: "start" });
} else if (JSON.stringify(store.choice) !== JSON.stringify(PRINTED)) void follow();

preparePrinting(calculators);
handed.site = { engine, store, copyLink, showCode, writeLink, writeAddress, printAlone };
if (document.querySelector("[data-teach]") || lessonRuns()) void teaching();
if (document.querySelector(".hd-own, .hd-readings, .hd-pick-other, [data-use]")) {
  // Describing a head needs a list and more buttons: a script of its own, for the pages that have them.
  loadScript(asset("own-heads.js", true)).then(
    () => window.handToDiscOwnHeads?.({ engine, store, ownHeads, copyLink, showCode, writeLink, printAlone }),
    () => undefined, // the form itself works without
  );
}
if (calculators.size > 0) {
  // The public address is only needed on paper and in codes: ask when nothing else is going on.
  const later = window.requestIdleCallback ?? ((/** @type {() => void} */ act) => setTimeout(act, 1000));
  later(() => void readyForPaper());
}
if (document.querySelector("[data-offline]")) void loadScript(asset("offline-copy.js", true)).catch(() => undefined); // the page says what it can without
if (!asKiosk) window.addEventListener("load", registerCopy);
