"""Drawing a placed piece: its lines first, then its words where there is room for them.

Draws any piece alike, whatever garment it belongs to. Millimetres and radians on the plane.
Imports geometry, piece, pattern, drawing, style, fonts, room and words.
"""

import math
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum
from itertools import pairwise, product

from drafting.geometry import (
    Arc,
    Box,
    Line,
    Path,
    Point,
    area,
    bounds,
    direction_along,
    distance,
    flattened,
    holds,
    moved_point,
    path_length,
    point_along,
    reversed_path,
    stepped,
    straight,
)
from drafting.pattern import Pattern
from drafting.piece import (
    Edge,
    EdgeKind,
    InnerKind,
    InnerLine,
    Notch,
    NotchKind,
    Piece,
    cutting_line,
)
from drafting.units import Mm
from drafting.waist_part import is_shortened
from render import fonts, style
from render.drawing import Anchor, Layer, Stroke, Text
from render.placement import Placement
from render.room import Room, spread, turned_box
from render.words import CHECK, fold_words, label_words


@dataclass(frozen=True, slots=True, kw_only=True)
class Spots:
    """Where words may go: ``clear`` of all lines, and best also ``uncut`` by page joins."""

    clear: Room
    uncut: Room

    def claim(self, corners: Sequence[Point]) -> None:
        """Take a shape's room in both."""
        self.clear.claim(corners)
        self.uncut.claim(corners)

    def kept(self) -> tuple[list[int], list[int]]:
        """Return what is taken in both so far."""
        return list(self.clear.rows), list(self.uncut.rows)

    def restore(self, kept: tuple[list[int], list[int]]) -> None:
        """Give back all that was taken since."""
        self.clear.rows[:], self.uncut.rows[:] = kept

    def kinds(self) -> tuple[Room, ...]:
        """Return both, the one to wish for first; one alone where no joins are."""
        return (self.clear,) if self.uncut is self.clear else (self.uncut, self.clear)


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


@dataclass(frozen=True, slots=True, kw_only=True)
class _Ground:
    """A piece's own ground on the plane: the room round it and its cutting line as a polygon."""

    room: Spots
    polygon: tuple[Point, ...]

    def holds(self, corners: Sequence[Point]) -> bool:
        """Tell whether a rectangle free of lines lies on the piece, not on the paper beside it."""
        return all(holds(self.polygon, corner) for corner in corners)


def _set(
    options: Sequence[str],
    spots: Iterable[_Spot],
    ground: _Ground,
    *,
    size: Mm,
    bold: bool = False,
) -> Text | None:
    """Return the first wording for which there is a free spot, set there; its room is claimed.

    Best on the piece and uncut by page joins, then on the piece, then on the paper beside it.
    None where there is no free spot at all: words are never printed over lines.
    """
    tried = tuple(spots)
    room = ground.room
    wordings = [
        (words, [turned_box(spot.at, wide, size + 0.6, spot.angle) for spot in tried])
        for words in options
        for wide in (fonts.width(words, size, bold=bold) + 2.0,)
    ]
    for free, inside in ((room.uncut, True), (room.clear, True), (room.clear, False)):
        for words, boxes in wordings:
            for spot, box in zip(tried, boxes, strict=True):
                if free.is_free(box) and (not inside or ground.holds(box)):
                    room.claim(box)
                    return _line_of(words, spot, size, bold=bold)
    return None


def _line_of(words: str, spot: _Spot, size: Mm, *, bold: bool) -> Text:
    return Text(
        text=words,
        at=stepped(spot.at, spot.angle - math.pi / 2, style.CAP_HEIGHT * size / 2),
        size=size,
        angle=spot.angle,
        anchor=Anchor.MIDDLE,
        bold=bold,
    )


def text_box(text: Text) -> tuple[Point, ...]:
    """Return the corners of the room that words of a piece take."""
    middle = stepped(text.at, text.angle + math.pi / 2, style.CAP_HEIGHT * text.size / 2)
    wide = fonts.width(text.text, text.size, bold=text.bold) + 2.0
    return turned_box(middle, wide, text.size + 0.6, text.angle)


