"""The booklet's pages: their margins, what stands at their foot, leaves filled up with notes.

Points. A home of reportlab.
"""

import io
from collections.abc import Iterator
from itertools import accumulate
from typing import Any

from reportlab import rl_config
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfgen.canvas import Canvas

from drafting.language import say
from drafting.units import Mm
from render import fonts
from render.booklet.breaking import Leaf, leaves
from render.booklet.divided import Set
from render.booklet.flowables import (
    BOLD,
    REGULAR,
    TEXT_TALL,
    TEXT_WIDE,
    THIN,
    Figure,
    notched_rule,
)
from render.booklet.model import Booklet
from render.booklet.story import Story, contents, first_page, story
from render.booklet.words import clean, foot_words, places, terms_words
from render.pdf import POINTS, draw

WIDE: Mm = 148.0
TALL: Mm = 210.0
"""A5: two pages side by side are an A4 sheet, and one enlarged by the square root of 2 is too."""

INNER: Mm = 14.0
OUTER: Mm = 12.0
TOP: Mm = 12.0
BOTTOM: Mm = 18.0
FOOT: Mm = 9.5
LINE: Mm = 8.0
"""Apart from one another are the lines to write on."""


def bytes_of(booklet: Booklet) -> bytes:
    """Return the booklet as the bytes of a PDF file."""
    for bold in (False, True):
        pdfmetrics.registerFont(fonts.font(bold=bold))
    rl_config.useA85 = 0  # binary streams: a tenth smaller
    out = io.BytesIO()
    canvas = _Leaves(
        out,
        booklet=booklet,
        pagesize=(WIDE * POINTS, TALL * POINTS),
        lang=booklet.language,
        invariant=1,
        pageCompression=1,
        initialFontName=REGULAR,
    )
    canvas.setTitle(clean(booklet.title))
    canvas.setAuthor(clean(booklet.author))
    canvas.setSubject(clean(booklet.subject))
    canvas.setCreator("hemsweep")
    canvas.setProducer("hemsweep, reportlab")
    canvas.setViewerPreference("DisplayDocTitle", "true")
    for part in _parts(booklet):
        part.draw(canvas)
    canvas.save()
    return out.getvalue()


def _parts(booklet: Booklet) -> Iterator["_Part"]:
    """Yield first page, contents and all the rest, each from a page of its own on."""
    listed = places(booklet)
    front = _Part(first_page(booklet), 1)
    yield front
    if not listed:
        return
    # The contents take as many pages without numbers as with them.
    after = front.first + len(front.leaves)
    first = after + len(_Part(contents(listed, {}), after).leaves)
    body = _Part(story(booklet, listed), first)
    yield _Part(contents(listed, dict(body.places())), after)
    yield body


_Placed = tuple[Any, float, float]
"""What is drawn, how far it stands in, the room it has."""


class _Part:
    """A part of the booklet that begins on a page of its own, made up into pages."""

    def __init__(self, told: Story, first: int) -> None:
        self.told, self.first = told, first
        self.parts = [(one, k) for one in told.sets for k in range(len(one.atoms))]
        firsts = [*accumulate((len(one.atoms) for one in told.sets), initial=0)]
        self.floating = [shown.floating(firsts) for shown in told.shown]
        atoms = [one.atoms[k] for one, k in self.parts]
        self.leaves = leaves(atoms, self.floating, tall=TEXT_TALL, first=first)

    def places(self) -> Iterator[tuple[str, int]]:
        """Yield the page of each place."""
        for page, leaf in enumerate(self.leaves, self.first):
            for one, k in self.parts[leaf.start : leaf.stop]:
                if one.key and k == 0:
                    yield one.key, page

    def draw(self, canvas: "_Leaves") -> None:
        """Draw its pages."""
        for leaf in self.leaves:
            pictures = {
                number: self.told.shown[number].figure(
                    leaf.scale, away=self.floating[number].home != at >= self.floating[number].end
                )
                for number, at in leaf.pictures
            }
            _draw_page(canvas, list(_on_page(leaf, self.parts, pictures)))
            _draw_foot(canvas.booklet, canvas)
            canvas.showPage()


def _on_page(
    leaf: Leaf, parts: list[tuple[Set, int]], pictures: dict[int, _Placed]
) -> Iterator[_Placed]:
    """Yield what is drawn on a page, from its top down."""
    waiting = list(leaf.pictures)
    at = leaf.start
    while at < leaf.stop or waiting:
        while waiting and waiting[0][1] == at:
            yield pictures[waiting.pop(0)[0]]
        if at == leaf.stop:
            return
        one, first = parts[at]
        stop = at + 1
        limit = min([leaf.stop, *(place for _, place in waiting)])
        while stop < limit and parts[stop][0] is one:
            stop += 1
        drawn = one.drawn(first, parts[stop - 1][1] + 1)
        if isinstance(drawn, Figure):
            drawn.scale = drawn.own * leaf.scale
        yield drawn, one.indent, one.wide
        at = stop


