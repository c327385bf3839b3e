"""A strip filled from its head: apart, inside, as short as plain boxes or shorter, repeatable."""

import math

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from drafting.errors import GeometryError
from drafting.geometry import Box, Point, flattened
from drafting.piece import cutting_line
from render.filling import Filled, Plane, Shape, fill, narrowest, turns_of
from tests.render.cloth_shapes import XY, sector, sector_rim

WIDE = 820.0
APART = 6.0
ROLL = Plane(width=WIDE, apart=APART)


def shape(rim: list[XY]) -> Shape:
    outline = tuple(Point(x, y) for x, y in rim)
    return Shape(outline=outline, turns=turns_of(outline))


def box(wide: float, high: float) -> Shape:
    return shape([(0, 0), (wide, 0), (wide, high), (0, high)])


def panel(inner: float, outer: float, degrees: float) -> Shape:
    outline = flattened(cutting_line(sector(inner, outer, degrees)), outside=True)
    return Shape(outline=outline, turns=turns_of(outline))


def laid(shapes: list[Shape], filled: Filled) -> list[shapely.Polygon]:
    """Return the shapes where they lie, by shapely's own turning and moving."""
    found = []
    for one, spot in zip(shapes, filled.spots, strict=True):
        turned = shapely.affinity.rotate(
            shapely.Polygon(one.outline), spot.turn, origin=(0, 0), use_radians=True
        )
        found.append(shapely.affinity.translate(turned, spot.x, spot.y))
    return found


def shelves(sizes: list[XY], width: float) -> float:
    """Return the length that boxes take side by side, the highest first, row under row."""
    rows: list[tuple[float, float]] = []  # what is used of the width, and the row's height
    for wide, high in sorted(sizes, key=lambda size: -size[1]):
        if rows and rows[-1][0] + APART + wide <= width:
            rows[-1] = (rows[-1][0] + APART + wide, rows[-1][1])
        else:
            rows.append((wide, high))
    return sum(high for _, high in rows) + APART * (len(rows) - 1)


garments = st.lists(
    st.one_of(
        st.builds(box, st.floats(40, 700), st.floats(40, 700)),
        st.builds(
            lambda inner, long, degrees: panel(inner, inner + long, degrees),
            st.floats(60, 160),
            st.floats(150, 600),
            st.sampled_from((30.0, 60.0, 90.0)),
        ),
    ),
    min_size=1,
    max_size=5,
)


@settings(max_examples=30, deadline=None)
@given(garments)
def test_pieces_lie_inside_the_strip_and_scissors_pass_between_them(shapes: list[Shape]) -> None:
    filled = fill(shapes, ROLL, work=0)
    assert filled is not None
    polygons = laid(shapes, filled)
    for k, one in enumerate(polygons):
        left, bottom, right, top = one.bounds
        assert left >= 0 and right <= WIDE
        assert top <= 0
        assert bottom >= -filled.length - 1e-6
        assert all(one.distance(other) >= APART - 1e-6 for other in polygons[:k])
    # No longer than the lowest point needs.
    assert min(p.bounds[1] for p in polygons) == pytest.approx(-filled.length)


@settings(max_examples=15, deadline=None)
@given(st.lists(st.tuples(st.floats(60, 800), st.floats(60, 800)), min_size=2, max_size=6))
def test_a_strip_is_never_longer_than_boxes_in_rows(sizes: list[XY]) -> None:
    filled = fill([box(*size) for size in sizes], ROLL, work=10**8)
    assert filled is not None
    assert filled.length <= shelves(sizes, WIDE) + 1e-6
    area = sum(wide * high for wide, high in sizes)
    assert filled.length >= area / WIDE


def test_gores_nest_far_better_than_their_boxes() -> None:
    gores = [panel(110, 700, 45) for _ in range(4)]
    filled = fill(gores, ROLL, work=2 * 10**9)
    assert filled is not None
    # The box of a gore: 700 sin 45 high, from 110 cos 45 to 700 along.
    side = (700 - 110 / math.sqrt(2), 700 / math.sqrt(2))
    assert filled.length < 0.75 * shelves([side] * 4, WIDE)


