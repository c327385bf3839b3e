"""A pattern on large sheets and rolls: as few or as short as can be, with its ticket among the
pieces and a strip at the foot for the copy shop.

Black lines alone, no grey, no fills. Millimetres; a roll's head is the top of the plane.
Imports the renderers of its parts.
"""

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from drafting.geometry import Box, Point, bounds, flattened, holds, moved_point
from drafting.pattern import Pattern
from drafting.piece import Piece, cutting_area, cutting_line
from drafting.spec import PaperName
from drafting.units import Mm
from render import style
from render.chosen import on_paper
from render.drawing import Anchor, Drawing, Kind, Layer, Page, Text, placed, together
from render.filling import Filled, Plane, Shape, Spot, fill, turns_of
from render.foot import FOOT, METRE, RULE_WIDE, check_length, check_line, cut_marks, foot_strip
from render.pages import Printed, bound, pattern_pages
from render.paper import LONGEST, ROLLS, Grid, Paper, grid, paper_metres
from render.placement import APART, Effort, Placement, Progress, place
from render.resized import resized
from render.room import Room, turned_box
from render.ticket import blocks
from render.tiling import Sheets, Tile, cut_into_pages
from render.words import edition_words, made_for

BLOCK = Box(left=0.0, bottom=0.0, right=180.0, top=140.0)
"""A block of the ticket: small enough for the corners that round panels leave, large enough for
the test square; three stand side by side on A1, four across a roll.
"""

CAPTION: Mm = 5.0
"""Height of the line over a block that tells which it is."""

INSET: Mm = 1.0
"""Pieces keep clear of the rim, so that no half of a line is clipped."""

_WORK = {Effort.QUICK: 0, Effort.USUAL: 5 * 10**9, Effort.THOROUGH: 10**11}


@dataclass(frozen=True, slots=True, kw_only=True)
class Inset:
    """A drawing set among the pieces: where on the plane, and what."""

    box: Box
    drawing: Drawing


@dataclass(frozen=True, slots=True, kw_only=True)
class Laid:
    """Pieces on large sheets.

    Attributes:
        insets: parts of the ticket and check lines among the pieces, in the plane's frame.
        further: parts of the ticket that need a sheet of their own.
    """

    sheets: Sheets
    insets: tuple[Inset, ...]
    further: tuple[Drawing, ...] = ()


def printed_large(
    pattern: Pattern,
    paper: PaperName,
    *,
    only: Sequence[str] = (),
    effort: Effort = Effort.USUAL,
    progress: Progress | None = None,
) -> Printed:
    """Return a pattern laid out on A0, A1 or a roll as its sheet's ``[print]`` asks.

    Raises:
        PaperError: margins and overlap leave too little of the paper.
        PieceWishError: a piece asked for cannot be printed.
    """
    wish, pieces = pattern.spec.print, on_paper(pattern, only)
    on = grid(paper, margin=wish.margin, overlap=wish.overlap)
    if paper in ROLLS:
        laid = _on_roll(pattern, pieces, on, effort)
    else:
        laid = _on_sheets(pattern, pieces, on, effort, progress)
    return bound(pattern, laid.sheets, tuple(_pages(pattern, laid)), Kind.LARGE)


def footed(paper: Paper) -> Paper:
    """Return a paper without the strip at its foot: what pieces may be laid on."""
    return replace(paper, height=paper.height - FOOT)


# --- the ticket in blocks -------------------------------------------------------------------


def _ticket(pattern: Pattern, sheets: Sheets) -> tuple[Drawing, ...]:
    """Return the ticket of large sheets in blocks, each from its own lower left corner."""
    set_ = blocks(
        pattern,
        sheets,
        BLOCK,
        check=_check_words(pattern),
        printing=_print_words(pattern, sheets),
        square=True,
    )
    return tuple(
        _cropped(together(block, _caption(f"ticket {number} of {len(set_)}")))
        for number, block in enumerate(set_, start=1)
    )


def _caption(words: str) -> Drawing:
    at = Point(BLOCK.right, BLOCK.top + 2.0)
    return Drawing(
        texts=(Text(text=words, at=at, size=style.NOTE, anchor=Anchor.END, layer=Layer.PAGE),)
    )


