"""Cutting the assembled plane into pages, and leaving out the pages that carry nothing.

Rows are counted from the top and columns from the left, as pages are taped. Millimetres.
Imports geometry, piece, drawing, paper and placement.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from drafting.geometry import Box, Path, Point, bounds, flattened, holds, moved, moved_point
from drafting.piece import cutting_area, cutting_line
from drafting.units import Mm
from render.clipping import clipped, meets
from render.drawing import Drawing, Stroke
from render.paper import Grid
from render.placement import Placement


@dataclass(frozen=True, slots=True, kw_only=True)
class Tile:
    """One page's part of the plane.

    Attributes:
        row, column: counted from 1, row 1 at the top.
        window: the part of the plane that its page shows.
        pieces: names of the pieces that lie on it, in the order of the placements.
    """

    row: int
    column: int
    window: Box
    pieces: tuple[str, ...]

    @property
    def name(self) -> str:
        """What the page is called: a letter for the row, a number for the column."""
        return f"{row_letters(self.row)}{self.column}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Join:
    """Where two pages meet.

    Attributes:
        number: printed in the mark on both pages.
        first: the page that keeps its edge and is glued on; left, or above.
        second: the page that is cut along the join and laid over the first.
        upright: the join runs up the plane, between left and right.
        line: its two ends on the plane.
    """

    number: int
    first: Tile
    second: Tile
    upright: bool
    line: tuple[Point, Point]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheets:
    """A plane cut into pages: placements moved so that the lowest, leftmost page is at 0, 0."""

    grid: Grid
    placements: tuple[Placement, ...]
    tiles: tuple[Tile, ...]
    joins: tuple[Join, ...]
    lower_bound: int


def row_letters(row: int) -> str:
    """Return the letters of a row counted from 1: A to Z, then AA and on."""
    letters = ""
    while row > 0:
        row, rest = divmod(row - 1, 26)
        letters = chr(ord("A") + rest) + letters
    return letters


def cut_into_pages(placements: Sequence[Placement], grid: Grid) -> Sheets:
    """Return the pages that a plane of placed pieces needs, in the order they are taped."""
    needed = _needed(placements, grid)
    if not needed:
        return Sheets(grid=grid, placements=(), tiles=(), joins=(), lower_bound=0)
    left = min(column for column, _ in needed)
    low = min(level for _, level in needed)
    high = max(level for _, level in needed)
    moved_back = tuple(
        Placement(piece=p.piece, x=p.x - left * grid.step_x, y=p.y - low * grid.step_y, turn=p.turn)
        for p in placements
    )
    tiles = tuple(
        Tile(
            row=high - level + 1,
            column=column - left + 1,
            window=_window(grid, column - left, level - low),
            pieces=tuple(placements[k].piece.name for k in sorted(needed[column, level])),
        )
        for column, level in sorted(needed, key=lambda place: (-place[1], place[0]))
    )
    return Sheets(
        grid=grid,
        placements=moved_back,
        tiles=tiles,
        joins=_joins(tiles, grid),
        lower_bound=area_bound(placements, grid),
    )


def tiles_for(sheets: Sheets, placements: Sequence[Placement]) -> tuple[Tile, ...]:
    """Return those pages of a plane that some of what lies on it needs.

    Args:
        placements: on the same plane, each within what the plane was cut into pages for.
    """
    grid = sheets.grid
    needed = _needed(placements, grid)
    return tuple(
        tile
        for tile in sheets.tiles
        if (round(tile.window.left / grid.step_x), round(tile.window.bottom / grid.step_y))
        in needed
    )


def area_bound(placements: Sequence[Placement], grid: Grid) -> int:
    """Return how many pages some pieces fill by their area alone, without their overlaps."""
    area = sum(cutting_area(p.piece) for p in placements)
    return max(1, math.ceil(area / (grid.step_x * grid.step_y)))


def _window(grid: Grid, column: int, level: int) -> Box:
    left, bottom = column * grid.step_x, level * grid.step_y
    return Box(
        left=left,
        bottom=bottom,
        right=left + grid.window.width,
        top=bottom + grid.window.height,
    )


def _needed(placements: Sequence[Placement], grid: Grid) -> dict[tuple[int, int], set[int]]:
    """Return the places of pages, by column and level, with the pieces each must carry.

    A page is left out where all that lies on it lies in overlaps that its neighbours show.
    """
    found: dict[tuple[int, int], set[int]] = {}
    shapes: list[tuple[Path, tuple[Point, ...]]] = []
    for index, placement in enumerate(placements):
        outline = cutting_line(placement.piece)
        path = placement.on_plane(outline)
        polygon = tuple(
            moved_point(p, x=placement.x, y=placement.y, turn=placement.turn)
            for p in flattened(outline, outside=True)
        )
        shapes.append((path, polygon))
        box = bounds(path)
        first_column = math.floor((box.left - grid.overlap) / grid.step_x)
        first_level = math.floor((box.bottom - grid.overlap) / grid.step_y)
        for column in range(first_column, math.floor(box.right / grid.step_x) + 1):
            for level in range(first_level, math.floor(box.top / grid.step_y) + 1):
                if _touches(path, polygon, _window(grid, column, level)):
                    found.setdefault((column, level), set()).add(index)
    for place in sorted(found, key=lambda place: (place[1], place[0])):
        own = _own_part(place, found, grid)
        if not any(_touches(*shapes[index], own) for index in found[place]):
            del found[place]
    return found


def _own_part(place: tuple[int, int], kept: dict[tuple[int, int], set[int]], grid: Grid) -> Box:
    """Return the part of a page's window that no kept neighbour beside or above it shows."""
    column, level = place
    window, o = _window(grid, column, level), grid.overlap
    return Box(
        left=window.left + (o if (column - 1, level) in kept else 0.0),
        right=window.right - (o if (column + 1, level) in kept else 0.0),
        bottom=window.bottom + (o if (column, level - 1) in kept else 0.0),
        top=window.top - (o if (column, level + 1) in kept else 0.0),
    )


