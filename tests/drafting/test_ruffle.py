"""The stiff ruffle: its line, its strips, its gathering."""

import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drafting.circle import Flare
from drafting.piece import EdgeKind, InnerKind, cutting_box
from drafting.plan import plan
from drafting.ruffle import (
    HABITS,
    Join,
    Method,
    RuffleDraft,
    cord_metres,
    cut_depth,
    default_depth,
    join_clearance,
    strip_piece,
    thread_metres,
)
from drafting.spec import Closure, Cloth, Cloths, Lining, Ruffle, RuffleCloth, Skirt
from drafting.strips import strip_count
from tests.garments import SOUBRETTE, garment


def e9_spec_ruffle(cloth: RuffleCloth, *, closure: Closure = Closure.CENTRE_BACK) -> RuffleDraft:
    """Example 9, from spec to numbers: lining F 0.5, W 720, L_l 620, D 200, m 10, g 2.2."""
    drafted = plan(
        garment(
            wearer=SOUBRETTE,
            skirt=Skirt(length=650, waist_ease=0, waist_stretch=0, closure=closure),
            lining=Lining(fullness=0.5, shorter=30),
            ruffle=Ruffle(cloth=cloth, depth=200, gather_ratio=2.2, above_hem=10),
            cloths=Cloths(ruffle=Cloth(width=1400, selvage=0)),
        )
    ).ruffle
    assert drafted is not None
    return drafted


def test_example_9_the_ruffles_line_and_strips() -> None:
    found = e9_spec_ruffle(RuffleCloth.POLYESTER_ORGANZA)
    assert found.line_below_waist == pytest.approx(410)
    assert found.line_radius == pytest.approx(639.2, abs=0.05)
    assert found.line_length == pytest.approx(2008.1, abs=0.05)
    assert found.flat_length == pytest.approx(4417.7, abs=0.05)
    assert (found.strips, found.ring) == (4, True)
    assert found.strip_cut_length == pytest.approx(1124.4, abs=0.05)
    assert found.line_length / 4 == pytest.approx(502.0, abs=0.05)
    assert found.flat_length / 4 == pytest.approx(1104.4, abs=0.05)


def test_example_9_the_hem_would_have_been_a_third_too_long() -> None:
    lining = Flare(fullness=0.5, panels=1, waistline=720, length=620)
    assert lining.waist_radius == pytest.approx(229.2, abs=0.05)
    assert lining.sweep == pytest.approx(2667.8, abs=0.05)
    assert lining.sweep / lining.girth_at(410) == pytest.approx(1.3285, abs=1e-4)


def test_example_9_a_raw_strip_is_cut_215_deep() -> None:
    assert e9_spec_ruffle(RuffleCloth.STIFF_NET).strip_cut_depth == pytest.approx(215)


def test_example_9_thread_and_cord() -> None:
    found = e9_spec_ruffle(RuffleCloth.POLYESTER_ORGANZA)
    assert thread_metres(found, Method.ROWS) == pytest.approx(20.3, abs=0.05)
    assert cord_metres(found) == pytest.approx(5.6, abs=0.05)
    assert thread_metres(found, Method.CORD) == pytest.approx(4.4177 * 4.5, abs=0.001)


@pytest.mark.parametrize(
    ("cloth", "depth"),
    [
        (RuffleCloth.SOFT_TULLE, 215),
        (RuffleCloth.STIFF_NET, 215),
        (RuffleCloth.SILK_ORGANZA, 219),
        (RuffleCloth.POLYESTER_ORGANZA, 219),
        (RuffleCloth.COTTON_ORGANDY, 227),
        (RuffleCloth.CRINOLINE_CANVAS, 215),
    ],
)
def test_fraying_cloth_gets_a_hem_and_a_doubled_ruffle_none(
    cloth: RuffleCloth, depth: float
) -> None:
    # Trade 5.3: 15 above; rolled edges of 3 to 5, a narrow hem of 12, or raw.
    assert cut_depth(cloth, 200, doubled=False) == pytest.approx(depth)
    # Folded double: 2 D + 2 a_t.
    assert cut_depth(cloth, 200, doubled=True) == pytest.approx(430)


def test_the_default_depth_is_20_cm_or_a_third_of_a_short_lining() -> None:
    assert default_depth(600) == 200
    assert default_depth(450) == 150


