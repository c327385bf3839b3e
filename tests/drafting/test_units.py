"""Lengths as people write them: the readings that a measuring tape gives, by hand."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drafting.errors import LengthError
from drafting.units import Units, length_text, radius_text, to_mm


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("710 mm", 710),
        ("71.5 cm", 715),
        ("71,5 cm", 715),
        ("71,5cm", 715),
        ("1.25 m", 1250),
        ("1250 mm", 1250),
        ("28 1/4 in", 717.55),
        ("28¼ in", 717.55),
        ("28 ¼ in", 717.55),
        ('27 1/2"', 698.5),
        ('27½"', 698.5),
        ("27½″", 698.5),
        ("27 1/2”", 698.5),
        ("27 1/2''", 698.5),
        ("34 1/2 in", 876.3),
        ("5/8 in", 15.875),
        ("⅝ in", 15.875),
        ("29.125 in", 739.775),
        ("2 ft 3 in", 685.8),
        ("2' 3\"", 685.8),
        ("2 feet 3 inches", 685.8),
        ("1 yd", 914.4),
        ("1 m 20 cm", 1200),
        (" 74 CM ", 740),
        ("74 cm.", 740),
        (".5 in", 12.7),
        ("0 cm", 0),
    ],
)
def test_a_length_means_what_the_tape_shows(text: str, mm: float) -> None:
    assert to_mm(text) == pytest.approx(mm, abs=1e-6)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "empty"),
        ("   ", "empty"),
        ("74", "no unit"),
        ("27½", "no unit"),
        ("-3 cm", "negative"),
        ("−3 cm", "negative"),
        ("nan cm", "a number and a unit"),
        ("inf cm", "a number and a unit"),
        ("1e3 mm", "not a unit"),
        ("9**9**9 cm", "a number and a unit"),
        ("12 pt", "not a unit"),
        ("70 cm2", "a number and a unit"),
        ("1,250 mm", "thousands"),
        ("1.250 mm", "thousands"),
        ("3 in 2 ft", "bigger unit first"),
        ("3 in 2 in", "bigger unit first"),
        ("1/0 in", "below its line"),
        ("27 28 in", "a number and a unit"),
        ("74 cm tight", "a number and a unit"),
        ("9" * 60 + " cm", "longer than 40"),
        ("1" + " " * 50 + "cm", "longer than 40"),
    ],
)
def test_what_is_no_plain_length_is_refused_with_the_reason(text: str, said: str) -> None:
    with pytest.raises(LengthError) as refused:
        to_mm(text)
    assert said in refused.value.reason
    assert refused.value.text == text


@pytest.mark.parametrize(
    ("text", "units", "mm"),
    [("74", Units.CM, 740), ("71,5", Units.CM, 715), ("29 1/8", Units.INCH, 739.775)],
)
def test_a_bare_number_is_read_in_the_units_of_the_sheet(
    text: str, units: Units, mm: float
) -> None:
    assert to_mm(text, units) == pytest.approx(mm)


def test_a_written_unit_wins_over_the_units_of_the_sheet() -> None:
    assert to_mm("74 cm", Units.INCH) == pytest.approx(740)


@given(whole=st.integers(0, 80), over=st.integers(0, 15), under=st.sampled_from([2, 4, 8, 16, 32]))
def test_an_inch_fraction_is_added_to_the_whole_inches(whole: int, over: int, under: int) -> None:
    assert to_mm(f"{whole} {over}/{under} in") == pytest.approx((whole + over / under) * 25.4)


@given(tenths=st.integers(0, 30000))
def test_a_length_shown_in_centimetres_reads_back_the_same(tenths: int) -> None:
    assert to_mm(length_text(float(tenths), Units.CM)) == pytest.approx(tenths, abs=0.01)


@given(eighths=st.integers(0, 900))
def test_a_length_shown_in_inches_reads_back_the_same(eighths: int) -> None:
    length = eighths * 3.175
    assert to_mm(length_text(length, Units.INCH)) == pytest.approx(length, abs=0.01)


@given(text=st.text(max_size=45))
def test_any_text_is_a_length_or_is_refused(text: str) -> None:
    try:
        length = to_mm(text)
    except LengthError as refused:
        assert refused.reason
    else:
        assert 0 <= length < float("inf")


@pytest.mark.parametrize(
    ("mm", "cm", "inches"),
    [
        (715, "71.5 cm", "28⅛ in"),
        (25.4, "2.5 cm", "1 in"),
        (12.7, "1.3 cm", "½ in"),
        (0, "0.0 cm", "0 in"),
    ],
)
def test_lengths_are_shown_to_a_millimetre_or_an_eighth(mm: float, cm: str, inches: str) -> None:
    assert length_text(mm, Units.CM).replace("\u00a0", " ") == cm
    assert length_text(mm, Units.INCH).replace("\u00a0", " ") == inches


@pytest.mark.parametrize(
    ("mm", "shown"), [(118.97, "11.85 cm"), (114.5, "11.45 cm"), (114.49999999, "11.45 cm")]
)
def test_a_radius_is_rounded_down_to_half_a_millimetre(mm: float, shown: str) -> None:
    assert radius_text(mm, Units.CM).replace("\u00a0", " ") == shown


def test_a_radius_in_inches_is_rounded_down_to_a_sixteenth() -> None:
    # 118.97 mm is 4.6839 in; 4 10/16 is 4.625 and 4 11/16 is 4.6875.
    assert radius_text(118.97, Units.INCH).replace("\u00a0", " ") == "4⅝ in"
    # 117 mm is 4.6063 in.
    assert radius_text(117.0, Units.INCH).replace("\u00a0", " ") == "4 9/16 in"
