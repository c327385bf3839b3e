"""Pieces on a roll: one sheet as long as it takes, or several joined where that cannot be.

Millimetres; the roll's head is the top of the plane. Imports filling, laid, large_ticket, tiling.
"""

import itertools
import math
from collections.abc import Sequence
from dataclasses import replace

from drafting.geometry import Box
from drafting.pattern import Pattern
from drafting.piece import Piece
from render.filling import Filled, Plane, Spot, fill
from render.foot import FOOT, METRE, RULE_WIDE, check_length, check_line
from render.laid import (
    INSET,
    UPRIGHT_LINE,
    WORK,
    Laid,
    filled_strip,
    inset_at,
    of_height,
    one_sheet,
    placements_of,
    shapes_of,
    unlaid,
)
from render.large_ticket import block_size, large_ticket, slots
from render.paper import LONGEST, Grid
from render.placement import APART, Effort
from render.tiling import Sheets, cut_into_pages


def on_roll(pattern: Pattern, pieces: Sequence[Piece], on: Grid, effort: Effort) -> Laid:
    """Return pieces on a roll: one sheet, or segments and lanes where one cannot hold them."""
    ticket = large_ticket(pattern, unlaid(pieces, on))
    found = filled_strip(pieces, ticket, on.window.width, WORK[effort])
    if found is not None:
        filled, line = found
        page = math.ceil(filled.length + 2 * INSET + 2 * on.margin + FOOT - 1e-6)
        if page <= LONGEST:
            return one_sheet(pieces, ticket, line, filled, of_height(on, height=page))
    return _joined(pattern, pieces, on, effort)


def _joined(pattern: Pattern, pieces: Sequence[Piece], on: Grid, effort: Effort) -> Laid:
    """Return pieces on several sheets of a roll: end to end, side by side, or both.

    Only what fits no lane at any turn lies across a join between lanes. The ticket and a metre
    line stand at the head of the first sheet.
    """
    count = len(large_ticket(pattern, unlaid(pieces, on)))
    count = len(large_ticket(pattern, _lanes(pieces, on, count, Effort.QUICK)[0]))
    while True:
        sheets, places, line = _lanes(pieces, on, count, effort)
        ticket = large_ticket(pattern, sheets)
        if len(ticket) <= count:
            break
        count = len(ticket)
    if sheets.tiles[0].name != "A1":
        return Laid(sheets=sheets, insets=(), further=ticket)
    top = sheets.tiles[0].window.top
    insets = [
        inset_at(
            block,
            block_size(block),
            Spot(x=at.left, y=top + at.top - block_size(block)[1], turn=0.0),
        )
        for block, at in zip(ticket, places, strict=False)
    ]
    long = check_length(min(line.height, sheets.grid.window.height - 4))
    ruled = inset_at(
        check_line(long),
        (long + 4, RULE_WIDE),
        Spot(x=line.right, y=top + line.top - long - 4, turn=UPRIGHT_LINE),
    )
    return Laid(sheets=sheets, insets=(*insets, ruled))


def _lanes(
    pieces: Sequence[Piece], on: Grid, count: int, effort: Effort
) -> tuple[Sheets, list[Box], Box]:
    """Return pieces on lanes and segments; where the ticket's blocks and the metre line lie.

    Those lie on the first lane, from the head of the plane at y 0 down.
    """
    line = Box(left=INSET, bottom=-METRE - 4 - INSET, right=INSET + RULE_WIDE, top=-INSET)
    places = list(slots(line.right + APART, on.step_x - INSET, count, -INSET))
    shapes = shapes_of(pieces)
    for lanes in itertools.count(1):
        filled = fill(shapes, _plane(on, lanes, (line, *places)), work=WORK[effort])
        if filled is not None:
            return _segments(pieces, filled, on), places, line
    raise AssertionError  # some number of lanes is as wide as any piece


def _plane(on: Grid, lanes: int, boxes: Sequence[Box]) -> Plane:
    """Return a plane of some lanes, boxes at its head taken; pieces keep clear of glue strips."""
    taken = tuple(
        Box(
            left=box.left - INSET,
            bottom=box.bottom + INSET - APART,
            right=box.right + APART,
            top=box.top + INSET,
        )
        for box in boxes
    )
    edges = tuple(
        (lane * on.step_x + (on.overlap if lane else 0.0), (lane + 1) * on.step_x - 2 * INSET)
        for lane in range(lanes)
    )
    return Plane(
        width=(lanes - 1) * on.step_x + on.window.width - 2 * INSET,
        apart=APART,
        lanes=edges if lanes > 1 else (),
        taken=taken,
    )


def _segments(pieces: Sequence[Piece], filled: Filled, on: Grid) -> Sheets:
    """Return what was filled cut into lanes, and into segments no longer than a page may be."""
    long = filled.length + 2 * INSET
    ends = 2 * on.margin + FOOT
    for segments in itertools.count(1):
        step = (long - on.overlap) / segments
        page = math.ceil(step + on.overlap + ends - 1e-6)
        if page <= LONGEST:
            break
    cut = of_height(on, height=page)
    top = segments * cut.step_y + cut.overlap - INSET
    spots = [replace(spot, x=spot.x + INSET, y=spot.y + top) for spot in filled.spots]
    return cut_into_pages(placements_of(pieces, spots), cut)
