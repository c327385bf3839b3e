"""Curves as runs of arcs: smooth, close, and of the right length."""

import math
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drafting.curve import CURVE_ERROR, biarc, curve
from drafting.geometry import (
    Path,
    Point,
    direction_along,
    distance,
    length,
    path_length,
    point_along,
)


def corners(path: Path) -> list[float]:
    """Return by how much the direction jumps where one segment follows another."""
    jumps = []
    for one, other in pairwise(path):
        turn = direction_along((one,), length(one)) - direction_along((other,), 0.0)
        jumps.append(abs(math.remainder(turn, math.tau)))
    return jumps


def wave(x: float) -> Point:
    return Point(x, 40 * math.sin(x / 60))


def heading(x: float) -> float:
    return math.atan2(40 / 60 * math.cos(x / 60), 1.0)


def test_arcs_follow_each_other_without_a_corner() -> None:
    path = curve(wave, heading, 0.0, 400.0)
    assert max(corners(path)) < 1e-6
    assert distance(path[0].start, wave(0)) < 1e-9
    assert distance(path[-1].end, wave(400)) < 1e-9


def test_arcs_lie_on_the_curve_they_stand_for() -> None:
    path = curve(wave, heading, 0.0, 400.0)
    fine = [wave(k / 50) for k in range(20_001)]
    whole = path_length(path)
    for k in range(201):
        here = point_along(path, whole * k / 200)
        assert min(distance(here, p) for p in fine if abs(p.x - here.x) < 0.1) < CURVE_ERROR + 0.015


def test_the_length_is_the_curves_own() -> None:
    # Trapezoids over 400 000 steps, by hand: sqrt(1 + y'^2).
    steps = 400_000
    slopes = (math.hypot(1, 40 / 60 * math.cos(400 * (k + 0.5) / steps / 60)) for k in range(steps))
    assert path_length(curve(wave, heading, 0.0, 400.0)) == pytest.approx(
        math.fsum(slopes) * 400 / steps, abs=0.002
    )


@settings(max_examples=200)
@given(st.floats(-1.4, 1.4), st.floats(-1.4, 1.4), st.floats(1, 1000))
def test_two_arcs_leave_and_arrive_as_they_are_told(out: float, into: float, far: float) -> None:
    path = biarc(Point(0, 0), out, Point(far, 0), into)
    assert distance(path[0].start, Point(0, 0)) < 1e-6 * far
    assert distance(path[-1].end, Point(far, 0)) < 1e-6 * far
    ends = (
        direction_along(path[:1], 0.0) - out,
        direction_along(path[1:], length(path[1])) - into,
    )
    assert all(abs(math.remainder(end, math.tau)) < 1e-5 for end in ends)
    assert max(corners(path)) < 1e-5
