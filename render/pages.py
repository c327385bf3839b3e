"""A pattern on paper: placed, cut into pages, marked, and led by its ticket.

Millimetres. Imports the renderers of its parts; nothing here knows a file format.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cache
from itertools import product

from drafting.geometry import Box, Point
from drafting.language import clauses, in_its_language, say, say_as
from drafting.pattern import Pattern
from drafting.piece_names import piece_words
from drafting.spec import PaperName, Print, Scope
from drafting.units import Mm
from render import fonts, style
from render.card import card
from render.chosen import on_paper
from render.correction import correction_on
from render.drawing import (
    About,
    Anchor,
    Document,
    Drawing,
    Kind,
    Layer,
    Page,
    Stroke,
    Text,
    placed,
    together,
)
from render.girths import girths
from render.imprint import Imprint, imprint_of, set_in_room
from render.joins import join_marks
from render.on_plane import lines_on, words_on
from render.paper import HOME, ROLLS, SHEETS, Grid, PaperError, grid
from render.placement import Effort, Progress, place
from render.room import Room, turned_box
from render.spots import Spots, text_box
from render.ticket import ticket
from render.tiling import Sheets, Tile, cut_into_pages, on_page


@dataclass(frozen=True, slots=True, kw_only=True)
class Printed:
    """A pattern laid out on one paper.

    Attributes:
        sheets: where its pieces and pages lie on the plane.
        document: every page, drawn.
        lacking: letters that the font could not print, replaced by a lozenge.
    """

    sheets: Sheets
    document: Document
    lacking: tuple[str, ...]


@in_its_language
def printed(
    pattern: Pattern,
    paper: PaperName,
    *,
    only: Sequence[str] = (),
    effort: Effort = Effort.USUAL,
    progress: Progress | None = None,
) -> Printed:
    """Return a pattern laid out on a paper as its sheet's ``[print]`` asks.

    Args:
        only: names or numbers of the pieces to print; else all that the sheet prints.
        effort: how long to search for fewer pages.
        progress: is told of the fewest pages found so far.

    Raises:
        PaperError: margins and overlap leave too little of the paper, or it takes no card.
        PieceWishError: a piece asked for cannot be printed.
    """
    wish = pattern.spec.print
    is_card = wish.scope is Scope.CARD
    if is_card and paper not in HOME:
        raise PaperError(
            f"a card is one page of figures for a printer at home, and {paper.value} is none;"
            f" take {', '.join(name.value for name in HOME)}, or another scope"
        )
    if paper in (*SHEETS, *ROLLS):
        from render.large import printed_large  # it sets its pages with this module's functions

        return printed_large(pattern, paper, only=only, effort=effort, progress=progress)
    if paper is PaperName.PROJECTOR:
        if pattern.sizes:
            raise PaperError(
                "a projector shows one size at a time; take printings() for a file each"
            )
        from render.projector import shown_by_projector

        return shown_by_projector(pattern, only=only)
    on = grid_for(wish, paper)
    sheets = cut_into_pages(
        place(on_paper(pattern, only), on, effort=effort, widest=wish.widest, progress=progress),
        on,
    )
    if is_card:
        return bound(pattern, sheets, (_card_page(pattern, sheets),), Kind.CARD)
    imprint = imprint_of(pattern.spec)
    pages = (
        *_ticket_pages(pattern, sheets),
        *pattern_pages(pattern, sheets, imprint=imprint),
    )
    return bound(pattern, sheets, pages)


def printings(
    pattern: Pattern,
    paper: PaperName,
    *,
    only: Sequence[str] = (),
    effort: Effort = Effort.USUAL,
    progress: Progress | None = None,
) -> dict[str, Printed]:
    """Return the files that a pattern comes in on a paper, by the size that each is for.

    It is one file for no size in particular; but bold lines of several sizes would run together
    under a projector, so there each size of a graded pattern has its own.

    Raises:
        PaperError: margins and overlap leave too little of the paper, or it takes no card.
        PieceWishError: a piece asked for cannot be printed.
    """
    if pattern.sizes and paper is PaperName.PROJECTOR:
        return {one.spec.wearer.size: printed(one, paper, only=only) for one in pattern.sizes}
    return {"": printed(pattern, paper, only=only, effort=effort, progress=progress)}


def grid_for(wish: Print, paper: PaperName) -> Grid:
    """Return the grid of a paper as a sheet's ``[print]`` has it drawn on.

    Nothing on a card is joined, and nothing measured: it has no overlap and no correction.

    Raises:
        PaperError: margins and overlap leave too little of the paper.
    """
    if wish.scope is Scope.CARD:
        return grid(paper, margin=wish.margin, overlap=0.0)
    correction = correction_on(paper, wish.measured)
    return grid(paper, margin=wish.margin, overlap=wish.overlap, correction=correction)


def bound(
    pattern: Pattern, sheets: Sheets, pages: tuple[Page, ...], kind: Kind = Kind.PAGES
) -> Printed:
    """Return pages as a document that tells what it is."""
    publish = pattern.spec.publish
    set_by_paper = girths(pattern, [placement.piece for placement in sheets.placements])
    document = Document(
        title=fonts.printable(pattern.spec.title),
        author=fonts.printable(publish.maker),
        subject=fonts.printable(_subject(pattern)),
        keywords=say("sewing pattern, skirt, print at 100 %"),
        language=publish.language,
        about=About(
            kind=kind,
            waist=set_by_paper.waist,
            sweep=set_by_paper.hem,
            correction=sheets.grid.correction,
        ),
        pages=pages,
        sizes=publish.sizes,
    )
    words = "".join(text.text for page in pages for text in (*page.drawing.texts, *page.foot.texts))
    return Printed(sheets=sheets, document=document, lacking=fonts.lacking(words))


def _card_page(pattern: Pattern, sheets: Sheets) -> Page:
    paper = sheets.grid.paper
    return Page(
        width=paper.width,
        height=paper.height,
        window=sheets.grid.window,
        drawing=card(pattern, sheets.grid.window),
        label="card",
        called=say_as("page", "card"),
        bookmark=say("Card of figures"),
    )


def _subject(pattern: Pattern) -> str:
    licence = pattern.spec.publish.licence
    card_only = pattern.spec.print.scope is Scope.CARD
    kind = say("Figures of a sewing pattern") if card_only else say("Sewing pattern at true size")
    return clauses((kind, say("licence: {licence}", licence=licence))) if licence else kind


def _ticket_pages(pattern: Pattern, sheets: Sheets) -> list[Page]:
    drawings = ticket(pattern, sheets, 2)
    if len(drawings) != 2:
        drawings = ticket(pattern, sheets, len(drawings))
    paper = sheets.grid.paper
    return [
        Page(
            width=paper.width,
            height=paper.height,
            window=sheets.grid.window,
            drawing=drawing,
            label=f"ticket {number}",
            called=say_as("page", "ticket {number}", number=number),
            bookmark=say("Ticket: check, print, cut, know") if number == 1 else "",
            correction=sheets.grid.correction,
        )
        for number, drawing in enumerate(drawings, start=1)
    ]


def pattern_pages(
    pattern: Pattern,
    sheets: Sheets,
    taken: Sequence[Box] = (),
    *,
    imprint: Imprint | None = None,
) -> list[Page]:
    """Return the pages of the plane; no words or marks stand in what is taken of it.

    Args:
        imprint: stands in free room of each page, if it is given.
    """
    if not sheets.tiles:
        return []
    lines, set_in = lines_on(
        pattern,
        sheets.placements,
        joins=overlaps(sheets),
        windows=[tile.window for tile in sheets.tiles],
    )
    room = free_room(sheets, lines)
    for text in set_in:
        room.claim(text_box(text))
    for box in taken:
        room.claim(turned_box(box.centre, box.width, box.height, 0.0))
    marks: dict[tuple[int, int], list[Drawing]] = {}
    for found in join_marks(sheets.joins, sheets.grid.overlap, room):
        marks.setdefault((found.tile.row, found.tile.column), []).append(found.drawing)
    words = [text for placement in sheets.placements for text in words_on(placement, pattern, room)]
    words += set_in
    boxes = [(text, _text_box(text)) for text in words]
    pages = []
    first: set[str] = set()
    for tile in sheets.tiles:
        beginning = [name for name in tile.pieces if name not in first]
        first.update(beginning)
        own = together(*marks.get((tile.row, tile.column), []))
        names = _page_name(tile, pattern.spec.title, room)
        if imprint is not None:
            names = _with_imprint(names, imprint, tile, room)
        shown = Drawing(texts=tuple(text for text, box in boxes if box.meets(tile.window)))
        dx = sheets.grid.margin - tile.window.left
        dy = sheets.grid.margin - tile.window.bottom
        pages.append(
            Page(
                width=sheets.grid.paper.width,
                height=sheets.grid.paper.height,
                window=sheets.grid.window,
                drawing=together(
                    placed(names, x=dx, y=dy),
                    on_page(lines, tile, sheets.grid),
                    placed(together(own, shown), x=dx, y=dy),
                ),
                label=tile.name,
                bookmark=", ".join(piece_words(name) for name in beginning),
                correction=sheets.grid.correction,
            )
        )
    return pages


def overlaps(sheets: Sheets) -> tuple[Box, ...]:
    """Return what is printed on two pages: words there would stand twice."""
    overlap = sheets.grid.overlap
    found = []
    for join in sheets.joins:
        (ax, ay), (bx, by) = join.line
        # An upright join's overlap lies to its right, a level one's below it.
        dx, dy = (overlap, 0.0) if join.upright else (0.0, -overlap)
        found.append(Box(left=ax, bottom=ay + dy, right=bx + dx, top=by))
    return tuple(found)


def free_room(sheets: Sheets, lines: Sequence[Stroke]) -> Spots:
    """Return the plane's free room, and the same with the joins between pages taken too."""
    tiles = sheets.tiles
    plane = Box(
        left=0.0,
        bottom=0.0,
        right=max(tile.window.right for tile in tiles),
        top=max(tile.window.top for tile in tiles),
    )
    clear = Room(box=plane)
    clear.leave_only([tile.window for tile in tiles])
    for stroke in lines:
        clear.enter(stroke.path)
    uncut = Room(box=plane)
    uncut.rows = list(clear.rows)
    for box in overlaps(sheets):
        uncut.claim(box.corners)
    return Spots(clear=clear, uncut=uncut)


