"""Cloth: the width that panels and strips must fit, and the length that rows of boxes take.

Millimetres; x runs along the length of the cloth, y across it. Rows are what a
teacher draws by hand, and an upper bound for the lay plans of ``laying``.
Imports circle, geometry, piece and the spec's words.
"""

import math
from collections.abc import Sequence
from dataclasses import replace
from functools import lru_cache

from drafting.allowance import Widths
from drafting.errors import DraftingError
from drafting.geometry import Box, bounds, mirrored, moved
from drafting.outline import Cut
from drafting.panel_wishes import PanelWishes
from drafting.panels import layer_pieces
from drafting.piece import EdgeKind, FoldWay, Piece, cutting_line, grain_angle
from drafting.spec import Closure, Cloth, Grain
from drafting.units import Mm

MOST_PANELS = 24
"""More panels than this in one layer is another skirt: a gored one."""


def usable_width(cloth: Cloth) -> Mm:
    """Return the width between the selvages that is left once the cloth has shrunk."""
    return (cloth.width - 2 * cloth.selvage) * (1 - cloth.shrink_width)


def cutting_box_along(piece: Piece) -> Box:
    """Return the box of a piece's cutting line, as drawn, with its grainline along the cloth."""
    return bounds(moved(cutting_line(piece), turn=-grain_angle(piece)))


def box_on_cloth(piece: Piece) -> Box:
    """Return the box of what is cut, with its grainline along the cloth.

    A piece drawn to a fold is boxed as the whole, mirrored over its fold.
    """
    grain, outline = grain_angle(piece), cutting_line(piece)
    box = cutting_box_along(piece)
    if not piece.half:
        return box
    fold = next(edge for edge in piece.edges if edge.kind is EdgeKind.FOLD)
    start, end = fold.path[0].start, fold.path[0].end
    along = math.atan2(end.y - start.y, end.x - start.x)
    other = bounds(moved(mirrored(outline, through=start, along=along), turn=-grain))
    return Box(
        left=min(box.left, other.left),
        bottom=min(box.bottom, other.bottom),
        right=max(box.right, other.right),
        top=max(box.top, other.top),
    )


@lru_cache(maxsize=256)
def panel_width(cut: Cut, allowances: Widths, grain: Grain) -> Mm:
    """Return how wide a cloth must be, between its selvages, for any one whole panel of a layer.

    Infinite where a panel cannot be drawn at all.
    """
    try:
        bare = bare_panels(cut, allowances, grain, half=False)
        return max(box_on_cloth(piece).height for piece in bare)
    except DraftingError:
        return math.inf


def fold_way(cut: Cut, allowances: Widths, grain: Grain, usable: Mm) -> FoldWay:
    """Return which fold of the cloth can lie on a panel's middle, if any.

    A middle on the lengthwise grain lies on a lengthwise fold, which halves the width. A
    half circle with its diameter on the selvage has its middle across the cloth, and lies on
    a crosswise fold. Any other middle would lie on the bias, where cloth does not fold true.
    """
    if grain is Grain.EDGE and cut.hem_radius is not None:
        half_circle = cut.panel_angle is not None and abs(cut.panel_angle - math.pi) < 1e-9
        return FoldWay.CROSSWISE if half_circle else FoldWay.NONE
    try:
        bare = bare_panels(cut, allowances, grain, half=True)
        widest = max((cutting_box_along(p).height for p in bare if p.half), default=0.0)
    except DraftingError:
        return FoldWay.NONE
    return FoldWay.LENGTHWISE if widest <= usable / 2 else FoldWay.NONE


def bare_panels(
    cut: Cut,
    allowances: Widths,
    grain: Grain,
    *,
    half: bool,
    closure: Closure = Closure.NONE,
) -> tuple[Piece, ...]:
    """Return the panels of a layer without their marks, to see what cloth they take.

    Raises:
        GeometryError: a panel cannot be drawn at these measures.
    """
    bare = layer_pieces(
        cut,
        PanelWishes(
            part="panel",
            allowances=allowances,
            grain=grain,
            closure=closure,
            opening=0.0,
            seam="",
            waist_seam="",
            half=half,
        ),
    )
    # Nothing of them is shown, but corners are told by a name that pieces have.
    return tuple(
        replace(piece, name=f"skirt {piece.name.removeprefix('panel ')}") for piece in bare
    )


def is_bias_strip(piece: Piece) -> bool:
    """Tell whether a piece is a strip cut at half a right angle to the grain."""
    return piece.rectangle and abs(abs(math.sin(2 * grain_angle(piece))) - 1) < 1e-9


def rows_of_boxes(boxes: Sequence[tuple[Box, int]], width: Mm) -> Mm:
    """Return the length of cloth that so many of each box take in rows across ``width``.

    The longest boxes go first; each goes into the first row that has room beside the others.
    A box wider than the cloth makes a row of its own; advice says that it does not fit.
    Before shrinkage and squaring.
    """
    # Rows that are alike are kept together with their number: a narrow net may take thousands.
    open_rows: list[tuple[Mm, Mm, int]] = []
    for box, count in sorted(boxes, key=lambda each: (-each[0].width, -each[0].height)):
        left, after = count, list[tuple[Mm, Mm, int]]()
        for long, used, alike in open_rows:
            room = math.floor((width + 1e-6 - used) / box.height)
            filled = min(alike, left // room) if room > 0 else 0
            left -= filled * max(room, 0)
            some = left if room > 0 and filled < alike else 0
            left -= some
            after += [
                (long, used + room * box.height, filled),
                (long, used + some * box.height, 1 if some else 0),
                (long, used, alike - filled - (1 if some else 0)),
            ]
        room = max(math.floor((width + 1e-6) / box.height), 1)
        after += [
            (box.width, room * box.height, left // room),
            (box.width, left % room * box.height, 1 if left % room else 0),
        ]
        open_rows = [row for row in after if row[2]]
    return math.fsum(long * alike for long, _, alike in open_rows)
