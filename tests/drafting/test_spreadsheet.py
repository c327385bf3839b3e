"""CSV as spreadsheets save it: every habit is read, every slip told with its row and column."""

import csv
import io
import tracemalloc
from collections.abc import Iterable, Iterator

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drafting.errors import DraftingError, SpreadsheetError
from drafting.spreadsheet import Row, read
from drafting.spreadsheet_cells import csv_line, is_formula, neutral
from drafting.spreadsheet_header import Header
from drafting.spreadsheet_lines import LONGEST_LINE, text_lines

KNOWN = ("label", "size", "waist", "hip", "waist_to_knee")
MEASURES = ("waist", "hip", "waist_to_knee")


def table(text: str | Iterable[str]) -> tuple[Header, list[Row]]:
    lines = text.split("\n") if isinstance(text, str) else text
    header, rows = read(lines, known=KNOWN, measures=MEASURES, name="chorus.csv")
    return header, list(rows)


def cells(text: str) -> list[dict[str, str]]:
    found = table(text)[1]
    assert all(not row.faults for row in found), found
    return [dict(row.cells) for row in found]


def lines_of(data: bytes) -> list[str]:
    return list(text_lines(io.BufferedReader(io.BytesIO(data)), name="chorus.csv"))


def refusal(text: str | Iterable[str]) -> str:
    with pytest.raises(SpreadsheetError) as raised:
        table(text)
    assert isinstance(raised.value, DraftingError)
    return str(raised.value)


@pytest.mark.parametrize(
    "text",
    [
        "label;waist\nRail, left;74,5",
        'label,waist\n"Rail, left","74,5"',
        "label\twaist\nRail, left\t74,5",
        "sep=;\nlabel;waist\nRail, left;74,5",
        '"sep=|"\nlabel|waist\nRail, left|74,5',
        "\ufeffLabel ; Waist \n\xa0Rail,\u202fleft ; 74,5\xa0",
        '"label";"waist";;;;\n"Rail,\nleft";"74,5";;;;\n;;;;;\n\n',
        "\n;;\nlabel;waist\nRail, left;74,5",
    ],
)
def test_every_way_a_spreadsheet_saves_one_row_is_read_alike(text: str) -> None:
    assert cells(text) == [{"label": "Rail, left", "waist": "74,5"}]


def test_a_row_carries_the_number_that_the_spreadsheet_shows() -> None:
    _, rows = table('label;waist\nA;70\n\n;\n"B\nb";71\nC;72')
    assert [(row.line, row.cells["label"]) for row in rows] == [(2, "A"), (5, "B b"), (7, "C")]


def test_titles_are_known_whatever_their_case_and_hyphens() -> None:
    assert table("LABEL;Waist to Knee")[0].names == ("label", "waist_to_knee")
    assert table("Waist-To-Knee;hip")[0].names == ("waist_to_knee", "hip")


@pytest.mark.parametrize("title", ["Waist (cm)", "waist cm", "waist [cm]", "waist/cm", "waist_cm"])
def test_a_unit_in_a_title_is_meant_for_bare_numbers_alone(title: str) -> None:
    assert cells(f"{title};hip\n74,5;100\n29 in;40 in") == [
        {"waist": "74,5 cm", "hip": "100"},
        {"waist": "29 in", "hip": "40 in"},
    ]


def test_an_inch_mark_behind_its_number_opens_no_quote() -> None:
    assert cells('waist,hip\n27 1/2",36"\n28½,37') == [
        {"waist": '27 1/2"', "hip": '36"'},
        {"waist": "28½", "hip": "37"},
    ]


def test_the_readers_own_columns_are_skipped() -> None:
    header, rows = table("# locker;label;Notes;note 2;waist\n=1+1;A;@x;y;70")
    assert header.skipped == ("# locker", "Notes", "note 2")
    assert rows[0].cells == {"label": "A", "waist": "70"}
    assert not rows[0].faults


