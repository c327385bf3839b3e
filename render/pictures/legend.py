"""Numbers in a picture and what they stand for, set in columns under it.

For pictures whose parts lie too close for words beside each. Millimetres on the booklet's page.
Imports the inks of pictures.
"""

import math
from collections.abc import Sequence
from functools import partial
from itertools import pairwise

from drafting.geometry import Point, distance, flattened, off_run, on_circle
from drafting.units import Mm
from render.drawing import Anchor, Drawing, Text, together
from render.fonts import wrapped
from render.pictures import ink
from render.pictures.picture import SMALL_TYPE
from render.style import CAP_HEIGHT, LEADING

INDENT: Mm = 5.0
"""From a number to its words."""

BETWEEN: Mm = 5.0
"""From one column to the next."""

ROOM: Mm = 1.8
"""From the middle of a number to the nearest line, at least."""

_LEAD: Mm = SMALL_TYPE * LEADING


def number(mark: str, at: Point, to: Point) -> Drawing:
    """Return a bold number beside a picture and a line from it to the point that it names."""
    right = at.x > to.x
    anchor = Anchor.START if right else Anchor.END
    away = ink.CLEAR if right else -ink.CLEAR
    foot = Point(at.x + away, at.y - CAP_HEIGHT * SMALL_TYPE / 2)
    return together(ink.line(at, to), ink.dot(to), ink.words(mark, foot, anchor=anchor, bold=True))


def clear_numbers(at: dict[str, tuple[Point, Point]], drawn: Drawing) -> Drawing:
    """Return numbers beside the points they name, each clear of all lines and other numbers.

    Each keeps its own place while that is clear; else places round its point are tried, as the
    panel may lie on any side of it, and the clearest taken.
    """
    placed: list[Drawing] = []
    for mark, (wish, to) in at.items():
        there = together(drawn, *placed)
        runs = [pair for stroke in there.strokes for pair in pairwise(flattened(stroke.path))]
        others = [_middle(text) for text in together(*placed).texts]
        first = math.atan2(wish.y - to.y, wish.x - to.x)
        tries = [number(mark, wish, to)] + [
            number(mark, on_circle(to, reach, first + turn * math.radians(15)), to)
            for reach in (5.0, 7.0, 9.0, 12.0)
            for turn in (0, *(side * k for k in range(1, 13) for side in (1, -1)))
        ]
        free = partial(_room, runs=runs, others=others)
        clear = (one for one in tries if free(one) >= ROOM)
        placed.append(next(clear, None) or max(tries, key=free))
    return together(*placed)


def _room(numbered: Drawing, *, runs: Sequence[tuple[Point, Point]], others: Sequence[Point]) -> Mm:
    """Return how far a number's middle lies from lines, or half as far as from other numbers."""
    middle = _middle(numbered.texts[0])
    near = min(off_run(middle, *run) for run in runs)
    return min([near, *(distance(middle, other) / 2 for other in others)])


def _middle(text: Text) -> Point:
    box = ink.text_box(text)
    return Point((box.left + box.right) / 2, (box.bottom + box.top) / 2)


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
