"""Skirts of straight lengths of cloth, gathered at the waist.

Millimetres. The waist lies along the top and the first edge hangs down on the left. Imports
geometry, curve, around, outline and errors.
"""

import math
from dataclasses import dataclass, replace
from functools import lru_cache

from drafting.around import Around
from drafting.curve import curve
from drafting.errors import GeometryError
from drafting.geometry import Path, Point, path_length, straight
from drafting.outline import Outline
from drafting.units import Mm


def least_panels(flat: Mm, usable_width: Mm, side_allowance: Mm) -> int:
    """Return the fewest widths of cloth that make up a flat width, seams taken off both sides.

    Raises:
        GeometryError: the cloth is no wider than two seam allowances.
    """
    # A hair of a width is the rounding of inches, not a reason for another width.
    return max(1, math.ceil(flat / _net_width(usable_width, side_allowance) - 1e-9))


def full_width_ratio(
    finished_waist: Mm, panels: int, usable_width: Mm, side_allowance: Mm
) -> float:
    """Return the gather ratio that whole widths of cloth come to.

    Raises:
        GeometryError: the cloth is no wider than two seam allowances.
    """
    return panels * _net_width(usable_width, side_allowance) / finished_waist


def _net_width(usable_width: Mm, side_allowance: Mm) -> Mm:
    net = usable_width - 2 * side_allowance
    if not net > 0:
        raise GeometryError(
            f"cloth {usable_width:g} mm wide leaves nothing between two seam allowances of"
            f" {side_allowance:g} mm"
        )
    return net


@dataclass(frozen=True, slots=True, kw_only=True)
class Gathered:
    """A gathered skirt of straight lengths, in numbers; the same figures as a flare.

    Attributes:
        panels: how many lengths of cloth, equally wide.
        waistline: length of the flat waist seam all round, before it is gathered.
        around: lengths from the waist seam to the finished hem.

    Raises:
        GeometryError: a width or a length is not above 0.
    """

    panels: int
    waistline: Mm
    around: Around

    def __post_init__(self) -> None:
        if self.panels < 1 or not min(self.waistline, self.length) > 0:
            raise GeometryError("a gathered skirt needs a panel, a waist and a length")

    @property
    def length(self) -> Mm:
        """Least length of the four that were measured."""
        return self.around.least

    @property
    def sweep(self) -> Mm:
        """Length of the finished hem all the way round."""
        return self.girth_above_hem(0.0)

    @property
    def waist_radius(self) -> None:
        """None: its waist is cut straight."""
        return None

    @property
    def hem_radius(self) -> None:
        """None: its hem is cut straight, or nearly so."""
        return None

    @property
    def fullness(self) -> None:
        """None: it is not cut from circles."""
        return None

    @property
    def panel_angle(self) -> None:
        """None: its sides run side by side."""
        return None

    @property
    def alike(self) -> bool:
        """Whether all panels are cut from one pattern."""
        return self.around.even

    def divided(self, panels: int) -> "Gathered":
        """Return the same layer in so many panels."""
        return replace(self, panels=panels)

    def girth_at(self, below: Mm) -> Mm:
        """Return the girth ``below`` the waist seam: the same everywhere."""
        return self.waistline

    def girth_above_hem(self, up: Mm) -> Mm:
        """Return the length all round of the line that runs ``up`` above the hem."""
        return path_length(self.line_above_hem(up, 0.0, 1.0))

    def line_above_hem(self, up: Mm, begin: float, finish: float) -> Path:
        """Return the line ``up`` above the hem between two shares of a turn from centre back.

        In the frame of a panel that begins at the first of the two, from left to right.
        """
        return line_of(self, up, begin, finish)

    def outline(self, begin: float, finish: float) -> Outline:
        """Return a panel, or any part of one, between two shares of a turn."""
        wide = (finish - begin) * self.waistline
        hem = self.line_above_hem(0.0, begin, finish)
        return Outline(
            begin=straight(Point(0.0, 0.0), hem[0].start),
            hem=hem,
            finish=straight(hem[-1].end, Point(wide, 0.0)),
            waist=straight(Point(wide, 0.0), Point(0.0, 0.0)),
        )


@lru_cache(maxsize=256)
def line_of(cut: Gathered, up: Mm, begin: float, finish: float) -> Path:
    """Return the line ``up`` above a hem, worked out once for all who ask for it."""

    def place(share: float) -> Point:
        return Point((share - begin) * cut.waistline, up - cut.around.at(share))

    def heading(share: float) -> float:
        # The length's slope is told for each radian of a turn; a turn is the waistline.
        return math.atan2(-math.tau * cut.around.slope(share), cut.waistline)

    if cut.around.even:
        return straight(place(begin), place(finish))
    return curve(place, heading, begin, finish)
