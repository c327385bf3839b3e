"""The search behind placing: turned pieces as sets of cells, and pages as sets of bits.

A page is a whole number of cells, and each overlap is one cell where it is wide enough: a
page is counted for what lies inside its overlaps, for its neighbours show the rest. Sets
are whole numbers, a row of the plane after the other, so that a clash is one "and".

Millimetres and radians. Imports geometry, paper and raster.
"""

import math
import random
import sys
from collections.abc import Sequence
from dataclasses import dataclass

from drafting.geometry import Point
from drafting.units import Mm
from render.paper import Grid
from render.raster import Raster, raster

CELL: Mm = 10.0
"""Cells are at most this wide and high."""

SAMPLES = 3
"""Rows of cells sampled out of each row of pages."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Cells:
    """How the plane is divided.

    Attributes:
        x, y: cells of a page from one page to the next.
        wide, high: of one cell.
        overlap: cells of a page that its neighbour shows too, 0 or 1.
        stride: bits from one row of the plane to the next.
        most: columns of pages.
    """

    x: int
    y: int
    wide: Mm
    high: Mm
    overlap: int
    stride: int
    most: int


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
    across: int
    up: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """A stand put on the plane, its first page ``along`` and ``level`` pages from the corner."""

    stand: Stand
    along: int
    level: int

    def pages(self, cells: Cells) -> int:
        """Return the set of pages needed."""
        return self.stand.pages << (self.level * cells.stride + self.along * cells.x)

    def body(self, cells: Cells) -> int:
        """Return the set of cells that no other piece may touch."""
        row = self.level * cells.y + self.stand.row
        return self.stand.body << (row * cells.stride + self.along * cells.x + self.stand.column)

    def sample(self, cells: Cells) -> int:
        """Return the body's sample rows."""
        shift = self.level * SAMPLES * cells.stride + self.along * cells.x + self.stand.column
        return self.stand.sample << shift


@dataclass(frozen=True, slots=True, kw_only=True)
class Labour:
    """How hard to search: turns of a full circle, stands kept a piece, and looks at places."""

    turns: int
    stands: int
    looks: int


def divided(grid: Grid, widest: Mm, longest: Mm) -> Cells:
    """Return the cells of a plane at most ``widest`` wide, for pieces up to ``longest``."""
    overlap = 1 if grid.overlap >= CELL / 2 else 0
    size = min(CELL, grid.overlap) if overlap else CELL
    x, y = math.ceil(grid.step_x / size), math.ceil(grid.step_y / size)
    most = max(1, int((widest - grid.overlap) / grid.step_x))
    wide = grid.step_x / x
    stride = (max(most, math.ceil(longest / grid.step_x)) + 4) * x
    return Cells(
        x=x, y=y, wide=wide, high=grid.step_y / y, overlap=overlap, stride=stride, most=most
    )


def stands(
    outline: Sequence[Point], cells: Cells, apart: Mm, turns: Sequence[float], kept: int
) -> tuple[Stand, ...]:
    """Return the ways a piece may stand against the pages, those that need fewest first."""
    turned = [raster(outline, turn, cells.wide, cells.high, 0.0) for turn in turns]
    narrow = [r for r in turned if _pages_long(0, r.columns, cells.x, cells) <= cells.most]
    found: list[tuple[int, int, int, int, int]] = []
    usable = narrow or [min(turned, key=lambda r: r.columns)]
    for which, shape in enumerate(usable):
        for row, column, pages in _page_sets(shape, cells):
            if narrow and _pages_long(column, shape.columns, cells.x, cells) > cells.most:
                continue
            found.append((pages.bit_count(), which, row, column, pages))
    # Ties are spread over turns and shifts, for another piece may fit beside one and not another.
    chance = random.Random(len(found))
    chance.shuffle(found)
    found.sort(key=lambda one: one[0])
    bodies: dict[int, tuple[int, ...]] = {}
    made: list[Stand] = []
    for _, which, row, column, pages in found[:kept]:
        shape = usable[which]
        if which not in bodies:
            swollen = raster(outline, shape.turn, cells.wide, cells.high, apart / 2)
            bodies[which] = swollen.rows
        made.append(
            Stand(
                turned=shape,
                body=_stacked(bodies[which], cells.stride),
                sample=_sample(bodies[which], row, cells),
                row=row,
                column=column,
                pages=pages,
                across=_pages_long(column, shape.columns, cells.x, cells),
                up=_pages_long(row, len(shape.rows), cells.y, cells),
            )
        )
    return tuple(made)


