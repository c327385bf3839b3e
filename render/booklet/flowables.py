"""What the booklet's pages are set from: headings, steps, ticked checks, pictures, ruled boxes.

Points, as reportlab counts. A home of reportlab, which sets lines and breaks pages.
"""

from typing import Any
from xml.sax.saxutils import escape

from reportlab.lib.styles import ParagraphStyle
from reportlab.platypus import Flowable, Paragraph

from drafting.geometry import Box
from render import fonts
from render.booklet.words import Place, clean
from render.drawing import Drawing
from render.pdf import POINTS, draw
from render.pictures.picture import WIDE

REGULAR, BOLD = fonts.NAMES[False], fonts.NAMES[True]
THIN, THICK = 0.25 * POINTS, 0.7 * POINTS
TEXT_WIDE, TEXT_TALL = WIDE * POINTS, 180 * POINTS
INDENT = 9 * POINTS
"""How far a step's words stand in from its number."""


def style(
    size: float, leading: float, *, bold: bool = False, before: float = 0.0, after: float = 0.0,
    left: float = 0.0, right: float = 0.0, align: int = 0,
) -> ParagraphStyle:  # fmt: skip
    """Return how a paragraph is set; where it may be divided is not its own concern."""
    face = BOLD if bold else REGULAR
    return ParagraphStyle(
        f"{face}-{size}",
        fontName=face,
        fontSize=size,
        leading=leading,
        spaceBefore=before,
        spaceAfter=after,
        leftIndent=left,
        rightIndent=right,
        alignment=align,
        bulletFontName=face,
        bulletFontSize=size,
        allowWidows=1,
        allowOrphans=1,
    )


def marked_up(words: str) -> str:
    """Return words as platypus reads them: printable, none of them taken for markup."""
    return escape(fonts.printable(clean(words)))


def led_by(word: str, words: str) -> str:
    """Return words with a bold word before them and room between, as platypus reads them."""
    return f'<font name="{BOLD}">{marked_up(word)}</font>\u00a0\u00a0 {marked_up(words)}'


class Heading(Paragraph):  # type: ignore[misc]
    """A heading that the outline and the contents lead to.

    A section of the booklet has a rule over it with two notches, as a seam's edge has.
    """

    place: Place | None = None
    over = 0.0

    def of(self, place: Place) -> "Heading":
        """Return the heading, bound to its place."""
        self.place = place
        self.over = 4.5 * POINTS if place.depth == 0 else 0.0
        return self

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        """Return the room needed, that of the rule over a section too."""
        wide, tall = super().wrap(width, height - self.over)
        self.height = tall + self.over
        return wide, self.height

    def draw(self) -> None:
        """Draw the heading where platypus has put the origin."""
        whole = self.height
        self.height -= self.over
        super().draw()
        self.height = whole
        if self.place is None:
            return
        if self.place.depth == 0:
            notched_rule(self.canv, self.width, self.height - 1.2 * POINTS)
        go_to(self.canv, self.place, self.height + 5 * POINTS)


def notched_rule(canvas: Any, wide: float, y: float) -> None:
    """Draw a rule with two notches hanging from its beginning."""
    canvas.setStrokeGray(0)
    canvas.setLineWidth(THIN)
    canvas.line(0, y, wide, y)
    canvas.setLineWidth(0.5 * POINTS)
    for x in (0.25 * POINTS, 3.25 * POINTS):
        canvas.line(x, y + 1.2 * POINTS, x, y - 1.2 * POINTS)


def go_to(canvas: Any, place: Place, top: float) -> None:
    """Make a place on the page one that the outline and the contents go to."""
    _, absolute = canvas.absolutePosition(0, top)
    canvas.bookmarkPage(place.key, fit="XYZ", left=0, top=absolute, zoom=0)
    words = f"{place.number}  {place.words}" if place.number else place.words
    canvas.addOutlineEntry(words, place.key, level=place.depth, closed=int(place.depth > 0))


