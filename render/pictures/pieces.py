"""All pattern pieces beside each other at one scale, each with its number and how many to cut.

Millimetres on the page. Each outline is the piece's cutting line, on the layer of cutting lines.
Imports the pattern's pieces and ink.
"""

import itertools
import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from drafting.geometry import (
    Line,
    Path,
    Point,
    bounds,
    direction_along,
    distance,
    flattened,
    moved,
    moved_point,
    path_length,
    point_along,
    scaled,
    stepped,
)
from drafting.language import clauses, say, say_counted
from drafting.pattern import Pattern
from drafting.piece import EdgeKind, FoldWay, Piece, cutting_box, cutting_line
from drafting.piece_names import cloth_words, piece_words
from drafting.units import Mm
from render.drawing import Anchor, Drawing, Layer, placed, together
from render.fonts import width, wrapped
from render.pictures.ink import (
    EDGE,
    HEAD,
    LINING_ANGLE,
    OUTLINE,
    RUFFLE_ANGLE,
    THIN,
    along,
    arrow,
    double_arrow,
    framed,
    hatched,
    line,
    words,
)
from render.pictures.picture import SMALL_TYPE, TALL, WIDE, Picture
from render.style import LEADING

NUMBER: Mm = 5.0
"""Height of a piece's number."""

LARGEST_SCALE = 1 / 5
"""Pieces are drawn no larger than this, however few they are."""

ROOM_ACROSS: Mm = 4.0
ROOM_DOWN: Mm = 4.5
LEAST_CELL: Mm = 27.0
"""Least width of the words under a piece."""

LEAST_GRAIN: Mm = 1.2
"""A grain arrow shorter than this on the page is not drawn."""

HATCHED = {"lining": LINING_ANGLE, "ruffle": RUFFLE_ANGLE}
GAP: Mm = 2.6
"""Between the lines of a hatching, wide enough that a grain arrow stands out."""

BREAK: Mm = 2.2
"""Gap and height of the teeth where a long strip is drawn broken."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """A piece as it is shown.

    Attributes:
        turn: by which it is turned, so that its longer side lies across the page.
        long: how long it is drawn, before scaling; shorter than it is where it is broken.
    """

    number: int
    piece: Piece
    turn: float
    long: Mm
    wide: Mm
    broken: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """A piece's place on the page: the width of its cell, its lines, where its words begin."""

    shown: Shown
    wide: Mm
    high: Mm
    name: tuple[str, ...]
    told: tuple[str, ...]

    @property
    def whole(self) -> Mm:
        """Height of the piece and of its words."""
        return self.high + 1.5 + NUMBER + _lines(self.name, self.told) * SMALL_TYPE * LEADING


def pieces_picture(pattern: Pattern) -> Picture | None:
    """Return all pieces at one scale, or None where nothing could be drafted."""
    if not pattern.pieces:
        return None
    shown = tuple(_shown(pattern.pieces))
    scale = _scale(shown)
    rows = _rows([_cell(one, scale) for one in shown])
    drawn, y = [], 0.0
    for row in rows:
        high = max(cell.high for cell in row)
        x = 0.0
        for cell in row:
            drawn.append(placed(_drawn(cell, scale), x=x, y=y - high))
            x += cell.wide + ROOM_ACROSS
        y -= max(high - cell.high + cell.whole for cell in row) + ROOM_DOWN
    caption = [
        say(
            "All pieces at one scale, in their true shapes, with their numbers from the cut list."
            " Arrows show the grain."
        )
    ]
    if any(piece.half for piece in pattern.pieces):
        caption.append(say("A bracket shows where half a piece is laid to the fold."))
    if any(one.broken for one in shown):
        caption.append(say("Strips that are longer than they are drawn have a gap in them."))
    alt = clauses(
        say("{number} {name}: {told}", number=piece.number, name=said(piece.piece),
            told=", ".join(count_words(piece.piece)))
        for piece in shown
    )  # fmt: skip
    return framed("pieces", together(*drawn), caption=" ".join(caption), alt=f"{alt}.")


def said(piece: Piece) -> str:
    """Return a piece's name in the language spoken."""
    return piece_words(piece.name)


def count_words(piece: Piece) -> tuple[str, ...]:
    """Return how many to cut, in a few words each."""
    told = [say_counted("cut {count}", "cut {count}", piece.count)]
    if piece.half:
        told.append(
            say("half: turned over to chalk the whole")
            if piece.fold_way is FoldWay.NONE
            else say("on the fold")
        )
    if piece.mirrored:
        told.append(say("a mirrored pair") if piece.count == 2 else say("half of them mirrored"))
    told += [
        say_counted(
            "{count} in {cloth} too", "{count} in {cloth} too", count, cloth=cloth_words(cloth)
        )
        for cloth, count in piece.also
    ]
    return tuple(told)


def _shown(pieces: Sequence[Piece]) -> Iterator[Shown]:
    """Yield how each piece is turned, and how much of it is drawn.

    A strip is broken off where the largest panel ends, or it would dwarf what has a shape.
    """
    shaped = [cutting_box(piece) for piece in pieces if not piece.rectangle]
    most = max((max(box.width, box.height) for box in shaped), default=math.inf)
    for number, piece in enumerate(pieces, start=1):
        box = cutting_box(piece)
        turned = box.height > box.width
        long, wide = max(box.width, box.height), min(box.width, box.height)
        broken = piece.rectangle and long > most
        yield Shown(
            number=number,
            piece=piece,
            turn=-math.pi / 2 if turned else 0.0,
            long=most if broken else long,
            wide=wide,
            broken=broken,
        )


