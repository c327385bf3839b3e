"""Simple pieces to lay out in tests, and flat geometry of the tests' own. Millimetres."""

import itertools
import math
from collections.abc import Iterator, Sequence

from shapely import LineString, Polygon, STRtree

from drafting.geometry import Arc, Line, Point
from drafting.piece import Edge, EdgeKind, Piece

XY = tuple[float, float]


def rectangle(width: float, height: float, *, name: str = "apron", allowance: float = 0) -> Piece:
    """Return an upright rectangle whose lower left corner is its origin."""
    corners = [Point(0, 0), Point(width, 0), Point(width, height), Point(0, height)]
    names = ("hem", "side", "waist", "side")
    return Piece(
        name=name,
        edges=tuple(
            Edge(name=edge, path=(Line(start=a, end=b),), allowance=allowance)
            for edge, a, b in zip(names, corners, corners[1:] + corners[:1], strict=True)
        ),
        grainline=(Point(width / 2, height * 0.2), Point(width / 2, height * 0.8)),
        cloth="skirt",
        count=1,
    )


def sector(inner: float, outer: float, degrees: float, *, name: str = "panel") -> Piece:
    """Return a sector of a ring without allowances, its circle's centre at the origin."""
    angle, centre = math.radians(degrees), Point(0, 0)
    c, s = math.cos(angle), math.sin(angle)
    ends = (Point(outer * c, outer * s), Point(inner * c, inner * s))
    arcs = (
        Arc(centre=centre, radius=outer, begin=0.0, finish=angle),
        Arc(centre=centre, radius=inner, begin=angle, finish=0.0),
    )
    first = Line(start=Point(inner, 0), end=Point(outer, 0))
    edges = (
        Edge(name="side", path=(first,), allowance=0),
        Edge(name="hem", path=(arcs[0],), allowance=0, kind=EdgeKind.HEM),
        Edge(name="side", path=(Line(start=ends[0], end=ends[1]),), allowance=0),
        Edge(name="waist", path=(arcs[1],), allowance=0),
    )
    middle = (inner + outer) / 2
    return Piece(
        name=name,
        edges=edges,
        grainline=(Point(middle - 20, 5), Point(middle + 20, 5)),
        cloth="skirt",
        count=1,
    )


def sector_rim(inner: float, outer: float, degrees: float, step: float = 2.0) -> list[XY]:
    """Return points round a sector's rim, not more than ``step`` apart."""
    angle = math.radians(degrees)
    rim: list[XY] = []
    for radius in (inner, outer):
        count = math.ceil(radius * angle / step)
        for k in range(count + 1):
            at = angle * k / count
            rim.append((radius * math.cos(at), radius * math.sin(at)))
    count = math.ceil((outer - inner) / step)
    for k in range(count + 1):
        radius = inner + (outer - inner) * k / count
        rim += [(radius, 0.0), (radius * math.cos(angle), radius * math.sin(angle))]
    return rim


def moved(points: Sequence[XY], x: float, y: float, turn: float) -> list[XY]:
    c, s = math.cos(turn), math.sin(turn)
    return [(px * c - py * s + x, px * s + py * c + y) for px, py in points]


def apart(one: Sequence[XY], other: Sequence[XY]) -> float:
    """Return how far two convex shapes lie apart along the axis that shows it best.

    Below 0 they overlap by that much (separating axis theorem).
    """
    best = -math.inf
    for shape in (one, other):
        for (ax, ay), (bx, by) in zip(shape, [*shape[1:], shape[0]], strict=True):
            long = math.hypot(bx - ax, by - ay)
            if not long:
                continue
            nx, ny = (by - ay) / long, (ax - bx) / long
            mine = [x * nx + y * ny for x, y in one]
            theirs = [x * nx + y * ny for x, y in other]
            best = max(best, min(theirs) - max(mine), min(mine) - max(theirs))
    return best


def overlapping(shapes: Sequence[Sequence[XY]], by: float) -> Iterator[tuple[int, int]]:
    """Yield the places of two convex shapes that overlap by as much as told, or more.

    Shapely finds those whose upright boxes meet, for no others can; the axes tell by how much.
    """
    near = STRtree([Polygon(shape) for shape in shapes])
    for k, shape in enumerate(shapes):
        for m in near.query(Polygon(shape)):
            if k < m and apart(shape, shapes[m]) <= -by:
                yield k, int(m)


class Lines:
    """Lines on a page, each a run of points, to be asked what they cross."""

    def __init__(self, walks: Sequence[Sequence[XY]]) -> None:
        self._steps = [step for walk in walks for step in itertools.pairwise(walk)]
        self._near = STRtree([LineString(step) for step in self._steps])

    def cross(self, shape: Sequence[XY]) -> bool:
        """Tell whether a line runs more than 0.05 mm into a convex shape."""
        near = self._near.query(Polygon(shape))
        return any(apart(shape, self._steps[k]) < -0.05 for k in near)
