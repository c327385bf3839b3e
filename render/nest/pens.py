"""How the lines of a nest are drawn, so that sizes are told apart in black alone.

A size has a rhythm and a weight of its own; its neighbours have others of both. What several
sizes share is drawn in one unbroken line. Millimetres. Imports drawing and style.
"""

from dataclasses import replace

from drafting.units import Mm
from render import style
from render.drawing import Pen
from render.piece_drawing import LineKind

LIGHT: Mm = 0.5
HEAVY: Mm = 0.9
"""Weights of a size's cutting line, by turns."""

SEWN, SEWN_GREY = 0.3, 0.45
"""Weight and grey of a size's stitching line: of the rhythm of its cutting line, and never taken
for one."""

_LONG = (12.0, 2.5)
_DOT = (8.0, 2.0, 1.2, 2.0)
_TWO_DOTS = (8.0, 1.8, 1.2, 1.8, 1.2, 1.8)
_SHORT = (3.0, 2.0)

_SIZES: tuple[tuple[Mm, tuple[Mm, ...]], ...] = (
    (LIGHT, _LONG),
    (HEAVY, _DOT),
    (LIGHT, _SHORT),
    (HEAVY, _LONG),
    (LIGHT, _TWO_DOTS),
    (HEAVY, _SHORT),
    (LIGHT, _DOT),
    (HEAVY, _TWO_DOTS),
)
"""Weight and rhythm of each size of a nest, the smallest first. No two neighbours share either."""


def size_pen(place: int, kind: LineKind = LineKind.CUTTING) -> Pen:
    """Return the pen of a size's own line.

    Args:
        place: the size's place in the nest, 0 for the smallest.
        kind: cutting or stitching; the other lines of a piece have one pen in every size.
    """
    weight, rhythm = _SIZES[place % len(_SIZES)]
    if kind is LineKind.CUTTING:
        return Pen(width=weight, dash=rhythm)
    return Pen(width=SEWN, dash=rhythm, grey=SEWN_GREY)


def inner_pen(pen: Pen) -> Pen:
    """Return the pen of a size's own line inside a piece, such as the ruffle's.

    Grey as what is sewn, or its dashes would be taken for a size's cutting line.
    """
    return replace(pen, width=min(pen.width, SEWN), grey=SEWN_GREY)


SHARED = style.CUTTING
"""A cutting line of several sizes."""