def _pages_long(shift: int, length: int, page: int, cells: Cells) -> int:
    return max(1, (shift + length - 1 - cells.overlap) // page + 1)


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


def _page_sets(shape: Raster, cells: Cells) -> list[tuple[int, int, int]]:
    """Return row, column and the pages needed at every shift of a shape within a page."""
    # What is narrower than the overlaps could hide in them and seem to need no page.
    inset = cells.overlap if min(shape.columns, len(shape.rows)) > 2 else 0
    found: list[tuple[int, int, int]] = []
    comb_row = sum(1 << k for k in range(0, cells.stride - 2 * cells.x, cells.x))
    for row in range(cells.y):
        bands: list[int] = []
        for level in range((row + len(shape.rows) - 1) // cells.y + 1):
            first, end = level * cells.y + inset - row, (level + 1) * cells.y - row
            band = 0
            for cut in shape.rows[max(0, first) : max(0, end)]:
                band |= cut
            bands.append(band << cells.x)
        spread, comb = (
            _stacked(bands, cells.stride),
            _stacked([comb_row] * len(bands), cells.stride),
        )
        have, wanted = 1, cells.x - inset
        while have < wanted:
            step = min(have, wanted - have)
            spread |= spread >> step
            have += step
        found += [
            (row, column, spread >> (cells.x + inset - column) & comb) for column in range(cells.x)
        ]
    return found


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """Spots by the number of the piece, and what they take together."""

    spots: dict[int, Spot]
    body: int = 0
    sample: int = 0
    pages: int = 0
    columns: int = 0
    height: int = 0

    @property
    def score(self) -> tuple[int, int, int]:
        """Fewest pages are best, then the least plane to lay out, then the lowest."""
        return self.pages.bit_count(), self.columns * self.height, self.height

    def having(self, index: int, spot: Spot, cells: Cells) -> "Plan":
        """Return the plan with one more piece on it."""
        return Plan(
            spots={**self.spots, index: spot},
            body=self.body | spot.body(cells),
            sample=self.sample | spot.sample(cells),
            pages=self.pages | spot.pages(cells),
            columns=max(self.columns, spot.along + spot.stand.across),
            height=max(self.height, spot.level + spot.stand.up),
        )

    def without(self, gone: Sequence[int], cells: Cells) -> "Plan":
        """Return the plan with some pieces taken off."""
        plan = Plan(spots={})
        for index, spot in self.spots.items():
            if index not in gone:
                plan = plan.having(index, spot, cells)
        return plan


class Search:
    """A search over one set of pieces; it counts the places it has looked at."""

    def __init__(self, ways: Sequence[Sequence[Stand]], cells: Cells) -> None:
        """Take the ways each piece may stand."""
        self.ways = ways
        self.cells = cells
        self.looked = 0

    def filled(self, plan: Plan, order: Sequence[int]) -> Plan:
        """Return a plan with more pieces, each where it opens the fewest new pages."""
        for index in order:
            plan = plan.having(index, self._best(plan, self.ways[index]), self.cells)
        return plan

    def _best(self, plan: Plan, ways: Sequence[Stand]) -> Spot:
        best: Spot | None = None
        least = (sys.maxsize, 0, 0, 0)
        cells, free = self.cells, ~plan.pages
        for stand in ways:
            levels = plan.height + 1
            alongs = max(0, min(plan.columns, cells.most - stand.across)) + 1
            self.looked += levels * alongs
            for level in range(levels):
                base = stand.pages << (level * cells.stride)
                high = max(plan.height, level + stand.up)
                for along in range(alongs):
                    new = (base << (along * cells.x) & free).bit_count()
                    if new > least[0]:
                        continue
                    extent = max(plan.columns, along + stand.across) * high
                    key = (new, extent, high, level + along)
                    if key < least and not self._clashes(plan, stand, level, along):
                        best, least = Spot(stand=stand, along=along, level=level), key
        assert best is not None  # above everything placed so far there is always room
        return best

    def _clashes(self, plan: Plan, stand: Stand, level: int, along: int) -> bool:
        cells = self.cells
        aside = along * cells.x + stand.column
        if plan.sample >> (level * SAMPLES * cells.stride + aside) & stand.sample:
            return True
        row = level * cells.y + stand.row
        return bool(plan.body >> (row * cells.stride + aside) & stand.body)

    def improved(self, plan: Plan, looks: int) -> Plan:
        """Return a plan no worse: pieces are taken off and put back until looks run out."""
        chance = random.Random(1)
        best = now = plan
        names = sorted(plan.spots)
        while self.looked < looks:
            gone = chance.sample(names, min(len(names), chance.randint(1, 3)))
            thinned = now.without(gone, self.cells)
            tried = self.filled(thinned, gone)
            if tried.score <= now.score:
                now = tried
            if now.score < best.score:
                best = now
        return best
