"""A piece as it is drawn: its lines, notches, grain and fold, and words where there is room."""

import math
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

import drafting
from drafting.geometry import Arc, Box, Line, Point, bounds, length, straight
from drafting.pattern import Pattern
from drafting.piece import (
    EdgeKind,
    FoldWay,
    InnerKind,
    InnerLine,
    Notch,
    NotchKind,
    Piece,
)
from render import fonts, style
from render.drawing import Anchor, Layer, Stroke, Text
from render.piece_drawing import piece_lines
from render.piece_words import piece_words
from render.placement import Placement
from render.room import Room
from render.spots import Spots, upright
from render.words import fold_words
from tests.render.cloth_shapes import rectangle


def strokes(piece: Piece) -> tuple[Stroke, ...]:
    return piece_lines(Placement(piece=piece, x=0, y=0, turn=0.0))


def ends(stroke: Stroke) -> tuple[Point, Point]:
    return stroke.path[0].start, stroke.path[-1].end


APRON = rectangle(400, 600, allowance=15)


def test_the_cutting_line_is_bold_and_the_stitching_line_dashed() -> None:
    """The table of lines in the house's look: 0.7 solid; 0.35, 6 on and 3 off."""
    drawn = strokes(APRON)
    cutting = [s for s in drawn if s.layer is Layer.CUTTING]
    stitching = [s for s in drawn if s.layer is Layer.STITCHING]
    assert [(s.pen.width, s.pen.dash) for s in cutting] == [(0.7, ())]
    assert {(s.pen.width, s.pen.dash) for s in stitching} == {(0.35, (6.0, 3.0))}
    box = bounds(cutting[0].path)
    assert (box.left, box.bottom, box.right, box.top) == pytest.approx((-15, -15, 415, 615))
    assert len(stitching) == 4


def test_an_edge_without_allowance_has_no_second_line() -> None:
    assert not [s for s in strokes(rectangle(400, 600)) if s.layer is Layer.STITCHING]


def test_no_line_is_a_hairline_or_pale(pattern: Pattern) -> None:
    for piece in pattern.pieces:
        for stroke in strokes(piece):
            assert stroke.pen.width >= 0.25
            assert stroke.pen.grey <= 0.5
            if stroke.pen.dash:
                on = math.fsum(stroke.pen.dash[::2])
                assert on / math.fsum(stroke.pen.dash) >= 0.6


@pytest.mark.parametrize("count", [1, 2, 3])
def test_a_notch_crosses_the_cutting_line_and_stops_short_of_the_seam(count: int) -> None:
    piece = replace(APRON, notches=(Notch(edge=1, at=200, strokes=count, seam="1"),))
    plain = {s.path for s in strokes(APRON)}
    notch = [s for s in strokes(piece) if s.path not in plain]
    assert len(notch) == count
    for stroke in notch:
        (ax, ay), (bx, by) = ends(stroke)
        # The edge is the right side, sewn at x = 400 and cut at x = 415.
        assert ay == pytest.approx(by)
        assert min(ax, bx) > 400 + 3
        assert max(ax, bx) > 415
    heights = sorted(ends(stroke)[0].y for stroke in notch)
    assert sum(heights) / count == pytest.approx(200)


@pytest.mark.parametrize("count", [1, 2])
def test_a_balance_notch_is_a_wedge_that_stands_on_the_cutting_line(count: int) -> None:
    balance = Notch(edge=1, at=200, kind=NotchKind.BALANCE, strokes=count, seam="1")
    plain = {s.path for s in strokes(APRON)}
    wedges = [s for s in strokes(replace(APRON, notches=(balance,))) if s.path not in plain]
    assert len(wedges) == count
    middles = []
    for wedge in wedges:
        foot, other = ends(wedge)
        tip = wedge.path[0].end
        assert len(wedge.path) == 2
        assert (foot.x, other.x) == pytest.approx((415, 415))
        assert abs(foot.y - other.y) == pytest.approx(4)
        # It is snipped at most to its tip, so that stays clear of the seam.
        assert 400 + 3 < tip.x < 415
        assert tip.y == pytest.approx((foot.y + other.y) / 2)
        middles.append(tip.y)
    assert sum(middles) / count == pytest.approx(200)
    # Two of them do not run into each other.
    assert max(middles) - min(middles) >= 4 * (count - 1)


def test_the_grainline_has_an_open_arrowhead_at_each_end() -> None:
    grain = [s for s in strokes(APRON) if s.layer is Layer.MARKS]
    line = max(grain, key=lambda s: math.dist(*ends(s)))
    tips = [s.path[0].end for s in grain if len(s.path) == 2]
    assert ends(line) == ((200, 120), (200, 480))
    assert sorted(tips) == sorted(ends(line))
    for head in (s for s in grain if len(s.path) == 2):
        tip = head.path[0].end
        inward = 1 if tip.y < 300 else -1
        assert all((end.y - tip.y) * inward > 0 for end in ends(head))


