"""A lay plan: every shape of a cloth and where it lies on it.

Millimetres and radians. The cloth lies opened out, right side up: x runs along its length from
the cut end, y across its usable width from one selvage to the other. What is laid on a fold is
told in the same frame, both layers of it. Imports geometry and shapes.
"""

import math
from dataclasses import dataclass
from enum import StrEnum

from drafting.cloth.shapes import Shape, box_of, flipped_over
from drafting.findings import Finding
from drafting.geometry import Box, Path, moved
from drafting.spec import Cloth
from drafting.units import Mm


class Lies(StrEnum):
    """How a shape is cut: from a single layer, or from cloth folded selvage to selvage.

    What lies alone is cut from the upper layer of folded cloth, beside what is cut double.
    """

    SINGLE = "single layer"
    ON_FOLD = "on the fold"
    UPPER = "upper layer"
    UNDER = "under layer"
    ALONE = "upper layer only"


class Method(StrEnum):
    """What found a plan: the solver, sliding shapes up one by one, or rows of boxes."""

    SOLVER = "solver"
    SLID = "slid together"
    ROWS = "rows"


@dataclass(frozen=True, slots=True, kw_only=True)
class Laid:
    """One shape on the cloth.

    Attributes:
        copy: which of its shape's ``count`` it is, from 1.
        x, y: where the origin of its piece's own frame lies.
        turn: how far it is turned, counter-clockwise, after it was flipped.
        flipped: mirrored over its own x axis first: the paper lies face down, or, of a pair
            cut from two layers, it is the one that comes out mirrored.
    """

    shape: Shape
    copy: int
    x: Mm
    y: Mm
    turn: float
    flipped: bool = False
    lies: Lies = Lies.SINGLE

    @property
    def outline(self) -> Path:
        """Its whole cutting line on the cloth, counter-clockwise."""
        return self.on_cloth(self.shape.outline)

    @property
    def extra(self) -> float:
        """How far it is turned besides lying with its grain along the cloth, in [-pi, pi]."""
        return math.remainder(self.turn - self.shape.turn(0.0, flipped=self.flipped), math.tau)

    def on_cloth(self, path: Path) -> Path:
        """Return a path of the piece's own frame where it lies on the cloth."""
        return moved(flipped_over(path, self.flipped), x=self.x, y=self.y, turn=self.turn)

    @property
    def box(self) -> Box:
        """The box of its outline on the cloth."""
        box = box_of(self.shape.outline, self.turn, self.flipped)
        return Box(
            left=box.left + self.x,
            bottom=box.bottom + self.y,
            right=box.right + self.x,
            top=box.top + self.y,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """A length of the cloth that is laid in one way: folded along its middle, or open."""

    start: Mm
    length: Mm
    folded: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Lay:
    """How the pieces of one cloth are laid.

    Attributes:
        name: of the cloth on the sheet.
        usable: width between its selvages, once it has been washed.
        stretches: the lengths it is laid in, one behind the other.
        laid: every shape, in the order of the cut list.
        missing: shapes that are too wide for the cloth and are not laid.
        counted: shapes that are too many to lay one by one; rows of them give the length.
        method: what found the plan.
        rows_length: what the same shapes take in rows of boxes.
        findings: what is worth saying about the plan.
    """

    name: str
    cloth: Cloth
    usable: Mm
    stretches: tuple[Stretch, ...]
    laid: tuple[Laid, ...]
    missing: tuple[Shape, ...] = ()
    counted: tuple[Shape, ...] = ()
    method: Method
    rows_length: Mm
    findings: tuple[Finding, ...] = ()

    @property
    def length(self) -> Mm:
        """How much washed cloth the plan takes."""
        return math.fsum(stretch.length for stretch in self.stretches)

    @property
    def area(self) -> float:
        """Area of everything that is cut, in mm2."""
        counted = (shape.area * shape.count for shape in self.counted)
        return math.fsum((*(one.shape.area for one in self.laid), *counted))

    @property
    def lower_bound(self) -> Mm:
        """The length that would do if nothing were wasted: area over width."""
        return self.area / self.usable if self.usable > 0 else 0.0

    @property
    def used(self) -> float:
        """How much of the laid cloth ends up in pieces, as a part of one."""
        return self.lower_bound / self.length if self.length > 0 else 0.0

    @property
    def shapes(self) -> tuple[Shape, ...]:
        """The shapes that are laid, each once, in the order of the cut list."""
        return tuple({one.shape.number: one.shape for one in self.laid}.values())
