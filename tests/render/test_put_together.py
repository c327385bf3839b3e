"""Printed pages, laid together, show what one large sheet would show, to a pixel."""

import math
from dataclasses import replace
from typing import Any

import numpy
import pypdfium2
import pypdfium2.raw as raw
import pytest

import drafting
from drafting.pattern import Pattern
from drafting.printer import AS_DRAWN
from drafting.spec import PaperName
from render.drawing import Document, Drawing, Layer, Page, Text, placed
from render.pages import Printed, printed
from render.pdf import pdf_bytes
from render.piece_drawing import piece_lines
from render.placement import Effort
from render.tiling import Tile

DPI = 200
PER_MM = DPI / 25.4
FULL, HARDLY = 145, 20
"""Ink on a pixel, of 255."""

SHEET = """
[wearer]
waist = "52 cm"
figure = "child"
[skirt]
length = "20 cm"
[print]
overlap = "{overlap}"
measured = ["{across} mm of 200 mm", "{up} mm of 200 mm"]
"""

Image = numpy.ndarray[Any, numpy.dtype[numpy.uint8]]
Mask = numpy.ndarray[Any, numpy.dtype[numpy.bool_]]


Printer = tuple[float, float]
"""What a printer makes of 200 mm, across and up."""

TRUE: Printer = (200.0, 200.0)


def pattern_with(overlap: str, printer: Printer) -> Pattern:
    across, up = printer
    return drafting.draft(drafting.read_sheet(SHEET.format(overlap=overlap, across=across, up=up)))


class Shown:
    """A written document, printed by pdfium on the plane's own lattice of pixels."""

    def __init__(self, document: Document, high: int, wide: int, printer: Printer = TRUE) -> None:
        """Write the document; pixels are those of a plane this high and wide."""
        self.file = pypdfium2.PdfDocument(pdf_bytes(document))
        self.high, self.wide = high, wide
        self.across, self.up = (made / 200 for made in printer)

    def page(self, number: int, left: float, bottom: float) -> Image:
        """Return a page, its own corner that far from the plane's, as the ink on every pixel."""
        page = self.file[number]
        bitmap = pypdfium2.PdfBitmap.new_native(self.wide, self.high, raw.FPDFBitmap_Gray)
        bitmap.fill_rect((255, 255, 255, 255), 0, 0, self.wide, self.high)
        # The page's box is first laid from 0, 0 to its height in points, its top row first.
        across, up = self.across * DPI / 72, self.up * DPI / 72
        down = self.high - page.get_height() * up - bottom * PER_MM
        matrix = raw.FS_MATRIX(across, 0, 0, up, left * PER_MM, down)
        whole = raw.FS_RECTF(0, 0, self.wide, self.high)
        raw.FPDF_RenderPageBitmapWithMatrix(bitmap, page, matrix, whole, raw.FPDF_GRAYSCALE)
        pixels = bitmap.to_numpy()
        return 255 - numpy.asarray(pixels.reshape(pixels.shape[:2])[::-1])


def without_page_marks(drawing: Drawing) -> Drawing:
    """Return what belongs to the pattern and not to the page that it happens to lie on."""
    return Drawing(
        strokes=tuple(stroke for stroke in drawing.strokes if stroke.layer is not Layer.PAGE),
        texts=tuple(text for text in drawing.texts if text.layer is not Layer.PAGE),
    )


def pattern_pages(layout: Printed) -> list[tuple[Tile, Page]]:
    tiles = layout.sheets.tiles
    return list(zip(tiles, layout.document.pages[-len(tiles) :], strict=True))


def one_sheet(layout: Printed) -> Page:
    """Return the plane as one page: lines from the pieces, words from where pages have them."""
    sheets = layout.sheets
    lines = [stroke for placement in sheets.placements for stroke in piece_lines(placement)]
    words: dict[tuple[str, int, int], Text] = {}
    for tile, page in pattern_pages(layout):
        grid = sheets.grid
        dx, dy = tile.window.left - grid.margin, tile.window.bottom - grid.margin
        for text in placed(without_page_marks(page.drawing), x=dx, y=dy).texts:
            words[text.text, round(text.at.x * 100), round(text.at.y * 100)] = text
    drawing = Drawing(strokes=tuple(lines), texts=tuple(words.values()))
    right = max(tile.window.right for tile in sheets.tiles)
    top = max(tile.window.top for tile in sheets.tiles)
    first = replace(layout.document.pages[0], correction=AS_DRAWN)
    window = replace(first.window, left=0.0, bottom=0.0, right=right, top=top)
    return replace(first, width=right, height=top, window=window, drawing=drawing)


def laid_together(layout: Printed, high: int, wide: int, printer: Printer) -> Image:
    """Return the ink of all pages' windows as a printer makes them, laid on one plane."""
    grid = layout.sheets.grid
    plain = [
        replace(page, drawing=without_page_marks(page.drawing)) for _, page in pattern_pages(layout)
    ]
    file = Shown(replace(layout.document, pages=tuple(plain)), high, wide, printer)
    # The window's corner lies a margin from the page's, and that too is printed off size.
    left, bottom = grid.margin * file.across, grid.margin * file.up
    plane = numpy.zeros((high, wide), dtype=numpy.uint8)
    for number, (tile, _) in enumerate(pattern_pages(layout)):
        ink = file.page(number, tile.window.left - left, tile.window.bottom - bottom)
        # A pixel that a cut runs through gets its ink from both sides.
        plane += numpy.minimum(ink, 255 - plane)
    return plane


def reached(marked: Mask) -> Mask:
    """Return pixels marked, and those next to one that is."""
    found = marked.copy()
    for way in (0, 1):
        for step in (1, -1):
            found |= numpy.roll(found, step, axis=way)
    return found


def astray(image: Image, other: Image) -> int:
    """Return how many pixels full of ink have hardly any within a pixel in the other image."""
    return int(numpy.count_nonzero((image > FULL) & ~reached(other > HARDLY)))


def differing(layout: Printed, printer: Printer) -> int:
    """Return how many pixels differ by more than one between the pages laid and one sheet."""
    sheet = one_sheet(layout)
    high, wide = math.ceil(sheet.height * PER_MM), math.ceil(sheet.width * PER_MM)
    whole = Shown(replace(layout.document, pages=(sheet,)), high, wide).page(0, 0.0, 0.0)
    together = laid_together(layout, high, wide, printer)
    assert numpy.count_nonzero(whole > FULL) > 10_000
    return astray(together, whole) + astray(whole, together)


@pytest.mark.parametrize("overlap", ["1 cm", "0 cm"])
@pytest.mark.parametrize("paper", [PaperName.A4, PaperName.LETTER])
def test_pages_laid_together_are_the_one_sheet_to_a_pixel(paper: PaperName, overlap: str) -> None:
    layout = printed(pattern_with(overlap, TRUE), paper, effort=Effort.QUICK)
    assert len(layout.sheets.tiles) > 3
    assert differing(layout, TRUE) == 0


@pytest.mark.parametrize("overlap", ["1 cm", "0 cm"])
def test_so_are_corrected_pages_out_of_the_printer_that_was_measured(overlap: str) -> None:
    printer = (198.0, 201.6)
    layout = printed(pattern_with(overlap, printer), PaperName.A4, effort=Effort.QUICK)
    assert differing(layout, printer) == 0
    assert differing(layout, TRUE) > 1000