def test_tulle_laps_take_their_lap_once_and_seams_their_allowance_twice() -> None:
    # Trade 5.4: N >= g C / (U - lap) for laps of 10; of 20 for canvas.
    assert HABITS[RuffleCloth.SOFT_TULLE].join is Join.LAP
    lap = 2 * HABITS[RuffleCloth.SOFT_TULLE].join_allowance
    assert lap == 10 and 2 * HABITS[RuffleCloth.CRINOLINE_CANVAS].join_allowance == 20
    assert strip_count(4 * 1370, 1380, join_allowance=5, ring=True)[0] == 4
    assert strip_count(4 * 1370 + 1, 1380, join_allowance=5, ring=True)[0] == 5


def test_an_open_ruffle_has_one_join_less_and_a_hem_at_each_end() -> None:
    # N U - 2 a (N - 1) - 2 x 10 >= flat: 3 x 1400 - 60 - 20 = 4120 with joins of 15.
    assert strip_count(4120, 1400, join_allowance=15, ring=False)[0] == 3
    assert strip_count(4121, 1400, join_allowance=15, ring=False)[0] == 4
    count, cut = strip_count(4000, 1400, join_allowance=15, ring=False)
    assert count * cut - 2 * 15 * (count - 1) - 20 == pytest.approx(4000)


def test_a_cloth_no_wider_than_its_joins_makes_no_strip() -> None:
    assert strip_count(4000, 30, join_allowance=15, ring=True) == (0, 0.0)
    assert strip_count(4000, 20, join_allowance=5, ring=False) == (0, 0.0)


@settings(max_examples=100, deadline=None)
@given(
    st.floats(200, 40_000),
    st.floats(100, 3000),
    st.sampled_from((5, 10, 15)),
    st.booleans(),
)
def test_strips_sew_up_to_the_flat_length_fit_the_cloth_and_none_is_too_many(
    flat: float, usable: float, a: float, ring: bool
) -> None:
    count, cut = strip_count(flat, usable, join_allowance=a, ring=ring)
    lost = 2 * a * count if ring else 2 * a * (count - 1) + 20
    assert count * cut - lost == pytest.approx(flat, abs=1e-6)
    assert cut <= usable + 1e-6
    fewer = count - 1
    if fewer:
        most = fewer * usable - (2 * a * fewer if ring else 2 * a * (fewer - 1) + 20)
        assert most < flat


def test_a_long_ruffle_or_net_goes_over_a_cord_and_organdy_straddles_its_seam() -> None:
    long = e9_spec_ruffle(RuffleCloth.COTTON_ORGANDY)
    assert (long.method, long.rows) == (Method.CORD, (12.0,))
    short = replace(long, flat_length=3900.0)
    assert (short.method, short.rows) == (Method.ROWS, (12.0, 19.0))
    assert replace(short, cloth=RuffleCloth.SILK_ORGANZA).rows == (13.0, 8.0)
    assert replace(short, cloth=RuffleCloth.STIFF_NET).method is Method.CORD


def test_gathering_sections_are_at_most_2_metres_and_a_multiple_of_four() -> None:
    base = e9_spec_ruffle(RuffleCloth.STIFF_NET)
    for flat, sections in ((3000, 4), (8000, 4), (8001, 8), (16_000, 8), (17_000, 12)):
        assert replace(base, flat_length=float(flat)).sections == sections


def nearest_by_trying(strips: int, panels: int, *, ring: bool) -> float:
    """The best of many shifts, each measured join by join: shares of the round."""
    joins = range(strips) if ring else range(1, strips)
    shifts = [k / 4000 for k in range(4000)] if ring else [0.0]
    return max(
        min(
            abs((j / strips + shift - s / panels + 0.5) % 1 - 0.5)
            for j in joins
            for s in range(panels)
        )
        for shift in shifts
    )


@pytest.mark.parametrize(("strips", "panels"), [(4, 1), (4, 2), (3, 2), (5, 4), (6, 4), (1, 3)])
def test_the_joins_of_a_ring_are_shifted_clear_of_the_lining_seams(
    strips: int, panels: int
) -> None:
    base = replace(e9_spec_ruffle(RuffleCloth.STIFF_NET), strips=strips, line_length=1.0)
    found = join_clearance(base, panels)
    assert found == pytest.approx(nearest_by_trying(strips, panels, ring=True), abs=3e-4)