def _touches(path: Path, polygon: tuple[Point, ...], box: Box) -> bool:
    return meets(path, box) or holds(polygon, box.centre)


def _joins(tiles: tuple[Tile, ...], grid: Grid) -> tuple[Join, ...]:
    at = {(tile.row, tile.column): tile for tile in tiles}
    joins: list[Join] = []
    for tile in tiles:
        right = at.get((tile.row, tile.column + 1))
        below = at.get((tile.row + 1, tile.column))
        for other, upright in ((right, True), (below, False)):
            if other is None:
                continue
            window = other.window
            line = (
                (Point(window.left, window.bottom), Point(window.left, window.top))
                if upright
                else (Point(window.left, window.top), Point(window.right, window.top))
            )
            joins.append(
                Join(number=len(joins) + 1, first=tile, second=other, upright=upright, line=line)
            )
    return tuple(joins)


def on_page(strokes: Sequence[Stroke], tile: Tile, grid: Grid) -> Drawing:
    """Return the strokes that touch a page, cut to it, in the page's own frame.

    A millimetre beyond the window is kept, so that no line ends in a slant at its rim; the
    page's clip takes it off. The dash pattern of every line is carried over.
    """
    box = tile.window.grown(1.0)
    dx, dy = grid.margin - tile.window.left, grid.margin - tile.window.bottom
    found: list[Stroke] = []
    for stroke in strokes:
        for path, start in clipped(stroke.path, box, round_start=not stroke.pen.dash):
            found.append(
                Stroke(
                    path=moved(path, x=dx, y=dy),
                    pen=stroke.pen,
                    layer=stroke.layer,
                    phase=_carried(stroke, start),
                    sizes=stroke.sizes,
                )
            )
    return Drawing(strokes=tuple(found))


def _carried(stroke: Stroke, start: Mm) -> Mm:
    period = math.fsum(stroke.pen.dash)
    return math.fmod(stroke.phase + start, period) if period else 0.0
