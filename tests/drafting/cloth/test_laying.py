"""Lay plans: every piece on its cloth, once, on the grain, and none on another."""

import dataclasses
import math
import subprocess
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

import drafting
from drafting import cloth
from drafting.allowance import Widths
from drafting.circle import Flare
from drafting.cloth.checking import faults
from drafting.cloth.laying import lay_of, open_plan
from drafting.cloth.lays import Lay, Lies, Method
from drafting.cloth.shapes import shapes, shapes_of, whole_outline
from drafting.effort import Effort
from drafting.findings import stops
from drafting.geometry import area
from drafting.pattern import Pattern, draft
from drafting.piece import EdgeKind, FoldWay, Piece, cutting_area
from drafting.spec import Cloth, Cloths, Grain, Lining, Ruffle, Skirt, Spec
from drafting.units import Units
from tests.drafting.cloth import lay_check
from tests.drafting.cloth.test_boxes import E1, E11, E12, E12_ALLOWANCES, box_piece, plain_mitres
from tests.drafting.test_allowance import a_panel
from tests.drafting.test_every_cut import specs
from tests.drawn import drawn
from tests.garments import CHORUS_TALL, chorus_skirt, garment
from tests.tape import chain

SHEETS = sorted((Path(__file__).parents[3] / "measurements_examples").glob("*.toml"))

PLAIN = Cloth(width=1520, selvage=10)
"""1500 between its selvages, and nothing is lost in the wash."""


def on(of: Cloth, *pieces: Piece, effort: Effort = Effort.QUICK, name: str = "skirt") -> Lay:
    return lay_of(shapes_of(pieces, name, of), name, of, effort, units=Units.CM)


# --- the trade's examples ------------------------------------------------------------------


def test_example_11_two_half_circles_take_3118_in_rows_and_less_when_slid_together() -> None:
    panel = plain_mitres(a_panel(E1, E11))
    plan = on(PLAIN, panel)
    assert plan.rows_length == pytest.approx(3118.4, abs=0.05)
    # Half a ring between 104.59 and 779.59, and a strip 15 wide along each of its two sides.
    sector = math.pi / 2 * (779.59**2 - 104.59**2)
    sides = 2 * 15 * (779.59 - 104.59)
    assert plan.area == pytest.approx(2 * (sector + sides), rel=2e-3)
    # A half circle tucks its straight side beside its neighbour's: never less than its own box.
    assert 1559.2 < plan.length < 3118.4 - 300
    assert plan.lower_bound < plan.length


def test_example_11_side_by_side_where_1589_fits() -> None:
    panel = plain_mitres(a_panel(E1, E11))
    assert on(Cloth(width=1610, selvage=10), panel).length == pytest.approx(1559.2, abs=0.1)


def test_example_12_six_sectors_do_not_fit_1120_and_fit_1400() -> None:
    panel = plain_mitres(a_panel(E12, E12_ALLOWANCES, grain=Grain.CENTRE))
    narrow = on(Cloth(width=1120, selvage=10), panel)
    assert [shape.name for shape in narrow.missing] == ["skirt panel"]
    assert [finding.code for finding in narrow.findings] == ["too-wide-to-lay"]
    assert narrow.laid == () and narrow.length == 0
    wide = on(Cloth(width=1400, selvage=10), panel)
    assert wide.missing == ()
    # Rows: one box of 1042.4 a row, six of them; head to tail they take less.
    assert wide.rows_length == pytest.approx(6 * 1042.4, abs=0.3)
    assert wide.length < wide.rows_length - 500


def test_full_width_strips_add_their_depth_exactly() -> None:
    # E9: four strips of 215 across a cloth that they fill: 860.
    strip = replace(box_piece(215, 1104.4, 4), rectangle=True)
    plan = on(Cloth(width=1400, selvage=10), strip)
    assert plan.length == pytest.approx(860)
    assert sorted(one.box.left for one in plan.laid) == pytest.approx([0, 215, 430, 645])


# --- laws for every garment ----------------------------------------------------------------


@st.composite
def cloths(draw: st.DrawFn) -> Cloth:
    """Draw a cloth: any width a shop sells, with or without a nap, folded or not."""
    return Cloth(
        width=draw(st.sampled_from([900.0, 1120.0, 1400.0, 1500.0, 2800.0])),
        selvage=draw(st.sampled_from([0.0, 10.0, 20.0])),
        shrink_length=draw(st.sampled_from([0.0, 0.04])),
        shrink_width=draw(st.sampled_from([0.0, 0.02])),
        one_way=draw(st.booleans()),
        fold=draw(st.booleans()),
    )


