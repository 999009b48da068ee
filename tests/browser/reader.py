"""A reader at a page: what they open, touch and see. Waits for what is shown, never for a time."""

from __future__ import annotations

import time
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from playwright.sync_api import Locator, Page, expect

from .watch import Watch

PATIENCE = 15.0

# A text of HTML as this browser would write it again: what innerHTML gives is compared with that. Of a chart, and of a
# field over the disc, only its data count: it is a printed plot until its calculator is live, and is drawn by a library then.
_REWRITE = """html => {
  const holder = document.implementation.createHTMLDocument("").createElement("div");
  holder.innerHTML = html;
  for (const drawn of holder.querySelectorAll("hd-chart, hd-field")) {
    const only = holder.ownerDocument.createElement(drawn.localName);
    Object.assign(only.dataset, { ...drawn.dataset });
    drawn.replaceWith(only);
  }
  return holder.innerHTML;
}"""
REWRITTEN = f"entries => Object.fromEntries(Object.entries(entries).map(([name, html]) => [name, ({_REWRITE})(html)]))"
PARTS = f"""one => Object.fromEntries(
  [...one.querySelectorAll("[data-part]")].map((part) => [part.dataset.part, ({_REWRITE})(part.innerHTML)]))"""

FORM = """form => Object.fromEntries([...form.querySelectorAll("[data-field]")]
  .filter(box => !box.hidden)
  .map(box => {
    const [slider, text, choice] = ["input.hd-slider", ".hd-text", "select.hd-choice"].map(s => box.querySelector(s));
    return [box.dataset.field, {
      text: (text ?? choice).value,
      slider: slider && [slider.min, slider.max, slider.step, slider.value].map(Number),
      unit: box.querySelector(".hd-unit")?.textContent ?? null,
      changed: !(box.querySelector(".hd-field-reset")?.hidden ?? true),
    }];
  }))"""


def eventually(see: Callable[[], Any], wanted: Any, page: Page) -> None:
    """Wait until what is seen is what is wanted; at the end say how it differs."""
    end = time.monotonic() + PATIENCE
    while see() != wanted and time.monotonic() < end:
        page.wait_for_timeout(50)
    seen = see()
    if isinstance(seen, dict) and isinstance(wanted, dict) and seen.keys() == wanted.keys():
        # Only what differs: whole drawings side by side tell nobody anything.
        seen, wanted = ({k: v for k, v in one.items() if seen[k] != wanted[k]} for one in (seen, dict(wanted)))
    assert seen == wanted


