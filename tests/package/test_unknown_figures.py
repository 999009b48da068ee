"""Figures that are only known to lie between two values: as they are typed, guessed, carried over, and what the answers make of them."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from rotorhead import units
from rotorhead.head import DEMONSTRATION, Head, demonstration
from rotorhead.head_changes import changed, mirrored, range_parts
from rotorhead.head_figures import BY_KEY, FIGURES, OPTIONS
from rotorhead.head_typical import typical

from .own_requests import ask, head, keep, own, refused

MANY = settings(max_examples=80, deadline=None, database=None, derandomize=True)
HEADS = {i: demonstration(i) for i in DEMONSTRATION}
HEADS |= {f"{i}-turned": mirrored(h) for i, h in list(HEADS.items())}
every_head = pytest.mark.parametrize("drawn", HEADS.values(), ids=HEADS)


# As typed.


@pytest.mark.parametrize(
    ("text", "low", "high"),
    [
        ("150 to 250", 150, 250), ("150 TO 250", 150, 250), ("  150   to  250 ", 150, 250), ("150..250", 150, 250),
        ("150...250", 150, 250), ("150 .. 250", 150, 250), ("150 … 250", 150, 250), ("150…250", 150, 250),
        ("150 - 250", 150, 250), ("150 – 250", 150, 250), ("150 − 250", 150, 250), ("150,5 to 250,25", 150.5, 250.25),
        ("150.5..250.25", 150.5, 250.25), ("-250 to -150", -250, -150), ("−250 … −150", -250, -150),
        ("−250..−150", -250, -150), ("-250 - -150", -250, -150), ("−250 – −150", -250, -150), ("-20 to 900", -20, 900),
        ("1.5e2 to 2.5e2", 150, 250),
    ],
)  # fmt: skip
def test_ways_to_write_a_range(text: str, low: float, high: float) -> None:
    """Words, dots, dashes with spaces round them; commas, points, any minus sign. The middle is used."""
    made = changed(demonstration("alder3"), {"arm_mm": text})
    assert dict(made.unknown) == {"arm_mm": (low, high)}
    assert made["arm_mm"] == (low + high) / 2


@pytest.mark.parametrize(
    "text", ["200", "-200", "−200", "1 000", "", "to", "150 to", "to 250", "150-250", "1 to 2 to 3", "..", "fifty"]
)
def test_what_is_no_range(text: str) -> None:
    """One number, or nothing that could be read; a dash without spaces could be a minus sign."""
    assert range_parts(text) is None
    if text in ("200", "-200", "−200", "1 000"):
        assert changed(demonstration("alder3"), {"arm_mm": text}).unknown == ()
    else:
        assert set(refused(ask("check", head=head(arm_mm=text)))) == {"arm_mm"}


@MANY
@given(st.text(max_size=20), st.sampled_from([" to ", "..", "…", " - "]), st.text(max_size=20))
def test_any_text_beside_a_range_sign(one: str, sign: str, other: str) -> None:
    """A range, or a fault of that field."""
    reply = ask("check", head=head(arm_mm=one + sign + other))
    assert reply["state"] == "result" or set(refused(reply)) <= {
        "arm_mm",
        "link_mm",
        *(f"rods.{n}.stroke_mm" for n in (1, 2, 3)),
    }


@pytest.mark.parametrize(
    ("key", "text", "words"),
    [
        ("arm_mm", "250 to 150", "smaller"), ("arm_mm", "200 to 200", "smaller"), ("arm_mm", "-150 to -250", "smaller"),
        ("arm_mm", "150 to wide", "wide"), ("arm_mm", "wide to 250", "wide"), ("arm_mm", "150 to 5000", "5000"),
        ("arm_mm", "-5000 to 150", "−1000 and 1000"), ("arm_mm", "150 to nan", "nan"), ("arm_mm", "150 to inf", "inf"),
        ("blades", "3 to 4", "whole"), ("actuators", "0 to 3", "whole"), ("rods.count", "3 to 4", "rods"),
        ("type", "teetering to hingeless", "one of"), ("rods.1.stroke_mm", "900 to 1000", "800"), ("rods.4.stroke_mm", "90 to 99", "not a figure"),
    ],
)  # fmt: skip
def test_ranges_that_are_refused(key: str, text: str, words: str) -> None:
    """The wrong way round, beyond the limits, no numbers, and figures that are counted or chosen."""
    found = refused(ask("check", head={"base": "alder3", "changes": {key: text}}))
    assert set(found) == {key}
    assert words in found[key]


def test_ranges_in_inches_and_pounds() -> None:
    """The reader's units: 1 in = 25.4 mm, 1 lb = 0.45359237 kg by definition; limits told in them."""
    made = changed(demonstration("alder3"), {"arm_mm": "7,5 to 8.5", "mass_kg": "4400..4600"}, "imperial")
    assert dict(made.unknown)["arm_mm"] == pytest.approx((190.5, 215.9), abs=1e-9)
    assert dict(made.unknown)["mass_kg"] == pytest.approx((4400 * 0.45359237, 4600 * 0.45359237), rel=1e-9)
    told = refused(ask("check", head=head(arm_mm="7 to 99"), units="imperial"))["arm_mm"]
    assert "99" in told
    assert told.endswith(" in.")


