"""Papers that are corrected for a printer at home and those that are not, and what is said."""

import math
from collections.abc import Callable
from dataclasses import replace

import pytest

from drafting.findings import Level
from drafting.pattern import Pattern, draft
from drafting.printer import AS_DRAWN, Correction, Measured, Printer, measured_from, printer
from drafting.sheet import read_sheet
from drafting.spec import PaperName
from render.correction import (
    corrected_words,
    correction_on,
    is_corrected,
    printer_findings,
    told_of,
)
from render.drawing import About, Kind, Page
from render.pages import Printed, printed
from render.placement import Effort
from tests.render.test_ticket import inked_box, walked

OFF = (measured_from("198.8 mm of 200 mm"), measured_from("200.6 mm of 200 mm"))
GOOD = (measured_from("99.6 mm"),)
FAR = (measured_from("96 mm"),)


def test_what_a_printer_at_home_takes_is_corrected() -> None:
    for name in ("a4", "letter", "a3", "tabloid", "legal", "a4-letter"):
        assert is_corrected(PaperName(name))
        assert correction_on(PaperName(name), OFF) == pytest.approx((1.006036, 0.997009), abs=1e-6)
        assert correction_on(PaperName(name), ()) == AS_DRAWN
        assert correction_on(PaperName(name), GOOD) == AS_DRAWN


@pytest.mark.parametrize("name", ["a0", "a1", "roll-841", "roll-914", "roll-36in", "projector"])
def test_another_paper_is_not_and_a_note_says_so(name: str) -> None:
    paper = PaperName(name)
    assert correction_on(paper, OFF) == AS_DRAWN
    assert corrected_words(OFF, paper) == ()
    (note,) = printer_findings(OFF, [paper])
    assert (note.level, note.code) == (Level.NOTE, "printer-not-this")
    assert f"{name} is not corrected" in note.what
    codes = [one.code for one in printer_findings(OFF, [PaperName.A4, paper])]
    assert codes == ["printer-corrected", "printer-not-this"]


@pytest.mark.parametrize(
    ("measured", "level", "code", "said"),
    [
        (OFF, Level.NOTE, "printer-corrected", "0.60 %\u00a0small across and 0.30 %\u00a0large up"),
        (OFF, Level.NOTE, "printer-corrected", "drawn at 100.60 % across and 99.70 % up"),
        (GOOD, Level.NOTE, "printer-true", "within 0.5 %, so nothing is corrected"),
        (FAR, Level.CAUTION, "printer-far-off", "4.00 %\u00a0small both ways"),
        (FAR, Level.CAUTION, "printer-far-off", "drawn at 104.17 % both ways"),
    ],
)
def test_a_finding_says_how_far_a_printer_is_off(
    measured: tuple[Measured, ...], level: Level, code: str, said: str
) -> None:
    (found,) = printer_findings(measured, [PaperName.A4])
    assert (found.level, found.code) == (level, code)
    assert said in found.what
    assert found.do


def test_no_measures_say_nothing() -> None:
    assert printer_findings((), [PaperName.A4]) == ()
    assert corrected_words((), PaperName.A4) == ()


def test_no_line_of_the_first_page_ends_between_a_figure_and_its_unit() -> None:
    (words,) = corrected_words(OFF, PaperName.A4)
    assert " mm" not in words
    assert " %" not in words
    assert "198.8\u00a0mm of 200\u00a0mm across and 200.6\u00a0mm of 200\u00a0mm up" in words


# --- the pages -----------------------------------------------------------------------------


@pytest.fixture(
    scope="module",
    params=[("chorus-skirt", PaperName.A4), ("classroom-half-scale", PaperName.LETTER)],
    ids=lambda param: param[0],
)
def layout(request: pytest.FixtureRequest, pattern_of: Callable[[str], Pattern]) -> Printed:
    """A pattern drawn for a printer, whose ticket has the most to say."""
    name, paper = request.param
    pattern = pattern_of(name)
    wish = replace(pattern.spec.print, measured=OFF)
    pattern = replace(pattern, spec=replace(pattern.spec, print=wish))
    return printed(pattern, paper, effort=Effort.QUICK)


