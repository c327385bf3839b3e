"""What every picture is drawn with: pens, hatching, arrows, words beside what they name.

Millimetres on the booklet's page, radians; x to the right, y up. Each function gives a
``Drawing``; ``together`` joins them. Skirt cloth stays white, lining is hatched one way, ruffle
the other, the body is dotted: the same signs in every picture. Imports the drawing, its pens and
widths of letters.
"""

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass

from drafting.geometry import Box, Path, Point, bounds, distance, on_circle, straight
from drafting.units import Mm
from render.drawing import Anchor, Drawing, Layer, Pen, Stroke, Text, together
from render.fonts import width, wrapped
from render.pictures.picture import SMALL_TYPE, WIDE, Picture
from render.style import CAP_HEIGHT, LEADING

OUTLINE = Pen(width=0.6)
"""Edge of cloth as it is seen: skirt, band, a piece's cutting line."""
EDGE = Pen(width=0.35)
"""Edge of what lies behind or is of less weight: lining and ruffle, paper, tools."""
SEAM = Pen(width=0.25)
FOLD = Pen(width=0.35, dash=(5.0, 1.0, 1.0, 1.0))
HIDDEN = Pen(width=0.3, dash=(1.8, 1.0))
STITCHES = Pen(width=0.4, dash=(1.3, 0.8))
BODY = Pen(width=0.3, dash=(0.3, 0.9))
THIN = Pen(width=0.2)
"""Leaders, dimension lines, the soft folds of hanging cloth."""
HATCH = Pen(width=0.2)

LINING_ANGLE = math.pi / 4
RUFFLE_ANGLE = 3 * math.pi / 4
HATCH_GAP: Mm = 1.8

HEAD: Mm = 1.8
"""Length of an arrow's head."""
TICK: Mm = 1.6
DOT: Mm = 0.45
"""Radius of the dot that a leader ends with."""
CLEAR: Mm = 0.8
"""Room between a word and a line."""


def line(*points: Point, pen: Pen = THIN, layer: Layer = Layer.MARKS) -> Drawing:
    """Return a line from point to point."""
    return along(_run(points), pen=pen, layer=layer)


def outline(points: Sequence[Point], *, pen: Pen = OUTLINE) -> Drawing:
    """Return the closed line round a shape."""
    return along(_run((*points, points[0])), pen=pen)


def along(path: Path, *, pen: Pen = OUTLINE, layer: Layer = Layer.MARKS) -> Drawing:
    """Return a path drawn with a pen."""
    return Drawing(strokes=(Stroke(path=path, pen=pen, layer=layer),))


def _run(points: Sequence[Point]) -> Path:
    return tuple(
        segment for one, other in itertools.pairwise(points) for segment in straight(one, other)
    )


def hatched(
    shape: Sequence[Point], angle: float, gap: Mm = HATCH_GAP, *holes: Sequence[Point]
) -> Drawing:
    """Return the strokes of an even hatching, cut off exactly at the shape's outline.

    Lines lie at whole multiples of ``gap`` from the frame's own origin, so that two shapes side
    by side are hatched as one. Inside is told by the even-odd rule.

    Args:
        shape: closed outline, its last point joined to its first.
        holes: outlines inside it that stay white.
    """
    c, s = math.cos(angle), math.sin(angle)
    rings = [[(p.x * c + p.y * s, p.y * c - p.x * s) for p in ring] for ring in (shape, *holes)]
    levels = [v for ring in rings for _, v in ring]
    strokes: list[Stroke] = []
    for k in range(math.ceil(min(levels) / gap), math.floor(max(levels) / gap) + 1):
        crossings = sorted(u for ring in rings for u in _crossings(ring, k * gap))
        for one, other in zip(crossings[::2], crossings[1::2], strict=True):
            if other - one < 0.05:
                continue  # a speck at a corner
            start = Point(one * c - k * gap * s, one * s + k * gap * c)
            end = Point(other * c - k * gap * s, other * s + k * gap * c)
            strokes.append(Stroke(path=straight(start, end), pen=HATCH, layer=Layer.MARKS))
    return Drawing(strokes=tuple(strokes))


