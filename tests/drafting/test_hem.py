"""Hems on a curve: how deep, and how far they drop."""

import math

import pytest

from drafting.allowance import Widths
from drafting.circle import Flare, PanelWishes, panel
from drafting.hem import bias_drop, deepest_hem, usual_hem
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
    [(HemFinish.NARROW, 12), (HemFinish.TURNED, 15), (HemFinish.ROLLED, 4)],
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


def test_no_hem_is_narrower_than_can_be_rolled() -> None:
    # 0.03 x 130 / 1.015 is 3.84, and half of it for a single turn.
    for finish in HemFinish:
        assert usual_hem(130, ease=0.03, finish=finish) == 4


def test_the_reference_skirt_drops_by_its_reference() -> None:
    r = 720 / math.tau
    assert bias_drop(r, r + 650, reference=7) == pytest.approx(7, abs=0.001)


@pytest.mark.parametrize(
    ("fullness", "waist", "long", "times"),
    [(1, 720, 900, 2.11), (1, 360, 325, 0.25), (0.5, 720, 650, 0.82)],
)
def test_the_bias_drop_grows_with_the_cloth_that_hangs(
    fullness: float, waist: float, long: float, times: float
) -> None:
    r = waist / math.tau / fullness
    assert bias_drop(r, r + long, reference=1) == pytest.approx(times, abs=0.005)


def test_the_pull_of_a_sector_is_the_sum_of_what_hangs_below_each_ring() -> None:
    # A ring at rho carries the cloth below it, (R^2 - rho^2) / 2 rho for each mm of its length;
    # the stretches of all rings add up.
    r, big, steps = 114.6, 900.0, 20_000
    wide = (big - r) / steps
    rings = (r + (k + 0.5) * wide for k in range(steps))
    pull = math.fsum((big**2 - rho**2) / (2 * rho) * wide for rho in rings)
    assert bias_drop(r, big, reference=411_909.0) == pytest.approx(pull, rel=1e-6)
