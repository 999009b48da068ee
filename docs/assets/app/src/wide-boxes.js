/**
 * What is wider than the page scrolls in a box of its own. While it does, the box can be reached by Tab, so that the arrow
 * keys move it; where everything fits there is no stop that does nothing. Looked at when Tab is pressed: zoom, the window,
 * a fold and every new answer may change it.
 */

const NAMES = { ".hd-equation, .hd-numbers": "Formula, wider than the page", ".md-typeset__scrollwrap": "Table, wider than the page" };

export function reachWideBoxes() {
  document.addEventListener("keydown", (event) => {
    if (event.key !== "Tab") return;
    for (const [which, name] of Object.entries(NAMES)) {
      for (const box of document.querySelectorAll(which)) {
        const wide = box.scrollWidth > box.clientWidth + 1;
        // Boxes that the build has named keep their name and their place.
        if (wide === box.hasAttribute("tabindex") || (box.hasAttribute("tabindex") && !("ours" in /** @type {HTMLElement} */ (box).dataset))) continue;
        for (const [key, value] of Object.entries({ tabindex: "0", role: "group", "aria-label": name, "data-ours": "" })) {
          if (wide) box.setAttribute(key, value);
          else box.removeAttribute(key);
        }
      }
    }
  }, true);
}
