"""A pattern on large sheets and rolls: as few or as short as can be, with its ticket among the
pieces and a strip at the foot for the copy shop.

Black lines alone, no grey, no fills. Millimetres. Imports the renderers of its parts.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

from drafting.geometry import Box
from drafting.language import decimal, say, say_as
from drafting.pattern import Pattern
from drafting.spec import PaperName
from render.chosen import on_paper
from render.drawing import Drawing, Kind, Layer, Page, Text, placed, together
from render.foot import FOOT, RULE_WIDE, check_length, check_line, cut_marks, foot_strip
from render.imprint import imprint_of
from render.laid import UPRIGHT_LINE, Laid, footed, of_height
from render.large_sheets import on_sheets
from render.large_ticket import BLOCK, CAPTION, block_size, columns, large_ticket, slots
from render.pages import Printed, bound, pattern_pages
from render.paper import ROLLS, Grid, grid, paper_metres, paper_words
from render.placement import APART, Effort, Progress
from render.roll import on_roll
from render.tiling import Sheets
from render.words import edition_words, made_for


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
    if not pieces:
        laid = _ticket_alone(pattern, on)
    elif paper in ROLLS:
        laid = on_roll(pattern, pieces, on, effort)
    else:
        laid = on_sheets(pattern, pieces, on, effort, progress)
    return bound(pattern, laid.sheets, tuple(_pages(pattern, laid)), Kind.LARGE)


def _ticket_alone(pattern: Pattern, on: Grid) -> Laid:
    """Return a pattern of which no piece is printed: its ticket on a sheet of its own."""
    sheets = Sheets(grid=on, placements=(), tiles=(), joins=(), lower_bound=0)
    ticket = large_ticket(pattern, sheets)
    if on.paper.name in ROLLS:
        rows = math.ceil(len(ticket) / columns(on.window.width))
        deep = rows * ((BLOCK.height + CAPTION) + APART)
        sheets = replace(sheets, grid=of_height(on, height=deep + 2 * on.margin + FOOT))
    else:
        sheets = replace(sheets, grid=replace(on, paper=footed(on.paper)))
    return Laid(sheets=sheets, insets=(), further=ticket)


def _pages(pattern: Pattern, laid: Laid) -> Iterator[Page]:
    """Yield the pages, each with its foot: a sheet for the ticket first if there is one."""
    sheets = laid.sheets
    raw = [
        *_further_pages(laid),
        *pattern_pages(pattern, sheets, [inset.box for inset in laid.insets]),
    ]
    tiles = {tile.name: tile for tile in sheets.tiles}
    metres = paper_metres(page.height + FOOT for page in raw)
    imprint = imprint_of(pattern.spec)
    for number, page in enumerate(raw, start=1):
        drawing = page.drawing
        tile = tiles.get(page.label)
        if tile is not None:
            dx = sheets.grid.margin - tile.window.left
            dy = sheets.grid.margin - tile.window.bottom
            drawing = together(
                _black(drawing, named=bool(sheets.joins)),
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
            _facts(pattern, sheets, page, metres, len(raw)),
            _orders(sheets, page, number, len(raw)),
            imprint,
        )
        yield replace(
            page,
            height=page.height + FOOT,
            window=replace(window, bottom=window.bottom + FOOT, top=window.top + FOOT),
            drawing=placed(drawing, y=FOOT),
            foot=together(strip, cut_marks(area)),
        )


def _black(drawing: Drawing, *, named: bool) -> Drawing:
    """Return a page's drawing without grey; a sheet that none is joined to needs no name.

    A name such as A1, alone on a large sheet, would be taken for a size of paper.
    """
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
            placed(block, x=at.left, y=at.top - block_size(block)[1])
            for block, at in zip(own, slots(left, window.right, len(own), window.top), strict=True)
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
                called=say_as("page", "ticket {number}", number=len(pages) + 1),
                bookmark="" if first else say("Ticket: check, print, cut, know"),
            )
        )
    return pages


def _facts(pattern: Pattern, sheets: Sheets, page: Page, metres: float, count: int) -> list[str]:
    """Return what a sheet is: for whom, its edition, its size, metres of a roll."""
    spec, paper = pattern.spec, sheets.grid.paper
    facts = [made_for(spec), edition_words(spec)]
    size = f"{decimal(f'{page.width:g}')} × {page.height + FOOT:.0f} mm"
    if paper.name not in ROLLS:
        facts.append(f"{paper_words(paper)}, {size}")
    elif count == 1:
        facts.append(
            say(
                "{paper}, {size}: {metres} m of paper",
                paper=paper_words(paper),
                size=size,
                metres=decimal(f"{metres:.1f}"),
            )
        )
    else:
        facts.append(
            say(
                "{paper}, {count} pages, each {size}: {metres} m of paper in all",
                paper=paper_words(paper),
                count=count,
                size=size,
                metres=decimal(f"{metres:.1f}"),
            )
        )
    return [fact for fact in facts if fact]


def _orders(sheets: Sheets, page: Page, number: int, count: int) -> list[str]:
    """Return what to tell a copy shop. Pages have names only where they are joined."""
    orders = [say("Print at 100 %, black"), say("Do not scale, do not fit, do not split")]
    if count == 1:
        return [*orders, say("Single page")]
    told = say("Single pages: this is {number} of {count}", number=number, count=count)
    named = sheets.joins and not page.label.startswith("ticket")
    return [*orders, f"{told}, {page.label}" if named else told]
