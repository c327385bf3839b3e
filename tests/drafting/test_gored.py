"""Gores: the trade's plain one, and gores shaped over the hip on every body."""

import math
from collections.abc import Callable
from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drafting.around import Around, all_round
from drafting.circle import Flare
from drafting.errors import GeometryError
from drafting.geometry import (
    Arc,
    Line,
    Path,
    area,
    direction_along,
    flattened,
    length,
    path_length,
    point_along,
)
from drafting.gored import ShapedGores
from drafting.outline import Outline
from drafting.piece import Edge, EdgeKind, Piece, cutting_line, stitching_line
from tests import tape
from tests.drawn import drawn

SHAPED = ShapedGores(
    panels=8,
    waistline=740,
    hipline=1000,
    hip_depth=200,
    flare=math.radians(7.5),
    around=all_round(650),
)

CURVED = replace(SHAPED, flare=math.radians(3))
"""Less flare than the hip asks for: from waist to hip its sides are one arc."""

UNEVEN = Around(front=640, left=665, back=650, right=655)


def test_a_plain_gore_of_8_is_a_third_of_a_circle() -> None:
    # w = c/n, rho = w / (2 gamma), hem w + 2 gamma L, F = n 2 gamma / (2 pi).
    plain = Flare(
        fullness=8 * 2 * math.radians(7.5) / math.tau, panels=8, waistline=740, length=650
    )
    assert plain.fullness == pytest.approx(1 / 3)
    assert plain.waistline / plain.panels == pytest.approx(92.5)
    assert plain.waist_radius == pytest.approx(353.3, abs=0.05)
    assert plain.sweep / plain.panels == pytest.approx(262.7, abs=0.05)
    assert plain.sweep == pytest.approx(2101.4, abs=0.05)


def test_a_plain_gore_cut_with_straight_ends_is_a_little_short_and_far_off() -> None:
    plain = Flare(fullness=1 / 3, panels=8, waistline=740, length=650)
    half = plain.panel_angle / 2
    chord = 2 * plain.waist_radius * math.sin(half)
    assert plain.waistline / 8 - chord == pytest.approx(0.26, abs=0.005)
    assert plain.waist_radius * (1 - math.cos(half)) == pytest.approx(3.0, abs=0.05)
    assert plain.hem_radius * (1 - math.cos(half)) == pytest.approx(8.6, abs=0.05)


def piece(outline: Outline, *, half: bool = False) -> Piece:
    last = (
        Edge(name="fold", path=outline.finish, allowance=0.0, kind=EdgeKind.FOLD)
        if half
        else Edge(name="side", path=outline.finish, allowance=15.0)
    )
    return Piece(
        name="gore",
        edges=(
            Edge(name="side", path=outline.begin, allowance=15.0),
            Edge(name="hem", path=outline.hem, allowance=12.0, kind=EdgeKind.HEM),
            last,
            Edge(name="waist", path=outline.waist, allowance=10.0),
        ),
        grainline=(outline.hem[0].start, outline.hem[-1].end),
        cloth="skirt",
        count=1,
    )


def gores(cut: ShapedGores, start: float = 0.0) -> list[Outline]:
    shares = [start + k / cut.panels for k in range(cut.panels + 1)]
    return [cut.outline(begin, finish) for begin, finish in pairwise(shares)]


def across(path: Path, y: float) -> float:
    """Return how far from the centre line a gore's side lies at a height, by halving steps."""
    points = tape.chain(path, 20_000)
    (ax, ay), (bx, by) = next(
        (one, other) for one, other in pairwise(points) if min(one[1], other[1]) <= y <= one[1]
    )
    return abs(ax + (bx - ax) * (y - ay) / (by - ay))


def halved(surplus: Callable[[float], float], low: float, high: float) -> float:
    """Return where something that falls comes to 0, by halving."""
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if surplus(middle) > 0 else (low, middle)
    return (low + high) / 2


