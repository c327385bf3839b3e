"""Cloth: boxes of sectors, what fits its width, and rows of boxes."""

import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drafting.allowance import Widths
from drafting.circle import Flare
from drafting.cloth import box_on_cloth, fold_way, panel_width, usable_width
from drafting.cloth.boxes import rows_of_boxes
from drafting.geometry import Point, straight
from drafting.piece import Edge, EdgeKind, FoldWay, Piece, cutting_line
from drafting.spec import Cloth, Grain
from tests import tape
from tests.drafting.test_allowance import a_panel

E1 = Flare(fullness=1, panels=2, waistline=720, length=650)
E11 = Widths(waist=10, side=15, hem=15)
E12 = Flare(fullness=1, panels=6, waistline=720, length=1000)
E12_ALLOWANCES = Widths(waist=10, side=15, hem=10)


def rows(pieces: tuple[Piece, ...], width: float) -> float:
    return rows_of_boxes([(box_on_cloth(piece), piece.count) for piece in pieces], width)


def test_usable_width_leaves_out_selvages_and_shrinkage() -> None:
    # (1400 - 20) x 0.98 by hand.
    assert usable_width(Cloth(width=1400, selvage=10, shrink_width=0.02)) == pytest.approx(1352.4)


def plain_mitres(piece: Piece) -> Piece:
    """The piece with a hem that is faced or bound: its corners are plain mitres."""
    return replace(piece, edges=tuple(replace(edge, kind=EdgeKind.SEAM) for edge in piece.edges))


def test_example_11_a_half_circle_with_its_diameter_on_the_selvage() -> None:
    box = box_on_cloth(plain_mitres(a_panel(E1, E11)))
    assert box.width == pytest.approx(1559.2, abs=0.05)
    assert box.height == pytest.approx(794.6, abs=0.05)


def test_example_11_with_its_hem_turned_up_needs_half_a_millimetre_more() -> None:
    # The mirrored corner: at the cut edge as far out as 15 is at R - h, so
    # 15 x 779.59 / 749.59 = 15.60 below the seam; 779.59 + 15.60 = 795.19.
    box = box_on_cloth(a_panel(E1, E11))
    assert box.width == pytest.approx(1559.2, abs=0.05)
    assert box.height == pytest.approx(795.19, abs=0.01)


def test_example_11_two_half_circles_take_3118_in_rows() -> None:
    piece = plain_mitres(a_panel(E1, E11))
    assert rows((piece,), 1500) == pytest.approx(3118.4, abs=0.05)
    # Side by side only where 2 x 794.6 = 1589.2 fits.
    assert rows((piece,), 1589) == pytest.approx(3118.4, abs=0.05)
    assert rows((piece,), 1590) == pytest.approx(1559.2, abs=0.05)


def test_example_12_a_sector_of_60_degrees_centred_on_the_grain() -> None:
    box = box_on_cloth(plain_mitres(a_panel(E12, E12_ALLOWANCES, grain=Grain.CENTRE)))
    assert box.height == pytest.approx(1150.5, abs=0.05)
    assert box.width == pytest.approx(1042.4, abs=0.05)


def test_example_12_with_its_hem_turned_up_needs_half_a_millimetre_more() -> None:
    # The mirrored corner lies at asin(15 / (1114.59 - 10)) = 0.7781 degrees beyond the edge:
    # 2 x 1124.59 sin 30.7781 = 1150.94.
    box = box_on_cloth(a_panel(E12, E12_ALLOWANCES, grain=Grain.CENTRE))
    assert box.height == pytest.approx(1150.94, abs=0.01)
    assert box.width == pytest.approx(1042.4, abs=0.05)
    width = panel_width(E12, E12_ALLOWANCES, Grain.CENTRE)
    assert 1120 < width < 1400


def test_a_quarter_circle_with_an_edge_on_the_selvage_takes_a_square() -> None:
    box = box_on_cloth(a_panel(replace(E1, panels=4), E11))
    assert box.width == pytest.approx(box.height)
    # E11's half circle is as wide as the quarter is on both sides: 795.19.
    assert box.width == pytest.approx(795.19, abs=0.01)


def test_a_half_drawn_to_a_fold_is_boxed_as_the_whole() -> None:
    for grain in Grain:
        whole, half = (a_panel(E1, E11, grain=grain, half=h) for h in (False, True))
        one, other = box_on_cloth(whole), box_on_cloth(half)
        assert [other.width, other.height] == pytest.approx([one.width, one.height], abs=0.01)


