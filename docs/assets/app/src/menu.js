/**
 * The theme's menu and search for the keyboard. Its labels open them by mouse alone: a label is no button, has no name
 * where it shows only an icon, and on a narrow screen can't be reached by Tab. Each becomes a button that works the same
 * box, keeps its place in the look (the theme's style knows them by `for`) and says what is open.
 */

/** Below this the theme lays the menu over the page, its lists one over the other. */
const LAID_OVER = window.matchMedia("(max-width: 76.234375em)");
/** Below this the search has a button and covers the page. */
const SEARCH_COVERS = window.matchMedia("(max-width: 59.984375em)");

/** @param {string} id */
const box = (id) => /** @type {HTMLInputElement | null} */ (document.getElementById(id));

/** @param {HTMLElement | null | undefined} element */
const seen = (element) => element?.checkVisibility({ visibilityProperty: true }) === true;

/**
 * @param {HTMLLabelElement} label
 * @param {(text: string) => string} name what it does, from the words it shows
 * @param {(open: boolean, byKeys: boolean) => void} [then]
 */
function asButton(label, name, then) {
  const toggle = box(label.htmlFor);
  if (!toggle) return null;
  const button = document.createElement("button");
  for (const { name: key, value } of label.attributes) if (key !== "tabindex") button.setAttribute(key, value);
  button.type = "button";
  button.classList.add("hd-opens");
  button.append(...label.childNodes);
  const said = name(button.textContent?.trim().replace(/\s+/g, " ") ?? "");
  if (said) button.setAttribute("aria-label", said);
  const tell = () => button.setAttribute("aria-expanded", String(toggle.checked));
  tell();
  toggle.addEventListener("change", tell);
  button.addEventListener("click", (event) => {
    toggle.click();
    then?.(toggle.checked, event.detail === 0);
  });
  label.replaceWith(button);
  return button;
}

/** Lists of a section: a fold on a wide screen, a sheet of their own with a way back on a narrow one. @param {HTMLElement} menu */
function sections(menu) {
  for (const link of menu.querySelectorAll("label.md-nav__link[for]")) {
    const id = /** @type {HTMLLabelElement} */ (link).htmlFor;
    const beside = link.parentElement?.querySelector("a.md-nav__link")?.textContent?.trim().replace(/\s+/g, " ");
    const title = menu.querySelector(`label.md-nav__title[for="${id}"]`);
    /** @type {HTMLButtonElement | null} */
    let back = null;
    const opener = asButton(/** @type {HTMLLabelElement} */ (link), (text) => {
      if (id === "__toc") return `${text}: on this page`;
      return text ? "" : `${beside ?? ""}: all pages`;
    }, (open, byKeys) => {
      if (open && byKeys && seen(back)) back?.focus();
    });
    if (title) back = asButton(/** @type {HTMLLabelElement} */ (title), (text) => `${text}: back`, (open) => {
      if (!open) opener?.focus();
    });
  }
}

/** @param {HTMLElement} menu */
function drawer(menu) {
  const label = document.querySelector('label.md-header__button[for="__drawer"]');
  const toggle = box("__drawer");
  if (!label || !toggle) return;
  const button = asButton(/** @type {HTMLLabelElement} */ (label), () => "Menu", (open, byKeys) => {
    const first = [...menu.querySelectorAll("a[href], button")].find((one) => seen(/** @type {HTMLElement} */ (one)));
    if (open && byKeys) /** @type {HTMLElement | undefined} */ (first)?.focus();
  });
  const isOpen = () => toggle.checked && LAID_OVER.matches;
  menu.addEventListener("keydown", (event) => {
    if (event.key !== "Escape" || !isOpen()) return;
    toggle.click();
    button?.focus();
  });
  // Past its end the focus is on the page again, which must not lie beneath it.
  menu.addEventListener("focusout", ({ relatedTarget }) => {
    if (isOpen() && relatedTarget instanceof Node && !menu.contains(relatedTarget) && relatedTarget !== button) toggle.click();
  });
}

function search() {
  const label = document.querySelector('label.md-header__button[for="__search"]');
  const toggle = box("__search");
  const query = /** @type {HTMLInputElement | null} */ (document.querySelector(".md-search__input"));
  if (!label || !toggle || !query) return;
  let byButton = false;
  const button = asButton(/** @type {HTMLLabelElement} */ (label), () => "Search", (open) => {
    byButton = open;
    if (open) query.focus();
  });
  // The box would lie over the whole page as soon as Tab comes by: there it opens by its button or the search key alone.
  const reach = () => {
    query.tabIndex = SEARCH_COVERS.matches && !toggle.checked ? -1 : 0;
  };
  reach();
  SEARCH_COVERS.addEventListener("change", reach);
  toggle.addEventListener("change", () => {
    reach();
    if (toggle.checked || !byButton) return;
    byButton = false;
    if (seen(button)) button?.focus();
  });
}

/** The page says whether it is gone through by keys; a rule that looks for the focus itself would restyle all of it at each stop. */
function saysByKeys() {
  const { classList } = document.documentElement;
  document.addEventListener("keydown", ({ key }) => {
    if (key === "Tab") classList.add("hd-by-keys");
  }, true);
  document.addEventListener("pointerdown", () => classList.remove("hd-by-keys"), true);
}

export function menuByKeys() {
  saysByKeys();
  const menu = /** @type {HTMLElement | null} */ (document.querySelector(".md-sidebar--primary"));
  if (menu) {
    sections(menu);
    drawer(menu);
  }
  search();
}