def test_every_panels_grainline_is_long_enough_to_measure_from(pattern: Pattern) -> None:
    for piece in pattern.pieces:
        if piece.name.endswith("panel"):
            assert math.dist(*piece.grainline) >= 150


def test_the_folds_bracket_points_at_the_fold_from_inside() -> None:
    fold = replace(APRON.edges[3], name="fold", kind=EdgeKind.FOLD, allowance=0.0)
    half = replace(APRON, edges=(*APRON.edges[:3], fold), half=True)
    kept = {s.path for s in strokes(APRON)}
    bracket = [s for s in strokes(half) if s.layer is Layer.MARKS and s.path not in kept]
    tips = [s.path[0].end for s in bracket if len(s.path) == 2]
    assert len(tips) == 2
    assert all(abs(tip.x) < 1e-9 and 0 < tip.y < 600 for tip in tips)
    assert all(end.x > -1e-9 for s in bracket for end in ends(s))


@given(st.floats(-20, 20))
def test_words_are_never_upside_down(angle: float) -> None:
    shown = upright(angle)
    assert math.cos(shown) > -0.18  # at most ten degrees past upright, reading upwards
    turned = math.remainder(shown - angle, math.pi)
    assert turned == pytest.approx(0, abs=1e-9)
    if abs(math.cos(shown)) < 0.17:
        assert math.sin(shown) > 0


# --- where words go ------------------------------------------------------------------------

FLOOR = Box(left=-100, bottom=-100, right=500, top=800)


def with_lines(*lines: tuple[tuple[float, float], tuple[float, float]]) -> Room:
    room = Room(box=FLOOR)
    for one, other in lines:
        room.enter((Line(start=Point(*one), end=Point(*other)),))
    return room


def level(*heights: float) -> Room:
    """Return a floor with lines right across it at some heights."""
    return with_lines(*(((-100, y), (500, y)) for y in heights))


def worded(piece: Piece, clear: Room, uncut: Room) -> dict[str, Text]:
    """Return the words that are set on a piece, by what they say."""
    texts = piece_words(
        Placement(piece=piece, x=0, y=0, turn=0.0),
        title="apron",
        lines=("piece 1 of 1",),
        fold=fold_words(piece),
        room=Spots(clear=clear, uncut=uncut),
    )
    return {text.text: text for text in texts}


def pleat_at(y: float, words: str = "pleat") -> Piece:
    """Return the apron with one level line inside, whose words stand 4.5 above or below it."""
    line = straight(Point(50, y), Point(350, y))
    inner = InnerLine(kind=InnerKind.FOLD_LINE, path=line, words=words)
    return replace(APRON, inner_lines=(inner,))


ABOVE, BELOW = 304.5, 295.5


@pytest.mark.parametrize(
    ("clear", "uncut", "chosen"),
    [
        ([], [], ABOVE),  # the first place is free
        ([ABOVE], [ABOVE], BELOW),  # a line runs through it
        ([], [ABOVE], BELOW),  # a join of two pages does
        ([], [ABOVE, BELOW], ABOVE),  # joins run through all: the first that no line crosses
        ([ABOVE], [ABOVE, BELOW], BELOW),
    ],
)
def test_words_go_to_the_first_place_that_is_free_and_not_cut_by_a_join(
    clear: list[float], uncut: list[float], chosen: float
) -> None:
    text = worded(pleat_at(300), level(*clear), level(*uncut))["pleat"]
    # The middle of capitals 0.69 high lies there.
    assert text.at.y == pytest.approx(chosen - text.size * 0.69 / 2)
    assert text.at.x == pytest.approx(200, abs=7)
    assert text.anchor is Anchor.MIDDLE


def test_words_without_a_free_place_are_left_out_and_never_printed_over_lines() -> None:
    taken = level(ABOVE, BELOW)
    assert "pleat" not in worded(pleat_at(300), taken, taken)
    everywhere = level(*(k * 2.0 for k in range(-50, 400)))
    assert worded(pleat_at(300), everywhere, everywhere) == {}


def test_words_stand_on_the_piece_rather_than_on_the_paper_beside_it() -> None:
    # The apron is cut at 615: above a line at 613 the words would lie beside it.
    near = pleat_at(613)
    inside = worded(near, level(), level())["pleat"]
    assert inside.at.y < 613
    # Even a place that a join cuts is better than that.
    assert worded(near, level(), level(608.5))["pleat"].at.y < 613
    # Where there is none on the piece, the paper beside it will do.
    assert worded(near, level(608.5), level(608.5))["pleat"].at.y > 615