def test_a_column_not_known_is_refused_with_the_nearest() -> None:
    told = refusal("label;waits;size")
    assert 'line 1: The column "waits" is not known here. Did you mean "waist"?' in told


def test_all_faults_of_a_header_are_told_at_once() -> None:
    told = refusal("waits;label;label;chest").splitlines()
    assert len(told) == 3
    assert 'The column "label" is there twice.' in told[1]


@pytest.mark.parametrize("text", ["", "\n\n", ";;;\n,,,", "sep=;"])
def test_an_empty_file_is_told_so(text: str) -> None:
    assert "chorus.csv: The file is empty." in refusal(text)


def test_a_file_without_titles_is_told_so() -> None:
    assert "line 1: This line names none of the columns" in refusal("Rail, left;74,5;100")


def test_a_header_alone_has_no_rows() -> None:
    assert table("label;waist\n\n;;\n")[1] == []


@pytest.mark.parametrize(
    "cell", ["=1+1", "@x", "+cmd|' /C calc'!A0", "-cmd", "＝1", "=HYPERLINK()"]
)
def test_a_formula_is_a_fault_for_a_measure_and_text_for_a_label(cell: str) -> None:
    _, rows = table(f"label;waist;hip\n{cell};{cell};100")
    assert rows[0].cells == {"label": cell, "hip": "100"}
    (fault,) = rows[0].faults
    assert (fault.key, fault.line, fault.given) == ("waist", 2, cell)
    assert "a formula and not a measure" in fault.what


@pytest.mark.parametrize("cell", ["#REF!", "#DIV/0!", "#NAME?", "#N/A", "########"])
def test_a_spreadsheets_own_fault_is_named(cell: str) -> None:
    (fault,) = table(f"waist\n{cell}")[1][0].faults
    assert "a spreadsheet's fault" in fault.what


def test_an_unquoted_decimal_comma_among_commas_is_named() -> None:
    _, rows = table("label,waist\nA,74,5\nB,70")
    assert 'write "74,5" in quotes' in rows[0].faults[0].allowed
    assert not rows[1].faults


def test_a_stray_quote_costs_one_row_alone() -> None:
    many = "\n".join(f"C{n};{60 + n}" for n in range(40))
    _, rows = table(f'label;waist\nA;70\n"B;71\n{many}')
    assert [row.line for row in rows if row.faults] == [3]
    assert "not closed" in rows[1].faults[0].what
    assert [row.cells["label"] for row in rows[2:]] == [f"C{n}" for n in range(40)]
    assert [row.line for row in rows[2:]] == list(range(4, 44))


def test_a_quote_that_another_row_seems_to_close_costs_one_row_alone() -> None:
    _, rows = table('label;waist\n"A;70\n"B, left";71\nC;72')
    assert [(row.line, bool(row.faults)) for row in rows] == [(2, True), (3, False), (4, False)]


def test_a_million_columns_are_refused_at_once_and_without_memory() -> None:
    def data() -> io.BufferedReader:
        return io.BufferedReader(io.BytesIO(b"waist" + b";waist" * 1_000_000))

    stream = data()
    tracemalloc.start()
    with pytest.raises(SpreadsheetError, match=f"line 1: The line is longer than {LONGEST_LINE}"):
        read(text_lines(stream), known=KNOWN)
    most = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    assert most < 2_000_000


def test_more_columns_than_a_table_has_are_counted() -> None:
    assert "There are 101 columns." in refusal(";".join(f"c{n}" for n in range(101)))


def test_empty_columns_without_end_are_none() -> None:
    assert table("waist" + ";" * 16_384 + "\n70" + ";" * 16_384)[1][0].cells == {"waist": "70"}


