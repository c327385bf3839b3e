"""Lines and arcs: lengths, areas and boxes against many small steps, and school geometry."""

import itertools
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drafting.errors import GeometryError
from drafting.geometry import (
    CHORD_ERROR,
    Arc,
    Box,
    Line,
    Path,
    Point,
    Segment,
    angles_within,
    area,
    bounds,
    direction_along,
    distance,
    flattened,
    holds,
    length,
    mirrored,
    moved,
    moved_point,
    path_length,
    point_along,
    reversed_path,
    scaled,
    stepped,
    straight,
    walked_to,
)
from tests import tape

places = st.builds(Point, st.floats(-2000, 2000), st.floats(-2000, 2000))
lines = st.builds(lambda a, b: Line(start=a, end=b), places, places)
arcs = st.builds(
    lambda c, r, b, turn, way: Arc(centre=c, radius=r, begin=b, finish=b + way * turn),
    places,
    st.floats(5, 2000),
    st.floats(-7, 7),
    st.floats(0.01, 6.28),
    st.sampled_from((1, -1)),
)


def ring_sector(r: float, big: float, angle: float) -> Path:
    o = Point(0, 0)
    far, near = (Point(k * math.cos(angle), k * math.sin(angle)) for k in (big, r))
    return (
        Line(start=Point(r, 0), end=Point(big, 0)),
        Arc(centre=o, radius=big, begin=0, finish=angle),
        Line(start=far, end=near),
        Arc(centre=o, radius=r, begin=angle, finish=0),
    )


def close(one: tuple[float, float], other: tuple[float, float], within: float = 1e-6) -> bool:
    return math.dist(one, other) <= within


def test_a_quarter_circle_of_radius_100_is_157_08_long() -> None:
    assert length(Arc(centre=Point(3, 4), radius=100, begin=1, finish=1 + math.pi / 2)) == (
        pytest.approx(157.0796, abs=1e-4)
    )


@settings(max_examples=80, deadline=None)
@given(arcs)
def test_an_arc_is_as_long_as_its_many_small_chords(arc: Arc) -> None:
    assert path_length((arc,)) == pytest.approx(tape.walked_length((arc,)), rel=1e-5)


def test_a_radius_of_nought_or_less_makes_no_arc() -> None:
    for radius in (0.0, -3.0, math.nan):
        with pytest.raises(GeometryError):
            Arc(centre=Point(0, 0), radius=radius, begin=0, finish=1)


def test_a_half_disc_ring_has_half_the_area_of_the_ring() -> None:
    # 764.6^2 - 114.6^2 = 650 x 879.2 = 571 480, times pi / 2.
    assert area(ring_sector(114.6, 764.6, math.pi)) == pytest.approx(897_678.7, abs=0.1)


@settings(max_examples=80, deadline=None)
@given(st.floats(20, 900), st.floats(30, 1000), st.floats(0.2, 6.2), places, st.floats(-4, 4))
def test_area_agrees_with_trapeziums_wherever_the_piece_lies(
    r: float, long: float, angle: float, at: Point, turn: float
) -> None:
    path = moved(ring_sector(r, r + long, angle), x=at.x, y=at.y, turn=turn)
    assert area(path) == pytest.approx(angle * ((r + long) ** 2 - r**2) / 2, rel=1e-9)
    assert area(path) == pytest.approx(tape.walked_area(path), rel=1e-4)
    assert area(reversed_path(path)) == pytest.approx(-area(path), rel=1e-9)


@settings(max_examples=80, deadline=None)
@given(st.lists(st.one_of(lines, arcs), min_size=1, max_size=3))
def test_the_box_holds_every_point_and_touches_on_all_four_sides(parts: list[Segment]) -> None:
    box = bounds(tuple(parts))
    left, bottom, right, top = tape.extent([p for s in parts for p in tape.dots(s, 2000)])
    # The step of 2000 points may miss an arc's utmost point by less than r angle^2 / 8.
    for ours, theirs, way in (
        (box.left, left, -1),
        (box.bottom, bottom, -1),
        (box.right, right, 1),
        (box.top, top, 1),
    ):
        assert -1e-6 <= (ours - theirs) * way <= 0.01


def test_a_half_circles_box_reaches_its_top() -> None:
    box = bounds((Arc(centre=Point(0, 0), radius=50, begin=0, finish=math.pi),))
    assert [box.left, box.right, box.top] == pytest.approx([-50, 50, 50])
    assert [box.width, box.height, box.centre.y] == pytest.approx([100, 50, 25])


def test_boxes_grow_meet_and_hold() -> None:
    small = Box(left=0, bottom=0, right=10, top=20)
    assert small.grown(5) == Box(left=-5, bottom=-5, right=15, top=25)
    assert small.grown(1).holds(small) and not small.holds(small.grown(1))
    assert small.meets(Box(left=10, bottom=20, right=11, top=21))
    assert not small.meets(Box(left=10.1, bottom=0, right=11, top=21))
    assert not small.meets(Box(left=0, bottom=20.1, right=10, top=30))


@settings(max_examples=80, deadline=None)
@given(arcs, places, st.floats(-7, 7), st.floats(0.1, 3))
def test_moving_turning_and_mirroring_keep_lengths_and_scaling_multiplies_them(
    arc: Arc, at: Point, turn: float, by: float
) -> None:
    for same in (
        moved((arc,), x=at.x, y=at.y, turn=turn),
        mirrored((arc,), through=at, along=turn),
        reversed_path((arc,)),
    ):
        assert tape.walked_length(same) == pytest.approx(tape.walked_length((arc,)), rel=1e-9)
    assert tape.walked_length(scaled((arc,), by)) == pytest.approx(
        by * tape.walked_length((arc,)), rel=1e-9
    )


