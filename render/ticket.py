"""The first pages of a printed pattern: a job ticket. Check, print, cut, know, in this order.

Millimetres in the page's frame; words in the language spoken. Imports drafting's values and the
renderers of its parts.
"""

import math
from collections.abc import Callable, Collection, Iterator, Sequence
from dataclasses import dataclass

from drafting.cautions import cautions
from drafting.findings import Level
from drafting.geometry import (
    Box,
    bounds,
    moved,
    scaled,
    straight,
)
from drafting.language import clauses, decimal, said_later, say, say_as
from drafting.pattern import Pattern
from drafting.piece import Piece, cutting_box, cutting_line
from drafting.piece_names import piece_words, seam_words
from drafting.units import Mm, Units, length_text
from drafting.waist_part import is_shortened
from render import style
from render.assembly_map import assembly_map, file_pages, least_scale, map_size, page_runs
from render.chosen import as_printed, on_paper, traced_from
from render.correction import corrected_words
from render.drawing import Drawing
from render.feedback import set_feedback
from render.girths import girths
from render.imprint import LINE, Imprint, imprint_of, imprinted, set_code, with_foot_lines
from render.key import printed_key
from render.measures import LONGEST_RADIUS, measures
from render.nest.facts import by_size
from render.nest.pages import Needed, not_for_all, pages_words, tiles_of_sizes
from render.nest.table import SIZED_HIGH, sized_table
from render.on_plane import nest_of
from render.paper import paper_words
from render.setting import Setting, height_of
from render.tiling import Sheets
from render.true_size import RULE_ROOM, SQUARE, draw_long_rules, draw_square, rules_of
from render.words import (
    allowance_words,
    cut_words,
    edition_words,
    made_for,
    marks_words,
)

