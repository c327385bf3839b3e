"""What to buy for a garment: cloth by cloth, the notions, and what all of it weighs and costs.

Millimetres, grams and the sheet's own money. Imports lays and the words of findings.
"""

from dataclasses import dataclass
from enum import StrEnum

from drafting.cloth.lays import Lay
from drafting.findings import Finding
from drafting.units import Mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Purchase:
    """How much of one cloth to buy, and how that comes about.

    Attributes:
        washed: length of the lay, in cloth that has been washed.
        shrinking: added for what the first wash takes.
        repeats: added for placing a pattern's repeats.
        squaring: added for squaring the ends.
        buy: the sum, rounded up to what a shop sells.
        cost: of that at the sheet's price, None without one.
        grams: what the pieces cut from it weigh, an estimate where the sheet gives no weight.
        estimated: whether that weight is an estimate by the kind of cloth.
    """

    lay: Lay
    washed: Mm
    shrinking: Mm
    repeats: Mm
    squaring: Mm
    buy: Mm
    cost: float | None = None
    grams: float
    estimated: bool

    @property
    def name(self) -> str:
        """Name of the cloth on the sheet."""
        return self.lay.name

    @property
    def needed(self) -> Mm:
        """What is needed before rounding up."""
        return self.washed + self.shrinking + self.repeats + self.squaring


@dataclass(frozen=True, slots=True, kw_only=True)
class AtWidth:
    """About how much of a cloth to buy, were it of another width.

    Attributes:
        panels: how many the layer is then cut in, None for cloths without panels.
        more_seams: it is cut in more panels than asked, or pieced.
        buy: rounded up, None where it cannot be cut from that width.
        cheapest: of all widths that need no more seams, the least cloth by area.
    """

    width: Mm
    panels: int | None = None
    more_seams: bool = False
    buy: Mm | None
    cheapest: bool = False


class Measured(StrEnum):
    """How a notion is counted."""

    LENGTH = "length"
    METRES = "metres"
    COUNT = "count"


@dataclass(frozen=True, slots=True, kw_only=True)
class Notion:
    """Something else to buy.

    Attributes:
        name: what a shop calls it: ``sewing thread``, ``zip`` …
        amount: in mm where it is measured as a length, in metres of thread or cord, or a count.
        about: it is an estimate.
        why: what it is for and how its amount comes about, in one line.
    """

    name: str
    amount: float
    measured: Measured
    about: bool = False
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Shopping:
    """Everything to buy.

    Attributes:
        widths: about what each cloth comes to at the usual widths, by its name.
        grams: what the whole garment weighs.
        cost: of all cloth that has a price, None where none has.
        unpriced: names of cloths without a price, left out of the cost.
    """

    purchases: tuple[Purchase, ...]
    widths: dict[str, tuple[AtWidth, ...]]
    notions: tuple[Notion, ...]
    grams: float
    cost: float | None = None
    unpriced: tuple[str, ...] = ()
    findings: tuple[Finding, ...] = ()