class StepHead(Flowable):  # type: ignore[misc]
    """A step's number, its title, and how long it takes, small beside it."""

    def __init__(self, heading: Heading, time: Paragraph | None, time_wide: float) -> None:
        super().__init__()
        self.heading, self.time, self.time_wide = heading, time, time_wide
        self.number = str(heading.place.number) if heading.place else ""
        self.spaceBefore, self.spaceAfter = 11.0, 3.0
        self.beside = False

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        """Return the room needed; the time goes under a title that leaves none beside it."""
        room = width - INDENT
        self.width = width
        whole = fonts.width(self.heading.getPlainText(), 11.5, bold=True)
        self.beside = self.time is not None and whole + self.time_wide + 4 * POINTS <= room
        _, tall = self.heading.wrap(room, height)
        self.height = tall
        if self.time is not None:
            _, under = self.time.wrap(self.time_wide if self.beside else room, height)
            self.height += 0.0 if self.beside else under
        return width, self.height

    def draw(self) -> None:
        """Draw all three; the number hangs before the title."""
        canvas = self.canv
        first = self.height - 11.5
        canvas.setFillGray(0)
        canvas.setFont(BOLD, 11.5)
        canvas.drawString(0, first, self.number)
        self.heading.drawOn(canvas, INDENT, self.height - self.heading.height)
        if self.time is not None:
            x = self.width - self.time_wide if self.beside else INDENT
            self.time.drawOn(canvas, x, first - 2.4 if self.beside else 0)


class Ticked(Paragraph):  # type: ignore[misc]
    """A paragraph with an empty box before it, to be ticked."""

    ticked = True

    def split(self, width: float, height: float) -> Any:
        """Return the paragraph in two, the box before the first."""
        parts = super().split(width, height)
        for rest in parts[1:]:
            rest.ticked = False
        return parts

    def draw(self) -> None:
        """Draw the words and the box; no letter of the typeface is one."""
        super().draw()
        if self.ticked:
            self.canv.setStrokeGray(0)
            self.canv.setLineWidth(0.35 * POINTS)
            self.canv.rect(0.6, self.height - 9.6, 3 * POINTS, 3 * POINTS)


class Entry(Paragraph):  # type: ignore[misc]
    """A line of the contents: a heading's words, at the far end its page."""

    place: Place | None = None
    page = 0

    def draw(self) -> None:
        """Draw the line in the order it is read; all of it leads to its place."""
        canvas, first = self.canv, self.height - 10
        canvas.setFont(self.style.fontName, self.style.fontSize)
        if self.place is not None and self.place.number:
            x = self.style.leftIndent - 6.5 * POINTS
            canvas.drawString(x, first, str(self.place.number))
        super().draw()
        canvas.setFont(self.style.fontName, self.style.fontSize)
        canvas.drawRightString(self.width, first, str(self.page) if self.page else "")
        if self.place is not None:
            canvas.linkRect("", self.place.key, (0, 0, self.width, self.height), relative=1)
            if self.place.depth == 0:
                canvas.setLineWidth(THIN)
                canvas.line(0, self.height + 1.6, self.width, self.height + 1.6)


class Figure(Flowable):  # type: ignore[misc]
    """A picture with its caption, always on one page.

    Attributes:
        own: its scale, 1 for as it is drawn; ``scale`` is that on a page which is short of room.
    """

    def __init__(self, drawing: Drawing, box: Box, alt: str, caption: Paragraph | None) -> None:
        super().__init__()
        self.drawing, self.box, self.alt, self.caption = drawing, box, alt, caption
        self.own = self.scale = 1.0
        self.spaceBefore, self.spaceAfter = 6.0, 8.0

    @property
    def tall(self) -> float:
        """The picture's own height, as it is drawn."""
        return self.box.height * POINTS

    def under(self, width: float) -> float:
        """Return the height of what stands under the picture."""
        if self.caption is None:
            return 0.0
        return float(self.caption.wrap(width, 0)[1]) + 1.5 * POINTS

    def wrap(self, width: float, _height: float) -> tuple[float, float]:
        """Return the room needed."""
        self.width, self.height = width, self.tall * self.scale + self.under(width)
        return self.width, self.height

    def draw(self) -> None:
        """Draw the picture over its caption; what it shows is told in its stead to a reader.

        Source: ISO 32000-1, 14.9.3: a Span of marked content may have an alternate description.
        """
        canvas = self.canv
        told = ("\ufeff" + self.alt).encode("utf-16-be").hex().upper()
        canvas.saveState()
        canvas.translate(0, self.height)
        canvas.scale(self.scale, self.scale)
        canvas.translate(-self.box.left * POINTS, -self.box.top * POINTS)
        canvas._code.append(f"/Span <</Alt <{told}>>> BDC")
        draw(canvas, self.drawing)
        canvas._code.append("EMC")
        canvas.restoreState()
        if self.caption is not None:
            self.caption.drawOn(canvas, 0, 0)
