"""The gathering sample: a strip to print, cut from the ruffle's cloth and draw up.

Millimetres, at true size; y is 0 at the raw edge and runs down. Imports the pattern, the ruffle's
methods, the habits of the hand and the inks of pictures.
"""

from drafting.figures import RuffleFigures
from drafting.geometry import Point
from drafting.language import decimal, in_its_language, listed, say
from drafting.pattern import Pattern
from drafting.ruffle import Method
from drafting.units import MM_PER_INCH, Mm, Units, length_text
from render.booklet.habits import LONG_STITCH, SAMPLE
from render.drawing import Anchor, Drawing, Pen, together
from render.fonts import wrapped
from render.pictures import ink
from render.pictures.gathering_rows import stitches
from render.pictures.picture import SMALL_TYPE, Picture
from render.style import LEADING

FLAT = {Units.CM: SAMPLE, Units.INCH: 4 * MM_PER_INCH}
"""Flat length of the strip that is printed: ten centimetres or four inches."""

TIMES = 3
"""How often the strip is marked along the cloth: so little as one length of it shows nothing."""

DEEP: Mm = 45.0
"""Cut depth of the sample: the allowance and enough of a body to see how it stands."""

SPACING = {Units.CM: 5.0, Units.INCH: MM_PER_INCH / 4}
"""Steps of the table's gathered lengths: what a rule shows, and a ratio can be told by."""

AROUND = 3
"""Rows of the table on each side of this ruffle's own."""

BROAD: Mm = 118.0
HEADS: Mm = 24.0
"""Width of the words and the table under the strip, and of the table's first column."""

ROW = stitches(LONG_STITCH, 0.3)
SEAM = Pen(width=0.6, dash=(7.0, 1.6, 1.2, 1.6))
"""The seam line, told from the rows at a glance: heavier, and a dash and a dot."""

_LEAD: Mm = SMALL_TYPE * LEADING


@in_its_language
def sample_strip(pattern: Pattern) -> Picture | None:
    """Return the sample at true size with its table; None without a ruffle."""
    ruffle = pattern.figures.ruffle
    if ruffle is None:
        return None
    units = pattern.spec.units
    flat = FLAT[units]
    said, whole = length_text(flat, units), length_text(_whole(units), units)
    gathered = length_text(_whole(units) / ruffle.gather_ratio, units)
    rows = listed(tuple(length_text(row, units) for row in sorted(ruffle.rows_from_edge)))
    strip = _strip(_row_names(ruffle, units), ruffle.rows_from_edge, ruffle.seam_from_edge, flat)
    measured = ink.dimension(
        Point(0.0, 4.0), Point(flat, 4.0), say("{flat}, a third of the sample", flat=said)
    )
    return ink.framed(
        "gathering-sample",
        together(strip, measured, _below(ruffle, units, ink.extent(strip).bottom - 2.0)),
        caption=say(
            "A third of the sample, at true size where it is printed at 100 %. Cut {whole} of the"
            " ruffle's cloth, mark it three times along, gather it and draw it up to {gathered}:"
            " that is how this ruffle will stand.",
            whole=whole,
            gathered=gathered,
        ),
        alt=say(
            "A strip {flat} long with marks at every eighth, a third of a sample of {whole}. Its"
            " gathering lies {rows} from the raw edge, the seam line {seam} from it. Gathered to"
            " {gathered} the sample shows a ratio of {ratio}.",
            flat=said,
            whole=whole,
            rows=rows,
            seam=length_text(ruffle.seam_from_edge, units),
            gathered=gathered,
            ratio=_ratio(ruffle.gather_ratio),
        )
        + " "
        + "; ".join(f"{length}: {ratio}" for length, ratio in sample_rows(pattern)),
    )


@in_its_language
def sample_rows(pattern: Pattern) -> tuple[tuple[str, str], ...]:
    """Return gathered lengths of the sample and the ratio of each; empty without a ruffle."""
    ruffle = pattern.figures.ruffle
    if ruffle is None:
        return ()
    return _table(ruffle, pattern.spec.units)


def _whole(units: Units) -> Mm:
    """Return the flat length of the whole sample."""
    return TIMES * FLAT[units]


def _table(ruffle: RuffleFigures, units: Units) -> tuple[tuple[str, str], ...]:
    flat, step = _whole(units), SPACING[units]
    return tuple(
        (length_text(count * step, units), _ratio(flat / (count * step)))
        for count in _counts(ruffle, units)
    )


def _counts(ruffle: RuffleFigures, units: Units) -> range:
    """Return the table's gathered lengths, counted in its steps; never longer than it is flat."""
    flat, step = _whole(units), SPACING[units]
    nearest, last = round(flat / ruffle.gather_ratio / step), round(flat / step)
    low = max(min(nearest - AROUND, last - 2 * AROUND), 1)
    return range(low, low + 2 * AROUND + 1)


def _ratio(ratio: float) -> str:
    return decimal(f"{ratio:.2f}")


