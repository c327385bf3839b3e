"""The ticket of large sheets, in blocks that are set among the pieces or in columns.

Millimetres, each block from its own lower left corner. Imports ticket and what it is set with.
"""

from collections.abc import Iterator

from drafting.geometry import Box, Point, bounds
from drafting.pattern import Pattern
from drafting.units import Mm
from render import style
from render.chosen import on_paper
from render.drawing import Anchor, Drawing, Layer, Text, placed, together
from render.foot import RULE_WIDE
from render.placement import APART
from render.ticket import blocks
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
    if not sheets.placements:
        return [
            "Black, at 100 %, never “fit”. No piece is printed: every one is straight. Mark them on"
            " the cloth and cut them by the measures below."
        ]
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
