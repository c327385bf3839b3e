"""What stands on the booklet's pages, and where each part of it may be divided.

Points. What is set is reportlab's, whose home is elsewhere.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any

from render.booklet.breaking import KEEP, Atom

ENDLESS = 1e6
"""A height that nothing has to fit."""

MID_PARAGRAPH = 0.12
"""Cost of a paragraph that goes on overleaf."""


@dataclass(slots=True, kw_only=True)
class Set:
    """Something set on the page: a paragraph, a table, a picture.

    Attributes:
        atoms: its parts, from the top; none of them is divided.
        drawn: returns what draws the parts from one to before another.
        indent: how far it stands in; ``wide`` is the room it has.
        key: of its place, if it is a heading.
    """

    atoms: list[Atom]
    drawn: Callable[[int, int], Any]
    indent: float
    wide: float
    key: str = ""

    def then(self, cost: float) -> None:
        """Give the break after it a cost."""
        self.atoms[-1] = replace(self.atoms[-1], cost=cost)


def whole(flowable: Any, indent: float, wide: float, *, shrinks: float = 0.0) -> Set:
    """Return what is never divided."""
    _, tall = flowable.wrap(wide, ENDLESS)
    atom = Atom(
        height=tall,
        before=flowable.getSpaceBefore(),
        after=flowable.getSpaceAfter(),
        shrinks=shrinks,
    )
    return Set(atoms=[atom], drawn=lambda _a, _b: flowable, indent=indent, wide=wide)


def lines(paragraph: Any, indent: float, wide: float) -> Set:
    """Return a paragraph that is divided between its lines, none of them left alone."""
    paragraph.wrap(wide, ENDLESS)
    count, leading = len(paragraph.blPara.lines), paragraph.style.leading
    runs = [count] if count < 4 else [2, *([1] * (count - 4)), 2]
    last = len(runs) - 1
    atoms = [
        Atom(
            height=many * leading,
            before=paragraph.getSpaceBefore() if k == 0 else 0.0,
            after=paragraph.getSpaceAfter() if k == last else 0.0,
            cost=0.0 if k == last else MID_PARAGRAPH,
            starts=k == 0,
        )
        for k, many in enumerate(runs)
    ]

    def drawn(start: int, stop: int) -> Any:
        return _cut(paragraph, wide, sum(runs[:start]), sum(runs[:stop]), count)

    return Set(atoms=atoms, drawn=drawn, indent=indent, wide=wide)


def _cut(paragraph: Any, wide: float, first: int, end: int, count: int) -> Any:
    """Return a paragraph's lines from one to before another as one of their own."""
    kept, leading = paragraph, paragraph.style.leading
    if end < count:
        kept = kept.split(wide, end * leading + 0.1)[0]
    if first:
        kept.wrap(wide, ENDLESS)
        kept = kept.split(wide, first * leading + 0.1)[1]
    return kept


def rows(
    table: Callable[[int, int], Any], indent: float, wide: float, *, heads: int, cost: float,
    more: float = 0.0,
) -> Set:  # fmt: skip
    """Return a table that is divided between its rows.

    Args:
        table: returns the table of the rows from one to before another, under its heads.
        heads: rows that are printed on every page.
        cost: of a break between two rows.
        more: height of what is drawn again above and below where it is divided.
    """
    all_of_it = table(0, -1)
    all_of_it.wrap(wide, ENDLESS)
    heights = list(all_of_it._rowHeights)
    again, own = sum(heights[:heads]), heights[heads:] or [0.0]
    last = len(own) - 1

    def between(k: int) -> float:
        """Return the cost of a break after a row: its first and last two stay together."""
        if k == last:
            return 0.0
        return KEEP if k == 0 or k == last - 1 else cost

    atoms = [
        Atom(
            height=tall + (again if k == 0 else 0.0),
            before=all_of_it.getSpaceBefore() if k == 0 else 0.0,
            after=all_of_it.getSpaceAfter() if k == last else 0.0,
            cost=between(k),
            starts=k == 0,
            again=again + more if k else 0.0,
        )
        for k, tall in enumerate(own)
    ]
    return Set(atoms=atoms, drawn=table, indent=indent, wide=wide)
