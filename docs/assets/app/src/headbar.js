/**
 * The head bar: which head, which way it turns, which units; what was changed and the way back. Its button in the
 * theme's header brings the same bar down wherever the reader is on the page.
 */

import { engine } from "./engine.js";
import { switchUnits, turnTheOtherWay } from "./page.js";
import { ownHeads } from "./own-list.js";
import { OWN, store } from "./state.js";

/**
 * @template {keyof HTMLElementTagNameMap} K
 * @param {K} tag @param {string} className @param {string} [text]
 * @returns {HTMLElementTagNameMap[K]}
 */
function make(tag, className, text = "") {
  const element = document.createElement(tag);
  element.className = className;
  element.textContent = text;
  return element;
}

/** @param {string} text @param {[string, string][]} options @param {(value: string) => void} chosen */
function picker(text, options, chosen) {
  const label = make("label", "hd-pick");
  const select = make("select", "");
  for (const [value, name] of options) select.add(new Option(name, value));
  select.addEventListener("change", () => chosen(select.value));
  label.append(make("span", "", text), select);
  return { label, select };
}

/** Read the list of heads the build wrote into the bar. @param {Element | null} bar */
export function readHeads(bar) {
  try {
    const list = /** @type {unknown} */ (JSON.parse(bar?.getAttribute("data-heads") ?? "[]"));
    if (Array.isArray(list)) store.heads = list.filter((head) => typeof head?.id === "string" && typeof head?.name === "string");
  } catch {
    store.heads = []; // the bar stays as it is printed
  }
}

/** The invented heads, those kept on this device, and the one a link has brought. @param {HTMLSelectElement} select */
function fillHeads(select) {
  const { base, own } = store.choice;
  const kept = ownHeads.list.find((head) => base === OWN && head.own === own);
  /** @type {[string, string][]} */
  const mine = ownHeads.list.map((head) => [`${OWN}:${head.id}`, head.name]);
  if (base === OWN && !kept) mine.push([OWN, `${store.name} (from a link)`]);
  const shown = JSON.stringify(mine);
  if (select.dataset.mine !== shown) {
    select.dataset.mine = shown;
    const group = (/** @type {string} */ label, /** @type {[string, string][]} */ options) => {
      const made = document.createElement("optgroup");
      made.label = label;
      made.append(...options.map(([value, name]) => new Option(name, value)));
      return made;
    };
    select.replaceChildren(group("Invented", store.heads.map(({ id, name }) => [id, name])), ...(mine.length > 0 ? [group("Your own", mine)] : []));
  }
  select.value = kept ? `${OWN}:${kept.id}` : base;
}

export class HeadBar extends HTMLElement {
  #woken = false;
  #show = () => {};

  connectedCallback() {
    if (this.#woken || store.heads.length === 0) return;
    this.#woken = true;
    const bar = make("div", "hd-bar");
    const heads = picker("Head", [], (value) => {
      const kept = ownHeads.list.find((head) => value === `${OWN}:${head.id}`);
      store.choose(kept ? { base: OWN, own: kept.own, mirrored: false, changes: {} } : { base: value, own: "", changes: {} });
    });
    const units = picker("Units", [["metric", "metric"], ["imperial", "inch, lb, ft"]], (value) => {
      void switchUnits(value === "imperial" ? "imperial" : "metric");
    });
    const turn = make("button", "hd-button hd-turn", "Turn it the other way");
    turn.type = "button";
    turn.addEventListener("click", () => void turnTheOtherWay());
    const reset = make("button", "hd-button hd-reset");
    reset.type = "button";
    reset.addEventListener("click", () => (store.changed ? store.choose({ changes: {} }) : store.bringBack()));
    const notes = make("div", "hd-notes");
    notes.setAttribute("role", "status");
    const again = make("button", "hd-button", "Try again");
    again.type = "button";
    again.addEventListener("click", () => engine.tryAgain());
    const offers = make("div", "hd-offers");
    offers.setAttribute("role", "status");
    bar.append(heads.label, units.label, turn, reset, notes, offers);
    this.replaceChildren(bar);
    const header = this.#headerButton(bar);
    this.#show = () => {
      fillHeads(heads.select);
      units.select.value = store.choice.units;
      turn.setAttribute("aria-pressed", String(store.choice.mirrored));
      reset.textContent = store.changed ? "changed · reset" : `back to ${store.heads.find((head) => head.id === store.kept?.base)?.name ?? ""}, changed`;
      reset.hidden = !store.changed && !store.kept;
      header.textContent = `${store.name}${store.choice.mirrored ? ", turned" : ""}${store.changed ? ", changed" : ""}`;
      header.setAttribute("aria-label", `${header.textContent}: choose the head, the way it turns, the units`);
      this.classList.toggle("hd-is-changed", store.changed);
      const sentences = [...store.notes.values()];
      if (notes.dataset.said !== sentences.join("\n")) {
        notes.dataset.said = sentences.join("\n");
        notes.replaceChildren(...sentences.map((sentence) => make("p", "hd-bar-note", sentence)));
      }
      if (offers.childElementCount !== store.offers.size) {
        offers.replaceChildren(...[...store.offers.values()].map(({ text, label, act }) => {
          const line = make("p", "hd-bar-note", `${text} `);
          const press = make("button", "hd-button", label);
          press.type = "button";
          press.addEventListener("click", act);
          line.append(press);
          return line;
        }));
      }
      if (engine.state === "unavailable" && store.changed) notes.append(again);
      else again.remove();
    };
    for (const name of ["choice", "bar"]) store.addEventListener(name, this.#show);
    ownHeads.addEventListener("list", this.#show);
    engine.addEventListener("state", () => {
      if (engine.state === "unavailable" || engine.state === "ready") this.#show();
    });
    engine.addEventListener("again", () => store.note("engine", ""));
    this.#show();
  }

  /** The head's name in the theme's header; a tap brings the bar down over the page. @param {HTMLElement} bar */
  #headerButton(bar) {
    const button = make("button", "hd-header-button");
    button.type = "button";
    button.setAttribute("aria-expanded", "false");
    /** @param {boolean} open */
    const open = (open) => {
      if (open) this.style.minHeight = `${this.offsetHeight}px`; // the page keeps its place while the bar is lifted out
      bar.classList.toggle("hd-down", open);
      button.setAttribute("aria-expanded", String(open));
      if (open) bar.querySelector("select")?.focus({ preventScroll: true });
      else this.style.minHeight = "";
    };
    const isOpen = () => bar.classList.contains("hd-down");
    button.addEventListener("click", () => open(!isOpen()));
    bar.addEventListener("keydown", (event) => {
      if (event.key !== "Escape" || !isOpen()) return;
      open(false);
      button.focus({ preventScroll: true });
    });
    document.addEventListener("pointerdown", (event) => {
      if (isOpen() && event.target instanceof Node && !bar.contains(event.target) && event.target !== button) open(false);
    });
    bar.addEventListener("focusout", (event) => {
      if (isOpen() && event.relatedTarget instanceof Node && !bar.contains(event.relatedTarget) && event.relatedTarget !== button) open(false);
    });
    // Beside the title: after the search, Tab would reach it only behind the open search.
    document.querySelector(".md-header__title")?.after(button);
    return button;
  }
}
