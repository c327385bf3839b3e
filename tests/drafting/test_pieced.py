"""Corners pieced on where the cloth is just too narrow, and what the panels are cut in instead."""

import math
from dataclasses import replace

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st
from shapely.geometry import Polygon
from shapely.geometry import box as rectangle

from drafting import splits
from drafting.allowance import Widths
from drafting.around import all_round
from drafting.circle import Flare
from drafting.cloth import box_on_cloth, lay, usable_width
from drafting.cloth.boxes import bare_panels
from drafting.cloth.in_rows import rows_length
from drafting.cloth.shapes import shapes_of
from drafting.effort import Effort
from drafting.errors import DraftingError
from drafting.findings import stops
from drafting.gathered import Gathered
from drafting.geometry import flattened, holds, moved, moved_point, path_length
from drafting.making_up import pieces_and_seams
from drafting.panel_wishes import PanelWishes
from drafting.panels import layer_pieces
from drafting.pattern import Pattern, draft
from drafting.piece import (
    EdgeKind,
    FoldWay,
    InnerKind,
    Piece,
    cutting_line,
    edge_named,
    stitching_line,
)
from drafting.pieced import Pieced, Unbroken, apart, crossings, divided_at, pieced
from drafting.plan import layers, plan
from drafting.spec import (
    Allowances,
    Closure,
    Cloth,
    Cloths,
    CutKind,
    Godets,
    Grain,
    HemFinish,
    LevelAt,
    Lining,
    Print,
    Ruffle,
    Scope,
    Skirt,
    Spec,
)
from drafting.truing import walk
from tests import tape
from tests.drawn import drawn
from tests.garments import SOUBRETTE, garment, piece_named

# Trade example E12: W 720 in six panels of 60 degrees, 1000 long; r 114.592, R 1114.592.
E12 = Flare(fullness=1, panels=6, waistline=720, length=1000)
E12_WIDTHS = Widths(waist=10, side=15, hem=10)
R = 720 / math.tau + 1000


def a_panel(flare: Flare, grain: Grain, *, half: bool = False, **more: object) -> Piece:
    wishes = PanelWishes(
        part="skirt",
        allowances=E12_WIDTHS,
        grain=grain,
        closure=Closure.NONE,
        seam="1",
        waist_seam="2",
        half=half,
    )
    (panel,) = layer_pieces(flare, replace(wishes, **more))  # type: ignore[arg-type]
    return panel


def in_two(panel: Piece, usable: float, grain: Grain, **clear: float) -> Pieced:
    made = pieced(panel, usable, grain, Unbroken(**clear), letters=("1a", "1b"))
    assert made is not None
    return made


def refused(panel: Piece, usable: float, grain: Grain, **clear: float) -> bool:
    return pieced(panel, usable, grain, Unbroken(**clear)) is None


# --- one corner, worked by hand --------------------------------------------------------------


def test_the_corners_of_a_sixth_are_as_trigonometry_has_them() -> None:
    # The panel is cut 1079 wide, half a millimetre clear of each selvage of 1080: its seam lies
    # 539.5 - 15 = 524.5 from the middle, and the hem's corner R sin 30 = 557.296.
    panel = a_panel(E12, Grain.CENTRE)
    assert box_on_cloth(panel).height == pytest.approx(1150.9, abs=0.05)
    made = in_two(panel, 1080, Grain.CENTRE)
    (corner,) = made.corners
    assert made.width == pytest.approx(32.796, abs=0.001)
    assert (corner.name, corner.count, corner.mirrored) == ("skirt panel corner", 12, True)
    side, hem, seam = corner.edges
    # The side meets that line 524.5 / sin 30 = 1049 from the centre, and is 1114.592 long there.
    assert side.length == pytest.approx(65.592, abs=0.001)
    # The hem meets it at asin(524.5 / R) = 28.0715 degrees, of 30.
    assert hem.length == pytest.approx(R * math.radians(30 - 28.0715), abs=0.01)
    # Along the grain: sqrt(R2 - 524.52) - 524.5 / tan 30 = 983.46 - 908.46.
    assert seam.length == pytest.approx(983.46 - 908.46, abs=0.02)
    assert [(e.allowance, e.kind) for e in corner.edges] == [
        (15, EdgeKind.SEAM),
        (10, EdgeKind.HEM),
        (15, EdgeKind.SEAM),
    ]
    assert box_on_cloth(made.main).height == pytest.approx(1079, abs=1e-6)


