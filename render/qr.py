"""A page's address as a QR code, drawn as strokes like everything else on paper.

Millimetres, from the lower left corner of the quiet zone. A home of segno. Source: ISO/IEC
18004; error correction M mends about 15 % of a code that is creased, chalked or cut into.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cache
from itertools import groupby

from drafting.geometry import Point, straight
from drafting.units import Mm
from render.drawing import Drawing, Layer, Pen, Stroke

MODULE: Mm = 0.5
"""Side of one module on paper: six dots of a printer with 300 to the inch."""

LEAST_MODULE: Mm = 0.4
"""Smaller ones run into each other on cheap paper, and a telephone must come too near."""

QUIET = 4
"""Modules left white all round; the standard asks for as many."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Code:
    """A QR code.

    Attributes:
        side: modules of its side, the quiet zone on both sides counted.
        rows: from the top; for each the lengths of its runs in modules, light and dark by turns,
            beginning with light and ending with dark.
    """

    side: int
    rows: tuple[tuple[int, ...], ...]

    def size(self, module: Mm = MODULE) -> Mm:
        """Return the side of the code as it is drawn, its quiet zone with it."""
        return self.side * module


@cache
def code_of(address: str) -> Code:
    """Return the QR code of a page's address; the longest that a sheet takes has one too."""
    import segno

    # UTF-8 told outright: readers try it first, while other alphabets are guessed wrongly.
    made = segno.make(address, error="m", boost_error=False, micro=False, encoding="utf-8")
    rows = tuple(made.matrix)
    return Code(side=len(rows) + 2 * QUIET, rows=tuple(_runs(row) for row in rows))


def _runs(modules: Iterable[int]) -> tuple[int, ...]:
    runs = [(dark, len(tuple(run))) for dark, run in groupby(modules)]
    lengths = [long for _, long in runs]
    if runs[0][0]:
        lengths.insert(0, 0)
    if not runs[-1][0]:
        lengths.pop()
    lengths[0] += QUIET
    return tuple(lengths)


MOST_RUNS = 9
"""Runs to a stroke. A dash pattern holds no more than 11 lengths for a PostScript printer, and no
more than 32 for some viewers; what is longer comes out as other modules. Source: PostScript
Language Reference, appendix B.
"""


def code_drawing(code: Code, module: Mm = MODULE) -> Drawing:
    """Return a code drawn with modules of that side: rows of strokes, dashed as their runs are.

    A file has well under half the bytes that it would have with a stroke for each run.
    """
    strokes = []
    for number, row in enumerate(code.rows):
        y = (code.side - QUIET - number - 0.5) * module
        for column, runs in _in_parts(row):
            # Dashes come by twos; the gap after the last dash lies beyond the stroke's end.
            dash = tuple(long * module for long in (*runs, 1)) if len(runs) > 1 else ()
            path = straight(Point(column * module, y), Point((column + sum(runs)) * module, y))
            strokes.append(Stroke(path=path, pen=Pen(width=module, dash=dash), layer=Layer.PAGE))
    return Drawing(strokes=tuple(strokes))


def _in_parts(row: tuple[int, ...]) -> Iterator[tuple[int, tuple[int, ...]]]:
    """Yield the first column and the runs of each stroke of a row, dark at both ends."""
    for k in range(1, len(row), MOST_RUNS + 1):
        yield sum(row[:k]), row[k : k + MOST_RUNS]
