/** "I don't know" beside every figure of the form, and the drawing that shows the figure whose field has the focus. */

/** @param {import("./index.js").Site} site */
export function addGuesses(site) {
  const calculator = document.querySelector("hd-calculator[name=describe]");
  if (!calculator) return;
  /** @param {string} field @param {string} text */
  const enter = (field, text) => calculator.dispatchEvent(new CustomEvent("hd-pick", { detail: { field, text } }));
  for (const box of calculator.querySelectorAll('[data-field^="head."]')) {
    const name = box instanceof HTMLElement ? (box.dataset.field ?? "") : "";
    const key = name.slice(5);
    box.addEventListener("focusin", () => enter("dimension", key));
    if (!box.querySelector("input.hd-text") || key === "rods.count" || key === "blades" || key === "actuators" || key.endsWith("bearing_deg")) continue;
    const label = box.querySelector("label")?.firstChild?.textContent?.trim() ?? key;
    const press = document.createElement("button");
    press.type = "button";
    press.className = "hd-guess";
    press.textContent = "I don’t know";
    press.setAttribute("aria-label", `I don’t know: ${label}`);
    press.addEventListener("click", async () => {
      // What has been entered so far says what is likely for the rest.
      const entered = Object.entries(site.store.choice.changes).filter(([, text]) => text.trim() !== "");
      const head = { ...site.store.head, changes: Object.fromEntries(entered) };
      const answer = await site.engine.ask(`guess ${key}`, { op: "likely", head, key, units: site.store.choice.units });
      if (answer.state === "result") enter(name, answer.text);
    });
    box.append(press);
  }
}
