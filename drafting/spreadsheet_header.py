"""The first line of a CSV: what parts its cells, and which columns are known.

Imports the standard library, the errors and how they are told.
"""

import csv
import re
from dataclasses import dataclass, replace

from drafting.errors import Fault, SpreadsheetError, quoted
from drafting.sheet_told import did_you_mean, near
from drafting.spreadsheet_cells import clean
from drafting.spreadsheet_lines import refused

MOST_COLUMNS = 100

DELIMITERS = (";", "\t", ",")

_UNIT = re.compile(
    r"(?P<name>.+?)_*[(\[/,]?_*(?P<unit>mm|cm|m|in|inch|inches|ft|yd|\")_*[)\]]?", re.DOTALL
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """One column that is read.

    Attributes:
        name: its known name, such as ``waist_to_knee``.
        title: what the file calls it.
        at: its place in a row, from 0.
        unit: the unit that its title gives to bare numbers, or empty.
    """

    name: str
    title: str
    at: int
    unit: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Header:
    """The first line of a CSV.

    Attributes:
        width: how many cells it has, up to the last that is not empty.
        skipped: titles of the columns that are the reader's own.
    """

    columns: tuple[Column, ...]
    delimiter: str
    line: int
    width: int
    skipped: tuple[str, ...] = ()

    @property
    def names(self) -> tuple[str, ...]:
        """Known names of the columns, in the file's order."""
        return tuple(column.name for column in self.columns)


def header_of(
    line: str,
    delimiter: str,
    number: int,
    known: tuple[str, ...],
    measures: frozenset[str],
    name: str,
) -> Header:
    """Return the header that a line is; ``delimiter`` is empty where it is to be found out.

    Raises:
        SpreadsheetError: it names no columns, one not known here, or one twice.
    """
    ways = (delimiter,) if delimiter else DELIMITERS
    split = {way: titles for way in ways if (titles := _titles(line, way)) is not None}
    if not split:
        raise refused(
            name, "A quote in the first line is not closed.", "Take the quote out.", number
        )

    def sense(way: str) -> tuple[int, int]:
        return sum(bool(_named(t, known, measures)[0]) for t in split[way]), len(split[way])

    way = max(split, key=sense)
    titles = split[way]
    faults = _header_faults(titles, known, measures)
    if faults:
        raise SpreadsheetError(name, tuple(replace(fault, line=number) for fault in faults))
    columns = tuple(
        Column(name=found, title=title, at=at, unit=unit)
        for at, title in enumerate(titles)
        for found, unit in [_named(title, known, measures)]
        if found
    )
    return Header(
        columns=columns,
        delimiter=way,
        line=number,
        width=len(titles),
        skipped=tuple(title for title in titles if title and _is_own(title)),
    )


def _titles(line: str, delimiter: str) -> list[str] | None:
    """Return the cells of the first line up to the last with a title; None for a stray quote."""
    try:
        cells = next(csv.reader([line], delimiter=delimiter, strict=True))
    except csv.Error:
        return None
    return _without_empty_end([clean(cell) for cell in cells])


def _without_empty_end(cells: list[str]) -> list[str]:
    while cells and not cells[-1]:
        cells.pop()
    return cells


def _is_own(title: str) -> bool:
    return title.startswith("#") or title.lower().startswith("note")


def _named(title: str, known: tuple[str, ...], measures: frozenset[str]) -> tuple[str, str]:
    """Return the known name and the unit that a title stands for; empty where there is none."""
    plain = re.sub(r"[\s_-]+", "_", title.strip().lower())
    if plain in known:
        return plain, ""
    if (found := _UNIT.fullmatch(plain)) and found["name"] in measures:
        return found["name"], found["unit"]
    return "", ""


def _header_faults(
    titles: list[str], known: tuple[str, ...], measures: frozenset[str]
) -> list[Fault]:
    if len(titles) > MOST_COLUMNS:
        what = f"There are {len(titles)} columns."
        return [Fault(what=what, allowed=f"A table here has {MOST_COLUMNS} at most.")]
    names = [_named(title, known, measures)[0] for title in titles]
    listed = f"The columns are {', '.join(known)}."
    if not any(names):
        what = "This line names none of the columns known here."
        return [Fault(what=what, allowed=f"The first line names them. {listed}")]
    faults = []
    for at, (title, name) in enumerate(zip(titles, names, strict=True)):
        if not title or _is_own(title):
            continue
        if not name:
            nearest = near(re.sub(r"[\s_-]+", "_", title), known)
            what = f"The column {quoted(title)} is not known here. {did_you_mean(nearest)}"
            own = f'Put "#" before it if it is your own. {listed}'
            faults.append(Fault(what=what.strip(), allowed=own, given=title, nearest=nearest))
        elif name in names[:at]:
            what = f'The column "{name}" is there twice.'
            faults.append(Fault(what=what, allowed="Keep one of the two.", key=name))
    return faults
