"""The waist cut through: what its seam is sewn to, folded and stitched as it is worn.

Millimetres on the page; the outside on the left. Heights are true to one scale. Imports the
pattern, section and ink.
"""

from dataclasses import dataclass

from drafting.geometry import Point
from drafting.language import say
from drafting.pattern import Pattern
from drafting.piece import Piece, edge_named
from drafting.spec import BandShape, WaistFinish
from drafting.units import Mm, length_text
from drafting.waistband import CASING_ROOM
from render.drawing import Anchor, Drawing, together
from render.pictures.hem_edges import neatened
from render.pictures.ink import (
    CLEAR,
    EDGE,
    HIDDEN,
    Label,
    dimension,
    extent,
    framed,
    hatched,
    labels,
    line,
    outline,
    words,
)
from render.pictures.picture import Picture
from render.pictures.section import APART, THICK, Ends, Sign, broken_off, folded, layer, stitch

SKIRT_BELOW: Mm = 26.0
"""How much of the skirt is shown below its waist seam, on the page."""

FINISHED: Mm = 40.0
"""Height of the finish above that seam, on the page; a facing's below its edge."""

MOST_ENLARGED = 2.0
WORDS: Mm = 48.0
LEFT: Mm = -9.0
"""Where the measure outside the finish stands."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Waist:
    """A finish that is drawn: its section, the words beside it, the same told in words."""

    drawing: Drawing
    labels: tuple[Label, ...]
    told: str


def waist_finish(pattern: Pattern) -> Picture | None:
    """Return the waist's finish cut through, or None where a bodice or an owner brings it."""
    finish = pattern.spec.skirt.waist_finish
    if pattern.spec.skirt.owned is not None or finish is WaistFinish.BODICE:
        return None
    drawn = {
        WaistFinish.BAND: _band,
        WaistFinish.FACING: _facing,
        WaistFinish.CASING: _casing,
        WaistFinish.BIAS: _binding,
    }[finish](pattern)
    column = max(one.to.x for one in drawn.labels) + 8
    picture = together(drawn.drawing, labels(drawn.labels, column, most=WORDS))
    foot = extent(picture).bottom - 4
    picture = together(
        picture,
        words(say("outside"), Point(LEFT / 2, foot), bold=True, anchor=Anchor.END),
        words(say("inside"), Point(column, foot), bold=True),
    )
    caption = say(
        "The waist cut through and enlarged. Heights are in proportion; the cloth is drawn thicker"
        " than it is."
    )
    return framed("waist-finish", picture, caption=caption, alt=drawn.told)


def _enlarged(height: Mm) -> float:
    return min(FINISHED / height, MOST_ENLARGED)


def _allowance(pattern: Pattern) -> Mm:
    """Return the allowance of the skirt's waist seam."""
    return edge_named(_panel(pattern), "waist").allowance


def _panel(pattern: Pattern) -> Piece:
    return next(p for p in pattern.pieces if p.cloth == "skirt")


def _hanging(pattern: Pattern, top: Mm) -> tuple[Drawing, Mm, tuple[Label, ...]]:
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


def _gathered(pattern: Pattern) -> tuple[Label, ...]:
    ratio = pattern.figures.skirt.gather_ratio
    if ratio is None:
        return ()
    return (Label(words=say("the skirt's waist edge is gathered"), to=Point(0.0, 3.0)),)


def _measure(low: Mm, high: Mm, said: str) -> Drawing:
    """Return a measure outside the finish, its words to the left of it."""
    return together(
        dimension(Point(LEFT, low), Point(LEFT, high), said, anchor=Anchor.END, most=24),
        *(line(Point(LEFT + CLEAR, y), Point(-2 * APART, y)) for y in (low, high)),
    )