PICTURE = (30.0, 16.0)
"""Space for the small picture of a piece in the cut list."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Counts:
    """How many pages a file has: of the ticket and of the pattern."""

    ticket: int
    pattern: int


def ticket(pattern: Pattern, sheets: Sheets, ticket_pages: int) -> tuple[Drawing, ...]:
    """Return the first pages of a file, the test square and the long rules on the first.

    Args:
        ticket_pages: how many pages this ticket has, as it says itself.
    """
    counts = Counts(ticket=ticket_pages, pattern=len(sheets.tiles))
    window, imprint = sheets.grid.window, imprint_of(pattern.spec)

    def pages(foot: Mm) -> tuple[Drawing, ...]:
        page = Setting(window=window, inset=RULE_ROOM, foot=foot)
        draw_long_rules(page)
        _title(page, pattern, imprint)
        _check(page, pattern, sheets)
        set_feedback(page, pattern, sheets)
        _print(page, pattern, sheets, counts)
        _rest(page, pattern, sheets)
        return page.pages()

    return _signed(pages, imprint, window)


def _signed(
    pages: Callable[[Mm], tuple[Drawing, ...]], imprint: Imprint | None, window: Box
) -> tuple[Drawing, ...]:
    """Return pages with the imprint on each, set anew with room at their foot if they need it.

    Args:
        pages: sets them, given the room kept free at their foot.
    """
    drawings = pages(0.0)
    if imprint is None:
        return drawings
    signed = imprinted(drawings, imprint, window)
    return with_foot_lines(pages(LINE), imprint, window) if signed is None else signed


def blocks(
    pattern: Pattern,
    sheets: Sheets,
    window: Box,
    *,
    check: Sequence[str],
    printing: Sequence[str],
    square: bool,
    heading: str = "",
    imprint: Imprint | None = None,
) -> tuple[Drawing, ...]:
    """Return the ticket in blocks as large as a window, to be set among pieces or in columns.

    Args:
        check: how to find out whether the sheet is true.
        printing: what to do with the sheets, a paragraph each; the map follows if they join.
        square: whether the test square stands in the first block.
        heading: what stands over ``printing``, said already; else that it is about printing.
        imprint: stands on each block, if it is given.
    """

    def pages(foot: Mm) -> tuple[Drawing, ...]:
        page = Setting(window=window, inset=0.0, foot=foot)
        _title(page, pattern, imprint)
        _block_words(
            page, pattern, sheets, check=check, printing=printing, square=square, heading=heading
        )
        _rest(page, pattern, sheets)
        return page.pages()

    return _signed(pages, imprint, window)


def _block_words(
    page: Setting,
    pattern: Pattern,
    sheets: Sheets,
    *,
    check: Sequence[str],
    printing: Sequence[str],
    square: bool,
    heading: str,
) -> None:
    """Set how to find out whether a sheet is true and what to do with it, as ``blocks`` says."""
    page.heading(say_as("heading", "Check"), with_next=SQUARE if square else 20.0)
    if square:
        top = page.y
        draw_square(page, page.left, top - SQUARE)
        _set_beside(page, check, top=top, width=page.width - SQUARE - 8)
    else:
        for text in check:
            page.paragraph(text)
    set_feedback(page, pattern, sheets)
    page.heading(heading or say_as("heading", "Print"), with_next=20)
    for text in printing:
        page.paragraph(text)
    if sheets.joins:
        numbers = {piece.name: number for number, piece in enumerate(pattern.pieces, start=1)}
        starred = not_for_all(sheets, tiles_of_sizes(pattern, sheets))
        _, high, scale = map_size(sheets, page.width, BLOCK_MAP)
        page.need(high + 3)
        page.put(assembly_map(sheets, scale, numbers, starred), page.left, page.y - high - 1)
        page.y -= high + 3


def _rest(page: Setting, pattern: Pattern, sheets: Sheets) -> None:
    """Set what every ticket ends with, whatever its pattern is printed on."""
    if any(is_shortened(placement.piece) for placement in sheets.placements):
        _chalk(page)
    _cut(page, pattern, {placement.piece.name for placement in sheets.placements})
    _know(page, pattern, sheets)


BLOCK_MAP: Mm = 90.0
"""Greatest height of the map in a block; sheets so large are few."""


def _title(page: Setting, pattern: Pattern, imprint: Imprint | None) -> None:
    spec, top = pattern.spec, page.y
    side = set_code(page, imprint)
    width = page.width - side
    page.paragraph(spec.title, size=style.TITLE, bold=True, width=width, after=0.0)
    publish = spec.publish
    scale = say("half scale, 1 : 2") if spec.scale < 1 else ""
    parts = (made_for(spec), scale, edition_words(spec), publish.maker, publish.licence)
    facts = "  ·  ".join(part for part in (*parts, publish.page) if part)
    if facts:
        page.paragraph(facts, width=width, after=0.0)
    page.y = min(page.y, top - side)


def _check(page: Setting, pattern: Pattern, sheets: Sheets) -> None:
    page.heading(say_as("heading", "Check"), with_next=SQUARE)
    top = page.y
    left, bottom = page.left, top - SQUARE
    draw_square(page, left, bottom)
    beside = page.width - SQUARE - 8
    told = corrected_words(pattern.spec.print.measured, sheets.grid.paper.name)
    words = [*told, *_check_words(page, pattern, sheets)]
    if beside >= 60:
        _set_beside(page, words, top=top, width=beside, bold=told)
    else:
        page.y = bottom - 2
        for text in words:
            page.paragraph(text, after=0.8, bold=text in told)


def _check_words(page: Setting, pattern: Pattern, sheets: Sheets) -> Iterator[str]:
    """Yield how to find out whether the pages are true, a paragraph each."""
    corrected = sheets.grid.correction.needed
    across, up = rules_of(page.window)
    yield say(
        "Print this page alone first: single-sided, at 100 %\u00a0or “actual size”, never “fit”."
    )
    if pattern.spec.scale < 1:
        yield say(HALF_SCALE)
    if pattern.spec.units is Units.INCH:
        yield say(
            "Measure the square across and up. Each way it is 100 mm (3 15/16 in); the marks inside"
            " it are whole inches."
        )
    else:
        yield say("Measure the square across and up. Each way it is 100 mm.")
    yield say(
        "Then measure the two long rules: {across} mm across and {up} mm up. They show an error"
        " too small for the square.",
        across=f"{across:.0f}",
        up=f"{up:.0f}",
    )
    good = say(
        "Within half a millimetre in 100 is good ({across} and {up} mm on the rules).",
        across=decimal(f"{across / 200:.1f}"),
        up=decimal(f"{up / 200:.1f}"),
    )
    yield f"{good} {say(_AGAIN if corrected else _MORE)}"
    if not corrected:
        yield say(_APART)
    yield from _what_it_costs(pattern, sheets)


HALF_SCALE = said_later(
    "This is a half-scale draft, 1 : 2, beside a full-scale square: print it at 100 %."
)

_MORE = said_later(
    "If it is more, print at 100 × 100 ÷ what you measured: 98.5 mm asks for 101.5 %."
)

_APART = said_later(
    "If across and up differ by more than 0.3 mm, one scale will not do: write both measures into"
    " the sheet, or take a copy shop. What any measure means, hemsweep proof tells."
)

_AGAIN = said_later(
    "If it is more, leave the scale at 100 %, measure the trial page again and correct anew."
)


def _set_beside(
    page: Setting, words: Sequence[str], *, top: Mm, width: Mm, bold: Sequence[str] = ()
) -> None:
    """Set paragraphs beside the square whose upper edge is at ``top``, then go on below both."""
    pages = len(page.done)
    for text in words:
        _beside(page, text, page.left + SQUARE + 8, width, bold=text in bold)
    if len(page.done) == pages:
        page.y = min(top - SQUARE, page.y)


def _beside(page: Setting, words: str, x: Mm, width: Mm, *, bold: bool = False) -> None:
    shift = x - page.left
    page.paragraph(words, indent=shift, width=shift + width, bold=bold, after=1.4)


def _what_it_costs(pattern: Pattern, sheets: Sheets) -> Iterator[str]:
    """Yield what one per cent is of the girths that the printed pieces set, if they set any."""
    units = pattern.spec.units
    found = girths(pattern, [placement.piece for placement in sheets.placements])
    waist, hem = (length_text(long / 100, units) for long in found)
    if found.waist and found.hem:
        yield say(
            "One per cent is {waist} of this waist and {hem} of this hem.", waist=waist, hem=hem
        )
    elif found.waist:
        yield say("One per cent is {waist} of this waist.", waist=waist)
    elif found.hem:
        yield say("One per cent is {hem} of this hem.", hem=hem)


def _print(page: Setting, pattern: Pattern, sheets: Sheets, counts: Counts) -> None:
    if not sheets.tiles:
        return
    needed = tiles_of_sizes(pattern, sheets)
    words = _print_words(pattern, sheets, counts, needed)
    numbers = {piece.name: number for number, piece in enumerate(pattern.pieces, start=1)}
    starred = not_for_all(sheets, needed)
    column = page.width * 0.5
    left = page.y - page.bottom - 14
    deep = math.fsum(height_of(row, style.BODY, page.width) + 1.2 for row in words)
    deep_aside = math.fsum(height_of(row, style.BODY, column) + 1.2 for row in words)
    least = least_scale(sheets)
    aside = map_size(sheets, page.width - column - 6, max(left, 1.0))
    under = map_size(sheets, page.width, max(left - deep - 3, 1.0))
    page.heading(say_as("heading", "Print"), with_next=20)
    top = page.y
    if aside[2] >= max(least, under[2]) and deep_aside <= left:
        for text in words:
            page.paragraph(text, width=column)
        wide, high, scale = aside
        page.put(
            assembly_map(sheets, scale, numbers, starred), page.window.right - wide, top - high - 1
        )
        page.y = min(page.y, top - high - 3)
        return
    for text in words:
        page.paragraph(text)
    under = map_size(sheets, page.width, max(page.y - page.bottom - 4, 1.0))
    if under[2] < least:
        # A map that cannot be read is none: it takes a page of its own.
        page.turn_page()
        under = map_size(sheets, page.width, page.y - page.bottom - 4)
    wide, high, scale = under
    page.put(assembly_map(sheets, scale, numbers, starred), page.left, page.y - high - 1)
    page.y -= high + 2


def _print_words(pattern: Pattern, sheets: Sheets, counts: Counts, needed: Needed) -> list[str]:
    grid = sheets.grid
    words = [
        say(
            "{paper}, {total} pages: {ticket} of this ticket and {pattern} of the pattern.",
            paper=paper_words(grid.paper),
            total=counts.ticket + counts.pattern,
            ticket=counts.ticket,
            pattern=counts.pattern,
        ),
        say(
            "Pages are named by row and column: rows A, B, C from the top, columns 1, 2, 3 from the"
            " left. Lay them out as the map shows."
        ),
        say(
            "Cut each page along its solid lines at the left and the top. Lay it on its"
            " neighbour up to the dotted line and glue; pages overlap by {overlap} mm.",
            overlap=f"{grid.overlap:.0f}",
        )
        if grid.overlap
        else say("Cut each page along its solid lines, butt them together and tape the back."),
        say(JOINED_TRUE),
    ]
    drawn = [placement.piece.name for placement in sheets.placements]
    if drawn != [piece.name for piece in on_paper(pattern)]:
        words.append(alone_words(drawn))
    words.append(
        say("To print one piece alone, give the printer those pages of the file that carry it:")
    )
    for number, piece in enumerate(pattern.pieces, start=1):
        if piece.name in drawn:
            words.append(
                say(
                    "{number}  {piece}: {pages} (file pages {numbers})",
                    number=number,
                    piece=piece_words(piece.name),
                    pages=page_runs(sheets, piece.name),
                    numbers=file_pages(sheets, piece.name, after=counts.ticket),
                )
            )
    if pattern.sizes:
        words += pages_words(pattern, sheets, needed, after=counts.ticket)
    return words


JOINED_TRUE = said_later(
    "A join lies true when its half rings close to a ring with one number. Beside it, the"
    " two strokes that meet nearest the middle tell how far off it is: a tenth of a"
    " millimetre for each stroke from the middle."
)


def alone_words(names: Sequence[str]) -> str:
    """Return that a file prints some pieces alone."""
    return say(
        "This file prints {pieces} alone; the cut list names every piece.",
        pieces=pieces_named(names),
    )


def pieces_named(names: Sequence[str]) -> str:
    """Return what pieces are called, in a row."""
    between = say("and")
    return f" {between} ".join(piece_words(name) for name in names)


CHALK = (
    said_later(
        "This file prints the waist of each large piece and no more. The rest is chalked"
        " on the cloth with a tape measure and a rule:"
    ),
    said_later(
        "1  Cut the waist parts out. Lay each on the cloth as its cut list says, its fold"
        " on the fold, its grain along the selvage, and weigh it down. Leave cloth beyond"
        " its lower edge for the length on its rays and the hem."
    ),
    said_later("2  Chalk round the waist and both sides, and mark the notches."),
    said_later(
        "3  Lay the tape along a ray, its end on the waist's stitching line, and straight"
        " on over the edge of the paper. Mark the cloth at the length written on the ray."
        " The sides and the fold are measured alike."
    ),
    said_later(
        "4  Join the marks by hand in one smooth curve: that is the hem line. Draw the"
        " sides straight on to it."
    ),
    said_later(
        "5  Chalk what else the cut list tells of the piece: the allowance below the hem"
        " line, the notches, the end of the opening, the ruffle's line."
    ),
    said_later(
        "6  Cut, then turn the waist part over where a mirrored pair is cut from single cloth."
    ),
)
"""How to go on where only waists are printed."""


def _chalk(page: Setting) -> None:
    page.heading(say_as("heading", "Chalk"), with_next=30)
    for words in CHALK:
        page.paragraph(say(words))


def _cut(page: Setting, pattern: Pattern, printed: Collection[str]) -> None:
    # A row of a graded piece tells of each size, and stays together with the heading.
    page.heading(say_as("heading", "Cut"), with_next=PICTURE[1] + (24 if pattern.sizes else 4))
    for number, piece in enumerate(pattern.pieces, start=1):
        if pattern.sizes:
            _cut_row(page, number, _largest(pattern, piece), sized_facts(pattern, piece, printed))
        else:
            _cut_row(page, number, piece, [cut_facts(piece, pattern, printed)])
    told = [f for f in pattern.findings if f.code != "half-saves-paper"]
    if told:
        page.heading(say_as("heading", "Before you cut"), with_next=12)
    for finding in told:
        # What to write into the sheet is no business of the person at the cutting table.
        do = "" if finding.code in _FOR_THE_SHEET else finding.do
        bold = finding.level is not Level.NOTE
        page.paragraph(f"{finding.what} {do}".strip(), size=style.SMALL, bold=bold)


_FOR_THE_SHEET = {
    "measure-estimated",
    "measure-odd",
    "measure-unusual",
}


def _largest(pattern: Pattern, frame: Piece) -> Piece:
    """Return the largest size's piece of a frame: what its small picture shows."""
    return tuple(nest_of(pattern, frame.name).values())[-1]


