"""Pens and sizes of type. A line or a letter is defined here once, for every format.

Everything works in black on a cheap printer: kinds of line differ by rhythm and weight,
never by colour. Millimetres. Imports drawing and the piece's words.
"""

from drafting.piece import InnerKind
from drafting.units import Mm
from render.drawing import Pen

CUTTING = Pen(width=0.7)
STITCHING = Pen(width=0.35, dash=(6.0, 3.0))
FOLD = Pen(width=0.7)
GRAIN = Pen(width=0.5)
NOTCH = Pen(width=0.5)
MARK = Pen(width=0.35)
THIN = Pen(width=0.25)
TRIM = Pen(width=0.25, dash=(1.0, 1.0))
# Lies on the rim of the page's window, which takes half of its width off.
TRIM_CUT = Pen(width=0.5)
WEDGE: Mm = 4.0
"""Width of a balance notch where it meets the cutting line."""


INNER = {
    InnerKind.RUFFLE_LINE: Pen(width=0.5, dash=(10.0, 2.5, 1.0, 2.5)),
    InnerKind.GATHERING: Pen(width=0.25, dash=(2.0, 1.0)),
    InnerKind.FOLD_LINE: Pen(width=0.25, dash=(12.0, 2.0)),
    InnerKind.CENTRE: Pen(width=0.25),
    InnerKind.RAY: Pen(width=0.25),
}

# Heights of type; a typographic point is 0.3528 mm, so these are 27, 13, 10, 9 and 8 pt.
NAME: Mm = 9.5
FACT: Mm = 4.6
ALONG: Mm = 3.5
SMALL: Mm = 3.2
NOTE: Mm = 2.9
TITLE: Mm = 9.5
HEADING: Mm = 5.3
BODY: Mm = 3.5
LEADING = 1.35
"""Distance of baselines over the height of the type."""

PAGE_NAME: Mm = 26.0
PAGE_NAME_GREY = 0.72
CAP_HEIGHT = 0.69
"""Height of capitals and figures over the height of the type, in the font used."""

GRAIN_HEAD: Mm = 6.0
NOTCH_SPACING: Mm = 3.0
NOTCH_OUTSIDE: Mm = 2.0
NOTCH_DEPTH = 0.6
"""How far into the allowance a notch is drawn; snips must stop well short of the seam."""

DOT: Mm = 3.0
