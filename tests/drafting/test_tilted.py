"""Tilted waistlines over a hem that is a true arc: the trade's E6, and laws for every body.

The oracles share no formula with the code: a pair of dividers steps along the seam, angles come
from the triangles it leaves, and a hole that is merely shifted has its answer in closed form.
"""

import math
from collections.abc import Callable
from itertools import pairwise

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from drafting.allowance import Widths
from drafting.around import Around, all_round
from drafting.circle import Flare
from drafting.curve import CURVE_ERROR
from drafting.errors import GeometryError
from drafting.geometry import Arc, Line, Path, direction_along, length, path_length, point_along
from drafting.outline import Outline
from drafting.panel_wishes import PanelWishes
from drafting.panels import layer_pieces
from drafting.spec import Closure, Grain
from drafting.tilted import Tilted, hem_radius, pattern_angles
from tests.drawn import drawn
from tests.tape import walked_area, walked_length

E6 = Tilted(
    fullness=1, panels=4, waistline=720, around=Around(front=560, left=580, back=570, right=580)
)
CROOKED = Tilted(
    fullness=1.7, panels=5, waistline=850, around=Around(front=590, left=560, back=610, right=575)
)


def bisected(grows: Callable[[float], float], low: float, high: float) -> float:
    """Return where a growing function passes 0."""
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if grows(middle) < 0 else (low, middle)
    return low


def stepped_angle(
    long: Callable[[float], float],
    radius: float,
    waistline: float,
    begin: float = 0.0,
    finish: float = 1.0,
    steps: int = 4000,
) -> float:
    """Return the angle between two shares, with dividers set to one small step of the seam.

    Each step and its two radii make a triangle: sin^2(angle / 2) = (step^2 - rise^2) / (4 r q).
    """
    step = waistline * (finish - begin) / steps
    rings = [radius - long(begin + (finish - begin) * k / steps) for k in range(steps + 1)]
    return math.fsum(
        2 * math.asin(math.sqrt((step**2 - (q - r) ** 2) / (4 * r * q))) for r, q in pairwise(rings)
    )


def panels_of(cut: Tilted) -> list[Outline]:
    return [cut.outline(k / cut.panels, (k + 1) / cut.panels) for k in range(cut.panels)]


def edges(outline: Outline) -> Path:
    return outline.begin + outline.hem + outline.finish + outline.waist


# The trade's worked example E6


def test_e6_hem_radius_sweep_and_the_side_notch() -> None:
    assert E6.hem_radius == pytest.approx(686.9, abs=0.05)
    assert E6.sweep == pytest.approx(4315.9, abs=0.05)
    # From centre front to the left side, and from the right side to centre front.
    for begin, finish in ((0.5, 0.75), (0.25, 0.5)):
        assert math.degrees(E6.angle_between(begin, finish)) == pytest.approx(87.4, abs=0.05)


@pytest.mark.parametrize("cut", [E6, CROOKED])
def test_a_pair_of_dividers_finds_the_same_hem_and_angles(cut: Tilted) -> None:
    def too_little_turned(radius: float) -> float:
        return math.tau * cut.fullness - stepped_angle(cut.around.at, radius, cut.waistline)

    found = bisected(too_little_turned, cut.around.most + 20, cut.around.most + 400)
    assert cut.hem_radius == pytest.approx(found, abs=1e-3)
    for begin, finish in ((0.0, 0.25), (0.25, 0.5), (0.1, 0.83)):
        stepped = stepped_angle(cut.around.at, found, cut.waistline, begin, finish)
        assert cut.angle_between(begin, finish) == pytest.approx(stepped, abs=1e-5)


def test_e6_the_drawn_waist_is_as_long_as_the_body_asks() -> None:
    drawn = panels_of(E6)
    assert math.fsum(path_length(p.waist) for p in drawn) == pytest.approx(720, abs=0.01)
    assert math.fsum(walked_length(p.waist, 200) for p in drawn) == pytest.approx(720, abs=0.01)
    for outline in drawn:
        assert path_length(outline.waist) == pytest.approx(180, abs=0.01)


