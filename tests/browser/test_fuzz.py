"""A thousand wild inputs, links and files (ten thousand with --long): no error nobody caught, no NaN, nothing entered is lost.

The cases come from a seed, so that a failure can be had again; the number of the case stands in the message.
"""

from __future__ import annotations

import json
import random
from collections.abc import Iterator
from typing import Any

import pytest
from rotorhead.head import DEMONSTRATION, demonstration, to_dict

from . import oracle, wild
from .conftest import MakeReader
from .reader import Reader

PHASE = oracle.PAGE_OF["phase"]
SEED = 20261127
# What no page may ever show where figures stand, whatever was entered.
BROKEN = r"\b(NaN|nan|undefined|Infinity|inf|null|None|Traceback|object Object)\b"
SETTLED = """(one) => new Promise((resolve) => {
  const look = (turns) => {
    const { state } = one.dataset;
    if (turns > 3 && state !== "stale" && state !== "starting") resolve(state);
    else setTimeout(() => look(turns + 1), 2);
  };
  look(0);
})"""
ENTERED = f"""async ([name, cases, broken]) => {{
  const one = document.querySelector(`hd-calculator[name="${{name}}"]`);
  const settled = {SETTLED};
  const bad = [];
  for (const [number, field, text] of cases) {{
    const box = one.querySelector(`[data-field="${{field}}"] input.hd-text`);
    box.value = text;
    box.dispatchEvent(new Event("input", {{ bubbles: true }}));
    box.dispatchEvent(new Event("change", {{ bubbles: true }}));
    const state = await settled(one);
    const parts = [...one.querySelectorAll("[data-part]")].map((part) => part.textContent).join(" ");
    if (!["live", "refused"].includes(state)) bad.push([number, field, text, state]);
    if (box.value !== text) bad.push([number, field, text, `lost: ${{box.value}}`]);
    if (new RegExp(broken).test(parts)) bad.push([number, field, text, parts.match(new RegExp(broken))[0]]);
    // Said under the field, or in the head bar where the figure at fault has no field here.
    const told = one.querySelector(".hd-fault:not([hidden])") || document.querySelector("hd-head .hd-notes").textContent;
    if (state === "refused" && !told) bad.push([number, field, text, "refused without a word"]);
    // The next case starts from a sound form.
    one.querySelectorAll(".hd-field-reset:not([hidden])").forEach((reset) => reset.click());
    await settled(one);
  }}
  return bad;
}}"""
FOLLOWED = f"""async ([name, cases, broken]) => {{
  const settled = {SETTLED};
  const one = document.querySelector(`hd-calculator[name="${{name}}"]`);
  const title = document.title;
  const bad = [];
  for (const [number, fragment] of cases) {{
    location.hash = fragment;
    await new Promise((resolve) => setTimeout(resolve, 0));
    const state = await settled(one);
    const parts = [...one.querySelectorAll("[data-part]")].map((part) => part.textContent).join(" ");
    if (state === "unavailable") bad.push([number, fragment, state]);
    if (new RegExp(broken).test(parts)) bad.push([number, fragment, parts.match(new RegExp(broken))[0]]);
    if (document.querySelector("img[src='x'], svg[onload]") || document.title !== title) bad.push([number, fragment, "script"]);
  }}
  return bad;
}}"""
HANDED = """async ([selector, status, cases, type]) => {
  const bad = [];
  for (const [number, text] of cases) {
    const box = document.querySelector(selector);
    const said = document.querySelector(status);
    said.textContent = "";
    const files = new DataTransfer();
    files.items.add(new File([text], `case ${number} <img src=x>.${type}`, { type: "text/plain" }));
    box.files = files.files;
    box.dispatchEvent(new Event("change", { bubbles: true }));
    for (let i = 0; i < 2000 && said.textContent === ""; i += 1) await new Promise((resolve) => setTimeout(resolve, 2));
    if (said.textContent === "") bad.push([number, text.slice(0, 200), "nothing was said"]);
    if (/Traceback|undefined|\\bNaN\\b|object Object/.test(said.textContent.replace(/“[^”]*”/g, ""))) bad.push([number, said.textContent]);
    if (document.querySelector("img[src='x']")) bad.push([number, "script"]);
  }
  return bad;
}"""


@pytest.fixture
def many(long: bool) -> int:
    return 10 if long else 1


@pytest.fixture
def awake(make_reader: MakeReader) -> Reader:
    reader = make_reader()
    reader.page.set_default_timeout(600_000)
    return reader


def _batches(cases: list[Any], size: int = 50) -> Iterator[list[Any]]:
    for start in range(0, len(cases), size):
        yield cases[start : start + size]


@pytest.mark.parametrize("name", ["phase", "boost", "reach", "scissors"])
def test_wild_entries(awake: Reader, name: str, many: int) -> None:
    chance = random.Random(f"{SEED} {name}")
    awake.open(oracle.PAGE_OF[name])
    awake.touch(name)
    awake.state(name, "live")
    fields = [key for key, field in awake.form(name).items() if field["slider"]]
    cases = [(number, chance.choice(fields), wild.line(chance)) for number in range(70 * many)]
    for some in _batches(cases):
        assert awake.page.evaluate(ENTERED, [name, some, BROKEN]) == []
    awake.page.evaluate(f"location.hash = '#{name}&head=alder3'")
    awake.shows(name, oracle.run(name))


def test_wild_links(awake: Reader, many: int) -> None:
    chance = random.Random(SEED)
    awake.open(PHASE)
    awake.touch("phase")
    awake.state("phase", "live")
    fields = list(awake.form("phase"))
    cases = [(number, wild.fragment(chance, "phase", fields)) for number in range(420 * many)]
    for some in _batches(cases):
        assert awake.page.evaluate(FOLLOWED, ["phase", some, BROKEN]) == []
    awake.page.evaluate("location.hash = '#phase&head=alder3'")
    awake.shows("phase", oracle.run("phase"))


def test_wild_head_files(awake: Reader, many: int) -> None:
    chance = random.Random(SEED + 1)
    awake.open("own/describe.html")
    sound = [to_dict(demonstration(base)) for base in DEMONSTRATION]
    cases = [(number, wild.head_file(chance, chance.choice(sound))) for number in range(220 * many)]
    kept = "JSON.parse(localStorage.getItem('hand-to-disc-heads') ?? '[]').length"
    before = 0
    for some in _batches(cases):
        assert awake.page.evaluate(HANDED, ["#hd-own-file", ".hd-own .hd-own-status", some, "json"]) == []
        now = awake.page.evaluate(kept)
        assert now >= before, "a head that was kept is gone"
        before = now
    # A sound one is read as ever.
    text = json.dumps(sound[0])
    assert awake.page.evaluate(HANDED, ["#hd-own-file", ".hd-own .hd-own-status", [[0, text]], "json"]) == []
    assert "has been read" in awake.page.locator(".hd-own .hd-own-status").inner_text()


def test_wild_tables_of_readings(awake: Reader, many: int) -> None:
    chance = random.Random(SEED + 2)
    awake.open("own/inclinometer.html")
    cases = [(number, wild.table(chance)) for number in range(80 * many)]
    for some in _batches(cases):
        assert awake.page.evaluate(HANDED, ["#hd-csv-file", ".hd-readings .hd-own-status", some, "csv"]) == []
    parts = " ".join(awake.parts("worksheet").values())
    assert "NaN" not in parts
    assert awake.calculator("worksheet").get_attribute("data-state") in ("live", "refused", "stale")
