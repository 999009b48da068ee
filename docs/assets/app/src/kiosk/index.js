/**
 * The kiosk: large targets, keys on the screen, no way to what needs a keyboard, a printer or a network; left alone it asks,
 * and then goes back to its start with everything that was entered put away.
 */

import build from "hd:build";
import { make } from "../dom.js";
import { insidePath, root } from "../site.js";
import { NumberPad } from "./pad.js";
import { BEGUN, clearEntered, kiosk, startFragment } from "./settings.js";
import { addSteppers } from "./steppers.js";

const WARNING = 20;
/** Whether this tab has come to its start already; a folder is opened at its index.html. */
function begun() {
  try {
    const before = sessionStorage.getItem(BEGUN) !== null;
    sessionStorage.setItem(BEGUN, "1");
    return before;
  } catch {
    return false; // then the first page always leads to the start
  }
}

const settings = kiosk();
if (settings && settings.start !== "index.html" && insidePath === "index.html" && !begun()) location.replace(root + settings.start + startFragment(settings));
else if (settings) {
  begun();
  const page = document.documentElement;
  page.classList.add("hd-kiosk");
  page.classList.toggle("hd-kiosk-search", settings.search);

  page.classList.toggle("hd-kiosk-print", settings.print);

  /** Controls come and go with calculators. @param {ParentNode} place */
  const tidy = (place) => {
    // No way off the site: an address elsewhere is words.
    for (const one of place.querySelectorAll("a")) {
      if (one.href && !one.href.startsWith(root)) one.replaceWith(make("span", { class: "hd-kiosk-source" }, [`${one.textContent ?? ""} (${one.href})`]));
    }
    addSteppers(place);
  };
  tidy(document.body);
  new MutationObserver((changes) => {
    for (const { addedNodes } of changes) for (const node of addedNodes) if (node instanceof HTMLElement && !node.closest("svg, .hd-kiosk-own")) tidy(node.parentElement ?? node);
  }).observe(document.body, { childList: true, subtree: true });
  new NumberPad();

  const again = () => {
    clearEntered();
    if (insidePath !== settings.start) {
      location.replace(root + settings.start + startFragment(settings));
      return;
    }
    // The same page with another fragment would not be opened anew.
    history.replaceState(null, "", location.pathname + location.search + startFragment(settings));
    location.reload();
  };
  // The folder's own name for all of its files; without a folder, that of the running parts.
  const name = document.querySelector("script[data-build]")?.getAttribute("data-build") ?? build.build;
  const band = make("div", { class: "hd-kiosk-band hd-kiosk-own" }, [make("span", {}, [`Offline, build ${name}`])]);
  const home = make("button", { type: "button", class: "hd-button" }, ["Start again"]);
  home.addEventListener("click", again);
  band.append(home);
  document.body.append(band);

  /** @type {ReturnType<typeof setTimeout> | undefined} */
  let quiet;
  /** @type {ReturnType<typeof setInterval> | undefined} */
  let counting;
  const left = make("span", { "aria-live": "off" });
  const stay = make("button", { type: "button", class: "hd-button" }, ["Stay"]);
  const dialog = /** @type {HTMLDialogElement} */ (make("dialog", { class: "hd-dialog md-typeset hd-kiosk-own", "aria-labelledby": "hd-kiosk-ask" }, [
    make("div", { class: "hd-dialog-box" }, [make("h2", { id: "hd-kiosk-ask" }, ["Is somebody still here?"]), make("p", {}, ["This screen goes back to its start, and what was entered is put away, in ", left, " seconds."]), stay]),
  ]));
  document.body.append(dialog);
  const warn = () => {
    let seconds = WARNING;
    left.textContent = String(seconds);
    if (!dialog.open) dialog.showModal();
    clearInterval(counting);
    counting = setInterval(() => {
      seconds -= 1;
      left.textContent = String(seconds);
      if (seconds <= 0) {
        clearInterval(counting);
        again();
      }
    }, 1000);
  };
  // Armed by the first touch on a page: a start page that nobody touches asks nobody.
  const touched = () => {
    clearTimeout(quiet);
    quiet = setTimeout(warn, settings.after * 1000);
  };
  stay.addEventListener("click", () => {
    clearInterval(counting);
    dialog.close();
    touched();
  });
  dialog.addEventListener("cancel", () => {
    clearInterval(counting);
    touched();
  });
  for (const name of ["pointerdown", "keydown", "wheel", "touchmove"]) document.addEventListener(name, () => !dialog.open && touched(), { passive: true, capture: true });
  if (insidePath !== settings.start) touched(); // a page somebody came to
  document.addEventListener("contextmenu", (event) => event.preventDefault());
}
