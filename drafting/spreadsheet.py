"""CSV as spreadsheets save it: lines of text in, rows of named cells out.

Cells stay text, each run of white space one space. Rows are handed on one by one, so that a
long file takes no more memory than a short one. Its first line is read in
``spreadsheet_header``, bytes become lines in ``spreadsheet_lines``, and a CSV of ours is
written with ``spreadsheet_cells``.
"""

import csv
import re
from collections import deque
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass

from drafting.errors import Fault, quoted
from drafting.spreadsheet_cells import clean, is_formula
from drafting.spreadsheet_header import MOST_COLUMNS, Column, Header, header_of
from drafting.spreadsheet_lines import LONGEST_LINE, refused

LONGEST_CELL = 1_000

MOST_LINES = 20
"""Lines that one row may run over, by line breaks within quotes."""

_SEP_LINE = re.compile(r'"?sep=(.)"?', re.IGNORECASE)
_BARE = re.compile(r"[\d\s.,/½¼¾⅛⅜⅝⅞⅓⅔⁄]+")
_ERROR_VALUE = re.compile(r"#(?:[A-Z]+[/0-9A-Z]*[!?]?|#+)|#+")


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One row; its cells by column, those left empty not among them.

    Attributes:
        line: line of the file that it begins on, from 1: the spreadsheet's row number.
        faults: what is wrong with it, the column as key; cells at fault are left out.
    """

    line: int
    cells: Mapping[str, str]
    faults: tuple[Fault, ...] = ()


def read(
    lines: Iterable[str],
    *,
    known: tuple[str, ...],
    measures: Collection[str] = (),
    name: str = "table",
) -> tuple[Header, Iterator[Row]]:
    """Return the header of a CSV and an iterator of its rows; empty lines are passed over.

    Titles are known whatever their case, with spaces or hyphens for underscores, a measure's
    with its unit behind it, as in ``Waist (cm)``. Columns without a title, or whose title
    begins with ``#`` or ``note``, are the reader's own and skipped.

    Args:
        lines: lines without their ends.
        known: names of the columns that there may be.
        measures: those of them that hold lengths, where formulas are faults.
        name: how the file is called in messages.

    Raises:
        SpreadsheetError: the first line that is not empty names no columns, a column not known
            here, or one twice; or it is too long.
    """
    feed = _Feed(iter(lines))
    header = _header(feed, known, frozenset(measures), name)
    return header, _rows(feed, header, frozenset(measures))


class _Feed:
    """Lines as the csv module draws them, those of the row now read kept to go back to."""

    def __init__(self, lines: Iterator[str]) -> None:
        self._lines = lines
        self._again: deque[str] = deque()
        self.row: list[str] = []
        self.number = 0

    def __iter__(self) -> "_Feed":
        return self

    def __next__(self) -> str:
        if len(self.row) == MOST_LINES:
            raise csv.Error
        line = self._again.popleft() if self._again else next(self._lines)
        self.number += 1
        self.row.append(line)
        if len(line) > LONGEST_LINE:
            raise _TooLongError
        return line + "\n"

    def back_to_second(self) -> None:
        """Read all but the first line of this row again: a stray quote swallows no other row."""
        self._again.extendleft(reversed(self.row[1:]))
        self.number -= len(self.row) - 1


class _TooLongError(Exception):
    """A line is longer than any row of measures."""


def _next_cells(feed: _Feed, delimiter: str) -> list[str]:
    """Return the cells of the next row, one space for each run of white space in them.

    Raises:
        StopIteration: there is no other row.
        csv.Error: a quote is not closed.
        _TooLongError: a line is too long.
    """
    feed.row = []
    reader = csv.reader(feed, delimiter=delimiter, strict=True)
    return [clean(cell) for cell in next(reader)]


def _header(feed: _Feed, known: tuple[str, ...], measures: frozenset[str], name: str) -> Header:
    delimiter = ""
    for line in _lines_for_header(feed, name):
        if sep := _SEP_LINE.fullmatch(line.strip()):
            delimiter = sep[1]
        elif line.strip(' \t;,"'):
            return header_of(line, delimiter, feed.number, known, measures, name)
    raise refused(
        name,
        "The file is empty.",
        f"Its first line names the columns, such as {'; '.join(known[:3])}.",
    )


def _lines_for_header(feed: _Feed, name: str) -> Iterator[str]:
    while True:
        feed.row = []
        try:
            yield next(feed).removesuffix("\n").lstrip("\ufeff")
        except StopIteration:
            return
        except _TooLongError:
            raise refused(
                name,
                f"The line is longer than {LONGEST_LINE} characters.",
                f"A table here has {MOST_COLUMNS} columns at most. Is it the right file?",
                feed.number,
            ) from None


def _rows(feed: _Feed, header: Header, measures: frozenset[str]) -> Iterator[Row]:
    while True:
        begins = feed.number + 1
        try:
            cells = _next_cells(feed, header.delimiter)
        except StopIteration:
            return
        except _TooLongError:
            what = f"Line {feed.number} is longer than {LONGEST_LINE} characters."
            if len(feed.row) > 1:
                feed.back_to_second()
            yield Row(line=begins, cells={}, faults=(Fault(what=what, line=begins),))
        except csv.Error:
            feed.back_to_second()
            yield Row(line=begins, cells={}, faults=(_stray_quote(begins),))
        else:
            if any(cells):
                yield _row(cells, begins, header, measures)


def _stray_quote(line: int) -> Fault:
    return Fault(
        what="A quote that opens a cell of this row is not closed.",
        allowed='Take it out; an inch mark stands behind its number: 27 1/2".',
        line=line,
    )


def _row(cells: list[str], line: int, header: Header, measures: frozenset[str]) -> Row:
    faults = list(_strays(cells, line, header))
    found = {}
    for column in header.columns:
        cell = cells[column.at] if column.at < len(cells) else ""
        if not cell:
            continue
        fault = _cell_fault(cell, column, line, is_measure=column.name in measures)
        if fault is not None:
            faults.append(fault)
        elif column.unit and _BARE.fullmatch(cell):
            found[column.name] = f"{cell} {column.unit}"
        else:
            found[column.name] = cell
    return Row(line=line, cells=found, faults=tuple(faults))


def _strays(cells: list[str], line: int, header: Header) -> Iterator[Fault]:
    """Yield what stands beyond the last column that has a title."""
    beyond = [cell for cell in cells[header.width :] if cell]
    if not beyond:
        return
    allowed = "Give the column a title, or empty it."
    if header.delimiter == ",":
        allowed = 'Was 74,5 meant? Where commas part the cells, write "74,5" in quotes, or 74.5.'
    what = f"The row goes on beyond the last column, with {quoted(beyond[0])}."
    yield Fault(what=what, allowed=allowed, given=beyond[0], line=line)


def _cell_fault(cell: str, column: Column, line: int, *, is_measure: bool) -> Fault | None:
    what = allowed = ""
    if len(cell) > LONGEST_CELL:
        what = f"{column.name} is {len(cell)} characters long."
        allowed = f"A cell holds {LONGEST_CELL} at most."
    elif is_measure and _ERROR_VALUE.fullmatch(cell):
        what = f"{column.name} is {quoted(cell)}, which is no measure but a spreadsheet's fault."
        allowed = "Mend the formula, or widen the column, and save again."
    elif is_measure and is_formula(cell):
        what = f"{column.name} is {quoted(cell)}, which is a formula and not a measure."
        allowed = "Save the values, not the formulas."
    if not what:
        return None
    return Fault(what=what, allowed=allowed, key=column.name, given=cell, line=line)
