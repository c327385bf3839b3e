"""A pattern for a projector over the cutting table: a page to calibrate by, all pieces on one
plane, then a page a piece, and the ticket last.

Lines are bold enough to be seen on cloth, and keep their rhythm. Everything is drawn at half
its size and then doubled, so that words and marks come out twice as large beside pieces of
true size. Pieces lie with their grain level, along the table. Millimetres. Imports the
renderers of its parts.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from drafting.geometry import Box, Path, Point, bounds, flattened, rim, scaled, straight
from drafting.language import say, say_as
from drafting.pattern import Pattern
from drafting.piece import Piece, cutting_line
from drafting.piece_names import piece_words
from drafting.spec import PaperName
from drafting.units import Mm, Units, length_text
from render import fonts, style
from render.chosen import on_paper
from render.drawing import (
    Anchor,
    Drawing,
    Kind,
    Layer,
    Page,
    Pen,
    Stroke,
    Text,
    layer_words,
    placed,
    together,
)
from render.filling import Plane, Shape, fill
from render.imprint import (
    Block,
    Imprint,
    coded_blocks,
    imprint_of,
    larger,
    set_in_room,
    worded_blocks,
)
from render.pages import Printed, bound
from render.paper import LONGEST, PAPERS, Grid, Paper, PaperError, grid
from render.piece_drawing import piece_lines
from render.piece_words import label_and_words
from render.placement import Placement
from render.resized import resized
from render.room import CELL, Room
from render.spots import Spots, text_box
from render.ticket import blocks, pieces_named
from render.tiling import Sheets, Tile

TWICE = 2.0
EDGE: Mm = 10.0
"""Blank at the edge of every page."""

RIM: Mm = 60.0
"""Room round the pieces of a page: words and notches stand in it."""

APART: Mm = 30.0
"""Pieces on one page keep this distance: bold lines and words lie between them."""

SMALLER = 0.2
"""Scale at which they are laid, for filling keeps small distances alone."""

FRAME = (900.0, 600.0)
"""The frame to calibrate by fits into the picture of most projectors above a table."""

FINE_STEP: Mm = 50.0
STEP: Mm = 100.0

BOLDEST = Pen(width=2.0)
BOLD = Pen(width=1.6)
THIN = Pen(width=1.2)
BETWEEN = Pen(width=1.2, dash=(8.0, 4.5))
GRID = Pen(width=0.8, grey=0.6)
"""The one line that is thin and light: it lies under all others, and can be switched off."""


def shown_by_projector(pattern: Pattern, *, only: Sequence[str] = ()) -> Printed:
    """Return a pattern laid out for a projector.

    Raises:
        PaperError: the pieces take a page longer than a file may have.
        PieceWishError: a piece asked for cannot be drawn.
    """
    pieces = on_paper(pattern, only)
    sheets = _plane(pieces)
    pages = [_calibration(pattern)]
    numbers = {piece.name: number for number, piece in enumerate(pattern.pieces, start=1)}
    own: list[Page] = []
    halves: list[_Half] = []
    for placement in sheets.placements:
        name, alone = placement.piece.name, _alone(placement)
        page, worded = _page(pattern, [_half(alone)], f"piece {numbers[name]}")
        called = say_as("page", "piece {number}", number=numbers[name])
        own.append(replace(page, called=called, bookmark=piece_words(name)))
        halves.append(_as_on(placement, alone, worded[0]))
    if pieces:
        page, _ = _page(pattern, halves, ALL_PIECES)
        called, bookmark = say_as("page", "all pieces"), say("All pieces")
        pages += [replace(page, called=called, bookmark=bookmark), *own]
    pages += _ticket(pattern, sheets)
    return bound(pattern, sheets, tuple(pages), Kind.PROJECTOR)


ALL_PIECES = "all pieces"
"""Label of the page that shows the whole plane."""


# --- where pieces lie -----------------------------------------------------------------------


def _level(piece: Piece) -> float:
    """Return the turn that lays a piece's grain level."""
    one, other = piece.grainline
    return -math.atan2(other.y - one.y, other.x - one.x)


