"""The plane cut into pages: everything is on one, none is empty, every join has its number."""

import math
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drafting.geometry import Arc, Line, Path, Point
from drafting.spec import PaperName
from render.drawing import Layer, Pen, Stroke
from render.paper import HOME, Grid, grid
from render.placement import Placement
from render.tiling import Sheets, cut_into_pages, on_page, row_letters
from tests.render.cloth_shapes import apart, moved, rectangle, sector, sector_rim

grids = st.builds(
    lambda name, overlap: grid(name, margin=None, overlap=overlap),
    st.sampled_from(HOME),
    st.sampled_from((0.0, 10.0)),
)
places = st.tuples(st.floats(-900, 900), st.floats(-900, 900), st.floats(0, math.tau))
aprons = st.tuples(st.floats(20, 700), st.floats(20, 700))


def laid(piece_sizes: list[tuple[float, float]], spots: list[tuple[float, float, float]],
         on: Grid) -> Sheets:  # fmt: skip
    placements = [
        Placement(piece=rectangle(*size, name=f"apron {k}", allowance=10), x=x, y=y, turn=turn)
        for k, (size, (x, y, turn)) in enumerate(zip(piece_sizes, spots, strict=False))
    ]
    return cut_into_pages(placements, on)


def corners(placement: Placement) -> list[tuple[float, float]]:
    """Return the cut corners of an apron where it lies: 10 mm outside its stitching line."""
    stitched = placement.piece.edges
    width, height = stitched[0].length, stitched[1].length
    cut = [(-10, -10), (width + 10, -10), (width + 10, height + 10), (-10, height + 10)]
    return moved(cut, placement.x, placement.y, placement.turn)


def window_corners(tile_window: object) -> list[tuple[float, float]]:
    w = tile_window
    return [(w.left, w.bottom), (w.right, w.bottom), (w.right, w.top), (w.left, w.top)]  # type: ignore[attr-defined]


garments = st.lists(st.tuples(aprons, places), min_size=1, max_size=3)


@settings(max_examples=60, deadline=None)
@given(garments, grids)
def test_every_bit_of_every_piece_is_on_a_page(
    pieces: list[tuple[tuple[float, float], tuple[float, float, float]]], on: Grid
) -> None:
    sheets = laid([size for size, _ in pieces], [spot for _, spot in pieces], on)
    windows = [tile.window for tile in sheets.tiles]
    for placement in sheets.placements:
        a, b, _, d = corners(placement)
        for i in range(31):
            for j in range(31):
                x = a[0] + (b[0] - a[0]) * i / 30 + (d[0] - a[0]) * j / 30
                y = a[1] + (b[1] - a[1]) * i / 30 + (d[1] - a[1]) * j / 30
                assert any(
                    w.left - 1e-6 <= x <= w.right + 1e-6 and w.bottom - 1e-6 <= y <= w.top + 1e-6
                    for w in windows
                ), f"{placement.piece.name} has a hole"


@settings(max_examples=60, deadline=None)
@given(garments, grids)
def test_no_page_is_printed_for_nothing(
    pieces: list[tuple[tuple[float, float], tuple[float, float, float]]], on: Grid
) -> None:
    sheets = laid([size for size, _ in pieces], [spot for _, spot in pieces], on)
    for tile in sheets.tiles:
        touching = {
            placement.piece.name
            for placement in sheets.placements
            if apart(corners(placement), window_corners(tile.window)) < 1e-6
        }
        surely = {
            placement.piece.name
            for placement in sheets.placements
            if apart(corners(placement), window_corners(tile.window)) < -1e-6
        }
        assert tile.pieces, tile.name
        assert surely <= set(tile.pieces) <= touching


@settings(max_examples=60, deadline=None)
@given(garments, grids)
def test_pages_are_named_once_from_the_top_left(
    pieces: list[tuple[tuple[float, float], tuple[float, float, float]]], on: Grid
) -> None:
    sheets = laid([size for size, _ in pieces], [spot for _, spot in pieces], on)
    places = [(tile.row, tile.column) for tile in sheets.tiles]
    assert places == sorted(set(places))
    assert min(row for row, _ in places) == 1
    assert min(column for _, column in places) == 1
    step_x = on.paper.width - 2 * on.margin - on.overlap
    step_y = on.paper.height - 2 * on.margin - on.overlap
    last = max(row for row, _ in places)
    for tile in sheets.tiles:
        assert tile.window.left == pytest.approx((tile.column - 1) * step_x, abs=1e-6)
        assert tile.window.bottom == pytest.approx((last - tile.row) * step_y, abs=1e-6)
        assert tile.window.width == pytest.approx(step_x + on.overlap)
        assert tile.window.height == pytest.approx(step_y + on.overlap)


