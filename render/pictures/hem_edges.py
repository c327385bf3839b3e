"""Each way of finishing an edge, cut through: hems turned, faced, braided, bound, rolled.

Millimetres on the page; the edge lies at the height 0, the right side of the cloth on the left,
the cloth goes on upwards. Imports section and ink.
"""

import itertools
import math
from dataclasses import dataclass

from drafting.geometry import Point
from drafting.language import say
from drafting.units import Mm
from render.drawing import Drawing, together
from render.pictures.ink import EDGE, Label, line, outline
from render.pictures.section import APART, THICK, Ends, Sign, folded, layer, stitch

ABOVE: Mm = 12.0
"""How much plain cloth is shown above a finished edge."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Edge:
    """An edge as it is drawn: its section, the words beside it, how high it reaches."""

    drawing: Drawing
    labels: tuple[Label, ...]
    top: Mm


def narrow(sign: Sign, turn: Mm, width: str) -> Edge:
    """Return an edge turned twice, ``turn`` high on the page, and stitched by its upper fold.

    Args:
        width: of both turns together, in words.
    """
    top = turn + ABOVE
    path = folded(0.0, top, (0.0, 2 * APART), (turn, APART), end=min(1.6, turn / 3))
    y = turn - min(1.6, turn / 3)
    return Edge(
        drawing=together(layer(path, sign), stitch(y, -THICK / 2, 2 * APART + THICK / 2)),
        labels=(
            Label(words=say("stitched along the upper fold"), to=Point(2 * APART + 1.6, y)),
            Label(
                words=say("{width} turned up in two equal turns", width=width),
                to=Point(1.5 * APART, 0.5),
            ),
        ),
        top=top,
    )


def turned(sign: Sign, turn: Mm, width: str) -> Edge:
    """Return an edge neatened, turned up once and sewn down."""
    top = turn + ABOVE
    y = turn - 1.4
    return Edge(
        drawing=together(
            layer(folded(0.0, top, (0.0, APART), end=turn), sign),
            neatened(APART, turn),
            stitch(y - 1.2, -THICK / 2, APART + THICK / 2),
        ),
        labels=(
            Label(words=say("raw edge neatened"), to=Point(APART, turn + 0.6)),
            Label(words=say("sewn down"), to=Point(APART + 1.6, y - 1.2)),
            Label(words=say("turned up {width}", width=width), to=Point(APART, turn / 3)),
        ),
        top=top,
    )


def rolled(sign: Sign, width: str) -> Edge:
    """Return an edge rolled between the fingers, and held by stitches close beside it."""
    r = 1.5
    curl = tuple(
        Point(
            2.1 + (r + 0.55 - 1.1 * k / 28) * math.cos(math.pi + math.tau * k / 24),
            2.1 + (r + 0.55 - 1.1 * k / 28) * math.sin(math.pi + math.tau * k / 24),
        )
        for k in range(29)
    )
    top = ABOVE + 6
    return Edge(
        drawing=together(
            layer((Point(0.05, top), *curl), sign, thick=0.9), stitch(5.4, -0.45, 0.45)
        ),
        labels=(
            Label(words=say("overcast, close beside the roll"), to=Point(1.4, 5.4)),
            Label(words=say("rolled in, {width}", width=width), to=Point(3.9, 1.6)),
        ),
        top=top,
    )


def faced(sign: Sign, depth: Mm, allowance: Mm, deep: str, seam: str) -> Edge:
    """Return an edge faced inside with a facing of its own shape."""
    return _facing(sign, depth, allowance, say("facing {depth} deep", depth=deep), seam)


def bias_faced(sign: Sign, depth: Mm, allowance: Mm, strip: str, seam: str) -> Edge:
    """Return an edge faced inside with a bias strip."""
    return _facing(sign, depth, allowance, say("bias strip cut {width} wide", width=strip), seam)


def _facing(sign: Sign, depth: Mm, allowance: Mm, said: str, seam: str) -> Edge:
    top = depth + ABOVE
    inner = 2 * APART + 1.6
    y = depth - 2.4
    return Edge(
        drawing=together(
            layer(folded(0.0, top, (0.0, APART), end=allowance), sign),
            layer(
                (
                    Point(inner - APART, allowance),
                    *folded(inner - APART, allowance - 0.1, (0.4, inner), end=depth),
                ),
                sign,
                ends=Ends.BOTH_RAW,
            ),
            neatened(inner, depth),
            stitch(1.9, APART - THICK / 2, inner - APART + THICK / 2),
            stitch(y, -THICK / 2, inner + THICK / 2),
        ),
        labels=(
            Label(words=said, to=Point(inner, depth * 0.62)),
            Label(words=say("outer edge neatened"), to=Point(inner, depth + 0.6)),
            Label(words=say("sewn down by hand"), to=Point(inner + 1.6, y)),
            Label(
                words=say("seam allowance {width}", width=seam),
                to=Point(inner - APART, allowance * 0.6),
            ),
        ),
        top=top,
    )


def braided(sign: Sign, width: Mm, allowance: Mm, wide: str, turn: str) -> Edge:
    """Return an edge faced inside with a stiff braid, the allowance between it and the cloth."""
    top = width + ABOVE
    inner = APART + THICK / 2 + 1.4
    return Edge(
        drawing=together(
            layer(folded(0.0, top, (0.0, APART), end=allowance), sign),
            braid(inner, 0.4, width),
            stitch(1.6, APART - THICK / 2 + 0.5, inner + 0.7),
            stitch(width - 1.2, -THICK / 2, inner + 0.7),
        ),
        labels=(
            Label(words=say("braid {width} wide", width=wide), to=Point(inner, width * 0.6)),
            Label(
                words=say("then: upper edge drawn up by its thread and caught down"),
                to=Point(inner + 1.6, width - 1.2),
            ),
            Label(
                words=say("hem allowance {width}, between skirt and braid", width=turn),
                to=Point(APART, allowance * 0.75),
            ),
            Label(
                words=say("first: stitched by its edge to the right side, at the hem"),
                to=Point(inner + 1.6, 1.6),
            ),
        ),
        top=top,
    )


def bound(sign: Sign, quarter: Mm, strip: str) -> Edge:
    """Return an edge bound with a bias strip, sewn on and sewn down; "" for one bought so."""
    quarter = max(quarter, 8.0)
    top = quarter + ABOVE
    path = folded(-APART, 1.0, (quarter, -2 * APART), (-1.6, 2 * APART), (quarter, APART), end=1.0)
    first, second = quarter - 1.6, quarter - 3.8
    said = say("bias strip cut {width} wide", width=strip) if strip else say("binding")
    return Edge(
        drawing=together(
            layer((Point(0.0, top), Point(0.0, 0.4)), sign),
            layer(path, sign, ends=Ends.BOTH_RAW),
            stitch(first, -APART - THICK / 2, THICK / 2),
            stitch(second, -THICK / 2, 2 * APART + THICK / 2),
        ),
        labels=(
            Label(words=say("first: sewn on, right sides together"), to=Point(0.9, first)),
            Label(
                words=say("then: folded over the edge and sewn down behind"),
                to=Point(2 * APART + 1.6, second),
            ),
            Label(words=said, to=Point(2 * APART, 0.0)),
        ),
        top=top,
    )


def raw(sign: Sign, said: str) -> Edge:
    """Return an edge that is left as it is cut."""
    top = ABOVE + 6
    return Edge(
        drawing=layer((Point(0.0, top), Point(0.0, 0.0)), sign),
        labels=(Label(words=said, to=Point(0.0, 0.4)),),
        top=top,
    )


def doubled(sign: Sign, said: str) -> Edge:
    """Return an edge that is the fold of a doubled strip."""
    top = ABOVE + 6
    path = folded(0.0, top, (0.0, APART + 0.6), end=top)
    return Edge(
        drawing=layer(path, sign, ends=Ends.OPEN),
        labels=(Label(words=said, to=Point((APART + 0.6) / 2, 0.0)),),
        top=top,
    )


def neatened(x: Mm, y: Mm) -> Drawing:
    """Return the overcast thread round a raw edge."""
    a = THICK / 2 + 0.5
    return line(
        Point(x - a, y - 1.6), Point(x - a, y + 0.6), Point(x + a, y + 0.6), Point(x + a, y - 1.6),
        pen=EDGE,
    )  # fmt: skip


def braid(x: Mm, low: Mm, high: Mm) -> Drawing:
    """Return horsehair braid on edge: a strip crossed by its own weave."""
    a = 0.55
    count = max(round((high - low) / 1.4), 2)
    heights = [low + (high - low) * k / count for k in range(count + 1)]
    weave = [
        line(Point(x - a, one), Point(x + a, two))
        for k, (one, two) in enumerate(itertools.pairwise(heights))
        if k % 2 == 0
    ] + [
        line(Point(x + a, one), Point(x - a, two))
        for k, (one, two) in enumerate(itertools.pairwise(heights))
        if k % 2
    ]
    rim = (Point(x - a, low), Point(x + a, low), Point(x + a, high), Point(x - a, high))
    return together(*weave, outline(rim, pen=EDGE))