def _alone(placement: Placement) -> Placement:
    """Return a piece as it lies on the plane, moved to a page of its own.

    It moves by whole cells of the room for words, so that words free on one page are so on both.
    """
    box, cell = _box(placement), CELL * TWICE
    return replace(
        placement,
        x=placement.x - cell * math.floor((box.left - RIM) / cell + 1e-6),
        y=placement.y - cell * math.floor((box.bottom - RIM) / cell + 1e-6),
    )


def _box(placement: Placement) -> Box:
    return bounds(placement.on_plane(cutting_line(placement.piece)))


def _plane(pieces: Sequence[Piece]) -> Sheets:
    """Return all pieces on one plane, their rim with it, on the smallest page that was found.

    Raises:
        PaperError: they do not fit on the largest page.
    """
    placements = _placements(pieces)
    boxes = [_box(placement) for placement in placements]
    width, height = _extent(boxes)
    window = Box(left=EDGE, bottom=EDGE, right=width - EDGE, top=height - EDGE)
    paper: Paper = replace(PAPERS[PaperName.PROJECTOR], width=width, height=height, margin=EDGE)
    names = tuple(piece.name for piece in pieces)
    tiles = (Tile(row=1, column=1, window=window, pieces=names),) if pieces else ()
    return Sheets(
        grid=Grid(paper=paper, margin=EDGE, overlap=0.0),
        placements=placements,
        tiles=tiles,
        joins=(),
        lower_bound=len(tiles),
    )


def _extent(boxes: Sequence[Box]) -> tuple[Mm, Mm]:
    """Return the width and height of a page that holds some pieces and their rim."""
    right = max((box.right for box in boxes), default=0.0)
    top = max((box.top for box in boxes), default=0.0)
    return float(math.ceil(right + RIM - 1e-6)), float(math.ceil(top + RIM - 1e-6))


def _placements(pieces: Sequence[Piece]) -> tuple[Placement, ...]:
    if not pieces:
        return ()
    shapes = [
        Shape(
            outline=flattened(scaled(cutting_line(piece), SMALLER), outside=True),
            turns=(_level(piece), _level(piece) + math.pi),
        )
        for piece in pieces
    ]
    widest = max(
        _box(Placement(piece=piece, x=0.0, y=0.0, turn=_level(piece))).width for piece in pieces
    )
    most = LONGEST - 2 * RIM - 1.0  # pages are whole millimetres
    found = [
        (width, filled)
        for width in sorted({min(widest * by + 1.0, most) for by in _WIDTHS})
        for plane in [Plane(width=width * SMALLER, apart=APART * SMALLER)]
        for filled in [fill(shapes, plane, work=_WORK)]
        if filled is not None and filled.length <= most * SMALLER
    ]
    if widest > most or not found:
        raise PaperError(
            f"the pieces do not fit on one page of {LONGEST / 1000:.2f} m, the largest that a file"
            " may have; show fewer at a time with --piece"
        )
    _, filled = min(found, key=lambda one: (one[0] + 2 * RIM) * (one[1].length / SMALLER + 2 * RIM))
    top = filled.length / SMALLER + RIM
    return tuple(
        Placement(piece=piece, x=spot.x / SMALLER + RIM, y=spot.y / SMALLER + top, turn=spot.turn)
        for piece, spot in zip(pieces, filled.spots, strict=True)
    )


_WIDTHS = (1.0, 1.25, 1.6, 2.0, 2.5, 3.2)
"""Widths of the plane to try, over the width of the widest piece."""

_WORK = 10**7


# --- pages of pieces ------------------------------------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class _Half:
    """A piece at half its size where it lies on a page.

    Attributes:
        whole: the same at true size.
        words: those it has on another page, moved to this one.
    """

    whole: Placement
    placement: Placement
    words: tuple[Text, ...] = ()


def _half(whole: Placement) -> _Half:
    half = resized(whole.piece, 1 / TWICE)
    placement = Placement(piece=half, x=whole.x / TWICE, y=whole.y / TWICE, turn=whole.turn)
    return _Half(whole=whole, placement=placement)


def _as_on(whole: Placement, other: Placement, worded: Sequence[Text]) -> _Half:
    """Return a piece with the words that it has on another page."""
    dx, dy = (whole.x - other.x) / TWICE, (whole.y - other.y) / TWICE
    return replace(_half(whole), words=placed(Drawing(texts=tuple(worded)), x=dx, y=dy).texts)


