"""How two printed pages are taped, with the marks that every join of the pattern carries.

Millimetres, at true size: the join's marks are drawn by what draws them on the pages. The join
is the line y = 0, one page above it and one below. Imports the pattern, the papers, the joins'
marks and the inks of pictures.
"""

import math

from drafting.geometry import Arc, Box, Path, Point, bounds
from drafting.language import in_its_language, say
from drafting.pattern import Pattern
from drafting.spec import PaperName, Scope
from drafting.units import Mm, length_text
from render import style
from render.drawing import Drawing, placed, together
from render.fonts import wrapped
from render.joins import join_marks
from render.pages import grid_for
from render.paper import HOME
from render.pictures import ink
from render.pictures.legend import legend, number
from render.pictures.picture import SMALL_TYPE, Picture
from render.room import Room, turned_box
from render.spots import Spots
from render.tiling import Join, Tile

LONG: Mm = 112.0
"""Length of the join that is shown."""

DEEP: Mm = 16.0
"""How much of each page is shown, from the join."""

MARGIN: Mm = 4.0
"""Blank paper at a page's edge, shown narrower than it is."""

APART: Mm = 5.0
"""Between the two pages before they are taped."""

_NAME: Mm = 5.0
_LEAD: Mm = SMALL_TYPE * style.LEADING


@in_its_language
def taping_picture(pattern: Pattern, paper: PaperName) -> Picture | None:
    """Return two pages before and after taping; None on a paper whose pages are not joined."""
    if paper not in HOME or pattern.spec.print.scope is Scope.CARD:
        return None
    overlap = grid_for(pattern.spec.print, paper).overlap
    one, other = _tiles(overlap)
    above, below = _marks(one, other, overlap)
    # What the page laid over it covers is not seen once they are joined.
    seen = Drawing(
        strokes=tuple(s for s in above.strokes if not _is_line(s.path, LONG)),
        texts=tuple(text for text in above.texts if text.at.y > 0.0),
    )
    lift = max(overlap, 0.0) + 2 * MARGIN + APART
    before = together(
        placed(together(above, _page(one.name, -overlap, DEEP, cut=not overlap)), y=lift),
        below,
        _page(other.name, -DEEP, 0.0, cut=True),
        _pattern_line(0.0, -DEEP),
        placed(_pattern_line(DEEP, -overlap), y=lift),
        number("1", Point(-2.0, 1.5), Point(2.5, 0.0)),
        number("2", Point(-2.0, lift - overlap / 2), Point(2.5, lift - overlap / 2)),
        _title(
            say("Before: {one} above, {other} below", one=one.name, other=other.name), lift + DEEP
        ),
    )
    after = together(
        seen,
        below,
        _sides(-DEEP, DEEP),
        _names(one.name, other.name),
        _pattern_line(DEEP, -DEEP),
        *_ring_numbers(above),
        _title(say("After: joined true"), DEEP),
    )
    drop = 2 * DEEP + _LEAD + 5.0
    left = -5.0
    wide = length_text(overlap, pattern.spec.units)
    rows = _rows(one.name, other.name, wide if overlap else "")
    shown = together(before, placed(after, y=-drop))
    return ink.framed(
        "taping",
        together(shown, legend(rows, left, -drop - DEEP - 2.0, LONG - left, 2)),
        caption=say(
            "A join at true size where it is printed at 100 %; {one} and {other} are examples."
            " Tape or glue the pages of each row from left to right, then row to row.",
            one=one.name,
            other=other.name,
        ),
        alt=(
            say(
                "Page {other} is cut along its solid line and taped or glued over the lowest"
                " {wide} of page {one}. Two half rings then close to a ring, and two rows of"
                " strokes meet.",
                one=one.name,
                other=other.name,
                wide=wide,
            )
            if overlap
            else say(
                "Pages {one} and {other} are cut along their solid lines and butted, overlapping"
                " by 0. Two half rings then close to a ring, and two rows of strokes meet.",
                one=one.name,
                other=other.name,
            )
        ),
    )


