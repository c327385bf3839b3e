"""A hem seen from above: its seams, the eight places where it is levelled, how far it has dropped.

Millimetres on the booklet's page, beside the skirt on its form. Imports the pattern, places round
the body and the inks of pictures.
"""

import math

from drafting.geometry import Point, on_circle
from drafting.language import say
from drafting.pattern import Pattern
from drafting.places import first_seam
from drafting.units import Mm
from render.booklet.habits import LEVEL_MARKS
from render.drawing import Anchor, Drawing, together
from render.pictures import ink
from render.pictures.legend import number
from render.pictures.sag import Sag

PLAN_AT = Point(61.0, 62.0)
PLAN: Mm = 13.0
"""Middle and radius of the hem seen from above."""

SAGGED: Mm = 3.5
"""The greatest drop, as it is drawn."""


def _around(share: float, radius: Mm) -> Point:
    """Return a point of the plan: centre back above, the wearer's right side on the left."""
    return on_circle(PLAN_AT, radius, math.pi / 2 + math.tau * share)


def hem_from_above(pattern: Pattern) -> Drawing:
    """Return the hem seen from above, with its seams and its eight places."""
    skirt, closure = pattern.figures.skirt, pattern.spec.skirt.closure
    x, y = PLAN_AT
    drawn = [ink.line(*(_around(k / 144, PLAN) for k in range(145)), pen=ink.EDGE)]
    start = first_seam(skirt.panels, closure)
    for k in range(skirt.panels):
        share = start + k / skirt.panels
        drawn.append(ink.line(_around(share, 6.0), _around(share, PLAN - 2.5), pen=ink.SEAM))
    for k in range(LEVEL_MARKS):
        ends = (_around(k / LEVEL_MARKS, PLAN + by) for by in (-1.5, 1.5))
        drawn.append(ink.line(*ends, pen=ink.OUTLINE))
    drawn += [
        ink.words(say("centre back"), Point(x, y + PLAN + 6.0), anchor=Anchor.MIDDLE),
        ink.words(say("centre front"), Point(x, y - PLAN - 7.5), anchor=Anchor.MIDDLE),
        ink.words(say("from above"), Point(x, y + PLAN + 11.0), anchor=Anchor.MIDDLE, bold=True),
    ]
    return together(*drawn)


def sagged_from_above(sag: Sag, mark: str) -> Drawing:
    """Return the hem as it has dropped, further out where it hangs lower, and its number."""
    x, y = PLAN_AT
    hem = [_around(k / 144, PLAN + SAGGED * sag.at(k / 144) / sag.most) for k in range(145)]
    tip = max((_around(share, PLAN + SAGGED) for share in sag.peaks), key=lambda p: p.x)
    outer = (tip.x - x) / (PLAN + SAGGED)
    beside = Point(tip.x + 11.0 - 5.0 * outer, tip.y - math.copysign(3.0, tip.y - y))
    return together(ink.line(*hem, pen=ink.OUTLINE), number(mark, beside, tip))