def test_a_corner_takes_from_the_panel_what_it_is_itself() -> None:
    made = in_two(a_panel(E12, Grain.CENTRE), 1080, Grain.CENTRE)
    # A sector from 28.0715 to 30 degrees, less the triangle that its two ends make with the
    # centre: 983.46 from the centre along the grain, then 908.46, both 524.5 aside.
    sector = R**2 / 2 * math.radians(30 - 28.0715)
    triangle = 524.5 * (983.46 - 908.46) / 2
    (corner,) = made.corners
    assert tape.walked_area(stitching_line(corner)) == pytest.approx(sector - triangle, abs=15)
    sixth = math.radians(60) / 2 * (R**2 - (R - 1000) ** 2)
    main = tape.walked_area(stitching_line(made.main))
    assert main == pytest.approx(sixth - 2 * (sector - triangle), abs=30)


def test_a_sliver_is_made_wide_enough_to_be_sewn() -> None:
    # On 1120 the seam would lie 544.5 aside and leave 12.8 of corner: it moves in for 30.
    made = in_two(a_panel(E12, Grain.CENTRE), 1120, Grain.CENTRE)
    assert made.width == pytest.approx(30)
    # 557.296 - 30 + 15 to each side.
    assert box_on_cloth(made.main).height == pytest.approx(2 * 542.296, abs=0.01)


def test_a_deep_hem_alone_that_sticks_out_gives_no_corner() -> None:
    # A quarter, edge on the grain, with 90 below its hem: the cloth lacks a strip of the hem's
    # allowance alone.
    deep = replace(E12_WIDTHS, hem=90.0)
    panel = a_panel(replace(E12, panels=4), Grain.EDGE, allowances=deep)
    usable = box_on_cloth(panel).height - 7
    assert refused(panel, usable, Grain.EDGE)


def test_a_panel_that_fits_is_left_alone() -> None:
    panel = a_panel(E12, Grain.CENTRE)
    made = in_two(panel, 1151, Grain.CENTRE)
    assert made.main is panel
    assert made.corners == () and made.width == 0


def test_a_quarter_with_an_edge_on_the_grain_has_its_corner_at_the_far_side() -> None:
    panel = a_panel(replace(E12, panels=4), Grain.EDGE)
    made = in_two(panel, 1060, Grain.EDGE)
    (corner,) = made.corners
    assert (corner.count, corner.mirrored) == (4, False)
    # The seam allowance below the hem's corner is 15 Rc / (R - 10) wide; the rest is 1059 cut.
    across = 1059 - 15 * (R + 10) / (R - 10) - 15
    assert made.width == pytest.approx(R - across, abs=0.01)
    _, side, seam = corner.edges
    assert side.length == pytest.approx(R - across, abs=0.01)
    assert seam.length == pytest.approx(math.sqrt(R**2 - across**2), abs=0.01)
    # The edge on the selvage stays whole.
    assert made.main.edges[0].length == pytest.approx(1000)


# --- when no corner will do -------------------------------------------------------------------


def test_a_half_circle_on_the_selvage_is_never_pieced_in_the_middle_of_its_hem() -> None:
    assert refused(a_panel(replace(E12, panels=2), Grain.EDGE), 1100, Grain.EDGE)


def test_more_than_a_quarter_with_an_edge_on_the_grain_is_not_pieced() -> None:
    assert refused(a_panel(replace(E12, panels=3), Grain.EDGE), 1100, Grain.EDGE)


def test_a_straight_length_is_not_pieced_along_its_side() -> None:
    length = Gathered(panels=1, waistline=1500, around=all_round(700))
    assert refused(a_panel(length, Grain.CENTRE), 1400, Grain.CENTRE)  # type: ignore[arg-type]


