"""Placing pieces on the assembled plane so that few pages carry anything.

Each piece, biggest first, is tried at a fixed set of turns and at every shift of a raster
whose page is a whole number of cells; it goes where it opens the fewest new pages and
touches no other piece. Rows of the raster are whole numbers used as sets of cells, so a
clash is one "and". The same pieces always come to the same places.

Millimetres and radians. Imports geometry, piece and paper.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from drafting.geometry import Path, Point, flattened, moved
from drafting.piece import Piece, cutting_area, cutting_line
from drafting.units import Mm
from render.paper import Grid

APART: Mm = 6.0
"""Pieces keep this distance, so that scissors pass between them."""

WIDEST: Mm = 2500.0
"""The assembled plane is at most this wide: what a floor and two arms can manage."""

TURNS = tuple(math.radians(k * 15) for k in range(12))
CELLS_X, CELLS_Y = 10, 14
"""Cells of the raster to a page: about 19 mm each way."""

_STRIDE = 64
"""Columns of pages in the whole number that stands for a set of pages."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Placement:
    """Where a piece's own origin lies on the plane and how far it is turned."""

    piece: Piece
    x: Mm
    y: Mm
    turn: float

    def on_plane(self, path: Path) -> Path:
        """Return a path of the piece's frame as it lies on the plane."""
        return moved(path, x=self.x, y=self.y, turn=self.turn)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Raster:
    """Cells a turned piece touches: a whole number a row, and where its origin lies."""

    turn: float
    rows: tuple[int, ...]
    columns: int
    left: Mm
    bottom: Mm


@dataclass(slots=True)
class _Plane:
    """What is taken so far: cells by row, pages as one set, and its extent in pages."""

    rows: list[int]
    pages: int = 0
    columns: int = 0
    height: int = 0


@dataclass(frozen=True, slots=True, kw_only=True, order=True)
class _Choice:
    """A place for a piece, ordered by what is wanted of it first."""

    new_pages: int
    extent: int
    height: int
    row: int
    column: int
    turn: float


