"""Placing pieces on the assembled plane so that few pages carry anything.

Each piece, biggest first, goes where it opens the fewest new pages and touches no other;
then pieces are taken off and put back a fixed number of times. The same pieces always come
to the same places.

Millimetres and radians. Imports geometry, piece, paper and packing.
"""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from enum import StrEnum

from drafting.geometry import Path, Point, flattened, moved
from drafting.piece import Piece, cutting_area, cutting_line
from drafting.units import Mm
from render.packing import Cells, Labour, Plan, Search, Spot, Stand, divided, stands
from render.paper import Grid

APART: Mm = 6.0
"""Pieces keep this distance, so that scissors pass between them."""

WIDEST: Mm = 2500.0
"""The assembled plane is at most this wide: what a floor and two arms can manage."""


Progress = Callable[[str], None]
"""Is told in a few words what is being done."""


class Effort(StrEnum):
    """How long to search for fewer pages."""

    QUICK = "quick"
    USUAL = "usual"
    THOROUGH = "thorough"


# Each effort begins with the lesser one's labours, so that it never ends with more pages. Few
# turns with many shifts each and the other way about each win on some skirts.
_QUICK = (Labour(turns=24, stands=100, looks=0),)
_USUAL = (
    *_QUICK,
    Labour(turns=24, stands=300, looks=1_200_000),
    Labour(turns=24, stands=150, looks=800_000),
)
_THOROUGH = (
    *_USUAL,
    Labour(turns=24, stands=800, looks=6_000_000),
    Labour(turns=48, stands=300, looks=6_000_000),
    Labour(turns=72, stands=150, looks=6_000_000),
)
_LABOURS = {Effort.QUICK: _QUICK, Effort.USUAL: _USUAL, Effort.THOROUGH: _THOROUGH}

_ALONE = Labour(turns=120, stands=1, looks=0)
"""For a piece that no other stands in the way of, turns of 3 degrees are all there is to try."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Placement:
    """Where a piece's own origin lies on the plane and how far it is turned."""

    piece: Piece
    x: Mm
    y: Mm
    turn: float

    def on_plane(self, path: Path) -> Path:
        """Return a path of the piece's frame as it lies on the plane."""
        return moved(path, x=self.x, y=self.y, turn=self.turn)


def place(
    pieces: Sequence[Piece],
    grid: Grid,
    *,
    effort: Effort = Effort.USUAL,
    widest: Mm = WIDEST,
    progress: Progress | None = None,
) -> tuple[Placement, ...]:
    """Return a place on the plane for every piece, in the order of the pieces given.

    The plane is at most ``widest`` wide where every piece can be turned to fit in that.
    ``progress`` is told of every better plan that a round of the search ends with.
    """
    if not pieces:
        return ()
    outlines = [flattened(cutting_line(piece), outside=True) for piece in pieces]
    reach = max(math.dist((a.x, a.y), (o[0].x, o[0].y)) for o in outlines for a in o)
    cells = divided(grid, widest, 2 * reach)
    order = sorted(range(len(pieces)), key=lambda k: (-cutting_area(pieces[k]), k))
    labours = _LABOURS[effort] if len(pieces) > 1 else (*_QUICK, _ALONE)
    ways = _ways(outlines, cells, labours)
    best: Plan | None = None
    for labour in labours:
        kept = [held[: labour.stands] for held in ways[labour.turns]]
        search = Search(kept, cells)
        plan = search.improved(search.filled(Plan(spots={}), order), labour.looks)
        if best is None or plan.score < best.score:
            best = plan
            if progress is not None:
                progress(f"about {plan.pages.bit_count()} pages so far")
    assert best is not None
    return tuple(_placement(piece, best.spots[k], cells) for k, piece in enumerate(pieces))


def _ways(
    outlines: Sequence[tuple[Point, ...]], cells: Cells, labours: Sequence[Labour]
) -> dict[int, list[tuple[Stand, ...]]]:
    """Return how each piece may stand, the best ways first, by the count of turns tried."""
    most: dict[int, int] = {}
    for labour in labours:
        most[labour.turns] = max(most.get(labour.turns, 0), labour.stands)
    return {
        count: [
            stands(outline, cells, APART, [math.tau * k / count for k in range(count)], kept)
            for outline in outlines
        ]
        for count, kept in most.items()
    }


def _placement(piece: Piece, spot: Spot, cells: Cells) -> Placement:
    stand = spot.stand
    return Placement(
        piece=piece,
        x=(spot.along * cells.x + stand.column) * cells.wide - stand.turned.left,
        y=(spot.level * cells.y + stand.row) * cells.high - stand.turned.bottom,
        turn=stand.turned.turn,
    )