def ticket(layout: Printed) -> list[Page]:
    return [page for page in layout.document.pages if page.label.startswith("ticket")]


def test_every_page_and_the_file_carry_the_correction(layout: Printed) -> None:
    wanted = Correction(200 / 198.8, 200 / 200.6)
    assert layout.document.about.correction == pytest.approx(wanted)
    assert {page.correction for page in layout.document.pages} == {layout.sheets.grid.correction}
    assert layout.sheets.grid.correction == pytest.approx(wanted)


def test_a_corrected_page_is_the_paper_less_its_margins(layout: Printed) -> None:
    on = layout.sheets.grid
    for page in layout.document.pages:
        right = page.window.left + page.window.width * page.correction.across
        top = page.window.bottom + page.window.height * page.correction.up
        assert page.window.left == page.window.bottom == on.margin
        assert right == pytest.approx(page.width - on.margin)
        assert top == pytest.approx(page.height - on.margin)


def test_the_first_page_says_it_above_all_in_bold_and_gives_no_scale_to_type(
    layout: Printed,
) -> None:
    texts = ticket(layout)[0].drawing.texts
    words = " ".join(text.text for text in texts).replace("\u00a0", " ")
    assert "Corrected for a printer that made 198.8 mm of 200 mm across" in words
    assert "100 × 100 ÷" not in words
    assert "leave the scale at 100 %" in words
    first = next(text for text in texts if text.text.startswith("Corrected"))
    assert first.bold
    assert all(text.at.y <= first.at.y + 12 for text in texts if text.text.startswith("Print "))


def test_all_of_a_corrected_ticket_stays_inside_its_window(layout: Printed) -> None:
    for page in ticket(layout):
        box = page.window
        spots = [spot for text in page.drawing.texts for spot in inked_box(text)]
        spots += [spot for stroke in page.drawing.strokes for spot in walked(stroke)]
        for x, y in spots:
            assert box.left - 0.01 <= x <= box.right + 0.01
            assert box.bottom - 0.01 <= y <= box.top + 0.01


@pytest.mark.parametrize("paper", [PaperName.A1, PaperName.ROLL_841, PaperName.PROJECTOR])
def test_a_paper_that_is_no_home_paper_is_drawn_as_it_is(
    paper: PaperName, pattern_of: Callable[[str], Pattern]
) -> None:
    pattern = pattern_of("young-chorus-skirt")
    wish = replace(pattern.spec.print, measured=OFF)
    found = printed(
        replace(pattern, spec=replace(pattern.spec, print=wish)),
        paper,
        effort=Effort.QUICK,
    )
    assert not found.document.about.correction.needed
    assert not any(page.correction.needed for page in found.document.pages)


# --- what a measured print means -----------------------------------------------------------

CHORUS = About(waist=720.0, sweep=4804.1)


def told(about: About, *measures: str) -> str:
    ways = [measured_from(text) for text in measures]
    return "\n".join(told_of(Printer(ways[0], ways[-1], alike=len(ways) == 1), about))


def test_one_per_cent_of_the_waist_and_the_hem() -> None:
    """The trade's own figures: 7.2 mm of a waist of 720, 48 mm of a hem of 4804."""
    assert "your waist comes out 7.2 mm smaller, the hem 48 mm smaller" in told(CHORUS, "99 mm")
    assert "your waist comes out 7.2 mm larger, the hem 48 mm larger" in told(CHORUS, "101 mm")


def test_a_true_way_is_told_as_true() -> None:
    found = told(CHORUS, "100 mm", "98.5 mm")
    assert "Across, 100 mm of 100 mm is true." in found
    assert "come out between the two" in found


def test_two_ways_that_differ_little_are_given_one_scale() -> None:
    """The mean of 101.523 and 101.317 is 101.42."""
    assert "Print it at 101.42 %" in told(CHORUS, "98.5 mm", "98.7 mm")


