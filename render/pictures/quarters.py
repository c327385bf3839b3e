"""Quarters marked alike on two edges of different length, so that gathers spread evenly.

Millimetres on the booklet's page. Places along an edge are true shares of it. Imports the
pattern, the inks of pictures and what matches two edges.
"""

import math
from dataclasses import dataclass

from drafting.figures import LayerFigures, RuffleFigures
from drafting.geometry import Arc, Point, on_circle
from drafting.language import in_its_language, say
from drafting.pattern import Pattern
from drafting.piece import InnerKind
from drafting.spec import WaistFinish
from drafting.units import Mm, length_text
from render import style
from render.drawing import Anchor, Drawing, together
from render.fonts import wrapped
from render.pictures import ink
from render.pictures.matched import (
    LEAD,
    LONG,
    STRIP,
    along,
    foot,
    matched,
    names_high,
    names_of,
    ratio_text,
    ticks,
)
from render.pictures.picture import SMALL_TYPE, Picture

WIDER: Mm = 3.6
"""Between the lines of a hatching that marks must be told from."""

FAN: Mm = 42.0
"""Radius of the lining's hem in the picture."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fan:
    """A lining spread out flat, hem downwards, its whole width seen.

    Attributes:
        angle: that it is spread to; its own, held to half a turn.
        waist, line, hem: radii in the picture.
    """

    angle: float
    waist: Mm
    line: Mm
    hem: Mm

    def at(self, share: float, radius: Mm) -> Point:
        """Return a point at a share of the way round, from the left."""
        turn = -math.pi / 2 + (share - 0.5) * self.angle
        return on_circle(Point(0.0, 0.0), radius, turn)

    def arc(self, radius: Mm, begin: float = 0.0, finish: float = 1.0) -> Arc:
        """Return the line round it at that radius, from one share to another."""
        low = -math.pi / 2 - self.angle / 2
        return Arc(
            centre=Point(0.0, 0.0),
            radius=radius,
            begin=low + begin * self.angle,
            finish=low + finish * self.angle,
        )


def _fan(lining: LayerFigures, ruffle: RuffleFigures) -> Fan:
    """Return a lining as a cone laid flat: every cut of it has a length and two girths."""
    true = (lining.sweep - lining.waistline) / lining.length_side
    angle = min(max(true, math.pi / 3), math.pi)
    waist = lining.waistline / angle
    by = FAN / (waist + lining.length_side)
    return Fan(angle=angle, waist=waist * by, line=(waist + ruffle.line_below_waist) * by, hem=FAN)


@in_its_language
def quarters_picture(pattern: Pattern) -> Picture | None:
    """Return the ruffle's line on the lining and its strip, quarter to quarter; or None."""
    ruffle, lining = pattern.figures.ruffle, pattern.figures.lining
    if ruffle is None or lining is None:
        return None
    units, closure = pattern.spec.units, pattern.spec.skirt.closure
    fan = _fan(lining, ruffle)
    names = names_of(lining.panels, closure)
    top = -fan.hem - 2.0 - names_high(names)
    joins = join_shares(ruffle, lining.panels)
    line = length_text(ruffle.line_quarter, units)
    flat = length_text(ruffle.flat_quarter, units)
    return ink.framed(
        "quarters",
        together(
            _lining(fan, lining.panels),
            _strip(top, joins, ring=ruffle.ring),
            matched(names, lambda share: fan.at(share, fan.line), along(top, LONG)),
            ticks(lambda share, r: fan.at(share, fan.line + r)),
            ticks(lambda share, r: Point((share - 0.5) * LONG, top + r)),
            _quarter_of_fan(fan, say("a quarter of the line: {long}", long=line)),
            foot(
                top - STRIP,
                say("a quarter of the ruffle, flat: {long}", long=flat),
                joins,
                say("joins of the strips") if joins else "",
            ),
        ),
        caption=say(
            "Quarter marks, and the eighths between them, on the line and on the ruffle. Pin mark"
            " to mark: between any two lies {ratio} times as much ruffle as line.",
            ratio=ratio_text(ruffle.gather_ratio),
        ),
        alt=say(
            "The lining spread flat, the ruffle's line on it marked in quarters of {line}. Below"
            " it the flat ruffle of {strips} strips, marked in quarters of {flat}. Thin lines"
            " join each mark to its own.",
            line=line,
            flat=flat,
            strips=ruffle.strips,
        ),
    )


