"""The calculators of measured readings through the door: worksheet and two set-ups.

Readings are typed texts; what they stand for is known beforehand, by arithmetic or from the exact linkage of a head.
"""

import json
import math
import re
from html import escape, unescape

import pytest
from rotorhead.conventions import Rotation, azimuth_of, bearing_of
from rotorhead.derived import figures as derived_figures
from rotorhead.head import DEMONSTRATION, demonstration
from rotorhead.head_changes import mirrored
from rotorhead.measure.typed import parse_readings
from rotorhead.mechanism.links import pitch_now
from rotorhead.mechanism.plate import pose_from_tilt
from rotorhead.rotor import Rotor, of_head

from .own_requests import ask, head, refused, results, run

# Check value: readings at 0, 90, 180, 270 degrees of azimuth -> mean 8.0, cosine +2.2, sine -1.9 (arithmetic).
EIGHT = {0: "10.2", 90: "6.1", 180: "5.8", 270: "9.9"}


def sheet(readings: dict[int, str]) -> str:
    """Readings as they are typed."""
    return "\n".join(f"{place} {value}" for place, value in readings.items())


def to_use(part: str) -> dict[str, str]:
    """What a button would take into the head."""
    (found,) = re.findall(r'data-use="(.*?)"', part)
    return dict(json.loads(unescape(found)))


# Worksheet.


def test_four_readings_by_arithmetic() -> None:
    """Mean and wave to 1e-9; with 0.1° a reading the mean is good to 0.05°, the wave to 0.1·√(2/4)° (GUM, 5.1.2)."""
    found = results("worksheet", readings=sheet(EIGHT), at="azimuth", error="0.1")
    size = math.hypot(2.2, 1.9)
    assert found["mean_value"] == pytest.approx(8.0, abs=1e-9)
    assert found["wave_value"] == pytest.approx(size, abs=1e-9)
    assert found["wave_error"] == pytest.approx(0.0707107, abs=1e-7)
    assert found["place_error"] == pytest.approx(math.degrees(0.0707107 / size), abs=1e-5)
    # Greatest at azimuth atan2(−1.9, 2.2) = 319.2°; anticlockwise that is a bearing of 220.8°.
    assert found["place"].startswith("40.8° left of the tail")
    assert found["misfits"] == "none"
    # 95 % of a normal curve: 1.96 standard errors.
    assert found["mean"] == "8.00° ± 0.10°"
    turned = results("worksheet", head("alder3", True), readings=sheet(EIGHT), at="azimuth")
    assert turned["place"].startswith("40.8° right of the tail")


@pytest.mark.parametrize("turned", [False, True])
def test_bearings_on_both_directions(turned: bool) -> None:
    """The blade over the right side stands at azimuth 90° on an anticlockwise rotor, at 270° on a clockwise one (definition)."""
    right, left = ("9.9", "6.1") if turned else ("6.1", "9.9")
    choice = head("alder3", turned)
    by_bearing = results("worksheet", choice, readings=f"0 5.8\n90 {right}\n180 10.2\n270 {left}", at="bearing")
    assert by_bearing == results("worksheet", choice, readings=sheet(EIGHT), at="azimuth")


ROUND = {a: 8.0 + 3.0 * math.cos(math.radians(a)) - 2.0 * math.sin(math.radians(a)) for a in range(0, 360, 30)}


def texts(wave: dict[int, float], scatter: float = 0.05) -> dict[int, str]:
    """Readings of a wave, alternately too large and too small."""
    return {a: f"{v + scatter * (-1) ** i:.3f}" for i, (a, v) in enumerate(wave.items())}


def test_a_reading_that_stands_out_is_named_and_not_dropped() -> None:
    """The fifth reading 3° off: named, marked in the table, and the fit still drawn by it (3°/12 in the mean)."""
    good = texts(ROUND)
    bad = good | {120: f"{float(good[120]) + 3.0:.3f}"}
    clean, found = (results("worksheet", readings=sheet(r), at="azimuth") for r in (good, bad))
    assert clean["misfits"] == "none"
    assert found["misfits"] == "reading 5: look again, nothing was left out"
    assert found["mean_value"] == pytest.approx(clean["mean_value"] + 3.0 / 12.0, abs=1e-9)
    reply = run("worksheet", readings=sheet(bad), at="azimuth")
    rows = re.findall(r"<tr( class=\"hd-differs\")?><th scope=\"row\">(\d+)</th>", reply["parts"]["readings"])
    assert [n for mark, n in rows if mark] == ["5"]
    assert len(rows) == 12
    assert "Reading 5: look again" in reply["spoken"]
    assert "12 readings" in reply["spoken"]


