"""Sizes and cloth as tables: for a post in both units, for a spreadsheet in the sheet's own.

Millimetres inside. Imports the shopping list and the booklet's tables.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from drafting.check_seams import check_seams
from drafting.cloth.buying import rounded_up, sold_text
from drafting.cloth.shopping import Measured, Notion, Purchase, Shopping
from drafting.language import listed, say
from drafting.pattern import Pattern
from drafting.piece_names import cloth_words, kind_words
from drafting.spec import WaistFinish
from drafting.units import MM_PER_INCH, Mm, Units, length_text
from render.booklet.model import Table
from render.chosen import on_paper
from render.lay_pages import notion_text
from render.publish.described import OTHER, both, in_brackets
from render.publish.titles import size_words, sizes_of

YARD: Mm = 36 * MM_PER_INCH
METRE: Mm = 1000.0
EIGHTHS = 8
SAME: Mm = 0.05
"""Lengths that differ by less are one length."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """One measure of all sizes.

    Attributes:
        name: what is measured, in the language spoken.
        under: of what is worn under the skirt, told in a table of its own.
        values: in mm, size by size; None for a size that has none.
    """

    name: str
    values: tuple[Mm | None, ...]
    under: bool = False


def body_columns(pattern: Pattern) -> tuple[Column, ...]:
    """Return the measures of the bodies that the sizes are made for."""
    bodies = [size.spec.wearer for size in sizes_of(pattern)]
    return (
        Column(name=say("waist of the body"), values=tuple(body.waist for body in bodies)),
        Column(name=say("hip of the body"), values=tuple(body.hip for body in bodies)),
        Column(name=say("height of the body"), values=tuple(body.height for body in bodies)),
    )


def finished_columns(pattern: Pattern) -> tuple[Column, ...]:
    """Return what the finished garment measures; a measure that no size has is left out."""
    every = [dict(_finished(size)) for size in sizes_of(pattern)]
    names = list(dict.fromkeys(name for one in every for name in one))
    under = {name for size in sizes_of(pattern) for name, _ in _under(size)}
    return tuple(
        Column(name=name, values=tuple(one.get(name) for one in every), under=name in under)
        for name in names
    )


def _finished(pattern: Pattern) -> Iterator[tuple[str, Mm]]:
    figures, wish = pattern.figures, pattern.spec.skirt
    skirt = figures.skirt
    if wish.waist_finish is WaistFinish.CASING:
        yield say("waist, opened out"), skirt.waistline
    else:
        yield say("waist, closed"), figures.waist.finished
    lengths = (skirt.length_front, skirt.length_side, skirt.length_back)
    if max(lengths) - min(lengths) < SAME:
        yield say("length"), skirt.length_side
    else:
        yield say("length at the front"), skirt.length_front
        yield say("length at the sides"), skirt.length_side
        yield say("length at the back"), skirt.length_back
    yield say("hem all round"), skirt.sweep
    if figures.opening is not None and figures.opening.zip is not None:
        yield say("zip"), figures.opening.zip
    elastic = figures.casing.elastic if figures.casing is not None else None
    if elastic is not None:
        yield say("elastic, about"), elastic
    yield from _under(pattern)


def _under(pattern: Pattern) -> Iterator[tuple[str, Mm]]:
    lining, ruffle = pattern.figures.lining, pattern.figures.ruffle
    if lining is not None:
        yield say("lining, length"), lining.length_side
        yield say("lining, hem all round"), lining.sweep
    if ruffle is not None:
        yield say("ruffle, depth"), ruffle.depth
        yield say("ruffle, flat length"), ruffle.flat_length


def seam_columns(pattern: Pattern) -> tuple[Column, ...]:
    """Return the seams that a reader measures on the printed pattern, with their true lengths."""
    printed = [piece.name for piece in on_paper(pattern)]
    return tuple(
        Column(name=seam.words, values=seam.lengths) for seam in check_seams(pattern, printed)
    )


def size_table(pattern: Pattern, columns: Sequence[Column], caption: str) -> Table:
    """Return measures as a table for reading: a row a size, both units in each cell."""
    units = pattern.spec.units
    return Table(
        caption=caption,
        heads=(say("size"), *(column.name for column in columns)),
        rows=tuple(
            (
                size_words(pattern, size),
                *(
                    "–" if (value := column.values[k]) is None else both(value, units)
                    for column in columns
                ),
            )
            for k, size in enumerate(sizes_of(pattern))
        ),
        figures=tuple(range(1, len(columns) + 1)),
    )


def sizes_sheet(pattern: Pattern) -> tuple[tuple[str, ...], ...]:
    """Return the rows of the size table for a spreadsheet, the heads first."""
    units = pattern.spec.units
    told = [*body_columns(pattern), *finished_columns(pattern)]
    return (
        (say("size"), *(f"{column.name} ({units.value})" for column in told)),
        *(
            (
                size_words(pattern, size),
                *(_number(column.values[k], units) for column in told),
            )
            for k, size in enumerate(sizes_of(pattern))
        ),
    )


def _number(value: Mm | None, units: Units) -> str:
    """Return a length as a bare number: centimetres to a tenth, inches to an eighth."""
    if value is None:
        return ""
    if units is Units.CM:
        return f"{value / 10:.1f}"
    return f"{round(value / MM_PER_INCH * EIGHTHS) / EIGHTHS:g}"


# --- cloth and notions ---------------------------------------------------------------------


def cloth_table(pattern: Pattern, shops: Sequence[Shopping]) -> Table:
    """Return how much of each cloth to buy: a row a size, a column a cloth, both units."""
    units = pattern.spec.units
    names = list(dict.fromkeys(one.name for shop in shops for one in shop.purchases))
    rows = []
    for size, shop in zip(sizes_of(pattern), shops, strict=True):
        bought = {one.name: one for one in shop.purchases}
        cells = (bought_words(bought[name], units) if name in bought else "–" for name in names)
        rows.append((size_words(pattern, size), *cells))
    return Table(
        caption=say("Cloth to buy, shrinking and squaring included"),
        heads=(say("size"), *(_cloth_head(pattern, name) for name in names)),
        rows=tuple(rows),
        figures=tuple(range(1, len(names) + 1)),
    )


def bought_words(one: Purchase, units: Units) -> str:
    """Return what to buy of a cloth as shops sell it, where metres and where yards are sold."""
    other = OTHER[units]
    return in_brackets(
        sold_text(rounded_up(one.needed, units), units),
        sold_text(rounded_up(one.needed, other), other),
    )


def _cloth_head(pattern: Pattern, name: str) -> str:
    cloth = getattr(pattern.spec.cloths, name)
    kind = kind_words(cloth.kind)
    wide = say("{width} wide", width=length_text(cloth.width, pattern.spec.units))
    return f"{cloth_words(name)}, {kind}, {wide}" if kind else f"{cloth_words(name)}, {wide}"


def notions_table(pattern: Pattern, shops: Sequence[Shopping]) -> Table | None:
    """Return what else to buy; where sizes need different amounts, each with its sizes."""
    every = list(dict.fromkeys(one.name for shop in shops for one in shop.notions))
    if not every:
        return None
    named = [size_words(pattern, size) for size in sizes_of(pattern)]
    rows = []
    for name in every:
        held = [_of_name(shop, name) for shop in shops]
        why = next(one.why for one in held if one is not None)
        amounts = ["–" if one is None else _amount(one, pattern.spec.units) for one in held]
        # Where amounts differ, so do the reasons: they hold the numbers of a size.
        rows.append((name, _by_size(named, amounts), why if len(set(amounts)) == 1 else ""))
    heads = (say("notion"), say("amount"), say("what for"))
    shown = len(heads) if any(row[-1] for row in rows) else len(heads) - 1
    return Table(
        caption=say("Notions"),
        heads=heads[:shown],
        rows=tuple(row[:shown] for row in rows),
    )


def _of_name(shop: Shopping, name: str) -> Notion | None:
    return next((one for one in shop.notions if one.name == name), None)


def _amount(one: Notion, units: Units) -> str:
    if one.measured is Measured.COUNT:
        return notion_text(one, units)
    return in_brackets(notion_text(one, units), notion_text(one, OTHER[units]))


def _by_size(named: Sequence[str], amounts: Sequence[str]) -> str:
    """Return the amount of all sizes, or each amount with the sizes that it is for."""
    if len(set(amounts)) == 1:
        return amounts[0]
    told = []
    for amount in dict.fromkeys(amounts):
        for_sizes = listed(
            [name for name, one in zip(named, amounts, strict=True) if one == amount]
        )
        told.append(say("{sizes}: {amount}", sizes=for_sizes, amount=amount))
    return "; ".join(told)


def cloth_sheet(pattern: Pattern, shops: Sequence[Shopping]) -> tuple[tuple[str, ...], ...]:
    """Return what to buy for a spreadsheet, the heads first: a row a size and thing."""
    units = pattern.spec.units
    metres = units is Units.CM
    rows = [
        (
            say("size"), say("cloth or notion"), say("kind"),
            say("width ({unit})", unit=units.value), say("amount"), say("unit"),
        )
    ]  # fmt: skip
    for size, shop in zip(sizes_of(pattern), shops, strict=True):
        named = size_words(pattern, size)
        for one in shop.purchases:
            sold = rounded_up(one.needed, units) / (METRE if metres else YARD)
            cloth = one.lay.cloth
            rows.append((
                named, cloth_words(one.name), kind_words(cloth.kind), _number(cloth.width, units),
                f"{sold:.1f}" if metres else f"{sold:g}", "m" if metres else "yd",
            ))  # fmt: skip
        for notion in shop.notions:
            amount, unit = _counted(notion, units)
            kind = say("about") if notion.about else ""
            rows.append((named, notion.name, kind, "", amount, unit))
    return tuple(rows)


def _counted(one: Notion, units: Units) -> tuple[str, str]:
    """Return a notion's amount as a bare number, and its unit."""
    if one.measured is Measured.COUNT:
        return f"{one.amount:.0f}", ""
    if one.measured is Measured.LENGTH:
        return _number(one.amount, units), units.value
    if units is Units.CM:
        return f"{one.amount:.1f}", "m"
    return f"{one.amount * METRE / YARD:.1f}", "yd"
