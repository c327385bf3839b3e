"""Names of sizes along their lines: a gap in the line, and the name in the gap.

A name stands at least every 150 mm of every line, clear of the other lines and of the joins
between pages where there is any such place. Millimetres and radians on the plane. Imports
geometry, drawing, fonts and the nest's runs.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from drafting.geometry import (
    Arc,
    Box,
    Path,
    Point,
    Segment,
    direction_along,
    distance,
    length,
    moved,
    on_circle,
    path_length,
    point_along,
)
from drafting.units import Mm
from render import fonts, style
from render.clipping import meets, part_of
from render.room import turned_box
from render.spots import upright

EVERY: Mm = 150.0
"""From one name on a line to the next, at most."""

WISHED: Mm = 90.0
"""From one name to the next where nothing is in the way."""

FROM_THE_END: Mm = 50.0
"""From the end of a line to its first name, at most: round a corner the next line of the size may
be a short one, without a name."""

SHORTEST: Mm = 24.0
"""A line shorter than this has no name of its own: it goes on from lines that have."""

AROUND: Mm = 0.8
"""Blank on both sides of a name in its gap."""

JOINED, STRUCK = 100, 10
"""How much a join in a name's way weighs, and a cutting line or another name. A thin line weighs 1:
where it runs beside a cutting line all along, it does so through every name."""

CELL: Mm = 30.0
"""Lines are looked up in cells of this size; half a name is shorter than one."""

SIZES_OF_TYPE = (style.SMALL, style.NOTE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Named:
    """A name in a line.

    Attributes:
        at: its middle, on the line.
        begin, end: of the gap, along the line.
        size: height of its type.
    """

    words: str
    at: Point
    angle: float
    begin: Mm
    end: Mm
    size: Mm

    @property
    def corners(self) -> tuple[Point, ...]:
        """The room that it takes."""
        return turned_box(self.at, self.end - self.begin, self.size, self.angle)


@dataclass(slots=True)
class Ground:
    """What stands in the way of names: lines, joins, names set already, the rims of the paper.

    Attributes:
        lines: all that are drawn; ``cut`` are those of them that are cut along.
    """

    lines: Sequence[Segment]
    cut: Sequence[Segment] = ()
    joins: Sequence[Box] = ()
    windows: Sequence[Box] = ()
    _set: list[Named] = field(default_factory=list)
    _cells: dict[tuple[int, int], list[Segment]] = field(default_factory=dict)
    _heavy: set[int] = field(default_factory=set)

    def __post_init__(self) -> None:
        self._heavy = {id(segment) for segment in self.cut}
        # A line is looked at only where it comes near: each cell knows those that run by it.
        for segment in self.lines:
            steps = max(1, math.ceil(length(segment) / (CELL / 2)))
            seen: set[tuple[int, int]] = set()
            for k in range(steps + 1):
                x, y = _at_share(segment, k / steps)
                seen.add((math.floor(x / CELL), math.floor(y / CELL)))
            for cell in seen:
                self._cells.setdefault(cell, []).append(segment)

    def _near(self, point: Point) -> list[Segment]:
        """Return the lines that may run within a name's reach of a point."""
        column, row = math.floor(point.x / CELL), math.floor(point.y / CELL)
        found: dict[int, Segment] = {}
        for i in (column - 1, column, column + 1):
            for j in (row - 1, row, row + 1):
                for segment in self._cells.get((i, j), ()):
                    found[id(segment)] = segment
        return list(found.values())

    def names_along(
        self, path: Path, words: Sequence[str], *, bold: bool, always: bool
    ) -> list[Named]:
        """Return the names of one line, in order along it, and remember them.

        Args:
            words: the name, the longest wording first.
            always: one name stands in the line even where another line runs through it.
        """
        best = [
            self._best(path, places, words, bold=bold) for places in _stretches(path_length(path))
        ]
        # Better no name than one that a line runs through, as long as the line has another.
        found = [named for weight, named in best if weight % JOINED < (STRUCK if always else 1)]
        if not found and always:
            found = [min(best, key=lambda one: one[0])[1]] if best else []
        self._set += found
        return found

    def _best(
        self, path: Path, places: Sequence[Mm], words: Sequence[str], *, bold: bool
    ) -> tuple[int, Named]:
        """Return the place with least in its way, the first of those that are alike."""
        best: tuple[int, Named] | None = None
        for size in SIZES_OF_TYPE:
            for wording in words:
                for place in places:
                    named = _named(path, place, wording, size, bold=bold)
                    weight = self._in_the_way(named, path)
                    if not weight:
                        return 0, named
                    if best is None or weight < best[0]:
                        best = weight, named
        assert best is not None
        return best

    def _in_the_way(self, named: Named, path: Path) -> int:
        """Return how much stands in a name's way: a join weighs most, then a name, then lines."""
        corners = named.corners
        box = Box(
            left=min(p.x for p in corners),
            bottom=min(p.y for p in corners),
            right=max(p.x for p in corners),
            top=max(p.y for p in corners),
        )
        off_paper = self.windows and not any(window.holds(box) for window in self.windows)
        joined = any(join.meets(box) for join in self.joins)
        reach = math.hypot(box.width, box.height) / 2 + style.ALONG
        others = (one for one in self._set if distance(one.at, named.at) < 4 * reach)
        over = any(_overlap(corners, one.corners) for one in others)
        crossing = [
            segment
            for segment in self._near(named.at)
            if not any(segment is own for own in path) and _passes(segment, named)
        ]
        cut = any(id(segment) in self._heavy for segment in crossing)
        joins = 3 * bool(off_paper) + joined
        return JOINED * joins + STRUCK * (cut + over) + min(len(crossing), STRUCK - 1)


