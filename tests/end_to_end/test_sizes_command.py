"""A sheet in several sizes through the command line: nested pages, each size its own papers."""

import json
from pathlib import Path

import pypdf
import pytest
from typer.testing import CliRunner

from cli import app
from drafting.pattern import draft
from drafting.sheet import read_sheet

FEW = 'sizes = ["P04", "P05"]'


SIMPLE = f"""title = "Promenade skirt"
[wearer]
heel = "3 cm"
[skirt]
fullness = "half"
length = "50 cm"
waist_finish = "facing"
[cloth.skirt]
fold = true
[publish]
{FEW}
"""


@pytest.fixture(scope="module")
def few(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a small skirt's sheet in two sizes."""
    sheet = tmp_path_factory.mktemp("sheet") / "promenade.toml"
    sheet.write_text(SIMPLE, encoding="utf-8")
    return sheet


def run(*words: str) -> tuple[int, str]:
    result = CliRunner().invoke(app, list(words))
    return result.exit_code, result.output


def test_draft_writes_one_nest_and_for_each_size_its_lay_and_its_booklet(
    few: Path, tmp_path: Path
) -> None:
    out = tmp_path / "out"
    code, said = run("draft", str(few), "--quick", "--out", str(out), "--paper", "a4")
    assert code == 0, said
    own = (("lay", "pdf"), ("booklet", "pdf"), ("booklet", "html"))
    assert {path.name.removeprefix("promenade-skirt-") for path in out.iterdir()} == {
        "a4.pdf",
        "figures.json",
        *(f"{size}-{kind}.{end}" for size in ("p04", "p05") for kind, end in own),
    }
    assert "P04" in said
    assert "buy skirt cloth" in said
    for size in ("p04", "p05"):
        words = (out / f"promenade-skirt-{size}-booklet.html").read_text(encoding="utf-8")
        assert f"size {size.upper()}" in words
        lay = pypdf.PdfReader(out / f"promenade-skirt-{size}-lay.pdf").pages[0].extract_text()
        assert f"size {size.upper()}" in lay
    held = json.loads((out / "promenade-skirt-figures.json").read_text(encoding="utf-8"))
    assert list(held) == ["sizes", "paper"]
    assert list(held["sizes"]) == ["P04", "P05"]
    assert held["sizes"]["P05"]["cloth"]["skirt"]["buy"] > 0
    assert held["paper"]["a4"]["pages"] == len(
        pypdf.PdfReader(out / "promenade-skirt-a4.pdf").pages
    )
    before = {path: path.read_bytes() for path in out.iterdir()}
    code, said = run("draft", str(few), "--quick", "--out", str(out), "--paper", "a4")
    assert code == 4
    assert "--force" in said
    assert {path: path.read_bytes() for path in out.iterdir()} == before


def test_a_projector_has_a_file_for_each_size(few: Path, tmp_path: Path) -> None:
    code, said = run(
        "draft", str(few), "--quick", "--without", "lay", "--without", "booklet",
        "--paper", "projector", "--svg", "--out", str(tmp_path / "out"),
    )  # fmt: skip
    assert code == 0, said
    assert {path.name for path in (tmp_path / "out").iterdir()} == {
        f"promenade-skirt-{end}"
        for end in ("p04-projector.pdf", "p05-projector.pdf", "p04.svg", "p05.svg", "figures.json")
    }


def test_lay_writes_a_plan_for_each_size(few: Path, tmp_path: Path) -> None:
    code, said = run("lay", str(few), "--quick", "--out", str(tmp_path / "out"))
    assert code == 0, said
    names = {path.name for path in (tmp_path / "out").iterdir()}
    assert {"promenade-skirt-p04-lay.pdf", "promenade-skirt-p05-lay.pdf"} < names
    assert not any("booklet" in name or "a4" in name for name in names)


def test_figures_of_each_size_are_those_of_that_size_drafted_alone(few: Path) -> None:
    code, said = run("figures", str(few), "--json")
    assert code == 0
    told = json.loads(said)
    assert list(told) == ["sizes"]
    for size in ("P04", "P05"):
        text = few.read_text(encoding="utf-8").replace(FEW, "")
        alone = draft(read_sheet(text.replace("[wearer]\n", f'[wearer]\nsize = "{size}"\n')))
        radius = alone.figures.skirt.waistline
        assert told["sizes"][size]["skirt"]["waistline"] == pytest.approx(radius, abs=0.001)
    code, said = run("figures", str(few))
    assert code == 0
    assert said.splitlines()[1].split() == ["P04", "P05"]


def test_one_piece_of_a_nest_is_printed_alone(few: Path, tmp_path: Path) -> None:
    code, said = run(
        "draft", str(few), "--quick", "--piece", "skirt panel", "--out", str(tmp_path / "out")
    )
    assert code == 0, said
    assert {path.name for path in (tmp_path / "out").iterdir()} == {
        "promenade-skirt-skirt-panel-a4.pdf", "promenade-skirt-skirt-panel-figures.json",
    }  # fmt: skip


@pytest.mark.parametrize("scope", ["waist", "card"])
def test_less_than_whole_pieces_is_refused_with_its_line(scope: str, tmp_path: Path) -> None:
    sheet = tmp_path / "sheet.toml"
    sheet.write_text(f'[print]\nscope = "{scope}"\n[publish]\n{FEW}\n', encoding="utf-8")
    code, said = run("draft", str(sheet), "--out", str(tmp_path / "out"))
    assert code == 3
    assert "line 2" in said
    assert 'scope = "whole"' in said
    assert not (tmp_path / "out").exists()


def test_a_size_that_stops_writes_nothing_and_says_which(tmp_path: Path) -> None:
    # An elastic casing is pulled over the hip, and a flat waist is as long as the waist alone.
    sheet = tmp_path / "sheet.toml"
    sheet.write_text(
        f'[skirt]\nwaist_finish = "casing"\nwaist_ease = "0 cm"\n[publish]\n{FEW}\n',
        encoding="utf-8",
    )
    code, said = run("draft", str(sheet), "--out", str(tmp_path / "out"))
    assert code == 3, said
    assert "Size P04:" in said
    assert "Size P05:" in said
    assert not (tmp_path / "out").exists()
