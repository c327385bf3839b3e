"""The key to the lines: every kind of line that a file prints, drawn small as it is printed.

Millimetres in the page's frame. Imports piece, the language, drawing, style, fonts and setting.
"""

import math
from collections.abc import Sequence

from drafting.geometry import Arc, Path, Point, moved, stepped, straight
from drafting.language import said_later, say
from drafting.piece import InnerKind, NotchKind, Piece
from drafting.units import Mm
from render import fonts, style
from render.drawing import Layer, Pen, Stroke
from render.nest.pens import SHARED, inner_pen, size_pen
from render.piece_drawing import LineKind
from render.setting import Setting
from render.tiling import Join

ROW: Mm = 5.9
SAMPLE: Mm = 22.0

Sample = tuple[tuple[tuple[Path, Pen], ...], str]
"""Strokes in a frame of their own, 0 to ``SAMPLE`` along x and y about 0, and what they mean."""

_INNER_WORDS = {
    InnerKind.RUFFLE_LINE: said_later("ruffle's line, quarters marked across"),
    InnerKind.GATHERING: said_later("gathering row, or cord"),
    InnerKind.FOLD_LINE: said_later("fold of a band or ruffle"),
    InnerKind.CENTRE: said_later("centre line"),
    InnerKind.RAY: said_later("ray: lay the tape along it, from the waist line"),
}


def printed_key(
    page: Setting,
    pieces: Sequence[Piece],
    joins: Sequence[Join],
    *,
    overlapped: bool,
    sizes: Sequence[str] = (),
) -> None:
    """Set the key in two columns, with the lines that these pieces really show.

    Args:
        sizes: of a graded pattern, the smallest first; each has a line of its own.
        joins: where pages meet; their marks are in the key if there are any.
        overlapped: whether pages are laid on each other, or butted.
    """
    samples = [*_lines(pieces, sizes), *_marks(pieces)]
    if joins:
        samples += _joins(overlapped=overlapped)
    half, wide = math.ceil(len(samples) / 2), page.width / 2
    columns = [_broken(part, wide - SAMPLE - 6) for part in (samples[:half], samples[half:])]
    more = [math.fsum(_more(rows) for _, rows in part) for part in columns]
    deep = max(len(part) * ROW + extra for part, extra in zip(columns, more, strict=True))
    page.need(deep + 3)
    top = page.y
    for column, part in enumerate(columns):
        x, lower = page.left + column * wide, 0.0
        for k, (strokes, rows) in enumerate(part):
            y = top - k * ROW - ROW / 2 - lower
            for path, pen in strokes:
                placed = moved(path, x=x, y=y)
                page.strokes.append(Stroke(path=placed, pen=pen, layer=Layer.PAGE))
            for down, words in enumerate(rows):
                below = down * style.SMALL * style.LEADING
                page.line(words, x + SAMPLE + 4, y - 1.1 - below, size=style.SMALL)
            lower += _more(rows)
    page.y = top - deep - 2.5


def _broken(
    samples: Sequence[Sample], room: Mm
) -> list[tuple[tuple[tuple[Path, Pen], ...], tuple[str, ...]]]:
    """Return samples with their words broken to the room beside them."""
    return [(strokes, fonts.wrapped(words, style.SMALL, room)) for strokes, words in samples]


def _more(rows: Sequence[str]) -> Mm:
    """Return how much higher than one row some words are that are broken into several."""
    return (len(rows) - 1) * style.SMALL * style.LEADING


def _level(pen: Pen) -> tuple[tuple[Path, Pen], ...]:
    return ((straight(Point(0.0, 0.0), Point(SAMPLE, 0.0)), pen),)


def _head(tip: Point, angle: float, size: Mm) -> Path:
    sides = (math.radians(155), -math.radians(155))
    return tuple(straight(stepped(tip, angle + side, size), tip)[0] for side in sides)