def _tiles(overlap: Mm) -> tuple[Tile, Tile]:
    above = Box(left=0.0, bottom=-overlap, right=LONG, top=DEEP)
    below = Box(left=0.0, bottom=-DEEP, right=LONG, top=0.0)
    return (
        Tile(row=1, column=1, window=above, pieces=()),
        Tile(row=2, column=1, window=below, pieces=()),
    )


def _marks(one: Tile, other: Tile, overlap: Mm) -> tuple[Drawing, Drawing]:
    """Return what a join draws on the page above it and on the one below."""
    join = Join(
        number=1,
        first=one,
        second=other,
        upright=False,
        line=(Point(0.0, 0.0), Point(LONG, 0.0)),
    )
    room = Room(box=Box(left=0.0, bottom=-DEEP, right=LONG, top=DEEP))
    # A speck left of the middle sends the mark to the right, so that words have the left.
    room.claim(turned_box(Point(0.45 * LONG, 0.0), 0.5, 0.5, 0.0))
    above, below = join_marks((join,), overlap, Spots(clear=room, uncut=room))
    return above.drawing, below.drawing


def _is_line(path: Path, long: Mm) -> bool:
    """Tell whether a path is the join's own line."""
    box = bounds(path)
    return math.isclose(box.width, long) and box.height < 1e-6


def _page(name: str, bottom: Mm, top: Mm, *, cut: bool) -> Drawing:
    """Return one page's part by the join: its sides, its name, its blank margin.

    Args:
        cut: its margin is cut off along the join, else it stays.
    """
    is_above = top > 0.0
    edge = bottom - MARGIN if is_above else MARGIN
    from_y = bottom if is_above else 0.0
    pen = ink.HIDDEN if cut else ink.EDGE
    return together(
        _sides(bottom, top),
        ink.line(
            Point(0.0, from_y), Point(0.0, edge), Point(LONG, edge), Point(LONG, from_y), pen=pen
        ),
        _name(name, top if is_above else bottom + _NAME),
    )


def _sides(bottom: Mm, top: Mm) -> Drawing:
    return together(*(ink.line(Point(x, bottom), Point(x, top), pen=ink.EDGE) for x in (0.0, LONG)))


def _name(name: str, top: Mm) -> Drawing:
    return ink.words(name, Point(3.0, top - _NAME), size=_NAME, bold=True)


def _names(above: str, below: str) -> Drawing:
    return together(_name(above, DEEP), _name(below, -DEEP + _NAME))


def _pattern_line(top: Mm, bottom: Mm) -> Drawing:
    """Return a line of the pattern that runs across the join."""

    def x(y: Mm) -> Mm:
        return LONG - 4.0 + 0.12 * y

    return ink.line(Point(x(top), top), Point(x(bottom), bottom), pen=ink.OUTLINE)


def _ring_numbers(above: Drawing) -> tuple[Drawing, ...]:
    """Return the numbers of the whole ring and of the strokes beside it."""
    ring = next(
        segment for stroke in above.strokes for segment in stroke.path if isinstance(segment, Arc)
    )
    (x, _), r = ring.centre, ring.radius
    left = x - 17.0
    return (
        number("3", Point(x - r - 3.0, 11.0), Point(x - r * 0.8, r * 0.6)),
        number("4", Point(left - 7.0, -10.0), Point(left, -3.0)),
    )


def _title(words: str, top: Mm) -> Drawing:
    rows = len(wrapped(words, SMALL_TYPE, LONG, bold=True))
    return ink.words(words, Point(0.0, top + 2.0 + (rows - 1) * _LEAD), most=LONG, bold=True)


def _rows(one: str, other: str, wide: str) -> list[tuple[str, str]]:
    """Return what the numbers stand for; ``wide`` is empty for pages that butt."""
    if wide:
        first = say("solid line: cut the margin of {other} off along it", other=other)
        second = say("tape or glue: {one} keeps this strip, {wide} wide", one=one, wide=wide)
    else:
        first = say("solid line of {other}: cut the margin off along it", other=other)
        second = say("solid line of {one}: cut there too, butt both and tape the back", one=one)
    return [
        ("1", first),
        ("2", second),
        ("3", say("the ring is whole and bears one number: the join lies true")),
        (
            "4",
            say(
                "the two strokes that meet best: each stroke they stand from the middle is"
                " a tenth of a millimetre of slip"
            ),
        ),
    ]