def test_a_wide_corner_is_not_pieced() -> None:
    # Finished 557.296 - (U / 2 - 15.5): 250 where U is 645.6, but 5 % of the panel sooner.
    panel = a_panel(E12, Grain.CENTRE)
    seen = [usable for usable in range(650, 1150, 10) if not refused(panel, usable, Grain.CENTRE)]
    assert seen == list(range(seen[0], 1150, 10))
    narrowest = in_two(panel, seen[0], Grain.CENTRE)
    whole = math.radians(60) / 2 * (R**2 - (R - 1000) ** 2)
    part = tape.walked_area(stitching_line(narrowest.corners[0])) / whole
    assert 0.045 < part <= 0.05
    assert narrowest.width <= 250


def test_a_needle_is_not_pieced() -> None:
    # Panels of 28 degrees lean 14 from the grain, of 32 lean 16.
    for panels, none in ((360 / 28, True), (360 / 32, False)):
        flare = replace(E12, fullness=10 / panels, panels=10, waistline=7200 / panels)
        panel = a_panel(flare, Grain.CENTRE)
        assert refused(panel, box_on_cloth(panel).height - 40, Grain.CENTRE) is none


@pytest.mark.parametrize(("above", "below", "none"), [(904, 0, False), (905, 0, True)])
def test_a_corner_keeps_clear_of_the_opening(above: float, below: float, none: bool) -> None:
    # The seam meets the side 1049 - 114.592 = 934.41 below the waist: 30 clear of 904.4.
    panel = a_panel(E12, Grain.CENTRE)
    assert refused(panel, 1080, Grain.CENTRE, above=above, below=below) is none


@pytest.mark.parametrize(("below", "none"), [(35, False), (36, True), (200, True)])
def test_a_corner_keeps_clear_of_a_vent(below: float, none: bool) -> None:
    # It takes in the last 65.59 of the side.
    assert refused(a_panel(E12, Grain.CENTRE), 1080, Grain.CENTRE, below=below) is none


def test_a_half_drawn_to_a_crosswise_fold_is_not_pieced() -> None:
    panel = a_panel(replace(E12, panels=2), Grain.EDGE, half=True, fold_way=FoldWay.CROSSWISE)
    assert refused(panel, box_on_cloth(panel).height - 30, Grain.EDGE)


# --- what is marked on it ---------------------------------------------------------------------


def test_a_half_has_one_corner_at_its_one_side() -> None:
    made = in_two(a_panel(E12, Grain.CENTRE, half=True), 1080, Grain.CENTRE)
    (corner,) = made.corners
    assert made.width == pytest.approx(32.796, abs=0.001)
    assert (corner.count, corner.mirrored, corner.half) == (12, True, False)
    assert made.main.half and made.main.fold_way is FoldWay.LENGTHWISE
    # Half the cloth less half a millimetre.
    assert box_on_cloth(made.main).height == pytest.approx(1079, abs=1e-6)


def test_both_sides_of_a_corners_seam_are_notched_alike() -> None:
    made = in_two(a_panel(E12, Grain.CENTRE), 1080, Grain.CENTRE)
    assert {seam.number for seam in made.seams} == {"1a"}
    for piece in made.pieces:
        for k, edge in enumerate(piece.edges):
            if not edge.pieced:
                continue
            (mark,) = (notch for notch in piece.notches if notch.edge == k)
            assert mark.seam == "1a"
            # From the end at the side seam, on either piece.
            ends = {0: edge.path[0].start, 1: edge.path[-1].end}
            at_side = min(ends, key=lambda end: math.hypot(*ends[end]))
            down = mark.at if at_side == 0 else edge.length - mark.at
            assert down == pytest.approx(0.6 * edge.length)


