"""Drawing a placed piece: its lines first, then its words where there is room for them.

Draws any piece alike, whatever garment it belongs to. Millimetres and radians on the plane.
Imports geometry, piece, drawing, style, fonts and room.
"""

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from drafting.geometry import (
    Arc,
    Box,
    Line,
    Path,
    Point,
    bounds,
    direction_along,
    distance,
    flattened,
    holds,
    moved_point,
    path_length,
    point_along,
    stepped,
    straight,
)
from drafting.piece import Edge, EdgeKind, Notch, cutting_line
from drafting.units import Mm
from render import fonts, style
from render.drawing import Anchor, Layer, Stroke, Text
from render.placement import Placement
from render.room import Room, spread, turned_box


@dataclass(frozen=True, slots=True, kw_only=True)
class Spots:
    """Where words may go: ``clear`` of all lines, and best also ``uncut`` by page joins."""

    clear: Room
    uncut: Room

    def claim(self, corners: Sequence[Point]) -> None:
        """Take a shape's room in both."""
        self.clear.claim(corners)
        self.uncut.claim(corners)


def piece_lines(placement: Placement) -> tuple[Stroke, ...]:
    """Return every line of a piece on the plane: cutting, stitching, inner lines and marks."""
    piece = placement.piece
    strokes: list[Stroke] = [
        Stroke(path=cutting_line(piece), pen=style.CUTTING, layer=Layer.CUTTING)
    ]
    for edge in piece.edges:
        if edge.kind is EdgeKind.FOLD:
            strokes += _bracket(edge)
        elif edge.allowance > 0:
            strokes.append(Stroke(path=edge.path, pen=style.STITCHING, layer=Layer.STITCHING))
    for line in piece.inner_lines:
        strokes.append(Stroke(path=line.path, pen=style.INNER[line.kind], layer=Layer.STITCHING))
        strokes += [_across(line.path, at, 5.0) for at in line.ticks]
    strokes += _grain(piece.grainline)
    for notch in piece.notches:
        strokes += _notch(piece.edges[notch.edge], notch)
    for dot in piece.dots:
        circle = Arc(centre=dot.at, radius=style.DOT / 2, begin=0.0, finish=math.tau)
        strokes.append(Stroke(path=(circle,), pen=style.MARK, layer=Layer.MARKS))
    return tuple(
        Stroke(
            path=placement.on_plane(stroke.path),
            pen=stroke.pen,
            layer=stroke.layer,
            phase=stroke.phase,
        )
        for stroke in strokes
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


def _notch(edge: Edge, notch: Notch) -> list[Stroke]:
    """Return a notch's strokes: across the cutting line, into the allowance, short of the seam."""
    strokes = []
    for k in range(notch.strokes):
        at = notch.at + (k - (notch.strokes - 1) / 2) * style.NOTCH_SPACING
        at = min(max(at, 0.0), edge.length)
        here = point_along(edge.path, at)
        outward = direction_along(edge.path, at) - math.pi / 2
        strokes.append(
            Stroke(
                path=straight(
                    stepped(here, outward, edge.allowance + style.NOTCH_OUTSIDE),
                    stepped(here, outward, edge.allowance * (1 - style.NOTCH_DEPTH)),
                ),
                pen=style.NOTCH,
                layer=Layer.MARKS,
            )
        )
    return strokes


@dataclass(frozen=True, slots=True, kw_only=True)
class _Spot:
    """A place for a line of text: its middle and its angle."""

    at: Point
    angle: float


_STEEPEST = math.radians(80)
"""Text steeper than this reads upwards, so that all nearly upright words face one way."""


def upright(angle: float) -> float:
    """Return the angle, turned half round if text at it would stand on its head."""
    turned = math.remainder(angle, math.tau)
    if not -_STEEPEST < turned <= math.pi - _STEEPEST:
        turned = math.remainder(turned + math.pi, math.tau)
    return turned


def set_text(
    words: str,
    spots: Iterable[_Spot],
    room: Spots,
    *,
    size: Mm,
    bold: bool = False,
    layer: Layer = Layer.TEXT,
) -> Text | None:
    """Return the words at the first spot that is free and uncut, else free, else at the first.

    None when there is no spot at all. The room that is taken is claimed.
    """
    wide, high = fonts.width(words, size, bold=bold) + 2.0, size + 0.6
    tried = list(spots)
    if not tried:
        return None
    boxes = [turned_box(spot.at, wide, high, spot.angle) for spot in tried]
    best = next((k for k, box in enumerate(boxes) if room.uncut.is_free(box)), None)
    if best is None:
        best = next((k for k, box in enumerate(boxes) if room.clear.is_free(box)), 0)
    room.claim(boxes[best])
    spot = tried[best]
    return Text(
        text=words,
        at=stepped(spot.at, spot.angle - math.pi / 2, style.CAP_HEIGHT * size / 2),
        size=size,
        angle=spot.angle,
        anchor=Anchor.MIDDLE,
        bold=bold,
        layer=layer,
    )


def piece_words(
    placement: Placement,
    *,
    title: str,
    lines: Sequence[str],
    fold: str,
    room: Spots,
) -> tuple[Text, ...]:
    """Return the words of a piece on the plane, each in a free place of its own.

    Args:
        title: the piece's name, set large.
        lines: the facts under it.
        fold: what is written along a fold.
    """
    piece = placement.piece
    texts: list[Text | None] = []
    for edge in piece.edges:
        texts.append(_edge_words(placement, edge, fold, room))
    for line in piece.inner_lines:
        texts.append(
            set_text(
                line.words,
                _beside(placement.on_plane(line.path), (4.5, -4.5), 24),
                room,
                size=style.ALONG,
            )
        )
    grain = placement.on_plane(straight(*piece.grainline))
    texts.append(set_text("grain", _beside(grain, (3.4, -3.4), 6), room, size=style.ALONG))
    for notch in piece.notches:
        texts.append(_notch_words(placement, notch, room))
    for dot in piece.dots:
        here = moved_point(dot.at, x=placement.x, y=placement.y, turn=placement.turn)
        wide = fonts.width(dot.words, style.SMALL)
        texts.append(set_text(dot.words, _round(here, 6.0, wide), room, size=style.SMALL))
    block = _label(placement, title, lines, room)
    return (*(text for text in texts if text is not None), *block)


def _edge_words(placement: Placement, edge: Edge, fold: str, room: Spots) -> Text | None:
    path = placement.on_plane(edge.path)
    if edge.kind is EdgeKind.FOLD:
        return set_text(fold, _beside(path, (16.5, 22.0, 28.0), 12), room, size=style.ALONG)
    if not edge.words:
        return None
    gaps = (style.ALONG * 1.2, style.ALONG * 2.4, style.ALONG * 4, style.ALONG * 6)
    return set_text(edge.words, _beside(path, gaps, 24), room, size=style.ALONG, bold=True)


def _beside(path: Path, gaps: Sequence[Mm], count: int) -> Iterator[_Spot]:
    """Yield spots beside a path, to its left first for gaps above 0, from its middle outwards."""
    long = path_length(path)
    for gap in gaps:
        for share in spread(count):
            at = share * long
            turn = direction_along(path, at)
            yield _Spot(
                at=stepped(point_along(path, at), turn + math.pi / 2, gap), angle=upright(turn)
            )


def _round(point: Point, near: Mm, wide: Mm) -> Iterator[_Spot]:
    """Yield level spots round a point: beside it, then above and below, then further off."""
    for far in (near, 2 * near, 3 * near):
        for dx, dy in ((1, 0), (-1, 0), (0, 1), (0, -1), (1, 1), (-1, 1), (1, -1), (-1, -1)):
            sideways = dx * (far + wide / 2)
            yield _Spot(at=Point(point.x + sideways, point.y + dy * far), angle=0.0)


def _notch_words(placement: Placement, notch: Notch, room: Spots) -> Text | None:
    seam = f"seam {notch.seam}" if notch.seam else ""
    words = ", ".join(part for part in (seam, notch.words) if part)
    if not words:
        return None
    edge = placement.piece.edges[notch.edge]
    path = placement.on_plane(edge.path)
    turn = direction_along(path, notch.at)
    here = point_along(path, notch.at)
    half = fonts.width(words, style.SMALL) / 2
    spots = []
    for inward in (4.0, 8.0, 12.0, 18.0, 26.0):
        for along in (0.0, half + 3, -half - 3, half + 12, -half - 12):
            at = stepped(stepped(here, turn + math.pi / 2, inward), turn, along)
            spots.append(_Spot(at=at, angle=upright(turn)))
    return set_text(words, spots, room, size=style.SMALL)


def _label(placement: Placement, title: str, lines: Sequence[str], room: Spots) -> tuple[Text, ...]:
    """Return the label block, as large as its free place allows, level on the plane if it can."""
    outline = placement.on_plane(cutting_line(placement.piece))
    polygon = flattened(outline)
    box = bounds(outline)
    middle = _middle(polygon)
    spots = sorted(_lattice(box), key=lambda p: (round(distance(p, middle), 3), p))
    for shrink in (1.0, 0.8, 0.62):
        rows = [(title, style.NAME * shrink, True)]
        rows += [(line, max(style.FACT * shrink, style.NOTE), False) for line in lines if line]
        wide = max(fonts.width(words, size, bold=bold) for words, size, bold in rows) + 6
        high = sum(size * style.LEADING for _, size, _ in rows) + 4
        for angle in (0.0, math.pi / 2, math.pi / 4, -math.pi / 4):
            for free in (room.uncut, room.clear):
                for spot in spots:
                    corners = turned_box(spot, wide, high, angle)
                    # Free of lines, and its middle inside: then it lies inside as a whole.
                    if free.is_free(corners) and holds(polygon, spot):
                        room.claim(corners)
                        return _block(rows, spot, high, angle)
    return _small_label(placement, title, lines, room)


def _small_label(
    placement: Placement, title: str, lines: Sequence[str], room: Spots
) -> tuple[Text, ...]:
    """Return the label of a piece too narrow for a block: each line along an edge of it."""
    longest = max(placement.piece.edges, key=lambda edge: edge.length)
    path = placement.on_plane(longest.path)
    found = []
    for words, bold in ((title, True), *((line, False) for line in lines if line)):
        text = set_text(
            words,
            _beside(path, (6.0, 10.0, 14.0, 18.0, 22.0, 26.0, 30.0), 16),
            room,
            size=style.FACT if bold else style.NOTE,
            bold=bold,
        )
        if text is not None:
            found.append(text)
    return tuple(found)


def _middle(polygon: Sequence[Point]) -> Point:
    """Return the centre of gravity of a polygon (a tenth of its points are enough)."""
    doubled = sx = sy = 0.0
    ax, ay = polygon[-1]
    for bx, by in polygon:
        cross = ax * by - bx * ay
        doubled += cross
        sx += (ax + bx) * cross
        sy += (ay + by) * cross
        ax, ay = bx, by
    return Point(sx / (3 * doubled), sy / (3 * doubled))


def _lattice(box: Box) -> Iterator[Point]:
    step = max(12.0, min(box.width, box.height) / 24)
    for column in range(1, int(box.width / step) + 1):
        for row in range(1, int(box.height / step) + 1):
            yield Point(box.left + column * step, box.bottom + row * step)


def _block(
    rows: Sequence[tuple[str, Mm, bool]], centre: Point, high: Mm, angle: float
) -> tuple[Text, ...]:
    texts = []
    down = 2.0 - high / 2
    for words, size, bold in rows:
        down += size * style.LEADING
        middle = stepped(
            centre, angle - math.pi / 2, down - size * (style.LEADING - style.CAP_HEIGHT) / 2
        )
        texts.append(
            Text(text=words, at=middle, size=size, angle=angle, anchor=Anchor.MIDDLE, bold=bold)
        )
    return tuple(texts)
