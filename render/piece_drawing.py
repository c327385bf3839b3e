"""The lines of a placed piece. Draws any piece alike, whatever garment it belongs to.

Millimetres and radians on the plane. Imports geometry, piece, drawing and style.
"""

import math
from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

from drafting.geometry import (
    Arc,
    Line,
    Path,
    Point,
    direction_along,
    distance,
    point_along,
    stepped,
    straight,
)
from drafting.piece import Edge, EdgeKind, Notch, NotchKind, Piece, cutting_line
from drafting.units import Mm
from render import style
from render.drawing import Layer, Stroke
from render.placement import Placement


class LineKind(StrEnum):
    """What a line of a piece tells the person who cuts or sews it."""

    CUTTING = "cutting line"
    STITCHING = "stitching line"
    FOLD = "fold"
    INNER = "inner line"
    GRAIN = "grain"
    NOTCH = "notch"
    MARK = "mark"


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceLine:
    """One line of a piece and what it tells."""

    kind: LineKind
    stroke: Stroke


def own_lines(piece: Piece) -> tuple[PieceLine, ...]:
    """Return every line of a piece in its own frame, the cutting line first."""
    cut = Stroke(path=cutting_line(piece), pen=style.CUTTING, layer=Layer.CUTTING)
    lines = _of(LineKind.CUTTING, [cut])
    for edge in piece.edges:
        if edge.kind is EdgeKind.FOLD:
            lines += _of(LineKind.FOLD, _bracket(edge))
        elif edge.allowance > 0:
            sewn = Stroke(path=edge.path, pen=style.STITCHING, layer=Layer.STITCHING)
            lines += _of(LineKind.STITCHING, [sewn])
    for line in piece.inner_lines:
        inner = Stroke(path=line.path, pen=style.INNER[line.kind], layer=Layer.STITCHING)
        lines += _of(LineKind.INNER, [inner])
        lines += _of(LineKind.MARK, [_across(line.path, at, 5.0) for at in line.ticks])
    lines += _of(LineKind.GRAIN, _grain(piece.grainline))
    for notch in piece.notches:
        lines += _of(LineKind.NOTCH, _notch(piece, notch))
    for dot in piece.dots:
        circle = Arc(centre=dot.at, radius=style.DOT / 2, begin=0.0, finish=math.tau)
        lines += _of(LineKind.MARK, [Stroke(path=(circle,), pen=style.MARK, layer=Layer.MARKS)])
    return tuple(lines)


def _of(kind: LineKind, strokes: Iterable[Stroke]) -> list[PieceLine]:
    return [PieceLine(kind=kind, stroke=stroke) for stroke in strokes]


def piece_lines(placement: Placement) -> tuple[Stroke, ...]:
    """Return every line of a piece on the plane: cutting, stitching, inner lines and marks."""
    return tuple(
        Stroke(
            path=placement.on_plane(line.stroke.path),
            pen=line.stroke.pen,
            layer=line.stroke.layer,
            phase=line.stroke.phase,
        )
        for line in own_lines(placement.piece)
    )


def _across(path: Path, at: Mm, reach: Mm) -> Stroke:
    """Return a short stroke square across a path."""
    here, turn = point_along(path, at), direction_along(path, at) + math.pi / 2
    return Stroke(
        path=straight(stepped(here, turn, -reach), stepped(here, turn, reach)),
        pen=style.MARK,
        layer=Layer.MARKS,
    )


def _head(tip: Point, angle: float, size: Mm) -> Path:
    """Return an open arrowhead whose tip points along ``angle``."""
    return (
        Line(start=stepped(tip, angle + math.radians(155), size), end=tip),
        Line(start=tip, end=stepped(tip, angle - math.radians(155), size)),
    )


def _grain(ends: tuple[Point, Point]) -> list[Stroke]:
    one, other = ends
    angle = math.atan2(other.y - one.y, other.x - one.x)
    head = min(style.GRAIN_HEAD, distance(one, other) / 4)
    return [
        Stroke(path=path, pen=style.GRAIN, layer=Layer.MARKS)
        for path in (
            straight(one, other),
            _head(other, angle, head),
            _head(one, angle + math.pi, head),
        )
    ]


def _bracket(edge: Edge) -> list[Stroke]:
    """Return a bracket inside a fold, its two arms pointing at it."""
    long = edge.length
    inward = direction_along(edge.path, 0.0) + math.pi / 2
    reach = min(12.0, 0.2 * long)
    arms = [point_along(edge.path, share * long) for share in (0.12, 0.88)]
    bases = [stepped(arm, inward, reach) for arm in arms]
    paths = [straight(*bases)]
    for base, arm in zip(bases, arms, strict=True):
        paths += [straight(base, arm), _head(arm, inward + math.pi, reach / 3)]
    return [Stroke(path=path, pen=style.GRAIN, layer=Layer.MARKS) for path in paths]


def _notch(piece: Piece, notch: Notch) -> list[Stroke]:
    """Return a notch's strokes: into the allowance from the cutting line, short of the seam."""
    edge = piece.edges[notch.edge]
    wedge = notch.kind is NotchKind.BALANCE
    paths: list[Path] = []
    for at in _stroke_places(piece, notch, style.WEDGE * 1.25 if wedge else style.NOTCH_SPACING):
        here, along = point_along(edge.path, at), direction_along(edge.path, at)
        outward = along - math.pi / 2
        tip = stepped(here, outward, edge.allowance * (1 - style.NOTCH_DEPTH))
        foot = stepped(here, outward, edge.allowance)
        if wedge:
            feet = [stepped(foot, along, side * style.WEDGE / 2) for side in (-1, 1)]
            paths.append((*straight(feet[0], tip), *straight(tip, feet[1])))
        else:
            paths.append(straight(stepped(foot, outward, style.NOTCH_OUTSIDE), tip))
    return [Stroke(path=path, pen=style.NOTCH, layer=Layer.MARKS) for path in paths]


def _stroke_places(piece: Piece, notch: Notch, spacing: Mm) -> list[Mm]:
    """Return where along its edge each stroke of a notch stands.

    On a fold only one side is drawn, so that the strokes unfold to their right number; at any
    other end of an edge the whole group moves inward.
    """
    long = piece.edges[notch.edge].length
    places = [notch.at + (k - (notch.strokes - 1) / 2) * spacing for k in range(notch.strokes)]
    before = piece.edges[notch.edge - 1].kind is EdgeKind.FOLD
    after = piece.edges[(notch.edge + 1) % len(piece.edges)].kind is EdgeKind.FOLD
    if before and notch.at < ON_THE_FOLD:
        return [at for at in places if at > -ON_THE_FOLD]
    if after and notch.at > long - ON_THE_FOLD:
        return [at for at in places if at < long + ON_THE_FOLD]
    inward = max(-places[0], 0.0) - max(places[-1] - long, 0.0)
    return [min(max(at + inward, 0.0), long) for at in places]


ON_THE_FOLD: Mm = 0.01
"""A notch this near the end of an edge stands on the fold that begins there."""
