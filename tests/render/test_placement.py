"""Pieces on the floor: room for scissors between them, and no more paper than need be."""

import math

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from drafting.piece import cutting_box
from drafting.spec import PaperName
from render.pages import Printed
from render.paper import HOME, Grid, grid
from render.placement import Effort, place
from render.tiling import cut_into_pages
from tests.drawn import drawn
from tests.render.cloth_shapes import XY, apart, moved, rectangle, sector, sector_rim

A4 = grid(PaperName.A4, margin=None, overlap=10)

panels = st.tuples(st.floats(40, 300), st.floats(60, 600), st.floats(20, 180))
aprons = st.tuples(st.floats(30, 500), st.floats(30, 500))


def nearest(one: list[XY], other: list[XY]) -> float:
    return min(math.dist(a, b) for a in one for b in other)


def winds(point: XY, rim: list[XY]) -> bool:
    """Tell whether a closed rim goes round a point: the angles it turns through add up."""
    turned = 0.0
    for a, b in zip(rim, [*rim[1:], rim[0]], strict=True):
        turned += math.remainder(
            math.atan2(b[1] - point[1], b[0] - point[0])
            - math.atan2(a[1] - point[1], a[0] - point[0]),
            math.tau,
        )
    return abs(turned) > math.pi


def outline(inner: float, outer: float, degrees: float) -> list[XY]:
    """Return a sector's rim in order, about 5 mm apart."""
    angle = math.radians(degrees)
    hem, waist = (
        [
            (radius * math.cos(angle * k / count), radius * math.sin(angle * k / count))
            for k in range(count + 1)
        ]
        for radius, count in (
            (outer, math.ceil(outer * angle / 5)),
            (inner, math.ceil(inner * angle / 5)),
        )
    )
    return [*hem, *reversed(waist)]


@settings(max_examples=drawn(15), deadline=None)
@given(st.lists(panels, min_size=2, max_size=3))
def test_scissors_pass_between_panels(sizes: list[tuple[float, float, float]]) -> None:
    pieces = [
        sector(inner, inner + long, degrees, name=f"panel {k}")
        for k, (inner, long, degrees) in enumerate(sizes)
    ]
    rims, outlines = [], []
    for placement, (inner, long, degrees) in zip(
        place(pieces, A4, effort=Effort.QUICK), sizes, strict=True
    ):
        where = placement.x, placement.y, placement.turn
        rims.append(moved(sector_rim(inner, inner + long, degrees, 6.0), *where))
        outlines.append(moved(outline(inner, inner + long, degrees), *where))
    for k, rim in enumerate(rims):
        for m in range(k):
            assert nearest(rim, rims[m]) > 5.0
            assert not winds(rim[0], outlines[m])
            assert not winds(rims[m][0], outlines[k])


@settings(max_examples=drawn(25), deadline=None)
@given(st.lists(aprons, min_size=2, max_size=4))
def test_scissors_pass_between_aprons(sizes: list[tuple[float, float]]) -> None:
    pieces = [rectangle(*size, name=f"apron {k}") for k, size in enumerate(sizes)]
    shapes = [
        moved([(0, 0), (w, 0), (w, h), (0, h)], p.x, p.y, p.turn)
        for p, (w, h) in zip(place(pieces, A4, effort=Effort.QUICK), sizes, strict=True)
    ]
    for k, shape in enumerate(shapes):
        for other in shapes[:k]:
            corner_gap = nearest(shape, other)
            assert apart(shape, other) > 3.5 or corner_gap > 5.0
            assert apart(shape, other) > 0


@pytest.mark.parametrize("effort", [Effort.QUICK, Effort.USUAL])
def test_every_two_panels_of_a_layout_are_five_millimetres_apart(effort: Effort) -> None:
    sizes = [(119.0, 739.0, 90.0), (238.0, 590.0, 80.0), (150.0, 200.0, 120.0), (60.0, 700.0, 30.0)]
    pieces = [sector(*size, name=f"panel {k}") for k, size in enumerate(sizes)]
    shapes = [
        shapely.Polygon(moved(outline(*size), p.x, p.y, p.turn))
        for p, size in zip(place(pieces, A4, effort=effort), sizes, strict=True)
    ]
    for k, shape in enumerate(shapes):
        assert all(shape.distance(other) > 5.0 for other in shapes[:k])


@pytest.mark.parametrize(
    ("name", "margin", "overlap", "quarter", "half", "effort"),
    [
        (PaperName.A4, 10.0, 0.0, 12, 25, Effort.QUICK),
        (PaperName.LETTER, 10.0, 0.0, 11, 28, Effort.USUAL),
        (PaperName.A4, None, 10.0, 14, 30, Effort.USUAL),
        (PaperName.LETTER, None, 10.0, 16, 32, Effort.QUICK),
    ],
)
def test_a_panel_alone_takes_no_more_pages_than_a_search_by_degrees_once_found(
    name: PaperName, margin: float | None, overlap: float, quarter: int, half: int, effort: Effort
) -> None:
    """The counts are another program's: every degree and every 5 mm, all pages touched counted."""
    on = grid(name, margin=margin, overlap=overlap)
    for panel, most in ((sector(115, 770, 90), quarter), (sector(230, 830, 180), half)):
        assert len(cut_into_pages(place([panel], on, effort=effort), on).tiles) <= most