def _check_words(pattern: Pattern) -> list[str]:
    words = [
        "Before you pay: measure the check line at the sheet's foot, and the square across and up.",
        "The square is 100 mm each way; the marks inside it are whole inches.",
        "Within half a millimetre in 100, five in a metre, is good. If it is more, it was scaled:"
        " have it printed again at 100 %.",
    ]
    if pattern.spec.scale < 1:
        words.append(
            "This is a half-scale draft, 1 : 2, beside a full-scale square: print it at 100 %."
        )
    return words


def _print_words(pattern: Pattern, sheets: Sheets) -> list[str]:
    words = []
    count = len(sheets.tiles)
    if not sheets.joins:
        words.append(
            "Black, at 100 %, never “fit”. Nothing is joined:"
            + (" cut the pieces out." if count < 2 else " each sheet stands alone.")
        )
    else:
        overlap = sheets.grid.overlap
        words += [
            f"Black, at 100 %, never “fit”. {count} sheets are joined, as the map shows; they are"
            " named by row and column, rows from the top.",
            "Cut each sheet along its solid lines at the left and the top. Lay it on its neighbour"
            f" up to the dotted line and tape or glue; sheets overlap by {overlap:.0f} mm."
            if overlap
            else "Cut each sheet along its solid lines, butt them together and tape the back.",
            "A join lies true when its half rings close to a ring with one number. Beside it, the"
            " two strokes that meet nearest the middle tell how far off it is: a tenth of a"
            " millimetre for each stroke from the middle.",
        ]
    drawn = [placement.piece.name for placement in sheets.placements]
    if drawn != [piece.name for piece in on_paper(pattern)]:
        words.append(
            f"This file prints {' and '.join(drawn)} alone; the cut list names every piece."
        )
    return words


def _cropped(block: Drawing) -> Drawing:
    """Return a block moved down so that its last line stands at the foot of its frame."""
    return placed(block, y=-_lowest(block))


def _lowest(block: Drawing) -> Mm:
    texts = [text.at.y - 0.3 * text.size for text in block.texts]
    return min((*texts, *(bounds(stroke.path).bottom for stroke in block.strokes)))


def _size(block: Drawing) -> tuple[Mm, Mm]:
    """Return the width and height of a cropped block, its top line's own height with it."""
    tops = [text.at.y + text.size for text in block.texts]
    return BLOCK.width, max((*tops, *(bounds(stroke.path).top for stroke in block.strokes)))


# --- a roll ---------------------------------------------------------------------------------


def _shapes(pieces: Sequence[Piece]) -> list[Shape]:
    outlines = [flattened(cutting_line(piece), outside=True) for piece in pieces]
    return [Shape(outline=outline, turns=turns_of(outline)) for outline in outlines]


def _rectangle(wide: Mm, high: Mm, *turns: float) -> Shape:
    corners = (Point(0.0, 0.0), Point(wide, 0.0), Point(wide, high), Point(0.0, high))
    return Shape(outline=corners, turns=turns)


UPRIGHT_LINE = math.pi / 2
SPARED: Mm = 200.0
"""A metre line along a roll may make the roll this much longer, no more."""


def _on_roll(pattern: Pattern, pieces: Sequence[Piece], on: Grid, effort: Effort) -> Laid:
    """Return pieces on a roll: one sheet, or segments and lanes where one cannot hold them."""
    if not pieces:
        return _ticket_alone(pattern, on)
    ticket = _ticket(pattern, _unlaid(pieces, on))
    found = _filled(pieces, ticket, on.window.width, _WORK[effort])
    if found is not None:
        filled, line = found
        page = math.ceil(filled.length + 2 * INSET + 2 * on.margin + FOOT - 1e-6)
        if page <= LONGEST:
            return _one_sheet(pieces, ticket, line, filled, _sized(on, height=page))
    return _joined(pattern, pieces, on, effort)


def _unlaid(pieces: Sequence[Piece], on: Grid) -> Sheets:
    """Return pieces that have no place yet, as one sheet's: what its ticket is worded from."""
    laid = tuple(Placement(piece=piece, x=0.0, y=0.0, turn=0.0) for piece in pieces)
    return Sheets(grid=on, placements=laid, tiles=(), joins=(), lower_bound=0)


