"""Facings cut to the edge they face: a strip of the panel's own shape along its waist or hem.

Millimetres. Imports allowance, geometry and piece.
"""

import math
from dataclasses import replace

from drafting.allowance import beside
from drafting.errors import GeometryError
from drafting.geometry import (
    Point,
    direction_along,
    path_length,
    point_along,
    reversed_path,
    stepped,
    straight,
)
from drafting.language import say
from drafting.piece import Edge, EdgeKind, Piece, grain_angle
from drafting.units import Mm

ASIDE = 0.2
"""Where along a facing its grain is drawn."""


def edging(piece: Piece, at: str, depth: Mm, *, allowance: Mm, name: str, words: str) -> Piece:
    """Return a facing of one edge of a panel: as deep everywhere, with the panel's own notches.

    Args:
        at: name of the edge that is faced; ``allowance`` is the facing's there.
        words: what is written along that edge.

    Raises:
        GeometryError: the edge curves too tightly for so deep a facing.
    """
    index = next(k for k, edge in enumerate(piece.edges) if edge.name == at)
    faced, after = piece.edges[index], piece.edges[(index + 1) % len(piece.edges)]
    before = piece.edges[index - 1]
    inner = reversed_path(beside(faced.path, -depth))
    _check_ends(piece, index)
    edges = (
        replace(faced, kind=EdgeKind.SEAM, allowance=allowance, words=words, goes_on=False),
        _end(after, faced.path[-1].end, inner[0].start),
        Edge(
            name="outer",
            path=inner,
            allowance=0.0,
            kind=EdgeKind.RAW,
            words=say("neatened edge"),
        ),
        _end(before, inner[-1].end, faced.path[0].start),
    )
    return replace(
        piece,
        name=name,
        edges=edges,
        grainline=_grain(piece, edges[0], depth),
        notches=tuple(replace(n, edge=0) for n in piece.notches if n.edge == index),
        inner_lines=(),
        dots=(),
        notes=(),
    )


SLANT = math.radians(25)
"""How far a panel's side may lean from the square of its edge for a facing to follow both."""


def _check_ends(piece: Piece, index: int) -> None:
    """Make sure that the panel's sides leave the faced edge nearly squarely.

    Raises:
        GeometryError: one does not, and a facing as deep everywhere would not meet its seam.
    """
    faced = piece.edges[index].path
    after, before = piece.edges[(index + 1) % len(piece.edges)].path, piece.edges[index - 1].path
    leave = direction_along(after, 0.0) - direction_along(faced, path_length(faced))
    arrive = direction_along(faced, 0.0) - direction_along(before, path_length(before))
    for turn in (leave, arrive):
        if abs(math.remainder(turn - math.pi / 2, math.tau)) > SLANT:
            raise GeometryError(
                "the sides of a panel slant too much to be faced along this edge; choose a band"
                " or another hem"
            )


def _end(like: Edge, start: Point, end: Point) -> Edge:
    """Return a short end of the facing, of the kind of the panel's edge it lies along."""
    if like.kind is EdgeKind.FOLD:
        return replace(like, path=straight(start, end))
    return Edge(name="end", path=straight(start, end), allowance=like.allowance)


def _grain(piece: Piece, faced: Edge, depth: Mm) -> tuple[Point, Point]:
    """Return a grainline inside the facing that runs as the panel's does."""
    along = grain_angle(piece)
    # Near one end, so that the label has room beside it.
    aside = path_length(faced.path) * ASIDE
    inward = direction_along(faced.path, aside) + math.pi / 2
    centre = stepped(point_along(faced.path, aside), inward, depth / 2)
    half = 0.38 * depth
    return stepped(centre, along, -half), stepped(centre, along, half)
