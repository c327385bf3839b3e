"""What is ruled in the booklet: tables, the box of a caution, the ticket's lines of facts.

Points. A home of reportlab.
"""

from collections.abc import Iterator, Sequence
from typing import Any
from xml.sax.saxutils import escape

from reportlab.platypus import Paragraph, Table

from render import fonts
from render.booklet import model
from render.booklet.breaking import KEEP
from render.booklet.columns import column_widths, fits
from render.booklet.divided import ENDLESS, Set, rows
from render.booklet.flowables import REGULAR, TEXT_TALL, THICK, THIN, marked_up, style
from render.booklet.words import clean
from render.pdf import POINTS

GAP = 4 * POINTS
"""White space between columns."""

SIZES = (9.0, 8.5, 8.0)
"""Heights of a table's type; a smaller one is taken when words would be broken."""

_PLAIN: tuple[Any, ...] = (
    ("FONTNAME", (0, 0), (-1, -1), REGULAR),
    ("LEFTPADDING", (0, 0), (-1, -1), 0),
    ("RIGHTPADDING", (0, 0), (-1, -1), 0),
    ("TOPPADDING", (0, 0), (-1, -1), 2.5),
    ("BOTTOMPADDING", (0, 0), (-1, -1), 3.5),
    ("VALIGN", (0, 0), (-1, -1), "TOP"),
)


CHUNK = 170.0
"""A cell taller than this is divided, lest it be taller than a page."""


def _set(rows: list[list[Any]], widths: Any, look: list[Any], **more: Any) -> Table:
    return Table(rows, colWidths=widths, style=[*_PLAIN, *look], hAlign="LEFT", **more)


def _short(row: list[Any], rooms: Sequence[float]) -> Iterator[list[Any]]:
    """Yield a row, in several if it is tall."""
    rest = row
    while any(cell is not None for cell in rest):
        parts = [
            [cell] if cell is None or cell.wrap(room, ENDLESS)[1] <= CHUNK
            else cell.split(room, CHUNK)
            for cell, room in zip(rest, rooms, strict=True)
        ]  # fmt: skip
        yield [part[0] if part[0] is not None else "" for part in parts]
        rest = [part[1] if len(part) > 1 else None for part in parts]


def fact_rows(facts: tuple[str, ...], wide: float) -> Table:
    """Return facts as lines of a ticket, a thin rule under each."""
    lines = [[Paragraph(marked_up(fact), style(10, 13.8))] for fact in facts]
    look = [
        ("LINEABOVE", (0, 0), (-1, 0), THICK, "black"),
        ("LINEBELOW", (0, 0), (-1, -1), THIN, "black"),
    ]
    return _set(lines, [wide], look)


def care_box(title: str, items: tuple[str, ...], indent: float, wide: float) -> Set:
    """Return cautions in a ruled box under its title; whole unless it is half a page or more."""
    listed = style(10, 13.8, left=4 * POINTS)
    head = Paragraph(marked_up(title), style(10, 13.8, bold=True))
    told = [[Paragraph(marked_up(item), listed, bulletText="–")] for item in items]
    room = [wide - 6 * POINTS]
    rows_of_it = [[head], *(short for row in told for short in _short(row, room))]
    look = [
        ("BOX", (0, 0), (-1, -1), 0.35 * POINTS, "black"),
        ("LEFTPADDING", (0, 0), (-1, -1), 3 * POINTS),
        ("RIGHTPADDING", (0, 0), (-1, -1), 3 * POINTS),
        ("TOPPADDING", (0, 0), (-1, -1), 1),
        ("BOTTOMPADDING", (0, 0), (-1, -1), 2),
        ("TOPPADDING", (0, 0), (-1, 0), 5),
        ("BOTTOMPADDING", (0, -1), (-1, -1), 6),
    ]

    def table(start: int, stop: int) -> Table:
        return _set(rows_of_it[start : _end(stop)], [wide], look, spaceBefore=5, spaceAfter=8)

    _, tall = table(0, -1).wrap(wide, ENDLESS)
    cost = KEEP if tall < TEXT_TALL / 2 else 0.5
    return rows(table, indent, wide, heads=0, cost=cost, more=4.0)


def _end(stop: int) -> int | None:
    """Return where a slice ends that -1 lets go to its end."""
    return None if stop < 0 else stop


def ruled_table(table: model.Table, indent: float, wide: float) -> Set:
    """Return a table with its heads again on every page, its columns as wide as their words."""
    told = [[fonts.printable(clean(w)) for w in row] for row in (table.heads, *table.rows)]
    columns = list(zip(*told, strict=True))
    size = next((s for s in SIZES if fits(columns, wide, size=s, gap=GAP)), SIZES[-1])

    def cell(words: str, row: int, column: int) -> Any:
        to_the_right = 2 if column in table.figures else 0
        return Paragraph(
            escape(words), style(size, size * 4 / 3, bold=row == 0, align=to_the_right)
        )

    set_rows = [[cell(words, k, c) for c, words in enumerate(row)] for k, row in enumerate(told)]
    look = [
        ("LEFTPADDING", (1, 0), (-1, -1), GAP),
        ("LINEABOVE", (0, 0), (-1, 0), 0.5 * POINTS, "black"),
        ("LINEBELOW", (0, 0), (-1, 0), 0.5 * POINTS, "black"),
        ("LINEBELOW", (0, 1), (-1, -1), THIN, "black"),
    ]
    widths = column_widths(columns, wide, size=size, gap=GAP, figures=table.figures)
    rooms = [w - (GAP if k else 0) for k, w in enumerate(widths)]
    heads, *own = set_rows
    short = [part for row in own for part in _short(row, rooms)]

    def part(start: int, stop: int) -> Table:
        return _set([heads, *short[start : _end(stop)]], widths, look, spaceAfter=9)

    _, tall = part(0, -1).wrap(wide, ENDLESS)
    cost = 1.0 if tall < TEXT_TALL / 2 else 0.3
    return rows(part, indent, wide, heads=1, cost=cost)
