"""How long a layer is round the body: four lengths, and smoothly between them.

Millimetres; places are shares of a turn from centre back by way of the right side.
"""

import math
from dataclasses import dataclass

from drafting.units import Mm

ALIKE: Mm = 1e-6
"""Lengths that differ by less are the same length."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Around:
    """Lengths from the waist seam at four places of the body, and smoothly between them.

    Source: L = a0 + a1 cos p + a2 cos 2p + b1 sin p, p the angle round the body from centre
    front towards the left. Its slope is 0 at centre front and centre back when both sides are
    equally long.
    """

    front: Mm
    left: Mm
    back: Mm
    right: Mm

    def _terms(self) -> tuple[float, float, float, float]:
        side = (self.left + self.right) / 2
        a2 = ((self.front + self.back) / 2 - side) / 2
        return side + a2, (self.front - self.back) / 2, a2, (self.left - self.right) / 2

    def at(self, share: float) -> Mm:
        """Return the length at a share of a turn from centre back by way of the right side."""
        a0, a1, a2, b1 = self._terms()
        p = math.tau * (share - 0.5)
        return a0 + a1 * math.cos(p) + a2 * math.cos(2 * p) + b1 * math.sin(p)

    def slope(self, share: float) -> float:
        """Return how fast the length grows there, in mm for each radian round the body."""
        _, a1, a2, b1 = self._terms()
        p = math.tau * (share - 0.5)
        return -a1 * math.sin(p) - 2 * a2 * math.sin(2 * p) + b1 * math.cos(p)

    @property
    def least(self) -> Mm:
        """The least of the four lengths."""
        return min(self.front, self.left, self.back, self.right)

    @property
    def most(self) -> Mm:
        """The greatest of the four lengths."""
        return max(self.front, self.left, self.back, self.right)

    @property
    def even(self) -> bool:
        """Whether the length is the same all round."""
        return self.most - self.least < ALIKE

    def less(self, by: Mm) -> "Around":
        """Return lengths that are all shorter by so much."""
        return Around(
            front=self.front - by, left=self.left - by, back=self.back - by, right=self.right - by
        )


def all_round(length: Mm) -> Around:
    """Return one length all round."""
    return Around(front=length, left=length, back=length, right=length)
