"""Walking the seams: edges that are sewn together are measured against each other.

Millimetres. Measures what the pieces really hold, not the figures they were drawn from.
Imports geometry, piece and errors.
"""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from drafting.errors import TruingError
from drafting.geometry import path_length, walked_to
from drafting.piece import Mark, Piece, edge_named
from drafting.units import Mm

TOLERANCE: Mm = 0.1
"""Seam lines that are sewn together agree to this, after their stated ease and gather."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Side:
    """An edge of a piece, taken so many times along one side of a seam.

    Attributes:
        edge: name of an edge or of an inner line, or an edge's index.
        times: how often that edge lies along the whole seam; two for a half on the fold.
        between: the two marks that bound the part which is sewn, None among them for the edge's
            end at the hem; None instead of them for all of the edge.
    """

    piece: str
    edge: str | int
    times: int = 1
    between: tuple[Mark, Mark | None] | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Seam:
    """Two lines sewn together: ``first`` = ``gather`` x ``second`` + ``ease``.

    Attributes:
        number: printed beside the seam's notches.
        gather: flat length of the first over the length of the second.
        ease: how much longer the first is once gathered, in mm.
    """

    number: str
    name: str
    first: tuple[Side, ...]
    second: tuple[Side, ...]
    gather: float = 1.0
    ease: Mm = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Walked:
    """A seam that was measured: both lengths, and what is left after gather and ease."""

    seam: Seam
    first: Mm
    second: Mm

    @property
    def difference(self) -> Mm:
        """By how much the first is too long for the second."""
        return self.first - self.seam.gather * self.second - self.seam.ease


def walk(seams: Sequence[Seam], pieces: Sequence[Piece]) -> tuple[Walked, ...]:
    """Return every seam measured on the pieces.

    Raises:
        TruingError: a seam is out by more than the tolerance, or its notches do not meet.
    """
    named = {piece.name: piece for piece in pieces}
    walked = []
    for seam in seams:
        one, other = _measure(seam.first, named), _measure(seam.second, named)
        found = Walked(seam=seam, first=one, second=other)
        if not abs(found.difference) <= TOLERANCE:
            raise TruingError(seam.name, one, seam.gather * other + seam.ease, TOLERANCE)
        walked.append(found)
    for piece in pieces:
        _match_notches(piece)
    return tuple(walked)


def _measure(sides: tuple[Side, ...], pieces: Mapping[str, Piece]) -> Mm:
    return math.fsum(side.times * _once(side, pieces) for side in sides)


def _once(side: Side, pieces: Mapping[str, Piece]) -> Mm:
    piece = pieces[side.piece]
    if side.between is not None and isinstance(side.edge, int):
        one, other = (_mark_at(piece, side.edge, mark) for mark in side.between)
        return abs(one - other)
    for line in piece.inner_lines:
        if line.kind == side.edge:
            return path_length(line.path)
    if isinstance(side.edge, int):
        return piece.edges[side.edge].length
    return edge_named(piece, side.edge).length


def _mark_at(piece: Piece, edge: int, mark: Mark | None) -> Mm:
    """Return how far along an edge a mark lies; nan where there is none."""
    path = piece.edges[edge].path
    if mark is None:
        hem = next((k for k, held in enumerate(piece.edges) if held.name == "hem"), 1)
        return path_length(path) if edge < hem else 0.0
    for notch in piece.notches:
        if notch.edge == edge and notch.mark is mark:
            return notch.at
    for dot in piece.dots:
        walked = walked_to(path, dot.at)
        if walked is not None and dot.mark is mark:
            return walked
    return math.nan


def _match_notches(piece: Piece) -> None:
    """Check that a seam's notches lie alike on both edges of a panel.

    Equally far from the waist, where its two edges begin together; or from the hem, as a
    godet's do.

    Raises:
        TruingError: they do not.
    """
    waists = [k for k, edge in enumerate(piece.edges) if edge.name == "waist"]
    if not waists or len(piece.edges) != 4:
        return
    first, last = (waists[0] + 1) % 4, (waists[0] + 3) % 4
    for seam in {n.seam for n in piece.notches if n.edge == first}:
        down = [n.at for n in piece.notches if n.edge == first and n.seam == seam]
        up = [n.at for n in piece.notches if n.edge == last and n.seam == seam]
        if not up:
            continue
        one, other = piece.edges[first].length, piece.edges[last].length
        from_waist = _apart(down, [other - at for at in up])
        from_hem = _apart([one - at for at in down], up)
        if not min(from_waist, from_hem) <= TOLERANCE:
            raise TruingError(f"notches of seam {seam}", sum(down), sum(up), TOLERANCE)


def _apart(one: list[Mm], other: list[Mm]) -> Mm:
    """Return how far the marks of two edges lie apart at most; infinite if their numbers differ."""
    if len(one) != len(other):
        return math.inf
    return max(abs(a - b) for a, b in zip(sorted(one), sorted(other), strict=True))
