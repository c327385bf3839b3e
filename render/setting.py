"""Setting type on a page, block under block, going on to another page when one is full.

Millimetres in the page's frame. Imports drawing, style and fonts.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field

from drafting.geometry import Box, Path, Point, straight
from drafting.units import Mm
from render import fonts, style
from render.drawing import Anchor, Drawing, Layer, Pen, Stroke, Text, placed


@dataclass(slots=True)
class Setting:
    """Pages being filled from the top down.

    Attributes:
        window: the drawn part of every page.
        inset: room kept free at the left and the bottom of the first page, for its rules.
        y: height of the next block's top.
        foot: room kept free at the bottom of every page but the first.
    """

    window: Box
    inset: Mm
    y: Mm = 0.0
    foot: Mm = 0.0
    strokes: list[Stroke] = field(default_factory=list)
    texts: list[Text] = field(default_factory=list)
    done: list[Drawing] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.y = self.window.top

    @property
    def left(self) -> Mm:
        """Left edge of what is set on this page."""
        return self.window.left + (0.0 if self.done else self.inset)

    @property
    def bottom(self) -> Mm:
        """Lowest edge of what is set on this page."""
        return self.window.bottom + (self.foot if self.done else self.inset)

    @property
    def width(self) -> Mm:
        """Width of what is set on this page."""
        return self.window.right - self.left

    def need(self, height: Mm) -> None:
        """Go on to a new page unless a block of that height fits on this one."""
        if self.y - height < self.bottom and (self.strokes or self.texts):
            self.turn_page()

    def turn_page(self) -> None:
        """End this page and begin the next."""
        self.done.append(Drawing(strokes=tuple(self.strokes), texts=tuple(self.texts)))
        self.strokes, self.texts = [], []
        self.y = self.window.top

    def pages(self) -> tuple[Drawing, ...]:
        """Return every page set so far."""
        if self.strokes or self.texts:
            self.turn_page()
        return tuple(self.done)

    def line(
        self,
        words: str,
        x: Mm,
        y: Mm,
        *,
        size: Mm = style.BODY,
        bold: bool = False,
        anchor: Anchor = Anchor.START,
        angle: float = 0.0,
    ) -> None:
        """Set one line with its baseline at ``y``."""
        self.texts.append(
            Text(
                text=words,
                at=Point(x, y),
                size=size,
                bold=bold,
                anchor=anchor,
                angle=angle,
                layer=Layer.PAGE,
            )
        )

    def put(self, drawing: Drawing, x: Mm, y: Mm) -> None:
        """Set a drawing with its own origin at a point."""
        there = placed(drawing, x=x, y=y)
        self.strokes += there.strokes
        self.texts += there.texts

    def draw(self, path: Path, pen: Pen = style.THIN) -> None:
        """Draw a path."""
        self.strokes.append(Stroke(path=path, pen=pen, layer=Layer.PAGE))

    def heading(self, words: str, *, with_next: Mm = 20.0) -> None:
        """Set a heading over a thin rule, never alone at the foot of a page."""
        self.need(style.HEADING * 2 + with_next)
        if self.y < self.window.top:
            self.y -= 4.5
            self.draw(straight(Point(self.left, self.y), Point(self.window.right, self.y)))
        self.y -= style.HEADING * 1.25
        self.line(words, self.left, self.y, size=style.HEADING, bold=True)
        self.y -= 2.8

    def paragraph(
        self,
        words: str,
        *,
        size: Mm = style.BODY,
        bold: bool = False,
        indent: Mm = 0.0,
        width: Mm | None = None,
        after: Mm = 1.2,
    ) -> None:
        """Set a paragraph, broken to the width given or to the page's."""
        most = (self.width if width is None else width) - indent
        rows = fonts.wrapped(words, size, most, bold=bold)
        self.need(len(rows) * size * style.LEADING)
        for row in rows:
            self.y -= size * style.LEADING
            x = self.left + indent
            self.line(row, x, self.y + size * 0.3, size=size, bold=bold)
        self.y -= after

    def table(self, rows: Sequence[tuple[str, str]], *, first: Mm, size: Mm = style.BODY) -> None:
        """Set rows of a bold word and what it stands for, the second column broken to fit.

        Args:
            first: least width of the first column; a longer word makes it wider.
        """
        first = max([first, *(fonts.width(head, size, bold=True) + 2.0 for head, _ in rows)])
        for head, words in rows:
            broken = fonts.wrapped(words, size, self.width - first)
            self.need(len(broken) * size * style.LEADING + 1.0)
            top = self.y
            self.line(head, self.left, top - size * 1.05, size=size, bold=True)
            for row in broken:
                self.y -= size * style.LEADING
                self.line(row, self.left + first, self.y + size * 0.3, size=size)
            self.y -= 1.0


def height_of(words: str, size: Mm, width: Mm) -> Mm:
    """Return how high a paragraph of that width is set."""
    return len(fonts.wrapped(words, size, width)) * size * style.LEADING