@settings(max_examples=60, deadline=None)
@given(garments, grids)
def test_every_two_pages_that_meet_have_one_join_and_a_number_of_their_own(
    pieces: list[tuple[tuple[float, float], tuple[float, float, float]]], on: Grid
) -> None:
    sheets = laid([size for size, _ in pieces], [spot for _, spot in pieces], on)
    there = {(tile.row, tile.column) for tile in sheets.tiles}
    wanted = {((r, c), (r, c + 1)) for r, c in there if (r, c + 1) in there}
    wanted |= {((r, c), (r + 1, c)) for r, c in there if (r + 1, c) in there}
    found = [
        ((join.first.row, join.first.column), (join.second.row, join.second.column))
        for join in sheets.joins
    ]
    assert sorted(found) == sorted(wanted)
    assert [join.number for join in sheets.joins] == list(range(1, len(wanted) + 1))
    for join in sheets.joins:
        (ax, ay), (bx, by) = join.line
        later = join.second.window
        if join.upright:
            assert ax == bx == later.left
            assert {ay, by} == {later.bottom, later.top}
            assert join.first.window.right - ax == pytest.approx(on.overlap)
        else:
            assert ay == by == later.top
            assert {ax, bx} == {later.left, later.right}
            assert ay - join.first.window.bottom == pytest.approx(on.overlap)


@settings(max_examples=25, deadline=None)
@given(st.floats(40, 300), st.floats(50, 700), st.floats(20, 180), places, grids)
def test_a_panel_with_its_hole_at_the_waist_is_on_pages_all_over(
    inner: float, long: float, degrees: float, place: tuple[float, float, float], on: Grid
) -> None:
    panel = sector(inner, inner + long, degrees)
    sheets = cut_into_pages([Placement(piece=panel, x=place[0], y=place[1], turn=place[2])], on)
    (there,) = sheets.placements
    rim = moved(sector_rim(inner, inner + long, degrees, 5.0), there.x, there.y, there.turn)
    for x, y in rim:
        assert any(
            t.window.left - 1e-6 <= x <= t.window.right + 1e-6
            and t.window.bottom - 1e-6 <= y <= t.window.top + 1e-6
            for t in sheets.tiles
        )


def test_a_page_that_shows_only_what_its_neighbours_overlaps_show_is_left_out() -> None:
    """An apron ends 6 mm into a page's overlap: the page before it shows those 6 mm too."""
    on = grid(PaperName.A4, margin=None, overlap=10)
    apron = rectangle(180 + 6 - 20, 200)
    sheets = cut_into_pages([Placement(piece=apron, x=20, y=30, turn=0.0)], on)
    assert [tile.name for tile in sheets.tiles] == ["A1"]
    wider = rectangle(180 + 12 - 20, 200)
    sheets = cut_into_pages([Placement(piece=wider, x=20, y=30, turn=0.0)], on)
    assert [tile.name for tile in sheets.tiles] == ["A1", "A2"]


def test_a_strip_that_lies_all_in_an_overlap_is_still_printed_once() -> None:
    """Both rows of pages, or both columns, show it; one of them is enough, none is not."""
    on = grid(PaperName.A4, margin=None, overlap=10)
    for strip, x, y in ((rectangle(300, 6), 20, 267 + 2), (rectangle(6, 400), 180 + 2, 30)):
        sheets = cut_into_pages([Placement(piece=strip, x=x, y=y, turn=0.0)], on)
        assert len(sheets.tiles) == 2
        (there,) = sheets.placements
        for share in (0.02, 0.3, 0.6, 0.98):
            at_x = there.x + share * strip.edges[0].length
            at_y = there.y + share * strip.edges[1].length
            assert any(
                tile.window.left <= at_x <= tile.window.right
                and tile.window.bottom <= at_y <= tile.window.top
                for tile in sheets.tiles
            )