def _band(pattern: Pattern) -> Waist:
    spec, units = pattern.spec, pattern.spec.units
    contour = spec.skirt.band_shape is BandShape.CONTOUR and pattern.figures.contour is not None
    height = pattern.figures.contour.height if pattern.figures.contour else spec.skirt.band
    by = _enlarged(height)
    high, seam = height * by, _allowance(pattern) * by
    hanging, inner, names = _hanging(pattern, seam)
    out, back = -2 * APART, inner + 2 * APART
    drawn = [hanging]
    if contour:
        turned = high - 0.3 * (high - seam)
        drawn += [
            layer(folded(x + lean, seam, (0.0, x), (high, x + lean), end=turned), Sign.SKIRT,
                  ends=Ends.BOTH_RAW)
            for x, lean in ((out, APART), (back, -APART))
        ]  # fmt: skip
        drawn.append(stitch(high - 2.2, out + THICK / 2, back - THICK / 2))
    else:
        drawn.append(layer(_wrapped(out, back, high, seam), Sign.SKIRT, ends=Ends.BOTH_RAW))
    said = length_text(height, units)
    found = [
        *names,
        Label(words=say("seam allowances inside the band"), to=Point(inner, seam * 0.7)),
        Label(
            words=say("inner edge turned under and sewn to the seam"),
            to=Point(back + THICK / 2 + 0.9, 3.6),
        ),
        *_gathered(pattern),
    ]
    drawn += [
        *_seams(inner, back),
        _measure(0.0, high, say("band {height} high", height=said)),
    ]
    if contour:
        found.append(
            Label(words=say("two layers seamed along the upper edge"), to=Point(back, high - 1.5))
        )
    else:
        found.append(Label(words=say("fold"), to=Point((out + back) / 2, high)))
    if spec.skirt.interfacing:
        x = out + THICK / 2 + 0.7
        drawn.append(line(Point(x, seam + 1.0), Point(x, 0.7 * high + 0.3 * seam), pen=HIDDEN))
        found.append(
            Label(words=say("interfacing inside the outer half"), to=Point(x, (seam + high) / 2))
        )
    told = say(
        "A band {height} high, sewn to the waist seam outside, turned over the seam allowances and"
        " sewn down inside.",
        height=said,
    )
    return Waist(drawing=together(*drawn), labels=tuple(found), told=told)


def _facing(pattern: Pattern) -> Waist:
    facing, units = pattern.figures.facing, pattern.spec.units
    assert facing is not None
    by = _enlarged(facing.depth)
    depth, seam = facing.depth * by, _allowance(pattern) * by
    low = -depth - 10.0
    lined = pattern.figures.lining is not None
    inner = (3 if not lined else 4) * APART
    drawn = [
        layer(folded(0.0, low, (0.0, APART), end=-seam), Sign.SKIRT),
        layer(
            folded(inner - APART, -seam, (0.0, inner), end=-depth),
            Sign.SKIRT,
            ends=Ends.BOTH_RAW,
        ),
        _flipped_neatened(inner, -depth),
    ]
    found = [
        Label(words=say("skirt"), to=Point(0.0, low + 3)),
        Label(words=say("seam allowances, trimmed and clipped"), to=Point(APART, -seam * 0.6)),
        Label(
            words=say("understitched: facing and allowances alone"),
            to=Point(inner + 1.6, -min(seam * 0.75, 4.5)),
        ),
        Label(words=say("outer edge neatened"), to=Point(inner, -depth)),
    ]
    if lined:
        drawn.append(layer((Point(2 * APART, low), Point(2 * APART, -1.6)), Sign.LINING))
        found.append(Label(words=say("lining"), to=Point(2 * APART, low + 1.5)))
    y = -min(seam * 0.75, 4.5)
    said = length_text(facing.depth, units)
    drawn += [
        stitch(y, APART - THICK / 2 + 0.2, inner + THICK / 2),
        broken_off(-2.5, (2 if lined else 0) * APART + 2.5, low),
        _measure(-depth, 0.0, say("facing {depth} deep", depth=said)),
    ]
    told = say(
        "A facing {depth} deep, sewn to the waist edge, turned to the inside and understitched.",
        depth=said,
    )
    return Waist(drawing=together(*drawn), labels=tuple(found), told=told)