def _text_box(text: Text) -> Box:
    """Return a box that holds a text however it is turned."""
    (x, y), reach = text.at, fonts.width(text.text, text.size, bold=text.bold) + text.size
    return Box(left=x - reach, bottom=y - reach, right=x + reach, top=y + reach)


def _page_name(tile: Tile, title: str, room: Spots) -> Drawing:
    """Return a page's name: large and light where nothing else is, small in a corner."""
    texts = []
    size = style.PAGE_NAME
    wide = fonts.width(tile.name, size, bold=True)
    spot = _free_spot(tile.window, room.clear, wide + 6, size * style.CAP_HEIGHT + 6)
    if spot is not None:
        room.claim(turned_box(spot, wide + 6, size * style.CAP_HEIGHT + 6, 0.0))
        texts.append(
            Text(
                text=tile.name,
                at=Point(spot.x, spot.y - size * style.CAP_HEIGHT / 2),
                size=size,
                anchor=Anchor.MIDDLE,
                bold=True,
                grey=style.PAGE_NAME_GREY,
                layer=Layer.PAGE,
            )
        )
    pieces = (piece_words(name) for name in tile.pieces)
    words = fonts.shortened("  ·  ".join((tile.name, title, *pieces)), style.NOTE, 120)
    texts += _corner_words(tile, words, room)
    return Drawing(texts=tuple(texts))


