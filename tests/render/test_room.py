"""Room for words: nothing is set over a line, over other words, or off the plane."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drafting.geometry import Arc, Box, Line, Path, Point
from render.room import Room, spread, turned_box
from tests.render.cloth_shapes import apart

FLOOR = Box(left=-50, bottom=20, right=350, top=320)
spots = st.tuples(st.floats(-40, 340), st.floats(30, 310))
turns = st.floats(0, math.tau)


def room() -> Room:
    return Room(box=FLOOR)


@given(spots, st.floats(3, 60), st.floats(3, 20), turns)
def test_an_empty_floor_is_free_wherever_words_fit_on_it(
    spot: tuple[float, float], wide: float, high: float, turn: float
) -> None:
    shape = turned_box(Point(*spot), wide, high, turn)
    fits = all(-50 <= p.x <= 350 and 20 <= p.y <= 320 for p in shape)
    assert room().is_free(shape) is fits


@given(spots, st.floats(3, 60), st.floats(3, 20), turns)
def test_a_turned_box_keeps_its_sides(
    spot: tuple[float, float], wide: float, high: float, turn: float
) -> None:
    a, b, c, d = turned_box(Point(*spot), wide, high, turn)
    assert math.dist(a, b) == pytest.approx(wide)
    assert math.dist(b, c) == pytest.approx(high)
    assert math.dist(a, c) == pytest.approx(math.dist(b, d))
    assert ((a.x + c.x) / 2, (a.y + c.y) / 2) == pytest.approx(spot)
    assert math.remainder(math.atan2(b.y - a.y, b.x - a.x) - turn, math.tau) == pytest.approx(
        0, abs=1e-9
    )


@settings(deadline=None)
@given(spots, spots, st.floats(0, 1), st.floats(4, 40), turns)
def test_no_words_are_set_over_a_straight_line(
    one: tuple[float, float], other: tuple[float, float], share: float, wide: float, turn: float
) -> None:
    taken = room()
    taken.enter((Line(start=Point(*one), end=Point(*other)),))
    on = Point(one[0] + (other[0] - one[0]) * share, one[1] + (other[1] - one[1]) * share)
    assert not taken.is_free(turned_box(on, wide, 4.0, turn))


@settings(deadline=None)
@given(st.floats(5, 120), turns, st.floats(0.1, 6), st.floats(0, 1), turns)
def test_no_words_are_set_over_a_curve(
    radius: float, begin: float, sweep: float, share: float, turn: float
) -> None:
    centre = Point(150, 170)
    hem: Path = (Arc(centre=centre, radius=radius, begin=begin, finish=begin + sweep),)
    taken = room()
    taken.enter(hem)
    at = begin + sweep * share
    on = Point(150 + radius * math.cos(at), 170 + radius * math.sin(at))
    assert not taken.is_free(turned_box(on, 10, 4.0, turn))


@settings(deadline=None)
@given(spots, turns, spots, turns)
def test_words_are_never_set_over_words(
    one: tuple[float, float], turn: float, other: tuple[float, float], other_turn: float
) -> None:
    taken = room()
    first = turned_box(Point(*one), 40, 6, turn)
    second = turned_box(Point(*other), 25, 5, other_turn)
    taken.claim(first)
    if apart([*first], [*second]) <= 0:
        assert not taken.is_free(second)


def test_words_far_from_a_line_are_not_kept_away() -> None:
    taken = room()
    taken.enter((Line(start=Point(0, 100), end=Point(300, 100)),))
    assert taken.is_free(turned_box(Point(150, 106), 40, 4, 0.0))
    assert taken.is_free(turned_box(Point(150, 94), 40, 4, 0.0))


def test_places_are_tried_from_the_middle_outwards() -> None:
    shares = spread(5)
    assert sorted(shares) == pytest.approx([1 / 6, 1 / 3, 1 / 2, 2 / 3, 5 / 6])
    away = [abs(share - 0.5) for share in shares]
    assert away == pytest.approx(sorted(away))


@given(spots, st.floats(3, 60), st.floats(3, 20), turns, st.lists(st.tuples(spots, spots)))
def test_a_place_is_ruled_out_early_only_if_words_are_not_free_there(
    spot: tuple[float, float],
    wide: float,
    high: float,
    turn: float,
    lines: list[tuple[tuple[float, float], tuple[float, float]]],
) -> None:
    floor, shape = room(), turned_box(Point(*spot), wide, high, turn)
    for one, other in lines:
        floor.enter((Line(start=Point(*one), end=Point(*other)),))
    may_be = floor.wide_enough(min(wide, high) / 2, FLOOR)
    if floor.is_free(shape):
        assert may_be(Point(*spot))


def test_a_place_beside_a_line_is_ruled_out() -> None:
    floor = room()
    floor.enter((Line(start=Point(-50, 100), end=Point(350, 100)),))
    may_be = floor.wide_enough(20, FLOOR)
    assert not may_be(Point(100, 100))
    assert not may_be(Point(100, 117))
    assert not may_be(Point(100, 83))
    assert may_be(Point(100, 124))
    assert not may_be(Point(100, 10))  # off the floor
