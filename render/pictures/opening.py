"""The opening at the closure, seen from outside: its length, its zip, its dot, its hook.

Millimetres on the page; heights and the band's lap are true to one scale. Imports the pattern,
the band's lap, the zip and ink.
"""

from collections.abc import Iterator

from drafting.geometry import Point
from drafting.language import say
from drafting.pattern import Pattern
from drafting.piece import cutting_box
from drafting.spec import BandShape, Closure, WaistFinish
from drafting.units import Mm, length_text
from drafting.waistband import OVERLAP
from render.booklet.habits import HOOK_BACK, ZIP_TOP
from render.drawing import Anchor, Drawing, Pen, together
from render.pictures.casing import casing_threaded
from render.pictures.ink import (
    EDGE,
    HIDDEN,
    LINING_ANGLE,
    OUTLINE,
    SEAM,
    THIN,
    Label,
    dimension,
    dot,
    framed,
    hatched,
    labels,
    line,
    outline,
)
from render.pictures.picture import Picture
from render.pictures.section import broken_off
from render.pictures.zip_sewn import HALF, ZipSewn, zip_labels, zip_sewn

OPEN: Mm = 62.0
"""Length of the longest opening on the page."""

BELOW: Mm = 14.0
"""How much of the closed seam is shown below it."""

TOP_HALF, FOOT_HALF = 18.0, 22.0
"""Half of what is shown of the skirt, at the waist and at the foot of the picture."""

WORDS: Mm = 34.0

STAY = Pen(width=0.5, dash=(0.5, 1.3))
"""Dots for what lies between skirt and lining; dashes are for what lies behind both."""

HIDDEN_HOOK = Pen(width=0.35, dash=(0.9, 0.6))
"""A hook underneath: so small that its dashes must be short."""

SLIT: Mm = 3.8
"""Half the width of the lining's slit on the page, folded back from the teeth."""


def opening_picture(pattern: Pattern) -> Picture | None:
    """Return the opening and how it closes, or None for a waist that has neither."""
    if not pattern.pieces:
        return None
    if pattern.figures.opening is not None:
        return _opening(pattern)
    if pattern.figures.casing is not None and pattern.figures.casing.elastic is not None:
        return casing_threaded(pattern)
    return None


def _opening(pattern: Pattern) -> Picture:
    figures, units = pattern.figures, pattern.spec.units
    assert figures.opening is not None
    owned = pattern.spec.skirt.owned is not None
    by = OPEN / figures.opening.length
    low = -OPEN - BELOW
    skirt = 0.0 if owned else figures.skirt.opening
    ends = {}
    drawn = [_cloth(low, lining_alone=owned), broken_off(-FOOT_HALF - 2, FOOT_HALF + 2, low)]
    named = [
        Label(
            words=say("centre back seam, sewn from the dot down")
            if pattern.spec.skirt.closure is Closure.CENTRE_BACK
            else say("left side seam, sewn from the dot down"),
            to=Point(0.0, low + 4),
        )
    ]
    told = []
    if skirt:
        y = -skirt * by
        said = length_text(skirt, units)
        ends["skirt"] = y
        told.append(say("The skirt stays open {length} below its waist seam.", length=said))
        drawn += [
            dot(Point(0.0, y), 1.4),
            line(Point(0.0, y), Point(0.0, low), pen=SEAM),
            _measure(-FOOT_HALF - 6, y, say("skirt open {length}", length=said), Anchor.END),
        ]
    if figures.lining is not None and figures.lining.opening:
        y = -figures.lining.opening * by
        said = length_text(figures.lining.opening, units)
        ends["lining"] = y
        told.append(say("The lining stays open {length} below its waist seam.", length=said))
        if owned:
            drawn += [
                dot(Point(0.0, y), 1.4),
                line(Point(0.0, y), Point(0.0, low), pen=SEAM),
                _measure(-FOOT_HALF - 6, y, say("lining open {length}", length=said), Anchor.END),
            ]
        else:
            drawn += [
                line(
                    Point(-SLIT, -1.5),
                    Point(-SLIT, y),
                    Point(SLIT, y),
                    Point(SLIT, -1.5),
                    pen=HIDDEN,
                )
            ]
            named.append(
                Label(
                    words=say(
                        "dashed: lining behind it open {length}, to its own dot", length=said
                    ),
                    to=Point(SLIT, 0.5 * (y + ends.get("skirt", 0.0))),
                )
            )
    end = ends.get("skirt", min(ends.values()))
    zipped = _zip(pattern, by, end)
    drawn += _closed_by(pattern, by, end, zipped)
    named += _names(pattern, by, end, zipped)
    if zipped is not None:
        told += [say("The zip is {zip} long.", zip=length_text(zipped.bought, units)), *zipped.told]
    if _laps(pattern):
        told.append(
            say(
                "The band's end on the wearer's left laps {lap} over the other, its hook"
                " underneath.",
                lap=length_text(OVERLAP, units),
            )
            if pattern.spec.skirt.closure is Closure.CENTRE_BACK
            else say(
                "The band's front end laps {lap} over its back one, its hook underneath.",
                lap=length_text(OVERLAP, units),
            )
        )
    caption = (
        say(
            "The opening from outside, the wearer's left on your left. The dot marks where the"
            " seam ends: fasten it there. Heights are in proportion."
        )
        if pattern.spec.skirt.closure is Closure.CENTRE_BACK
        else say(
            "The opening from outside, the front on your left. The dot marks where the seam ends:"
            " fasten it there. Heights are in proportion."
        )
    )
    picture = together(*drawn, labels(named, FOOT_HALF + 7, most=WORDS))
    return framed("opening", picture, caption=caption, alt=" ".join(told))