def test_a_single_number_ends_the_range() -> None:
    """Once it is known it is known; other ranges stay, those of rods that are gone go."""
    loose = changed(
        demonstration("alder3"), {"arm_mm": "190 to 210", "rods.3.stroke_mm": "150 to 160", "mass_kg": "2000 to 2100"}
    )
    assert dict(changed(loose, {"arm_mm": "205"}).unknown) == {"rods.3.stroke_mm": (150, 160), "mass_kg": (2000, 2100)}
    four = changed(demonstration("alder3"), {"rods.count": "4", "rods.4.stroke_mm": "150 to 160"})
    assert dict(four.unknown) == {"rods.4.stroke_mm": (150, 160)}
    assert changed(four, {"rods.count": "3"}).unknown == ()


def test_a_range_set_back_is_no_change() -> None:
    """On a head of one's own with a range: the same text is idle, its middle alone is a change."""
    text = keep(head(arm_mm="195 to 205"))
    for typed, listed in (("195 to 205", []), (" 195 to 205 ", []), ("200", ["arm_mm"]), ("195 to 206", ["arm_mm"])):
        reply = ask("run", calculator="pitch", head={**own(text), "changes": {"arm_mm": typed}})
        assert reply["head"]["changed"] == listed, typed
        assert reply["form"]["head.arm_mm"]["text"] == (typed if listed else "195 to 205")
        assert ("hd-not-known" in reply["parts"]["results"]) == (typed != "200")
    inches = ask("run", calculator="pitch", head=own(text), units="imperial")["form"]["head.arm_mm"]["text"]
    assert [float(x) for x in inches.split(" to ")] == pytest.approx([195 / 25.4, 205 / 25.4], abs=0.001)


# Carried over.


def carried(
    op: str, changes: dict[str, str], old: str = "metric", new: str = "metric", base: str = "alder3"
) -> dict[str, str]:
    """Changes after a change of units or of direction."""
    reply = ask(op, **{"from": old, "to": new}, head={"base": base, "changes": changes}, inputs={})
    return dict(reply["head"]["changes"])


@pytest.mark.parametrize("base", DEMONSTRATION)
def test_ranges_go_to_other_units_and_back(base: str) -> None:
    """Every figure's guess: the same range, and the same text when it comes back."""
    drawn = demonstration(base)
    guesses = {f.key: ask("likely", head=head(base), key=f.key)["text"] for f in FIGURES if typical(f.key, drawn)}
    there = carried("reunit", guesses, "metric", "imperial", base)
    for key, text in guesses.items():
        quantity = BY_KEY[key].quantity
        mine = [units.to_si(quantity, float(x), "metric") for x in text.split(" to ")]
        theirs = [units.to_si(quantity, float(x), "imperial") for x in there[key].split(" to ")]
        assert theirs == pytest.approx(mine, rel=0.02, abs=1e-4), key
    back = carried("reunit", there, "imperial", "metric", base)
    for key, text in guesses.items():
        near = 0.6 * 10.0 ** -(BY_KEY[key].decimals + 1)
        assert [float(x) for x in back[key].split(" to ")] == pytest.approx(
            [float(x) for x in text.split(" to ")], abs=near
        ), key
    assert carried("reunit", {"arm_mm": "x to 5"}, "metric", "imperial")["arm_mm"].startswith("x to ")


