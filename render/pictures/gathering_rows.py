"""The two ways of gathering a ruffle, drawn twice as large as they are sewn.

Millimetres on the booklet's page; y is 0 at the raw edge and runs down into the cloth. Imports
the pattern, the ruffle's methods, the habits of the hand and the inks of pictures.
"""

import math

from drafting.figures import GatheringFigures, RuffleFigures
from drafting.geometry import Point
from drafting.language import in_its_language, listed, say
from drafting.pattern import Pattern
from drafting.ruffle import Method
from drafting.units import Mm, Units, length_text
from render.booklet.habits import LONG_STITCH, SEAM_STITCH, TAILS, ZIGZAG
from render.drawing import Anchor, Drawing, Pen, together
from render.pictures import ink
from render.pictures.picture import Picture

ENLARGED = 2.0
"""Twice as large: rows a few millimetres apart are told from each other at arm's length."""

CLOTH: Mm = 42.0
"""Width of the cloth shown."""

BELOW: Mm = 12.0
"""Cloth shown below the lowest line, as sewn."""

COLUMN: Mm = 14.0
"""From one dimension line to the next: a length stands between them."""

WORDS: Mm = 32.0
"""Widest that the words beside the picture run."""

CORD: Mm = 1.2
"""Thickness of a gathering cord (0.8 to 1.5): smooth, and stronger than thread."""

_GAP = 0.5
"""Thread that dips under the cloth between two stitches, as sewn."""


def stitches(length: Mm, width: Mm, enlarged: float = 1.0) -> Pen:
    """Return a pen whose dashes are stitches of that length."""
    return Pen(width=width, dash=(enlarged * (length - _GAP), enlarged * _GAP))


ROW = stitches(LONG_STITCH, 0.3, ENLARGED)
SEAM = stitches(SEAM_STITCH, 0.5, ENLARGED)


def _way(pattern: Pattern, method: Method) -> tuple[RuffleFigures, GatheringFigures] | None:
    ruffle = pattern.figures.ruffle
    if ruffle is None:
        return None
    return ruffle, next(way for way in ruffle.ways if way.method == method.value)


@in_its_language
def rows_picture(pattern: Pattern) -> Picture | None:
    """Return rows of long stitches beside the seam line; None without a ruffle."""
    found = _way(pattern, Method.ROWS)
    if found is None:
        return None
    (ruffle, way), units = found, pattern.spec.units
    seam = ruffle.seam_from_edge
    deep = _deep((*way.rows_from_edge, seam))
    begin, again = 0.5 * CLOTH, 0.5 * CLOTH + 6.0
    drawn = []
    for row in way.rows_from_edge:
        y = -ENLARGED * row
        drawn += [
            ink.line(Point(0.0, y), Point(begin, y), pen=ROW),
            ink.line(Point(again, y), Point(CLOTH, y), pen=ROW),
        ]
    drawn += [_tail(begin, -ENLARGED * row, 1.0) for row in way.rows_from_edge]
    drawn += [_tail(again, -ENLARGED * row, -1.0) for row in way.rows_from_edge]
    named = [
        ink.Label(words=_row_words(row, seam, units), to=Point(CLOTH - 2.0, -ENLARGED * row))
        for row in way.rows_from_edge
    ]
    named.append(
        ink.Label(
            words=say(
                "a section ends and the next begins: leave {tails} of thread at each end",
                tails=length_text(TAILS, units),
            ),
            to=Point(again + _sway(9.0), 9.0),
        )
    )
    rows = listed(tuple(length_text(row, units) for row in way.rows_from_edge))
    return ink.framed(
        "gathering-rows",
        together(_cloth(deep), *drawn, _shared(way.rows_from_edge, seam, units, named)),
        caption=_and_other(
            say("Rows of long stitches beside the seam line, drawn twice as large."), ruffle, way
        ),
        alt=say(
            "Gathering rows lie {rows} from the raw edge of the ruffle, the seam line {seam} from"
            " it. Each section of the rows ends in tails of thread {tails} long.",
            rows=rows,
            seam=length_text(seam, units),
            tails=length_text(TAILS, units),
        ),
    )


@in_its_language
def cord_picture(pattern: Pattern) -> Picture | None:
    """Return a zigzag over a cord, its end wound round a pin; None without a ruffle."""
    found = _way(pattern, Method.CORD)
    if found is None:
        return None
    (ruffle, way), units = found, pattern.spec.units
    seam = ruffle.seam_from_edge
    cord = way.rows_from_edge[0]
    y, stop = -ENLARGED * cord, 0.62 * CLOTH
    thick = ENLARGED * CORD / 2
    pin = Point(0.82 * CLOTH, y / 2)
    loop = [
        Point(pin.x + 3.6 * math.sin(2 * t), pin.y + 5.5 * math.sin(t))
        for t in (math.tau * k / 48 for k in range(49))
    ]
    drawn = [
        ink.line(Point(0.0, y + thick), Point(stop, y + thick), pen=ink.EDGE),
        ink.line(Point(0.0, y - thick), Point(stop, y - thick), pen=ink.EDGE),
        ink.line(Point(stop, y - thick), Point(stop, y + thick), pen=ink.EDGE),
        _zigzag(stop, y),
        ink.line(Point(stop, y), Point(stop + 3.0, y), pin, pen=ink.EDGE),
        ink.line(*loop, pen=ink.EDGE),
        ink.line(Point(pin.x, pin.y - 8.5), Point(pin.x, pin.y + 7.0), pen=ink.OUTLINE),
        ink.dot(Point(pin.x, pin.y + 7.8), 1.0),
    ]
    named = [
        ink.Label(
            words=say("wind the end of the cord round a pin in a figure of 8"),
            to=Point(pin.x + 3.6, pin.y + 5.5 * math.sin(math.pi / 4)),
        ),
        ink.Label(
            words=say(
                "zigzag {wide} wide and {long} long, over the cord and never through it",
                wide=length_text(ZIGZAG[0], units),
                long=length_text(ZIGZAG[1], units),
            ),
            to=Point(stop - 1.0, y + thick),
        ),
    ]
    return ink.framed(
        "gathering-cord",
        together(
            _cloth(_deep((cord, seam))), *drawn, _shared(way.rows_from_edge, seam, units, named)
        ),
        caption=_and_other(
            say(
                "A zigzag over a cord, {above} above the seam line, drawn twice as large.",
                above=length_text(seam - cord, units),
            ),
            ruffle,
            way,
        ),
        alt=say(
            "A cord lies {cord} from the raw edge of the ruffle under a zigzag, the seam line"
            " {seam} from that edge. The end of the cord is wound round a pin.",
            cord=length_text(cord, units),
            seam=length_text(seam, units),
        ),
    )


