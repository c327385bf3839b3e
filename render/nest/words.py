"""The words of a nest, each once: on ground that the pieces of all its sizes have in common.

Millimetres and radians on the plane; words in the language spoken. Imports the words of pieces.
"""

import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import pairwise

from drafting.geometry import (
    Point,
    direction_along,
    distance,
    holds,
    moved_point,
    path_length,
    point_along,
    stepped,
    straight,
)
from drafting.language import say
from drafting.pattern import Pattern
from drafting.piece import EdgeKind, InnerKind, Piece
from drafting.piece_names import piece_words as name_words
from drafting.spec import Spec
from drafting.units import Mm
from render import fonts, style
from render.drawing import Text
from render.nest.facts import by_size
from render.piece_label import label
from render.piece_words import edge_words, notch_words
from render.placement import Placement
from render.spots import Ground, Spot, Spots, around, beside, first_free, upright
from render.words import fold_words, is_check, label_words

MOST_TOLD = 3
"""A fact that has more values than this over the sizes is told on the first page instead."""


def nest_words(
    placement: Placement,
    pieces: Mapping[str, Piece],
    common: Sequence[Point],
    pattern: Pattern,
    room: Spots,
) -> tuple[Text, ...]:
    """Return the words of one nest of a graded pattern, numbered as in its cut list.

    Args:
        pieces: those of the nest, by their sizes.
        common: the ground that they have in common, in their own frame.
    """
    core = tuple(moved_point(p, x=placement.x, y=placement.y, turn=placement.turn) for p in common)
    ground = Ground(room=room, polygon=core)
    laid = {size: replace(placement, piece=piece) for size, piece in pieces.items()}
    first = next(iter(laid.values()))
    texts: list[Text | None] = []
    for index in range(len(first.piece.notches)):
        on = _innermost(laid, core, _at_notch(index))
        texts += _sizes_at(laid, _at_notch(index), ground, edge=_along_edge(index))
        texts.append(notch_words(on, on.piece.notches[index], ground))
    for index, dot in enumerate(first.piece.dots):
        wide = fonts.width(dot.words, style.SMALL)
        on = _innermost(laid, core, _at_dot(index))
        here = on.on_plane(straight(on.piece.dots[index].at, on.piece.dots[index].at))[0].start
        texts += _sizes_at(laid, _at_dot(index), ground)
        texts.append(first_free((dot.words,), around(here, 6.0, wide), ground, size=style.SMALL))
    for index, line in enumerate(first.piece.inner_lines):
        if line.kind is InnerKind.RAY:
            continue
        lines = [one.piece.inner_lines[index] for one in laid.values() if _has(one, index)]
        words = line.words if len({one.words for one in lines}) == 1 else line.brief
        spots = (
            spot
            for one in reversed(lines)
            for spot in beside(placement.on_plane(one.path), (4.5, -4.5), 24)
        )
        texts.append(first_free((words,), spots, ground, size=style.ALONG))
    grain = beside(placement.on_plane(straight(*first.piece.grainline)), (4.2, -4.2, 6, -6), 8)
    texts.append(first_free((say("grain"),), grain, ground, size=style.ALONG))
    fold = fold_words(placement.piece)
    for index, edge in enumerate(first.piece.edges):
        if edge.words or edge.kind is EdgeKind.FOLD:
            on = _innermost(laid, core, _at_edge(index))
            texts.append(edge_words(on, on.piece.edges[index], fold, ground))
    facts = tuple(label_lines(pieces, pattern))
    block = label(placement, name_words(placement.piece.name), facts, ground)
    return (*(text for text in texts if text is not None), *block)


# --- where ---------------------------------------------------------------------------------


def _has(one: Placement, index: int) -> bool:
    return index < len(one.piece.inner_lines)


def _at_notch(index: int) -> Callable[[Piece], Point | None]:
    def at(piece: Piece) -> Point | None:
        if index >= len(piece.notches):
            return None
        notch = piece.notches[index]
        return _inside(piece, notch.edge, notch.at)

    return at


def _at_dot(index: int) -> Callable[[Piece], Point | None]:
    def at(piece: Piece) -> Point | None:
        return piece.dots[index].at if index < len(piece.dots) else None

    return at


