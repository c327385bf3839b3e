"""What many garments take of cloth and notions, to buy for all at once. Millimetres.

Imports what one garment takes. Totals are kept, garments are not: a thousand of them need no
more memory than two.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from drafting.cloth.shopping import Measured, Notion, Purchase
from drafting.language import Language, speaking
from drafting.units import Mm, Units

if TYPE_CHECKING:
    from drafting.pattern import Pattern


def purchases_in_rows(pattern: "Pattern") -> tuple[Purchase, ...]:
    """Return an estimate of what to buy of each cloth, its pieces in rows and no lay searched."""
    from drafting.cloth.buying import purchase
    from drafting.cloth.laying import counted
    from drafting.cloth.shapes import shapes

    cloths = pattern.spec.cloths
    return tuple(
        purchase(counted(shapes(pattern, name), name, getattr(cloths, name)), pattern.spec.units)
        for name in pattern.figures.cloth
    )


def notions_in_english(pattern: "Pattern") -> tuple[Notion, ...]:
    """Return the notions under their English names, which totals go by in every language."""
    from drafting.cloth.notions import notions

    with speaking(Language.ENGLISH):
        return notions(pattern)


def cloth_record(purchases: tuple[Purchase, ...], *, estimated: bool) -> dict[str, Any]:
    """Return what one garment takes of each cloth, by its name, as plain values."""
    return {
        one.name: {
            "kind": one.lay.cloth.kind or "",
            "width": _short(one.lay.cloth.width),
            "needed": _short(one.needed),
            "buy": _short(one.buy),
            "estimated": estimated,
            "price": one.lay.cloth.price,
            "cost": None if one.cost is None else round(one.cost, 2),
            "have": None if one.lay.cloth.have is None else _short(one.lay.cloth.have),
        }
        for one in purchases
    }


def notion_records(notions: tuple[Notion, ...]) -> list[dict[str, Any]]:
    """Return one garment's notions as plain values: lengths in mm, thread and cord in metres."""
    return [
        {
            "name": one.name,
            "amount": _short(one.amount),
            "measured": one.measured.value,
            "about": one.about,
        }
        for one in notions
    ]


@dataclass(slots=True, kw_only=True)
class ClothTotal:
    """One cloth for all garments.

    Attributes:
        needed: the sum of what each needs, laid one behind the other, before rounding.
        have: what the sheet says is at hand, counted once.
    """

    cloth: str
    kind: str
    width: Mm
    price: float | None
    have: Mm | None
    needed: Mm = 0.0
    garments: int = 0
    estimated: bool = False

    @property
    def words(self) -> str:
        """What the cloth is called in a list: ``skirt cloth``, but ``interfacing``."""
        return self.cloth if self.cloth == "interfacing" else f"{self.cloth} cloth"

    def buy(self, units: Units) -> Mm:
        """Return the length to buy for all, rounded up once to what a shop sells."""
        from drafting.cloth.buying import rounded_up

        return rounded_up(self.needed, units)

    def cost(self, units: Units) -> float | None:
        """Return what that costs at the sheet's price, None without one."""
        from drafting.cloth.buying import PRICED_BY

        return None if self.price is None else self.price * self.buy(units) / PRICED_BY[units]


@dataclass(slots=True, kw_only=True)
class NotionTotal:
    """One notion for all garments: a sum, or for zips of one length their number.

    Attributes:
        each: the length of each, where they are counted by it; else None.
    """

    name: str
    each: Mm | None
    measured: str
    amount: float = 0.0
    garments: int = 0
    about: bool = False


@dataclass(slots=True, kw_only=True)
class ForAll:
    """Sums over garments, added to one by one."""

    cloths: dict[tuple[Any, ...], ClothTotal] = field(default_factory=dict)
    notions: dict[tuple[Any, ...], NotionTotal] = field(default_factory=dict)

    def add(self, cloth: Mapping[str, Any], notions: list[dict[str, Any]]) -> None:
        """Add one garment, as ``cloth_record`` and ``notion_records`` tell of it."""
        for name, one in cloth.items():
            key = (name, one["kind"], one["width"])
            if key not in self.cloths:
                self.cloths[key] = ClothTotal(
                    cloth=name,
                    kind=one["kind"],
                    width=one["width"],
                    price=one["price"],
                    have=one["have"],
                )
            total = self.cloths[key]
            total.needed += one["needed"]
            total.garments += 1
            total.estimated |= one["estimated"]
        for one in notions:
            self._add_notion(one)

    def _add_notion(self, one: Mapping[str, Any]) -> None:
        # A zip is bought by its length; of whatever else is a length, so much off the roll.
        each = one["amount"] if one["name"] == "zip" else None
        key = (one["name"], each)
        if key not in self.notions:
            measured = Measured.COUNT.value if each is not None else one["measured"]
            self.notions[key] = NotionTotal(name=one["name"], each=each, measured=measured)
        total = self.notions[key]
        total.amount += 1 if each is not None else one["amount"]
        total.garments += 1
        total.about |= one["about"]

    def cloths_in_order(self) -> tuple[ClothTotal, ...]:
        """Return the cloths as they are bought: skirt, lining, ruffle and so on."""
        from drafting.cloth import CLOTHS

        return tuple(
            sorted(self.cloths.values(), key=lambda t: (CLOTHS.index(t.cloth), t.kind, t.width))
        )

    def notions_in_order(self) -> tuple[NotionTotal, ...]:
        """Return the notions in the order they first came, zips by their length."""
        order = {name: at for at, (name, _) in reversed(list(enumerate(self.notions)))}
        return tuple(sorted(self.notions.values(), key=lambda t: (order[t.name], t.each or 0.0)))

    def cost(self, units: Units) -> float | None:
        """Return what all priced cloth costs, None where none has a price."""
        costs = [cost for one in self.cloths.values() if (cost := one.cost(units)) is not None]
        return math.fsum(costs) if costs else None


def _short(value: float) -> float:
    return round(value, 3) + 0.0