@in_its_language
def waist_quarters_picture(pattern: Pattern) -> Picture | None:
    """Return a gathered waist edge and what it is drawn up to; None where nothing is gathered.

    A casing is sewn on flat and drawn up by its elastic alone, so it is none either.
    """
    skirt, finish = pattern.figures.skirt, pattern.spec.skirt.waist_finish
    if skirt.gather_ratio is None or finish is WaistFinish.CASING:
        return None
    units = pattern.spec.units
    names = names_of(skirt.panels, pattern.spec.skirt.closure)
    short = LONG / skirt.gather_ratio
    top = -14.0 - names_high(names)
    finished = length_text(pattern.figures.waist.finished / 4, units)
    flat = length_text(skirt.waistline / 4, units)
    seams = tuple(k / skirt.panels for k in range(1, skirt.panels))
    band = (Point(-short / 2, 0.0), Point(short / 2, 0.0))
    return ink.framed(
        "waist-quarters",
        together(
            ink.outline((*band, *(Point(p.x, 7.0) for p in reversed(band)))),
            _skirt_edge(top, seams),
            matched(names, along(0.0, short), along(top, LONG)),
            ticks(lambda share, r: Point((share - 0.5) * short, -r)),
            ticks(lambda share, r: Point((share - 0.5) * LONG, top + r)),
            ink.dimension(Point(-short / 2, 10.0), Point(-short / 4, 10.0), ""),
            ink.words(
                say("a quarter of the finished waist: {long}", long=finished),
                Point(-short / 2, 12.5),
                most=LONG / 2 + short / 2,
            ),
            foot(
                top - STRIP,
                say("a quarter of the flat waist edge: {long}", long=flat),
                seams,
                say("seams of the panels") if seams else "",
            ),
        ),
        caption=say(
            "Quarter marks, and the eighths between them, on the skirt's waist edge and on what"
            " it is sewn to. Between any two lies {ratio} times as much skirt.",
            ratio=ratio_text(skirt.gather_ratio),
        ),
        alt=say(
            "Above, the finished waist marked in quarters of {finished}. Below, the skirt's flat"
            " waist edge marked in quarters of {flat}. Thin lines join each mark to its own.",
            finished=finished,
            flat=flat,
        ),
    )


def join_shares(ruffle: RuffleFigures, panels: int) -> tuple[float, ...]:
    """Return where a ruffle's joins fall along it, as shares, clear of the lining's seams.

    A ring's joins are shifted round together until they lie farthest from any seam. The gaps
    between joins and seams repeat with the least common multiple of both counts; half of one
    is the most there is. An open ruffle has no join at its ends.
    """
    strips = ruffle.strips
    if not ruffle.ring:
        return tuple(k / strips for k in range(1, strips))
    shift = 1 / (2 * math.lcm(strips, panels))
    return tuple(shift + k / strips for k in range(strips))


def _lining(fan: Fan, panels: int) -> Drawing:
    """Return the lining spread out, hatched, with its seams and the ruffle's line."""
    hem = [fan.at(k / 72, fan.hem) for k in range(73)]
    waist = [fan.at(k / 72, fan.waist) for k in range(73)]
    ends = ((0.0, fan.waist), (0.0, fan.hem)), ((1.0, fan.waist), (1.0, fan.hem))
    return together(
        ink.hatched((*hem, *reversed(waist)), ink.LINING_ANGLE, WIDER),
        ink.along((fan.arc(fan.hem),), pen=ink.EDGE),
        ink.along((fan.arc(fan.waist),), pen=ink.EDGE),
        *(ink.line(fan.at(*one), fan.at(*other), pen=ink.EDGE) for one, other in ends),
        *(
            ink.line(fan.at(k / panels, fan.waist), fan.at(k / panels, fan.hem), pen=ink.SEAM)
            for k in range(1, panels)
        ),
        ink.along((fan.arc(fan.line),), pen=style.INNER[InnerKind.RUFFLE_LINE]),
    )


def _quarter_of_fan(fan: Fan, text: str) -> Drawing:
    """Return the second quarter of the ruffle's line measured, its words above the lining."""
    radius = fan.line - 4.0
    top = -fan.waist * math.cos(fan.angle / 2) + 3.0
    end = fan.at(0.375, radius)
    low = top - 0.22 * SMALL_TYPE - ink.CLEAR
    rows = len(wrapped(text, SMALL_TYPE, LONG))
    return together(
        ink.along((fan.arc(radius, 0.25, 0.5),), pen=ink.THIN),
        *(
            ink.line(fan.at(share, radius - 1.0), fan.at(share, radius + 1.0))
            for share in (0.25, 0.5)
        ),
        ink.line(Point(0.0, low), end),
        ink.dot(end),
        ink.words(text, Point(0.0, top + (rows - 1) * LEAD), anchor=Anchor.MIDDLE, most=LONG),
    )


def _strip(top: Mm, joins: tuple[float, ...], *, ring: bool) -> Drawing:
    """Return the ruffle flat: a ring is shown cut open, its ends dashed."""
    left, right = -LONG / 2, LONG / 2
    corners = [
        Point(left, top),
        Point(left, top - STRIP),
        Point(right, top - STRIP),
        Point(right, top),
    ]
    end = ink.HIDDEN if ring else ink.OUTLINE
    return together(
        ink.hatched(corners, ink.RUFFLE_ANGLE, WIDER),
        ink.line(corners[0], corners[3], pen=ink.OUTLINE),
        ink.line(corners[1], corners[2], pen=ink.EDGE),
        ink.line(corners[0], corners[1], pen=end),
        ink.line(corners[2], corners[3], pen=end),
        *(
            ink.line(Point(x, top), Point(x, top - STRIP), pen=ink.HIDDEN)
            for x in ((share - 0.5) * LONG for share in joins)
        ),
    )


def _skirt_edge(top: Mm, seams: tuple[float, ...]) -> Drawing:
    """Return the skirt's waist edge laid straight, the cloth below it broken off."""
    left, right = -LONG / 2, LONG / 2
    foot = [
        Point(left + LONG * k / 96, top - STRIP + 0.6 * math.sin(math.tau * k / 12))
        for k in range(97)
    ]
    return together(
        ink.line(foot[0], Point(left, top), Point(right, top), foot[-1], pen=ink.OUTLINE),
        ink.line(*foot),
        *(
            ink.line(Point(x, top), Point(x, top - STRIP + 1.2), pen=ink.HIDDEN)
            for x in ((share - 0.5) * LONG for share in seams)
        ),
    )