@st.composite
def patterns(draw: st.DrawFn) -> Pattern:
    """Draw a garment of any cut on any cloths."""
    spec: Spec = draw(specs())
    of = Cloths(
        skirt=draw(cloths()),
        lining=draw(cloths()),
        ruffle=draw(cloths()),
        interfacing=replace(draw(cloths()), fold=False),
        binding=replace(draw(cloths()), fold=False),
    )
    return draft(replace(spec, cloths=of))


@settings(
    max_examples=drawn(300),
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much],
)
@given(patterns(), st.randoms(use_true_random=False))
def test_whatever_is_drafted_can_be_laid(pattern: Pattern, chance: Any) -> None:
    assume(not stops(pattern.findings))
    name = chance.choice(sorted(pattern.figures.cloth))
    plan = cloth.lay(pattern, name, Effort.QUICK)
    assume(not plan.missing and not plan.counted)
    assert lay_check.wrong(pattern, plan) == []
    assert faults(plan) == ()
    assert plan.length <= plan.rows_length + 1e-6
    assert plan.lower_bound <= plan.length + 1e-6
    assert plan.length == pytest.approx(max(one.box.right for one in plan.laid), abs=0.02)


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: sheet.stem)
def test_the_solver_lays_every_example_soundly(sheet: Path) -> None:
    pattern = draft(drafting.load(sheet))
    name = next(iter(pattern.figures.cloth))
    plan = cloth.lay(pattern, name, Effort.USUAL)
    assert lay_check.wrong(pattern, plan) == []
    assert plan.length <= plan.rows_length + 1e-6
    assert plan.length <= cloth.lay(pattern, name, Effort.QUICK).length + 1e-6
    assert {finding.code for finding in plan.findings} <= {"may-shade"}


def test_sateen_laid_both_ways_may_shade_and_laid_one_way_does_not() -> None:
    spec = drafting.load(next(s for s in SHEETS if s.stem == "chorus-skirt"))
    plan = cloth.lay(draft(spec), "skirt", Effort.QUICK)
    assert [finding.code for finding in plan.findings] == ["may-shade"]
    one_way = replace(spec.cloths.skirt, one_way=True)
    spec = replace(spec, cloths=replace(spec.cloths, skirt=one_way))
    assert cloth.lay(draft(spec), "skirt", Effort.QUICK).findings == ()
    poplin = replace(one_way, kind="cotton poplin", one_way=False)
    spec = replace(spec, cloths=replace(spec.cloths, skirt=poplin))
    assert cloth.lay(draft(spec), "skirt", Effort.QUICK).findings == ()


def told(plan: Lay) -> list[Any]:
    return [(one.shape.name, one.copy, one.x, one.y, one.turn, one.flipped) for one in plan.laid]


def test_the_same_sheet_gives_the_same_plan() -> None:
    pattern = draft(drafting.load(next(s for s in SHEETS if s.stem == "character-skirt")))
    one, other = (cloth.lay(pattern, "skirt", Effort.USUAL) for _ in range(2))
    assert one.method is Method.SOLVER
    assert told(one) == told(other)


# --- folds ---------------------------------------------------------------------------------


def folded_pattern(**of: Any) -> Pattern:
    """Four quarter circles with their middle on the grain, on cloth wide enough to fold."""
    return draft(
        garment(
            wearer=CHORUS_TALL,
            skirt=Skirt(length=620, panels=4, grain=Grain.CENTRE, pockets=True),
            cloths=Cloths(skirt=Cloth(width=2800, fold=True, **of)),
        )
    )


def test_halves_lie_on_the_fold_and_pairs_in_two_layers() -> None:
    pattern = folded_pattern()
    plan = cloth.lay(pattern, "skirt")
    panels = [one for one in plan.laid if one.shape.name == "skirt panel"]
    assert panels[0].shape.fold_way is FoldWay.LENGTHWISE
    assert [one.lies for one in panels] == [Lies.ON_FOLD] * 4
    assert all(one.box.centre.y == pytest.approx(1390) for one in panels)
    bags = [one for one in plan.laid if one.shape.name == "pocket bag"]
    assert sorted(one.lies for one in bags) == [Lies.UNDER] * 2 + [Lies.UPPER] * 2
    assert [one.flipped for one in bags].count(True) == 2
    assert lay_check.wrong(pattern, plan) == []
    folded = next(stretch for stretch in plan.stretches if stretch.folded)
    assert folded.start == 0 and folded.length > 0