NARROW: Mm = 70.0
"""A piece whose area over half its rim is less has hardly room for its label."""


def label_and_words(
    placement: Placement, pattern: Pattern, room: Spots, *, named: Piece | None = None
) -> tuple[Text, ...]:
    """Return the words of one of a pattern's pieces, numbered as in its cut list.

    Args:
        named: the piece that the words tell of, if it is drawn at another size.
    """
    piece, names = named or placement.piece, [piece.name for piece in pattern.pieces]
    return piece_words(
        placement,
        title=piece.name,
        lines=label_words(piece, pattern.spec, number=names.index(piece.name) + 1, of=len(names)),
        fold=fold_words(piece),
        room=room,
    )


def piece_words(
    placement: Placement,
    *,
    title: str,
    lines: Sequence[str],
    fold: Sequence[str],
    room: Spots,
) -> tuple[Text, ...]:
    """Return the words of a piece on the plane, each in a free place of its own.

    Args:
        title: the piece's name, set large.
        lines: the facts under it.
        fold: what is written along a fold, the longest wording first.
    """
    piece = placement.piece
    polygon = flattened(placement.on_plane(cutting_line(piece)))
    ground = _Ground(room=room, polygon=polygon)
    texts: list[Text | None] = []
    # On a narrow piece what to cut matters most; on a wide one there is room for all.
    short = is_shortened(piece)
    narrow = 2 * abs(area(cutting_line(piece))) < NARROW * path_length(cutting_line(piece))
    block = _label(placement, title, lines, ground) if narrow and not short else ()
    if short:
        # What to measure comes first; then the label takes the widest gap between two rays.
        texts += [_side_words(placement, edge, ground) for edge in _sides(piece)]
        texts += [_ray_words(placement, line, ground) for line in _rays_of(piece)]
        before = room.kept()
        notched = [_notch_words(placement, notch, ground) for notch in piece.notches]
        block = _label_between_rays(placement, title, lines, ground)
        if not block:
            # So crowded a piece has its label first, and its notches fewer words.
            room.restore(before)
            block = _label_between_rays(placement, title, lines, ground)
            block = block or _label(placement, title, lines[:1], ground)
            notched = [_notch_words(placement, notch, ground) for notch in piece.notches]
        texts += notched
    else:
        texts += [_notch_words(placement, notch, ground) for notch in piece.notches]
    for dot in piece.dots:
        here = moved_point(dot.at, x=placement.x, y=placement.y, turn=placement.turn)
        wide = fonts.width(dot.words, style.SMALL)
        texts.append(_set((dot.words,), _round(here, 6.0, wide), ground, size=style.SMALL))
    for line in piece.inner_lines:
        if line.kind is InnerKind.RAY:
            continue
        spots = _beside(placement.on_plane(line.path), (4.5, -4.5), 24)
        texts.append(_set((line.words,), spots, ground, size=style.ALONG))
    grain = _beside(placement.on_plane(straight(*piece.grainline)), (4.2, -4.2, 6.0, -6.0), 8)
    texts.append(_set(("grain",), grain, ground, size=style.ALONG))
    told = _sides(piece) if short else ()
    for edge in piece.edges:
        if edge not in told:
            texts.append(_edge_words(placement, edge, fold, ground))
    block = block or _label(placement, title, lines, ground)
    return (*(text for text in texts if text is not None), *block)


def _edge_words(
    placement: Placement, edge: Edge, fold: Sequence[str], ground: _Ground
) -> Text | None:
    path = placement.on_plane(edge.path)
    if edge.kind is EdgeKind.FOLD:
        spots = _beside(path, (16.5, 22.0, 28.0, 4.0), 12)
        return _set(fold, spots, ground, size=style.ALONG)
    if not edge.words:
        return None
    gaps = (style.ALONG * 1.2, style.ALONG * 2.4, style.ALONG * 4, style.ALONG * 6)
    return _set((edge.words,), _beside(path, gaps, 24), ground, size=style.ALONG, bold=True)