def _and_other(words: str, ruffle: RuffleFigures, way: GatheringFigures) -> str:
    """Return a caption, and whether this ruffle is gathered that way."""
    if ruffle.method == way.method:
        more = say("This ruffle is planned so.")
    elif way.method == Method.CORD.value:
        more = say("This ruffle is planned with rows of long stitches; a cord is the other way.")
    else:
        more = say("This ruffle is planned with a cord; rows of long stitches are the other way.")
    return f"{words} {more}"


def _row_words(row: Mm, seam: Mm, units: Units) -> str:
    if row > seam:
        return say(
            "gathering row, {below} below the seam line; pull it out after sewing",
            below=length_text(row - seam, units),
        )
    return say("gathering row, {above} above the seam line", above=length_text(seam - row, units))


def _deep(lines: tuple[Mm, ...]) -> Mm:
    """Return how far down the cloth is shown, on the page."""
    return ENLARGED * (max(lines) + BELOW)


def _cloth(deep: Mm) -> Drawing:
    """Return the upper edge of a ruffle, broken off at its other sides."""
    left, right = _broken(0.0, -deep), _broken(CLOTH, -deep)
    foot = [Point(CLOTH * k / 40, -deep + 0.7 * math.sin(math.tau * k / 10)) for k in range(41)]
    # The lines by the edge stand in white, where each stitch can be told.
    clear = -deep + ENLARGED * BELOW - 3.0
    rim = (
        Point(0.0, clear),
        *(p for p in left if p.y < clear),
        *foot[1:-1],
        *(p for p in reversed(right) if p.y < clear),
        Point(CLOTH, clear),
    )
    return together(
        ink.hatched(rim, ink.RUFFLE_ANGLE),
        ink.line(Point(0.0, 0.0), Point(CLOTH, 0.0), pen=ink.OUTLINE),
        ink.line(*left, pen=ink.THIN),
        ink.line(*foot, pen=ink.THIN),
        ink.line(*right, pen=ink.THIN),
    )


def _broken(x: Mm, bottom: Mm) -> list[Point]:
    """Return a wavy side, from the raw edge down: the cloth runs on beyond it."""
    return [Point(x + 0.7 * math.sin(math.tau * 3 * k / 40), bottom * k / 40) for k in range(41)]


def _tail(x: Mm, y: Mm, side: float) -> Drawing:
    """Return the end of a thread, up from its row and out over the raw edge."""
    top = 11.0
    count = 24
    return ink.line(
        *(
            Point(x + side * _sway((top - y) * k / count), y + (top - y) * k / count)
            for k in range(count + 1)
        ),
        pen=Pen(width=0.3),
    )


def _sway(up: Mm) -> Mm:
    """Return how far a loose thread swings to one side, so far up from its row."""
    return 0.9 * math.sin(up / 3.0)


def _zigzag(stop: Mm, y: Mm) -> Drawing:
    wide, long = ENLARGED * ZIGZAG[0] / 2, ENLARGED * ZIGZAG[1] / 2
    count = int(stop / long)
    return ink.line(
        *(Point(long * k, y + (wide if k % 2 else -wide)) for k in range(count + 1)),
        pen=Pen(width=0.3),
    )


def _shared(rows: tuple[Mm, ...], seam: Mm, units: Units, named: list[ink.Label]) -> Drawing:
    """Return the seam line, how far every line lies from the raw edge, and all the words."""
    lines = sorted((*rows, seam))
    drawn = [ink.line(Point(0.0, -ENLARGED * seam), Point(CLOTH, -ENLARGED * seam), pen=SEAM)]
    farthest = -4.0 - COLUMN * (len(lines) - 1)
    drawn.append(ink.line(Point(farthest - 1.0, 0.0), Point(-1.2, 0.0)))
    for k, far in enumerate(lines):
        x, y = -4.0 - COLUMN * k, -ENLARGED * far
        drawn.append(ink.line(Point(x - 1.0, y), Point(-1.2, y)))
        drawn.append(
            ink.dimension(Point(x, 0.0), Point(x, y), length_text(far, units), anchor=Anchor.END)
        )
    words = [
        *named,
        ink.Label(words=say("raw edge"), to=Point(CLOTH - 1.0, 0.0)),
        ink.Label(
            words=say("seam line: sew here, gathers uppermost"),
            to=Point(CLOTH - 2.0, -ENLARGED * seam),
        ),
    ]
    return together(*drawn, ink.labels(words, CLOTH + 5.0, most=WORDS))