def test_the_same_shapes_always_come_to_the_same_places() -> None:
    shapes = [panel(110, 500, 90), panel(90, 400, 60), box(300, 80), box(180, 140)]
    one, other = (fill(shapes, ROLL, work=10**9) for _ in range(2))
    assert one == other


def test_more_search_never_ends_longer() -> None:
    shapes = [panel(110, 600, 90), panel(90, 500, 60), box(420, 300), box(180, 140), box(90, 700)]
    lengths = []
    for work in (0, 10**9, 4 * 10**9):
        filled = fill(shapes, ROLL, work=work)
        assert filled is not None
        lengths.append(filled.length)
    # The search counts in rows of cells, 10 mm high.
    assert lengths[2] <= lengths[1] + 10 <= lengths[0] + 20


def test_small_things_go_into_the_room_that_large_ones_leave() -> None:
    half = panel(110, 800, 180)
    alone = fill([half], ROLL, work=0)
    both = fill([half, box(180, 140), box(180, 140)], ROLL, work=10**8, main=1)
    assert alone is not None and both is not None
    assert both.length == pytest.approx(alone.length, abs=5)  # a cell at most


def test_nothing_lies_where_the_strip_is_taken() -> None:
    taken = Box(left=0, bottom=-300, right=400, top=0)
    shapes = [box(500, 200), box(390, 250)]
    filled = fill(shapes, Plane(width=WIDE, apart=APART, taken=(taken,)), work=0)
    assert filled is not None
    for one in laid(shapes, filled):
        assert one.intersection(shapely.box(0, -300, 400, 0)).area < 1e-6
    # Upright, both still fit beside it.
    assert filled.length < 600


def test_a_shape_lies_within_one_lane_where_it_can() -> None:
    lanes = ((0.0, 400.0), (420.0, 820.0))
    shapes = [box(380, 200), box(380, 200), box(380, 150), box(700, 600)]
    filled = fill(shapes, Plane(width=WIDE, apart=APART, lanes=lanes), work=10**8)
    assert filled is not None
    *narrow, wide = laid(shapes, filled)
    for one in narrow:
        left, _, right, _ = one.bounds
        assert any(edge[0] - 1e-6 <= left and right <= edge[1] + 1e-6 for edge in lanes)
    assert wide.bounds[0] < 400 < 420 < wide.bounds[2]


def test_a_piece_as_wide_as_the_strip_still_fits_and_a_wider_one_does_not() -> None:
    # A hair of 0.05 mm is kept at both sides.
    assert fill([box(WIDE - 0.2, 900)], ROLL, work=0) is not None
    assert fill([box(WIDE + 0.2, 900)], ROLL, work=0) is None


def test_a_long_piece_is_turned_along_the_roll_at_its_own_angle() -> None:
    """A strip 810 by 2000 drawn 37 degrees askew fits only when it is turned straight."""
    askew = shapely.affinity.rotate(shapely.box(0, 0, 810, 2000), 37, origin=(0, 0))
    one = shape([(x, y) for x, y in askew.exterior.coords[:-1]])
    filled = fill([one], ROLL, work=0)
    assert filled is not None
    assert filled.length == pytest.approx(2000, abs=15)


@pytest.mark.parametrize(
    ("rim", "width"),
    [
        ([(0, 0), (300, 0), (300, 100), (0, 100)], 100.0),
        # Equilateral triangle of side 200: its height.
        ([(0, 0), (200, 0), (100, 100 * math.sqrt(3))], 100 * math.sqrt(3)),
        # A half circle of radius 500 without a waist.
        (sector_rim(1, 500, 180), 500.0),
    ],
)
def test_how_narrow_a_shape_can_lie(rim: list[XY], width: float) -> None:
    assert narrowest([Point(x, y) for x, y in rim]) == pytest.approx(width, abs=0.5)


@pytest.mark.parametrize("apart", [0.0, 6.4, 30.0, math.nan])
def test_a_distance_that_cells_cannot_keep_is_refused(apart: float) -> None:
    with pytest.raises(GeometryError):
        Plane(width=WIDE, apart=apart)