def _cloth(low: Mm, *, lining_alone: bool) -> Drawing:
    """Return both sides of the opening, down to where the picture is broken off."""
    shape = (
        Point(-TOP_HALF, 0.0),
        Point(-FOOT_HALF, low),
        Point(FOOT_HALF, low),
        Point(TOP_HALF, 0.0),
    )
    sides = [line(shape[0], shape[1], pen=THIN), line(shape[3], shape[2], pen=THIN)]
    if lining_alone:
        sides.append(hatched(shape, LINING_ANGLE, 2.6))
    return together(*sides, line(shape[0], shape[3], pen=OUTLINE))


def _measure(x: Mm, low: Mm, said: str, anchor: Anchor) -> Drawing:
    return together(
        dimension(Point(x, low), Point(x, 0.0), said, anchor=anchor, most=24),
        line(Point(x + 1.2, 0.0), Point(-TOP_HALF - 1, 0.0)),
        line(Point(x + 1.2, low), Point(-2.4, low)),
    )


def _laps(pattern: Pattern) -> bool:
    """Tell whether a straight band laps over the opening."""
    return pattern.figures.band is not None


def _above(pattern: Pattern) -> Mm:
    """Return how high the finish stands above the waist seam."""
    if pattern.figures.contour is not None:
        return pattern.figures.contour.height
    if pattern.figures.band is not None:
        return pattern.spec.skirt.band
    return 0.0


def _zip(pattern: Pattern, by: float, end: Mm) -> ZipSewn | None:
    """Return the zip as it is sewn in, or None for an opening that hooks alone close."""
    figures, finish = pattern.figures, pattern.spec.skirt.waist_finish
    assert figures.opening is not None
    if figures.opening.zip is None:
        return None
    return zip_sewn(
        finish,
        bought=figures.opening.zip,
        opening=figures.skirt.opening or figures.opening.length,
        above=figures.contour.height if figures.contour is not None else 0.0,
        by=by,
        foot=end,
        units=pattern.spec.units,
    )