def sized_facts(pattern: Pattern, frame: Piece, printed: Collection[str]) -> list[str]:
    """Return what the cut list says of a piece in its sizes: what they share, then each its own."""
    facts = {
        each.spec.wearer.size: _facts(piece, each, printed)
        for each in pattern.sizes
        for piece in each.pieces
        if piece.name == frame.name
    }
    own = {
        size: clauses(
            line for line in lines if not all(line in others for others in facts.values())
        )
        for size, lines in facts.items()
    }
    first = next(iter(facts.values()))
    common = [line for line in first if all(line in others for others in facts.values())]
    return [clauses(common), *(line for line in by_size(own) if line)]


def cut_facts(piece: Piece, pattern: Pattern, printed: Collection[str]) -> str:
    """Return what the cut list says of a piece."""
    return clauses(_facts(piece, pattern, printed))


def _facts(piece: Piece, pattern: Pattern, printed: Collection[str]) -> list[str]:
    units = pattern.spec.units
    shown = as_printed(piece, pattern)
    lines = [cut_words(piece, pattern.spec), allowance_words(shown, units)]
    faced = traced_from(piece, pattern)
    if faced is not None and piece.name not in printed:
        lines.append(
            say(
                "not printed: trace the hem line and the sides of {piece} once they are chalked;"
                " the neatened edge lies {above} above the hem line",
                piece=piece_words(faced.name),
                above=length_text(piece.edges[1].length, units),
            )
        )
    if marks := marks_words(piece, units):
        lines.append(marks)
    if piece.rectangle:
        box = cutting_box(piece)
        wide_and_high = f"{length_text(box.width, units)} × {length_text(box.height, units)}"
        told = (wide_and_high, say("cutting measures"), _grain_words(piece, box, units))
        lines.insert(0, ", ".join(told))
    return [*lines, *shown.notes]