def _sides(piece: Piece) -> tuple[Edge, ...]:
    """Return the edges beside the waist of a waist part that the tape is laid along.

    Not a fold: a ray lies on it.
    """
    return tuple(edge for edge in piece.edges[::2] if edge.kind is not EdgeKind.FOLD)


SIDE_STEP: Mm = 3.0
"""The words of a side are tried along it by such steps."""


def _side_words(placement: Placement, edge: Edge, ground: _Ground) -> Text | None:
    """Return the name and the length of a waist part's side, along it.

    On either side of its stitching line; where nothing is free there, on the paper that the
    cutting line leaves, near enough for no other piece's line to come between.
    """
    path = placement.on_plane(edge.path)
    size, allowed = style.ALONG, edge.allowance
    gaps = [size * 1.2, -allowed / 2, *(size * 1.2 + more for more in (2.0, 4.0, 8.0, 12.0, 17.0))]
    gaps += [-allowed - off for off in (4.0, 5.0, 6.0)]
    spots = _beside(path, gaps, max(int(path_length(path) / SIDE_STEP), 24))
    wordings = (edge.words, edge.words.partition(" to the ")[0])
    return _set(wordings, spots, ground, size=size, bold=True)


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
    for far in (near, 2 * near, 3 * near, 5 * near, 8 * near):
        for dx, dy in ((1, 0), (-1, 0), (0, 1), (0, -1), (1, 1), (-1, 1), (1, -1), (-1, -1)):
            sideways = dx * (far + wide / 2)
            yield _Spot(at=Point(point.x + sideways, point.y + dy * far), angle=0.0)


def _notch_words(placement: Placement, notch: Notch, ground: _Ground) -> Text | None:
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
    if is_shortened(placement.piece):
        # A ray begins at the notch: its words stand on one side of it, the notch's on the other.
        for inward, along in product((6.0, 14.0, 24.0), (4.5, -4.5, 21.0, -21.0)):
            at = stepped(stepped(here, turn + math.pi / 2, inward + half), turn, along)
            spots.append(_Spot(at=at, angle=upright(turn + math.pi / 2)))
    return _set((words, seam) if seam else (words,), spots, ground, size=style.SMALL)


LABELS = (
    ((1.0, 120.0), (0.8, 120.0), (0.62, 120.0)),
    ((0.62, 85.0), (0.5, 62.0), (0.5, 46.0), (0.5, 90.0)),
)
"""Sizes of a label, and to what width its lines are broken, the one to wish for first; then
those of a small piece.
"""

SQUARE = (0.0, math.pi / 2, math.pi / 4, -math.pi / 4)
TURNED = tuple(
    math.radians(angle) for angle in (0, 90, 45, -45, 15, -15, 30, -30, 60, -60, 75, -75)
)
"""Ways a label may lie, level first."""


def _open(spot: Point, ground: _Ground) -> bool:
    """Tell whether a label could have its middle there: on the piece, and on no line."""
    return ground.room.clear.is_free(turned_box(spot, 2.0, 2.0, 0.0)) and holds(
        ground.polygon, spot
    )


_Rows = list[tuple[str, Mm, bool]]


def _rows(title: str, lines: Sequence[str], shrink: float, broken: Mm) -> tuple[_Rows, Mm, Mm]:
    """Return the lines of a label block, each with its size and weight, its width and height."""
    size = max(style.FACT * shrink, style.NOTE)
    set_ = [row for line in lines for row in fonts.wrapped(line, size, broken)]
    rows = [(title, style.NAME * shrink, True), *((row, size, False) for row in set_)]
    wide = max(fonts.width(words, size, bold=bold) for words, size, bold in rows) + 6
    return rows, wide, math.fsum(size * style.LEADING for _, size, _ in rows) + 4


