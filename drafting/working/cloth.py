"""Workings of the cloth to buy: what washing, a pattern, squaring and the shop add to a lay.

Millimetres. Imports buying's constants and the model.
"""

from collections.abc import Iterator

from drafting.cloth.buying import LEAST_SQUARING, SLACK, SOLD_BY, SQUARING_SHARE
from drafting.cloth.shopping import Purchase, Shopping
from drafting.language import say
from drafting.working.model import How, Law, Slate, Working


def to_buy(slate: Slate, shopping: Shopping) -> Iterator[Working]:
    """Yield how much of each cloth to buy."""
    for one in shopping.purchases:
        if one.buy > 0:
            yield from _buy(slate, one)


def _buy(slate: Slate, one: Purchase) -> Iterator[Working]:
    cloth = one.lay.cloth
    washed = "lay / (1 - wash)" if cloth.shrink_length else "lay"
    needed = washed
    if cloth.repeat:
        needed += " + reps * rep"
    if not cloth.squared:
        needed += f" + max(sq0, sq * {washed if washed == 'lay' else f'({washed})'})"
    numbers = {
        "lay": one.washed,
        "wash": cloth.shrink_length,
        "reps": float(one.panel_rows),
        "rep": cloth.repeat,
        "sq0": LEAST_SQUARING,
        "sq": SQUARING_SHARE,
        "hair": SLACK,
        "unit": SOLD_BY[slate.units],
    }
    yield slate.worked(
        f"cloth.{one.name}.needed",
        say("cloth that is needed, before rounding"),
        say("length of the lay / (1 − what washing takes) + pattern repeats + squaring the ends"),
        needed,
        one.needed,
        How(law=Law.HABIT, note=say("from the lay plan, never from area alone")),
        **numbers,
    )
    yield slate.worked(
        f"cloth.{one.name}.buy",
        say("cloth to buy"),
        say("what is needed, rounded up to what a shop cuts"),
        "max(roundup((need - hair) / unit), 0) * unit",
        one.buy,
        How(law=Law.HABIT),
        need=one.needed,
        **numbers,
    )
