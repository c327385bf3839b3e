"""Circle skirts: the trade's worked examples, and what holds for every panel."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drafting.allowance import Widths
from drafting.circle import (
    Flare,
    fewest_panels,
    least_fullness,
    waist_radius,
    waistline,
)
from drafting.errors import GeometryError, MeasurementError
from drafting.geometry import Point, point_along
from drafting.panel_wishes import PanelWishes
from drafting.panels import panel
from drafting.piece import EdgeKind, NotchKind, Piece, edge_named, stitching_line
from drafting.places import PlaceOnPanel, place_name, place_words, places_on_panel, seam_names
from drafting.spec import Closure, Grain
from tests import tape


def wishes(
    *,
    closure: Closure = Closure.CENTRE_BACK,
    grain: Grain = Grain.EDGE,
    half: bool = False,
    opening: float = 0,
    ruffle_line: float | None = None,
    allowances: Widths | None = None,
) -> PanelWishes:
    return PanelWishes(
        part="skirt",
        allowances=allowances or Widths(),
        grain=grain,
        closure=closure,
        opening=opening,
        seam="1",
        waist_seam="2",
        half=half,
        ruffle_line=ruffle_line,
        ruffle_words="ruffle's line",
    )


def flare(fullness: float, panels: int, line: float, long: float) -> Flare:
    return Flare(fullness=fullness, panels=panels, waistline=line, length=long)


def test_example_1_a_full_circle_for_a_waist_of_72() -> None:
    line = waistline(720)
    full = flare(1, 2, line, 650)
    assert full.waist_radius == pytest.approx(114.6, abs=0.05)
    assert full.hem_radius == pytest.approx(764.6, abs=0.05)
    assert full.sweep == pytest.approx(4804.1, abs=0.05)


def test_example_2_a_half_circle_with_ease_and_stretch() -> None:
    line = waistline(725, ease=15, stretch=0.02)
    half = flare(0.5, 1, line, 700)
    assert line == pytest.approx(725.5, abs=0.05)
    assert half.waist_radius == pytest.approx(230.9, abs=0.05)
    assert half.hem_radius == pytest.approx(930.9, abs=0.05)
    assert half.sweep == pytest.approx(2924.6, abs=0.05)


def test_example_3_a_double_circle_in_four_half_discs() -> None:
    double = flare(2, 4, waistline(875, ease=15), 600)
    assert double.waist_radius == pytest.approx(70.8, abs=0.05)
    assert double.hem_radius == pytest.approx(670.8, abs=0.05)
    assert double.sweep == pytest.approx(8429.8, abs=0.05)
    drawn = panel(double, wishes())
    assert drawn.count == 4
    assert tape.walked_length(edge_named(drawn, "waist").path) == pytest.approx(222.5, abs=0.05)
    assert tape.walked_length(edge_named(drawn, "hem").path) == pytest.approx(2107.5, abs=0.05)


def test_example_4_three_quarters_of_a_circle_gathered_one_and_a_half_times() -> None:
    line = waistline(660, gather_ratio=1.5)
    gathered = flare(0.75, 3, line, 620)
    assert line == pytest.approx(990.0, abs=0.05)
    assert gathered.waist_radius == pytest.approx(210.1, abs=0.05)
    assert gathered.hem_radius == pytest.approx(830.1, abs=0.05)
    assert gathered.sweep == pytest.approx(3911.7, abs=0.05)
    assert math.degrees(gathered.panel_angle) == pytest.approx(90)
    drawn = panel(gathered, wishes())
    assert tape.walked_length(edge_named(drawn, "waist").path) == pytest.approx(330.0, abs=0.05)
    assert tape.walked_length(edge_named(drawn, "hem").path) == pytest.approx(1303.9, abs=0.05)


def test_shrinking_by_stretch_divides_and_does_not_subtract() -> None:
    # Trade 2.4: at s = 0.02 and c = 740 dividing and subtracting differ by 0.3 mm.
    assert waistline(740, stretch=0.02) - 740 * 0.98 == pytest.approx(0.29, abs=0.01)


def test_cutting_3_mm_too_deep_adds_18_8_mm_to_a_full_circles_waist_and_37_7_to_a_doubles() -> None:
    for fullness, more in ((1, 18.8), (2, 37.7)):
        whole = flare(fullness, 2, 720, 650)
        assert whole.girth_at(3) - 720 == pytest.approx(more, abs=0.06)


def test_the_hip_of_a_quarter_circle_is_only_just_passed() -> None:
    # Trade 2.8: with e = s = 0 and 40 of ease the project's table needs 0.18 to 0.244.
    # P01 58/84/19.6: 300 / (2 pi 196) = 0.2436. P12 112/133/21.8: 250 / (2 pi 218) = 0.1825.
    assert least_fullness(840, line=580, hip_depth=196, ease=40) == pytest.approx(0.2436, abs=1e-4)
    assert least_fullness(1330, line=1120, hip_depth=218, ease=40) == pytest.approx(
        0.1825, abs=1e-4
    )
    assert least_fullness(700, line=800, hip_depth=200, ease=40) == 0


def test_a_dropped_girth_at_the_least_fullness_is_just_hip_and_ease() -> None:
    least = least_fullness(960, line=720, hip_depth=200, ease=40)
    assert flare(least, 1, 720, 500).girth_at(200) == pytest.approx(1000)


def test_panels_are_as_few_as_keep_each_at_half_a_circle() -> None:
    counts = {0.25: 1, 0.5: 1, 0.51: 2, 1: 2, 1.01: 3, 1.5: 3, 2: 4, 4: 8}
    assert {f: fewest_panels(f) for f in counts} == counts


def test_no_waist_no_radius() -> None:
    for bad in (0.0, -10.0, math.nan):
        with pytest.raises(MeasurementError):
            waistline(bad)
        with pytest.raises(MeasurementError):
            waist_radius(bad)
        with pytest.raises(MeasurementError):
            waist_radius(700, fullness=bad)


def test_a_seam_lies_at_the_closure_and_the_others_evenly_round_from_it() -> None:
    assert seam_names(2, Closure.CENTRE_BACK) == ("centre back", "centre front")
    assert seam_names(2, Closure.LEFT_SIDE) == ("left side", "right side")
    assert seam_names(2, Closure.NONE) == ("left side", "right side")
    assert seam_names(3, Closure.NONE) == ("centre back", "panel seam", "panel seam")
    # Seen from outside with the waist above, the right side comes next after centre back.
    assert seam_names(4, Closure.CENTRE_BACK) == (
        "centre back",
        "right side",
        "centre front",
        "left side",
    )
    assert seam_names(4, Closure.LEFT_SIDE) == (
        "left side",
        "centre back",
        "right side",
        "centre front",
    )
    assert place_name(1.25) == "right side" and place_name(0.3) == ""


def found_on(panels: int, closure: Closure, *, half: bool = False) -> list[tuple[float, str, int]]:
    return [
        (place.share, " or ".join(place.names), place.panels)
        for place in places_on_panel(panels, closure, half=half)
    ]


def test_places_fall_where_they_would_on_a_body() -> None:
    assert found_on(1, Closure.CENTRE_BACK) == [
        (0.25, "right side", 1),
        (0.5, "centre front", 1),
        (0.75, "left side", 1),
    ]
    assert found_on(1, Closure.LEFT_SIDE) == [
        (0.25, "centre back", 1),
        (0.5, "right side", 1),
        (0.75, "centre front", 1),
    ]
    assert found_on(2, Closure.CENTRE_BACK) == [(0.5, "right side or left side", 2)]
    # Three panels from centre back: the right side is 3/4 across the first, centre front the
    # middle of the second, the left side 1/4 across the third.
    assert found_on(3, Closure.CENTRE_BACK) == [
        (0.25, "left side", 1),
        (0.5, "centre front", 1),
        (0.75, "right side", 1),
    ]
    assert found_on(4, Closure.CENTRE_BACK) == []
    # Six panels: the sides are the middles of the second and the fifth.
    assert found_on(6, Closure.CENTRE_BACK) == [(0.5, "right side or left side", 2)]


def test_half_a_panel_also_bears_the_places_of_its_mirror_image() -> None:
    # Half of one panel: the right side and the left lie both half way to the fold at the front.
    assert found_on(1, Closure.CENTRE_BACK, half=True) == [
        (0.25, "right side or left side", 1),
        (0.5, "centre front", 1),
    ]
    assert found_on(1, Closure.LEFT_SIDE, half=True) == [
        (0.25, "centre back or centre front", 1),
        (0.5, "right side", 1),
    ]
    assert found_on(2, Closure.CENTRE_BACK, half=True) == [(0.5, "right side or left side", 2)]
    # Half of three: 3/4 across the first folds on to 1/4, where the third has its place.
    assert found_on(3, Closure.CENTRE_BACK, half=True) == [
        (0.25, "right side or left side", 2),
        (0.5, "centre front", 1),
    ]


def test_a_place_that_is_not_on_every_panel_says_on_how_many_it_is() -> None:
    front = PlaceOnPanel(share=0.5, names=("centre front",), panels=1)
    sides = PlaceOnPanel(share=0.5, names=("right side", "left side"), panels=2)
    assert place_words(front, 1) == "centre front"
    assert place_words(front, 3) == "centre front, on 1 of 3 panels"
    assert place_words(sides, 2) == "right side or left side"
    assert place_words(sides, 6) == "right side or left side, on 2 of 6 panels"


def waist_notches(drawn: Piece) -> list[tuple[str, NotchKind, int]]:
    """Return the notches of the waist from the first edge on: words, kind and strokes."""
    notches = sorted((n for n in drawn.notches if n.edge == 3), key=lambda n: -n.at)
    assert {n.seam for n in notches} <= {"2"}
    return [(n.words, n.kind, n.strokes) for n in notches]


def test_a_place_on_every_panel_has_its_own_strokes_and_any_other_is_a_balance_notch() -> None:
    place, balance = NotchKind.PLACE, NotchKind.BALANCE
    one = panel(flare(0.5, 1, 720, 650), wishes())
    assert waist_notches(one) == [
        ("right side", place, 2),
        ("centre front", place, 1),
        ("left side", place, 2),
    ]
    # Of two panels each has a side in its middle; it is one side or the other, and two strokes.
    two = panel(flare(1, 2, 720, 650), wishes())
    assert waist_notches(two) == [("right side or left side", place, 2)]
    # Front and back are not told apart by the pattern of both.
    sided = panel(flare(1, 2, 720, 650), wishes(closure=Closure.LEFT_SIDE))
    assert waist_notches(sided) == [("centre back or centre front", balance, 1)]
    three = panel(flare(1, 3, 720, 650), wishes())
    assert waist_notches(three) == [
        ("left side, on 1 of 3 panels", balance, 1),
        ("centre front, on 1 of 3 panels", balance, 1),
        ("right side, on 1 of 3 panels", balance, 1),
    ]


def test_a_half_marks_what_its_mirror_image_needs_too() -> None:
    place, balance = NotchKind.PLACE, NotchKind.BALANCE
    one = panel(flare(0.5, 1, 720, 650), wishes(half=True))
    assert waist_notches(one) == [
        ("right side or left side", place, 2),
        ("centre front", place, 1),
    ]
    # The fold ends the waist edge, so what lies on it is notched at its very end.
    assert min(n.at for n in one.notches if n.edge == 3) == 0
    three = panel(flare(1, 3, 720, 650), wishes(half=True))
    assert waist_notches(three) == [
        ("right side or left side, on 2 of 3 panels", balance, 1),
        ("centre front, on 1 of 3 panels", balance, 1),
    ]


def test_side_seams_are_marked_by_balance_notches_one_and_two() -> None:
    for long, strokes in ((700, [1]), (701, [1, 2])):
        drawn = panel(flare(1, 3, 720, long), wishes())
        for edge in (0, 2):
            notches = [n for n in drawn.notches if n.edge == edge]
            assert [(n.kind, n.strokes) for n in notches] == [
                (NotchKind.BALANCE, count) for count in strokes
            ]
            assert {n.seam for n in notches} == {"1"}


def test_the_edges_of_three_panels_and_more_are_panel_seams() -> None:
    for half in (False, True):
        drawn = panel(flare(1, 3, 720, 650), wishes(half=half))
        straight = [e for e in drawn.edges if e.kind is EdgeKind.SEAM and e.name != "waist"]
        assert {(e.name, e.words) for e in straight} == {("panel_seam", "panel seam")}
        assert len(straight) == (1 if half else 2)
    # Half of two stands for both of its seams, half of one for one.
    two = panel(flare(1, 2, 720, 650), wishes(half=True))
    assert two.edges[0].words == "centre back or centre front"
    one = panel(flare(0.5, 1, 720, 650), wishes(half=True, closure=Closure.LEFT_SIDE))
    assert (one.edges[0].name, one.edges[0].words) == ("left_side", "left side")


def test_a_panel_lies_with_its_centre_at_the_origin_and_its_first_edge_along_x() -> None:
    drawn = panel(flare(1, 2, 720, 650), wishes())
    assert drawn.edges[0].path[0].start == pytest.approx((114.592, 0), abs=1e-3)
    assert drawn.edges[0].path[0].end == pytest.approx((764.592, 0), abs=1e-3)
    assert [e.name for e in drawn.edges] == ["centre_back", "hem", "centre_front", "waist"]
    assert (drawn.count, drawn.mirrored, drawn.edges[1].kind) == (2, True, EdgeKind.HEM)


def test_half_a_panel_holds_half_the_angle_and_a_fold_without_allowance() -> None:
    whole = panel(flare(1, 2, 720, 650), wishes())
    half = panel(flare(1, 2, 720, 650), wishes(half=True))
    assert half.half and not half.mirrored
    assert (half.edges[2].kind, half.edges[2].allowance) == (EdgeKind.FOLD, 0)
    assert 2 * tape.walked_area(stitching_line(half)) == pytest.approx(
        tape.walked_area(stitching_line(whole)), rel=1e-5
    )


def test_an_opening_is_dotted_on_every_edge_that_may_lie_at_it() -> None:
    two = panel(flare(1, 2, 720, 650), wishes(opening=183.1))
    (dot,) = two.dots
    assert dot.at == pytest.approx((114.592 + 183.1, 0), abs=1e-3)
    three = panel(flare(1, 3, 720, 650), wishes(opening=183.1))
    assert [math.hypot(*d.at) for d in three.dots] == pytest.approx([297.692, 297.692], abs=1e-3)
    assert math.atan2(three.dots[1].at.y, three.dots[1].at.x) == pytest.approx(math.tau / 3)
    assert panel(flare(1, 2, 720, 650), wishes()).dots == ()


def test_a_panel_whose_side_allowances_would_cross_in_the_waist_hole_is_refused() -> None:
    # A cut waist of radius 104.6 and sides of 15: 2 asin(15 / 104.6) = 16.5 degrees are taken.
    panel(flare(343 / 360, 1, 720 * 343 / 360, 650), wishes())
    with pytest.raises(GeometryError, match="no room for side allowances of 15 mm"):
        panel(flare(344 / 360, 1, 720 * 344 / 360, 650), wishes())
    with pytest.raises(GeometryError):
        panel(flare(1, 1, 720, 650), wishes(allowances=Widths(side=0)))


flares = st.builds(
    lambda fullness, more, waist, long: flare(
        fullness, min(fewest_panels(fullness) + more, 24), max(waist, 220 * fullness), long
    ),
    st.floats(0.2, 4),
    st.integers(0, 9),
    st.floats(400, 1800),
    st.floats(120, 1500),
)
closures = st.sampled_from(Closure)


@settings(max_examples=100, deadline=None)
@given(flares, closures, st.booleans())
def test_the_drawn_waist_and_hem_measure_what_the_formulas_say(
    whole: Flare, closure: Closure, half: bool
) -> None:
    drawn = panel(whole, wishes(closure=closure, half=half))
    times = whole.panels * (2 if half else 1)
    waist = times * tape.walked_length(edge_named(drawn, "waist").path)
    hem = times * tape.walked_length(edge_named(drawn, "hem").path)
    assert waist == pytest.approx(whole.waistline, abs=0.1)
    assert hem == pytest.approx(whole.waistline + math.tau * whole.fullness * whole.length, abs=0.1)
    for edge in (drawn.edges[0], drawn.edges[2]):
        assert tape.walked_length(edge.path) == pytest.approx(whole.length, abs=1e-6)
    big, r = whole.hem_radius, whole.waist_radius
    assert times * tape.walked_area(stitching_line(drawn)) == pytest.approx(
        math.pi * whole.fullness * (big**2 - r**2), rel=1e-4
    )


def below_the_waist(drawn: Piece, edge: int) -> list[float]:
    """How far the side notches of an edge lie from the waist, measured on the paper."""
    waist = math.hypot(*edge_named(drawn, "waist").path[0].start)
    return sorted(
        math.hypot(*point_along(drawn.edges[edge].path, n.at)) - waist
        for n in drawn.notches
        if n.edge == edge
    )


@settings(max_examples=100, deadline=None)
@given(flares, closures)
def test_notches_of_the_two_side_edges_lie_equally_far_from_the_waist(
    whole: Flare, closure: Closure
) -> None:
    drawn = panel(whole, wishes(closure=closure))
    first, last = below_the_waist(drawn, 0), below_the_waist(drawn, 2)
    assert first and first == pytest.approx(last, abs=0.01)
    assert all(0 < below < whole.length for below in first)


@settings(max_examples=100, deadline=None)
@given(flares, closures, st.booleans(), st.floats(0.05, 0.95))
def test_the_bodys_quarters_are_marked_by_arc_length_on_waist_and_ruffle_line(
    whole: Flare, closure: Closure, half: bool, deep: float
) -> None:
    drawn = panel(whole, wishes(closure=closure, half=half, ruffle_line=deep * whole.length))
    (line,) = drawn.inner_lines
    long = tape.walked_length(line.path)
    assert long * whole.panels * (2 if half else 1) == pytest.approx(
        math.tau * whole.fullness * (whole.waist_radius + deep * whole.length), abs=0.1
    )
    whole_panel = long * (2 if half else 1)
    start = 0.75 if closure is Closure.LEFT_SIDE else 0.0
    if closure is Closure.NONE and whole.panels % 2 == 0:
        start = 0.75
    waist_long = tape.walked_length(edge_named(drawn, "waist").path)
    waist_whole = waist_long * (2 if half else 1)
    notches = [waist_long - n.at for n in drawn.notches if n.edge == 3]
    for quarter in range(4):
        across = ((quarter / 4 - start) * whole.panels) % 1
        if min(across, 1 - across) < 1e-6:
            continue  # a seam lies there
        if half and across > 0.5 + 1e-9:
            across = 1 - across
        assert min(abs(t - across * whole_panel) for t in line.ticks) < 0.05
        assert min(abs(n - across * waist_whole) for n in notches) < 0.05


@settings(max_examples=100, deadline=None)
@given(flares, st.sampled_from(Grain), st.booleans())
def test_the_grainline_lies_inside_the_panel_on_the_grain_that_was_asked(
    whole: Flare, grain: Grain, half: bool
) -> None:
    drawn = panel(whole, wishes(grain=grain, half=half))
    (ax, ay), (bx, by) = drawn.grainline
    along = math.atan2(by - ay, bx - ax)
    assert along == pytest.approx(0 if grain is Grain.EDGE else whole.panel_angle / 2, abs=1e-9)
    outline = tape.chain(stitching_line(drawn), 200)
    for share in (0, 0.5, 1):
        assert tape.winds_round((ax + share * (bx - ax), ay + share * (by - ay)), outline)


def test_a_tick_on_the_ruffle_line_of_a_half_circle_lies_at_a_quarter() -> None:
    drawn = panel(flare(0.5, 1, 720, 620), wishes(ruffle_line=410))
    (line,) = drawn.inner_lines
    # E9: C_a 2008.1, each quarter 502.0; the middle one is straight up at 639.2.
    assert line.ticks == pytest.approx((0, 502.02, 1004.03, 1506.05, 2008.06), abs=0.02)
    top = point_along(line.path, line.ticks[2])
    assert top == pytest.approx(Point(0, 639.183), abs=1e-3)
