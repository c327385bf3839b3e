"""A piece as it is drawn: its lines, notches, grain and fold, and words where there is room."""

import math
from collections.abc import Callable
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drafting.geometry import Arc, Box, Line, Point, bounds
from drafting.pattern import Pattern
from drafting.piece import EdgeKind, Notch, Piece
from render import fonts
from render.drawing import Anchor, Layer, Stroke
from render.piece_drawing import Spots, piece_lines, set_text, upright
from render.placement import Placement
from render.room import Room
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

FLOOR = Box(left=0, bottom=0, right=400, top=400)


class Place:
    """A spot as ``set_text`` is given them."""

    def __init__(self, x: float, y: float) -> None:
        self.at, self.angle = Point(x, y), 0.0


def spots(clear: list[float], uncut: list[float]) -> Spots:
    """Return a floor with words already lying across it at some heights."""
    rooms = []
    for heights in (clear, uncut):
        room = Room(box=FLOOR)
        for height in heights:
            room.enter((Line(start=Point(0, height), end=Point(400, height)),))
        rooms.append(room)
    return Spots(clear=rooms[0], uncut=rooms[1])


@pytest.mark.parametrize(
    ("clear", "uncut", "chosen"),
    [
        ([], [], 100),  # the first place is free
        ([100], [100], 200),  # a line runs through the first
        ([], [100, 200], 300),  # a join runs through the first two
        ([100], [100, 200, 300], 200),  # joins run through all: the first that no line crosses
        ([100, 200, 300], [100, 200, 300], 100),  # no room at all: where it was wanted
    ],
)
def test_words_go_to_the_first_place_that_is_free_and_not_cut_by_a_join(
    clear: list[float], uncut: list[float], chosen: float
) -> None:
    room = spots(clear, uncut)
    text = set_text("centre back", [Place(200, y) for y in (100, 200, 300)], room, size=3.5)  # type: ignore[misc]
    assert text is not None
    assert text.at.y == pytest.approx(chosen - 3.5 * 0.69 / 2)
    assert text.anchor is Anchor.MIDDLE


def test_words_once_set_keep_others_away() -> None:
    room = spots([], [])
    places = [Place(200, 100), Place(200, 200)]
    first = set_text("waist", places, room, size=3.5)  # type: ignore[arg-type]
    second = set_text("hem", places, room, size=3.5)  # type: ignore[arg-type]
    assert first is not None
    assert second is not None
    assert second.at.y - first.at.y == pytest.approx(100)


def test_words_with_nowhere_to_go_are_not_set() -> None:
    assert set_text("hem", [], spots([], []), size=3.5) is None


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
    assert [(dot.centre.x, dot.centre.y) for dot in dots if isinstance(dot, Arc)] == [
        pytest.approx((figures.waist_radius + figures.opening, 0))
    ]


def test_widths_that_place_words_are_those_that_print_them() -> None:
    text = set_text("hem", [Place(200, 100)], spots([], []), size=3.5)  # type: ignore[list-item]
    assert text is not None
    assert fonts.width(text.text, text.size) < 10