@settings(max_examples=80, deadline=None)
@given(
    st.floats(20, 180),
    st.floats(700, 3000),
    st.floats(200, 1200),
    st.sampled_from(Grain),
)
def test_the_box_on_cloth_is_the_turned_outlines_own(
    angle: float, ring: float, long: float, grain: Grain
) -> None:
    flare = Flare(fullness=angle / 360, panels=1, waistline=ring * angle / 360, length=long)
    piece = a_panel(flare, Widths(), grain=grain)
    turn = math.radians(angle / 2) if grain is Grain.CENTRE else 0.0
    c, s = math.cos(-turn), math.sin(-turn)
    left, bottom, right, top = tape.extent(
        [(x * c - y * s, x * s + y * c) for x, y in tape.chain(cutting_line(piece), 3000)]
    )
    box = box_on_cloth(piece)
    assert box.width == pytest.approx(right - left, abs=0.01)
    assert box.height == pytest.approx(top - bottom, abs=0.01)


def test_folded_cloth_takes_half_a_panel_whose_middle_lies_on_the_fold() -> None:
    # A half of E12's 60-degree panel is 1150.94 / 2 wide: folded cloth of 1152 takes it.
    assert fold_way(E12, E12_ALLOWANCES, Grain.CENTRE, 1152) is FoldWay.LENGTHWISE
    assert fold_way(E12, E12_ALLOWANCES, Grain.CENTRE, 1150) is FoldWay.NONE


def test_an_edge_on_the_grain_puts_the_middle_on_the_bias_but_for_a_half_circles() -> None:
    assert fold_way(E1, E11, Grain.EDGE, 900) is FoldWay.CROSSWISE
    assert fold_way(E12, E12_ALLOWANCES, Grain.EDGE, 3000) is FoldWay.NONE
    assert fold_way(replace(E1, fullness=0.99), E11, Grain.EDGE, 3000) is FoldWay.NONE


def test_a_half_that_cannot_be_drawn_takes_no_fold() -> None:
    # A waist cut on 114.6 - 10 has no room for sides of 120.
    assert fold_way(E1, replace(E11, side=120), Grain.CENTRE, 9000) is FoldWay.NONE


def test_a_panel_that_cannot_be_drawn_fits_no_cloth() -> None:
    assert panel_width(replace(E1, panels=1), E11, Grain.EDGE) == math.inf


def box_piece(long: float, wide: float, count: int) -> Piece:
    """A rectangle, ``long`` along its grain and ``wide`` across it."""
    corners = (Point(0, 0), Point(long, 0), Point(long, wide), Point(0, wide))
    return Piece(
        name="skirt panel",
        edges=tuple(
            Edge(name="side", path=straight(a, b), allowance=0)
            for a, b in zip(corners, corners[1:] + corners[:1], strict=True)
        ),
        grainline=(Point(0.2 * long, wide / 2), Point(0.8 * long, wide / 2)),
        cloth="skirt",
        count=count,
    )


def rows_by_hand(boxes: list[tuple[float, float]], width: float) -> float:
    """The longest first, each into the first row with room: one box at a time."""
    laid: list[tuple[float, float]] = []
    for long, wide in sorted(boxes, reverse=True):
        for k, (row, used) in enumerate(laid):
            if used + wide <= width + 1e-6:
                laid[k] = (row, used + wide)
                break
        else:
            laid.append((long, wide))
    return math.fsum(row for row, _ in laid)


@settings(max_examples=150, deadline=None)
@given(
    st.lists(
        st.tuples(st.integers(10, 900), st.integers(10, 900), st.integers(1, 30)),
        min_size=1,
        max_size=4,
        unique_by=lambda box: box[0],
    ),
    st.integers(50, 1500),
)
def test_rows_are_what_laying_box_by_box_gives(
    kinds: list[tuple[int, int, int]], width: int
) -> None:
    pieces = tuple(box_piece(long, wide, count) for long, wide, count in kinds)
    boxes = [(float(long), float(wide)) for long, wide, count in kinds for _ in range(count)]
    found = rows(pieces, width)
    assert found == pytest.approx(rows_by_hand(boxes, width))
    assert found * max(width, max(wide for _, wide in boxes)) >= math.fsum(a * b for a, b in boxes)


def test_a_hundred_thousand_strips_are_laid_without_waiting() -> None:
    assert rows((box_piece(200, 90, 100_000),), 1000) == pytest.approx(100_000 / 11 * 200, abs=200)


def test_no_pieces_take_no_cloth() -> None:
    assert rows((), 1400) == 0
