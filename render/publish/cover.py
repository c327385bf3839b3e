"""The cover of a post: the garment from the front and the back, its title, sizes and maker.

Set as our tickets are: a heavy rule, then thin ones, ink on paper. Millimetres on a card as wide
as 1200 dots and as high as 630; type is large, for it is looked at on a telephone. Imports the
sketch, ink and widths of letters.
"""

from collections.abc import Sequence

from drafting.geometry import Box, Point
from drafting.language import say
from drafting.pattern import Pattern
from drafting.units import Mm
from render import fonts
from render.drawing import Drawing, Pen, placed, together
from render.pictures.ink import extent, line, outline, words
from render.pictures.picture import Picture
from render.pictures.sketch import worn
from render.publish.described import short
from render.publish.titles import all_sizes, middle_of
from render.style import CAP_HEIGHT
from render.words import edition_words

PIXELS = (1200, 630)
WIDE: Mm = 240.0
HIGH: Mm = 126.0
EDGE: Mm = 9.0
"""From the card's edge to what is set on it."""

TEXT: Mm = 124.0
"""Width of the words."""

TITLES: tuple[Mm, ...] = (21.0, 18.0, 15.5, 13.0, 11.0, 9.5)
"""Heights of type for the title, the largest first."""

MOST_LINES = 3
ABOVE: Mm = 15.0
"""From the card's upper edge to the title."""
BETWEEN: Mm = 14.0
"""White between title, words and maker, all of it."""
LINE: Mm = 7.0
"""Height of type of all else; on a telephone a third of it is left."""

LEAD = 1.22
TIGHT = 1.1
"""From line to line of a title: large type needs less between its lines."""
UNDER = 0.38
"""Under a title, for what reaches below its line and some air."""
HEAVY = Pen(width=1.6)
FINE = Pen(width=0.4)


def cover_picture(pattern: Pattern) -> Picture:
    """Return the cover of a pack."""
    spec = pattern.spec
    garment = _garment(middle_of(pattern))
    told = [spec.title, short(middle_of(pattern)), all_sizes(pattern), *_below(pattern)]
    alt = ". ".join(part.rstrip(".") for part in told if part)
    seen = say("Drawn beside it: the skirt on a figure, front and back.")
    return Picture(
        name="cover",
        drawing=together(_card(), garment, _words(pattern)),
        box=Box(left=0.0, bottom=0.0, right=WIDE, top=HIGH),
        caption="",
        alt=f"{alt}. {seen}",
    )


def _card() -> Drawing:
    """Return the rules of the card: a heavy one over all, a fine one round it."""
    corners = [Point(4, 4), Point(WIDE - 4, 4), Point(WIDE - 4, HIGH - 4), Point(4, HIGH - 4)]
    top = HIGH - 4 - HEAVY.width / 2
    return together(
        outline(corners, pen=FINE),
        line(Point(4 - FINE.width / 2, top), Point(WIDE - 4 + FINE.width / 2, top), pen=HEAVY),
    )


def _garment(pattern: Pattern) -> Drawing:
    """Return front and back, as large as the right of the card takes both; they may overlap."""
    room = Box(left=EDGE + TEXT + 4, bottom=10.0, right=WIDE - 10, top=HIGH - 12)
    if not pattern.pieces:
        return Drawing()
    one = [worn(pattern, 0.1, back=back) for back in (False, True)]
    front = extent(one[0])
    apart = front.width * APART
    by = min(room.width / (front.width + apart), room.height / front.height)
    wide = (front.width + apart) * by
    left = (room.left + room.right - wide) / 2 - front.left * by
    low = (room.bottom + room.top - front.height * by) / 2 - front.bottom * by
    sides = [worn(pattern, 0.1 * by, back=back) for back in (False, True)]
    return together(placed(sides[0], x=left, y=low), placed(sides[1], x=left + apart * by, y=low))


APART = 1.06
"""How far the back stands from the front, in widths of the front."""


def _words(pattern: Pattern) -> Drawing:
    spec = pattern.spec
    drawn: list[Drawing] = []
    told = [_fitted(short(middle_of(pattern)), 3), _fitted(all_sizes(pattern), 2)]
    below = _below(pattern)
    size, lines = _title(spec.title, sum(map(len, told)) + len(below))
    y = HIGH - ABOVE - size * CAP_HEIGHT
    for part in lines:
        drawn.append(words(part, Point(EDGE, y), size=size, bold=True, most=10 * WIDE))
        y -= size * TIGHT
    y += size * (TIGHT - UNDER) - LINE * LEAD
    for text in told:
        for part in text:
            drawn.append(words(part, Point(EDGE, y), size=LINE, most=10 * WIDE))
            y -= LINE * LEAD
        y -= LINE * 0.45
    return together(*drawn, _foot(below, y, maker=bool(spec.publish.maker)))


def _title(title: str, others: int) -> tuple[Mm, Sequence[str]]:
    """Return the largest type in which a title takes few lines, and those.

    Args:
        others: how many lines of words there are besides.
    """
    room = HIGH - ABOVE - EDGE - others * LINE * LEAD - BETWEEN
    for size in TITLES:
        lines = fonts.wrapped(title, size, TEXT, bold=True)
        whole = all(fonts.width(word, size, bold=True) <= TEXT for word in title.split(" "))
        few = len(lines) <= (2 if size > TITLES[2] else MOST_LINES)
        if whole and few and len(lines) * size * TIGHT <= room:
            return size, lines
    size = TITLES[-1]
    return size, _kept(fonts.wrapped(title, size, TEXT, bold=True), MOST_LINES, size, bold=True)


def _fitted(text: str, most: int) -> Sequence[str]:
    return _kept(fonts.wrapped(text, LINE, TEXT), most, LINE) if text else ()


def _kept(lines: Sequence[str], most: int, size: Mm, *, bold: bool = False) -> Sequence[str]:
    """Return the first lines of a text; the last of them shows that it goes on, where it does."""
    if len(lines) <= most:
        return lines
    return (*lines[: most - 1], fonts.shortened(f"{lines[most - 1]} …", size, TEXT, bold=bold))


def _below(pattern: Pattern) -> tuple[str, ...]:
    """Return who made it and on what terms."""
    publish = pattern.spec.publish
    told = (
        publish.maker,
        edition_words(pattern.spec),
        say("licence: {licence}", licence=publish.licence) if publish.licence else "",
    )
    return tuple(part for part in told if part)


def _foot(told: tuple[str, ...], above: Mm, *, maker: bool) -> Drawing:
    """Return the maker and the terms at the foot, under a rule, where there is room for them."""
    lines = [part for text in told for part in _fitted(text, 1)]
    room = int((above + LINE - EDGE - 8) / (LINE * LEAD))
    drawn: list[Drawing] = []
    y = EDGE + 2.5
    for number, part in reversed(list(enumerate(lines[: max(room, 0)]))):
        drawn.append(words(part, Point(EDGE, y), size=LINE, bold=maker and number == 0, most=WIDE))
        y += LINE * LEAD
    if drawn:
        drawn.append(line(Point(EDGE, y - 1), Point(EDGE + TEXT, y - 1), pen=FINE))
    return together(*drawn)