def test_a_curved_gore_by_many_small_steps() -> None:
    # Walk up the side from the hip: it leans in by the flare there, and ever more above.
    # The waist's lean is tried until the square waist is as long as it should be.
    flare, steps = math.radians(3), 20_000

    def half_waist(lean: float) -> float:
        leans = (flare + (lean - flare) * (k + 0.5) / steps for k in range(steps))
        return 62.5 - math.fsum(math.sin(a) for a in leans) * 200 / steps

    lean = halved(lambda a: 2 * a * half_waist(a) / math.sin(a) - 92.5, 0.01, 1.1)
    x = half_waist(lean)
    assert lean > flare
    drawn = CURVED.outline(0, 1 / 8)
    assert drawn.waist[0].start.x == pytest.approx(x, abs=1e-5)
    assert drawn.begin[0].start.x == pytest.approx(-x, abs=1e-5)
    assert CURVED.waist_radius == pytest.approx(x / math.sin(lean), rel=1e-6)
    # At the hip it is an eighth of 100 cm across, and the hem 450 further from the apex.
    assert drawn.begin[0].end.x == pytest.approx(-62.5)
    assert CURVED.hem_radius == pytest.approx(62.5 / math.sin(flare) + 450)
    assert CURVED.sweep == pytest.approx(8 * 2 * flare * (62.5 / math.sin(flare) + 450))
    assert CURVED.fullness == pytest.approx(8 * 3 / 180)
    assert tape.walked_length(drawn.begin) == pytest.approx(650, abs=1e-4)
    assert tape.walked_length(drawn.hem) == pytest.approx(CURVED.sweep / 8, abs=1e-3)
    # The trade's straight figure for the hem's half width, by its own tangent.
    assert across(drawn.begin, drawn.begin[-1].end.y) == pytest.approx(
        62.5 + 450 * math.sin(flare), abs=1e-3
    )


def test_a_gore_that_flares_more_than_the_hip_asks_by_many_small_steps() -> None:
    # 8 gores, waist 79.5, hip 110 cm with ease, 20.6 cm deep, 10 degrees: halves of 49.6875
    # and 68.75 mm, so straight sides lean by asin(19.06 / 206), 5.3 degrees, and a little more
    # for the waist's bow: x = 68.75 - 206 sin s, and x s / sin s = 49.6875.
    cut = replace(SHAPED, waistline=795, hipline=1100, hip_depth=206, flare=math.radians(10))
    lean = 0.09
    for _ in range(50):
        lean = math.asin((68.75 - 49.6875 * math.sin(lean) / lean) / 206)
    assert math.degrees(lean) == pytest.approx(5.33, abs=0.01)
    x = 68.75 - 206 * math.sin(lean)
    over_hip, turn, flared = cut.outline(0, 1 / 8).begin
    assert isinstance(over_hip, Line) and isinstance(turn, Arc) and isinstance(flared, Line)
    assert over_hip.start.x == pytest.approx(-x)
    assert over_hip.end.x == pytest.approx(-68.75)
    assert length(over_hip) == pytest.approx(206)
    assert cut.waist_radius == pytest.approx(x / math.sin(lean))
    # It turns over 0.6 of the hip depth, 123.6 mm, and hangs 320.4 mm straight below that.
    assert tape.walked_length((turn,)) == pytest.approx(123.6, abs=1e-4)
    assert length(flared) == pytest.approx(320.4)
    leans = [lean + (math.radians(10) - lean) * (k + 0.5) / 20_000 for k in range(20_000)]
    wide = 68.75 + math.fsum(map(math.sin, leans)) * 123.6 / 20_000
    deep = math.fsum(map(math.cos, leans)) * 123.6 / 20_000
    assert flared.start.x == pytest.approx(-wide, abs=1e-5)
    assert turn.start.y - turn.end.y == pytest.approx(deep, abs=1e-5)
    # The hem's half width by its own tangent, and its ring about where the flares meet.
    assert flared.end.x == pytest.approx(-wide - 320.4 * math.sin(math.radians(10)), abs=1e-5)
    assert cut.hem_radius == pytest.approx(wide / math.sin(math.radians(10)) + 320.4, abs=1e-4)
    assert cut.sweep == pytest.approx(16 * math.radians(10) * cut.hem_radius)
    # Half way down to the hip: half way from waist to hip, less than 1 mm more for the bow.
    assert cut.girth_at(103) == pytest.approx(947.5 + 0.8, abs=0.1)