def _page(
    pattern: Pattern, halves: Sequence[_Half], label: str
) -> tuple[Page, list[tuple[Text, ...]]]:
    """Return a page of pieces, as large as they and their rim are, and the words of each."""
    width, height = _extent([_box(half.whole) for half in halves])
    window = Box(left=EDGE, bottom=EDGE, right=width - EDGE, top=height - EDGE)
    lines = [stroke for half in halves for stroke in piece_lines(half.placement)]
    half_window = Box(
        left=window.left / TWICE,
        bottom=window.bottom / TWICE,
        right=window.right / TWICE,
        top=window.top / TWICE,
    )
    room = Room(box=half_window)
    for stroke in lines:
        room.enter(stroke.path)
    words = [_worded(pattern, half, room) for half in halves]
    texts = tuple(text for own in words for text in own)
    drawing = _doubled(Drawing(strokes=tuple(lines), texts=texts))
    grid_lines = _grid(window)
    signed = _imprinted(imprint_of(pattern.spec), half_window, room, grid_lines)
    page = Page(
        width=width,
        height=height,
        window=window,
        drawing=together(grid_lines, drawing, signed),
        label=label,
    )
    return page, words


def _worded(pattern: Pattern, half: _Half, room: Room) -> tuple[Text, ...]:
    """Return a piece's words, those it has already if all are free here too; room is claimed."""
    boxes = [text_box(text) for text in half.words]
    if boxes and all(room.is_free(box) for box in boxes):
        for box in boxes:
            room.claim(box)
        return half.words
    return label_and_words(
        half.placement, pattern, Spots(clear=room, uncut=room), named=half.whole.piece
    )


def _imprinted(
    imprint: Imprint | None, half_window: Box, room: Room, grid_lines: Drawing
) -> Drawing:
    """Return the imprint of a page, doubled; its code keeps clear of the grid's lines too."""
    if imprint is None:
        return Drawing()
    between = Room(box=half_window)
    for stroke in grid_lines.strokes:
        between.enter(scaled(stroke.path, 1 / TWICE))
    found = set_in_room(imprint, half_window, (room,), code_off=between)
    return Drawing() if found is None else larger(found, TWICE)


def _doubled(drawing: Drawing) -> Drawing:
    """Return a drawing twice as large, its lines bold."""
    return Drawing(
        strokes=tuple(
            replace(
                stroke,
                path=scaled(stroke.path, TWICE),
                pen=bold(stroke.pen),
                phase=stroke.phase * TWICE,
            )
            for stroke in drawing.strokes
        ),
        texts=tuple(
            replace(
                text,
                at=Point(text.at.x * TWICE, text.at.y * TWICE),
                size=text.size * TWICE,
            )
            for text in drawing.texts
        ),
    )


def bold(pen: Pen) -> Pen:
    """Return a pen for cloth: 1.2 to 2 mm wide, its rhythm kept and twice as long."""
    like = BOLDEST if pen.width >= 0.7 else BOLD if pen.width >= 0.5 else THIN
    return replace(like, dash=tuple(dash * TWICE for dash in pen.dash))


def _grid(window: Box) -> Drawing:
    """Return light lines each 100 mm from the window's lower left corner, on their own layer."""
    paths = [*_across(window, STEP), *_up(window, STEP)]
    return Drawing(strokes=tuple(Stroke(path=path, pen=GRID, layer=Layer.GRID) for path in paths))


def _across(box: Box, step: Mm) -> Iterator[Path]:
    """Yield upright lines across a box, a step apart."""
    for k in range(math.floor(box.width / step + 1e-9) + 1):
        x = box.left + k * step
        yield straight(Point(x, box.bottom), Point(x, box.top))


def _up(box: Box, step: Mm) -> Iterator[Path]:
    for k in range(math.floor(box.height / step + 1e-9) + 1):
        y = box.bottom + k * step
        yield straight(Point(box.left, y), Point(box.right, y))


# --- the page to calibrate by ---------------------------------------------------------------

_LARGE: Mm = 26.0
_SIZE: Mm = 12.0
_LEADING = 1.45
_BESIDE: Mm = 60.0
_CROSS: Mm = 25.0


