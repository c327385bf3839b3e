"""Lines cut at the rim of a page: the right parts, as long as they should be, nothing lost."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drafting.geometry import Arc, Box, Line, Path, Point, Segment
from render.clipping import clipped, meets

coordinates = st.floats(-300, 300)
angles = st.floats(-4 * math.pi, 4 * math.pi)


@st.composite
def lines(draw: st.DrawFn) -> Line:
    a, b, c, d = (draw(coordinates) for _ in range(4))
    return Line(start=Point(a, b), end=Point(c + 0.5, d))


@st.composite
def arcs(draw: st.DrawFn) -> Arc:
    begin = draw(angles)
    turn = draw(st.floats(0.01, 2 * math.pi)) * draw(st.sampled_from((-1, 1)))
    return Arc(
        centre=Point(draw(coordinates), draw(coordinates)),
        radius=draw(st.floats(0.5, 400)),
        begin=begin,
        finish=begin + turn,
    )


@st.composite
def boxes(draw: st.DrawFn) -> Box:
    left, bottom = draw(coordinates), draw(coordinates)
    return Box(
        left=left,
        bottom=bottom,
        right=left + draw(st.floats(5, 300)),
        top=bottom + draw(st.floats(5, 300)),
    )


def spot(segment: Segment, share: float) -> tuple[float, float]:
    if isinstance(segment, Line):
        (ax, ay), (bx, by) = segment.start, segment.end
        return ax + (bx - ax) * share, ay + (by - ay) * share
    angle = segment.begin + (segment.finish - segment.begin) * share
    return (
        segment.centre.x + segment.radius * math.cos(angle),
        segment.centre.y + segment.radius * math.sin(angle),
    )


def long(segment: Segment) -> float:
    if isinstance(segment, Line):
        return math.dist(segment.start, segment.end)
    return segment.radius * abs(segment.finish - segment.begin)


def depth(box: Box, x: float, y: float) -> float:
    """Return how deep a point lies in a box; below 0 outside."""
    return min(x - box.left, box.right - x, y - box.bottom, box.top - y)


STEPS = 1500


@settings(max_examples=120, deadline=None)
@given(st.one_of(lines(), arcs()), boxes())
def test_what_is_kept_is_what_lies_on_the_page(segment: Segment, box: Box) -> None:
    parts = clipped((segment,), box)
    whole = long(segment)
    kept = [(start, start + sum(long(part) for part in path)) for path, start in parts]
    for k in range(STEPS + 1):
        deep = depth(box, *spot(segment, k / STEPS))
        if abs(deep) < 1e-6:
            continue
        at = whole * k / STEPS
        on = any(begin - 1e-6 <= at <= end + 1e-6 for begin, end in kept)
        assert on is (deep > 0), f"{at:.3f} mm along"
    assert meets((segment,), box) is bool(parts)


@settings(max_examples=120, deadline=None)
@given(st.one_of(lines(), arcs()), boxes())
def test_every_part_begins_as_far_along_as_it_says(segment: Segment, box: Box) -> None:
    whole = long(segment)
    for path, start in clipped((segment,), box):
        walked = start
        for part in path:
            for share in (0.0, 0.3, 1.0):
                here = spot(part, share)
                along = spot(segment, (walked + share * long(part)) / whole)
                assert math.dist(here, along) < 1e-6
                assert depth(box, *here) > -1e-6
            walked += long(part)


def test_a_corner_inside_the_page_stays_joined() -> None:
    corner: Path = (
        Line(start=Point(-50, 20), end=Point(60, 20)),
        Line(start=Point(60, 20), end=Point(60, 500)),
    )
    ((path, start),) = clipped(corner, Box(left=0, bottom=0, right=100, top=100))
    assert start == pytest.approx(50)
    assert [round(long(part), 6) for part in path] == [60, 80]


def test_a_line_that_leaves_and_comes_back_is_two_parts() -> None:
    """A circle of 60 round the middle of a page 100 by 100 sticks out on four sides."""
    circle: Path = (Arc(centre=Point(50, 50), radius=60, begin=0.3, finish=0.3 + math.tau),)
    parts = clipped(circle, Box(left=0, bottom=0, right=100, top=100))
    # Each corner keeps the angle between acos(50/60) and asin(50/60), 1.17 to 0.985.. mirrored.
    corner = math.asin(50 / 60) - math.acos(50 / 60)
    total = sum(long(part) for path, _ in parts for part in path)
    assert total == pytest.approx(4 * 60 * corner, abs=1e-6)
    assert 4 <= len(parts) <= 5


def test_a_line_along_the_rim_is_kept() -> None:
    rim: Path = (Line(start=Point(0, 10), end=Point(0, 90)),)
    assert clipped(rim, Box(left=0, bottom=0, right=100, top=100)) == ((rim, 0.0),)


def test_a_line_past_the_page_is_not_kept() -> None:
    past: Path = (Line(start=Point(-5, -20), end=Point(130, 115)),)
    assert clipped(past, Box(left=0, bottom=50, right=50, top=100)) == ()
    assert not meets(past, Box(left=0, bottom=50, right=50, top=100))


def test_the_corner_where_a_closed_line_begins_is_a_corner_like_the_others() -> None:
    corners = [Point(0, 0), Point(40, 0), Point(40, 40), Point(0, 40)]
    square: Path = tuple(
        Line(start=a, end=b) for a, b in zip(corners, [*corners[1:], corners[0]], strict=True)
    )
    foot = Box(left=-5, bottom=-5, right=45, top=10)
    (part, start), *others = clipped(square, foot, round_start=True)
    assert not others
    assert [(s.start, s.end) for s in part] == [
        (Point(0, 10), Point(0, 0)),
        (Point(0, 0), Point(40, 0)),
        (Point(40, 0), Point(40, 10)),
    ]
    assert start == pytest.approx(150)
    # A broken line's dashes begin anew at its start, so there it stays two.
    assert len(clipped(square, foot)) == 2
    nearly = (*square[:3], Line(start=Point(0, 40), end=Point(0, 1)))
    assert len(clipped(nearly, foot, round_start=True)) == 2
