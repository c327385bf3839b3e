"""Pieces on large sheets with what is set among them, and how one strip is filled with both.

Millimetres on the plane, or from a strip's head down. Imports piece, drawing, filling and foot.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from drafting.geometry import Box, Point, flattened, moved_point
from drafting.piece import Piece, cutting_area, cutting_line
from drafting.units import Mm
from render.drawing import Drawing, placed
from render.filling import Filled, Plane, Shape, Spot, fill, turns_of
from render.foot import FOOT, METRE, RULE_WIDE, check_length, check_line
from render.large_ticket import block_size
from render.paper import Grid, Paper
from render.placement import APART, Effort, Placement
from render.tiling import Sheets, Tile

INSET: Mm = 1.0
"""Pieces keep clear of the rim, so that no half of a line is clipped."""

WORK = {Effort.QUICK: 10**9, Effort.USUAL: 5 * 10**9, Effort.THOROUGH: 10**11}
"""Cells to look at for each effort, as ``fill`` counts them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Inset:
    """A drawing set among the pieces: where on the plane, and what."""

    box: Box
    drawing: Drawing


@dataclass(frozen=True, slots=True, kw_only=True)
class Laid:
    """Pieces on large sheets.

    Attributes:
        insets: parts of the ticket and check lines among the pieces, in the plane's frame.
        further: parts of the ticket that need a sheet of their own.
    """

    sheets: Sheets
    insets: tuple[Inset, ...]
    further: tuple[Drawing, ...] = ()


def footed(paper: Paper) -> Paper:
    """Return a paper without the strip at its foot: what pieces may be laid on."""
    return replace(paper, height=paper.height - FOOT)


def of_height(on: Grid, *, height: Mm) -> Grid:
    """Return the grid of sheets of another height, their foot taken off."""
    return replace(on, paper=footed(replace(on.paper, height=height)))


def unlaid(pieces: Sequence[Piece], on: Grid) -> Sheets:
    """Return pieces that have no place yet, as one sheet's: what its ticket is worded from."""
    laid = tuple(Placement(piece=piece, x=0.0, y=0.0, turn=0.0) for piece in pieces)
    return Sheets(grid=on, placements=laid, tiles=(), joins=(), lower_bound=0)


def area_of(pieces: Sequence[Piece]) -> float:
    """Return the area of some pieces together, in mm2."""
    return math.fsum(cutting_area(piece) for piece in pieces)


def shapes_of(pieces: Sequence[Piece]) -> list[Shape]:
    """Return pieces as shapes that may lie at many turns."""
    outlines = [flattened(cutting_line(piece), outside=True) for piece in pieces]
    return [Shape(outline=outline, turns=turns_of(outline)) for outline in outlines]


def rectangle(wide: Mm, high: Mm, *turns: float) -> Shape:
    """Return a rectangle, its lower left corner at its origin, that lies at some turns alone."""
    corners = (Point(0.0, 0.0), Point(wide, 0.0), Point(wide, high), Point(0.0, high))
    return Shape(outline=corners, turns=turns)


UPRIGHT_LINE = math.pi / 2
"""Turn of a check line that runs along a roll."""

SPARED: Mm = 200.0
"""A metre line along a roll may make the roll this much longer, no more."""


def filled_strip(
    pieces: Sequence[Piece], ticket: Sequence[Drawing], width: Mm, work: int, enough: Mm = 0.0
) -> tuple[Filled, Mm] | None:
    """Return pieces, blocks and check line on one strip, and the line's length, 0 for none.

    None if a piece is wider than the strip.
    """
    plane = Plane(width=width - 2 * INSET, apart=APART)
    shapes = shapes_of(pieces)
    shapes += [rectangle(*block_size(block), 0.0, math.pi / 2) for block in ticket]
    main = len(pieces)
    plain = fill(shapes, plane, work=work, main=main, enough=enough)
    if plain is None or check_length(width) == METRE:
        return None if plain is None else (plain, 0.0)
    line = rectangle(METRE + 4, RULE_WIDE, UPRIGHT_LINE)
    spared = max(plain.length + SPARED, enough)
    lined = fill([*shapes, line], plane, work=work, main=main, enough=plain.length)
    if lined is not None and lined.length <= spared:
        return lined, METRE
    return plain, 0.0


def one_sheet(
    pieces: Sequence[Piece], ticket: Sequence[Drawing], line: Mm, filled: Filled, on: Grid
) -> Laid:
    """Return what was filled as one sheet, its head at the top of the plane."""
    top = on.window.height - INSET
    spots = [replace(spot, x=spot.x + INSET, y=spot.y + top) for spot in filled.spots]
    placements = placements_of(pieces, spots)
    drawings = [*ticket, *([check_line(line)] if line else [])]
    sizes = [*map(block_size, ticket), (line + 4, RULE_WIDE)]
    insets = [
        inset_at(drawing, size, spot)
        for drawing, size, spot in zip(drawings, sizes, spots[len(pieces) :], strict=False)
    ]
    window = Box(left=0.0, bottom=0.0, right=on.window.width, top=on.window.height)
    tile = Tile(row=1, column=1, window=window, pieces=tuple(piece.name for piece in pieces))
    sheets = Sheets(grid=on, placements=placements, tiles=(tile,), joins=(), lower_bound=1)
    return Laid(sheets=sheets, insets=tuple(insets))


def placements_of(pieces: Sequence[Piece], spots: Sequence[Spot]) -> tuple[Placement, ...]:
    """Return the first spots as places of the pieces."""
    return tuple(
        Placement(piece=piece, x=spot.x, y=spot.y, turn=spot.turn)
        for piece, spot in zip(pieces, spots, strict=False)
    )


def inset_at(drawing: Drawing, size: tuple[Mm, Mm], spot: Spot) -> Inset:
    """Return a drawing of that width and height put on the plane, with the box it takes there."""
    corners = [
        moved_point(Point(x, y), x=spot.x, y=spot.y, turn=spot.turn)
        for x in (0.0, size[0])
        for y in (0.0, size[1])
    ]
    box = Box(
        left=min(p.x for p in corners),
        bottom=min(p.y for p in corners),
        right=max(p.x for p in corners),
        top=max(p.y for p in corners),
    )
    return Inset(box=box, drawing=placed(drawing, x=spot.x, y=spot.y, turn=spot.turn))
