"""The imprint: who made a pattern, its page, licence and edition, on every page of every file.

Words and a QR code of the page's address, set where nothing else stands. Millimetres. Imports
drawing, style, fonts, room, spots and the QR code.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from drafting.geometry import Box, Point, scaled
from drafting.language import say
from drafting.spec import Spec
from drafting.units import Mm
from render import fonts, style
from render.drawing import Anchor, Drawing, Layer, Text, placed, together
from render.qr import LEAST_MODULE, MODULE, Code, code_drawing, code_of
from render.room import Room, turned_box
from render.setting import Setting
from render.words import edition_words

LINE: Mm = style.NOTE * style.LEADING
"""From one line of the imprint to the next."""

ASIDE: Mm = 1.5
"""Kept free round the imprint."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Imprint:
    """What every page tells of who made it.

    Attributes:
        parts: the title, then maker, edition, licence and page address as far as they are given.
        code: of the page's address, if there is one.
    """

    parts: tuple[str, ...]
    code: Code | None = None

    @property
    def words(self) -> str:
        """All in one line; the title last, for it is what can be missed."""
        title, *told = self.parts
        return "  ·  ".join((*told, title))


def imprint_of(spec: Spec) -> Imprint | None:
    """Return the imprint of a garment, or None if its sheet names nothing to print."""
    publish = spec.publish
    if not (publish.maker or publish.page or publish.licence or publish.edition):
        return None
    told = (
        say("by {maker}", maker=publish.maker) if publish.maker else "",
        edition_words(spec),
        say("licence: {licence}", licence=publish.licence) if publish.licence else "",
        publish.page,
    )
    return Imprint(
        parts=(spec.title, *(words for words in told if words)),
        code=code_of(publish.page) if publish.page else None,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """An imprint that is set, from its own lower left corner.

    Attributes:
        code: side of the code, its quiet zone with it, in that corner; 0 without one.
    """

    drawing: Drawing
    width: Mm
    height: Mm
    code: Mm = 0.0


COLUMNS: tuple[Mm, ...] = (62.0, 40.0)
"""Widths that words are set in, those to wish for first; a short address stays on one line."""

MODULES = (MODULE, LEAST_MODULE)


def coded_blocks(imprint: Imprint) -> Iterator[Block]:
    """Yield the ways to set words with the code: beside it, then over it, then a smaller code."""
    if imprint.code is None:
        return
    for module in MODULES:
        side = imprint.code.size(module)
        code = code_drawing(imprint.code, module)
        for column in COLUMNS:
            rows, wide = _rows(imprint.parts, column)
            high = max(side, len(rows) * LINE)
            words = _set(rows, x=side, top=high / 2 + len(rows) * LINE / 2)
            yield Block(drawing=together(code, words), width=side + wide, height=high, code=side)
        rows, wide = _rows(imprint.parts, max(side, COLUMNS[-1]))
        high = side + len(rows) * LINE
        yield Block(
            drawing=together(code, _set(rows, x=0.0, top=high)),
            width=max(side, wide),
            height=high,
            code=side,
        )


def worded_blocks(imprint: Imprint, most: Mm) -> Iterator[Block]:
    """Yield the ways to set the words alone, in one line no wider than ``most`` among them."""
    for column in COLUMNS:
        rows, wide = _rows(imprint.parts, column)
        yield Block(
            drawing=_set(rows, x=0.0, top=len(rows) * LINE), width=wide, height=len(rows) * LINE
        )
    rows, wide = _rows((imprint.words,), most)
    yield Block(
        drawing=_set(rows, x=0.0, top=len(rows) * LINE), width=wide, height=len(rows) * LINE
    )


def _rows(parts: Sequence[str], most: Mm) -> tuple[list[str], Mm]:
    """Return words broken into lines, the first part's bold, and how wide the widest is."""
    rows = [row for part in parts for row in fonts.wrapped(part, style.NOTE, most)]
    return rows, max(fonts.width(row, style.NOTE) for row in rows)


def _set(rows: Sequence[str], *, x: Mm, top: Mm) -> Drawing:
    return Drawing(
        texts=tuple(
            Text(
                text=row,
                at=Point(x, top - number * LINE + 0.3 * style.NOTE),
                size=style.NOTE,
                layer=Layer.PAGE,
            )
            for number, row in enumerate(rows, start=1)
        )
    )


def set_in_room(
    imprint: Imprint, window: Box, rooms: Sequence[Room], *, code_off: Room | None = None
) -> Drawing | None:
    """Return the imprint set in the lowest free room of a window, which it takes in every room.

    With its code if there is room for that, else the words alone; None if there is no room for
    those either.

    Args:
        rooms: those to look for room in, the one to wish for first.
        code_off: further lines that the code alone must keep clear of.
    """
    for blocks in (coded_blocks(imprint), worded_blocks(imprint, window.width - 2 * ASIDE)):
        ways = tuple(blocks)
        for room in rooms:
            for block in ways:
                for turned in (False, True):
                    found = _put(block, window, room, turned=turned, code_off=code_off)
                    if found is not None:
                        drawing, corners = found
                        for one in rooms:
                            one.claim(corners)
                        return drawing
    return None


def code_in_room(imprint: Imprint, window: Box, room: Room) -> Drawing:
    """Return the code alone in the lowest free room of a window; nothing where there is none."""
    if imprint.code is None:
        return Drawing()
    for module in MODULES:
        side = imprint.code.size(module)
        block = Block(drawing=code_drawing(imprint.code, module), width=side, height=side)
        found = _put(block, window, room, turned=False, code_off=None)
        if found is not None:
            return found[0]
    return Drawing()


def _put(
    block: Block, window: Box, room: Room, *, turned: bool, code_off: Room | None
) -> tuple[Drawing, tuple[Point, ...]] | None:
    """Return a block in the lowest free place, read upwards if it is turned, and its corners."""
    wide, high = block.width + 2 * ASIDE, block.height + 2 * ASIDE
    if turned:
        wide, high = high, wide
    places = room.free_places(window, wide, high)
    if block.code and code_off is not None:
        if turned:  # the code would lie in the place's other corner
            return None
        side = block.code + 2 * ASIDE
        clear = code_off.free_places(window, side, side)
        places = [a & b for a, b in zip(places, clear, strict=False)]
    at = room.lowest_of(places, window)
    if at is None:
        return None
    corners = turned_box(Point(at.x + wide / 2, at.y + high / 2), wide, high, 0.0)
    x, y = at.x + ASIDE, at.y + ASIDE
    if turned:
        return placed(block.drawing, x=x + block.height, y=y, turn=math.pi / 2), corners
    return placed(block.drawing, x=x, y=y), corners


def imprinted(
    drawings: Sequence[Drawing], imprint: Imprint, window: Box
) -> tuple[Drawing, ...] | None:
    """Return pages that are set already with the imprint on all but the first, which tells it.

    None if one of them has no room left for it.
    """
    pages = list(drawings[:1])
    for drawing in drawings[1:]:
        found = set_in_room(imprint, window, (room_of(drawing, window),))
        if found is None:
            return None
        pages.append(together(drawing, found))
    return tuple(pages)


def set_code(page: Setting, imprint: Imprint | None) -> Mm:
    """Set the code in the upper right corner of a page that is begun; return its side, or 0."""
    if imprint is None or imprint.code is None:
        return 0.0
    side = imprint.code.size()
    page.put(code_drawing(imprint.code), page.window.right - side, page.y - side)
    return side


def with_foot_lines(
    drawings: Sequence[Drawing], imprint: Imprint, window: Box
) -> tuple[Drawing, ...]:
    """Return pages with the words in one line at the foot of all but the first."""
    line = Drawing(texts=(foot_line(imprint, window, window.left, window.bottom + 0.3 * LINE),))
    return (*drawings[:1], *(together(drawing, line) for drawing in drawings[1:]))


def larger(drawing: Drawing, by: float) -> Drawing:
    """Return an imprint so many times as large, its code's strokes too."""
    return Drawing(
        strokes=tuple(
            replace(
                stroke,
                path=scaled(stroke.path, by),
                pen=replace(
                    stroke.pen,
                    width=stroke.pen.width * by,
                    dash=tuple(dash * by for dash in stroke.pen.dash),
                ),
            )
            for stroke in drawing.strokes
        ),
        texts=tuple(
            replace(text, at=Point(text.at.x * by, text.at.y * by), size=text.size * by)
            for text in drawing.texts
        ),
    )


def room_of(drawing: Drawing, window: Box) -> Room:
    """Return what room a page that is set already has left."""
    room = Room(box=window)
    for stroke in drawing.strokes:
        room.enter(stroke.path)
    for text in drawing.texts:
        room.claim(_inked(text))
    return room


def _inked(text: Text) -> tuple[Point, ...]:
    """Return the corners of a text's room, wherever its anchor is."""
    wide = fonts.width(text.text, text.size, bold=text.bold)
    along = {Anchor.START: wide / 2, Anchor.MIDDLE: 0.0, Anchor.END: -wide / 2}[text.anchor]
    up = 0.27 * text.size
    c, s = math.cos(text.angle), math.sin(text.angle)
    middle = Point(text.at.x + along * c - up * s, text.at.y + along * s + up * c)
    return turned_box(middle, wide + 1.0, text.size + 0.6, text.angle)


def foot_line(imprint: Imprint, window: Box, left: Mm, y: Mm) -> Text:
    """Return the words in one line from ``left``, cut short where they are wider than a window."""
    words = fonts.shortened(imprint.words, style.NOTE, window.right - left)
    return Text(text=words, at=Point(left, y), size=style.NOTE, layer=Layer.PAGE)
