"""What an eye would find wrong with a page, asked of the browser's own boxes: cut off, overlapping, covered, unreachable."""

from __future__ import annotations

from typing import Any

from playwright.sync_api import Page

# Things of no interest: said by a screen reader only, or away.
_COMMON = """
  const hides = (one) => !one.checkVisibility({ visibilityProperty: true, opacityProperty: true });
  const forEarsOnly = (one) => one.closest(".hd-sr, figcaption, .hd-caption, legend.hd-sr") !== null
    && (one.closest("[class]"), true) && (() => {
      for (let at = one; at; at = at.parentElement) {
        const style = getComputedStyle(at);
        if (style.clipPath === "inset(50%)" || (style.position === "absolute" && at.clientWidth <= 1)) return true;
      }
      return false;
    })();
  const name = (one) => `${one.localName}${one.id ? "#" + one.id : ""}.${[...one.classList].slice(0, 3).join(".")}`;
  const scrolls = (one) => /auto|scroll/.test(getComputedStyle(one).overflowX);
  const said = (text) => text.trim().replace(/\\s+/g, " ").slice(0, 40);
"""

# Words that stand outside the window or outside a box that cuts them off, and words that lie over one another.
WORDS = (
    "() => {"
    + _COMMON
    + """
  const found = [];
  const wide = document.documentElement.clientWidth;
  if (document.documentElement.scrollWidth > wide) {
    const out = [...document.body.querySelectorAll("*")].filter((one) => !hides(one) && one.getBoundingClientRect().right > wide + 1
      && ![...function* () { for (let at = one.parentElement; at && at !== document.body; at = at.parentElement) yield at; }()]
        .some((at) => getComputedStyle(at).overflowX !== "visible"));
    found.push(`the page scrolls sideways, ${document.documentElement.scrollWidth} of ${wide}: ${out.slice(-3).map(name).join(", ")}`);
  }
  const lines = [];
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let node = walker.nextNode(); node; node = walker.nextNode()) {
    const host = node.parentElement;
    if (!node.data.trim() || !host || hides(host) || forEarsOnly(host)) continue;
    // The theme's title repeats the heading beneath it, and its own ellipsis says that it is short.
    if (host.closest(".md-header__title, option, script, style, noscript, .hd-print-foot, .md-search, textarea")) continue;
    const range = document.createRange();
    range.selectNodeContents(node);
    const rects = [...range.getClientRects()].filter((one) => one.width > 1 && one.height > 1);
    const drawn = host.closest("svg, math, .hd-solid, .uplot") !== null;
    for (const rect of rects) {
      let inScroller = false;
      for (let at = host; at && at !== document.body; at = at.parentElement) {
        const style = getComputedStyle(at);
        if (style.overflowX !== "visible" && !inScroller) {
          const box = at.getBoundingClientRect();
          if (scrolls(at)) inScroller = true;
          else if (rect.left < box.left - 1.5 || rect.right > box.right + 1.5 || rect.top < box.top - 3 || rect.bottom > box.bottom + 3) {
            found.push(`cut off by ${name(at)}: ${said(node.data)}`);
            break;
          }
        }
      }
      if (!inScroller && (rect.left < -1 || rect.right > wide + 1)) found.push(`beyond the window: ${said(node.data)}`);
      // What is fixed or sticks lies over other words by nature.
      let lies = false;
      for (let at = host; at; at = at.parentElement) lies ||= /fixed|sticky/.test(getComputedStyle(at).position);
      if (!drawn && !lies && !inScroller) lines.push({ rect, node });
    }
  }
  lines.sort((a, b) => a.rect.top - b.rect.top);
  lines.forEach((a, i) => {
    for (let j = i + 1; j < lines.length && lines[j].rect.top < a.rect.bottom; j += 1) {
      const b = lines[j];
      if (a.node === b.node) continue;
      const over = Math.min(a.rect.bottom, b.rect.bottom) - b.rect.top;
      const beside = Math.min(a.rect.right, b.rect.right) - Math.max(a.rect.left, b.rect.left);
      if (over > 0.35 * Math.min(a.rect.height, b.rect.height) && beside > 3) {
        found.push(`over one another: ${said(a.node.data)} | ${said(b.node.data)}`);
      }
    }
  });
  // Controls, too, keep off each other.
  const controls = [...document.querySelectorAll("button, input:not([type=range]), select, textarea, summary")]
    .filter((one) => !hides(one) && !one.closest(".md-header, .md-search, .hd-solid, [style*='position: fixed']") && one.getBoundingClientRect().height > 1);
  controls.forEach((a, i) => controls.slice(i + 1).forEach((b) => {
    const [p, q] = [a.getBoundingClientRect(), b.getBoundingClientRect()];
    const fixed = [a, b].some((one) => { for (let at = one; at; at = at.parentElement) if (/fixed|sticky/.test(getComputedStyle(at).position)) return true; return false; });
    if (fixed || a.contains(b) || b.contains(a)) return;
    if (Math.min(p.bottom, q.bottom) - Math.max(p.top, q.top) > 2 && Math.min(p.right, q.right) - Math.max(p.left, q.left) > 2) {
      found.push(`controls over one another: ${name(a)} ${said(a.textContent)} | ${name(b)} ${said(b.textContent)}`);
    }
  }));
  return [...new Set(found)].slice(0, 12);
}"""
)