def _sized(on: Grid, *, height: Mm) -> Grid:
    """Return the grid of sheets of another height, their foot taken off."""
    return replace(on, paper=footed(replace(on.paper, height=height)))


def _filled(
    pieces: Sequence[Piece], ticket: Sequence[Drawing], width: Mm, work: int, enough: Mm = 0.0
) -> tuple[Filled, Mm] | None:
    """Return pieces, blocks and check line on one strip, and the line's length, 0 for none.

    None if a piece is wider than the strip.
    """
    plane = Plane(width=width - 2 * INSET, apart=APART)
    shapes = _shapes(pieces)
    shapes += [_rectangle(*_size(block), 0.0, math.pi / 2) for block in ticket]
    main = len(pieces)
    plain = fill(shapes, plane, work=work, main=main, enough=enough)
    if plain is None or check_length(width) == METRE:
        return None if plain is None else (plain, 0.0)
    line = _rectangle(METRE + 4, RULE_WIDE, UPRIGHT_LINE)
    spared = max(plain.length + SPARED, enough)
    lined = fill([*shapes, line], plane, work=work, main=main, enough=plain.length)
    if lined is not None and lined.length <= spared:
        return lined, METRE
    return plain, 0.0


def _one_sheet(
    pieces: Sequence[Piece], ticket: Sequence[Drawing], line: Mm, filled: Filled, on: Grid
) -> Laid:
    """Return what was filled as one sheet, its head at the top of the plane."""
    top = on.window.height - INSET
    spots = [replace(spot, x=spot.x + INSET, y=spot.y + top) for spot in filled.spots]
    placements = _placements(pieces, spots)
    drawings = [*ticket, *([check_line(line)] if line else [])]
    sizes = [*map(_size, ticket), (line + 4, RULE_WIDE)]
    insets = [
        _inset(drawing, size, spot)
        for drawing, size, spot in zip(drawings, sizes, spots[len(pieces) :], strict=False)
    ]
    window = Box(left=0.0, bottom=0.0, right=on.window.width, top=on.window.height)
    tile = Tile(row=1, column=1, window=window, pieces=tuple(piece.name for piece in pieces))
    sheets = Sheets(grid=on, placements=placements, tiles=(tile,), joins=(), lower_bound=1)
    return Laid(sheets=sheets, insets=tuple(insets))


def _placements(pieces: Sequence[Piece], spots: Sequence[Spot]) -> tuple[Placement, ...]:
    return tuple(
        Placement(piece=piece, x=spot.x, y=spot.y, turn=spot.turn)
        for piece, spot in zip(pieces, spots, strict=False)
    )


def _inset(drawing: Drawing, size: tuple[Mm, Mm], spot: Spot) -> Inset:
    corners = [
        moved_point(Point(x, y), x=spot.x, y=spot.y, turn=spot.turn)
        for x in (0.0, size[0])
        for y in (0.0, size[1])
    ]
    box = Box(
        left=min(p.x for p in corners),
        bottom=min(p.y for p in corners),
        right=max(p.x for p in corners),
        top=max(p.y for p in corners),
    )
    return Inset(box=box, drawing=placed(drawing, x=spot.x, y=spot.y, turn=spot.turn))


def _joined(pattern: Pattern, pieces: Sequence[Piece], on: Grid, effort: Effort) -> Laid:
    """Return pieces on several sheets of a roll: end to end, side by side, or both.

    Only what fits no lane at any turn lies across a join between lanes. The ticket and a metre
    line stand at the head of the first sheet.
    """
    slots = len(_ticket(pattern, _unlaid(pieces, on)))
    slots = len(_ticket(pattern, _lanes(pieces, on, slots, Effort.QUICK)[0]))
    while True:
        sheets, places, line = _lanes(pieces, on, slots, effort)
        ticket = _ticket(pattern, sheets)
        if len(ticket) <= slots:
            break
        slots = len(ticket)
    if sheets.tiles[0].name != "A1":
        return Laid(sheets=sheets, insets=(), further=ticket)
    top = sheets.tiles[0].window.top
    insets = [
        _inset(block, _size(block), Spot(x=at.left, y=top + at.top - _size(block)[1], turn=0.0))
        for block, at in zip(ticket, places, strict=False)
    ]
    long = check_length(min(line.height, sheets.grid.window.height - 4))
    ruled = _inset(
        check_line(long),
        (long + 4, RULE_WIDE),
        Spot(x=line.right, y=top + line.top - long - 4, turn=UPRIGHT_LINE),
    )
    return Laid(sheets=sheets, insets=(*insets, ruled))


