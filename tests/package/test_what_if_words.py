"""What a reader is told of a part loose, wrong or worn: the right numbers in the right units, a caution, clear refusals."""

import math
import re
from functools import cache

import numpy as np
import pytest
from rotorhead.faults import Refused
from rotorhead.fields import Case, Number
from rotorhead.head import DEMONSTRATION, Head, demonstration, from_dict, to_dict
from rotorhead.head_changes import changed, mirrored
from rotorhead.motion.setting import KINDS, Setting, WhatIf
from rotorhead.motion.turn import Motion, motion_of
from rotorhead.rotor import of_head
from rotorhead.run import run
from rotorhead.topics import ALL
from rotorhead.units import SYSTEMS, System

MOTION = ALL["motion"]
HEADS: dict[str, Head] = {i: demonstration(i) for i in DEMONSTRATION}
HEADS |= {f"{i}-mirrored": mirrored(h) for i, h in list(HEADS.items())}
every_head = pytest.mark.parametrize("name", HEADS)
# The inputs of each kind beside the default hands, in degrees and millimetres, and what the sentence must name.
ASKED: dict[str, tuple[dict[str, str], str]] = {
    "drive_off": ({"behind": "10"}, "rotating ring"),
    "stationary_off": ({"carried": "10"}, "stationary ring"),
    "rod_stopped": ({"rod": "2"}, "Rod 2 "),
    "rod_longer": ({"rod": "3", "rod_more": "3"}, "Rod 3 "),
    "link_longer": ({"blade": "2", "link_more": "1.25"}, "Link 2 "),
    "play_scissors": ({"play": "2"}, "rotating ring"),
    "play_link": ({"blade": "2", "play": "1"}, "blade 2 "),
}
LENGTHS = {"rod_stopped", "rod_longer", "link_longer", "play_scissors", "play_link"}
every_kind = pytest.mark.parametrize("kind", ASKED)


@cache
def case(name: str, kind: str, system: System = "metric") -> Case:
    """The calculator on a head with one thing wrong; lengths typed in the reader's own units."""
    inputs, _ = ASKED.get(kind, ({}, ""))
    typed = {
        k: str(round(float(v) / 25.4, 6)) if system == "imperial" and k in ("rod_more", "link_more", "play") else v
        for k, v in inputs.items()
    }
    return run(MOTION, {"what_if": kind, "lever": "60", **typed}, of_head(HEADS[name]), system)


def said(name: str, kind: str, system: System = "metric") -> str:
    """The sentence."""
    return MOTION.describe(case(name, kind, system))


def numbers(text: str, unit: str) -> list[float]:
    """Numbers with their unit, signs as numbers."""
    found = re.findall(rf"([+\N{{MINUS SIGN}}]?\d+(?:\.\d+)?)\s?{unit}", text)
    return [float(x.replace("\N{MINUS SIGN}", "-")) for x in found]


def test_every_kind_is_asked_here() -> None:
    """A what-if added without its words being read fails here."""
    assert {k for k, _ in KINDS} == ASKED.keys() | {"none"}


@every_kind
@every_head
def test_sentence_names_the_part_and_has_the_readers_units(name: str, kind: str) -> None:
    """Metric and imperial: millimetres or inches, never both; whole sentences; no arithmetic showing through."""
    units: tuple[tuple[System, str, str], ...] = (("metric", "mm", "in"), ("imperial", "in", "mm"))
    for system, own, other in units:
        text = said(name, kind, system)
        assert ASKED[kind][1] in text
        assert bool(re.search(rf"\d\s{own}\b", text)) == (kind in LENGTHS), text
        assert not re.search(rf"\d\s{other}\b", text), text
        assert numbers(text, "°"), text
        assert text[0].isupper()
        assert text.endswith(".")
        assert not re.search(r"\b(nan|inf|None|e-\d+)\b|(?<!\w)-\d|[+\N{MINUS SIGN}]0(\.0+)?(?![\d.])", text), text


@pytest.mark.parametrize("system", SYSTEMS)
@every_kind
@every_head
def test_a_caution_stands_beside_every_what_if_and_no_flight(name: str, kind: str, system: System) -> None:
    """Not turned, not flown; who decides. No disc, no flap, no line of flap in the chart."""
    found = case(name, kind, system)
    caution = str(found.answer.results["caution"])
    for words in ("not turned", "not flown", "maintenance manual", "licensed"):
        assert words in caution
    assert found.result("flap") == 0.0
    assert not {"disc_tilt", "disc_low"} & found.answer.results.keys()
    assert MOTION.chart is not None
    assert len(MOTION.chart(found).lines) == 1


@every_head
def test_no_caution_where_nothing_is_wrong(name: str) -> None:
    """A caution that always stands is not read."""
    found = case(name, "none")
    assert "caution" not in found.answer.results
    assert "disc_tilt" in found.answer.results


@cache
def turned(name: str, what: WhatIf) -> Motion:
    """The same hands as `case` has: lever 60 %, stick half forward; blades level."""
    return motion_of(of_head(HEADS[name]), Setting(0.6, 0.5, 0.0, False, 1.0, what))


def wave(name: str, what: WhatIf, blade: int = 0) -> tuple[float, float]:
    """Mean and first harmonic of a blade's pitch by numpy's transform, degrees."""
    spectrum = np.fft.rfft([math.degrees(row[blade]) for row in turned(name, what).pitch])
    n = len(turned(name, what).pitch)
    return float(spectrum[0].real) / n, float(abs(spectrum[1])) * 2.0 / n


