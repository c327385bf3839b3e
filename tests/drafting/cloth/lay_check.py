"""A lay plan held against the cut list by the tests' own means: points, turned and shifted.

Shares with the code under test only the fields of pieces and of what is laid. Millimetres.
"""

import math
from collections import Counter
from itertools import pairwise

from shapely import STRtree
from shapely.geometry import Polygon

from drafting.cloth.lays import Laid, Lay
from drafting.geometry import Arc, Path
from drafting.pattern import Pattern
from drafting.piece import EdgeKind, Piece, cutting_line
from tests.tape import XY, chain, dots

LEAST = 1e-3
"""Points nearer than this are one."""


def placed(point: XY, laid: Laid) -> XY:
    """Where a point of a piece's own frame lies: flipped over x, turned, shifted."""
    x, y = point[0], -point[1] if laid.flipped else point[1]
    c, s = math.cos(laid.turn), math.sin(laid.turn)
    return laid.x + c * x - s * y, laid.y + s * x + c * y


def over(point: XY, start: XY, end: XY) -> XY:
    """A point mirrored over the line through two others."""
    (ax, ay), (bx, by) = start, end
    ux, uy = bx - ax, by - ay
    share = ((point[0] - ax) * ux + (point[1] - ay) * uy) / (ux * ux + uy * uy)
    foot = ax + share * ux, ay + share * uy
    return 2 * foot[0] - point[0], 2 * foot[1] - point[1]


def walked(path: Path) -> list[XY]:
    """Points along a path; chords are 0.001 mm off its arcs, and 0.01 mm off half circles."""
    found: list[XY] = []
    for segment in path:
        steps = 1
        if isinstance(segment, Arc):
            # A chord over an angle a lies r * a * a / 8 off its arc.
            turn = abs(segment.finish - segment.begin)
            steps = min(math.ceil(turn * math.sqrt(segment.radius / (8 * 0.001))), 400) or 1
        found += dots(segment, steps)
    return found


def solid(piece: Piece, laid: Laid) -> Polygon:
    """The whole of what is cut for a piece, where it lies; a half is joined to its image."""
    own = walked(laid.shape.outline if laid.shape.bias else cutting_line(piece))
    kept = [p for p, q in pairwise([*own, own[0]]) if math.dist(p, q) > LEAST]
    half = Polygon([placed(p, laid) for p in kept])
    if not piece.half:
        return half
    fold = next(edge for edge in piece.edges if edge.kind is EdgeKind.FOLD)
    ends = [placed(p, laid) for p in (fold.path[0].start, fold.path[-1].end)]
    image = Polygon([over(p, ends[0], ends[1]) for p in half.exterior.coords])
    return half.buffer(LEAST).union(image.buffer(LEAST)).buffer(-LEAST)


def wanted(pattern: Pattern, cloth: str) -> Counter[str]:
    """How often the cut list cuts each piece from a cloth; bias strips are counted apart."""
    found: Counter[str] = Counter()
    for piece in pattern.pieces:
        if piece.cloth == cloth:
            found[piece.name] += piece.count
        for other, count in piece.also:
            if other == cloth:
                found[piece.name] += count
    return found


def wrong(pattern: Pattern, lay: Lay) -> list[str]:
    """What does not hold of a plan."""
    found: list[str] = []
    pieces = {piece.name: piece for piece in pattern.pieces}
    solids = [solid(pieces[one.shape.name], one) for one in lay.laid]
    tree = STRtree(solids)
    for k, one in enumerate(solids):
        for m in tree.query(one):
            if m > k and one.intersection(solids[m]).area > 0.01:
                found.append(f"{lay.laid[k].shape.name} lies on {lay.laid[m].shape.name}")
        left, low, right, high = one.bounds
        if min(left, low) < -0.02 or right > lay.length + 0.02 or high > lay.usable + 0.02:
            found.append(f"{lay.laid[k].shape.name} lies beyond the cloth: {one.bounds}")
    loose = lay.name == "interfacing" and not lay.cloth.kind
    downs: dict[str, set[bool]] = {}
    for one in lay.laid:
        piece = pieces[one.shape.name]
        (ax, ay), (bx, by) = (placed(p, one) for p in piece.grainline)
        if one.shape.bias:
            continue
        if not loose and abs(by - ay) > 1e-6 * math.dist((ax, ay), (bx, by)):
            found.append(f"{piece.name} is off the grain")
        downs.setdefault(piece.name, set()).add(bx > ax)
    if lay.cloth.one_way:
        found += [f"{name} lies both ways" for name, ways in downs.items() if len(ways) > 1]
        found += [f"{one} lies head to tail" for one in _upside_down(pieces, lay)]
    laid = Counter(one.shape.name for one in lay.laid if not one.shape.bias)
    asked = Counter(
        {
            name: count
            for name, count in wanted(pattern, lay.name).items()
            if not any(one.shape.bias for one in lay.laid if one.shape.name == name)
        }
    )
    if laid != asked:
        found.append(f"laid {laid}, and the cut list has {asked}")
    for name in laid:
        images = sum(one.flipped for one in lay.laid if one.shape.name == name)
        if pieces[name].mirrored and images != laid[name] // 2:
            found.append(f"{images} of {laid[name]} of {name} are mirrored")
    return found


def _upside_down(pieces: dict[str, Piece], lay: Lay) -> list[str]:
    """Pieces whose hem lies before their waist along a one-way cloth."""
    found = []
    for one in lay.laid:
        piece = pieces[one.shape.name]
        ends = [
            next((e for e in piece.edges if e.name in names), None)
            for names in (("waist", "inner", "gathered"), ("hem", "outer", "lower"))
        ]
        if one.shape.bias or ends[0] is None or ends[1] is None:
            continue
        middles = []
        for edge in ends:
            assert edge is not None
            points = [placed(p, one) for p in chain(edge.path, 200)]
            middles.append(points[len(points) // 2])
        across = math.dist(*middles)
        if middles[1][0] - middles[0][0] < -0.05 * across:
            found.append(piece.name)
    return found
