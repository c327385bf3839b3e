"""Two edges of different length, matched mark to mark: their thin lines, names and ticks.

Millimetres on the booklet's page. Imports places round the body and the inks of pictures.
"""

from collections.abc import Callable

from drafting.geometry import Point
from drafting.language import decimal, said_later, say
from drafting.places import first_seam, place_name
from drafting.spec import Closure
from drafting.units import Mm
from render import style
from render.drawing import Anchor, Drawing, together
from render.fonts import wrapped
from render.pictures import ink
from render.pictures.picture import SMALL_TYPE

LONG: Mm = 118.0
"""Width of the longer edge in the picture."""

STRIP: Mm = 10.0
"""Depth of a strip in the picture."""

ROOM: Mm = 26.0
"""Widest that a place's name runs: less than from one quarter mark to the next."""

LEAD: Mm = SMALL_TYPE * style.LEADING
"""From one line of words to the next."""

EIGHTH: Mm = 2.4
"""How far the mark of an eighth stands out of its edge."""

_RAISED: Mm = 3.2
"""From the lower edge to the feet of the names above it."""

_NAMES = (
    said_later("centre back"),
    said_later("right side"),
    said_later("centre front"),
    said_later("left side"),
)

At = Callable[[float], Point]
"""Where a share of an edge lies in the picture."""


def ratio_text(ratio: float) -> str:
    return decimal(f"{ratio:.2f}".rstrip("0").rstrip("."))


def names_of(panels: int, closure: Closure) -> tuple[str, ...]:
    """Return the places at the five quarter marks, from a layer's first seam round to it."""
    start = first_seam(panels, closure)
    return tuple(say(place_name((start + k / 4) % 1)) for k in range(5))


def along(y: Mm, long: Mm) -> At:
    return lambda share: Point((share - 0.5) * long, y)


def _most_lines(names: tuple[str, ...]) -> int:
    return max(len(wrapped(name, SMALL_TYPE, ROOM)) for name in names)


def names_high(names: tuple[str, ...]) -> Mm:
    """Return the room that two rows of names take above the lower edge."""
    return _RAISED + (_most_lines(names[::2]) + _most_lines(names[1::2])) * LEAD


def matched(names: tuple[str, ...], above: At, below: At) -> Drawing:
    """Return thin lines from mark to mark, each with its name by its upright lower end.

    Names stand in two rows by turns, those of the right half to the left of their lines.
    """
    drawn = []
    for k, name in enumerate(names):
        foot = below(k / 4)
        elbow = Point(foot.x, foot.y + names_high(names) + 0.5)
        drawn.append(ink.line(above(k / 4), elbow, foot))
        rows = len(wrapped(name, SMALL_TYPE, ROOM)) - 1
        raised = _RAISED + (_most_lines(names[::2]) * LEAD if k % 2 else 0.0) + rows * LEAD
        away = -ink.CLEAR if k > 2 else ink.CLEAR
        at = Point(foot.x + away, foot.y + raised)
        anchor = Anchor.END if k > 2 else Anchor.START
        drawn.append(ink.words(name, at, anchor=anchor, most=ROOM))
    return together(*drawn)


def ticks(at: Callable[[float, Mm], Point]) -> Drawing:
    """Return marks at an edge: quarters reach into the cloth, the eighths between stand outside.

    Outside no join, seam or hatching hides an eighth.

    Args:
        at: the point of a share of the edge, that far out of the cloth; in, where it is below 0.
    """
    drawn = []
    for k in range(9):
        if k % 2 == 0:
            drawn.append(ink.line(at(k / 8, -3.2), at(k / 8, 0.0), pen=ink.OUTLINE))
        else:
            drawn.append(ink.line(at(k / 8, 0.3), at(k / 8, EIGHTH), pen=ink.EDGE))
    return together(*drawn)


def foot(bottom: Mm, text: str, marks: tuple[float, ...], named: str) -> Drawing:
    """Return what stands under the lower edge: a quarter of it, and the name of its marks."""
    y = bottom - 3.0
    left = -LONG / 2
    drawn = [
        ink.dimension(Point(left, y), Point(left + LONG / 4, y), ""),
        ink.words(text, Point(left, y - 4.0), most=0.52 * LONG),
    ]
    if marks:
        x = min(((share - 0.5) * LONG for share in marks), key=lambda x: abs(x - 0.3 * LONG))
        start = 0.06 * LONG
        drawn += [
            ink.words(named, Point(start, y - 4.0), most=0.44 * LONG),
            ink.line(Point(x, bottom + 2.0), Point(min(max(x, start + 2), start + 16), y - 1.2)),
            ink.dot(Point(x, bottom + 2.0)),
        ]
    return together(*drawn)
