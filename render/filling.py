"""Filling a plane of one width from its head down, so that it is as short as can be.

Shapes and the plane are sets of cells, each a whole number, a row of the plane after the
other. All places where a shape would touch what lies there already are found at once: for
every run of its cells, the plane shifted by each of the run's cells. The first place that is
left, from the head down and from the left, is taken. Then shapes are taken off and put back a
fixed number of times; the same shapes always come to the same places.

Millimetres and radians; x from the plane's left edge, the head at y 0 and all else below it.
Imports geometry and raster.
"""

import math
import random
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from functools import lru_cache

from drafting.errors import GeometryError
from drafting.geometry import Box, Point
from drafting.units import Mm
from render.raster import raster

COARSE: Mm = 10.0
FINE: Mm = 3.2
"""Cells are at most this wide and high, in the search and in the last, closer laying."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shape:
    """What is laid: its outline, counter-clockwise, and the turns at which it may lie."""

    outline: tuple[Point, ...]
    turns: tuple[float, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """Where a shape's own origin lies, and how far the shape is turned."""

    x: Mm
    y: Mm
    turn: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Plane:
    """What is filled.

    Attributes:
        width: of the plane; its length is what is looked for.
        apart: shapes keep this distance from each other, not from the plane's edges; it is
            less than two of the finest cells.
        lanes: left and right edges of the strips that it is cut into. A shape lies in one of
            them if it can.
        taken: where nothing may lie.
    """

    width: Mm
    apart: Mm
    lanes: tuple[tuple[Mm, Mm], ...] = ()
    taken: tuple[Box, ...] = ()

    def __post_init__(self) -> None:
        if not 0 < self.apart < 2 * FINE:
            raise GeometryError(f"shapes {self.apart:g} mm apart; less than {2 * FINE:g} will do")


@dataclass(frozen=True, slots=True, kw_only=True)
class Filled:
    """Where every shape lies, in their order, and how long the plane must be."""

    spots: tuple[Spot, ...]
    length: Mm


def narrowest(outline: Sequence[Point]) -> Mm:
    """Return the least width of a shape, at whatever turn."""
    return min(width for width, _ in _widths(_hull(outline)))


def _widths(hull: Sequence[tuple[float, float]]) -> Iterator[tuple[Mm, float]]:
    """Yield a convex shape's width across each of its edges, and the edge's direction.

    Source: rotating calipers. A convex shape is narrowest across one of its edges, and the
    corner farthest from an edge only ever moves on as the edges are walked.
    """
    count, far = len(hull), 0
    for k, (ax, ay) in enumerate(hull):
        bx, by = hull[(k + 1) % count]
        angle = math.atan2(by - ay, bx - ax)
        c, s = math.cos(angle), math.sin(angle)

        def off(j: int, c: float = c, s: float = s, ax: float = ax, ay: float = ay) -> Mm:
            x, y = hull[j % count]
            return (y - ay) * c - (x - ax) * s

        if k == 0:
            far = max(range(count), key=off)
        while off(far + 1) > off(far):
            far += 1
        yield off(far), angle


def turns_of(outline: Sequence[Point], count: int = 24) -> tuple[float, ...]:
    """Return even turns of a shape, and those that lay it narrow or one of its edges level."""
    hull = _hull(outline)
    edges = sorted(
        ((math.dist(a, b), math.atan2(b[1] - a[1], b[0] - a[0])) for a, b in _edges(hull)),
        reverse=True,
    )
    _, narrow = min((round(width, 3), angle) for width, angle in _widths(hull))
    angles = [angle for long, angle in edges[:3] if long > EDGE] + [narrow]
    quarters = [math.pi / 2 * k - angle for angle in angles for k in range(4)]
    even = [math.tau * k / count for k in range(count)]
    kept = {round(math.degrees(turn) % 360, 3): turn % math.tau for turn in (*even, *quarters)}
    return tuple(kept[degrees] for degrees in sorted(kept))


