"""Numbers in a picture and what they stand for, set in columns under it.

For pictures whose parts lie too close for words beside each. Millimetres on the booklet's page.
Imports the inks of pictures.
"""

from collections.abc import Sequence

from drafting.geometry import Point
from drafting.units import Mm
from render.drawing import Anchor, Drawing, together
from render.fonts import wrapped
from render.pictures import ink
from render.pictures.picture import SMALL_TYPE
from render.style import CAP_HEIGHT, LEADING

INDENT: Mm = 5.0
"""From a number to its words."""

BETWEEN: Mm = 5.0
"""From one column to the next."""

_LEAD: Mm = SMALL_TYPE * LEADING


def number(mark: str, at: Point, to: Point) -> Drawing:
    """Return a bold number beside a picture and a line from it to the point that it names."""
    right = at.x > to.x
    anchor = Anchor.START if right else Anchor.END
    away = ink.CLEAR if right else -ink.CLEAR
    foot = Point(at.x + away, at.y - CAP_HEIGHT * SMALL_TYPE / 2)
    return together(ink.line(at, to), ink.dot(to), ink.words(mark, foot, anchor=anchor, bold=True))


def legend(rows: Sequence[tuple[str, str]], left: Mm, top: Mm, wide: Mm, columns: int) -> Drawing:
    """Return numbers with their words, filled column by column, as even as they come.

    Args:
        top: the feet of the first line stand a line below it.
    """
    each = (wide - (columns - 1) * BETWEEN) / columns
    broken = [(mark, wrapped(words, SMALL_TYPE, each - INDENT)) for mark, words in rows]
    most = -(-sum(len(lines) for _, lines in broken) // columns)
    drawn = []
    column, used = 0, 0
    for mark, lines in broken:
        if used and used + len(lines) > most and column < columns - 1:
            column, used = column + 1, 0
        x = left + column * (each + BETWEEN)
        for k, words in enumerate(lines):
            y = top - (used + k + 1) * _LEAD
            if k == 0:
                drawn.append(ink.words(mark, Point(x, y), bold=True))
            drawn.append(ink.words(words, Point(x + INDENT, y)))
        used += len(lines)
    return together(*drawn)
