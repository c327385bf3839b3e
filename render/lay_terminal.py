"""What the terminal shows of lay plans: cloth by cloth what to buy, widths, notions, weight.

Plain text, 80 columns at most; nothing depends on colour. Imports drafting's values.
"""

import textwrap
from collections.abc import Sequence

from drafting.cloth.buying import sold_text
from drafting.cloth.lays import Lay
from drafting.cloth.shopping import Shopping
from drafting.language import in_its_language, say
from drafting.pattern import Pattern
from drafting.units import Units, length_text
from render.lay_pages import notion_text, weight_words, width_buy, width_words
from render.lay_words import along_text, money
from render.measures import layer_words, share_text

WIDTH = 80


@in_its_language
def lay_table(pattern: Pattern, lays: Sequence[Lay], shopping: Shopping | None = None) -> str:
    """Return the lay plans of a garment as a short table, and what to buy if that is known."""
    units = pattern.spec.units
    lines = [*textwrap.wrap(pattern.spec.title, WIDTH), *_cloths(lays, shopping, units)]
    if shopping is not None:
        lines += _widths(shopping, units)
        lines += _notions(shopping, units)
    return _joined(lines)


@in_its_language
def cloth_table(pattern: Pattern, lays: Sequence[Lay], shopping: Shopping) -> str:
    """Return how much of each cloth to lay and to buy, without the rest of the list."""
    return _joined(_cloths(lays, shopping, pattern.spec.units))


def _joined(lines: Sequence[str]) -> str:
    return "\n".join(line.rstrip() for line in lines).replace("\u00a0", " ")


def _cloths(lays: Sequence[Lay], shopping: Shopping | None, units: Units) -> list[str]:
    heads = (say("cloth"), say("width"), say("to lay"), say("buy"), say("used"), say("cost"))
    totals = [] if shopping is None else _totals(shopping, units)
    return [*_aligned(heads, _cloth_rows(lays, shopping, units)), *totals]


def _cloth_rows(
    lays: Sequence[Lay], shopping: Shopping | None, units: Units
) -> list[tuple[str, ...]]:
    bought = {one.name: one for one in shopping.purchases} if shopping is not None else {}
    rows: list[tuple[str, ...]] = []
    for lay in lays:
        purchase = bought.get(lay.name)
        rows.append(
            (
                layer_words(lay.name),
                length_text(lay.cloth.width, units),
                along_text(lay.length, units),
                "" if purchase is None else sold_text(purchase.buy, units),
                share_text(lay.used),
                "" if purchase is None or purchase.cost is None else money(purchase.cost),
            )
        )
    return rows


def _totals(shopping: Shopping, units: Units) -> list[str]:
    lines = []
    if shopping.cost is not None:
        words = say("all cloth {cost}", cost=money(shopping.cost))
        if shopping.unpriced:
            words = say(
                "all cloth {cost}, without {layers}: no price given",
                cost=money(shopping.cost),
                layers=", ".join(layer_words(name) for name in shopping.unpriced),
            )
        lines += textwrap.wrap(words, WIDTH, initial_indent="  ", subsequent_indent="  ")
    weighs = say("the cloth in it weighs {weight}", weight=weight_words(shopping, units))
    lines.append(f"  {weighs}")
    return lines


def _widths(shopping: Shopping, units: Units) -> list[str]:
    rows = [
        (
            layer_words(name) if k == 0 else "",
            length_text(one.width, units),
            "" if one.panels is None else str(one.panels),
            width_buy(one, units).replace("–", "-"),
            width_words(one),
        )
        for name, held in shopping.widths.items()
        for k, one in enumerate(held)
    ]
    if not rows:
        return []
    heads = (say("cloth"), say("width"), say("panels"), say("buy"), "")
    return [say("about, at usual widths"), *_aligned(heads, rows, words=4)]


def _notions(shopping: Shopping, units: Units) -> list[str]:
    if not shopping.notions:
        return []
    held = [(one.name, notion_text(one, units), one.why) for one in shopping.notions]
    names = min(max(len(name) for name, _, _ in held), 24)
    amounts = max(len(amount) for _, amount, _ in held)
    lines = [say("notions")]
    for name, amount, why in held:
        indent = " " * (names + amounts + 6)
        lead = f"  {name:<{names}}  {amount:>{amounts}}  "
        if len(lead) > len(indent):  # a long name has a line of its own, or two
            lines += textwrap.wrap(name, WIDTH, initial_indent="  ", subsequent_indent="    ")
            lead = f"  {'':<{names}}  {amount:>{amounts}}  "
        lines += textwrap.wrap(why, WIDTH, initial_indent=lead, subsequent_indent=indent) or [lead]
    return lines


def _aligned(
    heads: Sequence[str], rows: Sequence[Sequence[str]], words: int | None = None
) -> list[str]:
    """Return rows in columns, names to the left, numbers to the right.

    Args:
        words: a last column of words, set to the left.
    """
    used = [k for k in range(len(heads)) if any(row[k] for row in rows)]
    wide = {k: max(len(heads[k]), *(len(row[k]) for row in rows)) for k in used}
    return [
        "  "
        + "  ".join(
            row[k].ljust(wide[k]) if k in (0, words) else row[k].rjust(wide[k]) for k in used
        )
        for row in (heads, *rows)
    ]