@every_head
def test_numbers_told_are_those_of_the_turn(name: str) -> None:
    """Collective and cyclic by numpy's transform, to the printed digit."""
    none = WhatIf()
    mean, cyclic = wave(name, none)
    slip = wave(name, WhatIf("drive_off", 1, math.radians(10.0)))
    told = numbers(said(name, "drive_off"), "°")
    assert told[0] == 10.0
    assert told[2:4] == pytest.approx([slip[0] - mean, slip[1] - cyclic], abs=0.0051)
    longer = wave(name, WhatIf("link_longer", 2, 0.00125), 1)
    link = said(name, "link_longer")
    assert numbers(link, "°")[0] == pytest.approx(abs(longer[0] - mean), abs=0.0051)
    assert (" more pitch" in link) == (longer[0] > mean)
    play = numbers(said(name, "play_link"), "°")
    # From one end of the play to the other.
    ends = [wave(name, WhatIf("link_longer", 2, x), 1)[0] for x in (-0.0005, 0.0005)]
    assert play[0] == pytest.approx(abs(ends[1] - ends[0]), abs=0.0051 + 0.001)
    rod = wave(name, WhatIf("rod_longer", 3, 0.003))
    assert numbers(said(name, "rod_longer"), "°")[-1] == pytest.approx(rod[0] - mean, abs=0.0051)
    heights = numbers(said(name, "rod_longer"), "mm")
    assert heights[0] == 3.0
    moved = turned(name, WhatIf("rod_longer", 3, 0.003)).pose.height - turned(name, none).pose.height
    assert heights[1] == pytest.approx(1000.0 * moved, abs=0.051)
    ring = math.hypot(HEADS[name]["link_foot_out_mm"], HEADS[name]["link_foot_ahead_mm"])
    assert numbers(said(name, "play_scissors"), "°")[0] == pytest.approx(math.degrees(2.0 / ring), abs=0.0051)


@every_head
def test_carried_low_point_is_told(name: str) -> None:
    """Carried by 10°, the low point goes 10.0° farther on (the whole linkage below has been turned by that)."""
    assert numbers(said(name, "stationary_off"), "°")[:2] == [10.0, 10.0]
    level = run(MOTION, {"what_if": "stationary_off", "stick_forward": "0"}, of_head(HEADS[name]))
    assert "level nothing shows" in MOTION.describe(level)


def test_rods_that_disagree_are_told() -> None:
    """Four rods, one longer: no plane fits, by the size numpy.linalg.lstsq leaves."""
    data = to_dict(HEADS["alder3"])
    assert isinstance(data["rods"], list)
    rotor = of_head(from_dict(data | {"rods": [*data["rods"], {"bearing_deg": 100, "stroke_mm": 400}]}))
    inputs = {"what_if": "rod_longer", "rod": "4", "rod_more": "4", "stick_forward": "0"}
    text = MOTION.describe(run(MOTION, inputs, rotor))
    rows = np.column_stack([np.ones(4), np.cos(rotor.rod_azimuths), np.sin(rotor.rod_azimuths)])
    pull = np.array([0.0, 0.0, 0.0, 4.0])
    left = math.sqrt(float(np.mean((pull - rows @ np.linalg.lstsq(rows, pull)[0]) ** 2)))
    assert "no plane fits" in text
    assert numbers(text, "mm")[-1] == pytest.approx(left, abs=0.0051 + 0.002)
    assert "no plane fits" not in said("alder3", "rod_longer")


@pytest.mark.parametrize("kind", ["rod_stopped", "rod_longer", "link_longer", "play_link"])
@every_head
def test_a_number_the_head_does_not_have_is_refused_by_name(name: str, kind: str) -> None:
    """Rod 5 of three, blade 7 of two to six: the field, what was asked and what there is."""
    field, number = ("rod", 5) if kind.startswith("rod") else ("blade", 7)
    most = len(HEADS[name].rods) if field == "rod" else int(HEADS[name]["blades"])
    with pytest.raises(Refused) as caught:
        run(MOTION, {"what_if": kind, field: str(number)}, of_head(HEADS[name]))
    (fault,) = caught.value.faults
    assert (fault.field, fault.head) == (field, False)
    assert f"{field.capitalize()} {number}" in fault.text
    assert f"has {most}" in fault.text
    # The last one it has is answered.
    run(MOTION, {"what_if": kind, field: str(most)}, of_head(HEADS[name]))


SMALL = changed(demonstration("birch2"), {"rod_radius_mm": "60", "stationary_scissors_anchor_mm": "40"})


@pytest.mark.parametrize("head", [*HEADS.values(), SMALL], ids=[*HEADS, "small"])
def test_the_ends_of_every_amount_are_answered_or_refused_by_name(head: Head) -> None:
    """At the ends of what may be typed, with the hands at their ends: an answer with a lean that is a number, or a fault
    that names an amount of this what-if, a hand, or a figure of the head."""
    rotor = of_head(head)
    amounts = {name: MOTION.input(name) for name in ("behind", "carried", "rod_more", "link_more", "play")}
    asked = {kind: next((n for n in amounts if n in inputs), "") for kind, (inputs, _) in ASKED.items()}
    for hands in ({"lever": "0", "stick_forward": "100"}, {"lever": "100", "stick_left": "-100", "stretch": "3"}):
        for kind, amount in asked.items():
            declared = amounts.get(amount)
            ends = [declared.low, declared.high] if isinstance(declared, Number) else [0.0]
            for end in ends:
                typed = {amount: str(end)} if amount else {}
                try:
                    found = run(MOTION, {"what_if": kind, **typed, **hands}, rotor)
                except Refused as refused:
                    for fault in refused.faults:
                        known = head.keys() if fault.head else (amount, "lever", "stretch")
                        assert fault.field in known, (kind, end, fault)
                else:
                    assert 0.0 <= found.result("link_lean") < math.pi / 2.0
                    assert "nan" not in MOTION.describe(found).lower().split()