def place(pieces: Sequence[Piece], grid: Grid) -> tuple[Placement, ...]:
    """Return a place on the plane for every piece, in the order of the pieces given."""
    cell_x, cell_y = grid.step_x / CELLS_X, grid.step_y / CELLS_Y
    most = max(1, min(_STRIDE // 2, int((WIDEST - grid.overlap) / grid.step_x)))
    plane = _Plane(rows=[])
    found: dict[int, Placement] = {}
    for index in sorted(range(len(pieces)), key=lambda k: (-cutting_area(pieces[k]), k)):
        piece = pieces[index]
        outline = flattened(cutting_line(piece), outside=True)
        rasters = [_raster(outline, turn, cell_x, cell_y) for turn in TURNS]
        fitting = [r for r in rasters if r.columns <= most * CELLS_X] or [
            min(rasters, key=lambda r: r.columns)
        ]
        choice, raster = min(
            ((_best(plane, raster, most), raster) for raster in fitting), key=lambda pair: pair[0]
        )
        _take(plane, raster, choice)
        found[index] = Placement(
            piece=piece,
            x=choice.column * cell_x - raster.left,
            y=choice.row * cell_y - raster.bottom,
            turn=raster.turn,
        )
    return tuple(found[index] for index in range(len(pieces)))


def _raster(outline: tuple[Point, ...], turn: float, cell_x: Mm, cell_y: Mm) -> _Raster:
    c, s = math.cos(turn), math.sin(turn)
    points = [(p.x * c - p.y * s, p.x * s + p.y * c) for p in outline]
    left = min(x for x, _ in points) - APART / 2
    bottom = min(y for _, y in points) - APART / 2
    right = max(x for x, _ in points) + APART / 2
    top = max(y for _, y in points) + APART / 2
    columns = math.ceil((right - left) / cell_x)
    rows = [0] * math.ceil((top - bottom) / cell_y)
    last = (points[-1][0] - left, points[-1][1] - bottom)
    crossings: list[list[float]] = [[] for _ in rows]
    for px, py in points:
        x, y = px - left, py - bottom
        ax, ay = last
        steps = max(1, math.ceil(max(abs(x - ax) / cell_x, abs(y - ay) / cell_y) * 2))
        for k in range(steps):
            bx, by = ax + (x - ax) * k / steps, ay + (y - ay) * k / steps
            low, high = int((bx - APART / 2) / cell_x), int((bx + APART / 2) / cell_x)
            bits = (2 << high) - (1 << max(low, 0))
            rows[int(max(by - APART / 2, 0.0) / cell_y)] |= bits
            rows[min(int((by + APART / 2) / cell_y), len(rows) - 1)] |= bits
        lower, upper = (ay, y) if ay <= y else (y, ay)
        for k in range(math.ceil(lower / cell_y - 0.5), math.ceil(upper / cell_y - 0.5)):
            height = (k + 0.5) * cell_y
            crossings[k].append((ax + (x - ax) * (height - ay) / (y - ay)) / cell_x)
        last = (x, y)
    for k, xs in enumerate(crossings):
        xs.sort()
        for begin, end in zip(xs[::2], xs[1::2], strict=False):
            rows[k] |= (2 << int(end)) - (1 << int(begin))
    return _Raster(turn=turn, rows=tuple(rows), columns=columns, left=left, bottom=bottom)


def _pages_touched(raster: _Raster, ox: int, bands: list[int]) -> int:
    """Return the set of pages that the piece touches, its cells shifted by ``ox`` columns."""
    full = (1 << CELLS_X) - 1
    pages = 0
    for row, band in enumerate(bands):
        cells, bit = band << ox, 1 << (row * _STRIDE)
        while cells:
            if cells & full:
                pages |= bit
            cells >>= CELLS_X
            bit <<= 1
    return pages


def _bands(raster: _Raster, oy: int) -> list[int]:
    """Return the rows gathered page by page, the piece shifted up by ``oy`` cells."""
    bands = [0] * ((oy + len(raster.rows) - 1) // CELLS_Y + 1)
    for k, row in enumerate(raster.rows):
        bands[(oy + k) // CELLS_Y] |= row
    return bands


def _best(plane: _Plane, raster: _Raster, most: int) -> _Choice:
    best: _Choice | None = None
    fewest = _STRIDE * _STRIDE
    for oy in range(CELLS_Y):
        bands = _bands(raster, oy)
        for ox in range(CELLS_X):
            touched = _pages_touched(raster, ox, bands)
            wide = (ox + raster.columns - 1) // CELLS_X + 1
            for up in range(plane.height + 1):
                for along in range(max(0, min(plane.columns, most - wide)) + 1):
                    new = ((touched << (up * _STRIDE + along)) & ~plane.pages).bit_count()
                    if new > fewest:
                        continue
                    columns = max(plane.columns, along + wide)
                    height = max(plane.height, up + len(bands))
                    choice = _Choice(
                        new_pages=new,
                        extent=columns * height,
                        height=height,
                        row=up * CELLS_Y + oy,
                        column=along * CELLS_X + ox,
                        turn=raster.turn,
                    )
                    if (best is None or choice < best) and not _clashes(plane, raster, choice):
                        best, fewest = choice, new
    assert best is not None  # above everything placed so far there is always room
    return best


def _clashes(plane: _Plane, raster: _Raster, choice: _Choice) -> bool:
    taken = plane.rows[choice.row : choice.row + len(raster.rows)]
    return any(held & (row << choice.column) for held, row in zip(taken, raster.rows, strict=False))


def _take(plane: _Plane, raster: _Raster, choice: _Choice) -> None:
    top = choice.row + len(raster.rows)
    plane.rows += [0] * (top - len(plane.rows))
    for k, row in enumerate(raster.rows):
        plane.rows[choice.row + k] |= row << choice.column
    bands = _bands(raster, choice.row % CELLS_Y)
    touched = _pages_touched(raster, choice.column % CELLS_X, bands)
    along, up = choice.column // CELLS_X, choice.row // CELLS_Y
    plane.pages |= touched << (up * _STRIDE + along)
    wide = (choice.column % CELLS_X + raster.columns - 1) // CELLS_X + 1
    plane.columns = max(plane.columns, along + wide)
    plane.height = max(plane.height, up + len(bands))
