"""A row takes the place of the sheet's wearer, and no measure of another body comes with it."""

from typing import Any

import pytest

from drafting.errors import SheetError
from drafting.sheet import spec_from_tables
from drafting.wearer_rows import column_faults, tables_for_rows, units_of, with_wearer

SHEET = """
title = "Chorus skirt"
units = "cm"
[wearer]
label = "Chorus, tall"
size = "P08"
waist = 74
hip = 101
hip_depth = 20.5
floor_front = 104
height = 171
heel = 4
step = 66
accept = ["hip"]
[skirt]
length = 62
"""


def wearer(cells: dict[str, str], sheet: str = SHEET) -> dict[str, Any]:
    found: dict[str, Any] = with_wearer(tables_for_rows(sheet), cells)["wearer"]
    return found


def test_measures_of_two_bodies_never_meet() -> None:
    assert wearer({"waist": "70"}) == {"heel": 4, "step": 66, "waist": "70"}


def test_a_rows_own_shoes_and_step_win() -> None:
    assert wearer({"size": "P03", "heel": "7", "step": "60"}) == {
        "size": "P03", "heel": "7", "step": "60",
    }  # fmt: skip


def test_a_child_in_the_chorus_does_not_walk_in_the_adults_shoes() -> None:
    assert wearer({"waist": "58", "figure": "child"}) == {"waist": "58", "figure": "child"}
    children = SHEET.replace('size = "P08"', 'figure = "child"').replace("waist = 74", "waist = 58")
    found = wearer({"waist": "60"}, children.replace("hip = 101", "hip = 68"))
    assert found == {"heel": 4, "step": 66, "waist": "60", "figure": "child"}


def test_what_is_accepted_is_parted_by_spaces_or_commas() -> None:
    assert wearer({"waist": "70", "accept": "hip  waist,height"})["accept"] == [
        "hip", "waist", "height",
    ]  # fmt: skip


def test_bare_numbers_are_read_in_the_sheets_units() -> None:
    tables = with_wearer(tables_for_rows(SHEET), {"waist": "70,5", "hip": "39 1/2 in"})
    body = spec_from_tables(tables).wearer
    assert body.waist == pytest.approx(705.0)
    assert body.hip == pytest.approx(39.5 * 25.4)
    assert units_of(tables) == "cm"


def test_a_fault_of_a_row_is_told_by_its_column() -> None:
    tables = with_wearer(tables_for_rows(SHEET), {"waist": "7", "size": "P99"})
    with pytest.raises(SheetError) as raised:
        spec_from_tables(tables)
    faults = {column: what for column, what, _ in column_faults(raised.value)}
    assert set(faults) == {"waist", "size"}
    assert "P99" in faults["size"]


def test_a_sheet_whose_own_wearer_is_wrong_will_do() -> None:
    assert tables_for_rows(SHEET.replace("waist = 74", "waist = 740"))
    assert tables_for_rows('[skirt]\nlength = "60 cm"')


def test_a_fault_that_every_wearer_would_meet_is_the_sheets_and_has_its_line() -> None:
    with pytest.raises(SheetError, match=r"crew.toml, line 17: .*lenght") as raised:
        tables_for_rows(SHEET + "lenght = 60\n", name="crew.toml")
    assert len(raised.value.faults) == 1
    with pytest.raises(SheetError, match=r"crew.toml, line 2"):
        tables_for_rows("[skirt]\nlength = 62,5 cm", name="crew.toml")


def test_graded_sizes_are_no_batch() -> None:
    sheet = SHEET + '[publish]\nsizes = ["P03", "P04"]\n'
    with pytest.raises(SheetError, match=r"line 18: publish.sizes .* one wearer a row"):
        tables_for_rows(sheet)
