"""Numbers as people type them: read right, or refused with a sentence; nothing else comes out."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from rotorhead.faults import Refused
from rotorhead.numbers import parse_number

MANY = settings(max_examples=150, deadline=None, database=None, derandomize=True)

READ = [
    ("25", 25.0), ("25.5", 25.5), ("25,5", 25.5), (" 25 ", 25.0), ("+3", 3.0), ("-3", -3.0),
    ("\N{MINUS SIGN}3,25", -3.25), ("\N{EN DASH}1", -1.0), ("\N{FULLWIDTH HYPHEN-MINUS}1", -1.0),
    ("1 234", 1234.0), ("1\N{NO-BREAK SPACE}234,5", 1234.5), ("1\N{NARROW NO-BREAK SPACE}234", 1234.0),
    ("1\N{THIN SPACE}234", 1234.0), ("1'234", 1234.0), ("1,234.5", 1234.5), ("12,345,678.5", 12345678.5),
    (".5", 0.5), (",5", 0.5), ("5.", 5.0), ("1e3", 1000.0), ("1E-3", 0.001), ("1,5e2", 150.0), ("\t7\n", 7.0),
    ("-0", 0.0), ("007", 7.0),
]  # fmt: skip

NOT_READ = [
    "", " ", "abc", "12a", "--3", "+-3", "1e", "e5", ".", ",", "-", "1.2.3", "1,2,3", "0x10", "1_000", "٣", "１２", "²",
    "½", "nan", "NaN", "inf", "-inf", "Infinity", "∞", "1e400", "-1e400", "9" * 400, "1/2", "3°", "25 mm", "1e5000",
    "None", "<b>", "\x00", "\N{ZERO WIDTH SPACE}",
]  # fmt: skip


@pytest.mark.parametrize(("text", "value"), READ, ids=[repr(t) for t, _ in READ])
def test_read(text: str, value: float) -> None:
    """Decimal point or comma, real minus signs, spaces between groups."""
    assert parse_number(text, "x", "X") == value


@pytest.mark.parametrize("text", NOT_READ, ids=[repr(t)[:20] for t in NOT_READ])
def test_refused(text: str) -> None:
    """A sentence that names the field and gives the text back, cut when it is long."""
    with pytest.raises(Refused) as caught:
        parse_number(text, "rpm", "Rotor speed", head=True)
    (fault,) = caught.value.faults
    assert (fault.field, fault.head) == ("rpm", True)
    assert fault.text.startswith("Rotor speed: ")
    assert fault.text.endswith(".")
    assert len(fault.text) < 140


@pytest.mark.parametrize("text", ["1.234,5", "1.234.567,8", "1,2.5", "1,23,4.5", "12,34.5"])
def test_a_comma_before_no_group_of_three_is_not_dropped(text: str) -> None:
    """'1.234,5' is 1234.5 to half of Europe: reading it as 1.2345 would be wrong by a thousand. A comma is
    a thousands mark only in front of three digits and left of the point; anything else is refused, or
    read as its writer meant it."""
    meant = {"1.234,5": 1234.5, "1.234.567,8": 1234567.8}
    try:
        value = parse_number(text, "x", "X")
    except Refused:
        return
    assert value == meant.get(text)


def finite_or_refused(text: str) -> bool:
    """True for a finite number and for a refusal with a sentence; anything else raises."""
    try:
        return math.isfinite(parse_number(text, "x", "X"))
    except Refused as refused:
        return bool(str(refused).strip())


@MANY
@given(st.text(max_size=60))
def test_any_text_is_a_finite_number_or_refused(text: str) -> None:
    """Nothing but Refused ever comes out, whatever is typed."""
    assert finite_or_refused(text)


@MANY
@given(st.text(alphabet="0123456789.,eE+-\N{MINUS SIGN} '\N{NO-BREAK SPACE}nainf", max_size=24))
def test_near_numbers_are_a_finite_number_or_refused(text: str) -> None:
    """The same with the signs numbers are made of."""
    assert finite_or_refused(text)


@MANY
@given(st.floats(allow_nan=False, allow_infinity=False, width=64))
def test_every_number_python_writes_comes_back(value: float) -> None:
    """repr, with a point or a decimal comma and either minus sign."""
    text = repr(value)
    assert parse_number(text, "x", "X") == value
    assert parse_number(text.replace(".", ",").replace("-", "\N{MINUS SIGN}"), "x", "X") == value


@MANY
@given(st.integers(-(10**12), 10**12), st.sampled_from([" ", "\N{NO-BREAK SPACE}", "\N{NARROW NO-BREAK SPACE}", "'"]))
def test_grouped_integers(value: int, gap: str) -> None:
    """Groups of three set apart by any of the usual spaces."""
    assert parse_number(f"{value:,}".replace(",", gap), "x", "X") == value