def _cut_row(page: Setting, number: int, piece: Piece, facts: Sequence[str]) -> None:
    wide, high = PICTURE
    shift = wide + 6
    # A row stays together: picture and facts on one page.
    deep = style.BODY * style.LEADING + 0.2
    deep += math.fsum(height_of(words, style.BODY, page.width - shift) for words in facts)
    page.need(max(high, deep) + 2)
    top = page.y
    space = Box(left=page.left, bottom=top - high, right=page.left + wide, top=top)
    _small_picture(page, piece, space)
    named = f"{number}  {piece_words(piece.name)}"
    page.paragraph(named, bold=True, indent=shift, after=0.2)
    for words in facts:
        page.paragraph(words, indent=shift, after=0.0)
    page.y = min(page.y, top - high) - 1.5


def _grain_words(piece: Piece, box: Box, units: Units) -> str:
    """Return which side of a rectangle lies along the cloth."""
    (ax, ay), (bx, by) = piece.grainline
    if abs(abs(bx - ax) - abs(by - ay)) < 1e-6 * abs(bx - ax):
        return say("on the bias")
    along = box.width if abs(bx - ax) > abs(by - ay) else box.height
    return say("the {length} along the grain", length=length_text(along, units))


def _small_picture(page: Setting, piece: Piece, space: Box) -> None:
    """Draw a piece small, its true shape, its grain as an arrow, inside a space."""
    path = cutting_line(piece)
    box = bounds(path)
    if box.height > box.width:
        path = moved(path, turn=-math.pi / 2)
        box = bounds(path)
        grain = moved(straight(*piece.grainline), turn=-math.pi / 2)
    else:
        grain = straight(*piece.grainline)
    by = min(space.width / box.width, space.height / box.height)
    dx = space.left - box.left * by
    dy = space.centre.y - box.centre.y * by
    page.draw(moved(scaled(path, by), x=dx, y=dy), style.MARK)
    page.draw(moved(scaled(grain, by), x=dx, y=dy), style.THIN)


