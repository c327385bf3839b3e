"""The cutting line: everywhere exactly its allowance outside the seam, with the right corners."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drafting.allowance import Border, Widths, cutting_path
from drafting.circle import Flare
from drafting.errors import GeometryError
from drafting.geometry import Arc, Line, Path, Point, straight
from drafting.panel_wishes import PanelWishes
from drafting.panels import panel
from drafting.piece import EdgeKind, Piece, cutting_line, stitching_line
from drafting.spec import Closure, Grain
from tests import tape


def a_panel(
    flare: Flare, allowances: Widths, *, half: bool = False, grain: Grain = Grain.EDGE
) -> Piece:
    return panel(
        flare,
        PanelWishes(
            part="skirt",
            allowances=allowances,
            grain=grain,
            closure=Closure.CENTRE_BACK,
            opening=0,
            seam="1",
            waist_seam="2",
            half=half,
        ),
    )


panels = st.builds(
    lambda waist, long, angle, half, w, s, h: a_panel(
        Flare(fullness=angle / 360, panels=1, waistline=waist * angle / 360, length=long),
        Widths(waist=w, side=s, hem=h),
        half=half,
    ),
    st.floats(700, 4000),
    st.floats(250, 1200),
    st.floats(40, 180),
    st.booleans(),
    st.floats(3, 20),
    st.floats(3, 25),
    st.floats(0, 30),
)


def square(width: float = 0, allowances: tuple[float, ...] = (1, 2, 3, 4)) -> Path:
    corners = (Point(0, 0), Point(100, 0), Point(100, 50), Point(0, 50))
    sides = zip(corners, corners[1:] + corners[:1], allowances, strict=True)
    return cutting_path([Border(path=straight(a, b), allowance=w) for a, b, w in sides])


def test_a_rectangle_grows_by_each_edges_own_allowance() -> None:
    assert tape.extent(tape.chain(square())) == pytest.approx((-4, -1, 102, 53))
    assert tape.walked_area(square()) == pytest.approx(106 * 54)


@settings(max_examples=100, deadline=None)
@given(panels)
def test_away_from_corners_the_cutting_line_lies_its_edges_allowance_out(piece: Piece) -> None:
    corners = [edge.path[0].start for edge in piece.edges]
    deepest = max(edge.allowance for edge in piece.edges)
    seen: set[str] = set()
    for segment in cutting_line(piece):
        for point in tape.dots(segment, 60):
            if min(math.dist(point, corner) for corner in corners) < 2 * deepest + 1:
                continue
            away, edge = min(
                ((tape.gap(point, edge.path), edge) for edge in piece.edges),
                key=lambda pair: pair[0],
            )
            assert away == pytest.approx(edge.allowance, abs=1e-6), edge.name
            seen.add(edge.name)
    assert {"hem", "centre_back"} <= seen


@settings(max_examples=60, deadline=None)
@given(panels)
def test_the_cutting_line_goes_round_the_stitching_line(piece: Piece) -> None:
    outer = tape.chain(cutting_line(piece), 90)
    for edge in piece.edges:
        for x, y in tape.chain(edge.path, 9)[1:-1]:
            if edge.allowance > 0.5:
                assert tape.winds_round((x, y), outer), edge.name
    inner = tape.chain(stitching_line(piece), 90)
    for segment in cutting_line(piece):
        for point in tape.dots(segment, 6):
            if tape.gap(point, stitching_line(piece)) > 0.5:
                assert not tape.winds_round(point, inner)


@settings(max_examples=60, deadline=None)
@given(panels)
def test_the_cutting_line_is_closed_and_runs_with_the_piece_on_its_left(piece: Piece) -> None:
    line = cutting_line(piece)
    for one, other in zip(line, (*line[1:], line[0]), strict=True):
        assert math.dist(one.end, other.start) < 1e-6
    assert tape.walked_area(line, 400) > tape.walked_area(stitching_line(piece), 400) > 0


def test_a_hem_turned_up_on_a_flare_is_as_wide_as_the_cloth_it_lies_on() -> None:
    # Folded over the hem line, a point at R + x comes to R - x at the same angle. There the
    # side's cutting line is 15 below the side seam, so the folded corner must be too.
    side, hem = 15.0, 40.0
    flare = Flare(fullness=0.25, panels=1, waistline=180, length=400)
    big = 180 / (math.pi / 2) + 400
    piece = a_panel(flare, Widths(waist=10, side=side, hem=hem))
    line = cutting_line(piece)
    joins = [
        s
        for s in line
        if isinstance(s, Line)
        and abs(math.hypot(*s.start) - math.hypot(big, 0)) < 1
        and math.hypot(*s.end) > big + hem - 1
    ]
    (corner,) = joins
    for x, y in tape.dots(corner, 10):
        out, angle = math.hypot(x, y) - big, math.atan2(y, x)
        folded = ((big - out) * math.cos(angle), (big - out) * math.sin(angle))
        # The corner is cut straight between its two ends; in between it bows by next to nothing.
        assert folded[1] == pytest.approx(-side, abs=0.06)
    x, y = corner.end
    angle = math.atan2(y, x)
    assert (big - hem) * math.sin(angle) == pytest.approx(-side, abs=1e-6)
    assert math.hypot(x, y) == pytest.approx(big + hem, abs=1e-6)
    # A plain mitre would have ended on the side's own cutting line, 15 below the seam.
    assert y < -side - 1


def test_a_straight_hem_is_mirrored_too() -> None:
    # A gore flaring 1 in 5: at the cut hem edge, 30 below the hem line, it must be as wide as
    # 30 above it, so its side runs in again.
    corners = (Point(0, 0), Point(100, 0), Point(80, 100), Point(20, 100))
    paths = [straight(a, b) for a, b in zip(corners, corners[1:] + corners[:1], strict=True)]
    widths = (30.0, 0.0, 0.0, 0.0)
    line = cutting_path(
        [
            Border(path=p, allowance=w, turns_up=k == 0)
            for k, (p, w) in enumerate(zip(paths, widths, strict=True))
        ]
    )
    lowest = [p for p in tape.chain(line) if p[1] < -29.9]
    assert min(p[0] for p in lowest) == pytest.approx(6)
    assert max(p[0] for p in lowest) == pytest.approx(94)


def test_a_fold_gets_no_allowance() -> None:
    piece = a_panel(Flare(fullness=0.5, panels=1, waistline=360, length=600), Widths(), half=True)
    # Half of 180 degrees: the fold lies on the y axis and nothing is cut beyond it but the
    # mirrored corner of the hem, which returns to the fold.
    left, _, _, _ = tape.extent(tape.chain(cutting_line(piece)))
    assert left == pytest.approx(0, abs=1e-6)
    assert piece.edges[2].kind is EdgeKind.FOLD


def test_an_allowance_wider_than_its_curve_is_refused() -> None:
    bent: Path = (Arc(centre=Point(0, 0), radius=8, begin=math.pi, finish=0),)
    with pytest.raises(GeometryError, match="does not fit inside a curve"):
        cutting_path([Border(path=bent, allowance=10)])


def test_allowances_that_never_meet_at_a_corner_are_refused() -> None:
    with pytest.raises(GeometryError, match="do not meet"):
        a_line = Line(start=Point(0, 0), end=Point(10, 0))
        on = Line(start=Point(10, 0), end=Point(20, 0))
        cutting_path([Border(path=(a_line,), allowance=5), Border(path=(on,), allowance=9)])
