"""Hanging a skirt on a form over its ruffle and levelling its hem from the floor.

Millimetres on the booklet's page; y is 0 at the floor and runs up, x is 0 at the form's middle.
Heights are the draft's, drawn smaller; widths are the sketch's; the drop on the bias is drawn
larger, or it would not be seen. Imports the pattern, the sketch's shapes and the inks of pictures.
"""

import math
from dataclasses import dataclass

from drafting.figures import LayerFigures
from drafting.geometry import Point
from drafting.language import in_its_language, say, say_counted
from drafting.measurements import SHOE_SHARE
from drafting.pattern import Pattern
from drafting.spec import Spec
from drafting.units import Mm, length_text
from render.booklet.habits import LEVEL_MARKS, LEVEL_OFF
from render.drawing import Drawing, together
from render.pictures import ink
from render.pictures.hem_from_above import SAGGED, hem_from_above, sagged_from_above
from render.pictures.legend import legend, number
from render.pictures.picture import Picture
from render.pictures.sag import Sag, sag_of
from render.pictures.silhouette import Silhouette, levels, skirt_silhouette
from render.pictures.sketch import TURN, seam_sides

WAIST_UP: Mm = 70.0
"""Height of the waist over the floor, in the picture."""

WIDEST: Mm = 26.0
"""Half of the widest hem, in the picture."""

FLAT = 0.16
"""Height of a level ring seen from a little above, over its width."""

LOWEST: Mm = 13.0
"""A hem nearer to the floor is drawn this high, so that the ruler beneath it is seen."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Hung:
    """A skirt on its form, in the picture.

    Attributes:
        scale: of lengths down from the waist.
        shape: how it stands out, as in the sketch; ``narrowed`` what of that the page has room for.
        level: height of the hem over the floor.
    """

    scale: float
    shape: Silhouette
    narrowed: float
    level: Mm

    @property
    def waist(self) -> Mm:
        """Half width of the waist."""
        return self.half(0.0)

    @property
    def hem(self) -> Mm:
        """Half width of the level hem."""
        return self.half(self.shape.length)

    def half(self, down: Mm) -> Mm:
        """Return half of the skirt's width that far below its waist seam."""
        return self.shape.half(min(down, self.shape.length)) * self.scale * self.narrowed

    def down(self, start: Mm, end: Mm, turn: float) -> list[Point]:
        """Return a line down the skirt, from one depth below its seam to another."""
        long = self.shape.length
        fall = (WAIST_UP - self.level) / long
        downs = [start + (end - start) * k / 24 for k in range(25)]
        return [self.ring(self.half(d), WAIST_UP - fall * d, turn) for d in downs]

    def ring(self, half: Mm, y: Mm, turn: float) -> Point:
        """Return a point of a level ring; ``turn`` is 0 at its right, -90 degrees in front."""
        return Point(half * math.cos(turn), y + FLAT * half * math.sin(turn))