def test_e6_without_arc_length_the_side_seam_comes_off_the_side() -> None:
    # The trade's other mapping, the body's angle taken for the pattern's: Simpson, bisection.
    def perimeter(radius: float, turns: float = 1.0) -> float:
        steps = 2000
        total = 0.0
        for k in range(steps + 1):
            psi = math.tau * turns * k / steps
            r = radius - (572.5 - 5 * math.cos(psi) - 7.5 * math.cos(2 * psi))
            rises = -(5 * math.sin(psi) + 15 * math.sin(2 * psi))
            total += math.hypot(r, rises) * (1 if k in (0, steps) else 4 if k % 2 else 2)
        return total * math.tau * turns / steps / 3

    assert perimeter(720 / math.tau + 572.5) == pytest.approx(723.4, abs=0.05)
    radius = bisected(lambda r: perimeter(r) - 720, 600, 800)
    assert radius == pytest.approx(686.6, abs=0.05)
    for long, expected in ((560, 126.6), (580, 106.6), (570, 116.6)):
        assert radius - long == pytest.approx(expected, abs=0.05)
    assert math.tau * radius == pytest.approx(4313.7, abs=0.05)
    # A quarter of the pattern takes 185.4 of the waist where the body has 180.
    assert perimeter(radius, 0.25) == pytest.approx(185.4, abs=0.05)
    assert E6.hem_radius - radius == pytest.approx(0.35, abs=0.05)


# A hole that is merely shifted, and one that is not


@pytest.mark.parametrize(("rho", "x"), [(114.6, 12.0), (110.0, -15.0), (90.0, 60.0), (200.0, 0.0)])
def test_a_shifted_hole_in_a_whole_circle_is_found_again(rho: float, x: float) -> None:
    hem, waistline = 700.0, math.tau * rho

    def seam(share: float) -> float:
        return math.sqrt(rho**2 + x**2 + 2 * rho * x * math.cos(math.tau * share))

    def long(share: float) -> float:
        return hem - seam(share)

    def slope(share: float) -> float:
        return math.tau * rho * x * math.sin(math.tau * share) / seam(share)

    radius = hem_radius(long, slope, waistline, 1.0)
    assert radius == pytest.approx(hem, abs=1e-6)
    assert long(0.0) == pytest.approx(radius - rho - x, abs=1e-6)
    assert long(0.5) == pytest.approx(radius - rho + x, abs=1e-6)
    angles = pattern_angles(long, slope, waistline, radius)
    zero = angles.at(0.0)
    assert angles.turn == pytest.approx(math.tau, abs=1e-9)
    quarter = bisected(lambda share: angles.at(share) - zero - math.pi / 2, 0.0, 0.5)
    assert long(quarter) == pytest.approx(radius - math.sqrt(rho**2 - x**2), abs=1e-6)
    for k in range(50):
        way = math.tau * k / 100
        seen = math.atan2(rho * math.sin(way), x + rho * math.cos(way))
        assert angles.at(k / 100) - zero == pytest.approx(seen, abs=1e-9)
        assert angles.at(k / 100 + 2) - zero == pytest.approx(seen + 2 * math.tau, abs=1e-9)
        assert angles.at(-k / 100) - zero == pytest.approx(-seen, abs=1e-9)


@pytest.mark.parametrize("fullness", [0.3, 1.0, 2.5])
def test_an_even_body_gets_the_plain_circle(fullness: float) -> None:
    plain = Flare(fullness=fullness, panels=3, waistline=740, length=600)
    cut = Tilted(fullness=fullness, panels=3, waistline=740, around=all_round(600))
    assert cut.hem_radius == pytest.approx(plain.hem_radius, abs=1e-6)
    assert cut.waist_radius == pytest.approx(plain.waist_radius, abs=1e-6)
    assert cut.waist_radius_max == pytest.approx(plain.waist_radius, abs=1e-6)
    assert cut.sweep == pytest.approx(plain.sweep, abs=1e-6)
    assert cut.girth_at(200) == pytest.approx(plain.girth_at(200), abs=1e-6)
    assert cut.angle_between(0.2, 0.7) == pytest.approx(math.pi * fullness, abs=1e-9)
    assert (cut.length, cut.around.most) == (600, 600)
    assert (cut.alike, cut.panel_angle) == (False, None)


