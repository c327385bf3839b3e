"""One page to try a printer with before a whole pattern: square, rules, a card, and a join.

Millimetres in the page's frame. Imports the renderers of its parts; knows no garment.
"""

import math
from dataclasses import replace

from drafting.geometry import Arc, Box, Path, Point, moved, rim, straight
from drafting.units import Mm
from render import fonts, style
from render.clipping import clipped
from render.drawing import About, Anchor, Document, Drawing, Kind, Layer, Page, Stroke
from render.joins import join_marks
from render.paper import Grid
from render.room import Room
from render.setting import Setting
from render.spots import Spots
from render.tiling import Join, Tile
from render.true_size import RULE_ROOM, SQUARE, draw_long_rules, draw_square, rules_of

CARD_LONG: Mm = 85.60
CARD_WIDE: Mm = 53.98
CARD_CORNER: Mm = 3.18
"""A bank card, an identity card: ISO/IEC 7810, ID-1."""

STRIP: Mm = 30.0
"""Height of each of the two half pages that are joined for a try."""

GAP: Mm = 5.0


def trial_page(on: Grid) -> Document:
    """Return a document of one page that tries a printer; its join overlaps as the grid's do."""
    page = Setting(window=on.window, inset=RULE_ROOM)
    draw_long_rules(page)
    page.paragraph("Trial page", size=style.TITLE, bold=True, after=0.0)
    page.paragraph(
        f"{on.paper.title}, single-sided, at 100 %\u00a0or “actual size”, never “fit”."
        " Try it before you print a pattern."
    )
    _measured_part(page)
    _joined_part(page, on)
    drawing = page.pages()[0]
    return Document(
        title=f"Trial page, {on.paper.title}",
        author="",
        subject="Tries whether a printer prints at true size",
        keywords="sewing pattern, print at 100 %",
        language="en",
        about=About(kind=Kind.TRIAL),
        pages=(
            Page(
                width=on.paper.width,
                height=on.paper.height,
                window=on.window,
                drawing=drawing,
                label="trial",
                bookmark="Trial page",
            ),
        ),
    )


def _measured_part(page: Setting) -> None:
    across, up = rules_of(page.window)
    page.heading("Measure", with_next=SQUARE)
    left, bottom = page.left, page.y - SQUARE
    draw_square(page, left, bottom)
    _card(page, Point(left + SQUARE + 8, bottom))
    page.y = bottom - 2
    page.paragraph(
        f"The square is 100 mm each way, the rules {across:.0f} mm across and {up:.0f} mm up; up to"
        f" half a millimetre in 100 is good ({across / 200:.1f} and {up / 200:.1f} mm on the"
        " rules). No rule at hand? A card laid on its outline must just cover the line. If it does"
        " not, look for “scale” in the print dialogue and set 100 %.",
        size=style.SMALL,
    )


def _card(page: Setting, corner: Point) -> None:
    """Draw the outline of a card that stands upright, its lower left corner there."""
    r, wide, high = CARD_CORNER, CARD_WIDE, CARD_LONG
    page.draw(moved(_rounded(wide, high, r), x=corner.x, y=corner.y), style.MARK)
    middle = Point(corner.x + wide / 2, corner.y + high / 2)
    for down, words in enumerate(("lay a bank card", "or identity card here:", "85.6 × 54 mm")):
        y = middle.y + 5.0 - 5.0 * down
        page.line(words, middle.x, y, size=style.SMALL, anchor=Anchor.MIDDLE)


def _rounded(wide: Mm, high: Mm, r: Mm) -> Path:
    """Return a rectangle with round corners, its lower left corner at the origin."""
    middles = (Point(wide - r, r), Point(wide - r, high - r), Point(r, high - r), Point(r, r))
    corners = [
        Arc(centre=middle, radius=r, begin=(k - 1) * math.pi / 2, finish=k * math.pi / 2)
        for k, middle in enumerate(middles)
    ]
    sides = [
        straight(one.end, other.start)[0]
        for one, other in zip(corners, [*corners[1:], corners[0]], strict=True)
    ]
    return tuple(part for pair in zip(corners, sides, strict=True) for part in pair)


def _joined_part(page: Setting, on: Grid) -> None:
    """Set the two half pages, one under the other, with the marks of a real join."""
    page.heading("Join", with_next=2 * STRIP + GAP)
    overlap = on.overlap
    page.paragraph(
        "Cut both halves out. Cut B1 along its solid line, lay it on A1 up to the dotted line and"
        f" glue; they overlap by {overlap:.0f} mm. True, the ring closes, the long strokes meet,"
        " and the curve runs on unbroken.",
        size=style.SMALL,
    )
    wide = page.width - 0.5  # its rim lies clear of the window's
    lower = Box(left=0.0, bottom=0.0, right=wide, top=STRIP)
    upper = Box(left=0.0, bottom=STRIP - overlap, right=wide, top=2 * STRIP - overlap)
    halves = _halves(upper, lower, overlap)
    for drawing, window in zip(halves, (upper, lower), strict=True):
        page.put(drawing, x=page.left - window.left, y=page.y - window.top)
        page.y -= STRIP + GAP


def _halves(upper: Box, lower: Box, overlap: Mm) -> tuple[Drawing, Drawing]:
    """Return what is drawn on the upper and on the lower half, in the frame of both joined."""
    first = Tile(row=1, column=1, window=upper, pieces=())
    second = Tile(row=2, column=1, window=lower, pieces=())
    line = (Point(lower.left, lower.top), Point(lower.right, lower.top))
    join = Join(number=1, first=first, second=second, upright=False, line=line)
    curve: Path = (
        Arc(
            centre=Point(lower.right - 30.0, -60.0), radius=118.0, begin=math.pi / 3, finish=math.pi
        ),
    )
    plane = Box(left=0.0, bottom=0.0, right=lower.right, top=upper.top)
    clear, uncut = Room(box=plane), Room(box=plane)
    clear.enter(curve)
    marks = join_marks((join,), overlap, Spots(clear=clear, uncut=uncut))
    return (
        _half(upper, curve, marks[0].drawing, "A1"),
        _half(lower, curve, marks[1].drawing, "B1"),
    )


def _half(window: Box, curve: Path, marks: Drawing, name: str) -> Drawing:
    strokes = [
        Stroke(path=path, pen=style.CUTTING, layer=Layer.PAGE) for path, _ in clipped(curve, window)
    ]
    strokes.append(Stroke(path=rim(window), pen=style.THIN, layer=Layer.PAGE))
    size = style.HEADING
    at = Point(window.right - fonts.width(name, size, bold=True) - 3, window.top - 7.5)
    text = replace(marks.texts[0], text=name, at=at, size=size, anchor=Anchor.START, angle=0.0)
    return Drawing(strokes=(*strokes, *marks.strokes), texts=(*marks.texts, text))
