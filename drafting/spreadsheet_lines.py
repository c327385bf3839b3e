"""The bytes of a CSV as lines of text, a long one cut off before it takes memory.

Imports the standard library and the errors.
"""

import io
import re
from collections.abc import Iterator
from contextlib import suppress
from io import BufferedReader

from drafting.errors import Fault, SpreadsheetError

LONGEST_LINE = 20_000
"""Characters; the empty columns that a spreadsheet saves behind the last one have room in it."""

_SIGNS = {
    b"PK\x03\x04": "a workbook",
    b"\xd0\xcf\x11\xe0": "a workbook",
    b"%PDF": "a PDF",
}
"""How files begin that are taken for a CSV by mistake."""


_UNREAD = re.compile("[\udc80-\udcff]")
"""What stands for a byte that is not UTF-8."""


def text_lines(stream: BufferedReader, *, name: str = "table") -> Iterator[str]:
    """Yield the lines of a CSV file, ends and byte order mark taken off.

    Read as UTF-8, or as UTF-16 where it begins with a mark that says so. A line longer than
    ``LONGEST_LINE`` comes back cut off just beyond it, however long it is.

    Raises:
        SpreadsheetError: it is no text, or in another encoding.
    """
    start = stream.peek(4)[:4]
    for sign, kind in _SIGNS.items():
        if start.startswith(sign):
            raise refused(name, f"The file is {kind}, not a CSV.", "Save it as CSV (UTF-8).")
    utf_16 = start.startswith((b"\xff\xfe", b"\xfe\xff"))
    text = io.TextIOWrapper(
        stream,
        encoding="utf-16" if utf_16 else "utf-8-sig",
        errors="strict" if utf_16 else "surrogateescape",
        newline=None,
    )
    number = 0
    try:
        while line := text.readline(LONGEST_LINE + 1):
            number += 1
            if "\0" in line:
                what = "This line holds signs that are no text."
                raise refused(name, what, "Is it the right file?", number)
            if _UNREAD.search(line):
                raise _not_utf(8, name, number)
            rest = line
            while rest and not rest.endswith("\n"):
                rest = text.readline(LONGEST_LINE)
            yield line.removesuffix("\n")
    except UnicodeError:
        raise _not_utf(16, name, number + 1) from None
    finally:
        with suppress(ValueError):  # the file may be closed before its last line is drawn
            text.detach()


def refused(name: str, what: str, allowed: str, line: int = 0) -> SpreadsheetError:
    """Return the error of a file with one thing wrong."""
    return SpreadsheetError(name, (Fault(what=what, allowed=allowed, line=line),))


def _not_utf(bits: int, name: str, line: int) -> SpreadsheetError:
    what = f"This line holds letters that are not UTF-{bits}."
    return refused(name, what, 'Save the file again as "CSV UTF-8".', line)