def _label(
    placement: Placement, title: str, lines: Sequence[str], ground: _Ground
) -> tuple[Text, ...]:
    """Return the label block, as large as its free place allows, level on the plane if it can."""
    box = bounds(placement.on_plane(cutting_line(placement.piece)))
    middle = _middle(ground.polygon)
    for small in (False, True):
        # The lines to check are measured on the panels; a small piece goes without.
        told = [line for line in lines if not (small and line.startswith(CHECK))]
        blocks = [_rows(title, told, *way) for way in LABELS[small]]
        spots = list(_lattice(box, 5.0 if small else 12.0))
        if small:
            # Most of a fine lattice lies beside so narrow a piece, or on its lines.
            least = min(min(wide, high) for _, wide, high in blocks)
            roomy = ground.room.clear.wide_enough(least / 2, box)
            spots = [spot for spot in spots if roomy(spot) and _open(spot, ground)]
        spots.sort(key=lambda p: (round(distance(p, middle), 3), p))
        for free, (rows, wide, high) in product(ground.room.kinds(), blocks):
            holds_one = _block_fits(free, ground, box, wide, high)
            for angle, spot in product(TURNED if small else SQUARE, spots):
                if holds_one(spot, angle):
                    ground.room.claim(turned_box(spot, wide, high, angle))
                    return _block(rows, spot, high, angle)
    return _label_along(placement, title, lines, ground)


def _block_fits(
    free: Room, ground: _Ground, box: Box, wide: Mm, high: Mm
) -> Callable[[Point, float], bool]:
    """Return a function that tells whether a rectangle, at a spot and an angle, is free.

    Its middle and some points of its long axis and its rim rule most spots out before it is
    looked at whole.

    Args:
        box: the piece's bounds.
    """
    short, rest = min(wide, high), abs(wide - high) / 2
    along = 0.0 if wide > high else math.pi / 2
    roomy, clear = free.wide_enough(short / 2, box), free.wide_enough(0.0, box)
    # Most spots are tried at many angles, and their middles stay where they are.
    middles: dict[Point, bool] = {}

    def fits(spot: Point, angle: float) -> bool:
        if spot not in middles:
            middles[spot] = roomy(spot) and holds(ground.polygon, spot)
        if not middles[spot] or not all(
            roomy(stepped(spot, angle + along, rest * share)) for share in (1, -1, 0.5, -0.5)
        ):
            return False
        corners = turned_box(spot, wide, high, angle)
        return (
            all(map(clear, _rim_points(corners)))
            and free.is_free(corners)
            and ground.holds(corners)
        )

    return fits


def _rim_points(corners: Sequence[Point]) -> Iterator[Point]:
    """Yield points on the rim of a rectangle, its corners first."""
    yield from corners
    for share in (0.5, 0.25, 0.75, 0.125, 0.375, 0.625, 0.875):
        for one, other in pairwise((*corners, corners[0])):
            yield Point(one.x + (other.x - one.x) * share, one.y + (other.y - one.y) * share)


def _rays_of(piece: Piece) -> list[InnerLine]:
    return [line for line in piece.inner_lines if line.kind is InnerKind.RAY]


def _ray_words(placement: Placement, line: InnerLine, ground: _Ground) -> Text | None:
    """Return how long a ray is, beside it: on one side of all rays, or else on the other.

    A ray along a fold has the piece on one side only.
    """
    path = placement.on_plane(line.path)
    middle, way = point_along(path, path_length(path) / 2), direction_along(path, 0.0)
    on_piece = [
        gap for gap in (4.5, -4.5) if holds(ground.polygon, stepped(middle, way + math.pi / 2, gap))
    ]
    length = line.words.partition(" from ")[0]
    options = (line.words, f"{length} to the {line.words.rpartition(' to the ')[2]}", length)
    for gap in on_piece:
        text = _set(options, _beside(path, (gap,), 32), ground, size=style.ALONG)
        if text is not None:
            return text
    return None


@dataclass(frozen=True, slots=True, kw_only=True)
class _Gap:
    """Room between two rays: a point half way down each, and the way that they run."""

    one: Point
    other: Point
    angle: float


_ACROSS = (0.5, 0.56, 0.44, 0.62, 0.38)
_ALONG: tuple[Mm, ...] = (0, 5, -5, 10, -10, 15, 30, -30, 50, -50, 70, -70)
"""Where a label is tried in a gap: shares of its width, and how far from half way down."""


