"""SVG and DXF beside the PDF: all three opened by something else than wrote them, and measured."""

import itertools
import json
import math
import os
import subprocess
import sys
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

import pytest

import drafting
from drafting.geometry import Path as Walked
from drafting.geometry import path_length, point_along
from drafting.piece import EdgeKind, Piece, cutting_line
from tests.end_to_end.conftest import CHILD, ROOT
from tests.end_to_end.pdf_ink import leaves
from tests.end_to_end.test_command_line import hemsweep, tree
from tests.end_to_end.true_shape import Near, runs
from tests.render import dxf_ink, svg_ink

Spot = tuple[float, float]

CLOSE = 0.01
"""All files must agree to this, in millimetres."""

TINY = """title = "Smallest crab"
units = "cm"
[wearer]
figure = "child"
waist = "46 cm"
hip = "50 cm"
[skirt]
fullness = "full"
length = "15 cm"
"""

SHEETS = {
    "arcs": ("chorus-skirt", "skirt panel"),
    "a tiny child": ("", "skirt panel"),
    "two circles for a large waist": ("leading-lady-skirt", "skirt panel"),
    "a levelled hem": ("character-skirt", "skirt front left"),
    "a shaped gore": ("box-office-skirt", "skirt gore"),
}


@dataclass(frozen=True)
class Three:
    """One piece as the draft has it, and its cutting line in each file in the piece's frame."""

    piece: Piece
    svg: svg_ink.Sheet
    dxf: dxf_ink.Sheet
    cut: dict[str, tuple[tuple[Spot, Spot], ...]]
    sewn: dict[str, tuple[tuple[Spot, Spot], ...]]


def back(spots: Iterable[Spot], x: float, y: float, degrees: float) -> tuple[Spot, ...]:
    """Return places on a plane in the frame of what was turned and then shifted there."""
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    return tuple(((p - x) * c + (q - y) * s, (q - y) * c - (p - x) * s) for p, q in spots)


@pytest.fixture(scope="module")
def three_of(tmp_path_factory: pytest.TempPathFactory) -> Callable[[str], Three]:
    """Return a function that runs the command for one piece and reads what it wrote."""

    @cache
    def find(name: str) -> Three:
        folder = tmp_path_factory.mktemp("three")
        stem, piece = SHEETS[name]
        sheet = ROOT / "measurements_examples" / f"{stem}.toml"
        if not stem:
            sheet = folder / "sheet.toml"
            sheet.write_text(TINY, encoding="utf-8")
        out = folder / "out"
        words = (
            "--quick",
            "--without",
            "booklet",
            "--svg",
            "--dxf",
            "--piece",
            piece,
            "--out",
            out,
        )
        result = hemsweep("draft", sheet, *words)
        assert result.exit_code == 0, result.output
        pieces = drafting.draft(drafting.load(sheet)).pieces
        return _read(next(p for p in pieces if p.name == piece), out)

    return find


def _read(piece: Piece, out: Path) -> Three:
    (pdf,), (figures,) = out.glob("*.pdf"), out.glob("*.json")
    svg = svg_ink.read(next(out.glob("*.svg")).read_bytes())
    dxf = dxf_ink.read(next(out.glob("*.dxf")).read_bytes())
    (block,) = (block for name, block in dxf.blocks.items() if name.startswith("PIECE"))
    (insert,) = (insert for insert in dxf.inserts if insert.block == block.name)
    _, group = svg.groups

    def own(lines: Iterable[svg_ink.Line]) -> list[tuple[Spot, ...]]:
        return [back(line.points, *insert.at, insert.degrees) for line in lines]

    cut = {
        "svg": own(group.lines["cutting lines"]),
        "dxf": [line.points for line in block.on("1")],
    }
    sewn = {
        "svg": own(line for line in group.lines["stitching lines"] if line.dash == (6, 3)),
        "dxf": [line.points for line in block.on("14")],
    }
    return Three(
        piece=piece,
        svg=svg,
        dxf=dxf,
        cut={name: tuple(runs(walks)) for name, walks in cut.items()}
        | {"pdf": tuple(_printed(pdf, json.loads(figures.read_bytes())))},
        sewn={name: tuple(runs(walks)) for name, walks in sewn.items()},
    )