def test_rows_go_on_after_z() -> None:
    assert [row_letters(row) for row in (1, 2, 26, 27, 28, 52, 53, 702, 703)] == [
        "A", "B", "Z", "AA", "AB", "AZ", "BA", "ZZ", "AAA",
    ]  # fmt: skip


def test_the_least_possible_number_of_pages_is_the_area_over_a_page() -> None:
    on = grid(PaperName.A4, margin=None, overlap=10)
    sheets = cut_into_pages([Placement(piece=rectangle(180, 267), x=5, y=5, turn=0.0)], on)
    assert sheets.lower_bound == 1
    sheets = cut_into_pages([Placement(piece=rectangle(180, 268), x=5, y=5, turn=0.0)], on)
    assert sheets.lower_bound == 2


def test_nothing_to_print_needs_no_pages() -> None:
    on = grid(PaperName.A4, margin=None, overlap=10)
    assert cut_into_pages([], on).tiles == ()


# --- dashes --------------------------------------------------------------------------------

DASH = (6.0, 3.0)


def inked(at: float) -> float:
    """Return how deep inside a dash (above 0) or a gap (below 0) a distance lies."""
    rest = at % 9.0
    return min(rest, 6.0 - rest) if rest < 6.0 else -min(rest - 6.0, 9.0 - rest)


@pytest.mark.parametrize("overlap", [0.0, 10.0])
@pytest.mark.parametrize("phase", [0.0, 4.0])
def test_dashes_drawn_page_by_page_are_the_dashes_of_the_whole_hem(
    overlap: float, phase: float
) -> None:
    on = grid(PaperName.A4, margin=None, overlap=overlap)
    sheets = cut_into_pages([Placement(piece=sector(100, 700, 90), x=13, y=17, turn=0.0)], on)
    (there,) = sheets.placements
    hem: Path = (
        Line(start=Point(there.x + 100, there.y), end=Point(there.x + 700, there.y)),
        Arc(centre=Point(there.x, there.y), radius=700, begin=0.0, finish=math.pi / 2),
    )
    stroke = Stroke(path=hem, pen=Pen(width=0.35, dash=DASH), layer=Layer.STITCHING, phase=phase)
    checked = 0
    for tile in sheets.tiles:
        for part in on_page((stroke,), tile, on).strokes:
            assert part.pen == stroke.pen
            walked = 0.0
            for segment in part.path:
                count = 40
                for k in range(count):
                    share = (k + 0.5) / count
                    if isinstance(segment, Line):
                        (ax, ay), (bx, by) = segment.start, segment.end
                        x, y = ax + (bx - ax) * share, ay + (by - ay) * share
                        reach = math.dist(segment.start, segment.end)
                    else:
                        angle = segment.begin + (segment.finish - segment.begin) * share
                        x = segment.centre.x + 700 * math.cos(angle)
                        y = segment.centre.y + 700 * math.sin(angle)
                        reach = 700 * abs(segment.finish - segment.begin)
                    px = x - on.margin + tile.window.left - there.x
                    py = y - on.margin + tile.window.bottom - there.y
                    whole = px - 100 if abs(py) < 1e-9 else 600 + 700 * math.atan2(py, px)
                    here = inked(part.phase + walked + share * reach)
                    assert here == pytest.approx(inked(phase + whole), abs=1e-6)
                    checked += 1
                walked += reach
    assert checked >= 400


def test_a_page_keeps_no_line_that_does_not_touch_it() -> None:
    on = grid(PaperName.A4, margin=None, overlap=10)
    sheets = cut_into_pages([Placement(piece=rectangle(500, 500), x=3, y=3, turn=0.0)], on)
    line: Path = (Line(start=Point(5, 20), end=Point(400, 20)),)
    stroke = Stroke(path=line, pen=Pen(width=0.7), layer=Layer.CUTTING)
    shown = [tile.name for tile in sheets.tiles if on_page((stroke,), tile, on).strokes]
    assert shown == ["B1", "B2", "B3"]
    ends = []
    for tile in sheets.tiles:
        for part in on_page((stroke,), tile, on).strokes:
            ends += [
                end.x - on.margin + tile.window.left
                for segment in part.path
                for end in (segment.start, segment.end)
            ]
    assert min(ends) == pytest.approx(5)
    assert max(ends) == pytest.approx(400)
    pairs = sorted(zip(ends[::2], ends[1::2], strict=True))
    assert all(one[1] >= other[0] for one, other in pairwise(pairs))