# Figures


@pytest.mark.parametrize("cut", [E6, CROOKED])
def test_the_waist_radii_are_the_smallest_and_the_greatest_all_round(cut: Tilted) -> None:
    seam = [cut.hem_radius - cut.around.at(k / 20_000) for k in range(20_000)]
    assert cut.waist_radius == pytest.approx(min(seam), abs=1e-4)
    assert cut.waist_radius_max == pytest.approx(max(seam), abs=1e-4)


@pytest.mark.parametrize("cut", [E6, CROOKED])
def test_the_girth_below_the_waist_is_the_line_drawn_there(cut: Tilted) -> None:
    assert cut.girth_at(0) == pytest.approx(cut.waistline, abs=1e-6)
    steps = 8000
    turned = [cut.angle_between(0, k / steps) for k in range(steps + 1)]
    for below in (50.0, 200.0, 500.0):
        out = [cut.hem_radius - cut.around.at(k / steps) + below for k in range(steps + 1)]
        dots = [(r * math.cos(a), r * math.sin(a)) for r, a in zip(out, turned, strict=True)]
        chords = math.fsum(math.dist(a, b) for a, b in pairwise(dots))
        assert cut.girth_at(below) == pytest.approx(chords, abs=0.01)


def test_lines_above_the_hem_keep_its_centre() -> None:
    (line,) = CROOKED.line_above_hem(200, 0.2, 0.4)
    assert isinstance(line, Arc)
    assert (line.centre, line.begin) == ((0, 0), 0)
    assert line.radius == pytest.approx(CROOKED.hem_radius - 200)
    assert line.finish == pytest.approx(CROOKED.angle_between(0.2, 0.4))
    panels = [CROOKED.line_above_hem(200, k / 5, (k + 1) / 5) for k in range(5)]
    whole = math.fsum(walked_length(path) for path in panels)
    assert CROOKED.girth_above_hem(200) == pytest.approx(whole, abs=0.01)


def test_a_panel_across_centre_back_counts_on() -> None:
    whole = math.tau * CROOKED.fullness
    assert CROOKED.angle_between(0.3, 2.3) == pytest.approx(2 * whole, abs=1e-9)
    across = CROOKED.angle_between(0.9, 1.1)
    parts = CROOKED.angle_between(0.9, 1.0) + CROOKED.angle_between(0.0, 0.1)
    assert across == pytest.approx(parts, abs=1e-9)
    assert path_length(CROOKED.outline(0.9, 1.1).waist) == pytest.approx(170, abs=0.01)


# What cannot be cut


def test_lengths_that_differ_too_much_for_the_waist_are_refused() -> None:
    with pytest.raises(GeometryError, match="differ less"):
        Tilted(
            fullness=1,
            panels=4,
            waistline=450,
            around=Around(front=500, left=600, back=700, right=600),
        )


def test_a_dolls_waist_that_would_reach_the_centre_of_the_hem_is_refused() -> None:
    around = Around(front=100, left=104, back=108, right=104)
    with pytest.raises(GeometryError, match="less fullness"):
        Tilted(fullness=4, panels=4, waistline=60, around=around)
    assert Tilted(fullness=1, panels=4, waistline=60, around=around).waist_radius > 5


@pytest.mark.parametrize(
    ("waistline", "fullness"),
    [(0.0, 1.0), (-5.0, 1.0), (math.nan, 1.0), (720.0, 0.0), (720.0, math.nan)],
)
def test_a_waist_or_a_fullness_of_nothing_is_refused(waistline: float, fullness: float) -> None:
    with pytest.raises(GeometryError, match="above 0"):
        Tilted(fullness=fullness, panels=4, waistline=waistline, around=all_round(600))


def test_panels_of_nearly_a_circle_are_refused_where_a_tilt_makes_one_wider() -> None:
    """An equal share of 337.5 degrees leaves 15 mm a side; the wider panel's sides would cross."""
    around = Around(front=650, left=650, back=650, right=651)
    cut = Tilted(fullness=1.875, panels=2, waistline=1032.75, around=around)
    allowances = Widths(waist=10, side=15, hem=20)
    wishes = PanelWishes(
        part="skirt", allowances=allowances, grain=Grain.EDGE, closure=Closure.CENTRE_BACK
    )
    with pytest.raises(GeometryError, match="no room for side allowances"):
        layer_pieces(cut, wishes)