def _printed(pdf: Path, figures: dict[str, Any]) -> Iterator[tuple[Spot, Spot]]:
    """Yield the solid ink of 0.7 mm on the pattern's pages, in the frame of its one piece."""
    (paper,) = figures["paper"].values()
    (placed,) = paper["pieces"]
    left, bottom = paper["window"][:2]
    pages = leaves(pdf)
    for tile in paper["tiles"]:
        dx, dy = tile["x"] - left, tile["y"] - bottom
        for stroke in pages[int(tile["page"]) - 1].strokes:
            if stroke.is_drawn_with(0.7):
                for run in stroke.ink():
                    plane = ((x + dx, y + dy) for x, y in run)
                    one, other = back(plane, placed["x"], placed["y"], placed["turn"])
                    yield one, other


def walked(path: Walked) -> Iterator[Spot]:
    long = path_length(path)
    count = math.ceil(long / 1.5)
    return (point_along(path, long * k / count) for k in range(count + 1))


def worst(points: Iterable[Spot], lines: Iterable[tuple[Spot, Spot]]) -> float:
    near = Near(lines)
    return max(near.off(point) for point in points)


@pytest.mark.parametrize("name", SHEETS)
def test_svg_dxf_pdf_and_draft_have_one_cutting_line(
    name: str, three_of: Callable[[str], Three]
) -> None:
    three = three_of(name)
    drafted = tuple(walked(cutting_line(three.piece)))
    for lines in three.cut.values():
        assert worst(drafted, lines) < CLOSE
    for one, other in itertools.permutations(three.cut, 2):
        ends = [end for run in three.cut[one] for end in run]
        assert worst(ends, three.cut[other]) < CLOSE, f"{one} against {other}"
    for file in ("svg", "dxf"):
        long = math.fsum(math.dist(*run) for run in three.cut[file])
        assert long == pytest.approx(path_length(cutting_line(three.piece)), abs=0.05)


@pytest.mark.parametrize("name", SHEETS)
def test_svg_dxf_and_draft_have_the_same_stitching_lines(
    name: str, three_of: Callable[[str], Three]
) -> None:
    three = three_of(name)
    edges = [e for e in three.piece.edges if e.kind is not EdgeKind.FOLD and e.allowance > 0]
    drafted = [spot for edge in edges for spot in walked(edge.path)]
    for lines in three.sewn.values():
        assert worst(drafted, lines) < CLOSE
        long = math.fsum(math.dist(*run) for run in lines)
        assert long == pytest.approx(math.fsum(edge.length for edge in edges), abs=0.05)


@pytest.mark.parametrize("name", SHEETS)
def test_svg_and_dxf_carry_the_same_marks_and_words(
    name: str, three_of: Callable[[str], Three]
) -> None:
    three = three_of(name)
    _, group = three.svg.groups
    (block,) = (b for key, b in three.dxf.blocks.items() if key.startswith("PIECE"))
    drawn = sum(len(lines) for lines in group.lines.values())
    assert drawn == len(block.lines)
    assert len(group.words["text"]) == len(block.words)
    assert three.piece.name in [words.text for words in group.words["text"]]
    assert three.piece.name in [words.text for words in block.words]


# --- the command -----------------------------------------------------------------------------


def test_a_draft_writes_neither_unless_asked(tmp_path: Path) -> None:
    assert (
        hemsweep("draft", CHILD, "--quick", "--without", "booklet", "--out", tmp_path).exit_code
        == 0
    )
    assert not {".svg", ".dxf"} & {path.suffix for path in tmp_path.iterdir()}


def test_both_files_lie_beside_the_pdf_and_are_told(tmp_path: Path) -> None:
    result = hemsweep(
        "draft", CHILD, "--quick", "--without", "booklet", "--svg", "--dxf", "--out", tmp_path
    )
    assert result.exit_code == 0
    names = {
        "young-chorus-skirt-a4.pdf",
        "young-chorus-skirt.svg",
        "young-chorus-skirt.dxf",
        "young-chorus-skirt-lay.pdf",
        "young-chorus-skirt-figures.json",
    }
    assert set(tree(tmp_path)) == names
    said = result.output.replace("\n", "")
    assert all(name in said for name in names)


