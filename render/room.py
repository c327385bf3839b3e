"""What room a plane has left for words and marks, so that nothing is printed over anything.

A raster of the plane: each row is a whole number used as a set of cells. Lines are entered
as they are drawn; whatever is placed afterwards asks first and then claims its own room.
Millimetres and radians. Imports geometry.
"""

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field

from drafting.geometry import Box, Line, Path, Point, length
from drafting.units import Mm

CELL: Mm = 2.0


def turned_box(centre: Point, width: Mm, height: Mm, angle: float) -> tuple[Point, ...]:
    """Return the corners of a rectangle turned about its centre."""
    c, s = math.cos(angle), math.sin(angle)
    return tuple(
        Point(centre.x + x * c - y * s, centre.y + x * s + y * c)
        for x, y in (
            (-width / 2, -height / 2),
            (width / 2, -height / 2),
            (width / 2, height / 2),
            (-width / 2, height / 2),
        )
    )


@dataclass(slots=True)
class Room:
    """Free cells within a box; everything outside the box counts as taken."""

    box: Box
    cell: Mm = CELL
    rows: list[int] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.rows = [0] * (math.ceil(self.box.height / self.cell) + 1)

    def leave_only(self, windows: Sequence[Box]) -> None:
        """Take every cell that lies in none of these windows: no paper is there."""
        full = (2 << math.ceil(self.box.width / self.cell)) - 1
        free = [0] * len(self.rows)
        for window in windows:
            # Rounded alike at both ends, so that windows which butt leave no gap between them.
            first = round((window.left - self.box.left) / self.cell)
            last = round((window.right - self.box.left) / self.cell)
            low = round((window.bottom - self.box.bottom) / self.cell)
            high = round((window.top - self.box.bottom) / self.cell)
            for row in range(low, min(high, len(free))):
                free[row] |= (1 << last) - (1 << first)
        self.rows = [held | (full & ~open_) for held, open_ in zip(self.rows, free, strict=True)]

    def enter(self, path: Path) -> None:
        """Take the cells that a path runs through."""
        for segment in path:
            long = length(segment)
            steps = max(1, math.ceil(long / (self.cell * 0.7)))
            if isinstance(segment, Line):
                (ax, ay), (bx, by) = segment.start, segment.end
                for k in range(steps + 1):
                    self._take(ax + (bx - ax) * k / steps, ay + (by - ay) * k / steps)
                continue
            (cx, cy), r, begin = segment.centre, segment.radius, segment.begin
            step = (segment.finish - begin) / steps
            for k in range(steps + 1):
                angle = begin + step * k
                self._take(cx + r * math.cos(angle), cy + r * math.sin(angle))

    def _take(self, x: float, y: float) -> None:
        row = int((y - self.box.bottom) / self.cell)
        column = int((x - self.box.left) / self.cell)
        if 0 <= row < len(self.rows) and column >= 0:
            self.rows[row] |= 1 << column

    def is_free(self, corners: Sequence[Point]) -> bool:
        """Tell whether a convex shape lies inside the box and on free cells only."""
        box = self.box
        if not all(box.left <= p.x <= box.right and box.bottom <= p.y <= box.top for p in corners):
            return False
        return not any(self.rows[row] & cells for row, cells in self._cells(corners))

    def wide_enough(self, reach: Mm, within: Box) -> Callable[[Point], bool]:
        """Return a function that tells whether a circle about a point may be free.

        Where it says no, no shape in the box ``within`` that holds the circle is free; where it
        says yes, one may be. Made once, it rules most points out at the cost of one cell each.

        Args:
            reach: the circle's radius.
            within: where such shapes lie.
        """
        left, bottom, cell = self.box.left, self.box.bottom, self.cell
        low = max(int((within.bottom - bottom) / cell), 0)
        high = min(int((within.top - bottom) / cell), len(self.rows) - 1)
        near, far = int(reach / (cell * math.sqrt(2))), int(reach / cell)
        rows = self.rows[max(low - far, 0) : high + far + 1]
        # A circle holds the square inside it, and reaches further straight up and sideways.
        square = _fattened([_widened(row, near) for row in rows], near)
        up, across = _fattened(rows, far), [_widened(row, far) for row in rows]
        taken = [a | b | c for a, b, c in zip(square, up, across, strict=True)]
        first = max(low - far, 0)

        def may_be(point: Point) -> bool:
            row = int((point.y - bottom) / cell)
            if not low <= row <= high or not within.left <= point.x <= within.right:
                return False
            return not taken[row - first] >> int((point.x - left) / cell) & 1

        return may_be

    def free_places(self, within: Box, wide: Mm, high: Mm) -> list[int]:
        """Return where in a box level rectangles of that size are free.

        A number for each row of cells from the box's lowest whole one up; its lowest bit stands for
        the leftmost whole cell. A bit that is set is the lower left cell of a free rectangle.
        """
        first, last, low, top = self._whole_cells(within)
        across, up = max(1, math.ceil(wide / self.cell)), max(1, math.ceil(high / self.cell))
        if last - first < across or top - low < up:
            return []
        full = (1 << (last - first)) - 1
        free = [_narrowed(~(row >> first) & full, across) for row in self.rows[low:top]]
        have = 1
        while have < up:
            step = min(have, up - have)
            free = [a & b for a, b in zip(free, free[step:], strict=False)]
            have += step
        return free

    def lowest_of(self, places: Sequence[int], within: Box) -> Point | None:
        """Return the lower left corner of the lowest of such places, of these the leftmost."""
        first, _, low, _ = self._whole_cells(within)
        for row, free in enumerate(places):
            if free:
                column = (free & -free).bit_length() - 1
                left, bottom, cell = self.box.left, self.box.bottom, self.cell
                return Point(left + (first + column) * cell, bottom + (low + row) * cell)
        return None

    def _whole_cells(self, within: Box) -> tuple[int, int, int, int]:
        """Return first and last column, first and last row of the cells wholly inside a box."""
        left, bottom, cell = self.box.left, self.box.bottom, self.cell
        low = max(math.ceil((within.bottom - bottom) / cell - 1e-9), 0)
        high = min(
            math.floor((min(within.top, self.box.top) - bottom) / cell + 1e-9), len(self.rows)
        )
        first = max(math.ceil((within.left - left) / cell - 1e-9), 0)
        last = math.floor((min(within.right, self.box.right) - left) / cell + 1e-9)
        return first, last, low, high

    def claim(self, corners: Sequence[Point]) -> None:
        """Take the cells of a convex shape."""
        for row, cells in self._cells(corners):
            self.rows[row] |= cells

    def _cells(self, corners: Sequence[Point]) -> Iterator[tuple[int, int]]:
        """Yield each row that a convex shape touches with the set of its cells there."""
        left, bottom = self.box.left, self.box.bottom
        low = max(int((min(p.y for p in corners) - bottom) / self.cell), 0)
        high = min(int((max(p.y for p in corners) - bottom) / self.cell), len(self.rows) - 1)
        pairs = list(zip(corners, [*corners[1:], corners[0]], strict=True))
        for row in range(low, high + 1):
            floor = bottom + row * self.cell
            xs: list[float] = []
            for (ax, ay), (bx, by) in pairs:
                if max(ay, by) < floor or min(ay, by) > floor + self.cell:
                    continue
                if ay == by:
                    xs += (ax, bx)
                    continue
                for y in (max(floor, min(ay, by)), min(floor + self.cell, max(ay, by))):
                    xs.append(ax + (bx - ax) * (y - ay) / (by - ay))
            if xs:
                first = max(int((min(xs) - left) / self.cell), 0)
                last = int((max(xs) - left) / self.cell)
                if last >= first:
                    yield row, (2 << last) - (1 << first)


def _narrowed(free: int, by: int) -> int:
    """Return of a set of cells those that begin a run of so many."""
    have = 1
    while have < by:
        step = min(have, by - have)
        free &= free >> step
        have += step
    return free


def _widened(row: int, by: int) -> int:
    """Return a set of cells with as many more taken on both sides of each."""
    have, whole = 1, row
    while have < 2 * by + 1:
        step = min(have, 2 * by + 1 - have)
        whole |= whole << step
        have += step
    return whole >> by


def _fattened(rows: Sequence[int], by: int) -> list[int]:
    """Return rows of cells with as many more taken above and below each."""
    have, whole = 1, [*[0] * by, *rows, *[0] * by]
    while have < 2 * by + 1:
        step = min(have, 2 * by + 1 - have)
        whole = [a | b for a, b in zip(whole, [*whole[step:], *[0] * step], strict=True)]
        have += step
    return whole[: len(rows)]


def spread(count: int) -> tuple[float, ...]:
    """Return shares of a line to try, from its middle outwards, evenly."""
    half = [k / (count + 1) for k in range(1, count + 1)]
    return tuple(sorted(half, key=lambda share: (abs(share - 0.5), share)))