def test_a_short_skirt_turns_in_less_and_hangs_straight_below_it() -> None:
    _, turn, flared = replace(SHAPED, around=all_round(230)).outline(0, 1 / 8).begin
    assert (length(turn), length(flared)) == pytest.approx((12, 18))


@pytest.mark.parametrize("cut", [SHAPED, CURVED])
def test_a_gore_at_half_scale_is_half_in_everything(cut: ShapedGores) -> None:
    small = replace(cut, waistline=370, hipline=500, hip_depth=100, around=all_round(325))
    whole, half = cut.outline(0, 1 / 8), small.outline(0, 1 / 8)
    for one, other in zip(whole.begin, half.begin, strict=True):
        assert other.start == pytest.approx((one.start.x / 2, one.start.y / 2))
        assert length(other) == pytest.approx(length(one) / 2)
    assert small.sweep == pytest.approx(cut.sweep / 2)


def test_a_gore_lies_with_its_waist_above_and_its_first_edge_on_the_left() -> None:
    drawn = SHAPED.outline(0.25, 0.25 + 1 / 8)
    assert drawn.begin[0].start.y > drawn.begin[-1].end.y
    assert max(p[0] for p in tape.chain(drawn.begin)) < 0 < drawn.finish[0].start.x
    half = SHAPED.outline(0.25, 0.25 + 1 / 16)
    assert half.begin == drawn.begin
    (fold,) = half.finish
    assert isinstance(fold, Line)
    assert fold.start.x == pytest.approx(0, abs=1e-9)
    assert fold.end.x == pytest.approx(0, abs=1e-9)
    assert 2 * path_length(half.hem) == pytest.approx(path_length(drawn.hem))
    assert 2 * path_length(half.waist) == pytest.approx(92.5)


@pytest.mark.parametrize(("cut", "arc"), [(CURVED, 0), (SHAPED, 1)])
def test_an_even_hem_and_the_waist_are_true_arcs(cut: ShapedGores, arc: int) -> None:
    drawn = cut.outline(0, 1 / 8)
    for path in (drawn.hem, drawn.waist, drawn.begin[arc : arc + 1]):
        (one,) = path
        assert isinstance(one, Arc)


def test_gores_for_a_hip_no_wider_than_the_waist_hang_plumb_to_the_hip() -> None:
    plumb = replace(SHAPED, hipline=740)
    drawn = plumb.outline(0, 1 / 8)
    (waist,) = drawn.waist
    assert isinstance(waist, Line)
    assert plumb.waist_radius is None
    for below in (0, 70, 200):
        assert plumb.girth_at(below) == pytest.approx(740, abs=1e-6)
    assert drawn.begin[0].start.x == pytest.approx(drawn.begin[0].end.x)
    assert area(stitching_line(piece(drawn))) > 0


def test_sides_that_run_straight_from_waist_to_hem_are_a_plain_gore() -> None:
    # The hip at which the sector of rho = w / (2 gamma) passes: then nothing is curved.
    flare = math.radians(7.5)
    rho = 92.5 / (2 * flare)
    plain = replace(SHAPED, hipline=16 * (rho + 200) * math.sin(flare))
    circle = Flare(fullness=1 / 3, panels=8, waistline=740, length=650)
    assert plain.waist_radius == pytest.approx(circle.waist_radius)
    assert plain.sweep == pytest.approx(circle.sweep)
    for below in (0, 70, 200, 450):
        assert plain.girth_at(below) == pytest.approx(circle.girth_at(below))


