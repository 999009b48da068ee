"""The Tab key through one page of each kind: seen, named, in order, out again (WCAG 2.2, 2.1.2, 2.4.1, 2.4.3, 2.4.7, 2.4.11)."""

from __future__ import annotations

from typing import Any

import pytest
from playwright.sync_api import Page, expect

from . import oracle
from .conftest import PHONE, WIDE, MakeReader
from .learner import PRACTICE
from .page_kinds import KINDS, open_kind
from .pixels import changed
from .reader import Reader

PHASE = oracle.PAGE_OF["phase"]
MOST = 400  # stops; more is a trap

# Notes every stop when the key comes up: by then the browser has brought it into view.
NOTE = """() => {
  window.stops = [];
  window.reached = [];
  const seen = (one) => one.checkVisibility({ visibilityProperty: true, opacityProperty: true });
  const text = (one) => (one?.textContent ?? "").trim().replace(/\\s+/g, " ");
  const name = (one) => (one.getAttribute("aria-label")
    || (one.getAttribute("aria-labelledby") ?? "").split(" ").map((id) => text(document.getElementById(id))).join(" ").trim()
    || [...(one.labels ?? [])].map(text).join(" ").trim() || (/select|input/.test(one.localName) ? "" : text(one)) || one.title || "").slice(0, 60);
  const look = (one) => { const s = getComputedStyle(one); return [s.outlineStyle, parseFloat(s.outlineWidth), s.outlineColor]; };
  window.note = (one) => {
    // The theme's choice of light or dark: a box of no size, its label stands for it.
    const stand = one.classList.contains("md-option") ? one.nextElementSibling : one;
    const boxes = [...stand.getClientRects()];
    const box = boxes[0] ?? stand.getBoundingClientRect();
    const x = (Math.max(0, box.left) + Math.min(innerWidth, box.right)) / 2;
    const y = (Math.max(0, box.top) + Math.min(innerHeight, box.bottom)) / 2;
    const inView = box.width > 2 && box.height > 2 && box.bottom > 1 && box.top < innerHeight - 1 && box.right > 1 && box.left < innerWidth - 1;
    const at = inView ? document.elementFromPoint(x, y) : null;
    const before = window.reached.at(-1);
    window.reached.push(one);
    const [style, width, colour] = look(stand);
    const faults = [];
    if (!seen(stand)) faults.push("not to be seen");
    if (!inView) faults.push("out of view");
    else if (at && !stand.contains(at) && !at.contains(stand)) faults.push(`under ${at.localName}.${at.className}`);
    if (!name(one)) faults.push("no name");
    if (style === "none" || width < 1.5 || /, 0\\)$|transparent/.test(colour)) faults.push(`nothing shows the focus: ${style} ${width}`);
    if (one.tabIndex > 0) faults.push("a place of its own in the order");
    if (before && before !== one && !(before.compareDocumentPosition(one) & Node.DOCUMENT_POSITION_FOLLOWING) && !window.backwards) {
      faults.push("comes before what had the focus before it");
    }
    window.stops.push({ who: `${one.localName}.${String(one.className).replace(" focus-visible", "")} ${name(one)}`, faults, main: !!one.closest(".md-content") });
  };
  // Once out of the page the key goes no further: the next walk starts there.
  addEventListener("keydown", (event) => { if (event.key === "Tab" && window.out) event.preventDefault(); }, true);
  addEventListener("keyup", (event) => {
    if (event.key !== "Tab" || window.out) return;
    const [one, before] = [document.activeElement, window.reached.at(-1)];
    // Behind the last stop is the browser's own frame; a browser without one begins again, or stays where it is.
    const skip = document.querySelector(".md-skip");
    const again = window.backwards ? before === skip : before !== undefined && one === skip;
    if (!one || one === document.body || one === document.documentElement || one === before || again) window.out = true;
    else window.note(one);
  });
}"""
# What can be seen in the page's content and has a place in the Tab order, but had no turn.
MISSED = """() => [...document.querySelectorAll(".md-content :is(a[href], button, input, select, textarea, summary, [tabindex='0'])")]
  .filter((one) => !one.disabled && one.tabIndex >= 0 && one.checkVisibility({ visibilityProperty: true })
    && !(one.type === "radio" && window.reached.some((other) => other.name === one.name)) && !window.reached.includes(one))
  .map((one) => `${one.localName}.${one.className} ${one.textContent.trim().slice(0, 40)}`)"""


