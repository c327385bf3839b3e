"""What is cut from a cloth: whole outlines, how often each, which way round they may lie.

Millimetres and radians. A piece drawn as a half is unfolded, a bias strip becomes the lengths
that it is joined from. Imports geometry, piece, boxes and the pattern's words.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import TYPE_CHECKING

from drafting.cloth.boxes import is_bias_strip, usable_width
from drafting.geometry import (
    Box,
    Line,
    Path,
    Point,
    area,
    bounds,
    distance,
    mirrored,
    moved,
    point_along,
    reversed_path,
    straight,
)
from drafting.piece import EdgeKind, FoldWay, Piece, cutting_line, grain_angle
from drafting.spec import Cloth
from drafting.strips import JOINT
from drafting.units import Mm

if TYPE_CHECKING:
    from drafting.pattern import Pattern

_QUARTER = math.pi / 2
_ORIGIN = Point(0.0, 0.0)

HAIR: Mm = 1e-6
"""A shape this much wider than the cloth still fits; no one can cut so fine."""

ON_FOLD: Mm = 1e-4
"""A segment of a half's outline this near to its fold lies on it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shape:
    """One outline that is cut from a cloth.

    Attributes:
        number: of its piece in the cut list.
        count: how many whole shapes are cut; of a ``mirrored`` one half are mirror images.
        outline: the whole cutting line in the piece's own frame, counter-clockwise.
        grain: direction of its grainline in that frame, pointing from waist to hem where that
            is told; shapes of a one-way cloth all lie with it along the cloth.
        turns: how it may be turned on the cloth besides lying with its grain along it.
        joined: a bias strip is cut in this many lengths and joined, ``count`` counts those; 0
            for anything else.
    """

    piece: Piece
    number: int
    count: int
    outline: Path
    grain: float
    turns: tuple[float, ...]
    mirrored: bool = False
    joined: int = 0

    @property
    def name(self) -> str:
        """Name of its piece."""
        return self.piece.name

    @property
    def bias(self) -> bool:
        """Whether it is a length of a bias strip."""
        return self.joined > 0

    @property
    def rectangle(self) -> bool:
        """Whether it has four square corners and lies straight on the cloth."""
        return self.piece.rectangle and not self.bias

    @property
    def fold_way(self) -> FoldWay:
        """Which fold of the cloth its drawn half lies on, if any."""
        return self.piece.fold_way if self.piece.half else FoldWay.NONE

    @property
    def area(self) -> float:
        """Area of one whole shape, in mm2."""
        return area(self.outline)

    def turn(self, extra: float, *, flipped: bool) -> float:
        """Return how its own frame is turned for its grain to lie along the cloth, and more.

        Args:
            extra: one of ``turns``.
            flipped: it is mirrored over its own x axis first.
        """
        return (self.grain if flipped else -self.grain) + extra

    def lying(self, extra: float = 0.0, *, flipped: bool = False) -> Path:
        """Return its outline turned as it lies on the cloth, its own origin kept in place."""
        return moved(flipped_over(self.outline, flipped), turn=self.turn(extra, flipped=flipped))

    @property
    def narrowest(self) -> Mm:
        """How wide a cloth must be to take it, whichever way round it lies best."""
        return min(self.box(extra).height for extra in self.turns)

    def first_turn(self, width: Mm) -> float:
        """Return the first of its turns in which a cloth of that width takes it."""
        fits = (extra for extra in self.turns if self.box(extra).height <= width + HAIR)
        return next(fits, self.turns[0])

    def box(self, extra: float = 0.0, *, flipped: bool = False) -> Box:
        """Return the box of its outline as it lies on the cloth, about its own origin."""
        return box_of(self.outline, self.turn(extra, flipped=flipped), flipped)


def flipped_over(path: Path, flipped: bool) -> Path:
    """Return a path, or its image over the x axis walked back, so that its left stays inside."""
    if not flipped:
        return path
    return reversed_path(mirrored(path, through=_ORIGIN, along=0.0))


@lru_cache(maxsize=1024)
def box_of(outline: Path, turn: float, flipped: bool) -> Box:
    """Return the box of an outline flipped and turned about its own origin.

    Many copies lie alike, and are asked for their boxes again and again.
    """
    return bounds(moved(flipped_over(outline, flipped), turn=turn))


def shapes(pattern: "Pattern", cloth: str) -> tuple[Shape, ...]:
    """Return everything that is cut from one cloth, in the order of the cut list."""
    return shapes_of(pattern.pieces, cloth, getattr(pattern.spec.cloths, cloth))


