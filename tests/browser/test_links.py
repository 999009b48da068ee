"""Links: what is set on a page travels in the address; what a link gets wrong is named, left out and does no harm."""

from __future__ import annotations

import re
from urllib.parse import quote

import pytest
from playwright.sync_api import expect

from . import oracle
from .conftest import MakeReader
from .reader import Reader, eventually

PHASE = oracle.PAGE_OF["phase"]
# What a link leads to: the head, its changed figures, the calculator's inputs.
Shown = tuple[str, dict[str, str], dict[str, str]]
DEFAULT: Shown = ("alder3", {}, {})


def test_a_copied_link_opens_to_the_same_figures_elsewhere(make_reader: MakeReader) -> None:
    first = make_reader(permissions=["clipboard-read", "clipboard-write"])
    first.open(PHASE)
    first.pick_head("dogwood5")
    first.turn_button.click()
    first.enter("phase", "turn_rods", "\N{MINUS SIGN}7,5")
    first.enter("phase", "head.blade_mass_kg", "61")
    changes, inputs = {"blade_mass_kg": "61"}, {"turn_rods": "\N{MINUS SIGN}7,5"}
    answer = oracle.run("phase", "dogwood5", True, inputs=inputs, changes=changes)
    first.shows("phase", answer)
    copy = first.calculator("phase").get_by_role("button", name="Copy link")
    copy.click()
    expect(first.calculator("phase").get_by_role("button", name="Link copied")).to_be_visible()
    link = str(first.page.evaluate("navigator.clipboard.readText()"))
    assert link == first.page.url, "the address says the same as the copied link"

    second = make_reader()
    second.page.goto(link)
    second.shows("phase", answer)
    second.shows_text_of(oracle.values("dogwood5", True, changes=changes))
    assert second.form("phase") == first.form("phase")
    expect(second.header_button).to_have_text(first.header_button.inner_text())


def test_where_copying_is_refused_the_address_can_be_taken_by_hand(reader: Reader) -> None:
    reader.page.add_init_script("navigator.clipboard.writeText = () => Promise.reject(new Error('refused'))")
    reader.open(PHASE, "#phase&head=cedar4")
    reader.shows("phase", oracle.run("phase", "cedar4"))
    reader.calculator("phase").get_by_role("button", name="Copy link").click()
    dialog = reader.page.get_by_role("dialog", name="Copy the link")
    expect(dialog.get_by_role("textbox")).to_have_value(reader.page.url)
    reader.page.keyboard.press("Escape")
    expect(dialog).to_have_count(0)


def test_an_address_says_only_what_differs_and_leaves_no_trail(reader: Reader) -> None:
    reader.open(PHASE)
    before = reader.page.evaluate("history.length")
    for _ in range(5):
        reader.slider("phase", "turn_rods").press("ArrowRight")
    reader.shows("phase", oracle.run("phase", inputs={"turn_rods": "5"}))
    expect(reader.page).to_have_url(re.compile(r"control-phase\.html#phase&head=alder3&turn_rods=5$"))
    assert reader.page.evaluate("history.length") == before, "a slider must not fill the way back"


def test_the_way_back_leads_through_followed_links(live: Reader) -> None:
    _start(live)
    live.page.evaluate("location.hash = '#phase&head=cedar4&turn_rods=9'")
    live.shows("phase", oracle.run("phase", "cedar4", inputs={"turn_rods": "9"}))
    live.page.evaluate("location.hash = '#phase&head=birch2&mirrored=1'")
    live.shows("phase", oracle.run("phase", "birch2", True))
    live.page.go_back()
    live.shows("phase", oracle.run("phase", "cedar4", inputs={"turn_rods": "9"}))
    live.shows_text_of(oracle.values("cedar4"))
    live.page.go_forward()
    live.shows("phase", oracle.run("phase", "birch2", True))


def test_back_from_another_page_the_figures_are_there_again(reader: Reader) -> None:
    reader.open(PHASE, "#phase&head=cedar4&turn_rods=9")
    answer = oracle.run("phase", "cedar4", inputs={"turn_rods": "9"})
    reader.shows("phase", answer)
    reader.open("parts/rods.html")
    reader.page.go_back()
    reader.shows("phase", answer)
    expect(reader.text_box("phase", "turn_rods")).to_have_value("9")