def walk(page: Page, key: str = "Tab") -> list[dict[str, Any]]:
    """Press the key until the focus leaves the page; every stop in its order."""
    page.evaluate("back => { window.stops = []; window.out = false; window.backwards = back; }", key != "Tab")
    for _ in range(MOST // 10):
        for _ in range(10):
            page.keyboard.press(key)
        if page.evaluate("window.out"):
            break
    assert page.evaluate("window.out"), f"no way out after {MOST} stops"
    stops: list[dict[str, Any]] = page.evaluate("window.stops")
    return stops


def faults(stops: list[dict[str, Any]]) -> list[str]:
    return [f"{one['who']}: {', '.join(one['faults'])}" for one in stops if one["faults"]]


def begin(reader: Reader, path: str) -> None:
    """A page as it comes, its stops noted from now on."""
    open_kind(reader, path, unfold=False)
    reader.page.evaluate(NOTE)


@pytest.mark.parametrize("path", KINDS)
def test_every_stop(live: Reader, path: str) -> None:
    """The skip link comes first and works; from there to the end each stop is seen, named, marked, in order; none is missed."""
    page = live.page
    page.set_viewport_size(WIDE)
    begin(live, path)
    if path == PRACTICE:
        page.get_by_role("button", name="Ask me").press("Enter")
        expect(page.locator(".hd-ask-prompt")).to_be_visible()
        expect(page.locator(".hd-ask-title")).to_be_focused()
    else:
        page.keyboard.press("Tab")
        assert page.evaluate("window.stops.map(one => one.who)") == ["a.md-skip Skip to content"]
        page.keyboard.press("Enter")
    stops = walk(page)
    assert faults(stops) == []
    assert path == "404.html" or any(one["main"] for one in stops), "something in the page's content"
    assert "md-nav" not in "".join(one["who"] for one in stops), "the skip link leads past the menu"
    if path != PRACTICE:
        assert page.evaluate(MISSED) == []


@pytest.mark.parametrize("size", [WIDE, PHONE], ids=["wide", "phone"])
def test_header_and_menu_and_back_the_same_way(live: Reader, size: Any) -> None:
    live.page.set_viewport_size(size)
    begin(live, PHASE)
    there = walk(live.page)
    assert faults(there) == []
    assert there[0]["who"] == "a.md-skip Skip to content"
    live.page.evaluate("window.reached.at(-1).focus()")
    back = walk(live.page, "Shift+Tab")
    assert faults(back) == []
    assert [one["who"] for one in back] == [one["who"] for one in there][-2::-1]


def test_folds_open_by_keys(live: Reader) -> None:
    page = live.page
    page.set_viewport_size(WIDE)
    begin(live, PHASE)
    fold = page.locator("hd-calculator details").first
    summary = fold.locator("summary")
    inside = "document.activeElement.closest('details') === document.querySelector('hd-calculator details')"
    summary.focus()
    page.keyboard.press("Tab")
    assert not page.evaluate(inside), "what is folded away has no stop"
    for key in ("Enter", "Space"):
        summary.focus()
        page.keyboard.press(key)
        expect(fold).to_have_attribute("open", "")
        page.keyboard.press("Tab")
        assert page.evaluate(inside)
        page.keyboard.press("Shift+Tab")
        expect(summary).to_be_focused()
        page.keyboard.press(key)
        expect(fold).not_to_have_attribute("open", "")


def test_the_code_s_dialog_keeps_the_focus_and_gives_it_back(make_reader: MakeReader) -> None:
    reader = make_reader()
    reader.page.add_init_script("window.handToDiscPublicUrl = 'https://example.org/heads/';")
    reader.open(PHASE)
    page = reader.page
    button = reader.calculator("phase").get_by_role("button", name="QR code")
    button.press("Enter")
    dialog = page.locator("dialog[open]")
    expect(dialog).to_be_visible()
    where = "() => { const a = document.activeElement; return a === document.body ? 'out' : a.closest('dialog') ? 'in' : a.outerHTML; }"
    assert page.evaluate(where) == "in"
    for key in ("Tab", "Shift+Tab"):
        turns = []
        for _ in range(8):
            page.keyboard.press(key)
            turns.append(page.evaluate(where))
        assert set(turns) <= {"in", "out"}, "never on the page beneath"
        assert turns.count("in") >= 3
    page.keyboard.press("Escape")
    expect(dialog).to_have_count(0)
    expect(button).to_be_focused()


def test_the_head_bar_comes_down_and_goes_by_keys(live: Reader) -> None:
    live.page.set_viewport_size(PHONE)
    begin(live, PHASE)
    live.header_button.press("Enter")
    expect(live.head_select).to_be_focused()
    live.page.keyboard.press("Tab")
    expect(live.units_select).to_be_focused()
    live.page.keyboard.press("Escape")
    expect(live.header_button).to_be_focused()
    expect(live.header_button).to_have_attribute("aria-expanded", "false")


def test_the_menu_by_keys_on_a_narrow_screen(live: Reader) -> None:
    """It opens, has the focus, leads into a section and back, closes by Escape and when the focus leaves it."""
    page = live.page
    page.set_viewport_size(PHONE)
    begin(live, "index.html")
    menu, button = page.locator(".md-sidebar--primary"), page.get_by_role("button", name="Menu", exact=True)
    expect(menu).to_be_hidden()
    expect(button).to_have_attribute("aria-expanded", "false")
    in_menu = "document.activeElement.closest('.md-sidebar--primary') !== null"
    for key in ("Enter", "Space"):
        button.press(key)
        expect(button).to_have_attribute("aria-expanded", "true")
        assert page.evaluate(in_menu)
        page.keyboard.press("Escape")
        expect(button).to_be_focused()
        expect(menu).to_be_hidden()
    button.press("Enter")
    opener = menu.get_by_role("button", name="Parts: all pages")
    opener.press("Enter")
    back = menu.get_by_role("button", name="Parts: back")
    expect(back).to_be_focused()
    page.keyboard.press("Tab")
    link = menu.get_by_role("link", name="Stationary ring")
    expect(link).to_be_focused()
    for one, before in ((back, link), (link, back)):
        before.focus()
        box = one.bounding_box()
        assert box is not None
        assert changed(page, one, one.focus) >= box["width"] + box["height"], (
            "the ring is not cut off by the menu's edge"
        )
    expect(menu.get_by_role("link", name="Paper wheel")).to_be_hidden()
    back.press("Enter")
    expect(opener).to_be_focused()
    for _ in range(60):
        page.keyboard.press("Tab")
        if not page.evaluate(in_menu):
            break
    expect(menu).to_be_hidden()
    expect(button).to_have_attribute("aria-expanded", "false")


def test_the_search_by_keys_on_a_narrow_screen(live: Reader) -> None:
    page = live.page
    page.set_viewport_size(PHONE)
    begin(live, "index.html")
    button, query = page.get_by_role("button", name="Search", exact=True), page.locator(".md-search__input")
    button.press("Enter")
    expect(query).to_be_focused()
    page.keyboard.type("swash")
    expect(page.locator(".md-search-result__link").first).to_be_visible()
    page.keyboard.press("Escape")
    expect(button).to_be_focused()
    expect(button).to_have_attribute("aria-expanded", "false")


def test_sections_fold_by_keys_on_a_wide_screen(live: Reader) -> None:
    page = live.page
    page.set_viewport_size(WIDE)
    begin(live, "index.html")
    opener = page.get_by_role("button", name="Parts: all pages")
    link = page.locator(".md-sidebar--primary").get_by_role("link", name="Stationary ring")
    expect(link).to_be_hidden()
    opener.press("Enter")
    expect(opener).to_have_attribute("aria-expanded", "true")
    expect(opener).to_be_focused()
    page.keyboard.press("Tab")
    expect(link).to_be_focused()