# How much of the window's height is taken by what stays while the page scrolls, at its worst; where, and by what.
TAKEN = """async () => {
  const high = innerHeight;
  let worst = { part: 0, by: "" };
  const kept = (one) => {
    for (let at = one; at && at !== document.body; at = at.parentElement) {
      const style = getComputedStyle(at);
      if (style.position === "fixed") return at;
      if (style.position === "sticky" && style.top !== "auto" && Math.abs(at.getBoundingClientRect().top - parseFloat(style.top)) < 1) return at;
    }
    return null;
  };
  for (let y = 0; y < document.documentElement.scrollHeight; y += high) {
    window.scrollTo({ top: y, behavior: "instant" });
    for (const x of [0.2, 0.6]) {
      let taken = 0;
      const by = new Set();
      for (let at = 6; at < high; at += 12) {
        const who = kept(document.elementFromPoint(x * innerWidth, at));
        if (who) { taken += 12; by.add(who.className || who.localName); }
      }
      if (taken / high > worst.part) worst = { part: taken / high, by: [...by].join(", "), y };
    }
  }
  window.scrollTo({ top: 0, behavior: "instant" });
  return worst;
}"""

# Every control gets the focus, from the last to the first, so that each comes into view from above, where things stay: is its
# middle there, or does something lie over it?
COVERED = (
    "() => {"
    + _COMMON
    + """
  const all = [...document.querySelectorAll("a[href], button, input, select, textarea, summary, [tabindex='0']")]
    .filter((one) => !one.disabled && one.tabIndex >= 0 && !hides(one) && !one.closest(".md-header, .md-skip") && !one.classList.contains("md-skip"));
  const found = [];
  // A form of two hundred fields is the same row again and again: every third of them is enough.
  for (const one of all.reverse().filter((_, i) => all.length < 90 || i % 3 === 0)) {
    one.focus();
    if (document.activeElement !== one) continue;
    const box = one.getClientRects()[0];
    if (!box || box.width < 2) continue;
    const [top, bottom] = [Math.max(0, box.top), Math.min(innerHeight, box.bottom)];
    const [left, right] = [Math.max(0, box.left), Math.min(innerWidth, box.right)];
    if (bottom <= top || right <= left) { found.push(`out of view: ${name(one)} ${said(one.textContent)}`); continue; }
    const at = document.elementFromPoint((left + right) / 2, (top + bottom) / 2);
    if (at && !one.contains(at) && !at.contains(one)) found.push(`${name(one)} ${said(one.textContent)} lies under ${name(at)}`);
  }
  document.activeElement.blur();
  window.scrollTo({ top: 0, behavior: "instant" });
  return [...new Set(found)].slice(0, 12);
}"""
)

# Boxes with more in them than they show, that the Tab key doesn't reach.
UNREACHED = (
    "() => {"
    + _COMMON
    + """
  return [...document.querySelectorAll("body *")].filter((one) => scrolls(one) && !hides(one) && one.scrollWidth > one.clientWidth + 1
      && !one.closest(".md-header, .md-sidebar, .md-search") && !/input|textarea|select/.test(one.localName)
      && one.tabIndex < 0 && ![...one.querySelectorAll("a[href], button, input, select, summary, [tabindex='0']")].some((inside) => !hides(inside)))
    .map((one) => `${name(one)} ${said(one.textContent)}`).slice(0, 8);
}"""
)


def ask(page: Page, script: str) -> Any:
    """What one of these scripts finds on a page."""
    return page.evaluate(script)
