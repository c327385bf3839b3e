"""Which runs of the lines of several sizes lie on each other, so that each is drawn once.

Millimetres and radians. Imports geometry and clipping.
"""

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from drafting.geometry import MEETING, Arc, Line, Path, Point, Segment, distance, length
from drafting.units import Mm
from render.clipping import part_of

TOUCHING: Mm = 0.01
"""Lines nearer than this lie on each other: a seventieth of a cutting line's width."""

LEAST_RUN: Mm = 0.05
"""A run shorter than this is no line of its own; it goes with its neighbour."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """An unbroken part of a line, and the sizes whose lines run there."""

    path: Path
    sizes: tuple[str, ...]


def shared_runs(lines: Mapping[str, Sequence[Path]]) -> tuple[Run, ...]:
    """Return the lines of several sizes, each part once, in the order of the sizes.

    Parts that follow each other and belong to the same sizes stay one run, so that a dash pattern
    and a corner go on unbroken.

    Args:
        lines: for each size its paths, of one kind.
    """
    carriers = _Carriers()
    laid = {
        size: [
            [
                (segment, *carriers.laid(segment, size))
                for segment in path
                if length(segment) > MEETING
            ]
            for path in paths
        ]
        for size, paths in lines.items()
    }
    order = {size: k for k, size in enumerate(lines)}
    found: list[Run] = []
    for size, paths in laid.items():
        for path in paths:
            parts = [
                (part, tuple(sorted(sizes, key=order.__getitem__)))
                for segment, carrier, begin, end in path
                for part, sizes in carrier.parts(segment, begin, end)
            ]
            found += _joined(parts, size)
    return tuple(found)


def _joined(parts: Sequence[tuple[Segment, tuple[str, ...]]], size: str) -> Iterator[Run]:
    """Yield the runs of one path that its size is the first to draw."""
    runs: list[tuple[list[Segment], tuple[str, ...]]] = []
    for part, sizes in parts:
        if runs and runs[-1][1] == sizes:
            runs[-1][0].append(part)
        else:
            runs.append(([part], sizes))
    if len(runs) > 1 and runs[0][1] == runs[-1][1] and _meet(parts[-1][0], parts[0][0]):
        last, _ = runs.pop()
        runs[0] = ([*last, *runs[0][0]], runs[0][1])
    for segments, sizes in runs:  # a path without length has none
        if sizes[0] == size:
            yield Run(path=tuple(segments), sizes=sizes)


def _meet(one: Segment, other: Segment) -> bool:
    return distance(one.end, other.start) < TOUCHING


# --- carriers ------------------------------------------------------------------------------


@dataclass(slots=True)
class _Carrier:
    """A whole straight line or circle that segments lie on, and where along it each lies.

    Places along a straight line are millimetres; along a circle they are angles, from 0 to a
    whole turn, times its radius.
    """

    first: Segment
    spans: list[tuple[Mm, Mm, str]] = field(default_factory=list)
    cuts: list[Mm] | None = None

    @property
    def around(self) -> Mm:
        """Length of the whole circle; 0 for a straight line."""
        return math.tau * self.first.radius if isinstance(self.first, Arc) else 0.0

    def holds(self, segment: Segment) -> bool:
        """Tell whether a segment lies on this carrier."""
        first = self.first
        if isinstance(first, Arc):
            return (
                isinstance(segment, Arc)
                and distance(segment.centre, first.centre) < TOUCHING
                and abs(segment.radius - first.radius) < TOUCHING
            )
        return isinstance(segment, Line) and all(
            abs(_off(first, point)) < TOUCHING for point in (segment.start, segment.end)
        )

    def place(self, segment: Segment) -> tuple[Mm, Mm]:
        """Return where a segment begins and ends along this carrier."""
        first = self.first
        if isinstance(segment, Arc):
            assert isinstance(first, Arc)
            begin = segment.begin % math.tau * first.radius
            return begin, begin + (segment.finish - segment.begin) * first.radius
        assert isinstance(first, Line)
        return _along(first, segment.start), _along(first, segment.end)

    def add(self, begin: Mm, end: Mm, size: str) -> None:
        """Lay a size's segment on it. What runs past a whole turn goes on from its beginning."""
        low, high = min(begin, end), max(begin, end)
        turn = self.around
        self.spans.append((low, high, size))
        if turn:
            self.spans += [(low - turn, high - turn, size), (low + turn, high + turn, size)]

    def parts(
        self, segment: Segment, begin: Mm, end: Mm
    ) -> Iterator[tuple[Segment, frozenset[str]]]:
        """Yield a segment in parts, in its own direction, each with the sizes that lie on it."""
        if self.cuts is None:
            self.cuts = sorted({place for low, high, _ in self.spans for place in (low, high)})
        low, high = min(begin, end), max(begin, end)
        inner = [cut for cut in self.cuts if low + LEAST_RUN < cut < high - LEAST_RUN]
        places = [low]
        for cut in inner:
            if cut - places[-1] > LEAST_RUN:
                places.append(cut)
        places.append(high)
        pieces = [(a, b, self._over((a + b) / 2)) for a, b in pairwise(places)]
        if end < begin:
            pieces = [(b, a, sizes) for a, b, sizes in reversed(pieces)]
        long = end - begin
        for a, b, sizes in _merged(pieces):
            yield part_of(segment, (a - begin) / long, (b - begin) / long), sizes

    def _over(self, place: Mm) -> frozenset[str]:
        return frozenset(
            size for low, high, size in self.spans if low - TOUCHING <= place <= high + TOUCHING
        )