@settings(max_examples=80, deadline=None)
@given(arcs, places, st.floats(-7, 7))
def test_a_mirrored_point_lies_as_far_behind_the_mirror_as_the_point_before_it(
    arc: Arc, at: Point, along: float
) -> None:
    (flipped,) = mirrored((arc,), through=at, along=along)
    ux, uy = math.cos(along), math.sin(along)
    for (ax, ay), (bx, by) in zip(tape.dots(arc, 7), tape.dots(flipped, 7), strict=True):
        before = (ay - at.y) * ux - (ax - at.x) * uy
        behind = (by - at.y) * ux - (bx - at.x) * uy
        assert behind == pytest.approx(-before, abs=1e-6)
        assert (bx - ax) * ux + (by - ay) * uy == pytest.approx(0, abs=1e-6)


def test_a_quarter_turn_takes_the_x_axis_to_the_y_axis() -> None:
    assert close(moved_point(Point(10, 0), x=1, y=2, turn=math.pi / 2), (1, 12))
    (line,) = moved(straight(Point(10, 0), Point(20, 0)), x=1, y=2, turn=math.pi / 2)
    assert isinstance(line, Line)
    assert close(line.start, (1, 12)) and close(line.end, (1, 22))
    assert close(stepped(Point(1, 1), math.pi, 5), (-4, 1))
    assert distance(Point(0, 0), Point(3, 4)) == pytest.approx(5)


def test_a_path_walked_the_other_way_begins_at_its_end() -> None:
    path = ring_sector(100, 300, 1.2)
    back = reversed_path(path)
    assert close(back[0].start, path[-1].end) and close(back[-1].end, path[0].start)
    assert close(back[0].end, path[-1].start)


def test_a_point_along_a_path_is_found_by_arc_length_not_by_share_of_segments() -> None:
    path: Path = (
        Line(start=Point(0, 0), end=Point(100, 0)),
        Arc(centre=Point(100, 50), radius=50, begin=-math.pi / 2, finish=0),
    )
    assert close(point_along(path, 60), (60, 0))
    halfway = point_along(path, 100 + 25 * math.pi / 2)
    assert close(halfway, (100 + 50 * math.sqrt(0.5), 50 - 50 * math.sqrt(0.5)))
    assert direction_along(path, 100 + 25 * math.pi / 2) == pytest.approx(math.pi / 4)
    assert close(point_along(path, -9), (0, 0)) and close(point_along(path, 999), (150, 50))
    clockwise: Path = (Arc(centre=Point(0, 0), radius=10, begin=math.pi / 2, finish=0),)
    assert direction_along(clockwise, 0) == pytest.approx(0, abs=1e-9)
    with pytest.raises(GeometryError):
        point_along((), 0)


def test_quarter_turns_within_a_turn_and_a_half_are_all_found() -> None:
    found = angles_within(0.1, 0.1 + 3 * math.pi, math.pi / 2)
    assert found == pytest.approx((math.pi / 2, 2.5 * math.pi))
    assert angles_within(1.0, 0.5, 2.0) == ()


@settings(max_examples=60, deadline=None)
@given(st.floats(20, 900), st.floats(30, 1000), st.floats(0.2, 3.1))
def test_a_polygon_stays_within_two_hundredths_of_its_arcs(
    r: float, long: float, angle: float
) -> None:
    path = ring_sector(r, r + long, angle)
    for outside in (False, True):
        corners = flattened(path, outside=outside)
        for a, b in itertools.pairwise(corners):
            for share in (0.25, 0.5, 0.75):
                middle = (a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share)
                assert tape.gap(middle, path) <= CHORD_ERROR + 1e-6


@settings(max_examples=60, deadline=None)
@given(st.floats(20, 900), st.floats(30, 1000), st.floats(0.2, 3.1))
def test_an_outside_polygon_leaves_no_cloth_out(r: float, long: float, angle: float) -> None:
    path = ring_sector(r, r + long, angle)
    for x, y in flattened(path, outside=True):
        # Every corner lies on or beyond the hem, and on or within the waist's own circle.
        assert math.hypot(x, y) >= r + long - 1e-6 or math.hypot(x, y) <= r + 1e-6
    assert area(path) <= tape.walked_area(
        tuple(
            Line(start=a, end=b)
            for a, b in zip(
                flattened(path, outside=True),
                (*flattened(path, outside=True)[1:], flattened(path, outside=True)[0]),
                strict=True,
            )
        )
    )


def test_a_point_is_inside_the_sector_or_in_the_waist_hole() -> None:
    polygon = flattened(ring_sector(100, 300, math.pi))
    assert holds(polygon, Point(0, 200)) and holds(polygon, Point(-200, 10))
    assert not holds(polygon, Point(0, 50)) and not holds(polygon, Point(0, 301))
    assert not holds(polygon, Point(200, -1))


def test_a_point_on_a_path_is_found_again_where_it_was_taken() -> None:
    bend = (
        Line(start=Point(0, 0), end=Point(40, 30)),
        Arc(centre=Point(40, 55), radius=25, begin=-math.pi / 2, finish=math.pi / 3),
        Arc(centre=Point(60, 90), radius=10, begin=5.0, finish=2.0),
    )
    for walked in (0.0, 13.0, 50.0, 71.5, 100.0, 118.0):
        assert walked_to(bend, point_along(bend, walked)) == pytest.approx(walked, abs=1e-6)
    assert walked_to(bend, Point(20, 20)) is None