def _nearest(ruffle: RuffleFigures, units: Units) -> int:
    """Return which row of the table comes nearest to this ruffle's own ratio."""
    wished = _whole(units) / ruffle.gather_ratio
    step = SPACING[units]
    first = _counts(ruffle, units)[0]
    return round(wished / step) - first


def _strip(named: tuple[tuple[Mm, str], ...], rows: tuple[Mm, ...], seam: Mm, flat: Mm) -> Drawing:
    """Return the strip at the size it is cut: its edges, lines with their names, and eighths.

    Args:
        named: each line's distance from the raw edge and what is written of it.
    """
    most = flat / len(named) - 4.0
    lines = max(len(wrapped(words, SMALL_TYPE, most)) for _, words in named)
    head = -max(far for far, _ in named) - 6.0
    deep = max(DEEP, -head + lines * _LEAD + 9.0)
    drawn = [
        ink.outline([Point(0, 0), Point(0, -deep), Point(flat, -deep), Point(flat, 0)]),
        ink.line(Point(0.0, -seam), Point(flat, -seam), pen=SEAM),
        *(ink.line(Point(0.0, -row), Point(flat, -row), pen=ROW) for row in rows),
    ]
    for k in range(1, 8):
        x, reach = flat * k / 8, 5.0 if k % 2 == 0 else 3.0
        drawn.append(ink.line(Point(x, 0.0), Point(x, -reach), pen=ink.EDGE))
    for k, (far, words) in enumerate(named):
        x = k * flat / len(named) + 2.0
        drawn += [
            ink.words(words, Point(x, head - _LEAD), most=most),
            ink.line(Point(x + 3.0, head - 0.9), Point(x + 3.0, -far)),
            ink.dot(Point(x + 3.0, -far)),
        ]
    band = [Point(x, y) for y in (-deep + 1.0, -deep + 7.0) for x in (1.0, flat - 1.0)]
    drawn.append(ink.hatched((band[0], band[1], band[3], band[2]), ink.RUFFLE_ANGLE))
    return together(*drawn)


def _row_names(ruffle: RuffleFigures, units: Units) -> tuple[tuple[Mm, str], ...]:
    """Return every line of the sample, its distance from the raw edge and its words."""
    seam = ruffle.seam_from_edge
    cord = ruffle.method == Method.CORD.value
    said = []
    for row in sorted(ruffle.rows_from_edge):
        far = length_text(row, units)
        if cord:
            said.append((row, say("cord under its zigzag, {far} from the raw edge", far=far)))
        else:
            said.append((row, say("gathering row, {far} from the raw edge", far=far)))
    far = length_text(seam, units)
    said.append((seam, say("seam line, {far} from the raw edge", far=far)))
    return tuple(sorted(said))


def _below(ruffle: RuffleFigures, units: Units, top: Mm) -> Drawing:
    """Return how a ratio is read back, and the table of gathered lengths."""
    flat = _whole(units)
    words = say(
        "Sew the gathering, draw the sample up until it stands as you wish, and measure it along"
        " the seam line. Ratio = flat length ({flat}) over gathered length. This ruffle's own is"
        " {ratio}: draw the sample up to about {gathered}.",
        flat=length_text(flat, units),
        gathered=length_text(flat / ruffle.gather_ratio, units),
        ratio=_ratio(ruffle.gather_ratio),
    )
    lines = len(wrapped(words, SMALL_TYPE, BROAD))
    return together(
        ink.words(words, Point(0.0, top - _LEAD), most=BROAD),
        _ruled(ruffle, units, top - lines * _LEAD - 3.0),
    )


def _ruled(ruffle: RuffleFigures, units: Units, top: Mm) -> Drawing:
    """Return the table, this ruffle's own column in a frame."""
    heads = (say("gathered to"), say("ratio"))
    pairs = _table(ruffle, units)
    own = _nearest(ruffle, units)
    step = (BROAD - HEADS) / len(pairs)
    heights = [
        len(wrapped(head, SMALL_TYPE, HEADS - 2.0, bold=True)) * _LEAD + 2.0 for head in heads
    ]
    drawn, y = [ink.line(Point(0.0, top), Point(BROAD, top))], top
    for row, (head, high) in enumerate(zip(heads, heights, strict=True)):
        middle = y - high / 2
        drawn.append(ink.beside(head, Point(0.0, middle), most=HEADS - 2.0, bold=True))
        for k, pair in enumerate(pairs):
            at = Point(HEADS + (k + 0.5) * step, middle)
            drawn.append(ink.beside(pair[row], at, anchor=Anchor.MIDDLE, bold=k == own))
        y -= high
        drawn.append(ink.line(Point(0.0, y), Point(BROAD, y)))
    left = HEADS + own * step
    frame = [Point(left, y), Point(left + step, y), Point(left + step, top), Point(left, top)]
    drawn.append(ink.outline(frame, pen=ink.OUTLINE))
    return together(*drawn)