def test_notches_dots_and_the_ruffles_line_go_where_they_lie() -> None:
    # 40 above the hem the ruffle's line crosses the corner; the quarters lie in the main part.
    line = 1000 - 40
    panel = a_panel(
        replace(E12, panels=4),
        Grain.CENTRE,
        closure=Closure.CENTRE_BACK,
        ruffle_line=line,
        ruffle_words="ruffle",
        hem_seam="5",
        hem_quarters=True,
        opening=200.0,
    )
    made = in_two(panel, 1380, Grain.CENTRE)
    assert len(made.corners) == 1
    drawn = [
        path_length(inner.path)
        for piece in (made.main, made.corners[0], made.corners[0])
        for inner in piece.inner_lines
        if inner.kind is InnerKind.RUFFLE_LINE
    ]
    assert len(drawn) == 3
    assert math.fsum(drawn) == pytest.approx(path_length(panel.inner_lines[0].path), abs=1e-6)
    # A tick at each end lies on the corners, and none is lost.
    ticks = [
        len(inner.ticks)
        for piece in (made.main, made.corners[0], made.corners[0])
        for inner in piece.inner_lines
    ]
    assert sum(ticks) == len(panel.inner_lines[0].ticks)
    assert made.main.dots == panel.dots
    assert made.corners[0].dots == ()


def test_the_grain_of_a_corner_runs_inside_it_as_the_panels_does() -> None:
    for grain, panels, usable in ((Grain.CENTRE, 6, 1080), (Grain.EDGE, 4, 1060)):
        made = in_two(a_panel(replace(E12, panels=panels), grain), usable, grain)
        for corner in made.corners:
            polygon = flattened(stitching_line(corner))
            assert all(holds(polygon, end) for end in corner.grainline)
            assert heading(corner) == pytest.approx(heading(made.main))


def heading(piece: Piece) -> float:
    (ax, ay), (bx, by) = piece.grainline
    return math.atan2(by - ay, bx - ax)


# --- paths cut at a line ----------------------------------------------------------------------


def test_a_curve_is_cut_exactly_where_the_line_meets_it() -> None:
    (hem,) = (edge for edge in a_panel(E12, Grain.EDGE).edges if edge.name == "hem")
    # The hem runs from 0 to 60 degrees about the centre.
    (at,) = crossings(hem.path, R / 2)
    assert at == pytest.approx(R * math.radians(30))
    before, after = divided_at(hem.path, at)
    assert before[-1].end == pytest.approx((R * math.sqrt(3) / 2, R / 2))
    assert after[0].start == pytest.approx(before[-1].end)
    assert path_length(before) + path_length(after) == pytest.approx(hem.length)
    assert crossings(hem.path, R) == []


# --- how the panels are divided ---------------------------------------------------------------


