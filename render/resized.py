"""A piece drawn smaller or larger, all of it alike: to lay it or to set its words on a scale.

Millimetres. Imports geometry and piece.
"""

from dataclasses import replace

from drafting.geometry import Point, scaled
from drafting.piece import Piece


def resized(piece: Piece, by: float) -> Piece:
    """Return a piece with every length of it multiplied by ``by``, allowances too."""

    def at(point: Point) -> Point:
        return Point(point.x * by, point.y * by)

    one, other = piece.grainline
    return replace(
        piece,
        edges=tuple(
            replace(edge, path=scaled(edge.path, by), allowance=edge.allowance * by)
            for edge in piece.edges
        ),
        grainline=(at(one), at(other)),
        notches=tuple(replace(notch, at=notch.at * by) for notch in piece.notches),
        inner_lines=tuple(
            replace(line, path=scaled(line.path, by), ticks=tuple(tick * by for tick in line.ticks))
            for line in piece.inner_lines
        ),
        dots=tuple(replace(dot, at=at(dot.at)) for dot in piece.dots),
    )
