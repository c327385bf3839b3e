"""Pieces on A0 or A1: on one sheet, whole on a few, or joined as small pages are.

Millimetres on the plane. Imports filling, placement, tiling, room and what is set among pieces.
"""

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace

from drafting.geometry import Box, Point, bounds, flattened, holds
from drafting.pattern import Pattern
from drafting.piece import Piece, cutting_line
from drafting.units import Mm
from render.filling import Plane, Spot, fill, narrowest
from render.foot import METRE, RULE_WIDE, check_length, check_line
from render.laid import (
    INSET,
    UPRIGHT_LINE,
    WORK,
    Inset,
    Laid,
    area_of,
    filled_strip,
    footed,
    inset_at,
    one_sheet,
    placements_of,
    shapes_of,
    unlaid,
)
from render.large_ticket import block_size, large_ticket
from render.paper import Grid, Paper
from render.placement import APART, Effort, Placement, Progress, place
from render.resized import resized
from render.room import Room, turned_box
from render.tiling import Sheets, Tile, area_bound, cut_into_pages


def on_sheets(
    pattern: Pattern,
    pieces: Sequence[Piece],
    on: Grid,
    effort: Effort,
    progress: Progress | None,
) -> Laid:
    """Return pieces on A0 or A1, upright or across, whichever takes fewer sheets."""
    across = replace(on, paper=_turned(on.paper))
    ways = [replace(way, paper=footed(way.paper)) for way in (across, on)]
    ticket = large_ticket(pattern, unlaid(pieces, ways[0]))
    for with_ticket in (ticket, ()):
        for way in ways:
            if area_of(pieces) > FULLEST * way.window.width * way.window.height:
                continue
            room = way.window.height - 2 * INSET
            found = filled_strip(pieces, with_ticket, way.window.width, WORK[effort] // 4, room)
            if found is not None and found[0].length <= room:
                one = one_sheet(pieces, with_ticket, found[1], found[0], way)
                return one if with_ticket else replace(one, further=ticket)
    # Fewer sheets than this there cannot be, and nothing has to be joined.
    least = math.ceil(area_of(pieces) / (ways[0].window.width * ways[0].window.height))
    for way in ways:
        uncut = _uncut(pieces, way, max(2, least), WORK[effort] // 4)
        if uncut is not None:
            return _among(pattern, uncut)
    wide = pattern.spec.print.widest
    plans = [
        cut_into_pages(_placed(pieces, way, Effort.QUICK, wide, progress), way) for way in ways
    ]
    fewest = min(plans, key=lambda plan: len(plan.tiles))
    # One sheet was not enough: two, and as many as the area fills, cannot be bettered.
    can_be_fewer = len(fewest.tiles) > max(2, least)
    if effort is Effort.THOROUGH or (effort is Effort.USUAL and can_be_fewer):
        searched = _placed(pieces, fewest.grid, effort, wide, progress)
        fewest = cut_into_pages(searched, fewest.grid)
    whole = (
        _uncut(pieces, way, count, WORK[effort] // 4)
        for count in range(max(2, least) + 1, len(fewest.tiles) + 1)
        for way in ways
    )
    return _among(pattern, next((sheets for sheets in whole if sheets is not None), fewest))


BETWEEN: Mm = 100.0
"""From one sheet to the next on the plane, where nothing joins them."""


def _uncut(pieces: Sequence[Piece], on: Grid, count: int, work: int) -> Sheets | None:
    """Return every piece whole on one of some sheets that need no joining, or None."""
    window, pitch = on.window, on.window.width + BETWEEN
    shapes = shapes_of(pieces)
    if area_of(pieces) > FULLEST * count * window.width * window.height or any(
        narrowest(shape.outline) > min(window.width, window.height) for shape in shapes
    ):
        return None
    plane = Plane(
        width=(count - 1) * pitch + window.width - 2 * INSET,
        apart=APART,
        lanes=tuple(
            (lane * pitch, lane * pitch + window.width - 2 * INSET) for lane in range(count)
        ),
    )
    room = window.height - 2 * INSET
    filled = fill(shapes, plane, work=work, enough=room)
    if filled is None or filled.length > room:
        return None
    placements = placements_of(
        pieces,
        [replace(s, x=s.x + INSET, y=s.y + window.height - INSET) for s in filled.spots],
    )
    tiles: list[Tile] = []
    for lane in range(count):
        left = lane * pitch
        space = Box(left=left, bottom=0.0, right=left + window.width, top=window.height)
        held = [p.piece.name for p in placements if space.holds(_laid_box(p))]
        if held:
            tiles.append(Tile(row=1, column=len(tiles) + 1, window=space, pieces=tuple(held)))
    if sum(len(tile.pieces) for tile in tiles) < len(pieces):
        return None  # one of them is wider than a sheet
    return Sheets(
        grid=on,
        placements=placements,
        tiles=tuple(tiles),
        joins=(),
        # Sheets that nothing is glued to hold a little more.
        lower_bound=min(len(tiles), area_bound(placements, on)),
    )


def _laid_box(placement: Placement) -> Box:
    return bounds(placement.on_plane(cutting_line(placement.piece)))


SMALLER = 0.4
"""Large sheets are laid out at this scale, so that they have as many cells as small ones have."""


def _placed(
    pieces: Sequence[Piece], on: Grid, effort: Effort, widest: Mm, progress: Progress | None
) -> tuple[Placement, ...]:
    """Return places that open few sheets, searched for at a smaller scale."""
    small = Grid(
        paper=replace(on.paper, width=on.paper.width * SMALLER, height=on.paper.height * SMALLER),
        margin=on.margin * SMALLER,
        overlap=on.overlap * SMALLER,
    )
    found = place(
        [resized(piece, SMALLER) for piece in pieces],
        small,
        effort=effort,
        widest=widest * SMALLER,
        progress=progress,
    )
    return tuple(
        Placement(piece=piece, x=p.x / SMALLER, y=p.y / SMALLER, turn=p.turn)
        for piece, p in zip(pieces, found, strict=True)
    )


FULLEST = 0.9
"""Pieces of any skirt leave more of a sheet free than the rest."""


def _turned(paper: Paper) -> Paper:
    return replace(paper, width=paper.height, height=paper.width)


def _among(pattern: Pattern, sheets: Sheets) -> Laid:
    """Return sheets with the ticket and a metre line in their free places, or on a further one."""
    ticket = large_ticket(pattern, sheets)
    sizes = [block_size(block) for block in ticket]
    find = _finder(sheets)
    insets: list[Inset] = []
    for number, (block, size) in enumerate(zip(ticket, sizes, strict=True)):
        # The test square must stand on the first sheet.
        tiles = sheets.tiles[:1] if number == 0 else sheets.tiles
        spot = find(size, (0.0, math.pi / 2), tiles)
        if spot is None:
            insets = []
            break
        insets.append(inset_at(block, size, spot))
    further = () if insets else ticket
    long = METRE
    if check_length(sheets.grid.window.width) < long and not further:
        spot = find((long + 4, RULE_WIDE), (UPRIGHT_LINE,), sheets.tiles[:1])
        if spot is not None:
            insets.append(inset_at(check_line(long), (long + 4, RULE_WIDE), spot))
    return Laid(sheets=sheets, insets=tuple(insets), further=further)


_LATTICE: Mm = 20.0


Finder = Callable[[tuple[Mm, Mm], Sequence[float], Sequence[Tile]], Spot | None]


def _finder(sheets: Sheets) -> Finder:
    """Return a function that finds a free place for a rectangle on some sheets and takes it."""
    outlines = [p.on_plane(cutting_line(p.piece)) for p in sheets.placements]
    polygons = [flattened(outline) for outline in outlines]
    rooms: dict[str, Room] = {}
    for tile in sheets.tiles:
        rooms[tile.name] = Room(box=tile.window.grown(-sheets.grid.overlap - 1), cell=8.0)
        for outline in outlines:
            rooms[tile.name].enter(outline)

    def find(size: tuple[Mm, Mm], turns: Sequence[float], tiles: Sequence[Tile]) -> Spot | None:
        for tile in tiles:
            room = rooms[tile.name]
            for turn in turns:
                wide, high = size if turn == 0.0 else size[::-1]
                for middle in _lattice(room.box, wide, high):
                    corners = turned_box(middle, wide + APART, high + APART, 0.0)
                    if room.is_free(corners) and not any(holds(p, middle) for p in polygons):
                        room.claim(corners)
                        left, bottom = middle.x - wide / 2, middle.y - high / 2
                        return Spot(x=left if turn == 0.0 else left + wide, y=bottom, turn=turn)
        return None

    return find


def _lattice(box: Box, wide: Mm, high: Mm) -> Iterator[Point]:
    """Yield middles of rectangles inside a box, from its top left corner on."""
    left, top = box.left + (wide + APART) / 2, box.top - (high + APART) / 2
    columns = int((box.right - wide - APART - box.left) / _LATTICE) + 1
    rows = int((box.top - high - APART - box.bottom) / _LATTICE) + 1
    for row in range(rows):
        for column in range(columns):
            yield Point(left + column * _LATTICE, top - row * _LATTICE)
