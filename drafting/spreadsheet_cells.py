"""Cells of a CSV: which a spreadsheet would work out, and how ours are written so that none is.

Imports the standard library alone.
"""

import csv
import io
import re
from collections.abc import Iterable

_FORMULA = ("=", "+", "-", "@", "＝", "＋", "－", "＠")
_NEGATIVE = re.compile(r"[-−]\s*[\d.,]")


def clean(cell: str) -> str:
    """Return a cell with one plain space for each run of white space, and none at its ends."""
    return " ".join(cell.replace("\ufeff", "").replace("\u200b", "").split())


def is_formula(cell: str) -> bool:
    """Return whether a spreadsheet would work a cell out; a negative number is none."""
    start = cell.lstrip()
    return start.startswith(_FORMULA) and not _NEGATIVE.match(start)


def neutral(text: str) -> str:
    """Return text for a cell of a CSV that no spreadsheet takes for a formula.

    One that would be is led by an apostrophe; every run of white space becomes one space.
    """
    plain = clean(text)
    return f"'{plain}" if plain.startswith(_FORMULA) else plain


def csv_line(cells: Iterable[str | float | None], delimiter: str = ",") -> str:
    """Return one line of a CSV, its end included: numbers as they are, text made neutral.

    Where semicolons part the cells a comma is the decimal mark, as where such files come from.
    None is an empty cell.
    """
    out = io.StringIO()
    csv.writer(out, delimiter=delimiter, lineterminator="\r\n").writerow(
        [_written(cell, delimiter) for cell in cells]
    )
    return out.getvalue()


def _written(cell: str | float | None, delimiter: str) -> str:
    if cell is None:
        return ""
    if isinstance(cell, str):
        return neutral(cell)
    return str(cell).replace(".", ",") if delimiter == ";" else str(cell)
