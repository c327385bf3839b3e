"""The table of sizes on a ticket: a column for each size, what the body measures and the garment.

Millimetres in the page's frame. Imports setting and the facts of sizes.
"""

from collections.abc import Sequence

from drafting.geometry import Point, straight
from drafting.language import say
from drafting.pattern import Pattern
from drafting.units import Mm
from render import fonts, style
from render.drawing import Anchor
from render.nest.facts import SizedRow, body_rows, cells, finished_rows
from render.setting import Setting

ROW: Mm = style.SMALL * 1.6
SIZED_HIGH: Mm = 12 * ROW
"""About how high the table is with its head: what a heading over it keeps together with it."""


def sized_table(page: Setting, pattern: Pattern) -> None:
    """Set the table, in two halves under each other where its columns have no room beside."""
    set_rows(page, pattern, (*body_rows(pattern), *finished_rows(pattern)))


def set_rows(page: Setting, pattern: Pattern, rows: Sequence[SizedRow]) -> None:
    """Set rows of lengths under the names of the sizes."""
    told = [cells(row, pattern) for row in rows]
    sizes = pattern.spec.publish.sizes
    first = max(fonts.width(row.name, style.SMALL, bold=True) for row in rows) + 3
    wide = max(fonts.width(words, style.SMALL) for own in told for words in own) + 2.5
    fit = max(1, int((page.width - first) / wide))
    for begin in range(0, len(sizes), fit):
        part = range(begin, min(begin + fit, len(sizes)))
        _part(page, rows, told, sizes, part, first, wide)


def _part(
    page: Setting,
    rows: Sequence[SizedRow],
    told: Sequence[Sequence[str]],
    sizes: Sequence[str],
    part: range,
    first: Mm,
    wide: Mm,
) -> None:
    page.need((len(rows) + 1) * ROW + 3)
    page.y -= ROW
    page.line(say("size"), page.left, page.y + 1, size=style.SMALL, bold=True)
    for place, k in enumerate(part, start=1):
        right = page.left + first + place * wide
        page.line(sizes[k], right, page.y + 1, size=style.SMALL, bold=True, anchor=Anchor.END)
    end = page.left + first + len(part) * wide
    page.draw(straight(Point(page.left, page.y - 0.6), Point(end, page.y - 0.6)))
    page.y -= 0.8
    for row, own in zip(rows, told, strict=True):
        page.y -= ROW
        page.line(row.name, page.left, page.y + 1, size=style.SMALL)
        for place, k in enumerate(part, start=1):
            right = page.left + first + place * wide
            page.line(own[k], right, page.y + 1, size=style.SMALL, anchor=Anchor.END)
    page.y -= 2
