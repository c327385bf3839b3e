"""Points, straight lines and arcs of the drafting plane.

Millimetres and radians; x to the right, y up, angles counter-clockwise from +x. Imports only
errors. A path is a tuple of segments, each beginning where the one before it ends. Arcs stay
arcs; the one place where they become short straight runs is ``flattened``.
"""

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple, TypeAlias

from drafting.errors import GeometryError
from drafting.units import Mm

CHORD_ERROR: Mm = 0.02
"""How far a polygon may lie off the arc it stands for: a fifth of the truing tolerance."""

MEETING: Mm = 1e-6
"""Points closer than this are one point; far below what any printer can place."""


class Point(NamedTuple):
    """A place on the plane."""

    x: float
    y: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """A straight segment."""

    start: Point
    end: Point


@dataclass(frozen=True, slots=True, kw_only=True)
class Arc:
    """Part of a circle, from angle ``begin`` to ``finish``; clockwise if that is the smaller."""

    centre: Point
    radius: Mm
    begin: float
    finish: float

    def __post_init__(self) -> None:
        if not self.radius > 0:
            raise GeometryError(f"an arc needs a radius above 0, not {self.radius:g} mm")

    @property
    def start(self) -> Point:
        """Where the arc begins."""
        return on_circle(self.centre, self.radius, self.begin)

    @property
    def end(self) -> Point:
        """Where the arc ends."""
        return on_circle(self.centre, self.radius, self.finish)