@pytest.mark.parametrize(("option", "other"), [("--svg", ".dxf"), ("--dxf", ".svg")])
def test_each_file_comes_alone(tmp_path: Path, option: str, other: str) -> None:
    assert (
        hemsweep(
            "draft", CHILD, "--quick", "--without", "booklet", option, "--out", tmp_path
        ).exit_code
        == 0
    )
    assert other not in {path.suffix for path in tmp_path.iterdir()}
    assert len(list(tmp_path.iterdir())) == 4


@pytest.mark.parametrize("ending", ["svg", "dxf"])
def test_neither_is_written_over_without_force(
    tmp_path: Path, ending: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    mine = tmp_path / f"young-chorus-skirt.{ending}"
    mine.write_text("my own")
    words = ("draft", CHILD, "--quick", "--without", "booklet", "--svg", "--dxf", "--out", tmp_path)
    with monkeypatch.context() as patch:
        patch.setattr("render.output.printed", lambda *_, **__: pytest.fail("it was drawn first"))
        result = hemsweep(*words)
    assert result.exit_code == 4
    assert f"{mine.name} exists already" in result.output.replace("\n", "")
    assert tree(tmp_path) == {mine.name: b"my own"}

    assert hemsweep(*words, "--force").exit_code == 0
    assert len(tree(tmp_path)) == 5
    assert mine.read_bytes() != b"my own"


def test_a_draft_without_them_leaves_older_ones_alone(tmp_path: Path) -> None:
    mine = tmp_path / "young-chorus-skirt.svg"
    mine.write_text("my own")
    assert (
        hemsweep("draft", CHILD, "--quick", "--without", "booklet", "--out", tmp_path).exit_code
        == 0
    )
    assert mine.read_text() == "my own"


def test_pieces_asked_for_name_the_files_and_are_alone_in_them(tmp_path: Path) -> None:
    sheet = ROOT / "measurements_examples" / "chorus-skirt.toml"
    words = ("--piece", "lining panel", "--svg", "--dxf", "--out", tmp_path)
    assert hemsweep("draft", sheet, "--quick", "--without", "booklet", *words).exit_code == 0
    svg = svg_ink.read((tmp_path / "chorus-skirt-lining-panel.svg").read_bytes())
    dxf = dxf_ink.read((tmp_path / "chorus-skirt-lining-panel.dxf").read_bytes())
    assert [group.title for group in svg.groups[1:]] == ["lining panel"]
    assert set(dxf.blocks) == {"TEST_SQUARE", "PIECE_2_LINING_PANEL"}


def test_letters_that_a_dxf_cannot_hold_are_a_caution(tmp_path: Path) -> None:
    sheet = tmp_path / "sheet.toml"
    sheet.write_text(TINY.replace("Smallest crab", "Юбка"), encoding="utf-8")
    out = tmp_path / "out"
    assert (
        hemsweep("draft", sheet, "--quick", "--without", "booklet", "--svg", "--out", out).exit_code
        == 0
    )
    (figures,) = out.glob("*.json")
    codes = [finding["code"] for finding in json.loads(figures.read_bytes())["findings"]]
    assert "letters-lost-in-dxf" not in codes
    assert (
        hemsweep(
            "draft", sheet, "--quick", "--without", "booklet", "--dxf", "--out", out, "--force"
        ).exit_code
        == 0
    )
    told = json.loads(figures.read_bytes())["findings"]
    (caution,) = (finding for finding in told if finding["code"] == "letters-lost-in-dxf")
    assert "Ю (U+042E)" in caution["what"]


def test_every_process_writes_the_same_bytes(tmp_path: Path) -> None:
    written = []
    for seed in ("1", "2"):
        out = tmp_path / seed
        subprocess.run(
            [sys.executable, "-m", "cli", "draft", str(CHILD), "--quick", "--svg", "--dxf",
             "--without", "lay", "--without", "booklet", "--out", str(out)],
            cwd=ROOT, env={**os.environ, "PYTHONHASHSEED": seed}, check=True, capture_output=True,
        )  # fmt: skip
        written.append(tree(out))
    assert written[0] == written[1]
    assert len(written[0]) == 4