@in_its_language
def levelling_picture(pattern: Pattern) -> Picture | None:
    """Return a skirt on a form with a ruler on the floor; None for a skirt already sewn."""
    spec, skirt = pattern.spec, pattern.figures.skirt
    if spec.skirt.owned is not None:
        return None
    units = spec.units
    hung = _hung(pattern)
    sag = sag_of(skirt, spec.skirt.closure)
    small = spec.scale < 1
    rows = [
        (
            "1",
            say("the hem as it hangs, the skirt on its small form")
            if small
            else say("the hem as it hangs, the skirt on a form or on its wearer, shoes on"),
        ),
        ("2", say("chalk mark at the ruler's height: {count} round the skirt", count=LEVEL_MARKS)),
        (
            "3",
            say(
                "ruler, upright on the table, at the height found at the fitting: the lowest that"
                " leaves a hem everywhere"
            )
            if small
            else say(
                "ruler, upright on the floor, at the height found at the fitting: the lowest that"
                " leaves a hem everywhere"
            ),
        ),
    ]
    numbers = [
        number("1", Point(-hung.hem - 6.0, hung.level - 9.0), _hem_point(hung, sag, 0.56)),
        number(
            "2",
            Point(-hung.hem - 6.0, hung.level + 1.0),
            hung.ring(hung.hem, hung.level, -0.75 * math.pi),
        ),
        number(
            "3", Point(hung.hem + 12.0, 0.5 * hung.level), Point(hung.hem + 4.0, 0.5 * hung.level)
        ),
    ]
    drawn = [
        _form(hung),
        _skirt(hung, sag, pattern),
        _marks(hung),
        _ruler(hung),
        hem_from_above(pattern),
    ]
    if pattern.figures.ruffle is not None:
        ruffle = pattern.figures.ruffle
        drawn.append(_ruffle(hung, ruffle.line_below_waist, ruffle.depth))
        rows.append(
            ("4", say("the finished lining and ruffle, under the skirt before it is levelled"))
        )
        y = WAIST_UP - hung.scale * ruffle.line_below_waist - 1.5
        half = hung.half((WAIST_UP - y) / hung.scale)
        numbers.append(number("4", Point(-half - 6.0, y + 5.0), Point(-0.75 * half, y - 2.0)))
    if sag.most:
        drop = length_text(sag.most, units)
        mark = str(len(rows) + 1)
        rows.append((mark, say("the hem drops most here: about {drop}", drop=drop)))
        drawn.append(sagged_from_above(sag, mark))
    alt = (
        say(
            "A skirt hangs on a form. A ruler stands on the table and chalk marks lie at one height"
            " above it, at {count} places.",
            count=LEVEL_MARKS,
        )
        if small
        else say(
            "A skirt hangs on a form. A ruler stands on the floor and chalk marks lie at one height"
            " above it, at {count} places.",
            count=LEVEL_MARKS,
        )
    )
    if sag.most:
        drops = say_counted(
            "Seen from above, the hem drops most at one place, about {drop}.",
            "Seen from above, the hem drops most at {count} places, about {drop}.",
            len(sag.peaks),
            drop=length_text(sag.most, units),
        )
        alt = f"{alt} {drops}"
    shown = together(*drawn, *numbers)
    box = ink.extent(shown)
    return ink.framed(
        "levelling",
        together(
            shown,
            legend(rows, box.left, box.bottom - 2.0, box.width, 2),
        ),
        caption=say(
            "Level the hem from the table, over everything that is worn under it: the same height"
            " at {count} places, to {off}.",
            count=LEVEL_MARKS,
            off=length_text(LEVEL_OFF, units),
        )
        if small
        else say(
            "Level the hem from the floor, over everything that is worn under it: the same height"
            " at {count} places, to {off}.",
            count=LEVEL_MARKS,
            off=length_text(LEVEL_OFF, units),
        ),
        alt=alt,
    )


def hem_above_floor(spec: Spec, skirt: LayerFigures) -> Mm:
    """Return how high the hem lies over the floor at the side, shoes on."""
    floor = spec.wearer.floor_side + SHOE_SHARE * spec.wearer.heel
    return floor - spec.skirt.drop - skirt.length_side


def _hung(pattern: Pattern) -> Hung:
    spec, skirt = pattern.spec, pattern.figures.skirt
    up = max(hem_above_floor(spec, skirt), 0.0)
    long = skirt.length_side
    level = max(WAIST_UP * up / (up + long), LOWEST)
    scale = (WAIST_UP - level) / long
    shape = skirt_silhouette(pattern)
    narrowed = min(1.0, WIDEST / (scale * shape.half(shape.length)))
    return Hung(scale=scale, shape=shape, narrowed=narrowed, level=level)


def _share_of_turn(turn: float) -> float:
    """Return the place round the body of a turn in the picture, its front towards us."""
    return (0.5 + (turn + math.pi / 2) / math.tau) % 1


def _hem_point(hung: Hung, sag: Sag, share: float) -> Point:
    """Return a point of the hanging hem's front, ``share`` of the way from right to left."""
    turn = -math.pi * share
    down = SAGGED * sag.at(_share_of_turn(turn)) / sag.most if sag.most else 0.0
    level = hung.ring(hung.hem, hung.level, turn)
    wave = 0.5 * math.sin(turn * 14.0)
    return Point(level.x, level.y - 0.6 - down + wave)


def _form(hung: Hung) -> Drawing:
    """Return a dress form on its stand, dotted where cloth hides nothing of it."""
    top = WAIST_UP
    w = max(hung.waist, 4.0)
    side = [
        Point(w, top), Point(1.35 * w, top + 8), Point(1.5 * w, top + 13),
        Point(1.45 * w, top + 19),
        Point(0.6 * w, top + 23), Point(0.55 * w, top + 26),
    ]  # fmt: skip
    left = [Point(-p.x, p.y) for p in side]
    bottom = max(hung.level - 6.0, 3.0)
    return together(
        ink.line(*side, *reversed(left), pen=ink.BODY),
        *(ink.line(Point(x, bottom), Point(x, 1.5), pen=ink.BODY) for x in (-0.8, 0.8)),
        ink.line(
            Point(-9.0, 0.0), Point(-5.0, 1.5), Point(5.0, 1.5), Point(9.0, 0.0), pen=ink.BODY
        ),
        ink.line(Point(-WIDEST - 4.0, 0.0), Point(WIDEST + 12.0, 0.0), pen=ink.EDGE),
    )


