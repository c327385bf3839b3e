"""The map of the taped plane, and which pages carry which piece."""

import math
import re
from collections.abc import Callable

import pytest

from drafting.geometry import Line, bounds
from drafting.piece import stitching_line
from drafting.spec import PaperName
from render.assembly_map import assembly_map, map_size, page_runs
from render.pages import Printed
from render.paper import grid
from render.placement import Placement
from render.tiling import Sheets, cut_into_pages
from tests.render.cloth_shapes import rectangle
from tests.render.test_ticket import struck

A4 = grid(PaperName.A4, margin=None, overlap=10)


def aprons() -> Sheets:
    """Return two aprons: one over A1 to B2, the other on C1 alone, three columns wide at B."""
    return cut_into_pages(
        [
            Placement(piece=rectangle(330, 500, name="apron"), x=10, y=290, turn=0.0),
            Placement(piece=rectangle(100, 100, name="pocket"), x=20, y=20, turn=0.0),
        ],
        A4,
    )


def test_runs_of_pages_are_shortened() -> None:
    sheets = aprons()
    assert page_runs(sheets, "apron") == "A1 to A2, B1 to B2"
    assert page_runs(sheets, "pocket") == "C1"
    assert page_runs(sheets, "muff") == ""


def test_runs_hold_every_page_of_the_piece_and_no_other(layout: Printed) -> None:
    sheets = layout.sheets
    for placement in sheets.placements:
        name = placement.piece.name
        found = set()
        for run in page_runs(sheets, name).split(", "):
            ends = [re.fullmatch(r"([A-Z]+)(\d+)", end) for end in run.split(" to ")]
            first, last = ends[0], ends[-1]
            assert first is not None
            assert last is not None
            assert first[1] == last[1]
            found |= {f"{first[1]}{k}" for k in range(int(first[2]), int(last[2]) + 1)}
        assert found == {tile.name for tile in sheets.tiles if name in tile.pieces}


def test_the_map_fits_its_space_and_keeps_its_shape(layout: Printed) -> None:
    for width, height in ((60.0, 100.0), (180.0, 40.0)):
        wide, high, scale = map_size(layout.sheets, width, height)
        assert wide <= width + 1e-9
        assert high <= height + 1e-9
        for stroke in assembly_map(layout.sheets, scale).strokes:
            box = bounds(stroke.path)
            assert box.left > -0.01
            assert box.bottom > -0.01
            assert box.right < wide + 0.01
            assert box.top < high + 0.01


def test_pieces_on_the_map_lie_as_they_lie_on_the_floor(
    layout_of: Callable[..., Printed],
) -> None:
    sheets = layout_of("chorus-skirt").sheets
    scale = 0.05
    outlines = [s for s in assembly_map(sheets, scale).strokes if len(s.path) > 3]
    assert len(outlines) == len(sheets.placements)
    for placement, stroke in zip(sheets.placements, outlines, strict=True):
        first = stroke.path[0]
        assert isinstance(first, Line)
        along = math.atan2(first.end.y - first.start.y, first.end.x - first.start.x)
        assert math.remainder(along - placement.turn, math.tau) == pytest.approx(0, abs=1e-9)


def test_every_page_is_an_upright_box_with_its_name_in_it() -> None:
    sheets = aprons()
    drawn = assembly_map(sheets, 0.1)
    names = [text for text in drawn.texts if not text.bold]
    assert [text.text for text in names] == ["A1", "A2", "B1", "B2", "C1"]
    for tile, text in zip(sheets.tiles, names, strict=True):
        assert tile.window.left * 0.1 < text.at.x < tile.window.right * 0.1
        assert tile.window.bottom * 0.1 < text.at.y < tile.window.top * 0.1


def test_every_piece_bears_the_number_that_the_list_gives_it() -> None:
    sheets = aprons()
    numbers = [text for text in assembly_map(sheets, 0.1).texts if text.bold]
    assert [text.text for text in numbers] == ["1", "2"]
    for placement, text in zip(sheets.placements, numbers, strict=True):
        box = bounds(placement.on_plane(stitching_line(placement.piece)))
        assert box.left * 0.1 < text.at.x < box.right * 0.1
        assert box.bottom * 0.1 < text.at.y < box.top * 0.1


def test_numbers_on_the_map_are_clear_of_lines_and_names_wherever_there_is_room(
    layout: Printed,
) -> None:
    """Names of pages are never left out: on a page full of lines one is set over them."""
    sheets = layout.sheets
    drawn = assembly_map(sheets, map_size(sheets, 100.0, 120.0)[2])
    over = {text.text for text in struck(drawn.texts, drawn.strokes)}
    assert not over & {text.text for text in drawn.texts if text.bold}
    assert len(over) <= 0.1 * len(sheets.tiles)


def test_a_map_too_small_for_numbers_still_names_every_page(layout: Printed) -> None:
    drawn = assembly_map(layout.sheets, 0.004)
    assert {tile.name for tile in layout.sheets.tiles} <= {text.text for text in drawn.texts}