def test_the_girth_grows_without_a_step_from_waist_to_hem() -> None:
    assert SHAPED.girth_at(0) == pytest.approx(740)
    assert SHAPED.girth_at(200 - 1e-7) == pytest.approx(SHAPED.girth_at(200 + 1e-7), abs=1e-5)
    # Along the level line, which bows: a little more than straight across.
    assert 1000 < SHAPED.girth_at(200) < 1003
    assert SHAPED.girth_at(650) == pytest.approx(SHAPED.sweep)
    # It turns into its flare over 120 mm below the hip.
    assert SHAPED.girth_at(320 - 1e-7) == pytest.approx(SHAPED.girth_at(320 + 1e-7), abs=1e-5)
    girths = [SHAPED.girth_at(below) for below in range(0, 651, 10)]
    assert all(one < other for one, other in pairwise(girths))


@pytest.mark.parametrize("cut", [SHAPED, CURVED])
@pytest.mark.parametrize("up", [0, 210, 340, 430, 449, 520, 650])
def test_a_line_above_the_hem_is_as_long_as_the_girth_there(cut: ShapedGores, up: float) -> None:
    line = cut.line_above_hem(up, 0.5, 0.5 + 1 / 8)
    assert 8 * tape.walked_length(line) == pytest.approx(cut.girth_at(650 - up), abs=1e-3)
    assert cut.girth_above_hem(up) == pytest.approx(cut.girth_at(650 - up))
    # It begins on the gore's first edge, so far above the hem along it, and squarely.
    side = cut.outline(0.5, 0.5 + 1 / 8).begin
    assert math.dist(line[0].start, point_along(side, 650 - up)) < 1e-6
    corner = direction_along(line, 0.0) - direction_along(side, 650 - up)
    assert abs(math.remainder(corner - math.pi / 2, math.tau)) < 1e-6
    half = cut.line_above_hem(up, 0.5, 0.5 + 1 / 16)
    assert half[-1].end.x == pytest.approx(0, abs=1e-6)
    assert 2 * path_length(half) == pytest.approx(path_length(line))


def test_a_line_over_uneven_gores_is_refused_above_their_straight_flare() -> None:
    for cut, lowest in ((SHAPED, 320), (CURVED, 200)):
        uneven = replace(cut, around=UNEVEN)
        assert uneven.girth_above_hem(640 - lowest - 1) > 0
        with pytest.raises(GeometryError, match="above the hip"):
            uneven.girth_above_hem(640 - lowest + 1)
        with pytest.raises(GeometryError, match="above the hip"):
            cut.line_above_hem(500, 0, 1)
    with pytest.raises(GeometryError, match="less than 120 mm below it"):
        replace(SHAPED, around=UNEVEN).girth_above_hem(350)


def test_a_skirt_that_ends_above_the_hip_is_refused_in_words_a_sewer_knows() -> None:
    with pytest.raises(GeometryError, match="lengthen it or cut plain gores"):
        replace(SHAPED, around=all_round(200))


@pytest.mark.parametrize(
    "changes",
    [
        {"panels": 0},
        {"hip_depth": 0.0},
        {"hipline": math.nan},
        {"hipline": 739.0},
        {"flare": 0.0},
        {"flare": math.nan},
        {"flare": 1.5},
        {"panels": 1},
        {"panels": 2, "hipline": 1600.0},
        {"hipline": 200.0, "hip_depth": 400.0, "flare": 0.6},
    ],
)
def test_gores_that_cannot_be_drawn_are_refused(changes: dict[str, float]) -> None:
    with pytest.raises(GeometryError):
        replace(SHAPED, **changes)  # type: ignore[arg-type]


def test_only_whole_and_half_gores_are_drawn() -> None:
    with pytest.raises(GeometryError, match="whole or as a half"):
        SHAPED.outline(0, 0.25)


