"""A size table of the sheet's own: the CSV that ``size_table`` names, read and checked.

Millimetres. Opens no file itself: whoever reads the sheet hands on a way to read what lies
beside it. What sizes may be is in ``size_table_checks``.
"""

import io
import re
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path, PurePosixPath
from typing import Any, TypeAlias, cast

from drafting.errors import Fault, LengthError, SheetError, quoted
from drafting.measurements import NAMES
from drafting.sheet_told import Context, shown
from drafting.size_table_checks import Line, line_faults, table_faults
from drafting.sizes import MEASURES, Size, SizeTable
from drafting.spec import Figure
from drafting.spreadsheet import Row, read
from drafting.spreadsheet_lines import text_lines
from drafting.units import Mm, Units, to_mm

KEY = "size_table"

COLUMNS = ("size", *MEASURES, "height")

MOST_BYTES = 200_000
"""Far more than a hundred sizes; a file of another kind is not read to its end."""

MOST_SIZES = 100

_EXAMPLE = 'size_table = "our-sizes.csv"'

Beside: TypeAlias = Callable[[str], bytes]
"""A way to read a file beside the sheet by its relative path; raises OSError."""


# --- which file --------------------------------------------------------------------------------


def own_table(
    tables: Mapping[str, Any], beside: Beside | None, context: Context
) -> SizeTable | None:
    """Return the size table that a sheet's tables name, or None for a sheet that names none.

    Args:
        beside: a way to read a file beside the sheet, or None where there is no such way.
        context: how numbers of the sheet are read and told.

    Raises:
        KeyFault: the key itself is at fault: it is no such path, or nothing can be read there.
        SheetError: the table has faults; all are told.
    """
    if KEY not in tables:
        return None
    path = _path(tables[KEY])
    if beside is None:
        raise KeyFault(
            f"size_table names {quoted(path)}, and this sheet was handed over as text alone.",
            "Read the sheet from its file, where the table lies beside it, or hand over a way to"
            " read it.",
            path,
        )
    try:
        data = beside(path)
    except OSError as error:
        raise KeyFault(
            f"size_table names {quoted(path)}, {_reason(error)}.",
            "The path leads from the folder that the sheet lies in.",
            path,
        ) from None
    # Units that are misspelt are the sheet's fault, and told there.
    bare = context.shown if context.unsure else context.bare
    return read_size_table(data, name=path, figure=_figure(tables), bare=bare, units=context.shown)


class KeyFault(Exception):  # noqa: N818 - what it carries is a fault of the sheet
    """The sheet's ``size_table`` leads to no table."""

    def __init__(self, what: str, allowed: str, given: str) -> None:
        super().__init__(what)
        self.fault = Fault(what=what, allowed=allowed, key=KEY, given=given)


def _reason(error: OSError) -> str:
    return {
        "FileNotFoundError": "and there is no such file beside the sheet",
        "IsADirectoryError": "which is a folder",
        "NotADirectoryError": "and there is no such file beside the sheet",
        "PermissionError": "which you may not read",
    }.get(type(error).__name__, "which cannot be read")


_PART = re.compile(r"[^\\/:*?\"<>|~\x00-\x1f\x7f][^\\/:*?\"<>|\x00-\x1f\x7f]*")


def _path(value: object) -> str:
    """Return the path that a sheet gives, once it is sure to lead nowhere but beside it.

    Sheets come from the net: one must not make a program read what lies elsewhere. So a path
    names a CSV in the sheet's own folder or in one below it.
    """
    if not isinstance(value, str) or not value.strip():
        raise KeyFault(
            f"size_table is {shown(value)}, and a file beside the sheet is wanted.",
            f"Write {_EXAMPLE}.",
            shown(value),
        )
    given = value.strip()
    path = PurePosixPath(given)
    if len(given) > 200 or not all(map(_PART.fullmatch, path.parts)):
        what = f"size_table is {quoted(given)}, which is no plain path beside the sheet."
    elif ".." in path.parts:
        what = f"size_table is {quoted(given)}, which leads out of the sheet's folder."
    elif path.suffix.lower() != ".csv":
        what = f"size_table is {quoted(given)}, which is no CSV by its name."
    else:
        return path.as_posix()
    allowed = (
        "It is a CSV in the sheet's folder, or in a folder within that, with / between them:"
        f" {_EXAMPLE}."
    )
    raise KeyFault(what, allowed, given)


