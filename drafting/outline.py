"""What a cut gives: its numbers, and the four edges of any of its panels.

Millimetres. Imports around and geometry.
"""

from dataclasses import dataclass
from functools import lru_cache
from typing import Protocol, Self

from drafting.around import Around
from drafting.geometry import Path
from drafting.units import Mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Outline:
    """A panel's stitching line, counter-clockwise, right side up with its waist as given.

    Attributes:
        begin: its first edge, from the waist down to the hem.
        hem: from the first edge to the last.
        finish: its last edge, from the hem up to the waist.
        waist: from the last edge back to the first.
    """

    begin: Path
    hem: Path
    finish: Path
    waist: Path


class Cut(Protocol):
    """A way of cutting a layer: its numbers, and the outline of any of its panels.

    Places round the body are shares of a turn from centre back by way of the right side.
    Radii are None where a cut has none.
    """

    def __hash__(self) -> int:
        """A cut is a value, and what was worked out for it once is kept."""

    @property
    def panels(self) -> int:
        """How many panels."""

    @property
    def waistline(self) -> Mm:
        """Length of the flat waist seam all round."""

    @property
    def around(self) -> Around:
        """Lengths from the waist seam to the finished hem."""

    @property
    def length(self) -> Mm:
        """Least of those lengths."""

    @property
    def alike(self) -> bool:
        """Whether all panels are cut from one pattern."""

    @property
    def sweep(self) -> Mm:
        """Length of the finished hem all round."""

    @property
    def fullness(self) -> float | None:
        """Circles it is cut from, or that its flare comes to."""

    @property
    def panel_angle(self) -> float | None:
        """Angle of one panel, where all have the same."""

    @property
    def waist_radius(self) -> Mm | None:
        """Smallest radius of the waist seam."""

    @property
    def hem_radius(self) -> Mm | None:
        """Smallest radius of the finished hem."""

    def divided(self, panels: int) -> Self:
        """Return the same layer in so many panels."""

    def girth_at(self, below: Mm) -> Mm:
        """Return the girth of the layer ``below`` its waist seam."""

    def girth_above_hem(self, up: Mm) -> Mm:
        """Return the length all round of the line that runs ``up`` above the hem."""

    def line_above_hem(self, up: Mm, begin: float, finish: float) -> Path:
        """Return that line between two places, in the frame of the panel that begins there."""

    def outline(self, begin: float, finish: float) -> Outline:
        """Return the panel between two places."""


@lru_cache(maxsize=256)
def outline_of(cut: Cut, begin: float, finish: float) -> Outline:
    """Return the panel between two places, worked out once for all who ask for it.

    Raises:
        GeometryError: it cannot be drawn at these measures.
    """
    return cut.outline(begin, finish)