def _stretches(long: Mm) -> Iterator[tuple[Mm, ...]]:
    """Yield, for each name of a line, the places that it may stand at, the best first."""
    if long < SHORTEST:
        return
    count = max(1, math.ceil(long / WISHED))
    step = long / count
    # Two names may each give way to the other's side, and still stand near enough.
    give = max(min((EVERY - step) / 2, step / 2 - 8.0), 0.0)
    inward = min(give, FROM_THE_END - step / 2)
    for k in range(count):
        middle = (k + 0.5) * step
        back = inward if k == count - 1 else give
        ahead = inward if k == 0 else give
        shifts = [0.0]
        for share in (0.2, 0.4, 0.6, 0.8, 1.0):
            shifts += [ahead * share, -back * share]
        yield tuple(middle + shift for shift in shifts)


def _named(path: Path, place: Mm, words: str, size: Mm, *, bold: bool) -> Named:
    half = fonts.width(words, size, bold=bold) / 2 + AROUND
    long = path_length(path)
    place = min(max(place, half), long - half) if long > 2 * half else long / 2
    return Named(
        words=words,
        at=point_along(path, place),
        angle=upright(direction_along(path, place)),
        begin=max(place - half, 0.0),
        end=min(place + half, long),
        size=size,
    )


def _passes(segment: Segment, named: Named) -> bool:
    """Tell whether a line runs through the room of a name."""
    half = (named.end - named.begin) / 2
    high = named.size * style.CAP_HEIGHT / 2 + 0.3
    reach = math.hypot(half, high)
    if _off(segment, named.at) > reach:
        return False
    c, s = math.cos(-named.angle), math.sin(-named.angle)
    x, y = named.at
    there = moved((segment,), x=-x * c + y * s, y=-x * s - y * c, turn=-named.angle)
    return meets(there, Box(left=-half, bottom=-high, right=half, top=high))


def _at_share(segment: Segment, share: float) -> Point:
    """Return the point of a segment at a share of its length."""
    if isinstance(segment, Arc):
        angle = segment.begin + (segment.finish - segment.begin) * share
        return on_circle(segment.centre, segment.radius, angle)
    (ax, ay), (bx, by) = segment.start, segment.end
    return Point(ax + (bx - ax) * share, ay + (by - ay) * share)


def _off(segment: Segment, point: Point) -> Mm:
    """Return at least how far a point lies from a segment, quickly."""
    if isinstance(segment, Arc):
        return abs(distance(segment.centre, point) - segment.radius)
    (ax, ay), (bx, by) = segment.start, segment.end
    long = length(segment)
    if long < 1e-9:
        return distance(segment.start, point)
    along = ((point.x - ax) * (bx - ax) + (point.y - ay) * (by - ay)) / long
    beyond = max(-along, along - long, 0.0)
    aside = abs((point.y - ay) * (bx - ax) - (point.x - ax) * (by - ay)) / long
    return max(beyond, aside)


def _overlap(one: Sequence[Point], other: Sequence[Point]) -> bool:
    """Tell whether two turned rectangles overlap. Source: the separating axis theorem."""
    for corners in (one, other):
        for a, b in ((corners[0], corners[1]), (corners[1], corners[2])):
            nx, ny = b.x - a.x, b.y - a.y
            mine = [p.x * nx + p.y * ny for p in one]
            yours = [p.x * nx + p.y * ny for p in other]
            if max(mine) <= min(yours) or max(yours) <= min(mine):
                return False
    return True


# --- gaps ----------------------------------------------------------------------------------


def without_gaps(path: Path, names: Sequence[Named]) -> Iterator[tuple[Path, Mm]]:
    """Yield the parts of a line between its names, each with its distance from the start."""
    edges = [0.0, *(edge for one in names for edge in (one.begin, one.end)), path_length(path)]
    pairs = [(a, b) for a, b in pairwise(edges)][::2]
    for begin, end in pairs:
        if end - begin > 0.01:
            yield cut_out(path, begin, end), begin


def cut_out(path: Path, begin: Mm, end: Mm) -> Path:
    """Return the part of a path between two distances along it."""
    found: list[Segment] = []
    walked = 0.0
    for segment in path:
        long = length(segment)
        low, high = max(begin - walked, 0.0), min(end - walked, long)
        if high - low > 1e-9:
            whole = low <= 1e-9 and high >= long - 1e-9
            found.append(segment if whole else part_of(segment, low / long, high / long))
        walked += long
    return tuple(found)
