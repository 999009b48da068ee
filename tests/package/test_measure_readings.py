"""Readings as typed: read as their writer meant, or refused with every fault named; nothing lost on the way."""

import csv
import io
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from rotorhead.conventions import Rotation, bearing_of, wrap
from rotorhead.faults import Refused
from rotorhead.measure.readings import (
    CSV_HEADER,
    MOST_READINGS,
    Reading,
    corrected,
    pitch_along_chord,
    reading_along_chord,
    to_csv,
)
from rotorhead.measure.typed import MOST_CHARACTERS, parse_readings

MANY = settings(max_examples=200, deadline=None, database=None, derandomize=True)
MINUS = "\N{MINUS SIGN}"

# Text -> pairs in degrees, as a person would read it.
READ = [
    ("0 10.2", [(0, 10.2)]),
    ("45: 8.3", [(45, 8.3)]),
    ("45:8.3", [(45, 8.3)]),
    ("90; 6,1", [(90, 6.1)]),
    ("90;6,1", [(90, 6.1)]),
    ("90,0;6,1", [(90, 6.1)]),
    ("90 6,1", [(90, 6.1)]),
    ("90,5 6,1", [(90.5, 6.1)]),
    ("90, 6.1", [(90, 6.1)]),
    ("90, 6,1", [(90, 6.1)]),
    ("90 ,6,1", [(90, 6.1)]),
    ("90,6.1", [(90, 6.1)]),
    ("90.0,6.1", [(90, 6.1)]),
    ("90,6", [(90, 6)]),
    ("90\t6.1", [(90, 6.1)]),
    ("90 = 6.1", [(90, 6.1)]),
    ("90 | 6.1", [(90, 6.1)]),
    ("90° 6.1°", [(90, 6.1)]),
    ("90°: 6,1°", [(90, 6.1)]),
    ("90\N{NO-BREAK SPACE}6.1", [(90, 6.1)]),
    ('"90","6.1"', [(90, 6.1)]),
    ('"90,5";"6,1"', [(90.5, 6.1)]),
    ('"90,5","6,1"', [(90.5, 6.1)]),
    ("0 10.2, 45 8.3", [(0, 10.2), (45, 8.3)]),
    ("0 10,2, 45 8,3", [(0, 10.2), (45, 8.3)]),
    ("0 10.2; 45 8.3; 90 6", [(0, 10.2), (45, 8.3), (90, 6)]),
    ("0: 10.2, 45: 8.3", [(0, 10.2), (45, 8.3)]),
    ("0, 10.2, 45, 8.3", [(0, 10.2), (45, 8.3)]),
    ("0; 10,2; 45; 8,3", [(0, 10.2), (45, 8.3)]),
    ("0,10.2,45,8.3", [(0, 10.2), (45, 8.3)]),
    ("0 10.2,45 8.3", [(0, 10.2), (45, 8.3)]),
    ("0 10 45 8", [(0, 10), (45, 8)]),
    ("0 10.2,\n45 8.3;\r\n90 6\r", [(0, 10.2), (45, 8.3), (90, 6)]),
    ("0 10.2 # first\n\n   \n# note 12 13\n45 8.3", [(0, 10.2), (45, 8.3)]),
    ("azimuth,reading\r\n0,10.2\r\n", [(0, 10.2)]),
    ("\ufeffAzimuth;Reading\n0;10,2", [(0, 10.2)]),
    ('"azimuth","reading"\n0,10.2', [(0, 10.2)]),
    (f"{CSV_HEADER}\r\n0,10.2\r\n", [(0, 10.2)]),
    (f"{MINUS}90 {MINUS}6,1", [(-90, -6.1)]),
    ("-90 \N{EN DASH}6.1", [(-90, -6.1)]),
    ("\N{HYPHEN}90 \N{NON-BREAKING HYPHEN}6.1", [(-90, -6.1)]),
    ("+90 +6.1", [(90, 6.1)]),
    ("0 10\n0 11\n0 10", [(0, 10), (0, 11), (0, 10)]),
    ("-360 -45\n720 60", [(-360, -45), (720, 60)]),
]


