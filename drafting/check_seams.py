"""Two seams to measure once a pattern is taped together: what a reader finds out with a tape.

A long straight one shows whether pages were scaled or taped askew, a curved one whether the
sewing line came out. Millimetres. Imports the pattern and its pieces.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from drafting.geometry import Line, distance
from drafting.language import said_later, say
from drafting.pattern import Pattern
from drafting.piece import Edge, EdgeKind, Piece
from drafting.piece_names import piece_words
from drafting.spec import Scope
from drafting.units import Mm
from drafting.waist_part import is_shortened, waist_part

SHORTEST: Mm = 60.0
"""A shorter line tells too little: half a per cent of it is no more than a pencil's width."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CheckSeam:
    """A stitching line that is printed from end to end.

    Attributes:
        piece: its piece's name.
        edge: the edge's name; ``words`` is both, said.
        lengths: true length in each size, the smallest first; one for a pattern in one size.
    """

    piece: str
    edge: str
    words: str
    lengths: tuple[Mm, ...]


def check_seams(pattern: Pattern, printed: Sequence[str]) -> tuple[CheckSeam, ...]:
    """Return a straight seam and a curved one of the pieces that a file prints, as there are.

    The longest straight line of a panel, then that panel's waist; where there is no panel, what
    else is longest. Empty where nothing long enough is printed.

    Args:
        printed: names of the pieces that the file prints.
    """
    found = [line for name in printed for line in _lines(pattern, name)]
    straights = [line for line in found if line.straight]
    curves = [line for line in found if not line.straight]
    first = max(straights, key=lambda line: (line.panel, line.length), default=None)
    home = first.seam.piece if first is not None else ""
    second = max(
        curves,
        key=lambda line: (
            line.seam.edge == "waist", line.seam.piece == home, line.panel, line.length
        ),
        default=None,
    )  # fmt: skip
    return tuple(line.seam for line in (first, second) if line is not None)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Found:
    seam: CheckSeam
    straight: bool
    panel: bool

    @property
    def length(self) -> Mm:
        return min(self.seam.lengths)


def _lines(pattern: Pattern, name: str) -> Iterator[_Found]:
    """Yield the lines of a piece that are seams in every size, each name once."""
    pieces = [_piece(one, name) for one in pattern.sizes or (pattern,)]
    cut_off = any(is_shortened(piece) for piece in pieces)
    seen: set[str] = set()
    for k, edge in enumerate(pieces[0].edges):
        edges = [piece.edges[k] for piece in pieces if k < len(piece.edges)]
        same = len(edges) == len(pieces) and all(_is_seam(one, edge.name) for one in edges)
        if not same or edge.name in seen or min(one.length for one in edges) < SHORTEST:
            continue
        if cut_off and edge.name != "waist":
            continue  # its sides go on where the paper ends
        seen.add(edge.name)
        yield _Found(
            seam=CheckSeam(
                piece=name,
                edge=edge.name,
                words=_words(pieces[0], edge),
                lengths=tuple(one.length for one in edges),
            ),
            straight=all(_is_straight(one) for one in edges),
            panel=not pieces[0].rectangle and any(one.name == "waist" for one in pieces[0].edges),
        )


def _piece(pattern: Pattern, name: str) -> Piece:
    """Return a piece as its sheet has it printed."""
    piece = next(one for one in pattern.pieces if one.name == name)
    if pattern.spec.print.scope is Scope.WAIST:
        return waist_part(piece, pattern.spec.units)
    return piece


def _is_seam(edge: Edge, name: str) -> bool:
    return edge.kind is EdgeKind.SEAM and edge.name == name and bool(edge.words)


def _is_straight(edge: Edge) -> bool:
    ends = distance(edge.path[0].start, edge.path[-1].end)
    return all(isinstance(run, Line) for run in edge.path) and edge.length - ends < 0.01


_WAIST = said_later("waist")
_HALF_WAIST = said_later("waist, the half that is printed")


def _words(piece: Piece, edge: Edge) -> str:
    if edge.name == "waist":
        seam = say(_HALF_WAIST if piece.half else _WAIST)
    else:
        seam = (edge.shorter or edge.words).partition(",")[0]  # what follows tells how it is sewn
    return f"{piece_words(piece.name)}, {seam}"
