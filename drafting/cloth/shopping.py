"""What to buy for a garment: cloth by cloth, the notions, and what all of it weighs and costs.

Millimetres, grams and the sheet's own money. Imports lays, findings and units; ``shopping``
imports those who work it out.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from drafting.cloth.lays import Lay
from drafting.findings import Finding, by_weight, caution
from drafting.language import decimal, in_its_language, said_later, say
from drafting.part_words import part_words
from drafting.piece_names import cloth_in_full
from drafting.units import Mm, length_text

if TYPE_CHECKING:
    from drafting.pattern import Pattern

HAIR: Mm = 0.5
"""Cloth that is this much too short is long enough; no one cuts so fine."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Purchase:
    """How much of one cloth to buy, and how that comes about.

    Attributes:
        washed: length of the lay, in cloth that has been washed.
        shrinking: added for what the first wash takes.
        panel_rows: how many panels lie one behind another, on a cloth with a pattern.
        repeats: added for placing each of those on the pattern: a repeat for each.
        squaring: added for squaring the ends.
        buy: the sum, rounded up to what a shop sells.
        cost: of that at the sheet's price, None without one.
        grams: what the pieces cut from it weigh, an estimate where the sheet gives no weight.
        estimated: whether that weight is an estimate by the kind of cloth.
    """

    lay: Lay
    washed: Mm
    shrinking: Mm
    panel_rows: int = 0
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

    @property
    def at_hand(self) -> bool:
        """Whether there is enough of it already, so that none need be bought."""
        have = self.lay.cloth.have
        return have is not None and self.needed <= have + HAIR


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
        cost: of all cloth to be bought that has a price, None where none has.
        unpriced: names of cloths without a price, left out of the cost.
    """

    purchases: tuple[Purchase, ...]
    widths: dict[str, tuple[AtWidth, ...]]
    notions: tuple[Notion, ...]
    grams: float
    cost: float | None = None
    unpriced: tuple[str, ...] = ()
    findings: tuple[Finding, ...] = ()


HEAVY = 1200.0
"""Grams beyond which a skirt drags its waistband down."""

LAYERS = ("skirt", "lining", "ruffle")
"""Cloths that are worth comparing in several widths; of the others little is needed."""


@in_its_language
def shopping(pattern: "Pattern", lays: Sequence[Lay], *, widths: bool = True) -> Shopping:
    """Return everything to buy for a pattern.

    Cloth of which there is enough already costs nothing more; a cloth without a price is left
    out of the cost and named.

    Args:
        lays: the lay of every cloth.
        widths: whether to look up what the layers come to in other widths, which takes longer.
    """
    # Those that work it out make these values: they are loaded by who asks for it.
    from drafting.cloth.buying import purchase
    from drafting.cloth.enough import enough
    from drafting.cloth.notions import notions
    from drafting.cloth.widths import at_usual_widths

    bought = tuple(purchase(lay, pattern.spec.units) for lay in lays)
    to_pay = [one for one in bought if one.buy > 0 and not one.at_hand]
    costs = [one.cost for one in to_pay if one.cost is not None]
    findings = [finding for lay in lays for finding in lay.findings]
    findings += [found for one in bought for found in enough(pattern, one.lay, one)]
    findings += [*_repeats(pattern, bought), *_heavy(pattern, bought)]
    return Shopping(
        purchases=bought,
        widths={
            one.name: at_usual_widths(pattern, one.name, one)
            for one in bought
            if widths and one.name in LAYERS
        },
        notions=notions(pattern),
        grams=math.fsum(one.grams for one in bought),
        cost=math.fsum(costs) if costs else None,
        unpriced=tuple(one.name for one in to_pay if one.cost is None),
        findings=by_weight(tuple(findings)),
    )


def _repeats(pattern: "Pattern", bought: Sequence[Purchase]) -> Iterator[Finding]:
    """Yield which patterns repeat over more than a panel's length, so that much is wasted."""
    from drafting.cloth.buying import longest_panel

    units = pattern.spec.units
    for one in bought:
        repeat, long = one.lay.cloth.repeat, longest_panel(one.lay)
        if not 0 < long < repeat:
            continue
        yield caution(
            "repeat-longer-than-piece",
            say(
                # TRANSLATORS: {cloth} has no article; word it so that it stands by itself.
                "The {cloth} repeats every {repeat}, and its longest panel is {panel} along it:"
                " matching takes {matching} of {needed}.",
                cloth=cloth_in_full(one.name),
                repeat=length_text(repeat, units),
                panel=length_text(long, units),
                matching=length_text(one.repeats, units),
                needed=length_text(one.needed, units),
            ),
            say(
                "Buy plain cloth or one with a smaller repeat; or do not match it, and leave repeat"
                " out."
            ),
        )


def _heavy(pattern: "Pattern", bought: Sequence[Purchase]) -> Iterator[Finding]:
    """Yield whether the garment drags at its waist. On a half-scale form a quarter does."""
    grams = math.fsum(one.grams for one in bought)
    most = HEAVY * pattern.spec.scale**2
    if grams <= most:
        return
    heaviest = max(bought, key=lambda one: one.grams)
    told = (
        said_later(
            "All of it weighs about {all}, {part} alone {heaviest}; beyond {most} a waistband"
            " drags."
        )
        if any(one.estimated for one in bought)
        else said_later(
            "All of it weighs {all}, {part} alone {heaviest}; beyond {most} a waistband drags."
        )
    )
    yield caution(
        "heavy-skirt",
        say(
            told,
            all=_weight(grams),
            part=part_words(heaviest.name),
            heaviest=_weight(heaviest.grams),
            most=_weight(most),
        ),
        say("Stay the waist with firm tape, make the band wider, or take lighter cloth."),
    )


def _weight(grams: float) -> str:
    if grams < 950:
        return f"{grams:.0f}\u00a0g"
    return decimal(f"{grams / 1000:.1f}\u00a0kg")