def _merged(
    pieces: Sequence[tuple[Mm, Mm, frozenset[str]]],
) -> list[tuple[Mm, Mm, frozenset[str]]]:
    """Return parts with those of the same sizes joined."""
    found: list[tuple[Mm, Mm, frozenset[str]]] = []
    for begin, end, sizes in pieces:
        if found and found[-1][2] == sizes:
            found[-1] = (found[-1][0], end, sizes)
        else:
            found.append((begin, end, sizes))
    return found


class _Carriers:
    """Every carrier of one kind of line, found by a rough key."""

    def __init__(self) -> None:
        self._by_key: dict[tuple[int, ...], list[_Carrier]] = {}

    def laid(self, segment: Segment, size: str) -> tuple[_Carrier, Mm, Mm]:
        """Return the carrier of a segment, and where along it the segment lies."""
        key = _key(segment)
        for near in _near(key):
            for carrier in self._by_key.get(near, ()):
                if carrier.holds(segment):
                    return self._added(carrier, segment, size)
        carrier = _Carrier(segment)
        self._by_key.setdefault(key, []).append(carrier)
        return self._added(carrier, segment, size)

    def _added(self, carrier: _Carrier, segment: Segment, size: str) -> tuple[_Carrier, Mm, Mm]:
        begin, end = carrier.place(segment)
        carrier.add(begin, end, size)
        return carrier, begin, end


_ROUGH: Mm = 1.0
_TURNS = 180
"""Straight lines are first told apart by a degree of direction, and all by a millimetre."""


def _key(segment: Segment) -> tuple[int, ...]:
    if isinstance(segment, Arc):
        x, y = segment.centre
        return round(x / _ROUGH), round(y / _ROUGH), round(segment.radius / _ROUGH)
    (ax, ay), (bx, by) = segment.start, segment.end
    angle = math.atan2(by - ay, bx - ax) % math.pi
    # How far the line passes from the origin, by size alone: its sign turns with its direction.
    off = abs(ax * math.sin(angle) - ay * math.cos(angle))
    return round(angle / math.pi * _TURNS) % _TURNS, round(off / _ROUGH)


def _near(key: tuple[int, ...]) -> Iterator[tuple[int, ...]]:
    if len(key) == 2:
        for turn in (0, 1, -1):
            for off in (0, 1, -1):
                yield (key[0] + turn) % _TURNS, key[1] + off
        return
    for dx in (0, 1, -1):
        for dy in (0, 1, -1):
            for dr in (0, 1, -1):
                yield key[0] + dx, key[1] + dy, key[2] + dr


def _along(line: Line, point: Point) -> Mm:
    (ax, ay), (bx, by) = line.start, line.end
    long = length(line)
    return ((point.x - ax) * (bx - ax) + (point.y - ay) * (by - ay)) / long


def _off(line: Line, point: Point) -> Mm:
    (ax, ay), (bx, by) = line.start, line.end
    return ((point.y - ay) * (bx - ax) - (point.x - ax) * (by - ay)) / length(line)
