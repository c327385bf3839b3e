"""Cloth cut through and seen on edge: turned, folded, stitched.

Millimetres on the page; x to the right, the garment's inside on the right, y up. Layers have a
thickness here that no cloth has, so that turns can be told apart. Imports ink and geometry.
"""

import math
from collections.abc import Sequence
from enum import StrEnum

from drafting.geometry import Point
from drafting.units import Mm
from render.drawing import Drawing, Pen, together
from render.pictures.ink import (
    EDGE,
    LINING_ANGLE,
    OUTLINE,
    RUFFLE_ANGLE,
    THIN,
    hatched,
    line,
)


class Sign(StrEnum):
    """What a layer is, which tells how it is drawn."""

    SKIRT = "skirt"
    LINING = "lining"
    RUFFLE = "ruffle"


class Ends(StrEnum):
    """Where a layer ends inside the picture."""

    OPEN = "goes on at both ends"
    ONE_RAW = "goes on where it begins"
    BOTH_RAW = "a strip"


THICK: Mm = 1.8
"""How thick a layer is drawn."""

APART: Mm = 2.4
"""From the middle of a layer to the middle of the next one folded upon it."""

FACE = Pen(width=0.45)
"""Either face of a layer."""

_GAPS = {Sign.LINING: (LINING_ANGLE, 1.0), Sign.RUFFLE: (RUFFLE_ANGLE, 1.0)}
_TURN_STEPS = 16


def folded(x: Mm, start: Mm, *turns: tuple[Mm, Mm], end: Mm) -> tuple[Point, ...]:
    """Return the middle of a layer that runs up and down and is folded at each turn.

    Args:
        x, start: where it begins; ``end`` is the height at which it ends.
        turns: the height of each fold, and the x at which the layer goes back.
    """
    points = [Point(x, start)]
    y = start
    for fold, back in turns:
        down = fold < y
        r = abs(back - x) / 2
        middle, level = (x + back) / 2, fold + r if down else fold - r
        for k in range(_TURN_STEPS + 1):
            # From the side it comes on to the side it leaves by, through the fold's outermost.
            angle = math.pi * k / _TURN_STEPS
            side = -math.cos(angle) if back > x else math.cos(angle)
            rise = -math.sin(angle) if down else math.sin(angle)
            points.append(Point(middle + r * side, level + r * rise))
        x, y = back, fold
    points.append(Point(x, end))
    return tuple(points)


def ribbon(points: Sequence[Point], thick: Mm = THICK) -> tuple[tuple[Point, ...], ...]:
    """Return both sides of a layer of that thickness about its middle, left side first."""
    left, right = [], []
    last = len(points) - 1
    for k, here in enumerate(points):
        before, after = points[max(k - 1, 0)], points[min(k + 1, last)]
        angle = math.atan2(after.y - before.y, after.x - before.x) + math.pi / 2
        x, y = math.cos(angle) * thick / 2, math.sin(angle) * thick / 2
        left.append(Point(here.x + x, here.y + y))
        right.append(Point(here.x - x, here.y - y))
    return tuple(left), tuple(right)


def layer(
    points: Sequence[Point], sign: Sign, *, thick: Mm = THICK, ends: Ends = Ends.ONE_RAW
) -> Drawing:
    """Return a layer drawn along its middle: closed where it has a raw edge.

    Args:
        ends: whether it begins outside the picture or with a raw edge too.
    """
    left, right = ribbon(points, thick)
    shape = (*left, *reversed(right))
    if ends is Ends.OPEN:
        drawn = together(line(*left, pen=FACE), line(*right, pen=FACE))
    else:
        rim = (*shape, shape[0]) if ends is Ends.BOTH_RAW else shape
        drawn = line(*rim, pen=FACE)
    if sign in _GAPS:
        angle, gap = _GAPS[sign]
        drawn = together(hatched(shape, angle, gap), drawn)
    return drawn


def stitch(y: Mm, left: Mm, right: Mm) -> Drawing:
    """Return a row of stitching seen on end: a thread through layers, a knot on either face."""
    a, b = left - 0.9, right + 0.9
    return together(
        line(Point(a, y), Point(b, y), pen=EDGE),
        *(line(Point(x, y - 0.8), Point(x, y + 0.8), pen=OUTLINE) for x in (a, b)),
    )


def broken_off(left: Mm, right: Mm, y: Mm) -> Drawing:
    """Return the wavering line across layers that go on beyond the picture."""
    steps = 24
    return line(
        *(
            Point(
                left + (right - left) * k / steps,
                y + 0.6 * math.sin(2 * math.tau * k / steps),
            )
            for k in range(steps + 1)
        ),
        pen=THIN,
    )
