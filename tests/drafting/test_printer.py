"""How far a printer is from the truth. The numbers are those of the trade's page on printing."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drafting.errors import DraftingError, LengthError
from drafting.printer import (
    AS_DRAWN,
    Correction,
    Measured,
    MeasuredError,
    Printer,
    measured_from,
    multiplied,
    printer,
    size_words,
)
from drafting.units import Units


def made(across: str, up: str = "") -> Printer:
    found = printer(tuple(measured_from(text) for text in (across, up) if text))
    assert found is not None
    return found


# By hand: 100 / 98.5 = 1.015228; 200 / 198.8 = 1.006036; 200 / 200.6 = 0.997009;
# 100 / 99.4 = 1.006036; 210 / (210 - 8.4) = 1.041667; 297 / 279.4 = 1.062992.
@pytest.mark.parametrize(
    ("text", "per_cent"),
    [
        ("98.5 mm", 101.52),
        ("98.5 mm of 100 mm", 101.52),
        ("198.8 mm of 200 mm", 100.60),
        ("200.6 mm of 200 mm", 99.70),
        ("99.4 mm", 100.60),
        ("100 mm", 100.00),
        ("201.6 mm of 210 mm", 104.17),
        ("279.4 mm of 297 mm", 106.30),
        ("7 7/8 in of 8 in", 101.59),
        ("102 mm", 98.04),
    ],
)
def test_the_scale_a_printer_asks_for_is_100_times_nominal_over_measured(
    text: str, per_cent: float
) -> None:
    assert measured_from(text).factor * 100 == pytest.approx(per_cent, abs=0.005)


def test_one_per_cent_is_7_2_mm_of_a_waist_of_72_cm_and_48_mm_of_a_hem_of_4_8_m() -> None:
    off = 1 - measured_from("99 mm").size
    assert off * 720 == pytest.approx(7.2)
    assert off * 4804.1 == pytest.approx(48.0, abs=0.05)


@pytest.mark.parametrize(
    ("across", "up", "good"),
    [
        ("100 mm", "100 mm", True),
        ("99.5 mm", "100.5 mm", True),
        ("99.4 mm", "100 mm", False),
        ("100 mm", "100.6 mm", False),
        ("199 mm of 200 mm", "201 mm of 200 mm", True),
        ("198.8 mm of 200 mm", "200.6 mm of 200 mm", False),
    ],
)
def test_half_a_millimetre_in_100_is_let_pass(across: str, up: str, good: bool) -> None:
    found = made(across, up)
    assert found.good is good
    assert found.correction.needed is not good
    assert (found.correction == AS_DRAWN) is good


def test_each_way_is_corrected_on_its_own() -> None:
    found = made("198.8 mm of 200 mm", "200.6 mm of 200 mm").correction
    assert found == pytest.approx((1.0060362, 0.9970090), abs=1e-7)


def test_one_measure_corrects_both_ways_alike() -> None:
    found = made("98.5 mm")
    assert found.alike
    assert found.correction.across == found.correction.up == pytest.approx(1.0152284)
    assert not made("98.5 mm", "98.5 mm").alike


def test_no_measure_is_no_printer() -> None:
    assert printer(()) is None


@pytest.mark.parametrize(
    ("across", "up", "per_cent"),
    [
        ("98.5 mm", "98.5 mm", 101.52),
        ("98.5 mm", "98.7 mm", 101.42),  # the mean of 101.523 and 101.317
        ("98.5 mm", "98.9 mm", None),  # 101.523 and 101.112 differ by 0.41
        ("198.8 mm of 200 mm", "200.6 mm of 200 mm", None),
    ],
)
def test_one_scale_will_do_while_across_and_up_differ_by_0_3_per_cent_or_less(
    across: str, up: str, per_cent: float | None
) -> None:
    found = made(across, up).one_scale
    assert found is None if per_cent is None else found == pytest.approx(per_cent / 100, abs=5e-5)


def test_two_per_cent_looks_like_fit_to_page() -> None:
    assert not made("98 mm").far_off
    assert made("97.9 mm").far_off
    assert made("100 mm", "102.1 mm").far_off


@pytest.mark.parametrize(
    ("measured", "nominal"),
    [(0.0, 100.0), (-1.0, 100.0), (89.9, 100.0), (110.1, 100.0), (70.0, 70.0), (2001.0, 2001.0),
     (float("nan"), 100.0), (100.0, float("nan")), (float("inf"), 100.0)],
)  # fmt: skip
def test_what_no_printer_makes_is_refused(measured: float, nominal: float) -> None:
    with pytest.raises(MeasuredError) as caught:
        Measured(measured=measured, nominal=nominal)
    assert isinstance(caught.value, DraftingError)
    assert caught.value.what
    assert caught.value.allowed


@pytest.mark.parametrize("text", ["", "99", "of 100 mm", "99 mm of", "99 mm of 100", "a hair"])
def test_words_that_are_no_lengths_are_refused(text: str) -> None:
    with pytest.raises(LengthError):
        measured_from(text)


def test_bare_numbers_are_read_where_their_unit_is_known() -> None:
    assert measured_from("9.9 of 10", Units.CM) == Measured(measured=99.0, nominal=100.0)


def test_three_measures_are_one_too_many() -> None:
    one = Measured(measured=99.0)
    with pytest.raises(MeasuredError, match="3 measures"):
        printer((one, one, one))


def test_a_measure_of_a_corrected_print_multiplies_on() -> None:
    """Drawn at 101 % it came out at 99 %: plain it comes out at 99 / 101 = 98.02 %."""
    whole = multiplied(Correction(1.01, 1.0), made("99 mm", "100 mm"))
    assert whole.across.size == pytest.approx(0.980198, abs=1e-6)
    assert whole.up.size == 1
    assert multiplied(AS_DRAWN, made("99 mm")) == made("99 mm")
    assert not multiplied(Correction(1.01, 1.0), made("99 mm")).alike


def test_what_both_together_cannot_be_is_refused() -> None:
    with pytest.raises(MeasuredError):
        multiplied(Correction(1.1, 1.1), made("95 mm"))


SIZES = st.floats(0.9, 1.1)


@given(SIZES, SIZES)
def test_what_is_drawn_for_a_printer_comes_out_of_it_true(across: float, up: float) -> None:
    found = Printer(Measured(measured=100 * across), Measured(measured=100 * up))
    sides = (100 * by * size for by, size in zip(found.correction, (across, up), strict=True))
    tolerance = 0.5 if found.good else 1e-9
    assert list(sides) == pytest.approx([100, 100], abs=tolerance + 1e-9)


@given(SIZES, st.floats(0.97, 1.03))
def test_correcting_twice_is_correcting_once_by_both(first: float, then: float) -> None:
    before = Correction(1 / first, 1 / first)
    way = Measured(measured=100 * then)
    try:
        whole = multiplied(before, Printer(way, way))
    except MeasuredError:
        assert not 0.9 <= first * then <= 1.1
    else:
        assert whole.across.factor == pytest.approx(1 / (first * then))


@pytest.mark.parametrize(
    ("size", "words"),
    [(0.994, "0.60 %\u00a0small"), (1.003, "0.30 %\u00a0large"), (1.0, "true"), (0.99999, "true")],
)
def test_a_size_is_told_in_words(size: float, words: str) -> None:
    assert size_words(size) == words
