"""The ways a piece may stand against the pages: turned, shifted, as sets of cells and of pages.

A page is a whole number of cells, and is counted for what lies inside its overlaps, for its
neighbours show the rest. Sets are whole numbers, a row of the plane after the other, so that
a clash is one "and".

Millimetres and radians. Imports geometry, paper and raster.
"""

import math
import random
import sys
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from drafting.geometry import Point
from drafting.units import Mm
from render.paper import Grid
from render.raster import Raster, raster

CELL: Mm = 5.0
"""Cells are at most this wide and high."""

SAMPLES = 3
"""Rows of cells sampled out of each row of pages."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Cells:
    """How the plane is divided.

    Attributes:
        x, y: cells of a page from one page to the next.
        wide, high: of one cell.
        inset_x, inset_y: cells at a page's left and bottom that its neighbours show too.
        stride: bits from one row of the plane to the next.
        most: columns of pages.
        line: bits from one row of pages to the next in a set of pages.
    """

    x: int
    y: int
    wide: Mm
    high: Mm
    inset_x: int
    inset_y: int
    stride: int
    most: int
    line: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Stand:
    """A turned piece at one shift against the pages: the pages it needs, from page 0, 0 on.

    Its sample is three rows of cells out of each page's: most clashes show in those already.
    """

    turned: Raster
    body: int
    sample: int
    row: int
    column: int
    pages: int
    full: int
    count: int
    across: int
    up: int


def divided(grid: Grid, widest: Mm, longest: Mm, cell: Mm = CELL) -> Cells:
    """Return the cells of a plane at most ``widest`` wide, for pieces up to ``longest``."""
    x, y = math.ceil(grid.step_x / cell), math.ceil(grid.step_y / cell)
    most = max(1, int((widest - grid.overlap) / grid.step_x))
    wide, high = grid.step_x / x, grid.step_y / y
    span = max(most, math.ceil(longest / grid.step_x)) + 4
    return Cells(
        x=x,
        y=y,
        wide=wide,
        high=high,
        inset_x=int(grid.overlap / wide),
        inset_y=int(grid.overlap / high),
        stride=span * x,
        most=most,
        line=3 * span,
    )


class Turned:
    """One piece, turned and divided into cells as often as is asked for, each turn only once."""

    def __init__(self, outline: Sequence[Point], cells: Cells, apart: Mm) -> None:
        """Take an outline, and how far from it no other piece may lie: half of that each."""
        self.outline = outline
        self.cells = cells
        self.apart = apart
        self._rasters: dict[float, Raster] = {}
        self._kept_shadows: dict[float, tuple[list[int], list[int]]] = {}
        self._bodies: dict[float, tuple[tuple[int, ...], int]] = {}

    def raster(self, turn: float) -> Raster:
        """Return the cells the piece touches."""
        if turn not in self._rasters:
            cells = self.cells
            self._rasters[turn] = raster(self.outline, turn, cells.wide, cells.high, 0.0)
        return self._rasters[turn]

    def shadows(self, turn: float) -> tuple[list[int], list[int]]:
        """Return where a page would touch the piece, and where it would lie in it."""
        if turn not in self._kept_shadows:
            self._kept_shadows[turn] = page_shadows(self.raster(turn), self.cells)
        return self._kept_shadows[turn]

    def stand(self, turn: float, row: int, column: int) -> Stand:
        """Return the piece at a shift against the pages."""
        cells = self.cells
        if turn not in self._bodies:
            swollen = raster(self.outline, turn, cells.wide, cells.high, self.apart / 2)
            self._bodies[turn] = swollen.rows, _stacked(swollen.rows, cells.stride)
        rows, body = self._bodies[turn]
        shape = self.raster(turn)
        needed, full = self.shadows(turn)
        pages = _pages(needed, row, column, cells)
        return Stand(
            turned=shape,
            body=body,
            sample=_sample(rows, row, cells),
            row=row,
            column=column,
            pages=pages,
            full=_pages(full, row, column, cells),
            count=pages.bit_count(),
            across=pages_across(column, shape.columns, cells),
            up=max(1, (row + len(shape.rows) - 1 - cells.inset_y) // cells.y + 1),
        )


def stands(piece: Turned, turns: Sequence[float], kept: int) -> tuple[Stand, ...]:
    """Return the ways a piece may stand against the pages, those that need fewest first."""
    cells = piece.cells
    columns = {turn: piece.raster(turn).columns for turn in turns}
    narrow = [turn for turn in turns if pages_across(0, columns[turn], cells) <= cells.most]
    found: dict[int, list[tuple[float, int, int]]] = {}
    enough = sys.maxsize
    for turn in narrow or [min(turns, key=lambda turn: columns[turn])]:
        widest = cells.x
        while narrow and pages_across(widest - 1, columns[turn], cells) > cells.most:
            widest -= 1
        for row, counts in enumerate(page_counts(piece.shadows(turn)[0], cells)):
            for column, count in enumerate(counts[:widest]):
                if count <= enough:
                    found.setdefault(count, []).append((turn, row, column))
        enough = _enough(found, kept)
    made: list[Stand] = []
    chance = random.Random(kept)
    for count in sorted(found):
        # Ties are spread over turns and shifts, for another piece may fit beside one only.
        wanted = min(len(found[count]), kept - len(made))
        made += [piece.stand(*one) for one in chance.sample(found[count], wanted)]
    return tuple(made)


def fewest(piece: Turned, turn: float) -> int:
    """Return the fewest pages that a piece needs at a turn, whatever its shift."""
    return min(min(counts) for counts in page_counts(piece.shadows(turn)[0], piece.cells))


def _enough(found: dict[int, list[tuple[float, int, int]]], kept: int) -> int:
    total = 0
    for count in sorted(found):
        total += len(found[count])
        if total >= kept:
            return count
    return sys.maxsize


def pages_across(shift: int, length: int, cells: Cells) -> int:
    """Return the columns of pages that a length of cells spans from a shift on."""
    return max(1, (shift + length - 1 - cells.inset_x) // cells.x + 1)


def _stacked(rows: Sequence[int], stride: int) -> int:
    whole = 0
    for row in reversed(rows):
        whole = whole << stride | row
    return whole


def _sample(rows: Sequence[int], shift: int, cells: Cells) -> int:
    levels = (shift + len(rows) - 1) // cells.y + 1
    wanted = [
        level * cells.y + cells.y * (2 * k + 1) // (2 * SAMPLES) - shift
        for level in range(levels)
        for k in range(SAMPLES)
    ]
    return _stacked([rows[k] if 0 <= k < len(rows) else 0 for k in wanted], cells.stride)


def page_shadows(shape: Raster, cells: Cells) -> tuple[list[int], list[int]]:
    """Return where a page's own part would touch the shape, and where it would lie in it.

    Each is a whole number a row. Row ``cells.y`` and bit ``cells.x`` stand for a page whose
    lower left corner is the shape's.
    """
    # What is narrower than the overlaps could hide in them and seem to need no page.
    thin = shape.columns <= cells.inset_x + 1 or len(shape.rows) <= cells.inset_y + 1
    inset_x, inset_y = (0, 0) if thin else (cells.inset_x, cells.inset_y)
    padded = [0] * cells.y + [row << cells.x for row in shape.rows] + [0] * cells.y
    touched = within = padded
    have, wanted = 1, cells.y - inset_y
    while have < wanted:
        step = min(have, wanted - have)
        gap = [0] * step
        touched = [a | b for a, b in zip(touched, touched[step:] + gap, strict=True)]
        within = [a & b for a, b in zip(within, within[step:] + gap, strict=True)]
        have += step
    have, wanted = 1, cells.x - inset_x
    while have < wanted:
        step = min(have, wanted - have)
        touched = [row | row >> step for row in touched]
        within = [row & row >> step for row in within]
        have += step
    return (
        [row >> inset_x for row in touched[inset_y:]],
        [row >> inset_x for row in within[inset_y:]],
    )


def page_counts(touched: Sequence[int], cells: Cells) -> Iterator[list[int]]:
    """Yield for each row of a shift, from 0 on, the pages needed at each of its columns."""
    comb_row = sum(1 << k for k in range(0, cells.stride - cells.x, cells.x))
    for row in range(cells.y):
        bands = touched[cells.y - row :: cells.y]
        spread = _stacked(bands, cells.stride)
        comb = _stacked([comb_row] * len(bands), cells.stride)
        yield [(spread >> (cells.x - column) & comb).bit_count() for column in range(cells.x)]


def _pages(shadow: Sequence[int], row: int, column: int, cells: Cells) -> int:
    whole = 0
    for level, held in enumerate(shadow[cells.y - row :: cells.y]):
        held >>= cells.x - column
        at = level * cells.line
        while held:
            whole |= (held & 1) << at
            held >>= cells.x
            at += 1
    return whole
