"""The label of a piece: one block of words, as large as its free place allows.

Millimetres and radians on the plane. Imports geometry, piece, drawing, style, fonts and spots.
"""

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise, product

from drafting.geometry import (
    Arc,
    Box,
    Point,
    bounds,
    direction_along,
    distance,
    holds,
    path_length,
    point_along,
    reversed_path,
    stepped,
)
from drafting.piece import InnerKind, InnerLine, Piece, cutting_line
from drafting.units import Mm
from render import fonts, style
from render.drawing import Anchor, Text
from render.placement import Placement
from render.room import Room, turned_box
from render.spots import Ground, Spot, beside, first_free, upright
from render.words import is_check

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


def _open(spot: Point, ground: Ground) -> bool:
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


def label(
    placement: Placement, title: str, lines: Sequence[str], ground: Ground
) -> tuple[Text, ...]:
    """Return the label block, as large as its free place allows, level on the plane if it can."""
    box = bounds(placement.on_plane(cutting_line(placement.piece)))
    middle = _middle(ground.polygon)
    for small in (False, True):
        # The lines to check are measured on the panels; a small piece goes without.
        told = [line for line in lines if not (small and is_check(line))]
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
    free: Room, ground: Ground, box: Box, wide: Mm, high: Mm
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


def rays_of(piece: Piece) -> list[InnerLine]:
    return [line for line in piece.inner_lines if line.kind is InnerKind.RAY]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Gap:
    """Room between two rays: a point half way down each, and the way that they run."""

    one: Point
    other: Point
    angle: float


_ACROSS = (0.5, 0.56, 0.44, 0.62, 0.38)
_ALONG: tuple[Mm, ...] = (0, 5, -5, 10, -10, 15, 30, -30, 50, -50, 70, -70)
"""Where a label is tried in a gap: shares of its width, and how far from half way down."""


def label_between_rays(
    placement: Placement, title: str, lines: Sequence[str], ground: Ground
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
            *(line.path for line in rays_of(piece)),
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
    ground: Ground,
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
    placement: Placement, title: str, lines: Sequence[str], ground: Ground
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
        if words == title and not _room_for(words, size, beside(path, gaps, 16), ground):
            # A piece is never without its name: on a small one it is small, or stands in the
            # allowance, at worst beside it.
            nearer = (*(3.5 + 1.5 * k for k in range(24)), -longest.allowance / 2)
            if _room_for(words, style.NOTE, beside(path, nearer, 16), ground):
                size, gaps = style.NOTE, nearer
            else:
                gaps += tuple(-gap for gap in gaps)
        text = first_free((words,), beside(path, gaps, 16), ground, size=size, bold=bold)
        if text is not None:
            found.append(text)
    return tuple(found)


def _room_for(words: str, size: Mm, spots: Iterator[Spot], ground: Ground) -> bool:
    """Tell whether bold words can stand at one of some spots, on the piece and on no line."""
    wide = fonts.width(words, size, bold=True) + 2.0
    boxes = (turned_box(spot.at, wide, size + 0.6, spot.angle) for spot in spots)
    return any(ground.room.clear.is_free(box) and ground.holds(box) for box in boxes)


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