def _skirt(hung: Hung, sag: Sag, pattern: Pattern) -> Drawing:
    """Return the skirt of its own cut, with soft folds and its hem as it has hung."""
    long = hung.shape.length
    hem = [_hem_point(hung, sag, k / 80) for k in range(81)]
    waist = [hung.ring(hung.waist, WAIST_UP, -math.pi * k / 24) for k in range(25)]
    tops = levels(pattern.figures)
    deep = long - (tops[-1] if tops else 0.0)
    seams = [-TURN + math.asin(side) for side in seam_sides(pattern, back=False)]
    drawn = [
        ink.line(*hem, pen=ink.OUTLINE),
        ink.line(*hung.down(0.0, long, 0.0)[:-1], hem[0], pen=ink.OUTLINE),
        ink.line(*hung.down(0.0, long, -math.pi)[:-1], hem[-1], pen=ink.OUTLINE),
        ink.line(*waist, pen=ink.OUTLINE),
    ]
    for k in (12, 24, 33, 47, 56, 68):
        turn = -math.pi * k / 80
        if all(abs(turn - seam) > 0.1 for seam in seams):
            drawn.append(ink.line(*hung.down(long - 0.5 * deep, long - 0.02 * long, turn)))
    for top in tops:
        y = hung.down(top, top, 0.0)[0].y
        ring = [hung.ring(hung.half(top), y, -math.pi * k / 48) for k in range(49)]
        drawn.append(ink.line(*ring, pen=ink.SEAM))
        for k in range(1, 16) if pattern.figures.tiers else ():
            drawn.append(ink.line(*hung.down(top, top + 0.3 * (long - top), -math.pi * k / 16)))
    godets, skirt = pattern.figures.godets, pattern.figures.skirt
    end = tops[0] if tops else long
    for turn in seams:
        apex = end - godets.depth if godets is not None else end
        drawn.append(ink.line(*hung.down(0.0, apex, turn), pen=ink.SEAM))
        if godets is not None:
            spread = math.pi * godets.sweep / skirt.sweep / skirt.panels
            for edge in (turn - spread, turn + spread):
                foot = hung.down(end, end, edge)[0]
                drawn.append(ink.line(hung.down(apex, apex, turn)[0], foot, pen=ink.SEAM))
    return together(*drawn)


def _ruffle(hung: Hung, below: Mm, depth: Mm) -> Drawing:
    """Return the ruffle under the skirt as if that were of gauze."""
    top = WAIST_UP - hung.scale * below
    foot = top - hung.scale * depth
    upper, lower = 0.8 * hung.half(below), 0.88 * hung.half(below + depth)
    edge = [hung.ring(lower, foot, -math.pi * k / 24) for k in range(25)]
    line = [hung.ring(upper, top, -math.pi * k / 24) for k in range(25)]
    rim = (*edge, *reversed(line))
    return together(ink.hatched(rim, ink.RUFFLE_ANGLE), ink.outline(rim, pen=ink.HIDDEN))


def _marks(hung: Hung) -> Drawing:
    """Return the chalk marks at one height, those behind dotted along the level."""
    drawn = [
        ink.line(
            *(hung.ring(hung.hem, hung.level, math.pi * k / 32) for k in range(33)), pen=ink.HIDDEN
        )
    ]
    for k in range(LEVEL_MARKS):
        at = hung.ring(hung.hem, hung.level, -math.tau * k / LEVEL_MARKS)
        front = at.y <= hung.level + 1e-9
        pen = ink.OUTLINE if front else ink.EDGE
        drawn.append(ink.line(Point(at.x - 1.6, at.y), Point(at.x + 1.6, at.y), pen=pen))
    return together(*drawn)


def _ruler(hung: Hung) -> Drawing:
    """Return a ruler upright on the floor beside the right chalk mark."""
    left, right = hung.hem + 2.0, hung.hem + 6.0
    high = hung.level + 8.0
    corners = [Point(left, 0.0), Point(right, 0.0), Point(right, high), Point(left, high)]
    ticks = [
        ink.line(Point(left, y), Point(left + (2.2 if k % 5 == 0 else 1.2), y))
        for k in range(1, int(high / 2.0))
        for y in (2.0 * k,)
    ]
    level = ink.arrow(Point(right + 7.0, hung.level), Point(right + 0.5, hung.level), pen=ink.EDGE)
    return together(ink.outline(corners, pen=ink.EDGE), *ticks, level)