@settings(max_examples=drawn(150), deadline=None, suppress_health_check=list(HealthCheck))
@given(patterns())
def test_a_fold_of_the_cloth_lies_along_or_across_the_grain_of_its_half(pattern: Pattern) -> None:
    for piece in pattern.pieces:
        if piece.half and piece.fold_way is not FoldWay.NONE:
            fold = next(edge for edge in piece.edges if edge.kind is EdgeKind.FOLD).path[0]
            (ax, ay), (bx, by) = piece.grainline
            turn = math.atan2(by - ay, bx - ax) - math.atan2(
                fold.end.y - fold.start.y, fold.end.x - fold.start.x
            )
            along = piece.fold_way is FoldWay.LENGTHWISE
            off = math.sin(turn) if along else math.cos(turn)
            assert abs(off) < 1e-6, piece.name


def test_what_is_cut_once_lies_beside_the_folded_pieces_in_the_upper_layer_alone() -> None:
    pattern = folded_pattern()
    plan = cloth.lay(pattern, "skirt")
    (band,) = (one for one in plan.laid if one.shape.name == "band")
    # The folded cloth is 139 cm wide, and a panel's half 62 + 12: the band needs none of its own.
    assert band.lies is Lies.ALONE
    assert band.box.bottom >= plan.usable / 2 - 1e-6
    assert [stretch.folded for stretch in plan.stretches] == [True]
    panels = [one for one in plan.laid if one.shape.name == "skirt panel"]
    assert plan.length == pytest.approx(max(one.box.right for one in panels), abs=0.02)


def test_what_is_cut_once_and_is_wider_than_the_folded_cloth_lies_behind_it() -> None:
    panel = a_panel(replace(E1, panels=4), E11, grain=Grain.CENTRE, half=True)
    panel = replace(panel, fold_way=FoldWay.LENGTHWISE, count=2)
    long = replace(box_piece(300, 900, 1), name="sash", cloth="skirt")
    of = Cloth(width=1520, selvage=10, fold=True)
    plan = on(of, panel, long)
    (sash,) = (one for one in plan.laid if one.shape.name == "sash")
    assert sash.lies is Lies.SINGLE
    folded, behind = plan.stretches
    assert folded.folded and not behind.folded
    assert sash.box.left >= behind.start - 1e-6
    assert behind.length == pytest.approx(300)
    assert faults(plan) == ()


def test_an_unfolded_half_is_twice_the_half() -> None:
    pattern = draft(chorus_skirt_folded())
    panel = next(piece for piece in pattern.pieces if piece.half)
    assert area(whole_outline(panel)) == pytest.approx(2 * cutting_area(panel), rel=1e-9)


def chorus_skirt_folded() -> Spec:
    spec = chorus_skirt()
    return replace(spec, cloths=replace(spec.cloths, skirt=replace(spec.cloths.skirt, fold=True)))


# --- ends of the road ----------------------------------------------------------------------


@pytest.mark.parametrize("width", [0.0, -30.0, 5.0])
def test_a_cloth_with_nothing_between_its_selvages_takes_no_piece(width: float) -> None:
    plan = on(Cloth(width=width + 20, selvage=10), box_piece(300, 200, 2))
    assert plan.laid == () and plan.length == 0 and plan.used == 0
    assert [shape.count for shape in plan.missing] == [2]
    assert "Buy wider cloth" in plan.findings[0].do


def test_two_hundred_pieces_are_laid_without_waiting() -> None:
    kinds = [box_piece(300 + 7 * k, 150 + 11 * k, 40) for k in range(4)]
    pieces = [replace(piece, name=f"panel {k}") for k, piece in enumerate(kinds)]
    panel = replace(a_panel(replace(E1, panels=4), E11), count=40, name="panel of quarter circles")
    plan = on(PLAIN, *pieces, panel, effort=Effort.USUAL)
    assert len(plan.laid) == 200
    assert faults(plan) == ()
    assert plan.length <= plan.rows_length


def test_thousands_of_strips_are_counted_and_not_drawn() -> None:
    plan = on(Cloth(width=1020, selvage=10), replace(box_piece(200, 90, 5000), rectangle=True))
    assert plan.laid == ()
    assert plan.length == pytest.approx(math.ceil(5000 / 11) * 200)
    assert [finding.code for finding in plan.findings] == ["too-many-to-draw"]
    assert plan.area == pytest.approx(5000 * 200 * 90)


