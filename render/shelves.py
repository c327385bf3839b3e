"""Pieces stood on shelves, each in its own box: the plain layout that a search has to beat.

Cells, as in stands. Imports packing and stands.
"""

import math
from collections.abc import Sequence

from render.packing import Plan, Spot, laid
from render.stands import Turned, pages_across

_GAP = 2
"""Cells between two boxes: each piece may spread over one of them."""


def shelved(pieces: Sequence[Turned]) -> Plan:
    """Return the best plan of boxes on shelves: upright, or all lying, on shelves of any width."""
    cells = pieces[0].cells
    plans = [
        _plan(pieces, turns, columns)
        for turns in ([0.0] * len(pieces), [_lying(piece) for piece in pieces])
        for columns in range(1, cells.most + 1)
    ]
    narrow = [plan for plan in plans if plan.columns <= cells.most]
    return min(narrow or plans, key=lambda plan: plan.score)


def _lying(piece: Turned) -> float:
    upright, lying = piece.raster(0.0), piece.raster(math.pi / 2)
    return math.pi / 2 if lying.columns > upright.columns else 0.0


def _plan(pieces: Sequence[Turned], turns: Sequence[float], columns: int) -> Plan:
    """Return the plan of shelves that are some columns of pages wide, the highest pieces first."""
    cells = pieces[0].cells
    spots: dict[int, Spot] = {}
    order = sorted(range(len(pieces)), key=lambda k: -len(pieces[k].raster(turns[k]).rows))
    aside, shelf, above = 0, 0, 0
    for k in order:
        shape = pieces[k].raster(turns[k])
        if pages_across(aside, shape.columns, cells) > columns and aside:
            aside, shelf = 0, above
        level, row = divmod(shelf, cells.y)
        along, column = divmod(aside, cells.x)
        spots[k] = Spot(stand=pieces[k].stand(turns[k], row, column), along=along, level=level)
        aside += shape.columns + _GAP
        above = max(above, shelf + len(shape.rows) + _GAP)
    return laid(spots, cells)
