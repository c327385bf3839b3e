"""A table as CSV that spreadsheets open as it is meant: no cell of it is ever reckoned.

UTF-8 with its mark, so that accents survive. Where the language writes a decimal comma, so do
the numbers, and cells are parted by semicolons, as spreadsheets of that language expect.
Imports the language and how cells are made harmless.
"""

import csv
import io
import re
from collections.abc import Iterable, Sequence

from drafting.language import Language, decimal, spoken
from drafting.spreadsheet_cells import neutral

_NUMBER = re.compile(r"-?\d+(\.\d+)?")


def csv_bytes(rows: Iterable[Sequence[str]]) -> bytes:
    """Return rows as the bytes of a CSV file in the language spoken."""
    out = io.StringIO()
    between = "," if spoken() is Language.ENGLISH else ";"
    writer = csv.writer(out, delimiter=between, lineterminator="\r\n")
    for row in rows:
        writer.writerow([harmless(cell) for cell in row])
    return out.getvalue().encode("utf-8-sig")


def harmless(cell: str) -> str:
    """Return a cell that no spreadsheet reckons: a number as it is written, other words as text."""
    return decimal(cell) if _NUMBER.fullmatch(cell) else neutral(cell)
