"""Marks that show which page joins where, and whether it lies true.

Each join has a number. Half a ring stands on each page at the join, the number in both
halves: taped true, the ring is whole. Beside it a vernier: strokes 1 mm apart on the page
that keeps its edge against strokes 0.9 mm apart on the page laid over it; the pair that
meets tells in tenths of a millimetre how far the join is off along its line.

Millimetres on the plane. Imports geometry, drawing, style, fonts, room and tiling.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass

from drafting.geometry import Arc, Point, distance, stepped, straight
from drafting.language import say
from drafting.units import Mm
from render import fonts, style
from render.drawing import Anchor, Drawing, Layer, Stroke, Text
from render.room import spread, turned_box
from render.spots import Spots, upright
from render.tiling import Join, Tile

RING: Mm = 7.0
STROKES = 5
"""Strokes of the vernier on each side of its middle."""

COARSE: Mm = 1.0
FINE: Mm = 0.9
VERNIER: Mm = 17.0
"""From the ring's middle to the vernier's."""

MARK_LONG: Mm = 2 * (VERNIER + 6.5)
MARK_WIDE: Mm = 2 * RING + 2.0


@dataclass(frozen=True, slots=True, kw_only=True)
class PageMarks:
    """What a join draws on one page, in the plane's frame."""

    tile: Tile
    drawing: Drawing


def join_marks(joins: tuple[Join, ...], overlap: Mm, room: Spots) -> tuple[PageMarks, ...]:
    """Return the marks of all joins, page by page, clear of the pattern where there is room."""
    return tuple(marks for join in joins for marks in _marks(join, overlap, room))


def _marks(join: Join, overlap: Mm, room: Spots) -> Iterator[PageMarks]:
    middle, along = _middle(join, room)
    # The first page lies to the left of an upright join and above a level one.
    away = along + math.pi / 2
    first = [*_trim(join, cut=not overlap), *_half(middle, along, away, COARSE)]
    second = [*_trim(join, cut=True), *_half(middle, along, away + math.pi, FINE)]
    number = str(join.number)
    texts_first = [_number(number, middle, away)]
    texts_second = [_number(number, middle, away + math.pi)]
    if overlap:
        words = say("glue: {page} lies on this", page=join.second.name)
        texts_first += _edge_text(join, words, away + math.pi, overlap / 2, room)
        words = say("cut here, lay on {page}", page=join.first.name)
        texts_second += _edge_text(join, words, away + math.pi, 2.6, room)
    else:
        words = say("cut here, butt to {page}", page=join.second.name)
        texts_first += _edge_text(join, words, away, 2.6, room)
        words = say("cut here, butt to {page}", page=join.first.name)
        texts_second += _edge_text(join, words, away + math.pi, 2.6, room)
    yield PageMarks(
        tile=join.first, drawing=Drawing(strokes=tuple(first), texts=tuple(texts_first))
    )
    yield PageMarks(
        tile=join.second, drawing=Drawing(strokes=tuple(second), texts=tuple(texts_second))
    )


def _middle(join: Join, room: Spots) -> tuple[Point, float]:
    """Return where a join's mark stands and the angle of its line, away from the pattern."""
    (ax, ay), (bx, by) = join.line
    along = math.atan2(by - ay, bx - ax)
    long = distance(*join.line)
    inner = long - MARK_LONG - 20
    spots = [
        stepped(Point(ax, ay), along, (long - inner) / 2 + share * inner) for share in spread(21)
    ]
    # Where there is no room for the whole mark, the ring with its number at least stays clear.
    middle = next(
        (
            spot
            for reach in (MARK_LONG, MARK_WIDE)
            for spot in spots
            if room.clear.is_free(turned_box(spot, reach, MARK_WIDE, along))
        ),
        spots[0],
    )
    room.claim(turned_box(middle, MARK_LONG, MARK_WIDE, along))
    return middle, along


def _half(middle: Point, along: float, away: float, pitch: Mm) -> list[Stroke]:
    """Return one page's half of a ring and its side of the vernier, on the side ``away``."""
    ring = Arc(centre=middle, radius=RING, begin=away - math.pi / 2, finish=away + math.pi / 2)
    strokes = [Stroke(path=(ring,), pen=style.MARK, layer=Layer.PAGE)]
    for side in (-1, 1):
        centre = stepped(middle, along, side * VERNIER)
        for k in range(-STROKES, STROKES + 1):
            at = stepped(centre, along, k * pitch)
            tall = 4.0 if k == 0 else 2.6
            strokes.append(
                Stroke(path=straight(at, stepped(at, away, tall)), pen=style.THIN, layer=Layer.PAGE)
            )
    return strokes


def _number(number: str, middle: Point, away: float) -> Text:
    at = stepped(middle, away, RING * 0.5)
    size = style.SMALL if len(number) < 3 else style.NOTE * 0.85
    return Text(
        text=number,
        at=Point(at.x, at.y - style.CAP_HEIGHT * size / 2),
        size=size,
        anchor=Anchor.MIDDLE,
        bold=True,
        layer=Layer.PAGE,
    )


def _trim(join: Join, *, cut: bool) -> list[Stroke]:
    """Return the join's line: solid where it is cut, dotted where another page is laid to it."""
    pen = style.TRIM_CUT if cut else style.TRIM
    return [Stroke(path=straight(*join.line), pen=pen, layer=Layer.PAGE)]


def _edge_text(join: Join, words: str, side: float, off: Mm, room: Spots) -> list[Text]:
    """Return words along a join, ``off`` from it to one side, where there is room for them."""
    (ax, ay), (bx, by) = join.line
    along = math.atan2(by - ay, bx - ax)
    long = distance(*join.line)
    wide = fonts.width(words, style.NOTE) + 2
    for share in sorted(spread(17), key=lambda s: abs(abs(s - 0.5) - 0.25)):
        at = wide / 2 + 12 + share * (long - wide - 24)
        middle = stepped(Point(ax + at * math.cos(along), ay + at * math.sin(along)), side, off)
        shape = turned_box(middle, wide, style.NOTE + 0.4, along)
        if room.clear.is_free(shape):
            room.claim(shape)
            angle = upright(along)
            base = stepped(middle, angle - math.pi / 2, style.CAP_HEIGHT * style.NOTE / 2)
            return [
                Text(
                    text=words,
                    at=base,
                    size=style.NOTE,
                    angle=angle,
                    anchor=Anchor.MIDDLE,
                    layer=Layer.PAGE,
                )
            ]
    return []