def _lanes(
    pieces: Sequence[Piece], on: Grid, slots: int, effort: Effort
) -> tuple[Sheets, list[Box], Box]:
    """Return pieces on lanes and segments; where the ticket's blocks and the metre line lie.

    Those lie on the first lane, from the head of the plane at y 0 down.
    """
    line = Box(left=INSET, bottom=-METRE - 4 - INSET, right=INSET + RULE_WIDE, top=-INSET)
    places = list(_slots(line.right + APART, on.step_x - INSET, slots, -INSET))
    lanes = 1
    while True:
        plane = Plane(
            width=(lanes - 1) * on.step_x + on.window.width - 2 * INSET,
            apart=APART,
            lanes=tuple(
                (
                    lane * on.step_x + (on.overlap if lane else 0.0),
                    (lane + 1) * on.step_x - 2 * INSET,
                )
                for lane in range(lanes)
            )
            if lanes > 1
            else (),
            taken=tuple(
                Box(
                    left=box.left - INSET,
                    bottom=box.bottom + INSET - APART,
                    right=box.right + APART,
                    top=box.top + INSET,
                )
                for box in (line, *places)
            ),
        )
        filled = fill(_shapes(pieces), plane, work=_WORK[effort])
        if filled is not None:
            break
        lanes += 1
    long = filled.length + 2 * INSET
    kept = LONGEST - FOOT - 2 * on.margin - on.overlap
    segments = max(1, math.ceil((long - on.overlap) / kept - 1e-9))
    step = (long - on.overlap) / segments
    page = math.ceil(step + on.overlap + 2 * on.margin + FOOT - 1e-6)
    if page > LONGEST:
        segments += 1
        page = math.ceil((long - on.overlap) / segments + on.overlap + 2 * on.margin + FOOT - 1e-6)
    cut = _sized(on, height=page)
    top = segments * cut.step_y + cut.overlap - INSET
    spots = [replace(spot, x=spot.x + INSET, y=spot.y + top) for spot in filled.spots]
    return cut_into_pages(_placements(pieces, spots), cut), places, line


def _slots(left: Mm, right: Mm, count: int, top: Mm) -> Iterator[Box]:
    """Yield places for blocks side by side, then under each other, from the head at ``top``."""
    across = max(1, int((right - left + APART) / (BLOCK.width + APART)))
    for k in range(count):
        x = left + k % across * (BLOCK.width + APART)
        y = top - k // across * ((BLOCK.height + CAPTION) + APART)
        yield Box(left=x, bottom=y - (BLOCK.height + CAPTION), right=x + BLOCK.width, top=y)


# --- sheets ---------------------------------------------------------------------------------


