"""The key to the lines: every kind of line that a file prints, drawn small as it is printed.

Millimetres in the page's frame. Imports piece, drawing, style and setting.
"""

import math
from collections.abc import Sequence

from drafting.geometry import Arc, Path, Point, moved, stepped, straight
from drafting.piece import InnerKind, NotchKind, Piece
from drafting.units import Mm
from render import style
from render.drawing import Layer, Pen, Stroke
from render.setting import Setting
from render.tiling import Join

ROW: Mm = 5.9
SAMPLE: Mm = 22.0

Sample = tuple[tuple[tuple[Path, Pen], ...], str]
"""Strokes in a frame of their own, 0 to ``SAMPLE`` along x and y about 0, and what they mean."""

_INNER_WORDS = {
    InnerKind.RUFFLE_LINE: "ruffle's line, quarters marked across",
    InnerKind.GATHERING: "gathering row, or cord",
    InnerKind.FOLD_LINE: "fold of a band or ruffle",
    InnerKind.CENTRE: "centre line",
    InnerKind.RAY: "ray: lay the tape along it, from the waist line",
}


def printed_key(
    page: Setting, pieces: Sequence[Piece], joins: Sequence[Join], *, overlapped: bool
) -> None:
    """Set the key in two columns, with the lines that these pieces really show.

    Args:
        joins: where pages meet; their marks are in the key if there are any.
        overlapped: whether pages are laid on each other, or butted.
    """
    samples = [*_lines(pieces), *_marks(pieces)]
    if joins:
        samples += _joins(overlapped=overlapped)
    deep = math.ceil(len(samples) / 2)
    page.need(deep * ROW + 3)
    top, column = page.y, page.width / 2
    for k, (strokes, words) in enumerate(samples):
        x = page.left + (k // deep) * column
        y = top - (k % deep) * ROW - ROW / 2
        for path, pen in strokes:
            placed = moved(path, x=x, y=y)
            page.strokes.append(Stroke(path=placed, pen=pen, layer=Layer.PAGE))
        page.line(words, x + SAMPLE + 4, y - 1.1, size=style.SMALL)
    page.y = top - deep * ROW - 2.5


def _level(pen: Pen) -> tuple[tuple[Path, Pen], ...]:
    return ((straight(Point(0.0, 0.0), Point(SAMPLE, 0.0)), pen),)


def _head(tip: Point, angle: float, size: Mm) -> Path:
    sides = (math.radians(155), -math.radians(155))
    return tuple(straight(stepped(tip, angle + side, size), tip)[0] for side in sides)


def _lines(pieces: Sequence[Piece]) -> list[Sample]:
    grain = (
        *_level(style.GRAIN),
        (_head(Point(SAMPLE, 0.0), 0.0, 3.5), style.GRAIN),
        (_head(Point(0.0, 0.0), math.pi, 3.5), style.GRAIN),
    )
    samples: list[Sample] = [
        (_level(style.CUTTING), "cutting line"),
        (_level(style.STITCHING), "stitching line"),
        (grain, "grain, parallel to the selvage"),
    ]
    kinds = {line.kind for piece in pieces for line in piece.inner_lines}
    samples += [
        (_level(style.INNER[kind]), _INNER_WORDS[kind]) for kind in InnerKind if kind in kinds
    ]
    if any(piece.half for piece in pieces):
        samples.append((_bracket(), "fold, or middle of a half"))
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
    places = {1: "centre front", 2: "side", 3: "centre back"}
    for count in strokes:
        first = SAMPLE / 2 - (count - 1) / 2 * style.NOTCH_SPACING
        ticks = tuple(
            (straight(Point(x, 2.2), Point(x, -2.2)), style.NOTCH)
            for x in (first + k * style.NOTCH_SPACING for k in range(count))
        )
        samples.append(((edge, *ticks), f"notch at the {places[count]}"))
    if any(n.kind is NotchKind.BALANCE for piece in pieces for n in piece.notches):
        x = SAMPLE / 2
        left, tip, right = Point(x - 2, 0.7), Point(x, -2.4), Point(x + 2, 0.7)
        wedge = (*straight(left, tip), *straight(tip, right))
        samples.append(((edge, (wedge, style.NOTCH)), "notch that meets its like"))
    if any(piece.dots for piece in pieces):
        circle: Path = (
            Arc(
                centre=Point(SAMPLE / 2, 0.0),
                radius=style.DOT / 2,
                begin=0.0,
                finish=math.tau,
            ),
        )
        samples.append((((circle, style.MARK),), "opening ends: sew up to here"))
    return samples


def _joins(*, overlapped: bool) -> list[Sample]:
    ring: Path = (Arc(centre=Point(SAMPLE / 2, 0.0), radius=2.6, begin=0.0, finish=math.tau),)
    line = straight(Point(SAMPLE / 2, -3.0), Point(SAMPLE / 2, 3.0))
    samples: list[Sample] = [
        (((ring, style.MARK), (line, style.THIN)), "join of two pages, taped true"),
        (_level(style.TRIM_CUT), "cut the page here"),
    ]
    if overlapped:
        samples.append((_level(style.TRIM), "lay the next page up to here"))
    return samples
