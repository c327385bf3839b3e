"""A size table of the sheet's own: read as spreadsheets save it, checked, and read from."""

from collections.abc import Mapping
from pathlib import Path

import pytest

import drafting
from drafting.errors import Fault, SheetError
from drafting.own_sizes import MOST_BYTES, load_size_table, read_size_table
from drafting.sheet import read_sheet, spec_from_tables
from drafting.sizes import SizeTable
from drafting.spec import Figure, Spec
from drafting.units import Units

HEADS = "size,waist,hip,hip_depth,waist_to_knee,floor_front,floor_side,floor_back"
ROWS = (
    "Pier,64,89,19.5,57,101.5,103,102",
    "Quay,72,97,20,58,103.5,105,104",
    "Mole,82,106,20.5,58.5,104.5,106,105",
)
HEIGHTS = ("162", "166", "166")


def table(*rows: str, heads: str = HEADS) -> bytes:
    return "\r\n".join([heads, *(rows or ROWS)]).encode()


def tall() -> bytes:
    rows = (f"{row},{height}" for row, height in zip(ROWS, HEIGHTS, strict=True))
    return table(*rows, heads=f"{HEADS},height")


def child_table() -> bytes:
    return table(
        "116,54,62,12,33,68,69,68.5",
        "128,57,66,13.2,38,76,77,76.5",
        "140,60,71,14.6,43,84,85,84.5",
    )


def sizes(data: bytes, figure: Figure = Figure.ADULT, bare: Units | None = Units.CM) -> SizeTable:
    return read_size_table(data, name="our-sizes.csv", figure=figure, bare=bare)


def faults(data: bytes, figure: Figure = Figure.ADULT) -> tuple[Fault, ...]:
    with pytest.raises(SheetError) as caught:
        sizes(data, figure)
    assert caught.value.name == "our-sizes.csv"
    return caught.value.faults


def only(data: bytes, figure: Figure = Figure.ADULT) -> Fault:
    (found,) = faults(data, figure)
    return found


def sheet(wearer: str, top: str = 'size_table = "our-sizes.csv"', rest: str = "") -> str:
    return f'units = "cm"\n{top}\n[wearer]\n{wearer}\n{rest}'


def read(text: str, **files: bytes) -> Spec:
    held: Mapping[str, bytes] = files or {"our": table()}

    def beside(path: str) -> bytes:
        if path.removesuffix("-sizes.csv") not in held:
            raise FileNotFoundError(path)
        return held[path.removesuffix("-sizes.csv")]

    return read_sheet(text, beside=beside)


# --- what it holds -------------------------------------------------------------------------


def test_a_table_is_read_in_millimetres() -> None:
    found = sizes(tall())
    assert found.names == ("Pier", "Quay", "Mole")
    quay = found.sizes[1]
    assert (quay.waist, quay.hip, quay.hip_depth) == pytest.approx((720, 970, 200))
    assert (quay.floor_front, quay.floor_side, quay.floor_back) == pytest.approx((1035, 1050, 1040))
    assert quay.height == pytest.approx(1660)
    assert sizes(table()).sizes[1].height is None


def test_it_is_read_as_a_spreadsheet_saves_it() -> None:
    german = (
        "\ufeffSize;Waist (cm);Hip (cm);Hip depth (mm);Waist to knee (cm);Floor front (cm);"
        "Floor side (cm);Floor back (cm);# fitted\r\n"
        "I;64,5;89;195;57;101,5;103;102;by the door\r\n"
        "II;72;38 1/4 in;200;58;103,5;105;104;\r\n;;;;;;;;\r\n"
    )
    one, two = sizes(german.encode(), bare=None).sizes
    assert (one.waist, one.hip_depth) == pytest.approx((645, 195))
    assert two.hip == pytest.approx(38.25 * 25.4)


def test_bare_numbers_are_those_of_the_sheet() -> None:
    inches = table(
        "A,25 1/4,35,7 3/4,22 1/2,40,40 1/2,40 1/4", "B,28,38,7 7/8,22 3/4,40 1/2,41,40 3/4"
    )
    assert sizes(inches, bare=Units.INCH).sizes[0].waist == pytest.approx(641.35)
    with pytest.raises(SheetError, match=r"line 2: waist is \"64\", a number without a unit"):
        sizes(table(), bare=None)


# --- what is wrong with it -----------------------------------------------------------------