def test_ordinary_anchors_are_left_alone(reader: Reader) -> None:
    reader.open(PHASE, "#work-it-out")
    expect(reader.page.locator("#work-it-out")).to_be_in_viewport()
    anchor = reader.page.locator("h2[id] .headerlink").last
    target = str(anchor.get_attribute("href"))
    anchor.click()
    expect(reader.page).to_have_url(re.compile(re.escape(target) + "$"))
    expect(reader.page.locator(f'[id="{target[1:]}"]')).to_be_in_viewport()
    reader.state("phase", "printed")
    expect(reader.notes).to_have_text("")
    assert not reader.watch.runtime


# --- links that are wrong: fragment, a word of the sentence, and what is shown then (head, changes, inputs)

QUIET = [  # nothing to compute: Python stays where it is
    pytest.param("#phase&head=zebra9", "no head called “zebra9”", DEFAULT, id="unknown head"),
    pytest.param("#wobble&head=cedar4", "no calculator called “wobble”", ("cedar4", {}, {}), id="unknown calculator"),
    pytest.param("#&turn_rods=5", "names no calculator", DEFAULT, id="no calculator"),
    pytest.param("#phase&head=%E0%A4%A", "could not be read", DEFAULT, id="broken percent encoding"),
    pytest.param("#%E0%A4%A&head=cedar4", "could not be read", ("cedar4", {}, {}), id="broken name"),
    pytest.param("#phase&turn_rods", "“turn_rods” could not be read", DEFAULT, id="no equals sign"),
    pytest.param(
        "#phase&head=cedar4&mirrored=7&units=cubits", "cubits", ("cedar4", {}, {}), id="unknown way and units"
    ),
    pytest.param(f"#phase&turn_rods={'1' * 5000}", "characters", DEFAULT, id="5000 characters"),
    pytest.param("#phase&wobble=3", "“wobble”", DEFAULT, id="unknown field"),
    pytest.param("#phase&__proto__=3&constructor=4", "“__proto__”", DEFAULT, id="names of every object"),
    pytest.param("#phase&&&", "", DEFAULT, id="nothing"),
]
COMPUTED = [
    pytest.param("#phase&turn_rods=abc&told_offset=30", "“abc” is not a number", ("alder3", {}, {"told_offset": "30"}), id="abc"),
    pytest.param("#phase&turn_rods=1e9", "outside what is allowed", DEFAULT, id="1e9"),
    pytest.param("#phase&turn_rods=&head=cedar4", "empty", ("cedar4", {}, {}), id="empty"),
    pytest.param("#phase&turn_rods=%E2%88%9E", "∞", DEFAULT, id="infinity"),
    pytest.param("#phase&turn_rods=NaN", "“NaN” is not a number", DEFAULT, id="NaN"),
    pytest.param("#phase&told_side=up", "“up” must be one of", DEFAULT, id="unknown choice"),
    pytest.param("#phase&head.rpm=abc", "“abc” is not a number", DEFAULT, id="head figure abc"),
    pytest.param("#phase&head.rpm=1e9&head.blade_mass_kg=40", "Rotor speed", ("alder3", {"blade_mass_kg": "40"}, {}), id="head figure 1e9"),
    pytest.param("#phase&head.wobble=3&head=cedar4", "“wobble”", ("cedar4", {}, {}), id="unknown head figure"),
    pytest.param("#phase&head.__proto__=3", "__proto__", DEFAULT, id="head figure __proto__"),
    pytest.param("#phase&head.link_mm=30", "30 mm", DEFAULT, id="head that does not go together"),
    pytest.param("#phase&turn_rods=abc&head.rpm=abc", "Rotor speed", DEFAULT, id="two at once"),
]  # fmt: skip


def _said(reader: Reader) -> str:
    """All that the page says in answer to a link."""
    return f"{reader.notes.inner_text()} {reader.status('phase').inner_text()}"


