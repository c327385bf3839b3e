"""The pieces of a pattern laid out once on one plane, for files that have no pages.

Each piece lies with its grain along x, as the cloth lies on a cutting table, in columns no
taller than the table is wide, in the order of the cut list. A test square comes first: what
is plotted first is measured before the rest is cut. Millimetres and radians; x to the right,
y up. Imports geometry, piece, pattern, drawing, style, fonts, room and words.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from drafting.geometry import Box, Path, Point, bounds, moved, rim
from drafting.language import Language, in_its_language, say, spoken
from drafting.pattern import Pattern
from drafting.piece import Piece, cutting_line, grain_angle
from drafting.spec import Scope
from drafting.units import Mm
from render import fonts, style
from render.chosen import on_paper
from render.drawing import Anchor, Drawing, Layer, Stroke, Text, placed
from render.piece_drawing import PieceLine, own_lines
from render.piece_words import label_and_words
from render.placement import Placement
from render.room import Room
from render.spots import Spots
from render.true_size import SQUARE
from render.words import made_for

APART: Mm = 20.0
"""Between the boxes of two pieces, and round all of them."""

TALLEST: Mm = 1500.0
"""A column is no taller, where each of its pieces allows it: the width of a cutting table."""

FOOT: Mm = 30.0
"""The lowest part of the square is left free for what a file says of itself."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """One piece and where it lies.

    Attributes:
        number: the piece's number in the cut list.
        placement: where the piece's own frame lies on the plane.
        lines: every line of the piece, in its own frame.
        words: every text of the piece, in its own frame.
    """

    number: int
    placement: Placement
    lines: tuple[PieceLine, ...]
    words: tuple[Text, ...]

    @property
    def piece(self) -> Piece:
        """The piece itself."""
        return self.placement.piece

    def on_plane(self) -> Drawing:
        """Return the part's lines and words where they lie on the plane."""
        at = self.placement
        own = Drawing(strokes=tuple(line.stroke for line in self.lines), texts=self.words)
        return placed(own, x=at.x, y=at.y, turn=at.turn)


@dataclass(frozen=True, slots=True, kw_only=True)
class Plane:
    """All parts on one plane that begins at 0, 0.

    Attributes:
        title: the pattern's, with letters that the typeface has.
        language: what its words are said in, those that a file adds too.
        square: the test square, in the frame of the plane.
    """

    title: str
    language: Language = Language.ENGLISH
    width: Mm
    height: Mm
    square: Drawing
    parts: tuple[Part, ...]


@in_its_language
def laid_out(pattern: Pattern, only: Sequence[str] = ()) -> Plane:
    """Return the pieces that are printed, or those asked for, each once and whole on one plane.

    Args:
        only: names or numbers of pieces, as the cut list has them.

    Raises:
        PieceWishError: a piece asked for cannot be printed.
    """
    spec = pattern.spec
    if spec.print.scope is Scope.WAIST:
        # Paper is spared by printing waists alone; a plotter or a knife wants the outline.
        pattern = replace(pattern, spec=replace(spec, print=replace(spec.print, scope=Scope.WHOLE)))
    numbers = {piece.name: number for number, piece in enumerate(pattern.pieces, start=1)}
    placements = _placements(on_paper(pattern, only), left=2 * APART + SQUARE)
    boxes = [_box(placement) for placement in placements]
    return Plane(
        title=fonts.printable(pattern.spec.title),
        language=spoken(),
        width=max((box.right for box in boxes), default=APART + SQUARE) + APART,
        height=max([APART + SQUARE, *(box.top for box in boxes)]) + APART,
        square=_square(pattern),
        parts=tuple(
            Part(
                number=numbers[placement.piece.name],
                placement=placement,
                lines=own_lines(placement.piece),
                words=_words(placement, pattern),
            )
            for placement in placements
        ),
    )


def _along_x(piece: Piece) -> float:
    """Return the turn that brings the grain of a piece along x, at most a quarter either way."""
    turn = -grain_angle(piece)
    if turn > math.pi / 2 + 1e-9:
        return turn - math.pi
    return turn + math.pi if turn < -math.pi / 2 - 1e-9 else turn


def _placements(pieces: Sequence[Piece], *, left: Mm) -> tuple[Placement, ...]:
    """Stack the pieces from the bottom in columns, each column as wide as its widest piece."""
    found = []
    bottom, right = APART, left
    for piece in pieces:
        turn = _along_x(piece)
        box = bounds(moved(cutting_line(piece), turn=turn))
        if bottom > APART and bottom + box.height > APART + TALLEST:
            bottom, left = APART, right
        found.append(Placement(piece=piece, x=left - box.left, y=bottom - box.bottom, turn=turn))
        bottom += box.height + APART
        right = max(right, left + box.width + APART)
    return tuple(found)


def _box(placement: Placement) -> Box:
    return bounds(placement.on_plane(cutting_line(placement.piece)))


def _words(placement: Placement, pattern: Pattern) -> tuple[Text, ...]:
    """Return a piece's words in its own frame, level where the piece lies with its grain along x.

    None stands further off than half of the gap to a neighbour, so that a piece can be moved
    with all its words.
    """
    turn = placement.turn
    turned = Placement(piece=placement.piece, x=0.0, y=0.0, turn=turn)
    room = Room(box=_box(turned).grown(APART / 2))
    for line in own_lines(placement.piece):
        room.enter(turned.on_plane(line.stroke.path))
    words = label_and_words(turned, pattern, Spots(clear=room, uncut=room))
    return placed(Drawing(texts=words), turn=-turn).texts


def _square(pattern: Pattern) -> Drawing:
    """Return the test square in the lower left corner, what it is for written inside it."""
    box = Box(left=APART, bottom=APART, right=APART + SQUARE, top=APART + SQUARE)
    outline: Path = rim(box)
    told = (
        ("100 mm", style.NAME, True),
        (say("Test square: measure it across and up before you cut. One unit is one millimetre."),
         style.BODY, False),
        (pattern.spec.title, style.BODY, True),
        (made_for(pattern.spec), style.BODY, False),
    )  # fmt: skip
    rows = [
        (row, size, bold)
        for words, size, bold in told
        for row in fonts.wrapped(words, size, SQUARE - 16, bold=bold)
    ]
    texts, y = [], box.top - 6.0
    for row, size, bold in rows:
        y -= size * style.LEADING
        if y > box.bottom + FOOT:
            at = Point(box.centre.x, y)
            texts.append(Text(text=row, at=at, size=size, anchor=Anchor.MIDDLE, bold=bold))
    return Drawing(
        strokes=(Stroke(path=outline, pen=style.CUTTING, layer=Layer.CUTTING),),
        texts=tuple(texts),
    )
