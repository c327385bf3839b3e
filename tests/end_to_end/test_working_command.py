"""Figures with their working, as a teacher asks for them on the command line."""

import json
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from cli import app
from tests.end_to_end.conftest import CHORUS, EXAMPLES, ROOT


def hemsweep(*words: str | Path, width: int = 80) -> Result:
    return CliRunner().invoke(app, [str(word) for word in words], env={"COLUMNS": str(width)})


def test_the_working_comes_after_the_table() -> None:
    bare = hemsweep("figures", CHORUS)
    shown = hemsweep("figures", CHORUS, "--working")
    assert (bare.exit_code, shown.exit_code) == (0, 0)
    table = bare.stdout.split("\n\n")[0]
    assert shown.stdout.startswith(table + "\n\nhow the figures come about")
    # 74.75 / 2 pi, by hand.
    assert "= 11.90 cm" in shown.stdout
    assert "letters used" in shown.stdout
    assert "how the figures come about" not in bare.stdout


def test_the_working_is_as_wide_as_the_terminal() -> None:
    for width in (98, 60):
        shown = hemsweep("figures", CHORUS, "--working", width=width).stdout
        _, _, working = shown.partition("\n\nhow the figures come about")
        working, _, letters = working.partition("letters used")
        assert letters
        assert max(map(len, working.splitlines())) == width


def test_the_json_holds_the_working_beside_the_figures() -> None:
    bare = json.loads(hemsweep("figures", CHORUS, "--json").stdout)
    told = json.loads(hemsweep("figures", CHORUS, "--json", "--working").stdout)
    found = told.pop("working")
    assert told == bare
    radius = next(one for one in found if one["key"] == "skirt.waist_radius")
    assert radius["result"] == pytest.approx(bare["skirt"]["waist_radius"], abs=1e-3)
    assert radius["expression"] == "c / (2 * pi * F)"
    assert radius["terms"][0] == {
        "letter": "c",
        "meaning": "flat waist seam",
        "counts": "length",
        "value": pytest.approx(755 / 1.01),
    }
    assert radius["law"] == "geometry"


@pytest.mark.parametrize("sheet", EXAMPLES, ids=lambda path: path.stem)
def test_every_example_shows_its_working(sheet: Path) -> None:
    shown = hemsweep("figures", sheet, "--working")
    assert shown.exit_code == 0, shown.output
    assert "\u00a0" not in shown.stdout
    assert "finished waist seam" in shown.stdout


def test_what_cannot_be_drawn_is_not_worked(tmp_path: Path) -> None:
    sheet = tmp_path / "sheet.toml"
    # Its inner edge would be cut on a radius of 22 mm, too tight to be clipped.
    skirt = 'flounce = { depth = "8 cm", ratio = 3.5 }'
    sheet.write_text(f'[wearer]\nsize = "P05"\n[skirt]\n{skirt}\n', encoding="utf-8")
    shown = hemsweep("figures", sheet, "--working")
    assert shown.exit_code == 3
    assert "a part of this draft cannot be drawn" in shown.stdout
    assert json.loads(hemsweep("figures", sheet, "--working", "--json").stdout)["working"] == []


def test_the_documented_example_is_what_the_command_says() -> None:
    told = (ROOT / "docs" / "figures.md").read_text(encoding="utf-8")
    example = told.split("```text\n")[1].split("```")[0]
    shown = hemsweep("figures", CHORUS, "--working").stdout.splitlines()
    assert len(example.splitlines()) > 30
    assert all(line in shown for line in example.splitlines())


def test_help_shows_how_to_ask_for_it() -> None:
    told = hemsweep("figures", "--help").stdout
    assert "--working" in told
    assert "hemsweep figures chorus-skirt.toml --working" in told
