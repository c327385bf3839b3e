"""A batch told in a few plain lines: how many rows, and what to buy for all.

Imports the summary.
"""

from collections.abc import Iterator

from drafting.units import Units, length_text
from render.batch.summary import CSV, TO_BUY, Summary, notion_amount, sold
from render.batch.writing import BatchOutput


def batch_text(output: BatchOutput) -> str:
    """Return what came of a batch, for the end of the command."""
    return "\n".join(_lines(output))


def _lines(output: BatchOutput) -> Iterator[str]:
    kept = f", {output.kept} of them before" if output.kept else ""
    yield f"{output.drafted} of {output.rows} rows drafted{kept}; {output.faulty} at fault"
    if output.summary.pages:
        pages = ", ".join(f"{name} {count}" for name, count in sorted(output.summary.pages.items()))
        yield f"pages in all: {pages}"
    if output.drafted:
        yield ""
        yield from _to_buy(output.summary)
    if output.left:
        yield ""
        yield f"still there from earlier runs, and not drafted now: {', '.join(output.left)}"
    yield ""
    yield f"{output.folder / CSV}, row by row; {output.folder / TO_BUY}, what to buy"


def _to_buy(summary: Summary) -> Iterator[str]:
    units = summary.units
    yield (
        "To buy for all, an estimate from rows without a lay plan:"
        if summary.estimated
        else "To buy for all, one garment's lay behind the other:"
    )
    for cloth in summary.for_all.cloths_in_order():
        what = ", ".join(part for part in (cloth.words, cloth.kind) if part)
        wide = length_text(cloth.width, units)
        line = f"  {what}, {wide} wide: {_length(cloth.buy(units), units)}"
        if cloth.have is not None:
            line += f" ({_length(cloth.have, units)} at hand)"
        if (cost := cloth.cost(units)) is not None:
            line += f", {cost:.2f}"
        yield line
    for notion in summary.for_all.notions_in_order():
        amount, unit = notion_amount(notion.measured, notion.amount, units)
        about = "about " if notion.about else ""
        if notion.each is not None:
            yield f"  {notion.name}, {length_text(notion.each, units)}: {amount:g}"
        elif unit == "pieces":
            yield f"  {notion.name}: {about}{amount:g}"
        else:
            yield f"  {notion.name}: {about}{amount:.1f} {unit}"
    if (cost := summary.for_all.cost(units)) is not None:
        yield f"  all priced cloth: {cost:.2f}"


def _length(length: float, units: Units) -> str:
    unit = "m" if units is Units.CM else "yd"
    return f"{sold(length, units):g} {unit}"
