"""The batch command: what it shows, where, and how it ends."""

from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from cli import app

EXAMPLES = Path(__file__).parents[2] / "measurements_examples"
SHEET = EXAMPLES / "chorus-skirt.toml"


def run(*words: object) -> Result:
    return CliRunner().invoke(app, ["batch", *(str(word) for word in words)])


def test_the_example_chorus_is_drafted_in_numbers(tmp_path: Path) -> None:
    done = run(
        EXAMPLES / "chorus.csv", SHEET, "--out", tmp_path / "out", "--figures", "--processes", 1
    )
    assert done.exit_code == 0, done.output
    assert done.stderr == ""
    assert done.stdout.startswith("12 of 12 rows drafted; 0 at fault")
    assert "an estimate from rows without a lay plan" in done.stdout
    assert "skirt cloth, cotton sateen, 140.0" in done.stdout
    names = sorted(path.name for path in (tmp_path / "out").iterdir() if path.name[0] != ".")
    assert names == ["summary.csv", "summary.json", "to-buy.csv"]


def test_faulty_rows_are_told_one_a_line_and_end_with_3(tmp_path: Path) -> None:
    wearers = tmp_path / "crew.csv"
    wearers.write_text("label;waist\nGull;=1\nOyster;80\n" + "Crab;8\n" * 60, encoding="utf-8")
    done = run(wearers, SHEET, "--out", tmp_path / "out", "--figures", "--processes", 1)
    assert done.exit_code == 3
    lines = done.stderr.splitlines()
    assert lines[0].startswith('crew.csv, line 2, waist: waist is "=1", which is a formula')
    assert lines[1].startswith("crew.csv, line 4, waist: waist is 8")
    assert len(lines) == 51
    assert lines[-1] == "and 11 rows more; the summary has them all"
    assert done.stdout.startswith("1 of 62 rows drafted; 61 at fault")


@pytest.mark.parametrize(
    ("words", "code", "told"),
    [
        (("--figures", "--cluster", "nonsense"), 2, "not the address of a scheduler"),
        (("--paper", "a44"), 2, "not a paper"),
        (("--without", "pages"), 2, "cannot be left out"),
        (("--processes", "0"), 2, "Invalid value"),
    ],
)
def test_wrong_words_end_with_2_and_write_nothing(
    tmp_path: Path, words: tuple[str, ...], code: int, told: str
) -> None:
    done = run(EXAMPLES / "chorus.csv", SHEET, "--out", tmp_path / "out", *words)
    assert done.exit_code == code
    assert told in done.output
    assert not (tmp_path / "out").exists()


def test_folders_and_files_in_each_others_place_end_with_4(tmp_path: Path) -> None:
    assert run(tmp_path, SHEET, "--out", tmp_path / "out").exit_code == 4
    file = tmp_path / "file"
    file.write_text("mine")
    done = run(EXAMPLES / "chorus.csv", SHEET, "--out", file, "--figures")
    assert done.exit_code == 4
    assert file.read_text() == "mine"
    full = run(EXAMPLES / "chorus.csv", SHEET, "--out", tmp_path, "--figures")
    assert full.exit_code == 4
    assert "name another, or give --force" in full.output


def test_a_sheet_at_fault_ends_with_3(tmp_path: Path) -> None:
    done = run(EXAMPLES / "chorus.csv", EXAMPLES / "chorus.csv", "--out", tmp_path / "out")
    assert done.exit_code == 3
    assert not (tmp_path / "out").exists()