def _closed_by(pattern: Pattern, by: float, end: Mm, zipped: ZipSewn | None) -> Iterator[Drawing]:
    """Yield the band over the opening, its zip, its hook, the stays behind it."""
    high = _above(pattern) * by
    contour = pattern.spec.skirt.band_shape is BandShape.CONTOUR
    if zipped is not None:
        yield zipped.drawing
    else:
        yield line(Point(-0.5, 0.0), Point(-0.5, end), pen=EDGE)
        yield line(Point(0.5, 0.0), Point(0.5, end), pen=EDGE)
    if high and contour:
        for side in (-1, 1):
            yield line(
                Point(side * TOP_HALF, 0.0), Point(side * (TOP_HALF - 1.2), high),
                Point(side * HALF, high), Point(side * HALF, 0.0),
            )  # fmt: skip
    elif high:
        lap = OVERLAP * by
        # The band's piece runs from centre back by the wearer's right side, and its lap follows
        # the left back, or the front of a left side: the end on the left here laps to the right.
        # The other end stops at the seam, hidden under it.
        yield outline(
            (Point(lap, 0.0), Point(-TOP_HALF, 0.0), Point(-TOP_HALF, high), Point(lap, high))
        )
        yield line(Point(lap, 0.0), Point(TOP_HALF, 0.0), Point(TOP_HALF, high),
                   Point(lap, high), pen=OUTLINE)  # fmt: skip
        yield line(Point(0.0, 0.0), Point(0.0, high), pen=HIDDEN)
        yield _hook(Point(lap - HOOK_BACK * by, high / 2), pen=HIDDEN_HOOK)
    elif pattern.spec.skirt.waist_finish is WaistFinish.FACING:
        yield _hook(Point(0.0, -1.4 - ZIP_TOP * by / 2), pen=HIDDEN_HOOK)
    wide = _stay(pattern) * by
    if wide:
        foot = end - 3.0
        for side in (-1, 1):
            yield line(Point(side * wide, -1.2), Point(side * wide, foot),
                       Point(side * (SLIT + 1.2), foot), pen=STAY)  # fmt: skip


def _stay(pattern: Pattern) -> Mm:
    """Return how wide the strip of interfacing beside the opening is, 0 for none."""
    found = [cutting_box(p) for p in pattern.pieces if p.name == "opening stay"]
    return min(found[0].width, found[0].height) if found else 0.0


def _hook(at: Point, *, pen: Pen) -> Drawing:
    """Return a hook that opens to the left, and the bar that it catches."""
    return together(
        line(
            Point(at.x - 2.6, at.y + 1.1), Point(at.x + 0.8, at.y + 1.1),
            Point(at.x + 0.8, at.y - 1.1), Point(at.x - 2.6, at.y - 1.1), pen=pen,
        ),
        line(Point(at.x - 0.5, at.y - 2.2), Point(at.x - 0.5, at.y + 2.2), pen=pen),
    )  # fmt: skip


def _names(pattern: Pattern, by: float, end: Mm, zipped: ZipSewn | None) -> Iterator[Label]:
    figures, units = pattern.figures, pattern.spec.units
    high = _above(pattern) * by
    if _laps(pattern):
        lap = length_text(OVERLAP, units)
        yield Label(
            words=say("left back laps {lap} over: hook underneath, bar on the right back", lap=lap)
            if pattern.spec.skirt.closure is Closure.CENTRE_BACK
            else say("front laps {lap} over: hook underneath, bar on the back", lap=lap),
            to=Point(OVERLAP * by, high / 2),
        )
    elif figures.contour is not None:
        yield Label(words=say("zip runs up through the band"), to=Point(HALF, high / 2))
    elif pattern.spec.skirt.waist_finish is WaistFinish.FACING:
        yield Label(
            words=say("hook and eye inside the upper edge"),
            to=Point(0.8, -1.4 - ZIP_TOP * by / 2),
        )
    yield Label(words=say("waist seam"), to=Point(TOP_HALF - 1.5, 0.0))
    if zipped is not None:
        yield from zip_labels(zipped)
    yield Label(words=say("dot: end of the opening"), to=Point(0.7, end))
    if wide := _stay(pattern) * by:
        yield Label(words=say("dotted: opening stay behind each edge"), to=Point(wide, end * 0.62))