EDGE: Mm = 60.0
"""Straight edges at least this long are worth laying level or upright."""


def _edges(hull: Sequence[tuple[float, float]]) -> Iterator[tuple[Point, Point]]:
    for a, b in zip(hull, [*hull[1:], hull[0]], strict=True):
        if a != b:
            yield Point(*a), Point(*b)


def _hull(outline: Sequence[Point]) -> list[tuple[float, float]]:
    """Return the convex hull, counter-clockwise. Source: Andrew's monotone chain."""
    points = sorted({(p.x, p.y) for p in outline})
    halves: list[list[tuple[float, float]]] = []
    for run in (points, points[::-1]):
        half: list[tuple[float, float]] = []
        for x, y in run:
            while len(half) > 1:
                (ax, ay), (bx, by) = half[-2:]
                if (bx - ax) * (y - ay) - (by - ay) * (x - ax) > 1e-9:
                    break
                half.pop()
            half.append((x, y))
        halves.append(half[:-1])
    return halves[0] + halves[1]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Way:
    """A shape at one turn, in cells.

    Attributes:
        runs: row, first cell and number of cells of every run, with the distance kept round it.
        body: the same as a set, for the plane's stride.
        columns, rows: extent of the body.
        left, bottom: from the shape's origin to the corner of its own cells.
        allowed: columns of the plane where the body may begin, as a set.
        low: lowest point of the shape, from its origin.
    """

    turn: float
    runs: tuple[tuple[int, int, int], ...]
    body: int
    columns: int
    rows: int
    left: Mm
    bottom: Mm
    allowed: int
    low: Mm


@dataclass(frozen=True, slots=True, kw_only=True)
class _Cells:
    """The plane in cells; a border of one is for the distance that shapes keep."""

    plane: Plane
    count: int
    wide: Mm
    high: Mm

    @property
    def stride(self) -> int:
        return self.count + 2


def _cells(plane: Plane, size: Mm) -> _Cells:
    count = max(1, math.ceil(plane.width / size))
    return _Cells(plane=plane, count=count, wide=plane.width / count, high=size)


def _ways(shape: Shape, cells: _Cells) -> tuple[_Way, ...]:
    """Return how a shape may lie, only within one lane wherever that can be."""
    made = _made(shape, cells.wide, cells.high, cells.plane.apart / 2, cells.stride)
    for allowed in (_spans(cells), [(0, cells.stride)]):
        fitting = []
        for way in made:
            begins = 0
            for first, end in allowed:
                free = end - first - way.columns
                begins |= ((2 << free) - 1) << first if free >= 0 else 0
            if begins:
                fitting.append(replace(way, allowed=begins))
        if fitting:
            return tuple(fitting)
    return ()


def _spans(cells: _Cells) -> list[tuple[int, int]]:
    """Return the columns of each lane, its border of one cell on both sides with it."""
    lanes = cells.plane.lanes or ((0.0, cells.plane.width),)
    return [
        (math.ceil(left / cells.wide - 1e-6), math.floor(right / cells.wide + 1e-6) + 2)
        for left, right in lanes
    ]


@lru_cache(maxsize=64)
def _made(shape: Shape, wide: Mm, high: Mm, spread: Mm, stride: int) -> tuple[_Way, ...]:
    """Return a shape at each of its turns; kept, for the same plane is often filled twice."""
    return tuple(_way(shape, turn, wide, high, spread, stride) for turn in shape.turns)


def _way(shape: Shape, turn: float, wide: Mm, high: Mm, spread: Mm, stride: int) -> _Way:
    found = raster(shape.outline, turn, wide, high, spread)
    rows = found.rows[::-1]
    body = 0
    for row in reversed(rows):
        body = body << stride | row
    runs = tuple((k, first, long) for k, row in enumerate(rows) for first, long in _runs(row))
    c, s = math.cos(turn), math.sin(turn)
    return _Way(
        turn=turn,
        runs=runs,
        body=body,
        columns=found.columns + 2,
        rows=len(rows),
        left=found.left,
        bottom=found.bottom,
        allowed=0,
        low=min(p.x * s + p.y * c for p in shape.outline),
    )