def test_all_faults_are_told_at_once_with_line_and_column() -> None:
    wrong = table(
        "Pier,64,89,19.5,57,101.5,103,102",
        "Quay,63,97,20,58,103.5,105,104",
        "pi-er,74,abc,20.5,58.5,104.5,,105",
        "Groyne!,84,116,19,58.5,104.5,106,105",
    )
    told = [(fault.line, fault.key) for fault in faults(wrong)]
    assert told == [
        (3, "waist"), (4, "hip"), (4, "floor_side"), (4, "size"), (5, "size"), (5, "hip_depth"),
    ]  # fmt: skip


def test_a_fault_says_what_was_given_and_what_would_do() -> None:
    fault = only(table(ROWS[0], "Quay,63,97,20,58,103.5,105,104"))
    assert str(fault).replace("\u00a0", " ") == (
        "line 3: waist is 63.0 cm, no more than the 64.0 cm of line 2."
        " Waist and hip grow from size to size: the smallest stands first."
    )


@pytest.mark.parametrize(
    ("row", "column", "words"),
    [
        ("Quay,65,97,20,58,103.5,105,104", "waist", "1.0 cm more than the 64.0 cm of line 2"),
        ("Quay,77,97,20,58,103.5,105,104", "waist", "13.0 cm more than"),
        ("Quay,72,89,20,58,103.5,105,104", "hip", "no more than the 89.0 cm"),
        ("Quay,72,105,20,58,103.5,105,104", "hip", "16.0 cm more than"),
        ("Quay,72,97,19,58,103.5,105,104", "hip_depth", "less than the 19.5 cm"),
        ("Quay,72,97,23,58,103.5,105,104", "hip_depth", "3.5 cm more than"),
        ("Quay,72,97,20,56,103.5,105,104", "waist_to_knee", "less than the 57.0 cm"),
        ("Quay,72,97,20,58,101,105,104", "floor_front", "less than the 101.5 cm"),
    ],
)
def test_steps_that_no_sizes_have_are_faults(row: str, column: str, words: str) -> None:
    fault = only(table(ROWS[0], row))
    assert (fault.key, fault.line) == (column, 3)
    assert words in fault.what.replace("\u00a0", " ")


@pytest.mark.parametrize(
    "row",
    [
        "Quay,65.5,89.1,19.5,57,101.5,103,102",  # the least that grows; lengths stay level
        "Quay,76,104,22.5,63,111.5,113,112",  # the most
    ],
)
def test_steps_at_their_ends_will_do(row: str) -> None:
    assert sizes(table(ROWS[0], row)).names == ("Pier", "Quay")


@pytest.mark.parametrize(
    ("row", "column", "words"),
    [
        ("P,44,66,19.5,57,101.5,103,102", "waist", "from 45.0 to"),
        ("P,64,106,19.5,57,101.5,103,102", "hip", "42.0 cm more than the waist"),
        ("P,89,70,19.5,57,101.5,103,102", "hip", "less than the waist"),
        ("P,64,89,57,19.5,101.5,103,102", "hip_depth", "can be from"),
        ("P,64,89,19.5,57,91,103,102", "floor_front", "12.0 cm less than floor_side"),
    ],
)
def test_a_size_that_nobody_has_is_a_fault(row: str, column: str, words: str) -> None:
    found = [f for f in faults(table(row, "Q,95,121,20,58,103.5,105,104")) if f.line == 2]
    assert column in [fault.key for fault in found]
    told = " ".join(str(fault) for fault in found).replace("\u00a0", " ").replace(" cm to", " to")
    assert words in told


@pytest.mark.parametrize(
    ("heights", "column", "words"),
    [
        (("162", "159"), "height", "less than the 162.0 cm"),
        (("162", "179"), "height", "17.0 cm more than"),
        (("162", "1.66 m"), "", ""),
        (("135", "140"), "floor_side", "at a height of 135.0 cm. It can be from 67.5 cm to"),
    ],
)
def test_heights_grow_and_go_with_their_lengths(
    heights: tuple[str, str], column: str, words: str
) -> None:
    rows = [f"{row},{height}" for row, height in zip(ROWS, heights, strict=False)]
    data = table(*rows, heads=f"{HEADS},height")
    if not column:
        assert sizes(data).sizes[1].height == pytest.approx(1660)
        return
    fault = faults(data)[0]
    assert fault.key == column
    assert words in str(fault).replace("\u00a0", " ")


def test_knees_lie_below_hips_and_floors_below_knees() -> None:
    # Both are within what a child may measure: only beside each other are they wrong.
    wrong = table(
        "116,54,62,22,20,68,69,68.5", "128,57,66,22,40,77,77,76.5", "140,60,71,22,62,84,61,84.5"
    )
    told = {(fault.line, fault.key) for fault in faults(wrong, Figure.CHILD)}
    assert (2, "hip_depth") in told
    assert (4, "waist_to_knee") in told


