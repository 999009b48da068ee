"""How far answers spread when figures of a head are only known between two values: against runs with each end typed in."""

import math
import re
from html import escape, unescape
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from rotorhead.head import DEMONSTRATION, demonstration
from rotorhead.head_changes import changed
from rotorhead.head_typical import typical
from rotorhead.mechanism.assembly import assembled
from rotorhead.spread import Spread, spread_of
from rotorhead.topics import ALL

from .own_requests import ask, head, keep, own

FEW = settings(max_examples=25, deadline=None, database=None, derandomize=True)


def spread(calculator: str, base: str = "alder3", **changes: str) -> Spread:
    """The spread of a calculator's answers on a working copy, its inputs left as they are."""
    made = assembled(changed(demonstration(base), {k.replace("__", "."): v for k, v in changes.items()})).head
    found = spread_of(ALL[calculator], {}, made, "metric")
    assert found is not None
    return found


def numbers(calculator: str, base: str = "alder3", **changes: str) -> dict[str, float]:
    """Numeric results through the door, in metric units, by name."""
    reply = ask("run", calculator=calculator, head=head(base, False, **changes))
    assert reply["state"] == "result", reply
    return {r["name"]: r["value"] for r in reply["results"] if isinstance(r["value"], float | int)}


def shown(calculator: str, **request: Any) -> dict[str, str]:
    """Ranges as they stand beside the answers, by the answers' labels."""
    html = ask("run", calculator=calculator, **request)["parts"]["results"]
    found = re.findall(r"<dt>(.*?)</dt><dd>(.*?)</dd>", html)
    return {unescape(a): unescape(b).partition('"hd-spread">')[2].removesuffix("</span>") for a, b in found}


def metric(calculator: str, found: Spread) -> dict[str, tuple[float, float]]:
    """A spread in degrees and millimetres, as the door gives results."""
    scale = {"angle": 180 / math.pi, "pitch_per_travel": 180 / math.pi / 1000, "ratio": 1.0, "small_length": 1000.0}
    by = {r.name: r.quantity for r in ALL[calculator].results}
    return {k: (a * scale[by[k]], b * scale[by[k]]) for k, (a, b) in found.results.items() if by[k] in scale}


CASES = [
    ("describe", "alder3", "link_foot_ahead_mm", 176.0, 184.0), ("describe", "dogwood5", "blade_mass_kg", 40.0, 60.0),
    ("lag", "elder6", "hinge_offset", 0.04, 0.05), ("phase", "cedar4", "mixing_turn_deg", -5.0, 5.0),
    ("describe", "alder3", "arm_mm", 198.0, 202.0),
]  # fmt: skip


@pytest.mark.parametrize(("calculator", "base", "key", "low", "high"), CASES)
def test_one_unknown_spreads_as_far_as_its_ends(calculator: str, base: str, key: str, low: float, high: float) -> None:
    """Least and greatest of the answers at both ends and the middle, each typed in by itself."""
    found = metric(calculator, spread(calculator, base, **{key: f"{low} to {high}"}))
    runs = [numbers(calculator, base, **{key: f"{x:.9g}"}) for x in (low, (low + high) / 2, high)]
    assert found
    for name, (least, most) in found.items():
        values = [r[name] for r in runs]
        assert (least, most) == pytest.approx((min(values), max(values)), rel=1e-6, abs=1e-8), name
    for name in runs[0].keys() - found.keys():
        if name in metric(calculator, Spread({r.name: (0, 0) for r in ALL[calculator].results}, (), ())):
            assert max(r[name] for r in runs) - min(r[name] for r in runs) == pytest.approx(0.0, abs=1e-9), name


def test_lock_number_goes_with_one_over_the_mass() -> None:
    """γ = ρ a c R⁴ / I and I is in proportion to the mass of a uniform blade: any text on rotors (from memory)."""
    mass = demonstration("alder3")["blade_mass_kg"]
    low, high = mass * 0.9, mass * 1.1
    lock = numbers("describe")["lock"]
    found = spread("describe", blade_mass_kg=f"{low:.6f} to {high:.6f}").results["lock"]
    assert found == pytest.approx((lock * mass / high, lock * mass / low), rel=1e-6)


def test_what_does_not_depend_on_it_has_no_range() -> None:
    """Lead is geometry, Lock number the blade: neither knows of the other's figures; friction knows of neither."""
    blade, plan = (
        spread("describe", blade_mass_kg="20 to 30").results,
        spread("describe", link_foot_ahead_mm="176 to 184").results,
    )
    assert "lock" in blade
    assert "lead" not in blade
    assert "lead" in plan
    assert "lock" not in plan
    assert spread("describe", stick_friction_N="5 to 15").results == {}
    beside = shown("describe", head=head(blade_mass_kg="20 to 30"))
    assert re.fullmatch(r"[\d.]+ to [\d.]+", beside["Lock number"])
    assert beside["Lead"] == ""


