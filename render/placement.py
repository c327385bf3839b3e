"""Placing pieces on the assembled plane so that few pages carry anything.

Each piece, biggest first, goes where it opens the fewest new pages and touches no other, or
stands in its box on a shelf where that takes fewer; then pieces are taken off and put back
until a number of places has been looked at. The same pieces always come to the same places.

Millimetres and radians. Imports geometry, piece, paper, packing, shelves and stands.
"""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from drafting.effort import Effort as Effort
from drafting.geometry import Path, Point, flattened, moved
from drafting.piece import Piece, cutting_area, cutting_line
from drafting.units import Mm
from render.packing import Labour, Plan, Search, Spot
from render.paper import Grid
from render.shelves import shelved
from render.stands import Cells, Turned, divided, fewest, stands

APART: Mm = 6.0
"""Pieces keep this distance, so that scissors pass between them."""

WIDEST: Mm = 2500.0
"""The assembled plane is at most this wide: what a floor and two arms can manage."""


Progress = Callable[[str], None]
"""Is told in a few words what is being done."""


# Each effort begins with the lesser one's plan, so that it never ends with more pages.
_QUICK = (Labour(turns=24, stands=100, looks=0),)
_USUAL = (*_QUICK, Labour(turns=48, stands=1500, looks=2_000_000))
_THOROUGH = (
    *_USUAL,
    Labour(turns=72, stands=3000, looks=6_000_000),
    Labour(turns=48, stands=6000, looks=6_000_000),
)
_LABOURS = {Effort.QUICK: _QUICK, Effort.USUAL: _USUAL, Effort.THOROUGH: _THOROUGH}

_ALONE = 120
"""Turns tried for a piece that no other stands in the way of: every 3 degrees."""

_COARSER: Mm = 10.0
"""The size of cells in which all of those are tried."""

_FINER: Mm = 2.5
"""The size of cells in which the most promising of them are tried again."""

_PROMISING = 16
"""How many turns that is."""


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
    if len(pieces) == 1:
        return (_alone(pieces[0], outlines[0], grid, widest, 2 * reach),)
    cells = divided(grid, widest, 2 * reach)
    turned = [Turned(outline, cells, APART) for outline in outlines]
    order = sorted(range(len(pieces)), key=lambda k: (-cutting_area(pieces[k]), k))
    best: Plan | None = None
    for labour in _LABOURS[effort]:
        search = Search(turned, labour)
        begun = best or min(
            search.filled(Plan(spots={}), order), shelved(turned), key=lambda plan: plan.score
        )
        plan = search.improved(begun, labour.looks)
        if plan is not best:
            best = plan
            if progress is not None:
                progress(f"about {plan.pages.bit_count()} pages so far")
    assert best is not None
    return tuple(_placement(piece, best.spots[k], cells) for k, piece in enumerate(pieces))


def _alone(
    piece: Piece, outline: tuple[Point, ...], grid: Grid, widest: Mm, longest: Mm
) -> Placement:
    """Return where a piece without others takes the fewest pages: all turns, then finer shifts."""
    turns = [math.tau * k / _ALONE for k in range(_ALONE)]
    coarse = Turned(outline, divided(grid, widest, longest, _COARSER), APART)
    fine = Turned(outline, divided(grid, widest, longest, _FINER), APART)
    (first,) = stands(coarse, turns, 1)
    # Turns that are too wide for the floor are left out again where any is narrow enough.
    most = max(first.turned.columns, coarse.cells.most * coarse.cells.x)
    narrow = [turn for turn in turns if coarse.raster(turn).columns <= most]
    promising = sorted(narrow, key=lambda turn: fewest(coarse, turn))[:_PROMISING]
    (again,) = stands(fine, promising, 1)
    if again.count < first.count:
        return _placement(piece, Spot(stand=again, along=0, level=0), fine.cells)
    return _placement(piece, Spot(stand=first, along=0, level=0), coarse.cells)


def _placement(piece: Piece, spot: Spot, cells: Cells) -> Placement:
    stand = spot.stand
    return Placement(
        piece=piece,
        x=(spot.along * cells.x + stand.column) * cells.wide - stand.turned.left,
        y=(spot.level * cells.y + stand.row) * cells.high - stand.turned.bottom,
        turn=stand.turned.turn,
    )