@dataclass
class Reader:
    """One page of the site in one browser context."""

    page: Page
    watch: Watch
    address: str

    def open(self, path: str, fragment: str = "") -> None:
        """Go to a page of the site and wait until its scripts have run."""
        # Chromium's own word about drawing in three dimensions without a graphics card.
        self.watch.allow("GL Driver Message .*GPU stall due to ReadPixels")
        self.page.goto(f"{self.address}{path}{fragment}", wait_until="load")

    # --- calculators

    def calculator(self, name: str) -> Locator:
        return self.page.locator(f'hd-calculator[name="{name}"]')

    def calculators(self) -> list[str]:
        """Names of the calculators on this page."""
        found: list[str] = self.page.locator("hd-calculator").evaluate_all(
            "all => all.map(one => one.getAttribute('name'))"
        )
        return found

    def box(self, calculator: str, field: str) -> Locator:
        """Everything around one field."""
        return self.calculator(calculator).locator(f'[data-field="{field}"]')

    def text_box(self, calculator: str, field: str) -> Locator:
        return self.box(calculator, field).locator("input.hd-text")

    def slider(self, calculator: str, field: str) -> Locator:
        return self.box(calculator, field).locator("input.hd-slider")

    def state(self, calculator: str, state: str) -> None:
        """Wait for a state of a calculator."""
        expect(self.calculator(calculator)).to_have_attribute("data-state", state)

    def status(self, calculator: str) -> Locator:
        """The spoken line."""
        return self.calculator(calculator).locator(".hd-status")

    def unfold(self, calculator: str, field: str) -> None:
        """Open the fold that a field is in, if it is in one."""
        self.box(calculator, field).evaluate("box => box.closest('details')?.setAttribute('open', '')")

    def enter(self, calculator: str, field: str, text: str) -> None:
        """Type into a field's text box and confirm."""
        self.unfold(calculator, field)
        box = self.text_box(calculator, field)
        box.fill(text)
        box.press("Enter")

    def parts(self, calculator: str) -> dict[str, str]:
        """The answer as it stands: part -> HTML."""
        found: dict[str, str] = self.calculator(calculator).evaluate(PARTS)
        return found

    def form(self, calculator: str) -> dict[str, Any]:
        """The fields that are shown, with what stands in them."""
        found: dict[str, Any] = self.calculator(calculator).locator("form").evaluate(FORM)
        return found

    def touch(self, calculator: str) -> None:
        """Move a control and set it back, by keys; where no figure stands on a slider's step, only touch a text box."""
        form = self.form(calculator)
        on_step = [name for name, f in form.items() if f["slider"] and float(f["text"]) == f["slider"][3]]
        own = [name for name in on_step if not name.startswith("head.")]
        if own:
            self.unfold(calculator, own[0])
            slider = self.slider(calculator, own[0])
            slider.press("ArrowRight")
            slider.press("ArrowLeft")
        else:
            # A key that changes nothing: in a list of readings Enter would.
            self.calculator(calculator).locator("form :is(.hd-text, select):visible").first.press("F2")

    def shows(self, calculator: str, answer: Mapping[str, Any]) -> None:
        """Wait until a calculator shows exactly this answer of the door."""
        wanted = self.rewritten(answer["parts"])
        eventually(lambda: self.parts(calculator), wanted, self.page)

    # --- the head and the running text

    @property
    def head_select(self) -> Locator:
        return self.page.get_by_role("combobox", name="Head", exact=True)

    @property
    def units_select(self) -> Locator:
        return self.page.get_by_role("combobox", name="Units", exact=True)

    def pick_head(self, base: str) -> None:
        self.head_select.focus()  # as a hand or the Tab key would; selecting alone leaves the focus elsewhere
        self.head_select.select_option(base)

    def pick_units(self, units: str) -> None:
        self.units_select.focus()
        self.units_select.select_option(units)

    @property
    def turn_button(self) -> Locator:
        return self.page.get_by_role("button", name="Turn it the other way")

    @property
    def reset_button(self) -> Locator:
        return self.page.locator("hd-head .hd-reset")

    @property
    def header_button(self) -> Locator:
        """The head's name in the header of every page."""
        return self.page.locator(".md-header .hd-header-button")

    @property
    def notes(self) -> Locator:
        """Sentences in the head bar."""
        return self.page.locator("hd-head .hd-notes")

    def values(self) -> dict[str, str]:
        """The numbers and words of the running text: name -> HTML."""
        return self._named("hd-value[of]", "of")

    def figures(self) -> dict[str, str]:
        """The drawings of the running text: name -> HTML."""
        return self._named("hd-figure[name]", "name")

    def _named(self, selector: str, attribute: str) -> dict[str, str]:
        pairs: list[list[str]] = self.page.locator(selector).evaluate_all(
            f"all => all.map(one => [one.getAttribute('{attribute}'), one.innerHTML])"
        )
        found: dict[str, str] = {}
        for name, html in pairs:
            assert found.setdefault(name, html) == html, f"two places show different {name}"
        return found

    def rewritten(self, entries: Mapping[str, str]) -> dict[str, str]:
        """HTML texts as this browser writes them."""
        found: dict[str, str] = self.page.evaluate(REWRITTEN, dict(entries))
        return found

    def shows_text_of(self, answer: Mapping[str, Any]) -> None:
        """Wait until every value and drawing in the running text is that of this answer of the door."""
        # An address changes before the page behind it is there: which values it has is known only then.
        self.page.wait_for_load_state("domcontentloaded")
        for see, all_of_them in ((self.values, answer["values"]), (self.figures, answer["figures"])):
            wanted = self.rewritten({name: all_of_them[name] for name in see()})
            eventually(see, wanted, self.page)