def _crossings(ring: Sequence[tuple[float, float]], level: float) -> list[float]:
    """Return where a closed outline crosses a level line; a side holds its lower end only."""
    found = []
    for (au, av), (bu, bv) in zip(ring, (*ring[1:], ring[0]), strict=True):
        if (av <= level) != (bv <= level):
            found.append(au + (bu - au) * (level - av) / (bv - av))
    return found


def arrow(start: Point, end: Point, *, pen: Pen = THIN, head: Mm = HEAD) -> Drawing:
    """Return an arrow with an open head at ``end``."""
    return together(line(start, end, pen=pen), _head(start, end, pen, head))


def double_arrow(start: Point, end: Point, *, pen: Pen = THIN, head: Mm = HEAD) -> Drawing:
    """Return an arrow with open heads at both ends, as a grainline has."""
    return together(arrow(start, end, pen=pen, head=head), _head(end, start, pen, head))


def _head(start: Point, end: Point, pen: Pen, head: Mm) -> Drawing:
    back = math.atan2(start.y - end.y, start.x - end.x)
    size = min(head, 0.45 * distance(start, end))
    return line(on_circle(end, size, back + 0.35), end, on_circle(end, size, back - 0.35), pen=pen)


def dot(at: Point, radius: Mm = DOT) -> Drawing:
    """Return a dot: a small ring drawn with a pen wide enough to fill it."""
    half = radius / 2
    ring = [on_circle(at, half, math.tau * k / 8) for k in range(8)]
    return outline(ring, pen=Pen(width=radius))


def words(
    text: str,
    at: Point,
    *,
    anchor: Anchor = Anchor.START,
    size: Mm = SMALL_TYPE,
    most: Mm = WIDE,
    bold: bool = False,
    angle: float = 0.0,
) -> Drawing:
    """Return words whose first line stands at ``at``, broken into lines no wider than ``most``."""
    if not text:
        return Drawing()
    down = size * LEADING
    return Drawing(
        texts=tuple(
            Text(
                text=said,
                at=Point(at.x + k * down * math.sin(angle), at.y - k * down * math.cos(angle)),
                size=size,
                angle=angle,
                anchor=anchor,
                bold=bold,
            )
            for k, said in enumerate(wrapped(text, size, most, bold=bold))
        )
    )


def beside(
    text: str,
    middle: Point,
    *,
    anchor: Anchor = Anchor.START,
    size: Mm = SMALL_TYPE,
    most: Mm = WIDE,
    bold: bool = False,
) -> Drawing:
    """Return level words whose block of lines is centred on the height of ``middle``."""
    count = len(wrapped(text, size, most, bold=bold))
    first = middle.y + (count - 1) * size * LEADING / 2 - size * CAP_HEIGHT / 2
    return words(text, Point(middle.x, first), anchor=anchor, size=size, most=most, bold=bold)


def leader(
    text: str, at: Point, to: Point, *, anchor: Anchor | None = None, most: Mm = WIDE
) -> Drawing:
    """Return words centred on the height of ``at``, and a line from them to a dot at ``to``.

    Args:
        anchor: start for words that run to the right of ``at``, end for words to its left;
            left open, they run away from ``to``.
    """
    if anchor is None:
        anchor = Anchor.START if at.x >= to.x else Anchor.END
    away = CLEAR if anchor is Anchor.START else -CLEAR
    said = beside(text, Point(at.x + away, at.y), anchor=anchor, most=most)
    return together(line(at, to), dot(to), said)


@dataclass(frozen=True, slots=True, kw_only=True)
class Label:
    """Words that stand beside a picture, and the point of it that they name."""

    words: str
    to: Point


def labels(
    named: Sequence[Label], x: Mm, *, most: Mm, anchor: Anchor = Anchor.START, gap: Mm = 1.6
) -> Drawing:
    """Return labels in a column at ``x``, each as near the height of its point as they allow.

    They keep the order of their points from the top down, so that no leader crosses another's
    words.
    """
    order = sorted(named, key=lambda one: -one.to.y)
    halves = [_lines(one.words, most) * SMALL_TYPE * LEADING / 2 for one in order]
    heights = _spread([one.to.y for one in order], halves, gap)
    return together(
        *(
            leader(one.words, Point(x, y), one.to, anchor=anchor, most=most)
            for one, y in zip(order, heights, strict=True)
        )
    )


