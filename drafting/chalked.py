"""What of a piece can be chalked on the cloth with a tape measure alone, in numbers.

Millimetres and radians. A sector of a ring takes two arcs and an angle; a panel whose length
differs takes a length at every few degrees; a shaped gore takes its widths, for checking it
only. Imports piece, geometry and waist_part.
"""

import math
from dataclasses import dataclass
from functools import lru_cache

from drafting.geometry import Arc, Line, Point, distance, path_length
from drafting.language import say
from drafting.panel_marks import seams_at
from drafting.piece import Edge, EdgeKind, FoldWay, Piece
from drafting.places import either
from drafting.units import Mm
from drafting.waist_part import rays


@dataclass(frozen=True, slots=True, kw_only=True)
class Swung:
    """A piece between two arcs about one point, and two straight sides that run to it.

    Attributes:
        inner, outer: radii of the stitching lines; no inner arc is 0, and the sides meet.
        inner_cut, outer_cut: radii of the cutting lines.
        inner_raw, outer_raw: that edge is only neatened: it is cut, and never sewn.
        angle: of the piece as it is drawn, half of what is cut where ``half`` says so.
        side: allowance beside its straight sides.
    """

    centre: Point
    inner: Mm
    outer: Mm
    inner_cut: Mm
    outer_cut: Mm
    angle: float
    half: bool
    side: Mm
    inner_raw: bool = False
    outer_raw: bool = False

    @property
    def chord(self) -> Mm:
        """Straight across the outer stitching line, from one side to the other: 2 R sin(t/2)."""
        return 2 * self.outer * math.sin(self.angle / 2)


@dataclass(frozen=True, slots=True, kw_only=True)
class FlatCurve:
    """An arc too flat to swing, set off from a straight line between its ends.

    Attributes:
        radius: of its stitching line.
        arc: its length along the curve, of the whole piece though it be drawn as a half.
        across: straight from end to end.
        middle, quarter: how far the curve lies off that line in its middle, and half way
            between the middle and either end.
    """

    radius: Mm
    arc: Mm
    across: Mm
    middle: Mm
    quarter: Mm


def flat_curves(arcs: Swung) -> tuple[FlatCurve, ...]:
    """Return the stitching lines of a piece, inner and outer, as curves beside straight lines."""
    turn = arcs.angle * (2 if arcs.half else 1)
    return tuple(_flat_curve(radius, turn) for radius in (arcs.inner, arcs.outer) if radius)