@pytest.mark.parametrize(("text", "pairs"), READ, ids=[repr(t) for t, _ in READ])
def test_read(text: str, pairs: list[tuple[float, float]]) -> None:
    """Order kept, repeats kept."""
    expected = [(math.radians(a), math.radians(v)) for a, v in pairs]
    assert [(r.azimuth, r.angle) for r in parse_readings(text)] == expected


# Text -> words of each fault, in order.
FAULTS = [
    ("", ["there are none"]),
    ("# nothing but a note", ["there are none"]),
    ("azimuth,reading", ["there are none"]),
    ("90", ["Line 1: “90” is not an azimuth and a reading"]),
    ("0 10.2 45", ["Line 1: “0 10.2 45” is not"]),
    ("90 - 6.1", ["Line 1: “90 - 6.1” is not"]),
    ("0 10, 45", ["Line 1: “0 10, 45” is not"]),
    ("90,6,1", ["Line 1: “90,6,1” can be read in more than one way"]),
    ("0,10,45,8", ["more than one way"]),
    ("0,10; 45,8; 90,6; 135,7", ["more than one way"]),
    ("0,10 45,8 90,6 135,7", ["more than one way"]),
    ("90.5 6,1", ["Line 1: “90.5 6,1” is not"]),
    ("90,", ["Line 1"]),
    (",6", ["Line 1, azimuth: there is nothing"]),
    ('"90",""', ["Line 1, reading: there is nothing; enter a number from −45° to 60°"]),
    (";", ["Line 1"]),
    ("0;;6", ["Line 1"]),
    ("0; 10; ; 8", ["Line 1, azimuth: there is nothing"]),
    (": 10.2", ["Line 1, azimuth: there is nothing; enter a number from −360° to 720°"]),
    ("abc 6", ["Line 1, azimuth: “abc” is not a number"]),
    ("90 abc", ["Line 1, reading: “abc” is not a number"]),
    ("90 6'1", ["Line 1, reading: “6'1” is not a number"]),
    ("90 1.2.3", ["Line 1, reading: “1.2.3” is not a number"]),
    ("90 nan\n90 inf", ["Line 1, reading", "Line 2, reading"]),
    ("90 ٣", ["Line 1, reading: “٣” is not a number"]),
    ("720.1 5", ["Line 1, azimuth: “720.1” is outside −360° to 720°"]),
    ("-361 5", ["azimuth: “-361” is outside −360° to 720°"]),
    ("0 60.1", ["reading: “60.1” is outside −45° to 60°"]),
    ("0 1e9", ["reading: “1e9” is outside"]),
    ("800 80", ["Line 1, azimuth: “800”", "Line 1, reading: “80”"]),
    ("0 10\nx\n90 99\n\n# fine\nazimuth,reading\n900 y", [
        "Line 2: “x”", "Line 3, reading: “99”", "Line 6, azimuth: “azimuth”", "Line 6, reading: “reading”",
        "Line 7, azimuth: “900”", "Line 7, reading: “y”",
    ]),
    ("bearing,reading\n0 10", ["Line 1: the header says bearings"]),
]  # fmt: skip


@pytest.mark.parametrize(("text", "words"), FAULTS, ids=[repr(t) for t, _ in FAULTS])
def test_every_fault_is_named(text: str, words: list[str]) -> None:
    """Line, text and what is allowed; all at once, in order."""
    with pytest.raises(Refused) as caught:
        parse_readings(text)
    faults = caught.value.faults
    assert len(faults) == len(words), [f.text for f in faults]
    for fault, word in zip(faults, words, strict=True):
        assert word in fault.text
        assert fault.text.endswith(".")
        assert fault.field == "readings"
        assert len(fault.text) < 200