def test_lengths_with_a_step_in_them_are_refused() -> None:
    with pytest.raises(GeometryError, match="too suddenly"):
        pattern_angles(lambda share: 600 + 5 * (share % 1 > 0.3), lambda share: 0.0, 720, 715)


# Every body

spread = st.floats(0, 60)


@settings(max_examples=drawn(200), deadline=None)
@given(
    base=st.floats(400, 940),
    spreads=st.tuples(spread, spread, spread, spread),
    fullness=st.floats(0.3, 3),
    waistline=st.floats(450, 1400),
    panels=st.integers(1, 9),
    start=st.sampled_from([0.0, 0.25, 0.75, 0.9]),
)
def test_every_tilted_skirt_trues_and_hangs_as_long_as_its_body(
    base: float,
    spreads: tuple[float, float, float, float],
    fullness: float,
    waistline: float,
    panels: int,
    start: float,
) -> None:
    front, left, back, right = (base + more for more in spreads)
    around = Around(front=front, left=left, back=back, right=right)
    try:
        cut = Tilted(fullness=fullness, panels=panels, waistline=waistline, around=around)
    except GeometryError:
        assume(False)
        raise
    shares = [start + k / panels for k in range(panels + 1)]
    drawn = [cut.outline(begin, finish) for begin, finish in pairwise(shares)]
    total = math.fsum(path_length(outline.waist) for outline in drawn)
    assert total == pytest.approx(waistline, abs=0.01)
    walked = math.fsum(walked_length(outline.waist, 150) for outline in drawn)
    assert walked == pytest.approx(waistline, abs=0.02)
    hems = math.fsum(walked_length(outline.hem, 4000) for outline in drawn)
    assert hems == pytest.approx(cut.sweep, abs=0.02)
    assert cut.sweep == pytest.approx(math.tau * fullness * cut.hem_radius)
    for outline, (begin, finish) in zip(drawn, pairwise(shares), strict=True):
        assert path_length(outline.begin) == pytest.approx(around.at(begin), abs=1e-6)
        assert path_length(outline.finish) == pytest.approx(around.at(finish), abs=1e-6)
        closed = edges(outline)
        for one, other in pairwise((*closed, closed[0])):
            assert math.dist(one.end, other.start) < 1e-6
        assert walked_area(closed, 100) > 0
        (first,), (hem,) = outline.begin, outline.hem
        assert isinstance(first, Line) and isinstance(hem, Arc)
        assert abs(first.start.y) < 1e-9 and first.end == (cut.hem_radius, 0)
        assert (hem.centre, hem.begin, hem.radius) == ((0, 0), 0, cut.hem_radius)
        check_waist(cut, outline.waist, begin, finish)
    grown = [cut.angle_between(start, start + k / 200) for k in range(201)]
    assert all(a < b for a, b in pairwise(grown))
    assert grown[-1] == pytest.approx(math.tau * fullness, abs=1e-9)


def check_waist(cut: Tilted, waist: Path, begin: float, finish: float) -> None:
    """Look along a panel's waist seam, from its far edge back: its place and its smoothness."""
    whole = path_length(waist)
    for share in (0.1, 0.37, 0.5, 0.8):
        here = point_along(waist, share * whole)
        long = cut.hem_radius - math.hypot(here.x, here.y)
        asked = cut.around.at(finish + share * (begin - finish))
        assert long == pytest.approx(asked, abs=2 * CURVE_ERROR)
        at = cut.angle_between(begin, finish + share * (begin - finish))
        apart = math.remainder(math.atan2(here.y, here.x) - at, math.tau)
        assert abs(apart) * math.hypot(here.x, here.y) < 2 * CURVE_ERROR
    for one, other in pairwise(waist):
        turn = direction_along((one,), length(one)) - direction_along((other,), 0.0)
        assert abs(math.remainder(turn, math.tau)) < 1e-5