def _flat_curve(radius: Mm, turn: float) -> FlatCurve:
    """Return an arc beside its chord.

    Source: plane geometry. The chord lies R cos(t/2) from the centre, and is 2 R sin(t/2) long;
    at a quarter of it, the arc is sqrt(R^2 - (chord/4)^2) from the centre.
    """
    near, across = radius * math.cos(turn / 2), 2 * radius * math.sin(turn / 2)
    return FlatCurve(
        radius=radius,
        arc=radius * turn,
        across=across,
        middle=radius - near,
        quarter=math.sqrt(radius**2 - (across / 4) ** 2) - near,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class LengthAt:
    """A place of a panel whose length differs: where, and how long it is there.

    Attributes:
        turn: angle from the first side, or None where the sides hang side by side.
        along: distance from the first side along the waist's stitching line.
        start, end: distances of waist and hem line from the centre of the sides; 0 and the
            length where there is none.
        length: from the waist line to the hem line.
    """

    turn: float | None
    along: Mm
    start: Mm
    end: Mm
    length: Mm


@lru_cache(maxsize=256)
def swung(piece: Piece) -> Swung | None:
    """Return a piece's arcs, or None for a piece that is no sector of a ring."""
    arcs = [edge for edge in piece.edges if isinstance(edge.path[0], Arc)]
    if piece.rectangle or not arcs or not all(len(edge.path) == 1 for edge in piece.edges):
        return None
    found = sorted(((edge, _arc(edge)) for edge in arcs), key=lambda pair: pair[1].radius)
    outer_edge, outer = found[-1]
    if len(found) > 2 or not all(_about(arc, outer) for _, arc in found):
        return None
    lines = [edge for edge in piece.edges if isinstance(edge.path[0], Line)]
    if len(found) == 1:
        # The sides meet in the centre. Where an allowance would run far beyond so sharp a point,
        # a third line too short to chalk ends it.
        lines = [edge for edge in lines if edge.length > A_POINT]
        if not all(_begins_at(edge, outer.centre) for edge in lines):
            return None
    if len(lines) != 2 or not all(_radial(edge, outer.centre) for edge in lines):
        return None
    # What is cut of an allowance on the inner arc comes off its radius.
    inner_edge, inner = found[0] if len(found) == 2 else (None, None)
    return Swung(
        centre=outer.centre,
        inner=inner.radius if inner else 0.0,
        outer=outer.radius,
        inner_cut=inner.radius - inner_edge.allowance if inner and inner_edge else 0.0,
        outer_cut=outer.radius + outer_edge.allowance,
        angle=abs(outer.finish - outer.begin),
        half=piece.half,
        side=max(edge.allowance for edge in lines),
        inner_raw=inner_edge is not None and inner_edge.kind is EdgeKind.RAW,
        outer_raw=outer_edge.kind is EdgeKind.RAW,
    )


A_POINT: Mm = 0.1
"""A shorter line is a point to chalk; seams are trued to as much."""


def _arc(edge: Edge) -> Arc:
    (arc,) = edge.path
    assert isinstance(arc, Arc)
    return arc


def _about(one: Arc, other: Arc) -> bool:
    return distance(one.centre, other.centre) < 1e-6


def _begins_at(edge: Edge, point: Point) -> bool:
    """Tell whether one end of a straight edge lies at a point."""
    return min(distance(p, point) for p in (edge.path[0].start, edge.path[-1].end)) < A_POINT


def _radial(edge: Edge, centre: Point) -> bool:
    """Tell whether a straight edge runs towards a point."""
    (ax, ay), (bx, by) = edge.path[0].start, edge.path[-1].end
    across = (ax - centre.x) * (by - centre.y) - (ay - centre.y) * (bx - centre.x)
    return abs(across) < 1e-3 * distance(Point(ax, ay), Point(bx, by))


@lru_cache(maxsize=256)
def measured(piece: Piece) -> tuple[LengthAt, ...]:
    """Return the lengths of a panel that no two arcs can draw, from its first side to its last.

    Empty for a sector, a rectangle, and for a piece that a tape cannot draw at all: one whose
    sides curve, and one that is no panel.
    """
    names = [edge.name for edge in piece.edges]
    if piece.rectangle or swung(piece) or len(names) != 4:
        return ()
    if (names[1], names[3]) != ("hem", "waist") or any(
        len(piece.edges[k].path) > 1 or isinstance(piece.edges[k].path[0], Arc) for k in (0, 2)
    ):
        return ()
    origin = Point(0.0, 0.0)
    spread = all(_radial(piece.edges[k], origin) for k in (0, 2))
    found = rays(piece)
    first = _bearing(found[0].path[0].start)
    return tuple(
        LengthAt(
            turn=(_bearing(ray.path[0].start) - first) % math.tau if spread else None,
            along=ray.at,
            start=math.hypot(*ray.path[0].start) if spread else 0.0,
            end=math.hypot(*ray.path[-1].end) if spread else ray.length,
            length=ray.length,
        )
        for ray in found
    )


def side_names(piece: Piece) -> tuple[str, str]:
    """Return what the first and the last side of a panel are called, in the trade's words."""
    first, last = (_side_name(piece, piece.edges[k]) for k in (0, 2))
    seams = {piece.edges[k].name for k in (0, 2)}
    # Panels are counted by way of the right side: that half comes first all round.
    if seams == {"centre_back"}:
        return first, say("centre back, the wearer's right half first")
    if seams == {"centre_front"}:
        return first, say("centre front, the wearer's left half first")
    return first, last


def short_side_names(piece: Piece) -> tuple[str, str]:
    """Return the same for little room: a side alone where one picture stands for a pair."""
    first, last = (
        say("side")
        if any(seam.endswith(" side") for seam in seams_at(piece.edges[k])[:-1])
        else _side_name(piece, piece.edges[k])
        for k in (0, 2)
    )
    return first, last


def _side_name(piece: Piece, edge: Edge) -> str:
    if edge.kind is EdgeKind.FOLD:
        return say("middle line") if piece.fold_way is FoldWay.NONE else say("fold")
    return either(seams_at(edge))


def _bearing(p: Point) -> float:
    return math.atan2(p.y, p.x)


def widths(piece: Piece) -> tuple[Mm, Mm, Mm] | None:
    """Return how wide a gore is at its waist and its hem, straight across, and how long.

    Of the whole gore, though it be drawn as a half; down its middle. None for other pieces.
    """
    names = [edge.name for edge in piece.edges]
    if len(names) != 4 or (names[1], names[3]) != ("hem", "waist"):
        return None
    hem, waist = piece.edges[1].path, piece.edges[3].path
    twice = 2.0 if piece.half else 1.0
    across = distance(waist[0].start, waist[-1].end) * twice
    below = distance(hem[0].start, hem[-1].end) * twice
    middle = [edge for edge in piece.edges if edge.kind is EdgeKind.FOLD]
    found = rays(piece)
    long = path_length(middle[0].path) if middle else found[len(found) // 2].length
    return across, below, long