def _lines(text: str, most: Mm) -> int:
    return len(wrapped(text, SMALL_TYPE, most))


def _spread(wished: Sequence[Mm], halves: Sequence[Mm], gap: Mm) -> list[Mm]:
    """Return heights from the top down, as near to those wished as blocks of that size allow.

    Blocks that would touch are gathered and centred together on the mean of their wishes.
    """
    groups: list[tuple[list[int], Mm]] = []  # which blocks, middle of all of them
    for k, wish in enumerate(wished):
        groups.append(([k], wish))
        while len(groups) > 1:
            (upper, above), (lower, below) = groups[-2:]
            reach = (_height(upper, halves, gap) + _height(lower, halves, gap)) / 2 + gap
            if above - below >= reach:
                break
            both = [*upper, *lower]
            middle = (above * len(upper) + below * len(lower)) / len(both)
            groups[-2:] = [(both, middle)]
    heights: list[Mm] = []
    for members, middle in groups:
        y = middle + _height(members, halves, gap) / 2
        for k in members:
            heights.append(y - halves[k])
            y -= 2 * halves[k] + gap
    return heights


def _height(members: Sequence[int], halves: Sequence[Mm], gap: Mm) -> Mm:
    return sum(2 * halves[k] for k in members) + gap * (len(members) - 1)


def dimension(
    start: Point, end: Point, text: str, *, anchor: Anchor = Anchor.START, most: Mm = WIDE
) -> Drawing:
    """Return a line with heads and ticks at both ends, and its words beside its middle.

    Words of an upright line stand to its right, or to its left with ``Anchor.END``; words of a
    level one stand above its middle.
    """
    turn = math.atan2(end.y - start.y, end.x - start.x) + math.pi / 2
    ticks = [
        line(on_circle(p, TICK / 2, turn), on_circle(p, -TICK / 2, turn)) for p in (start, end)
    ]
    middle = Point((start.x + end.x) / 2, (start.y + end.y) / 2)
    if abs(end.y - start.y) > abs(end.x - start.x):
        away = 2 * CLEAR if anchor is not Anchor.END else -2 * CLEAR
        said = beside(text, Point(middle.x + away, middle.y), anchor=anchor, most=most)
    else:
        up = (_lines(text, most) - 1) * SMALL_TYPE * LEADING + 1.6
        said = words(text, Point(middle.x, middle.y + up), anchor=Anchor.MIDDLE, most=most)
    return together(double_arrow(start, end), *ticks, said)


def text_box(text: Text) -> Box:
    """Return the box of a run of text as it is set, from the foot of its letters to their top."""
    long = width(text.text, text.size, bold=text.bold)
    back = {Anchor.START: 0.0, Anchor.MIDDLE: long / 2, Anchor.END: long}[text.anchor]
    corners = [(x - back, y) for x in (0, long) for y in (-0.22 * text.size, 0.74 * text.size)]
    c, s = math.cos(text.angle), math.sin(text.angle)
    xs = [text.at.x + x * c - y * s for x, y in corners]
    ys = [text.at.y + x * s + y * c for x, y in corners]
    return Box(left=min(xs), bottom=min(ys), right=max(xs), top=max(ys))


def extent(drawing: Drawing) -> Box:
    """Return the smallest box that holds all of a drawing, the width of its pens too."""
    boxes = [bounds(s.path).grown(s.pen.width / 2) for s in drawing.strokes]
    boxes += [text_box(text) for text in drawing.texts]
    return Box(
        left=min(b.left for b in boxes),
        bottom=min(b.bottom for b in boxes),
        right=max(b.right for b in boxes),
        top=max(b.top for b in boxes),
    )


def framed(name: str, drawing: Drawing, *, caption: str, alt: str, pad: Mm = 0.5) -> Picture:
    """Return a picture whose box lies close round its drawing.

    One that outgrows the page by a long word is set a little smaller there.
    """
    box = extent(drawing).grown(pad)
    return Picture(name=name, drawing=drawing, box=box, caption=caption, alt=alt)