def test_more_panels_are_cut_only_where_each_step_saves_a_twentieth(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    # From 7, which fits: 8 saves 4 %, 9 saves 6 %; 10 then 5.3 % more, 11 only another 4.5 %.
    takes = {7: 10_000, 8: 9_600, 9: 9_400, 10: 8_900, 11: 8_500}
    monkeypatch.setattr(
        splits, "panels_length", lambda cut, of, allowances, grain: takes[cut.panels]
    )
    found = splits.chosen(
        E12,
        Cloth(width=1100),
        E12_WIDTHS,
        grain=Grain.CENTRE,
        closure=Closure.NONE,
        unbroken=None,
    )
    assert (found.cut.panels, found.instead, found.saved) == (10, 7, 1_100)


@pytest.mark.parametrize(("otherwise", "cut_in"), [(6_574, 7), (6_576, 6)])
def test_corners_are_pieced_on_only_where_that_saves_a_twentieth(
    monkeypatch: pytest.MonkeyPatch, otherwise: float, cut_in: int
) -> None:
    # 6246 is 95 % of 6574.7; what the pieced panels take is measured by the cloth itself below.
    pieced_takes = splits.Corners(width=32.8, length=6_246)
    monkeypatch.setattr(splits, "corners", lambda *_: pieced_takes)
    monkeypatch.setattr(splits, "panels_length", lambda *_: otherwise)
    found = splits.chosen(
        E12,
        Cloth(width=1100),
        E12_WIDTHS,
        grain=Grain.CENTRE,
        closure=Closure.NONE,
        unbroken=Unbroken(),
    )
    assert found.cut.panels == cut_in
    assert (found.pieced > 0) is (cut_in == 6)


def test_what_a_division_takes_lies_between_its_area_and_rows_of_boxes() -> None:
    of = Cloth(width=1100)
    for panels in (7, 8, 10):
        cut = E12.divided(panels)
        bare = bare_panels(cut, E12_WIDTHS, Grain.CENTRE, half=False)
        shapes = shapes_of(bare, "panel", of)
        least = math.fsum(shape.area * shape.count for shape in shapes) / usable_width(of)
        takes = splits.panels_length(cut, of, E12_WIDTHS, Grain.CENTRE)
        assert least < takes <= rows_length(shapes, usable_width(of)) + 3


def test_two_squares_of_a_quarter_each_take_a_length_of_their_own() -> None:
    # Half a circle in two quarters, R 629.2 + 12 and 15 beside: 657 squares, one above the
    # other on 1400; on 900 the second lies behind, and no nearer than its curve lets it.
    quarter = Flare(fullness=0.5, panels=2, waistline=720, length=400)
    widths = Widths(waist=10, side=15, hem=12)
    wide = splits.panels_length(quarter, Cloth(width=1420), widths, Grain.EDGE)
    assert wide == pytest.approx(629.2 + 12 + 15, abs=5)
    narrow = splits.panels_length(quarter, Cloth(width=700), widths, Grain.EDGE)
    assert wide < narrow <= 2 * (629.2 + 12 + 17)


def test_panels_that_fit_are_never_laid(monkeypatch: pytest.MonkeyPatch) -> None:
    def never(*_: object) -> float:
        raise AssertionError("laid")

    monkeypatch.setattr(splits, "laid_length", never)
    found = splits.chosen(
        E12,
        Cloth(width=1400),
        E12_WIDTHS,
        grain=Grain.CENTRE,
        closure=Closure.NONE,
        unbroken=Unbroken(),
    )
    assert found == splits.Split(cut=E12)


# --- whole garments ---------------------------------------------------------------------------

NARROW_CLOTH = Cloth(width=840)


def promenade(cloth: Cloth = NARROW_CLOTH, **more: object) -> Spec:
    """Return six panels with their middle on the grain, 13 cm too wide for the cloth."""
    skirt = Skirt(
        length=800,
        panels=6,
        grain=Grain.CENTRE,
        hem=HemFinish.NARROW,
        allowances=Allowances(waist=10, side=15, hem=12, spare=0),
    )
    return garment(skirt=replace(skirt, **more), cloths=Cloths(skirt=cloth))  # type: ignore[arg-type]


def corners_of(pattern: Pattern) -> list[Piece]:
    return [piece for piece in pattern.pieces if "corner" in piece.name]


def test_a_skirt_just_too_wide_is_cut_as_asked_with_corners() -> None:
    pattern = draft(promenade())
    assert not stops(pattern.findings)
    (corner,) = corners_of(pattern)
    panel = piece_named(pattern.pieces, "skirt panel")
    assert (panel.count, corner.count, corner.mirrored) == (6, 12, True)
    names = [piece.name for piece in pattern.pieces]
    assert names.index("skirt panel corner") == names.index("skirt panel") + 1
    assert corner.notes == ("sew to the skirt panel before its side seam, seam 1a",)
    assert "sew its corners on first (seam 1a), then the side seams" in panel.notes
    assert {walked.number for walked in pattern.figures.truing} >= {"1", "1a", "2"}
    told = [walked.seam for walked in pattern.figures.truing]
    assert "skirt panel and its corner, hem" in told
    assert told.count("skirt panel and its corner, panel seam") == 2


def test_main_and_corner_together_are_as_long_as_the_side_that_they_make_up() -> None:
    truing = draft(promenade()).figures.truing
    whole = [walked for walked in truing if walked.seam.endswith("corner, panel seam")]
    assert [walked.second for walked in whole] == [pytest.approx(800)] * 2
    assert [walked.first for walked in whole] == [pytest.approx(800)] * 2


def test_the_seams_of_a_pieced_garment_are_walked_on_the_pieces_that_are_cut() -> None:
    spec = replace(
        promenade(),
        lining=Lining(fullness=0.5, panels=2),
        ruffle=Ruffle(gather_ratio=2.2, depth=150),
        cloths=Cloths(skirt=NARROW_CLOTH, lining=Cloth(width=2000)),
    )
    pattern = draft(spec)
    assert corners_of(pattern)
    walked = walk(pattern.seams, pattern.pieces)
    assert len(walked) == len(pattern.seams)
    # The hem all round, and the panel seams, on what lies on the table.
    hem = 6 * edge_named(piece_named(pattern.pieces, "skirt panel"), "hem").length
    (corner,) = corners_of(pattern)
    hem += 12 * edge_named(corner, "hem").length
    assert hem == pytest.approx(pattern.figures.skirt.sweep, abs=0.01)


def test_every_piece_of_a_pieced_skirt_is_laid() -> None:
    pattern = draft(promenade())
    plan_of_cloth = lay(pattern, "skirt", Effort.QUICK)
    assert plan_of_cloth.missing == ()
    laid = [one.shape.name for one in plan_of_cloth.laid]
    assert (laid.count("skirt panel"), laid.count("skirt panel corner")) == (6, 12)
    without = draft(promenade(replace(NARROW_CLOTH, piecing=False)))
    assert plan_of_cloth.length < 0.95 * lay(without, "skirt", Effort.QUICK).length


def test_a_folded_cloth_takes_the_half_and_pairs_of_corners() -> None:
    pattern = draft(promenade(replace(NARROW_CLOTH, fold=True)))
    (corner,) = corners_of(pattern)
    panel = piece_named(pattern.pieces, "skirt panel")
    assert panel.half and panel.fold_way is FoldWay.LENGTHWISE
    assert (corner.count, corner.mirrored) == (12, True)
    assert lay(pattern, "skirt", Effort.QUICK).missing == ()


@pytest.mark.parametrize(
    "spec",
    [
        promenade(replace(NARROW_CLOTH, piecing=False)),
        replace(promenade(), print=Print(scope=Scope.WAIST)),
        replace(promenade(), print=Print(scope=Scope.CARD)),
        promenade(hem=HemFinish.FACED),
        promenade(Cloth(width=760), pockets=True),
    ],
    ids=["not wanted", "waist", "card", "faced", "pockets"],
)
def test_no_corner_is_pieced_on_where_it_is_not_wanted_or_in_the_way(spec: Spec) -> None:
    pattern = draft(spec)
    assert not corners_of(pattern)
    assert piece_named(pattern.pieces, "skirt panel").count > 6
    codes = {finding.code for finding in pattern.findings}
    assert "panel-split" in codes and "corner-pieced" not in codes


def test_a_pocket_leaves_a_corner_alone_that_ends_below_it() -> None:
    # Corners of 6.3 and 10.3 cm take in 12.6 and 20.6 of a side 80 long; a bag ends at 64.
    assert corners_of(draft(promenade(Cloth(width=760))))
    assert corners_of(draft(promenade(pockets=True)))


def test_godets_leave_no_corners_to_piece() -> None:
    gores = {"cut": CutKind.GORED, "fullness": 0.8, "gores": 6, "panels": None, "length": 850}
    cloth = Cloth(width=640)
    assert corners_of(draft(promenade(cloth, **gores)))
    godets = Godets(depth=200, angle=math.radians(40))
    assert not corners_of(draft(promenade(cloth, godets=godets, **gores)))


def test_corners_that_differ_are_told_apart_by_name_and_by_seam() -> None:
    # A side hangs 3 cm lower than the other: no two panels and no two corners are alike.
    wearer = replace(SOUBRETTE, floor_left=1090, floor_right=1060, floor_side=1075)
    spec = promenade(
        Cloth(width=1120),
        level=LevelAt.HEM, hem_above_floor=240, closure=Closure.CENTRE_BACK,
    )  # fmt: skip
    pieces, seams = pieces_and_seams(plan(replace(spec, wearer=wearer)))
    (_, layer), *_ = layers(plan(replace(spec, wearer=wearer)))
    panels = [piece for piece in pieces if piece.cloth == "skirt" and len(piece.edges) == 4]
    panels = [piece for piece in panels if piece.edges[1].name == "hem"]
    usable = min(box_on_cloth(panel).height for panel in panels) - 40
    made = apart(pieces, seams, panels, number="1", usable=usable, grain=layer.grain)
    corners = [piece for piece in made.pieces if "corner" in piece.name]
    assert any(piece.name.endswith(" corner left") for piece in corners)
    assert any(piece.name.endswith(" corner right") for piece in corners)
    sewn = [seam for seam in made.seams if "corner" in seam.name and " to " in seam.name]
    assert len({seam.number for seam in sewn}) == len(corners)
    assert not {seam.number for seam in sewn} & {seam.number for seam in seams}
    walk(made.seams, made.pieces)
    walk(made.checks, (*made.pieces, *made.wholes))


# --- laws ---------------------------------------------------------------------------------------


@st.composite
def pieced_skirts(draw: st.DrawFn) -> Spec:
    """Draw a skirt whose panels have corners to piece on, of any cut that has them."""
    uneven = st.sampled_from([0.0, 0.0, -22.0, 14.0, 25.0])
    side = draw(st.floats(980, 1120))
    left, right = side + draw(uneven), side + draw(uneven)
    waist = draw(st.floats(560, 1100))
    wearer = replace(
        SOUBRETTE,
        waist=waist,
        hip=waist + draw(st.floats(80, 300)),
        floor_front=side + draw(uneven),
        floor_left=left,
        floor_right=right,
        floor_side=(left + right) / 2,
        floor_back=side + draw(uneven),
    )
    gored = draw(st.booleans())
    level = draw(st.sampled_from([None, LevelAt.HEM, LevelAt.WAIST]))
    skirt = Skirt(
        cut=CutKind.GORED if gored else CutKind.CIRCLE,
        fullness=draw(st.floats(0.4, 0.9) if gored else st.floats(0.4, 2.0)),
        length=draw(st.floats(560, 950)),
        panels=draw(st.sampled_from([2, 3, 4, 6])),
        gores=draw(st.integers(4, 7)),
        shaped=draw(st.booleans()),
        hem_above_floor=draw(st.floats(150, 400)) if level is not None else None,
        level=level or LevelAt.HEM,
        grain=Grain.CENTRE if gored else draw(st.sampled_from(Grain)),
        closure=draw(st.sampled_from([Closure.CENTRE_BACK, Closure.LEFT_SIDE])),
        hem=draw(st.sampled_from([HemFinish.NARROW, HemFinish.BIAS_FACED, HemFinish.BOUND])),
        trim_bias=draw(st.booleans()),
        allowances=Allowances(spare=draw(st.sampled_from([0.0, 8.0]))),
    )
    cloth = Cloth(width=20_000, fold=draw(st.booleans()))
    return garment(wearer=wearer, skirt=skirt, cloths=Cloths(skirt=cloth))


def polygon(piece: Piece, *, cut: bool) -> Polygon:
    line = cutting_line(piece) if cut else stitching_line(piece)
    # Its last point is its first but for a last digit, which shapely takes for a crossing.
    return Polygon(flattened(moved(line, turn=-heading(piece)))[:-1])


@settings(max_examples=drawn(150), deadline=None, suppress_health_check=list(HealthCheck))
@given(pieced_skirts(), st.floats(0.8, 0.995))
def test_a_panel_and_its_corners_are_the_panel_again(spec: Spec, share: float) -> None:
    try:
        planned = plan(spec)
        assume(not planned.faults)
        pieces, _ = pieces_and_seams(planned)
    except DraftingError:
        assume(False)
    grain = planned.skirt.grain
    for panel in pieces:
        if not {"waist", "hem"} <= {edge.name for edge in panel.edges}:
            continue
        usable = share * box_on_cloth(panel).height
        made = pieced(panel, usable, grain, Unbroken(), letters=("1x", "1y"))
        if made is None or not made.corners:
            continue
        _fits_and_holds(made, usable)
        _adds_up(made)
        _keeps_its_marks(made)


def _fits_and_holds(made: Pieced, usable: float) -> None:
    assert 30 - 1e-6 <= made.width <= 250
    walk(made.seams, made.pieces)
    for piece in made.pieces:
        assert box_on_cloth(piece).height <= usable + 1e-6
        sewn, cut = polygon(piece, cut=False), polygon(piece, cut=True)
        assert sewn.is_valid and cut.is_valid, piece.name
        assert sewn.difference(cut.buffer(0.05)).area < 1e-6, piece.name
        inside = flattened(stitching_line(piece))
        assert all(holds(inside, end) for end in piece.grainline), piece.name


def _adds_up(made: Pieced) -> None:
    """Check areas and outlines against those of the whole panel."""
    times = {
        corner.name: corner.count / made.whole.count / (2 if made.whole.half else 1)
        for corner in made.corners
    }
    whole = polygon(made.whole, cut=False).area
    parts = polygon(made.main, cut=False).area + math.fsum(
        times[corner.name] * polygon(corner, cut=False).area for corner in made.corners
    )
    assert parts == pytest.approx(whole, abs=2)
    # What is cut: together they cover the panel and nothing beside it. A corner that stands for
    # both sides is looked at on its own side.
    whole_cut, main = polygon(made.whole, cut=True), polygon(made.main, cut=True)
    for corner in made.corners:
        cut = polygon(corner, cut=True)
        low, high = cut.bounds[1], cut.bounds[3]
        seam = next(edge for edge in corner.edges if edge.pieced)
        line = moved_point(seam.path[0].start, turn=-heading(corner)).y
        band = rectangle(-1e5, low - 1, 1e5, line) if low + high < 2 * line else rectangle(
            -1e5, line, 1e5, high + 1
        )  # fmt: skip
        beyond = whole_cut.intersection(band)
        assert beyond.symmetric_difference(cut.union(main).intersection(band)).area < 5
        # They overlap by both allowances of the seam, and by no more.
        over = cut.intersection(main).bounds
        assert over[3] - over[1] == pytest.approx(2 * seam.allowance, abs=0.01)


def _keeps_its_marks(made: Pieced) -> None:
    own = {"1x", "1y"}
    marks = [n for n in made.main.notches if n.seam not in own]
    merged = len(made.corners) == 1 and len([e for e in made.main.edges if e.pieced]) == 2
    for corner in made.corners:
        marks += [n for n in corner.notches if n.seam not in own] * (2 if merged else 1)
    assert sorted((n.seam, n.words, n.strokes) for n in marks) == sorted(
        (n.seam, n.words, n.strokes) for n in made.whole.notches
    )
    for piece in made.pieces:
        for notch in piece.notches:
            assert -1e-6 <= notch.at <= piece.edges[notch.edge].length + 1e-6


@settings(max_examples=drawn(40), deadline=None, suppress_health_check=list(HealthCheck))
@given(pieced_skirts(), st.floats(0.85, 0.995), st.booleans())
def test_whatever_the_split_the_pieces_fit_the_cloth(
    spec: Spec, share: float, one_way: bool
) -> None:
    try:
        planned = plan(spec)
        assume(not planned.faults)
        pieces, _ = pieces_and_seams(planned)
    except DraftingError:
        assume(False)
    panels = [p for p in pieces if {"waist", "hem"} <= {edge.name for edge in p.edges}]
    width = share * max(box_on_cloth(panel).height for panel in panels) + 20
    cloth = replace(spec.cloths.skirt, width=width, one_way=one_way)
    pattern = draft(replace(spec, cloths=Cloths(skirt=cloth, binding=Cloth())))
    if stops(pattern.findings):
        return
    walk(pattern.seams, pattern.pieces)
    for piece in pattern.pieces:
        if piece.cloth == "skirt" and not piece.rectangle:
            assert box_on_cloth(piece).height <= usable_width(cloth) + 1, piece.name


def test_a_hem_of_many_arcs_is_cut_soundly_wherever_the_line_falls() -> None:
    # A hem trimmed for the bias is a run of short arcs; the cloth narrows over several of them.
    skirt = Skirt(
        fullness=2,
        length=560,
        panels=4,
        grain=Grain.CENTRE,
        trim_bias=True,
        allowances=Allowances(spare=8),
    )
    pieces, _ = pieces_and_seams(plan(garment(skirt=skirt, cloths=Cloths(skirt=Cloth(width=4000)))))
    (panel,) = (piece for piece in pieces if piece.name == "skirt panel")
    assert len(panel.edges[1].path) > 8
    wide = box_on_cloth(panel).height
    for less in range(30, 180, 2):
        made = in_two(panel, wide - less, Grain.CENTRE)
        _fits_and_holds(made, wide - less)
        _adds_up(made)