def test_a_piece_as_wide_as_the_cloth_is_laid_all_the_same() -> None:
    ring = a_panel(E1, E11)
    plan = on(PLAIN, replace(box_piece(400, 1500, 2), name="sheet"), ring, effort=Effort.USUAL)
    assert faults(plan) == ()
    assert len(plan.laid) == 4


def test_a_solver_that_fails_is_told_of_and_another_plan_is_given(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def panics(*_: object, **__: object) -> object:
        return subprocess.CompletedProcess(args=[], returncode=101, stdout="", stderr="panicked")

    monkeypatch.setattr(subprocess, "run", panics)
    pattern = draft(drafting.load(next(s for s in SHEETS if s.stem == "twirl-skirt")))
    plan = cloth.lay(pattern, "skirt", Effort.USUAL)
    assert plan.method is not Method.SOLVER
    assert "laid-without-solver" in [finding.code for finding in plan.findings]
    assert lay_check.wrong(pattern, plan) == []


def test_a_plan_of_the_solvers_that_is_not_sound_is_not_taken(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def piled_up(fit: Any, width: float, *, stall: int) -> Any:
        plan, _, _ = open_plan(fit, width, Effort.QUICK)
        return tuple(replace(one, x=0.0) for one in plan[0]), 10.0

    monkeypatch.setattr("drafting.cloth.laying.solved", piled_up)
    pattern = draft(drafting.load(next(s for s in SHEETS if s.stem == "twirl-skirt")))
    plan = cloth.lay(pattern, "skirt", Effort.USUAL)
    assert plan.method is not Method.SOLVER
    assert lay_check.wrong(pattern, plan) == []


def test_nothing_cut_from_a_cloth_has_no_plan() -> None:
    with pytest.raises(KeyError):
        cloth.lay(draft(garment()), "ruffle")


def test_bias_strips_are_laid_as_the_lengths_they_are_joined_from() -> None:
    pattern = draft(drafting.load(next(s for s in SHEETS if s.stem == "wave-petticoat")))
    plan = cloth.lay(pattern, "binding", Effort.QUICK)
    strip = next(piece for piece in pattern.pieces if piece.cloth == "binding")
    lengths = [one for one in plan.laid if one.shape.bias]
    assert len(lengths) > 1
    # Each is 35 wide at 45 degrees: its area over 35 is its length; together at least the strip.
    long = sum(area(one.outline) for one in lengths) / 35
    cut = max(edge.length for edge in strip.edges)
    assert cut <= long <= cut + 20 * len(lengths) + 20
    assert all(one.box.top <= plan.usable + 1e-6 for one in lengths)


def test_checking_finds_what_is_wrong() -> None:
    pattern = draft(garment(lining=Lining(fullness=0.5), ruffle=Ruffle(gather_ratio=2)))
    plan = cloth.lay(pattern, "skirt", Effort.QUICK)
    assert faults(plan) == ()
    first = plan.laid[0]

    def changed(**by: Any) -> tuple[str, ...]:
        return faults(replace(plan, laid=(dataclasses.replace(first, **by), *plan.laid[1:])))

    assert any("lies on" in fault for fault in changed(x=plan.laid[1].x, y=plan.laid[1].y + 1))
    assert any("beyond" in fault for fault in changed(y=first.y - first.box.bottom - 5))
    assert any("grain" in fault for fault in changed(turn=first.turn + 0.01))
    assert any("times" in fault for fault in faults(replace(plan, laid=plan.laid[1:])))


def test_a_shape_of_the_solver_lies_wholly_inside_its_polygon() -> None:
    pattern = draft(garment(skirt=Skirt(length=580, panels=3)))
    (panel, *_) = shapes(pattern, "skirt")
    wide = Flare(fullness=1, panels=3, waistline=720, length=580)
    assert wide.panels == panel.count == 3
    from shapely.geometry import Polygon

    from drafting.geometry import flattened

    outer = Polygon(flattened(panel.lying(), outside=True, error=0.5))
    inner = Polygon(chain(panel.lying(), 5000))
    assert inner.difference(outer).area < 0.01
    assert 0 < outer.area - inner.area < 0.5 * inner.length


def test_allowances_are_part_of_what_is_laid() -> None:
    bare = on(PLAIN, a_panel(E1, Widths()))
    assert on(PLAIN, a_panel(E1, E11)).area > bare.area + 1e4
