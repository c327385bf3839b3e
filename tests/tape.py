"""A tape measure of the tests' own: lengths, areas and boxes by many small steps.

Shares nothing with the code under test but the fields of lines and arcs. Millimetres.
"""

import itertools
import math
from collections.abc import Sequence

from drafting.geometry import Arc, Path, Segment

XY = tuple[float, float]


def dots(segment: Segment, steps: int = 1000) -> list[XY]:
    """Return points evenly along a segment, both ends among them."""
    if isinstance(segment, Arc):
        (cx, cy), r = segment.centre, segment.radius
        turn = segment.finish - segment.begin
        angles = [segment.begin + turn * k / steps for k in range(steps + 1)]
        return [(cx + r * math.cos(a), cy + r * math.sin(a)) for a in angles]
    (ax, ay), (bx, by) = segment.start, segment.end
    return [(ax + (bx - ax) * k / steps, ay + (by - ay) * k / steps) for k in range(steps + 1)]


def chain(path: Path, steps: int = 1000) -> list[XY]:
    """Return points along a whole path; a line has only its ends."""
    return [p for s in path for p in dots(s, steps if isinstance(s, Arc) else 1)]


def walked_length(path: Path, steps: int = 1000) -> float:
    """Return the length of a path, walked chord by chord."""
    points = chain(path, steps)
    return math.fsum(math.dist(a, b) for a, b in itertools.pairwise(points))


def walked_area(path: Path, steps: int = 4000) -> float:
    """Return the area inside a closed path, trapezium by trapezium (above 0 if it runs left)."""
    points = chain(path, steps)
    pairs = zip(points, points[1:] + points[:1], strict=True)
    return math.fsum((a[0] - b[0]) * (a[1] + b[1]) / 2 for a, b in pairs)


def extent(points: Sequence[XY]) -> tuple[float, float, float, float]:
    """Return left, bottom, right, top."""
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    return min(xs), min(ys), max(xs), max(ys)


def gap(point: XY, path: Path) -> float:
    """Return how far a point lies from the nearest point of a path."""
    return min(_gap(point, segment) for segment in path)


def _gap(point: XY, segment: Segment) -> float:
    ends = [segment.start, segment.end]
    nearest = min(math.dist(point, end) for end in ends)
    if isinstance(segment, Arc):
        (cx, cy), r = segment.centre, segment.radius
        low, high = sorted((segment.begin, segment.finish))
        angle = low + (math.atan2(point[1] - cy, point[0] - cx) - low) % (2 * math.pi)
        within = angle <= high
        return min(nearest, abs(math.dist(point, (cx, cy)) - r)) if within else nearest
    (ax, ay), (bx, by) = ends
    wide = (bx - ax) ** 2 + (by - ay) ** 2
    t = ((point[0] - ax) * (bx - ax) + (point[1] - ay) * (by - ay)) / wide
    if not 0 <= t <= 1:
        return nearest
    return math.dist(point, (ax + t * (bx - ax), ay + t * (by - ay)))


def winds_round(point: XY, polygon: Sequence[XY]) -> bool:
    """Tell whether a polygon goes round a point, by adding up the angles it is seen under."""
    turned = 0.0
    for (ax, ay), (bx, by) in zip(polygon, [*polygon[1:], polygon[0]], strict=True):
        ux, uy, vx, vy = ax - point[0], ay - point[1], bx - point[0], by - point[1]
        turned += math.atan2(ux * vy - uy * vx, ux * vx + uy * vy)
    return abs(turned) > math.pi
