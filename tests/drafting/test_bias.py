"""Bias: what a round waist gives and how a hem drops, by the trade's figures and by sums."""

import math
from collections.abc import Callable
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drafting.bias import (
    bias_drop,
    drop_at,
    drops_on_panel,
    grain_from_edge,
    mean_extension,
    panel_waist_stretch,
    steepest_drop,
    trimmed_hem,
    waist_stretch,
)
from drafting.errors import GeometryError
from drafting.geometry import Path
from drafting.spec import Grain
from tests import tape

rad = math.radians
ANGLES = st.floats(-7, 7)
SPANS = st.floats(0.01, 7)
PANELS = st.floats(rad(5), math.pi)


def extension(angle: float, give: float) -> float:
    """Return what woven cloth gives at an angle to its grain, worked out here again."""
    return give * (2 * math.sin(angle) * math.cos(angle)) ** 2


def summed(law: Callable[[float], float], begin: float, finish: float, steps: int) -> float:
    """Return the mean of a law between two angles, from many narrow strips."""
    wide = (finish - begin) / steps
    return math.fsum(law(begin + (k + 0.5) * wide) for k in range(steps)) / steps


# Example 8: b 12 at 45 degrees.
EXAMPLE_8 = [(0, 0.0), (15, 3.0), (22.5, 6.0), (30, 9.0), (45, 12.0)]


@pytest.mark.parametrize(("degrees", "drop"), EXAMPLE_8)
def test_example_8_the_hem_drops_more_the_nearer_it_is_to_the_bias(
    degrees: float, drop: float
) -> None:
    assert drop_at(rad(degrees), 12) == pytest.approx(drop, abs=0.05)


def test_example_8_the_drop_is_6_on_the_whole() -> None:
    assert summed(lambda angle: drop_at(angle, 12), 0, math.tau, 720) == pytest.approx(6.0)


def test_example_8_a_waist_from_the_grain_to_30_degrees() -> None:
    m = mean_extension(0, rad(30))
    assert m == pytest.approx(0.2933, abs=0.00005)
    assert waist_stretch(0.04, [(0, rad(30))]) == pytest.approx(0.0117, abs=0.00005)


def test_cloth_is_firm_on_both_straight_grains_and_gives_most_between_them() -> None:
    for k in range(4):
        # Arcs of no length: the mean there is what that one angle gives.
        grain, bias = k * rad(90), k * rad(90) + rad(45)
        assert mean_extension(grain, grain) == pytest.approx(0, abs=1e-9)
        assert mean_extension(bias, bias) == pytest.approx(1)


@pytest.mark.parametrize("quadrants", [1, 2, 3, 4, 8])
@pytest.mark.parametrize("begin", [0.0, 0.3, -1.1])
def test_whole_quadrants_give_half_of_the_most(quadrants: int, begin: float) -> None:
    assert mean_extension(begin, begin + quadrants * rad(90)) == pytest.approx(0.5)


@given(begin=ANGLES, wide=SPANS)
def test_the_mean_is_the_sum_of_all_the_little_extensions(begin: float, wide: float) -> None:
    walked = summed(lambda angle: extension(angle, 1), begin, begin + wide, 1000)
    assert mean_extension(begin, begin + wide) == pytest.approx(walked, abs=5e-5)
    # An arc is the same arc from either end.
    assert mean_extension(begin + wide, begin) == pytest.approx(mean_extension(begin, begin + wide))


@given(angle=ANGLES, wide=st.sampled_from((0.0, 1e-15, 1e-12, 1e-9)))
def test_an_arc_of_no_length_gives_what_its_one_place_gives(angle: float, wide: float) -> None:
    assert mean_extension(angle, angle + wide) == pytest.approx(extension(angle, 1), abs=1e-8)


@given(begin=ANGLES, first=SPANS, second=SPANS)
def test_a_waist_of_two_arcs_stretches_as_one_arc_as_long(
    begin: float, first: float, second: float
) -> None:
    middle = begin + first
    finish = middle + second
    parted = waist_stretch(0.04, [(begin, middle), (finish, middle)])
    assert parted == pytest.approx(waist_stretch(0.04, [(begin, finish)]), abs=1e-12)