def _calibration(pattern: Pattern) -> Page:
    """Return the page with the frame, its measures, and how to go about it under it."""
    wide, high = FRAME
    units = pattern.spec.units
    steps = [
        row for words in _steps(units) for row in (*fonts.wrapped(words, _SIZE, wide - 20), "")
    ]
    signed = _calibration_imprint(imprint_of(pattern.spec), wide)
    steps_deep = len(steps) * _SIZE * _LEADING + 2 * _LARGE
    deep = steps_deep + signed.height
    page_wide, page_high = wide + 2 * _BESIDE, high + 2 * _BESIDE + deep
    frame = Box(
        left=_BESIDE, bottom=_BESIDE + deep, right=_BESIDE + wide, top=_BESIDE + deep + high
    )
    texts = [*_measures(frame, units)]
    y = frame.bottom - _BESIDE - _LARGE * 0.7
    heading = say("Calibrate the projector first")
    texts.append(_words(heading, frame.left, y, _LARGE, bold=True))
    for row in steps:
        y -= _SIZE * (_LEADING if row else 0.6)
        if row:
            texts.append(_words(row, frame.left, y - _SIZE * 0.6, _SIZE))
    foot = placed(signed.drawing, x=frame.left, y=EDGE + _SIZE)
    return Page(
        width=page_wide,
        height=page_high,
        window=Box(left=EDGE, bottom=EDGE, right=page_wide - EDGE, top=page_high - EDGE),
        drawing=together(Drawing(strokes=tuple(_frame(frame)), texts=tuple(texts)), foot),
        label="calibration",
        called=say_as("page", "calibration"),
        bookmark=heading,
    )


def _calibration_imprint(imprint: Imprint | None, wide: Mm) -> Block:
    """Return what stands under the steps, in their type; nothing where there is no imprint."""
    if imprint is None:
        return Block(drawing=Drawing(), width=0.0, height=0.0)
    by = _SIZE / style.NOTE
    block = next(iter((*coded_blocks(imprint), *worded_blocks(imprint, wide / by))))
    drawing = larger(block.drawing, by)
    return Block(drawing=drawing, width=block.width * by, height=block.height * by + _SIZE)


def _frame(frame: Box) -> Iterator[Stroke]:
    """Yield the frame, the lines inside it, broken each 50 mm and bold each 100, the crosses."""
    for way in (_across, _up):
        for k, path in enumerate(way(frame, FINE_STEP)):
            # The outermost lines are the frame's own.
            if 0 < k < round((frame.width if way is _across else frame.height) / FINE_STEP):
                yield Stroke(path=path, pen=BETWEEN if k % 2 else BOLDEST, layer=Layer.PAGE)
    yield Stroke(path=rim(frame), pen=BOLDEST, layer=Layer.PAGE)
    for x, along in ((frame.left, -1), (frame.right, 1)):
        for y, up in ((frame.bottom, -1), (frame.top, 1)):
            yield Stroke(
                path=straight(Point(x, y), Point(x + along * _CROSS, y)),
                pen=BOLDEST,
                layer=Layer.PAGE,
            )
            yield Stroke(
                path=straight(Point(x, y), Point(x, y + up * _CROSS)),
                pen=BOLDEST,
                layer=Layer.PAGE,
            )


def _measures(frame: Box, units: Units) -> Iterator[Text]:
    """Yield what the frame measures, along its upper and its left edge."""
    wide, high = _told(frame.width, units), _told(frame.height, units)
    middle = frame.centre
    yield _words(
        say("across (X): {length}", length=wide),
        middle.x,
        frame.top + 20,
        18.0,
        bold=True,
        anchor=Anchor.MIDDLE,
    )
    yield _words(
        say("up (Y): {length}", length=high),
        frame.left - 20,
        middle.y,
        18.0,
        bold=True,
        anchor=Anchor.MIDDLE,
        angle=math.pi / 2,
    )
    for k in range(1, round(frame.width / STEP)):
        x = frame.left + k * STEP
        yield _words(f"{k * STEP:.0f}", x, frame.bottom - 16, _SIZE, anchor=Anchor.MIDDLE)
    for k in range(1, round(frame.height / STEP)):
        y = frame.bottom + k * STEP
        yield _words(f"{k * STEP:.0f}", frame.right + 8, y - _SIZE * 0.35, _SIZE)


