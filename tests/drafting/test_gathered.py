"""Straight lengths gathered at the waist: the trade's worked example, and every body."""

import math
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drafting.around import Around, all_round
from drafting.errors import GeometryError
from drafting.gathered import Gathered, full_width_ratio, least_panels
from drafting.geometry import Line, area, flattened, path_length
from drafting.outline import Outline
from drafting.piece import Edge, EdgeKind, Piece, cutting_box, cutting_line, stitching_line
from tests import tape


def piece(outline: Outline) -> Piece:
    return Piece(
        name="skirt panel",
        edges=(
            Edge(name="side", path=outline.begin, allowance=15.0),
            Edge(name="hem", path=outline.hem, allowance=12.0, kind=EdgeKind.HEM),
            Edge(name="side", path=outline.finish, allowance=15.0),
            Edge(name="waist", path=outline.waist, allowance=10.0),
        ),
        grainline=(outline.begin[0].start, outline.begin[0].end),
        cloth="skirt",
        count=1,
    )


def test_the_trades_skirt_takes_2_panels_of_955() -> None:
    # W + e 740, G 2.5: 1850; on 1400 with seams of 15, 1850/1370 = 1.35.
    flat = 1850.0
    assert least_panels(flat, 1400, 15) == 2
    cut = Gathered(panels=2, waistline=flat, around=all_round(650))
    box = cutting_box(piece(cut.outline(0, 0.5)))
    assert box.width == pytest.approx(955)
    assert box.height == pytest.approx(650 + 10 + 12)
    # Or both at full width: 2 x 1370 / 740.
    assert full_width_ratio(740, 2, 1400, 15) == pytest.approx(3.70, abs=0.005)


def test_widths_that_just_suffice_suffice() -> None:
    assert least_panels(3 * 1370, 1400, 15) == 3
    assert least_panels(3 * 1370 + 1e-7, 1400, 15) == 3
    assert least_panels(3 * 1370 + 0.1, 1400, 15) == 4
    assert least_panels(100, 1400, 15) == 1


def test_cloth_no_wider_than_its_seams_is_refused() -> None:
    with pytest.raises(GeometryError, match="leaves nothing"):
        least_panels(1850, 30, 15)
    with pytest.raises(GeometryError, match="leaves nothing"):
        full_width_ratio(740, 2, 20, 15)


def test_it_is_as_wide_at_the_hem_as_at_the_waist() -> None:
    cut = Gathered(panels=3, waistline=2000, around=all_round(650))
    assert (cut.sweep, cut.girth_at(200), cut.girth_above_hem(210)) == pytest.approx((2000,) * 3)
    assert (cut.length, cut.around.most, cut.alike) == (650, 650, True)
    assert cut.waist_radius is cut.hem_radius is None
    assert cut.fullness is cut.panel_angle is None
    (hem,) = cut.outline(0, 1 / 3).hem
    assert isinstance(hem, Line)


@pytest.mark.parametrize(
    ("panels", "line", "long"), [(0, 1850, 650), (2, 0, 650), (2, math.nan, 650), (2, 1850, 0)]
)
def test_a_skirt_of_nothing_is_refused(panels: int, line: float, long: float) -> None:
    with pytest.raises(GeometryError):
        Gathered(panels=panels, waistline=line, around=all_round(long))


lengths = st.floats(400, 500)

skirts = st.builds(
    lambda panels, line, front, left, back, right, even: Gathered(
        panels=panels,
        waistline=line,
        around=all_round(front) if even else Around(front=front, left=left, back=back, right=right),
    ),
    st.integers(1, 6),
    st.floats(700, 6000),
    lengths,
    lengths,
    lengths,
    lengths,
    st.booleans(),
)


@settings(max_examples=150, deadline=None)
@given(skirts, st.sampled_from([0.0, 0.75]))
def test_every_gathered_skirt_closes_and_trues(cut: Gathered, start: float) -> None:
    shares = [start + k / cut.panels for k in range(cut.panels + 1)]
    drawn = [cut.outline(begin, finish) for begin, finish in pairwise(shares)]
    for share, outline in zip(shares, drawn, strict=False):
        whole = piece(outline)
        assert area(stitching_line(whole)) > 0
        assert path_length(outline.begin) == pytest.approx(cut.around.at(share), abs=1e-6)
        assert path_length(outline.finish) == pytest.approx(
            cut.around.at(share + 1 / cut.panels), abs=1e-6
        )
        assert path_length(outline.waist) == pytest.approx(cut.waistline / cut.panels)
        # Right side up: the waist above, the first edge on the left.
        assert outline.begin[0].start == (0, 0)
        assert outline.begin[0].end.y < 0 < outline.finish[0].start.x
        outer = flattened(cutting_line(whole))
        assert area(cutting_line(whole)) > area(stitching_line(whole))
        for edge in whole.edges:
            for segment in edge.path[:: max(len(edge.path) // 8, 1)]:
                x, y = tape.dots(segment, 2)[1]
                assert tape.winds_round((x, y), outer), edge.name
    assert math.fsum(path_length(g.waist) for g in drawn) == pytest.approx(cut.waistline)
    # Chords round the body, independent of arcs.
    steps = 4000
    hem = math.fsum(
        math.hypot(cut.waistline / steps, cut.around.at((k + 1) / steps) - cut.around.at(k / steps))
        for k in range(steps)
    )
    assert math.fsum(path_length(g.hem) for g in drawn) == pytest.approx(hem, abs=0.02)
    assert cut.sweep == pytest.approx(hem, abs=0.02)


@settings(max_examples=100, deadline=None)
@given(skirts, st.floats(0, 300), st.floats(0, 1))
def test_a_line_above_the_hem_runs_so_far_above_it(cut: Gathered, up: float, share: float) -> None:
    line, hem = (cut.line_above_hem(rise, 0, 1) for rise in (up, 0.0))
    for one, other in ((line[0].start, hem[0].start), (line[-1].end, hem[-1].end)):
        assert one.x == pytest.approx(other.x, abs=1e-6)
        assert one.y - other.y == pytest.approx(up, abs=1e-6)
    assert cut.girth_above_hem(up) == pytest.approx(cut.sweep, abs=0.01)
    half = cut.outline(share, share + 0.5 / cut.panels)
    assert path_length(half.waist) == pytest.approx(cut.waistline / cut.panels / 2, abs=1e-6)
    assert path_length(half.finish) == pytest.approx(
        cut.around.at(share + 0.5 / cut.panels), abs=1e-6
    )