def test_more_effort_takes_no_more_pages_here_tells_of_them_and_repeats_itself() -> None:
    pieces = [sector(119, 739, 90), sector(238, 828, 90, name="lining"), rectangle(400, 90)]
    told: list[str] = []
    quick, usual = (
        place(pieces, A4, effort=effort, progress=told.append)
        for effort in (Effort.QUICK, Effort.USUAL)
    )
    assert len(cut_into_pages(usual, A4).tiles) <= len(cut_into_pages(quick, A4).tiles)
    assert told
    assert all(any(c.isdigit() for c in words) for words in told)
    # The same pieces, drafted anew, always come to the same places.
    again = [sector(119, 739, 90), sector(238, 828, 90, name="lining"), rectangle(400, 90)]
    assert place(again, A4) == usual


def test_a_narrow_floor_is_kept_to() -> None:
    placed = place([sector(119, 739, 90), sector(238, 590, 80, name="lining")], A4, widest=1000)
    tiles = cut_into_pages(placed, A4).tiles
    assert max(tile.window.right for tile in tiles) <= 1000


def by_boxes(size: tuple[float, float], on: Grid) -> int:
    """Return the pages of a piece laid square on a corner of its first page, by its box."""
    wide, high = size
    return max(1, math.ceil((wide - on.overlap) / on.step_x)) * max(
        1, math.ceil((high - on.overlap) / on.step_y)
    )


def test_no_more_pages_than_each_piece_alone_in_its_box(layout: Printed) -> None:
    on = layout.sheets.grid
    boxes = 0
    for placement in layout.sheets.placements:
        # The box of the piece as it is drafted, first edge along +x.
        box = cutting_box(placement.piece)
        boxes += by_boxes((box.width, box.height), on)
    assert len(layout.sheets.tiles) <= boxes


# A longer search keeps the best that a short one found, so one paper is enough for it.
@pytest.mark.parametrize(
    ("name", "effort"), [*((name, Effort.QUICK) for name in HOME), (PaperName.A4, Effort.USUAL)]
)
def test_a_few_odd_panels_take_no_more_pages_than_their_boxes(
    name: PaperName, effort: Effort
) -> None:
    on = grid(name, margin=None, overlap=10)
    sizes = [(119.0, 620.0, 90.0), (238.0, 590.0, 90.0), (150.0, 50.0, 120.0), (60.0, 900.0, 60.0)]
    pieces = [
        sector(inner, inner + long, degrees, name=f"panel {k}")
        for k, (inner, long, degrees) in enumerate(sizes)
    ]
    boxes = 0
    for inner, long, degrees in sizes:
        rim = sector_rim(inner, inner + long, degrees)
        wide = max(x for x, _ in rim) - min(x for x, _ in rim)
        high = max(y for _, y in rim) - min(y for _, y in rim)
        boxes += by_boxes((wide, high), on)
    assert len(cut_into_pages(place(pieces, on, effort=effort), on).tiles) <= boxes


def test_the_floor_is_never_wider_than_two_and_a_half_metres(layout: Printed) -> None:
    lefts = [tile.window.left for tile in layout.sheets.tiles]
    rights = [tile.window.right for tile in layout.sheets.tiles]
    assert max(rights) - min(lefts) <= 2500


@settings(max_examples=drawn(10), deadline=None)
@given(st.lists(aprons, min_size=6, max_size=9))
def test_many_pieces_grow_upwards_not_sideways(sizes: list[tuple[float, float]]) -> None:
    pieces = [rectangle(*size, name=f"apron {k}") for k, size in enumerate(sizes)]
    tiles = cut_into_pages(place(pieces, A4, effort=Effort.QUICK), A4).tiles
    assert max(tile.window.right for tile in tiles) <= 2500


def test_a_train_is_laid_up_the_floor_even_where_across_takes_fewer_pages() -> None:
    """A strip of 3.2 m by 25.5 cm: 18 pages across, which no floor here takes."""
    (placement,) = place([rectangle(3200, 255)], A4)
    corners = moved(
        [(0, 0), (3200, 0), (3200, 255), (0, 255)], placement.x, placement.y, placement.turn
    )
    xs = [x for x, _ in corners]
    assert max(xs) - min(xs) <= 2500
    tiles = cut_into_pages([placement], A4).tiles
    assert max(tile.window.right for tile in tiles) <= 2500


def test_pieces_come_back_in_the_order_they_were_given() -> None:
    small, large = rectangle(60, 60, name="pocket"), sector(119, 739, 90)
    for pieces in ([small, large], [large, small]):
        placed = place(pieces, A4, effort=Effort.QUICK)
        assert [p.piece.name for p in placed] == [piece.name for piece in pieces]


def test_nothing_to_place_is_no_fault() -> None:
    assert place([], A4) == ()
