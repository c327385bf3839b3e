"""What is ruled in the booklet: tables, the box of a caution, the ticket's lines of facts.

Points. A home of reportlab.
"""

from typing import Any
from xml.sax.saxutils import escape

from reportlab.platypus import Paragraph, Table

from drafting.language import say
from render import fonts
from render.booklet import model
from render.booklet.columns import column_widths, fits
from render.booklet.flowables import REGULAR, THICK, THIN, led_by, marked_up, style
from render.booklet.words import care_words, clean
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


def _set(rows: list[list[Any]], widths: Any, look: list[Any], **more: Any) -> Table:
    """Return rows as a table that may be divided between its rows, and in one if it must."""
    return Table(
        rows, colWidths=widths, style=[*_PLAIN, *look], splitInRow=1, hAlign="LEFT", **more
    )


def fact_rows(facts: tuple[str, ...], wide: float) -> Table:
    """Return facts as lines of a ticket, a thin rule under each."""
    rows = [[Paragraph(marked_up(fact), style(10, 13.8))] for fact in facts]
    look = [
        ("LINEABOVE", (0, 0), (-1, 0), THICK, "black"),
        ("LINEBELOW", (0, 0), (-1, -1), THIN, "black"),
    ]
    return _set(rows, [wide], look)


def care_box(title: str, items: tuple[str, ...], wide: float) -> Table:
    """Return cautions in a ruled box under the word "Care"."""
    listed = style(10, 13.8, left=4 * POINTS)
    rows = [[Paragraph(led_by(say("Care"), care_words(title)), style(10, 13.8))]]
    rows += [[Paragraph(marked_up(item), listed, bulletText="–")] for item in items]
    look = [
        ("BOX", (0, 0), (-1, -1), 0.35 * POINTS, "black"),
        ("LEFTPADDING", (0, 0), (-1, -1), 3 * POINTS),
        ("RIGHTPADDING", (0, 0), (-1, -1), 3 * POINTS),
        ("TOPPADDING", (0, 0), (-1, -1), 1),
        ("BOTTOMPADDING", (0, 0), (-1, -1), 2),
        ("TOPPADDING", (0, 0), (-1, 0), 5),
        ("BOTTOMPADDING", (0, -1), (-1, -1), 6),
    ]
    return _set(rows, [wide], look, spaceBefore=5, spaceAfter=8)


def ruled_table(table: model.Table, wide: float) -> Table:
    """Return a table with its heads again on every page, its columns as wide as their words."""
    told = [[fonts.printable(clean(w)) for w in row] for row in (table.heads, *table.rows)]
    columns = list(zip(*told, strict=True))
    size = next((s for s in SIZES if fits(columns, wide, size=s, gap=GAP)), SIZES[-1])

    def cell(words: str, row: int, column: int) -> Any:
        to_the_right = 2 if column in table.figures else 0
        return Paragraph(
            escape(words), style(size, size * 4 / 3, bold=row == 0, align=to_the_right)
        )

    rows = [[cell(words, k, c) for c, words in enumerate(row)] for k, row in enumerate(told)]
    look = [
        ("LEFTPADDING", (1, 0), (-1, -1), GAP),
        ("LINEABOVE", (0, 0), (-1, 0), 0.5 * POINTS, "black"),
        ("LINEBELOW", (0, 0), (-1, 0), 0.5 * POINTS, "black"),
        ("LINEBELOW", (0, 1), (-1, -1), THIN, "black"),
    ]
    widths = column_widths(columns, wide, size=size, gap=GAP, figures=table.figures)
    return _set(rows, widths, look, repeatRows=1, spaceAfter=9)
