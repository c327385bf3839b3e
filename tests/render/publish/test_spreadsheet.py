"""CSV that every spreadsheet opens alike, and in which nothing is reckoned."""

import csv
import io

import pytest

from drafting.language import speaking
from render.publish.spreadsheet import csv_bytes, harmless


@pytest.mark.parametrize(
    ("cell", "written"),
    [
        ("=1+1", "'=1+1"),
        ('=HYPERLINK("x")', '\'=HYPERLINK("x")'),
        ("+44 1", "'+44 1"),
        ("-", "'-"),
        ("@sum", "'@sum"),
        ("  =1", "'=1"),
        ("\t=1", "'=1"),
        ("＝1", "'＝1"),
        ("-3.5", "-3.5"),
        ("74.0", "74.0"),
        ("29⅛\u00a0in", "29⅛ in"),
        ("two\r\nlines", "two lines"),
        ("", ""),
    ],
)
def test_no_cell_is_reckoned(cell: str, written: str) -> None:
    assert harmless(cell) == written


def test_every_cell_comes_back_as_it_was() -> None:
    rows = [["size", 'zip "long"'], ["Chorus, tall", "30.0"]]
    told = csv_bytes(rows)
    assert told.startswith(b"\xef\xbb\xbf")
    assert list(csv.reader(io.StringIO(told.decode("utf-8-sig")))) == rows


def test_a_language_with_a_decimal_comma_parts_cells_by_semicolons() -> None:
    with speaking("de"):
        told = csv_bytes([["Größe", "30.5"]]).decode("utf-8-sig")
    assert told == "Größe;30,5\r\n"
