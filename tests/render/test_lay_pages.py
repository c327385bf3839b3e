"""Lay plans as a file: a page or more a cloth, every copy listed, and what to buy."""

import math
import re
from collections.abc import Callable
from dataclasses import replace

import pytest

import drafting
from drafting.cloth.buying import sold_text
from drafting.cloth.laying import lay_plans
from drafting.cloth.lays import Lay
from drafting.cloth.shopping import (
    AtWidth,
    Measured,
    Notion,
    Purchase,
    Shopping,
)
from drafting.effort import Effort
from drafting.findings import caution
from drafting.pattern import Pattern
from drafting.spec import PaperName, Print
from drafting.units import Units
from render.correction import told_of
from render.drawing import About, Document, Kind, Page
from render.lay_pages import lay_document
from render.pdf import pdf_bytes
from render.proof import proof
from tests.render.cloth_shapes import overlapping
from tests.render.test_lay_picture import STRIPS, read
from tests.render.test_ticket import inked_box, walked

EXAMPLES = ("chorus-skirt", "signal-skirt", "tea-dance-skirt", "wave-petticoat")

EIGHTH_OF_A_YARD = 114.3


def shopping_for(lays: tuple[Lay, ...]) -> Shopping:
    """Return a made-up list: the first cloth has a price, the others have none."""
    return Shopping(
        purchases=tuple(
            Purchase(
                lay=lay,
                washed=lay.length,
                shrinking=90.0,
                repeats=0.0,
                squaring=50.0,
                buy=21 * EIGHTH_OF_A_YARD if k else 2500.0,
                cost=31.25 if k == 0 else None,
                grams=240.0,
                estimated=True,
            )
            for k, lay in enumerate(lays)
        ),
        widths={
            lays[0].name: (
                AtWidth(width=900.0, panels=6, more_seams=True, buy=4100.0),
                AtWidth(width=1120.0, buy=None),
                AtWidth(width=1500.0, panels=2, buy=2200.0, cheapest=True),
            )
        },
        notions=(
            Notion(
                name="sewing thread",
                amount=180.0,
                measured=Measured.METRES,
                about=True,
                why="every seam twice, the hem once, and a fifth more for winding and trying",
            ),
            Notion(name="zip", amount=200.0, measured=Measured.LENGTH, why="for the opening"),
            Notion(name="hooks", amount=2.0, measured=Measured.COUNT, why="to close the band"),
        ),
        grams=731.0,
        cost=31.25,
        unpriced=tuple(lay.name for lay in lays[1:]),
        findings=(caution("over-the-fold", "The net is sold folded.", "Open it out."),),
    )


@pytest.fixture(params=EXAMPLES, scope="module")
def written(
    request: pytest.FixtureRequest, pattern_of: Callable[[str], Pattern]
) -> tuple[Pattern, tuple[Lay, ...], Document]:
    """One garment's plans after the other, with what to buy."""
    pattern = pattern_of(request.param)
    lays = lay_plans(pattern, Effort.QUICK)
    return pattern, lays, lay_document(pattern, lays, shopping_for(lays))


Written = tuple[Pattern, tuple[Lay, ...], Document]


def words_of(pages: tuple[Page, ...] | list[Page]) -> str:
    return " ".join(text.text for page in pages for text in page.drawing.texts).replace(
        "\u00a0", " "
    )


def pages_of(document: Document, name: str) -> list[Page]:
    return [page for page in document.pages if page.label.startswith(f"{name} lay")]


def test_nothing_is_printed_over_other_words_or_outside_the_window(written: Written) -> None:
    for page in written[2].pages:
        window = page.window
        texts = [text for text in page.drawing.texts if text.text.strip()]
        boxes = [inked_box(text) for text in texts]
        over = [(texts[k].text, texts[m].text) for k, m in overlapping(boxes, by=0.1)]
        assert not over, f"{page.label}: {over}"
        spots = [spot for box in boxes for spot in box]
        spots += [spot for stroke in page.drawing.strokes for spot in walked(stroke)]
        for x, y in spots:
            assert window.left - 0.01 <= x <= window.right + 0.01, page.label
            assert window.bottom - 0.01 <= y <= window.top + 0.01, page.label