def _casing(pattern: Pattern) -> Waist:
    casing, spec, units = pattern.figures.casing, pattern.spec, pattern.spec.units
    assert casing is not None and casing.elastic is not None
    height = spec.skirt.elastic + CASING_ROOM
    by = _enlarged(height)
    high, seam = height * by, _allowance(pattern) * by
    hanging, inner, names = _hanging(pattern, seam)
    out, back = -2 * APART, inner + 3.6 * APART
    middle = inner + 1.3 * APART
    low, top = 2.2, 2.2 + spec.skirt.elastic * by
    elastic = (
        Point(middle - 0.8, low),
        Point(middle + 0.8, low),
        Point(middle + 0.8, top),
        Point(middle - 0.8, top),
    )
    wide = length_text(spec.skirt.elastic, units)
    drawn = [
        hanging,
        layer(_wrapped(out, back, high, seam), Sign.SKIRT, ends=Ends.BOTH_RAW),
        hatched(elastic, 0.0, 0.8),
        outline(elastic, pen=EDGE),
        *_seams(inner, back),
    ]
    found = (
        *names,
        Label(
            words=say(
                "elastic {wide} wide, {long} long before it is joined",
                wide=wide,
                long=length_text(casing.elastic, units),
            ),
            to=Point(middle, (high + seam) / 2),
        ),
        Label(words=say("fold"), to=Point((out + back) / 2, high)),
        *_gathered(pattern),
        Label(
            words=say("inner edge turned under and sewn to the seam"),
            to=Point(back + THICK / 2 + 0.9, 3.6),
        ),
    )
    told = say(
        "A casing cut {cut} wide, folded over an elastic {wide} wide and sewn down inside; the"
        " elastic is {long} long before it is joined.",
        cut=length_text(casing.cut_width, units),
        wide=wide,
        long=length_text(casing.elastic, units),
    )
    return Waist(drawing=together(*drawn), labels=found, told=told)


def _binding(pattern: Pattern) -> Waist:
    binding, units = pattern.figures.binding, pattern.spec.units
    assert binding is not None
    allowance = _allowance(pattern)
    by = 2.0
    high = allowance * by
    hanging, inner, names = _hanging(pattern, high)
    out, back = -APART, inner + APART
    path = folded(
        out, high - 3, (0.0, out - APART), (high + 2, back + APART), (0.0, back), end=high - 3
    )
    wide, deep = length_text(binding.cut_width, units), length_text(allowance, units)
    found = (
        *names,
        Label(words=say("stitched through all layers"), to=Point(back + APART + 1.6, 1.8)),
        Label(
            words=say("bias strip {width} wide, folded in four", width=wide),
            to=Point(back + APART, high * 0.7),
        ),
    )
    drawn = together(
        hanging,
        layer(path, Sign.SKIRT, ends=Ends.BOTH_RAW),
        stitch(1.8, out - APART - THICK / 2, back + APART + THICK / 2),
        dimension(
            Point(LEFT - 3, 0.0), Point(LEFT - 3, high),
            say("waist edge cut {depth} above the seam", depth=deep),
            anchor=Anchor.END, most=24,
        ),
    )  # fmt: skip
    told = say(
        "The waist seam is bound with a bias strip {width} wide; the edge inside it stands {depth}"
        " above the seam.",
        width=wide,
        depth=deep,
    )
    return Waist(drawing=drawn, labels=found, told=told)


def _wrapped(out: Mm, back: Mm, high: Mm, seam: Mm) -> tuple[Point, ...]:
    """Return a strip sewn on outside, folded over above and turned under inside.

    It begins with its allowance, which stands up between the skirt and its own outer half, and
    ends with the other, turned up between the skirt and its inner half.
    """
    return folded(out + APART, seam, (0.0, out), (high, back), (0.0, back - APART), end=seam)


def _seams(inner: Mm, back: Mm) -> tuple[Drawing, Drawing]:
    """Return the waist seam, and the inner edge sewn down over it."""
    return (
        stitch(1.6, -APART - THICK / 2, inner + THICK / 2),
        stitch(3.6, inner - THICK / 2, back + THICK / 2),
    )


def _flipped_neatened(x: Mm, y: Mm) -> Drawing:
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