def test_a_full_sheet_and_one_more() -> None:
    """72 are read; the 73rd is refused with the number."""
    full = "\n".join(f"{5 * i} 1" for i in range(MOST_READINGS))
    assert len(parse_readings(full)) == 72
    with pytest.raises(Refused, match="Readings: 73 are more than a sheet holds; at most 72"):
        parse_readings(full + "\n0 1")
    with pytest.raises(Refused, match="20001 characters are more"):
        parse_readings("#" * (MOST_CHARACTERS + 1))


@pytest.mark.parametrize("text", ["<script>alert(1)</script> 6", "90 <b>6</b>", "90 javascript:alert(1)", "=1+1 6"])
def test_script_in_the_text_stays_text(text: str) -> None:
    """Given back as typed, for the page to write as text; never run, never half dropped."""
    with pytest.raises(Refused) as caught:
        parse_readings(text)
    assert any(f"“{part}”" in caught.value.faults[0].text for part in (text, *text.split()))


def read_or_refused(text: str) -> bool:
    """True for readings within their limits, and for a refusal with whole sentences; anything else raises."""
    try:
        readings = parse_readings(text)
    except Refused as refused:
        return len(refused.faults) > 0 and all(f.text.strip().endswith(".") for f in refused.faults)
    return len(readings) > 0 and all(
        abs(math.degrees(r.azimuth)) <= 720.0 + 1e-9 and abs(math.degrees(r.angle)) <= 60.0 + 1e-9 for r in readings
    )


@MANY
@given(st.text(max_size=200))
def test_any_text_is_read_or_refused(text: str) -> None:
    """Only readings or `Refused` come out, whatever is typed."""
    assert read_or_refused(text)


@MANY
@given(st.text(alphabet="0123456789.,;: \n\r\t-+°#\"'=|eE\N{MINUS SIGN}", max_size=60))
def test_near_readings_are_read_or_refused(text: str) -> None:
    """The same with the signs readings are made of."""
    assert read_or_refused(text)


TENTHS = st.lists(st.tuples(st.integers(-3600, 7200), st.integers(-450, 600)), min_size=1, max_size=MOST_READINGS)
STYLES = ["{a} {v}", "{a}: {v}", "{a}; {v}", "{a}\t{v}", "{a} {v} # note", " {a}°  {v}° "]


@MANY
@given(
    pairs=TENTHS,
    style=st.sampled_from(STYLES),
    comma=st.booleans(),
    minus=st.sampled_from("-\N{MINUS SIGN}\N{EN DASH}"),
)
def test_every_style_reads_the_same(pairs: list[tuple[int, int]], style: str, comma: bool, minus: str) -> None:
    """Point or comma, any minus sign, any of the usual separators: every reading, in order."""
    lines = [style.format(a=a / 10, v=v / 10) for a, v in pairs]
    text = "\n".join(lines).replace("-", minus)
    if comma:
        text = text.replace(".", ",")
    found = parse_readings(text)
    assert [(r.azimuth, r.angle) for r in found] == [(math.radians(a / 10), math.radians(v / 10)) for a, v in pairs]


RADIANS = st.builds(
    Reading, st.floats(math.radians(-360), math.radians(720)), st.floats(math.radians(-45), math.radians(60))
)


@MANY
@given(st.lists(RADIANS, min_size=1, max_size=MOST_READINGS))
def test_csv_round_trip(readings: list[Reading]) -> None:
    """To a file and back: every reading, to 1e-9°; written again it is the same text. Python's csv reads it too."""
    text = to_csv(readings)
    back = parse_readings(text)
    assert len(back) == len(readings)
    for a, b in zip(readings, back, strict=True):
        assert math.degrees(abs(a.azimuth - b.azimuth)) < 1e-9
        assert math.degrees(abs(a.angle - b.angle)) < 1e-9
    assert to_csv(back) == text
    rows = list(csv.reader(io.StringIO(text, newline=""), strict=True))
    assert rows[0] == ["azimuth_deg", "reading_deg"]
    assert [[float(x) for x in row] for row in rows[1:]] == [
        pytest.approx([math.degrees(r.azimuth), math.degrees(r.angle)], abs=1e-9) for r in readings
    ]
    assert text.count("\r\n") == text.count("\n") == len(readings) + 1