def _on_sheets(
    pattern: Pattern,
    pieces: Sequence[Piece],
    on: Grid,
    effort: Effort,
    progress: Progress | None,
) -> Laid:
    """Return pieces on A0 or A1, upright or across, whichever takes fewer sheets."""
    across = replace(on, paper=_turned(on.paper))
    ways = [replace(way, paper=footed(way.paper)) for way in (across, on)]
    if not pieces:
        return _ticket_alone(pattern, across)
    ticket = _ticket(pattern, _unlaid(pieces, ways[0]))
    for with_ticket in (ticket, ()):
        for way in ways:
            if area_of(pieces) > FULLEST * way.window.width * way.window.height:
                continue
            room = way.window.height - 2 * INSET
            found = _filled(pieces, with_ticket, way.window.width, _WORK[effort] // 4, room)
            if found is not None and found[0].length <= room:
                one = _one_sheet(pieces, with_ticket, found[1], found[0], way)
                return one if with_ticket else replace(one, further=ticket)
    # Fewer sheets than this there cannot be, and nothing has to be joined.
    least = math.ceil(area_of(pieces) / (ways[0].window.width * ways[0].window.height))
    for way in ways:
        uncut = _uncut(pieces, way, max(2, least), _WORK[effort] // 4)
        if uncut is not None:
            return _among(pattern, uncut)
    wide = pattern.spec.print.widest
    plans = [cut_into_pages(_placed(pieces, way, effort, wide, progress), way) for way in ways]
    fewest = min(plans, key=lambda plan: len(plan.tiles))
    whole = (
        _uncut(pieces, way, count, _WORK[effort] // 4)
        for count in range(max(2, least) + 1, len(fewest.tiles) + 1)
        for way in ways
    )
    return _among(pattern, next((sheets for sheets in whole if sheets is not None), fewest))


BETWEEN: Mm = 100.0
"""From one sheet to the next on the plane, where nothing joins them."""


def _uncut(pieces: Sequence[Piece], on: Grid, count: int, work: int) -> Sheets | None:
    """Return every piece whole on one of some sheets that need no joining, or None."""
    window, pitch = on.window, on.window.width + BETWEEN
    if area_of(pieces) > FULLEST * count * window.width * window.height:
        return None
    plane = Plane(
        width=(count - 1) * pitch + window.width - 2 * INSET,
        apart=APART,
        lanes=tuple(
            (lane * pitch, lane * pitch + window.width - 2 * INSET) for lane in range(count)
        ),
    )
    room = window.height - 2 * INSET
    filled = fill(_shapes(pieces), plane, work=work, enough=room)
    if filled is None or filled.length > room:
        return None
    placements = _placements(
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
        grid=on, placements=placements, tiles=tuple(tiles), joins=(), lower_bound=len(tiles)
    )


def _laid_box(placement: Placement) -> Box:
    return bounds(placement.on_plane(cutting_line(placement.piece)))


def area_of(pieces: Sequence[Piece]) -> float:
    """Return the area of some pieces together, in mm2."""
    return math.fsum(cutting_area(piece) for piece in pieces)


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
    ticket = _ticket(pattern, sheets)
    sizes = [_size(block) for block in ticket]
    find = _finder(sheets)
    insets: list[Inset] = []
    for number, (block, size) in enumerate(zip(ticket, sizes, strict=True)):
        # The test square must stand on the first sheet.
        tiles = sheets.tiles[:1] if number == 0 else sheets.tiles
        spot = find(size, (0.0, math.pi / 2), tiles)
        if spot is None:
            insets = []
            break
        insets.append(_inset(block, size, spot))
    further = () if insets else ticket
    long = METRE
    if check_length(sheets.grid.window.width) < long and not further:
        spot = find((long + 4, RULE_WIDE), (UPRIGHT_LINE,), sheets.tiles[:1])
        if spot is not None:
            insets.append(_inset(check_line(long), (long + 4, RULE_WIDE), spot))
    return Laid(sheets=sheets, insets=tuple(insets), further=further)


_LATTICE: Mm = 12.0

Finder = Callable[[tuple[Mm, Mm], Sequence[float], Sequence[Tile]], Spot | None]


def _finder(sheets: Sheets) -> Finder:
    """Return a function that finds a free place for a rectangle on some sheets and takes it."""
    outlines = [p.on_plane(cutting_line(p.piece)) for p in sheets.placements]
    polygons = [flattened(outline) for outline in outlines]
    rooms: dict[str, Room] = {}
    for tile in sheets.tiles:
        rooms[tile.name] = Room(box=tile.window.grown(-sheets.grid.overlap - 1), cell=6.0)
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


def _ticket_alone(pattern: Pattern, on: Grid) -> Laid:
    """Return a pattern of which no piece is printed: its ticket on a sheet of its own."""
    sheets = Sheets(grid=on, placements=(), tiles=(), joins=(), lower_bound=0)
    ticket = _ticket(pattern, sheets)
    if on.paper.name in ROLLS:
        rows = math.ceil(len(ticket) / _columns(on.window.width))
        deep = rows * ((BLOCK.height + CAPTION) + APART)
        sheets = replace(sheets, grid=_sized(on, height=deep + 2 * on.margin + FOOT))
    else:
        sheets = replace(sheets, grid=replace(on, paper=footed(on.paper)))
    return Laid(sheets=sheets, insets=(), further=ticket)


def _columns(width: Mm) -> int:
    return max(1, int((width - RULE_WIDE) / (BLOCK.width + APART)))


# --- pages ----------------------------------------------------------------------------------


def _pages(pattern: Pattern, laid: Laid) -> Iterator[Page]:
    """Yield the pages, each with its foot: a sheet for the ticket first if there is one."""
    sheets = laid.sheets
    raw = [
        *_further_pages(laid),
        *pattern_pages(pattern, sheets, [inset.box for inset in laid.insets]),
    ]
    tiles = {tile.name: tile for tile in sheets.tiles}
    kept = [replace(page, height=page.height + FOOT) for page in raw]
    for number, page in enumerate(raw, start=1):
        drawing = page.drawing
        tile = tiles.get(page.label)
        if tile is not None:
            dx = sheets.grid.margin - tile.window.left
            dy = sheets.grid.margin - tile.window.bottom
            drawing = together(
                _black(drawing, named=len(raw) > 1),
                *(
                    placed(inset.drawing, x=dx, y=dy)
                    for inset in laid.insets
                    if tile.window.holds(inset.box)
                ),
            )
        window = page.window
        area = Box(
            left=window.left, bottom=window.bottom, right=window.right, top=window.top + FOOT
        )
        strip = foot_strip(
            page.width,
            sheets.grid.margin,
            pattern.spec.title,
            _facts(pattern, sheets, page, kept),
            _orders(pattern, page, number, len(raw)),
        )
        yield replace(
            page,
            height=page.height + FOOT,
            window=replace(window, bottom=window.bottom + FOOT, top=window.top + FOOT),
            drawing=placed(drawing, y=FOOT),
            foot=together(strip, cut_marks(area)),
        )


def _black(drawing: Drawing, *, named: bool) -> Drawing:
    """Return a page's drawing without grey; a sheet that stands alone needs no name."""
    texts: list[Text] = []
    for text in drawing.texts:
        if text.grey:
            text = replace(text, grey=0.0, bold=False)
        if named or text.layer is not Layer.PAGE:
            texts.append(text)
    return replace(drawing, texts=tuple(texts))


def _further_pages(laid: Laid) -> list[Page]:
    """Return the sheets that hold the ticket in columns, if it needs any."""
    on, window = laid.sheets.grid, laid.sheets.grid.window
    if not laid.further:
        return []
    left = window.left + RULE_WIDE + APART
    down = max(1, int((window.height + APART) / ((BLOCK.height + CAPTION) + APART)))
    per = down * max(1, int((window.right - left + APART) / (BLOCK.width + APART)))
    pages: list[Page] = []
    for first in range(0, len(laid.further), per):
        own = laid.further[first : first + per]
        parts = [
            placed(block, x=at.left, y=at.top - _size(block)[1])
            for block, at in zip(own, _slots(left, window.right, len(own), window.top), strict=True)
        ]
        if not first:
            long = check_length(window.height - 4)
            line = check_line(long)
            at = window.left + RULE_WIDE
            parts.append(placed(line, x=at, y=window.bottom, turn=UPRIGHT_LINE))
        pages.append(
            Page(
                width=on.paper.width,
                height=on.paper.height,
                window=window,
                drawing=together(*parts),
                label=f"ticket {len(pages) + 1}",
                bookmark="" if first else "Ticket: check, print, cut, know",
            )
        )
    return pages


def _facts(pattern: Pattern, sheets: Sheets, page: Page, pages: Sequence[Page]) -> list[str]:
    """Return what a sheet is: for whom, its edition, its size, metres of a roll."""
    spec, paper = pattern.spec, sheets.grid.paper
    facts = [made_for(spec), edition_words(spec)]
    size = f"{page.width:g} × {page.height + FOOT:.0f} mm"
    if paper.name in ROLLS:
        facts.append(
            f"{paper.title}, {size}: {paper_metres(page.height for page in pages):.1f} m of paper"
        )
    else:
        facts.append(f"{paper.title}, {size}")
    return [fact for fact in facts if fact]


def _orders(pattern: Pattern, page: Page, number: int, count: int) -> list[str]:
    orders = ["Print at 100 %, black", "Do not scale, do not fit, do not split"]
    if count == 1:
        return [*orders, "Single page"]
    named = "" if page.label.startswith("ticket") else f", {page.label}"
    return [*orders, f"Single pages: this is {number} of {count}{named}"]