def _scale(shown: Sequence[Shown]) -> float:
    """Return the largest scale at which all pieces and their words fit on the page."""
    low, high = 0.0, min(LARGEST_SCALE, (WIDE - 2) / max(one.long for one in shown))
    if _height(shown, high) <= TALL - 2:
        return high
    for _ in range(30):
        middle = (low + high) / 2
        low, high = (middle, high) if _height(shown, middle) <= TALL - 2 else (low, middle)
    return low


def _height(shown: Sequence[Shown], scale: float) -> Mm:
    total = 0.0
    for row in _rows([_cell(one, scale) for one in shown]):
        high = max(cell.high for cell in row)
        total += max(high - cell.high + cell.whole for cell in row) + ROOM_DOWN
    return total - ROOM_DOWN


def _cell(shown: Shown, scale: float) -> Cell:
    drawn = shown.long * scale
    number = width(f"{shown.number}", NUMBER, bold=True) + 1.5
    room = max(drawn, LEAST_CELL)
    name = wrapped(said(shown.piece), SMALL_TYPE, room - number, bold=True)
    told = tuple(
        part for words_ in count_words(shown.piece) for part in wrapped(words_, SMALL_TYPE, room)
    )
    used = max(
        drawn,
        *(number + width(part, SMALL_TYPE, bold=True) for part in name),
        *(width(part, SMALL_TYPE) for part in told),
    )
    return Cell(shown=shown, wide=used, high=shown.wide * scale, name=name, told=told)


def _lines(name: Sequence[str], told: Sequence[str]) -> int:
    # The name's first line stands on the number's.
    return len(name) - 1 + len(told)


def _rows(cells: Sequence[Cell]) -> list[list[Cell]]:
    """Return the cells in rows no wider than the page, in the order of their numbers."""
    rows: list[list[Cell]] = [[]]
    x = 0.0
    for cell in cells:
        if rows[-1] and x + cell.wide > WIDE - 1.7:
            rows.append([])
            x = 0.0
        rows[-1].append(cell)
        x += cell.wide + ROOM_ACROSS
    return rows


def _drawn(cell: Cell, scale: float) -> Drawing:
    """Return a piece with its words, its lower left corner at the origin."""
    shown = cell.shown
    outline = moved(scaled(cutting_line(shown.piece), scale), turn=shown.turn)
    box = bounds(outline)
    x, y = -box.left, -box.bottom

    def place(path: Path) -> Path:
        return moved(moved(scaled(path, scale), turn=shown.turn), x=x, y=y)

    rims = _parts(cell, scale) if shown.broken else (place(cutting_line(shown.piece)),)
    here = [along(rim, pen=OUTLINE, layer=Layer.CUTTING) for rim in rims]
    if shown.piece.cloth in HATCHED:
        angle = HATCHED[shown.piece.cloth]
        here += [hatched(flattened(rim, error=0.05), angle, GAP) for rim in rims]
    ends = [
        moved_point(moved_point(Point(p.x * scale, p.y * scale), turn=shown.turn), x=x, y=y)
        for p in shown.piece.grainline
    ]
    if shown.broken:
        ends = _on_the_near_part(ends, shown.long * scale / 2 - 2 * BREAK)
    if distance(*ends) >= LEAST_GRAIN:
        here.append(double_arrow(ends[0], ends[1], pen=EDGE, head=min(HEAD, cell.high)))
    here += [_fold(place(edge.path)) for edge in shown.piece.edges if edge.kind is EdgeKind.FOLD]
    return together(*here, _words(cell))


def _on_the_near_part(ends: Sequence[Point], most: Mm) -> list[Point]:
    """Return a grainline moved and shortened to lie left of ``most``."""
    left = min(p.x for p in ends)
    long = max(p.x for p in ends) - left
    start = min(left, 0.2 * most)
    by = min(1.0, 0.8 * most / long) if long else 1.0
    return [Point(start + (p.x - left) * by, p.y) for p in ends]


def _parts(cell: Cell, scale: float) -> tuple[Path, Path]:
    """Return the outlines of a strip in two parts, with teeth where its middle is left out."""
    long, high = cell.shown.long * scale, cell.high
    teeth = [Point(BREAK / 2 if k % 2 else -BREAK / 2, high * k / 4) for k in range(5)]
    left, right = (
        _closed(
            Point(corner, 0.0),
            *(Point(middle + p.x, p.y) for p in teeth),
            Point(corner, high),
        )
        for corner, middle in ((0.0, long / 2 - BREAK), (long, long / 2 + BREAK))
    )
    return left, right


def _closed(*points: Point) -> Path:
    return tuple(
        Line(start=one, end=other) for one, other in itertools.pairwise((*points, points[0]))
    )


def _fold(path: Path) -> Drawing:
    """Return a bracket inside a fold, its arms pointing to it."""
    long = path_length(path)
    inward = direction_along(path, 0.0) + math.pi / 2
    reach = min(3.0, 0.2 * long)
    arms = [point_along(path, share * long) for share in (0.15, 0.85)]
    bases = [stepped(arm, inward, reach) for arm in arms]
    return together(
        line(*bases, pen=THIN),
        *(arrow(base, arm) for base, arm in zip(bases, arms, strict=True)),
    )


def _words(cell: Cell) -> Drawing:
    y = -1.5 - NUMBER * 0.75
    number = f"{cell.shown.number}"
    aside = width(number, NUMBER, bold=True) + 1.5
    drawn = [words(number, Point(0.0, y), size=NUMBER, bold=True)]
    for k, part in enumerate(cell.name):
        at = Point(aside, y - k * SMALL_TYPE * LEADING)
        drawn.append(words(part, at, bold=True, anchor=Anchor.START))
    for k, part in enumerate(cell.told, start=len(cell.name)):
        drawn.append(words(part, Point(0.0, y - k * SMALL_TYPE * LEADING - 0.5)))
    return together(*drawn)
