"""The ticket of large sheets, in blocks that are set among the pieces or in columns.

Millimetres, each block from its own lower left corner. Imports ticket and what it is set with.
"""

from collections.abc import Iterator

from drafting.geometry import Box, Point, bounds
from drafting.language import say
from drafting.pattern import Pattern
from drafting.units import Mm
from render import style
from render.chosen import on_paper
from render.drawing import Anchor, Drawing, Layer, Text, placed, together
from render.foot import RULE_WIDE
from render.placement import APART
from render.ticket import HALF_SCALE, JOINED_TRUE, alone_words, blocks
from render.tiling import Sheets

BLOCK = Box(left=0.0, bottom=0.0, right=180.0, top=140.0)
"""A block of the ticket: small enough for the corners that round panels leave, large enough for
the test square; three stand side by side on A1, four across a roll.
"""


CAPTION: Mm = 5.0
"""Height of the line over a block that tells which it is."""


def large_ticket(pattern: Pattern, sheets: Sheets) -> tuple[Drawing, ...]:
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
        _cropped(
            together(
                block, _caption(say("ticket {number} of {count}", number=number, count=len(set_)))
            )
        )
        for number, block in enumerate(set_, start=1)
    )


def _caption(words: str) -> Drawing:
    at = Point(BLOCK.right, BLOCK.top + 2.0)
    return Drawing(
        texts=(Text(text=words, at=at, size=style.NOTE, anchor=Anchor.END, layer=Layer.PAGE),)
    )


def _check_words(pattern: Pattern) -> list[str]:
    words = [
        say(
            "Before you pay: measure the check line at the sheet's foot, and the square across and"
            " up."
        ),
        say("The square is 100 mm each way; the marks inside it are whole inches."),
        say(
            "Within half a millimetre in 100, five in a metre, is good. If it is more, it was"
            " scaled: have it printed again at 100 %."
        ),
    ]
    if pattern.spec.scale < 1:
        words.append(say(HALF_SCALE))
    return words


def _print_words(pattern: Pattern, sheets: Sheets) -> list[str]:
    if not sheets.placements:
        return [
            say(
                "Black, at 100 %, never “fit”. No piece is printed: every one is straight. Mark"
                " them on the cloth and cut them by the measures below."
            )
        ]
    words = _joined_words(sheets) if sheets.joins else [_apart_words(len(sheets.tiles))]
    drawn = [placement.piece.name for placement in sheets.placements]
    if drawn != [piece.name for piece in on_paper(pattern)]:
        words.append(alone_words(drawn))
    return words


def _apart_words(count: int) -> str:
    if count < 2:
        return say("Black, at 100 %, never “fit”. Nothing is joined: cut the pieces out.")
    return say("Black, at 100 %, never “fit”. Nothing is joined: each sheet stands alone.")


def _joined_words(sheets: Sheets) -> list[str]:
    overlap = sheets.grid.overlap
    return [
        say(
            "Black, at 100 %, never “fit”. {count} sheets are joined, as the map shows; they are"
            " named by row and column, rows from the top.",
            count=len(sheets.tiles),
        ),
        say(
            "Cut each sheet along its solid lines at the left and the top. Lay it on its neighbour"
            " up to the dotted line and tape or glue; sheets overlap by {overlap} mm.",
            overlap=f"{overlap:.0f}",
        )
        if overlap
        else say("Cut each sheet along its solid lines, butt them together and tape the back."),
        say(JOINED_TRUE),
    ]


def _cropped(block: Drawing) -> Drawing:
    """Return a block moved down so that its last line stands at the foot of its frame."""
    return placed(block, y=-_lowest(block))


def _lowest(block: Drawing) -> Mm:
    texts = [text.at.y - 0.3 * text.size for text in block.texts]
    return min((*texts, *(bounds(stroke.path).bottom for stroke in block.strokes)))


def block_size(block: Drawing) -> tuple[Mm, Mm]:
    """Return the width and height of a cropped block, its top line's own height with it."""
    tops = [text.at.y + text.size for text in block.texts]
    return BLOCK.width, max((*tops, *(bounds(stroke.path).top for stroke in block.strokes)))


def slots(left: Mm, right: Mm, count: int, top: Mm) -> Iterator[Box]:
    """Yield places for blocks side by side, then under each other, from the head at ``top``."""
    across = max(1, int((right - left + APART) / (BLOCK.width + APART)))
    for k in range(count):
        x = left + k % across * (BLOCK.width + APART)
        y = top - k // across * ((BLOCK.height + CAPTION) + APART)
        yield Box(left=x, bottom=y - (BLOCK.height + CAPTION), right=x + BLOCK.width, top=y)


def columns(width: Mm) -> int:
    return max(1, int((width - RULE_WIDE) / (BLOCK.width + APART)))