def _label_between_rays(
    placement: Placement, title: str, lines: Sequence[str], ground: _Ground
) -> tuple[Text, ...]:
    """Return the label of a waist part in the gap between two rays, along them.

    The piece's name and how it is cut go on the paper that is cut out, with as many more lines
    as there is room for; nothing where there is no room for that much.
    """
    piece = placement.piece
    sides = [
        placement.on_plane(path)
        for path in (
            piece.edges[0].path,
            *(line.path for line in _rays_of(piece)),
            *(() if piece.half else (reversed_path(piece.edges[2].path),)),
        )
    ]
    gaps = []
    for near, far in pairwise(sides):
        one = point_along(near, path_length(near) / 2)
        other = point_along(far, path_length(far) / 2)
        way = direction_along(near, path_length(near) / 2)
        way += math.remainder(direction_along(far, path_length(far) / 2) - way, math.tau) / 2
        gaps.append(_Gap(one=one, other=other, angle=upright(way)))
    gaps.sort(key=lambda gap: -round(distance(gap.one, gap.other), 3))
    box = bounds(placement.on_plane(cutting_line(piece)))
    for free in ground.room.kinds():
        fewest = 1 if free is ground.room.clear else min(3, len(lines))
        for count in range(len(lines), fewest - 1, -1):
            block = _block_in_gaps(
                [
                    _rows(title, lines[:count], shrink, broken)
                    for shrink, broken in product((0.62, 0.5), (88.0, 78.0, 68.0, 58.0, 46.0))
                ],
                gaps,
                free,
                ground,
                box,
            )
            if block:
                return block
    return ()


def _block_in_gaps(
    blocks: Sequence[tuple[_Rows, Mm, Mm]],
    gaps: Sequence[_Gap],
    free: Room,
    ground: _Ground,
    box: Box,
) -> tuple[Text, ...]:
    """Return the first of several settings of a block that a gap has room for, or nothing."""
    spots = [(spot, gap.angle) for gap in gaps for spot in _spots_in(gap)]
    for rows, wide, high in blocks:
        # The block's own margin is kept in part: the rays beside it are thin.
        fits = _block_fits(free, ground, box, wide - 3, high - 2)
        for spot, angle in spots:
            if fits(spot, angle):
                ground.room.claim(turned_box(spot, wide - 3, high - 2, angle))
                return _block(rows, spot, high, angle)
    return ()


def _spots_in(gap: _Gap) -> Iterator[Point]:
    """Yield where a label is tried in a gap, its middle first."""
    for share, along in product(_ACROSS, _ALONG):
        at = Point(
            gap.one.x + (gap.other.x - gap.one.x) * share,
            gap.one.y + (gap.other.y - gap.one.y) * share,
        )
        yield stepped(at, gap.angle, along)


CURVED_WIDTH: Mm = 75.0
"""Straight words longer than this do not stay beside a waist's curve."""


def _label_along(
    placement: Placement, title: str, lines: Sequence[str], ground: _Ground
) -> tuple[Text, ...]:
    """Return the label of a piece too narrow for a block, along its longest edge.

    Along a straight edge all of it stands in one line; along a curve each line by itself.
    """
    longest = max(placement.piece.edges, key=lambda edge: edge.length)
    path = placement.on_plane(longest.path)
    level = len(path) == 1 and not isinstance(path[0], Arc)
    rows = [(title, style.FACT, True)]
    broken = [row for line in lines for row in fonts.wrapped(line, style.NOTE, CURVED_WIDTH)]
    rows += [(row, style.NOTE, False) for row in (["  ·  ".join(lines)] if level else broken)]
    found = []
    for words, size, bold in rows:
        gaps = tuple(6.0 + 4.0 * k for k in range(8))
        if words == title:
            # A piece is never without its name: at worst it stands beside it.
            gaps += tuple(-gap for gap in gaps)
        text = _set((words,), _beside(path, gaps, 16), ground, size=size, bold=bold)
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


def _lattice(box: Box, finest: Mm) -> Iterator[Point]:
    step = max(finest, min(box.width, box.height) / 24)
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