def test_a_second_wave_needs_enough_readings() -> None:
    """Four azimuths can't tell it; with more it is found as it was put in."""
    assert "four azimuths" in refused(run("worksheet", readings=sheet(EIGHT), at="azimuth", second="yes"))["readings"]
    assert set(refused(run("worksheet", readings="0 1\n90 2\n200 3", second="yes"))) == {"readings"}
    both = {a: v + 0.7 * math.cos(math.radians(2 * a - 40)) for a, v in ROUND.items()}
    found = results("worksheet", readings=sheet({a: f"{v:.9f}" for a, v in both.items()}), at="azimuth", second="yes")
    assert found["second_wave"] == "0.70° ± 0.00°"
    assert found["mean_value"] == pytest.approx(8.0, abs=1e-8)
    assert found["wave_value"] == pytest.approx(math.hypot(3, 2), abs=1e-8)
    assert "second_wave" not in results("worksheet")
    assert set(refused(run("worksheet", second="yes", planned="4"))) == {"planned"}


@pytest.mark.parametrize(("droop", "read"), [("3", 9.986155), ("-3", 9.986155), ("5", 9.961558)])
def test_droop_is_put_right(droop: str, read: float) -> None:
    """sin(read) = sin θ cos β: 10° of pitch on a blade 3° or 5° off level (check values, re-derived)."""
    readings = "\n".join(f"{a} {read}" for a in (0, 90, 180, 270))
    assert results("worksheet", readings=readings, droop=droop)["mean_value"] == pytest.approx(10.0, abs=1e-6)
    assert results("worksheet", readings=readings)["mean_value"] == pytest.approx(read, abs=1e-9)


def test_readings_that_show_nothing_are_refused() -> None:
    """None, one, two, all at one place, close together, no numbers: the field is named."""
    for readings in (
        "",
        "  \n# nothing",
        "0 5",
        "0 5\n90 6",
        "0 5\n0 6\n0 7",
        "0 5\n1 6",
        "0 5\n90 six\n180 7",
        "0 5 90",
        "900 5",
    ):
        assert set(refused(run("worksheet", readings=readings, at="azimuth"))) == {"readings"}, readings


def test_every_line_that_is_wrong_is_named() -> None:
    """All faults at once, each with its line."""
    reply = run("worksheet", readings="0 5\n90 x\n180 7\n2000 8\n270 99", at="azimuth")
    assert [f["field"] for f in reply["faults"]] == ["readings"] * 3
    assert [re.findall(r"Line (\d)", f["text"])[0] for f in reply["faults"]] == ["2", "4", "5"]


@pytest.mark.parametrize("length", [2501, 4000, 9000])
def test_a_text_too_long_is_refused(length: int) -> None:
    """Named, whatever stands in it; the longest that is allowed is read."""
    told = refused(run("worksheet", readings="0 5\n" + "#" * (length - 4)))
    assert "at most 2500" in told["readings"]
    four = sheet(EIGHT)
    assert results("worksheet", readings=four + "\n#" + "x" * (2500 - len(four) - 2), at="azimuth")[
        "mean_value"
    ] == pytest.approx(8)


@pytest.mark.parametrize(
    "evil", ["<script>alert(1)</script>", '"><img src=x onerror=alert(1)>', "0 5\n90 <b>6</b>\n180 7\n270 8"]
)
def test_markup_in_readings_stays_text(evil: str) -> None:
    """Refused as text; in a remark it is left out, and no part of the answer holds it."""
    told = refused(run("worksheet", readings=evil))
    assert set(told) == {"readings"}
    reply = run("worksheet", readings=sheet(EIGHT) + "\n# " + evil.replace("\n", " "))
    assert reply["state"] == "result"
    whole = "".join(reply["parts"].values())
    assert not re.search(r"<script|<img|onerror|<b>6", whole)
    for field in ("low", "high", "forward", "left"):
        assert set(refused(run("setups", head(), **{field: evil}))) == {field}


def test_readings_can_be_kept_and_the_mean_used() -> None:
    """The file reads back as what was typed; the button's text is taken by the head, as a range or as one number."""
    reply = run("worksheet", readings=sheet(EIGHT), at="azimuth")
    (csv,) = re.findall(r'data-csv="(.*?)"', reply["parts"]["readings"], re.DOTALL)
    back = parse_readings(unescape(csv))
    assert [(round(math.degrees(r.azimuth), 6), round(math.degrees(r.angle), 6)) for r in back] == [
        (a, float(v)) for a, v in EIGHT.items()
    ]
    assert to_use(reply["parts"]["readings"]) == {"pitch_at_plate_zero_deg": "7.90 to 8.10"}
    level = run("worksheet", readings="0 8\n45 8\n90 8\n180 8\n270 8")
    for answer in (reply, level):
        changes = to_use(answer["parts"]["readings"])
        assert ask("check", head={"base": "alder3", "changes": changes})["state"] == "result", changes
    assert "no clear wave" in level["spoken"]


# Two set-ups.