def _runs(row: int) -> Iterator[tuple[int, int]]:
    """Yield the first cell and the number of cells of every run in a row."""
    at = 0
    while row:
        skipped = (row & -row).bit_length() - 1
        row >>= skipped
        long = (~row & (row + 1)).bit_length() - 1
        yield at + skipped, long
        row >>= long
        at += skipped + long


_Place = tuple[_Way, int, int]
"""A way with the row and the column of the plane where its body begins."""


@dataclass(slots=True)
class _Floor:
    """A plane with what lies on it so far.

    Attributes:
        spread: the taken cells, each spread 1, 2, 4, 8 … cells to the left.
    """

    cells: _Cells
    taken: int = 0
    rows: int = 0
    spread: list[int] = field(default_factory=list)

    def lay(self, place: _Place) -> None:
        """Take the cells of a shape."""
        way, row, column = place
        self.taken |= way.body << (row * self.cells.stride + column)
        self.rows = max(self.rows, row + way.rows)
        self.spread.clear()

    def first(self, way: _Way, *, down: int | None = None) -> tuple[int, int] | None:
        """Return the first free row and column for a shape, or None if ``down`` rows hold none."""
        stride = self.cells.stride
        rows = self.rows + 1 if down is None else down - way.rows + 1
        if rows <= 0:
            return None
        free = _every(way.allowed, stride, rows) & ~self._clashes(way)
        if not free:
            return None
        return divmod((free & -free).bit_length() - 1, stride)

    def _clashes(self, way: _Way) -> int:
        """Return all places where a cell of a shape would lie on a taken one."""
        stride = self.cells.stride
        if not self.spread:
            self.spread.append(self.taken)
            for k in range(stride.bit_length()):
                self.spread.append(self.spread[k] | self.spread[k] >> (1 << k))
        found = 0
        for row, first, long in way.runs:
            k = long.bit_length() - 1
            held = self.spread[k] >> (row * stride + first)
            rest = long - (1 << k)
            found |= held | held >> rest if rest else held
        return found


def _every(columns: int, stride: int, rows: int) -> int:
    """Return a set of columns repeated in every one of some rows."""
    whole, have = columns, 1
    while have < rows:
        step = min(have, rows - have)
        whole |= whole << (step * stride)
        have += step
    return whole


_Laid = dict[int, _Place]