def shapes_of(pieces: Sequence[Piece], cloth: str, of: Cloth) -> tuple[Shape, ...]:
    """Return everything of some pieces that is cut from the cloth of that name."""
    return tuple(
        _shape(piece, number, of, loose=cloth == "interfacing" and not of.kind)
        for number, drawn in enumerate(pieces, start=1)
        for piece in cut_from(drawn, cloth)
    )


def cut_from(piece: Piece, cloth: str) -> Iterator[Piece]:
    """Yield a piece with the count that is cut from a cloth: its own, or one that it also needs."""
    if piece.cloth == cloth:
        yield piece
    for other, count in piece.also:
        if other == cloth:
            yield replace(piece, count=count)


def _shape(piece: Piece, number: int, of: Cloth, *, loose: bool) -> Shape:
    """Return what is cut for a piece.

    Args:
        loose: the cloth is not woven and has no grain, so that a shape may lie any way round
            that is easily marked.
    """
    turns: tuple[float, ...] = (0.0,) if of.one_way else (0.0, math.pi)
    if is_bias_strip(piece):
        return _bias_shape(piece, number, usable_width(of), turns)
    if loose and not of.one_way:
        turns = (0.0, math.pi, _QUARTER, -_QUARTER)
    return Shape(
        piece=piece,
        number=number,
        count=piece.count,
        outline=whole_outline(piece),
        grain=_down(piece),
        turns=turns,
        mirrored=piece.mirrored and piece.count > 1,
    )


def whole_outline(piece: Piece) -> Path:
    """Return the cutting line of a whole piece; a half is unfolded over its fold."""
    outline = cutting_line(piece)
    if not piece.half:
        return outline
    fold = next(edge for edge in piece.edges if edge.kind is EdgeKind.FOLD)
    start, end = fold.path[0].start, fold.path[-1].end
    along = math.atan2(end.y - start.y, end.x - start.x)

    def off(point: Point) -> Mm:
        return abs((point.y - start.y) * math.cos(along) - (point.x - start.x) * math.sin(along))

    on_fold = [
        isinstance(part, Line) and off(part.start) < ON_FOLD and off(part.end) < ON_FOLD
        for part in outline
    ]
    # Walked from the end of the fold round to its start, then back over the mirrored half.
    last = next(k for k, on in enumerate(on_fold) if on and not on_fold[(k + 1) % len(on_fold)])
    order = [(last + 1 + k) % len(outline) for k in range(len(outline))]
    open_half = tuple(outline[k] for k in order if not on_fold[k])
    return open_half + reversed_path(mirrored(open_half, through=start, along=along))


def _down(piece: Piece) -> float:
    """Return the direction of a piece's grain, from its waist towards its hem if it has both.

    A half circle with its diameter on the selvage goes neither up nor down along its grain.
    """
    angle = grain_angle(piece)
    ends = [
        next((edge for edge in piece.edges if edge.name in names), None)
        for names in (("waist", "inner", "gathered"), ("hem", "outer", "lower"))
    ]
    if ends[0] is None or ends[1] is None:
        return angle
    top, bottom = (point_along(e.path, e.length / 2) for e in ends if e is not None)
    along = (bottom.x - top.x) * math.cos(angle) + (bottom.y - top.y) * math.sin(angle)
    return angle + math.pi if along < -1e-3 * distance(top, bottom) else angle


def _bias_shape(piece: Piece, number: int, width: Mm, turns: tuple[float, ...]) -> Shape:
    """Return the lengths that a bias strip is joined from, their ends on the straight grain.

    Source: a strip at 45 degrees from selvage to selvage is U sqrt 2 long; with its ends along
    the selvage it is a parallelogram, w sqrt 2 of selvage long and l / sqrt 2 across.
    """
    box = bounds(cutting_line(piece))
    long, wide = max(box.width, box.height), min(box.width, box.height)
    most = width * math.sqrt(2)
    pieces = max(1, math.ceil((long - JOINT) / max(most - JOINT, 1.0) - 1e-9))
    each = (long + JOINT * (pieces - 1)) / pieces if pieces > 1 else long
    slant, end = min(each, most) / math.sqrt(2), wide * math.sqrt(2)
    corners = (
        Point(0.0, 0.0),
        Point(end, 0.0),
        Point(end + slant, slant),
        Point(slant, slant),
    )
    outline = tuple(
        part
        for one, other in zip(corners, corners[1:] + corners[:1], strict=True)
        for part in straight(one, other)
    )
    return Shape(
        piece=piece,
        number=number,
        count=pieces * piece.count,
        outline=outline,
        grain=0.0,
        turns=turns,
        joined=pieces,
    )
