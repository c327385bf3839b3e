"""Which parts of a path lie in a box, exactly, and how far along the path each part begins.

Millimetres and radians. Imports geometry.
"""

import math
from collections.abc import Iterator
from itertools import pairwise

from drafting.geometry import (
    MEETING,
    Arc,
    Box,
    Line,
    Path,
    Point,
    Segment,
    angles_within,
    bounds,
    distance,
    length,
    on_circle,
)
from drafting.units import Mm


def clipped(path: Path, box: Box, *, round_start: bool = False) -> tuple[tuple[Path, Mm], ...]:
    """Return the parts of a path inside a box, each with its distance from the path's start.

    Segments that follow each other stay one part, so corners stay joined and a dash pattern
    can be carried on by that distance.

    Args:
        round_start: a closed path's corner at its start is joined like every other; the dashes
            of a broken line begin anew there, so it is no part of theirs.
    """
    parts: list[tuple[list[Segment], Mm]] = []
    walked = 0.0
    reached = -1.0
    for segment in path:
        long = length(segment)
        for begin, end in _shares(segment, box):
            start = walked + begin * long
            piece = part_of(segment, begin, end)
            if parts and abs(start - reached) < 1e-9:
                parts[-1][0].append(piece)
            else:
                parts.append(([piece], start))
            reached = walked + end * long
        walked += long
    both_ends = len(parts) > 1 and parts[0][1] == 0 and abs(reached - walked) < 1e-9
    if round_start and both_ends and distance(path[-1].end, path[0].start) < MEETING:
        last, start = parts.pop()
        parts[0] = ([*last, *parts[0][0]], start)
    return tuple((tuple(segments), start) for segments, start in parts)


def meets(path: Path, box: Box) -> bool:
    """Tell whether any part of a path lies in a box."""
    return any(True for segment in path for _ in _shares(segment, box))


def _shares(segment: Segment, box: Box) -> Iterator[tuple[float, float]]:
    """Yield the runs of a segment inside a box, as shares of its length."""
    if isinstance(segment, Line):
        found = _line_share(segment, box)
        if found is not None:
            yield found
    else:
        yield from _arc_shares(segment, box)


def _line_share(line: Line, box: Box) -> tuple[float, float] | None:
    """Source: Liang and Barsky, a line against the four sides one after the other."""
    (ax, ay), (bx, by) = line.start, line.end
    begin, end = 0.0, 1.0
    for run, room in (
        (ax - bx, ax - box.left),
        (bx - ax, box.right - ax),
        (ay - by, ay - box.bottom),
        (by - ay, box.top - ay),
    ):
        if run == 0:
            if room < 0:
                return None
            continue
        share = room / run
        if run < 0:
            begin = max(begin, share)
        else:
            end = min(end, share)
    return (begin, end) if begin < end else None


def _arc_shares(arc: Arc, box: Box) -> Iterator[tuple[float, float]]:
    reach = bounds((arc,))
    if not reach.meets(box):
        return
    if box.holds(reach):
        yield 0.0, 1.0
        return
    sweep = arc.finish - arc.begin
    cuts = {0.0, 1.0}
    for angle in _side_crossings(arc, box):
        for within in angles_within(arc.begin, arc.finish, angle):
            cuts.add(min(max((within - arc.begin) / sweep, 0.0), 1.0))
    ordered = sorted(cuts)
    open_at: float | None = None
    for begin, end in pairwise(ordered):
        middle = on_circle(arc.centre, arc.radius, arc.begin + sweep * (begin + end) / 2)
        inside = box.left <= middle.x <= box.right and box.bottom <= middle.y <= box.top
        if inside and open_at is None:
            open_at = begin
        if not inside and open_at is not None:
            yield open_at, begin
            open_at = None
    if open_at is not None:
        yield open_at, 1.0


def _side_crossings(arc: Arc, box: Box) -> Iterator[float]:
    for x in (box.left, box.right):
        share = (x - arc.centre.x) / arc.radius
        if -1 <= share <= 1:
            yield math.acos(share)
            yield -math.acos(share)
    for y in (box.bottom, box.top):
        share = (y - arc.centre.y) / arc.radius
        if -1 <= share <= 1:
            yield math.asin(share)
            yield math.pi - math.asin(share)


def part_of(segment: Segment, begin: float, end: float) -> Segment:
    """Return the part of a segment between two shares of its length."""
    if begin == 0.0 and end == 1.0:
        return segment
    if isinstance(segment, Line):
        (ax, ay), (bx, by) = segment.start, segment.end
        return Line(
            start=Point(ax + (bx - ax) * begin, ay + (by - ay) * begin),
            end=Point(ax + (bx - ax) * end, ay + (by - ay) * end),
        )
    sweep = segment.finish - segment.begin
    return Arc(
        centre=segment.centre,
        radius=segment.radius,
        begin=segment.begin + sweep * begin,
        finish=segment.begin + sweep * end,
    )
