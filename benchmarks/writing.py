"""How long pages take to write, and how large they are: python benchmarks/writing.py

The lines of eight sizes nested on one plane are cut into pages and written as a PDF, and those
of one size alone, each of them again and again in one run. Words and marks stay the same.
"""

import io
import statistics
import sys
import time
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from pypdf import PdfReader

import drafting
from drafting.spec import PaperName
from render.drawing import Document, Drawing, Layer, Stroke, together
from render.pages import Printed, printed
from render.pdf import pdf_bytes
from render.piece_drawing import piece_lines
from render.placement import Effort
from render.tiling import on_page

SHEET = Path(__file__).resolve().parent.parent / "measurements_examples" / "chorus-skirt.toml"
SIZES = range(8)
STEP = 40.0
"""From one size's waist to the next, in millimetres."""

TIMES, KIB = 3.0, 3.0
"""Aims: eight sizes over one in time, and KiB a page without the fonts."""


def lines_of(layout: Printed, sizes: Sequence[int]) -> list[Stroke]:
    """Return the lines of several sizes, each piece where the layout has that of the sheet."""
    spec = drafting.load(SHEET)
    lines: list[Stroke] = []
    for size in sizes:
        wearer = replace(
            spec.wearer,
            waist=spec.wearer.waist - STEP * size,
            hip=spec.wearer.hip - STEP * size,
        )
        pieces = {p.name: p for p in drafting.draft(replace(spec, wearer=wearer)).pieces}
        for placement in layout.sheets.placements:
            lines += piece_lines(replace(placement, piece=pieces[placement.piece.name]))
    return lines


def with_lines(layout: Printed, lines: Sequence[Stroke]) -> Document:
    """Return the layout's document with those lines drawn on its pages as well."""
    sheets = layout.sheets
    ticket = len(layout.document.pages) - len(sheets.tiles)
    pages = [
        replace(page, drawing=together(on_page(lines, tile, sheets.grid), page.drawing))
        for tile, page in zip(sheets.tiles, layout.document.pages[ticket:], strict=True)
    ]
    return replace(layout.document, pages=(*layout.document.pages[:ticket], *pages))


def without_pieces(document: Document) -> Document:
    """Return the document with the lines of its pages alone."""
    return replace(
        document,
        pages=tuple(
            replace(
                page,
                drawing=Drawing(
                    strokes=tuple(s for s in page.drawing.strokes if s.layer is Layer.PAGE),
                    texts=page.drawing.texts,
                ),
            )
            for page in document.pages
        ),
    )


def without_fonts(data: bytes) -> int:
    """Return the size of a file in bytes without the fonts that it carries."""
    fonts: dict[int, int] = {}
    reader = PdfReader(io.BytesIO(data))
    for page in reader.pages:
        for font in page["/Resources"]["/Font"].values():  # type: ignore[index]
            described = font.get_object().get("/FontDescriptor")
            held = described.get_object().raw_get("/FontFile2") if described is not None else None
            if held is not None:
                fonts[held.idnum] = len(held.get_object()._data)
    return len(data) - sum(fonts.values())


def main() -> None:
    """Print times, their ratio and the sizes of the files; end with 1 if an aim is missed."""
    pattern = drafting.draft(drafting.load(SHEET))
    layout = printed(pattern, PaperName.A4, effort=Effort.QUICK)
    bare = replace(layout, document=without_pieces(layout.document))
    taken: dict[int, list[float]] = {1: [], len(SIZES): []}
    lines = {count: lines_of(layout, SIZES[:count]) for count in taken}
    written: dict[int, bytes] = {}
    for _ in range(7):
        for count, spent in taken.items():
            begin = time.perf_counter()
            written[count] = pdf_bytes(with_lines(bare, lines[count]))
            spent.append(time.perf_counter() - begin)
    one, eight = (statistics.median(taken[count]) for count in taken)
    print(f"one size {one * 1000:.0f} ms, eight {eight * 1000:.0f} ms: {eight / one:.2f} times")
    data = pdf_bytes(layout.document)
    pages = len(layout.document.pages)
    kib = without_fonts(data) / 1024 / pages
    print(f"{pages} pages, {kib:.2f} KiB a page without fonts")
    sys.exit(1 if eight / one > TIMES or kib > KIB else 0)


if __name__ == "__main__":
    main()