def _with_imprint(names: Drawing, imprint: Imprint, tile: Tile, room: Spots) -> Drawing:
    """Return a page's name with the imprint; where it has no room, in place of the small line."""
    drawing = set_in_room(imprint, tile.window, room.kinds())
    if drawing is not None:
        return together(names, drawing)
    if not names.texts or names.texts[-1].size != style.NOTE:
        return names  # not even that line found room
    *others, line = names.texts
    room_for = fonts.width(line.text, style.NOTE)
    words = fonts.shortened(f"{tile.name}  ·  {imprint.words}", style.NOTE, room_for)
    return Drawing(texts=(*others, replace(line, text=words)))


def _free_spot(window: Box, room: Room, wide: Mm, high: Mm) -> Point | None:
    middle = window.centre
    columns = int((window.width - wide) / 2 / _SPOT_STEP)
    rows = int((window.height - high) / 2 / _SPOT_STEP)
    for column, row in _outwards(columns, rows):
        spot = Point(middle.x + column * _SPOT_STEP, middle.y + row * _SPOT_STEP)
        if room.is_free(turned_box(spot, wide, high, 0.0)):
            return spot
    return None


_SPOT_STEP: Mm = 6.0


@cache
def _outwards(columns: int, rows: int) -> tuple[tuple[int, int], ...]:
    """Return the places of a lattice round 0, 0, the nearest first."""
    places = product(range(-columns, columns + 1), range(-rows, rows + 1))
    return tuple(sorted(places, key=lambda place: abs(place[0]) + abs(place[1])))


def _corner_words(tile: Tile, words: str, room: Spots) -> list[Text]:
    """Return the page's small line in the first free corner, clear of the glue strips."""
    window = tile.window
    wide, high = fonts.width(words, style.NOTE) + 2, style.NOTE + 0.8
    rooms = [
        Point(window.left + 3 + wide / 2 + along, y)
        for y in (window.top - 4, window.bottom + 14, window.top - 10, window.bottom + 20)
        for along in (0.0, 20.0, 40.0)
    ]
    for spot in rooms:
        corners = turned_box(spot, wide, high, 0.0)
        inside = all(window.left <= p.x <= window.right for p in corners)
        if inside and room.clear.is_free(corners):
            room.claim(corners)
            at = Point(spot.x, spot.y - style.CAP_HEIGHT * style.NOTE / 2)
            return [
                Text(text=words, at=at, size=style.NOTE, anchor=Anchor.MIDDLE, layer=Layer.PAGE)
            ]
    return []
