"""Godets: sectors of cloth set into the lower part of seams, for more sweep.

Millimetres and radians. The point of a godet is the origin and its middle hangs straight
down from there. Imports geometry, piece, circle and errors.
"""

import math

from drafting.circle import ORIGIN
from drafting.errors import GeometryError
from drafting.geometry import Arc, Point, on_circle, straight
from drafting.language import say
from drafting.panel_marks import side_notches
from drafting.piece import Dot, Edge, EdgeKind, Notch, NotchKind, Piece
from drafting.units import Mm

LONGEST_POINT = 2.0
"""A point of cloth beyond the stitching that is longer, in seam allowances, is cut blunt."""

BLUNT: Mm = 0.01
"""How far below its point a blunt godet's stitching begins; a tenth of the truing tolerance."""

DOWN = -math.pi / 2


def sweep_added(depth: Mm, angle: float, count: int) -> Mm:
    """Return by how much ``count`` godets lengthen the hem.

    Source: a sector of radius ``depth`` has an arc of ``depth`` x ``angle``; a blunt one's hem
    lies a hair further from its point.
    """
    return (depth + _top(angle)) * angle * count


def _top(angle: float) -> Mm:
    """Return how far below its point a godet's stitching begins: nothing unless it is blunt."""
    return BLUNT if math.sin(angle / 2) * LONGEST_POINT < 1 - 1e-9 else 0.0


def godet_piece(
    depth: Mm,
    angle: float,
    *,
    count: int,
    seam_allowance: Mm,
    hem_allowance: Mm,
    seam: str,
    cloth: str = "skirt",
    notes: tuple[str, ...] = (),
) -> Piece:
    """Return the one pattern piece that all godets of a layer are cut from.

    The allowances of a narrow godet would run far up to a point. There the outline gets a
    fourth edge across the top, too short to be sewn, which holds the cutting line to one seam
    allowance above the point. The first and the third edges are the sides, either way.

    Args:
        depth: of the seam that it is set into, from its point to the hem.
        angle: between its sides.
        count: how many are cut: one for each seam.
        seam: number of the seam that sets it in.

    Raises:
        GeometryError: the godet has no depth, or is half a circle or more.
    """
    if not depth > 0:
        raise GeometryError(f"a godet needs a depth above 0, not {depth:g} mm")
    if not 0 < angle < math.pi:
        raise GeometryError(
            f"a godet {math.degrees(angle):g} degrees wide cannot be set into a seam; it needs"
            " more than 0 and less than 180"
        )
    # The sides stay as long as their seam; what the blunt top takes off, the hem gives back.
    top = _top(angle)
    first, last = DOWN - angle / 2, DOWN + angle / 2
    tops = [on_circle(ORIGIN, top, at) for at in (first, last)]
    rim = [on_circle(ORIGIN, top + depth, at) for at in (first, last)]

    def side(start: Point, end: Point) -> Edge:
        return Edge(
            name="side",
            path=straight(start, end),
            allowance=seam_allowance,
            words=say("godet seam"),
        )

    hem = Edge(
        name="hem",
        path=(Arc(centre=ORIGIN, radius=top + depth, begin=first, finish=last),),
        allowance=hem_allowance,
        kind=EdgeKind.HEM,
        words=say("hem"),
    )
    edges = [side(tops[0], rim[0]), hem, side(rim[1], tops[1])]
    if top:
        edges.append(Edge(name="top", path=straight(tops[1], tops[0]), allowance=seam_allowance))
    return Piece(
        name="godet",
        edges=tuple(edges),
        grainline=(
            on_circle(ORIGIN, 0.3 * depth, DOWN),
            on_circle(ORIGIN, 0.9 * depth, DOWN),
        ),
        cloth=cloth,
        count=count,
        notches=_notches(depth, seam),
        dots=(Dot(at=ORIGIN, words=say("top of the godet")),),
        notes=notes,
    )


def _notches(depth: Mm, seam: str) -> tuple[Notch, ...]:
    """Return balance notches equally far below the point on both sides."""
    return tuple(
        Notch(edge=edge, at=at, kind=NotchKind.BALANCE, strokes=order + 1, seam=seam)
        for order, below in enumerate(side_notches(depth))
        for edge, at in ((0, below), (2, depth - below))
    )