@pytest.mark.parametrize(
    "name", ["", "../x", "a/b", "-x", "x-", "a  b.", "naïve", "=A1", "CON:", "thirteen signs"]
)
def test_names_are_plain_and_short(name: str) -> None:
    row = f'"{name}",64,89,19.5,57,101.5,103,102'
    fault = only(table(row, ROWS[1]))
    assert (fault.key, fault.line) == ("size", 2)
    assert "up to 12 letters" in fault.allowed


@pytest.mark.parametrize(("one", "other"), [("P 05", "p05"), ("XS-S", "xs_s"), ("A", "A")])
def test_names_that_files_would_not_tell_apart_are_faults(one: str, other: str) -> None:
    rows = ROWS[0].replace("Pier", one), ROWS[1].replace("Quay", other)
    fault = only(table(*rows))
    assert (fault.key, fault.line) == ("size", 3)
    assert f'line 2 is, "{one}"' in fault.what


def test_a_table_has_two_sizes_or_more_and_all_its_columns() -> None:
    assert "one size alone" in only(table(ROWS[0])).what
    assert "no size" in only(HEADS.encode()).what
    without = table("Pier,64,89", heads="size,waist,hip")
    assert "hip_depth, waist_to_knee, floor_front, floor_side and floor_back" in only(without).what


def test_a_file_of_another_kind_is_soon_refused() -> None:
    assert "over 200 kB" in only(b"x" * (MOST_BYTES + 1)).what
    assert "workbook" in only(b"PK\x03\x04 and more").what
    many = table(*(f"S{k},64,89,19.5,57,101.5,103,102" for k in range(101)))
    assert any("more than 100 sizes" in fault.what for fault in faults(many))


def test_children_have_limits_of_their_own() -> None:
    assert sizes(child_table(), Figure.CHILD).names == ("116", "128", "140")
    assert {fault.key for fault in faults(child_table())} >= {"waist_to_knee", "floor_side"}


# --- sheets that name it -------------------------------------------------------------------


@pytest.mark.parametrize("written", ["Quay", "quay", " Q u a y ", "QUAY"])
def test_a_size_is_that_of_the_own_table(written: str) -> None:
    spec = read(sheet(f'size = "{written}"'))
    assert spec.wearer.size == "Quay"
    assert (spec.wearer.waist, spec.wearer.hip) == pytest.approx((720, 970))
    assert spec.wearer.floor_side == pytest.approx(1050)
    assert not spec.findings


def test_a_size_that_is_not_in_it_is_told_with_the_nearest() -> None:
    with pytest.raises(SheetError) as caught:
        read(sheet('size = "Quai"'))
    (fault,) = caught.value.faults
    assert fault.what == (
        'size "Quai" is not in your own size table, our-sizes.csv. Did you mean "Quay"?'
    )
    assert (fault.line, fault.nearest) == (4, "Quay")
    with pytest.raises(SheetError, match="It goes from Pier to Mole"):
        read(sheet('size = "P05"'))


def test_measures_left_out_are_read_between_its_sizes() -> None:
    spec = read(sheet('waist = "68 cm"\nhip = "96 cm"'))
    # Half way from Pier to Quay.
    assert spec.wearer.hip == pytest.approx(960)
    assert spec.wearer.floor_front == pytest.approx(1025)
    (found,) = spec.findings
    assert found.code == "measure-estimated"
    assert "read from your own size table for a waist of 68.0\u00a0cm" in found.what
    assert "between Pier and Quay" in found.what


def test_graded_sizes_are_its_own_in_its_order() -> None:
    text = sheet("", rest='[publish]\nsizes = ["mole", "Pier"]')
    spec = read(text)
    assert spec.publish.sizes == ("Pier", "Mole")
    assert [one.wearer.waist for one in spec.graded] == pytest.approx([640, 820])


def test_a_child_may_wear_one_of_its_sizes() -> None:
    spec = read(sheet('size = "128"\nfigure = "child"'), our=child_table())
    assert spec.wearer.figure is Figure.CHILD
    assert spec.wearer.floor_side == pytest.approx(770)
    between = read(sheet('waist = "58.5 cm"\nfigure = "child"'), our=child_table())
    assert between.wearer.floor_side == pytest.approx(810)
    (found,) = between.findings
    assert found.level.value == "caution"
    assert "your own size table" in found.what
    with pytest.raises(SheetError, match="an adult's, and the figure is a child"):
        read_sheet('[wearer]\nsize = "P05"\nfigure = "child"')


