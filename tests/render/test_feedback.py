"""What a reader is asked to measure, on the first pages of every file."""

from dataclasses import replace

import pytest

from drafting.check_seams import check_seams
from drafting.spec import PaperName, Publish
from drafting.units import length_text
from render.drawing import Page
from render.pages import Printed, printed
from render.placement import Effort
from tests.examples import pattern_of_example
from tests.render.nest.test_nested_pages import layout_of, pattern_of

ASKED = "these stitching lines"


def words(pages: tuple[Page, ...]) -> str:
    told = " ".join(text.text for page in pages for text in page.drawing.texts)
    return told.replace("\u00a0", " ")


def shown(name: str, paper: PaperName, publish: Publish) -> Printed:
    pattern = pattern_of_example(name)
    sized = replace(publish, sizes=pattern.spec.publish.sizes)
    spec = replace(pattern.spec, publish=sized)
    return printed(replace(pattern, spec=spec), paper, effort=Effort.QUICK)


@pytest.mark.parametrize("paper", [PaperName.A4, PaperName.ROLL_914, PaperName.PROJECTOR])
def test_the_ticket_asks_for_two_seams_and_gives_their_lengths(paper: PaperName) -> None:
    publish = Publish(maker="The Pier Workroom", page="https://example.org/skirts")
    told = words(shown("chorus-skirt", paper, publish).document.pages)
    assert ASKED in told
    # A circle's half panel: 620 mm of side, a quarter of 747.52 mm round the waist.
    assert "62.0 cm" in told and "18.7 cm" in told
    assert "half a per cent" in told
    assert "glad to hear what you measured: https://example.org/skirts" in told


def test_the_first_page_at_home_asks() -> None:
    publish = Publish(maker="The Pier Workroom")
    first = shown("chorus-skirt", PaperName.A4, publish).document.pages[:1]
    assert ASKED in words(first)
    assert "glad to hear" not in words(first)


def test_nobody_is_asked_where_no_maker_is_named() -> None:
    assert ASKED not in words(shown("chorus-skirt", PaperName.A4, Publish()).document.pages)


def test_a_graded_pattern_gives_the_lengths_of_every_size() -> None:
    layout, pattern = layout_of("front-row-skirt"), pattern_of("front-row-skirt")
    tickets = len(layout.document.pages) - len(layout.sheets.tiles)
    told = words(layout.document.pages[:tickets])
    assert ASKED in told
    names = [placement.piece.name for placement in layout.sheets.placements]
    after = told[told.index(ASKED) :]
    for seam in check_seams(pattern, names):
        assert seam.words in after
        lengths = [length_text(long, pattern.spec.units) for long in seam.lengths]
        assert " ".join(lengths).replace("\u00a0", " ") in after
