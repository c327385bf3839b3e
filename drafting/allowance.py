"""The cutting line, derived from the stitching line by each edge's own allowance.

Millimetres and radians. Imports geometry and errors. Outlines run counter-clockwise, so the
outside lies to the right of travel.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from drafting.errors import GeometryError
from drafting.geometry import (
    MEETING,
    Arc,
    Line,
    Path,
    Point,
    Segment,
    distance,
    on_circle,
)
from drafting.units import Mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Widths:
    """How much cloth lies outside the stitching line at a layer's edges.

    Attributes:
        spare: more below the hem's allowance, to level the hem once it has hung.
    """

    waist: Mm = 10.0
    side: Mm = 15.0
    hem: Mm = 12.0
    spare: Mm = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Border:
    """One edge as the cutting line sees it: its path, its allowance, whether it turns up.

    Attributes:
        runs_on: a seam that is sewn before any other; its allowance runs straight on through
            its neighbours'.
    """

    path: Path
    allowance: Mm
    turns_up: bool = False
    runs_on: bool = False


def cutting_path(borders: Sequence[Border]) -> Path:
    """Return the closed cutting line round a counter-clockwise outline of borders.

    Neighbours meet in a mitre. Where one of them is a hem that turns up, the corner is
    mirrored across the hem line, so that the turned-up allowance is as wide as the cloth it
    comes to lie on; but for a seam that runs on: it is sewn before the hem is turned up.

    Raises:
        GeometryError: the allowances of two neighbours do not meet.
    """
    offsets = [beside(border.path, border.allowance) for border in borders]
    for index, border in enumerate(borders):
        if border.runs_on:
            # Beside a curve of many arcs the allowance may end some arcs sooner than the seam.
            following, edge = (index + 1) % len(borders), offsets[index][0]
            offsets[following] = _from_line(offsets[following], edge)
            offsets[index - 1] = _until_line(offsets[index - 1], edge)
    joins: list[tuple[Point, Point]] = []
    for index, border in enumerate(borders):
        after = borders[(index + 1) % len(borders)]
        joins.append(_join(border, offsets[index], after, offsets[(index + 1) % len(borders)]))
    line: list[Segment] = []
    for index, path in enumerate(offsets):
        start, end = joins[index - 1][1], joins[index][0]
        line += _between(path, start, end)
        if distance(*joins[index]) > MEETING:
            line.append(Line(start=joins[index][0], end=joins[index][1]))
    return tuple(line)


def beside(path: Path, by: Mm) -> Path:
    """Return the path moved ``by`` to the right of its travel, or to the left if below 0.

    Raises:
        GeometryError: a curve of the path is too tight.
    """
    return tuple(_offset(segment, by) for segment in path)


def _from_line(path: Path, line: Segment) -> Path:
    """Return a path without the segments that lie wholly before it meets a line."""
    met = next((k for k, segment in enumerate(path) if _meets(segment, line)), 0)
    return path[met:]


def _until_line(path: Path, line: Segment) -> Path:
    """Return a path without the segments that lie wholly beyond where it meets a line."""
    met = next((k for k in reversed(range(len(path))) if _meets(path[k], line)), len(path) - 1)
    return path[: met + 1]


def _meets(segment: Segment, line: Segment) -> bool:
    """Tell whether the two ends of a segment lie on either side of a line, drawn out both ways."""
    (ax, ay), (bx, by) = line.start, line.end

    def side(point: Point) -> float:
        return (bx - ax) * (point.y - ay) - (by - ay) * (point.x - ax)

    return side(segment.start) * side(segment.end) <= 0


def _offset(segment: Segment, by: Mm) -> Segment:
    """Return the segment moved ``by`` to the right of its travel."""
    if isinstance(segment, Line):
        (ax, ay), (bx, by_) = segment.start, segment.end
        long = math.hypot(bx - ax, by_ - ay)
        if not long > 0:
            raise GeometryError("an edge has no length")
        dx, dy = (by_ - ay) / long * by, -(bx - ax) / long * by
        return Line(start=Point(ax + dx, ay + dy), end=Point(bx + dx, by_ + dy))
    outward = by if segment.finish > segment.begin else -by
    radius = segment.radius + outward
    if not radius > 0:
        raise GeometryError(
            f"an allowance of {by:g} mm does not fit inside a curve of radius"
            f" {segment.radius:.1f} mm"
        )
    return Arc(centre=segment.centre, radius=radius, begin=segment.begin, finish=segment.finish)


def _join(one: Border, one_offset: Path, other: Border, other_offset: Path) -> tuple[Point, Point]:
    """Return where the cutting line leaves ``one`` and where it takes up ``other``."""
    corner = one.path[-1].end
    if one.turns_up == other.turns_up or one.runs_on or other.runs_on:
        meeting = _crossing(one_offset[-1], other_offset[0], corner)
        return meeting, meeting
    if other.turns_up:
        inner, outer = _mirrored(one_offset[-1], other, other.path[0], corner)
        return inner, outer
    inner, outer = _mirrored(other_offset[0], one, one.path[-1], corner)
    return outer, inner


def _mirrored(side: Segment, hem: Border, at: Segment, corner: Point) -> tuple[Point, Point]:
    """Return where a side's cutting line crosses the hem line, and its mirror at the hem's edge."""
    crosses = _crossing(side, at, corner)
    back = _crossing(side, _offset(at, -hem.allowance), corner)
    if isinstance(at, Arc):
        angle = math.atan2(back.y - at.centre.y, back.x - at.centre.x)
        return crosses, on_circle(at.centre, _offset_radius(at, hem.allowance), angle)
    (ax, ay), (bx, by) = at.start, at.end
    long = math.hypot(bx - ax, by - ay)
    ux, uy = (bx - ax) / long, (by - ay) / long
    along = (back.x - ax) * ux + (back.y - ay) * uy
    away = (back.x - ax) * uy - (back.y - ay) * ux
    return crosses, Point(ax + along * ux - away * uy, ay + along * uy + away * ux)


def _offset_radius(arc: Arc, by: Mm) -> Mm:
    return arc.radius + (by if arc.finish > arc.begin else -by)


def _between(path: Path, start: Point, end: Point) -> list[Segment]:
    """Return the offset path, its first and last segments cut or drawn out to the joins.

    A join that does not lie on an arc's own circle is reached straight on from its end.
    """
    parts = list(path)
    first, last = parts[0], parts[-1]
    if _carries(first, start):
        parts[0] = _from(first, start)
    if _carries(last, end):
        parts[-1] = _until(parts[-1], end)
    if not _carries(first, start):
        parts.insert(0, Line(start=start, end=first.start))
    if not _carries(last, end):
        parts.append(Line(start=last.end, end=end))
    return parts


def _carries(segment: Segment, point: Point) -> bool:
    """Tell whether a point lies on a segment's carrier; a line is drawn out to any join."""
    if isinstance(segment, Line):
        return True
    return abs(distance(segment.centre, point) - segment.radius) < MEETING