@pytest.mark.parametrize(("strips", "panels"), [(4, 1), (4, 2), (3, 2), (5, 4), (6, 4), (7, 3)])
def test_the_joins_of_an_open_ruffle_fall_where_they_fall(strips: int, panels: int) -> None:
    base = replace(
        e9_spec_ruffle(RuffleCloth.STIFF_NET), strips=strips, line_length=1.0, ring=False
    )
    found = join_clearance(base, panels)
    assert found == pytest.approx(nearest_by_trying(strips, panels, ring=False), abs=1e-9)


def test_a_ruffle_without_joins_has_none_to_be_near() -> None:
    base = e9_spec_ruffle(RuffleCloth.STIFF_NET)
    assert join_clearance(replace(base, strips=1, ring=False), 2) is None
    assert join_clearance(replace(base, strips=0), 2) is None


def test_a_ruffle_above_the_end_of_the_opening_is_sewn_open() -> None:
    def ring(depth: float, closure: Closure) -> bool:
        found = plan(
            garment(
                skirt=Skirt(length=580, closure=closure),
                lining=Lining(fullness=0.5),
                ruffle=Ruffle(depth=depth, gather_ratio=2.5),
            )
        ).ruffle
        assert found is not None
        return found.ring

    # The lining is 550 long and opens about 211: a ruffle of 280 starts at 260, clear by 49.
    assert ring(280, Closure.CENTRE_BACK)
    # One of 320 starts at 220, less than 30 below the end of the opening.
    assert not ring(320, Closure.CENTRE_BACK)
    # Nothing is open where there is no closure, however high the ruffle starts.
    assert ring(515, Closure.NONE)


def test_a_strip_is_drawn_with_its_rows_and_its_allowances() -> None:
    net = strip_piece(e9_spec_ruffle(RuffleCloth.STIFF_NET), seam="4")
    box = cutting_box(net)
    assert [box.width, box.height] == pytest.approx([1124.4, 215], abs=0.05)
    (cord,) = net.inner_lines
    # 12 from the raw edge, which is 15 above the seam line at 200.
    assert cord.path[0].start.y == pytest.approx(203)
    assert (net.count, net.edges[0].kind) == (4, EdgeKind.RAW)
    assert [edge.words for edge in net.edges] == ["lower edge", "", "seam 4, gather this edge", ""]
    assert net.notes == ("lower edge: left raw, or bound so that it does not catch tights",)


def test_a_strip_says_what_its_joins_and_its_ends_take() -> None:
    tulle = e9_spec_ruffle(RuffleCloth.SOFT_TULLE)
    lapped = "lap the strips by 10 mm, do not seam them"
    assert strip_piece(tulle, seam="4").notes == (lapped, "lower edge: left raw")
    canvas = strip_piece(e9_spec_ruffle(RuffleCloth.CRINOLINE_CANVAS), seam="4")
    assert canvas.notes[0] == "lap the strips by 20 mm, do not seam them"
    # A ring has no ends.
    ends = "hem each end of the joined ruffle by 10 mm"
    opened = strip_piece(replace(tulle, ring=False), seam="4")
    assert opened.notes == (lapped, ends, "lower edge: left raw")
    organza = e9_spec_ruffle(RuffleCloth.SILK_ORGANZA)
    assert strip_piece(organza, seam="4").notes == ("lower edge: rolled, before gathering",)


def test_a_doubled_strip_is_folded_in_its_middle_and_gathered_through_both_layers() -> None:
    doubled = strip_piece(
        replace(e9_spec_ruffle(RuffleCloth.SILK_ORGANZA), doubled=True, strip_cut_depth=430.0),
        seam="4",
    )
    assert doubled.notes == ("fold along its length",)
    assert doubled.edges[0].words == "gather with the other edge"
    assert cutting_box(doubled).height == pytest.approx(430)
    (fold,) = [line for line in doubled.inner_lines if line.kind is InnerKind.FOLD_LINE]
    assert fold.path[0].start.y == pytest.approx(200)
    assert doubled.edges[0].allowance == doubled.edges[2].allowance == 15


def test_every_ruffle_cloth_has_its_habit() -> None:
    assert set(HABITS) == set(RuffleCloth)
    for habit in HABITS.values():
        low, high = habit.ratios
        assert 1 <= low < high <= 4 and not math.isnan(habit.edge_hem)
