"""Printing one piece alone: the right one, on fewer pages, under a name of its own."""

from collections.abc import Callable
from pathlib import Path

import pytest
from typer.testing import CliRunner

from cli import app
from drafting.pattern import Pattern
from drafting.spec import PaperName
from render.assembly_map import file_pages
from render.chosen import NotPrintedError, PieceNameError, on_paper
from render.pages import Printed, printed

CHILD = Path(__file__).parent.parent.parent / "measurements_examples" / "young-chorus-skirt.toml"


@pytest.fixture
def chorus(pattern_of: Callable[..., Pattern]) -> Pattern:
    return pattern_of("chorus-skirt")


def named(pattern: Pattern, *only: str) -> list[str]:
    return [piece.name for piece in on_paper(pattern, only)]


def test_without_a_wish_strips_are_listed_and_panels_printed(chorus: Pattern) -> None:
    assert named(chorus) == ["skirt panel", "lining panel"]


@pytest.mark.parametrize("wish", ["lining panel", "  LINING   panel", "2"])
def test_a_piece_answers_to_its_name_and_its_number(chorus: Pattern, wish: str) -> None:
    assert named(chorus, wish) == ["lining panel"]


def test_pieces_keep_the_order_of_the_cut_list(chorus: Pattern) -> None:
    assert named(chorus, "lining panel", "1", "skirt panel") == ["skirt panel", "lining panel"]


def test_a_band_asked_for_is_drawn_though_bands_are_listed(chorus: Pattern) -> None:
    assert named(chorus, "band") == ["band"]
    layout = printed(chorus, PaperName.A4, only=("band",))
    assert {name for tile in layout.sheets.tiles for name in tile.pieces} == {"band"}


@pytest.mark.parametrize("wish", ["lining", "", "0", "-1", "6", "panel " * 50])
def test_a_name_that_is_no_piece_is_answered_with_those_that_are(
    chorus: Pattern, wish: str
) -> None:
    with pytest.raises(PieceNameError, match="1 skirt panel, 2 lining panel") as caught:
        on_paper(chorus, [wish])
    assert len(str(caught.value)) < 300


def test_a_bias_strip_is_never_printed(pattern_of: Callable[..., Pattern]) -> None:
    with pytest.raises(NotPrintedError, match="bias strips"):
        on_paper(pattern_of("twirl-skirt"), ["waist binding"])


def words_of(layout: Printed) -> str:
    pages = layout.document.pages
    words = " ".join(text.text for page in pages for text in page.drawing.texts)
    return words.replace("\u00a0", " ")


def test_the_ticket_says_that_one_piece_alone_is_printed(chorus: Pattern) -> None:
    alone = words_of(printed(chorus, PaperName.A4, only=("2",)))
    assert "This file prints lining panel alone" in alone
    assert "piece 2 of 5" in alone
    assert "alone; the cut list" not in words_of(printed(chorus, PaperName.A4))


def test_the_ticket_names_the_file_pages_that_carry_each_piece(
    layout_of: Callable[..., Printed],
) -> None:
    layout = layout_of("chorus-skirt")
    led = len(layout.document.pages) - len(layout.sheets.tiles)
    for name in ("skirt panel", "lining panel"):
        told = file_pages(layout.sheets, name, after=led)
        numbers: set[int] = set()
        for run in told.split(", "):
            first, _, last = run.partition("-")
            numbers |= set(range(int(first), int(last or first) + 1))
        carrying = {
            k
            for k, page in enumerate(layout.document.pages, start=1)
            for tile in layout.sheets.tiles
            if tile.name == page.label and name in tile.pieces
        }
        assert numbers == carrying
        assert told in words_of(layout)


def test_one_piece_is_written_beside_the_whole_and_not_over_it(tmp_path: Path) -> None:
    command = ["draft", str(CHILD), "--without", "booklet", "--out", str(tmp_path)]
    for more in ([], ["--piece", "skirt panel"]):
        result = CliRunner().invoke(app, [*command, *more])
        assert result.exit_code == 0, result.output
    assert sorted(path.name for path in tmp_path.iterdir()) == [
        "young-chorus-skirt-a4.pdf",
        "young-chorus-skirt-figures.json",
        "young-chorus-skirt-lay.pdf",
        "young-chorus-skirt-skirt-panel-a4.pdf",
        "young-chorus-skirt-skirt-panel-figures.json",
    ]


def test_a_wrong_piece_is_a_wrong_word_of_the_command(tmp_path: Path) -> None:
    result = CliRunner().invoke(
        app, ["draft", str(CHILD), "--piece", "skrit", "--out", str(tmp_path / "out")]
    )
    assert result.exit_code == 2
    assert "“skrit”" in result.stderr or '"skrit"' in result.stderr
    assert not (tmp_path / "out").exists()