def test_words_once_set_keep_others_away() -> None:
    one, other = pleat_at(300).inner_lines[0], pleat_at(300, "tuck").inner_lines[0]
    found = worded(replace(APRON, inner_lines=(one, other)), level(), level())
    first, second = found["pleat"], found["tuck"]
    gap = (fonts.width("pleat", first.size) + fonts.width("tuck", second.size)) / 2
    assert abs(first.at.x - second.at.x) > gap or abs(first.at.y - second.at.y) > first.size


def half_apron(way: FoldWay) -> Piece:
    fold = replace(APRON.edges[3], name="fold", kind=EdgeKind.FOLD, allowance=0.0)
    return replace(APRON, edges=(*APRON.edges[:3], fold), half=True, fold_way=way)


@pytest.mark.parametrize("way", [FoldWay.LENGTHWISE, FoldWay.NONE])
def test_a_fold_bears_the_longest_wording_that_has_room(way: FoldWay) -> None:
    half = half_apron(way)
    long, middling, short = fold_words(half)
    # Twelve places along 600 mm, 46 apart; the words run up the fold, so lines across it are
    # what leaves them little room.
    places = [600 * k / 13 for k in range(1, 13)]

    def said(*heights: float) -> set[str]:
        room = (with_lines(*(((0, y), (60, y)) for y in heights)) for _ in range(2))
        return {long, middling, short} & set(worded(half, *room))

    assert said() == {long}
    half_way = said(*(y + 23 for y in places), 23)
    assert half_way == ({middling} if way is FoldWay.LENGTHWISE else {short})
    assert said(*(y + 9 for y in places), *(y - 9 for y in places)) == {short}
    assert said(*(k * 4.0 for k in range(151))) == set()


def test_a_notch_with_little_room_gives_at_least_the_number_of_its_seam() -> None:
    notch = Notch(edge=2, at=200, seam="2", words="centre front, on 1 of 3 panels")
    piece = replace(APRON, notches=(notch,))
    assert "seam 2, centre front, on 1 of 3 panels" in worded(piece, level(), level())
    narrow = [with_lines(*(((x, 0), (x, 700)) for x in range(0, 400, 20))) for _ in range(2)]
    found = worded(piece, *narrow)
    assert "seam 2" in found
    assert not [words for words in found if "centre front" in words]


def test_an_opening_is_marked_where_the_figures_say(
    pattern_of: Callable[..., Pattern],
) -> None:
    pattern = pattern_of("chorus-skirt")
    panel = next(piece for piece in pattern.pieces if piece.name == "skirt panel")
    dots = [
        s.path[0]
        for s in strokes(panel)
        if len(s.path) == 1 and isinstance(s.path[0], Arc) and s.path[0].radius < 2
    ]
    figures = pattern.figures.skirt
    assert figures.waist_radius is not None
    assert [(dot.centre.x, dot.centre.y) for dot in dots if isinstance(dot, Arc)] == [
        pytest.approx((figures.waist_radius + figures.opening, 0))
    ]


def test_widths_that_place_words_are_those_that_print_them() -> None:
    text = worded(pleat_at(300, "hem"), level(), level())["hem"]
    assert 3 < fonts.width(text.text, text.size) < 10


def _strokes_over(piece: Piece) -> list[float]:
    """Return how far from the fold each stroke of a notch beside it stands, in mm."""
    fold = next(edge for edge in piece.edges if edge.kind is EdgeKind.FOLD)
    inner, outer = fold.path[0].end, fold.path[0].start
    long = math.dist(inner, outer)
    ux, uy = (outer.x - inner.x) / long, (outer.y - inner.y) / long
    found = []
    for stroke in piece_lines(Placement(piece=piece, x=0.0, y=0.0, turn=0.0)):
        if stroke.pen == style.NOTCH and len(stroke.path) == 1 and length(stroke.path[0]) < 12:
            tip = stroke.path[0].end
            found.append(abs((tip.x - inner.x) * uy - (tip.y - inner.y) * ux))
    return sorted(off for off in found if off < 6)


def test_a_side_notch_on_the_fold_unfolds_to_two_strokes() -> None:
    sheet = Path(__file__).resolve().parents[2] / "measurements_examples" / "chorus-skirt.toml"
    pattern = drafting.draft(drafting.load(sheet))
    skirt = next(piece for piece in pattern.pieces if piece.name == "skirt panel")
    assert skirt.half
    # One stroke stands clear of the fold; unfolded it is two, which the key calls a side.
    (off,) = _strokes_over(skirt)
    assert 1.0 < off < 2.0