def _figure(tables: Mapping[str, Any]) -> Figure:
    wearer = tables.get("wearer")
    word = wearer.get("figure") if isinstance(wearer, Mapping) else None
    child = isinstance(word, str) and word.strip().lower() == Figure.CHILD.value
    return Figure.CHILD if child else Figure.ADULT


# --- what stands in it -------------------------------------------------------------------------


def read_size_table(
    data: bytes,
    *,
    name: str,
    figure: Figure = Figure.ADULT,
    bare: Units | None = None,
    units: Units = Units.CM,
) -> SizeTable:
    """Return the size table in a CSV's bytes.

    Args:
        name: how the file is called.
        figure: whose sizes they are, for what they may measure.
        bare: what a number without a unit means, or None to refuse it.
        units: in which lengths are told.

    Raises:
        SheetError: it has faults; all are told, with line and column.
    """
    if len(data) > MOST_BYTES:
        what = f"The file is over {MOST_BYTES // 1000} kB, far more than a size table holds."
        raise SheetError(name, (Fault(what=what, allowed="Is it the right file?"),))
    stream = cast("io.BufferedReader", io.BufferedReader(io.BytesIO(data)))
    header, rows = read(
        text_lines(stream, name=name), known=COLUMNS, measures=(*MEASURES, "height"), name=name
    )
    if lacking := [column for column in COLUMNS[:-1] if column not in header.names]:
        raise SheetError(name, (_lacking(lacking, header.line),))
    faults: list[Fault] = []
    lines = [_line(row, "height" in header.names, bare, faults) for row in _first(rows, faults)]
    for line in lines:
        faults += line_faults(line, figure, units)
    faults += table_faults(lines, figure, units, whole=not faults)
    if faults:
        raise SheetError(name, tuple(sorted(faults, key=lambda fault: fault.line)))
    return SizeTable(
        file=name, sizes=tuple(Size(name=line.name, **line.measures) for line in lines)
    )


def load_size_table(path: Path, *, figure: Figure, units: Units) -> SizeTable:
    """Return the size table in a file, bare numbers read in ``units``.

    Raises:
        OSError: the file cannot be read.
        SheetError: it has faults; all are told.
    """
    with path.open("rb") as file:
        data = file.read(MOST_BYTES + 1)
    return read_size_table(data, name=path.name, figure=figure, bare=units, units=units)


def _lacking(columns: list[str], line: int) -> Fault:
    several = len(columns) > 1
    names = f"{', '.join(columns[:-1])} and {columns[-1]}" if several else columns[0]
    what = f"There {'are no columns' if several else 'is no column'} {names}."
    allowed = f"The first line names {', '.join(COLUMNS[:-1])}, and height if you know it."
    return Fault(what=what, allowed=allowed, key=columns[0], line=line)


def _first(rows: Iterator[Row], faults: list[Fault]) -> Iterator[Row]:
    for count, row in enumerate(rows):
        if count == MOST_SIZES:
            what = f"There are more than {MOST_SIZES} sizes."
            faults.append(Fault(what=what, allowed="Is it the right file?", line=row.line))
            return
        yield row


def _line(row: Row, with_height: bool, bare: Units | None, faults: list[Fault]) -> Line:
    """Return a row with its cells read, those that cannot be left out and told of."""
    faults += row.faults
    told = {fault.key for fault in row.faults}
    found: dict[str, Mm] = {}
    for column in (*MEASURES, "height") if with_height else MEASURES:
        cell = row.cells.get(column)
        if cell is None:
            if column not in told:
                what, allowed = f"{column} is empty.", f"Write the {NAMES[column]} of every size."
                faults.append(Fault(what=what, allowed=allowed, key=column, line=row.line))
            continue
        try:
            found[column] = to_mm(cell, bare)
        except LengthError as error:
            faults.append(_no_length(column, cell, error.reason, row.line))
    name = row.cells.get("size", "")
    return Line(line=row.line, name=name, measures=found, named="size" not in told)


def _no_length(column: str, cell: str, reason: str, line: int) -> Fault:
    what = f"{column} is {quoted(cell)}: {reason}."
    allowed = ""
    if "no unit" in reason:
        what = f"{column} is {quoted(cell)}, a number without a unit."
        allowed = f'Head the column "{column} (cm)" or "{column} (in)", or give the sheet units.'
    return Fault(what=what, allowed=allowed, key=column, given=cell, line=line)
