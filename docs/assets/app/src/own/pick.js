/** Heads of the reader's own in the comparison of two; and figures that are taken from an answer into the head. */

import { make } from "../dom.js";

/** @param {HTMLElement} host @param {import("./index.js").Site} site */
export function offerOwn(host, { ownHeads }) {
  const calculator = document.querySelector("hd-calculator[name=beside]");
  const select = /** @type {HTMLSelectElement} */ (make("select", { class: "hd-choice", id: "hd-other-own" }));
  const show = () => {
    host.hidden = ownHeads.list.length === 0;
    select.replaceChildren(make("option", { value: "" }, ["choose …"]), ...ownHeads.list.map((head) => make("option", { value: head.own }, [head.name])));
  };
  select.addEventListener("change", () => {
    if (!select.value) return;
    for (const [field, text] of [["other_head", select.value], ["other", "own"]]) {
      calculator?.dispatchEvent(new CustomEvent("hd-pick", { detail: { field, text } }));
    }
  });
  host.replaceChildren(make("label", { for: "hd-other-own" }, ["Compare with one of your own "]), select);
  ownHeads.addEventListener("list", show);
  show();
}

/** "Use this in my head": what an answer offers becomes changes of the working copy. @param {import("./index.js").Site} site */
export function takeFigures({ store }) {
  document.addEventListener("click", (event) => {
    const press = event.target instanceof Element ? event.target.closest("[data-use]") : null;
    if (!(press instanceof HTMLElement)) return;
    /** @type {Record<string, string>} */
    const changes = JSON.parse(press.dataset.use ?? "{}");
    // The figures are metric; in other units they would be read as inches.
    if (store.choice.units === "metric") store.choose({ changes: { ...store.choice.changes, ...changes } });
    else store.note("units", "Change to metric units first: the measured figures are in millimetres and degrees.");
    press.textContent = "Taken into the head";
  });
}