bodies = st.builds(
    lambda waist, more, depth, panels, flare, base, rises, even: ShapedGores(
        panels=panels,
        waistline=waist,
        # Few gores over a shallow hip have no smooth side for every one of these hips.
        hipline=waist + min(more, 0.5 * panels * depth),
        hip_depth=depth,
        flare=math.radians(flare),
        around=all_round(base)
        if even
        else Around(
            front=base + rises[0], left=base + rises[1], back=base + rises[2], right=base + rises[3]
        ),
    ),
    st.floats(560, 1250),
    st.floats(60, 420),
    st.floats(150, 240),
    st.integers(4, 12),
    st.floats(1, 20),
    st.floats(350, 1100),
    st.tuples(*[st.floats(0, 40)] * 4),
    st.booleans(),
)


def straight_lean(cut: ShapedGores) -> float:
    """Return the lean of sides that would run straight from the waist to the hip."""
    half, hip = cut.waistline / (2 * cut.panels), cut.hipline / (2 * cut.panels)

    def surplus(lean: float) -> float:
        return (hip - cut.hip_depth * math.sin(lean)) * lean / math.sin(lean) - half

    return halved(surplus, 1e-9, 1.0)


def leaning(share: float, cut: ShapedGores) -> ShapedGores:
    """Return the gores with a flare of so many times the lean from waist to hip, or 46 degrees."""
    return replace(cut, flare=min(share * straight_lean(cut), 0.8))


curved = st.builds(leaning, st.floats(0.1, 0.999), bodies)
turned = st.builds(leaning, st.floats(1.001, 5), bodies)


@settings(max_examples=drawn(120), deadline=None)
@given(st.one_of(bodies, curved, turned), st.sampled_from([0.0, 0.75]))
def test_every_set_of_gores_closes_and_trues(cut: ShapedGores, start: float) -> None:
    drawn = gores(cut, start)
    for k, outline in enumerate(drawn):
        assert area(stitching_line(piece(outline))) > 0
        at = start + k / cut.panels
        assert path_length(outline.begin) == pytest.approx(cut.around.at(at), abs=1e-6)
        mate = drawn[(k + 1) % cut.panels].begin
        assert path_length(outline.finish) == pytest.approx(path_length(mate), abs=1e-6)
        assert point_along(outline.begin, cut.hip_depth).x == pytest.approx(
            -cut.hipline / (2 * cut.panels), abs=1e-6
        )
        if cut.alike:
            assert path_length(outline.hem) == pytest.approx(path_length(drawn[0].hem), abs=1e-6)
    assert math.fsum(tape.walked_length(g.waist) for g in drawn) == pytest.approx(
        cut.waistline, abs=1e-3
    )
    assert math.fsum(path_length(g.waist) for g in drawn) == pytest.approx(cut.waistline, abs=1e-6)
    assert math.fsum(path_length(g.hem) for g in drawn) == pytest.approx(cut.sweep, abs=0.02)


def girths_keep_clear_of_the_body(cut: ShapedGores) -> None:
    # Measured on the drawn side: a line square to it on both sides of the gore is an arc of
    # twice its lean. The body's girth is taken to grow evenly from waist to hip.
    side = cut.outline(0, 1 / cut.panels).begin
    for k in range(41):
        below = cut.hip_depth * k / 40
        lean = math.remainder(-math.pi / 2 - direction_along(side, below), math.tau)
        bow = lean / math.sin(lean) if lean else 1.0
        girth = 2 * cut.panels * -point_along(side, below).x * bow
        body = cut.waistline + (cut.hipline - cut.waistline) * k / 40
        assert girth >= body - 0.5
        assert cut.girth_at(below) == pytest.approx(girth, abs=1e-5)


@settings(max_examples=drawn(200), deadline=None)
@given(turned)
def test_with_much_flare_no_girth_above_the_hip_is_tighter_than_the_body(
    cut: ShapedGores,
) -> None:
    side = cut.outline(0, 1 / cut.panels).begin
    assert isinstance(side[0], Line)
    assert len(side) == 3
    girths_keep_clear_of_the_body(cut)


