"""A batch in the sizes of the sheet's own table, drafted anew when that changes."""

from pathlib import Path

import pytest

from drafting.errors import SheetError
from render.batch.writing import BatchOutput, write_batch

SIZES = (
    "size,waist,hip,hip_depth,waist_to_knee,floor_front,floor_side,floor_back\n"
    "Pier,64,89,19.5,57,101.5,103,102\n"
    "Quay,72,97,20,58,103.5,105,104\n"
)
SHEET = 'units = "cm"\nsize_table = "our-sizes.csv"\n[skirt]\nlength = "50 cm"\n'
WEARERS = "label,size,waist,figure\nA,Quay,,\nB,P05,,\nC,,68,\nD,Pier,,child\n"


def batch(folder: Path, sizes: str = SIZES) -> BatchOutput:
    (folder / "our-sizes.csv").write_text(sizes)
    (folder / "sheet.toml").write_text(SHEET)
    (folder / "wearers.csv").write_text(WEARERS)
    return write_batch(
        folder / "wearers.csv",
        folder / "sheet.toml",
        folder / "out",
        figures_only=True,
        processes=1,
    )


def test_rows_wear_its_sizes_and_are_drafted_anew_when_it_changes(tmp_path: Path) -> None:
    first = batch(tmp_path)
    assert (first.drafted, first.faulty) == (2, 2)
    told = "\n".join(first.faults)
    assert 'size "P05" is not in your own size table, our-sizes.csv' in told
    # Women's sizes are no child's: the table's own line is named.
    assert "our-sizes.csv, line 3: waist" in told
    assert batch(tmp_path).kept >= 2
    again = batch(tmp_path, SIZES.replace("Quay,72,97", "Quay,73,97"))
    assert (again.drafted, again.kept) == (2, 0)


def test_a_faulty_table_stops_the_batch_under_its_own_name(tmp_path: Path) -> None:
    with pytest.raises(SheetError, match=r"our-sizes.csv, line 3: waist"):
        batch(tmp_path, SIZES.replace("Quay,72", "Quay,62"))
    assert not (tmp_path / "out").exists()
