"""The pieces of a graded garment in their frames: nested, or beside each other where lines crowd.

Millimetres. Imports geometry and piece; shapely, which is loaded where sizes are laid together.
"""

from collections.abc import Sequence
from functools import lru_cache
from itertools import pairwise
from typing import TYPE_CHECKING

from drafting.geometry import MEETING, Line, Path, Point, distance, flattened
from drafting.piece import (
    Edge,
    EdgeKind,
    FoldWay,
    Piece,
    cutting_area,
    cutting_line,
    shifted,
)
from drafting.units import Mm

if TYPE_CHECKING:
    from shapely import Polygon


def frames(sizes: Sequence[tuple[Piece, ...]]) -> tuple[Piece, ...]:
    """Return a frame for each piece of a graded garment, in the order of the cut list.

    A frame bears the piece's name and the largest size's facts. Its outline, all of it raw, goes
    round the cutting lines of every size as they lie in the piece's own frame, so that whatever
    finds room for it on paper finds room for them all.
    """
    found: dict[str, list[Piece]] = {}
    for pieces in reversed(sizes):  # the largest size's order, then what smaller ones add
        for piece in pieces:
            found.setdefault(piece.name, []).append(piece)
    return tuple(framed(alike[::-1]) for alike in found.values())


NEAR: Mm = 1.2
"""Lines of two sizes nearer than this to each other are hard to tell apart."""

CROWDED: Mm = 40.0
"""So much of the lines of two neighbouring sizes may be that near."""

SCATTERED = 2.5
"""A nest takes at most so many times the room of its largest piece."""

SPREAD = 0.6e6
"""Pieces that take less than this together, in mm2, are laid apart where their nest is crowded."""

GAP: Mm = 8.0
"""Between two sizes that are laid apart."""


@lru_cache(maxsize=256)
def nestled(alike: tuple[Piece, ...]) -> tuple[Piece, ...]:
    """Return one piece in several sizes as they lie in their frame, the smallest first.

    Mostly that is as they are drafted, about one centre; or all begin at one corner, where their
    lines keep further apart so. Small pieces whose lines would run together either way, or that
    would have no ground in common, such as shaped bands, are laid beside each other.
    """
    if len({cutting_line(piece) for piece in alike}) == 1:
        return alike
    corners = [piece.edges[0].path[0].start for piece in alike]
    home = corners[-1]
    at_a_corner = tuple(
        shifted(piece, x=home.x - corner.x, y=home.y - corner.y)
        for piece, corner in zip(alike, corners, strict=True)
    )
    most = SCATTERED * _room_for(alike[-1:])
    ways = [way for way in (alike, at_a_corner) if _room_for(way) <= most] or [at_a_corner]
    large = sum(map(cutting_area, alike)) > SPREAD
    for way in ways:
        if _crowded(way) <= CROWDED and (large or common_ground(way)):
            return way
    if large:
        return min(ways, key=_crowded)
    return min((_apart(alike, *way) for way in ((1.0, 0.0), (0.0, 1.0))), key=_room_for)


def _shape(piece: Piece) -> "Polygon":
    from shapely import Polygon

    return Polygon([(p.x, p.y) for p in flattened(cutting_line(piece))]).buffer(0)


def _crowded(way: Sequence[Piece]) -> Mm:
    """Return the greatest length on which lines of neighbouring sizes run too near each other.

    Where they lie on each other they are one line, and crowd nothing.
    """
    rims = [_shape(piece).boundary for piece in way]
    found = []
    for one, other in pairwise(rims):
        near = one.intersection(other.buffer(NEAR)).difference(other.buffer(2 * HAIR))
        found.append(float(near.length))
    return max(found)


def _apart(alike: Sequence[Piece], x: float, y: float) -> tuple[Piece, ...]:
    """Return pieces each moved along a direction until it lies clear of those before it."""
    from shapely.affinity import translate

    laid: list[Piece] = []
    shapes: list[Polygon] = []
    along = 0.0
    for piece in alike:
        shape = _shape(piece)
        while any(
            translate(shape, along * x, along * y).distance(before) < GAP for before in shapes
        ):
            along += GAP / 4
        shapes.append(translate(shape, along * x, along * y))
        laid.append(shifted(piece, x=along * x, y=along * y))
    return tuple(laid)


def _room_for(way: Sequence[Piece]) -> float:
    """Return the area of the least outline without hollows that goes round some pieces."""
    from shapely import union_all

    return float(union_all([_shape(piece) for piece in way]).convex_hull.area)


def framed(drafted: Sequence[Piece]) -> Piece:
    """Return the frame of one piece in several sizes, the smallest first."""
    alike = nestled(tuple(drafted))
    first = alike[-1]
    outline = Edge(name="outline", path=_round(alike), allowance=0.0, kind=EdgeKind.RAW)
    return Piece(
        name=first.name,
        edges=(outline,),
        grainline=first.grainline,
        cloth=first.cloth,
        count=first.count,
        mirrored=first.mirrored,
        half=first.half,
        fold_way=first.fold_way if len({one.fold_way for one in alike}) == 1 else FoldWay.NONE,
        also=first.also,
        rectangle=first.rectangle,
        notes=tuple(note for note in first.notes if all(note in one.notes for one in alike)),
    )


HAIR: Mm = 0.01
"""So much wider than its pieces a frame is: far less than a line is."""


def _round(alike: Sequence[Piece]) -> Path:
    """Return the outline round the cutting lines of some pieces, counter-clockwise."""
    from shapely import Polygon, union_all
    from shapely.geometry.polygon import orient

    lines = [cutting_line(piece) for piece in alike]
    if all(line == lines[0] for line in lines):
        return lines[0]
    shapes = [
        Polygon([(point.x, point.y) for point in flattened(line, outside=True)]) for line in lines
    ]
    # Lines of two sizes that nearly lie on each other leave slivers; a hair's width closes them.
    whole = union_all([shape.buffer(HAIR) for shape in shapes])
    if whole.geom_type != "Polygon":
        # Pieces laid apart are held together by the paper between them.
        whole = whole.buffer(GAP).buffer(HAIR - GAP)
    if whole.geom_type != "Polygon":
        whole = whole.convex_hull
    ring = [Point(x, y) for x, y in orient(Polygon(whole.exterior)).exterior.coords]
    # A side shorter than the least that meets would have no length once it is moved.
    kept = [b for a, b in pairwise(ring) if distance(a, b) > MEETING]
    return tuple(Line(start=a, end=b) for a, b in zip((kept[-1], *kept), kept, strict=False))


LEAST_GROUND = 0.05
"""Share of the smallest piece that all must have in common to be told of in one place."""


def common_ground(alike: Sequence[Piece]) -> tuple[Point, ...]:
    """Return the polygon inside the cutting lines of all of some pieces, for words of them all.

    Empty where they have none in common.
    """
    from shapely import Polygon, intersection_all

    lines = [flattened(cutting_line(piece)) for piece in alike]
    if all(line == lines[0] for line in lines):
        return lines[0]
    shapes = [Polygon([(point.x, point.y) for point in line]).buffer(0) for line in lines]
    common = intersection_all(shapes)
    largest = max(getattr(common, "geoms", [common]), key=lambda part: float(part.area))
    if largest.geom_type != "Polygon" or largest.area < LEAST_GROUND * shapes[0].area:
        return ()
    return tuple(Point(x, y) for x, y in largest.exterior.coords[:-1])