Segment: TypeAlias = Line | Arc
Path: TypeAlias = tuple[Segment, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Box:
    """An upright rectangle."""

    left: Mm
    bottom: Mm
    right: Mm
    top: Mm

    @property
    def width(self) -> Mm:
        """Extent along x."""
        return self.right - self.left

    @property
    def height(self) -> Mm:
        """Extent along y."""
        return self.top - self.bottom

    @property
    def centre(self) -> Point:
        """The middle of the box."""
        return Point((self.left + self.right) / 2, (self.bottom + self.top) / 2)

    @property
    def corners(self) -> tuple[Point, Point, Point, Point]:
        """Its corners, counter-clockwise from the lower left one."""
        return (
            Point(self.left, self.bottom),
            Point(self.right, self.bottom),
            Point(self.right, self.top),
            Point(self.left, self.top),
        )

    def grown(self, by: Mm) -> "Box":
        """Return the box with ``by`` added on all four sides."""
        return Box(
            left=self.left - by, bottom=self.bottom - by, right=self.right + by, top=self.top + by
        )

    def meets(self, other: "Box") -> bool:
        """Tell whether the two boxes share a point."""
        return (
            self.left <= other.right
            and other.left <= self.right
            and self.bottom <= other.top
            and other.bottom <= self.top
        )

    def holds(self, other: "Box") -> bool:
        """Tell whether ``other`` lies inside this box or on its sides."""
        return (
            self.left <= other.left
            and other.right <= self.right
            and self.bottom <= other.bottom
            and other.top <= self.top
        )


def on_circle(centre: Point, radius: Mm, angle: float) -> Point:
    """Return the point of a circle that lies at ``angle`` from its centre."""
    return Point(centre.x + radius * math.cos(angle), centre.y + radius * math.sin(angle))


def stepped(point: Point, angle: float, by: Mm) -> Point:
    """Return the point reached from another by a step of that length at that angle."""
    return on_circle(point, by, angle)


def straight(one: Point, other: Point) -> Path:
    """Return a path of one straight segment."""
    return (Line(start=one, end=other),)


def rim(box: Box) -> Path:
    """Return the four sides of a box, counter-clockwise from its lower left corner."""
    corners = (
        Point(box.left, box.bottom),
        Point(box.right, box.bottom),
        Point(box.right, box.top),
        Point(box.left, box.top),
    )
    return tuple(
        Line(start=one, end=other)
        for one, other in zip(corners, corners[1:] + corners[:1], strict=True)
    )


def distance(one: Point, other: Point) -> Mm:
    """Return how far two points lie apart."""
    return math.hypot(one.x - other.x, one.y - other.y)


def off_run(point: Point, one: Point, other: Point) -> Mm:
    """Return how far a point lies from a straight run between two others."""
    dx, dy = other.x - one.x, other.y - one.y
    square = dx * dx + dy * dy
    share = ((point.x - one.x) * dx + (point.y - one.y) * dy) / square if square else 0.0
    share = min(max(share, 0.0), 1.0)
    return math.hypot(point.x - one.x - share * dx, point.y - one.y - share * dy)


def length(segment: Segment) -> Mm:
    """Return the exact length of a segment."""
    if isinstance(segment, Line):
        return distance(segment.start, segment.end)
    return segment.radius * abs(segment.finish - segment.begin)


def path_length(path: Path) -> Mm:
    """Return the exact length of a path."""
    return math.fsum(length(segment) for segment in path)


def reversed_path(path: Path) -> Path:
    """Return the path walked the other way."""
    return tuple(
        Line(start=s.end, end=s.start)
        if isinstance(s, Line)
        else Arc(centre=s.centre, radius=s.radius, begin=s.finish, finish=s.begin)
        for s in reversed(path)
    )


def point_along(path: Path, walked: Mm) -> Point:
    """Return the point ``walked`` along a path, held to its two ends."""
    return _at(path, walked)[0]


ON_THE_PATH: Mm = 1e-3
"""A point this near to a path lies on it."""


def walked_to(path: Path, point: Point) -> Mm | None:
    """Return how far along a path a point on it lies, or None for a point beside it."""
    walked = 0.0
    for segment in path:
        long = length(segment)
        if isinstance(segment, Line):
            share = (
                (point.x - segment.start.x) * (segment.end.x - segment.start.x)
                + (point.y - segment.start.y) * (segment.end.y - segment.start.y)
            ) / long**2
        else:
            angle = math.atan2(point.y - segment.centre.y, point.x - segment.centre.x)
            sweep = segment.finish - segment.begin
            near = segment.begin + sweep / 2
            angle += math.tau * round((near - angle) / math.tau)
            share = (angle - segment.begin) / sweep
        held = min(max(share, 0.0), 1.0)
        if distance(point_along((segment,), held * long), point) < ON_THE_PATH:
            return walked + held * long
        walked += long
    return None


def direction_along(path: Path, walked: Mm) -> float:
    """Return the angle of travel ``walked`` along a path, held to its two ends."""
    return _at(path, walked)[1]


def _at(path: Path, walked: Mm) -> tuple[Point, float]:
    rest = max(walked, 0.0)
    for index, segment in enumerate(path):
        reach = length(segment)
        if rest <= reach or index == len(path) - 1:
            share = min(rest / reach, 1.0) if reach else 0.0
            if isinstance(segment, Line):
                (ax, ay), (bx, by) = segment.start, segment.end
                here = Point(ax + (bx - ax) * share, ay + (by - ay) * share)
                return here, math.atan2(by - ay, bx - ax)
            angle = segment.begin + (segment.finish - segment.begin) * share
            turn = math.copysign(math.pi / 2, segment.finish - segment.begin)
            return on_circle(segment.centre, segment.radius, angle), angle + turn
        rest -= reach
    raise GeometryError("an empty path has no points")


def moved(path: Path, *, x: Mm = 0.0, y: Mm = 0.0, turn: float = 0.0) -> Path:
    """Return the path turned about the origin by ``turn``, then shifted by ``x`` and ``y``."""
    c, s = math.cos(turn), math.sin(turn)

    def place(p: Point) -> Point:
        return Point(p.x * c - p.y * s + x, p.x * s + p.y * c + y)

    return tuple(
        Line(start=place(g.start), end=place(g.end))
        if isinstance(g, Line)
        else Arc(
            centre=place(g.centre), radius=g.radius, begin=g.begin + turn, finish=g.finish + turn
        )
        for g in path
    )


def moved_point(point: Point, *, x: Mm = 0.0, y: Mm = 0.0, turn: float = 0.0) -> Point:
    """Return the point turned about the origin by ``turn``, then shifted by ``x`` and ``y``."""
    c, s = math.cos(turn), math.sin(turn)
    return Point(point.x * c - point.y * s + x, point.x * s + point.y * c + y)


def scaled(path: Path, by: float) -> Path:
    """Return the path enlarged about the origin, for pictures."""
    return tuple(
        Line(start=Point(g.start.x * by, g.start.y * by), end=Point(g.end.x * by, g.end.y * by))
        if isinstance(g, Line)
        else Arc(
            centre=Point(g.centre.x * by, g.centre.y * by),
            radius=g.radius * by,
            begin=g.begin,
            finish=g.finish,
        )
        for g in path
    )


def mirrored(path: Path, *, through: Point, along: float) -> Path:
    """Return the path mirrored over the line through a point at angle ``along``, same travel."""
    c, s = math.cos(2 * along), math.sin(2 * along)

    def flip(p: Point) -> Point:
        x, y = p.x - through.x, p.y - through.y
        return Point(through.x + x * c + y * s, through.y + x * s - y * c)

    return tuple(
        Line(start=flip(g.start), end=flip(g.end))
        if isinstance(g, Line)
        else Arc(
            centre=flip(g.centre),
            radius=g.radius,
            begin=2 * along - g.begin,
            finish=2 * along - g.finish,
        )
        for g in path
    )


def angles_within(begin: float, finish: float, wanted: float) -> tuple[float, ...]:
    """Return every angle equal to ``wanted`` up to whole turns between ``begin`` and ``finish``."""
    low, high = min(begin, finish), max(begin, finish)
    first = math.ceil((low - wanted) / math.tau - 1e-12)
    last = math.floor((high - wanted) / math.tau + 1e-12)
    return tuple(wanted + k * math.tau for k in range(first, last + 1))


def bounds(path: Path) -> Box:
    """Return the exact smallest upright box that holds the path."""
    xs: list[float] = []
    ys: list[float] = []
    for segment in path:
        for p in (segment.start, segment.end):
            xs.append(p.x)
            ys.append(p.y)
        if isinstance(segment, Arc):
            for quarter in range(4):
                for angle in angles_within(segment.begin, segment.finish, quarter * math.pi / 2):
                    p = on_circle(segment.centre, segment.radius, angle)
                    xs.append(p.x)
                    ys.append(p.y)
    return Box(left=min(xs), bottom=min(ys), right=max(xs), top=max(ys))


def flattened(path: Path, *, outside: bool = False, error: Mm = CHORD_ERROR) -> tuple[Point, ...]:
    """Return points along the path whose chords lie at most ``error`` off its arcs.

    Args:
        outside: keep the points on or beyond counter-clockwise arcs, so that a polygon of
            them contains the outline it stands for (clockwise arcs keep their chords, which
            lie outside a counter-clockwise outline already).
    """
    points: list[Point] = []
    for segment in path:
        if isinstance(segment, Line):
            points.append(segment.start)
            continue
        sweep = segment.finish - segment.begin
        # Half the chord's angle has sagitta r (1 - cos), or r (sec - 1) for tangents.
        most = 2 * math.acos(max(1 - error / segment.radius, -1.0))
        steps = max(math.ceil(abs(sweep) / most), 1)
        step = sweep / steps
        points.append(segment.start)
        if outside and sweep > 0:
            out = segment.radius / math.cos(step / 2)
            points += [
                on_circle(segment.centre, out, segment.begin + step * (k + 0.5))
                for k in range(steps)
            ]
        else:
            points += [
                on_circle(segment.centre, segment.radius, segment.begin + step * k)
                for k in range(1, steps)
            ]
    if path:
        points.append(path[-1].end)
    return tuple(points)


def in_parts(path: Path, most: float) -> Path:
    """Return the path with each arc of more than ``most`` radians cut into equal shorter ones.

    For files that know an arc by its two ends: they cannot hold a whole circle.
    """
    segments: list[Segment] = []
    for segment in path:
        if isinstance(segment, Line):
            segments.append(segment)
            continue
        sweep = segment.finish - segment.begin
        # Half of a circle must stay one half, whatever the last digit of its angles.
        count = max(math.ceil(abs(sweep) / most - 1e-9), 1)
        angles = [segment.begin + sweep * k / count for k in range(count + 1)]
        segments += [
            Arc(centre=segment.centre, radius=segment.radius, begin=one, finish=other)
            for one, other in itertools.pairwise(angles)
        ]
    return tuple(segments)


SKETCHED = 0.2
"""Greatest angle of a chord in a sketch, in radians: within half a per cent of the radius."""


def sketched(path: Path) -> tuple[Point, ...]:
    """Return a few points along a path, for a quick look at what lies inside it."""
    points: list[Point] = []
    for segment in path:
        points.append(segment.start)
        if isinstance(segment, Arc):
            sweep = segment.finish - segment.begin
            steps = math.ceil(abs(sweep) / SKETCHED)
            points += [
                on_circle(segment.centre, segment.radius, segment.begin + sweep * k / steps)
                for k in range(1, steps)
            ]
    return tuple(points)


def area(path: Path) -> float:
    """Return the exact area inside a closed path in mm2, above 0 when counter-clockwise.

    Source: Green's theorem, half the integral of x dy - y dx, in closed form for each segment.
    """
    parts: list[float] = []
    for segment in path:
        (ax, ay), (bx, by) = segment.start, segment.end
        if isinstance(segment, Line):
            parts.append(ax * by - bx * ay)
        else:
            (cx, cy), r = segment.centre, segment.radius
            parts.append(r * r * (segment.finish - segment.begin))
            parts.append(cx * (by - ay) - cy * (bx - ax))
    return math.fsum(parts) / 2


def above_level(polygon: Sequence[Point], level: Mm) -> tuple[Point, ...]:
    """Return what of a polygon lies above a level line (Sutherland and Hodgman, one side)."""
    found: list[Point] = []
    for a, b in zip(polygon, (*polygon[1:], polygon[0]), strict=True):
        if a.y >= level:
            found.append(a)
        if (a.y - level) * (b.y - level) < 0:
            share = (level - a.y) / (b.y - a.y)
            found.append(Point(a.x + share * (b.x - a.x), level))
    return tuple(found)


def holds(polygon: tuple[Point, ...], point: Point) -> bool:
    """Tell whether ``point`` lies inside a polygon (crossing number rule)."""
    inside = False
    (ax, ay) = polygon[-1]
    for bx, by in polygon:
        if (ay > point.y) != (by > point.y) and point.x < ax + (point.y - ay) * (bx - ax) / (
            by - ay
        ):
            inside = not inside
        ax, ay = bx, by
    return inside
