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

from drafting.geometry import Path, flattened, moved
from drafting.piece import Piece, cutting_area, cutting_line
from drafting.units import Mm
from render.packing import Cells, Labour, Plan, Search, Spot, divided, stands
from render.paper import Grid

APART: Mm = 6.0
"""Pieces keep this distance, so that scissors pass between them."""

WIDEST: Mm = 2500.0
"""The assembled plane is at most this wide: what a floor and two arms can manage."""


class Effort(StrEnum):
    """How long to search for fewer pages."""

    QUICK = "quick"
    USUAL = "usual"
    THOROUGH = "thorough"


_LABOURS = {
    Effort.QUICK: Labour(turns=24, stands=100, looks=0),
    Effort.USUAL: Labour(turns=48, stands=300, looks=2_000_000),
    Effort.THOROUGH: Labour(turns=120, stands=1000, looks=20_000_000),
}


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
    progress: Callable[[str], None] | None = None,
) -> tuple[Placement, ...]:
    """Return a place on the plane for every piece, in the order of the pieces given.

    The plane is at most ``widest`` wide where every piece can be turned to fit in that.
    ``progress`` is told whenever fewer pages are found.
    """
    if not pieces:
        return ()
    labour = _LABOURS[effort]
    outlines = [flattened(cutting_line(piece), outside=True) for piece in pieces]
    longest = max(math.dist((a.x, a.y), (b.x, b.y)) for o in outlines for a in o for b in o[:1])
    cells = divided(grid, widest, 2 * longest)
    turns = [math.tau * k / labour.turns for k in range(labour.turns)]
    ways = [stands(outline, cells, APART, turns, labour.stands) for outline in outlines]
    order = sorted(range(len(pieces)), key=lambda k: (-cutting_area(pieces[k]), k))
    search = Search(ways, cells)
    plan = search.filled(Plan(spots={}), order)
    if len(pieces) > 1:
        plan = search.improved(plan, labour.looks, progress)
    return tuple(_placement(piece, plan.spots[k], cells) for k, piece in enumerate(pieces))


def _placement(piece: Piece, spot: Spot, cells: Cells) -> Placement:
    stand = spot.stand
    return Placement(
        piece=piece,
        x=(spot.along * cells.x + stand.column) * cells.wide - stand.turned.left,
        y=(spot.level * cells.y + stand.row) * cells.high - stand.turned.bottom,
        turn=stand.turned.turn,
    )