@MANY
@given(st.integers(0, 359), st.integers(1, 360))
def test_ranges_of_bearings_are_turned(low: int, size: int) -> None:
    """Least becomes greatest, seen in the mirror; twice is as before; 0 and 360 at an end stay ends."""
    high = min(low + size, 360)
    text = f"{low} to {high}"
    changes = {"stationary_scissors_bearing_deg": text, "arm_mm": "150 to 250", "mixing_turn_deg": "0 to 5"}
    once = carried("turn", changes)
    assert once == changes | {"stationary_scissors_bearing_deg": f"{360 - high} to {360 - low}"}
    assert carried("turn", once) == changes
    turned = changed(mirrored(demonstration("alder3")), once)
    assert turned == mirrored(changed(demonstration("alder3"), changes))


# Guessed.


@every_head
def test_a_guess_for_every_figure_that_can_be_guessed(drawn: Head) -> None:
    """Within the hard limits, least before greatest, and the invented head's own figure is in it; whole numbers, bearings
    and choices are looked at, not guessed, and so is the hinge of a teetering head, which stands on the mast's axis."""
    for key in drawn.keys():  # noqa: SIM118 - a head is no mapping
        span = typical(key, drawn)
        declared = BY_KEY.get(key)
        seen = declared is None or declared.whole or key.endswith("bearing_deg")
        if seen or (key == "hinge_offset" and drawn.option("type") == "teetering"):
            assert span is None, key
            continue
        assert span is not None, key
        assert declared is not None
        low, high = span
        assert declared.low <= low < high <= declared.high, key
        assert low <= drawn[key] <= high, key


@every_head
def test_sides_are_known_by_looking(drawn: Head) -> None:
    """A trailing horn stays trailing, a leading one leading; the link's lower end stays on its side of the axis."""
    for key in ("arm_mm", "link_foot_ahead_mm"):
        span = typical(key, drawn)
        assert span is not None
        assert math.copysign(1, span[0]) == math.copysign(1, span[1]) == math.copysign(1, drawn[key]), key


def test_what_cant_be_guessed_is_said() -> None:
    """Choices, counts, bearings, rods that aren't there, and keys that are none."""
    for key in ("blades", "rods.count", "rods.1.bearing_deg", "rods.4.stroke_mm", "rods.6.stroke_mm", "stationary_scissors_bearing_deg",
                "type", "wings", "", "x" * 300):  # fmt: skip
        found = refused(ask("likely", head=head(), key=key))
        assert list(found) == [key]
        assert "no range can be guessed" in found[key]
    assert {o.key for o in OPTIONS}.isdisjoint(BY_KEY)


def test_guesses_can_be_taken_into_the_head() -> None:
    """Typed where they are meant for, each head still goes together. One doesn't: the see-saw's rods stand closer to the
    mast than those of the others, and farther out its strokes are too short; the strokes are named."""
    not_taken = {}
    for base in DEMONSTRATION:
        for key in demonstration(base).keys():  # noqa: SIM118 - a head is no mapping
            if typical(key, demonstration(base)):
                text = ask("likely", head=head(base), key=key)["text"]
                reply = ask("check", head={"base": base, "changes": {key: text}})
                if reply["state"] != "result":
                    not_taken[base, key] = sorted(refused(reply))
    assert not_taken == {("birch2", "rod_radius_mm"): [f"rods.{n}.stroke_mm" for n in (1, 2, 3)]}


def test_guesses_are_told_in_the_readers_units_and_for_the_head_as_changed() -> None:
    """A head twice as large has a chord about twice as wide; what contradicts itself is guessed from what it was made from."""
    plain = [float(x) for x in ask("likely", head=head(), key="chord_m")["text"].split(" to ")]
    inches = [float(x) for x in ask("likely", head=head(), key="arm_mm", units="imperial")["text"].split(" to ")]
    span = typical("arm_mm", demonstration("alder3"))
    assert span is not None
    assert [25.4 * x for x in inches] == pytest.approx(span, abs=0.3)
    twice = f"{2 * demonstration('alder3')['radius_m']}"
    large = [float(x) for x in ask("likely", head=head(radius_m=twice), key="chord_m")["text"].split(" to ")]
    assert large == pytest.approx([2 * x for x in plain], rel=0.01)
    assert (
        ask("likely", head=head(radius_m="far"), key="chord_m")["text"]
        == ask("likely", head=head(), key="chord_m")["text"]
    )
