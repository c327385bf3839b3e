"""A table as CSV that spreadsheets open as it is meant: no cell of it is ever reckoned.

UTF-8 with its mark, so that accents survive. Where the language writes a decimal comma, so do
the numbers, and cells are parted by semicolons, as spreadsheets of that language expect.
Imports the language.
"""

import csv
import io
import re
from collections.abc import Iterable, Sequence

from drafting.language import Language, decimal, spoken

RECKONED = ("=", "+", "-", "@", "\t", "\r")
"""What a cell begins with that a spreadsheet takes for a formula."""

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
    if _NUMBER.fullmatch(cell):
        return decimal(cell)
    plain = " ".join(cell.replace("\u00a0", " ").split())
    # Spreadsheets look past spaces at the front, and take full-width signs for plain ones.
    return f"'{plain}" if plain.translate(_WIDE).startswith(RECKONED) else plain


_WIDE = {ord(wide): plain for wide, plain in zip("＝＋－＠", "=+-@", strict=True)}
