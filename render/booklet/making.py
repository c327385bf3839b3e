"""What is to be made, looked at from the sewing table: which parts there are, which seams.

Millimetres. Imports the pattern, the spec's words, the ruffle's habits and units.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from drafting.cloth.shopping import Shopping
from drafting.figures import LayerFigures, RuffleFigures
from drafting.language import decimal
from drafting.pattern import Pattern
from drafting.piece import Piece
from drafting.ruffle import HABITS, RuffleHabit
from drafting.spec import Closure, RuffleCloth, Scope, Spec, WaistFinish
from drafting.units import Mm, Units, length_text, metres_text, radius_text
from render.booklet import habits
from render.laying import Cloth

WAIST_SEAM, RUFFLE_SEAM, HEM_SEAM, GODET_SEAM, POCKET_SEAM = "2", "4", "5", "6", "7"
SKIRT_SEAMS, LINING_SEAMS = "1", "3"
"""Numbers of the seams, as they stand beside the notches; letters follow where panels differ."""


INCH: Mm = 25.4
SIXTEENTH: Mm = INCH / 16


@dataclass(frozen=True, slots=True)
class Making:
    """A drafted garment on its way to being sewn.

    Attributes:
        cloth: its lay plans and what to buy, None where no lay was made.
    """

    pattern: Pattern
    cloth: Cloth | None = None

    @property
    def spec(self) -> Spec:
        return self.pattern.spec

    @property
    def units(self) -> Units:
        return self.pattern.spec.units

    @property
    def skirt(self) -> LayerFigures:
        return self.pattern.figures.skirt

    @property
    def lining(self) -> LayerFigures | None:
        return self.pattern.figures.lining

    @property
    def ruffle(self) -> RuffleFigures | None:
        return self.pattern.figures.ruffle

    @property
    def shopping(self) -> Shopping | None:
        return self.cloth.shopping if self.cloth else None

    @property
    def sews_skirt(self) -> bool:
        """Whether a skirt is drafted, and not only what goes into one that is there."""
        return self.spec.skirt.owned is None

    @property
    def finished_waist(self) -> Mm:
        return self.pattern.figures.waist.finished

    @property
    def casing(self) -> bool:
        return self.spec.skirt.waist_finish is WaistFinish.CASING

    @property
    def opens(self) -> bool:
        """Whether there is an opening in the waist."""
        return self.pattern.figures.opening is not None

    @property
    def closure(self) -> Closure:
        """Where it opens; a casing is pulled on."""
        return Closure.NONE if self.casing else self.spec.skirt.closure

    @property
    def curved(self) -> bool:
        """Whether the skirt's waist edge is a curve, which stretches until it is stayed."""
        return self.sews_skirt and self.skirt.cut != "gathered"

    @property
    def shortest_snip(self) -> Mm:
        """How deep a notch may be cut: half the narrowest allowance at most."""
        widths = [
            edge.allowance
            for piece in self.pattern.pieces
            for edge in piece.edges
            if edge.allowance > 0
        ]
        return min(habits.NOTCH_DEEP, min(widths, default=habits.NOTCH_DEEP) / 2)

    @property
    def grows(self) -> Mm:
        """How much the skirt's hem grows on the bias, where that is worth hanging it for; or 0."""
        drop = self.skirt.bias_drop_most or 0.0
        return drop if self.sews_skirt and drop >= habits.LEAST_GROWTH else 0.0

    @property
    def half_scale(self) -> bool:
        """Whether it is made for a half-scale form, which does not walk."""
        return self.spec.scale != 1

    @property
    def habit(self) -> RuffleHabit:
        """How the ruffle's cloth is worked.

        Raises:
            ValueError: there is no ruffle.
        """
        if self.spec.ruffle is None:
            raise ValueError("this garment has no ruffle")
        return HABITS[self.spec.ruffle.cloth]

    @property
    def is_net(self) -> bool:
        """Whether the ruffle's cloth is a net, which does not fray."""
        return self.spec.ruffle is not None and self.spec.ruffle.cloth in (
            RuffleCloth.SOFT_TULLE,
            RuffleCloth.STIFF_NET,
        )

    @property
    def doubled(self) -> bool:
        """Whether the ruffle is folded along its length; tiers are hemmed instead."""
        wish = self.spec.ruffle
        return wish is not None and wish.doubled and not (self.ruffle and self.ruffle.tiers)

    @property
    def on_paper(self) -> bool:
        """Whether pieces are printed, and not only a card of figures to chalk them by."""
        return self.spec.print.scope is not Scope.CARD

    @property
    def opens_by_dot(self) -> bool:
        """Whether a dot on a panel ends the skirt's opening; one longer than a yoke has none."""
        skirt = (piece for piece in self.pieces_of("skirt") if piece.name.startswith("skirt "))
        return any(dot.mark is None for piece in skirt for dot in piece.dots)

    def long(self, length: Mm) -> str:
        """Return a length in the sheet's units and language."""
        return length_text(length, self.units)

    def tells(self, length: Mm) -> bool:
        """Tell whether a length is more than nothing as it is shown."""
        return self.long(length) != self.long(0.0)

    def little(self, length: Mm) -> str:
        """Return a small measure of the hand: in millimetres, or to the sixteenth of an inch."""
        if self.units is Units.CM:
            return self.stitch(length)
        return radius_text(length + SIXTEENTH / 2, self.units)

    def handy(self, length: Mm) -> Mm:
        """Return a measure of the hand as it is set on a rule: in round inches where inches are."""
        if self.units is Units.CM:
            return length
        inches = length / INCH
        step = 0.125 if inches < 1.5 else 0.5 if inches < 6 else 1.0
        return round(inches / step) * step * INCH

    def hand(self, length: Mm) -> str:
        """Return a measure of the hand in the sheet's units and language."""
        return length_text(self.handy(length), self.units)

    def stitch(self, length: Mm) -> str:
        """Return the length of a stitch: machines are marked in millimetres everywhere."""
        return decimal(f"{length:g}\u00a0mm")

    def radius(self, length: Mm) -> str:
        """Return a radius, rounded down, in the sheet's units and language."""
        return radius_text(length, self.units)

    def metres(self, metres: float) -> str:
        """Return an estimated amount in metres, or in yards."""
        return metres_text(metres, self.units)

    def pieces_of(self, cloth: str) -> tuple[Piece, ...]:
        """Return the pieces that are cut from one cloth."""
        return tuple(piece for piece in self.pattern.pieces if piece.cloth == cloth)

    def piece(self, begins: str) -> Piece | None:
        """Return the first piece whose English name begins so."""
        found = (piece for piece in self.pattern.pieces if piece.name.startswith(begins))
        return next(found, None)

    def numbered(self, begins: str) -> str:
        """Return the number of the first piece whose English name begins so, as in the cut list."""
        names = [piece.name for piece in self.pattern.pieces]
        return str(1 + next(k for k, name in enumerate(names) if name.startswith(begins)))

    def seams(self, number: str) -> Iterator[str]:
        """Yield the numbers of the seams that begin so: "1", or "1a", "1b"."""
        seen = dict.fromkeys(seam.number for seam in self.pattern.figures.truing)
        return (one for one in seen if one.rstrip("abcdefghij") == number)
