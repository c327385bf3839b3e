"""The words of a placed piece, each in a free place of its own: along edges, rays and marks.

Millimetres and radians on the plane; words in the language spoken. Imports geometry, piece,
drawing, style, fonts and spots.
"""

import math
from collections.abc import Sequence
from itertools import product

from drafting.geometry import (
    area,
    direction_along,
    flattened,
    holds,
    moved_point,
    path_length,
    point_along,
    stepped,
    straight,
)
from drafting.language import say
from drafting.pattern import Pattern
from drafting.piece import Edge, EdgeKind, InnerKind, InnerLine, Notch, Piece, cutting_line
from drafting.piece_names import piece_words as name_words
from drafting.units import Mm
from drafting.waist_part import is_shortened
from render import fonts, style
from render.drawing import Text
from render.piece_label import label, label_between_rays, rays_of
from render.placement import Placement
from render.spots import Ground, Spot, Spots, around, beside, first_free, upright
from render.words import fold_words, label_words

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
        title=name_words(piece.name),
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
    ground = Ground(room=room, polygon=polygon)
    texts: list[Text | None] = []
    # On a narrow piece what to cut matters most; on a wide one there is room for all.
    short = is_shortened(piece)
    narrow = 2 * abs(area(cutting_line(piece))) < NARROW * path_length(cutting_line(piece))
    block = label(placement, title, lines, ground) if narrow and not short else ()
    if short:
        # What to measure comes first; then the label takes the widest gap between two rays.
        texts += [_side_words(placement, edge, ground) for edge in _sides(piece)]
        texts += [_ray_words(placement, line, ground) for line in rays_of(piece)]
        before = room.kept()
        notched = [notch_words(placement, notch, ground) for notch in piece.notches]
        block = label_between_rays(placement, title, lines, ground)
        if not block:
            # So crowded a piece has its label first, and its notches fewer words.
            room.restore(before)
            block = label_between_rays(placement, title, lines, ground)
            block = block or label(placement, title, lines[:1], ground)
            notched = [notch_words(placement, notch, ground) for notch in piece.notches]
        texts += notched
    else:
        texts += [notch_words(placement, notch, ground) for notch in piece.notches]
    for dot in piece.dots:
        here = moved_point(dot.at, x=placement.x, y=placement.y, turn=placement.turn)
        wide = fonts.width(dot.words, style.SMALL)
        texts.append(first_free((dot.words,), around(here, 6.0, wide), ground, size=style.SMALL))
    for line in piece.inner_lines:
        if line.kind is InnerKind.RAY:
            continue
        spots = beside(placement.on_plane(line.path), (4.5, -4.5), 24)
        texts.append(first_free((line.words,), spots, ground, size=style.ALONG))
    grain = beside(placement.on_plane(straight(*piece.grainline)), (4.2, -4.2, 6.0, -6.0), 8)
    texts.append(first_free((say("grain"),), grain, ground, size=style.ALONG))
    told = _sides(piece) if short else ()
    for edge in piece.edges:
        if edge not in told:
            texts.append(edge_words(placement, edge, fold, ground))
    block = block or label(placement, title, lines, ground)
    return (*(text for text in texts if text is not None), *block)


def edge_words(
    placement: Placement, edge: Edge, fold: Sequence[str], ground: Ground
) -> Text | None:
    """Return what is written along an edge, beside its stitching line, if there is room."""
    path = placement.on_plane(edge.path)
    if edge.kind is EdgeKind.FOLD:
        spots = beside(path, (16.5, 22.0, 28.0, 4.0), 12)
        return first_free(fold, spots, ground, size=style.ALONG)
    if not edge.words:
        return None
    gaps = (style.ALONG * 1.2, style.ALONG * 2.4, style.ALONG * 4, style.ALONG * 6)
    return first_free((edge.words,), beside(path, gaps, 24), ground, size=style.ALONG, bold=True)


def _sides(piece: Piece) -> tuple[Edge, ...]:
    """Return the edges beside the waist of a waist part that the tape is laid along.

    Not a fold: a ray lies on it.
    """
    return tuple(edge for edge in piece.edges[::2] if edge.kind is not EdgeKind.FOLD)


SIDE_STEP: Mm = 3.0
"""The words of a side are tried along it by such steps."""


def _side_words(placement: Placement, edge: Edge, ground: Ground) -> Text | None:
    """Return the name and the length of a waist part's side, along it.

    On either side of its stitching line; where nothing is free there, on the paper that the
    cutting line leaves, near enough for no other piece's line to come between.
    """
    path = placement.on_plane(edge.path)
    size, allowed = style.ALONG, edge.allowance
    gaps = [size * 1.2, -allowed / 2, *(size * 1.2 + more for more in (2.0, 4.0, 8.0, 12.0, 17.0))]
    gaps += [-allowed - off for off in (4.0, 5.0, 6.0)]
    spots = beside(path, gaps, max(int(path_length(path) / SIDE_STEP), 24))
    wordings = (edge.words, edge.shorter or edge.words)
    return first_free(wordings, spots, ground, size=size, bold=True)


def notch_words(placement: Placement, notch: Notch, ground: Ground) -> Text | None:
    """Return what is written at a notch, inside its stitching line, if there is room."""
    seam = say("seam {number}", number=notch.seam) if notch.seam else ""
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
            spots.append(Spot(at=at, angle=upright(turn)))
    if is_shortened(placement.piece):
        # A ray begins at the notch: its words stand on one side of it, the notch's on the other.
        for inward, along in product((6.0, 14.0, 24.0), (4.5, -4.5, 21.0, -21.0)):
            at = stepped(stepped(here, turn + math.pi / 2, inward + half), turn, along)
            spots.append(Spot(at=at, angle=upright(turn + math.pi / 2)))
    return first_free((words, seam) if seam else (words,), spots, ground, size=style.SMALL)


def _ray_words(placement: Placement, line: InnerLine, ground: Ground) -> Text | None:
    """Return how long a ray is, beside it: on one side of all rays, or else on the other.

    A ray along a fold has the piece on one side only.
    """
    path = placement.on_plane(line.path)
    middle, way = point_along(path, path_length(path) / 2), direction_along(path, 0.0)
    on_piece = [
        gap for gap in (4.5, -4.5) if holds(ground.polygon, stepped(middle, way + math.pi / 2, gap))
    ]
    options = (line.words, *line.shorter)
    for gap in on_piece:
        text = first_free(options, beside(path, (gap,), 32), ground, size=style.ALONG)
        if text is not None:
            return text
    return None
