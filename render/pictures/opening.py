"""The opening at the closure, seen from outside: its length, its zip, its dot, its hook.

Millimetres on the page; heights and the band's lap are true to one scale. Imports the pattern,
the band's lap and ink.
"""

import math
from collections.abc import Iterator

from drafting.geometry import Point
from drafting.language import say
from drafting.pattern import Pattern
from drafting.piece import cutting_box
from drafting.spec import BandShape, Closure, WaistFinish
from drafting.units import Mm, length_text
from drafting.waistband import OVERLAP
from render.drawing import Anchor, Drawing, together
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

OPEN: Mm = 62.0
"""Length of the longest opening on the page."""

BELOW: Mm = 14.0
"""How much of the closed seam is shown below it."""

TOP_HALF, FOOT_HALF = 18.0, 22.0
"""Half of what is shown of the skirt, at the waist and at the foot of the picture."""

WORDS: Mm = 34.0
ZIP: Mm = 1.3
"""Half the width of a zip's teeth on the page."""


def opening_picture(pattern: Pattern) -> Picture | None:
    """Return the opening and how it closes, or None for a waist that has neither."""
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
                line(Point(-3.8, -1.5), Point(-3.8, y), Point(3.8, y), Point(3.8, -1.5), pen=HIDDEN)
            ]
            named.append(
                Label(
                    words=say("lining behind it open {length}, to its own dot", length=said),
                    to=Point(3.8, 0.72 * y),
                )
            )
    drawn += _closed_by(pattern, by, ends.get("skirt", min(ends.values())))
    named += _names(pattern, by, ends.get("skirt", min(ends.values())))
    if figures.opening.zip is not None:
        told.append(say("The zip is {zip} long.", zip=length_text(figures.opening.zip, units)))
    if _laps(pattern):
        told.append(
            say("The band laps {lap} over, with a hook and bar.", lap=length_text(OVERLAP, units))
        )
    caption = say(
        "The opening from outside. The dot marks where the seam ends: fasten it there. Heights are"
        " in proportion."
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


def _closed_by(pattern: Pattern, by: float, end: Mm) -> Iterator[Drawing]:
    """Yield the band over the opening, its zip, its hook, the stays behind it."""
    high = _above(pattern) * by
    zipped = pattern.figures.opening is not None and pattern.figures.opening.zip is not None
    contour = pattern.spec.skirt.band_shape is BandShape.CONTOUR
    top = high if contour else 0.0
    if zipped:
        yield from _zip(top, end)
    else:
        yield line(Point(-0.5, 0.0), Point(-0.5, end), pen=EDGE)
        yield line(Point(0.5, 0.0), Point(0.5, end), pen=EDGE)
    if high and contour:
        for side in (-1, 1):
            yield line(
                Point(side * TOP_HALF, 0.0), Point(side * (TOP_HALF - 1.2), high),
                Point(side * ZIP, high), Point(side * ZIP, 0.0),
            )  # fmt: skip
    elif high:
        lap = OVERLAP * by
        # The upper end laps to the left; the lower one stops at the seam, hidden under it.
        yield outline(
            (Point(-lap, 0.0), Point(TOP_HALF, 0.0), Point(TOP_HALF, high), Point(-lap, high))
        )
        yield line(Point(-lap, 0.0), Point(-TOP_HALF, 0.0), Point(-TOP_HALF, high),
                   Point(-lap, high), pen=OUTLINE)  # fmt: skip
        yield line(Point(0.0, 0.0), Point(0.0, high), pen=HIDDEN)
        yield _hook(Point(-lap + 2.6, high / 2))
    elif pattern.spec.skirt.waist_finish is WaistFinish.FACING:
        yield _hook(Point(0.0, -1.8))
    wide = _stay(pattern) * by
    if wide:
        foot = end - 3.0
        for side in (-1, 1):
            yield line(Point(side * wide, -1.2), Point(side * wide, foot),
                       Point(side * 1.8, foot), pen=HIDDEN)  # fmt: skip


def _stay(pattern: Pattern) -> Mm:
    """Return how wide the strip of interfacing beside the opening is, 0 for none."""
    found = [cutting_box(p) for p in pattern.pieces if p.name == "opening stay"]
    return min(found[0].width, found[0].height) if found else 0.0


def _zip(top: Mm, end: Mm) -> Iterator[Drawing]:
    """Yield a zip's two tapes, its teeth and its slider."""
    for side in (-1, 1):
        yield line(Point(side * ZIP, top), Point(side * ZIP, end), pen=EDGE)
    count = math.floor((top - end - 4.5) / 1.1)
    for k in range(count):
        y = top - 4.0 - 1.1 * k
        yield line(Point(-0.75, y), Point(0.75, y), pen=EDGE)
    yield outline(
        (
            Point(-0.9, top - 0.6),
            Point(0.9, top - 0.6),
            Point(0.5, top - 3.0),
            Point(-0.5, top - 3.0),
        ),
        pen=EDGE,
    )


def _hook(at: Point) -> Drawing:
    """Return a hook and its bar."""
    return together(
        line(
            Point(at.x + 1.2, at.y + 0.7), Point(at.x - 0.8, at.y + 0.7),
            Point(at.x - 0.8, at.y - 0.7), Point(at.x + 1.2, at.y - 0.7), pen=EDGE,
        ),
        line(Point(at.x - 1.6, at.y - 1.3), Point(at.x - 1.6, at.y + 1.3), pen=EDGE),
    )  # fmt: skip


def _names(pattern: Pattern, by: float, end: Mm) -> Iterator[Label]:
    figures, units = pattern.figures, pattern.spec.units
    assert figures.opening is not None
    high = _above(pattern) * by
    if _laps(pattern):
        yield Label(
            words=say("band laps {lap} over: hook and bar", lap=length_text(OVERLAP, units)),
            to=Point(-OVERLAP * by + 4.4, high / 2),
        )
    elif figures.contour is not None:
        yield Label(words=say("zip runs up through the band"), to=Point(ZIP, high / 2))
    elif pattern.spec.skirt.waist_finish is WaistFinish.FACING:
        yield Label(words=say("hook and eye inside the upper edge"), to=Point(1.2, -1.8))
    yield Label(words=say("waist seam"), to=Point(TOP_HALF - 5, 0.0))
    if figures.opening.zip is not None:
        yield Label(
            words=say("zip {length}", length=length_text(figures.opening.zip, units)),
            to=Point(ZIP, end * 0.4),
        )
    yield Label(words=say("dot: end of the opening"), to=Point(0.7, end))
    if wide := _stay(pattern) * by:
        yield Label(words=say("opening stay behind each edge"), to=Point(wide, end * 0.55))