def _told(long: Mm, units: Units) -> str:
    inches = f" ({length_text(long, units)})" if units is Units.INCH else ""
    return f"{long:.0f} mm{inches}"


def _steps(units: Units) -> list[str]:
    wide, high = FRAME
    across, up = _told(wide, units), _told(high, units)
    return [
        say("1  Show this page at 100 %, “actual size”, in one window over the whole picture."),
        say(
            "2  Hang the projector straight above the cutting mat. Turn it until the frame is"
            " square: both ways from corner to corner it measures {diagonal} mm. Switch off what"
            " corrects the picture by itself.",
            diagonal=f"{math.hypot(wide, high):.0f}",
        ),
        say(
            "3  Across (X): lay a line of the mat under the frame’s lower edge and measure it. It"
            " must be {across}. If it is not, set the viewer’s zoom to zoom × {wide} ÷ what you"
            " measured: at 100 % and 918 mm, 98 %.",
            across=across,
            wide=f"{wide:.0f}",
        ),
        say(
            "4  Up (Y): measure the left edge. It must be {up}. If across is right and up is not,"
            " the projector is askew or its picture is stretched: straighten it, and set the"
            " picture to the projector’s own number of dots.",
            up=up,
        ),
        say(
            "5  Measure one square of the solid lines in the middle and one in each corner:"
            " 100 mm each way. A millimetre in 600 is good enough for a skirt."
        ),
        say(
            "6  Touch neither projector nor zoom from now on; only turn pages and move the picture."
            " Come back to this page whenever something was knocked."
        ),
    ]


def _words(
    words: str,
    x: Mm,
    y: Mm,
    size: Mm,
    *,
    bold: bool = False,
    anchor: Anchor = Anchor.START,
    angle: float = 0.0,
) -> Text:
    return Text(
        text=words,
        at=Point(x, y),
        size=size,
        bold=bold,
        anchor=anchor,
        angle=angle,
        layer=Layer.PAGE,
    )


# --- the ticket -----------------------------------------------------------------------------


def _ticket(pattern: Pattern, sheets: Sheets) -> list[Page]:
    """Return the ticket on pages of ordinary size, to be printed or read on a screen."""
    on = grid(PaperName.A4_LETTER, margin=None, overlap=0.0)
    drawings = blocks(
        pattern,
        sheets,
        on.window,
        check=_check_words(sheets),
        printing=_show_words(pattern, sheets),
        square=False,
        heading=say_as("heading", "Show"),
        imprint=imprint_of(pattern.spec),
    )
    return [
        Page(
            width=on.paper.width,
            height=on.paper.height,
            window=on.window,
            drawing=drawing,
            label=f"ticket {number}",
            called=say_as("page", "ticket {number}", number=number),
            bookmark=say("Ticket: check, show, cut, know") if number == 1 else "",
        )
        for number, drawing in enumerate(drawings, start=1)
    ]


def _check_words(sheets: Sheets) -> list[str]:
    words = [
        say("The first page calibrates the projector: its frame is 900 mm across and 600 mm up.")
    ]
    if sheets.placements:
        words.append(
            say(
                "On every page of pieces light lines lie 100 mm apart; hold a rule to them before"
                " you cut. They are a layer, {layer}, that your viewer can switch off.",
                layer=layer_words(Layer.GRID),
            )
        )
    return words


def _show_words(pattern: Pattern, sheets: Sheets) -> list[str]:
    if not sheets.placements:
        return [
            say(
                "No piece is shown: every one is straight. Mark them on the cloth and cut them by"
                " the measures below. These last pages print on A4 and on Letter."
            )
        ]
    drawn = [placement.piece.name for placement in sheets.placements]
    words = [
        say(
            "Page 1 calibrates. Page 2 shows all pieces together; after it each piece has a page"
            " of its own. These last pages print on A4 and on Letter."
        ),
        say("Pieces lie with their grain level: lay the selvage along the grid’s level lines."),
    ]
    if any(placement.piece.half for placement in sheets.placements):
        words.append(
            say("A half is shown as a half: lay its bracketed edge on the fold of the cloth.")
        )
    if drawn and drawn != [piece.name for piece in on_paper(pattern)]:
        words.append(
            say(
                "This file shows {pieces} alone; the cut list names every piece.",
                pieces=pieces_named(drawn),
            )
        )
    return words
