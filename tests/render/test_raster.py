"""Cells that a piece may touch: none is missed within reach of it, few are taken beyond."""

import math

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from drafting.geometry import Point
from render.raster import Raster, raster
from tests.render.test_placement import outline

WIDE, HIGH = 9.5, 9.9


def cell(found: Raster, row: int, column: int, border: int) -> shapely.Polygon:
    """Return a cell where it lies in the turned outline's frame."""
    left = found.left + (column - border) * WIDE
    bottom = found.bottom + (row - border) * HIGH
    return shapely.box(left, bottom, left + WIDE, bottom + HIGH)


def turned(points: list[tuple[float, float]], turn: float) -> shapely.Polygon:
    c, s = math.cos(turn), math.sin(turn)
    return shapely.Polygon([(x * c - y * s, x * s + y * c) for x, y in points])


@pytest.mark.parametrize("spread", [0.0, 3.0])
@settings(max_examples=30, deadline=None)
@given(
    turn=st.floats(0, math.tau),
    sizes=st.tuples(st.floats(20, 60), st.floats(20, 120), st.floats(15, 170)),
)
def test_every_cell_within_reach_is_taken_and_none_far_away(
    spread: float, turn: float, sizes: tuple[float, float, float]
) -> None:
    inner, long, degrees = sizes
    rim = outline(inner, inner + long, degrees)
    found = raster([Point(x, y) for x, y in rim], turn, WIDE, HIGH, spread)
    shape = turned(rim, turn)
    border = 1 if spread else 0
    for row, held in enumerate(found.rows):
        for column in range(found.columns + 2 * border):
            away = shape.distance(cell(found, row, column, border))
            taken = bool(held >> column & 1)
            if (
                away < spread - 0.01
                or shape.intersection(cell(found, row, column, border)).area > 0.5
            ):
                assert taken, (row, column, away)
            if away > spread + math.hypot(WIDE, HIGH):
                assert not taken, (row, column, away)


def test_a_piece_that_just_fits_two_cells_takes_two_and_begins_a_hair_outside_itself() -> None:
    """Its edges keep a hair off the cells' own, so it is never counted on the page before."""
    square = [Point(0, 0), Point(2 * WIDE - 0.2, 0), Point(2 * WIDE - 0.2, HIGH - 0.2),
              Point(0, HIGH - 0.2)]  # fmt: skip
    found = raster(square, 0.0, WIDE, HIGH, 0.0)
    assert (found.columns, len(found.rows)) == (2, 1)
    assert found.rows == (0b11,)
    assert (found.left, found.bottom) < (0, 0)
