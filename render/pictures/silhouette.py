"""How wide a skirt stands when it is worn: a model for a sketch, told as such wherever it shows.

Millimetres of the garment and the body. A layer is a row of stretches from its waist seam down;
each leans out from the one above by its own fullness. Imports the figures and the wearer.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass

from drafting.figures import Figures, LayerFigures
from drafting.geometry import Point
from drafting.pattern import Pattern
from drafting.spec import Wearer
from drafting.units import Mm

HALF_OF_GIRTH = 0.18
"""Half of what is seen of a body from the front, over its girth: a body is wider than deep."""

MOST_LEAN = math.radians(34)
"""No cloth stands out further by its own fullness alone."""

HALF_LEAN_AT = 0.6
"""Fullness, in circles, at which half of that lean is reached."""

HELD_ABOVE, HELD_BELOW = math.radians(3), math.radians(9)
"""What a stiff ruffle adds to the lean of the skirt above its line, and below it."""

CURVE = 0.10
"""How far a level line dips in the middle, over half of its width: seen a little from above."""

SAMPLES = 40
"""Short straight runs that a curve is drawn with."""

CLEAR_OF_BODY: Mm = 4.0

INSIDE = 0.02
"""How far a layer stays inside the one over it, over the depth below the seam."""

SOFT = 0.2
"""Roundness of a silhouette where it leaves the body, over the depth below the seam."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """Part of a layer from one level to the next, with its girth at both."""

    length: Mm
    upper: Mm
    lower: Mm
    held: float = 0.0

    @property
    def lean(self) -> float:
        """Angle from the vertical at which it hangs."""
        fullness = max(self.lower - self.upper, 0.0) / (math.tau * self.length)
        return MOST_LEAN * fullness / (fullness + HALF_LEAN_AT) + self.held


@dataclass(frozen=True, slots=True, kw_only=True)
class Silhouette:
    """One layer seen from the front.

    Attributes:
        length: from its waist seam to its hem, straight down.
        seam_below: from the natural waist down to that seam.
        under: the layer over it, which holds it in however wide it is cut.
    """

    length: Mm
    waist: Mm
    stretches: tuple[Stretch, ...]
    wearer: Wearer
    seam_below: Mm
    under: "Silhouette | None" = None

    def half(self, down: Mm) -> Mm:
        """Return half of its width ``down`` below its waist seam."""
        x, left = self.waist * HALF_OF_GIRTH, down
        for one in self.stretches:
            reach = min(left, one.length)
            x += reach * math.sin(one.lean)
            left -= reach
        if down <= 0:
            return x
        body = body_half(self.wearer, self.seam_below + down) + CLEAR_OF_BODY
        # A soft maximum: cloth leaves the body without a corner.
        soft = SOFT * min(down, self.wearer.hip_depth)
        free = (x + body + math.hypot(x - body, soft)) / 2
        return free if self.under is None else min(free, self.under.half(down) - INSIDE * down)


@dataclass(frozen=True, slots=True, kw_only=True)
class View:
    """A silhouette at the scale of the page, its waist seam's middle at the origin."""

    shape: Silhouette
    by: float

    def at(self, down: Mm, side: float) -> Point:
        """Return a point ``down`` below the waist seam, ``side`` from -1 to 1 across."""
        half = self.shape.half(down)
        dip = CURVE * half * down / self.shape.length
        return Point(half * side * self.by, (-down + dip * (side * side - 0.5)) * self.by)

    def across(self, down: Mm, low: float = -1.0, high: float = 1.0) -> list[Point]:
        """Return a level line round the visible half."""
        return [self.at(down, low + (high - low) * k / SAMPLES) for k in range(SAMPLES + 1)]

    def run(self, side: float, start: Mm, end: Mm) -> list[Point]:
        """Return a line down the skirt, keeping its place across."""
        return [self.at(start + (end - start) * k / SAMPLES, side) for k in range(SAMPLES + 1)]


def body_half(wearer: Wearer, down: Mm) -> Mm:
    """Return half of the body's width ``down`` below the natural waist, no lower than the hip."""
    share = min(max(down / wearer.hip_depth, 0.0), 1.0)
    rounded = math.sin(share * math.pi / 2)
    return HALF_OF_GIRTH * (wearer.waist + (wearer.hip - wearer.waist) * rounded)


def skirt_silhouette(pattern: Pattern) -> Silhouette:
    """Return the skirt's silhouette, held out below the ruffle's line if it has one."""
    figures = pattern.figures
    stretches = tuple(_stretches(figures))
    if figures.ruffle is not None:
        line = figures.ruffle.line_below_waist
        stretches = tuple(_held(stretches, line))
    return Silhouette(
        length=figures.skirt.length_front,
        waist=figures.waist.finished,
        stretches=stretches,
        wearer=pattern.spec.wearer,
        seam_below=figures.waist.drop or 0.0,
    )


def lining_silhouette(pattern: Pattern, lining: LayerFigures) -> Silhouette:
    """Return the lining's silhouette."""
    figures = pattern.figures
    return Silhouette(
        length=lining.length_front,
        waist=figures.waist.finished,
        stretches=(
            Stretch(length=lining.length_front, upper=figures.waist.finished, lower=lining.sweep),
        ),
        wearer=pattern.spec.wearer,
        seam_below=figures.waist.drop or 0.0,
        under=skirt_silhouette(pattern),
    )


def levels(figures: Figures) -> tuple[Mm, ...]:
    """Return how far below the waist seam tiers or a flounce are sewn on, from the top."""
    found, down = [], 0.0
    for one in list(_stretches(figures))[:-1]:
        down += one.length
        found.append(down)
    return tuple(found) if figures.tiers or figures.flounce else ()


def _stretches(figures: Figures) -> Iterator[Stretch]:
    skirt, waist = figures.skirt, figures.waist.finished
    whole = skirt.length_front
    if figures.tiers:
        upper = figures.tiers[0].flat_length / figures.tiers[0].gather_ratio
        yoke = whole - math.fsum(tier.depth for tier in figures.tiers)
        yield Stretch(length=yoke, upper=waist, lower=upper)
        for tier in figures.tiers:
            yield Stretch(length=tier.depth, upper=upper, lower=tier.flat_length)
            upper = tier.flat_length
    elif figures.flounce is not None:
        flounce = figures.flounce
        yield Stretch(length=whole - flounce.depth, upper=waist, lower=flounce.sewn_length)
        yield Stretch(length=flounce.depth, upper=flounce.sewn_length, lower=flounce.sweep)
    elif figures.godets is not None:
        godets = figures.godets
        above = whole - godets.depth
        plain = skirt.sweep - godets.sweep
        there = waist + (plain - waist) * above / whole
        yield Stretch(length=above, upper=waist, lower=there)
        yield Stretch(length=godets.depth, upper=there, lower=skirt.sweep)
    else:
        yield Stretch(length=whole, upper=waist, lower=skirt.sweep)


def _held(stretches: tuple[Stretch, ...], line: Mm) -> Iterator[Stretch]:
    """Yield the stretches, parted at the ruffle's line and held out by it."""
    down = 0.0
    for one in stretches:
        above = min(max(line - down, 0.0), one.length)
        share = above / one.length
        girth = one.upper + (one.lower - one.upper) * share
        if share > 0:
            yield Stretch(length=above, upper=one.upper, lower=girth, held=HELD_ABOVE)
        if share < 1:
            yield Stretch(length=one.length - above, upper=girth, lower=one.lower, held=HELD_BELOW)
        down += one.length