def _at_edge(index: int) -> Callable[[Piece], Point | None]:
    def at(piece: Piece) -> Point | None:
        if index >= len(piece.edges):
            return None
        return _inside(piece, index, path_length(piece.edges[index].path) / 2)

    return at


APART: Mm = 2.0
"""Marks of two sizes that lie nearer than this to each other cannot be named one by one."""


def _along_edge(index: int) -> Callable[[Piece], float]:
    def along(piece: Piece) -> float:
        notch = piece.notches[index]
        return direction_along(piece.edges[notch.edge].path, notch.at)

    return along


def _sizes_at(
    laid: Mapping[str, Placement],
    at: Callable[[Piece], Point | None],
    ground: Ground,
    *,
    edge: Callable[[Piece], float] | None = None,
) -> Iterator[Text | None]:
    """Yield the names of sizes beside marks that each size has in a place of its own.

    Args:
        edge: the direction of the edge that a mark lies on; marks that do not lie in a row along
            it lie each on its own size's line, whose name stands in it.
    """
    points = {size: at(one.piece) for size, one in laid.items()}
    places = {
        size: moved_point(point, x=laid[size].x, y=laid[size].y, turn=laid[size].turn)
        for size, point in points.items()
        if point is not None
    }
    row = tuple(places.values())
    if any(distance(one, other) < APART for one, other in pairwise(row)):
        return
    # Marks of an edge lie in a row: names stand on either side of it, and along it.
    way = math.atan2(row[-1].y - row[0].y, row[-1].x - row[0].x) if len(row) > 1 else 0.0
    turns: tuple[float, ...] = (math.pi / 2, -math.pi / 2, 0.0, math.pi)
    if edge is not None:
        one = next(iter(laid.values()))
        along = edge(one.piece) + one.turn
        if abs(math.sin(along - way)) > 0.5:
            return
        # Names of notches stand inside the seam, so that those of dots on it have its other side.
        turns = (along + math.pi / 2 - way,)
    for size, place in places.items():
        spots = (
            Spot(at=stepped(place, way + turn, far), angle=upright(way))
            for far in (4.0, 5.0, 6.0, 7.0)
            for turn in turns
        )
        text = first_free((size,), spots, ground, size=style.NOTE)
        yield None if text is None else replace(text, sizes=(size,))


def _inside(piece: Piece, edge: int, walked: float) -> Point:
    """Return a point a little inside a stitching line."""
    path = piece.edges[edge].path
    walked = min(max(walked, 1.0), path_length(path) - 1.0)
    return stepped(
        point_along(path, walked), direction_along(path, walked) + math.pi / 2, style.ALONG
    )


def _innermost(
    laid: Mapping[str, Placement],
    core: tuple[Point, ...],
    at: Callable[[Piece], Point | None],
) -> Placement:
    """Return the size whose mark lies on the ground of all, the largest if none does."""
    found: Placement | None = None
    for placement in reversed(tuple(laid.values())):
        point = at(placement.piece)
        if point is None:
            continue
        found = found or placement
        here = moved_point(point, x=placement.x, y=placement.y, turn=placement.turn)
        if holds(core, here):
            return placement
    assert found is not None
    return found


# --- what ----------------------------------------------------------------------------------


def label_lines(pieces: Mapping[str, Piece], pattern: Pattern) -> Iterator[str]:
    """Yield the lines of a nest's label: those of all sizes as they are, others by size."""
    names = [piece.name for piece in pattern.pieces]
    specs = {one.spec.wearer.size: _told(one.spec, pattern) for one in pattern.sizes}
    lines = {
        size: label_words(piece, specs[size], number=names.index(piece.name) + 1, of=len(names))
        for size, piece in pieces.items()
    }
    longest = max(len(own) for own in lines.values())
    for k in range(longest):
        rows = {size: own[k] if k < len(own) else "" for size, own in lines.items()}
        # Lines to be checked with a tape, and such as differ in most sizes, stand on the ticket.
        if not any(map(is_check, rows.values())):
            yield from by_size(rows, most=MOST_TOLD)


def _told(spec: Spec, pattern: Pattern) -> Spec:
    """Return a size's spec with the names of all sizes, as a label tells whom it is for."""
    return replace(
        spec,
        publish=replace(spec.publish, sizes=pattern.spec.publish.sizes),
        wearer=replace(spec.wearer, size=""),
    )
