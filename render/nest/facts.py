"""What the sizes of a garment measure, as a table, and what the cut list says of them.

Words and lengths in the language and units of the sheet. Imports drafting's values.
"""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass

from drafting.figures import Figures
from drafting.language import listed, say
from drafting.pattern import Pattern
from drafting.units import Mm, length_text


@dataclass(frozen=True, slots=True, kw_only=True)
class SizedRow:
    """One measure in every size.

    Attributes:
        name: what is measured, said.
        lengths: in millimetres, the smallest size first; None where a size has no such measure.
    """

    name: str
    lengths: tuple[Mm | None, ...]


def body_rows(pattern: Pattern) -> tuple[SizedRow, ...]:
    """Return the measures of the bodies that the sizes are drafted for."""
    bodies = [one.spec.wearer for one in pattern.sizes]
    return (
        SizedRow(name=say("waist of the body"), lengths=tuple(body.waist for body in bodies)),
        SizedRow(name=say("hip of the body"), lengths=tuple(body.hip for body in bodies)),
    )


def finished_rows(pattern: Pattern) -> tuple[SizedRow, ...]:
    """Return the finished measures of the garment, those that it has."""
    named: tuple[tuple[str, Callable[[Figures], Mm | None]], ...] = (
        (say("waist seam"), lambda f: f.skirt.waistline),
        (say("length at the side"), lambda f: f.skirt.length_side),
        (say("hem all round"), lambda f: f.skirt.sweep),
        (say("lining, hem all round"), lambda f: f.lining.sweep if f.lining else None),
        (say("ruffle's line"), lambda f: f.ruffle.line_length if f.ruffle else None),
        (say("opening"), lambda f: f.opening.length if f.opening else None),
        (say("zip"), lambda f: f.opening.zip if f.opening else None),
    )
    rows = (
        SizedRow(name=name, lengths=tuple(of(one.figures) for one in pattern.sizes))
        for name, of in named
    )
    return tuple(row for row in rows if any(row.lengths))


def cells(row: SizedRow, pattern: Pattern) -> tuple[str, ...]:
    """Return the lengths of a row as they are shown, a dash for none."""
    units = pattern.spec.units
    return tuple("–" if long is None else length_text(long, units) for long in row.lengths)


def by_size(rows: Mapping[str, str], *, most: int | None = None) -> Iterator[str]:
    """Yield a line that all sizes have once; else each wording with the sizes that it holds for.

    Args:
        rows: the line of each size, the smallest first; empty for none.
        most: where sizes have more wordings than this, none is told.
    """
    wordings: dict[str, list[str]] = {}
    for size, words in rows.items():
        wordings.setdefault(words, []).append(size)
    if len(wordings) == 1:
        yield next(iter(wordings))
        return
    if most is not None and len(wordings) > most:
        return
    for words, sizes in wordings.items():
        if words:
            yield say("{sizes}: {words}", sizes=listed(sizes), words=words)