def test_a_waist_of_no_length_is_refused() -> None:
    for spans in ([], [(0.5, 0.5)]):
        with pytest.raises(GeometryError, match="no length"):
            waist_stretch(0.04, spans)


def test_a_panels_grain_lies_on_its_first_edge_or_in_its_middle() -> None:
    assert grain_from_edge(rad(60), Grain.EDGE) == 0
    assert grain_from_edge(rad(60), Grain.CENTRE) == pytest.approx(rad(30))


def test_quarter_and_half_circle_panels_give_half_however_they_are_cut() -> None:
    for grain in Grain:
        for degrees in (90, 180):
            assert panel_waist_stretch(rad(degrees), grain, 0.04) == pytest.approx(0.02)


def test_a_narrow_panel_gives_less_with_the_grain_in_its_middle() -> None:
    # 30 degrees from an edge is example 8; centred it is twice 0 to 15 degrees:
    # m = 0.5 - sin 60 / (8 x 0.261799) = 0.5 - 0.4135 = 0.0865.
    assert panel_waist_stretch(rad(30), Grain.EDGE, 0.04) == pytest.approx(0.01173, abs=5e-6)
    assert panel_waist_stretch(rad(30), Grain.CENTRE, 0.04) == pytest.approx(0.00346, abs=5e-6)


def test_the_drops_of_a_quarter_circle_with_its_edges_on_grain_peak_in_the_middle() -> None:
    drops = drops_on_panel(rad(90), Grain.EDGE, 12)
    assert [math.degrees(angle) for angle, _ in drops] == pytest.approx([0, 15, 30, 45, 60, 75, 90])
    assert [drop for _, drop in drops] == pytest.approx([0, 3, 9, 12, 9, 3, 0])


def test_the_drops_of_a_panel_centred_on_grain_are_alike_on_both_sides() -> None:
    drops = drops_on_panel(rad(90), Grain.CENTRE, 12)
    assert [drop for _, drop in drops] == pytest.approx([12, 9, 3, 0, 3, 9, 12])


def test_the_last_edge_is_told_where_it_is_no_step_of_15_degrees() -> None:
    drops = drops_on_panel(rad(40), Grain.EDGE, 12)
    assert [math.degrees(angle) for angle, _ in drops] == pytest.approx([0, 15, 30, 40])
    assert drops[-1][1] == pytest.approx(12 * math.sin(rad(80)) ** 2)
    narrow = drops_on_panel(rad(10), Grain.EDGE, 12)
    assert [math.degrees(angle) for angle, _ in narrow] == pytest.approx([0, 10])


@given(panel=PANELS, grain=st.sampled_from(Grain))
def test_each_place_is_told_once_in_order_from_edge_to_edge(panel: float, grain: Grain) -> None:
    angles = [angle for angle, _ in drops_on_panel(panel, grain, 12)]
    assert angles[0] == 0 and angles[-1] == panel
    assert angles == sorted(set(angles))
    assert max(b - a for a, b in pairwise(angles)) <= rad(15) + 1e-6


def test_a_narrow_gore_never_reaches_the_full_bias() -> None:
    # 60 degrees centred: 30 either side of the grain.
    assert steepest_drop(rad(60), Grain.CENTRE, 12) == pytest.approx(9)
    assert steepest_drop(rad(60), Grain.EDGE, 12) == 12
    assert steepest_drop(rad(30), Grain.EDGE, 12) == pytest.approx(9)
    # A quarter circle centred on grain just does, on both its seams; one from an edge in 45.
    assert steepest_drop(rad(90), Grain.CENTRE, 12) == pytest.approx(12)
    assert steepest_drop(rad(45), Grain.EDGE, 12) == pytest.approx(12)


@given(panel=PANELS, grain=st.sampled_from(Grain))
def test_no_place_of_a_panel_drops_more_than_its_steepest(panel: float, grain: Grain) -> None:
    along = grain_from_edge(panel, grain)
    walked = max(drop_at(panel * k / 2000 - along, 12) for k in range(2001))
    assert steepest_drop(panel, grain, 12) == pytest.approx(walked, abs=1e-4)
    assert steepest_drop(panel, grain, 12) >= walked - 1e-9


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


def walked(path: Path) -> list[tuple[float, float]]:
    """Return the angle and the distance from the centre of many points of a hem."""
    return [(math.atan2(y, x) % math.tau, math.hypot(x, y)) for x, y in tape.chain(path, 400)]


