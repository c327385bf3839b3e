"""Godets: sectors set into seams, and the point of cloth above them."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drafting.errors import GeometryError
from drafting.geometry import area, flattened
from drafting.godet import godet_piece, sweep_added
from drafting.piece import EdgeKind, Piece, cutting_line, stitching_line
from tests import tape


def godet(depth: float, angle: float, *, a: float = 15, h: float = 12, count: int = 8) -> Piece:
    return godet_piece(
        depth, math.radians(angle), count=count, seam_allowance=a, hem_allowance=h, seam="3"
    )


def highest(piece: Piece) -> float:
    return max(y for _, y in tape.chain(cutting_line(piece), 100))


def test_the_trades_godet_is_a_third_of_the_length_deep_and_60_degrees_wide() -> None:
    # L 660: g 220; 8 of them add 8 x 220 x pi/3.
    assert sweep_added(220, math.pi / 3, 8) == pytest.approx(1843.07, abs=0.005)
    drawn = godet(220, 60)
    assert [edge.name for edge in drawn.edges] == ["side", "hem", "side"]
    assert drawn.edges[1].kind is EdgeKind.HEM
    assert tape.walked_length(drawn.edges[1].path) == pytest.approx(220 * math.pi / 3, abs=1e-3)
    assert (drawn.name, drawn.cloth, drawn.count) == ("godet", "skirt", 8)
    # The point of the allowances: a / sin 30.
    assert highest(drawn) == pytest.approx(30)


def test_a_narrow_godets_point_is_blunt_one_allowance_above_the_stitching() -> None:
    # Left alone it would be 15 / sin 10 = 86 long.
    drawn = godet(220, 20)
    assert highest(drawn) == pytest.approx(15, abs=0.02)
    assert tape.walked_length(drawn.edges[3].path) < 0.01
    assert drawn.edges[3].words == ""
    # Wide enough for both allowances there, and the sides' own allowance is untouched.
    top = max(cutting_line(drawn), key=lambda s: s.start.y + s.end.y)
    assert math.dist(top.start, top.end) == pytest.approx(
        2 * (15 / math.sin(math.radians(10)) - 15) * math.tan(math.radians(10)), abs=0.02
    )


def test_a_wide_godet_keeps_its_mitre() -> None:
    drawn = godet(220, 120)
    assert len(drawn.edges) == 3
    assert highest(drawn) == pytest.approx(15 / math.sin(math.radians(60)))


def test_a_godet_is_marked_where_it_meets_its_seam() -> None:
    for depth, notches in ((220, 2), (800, 4)):
        drawn = godet(depth, 60)
        assert len(drawn.notches) == notches
        assert {notch.seam for notch in drawn.notches} == {"3"}
        down = [n.at for n in drawn.notches if n.edge == 0]
        up = [depth - n.at for n in drawn.notches if n.edge == 2]
        assert down == pytest.approx(up)
    (dot,) = drawn.dots
    assert (dot.at, dot.words) == ((0, 0), "top of the godet")


@pytest.mark.parametrize(("depth", "angle"), [(0, 60), (math.nan, 60), (200, 0), (200, 180)])
def test_a_godet_that_is_none_is_refused(depth: float, angle: float) -> None:
    with pytest.raises(GeometryError):
        godet(depth, angle)


@settings(max_examples=150, deadline=None)
@given(
    depth=st.floats(100, 900),
    angle=st.floats(10, 150),
    a=st.floats(5, 25),
    h=st.floats(0, 40),
    count=st.integers(1, 12),
)
def test_every_godet_closes_trues_and_can_be_cut(
    depth: float, angle: float, a: float, h: float, count: int
) -> None:
    drawn = godet(depth, angle, a=a, h=h, count=count)
    line = stitching_line(drawn)
    assert area(line) == pytest.approx(depth**2 * math.radians(angle) / 2, rel=1e-3)
    assert drawn.edges[0].length == pytest.approx(depth, abs=1e-6)
    assert drawn.edges[2].length == pytest.approx(depth, abs=1e-6)
    assert count * drawn.edges[1].length == pytest.approx(
        sweep_added(depth, math.radians(angle), count), abs=0.03 * count
    )
    # Waist above: the first side on the left, the middle on the grain.
    assert drawn.edges[0].path[-1].end.x < 0 < drawn.edges[2].path[0].start.x
    (ax, ay), (bx, by) = drawn.grainline
    assert ax == pytest.approx(0, abs=1e-9)
    assert bx == pytest.approx(0, abs=1e-9)
    assert abs(by - ay) >= 0.5 * depth
    outline = flattened(line)
    assert tape.winds_round((ax, ay), outline)
    assert tape.winds_round((bx, by), outline)
    # The cutting line goes round it all, and no point runs further than twice its allowance.
    outer = flattened(cutting_line(drawn))
    assert area(cutting_line(drawn)) > area(line)
    for edge in drawn.edges:
        if edge.allowance > 0.5:
            for x, y in tape.chain(edge.path, 9)[1:-1]:
                assert tape.winds_round((x, y), outer), edge.name
    assert highest(drawn) <= 2 * a + 1e-6
    for edge in (drawn.edges[0], drawn.edges[2]):
        (x, y), (u, v) = edge.path[0].start, edge.path[0].end
        middle = ((x + u) / 2, (y + v) / 2)
        assert tape.gap(middle, cutting_line(drawn)) == pytest.approx(a, abs=1e-6)
