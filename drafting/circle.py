"""Skirts of the circle family: everything cut from sectors of a ring.

Millimetres and radians. Formulas are plane geometry: a sector of angle ``t`` and radius ``r``
has an arc of ``t * r``. Imports bias, geometry, around
and outline.
"""

import math
from dataclasses import dataclass, replace

from drafting import bias
from drafting.around import Around, all_round
from drafting.errors import MeasurementError
from drafting.geometry import Arc, Path, Point, on_circle, path_length, straight
from drafting.outline import Outline
from drafting.spec import Grain
from drafting.units import Mm

WIDEST_PANEL = math.pi
"""Half a circle: a wider panel cannot be laid on a fold and wastes cloth."""

ORIGIN = Point(0.0, 0.0)

EVENLY: Mm = 0.01
"""Edges of a trimmed panel that differ by less are sewn together; a tenth of truing."""


def waistline(waist: Mm, *, ease: Mm = 0.0, gather_ratio: float = 1.0, stretch: float = 0.0) -> Mm:
    """Return the length of the flat waist seam.

    Source: (W + e) G / (1 + s); the cut edge grows by the fraction ``stretch`` when handled.

    Raises:
        MeasurementError: the waist with its ease is not a positive length.
    """
    if not waist + ease > 0:
        raise MeasurementError("waist", waist + ease, 1, 10_000)
    return (waist + ease) * gather_ratio / (1 + stretch)


def waist_radius(line: Mm, *, fullness: float = 1.0) -> Mm:
    """Return the radius of the waist seam of a skirt cut from ``fullness`` circles.

    Source: ``fullness`` circles of radius r have a rim of 2 pi r fullness; set it to ``line``.

    Raises:
        MeasurementError: ``line`` or ``fullness`` is not above 0.
    """
    if not line > 0:
        raise MeasurementError("waistline", line, 1, 10_000)
    if not fullness > 0:
        raise MeasurementError("fullness", fullness, 0.2, 4)
    return line / (math.tau * fullness)


@dataclass(frozen=True, slots=True, kw_only=True)
class Flare:
    """One layer of a circle-family skirt, in numbers.

    Attributes:
        fullness: circles it is cut from.
        panels: equal sectors it is cut in.
        waistline: length of the flat waist seam all round.
        length: from the waist seam to the finished hem, on the straight grain.
        drop: estimated drop of the hem at full bias, half of which is taken off it, or 0.
        grain: what of a panel lies on the grain; counts only for a drop.
    """

    fullness: float
    panels: int
    waistline: Mm
    length: Mm
    drop: Mm = 0.0
    grain: Grain = Grain.EDGE

    @property
    def waist_radius(self) -> Mm:
        """Radius of the waist seam."""
        return waist_radius(self.waistline, fullness=self.fullness)

    @property
    def hem_radius(self) -> Mm:
        """Radius of the finished hem."""
        return self.waist_radius + self.length

    @property
    def panel_angle(self) -> float:
        """Angle of one panel, in radians."""
        return math.tau * self.fullness / self.panels

    @property
    def sweep(self) -> Mm:
        """Length of the finished hem all the way round."""
        if not self.drop:
            return self.girth_at(self.length)
        return self.panels * path_length(self._hem(self.panel_angle))

    @property
    def around(self) -> Around:
        """Lengths from the waist seam to the finished hem: the same all round."""
        return all_round(self.length)

    @property
    def alike(self) -> bool:
        """All panels are cut from one pattern."""
        return True

    def divided(self, panels: int) -> "Flare":
        """Return the same layer in so many panels."""
        return replace(self, panels=panels)

    def girth_at(self, below: Mm) -> Mm:
        """Return the girth of the layer ``below`` its waist seam, measured along the panel."""
        return math.tau * self.fullness * (self.waist_radius + below)

    def girth_above_hem(self, up: Mm) -> Mm:
        """Return the length all round of the line that runs ``up`` above the hem."""
        return self.girth_at(self.length - up)

    def line_above_hem(self, up: Mm, begin: float, finish: float) -> Path:
        """Return that line between two places, as an arc from angle 0."""
        angle = (finish - begin) * math.tau * self.fullness
        return (Arc(centre=ORIGIN, radius=self.hem_radius - up, begin=0.0, finish=angle),)

    def outline(self, begin: float, finish: float) -> Outline:
        """Return the panel between two places: the circle's centre is the origin.

        The first straight edge lies along +x.
        """
        angle = (finish - begin) * math.tau * self.fullness
        r = self.waist_radius
        hem = self._hem(angle)
        return Outline(
            begin=straight(Point(r, 0.0), hem[0].start),
            hem=hem,
            finish=straight(hem[-1].end, on_circle(ORIGIN, r, angle)),
            waist=(Arc(centre=ORIGIN, radius=r, begin=angle, finish=0.0),),
        )

    def _hem(self, angle: float) -> Path:
        """Return the finished hem from a panel's first edge as far as ``angle``."""
        grain = bias.grain_from_edge(self.panel_angle, self.grain)
        return bias.trimmed_hem(self.hem_radius, angle, grain, self.drop)

    @property
    def trims_evenly(self) -> bool:
        """Whether a trimmed hem is as long on both edges of a panel, so that its seams true."""
        grain = bias.grain_from_edge(self.panel_angle, self.grain)
        edges = (-grain, self.panel_angle - grain)
        one, other = (bias.drop_at(angle, self.drop) for angle in edges)
        return abs(one - other) < EVENLY


def fewest_panels(fullness: float) -> int:
    """Return the fewest equal panels that keep each at half a circle or less."""
    return max(1, math.ceil(math.tau * fullness / WIDEST_PANEL - 1e-9))


def least_fullness(hip: Mm, *, line: Mm, hip_depth: Mm, ease: Mm) -> float:
    """Return the least fullness whose girth at hip depth takes the hip and its ease.

    Source: line + 2 pi F depth >= hip + ease, solved for F.
    """
    return max(0.0, (hip + ease - line) / (math.tau * hip_depth))
