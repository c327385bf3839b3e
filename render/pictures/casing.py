"""A casing without an opening, its elastic half threaded.

Millimetres on the page. Imports the pattern and ink.
"""

import math

from drafting.geometry import Point
from drafting.language import say
from drafting.pattern import Pattern
from drafting.units import Mm, length_text
from drafting.waistband import CASING_ROOM
from render.drawing import together
from render.pictures.ink import (
    EDGE,
    HIDDEN,
    THIN,
    Label,
    framed,
    hatched,
    labels,
    line,
    outline,
    words,
)
from render.pictures.picture import Picture
from render.pictures.section import broken_off

WORDS: Mm = 36.0


def casing_threaded(pattern: Pattern) -> Picture:
    casing, spec, units = pattern.figures.casing, pattern.spec, pattern.spec.units
    assert casing is not None and casing.elastic is not None
    by = 0.55 / spec.scale
    high = (spec.skirt.elastic + CASING_ROOM) * by
    deep, half = spec.skirt.elastic * by, 27.0
    middle = high / 2
    seam, low = 0.0, -16.0
    # The elastic comes out of the gap in the casing's end seam, ready to be joined.
    tail = (
        Point(seam, middle + deep / 2),
        Point(seam + 17.0, high + 9.0),
        Point(seam + 17.0, high + 9.0 - deep),
        Point(seam, middle - deep / 2),
    )
    wide, long = length_text(spec.skirt.elastic, units), length_text(casing.elastic, units)
    drawn = together(
        outline((Point(-half, 0), Point(half, 0), Point(half, high), Point(-half, high))),
        line(Point(seam, 0), Point(seam, middle - deep / 2), pen=EDGE),
        line(Point(seam, middle + deep / 2), Point(seam, high), pen=EDGE),
        line(Point(-half, middle + deep / 2), Point(seam, middle + deep / 2), pen=HIDDEN),
        line(Point(-half, middle - deep / 2), Point(seam, middle - deep / 2), pen=HIDDEN),
        outline(tail, pen=EDGE),
        hatched(tail, math.pi / 2, 1.2),
        *(
            line(Point(x, -0.6), Point(x + 0.4, low + 6 + 4 * (k % 3)))
            for k, x in enumerate(-half + 2 + 3.4 * n for n in range(16))
        ),
        line(Point(-half, 0), Point(-half - 3, low), pen=THIN),
        line(Point(half, 0), Point(half + 3, low), pen=THIN),
        broken_off(-half - 5, half + 5, low),
        labels(
            (
                Label(
                    words=say("elastic {wide} wide, cut {long} long", wide=wide, long=long),
                    to=Point(seam + 14, high + 8 - deep / 2),
                ),
                Label(
                    words=say("gap in the casing's end seam, sewn shut at the last"),
                    to=Point(seam, middle),
                ),
                Label(words=say("waist seam"), to=Point(half - 4, 0.0)),
            ),
            half + 7,
            most=WORDS,
        ),
        words(say("casing"), Point(-half, high + 2), bold=True),
    )
    caption = say(
        "The casing from outside, its elastic half threaded. Overlap the ends of the elastic, sew"
        " them together, then close the gap."
    )
    alt = say(
        "A casing at the waist without an opening; an elastic {wide} wide and {long} long is"
        " threaded through a gap in its end seam.",
        wide=wide,
        long=long,
    )
    return framed("opening", drawn, caption=caption, alt=alt)
