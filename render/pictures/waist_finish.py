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
from render.pictures.ink import (
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
from render.pictures.waist_seam import (
    FIRST,
    LEFT,
    SECOND,
    TAPE,
    TAPE_ROOM,
    gathered_label,
    hanging,
    measured,
    neatened_below,
    tape_in_seam,
    tape_label,
    two_seams,
    wrapped_over,
)

FINISHED: Mm = 40.0
"""Height of the finish above that seam, on the page; a facing's below its edge."""

MOST_ENLARGED = 2.0
WORDS: Mm = 48.0
IN: Mm = THICK / 2 + 0.7
"""From the middle of a layer to what lies on its inner face."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Waist:
    """A finish that is drawn: its section, the words beside it, the same told in words."""

    drawing: Drawing
    labels: tuple[Label, ...]
    told: str


def waist_finish(pattern: Pattern) -> Picture | None:
    """Return the waist's finish cut through, or None where a bodice or an owner brings it."""
    finish = pattern.spec.skirt.waist_finish
    owned = pattern.spec.skirt.owned is not None
    if not pattern.pieces or owned or finish is WaistFinish.BODICE:
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


def _band(pattern: Pattern) -> Waist:
    spec, units = pattern.spec, pattern.spec.units
    contour = spec.skirt.band_shape is BandShape.CONTOUR and pattern.figures.contour is not None
    height = pattern.figures.contour.height if pattern.figures.contour else spec.skirt.band
    by = _enlarged(height)
    high, seam = height * by, _allowance(pattern) * by
    hung, inner, names = hanging(pattern, seam)
    out, back = -2 * APART, inner + TAPE_ROOM + 2 * APART
    drawn = [hung]
    if contour:
        turned = high - 0.3 * (high - seam)
        drawn += [
            layer(folded(x + lean, seam, (0.0, x), (high, x + lean), end=turned), Sign.SKIRT,
                  ends=Ends.BOTH_RAW)
            for x, lean in ((out, APART), (back, -APART))
        ]  # fmt: skip
        drawn.append(stitch(high - 2.2, out + THICK / 2, back - THICK / 2))
    else:
        drawn.append(layer(wrapped_over(out, back, high, seam), Sign.SKIRT, ends=Ends.BOTH_RAW))
    said = length_text(height, units)
    found = [
        *names,
        Label(words=say("seam allowances inside the band"), to=Point(inner, seam * 0.7)),
        Label(
            words=say("inner edge turned under and sewn to the seam"),
            to=Point(back + THICK / 2 + 0.9, SECOND),
        ),
        *gathered_label(pattern),
        tape_label(inner),
    ]
    drawn += [
        *two_seams(inner + TAPE_ROOM, back),
        tape_in_seam(inner),
        measured(0.0, high, say("band {height} high", height=said)),
    ]
    if contour:
        found.append(
            Label(words=say("two layers seamed along the upper edge"), to=Point(back, high - 1.5))
        )
    else:
        found.append(Label(words=say("fold"), to=Point((out + back) / 2, high)))
    if spec.skirt.interfacing:
        found.append(
            Label(
                words=say("interfacing on the outer band")
                if contour
                else say("interfacing through the whole band, both halves"),
                to=Point(out + IN, (seam + high) / 2),
            )
        )
        # A shaped band's outer layer alone is cut from it; a straight band's is cut like the band.
        drawn.append(
            line(Point(out + IN, seam + 1.0), Point(out + IN, 0.7 * high + 0.3 * seam), pen=HIDDEN)
            if contour
            else line(
                *folded(out + IN, seam + 1.0, (high - IN, back - IN), end=seam + 1.0), pen=HIDDEN
            )
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
    under = -min(max(seam * 0.75, 4.0), seam)
    lined = pattern.figures.lining is not None
    inner = (3 if not lined else 4) * APART + TAPE_ROOM
    tape = APART + THICK / 2 + TAPE_ROOM / 2
    drawn = [
        layer(folded(0.0, low, (0.0, APART), end=-seam), Sign.SKIRT),
        layer(
            folded(inner - APART, -seam, (0.0, inner), end=-depth),
            Sign.SKIRT,
            ends=Ends.BOTH_RAW,
        ),
        neatened_below(inner, -depth),
        stitch(-1.7, APART - THICK / 2, inner - APART + THICK / 2),
        line(Point(tape, -0.2), Point(tape, -3.2), pen=TAPE),
    ]
    found = [
        Label(words=say("stay tape in the seam"), to=Point(tape, -0.6)),
        Label(words=say("skirt"), to=Point(0.0, low + 3)),
        Label(words=say("seam allowances, trimmed and clipped"), to=Point(APART, -seam * 0.6)),
        Label(
            words=say("understitched: facing and allowances alone"),
            to=Point(inner + 1.6, under),
        ),
        Label(words=say("outer edge neatened"), to=Point(inner, -depth)),
    ]
    if lined:
        x = 2 * APART + TAPE_ROOM
        drawn.append(layer((Point(x, low), Point(x, -0.8)), Sign.LINING))
        found.append(Label(words=say("lining"), to=Point(x, low + 1.5)))
    said = length_text(facing.depth, units)
    right = 2 * APART + TAPE_ROOM if lined else 0.0
    drawn += [
        stitch(under, APART - THICK / 2 + 0.2, inner + THICK / 2),
        broken_off(-2.5, right + 2.5, low),
        measured(-depth, 0.0, say("facing {depth} deep", depth=said)),
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
    hung, inner, names = hanging(pattern, seam)
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
        hung,
        layer(wrapped_over(out, back, high, seam), Sign.SKIRT, ends=Ends.BOTH_RAW),
        hatched(elastic, 0.0, 0.8),
        outline(elastic, pen=EDGE),
        *two_seams(inner, back),
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
        *gathered_label(pattern),
        Label(
            words=say("inner edge turned under and sewn to the seam"),
            to=Point(back + THICK / 2 + 0.9, SECOND),
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
    hung, inner, names = hanging(pattern, high)
    out, back = -2 * APART, inner + TAPE_ROOM + 2 * APART
    path = folded(-APART, high, (0.0, out), (high + 2, back), (0.0, back - APART), end=high - 3)
    wide, deep = length_text(binding.cut_width, units), length_text(allowance, units)
    found = (
        *names,
        tape_label(inner),
        Label(
            words=say("first: sewn on outside, right sides together"),
            to=Point(inner + TAPE_ROOM + THICK / 2, FIRST),
        ),
        Label(
            words=say("then: folded over and sewn down inside"),
            to=Point(back + THICK / 2 + 0.9, SECOND),
        ),
        Label(words=say("bias strip {width} wide", width=wide), to=Point(back, high * 0.85)),
    )
    drawn = together(
        hung,
        layer(path, Sign.SKIRT, ends=Ends.BOTH_RAW),
        *two_seams(inner + TAPE_ROOM, back),
        tape_in_seam(inner),
        dimension(
            Point(LEFT, 0.0), Point(LEFT, high),
            say("waist edge cut {depth} above the seam", depth=deep),
            anchor=Anchor.END, most=24,
        ),
    )  # fmt: skip
    told = say(
        "The waist seam is bound with a bias strip {width} wide, sewn on outside, folded over and"
        " sewn down inside; the edge inside it stands {depth} above the seam.",
        width=wide,
        depth=deep,
    )
    return Waist(drawing=drawn, labels=found, told=told)