def radius_near(path: Path, angle: float) -> float:
    return min(walked(path), key=lambda held: abs(held[0] - angle))[1]


def test_a_trimmed_hem_is_whole_on_the_grain_and_shortest_on_the_bias() -> None:
    hem = trimmed_hem(764.6, rad(120), rad(30), 12)
    assert radius_near(hem, rad(30)) == pytest.approx(764.6, abs=0.01)
    assert radius_near(hem, rad(75)) == pytest.approx(764.6 - 6, abs=0.01)
    # 22.5 degrees from the grain half of it is gone, here and on the other side.
    assert radius_near(hem, rad(52.5)) == pytest.approx(764.6 - 3, abs=0.02)
    assert radius_near(hem, rad(7.5)) == pytest.approx(764.6 - 3, abs=0.02)
    assert radius_near(hem, rad(120)) == pytest.approx(764.6, abs=0.01)
    quarter = trimmed_hem(764.6, rad(90), 0, 12, share=0.25)
    assert radius_near(quarter, rad(45)) == pytest.approx(764.6 - 3, abs=0.01)


@given(
    big=st.floats(250, 2000),
    panel=PANELS,
    turned=st.floats(0, math.pi),
    drop=st.floats(0.01, 80),
    share=st.floats(0, 0.5),
)
def test_a_trimmed_hem_follows_its_law_from_edge_to_edge(
    big: float, panel: float, turned: float, drop: float, share: float
) -> None:
    hem = trimmed_hem(big, panel, turned, drop, share)

    def radius(angle: float) -> float:
        return big - share * drop * math.sin(2 * (angle - turned)) ** 2

    places = [
        (math.atan2(y, x), math.hypot(x, y)) for segment in hem for x, y in tape.dots(segment, 8)
    ]
    for angle, far in places:
        assert far == pytest.approx(radius(angle), abs=0.01)
        assert far <= big + 0.01
    assert places[0][0] == pytest.approx(0, abs=1e-9)
    assert places[-1][0] == pytest.approx(panel, abs=1e-9)
    # Its length by trapezoids, from the law alone.
    steps = 2000
    places = [(panel * k / steps, radius(panel * k / steps)) for k in range(steps + 1)]
    points = [(far * math.cos(angle), far * math.sin(angle)) for angle, far in places]
    long = math.fsum(math.dist(a, b) for a, b in pairwise(points))
    assert tape.walked_length(hem, 200 + 4000 // len(hem)) == pytest.approx(long, abs=0.02)


def test_a_trimmed_hem_leaves_the_grain_square() -> None:
    # A quarter circle with its grain on an edge has both seams on straight grain, where the
    # hem meets them square, so that two panels join without a corner.
    hem = trimmed_hem(764.6, rad(90), 0, 28)
    points = tape.chain(hem, 400)
    (ax, ay), (bx, by) = points[0], points[1]
    assert math.atan2(by - ay, bx - ax) == pytest.approx(rad(90), abs=1e-3)
    (ax, ay), (bx, by) = points[-2], points[-1]
    assert math.atan2(by - ay, bx - ax) == pytest.approx(rad(180), abs=1e-3)


def test_nothing_trimmed_is_the_plain_hem() -> None:
    for hem in (trimmed_hem(765, 1.5, 0, 12, share=0), trimmed_hem(765, 1.5, 0, 0)):
        assert len(hem) == 1
        assert tape.walked_length(hem) == pytest.approx(765 * 1.5, abs=0.01)


@pytest.mark.parametrize("share", [0.51, 1.0, -0.1, math.nan])
def test_no_more_than_half_of_the_drop_is_trimmed_beforehand(share: float) -> None:
    with pytest.raises(GeometryError, match=r"0 to 0\.5"):
        trimmed_hem(765, 1.5, 0, 12, share=share)


def test_a_hem_that_could_not_be_is_refused() -> None:
    with pytest.raises(GeometryError, match="wider than 0"):
        trimmed_hem(765, 0, 0, 12)
    for drop in (-12, 1600, math.nan):
        with pytest.raises(GeometryError, match="cannot be trimmed"):
            trimmed_hem(765, 1.5, 0, drop)