def _from(segment: Segment, start: Point) -> Segment:
    if isinstance(segment, Line):
        return Line(start=start, end=segment.end)
    return Arc(
        centre=segment.centre,
        radius=segment.radius,
        begin=_angle_near(segment, start, segment.begin),
        finish=segment.finish,
    )


def _until(segment: Segment, end: Point) -> Segment:
    if isinstance(segment, Line):
        return Line(start=segment.start, end=end)
    return Arc(
        centre=segment.centre,
        radius=segment.radius,
        begin=segment.begin,
        finish=_angle_near(segment, end, segment.finish),
    )


def _angle_near(arc: Arc, point: Point, near: float) -> float:
    angle = math.atan2(point.y - arc.centre.y, point.x - arc.centre.x)
    return angle + math.tau * round((near - angle) / math.tau)


def _crossing(one: Segment, other: Segment, near: Point) -> Point:
    """Return where two segments' carriers (whole lines, whole circles) meet nearest ``near``."""
    if isinstance(one, Line) and isinstance(other, Line):
        found = _lines(one, other)
    elif isinstance(one, Arc) and isinstance(other, Arc):
        found = _circles(one, other)
    elif isinstance(one, Line) and isinstance(other, Arc):
        found = _line_circle(one, other)
    elif isinstance(one, Arc) and isinstance(other, Line):
        found = _line_circle(other, one)
    else:
        found = []
    if not found:
        # A short arc of a tight curve bends away before it reaches its neighbour; the allowance
        # goes straight on from there instead.
        found = _lines(_straight_on(one, at_end=True), _straight_on(other, at_end=False))
    if not found:
        raise GeometryError("two seam allowances do not meet at a corner; make them narrower")
    return min(found, key=lambda p: distance(p, near))


def _straight_on(segment: Segment, *, at_end: bool) -> Line:
    """Return a line that touches a segment at its end, or at its start."""
    if isinstance(segment, Line):
        return segment
    angle, at = (segment.finish, segment.end) if at_end else (segment.begin, segment.start)
    turn = math.copysign(math.pi / 2, segment.finish - segment.begin)
    step = Point(math.cos(angle + turn), math.sin(angle + turn))
    other = Point(at.x + step.x, at.y + step.y) if at_end else Point(at.x - step.x, at.y - step.y)
    return Line(start=at, end=other) if at_end else Line(start=other, end=at)


def _lines(one: Line, other: Line) -> list[Point]:
    (ax, ay), (bx, by), (cx, cy), (dx, dy) = one.start, one.end, other.start, other.end
    cross = (bx - ax) * (dy - cy) - (by - ay) * (dx - cx)
    size = distance(one.start, one.end) * distance(other.start, other.end)
    if abs(cross) < 1e-9 * size:
        # One straight line: they meet where the first ends if both have the same allowance.
        return [one.end] if distance(one.end, other.start) < MEETING else []
    t = ((cx - ax) * (dy - cy) - (cy - ay) * (dx - cx)) / cross
    return [Point(ax + t * (bx - ax), ay + t * (by - ay))]


def _line_circle(line: Line, arc: Arc) -> list[Point]:
    (ax, ay), (bx, by), (cx, cy) = line.start, line.end, arc.centre
    long = math.hypot(bx - ax, by - ay)
    ux, uy = (bx - ax) / long, (by - ay) / long
    foot = (cx - ax) * ux + (cy - ay) * uy
    off = (cx - ax) * uy - (cy - ay) * ux
    under = arc.radius**2 - off**2
    if under < 0:
        return []
    half = math.sqrt(under)
    return [Point(ax + ux * t, ay + uy * t) for t in (foot - half, foot + half)]


def _circles(one: Arc, other: Arc) -> list[Point]:
    apart = distance(one.centre, other.centre)
    if apart < MEETING:
        return [one.end] if abs(one.radius - other.radius) < MEETING else []
    along = (apart**2 + one.radius**2 - other.radius**2) / (2 * apart)
    under = one.radius**2 - along**2
    if under < 0:
        return []
    ux, uy = (other.centre.x - one.centre.x) / apart, (other.centre.y - one.centre.y) / apart
    half = math.sqrt(under)
    return [
        Point(one.centre.x + along * ux - k * uy, one.centre.y + along * uy + k * ux)
        for k in (half, -half)
    ]