def _draw_page(canvas: "_Leaves", placed: list[_Placed]) -> None:
    """Draw one under the other; between two stands the larger of their white spaces."""
    left, y = _left(canvas.getPageNumber()), (BOTTOM * POINTS) + TEXT_TALL
    after = 0.0
    for k, (flowable, indent, wide) in enumerate(placed):
        y -= max(after, flowable.getSpaceBefore()) if k else 0.0
        _, tall = flowable.wrapOn(canvas, wide, TEXT_TALL)
        y -= tall
        flowable.drawOn(canvas, left + indent, y)
        after = flowable.getSpaceAfter()


def _left(number: int) -> float:
    """Return where the text of a page begins: odd pages lie to the right of the fold."""
    return (INNER if number % 2 else OUTER) * POINTS


def _draw_foot(booklet: Booklet, canvas: Any) -> None:
    """Draw title, maker, terms and number at the foot of every page but the first.

    The first tells all of it under its title, and has the code of the maker's page beside it.
    """
    number = canvas.getPageNumber()
    if number == 1:
        _draw_code(booklet, canvas)
        return
    told = str(number)
    room = TEXT_WIDE - fonts.width(told, 9, bold=True) - 6 * POINTS
    first, second = _foot_lines(booklet, room)
    left, y = _left(number), (FOOT + (RAISED if second else 0.0)) * POINTS
    canvas.saveState()
    canvas.translate(left, y)
    canvas.setLineWidth(THIN)
    canvas.line(0, 4 * POINTS, TEXT_WIDE, 4 * POINTS)
    canvas.setFont(REGULAR, 8)
    if number % 2:
        canvas.drawString(0, 0, first)
        if second:
            canvas.drawString(0, -UNDER * POINTS, second)
        canvas.setFont(BOLD, 9)
        canvas.drawRightString(TEXT_WIDE, 0, told)
    else:
        canvas.drawRightString(TEXT_WIDE, 0, first)
        if second:
            canvas.drawRightString(TEXT_WIDE, -UNDER * POINTS, second)
        canvas.setFont(BOLD, 9)
        canvas.drawString(0, 0, told)
    canvas.restoreState()


RAISED: Mm = 2.0
UNDER: Mm = 3.6
"""A foot of two lines begins so much higher, and its second stands so far under the first."""


def _foot_lines(booklet: Booklet, room: float) -> tuple[str, str]:
    """Return the words of the foot in one line if they fit, else the terms in a second one."""
    words, terms = foot_words(booklet), terms_words(booklet)
    both = " · ".join(part for part in (words, terms) if part)
    if not terms or fonts.width(both, 8) <= room:
        return fonts.printable(fonts.shortened(both, 8, room)), ""
    first = fonts.shortened(words, 8, room)
    return fonts.printable(first), fonts.printable(fonts.shortened(terms, 8, TEXT_WIDE))


def _draw_code(booklet: Booklet, canvas: Any) -> None:
    if booklet.code is None:
        return
    side = booklet.code.box.width * POINTS
    canvas.saveState()
    canvas.translate(_left(1) + TEXT_WIDE - side, BOTTOM * POINTS + TEXT_TALL - side)
    canvas.setLineCap(0)
    draw(canvas, booklet.code.drawing)
    canvas.restoreState()


class _Leaves(Canvas):  # type: ignore[misc]
    """A file whose pages fill whole sheets of four: what is left over is for notes."""

    def __init__(self, *args: Any, booklet: Booklet, **named: Any) -> None:
        super().__init__(*args, pdfVersion=(1, 7), **named)
        self.booklet = booklet

    def save(self) -> None:
        """Write the file out."""
        while (self.getPageNumber() - 1) % 4:
            self._draw_notes()
        self.showOutline()
        super().save()

    def _draw_notes(self) -> None:
        top = (TALL - TOP) * POINTS
        self.saveState()
        self.translate(_left(self.getPageNumber()), 0)
        notched_rule(self, TEXT_WIDE, top - 1.2 * POINTS)
        self.setFont(BOLD, 15)
        self.drawString(0, top - 8 * POINTS, fonts.printable(say("Notes")))
        self.setLineWidth(THIN)
        self.setStrokeGray(0.5)
        y = top - 20 * POINTS
        while y > (BOTTOM + 2) * POINTS:
            self.line(0, y, TEXT_WIDE, y)
            y -= LINE * POINTS
        self.restoreState()
        _draw_foot(self.booklet, self)
        self.showPage()