@MANY
@given(TENTHS)
def test_what_was_typed_comes_back_in_the_file(pairs: list[tuple[int, int]]) -> None:
    """Tenths of a degree stay tenths: no 6.1000000001."""
    typed = "\n".join(f"{a / 10:g} {v / 10:g}" for a, v in pairs)
    lines = to_csv(parse_readings(typed)).split("\r\n")[1:-1]
    assert lines == [f"{a / 10:g},{v / 10:g}" for a, v in pairs]


@pytest.mark.parametrize(("rotation", "right"), [("anticlockwise", 90.0), ("clockwise", 270.0)])
def test_bearings_become_azimuths(rotation: Rotation, right: float) -> None:
    """Tail 0, nose 180; the right-hand side at 90° of azimuth on an anticlockwise rotor, 270° on a clockwise one."""
    found = parse_readings("bearing,reading\n180 1\n0 2\n90 3\n-270 4\n450 5", at="bearing", rotation=rotation)
    degrees = [math.degrees(r.azimuth) for r in found]
    assert degrees == pytest.approx([0.0, 180.0, right, right, right], abs=1e-9)
    for reading, bearing in zip(found, (180, 0, 90, -270, 450), strict=True):
        assert wrap(bearing_of(reading.azimuth, rotation) - math.radians(bearing)) == pytest.approx(0.0, abs=1e-12)
    with pytest.raises(Refused, match="bearing: “800” is outside −360° to 720°"):
        parse_readings("800 1", at="bearing", rotation=rotation)
    with pytest.raises(Refused, match="the header says azimuths, and the readings are taken as bearings here"):
        parse_readings("azimuth,reading\n0,1", at="bearing", rotation=rotation)


def test_bearings_need_the_direction_of_rotation() -> None:
    """A slip of the program, not of the reader."""
    with pytest.raises(ValueError, match="direction of rotation"):
        parse_readings("0 1", at="bearing")


@MANY
@given(pitch=st.floats(-1.5, 1.5), flap=st.floats(-1.5, 1.5))
def test_droop_correction_undoes_the_droop(pitch: float, flap: float) -> None:
    """There and back; a drooped blade never shows more than its pitch, up or down alike."""
    shown = reading_along_chord(pitch, flap)
    assert abs(shown) <= abs(pitch) + 1e-12
    assert shown == reading_along_chord(pitch, -flap)
    # Near 90° of pitch the sine is flat: 1e-16 there is 1e-8 of an angle, more with a steep droop.
    assert math.sin(pitch_along_chord(shown, flap)) == pytest.approx(math.sin(pitch), abs=1e-12)


def test_droop_that_can_not_be() -> None:
    """Steeper than any chord of that blade; a blade hanging straight down. Each fault once."""
    with pytest.raises(
        Refused, match="Reading: 50° can't be shown along the chord of a blade 45° off level; the most is 45°"
    ):
        pitch_along_chord(math.radians(50.0), math.radians(45.0))
    with pytest.raises(Refused, match="90° is not between −90° and 90°"):
        pitch_along_chord(0.1, math.radians(90.0))
    readings = [Reading(0.0, math.radians(v)) for v in (10.0, 50.0, 55.0)]
    with pytest.raises(Refused) as caught:
        corrected(readings, math.radians(-45.0))
    assert len(caught.value.faults) == 2
    with pytest.raises(Refused) as caught:
        corrected(readings, math.radians(95.0))
    assert len(caught.value.faults) == 1
    fine = corrected(readings[:1], math.radians(3.0))
    assert math.degrees(fine[0].angle) > 10.0
    level = corrected(readings, 0.0)
    assert [r.angle for r in level] == pytest.approx([r.angle for r in readings], abs=1e-15)
    assert [r.azimuth for r in level] == [r.azimuth for r in readings]