def test_type_is_never_smaller_than_eight_points(written: Written) -> None:
    sizes = [text.size for page in written[2].pages for text in page.drawing.texts]
    assert min(sizes) >= 8 * 25.4 / 72


def test_every_page_says_that_it_is_not_to_be_cut_from(written: Written) -> None:
    for page in written[2].pages:
        assert "not to be cut from" in words_of([page]), page.label
    for lay in written[1]:
        first = pages_of(written[2], lay.name)[0]
        assert re.search(r"drawn at 1:\d+, not to be cut from", words_of([first]))


def test_the_list_names_every_copy_of_every_piece(written: Written) -> None:
    _, lays, document = written
    for lay in lays:
        cells = [text.text for page in pages_of(document, lay.name) for text in page.drawing.texts]
        for one in lay.laid:
            assert f"{one.copy} of {one.shape.count}" in cells or one.shape.count >= 6
            assert any(one.shape.name in cell for cell in cells)


def test_the_list_tells_where_a_piece_begins_and_how_far_its_arrow_is_from_the_selvage(
    pattern_of: Callable[[str], Pattern],
) -> None:
    pattern = pattern_of("chorus-skirt")
    (lay,) = (lay for lay in lay_plans(pattern, Effort.QUICK) if lay.name == "skirt")
    pages = pages_of(lay_document(pattern, [lay]), "skirt")
    rows: dict[float, list[str]] = {}
    for page in pages:
        for text in sorted(page.drawing.texts, key=lambda text: text.at.x):
            rows.setdefault(round(text.at.y, 2), []).append(text.text.replace("\u00a0", " "))
    for one in lay.laid:
        (ax, ay), (bx, by) = one.shape.piece.grainline
        # The arrow's middle, turned and shifted by hand; none of these is flipped.
        assert not one.flipped
        x, y = (ax + bx) / 2, (ay + by) / 2
        arrow = one.y + x * math.sin(one.turn) + y * math.cos(one.turn)
        row = next(
            row
            for row in rows.values()
            if row[:3]
            == [str(one.shape.number), one.shape.name, f"{one.copy} of {one.shape.count}"]
        )
        assert row[3:6] == [
            f"{abs(one.box.left) / 10:.1f} cm",
            f"{abs(one.box.bottom) / 10:.1f} cm",
            f"{arrow / 10:.1f} cm",
        ]


def test_many_strips_in_even_steps_are_listed_by_their_step() -> None:
    pattern = read(STRIPS.replace("tiers = 5", "tiers = 3"))  # 181 strips
    lay = drafting.cloth.lay(pattern, "ruffle", Effort.QUICK)
    document = lay_document(pattern, [lay])
    pages = pages_of(document, "ruffle")
    words = words_of(pages)
    cells = {text.text.replace("\u00a0", " ") for page in pages for text in page.drawing.texts}
    for shape in lay.shapes:
        first, last = f"1 of {shape.count}", f"{shape.count} of {shape.count}"
        assert {first, f"2 to {shape.count - 1}", last} <= cells
    assert "further on than the one before" in words
    assert len(document.pages) < 4


def test_each_cloth_has_its_page_with_width_length_and_layers(written: Written) -> None:
    pattern, lays, document = written
    labels = [page.label for page in document.pages]
    assert len(set(labels)) == len(labels)
    for lay in lays:
        first = pages_of(document, lay.name)[0]
        assert first.bookmark.startswith("Lay plan: ")
        words = words_of([first])
        assert "to lay" in words
        assert "single layer, right side up" in words
        inches = pattern.spec.units is Units.INCH
        width = lay.cloth.width / (25.4 if inches else 10)
        assert (f"{width:.0f} in wide" if inches else f"{width:.1f} cm wide") in words


