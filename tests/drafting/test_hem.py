"""Hems: how deep they may be on a curve, and how deep they usually are."""

import math

import pytest

from drafting.allowance import Widths
from drafting.circle import Flare
from drafting.hem import deepest_hem, usual_hem
from drafting.panel_wishes import PanelWishes
from drafting.panels import panel
from drafting.piece import Piece, cutting_line
from drafting.spec import Closure, Grain, HemFinish
from tests import tape


def test_example_7_a_hem_of_15_on_a_full_circle() -> None:
    # E1's skirt: 94.2 = 2 pi 15 between cut edge and hem line, limit 11.3 at 3 %.
    r = 720 / math.tau
    assert deepest_hem(r + 650, ease=0.03, finish=HemFinish.TURNED) == pytest.approx(11.3, abs=0.05)
    quarter = 720 / (math.pi / 2) + 650
    assert quarter == pytest.approx(1108.4, abs=0.05)
    assert deepest_hem(quarter, ease=0.03, finish=HemFinish.TURNED) == pytest.approx(16.4, abs=0.05)


def test_example_7_the_cut_edge_is_94_2_longer_than_the_hem_line() -> None:
    halves = panel(
        Flare(fullness=1, panels=2, waistline=720, length=650), _wishes(Widths(hem=15, side=0))
    )
    big = 720 / math.tau + 650
    assert 2 * _cut_hem(halves, big + 15) - math.tau * big == pytest.approx(94.2, abs=0.05)


def _wishes(allowances: Widths) -> PanelWishes:
    return PanelWishes(
        part="skirt",
        allowances=allowances,
        grain=Grain.EDGE,
        closure=Closure.CENTRE_BACK,
        opening=0,
        seam="1",
        waist_seam="2",
    )


def _cut_hem(piece: Piece, radius: float) -> float:
    arcs = [s for s in cutting_line(piece) if abs(math.hypot(*s.start) - radius) < 1e-6]
    return tape.walked_length(tuple(s for s in arcs if abs(math.hypot(*s.end) - radius) < 1e-6))


@pytest.mark.parametrize(("ease", "limit"), [(0.03, 21.8), (0.015, 11.0)])
def test_a_narrow_double_hem_on_a_radius_of_739_may_be(ease: float, limit: float) -> None:
    # Trade 2.10: R = 739 -> 21.8 at 3 %, 11.0 at 1.5 %.
    assert deepest_hem(739, ease=ease, finish=HemFinish.NARROW) == pytest.approx(limit, abs=0.06)


def test_at_its_deepest_a_hem_loses_just_the_ease_of_its_cloth() -> None:
    for big in (200.0, 765.0, 1500.0):
        for q in (0.015, 0.03, 0.06):
            single = deepest_hem(big, ease=q, finish=HemFinish.TURNED)
            # The raw edge 2 pi F (R + h) lies on a circle 2 pi F (R - h).
            assert (big + single) / (big - single) - 1 == pytest.approx(q)
            narrow = deepest_hem(big, ease=q, finish=HemFinish.NARROW)
            # Twice turned, the fold line at R + h/2 is stitched at R - h/2.
            assert (big + narrow / 2) / (big - narrow / 2) - 1 == pytest.approx(q)


@pytest.mark.parametrize(
    ("finish", "usual"),
    [(HemFinish.NARROW, 12), (HemFinish.TURNED, 15), (HemFinish.ROLLED, 4), (HemFinish.BRAID, 8)],
)
def test_a_hem_is_as_deep_as_usual_where_its_curve_takes_it(
    finish: HemFinish, usual: float
) -> None:
    # A quarter circle of E7 takes a turn of 16.4 at 3 %, twice as much turned twice.
    assert usual_hem(1108.4, ease=0.03, finish=finish) == usual


def test_on_a_curve_that_takes_less_a_hem_is_what_it_takes_rounded_down() -> None:
    # E7's full circle takes a turn of 11.3; R = 739 takes a narrow hem of 11.0 at 1.5 %.
    assert usual_hem(764.6, ease=0.03, finish=HemFinish.TURNED) == 11.0
    assert usual_hem(739, ease=0.015, finish=HemFinish.NARROW) == 11.0
    # 0.03 R / 2.03 is 11.5 at 778.2 and 12.0 at 812: half millimetres, never more than fits.
    assert usual_hem(778.1, ease=0.03, finish=HemFinish.TURNED) == 11.0
    assert usual_hem(778.3, ease=0.03, finish=HemFinish.TURNED) == 11.5


SEWN_ON = [(HemFinish.FACED, 10), (HemFinish.BIAS_FACED, 10), (HemFinish.BOUND, 0)]


def test_no_hem_is_narrower_than_can_be_rolled() -> None:
    # 0.03 x 130 / 1.015 is 3.84, and half of it for a single turn.
    for finish in (HemFinish.NARROW, HemFinish.TURNED, HemFinish.ROLLED, HemFinish.BRAID):
        assert usual_hem(130, ease=0.03, finish=finish) == 4


@pytest.mark.parametrize(("finish", "seam"), SEWN_ON)
@pytest.mark.parametrize("hem_radius", [130, 765, None])
def test_a_hem_with_cloth_sewn_on_is_a_seam_on_any_curve(
    finish: HemFinish, seam: float, hem_radius: float | None
) -> None:
    # Trade 2.10: 10 of seam for either facing, none under a binding.
    assert usual_hem(hem_radius, ease=0.03, finish=finish) == seam
    assert deepest_hem(hem_radius, ease=0.03, finish=finish) == math.inf


def test_over_a_braid_a_hem_is_turned_once() -> None:
    # 8 lies flat from R = 8 x 2.03 / 0.03 = 541.3; E7's circle takes 11.3 of a single turn.
    assert deepest_hem(764.6, ease=0.03, finish=HemFinish.BRAID) == pytest.approx(11.3, abs=0.05)
    assert usual_hem(541.4, ease=0.03, finish=HemFinish.BRAID) == 8
    assert usual_hem(541.2, ease=0.03, finish=HemFinish.BRAID) == 7.5


@pytest.mark.parametrize("finish", HemFinish)
def test_a_straight_hem_may_be_as_deep_as_is_liked(finish: HemFinish) -> None:
    assert deepest_hem(None, ease=0.015, finish=finish) == math.inf


def test_a_straight_hem_that_is_turned_is_deep_and_the_others_are_as_usual() -> None:
    # Straight cloth turns up flat, so its hem may weigh it down.
    assert {finish: usual_hem(None, ease=0.015, finish=finish) for finish in HemFinish} == {
        HemFinish.NARROW: 12,
        HemFinish.TURNED: 60,
        HemFinish.ROLLED: 4,
        HemFinish.FACED: 10,
        HemFinish.BIAS_FACED: 10,
        HemFinish.BRAID: 8,
        HemFinish.BOUND: 0,
    }