def _expect_sentence_and_figures(reader: Reader, sentence: str, shown: Shown) -> None:
    base, changes, inputs = shown
    reader.shows("phase", oracle.run("phase", base, changes=changes, inputs=inputs))
    reader.shows_text_of(oracle.values(base, changes=changes))
    eventually(lambda: sentence in _said(reader), True, reader.page)
    for field in reader.form("phase"):
        expect(reader.box("phase", field).locator(".hd-fault")).to_have_text("")


@pytest.mark.parametrize(("fragment", "sentence", "shown"), QUIET)
def test_a_link_that_cannot_be_read_is_named(reader: Reader, fragment: str, sentence: str, shown: Shown) -> None:
    reader.open(PHASE, fragment)
    _expect_sentence_and_figures(reader, sentence, shown)
    reader.state("phase", "printed")
    assert not reader.watch.runtime


def test_a_link_with_a_wrong_value_is_named_when_the_page_starts_with_it(reader: Reader) -> None:
    reader.open(PHASE, "#phase&turn_rods=abc&head.rpm=abc&told_offset=30&head.blade_mass_kg=40")
    _expect_sentence_and_figures(
        reader, "“abc” is not a number", ("alder3", {"blade_mass_kg": "40"}, {"told_offset": "30"})
    )


def _start(live: Reader) -> None:
    if PHASE not in live.page.url:
        live.open(PHASE, "#phase&turn_rods=3")
    live.page.evaluate("location.hash = '#phase&head=alder3&turn_rods=3'")
    live.shows("phase", oracle.run("phase", inputs={"turn_rods": "3"}))


@pytest.mark.parametrize(("fragment", "sentence", "shown"), COMPUTED)
def test_a_wrong_value_in_a_link_is_named_and_left_out(
    live: Reader, fragment: str, sentence: str, shown: Shown
) -> None:
    _start(live)
    live.page.evaluate("hash => { location.hash = hash; }", fragment)
    _expect_sentence_and_figures(live, sentence, shown)
    live.state("phase", "live")
    # The page works on.
    live.enter("phase", "turn_rods", "4")
    live.shows("phase", oracle.run("phase", shown[0], changes=shown[1], inputs={**shown[2], "turn_rods": "4"}))


def test_a_link_followed_while_an_answer_comes_in_is_still_followed(live: Reader) -> None:
    """An answer writes the address of what it answers; it may do so between a link's click and the page's hearing of it."""
    _start(live)
    live.page.evaluate(
        """() => { const before = location.href; location.hash = "#phase&head=cedar4&turn_rods=7";
        history.replaceState(null, "", before); }"""
    )
    live.shows("phase", oracle.run("phase", "cedar4", inputs={"turn_rods": "7"}))


SCRIPT = '<img src=x onerror="document.title=1"><script>document.title=2</script>'


@pytest.mark.parametrize(
    "fragment",
    [
        f"#phase&turn_rods={quote(SCRIPT)}",
        f"#phase&head={quote(SCRIPT)}",
        f"#{quote(SCRIPT)}&head=alder3",
        f"#phase&{quote(SCRIPT)}=1",
        f"#phase&head.rpm={quote(SCRIPT)}",
        f"#phase&head.{quote(SCRIPT)}=1",
        f"#phase&told_side={quote(SCRIPT)}",
        f"#phase&{SCRIPT}",
    ],
    ids=["value", "head", "calculator", "field", "head value", "head figure", "choice", "as it is"],
)
def test_script_in_a_link_stays_text(live: Reader, fragment: str) -> None:
    _start(live)
    title = live.page.title()
    live.page.evaluate("hash => { location.hash = hash; }", fragment)
    eventually(lambda: "<img" in _said(live), True, live.page)
    live.state("phase", "live")
    assert live.page.locator("img[src=x]").count() == 0
    assert live.page.title() == title


def test_script_typed_into_a_box_stays_text(live: Reader) -> None:
    _start(live)
    live.enter("phase", "turn_rods", SCRIPT)
    live.state("phase", "refused")
    expect(live.box("phase", "turn_rods").locator(".hd-fault")).to_contain_text("<img src=x")
    assert live.page.locator("img[src=x]").count() == 0
