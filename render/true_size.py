"""The marks that find out whether a printer tells the truth: a square and two long rules.

Always in millimetres, so that one rule checks every pattern. In the page's frame. Imports
geometry, the language, style, fonts and setting.
"""

import math

from drafting.geometry import Box, Point, rim, straight
from drafting.language import say
from drafting.units import MM_PER_INCH, Mm, inch
from render import fonts, style
from render.drawing import Anchor
from render.setting import Setting

SQUARE: Mm = 100.0
"""Side of the test square. Always in millimetres, so that one rule checks every pattern."""

RULE_ROOM: Mm = 15.0
"""Width kept for the long rules along the left and the bottom of the first page."""


def long_rule(room: Mm) -> Mm:
    """Return the longest whole centimetres that fit into a page's width or height."""
    return math.floor(room / 10 + 1e-9) * 10.0


def rules_of(window: Box) -> tuple[Mm, Mm]:
    """Return the lengths of the two long rules, clear of the window's rim by their own width."""
    return long_rule(window.width - 0.8), long_rule(window.height - 0.8)


def draw_long_rules(page: Setting) -> None:
    """Draw a rule along the bottom and one up the left: a short square hides a small error."""
    box = page.window
    across, up = rules_of(box)
    corner = Point(box.left + 0.4, box.bottom + 0.4)
    _rule(page, corner, across, 0.0)
    _rule(page, corner, up, math.pi / 2)


def _rule(page: Setting, start: Point, long: Mm, angle: float) -> None:
    """Draw a rule with centimetres on its outer side and inches on its inner one."""
    inner = angle + math.pi / 2 if angle == 0 else angle - math.pi / 2
    c, s = math.cos(angle), math.sin(angle)

    def at(along: Mm, in_: Mm) -> Point:
        return Point(
            start.x + along * c + in_ * math.cos(inner), start.y + along * s + in_ * math.sin(inner)
        )

    page.draw(straight(at(0, 0), at(long, 0)), style.MARK)
    for k in range(round(long / 10) + 1):
        tall = 4.5 if k % 5 == 0 or k * 10 == long else 2.5
        page.draw(straight(at(k * 10, 0), at(k * 10, tall)), style.THIN)
    for k in range(1, int(long / MM_PER_INCH) + 1):
        along = k * MM_PER_INCH
        page.draw(straight(at(along, 5.2), at(along, 7.2)), style.THIN)
    told = (
        say("up: this rule is {long} mm long; inches beside it", long=f"{long:.0f}")
        if angle
        else say("across: this rule is {long} mm long; inches above it", long=f"{long:.0f}")
    )
    words = fonts.shortened(told, style.NOTE, long - 10)
    middle = at(long / 2, 8.6 if angle == 0 else 8.6 + style.NOTE * style.CAP_HEIGHT)
    page.line(words, middle.x, middle.y, size=style.NOTE, anchor=Anchor.MIDDLE, angle=angle)


def draw_square(page: Setting, left: Mm, bottom: Mm) -> None:
    """Draw the test square, its lower left corner there, with whole inches marked inside."""
    square = Box(left=left, bottom=bottom, right=left + SQUARE, top=bottom + SQUARE)
    page.draw(rim(square), style.MARK)
    for k in range(1, 4):
        at, words = k * MM_PER_INCH, f"{k} {inch()}"
        page.draw(straight(Point(left + at, bottom), Point(left + at, bottom + 4)), style.THIN)
        page.draw(straight(Point(left, bottom + at), Point(left + 4, bottom + at)), style.THIN)
        page.line(words, left + at, bottom + 5, size=style.NOTE, anchor=Anchor.MIDDLE)
        page.line(words, left + 5, bottom + at - 1, size=style.NOTE)
    middle = left + SQUARE / 2
    page.line(
        "100 mm", middle, bottom + SQUARE / 2, size=style.HEADING, bold=True, anchor=Anchor.MIDDLE
    )
    page.line(say("each way"), middle, bottom + SQUARE / 2 - 5.5, anchor=Anchor.MIDDLE)
    page.line(say("across"), middle, bottom + SQUARE - 5, size=style.SMALL, anchor=Anchor.MIDDLE)
    page.line(
        say("up"),
        left + SQUARE - 4,
        bottom + SQUARE / 2,
        size=style.SMALL,
        anchor=Anchor.MIDDLE,
        angle=math.pi / 2,
    )