_LINES = said_later(
    "Cut on the bold line; allowances lie inside it. Sew on the dashed line. Notches with the"
    " same seam number are sewn together; snip them no deeper than they are drawn."
)
_LINES_OF_SIZES = said_later(
    "Cut on the black line that bears the name of your size, and on the unbroken ones that name it"
    " among others; allowances lie inside. Sew on its grey line, and on the thin black dashes that"
    " sizes share. Notches with the same seam number are sewn together; snip them no deeper than"
    " they are drawn."
)


def _know(page: Setting, pattern: Pattern, sheets: Sheets) -> None:
    page.heading(say_as("heading", "Know"), with_next=SIZED_HIGH if pattern.sizes else 20.0)
    pieces = [placement.piece for placement in sheets.placements]
    if pattern.sizes:
        sized_table(page, pattern)
        pieces = [_largest(pattern, frame) for frame in pieces]
    else:
        page.table(measures(pattern), first=24, size=style.SMALL)
    page.y -= 1
    printed_key(
        page,
        pieces,
        sheets.joins,
        overlapped=sheets.grid.overlap > 0,
        sizes=pattern.spec.publish.sizes if sheets.placements else (),
    )
    fullness = pattern.figures.skirt.fullness
    radius = pattern.figures.skirt.waist_radius
    round_waist = radius is not None and radius < LONGEST_RADIUS
    if fullness is not None and round_waist:
        small = say(
            "A millimetre of waist radius is {change} mm of this skirt's waist: cut small, try,"
            " then trim.",
            change=decimal(f"{math.tau * fullness:.1f}"),
        )
    else:
        small = say("Cut small, try, then trim.")
    lines = say(_LINES_OF_SIZES if pattern.sizes else _LINES)
    page.paragraph(f"{lines} {small}", size=style.SMALL)
    seams = dict.fromkeys(
        say("seam {number}: {seam}", number=one.number, seam=seam_words(one.name))
        for one in pattern.seams
    )
    if seams:
        page.paragraph(clauses(seams) + ".", size=style.SMALL)
    care = cautions(pattern.spec)
    high = math.fsum(height_of(words, style.SMALL, page.width) + 0.8 for words in care)
    page.heading(say_as("heading", "Take care"), with_next=high)  # whole, or on a page of its own
    for words in care:
        page.paragraph(words, size=style.SMALL, after=0.8)
