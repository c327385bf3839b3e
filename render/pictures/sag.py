"""How far a hem drops where it hangs on the bias, put round the body.

Millimetres; places are shares of a whole turn from centre back by way of the right side. Imports
the figures and places round the body.
"""

from dataclasses import dataclass
from itertools import pairwise

from drafting.figures import LayerFigures
from drafting.places import first_seam
from drafting.spec import Closure
from drafting.units import MM_PER_INCH, Mm

LEAST_SAG: Mm = MM_PER_INCH / 16
"""A smaller drop reads as none on a rule."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sag:
    """How a hem has dropped: at shares of a turn from centre back, in mm of the body."""

    drops: tuple[tuple[float, Mm], ...]

    @property
    def most(self) -> Mm:
        """The greatest drop."""
        return max((drop for _, drop in self.drops), default=0.0)

    @property
    def peaks(self) -> tuple[float, ...]:
        """Where it drops most."""
        return tuple(share for share, drop in self.drops if drop > self.most - 1e-6)

    def at(self, share: float) -> Mm:
        """Return the drop at a share, run straight between those that are known."""
        if not self.drops:
            return 0.0
        known = sorted(self.drops)
        ring = [(known[-1][0] - 1, known[-1][1]), *known, (known[0][0] + 1, known[0][1])]
        for (a, low), (b, high) in pairwise(ring):
            if a <= share % 1 <= b:
                return low + (high - low) * (share % 1 - a) / (b - a) if b > a else low
        return 0.0


def sag_of(skirt: LayerFigures, closure: Closure) -> Sag:
    """Return the drops of every panel, put round the body."""
    most = max((one.drop for one in skirt.bias_drops), default=0.0)
    if not skirt.panel_angle or most < LEAST_SAG:
        return Sag(drops=())
    start = first_seam(skirt.panels, closure)
    return Sag(
        drops=tuple(
            ((start + (panel + one.angle / skirt.panel_angle) / skirt.panels) % 1, one.drop)
            for panel in range(skirt.panels)
            for one in skirt.bias_drops
        )
    )
