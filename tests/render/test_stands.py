"""The ways a panel may stand: the pages it needs are those it lies on, and no clash is missed."""

import math

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from drafting.geometry import Point
from drafting.spec import PaperName
from render.paper import grid
from render.stands import Cells, Turned, divided, fewest, stands
from tests.render.cloth_shapes import XY
from tests.render.test_placement import outline

A4 = grid(PaperName.A4, margin=None, overlap=10)
STEP_X, STEP_Y, OVERLAP = 180.0, 267.0, 10.0
CELLS = divided(A4, 2500, 3000)


def turned(rim: list[XY]) -> Turned:
    return Turned([Point(x, y) for x, y in rim], CELLS, 6.0)


def page(column: int, level: int) -> shapely.Polygon:
    """Return the part of a page that no neighbour shows."""
    left, bottom = column * STEP_X, level * STEP_Y
    return shapely.box(left + OVERLAP, bottom + OVERLAP, left + STEP_X, bottom + STEP_Y)


def has(pages: int, column: int, level: int, cells: Cells) -> bool:
    return bool(pages >> (level * cells.line + column) & 1)


panels = st.tuples(st.floats(40, 200), st.floats(60, 500), st.floats(20, 170))
shifts = st.tuples(st.integers(0, CELLS.y - 1), st.integers(0, CELLS.x - 1))


@settings(max_examples=40, deadline=None)
@given(panels, st.floats(0, math.tau), shifts)
def test_pages_needed_are_those_the_panel_lies_on_and_full_ones_lie_in_it(
    sizes: tuple[float, float, float], turn: float, shift: tuple[int, int]
) -> None:
    inner, long, degrees = sizes
    rim = outline(inner, inner + long, degrees)
    stand = turned(rim).stand(turn, *shift)
    c, s = math.cos(turn), math.sin(turn)
    lies = shapely.Polygon([(x * c - y * s, x * s + y * c) for x, y in rim])
    left, bottom, _, _ = lies.bounds
    lies = shapely.affinity.translate(
        lies, shift[1] * CELLS.wide - left, shift[0] * CELLS.high - bottom
    )
    slack = math.hypot(CELLS.wide, CELLS.high)
    for level in range(6):
        for column in range(8):
            own = page(column, level)
            if lies.intersection(own).area > 3.0:
                assert has(stand.pages, column, level, CELLS), (column, level)
            if lies.distance(own) > slack:
                assert not has(stand.pages, column, level, CELLS), (column, level)
            if has(stand.full, column, level, CELLS):
                assert own.difference(lies.buffer(slack)).area < 1.0
            elif lies.contains(own.buffer(slack)):
                pytest.fail(f"page {column}, {level} lies in the panel")
    assert stand.count == stand.pages.bit_count()


def test_ways_come_with_the_fewest_pages_first() -> None:
    """An apron just under two pages wide and one high: 2 pages upright, and 2 are the fewest."""
    apron = turned([(0, 0), (355, 0), (355, 262), (0, 262)])
    ways = stands(apron, [0.0, math.pi / 2, 0.3], 400)
    assert [way.count for way in ways] == sorted(way.count for way in ways)
    assert ways[0].count == 2
    assert ways[0].turned.turn == 0.0
    assert (ways[0].across, ways[0].up) == (2, 1)
    assert fewest(apron, 0.0) == 2
    # Lying: 262 mm take two columns, 355 mm two rows.
    assert fewest(apron, math.pi / 2) == 4


def test_a_floor_two_pages_wide_keeps_ways_that_are_wider_out() -> None:
    """540 by 250 mm take three pages lying, three columns wide, and four upright."""
    cells = divided(A4, 2 * STEP_X + OVERLAP, 3000)
    strip = Turned([Point(0, 0), Point(540, 0), Point(540, 250), Point(0, 250)], cells, 6.0)
    ways = stands(strip, [math.tau * k / 24 for k in range(24)], 500)
    assert max(way.across for way in ways) <= 2
    assert math.pi / 2 in {way.turned.turn for way in ways}