def _sized(sizes: Sequence[str]) -> list[Sample]:
    """Return the cutting line of every size, then those that sizes share and that are sewn."""
    samples: list[Sample] = [
        (_level(size_pen(place)), say("cutting line, size {size}", size=size))
        for place, size in enumerate(sizes)
    ]
    sewn = size_pen(0, LineKind.STITCHING)
    return [
        *samples,
        (_level(SHARED), say("cutting line of the sizes named in it")),
        (_level(sewn), say("stitching line of a size: grey, in its rhythm")),
        (_level(style.STITCHING), say("stitching line of several sizes")),
    ]


def _lines(pieces: Sequence[Piece], sizes: Sequence[str] = ()) -> list[Sample]:
    grain = (
        *_level(style.GRAIN),
        (_head(Point(SAMPLE, 0.0), 0.0, 3.5), style.GRAIN),
        (_head(Point(0.0, 0.0), math.pi, 3.5), style.GRAIN),
    )
    samples: list[Sample] = (
        _sized(sizes)
        if sizes
        else [
            (_level(style.CUTTING), say("cutting line")),
            (_level(style.STITCHING), say("stitching line")),
        ]
    )
    samples.append((grain, say("grain, parallel to the selvage")))
    kinds = {line.kind for piece in pieces for line in piece.inner_lines}
    samples += [
        (_level(inner_pen(pen) if sizes else pen), say(_INNER_WORDS[kind]))
        for kind, pen in style.INNER.items()
        if kind in kinds
    ]
    if any(piece.half for piece in pieces):
        samples.append((_bracket(), say("fold, or middle of a half")))
    return samples


def _bracket() -> tuple[tuple[Path, Pen], ...]:
    edge = straight(Point(0.0, -1.8), Point(SAMPLE, -1.8))
    arms: list[tuple[Path, Pen]] = [
        (edge, style.FOLD),
        (straight(Point(3.0, 1.8), Point(SAMPLE - 3, 1.8)), style.GRAIN),
    ]
    for x in (3.0, SAMPLE - 3):
        arms.append((straight(Point(x, 1.8), Point(x, -1.6)), style.GRAIN))
        arms.append((_head(Point(x, -1.6), -math.pi / 2, 1.6), style.GRAIN))
    return tuple(arms)


def _marks(pieces: Sequence[Piece]) -> list[Sample]:
    samples: list[Sample] = []
    strokes = sorted({n.strokes for p in pieces for n in p.notches if n.kind is NotchKind.PLACE})
    edge = (straight(Point(0.0, 0.7), Point(SAMPLE, 0.7)), style.CUTTING)
    places = {
        1: say("notch at the centre front"),
        2: say("notch at the side"),
        3: say("notch at the centre back"),
    }
    for count in strokes:
        first = SAMPLE / 2 - (count - 1) / 2 * style.NOTCH_SPACING
        ticks = tuple(
            (straight(Point(x, 2.2), Point(x, -2.2)), style.NOTCH)
            for x in (first + k * style.NOTCH_SPACING for k in range(count))
        )
        samples.append(((edge, *ticks), places[count]))
    if any(n.kind is NotchKind.BALANCE for piece in pieces for n in piece.notches):
        x = SAMPLE / 2
        left, tip, right = Point(x - 2, 0.7), Point(x, -2.4), Point(x + 2, 0.7)
        wedge = (*straight(left, tip), *straight(tip, right))
        samples.append(((edge, (wedge, style.NOTCH)), say("notch that meets its like")))
    if any(piece.dots for piece in pieces):
        circle: Path = (
            Arc(
                centre=Point(SAMPLE / 2, 0.0),
                radius=style.DOT / 2,
                begin=0.0,
                finish=math.tau,
            ),
        )
        samples.append((((circle, style.MARK),), say("opening ends: sew up to here")))
    return samples


def _joins(*, overlapped: bool) -> list[Sample]:
    ring: Path = (Arc(centre=Point(SAMPLE / 2, 0.0), radius=2.6, begin=0.0, finish=math.tau),)
    line = straight(Point(SAMPLE / 2, -3.0), Point(SAMPLE / 2, 3.0))
    samples: list[Sample] = [
        (((ring, style.MARK), (line, style.THIN)), say("join of two pages, taped true")),
        (_level(style.TRIM_CUT), say("cut the page here")),
    ]
    if overlapped:
        samples.append((_level(style.TRIM), say("lay the next page up to here")))
    return samples
