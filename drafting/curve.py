"""Curves as runs of arcs that meet without a corner.

Millimetres and radians. A hem that follows a body, a tilted waist or a shaped side seam is
no arc of a circle; it is drawn as many short arcs, each pair meeting in one direction. So
everything that holds for arcs holds for curves too: lengths are exact, an allowance beside
them is exact, and every file format can draw them. Imports geometry.
"""

import math
from collections.abc import Callable

from drafting.geometry import Arc, Line, Path, Point, Segment, distance
from drafting.units import Mm

CURVE_ERROR: Mm = 0.004
"""How far the arcs may lie off the curve they stand for: well under the truing tolerance."""

FEWEST = 8
"""Pairs of arcs that every curve is cut into before its error is looked at."""

Place = Callable[[float], Point]
Heading = Callable[[float], float]


def biarc(start: Point, out: float, end: Point, into: float) -> Path:
    """Return two arcs from one point to another with the given directions at their ends.

    Source: the biarc whose two control lengths are equal. With chord v and unit tangents s
    and e, that length d solves v.v = 2 d v.(s + e) + 2 d d (1 - s.e).
    """
    sx, sy, ex, ey = math.cos(out), math.sin(out), math.cos(into), math.sin(into)
    vx, vy = end.x - start.x, end.y - start.y
    along = vx * (sx + ex) + vy * (sy + ey)
    turn = 1 - (sx * ex + sy * ey)
    square = vx * vx + vy * vy
    if turn < 1e-12:
        d = square / (2 * along)
    else:
        d = (math.sqrt(along * along + 2 * turn * square) - along) / (2 * turn)
    middle = Point((start.x + d * sx + end.x - d * ex) / 2, (start.y + d * sy + end.y - d * ey) / 2)
    first = _arc_from(start, sx, sy, middle)
    second = _arc_from(end, -ex, -ey, middle)
    return (first, _turned(second))


def _arc_from(start: Point, tx: float, ty: float, end: Point) -> Segment:
    """Return the arc, or the line, that leaves ``start`` in a direction and ends at ``end``."""
    dx, dy = end.x - start.x, end.y - start.y
    across = -ty * dx + tx * dy
    square = dx * dx + dy * dy
    if abs(across) < 1e-9 * square or abs(across) < 1e-12:
        return Line(start=start, end=end)
    reach = square / (2 * across)
    centre = Point(start.x - ty * reach, start.y + tx * reach)
    begin = math.atan2(start.y - centre.y, start.x - centre.x)
    finish = math.atan2(end.y - centre.y, end.x - centre.x)
    if reach > 0:
        while finish < begin:
            finish += math.tau
    else:
        while finish > begin:
            finish -= math.tau
    return Arc(centre=centre, radius=abs(reach), begin=begin, finish=finish)


def _turned(segment: Segment) -> Segment:
    if isinstance(segment, Line):
        return Line(start=segment.end, end=segment.start)
    return Arc(
        centre=segment.centre, radius=segment.radius, begin=segment.finish, finish=segment.begin
    )


def curve(place: Place, heading: Heading, begin: float, finish: float) -> Path:
    """Return arcs along a curve, from one value of its parameter to another.

    Args:
        place: the point of the curve at a value of its parameter.
        heading: its direction of travel there, as the parameter grows from ``begin``.
    """
    step = (finish - begin) / FEWEST
    path: list[Segment] = []
    for k in range(FEWEST):
        path += _fitted(place, heading, begin + step * k, begin + step * (k + 1), 12)
    return tuple(path)


def _fitted(place: Place, heading: Heading, a: float, b: float, deeper: int) -> Path:
    arcs = biarc(place(a), heading(a), place(b), heading(b))
    if deeper == 0 or all(
        _off(arcs, place(a + (b - a) * share)) <= CURVE_ERROR for share in (0.25, 0.5, 0.75)
    ):
        return arcs
    middle = (a + b) / 2
    return _fitted(place, heading, a, middle, deeper - 1) + _fitted(
        place, heading, middle, b, deeper - 1
    )


def _off(arcs: Path, point: Point) -> Mm:
    """Return how far a point lies off the nearer of the arcs' carriers."""
    return min(_carrier(segment, point) for segment in arcs)


def _carrier(segment: Segment, point: Point) -> Mm:
    if isinstance(segment, Arc):
        return abs(distance(segment.centre, point) - segment.radius)
    (ax, ay), (bx, by) = segment.start, segment.end
    long = math.hypot(bx - ax, by - ay)
    return abs((bx - ax) * (point.y - ay) - (by - ay) * (point.x - ax)) / long