def test_a_height_lengthens_sizes_whose_height_is_known() -> None:
    # The stature rule: 5 cm to the floor and 2.8 to the knee for 8 cm of height.
    spec = read(sheet('size = "Quay"\nheight = "170 cm"'), our=tall())
    assert spec.wearer.floor_side == pytest.approx(1050 + 25)
    assert spec.wearer.waist_to_knee == pytest.approx(580 + 14)
    assert spec.wearer.hip == pytest.approx(970)
    assert not spec.findings
    without = read(sheet('size = "Quay"'), our=tall())
    assert without.wearer.height == pytest.approx(1660)
    assert without.wearer.step == pytest.approx(0.42 * 1660)


def test_a_height_that_the_table_has_no_use_for_is_told() -> None:
    for wearer in ('size = "Quay"', 'waist = "72 cm"'):
        spec = read(sheet(f'{wearer}\nheight = "180 cm"'))
        assert spec.wearer.floor_side == pytest.approx(1050)
        found = [one for one in spec.findings if one.code == "height-unused"]
        assert len(found) == 1
        assert "180.0\u00a0cm" in found[0].what


def test_faults_of_the_table_are_told_under_its_own_name() -> None:
    with pytest.raises(SheetError) as caught:
        read(sheet('size = "Quay"\nwaist = "7 cm"'), our=table(ROWS[0], ROWS[0]))
    assert caught.value.name == "our-sizes.csv"
    assert {fault.line for fault in caught.value.faults} == {3}


# --- where it may lie ----------------------------------------------------------------------


@pytest.mark.parametrize(
    "path",
    [
        "/etc/passwd.csv", "../our-sizes.csv", "a/../../b.csv", "C:\\\\sizes.csv", "a\\\\b.csv",
        "~/sizes.csv", "file:sizes.csv", "our-sizes.txt", "", "our\\u0000.csv", "//host/a.csv",
        "x" * 300 + ".csv",
    ],
)  # fmt: skip
def test_a_sheet_reads_nothing_but_a_csv_beside_it(path: str) -> None:
    asked: list[str] = []

    def beside(path: str) -> bytes:
        asked.append(path)
        return table()

    with pytest.raises(SheetError) as caught:
        read_sheet(sheet('size = "Quay"', f'size_table = "{path}"'), beside=beside)
    (fault,) = caught.value.faults
    assert (fault.key, fault.line) == ("size_table", 2)
    assert 'size_table = "our-sizes.csv"' in fault.allowed
    assert not asked


def test_a_sheet_without_a_place_has_no_table_beside_it() -> None:
    with pytest.raises(SheetError, match=r"line 2: size_table names .* as text alone"):
        read_sheet(sheet('size = "Quay"'))
    with pytest.raises(SheetError, match="text alone"):
        spec_from_tables({"size_table": "our-sizes.csv", "wearer": {"size": "Quay"}})
    with pytest.raises(SheetError, match="line 2: size_table is 3, and a file"):
        read_sheet(sheet('size = "Quay"', "size_table = 3"))


def test_it_is_found_beside_the_sheets_file_and_below(tmp_path: Path) -> None:
    (tmp_path / "tables").mkdir()
    (tmp_path / "tables" / "our-sizes.csv").write_bytes(table())
    path = tmp_path / "skirt.toml"
    path.write_text(sheet('size = "Mole"', 'size_table = "tables/our-sizes.csv"'))
    assert drafting.load(path).wearer.waist == pytest.approx(820)
    for missing in ("none.csv", "tables/none.csv", "tables/our-sizes.csv/a.csv"):
        path.write_text(sheet('size = "Mole"', f'size_table = "{missing}"'))
        with pytest.raises(SheetError, match=r"line 2: .* no such file"):
            drafting.load(path)


def test_a_link_out_of_the_folder_is_not_followed(tmp_path: Path) -> None:
    (tmp_path / "foreign.csv").write_bytes(table())
    folder = tmp_path / "from-the-net"
    folder.mkdir()
    (folder / "our-sizes.csv").symlink_to(tmp_path / "foreign.csv")
    (folder / "skirt.toml").write_text(sheet('size = "Mole"'))
    with pytest.raises(SheetError, match="may not read"):
        drafting.load(folder / "skirt.toml")


def test_the_theatres_own_table_and_sheet_are_sound() -> None:
    folder = Path(__file__).parents[2] / "measurements_examples" / "own_sizes"
    found = load_size_table(folder / "chorus-sizes.csv", figure=Figure.ADULT, units=Units.CM)
    assert found.names == ("I", "II", "III", "IV", "V", "VI")
    pattern = drafting.draft(drafting.load(folder / "landing-stage-skirt.toml"))
    assert pattern.spec.wearer.waist == pytest.approx(820)
