"""Papers as the standards have them, and margins that leave room for a test square."""

import pytest

from drafting.errors import DraftingError
from drafting.printer import Correction
from drafting.spec import PaperName
from render.paper import HOME, PAPERS, SHEETS, PaperError, grid, paper_metres

# ISO 216:2007; ANSI/ASME Y14.1 A and B, and US Legal, in inches of 25.4 mm.
SIZES = {
    PaperName.A4: (210.0, 297.0),
    PaperName.A3: (297.0, 420.0),
    PaperName.LETTER: (8.5 * 25.4, 11 * 25.4),
    PaperName.TABLOID: (11 * 25.4, 17 * 25.4),
    PaperName.LEGAL: (8.5 * 25.4, 14 * 25.4),
    PaperName.A0: (841.0, 1189.0),
    PaperName.A1: (594.0, 841.0),
}


@pytest.mark.parametrize("name", SIZES)
def test_a_paper_has_the_size_of_its_standard(name: PaperName) -> None:
    assert (PAPERS[name].width, PAPERS[name].height) == pytest.approx(SIZES[name], abs=1e-9)


def test_every_paper_that_a_sheet_may_name_is_known() -> None:
    assert set(PAPERS) == set(PaperName)


def test_the_page_for_both_fits_on_a4_and_on_letter() -> None:
    both = PAPERS[PaperName.A4_LETTER]
    assert both.width == min(210.0, 8.5 * 25.4)
    assert both.height == min(297.0, 11 * 25.4)


@pytest.mark.parametrize("name", (*HOME, *SHEETS))
def test_printers_that_leave_a_centimetre_blank_print_every_window(name: PaperName) -> None:
    on = grid(name, margin=None, overlap=10)
    assert on.margin >= 10
    window = on.window
    assert window.left == window.bottom == on.margin
    assert window.width == pytest.approx(PAPERS[name].width - 2 * on.margin)
    assert window.height == pytest.approx(PAPERS[name].height - 2 * on.margin)
    assert on.step_x == pytest.approx(window.width - 10)
    assert on.step_y == pytest.approx(window.height - 10)


def test_butt_joins_step_by_the_whole_window() -> None:
    on = grid(PaperName.A4, margin=10, overlap=0)
    assert (on.step_x, on.step_y) == (190, 277)


@pytest.mark.parametrize(
    ("margin", "overlap"),
    [(36.0, 0.0), (10.0, 51.0), (30.0, 15.0), (120.0, 0.0), (float("nan"), 10.0)],
)
def test_a_window_too_small_for_the_test_square_is_refused(margin: float, overlap: float) -> None:
    with pytest.raises(PaperError) as caught:
        grid(PaperName.A4, margin=margin, overlap=overlap)
    assert isinstance(caught.value, DraftingError)
    assert "A4" in str(caught.value)
    assert "140 mm" in str(caught.value)


def test_the_widest_margins_that_do_are_taken() -> None:
    assert grid(PaperName.A4, margin=35, overlap=0).step_x == 140


def test_a_corrected_window_is_as_much_smaller_as_its_drawing_is_enlarged() -> None:
    """By hand: 190 / 1.01 = 188.119, 277 / 0.99 = 279.798."""
    on = grid(PaperName.A4, margin=10, overlap=10, correction=Correction(1.01, 0.99))
    assert (on.window.left, on.window.bottom) == (10, 10)
    assert on.window.width == pytest.approx(188.119, abs=5e-4)
    assert on.window.height == pytest.approx(279.798, abs=5e-4)
    assert on.step_x == pytest.approx(178.119, abs=5e-4)
    assert on.step_y == pytest.approx(269.798, abs=5e-4)


def test_a_window_that_a_correction_makes_too_small_is_refused() -> None:
    assert grid(PaperName.A4, margin=30, overlap=0, correction=Correction(1.07, 1)).step_x > 140
    with pytest.raises(PaperError):
        grid(PaperName.A4, margin=30, overlap=0, correction=Correction(1.08, 1))


# What plotters draw on of rolls that are 841 mm, 914 mm and 36 in wide.
ROLLS = {"roll-841": (841.0, 820.0), "roll-914": (914.0, 890.0), "roll-36in": (36 * 25.4, 890.0)}


@pytest.mark.parametrize("name", ROLLS)
def test_a_roll_is_drawn_on_where_plotters_can(name: str) -> None:
    on = grid(PaperName(name), margin=None, overlap=10)
    assert (on.paper.width, on.window.width) == pytest.approx(ROLLS[name], abs=1e-9)
    # ISO 32000-1, annex C: 14 400 units of 1/72 in at most.
    assert on.paper.height == pytest.approx(14_400 / 72 * 25.4)


@pytest.mark.parametrize(
    ("lengths", "metres"),
    [([1877.0], 1.9), ([1900.0], 1.9), ([1900.1], 2.0), ([2500.0, 2500.0], 5.0), ([60.0], 0.1)],
)
def test_metres_of_a_roll_are_rounded_up_to_a_decimetre(
    lengths: list[float], metres: float
) -> None:
    assert paper_metres(lengths) == pytest.approx(metres)


def test_a_roll_whose_margins_leave_no_width_is_refused_with_the_reason() -> None:
    with pytest.raises(PaperError, match="roll 841 mm wide"):
        grid(PaperName.ROLL_841, margin=360, overlap=10)
