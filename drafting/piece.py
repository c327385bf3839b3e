"""A pattern piece: stitching lines with names, allowances, marks and what to cut.

Millimetres and radians. The stitching line is the truth; the cutting line is derived from it.
Imports geometry, allowance and errors.
"""

import math
from dataclasses import dataclass, replace
from enum import StrEnum
from functools import lru_cache

from drafting.allowance import Border, cutting_path
from drafting.errors import GeometryError
from drafting.geometry import MEETING, Box, Path, Point, area, bounds, distance, moved, path_length
from drafting.units import Mm


class EdgeKind(StrEnum):
    """What becomes of an edge."""

    SEAM = "seam"
    HEM = "hem"
    FOLD = "fold"
    RAW = "raw"


@dataclass(frozen=True, slots=True, kw_only=True)
class Edge:
    """One named edge of a stitching line.

    Attributes:
        name: in the trade's words: ``waist``, ``side``, ``hem``, ``centre_back`` …; English in
            every language, for edges are told apart by it.
        path: from one corner of the piece to the next.
        allowance: width of cloth outside it; none at a fold.
        words: what is written along it, or empty.
        shorter: the same in fewer words, where there are any.
        pieced: cloth is pieced on here before any other seam is sewn or hem turned up.
        goes_on: a flounce or a tier is sewn to this lower edge, so that it is no hem.
    """

    name: str
    path: Path
    allowance: Mm
    kind: EdgeKind = EdgeKind.SEAM
    words: str = ""
    shorter: str = ""
    pieced: bool = False
    goes_on: bool = False

    @property
    def length(self) -> Mm:
        """Length of the stitching line along this edge."""
        return path_length(self.path)


class NotchKind(StrEnum):
    """What a notch tells: where on the body a seam lies, or only where its two sides meet."""

    PLACE = "place"
    BALANCE = "balance"


class Mark(StrEnum):
    """What a mark bounds, whatever is written beside it."""

    POCKET_BEGINS = "pocket begins"
    POCKET_ENDS = "pocket ends"
    GODET_BEGINS = "godet begins"


class FoldWay(StrEnum):
    """How the cloth is folded for a piece drawn as a half."""

    NONE = "none"
    LENGTHWISE = "lengthwise"
    CROSSWISE = "crosswise"


@dataclass(frozen=True, slots=True, kw_only=True)
class Notch:
    """A mark on a stitching line, matched to the neighbouring piece's.

    Attributes:
        edge: index of the edge in the piece.
        at: distance along that edge from its start.
        kind: a place on the body is marked with strokes, a balance point with a wedge.
        strokes: how many: one at the front, two at a side, three at the back.
        seam: number of the seam it belongs to, or empty.
        words: what is written beside it, or empty.
        mark: what it bounds, if anything.
    """

    edge: int
    at: Mm
    kind: NotchKind = NotchKind.PLACE
    strokes: int = 1
    seam: str = ""
    words: str = ""
    mark: Mark | None = None


class InnerKind(StrEnum):
    """Lines drawn inside a piece."""

    RUFFLE_LINE = "ruffle line"
    GATHERING = "gathering row"
    FOLD_LINE = "fold line"
    CENTRE = "centre line"
    RAY = "ray"


@dataclass(frozen=True, slots=True, kw_only=True)
class InnerLine:
    """A line inside a piece.

    Attributes:
        words: what is written along it.
        ticks: distances along it to mark across.
        shorter: the same in fewer words, the fewest last.
    """

    kind: InnerKind
    path: Path
    words: str
    ticks: tuple[Mm, ...] = ()
    shorter: tuple[str, ...] = ()

    @property
    def brief(self) -> str:
        """Its words at their fewest: what the line is called."""
        return self.shorter[-1] if self.shorter else self.words