def test_what_looks_like_fit_to_page_is_said_to() -> None:
    assert "looks like “fit to page”" in told(CHORUS, "96 mm")
    assert "fit to page" not in told(CHORUS, "98.5 mm")


def test_what_a_copy_shop_prints_is_no_business_of_the_sheet() -> None:
    found = told(replace(CHORUS, kind=Kind.LARGE), "98.5 mm")
    assert "Print it at 101.52 %" in found
    assert "measured = " not in found
    found = told(replace(CHORUS, kind=Kind.PROJECTOR), "98.5 mm")
    assert "until its grid is true" in found
    assert "Print it" not in found


def test_a_corrected_file_names_the_line_that_puts_both_right() -> None:
    """Drawn at 101 and 102 %, it came out 1 % large and 2 % small: 101 / 101 and 98 / 102."""
    found = told(replace(CHORUS, correction=Correction(1.01, 1.02)), "101 mm", "98 mm")
    assert "corrected already, to 101.00 % across and 102.00 % up" in found
    assert "asks for 100.00 % across and 104.08 % up in all" in found
    assert 'measured = ["100 mm of 100 mm", "96.08 mm of 100 mm"]' in found


# --- of which waist and hem ----------------------------------------------------------------

NONE_OF_IT = (0.0, 0.0)


@pytest.mark.parametrize(
    ("sheet", "only", "waist", "hem"),
    [
        # 72 + 1.5 cm of ease drafted one per cent small; a hem of 2 pi 62 cm more.
        ("", (), 735 / 1.01, 735 / 1.01 + math.tau * 620),
        ("[print]\nscope = 'waist'", (), 735 / 1.01, 735 / 1.01),
        ("[print]\nscope = 'card'", (), *NONE_OF_IT),
        # What is gathered, or drawn up, is as long as its band or its elastic.
        ("gather_ratio = 1.5", (), 0.0, 1.5 * 735 / 1.01 + math.tau * 620),
        ("waist_finish = 'casing'\nclosure = 'none'", (), 0.0, None),
        ("cut = 'gathered'", (), *NONE_OF_IT),
        ("cut = 'tiered'", (), 735, 0.0),
        # The panels alone do not carry the hem of a flounce.
        ("flounce = { depth = '15 cm' }", ("skirt panel",), 735 / 1.01, 0.0),
        ("[lining]\nfullness = 'half'", ("lining panel",), 735 / 1.01, 735 / 1.01 + math.pi * 590),
        ("", ("band",), *NONE_OF_IT),
    ],
)
def test_a_print_changes_what_is_on_paper_and_nothing_else(
    sheet: str, only: tuple[str, ...], waist: float, hem: float | None
) -> None:
    body = "[wearer]\nwaist = '72 cm'\nhip = '98 cm'\n[skirt]\nlength = '62 cm'\n"
    pattern = draft(read_sheet(body + sheet + "\n"))
    about = printed(pattern, PaperName.A4, only=only, effort=Effort.QUICK).document.about
    assert about.waist == pytest.approx(waist, abs=1.0)
    if hem is not None:
        assert about.sweep == pytest.approx(hem, abs=1.0)


def test_of_an_owned_skirt_only_the_lining_is_drawn(pattern_of: Callable[[str], Pattern]) -> None:
    pattern = pattern_of("wardrobe-find")
    about = printed(pattern, PaperName.A4, effort=Effort.QUICK).document.about
    assert pattern.figures.lining is not None
    assert about.sweep == pattern.figures.lining.sweep
    assert about.sweep < pattern.figures.skirt.sweep


def test_a_hem_alone_comes_out_smaller_too() -> None:
    words = told(About(sweep=1000.0), "99 mm")
    assert "small: the hem comes out 10 mm smaller." in words
    assert "waist" not in words


def test_no_printer_matters_to_a_card() -> None:
    found = printer((measured_from("98 mm"),))
    assert found is not None
    (line,) = told_of(found, About(kind=Kind.CARD))
    assert "card" in line
