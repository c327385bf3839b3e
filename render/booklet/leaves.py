"""The booklet's pages: their margins, what stands at their foot, leaves filled up with notes.

Points. A home of reportlab.
"""

import io
from functools import partial
from typing import Any

from reportlab import rl_config
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import BaseDocTemplate, Frame, NextPageTemplate, PageTemplate

from drafting.language import say
from drafting.units import Mm
from render import fonts
from render.booklet.flowables import BOLD, REGULAR, THIN, notched_rule
from render.booklet.model import Booklet
from render.booklet.story import TEXT_TALL, TEXT_WIDE, story
from render.booklet.words import clean, foot_words
from render.pdf import POINTS

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
    """Return the booklet as the bytes of a PDF file.

    Set twice: the contents are as long without page numbers as with them, so the second time
    every heading stands where the first time told.
    """
    for bold in (False, True):
        pdfmetrics.registerFont(fonts.font(bold=bold))
    rl_config.useA85 = 0  # binary streams: a tenth smaller
    pages: dict[str, int] = {}
    _, pages = _built(booklet, pages)
    written, again = _built(booklet, pages)
    if again != pages:
        raise AssertionError("the contents moved what they tell of")
    return written


def _built(booklet: Booklet, pages: dict[str, int]) -> tuple[bytes, dict[str, int]]:
    """Return the file, and the page that each place came to stand on."""
    told: dict[str, int] = {}
    out = io.BytesIO()
    document = BaseDocTemplate(
        out,
        pagesize=(WIDE * POINTS, TALL * POINTS),
        pageTemplates=_templates(booklet),
        title=clean(booklet.title),
        author=clean(booklet.author),
        subject=clean(booklet.subject),
        creator="hemsweep",
        producer="hemsweep, reportlab",
        displayDocTitle=1,
        lang=booklet.language,
        invariant=1,
        pageCompression=1,
        initialFontName=REGULAR,
    )
    taking_turns = NextPageTemplate(["left", "right"])
    document.build(
        [taking_turns, *story(booklet, pages, told)],
        canvasmaker=partial(_Leaves, booklet=booklet),
    )
    return out.getvalue(), told


def _left(number: int) -> float:
    """Return where the text of a page begins: odd pages lie to the right of the fold."""
    return (INNER if number % 2 else OUTER) * POINTS


def _templates(booklet: Booklet) -> list[Any]:
    """Return a right-hand page, which is the first, and a left-hand one."""
    made = []
    for number, name in ((1, "right"), (2, "left")):
        frame = Frame(
            _left(number), BOTTOM * POINTS, TEXT_WIDE, TEXT_TALL,
            leftPadding=0, rightPadding=0, topPadding=0, bottomPadding=0,
        )  # fmt: skip
        drawn = partial(_draw_foot, booklet)
        made.append(PageTemplate(name, [frame], onPageEnd=drawn))
    return made


def _draw_foot(booklet: Booklet, canvas: Any, _document: Any) -> None:
    """Draw title, maker and number at the foot of every page but the first."""
    number = canvas.getPageNumber()
    if number == 1:
        return
    left, y = _left(number), FOOT * POINTS
    told = str(number)
    room = TEXT_WIDE - fonts.width(told, 9, bold=True) - 6 * POINTS
    words = fonts.printable(fonts.shortened(foot_words(booklet), 8, room))
    canvas.saveState()
    canvas.translate(left, y)
    canvas.setLineWidth(THIN)
    canvas.line(0, 4 * POINTS, TEXT_WIDE, 4 * POINTS)
    canvas.setFont(REGULAR, 8)
    if number % 2:
        canvas.drawString(0, 0, words)
        canvas.setFont(BOLD, 9)
        canvas.drawRightString(TEXT_WIDE, 0, told)
    else:
        canvas.drawRightString(TEXT_WIDE, 0, words)
        canvas.setFont(BOLD, 9)
        canvas.drawString(0, 0, told)
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
        _draw_foot(self.booklet, self, None)
        self.showPage()
