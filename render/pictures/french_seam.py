"""A French seam cut through, before and after it is turned: how wide each of its passes is.

Millimetres on the page; y is 0 on the stitching line, raw edges above it. Widths are true to one
scale. Imports the pattern, the habits of the hand, cloth cut through and ink.
"""

from drafting.geometry import Point
from drafting.language import in_its_language, say
from drafting.pattern import Pattern
from drafting.piece import EdgeKind
from drafting.spec import SeamFinish
from drafting.units import Mm, length_text
from render.booklet.habits import FRENCH_SECOND, FRENCH_TRIM
from render.drawing import Anchor, Drawing, placed, together
from render.fonts import wrapped
from render.pictures.ink import (
    CLEAR,
    FOLD,
    HIDDEN,
    Label,
    dimension,
    extent,
    framed,
    labels,
    line,
    words,
)
from render.pictures.picture import SMALL_TYPE, Picture
from render.pictures.section import APART, THICK, Sign, broken_off, folded, layer, stitch
from render.style import LEADING

BY = 2.2
"""How many times as large as it is sewn."""

BELOW: Mm = 14.0
"""How much of the cloth is shown below the stitching line."""

COLUMN: Mm = 59.0
"""From one pass to the next."""

MEASURE: Mm = -5.0
WORDS: Mm = 29.0

LEAST: Mm = FRENCH_SECOND + 2.0
"""A narrower allowance has no room for two passes."""


@in_its_language
def french_seam_picture(pattern: Pattern) -> Picture | None:
    """Return the two passes of a French seam; None where seams are finished otherwise."""
    if not pattern.pieces or pattern.spec.skirt.owned is not None:
        return None
    if pattern.spec.skirt.seams is not SeamFinish.FRENCH:
        return None
    allowance = _allowance(pattern)
    if allowance < LEAST:
        return None
    units = pattern.spec.units
    first, trim = allowance - FRENCH_SECOND, min(FRENCH_TRIM, allowance - FRENCH_SECOND)
    stages = (
        (say("first: wrong sides together"), _first(pattern, allowance, trim)),
        (say("then: turned, right sides together"), _second(pattern, trim)),
    )
    top = max(extent(stage).top for _, stage in stages) + 3.0
    most = COLUMN - 4.0
    rows = max(len(wrapped(said, SMALL_TYPE, most, bold=True)) for said, _ in stages)
    head = top + (rows - 1) * SMALL_TYPE * LEADING
    drawn = [
        placed(together(stage, words(said, Point(-11.0, head), bold=True, most=most)), x=k * COLUMN)
        for k, (said, stage) in enumerate(stages)
    ]
    return framed(
        "french-seam",
        together(*drawn),
        caption=say(
            "A French seam cut through and enlarged. The dash-dotted line is the pattern's"
            " stitching line; the cloth is drawn thicker than it is."
        ),
        alt=say(
            "Wrong sides together, the first pass lies {first} from the raw edges, {second} outside"
            " the stitching line; the edges are trimmed to {trim}. Turned, right sides together,"
            " the second pass lies on the stitching line, {second} from the fold.",
            first=length_text(first, units),
            second=length_text(FRENCH_SECOND, units),
            trim=length_text(trim, units),
        ),
    )


def _allowance(pattern: Pattern) -> Mm:
    """Return the allowance of the seams between the skirt's panels."""
    return next(
        edge.allowance
        for piece in pattern.pieces
        for edge in piece.edges
        if piece.cloth == "skirt" and edge.kind is EdgeKind.SEAM and edge.name != "waist"
    )


def _first(pattern: Pattern, allowance: Mm, trim: Mm) -> Drawing:
    units = pattern.spec.units
    top, y = allowance * BY, FRENCH_SECOND * BY
    cut = y + trim * BY
    named = [
        Label(words=say("first pass"), to=Point(APART + THICK / 2 + 0.9, y)),
        Label(words=say("stitching line"), to=Point(APART + 3.5, 0.0)),
        Label(words=say("right side of the cloth"), to=Point(APART + THICK / 2, -BELOW + 5.0)),
    ]
    if cut < top - 1.0:
        said = length_text(trim, units)
        named.append(Label(words=say("trim to {trim}", trim=said), to=Point(APART + 2.5, cut)))
    return together(
        *(layer((Point(x, -BELOW), Point(x, top)), Sign.SKIRT) for x in (0.0, APART)),
        broken_off(-2.5, APART + 2.5, -BELOW),
        stitch(y, -THICK / 2, APART + THICK / 2),
        _stitching_line(APART),
        line(Point(-2.5, cut), Point(APART + 2.5, cut), pen=HIDDEN),
        _measure(0.0, y, length_text(FRENCH_SECOND, units)),
        _measure(y, top, length_text(allowance - FRENCH_SECOND, units)),
        labels(named, APART + 9.0, most=WORDS),
    )


def _second(pattern: Pattern, trim: Mm) -> Drawing:
    """Return the seam turned: each layer folds in at the top, its raw edge inside."""
    units = pattern.spec.units
    top, right = FRENCH_SECOND * BY, 3 * APART
    end = top - trim * BY
    named = [
        Label(words=say("first pass, now inside the fold"), to=Point(1.5 * APART, top - 2.2)),
        Label(words=say("raw edges, shut in"), to=Point(2 * APART, end + 0.8)),
        Label(
            words=say("second pass, on the stitching line"), to=Point(right + THICK / 2 + 0.9, 0.0)
        ),
        Label(words=say("wrong side of the cloth"), to=Point(right + THICK / 2, -BELOW + 5.0)),
    ]
    return together(
        layer(folded(0.0, -BELOW, (top, APART), end=end), Sign.SKIRT),
        layer(folded(right, -BELOW, (top, 2 * APART), end=end), Sign.SKIRT),
        broken_off(-2.5, right + 2.5, -BELOW),
        stitch(top - 2.2, APART - THICK / 2, 2 * APART + THICK / 2),
        stitch(0.0, -THICK / 2, right + THICK / 2),
        _stitching_line(right),
        _measure(0.0, top, length_text(FRENCH_SECOND, units)),
        labels(named, right + 9.0, most=WORDS),
    )


def _stitching_line(right: Mm) -> Drawing:
    return line(Point(-3.5, 0.0), Point(right + 3.5, 0.0), pen=FOLD)


def _measure(low: Mm, high: Mm, said: str) -> Drawing:
    """Return a measure to the left of a section."""
    return together(
        dimension(Point(MEASURE, low), Point(MEASURE, high), said, anchor=Anchor.END),
        *(line(Point(MEASURE + CLEAR, y), Point(-THICK / 2 - 1.2, y)) for y in (low, high)),
    )