def test_two_unknowns_add_by_their_squares() -> None:
    """√(a² + b²) of what each does alone, upward and downward by itself."""
    one, two = {"blade_mass_kg": "24 to 30"}, {"hinge_offset": "0.03 to 0.05"}
    middle = numbers("lag", "alder3", blade_mass_kg="27", hinge_offset="0.04")
    up, down = {}, {}
    for name, value in middle.items():
        above, below = [], []
        for changes in (one, two):
            (key, text), = changes.items()  # fmt: skip
            rest = {"blade_mass_kg": "27", "hinge_offset": "0.04"}
            ends = [numbers("lag", "alder3", **(rest | {key: end}))[name] - value for end in text.split(" to ")]
            above.append(max(0.0, *ends))
            below.append(min(0.0, *ends))
        up[name], down[name] = math.hypot(*above), math.hypot(*below)
    found = metric("lag", spread("lag", **one, **two))
    assert "lag" in found
    for name, (least, most) in found.items():
        assert most - middle[name] == pytest.approx(up[name], rel=1e-6, abs=1e-8), name
        assert middle[name] - least == pytest.approx(down[name], rel=1e-6, abs=1e-8), name
    assert found["lag"][1] - found["lag"][0] > 1.05 * (
        metric("lag", spread("lag", **one, hinge_offset="0.04"))["lag"][1] - middle["lag"]
    )


@pytest.mark.parametrize("middle", [155.0, 154.5, 156.0, -25.0, 0.0])
def test_a_swing_past_the_tail_is_no_turn(middle: float) -> None:
    """The mixing unit turns the rods' low point by as much as it says: from 178° to −178° are 4°, not 356°."""
    strokes = {f"rods__{n}__stroke_mm": "800" for n in (1, 2, 3)}
    low, high = metric("phase", spread("phase", mixing_turn_deg=f"{middle - 2} to {middle + 2}", **strokes))["fitted"]
    assert high - low == pytest.approx(4.0, abs=1e-9)
    assert low == pytest.approx(
        numbers("phase", "alder3", mixing_turn_deg=f"{middle}", **strokes)["fitted"] - 2.0, abs=1e-9
    )


def test_ends_that_do_not_go_together_are_named() -> None:
    """The end that can't be tried is told with its figure, in the reader's units; the other end still counts."""
    found = spread("describe", link_mm="60 to 600")
    assert found.failed == ("Pitch-link length at 60\N{NARROW NO-BREAK SPACE}mm",)
    assert found.results
    for units, text in (
        ("metric", "Not possible: Pitch-link length at 60\N{NARROW NO-BREAK SPACE}mm."),
        ("imperial", "\N{NARROW NO-BREAK SPACE}in."),
    ):
        changes = {"link_mm": "60 to 600" if units == "metric" else "2.4 to 24"}
        html = ask("run", calculator="describe", head={"base": "alder3", "changes": changes}, units=units)["parts"][
            "results"
        ]
        assert text in html
        assert html.count("Not possible") == 1


@pytest.mark.parametrize("name", ALL)
def test_every_calculator_bears_unknown_figures(name: str) -> None:
    """Answers at the middle, what isn't known said by its label, each range one that can be read; nothing known, nothing said."""
    reply = ask(
        "run", calculator=name, head=head(arm_mm="198 to 202", blade_mass_kg="25 to 29", mass_kg="2000 to 2100")
    )
    assert reply["state"] == "result"
    results = reply["parts"]["results"]
    told = escape("Horn arm; Blade mass; Aircraft mass") in results
    assert told == (ALL[name].scene is None)
    for low, high in re.findall(r'<span class="hd-spread">(.*?) to (.*?)</span>', results):
        assert re.match(r"−?[\d\s\u202f]*\d", unescape(low)), low
        assert low != high
    assert "hd-not-known" not in ask("run", calculator=name, head=head())["parts"]["results"]
    middle = ask("run", calculator=name, head=head(arm_mm="200", blade_mass_kg="27", mass_kg="2050"))
    if name != "describe":  # it counts what isn't known
        assert reply["results"] == middle["results"]


@FEW
@given(st.data())
def test_guesses_never_break_an_answer(data: st.DataObject) -> None:
    """Up to five guessed figures of any head, any calculator: a range holds its own answer, or the head is refused."""
    base = data.draw(st.sampled_from(DEMONSTRATION))
    keys = [k for k in demonstration(base).keys() if typical(k, demonstration(base))]  # noqa: SIM118 - a head is no mapping
    picked = data.draw(st.lists(st.sampled_from(keys), min_size=1, max_size=5, unique=True))
    changes = {k: str(ask("likely", head=head(base), key=k)["text"]) for k in picked}
    calculator = data.draw(st.sampled_from([n for n in ALL if ALL[n].scene is None]))
    reply = ask("run", calculator=calculator, head={"base": base, "changes": changes})
    assert reply["state"] in ("result", "invalid"), reply
    if reply["state"] == "result":
        made = assembled(changed(demonstration(base), changes)).head
        found = spread_of(ALL[calculator], {}, made, "metric")
        assert found is not None
        assert len(found.unknown) == len(picked)
        assert all(math.isfinite(a) and math.isfinite(b) and a <= b for a, b in found.results.values())


def test_ranges_of_a_kept_head_spread_alike() -> None:
    """A head of one's own with ranges answers as the working copy it was kept from."""
    loose = head(arm_mm="198 to 202", blade_mass_kg="25 to 29")
    one, other = (ask("run", calculator="describe", head=h) for h in (loose, own(keep(loose, "Alder 3"))))
    assert one["parts"]["results"] == other["parts"]["results"]
    assert "2 of its figures are only known" in one["spoken"]
    assert "Figures not known exactly" in one["parts"]["results"]