@dataclass(frozen=True, slots=True, kw_only=True)
class Dot:
    """A point to transfer to the cloth, such as the end of an opening.

    Attributes:
        mark: what it bounds, if anything.
    """

    at: Point
    words: str
    mark: Mark | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """One pattern piece, right side up, before any placing on paper.

    Attributes:
        name: begins with its part, such as ``skirt panel``; English in every language, and said
            by ``piece_names``.
        edges: closed stitching line, counter-clockwise.
        grainline: two ends of a line that lies parallel to the selvedge.
        cloth: which cloth it is cut from: ``skirt``, ``lining``, ``ruffle``, ``interfacing`` or
            ``binding``.
        count: how many to cut.
        mirrored: half of them are cut as mirror images.
        half: the piece is drawn to a fold and is half of what is cut.
        fold_way: how the cloth is folded for a half; none where no fold can take it, and the
            half is chalked, turned over and chalked again.
        also: other cloths that the same paper cuts, such as interfacing, and how often each.
        rectangle: a band or strip that a rule and chalk draw as well as paper does.
        notes: what else its label says, a line each.
    """

    name: str
    edges: tuple[Edge, ...]
    grainline: tuple[Point, Point]
    cloth: str
    count: int
    mirrored: bool = False
    half: bool = False
    fold_way: FoldWay = FoldWay.NONE
    also: tuple[tuple[str, int], ...] = ()
    rectangle: bool = False
    notches: tuple[Notch, ...] = ()
    inner_lines: tuple[InnerLine, ...] = ()
    dots: tuple[Dot, ...] = ()
    notes: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        ends = [(edge.path[0].start, edge.path[-1].end) for edge in self.edges]
        for (_, end), (start, _) in zip(ends, ends[1:] + ends[:1], strict=True):
            if distance(end, start) > MEETING:
                raise GeometryError(f"the outline of {self.name} is not closed")
        if self.count < 1:
            raise GeometryError(f"{self.name} must be cut at least once")


def shifted(piece: Piece, *, x: Mm, y: Mm) -> Piece:
    """Return a piece moved in its own frame."""

    def at(point: Point) -> Point:
        return Point(point.x + x, point.y + y)

    one, other = piece.grainline
    return replace(
        piece,
        edges=tuple(replace(edge, path=moved(edge.path, x=x, y=y)) for edge in piece.edges),
        grainline=(at(one), at(other)),
        inner_lines=tuple(
            replace(line, path=moved(line.path, x=x, y=y)) for line in piece.inner_lines
        ),
        dots=tuple(replace(dot, at=at(dot.at)) for dot in piece.dots),
    )


def stitching_line(piece: Piece) -> Path:
    """Return the closed outline that the seams are sewn on."""
    return tuple(segment for edge in piece.edges for segment in edge.path)


@lru_cache(maxsize=512)
def cutting_line(piece: Piece) -> Path:
    """Return the closed outer edge of the piece, derived from its stitching line.

    Raises:
        GeometryError: an allowance is too wide for its curve or corner.
    """
    return cutting_path(
        [
            Border(
                path=e.path,
                allowance=e.allowance,
                turns_up=e.kind is EdgeKind.HEM,
                runs_on=e.pieced,
            )
            for e in piece.edges
        ]
    )


def grain_angle(piece: Piece) -> float:
    """Return the direction of the grainline in the piece's own frame, from its first end."""
    (ax, ay), (bx, by) = piece.grainline
    return math.atan2(by - ay, bx - ax)


def cutting_box(piece: Piece) -> Box:
    """Return the smallest upright box round the cutting line, in the piece's own frame."""
    return bounds(cutting_line(piece))


def cutting_area(piece: Piece) -> float:
    """Return the area inside the cutting line, in mm2."""
    return area(cutting_line(piece))


def edge_named(piece: Piece, name: str) -> Edge:
    """Return the first edge of that name.

    Raises:
        KeyError: the piece has no such edge.
    """
    for edge in piece.edges:
        if edge.name == name:
            return edge
    raise KeyError(name)
