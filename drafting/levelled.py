"""A skirt whose hem is level on an uneven body: its length differs round the figure.

Millimetres and radians. The waist stays an arc; the hem is a smooth curve as far below it as
the body asks at each place. Imports around, circle, curve, geometry and outline.
"""

import math
from dataclasses import dataclass, replace
from functools import lru_cache

from drafting.around import Around
from drafting.circle import ORIGIN, waist_radius
from drafting.curve import curve
from drafting.geometry import Arc, Path, Point, on_circle, path_length, straight
from drafting.outline import Outline
from drafting.units import Mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Levelled:
    """One layer with a level hem, in numbers; the same figures as a plain flare, and more.

    Attributes:
        fullness: circles it is cut from.
        panels: how many panels, equal at the waist.
        waistline: length of the flat waist seam all round.
        around: lengths from the waist seam to the finished hem.
    """

    fullness: float
    panels: int
    waistline: Mm
    around: Around

    @property
    def waist_radius(self) -> Mm:
        """Radius of the waist seam."""
        return waist_radius(self.waistline, fullness=self.fullness)

    @property
    def length(self) -> Mm:
        """Least length of the four that were measured."""
        return self.around.least

    @property
    def hem_radius(self) -> Mm:
        """Smallest radius of the hem."""
        return self.waist_radius + self.length

    @property
    def panel_angle(self) -> float:
        """Angle of one panel, in radians."""
        return math.tau * self.fullness / self.panels

    @property
    def sweep(self) -> Mm:
        """Length of the finished hem all the way round."""
        return self.girth_above_hem(0.0)

    @property
    def alike(self) -> bool:
        """Panels differ from one another."""
        return False

    def divided(self, panels: int) -> "Levelled":
        """Return the same layer in so many panels."""
        return replace(self, panels=panels)

    def girth_at(self, below: Mm) -> Mm:
        """Return the girth of the layer ``below`` its waist seam."""
        return math.tau * self.fullness * (self.waist_radius + below)

    def girth_above_hem(self, up: Mm) -> Mm:
        """Return the length all round of the line that runs ``up`` above the hem."""
        return path_length(self.line_above_hem(up, 0.0, 1.0))

    def line_above_hem(self, up: Mm, begin: float, finish: float) -> Path:
        """Return the line ``up`` above the hem between two shares of a turn from centre back.

        In the frame of a panel that begins at the first of the two, at angle 0.
        """
        return line_of(self, up, begin, finish)

    def outline(self, begin: float, finish: float) -> Outline:
        """Return the panel between two places: the circle's centre is the origin.

        The first straight edge lies along +x.
        """
        angle = (finish - begin) * math.tau * self.fullness
        r = self.waist_radius
        ends = [
            (on_circle(ORIGIN, r, at), on_circle(ORIGIN, r + self.around.at(share), at))
            for at, share in ((0.0, begin), (angle, finish))
        ]
        return Outline(
            begin=straight(*ends[0]),
            hem=self.line_above_hem(0.0, begin, finish),
            finish=straight(ends[1][1], ends[1][0]),
            waist=(Arc(centre=ORIGIN, radius=r, begin=angle, finish=0.0),),
        )


@lru_cache(maxsize=256)
def line_of(cut: Levelled, up: Mm, begin: float, finish: float) -> Path:
    """Return the line ``up`` above a hem, worked out once for all who ask for it."""
    turn = math.tau * cut.fullness

    def radius(angle: float) -> Mm:
        return cut.waist_radius + cut.around.at(begin + angle / turn) - up

    def place(angle: float) -> Point:
        return on_circle(ORIGIN, radius(angle), angle)

    def heading(angle: float) -> float:
        # dR/d(angle): the length's slope round the body, spread over the cloth's angle.
        grows = cut.around.slope(begin + angle / turn) / cut.fullness
        r, c, s = radius(angle), math.cos(angle), math.sin(angle)
        return math.atan2(grows * s + r * c, grows * c - r * s)

    return curve(place, heading, 0.0, (finish - begin) * turn)