TILT, RISE, FORWARD, LEFT = math.radians(1.0), 0.008, 40.0, 310.0


def typed(rotor: Rotor, height: float, tilt: float, low_bearing: float) -> str:
    """Exact pitch of the level blade every 30° of bearing, as typed."""
    rotation: Rotation = rotor.rotation
    at = {round(math.degrees(bearing_of(math.radians(a), rotation))) % 360: math.radians(a) for a in range(0, 360, 30)}
    low = azimuth_of(math.radians(low_bearing), rotation)
    pose = pose_from_tilt(height, tilt, low)
    return "\n".join(f"{b} {math.degrees(pitch_now(rotor, pose, a)):.6f}" for b, a in at.items())


def set_ups(rotor: Rotor, **more: str) -> dict[str, str]:
    """Inputs of the calculator for a head without any error; the plate moves about its height 0."""
    return {
        "low": typed(rotor, -RISE / 2, 0.0, FORWARD), "high": typed(rotor, RISE / 2, 0.0, FORWARD),
        "forward": typed(rotor, -RISE / 2, TILT, FORWARD), "left": typed(rotor, -RISE / 2, TILT, LEFT), "at": "bearing",
        "rise": f"{1000 * RISE:g}", "rise_error": "0.02", "plate_forward": f"{FORWARD:g}", "plate_left": f"{LEFT:g}", "plate_error": "0.2",
        **more,
    }  # fmt: skip


@pytest.mark.parametrize("turned", [False, True], ids=["as-drawn", "turned"])
@pytest.mark.parametrize("base", DEMONSTRATION)
def test_exact_readings_give_the_heads_own_lead_and_gain(base: str, turned: bool) -> None:
    """Lead is atan2 of two lengths, to 0.5°; degrees per millimetre about height 0 to 1 %, the size of what is not linear in a
    tilt of 1° (curvature of the horn's arc; no source); a quarter turn apart to 0.5°."""
    drawn = demonstration(base)
    choice = head(base, turned)
    rotor = of_head(mirrored(drawn) if turned else drawn)
    found = results("setups", choice, **set_ups(rotor))
    lead = math.degrees(math.atan2(drawn["link_foot_ahead_mm"], drawn["link_foot_out_mm"]))
    assert math.remainder(found["lead"] - lead, 360.0) == pytest.approx(0.0, abs=0.5)
    per_mm = math.degrees(derived_figures(rotor)["degrees_per_mm"].value) / 1000.0
    assert found["per_height"] == pytest.approx(per_mm, rel=0.01)
    assert found["beyond_quarter"] == pytest.approx(0.0, abs=0.5)
    assert (found["lead_verdict"], found["gain_verdict"]) == ("agree", "agree")


@pytest.mark.parametrize("base", DEMONSTRATION)
@pytest.mark.parametrize("rise_error", ["0.02", "0"])
def test_what_the_button_takes_into_the_head_goes_together(base: str, rise_error: str) -> None:
    """Figures of the head itself come back, and with them it goes together."""
    drawn = demonstration(base)
    reply = run("setups", head(base), **set_ups(of_head(drawn), rise_error=rise_error))
    changes = to_use(reply["parts"]["use"])
    assert set(changes) == {"arm_mm", "link_foot_out_mm", "link_foot_ahead_mm"}
    for key, text in changes.items():
        ends = [float(x) for x in text.split(" to ")]
        ring = math.hypot(drawn["link_foot_out_mm"], drawn["link_foot_ahead_mm"])
        assert sum(ends) / len(ends) == pytest.approx(drawn[key], abs=0.01 * max(ring, abs(drawn["arm_mm"]))), key
    check = ask("check", head={"base": base, "changes": changes})
    assert check["state"] == "result", (changes, check)


def test_another_heads_readings_disagree() -> None:
    """Dogwood's linkage is not Alder's: the verdict says so."""
    found = results("setups", head("cedar4"), **set_ups(of_head(demonstration("alder3"))))
    assert (found["lead_verdict"], found["gain_verdict"]) == ("disagree", "disagree")


def test_faults_of_all_four_sheets_come_together() -> None:
    """Each by its own field; a plate that was not raised, or a stick that was not moved, shows nothing."""
    assert set(refused(run("setups", low="x", high="0 5", forward="", left="0 1 2"))) == {
        "low",
        "high",
        "forward",
        "left",
    }
    assert set(refused(run("setups", rise="0"))) == {"rise"}
    still = "0 5\n90 5\n180 5\n270 5"
    assert set(refused(run("setups", forward=still, left=still))) == {"forward", "left"}


def test_spoken_in_text_and_escaped_on_the_page() -> None:
    """The sentence is the same in both."""
    for name in ("worksheet", "setups"):
        reply = run(name)
        assert reply["parts"]["sentence"] == f"<p>{escape(reply['spoken'])}</p>"