@settings(max_examples=drawn(200), deadline=None)
@given(curved)
def test_with_little_flare_no_girth_above_the_hip_is_tighter_than_the_body(
    cut: ShapedGores,
) -> None:
    assert len(cut.outline(0, 1 / cut.panels).begin) == 2
    girths_keep_clear_of_the_body(cut)


@settings(max_examples=drawn(120), deadline=None)
@given(bodies)
def test_the_sweep_is_the_hems_own_ring(cut: ShapedGores) -> None:
    # Trapezoids round the body, independent of arcs: sqrt(R^2 + R'^2) over the gores' angles.
    steps, turn = 4000, cut.panels * 2 * cut.flare
    out, below = cut.hipline / (2 * cut.panels), cut.hip_depth
    lean = straight_lean(cut)
    if lean < cut.flare:
        turning = min(0.6 * cut.hip_depth, 0.4 * (cut.around.least - cut.hip_depth))
        leans = [lean + (cut.flare - lean) * (k + 0.5) / steps for k in range(steps)]
        out += math.fsum(map(math.sin, leans)) * turning / steps
        below += turning
    top = out / math.sin(cut.flare) - below
    radii = [top + cut.around.at(k / steps) for k in range(steps + 1)]
    ring = math.fsum(math.hypot(b - a, (a + b) / 2 * turn / steps) for a, b in pairwise(radii))
    assert cut.sweep == pytest.approx(ring, abs=0.02)


@settings(max_examples=drawn(150), deadline=None)
@given(st.one_of(bodies, curved, turned))
def test_sides_run_smoothly_over_the_hip_and_meet_the_waist_squarely(cut: ShapedGores) -> None:
    outline = cut.outline(0.1, 0.1 + 1 / cut.panels)
    for side in (outline.begin, outline.finish):
        for one, other in pairwise(side):
            assert math.dist(one.end, other.start) < 1e-6
            turn = direction_along((one,), length(one)) - direction_along((other,), 0.0)
            assert abs(math.remainder(turn, math.tau)) < 1e-6
    waist = path_length(outline.waist)
    for corner in (
        direction_along(outline.begin, 0.0) - direction_along(outline.waist, waist),
        direction_along(outline.waist, 0.0)
        - direction_along(outline.finish, path_length(outline.finish)),
    ):
        assert abs(math.remainder(corner - math.pi / 2, math.tau)) < 1e-6
    edges = (outline.begin, outline.hem, outline.finish, outline.waist)
    for before, after in pairwise((*edges, outline.begin)):
        assert math.dist(before[-1].end, after[0].start) < 1e-6


@settings(max_examples=drawn(100), deadline=None)
@given(st.one_of(bodies, turned), st.booleans())
def test_the_cutting_line_lies_outside_the_stitching_line(cut: ShapedGores, half: bool) -> None:
    width = (0.5 if half else 1.0) / cut.panels
    drawn = piece(cut.outline(0.25, 0.25 + width), half=half)
    outer = flattened(cutting_line(drawn))
    for edge in drawn.edges:
        for x, y in tape.chain(edge.path, 9)[1:-1]:
            if edge.kind is not EdgeKind.FOLD:
                assert tape.winds_round((x, y), outer), edge.name
    assert area(cutting_line(drawn)) > area(stitching_line(drawn))
    corners = [edge.path[0].start for edge in drawn.edges]
    for segment in cutting_line(drawn):
        for point in tape.dots(segment, 20):
            if min(math.dist(point, corner) for corner in corners) < 40:
                continue
            away, edge = min(
                ((tape.gap(point, edge.path), edge) for edge in drawn.edges),
                key=lambda pair: pair[0],
            )
            assert away == pytest.approx(edge.allowance, abs=1e-4), edge.name