class _Search:
    """A search over ways to lay some shapes; it counts the work it has done."""

    def __init__(self, ways: Sequence[tuple[_Way, ...]], cells: _Cells) -> None:
        """Take the ways that each shape may lie."""
        self.ways, self.cells, self.worked = ways, cells, 0

    def floor(self, laid: _Laid) -> _Floor:
        """Return the plane with its taken boxes and the shapes that lie on it."""
        cells = self.cells
        floor = _Floor(cells=cells)
        for box in cells.plane.taken:
            first = max(int(box.left / cells.wide), 0)
            last = min(math.ceil(box.right / cells.wide), cells.count) + 1
            top, bottom = int(-box.top / cells.high), math.ceil(-box.bottom / cells.high) + 2
            band = ((1 << (last - first + 1)) - 1) << first
            floor.taken |= _every(band, cells.stride, bottom - top) << (top * cells.stride)
            floor.rows = max(floor.rows, bottom)
        for place in laid.values():
            floor.lay(place)
        return floor

    def filled(
        self,
        laid: _Laid,
        order: Sequence[int],
        *,
        middle: bool = False,
        chance: random.Random | None = None,
    ) -> _Laid:
        """Return a plane with more shapes, each at the turn by which it ends nearest the head.

        Args:
            middle: go by where its middle lies instead of by its end.
            chance: tries some of the turns alone, drawn for each shape.
        """
        floor, found = self.floor(laid), dict(laid)
        for index in order:
            best: _Place | None = None
            least: tuple[int, int, int] | None = None
            ways: Sequence[_Way] = self.ways[index]
            if chance is not None:
                ways = chance.sample(ways, (len(ways) + 5) // 6)
            for way in ways:
                self.worked += len(way.runs) * (floor.taken.bit_length() + 4000)
                spot = floor.first(way)
                assert spot is not None  # below everything there is always room
                row, column = spot
                end = row + way.rows
                key = (max(end, floor.rows), 2 * row + way.rows if middle else end, column)
                if least is None or key < least:
                    best, least = (way, row, column), key
            assert best is not None
            floor.lay(best)
            found[index] = best
        return found

    def improved(self, laid: _Laid, work: int, enough: int) -> _Laid:
        """Return shapes laid no longer: some are taken off and put back until the work is done.

        Args:
            enough: rows that are few enough.
        """
        chance = random.Random(1)
        best = now = laid
        names = sorted(laid)
        while len(names) > 1 and self.worked < work and _score(best)[0] > enough:
            gone = chance.sample(names, min(len(names), chance.randint(1, 3)))
            middle, some = chance.random() < 0.5, chance if chance.random() < 0.8 else None
            if chance.random() < 0.5:
                # Everything anew, in an order a little off the one by rows.
                order = sorted(names, key=lambda k: (now[k][1] + chance.uniform(0, 60), k))
                tried = self.filled({}, order, middle=middle, chance=some)
            else:
                kept = {k: place for k, place in now.items() if k not in gone}
                tried = self.filled(kept, gone, middle=middle, chance=some)
            if _score(tried) <= _score(now):
                now = tried
            if _score(now) < _score(best):
                best = now
        return best


def _score(laid: _Laid) -> tuple[int, int]:
    """The shortest plane is best, then shapes that lie near its head."""
    ends = [row + way.rows for way, row, _ in laid.values()]
    return max(ends, default=0), sum(ends)


def fill(
    shapes: Sequence[Shape], plane: Plane, *, work: int, main: int = 0, enough: Mm = 0.0
) -> Filled | None:
    """Return a place for every shape, the plane as short as can be; None if one is too wide.

    Args:
        work: how much to search, in cells looked at; some 5 * 10**9 take a second.
        main: how many of the first shapes matter most: they are laid alone first, and the
            others into the room that they leave.
        enough: a plane of this length is short enough; the search ends there.
    """
    if not shapes:
        return Filled(spots=(), length=max((-box.bottom for box in plane.taken), default=0.0))
    if any(narrowest(shape.outline) > plane.width for shape in shapes):
        return None
    cells = _cells(plane, COARSE)
    search = _Search([_ways(shape, cells) for shape in shapes], cells)
    if not all(search.ways):
        # A shape almost as wide as the plane may fit in finer cells.
        cells = _cells(plane, FINE)
        search = _Search([_ways(shape, cells) for shape in shapes], cells)
        if not all(search.ways):
            return None
    few = int(enough / cells.high)
    starts = _starts(search, {}, range(len(shapes)))
    if 0 < main < len(shapes):
        alone = _alone(tuple(shapes[:main]), cells, work, few)
        starts += _starts(search, alone, range(main, len(shapes)))
    best = search.improved(min(starts, key=_score), search.worked + work // 2, few)
    found = [_exact(best, shapes, cells)]
    closer = _closer(best, shapes, plane)
    if closer is not None:
        found.append(closer)
    if not plane.lanes and not plane.taken:
        found += _in_rows(shapes, plane)
    return min(found, key=lambda one: one.length)


def _in_rows(shapes: Sequence[Shape], plane: Plane) -> Iterator[Filled]:
    """Yield shapes side by side in their boxes, row under row: sometimes nothing is shorter.

    Once each at its first turn, once each at the turn at which it is lowest.
    """
    for lowest in (False, True):
        boxes = []
        for shape in shapes:
            fitting = [b for b in (_box(shape, turn) for turn in shape.turns) if b.fits(plane)]
            if not fitting or not (lowest or fitting[0].turn == shape.turns[0]):
                break
            boxes.append(min(fitting, key=lambda b: b.box.height) if lowest else fitting[0])
        else:
            yield _rows_of(boxes, plane)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Boxed:
    """A shape at one turn, and the box that it takes round its own origin."""

    turn: float
    box: Box

    def fits(self, plane: Plane) -> bool:
        return self.box.width <= plane.width


def _box(shape: Shape, turn: float) -> _Boxed:
    c, s = math.cos(turn), math.sin(turn)
    xs = [p.x * c - p.y * s for p in shape.outline]
    ys = [p.x * s + p.y * c for p in shape.outline]
    return _Boxed(turn=turn, box=Box(left=min(xs), bottom=min(ys), right=max(xs), top=max(ys)))


def _rows_of(boxes: Sequence[_Boxed], plane: Plane) -> Filled:
    """Return boxes in rows, the highest first."""
    spots: dict[int, Spot] = {}
    x = head = foot = 0.0
    for index in sorted(range(len(boxes)), key=lambda k: (-boxes[k].box.height, k)):
        box = boxes[index].box
        if spots and x + box.width > plane.width:
            x, head = 0.0, foot - plane.apart
        spots[index] = Spot(x=x - box.left, y=head - box.top, turn=boxes[index].turn)
        x, foot = x + box.width + plane.apart, min(foot, head - box.height)
    return Filled(spots=tuple(spots[k] for k in range(len(boxes))), length=-foot)


@lru_cache(maxsize=4)
def _alone(shapes: tuple[Shape, ...], cells: _Cells, work: int, few: int) -> _Laid:
    """Return the best laying of some shapes alone; kept, for others are tried beside them."""
    search = _Search([_ways(shape, cells) for shape in shapes], cells)
    start = min(_starts(search, {}, range(len(shapes))), key=_score)
    return search.improved(start, work, few)


def _starts(search: _Search, laid: _Laid, names: Sequence[int]) -> list[_Laid]:
    """Return some ways to lay more shapes: the largest first, or the longest."""
    sizes = [ways[0].body.bit_count() for ways in search.ways]
    longest = [max(max(way.rows, way.columns) for way in ways) for ways in search.ways]
    orders = [sorted(names, key=lambda k: (-key[k], k)) for key in (sizes, longest)]
    return [search.filled(laid, order, middle=m) for order in orders for m in (False, True)]


def _closer(laid: _Laid, shapes: Sequence[Shape], plane: Plane) -> Filled | None:
    """Return the shapes laid again in finer cells, from the head down, turned as they are."""
    cells = _cells(plane, FINE)
    kept = [
        Shape(outline=shape.outline, turns=(laid[k][0].turn,)) for k, shape in enumerate(shapes)
    ]
    search = _Search([_ways(shape, cells) for shape in kept], cells)
    if not all(search.ways):
        return None
    order = sorted(laid, key=lambda k: (laid[k][1], laid[k][2], k))
    return _exact(search.filled({}, order), shapes, cells)


def _exact(laid: _Laid, shapes: Sequence[Shape], cells: _Cells) -> Filled:
    """Return places in millimetres; each shape's cells lie at the foot of its body."""
    spots, lowest = [], 0.0
    for index in range(len(shapes)):
        way, row, column = laid[index]
        x = column * cells.wide - way.left
        y = -(row + way.rows - 2) * cells.high - way.bottom
        spots.append(Spot(x=x, y=y, turn=way.turn))
        lowest = min(lowest, y + way.low)
    lowest = min((lowest, *(box.bottom for box in cells.plane.taken)))
    return Filled(spots=tuple(spots), length=-lowest)