def test_a_row_as_long_as_a_book_costs_one_row_alone() -> None:
    long = ";1" * LONGEST_LINE
    _, rows = table(f'waist\n70{long}\n71\n"72\n{long}\n73')
    assert [(row.line, bool(row.faults)) for row in rows] == [
        (2, True), (3, False), (4, True), (5, True), (6, False),
    ]  # fmt: skip


def test_a_cell_as_long_as_a_page_is_a_fault() -> None:
    _, rows = table(f"label;waist\n{'x' * 1001};70")
    assert rows[0].faults[0].key == "label"
    assert rows[0].cells == {"waist": "70"}


def test_memory_grows_neither_with_rows_nor_behind_a_stray_quote() -> None:
    def lines(count: int) -> Iterator[str]:
        yield "label;waist"
        yield '"A stray quote;70'
        for at in range(count):
            yield f"Wearer {at};{60 + at % 40},5"

    def most(count: int) -> int:
        tracemalloc.start()
        _, rows = read(lines(count), known=KNOWN, measures=MEASURES)
        assert sum(1 for _ in rows) == count + 1
        found = tracemalloc.get_traced_memory()[1]
        tracemalloc.stop()
        return found

    most(10)
    assert most(5000) < most(50) + 20_000


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le-bom"])
def test_what_spreadsheets_write_is_read(encoding: str) -> None:
    text = "label;waist\r\nBühne links;74,5\r\nJétée;70\r\n"
    data = (
        b"\xff\xfe" + text.encode("utf-16-le")
        if encoding == "utf-16-le-bom"
        else text.encode(encoding)
    )
    assert lines_of(data) == ["label;waist", "Bühne links;74,5", "Jétée;70"]


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_lines_end_as_they_end_on_any_machine(end: str) -> None:
    assert lines_of(end.join(("waist", "70", "71")).encode()) == ["waist", "70", "71"]


def test_other_letters_are_refused_with_their_line() -> None:
    data = "label;waist\nA;70\nBühne;71\n".encode("cp1252")
    with pytest.raises(SpreadsheetError, match=r"chorus.csv, line 3: .* not UTF-8"):
        lines_of(data)
    with pytest.raises(SpreadsheetError, match="no text"):
        lines_of("label;waist\nA;70".encode("utf-16-le"))
    with pytest.raises(SpreadsheetError, match="not UTF-16"):
        lines_of("label;waist\nA;70".encode("utf-16")[:-1])


def test_a_workbook_is_told_what_it_is() -> None:
    with pytest.raises(SpreadsheetError, match="a workbook, not a CSV"):
        lines_of(b"PK\x03\x04" + bytes(3000))


def test_what_a_spreadsheet_would_work_out_is_led_by_an_apostrophe() -> None:
    assert neutral("=1+1") == "'=1+1"
    assert neutral(" \t@x") == "'@x"
    assert neutral("-5 cm") == "'-5 cm"
    assert neutral("Rail,\nleft") == "Rail, left"
    assert csv_line(["=A1", 74.5, None, 'a "b", c'], ";") == '\'=A1;74,5;;"a ""b"", c"\r\n'
    assert csv_line(["A;b", 74.5, 3]) == "A;b,74.5,3\r\n"


@given(st.lists(st.text(max_size=30), min_size=1, max_size=6), st.sampled_from([",", ";", "\t"]))
def test_whatever_is_written_stays_one_row_and_no_formula(texts: list[str], way: str) -> None:
    written = csv_line([*texts, "end"], way)
    rows = list(csv.reader(io.StringIO(written, newline=""), delimiter=way))
    assert len(rows) == 1
    assert len(rows[0]) == len(texts) + 1
    assert not any(is_formula(cell) for cell in rows[0])


@given(st.text(alphabet='ab;,"\n\r\t =@74½', max_size=200))
def test_no_text_breaks_the_reading(text: str) -> None:
    _, rows = table(["label;waist", *text.split("\n")])
    assert all(row.line >= 2 for row in rows)
    assert [row.line for row in rows] == sorted({row.line for row in rows})
