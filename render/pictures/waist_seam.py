"""What every finish of the waist shares, cut through: what hangs from its seam, tape, stitchings.

Millimetres on the page; y is 0 on the waist seam, the outside on the left. Imports the pattern,
section and ink.
"""

from drafting.geometry import Point
from drafting.language import say
from drafting.pattern import Pattern
from drafting.units import Mm
from render.drawing import Anchor, Drawing, Pen, together
from render.pictures.hem_edges import neatened
from render.pictures.ink import CLEAR, Label, dimension, line
from render.pictures.section import APART, THICK, Sign, broken_off, folded, layer, stitch

SKIRT_BELOW: Mm = 26.0
"""How much of the skirt is shown below its waist seam, on the page."""

LEFT: Mm = -9.0
"""Where the measure outside the finish stands."""

FIRST, SECOND = 1.6, 3.8
"""Heights of the two stitchings: the seam, and the inner edge sewn down."""

TAPE = Pen(width=0.8)
TAPE_ROOM: Mm = 1.4
"""Between the layers that a tape is sewn in with; it is drawn solid."""


def hanging(pattern: Pattern, top: Mm) -> tuple[Drawing, Mm, tuple[Label, ...]]:
    """Return skirt and lining hanging from a seam, where the innermost lies, their names."""
    low = -SKIRT_BELOW
    drawn = [layer((Point(0.0, low), Point(0.0, top)), Sign.SKIRT)]
    names = [Label(words=say("skirt"), to=Point(0.0, low + 9))]
    inner = 0.0
    if pattern.figures.lining is not None:
        inner = APART
        drawn.append(layer((Point(inner, low), Point(inner, top)), Sign.LINING))
        names.append(Label(words=say("lining"), to=Point(inner, low + 4)))
    drawn.append(broken_off(-2.5, inner + 2.5, low))
    return together(*drawn), inner, tuple(names)


def gathered_label(pattern: Pattern) -> tuple[Label, ...]:
    ratio = pattern.figures.skirt.gather_ratio
    if ratio is None:
        return ()
    return (Label(words=say("the skirt's waist edge is gathered"), to=Point(0.0, 3.0)),)


def measured(low: Mm, high: Mm, said: str) -> Drawing:
    """Return a measure outside the finish, its words to the left of it."""
    return together(
        dimension(Point(LEFT, low), Point(LEFT, high), said, anchor=Anchor.END, most=24),
        *(line(Point(LEFT + CLEAR, y), Point(-2 * APART, y)) for y in (low, high)),
    )


def wrapped_over(out: Mm, back: Mm, high: Mm, seam: Mm) -> tuple[Point, ...]:
    """Return a strip sewn on outside, folded over above and turned under inside.

    It begins with its allowance, which stands up between the skirt and its own outer half, and
    ends with the other, turned up between the skirt and its inner half.
    """
    return folded(out + APART, seam, (0.0, out), (high, back), (0.0, back - APART), end=seam)


def two_seams(inner: Mm, back: Mm) -> tuple[Drawing, Drawing]:
    """Return the waist seam, and the inner edge sewn down over it."""
    return (
        stitch(FIRST, -APART - THICK / 2, inner + THICK / 2),
        stitch(SECOND, inner - THICK / 2, back + THICK / 2),
    )


def tape_in_seam(inner: Mm) -> Drawing:
    """Return the stay tape on the innermost layer, caught in the seam."""
    x = inner + THICK / 2 + TAPE_ROOM / 2
    return line(Point(x, -0.6), Point(x, 3.0), pen=TAPE)


def tape_label(inner: Mm) -> Label:
    x = inner + THICK / 2 + TAPE_ROOM / 2
    return Label(words=say("stay tape in the seam"), to=Point(x, -0.2))


def neatened_below(x: Mm, y: Mm) -> Drawing:
    """Return the overcast thread round a raw edge that points down."""
    upright = neatened(x, -y)
    return Drawing(
        strokes=tuple(
            stroke
            for one in upright.strokes
            for stroke in line(
                *(Point(s.start.x, -s.start.y) for s in one.path),
                Point(one.path[-1].end.x, -one.path[-1].end.y),
                pen=one.pen,
            ).strokes
        )
    )