def test_what_to_buy_is_told_with_widths_notions_and_weight(
    pattern_of: Callable[[str], Pattern],
) -> None:
    pattern = pattern_of("chorus-skirt")
    lays = lay_plans(pattern, Effort.QUICK)
    document = lay_document(pattern, lays, shopping_for(lays))
    words = words_of([page for page in document.pages if page.label.startswith("what to buy")])
    for told in (
        "2.5 m", "31.25", "lining, ruffle, interfacing left out", "about 730 g",
        "About how much at usual widths", "least cloth", "more seams",
        "too narrow to cut from", "about 180.0 m", "20.0 cm", "to close the band",
        "close rotary cutters", "Count them on the cloth against the cut list", "Wash, dry",
        "The net is sold folded. Open it out.",
    ):  # fmt: skip
        assert told in words, told


def test_cloth_is_bought_by_the_tenth_of_a_metre_or_the_eighth_of_a_yard() -> None:
    assert sold_text(2300.0, Units.CM) == "2.3\u00a0m"
    assert sold_text(21 * EIGHTH_OF_A_YARD, Units.INCH) == "2⅝\u00a0yd"
    assert sold_text(24 * EIGHTH_OF_A_YARD, Units.INCH) == "3\u00a0yd"


def test_without_a_list_to_buy_the_cautions_are_there_all_the_same(
    pattern_of: Callable[[str], Pattern],
) -> None:
    pattern = pattern_of("young-chorus-skirt")
    document = lay_document(pattern, lay_plans(pattern, Effort.QUICK))
    words = words_of(list(document.pages))
    assert "close rotary cutters" in words
    assert "What to buy" not in words


@pytest.mark.parametrize(
    ("papers", "units", "short"),
    [
        ((PaperName.A4,), Units.CM, 210.0),
        ((PaperName.LETTER,), Units.CM, 215.9),
        ((PaperName.A0,), Units.CM, 210.0),
        ((PaperName.ROLL_36IN,), Units.INCH, 215.9),
    ],
)
def test_pages_are_of_the_paper_at_home(
    papers: tuple[PaperName, ...],
    units: Units,
    short: float,
    pattern_of: Callable[[str], Pattern],
) -> None:
    pattern = pattern_of("young-chorus-skirt")
    spec = replace(pattern.spec, units=units, print=Print(papers=papers))
    pattern = replace(pattern, spec=spec)
    document = lay_document(pattern, lay_plans(pattern, Effort.QUICK))
    for page in document.pages:
        assert min(page.width, page.height) == pytest.approx(short)


def test_a_proof_finds_no_fault(written: Written) -> None:
    document = written[2]
    found = proof(pdf_bytes(document))
    assert found.faults == ()
    assert found.about.kind is Kind.LAY
    assert found.rules == (0.0, 0.0)
    assert found.pages == len(document.pages)


@pytest.mark.parametrize("name", ["chorus-skirt", "tea-dance-skirt"])
def test_the_same_plans_give_the_same_bytes(
    name: str, pattern_of: Callable[[str], Pattern]
) -> None:
    pattern = pattern_of(name)
    lays = lay_plans(pattern, Effort.QUICK)
    one, other = (pdf_bytes(lay_document(pattern, lays, shopping_for(lays))) for _ in range(2))
    assert one == other


def test_what_a_printer_measures_does_not_matter_to_a_plan(
    pattern_of: Callable[[str], Pattern],
) -> None:
    from drafting.printer import Measured as Ruled
    from drafting.printer import printer

    found = printer((Ruled(measured=198.0, nominal=200.0),))
    assert found is not None
    (line,) = told_of(found, About(kind=Kind.LAY))
    assert "drawn small" in line


@pytest.mark.parametrize("name", ["chorus-skirt", "tea-dance-skirt", "wave-petticoat"])
def test_a_short_list_stands_under_its_picture(
    name: str, pattern_of: Callable[[str], Pattern]
) -> None:
    pattern = pattern_of(name)
    document = lay_document(pattern, lay_plans(pattern, Effort.QUICK))
    for page in document.pages:
        if page.bookmark == "Lay plan: interfacing":
            assert "Where each lies" in words_of([page])
